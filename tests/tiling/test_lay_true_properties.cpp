// SPDX-License-Identifier: BSL-1.0

// What holds of the ways to lay any plane out of square.

#include <eavewright/tiling/lay_true.hpp>

#include "support/printing.hpp"
#include "support/seeded_numbers.hpp"

#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
using Rows = Supports<Surface::purlin_top>;

PurlinPlane skewed(SeededNumbers& random) {
    return random_plane(random, random.between(200, 900), random.between(120, 300), 4.0);
}
/// Rows across the plane from rake to rake, each askew by up to `play`; the middle one bent as well.
Rows rows_on(const PurlinPlane& plane, SeededNumbers& random, double play) {
    const std::vector<PlanePoint>& o = plane.outline;
    Rows rows{SupportRun::along_eave, {}, 24_in};
    for (Length up = 24_in; up < shorter(o[2].up, o[3].up) - 6_in; up += 24_in) {
        const Length left = up + one_inch * random.between(-play, play);
        const Length right = up + one_inch * random.between(-play, play);
        const Length middle = (left + right) / 2.0 + one_inch * random.between(-play, play);
        const PlanePoint from{o[3].along * (left / o[3].up), left};
        const PlanePoint to{o[1].along + (o[2].along - o[1].along) * (right / o[2].up), right};
        rows.lines.push_back({{from, {(from.along + to.along) / 2.0, middle}, to}, 1.5_in});
    }
    return rows;
}
LayTruePlan random_plan(SeededNumbers& random) {
    LayTruePlan plan;
    plan.sheets = SheetPlan{.sheet = {48_in, 96_in}};
    plan.sheets->rip_first = random.coin() ? no_length : random.inches_between(0, 40);
    plan.panels = PanelPlan{.ridge_hold_back = random.inches_between(0, 3)};
    plan.panels->rips = random.coin() ? RipPlace::last : RipPlace::balanced;
    plan.joint_rows = random.coin() ? JointRows::straight : JointRows::stepped;
    plan.lengths = random.coin() ? PanelOrder::panel_by_panel : PanelOrder::one_length;
    if (random.coin()) {
        plan.trim = {.rake = random.inches_between(0, 4),
                     .ridge = random.inches_between(0, 4),
                     .eave = random.inches_between(0, 4)};
    }
    return plan;
}
PlanePoint mirrored(PlanePoint p, Length width) { return {width - p.along, p.up}; }
PurlinPlane mirrored(PurlinPlane plane) {
    const std::vector<PlanePoint> o = plane.outline;
    const Length width = o[1].along;
    plane.outline = {mirrored(o[1], width), mirrored(o[0], width), mirrored(o[3], width), mirrored(o[2], width)};
    return plane;
}
Rows mirrored(const Rows& rows, Length width) {
    Rows result = rows;
    for (SupportLine& line : result.lines) {
        std::vector<PlanePoint> centreline;
        for (std::size_t i = line.centreline.size(); i > 0; --i) {
            centreline.push_back(mirrored(line.centreline[i - 1], width));
        }
        line.centreline = std::move(centreline);
    }
    return result;
}
bool same(Length a, Length b) { return off_by(a, b) < 1e-8; }

/// The way that a mirrored plane has for it.
std::size_t mirrored(GridWay way) {
    switch (way) {
        case GridWay::along_left_rake: return 3;
        case GridWay::along_right_rake: return 2;
        default: return static_cast<std::size_t>(way);
    }
}
bool same_rip(const TaperedRip& a, const TaperedRip& b) {
    return same(a.at_first, b.at_first) && same(a.at_second, b.at_second) && a.sliver == b.sliver;
}
/// Figures of a way against those of the mirrored plane, begun at its other side.
bool is_mirrored(const LayWay& a, const LayWay& b) {
    bool all = std::fabs(a.tangent + b.tangent) < 1e-12 && same(a.worst_wedge, b.worst_wedge) &&
               same(a.edges[1].wedge.lean, -b.edges[3].wedge.lean) &&
               same(a.edges[0].wedge.lean, -b.edges[0].wedge.lean) && a.edges[1].show == b.edges[3].show &&
               same(a.edges[2].must_hide, b.edges[2].must_hide) && same(a.eave_step, b.eave_step) &&
               a.rows_off == b.rows_off && a.slivers == b.slivers && a.edges_shown == b.edges_shown &&
               same_rip(a.sheets->rips.low, b.sheets->rips.high) && same_rip(a.sheets->rips.high, b.sheets->rips.low) &&
               same_rip(a.panels->rips.low, b.panels->rips.high);
    for (std::size_t i = 0; all && i < a.sheets->rows.size(); ++i) {
        const RowDrift& x = a.sheets->rows[i];
        const RowDrift& y = b.sheets->rows[i];
        all = same(x.drift, y.drift) && same(x.range, y.range) && same(x.set_off, y.set_off) && x.remedy == y.remedy &&
              x.leaves_column == y.leaves_column;
    }
    for (std::size_t i = 0; all && i < a.panels->steps.lengths.size(); ++i) {
        const PanelLength& x = a.panels->steps.lengths[i];
        const PanelLength& y = b.panels->steps.lengths[i];
        all = same(x.length, y.length) && same(x.upper_left, y.upper_right) && same(x.lower_left, y.lower_right);
    }
    return all;
}

/// Whether wedges are the differences of the corners in the turned frame, and turning keeps area and comes back.
bool turning_holds(const PurlinPlane& plane, const LayWay& way) {
    const PurlinPlane grid = turned(plane, way.tangent);
    const std::vector<PlanePoint>& g = grid.outline;
    const double area = square_inches(net_area(plane));
    bool all = std::fabs(square_inches(net_area(grid)) - area) < 1e-9 * area &&
               same(magnitude(g[1].up - g[0].up), way.edges[0].wedge.wedge) &&
               same(magnitude(g[2].along - g[1].along), way.edges[1].wedge.wedge) &&
               same(magnitude(g[2].up - g[3].up), way.edges[2].wedge.wedge) &&
               same(magnitude(g[3].along - g[0].along), way.edges[3].wedge.wedge);
    for (std::size_t i = 0; i < 4; ++i) {
        const PlanePoint back = turned_back(g[i], plane.outline[0], grid_turn(way.tangent));
        all = all && same(back.along, plane.outline[i].along) && same(back.up, plane.outline[i].up) &&
              same(edge_length(g, i), edge_length(plane.outline, i));
    }
    return all;
}
/// The edge that a way is laid to has no wedge at all.
bool has_no_own_wedge(const LayWay& way) {
    switch (way.way) {
        case GridWay::square_to_eave: return way.edges[0].wedge.wedge == no_length;
        case GridWay::along_right_rake: return way.edges[1].wedge.wedge == no_length;
        case GridWay::square_to_ridge: return way.edges[2].wedge.wedge == no_length;
        case GridWay::along_left_rake: return way.edges[3].wedge.wedge == no_length;
        default: return true;
    }
}
/// The least worst wedge of ten thousand turns.
Length scanned(const PurlinPlane& plane, bool rakes_alone) {
    Length least = 100_in;
    for (int i = -1000; i <= 1000; ++i) {
        const double t = i * 0.00005;
        const double cosine = 1.0 / std::sqrt(1.0 + t * t);
        const std::vector<PlanePoint>& o = plane.outline;
        const auto rake = [&](PlanePoint a, PlanePoint b) {
            return magnitude((b.along - a.along) + (b.up - a.up) * t) * cosine;
        };
        const auto level = [&](PlanePoint a, PlanePoint b) {
            return magnitude((b.up - a.up) - (b.along - a.along) * t) * cosine;
        };
        Length worst = longer(rake(o[0], o[3]), rake(o[1], o[2]));
        worst = rakes_alone ? worst : longer(worst, longer(level(o[0], o[1]), level(o[3], o[2])));
        least = shorter(least, worst);
    }
    return least;
}
std::vector<double> figures_of(const LayWay& way) {
    return {static_cast<double>(way.rows_off), static_cast<double>(way.slivers), static_cast<double>(way.edges_shown),
            inches(way.eave_step), inches(way.worst_wedge)};
}
/// The first figure that differs, and whether `a` is better; 5 for none.
std::pair<std::size_t, bool> first_difference(const std::vector<double>& a, const std::vector<double>& b) {
    for (std::size_t k = 0; k < a.size(); ++k) {
        if (std::fabs(a[k] - b[k]) > 1.5e-9) {
            return {k, a[k] < b[k]};
        }
    }
    return {5, false};
}
/// Whether no way goes before the best by the stated order, and the reason is what the next best lacks; worked out anew.
bool best_is_best(const LayTrue& found) {
    const std::vector<double> best = figures_of(found.ways[found.best]);
    std::vector<double> next;
    for (const LayWay& way : found.ways) {
        const std::vector<double> other = figures_of(way);
        if (first_difference(other, best).second) {
            return false;
        }
        if (first_difference(best, other).second && (next.empty() || first_difference(other, next).second)) {
            next = other;
        }
    }
    const std::size_t reason = next.empty() ? 5 : first_difference(best, next).first;
    return reason == static_cast<std::size_t>(found.reason);
}
/// Bearings: what is left of half the support, and a shared line never serves worse than one on the centre.
bool drifts_hold(const SheetsShown& sheets) {
    bool all = true;
    std::int64_t off = 0;
    for (const RowDrift& row : sheets.rows) {
        const Length half = row.allowed + 0.5_in;
        off += leaves_support(row) ? 1 : 0;
        all = all && row.range >= row.worst && row.range <= row.worst * 2.0 + one_inch * 1e-12 &&
              row.shared_bearing >= row.bearing && same(row.bearing, longer(no_length, half - row.worst)) &&
              magnitude(row.drift) <= row.worst && row.within_column <= row.range + one_inch * 1e-12 &&
              row.leaves_at.has_value() == row.leaves_column.has_value();
        if (row.remedy == RowRemedy::none || row.remedy == RowRemedy::shift_line) {
            all = all && row.shared_bearing >= 0.5_in - count_tolerance * 2.0;
        } else if (row.remedy != RowRemedy::no_joints) {
            all = all && row.shared_bearing < 0.5_in && row.columns_off > 0;
        }
    }
    return all && off == sheets.rows_off;
}
}  // namespace

TEST_CASE("turning, wedges, the least of them, and the choice") {
    SeededNumbers random{31};
    for (int round = 0; round < sweep(2000); ++round) {
        const PurlinPlane plane = skewed(random);
        const Rows rows = rows_on(plane, random, random.coin() ? 0.05 : 0.6);
        const LayTrue found = ways_to_lay(plane, rows, random_plan(random));
        bool holds = best_is_best(found);
        for (const LayWay& way : found.ways) {
            holds = holds && turning_holds(plane, way) && has_no_own_wedge(way) && drifts_hold(*way.sheets) &&
                    found.ways[5].worst_wedge <= way.worst_wedge;
        }
        CHECK_MESSAGE(holds, "round " << round);
        // A scan in steps of 1/20,000 comes no lower than the exact turn, and within half a step's wedge of it.
        const Length least = found.ways[5].worst_wedge;
        const Length scan = scanned(plane, false);
        CHECK_MESSAGE((scan > least - one_inch * 1e-9 && scan < least + one_inch * 0.03), "round " << round);
        const LayWay& between = found.ways[4];
        const Length rakes = longer(between.edges[1].wedge.wedge, between.edges[3].wedge.wedge);
        const Length scan_rakes = scanned(plane, true);
        CHECK_MESSAGE((scan_rakes > rakes - one_inch * 1e-9 && scan_rakes < rakes + one_inch * 0.01),
                      "round " << round);
    }
}

TEST_CASE("a mirrored plane is laid as its mirror image") {
    SeededNumbers random{32};
    for (int round = 0; round < sweep(1000); ++round) {
        const PurlinPlane plane = skewed(random);
        const Rows rows = rows_on(plane, random, 0.3);
        LayTruePlan plan = random_plan(random);
        const LayTrue here = ways_to_lay(plane, rows, plan);
        plan.sheets->start = plan.panels->start = StartCorner::eave_right;
        const LayTrue there = ways_to_lay(mirrored(plane), mirrored(rows, plane.outline[1].along), plan);
        bool holds = here.reason == there.reason && mirrored(here.ways[here.best].way) == there.best;
        for (const LayWay& way : here.ways) {
            holds = holds && is_mirrored(way, there.ways[mirrored(way.way)]);
        }
        CHECK_MESSAGE(holds, "round " << round);
    }
}

TEST_CASE("a square plane shows nothing, exactly") {
    SeededNumbers random{33};
    for (int round = 0; round < sweep(300); ++round) {
        const PurlinPlane plane = plane_of(random.inches_between(200, 900), random.inches_between(120, 300));
        const Rows rows = rows_on(plane, random, 0.0);
        LayTruePlan plan = random_plan(random);
        plan.sheets->sliver = plan.panels->sliver = no_length;
        const LayTrue found = ways_to_lay(plane, rows, plan);
        bool holds = found.best == 0 && found.reason == LayReason::nothing_to_choose;
        for (const LayWay& way : found.ways) {
            holds = holds && way.tangent == 0.0 && !std::signbit(way.tangent) && way.worst_wedge == no_length &&
                    way.eave_step == no_length && way.panels->steps.step_ridge == no_length && way.rows_off == 0 &&
                    way.sheets->rips.low.taper == no_length && way.sheets->rips.high.taper == no_length &&
                    way.panels->steps.longest == way.panels->steps.shortest &&
                    way.panels->steps.eave_cut == way.panels->steps.one_order - way.panels->steps.longest &&
                    way.above_eave_right == no_length && way.shows_nothing;
            for (const RowDrift& row : way.sheets->rows) {
                holds = holds && row.worst == no_length && row.range == no_length;
            }
        }
        CHECK_MESSAGE(holds, "round " << round);
    }
}
