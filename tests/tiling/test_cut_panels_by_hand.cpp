// SPDX-License-Identifier: BSL-1.0

// Panels at hips, valleys and openings small enough to work out by hand, and what is refused.

#include <eavewright/roof/openings.hpp>
#include <eavewright/tiling/trim.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include "cut_panel_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using cut_planes::factor;

namespace {
/// No gaps and no overhang, lengths by the 1/64: what is cut is the plane itself.
const CutPanelPlan bare{
    .panels = {.ridge_hold_back = 0_in, .eave = {0_in, 0_in, 0_in}, .increment = one_inch / 64.0, .pack_drift = 0_in},
    .hip_gap = 0_in,
    .valley_gap = 0_in};
CutPanels laid(const PurlinPlane& plane, const CutPanelPlan& plan = bare) {
    return lay_cut_panels(plane, cut_planes::level_supports(plane, 24_in), plan);
}
/// 12 ft of eave (4 lanes of 36 in), 120 in up the slope, rakes left and right.
PurlinPlane four_lanes() {
    return cut_planes::plane({{0_in, 0_in}, {144_in, 0_in}, {144_in, 120_in}, {0_in, 120_in}},
                             {EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
}
std::vector<std::string> names(const CutPanels& panels) {
    std::vector<std::string> all;
    for (const CutPanel& panel : panels.pieces) {
        all.push_back(panel_name(panel));
    }
    return all;
}
std::size_t count_of(const CutPanels& panels, PanelFindingCode code) {
    std::size_t count = 0;
    for (const PanelFinding& finding : panels.findings) {
        count += finding.code == code ? 1 : 0;
    }
    return count;
}
}  // namespace

TEST_CASE("a hip end of 36 ft at 4 in 12: twelve panels, six and six alike, each step 37 15/16") {
    // Equal pitches: the hip runs at 45 degrees in plan, 36 in of run for each panel of 36 in. On the slope that is
    // 36 x sqrt(10)/3 = 37.9473 in, the equal step of the trade; the cut rises 1.054093 for each along.
    const CutPanels panels = laid(cut_planes::hip_end());
    REQUIRE(panels.pieces.size() == 12);
    CHECK(panels.lanes == 12);
    for (std::size_t i = 0; i < 6; ++i) {
        const CutPanel& left = panels.pieces[i];
        const CutPanel& right = panels.pieces[11 - i];
        const double n = static_cast<double>(i);
        // Panel 1: 0 at its left, 37.9473 at its right; panel 2: 37.9473 and 75.8947; ... panel 6 reaches 227.6840.
        CHECK(off_by(left.upper.left, 36_in * factor * n) < 1e-9);
        CHECK(off_by(left.upper.right, 36_in * factor * (n + 1.0)) < 1e-9);
        CHECK(off_by(right.upper.left, left.upper.right) < 1e-9);
        CHECK(off_by(right.upper.right, left.upper.left) < 1e-9);
        CHECK(std::fabs(left.upper.slope - 1.0540925534) < 1e-9);
        CHECK(std::fabs(right.upper.slope + 1.0540925534) < 1e-9);
        CHECK(off_by(left.upper.step, 37.947332_in) < 1e-6);
        CHECK(left.upper.straight);
        CHECK(left.upper.cut);
        CHECK(left.upper.edge == EdgeKind::hip);
        CHECK_FALSE(left.lower.cut);
        CHECK(left.lower.edge == EdgeKind::eave);
        CHECK(left.length == longer(left.upper.left, left.upper.right));
        CHECK(off_by(left.order_length, left.length) < 1.0 / 64.0);
        CHECK_FALSE(left.ripped);
    }
    // Half of 432 x 227.6840 = 49179.74 sq in.
    CHECK(std::fabs(square_inches(panels.covered) - 216.0 * 216.0 * factor) < 1e-6);
    REQUIRE(panels.findings.size() == 1);  // no 1/64 leaves an overhang of just nothing
    CHECK(panels.findings[0].code == PanelFindingCode::no_increment_fits);
}

TEST_CASE("the equal step holds at every pitch, gap, overhang and cover") {
    SeededNumbers random{5101};
    for (int i = 0; i < sweep(500); ++i) {
        const double steep = random.between(0.3, 3.0);  // slope of the hip on the plane
        const Length half = random.inches_between(150, 400);
        const PurlinPlane plane = cut_planes::plane({{0_in, 0_in}, {half * 2.0, 0_in}, {half, half * steep}},
                                                    {EdgeKind::eave, EdgeKind::hip, EdgeKind::hip});
        CutPanelPlan plan{.panels = {.ridge_hold_back = 1_in, .longest = 400_ft},
                          .hip_gap = random.inches_between(0, 2)};
        std::size_t compared = 0;
        const CutPanels panels = laid(plane, plan);
        for (std::size_t k = 1; k < panels.pieces.size(); ++k) {
            const CutPanel& a = panels.pieces[k - 1];
            const CutPanel& b = panels.pieces[k];
            const bool both = a.upper.straight && b.upper.straight && a.upper.slope * b.upper.slope > 0.0 &&
                              off_by(a.cover, 36_in) < 1e-9 && off_by(b.cover, 36_in) < 1e-9;
            if (both) {
                CHECK(off_by(magnitude(b.length - a.length), 36_in * steep) < 1e-6);
                CHECK(off_by(a.upper.step, 36_in * steep) < 1e-6);
                ++compared;
            }
        }
        CHECK(compared > 3);
    }
}

TEST_CASE("a hip end as it is ordered: gap under the cap, overhang, whole inches") {
    const CutPanels panels = laid(cut_planes::hip_end(), {.panels = {.ridge_hold_back = 1_in}});
    // The gap of 1 in square to a hip that rises 1.054093 lowers the cut by sqrt(1 + 1.1111) = 1.452966 along the ribs. The
    // longest reaches 227.683992 - 1.452966 = 226.231026 above the fascia; aimed 227.731, nearest inch 228: overhang 1.768974.
    CHECK(off_by(panels.overhang, 1.768974_in) < 1e-6);
    CHECK(panels.pieces[5].order_length == 228_in);
    CHECK(panels.pieces[6].order_length == 228_in);
    // The first: 37.947332 - 1.452966 + 1.768974 = 38.263340 at its right, 0.316008 at its left; ordered 39.
    CHECK(off_by(panels.pieces[0].upper.right, 38.263340_in) < 1e-6);
    CHECK(off_by(panels.pieces[0].upper.left, 0.316008_in) < 1e-6);
    CHECK(panels.pieces[0].order_length == 39_in);
    // 2 x (39 + 77 + 115 + 153 + 191 + 228) = 1606 in.
    CHECK(off_by(panels.bought_length, 1606_in) < 1e-9);
    CHECK(std::fabs(square_inches(panels.bought) - 1606.0 * 39.0) < 1e-6);
    CHECK(panels.marks[0].eave == 36_in);
    CHECK(panels.marks[11].eave == 432_in);
}

TEST_CASE("a valley: lower ends cut, each next panel shorter by the step") {
    // Eave 216 in = 6 lanes, then the valley climbs 144 in of run over 144 in along: 4 lanes more under 360 in of ridge.
    const CutPanels panels = laid(cut_planes::valley_plane());
    REQUIRE(panels.pieces.size() == 10);
    const Length top = 144_in * factor;  // 151.789328
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(off_by(panels.pieces[i].length, top) < 1e-9);
        CHECK_FALSE(panels.pieces[i].lower.cut);
        CHECK(panels.pieces[i].upper.edge == EdgeKind::ridge);
    }
    for (std::size_t i = 6; i < 10; ++i) {
        const CutPanel& panel = panels.pieces[i];
        const double n = static_cast<double>(i - 6);
        // Panel 7 stands on the eave's end: full length, its lower end rises to 37.9473 at its right. Panel 10: 37.9473 long.
        CHECK(off_by(panel.length, top - 36_in * factor * n) < 1e-9);
        CHECK(off_by(panel.low, 36_in * factor * n) < 1e-9);
        CHECK(off_by(panel.lower.left, 0_in) < 1e-9);
        CHECK(off_by(panel.lower.right, 36_in * factor) < 1e-9);
        CHECK(off_by(panel.lower.step, 37.947332_in) < 1e-6);
        CHECK(panel.lower.slope > 0.0);
        CHECK(panel.lower.cut);
        CHECK(panel.lower.edge == EdgeKind::valley);
    }
    // (216 + 360) / 2 x 151.789328.
    CHECK(std::fabs(square_inches(panels.covered) - 288.0 * 144.0 * factor) < 1e-6);
}

TEST_CASE("a valley's gap: 3 in square to its middle raises the lower ends by 4.3589") {
    CutPanelPlan plan = bare;
    plan.valley_gap = 3_in;
    const CutPanels panels = laid(cut_planes::valley_plane(), plan);
    // 3 x sqrt(1 + 10/9) = 4.358899 up the ribs; the last panel 37.947332 - 4.358899 = 33.588433 at its left.
    CHECK(off_by(panels.pieces[9].length, 33.588433_in) < 1e-6);
    CHECK(off_by(panels.pieces[9].lower.right, 33.588433_in) < 1e-6);  // its tip ends under the ridge
    // Where the gap's line meets the eave, 3 x sqrt(1 + 10/9) / 1.054093 = 4.135215 in before the eave's end, panel 6 has a bend.
    CHECK_FALSE(panels.pieces[5].lower.straight);
    REQUIRE(panels.pieces[5].lower.line.size() == 3);
    CHECK(off_by(panels.pieces[5].lower.line[1].along, 36_in - 4.135215_in) < 1e-6);
    CHECK(off_by(panels.pieces[5].lower.right, 4.358899_in) < 1e-6);
}

TEST_CASE("a skylight in the middle of a lane notches the panel, across the lane parts it") {
    // 22 in wide in lane 2 (36 to 72), 43 to 65 along and 48 to 84 up: 7 in of steel at either side.
    const PurlinPlane in_lane = add_opening(four_lanes(), OpeningOnSlope{{43_in, 48_in}, 22_in, 36_in}, 0_in);
    const CutPanels notched = laid(in_lane);
    CHECK(names(notched) == std::vector<std::string>{"1", "2", "3", "4"});
    CHECK(notched.pieces[1].notched);
    REQUIRE(notched.pieces[1].part.cutouts.size() == 1);
    CHECK(off_by(notched.pieces[1].length, 120_in) < 1e-9);
    CHECK_FALSE(notched.pieces[0].notched);
    CHECK(std::fabs(square_inches(notched.covered) - (144.0 * 120.0 - 22.0 * 36.0)) < 1e-9);
    CHECK(notched.findings.empty());
    // One of 26 in leaves 5 in at either side: both strips are found, below 6.
    const PurlinPlane wide = add_opening(four_lanes(), OpeningOnSlope{{41_in, 48_in}, 26_in, 36_in}, 0_in);
    const CutPanels strips = laid(wide);
    CHECK(count_of(strips, PanelFindingCode::sliver_cover) == 2);
    CHECK(strips.findings[0].measured == 5_in);
    // 36 in from seam to seam: one panel of 48 in below, one of 120 - 84 = 36 in above.
    const PurlinPlane across = add_opening(four_lanes(), OpeningOnSlope{{36_in, 48_in}, 36_in, 36_in}, 0_in);
    const CutPanels parted = laid(across);
    CHECK(names(parted) == std::vector<std::string>{"1", "2", "2b", "3", "4"});
    CHECK(off_by(parted.pieces[1].length, 48_in) < 1e-9);
    CHECK(off_by(parted.pieces[2].length, 36_in) < 1e-9);
    CHECK(parted.pieces[2].low == 84_in);
    CHECK_FALSE(parted.pieces[1].upper.edge.has_value());
    CHECK_FALSE(parted.pieces[2].lower.edge.has_value());
    CHECK_FALSE(parted.pieces[1].notched);
}

TEST_CASE("a skylight on a seam notches both panels at their sides") {
    // 24 in wide from 60 to 84: 12 in off panel 2 (36 to 72) at its right, 12 in off panel 3 at its left.
    const PurlinPlane plane = add_opening(four_lanes(), OpeningOnSlope{{60_in, 48_in}, 24_in, 36_in}, 0_in);
    const CutPanels panels = laid(plane);
    CHECK(names(panels) == std::vector<std::string>{"1", "2", "3", "4"});
    for (const std::size_t i : {std::size_t{1}, std::size_t{2}}) {
        const CutPanel& panel = panels.pieces[i];
        CHECK(panel.notched);
        CHECK(panel.part.cutouts.empty());
        CHECK(panel.part.outline.size() == 8);
        CHECK(off_by(panel.length, 120_in) < 1e-9);
        CHECK(panel.upper.straight);
        CHECK(panel.lower.straight);
        CHECK(std::fabs(square_inches(net_area(panel.part)) - (36.0 * 120.0 - 12.0 * 36.0)) < 1e-9);
    }
    // With its right side on the seam at 72 it leaves panel 3 alone.
    const PurlinPlane beside = add_opening(four_lanes(), OpeningOnSlope{{48_in, 48_in}, 24_in, 36_in}, 0_in);
    const CutPanels one = laid(beside);
    CHECK(one.pieces[1].notched);
    CHECK_FALSE(one.pieces[2].notched);
    CHECK(one.pieces.size() == 4);
}

TEST_CASE("a cupola astride the ridge: the panels under it end at its foot") {
    // 30 in wide, 39 to 69 along, the upper 24 in of lane 2. The ridge is held back by 1 in: (36 - 30) in x 1 in stay bare.
    const PurlinPlane plane = add_opening(four_lanes(), OpeningOnSlope{{39_in, 96_in}, 30_in, 24_in}, 0_in);
    CutPanelPlan plan = bare;
    for (const Length hold_back : {0_in, 1_in}) {
        plan.panels.ridge_hold_back = hold_back;
        plan.panels.ridge_play = 0_in;
        const CutPanels panels = laid(plane, plan);
        CHECK(panels.pieces.size() == 4);
        CHECK(panels.pieces[1].notched);
        CHECK_FALSE(panels.pieces[1].upper.straight);
        CHECK(panels.pieces[1].upper.line.size() == 6);
        const double high = 120.0 - inches(hold_back);
        CHECK(std::fabs(square_inches(panels.covered) - (144.0 * high - 30.0 * (high - 96.0))) < 1e-6);
    }
}

TEST_CASE("two valleys meet: the lower end of one panel is a notch") {
    // A wing's peak at 90 in along: panels 2 and 3 straddle eaves and valleys, panel 3 (72 to 108) holds the peak.
    const PurlinPlane plane = cut_planes::plane({{0_in, 0_in},
                                                 {36_in, 0_in},
                                                 {90_in, 54_in * factor},
                                                 {144_in, 0_in},
                                                 {180_in, 0_in},
                                                 {180_in, 120_in},
                                                 {0_in, 120_in}},
                                                {EdgeKind::eave, EdgeKind::valley, EdgeKind::valley, EdgeKind::eave,
                                                 EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
    const CutPanels panels = laid(plane);
    REQUIRE(panels.pieces.size() == 5);
    const CutPanel& peak = panels.pieces[2];
    CHECK_FALSE(peak.lower.straight);
    REQUIRE(peak.lower.line.size() == 3);
    // Lowest at its corners, 36 in from the eaves' ends: 36 x 1.054093 = 37.947332; the peak 18 x 1.054093 = 18.973666 higher.
    CHECK(off_by(peak.low, 37.947332_in) < 1e-6);
    CHECK(off_by(peak.lower.line[1].along, 18_in) < 1e-9);
    CHECK(off_by(peak.lower.line[1].up, 18.973666_in) < 1e-6);
    CHECK(off_by(peak.length, 120_in - 37.947332_in) < 1e-6);
    CHECK(off_by(panels.pieces[0].low, panels.pieces[4].low) < 1e-9);
}

TEST_CASE("two eaves at two heights hang over alike") {
    const PurlinPlane plane = cut_planes::plane(
        {{0_in, 0_in}, {72_in, 0_in}, {72_in, 40_in}, {144_in, 40_in}, {144_in, 120_in}, {0_in, 120_in}},
        {EdgeKind::eave, EdgeKind::rake, EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
    const CutPanels panels = laid(plane, {.panels = {.ridge_hold_back = 0.5_in}});
    // 119.5 + 1.5 = 121: overhang 1.5. The short ones 79.5 + 1.5 = 81.
    REQUIRE(panels.pieces.size() == 4);
    CHECK(off_by(panels.overhang, 1.5_in) < 1e-9);
    CHECK(off_by(panels.pieces[0].low, -1.5_in) < 1e-9);
    CHECK(panels.pieces[0].order_length == 121_in);
    CHECK(off_by(panels.pieces[2].low, 38.5_in) < 1e-9);
    CHECK(panels.pieces[3].order_length == 81_in);
    CHECK_FALSE(panels.pieces[3].upper.cut);
}

TEST_CASE("an eave beside a wall on one line: panels hang over the one and end at the other") {
    const PurlinPlane plane =
        cut_planes::plane({{0_in, 0_in}, {72_in, 0_in}, {144_in, 0_in}, {144_in, 118.5_in}, {0_in, 118.5_in}},
                          {EdgeKind::eave, EdgeKind::wall, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
    const CutPanels panels = laid(plane, {.panels = {.ridge_hold_back = 0_in}});
    REQUIRE(panels.pieces.size() == 4);
    // 118.5 + 1.5 = 120 over the eave; 118.5 from the wall, ordered 119.
    CHECK(off_by(panels.pieces[1].low, -1.5_in) < 1e-9);
    CHECK(panels.pieces[1].order_length == 120_in);
    CHECK(off_by(panels.pieces[2].low, 0_in) < 1e-9);
    CHECK(panels.pieces[2].order_length == 119_in);
    CHECK(panels.pieces[2].lower.edge == EdgeKind::wall);
    // Above a pitch break they hang over what lies below, as over an eave.
    PurlinPlane upper = plane;
    upper.edges[1] = EdgeKind::pitch_break;
    CHECK(off_by(laid(upper, {.panels = {.ridge_hold_back = 0_in}}).pieces[2].low, -1.5_in) < 1e-9);
}

TEST_CASE("short tips at hips are found") {
    // 37 x 12 = 444 in: lane 13 covers 12 in, its panel 12 x 1.054093 = 12.6491 in long. Half a foot less makes slivers of it.
    const auto end_of = [](Length half) {
        return cut_planes::plane({{0_in, 0_in}, {half * 2.0, 0_in}, {half, half * factor}},
                                 {EdgeKind::eave, EdgeKind::hip, EdgeKind::hip});
    };
    CHECK(laid(end_of(222_in)).findings.size() == 1);  // that no length fits a window of nothing
    const CutPanels tip = laid(end_of(218_in));        // 436 in: 4 in of cover, 4.2164 in long
    CHECK(count_of(tip, PanelFindingCode::sliver_cover) == 1);
    CHECK(count_of(tip, PanelFindingCode::sliver_length) == 1);
    CHECK(off_by(tip.pieces.back().length, 4.216370_in) < 1e-6);
    CHECK(tip.pieces.back().width == 4_in);
}

TEST_CASE("panels longer than can be made lap over a support, in one line across the lanes") {
    CutPanelPlan plan = bare;
    plan.panels.longest = 12_ft;
    const CutPanels panels = laid(cut_planes::hip_end(), plan);
    // From 0, 144 reaches supports up to 136: the row at 120 wants 124. Panels 4 to 9, of 151.7893 and more, are lapped there.
    CHECK(panels.pieces.size() == 18);
    REQUIRE(panels.end_laps.size() == 6);
    for (const PanelEndLap& lap : panels.end_laps) {
        CHECK(lap.support == 5);
        CHECK(off_by(lap.from, 116_in) < 1e-9);
        CHECK(off_by(lap.to, 124_in) < 1e-9);
    }
    // The piece above panel 4 begins at 116 and is cut from nothing at 151.7893 - 37.9473 = 113.84 < 116: a tip that begins
    // (116 - 113.8420) / 1.054093 = 2.0473 in off its left edge.
    const CutPanel& tip = panels.pieces[panels.end_laps[0].upper];
    CHECK(panel_name(tip) == "4b");
    CHECK(off_by(tip.out, 2.047262_in) < 1e-5);
    CHECK(off_by(tip.length, 151.789328_in - 116_in) < 1e-6);
    CHECK(std::fabs(square_inches(panels.covered) - 216.0 * 216.0 * factor) < 1e-6);
    // A support that does not run under a lane is no support to lap on.
    Supports<Surface::purlin_top> supports = cut_planes::level_supports(cut_planes::hip_end(), 24_in);
    supports.lines[5].stretches = {{0_in, 200_in}};
    const CutPanels other = lay_cut_panels(cut_planes::hip_end(), supports, plan);
    CHECK(other.end_laps[0].support == 5);  // panel 4, 108 to 144
    CHECK(other.end_laps[2].support == 4);  // panel 6, 180 to 216
    CHECK(refusal_of([&] {
              (void)lay_cut_panels(cut_planes::hip_end(), {SupportRun::along_eave, {}, 0_in}, plan);
          }).path == "panels.longest");
}

TEST_CASE("hip caps and valley metal by the run of their edges") {
    // A hip of 216 in of run at 4 in 12: sqrt(2 x 216^2 + 72^2) = 313.841 in on either side of the hip end.
    const std::vector<TrimRun> caps = trim_runs(cut_planes::hip_end(), EdgeKind::hip, {.piece = 10_ft});
    REQUIRE(caps.size() == 2);
    for (const TrimRun& cap : caps) {
        CHECK(off_by(cap.run, 313.840724_in) < 1e-6);
        CHECK(cap.pieces == 3);  // 120 + 116 x 2 = 352
        CHECK(off_by(cap.last_piece, 81.840724_in) < 1e-6);
    }
    // The valley: 144 of run, sqrt(2 x 144^2 + 48^2) = 209.227 in.
    const std::vector<TrimRun> metal =
        trim_runs(cut_planes::valley_plane(), EdgeKind::valley, {.piece = 10_ft, .lap = 8_in});
    REQUIRE(metal.size() == 1);
    CHECK(off_by(metal[0].run, 209.227149_in) < 1e-6);
    CHECK(metal[0].pieces == 2);  // 120 + 112 = 232
}

TEST_CASE("outlines and gaps that are refused") {
    const PurlinPlane plane = cut_planes::hip_end();
    const auto refused = [&](const CutPanelPlan& plan) { return refusal_of([&] { (void)laid(plane, plan); }); };
    CHECK(refused({.panels = {.ridge_hold_back = 0_in}, .hip_gap = -1_in}).path == "panels.hip_gap");
    CHECK(refused({.panels = {.ridge_hold_back = 0_in}, .valley_gap = 5_ft}).path == "panels.valley_gap");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused({.panels = {.ridge_hold_back = none}}).path == "panels.ridge_hold_back");
        CHECK(refused({.panels = {.ridge_hold_back = 0_in}, .hip_gap = none}).path == "panels.hip_gap");
    }
    // Two hips that leave no room for their gaps.
    const PurlinPlane narrow = cut_planes::plane({{0_in, 0_in}, {24_in, 0_in}, {12_in, 200_in}},
                                                 {EdgeKind::eave, EdgeKind::hip, EdgeKind::hip});
    CHECK(refusal_of([&] { (void)laid(narrow, {.panels = {.ridge_hold_back = 0_in}, .hip_gap = 13_in}); }).path ==
          "panels");
    const Supports<Surface::purlin_top> chords{SupportRun::up_slope, {}, no_length};
    CHECK(refusal_of([&] { (void)lay_cut_panels(plane, chords, bare); }).path == "supports.run");
    PurlinPlane turned = plane;
    std::reverse(turned.outline.begin(), turned.outline.end());
    CHECK(refusal_of([&] { (void)laid(turned); }).path == "plane.outline");
    PurlinPlane short_of_kinds = plane;
    short_of_kinds.edges.pop_back();
    CHECK(refusal_of([&] { (void)laid(short_of_kinds); }).path == "plane.edges");
}

TEST_CASE("cut panels as JSON") {
    const std::string json = write_json(laid(cut_planes::hip_end()), LengthUnit::inches);
    CHECK(json.find("\"lanes\": 12") != std::string::npos);
    CHECK(json.find("\"name\": \"12\"") != std::string::npos);
    CHECK(json.find("\"edge\": \"hip\"") != std::string::npos);
}
