// SPDX-License-Identifier: BSL-1.0
#pragma once

// What the edge between two faces is, read off its geometry alone.

#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>

namespace eavewright {

namespace detail {
/// An edge that rises less than this from end to end is level: a thousand times the rounding of its ends' heights.
inline constexpr Length level_rise = Length::from_inches(1e-8);
/// So is one that rises less than this over its run, and a face that does so away from the edge neither rises nor
/// falls.
inline constexpr double level_slope = 1e-9;

/// Rise over run of `plane` square to the line from `from` to `to`, into what lies on its left.
[[nodiscard]] inline double rise_to_left(const HeightPlane& plane, GroundPoint from, GroundPoint to) {
    const Length run = hypotenuse(to.x - from.x, to.y - from.y);
    return plane.rise_y * ((to.x - from.x) / run) - plane.rise_x * ((to.y - from.y) / run);
}
}  // namespace detail

/// True where the edge of `plane` from `from` to `to` is level, to the rounding of its ends.
[[nodiscard]] inline bool is_level(const HeightPlane& plane, GroundPoint from, GroundPoint to) {
    const Length rise = magnitude(height_over(plane, to) - height_over(plane, from));
    return rise <= longer(detail::level_rise, hypotenuse(to.x - from.x, to.y - from.y) * detail::level_slope);
}

/// What the edge is that two faces share: `left` lies left of the line from `from` to `to`, `right` right of it (an
/// outline runs counter-clockwise, so a face lies left of its own edges). The ends differ, and both planes hold them.
///
/// Level: a ridge where both fall away from it, a valley where both rise, else a pitch break. Sloped: a hip where the
/// roof bends down across it, a valley where it bends up. One plane on both sides has no kind of its own: pitch break.
[[nodiscard]] inline EdgeKind classify_edge(const HeightPlane& left, const HeightPlane& right, GroundPoint from,
                                            GroundPoint to) {
    const double into_left = detail::rise_to_left(left, from, to);
    const double into_right = -detail::rise_to_left(right, from, to);
    if (std::fabs(into_left + into_right) <= detail::level_slope) {
        return EdgeKind::pitch_break;
    }
    if (!is_level(left, from, to) && !is_level(right, from, to)) {
        return into_left + into_right < 0.0 ? EdgeKind::hip : EdgeKind::valley;
    }
    if (into_left < -detail::level_slope && into_right < -detail::level_slope) {
        return EdgeKind::ridge;
    }
    const bool both_rise = into_left > detail::level_slope && into_right > detail::level_slope;
    return both_rise ? EdgeKind::valley : EdgeKind::pitch_break;
}

}  // namespace eavewright
