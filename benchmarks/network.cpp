// SPDX-License-Identifier: BSL-1.0
// Readings adjusted: four corners in closed form and by least squares, and a network of forty marks.

#include <eavewright/squaring/four_sides.hpp>
#include <eavewright/squaring/network.hpp>

#include <benchmark/benchmark.h>

#include <string>

namespace {
using namespace eavewright;
using namespace eavewright::literals;

constexpr FourSides readings{
    .eave = 62_ft, .ridge = 62_ft, .left = 246.625_in, .right = 246.75_in, .up_right = 784_in, .up_left = 783.625_in};

void four_corners_closed_form(benchmark::State& state) {
    FourSides read = readings;
    for (auto _ : state) {
        benchmark::DoNotOptimize(read);
        benchmark::DoNotOptimize(corners_from_five(read));
    }
}
BENCHMARK(four_corners_closed_form);

void four_corners_least_squares(benchmark::State& state) {
    FourSides read = readings;
    for (auto _ : state) {
        benchmark::DoNotOptimize(read);
        benchmark::DoNotOptimize(measured_corners(read));
    }
}
BENCHMARK(four_corners_least_squares);

/// Twenty frames of a slope, marked at eave and ridge: eaves, ridges and rafters, and both diagonals of every bay.
PlaneNetwork forty_marks() {
    PlaneNetwork network;
    network.tapes.push_back({one_inch / 32.0, 1e-4});
    for (int i = 0; i < 20; ++i) {
        const double off = 0.2 * ((7 * i) % 5 - 2);  // where they stand is not quite where they were meant to
        network.points.push_back({"eave " + std::to_string(i), {one_inch * (36.0 * i + off), no_length}});
        network.points.push_back(
            {"ridge " + std::to_string(i), {one_inch * (36.0 * i - off), one_inch * (246.0 + off)}});
    }
    const auto read = [&](std::size_t a, std::size_t b) {
        const Length true_length = distance_between(network.points[a].about, network.points[b].about);
        const double error = 0.03 * (static_cast<double>((11 * a + 5 * b) % 7) - 3.0) / 3.0;
        network.readings.push_back(DistanceReading{a, b, true_length + one_inch * error});
    };
    for (std::size_t i = 0; i < 20; ++i) {
        read(2 * i, 2 * i + 1);
        if (i > 0) {
            read(2 * i - 2, 2 * i);
            read(2 * i - 1, 2 * i + 1);
            read(2 * i - 2, 2 * i + 1);
            read(2 * i - 1, 2 * i);
        }
    }
    for (std::size_t i = 0; i < 20; ++i) {  // start where the marks were meant to be
        network.points[2 * i].about = {one_inch * 36.0 * static_cast<double>(i), no_length};
        network.points[2 * i + 1].about = {one_inch * 36.0 * static_cast<double>(i), 246_in};
    }
    network.points[0].freedom = Held{};
    network.points[38].freedom = FreeAlong<PlaneCorner>{{one_inch, no_length}};
    return network;
}

void network_of_forty(benchmark::State& state) {
    const PlaneNetwork network = forty_marks();
    for (auto _ : state) {
        benchmark::DoNotOptimize(adjust_network(network));
    }
    const auto once = adjust_network(network);
    state.counters["readings"] = static_cast<double>(network.readings.size());
    state.counters["steps"] = once.steps;
}
BENCHMARK(network_of_forty);

void network_of_four(benchmark::State& state) {
    PlaneNetwork network;
    network.tapes.push_back({});
    network.points = {{"eave left", {no_length, no_length}, Held{}},
                      {"eave right", {62_ft, no_length}, FreeAlong<PlaneCorner>{{one_inch, no_length}}},
                      {"ridge right", {62_ft, 246_in}},
                      {"ridge left", {no_length, 246_in}}};
    network.readings = {DistanceReading{0, 1, readings.eave},     DistanceReading{2, 3, readings.ridge},
                        DistanceReading{0, 3, readings.left},     DistanceReading{1, 2, readings.right},
                        DistanceReading{0, 2, readings.up_right}, DistanceReading{1, 3, readings.up_left}};
    for (auto _ : state) {
        benchmark::DoNotOptimize(adjust_network(network));
    }
}
BENCHMARK(network_of_four);
}  // namespace
