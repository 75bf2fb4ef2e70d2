// SPDX-License-Identifier: BSL-1.0

#include <eavewright/units/tick.hpp>

#include "../support/printing.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("every tape fraction is a tick, and nothing else") {
    for (const int denominator : {1, 2, 4, 8, 16, 32, 64}) {
        CHECK(Tick::of_inch(denominator).step() == one_inch / denominator);
        CHECK_FALSE(Tick::of_inch(denominator).is_metric());
    }
    for (const int denominator : {-16, 0, 3, 10, 12, 63, 128}) {
        CHECK_THROWS_AS(static_cast<void>(Tick::of_inch(denominator)), FaultError);
    }
    CHECK(Tick::of_millimetres(5).step() == 5_mm);
    CHECK(Tick::of_millimetres(1000).is_metric());
    CHECK_THROWS_AS(static_cast<void>(Tick::of_millimetres(0)), FaultError);
    CHECK_THROWS_AS(static_cast<void>(Tick::of_millimetres(1001)), FaultError);
}

TEST_CASE("midway between two marks: away from zero, or to the even mark") {
    const Tick tick = Tick::of_inch(16);
    for (int mark = 0; mark < 400; ++mark) {
        const Length midway = one_inch * (mark + 0.5) / 16.0;
        const int even = mark % 2 == 0 ? mark : mark + 1;
        CHECK(nearest_ticks(midway, tick, Tie::half_up) == mark + 1);
        CHECK(nearest_ticks(midway, tick, Tie::half_even) == even);
        CHECK(nearest_ticks(-midway, tick, Tie::half_up) == -(mark + 1));
        CHECK(nearest_ticks(-midway, tick, Tie::half_even) == -even);
    }
    CHECK(nearest_ticks(one_inch / 32, tick) == 1.0);  // half up unless told otherwise
}

TEST_CASE("a metric midpoint is a tie although no inch holds it exactly") {
    const Tick tick = Tick::of_millimetres(5);
    for (int mark = 0; mark < 4000; ++mark) {
        const Length midway = Length::from_millimetres(5 * mark + 2.5);
        CHECK(nearest_ticks(midway, tick, Tie::half_up) == mark + 1);
        CHECK(nearest_ticks(midway, tick, Tie::half_even) == (mark % 2 == 0 ? mark : mark + 1));
    }
    CHECK(round_to_tick(2.4_mm, tick) == 0_mm);
    CHECK(round_to_tick(2.6_mm, tick) == 5_mm);
}

TEST_CASE("property: nearest is within half a tick, down and up enclose") {
    std::mt19937 random{7};
    const Tick ticks[] = {Tick::of_inch(1),        Tick::of_inch(16),       Tick::of_inch(64),
                          Tick::of_millimetres(1), Tick::of_millimetres(5), Tick::of_millimetres(100)};
    int wrong = 0;
    for (int i = 0; i < 30000; ++i) {
        const Length length = one_inch * ((static_cast<double>(random() % 4000001) - 2000000.0) / 997.0);
        for (const Tick tick : ticks) {
            const Length down = round_down_to_tick(length, tick);
            const Length up = round_up_to_tick(length, tick);
            const Length nearest = round_to_tick(length, tick);
            wrong += !(magnitude(length - nearest) <= tick.step() * 0.5 + count_tolerance);
            wrong += !(down <= length + count_tolerance && up >= length - count_tolerance);
            wrong += !(up - down < tick.step() * 1.001) || !(nearest == down || nearest == up);
            wrong += round_to_tick(nearest, tick) != nearest;
        }
    }
    CHECK(wrong == 0);
}

TEST_CASE("marks stay where they are, in every direction") {
    int wrong = 0;
    for (int mm = -3000; mm <= 3000; ++mm) {
        const Length length = Length::from_millimetres(mm);
        const Tick tick = Tick::of_millimetres(1);
        wrong += round_down_to_tick(length, tick) != length || round_up_to_tick(length, tick) != length;
        const Length mark = one_inch * mm / 32;
        wrong += round_down_to_tick(mark, Tick::of_inch(32)) != mark;
        wrong += round_up_to_tick(mark, Tick::of_inch(32)) != mark;
    }
    CHECK(wrong == 0);
}

TEST_CASE("rounding down is for what must fit, up for what must reach") {
    const Tick tick = Tick::of_inch(16);
    CHECK(round_down_to_tick(6.3_in, tick) == 6.25_in);
    CHECK(round_up_to_tick(6.3_in, tick) == 6.3125_in);
    CHECK(round_down_to_tick(-6.3_in, tick) == -6.3125_in);
    CHECK(round_up_to_tick(-6.3_in, tick) == -6.25_in);
}
