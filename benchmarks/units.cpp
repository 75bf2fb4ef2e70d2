// SPDX-License-Identifier: BSL-1.0
// What a typed length costs against a bare double, on the rafter lengths of 4096 runs.

#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <benchmark/benchmark.h>

#include <cmath>
#include <cstddef>
#include <vector>

using namespace eavewright;

namespace {

constexpr std::size_t rafter_count = 4096;

template <class Value, class Make>
std::vector<Value> make_runs(Make make) {
    std::vector<Value> runs;
    runs.reserve(rafter_count);
    for (std::size_t i = 0; i < rafter_count; ++i) {
        runs.push_back(make(static_cast<double>(i) / 16.0));
    }
    return runs;
}

void rafters_bare(benchmark::State& state) {
    const std::vector<double> runs = make_runs<double>([](double in) { return in; });
    std::vector<double> rafters(rafter_count, 0.0);
    for (auto _ : state) {
        for (std::size_t i = 0; i < rafter_count; ++i) {
            const double rise = runs[i] * 4.0 / 12.0;
            rafters[i] = std::sqrt(runs[i] * runs[i] + rise * rise);
        }
        benchmark::DoNotOptimize(rafters.data());
        benchmark::ClobberMemory();
    }
}
BENCHMARK(rafters_bare);

void rafters_typed(benchmark::State& state) {
    const std::vector<Length> runs = make_runs<Length>(Length::from_inches);
    std::vector<Length> rafters(rafter_count, no_length);
    for (auto _ : state) {
        for (std::size_t i = 0; i < rafter_count; ++i) {
            rafters[i] = hypotenuse(runs[i], runs[i] * 4.0 / 12.0);
        }
        benchmark::DoNotOptimize(rafters.data());
        benchmark::ClobberMemory();
    }
}
BENCHMARK(rafters_typed);

void rafters_by_pitch(benchmark::State& state) {
    const std::vector<Length> runs = make_runs<Length>(Length::from_inches);
    std::vector<Length> rafters(rafter_count, no_length);
    const Pitch pitch = Pitch::in_12(4.0);
    for (auto _ : state) {
        for (std::size_t i = 0; i < rafter_count; ++i) {
            rafters[i] = pitch.slope_over(runs[i]);
        }
        benchmark::DoNotOptimize(rafters.data());
        benchmark::ClobberMemory();
    }
}
BENCHMARK(rafters_by_pitch);

}  // namespace
