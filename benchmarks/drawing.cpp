// SPDX-License-Identifier: BSL-1.0
// The drawing of the workshop's front slope as text.

#include "demo_slope.hpp"

#include <eavewright/drawing/plane_drawing.hpp>
#include <eavewright/whole_roof.hpp>

#include <benchmark/benchmark.h>

namespace {
using namespace demo;

void drawing_of_workshop(benchmark::State& state) {
    const RoofDescription roof{
        .name = "Workshop",
        .shape = shape(),
        .frames = {.spacing = BaysAtMost{10_ft}},
        .purlins = PurlinPlan{.spacing = Fixed{24_in}, .cuts = {.stock_length = 24_ft}, .stock = row_plan().stock},
        .deck = DeckPlan{.sheets = sheet_plan(), .nails = {.edge = 6_in, .field = 12_in}}};
    const SlopeResult slope = whole_roof(roof).slopes.front();
    for (auto _ : state) {
        benchmark::DoNotOptimize(draw_plane(slope, {.title = "Workshop"}));
    }
}
BENCHMARK(drawing_of_workshop)->Unit(benchmark::kMicrosecond);
}  // namespace
