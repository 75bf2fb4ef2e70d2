// SPDX-License-Identifier: BSL-1.0
// One slope made true from six readings, and the two slopes of a gable.

#include <eavewright/squaring/true_up.hpp>
#include <eavewright/squaring/true_up_pair.hpp>
#include <eavewright/units/length.hpp>

#include <benchmark/benchmark.h>

namespace {
using namespace eavewright;
using namespace eavewright::literals;

constexpr FourSides readings{
    .eave = 62_ft, .ridge = 62_ft, .left = 246.625_in, .right = 246.75_in, .up_right = 784_in, .up_left = 783.625_in};

void one_slope(benchmark::State& state) {
    for (auto _ : state) {
        benchmark::DoNotOptimize(true_up(readings));
    }
}
BENCHMARK(one_slope);

void both_slopes(benchmark::State& state) {
    const Trueness slope = true_up(readings);
    for (auto _ : state) {
        benchmark::DoNotOptimize(true_up_pair(slope, slope));
    }
}
BENCHMARK(both_slopes);
}  // namespace
