// SPDX-License-Identifier: BSL-1.0
#include <eavewright/fastening/bite.hpp>
#include <eavewright/fastening/pull_through.hpp>
#include <eavewright/fastening/withdrawal.hpp>

#include "../support/table.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
double number(const std::string& text) { return std::atof(text.c_str()); }
double pounds_an_inch(AllowablePerLength w) { return pounds_per_inch(w.line_load()); }
double pounds_an_inch(UltimatePerLength w) { return pounds_per_inch(w.line_load()); }
AllowablePerLength nds(WithdrawalKind kind, double gravity, double diameter) {
    return withdrawal(NdsEdition::nds_2018, kind, OvendryGravity::of(gravity), Length::from_inches(diameter)).by_length;
}
template <class Call>
int refusal(Call call) {
    try {
        (void)call();
    } catch (const FaultError& error) {
        return number_of(error.fault().code);
    }
    return 0;
}
/// Newtons of a handbook law at millimetres.
double newtons_of(UltimatePerLength w, double mm) { return newtons((w * Length::from_millimetres(mm)).force()); }
}  // namespace

TEST_CASE("withdrawal: every row of the smooth nail's table") {
    int rows = 0;
    for (const TableRow& row : read_table("nds_withdrawal_smooth.csv")) {
        const double gravity = number(row.at("specific_gravity_G"));
        const double w = pounds_an_inch(nds(WithdrawalKind::smooth_nail, gravity, number(row.at("nail_diameter_in"))));
        const bool exact = std::fabs(w - number(row.at("W_lb_per_in_unrounded"))) <= 0.01;
        const bool printed = std::fabs(w - number(row.at("W_lb_per_in_rounded"))) <= 0.5;
        CHECK((exact && printed));
        ++rows;
    }
    CHECK(rows > 60);
}

TEST_CASE("withdrawal: every row of the ring shank's table") {
    int rows = 0;
    for (const TableRow& row : read_table("nds_withdrawal_ring.csv")) {
        const double w = pounds_an_inch(nds(WithdrawalKind::ring_shank_nail, number(row.at("specific_gravity_G")),
                                            number(row.at("nail_diameter_in"))));
        const bool exact = std::fabs(w - number(row.at("W_lb_per_in_unrounded"))) <= 0.01;
        CHECK(exact);
        ++rows;
    }
    CHECK(rows > 20);
}

TEST_CASE("withdrawal: wood screw, lag and stainless by their equations") {
    // AWC NDS 2018 12.2.2: 2850 x 0.42^2 x 0.190 = 95.52, 2850 x 0.55^2 x 0.190 = 163.80.
    CHECK(pounds_an_inch(nds(WithdrawalKind::wood_screw, 0.42, 0.190)) == doctest::Approx(95.52).epsilon(5e-5));
    CHECK(pounds_an_inch(nds(WithdrawalKind::wood_screw, 0.55, 0.190)) == doctest::Approx(163.80).epsilon(5e-5));
    // 465 x 0.42^1.5 x 0.131 = 465 x 0.272191 x 0.131 = 16.58.
    CHECK(pounds_an_inch(nds(WithdrawalKind::stainless_smooth_nail, 0.42, 0.131)) ==
          doctest::Approx(16.58).epsilon(1e-3));
}

TEST_CASE("withdrawal: the equation's number follows the edition") {
    // In the 2018 edition 12.2-4 is the stainless nail's; lists that call it the ring shank's follow 2015.
    const auto number_in = [](NdsEdition edition, WithdrawalKind kind) {
        return std::string{withdrawal(edition, kind, OvendryGravity::of(0.5), Length::from_inches(0.131)).equation};
    };
    CHECK(number_in(NdsEdition::nds_2018, WithdrawalKind::ring_shank_nail).find("12.2-5") != std::string::npos);
    CHECK(number_in(NdsEdition::nds_2018, WithdrawalKind::stainless_smooth_nail).find("12.2-4") != std::string::npos);
    CHECK(number_in(NdsEdition::nds_2018, WithdrawalKind::smooth_nail).find("12.2-3") != std::string::npos);
    CHECK(number_in(NdsEdition::nds_2015, WithdrawalKind::ring_shank_nail).find("12.2-4") != std::string::npos);
    CHECK(refusal([&] { return number_in(NdsEdition::nds_2015, WithdrawalKind::stainless_smooth_nail); }) ==
          number_of(FaultCode::not_supported));
}

TEST_CASE("withdrawal: the handbook in metric and in inches") {
    // USDA FPL-GTR-282 (2021) Eq. 8-1: 54.12 G^2.5 D L, N and mm: G 0.42, D 3.33, L 50.8 -> 1046.6 N; G 0.55 -> 2053.9 N.
    const Length d = Length::from_millimetres(3.33);
    CHECK(newtons_of(handbook_withdrawal_smooth_nail(TwelvePercentGravity::of(0.42), d), 50.8) ==
          doctest::Approx(1046.6).epsilon(2e-4));
    CHECK(newtons_of(handbook_withdrawal_smooth_nail(TwelvePercentGravity::of(0.55), d), 50.8) ==
          doctest::Approx(2053.9).epsilon(2e-4));
    // Eq. 8-2a: 77.57 x 0.42^2 x 3.33 x 50.8 = 2314.7 N.
    CHECK(newtons_of(handbook_withdrawal_ring_nail(OvendryGravity::of(0.42), d), 50.8) ==
          doctest::Approx(2314.7).epsilon(2e-4));
    // Ring over smooth = 77.57 / 54.12 / sqrt(G).
    const double ratio = pounds_an_inch(handbook_withdrawal_ring_nail(OvendryGravity::of(0.42), d)) /
                         pounds_an_inch(handbook_withdrawal_smooth_nail(TwelvePercentGravity::of(0.42), d));
    CHECK(ratio == doctest::Approx(2.212).epsilon(5e-4));

    for (const TableRow& row : read_table("wood_handbook_withdrawal.csv")) {
        const std::string name = row.at("fastener");
        const OvendryGravity dry = OvendryGravity::of(0.5);
        const UltimatePerLength w = name == "smooth common nail"
                                        ? handbook_withdrawal_smooth_nail(TwelvePercentGravity::of(0.5), d)
                                    : name == "annularly threaded nail" ? handbook_withdrawal_ring_nail(dry, d)
                                    : name == "drift bolt"              ? handbook_withdrawal_drift_bolt(dry, d)
                                    : name == "wood screw"              ? handbook_withdrawal_wood_screw(dry, d)
                                                                        : handbook_withdrawal_lag_screw(dry, d);
        const double metric = number(row.at("coef_metric_N_mm")) * std::pow(0.5, number(row.at("exponent_G"))) *
                              std::pow(3.33, number(row.at("exponent_D")));
        CHECK_MESSAGE(newtons_of(w, 1.0) == doctest::Approx(metric).epsilon(3e-4), name);
        const double inch = number(row.at("printed_inch_pound_coef")) * std::pow(0.5, number(row.at("exponent_G"))) *
                            std::pow(inches(d), number(row.at("exponent_D")));
        CHECK_MESSAGE(pounds_an_inch(w) == doctest::Approx(inch).epsilon(1e-9), name);
    }
}

TEST_CASE("withdrawal: an average ultimate is 5.688 times what is allowed, and the old 6,900 is in neither") {
    const Length d = Length::from_inches(0.131);
    const double ultimate = pounds_an_inch(handbook_withdrawal_smooth_nail(TwelvePercentGravity::of(0.5), d));
    const double allowed = pounds_an_inch(nds(WithdrawalKind::smooth_nail, 0.5, 0.131));
    CHECK(ultimate / allowed == doctest::Approx(7850.0 / 1380.0).epsilon(1e-12));  // 5.688
    CHECK(ultimate / (std::pow(0.5, 2.5) * 0.131) == doctest::Approx(7850.0).epsilon(1e-12));
}

TEST_CASE("bite: the worked examples of the American Wood Council") {
    // E2.1a: 8d common, 0.131 x 2.5 in, through 0.105 in of steel: 2.395 in, 20.667 lb an inch, 49.50 lb.
    const Bite nail = bite({.length = 2.5_in, .above = 0.105_in, .member = 5.5_in});
    CHECK(inches(nail.bite) == doctest::Approx(2.395).epsilon(1e-9));
    const AllowablePerLength w = nds(WithdrawalKind::smooth_nail, 0.42, 0.131);
    CHECK(pounds_an_inch(w) == doctest::Approx(20.667).epsilon(5e-5));
    CHECK(pounds_force((w * nail.bite).force()) == doctest::Approx(49.50).epsilon(2e-4));
    // E2.3: lag screw 1/2 x 4 in, thread 2 1/2 in with a tip of 5/16 in, side member 1 1/2 in, G 0.55: 2.1875 in, 954.98 lb.
    const Bite lag =
        bite({.length = 4_in, .above = 1.5_in, .member = 5.5_in, .threaded = 2.5_in, .lost_tip = 0.3125_in});
    CHECK(inches(lag.bite) == doctest::Approx(2.1875).epsilon(1e-9));
    const AllowablePerLength lag_w = nds(WithdrawalKind::lag_screw, 0.55, 0.5);
    CHECK(pounds_force((lag_w * lag.bite).force()) == doctest::Approx(954.98).epsilon(5e-5));
}

TEST_CASE("bite: the nail of the coastal construction manual holds by 2 in, its own sheathing leaves it 2 1/16") {
    // FEMA P-55 Vol. II Example 9.1 takes 66 lb per 8d common nail at G 0.42: 20.667 x 1.6 x 2.0 = 66.1. With the 7/16 in panel
    // of the same example the bite is 2.5 - 0.4375 = 2.0625 in and the value 68.2 lb.
    const AllowablePerLength w = nds(WithdrawalKind::smooth_nail, 0.42, 0.131);
    const Bite real = bite({.length = 2.5_in, .above = 0.4375_in, .member = 5.5_in});
    CHECK(inches(real.bite) == 2.0625);
    CHECK(1.6 * pounds_force((w * 2_in).force()) == doctest::Approx(66.1).epsilon(1e-3));
    CHECK(1.6 * pounds_force((w * real.bite).force()) == doctest::Approx(68.2).epsilon(1e-3));
}

TEST_CASE("bite: a nail through a flat purlin counts only the wood it is in") {
    // 16d common, 3 1/2 in, through 7/16 in into a 2x laid flat: 3.0625 in below the sheet, 1.5 in of it in wood.
    const Bite flat = bite({.length = 3.5_in, .above = 0.4375_in, .member = 1.5_in});
    CHECK(flat.bite == 1.5_in);
    CHECK(inches(flat.through) == 1.5625);
    CHECK(flat.limit == BiteLimit::member);
    // Rings over 2 1/4 in of a 3 in shank: on edge all but the bare neck hold, flat the 1 in that came through does not.
    const Bite on_edge = bite({.length = 3_in, .above = 0.5_in, .member = 5.5_in, .threaded = 2.25_in});
    CHECK(on_edge.bite == 2.25_in);
    CHECK(on_edge.limit == BiteLimit::threaded);
    const Bite through = bite({.length = 3_in, .above = 0.5_in, .member = 1.5_in, .threaded = 2.25_in});
    CHECK(through.bite == 1.25_in);
    CHECK(through.limit == BiteLimit::threaded);
    // A lag whose point stands out loses what stands out, not the tip once more.
    const Bite lag = bite({.length = 4_in, .above = 1_in, .member = 1.5_in, .threaded = 3_in, .lost_tip = 0.3125_in});
    CHECK(lag.bite == 1.5_in);
    // Too short for its layers: nothing.
    CHECK(bite({.length = 1_in, .above = 1.25_in, .member = 1.5_in}).bite == no_length);
}

TEST_CASE("pull-through: both branches meet at two and a half heads") {
    // 690 x pi x 0.281 x 0.25 x 0.4375 = 66.6 lb (AWC NDS 2018 12.2.5, from memory).
    const PullThrough thin = head_pull_through(OvendryGravity::of(0.5), 0.281_in, 0.4375_in);
    CHECK(pounds_force(thin.load.force()) == doctest::Approx(66.6).epsilon(1e-3));
    CHECK(thin.unverified);
    CHECK(!thin.thick);
    const Length meet = 2.5 * 0.281_in;
    const double below = pounds_force(head_pull_through(OvendryGravity::of(0.5), 0.281_in, meet).load.force());
    const PullThrough beyond = head_pull_through(OvendryGravity::of(0.5), 0.281_in, 2_in);
    CHECK(beyond.thick);
    CHECK(pounds_force(beyond.load.force()) == doctest::Approx(below).epsilon(1e-12));
}

TEST_CASE("wood: gravities as assigned") {
    int rows = 0;
    for (const TableRow& row : read_table("nds_specific_gravity.csv")) {
        bool found = false;
        for (std::size_t i = 0; i < NamesOf<SpeciesGroup>::list.size(); ++i) {
            if (NamesOf<SpeciesGroup>::list[i] == row.at("species_combination")) {
                found = assigned_gravity(static_cast<SpeciesGroup>(i)).value() == number(row.at("G"));
            }
        }
        CHECK_MESSAGE(found, row.at("species_combination"));
        ++rows;
    }
    CHECK(rows == 36);
}

TEST_CASE("withdrawal and bite: refused outside their ranges") {
    const int out_of_range = number_of(FaultCode::out_of_range);
    CHECK(refusal([] { return nds(WithdrawalKind::smooth_nail, 0.30, 0.131); }) == out_of_range);
    CHECK(refusal([] { return nds(WithdrawalKind::smooth_nail, 0.74, 0.131); }) == out_of_range);
    CHECK(refusal([] { return nds(WithdrawalKind::smooth_nail, 0.5, 0.091); }) == out_of_range);
    CHECK(refusal([] { return nds(WithdrawalKind::ring_shank_nail, 0.5, 0.376); }) == out_of_range);
    CHECK(refusal([] { return nds(WithdrawalKind::lag_screw, 0.5, 0.2); }) == out_of_range);
    CHECK(refusal([] {
              return withdrawal(NdsEdition::nds_2018, WithdrawalKind::wood_screw, OvendryGravity::of(0.5), 0.19_in,
                                Grain::end);
          }) == number_of(FaultCode::not_supported));
    CHECK(refusal([] { return OvendryGravity::of(std::nan("")); }) == number_of(FaultCode::not_finite));
    CHECK(refusal([] { return head_pull_through(OvendryGravity::of(0.5), 2_in, 0.5_in); }) == out_of_range);
    CHECK(refusal([] { return bite({.length = 30_in, .above = 0_in, .member = 1_in}); }) == out_of_range);
    CHECK(refusal([] { return bite({.length = 3_in, .above = 0_in, .member = 1_in, .threaded = 4_in}); }) ==
          out_of_range);
    CHECK(refusal([] { return utilisation(force_from_pounds(1.0), Allowable::of(force_from_pounds(0.0))); }) ==
          out_of_range);
}
