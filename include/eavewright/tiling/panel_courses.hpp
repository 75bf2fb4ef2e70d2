// SPDX-License-Identifier: BSL-1.0
#pragma once

// How a plane is parted into panels across and into pieces up the slope, before any of them is laid.

#include <eavewright/fault.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panel_lengths.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace eavewright {

/// Most panels and pieces of panels that one call lays.
inline constexpr std::int64_t most_panels = 100'000;

namespace detail {
/// What a plane's panels are laid from.
struct PanelInput {
    const PanelPlan& plan;
    const std::vector<PlanePoint>& outline;
    const std::vector<SupportLine>& lines;
    Extent extent;
    Length edge;  ///< up-coordinate of the edge that the overhang counts from

    /// Where upper ends belong: the ridge line, carried on past its corners, less the hold-back.
    [[nodiscard]] Length top_at(Length along) const {
        return up_at({outline[3], outline[2]}, along) - plan.ridge_hold_back;
    }
};

/// The cover of one panel, and where its upper end belongs on either side and on average.
struct PanelLane {
    std::int32_t number;
    Length left;
    Length right;
    Length left_top;
    Length right_top;
    [[nodiscard]] Length middle() const { return (left + right) / 2.0; }
    [[nodiscard]] Length top() const { return longer(left_top, right_top); }
    [[nodiscard]] Length lowest_top() const { return shorter(left_top, right_top); }
};

/// Distances of the panels' edges from the first rake: n + 1 of them for n panels, each from the exact product.
[[nodiscard]] inline std::vector<Length> panel_edges(Length width, const PanelPlan& plan) {
    const Length cover = plan.panel.cover;
    const std::int64_t count = steps_to_cover(width, cover);
    if (count > most_panels) {
        throw FaultError{Fault{FaultCode::too_much_work, "panels", std::to_string(count) + " panels",
                               "no more than " + std::to_string(most_panels) + " panels"}};
    }
    const bool exact = magnitude(cover * static_cast<double>(count) - width) <= count_tolerance;
    const bool balanced = plan.rips == RipPlace::balanced && count > 1 && !exact;
    const Length first = balanced ? (width - cover * static_cast<double>(count - 2)) / 2.0 : cover;
    std::vector<Length> edges{no_length};
    for (std::int64_t i = 1; i < count; ++i) {
        edges.push_back(first + cover * static_cast<double>(i - 1));
    }
    edges.push_back(width);
    return edges;
}

[[nodiscard]] inline std::vector<PanelLane> panel_lanes(const PanelInput& in, const std::vector<Length>& edges) {
    std::vector<PanelLane> lanes;
    lanes.reserve(edges.size() - 1);
    const bool from_left = in.plan.start == StartCorner::eave_left;
    for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
        const Length left = from_left ? in.extent.low.along + edges[i] : in.extent.high.along - edges[i + 1];
        const Length right = from_left ? in.extent.low.along + edges[i + 1] : in.extent.high.along - edges[i];
        lanes.push_back({static_cast<std::int32_t>(i), left, right, in.top_at(left), in.top_at(right)});
    }
    return lanes;
}

/// Lowest and highest place of a support under the middle of any lane.
[[nodiscard]] inline Span support_reach(const SupportLine& line, const std::vector<PanelLane>& lanes) {
    const Length first = up_at(line.centreline, lanes.front().middle());
    Span reach{first, first};
    for (const PanelLane& lane : lanes) {
        const Length up = up_at(line.centreline, lane.middle());
        reach = {shorter(reach.low, up), longer(reach.high, up)};
    }
    return reach;
}

/// How the lanes are cut into pieces: alike in all of them, so that laps and lower ends make straight lines.
struct PanelCourses {
    std::vector<std::size_t> lap_supports;  ///< ascending; none where panels reach from eave to ridge
    Length overhang;
    Length last_low_shift;  ///< the topmost pieces start this much lower: their increment goes into the lap
    bool fits;
};

[[noreturn]] inline void refuse_long_panel(Length needed, const PanelPlan& plan) {
    throw FaultError{Fault{FaultCode::does_not_fit, "panels.longest", describe_length(plan.longest),
                           describe_length(needed) + ", or a support every so often to lap on"}};
}

/// The supports to lap on: each the highest one that the piece below it reaches with half a lap past its centre.
[[nodiscard]] inline PanelCourses lapped_courses(const PanelInput& in, const std::vector<PanelLane>& lanes, Length top,
                                                 Length lowest_top) {
    const PanelPlan& plan = in.plan;
    PanelCourses courses{{}, plan.eave.aimed, no_length, true};
    Length low = in.edge - plan.eave.aimed;
    std::size_t next = 0;
    while (round_up_to_increment(top - low, plan.increment) > plan.longest + count_tolerance) {
        bool found = false;
        Length next_low = low;
        for (std::size_t r = next; r < in.lines.size(); ++r) {
            const Span reach = support_reach(in.lines[r], lanes);
            const Length end = reach.high + plan.end_lap / 2.0;
            if (end - low > plan.longest + count_tolerance || end >= lowest_top) {
                break;
            }
            const bool ordered = round_up_to_increment(end - low, plan.increment) <= plan.longest + count_tolerance;
            if (ordered && reach.low - plan.end_lap / 2.0 > low + count_tolerance) {
                found = true;
                next = r + 1;
                next_low = reach.low - plan.end_lap / 2.0;
            }
        }
        if (!found) {
            refuse_long_panel(top - low, plan);
        }
        low = next_low;
        courses.lap_supports.push_back(next - 1);
    }
    const SupportLine& last = in.lines[courses.lap_supports.back()];
    Length longest = no_length;
    for (const PanelLane& lane : lanes) {
        longest = longer(longest, lane.top() - (up_at(last.centreline, lane.middle()) - plan.end_lap / 2.0));
    }
    courses.last_low_shift = round_up_to_increment(longest, plan.increment) - longest;
    return courses;
}

[[nodiscard]] inline PanelCourses courses_of(const PanelInput& in, const std::vector<PanelLane>& lanes) {
    Length top = lanes.front().top();
    Length lowest_top = top;
    for (const PanelLane& lane : lanes) {
        top = longer(top, lane.top());
        lowest_top = shorter(lowest_top, lane.lowest_top());
    }
    if (!(lowest_top > in.edge + count_tolerance)) {
        throw FaultError{Fault{FaultCode::does_not_fit, "panels.ridge_hold_back",
                               describe_length(in.plan.ridge_hold_back), "less than the slope is long"}};
    }
    const FittedLength fitted = fit_length(top - in.edge, in.plan.eave, in.plan.increment);
    if (fitted.order <= in.plan.longest + count_tolerance) {
        return {{}, fitted.overhang, no_length, fitted.fits};
    }
    return lapped_courses(in, lanes, top, lowest_top);
}
}  // namespace detail

}  // namespace eavewright
