// SPDX-License-Identifier: BSL-1.0
// Sheets that pieces are cut from: the plain way and the search, on the workshop's two slopes, hips and a thousand pieces.

#include "demo_slope.hpp"

#include <eavewright/order/check_sheet_cuts.hpp>
#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/search_sheet_cuts.hpp>

#include <benchmark/benchmark.h>

#include <cstddef>
#include <cstdint>
#include <random>
#include <vector>

namespace {
using namespace demo;

const SheetSearchPlan plan{.stock = {.sheet = {.width = 4_ft, .length = 8_ft}}};

std::vector<SheetShape> workshop_pieces() {
    std::vector<SheetShape> pieces = cut_shapes(demo::sheets());
    const std::vector<SheetShape> other = pieces;
    pieces.insert(pieces.end(), other.begin(), other.end());
    return pieces;
}
/// Random sizes in sixteenths, `kinds` of them.
std::vector<SheetShape> random_pieces(std::size_t count, std::size_t kinds) {
    std::mt19937 random{20261125};
    std::vector<SheetShape> known;
    for (std::size_t i = 0; i < kinds; ++i) {
        known.push_back({.box = {.width = 1_in / 16 * static_cast<double>(64 + random() % 705),
                                 .length = 1_in / 16 * static_cast<double>(64 + random() % 1473)}});
    }
    std::vector<SheetShape> pieces;
    for (std::size_t i = 0; i < count; ++i) {
        pieces.push_back(known[i % kinds]);
    }
    return pieces;
}
/// Columns under a hip at 45 degrees: right trapezoids, `count` of each hand.
std::vector<SheetShape> hip_pieces(std::size_t count) {
    std::vector<SheetShape> pieces;
    for (std::size_t i = 0; i < count; ++i) {
        const Length low = 1_in * static_cast<double>(2 + i * 7 % 46);
        pieces.push_back({.box = {.width = 48_in, .length = low + 48_in},
                          .outline = {{0_in, 0_in}, {low, 0_in}, {low + 48_in, 48_in}, {0_in, 48_in}}});
        pieces.push_back({.box = {.width = 48_in, .length = low + 48_in},
                          .outline = {{0_in, 0_in}, {low + 48_in, 0_in}, {low, 48_in}, {0_in, 48_in}}});
    }
    return pieces;
}

void plainly(benchmark::State& state, const std::vector<SheetShape>& pieces) {
    std::vector<SheetSize> boxes;
    for (const SheetShape& piece : pieces) {
        boxes.push_back(piece.box);
    }
    for (auto _ : state) {
        benchmark::DoNotOptimize(cut_sheets(boxes, plan.stock));
    }
    state.counters["sheets"] = static_cast<double>(cut_sheets(boxes, plan.stock).sheets);
}
/// With `times` the nodes of the default.
void searched(benchmark::State& state, const std::vector<SheetShape>& pieces, std::int64_t times) {
    SheetSearchPlan longer_plan = plan;
    longer_plan.nodes *= times;
    for (auto _ : state) {
        benchmark::DoNotOptimize(search_sheet_cuts(pieces, longer_plan));
    }
    const SheetSawPlan found = search_sheet_cuts(pieces, longer_plan);
    if (!find_faults_of_cuts(pieces, longer_plan, found).empty()) {
        state.SkipWithError("the cuts may not be sawn from");
    }
    state.counters["sheets"] = static_cast<double>(found.sheets);
    state.counters["bound"] = static_cast<double>(found.bound.sheets);
    state.counters["share_of_plain"] = static_cast<double>(found.sheets) / static_cast<double>(found.plain);
}
void checked(benchmark::State& state, const std::vector<SheetShape>& pieces) {
    const SheetSawPlan found = search_sheet_cuts(pieces, plan);
    for (auto _ : state) {
        benchmark::DoNotOptimize(find_faults_of_cuts(pieces, plan, found));
    }
}

BENCHMARK_CAPTURE(plainly, workshop, workshop_pieces());
BENCHMARK_CAPTURE(searched, workshop, workshop_pieces(), 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(checked, workshop, workshop_pieces())->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plainly, hips_60, hip_pieces(30));
BENCHMARK_CAPTURE(searched, hips_60, hip_pieces(30), 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plainly, thousand_of_12_kinds, random_pieces(1000, 12))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(searched, thousand_of_12_kinds, random_pieces(1000, 12), 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(searched, thousand_of_12_kinds_10_times, random_pieces(1000, 12), 10)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plainly, thousand_kinds, random_pieces(1000, 1000))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(searched, thousand_kinds, random_pieces(1000, 1000), 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(searched, thousand_kinds_10_times, random_pieces(1000, 1000), 10)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(checked, thousand_kinds, random_pieces(1000, 1000))->Unit(benchmark::kMillisecond);
}  // namespace
