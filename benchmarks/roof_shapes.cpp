// SPDX-License-Identifier: BSL-1.0
// Every composed shape, description to faces; the largest ones last.

#include <eavewright/roof/face_planes.hpp>
#include <eavewright/roof/hipped_roofs.hpp>
#include <eavewright/roof/plain_roofs.hpp>
#include <eavewright/roof/porch_roofs.hpp>
#include <eavewright/roof/winged_roofs.hpp>
#include <eavewright/roof/wrap_around_porch.hpp>

#include <benchmark/benchmark.h>

namespace {
using namespace eavewright;
using namespace eavewright::literals;

MainGable house() {
    return {.width = 24_ft,
            .length = 40_ft,
            .pitch = Pitch::in_12(6),
            .eave_overhang = 1_ft,
            .rake_overhang = 1_ft,
            .bearing_height = 9_ft,
            .heel = 1_ft};
}
GableWing wing(MainSide side, Length width) {
    return {.side = side,
            .centre = 20_ft,
            .width = width,
            .projection = 10_ft,
            .pitch = Pitch::in_12(6),
            .eave_overhang = 1_ft,
            .rake_overhang = 1_ft,
            .bearing_height = 9_ft,
            .heel = 1_ft};
}

template <class Make>
void run(benchmark::State& state, Make make) {
    for (auto _ : state) {
        benchmark::DoNotOptimize(make());
    }
}

void gable_of_unequal_pitches(benchmark::State& state) {
    const UnequalGableRoof roof{.width = 30_ft,
                                .length = 40_ft,
                                .front_pitch = Pitch::in_12(6),
                                .back_pitch = Pitch::in_12(3),
                                .ridge = EqualWalls{},
                                .front_overhang = 1_ft,
                                .back_overhang = 1_ft,
                                .rake_overhang = 1_ft,
                                .bearing_height = 9_ft,
                                .heel = 1_ft};
    run(state, [&] { return unequal_gable(roof); });
}
BENCHMARK(gable_of_unequal_pitches);

void gambrel_barn(benchmark::State& state) {
    const GambrelRoof roof{.width = 20_ft,
                           .length = 30_ft,
                           .lower_pitch = Pitch::in_12(18),
                           .upper_pitch = Pitch::in_12(6),
                           .break_run = 4_ft,
                           .eave_overhang = 1_ft,
                           .rake_overhang = 1_ft,
                           .bearing_height = 8_ft,
                           .heel = 1_ft};
    run(state, [&] { return gambrel(roof); });
}
BENCHMARK(gambrel_barn);

void monitor_barn(benchmark::State& state) {
    const MonitorRoof roof{.width = 36_ft,
                           .length = 40_ft,
                           .monitor_width = 12_ft,
                           .lower_pitch = Pitch::in_12(4),
                           .upper_pitch = Pitch::in_12(4),
                           .raise = 3_ft,
                           .eave_overhang = 1_ft,
                           .monitor_overhang = 1_ft,
                           .rake_overhang = 1_ft,
                           .bearing_height = 9_ft,
                           .heel = 1_ft};
    run(state, [&] { return monitor(roof); });
}
BENCHMARK(monitor_barn);

HipRoof hip_house() {
    return {.width = 24_ft,
            .length = 40_ft,
            .pitch = Pitch::in_12(6),
            .eave_overhang = 1_ft,
            .bearing_height = 9_ft,
            .heel = 1_ft};
}
void hip_roof(benchmark::State& state) {
    run(state, [roof = hip_house()] { return hip(roof); });
}
BENCHMARK(hip_roof);

void hip_roof_on_three_surfaces(benchmark::State& state) {
    run(state, [made = hip(hip_house())] { return planes_of(made, {1.5_in, 0.5_in}); });
}
BENCHMARK(hip_roof_on_three_surfaces);

void dutch_gable_roof(benchmark::State& state) {
    const DutchGableRoof roof{.width = 24_ft,
                              .length = 40_ft,
                              .pitch = Pitch::in_12(6),
                              .gablet_run = 6_ft,
                              .gablet_overhang = 6_in,
                              .eave_overhang = 1_ft,
                              .bearing_height = 9_ft,
                              .heel = 1_ft};
    run(state, [&] { return dutch_gable(roof); });
}
BENCHMARK(dutch_gable_roof);

void jerkinhead_roof(benchmark::State& state) {
    const JerkinheadRoof roof{.width = 24_ft,
                              .length = 40_ft,
                              .pitch = Pitch::in_12(12),
                              .end_pitch = Pitch::in_12(12),
                              .hip_run = 4_ft,
                              .eave_overhang = 1_ft,
                              .rake_overhang = 1_ft,
                              .bearing_height = 9_ft,
                              .heel = 1_ft};
    run(state, [&] { return jerkinhead(roof); });
}
BENCHMARK(jerkinhead_roof);

PorchRoof porch_on(PorchTie tie) {
    return {.main = house(),
            .start = 10_ft,
            .along = 20_ft,
            .depth = 8_ft,
            .pitch = Pitch::in_12(3),
            .tie = tie,
            .eave_overhang = 1_ft,
            .rake_overhang = 1_ft};
}
void porch_under_the_eave(benchmark::State& state) {
    run(state, [roof = porch_on(TiedUnderEave{6_in})] { return porch(roof); });
}
BENCHMARK(porch_under_the_eave);

void porch_breaking_pitch(benchmark::State& state) {
    run(state, [roof = porch_on(BreaksPitch{4_ft})] { return porch(roof); });
}
BENCHMARK(porch_breaking_pitch);

void porch_all_round(benchmark::State& state) {
    const WrapAroundPorch roof{.main = house(),
                               .pitch = Pitch::in_12(3),
                               .height = 9_ft,
                               .eave_overhang = 1_ft,
                               .rake_overhang = 1_ft,
                               .front = 8_ft,
                               .right = 8_ft,
                               .back = 8_ft,
                               .left = 8_ft};
    run(state, [&] { return wrap_around_porch(roof); });
}
BENCHMARK(porch_all_round);

void l_plan(benchmark::State& state) {
    const LRoof roof{.main = house(), .wing_width = 20_ft, .projection = 16_ft, .wing_pitch = Pitch::in_12(8)};
    run(state, [&] { return l_roof(roof); });
}
BENCHMARK(l_plan);

void t_plan(benchmark::State& state) {
    const GableWithWings roof{.main = house(), .wings = {wing(MainSide::front, 16_ft)}};
    run(state, [&] { return gable_with_wings(roof); });
}
BENCHMARK(t_plan);

void cross_plan(benchmark::State& state) {
    const GableWithWings roof{.main = house(), .wings = {wing(MainSide::front, 24_ft), wing(MainSide::back, 24_ft)}};
    run(state, [&] { return gable_with_wings(roof); });
}
BENCHMARK(cross_plan);
}  // namespace
