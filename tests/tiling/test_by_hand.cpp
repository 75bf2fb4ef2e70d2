// SPDX-License-Identifier: BSL-1.0

// Layouts small enough to work out by hand, and layouts that are refused.

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
// 62 ft along, 19.5 ft of run at 4 in 12: 234 x sqrt(10)/3 = 246.6577 in up the slope.
const double demo_up = 234.0 * std::sqrt(10.0) / 3.0;
PurlinPlane demo_plane() { return plane_of(62_ft, one_inch * demo_up); }
PurlinRows demo_rows() { return purlin_rows(demo_plane(), Fixed{24_in}, {.stock = {.lie = PurlinLie::on_edge}}); }
constexpr SheetSize four_by_eight{48_in, 96_in};

std::vector<SheetPiece> lane_of(const Sheets& sheets, std::int32_t lane) {
    std::vector<SheetPiece> pieces;
    for (const SheetPiece& piece : sheets.pieces) {
        if (piece.lane == lane) {
            pieces.push_back(piece);
        }
    }
    return pieces;
}
std::vector<Finding> found(const Sheets& sheets, FindingCode code) {
    std::vector<Finding> result;
    for (const Finding& finding : sheets.findings) {
        if (finding.code == code) {
            result.push_back(finding);
        }
    }
    return result;
}
Length height(const SheetPiece& piece) {
    const Extent extent = extent_of(piece.outline);
    return extent.high.up - extent.low.up;
}
}  // namespace

TEST_CASE("the plane of 62 ft, staggered by one space") {
    const Sheets sheets = tile_sheets(demo_plane(), demo_rows(), {.sheet = four_by_eight});
    CHECK(sheets.lanes == 16);  // 15 x 48 1/8 is 721 7/8, and 22 1/8 is left
    // Even columns: 96, 96, and what two sheets and two gaps leave. Odd ones: 72, 96, and the rest.
    for (std::int32_t lane = 0; lane < 16; ++lane) {
        const std::vector<SheetPiece> pieces = lane_of(sheets, lane);
        REQUIRE(pieces.size() == 3);
        const double first = lane % 2 == 0 ? 96.0 : 72.0;
        CHECK(height(pieces[0]) == one_inch * first);
        CHECK(height(pieces[1]) == 96_in);
        CHECK(std::fabs(inches(height(pieces[2])) - (demo_up - first - 96.0 - 0.25)) < 1e-9);
        CHECK(pieces[2].length == round_to_tick(one_inch * (demo_up - first - 96.25), Tick::of_inch(16)));
        CHECK(pieces[0].width == (lane == 15 ? 22.125_in : 48_in));
        CHECK(pieces[0].whole == (lane % 2 == 0 && lane != 15));
    }
    CHECK(std::fabs(demo_up - 168.25 - 78.4077) < 0.51e-4);  // 78.4 in of an odd column's last piece
    CHECK(lane_of(sheets, 1)[2].length == 78.4375_in);       // 78.4077 to the nearest 1/16
    CHECK(lane_of(sheets, 0)[2].length == 54.4375_in);
    CHECK(found(sheets, FindingCode::sliver_length).empty());
    CHECK(found(sheets, FindingCode::sliver_width).empty());
    CHECK(sheets.whole_sheets == 8 * 2 + 7);  // two in each even column, one in each odd one but the ripped last
    CHECK(piece_name(sheets.pieces[0]) == "A1");
    CHECK(piece_name(sheets.pieces.back()) == "P3");
    CHECK(sheets.joints.size() == 32);
    CHECK(sheets.closure.across == no_length);
}

TEST_CASE("staggered by half a sheet the same plane ends in a sliver") {
    const Sheets sheets = tile_sheets(demo_plane(), demo_rows(), {.sheet = four_by_eight, .stagger_spaces = 2});
    // Odd columns: 48, 96, 96, and 246.6577 - 240 - 3/8 = 6.2827 in.
    const std::vector<SheetPiece> pieces = lane_of(sheets, 1);
    REQUIRE(pieces.size() == 4);
    CHECK(std::fabs(inches(height(pieces[3])) - (demo_up - 240.375)) < 1e-9);
    CHECK(pieces[3].length == 6.3125_in);  // 6.2827 is past 6 9/32
    const std::vector<Finding> slivers = found(sheets, FindingCode::sliver_length);
    CHECK(slivers.size() == 8);
    for (const Finding& sliver : slivers) {
        CHECK(std::fabs(inches(sliver.measured) - 6.2827) < 0.51e-4);
        CHECK(sliver.limit == 12_in);
        CHECK(sheets.pieces[sliver.piece].place == 3);
        CHECK_FALSE(sliver.block.has_value());
    }
}

TEST_CASE("five lines under an 8 ft sheet at 24 in") {
    // Common practice: 0, 24, 48, 72 and 96 in, the first and the last half covered.
    const PurlinRows rows = demo_rows();
    int under = 0;
    for (const PurlinRow& row : rows.rows) {
        const Length centre = row.centreline.front().up;
        under += centre - row.width / 2.0 < 96_in && centre + row.width / 2.0 > 0_in ? 1 : 0;
    }
    CHECK(under == 5);
}

TEST_CASE("a 96 in sheet on 24 in rows bears on its purlins, with the joint 1/16 off the middle") {
    const Sheets sheets = tile_sheets(demo_plane(), demo_rows(), {.sheet = four_by_eight, .stagger_spaces = 0});
    const EndJoint& first = sheets.joints.front();
    REQUIRE(first.support.has_value());
    CHECK(*first.support == 4);  // fascia, 24, 48, 72, 96
    CHECK(first.first_bearing == 0.75_in);
    CHECK(first.second_bearing == 0.625_in);
    // The second joint lies 1/8 higher: 192.125 to 192.25 on 192.
    const EndJoint& second = sheets.joints[1];
    CHECK(second.first_bearing == 0.875_in);
    CHECK(second.second_bearing == 0.5_in);
    CHECK(found(sheets, FindingCode::narrow_bearing).empty());
    CHECK(found(sheets, FindingCode::joint_on_nothing).empty());
    SheetPlan stricter{.sheet = four_by_eight, .stagger_spaces = 0, .least_bearing = 0.5625_in};
    const std::vector<Finding> narrow =
        found(tile_sheets(demo_plane(), demo_rows(), stricter), FindingCode::narrow_bearing);
    CHECK(narrow.size() == 16);
    CHECK(narrow[0].measured == 0.5_in);
    REQUIRE(narrow[0].block.has_value());
    CHECK(narrow[0].block->length == 48_in);
    CHECK(narrow[0].block->from == PlanePoint{0_in, 192.1875_in});
}

TEST_CASE("a 2400 mm sheet on four spaces of 24 in misses its purlin") {
    // 2400 mm is 94.488 in: 1.512 in short of 96, past the 3/4 in that half of a 1 1/2 in purlin reaches.
    const SheetPlan plan{.sheet = {1200_mm, 2400_mm}, .gap = 3_mm, .stagger_spaces = 0};
    const Sheets sheets = tile_sheets(demo_plane(), demo_rows(), plan);
    const std::vector<Finding> missed = found(sheets, FindingCode::joint_on_nothing);
    CHECK(missed.size() == 2 * sheets.joints.size());  // both ends of every joint
    CHECK_FALSE(sheets.joints[0].support.has_value());
    CHECK(sheets.joints[0].first_bearing == no_length);
    REQUIRE(missed[0].block.has_value());
    CHECK(missed[0].block->length == round_down_to_tick(1200_mm, Tick::of_inch(16)));
    // Found even by somebody who asks for no bearing at all.
    SheetPlan lax = plan;
    lax.least_bearing = no_length;
    CHECK(found(tile_sheets(demo_plane(), demo_rows(), lax), FindingCode::joint_on_nothing).size() == missed.size());
    // Rows to sheets cure it.
    const PurlinRows rows =
        purlin_rows(demo_plane(), ToSheets{2400_mm, 3_mm, 4}, {.stock = {.lie = PurlinLie::on_edge}});
    CHECK(found(tile_sheets(demo_plane(), rows, plan), FindingCode::joint_on_nothing).empty());
}

TEST_CASE("cut back to supports: whole sheets where rows suit them, else to the last row reached") {
    SheetPlan plan{.sheet = {1200_mm, 2400_mm}, .gap = 3_mm, .stagger_spaces = 0, .joints = JointPlace::on_supports};
    const PurlinRows suited =
        purlin_rows(demo_plane(), ToSheets{2400_mm, 3_mm, 4}, {.stock = {.lie = PurlinLie::on_edge}});
    const Sheets whole = tile_sheets(demo_plane(), suited, plan);
    CHECK(whole.pieces[0].length == 2400_mm);
    CHECK(whole.pieces[1].length == 2400_mm);
    CHECK(whole.pieces[0].whole);
    // On 24 in rows 2400 mm reaches the one at 72: 72 less half a gap, then three more spaces less a gap.
    plan.tick = Tick::of_millimetres(1);
    const Sheets cut = tile_sheets(demo_plane(), demo_rows(), plan);
    CHECK(off_by(height(cut.pieces[0]), 72_in - 1.5_mm) < 1e-9);
    CHECK(off_by(height(cut.pieces[1]), 72_in - 3_mm) < 1e-9);
    CHECK(*cut.joints[0].support == 3);
    CHECK(*cut.joints[1].support == 6);
    CHECK(off_by(cut.joints[0].first_bearing, 0.75_in - 1.5_mm) < 1e-9);
    CHECK(off_by(cut.joints[0].second_bearing, 0.75_in - 1.5_mm) < 1e-9);
}

TEST_CASE("over chords 24 in apart sheets lie along the eave") {
    const ChordPlane plane = plane_of<Surface::chord_top>(240_in, 100_in);
    Supports<Surface::chord_top> chords{SupportRun::up_slope, {}, 24_in};
    for (int i = 0; i <= 10; ++i) {
        chords.lines.push_back({{{24_in * i, 0_in}, {24_in * i, 100_in}}, 1.5_in});
    }
    const Sheets sheets = tile_sheets(plane, chords, {.sheet = four_by_eight, .stagger_spaces = 2});
    CHECK(sheets.run == SupportRun::up_slope);
    CHECK(sheets.lanes == 3);  // courses of 48, 48 and 3 3/4 in
    const SheetPiece& first = sheets.pieces[0];
    CHECK(extent_of(first.outline).high == PlanePoint{96_in, 48_in});
    CHECK(first.length == 96_in);
    CHECK(first.width == 48_in);
    CHECK(lane_of(sheets, 1)[0].length == 48_in);
    CHECK(lane_of(sheets, 2)[0].width == 3.75_in);
    REQUIRE(sheets.joints[0].support.has_value());
    CHECK(*sheets.joints[0].support == 4);
    CHECK(sheets.joints[0].from == PlanePoint{96.0625_in, 0_in});
    CHECK(sheets.joints[0].to == PlanePoint{96.0625_in, 48_in});
    CHECK(signed_area(first.outline) == 96_in * 48_in);  // still counter-clockwise
}

TEST_CASE("laid from the right, joints over chords still name the chord they lie on") {
    const ChordPlane plane = plane_of<Surface::chord_top>(240_in, 100_in);
    Supports<Surface::chord_top> chords{SupportRun::up_slope, {}, 24_in};
    for (int i = 0; i <= 10; ++i) {
        chords.lines.push_back({{{24_in * i, 0_in}, {24_in * i, 100_in}}, 1.5_in});
    }
    const Sheets sheets = tile_sheets(plane, chords, {.sheet = four_by_eight, .start = StartCorner::eave_right});
    REQUIRE(sheets.joints.size() > 2);
    for (const EndJoint& joint : sheets.joints) {
        REQUIRE(joint.support.has_value());
        CHECK(off_by(chords.lines[*joint.support].centreline[0].along, joint.from.along) < 0.5);
    }
}

TEST_CASE("from the right corner the layout is the mirror image of that from the left") {
    const Length along = 62_ft;
    for (const JointPlace joints : {JointPlace::full_sheets, JointPlace::on_supports}) {
        SheetPlan plan{.sheet = four_by_eight, .joints = joints};
        const Sheets left = tile_sheets(demo_plane(), demo_rows(), plan);
        plan.start = StartCorner::eave_right;
        const Sheets right = tile_sheets(demo_plane(), demo_rows(), plan);
        REQUIRE(left.pieces.size() == right.pieces.size());
        for (std::size_t i = 0; i < left.pieces.size(); ++i) {
            const Extent a = extent_of(left.pieces[i].outline);
            const Extent b = extent_of(right.pieces[i].outline);
            CHECK(b.low.along == along - a.high.along);
            CHECK(b.high.along == along - a.low.along);
            CHECK(b.low.up == a.low.up);
            CHECK(b.high.up == a.high.up);
            CHECK(left.pieces[i].length == right.pieces[i].length);
            CHECK(left.pieces[i].width == right.pieces[i].width);
            CHECK(square_inches(signed_area(right.pieces[i].outline)) > 0.0);
        }
        CHECK(left.findings.size() == right.findings.size());
        CHECK(left.laid == right.laid);
    }
}

TEST_CASE("sheets that hang past the fascia") {
    const PurlinRows rows = purlin_rows(demo_plane(), Fixed{24_in}, {.sheet_past_fascia = 0.75_in});
    const Sheets sheets =
        tile_sheets(demo_plane(), rows, {.sheet = four_by_eight, .stagger_spaces = 0, .past_fascia = 0.75_in});
    CHECK(extent_of(sheets.pieces[0].outline).low.up == -0.75_in);
    CHECK(extent_of(sheets.pieces[0].outline).high.up == 95.25_in);
    CHECK(*sheets.joints[0].support == 4);
    // With no fascia to lie on and the first row at 24 in, the lower edge stands 24 - 1 3/4 in past it.
    const PurlinRows bare = purlin_rows(demo_plane(), Fixed{24_in}, {.fascia_width = no_length});
    const Sheets hanging = tile_sheets(demo_plane(), bare, {.sheet = four_by_eight});
    const std::vector<Finding> past = found(hanging, FindingCode::edge_past_support);
    CHECK(past.size() == 16);
    CHECK(past[0].measured == 22.25_in);
    CHECK(past[0].limit == 3_in);
}

TEST_CASE("no lane is counted where less than a gap is left") {
    const SheetPlan plan{.sheet = four_by_eight};
    const auto lanes = [&](Length along) { return tile_sheets(plane_of(along, 200_in), demo_rows(), plan).lanes; };
    CHECK(lanes(48_in) == 1);
    CHECK(lanes(48.0625_in) == 1);
    CHECK(lanes(48.125_in) == 1);
    CHECK(lanes(48.25_in) == 2);
    CHECK(lanes(96.125_in) == 2);
}

TEST_CASE("cuts are multiples of the tick, whatever the gap, and still fill the lane") {
    // 1/8 in gaps and quarter-inch cuts.
    const Sheets sheets = tile_sheets(demo_plane(), demo_rows(), {.sheet = four_by_eight, .tick = Tick::of_inch(4)});
    for (const SheetPiece& piece : sheets.pieces) {
        CHECK(round_to_tick(piece.length, Tick::of_inch(4)) == piece.length);
        CHECK(round_to_tick(piece.width, Tick::of_inch(4)) == piece.width);
    }
    CHECK(sheets.closure.worst_lane <= 0.125_in);
    CHECK(sheets.closure.across <= 0.125_in);
}

TEST_CASE("no cut is longer than the sheet it comes from") {
    // 2400 mm on a 1/16 in tick: a piece 0.1 mm short of a sheet would round up past it.
    const SheetPlan plan{.sheet = {1200_mm, 2400_mm}, .gap = 3_mm, .stagger_spaces = 0};
    const Sheets sheets = tile_sheets(plane_of(1199.9_mm, 2399.9_mm), demo_rows(), plan);
    REQUIRE(sheets.pieces.size() == 1);
    CHECK(sheets.pieces[0].length == 2400_mm);
    CHECK(sheets.pieces[0].width == 1200_mm);
}

TEST_CASE("sheet plans, planes and supports that are refused") {
    const auto lay = [](const SheetPlan& plan, const PurlinPlane& plane = demo_plane()) {
        return refusal_of([&] { (void)tile_sheets(plane, demo_rows(), plan); });
    };
    CHECK(lay({.sheet = four_by_eight}).path == "no fault");
    CHECK(lay({.sheet = {5_in, 96_in}}).path == "sheets.width");
    CHECK(lay({.sheet = {48_in, 481_in}}).path == "sheets.length");
    CHECK(lay({.sheet = four_by_eight, .gap = -0.125_in}).path == "sheets.gap");
    CHECK(lay({.sheet = four_by_eight, .stagger_spaces = -1}).path == "sheets.stagger_spaces");
    CHECK(lay({.sheet = four_by_eight, .stagger_spaces = 101}).path == "sheets.stagger_spaces");
    CHECK(lay({.sheet = four_by_eight, .stagger_spaces = 4}).code == FaultCode::does_not_fit);
    CHECK(lay({.sheet = four_by_eight}, plane_of(9e6_in, 9e3_in)).code == FaultCode::too_much_work);
    CHECK(lay({.sheet = four_by_eight}, plane_of(9e6_in, 9e6_in)).code == FaultCode::too_much_work);
    const auto corners = [&](std::vector<PlanePoint> outline) {
        return lay({.sheet = four_by_eight}, plane_with<Surface::purlin_top>(std::move(outline))).code;
    };
    CHECK(corners({}) == FaultCode::not_supported);
    CHECK(corners({{0_in, 0_in}, {99_in, 0_in}, {99_in, 99_in}, {50_in, -5_in}, {0_in, 99_in}}) ==
          FaultCode::not_supported);
    CHECK(corners({{0_in, 0_in}, {99_in, 0_in}, {99_in, 99_in}, {0_in, 0_in}}) == FaultCode::not_supported);
    CHECK(corners({{0_in, 0_in}, {99_in, 1_in}, {99_in, 99_in}, {0_in, 99_in}}) == FaultCode::not_supported);
    PurlinPlane opening = demo_plane();
    opening.openings.push_back({{-9_in, 9_in}, {19_in, 9_in}, {19_in, 19_in}});
    CHECK(lay({.sheet = four_by_eight}, opening).path == "plane.openings");
    CHECK(lay({.sheet = four_by_eight, .rip_first = 49_in}).path == "sheets.rip_first");
    CHECK(lay({.sheet = four_by_eight, .start_spaces = -1}).path == "sheets.start_spaces");
    CHECK(lay({.sheet = four_by_eight, .stagger_spaces = 2, .start_spaces = 2}).code == FaultCode::does_not_fit);
    CHECK(lay({.sheet = four_by_eight, .turn = 0.2}).path == "sheets.turn");
    CHECK(lay({.sheet = four_by_eight, .turn = std::numeric_limits<double>::quiet_NaN()}).path == "sheets.turn");
    for (const Length none : lengths_that_are_none()) {
        CHECK(lay({.sheet = {none, 96_in}}).path == "sheets.width");
        CHECK(lay({.sheet = {48_in, none}}).path == "sheets.length");
        CHECK(lay({.sheet = four_by_eight, .gap = none}).path == "sheets.gap");
        CHECK(lay({.sheet = four_by_eight, .past_fascia = none}).path == "sheets.past_fascia");
        CHECK(lay({.sheet = four_by_eight, .sliver = none}).path == "sheets.sliver");
        CHECK(lay({.sheet = four_by_eight, .least_bearing = none}).path == "sheets.least_bearing");
        CHECK(lay({.sheet = four_by_eight, .edge_reach = none}).path == "sheets.edge_reach");
        CHECK(corners({{0_in, 0_in}, {99_in, 0_in}, {99_in, none}, {0_in, 99_in}}) == FaultCode::not_finite);
        Supports<Surface::purlin_top> supports = supports_of(demo_rows());
        supports.lines[2].centreline[0].up = none;
        const auto laid = [&] {
            return refusal_of([&] { (void)tile_sheets(demo_plane(), supports, {.sheet = four_by_eight}); });
        };
        CHECK(laid().path == "supports.lines[2].centreline[0]");
        supports = supports_of(demo_rows());
        supports.spacing = none;
        CHECK(laid().path == "supports.spacing");
    }
    const auto on = [](Supports<Surface::purlin_top> supports) {
        return refusal_of([&] { (void)tile_sheets(demo_plane(), supports, {.sheet = four_by_eight}); });
    };
    CHECK(on({SupportRun::along_eave, {}, 24_in}).code == FaultCode::not_supported);
    Supports<Surface::purlin_top> turned = supports_of(demo_rows());
    std::reverse(turned.lines.begin(), turned.lines.end());
    CHECK(on(turned).code == FaultCode::out_of_order);
}

TEST_CASE("names past the 26th lane") {
    const auto name = [](std::int32_t lane, std::int32_t place) {
        return piece_name({lane, place, {}, no_length, no_length, false, false});
    };
    CHECK(name(0, 0) == "A1");
    CHECK(name(25, 2) == "Z3");
    CHECK(name(26, 0) == "AA1");
    CHECK(name(51, 0) == "AZ1");
    CHECK(name(52, 0) == "BA1");
    CHECK(name(701, 0) == "ZZ1");
    CHECK(name(702, 0) == "AAA1");
}
