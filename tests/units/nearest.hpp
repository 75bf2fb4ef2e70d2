// SPDX-License-Identifier: BSL-1.0
#pragma once

// Whether a double is the one nearest to an exact quotient, found without the division under test.

#include <cmath>
#include <limits>

/// `numerator` and `denominator` exact, both positive: no neighbour of `value` lies nearer to their quotient.
/// fma gives each miss value * denominator - numerator with one rounding.
inline bool is_nearest(double value, double numerator, double denominator) {
    const double infinite = std::numeric_limits<double>::infinity();
    const double miss = std::fabs(std::fma(value, denominator, -numerator));
    const double above = std::fabs(std::fma(std::nextafter(value, infinite), denominator, -numerator));
    const double below = std::fabs(std::fma(std::nextafter(value, -infinite), denominator, -numerator));
    return miss <= above && miss <= below;
}
