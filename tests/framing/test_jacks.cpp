// SPDX-License-Identifier: BSL-1.0

// Jack rafters: printed tables and examples, and distances in space.

#include <eavewright/framing/jacks.hpp>
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
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
HipPlanes regular(double rise) { return {.pitch_a = Pitch::in_12(rise), .pitch_b = Pitch::in_12(rise)}; }
HipJacks plain(const HipPlanes& planes, Length run, Length spacing) {
    return {.planes = planes, .run = run, .spacing = spacing, .hip_thickness = no_length};
}
double deg(CutAngle cut) { return degrees(cut.angle()); }

/// Line lengths of neighbours one spacing apart differ by the common difference.
void check_differences(const JackSet& set, Length spacing) {
    for (std::size_t i = 1; i < set.jacks.size(); ++i) {
        const Jack& one = set.jacks[i - 1];
        const Jack& next = set.jacks[i];
        CHECK(off_by(next.at - one.at, spacing) < 1e-9);
        CHECK(std::fabs(inches(next.line_length - one.line_length - set.common_difference)) <
              1e-12 * (1.0 + inches(next.line_length)) * 100.0);
    }
}
}  // namespace

TEST_CASE("third, fourth and fifth line of the framing square") {
    for (const TableRow& row : read_table("rafter_square_table.csv")) {
        const HipPlanes planes = regular(std::stod(row.at("rise_in_per_12")));
        const JackSet at_16 = hip_jacks(plain(planes, 20_ft, 16_in));
        check_cell(row, "jackdiff16_exact_in", inches(at_16.common_difference));
        check_cell(row, "jackdiff16_2dp_in", inches(at_16.common_difference));
        check_cell(row, "jackdiff16_exact_in", inches(at_16.jacks.front().line_length));
        check_cell(row, "jackdiff24_exact_in", inches(hip_jacks(plain(planes, 20_ft, 24_in)).common_difference));
        check_cell(row, "jackdiff24_2dp_in", inches(hip_jacks(plain(planes, 20_ft, 24_in)).common_difference));
        check_cell(row, "sidecut_jack_exact_in_on_12", *at_16.side_cut.in_12());
        check_mark(row, "sidecut_jack_nearest_16th", *at_16.side_cut.in_12());
    }
}

TEST_CASE("jacks of regular and irregular hips, to the last printed digit") {
    for (const TableRow& row : read_table("regular_hip_angles.csv")) {
        const JackSet set = hip_jacks(plain(regular(std::stod(row.at("rise_in_per_12"))), 20_ft, 16_in));
        check_cell(row, "jack_side_cut_deg", deg(set.side_cut));
    }
    for (const TableRow& row : read_table("irregular_hip_angles.csv")) {
        const HipPlanes a{.pitch_a = Pitch::in_12(std::stod(row.at("riseA_in_per_12"))),
                          .pitch_b = Pitch::in_12(std::stod(row.at("riseB_in_per_12")))};
        check_cell(row, "jack_side_cut_A_deg", deg(hip_jacks(plain(a, 20_ft, 16_in)).side_cut));
        check_cell(row, "jack_side_cut_B_deg", deg(hip_jacks(plain(other_side(a), 20_ft, 16_in)).side_cut));
        check_cell(row, "jackdiff16_A_in", inches(hip_jacks(plain(a, 20_ft, 16_in)).common_difference));
        check_cell(row, "jackdiff16_B_in", inches(hip_jacks(plain(other_side(a), 20_ft, 16_in)).common_difference));
        check_cell(row, "jackdiff24_A_in", inches(hip_jacks(plain(a, 20_ft, 24_in)).common_difference));
        check_cell(row, "jackdiff24_B_in", inches(hip_jacks(plain(other_side(a), 20_ft, 24_in)).common_difference));
    }
}

TEST_CASE("worked examples of jacks") {
    const JackSet set = hip_jacks(plain(regular(8), 12_ft, 16_in));
    check_example("R10", inches(set.jacks[0].line_length));
    check_example("R10", inches(set.common_difference));
    CHECK(off_by(set.jacks[1].line_length, set.jacks[0].line_length * 2.0) < 1e-12);
    check_example("R11", inches(hip_jacks(plain(regular(8), 12_ft, 12_in)).common_difference));
    check_example("R12", *set.side_cut.in_12());
    HipJacks thick = plain(regular(8), 12_ft, 16_in);
    thick.hip_thickness = 1.5_in;
    check_example("R38", inches(hip_jacks(thick).head_deduction));
    const HipPlanes octagon{
        .pitch_a = Pitch::in_12(9), .pitch_b = Pitch::in_12(9), .corner = PlanCorner::from_degrees(135)};
    check_example("R41", deg(hip_jacks(plain(octagon, 12_ft, 16_in)).side_cut));
    // Gable studs stand a spacing times the pitch apart in height.
    check_example("R48", inches(Pitch::in_12(6).rise_over(16_in)));
}

TEST_CASE("known misprints of jacks, beside the exact figures") {
    // The Carpenter prints 15 3/16 in for 12 in spacing at 10 in 12; exact 15.6205 in = 15 5/8 in.
    const Length difference = hip_jacks(plain(regular(10), 10_ft, 12_in)).common_difference;
    check_example("R35", inches(difference));
    CHECK(round_to_tick(difference, Tick::of_inch(16)) == 15.625_in);
    // Some squares cut off instead of rounding (from memory): 17.88 at 6 in 12, 22.62 at 12; exact 17.8885 and 22.6274.
    CHECK(std::fabs(inches(hip_jacks(plain(regular(6), 10_ft, 16_in)).common_difference) - 17.8885) < 0.51e-4);
    CHECK(std::fabs(inches(hip_jacks(plain(regular(12), 10_ft, 16_in)).common_difference) - 22.6274) < 0.51e-4);
    // Squares are stamped 9 1/4 for the side cut at 10 in 12 (from memory); exact 9.2187, nearer to 9 3/16.
    const double side = *hip_jacks(plain(regular(10), 10_ft, 16_in)).side_cut.in_12();
    CHECK(round_to_tick(one_inch * side, Tick::of_inch(16)) == 9.1875_in);
}

TEST_CASE("jacks worked by hand") {
    // 9 in 12, run 8 ft, 2 ft apart, hip 1 1/2 in: jacks at 24, 48, 72 with runs alike (the one at 96 is the common);
    // lines 30, 60, 90 in. Half the hip at 45 deg is 1.0607 level, 1.3258 along. Tails of 12 in level add 15 in.
    HipJacks in{.planes = regular(9), .run = 8_ft, .spacing = 24_in, .tail_level = 12_in};
    const JackSet set = hip_jacks(in);
    REQUIRE(set.jacks.size() == 3);
    CHECK(set.jacks[2].at == 72_in);
    CHECK(off_by(set.jacks[2].line_length, 90_in) < 1e-12);
    CHECK(std::fabs(inches(set.jacks[0].cut_length) - (30.0 - 1.3258 + 15.0)) < 0.51e-4);
    CHECK(off_by(set.jacks[1].rise, 36_in) < 1e-12);
    // From 8 in on there are four.
    in.first = 8_in;
    CHECK(hip_jacks(in).jacks.size() == 4);
    CHECK(hip_jacks(in).jacks.front().at == 8_in);
    // Valley jacks count down from the ridge: the same lines, half the ridge and half the valley at 45 deg off.
    const JackSet valley = valley_jacks({.planes = regular(9), .run = 8_ft, .spacing = 24_in});
    REQUIRE(valley.jacks.size() == 3);
    CHECK(off_by(valley.jacks[0].line_length, 30_in) < 1e-12);
    CHECK(std::fabs(inches(valley.jacks[0].cut_length) - (30.0 - 1.25 * (0.75 + 1.06066))) < 0.51e-4);
    // Cripples beside a valley whose corner is 5 ft along: at 72 in alone, 60 in of run, 75 in long.
    const JackSet cripples =
        cripple_jacks({.hip = regular(9), .valley = regular(9), .run = 8_ft, .eave_length = 5_ft, .spacing = 24_in});
    REQUIRE(cripples.jacks.size() == 1);
    CHECK(cripples.jacks[0].at == 72_in);
    CHECK(off_by(cripples.jacks[0].line_length, 75_in) < 1e-12);
    CHECK(off_by(cripples.common_difference, no_length) < 1e-12);
    CHECK(std::fabs(inches(cripples.jacks[0].cut_length) - (75.0 - 2.0 * 1.25 * 1.06066)) < 0.51e-4);
}

TEST_CASE("jacks are as long as their ends are apart in space") {
    SeededNumbers numbers{421};
    for (int i = 0; i < sweep(3000); ++i) {
        const RandomCorner random = random_open_corner(numbers);
        const Corner& corner = random.corner;
        const Spot hip = corner.meet(100.0);
        HipJacks in = plain(random.planes, numbers.inches_between(60, 300), numbers.inches_between(12, 48));
        if (numbers.coin()) {
            in.first = numbers.inches_between(1, 40);
        }
        const Length along = in.run * (hip.x / hip.y);
        if (along / in.spacing > 1000.0) {
            continue;
        }
        in.hip_thickness = numbers.inches_between(0.0, 3.0);
        const JackSet set = hip_jacks(in);
        check_differences(set, in.spacing);
        for (const Jack& jack : set.jacks) {
            const double x = inches(jack.at);
            const double y = x * hip.y / hip.x;
            const Spot head{x, y, corner.rise_a * y};
            CHECK(std::fabs(inches(jack.line_length) - size_of(head - Spot{x, 0.0, 0.0})) < 1e-9 * (1.0 + x + y));
            CHECK(std::fabs(head.z - corner.rise_b * corner.off_b(x, y)) < 1e-9 * (1.0 + head.z));
            CHECK(jack.run < in.run);
        }
        // Deducted, the middle of the jack ends at the hip's side: half the hip square to its line.
        const double flat = size_of({hip.x, hip.y, 0.0});
        CHECK(std::fabs(inches(set.head_deduction) * hip.x / flat - inches(in.hip_thickness) / 2.0) < 1e-9);
        // All places are taken: one more would be past the first common.
        if (!set.jacks.empty()) {
            CHECK(set.jacks.back().at + in.spacing > along - 1e-3_in);
        }
    }
}

TEST_CASE("valley jacks and cripples are as long as their ends are apart in space") {
    SeededNumbers numbers{422};
    for (int i = 0; i < sweep(3000); ++i) {
        const RandomCorner hip_side = random_open_corner(numbers);
        RandomCorner valley_side = random_open_corner(numbers);
        valley_side.corner.rise_a = hip_side.corner.rise_a;
        valley_side.planes.pitch_a = hip_side.planes.pitch_a;
        const double cosine = std::cos(valley_side.corner.angle);
        if (!(valley_side.corner.rise_a + valley_side.corner.rise_b * cosine > 0.02 &&
              valley_side.corner.rise_b + valley_side.corner.rise_a * cosine > 0.02)) {
            continue;
        }
        const Spot valley = valley_side.corner.meet(100.0);
        const Spot hip = hip_side.corner.meet(100.0);
        const double run = numbers.between(60.0, 300.0);
        const double ridge = run * hip_side.corner.rise_a;
        const Length spacing = numbers.inches_between(12, 48);
        if (run * valley.x / valley.y > 5000.0 || run * hip.x / hip.y > 5000.0) {
            continue;
        }
        const JackSet jacks = valley_jacks({.planes = valley_side.planes, .run = one_inch * run, .spacing = spacing});
        check_differences(jacks, spacing);
        for (const Jack& jack : jacks.jacks) {
            // From the valley's top along the ridge; down the slope to the valley.
            const double x = run * valley.x / valley.y - inches(jack.at);
            const Spot foot{x, x * valley.y / valley.x, hip_side.corner.rise_a * x * valley.y / valley.x};
            CHECK(std::fabs(inches(jack.line_length) - size_of(Spot{x, run, ridge} - foot)) < 1e-8 * (1.0 + run + x));
        }
        const double eave = numbers.between(0.0, 100.0);
        const JackSet cripples = cripple_jacks({.hip = hip_side.planes,
                                                .valley = valley_side.planes,
                                                .run = one_inch * run,
                                                .eave_length = one_inch * eave,
                                                .spacing = spacing});
        for (const Jack& jack : cripples.jacks) {
            const double x = inches(jack.at);
            CHECK(x > eave - 1e-9);
            CHECK(x * hip.y / hip.x < run + 1e-6);
            const double low = (x - eave) * valley.y / valley.x;
            const double high = x * hip.y / hip.x;
            const Spot foot{x, low, low * hip_side.corner.rise_a};
            const Spot head{x, high, high * hip_side.corner.rise_a};
            CHECK(std::fabs(inches(jack.line_length) - size_of(head - foot)) < 1e-8 * (1.0 + run + x));
            CHECK(jack.cut_length > no_length);
        }
        check_differences(cripples, spacing);
        // Half a 1 1/2 in hip and valley, square to their lines in plan, and the saw along each.
        const double hip_share = hip.x / size_of({hip.x, hip.y, 0.0});
        const double valley_share = valley.x / size_of({valley.x, valley.y, 0.0});
        CHECK(std::fabs(inches(cripples.head_deduction) * hip_share - 0.75) < 1e-9);
        CHECK(std::fabs(inches(cripples.foot_deduction) * valley_share - 0.75) < 1e-9);
        CHECK(std::fabs(inches(jacks.foot_deduction) * valley_share - 0.75) < 1e-9);
        CHECK(std::fabs(deg(cripples.saw.bevel) - std::acos(hip_share) * 180.0 / pi) < 1e-6);
        REQUIRE(cripples.foot_saw);
        CHECK(std::fabs(deg(cripples.foot_saw->bevel) - std::acos(valley_share) * 180.0 / pi) < 1e-6);
        CHECK(std::fabs(cripples.foot_saw->mitre.tangent() - hip_side.corner.rise_a) < 1e-12);
    }
}

TEST_CASE("irregular jacks at equal pitches are regular") {
    SeededNumbers numbers{423};
    for (int i = 0; i < sweep(1000); ++i) {
        const Pitch pitch = Pitch::in_12(numbers.between(1.0, 24.0));
        const Length spacing = numbers.inches_between(12, 48);
        const JackSet set = hip_jacks(plain({.pitch_a = pitch, .pitch_b = pitch}, 20_ft, spacing));
        CHECK(off_by(set.common_difference, pitch.slope_over(spacing)) < 1e-11);
        CHECK(std::fabs(set.side_cut.tangent() - pitch.cosine()) < 1e-12);
    }
}

TEST_CASE("jacks that are refused") {
    const auto refused = [](auto change) {
        HipJacks in = plain(regular(6), 10_ft, 24_in);
        change(in);
        return refusal_of([&] { (void)hip_jacks(in); });
    };
    CHECK(refused([](HipJacks&) {}).path == "no fault");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused([&](HipJacks& in) { in.spacing = none; }).path == "jacks.spacing");
        CHECK(refused([&](HipJacks& in) { in.first = none; }).path == "jacks.first");
        CHECK(refused([&](HipJacks& in) { in.run = none; }).path == "jacks.run");
    }
    CHECK(refused([](HipJacks& in) { in.spacing = 0_in; }).path == "jacks.spacing");
    CHECK(refused([](HipJacks& in) {
              in.run = 2000_ft;
              in.spacing = 2_in;
          }).code == FaultCode::too_much_work);
    CHECK(refused([](HipJacks& in) {
              in.planes = {
                  .pitch_a = Pitch::in_12(2), .pitch_b = Pitch::in_12(20), .corner = PlanCorner::from_degrees(150)};
          }).code == FaultCode::not_supported);
    const Fault two = refusal_of([] {
        (void)cripple_jacks(
            {.hip = regular(9), .valley = regular(8), .run = 8_ft, .eave_length = 3_ft, .spacing = 24_in});
    });
    CHECK(two.code == FaultCode::contradiction);
    CHECK(two.path == "jacks.valley.pitch_a");
    CHECK(refusal_of([] {
              (void)valley_jacks({.planes = regular(9), .run = 8_ft, .spacing = 24_in, .ridge_thickness = -1_in});
          }).path == "jacks.ridge_thickness");
}

TEST_CASE("jacks write as JSON") {
    const JackSet set =
        cripple_jacks({.hip = regular(9), .valley = regular(9), .run = 8_ft, .eave_length = 5_ft, .spacing = 24_in});
    const std::string text = write_json(set, LengthUnit::inches);
    CHECK(text.find("\"foot_saw\": {") != std::string::npos);
    CHECK(text.find("\"at\": 72") != std::string::npos);
}
