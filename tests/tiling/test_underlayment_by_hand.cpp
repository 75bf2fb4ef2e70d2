// SPDX-License-Identifier: BSL-1.0

// Underlayment worked by hand, and the formula for the half lap against counting.

#include <eavewright/roof/shape.hpp>
#include <eavewright/tiling/lay_underlayment.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
UnderlaymentPlan single_coverage(Length roll_length) {
    return {.roll = {.length = roll_length}, .rule = SingleCoverage{}};
}

/// Least number of full sheets that lay two layers over every point of [0, slope], by counting: sheets lie from
/// `exposure` k to `exposure` k + `width`, a starter from 0. Sheets are opened or closed only at these places, so points
/// just beside each, and the ends of the slope, decide.
int sheets_by_counting(double slope, double width, double exposure, double starter) {
    for (int n = 1;; ++n) {
        std::vector<double> points{1e-3, slope - 1e-3};
        for (int k = 0; k <= n; ++k) {
            for (const double at : {exposure * k, exposure * k + width, starter}) {
                points.push_back(at - 1e-3);
                points.push_back(at + 1e-3);
            }
        }
        bool twice = true;
        for (const double y : points) {
            if (y <= 0.0 || y >= slope) {
                continue;
            }
            int layers = y < starter ? 1 : 0;
            for (int k = 0; k < n; ++k) {
                layers += y > exposure * k && y < exposure * k + width ? 1 : 0;
            }
            twice = twice && layers >= 2;
        }
        if (twice) {
            return n;
        }
    }
}
}  // namespace

TEST_CASE("underlayment: the workshop in single coverage, rolls of 144 ft") {
    // Exposure 36 - 2 = 34 in. Slope 246.6577 and 6 over the ridge: 252.6577 - 2 = 250.6577; / 34 = 7.372 -> 8 courses.
    // The last begins at 7 x 34 = 238 and is ripped to 252.6577 - 238 = 14.6577 in.
    const Underlayment laid = lay_underlayment(workshop_plane(), single_coverage(144_ft));
    CHECK(laid.sheets == 8);
    REQUIRE(laid.courses.size() == 8);
    CHECK(std::fabs(laid.exact_courses - 7.372284) < 1e-6);
    CHECK(off_by(laid.slope, 246.657657_in) < 1e-6);
    CHECK(laid.courses[7].low == 238_in);
    CHECK(off_by(laid.courses[7].height, 14.657657_in) < 1e-6);
    CHECK(laid.courses[7].ripped);
    CHECK(laid.courses[6].high == 240_in);  // 6 x 34 + 36
    CHECK_FALSE(laid.courses[6].ripped);
    // A roll is 1728 in, a course 744, an end lap 4:
    //   course 1  744 of roll 1, 984 left            course 2  744, 240 left
    //   course 3  240, lapped 236..240; 508 of roll 2, 1220 left
    //   course 4  744, 476 left                      course 5  476, lapped 472..476; 272 of roll 3, 1456 left
    //   course 6  744, 712 left                      course 7  712, lapped 708..712; 36 of roll 4, 1692 left
    //   course 8  744, 948 left
    CHECK(laid.rolls == 4);
    CHECK(laid.left_over == 948_in);
    CHECK(laid.set_aside == 0_in);
    CHECK(laid.laid == 5964_in);  // 8 x 744 + 3 x 4 = 4 x 1728 - 948
    REQUIRE(laid.end_laps.size() == 3);
    const std::vector<Length> places{236_in, 472_in, 708_in};
    const std::vector<std::int32_t> courses{2, 4, 6};
    const Length left = workshop_plane().outline[0].along;
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(laid.end_laps[i].course == courses[i]);
        CHECK(laid.end_laps[i].left == left + places[i]);
        CHECK(laid.end_laps[i].right == left + places[i] + 4_in);
    }
    CHECK(laid.pieces.size() == 11);
    CHECK(coverage_at(laid, {left + 238_in, 80_in}) == 1);  // in the end lap of course 3: two pieces, one course
    CHECK(coverage_at(laid, {left + 238_in, 69_in}) == 2);  // 68..70, in the head lap
    CHECK(laid.findings.empty());                           // the piece of 36 in is exactly the limit
    // Bought 4 x 1728 x 36 = 248832 sq in; the plane 744 x 246.6577 = 183513.3.
    //   head laps 7 x 744 x 2 = 10416        end laps 3 x 4 x 36 = 432
    //   past edges 744 x 6 = 4464            ripped 744 x (36 - 14.6577) = 15878.7
    //   left over 948 x 36 = 34128           together 65318.7 = 248832 - 183513.3
    CHECK(square_inches(laid.areas.bought) == 248832.0);
    CHECK(std::fabs(square_inches(laid.areas.net) - 183513.3) < 0.05);
    CHECK(std::fabs(square_inches(laid.areas.head_laps) - 10416.0) < 1e-6);
    CHECK(std::fabs(square_inches(laid.areas.end_laps) - 432.0) < 1e-6);
    CHECK(std::fabs(square_inches(laid.areas.past_edges) - 4464.0) < 1e-6);
    CHECK(std::fabs(square_inches(laid.areas.ripped) - 15878.7) < 0.05);
    CHECK(square_inches(laid.areas.offcuts) == 0.0);
    CHECK(square_inches(laid.areas.left_over) == 34128.0);
    CHECK(std::fabs(square_inches(laid.areas.waste) - 65318.7) < 0.05);
    // Up the rake: 34, 68 ... 238; whole inches, so the tick takes nothing.
    for (std::size_t k = 0; k < 8; ++k) {
        CHECK(laid.marks[k].left == 34_in * static_cast<double>(k));
        CHECK(laid.marks[k].right == laid.marks[k].left);
    }
}

TEST_CASE("underlayment: the workshop in single coverage, rolls of 72 ft") {
    // A roll is 864 in. Course 1: 744, 120 left. Course 2: 120, 628 of roll 2, 236 left. Course 3: 236, 512 of roll 3,
    // 352 left. Course 4: 352, 396, 468 left. Course 5: 468, 280, 584 left. Course 6: 584, 164, 700 left. Course 7: 700,
    // 48 of roll 7, 816 left. Course 8: 744, 72 left. End laps lie 116 in apart from course to course: more than 72.
    const Underlayment laid = lay_underlayment(workshop_plane(), single_coverage(72_ft));
    CHECK(laid.sheets == 8);
    CHECK(laid.rolls == 7);
    CHECK(laid.left_over == 72_in);
    CHECK(laid.laid == 5976_in);  // 8 x 744 + 6 x 4 = 7 x 864 - 72
    REQUIRE(laid.end_laps.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(laid.end_laps[i].left == workshop_plane().outline[0].along + 116_in + 116_in * static_cast<double>(i));
    }
    CHECK(laid.findings.empty());
}

TEST_CASE("underlayment: the workshop in half lap, had it shingles and less slope") {
    // (246.6577 - 2) / 17 = 14.392 -> 15 full sheets and the starter; once, with the wrap: (252.6577 - 19) / 17 -> 14.
    // Sheet 15 lies from 14 x 17 = 238, ripped to 14.6577 in; sheet 14 from 221 to 257, past the ridge, ripped to 31.6577.
    UnderlaymentPlan plan = single_coverage(144_ft);
    plan.rule = HalfLap{};
    const Underlayment laid = lay_underlayment(workshop_plane(), plan);
    CHECK(laid.sheets == 15);
    REQUIRE(laid.courses.size() == 16);
    CHECK(laid.courses[0].starter);
    CHECK(laid.courses[0].height == 19_in);
    CHECK(laid.courses[0].exposed == 0_in);
    CHECK(laid.courses[15].low == 238_in);
    CHECK(off_by(laid.courses[14].height, 31.657657_in) < 1e-6);
    CHECK(std::fabs(laid.exact_courses - 14.391627) < 1e-6);
}

TEST_CASE("underlayment: an end lap is cut back from the one below, and its rest set aside") {
    // Eave 500 in, rolls 480, end lap 4, sliver 36. Course 1: 480 would leave 24, so cut back to 500 - 36 + 4 = 468, 12 set
    // aside; 36 of roll 2, 444 left. Course 2: 444 would lap at 440..444, 24 from 464..468: cut back to 396 (392..396),
    // 48 set aside; 108 of roll 3, 372 left. Course 3: 372 (368..372) is 24 from 392: cut back to 324, 48 set aside.
    UnderlaymentPlan plan = single_coverage(40_ft);
    plan.ridge_wrap = 0_in;
    const Underlayment laid = lay_underlayment(plane_of<Surface::deck_top>(500_in, 104_in), plan);
    CHECK(laid.sheets == 3);
    REQUIRE(laid.end_laps.size() == 3);
    CHECK(laid.end_laps[0].left == 464_in);
    CHECK(laid.end_laps[1].left == 392_in);
    CHECK(laid.end_laps[2].left == 320_in);
    CHECK(laid.set_aside == 108_in);
    CHECK(laid.cut_offs == 3);
    CHECK(laid.rolls == 4);
    CHECK(laid.left_over == 300_in);  // roll 4: 480 - (500 - 324 + 4)
    CHECK(laid.findings.empty());
}

TEST_CASE("underlayment: where no piece of a roll keeps its distance, that is found") {
    // Rolls of 72 in, end laps 4: with 6 ft to keep, no lap fits beside the one below it.
    UnderlaymentPlan plan = single_coverage(6_ft);
    plan.sliver = 10_in;
    const Underlayment laid = lay_underlayment(plane_of<Surface::deck_top>(200_in, 60_in), plan);
    std::size_t too_near = 0;
    for (const UnderlaymentFinding& finding : laid.findings) {
        too_near += finding.code == UnderlaymentFindingCode::end_lap_too_near ? 1 : 0;
    }
    CHECK(too_near > 0);
}

TEST_CASE("underlayment: a sixteenth too long for a course") {
    // 7 courses reach 6 x 34 + 36 = 240 in; a slope of 240 1/16 takes an eighth, of 2 1/16 in.
    UnderlaymentPlan plan = single_coverage(144_ft);
    plan.ridge_wrap = 0_in;
    const Underlayment whole = lay_underlayment(plane_of<Surface::deck_top>(744_in, 240_in), plan);
    CHECK(whole.sheets == 7);
    CHECK(whole.exact_courses == 7.0);
    CHECK_FALSE(whole.courses.back().ripped);
    CHECK(whole.findings.empty());
    const Underlayment over = lay_underlayment(plane_of<Surface::deck_top>(744_in, 240.0625_in), plan);
    CHECK(over.sheets == 8);
    CHECK(over.courses.back().height == 2.0625_in);
    REQUIRE(over.findings.size() == 1);
    CHECK(over.findings[0].code == UnderlaymentFindingCode::narrow_course);
    CHECK(over.findings[0].measured == 2.0625_in);
    CHECK(coverage_at(over, {372_in, 240.03_in}) == 1);
    CHECK(coverage_at(whole, {372_in, 240.03_in}) == 0);
    // Half lap: ceil((S - 2) / 17): 189 in is 11 exactly, a sixteenth more is 12.
    plan.rule = HalfLap{};
    CHECK(lay_underlayment(plane_of<Surface::deck_top>(744_in, 189_in), plan).sheets == 11);
    CHECK(lay_underlayment(plane_of<Surface::deck_top>(744_in, 189.0625_in), plan).sheets == 12);
}

TEST_CASE("underlayment: the half lap at 192 in takes 12 full sheets, and the formula that gives 11 is wrong") {
    const CourseLaps half = laps_of(HalfLap{}, 36_in);
    const auto right = [](double s) { return static_cast<int>(std::ceil((s - 2.0) / 17.0)); };
    // ceil((S - 19) / 17) full sheets after the starter, as a published formula has it, or may be read.
    const auto wrong = [](double s) { return static_cast<int>(std::ceil((s - 19.0) / 17.0)); };
    CHECK(sheets_by_counting(192.0, 36.0, 17.0, 19.0) == 12);
    CHECK(full_courses(half, 192_in, 0_in) == 12);
    CHECK(right(192.0) == 12);
    CHECK(wrong(192.0) == 11);
    // 11 sheets: the last but one ends at 9 x 17 + 36 = 189, so the top 3 in lie under the last alone.
    UnderlaymentPlan plan = single_coverage(144_ft);
    plan.rule = HalfLap{};
    plan.ridge_wrap = 0_in;
    plan.top = TopCourse::whole;
    Underlayment laid = lay_underlayment(plane_of<Surface::deck_top>(100_in, 192_in), plan);
    CHECK(coverage_at(laid, {50_in, 190.5_in}) == 2);
    laid.pieces.pop_back();  // each course is one piece here
    CHECK(coverage_at(laid, {50_in, 190.5_in}) == 1);
    CHECK(coverage_at(laid, {50_in, 188.5_in}) == 2);
    for (int quarters = 80; quarters <= 1600; ++quarters) {  // 20 in to 400 in
        const double slope = quarters / 4.0;
        CAPTURE(slope);
        const int counted = sheets_by_counting(slope, 36.0, 17.0, 19.0);
        CHECK(full_courses(half, one_inch * slope, 0_in) == counted);
        CHECK(right(slope) == counted);
        CHECK(wrong(slope) == counted - 1);
    }
    // Other rolls and starters, also a starter that does not reach a course's own overlap.
    for (const double starter : {15.0, 18.0, 24.0}) {
        const CourseLaps laps = laps_of(MakersRule{Exposure{15_in}, 4_in, 6_ft, one_inch * starter}, 36_in);
        for (int halves = 2; halves <= 300; ++halves) {
            const double slope = halves / 2.0;
            CAPTURE(slope);
            CHECK(full_courses(laps, one_inch * slope, 0_in) == sheets_by_counting(slope, 36.0, 15.0, starter));
        }
    }
}

TEST_CASE("underlayment: single coverage at 192 in takes 6 courses") {
    // (192 - 2) / 34 = 5.59 -> 6; also ceil((S - 36) / 34) + 1 = ceil(4.59) + 1.
    CHECK(full_courses(laps_of(SingleCoverage{}, 36_in), 192_in, 0_in) == 6);
    CHECK(full_courses(laps_of(SingleCoverage{}, 36_in), 36_in, 0_in) == 1);
    CHECK(full_courses(laps_of(SingleCoverage{}, 36_in), 36_in, 1_in) == 2);
    CHECK(full_courses(laps_of(SingleCoverage{}, 36_in), 10_in, 0_in) == 1);
    // High wind, 32 in to the weather: (192 - 4) / 32 = 5.875 -> 6; 200 in: 6.125 -> 7.
    CHECK(full_courses(laps_of(high_wind_coverage(), 36_in), 192_in, 0_in) == 6);
    CHECK(full_courses(laps_of(high_wind_coverage(), 36_in), 200_in, 0_in) == 7);
}

TEST_CASE("underlayment: a metre wide and 50 m long, 0.9 m to the weather") {
    // Slope 5.4 m and 0.1 over the ridge: (5.5 - 0.1) / 0.9 = 6 exactly. Eave 12 m: four courses take 48 m of roll 1, the
    // fifth its last 2 m and, lapped 0.1, 10.1 m of roll 2; the sixth 12 m: 27.9 m left. Laid 6 x 12 + 0.1 = 72.1 m.
    UnderlaymentPlan plan{.roll = {.length = 50_m, .width = 1_m},
                          .rule = MakersRule{.courses = Exposure{0.9_m}, .end_lap = 100_mm, .end_offset = 1800_mm},
                          .ridge_wrap = 100_mm,
                          .tick = Tick::of_millimetres(1)};
    plan.sliver = 1_m;
    const Underlayment laid = lay_underlayment(plane_of<Surface::deck_top>(12_m, 5.4_m), plan);
    CHECK(laid.sheets == 6);
    CHECK(laid.rolls == 2);
    CHECK(off_by(laid.laid, 72.1_m) < 1e-9);
    CHECK(off_by(laid.left_over, 27.9_m) < 1e-9);
    CHECK_FALSE(laid.courses.back().ripped);
    REQUIRE(laid.end_laps.size() == 1);
    CHECK(off_by(laid.end_laps[0].left, 1.9_m) < 1e-9);
    CHECK(laid.findings.empty());
    for (std::size_t k = 0; k < 6; ++k) {
        CHECK(off_by(laid.marks[k].left, 900_mm * static_cast<double>(k)) < 1e-9);
    }
    // 1 mm more of slope is a seventh course, of 100 + 1 mm.
    const Underlayment over = lay_underlayment(plane_of<Surface::deck_top>(12_m, 5.401_m), plan);
    CHECK(over.sheets == 7);
    CHECK(off_by(over.courses.back().height, 101_mm) < 1e-9);
    // Half lap takes its own starter and overlap on such a roll: 0.48 m to the weather, starter 0.52 m.
    plan.rule = HalfLap{.starter = 520_mm, .overlap = 520_mm};
    CHECK(lay_underlayment(plane_of<Surface::deck_top>(12_m, 4.84_m), plan).sheets == 10);  // (4.84 - 0.04) / 0.48
    plan.rule = HalfLap{};
    CHECK(refusal_of([&] { static_cast<void>(lay_underlayment(plane_of<Surface::deck_top>(12_m, 5_m), plan)); }).code ==
          FaultCode::contradiction);
}

TEST_CASE("underlayment: a leaning rake and ridge") {
    // Eave 0..600, ridge from (-20, 120) to (640, 132): the right rake leans 40 in over 132, the left -20 over 120.
    const DeckPlane plane =
        plane_with<Surface::deck_top>({{0_in, 0_in}, {600_in, 0_in}, {640_in, 132_in}, {-20_in, 120_in}});
    UnderlaymentPlan plan = single_coverage(144_ft);
    plan.rake_past = 1_in;
    const Underlayment laid = lay_underlayment(plane, plan);
    // 132 + 6 - 2 = 136 = 4 x 34: four courses, the last whole.
    CHECK(laid.sheets == 4);
    CHECK_FALSE(laid.courses[3].ripped);
    // Course 1 covers 0..36: left -20 x 36/120 = -6, right 600 + 40 x 36/132 = 610.909; an inch more at each.
    CHECK(off_by(laid.courses[0].left, -7_in) < 1e-9);
    CHECK(off_by(laid.courses[0].right, 611.909090909_in) < 1e-6);
    // Course 4 covers 102..138, past both ridge corners.
    CHECK(off_by(laid.courses[3].left, -21_in) < 1e-9);
    CHECK(off_by(laid.courses[3].right, 641_in) < 1e-9);
    // Up the right rake 34 in of slope is 34 x sqrt(132^2 + 40^2) / 132 = 35.5268 -> 35 1/2; up the left
    // 34 x sqrt(120^2 + 20^2) / 120 = 34.46899, just past midway from 34 7/16 to 34 1/2.
    CHECK(laid.marks[1].right == 35.5_in);
    CHECK(laid.marks[1].left == 34.5_in);
    // 138 is 18 past the ridge's lower corner, more than the 12 allowed.
    REQUIRE(laid.findings.size() == 1);
    CHECK(laid.findings[0].code == UnderlaymentFindingCode::course_past_ridge);
    CHECK(off_by(laid.findings[0].measured, 18_in) < 1e-9);
}

TEST_CASE("underlayment: faults") {
    const DeckPlane plane = plane_of<Surface::deck_top>(744_in, 240_in);
    const UnderlaymentPlan sound = single_coverage(144_ft);
    const auto refusal = [&](const UnderlaymentPlan& plan) {
        return refusal_of([&] { static_cast<void>(lay_underlayment(plane, plan)); });
    };
    const auto with = [&](auto change) {
        UnderlaymentPlan plan = sound;
        change(plan);
        return refusal(plan);
    };
    CHECK(refusal(sound).path == "no fault");
    CHECK(with([](UnderlaymentPlan& p) { p.roll.length = 0_in; }).path == "underlayment.roll.length");
    CHECK(with([](UnderlaymentPlan& p) { p.roll.width = 0_in; }).path == "underlayment.roll.width");
    CHECK(with([](UnderlaymentPlan& p) { p.eave_past = -1_in; }).path == "underlayment.eave_past");
    CHECK(with([](UnderlaymentPlan& p) { p.rake_past = -1_in; }).path == "underlayment.rake_past");
    CHECK(with([](UnderlaymentPlan& p) { p.ridge_wrap = -1_in; }).path == "underlayment.ridge_wrap");
    CHECK(with([](UnderlaymentPlan& p) { p.sliver = -1_in; }).path == "underlayment.sliver");
    CHECK(with([](UnderlaymentPlan& p) { p.narrow = -1_in; }).path == "underlayment.narrow");
    CHECK(with([](UnderlaymentPlan& p) { p.most_past_ridge = 5_in; }).path == "underlayment.most_past_ridge");
    CHECK(with([](UnderlaymentPlan& p) { p.hip_past = -1_in; }).path == "underlayment.hip_past");
    CHECK(with([](UnderlaymentPlan& p) { p.valley_lap = -1_in; }).path == "underlayment.valley_lap");
    CHECK(with([](UnderlaymentPlan& p) { p.valley_strip = -1_in; }).path == "underlayment.valley_strip");
    CHECK(with([](UnderlaymentPlan& p) { p.turn_up = -1_in; }).path == "underlayment.turn_up");
    for (const Length lap : {36_in, 40_in, -1_in}) {
        const Fault fault = with([&](UnderlaymentPlan& p) { p.rule = SingleCoverage{.head_lap = lap}; });
        CHECK(fault.path == "underlayment.rule.head_lap");
        CHECK(fault.code == FaultCode::out_of_range);
    }
    CHECK(with([](UnderlaymentPlan& p) {
              p.rule = MakersRule{Exposure{0_in}, 4_in, 6_ft};
          }).path == "underlayment.rule.head_lap");
    CHECK(with([](UnderlaymentPlan& p) { p.rule = SingleCoverage{.end_lap = 60_in}; }).path ==
          "underlayment.rule.end_lap");
    const Fault short_roll = with([](UnderlaymentPlan& p) {
        p.roll.length = 7_ft;
        p.rule = SingleCoverage{.end_lap = 42_in};
    });
    CHECK(short_roll.code == FaultCode::does_not_fit);
    CHECK(with([](UnderlaymentPlan& p) { p.rule = SingleCoverage{.end_offset = -1_in}; }).path ==
          "underlayment.rule.end_offset");
    CHECK(with([](UnderlaymentPlan& p) { p.rule = HalfLap{.starter = 16_in}; }).path == "underlayment.rule.starter");
    CHECK(with([](UnderlaymentPlan& p) { p.rule = HalfLap{.overlap = 17_in}; }).code == FaultCode::contradiction);
    for (const Length none : lengths_that_are_none()) {
        CHECK(with([&](UnderlaymentPlan& p) { p.roll.length = none; }).path == "underlayment.roll.length");
        CHECK(with([&](UnderlaymentPlan& p) { p.roll.width = none; }).path == "underlayment.roll.width");
        CHECK(with([&](UnderlaymentPlan& p) { p.ridge_wrap = none; }).path == "underlayment.ridge_wrap");
        CHECK(with([&](UnderlaymentPlan& p) { p.rule = SingleCoverage{.head_lap = none}; }).path ==
              "underlayment.rule.head_lap");
        CHECK(with([&](UnderlaymentPlan& p) { p.rule = HalfLap{.starter = none}; }).path ==
              "underlayment.rule.starter");
        CHECK(with([&](UnderlaymentPlan& p) {
                  p.rule = MakersRule{HeadLap{2_in}, none, 6_ft};
              }).path == "underlayment.rule.end_lap");
        CHECK(refusal_of([&] { static_cast<void>(full_courses(laps_of(HalfLap{}, 36_in), none, 0_in)); }).path !=
              "no fault");
    }
    const auto on = [&](const DeckPlane& other) {
        return refusal_of([&] { static_cast<void>(lay_underlayment(other, sound)); });
    };
    CHECK(on(plane_with<Surface::deck_top>({{0_in, 0_in}, {90_in, 0_in}, {45_in, 90_in}})).code ==
          FaultCode::not_supported);
    DeckPlane opened = plane;
    opened.openings.push_back({{-10_in, 10_in}, {-5_in, 10_in}, {-5_in, 20_in}});
    CHECK(on(opened).path == "plane.openings");
    opened.openings[0] = {{10_in, 10_in}, {40_in, 10_in}, {20_in, 15_in}, {10_in, 40_in}};  // an inside corner
    CHECK(on(opened).path == "plane.openings");
    CHECK(on(plane_of<Surface::deck_top>(100_in, Length::from_inches(9e6))).code == FaultCode::too_much_work);
    CHECK(on(plane_of<Surface::deck_top>(Length::from_inches(9e6), 9999_in * 10.0)).code == FaultCode::too_much_work);
}

TEST_CASE("underlayment: every name has its enumerator, and a layout can be written") {
    CHECK(name_of(Covering::coal_tar) == "coal_tar");
    CHECK(name_of(UnderlaymentFindingCode::course_past_ridge) == "course_past_ridge");
    const std::string text =
        write_json(lay_underlayment(workshop_plane(), single_coverage(144_ft)), LengthUnit::inches);
    CHECK(text.find(R"("rolls": 4)") != std::string::npos);
    CHECK(text.find(R"("kind": "single_coverage")") != std::string::npos);
}
