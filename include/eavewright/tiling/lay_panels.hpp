// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lays ribbed steel on a plane, square to its eave.

#include <eavewright/fault.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panel_courses.hpp>
#include <eavewright/tiling/panel_lengths.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

namespace detail {
/// A four-sided piece of a lane from `low` to its tops.
[[nodiscard]] inline std::vector<PlanePoint> panel_outline(const PanelLane& lane, Length low, Length left_top,
                                                           Length right_top) {
    return {{lane.left, low}, {lane.right, low}, {lane.right, right_top}, {lane.left, left_top}};
}

inline void find_panel(PanelFindingCode code, Length measured, Length limit, PlanePoint place, Panels& panels) {
    panels.findings.push_back({code, panels.pieces.empty() ? 0 : panels.pieces.size() - 1, place, measured, limit});
}

/// Adds the piece of a lane from `low` to its top ends, and judges its length.
inline void add_panel(const PanelInput& in, const PanelLane& lane, std::int32_t place, Length low, Length order,
                      Length left_top, Length right_top, Panels& panels) {
    const PanelPlan& plan = in.plan;
    const Length cover = lane.right - lane.left;
    // The far lap of the last panel has no neighbour, so its rip is its cover; any other rip keeps its lap.
    const bool is_last = lane.number + 1 == panels.lanes;
    const bool ripped = cover + count_tolerance < plan.panel.cover;
    const Length width = ripped && is_last ? cover : cover + plan.panel.side_lap;
    const Length past = low + order - shorter(left_top, right_top);
    const bool cut = past > shorter(plan.ridge_play, plan.ridge_hold_back) + count_tolerance;
    std::vector<PlanePoint> outline =
        cut ? panel_outline(lane, low, left_top, right_top) : panel_outline(lane, low, low + order, low + order);
    panels.pieces.push_back(
        {lane.number, place, outline, cover, width, low, left_top - low, right_top - low, order, ripped, cut});
    panels.bought += (plan.panel.cover + plan.panel.side_lap) * order;
    const Length length = longer(left_top, right_top) - low;
    if (length + count_tolerance < plan.sliver) {
        find_panel(PanelFindingCode::sliver_length, length, plan.sliver, {lane.middle(), low + length / 2.0}, panels);
    }
}

/// Judges whether a support stays under its end lap all across the panel.
inline void judge_end_lap(const PanelInput& in, const PanelLane& lane, const PanelEndLap& lap, Panels& panels) {
    const SupportLine& line = in.lines[lap.support];
    Length past = no_length;
    Length at = lane.middle();
    const auto look = [&](Length along) {
        const Length centre = up_at(line.centreline, along);
        const Length out = longer(lap.from - (centre - line.width / 2.0), centre + line.width / 2.0 - lap.to);
        if (out > past) {
            past = out;
            at = along;
        }
    };
    look(lane.left);
    look(lane.right);
    for (const PlanePoint& bend : line.centreline) {
        if (bend.along > lane.left && bend.along < lane.right) {
            look(bend.along);
        }
    }
    if (past > count_tolerance) {
        find_panel(PanelFindingCode::end_lap_off_support, past, no_length, {at, up_at(line.centreline, at)}, panels);
    }
}

/// Lays one lane from eave to ridge.
inline void lay_panel_lane(const PanelInput& in, const PanelLane& lane, const PanelCourses& courses, Panels& panels) {
    const PanelPlan& plan = in.plan;
    const Length bottom = in.edge - courses.overhang;
    Length low = bottom;
    Length below_end = low;
    for (std::size_t k = 0; k <= courses.lap_supports.size(); ++k) {
        const bool topmost = k == courses.lap_supports.size();
        if (k > 0) {
            const Length centre = up_at(in.lines[courses.lap_supports[k - 1]].centreline, lane.middle());
            low = centre - plan.end_lap / 2.0 - (topmost ? courses.last_low_shift : no_length);
        }
        const Length top =
            topmost ? lane.top()
                    : up_at(in.lines[courses.lap_supports[k]].centreline, lane.middle()) + plan.end_lap / 2.0;
        const Length order = round_up_to_increment(top - low, plan.increment);
        const Length end = low + order;  // below a lap an increment more only makes the lap longer
        add_panel(in, lane, static_cast<std::int32_t>(k), low, order, topmost ? lane.left_top : end,
                  topmost ? lane.right_top : end, panels);
        if (k > 0) {
            const std::size_t upper = panels.pieces.size() - 1;
            panels.end_laps.push_back({upper - 1, upper, courses.lap_supports[k - 1], low, below_end});
            judge_end_lap(in, lane, panels.end_laps.back(), panels);
        }
        below_end = end;
    }
    panels.covered += signed_area(
        panel_outline(lane, bottom, panels.pieces.back().outline[3].up, panels.pieces.back().outline[2].up));
}

/// Judges the rips, the rakes and the drift of a pack.
inline void judge_across(const PanelInput& in, const std::vector<PanelLane>& lanes, Panels& panels) {
    const PanelPlan& plan = in.plan;
    const auto find = [&](PanelFindingCode code, std::size_t piece, const PanelLane& lane, Length measured,
                          Length limit) {
        panels.findings.push_back({code, piece, {lane.middle(), lane.top() / 2.0}, measured, limit});
    };
    const std::size_t last = panels.pieces.size() - 1;
    if (panels.last_cover + count_tolerance < plan.sliver) {
        find(PanelFindingCode::sliver_cover, last, lanes.back(), panels.last_cover, plan.sliver);
    }
    if (lanes.size() > 1 && panels.first_cover + count_tolerance < plan.sliver) {
        find(PanelFindingCode::sliver_cover, 0, lanes.front(), panels.first_cover, plan.sliver);
    }
    if (lanes.size() > 1 && panels.last_cover <= plan.panel.side_lap + count_tolerance) {
        find(PanelFindingCode::within_lap, last, lanes.back(), panels.last_cover, plan.panel.side_lap);
    }
    const bool from_left = plan.start == StartCorner::eave_left;
    const PanelLane& left = from_left ? lanes.front() : lanes.back();
    const PanelLane& right = from_left ? lanes.back() : lanes.front();
    if (panels.left_rake.hidden > plan.trim_hides + count_tolerance) {
        find(PanelFindingCode::taper_past_trim, from_left ? 0 : last, left, panels.left_rake.hidden, plan.trim_hides);
    }
    if (panels.right_rake.hidden > plan.trim_hides + count_tolerance) {
        find(PanelFindingCode::taper_past_trim, from_left ? last : 0, right, panels.right_rake.hidden, plan.trim_hides);
    }
    if (panels.pack.panels_lost > panels.lanes) {
        const Length width = in.extent.high.along - in.extent.low.along;
        const Length reach = (plan.panel.cover - plan.pack_drift) * static_cast<double>(panels.lanes);
        find(PanelFindingCode::pack_runs_short, last, lanes.back(), width - reach, no_length);
    }
}

[[nodiscard]] inline PackDrift pack_drift_of(const PanelPlan& plan, Length width, std::size_t lanes,
                                             Length last_cover) {
    const Length total = plan.pack_drift * static_cast<double>(lanes - 1);
    return {total, last_cover - total, last_cover + total, steps_to_cover(width, plan.panel.cover - plan.pack_drift)};
}

/// Marks for the tape, along the eave and along the ridge, from their corners at the first rake.
[[nodiscard]] inline std::vector<PanelMark> panel_marks(const PanelInput& in, const std::vector<Length>& edges) {
    const bool from_left = in.plan.start == StartCorner::eave_left;
    const Length eave_corner =
        from_left ? in.outline[0].along - in.extent.low.along : in.extent.high.along - in.outline[1].along;
    const Length ridge_corner =
        from_left ? in.outline[3].along - in.extent.low.along : in.extent.high.along - in.outline[2].along;
    std::vector<PanelMark> marks;
    marks.reserve(edges.size() - 1);
    for (std::size_t i = 1; i < edges.size(); ++i) {
        const Length eave = round_to_tick(edges[i] - eave_corner, in.plan.tick);
        marks.push_back({static_cast<std::int32_t>(i - 1), edges[i], eave,
                         round_to_tick(edges[i] - ridge_corner, in.plan.tick), eave - in.plan.creep,
                         eave + in.plan.creep});
    }
    return marks;
}

[[nodiscard]] inline Panels lay_panel_outline(const PanelInput& in) {
    const PanelPlan& plan = in.plan;
    const Length width = in.extent.high.along - in.extent.low.along;
    const std::vector<Length> edges = panel_edges(width, plan);
    const std::vector<PanelLane> lanes = panel_lanes(in, edges);
    const PanelCourses courses = courses_of(in, lanes);
    if (static_cast<std::int64_t>(lanes.size() * (courses.lap_supports.size() + 1)) > most_panels) {
        throw FaultError{Fault{FaultCode::too_much_work, "panels", std::to_string(lanes.size()) + " lapped panels",
                               "no more than " + std::to_string(most_panels) + " pieces"}};
    }
    const std::vector<PlanePoint>& o = in.outline;
    const Length last_cover = edges.back() - edges[edges.size() - 2];
    Panels panels{.start = plan.start,
                  .panel = plan.panel,
                  .lanes = static_cast<std::int32_t>(lanes.size()),
                  .exact_panels = width / plan.panel.cover,
                  .first_cover = edges[1],
                  .last_cover = last_cover,
                  .overhang = courses.overhang,
                  .pieces = {},
                  .end_laps = {},
                  .marks = panel_marks(in, edges),
                  .left_rake = rake_taper(o[3].along - o[0].along, o[3].up, plan.panel.cover),
                  .right_rake = rake_taper(o[2].along - o[1].along, o[2].up, plan.panel.cover),
                  .pack = pack_drift_of(plan, width, lanes.size(), last_cover),
                  .covered = Area::from_value(0.0),
                  .bought = Area::from_value(0.0),
                  .findings = {}};
    for (const PanelLane& lane : lanes) {
        lay_panel_lane(in, lane, courses, panels);
    }
    if (!courses.fits) {
        find_panel(PanelFindingCode::no_increment_fits, plan.increment, plan.eave.most - plan.eave.least,
                   {lanes.back().middle(), in.edge}, panels);
    }
    judge_across(in, lanes, panels);
    return panels;
}

/// What panels ask of a plane: four sides, eave on up = 0, rakes (or walls) left and right, no openings.
template <Surface surface>
void require_panelable(const Plane<surface>& plane, const Length cover) {
    require_four_sided(plane);
    const auto refuse = [](std::string_view path, const std::string& given, const char* required) {
        throw FaultError{Fault{FaultCode::not_supported, std::string{path}, given, required}};
    };
    if (!plane.openings.empty()) {
        refuse("plane.openings", std::to_string(plane.openings.size()) + " openings", "a plane without openings");
    }
    for (const std::size_t side : {std::size_t{1}, std::size_t{3}}) {
        if (side < plane.edges.size() && plane.edges[side] != EdgeKind::rake && plane.edges[side] != EdgeKind::wall) {
            refuse("plane.edges", std::string{name_of(plane.edges[side])}, "a rake or a wall at both sides");
        }
    }
    const Length ridge = plane.outline[2].along - plane.outline[3].along;
    if (!(ridge >= cover / 4.0) || magnitude(plane.outline[2].up - plane.outline[3].up) > ridge) {
        refuse("plane.outline", describe_length(ridge) + " of ridge", "a ridge that runs with the eave");
    }
}
}  // namespace detail

/// Lays ribbed panels on a rectangular or measured four-sided plane, square to the eave, from the rake that `plan.start`
/// names. They cover the plane from its outermost point at one rake to that at the other; where a rake leans, its trim
/// hides the wedge. Each panel's length is taken at its own place. One overhang serves all: the longest panel is fitted
/// to an increment inside the window, the others are rounded up, and what is over stays under the cap or is cut.
///
/// Panels above `plan.longest` are lapped over supports, the longest pieces first, from the eave; lower ends of lapped
/// panels keep the aimed overhang, and what an increment is too long goes into the lap.
///
/// Planes of another outline, with hips, valleys or openings, are laid by `lay_cut_panels`.
///
/// Throws `FaultError`: the first fault of `plan` or `supports`; not_supported for other planes, or supports up the
/// slope; does_not_fit where no support is near enough to lap on; too_much_work above `most_panels`.
template <Surface surface>
[[nodiscard]] Panels lay_panels(const Plane<surface>& plane, const Supports<surface>& supports, const PanelPlan& plan) {
    require_sound(plan, "panels");
    require_sound(supports, "supports");
    if (supports.run != SupportRun::along_eave) {
        throw FaultError{Fault{FaultCode::not_supported, "supports.run", std::string{name_of(supports.run)},
                               "supports that run along the eave, across the ribs"}};
    }
    detail::require_panelable(plane, plan.panel.cover);
    return detail::lay_panel_outline(
        {plan, plane.outline, supports.lines, extent_of(plane.outline), -plan.edge_past_fascia});
}

/// The same on purlin rows.
[[nodiscard]] inline Panels lay_panels(const PurlinPlane& plane, const PurlinRows& rows, const PanelPlan& plan) {
    return lay_panels(plane, supports_of(rows), plan);
}

}  // namespace eavewright
