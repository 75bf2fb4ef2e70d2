// SPDX-License-Identifier: BSL-1.0

// One nail loaded sideways, the factors of its use, and both loads at once: against printed cells, and by hand.

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/combined_load.hpp>
#include <eavewright/fastening/lateral.hpp>
#include <eavewright/fastening/pull_through.hpp>
#include <eavewright/fastening/withdrawal.hpp>
#include <eavewright/fastening/yield_modes.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"
#include "support/table.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
constexpr NdsEdition nds = NdsEdition::nds_2018;
constexpr UseConditions dry{LoadDuration::ten_years, WoodMoisture::dry, WoodMoisture::dry, SustainedHeat::to_100_f};
constexpr auto least_double = std::numeric_limits<double>::epsilon();

double number(const TableRow& row, const char* column) { return std::stod(row.at(column)); }
OvendryGravity gravity(double ratio) { return OvendryGravity::of(ratio); }
NailShank common(Penny penny) { return standard_nail(NailStyle::common, penny); }
double pounds(const YieldModes& y, YieldMode mode) { return pounds_force(y.modes[static_cast<std::size_t>(mode)]); }
UseConditions with_duration(LoadDuration duration) {
    UseConditions use = dry;
    use.duration = duration;
    return use;
}
UseConditions with_moisture(WoodMoisture when_driven, WoodMoisture in_service) {
    UseConditions use = dry;
    use.when_driven = when_driven;
    use.in_service = in_service;
    return use;
}
double nail_value(Penny penny, Length side, double g) {
    return pounds_force(nail_lateral(common(penny), {side, gravity(g), 5.5_in, gravity(g)}, nds).force);
}
}  // namespace

TEST_CASE("yield modes: each of six as worked, and the printed value to the pound") {
    // NDS 2018 Table 12N, common nails, both members G 0.50, bearing 10 D in the main one.
    for (const TableRow& row : read_table("nds_lateral_12N.csv")) {
        const Length d = Length::from_inches(number(row, "D_in"));
        const Pressure bearing = dowel_bearing(gravity(number(row, "G")), nds);
        const Pressure yield = nail_bending_yield(NailSteel::carbon, d, nds);
        CHECK(psi(bearing) == number(row, "Fe_psi"));
        CHECK(psi(yield) == number(row, "Fyb_psi"));
        const YieldModes y =
            yield_modes({d, yield, {10.0 * d, bearing}, {Length::from_inches(number(row, "ts_in")), bearing}}, nds);
        for (std::size_t i = 0; i < 6; ++i) {
            const std::string column = "Z_" + std::string{NamesOf<YieldMode>::list[i]} + "_lb";
            CHECK(std::fabs(pounds_force(y.modes[i]) - number(row, column.c_str())) <= 0.1);
        }
        CHECK(row.at("governing_mode") == name_of(y.governs));
        CHECK(std::fabs(pounds_force(y.least) - number(row, "Z_published_lb")) <= 0.6);
    }
}

TEST_CASE("nails sideways: printed values and a worked example, as they are driven") {
    // NDS 2018 Table 12N: 6d, G 0.50, 3/4 in thick.
    CHECK(std::fabs(nail_value(Penny::d6, 0.75_in, 0.5) - 72.0) <= 0.6);
    for (const TableRow& row : read_table("worked_examples_wood.csv")) {
        if (row.at("example").rfind("E2.x 10d", 0) == 0) {  // 10d common, Douglas fir-larch, 3/4 in
            const NailLateral z = nail_lateral(common(Penny::d10), {0.75_in, gravity(0.5), 3.5_in, gravity(0.5)}, nds);
            // The example leaves the bearing strength at 4637 psi, which the table rounds to 4650: 105.1 lb for 105.3.
            DowelJoint joint = z.joint;
            joint.main.strength = pressure_from_psi(16600.0 * std::pow(0.5, 1.84));
            joint.side.strength = joint.main.strength;
            CHECK(std::fabs(pounds_force(yield_modes(joint, nds).least) - number(row, "expected")) <= 0.05);
            CHECK(std::fabs(pounds_force(z.force) - 105.3) <= 0.05);
            CHECK(z.modes.governs == YieldMode::iii_side);
            CHECK_FALSE(z.by_penetration.has_value());
        }
    }
}

TEST_CASE("yield modes: members that change places change their modes") {
    SeededNumbers numbers{77};
    bool swapped = true;
    for (int i = 0; i < sweep(3000); ++i) {
        const DowelJoint joint{numbers.inches_between(0.09, 0.24),
                               pressure_from_psi(numbers.between(4e4, 1.3e5)),
                               {numbers.inches_between(0.3, 4.0), pressure_from_psi(numbers.between(2e3, 9e3))},
                               {numbers.inches_between(0.3, 4.0), pressure_from_psi(numbers.between(2e3, 9e3))}};
        const YieldModes a = yield_modes(joint, nds);
        const YieldModes b = yield_modes({joint.diameter, joint.bending_yield, joint.side, joint.main}, nds);
        const auto same = [&](YieldMode one, YieldMode other) {
            return std::fabs(pounds(a, one) / pounds(b, other) - 1.0) < 4096.0 * least_double;
        };
        swapped = swapped && same(YieldMode::i_main, YieldMode::i_side) && same(YieldMode::i_side, YieldMode::i_main) &&
                  same(YieldMode::ii, YieldMode::ii) && same(YieldMode::iii_main, YieldMode::iii_side) &&
                  same(YieldMode::iii_side, YieldMode::iii_main) && same(YieldMode::iv, YieldMode::iv);
        for (const ReferenceForce& mode : a.modes) {
            swapped = swapped && a.least <= mode;
        }
    }
    CHECK(swapped);
}

TEST_CASE("nails sideways: penetration and tip by hand") {
    const NailShank nail = common(Penny::d8);  // 0.131 in: 6 D is 0.786 in, 10 D 1.31 in
    const auto joint = [](Length side, Length main) { return NailJoint{side, gravity(0.5), main, gravity(0.5)}; };
    const NailLateral full = nail_lateral(nail, joint(1_in, 3.5_in), nds);
    CHECK(off_by(full.penetration, 1.5_in) < 1e-12);
    CHECK(off_by(full.joint.main.length, 1.369_in) < 1e-12);  // less half of the tip, 2 D
    CHECK_FALSE(full.by_penetration.has_value());
    // 1.5 in through: 1 in deep, 7.634 D. The table's 97.1 lb (mode IV) by 0.7634 is 74.1;
    // bearing on 0.869 in, mode IV still governs at 97.1. The lesser counts.
    const NailLateral short_one = nail_lateral(nail, joint(1.5_in, 3.5_in), nds);
    REQUIRE(short_one.by_penetration.has_value());
    CHECK(short_one.penetration_diameters == doctest::Approx(7.6336).epsilon(1e-5));
    CHECK(pounds_force(*short_one.by_penetration) == doctest::Approx(97.1 * 0.76336).epsilon(5e-4));
    CHECK(short_one.force == *short_one.by_penetration);
    CHECK(short_one.modes.least > short_one.force);
    // Exactly 10 D and 6 D: the rule sets in below the one, refuses below the other.
    CHECK_FALSE(nail_lateral(nail, joint(1.19_in, 3.5_in), nds).by_penetration.has_value());
    CHECK(nail_lateral(nail, joint(1.2_in, 3.5_in), nds).by_penetration.has_value());
    CHECK(nail_lateral(nail, joint(1.714_in, 3.5_in), nds).penetration_diameters ==
          doctest::Approx(6.0).epsilon(1e-12));
    CHECK(refusal_of([&] { (void)nail_lateral(nail, joint(1.72_in, 3.5_in), nds); }).code == FaultCode::does_not_fit);
    // Through a flat purlin of 1.5 in: 0.5 in of point beyond, so that the whole 1.5 in bears; with 0.1 in beyond, 0.162 in of
    // the tip is within, half of which does not.
    CHECK(nail_lateral(common(Penny::d10), joint(1_in, 1.5_in), nds).joint.main.length == 1.5_in);
    CHECK(off_by(nail_lateral(nail, joint(0.9_in, 1.5_in), nds).joint.main.length, 1.419_in) < 1e-12);
    // Toe-nailed: a third of 2.5 in in the side member, 2.5 x 0.8660 - 0.8333 = 1.3317 in in the main one.
    NailJoint slant = joint(1.5_in, 3.5_in);
    slant.toe_nailed = true;
    const NailLateral toe = nail_lateral(nail, slant, nds);
    CHECK(off_by(toe.joint.side.length, one_inch * (2.5 / 3.0)) < 1e-12);
    CHECK(off_by(toe.joint.main.length, 1.33173_in) < 1e-5);
}

TEST_CASE("nails sideways: metal side plates, ring shanks, and what is refused") {
    const NailShank nail = common(Penny::d8);
    NailJoint plate{0.036_in, sheet_steel_bearing, 3.5_in, gravity(0.42)};
    // 20 gage steel: Re = 3350 / 61850; the wood is not asked for a bearing strength of the plate.
    const NailLateral z = nail_lateral(nail, plate, nds);
    CHECK(z.modes.strength_ratio == doctest::Approx(3350.0 / 61850.0).epsilon(1e-12));
    CHECK(z.modes.governs == YieldMode::iii_side);
    // Above 0.17 in the reduction term is 10 D + 0.5, 2.42 for a 20d of 0.192 in; 2.2 up to it.
    const auto reduction = [&](Penny penny) { return nail_lateral(common(penny), plate, nds).modes.reduction; };
    CHECK(reduction(Penny::d20) == doctest::Approx(2.42).epsilon(1e-12));
    CHECK(reduction(Penny::d16) == 2.2);
    // A hardened post-frame nail bends later than a common one of its diameter: mode IV by the root of 130 / 100.
    const NailShank ring = post_frame_ring_nail(0.135_in, 3_in);
    const auto mode_iv = [&](const NailShank& n) {
        return pounds(nail_lateral(n, {1_in, gravity(0.5), 3.5_in, gravity(0.5)}, nds).modes, YieldMode::iv);
    };
    NailShank box = ring;
    box.steel = NailSteel::carbon;
    CHECK(mode_iv(ring) / mode_iv(box) == doctest::Approx(std::sqrt(1.3)).epsilon(1e-12));
    NailShank unknown = roof_sheathing_ring_nail(RoofSheathingRing::rsrs_01);
    CHECK(refusal_of([&] { (void)nail_lateral(unknown, plate, nds); }).code == FaultCode::missing_field);
    plate.bending_yield = pressure_from_psi(100000.0);
    CHECK(refusal_of([&] { (void)nail_lateral(unknown, plate, nds); }).path == "no fault");
    const auto refused = [&](const NailShank& n, NdsEdition edition) {
        return refusal_of([&] { (void)nail_lateral(n, {1_in, gravity(0.5), 5.5_in, gravity(0.5)}, edition); });
    };
    CHECK(refused(common(Penny::d60), nds).path == "joint.diameter");                     // 0.263 in
    CHECK(refused(standard_nail(NailStyle::sinker, Penny::d6), nds).path == "diameter");  // 0.092 in, no yield strength
    CHECK(refused(nail, NdsEdition::nds_2015).code == FaultCode::not_supported);
    CHECK(refusal_of([&] { (void)dowel_bearing(gravity(0.3), nds); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([&] {
              (void)yield_modes({0.131_in,
                                 pressure_from_psi(1e5),
                                 {1_in, pressure_from_psi(std::nan(""))},
                                 {1_in, sheet_steel_bearing}},
                                nds);
          }).path == "joint.main.strength");
}

TEST_CASE("nails: bending yield strengths by band, bounds and all") {
    for (const TableRow& row : read_table("nds_fyb.csv")) {
        const double expected = number(row, "Fyb_psi");
        if (row.at("fastener").rfind("bolt", 0) == 0) {
            CHECK(psi(bolt_bending_yield) == expected);
            continue;
        }
        const NailSteel steel = row.at("fastener").rfind("hardened", 0) == 0 ? NailSteel::hardened : NailSteel::carbon;
        const auto at = [&](double d) { return psi(nail_bending_yield(steel, Length::from_inches(d), nds)); };
        const bool inclusive = row.at("bound_note") == "D_min inclusive";
        CHECK(at(number(row, "D_max_in")) == expected);
        CHECK(at(number(row, "D_min_in") + 1e-4) == expected);
        CHECK((at(number(row, "D_min_in")) == expected) == inclusive);
    }
    const auto refused = [](NailSteel steel, Length d) {
        return refusal_of([&] { (void)nail_bending_yield(steel, d, nds); }).code;
    };
    CHECK(refused(NailSteel::carbon, 0.098_in) == FaultCode::out_of_range);
    CHECK(refused(NailSteel::carbon, 0.376_in) == FaultCode::out_of_range);
    CHECK(refused(NailSteel::hardened, 0.208_in) == FaultCode::out_of_range);
    CHECK(refused(NailSteel::stainless, 0.131_in) == FaultCode::not_supported);
}

TEST_CASE("factors: every row of the tables") {
    // NDS 2018 Tables 2.3.2, 11.3.3, 11.3.4 and 12.5.
    const WoodMoisture d = WoodMoisture::dry;
    const WoodMoisture w = WoodMoisture::wet;
    const Resistance nail = Resistance::nail_withdrawal;
    const auto of = [](Resistance r, const UseConditions& use, Grain grain = Grain::side) {
        return use_factors(r, grain, use, nds);
    };
    UseConditions toe = dry;
    toe.toe_nailed = true;
    UseConditions diaphragm = dry;
    diaphragm.diaphragm = true;
    const std::map<std::string, double> found{
        {"permanent (dead)", of(nail, with_duration(LoadDuration::permanent)).duration},
        {"ten years (occupancy live)", of(nail, with_duration(LoadDuration::ten_years)).duration},
        {"two months (snow)", of(nail, with_duration(LoadDuration::two_months)).duration},
        {"seven days (construction/roof live)", of(nail, with_duration(LoadDuration::seven_days)).duration},
        {"ten minutes (wind/earthquake)", of(nail, with_duration(LoadDuration::ten_minutes)).duration},
        {"impact (never for connections)", load_duration_factor(LoadDuration::impact)},
        {"upper limit for connections and wood structural panels",
         of(nail, with_duration(LoadDuration::impact)).duration},
        {"nail withdrawal, fabricated <=19 pct MC, in service <=19 pct", of(nail, with_moisture(d, d)).wet_service},
        {"nail withdrawal, >19 then <=19", of(nail, with_moisture(w, d)).wet_service},
        {"nail withdrawal, <=19 then >19", of(nail, with_moisture(d, w)).wet_service},
        {"nail withdrawal, >19 and >19", of(nail, with_moisture(w, w)).wet_service},
        {"ring shank (RSRS/post-frame) withdrawal, footnote",
         of(Resistance::ring_nail_withdrawal, with_moisture(w, d)).wet_service},
        {"lag or wood screw withdrawal, in service >19",
         of(Resistance::lag_withdrawal, with_moisture(d, w)).wet_service},
        {"head pull-through, in service >19", of(Resistance::head_pull_through, with_moisture(w, w)).wet_service},
        {"lateral dowel D<1/4 in, >19 then <=19", of(Resistance::nail_lateral, with_moisture(w, d)).wet_service},
        {"lateral dowel, in service >19", of(Resistance::nail_lateral, with_moisture(d, w)).wet_service},
        {"T<=100 F", temperature_factor(SustainedHeat::to_100_f, w)},
        {"100<T<=125 F dry", temperature_factor(SustainedHeat::to_125_f, d)},
        {"100<T<=125 F wet", temperature_factor(SustainedHeat::to_125_f, w)},
        {"125<T<=150 F dry", temperature_factor(SustainedHeat::to_150_f, d)},
        {"125<T<=150 F wet", temperature_factor(SustainedHeat::to_150_f, w)},
        {"toe-nail lateral", of(Resistance::nail_lateral, toe).toe_nail},
        {"toe-nail withdrawal (CM not applied)", of(nail, toe).toe_nail},
        {"end grain lateral", of(Resistance::nail_lateral, dry, Grain::end).end_grain},
        {"lag screw withdrawal from end grain", of(Resistance::lag_withdrawal, dry, Grain::end).end_grain},
        {"diaphragm nailing lateral", of(Resistance::nail_lateral, diaphragm).diaphragm}};
    std::size_t rows = 0;
    for (const TableRow& row : read_table("nds_adjustment_factors.csv")) {
        const std::string& condition = row.at("condition");
        if (number(row, "value") == 0.0) {  // nails and wood screws from end grain: not permitted
            for (const Resistance r : {nail, Resistance::ring_nail_withdrawal, Resistance::wood_screw_withdrawal}) {
                CHECK(refusal_of([&] { (void)of(r, dry, Grain::end); }).code == FaultCode::not_supported);
            }
            continue;
        }
        ++rows;
        REQUIRE(found.count(condition) == 1);
        CHECK(found.at(condition) == number(row, "value"));
    }
    CHECK(rows == found.size());
    CHECK(of(nail, with_duration(LoadDuration::impact)).duration_capped);
    CHECK_FALSE(of(nail, with_duration(LoadDuration::ten_minutes)).duration_capped);
    // What does not apply stays out: moisture of a toe-nail in withdrawal, a diaphragm's factor in withdrawal.
    toe.when_driven = w;
    CHECK(of(nail, toe).wet_service == 1.0);
    CHECK(of(Resistance::nail_lateral, toe).wet_service == 0.7);
    CHECK(of(nail, diaphragm).product == 1.0);
    CHECK(refusal_of([&] { (void)of(Resistance::lag_withdrawal, toe); }).code == FaultCode::contradiction);
    CHECK(refusal_of([&] { (void)use_factors(nail, Grain::side, dry, NdsEdition::nds_2015); }).path == "edition");
}

TEST_CASE("factors: allowable values by hand") {
    const NailShank nail = common(Penny::d8);
    const Withdrawal w =
        withdrawal(nail, {0.5_in, 3.5_in}, gravity(0.42), Grain::side, nds);  // 20.667 lb an inch, 2 in
    const UseConditions wind = with_duration(LoadDuration::ten_minutes);
    CHECK(std::fabs(pounds_force(adjust(w, wind).force) - 66.1) < 0.05);
    UseConditions drying = with_moisture(WoodMoisture::wet, WoodMoisture::dry);
    drying.duration = LoadDuration::ten_minutes;
    CHECK(std::fabs(pounds_force(adjust(w, drying).force) - 16.5) < 0.05);
    // Toe-nailed in G 0.50: 31.96 x 0.67 = 21.41 lb an inch.
    UseConditions toe = dry;
    toe.toe_nailed = true;
    const Withdrawal inch_deep = withdrawal(nail, {1.5_in, 3.5_in}, gravity(0.5), Grain::side, nds);
    CHECK(std::fabs(pounds_force(adjust(inch_deep, toe).force) - 21.41) < 0.005);
    // Every factor at once, a toe-nail of a diaphragm in end grain, wet and hot, under impact:
    // 1.6 x 0.7 x 0.5 x 0.83 x 0.67 x 1.1 = 0.342558.
    NailJoint joint{0.75_in, gravity(0.5), 3.5_in, gravity(0.5)};
    joint.grain = Grain::end;
    joint.toe_nailed = true;
    const NailLateral z = nail_lateral(common(Penny::d16), joint, nds);
    const UseConditions worst{
        LoadDuration::impact, WoodMoisture::wet, WoodMoisture::wet, SustainedHeat::to_150_f, true, true};
    const Adjusted all = adjust(z, worst);
    CHECK(all.factors.product == doctest::Approx(1.6 * 0.7 * 0.5 * 0.83 * 0.67 * 1.1).epsilon(1e-12));
    CHECK(pounds_force(all.force) == doctest::Approx(pounds_force(z.force) * all.factors.product).epsilon(1e-12));
    CHECK(refusal_of([&] { (void)adjust(z, dry); }).path == "use.toe_nailed");
    // Pull-through in wind: 66.62 x 1.6.
    CHECK(std::fabs(pounds_force(adjust(pull_through(nail, 0.4375_in, gravity(0.5), nds), wind).force) - 106.59) <
          0.01);
    // Shares: 68.2 lb asked of 66.1 is 1.031; four nails hold four times one.
    CHECK(utilisation(force_from_pounds(68.2), adjust(w, wind).force) == doctest::Approx(1.0312).epsilon(1e-3));
    CHECK(adjust(w, wind).force * 4 / adjust(w, wind).force == 4.0);
    CHECK(refusal_of([&] { (void)utilisation(force_from_pounds(-1.0), adjust(w, wind).force); }).path == "load");
    CHECK(refusal_of([&] {
              (void)utilisation(force_from_pounds(1.0), AllowableForce::of(force_from_pounds(0.0)));
          }).path == "strength");
    CHECK(refusal_of([] { (void)DesignFactor::of(0.0); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)ReferenceForce::of(force_from_pounds(std::nan(""))); }).code == FaultCode::not_finite);
    // A bite that rests on an unread thread is carried through.
    const Withdrawal ring = withdrawal(roof_sheathing_ring_nail(RoofSheathingRing::rsrs_01), {0.5_in, 3.5_in},
                                       gravity(0.42), Grain::side, nds);
    CHECK(ring.unverified);
    CHECK(adjust(ring, wind).unverified);
    CHECK_FALSE(adjust(w, wind).unverified);
}

TEST_CASE("both loads at once") {
    const AllowableForce out = AllowableForce::of(force_from_pounds(50.0));
    const AllowableForce across = AllowableForce::of(force_from_pounds(100.0));
    const auto at = [&](double angle, CombinedRule rule) {
        return pounds_force(combine(out, across, angle_from_degrees(angle), rule, nds).force);
    };
    for (const CombinedRule rule : {CombinedRule::nails, CombinedRule::screws}) {
        CHECK(at(90.0, rule) == doctest::Approx(50.0).epsilon(1e-12));
        CHECK(at(0.0, rule) == doctest::Approx(100.0).epsilon(1e-12));
    }
    // At 45 degrees: 5000 / (150 x 0.70711) = 47.14 for nails, 5000 / (150 x 0.5) = 66.67 for screws.
    CHECK(std::fabs(at(45.0, CombinedRule::nails) - 47.14) < 0.005);
    CHECK(std::fabs(at(45.0, CombinedRule::screws) - 66.67) < 0.005);
    bool below = true;
    for (int i = 1; i < 90; ++i) {  // the straight line of shares: the nail's rule is the sum of both utilisations
        const double a = static_cast<double>(i);
        const double load = at(a, CombinedRule::nails);
        const double r = a * pi / 180.0;
        below = below && std::fabs(load * std::sin(r) / 50.0 + load * std::cos(r) / 100.0 - 1.0) < 1e-12 &&
                load < at(a, CombinedRule::screws);
    }
    CHECK(below);
    CHECK(combine(out, across, angle_from_degrees(45.0), CombinedRule::nails, nds).equation == "12.4-2");
    CHECK(combine(out, across, angle_from_degrees(45.0), CombinedRule::screws, nds).equation == "12.4-1");
    const auto refused = [&](AllowableForce w, double angle, NdsEdition edition) {
        return refusal_of([&] { (void)combine(w, across, angle_from_degrees(angle), CombinedRule::nails, edition); })
            .path;
    };
    CHECK(refused(out, 91.0, nds) == "angle");
    CHECK(refused(out, -1.0, nds) == "angle");
    CHECK(refused(AllowableForce::of(force_from_pounds(0.0)), 45.0, nds) == "withdrawal");
    CHECK(refused(out, 45.0, NdsEdition::nds_2015) == "edition");
}

TEST_CASE("results of one nail are written with their figures and cautions") {
    const NailShank nail = common(Penny::d8);
    const Withdrawal w = withdrawal(nail, {0.4375_in, 1.5_in}, gravity(0.42), Grain::side, nds);
    const NailLateral z = nail_lateral(nail, {0.4375_in, gravity(0.5), 3.5_in, gravity(0.42)}, nds);
    const Combined both = combine(adjust(w, dry), adjust(z, dry), angle_from_degrees(30.0));
    CHECK_FALSE(both.unverified);
    const auto has = [](const std::string& json, const char* text) { return json.find(text) != std::string::npos; };
    const std::string out = write_json(w, LengthUnit::inches);
    CHECK(has(out, "\"equation\": \"12.2-3\""));
    CHECK(has(out, "\"governs\": \"member_thickness\""));
    CHECK(has(out, "\"shank_caution\": \"Withdrawal tests of smooth shanks scatter"));
    CHECK(has(out, "\"protrudes\": 0.5625"));
    const std::string across = write_json(z, LengthUnit::inches);
    CHECK(has(across, "\"modes_pounds\": ["));
    CHECK(has(across, "\"governs\": \"III"));
    CHECK(has(write_json(adjust(z, dry), LengthUnit::inches), "\"duration\": 1"));
    CHECK(has(write_json(both, LengthUnit::inches), "\"angle\": 30"));
    CHECK(has(write_json(pull_through(nail, 0.4375_in, gravity(0.5), nds), LengthUnit::inches), "12.2-6a"));
    // The two arguments of `combine` cannot change places.
    CHECK(refusal_of([&] { (void)combine(adjust(z, dry), adjust(w, dry), angle_from_degrees(30.0)); }).code ==
          FaultCode::contradiction);
}
