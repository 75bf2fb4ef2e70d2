// SPDX-License-Identifier: BSL-1.0
#pragma once

// The coordinates of a marked point, one by one: two in a plane, three in the building. What a network of readings is
// written in once for both.

#include <eavewright/squaring/four_corners.hpp>
#include <eavewright/units/building_point.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <concepts>
#include <cstddef>

namespace eavewright {

/// A place that a reading may lead to: on a flat surface, or anywhere in the building.
template <class Place>
concept MeasuredPlace = std::same_as<Place, PlaneCorner> || std::same_as<Place, BuildingPoint>;

/// Coordinates of a place: 2 or 3.
template <MeasuredPlace Place>
inline constexpr std::size_t coordinate_count = std::same_as<Place, PlaneCorner> ? 2 : 3;

namespace squaring_detail {

/// Coordinates of a place in inches.
template <MeasuredPlace Place>
using Numbers = std::array<double, coordinate_count<Place>>;

[[nodiscard]] inline Numbers<PlaneCorner> numbers_of(const PlaneCorner& p) { return {inches(p.along), inches(p.up)}; }
[[nodiscard]] inline Numbers<BuildingPoint> numbers_of(const BuildingPoint& p) {
    return {inches(p.x), inches(p.y), inches(p.z)};
}
template <MeasuredPlace Place>
[[nodiscard]] Place place_of(const Numbers<Place>& n) {
    if constexpr (std::same_as<Place, PlaneCorner>) {
        return PlaneCorner{one_inch * n[0], one_inch * n[1]};
    } else {
        return BuildingPoint{one_inch * n[0], one_inch * n[1], one_inch * n[2]};
    }
}

/// Length of a step, and the step over its length; a step of no length keeps zeros.
template <std::size_t count>
struct StepBetween {
    double length;
    std::array<double, count> direction;
};
template <std::size_t count>
[[nodiscard]] StepBetween<count> step_between(const std::array<double, count>& from,
                                              const std::array<double, count>& to) {
    StepBetween<count> step{0.0, {}};
    for (std::size_t i = 0; i < count; ++i) {
        step.direction[i] = to[i] - from[i];
        step.length += step.direction[i] * step.direction[i];
    }
    step.length = std::sqrt(step.length);
    for (double& each : step.direction) {
        each = step.length > 0.0 ? each / step.length : 0.0;
    }
    return step;
}

}  // namespace squaring_detail

/// Distance between two places of one kind.
template <MeasuredPlace Place>
[[nodiscard]] Length distance_between(const Place& from, const Place& to) {
    return one_inch *
           squaring_detail::step_between(squaring_detail::numbers_of(from), squaring_detail::numbers_of(to)).length;
}

}  // namespace eavewright
