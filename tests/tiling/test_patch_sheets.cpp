// SPDX-License-Identifier: BSL-1.0

// Patches in decks: by hand, and over seeded decks.

#include <eavewright/framing/frames.hpp>
#include <eavewright/tiling/patch_sheets.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "any_planes.hpp"
#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// 20 ft by 16 ft, rows 3 in wide at 24 in and on eave and ridge, sheets of 4 by 8 ft with no gap wider than an eighth: joints
/// at 96, where every other lane starts shorter by a row at 72.
struct Deck {
    PurlinPlane plane = plane_of(240_in, 192_in);
    Supports<Surface::purlin_top> rows{SupportRun::along_eave, {}, 24_in};
    PatchPlan plan{.sheets = {.sheet = {48_in, 96_in}, .gap = 0.125_in, .joints = JointPlace::on_supports}};
    Deck() {
        for (int k = 0; k <= 8; ++k) {
            const Length up = k == 0 ? 1.5_in : k == 8 ? 190.5_in : 24_in * k;
            rows.lines.push_back({{{0_in, up}, {240_in, up}}, 3_in});
        }
    }
};
}  // namespace

TEST_CASE("patch by hand: one sheet ruined in the middle of a deck") {
    // Lane A, 0 to 48: A1 from 0 to 95 15/16, half a gap short of the row at 96; A2 from 96 1/16 to 191 15/16 or so.
    // Ruined 60 to 70 up: cut over 48 and 72 would be one space; two are asked, so 48 to 96 or 24 to 72. What stays of
    // A1 then bridges 0 to 48 (rows at 1.5, 24, 48: two spaces) or 1.5 to 24 (one) and 72 to 96 (one): so 48 and the joint.
    const Deck deck;
    const Sheets sheets = tile_sheets(deck.plane, deck.rows, deck.plan.sheets);
    const SheetPatch patch = patch_sheets(sheets, deck.rows, deck.plan, {{{10_in, 60_in}, {20_in, 70_in}}});
    REQUIRE(patch.damaged == std::vector<std::size_t>{0});
    CHECK(patch.whole_out.empty());
    REQUIRE(patch.cuts.size() == 1);
    CHECK(patch.cuts[0].support == 2);
    CHECK(patch.cuts[0].at == 47.9375_in);                       // 48 less half of 1/8
    CHECK(off_by(patch.cuts[0].old_bearing, 1.4375_in) < 1e-9);  // 3 / 2 less half the gap
    CHECK(off_by(patch.cuts[0].new_bearing, 1.4375_in) < 1e-9);
    REQUIRE(patch.pieces.size() == 1);
    // From 48 1/16 to the joint's half gap below 96, 95 15/16: 47 7/8.
    CHECK(patch.pieces[0].length == 47.875_in);
    CHECK(patch.pieces[0].width == 48_in);
    CHECK(patch.pieces[0].spaces == 2);
    REQUIRE(patch.stays.size() == 1);
    CHECK(patch.stays[0].spaces == 2);
    CHECK(off_by(extent_of(patch.stays[0].outline).high.up, 47.9375_in) < 1e-9);
    CHECK(std::fabs(square_inches(patch.stays[0].area) - 48.0 * 47.9375) < 1e-9);
    CHECK(std::fabs(square_inches(patch.put_in) - 48.0 * 47.875) < 1e-9);
    CHECK(std::fabs(square_inches(patch.gaps) - 48.0 * 0.125) < 1e-9);
    CHECK(patch.findings.empty());
    CHECK(patch.blocks.empty());
    // Whole sheets out, if that is asked.
    PatchPlan whole = deck.plan;
    whole.whole_sheets = true;
    const SheetPatch all = patch_sheets(sheets, deck.rows, whole, {{{10_in, 60_in}, {20_in, 70_in}}});
    CHECK(all.whole_out == std::vector<std::size_t>{0});
    CHECK(all.cuts.empty());
    CHECK(all.pieces[0].length == sheets.pieces[0].length);
    CHECK(square_inches(all.gaps) == 0.0);
    // One space is enough where that is allowed: 48 to 72, two cuts, and the sheet stays on both sides.
    PatchPlan one = deck.plan;
    one.least_spaces = 1;
    const SheetPatch least = patch_sheets(sheets, deck.rows, one, {{{10_in, 60_in}, {20_in, 70_in}}});
    CHECK(least.cuts.size() == 2);
    CHECK(least.stays.size() == 2);
    CHECK(least.pieces[0].length == 23.875_in);  // 24 less a gap
}

TEST_CASE("patch by hand: across a joint, one new piece bridges it") {
    // Around the joint at 96 in lane A, 90 to 100: from 48 (what stays of A1 bridges two spaces) ... to 120 or 144. Over 72 to
    // 120 the new piece would bridge 72, 96, 120: two spaces, and 48 in. A1 keeps 1.5 to 72, three spaces; A2 120 to 190.5.
    const Deck deck;
    const Sheets sheets = tile_sheets(deck.plane, deck.rows, deck.plan.sheets);
    const SheetPatch patch = patch_sheets(sheets, deck.rows, deck.plan, {{{4_in, 90_in}, {30_in, 100_in}}});
    REQUIRE(patch.damaged.size() == 2);
    REQUIRE(patch.pieces.size() == 1);
    CHECK(patch.pieces[0].replaces == patch.damaged);
    CHECK(patch.pieces[0].length == 47.875_in);
    CHECK(patch.pieces[0].spaces == 2);
    REQUIRE(patch.cuts.size() == 2);
    CHECK(patch.cuts[0].support == 3);
    CHECK(patch.cuts[0].at == 71.9375_in);
    CHECK(patch.cuts[1].support == 5);
    CHECK(off_by(patch.cuts[1].at, 24_in) < 1e-9);  // 120 1/16 less where A2 begins, 96 1/16
    CHECK(std::fabs(square_inches(patch.gaps) - 2.0 * 48.0 * 0.125) < 1e-9);
    CHECK(std::fabs(square_inches(patch.closed) - 48.0 * 0.125) < 1e-9);
    CHECK(patch.findings.empty());
    // Two lanes hurt: their lengths differ, as the joints do.
    const SheetPatch two = patch_sheets(sheets, deck.rows, deck.plan, {{{40_in, 90_in}, {60_in, 100_in}}});
    CHECK(two.pieces.size() == 2);
    CHECK(two.damaged.size() == 3);  // A1, A2, B2
}

TEST_CASE("patch by hand: at the eave") {
    // 0 to 10 up in lane C: cut over 24 would leave one space to the eave; 48 leaves two new and two old ones to 96.
    const Deck deck;
    const Sheets sheets = tile_sheets(deck.plane, deck.rows, deck.plan.sheets);
    const SheetPatch patch = patch_sheets(sheets, deck.rows, deck.plan, {{{100_in, 0_in}, {110_in, 10_in}}});
    REQUIRE(patch.cuts.size() == 1);
    CHECK(patch.cuts[0].support == 2);
    CHECK(off_by(patch.cuts[0].at, 48.0625_in) < 1e-9);  // from its lower end, the eave: the edge of what stays
    REQUIRE(patch.pieces.size() == 1);
    CHECK(patch.pieces[0].length == 47.9375_in);
    CHECK(extent_of(patch.pieces[0].outline).low.up == 0_in);
    CHECK(patch.findings.empty());
    // On rows that miss the eave by 6 in it stands out too far, and a joint on nothing gets a block.
    Deck bare;
    bare.rows.lines[0] = {{{0_in, 9_in}, {240_in, 9_in}}, 3_in};
    const SheetPatch out = patch_sheets(sheets, bare.rows, bare.plan, {{{100_in, 0_in}, {110_in, 10_in}}});
    REQUIRE(out.findings.size() == 1);
    CHECK(out.findings[0].code == PatchFindingCode::edge_past_support);
    CHECK(off_by(out.findings[0].measured, 7.5_in) < 1e-9);  // 9 less 1.5
    Deck off;
    off.plan.sheets.joints = JointPlace::full_sheets;
    off.rows.lines[4] = {{{0_in, 100_in}, {240_in, 100_in}}, 3_in};
    const Sheets full = tile_sheets(off.plane, off.rows, off.plan.sheets);
    const SheetPatch block = patch_sheets(full, off.rows, off.plan, {{{4_in, 80_in}, {10_in, 90_in}}});
    REQUIRE(block.pieces.size() == 1);
    REQUIRE(block.blocks.size() == 1);
    CHECK(block.findings[0].code == PatchFindingCode::end_on_nothing);
    CHECK(block.blocks[0].length == 48_in);
    CHECK(block.blocks[0].from.up == 96_in);  // the old joint, half a gap on
}

namespace {
double area_of_parts(const std::vector<PlanePoint>& outline, const std::vector<std::vector<PlanePoint>>& cutouts) {
    double area = square_inches(signed_area(outline));
    for (const std::vector<PlanePoint>& cutout : cutouts) {
        area -= std::fabs(square_inches(signed_area(cutout)));
    }
    return area;
}
bool lies_in(const std::vector<PlanePoint>& outline, const std::vector<std::vector<PlanePoint>>& cutouts,
             PlanePoint p) {
    bool in = detail::is_inside(p, outline);
    for (const std::vector<PlanePoint>& cutout : cutouts) {
        in = in && !detail::is_inside(p, cutout);
    }
    return in;
}

/// Areas close, nothing overlaps, all damage is out, and every straight end is on a row or found.
void check_patch(const PurlinPlane& plane, const Supports<Surface::purlin_top>& rows, const Sheets& sheets,
                 const PatchPlan& plan, const std::vector<DamagedArea>& areas, const SheetPatch& patch,
                 SeededNumbers& random) {
    const auto is_damaged = [&](std::size_t piece) {
        return std::find(patch.damaged.begin(), patch.damaged.end(), piece) != patch.damaged.end();
    };
    double before = 0.0;
    double stays = 0.0;
    for (std::size_t i = 0; i < sheets.pieces.size(); ++i) {
        const double area = area_of_parts(sheets.pieces[i].outline, sheets.pieces[i].cutouts);
        before += area;
        stays += is_damaged(i) ? 0.0 : area;
    }
    for (const PatchStay& stay : patch.stays) {
        CHECK(is_damaged(stay.piece));
        CHECK(stay.spaces >= plan.least_spaces);
        stays += area_of_parts(stay.outline, stay.cutouts);
    }
    double put_in = 0.0;
    for (const PatchPiece& piece : patch.pieces) {
        put_in += area_of_parts(piece.outline, piece.cutouts);
    }
    const double net = square_inches(net_area(plane));
    const double old_gaps = net - before;
    const double gaps = old_gaps + square_inches(patch.gaps) - square_inches(patch.closed);
    CHECK(std::fabs(stays + put_in + gaps - net) < 1e-9 * net);
    CHECK(std::fabs(square_inches(patch.put_in) - put_in) < 1e-9 * net);
    // New gaps are the cuts' own.
    double cuts = 0.0;
    for (const PatchCut& cut : patch.cuts) {
        CHECK(cut.old_bearing + count_tolerance >= plan.sheets.least_bearing);
        CHECK(cut.new_bearing + count_tolerance >= plan.sheets.least_bearing);
        CHECK(cut.support < rows.lines.size());
        cuts += inches(hypotenuse(cut.to.along - cut.from.along, cut.to.up - cut.from.up)) * inches(plan.sheets.gap);
    }
    CHECK(square_inches(patch.gaps) <= cuts + 1e-9 * net);
    CHECK(square_inches(patch.gaps) >= -1e-9 * net);
    const Extent extent = extent_of(plane.outline);
    for (int k = 0; k < 80; ++k) {
        const bool hurt = k % 2 == 0 && !areas.empty();
        const DamagedArea& area = areas[static_cast<std::size_t>(random.whole(0, static_cast<int>(areas.size()) - 1))];
        const PlanePoint low = hurt ? area.low : extent.low;
        const PlanePoint high = hurt ? area.high : extent.high;
        const PlanePoint p{random.inches_between(inches(low.along), inches(high.along)),
                           random.inches_between(inches(low.up), inches(high.up))};
        int old_ones = 0;
        int new_ones = 0;
        int laid = 0;
        for (std::size_t i = 0; i < sheets.pieces.size(); ++i) {
            const bool in = lies_in(sheets.pieces[i].outline, sheets.pieces[i].cutouts, p);
            laid += in ? 1 : 0;
            old_ones += in && !is_damaged(i) ? 1 : 0;
        }
        for (const PatchStay& stay : patch.stays) {
            old_ones += lies_in(stay.outline, stay.cutouts, p) ? 1 : 0;
        }
        for (const PatchPiece& piece : patch.pieces) {
            new_ones += lies_in(piece.outline, piece.cutouts, p) ? 1 : 0;
        }
        CHECK(old_ones + new_ones <= 1);
        if (hurt && laid == 1) {
            const auto is_sawn = [&](const PatchCut& cut) {  // right beside the middle of a support
                return detail::distance_to(p, cut.from, cut.to) <= plan.sheets.gap;
            };
            CHECK(old_ones == 0);
            CHECK((new_ones == 1 || std::any_of(patch.cuts.begin(), patch.cuts.end(), is_sawn)));
        }
    }
    for (std::size_t i = 0; i < patch.pieces.size(); ++i) {
        const PatchPiece& piece = patch.pieces[i];
        const Extent box = extent_of(piece.outline);
        const auto found = [&](PlanePoint at) {
            return std::any_of(patch.findings.begin(), patch.findings.end(), [&](const PatchFinding& finding) {
                return finding.piece == i &&
                       (finding.code == PatchFindingCode::end_on_nothing ||
                        finding.code == PatchFindingCode::narrow_bearing ||
                        finding.code == PatchFindingCode::edge_past_support) &&
                       off_by(finding.place.up, at.up) < 1e-6;
            });
        };
        CHECK(piece.length <= box.high.up - box.low.up + 2.0 * count_tolerance);
        for (const bool upper : {false, true}) {
            const Length end = upper ? box.high.up : box.low.up;
            std::vector<PlanePoint> corners;
            for (const PlanePoint& p : piece.outline) {
                if (off_by(p.up, end) < 1e-6) {
                    corners.push_back(p);
                }
            }
            if (corners.size() < 2) {
                continue;
            }
            // On a row from one corner to the other, or not much past one that is inside.
            bool carried = true;
            for (const PlanePoint& corner : corners) {
                double nearest = 1e9;
                for (const SupportLine& row : rows.lines) {
                    const double off = inches(up_at(row.centreline, corner.along) - end) * (upper ? -1.0 : 1.0);
                    if (off > -inches(row.width) / 2.0 - 1e-6) {
                        nearest = std::fmin(nearest, std::fmax(0.0, off - inches(row.width) / 2.0));
                    }
                }
                carried = carried && nearest <= inches(plan.sheets.edge_reach) + 1e-6;
            }
            CHECK((carried || found({corners[0].along, end})));
        }
        CHECK((piece.spaces >= plan.least_spaces ||
               std::any_of(patch.findings.begin(), patch.findings.end(), [&](const PatchFinding& finding) {
                   return finding.piece == i && finding.code == PatchFindingCode::few_spaces;
               })));
    }
}

std::vector<DamagedArea> random_damage(SeededNumbers& random, const PurlinPlane& plane) {
    const Extent extent = extent_of(plane.outline);
    std::vector<DamagedArea> areas;
    for (int k = random.whole(0, 2); k >= 0; --k) {
        const PlanePoint low{random.inches_between(inches(extent.low.along), inches(extent.high.along)),
                             random.inches_between(inches(extent.low.up), inches(extent.high.up))};
        areas.push_back({low, {low.along + random.inches_between(1, 70), low.up + random.inches_between(1, 60)}});
    }
    return areas;
}
}  // namespace

TEST_CASE("patches on four-sided decks: areas close, nothing overlaps, every end is carried or found") {
    SeededNumbers random{20331};
    std::size_t bridged = 0;
    std::size_t cuts = 0;
    std::size_t found = 0;
    for (int i = 0; i < sweep(6000); ++i) {
        CAPTURE(i);
        const PurlinPlane plane =
            random_plane(random, random.between(100, 500), random.between(100, 300), random.coin() ? 0.0 : 2.0);
        SheetPlan sheet_plan = random_sheet_plan(random);
        sheet_plan.past_fascia = no_length;
        sheet_plan.stagger_spaces = random.whole(0, 2);
        const Supports<Surface::purlin_top> rows = supports_of(random_rows(random, plane, sheet_plan));
        const Sheets sheets = tile_sheets(plane, rows, sheet_plan);
        PatchPlan plan{.sheets = sheet_plan};
        plan.least_spaces = random.whole(1, 3);
        plan.whole_sheets = random.whole(0, 7) == 0;
        const std::vector<DamagedArea> areas = random_damage(random, plane);
        const SheetPatch patch = patch_sheets(sheets, rows, plan, areas);
        check_patch(plane, rows, sheets, plan, areas, patch, random);
        cuts += patch.cuts.size();
        found += patch.blocks.size();
        for (const PatchPiece& piece : patch.pieces) {
            bridged += piece.replaces.size() > 1 ? 1U : 0U;
        }
        CHECK((!plan.whole_sheets || patch.cuts.empty()));
    }
    CHECK(cuts > 100);
    CHECK(bridged > 10);
    CHECK(found > 10);
}

TEST_CASE("patches on planes with notches, hips and openings: areas close and nothing overlaps") {
    SeededNumbers random{20332};
    for (int i = 0; i < sweep(3000); ++i) {
        CAPTURE(i);
        const PurlinPlane plane = random.coin() ? right_angled_plane(random) : slanted_plane(random);
        const Extent extent = extent_of(plane.outline);
        Supports<Surface::purlin_top> rows{SupportRun::along_eave, {}, 24_in};
        for (Length up = extent.low.up + 1_in; up < extent.high.up + 24_in; up += 24_in) {
            rows.lines.push_back({{{extent.low.along, up}, {extent.high.along, up}}, 3.5_in});
        }
        PatchPlan plan{.sheets = random_sheet_plan(random)};
        plan.sheets.past_fascia = no_length;
        plan.sheets.stagger_spaces = random.whole(0, 2);
        const Sheets sheets = tile_sheets(plane, rows, plan.sheets);
        const std::vector<DamagedArea> areas = random_damage(random, plane);
        check_patch(plane, rows, sheets, plan, areas, patch_sheets(sheets, rows, plan, areas), random);
    }
}

TEST_CASE("patch: on chords, from either side, and on a turned grid") {
    // Chords 3 in wide at 24 in; a course along the eave has joints at 96 and 192 from where it starts, in a plane 240 long. From
    // the left the second joint of course 1 is at 192; from the right the first of it is at 144, the second at 48.
    Supports<Surface::purlin_top> chords{SupportRun::up_slope, {}, 24_in};
    for (int k = 0; k <= 10; ++k) {
        const Length along = k == 0 ? 1.5_in : k == 10 ? 238.5_in : 24_in * k;
        chords.lines.push_back({{{along, 0_in}, {along, 144_in}}, 3_in});
    }
    PatchPlan plan = Deck{}.plan;
    for (const bool right : {false, true}) {
        CAPTURE(right);
        plan.sheets.start = right ? StartCorner::eave_right : StartCorner::eave_left;
        const Sheets sheets = tile_sheets(plane_of(240_in, 144_in), chords, plan.sheets);
        const Length joint = right ? 144_in : 96_in;
        const SheetPatch patch = patch_sheets(sheets, chords, plan, {{{joint - 6_in, 10_in}, {joint + 4_in, 20_in}}});
        REQUIRE(patch.pieces.size() == 1);
        CHECK(patch.pieces[0].replaces.size() == 2);
        CHECK(patch.pieces[0].length == 47.875_in);  // from 24 before the joint to 24 after it, less a gap
        CHECK(off_by(extent_of(patch.pieces[0].outline).low.along, joint - 23.9375_in) < 1e-9);
        CHECK(patch.cuts.size() == 2);
        CHECK(patch.findings.empty());
        CHECK(std::fabs(square_inches(patch.closed) - 48.0 * 0.125) < 1e-9);
    }
    Deck deck;
    deck.plan.sheets.turn = 0.002;
    const Sheets turned = tile_sheets(deck.plane, deck.rows, deck.plan.sheets);
    const SheetPatch patch = patch_sheets(turned, deck.rows, deck.plan, {{{70_in, 60_in}, {72_in, 62_in}}});
    REQUIRE(patch.pieces.size() == 1);
    double stays = 0.0;
    for (const PatchStay& stay : patch.stays) {
        stays += square_inches(stay.area);
    }
    double old = 0.0;
    for (const std::size_t piece : patch.damaged) {
        old += area_of_parts(turned.pieces[piece].outline, turned.pieces[piece].cutouts);
    }
    CHECK(std::fabs(stays + square_inches(patch.put_in) + square_inches(patch.gaps) - old) < 1e-6);
    CHECK(lies_in(patch.pieces[0].outline, {}, {71_in, 61_in}));
}

TEST_CASE("patch: nothing ruined, nothing done, and faults") {
    const Deck deck;
    const Sheets sheets = tile_sheets(deck.plane, deck.rows, deck.plan.sheets);
    CHECK(patch_sheets(sheets, deck.rows, deck.plan, {}).pieces.empty());
    CHECK(patch_sheets(sheets, deck.rows, deck.plan, {{{500_in, 0_in}, {510_in, 10_in}}}).damaged.empty());
    const auto path_of = [&](auto change) {
        Deck given;
        std::vector<DamagedArea> areas{{{0_in, 0_in}, {10_in, 10_in}}};
        change(given, areas);
        return refusal_of([&] { static_cast<void>(patch_sheets(sheets, given.rows, given.plan, areas)); }).path;
    };
    CHECK(path_of([](Deck&, std::vector<DamagedArea>&) {}) == "no fault");
    CHECK(path_of([](Deck& d, std::vector<DamagedArea>&) { d.plan.least_spaces = 0; }) == "patch.least_spaces");
    CHECK(path_of([](Deck& d, std::vector<DamagedArea>&) { d.plan.sheets.gap = -1_in; }) == "patch.sheets.gap");
    CHECK(path_of([](Deck& d, std::vector<DamagedArea>&) { d.rows.lines.clear(); }) == "supports");
    CHECK(path_of([](Deck& d, std::vector<DamagedArea>&) { d.rows.run = SupportRun::up_slope; }) != "no fault");
    CHECK(path_of([](Deck&, std::vector<DamagedArea>& a) { a[0].high.up = -1_in; }) == "areas[0].high.up");
    for (const Length none : lengths_that_are_none()) {
        CHECK(path_of([&](Deck&, std::vector<DamagedArea>& a) { a[0].low.along = none; }) == "areas[0].low.along");
    }
}
