// SPDX-License-Identifier: BSL-1.0
// Purlin rows by rule and as found, and the pieces they are cut into.

#include "demo_slope.hpp"

#include <eavewright/framing/purlin_pieces.hpp>

#include <benchmark/benchmark.h>

namespace {
using namespace demo;

void rows_by_rule(benchmark::State& state) {
    const PurlinPlane plane = demo::plane();
    for (auto _ : state) {
        benchmark::DoNotOptimize(purlin_rows(plane, Fixed{24_in}, row_plan()));
    }
}
BENCHMARK(rows_by_rule);

void rows_as_found(benchmark::State& state) {
    const PurlinPlane plane = demo::plane();
    AsFound found{.rows = {}, .frames = frames().centres};
    for (int row = 1; row <= 10; ++row) {
        found.rows.emplace_back(std::vector<Length>(found.frames.size(), 24_in * row));
    }
    for (auto _ : state) {
        benchmark::DoNotOptimize(purlin_rows(plane, found, row_plan()));
    }
}
BENCHMARK(rows_as_found);

void pieces_of_rows(benchmark::State& state) {
    const PurlinRows rows = demo::rows();
    const FrameLines frames = demo::frames();
    for (auto _ : state) {
        benchmark::DoNotOptimize(purlin_pieces(rows, frames, {.stock_length = 24_ft}));
    }
}
BENCHMARK(pieces_of_rows);
}  // namespace
