// SPDX-License-Identifier: BSL-1.0

// Stacks on a slope: the demo workshop by hand, then over seeded planes.

#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/order/stack_pieces.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"
#include "tiling/tiling_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
// The workshop's slope: 62 ft by 246.6577 in at 4 in 12; frames at 12.75, 132, 252, 372, 492, 612, 731.25; rows 1 1/2 in wide at
// 24 x 1 ... 24 x 10.
PurlinRows workshop_rows() {
    return purlin_rows(workshop_plane(), Fixed{24_in}, {.stock = {.lie = PurlinLie::on_edge}});
}
FrameLines workshop_frames() {
    return frame_lines({.spacing = EqualBays{6}}, {.length = 60_ft, .rake_overhang = 12_in}, SeenFrom::front);
}
// 7/16 in sheathing at 1.4 lb per sq ft, 0.4 lb per 1/8 in (ASCE 7 Table C3-1, from memory).
const ArealMass sheathing_7_16 = ArealMass::from_pounds_per_square_foot(1.4);
const HandledPieces sheets{.count = 46, .length = 8_ft, .width = 4_ft, .layer = sheathing_7_16};
// 15 psf stands in the tests for what a licensed professional would name.
const StackPlan up_slope{.load_limit = pressure_from_psf(15.0), .lie = StackLie::up_slope};
const StackPlan along_eave{.load_limit = pressure_from_psf(15.0), .lie = StackLie::along_eave};

Stacks workshop_stacks(const HandledPieces& pieces, const StackPlan& plan) {
    return stack_pieces(pieces, workshop_plane(), supports_of(workshop_rows()), workshop_frames(), plan);
}
bool has(const Stacks& stacks, StackFindingCode code) {
    return std::any_of(stacks.findings.begin(), stacks.findings.end(),
                       [&](const StackFinding& f) { return f.code == code; });
}
}  // namespace

TEST_CASE("stack: sheets of the demo by hand") {
    const Stacks stacks = workshop_stacks(sheets, up_slope);
    // One sheet: 1.4 psf on itself, in plan 1.4 x 1.0540926 = 1.475730 psf. 15 / 1.475730 = 10.16: ten to a stack.
    CHECK(std::fabs(pounds(stacks.each) - 44.8) < 1e-9);
    CHECK(stacks.pieces_a_stack == 10);
    // 46 / 10: five stacks, filled evenly 10 9 9 9 9.
    CHECK(stacks.stacks_needed == 5);
    REQUIRE(stacks.places.size() == 5);
    CHECK(stacks.places[0].pieces == 10);
    CHECK(stacks.places[4].pieces == 9);
    CHECK(stacks.on_ground == 0);
    CHECK(stacks.findings.empty());
    CHECK(std::fabs(pounds(stacks.places[0].mass) - 448.0) < 1e-9);  // 10 x 44.8
    CHECK(std::fabs(psf(stacks.places[0].load) - 14.0) < 1e-9);      // 448 / 32
    CHECK(std::fabs(psf(stacks.places[0].load_in_plan) - 14.75730) < 5e-6);
}

TEST_CASE("stack: where they stand") {
    const Stacks stacks = workshop_stacks(sheets, up_slope);
    REQUIRE(stacks.places.size() == 5);
    // Middle frame of seven is frame 3 at 372, then 4, 2, 5, 1.
    const std::vector<std::size_t> frames{3, 4, 2, 5, 1};
    for (std::size_t i = 0; i < frames.size(); ++i) {
        CHECK(stacks.places[i].frame == frames[i]);
    }
    // Row 1 at 24: its lower side 23.25 and 3/4 in for the cleat, so the stack starts at 24, exactly the clearance.
    const StackPlace& first = stacks.places[0];
    CHECK(first.row == 1);
    CHECK(first.footprint[0] == PlanePoint{348_in, 24_in});  // 372 - 48 / 2
    CHECK(first.footprint[2] == PlanePoint{396_in, 120_in});
    // It bears on rows 1 (upper half) to 5 (120: lower half).
    CHECK(first.rows == std::vector<std::size_t>{1, 2, 3, 4, 5});
}

TEST_CASE("stack: clearance to the rakes and the eave") {
    // 8 ft along the eave at frame 0: from 12.75 - 48 < 0: never. At frame 1, 132: from 84 to 180. Five places remain.
    HandledPieces many = sheets;
    many.count = 70;
    const Stacks stacks = workshop_stacks(many, along_eave);
    CHECK(stacks.pieces_a_stack == 10);
    CHECK(stacks.stacks_needed == 7);
    REQUIRE(stacks.places.size() == 5);
    CHECK(stacks.on_ground == 20);  // 70 - 5 x 10
    REQUIRE(stacks.findings.size() == 1);
    CHECK(stacks.findings[0].code == StackFindingCode::left_on_ground);
    CHECK(stacks.findings[0].measured == 20.0);
    CHECK(stacks.places[0].rows == std::vector<std::size_t>{1, 2, 3});  // 24 to 72
    // With 26 in to keep, row 1 is too low by 2 in and row 2 holds them.
    StackPlan wider = along_eave;
    wider.clearance = 26_in;
    CHECK(workshop_stacks(sheets, wider).places[0].row == 2);
    // With 85 in to keep, frames 1 and 5 (84 in from the rakes) drop out.
    wider.clearance = 85_in;
    CHECK(workshop_stacks(many, wider).places.size() == 3);
}

TEST_CASE("stack: long panels do not overlap") {
    // 14 ft = 168 in along the eave, bays of 120: every other frame, 3, 5 (612 + 84 = 696, 48 in from the rake) and 1.
    const HandledPieces panels{
        .count = 60, .length = 14_ft, .width = 38_in, .layer = ArealMass::from_pounds_per_square_foot(0.63)};
    const Stacks stacks = workshop_stacks(panels, along_eave);
    CHECK(stacks.pieces_a_stack == 22);  // 15 / (0.63 x 1.0540926) = 22.59
    REQUIRE(stacks.places.size() == 3);
    CHECK(stacks.places[0].frame == 3);
    CHECK(stacks.places[1].frame == 5);
    CHECK(stacks.places[2].frame == 1);
    CHECK(stacks.places[0].pieces == 20);
}

TEST_CASE("stack: what cannot stand is said") {
    StackPlan plan = up_slope;
    // A limit that carries exactly ten in plan.
    plan.load_limit = pressure_from_psf(10.0 * 1.4 / workshop_plane().pitch.cosine());
    CHECK(workshop_stacks(sheets, plan).pieces_a_stack == 10);
    plan.load_limit = pressure_from_psf(1.45);  // a single sheet is 1.4757 in plan
    const Stacks heavy = workshop_stacks(sheets, plan);
    CHECK(heavy.pieces_a_stack == 0);
    CHECK(heavy.places.empty());
    CHECK(heavy.on_ground == 46);
    REQUIRE(heavy.findings.size() == 1);
    CHECK(heavy.findings[0].code == StackFindingCode::piece_too_heavy);
    CHECK(std::fabs(heavy.findings[0].measured - 1.47573) < 5e-6);
    // 20 ft panels up a slope of 246.66 - 48 = 198.66 in.
    const HandledPieces long_ones{.count = 3, .length = 20_ft, .width = 3_ft, .layer = sheathing_7_16};
    const Stacks none = workshop_stacks(long_ones, up_slope);
    CHECK(none.places.empty());
    REQUIRE(none.findings.size() == 2);
    CHECK(none.findings[0].code == StackFindingCode::longer_than_room);
    CHECK(none.findings[0].measured == 240.0);
    CHECK(std::fabs(none.findings[0].limit - 198.657657) < 5e-7);
    CHECK(none.findings[1].code == StackFindingCode::left_on_ground);
    // 12 in strips along the eave lie on one row of 24 in.
    const HandledPieces strips{.count = 3, .length = 8_ft, .width = 12_in, .layer = sheathing_7_16};
    const Stacks few = workshop_stacks(strips, along_eave);
    CHECK(few.places.empty());
    CHECK(few.findings[0].code == StackFindingCode::too_few_rows);
    CHECK(few.findings[0].measured == 1.0);
    // A cleat as wide as the rows leaves the stack nothing to lie on.
    plan = up_slope;
    plan.cleat = 1.5_in;
    CHECK(workshop_stacks(sheets, plan).findings[0].code == StackFindingCode::no_place);
    // Nothing to stack: nothing found.
    HandledPieces empty = sheets;
    empty.count = 0;
    CHECK(workshop_stacks(empty, up_slope).findings.empty());
}

TEST_CASE("stack: over seeded planes every stack keeps its limit, its clearance and its rows") {
    SeededNumbers random{314};
    int placed = 0;
    int grounded = 0;
    for (int i = 0; i < sweep(2000); ++i) {
        CAPTURE(i);
        const double wall = random.between(200, 900);
        const PurlinPlane plane = random_plane(random, wall, random.between(120, 320), 2.0);
        SheetPlan unused{.sheet = {48_in, 96_in}};
        const PurlinRows rows = random_rows(random, plane, unused);
        const FrameLines frames = frame_lines({.spacing = BaysAtMost{random.inches_between(24, 140)}},
                                              {.length = one_inch * wall, .rake_overhang = no_length}, SeenFrom::front);
        const HandledPieces pieces{.count = random.whole(1, 120),
                                   .length = random.inches_between(30, 220),
                                   .width = random.inches_between(12, 48),
                                   .layer = ArealMass::from_pounds_per_square_foot(random.between(0.5, 3.0))};
        StackPlan plan{.load_limit = pressure_from_psf(random.between(1.0, 25.0)),
                       .lie = random.coin() ? StackLie::along_eave : StackLie::up_slope};
        plan.clearance = random.inches_between(0, 40);
        plan.least_rows = static_cast<std::size_t>(random.whole(1, 3));
        const Stacks stacks = stack_pieces(pieces, plane, supports_of(rows), frames, plan);
        std::int64_t on_roof = 0;
        for (std::size_t s = 0; s < stacks.places.size(); ++s) {
            const StackPlace& place = stacks.places[s];
            on_roof += place.pieces;
            CHECK(place.pieces >= 1);
            CHECK(place.pieces <= stacks.pieces_a_stack);
            CHECK(psf(place.load_in_plan) <= psf(plan.load_limit) + 1e-9);
            CHECK(psf(place.load) <= psf(place.load_in_plan));
            CHECK(place.rows.size() >= plan.least_rows);
            const Extent box = extent_of(place.footprint);
            CHECK(off_by((box.low.along + box.high.along) / 2.0, frames.centres[place.frame]) < 1e-9);
            // Distance of each corner to each edge as a line, by its normal.
            for (std::size_t e = 0; e < 4; ++e) {
                const PlanePoint a = plane.outline[e];
                const PlanePoint b = plane.outline[(e + 1) % 4];
                const double dx = inches(b.along - a.along);
                const double dy = inches(b.up - a.up);
                for (const PlanePoint& p : place.footprint) {
                    const double off = (dx * inches(p.up - a.up) - dy * inches(p.along - a.along)) / std::hypot(dx, dy);
                    CHECK(off >= inches(plan.clearance) - 2e-5);
                }
            }
            // Each row under it lies under it at both sides and in the middle.
            for (const std::size_t r : place.rows) {
                for (const Length along : {box.low.along, frames.centres[place.frame], box.high.along}) {
                    const Length centre = up_at(rows.rows[r].centreline, along);
                    const Length half = rows.rows[r].width / 2.0;
                    CHECK(centre + half >= box.low.up + plan.least_bearing - count_tolerance);
                    CHECK(centre - half <= box.high.up - plan.least_bearing + count_tolerance);
                }
            }
            // The cleat's share of its row lies below the stack.
            CHECK(place.rows.front() == place.row);
            const Length side =
                up_at(rows.rows[place.row].centreline, frames.centres[place.frame]) - rows.rows[place.row].width / 2.0;
            CHECK(box.low.up - side + count_tolerance >= plan.cleat);
            for (std::size_t other = 0; other < s; ++other) {
                const Extent there = extent_of(stacks.places[other].footprint);
                const bool apart = box.low.along >= there.high.along - count_tolerance ||
                                   there.low.along >= box.high.along - count_tolerance;
                CHECK(apart);
            }
        }
        CHECK(on_roof + stacks.on_ground == pieces.count);
        CHECK(has(stacks, StackFindingCode::left_on_ground) == (stacks.on_ground > 0 && stacks.pieces_a_stack > 0));
        // One piece more on a footprint would pass the limit.
        const double next = static_cast<double>(stacks.pieces_a_stack + 1) * pieces.layer.pounds_per_square_foot();
        CHECK((stacks.pieces_a_stack == pieces.count || next / plane.pitch.cosine() > psf(plan.load_limit)));
        placed += stacks.places.empty() ? 0 : 1;
        grounded += stacks.on_ground > 0 ? 1 : 0;
    }
    CHECK(placed > 0);
    CHECK(grounded > 0);
}

TEST_CASE("stack: what is refused") {
    const auto refused = [](const HandledPieces& pieces, const StackPlan& plan) {
        return refusal_of([&] { (void)workshop_stacks(pieces, plan); });
    };
    // The load has no default: left out, it is no load and refused.
    StackPlan plan{.load_limit = {}, .lie = StackLie::up_slope};
    CHECK(refused(sheets, plan).path == "stack.load_limit");
    plan.load_limit = pressure_from_psf(std::numeric_limits<double>::quiet_NaN());
    CHECK(refused(sheets, plan).code == FaultCode::not_finite);
    plan = up_slope;
    plan.least_rows = 0;
    CHECK(refused(sheets, plan).path == "stack.least_rows");
    for (const Length none : lengths_that_are_none()) {
        plan = up_slope;
        plan.clearance = none;
        CHECK(refused(sheets, plan).path == "stack.clearance");
        HandledPieces bad = sheets;
        bad.width = none;
        CHECK(refused(bad, up_slope).path == "pieces.width");
    }
    PurlinPlane open = workshop_plane();
    open.openings.push_back({{100_in, 100_in}, {120_in, 100_in}, {120_in, 120_in}});
    CHECK(refusal_of([&] {
              (void)stack_pieces(sheets, open, supports_of(workshop_rows()), workshop_frames(), up_slope);
          }).path == "plane.openings");
    const ChordPlane chords = plane_of<Surface::chord_top>(62_ft, 200_in);
    CHECK(refusal_of([&] {
              (void)stack_pieces(sheets, chords, supports_of(workshop_frames(), chords), workshop_frames(), up_slope);
          }).code == FaultCode::not_supported);
}
