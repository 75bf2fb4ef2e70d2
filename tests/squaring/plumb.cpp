// SPDX-License-Identifier: BSL-1.0

// Posts by a level and against their bay marks: movement at the top by hand and in space, one move for a whole wall,
// rules by their source, and a row of posts as it was built.

#include <eavewright/squaring/bay_marks.hpp>
#include <eavewright/squaring/plumb.hpp>

#include "../support/printing.hpp"
#include "../support/refusal.hpp"
#include "../support/seeded_numbers.hpp"
#include "../support/table.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using doctest::Approx;

namespace {

/// Four 16 ft posts read with a 4 ft level: gaps along 1/4 3/8 1/2 3/8, across 0 0 0 -1/4. A foot of gap is four at the
/// top: 1 1 1/2 2 1 1/2 along, 0 0 0 -1 across.
PlumbWall four_posts() {
    return {.posts = {{0_ft, 16_ft, 0.25_in, 0_in},
                      {12_ft, 16_ft, 0.375_in, 0_in},
                      {24_ft, 16_ft, 0.5_in, 0_in},
                      {36_ft, 16_ft, 0.375_in, -0.25_in}},
            .level_length = 4_ft,
            .rule = post_frame_plumb};
}

/// Posts as built, from the table.
PostLines posts_as_built() {
    PostLines lines{.marks = {0_in, 120_in, 264_in, 408_in, 552_in, 672_in},  // bays 10 12 12 12 10 ft
                    .left = {},
                    .right = {},
                    .width = 40_ft,
                    .height = 16_ft};
    for (const TableRow& row : read_table("asbuilt_post_bays.csv")) {
        lines.left.push_back(Length::from_inches(std::stod(row.at("left_station_in"))));
        lines.right.push_back(Length::from_inches(std::stod(row.at("right_station_in"))));
    }
    return lines;
}

}  // namespace

TEST_CASE("rules by name and limit") {
    // 16 ft at 1 percent: 1.92 in (squaring_rules.csv). 3/8 in in 32 in over 16 ft: 192/32 x 3/8 = 2 1/4.
    CHECK(inches(plumb_limit(post_frame_plumb, 16_ft)) == Approx(1.92).epsilon(1e-14));
    for (const TableRow& row : read_table("squaring_rules.csv")) {
        if (row.at("item") == "same at 16 ft eave") {
            CHECK(inches(plumb_limit(post_frame_plumb, 16_ft)) == Approx(std::stod(row.at("value"))).epsilon(1e-12));
        }
    }
    CHECK(plumb_limit(wall_plumb_guidelines, 16_ft) == 2.25_in);
    CHECK(plumb_limit(wall_plumb_light_commercial, 16_ft) == 1.5_in);
    CHECK(plumb_limit(stud_plumb_facilities, 16_ft) == 0.5_in);
    CHECK(inches(plumb_limit(wall_plumb_handbook, 16_ft)) == Approx(0.4).epsilon(1e-14));

    // Each published limit is one of the rules, at the height it is published for.
    int found = 0;
    for (const TableRow& row : read_table("tolerances.csv")) {
        const std::string& item = row.at("item");
        if (item != "wood wall plumb" && item != "stud plumb (UFGS)") {
            continue;
        }
        const std::string& over = row.at("condition");
        const Length height = over == "10 ft" ? 10_ft : over == "8 ft" ? 8_ft : 32_in;
        const Length limit = row.at("limit").substr(0, 3) == "3/8" ? 0.375_in : 0.25_in;
        for (const PlumbRule& rule :
             {wall_plumb_guidelines, wall_plumb_light_commercial, stud_plumb_facilities, wall_plumb_handbook}) {
            found += rule.over == height && rule.allowed == limit && plumb_limit(rule, height) == limit ? 1 : 0;
        }
    }
    CHECK(found == 4);
    CHECK(refusal_of([] { (void)plumb_limit(post_frame_plumb, 0_in); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)plumb_limit({"mine", "", 1_in, 10_ft}, 8_ft); }).code == FaultCode::missing_field);
    CHECK(refusal_of([] { (void)plumb_limit({"mine", "own", 4_ft, 10_ft}, 8_ft); }).path == "rule.allowed");
}

TEST_CASE("a gap over the level carried to the top") {
    // 4 ft level, 3/8 in: 16 ft are four levels, 1 1/2 in; with 1/2 in across, 2 in; together 2 1/2.
    const TopOff top = top_off_plumb({0_ft, 16_ft, 0.375_in, 0.5_in}, 4_ft);
    CHECK(top.along == 1.5_in);
    CHECK(top.across == 2_in);
    CHECK(top.total == 2.5_in);
    // Level 40 in, gap 9 in: hypotenuse 41. A post of 205 in taped along itself leans 45 in; 205 in up it leans 46 1/8.
    const PostReading leaning{0_ft, 205_in, 9_in, 0_in};
    CHECK(inches(top_off_plumb(leaning, 40_in, PostHeight::along_post).along) == Approx(45.0).epsilon(1e-14));
    CHECK(inches(top_off_plumb(leaning, 40_in).along) == Approx(46.125).epsilon(1e-14));
    // Both ways at once: 2 and 3 in over 6 ft are 72, 2, 3: hypotenuse sqrt(5184 + 4 + 9).
    const TopOff both = top_off_plumb({0_ft, 12_ft, 2_in, -3_in}, 6_ft, PostHeight::along_post);
    CHECK(inches(both.across) == Approx(-3.0 * 144.0 / std::sqrt(5197.0)).epsilon(1e-13));
    CHECK(millimetres(top_off_plumb({0_m, 4_m, 5_mm, 0_mm}, 1_m).along) == Approx(20.0).epsilon(1e-13));
}

TEST_CASE("a whole wall at once by hand") {
    PlumbWall wall = four_posts();
    const WallPlumb now = plumb_wall(wall);
    CHECK(now.rule.name == "1 percent of height");
    CHECK(now.move_along == -1.5_in);  // mean of 1, 1 1/2, 2, 1 1/2
    CHECK(now.move_across == 0.25_in);
    CHECK(now.largest == 2_in);
    CHECK(now.largest_at == 2);
    CHECK(now.posts[0].after.along == -0.5_in);
    CHECK(now.posts[3].after.across == -0.75_in);
    CHECK(now.largest_after == 0.75_in);
    CHECK(now.largest_after_at == 3);
    // Deviation: 192 sqrt((1/32/48)^2 + 0.0005^2) = 192 x 0.00082094 = 0.15762 in. The third post reads 2 in against
    // 1.92; less 0.309 it could be within. The first two: 1.5 + 0.309 < 1.92.
    CHECK(inches(now.posts[0].deviation) == Approx(0.15762).epsilon(1e-4));
    CHECK(now.posts[2].verdict == StandingVerdict::undecided);
    CHECK(now.posts[1].verdict == StandingVerdict::proven_within);
    CHECK(now.verdict == StandingVerdict::undecided);
    CHECK(now.verdict_after == StandingVerdict::proven_within);

    // Least worst across: the middle of 0 and -1, so half an inch is left at most instead of three quarters.
    wall.by = BestBy::least_worst;
    const WallPlumb worst = plumb_wall(wall);
    CHECK(worst.move_across == 0.5_in);
    CHECK(worst.posts[3].after.across == -0.5_in);

    // By the strictest rule, 0.4 in at 16 ft, the wall is out, and 1/4 in kept after a move is not proven.
    wall.rule = wall_plumb_handbook;
    CHECK(plumb_wall(wall).verdict == StandingVerdict::out);
    CHECK(plumb_wall(wall).rule.name == "1/4 in in 10 ft");
    // One post alone is moved plumb.
    wall.posts = {wall.posts[0]};
    CHECK(plumb_wall(wall).largest_after == no_length);
    CHECK(plumb_wall(wall).verdict_after == StandingVerdict::proven_within);
    // A level turned end for end has no error of its own: 192 / 48 / 32.
    wall.level_deviation = 0.0;
    CHECK(inches(plumb_wall(wall).posts[0].deviation) == Approx(0.125).epsilon(1e-13));
}

TEST_CASE("posts in space, and no better move") {
    SeededNumbers random{721};
    for (int i = 0; i < sweep(3000); ++i) {
        PlumbWall wall{.posts = {}, .level_length = random.inches_between(24.0, 96.0), .rule = post_frame_plumb};
        wall.by = random.coin() ? BestBy::least_squares : BestBy::least_worst;
        wall.height_is = random.coin() ? PostHeight::vertical : PostHeight::along_post;
        const int count = random.whole(1, 8);
        bool close = true;
        for (int k = 0; k < count; ++k) {
            // A post as a line in space: its direction by two leans. The gap is its lean at the level's other end.
            const double a = random.between(-0.2, 0.2);
            const double b = random.between(-0.1, 0.1);
            const double height = random.between(96.0, 240.0);
            const PostReading post{one_inch * (96.0 * k), one_inch * height, wall.level_length * a,
                                   wall.level_length * b};
            wall.posts.push_back(post);
            const double up = wall.height_is == PostHeight::vertical ? height : height / std::hypot(a, b, 1.0);
            const TopOff top = top_off_plumb(post, wall.level_length, wall.height_is);
            close = close && std::fabs(inches(top.along) - a * up) < 1e-10 &&
                    std::fabs(inches(top.across) - b * up) < 1e-10;
        }
        const WallPlumb done = plumb_wall(wall);
        const auto cost = [&](Length move) {
            double sum = 0.0;
            double most = 0.0;
            for (const PostPlumb& post : done.posts) {
                const double kept = inches(post.top.along + move);
                sum += kept * kept;
                most = std::max(most, std::fabs(kept));
            }
            return wall.by == BestBy::least_squares ? sum : most;
        };
        const double best = cost(done.move_along);
        for (const double step : {-1.0, -0.01, 0.01, 1.0}) {
            close = close && cost(done.move_along + one_inch * step) > best - 1e-9;
        }
        if (!close) {
            FAIL("round " << i);
        }
    }
}

TEST_CASE("walls that cannot be read are refused") {
    const auto refuse = [](const PlumbWall& wall) { return refusal_of([&] { (void)plumb_wall(wall); }); };
    PlumbWall wall = four_posts();
    wall.posts.clear();
    CHECK(refuse(wall).code == FaultCode::missing_field);
    wall = four_posts();
    wall.posts[1].along = 12.1_in;
    CHECK(refuse(wall).path == "wall.posts[1].along");
    wall = four_posts();
    wall.level_length = 5_in;
    CHECK(refuse(wall).path == "wall.level_length");
    wall = four_posts();
    wall.level_deviation = std::nan("");
    CHECK(refuse(wall).code == FaultCode::not_finite);
    wall = four_posts();
    wall.by = static_cast<BestBy>(3);
    CHECK(refuse(wall).code == FaultCode::unknown_name);
    for (const Length none : lengths_that_are_none()) {
        wall = four_posts();
        wall.posts[3].height = none;
        CHECK(refuse(wall).code == FaultCode::not_finite);
        CHECK(refusal_of([&] { (void)top_off_plumb({0_ft, 16_ft, none, 0_in}, 4_ft); }).code == FaultCode::not_finite);
    }
}

TEST_CASE("posts as built: three statements, and what leaning may do") {
    // asbuilt_post_bays.csv: two posts 3 in and 1 1/2 in off, the right side 3/4 in longer.
    const PostLines lines = posts_as_built();
    const BayMarks marks = hold_to_marks(lines);
    REQUIRE(marks.frames.size() == 6);
    CHECK(marks.largest_difference == 3_in);
    CHECK(marks.largest_frame == 1);
    CHECK(marks.frames[2].difference == 1.5_in);
    CHECK(marks.run_difference == -0.75_in);
    std::size_t i = 0;
    for (const TableRow& row : read_table("asbuilt_post_bays.csv")) {
        CHECK(inches(marks.frames[i].difference) == std::stod(row.at("left_minus_right_in")));
        ++i;
    }
    // The bays as the source gives them.
    const std::vector<double> left{120, 144, 144, 144, 119.5};
    const std::vector<double> right{117, 145.5, 144, 144, 121.75};
    for (std::size_t k = 1; k < 6; ++k) {
        CHECK(inches(marks.frames[k].bay_left) == left[k - 1]);
        CHECK(inches(marks.frames[k].bay_right) == right[k - 1]);
    }
    // At a 16 ft eave 1.92 in may be leaned: 3 in not by one post, 1 1/2 in is, and 3 in is shared by two.
    CHECK(inches(marks.lean_limit) == Approx(1.92).epsilon(1e-14));
    CHECK(marks.frames[1].one_leans == StandingVerdict::out);
    CHECK(marks.frames[1].both_lean == StandingVerdict::proven_within);
    CHECK(marks.frames[2].one_leans == StandingVerdict::proven_within);
    CHECK(marks.rule.name == "1 percent of height");
    // Frame 2 runs skew by atan(3/480), and wanders 1 1/2 in along the purlins between eave and ridge.
    CHECK(degrees(marks.frames[1].skew) == Approx(std::atan(3.0 / 480.0) * 180.0 / pi).epsilon(1e-12));
    CHECK(marks.frames[1].over_slope == 1.5_in);

    // Offs from the marks: left 0 0 0 0 0 -1/2, right 0 -3 -1.5 -1.5 -1.5 1/4. Means -1/12, -7.25/6, -7.75/12.
    CHECK(inches(marks.left.shift) == Approx(-1.0 / 12.0).epsilon(1e-12));
    CHECK(inches(marks.right.shift) == Approx(-7.25 / 6.0).epsilon(1e-12));
    CHECK(inches(marks.both.shift) == Approx(-7.75 / 12.0).epsilon(1e-12));
    CHECK(inches(marks.both.largest) == Approx(3.0 - 7.75 / 12.0).epsilon(1e-12));
    CHECK(marks.both.frame == 1);
    CHECK(marks.frames[1].right_lean == StandingVerdict::out);
    // Least worst: the middle of -3 and 1/4 is -1 3/8, and no post is then more than 1 5/8 in off: all may be leaned.
    PostLines worst = lines;
    worst.by = BestBy::least_worst;
    const BayMarks shifted = hold_to_marks(worst);
    CHECK(shifted.both.shift == -1.375_in);
    CHECK(shifted.both.largest == 1.625_in);
    bool all = true;
    for (const FrameOff& frame : shifted.frames) {
        all = all && reads_within(frame.left_lean) && reads_within(frame.right_lean);
    }
    CHECK(all);
}

TEST_CASE("posts on their marks, and lists that do not fit") {
    PostLines lines{
        .marks = {0_ft, 8_ft}, .left = {0_ft, 8_ft}, .right = {0_ft, 8_ft}, .width = 24_ft, .height = 10_ft};
    const BayMarks marks = hold_to_marks(lines);
    CHECK(marks.both.shift == no_length);
    CHECK(marks.largest_difference == no_length);
    CHECK(degrees(marks.frames[1].skew) == 0.0);
    CHECK(marks.frames[1].one_leans == StandingVerdict::proven_within);
    const auto refuse = [](const PostLines& l) { return refusal_of([&] { (void)hold_to_marks(l); }); };
    PostLines bad = lines;
    bad.right.pop_back();
    CHECK(refuse(bad).code == FaultCode::contradiction);
    CHECK(refuse(bad).path == "posts.right");
    bad = lines;
    bad.left = {8_ft, 8_ft};
    CHECK(refuse(bad).code == FaultCode::out_of_order);
    bad = {.marks = {0_ft}, .left = {0_ft}, .right = {0_ft}, .width = 24_ft, .height = 10_ft};
    CHECK(refuse(bad).code == FaultCode::missing_field);
    for (const Length none : lengths_that_are_none()) {
        bad = lines;
        bad.left[1] = none;
        CHECK(refuse(bad).code == FaultCode::not_finite);
        bad = lines;
        bad.width = none;
        CHECK(refuse(bad).path == "posts.width");
    }
}
