// SPDX-License-Identifier: BSL-1.0
#pragma once

// Openings in a roof plane: skylight, cupola, chimney.

#include <eavewright/fault.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

/// A rectangle measured on the plane: a skylight.
struct OpeningOnSlope {
    PlanePoint low;  ///< its lower left corner, facing up the slope
    Length width;    ///< along the eave
    Length height;   ///< up the slope, on the surface
};
/// A rectangle measured level: a cupola or a chimney, its sides square to the eave.
struct OpeningInPlan {
    Length along;  ///< of its left side, along the eave
    Length run;    ///< level, from where up is 0 in to its lower side
    Length width;  ///< along the eave
    Length depth;  ///< level, square to the eave
};
using Opening = std::variant<OpeningOnSlope, OpeningInPlan>;

namespace detail {
/// Lower left and upper right corner on the plane.
[[nodiscard]] inline Extent extent_of_opening(const Opening& opening, Pitch pitch) {
    if (const OpeningOnSlope* on = std::get_if<OpeningOnSlope>(&opening)) {
        return {on->low, {on->low.along + on->width, on->low.up + on->height}};
    }
    const OpeningInPlan& in = std::get<OpeningInPlan>(opening);
    return {{in.along, pitch.slope_over(in.run)},
            {in.along + in.width, pitch.slope_over(in.run) + pitch.slope_over(in.depth)}};
}
[[nodiscard]] inline std::vector<PlanePoint> corners_of(const Extent& box) {
    return {box.low, {box.high.along, box.low.up}, box.high, {box.low.along, box.high.up}};
}

/// Distance from a point to the segment from `a` to `b`.
[[nodiscard]] inline Length distance_to(PlanePoint p, PlanePoint a, PlanePoint b) {
    const Length along = b.along - a.along;
    const Length up = b.up - a.up;
    const double square = square_inches(along * along + up * up);
    double share = square > 0.0 ? square_inches((p.along - a.along) * along + (p.up - a.up) * up) / square : 0.0;
    share = share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share;
    return hypotenuse(p.along - a.along - share * along, p.up - a.up - share * up);
}
/// Left of the line from `a` to `b` where positive.
[[nodiscard]] inline double turn(PlanePoint a, PlanePoint b, PlanePoint p) {
    return inches(b.along - a.along) * inches(p.up - a.up) - inches(b.up - a.up) * inches(p.along - a.along);
}
/// True where two segments cross in a point inside both.
[[nodiscard]] inline bool segments_cross(PlanePoint a, PlanePoint b, PlanePoint c, PlanePoint d) {
    return turn(a, b, c) * turn(a, b, d) < 0.0 && turn(c, d, a) * turn(c, d, b) < 0.0;
}
[[nodiscard]] inline bool is_inside(PlanePoint p, const std::vector<PlanePoint>& outline) {
    bool inside = false;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[(i + 1) % outline.size()];
        if ((a.up > p.up) != (b.up > p.up) &&
            p.along < a.along + (b.along - a.along) * ((p.up - a.up) / (b.up - a.up))) {
            inside = !inside;
        }
    }
    return inside;
}
/// Least distance between two outlines.
[[nodiscard]] inline Length gap_between(const std::vector<PlanePoint>& one, const std::vector<PlanePoint>& other) {
    Length gap = Length::from_inches(length_limit_in);
    for (std::size_t i = 0; i < one.size(); ++i) {
        for (std::size_t k = 0; k < other.size(); ++k) {
            const Length there = distance_to(one[i], other[k], other[(k + 1) % other.size()]);
            gap = shorter(gap, shorter(there, distance_to(other[k], one[i], one[(i + 1) % one.size()])));
        }
    }
    return gap;
}
[[nodiscard]] inline bool outlines_cross(const std::vector<PlanePoint>& one, const std::vector<PlanePoint>& other) {
    for (std::size_t i = 0; i < one.size(); ++i) {
        for (std::size_t k = 0; k < other.size(); ++k) {
            if (segments_cross(one[i], one[(i + 1) % one.size()], other[k], other[(k + 1) % other.size()])) {
                return true;
            }
        }
    }
    return false;
}
[[nodiscard]] inline PlanePoint middle_of(const std::vector<PlanePoint>& outline) {
    PlanePoint sum{no_length, no_length};
    for (const PlanePoint& p : outline) {
        sum = {sum.along + p.along, sum.up + p.up};
    }
    const double count = static_cast<double>(outline.size());
    return {sum.along / count, sum.up / count};
}
/// An opening closer by less than this to what it must clear still clears it: rounding.
inline constexpr Length clearance_rounding = Length::from_inches(1e-9);

/// The opening a hair smaller: what touches it does not cross it.
[[nodiscard]] inline std::vector<PlanePoint> shrunk(const Extent& box) {
    const Length by = clearance_rounding;
    return corners_of({{box.low.along + by, box.low.up + by}, {box.high.along - by, box.high.up - by}});
}

inline void require_opening(const Extent& box, Length clearance) {
    const Length most = Length::from_inches(length_limit_in / 4.0);
    Faults faults;
    require_within(clearance, no_length, most, Path{"clearance"}, faults);
    require_within(box.low.along, -most, most, Path{"opening.along"}, faults);
    require_within(box.low.up, -most, most, Path{"opening.up"}, faults);
    require_within(box.high.along - box.low.along, one_inch, most, Path{"opening.width"}, faults);
    require_within(box.high.up - box.low.up, one_inch, most, Path{"opening.height"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
}
}  // namespace detail

/// `plane` with one more opening, on this surface; what it is on the others, call it for each.
///
/// The opening must lie inside the outline, `clearance` (0 or more) off every edge and every other opening. A cupola astride a
/// ridge is an opening in each of its two planes, with no clearance. Throws `FaultError`: does_not_fit where it does
/// not, out_of_range for an opening narrower than 1 in either way, not_finite.
template <Surface surface>
[[nodiscard]] Plane<surface> add_opening(Plane<surface> plane, const Opening& opening, Length clearance) {
    require_sound(plane, "plane");
    const Extent box = detail::extent_of_opening(opening, plane.pitch);
    detail::require_opening(box, clearance);
    std::vector<PlanePoint> corners = detail::corners_of(box);
    const auto refuse = [&](const std::string& given, const std::string& required) {
        throw FaultError{Fault{FaultCode::does_not_fit, "opening", given, required}};
    };
    const std::vector<PlanePoint> core = detail::shrunk(box);
    const PlanePoint middle = detail::middle_of(corners);
    if (!detail::is_inside(middle, plane.outline) || detail::outlines_cross(core, plane.outline)) {
        refuse("an opening off the plane", "an opening within the outline");
    }
    const Length least = clearance - detail::clearance_rounding;
    const Length gap = detail::gap_between(corners, plane.outline);
    if (gap < least) {
        refuse(describe_length(gap) + " from an edge", describe_length(clearance) + " or more");
    }
    for (const std::vector<PlanePoint>& other : plane.openings) {
        if (other.size() < 3 || detail::is_inside(middle, other) ||
            detail::is_inside(detail::middle_of(other), corners) || detail::outlines_cross(core, other) ||
            detail::gap_between(corners, other) < least) {
            refuse("an opening on or close to another", describe_length(clearance) + " or more between them");
        }
    }
    plane.openings.push_back(std::move(corners));
    return plane;
}

}  // namespace eavewright
