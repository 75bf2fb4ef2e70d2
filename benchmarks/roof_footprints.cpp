// SPDX-License-Identifier: BSL-1.0
// Roofs over footprints: the hip over a rectangle, and outlines with as many corners as are laid out.

#include <eavewright/roof/footprint_roof.hpp>

#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <vector>

namespace {
using namespace eavewright;

Footprint of_one_pitch(const std::vector<std::array<double, 2>>& corners_ft) {
    Footprint plan{{}, {}, Length::from_feet(10.0)};
    for (const std::array<double, 2>& corner : corners_ft) {
        plan.corners.push_back({Length::from_feet(corner[0]), Length::from_feet(corner[1])});
        plan.sides.push_back(SlopedSide{Pitch::in_12(6.0)});
    }
    return plan;
}

void hip_over_rectangle(benchmark::State& state) {
    const Footprint plan = of_one_pitch({{0, 0}, {40, 0}, {40, 24}, {0, 24}});
    for (auto _ : state) {
        benchmark::DoNotOptimize(roof_over(plan));
    }
}
BENCHMARK(hip_over_rectangle);

void staircase_of_24_corners(benchmark::State& state) {
    std::vector<std::array<double, 2>> corners{{0, 0}, {66, 0}};
    for (int step = 0; step < 11; ++step) {
        corners.push_back({66.0 - 6.0 * step, 5.0 * (step + 1)});
        corners.push_back({60.0 - 6.0 * step, 5.0 * (step + 1)});
    }
    const Footprint plan = of_one_pitch(corners);
    for (auto _ : state) {
        benchmark::DoNotOptimize(roof_over(plan));
    }
}
BENCHMARK(staircase_of_24_corners);

void star_of_24_corners(benchmark::State& state) {
    std::vector<std::array<double, 2>> corners;
    for (int i = 0; i < 24; ++i) {
        const double angle = 2.0 * pi * i / 24.0;
        const double out = i % 2 == 0 ? 50.0 + i : 25.0 + i % 5;
        corners.push_back({out * std::cos(angle), out * std::sin(angle)});
    }
    const Footprint plan = of_one_pitch(corners);
    for (auto _ : state) {
        benchmark::DoNotOptimize(roof_over(plan));
    }
}
BENCHMARK(star_of_24_corners);
}  // namespace
