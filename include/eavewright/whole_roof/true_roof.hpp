// SPDX-License-Identifier: BSL-1.0
#pragma once

// From the readings of a roof to whether it is true and what to pull. This header needs Eigen, for the network: link
// eavewright::network. `whole_roof(roof, truing)` lays the roof by what was found, and does not.

#include <eavewright/fault.hpp>
#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/flatness.hpp>
#include <eavewright/squaring/four_sides.hpp>
#include <eavewright/squaring/hidden_twist.hpp>
#include <eavewright/squaring/judge_corners.hpp>
#include <eavewright/squaring/network.hpp>
#include <eavewright/squaring/next_reading.hpp>
#include <eavewright/squaring/plan_pulls.hpp>
#include <eavewright/squaring/string_line.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/pull_roof.hpp>
#include <eavewright/whole_roof/roof_marks.hpp>
#include <eavewright/whole_roof/roof_readings.hpp>
#include <eavewright/whole_roof/truing_result.hpp>
#include <eavewright/whole_roof/whole_roof.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {

/// Signed distance of the third corner from the plane of the others, outwards positive, and how it varies with all four.
[[nodiscard]] inline double off_plane(const std::array<squaring_detail::Numbers<BuildingPoint>, 4>& c) {
    std::array<double, 3> along{};
    std::array<double, 3> up{};
    std::array<double, 3> to{};
    for (std::size_t i = 0; i < 3; ++i) {
        along[i] = c[1][i] - c[0][i];
        up[i] = c[3][i] - c[0][i];
        to[i] = c[2][i] - c[0][i];
    }
    const std::array<double, 3> normal{along[1] * up[2] - along[2] * up[1], along[2] * up[0] - along[0] * up[2],
                                       along[0] * up[1] - along[1] * up[0]};
    const double size = std::sqrt(normal[0] * normal[0] + normal[1] * normal[1] + normal[2] * normal[2]);
    return size > 0.0 ? (to[0] * normal[0] + to[1] * normal[1] + to[2] * normal[2]) / size : 0.0;
}
[[nodiscard]] inline MeasuredFigure corner_off_plane(const AdjustedNetwork<BuildingPoint>& found,
                                                     const CornerPoints& at) {
    const std::array<std::size_t, 4> points{at.eave_left, at.eave_right, at.ridge_right, at.ridge_left};
    std::array<squaring_detail::Numbers<BuildingPoint>, 4> places{};
    for (std::size_t c = 0; c < 4; ++c) {
        places[c] = squaring_detail::numbers_of(found.points[points[c]].place);
    }
    squaring_detail::CornerFigure<BuildingPoint> figure{off_plane(places), {}};
    constexpr double step = 0.01;  // the distance is all but linear in a hundredth of an inch
    for (std::size_t c = 0; c < 4; ++c) {
        for (std::size_t i = 0; i < 3; ++i) {
            auto high = places;
            auto low = places;
            high[c][i] += step;
            low[c][i] -= step;
            figure.slope[c][i] = (off_plane(high) - off_plane(low)) / (2.0 * step);
        }
    }
    return {one_inch * figure.value, squaring_detail::deviation_of(figure, points, found.covariance)};
}

[[nodiscard]] inline SlopeTruing true_slope(const RoofDescription& roof, const AdjustedNetwork<BuildingPoint>& found,
                                            const CornerPoints& corners, const std::string& name) {
    const SquareTolerance& own = roof.squaring.tolerance;
    const SquareRule rule = roof.readings->rule.value_or(given_rule(own.diagonal_difference));
    SlopeTruing slope{name,
                      judge_corners(found, corners, rule, own.side_difference, own.level_factor),
                      std::nullopt,
                      {no_length, no_length},
                      std::nullopt};
    if (slope.square.loose_corner) {
        return slope;
    }
    slope.ridge_right_off = corner_off_plane(found, corners);
    slope.sides = slope.square.lengths;
    if (roof.readings->levels.empty()) {
        slope.hidden = largest_hidden_twist(measured_corners(*slope.sides, roof.readings->tapes[0]), own.level_factor);
    }
    return slope;
}

/// What strings and levels say, each by itself.
inline void judge_lines(const RoofReadings& read, const RoofShape& shape, TruingResult& result) {
    for (const RoofCrossing& crossing : read.crossings) {
        result.crossings.push_back({shape.slopes[crossing.slope].name, twist_of(crossing.strings)});
    }
    for (const RoofString& string : read.strings) {
        result.strings.push_back({string.name, string.line == LineRule::ends_held ? line_of_held_ends(string.run)
                                               : string.line == LineRule::least_squares
                                                   ? best_line(string.run, BestBy::least_squares)
                                                   : best_line(string.run, BestBy::least_worst)});
    }
    for (const RoofTails& tails : read.tails) {
        result.tails.push_back({tails.name, trim_tails(tails.run)});
    }
    for (const RoofPurlin& purlin : read.purlins) {
        result.purlins.push_back({purlin.name, straighten_purlin(purlin.run)});
    }
    for (const RoofWall& wall : read.walls) {
        result.walls.push_back({wall.name, plumb_wall(wall.wall)});
    }
    if (read.posts) {
        result.posts = hold_to_marks(*read.posts);
    }
}

inline void judge_network(const RoofDescription& roof, const BuildingNetwork& network, TruingResult& result) {
    result.network = adjust_network(network, roof.readings->odds);
    const AdjustedNetwork<BuildingPoint>& found = *result.network;
    const RoofShape shape = shape_of(roof.shape);
    const std::vector<CornerPoints> corners = corner_points(roof);
    bool placed = true;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        result.slopes.push_back(true_slope(roof, found, corners[i], shape.slopes[i].name));
        placed = placed && !result.slopes.back().square.loose_corner;
    }
    result.next = next_readings(network, found, {.tape = roof.readings->tapes[0]});
    result.heights_wanted = !found.loose.empty() && (result.next.empty() || !result.next[0].settles);
    if (placed && (found.standing == NetworkStanding::agree || found.standing == NetworkStanding::not_checked)) {
        result.pulls = plan_pulls(pull_frame_of(roof, found), roof.readings->pulling.choice);
    }
}

}  // namespace detail

/// Whether the roof stands true by its readings, what to pull, and what to read next. Throws `FaultError` with the first fault
/// of the description, missing_field where it has no readings. Places of marks as in `adjust_network`; nothing is pulled on
/// readings that disagree.
[[nodiscard]] inline TruingResult true_roof(const RoofDescription& roof) {
    Faults faults;
    if (!roof.readings) {
        throw FaultError{Fault{FaultCode::missing_field, "readings", "", "readings of the roof"}};
    }
    detail::find_description_faults(roof, Path{""}, faults);
    if (faults.empty()) {
        detail::find_reading_faults(roof, Path{"readings"}, faults);
    }
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    TruingResult result{std::nullopt, {}, std::nullopt, {}, false, {}, {}, {}, {}, {}, std::nullopt};
    const BuildingNetwork network = detail::roof_network(roof, Path{"readings"}, faults);
    if (!network.readings.empty()) {
        detail::judge_network(roof, network, result);
    }
    detail::judge_lines(*roof.readings, detail::shape_of(roof.shape), result);
    return result;
}

/// Trues and lays a roof that has readings; lays one that has none.
[[nodiscard]] inline RoofResult trued_roof(const RoofDescription& roof) {
    return roof.readings ? whole_roof(roof, true_roof(roof)) : whole_roof(roof);
}

}  // namespace eavewright
