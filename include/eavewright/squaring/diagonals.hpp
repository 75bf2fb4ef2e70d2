// SPDX-License-Identifier: BSL-1.0
#pragma once

// Diagonals of rectangles, and what a difference of diagonals says about a parallelogram.
//
// With sides a and b and diagonals d1 and d2 of a parallelogram whose corners are off square by the angle e:
//     d1^2 - d2^2 = 4 a b sin e          the difference shows the lean
//     d1^2 + d2^2 = 2 (a^2 + b^2)        the sum shows reading errors
// So the lean of side b, measured along side a, is s = b sin e = (d1^2 - d2^2) / (4 a).
// Equal diagonals alone do not make a rectangle: see true_up.hpp, which looks at all four sides.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <string_view>

namespace eavewright {

/// Shortest and longest side or diagonal that this room takes: an inch, and 100,000 in (about a mile and a half).
inline constexpr Length shortest_side = Length::from_inches(1.0);
inline constexpr Length longest_reading = Length::from_inches(100000.0);

/// A parallelogram as read: `along` is the side at the foot, `up` the side that may lean, `up_right` the diagonal
/// from the left foot to the right top, `up_left` from the right foot to the left top. Each `shortest_side` to
/// `longest_reading`.
struct Parallelogram {
    Length along;
    Length up;
    Length up_right;
    Length up_left;
};

/// How far a parallelogram is from its rectangle. Positive leans to the right as seen from the foot.
struct Lean {
    Length of_up;        ///< how far the top stands off square over side `up`, measured along the foot
    Length of_along;     ///< the same angle over side `along`, measured up
    double sine;         ///< sine of the corner error
    Angle corner_error;  ///< how far each corner is off 90 deg; the machine's asin, good to an ulp or two
    Length closure;      ///< root mean square of the diagonals less the diagonal of the sides; 0 without errors
};

template <>
struct FieldsOf<Lean> {
    static constexpr auto list = field_list(
        field("of_up", FieldUnit::length, "top off square over the side that goes up, right positive", &Lean::of_up),
        field("of_along", FieldUnit::length, "same angle over the foot, measured up", &Lean::of_along),
        field("sine", FieldUnit::ratio, "sine of the corner error", &Lean::sine),
        field("corner_error", FieldUnit::angle, "how far each corner is off square", &Lean::corner_error),
        field("closure", FieldUnit::length, "mean diagonal as read less the diagonal of the sides", &Lean::closure));
};

namespace squaring_detail {
inline void require_side(Length value, const Path& path, Faults& faults) {
    require_within(value, shortest_side, longest_reading, path, faults);
}
inline void require_sides(Length along, Length up) {
    Faults faults;
    require_side(along, Path{"along"}, faults);
    require_side(up, Path{"up"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
}
/// The fault of a figure that leans further than flat.
[[nodiscard]] inline Fault impossible_lean(const Path& path, Length given) {
    return Fault{FaultCode::contradiction, path.text(), describe_length(given),
                 "a figure that these two sides can make"};
}
/// `square_difference` is d1^2 - d2^2 in square inches.
[[nodiscard]] inline Lean lean_from_squares(Length along, Length up, double square_difference, Length closure) {
    const double a = inches(along);
    const double b = inches(up);
    const double sine = square_difference / (4.0 * a * b);
    return Lean{one_inch * (square_difference / (4.0 * a)), one_inch * (square_difference / (4.0 * b)), sine,
                angle_from_radians(std::asin(sine)), closure};
}
}  // namespace squaring_detail

/// Faults: out_of_range or not_finite for a length outside its range; contradiction where the two sides cannot
/// make diagonals so different.
inline void find_faults(const Parallelogram& figure, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    squaring_detail::require_side(figure.along, Path{path, "along"}, faults);
    squaring_detail::require_side(figure.up, Path{path, "up"}, faults);
    squaring_detail::require_side(figure.up_right, Path{path, "up_right"}, faults);
    squaring_detail::require_side(figure.up_left, Path{path, "up_left"}, faults);
    if (faults.size() != before) {
        return;
    }
    const double difference = inches(figure.up_right - figure.up_left) * inches(figure.up_right + figure.up_left);
    if (!(std::fabs(difference) < 4.0 * inches(figure.along) * inches(figure.up))) {
        const bool right = figure.up_right > figure.up_left;
        faults.push_back(squaring_detail::impossible_lean(Path{path, right ? "up_right" : "up_left"},
                                                          right ? figure.up_right : figure.up_left));
    }
}

/// Diagonal of a rectangle, sqrt(a^2 + b^2): both of its diagonals have it. Each side `shortest_side` to
/// `longest_reading`, else out_of_range or not_finite. Exact for 3-4-5 and its like.
[[nodiscard]] inline Length diagonal(Length a, Length b) {
    squaring_detail::require_sides(a, b);
    return hypotenuse(a, b);
}

/// The lean of a parallelogram from both of its diagonals. Throws as `find_faults` of a Parallelogram.
[[nodiscard]] inline Lean lean_of(const Parallelogram& figure) {
    require_sound(figure, "parallelogram");
    const double d1 = inches(figure.up_right);
    const double d2 = inches(figure.up_left);
    const Length mean = one_inch * std::sqrt((d1 * d1 + d2 * d2) / 2.0);
    return squaring_detail::lean_from_squares(figure.along, figure.up, (d1 - d2) * (d1 + d2),
                                              mean - hypotenuse(figure.along, figure.up));
}

/// The lean of a parallelogram from its sides and the difference up_right - up_left alone. Exact: with the sum of
/// squares known, d1^2 - d2^2 = (d1 - d2) sqrt(4 (a^2 + b^2) - (d1 - d2)^2). Throws out_of_range for a side,
/// contradiction where the sides cannot make such a difference.
[[nodiscard]] inline Lean lean_from_difference(Length along, Length up, Length difference) {
    squaring_detail::require_sides(along, up);
    const double a = inches(along);
    const double b = inches(up);
    const double read = inches(difference);
    // The diagonals differ most when the figure lies flat: a + b against |a - b|.
    if (!(std::fabs(read) < 2.0 * inches(shorter(along, up)))) {
        throw FaultError{squaring_detail::impossible_lean(Path{"difference"}, difference)};
    }
    return squaring_detail::lean_from_squares(along, up, read * std::sqrt(4.0 * (a * a + b * b) - read * read),
                                              no_length);
}

/// The lean from one diagonal, the way of the 3-4-5 triangle: `up_right` longer than `diagonal(along, up)` leans to
/// the right. Throws out_of_range for a length, contradiction where the three make no triangle.
[[nodiscard]] inline Lean lean_from_triangle(Length along, Length up, Length up_right) {
    squaring_detail::require_sides(along, up);
    const double a = inches(along);
    const double b = inches(up);
    const double d = inches(up_right);
    const double excess = d * d - a * a - b * b;
    if (!(d > 0.0 && std::fabs(excess) < 2.0 * a * b)) {
        throw FaultError{squaring_detail::impossible_lean(Path{"up_right"}, up_right)};
    }
    return squaring_detail::lean_from_squares(along, up, 2.0 * excess, no_length);
}

/// The difference up_right - up_left that a parallelogram shows when its top stands `lean` to the right. Inverse of
/// `lean_from_difference`. Throws out_of_range for a side, contradiction unless |lean| < up.
[[nodiscard]] inline Length difference_from_lean(Length along, Length up, Length lean) {
    squaring_detail::require_sides(along, up);
    if (!(magnitude(lean) < up)) {
        throw FaultError{squaring_detail::impossible_lean(Path{"lean"}, lean)};
    }
    const double a = inches(along);
    const double b = inches(up);
    const double s = inches(lean);
    const double d1 = std::sqrt(a * a + b * b + 2.0 * a * s);
    const double d2 = std::sqrt(a * a + b * b - 2.0 * a * s);
    return one_inch * (4.0 * a * s / (d1 + d2));  // (d1^2 - d2^2) / (d1 + d2): no cancellation for a slight lean
}

}  // namespace eavewright
