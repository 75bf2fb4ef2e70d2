// SPDX-License-Identifier: BSL-1.0
#pragma once

// Footprints for tests: by their corners in feet, and seeded ones of every kind that a builder meets.

#include <eavewright/roof/footprint.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include "support/seeded_numbers.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace footprints {
using eavewright::Footprint;
using eavewright::GableSide;
using eavewright::GroundPoint;
using eavewright::Length;
using eavewright::Pitch;
using eavewright::Side;
using eavewright::SlopedSide;
using Corners = std::vector<std::array<double, 2>>;  // in feet

/// Pitches in 12, one a side or one for all; 0 is a gable.
inline Footprint footprint(const Corners& corners, std::vector<double> pitches = {6.0},
                           Length eave = eavewright::no_length) {
    Footprint plan{{}, {}, eave};
    pitches.resize(corners.size(), pitches.back());
    for (std::size_t i = 0; i < corners.size(); ++i) {
        plan.corners.push_back({Length::from_feet(corners[i][0]), Length::from_feet(corners[i][1])});
        plan.sides.push_back(pitches[i] > 0.0 ? Side{SlopedSide{Pitch::in_12(pitches[i])}} : Side{GableSide{}});
    }
    return plan;
}

inline Corners rectangle(double width, double depth) { return {{0, 0}, {width, 0}, {width, depth}, {0, depth}}; }

/// Corners around a middle at growing angles: simple, mostly not convex.
inline Corners star(SeededNumbers& numbers, int corners) {
    Corners outline;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * eavewright::pi * (i + numbers.between(0.05, 0.95)) / corners;
        const double out = numbers.between(10.0, 50.0);
        outline.push_back({out * std::cos(angle), out * std::sin(angle)});
    }
    return outline;
}
/// Corners on an ellipse.
inline Corners convex(SeededNumbers& numbers, int corners) {
    const double wide = numbers.between(20.0, 60.0);
    const double deep = numbers.between(20.0, 60.0);
    Corners outline;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * eavewright::pi * (i + numbers.between(0.15, 0.85)) / corners;
        outline.push_back({wide * std::cos(angle), deep * std::sin(angle)});
    }
    return outline;
}

/// A size of the trade: whole feet, or any where `whole` is not set.
inline double size(SeededNumbers& numbers, bool whole, int low, int high) {
    return whole ? numbers.whole(low, high) : numbers.between(low, high);
}
inline Corners l_plan(SeededNumbers& numbers, bool whole) {
    const double a = size(numbers, whole, 8, 40);
    const double b = size(numbers, whole, 8, 40);
    const double c = size(numbers, whole, 8, 40);
    const double d = size(numbers, whole, 8, 40);
    return {{0, 0}, {a + b, 0}, {a + b, c}, {a, c}, {a, c + d}, {0, c + d}};
}
inline Corners t_plan(SeededNumbers& numbers, bool whole) {
    const double a = size(numbers, whole, 6, 30);
    const double stem = size(numbers, whole, 8, 40);
    const double c = size(numbers, whole, 6, 30);
    const double bar = size(numbers, whole, 8, 40);
    const double out = size(numbers, whole, 6, 40);
    return {{0, 0},   {a + stem + c, 0}, {a + stem + c, bar}, {a + stem, bar}, {a + stem, bar + out}, {a, bar + out},
            {a, bar}, {0, bar}};
}
inline Corners u_plan(SeededNumbers& numbers, bool whole) {
    const double a = size(numbers, whole, 8, 30);
    const double court = size(numbers, whole, 6, 30);
    const double c = size(numbers, whole, 8, 30);
    const double bar = size(numbers, whole, 8, 30);
    const double left = size(numbers, whole, 6, 40);
    const double right = size(numbers, whole, 6, 40);
    return {{0, 0},
            {a + court + c, 0},
            {a + court + c, bar + right},
            {a + court, bar + right},
            {a + court, bar},
            {a, bar},
            {a, bar + left},
            {0, bar + left}};
}
inline Corners cross_plan(SeededNumbers& numbers, bool whole) {
    const double a = size(numbers, whole, 6, 30);
    const double b = size(numbers, whole, 8, 30);
    const double c = size(numbers, whole, 6, 30);
    const double d = size(numbers, whole, 6, 30);
    const double e = size(numbers, whole, 8, 30);
    const double f = size(numbers, whole, 6, 30);
    return {{a, 0},
            {a + b, 0},
            {a + b, d},
            {a + b + c, d},
            {a + b + c, d + e},
            {a + b, d + e},
            {a + b, d + e + f},
            {a, d + e + f},
            {a, d + e},
            {0, d + e},
            {0, d},
            {a, d}};
}
/// Down in steps from a straight back and a straight left end.
inline Corners staircase(SeededNumbers& numbers, bool whole, int steps) {
    Corners outline{{0, 0}};
    std::vector<double> runs;
    std::vector<double> rises;
    double x = 0.0;
    for (int i = 0; i < steps; ++i) {
        runs.push_back(size(numbers, whole, 6, 20));
        rises.push_back(size(numbers, whole, 6, 20));
        x += runs.back();
    }
    double y = 0.0;
    outline.push_back({x, 0});
    for (std::size_t i = 0; i < runs.size(); ++i) {
        y += rises[i];
        outline.push_back({x, y});
        x -= runs[i];
        if (i + 1 < runs.size()) {
            outline.push_back({x, y});
        }
    }
    outline.push_back({0, y});
    return outline;
}

inline Corners right_angled(SeededNumbers& numbers) {
    const bool whole = numbers.coin();
    switch (numbers.whole(0, 4)) {
        case 0: return l_plan(numbers, whole);
        case 1: return t_plan(numbers, whole);
        case 2: return u_plan(numbers, whole);
        case 3: return cross_plan(numbers, whole);
        default: return staircase(numbers, whole, numbers.whole(2, 11));
    }
}
/// Turned about the origin and moved.
inline Corners turned(Corners outline, double angle, double x, double y) {
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    for (std::array<double, 2>& at : outline) {
        at = {c * at[0] - s * at[1] + x, s * at[0] + c * at[1] + y};
    }
    return outline;
}
inline Corners turned_at_random(SeededNumbers& numbers, const Corners& outline) {
    return turned(outline, numbers.between(0.0, 7.0), numbers.between(-100.0, 100.0), numbers.between(-100.0, 100.0));
}
inline std::vector<double> pitches(SeededNumbers& numbers, std::size_t sides) {
    std::vector<double> result;
    for (std::size_t i = 0; i < sides; ++i) {
        result.push_back(numbers.coin() ? numbers.whole(2, 18) : numbers.between(2.0, 18.0));
    }
    return result;
}
}  // namespace footprints
