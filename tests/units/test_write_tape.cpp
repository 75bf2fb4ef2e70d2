// SPDX-License-Identifier: BSL-1.0

#include <eavewright/units/read_tape.hpp>
#include <eavewright/units/write_tape.hpp>

#include "../support/printing.hpp"
#include "../support/table.hpp"

#include <doctest/doctest.h>

#include <cstdint>
#include <limits>
#include <numeric>
#include <random>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const Tick sixteenth = Tick::of_inch(16);
const Tick millimetre = Tick::of_millimetres(1);
}  // namespace

TEST_CASE("rounding cases, both ties, with carry into the next inch and foot") {
    for (const TableRow& row : read_table("inch_rounding_cases.csv")) {
        CAPTURE(row.at("inches"));
        const Length length = read_length(row.at("inches") + " in").value();
        const Tick tick = Tick::of_inch(std::stoi(row.at("denominator")));
        CHECK(write_feet_inches(length, tick, Tie::half_up) == row.at("half_up"));
        CHECK(write_feet_inches(length, tick, Tie::half_even) == row.at("half_even_H44"));
        const bool zero = row.at("half_up") == "0'-0\"";
        CHECK(write_feet_inches(-length, tick) == (zero ? "" : "-") + row.at("half_up"));
    }
}

TEST_CASE("feet and inches") {
    CHECK(write_feet_inches(150.5_in, sixteenth) == "12'-6 1/2\"");
    CHECK(write_feet_inches(one_inch / 16, sixteenth) == "0'-0 1/16\"");
    CHECK(write_feet_inches(-27_in, sixteenth) == "-2'-3\"");
    CHECK(write_feet_inches(-one_inch * 3 / 8, sixteenth) == "-0'-0 3/8\"");
    CHECK(write_feet_inches(12_in, sixteenth) == "1'-0\"");
    CHECK(write_feet_inches(-one_inch / 64, sixteenth) == "0'-0\"");
    CHECK(write_feet_inches(no_length, sixteenth) == "0'-0\"");
    CHECK(write_feet_inches(11.5_in, Tick::of_inch(1)) == "1'-0\"");
    CHECK(write_feet_inches(Length::from_inches(1e7), Tick::of_inch(64)) == "833333'-4\"");
}

TEST_CASE("inches alone") {
    CHECK(write_inches(150.5_in, sixteenth) == "150 1/2\"");
    CHECK(write_inches(one_inch * 7 / 16, sixteenth) == "7/16\"");
    CHECK(write_inches(-one_inch * 7 / 16, sixteenth) == "-7/16\"");
    CHECK(write_inches(-150.5_in, sixteenth) == "-150 1/2\"");
    CHECK(write_inches(24_in, sixteenth) == "24\"");
    CHECK(write_inches(no_length, sixteenth) == "0\"");
    CHECK(write_inches(-one_inch / 64, sixteenth) == "0\"");
}

TEST_CASE("property: a reading is in lowest terms, and mark plus remainder is the length") {
    std::mt19937 random{31};
    int wrong = 0;
    for (int i = 0; i < 50000; ++i) {
        const Length length = one_inch * ((static_cast<double>(random() % 2000001) - 1e6) / 613.0);
        for (const int denominator : {1, 4, 16, 64}) {
            const TapeReading at = split_tape(length, Tick::of_inch(denominator));
            wrong += at.inches < 0 || at.inches > 11 || at.numerator < 0 || at.numerator >= at.denominator;
            wrong += std::gcd(at.numerator, at.denominator) != 1 || denominator % at.denominator != 0;
            const Length size =
                one_inch * (static_cast<double>(at.feet) * 12.0 + at.inches) + one_inch * at.numerator / at.denominator;
            wrong += (at.negative ? -size : size) + at.remainder != length;
            wrong += magnitude(at.remainder) > one_inch / denominator * 0.5;
        }
    }
    CHECK(wrong == 0);
    const TapeReading whole = split_tape(3_in, sixteenth);
    CHECK(whole.numerator == 0);
    CHECK(whole.denominator == 1);
}

TEST_CASE("whole millimetres to 100 m print as they were typed") {
    int wrong = 0;
    for (int mm = 1; mm <= 100000; ++mm) {
        const std::string text = std::to_string(mm) + " mm";
        const Length length = read_length(text).value();
        wrong += write_millimetres(length) != text || write_millimetres(length, 3) != text;
        wrong += write_length(length, millimetre) != text || write_millimetres(-length) != "-" + text;
        wrong += write_length_with_remainder(length, millimetre, Tie::half_up, {.millimetres = 6}) != text;
    }
    CHECK(wrong == 0);
}

TEST_CASE("millimetres with decimals and both ties") {
    CHECK(write_millimetres(150_in) == "3810 mm");
    CHECK(write_millimetres(one_inch * 7 / 8) == "22 mm");
    CHECK(write_millimetres(one_inch * 7 / 8, 1) == "22.2 mm");
    CHECK(write_millimetres(one_inch * 7 / 8, 6) == "22.225 mm");
    CHECK(write_millimetres(one_inch * 7 / 8, 2, Tie::half_up) == "22.23 mm");
    CHECK(write_millimetres(one_inch * 7 / 8, 2, Tie::half_even) == "22.22 mm");
    CHECK(write_millimetres(-0.4_mm) == "0 mm");
    CHECK(write_millimetres(no_length) == "0 mm");
    int wrong = 0;
    for (int mm = 0; mm < 20000; ++mm) {  // typed halves are ties although no inch holds them
        const Length half = read_length(std::to_string(mm) + ".5 mm").value();
        wrong += write_millimetres(half, 0, Tie::half_up) != std::to_string(mm + 1) + " mm";
        wrong += write_millimetres(half, 0, Tie::half_even) != std::to_string(mm % 2 == 0 ? mm : mm + 1) + " mm";
        wrong += write_millimetres(half, 1) != std::to_string(mm) + ".5 mm";
    }
    CHECK(wrong == 0);
}

TEST_CASE("the tick picks the system, the remainder comes on request") {
    CHECK(write_length(150.513_in, sixteenth) == "12'-6 1/2\"");
    CHECK(write_length_with_remainder(150.513_in, sixteenth) == "12'-6 1/2\" +0.013\"");
    CHECK(write_length_with_remainder(150.487_in, sixteenth) == "12'-6 1/2\" -0.013\"");
    CHECK(write_length_with_remainder(-150.513_in, sixteenth) == "-12'-6 1/2\" -0.013\"");
    CHECK(write_length_with_remainder(150.5_in, sixteenth) == "12'-6 1/2\"");
    CHECK(write_length_with_remainder(150.5003_in, sixteenth) == "12'-6 1/2\"");
    CHECK(write_length_with_remainder(150.5003_in, sixteenth, Tie::half_up, {.inches = 4}) == "12'-6 1/2\" +0.0003\"");
    CHECK(write_length_with_remainder(3809.7_mm, millimetre) == "3810 mm -0.3 mm");
    CHECK(write_length_with_remainder(3810.3_mm, millimetre) == "3810 mm +0.3 mm");
    CHECK(write_length_with_remainder(3810_mm, millimetre) == "3810 mm");
    CHECK(write_length(3812.5_mm, Tick::of_millimetres(5), Tie::half_up) == "3815 mm");
    CHECK(write_length(3812.5_mm, Tick::of_millimetres(5), Tie::half_even) == "3810 mm");
    CHECK(write_length(-0.4_mm, millimetre) == "0 mm");
}

TEST_CASE("property: what is written reads back as the same mark") {
    std::mt19937_64 random{2020};
    int wrong = 0;
    for (int i = 0; i < 60000; ++i) {
        const auto k = static_cast<std::int64_t>(random() % 1280000000) - 640000000;
        const int denominator = 1 << (random() % 7);
        const Tick tick = Tick::of_inch(denominator);
        const Length length = one_inch * static_cast<double>(k) / 64.0;
        const Length mark = round_to_tick(length, tick);
        wrong += read_length(write_feet_inches(length, tick)).value() != mark;
        wrong += read_length(write_inches(length, tick)).value() != mark;
        wrong += write_feet_inches(mark, tick) != write_feet_inches(length, tick);
        const Tick metric = Tick::of_millimetres(static_cast<int>(random() % 1000) + 1);
        wrong += read_length(write_length(length, metric)).value() != round_to_tick(length, metric);
    }
    CHECK(wrong == 0);
}

TEST_CASE("what cannot be written is refused") {
    for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(), 2e7}) {
        CAPTURE(bad);
        CHECK_THROWS_AS(static_cast<void>(write_feet_inches(one_inch * bad, sixteenth)), FaultError);
        CHECK_THROWS_AS(static_cast<void>(write_inches(one_inch * bad, sixteenth)), FaultError);
        CHECK_THROWS_AS(static_cast<void>(write_millimetres(one_inch * bad)), FaultError);
        CHECK_THROWS_AS(static_cast<void>(write_length(one_inch * bad, millimetre)), FaultError);
        CHECK_THROWS_AS(static_cast<void>(write_length_with_remainder(one_inch * bad, sixteenth)), FaultError);
    }
    CHECK_THROWS_AS(static_cast<void>(split_tape(1_in, millimetre)), FaultError);
    CHECK_THROWS_AS(static_cast<void>(write_millimetres(1_in, -1)), FaultError);
    CHECK_THROWS_AS(static_cast<void>(write_millimetres(1_in, 7)), FaultError);
}
