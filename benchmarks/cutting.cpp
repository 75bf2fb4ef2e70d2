// SPDX-License-Identifier: BSL-1.0

// Lumber cut from stock: first fit beside the search, in one run; sticks, bound and proof are printed as counters.

#include <eavewright/order/cut_stock.hpp>
#include <eavewright/order/search_cuts.hpp>

#include <benchmark/benchmark.h>

#include <cstddef>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// 252 purlins of 38 lengths from 16 ft stock: a seeded list, its fewest 92 by two integer solvers (tests/data,
/// csp_purlins_38_kinds.csv).
[[nodiscard]] std::vector<Length> purlins_of_38_kinds() {
    constexpr std::pair<double, int> kinds[] = {
        {145.3125, 4}, {145.25, 1},  {140.4375, 9}, {129.8125, 3}, {129.0625, 5}, {107.3125, 7}, {104.6875, 3},
        {104.25, 9},   {98.9375, 2}, {98.5625, 10}, {97.8125, 5},  {96.375, 9},   {94.5, 11},    {92.5625, 3},
        {88.9375, 2},  {79.5, 10},   {78.3125, 10}, {77.5, 11},    {74.75, 4},    {74.5, 6},     {70.75, 2},
        {65.4375, 9},  {54.75, 12},  {52.5625, 2},  {51.4375, 10}, {43.25, 1},    {39.8125, 10}, {36.0, 4},
        {35.5625, 8},  {35.0, 11},   {33.25, 9},    {32.9375, 7},  {31.875, 6},   {31.5625, 8},  {31.375, 10},
        {30.3125, 8},  {30.125, 6},  {28.75, 5}};
    std::vector<Length> pieces;
    for (const auto& [length, count] : kinds) {
        pieces.insert(pieces.end(), static_cast<std::size_t>(count), one_inch * length);
    }
    return pieces;
}
const StockPlan stock{.stock = {{.length = 192_in}}, .kerf = 0.125_in};

void first_fit(benchmark::State& state) {
    const std::vector<Length> pieces = purlins_of_38_kinds();
    std::size_t sticks = 0;
    for (auto _ : state) {
        sticks = cut_stock(pieces, stock).bars.size();
        benchmark::DoNotOptimize(sticks);
    }
    state.counters["sticks"] = static_cast<double>(sticks);
}
BENCHMARK(first_fit)->Unit(benchmark::kMillisecond);

void search(benchmark::State& state) {
    const std::vector<Length> pieces = purlins_of_38_kinds();
    double sticks = 0.0;
    double bound = 0.0;
    bool proven = false;
    for (auto _ : state) {
        const FoundCuts found = search_cuts(pieces, {.stock = stock});
        sticks = static_cast<double>(found.value);
        bound = static_cast<double>(found.bound.value);
        proven = found.proven;
        benchmark::DoNotOptimize(sticks);
    }
    state.counters["sticks"] = sticks;
    state.counters["bound"] = bound;
    state.counters["proven"] = proven ? 1.0 : 0.0;
}
BENCHMARK(search)->Unit(benchmark::kMillisecond);
}  // namespace
