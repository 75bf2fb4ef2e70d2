// SPDX-License-Identifier: BSL-1.0
// Panels cut to hips: laying a hip plane of 42 lanes, and pairing what a hip roof of such planes is laid with.

#include <eavewright/fastening/cut_panel_screws.hpp>
#include <eavewright/tiling/lay_cut_panels.hpp>
#include <eavewright/tiling/pair_panels.hpp>

#include <benchmark/benchmark.h>

#include <cmath>
#include <cstddef>
#include <vector>

namespace {
using namespace eavewright;
using namespace eavewright::literals;

/// `lanes` of 36 in of eave at 4 in 12, 18 ft of run, a hip at either end.
PurlinPlane hip_plane(int lanes) {
    const Length eave = 36_in * static_cast<double>(lanes);
    const Length up = 216_in * (std::sqrt(10.0) / 3.0);
    return {Pitch::in_12(4),
            {{0_in, 0_in}, {eave, 0_in}, {eave - 216_in, up}, {216_in, up}},
            {EdgeKind::eave, EdgeKind::hip, EdgeKind::ridge, EdgeKind::hip},
            {},
            {{0_in, 0_in, 0_in}, 1.0, 0.0}};
}
Supports<Surface::purlin_top> rows_on(const PurlinPlane& plane) {
    Supports<Surface::purlin_top> rows{SupportRun::along_eave, {}, 24_in};
    const Extent extent = extent_of(plane.outline);
    for (Length up = 0.75_in; up < extent.high.up; up += 24_in) {
        rows.lines.push_back({{{extent.low.along, up}, {extent.high.along, up}}, 1.5_in, {}});
    }
    return rows;
}

void panels_of_hip_plane(benchmark::State& state) {
    const PurlinPlane plane = hip_plane(static_cast<int>(state.range(0)));
    const Supports<Surface::purlin_top> rows = rows_on(plane);
    std::size_t pieces = 0;
    for (auto _ : state) {
        pieces = lay_cut_panels(plane, rows, {.panels = {.ridge_hold_back = 1_in}}).pieces.size();
        benchmark::DoNotOptimize(pieces);
    }
    state.counters["pieces"] = static_cast<double>(pieces);
}
BENCHMARK(panels_of_hip_plane)->Arg(42)->Arg(420);

void screws_of_hip_plane(benchmark::State& state) {
    const PurlinPlane plane = hip_plane(42);
    const Supports<Surface::purlin_top> rows = rows_on(plane);
    const CutPanels panels = lay_cut_panels(plane, rows, {.panels = {.ridge_hold_back = 1_in}});
    for (auto _ : state) {
        benchmark::DoNotOptimize(count_screws(panels, rows));
    }
}
BENCHMARK(screws_of_hip_plane);

void pairs_of_four_planes(benchmark::State& state) {
    std::vector<CutPanels> planes;
    for (int i = 0; i < 4; ++i) {
        const PurlinPlane plane = hip_plane(i < 2 ? 42 : 20);
        const StartCorner start = i % 2 == 0 ? StartCorner::eave_left : StartCorner::eave_right;
        planes.push_back(lay_cut_panels(plane, rows_on(plane), {.panels = {.ridge_hold_back = 1_in, .start = start}}));
    }
    std::size_t pairs = 0;
    for (auto _ : state) {
        pairs = pair_panels(planes).pairs.size();
        benchmark::DoNotOptimize(pairs);
    }
    state.counters["pairs"] = static_cast<double>(pairs);
}
BENCHMARK(pairs_of_four_planes);
}  // namespace
