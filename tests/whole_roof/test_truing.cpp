// SPDX-License-Identifier: BSL-1.0

// Readings of a whole roof, from the description to the site sheet.

#include <eavewright/squaring/check_pulls.hpp>
#include <eavewright/whole_roof/pull_roof.hpp>
#include <eavewright/whole_roof/roof_marks.hpp>
#include <eavewright/whole_roof/site_steps.hpp>
#include <eavewright/whole_roof/whole_roof.hpp>

#include "../support/compiled.hpp"
#include "../support/refusal.hpp"
#include "readings.hpp"
#include "workshop.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using namespace moved_roofs;

namespace {

SingleSlopeRoof small_single_slope() {
    return {.width = 24_ft,
            .length = 40_ft,
            .pitch = Pitch::in_12(3),
            .eave_overhang = 12_in,
            .high_overhang = 12_in,
            .rake_overhang = 12_in,
            .build_up = {.purlin = 5.5_in, .deck = 0.4375_in},
            .bearing_height = 10_ft,
            .heel = 6_in};
}

const SiteStep* find_step(const SiteSheet& sheet, SiteStepKind kind) {
    for (const SiteStep& step : sheet.steps) {
        if (step.kind == kind) {
            return &step;
        }
    }
    return nullptr;
}

}  // namespace

TEST_CASE("marks stand at the corners of the surface that the sheets lie on") {
    RoofDescription roof = workshop();
    roof.readings = RoofReadings{};
    const auto points = detail::roof_points(roof);
    REQUIRE(points.size() == 6);
    CHECK(points[0].name == "front_left");
    CHECK(points[4].name == "back_left");
    // 60 ft and 12 in past each gable: the eaves are 62 ft; left is left seen from the front, at the low x.
    CHECK(inches(points[1].about.x - points[0].about.x) == doctest::Approx(744.0).epsilon(1e-12));
    CHECK(std::fabs(inches(points[4].about.x - points[0].about.x)) < 1e-9);
    CHECK(std::fabs(inches(points[2].about.x - points[1].about.x)) < 1e-9);
    // The ridge stands over the middle of 36 ft; the eaves 18 in out, fascia and all.
    CHECK(inches(points[4].about.y - points[0].about.y) == doctest::Approx(432.0 + 2.0 * 18.0).epsilon(0.01));
    CHECK(inches(points[3].about.y) == doctest::Approx(216.0).epsilon(1e-9));
}

TEST_CASE("a true roof reads true, and nothing is to be pulled") {
    const TruingResult truing = compiled::true_roof(racked(no_length));
    REQUIRE(truing.network);
    CHECK(truing.network->standing == NetworkStanding::agree);
    CHECK(truing.network->afloat);
    REQUIRE(truing.slopes.size() == 2);
    for (const SlopeTruing& slope : truing.slopes) {
        CHECK(slope.square.diagonals.verdict == StandingVerdict::proven_within);
        CHECK(std::fabs(inches(slope.square.rack.value)) < 1e-6);
        CHECK(std::fabs(inches(slope.ridge_right_off.value)) < 1e-6);
        CHECK(!slope.hidden);
    }
    REQUIRE(truing.pulls);
    CHECK(truing.pulls->verdict == PullVerdict::already_true);
    CHECK(!truing.heights_wanted);
}

// Rafters of 246.6 in over eaves of 744 in: a ridge slid by 5/8 in makes d1^2 - d2^2 = 4 * 744 * 5/8 on both slopes, so
// with diagonals of about 783.8 in their difference is 4 * 744 * 0.625 / (2 * 783.8) = 1.1866 in.
TEST_CASE("a slid ridge is found, and one strap a slope pulls it back") {
    const RoofDescription roof = racked(0.625_in);
    const TruingResult truing = compiled::true_roof(roof);
    CHECK(inches(truing.slopes[0].square.diagonals.value) == doctest::Approx(1.1866).epsilon(1e-3));
    CHECK(inches(truing.slopes[0].square.rack.value) == doctest::Approx(0.625).epsilon(1e-6));
    // From the back, facing up, the same slide goes to the left.
    CHECK(inches(truing.slopes[1].square.rack.value) == doctest::Approx(-0.625).epsilon(1e-6));
    CHECK(truing.slopes[0].square.verdict == StandingVerdict::out);
    CHECK(truing.slopes[0].square.rule.source == "as given");
    REQUIRE(truing.pulls);
    CHECK(truing.pulls->verdict == PullVerdict::pullable);
    CHECK(truing.pulls->straps_tightened == 1);
    REQUIRE(truing.pulls->steps.size() == 1);
    CHECK(!truing.pulls->steps[0].slacken_first.empty());
    const BuildingPullFrame frame = detail::pull_frame_of(roof, *truing.network);
    CHECK(find_faults_of_pull_plan(frame, *truing.pulls).empty());
    // The ridge comes back: within tolerance needs no more than that, so at most all of it.
    const Length back = truing.pulls->moves[2].from.x - truing.pulls->moves[2].to.x;
    CHECK(back > 0.5_in);
    CHECK(back < 0.7_in);
    CHECK(truing.pulls->chance_within > 0.5);
}

TEST_CASE("the roof is laid by what the readings found, and the sheet says what to do") {
    const RoofDescription roof = racked(0.625_in);
    const RoofResult result = compiled::trued_roof(roof);
    REQUIRE(result.truing);
    REQUIRE(result.slopes[0].trueness);
    CHECK(inches(result.slopes[0].trueness->shear) == doctest::Approx(0.625).epsilon(1e-6));
    REQUIRE(result.slopes[0].lay_true);
    CHECK(result.slopes[0].lay_true->best.worst_wedge <= result.slopes[0].lay_true->ways[0].worst_wedge);
    REQUIRE(result.slopes[0].lay_steel_true);
    const SiteSheet sheet = site_sheet(roof, result, 0);
    const SiteStep* pull = find_step(sheet, SiteStepKind::pull);
    REQUIRE(pull != nullptr);
    CHECK(pull->title.find("Pull 1 of 1") == 0);
    CHECK(pull->reading.find("Slacken") == 0);
    CHECK(sheet.cautions.size() == site_sheet(workshop(), compiled::whole_roof(workshop()), 0).cautions.size() + 1);
    CHECK(pull->expected.size() == 4);  // the diagonals of both slopes: sides do not change
    REQUIRE(pull->correction.size() >= 3);
    CHECK(pull->correction[0].label.find("slacken") == 0);
    CHECK(find_step(sheet, SiteStepKind::lay_true) != nullptr);
    CHECK(find_step(sheet, SiteStepKind::read_again) == nullptr);
    for (std::size_t i = 1; i < sheet.steps.size(); ++i) {
        CHECK(place_in_work(sheet.steps[i - 1].kind) <= place_in_work(sheet.steps[i].kind));
    }
}

TEST_CASE("one wrong reading is named, and nothing is pulled or laid by it") {
    RoofDescription roof = racked(0.625_in);
    roof.readings->distances[7].read += 2_in;  // front_left to ridge_right
    const RoofResult result = compiled::trued_roof(roof);
    REQUIRE(result.truing->network);
    CHECK(result.truing->network->standing == NetworkStanding::blunder_placed);
    CHECK(result.truing->network->suspects == std::vector<std::size_t>{7});
    CHECK(inches(result.truing->network->readings[7].blunder) == doctest::Approx(2.0).epsilon(0.05));
    CHECK(!result.truing->pulls);
    CHECK(!result.slopes[0].trueness);
    const SiteSheet sheet = site_sheet(roof, result, 0);
    REQUIRE(find_step(sheet, SiteStepKind::read_again) != nullptr);
    CHECK(find_step(sheet, SiteStepKind::read_again)->correction.size() == 1);
    CHECK(find_step(sheet, SiteStepKind::pull) == nullptr);
}

TEST_CASE("slopes read by tape alone leave corners loose, and heights or the width are asked for") {
    RoofDescription roof = racked(0.625_in);
    roof.readings->levels.clear();
    roof.readings->distances.erase(roof.readings->distances.begin() + 11,
                                   roof.readings->distances.end());  // both slopes, nothing across the building
    const TruingResult truing = compiled::true_roof(roof);
    CHECK(truing.network->standing == NetworkStanding::loose);
    CHECK(truing.slopes[0].square.verdict == StandingVerdict::undecided);
    CHECK(truing.slopes[0].square.loose_corner.has_value());
    CHECK(!truing.pulls);
    REQUIRE(!truing.next.empty());
    CHECK(truing.next[0].settles);  // a distance across the building holds the eaves apart
    const RoofResult result = compiled::trued_roof(roof);
    CHECK(!result.slopes[0].trueness);
    CHECK(find_step(site_sheet(roof, result, 1), SiteStepKind::read_again) != nullptr);
}

// Eaves slid against each other by 1 in cannot both be squared by the ridge: each keeps half.
TEST_CASE("what no pull cures is named with its reason and the best that can be had") {
    RoofDescription roof = workshop();
    Standing s = as_meant(roof);
    s.places[4].x += 1_in;
    s.places[5].x += 1_in;
    roof.readings = read_all(s);
    const TruingResult truing = compiled::true_roof(roof);
    REQUIRE(truing.pulls);
    CHECK(truing.pulls->verdict == PullVerdict::not_pullable);
    int contradicting = 0;
    for (const PulledCondition& each : truing.pulls->conditions) {
        contradicting += each.obstacle == PullObstacle::conditions_contradict ? 1 : 0;
        CHECK(each.met == (each.obstacle == PullObstacle::none));
    }
    CHECK(contradicting >= 1);
    const SiteSheet sheet = site_sheet(roof, compiled::trued_roof(roof), 0);
    REQUIRE(find_step(sheet, SiteStepKind::pull) != nullptr);
    bool said = false;
    for (const SiteStep& step : sheet.steps) {
        said = said || (step.kind == SiteStepKind::pull && step.reading.find("slid") != std::string::npos &&
                        step.reading.find("these pulls take it out") != std::string::npos);
    }
    CHECK(said);
}

TEST_CASE("strings, walls, tails, purlins and posts go onto the sheet by themselves") {
    RoofDescription roof = workshop();
    RoofReadings read{};
    read.strings = {{"front eave", {.readings = {{0_ft, 0_in}, {20_ft, 0.5_in}, {40_ft, 0.25_in}, {60_ft, 0_in}}}}};
    read.walls = {{"front",
                   {.posts = {{0_ft, 12_ft, 0.25_in, 0_in}, {60_ft, 12_ft, 0.25_in, 0_in}},
                    .level_length = 6_ft,
                    .rule = post_frame_plumb}}};
    read.tails = {{"front",
                   {.tails = {{0_ft, 1_in}, {10_ft, 1.5_in}, {20_ft, 1.25_in}},
                    .rule = TailRule::parallel_to_string,
                    .most_cut = 1_in}}};
    read.purlins = {{"row 3", {.supports = {{0_ft, 0_in}, {10_ft, -0.375_in}, {20_ft, 0_in}}}}};
    read.crossings = {{1, {.upper = UpperString::up_right, .clear_gap = 0.5_in, .thickness = 0.0625_in}}};
    read.posts = PostLines{.marks = {0_ft, 10_ft, 22_ft},
                           .left = {0_ft, 10_ft, 22_ft},
                           .right = {0_ft, 9.75_ft, 22_ft},
                           .width = 36_ft,
                           .height = 12_ft};
    roof.readings = read;
    const RoofResult result = compiled::trued_roof(roof);
    CHECK(!result.truing->network);
    CHECK(result.truing->slopes.empty());
    const SiteSheet front = site_sheet(roof, result, 0);
    const std::vector<SiteSheet> parts = sheets_of_work(front);
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].steps.size() + parts[1].steps.size() == front.steps.size());
    CHECK(find_step(parts[0], SiteStepKind::shims) != nullptr);
    CHECK(find_step(parts[1], SiteStepKind::first_row) != nullptr);
    CHECK(sheets_of_work(site_sheet(workshop(), compiled::whole_roof(workshop()), 0)).size() == 1);
    for (const SiteStepKind kind :
         {SiteStepKind::posts, SiteStepKind::walls, SiteStepKind::strings, SiteStepKind::tails, SiteStepKind::shims}) {
        REQUIRE(find_step(front, kind) != nullptr);
        CHECK(!find_step(front, kind)->marks.empty());
    }
    CHECK(find_step(front, SiteStepKind::twist) == nullptr);  // strings were crossed over the back
    CHECK(find_step(site_sheet(roof, result, 1), SiteStepKind::twist) != nullptr);
    // 1/4 in over 6 ft of level is 1/2 in over 12 ft of post.
    CHECK(inches(result.truing->walls[0].found.move_along) == doctest::Approx(-0.5).epsilon(1e-3));
}

TEST_CASE("readings that name no mark, or do not fit, are refused under their own names") {
    RoofDescription roof = racked(no_length);
    roof.readings->distances[3].to = "nowhere";
    Fault fault = refusal_of([&] { (void)compiled::true_roof(roof); });
    CHECK(fault.code == FaultCode::unknown_name);
    CHECK(fault.path == "readings.distances[3].to");
    roof = racked(no_length);
    roof.readings->tapes.clear();
    CHECK(refusal_of([&] { (void)compiled::true_roof(roof); }).code == FaultCode::out_of_range);
    roof = racked(no_length);
    roof.readings->crossings = {{7, {.upper = UpperString::up_right, .clear_gap = 0.5_in, .thickness = 0_in}}};
    CHECK(refusal_of([&] { (void)compiled::true_roof(roof); }).path == "readings.crossings[0].slope");
    // Every fault at once, each where it stands in its own list.
    roof = racked(no_length);
    roof.readings->levels[2].deviation = 20_in;
    roof.readings->offsets = {{"front_left", "ridge_left", "ridge_left", 0_in}};
    roof.readings->strings = {{"short", {.readings = {{0_ft, 0_in}}}}};
    roof.readings->pulling.straps = {{"one", "front_left", "front_left"}, {"one", "front_left", "ridge_right"}};
    std::string paths;
    for (const Fault& each : compiled::check(roof)) {
        paths += each.path + "; ";
    }
    CHECK(paths ==
          "readings.offsets[0].to; readings.levels[2].deviation; readings.pulling.straps[0].to; "
          "readings.pulling.straps[1].name; readings.strings[0].readings; ");
    roof = racked(no_length);
    CHECK(refusal_of([&] { (void)compiled::whole_roof(roof); }).code == FaultCode::not_supported);
    roof.readings = std::nullopt;
    CHECK(refusal_of([&] { (void)compiled::true_roof(roof); }).code == FaultCode::missing_field);
    const TruingResult gable = compiled::true_roof(racked(no_length));
    RoofDescription single = workshop();
    single.shape = small_single_slope();
    CHECK(refusal_of([&] { (void)compiled::whole_roof(single, gable); }).code == FaultCode::does_not_fit);
}

// A single slope stands on two walls: its high edge goes along the high wall. Six distances and four heights, one to spare
// beside the two that heights over a known fall bring.
TEST_CASE("a single slope is read, judged and pulled along its high wall") {
    RoofDescription roof = workshop();
    roof.shape = small_single_slope();
    Standing s = as_meant(roof);
    REQUIRE(s.names == std::vector<std::string>{"eave_left", "eave_right", "top_right", "top_left"});
    s.places[2].x -= 0.5_in;
    s.places[3].x -= 0.5_in;
    RoofReadings read{};
    for (std::size_t a = 0; a < 4; ++a) {
        for (std::size_t b = 0; b < a; ++b) {
            read.distances.push_back({s.names[b], s.names[a], distance_between(s.places[a], s.places[b])});
        }
        read.levels.push_back({s.names[a], 20_ft - s.places[a].z});
    }
    roof.readings = read;
    const TruingResult truing = compiled::true_roof(roof);
    REQUIRE(truing.slopes.size() == 1);
    CHECK(truing.network->standing == NetworkStanding::agree);
    CHECK(inches(truing.slopes[0].square.rack.value) == doctest::Approx(-0.5).epsilon(1e-6));
    REQUIRE(truing.pulls);
    CHECK(truing.pulls->verdict == PullVerdict::pullable);
    REQUIRE(truing.pulls->steps.size() == 1);
    // Leaning to the left, the diagonal from the right eave corner reads long: that one is pulled.
    CHECK(truing.pulls->steps[0].name == "up_left");
    CHECK(find_faults_of_pull_plan(detail::pull_frame_of(roof, *truing.network), *truing.pulls).empty());
    CHECK(inches(truing.pulls->moves[2].to.x - truing.pulls->moves[2].from.x) == doctest::Approx(0.5).epsilon(0.1));
    CHECK(std::fabs(inches(truing.pulls->moves[2].to.z - truing.pulls->moves[2].from.z)) < 1e-9);
}
