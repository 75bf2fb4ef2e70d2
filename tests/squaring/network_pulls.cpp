// SPDX-License-Identifier: BSL-1.0

// From found points to pulls: against the closed forms of one slope and of a shared ridge, by hand, and where nothing
// can be pulled.

#include <eavewright/squaring/check_pulls.hpp>
#include <eavewright/squaring/plan_pulls.hpp>
#include <eavewright/squaring/pull_frames.hpp>
#include <eavewright/squaring/true_up_pair.hpp>

#include "../support/printing.hpp"
#include "../support/refusal.hpp"
#include "quads.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

FourCorners corners_of(const Quad& q) {
    const auto corner = [](const std::array<double, 2>& p) { return PlaneCorner{one_inch * p[0], one_inch * p[1]}; };
    return {corner(q[0]), corner(q[1]), corner(q[2]), corner(q[3])};
}

/// 480 by 360 in leans so that up_right reads 601 in. The squares of both diagonals sum to 2 (480^2 + 360^2) = 720,000,
/// so up_left is sqrt(720,000 - 361,201) = 598.998331 in; the lean is (361,201 - 358,799) / (4 * 480) = 1.251042 in.
Quad leaning() {
    const double lean = 2402.0 / 1920.0;
    const double height = std::sqrt(360.0 * 360.0 - lean * lean);
    return {{{0.0, 0.0}, {480.0, 0.0}, {480.0 + lean, height}, {lean, height}}};
}
PlanePullFrame leaning_frame() { return slope_frame(corners_of(leaning())); }

template <class Place>
bool accepted(const PullFrame<Place>& frame, const PullPlan<Place>& plan) {
    const Faults faults = find_faults_of_pull_plan(frame, plan);
    if (!faults.empty()) {
        MESSAGE(describe(faults[0]));
    }
    return faults.empty();
}
bool is_near(Length a, double b, double within) { return std::fabs(inches(a) - b) <= within; }

PullPlan<PlaneCorner> fewest(const PlanePullFrame& frame) {
    const auto plan = plan_pulls(frame, PullChoice::fewest_straps);
    CHECK(accepted(frame, plan));
    return plan;
}

/// A gable in the building: middles of eaves and ridge along x, as seen from the front.
struct Gable {
    double front;
    double ridge;
    double back;
    double along = 720.0;
};
GableCorners gable_of(const Gable& g) {
    const auto at = [](double x, double y, double z) {
        return BuildingPoint{one_inch * x, one_inch * y, one_inch * z};
    };
    const double half = g.along / 2.0;
    return {at(g.front - half, 0.0, 0.0),    at(g.front + half, 0.0, 0.0),  at(g.ridge + half, 240.0, 80.0),
            at(g.ridge - half, 240.0, 80.0), at(g.back - half, 480.0, 0.0), at(g.back + half, 480.0, 0.0)};
}
FourSides sides_of(const BuildingPoint& eave_left, const BuildingPoint& eave_right, const BuildingPoint& ridge_right,
                   const BuildingPoint& ridge_left) {
    return {.eave = distance_between(eave_left, eave_right),
            .ridge = distance_between(ridge_left, ridge_right),
            .left = distance_between(eave_left, ridge_left),
            .right = distance_between(eave_right, ridge_right),
            .up_right = distance_between(eave_left, ridge_right),
            .up_left = distance_between(eave_right, ridge_left)};
}
PairTrueness pair_of(const GableCorners& g) {
    return true_up_pair(true_up(sides_of(g.front_left, g.front_right, g.ridge_right, g.ridge_left)),
                        true_up(sides_of(g.back_right, g.back_left, g.ridge_left, g.ridge_right)));
}
double ridge_move(const PullPlan<BuildingPoint>& plan) {
    return inches(plan.moves[2].to.x - plan.moves[2].from.x + plan.moves[3].to.x - plan.moves[3].from.x) / 2.0;
}

}  // namespace

TEST_CASE("a slope 1 in too long over one diagonal, by hand") {
    const PlanePullFrame frame = leaning_frame();
    const PullPlan<PlaneCorner> plan = fewest(frame);
    CHECK(plan.verdict == PullVerdict::pullable);
    CHECK(plan.caution == pulling_caution);
    // The rectangle's diagonal is 600 in: up_right comes 1 in shorter, up_left 600 - 598.998331 = 1.001669 in longer.
    CHECK(is_near(plan.straps[0].change, -1.0, 1e-8));
    CHECK(plan.straps[0].tightened);
    CHECK(is_near(plan.straps[1].change, 1.001669, 1e-6));
    CHECK_FALSE(plan.straps[1].tightened);
    REQUIRE(plan.steps.size() == 1);
    CHECK(plan.steps[0].name == "up_right");
    CHECK(is_near(plan.steps[0].target, 600.0, 1e-8));
    CHECK(plan.steps[0].tighten_by_ticks == 1_in);
    REQUIRE(plan.steps[0].slacken_first.size() == 1);
    CHECK(plan.steps[0].slacken_first[0].name == "up_left");
    CHECK(is_near(plan.steps[0].slacken_first[0].by, 1.001669, 1e-6));
    CHECK(plan.steps[0].slacken_first[0].by_ticks == 1.0625_in);  // up to a whole sixteenth
    CHECK(is_near(plan.steps[0].conditions[0].first, 600.0, 1e-8));
    CHECK(is_near(plan.steps[0].conditions[0].second, 600.0, 1e-8));
    // Both ridge points go 1.251042 in to the left and rise 360 - 359.997826 = 0.002174 in; the eave stands.
    CHECK(is_near(plan.moves[2].to.along, 480.0, 1e-8));
    CHECK(is_near(plan.moves[3].to.along, 0.0, 1e-8));
    CHECK(is_near(plan.moves[3].to.up, 360.0, 1e-8));
    CHECK(plan.moves[0].distance == no_length);
    CHECK(is_near(plan.largest_movement, 1.251044, 1e-6));
    CHECK(is_near(plan.total_movement, 1.769243, 1e-6));  // 1.251044 sqrt 2
    // A pull 1/16 in off leaves the diagonals twice that apart, just the tolerance of 1/8 in: one standard deviation to
    // each side holds 68.27 %; read to 1/32 in it is two, 95.45 %.
    CHECK(plan.chance_within == doctest::Approx(0.6826895).epsilon(1e-5));
    CHECK(plan.chance_pulled_to_read == doctest::Approx(0.9544997).epsilon(1e-5));
    CHECK(plan.chance_exact_pulls == 1.0);
}

TEST_CASE("errors of the found points stay in the end, by hand") {
    // 1/32 in on each coordinate of the ridge. Diagonals lie 4 on 3, so that the misfit errs by
    // 0.8 x2 + 0.6 y2 + 0.8 x3 - 0.6 y3: variance (0.64 + 0.36 + 0.64 + 0.36) / 1024 = 2 / 1024, limit 2.828 deviations.
    PlanePullFrame frame = leaning_frame();
    frame.conditions.erase(frame.conditions.begin() + 1,
                           frame.conditions.end());  // the diagonals alone: sides would have to be equal too
    Covariance covariance{4, 2, std::vector<double>(64, 0.0)};
    for (std::size_t i = 4; i < 8; ++i) {
        covariance.entries[i * 9] = 1.0 / 1024.0;
    }
    frame.covariance = covariance;
    const PullPlan<PlaneCorner> plan = fewest(frame);
    // That is 99.5322 %; the pull turns the rakes by 1 in 288, which the plan follows and this sum does not.
    CHECK(plan.chance_exact_pulls == doctest::Approx(0.995322).epsilon(2e-4));
    // With the pull, (2 + 16) / 1024: 0.942809 deviations, 65.4221 %.
    CHECK(plan.chance_within == doctest::Approx(0.654221).epsilon(2e-4));
    CHECK(plan.chance_exact_points == doctest::Approx(0.6826895).epsilon(1e-5));
}

TEST_CASE("one slope agrees with its closed form") {
    Seeded random{7};
    for (int i = 0; i < 60; ++i) {
        const Quad quad = random_quad(random, random.between(300.0, 800.0), random.between(150.0, 300.0), 4.0);
        const Trueness closed = true_up(exact_readings(quad));
        UsualFrame usual{};
        usual.judge_sides = false;
        const PlanePullFrame frame = slope_frame(corners_of(quad), usual);
        const PullPlan<PlaneCorner> plan = plan_pulls(frame, PullChoice::least_movement);
        CAPTURE(i);
        CHECK(accepted(frame, plan));
        if (plan.verdict == PullVerdict::already_true) {
            CHECK(closed.diagonals.reads_within);
            continue;
        }
        const bool right = closed.shorten == Diagonal::up_right;
        const double move = inches(plan.moves[2].to.along - plan.moves[2].from.along + plan.moves[3].to.along -
                                   plan.moves[3].from.along) /
                            2.0;
        CHECK(plan.verdict == PullVerdict::pullable);
        CHECK(std::fabs(move - inches(closed.ridge_move)) < 1e-6);
        CHECK(is_near(plan.straps[0].after, inches(closed.target_diagonal), 1e-6));
        CHECK(is_near(plan.straps[1].after, inches(closed.target_diagonal), 1e-6));
        CHECK(plan.straps[right ? 0 : 1].tightened);
        CHECK(is_near(plan.straps[right ? 0 : 1].change, -inches(closed.shorten_by), 1e-6));
    }
}

TEST_CASE("a shared ridge agrees with its closed form") {
    // Both off by 2 in: one pull, whichever slope's strap does it.
    const GableCorners both = gable_of({0.0, 2.0, 0.0});
    const BuildingPullFrame frame = gable_frame(both);
    const PullPlan<BuildingPoint> plan = plan_pulls(frame, PullChoice::fewest_straps);
    CHECK(accepted(frame, plan));
    CHECK(pair_of(both).verdict == PairVerdict::pull_ridge);
    CHECK(plan.verdict == PullVerdict::pullable);
    CHECK(plan.straps_tightened == 1);
    CHECK(plan.steps[0].name == "front up_right");
    CHECK(plan.steps[0].slacken_first.size() == 2);  // front up_left and back up_right, which is the same way round
    CHECK(std::fabs(ridge_move(plan) - inches(pair_of(both).ridge_move)) < 1e-6);

    // A slide of 0.1 in is split: both make the larger misfit least, not the sum of squares, which for slopes of one
    // size would be the same place.
    const GableCorners slight = gable_of({0.0, 2.0, 0.1});
    const PullPlan<BuildingPoint> split = plan_pulls(gable_frame(slight), PullChoice::least_movement);
    CHECK(split.verdict == PullVerdict::pullable);
    CHECK(std::fabs(ridge_move(split) - inches(pair_of(slight).ridge_move)) < 1e-4);  // that one is of first order
    CHECK(is_near(split.conditions[0].after.misfit, inches(pair_of(slight).front.diagonal_difference), 1e-4));
    CHECK(std::fabs(inches(split.conditions[0].after.misfit - split.conditions[3].after.misfit)) < 1e-8);

    // A slide of 3 in cannot be: each slope could be had, not both, and each keeps half.
    const GableCorners slid = gable_of({0.0, 2.0, 3.0});
    const BuildingPullFrame slid_frame = gable_frame(slid);
    const PullPlan<BuildingPoint> best = plan_pulls(slid_frame, PullChoice::fewest_straps);
    CHECK(accepted(slid_frame, best));
    CHECK(pair_of(slid).verdict == PairVerdict::eaves_slid);
    CHECK(best.verdict == PullVerdict::not_pullable);
    CHECK(best.conditions[0].obstacle == PullObstacle::conditions_contradict);
    CHECK(best.conditions[3].obstacle == PullObstacle::conditions_contradict);
    CHECK(inches(best.conditions[0].best) < 1e-8);
    CHECK(std::fabs(ridge_move(best) - inches(pair_of(slid).ridge_move)) < 1e-3);
    CHECK(is_near(best.conditions[0].after.misfit, inches(pair_of(slid).front.diagonal_difference), 1e-3));
    CHECK(best.chance_within < 1e-6);

    // Where the eaves may slide it can be, with one strap on each slope.
    UsualFrame sliding{};
    sliding.eaves = EaveHold::along;
    const BuildingPullFrame loose = gable_frame(slid, sliding);
    for (const PullChoice choice : {PullChoice::fewest_straps, PullChoice::least_movement}) {
        const PullPlan<BuildingPoint> cured = plan_pulls(loose, choice);
        CHECK(accepted(loose, cured));
        CHECK(cured.verdict == PullVerdict::pullable);
        CHECK(cured.straps_tightened == 2);
        // Independent pulls, one misfit each: 0.6827 squared.
        CHECK(cured.chance_within == doctest::Approx(0.466065).epsilon(1e-3));
    }
}

TEST_CASE("a trapezoid is named, and what can be had is pulled") {
    // Ridge 2 in longer than the eave: symmetric, the diagonals are equal, nothing to pull.
    const Quad even{{{0.0, 0.0}, {480.0, 0.0}, {481.0, 240.0}, {-1.0, 240.0}}};
    const PullPlan<PlaneCorner> still = fewest(slope_frame(corners_of(even)));
    CHECK(still.verdict == PullVerdict::not_pullable);
    CHECK(still.steps.empty());
    CHECK(still.conditions[0].met);
    CHECK(still.conditions[1].obstacle == PullObstacle::members_fix_it);
    CHECK(is_near(still.conditions[1].best, 2.0, 1e-9));
    CHECK(still.conditions[2].met);
    CHECK(still.chance_exact_pulls == 0.0);
    // Leaning as well: the diagonals are pulled equal, the sides stay.
    const Quad leans{{{0.0, 0.0}, {480.0, 0.0}, {484.0, 240.0}, {2.0, 240.0}}};
    const PullPlan<PlaneCorner> pulled = fewest(slope_frame(corners_of(leans)));
    CHECK(pulled.verdict == PullVerdict::not_pullable);
    CHECK(pulled.straps[0].tightened);
    CHECK(inches(magnitude(pulled.conditions[0].after.misfit)) < 1e-8);
    CHECK(is_near(pulled.conditions[1].after.misfit, -2.0, 1e-8));
    CHECK(pulled.conditions[1].obstacle == PullObstacle::members_fix_it);
}

TEST_CASE("what cannot be pulled says why") {
    const auto obstacle = [](const PlanePullFrame& frame) {
        const PullPlan<PlaneCorner> plan = fewest(frame);
        CHECK(plan.verdict == PullVerdict::not_pullable);
        CHECK_FALSE(plan.conditions[0].met);
        return plan.conditions[0].obstacle;
    };
    SUBCASE("no strap at all") {
        PlanePullFrame frame = leaning_frame();
        frame.straps.clear();
        CHECK(obstacle(frame) == PullObstacle::no_strap_moves_it);
    }
    SUBCASE("everything held") {
        PlanePullFrame frame = leaning_frame();
        frame.points[2].freedom = Held{};
        frame.points[3].freedom = Held{};
        CHECK(obstacle(frame) == PullObstacle::points_held);
    }
    SUBCASE("only the short diagonal has a strap") {
        PlanePullFrame frame = leaning_frame();
        frame.straps.erase(frame.straps.begin());
        CHECK(obstacle(frame) == PullObstacle::would_have_to_push);
        CHECK(fewest(frame).steps.empty());
    }
    SUBCASE("a strap with half an inch left in it") {
        PlanePullFrame frame = leaning_frame();
        frame.straps[0].most_shortening = 0.5_in;
        CHECK(obstacle(frame) == PullObstacle::strap_limit);
        const PullPlan<PlaneCorner> plan = fewest(frame);
        CHECK(is_near(plan.straps[0].change, -0.5, 1e-8));  // as far as it goes
        // 600.5^2 = 360,600.25 leaves 359,399.75 for the other: 599.499583 in, 1.000417 in apart.
        CHECK(is_near(plan.conditions[0].after.misfit, 1.000417, 1e-6));
        CHECK(is_near(plan.conditions[0].best, 1.000417, 1e-6));
    }
    SUBCASE("a chimney that lets no point go further than 1/4 in") {
        PlanePullFrame frame = leaning_frame();
        frame.most_movement = 0.25_in;
        CHECK(obstacle(frame) == PullObstacle::moves_too_far);
        const PullPlan<PlaneCorner> plan = fewest(frame);
        CHECK(is_near(plan.largest_movement, 0.25, 1e-8));
        // The lean that is left is 1.251042 - 0.25 in: 4 * 480 * 1.001042 / 1200 = 1.6017 in apart.
        CHECK(is_near(plan.conditions[0].after.misfit, 1.6017, 1e-3));
    }
    SUBCASE("two lengths for one distance") {
        PlanePullFrame frame = leaning_frame();
        frame.conditions = {WantedDistance{"one", 0, 2, 600_in, 0.125_in},
                            WantedDistance{"other", 0, 2, 599_in, 0.25_in}};
        const PullPlan<PlaneCorner> plan = fewest(frame);
        CHECK(obstacle(frame) == PullObstacle::conditions_contradict);
        CHECK(plan.conditions[1].obstacle == PullObstacle::conditions_contradict);
        // Each is left the same share of its tolerance: 1 in goes 1 to 2.
        CHECK(is_near(plan.conditions[0].after.misfit, -1.0 / 3.0, 1e-7));
        CHECK(is_near(plan.conditions[1].after.misfit, 2.0 / 3.0, 1e-7));
    }
    SUBCASE("a distance beyond what the members reach") {
        PlanePullFrame frame = leaning_frame();
        frame.conditions = {WantedDistance{"too long", 1, 3, 900_in, 0.125_in}};
        CHECK(obstacle(frame) == PullObstacle::no_position_found);
    }
    SUBCASE("points in line that lock as soon as they move") {
        PlanePullFrame frame{};
        frame.points = {{"a", {0_in, 0_in}, Held{}},
                        {"b", {100_in, 0_in}, Free{}},
                        {"c", {200_in, 0_in}, Held{}},
                        {"stake", {100_in, 100_in}, Held{}}};
        frame.members = {{0, 1}, {1, 2}};
        frame.straps = {{"up", 1, 3}};
        frame.conditions = {WantedDistance{"nearer", 1, 3, 99_in, 0.125_in}};
        CHECK(obstacle(frame) == PullObstacle::no_position_found);
    }
}

TEST_CASE("a bowed eave is pulled straight, and a point free along a line stays on it") {
    PlanePullFrame frame{};
    frame.points = {{"left", {0_in, 0_in}, Held{}},
                    {"middle", {240_in, -0.75_in}, Free{}},
                    {"right", {480_in, 0_in}, Held{}},
                    {"stake", {240_in, 120_in}, Held{}}};
    frame.straps = {{"to the stake", 1, 3}};
    frame.conditions = {OnLine{"straight", 1, 0, 2, 0.125_in}};
    PullPlan<PlaneCorner> plan = fewest(frame);
    CHECK(plan.verdict == PullVerdict::pullable);
    CHECK(is_near(plan.conditions[0].now.misfit, -0.75, 1e-9));  // to the right of the line from left to right
    CHECK(is_near(plan.straps[0].change, -0.75, 1e-8));
    // One pull, one misfit: 1/8 in is two standard deviations.
    CHECK(plan.chance_within == doctest::Approx(0.9544997).epsilon(1e-6));
    // Free along a slot that leans 3 on 4, it must go 0.75 / 0.8 = 0.9375 in along it.
    frame.points[1].freedom = FreeAlong<PlaneCorner>{{30_in, 40_in}};
    plan = fewest(frame);
    CHECK(plan.verdict == PullVerdict::pullable);
    CHECK(is_near(plan.largest_movement, 0.9375, 1e-8));
    CHECK(is_near(plan.moves[1].to.along, 240.5625, 1e-8));
    // Within tolerance as found: left alone.
    frame.points[1].about = {240_in, 0.1_in};
    plan = fewest(frame);
    CHECK(plan.verdict == PullVerdict::already_true);
    CHECK(plan.steps.empty());
    CHECK(plan.total_movement == no_length);
    CHECK(plan.chance_within == 1.0);
}

TEST_CASE("fewest straps and least movement differ where two straps share the work") {
    // A post pulled by two straps at right angles towards a mark between them: each alone takes it nearer only.
    PlanePullFrame frame{};
    frame.points = {{"post", {0_in, 0_in}, Free{}},
                    {"east", {200_in, 0_in}, Held{}},
                    {"north", {0_in, 200_in}, Held{}},
                    {"both", {150_in, 150_in}, Held{}},
                    {"gauge", {300_in, 300_in}, Held{}}};
    frame.straps = {{"to the east", 0, 1}, {"to the north", 0, 2}, {"between", 0, 3}};
    frame.conditions = {WantedDistance{"mark", 0, 4, one_inch * (std::sqrt(180000.0) - 1.0), 0.125_in}};
    const PullPlan<PlaneCorner> one = fewest(frame);
    CHECK(one.straps_tightened == 1);
    CHECK(one.straps[2].tightened);  // the straight way is the least
    CHECK(is_near(one.total_movement, 1.0, 1e-8));
    frame.straps.pop_back();
    const PullPlan<PlaneCorner> few = fewest(frame);
    CHECK(few.straps_tightened == 1);
    CHECK(is_near(few.total_movement, 1.41, 0.01));  // an inch on the slant, taken along one side
    const PullPlan<PlaneCorner> least = plan_pulls(frame, PullChoice::least_movement);
    CHECK(accepted(frame, least));
    CHECK(least.straps_tightened == 2);
    CHECK(is_near(least.total_movement, 1.0, 1e-6));
    REQUIRE(least.steps.size() == 2);
    // One after the other: the first alone goes 0.7071 in east, where 1 in of the mark is half reached.
    CHECK(is_near(least.steps[0].conditions[0].misfit, 0.5, 2e-3));
    CHECK(is_near(least.steps[1].conditions[0].misfit, 0.0, 1e-8));
}

TEST_CASE("frames that are none are refused") {
    const auto refused = [](const PlanePullFrame& frame) {
        return refusal_of([&] { (void)plan_pulls(frame, PullChoice::fewest_straps); }).code;
    };
    const PlanePullFrame good = leaning_frame();
    PlanePullFrame bad = good;
    for (int i = 0; i < 11; ++i) {
        bad.straps.push_back({"more " + std::to_string(i), 0, 2});
    }
    CHECK(refused(bad) == FaultCode::too_much_work);  // 13 straps
    bad = good;
    bad.conditions.clear();
    CHECK(refused(bad) == FaultCode::missing_field);
    bad = good;
    bad.points.clear();
    CHECK(refused(bad) == FaultCode::missing_field);
    bad = good;
    bad.members[0].to = 4;
    CHECK(refused(bad) == FaultCode::out_of_range);
    bad = good;
    bad.straps[0].to = bad.straps[0].from;
    CHECK(refused(bad) == FaultCode::contradiction);
    bad = good;
    bad.straps[1].name = "up_right";
    CHECK(refused(bad) == FaultCode::contradiction);
    bad = good;
    bad.points[2].about = bad.points[1].about;
    CHECK(refused(bad) == FaultCode::out_of_range);  // a member of no length has no direction
    bad = good;
    bad.covariance = Covariance{4, 2, std::vector<double>(16, 0.0)};
    CHECK(refused(bad) == FaultCode::does_not_fit);
    bad.covariance = Covariance{4, 2, std::vector<double>(64, 0.0)};
    bad.covariance->entries[0] = -1.0;
    CHECK(refused(bad) == FaultCode::contradiction);
    bad.covariance->entries[0] = std::numeric_limits<double>::quiet_NaN();
    CHECK(refused(bad) == FaultCode::not_finite);
    bad = good;
    bad.conditions[0] = EqualDistances{"diagonals", 0, 2, 1, 3, no_length};
    CHECK(refused(bad) == FaultCode::out_of_range);
    for (const Length none : lengths_that_are_none()) {
        bad = good;
        bad.points[3].about.up = none;
        CHECK(refused(bad) == FaultCode::not_finite);
        bad = good;
        bad.pull_deviation = none;
        CHECK(refused(bad) == FaultCode::not_finite);
        bad = good;
        bad.most_movement = none;
        CHECK(refused(bad) == FaultCode::not_finite);
    }
    CHECK(refusal_of([&] { (void)plan_pulls(good, static_cast<PullChoice>(2)); }).code == FaultCode::unknown_name);
    UsualFrame usual{};
    usual.tolerance.diagonal_difference = no_length;
    CHECK(refusal_of([&] { (void)slope_frame(corners_of(leaning()), usual); }).code == FaultCode::out_of_range);
}
