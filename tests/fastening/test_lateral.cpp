// SPDX-License-Identifier: BSL-1.0

// One nail loaded sideways, the factors of its use, and a load on the slant: printed cells, hand arithmetic, and what must hold
// whichever member is called the main one.

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/bite.hpp>
#include <eavewright/fastening/combined_load.hpp>
#include <eavewright/fastening/lateral.hpp>
#include <eavewright/fastening/withdrawal.hpp>
#include <eavewright/fastening/yield_modes.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"
#include "support/table.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
constexpr NdsEdition nds = NdsEdition::nds_2018;
const double not_a_value = std::numeric_limits<double>::quiet_NaN();

double number(const TableRow& row, const char* heading) { return std::stod(row.at(heading)); }
bool within(double value, double expected, double tolerance) { return std::fabs(value - expected) <= tolerance; }
OvendryGravity gravity(double ratio) { return OvendryGravity::of(ratio); }
AllowableForce allowed(double pounds) { return AllowableForce::of(force_from_pounds(pounds)); }

NailShank common(Penny penny) { return standard_nail(NailStyle::common, penny); }
NailJoint joint(Length side, Length main, double g = 0.50) {
    return {.side_thickness = side, .side = gravity(g), .main_thickness = main, .main = gravity(g)};
}
/// Ten years, dry, not above 100 F: every factor is 1.
UseConditions plain_use() {
    return {.duration = LoadDuration::ten_years,
            .when_driven = WoodMoisture::dry,
            .in_service = WoodMoisture::dry,
            .heat = SustainedHeat::to_100_f};
}
UseConditions in_wind() {
    UseConditions use = plain_use();
    use.duration = LoadDuration::ten_minutes;
    return use;
}
UseConditions moisture(WoodMoisture driven, WoodMoisture service) {
    UseConditions use = plain_use();
    use.when_driven = driven;
    use.in_service = service;
    return use;
}
UseConditions heat(SustainedHeat warmest, WoodMoisture service) {
    UseConditions use = moisture(service, service);
    use.heat = warmest;
    return use;
}
UseConditions toe_nailed(UseConditions use) {
    use.toe_nailed = true;
    return use;
}
Adjustment factors(Resistance resistance, const UseConditions& use, Grain grain = Grain::side) {
    return adjustment_of(resistance, grain, use, nds);
}
Withdrawal smooth_8d_two_inches_in(double g) {
    return withdrawal(common(Penny::d8), Drive{.above = 0.5_in, .member = 3.5_in}, gravity(g), Grain::side, nds);
}
FaultCode code_of(const Fault& fault) { return fault.code; }
}  // namespace

TEST_CASE("yield modes against printed lateral values") {
    // AWC NDS 2018 Table 12N, common nails, both members G 0.50: Z read, modes worked from Table 12.3.1A with l_m = 10 D.
    constexpr std::array<const char*, 6> columns{"Z_Im_lb", "Z_Is_lb", "Z_II_lb", "Z_IIIm_lb", "Z_IIIs_lb", "Z_IV_lb"};
    const std::vector<TableRow> rows = read_table("nds_lateral_12N.csv");
    REQUIRE(rows.size() == 6);
    for (const TableRow& row : rows) {
        const Length d = Length::from_inches(number(row, "D_in"));
        const Pressure bearing = dowel_bearing(gravity(number(row, "G")), nds);
        const Pressure yield = nail_bending_yield(NailSteel::carbon, d, nds);
        const Length side = Length::from_inches(number(row, "ts_in"));
        CAPTURE(row.at("penny"));
        CHECK(psi(bearing) == number(row, "Fe_psi"));
        CHECK(psi(yield) == number(row, "Fyb_psi"));
        const YieldModes y = yield_modes({d, yield, {10.0 * d, bearing}, {side, bearing}}, nds);
        bool all = true;
        for (std::size_t i = 0; i < columns.size(); ++i) {
            all = all && within(pounds_force(y.modes[i]), number(row, columns[i]), 0.1);
        }
        CHECK(all);
        CHECK(name_of(y.governs) == row.at("governing_mode"));
        CHECK(std::round(pounds_force(y.least)) == number(row, "Z_published_lb"));
        CHECK(y.reduction == 2.2);

        // The nail itself, driven through that side member: its tip leaves Z as printed, since Im does not govern.
        const Penny penny = row.at("penny") == "6d" ? Penny::d6 : (row.at("penny") == "8d" ? Penny::d8 : Penny::d10);
        if (common(penny).length - side > 10.0 * d) {
            const NailLateral driven = nail_lateral(common(penny), joint(side, 3.5_in), nds);
            CHECK(std::round(pounds_force(driven.force)) == number(row, "Z_published_lb"));
        }
    }
}

TEST_CASE("a 10d common nail in a published example") {
    // AWC Structural Wood Design Solved Example Problems: Douglas Fir-Larch, side 3/4 in, 105.1 lb within 0.2 lb. It computes
    // with 16,600 x 0.50^1.84 = 4636.74 psi as it stands: IIIs 105.096 lb. With 4650 psi of the table it is 105.324 lb. Both
    // are the 105 lb that Table 12N prints.
    const OvendryGravity wood = assigned_gravity(SpeciesCombination::douglas_fir_larch, nds);
    const NailJoint boards{.side_thickness = 0.75_in, .side = wood, .main_thickness = 3.5_in, .main = wood};
    const NailLateral nail = nail_lateral(common(Penny::d10), boards, nds);
    CHECK(nail.modes.governs == YieldMode::iii_side);
    CHECK_FALSE(nail.unverified);
    CHECK(within(pounds_force(nail.force), 105.324, 0.001));
    DowelJoint unrounded = nail.joint;
    unrounded.main.strength = pressure_from_psi(16600.0 * std::pow(0.50, 1.84));
    unrounded.side.strength = unrounded.main.strength;
    std::size_t examples = 0;
    for (const TableRow& row : read_table("worked_examples_wood.csv")) {
        if (row.at("example").rfind("E2.x", 0) == 0) {
            const double pounds = pounds_force(yield_modes(unrounded, nds).least);
            CHECK(within(pounds, number(row, "expected"), number(row, "tolerance")));
            ++examples;
        }
    }
    CHECK(examples == 1);
}

TEST_CASE("bending yield strength at both ends of each band") {
    // AWC NDS 2018 Appendix Table I1 and footnotes of Tables 12L to 12P.
    std::size_t bands = 0;
    for (const TableRow& row : read_table("nds_fyb.csv")) {
        if (row.at("D_max_in").empty()) {
            CHECK(psi(bolt_bending_yield) == number(row, "Fyb_psi"));
            continue;
        }
        const NailSteel steel = row.at("fastener").rfind("hardened", 0) == 0 ? NailSteel::hardened : NailSteel::carbon;
        const double low = number(row, "D_min_in");
        const double lowest = row.at("bound_note") == "D_min inclusive" ? low : low + 1e-4;
        const auto yield = [&](double d) { return psi(nail_bending_yield(steel, Length::from_inches(d), nds)); };
        CAPTURE(low);
        CHECK(yield(lowest) == number(row, "Fyb_psi"));
        CHECK(yield(number(row, "D_max_in")) == number(row, "Fyb_psi"));
        ++bands;
    }
    CHECK(bands == 9);
    const auto refused = [](NailSteel steel, double d) {
        return code_of(refusal_of([&] { (void)nail_bending_yield(steel, Length::from_inches(d), nds); }));
    };
    CHECK(refused(NailSteel::carbon, 0.098) == FaultCode::out_of_range);
    CHECK(refused(NailSteel::carbon, 0.376) == FaultCode::out_of_range);
    CHECK(refused(NailSteel::hardened, 0.119) == FaultCode::out_of_range);
    CHECK(refused(NailSteel::hardened, 0.208) == FaultCode::out_of_range);
    CHECK(refused(NailSteel::stainless, 0.131) == FaultCode::not_supported);
}

TEST_CASE("dowel bearing is rounded to 50 psi") {
    // 16,600 G^1.84 = 4636.7 at 0.50, printed 4650 in NDS 2018 Table 12.3.3; 3364.2 at 0.42 and 5525.5 at 0.55 by hand.
    CHECK(psi(dowel_bearing(gravity(0.50), nds)) == 4650.0);
    CHECK(psi(dowel_bearing(gravity(0.42), nds)) == 3350.0);
    CHECK(psi(dowel_bearing(gravity(0.55), nds)) == 5550.0);
    const auto refused = [](double g, NdsEdition edition) {
        return code_of(refusal_of([&] { (void)dowel_bearing(gravity(g), edition); }));
    };
    CHECK(refused(0.30, nds) == FaultCode::out_of_range);
    CHECK(refused(0.74, nds) == FaultCode::out_of_range);
    CHECK(refused(0.50, NdsEdition::nds_2015) == FaultCode::not_supported);
}

TEST_CASE("yield modes do not care which member is called the main one") {
    // Exchanged members exchange Im with Is and IIIm with IIIs, and leave II and IV: mechanics, whatever the equations' form.
    SeededNumbers random{20240611};
#ifdef EAVEWRIGHT_FULL_SWEEPS
    const int rounds = 2000;
#else
    const int rounds = 200;
#endif
    const auto alike = [](ReferenceForce a, ReferenceForce b) {
        return within(pounds_force(a), pounds_force(b), 1e-8 * pounds_force(b));
    };
    for (int i = 0; i < rounds; ++i) {
        const DowelJoint one{random.inches_between(0.099, 0.249),
                             pressure_from_psi(random.between(45000.0, 130000.0)),
                             {random.inches_between(0.5, 6.0), pressure_from_psi(random.between(1900.0, 9300.0))},
                             {random.inches_between(0.25, 3.0), pressure_from_psi(random.between(1900.0, 61850.0))}};
        const DowelJoint other{one.diameter, one.bending_yield, one.side, one.main};
        const auto a = yield_modes(one, nds).modes;
        const auto b = yield_modes(other, nds).modes;
        const bool exchanged = alike(a[0], b[1]) && alike(a[1], b[0]) && alike(a[2], b[2]) && alike(a[3], b[4]) &&
                               alike(a[4], b[3]) && alike(a[5], b[5]);
        if (!exchanged) {
            FAIL("modes differ in round " << i);
        }
    }
}

TEST_CASE("reduction term by diameter") {
    // NDS 2018 Table 12.3.1B: 2.2 up to 0.17 in, then 10 D + 0.5, which is 2.27 at 0.177, 2.42 at 0.192 and 2.75 at 0.225.
    const auto reduction = [](double d) {
        const Pressure bearing = pressure_from_psi(4650.0);
        return yield_modes({Length::from_inches(d), pressure_from_psi(80000.0), {2_in, bearing}, {1_in, bearing}}, nds)
            .reduction;
    };
    CHECK(reduction(0.113) == 2.2);
    CHECK(reduction(0.17) == 2.2);
    CHECK(reduction(0.177) == doctest::Approx(2.27).epsilon(1e-12));
    CHECK(reduction(0.192) == doctest::Approx(2.42).epsilon(1e-12));
    CHECK(reduction(0.225) == doctest::Approx(2.75).epsilon(1e-12));
}

TEST_CASE("penetration of a nail and where its tip bears") {
    // 8d common, 0.131 x 2.5 in: 6 D is 0.786 in, 10 D 1.31 in (NDS 2018 12.1.6.4 and footnote of Table 12N), tip 2 D.
    SUBCASE("above ten diameters the whole value counts, and half the tip does not bear") {
        const NailLateral nail = nail_lateral(common(Penny::d8), joint(0.75_in, 3.5_in), nds);
        CHECK(off_by(nail.penetration, 1.75_in) < 1e-12);
        CHECK(off_by(nail.joint.main.length, 1.619_in) < 1e-12);  // 1.75 - 0.131
        CHECK_FALSE(nail.by_penetration.has_value());
        CHECK(pounds_force(nail.force) == doctest::Approx(90.32).epsilon(1e-4));
        CHECK(nail.modes.governs == YieldMode::iii_side);
    }
    SUBCASE("between six and ten the value at ten is taken by p/10D") {
        // p = 2.5 - 1.5 = 1.0; IV governs at 10 D with 97.115 lb; 97.115 x 1.0/1.31 = 74.134 lb, below IV with the short bearing.
        const NailLateral nail = nail_lateral(common(Penny::d8), joint(1.5_in, 3.5_in), nds);
        CHECK(nail.penetration_diameters == doctest::Approx(1.0 / 0.131).epsilon(1e-12));
        REQUIRE(nail.by_penetration.has_value());
        CHECK(pounds_force(*nail.by_penetration) == doctest::Approx(74.134).epsilon(1e-5));
        CHECK(pounds_force(nail.modes.least) == doctest::Approx(97.115).epsilon(1e-5));
        CHECK(pounds_force(nail.modes.modes[0]) == doctest::Approx(240.614).epsilon(1e-5));  // 0.131 x 0.869 x 4650/2.2
        CHECK(nail.force == *nail.by_penetration);
    }
    SUBCASE("at ten diameters exactly nothing is taken off, just below it almost nothing") {
        const NailLateral ten = nail_lateral(common(Penny::d8), joint(2.5_in - 1.31_in, 3.5_in), nds);
        const NailLateral less = nail_lateral(common(Penny::d8), joint(2.5_in - 1.309_in, 3.5_in), nds);
        CHECK_FALSE(ten.by_penetration.has_value());
        CHECK(less.force < ten.force);
        CHECK(less.force / ten.force > 0.999);
    }
    SUBCASE("at six diameters it holds, below it is refused") {
        CHECK(pounds_force(nail_lateral(common(Penny::d8), joint(2.5_in - 0.786_in, 3.5_in), nds).force) ==
              doctest::Approx(97.115 * 0.6).epsilon(1e-5));
        const Fault short_of_it =
            refusal_of([] { (void)nail_lateral(common(Penny::d8), joint(2.5_in - 0.785_in, 3.5_in), nds); });
        CHECK(short_of_it.code == FaultCode::does_not_fit);
        const Fault not_through = refusal_of([] { (void)nail_lateral(common(Penny::d8), joint(3_in, 3.5_in), nds); });
        CHECK(not_through.code == FaultCode::does_not_fit);
    }
    SUBCASE("a nail through the member counts the wood that it is in") {
        // 16d, 0.162 x 3.5 in, through 3/4 in: 2.75 in below it, 1.25 past a member of 1.5 in, the tip of 0.324 wholly out.
        const NailLateral nail = nail_lateral(common(Penny::d16), joint(0.75_in, 1.5_in), nds);
        CHECK(off_by(nail.penetration, 1.5_in) < 1e-12);
        CHECK(off_by(nail.joint.main.length, 1.5_in) < 1e-12);
        CHECK(nail.by_penetration.has_value());  // 9.26 D
        // 8d through 3/4 in: 0.25 of its tip of 0.262 is past the member; 1.5 - (0.262 - 0.25)/2 = 1.494.
        const NailLateral partly = nail_lateral(common(Penny::d8), joint(0.75_in, 1.5_in), nds);
        CHECK(off_by(partly.joint.main.length, 1.494_in) < 1e-12);
    }
}

TEST_CASE("a toe-nail's bearing lengths and factor") {
    // NDS 2018 12.3.10.2 and 12.5.4.2: l_s = L/3 = 0.8333 in, p = 2.5 cos 30 - 0.8333 = 1.33173 in; IIIs 96.1475 lb; x 0.83.
    NailJoint slanted = joint(1.5_in, 3.5_in);
    slanted.toe_nailed = true;
    const NailLateral nail = nail_lateral(common(Penny::d8), slanted, nds);
    CHECK(off_by(nail.joint.side.length, 2.5_in / 3.0) < 1e-12);
    CHECK(off_by(nail.penetration, 1.331730_in) < 1e-6);
    CHECK(pounds_force(nail.force) == doctest::Approx(96.1475).epsilon(1e-6));
    const Adjusted use = adjust(nail, toe_nailed(plain_use()));
    CHECK(pounds_force(use.force) == doctest::Approx(96.1475 * 0.83).epsilon(1e-6));
    const Fault unlike = refusal_of([&] { (void)adjust(nail, plain_use()); });
    CHECK(unlike.code == FaultCode::contradiction);
    // NDS 2018 12.5.4.1, withdrawal: 31.96 x 0.67 = 21.41 lb an inch, so 42.82 over 2 in.
    const Adjusted out = adjust(smooth_8d_two_inches_in(0.50), toe_nailed(plain_use()));
    CHECK(pounds_force(out.force) / 2.0 == doctest::Approx(21.41).epsilon(2.5e-4));
    CHECK(out.factors.toe_nail == 0.67);
}

TEST_CASE("every factor of the adjustment tables") {
    // AWC NDS 2018 Tables 2.3.2, 11.3.3, 11.3.4 and 12.5.
    constexpr WoodMoisture dry = WoodMoisture::dry;
    constexpr WoodMoisture wet = WoodMoisture::wet;
    constexpr Resistance nail_out = Resistance::nail_withdrawal;
    constexpr Resistance sideways = Resistance::nail_lateral;
    const auto duration = [](LoadDuration d) {
        UseConditions use = plain_use();
        use.duration = d;
        return factors(nail_out, use).duration;
    };
    const auto service = [](Resistance r, WoodMoisture driven, WoodMoisture now) {
        return factors(r, moisture(driven, now)).wet_service;
    };
    const auto warm = [](SustainedHeat h, WoodMoisture now) { return factors(nail_out, heat(h, now)).temperature; };
    /// Nothing is allowed where the standard forbids it.
    const auto end_grain = [](Resistance r) {
        return refusal_of([&] { (void)factors(r, plain_use(), Grain::end); }).code == FaultCode::not_supported
                   ? 0.0
                   : factors(r, plain_use(), Grain::end).end_grain;
    };
    UseConditions diaphragm = plain_use();
    diaphragm.diaphragm = true;
    const UseConditions wet_toe = toe_nailed(moisture(wet, dry));
    CHECK(factors(nail_out, wet_toe).wet_service == 1.0);  // CM is not applied to a toe-nail in withdrawal
    CHECK(factors(sideways, wet_toe).wet_service == 0.7);
    CHECK(service(Resistance::wood_screw_withdrawal, dry, wet) == 0.7);
    CHECK(service(Resistance::lag_withdrawal, wet, dry) == 1.0);
    CHECK(end_grain(Resistance::wood_screw_withdrawal) == 0.0);
    CHECK(end_grain(Resistance::ring_nail_withdrawal) == 0.0);
    const double ring = service(Resistance::ring_nail_withdrawal, wet, dry);
    CHECK(service(Resistance::ring_nail_withdrawal, dry, wet) == ring);

    const std::vector<std::pair<std::string, double>> ours{
        {"CD permanent (dead)", duration(LoadDuration::permanent)},
        {"CD ten years (occupancy live)", duration(LoadDuration::ten_years)},
        {"CD two months (snow)", duration(LoadDuration::two_months)},
        {"CD seven days (construction/roof live)", duration(LoadDuration::seven_days)},
        {"CD ten minutes (wind/earthquake)", duration(LoadDuration::ten_minutes)},
        {"CD impact (never for connections)", load_duration_factor(LoadDuration::impact)},
        {"CD upper limit for connections and wood structural panels", duration(LoadDuration::impact)},
        {"CM nail withdrawal, fabricated <=19 pct MC, in service <=19 pct", service(nail_out, dry, dry)},
        {"CM nail withdrawal, >19 then <=19", service(nail_out, wet, dry)},
        {"CM nail withdrawal, <=19 then >19", service(nail_out, dry, wet)},
        {"CM nail withdrawal, >19 and >19", service(nail_out, wet, wet)},
        {"CM ring shank (RSRS/post-frame) withdrawal, footnote", ring},
        {"CM lag or wood screw withdrawal, in service >19", service(Resistance::lag_withdrawal, dry, wet)},
        {"CM head pull-through, in service >19", service(Resistance::head_pull_through, dry, wet)},
        {"CM lateral dowel D<1/4 in, >19 then <=19", service(sideways, wet, dry)},
        {"CM lateral dowel, in service >19", service(sideways, dry, wet)},
        {"Ct T<=100 F", warm(SustainedHeat::to_100_f, wet)},
        {"Ct 100<T<=125 F dry", warm(SustainedHeat::to_125_f, dry)},
        {"Ct 100<T<=125 F wet", warm(SustainedHeat::to_125_f, wet)},
        {"Ct 125<T<=150 F dry", warm(SustainedHeat::to_150_f, dry)},
        {"Ct 125<T<=150 F wet", warm(SustainedHeat::to_150_f, wet)},
        {"Ctn toe-nail lateral", factors(sideways, toe_nailed(plain_use())).toe_nail},
        {"Ctn toe-nail withdrawal (CM not applied)", factors(nail_out, wet_toe).product},
        {"Ceg end grain lateral", end_grain(sideways)},
        {"Ceg nail or wood screw withdrawal from end grain: not permitted", end_grain(nail_out)},
        {"Ceg lag screw withdrawal from end grain", end_grain(Resistance::lag_withdrawal)},
        {"Cdi diaphragm nailing lateral", factors(sideways, diaphragm).diaphragm}};
    const std::vector<TableRow> rows = read_table("nds_adjustment_factors.csv");
    REQUIRE(rows.size() == ours.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        CAPTURE(ours[i].first);
        CHECK(ours[i].first == rows[i].at("factor") + " " + rows[i].at("condition"));
        CHECK(ours[i].second == number(rows[i], "value"));
    }
}

TEST_CASE("factors multiply a reference value once") {
    // FEMA P-55 Vol. II p. 9-6 takes 66 lb for an 8d common nail, G 0.42: 20.667 lb an inch x 2.0 in x 1.6 = 66.1 lb.
    const Withdrawal nail = smooth_8d_two_inches_in(0.42);
    const Adjusted wind = adjust(nail, in_wind());
    CHECK(within(pounds_force(wind.force), 66.1, 0.05));
    // Moisture that crosses 19 percent leaves a quarter: 16.5 lb.
    UseConditions drying = in_wind();
    drying.when_driven = WoodMoisture::wet;
    CHECK(within(pounds_force(adjust(nail, drying).force), 16.5, 0.05));
    // Impact takes no more than wind does, and says so.
    UseConditions struck = plain_use();
    struck.duration = LoadDuration::impact;
    CHECK(adjust(nail, struck).force == wind.force);
    CHECK(adjust(nail, struck).factors.duration_capped);
    CHECK_FALSE(wind.factors.duration_capped);
    // Wet, warm, toe-nailed, in a diaphragm and in end grain, sideways: 1.6 x 0.7 x 0.5 x 0.83 x 0.67 x 1.1 = 0.342558.
    UseConditions worst = toe_nailed(heat(SustainedHeat::to_150_f, WoodMoisture::wet));
    worst.duration = LoadDuration::ten_minutes;
    worst.diaphragm = true;
    CHECK(factors(Resistance::nail_lateral, worst, Grain::end).product == doctest::Approx(0.3425576).epsilon(1e-9));
    // A diaphragm's factor is for the lateral value alone.
    CHECK(factors(Resistance::nail_withdrawal, worst).diaphragm == 1.0);
}

TEST_CASE("a load on the slant") {
    // NDS 2018 12.4-1 and 12.4-2: straight out it is W'p, sideways Z'.
    const AllowableForce out = allowed(80.0);
    const AllowableForce side = allowed(120.0);
    const auto at = [&](double degrees, CombinedRule rule) {
        return pounds_force(combine(out, side, angle_from_degrees(degrees), rule, nds).force);
    };
    for (const CombinedRule rule : {CombinedRule::nails, CombinedRule::screws}) {
        CHECK(at(0.0, rule) == doctest::Approx(120.0).epsilon(1e-12));
        CHECK(at(90.0, rule) == doctest::Approx(80.0).epsilon(1e-12));
    }
    // 45 degrees: 80 x 120 / (200 x 0.707107) = 67.8823; with squares 9600 / (200 x 0.5) = 96.
    CHECK(at(45.0, CombinedRule::nails) == doctest::Approx(67.8823).epsilon(1e-6));
    CHECK(at(45.0, CombinedRule::screws) == doctest::Approx(96.0).epsilon(1e-12));
    // What a nail carries at any angle takes shares of both strengths that add to one.
    bool whole = true;
    for (int degrees = 0; degrees <= 90; degrees += 5) {
        const double load = at(degrees, CombinedRule::nails);
        const double a = degrees * pi / 180.0;
        whole = whole && within(load * std::sin(a) / 80.0 + load * std::cos(a) / 120.0, 1.0, 1e-12);
    }
    CHECK(whole);
    CHECK(combine(out, side, angle_from_degrees(30.0), CombinedRule::screws, nds).equation == "12.4-1");
    CHECK(combine(out, side, angle_from_degrees(30.0), CombinedRule::nails, nds).equation == "12.4-2");
}

TEST_CASE("a slanting load on one nail from its own two strengths") {
    const Adjusted out = adjust(smooth_8d_two_inches_in(0.50), in_wind());
    const Adjusted side = adjust(nail_lateral(common(Penny::d8), joint(0.5_in, 3.5_in), nds), in_wind());
    const Combined both = combine(out, side, angle_from_degrees(90.0));
    CHECK(pounds_force(both.force) == doctest::Approx(pounds_force(out.force)).epsilon(1e-12));
    CHECK_FALSE(both.unverified);
    Adjusted recalled = out;
    recalled.unverified = true;
    CHECK(combine(recalled, side, angle_from_degrees(30.0)).unverified);
    const Fault turned = refusal_of([&] { (void)combine(side, out, angle_from_degrees(30.0)); });
    CHECK(turned.code == FaultCode::contradiction);
    const Fault twice = refusal_of([&] { (void)combine(out, out, angle_from_degrees(30.0)); });
    CHECK(twice.code == FaultCode::contradiction);
}

TEST_CASE("what a slanting load refuses") {
    const auto refused = [](double out, double side, double degrees, NdsEdition edition) {
        return code_of(refusal_of([&] {
            (void)combine(allowed(out), allowed(side), angle_from_degrees(degrees), CombinedRule::nails, edition);
        }));
    };
    CHECK(refused(80.0, 120.0, -1.0, nds) == FaultCode::out_of_range);
    CHECK(refused(80.0, 120.0, 91.0, nds) == FaultCode::out_of_range);
    CHECK(refused(80.0, 120.0, not_a_value, nds) == FaultCode::not_finite);
    CHECK(refused(0.0, 120.0, 30.0, nds) == FaultCode::out_of_range);
    CHECK(refused(80.0, 0.0, 30.0, nds) == FaultCode::out_of_range);
    CHECK(refused(80.0, 120.0, 30.0, NdsEdition::nds_2015) == FaultCode::not_supported);
}

TEST_CASE("what factors refuse") {
    const auto refused = [](Resistance r, const UseConditions& use, NdsEdition edition) {
        return code_of(refusal_of([&] { (void)adjustment_of(r, Grain::side, use, edition); }));
    };
    CHECK(refused(Resistance::nail_withdrawal, plain_use(), NdsEdition::nds_2015) == FaultCode::not_supported);
    CHECK(refused(Resistance::wood_screw_withdrawal, toe_nailed(plain_use()), nds) == FaultCode::contradiction);
    CHECK(refused(Resistance::lag_withdrawal, toe_nailed(plain_use()), nds) == FaultCode::contradiction);
    CHECK(refused(Resistance::head_pull_through, toe_nailed(plain_use()), nds) == FaultCode::contradiction);
    UseConditions stray = plain_use();
    stray.duration = static_cast<LoadDuration>(6);
    CHECK(refused(Resistance::nail_withdrawal, stray, nds) == FaultCode::unknown_name);
    stray = plain_use();
    stray.heat = static_cast<SustainedHeat>(3);
    stray.in_service = static_cast<WoodMoisture>(2);
    const Faults both = check(stray, "use");
    REQUIRE(both.size() == 2);
    CHECK(both[0].path == "use.in_service");
    CHECK(both[1].path == "use.heat");
    const auto no_factor = [](double factor) { return code_of(refusal_of([&] { (void)DesignFactor::of(factor); })); };
    CHECK(no_factor(0.0) == FaultCode::out_of_range);
    CHECK(no_factor(2.1) == FaultCode::out_of_range);
    CHECK(no_factor(not_a_value) == FaultCode::not_finite);
}

TEST_CASE("what a lateral value refuses") {
    const auto refused = [](const NailShank& nail, const NailJoint& j, NdsEdition edition) {
        return code_of(refusal_of([&] { (void)nail_lateral(nail, j, edition); }));
    };
    const NailJoint sound = joint(0.75_in, 3.5_in);
    CHECK(refused(common(Penny::d8), sound, NdsEdition::nds_2015) == FaultCode::not_supported);
    CHECK(refused(common(Penny::d60), sound, nds) == FaultCode::out_of_range);  // 0.263 in, above 1/4
    CHECK(refused(standard_nail(NailStyle::sinker, Penny::d6), joint(0.5_in, 3.5_in), nds) ==
          FaultCode::out_of_range);  // 0.092 in, below Table I1
    CHECK(refused(common(Penny::d8), joint(0.75_in, 3.5_in, 0.30), nds) == FaultCode::out_of_range);
    CHECK(refused(common(Penny::d8), joint(0.75_in, 0.1_in), nds) == FaultCode::out_of_range);
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused(common(Penny::d8), joint(none, 3.5_in), nds) == FaultCode::not_finite);
    }
    // The steel of a roof sheathing nail was not read: its bending yield has to be given.
    const NailShank sheathing = roof_sheathing_ring_nail(RoofSheathingRing::rsrs_01);
    CHECK(refused(sheathing, sound, nds) == FaultCode::missing_field);
    NailJoint given = sound;
    given.bending_yield = pressure_from_psi(100000.0);
    CHECK(nail_lateral(sheathing, given, nds).modes.governs == YieldMode::iv);  // as 6d of Table 12N: same shank
    given.bending_yield = pressure_from_psi(not_a_value);
    CHECK(refused(sheathing, given, nds) == FaultCode::not_finite);
    NailJoint steel_plate = sound;
    steel_plate.side = pressure_from_psi(0.0);
    CHECK(refused(common(Penny::d8), steel_plate, nds) == FaultCode::out_of_range);
}

TEST_CASE("a hardened post-frame nail through two woods") {
    // 0.177 x 4 in through 1.5 in of G 0.42 (3350 psi) into G 0.55 (5550 psi), Fyb 115,000 psi, Rd 2.27; p = 2.5 in, bearing
    // 2.5 - 0.177 = 2.323 in. Re 1.656716, k3 = -1 + sqrt(2 x 2.656716/1.656716 + 2 x 115000 x 3.656716 x 0.031329 /
    // (3 x 5550 x 2.25)) = 0.977512; IIIs = 0.977512 x 0.177 x 1.5 x 5550 / (3.656716 x 2.27) = 173.525 lb.
    NailJoint two = joint(1.5_in, 5.5_in, 0.55);
    two.side = gravity(0.42);
    const NailLateral nail = nail_lateral(post_frame_ring_nail(0.177_in, 4_in), two, nds);
    CHECK(nail.modes.strength_ratio == doctest::Approx(1.656716).epsilon(1e-6));
    CHECK(nail.modes.k3 == doctest::Approx(0.977512).epsilon(1e-6));
    CHECK(nail.modes.governs == YieldMode::iii_side);
    CHECK(pounds_force(nail.force) == doctest::Approx(173.525).epsilon(1e-5));
    CHECK(pounds_force(adjust(nail, in_wind()).force) == doctest::Approx(277.640).epsilon(1e-5));
}
