// SPDX-License-Identifier: BSL-1.0

// Ways to lay a plane out of square, by hand and against what is published.

#include <eavewright/roof/measured_plane.hpp>
#include <eavewright/tiling/lay_true.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
using Rows = Supports<Surface::purlin_top>;
const Rows no_rows{SupportRun::along_eave, {}, 24_in};
/// 60 ft by 16 ft, both rakes leaning to the right.
PurlinPlane racked(Length lean) {
    return plane_with<Surface::purlin_top>(
        {{no_length, no_length}, {720_in, no_length}, {720_in + lean, 192_in}, {lean, 192_in}});
}
/// 60 ft by 16 ft, the ridge 3 in higher at its right end.
PurlinPlane rising_ridge() {
    return plane_with<Surface::purlin_top>(
        {{no_length, no_length}, {720_in, no_length}, {720_in, 195_in}, {no_length, 192_in}});
}
PanelPlan panels(Length cover, RipPlace rips) {
    return {
        .ridge_hold_back = 1_in, .panel = {.cover = cover, .side_lap = 2_in, .rib_spacing = cover / 4.0}, .rips = rips};
}
LayTruePlan with_panels(RipPlace rips) { return {.panels = panels(36_in, rips)}; }
LayWay way_on(const PurlinPlane& plane, GridWay way, const LayTruePlan& plan) {
    return ways_to_lay(plane, no_rows, plan).ways[static_cast<std::size_t>(way)];
}
/// One support across the racked plane's middle, 1 1/2 in wide, through these points.
Rows one_row(std::vector<PlanePoint> centreline) {
    return {SupportRun::along_eave, {{std::move(centreline), 1.5_in}}, 24_in};
}
RowDrift drift_of(const Rows& rows, JointRows joints = JointRows::straight, double tangent = 0.0) {
    const PurlinPlane plane = racked(no_length);
    return row_drifts(plane, rows, {.sheet = {48_in, 96_in}}, joints, tangent)[0];
}
}  // namespace

TEST_CASE("a racked plane, square to the eave and along its rake") {
    const LayTruePlan plan = with_panels(RipPlace::balanced);
    // Square to the eave: both rakes lean 3 in, eave and ridge are straight.
    const LayWay square = way_on(racked(3_in), GridWay::square_to_eave, plan);
    CHECK(square.tangent == 0.0);
    CHECK(square.edges[0].wedge.wedge == no_length);
    CHECK(square.edges[1].wedge.lean == 3_in);
    CHECK(square.edges[2].wedge.wedge == no_length);
    CHECK(square.edges[3].wedge.wedge == 3_in);
    CHECK(square.eave_step == no_length);
    // 723 in across are 20.08 covers of 36 in: 21 panels, 19 of them whole, two rips of (723 - 684) / 2 = 19.5 in. The left
    // rake begins at 0 and ends at 3 in: 19.5 in of cover at the eave, 16.5 in at the ridge. At the right it is turned round.
    const GridRips& rips = square.panels->rips;
    CHECK(rips.columns == 21);
    CHECK(rips.low.at_first == 19.5_in);
    CHECK(rips.low.at_second == 16.5_in);
    CHECK(rips.high.at_first == 16.5_in);
    CHECK(rips.high.at_second == 19.5_in);
    CHECK(rips.low.taper == 3_in);
    // Ribs of 9 in: one stands 9 in inside the inner line, so from it 16.5 - 9 = 7.5 in to the rake, 10.5 at the other end.
    CHECK(rips.high.reveal_narrowest == 7.5_in);
    CHECK(rips.high.reveal_widest == 10.5_in);
    CHECK(rips.slivers == 0);
    // Along the left rake: 3 in of lean in 192 in, to the left of up: a tangent of -1/64. 36 / 64 = 9/16 in of step.
    const LayWay rake = way_on(racked(3_in), GridWay::along_left_rake, plan);
    CHECK(rake.tangent == -1.0 / 64.0);
    CHECK(rake.eave_step == 0.5625_in);
    CHECK(rake.panels->steps.step_ridge == 0.5625_in);
    CHECK(rake.edges[1].wedge.wedge == no_length);
    CHECK(rake.edges[3].wedge.wedge == no_length);
    // The grid's line falls 720 / 64 = 11.25 in below the eave's right corner; square to it that is 11.25 x 64 / sqrt(4097).
    CHECK(rake.above_eave_right == -(11.25_in));
    CHECK(rake.right_at_ridge == 3_in);
    CHECK(std::fabs(inches(rake.worst_wedge) - 11.25 * 64.0 / std::sqrt(4097.0)) < 1e-12);
    CHECK(rake.edges[0].wedge.lean == rake.worst_wedge);  // the eave rises to the right against it
    // Turned: 3 + 192 t = -720 t, t = -3 / 912 = -1/304; the wedge 720 / 304 = 2.368 in, times 304 / sqrt(304 x 304 + 1).
    const LayWay turn = way_on(racked(3_in), GridWay::turned, plan);
    CHECK(std::fabs(turn.tangent + 1.0 / 304.0) < 1e-15);
    CHECK(std::fabs(inches(turn.worst_wedge) - 720.0 / std::sqrt(304.0 * 304.0 + 1.0)) < 1e-12);
    CHECK(off_by(turn.edges[1].wedge.wedge, turn.edges[0].wedge.wedge) < 1e-12);
    CHECK(way_on(racked(3_in), GridWay::between_rakes, plan).tangent == -1.0 / 64.0);
    CHECK(way_on(racked(3_in), GridWay::square_to_ridge, plan).tangent == 0.0);
}

TEST_CASE("published steps and what a gable trim hides") {
    // NZ Metal Roof and Wall Cladding Code of Practice v3.0, 14.1 and 14.9: a saw-tooth of more than 5 mm may be trimmed to a
    // line; its step is cover x lean / slope. 3 in of lean in 16 ft at 36 in of cover: 9/16 in, 14.3 mm.
    const PanelSteps steps = panel_steps(racked(3_in), panels(36_in, RipPlace::last), -1.0 / 64.0);
    CHECK(steps.step_eave == 0.5625_in);
    CHECK(std::fabs(millimetres(steps.step_eave) - 14.3) < 0.05);
    CHECK(steps.trim_to_line);
    CHECK_FALSE(panel_steps(racked(3_in), panels(36_in, RipPlace::last), -1.0 / 64.0, 0.5625_in).trim_to_line);
    // 5 mm come of 1.05 in of lean at 36 in of cover, of 1.57 in at 24 in: 5 / 25.4 x 192 / cover = 1.0499 and 1.5748 in.
    const auto step = [](Length lean, Length cover) {
        const PurlinPlane plane = racked(lean);
        return panel_steps(plane, panels(cover, RipPlace::last), turn_of(plane, GridWay::along_left_rake));
    };
    CHECK(std::fabs(millimetres(step(1.05_in, 36_in).step_eave) - 5.0) < 0.005 * 5.0);
    CHECK(std::fabs(millimetres(step(1.57_in, 24_in).step_eave) - 5.0) < 0.005 * 5.0);
    CHECK_FALSE(step(1.0498_in, 36_in).trim_to_line);
    CHECK(step(1.0500_in, 36_in).trim_to_line);
    CHECK_FALSE(step(1.57_in, 24_in).trim_to_line);
    CHECK(step(1.58_in, 24_in).trim_to_line);
    // Up to 3 in out of square hide under the gable trim (readmetalroofing.com, Installing Exposed Fastener Metal Roofs).
    const LayTruePlan plan = with_panels(RipPlace::balanced);
    const auto shows = [&](Length lean) {
        return way_on(racked(lean), GridWay::square_to_eave, plan).edges[1].show == EdgeShow::shows;
    };
    CHECK_FALSE(shows(3_in));
    CHECK(shows(3.0625_in));
    // So lay square to the eave, and let the trim take the wedge: nothing of it shows.
    const LayTrue found = ways_to_lay(racked(3_in), no_rows, plan);
    CHECK(found.best == 0);
    CHECK(found.reason == LayReason::hidden_under_trim);
    CHECK(found.ways[0].shows_nothing);
    CHECK_FALSE(found.ways[2].shows_nothing);
}

TEST_CASE("lengths panel by panel under a ridge that is not parallel to the eave") {
    // The ridge rises 3 in in 720: 0.15 in a panel of 36 in. Held back 1 in, upper ends belong at 191.15, 191.30 ... 194 in.
    // The longest, 194 in, takes 196 in with 2 in of overhang: as near to 1 1/2 as 195 in with 1 in, and the longer of them.
    const PanelSteps steps = panel_steps(rising_ridge(), panels(36_in, RipPlace::last), 0.0);
    CHECK(steps.overhang == 2_in);
    REQUIRE(steps.lengths.size() == 20);
    CHECK(off_by(steps.lengths[0].upper_left, 193_in) < 1e-12);
    CHECK(off_by(steps.lengths[0].length, 193.15_in) < 1e-12);
    CHECK(steps.lengths[0].order == 194_in);
    CHECK(off_by(steps.lengths[9].length, 194.5_in) < 1e-12);
    CHECK(steps.lengths[9].order == 195_in);
    CHECK(off_by(steps.longest, 196_in) < 1e-12);
    CHECK(off_by(steps.shortest, 193.15_in) < 1e-12);
    CHECK(steps.step_eave == no_length);
    CHECK(off_by(steps.step_ridge, 0.15_in) < 1e-15);
    // One length of 196 in would have up to 196 - 193.15 = 2.85 in cut off at the eave: 4.85 in of overhang is too much.
    CHECK(steps.one_order == 196_in);
    CHECK(off_by(steps.eave_cut, 2.85_in) < 1e-12);
    CHECK_FALSE(steps.one_length_serves);
    CHECK(panel_steps(racked(no_length), panels(36_in, RipPlace::last), 0.0).one_length_serves);
    // Square to the ridge the step goes to the eave: 3 / 720 = 1/240, 36 / 240 = 0.15 in.
    const LayWay ridge = way_on(rising_ridge(), GridWay::square_to_ridge, with_panels(RipPlace::last));
    CHECK(off_by(ridge.eave_step, 0.15_in) < 1e-15);
    CHECK(ridge.panels->steps.step_ridge == no_length);
    CHECK(ridge.edges[2].wedge.wedge == no_length);
    CHECK(ridge.edges[0].show == EdgeShow::not_given);
    CHECK(ridge.edges[0].must_hide == ridge.eave_step);
    // All of one length, its trim must hide the whole wedge: 3 in less what 1/240 takes off square to it.
    LayTruePlan alike = with_panels(RipPlace::last);
    alike.lengths = PanelOrder::one_length;
    const LayWay whole = way_on(rising_ridge(), GridWay::square_to_ridge, alike);
    CHECK(std::fabs(inches(whole.edges[0].must_hide) - 3.0 * 240.0 / std::sqrt(240.0 * 240.0 + 1.0)) < 1e-12);
}

TEST_CASE("joints that drift off their support") {
    // 1 1/2 in wide, 1/8 in gap, 1/2 in of bearing: a line may stand 3/4 - 1/16 - 1/2 = 3/16 in off the centre.
    // It rises 1.5 in in 720: 3/16 in are reached at 90 in, in the second column of 48 in and 1/8 in.
    const RowDrift askew = drift_of(one_row({{no_length, 96_in}, {720_in, 97.5_in}}));
    CHECK(askew.allowed == 0.1875_in);
    CHECK(askew.drift == 1.5_in);
    CHECK(off_by(askew.within_column, 0.1_in) < 1e-12);  // 48 in of 720
    REQUIRE(askew.leaves_at);
    CHECK(off_by(*askew.leaves_at, 90_in) < 1e-9);
    CHECK(*askew.leaves_column == 1);
    CHECK(askew.columns_off == 14);  // of 15: 720 / 48.125 = 14.96
    CHECK(askew.bearing == no_length);
    CHECK(askew.remedy == RowRemedy::re_rip);
    CHECK(askew.re_rips == 3);  // 1.5 / (2 x 3/16) = 4 stretches
    // 0.3 in in all: off by 3/16 at 450 in, column 9. Set 0.15 in off, ends bear 3/4 - 1/16 - 0.15 = 0.5375 in.
    const RowDrift slight = drift_of(one_row({{no_length, 96_in}, {720_in, 96.3_in}}));
    CHECK(slight.remedy == RowRemedy::shift_line);
    CHECK(off_by(*slight.leaves_at, 450_in) < 1e-6);
    CHECK(*slight.leaves_column == 9);
    CHECK(off_by(slight.set_off, 0.15_in) < 1e-12);
    CHECK(off_by(slight.shared_bearing, 0.5375_in) < 1e-12);
    CHECK(off_by(slight.bearing, 0.3875_in) < 1e-12);
    // A hump of 1 in over 340 to 380 in lies within column 7, 336.875 to 384.875 in: 3/16 of the way up it, at 343.75 in.
    const RowDrift hump =
        drift_of(one_row({{no_length, 96_in}, {340_in, 96_in}, {360_in, 97_in}, {380_in, 96_in}, {720_in, 96_in}}));
    CHECK(hump.remedy == RowRemedy::cleat);
    CHECK(*hump.leaves_column == 7);
    CHECK(*hump.leaves_at == 343.75_in);
    CHECK(hump.columns_off == 1);
    CHECK(hump.drift == no_length);
    CHECK(hump.range == 1_in);
    // Straight, it stays; 6 in above the eave no joint falls on it.
    CHECK(drift_of(one_row({{no_length, 96_in}, {720_in, 96_in}})).remedy == RowRemedy::none);
    CHECK(drift_of(one_row({{no_length, 6_in}, {720_in, 7_in}})).remedy == RowRemedy::no_joints);
    // Under a grid turned by 1/240 a row along the eave falls 3 in in 720, square to the grid as near as nothing; laid in steps
    // each column sees 48 / 240 = 0.2 in of it, its right end on the centre where its left one is 0.2 in above.
    const Rows level = one_row({{no_length, 96_in}, {720_in, 96_in}});
    const RowDrift straight = drift_of(level, JointRows::straight, 1.0 / 240.0);
    CHECK(off_by(straight.drift, -(3_in)) < 1e-4);
    CHECK(straight.remedy == RowRemedy::re_rip);
    CHECK(straight.re_rips == 7);  // 3 / 0.375 = 8 stretches
    const RowDrift stepped = drift_of(level, JointRows::stepped, 1.0 / 240.0);
    CHECK(off_by(stepped.within_column, 0.2_in) < 1e-3);
    CHECK(off_by(stepped.range, 0.2_in) < 1e-2);
    CHECK(off_by(stepped.set_off, -(0.1_in)) < 1e-2);
    CHECK(stepped.remedy == RowRemedy::shift_line);
    // Over chords courses lie along the eave: a chord that leans 1.5 in in 192 goes 3/16 in off at 24 in, in the first course.
    const PurlinPlane plane = racked(no_length);
    const Rows chord{SupportRun::up_slope, {{{{96_in, no_length}, {97.5_in, 192_in}}, 1.5_in}}, 24_in};
    const RowDrift lean = row_drifts(plane, chord, {.sheet = {48_in, 96_in}}, JointRows::straight, 0.0)[0];
    CHECK(off_by(*lean.leaves_at, 24_in) < 1e-9);
    CHECK(*lean.leaves_column == 0);
}

TEST_CASE("the choice and its reason") {
    const auto best = [](const PurlinPlane& plane, const Rows& rows, const LayTruePlan& plan) {
        const LayTrue found = ways_to_lay(plane, rows, plan);
        return std::pair{found.ways[found.best].way, found.reason};
    };
    const auto is = [](GridWay way, LayReason reason) { return std::pair{way, reason}; };
    const LayTruePlan bare = with_panels(RipPlace::balanced);
    CHECK(best(racked(no_length), no_rows, bare) == is(GridWay::square_to_eave, LayReason::nothing_to_choose));
    // Trim that hides 2 in at eave and ridge hides the 9/16 in steps of the rake's way too: the step decides.
    LayTruePlan trimmed = bare;
    trimmed.trim = {.ridge = 2_in, .eave = 2_in};
    CHECK(best(racked(3_in), no_rows, trimmed) == is(GridWay::square_to_eave, LayReason::least_eave_step));
    // 6 in of lean: square to the eave both rakes show; along them, steps of 36 x 6 / 192 = 1 1/8 in do not.
    CHECK(best(racked(6_in), no_rows, trimmed) == is(GridWay::along_left_rake, LayReason::hidden_under_trim));
    // Full panels first leave 720 to 723 in at the far rake: nothing to 3 in. Along the rake 720 in less 0.09 in fill up.
    CHECK(best(racked(3_in), no_rows, with_panels(RipPlace::last)).second == LayReason::no_sliver);
    // With sheets on rows along the eave, any turn takes the joints off them.
    LayTruePlan decked = trimmed;
    decked.sheets = SheetPlan{.sheet = {48_in, 96_in}};
    const Rows level = one_row({{no_length, 96.0625_in}, {726_in, 96.0625_in}});
    CHECK(best(racked(6_in), level, decked) == is(GridWay::square_to_eave, LayReason::edges_stay_on_supports));
    // Without panels nothing shows at eave and ridge, and the smaller wedge is left: turned.
    const LayTruePlan sheets{.sheets = SheetPlan{.sheet = {48_in, 96_in}, .sliver = no_length}};
    CHECK(best(racked(2_in), no_rows, sheets) == is(GridWay::turned, LayReason::least_wedge));
    CHECK(describe(LayReason::no_sliver) == "it leaves the fewest slivers at the sides");
}

TEST_CASE("planes and plans that are refused") {
    const LayTruePlan plan = with_panels(RipPlace::last);
    const auto refused = [](const PurlinPlane& plane, const Rows& rows, const LayTruePlan& with) {
        return refusal_of([&] { (void)ways_to_lay(plane, rows, with); });
    };
    const auto is = [](const Fault& fault, FaultCode code, const std::string& path) {
        return fault.code == code && fault.path == path;
    };
    CHECK(is(refused(racked(19.3_in), no_rows, plan), FaultCode::not_supported, "plane.outline"));
    CHECK(refused(racked(19.1_in), no_rows, plan).path == "no fault");
    PurlinPlane other = racked(3_in);
    other.outline[0].up = 1_in;
    CHECK(is(refused(other, no_rows, plan), FaultCode::not_supported, "plane.outline"));
    other = racked(3_in);
    other.outline.pop_back();
    CHECK(is(refused(other, no_rows, plan), FaultCode::not_supported, "plane.outline"));
    other = racked(3_in);
    std::swap(other.outline[2], other.outline[3]);  // crosses itself
    CHECK(is(refused(other, no_rows, plan), FaultCode::not_supported, "plane.outline"));
    other = racked(3_in);
    other.outline[1].along = 0.5_in;  // no eave to speak of
    CHECK(is(refused(other, no_rows, plan), FaultCode::not_supported, "plane.outline"));
    other = racked(3_in);
    other.openings.push_back({{9_in, 9_in}, {19_in, 9_in}, {19_in, 19_in}});
    CHECK(is(refused(other, no_rows, plan), FaultCode::not_supported, "plane.openings"));
    other = racked(3_in);
    other.edges[1] = EdgeKind::hip;
    CHECK(is(refused(other, no_rows, plan), FaultCode::not_supported, "plane.edges"));
    for (const Length none : lengths_that_are_none()) {
        other = racked(3_in);
        other.outline[2].up = none;
        CHECK(refused(other, no_rows, plan).code == FaultCode::not_finite);
        CHECK(refusal_of([&] { (void)grid_turn(inches(none)); }).code == FaultCode::not_finite);
        LayTruePlan bad = plan;
        bad.trim.rake = none;
        CHECK(is(refused(racked(3_in), no_rows, bad), FaultCode::not_finite, "lay_true.trim.rake"));
    }
    CHECK(is(refused(racked(3_in), no_rows, {}), FaultCode::missing_field, "lay_true.sheets"));
    LayTruePlan bad = plan;
    bad.trim.eave = 5_ft;
    CHECK(is(refused(racked(3_in), no_rows, bad), FaultCode::out_of_range, "lay_true.trim.eave"));
    bad = plan;
    bad.saw_tooth = 13_in;
    CHECK(is(refused(racked(3_in), no_rows, bad), FaultCode::out_of_range, "lay_true.saw_tooth"));
    bad = plan;
    bad.joint_rows = static_cast<JointRows>(7);
    CHECK(is(refused(racked(3_in), no_rows, bad), FaultCode::unknown_name, "lay_true.joint_rows"));
    const Rows chords{SupportRun::up_slope, {}, 24_in};
    CHECK(is(refused(racked(3_in), chords, plan), FaultCode::not_supported, "supports.run"));
    bad = plan;
    bad.panels->ridge_hold_back = 4_ft;
    const PurlinPlane low = plane_of(20_ft, 40_in);
    CHECK(is(refused(low, no_rows, bad), FaultCode::does_not_fit, "panels.ridge_hold_back"));
    CHECK(is(refusal_of([] { (void)grid_turn(0.11); }), FaultCode::out_of_range, "turn"));
    CHECK(is(refusal_of([] { (void)turn_of(racked(3_in), static_cast<GridWay>(9)); }), FaultCode::unknown_name, "way"));
    CHECK(refusal_of([] { (void)turned(racked(3_in), 0.2); }).path == "turn");
}

TEST_CASE("supports in the turned frame") {
    // A tangent of 3/40 (0.075) has no round hypotenuse: sqrt(1600 + 9) = sqrt(1609). About (8, 0), the point (108, 96) is 100
    // along and 96 up: (100 x 40 + 96 x 3) / sqrt(1609) along, (96 x 40 - 100 x 3) / sqrt(1609) up.
    const double root = std::sqrt(1609.0);
    Rows rows = one_row({{8_in, 96_in}, {728_in, 96_in}});
    rows.lines[0].stretches = {{108_in, 208_in}};
    const Rows grid = turned(rows, {8_in, no_length}, 3.0 / 40.0);
    CHECK(off_by(grid.lines[0].stretches[0].low, 8_in + one_inch * (4288.0 / root)) < 1e-12);
    CHECK(off_by(grid.lines[0].stretches[0].high, 8_in + one_inch * (8288.0 / root)) < 1e-12);
    CHECK(off_by(grid.lines[0].centreline[0].up, one_inch * (3840.0 / root)) < 1e-12);
    CHECK(off_by(up_at(grid.lines[0].centreline, grid.lines[0].stretches[0].low), one_inch * (3540.0 / root)) < 1e-12);
    const Rows chords{SupportRun::up_slope, {{{{8_in, no_length}, {8_in, 192_in}}, 1.5_in, {{40_in, 80_in}}}}, 24_in};
    CHECK(off_by(turned(chords, {8_in, no_length}, 3.0 / 40.0).lines[0].stretches[0].high, one_inch * (3200.0 / root)) <
          1e-12);
    // Without a turn nothing moves by a bit.
    CHECK(turned(racked(3_in), 0.0).outline == racked(3_in).outline);
}

TEST_CASE("measured corners come to the same plane") {
    const FourCorners corners{{no_length, no_length}, {720_in, no_length}, {723_in, 192_in}, {3_in, 192_in}};
    const PurlinPlane plane = measured_plane(plane_of(720_in, 192_in), corners);
    const LayWay way = way_on(plane, GridWay::along_left_rake, with_panels(RipPlace::last));
    CHECK(way.eave_step == 0.5625_in);
}
