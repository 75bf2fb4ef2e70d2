// SPDX-License-Identifier: BSL-1.0
// A gable and a single slope laid out on their three surfaces.

#include "demo_slope.hpp"

#include <benchmark/benchmark.h>

namespace {
void gable_of_workshop(benchmark::State& state) {
    for (auto _ : state) {
        benchmark::DoNotOptimize(eavewright::gable(demo::shape()));
    }
}
BENCHMARK(gable_of_workshop);

void area_of_plane(benchmark::State& state) {
    const eavewright::PurlinPlane plane = demo::plane();
    for (auto _ : state) {
        benchmark::DoNotOptimize(eavewright::net_area(plane));
    }
}
BENCHMARK(area_of_plane);
}  // namespace
