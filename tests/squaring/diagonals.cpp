// SPDX-License-Identifier: BSL-1.0

// Diagonals of rectangles and the lean of parallelograms against outside tables.

#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/units/tick.hpp>

#include "../support/printing.hpp"
#include "../support/table.hpp"
#include "quads.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
// "72'-1 5/16""" as it stands in the table, in inches.
double read_printed(const std::string& text) {
    const std::size_t foot = text.find('\'');
    double total = 12.0 * std::stod(text.substr(0, foot));
    const std::string rest = text.substr(foot + 2, text.find('"') - foot - 2);
    total += std::stod(rest);
    const std::size_t space = rest.find(' ');
    if (space != std::string::npos) {
        const std::size_t slash = rest.find('/');
        total += std::stod(rest.substr(space + 1)) / std::stod(rest.substr(slash + 1));
    }
    return total;
}
double arc_minutes(Angle angle) { return degrees(angle) * 60.0; }

// A parallelogram on `along` with sides of length `up` whose top stands `lean` to the right.
Parallelogram leaning(double along, double up, double lean) {
    const double height = std::sqrt(up * up - lean * lean);
    return Parallelogram{one_inch * along, one_inch * up, one_inch * std::hypot(along + lean, height),
                         one_inch * std::hypot(along - lean, height)};
}
}  // namespace

TEST_CASE("every row of the table of diagonals is reproduced") {
    for (const TableRow& row : read_table("diagonals_out_of_square.csv")) {
        const Length a = Length::from_feet(std::stod(row.at("a_ft")));
        const Length b = Length::from_feet(std::stod(row.at("b_ft")));
        CAPTURE(row.at("a_ft"));
        CAPTURE(row.at("b_ft"));
        CHECK(std::fabs(feet(diagonal(a, b)) - std::stod(row.at("diagonal_ft"))) < 0.5e-8);
        CHECK(inches(round_to_tick(diagonal(a, b), Tick::of_inch(16))) == read_printed(row.at("diagonal_ft_in_16th")));
        const Lean lean = lean_from_difference(a, b, 1_in / 8);
        CHECK(std::fabs(arc_minutes(lean.corner_error) - std::stod(row.at("corner_error_arcmin_for_1/8in_diag_diff"))) <
              0.51e-6);
        CHECK(std::fabs(inches(lean.of_up) - std::stod(row.at("lean_over_side_b_in"))) < 0.51e-6);
        CHECK(std::fabs(inches(lean.of_along) - std::stod(row.at("lean_over_side_a_in"))) < 0.51e-6);
    }
}

TEST_CASE("whole triples have whole diagonals, exactly") {
    // 3-4-5, 5-12-13, 8-15-17, 7-24-25, 20-21-29: integer identities.
    const double triples[][3] = {{3, 4, 5}, {5, 12, 13}, {8, 15, 17}, {7, 24, 25}, {20, 21, 29}};
    for (const auto& t : triples) {
        for (int times = 1; times <= 40; ++times) {
            CHECK(diagonal(Length::from_feet(t[0] * times), Length::from_feet(t[1] * times)) ==
                  Length::from_feet(t[2] * times));
        }
    }
}

TEST_CASE("40 by 60 ft with diagonals 1/8 in apart") {
    // Derived from d1^2 - d2^2 = 4ab sin e at 25 digits: 0.537976 arc minutes, 0.112673 in over 60 ft,
    // 0.075116 in over 40 ft.
    const Lean lean = lean_from_difference(40_ft, 60_ft, 1_in / 8);
    CHECK(std::fabs(arc_minutes(lean.corner_error) - 0.537976) < 0.51e-6);
    CHECK(std::fabs(inches(lean.of_up) - 0.112673) < 0.51e-6);
    CHECK(std::fabs(inches(lean.of_along) - 0.075116) < 0.51e-6);
}

TEST_CASE("printed diagonals of post layouts") {
    // squaring_rules.csv: "50 x 84 ft 97.754795 ft = 97-9 1/16", "24 x 32 ft 40".
    CHECK(std::fabs(feet(diagonal(50_ft, 84_ft)) - 97.754795) < 0.51e-6);
    CHECK(round_to_tick(diagonal(50_ft, 84_ft), Tick::of_inch(16)) == 97_ft + 9_in + 1_in / 16);
    CHECK(diagonal(24_ft, 32_ft) == 40_ft);
    // 16 x 24 ft is printed 28'-10" in its source; exact is 28'-10 1/8". The printed value must not come out.
    CHECK(round_to_tick(diagonal(16_ft, 24_ft), Tick::of_inch(16)) == 28_ft + 10_in + 1_in / 8);
    CHECK(round_to_tick(diagonal(16_ft, 24_ft), Tick::of_inch(16)) != 28_ft + 10_in);
    // Roof plane of 60 ft by 20 ft run at 4 in 12: 63.59594676 ft.
    int found = 0;
    for (const TableRow& row : read_table("squaring_rules.csv")) {
        if (row.at("item").rfind("roof plane 60 ft", 0) == 0) {
            const Length rafter = 20_ft * (std::sqrt(160.0) / 12.0);
            CHECK(std::fabs(feet(diagonal(60_ft, rafter)) - std::stod(row.at("value"))) < 0.51e-8);
            ++found;
        }
    }
    CHECK(found == 1);
}

TEST_CASE("half an inch on the 20 ft diagonal of 12 by 16 ft is 5/8 in of lean, not 3/8") {
    // A published remark calls 1/2 in on the 20 ft diagonal 3/8 in over 12 ft. Law of cosines:
    // (240.5^2 - 240^2) / (2 * 192) = 240.25 / 384 = 0.625651 in over the 12 ft side.
    const Lean lean = lean_from_triangle(16_ft, 12_ft, 20_ft + 1_in / 2);
    CHECK(std::fabs(inches(lean.of_up) - 240.25 / 384.0) < 1e-12);
    CHECK(inches(lean.of_up) > 0.6);
    CHECK(std::fabs(lean.sine - 240.25 / 384.0 / 144.0) < 1e-15);
    CHECK(lean_from_triangle(3_ft, 4_ft, 5_ft).of_up == no_length);
    CHECK(lean_from_triangle(16_ft, 12_ft, 20_ft - 1_in / 2).of_up < no_length);
}

TEST_CASE("a parallelogram built with a known lean gives it back") {
    for (const double along : {120.0, 480.0, 744.0}) {
        for (const double up : {96.0, 246.0, 720.0}) {
            for (const double s : {-40.0, -1.0, -0.0625, 0.0, 0.0625, 3.0, 90.0}) {
                CAPTURE(along);
                CAPTURE(up);
                CAPTURE(s);
                const Parallelogram figure = leaning(along, up, s);
                const Lean lean = lean_of(figure);
                CHECK(std::fabs(inches(lean.of_up) - s) < 1e-9);
                CHECK(std::fabs(lean.sine - s / up) < 1e-12);
                CHECK(std::fabs(radians(lean.corner_error) - std::asin(s / up)) < 1e-12);
                CHECK(std::fabs(inches(lean.of_along) - s / up * along) < 1e-9);
                CHECK(std::fabs(inches(lean.closure)) < 1e-9);
                const Length read = figure.up_right - figure.up_left;
                CHECK(off_by(lean_from_difference(figure.along, figure.up, read).of_up, one_inch * s) < 1e-9);
                CHECK(off_by(difference_from_lean(figure.along, figure.up, one_inch * s), read) < 1e-9);
                CHECK(off_by(lean_from_triangle(figure.along, figure.up, figure.up_right).of_up, one_inch * s) < 1e-9);
            }
        }
    }
}

TEST_CASE("the closure shows a reading error that the lean does not") {
    Parallelogram figure = leaning(480.0, 720.0, 0.5);
    figure.up_right += 1_in;
    figure.up_left += 1_in;
    const Lean lean = lean_of(figure);
    CHECK(std::fabs(inches(lean.closure) - 1.0) < 1e-3);  // both diagonals an inch long: their mean is, too
    CHECK(std::fabs(inches(lean.of_up) - 0.5) < 1e-3);
}

TEST_CASE("the trapezoid has equal diagonals, so the diagonals alone call it square") {
    // 22 ft carport, one side 2 in longer (squaring_rules.csv, "equal diagonals but one side longer by").
    const Length d = one_inch * std::hypot(265.0, std::sqrt(264.0 * 264.0 - 1.0));
    CHECK(lean_of({264_in, 264_in, d, d}).of_up == no_length);
    CHECK(inches(lean_of({264_in, 264_in, d, d}).closure) > 0.5);  // only the closure shows that something is amiss
}

TEST_CASE("leans mirror, and scale with the figure") {
    const Lean right = lean_of(leaning(480.0, 720.0, 2.0));
    const Lean left = lean_of(leaning(480.0, 720.0, -2.0));
    CHECK(right.of_up == -left.of_up);
    const Lean twice = lean_from_difference(80_ft, 120_ft, 1_in / 4);
    const Lean once = lean_from_difference(40_ft, 60_ft, 1_in / 8);
    CHECK(twice.of_up == once.of_up * 2.0);
    CHECK(twice.sine == once.sine);
}

TEST_CASE("what diagonals refuse") {
    const Length nan = one_inch * std::numeric_limits<double>::quiet_NaN();
    CHECK(fault_of([] { (void)diagonal(no_length, 1_ft); }).code == FaultCode::out_of_range);
    CHECK(fault_of([] { (void)diagonal(no_length, 1_ft); }).path == "along");
    CHECK(fault_of([&] { (void)diagonal(1_ft, nan); }).code == FaultCode::not_finite);
    CHECK(fault_of([&] { (void)diagonal(1_ft, nan); }).path == "up");
    const Fault flat = fault_of([] { (void)lean_of({10_ft, 10_ft, 25_ft, 1_ft}); });
    CHECK(flat.code == FaultCode::contradiction);
    CHECK(flat.path == "parallelogram.up_right");
    CHECK(fault_of([] { (void)lean_from_difference(10_ft, 4_ft, 8_ft); }).code == FaultCode::contradiction);
    CHECK(fault_of([&] { (void)lean_from_difference(10_ft, 4_ft, nan); }).path == "difference");
    CHECK(fault_of([] { (void)lean_from_triangle(10_ft, 4_ft, 14_ft); }).code == FaultCode::contradiction);
    CHECK(fault_of([&] { (void)lean_from_triangle(10_ft, 4_ft, nan); }).path == "up_right");
    CHECK(fault_of([] { (void)difference_from_lean(10_ft, 4_ft, 4_ft); }).path == "lean");
    CHECK(check(Parallelogram{no_length, nan, -1_ft, 1_ft}).size() == 3);
}
