// SPDX-License-Identifier: BSL-1.0

// The figures of lay_true.hpp against sheets and panels that are really laid: rips, lengths, steps, bearings.

#include <eavewright/tiling/lay_cut_panels.hpp>
#include <eavewright/tiling/lay_panels.hpp>
#include <eavewright/tiling/lay_true.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include "support/printing.hpp"
#include "support/seeded_numbers.hpp"

#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
using Rows = Supports<Surface::purlin_top>;
const Rows no_rows{SupportRun::along_eave, {}, 24_in};

/// Out of square by up to 3 in, its eave on up = 0; clear of two whole sheets up the slope, past which less than half a tick
/// may stay bare.
PurlinPlane skewed(SeededNumbers& random) {
    return random_plane(random, random.between(300, 700), random.between(200, 250), 3.0);
}
bool near_by(Length a, Length b, double within) { return off_by(a, b) <= within; }

/// Across the grid: the places of a lane's pieces, its inner line, and the two corners of the plane at its outer side.
struct LaidRip {
    Length at_eave;
    Length at_ridge;
};
/// `corners` are the plane's in the grid's frame, `lane` holds the outlines of the lane in it.
LaidRip laid_rip(const std::vector<PlanePoint>& lane, PlanePoint eave, PlanePoint ridge, bool low_side) {
    Length inner = lane.front().along;
    for (const PlanePoint& p : lane) {
        inner = low_side ? longer(inner, p.along) : shorter(inner, p.along);
    }
    const double way = low_side ? 1.0 : -1.0;
    return {(inner - eave.along) * way, (inner - ridge.along) * way};
}
bool has_corner(const std::vector<PlanePoint>& points, PlanePoint corner) {
    return std::any_of(points.begin(), points.end(), [&](PlanePoint p) {
        return near_by(p.along, corner.along, 1e-8) && near_by(p.up, corner.up, 1e-8);
    });
}
/// Whether a rip is what was laid, its wedge with it.
bool is_laid(const TaperedRip& rip, const LaidRip& laid, Length wedge) {
    const Length clipped_eave = longer(no_length, shorter(48_in, laid.at_eave));
    const Length clipped_ridge = longer(no_length, shorter(48_in, laid.at_ridge));
    return near_by(rip.at_first, clipped_eave, 1e-8) && near_by(rip.at_second, clipped_ridge, 1e-8) &&
           (rip.runs_out || near_by(magnitude(laid.at_eave - laid.at_ridge), wedge, 1e-8));
}

/// Sheets laid with their own turn, and whether both outer lanes are what the way says.
bool sheets_agree(const PurlinPlane& plane, const SheetPlan& asked, const LayWay& way) {
    SheetPlan plan = asked;
    plan.turn = way.tangent;
    const Rows rows{SupportRun::along_eave, {{{{-(10_in), 60_in}, {800_in, 60_in}}, 1.5_in}}, 24_in};
    const Sheets sheets = tile_sheets(plane, rows, plan);
    const GridTurn turn = grid_turn(way.tangent);
    const std::vector<PlanePoint> corners = turned(plane, way.tangent).outline;
    std::vector<PlanePoint> first;
    std::vector<PlanePoint> last;
    const std::int32_t last_lane = sheets.pieces.back().lane;
    for (const SheetPiece& piece : sheets.pieces) {
        for (const PlanePoint& p : piece.outline) {
            const PlanePoint q = turned(p, plane.outline[0], turn);
            if (piece.lane == 0) {
                first.push_back(q);
            }
            if (piece.lane == last_lane) {
                last.push_back(q);
            }
        }
    }
    if (plan.start == StartCorner::eave_right) {
        std::swap(first, last);
    }
    const GridRips& rips = way.sheets->rips;
    const LaidRip low = laid_rip(first, corners[0], corners[3], true);
    const LaidRip high = laid_rip(last, corners[1], corners[2], false);
    // Where a rip runs out, or the rake lies in the gap past a whole sheet, its lane does not reach both corners.
    const auto reaches = [](const TaperedRip& rip, const LaidRip& laid) {
        return !rip.runs_out && longer(laid.at_eave, laid.at_ridge) <= 48_in + one_inch * 1e-9;
    };
    const bool low_there = !reaches(rips.low, low) || (has_corner(first, corners[0]) && has_corner(first, corners[3]));
    const bool high_there = !reaches(rips.high, high) || (has_corner(last, corners[1]) && has_corner(last, corners[2]));
    return rips.columns == sheets.lanes && low_there && high_there &&
           is_laid(rips.low, low, way.edges[3].wedge.wedge) && is_laid(rips.high, high, way.edges[1].wedge.wedge);
}

/// Panels square to the eave, as `lay_panels` lays them: the same lengths and covers to the bit, or to rounding.
bool panels_agree(const PurlinPlane& plane, const PanelPlan& plan, const LayWay& way) {
    const Panels laid = lay_panels(plane, no_rows, plan);
    const PanelSteps& steps = way.panels->steps;
    bool all = laid.pieces.size() == steps.lengths.size() && near_by(laid.overhang, steps.overhang, 1e-9) &&
               near_by(laid.left_rake.hidden, way.edges[3].wedge.wedge, 1e-9) &&
               near_by(laid.right_rake.hidden, way.edges[1].wedge.wedge, 1e-9);
    for (std::size_t i = 0; all && i < laid.pieces.size(); ++i) {
        const PanelPiece& piece = laid.pieces[i];
        const PanelLength& length = steps.lengths[i];
        all = near_by(piece.left_length, length.upper_left, 1e-9) &&
              near_by(piece.right_length, length.upper_right, 1e-9) && piece.order_length == length.order &&
              piece.cover == length.cover && length.lower_left == no_length && length.lower_right == no_length;
    }
    return all;
}

/// Panels in the turned plane, as `lay_cut_panels` cuts them. It cuts the outer ones at the rakes; figures carry the ridge on.
bool turned_panels_agree(const PurlinPlane& plane, const PanelPlan& plan, const LayWay& way) {
    const CutPanels laid = lay_cut_panels(turned(plane, way.tangent), no_rows, {plan});
    const PanelSteps& steps = way.panels->steps;
    bool all = laid.pieces.size() == steps.lengths.size() && laid.lanes == way.panels->rips.columns;
    const Length overhang = steps.overhang - laid.overhang;
    const std::size_t outer = way.panels->rips.low.runs_out || way.panels->rips.high.runs_out ? 2 : 1;
    for (std::size_t i = outer; all && i + outer < laid.pieces.size(); ++i) {
        const CutPanel& piece = laid.pieces[i];
        const PanelLength& length = steps.lengths[i];
        all = near_by(piece.length, length.length - overhang, 1e-8) && near_by(piece.cover, length.cover, 1e-8) &&
              near_by(piece.lower.step, steps.step_eave, 1e-8) && near_by(piece.upper.step, steps.step_ridge, 1e-8) &&
              near_by(magnitude(length.lower_left - length.lower_right),
                      steps.step_eave * (length.cover / plan.panel.cover), 1e-8);
    }
    return all;
}
}  // namespace

TEST_CASE("rips, lengths and steps are those of what is laid") {
    SeededNumbers random{20240607};
    for (int round = 0; round < sweep(600); ++round) {
        const PurlinPlane plane = skewed(random);
        LayTruePlan plan;
        plan.sheets = SheetPlan{.sheet = {48_in, 96_in}};
        plan.sheets->rip_first = random.coin() ? no_length : random.inches_between(0, 40);
        plan.panels = PanelPlan{.ridge_hold_back = random.inches_between(0, 3)};
        plan.panels->rips = random.coin() ? RipPlace::last : RipPlace::balanced;
        plan.panels->edge_past_fascia = random.inches_between(0, 1);
        if (random.coin()) {
            plan.sheets->start = plan.panels->start = StartCorner::eave_right;
        }
        const LayTrue found = ways_to_lay(plane, no_rows, plan);
        CHECK_MESSAGE(panels_agree(plane, *plan.panels, found.ways[0]), "round " << round);
        for (const LayWay& way : found.ways) {
            CHECK_MESSAGE(sheets_agree(plane, *plan.sheets, way), "round " << round << " way " << name_of(way.way));
            CHECK_MESSAGE(turned_panels_agree(plane, *plan.panels, way),
                          "round " << round << " way " << name_of(way.way));
        }
    }
}

namespace {
/// Least bearing of the poorer end at any joint near `up`, and the first lane in which it is below `least`.
struct LaidBearing {
    Length least;
    std::optional<std::int32_t> first_lane;
    std::size_t joints;
};
LaidBearing bearing_on(const Sheets& sheets, std::size_t support, Length least) {
    LaidBearing laid{12_in, std::nullopt, 0};
    for (const EndJoint& joint : sheets.joints) {
        if (joint.support != support) {
            continue;
        }
        const Length poorer = shorter(joint.first_bearing, joint.second_bearing);
        laid.least = shorter(laid.least, poorer);
        ++laid.joints;
        const std::int32_t lane = sheets.pieces[joint.first].lane;
        if (!laid.first_lane && poorer + count_tolerance < least) {
            laid.first_lane = lane;
        }
    }
    return laid;
}
/// A plane whose first edge is its right rake, so that laying takes the eave as it lies.
PurlinPlane begun_at_rake(PurlinPlane plane) {
    std::rotate(plane.outline.begin(), plane.outline.begin() + 1, plane.outline.end());
    std::rotate(plane.edges.begin(), plane.edges.begin() + 1, plane.edges.end());
    return plane;
}
/// Up-coordinate of a joint in the first lane at the plane's left rake, in the frame of a turn.
Length first_joint_at(const Sheets& sheets, PlanePoint about, const GridTurn& turn) {
    return turned(sheets.joints.front().from, about, turn).up;
}

struct Case {
    PurlinPlane plane;
    SheetPlan plan;
    JointRows joints;
    double tangent;
};
Sheets lay(const Case& c, const Rows& rows) {
    SheetPlan plan = c.plan;
    if (c.tangent != 0.0 && c.joints == JointRows::straight) {
        return tile_sheets(begun_at_rake(turned(c.plane, c.tangent)), turned(rows, c.plane.outline[0], c.tangent),
                           plan);
    }
    plan.turn = c.tangent;
    return tile_sheets(c.plane, rows, plan);
}
/// A support across the plane that rises by `rise`, moved up or down until the first joint lies on its centre at its first end.
Rows row_on_first_joint(const Case& c, Length rise) {
    const bool in_frame = c.tangent != 0.0 && c.joints == JointRows::straight;
    const GridTurn turn = grid_turn(c.tangent);
    const std::vector<PlanePoint>& o = c.plane.outline;
    Rows rows{SupportRun::along_eave, {{{{no_length, 96_in}, {o[1].along, 96_in + rise}}, 1.5_in}}, 24_in};
    const Sheets sheets = lay(c, rows);
    const Length joint = in_frame ? sheets.joints.front().from.up : first_joint_at(sheets, o[0], turn);
    for (int pass = 0; pass < 5; ++pass) {
        // From rake to rake, as purlins by rule lie.
        std::vector<PlanePoint>& line = rows.lines[0].centreline;
        line[0].along = (o[3].along) * (line[0].up / o[3].up);
        line[1].along = o[1].along + (o[2].along - o[1].along) * (line[1].up / o[2].up);
        const Length off = joint - turned(line[0], o[0], turn).up;
        line[0].up += off;
        line[1].up += off;
    }
    return rows;
}
bool bearings_agree(const Case& c, Length rise) {
    const Rows rows = row_on_first_joint(c, rise);
    const RowDrift row = row_drifts(c.plane, rows, c.plan, c.joints, c.tangent)[0];
    const Sheets sheets = lay(c, rows);
    const LaidBearing laid = bearing_on(sheets, 0, c.plan.least_bearing);
    // At leaning rakes joints end where the joint line meets the rake, not the support's centre: off by up to their distance
    // x lean x slope, here 3/4 in x 6/200 x 1/100.
    const double within = 4e-4;
    if (row.worst > 0.68_in) {  // past the support's edge no bearing is left, and joints are given to no support
        return laid.joints < static_cast<std::size_t>(sheets.lanes) || laid.least <= 0.01_in;
    }
    const bool first_lane = std::fabs(inches(laid.least - c.plan.least_bearing)) < within ||
                            (laid.first_lane.has_value() == row.leaves_column.has_value() &&
                             (!row.leaves_column || std::llabs(*laid.first_lane - *row.leaves_column) == 0));
    return laid.joints > 0 && near_by(laid.least, row.bearing, within) && first_lane;
}
}  // namespace

TEST_CASE("bearings along a support are those of the joints laid on it") {
    SeededNumbers random{77};
    int judged = 0;
    for (int round = 0; round < sweep(1500); ++round) {
        Case c{skewed(random), {.sheet = {48_in, 96_in}, .stagger_spaces = 0}, JointRows::straight, 0.0};
        const int kind = random.whole(0, 2);
        if (kind > 0) {
            c.tangent = random.between(-0.004, 0.004);
            c.joints = kind == 1 ? JointRows::straight : JointRows::stepped;
        }
        // A rise that keeps near to the joint line: in steps it runs with the eave, straight with the grid.
        const Length along = c.joints == JointRows::straight ? c.plane.outline[1].along * c.tangent : no_length;
        const Length rise = along + random.inches_between(-0.6, 0.6);
        judged += bearings_agree(c, rise) ? 1 : 0;
        CHECK_MESSAGE(bearings_agree(c, rise), "round " << round << " kind " << kind);
    }
    CHECK(judged > 0);
}
