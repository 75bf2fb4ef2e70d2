// SPDX-License-Identifier: BSL-1.0

// What is missing from what is known: every sound choice of givens leads back to the same roof.

#include <eavewright/framing/solve_pitch.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include "member_checks.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
bool mentions(const std::string& text, const std::string& word) { return text.find(word) != std::string::npos; }

/// A roof with every figure given; a mask then keeps some of them.
RoofKnown keep(const RoofFigure& roof, unsigned mask) {
    RoofKnown known;
    const auto take = [&](unsigned bit, auto& to, auto value) {
        if ((mask >> bit & 1U) != 0U) {
            to = value;
        }
    };
    take(0, known.pitch, roof.pitch);
    take(1, known.run, roof.run);
    take(2, known.overhang, roof.overhang);
    take(3, known.total_run, roof.total_run);
    take(4, known.rise, roof.rise);
    take(5, known.line_length, roof.line_length);
    take(6, known.total_length, roof.total_length);
    take(7, known.eave_height, roof.eave_height);
    take(8, known.wall_height, roof.wall_height);
    take(9, known.ridge_height, roof.ridge_height);
    return known;
}
RoofFigure roof_of(Pitch pitch, Length run, Length overhang, Length wall) {
    return {.pitch = pitch,
            .run = run,
            .overhang = overhang,
            .total_run = run + overhang,
            .rise = pitch.rise_over(run),
            .eave_fall = pitch.rise_over(overhang),
            .total_rise = pitch.rise_over(run + overhang),
            .line_length = pitch.slope_over(run),
            .tail_length = pitch.slope_over(overhang),
            .total_length = pitch.slope_over(run + overhang),
            .eave_height = wall - pitch.rise_over(overhang),
            .wall_height = wall,
            .ridge_height = wall + pitch.rise_over(run)};
}
void check_same(const RoofFigure& one, const RoofFigure& two, double within) {
    CHECK(std::fabs(one.pitch.rise_per_run() - two.pitch.rise_per_run()) < within);
    CHECK(off_by(one.run, two.run) < within);
    CHECK(off_by(one.overhang, two.overhang) < within);
    CHECK(off_by(one.total_run, two.total_run) < within);
    CHECK(off_by(one.rise, two.rise) < within);
    CHECK(off_by(one.eave_fall, two.eave_fall) < within);
    CHECK(off_by(one.total_rise, two.total_rise) < within);
    CHECK(off_by(one.line_length, two.line_length) < within);
    CHECK(off_by(one.tail_length, two.tail_length) < within);
    CHECK(off_by(one.total_length, two.total_length) < within);
    CHECK(off_by(one.eave_height, two.eave_height) < within);
    CHECK(off_by(one.wall_height, two.wall_height) < within);
    CHECK(off_by(one.ridge_height, two.ridge_height) < within);
}
}  // namespace

TEST_CASE("any two of run, rise, slope and pitch") {
    // 3-4-5 of 12 ft.
    const SlopeFigure a = solve_slope({.run = 12_ft, .rise = 9_ft});
    CHECK(a.slope == 15_ft);
    CHECK(a.pitch.rise_in_12() == 9.0);
    CHECK(solve_slope({.run = 12_ft, .slope = 15_ft}).rise == 9_ft);
    CHECK(solve_slope({.rise = 9_ft, .slope = 15_ft}).run == 12_ft);
    CHECK(solve_slope({.run = 12_ft, .pitch = Pitch::in_12(9)}).slope == 15_ft);
    CHECK(solve_slope({.rise = 9_ft, .pitch = Pitch::in_12(9)}).run == 12_ft);
    CHECK(off_by(solve_slope({.slope = 15_ft, .pitch = Pitch::in_12(9)}).rise, 9_ft) < 1e-12);
    // Level: run and slope are one, nothing rises.
    CHECK(solve_slope({.run = 12_ft, .pitch = Pitch::in_12(0)}).slope == 12_ft);
    CHECK(solve_slope({.run = 12_ft, .slope = 12_ft}).pitch.rise_per_run() == 0.0);
}

TEST_CASE("heights known and pitch wanted") {
    // Ridge 18 ft, wall 12 ft, 18 ft of run: 4 in 12; an eave at 11 ft makes it hang 3 ft over.
    const RoofFigure roof =
        solve_roof({.run = 18_ft, .eave_height = 11_ft, .wall_height = 12_ft, .ridge_height = 18_ft});
    CHECK(std::fabs(roof.pitch.rise_in_12() - 4.0) < 1e-12);
    CHECK(off_by(roof.overhang, 36_in) < 1e-10);
    // Ridge and eave fixed, pitch and run given: the overhang that brings the fascia there.
    const RoofFigure fixed =
        solve_roof({.pitch = Pitch::in_12(4), .run = 18_ft, .eave_height = 11_ft, .ridge_height = 18_ft});
    CHECK(off_by(fixed.overhang, 36_in) < 1e-12);
    CHECK(off_by(fixed.wall_height, 12_ft) < 1e-12);
    // The rafter to hand is 22 ft from fascia to ridge at 5 in 12 over 19 ft of run.
    const RoofFigure rafter =
        solve_roof({.pitch = Pitch::in_12(5), .run = 19_ft, .total_length = 22_ft, .wall_height = 10_ft});
    CHECK(off_by(rafter.total_run, 22_ft * (12.0 / 13.0)) < 1e-10);
    CHECK(off_by(rafter.ridge_height, 10_ft + 19_ft * (5.0 / 12.0)) < 1e-10);
}

TEST_CASE("a hip from its runs: Hodgson, Figs. 86-90") {
    const HipFigure hip = solve_hip({.run_a = 12_ft, .run_b = 16_ft, .rise = 10_ft});
    check_example("R23", inches(hip.plan_run));
    check_example("R24", inches(hip.common_length_a));
    check_example("R25", inches(hip.common_length_b));
    check_example("R26", inches(hip.length));
    // Backwards from the hip itself.
    const HipFigure back = solve_hip({.run_a = 12_ft, .rise = 10_ft, .length = hip.length});
    CHECK(off_by(back.run_b, 16_ft) < 1e-9);
    CHECK(std::fabs(back.pitch_b.rise_in_12() - 7.5) < 1e-10);
    CHECK(
        std::fabs(
            solve_hip({.pitch_a = Pitch::in_12(10), .pitch_b = Pitch::in_12(7.5), .run_a = 12_ft}).pitch.rise_in_12() -
            6.0) < 1e-12);
}

TEST_CASE("every sufficient choice of givens leads back to the roof, every other is refused by name") {
    SeededNumbers numbers{471};
    int solved = 0;
    int refused = 0;
    for (int i = 0; i < sweep(20); ++i) {
        const RoofFigure roof = roof_of(Pitch::in_12(numbers.between(1.0, 18.0)), numbers.inches_between(60, 400),
                                        numbers.inches_between(6, 40), numbers.inches_between(90, 300));
        for (unsigned mask = 0; mask < 1024U; ++mask) {
            const RoofKnown known = keep(roof, mask);
            try {
                check_same(solve_roof(known), roof, 1e-6);
                ++solved;
            } catch (const FaultError& error) {
                CAPTURE(mask);
                CHECK(error.fault().code == FaultCode::missing_field);
                CHECK(mentions(error.fault().required, "more of"));
                CHECK(error.fault().path.size() > 5);
                ++refused;
            }
        }
    }
    CHECK(solved > 0);
    CHECK(refused > 0);
}

TEST_CASE("adding a figure that a refusal asks for completes the roof") {
    const RoofFigure roof = roof_of(Pitch::in_12(5), 200_in, 20_in, 120_in);
    const std::vector<std::string> names{"pitch",       "run",          "overhang",    "total_run",   "rise",
                                         "line_length", "total_length", "eave_height", "wall_height", "ridge_height"};
    for (unsigned mask = 0; mask < 1024U; ++mask) {
        const Fault fault = refusal_of([&] { (void)solve_roof(keep(roof, mask)); });
        if (fault.required.rfind("one more of ", 0) != 0) {
            continue;
        }
        const std::string list = ", " + fault.required.substr(12) + ",";
        for (unsigned bit = 0; bit < names.size(); ++bit) {
            const bool asked = mentions(list, " " + names[bit] + ",");
            if ((mask >> bit & 1U) != 0U) {
                CHECK(!asked);
            } else {
                const Fault then = refusal_of([&] { (void)solve_roof(keep(roof, mask | 1U << bit)); });
                CHECK(asked == (then.path == "no fault"));
            }
        }
    }
}

TEST_CASE("contradictions name their inputs") {
    const Fault slope = refusal_of([] { (void)solve_slope({.run = 12_ft, .slope = 11_ft}); });
    CHECK(slope.code == FaultCode::contradiction);
    CHECK(slope.path == "slope.slope");
    CHECK(mentions(slope.required, "run of 144 in"));
    const Fault heights = refusal_of([] { (void)solve_roof({.wall_height = 12_ft, .ridge_height = 10_ft}); });
    CHECK(heights.code == FaultCode::contradiction);
    CHECK(heights.path == "roof.ridge_height");
    CHECK(mentions(heights.required, "wall_height of 144 in"));
    const Fault runs = refusal_of([] { (void)solve_roof({.run = 20_ft, .total_run = 19_ft}); });
    CHECK(runs.path == "roof.total_run");
    CHECK(mentions(runs.required, "run of 240 in"));
    const Fault three = refusal_of([] { (void)solve_slope({.run = 12_ft, .rise = 5_ft, .pitch = Pitch::in_12(6)}); });
    CHECK(three.path == "slope.pitch");
    CHECK(three.given == "6 in 12");
    CHECK(mentions(three.required, "run of 144 in and rise of 60 in"));
    // Through figures between them as well: pitch, run and overhang together make the rafter 240.33 in, not 25 ft.
    const Fault far_off = refusal_of([] {
        (void)solve_roof(
            {.pitch = Pitch::in_12(4), .run = 18_ft, .overhang = 12_in, .total_length = 25_ft, .wall_height = 12_ft});
    });
    CHECK(far_off.path == "roof.total_length");
    CHECK(mentions(far_off.required, "pitch of 4 in 12 and run of 216 in and overhang of 12 in"));
    CHECK(mentions(far_off.required, "apart by 59.66"));
    // One sixteenth is a tape; a tighter call refuses it.
    CHECK(solve_slope({.run = 12_ft, .rise = 9_ft, .slope = 15_ft + 0.0625_in}).run == 12_ft);
    CHECK(refusal_of([] {
              (void)solve_slope({.run = 12_ft, .rise = 9_ft, .slope = 180.0625_in, .agree_within = 0.03_in});
          }).path == "slope.slope");
}

TEST_CASE("contradictions are found whichever figure is off") {
    SeededNumbers numbers{472};
    for (int i = 0; i < sweep(2000); ++i) {
        const RoofFigure roof = roof_of(Pitch::in_12(numbers.between(2.0, 18.0)), numbers.inches_between(100, 400),
                                        numbers.inches_between(10, 40), numbers.inches_between(90, 300));
        RoofKnown known = keep(roof, 1023U);
        check_same(solve_roof(known), roof, 1e-9);
        std::vector<std::optional<Length>*> lengths{&known.run,         &known.overhang,    &known.total_run,
                                                    &known.rise,        &known.line_length, &known.total_length,
                                                    &known.eave_height, &known.wall_height, &known.ridge_height};
        std::optional<Length>& off = *lengths[static_cast<std::size_t>(numbers.whole(0, 8))];
        *off += numbers.coin() ? 1_in : -1_in;
        CHECK(refusal_of([&] { (void)solve_roof(known); }).code == FaultCode::contradiction);
    }
}

TEST_CASE("figures that leave it open are refused by what is missing") {
    const Fault one = refusal_of([] { (void)solve_slope({.run = 12_ft}); });
    CHECK(one.code == FaultCode::missing_field);
    CHECK(one.required == "one more of rise, slope, pitch");
    CHECK(refusal_of([] { (void)solve_slope({}); }).required == "at least two more of run, rise, slope, pitch");
    // A level roof's run does not follow from its rise.
    CHECK(refusal_of([] { (void)solve_slope({.rise = 0_in, .pitch = Pitch::in_12(0)}); }).required ==
          "one more of run, slope");
    const Fault height =
        refusal_of([] { (void)solve_roof({.pitch = Pitch::in_12(4), .run = 18_ft, .overhang = 1_ft}); });
    CHECK(height.required == "one more of eave_height, wall_height, ridge_height");
    CHECK(refusal_of([] { (void)solve_hip({.run_a = 12_ft, .run_b = 16_ft}); }).required ==
          "one more of pitch_a, pitch_b, rise, length");
}

TEST_CASE("givens out of range, and the answer written") {
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)solve_slope({.run = none, .rise = 5_ft}); }).path == "slope.run");
        CHECK(refusal_of([&] { (void)solve_roof({.ridge_height = none}); }).path == "roof.ridge_height");
        CHECK(refusal_of([&] { (void)solve_hip({.length = none}); }).path == "hip.length");
    }
    CHECK(refusal_of([] { (void)solve_slope({.run = -1_in}); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)solve_slope({.run = 0.001_in, .rise = 5_ft}); }).path == "slope.pitch");
    CHECK(refusal_of([] { (void)solve_hip({.run_a = 5_ft, .run_b = 0.001_in, .rise = 5_ft}); }).path == "hip.pitch_b");
    CHECK(refusal_of([] { (void)solve_slope({.agree_within = -1_in}); }).path == "slope.agree_within");
    CHECK(write_json(solve_slope({.run = 12_ft, .rise = 9_ft}), LengthUnit::inches) ==
          R"({"run": 144, "rise": 108, "slope": 180, "pitch": 9})");
}
