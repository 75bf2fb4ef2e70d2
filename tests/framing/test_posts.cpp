// SPDX-License-Identifier: BSL-1.0

// Posts: heels, cut-offs, notches, ridge posts and posts under any plane.

#include <eavewright/framing/posts.hpp>
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
EavePost four_in_12() {
    return {.pitch = Pitch::in_12(4),
            .height = AtBearing{12_ft},
            .heel = 6_in,
            .depth = 5.5_in,
            .width = 5.5_in,
            .let_in_thickness = 1.5_in,
            .foot = -4_ft};
}
}  // namespace

TEST_CASE("truss heels of the printed table") {
    for (const TableRow& row : read_table("truss_heel_heights.csv")) {
        const Length heel =
            truss_heel(Pitch::in_12(std::stod(row.at("rise_in_12"))), one_inch * std::stod(row.at("depth_in")),
                       one_inch * std::stod(row.at("butt_cut_in")));
        check_cell(row, "computed_in", inches(heel));
        // The printed copy holds sixteenths, within 1/32 in of the formula.
        CHECK(std::fabs(inches(heel) - std::stod(row.at("printed_decimal"))) <= 1.0 / 32.0);
    }
    // 2x4 at 4 in 12 with 1/4 in of butt: 3 15/16 in (SBCA, Raised Heels); at 3 in 12 printed as
    // 3.857, exact 3.8577.
    CHECK(round_to_tick(truss_heel(Pitch::in_12(4), 3.5_in, 0.25_in), Tick::of_inch(16)) == 3.9375_in);
    CHECK(std::fabs(inches(truss_heel(Pitch::in_12(3), 3.5_in, 0.25_in)) - 3.8577) < 0.51e-4);
    CHECK(refusal_of([] { (void)truss_heel(Pitch::in_12(3), 3.5_in, -1_in); }).path == "butt");
}

TEST_CASE("a post that a truss is let into, worked by hand") {
    // Seat at 12 ft, heel 6 in: cut off at 12 ft 6 in outside, 5.5 x 4 / 12 = 1.8333 in higher inside.
    EavePost in = four_in_12();
    const EavePostFigures level = eave_post(in);
    CHECK(level.chord_line == 150_in);
    CHECK(level.cut_off_outer == 150_in);
    CHECK(level.cut_off_inner == 150_in);
    CHECK(level.notch_bottom == 144_in);
    CHECK(level.notch_height == 6_in);
    CHECK(level.notch_depth == 1.5_in);
    CHECK(level.wood_left == 4_in);
    CHECK(level.length == 198_in);
    in.top = PostTop::sloped;
    CHECK(std::fabs(inches(eave_post(in).cut_off_inner) - 151.833333) < 0.51e-6);
    CHECK(std::fabs(inches(eave_post(in).length) - 199.833333) < 0.51e-6);
    in.clearance = 0.5_in;
    CHECK(eave_post(in).cut_off_outer == 149.5_in);
    // The chord line known instead of the seat: the same post.
    EavePost other = four_in_12();
    other.height = AtChordLine{150_in};
    CHECK(eave_post(other).bearing == 144_in);
    CHECK(eave_post(other).cut_off_outer == level.cut_off_outer);
}

TEST_CASE("a carrier under the truss, let into the face or on top") {
    EavePost in = four_in_12();
    in.seat = PostSeat::carrier_in_face;
    in.carrier_depth = 11.25_in;
    in.depth = 7.25_in;
    const EavePostFigures face = eave_post(in);
    CHECK(face.notch_bottom == 132.75_in);
    CHECK(face.notch_height == 17.25_in);
    CHECK(face.wood_left == 5.75_in);
    in.seat = PostSeat::on_top;
    in.let_in_thickness = no_length;
    in.top = PostTop::sloped;
    const EavePostFigures top = eave_post(in);
    CHECK(top.cut_off_outer == 132.75_in);
    CHECK(top.cut_off_inner == 132.75_in);  // a carrier lies level
    CHECK(top.notch_height == no_length);
}

TEST_CASE("notch and length rules as printed") {
    // Trade column: a notch of d/6 in a 5 1/2 in post, printed 7/8 in; exact 0.9167, rounded down.
    EavePost in = four_in_12();
    CHECK(round_down_to_tick(eave_post(in).notch_limit, Tick::of_inch(8)) == 0.875_in);
    CHECK(!eave_post(in).notch_within_limit);
    in.let_in_thickness = 0.875_in;
    CHECK(eave_post(in).notch_within_limit);
    // Ecker and Flanders: embedment 4 ft, eave 12 ft and 1 ft more: a 17 ft pole.
    in.heel = no_length;
    CHECK(eave_post(in).stock_length == 17_ft);
}

TEST_CASE("a ridge post with and without its beam") {
    RidgePost in{
        .pitch_a = Pitch::in_12(4), .pitch_b = Pitch::in_12(6), .ridge_height = 20_ft, .depth = 6_in, .foot = -4_ft};
    const RidgePostFigures alone = ridge_post(in);
    CHECK(alone.cut_off == 20_ft);
    CHECK(alone.cut_off_a == 20_ft - 1_in);
    CHECK(alone.cut_off_b == 20_ft - 1.5_in);
    CHECK(alone.length == 24_ft);
    // A 3 in beam: the steeper side's arris is 1.5 x 6 / 12 under the ridge.
    in.beam_thickness = 3_in;
    in.beam_depth = 11.25_in;
    const RidgePostFigures beam = ridge_post(in);
    CHECK(beam.beam_top == 20_ft - 0.75_in);
    CHECK(beam.cut_off == 20_ft - 12_in);
    CHECK(beam.cut_off_a == beam.cut_off);
    CHECK(beam.stock_length == 24_ft);
}

TEST_CASE("posts along a gable wall step by the pitch") {
    // 6 in 12 along x: 16 in apart is 8 in (gable studs have the same difference).
    const auto at = [](Length x) {
        return post_under({.plane = {.at = {no_length, no_length}, .height = 10_ft, .rise_x = 0.5, .rise_y = 0.0},
                           .middle = {x, no_length},
                           .size_x = 6_in,
                           .depth = 6_in,
                           .foot = no_length,
                           .below = 8_in});
    };
    check_example("R48", inches(at(32_in).cut_off - at(16_in).cut_off));
    CHECK(at(16_in).plane_height == 128_in);
    CHECK(std::fabs(inches(at(16_in).cut_off) - (128.0 - 8.0 * std::sqrt(1.25))) < 1e-12);
    CHECK(off_by(at(16_in).highest - at(16_in).lowest, 3_in) < 1e-12);
    CHECK(at(16_in).length == at(16_in).highest);
}

TEST_CASE("a post under a plane fits under all its corners") {
    SeededNumbers numbers{461};
    for (int i = 0; i < sweep(5000); ++i) {
        const HeightPlane plane{.at = {numbers.inches_between(-500, 500), numbers.inches_between(-500, 500)},
                                .height = numbers.inches_between(1000, 2000),
                                .rise_x = numbers.between(-0.5, 0.5),
                                .rise_y = numbers.between(-0.5, 0.5)};
        const PostUnderPlane in{.plane = plane,
                                .middle = {numbers.inches_between(-300, 300), numbers.inches_between(-300, 300)},
                                .size_x = numbers.inches_between(3, 12),
                                .depth = numbers.inches_between(3, 12),
                                .foot = numbers.inches_between(-60, 0),
                                .below = numbers.inches_between(0, 12)};
        const PostUnderPlaneFigures post = post_under(in);
        double lowest = 1e9;
        double highest = -1e9;
        for (const double x : {-0.5, 0.5}) {
            for (const double y : {-0.5, 0.5}) {
                const GroundPoint corner{in.middle.x + in.size_x * x, in.middle.y + in.depth * y};
                // The foot of the square from the roof down to this height lies `below` under the plane.
                const double z =
                    inches(height_over(plane, corner)) - inches(in.below) * size_of({plane.rise_x, plane.rise_y, 1.0});
                lowest = z < lowest ? z : lowest;
                highest = z > highest ? z : highest;
            }
        }
        CHECK(std::fabs(inches(post.lowest) - lowest) < 1e-9);
        CHECK(std::fabs(inches(post.highest) - highest) < 1e-9);
        CHECK(off_by(post.length, post.highest - in.foot) < 1e-9);
    }
}

TEST_CASE("an eave post reaches the chord line of the shape that it carries") {
    SeededNumbers numbers{462};
    for (int i = 0; i < sweep(1000); ++i) {
        EavePost in = four_in_12();
        in.pitch = Pitch::in_12(numbers.between(0.0, 20.0));
        in.heel = numbers.inches_between(3, 20);
        in.height = AtBearing{numbers.inches_between(90, 300)};
        in.top = PostTop::sloped;
        const Length width = numbers.inches_between(200, 900);
        const RoofShape shape = gable({.width = width,
                                       .length = 40_ft,
                                       .pitch = in.pitch,
                                       .eave_overhang = 12_in,
                                       .rake_overhang = no_length,
                                       .build_up = {no_length},
                                       .bearing_height = std::get<AtBearing>(in.height).height,
                                       .heel = in.heel});
        const EavePostFigures post = eave_post(in);
        CHECK(off_by(post.cut_off_outer, shape.heights.chord_at_wall) < 1e-9);
        CHECK(off_by(post.cut_off_inner, shape.heights.chord_at_wall + in.pitch.rise_over(in.depth)) < 1e-9);
    }
}

TEST_CASE("posts that are refused, and written") {
    const auto refused = [](auto change) {
        EavePost in = four_in_12();
        change(in);
        return refusal_of([&] { (void)eave_post(in); });
    };
    CHECK(refused([](EavePost&) {}).path == "no fault");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused([&](EavePost& in) { in.height = AtChordLine{none}; }).path == "post.height");
        CHECK(refused([&](EavePost& in) { in.heel = none; }).path == "post.heel");
        CHECK(refused([&](EavePost& in) { in.foot = none; }).path == "post.foot");
    }
    CHECK(refused([](EavePost& in) { in.foot = 13_ft; }).code == FaultCode::does_not_fit);
    CHECK(refused([](EavePost& in) { in.let_in_thickness = 6_in; }).path == "post.let_in_thickness");
    CHECK(refused([](EavePost& in) { in.seat = PostSeat::on_top; }).code == FaultCode::contradiction);
    CHECK(refused([](EavePost& in) { in.clearance = 7_in; }).path == "post.clearance");
    CHECK(refused([](EavePost& in) { in.notch_share = 0.0; }).path == "post.notch_share");
    CHECK(refusal_of([] {
              (void)ridge_post({.pitch_a = Pitch::in_12(4),
                                .pitch_b = Pitch::in_12(4),
                                .ridge_height = 3_ft,
                                .depth = 6_in,
                                .foot = 3_ft});
          }).path == "post.foot");
    PostUnderPlane under{.plane = {.at = {no_length, no_length}, .height = 10_ft, .rise_x = 0.5, .rise_y = 0.0},
                         .middle = {no_length, no_length},
                         .size_x = 6_in,
                         .depth = 6_in,
                         .foot = 11_ft};
    CHECK(refusal_of([&] { (void)post_under(under); }).path == "post.foot");
    under.plane.rise_x = std::nan("");
    CHECK(refusal_of([&] { (void)post_under(under); }).code == FaultCode::not_finite);
    CHECK(write_json(eave_post(four_in_12()), LengthUnit::inches).find("\"notch_within_limit\": false") !=
          std::string::npos);
}
