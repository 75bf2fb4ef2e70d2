// SPDX-License-Identifier: BSL-1.0

// The edges of adjusting and joining strengths: stray conditions, no numbers, what a result rests on, and one hardened nail
// through two woods by hand.

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/combined_load.hpp>
#include <eavewright/fastening/lateral.hpp>
#include <eavewright/fastening/withdrawal.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include <doctest/doctest.h>

#include <limits>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
constexpr NdsEdition nds = NdsEdition::nds_2018;
constexpr UseConditions wind{LoadDuration::ten_minutes, WoodMoisture::dry, WoodMoisture::dry, SustainedHeat::to_100_f};
const double not_a_value = std::numeric_limits<double>::quiet_NaN();

OvendryGravity gravity(double ratio) { return OvendryGravity::of(ratio); }
AllowableForce allowed(double pounds) { return AllowableForce::of(force_from_pounds(pounds)); }
NailShank common_8d() { return standard_nail(NailStyle::common, Penny::d8); }
NailJoint joint(Length side) { return {side, gravity(0.50), 3.5_in, gravity(0.50)}; }
}  // namespace

TEST_CASE("conditions of use that are none of the names are refused, not taken for no factor") {
    const auto refused = [](const UseConditions& use) {
        return refusal_of([&] { (void)use_factors(Resistance::nail_withdrawal, Grain::side, use, nds); });
    };
    CHECK(check(wind).empty());
    UseConditions stray = wind;
    stray.duration = static_cast<LoadDuration>(6);
    CHECK(refused(stray).code == FaultCode::unknown_name);
    CHECK(refused(stray).path == "use.duration");
    stray = wind;
    stray.when_driven = static_cast<WoodMoisture>(-1);
    CHECK(refused(stray).path == "use.when_driven");
    stray = wind;
    stray.in_service = static_cast<WoodMoisture>(2);
    stray.heat = static_cast<SustainedHeat>(3);
    const Faults both = check(stray, "use");
    REQUIRE(both.size() == 2);
    CHECK(both[0].path == "use.in_service");
    CHECK(both[1].path == "use.heat");
}

TEST_CASE("no numbers and empty strengths stay out") {
    const auto slanting = [](double out, double side, double degrees) {
        return refusal_of([&] {
                   (void)combine(allowed(out), allowed(side), angle_from_degrees(degrees), CombinedRule::nails, nds);
               })
            .code;
    };
    CHECK(slanting(80.0, 120.0, not_a_value) == FaultCode::not_finite);
    CHECK(slanting(80.0, 0.0, 30.0) == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)DesignFactor::of(not_a_value); }).code == FaultCode::not_finite);
    CHECK(refusal_of([] { (void)DesignFactor::of(2.1); }).code == FaultCode::out_of_range);
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)nail_lateral(common_8d(), joint(none), nds); }).code == FaultCode::not_finite);
    }
    CHECK(refusal_of([] { (void)nail_bending_yield(NailSteel::hardened, 0.119_in, nds); }).code ==
          FaultCode::out_of_range);
}

TEST_CASE("a slanting load carries what either strength rests on") {
    const Adjusted out = adjust(withdrawal(common_8d(), {0.5_in, 3.5_in}, gravity(0.50), Grain::side, nds), wind);
    const Adjusted side = adjust(nail_lateral(common_8d(), joint(0.5_in), nds), wind);
    CHECK_FALSE(combine(out, side, angle_from_degrees(30.0)).unverified);
    Adjusted recalled = out;
    recalled.unverified = true;
    CHECK(combine(recalled, side, angle_from_degrees(30.0)).unverified);
    recalled = side;
    recalled.unverified = true;
    CHECK(combine(out, recalled, angle_from_degrees(30.0)).unverified);
    // Twice the same strength is no slanting load.
    CHECK(refusal_of([&] { (void)combine(out, out, angle_from_degrees(30.0)); }).code == FaultCode::contradiction);
}

TEST_CASE("a lateral value does not jump at ten diameters") {
    // 8d common: 10 D is 1.31 in (footnote of NDS 2018 Table 12N); 1.309 in of it takes 0.08 percent off.
    const NailLateral ten = nail_lateral(common_8d(), joint(1.19_in), nds);
    const NailLateral less = nail_lateral(common_8d(), joint(1.191_in), nds);
    CHECK(less.force / ten.force == doctest::Approx(1.309 / 1.31).epsilon(1e-9));
}

TEST_CASE("a hardened post-frame nail through two woods by hand") {
    // 0.177 x 4 in through 1.5 in of G 0.42 (3350 psi) into G 0.55 (5550 psi), Fyb 115,000 psi, Rd 2.27; p = 2.5 in.
    // Re = 1.656716; k3 = -1 + sqrt(2 x 2.656716/1.656716 + 2 x 115000 x 3.656716 x 0.031329/(3 x 5550 x 2.25)) = 0.977512;
    // IIIs = 0.977512 x 0.177 x 1.5 x 5550/(3.656716 x 2.27) = 173.525 lb, and 277.640 lb in wind.
    const NailJoint two{1.5_in, gravity(0.42), 5.5_in, gravity(0.55)};
    const NailLateral nail = nail_lateral(post_frame_ring_nail(0.177_in, 4_in), two, nds);
    CHECK(nail.modes.strength_ratio == doctest::Approx(1.656716).epsilon(1e-6));
    CHECK(nail.modes.reduction == doctest::Approx(2.27).epsilon(1e-12));
    CHECK(nail.modes.k3 == doctest::Approx(0.977512).epsilon(1e-6));
    CHECK(nail.modes.governs == YieldMode::iii_side);
    CHECK(pounds_force(nail.force) == doctest::Approx(173.525).epsilon(1e-5));
    CHECK(pounds_force(adjust(nail, wind).force) == doctest::Approx(277.640).epsilon(1e-5));
}
