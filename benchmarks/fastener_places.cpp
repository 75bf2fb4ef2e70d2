// SPDX-License-Identifier: BSL-1.0
// Fasteners of the workshop's two slopes, counted and placed.

#include "demo_slope.hpp"

#include <eavewright/fastening/nail_places.hpp>

#include <benchmark/benchmark.h>

#include <cstddef>
#include <vector>

namespace {
using namespace demo;

constexpr NailPattern pattern{.edge = 6_in, .field = 12_in};

struct Slope {
    Sheets sheets;
    Supports<Surface::purlin_top> supports;
};
std::vector<Slope> slopes() {
    std::vector<Slope> both;
    for (const auto& slope : gable(shape()).slopes) {
        const PurlinRows rows = purlin_rows(slope.purlin, Fixed{24_in}, row_plan());
        both.push_back({tile_sheets(slope.purlin, rows, sheet_plan()), supports_of(rows)});
    }
    return both;
}

void nails_counted(benchmark::State& state) {
    const std::vector<Slope> both = slopes();
    std::int64_t nails = 0;
    for (auto _ : state) {
        nails = 0;
        for (const Slope& slope : both) {
            nails += count_nails(slope.sheets, slope.supports, pattern).total;
        }
        benchmark::DoNotOptimize(nails);
    }
    state.counters["nails"] = static_cast<double>(nails);
}
BENCHMARK(nails_counted)->Unit(benchmark::kMicrosecond);

void nails_placed(benchmark::State& state) {
    const std::vector<Slope> both = slopes();
    std::size_t nails = 0;
    for (auto _ : state) {
        nails = 0;
        for (const Slope& slope : both) {
            nails += nail_places(slope.sheets, slope.supports, pattern).size();
        }
        benchmark::DoNotOptimize(nails);
    }
    state.counters["nails"] = static_cast<double>(nails);
}
BENCHMARK(nails_placed)->Unit(benchmark::kMicrosecond);
}  // namespace
