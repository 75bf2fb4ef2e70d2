// SPDX-License-Identifier: BSL-1.0

// Corrections of a steel tape against a report of calibration, against worked examples, by hand, and there and back.

#include <eavewright/squaring/tape_corrections.hpp>

#include "../support/printing.hpp"
#include "../support/refusal.hpp"
#include "../support/seeded_numbers.hpp"
#include "../support/table.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <map>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

const Temperature standard = Temperature::from_fahrenheit(68.0);
Force lbf(double pounds) { return force_from_pounds(pounds); }
LineLoad plf(double pounds) { return line_load_from_pounds_per_foot(pounds); }

/// A 100 ft tape that is true at 68 F and 10 lbf; AE and weight as a light tape has them.
SteelTape true_tape() {
    return SteelTape{.nominal_length = 100_ft,
                     .standard_length = 100_ft,
                     .standard_tension = lbf(10.0),
                     .stiffness = lbf(100000.0),
                     .weight = plf(0.01)};
}
TapingConditions at_standard() { return TapingConditions{.temperature = standard, .tension = lbf(10.0)}; }

/// The sum of the terms is what the result says, and nothing in it is NaN.
bool sums_up(const CorrectedReading& r) {
    const Length straight = r.read + r.calibration + r.temperature + r.tension + r.sag + r.hook;
    return off_by(straight, r.straight) <= 1e-15 * inches(r.read) * 8.0 &&
           off_by(r.straight + r.to_level, r.corrected) <= 1e-15 * inches(r.read) * 8.0 && is_usable(r.corrected);
}

/// Half a unit of the last printed digit, in the unit of the row.
double half_unit(const std::string& printed) {
    const std::size_t point = printed.find('.');
    return point == std::string::npos ? 0.5 : 0.5 * std::pow(10.0, -static_cast<double>(printed.size() - point - 1));
}

/// Whether a worked example comes out as its row says, and as it is printed at its source where that is a number.
struct Examples {
    std::map<std::string, TableRow> rows;
    int seen = 0;
    Examples() {
        for (const TableRow& row : read_table("tape_examples.csv")) {
            rows[row.at("id")] = row;
        }
    }
    bool shows(const std::string& id, double got) {
        ++seen;
        const TableRow& row = rows.at(id);
        const std::string& value = row.at("value");
        const std::string& printed = row.at("printed");
        const bool plain = printed.find_first_not_of("-.0123456789") == std::string::npos && !printed.empty();
        const bool as_printed = !plain || std::fabs(got - std::stod(printed)) <= half_unit(printed) * 1.000001;
        return as_printed && std::fabs(got - std::stod(value)) <= half_unit(value) * 1.001;
    }
    bool shows(const std::string& id, Length got) {
        return shows(id, rows.at(id).at("unit") == "m" ? metres(got) : feet(got));
    }
};

}  // namespace

TEST_CASE("a report of calibration is reproduced to a ten-thousandth of a foot") {
    // Two of its rows give what the report does not state: flat at 5.20 lbf the tape is 100.0000 ft, so
    // AE = (10 - 5.20) x 100 / 0.0045 = 106,666.7 lbf; on two points at 10 lbf it is 99.9368 ft, 0.0677 ft less, so
    // w = sqrt(0.0677 x 24 x 10^2 / 100^3) = 0.012747 lb/ft. The other rows are independent of these.
    const double stiffness = 4.80 * 100.0 / 0.0045;
    const double weight = std::sqrt(0.0677 * 24.0 * 100.0 / 1e6);
    CHECK(stiffness == doctest::Approx(106666.7).epsilon(1e-6));
    CHECK(weight == doctest::Approx(0.012747).epsilon(1e-4));
    std::map<std::string, double> standard_length{{"0-100", 100.0045}};
    const auto tape_for = [&](const std::string& interval, double nominal) {
        return SteelTape{.nominal_length = Length::from_feet(nominal),
                         .standard_length = Length::from_feet(standard_length.at(interval)),
                         .standard_tension = lbf(10.0),
                         .stiffness = lbf(stiffness),
                         .weight = plf(weight),
                         .standard_temperature = standard,
                         .expansion_per_fahrenheit = 6.45e-6};
    };
    int compared = 0;
    const auto reads = [&](const std::string& interval, double fahrenheit, double pounds, const std::string& support) {
        const double nominal = std::stod(interval.substr(2));
        TapingConditions at{.temperature = Temperature::from_fahrenheit(fahrenheit), .tension = lbf(pounds)};
        if (support != "flat") {
            at.support = EqualSpans{std::stoi(support) - 1};  // "5 points" make four spans
        }
        if (standard_length.count(interval) == 0) {
            return -1.0;
        }
        ++compared;
        return feet(correct_reading(Length::from_feet(nominal), tape_for(interval, nominal), at).corrected);
    };
    for (const TableRow& row : read_table("tape_nist_calibration.csv")) {
        const std::string& interval = row.at("interval_ft");
        const double fahrenheit = std::stod(row.at("temperature_F"));
        const double reported = std::stod(row.at("reported_length_ft"));
        CAPTURE(interval);
        CAPTURE(row.at("tension_lb"));
        CAPTURE(row.at("support"));
        if (interval != "0-100" && standard_length.count(interval) == 0) {
            // A shorter interval has marks of its own: its first row, at 10 lbf, gives its length at 68 F.
            CHECK(std::stod(row.at("tension_lb")) == 10.0);
            standard_length[interval] = reported * (1.0 + 6.45e-6 * (68.0 - fahrenheit));
        }
        const double got = reads(interval, fahrenheit, std::stod(row.at("tension_lb")), row.at("support"));
        CHECK(std::fabs(got - reported) < 0.00015);
        if (!row.at("predicted_length_ft").empty()) {
            CHECK(std::fabs(got - std::stod(row.at("predicted_length_ft"))) < 0.000051);
        }
    }
    // Two more rows of the same report: 25 lbf on two points, and flat at 54 F and 15 lbf.
    CHECK(std::fabs(reads("0-100", 68.0, 25.0, "2 points") - 100.0077) < 0.00015);
    CHECK(std::fabs(reads("0-100", 54.0, 15.0, "flat") - 100.0002) < 0.00015);
    CHECK(compared == 14);
}

TEST_CASE("worked examples come out as printed") {
    Examples table;
    SteelTape tape = true_tape();
    TapingConditions at = at_standard();

    // 6.5e-6 x 368.50 x (22 - 68) = -0.110182 ft
    tape.expansion_per_fahrenheit = 6.5e-6;
    at.temperature = Temperature::from_fahrenheit(22.0);
    const CorrectedReading cold = correct_reading(Length::from_feet(368.50), tape, at);
    CHECK(table.shows("T1", cold.temperature));
    CHECK(std::fabs(feet(cold.corrected) - 368.39) <= 0.005);  // the distance printed beside it
    CHECK(cold.corrected == cold.read + cold.temperature);

    // 0.028^2 x (3 x 100^3 + 48.75^3) / (24 x 12^2) = 0.000784 x 3,115,857.4 / 3456 = 0.706838 ft
    const std::vector<Length> hundreds{100_ft, 100_ft, 100_ft, 48.75_ft};
    tape.weight = plf(2.8 / 100.0);
    at = TapingConditions{.temperature = standard, .tension = lbf(12.0), .support = HungSpans{hundreds}};
    CHECK(table.shows("T2", correct_reading(348.75_ft, tape, at).sag));
    at.tension = lbf(18.0);
    CHECK(table.shows("T3", correct_reading(348.75_ft, tape, at).sag));
    at.tension = lbf(12.0);
    at.support = HungSpans{{50_ft, 50_ft, 50_ft, 50_ft, 50_ft, 50_ft, 48.75_ft}};
    CHECK(table.shows("T4", correct_reading(348.75_ft, tape, at).sag));

    // (18 - 12) x 100 / (0.015 x 29e6) = 600 / 435,000 = 0.001379 ft
    tape.stiffness = tape_stiffness(1_in * 1_in * 0.015);
    tape.standard_tension = lbf(12.0);
    CHECK(pounds_force(tape.stiffness) == doctest::Approx(435000.0).epsilon(1e-14));
    at = TapingConditions{.temperature = standard, .tension = lbf(18.0)};
    CHECK(table.shows("T5", correct_reading(100_ft, tape, at).tension));

    // Printed 31 lbf does not satisfy its own formula: 31^2 x (31 - 12) = 18,259, W^2 AE / 24 = 142,100.
    // The root: 56.505458^2 x 44.505458 = 142,100.
    CHECK(2.8 * 2.8 * 435000.0 / 24.0 == doctest::Approx(142100.0).epsilon(1e-14));
    CHECK(table.rows.at("T6").at("printed") == "31");
    const double root = pounds_force(normal_tension(tape, 100_ft));
    CHECK(std::fabs(root - std::stod(table.rows.at("T6").at("value"))) < 0.51e-6);
    CHECK(root * root * (root - 12.0) == doctest::Approx(142100.0).epsilon(1e-12));
    CHECK(std::fabs(31.0 * 31.0 * 19.0 / 142100.0 - 1.0) > 0.8);
    ++table.seen;
}

TEST_CASE("distances of several tape lengths come out term by term") {
    Examples table;
    const SteelTape tape{.nominal_length = 100_ft,
                         .standard_length = 100.004_ft,
                         .standard_tension = lbf(23.0),
                         .stiffness = tape_stiffness(1_in * 1_in * 0.004),
                         .weight = plf(2.2 / 102.0),
                         .standard_temperature = Temperature::from_fahrenheit(70.0),
                         .expansion_per_fahrenheit = 6.5e-6};
    const CorrectedReading hung = correct_reading(436.48_ft, tape,
                                                  TapingConditions{.temperature = Temperature::from_fahrenheit(50.0),
                                                                   .tension = lbf(15.0),
                                                                   .support = HungSpans{{100_ft, 100_ft, 36.48_ft}}});
    CHECK(table.shows("T7", hung.calibration));  // 0.004 / 100 x 436.48
    CHECK(table.shows("T8", hung.temperature));  // 6.5e-6 x -20 x 436.48
    CHECK(table.shows("T9", hung.tension));      // -8 x 436.48 / 116,000
    CHECK(table.shows("T10", hung.sag));         // -(2.2 / 102)^2 x 2,048,548 / (24 x 225)
    CHECK(table.shows("T11", hung.corrected));
    CHECK(sums_up(hung));

    const SteelTape second{.nominal_length = 100_ft,
                           .standard_length = 99.995_ft,
                           .standard_tension = lbf(18.0),
                           .stiffness = tape_stiffness(1_in * 1_in * 0.003, pressure_from_psi(30e6)),
                           .weight = plf(0.0195),
                           .expansion_per_fahrenheit = 6.5e-6};
    const CorrectedReading partly =
        correct_reading(678.46_ft, second,
                        TapingConditions{.temperature = Temperature::from_fahrenheit(80.0),
                                         .tension = lbf(25.0),
                                         .support = HungSpans{{50_ft, 50_ft, 100_ft, 100_ft, 78.46_ft}}});
    CHECK(table.shows("T12", partly.corrected));
    CHECK(std::fabs(feet(partly.calibration) - -0.03392) < 0.51e-5);
    CHECK(std::fabs(feet(partly.temperature) - 0.05292) < 0.51e-5);
    CHECK(std::fabs(feet(partly.tension) - 0.05277) < 0.51e-5);
    CHECK(std::fabs(feet(partly.sag) - -0.06928) < 0.51e-5);

    SteelTape longer_tape = true_tape();
    longer_tape.standard_length = 100.02_ft;
    CHECK(table.shows("T13", correct_reading(500_ft, longer_tape, at_standard()).corrected));
    const Length set = reading_to_set(500_ft, longer_tape, at_standard());
    CHECK(std::fabs(feet(set) - std::stod(table.rows.at("T14").at("value"))) < 0.51e-6);
    CHECK(std::fabs(feet(set) - 499.90) <= 0.005);  // as printed
    ++table.seen;

    CHECK(table.shows("T15", level_from_slope(300_ft, angle_from_degrees(5.0))));
    // v^2 / 2S = 26.15^2 / 600 = 1.139704 ft is an approximation; the exact difference is more by v^4 / 8 S^3 =
    // 0.002165 ft and a little.
    const double first = 26.15 * 26.15 / 600.0;
    CHECK(table.shows("T16", first));
    const double exact = feet(300_ft - level_from_slope(300_ft, 26.15_ft));
    CHECK(std::fabs(exact - first - std::pow(26.15, 4.0) / (8.0 * 27e6)) < 1e-5);
    CHECK(exact == doctest::Approx(1.141878).epsilon(1e-6));

    SteelTape metric = true_tape();
    metric.nominal_length = 30_m;
    metric.standard_length = 29.996_m;
    CHECK(table.shows("T17", correct_reading(171.278_m, metric, at_standard()).calibration));
    metric.standard_length = 30_m;
    metric.standard_temperature = Temperature::from_fahrenheit(77.0);
    metric.expansion_per_fahrenheit = 9.4e-6;
    TapingConditions hot = at_standard();
    hot.temperature = Temperature::from_fahrenheit(95.0);
    CHECK(table.shows("T18", correct_reading(20_m, metric, hot).temperature));
    hot.temperature = Temperature::from_fahrenheit(78.0);
    CHECK(table.shows("T19", correct_reading(100_ft, true_tape(), hot).temperature));
    CHECK(table.seen + 6 == static_cast<int>(table.rows.size()));  // six are in the case before
}

TEST_CASE("by hand on a roof: a 60 ft reading with a hook, in the sun, up the slope") {
    // 60 ft = 720 in on a tape that is 1/64 in long in 100 ft, 30 F warm, 15 lbf for 10, over four spans of 15 ft,
    // hook 1/32 in short, ends 20 ft apart in height:
    //   calibration  720 x (1/64) / 1200          = +0.009375 in
    //   temperature  720 x 6.45e-6 x 30           = +0.139320 in
    //   tension      720 x 5 / 100,000            = +0.036000 in
    //   sag          4 x 0.01^2 x 15^3 / (24 x 15^2) ft = 0.00025 ft flat; sine 1/3, so x 8/9 = -0.002667 in
    //   hook                                        -0.031250 in
    SteelTape tape = true_tape();
    tape.standard_length = 100_ft + 1_in / 64;
    const TapingConditions at{.temperature = Temperature::from_fahrenheit(98.0),
                              .tension = lbf(15.0),
                              .support = EqualSpans{4},
                              .hook_offset = -1_in / 32,
                              .slope = EndsRise{20_ft}};
    const CorrectedReading r = correct_reading(60_ft, tape, at);
    CHECK(off_by(r.calibration, 0.009375_in) < 1e-9);
    CHECK(off_by(r.temperature, 0.13932_in) < 1e-9);
    CHECK(off_by(r.tension, 0.036_in) < 1e-9);
    CHECK(off_by(r.sag, -0.002667_in) < 1e-6);
    CHECK(r.hook == -1_in / 32);
    CHECK(off_by(r.straight, 720.150778_in) < 1e-6);
    // sqrt(720.150778^2 - 240^2) = 678.983 in
    CHECK(off_by(r.corrected, one_inch * std::sqrt(720.150778 * 720.150778 - 57600.0)) < 1e-5);
    CHECK(off_by(r.to_level, r.corrected - r.straight) < 1e-12);
    CHECK(sums_up(r));
    // The same slope by its angle, and downhill.
    TapingConditions tilted = at;
    tilted.slope = SlopeAngle{angle_from_radians(-std::asin(240.0 / inches(r.straight)))};
    CHECK(off_by(correct_reading(60_ft, tape, tilted).corrected, r.corrected) < 1e-6);
    // Wanted as it lies: no slope, whole sag.
    TapingConditions level = at;
    level.slope = OnTheLevel{};
    CHECK(off_by(correct_reading(60_ft, tape, level).sag, -0.003_in) < 1e-12);
    CHECK(correct_reading(60_ft, tape, level).to_level == no_length);
}

TEST_CASE("metric and imperial are one") {
    CHECK(expansion_per_fahrenheit(11.6e-6) == doctest::Approx(6.444e-6).epsilon(1e-4));  // 11.6 / 1.8
    // 30 m at 35 C, alpha 11.6e-6: 30,000 x 11.6e-6 x 15 = 5.22 mm; 80 N for 50 N on AE 450 kN: 30,000 x 30 / 450,000 =
    // 2 mm; one span of 30 m at 0.15 N/m: 0.15^2 x 30^3 / (24 x 80^2) = 0.003955 m.
    const SteelTape tape{.nominal_length = 30_m,
                         .standard_length = 30_m,
                         .standard_tension = force_from_newtons(50.0),
                         .stiffness = force_from_newtons(450000.0),
                         .weight = line_load_from_newtons_per_metre(0.15),
                         .standard_temperature = Temperature::from_celsius(20.0),
                         .expansion_per_fahrenheit = expansion_per_fahrenheit(11.6e-6)};
    const CorrectedReading r = correct_reading(30_m, tape,
                                               TapingConditions{.temperature = Temperature::from_celsius(35.0),
                                                                .tension = force_from_newtons(80.0),
                                                                .support = EqualSpans{1}});
    CHECK(std::fabs(millimetres(r.temperature) - 5.22) < 1e-9);
    CHECK(std::fabs(millimetres(r.tension) - 2.0) < 1e-9);
    CHECK(std::fabs(metres(r.sag) + 0.15 * 0.15 * 27000.0 / (24.0 * 6400.0)) < 1e-12);
    CHECK(std::fabs(millimetres(r.corrected) - (30000.0 + 5.22 + 2.0 - 3.955078125)) < 1e-9);
    CHECK(Temperature::from_celsius(20.0) == Temperature::from_fahrenheit(68.0));
    CHECK(Temperature::from_celsius(-40.0).fahrenheit() == -40.0);
    CHECK(Temperature::from_fahrenheit(212.0).celsius() == 100.0);
    CHECK(Temperature::from_fahrenheit(50.0) < Temperature::from_celsius(20.0));
}

TEST_CASE("setting out is the inverse of reading") {
    SeededNumbers random{1793};
    double worst = 0.0;
    bool sound = true;
    int compared = 0;
    for (int i = 0; i < sweep(20000); ++i) {
        const Length nominal = random.inches_between(300.0, 3600.0);
        const SteelTape tape{.nominal_length = nominal,
                             .standard_length = nominal * random.between(0.991, 1.009),
                             .standard_tension = lbf(random.between(4.0, 30.0)),
                             .stiffness = lbf(random.between(5000.0, 500000.0)),
                             .weight = plf(random.between(0.0, 0.03)),
                             .expansion_per_fahrenheit = random.between(0.0, 1e-4)};
        const Length wanted = random.inches_between(60.0, 2400.0);
        TapingConditions at{.temperature = Temperature::from_fahrenheit(random.between(-148.0, 212.0)),
                            .tension = lbf(random.between(14.0, 80.0)),
                            .hook_offset = random.inches_between(-2.0, 2.0)};
        const int support = random.whole(0, 2);
        if (support == 1) {
            at.support = EqualSpans{random.whole(1, 6)};
        } else if (support == 2) {
            at.support = HungSpans{{wanted * 0.4, wanted * 0.3}};
        }
        const int slope = random.whole(0, 2);
        if (slope == 1) {
            at.slope = SlopeAngle{angle_from_degrees(random.between(-80.0, 80.0))};
        } else if (slope == 2) {
            at.slope = EndsRise{wanted * random.between(-3.0, 3.0)};
        }
        Length read = no_length;
        try {
            read = reading_to_set(wanted, tape, at);
        } catch (const FaultError& error) {  // the slope can make a span too heavy for the pull
            sound = sound && error.fault().path == "conditions.tension";
            continue;
        }
        const CorrectedReading r = correct_reading(read, tape, at);
        const double off = std::fabs(r.corrected / wanted - 1.0);
        worst = off <= worst ? worst : off;
        ++compared;
        sound = sound && sums_up(r) && r.sag <= no_length && r.to_level <= no_length;
    }
    CHECK(worst < 1e-12);
    CHECK(sound);
    CHECK(compared > sweep(20000) * 9 / 10);
}

TEST_CASE("the parabola against the catenary") {
    // 100 ft between supports, 0.028 lb/ft, a level pull of 12 lbf: c = 12 / 0.028 = 428.5714 ft, the tape is
    // 2 c sinh(50 / c) = 100.227006 ft, the pull along it at its end 12 cosh(50 / c) = 12.0818 lbf. The parabola of
    // that span: 0.028^2 x 100^3 / (24 x 144) = 0.226852 ft, 0.07 % less.
    const double c = 12.0 / 0.028;
    const Length taped = Length::from_feet(2.0 * c * std::sinh(50.0 / c));
    const Length sag = sag_by_catenary(taped, plf(0.028), lbf(12.0 * std::cosh(50.0 / c)));
    CHECK(std::fabs(feet(sag) - 0.227006) < 0.51e-6);
    CHECK(off_by(taped - sag, 100_ft) < 1e-10);
    // By what a person has, a reading and a pull at the end, the parabola is short by 0.14 (w l / P)^2 of itself.
    SteelTape tape = true_tape();
    for (const double heavy : {0.5, 0.3, 0.1, 0.03}) {
        tape.weight = plf(heavy * 10.0 / 100.0);
        TapingConditions at = at_standard();
        at.support = EqualSpans{1};
        const double parabola = -feet(correct_reading(100_ft, tape, at).sag);
        const double more = feet(sag_by_catenary(100_ft, tape.weight, lbf(10.0))) / parabola - 1.0;
        CHECK(more / (heavy * heavy) == doctest::Approx(0.1375).epsilon(0.04));
    }
    CHECK(sag_by_catenary(100_ft, plf(0.0), lbf(10.0)) == no_length);
    CHECK(sag_by_catenary(100_ft, plf(1e-9), lbf(10.0)) > no_length);
}

TEST_CASE("at the normal tension stretch makes good the sag") {
    SteelTape tape = true_tape();
    TapingConditions at = at_standard();
    for (const double weight : {0.005, 0.01, 0.02, 0.1}) {
        tape.weight = plf(weight);
        const Length span = 50_ft;
        at.tension = normal_tension(tape, span);
        at.support = EqualSpans{2};
        const CorrectedReading r = correct_reading(100_ft, tape, at);
        CHECK(r.tension > no_length);
        CHECK(off_by(r.tension, -r.sag) < 1e-13 * 1200.0);
    }
    tape.weight = plf(0.0);
    CHECK(normal_tension(tape, 100_ft) == tape.standard_tension);
}

TEST_CASE("what cannot be is refused by name") {
    const auto refused = [](const SteelTape& tape, const TapingConditions& at, Length read) {
        const Fault fault = refusal_of([&] { (void)correct_reading(read, tape, at); });
        return std::to_string(number_of(fault.code)) + " " + fault.path;
    };
    const SteelTape good = true_tape();
    const TapingConditions still = at_standard();
    CHECK(refused(good, still, 100_ft) == "0 no fault");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused(good, still, none) == "201 read");
        CHECK(number_of(refusal_of([&] { (void)reading_to_set(none, good, still); }).code) == 201);
        CHECK(number_of(refusal_of([&] { (void)level_from_slope(none, 1_ft); }).code) == 201);
        CHECK(number_of(refusal_of([&] { (void)level_from_slope(1_ft, none); }).code) == 201);
        SteelTape tape = good;
        tape.standard_length = none;
        CHECK(refused(tape, still, 100_ft) == "201 tape.standard_length");
        TapingConditions at = still;
        at.hook_offset = none;
        CHECK(refused(good, at, 100_ft) == "201 conditions.hook_offset");
        at = still;
        at.slope = EndsRise{none};
        CHECK(refused(good, at, 100_ft) == "201 conditions.slope.rise");
        at = still;
        at.support = HungSpans{{10_ft, none}};
        CHECK(refused(good, at, 100_ft) == "201 conditions.support.spans[1]");
    }
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    SteelTape tape = good;
    tape.standard_length = 98_ft;
    CHECK(refused(tape, still, 100_ft) == "202 tape.standard_length");
    tape = good;
    tape.stiffness = lbf(0.0);
    CHECK(refused(tape, still, 100_ft) == "202 tape.stiffness");
    tape.stiffness = lbf(none);
    CHECK(refused(tape, still, 100_ft) == "201 tape.stiffness");
    tape = good;
    tape.standard_tension = lbf(0.0);
    CHECK(refused(tape, still, 100_ft) == "202 tape.standard_tension");
    tape = good;
    tape.weight = plf(-0.01);
    CHECK(refused(tape, still, 100_ft) == "202 tape.weight");
    tape = good;
    tape.expansion_per_fahrenheit = 1e-3;  // a decimal point slipped
    CHECK(refused(tape, still, 100_ft) == "202 tape.expansion_per_fahrenheit");

    TapingConditions at = still;
    at.tension = lbf(0.0);  // a tape that is not pulled hangs to the ground
    CHECK(refused(good, at, 100_ft) == "202 conditions.tension");
    at.tension = lbf(1.9);  // 0.01 x 100 = 1 lb asks for 2 lbf
    CHECK(refused(good, at, 100_ft) == "0 no fault");
    at.support = EqualSpans{1};
    CHECK(refused(good, at, 100_ft) == "202 conditions.tension");
    at.tension = lbf(2.0);
    CHECK(refused(good, at, 100_ft) == "0 no fault");
    at.support = EqualSpans{0};
    CHECK(refused(good, at, 100_ft) == "202 conditions.support.count");
    at.support = HungSpans{};
    CHECK(refused(good, at, 100_ft) == "202 conditions.support.spans");
    at.support = HungSpans{{60_ft, 50_ft}};
    CHECK(refused(good, at, 100_ft) == "402 conditions.support.spans");
    at = still;
    at.slope = SlopeAngle{angle_from_degrees(86.0)};
    CHECK(refused(good, at, 100_ft) == "202 conditions.slope.angle");
    at.slope = SlopeAngle{angle_from_degrees(179.0)};
    CHECK(refused(good, at, 100_ft) == "202 conditions.slope.angle");
    at.slope = EndsRise{100_ft};
    CHECK(refused(good, at, 100_ft) == "202 conditions.slope.rise");
    at = still;
    at.hook_offset = -12_in;
    CHECK(refused(good, at, 12_in) == "402 conditions.hook_offset");
    CHECK(refused(good, at, 100_ft) == "0 no fault");
    CHECK(refused(good, still, no_length) == "202 read");
    CHECK(refusal_of([] { (void)level_from_slope(10_ft, 10_ft); }).path == "rise");
    CHECK(refusal_of([] { (void)level_from_slope(10_ft, angle_from_degrees(-90.0)); }).path == "angle");
    CHECK(refusal_of([&] { (void)normal_tension(good, no_length); }).path == "span");
    CHECK(refusal_of([] { (void)sag_by_catenary(100_ft, plf(0.1), lbf(19.0)); }).path == "tension");
    CHECK(refusal_of([] { (void)Temperature::from_fahrenheit(213.0); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)Temperature::from_celsius(none); }).code == FaultCode::not_finite);
}
