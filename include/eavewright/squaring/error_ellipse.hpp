// SPDX-License-Identifier: BSL-1.0
#pragma once

// How well a point is known: the standard error ellipse of its two coordinates, and covariances of many.

#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <cstddef>
#include <vector>

namespace eavewright {

/// Covariances of the coordinates of points, all of the first point's first. A coordinate that was not settled has none:
/// its row and column hold zeros.
struct Covariance {
    std::size_t points;
    std::size_t coordinates;      ///< of each point, 2 or 3
    std::vector<double> entries;  ///< square inches, row by row; square and symmetric

    /// Between coordinate `i` of point `a` and coordinate `j` of point `b`.
    [[nodiscard]] Area between(std::size_t a, std::size_t i, std::size_t b, std::size_t j) const {
        return Area::from_value(entries[(a * coordinates + i) * points * coordinates + b * coordinates + j]);
    }
};

/// One standard deviation to every side; 39 % of points lie inside. `scaled_to` makes it the region of another share.
struct ErrorEllipse {
    Length long_axis;   ///< half of it
    Length short_axis;  ///< half of it
    double along;       ///< direction of the long axis, its first component; with `up`, of length 1
    double up;          ///< its second component, not negative
};
template <>
struct FieldsOf<ErrorEllipse> {
    static constexpr auto list = field_list(
        field("long_axis", FieldUnit::length, "half of the long axis, one standard deviation",
              &ErrorEllipse::long_axis),
        field("short_axis", FieldUnit::length, "half of the short axis", &ErrorEllipse::short_axis),
        field("along", FieldUnit::ratio, "direction of the long axis, first component", &ErrorEllipse::along),
        field("up", FieldUnit::ratio, "direction of the long axis, second component", &ErrorEllipse::up));
};

/// The ellipse of two coordinates with these variances and this covariance (each finite; a variance not negative). Round
/// where it has no direction: then the long axis lies along the first coordinate. Closed form: the eigenvalues of a 2x2.
[[nodiscard]] inline ErrorEllipse error_ellipse(Area first, Area both, Area second) {
    const double a = square_inches(first);
    const double b = square_inches(both);
    const double c = square_inches(second);
    const double half_difference = (a - c) / 2.0;
    const double radius = std::sqrt(half_difference * half_difference + b * b);
    const double large = (a + c) / 2.0 + radius;
    const double area = a * c - b * b;
    const double little = large > 0.0 && area > 0.0 ? area / large : 0.0;  // no cancellation for a needle
    // The long axis halves the angle of (half_difference, b): half-angle formulas, the larger component first.
    double along = 1.0;
    double up = 0.0;
    if (radius > 0.0) {
        const double larger = std::sqrt((1.0 + std::fabs(half_difference) / radius) / 2.0);
        const double other = std::fabs(b) / radius / (2.0 * larger);
        along = half_difference >= 0.0 ? larger : other;
        up = half_difference >= 0.0 ? other : larger;
        along = b < 0.0 ? -along : along;
    }
    return ErrorEllipse{one_inch * std::sqrt(large > 0.0 ? large : 0.0), one_inch * std::sqrt(little), along, up};
}

/// Standard deviations to the edge of the region that holds a point of two coordinates with this probability:
/// sqrt(-2 ln(1 - share)), which is the chi-square quantile of 2 degrees of freedom. `share` in (0, 1).
[[nodiscard]] inline double ellipse_factor(double share) { return std::sqrt(-2.0 * std::log1p(-share)); }

/// The same ellipse, `factor` standard deviations wide.
[[nodiscard]] inline ErrorEllipse scaled(const ErrorEllipse& one, double factor) {
    return ErrorEllipse{one.long_axis * factor, one.short_axis * factor, one.along, one.up};
}

}  // namespace eavewright
