// SPDX-License-Identifier: BSL-1.0
#pragma once

// The frame of a roof as found, ready to be pulled: what keeps its length, which straps there are, what must come true.

#include <eavewright/roof/plane.hpp>
#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/judge_corners.hpp>
#include <eavewright/squaring/plan_pulls.hpp>
#include <eavewright/squaring/pull_frame.hpp>
#include <eavewright/squaring/pull_frames.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/roof_marks.hpp>
#include <eavewright/whole_roof/roof_readings.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// The corners of a single slope: its eave as `EaveHold` says, its high edge along its own line, at its own height.
[[nodiscard]] inline BuildingPullFrame single_slope_frame(const std::vector<BuildingPoint>& corners,
                                                          const UsualFrame& usual) {
    const auto eave = squaring_detail::eave_freedom(usual.eaves, corners[0], corners[1]);
    const auto top = squaring_detail::eave_freedom(EaveHold::along, corners[3], corners[2]);
    BuildingPullFrame frame{};
    frame.points = {{"eave_left", corners[0], eave},
                    {"eave_right", corners[1], eave},
                    {"top_right", corners[2], top},
                    {"top_left", corners[3], top}};
    squaring_detail::add_slope(frame, {0, 1, 2, 3}, "", usual);
    // Both walls carry the rafters, which square up by so little that no wall feels it: only eave and high edge keep still.
    frame.members = {PullMember{0, 1}, PullMember{3, 2}};
    return frame;
}

/// Corners and marks where they were found, the description's own straps in place of the usual ones.
[[nodiscard]] inline BuildingPullFrame pull_frame_of(const RoofDescription& roof,
                                                     const AdjustedNetwork<BuildingPoint>& found) {
    const RoofReadings& read = *roof.readings;
    UsualFrame usual{.eaves = read.pulling.eaves, .tolerance = roof.squaring.tolerance};
    if (read.rule) {
        usual.tolerance.diagonal_difference = read.rule->limit;
    }
    constexpr Length least = one_inch / 10000.0;  // no strap is pulled nearer than that
    usual.tolerance.diagonal_difference = longer(usual.tolerance.diagonal_difference, least);
    usual.tolerance.side_difference = longer(usual.tolerance.side_difference, least);
    std::vector<BuildingPoint> at;
    for (const auto& point : found.points) {
        at.push_back(point.place);
    }
    BuildingPullFrame frame = slope_count(roof.shape) == 2
                                  ? gable_frame({at[0], at[1], at[2], at[3], at[4], at[5]}, usual)
                                  : single_slope_frame(at, usual);
    for (std::size_t i = frame.points.size(); i < at.size(); ++i) {
        frame.points.push_back({found.points[i].name, at[i], Held{}});  // a stake or another mark to pull from
    }
    if (!read.pulling.straps.empty()) {
        Faults faults;
        frame.straps.clear();
        for (const RoofStrap& strap : read.pulling.straps) {
            frame.straps.push_back({strap.name, mark_of(frame.points, strap.from, Path{"from"}, faults),
                                    mark_of(frame.points, strap.to, Path{"to"}, faults), strap.most_shortening});
        }
    }
    frame.covariance = found.covariance;
    frame.most_movement = read.pulling.most_movement;
    frame.pull_deviation = read.pulling.pull_deviation;
    frame.reading_deviation = read.tapes.empty() ? frame.reading_deviation : read.tapes[0].reading;
    frame.tick = roof.tick;
    return frame;
}

}  // namespace eavewright::detail
