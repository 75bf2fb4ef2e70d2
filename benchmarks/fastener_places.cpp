// SPDX-License-Identifier: BSL-1.0
// Fasteners of the workshop's two slopes, counted and placed: nails in the deck, caps in the underlayment, screws in the steel.

#include "demo_slope.hpp"

#include <eavewright/fastening/cap_places.hpp>
#include <eavewright/fastening/fastener_findings.hpp>
#include <eavewright/fastening/nail_places.hpp>
#include <eavewright/fastening/screw_places.hpp>
#include <eavewright/tiling/lay_panels.hpp>
#include <eavewright/tiling/lay_underlayment.hpp>

#include <benchmark/benchmark.h>

#include <cstddef>
#include <vector>

namespace {
using namespace demo;

constexpr NailPattern pattern{.edge = 6_in, .field = 12_in};

struct Slope {
    PurlinPlane plane;
    Supports<Surface::purlin_top> supports;
    Sheets sheets;
    Underlayment underlayment;
    Panels panels;
    ZonedNailPattern zones;
};

/// Strips 4 ft wide along eave, ridge and both rakes, their corners before them.
ZonedNailPattern zones_of(const PurlinPlane& plane) {
    const Extent all = extent_of(plane.outline);
    const auto box = [](PlanePoint low, PlanePoint high) {
        return std::vector<PlanePoint>{low, {high.along, low.up}, high, {low.along, high.up}};
    };
    const NailPattern corner{.edge = 4_in, .field = 4_in};
    const NailPattern strip{.edge = 6_in, .field = 6_in};
    const Length left = all.low.along + 48_in;
    const Length right = all.high.along - 48_in;
    const Length low = all.low.up + 48_in;
    const Length high = all.high.up - 48_in;
    return {pattern,
            {{box(all.low, {left, low}), corner},
             {box({right, all.low.up}, {all.high.along, low}), corner},
             {box({all.low.along, high}, {left, all.high.up}), corner},
             {box({right, high}, all.high), corner},
             {box(all.low, {all.high.along, low}), strip},
             {box({all.low.along, high}, all.high), strip},
             {box(all.low, {left, all.high.up}), strip},
             {box({right, all.low.up}, all.high), strip}}};
}

std::vector<Slope> slopes() {
    std::vector<Slope> both;
    for (const auto& slope : gable(shape()).slopes) {
        const PurlinRows rows = purlin_rows(slope.purlin, Fixed{24_in}, row_plan());
        both.push_back({slope.purlin, supports_of(rows), tile_sheets(slope.purlin, rows, sheet_plan()),
                        lay_underlayment(slope.purlin, {.roll = {.length = 144_ft}, .rule = SingleCoverage{}}),
                        lay_panels(slope.purlin, rows, {.ridge_hold_back = 1_in}), zones_of(slope.purlin)});
    }
    return both;
}

/// Runs `of(slope)`, a number of fasteners, over both slopes.
template <class Of>
void run(benchmark::State& state, Of of) {
    const std::vector<Slope> both = slopes();
    std::size_t fasteners = 0;
    for (auto _ : state) {
        fasteners = 0;
        for (const Slope& slope : both) {
            fasteners += static_cast<std::size_t>(of(slope));
        }
        benchmark::DoNotOptimize(fasteners);
    }
    state.counters["found"] = static_cast<double>(fasteners);
}

void nails_counted(benchmark::State& state) {
    run(state, [](const Slope& slope) { return count_nails(slope.sheets, slope.supports, pattern).total; });
}
void screws_counted(benchmark::State& state) {
    run(state, [](const Slope& slope) { return count_screws(slope.panels, slope.supports).total; });
}
void caps_counted(benchmark::State& state) {
    run(state, [](const Slope& slope) { return count_caps(slope.underlayment, slope.plane).total; });
}
void all_counted(benchmark::State& state) {
    run(state, [](const Slope& slope) {
        return count_nails(slope.sheets, slope.supports, pattern).total +
               count_screws(slope.panels, slope.supports).total + count_caps(slope.underlayment, slope.plane).total;
    });
}
void nails_placed(benchmark::State& state) {
    run(state, [](const Slope& slope) { return nail_places(slope.sheets, slope.supports, pattern).size(); });
}
void screws_placed(benchmark::State& state) {
    run(state, [](const Slope& slope) { return screw_places(slope.panels, slope.supports).size(); });
}
void caps_placed(benchmark::State& state) {
    run(state, [](const Slope& slope) { return cap_places(slope.underlayment, slope.plane).size(); });
}
void all_placed(benchmark::State& state) {
    run(state, [](const Slope& slope) {
        return nail_places(slope.sheets, slope.supports, pattern).size() +
               screw_places(slope.panels, slope.supports).size() + cap_places(slope.underlayment, slope.plane).size();
    });
}
void nails_counted_by_zone(benchmark::State& state) {
    run(state, [](const Slope& slope) { return count_nails(slope.sheets, slope.supports, slope.zones).total; });
}
void nails_placed_by_zone(benchmark::State& state) {
    run(state, [](const Slope& slope) { return nail_places(slope.sheets, slope.supports, slope.zones).size(); });
}
void nails_judged(benchmark::State& state) {
    const std::vector<Slope> both = slopes();
    const std::vector<std::vector<NailPlace>> nails{nail_places(both[0].sheets, both[0].supports, pattern),
                                                    nail_places(both[1].sheets, both[1].supports, pattern)};
    std::size_t found = 0;
    for (auto _ : state) {
        found = 0;
        for (std::size_t i = 0; i < 2; ++i) {
            found += judge_nails(both[i].sheets, both[i].supports, nails[i]).findings.size();
        }
        benchmark::DoNotOptimize(found);
    }
    state.counters["found"] = static_cast<double>(found);
}
BENCHMARK(nails_counted)->Unit(benchmark::kMicrosecond);
BENCHMARK(screws_counted)->Unit(benchmark::kMicrosecond);
BENCHMARK(caps_counted)->Unit(benchmark::kMicrosecond);
BENCHMARK(all_counted)->Unit(benchmark::kMicrosecond);
BENCHMARK(nails_placed)->Unit(benchmark::kMicrosecond);
BENCHMARK(screws_placed)->Unit(benchmark::kMicrosecond);
BENCHMARK(caps_placed)->Unit(benchmark::kMicrosecond);
BENCHMARK(all_placed)->Unit(benchmark::kMicrosecond);
BENCHMARK(nails_counted_by_zone)->Unit(benchmark::kMicrosecond);
BENCHMARK(nails_placed_by_zone)->Unit(benchmark::kMicrosecond);
BENCHMARK(nails_judged)->Unit(benchmark::kMicrosecond);
}  // namespace
