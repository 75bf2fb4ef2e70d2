// SPDX-License-Identifier: BSL-1.0
#pragma once

// The tails of the normal, chi-square and Student distributions, and the value that has a given tail.
//
// Written here and not taken from std::lgamma, which keeps a sign in a global: the same arguments give the same bits
// in every thread. Degrees of freedom are whole, so the gamma functions that appear are of halves: 1/2, 1, 3/2 and up.

#include <cmath>

namespace eavewright::squaring_detail {

/// How a positive variable X divides at a value x: P(X < x), P(X > x), and x times the density, which is how fast the
/// first grows with log x. The smaller of the two tails is never a difference from 1 that has lost its digits.
struct Tails {
    double below;
    double above;
    double slope;
};

inline constexpr double root_of_two = 1.41421356237309504880;
inline constexpr double root_of_two_pi = 2.50662827463100050242;
inline constexpr double root_of_pi = 1.77245385090551602730;
/// Where a series or a fraction has come to rest: two roundings of 1.
inline constexpr double at_rest = 4.5e-16;
/// A bound for loops that all end long before it.
inline constexpr int most_terms = 100000;

/// What Stirling's formula leaves out: log gamma(z) - ((z - 1/2) log z - z + log(2 pi) / 2), for z > 0. Absolute error
/// below 1e-14. The series of reciprocal powers serves from 15 up, gamma(z + 1) = z gamma(z) leads there.
[[nodiscard]] inline double stirling_remainder(double z) {
    double climbed = 0.0;
    for (; z < 15.0; z += 1.0) {
        climbed += (z + 0.5) * std::log1p(1.0 / z) - 1.0;
    }
    const double s = 1.0 / (z * z);
    const double series =
        1.0 / 12.0 -
        s * (1.0 / 360.0 - s * (1.0 / 1260.0 - s * (1.0 / 1680.0 - s * (1.0 / 1188.0 - s * 691.0 / 360360.0))));
    return climbed + series / z;
}

/// log gamma(z) for z > 0, to 1e-14 or a few roundings of its own size.
[[nodiscard]] inline double log_gamma(double z) {
    return (z - 0.5) * std::log(z) - z + std::log(root_of_two_pi) + stirling_remainder(z);
}

/// gamma(z + 1/2) / gamma(z): no difference of two large logarithms, so good for large z too.
[[nodiscard]] inline double half_step_of_gamma(double z) {
    const double stirling = z * std::log1p(0.5 / z) - 0.5;
    return std::sqrt(z) * std::exp(stirling + stirling_remainder(z + 0.5) - stirling_remainder(z));
}

/// x - a - a log(x / a) for a, x > 0: how many times e the density at x is below that at a. Not by subtraction where
/// x is near a: with m = (x - a) / a and r = m / (2 + m), m - log(1 + m) = m r - 2 (r^3/3 + r^5/5 + ...).
[[nodiscard]] inline double deviance(double a, double x) {
    const double m = (x - a) / a;
    if (!(std::fabs(m) < 0.5)) {
        return x - a - a * std::log(x / a);
    }
    const double r = m / (2.0 + m);
    double power = r * r * r;
    double sum = 0.0;
    for (int k = 3; k < 60 && std::fabs(power) > 1e-18 * std::fabs(sum); k += 2) {
        sum += power / k;
        power *= r * r;
    }
    return a * (m * r - 2.0 * sum);
}

/// The incomplete gamma function at a > 0, x > 0: x^n / ((a + 1) ... (a + n)) summed from n = 0.
[[nodiscard]] inline double gamma_series(double a, double x) {
    double term = 1.0;
    double sum = 1.0;
    for (int n = 1; n < most_terms && term > at_rest * 0.1 * sum; ++n) {
        term *= x / (a + n);
        sum += term;
    }
    return sum;
}

/// The same function from above, x > a + 1, as a continued fraction (forward, Lentz).
[[nodiscard]] inline double gamma_fraction(double a, double x) {
    double b = x + 1.0 - a;
    double c = 1e300;
    double d = 1.0 / b;
    double h = d;
    double factor = 0.0;
    for (int i = 1; i < most_terms && std::fabs(factor - 1.0) > at_rest; ++i) {
        const double an = -i * (i - a);
        b += 2.0;
        d = 1.0 / (an * d + b);
        c = b + an / c;
        factor = c * d;
        h *= factor;
    }
    return h;
}

/// A gamma variable of shape a at x > 0 (half a chi-square variable of 2 a degrees of freedom at half its value).
/// Relative error of the smaller tail below 1e-12 for a up to 5000 and deviances up to 700.
[[nodiscard]] inline Tails gamma_tails(double a, double x) {
    // x^a e^-x / gamma(a)
    const double slope = std::sqrt(a) / root_of_two_pi * std::exp(-stirling_remainder(a) - deviance(a, x));
    if (x < a + 1.0) {
        const double below = slope / a * gamma_series(a, x);
        return Tails{below, 1.0 - below, slope};
    }
    const double above = slope * gamma_fraction(a, x);
    return Tails{1.0 - above, above, slope};
}

/// The continued fraction of the incomplete beta function of a and b at x (forward, Lentz); quick for
/// x < (a + 1) / (a + b + 2).
[[nodiscard]] inline double beta_fraction(double a, double b, double x) {
    double c = 1.0;
    double d = 1.0 / (1.0 - (a + b) * x / (a + 1.0));
    double h = d;
    double factor = 0.0;
    for (int m = 1; m < most_terms && std::fabs(factor - 1.0) > at_rest; ++m) {
        const double even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / (1.0 + even * d);
        c = 1.0 + even / c;
        h *= c * d;
        const double odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / (1.0 + odd * d);
        c = 1.0 + odd / c;
        factor = c * d;
        h *= factor;
    }
    return h;
}

/// The magnitude of a Student variable of `dof` degrees of freedom at t > 0. `gamma_step` is
/// half_step_of_gamma(dof / 2), which does not change with t.
[[nodiscard]] inline Tails student_tails(double dof, double gamma_step, double t) {
    const double a = dof / 2.0;
    const double x = dof / (dof + t * t);
    const double y = t * t / (dof + t * t);
    const double slope = 2.0 * gamma_step / root_of_pi * std::sqrt(y) * std::exp(-a * std::log1p(t * t / dof));
    if (y < 1.5 / (a + 2.5)) {
        const double below = slope * beta_fraction(0.5, a, y);
        return Tails{below, 1.0 - below, slope};
    }
    const double above = slope / dof * beta_fraction(a, 0.5, x);
    return Tails{1.0 - above, above, slope};
}

/// The magnitude of a standard normal variable at z > 0.
[[nodiscard]] inline Tails normal_tails(double z) {
    const double s = z / root_of_two;
    return Tails{std::erf(s), std::erfc(s), 2.0 * z / root_of_two_pi * std::exp(-s * s)};
}

/// The x > 0 at which `tails_at(x)` gives P(X < x) = below and P(X > x) = above, from `start` > 0. Newton on the
/// logarithm of the smaller tail against log x: for all three distributions above both logarithms are concave in
/// log x, so from the first step on the values run to the root from one side.
template <class TailsAt>
[[nodiscard]] double value_at_tails(double below, double above, double start, TailsAt&& tails_at) {
    double x = start;
    double step = 1.0;
    for (int i = 0; i < 100 && std::fabs(step) > 1e-10; ++i) {  // the step after one of 1e-10 is none
        const Tails t = tails_at(x);
        step = above < below ? std::log(t.above / above) * t.above / t.slope
                             : -std::log(t.below / below) * t.below / t.slope;
        x *= std::exp(step);
    }
    return x;
}

/// The z > 0 with P(|Z| < z) = below, P(|Z| > z) = above.
[[nodiscard]] inline double normal_value(double below, double above) {
    // P(|Z| > z) < exp(-z^2 / 2), and P(|Z| < z) < 2 z / sqrt(2 pi).
    const double start = above < below ? std::sqrt(-2.0 * std::log(above)) : below * root_of_two_pi / 2.0;
    return value_at_tails(below, above, start, normal_tails);
}

/// The x > 0 at which a gamma variable of shape a has these tails.
[[nodiscard]] inline double gamma_value(double a, double below, double above) {
    // Its cube root is nearly normal (Wilson and Hilferty 1931); for small x the first term of the series serves, which
    // is never more than the root.
    const double half = below < above ? below : above;
    const double z = half < 0.5 ? normal_value(1.0 - 2.0 * half, 2.0 * half) : 0.0;
    const double root = 1.0 - 1.0 / (9.0 * a) + (below < above ? -z : z) / (3.0 * std::sqrt(a));
    const double by_root = root > 0.0 ? a * root * root * root : 0.0;
    const double by_series = std::exp((std::log(below) + log_gamma(a + 1.0)) / a);
    return value_at_tails(below, above, by_root > by_series ? by_root : by_series,
                          [a](double x) { return gamma_tails(a, x); });
}

/// The t > 0 at which the magnitude of a Student variable has these tails; the normal value is never more.
[[nodiscard]] inline double student_value(double dof, double below, double above) {
    const double gamma_step = half_step_of_gamma(dof / 2.0);
    return value_at_tails(below, above, normal_value(below, above),
                          [=](double t) { return student_tails(dof, gamma_step, t); });
}

}  // namespace eavewright::squaring_detail
