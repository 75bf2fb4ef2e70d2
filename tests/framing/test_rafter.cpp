// SPDX-License-Identifier: BSL-1.0

// Common rafters: the framing square's first line, worked examples, seats, ridge, tail and fascia.

#include <eavewright/framing/rafter.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"
#include "support/table.hpp"

#include "member_checks.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
CommonRafter plain(Pitch pitch, Length run) {
    return {.pitch = pitch,
            .run = run,
            .overhang = no_length,
            .depth = 5.5_in,
            .plate_width = 3.5_in,
            .ridge_thickness = no_length,
            .fascia_thickness = no_length};
}
Length sixteenth(Length length) { return round_to_tick(length, Tick::of_inch(16)); }
}  // namespace

TEST_CASE("first line of the framing square, and printed copies of it") {
    for (const TableRow& row : read_table("rafter_square_table.csv")) {
        const RafterFigures rafter = common_rafter(plain(Pitch::in_12(std::stod(row.at("rise_in_per_12"))), 12_in));
        check_cell(row, "common_exact_in", inches(rafter.line_length));
        check_cell(row, "common_2dp_in", inches(rafter.line_length));
        if (!row.at("printed_common_in").empty()) {
            check_cell(row, "printed_common_in", inches(rafter.line_length));
        }
    }
}

TEST_CASE("worked examples of common rafters") {
    check_example("R1", inches(common_rafter(plain(Pitch::in_12(7), 8_ft)).line_length));
    check_example("R2", inches(common_rafter(plain(Pitch::in_12(6), 12.5_ft)).line_length));
    CommonRafter stepped = plain(Pitch::in_12(8), 69_in);
    stepped.overhang = 10_in;
    check_example("R3", inches(common_rafter(stepped).line_length));
    check_example("R4", inches(common_rafter(stepped).tail_length));
    check_example("R13", inches(common_rafter(plain(Pitch::in_12(13), 10_ft + 4_in)).line_length));
    check_example("R14", inches(common_rafter(plain(Pitch::in_12(16), 12_in)).line_length));
    check_example("R24", inches(common_rafter(plain(Pitch::from_rise_and_run(10_ft, 12_ft), 12_ft)).line_length));
    check_example("R25", inches(common_rafter(plain(Pitch::from_rise_and_run(10_ft, 16_ft), 16_ft)).line_length));
    check_example("R30", inches(common_rafter(plain(Pitch::in_12(6), 11_ft + 3_in)).line_length));
    check_example("R32", inches(common_rafter(plain(Pitch::in_12(10), 10_ft)).line_length));
    // A shed's run ends at the inner side of the higher wall's plate.
    check_example("R45", inches(12_ft - 3.5_in));
    check_example("R46", inches(common_rafter(plain(Pitch::in_12(4), 12_ft - 3.5_in)).line_length));
    CommonRafter ridged = plain(Pitch::in_12(6), 10_ft);
    ridged.ridge_thickness = 1.5_in;
    check_example("R36", inches(common_rafter(ridged).ridge_deduction_along));
    CHECK(common_rafter(ridged).ridge_deduction == 0.75_in);
}

TEST_CASE("birdsmouths, plumb cuts and heights above plate") {
    const auto rafter = [](double rise, Length depth, Length plate) {
        CommonRafter in = plain(Pitch::in_12(rise), 10_ft);
        in.depth = depth;
        in.plate_width = plate;
        in.notch_share = 0.5;  // the examples ask for the seat as given
        return common_rafter(in);
    };
    check_example("B4-3.5", inches(rafter(4, 9.25_in, 3.5_in).birdsmouth.heel_cut));
    check_example("B6-3.5", inches(rafter(6, 9.25_in, 3.5_in).birdsmouth.heel_cut));
    check_example("B8-3.5", inches(rafter(8, 9.25_in, 3.5_in).birdsmouth.heel_cut));
    check_example("B12-3.5", inches(rafter(12, 9.25_in, 3.5_in).birdsmouth.heel_cut));
    check_example("B4-5.5", inches(rafter(4, 9.25_in, 5.5_in).birdsmouth.heel_cut));
    check_example("B6-5.5", inches(rafter(6, 9.25_in, 5.5_in).birdsmouth.heel_cut));
    check_example("P4-5.5", inches(rafter(4, 5.5_in, 3.5_in).plumb_depth));
    check_example("P4-7.25", inches(rafter(4, 7.25_in, 3.5_in).plumb_depth));
    check_example("P6-7.25", inches(rafter(6, 7.25_in, 3.5_in).plumb_depth));
    check_example("P8-9.25", inches(rafter(8, 9.25_in, 3.5_in).plumb_depth));
    check_example("H4-5.5-3.5", inches(rafter(4, 5.5_in, 3.5_in).height_above_plate));
    check_example("H6-7.25-3.5", inches(rafter(6, 7.25_in, 3.5_in).height_above_plate));
    check_example("H8-9.25-3.5", inches(rafter(8, 9.25_in, 3.5_in).height_above_plate));
}

TEST_CASE("longest seat within a quarter of the depth") {
    for (const TableRow& row : read_table("rafter_notch_limits.csv")) {
        const Length depth = one_inch * std::stod(row.at("depth_in"));
        const Birdsmouth seat = birdsmouth(Pitch::in_12(std::stod(row.at("rise_in_12"))), depth, 24_in);
        check_cell(row, "end_notch_d4", inches(seat.notch_limit));
        check_cell(row, "max_seat_in", inches(seat.seat));
        check_cell(row, "plumb_height_of_notch_in", inches(seat.heel_cut));
        CHECK(off_by(seat.notch_depth, seat.notch_limit) < 1e-12);
        CHECK(!seat.covers_plate);
        check_cell(row, "field_notch_d6", inches(birdsmouth(Pitch::in_12(4), depth, 24_in, 1.0 / 6.0).notch_limit));
    }
    // Two published answers for a 2x12 (JLC, Sizing the Birdsmouth): 8 7/8 in at 4 in 12 and 4 in at 12 in 12.
    CHECK(std::fabs(inches(birdsmouth(Pitch::in_12(4), 11.25_in, 24_in).seat) - 8.875) < 1.0 / 32.0);
    CHECK(std::fabs(inches(birdsmouth(Pitch::in_12(12), 11.25_in, 24_in).seat) - 4.0) < 1.0 / 32.0);
    // A seat that the limit allows is as wide as the plate; a level rafter has no limit and no notch.
    CHECK(birdsmouth(Pitch::in_12(4), 11.25_in, 5.5_in).seat == 5.5_in);
    CHECK(birdsmouth(Pitch::in_12(4), 11.25_in, 5.5_in).covers_plate);
    const Birdsmouth level = birdsmouth(Pitch::in_12(0), 5.5_in, 5.5_in);
    CHECK(!level.seat_limit);
    CHECK(level.notch_depth == no_length);
    CHECK(level.covers_plate);
}

TEST_CASE("a 3-4-5 rafter worked by hand") {
    // 9 in 12 over 8 ft: line 120 in. 1 1/2 in ridge: 3/4 in level, 15/16 along. 12 in overhang: 15 in, less a plumb
    // fascia of 1 1/2 x 5/4 = 1 7/8: 13 1/8. Cut 120 - 15/16 + 13 1/8 = 132 3/16; 5 1/2 deep, blank 5 1/2 x 3/4 = 4
    // 1/8 longer.
    const RafterFigures rafter = common_rafter(
        {.pitch = Pitch::in_12(9), .run = 8_ft, .overhang = 12_in, .depth = 5.5_in, .plate_width = 3.5_in});
    CHECK(rafter.line_length == 120_in);
    CHECK(rafter.ridge_deduction_along == 0.9375_in);
    CHECK(rafter.tail_length == 13.125_in);
    CHECK(rafter.cut_length == 132.1875_in);
    CHECK(rafter.blank_length == 136.3125_in);
    // Cut square at the tail, 13.5 in of it, both edges end together there: the blank is no longer than the cut.
    const RafterFigures square = common_rafter({.pitch = Pitch::in_12(9),
                                                .run = 8_ft,
                                                .overhang = 12_in,
                                                .depth = 5.5_in,
                                                .plate_width = 3.5_in,
                                                .tail = TailCut::square});
    CHECK(square.tail_length == 13.5_in);
    CHECK(square.blank_length == square.cut_length);
    // The notch may take 1 3/8 square: seat 1.375 x 5/3 = 2.29167, heel cut 1.71875; 6.875 - 1.71875 = 5.15625 over it.
    CHECK(off_by(rafter.birdsmouth.seat, 2.2916666666666667_in) < 1e-12);
    CHECK(off_by(rafter.height_above_plate, 5.15625_in) < 1e-12);
    CHECK(off_by(rafter.ridge_height, 5.15625_in + 72_in) < 1e-12);
    CHECK(off_by(rafter.ridge_board_top, 5.15625_in + 72_in - 0.5625_in) < 1e-12);
    CHECK(off_by(rafter.fascia_drop, 1.125_in) < 1e-12);
    CHECK(*rafter.plumb_cut.in_12() == 9.0);
    CHECK(std::fabs(degrees(rafter.plumb_cut.angle()) - 36.869897645844) < 1e-9);
    CHECK(std::fabs(degrees(rafter.seat_cut.complement().angle()) - 53.130102354156) < 1e-9);
}

TEST_CASE("the fascia's corner touches the deck's plane, whichever way it stands") {
    SeededNumbers numbers{401};
    for (int i = 0; i < sweep(2000); ++i) {
        const bool plumb = numbers.coin();
        const CommonRafter in{.pitch = Pitch::in_12(numbers.between(0.0, 24.0)),
                              .run = numbers.inches_between(60, 400),
                              .overhang = numbers.inches_between(6, 36),
                              .depth = numbers.inches_between(3.5, 14),
                              .plate_width = numbers.inches_between(0, 8),
                              .tail = plumb ? TailCut::plumb : TailCut::square,
                              .fascia_thickness = numbers.inches_between(0.5, 3),
                              .purlin = numbers.inches_between(0, 4)};
        const RafterFigures rafter = common_rafter(in);
        const double t = in.pitch.rise_per_run();
        const double s = in.pitch.sine();
        const double c = in.pitch.cosine();
        // The rafter's top corner at its tail, and from it the fascia's outer top corner, in level and plumb inches.
        const double end = inches(in.overhang) - inches(rafter.behind_fascia) * c;
        const double tail_z = inches(rafter.height_above_plate) - end * t;
        const double thick = inches(in.fascia_thickness);
        const double drop = inches(rafter.fascia_drop);
        const double x = end + (plumb ? thick : thick * c - drop * s);
        const double z = tail_z + (plumb ? -drop : -thick * s - drop * c);
        // The plane that the deck lies on: purlin tops, the purlin's depth above the rafter tops.
        const double plane = inches(rafter.height_above_plate) - x * t + inches(in.purlin) / c;
        CHECK(std::fabs(z - plane) < 1e-9);
        if (plumb) {
            CHECK(std::fabs(z - inches(rafter.fascia_top)) < 1e-9);
            CHECK(std::fabs(x - inches(in.overhang)) < 1e-9);
        }
    }
}

TEST_CASE("a rafter is the slope of the gable that it stands in") {
    SeededNumbers numbers{402};
    for (int i = 0; i < sweep(1000); ++i) {
        const CommonRafter in{.pitch = Pitch::in_12(numbers.between(0.5, 20.0)),
                              .run = numbers.inches_between(60, 400),
                              .overhang = numbers.inches_between(6, 36),
                              .depth = numbers.inches_between(3.5, 14),
                              .plate_width = 3.5_in,
                              .tail = numbers.coin() ? TailCut::plumb : TailCut::square,
                              .purlin = numbers.inches_between(0, 4)};
        const RafterFigures rafter = common_rafter(in);
        const RoofShape shape = gable({.width = in.run * 2.0,
                                       .length = 40_ft,
                                       .pitch = in.pitch,
                                       .eave_overhang = in.overhang,
                                       .rake_overhang = no_length,
                                       .build_up = {in.purlin},
                                       .bearing_height = no_length,
                                       .heel = rafter.height_above_plate,
                                       .tail = in.tail});
        CHECK(off_by(rafter.tail_length, shape.slopes[0].tail_length) < 1e-9);
        CHECK(off_by(rafter.cut_length + rafter.ridge_deduction_along, shape.slopes[0].chord_length) < 1e-9);
        CHECK(off_by(rafter.ridge_height, shape.heights.chord_peak) < 1e-9);
        CHECK(off_by(rafter.eave_height, shape.heights.chord_at_eave) < 1e-9);
        CHECK(off_by(rafter.fascia_top, shape.heights.fascia_top) < 1e-9);
    }
}

TEST_CASE("printed rafter figures that are off, beside the exact ones") {
    // EN5156: 15 ft 3 in from 17.69 x 10 1/3; exact 182.8153 in = 15 ft 2 13/16 in.
    CHECK(sixteenth(common_rafter(plain(Pitch::in_12(13), 124_in)).line_length) == 15_ft + 2.8125_in);
    // NAVEDTRA 14044 example 2: 13 ft 11 3/4 in from two decimals; exact 13 ft 11 11/16 in.
    CHECK(sixteenth(common_rafter(plain(Pitch::in_12(6), 12.5_ft)).line_length) == 13_ft + 11.6875_in);
    // An article on heels prints the cosine of 3 in 12 as 0.970126; exact 0.970143.
    CHECK(std::fabs(common_rafter(plain(Pitch::in_12(3), 8_ft)).plumb_cut.cosine() - 0.970143) < 0.51e-6);
}

TEST_CASE("rafters that are refused") {
    const auto refused = [](auto change) {
        CommonRafter in = plain(Pitch::in_12(6), 10_ft);
        in.overhang = 12_in;
        change(in);
        return refusal_of([&] { (void)common_rafter(in); });
    };
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused([&](CommonRafter& in) { in.run = none; }).path == "rafter.run");
        CHECK(refused([&](CommonRafter& in) { in.depth = none; }).path == "rafter.depth");
        CHECK(refused([&](CommonRafter& in) { in.purlin = none; }).path == "rafter.purlin");
    }
    CHECK(refused([](CommonRafter& in) { in.plate_width = -1_in; }).path == "rafter.plate_width");
    CHECK(refused([](CommonRafter& in) { in.notch_share = 0.0; }).code == FaultCode::out_of_range);
    CHECK(refused([](CommonRafter& in) { in.notch_share = std::nan(""); }).code == FaultCode::not_finite);
    CHECK(refused([](CommonRafter& in) { in.fascia_thickness = 13_in; }).code == FaultCode::does_not_fit);
    CHECK(refused([](CommonRafter& in) { in.pitch = Pitch::in_12(6000); }).path == "rafter.pitch");
    CHECK(refused([](CommonRafter& in) {
              in.run = 2_in;
              in.ridge_thickness = 5_in;
          }).path == "rafter.ridge_thickness");
    CHECK(refused([](CommonRafter&) {}).path == "no fault");
}

TEST_CASE("a rafter writes as JSON, every figure of it") {
    const std::string text = write_json(common_rafter(plain(Pitch::in_12(6), 10_ft)), LengthUnit::inches);
    CHECK(text.find("\"line_length\": 134.164") != std::string::npos);
    CHECK(text.find("\"in_12\": 6") != std::string::npos);
    CHECK(write_json(common_rafter(plain(Pitch::in_12(0), 10_ft)), LengthUnit::inches).find("\"seat_limit\": null") !=
          std::string::npos);
}
