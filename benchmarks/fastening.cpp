// SPDX-License-Identifier: BSL-1.0
// Nails counted on the supports under every piece of the workshop's slope.

#include "demo_slope.hpp"

#include <benchmark/benchmark.h>

namespace {
using namespace demo;

void nails_of_workshop(benchmark::State& state) {
    const Sheets sheets = demo::sheets();
    const PurlinRows rows = demo::rows();
    for (auto _ : state) {
        benchmark::DoNotOptimize(count_nails(sheets, rows, {.edge = 6_in, .field = 12_in}));
    }
}
BENCHMARK(nails_of_workshop);
}  // namespace
