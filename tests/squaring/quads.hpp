// SPDX-License-Identifier: BSL-1.0
#pragma once

// Four-sided figures for the tests of squaring: from known corners to exact readings, and back by other means.

#include <eavewright/squaring/four_sides.hpp>

#include <array>
#include <cmath>
#include <cstdint>

/// Corners in inches: eave_left, eave_right, ridge_right, ridge_left.
using Quad = std::array<std::array<double, 2>, 4>;

inline double between(const Quad& q, std::size_t i, std::size_t j) {
    return std::hypot(q[i][0] - q[j][0], q[i][1] - q[j][1]);
}
/// What an errorless tape reads.
inline eavewright::FourSides exact_readings(const Quad& q) {
    const auto tape = [&](std::size_t i, std::size_t j) { return eavewright::one_inch * between(q, i, j); };
    return {.eave = tape(0, 1),
            .ridge = tape(3, 2),
            .left = tape(0, 3),
            .right = tape(1, 2),
            .up_right = tape(0, 2),
            .up_left = tape(1, 3)};
}
inline Quad quad_of(const eavewright::FourCorners& c) {
    const auto point = [](const eavewright::PlaneCorner& p) {
        return std::array<double, 2>{eavewright::inches(p.along), eavewright::inches(p.up)};
    };
    return {point(c.eave_left), point(c.eave_right), point(c.ridge_right), point(c.ridge_left)};
}
/// Seen from behind: left and right change places.
inline eavewright::FourSides mirror_of(const eavewright::FourSides& s) {
    return {s.eave, s.ridge, s.right, s.left, s.up_left, s.up_right};
}
inline eavewright::FourSides scaled(const eavewright::FourSides& s, double k) {
    return {s.eave * k, s.ridge * k, s.left * k, s.right * k, s.up_right * k, s.up_left * k};
}
inline std::array<double, 6> numbers_of(const eavewright::FourSides& s) {
    using eavewright::inches;
    return {inches(s.eave), inches(s.ridge), inches(s.left), inches(s.right), inches(s.up_right), inches(s.up_left)};
}

/// The same numbers on every machine (splitmix64).
class Seeded {
public:
    explicit Seeded(std::uint64_t seed) : state_{seed} {}
    double between(double low, double high) {
        return low + (high - low) * (static_cast<double>(next() >> 11) / 9007199254740992.0);
    }
    /// Roughly normal, standard deviation 1: twelve uniform numbers less six.
    double normal() {
        double sum = -6.0;
        for (int i = 0; i < 12; ++i) {
            sum += between(0.0, 1.0);
        }
        return sum;
    }

private:
    std::uint64_t next() {
        std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31);
    }
    std::uint64_t state_;
};

/// A quadrilateral near a rectangle of `width` by `height`, each corner moved by up to `play`, the eave kept level.
inline Quad random_quad(Seeded& random, double width, double height, double play) {
    Quad q{{{0.0, 0.0}, {width, 0.0}, {width, height}, {0.0, height}}};
    q[1][0] += random.between(-play, play);
    for (std::size_t i = 2; i < 4; ++i) {
        q[i][0] += random.between(-play, play);
        q[i][1] += random.between(-play, play);
    }
    return q;
}

/// The fault that `action` throws, or one that says that it threw none.
template <class Action>
eavewright::Fault fault_of(Action&& action) {
    try {
        action();
    } catch (const eavewright::FaultError& error) {
        return error.fault();
    }
    return eavewright::Fault{eavewright::FaultCode{}, "no fault", "", ""};
}
