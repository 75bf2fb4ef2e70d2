// SPDX-License-Identifier: BSL-1.0

// What judges a plan of pulls rejects plans that were tampered with; chances against known ones; rounds compared.

#include <eavewright/squaring/check_pulls.hpp>
#include <eavewright/squaring/next_pulls.hpp>
#include <eavewright/squaring/plan_pulls.hpp>
#include <eavewright/squaring/pull_frames.hpp>

#include "../support/printing.hpp"
#include "../support/refusal.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using squaring_detail::chance_in_box;

namespace {

/// 480 by 360 in, its ridge 1.2 in to the right, its eave free to slide: two ways to go, one of them of the whole.
PlanePullFrame frame_to_pull() {
    const double height = std::sqrt(360.0 * 360.0 - 1.44);
    UsualFrame usual{};
    usual.eaves = EaveHold::along;
    PlanePullFrame frame =
        slope_frame({{0_in, 0_in}, {480_in, 0_in}, {481.2_in, one_inch * height}, {1.2_in, one_inch * height}}, usual);
    frame.straps[0].most_shortening = 2_in;
    frame.most_movement = 1_in;
    return frame;
}

/// The path of the first fault, or nothing.
std::string rejected(const PlanePullFrame& frame, const PullPlan<PlaneCorner>& plan) {
    const Faults faults = find_faults_of_pull_plan(frame, plan);
    return faults.empty() ? std::string{} : faults[0].path;
}

}  // namespace

TEST_CASE("tampered plans are rejected by what is wrong with them") {
    const PlanePullFrame frame = frame_to_pull();
    const PullPlan<PlaneCorner> good = plan_pulls(frame, PullChoice::fewest_straps);
    REQUIRE(good.verdict == PullVerdict::pullable);
    CHECK(rejected(frame, good) == "");
    const auto with = [&](auto&& change) {
        PullPlan<PlaneCorner> plan = good;
        change(plan);
        return rejected(frame, plan);
    };
    using Plan = PullPlan<PlaneCorner>;
    const Length little = 0.001_in;
    CHECK(with([&](Plan& p) { p.moves.pop_back(); }) == "moves");
    CHECK(with([&](Plan& p) { p.moves[2].to.along += little; }) == "moves[2].distance");
    CHECK(with([&](Plan& p) { p.moves[0].from.up += little; }) == "moves[0].from");
    CHECK(with([&](Plan& p) { p.total_movement += little; }) == "total_movement");
    CHECK(with([&](Plan& p) { p.straps[0].now += little; }) == "straps[0].now");
    CHECK(with([&](Plan& p) { p.straps[1].after -= little; }) == "straps[1].after");
    CHECK(with([&](Plan& p) { p.straps[0].change = -p.straps[0].change; }) == "straps[0].change");
    CHECK(with([&](Plan& p) { p.straps[0].tension = -p.straps[0].tension; }) == "straps[0].tension");
    CHECK(with([&](Plan& p) { p.straps[1].tension = 1_in; }) == "straps[1].tension");
    CHECK(with([&](Plan& p) { p.straps[1].tightened = true; }) == "straps_tightened");
    CHECK(with([&](Plan& p) { p.member_tensions[3] += little; }) == "moves[2].to");
    CHECK(with([&](Plan& p) { p.conditions[0].now.misfit += little; }) == "conditions[0].now");
    CHECK(with([&](Plan& p) { p.conditions[0].after.misfit += little; }) == "conditions[0].after");
    CHECK(with([&](Plan& p) { p.conditions[0].tolerance += little; }) == "conditions[0].tolerance");
    CHECK(with([&](Plan& p) { p.conditions[1].met = false; }) == "conditions[1].met");
    CHECK(with([&](Plan& p) { p.conditions[1].obstacle = PullObstacle::points_held; }) == "conditions[1].obstacle");
    CHECK(with([&](Plan& p) { p.steps.clear(); }) == "steps");
    CHECK(with([&](Plan& p) { p.steps[0].strap = 7; }) == "steps[0].strap");
    CHECK(with([&](Plan& p) { p.steps[0].tighten_by += little; }) == "steps[0].tighten_by");
    CHECK(with([&](Plan& p) { p.steps[0].tighten_by_ticks += 0.0625_in; }) == "steps[0].tighten_by_ticks");
    CHECK(with([&](Plan& p) { p.steps[0].slacken_first.clear(); }) == "steps[0].slacken_first");
    CHECK(with([&](Plan& p) { p.steps[0].slacken_first[0].by -= little; }) == "steps[0].slacken_first");
    CHECK(with([&](Plan& p) { p.verdict = PullVerdict::already_true; }) == "verdict");
    CHECK(with([&](Plan& p) { p.verdict = PullVerdict::not_pullable; }) == "verdict");
    CHECK(with([&](Plan& p) { p.chance_within = 1.5; }) == "chance_within");
    CHECK(with([&](Plan& p) { p.chance_exact_pulls = std::sqrt(-1.0); }) == "chance_within");
    CHECK(with([&](Plan& p) { p.largest_movement = (one_inch - one_inch) / 0.0; }) == "largest_movement");
    // The whole, slid by 0.1 in, has the same lengths everywhere: only the balance shows that it need not have gone.
    CHECK(with([&](Plan& p) {
              double squares = 0.0;
              p.largest_movement = no_length;
              for (auto& each : p.moves) {
                  each.to.along += 0.1_in;
                  each.distance = distance_between(each.from, each.to);
                  squares += inches(each.distance) * inches(each.distance);
                  p.largest_movement = longer(p.largest_movement, each.distance);
              }
              p.total_movement = one_inch * std::sqrt(squares);
          }) == "moves[0].to");
    // The same plan for a frame that allows less, or holds more.
    PlanePullFrame other = frame;
    other.straps[0].most_shortening = 0.1_in;
    CHECK(rejected(other, good) == "straps[0].change");
    other = frame;
    other.most_movement = 0.1_in;
    CHECK(rejected(other, good) == "moves[0].to");
    other = frame;
    other.points[1].freedom = Held{};
    CHECK(rejected(other, good) == "moves[1].to");
    other = frame;
    other.points[1].freedom = FreeAlong<PlaneCorner>{{0_in, 1_in}};
    CHECK(rejected(other, good) == "moves[1].to");
    other = frame;
    other.members.push_back({0, 2});  // a strap's own diagonal
    CHECK(rejected(other, good) == "member_tensions");
}

TEST_CASE("chances of one, two and more errors") {
    // One: 1.96 deviations hold 95 %, 3 either side of a mean 1 off hold Phi(2) - Phi(-4) = 0.97725 - 0.00003.
    CHECK(chance_in_box({0.0}, {4.0}, {2.0 * two_sided_95}) == doctest::Approx(0.95).epsilon(1e-12));
    CHECK(chance_in_box({1.0}, {1.0}, {3.0}) == doctest::Approx(0.9772182).epsilon(1e-6));
    // Two misfits that one error makes, the narrower limit counts; opposite signs too.
    CHECK(chance_in_box({0.0, 0.0}, {1.0, -1.0, -1.0, 1.0}, {1.0, two_sided_95}) ==
          doctest::Approx(0.6826895).epsilon(1e-6));
    // Independent ones multiply.
    CHECK(chance_in_box({0.0, 0.0}, {1.0, 0.0, 0.0, 4.0}, {two_sided_95, 2.0 * two_sided_95}) ==
          doctest::Approx(0.9025).epsilon(1e-6));
    CHECK(chance_in_box({0.0, 0.0, 0.0}, {1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0},
                        {two_sided_95, two_sided_95, two_sided_95}) == doctest::Approx(0.857375).epsilon(1e-6));
    // Quadrants are known in closed form: both positive with correlation 1/2 in 1/4 + asin(1/2) / 2 pi = 1/3, all of
    // three in 1/8 + 3 asin(1/2) / 4 pi = 1/4. A limit of 100 around 100 leaves the positive half.
    CHECK(chance_in_box({100.0, 100.0}, {1.0, 0.5, 0.5, 1.0}, {100.0, 100.0}) ==
          doctest::Approx(1.0 / 3.0).epsilon(1e-4));
    CHECK(chance_in_box({100.0, 100.0, 100.0}, {1.0, 0.5, 0.5, 0.5, 1.0, 0.5, 0.5, 0.5, 1.0}, {100.0, 100.0, 100.0}) ==
          doctest::Approx(0.25).epsilon(1e-3));
    // Four: 1/5, the chance that none of the others is below one more of the same kind.
    std::vector<double> half(16, 0.5);
    for (std::size_t i = 0; i < 4; ++i) {
        half[i * 5] = 1.0;
    }
    CHECK(chance_in_box({100.0, 100.0, 100.0, 100.0}, half, {100.0, 100.0, 100.0, 100.0}) ==
          doctest::Approx(0.2).epsilon(2e-3));
    // No error at all, and errors that leave nothing.
    CHECK(chance_in_box({0.5}, {0.0}, {1.0}) == 1.0);
    CHECK(chance_in_box({1.5}, {0.0}, {1.0}) == 0.0);
    CHECK(chance_in_box({60.0, 0.0}, {1.0, 0.0, 0.0, 1.0}, {1.0, 1.0}) == 0.0);
    for (const double share : {1e-12, 0.001, 0.2, 0.5, 0.7, 0.975, 0.9999}) {
        const double z = squaring_detail::normal_quantile(share);
        CHECK(0.5 * std::erfc(-z * std::sqrt(0.5)) == doctest::Approx(share).epsilon(1e-12));
    }
}

TEST_CASE("a frame that springs back a fifth asks for a quarter more") {
    const PlanePullFrame frame = frame_to_pull();
    const PullPlan<PlaneCorner> plan = plan_pulls(frame, PullChoice::fewest_straps);
    const auto after = [&](double share) {
        std::vector<PlaneCorner> found;
        for (const PulledPoint<PlaneCorner>& each : plan.moves) {
            found.push_back({each.from.along + (each.to.along - each.from.along) * share,
                             each.from.up + (each.to.up - each.from.up) * share});
        }
        return compare_round(frame, plan, found);
    };
    const PullRound most = after(0.8);
    CHECK(most.settled);
    CHECK_FALSE(most.within);
    CHECK(most.gain == doctest::Approx(0.8).epsilon(1e-4));
    CHECK(most.factor == doctest::Approx(1.25).epsilon(1e-4));
    CHECK(most.conditions[0].gain == doctest::Approx(0.8).epsilon(1e-4));
    CHECK(most.conditions[1].gain == 1.0);  // sides: nothing planned
    CHECK(std::fabs(inches(next_amount(1_in, most)) - 1.25) < 1e-3);
    CHECK(after(1.0).within);
    CHECK(after(1.0).factor == doctest::Approx(1.0).epsilon(1e-6));
    CHECK(after(0.1).factor == 2.0);  // something held
    CHECK(after(-0.5).factor == 2.0);
    CHECK(after(3.0).factor == doctest::Approx(1.0 / 1.5).epsilon(1e-9));
    // Nothing planned tells nothing.
    PlanePullFrame easy = frame;
    easy.conditions[0] = EqualDistances{"diagonals", 0, 2, 1, 3, 50_in};
    const PullPlan<PlaneCorner> still = plan_pulls(easy, PullChoice::fewest_straps);
    std::vector<PlaneCorner> found;
    for (const PulledPoint<PlaneCorner>& each : still.moves) {
        found.push_back(each.from);
    }
    const PullRound nothing = compare_round(easy, still, found);
    CHECK_FALSE(nothing.settled);
    CHECK(nothing.factor == 1.0);
    found.pop_back();
    CHECK(refusal_of([&] { (void)compare_round(easy, still, found); }).code == FaultCode::does_not_fit);
}
