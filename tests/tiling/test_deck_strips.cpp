// SPDX-License-Identifier: BSL-1.0

// A deck at the overhangs alone: the demo workshop by hand, then strips and steel against the plane over seeded roofs.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/tiling/deck_strips.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"
#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const double factor = std::sqrt(10.0) / 3.0;  // slope / run at 4 in 12
// Slope 234 x 1.0540926 = 246.657657 in; the wall line lies 18 x 1.0540926 = 18.973666 in up it.
const Length ridge = 234_in * factor;
const DeckStripsPlan overhangs{.thickness = 0.4375_in, .eave_depth = 18_in * factor, .rake_depth = 12_in};
const SheetPlan sheet_plan{.sheet = {4_ft, 8_ft}};

// Rows on edge, 1 1/2 in wide. Fascia row at 0.75, ridge row at 246.657657 - 0.75 = 245.907657; between them 245.157657 in,
// 11 spaces of 22.287060 to keep within 24: row 1 at 23.037060.
PurlinRows workshop_rows() {
    return purlin_rows(plane_of(62_ft, ridge), AtMost{24_in}, {.stock = {.lie = PurlinLie::on_edge}});
}
FrameLines workshop_frames() {
    return frame_lines({.spacing = EqualBays{6}}, {.length = 60_ft, .rake_overhang = 12_in}, SeenFrom::front);
}
DeckStrips<Surface::purlin_top> workshop_strips(const DeckStripsPlan& plan = overhangs) {
    return deck_strips(plane_of(62_ft, ridge), supports_of(workshop_rows()), workshop_frames(), plan);
}
Extent in_parent(const DeckStrip<Surface::purlin_top>& strip) {
    return {to_parent(strip, strip.plane.outline[0]), to_parent(strip, strip.plane.outline[2])};
}
bool inside(const Extent& box, double along, double up) {
    return along > inches(box.low.along) && along < inches(box.high.along) && up > inches(box.low.up) &&
           up < inches(box.high.up);
}
}  // namespace

TEST_CASE("deck strips: the workshop's overhangs by hand") {
    const DeckStrips<Surface::purlin_top> strips = workshop_strips();
    REQUIRE(strips.strips.size() == 3);
    // Row 1 at 23.037060 is the first at or above 18.973666; its upper side is 23.037060 + 0.75 = 23.787060.
    CHECK(strips.dropped_rows == std::vector<std::size_t>{0, 1});
    const Extent eave = in_parent(strips.strips[0]);
    CHECK(strips.strips[0].name == "eave");
    CHECK(eave.low == PlanePoint{0_in, 0_in});
    CHECK(eave.high.along == 744_in);
    CHECK(off_by(eave.high.up, 23.78706_in) < 1e-5);
    // The end frames' centres lie 12 + 0.75 = 12.75 in from the rakes: the first past the 12 in overhang.
    const Extent left = in_parent(strips.strips[1]);
    CHECK(strips.strips[1].name == "left rake");
    CHECK(left.low.along == 0_in);
    CHECK(left.high.along == 12.75_in);
    CHECK(left.low.up == eave.high.up);
    CHECK(off_by(left.high.up, ridge) < 1e-9);
    const Extent right = in_parent(strips.strips[2]);
    CHECK(strips.strips[2].name == "right rake");
    CHECK(right.low.along == 731.25_in);
    CHECK(off_by(right.high.along, 744_in) < 1e-9);
    // 744 x 23.787060 + 2 x 12.75 x (246.657657 - 23.787060) = 17697.573 + 5683.200 = 23380.773 sq in = 162.3665 sq ft.
    CHECK(std::fabs(square_feet(strips.area) - 162.3665) < 5e-5);
    // The steel's own: 718.5 x 222.870597 = 160132.52 sq in.
    CHECK(std::fabs(square_inches(signed_area(strips.steel)) - 160132.52) < 0.01);
    CHECK(strips.drop == 0.4375_in);
    CHECK(off_by(strips.marks_lower, 0.4375_in / 3.0) < 1e-12);  // 0.4375 x 4 / 12 = 0.145833
    CHECK(strips.rake_ends_drop);
}

TEST_CASE("deck strips: what lies under each, in its own coordinates") {
    const DeckStrips<Surface::purlin_top> strips = workshop_strips();
    const DeckStrip<Surface::purlin_top>& eave = strips.strips[0];
    CHECK(eave.parent_rows == std::vector<std::size_t>{0, 1});
    CHECK_FALSE(eave.backed);
    CHECK(off_by(eave.supports.lines[1].centreline.front().up, 23.03706_in) < 1e-5);
    // Right rake: a backing on row 1, its centre 0.75 in up, then rows 2 to 11; row 2 lies 22.287060 - 0.75 = 21.537060 up.
    const DeckStrip<Surface::purlin_top>& right = strips.strips[2];
    REQUIRE(right.supports.lines.size() == 11);
    CHECK(right.backed);
    CHECK(right.parent_rows.front() == 1);
    CHECK(right.parent_rows[1] == 2);
    CHECK(right.parent_rows.back() == 11);
    CHECK(off_by(right.supports.lines[0].centreline.front().up, 0.75_in) < 1e-12);
    CHECK(off_by(right.supports.lines[1].centreline.front().up, 21.53706_in) < 1e-5);
    CHECK(off_by(right.supports.lines[1].centreline.back().along, 12.75_in) < 1e-9);
    // Its origin in the building: 731.25 in along, 23.787060 up the slope is 22.566385 in of run and 7.522128 of rise.
    CHECK(off_by(right.plane.placement.origin.x, 731.25_in) < 1e-9);
    CHECK(off_by(right.plane.placement.origin.y, 22.566385_in) < 1e-5);
    CHECK(off_by(right.plane.placement.origin.z, 7.522128_in) < 1e-5);
}

TEST_CASE("deck strips: sheets and nails of each") {
    const DeckStrips<Surface::purlin_top> strips = workshop_strips();
    const std::vector<Sheets> laid = tile_deck_strips(strips, sheet_plan);
    REQUIRE(laid.size() == 3);
    // Eave: 744 in by columns of 48.125: 15 take 721.875, the 16th is 22.125 wide. Each 23.787 long, cut to 23 13/16.
    REQUIRE(laid[0].pieces.size() == 16);
    CHECK(laid[0].pieces[0].length == 23.8125_in);
    CHECK(laid[0].pieces[15].width == 22.125_in);
    CHECK(laid[0].findings.empty());
    // Each full column: both rows under its ends, 48 - 2 x 3/8 = 47.25 in at 6 in: 8 spaces, 9 nails. The last: 22.125 -
    // 0.75 = 21.375: 4 spaces, 5 nails. 2 x (15 x 9 + 5) = 280.
    const NailCount nails = count_nails(tile_sheets(strips.strips[0].plane, strips.strips[0].supports, sheet_plan),
                                        strips.strips[0].supports, {.edge = 6_in, .field = 12_in});
    CHECK(nails.total == 280);
    // Rake: 222.870597 in up in one column 12.75 wide: 96 + 1/8 + 96 + 1/8 + 30.6206.
    REQUIRE(laid[1].pieces.size() == 3);
    CHECK(laid[1].pieces[0].width == 12.75_in);
    CHECK(laid[1].pieces[0].length == 96_in);
    CHECK(off_by(laid[1].pieces[2].length, 30.625_in) < 1e-9);
    // Its edges lie on the backing and the ridge row.
    for (const Finding& finding : laid[1].findings) {
        CHECK(finding.code != FindingCode::edge_past_support);
    }
    // In the parent's coordinates: the right rake's first sheet starts at 731.25, on the eave strip's upper end.
    CHECK(off_by(laid[2].pieces[0].outline[0].along, 731.25_in) < 1e-9);
    CHECK(off_by(laid[2].pieces[0].outline[0].up, 23.78706_in) < 1e-5);
}

TEST_CASE("deck strips: only the eave strip hangs past the fascia") {
    SheetPlan plan = sheet_plan;
    plan.past_fascia = 0.5_in;
    const std::vector<Sheets> laid = tile_deck_strips(workshop_strips(), plan);
    CHECK(laid[0].pieces[0].outline[0].up == -0.5_in);
    CHECK(off_by(laid[1].pieces[0].outline[0].up, 23.78706_in) < 1e-5);
}

TEST_CASE("deck strips: eave alone, and rakes without a frame behind them") {
    DeckStripsPlan plan = overhangs;
    plan.rake_depth = no_length;
    const DeckStrips<Surface::purlin_top> eave = workshop_strips(plan);
    CHECK(eave.strips.size() == 1);
    CHECK_FALSE(eave.rake_ends_drop);
    CHECK(eave.steel[0].along == 0_in);
    // A single frame at 20 in, short of the 24 in overhang: the strips end exactly at it.
    plan.rake_depth = 24_in;
    FrameLines frames = workshop_frames();
    frames.centres = {20_in};
    const DeckStrips<Surface::purlin_top> exact =
        deck_strips(plane_of(62_ft, ridge), supports_of(workshop_rows()), frames, plan);
    CHECK(exact.steel[0].along == 24_in);
    CHECK(exact.steel[1].along == 720_in);
    // A square tail: what drops, drops square to the slope, and no mark moves.
    plan.tail = TailCut::square;
    CHECK(workshop_strips(plan).marks_lower == no_length);
}

TEST_CASE("deck strips: a row exactly at the wall line is the one") {
    DeckStripsPlan plan = overhangs;
    plan.eave_depth = workshop_rows().rows[1].centreline.front().up;
    CHECK(workshop_strips(plan).dropped_rows.size() == 2);
    plan.eave_depth += one_inch / 1000.0;
    CHECK(workshop_strips(plan).dropped_rows.size() == 3);
}

TEST_CASE("deck strips: over seeded roofs strips and steel fill the plane, once") {
    SeededNumbers random{20260};
    for (int i = 0; i < sweep(1000); ++i) {
        CAPTURE(i);
        const double rake = random.coin() ? 0.0 : random.between(6, 24);
        const Length wall = random.inches_between(144, 900);
        const PurlinPlane plane = plane_of(wall + 2.0 * one_inch * rake, random.inches_between(120, 320));
        const FrameLines frames = frame_lines({.spacing = BaysAtMost{random.inches_between(24, 140)}},
                                              {.length = wall, .rake_overhang = one_inch * rake}, SeenFrom::front);
        SheetPlan sheets = random_sheet_plan(random);
        sheets.stagger_spaces = 0;
        const PurlinRows rows = random_rows(random, plane, sheets);
        const DeckStripsPlan plan{.thickness = random.inches_between(0.375, 0.75),
                                  .eave_depth = random.inches_between(4, 40),
                                  .rake_depth = one_inch * rake};
        const DeckStrips<Surface::purlin_top> made = deck_strips(plane, supports_of(rows), frames, plan);
        CHECK(made.strips.size() == (rake > 0.0 ? 3U : 1U));
        // Areas add up to the plane's, and any point lies in exactly one of them.
        const Extent whole = extent_of(plane.outline);
        const double all = square_inches(made.area) + square_inches(signed_area(made.steel));
        CHECK(std::fabs(all - square_inches(signed_area(plane.outline))) < 1e-6);
        const Extent steel = extent_of(made.steel);
        for (int k = 0; k < 40; ++k) {
            const double along = random.between(0.0, inches(whole.high.along));
            const double up = random.between(0.0, inches(whole.high.up));
            int over = inside(steel, along, up) ? 1 : 0;
            for (const auto& strip : made.strips) {
                over += inside(in_parent(strip), along, up) ? 1 : 0;
            }
            CHECK(over == 1);
        }
        // The deck reaches the wall line and the rakes' depth; below its end every row drops, above it none.
        CHECK(steel.low.up >= plan.eave_depth);
        CHECK(steel.low.along >= plan.rake_depth);
        CHECK(whole.high.along - steel.high.along + count_tolerance >= plan.rake_depth);
        for (std::size_t r = 0; r < rows.rows.size(); ++r) {
            const bool dropped = r < made.dropped_rows.size();
            CHECK((rows.rows[r].centreline.front().up < steel.low.up + 1_in) == dropped);
        }
        // Each support, moved back, is the parent's row; the strips' sheets fill them but for gaps.
        for (const auto& strip : made.strips) {
            require_sound(strip.supports, "supports");
            REQUIRE(strip.parent_rows.size() == strip.supports.lines.size());
            for (std::size_t s = strip.backed ? 1 : 0; s < strip.parent_rows.size(); ++s) {
                for (const PlanePoint& p : strip.supports.lines[s].centreline) {
                    const PlanePoint back = to_parent(strip, p);
                    CHECK(off_by(up_at(rows.rows[strip.parent_rows[s]].centreline, back.along), back.up) < 1e-8);
                }
            }
        }
        const std::vector<Sheets> laid = tile_deck_strips(made, sheets);
        for (std::size_t s = 0; s < laid.size(); ++s) {
            const Extent box = in_parent(made.strips[s]);
            const Length past = s == 0 ? sheets.past_fascia : no_length;
            for (const SheetPiece& piece : laid[s].pieces) {
                const Extent extent = extent_of(piece.outline);
                CHECK(extent.low.along >= box.low.along - count_tolerance);
                CHECK(extent.high.along <= box.high.along + count_tolerance);
                CHECK(extent.low.up >= box.low.up - past - count_tolerance);
                CHECK(extent.high.up <= box.high.up + count_tolerance);
            }
        }
    }
}

TEST_CASE("deck strips: what is refused") {
    const auto refused = [](const DeckStripsPlan& plan) { return refusal_of([&] { (void)workshop_strips(plan); }); };
    DeckStripsPlan plan = overhangs;
    plan.thickness = no_length;
    CHECK(refused(plan).path == "deck_strips.thickness");
    plan = overhangs;
    plan.eave_depth = 240_in;  // only the ridge row lies above it
    CHECK(refused(plan).code == FaultCode::does_not_fit);
    plan = overhangs;
    plan.rake_depth = 21_ft;
    CHECK(refused(plan).path == "deck_strips.rake_depth");
    for (const Length none : lengths_that_are_none()) {
        plan = overhangs;
        plan.eave_depth = none;
        CHECK(refused(plan).path == "deck_strips.eave_depth");
    }
    // A plane out of square, and chords instead of rows.
    const PurlinPlane askew =
        plane_with<Surface::purlin_top>({{0_in, 0_in}, {744_in, 0_in}, {744_in, 246_in}, {0_in, 247_in}});
    CHECK(refusal_of([&] {
              (void)deck_strips(askew, supports_of(workshop_rows()), workshop_frames(), overhangs);
          }).code == FaultCode::not_supported);
    const ChordPlane chords = plane_of<Surface::chord_top>(62_ft, ridge);
    CHECK(refusal_of([&] {
              (void)deck_strips(chords, supports_of(workshop_frames(), chords), workshop_frames(), overhangs);
          }).code == FaultCode::not_supported);
    // Half of the plane is the most that one rake may take.
    plan = overhangs;
    plan.rake_depth = 20_ft;
    const PurlinPlane short_plane = plane_of(30_ft, ridge);
    const PurlinRows rows = purlin_rows(short_plane, AtMost{24_in}, {.stock = {.lie = PurlinLie::on_edge}});
    CHECK(refusal_of([&] { (void)deck_strips(short_plane, supports_of(rows), workshop_frames(), plan); }).code ==
          FaultCode::does_not_fit);
}
