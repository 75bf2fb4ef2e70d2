// SPDX-License-Identifier: BSL-1.0
// The whole walk of a workshop: time and heap of the demo, and how both grow with the length of the building.

#include <eavewright/whole_roof.hpp>

#include <benchmark/benchmark.h>

#include <atomic>
#include <cstddef>
#include <cstdlib>
#include <new>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
// Every allocation carries its size in front, so that what is held at once can be followed.
std::atomic<std::size_t> held{0};
std::atomic<std::size_t> peak{0};
constexpr std::size_t front = alignof(std::max_align_t);
}  // namespace

void* operator new(std::size_t size) {
    auto* block = static_cast<char*>(std::malloc(size + front));
    if (block == nullptr) {
        throw std::bad_alloc{};
    }
    *reinterpret_cast<std::size_t*>(block) = size;
    const std::size_t now = held.fetch_add(size) + size;
    if (now > peak.load()) {
        peak.store(now);
    }
    return block + front;
}
void operator delete(void* pointer) noexcept {
    if (pointer != nullptr) {
        char* block = static_cast<char*>(pointer) - front;
        held.fetch_sub(*reinterpret_cast<std::size_t*>(block));
        std::free(block);
    }
}
void operator delete(void* pointer, std::size_t) noexcept { operator delete(pointer); }

namespace {
RoofDescription workshop(Length length) {
    const PurlinStock stock{.thickness = 1.5_in, .depth = 5.5_in, .lie = PurlinLie::on_edge};
    return {.name = "Workshop",
            .shape = GableRoof{.width = 36_ft,
                               .length = length,
                               .pitch = Pitch::in_12(4),
                               .eave_overhang = 18_in,
                               .rake_overhang = 12_in,
                               .build_up = {.purlin = 5.5_in, .deck = 0.4375_in},
                               .bearing_height = 12_ft,
                               .heel = 6_in},
            .frames = {.spacing = BaysAtMost{10_ft}},
            .purlins = PurlinPlan{.spacing = Fixed{24_in}, .cuts = {.stock_length = 24_ft}, .stock = stock},
            .deck = DeckPlan{.sheets = {.sheet = {.width = 4_ft, .length = 8_ft}},
                             .nails = {.edge = 6_in, .field = 12_in}}};
}

void walk(benchmark::State& state, const RoofDescription& roof) {
    const std::size_t before = held.load();
    peak.store(before);
    std::size_t pieces = 0;
    for (auto _ : state) {
        const RoofResult result = whole_roof(roof);
        pieces = static_cast<std::size_t>(result.sheet_pieces);
        benchmark::DoNotOptimize(result.nails);
    }
    state.counters["pieces"] = static_cast<double>(pieces);
    state.counters["heap_peak_kB"] = static_cast<double>(peak.load() - before) / 1024.0;
}

void demo(benchmark::State& state) { walk(state, workshop(60_ft)); }
BENCHMARK(demo)->Unit(benchmark::kMicrosecond);

void by_length(benchmark::State& state) {
    walk(state, workshop(1_ft * static_cast<double>(state.range(0))));
    state.SetComplexityN(state.range(0));
}
BENCHMARK(by_length)->RangeMultiplier(2)->Range(60, 1920)->Unit(benchmark::kMicrosecond)->Complexity(benchmark::oN);

void demo_as_json(benchmark::State& state) {
    const RoofResult result = whole_roof(workshop(60_ft));
    for (auto _ : state) {
        benchmark::DoNotOptimize(write_json(result, LengthUnit::inches));
    }
}
BENCHMARK(demo_as_json)->Unit(benchmark::kMicrosecond);
}  // namespace
