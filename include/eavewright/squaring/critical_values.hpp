// SPDX-License-Identifier: BSL-1.0
#pragma once

// How large a residual or a sum of squares must be before chance no longer explains it.
//
// All of these are pure numbers, to a relative 1e-12 of their exact value for the argument as given. `alpha` is the
// share of sound readings that a test calls wrong; `dof`, the degrees of freedom, is the number of spare readings.

#include <eavewright/fault.hpp>
#include <eavewright/squaring/special_functions.hpp>
#include <eavewright/units/decimal.hpp>

#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>

namespace eavewright {

/// Range of every probability that goes in, 1e-9 to 1 - 1e-9, and of the degrees of freedom, 1 to 10,000.
inline constexpr double least_probability = 1e-9;
inline constexpr std::int64_t most_degrees_of_freedom = 10000;
/// Most readings that share one overall level.
inline constexpr std::int64_t most_readings_at_a_level = 1'000'000;

namespace squaring_detail {
inline void require_argument(bool sound, double value, std::string_view name, std::string_view required) {
    if (!sound) {
        throw FaultError{Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite,
                               std::string{name}, write_decimal(value, 12), std::string{required}}};
    }
}
inline void require_probability(double p, std::string_view name) {
    require_argument(p >= least_probability && p <= 1.0 - least_probability, p, name, "0.000000001 to 0.999999999");
}
inline void require_dof(std::int64_t dof) {
    require_argument(dof >= 1 && dof <= most_degrees_of_freedom, static_cast<double>(dof), "dof", "1 to 10000");
}
}  // namespace squaring_detail

/// P(Z < z) of the standard normal distribution, z from -37 to 37. Throws out_of_range or not_finite.
[[nodiscard]] inline double normal_cdf(double z) {
    squaring_detail::require_argument(std::fabs(z) <= 37.0, z, "z", "-37 to 37");
    return 0.5 * std::erfc(-z / squaring_detail::root_of_two);
}

/// The z with P(Z < z) = p; relative 1e-12 on both sides of the median too. Throws out_of_range or not_finite.
[[nodiscard]] inline double normal_quantile(double p) {
    squaring_detail::require_probability(p, "p");
    if (p == 0.5) {
        return 0.0;
    }
    const bool left = p < 0.5;
    const double z = squaring_detail::normal_value(std::fabs(1.0 - 2.0 * p), 2.0 * (left ? p : 1.0 - p));
    return left ? -z : z;
}

/// The z that a standard normal variable exceeds in magnitude with probability alpha: 1.959964 at 0.05. Throws
/// out_of_range or not_finite.
[[nodiscard]] inline double two_sided_normal(double alpha) {
    squaring_detail::require_probability(alpha, "alpha");
    return squaring_detail::normal_value(1.0 - alpha, alpha);
}

/// P(X < x) of the chi-square distribution, x from 0 to 1e15. Relative 1e-12 where x and the result are above 1e-300,
/// absolute near 1. Throws out_of_range or not_finite.
[[nodiscard]] inline double chi_square_cdf(double x, std::int64_t dof) {
    squaring_detail::require_argument(x >= 0.0 && x <= 1e15, x, "x", "0 to 1e15");
    squaring_detail::require_dof(dof);
    return x > 0.0 ? squaring_detail::gamma_tails(static_cast<double>(dof) / 2.0, x / 2.0).below : 0.0;
}

/// The x with P(X < x) = p. Throws out_of_range or not_finite.
[[nodiscard]] inline double chi_square_quantile(double p, std::int64_t dof) {
    squaring_detail::require_probability(p, "p");
    squaring_detail::require_dof(dof);
    return 2.0 * squaring_detail::gamma_value(static_cast<double>(dof) / 2.0, p, 1.0 - p);
}

/// The t that a Student variable exceeds in magnitude with probability alpha: 2.570582 at 0.05 with 5 degrees of
/// freedom. Throws out_of_range or not_finite.
[[nodiscard]] inline double student_two_sided(double alpha, std::int64_t dof) {
    squaring_detail::require_probability(alpha, "alpha");
    squaring_detail::require_dof(dof);
    return squaring_detail::student_value(static_cast<double>(dof), 1.0 - alpha, alpha);
}

/// Critical value of a residual divided by its standard deviation where that deviation is estimated from the same
/// adjustment, so that the residual is part of its own yardstick: tau = sqrt(v) t / sqrt(v - 1 + t^2) with v = dof and
/// t the two-sided Student value of v - 1 (Pope 1976, NOAA TR NOS 65 NGS 1). It follows from tau^2 / v being one
/// residual's share of a sum of v independent squares. With one degree of freedom every such residual is 1 in magnitude,
/// and so is this: nothing exceeds it, no blunder can be placed. Throws out_of_range or not_finite.
[[nodiscard]] inline double pope_tau(double alpha, std::int64_t dof) {
    squaring_detail::require_probability(alpha, "alpha");
    squaring_detail::require_dof(dof);
    if (dof == 1) {
        return 1.0;
    }
    const double v = static_cast<double>(dof);
    const double t = squaring_detail::student_value(v - 1.0, 1.0 - alpha, alpha);
    return std::sqrt(v) * t / std::sqrt(v - 1.0 + t * t);
}

/// How many standard deviations a test quantity must be shifted so that a two-sided normal test at `alpha` sees it with
/// probability `power`: z(1 - alpha/2) + z(power) (Baarda 1968, delta0; 4.1321 at 0.001 and 0.80). The far tail is
/// neglected, so the true power is more by less than alpha / 2. `power` is at least alpha, which no shift at all
/// reaches. Throws out_of_range or not_finite.
[[nodiscard]] inline double detectable_shift(double alpha, double power) {
    squaring_detail::require_probability(alpha, "alpha");
    squaring_detail::require_probability(power, "power");
    squaring_detail::require_argument(power >= alpha, power, "power", "at least alpha");
    return two_sided_normal(alpha) + normal_quantile(power);
}

/// The level of each of `readings` independent tests that together call a sound set wrong with probability
/// `overall_alpha`: 1 - (1 - overall_alpha)^(1 / readings). `readings` 1 to 1,000,000. Many readings at a low overall
/// level give less than `least_probability`, which the tests above do not take. Throws out_of_range or not_finite.
[[nodiscard]] inline double per_reading_alpha(double overall_alpha, std::int64_t readings) {
    squaring_detail::require_probability(overall_alpha, "overall_alpha");
    squaring_detail::require_argument(readings >= 1 && readings <= most_readings_at_a_level,
                                      static_cast<double>(readings), "readings", "1 to 1000000");
    return -std::expm1(std::log1p(-overall_alpha) / static_cast<double>(readings));
}

}  // namespace eavewright
