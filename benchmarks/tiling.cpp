// SPDX-License-Identifier: BSL-1.0
// Sheets on one slope: the workshop's, and how the time grows with the number of pieces.

#include "demo_slope.hpp"

#include <benchmark/benchmark.h>

namespace {
using namespace demo;

void sheets_of_workshop(benchmark::State& state) {
    const PurlinPlane plane = demo::plane();
    const PurlinRows rows = demo::rows();
    for (auto _ : state) {
        benchmark::DoNotOptimize(tile_sheets(plane, rows, sheet_plan()));
    }
}
BENCHMARK(sheets_of_workshop);

void sheets_by_length(benchmark::State& state) {
    GableRoof roof = shape();
    roof.length = 1_ft * static_cast<double>(state.range(0));
    const PurlinPlane plane = gable(roof).slopes.front().purlin;
    const PurlinRows rows = purlin_rows(plane, Fixed{24_in}, row_plan());
    std::size_t pieces = 0;
    for (auto _ : state) {
        pieces = tile_sheets(plane, rows, sheet_plan()).pieces.size();
        benchmark::DoNotOptimize(pieces);
    }
    state.counters["pieces"] = static_cast<double>(pieces);
    state.SetComplexityN(static_cast<benchmark::IterationCount>(pieces));
}
BENCHMARK(sheets_by_length)->RangeMultiplier(2)->Range(60, 1920)->Complexity(benchmark::oN);
}  // namespace
