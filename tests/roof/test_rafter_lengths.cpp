// SPDX-License-Identifier: BSL-1.0

// Line lengths of common rafters against printed worked examples, those with known errors beside the exact value.

#include <eavewright/roof/shape.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>

#include "support/printing.hpp"
#include "support/table.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
GableRoof plain_gable(Length width, Pitch pitch, Length overhang = no_length) {
    return GableRoof{.width = width,
                     .length = 60_ft,
                     .pitch = pitch,
                     .eave_overhang = overhang,
                     .rake_overhang = no_length,
                     .build_up = {no_length},
                     .bearing_height = no_length,
                     .heel = no_length,
                     .fascia_thickness = no_length};
}
SingleSlopeRoof plain_shed(Length width, Pitch pitch, Length overhang) {
    return SingleSlopeRoof{.width = width,
                           .length = 20_ft,
                           .pitch = pitch,
                           .eave_overhang = overhang,
                           .high_overhang = overhang,
                           .rake_overhang = no_length,
                           .build_up = {no_length},
                           .bearing_height = no_length,
                           .heel = no_length,
                           .fascia_thickness = no_length};
}
/// Line length of the rafter over half of `width`.
Length line_length(Length width, Pitch pitch) { return gable(plain_gable(width, pitch)).slopes[0].chord_length; }

void check_row(const std::string& id, Length found) {
    for (const TableRow& row : read_table("rafter_worked_examples.csv")) {
        if (row.at("id") == id) {
            CAPTURE(id);
            CHECK(std::fabs(inches(found) - std::stod(row.at("exact_value"))) < 0.51e-6);
            return;
        }
    }
    FAIL("no row " << id);
}
Length nearest_16th(Length length) { return round_to_tick(length, Tick::of_inch(16)); }
}  // namespace

TEST_CASE("common rafters of the worked examples") {
    check_row("R1", line_length(16_ft, Pitch::in_12(7)));
    CHECK(nearest_16th(line_length(16_ft, Pitch::in_12(7))) == 9_ft + 3.125_in);
    check_row("R2", line_length(25_ft, Pitch::in_12(6)));
    check_row("R14", line_length(24_in, Pitch::in_12(16)));
    CHECK(line_length(24_in, Pitch::in_12(16)) == 20_in);  // 3-4-5, without rounding
    check_row("R30", line_length(22.5_ft, Pitch::in_12(6)));
    check_row("R32", line_length(20_ft, Pitch::in_12(10)));
    check_row("R24", line_length(24_ft, Pitch::from_rise_and_run(10_ft, 12_ft)));
    check_row("R25", line_length(32_ft, Pitch::from_rise_and_run(10_ft, 16_ft)));
    // R45, R46: the run of a shed ends at the inner side of the high wall's 3 1/2 in plate.
    check_row("R46", single_slope(plain_shed(12_ft - 3.5_in, Pitch::in_12(4), no_length)).slopes[0].chord_length);
}

TEST_CASE("a rafter with its tail is line length and tail together") {
    const Slope slope = gable(plain_gable(11.5_ft, Pitch::in_12(8), 10_in)).slopes[0];
    check_row("R4", slope.tail_length);
    check_row("R3", slope.chord_length - slope.tail_length);
}

TEST_CASE("printed answers that are off, beside the exact ones") {
    // R13 (EN5156): printed 15 ft 3 in, from 17.69 x 10 1/3; exact 182.815329 in = 15 ft 2 13/16 in.
    const Length r13 = line_length(20_ft + 8_in, Pitch::in_12(13));
    check_row("R13", r13);
    CHECK(nearest_16th(r13) == 15_ft + 2.8125_in);
    CHECK(nearest_16th(r13) != 15_ft + 3_in);
    // R2: 13.42 x 12.5 gives 13 ft 11 3/4 in by the method shown; exact 167.705098 in = 13 ft 11 11/16 in.
    CHECK(nearest_16th(line_length(25_ft, Pitch::in_12(6))) == 13_ft + 11.6875_in);
}

TEST_CASE("36 ft wide at 4 in 12") {
    // Trade column: 18 x 1.0541 = 18.9738 ft = 18'-11 11/16"; exact 18.97367 ft.
    const Length length = line_length(36_ft, Pitch::in_12(4));
    CHECK(std::fabs(feet(length) - 18.97367) < 0.51e-5);
    CHECK(nearest_16th(length) == 18_ft + 11.6875_in);
    // Same column: factor 1.0457 at 3.67 in 12; exact 1.04572.
    CHECK(std::fabs(Pitch::in_12(3.67).slope_factor() - 1.04572) < 0.51e-5);
}

TEST_CASE("a shed of 8 ft run and 1 ft rise, overhangs along the slope or level") {
    // Printed 8.062 ft, and 11.562 ft with 1.75 ft twice along the slope; level overhangs give 11.5 x 1.00778 = 11.589.
    const Pitch pitch = Pitch::from_rise_and_run(1_ft, 8_ft);
    const auto length = [&](Length overhang) {
        return feet(single_slope(plain_shed(8_ft, pitch, overhang)).slopes[0].chord_length);
    };
    CHECK(std::fabs(length(no_length) - 8.0623) < 0.51e-4);
    CHECK(std::fabs(length(21_in) - 11.589) < 0.51e-3);
    CHECK(std::fabs(length(21_in * pitch.cosine()) - 11.5623) < 0.51e-4);
}

TEST_CASE("roof plane of 60 by 40 ft at 4 in 12") {
    // Derived: slope 21.0819 ft, diagonal 63.5959 ft.
    const Slope slope = gable(plain_gable(40_ft, Pitch::in_12(4))).slopes[0];
    const PlanePoint top = slope.chord.outline[2];
    CHECK(std::fabs(feet(top.up) - 21.0819) < 0.51e-4);
    CHECK(std::fabs(feet(hypotenuse(top.along, top.up)) - 63.5959) < 0.51e-4);
}
