// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lays ribbed steel on a plane of any outline, square to its eave.

#include <eavewright/fault.hpp>
#include <eavewright/framing/purlin_row.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/outline.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panel_lanes.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/tiling/cut_panels_of.hpp>
#include <eavewright/tiling/judge_cut_panels.hpp>
#include <eavewright/tiling/lay_panels.hpp>
#include <eavewright/tiling/panel_courses.hpp>
#include <eavewright/tiling/panel_ends.hpp>
#include <eavewright/tiling/panel_lengths.hpp>
#include <eavewright/tiling/panel_reach.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {
/// Adds one panel that covers `part`. `to_lap` where its upper end lies under an end lap.
inline void add_cut_panel(const CutInput& in, const PanelReach& reach, const CutLane& lane, PlanePart part, bool to_lap,
                          CutPanels& panels) {
    const PanelPlan& plan = in.plan.panels;
    const Length lane_cover = lane.right - lane.left;
    const bool is_last = lane.number + 1 == panels.lanes;
    const bool ripped = lane_cover + count_tolerance < plan.panel.cover;
    const Extent extent = extent_of(part.outline);
    const Length length = extent.high.up - extent.low.up;
    const Length order = round_up_to_increment(length, plan.increment);
    PartEnds ends = ends_of(reach, part.outline, lane.stock_left, plan.panel.cover);
    const Length play = ends.upper.edge ? shorter(plan.ridge_play, plan.ridge_hold_back) : no_length;
    if (!ends.upper.cut && !to_lap && !ends.lower.cut) {  // else what is too long comes off at the lower cut
        ends.upper.cut = order - length > play + count_tolerance;
        for (PlanePoint& p : part.outline) {
            if (!ends.upper.cut && play > no_length && p.up >= extent.high.up - end_rounding) {
                p.up = extent.low.up + order;  // stays under the cap as it was ordered
            }
        }
    }
    std::int32_t place = 0;
    if (!panels.pieces.empty() && panels.pieces.back().lane == lane.number) {
        place = panels.pieces.back().place + 1;
    }
    const bool notched =
        !part.cutouts.empty() || std::any_of(in.openings.begin(), in.openings.end(), [&](const auto& o) {
            const Extent box = extent_of(o);
            return box.low.along < extent.high.along && extent.low.along < box.high.along &&
                   box.low.up < extent.high.up && extent.low.up < box.high.up;
        });
    panels.covered += net_area(part);
    panels.bought += (plan.panel.cover + plan.panel.side_lap) * order;
    panels.bought_length += order;
    panels.pieces.push_back({lane.number, place, std::move(part), extent.high.along - extent.low.along,
                             ripped && is_last ? lane_cover : lane_cover + plan.panel.side_lap,
                             extent.low.along - lane.stock_left, extent.low.up, length, order, ripped, notched,
                             std::move(ends.lower), std::move(ends.upper)});
}

/// Lays a part in pieces that lap over supports.
inline void add_lapped(const CutInput& in, const PanelReach& reach, const CutLane& lane, const PlanePart& part,
                       std::vector<std::size_t>& used, CutPanels& panels) {
    const Extent extent = extent_of(part.outline);
    const PartCourses courses{in, extent, used};
    const std::vector<std::size_t> laps = courses.laps();
    const Length half = in.plan.panels.end_lap / 2.0;
    std::size_t below = panels.pieces.size();
    Length low = extent.low.up - one_inch;
    for (std::size_t k = 0; k <= laps.size(); ++k) {
        const bool topmost = k == laps.size();
        const std::size_t first = panels.pieces.size();
        const Length high = topmost ? extent.high.up + one_inch : courses.centre_of(laps[k]) + half;
        for (PlanePart& piece : parts_up(part.outline, part.cutouts, {low, high})) {
            add_cut_panel(in, reach, lane, std::move(piece), !topmost, panels);
        }
        for (std::size_t upper = first; k > 0 && upper < panels.pieces.size(); ++upper) {
            const Extent over = extent_of(panels.pieces[upper].part.outline);
            for (std::size_t lower = below; lower < first; ++lower) {
                const Extent under = extent_of(panels.pieces[lower].part.outline);
                const bool meet = under.low.along < over.high.along && over.low.along < under.high.along &&
                                  over.low.up <= low + end_rounding;
                if (meet && under.high.up > low) {
                    panels.end_laps.push_back({lower, upper, laps[k - 1], low, under.high.up});
                    judge_cut_lap(in, panels.end_laps.back(), panels);
                    // Covered once: what lies over the piece below.
                    for (const PlanePart& twice : parts_up(panels.pieces[upper].part.outline,
                                                           panels.pieces[upper].part.cutouts, {low, under.high.up})) {
                        panels.covered -= net_area(twice);
                    }
                }
            }
        }
        below = first;
        low = topmost ? low : courses.centre_of(laps[k]) - half;
    }
}

/// From the plane's outermost point at the side begun at to the first corner there of its lowest eave, or of its ridge.
[[nodiscard]] inline Length tape_corner(const CutInput& in, const std::vector<PlanePoint>& outline,
                                        const std::vector<EdgeKind>& kinds, EdgeKind kind, bool lowest) {
    const bool from_left = in.plan.panels.start == StartCorner::eave_left;
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        if (kinds[i] == kind &&
            (!found || (lowest ? outline[i].up < outline[*found].up : outline[i].up > outline[*found].up))) {
            found = i;
        }
    }
    if (!found) {
        return no_length;
    }
    const PlanePoint a = outline[*found];
    const PlanePoint b = outline[(*found + 1) % outline.size()];
    return from_left ? shorter(a.along, b.along) - in.extent.low.along
                     : in.extent.high.along - longer(a.along, b.along);
}

template <Surface surface>
[[nodiscard]] std::vector<PanelMark> cut_panel_marks(const CutInput& in, const Plane<surface>& plane) {
    const PanelPlan& plan = in.plan.panels;
    const Length eave_corner = tape_corner(in, plane.outline, plane.edges, EdgeKind::eave, true);
    const bool ridge = std::count(plane.edges.begin(), plane.edges.end(), EdgeKind::ridge) > 0;
    const Length ridge_corner =
        ridge ? tape_corner(in, plane.outline, plane.edges, EdgeKind::ridge, false) : eave_corner;
    std::vector<PanelMark> marks;
    for (std::size_t i = 1; i < in.edges.size(); ++i) {
        const Length eave = round_to_tick(in.edges[i] - eave_corner, plan.tick);
        marks.push_back({static_cast<std::int32_t>(i - 1), in.edges[i], eave,
                         round_to_tick(in.edges[i] - ridge_corner, plan.tick), eave - plan.creep, eave + plan.creep});
    }
    return marks;
}

[[nodiscard]] inline CutPanels no_cut_panels(const CutInput& in, Length overhang, std::vector<PanelMark> marks) {
    const PanelPlan& plan = in.plan.panels;
    const std::vector<Length>& edges = in.edges;
    const Length last_cover = edges.back() - edges[edges.size() - 2];
    return {.start = plan.start,
            .panel = plan.panel,
            .increment = plan.increment,
            .longest = plan.longest,
            .lanes = static_cast<std::int32_t>(edges.size() - 1),
            .exact_panels = edges.back() / plan.panel.cover,
            .first_cover = edges[1],
            .last_cover = last_cover,
            .overhang = overhang,
            .pieces = {},
            .end_laps = {},
            .marks = std::move(marks),
            .pack = pack_drift_of(plan, edges.back(), edges.size() - 1, last_cover),
            .covered = Area::from_value(0.0),
            .bought = Area::from_value(0.0),
            .bought_length = no_length,
            .findings = {}};
}

/// Lays any plane by parts of lanes.
template <Surface surface>
[[nodiscard]] CutPanels lay_any_outline(const Plane<surface>& plane, const Supports<surface>& supports,
                                        const CutPanelPlan& plan) {
    const Extent extent = extent_of(plane.outline);
    const CutInput in{plan, supports.lines, plane.openings, extent,
                      panel_edges(extent.high.along - extent.low.along, plan.panels)};
    const PanelReach nominal = panel_reach(plane, plan, no_length);
    const FittedLength fitted = fit_overhang(in, nominal, lane_parts(in, nominal));
    const PanelReach reach = panel_reach(plane, plan, fitted.overhang);
    CutPanels panels = no_cut_panels(in, fitted.overhang, cut_panel_marks(in, plane));
    std::vector<std::size_t> used;
    for (LaneParts& lane : lane_parts(in, reach)) {
        for (PlanePart& part : lane.parts) {
            const Extent hull = extent_of(part.outline);
            if (round_up_to_increment(hull.high.up - hull.low.up, plan.panels.increment) <=
                plan.panels.longest + count_tolerance) {
                add_cut_panel(in, reach, lane.lane, std::move(part), false, panels);
            } else {
                add_lapped(in, reach, lane.lane, part, used, panels);
            }
            if (static_cast<std::int64_t>(panels.pieces.size()) > most_panels) {
                throw FaultError{Fault{FaultCode::too_much_work, "panels", "more pieces",
                                       "no more than " + std::to_string(most_panels) + " pieces"}};
            }
        }
    }
    judge_cut_panels(in, fitted.fits, panels);
    return panels;
}

/// Whether `lay_panels` takes the plane.
template <Surface surface>
[[nodiscard]] bool is_panelable(const Plane<surface>& plane, Length cover) {
    const std::vector<PlanePoint>& o = plane.outline;
    if (o.size() != 4 || !plane.openings.empty() || !is_convex(o) || o[0].up != no_length || o[1].up != no_length ||
        !(shorter(o[2].up, o[3].up) > count_tolerance)) {
        return false;
    }
    for (const std::size_t side : {std::size_t{1}, std::size_t{3}}) {
        if (plane.edges[side] != EdgeKind::rake && plane.edges[side] != EdgeKind::wall) {
            return false;
        }
    }
    const Length ridge = o[2].along - o[3].along;
    return ridge >= cover / 4.0 && magnitude(o[2].up - o[3].up) <= ridge;
}

template <Surface surface>
void require_cut_panelable(const Plane<surface>& plane, const Supports<surface>& supports, const CutPanelPlan& plan) {
    require_sound(plan, "panels");
    require_sound(supports, "supports");
    require_outline(plane);
    if (supports.run != SupportRun::along_eave) {
        throw FaultError{Fault{FaultCode::not_supported, "supports.run", std::string{name_of(supports.run)},
                               "supports that run along the eave, across the ribs"}};
    }
    for (std::size_t i = 0; i < plane.outline.size(); ++i) {
        if (!(edge_length(plane.outline, i) > count_tolerance)) {
            throw FaultError{Fault{FaultCode::out_of_range, "plane.outline",
                                   describe_length(edge_length(plane.outline, i)), "edges of some length"}};
        }
    }
}
}  // namespace detail

/// Lays ribbed panels on a plane of any outline, square to its eave: convex or not, between hips, valleys, pitch breaks and
/// walls, over several eaves, around openings.
///
/// Lanes of one cover stand side by side over the plane's whole extent, from the side that `plan.panels.start` names. Every
/// connected part of a lane is one panel: an opening across the lane leaves one below and one above, a narrower one or one at
/// its side notches it. Panels hang over eaves (and over a pitch break or a level edge below them) by one overhang, chosen for
/// the longest panel that stands on an eave, and end the ridge's hold-back below whatever lies above them; at hips and
/// valleys they end the gaps off the line. A length is the part's own from its lowest to its highest point, rounded up to an
/// increment. Along one straight hip or valley each next panel differs by the cover times the slope of the line (`step`).
/// Panels above `plan.panels.longest` are lapped over supports that run all across them, in as few pieces as can be.
///
/// A plane that `lay_panels` takes comes out as it lays it: the same panels to the bit.
///
/// Throws `FaultError`: the first fault of an input; not_supported for an outline that is none, for supports up the slope, and
/// for an opening across more than one stretch of the plane's edge; does_not_fit where the gaps leave nothing,
/// or no support is near enough to lap on; too_much_work above `most_panels`.
template <Surface surface>
[[nodiscard]] CutPanels lay_cut_panels(const Plane<surface>& plane, const Supports<surface>& supports,
                                       const CutPanelPlan& plan) {
    detail::require_cut_panelable(plane, supports, plan);
    if (detail::is_panelable(plane, plan.panels.panel.cover)) {
        return detail::cut_panels_of(lay_panels(plane, supports, plan.panels), plan.panels, plane.edges[2]);
    }
    return detail::lay_any_outline(plane, supports, plan);
}

/// The same on purlin rows.
[[nodiscard]] inline CutPanels lay_cut_panels(const PurlinPlane& plane, const PurlinRows& rows,
                                              const CutPanelPlan& plan) {
    return lay_cut_panels(plane, supports_of(rows), plan);
}

}  // namespace eavewright
