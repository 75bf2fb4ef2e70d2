// SPDX-License-Identifier: BSL-1.0

// Where a figure stands against a limit; a row read from a string: lines by hand, against certified regression data,
// against every triple by brute force; and what the string's own sag does to heights.

#include <eavewright/squaring/standing.hpp>
#include <eavewright/squaring/string_line.hpp>
#include <eavewright/squaring/string_sag.hpp>

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

/// Offsets in inches at stations in feet.
StringRun run_of(const std::vector<double>& stations_ft, const std::vector<double>& offsets_in) {
    StringRun run{.readings = {}};
    for (std::size_t i = 0; i < stations_ft.size(); ++i) {
        run.readings.push_back({Length::from_feet(stations_ft[i]), Length::from_inches(offsets_in[i])});
    }
    return run;
}

StringRun random_run(SeededNumbers& random, int most) {
    StringRun run{.readings = {}};
    const int count = random.whole(3, most);
    double station = random.between(-100.0, 100.0);
    const bool coarse = random.coin();  // whole eighths: many ties and points in line
    for (int i = 0; i < count; ++i) {
        const double offset = coarse ? random.whole(-4, 4) / 8.0 : random.between(-2.0, 2.0);
        run.readings.push_back({Length::from_inches(station), Length::from_inches(offset)});
        station += coarse ? 12.0 * random.whole(1, 3) : random.between(0.5, 150.0);
    }
    return run;
}

/// Half the largest gap of a middle reading from the chord of two others, over all triples.
double widest_triple(const StringRun& run) {
    const auto& r = run.readings;
    double most = 0.0;
    for (std::size_t a = 0; a < r.size(); ++a) {
        for (std::size_t b = a + 1; b < r.size(); ++b) {
            for (std::size_t c = b + 1; c < r.size(); ++c) {
                const double along = (r[b].station - r[a].station) / (r[c].station - r[a].station);
                const Length chord = r[a].offset + (r[c].offset - r[a].offset) * along;
                most = std::max(most, inches(magnitude(r[b].offset - chord)) / 2.0);
            }
        }
    }
    return most;
}
/// Least worst move of the lines that have the slope of any pair, each set to the middle of its extremes.
double best_pair_slope(const StringRun& run) {
    const auto& r = run.readings;
    double best = 1e9;
    for (std::size_t a = 0; a < r.size(); ++a) {
        for (std::size_t c = a + 1; c < r.size(); ++c) {
            const double slope = (r[c].offset - r[a].offset) / (r[c].station - r[a].station);
            double low = 1e9;
            double high = -1e9;
            for (const StringReading& each : r) {
                const double level = inches(each.offset) - slope * inches(each.station);
                low = std::min(low, level);
                high = std::max(high, level);
            }
            best = std::min(best, (high - low) / 2.0);
        }
    }
    return best;
}

StringLine line_by(const StringRun& run, LineRule rule) {
    return rule == LineRule::ends_held       ? line_of_held_ends(run)
           : rule == LineRule::least_squares ? best_line(run, BestBy::least_squares)
                                             : best_line(run, BestBy::least_worst);
}

}  // namespace

TEST_CASE("four states against a limit, worst to best") {
    // Limit 1/4 in, deviation 1/32 in, 95 %: the interval reaches 1.96/32 = 0.06125 in to each side.
    const auto at = [](double off) { return standing_of(Length::from_inches(off), one_inch / 32.0, one_inch / 4.0); };
    CHECK(at(0.0) == StandingVerdict::proven_within);
    CHECK(at(0.188) == StandingVerdict::proven_within);  // 0.24925
    CHECK(at(0.190) == StandingVerdict::reads_within);   // 0.25125
    CHECK(at(0.250) == StandingVerdict::reads_within);
    CHECK(at(0.251) == StandingVerdict::undecided);
    CHECK(at(0.311) == StandingVerdict::undecided);  // 0.24975
    CHECK(at(0.312) == StandingVerdict::out);        // 0.25075
    CHECK(standing_of(one_inch / 4.0, no_length, one_inch / 4.0) == StandingVerdict::proven_within);
    CHECK(reads_within(StandingVerdict::reads_within));
    CHECK_FALSE(reads_within(StandingVerdict::undecided));
    CHECK(worse_of(StandingVerdict::undecided, StandingVerdict::reads_within) == StandingVerdict::undecided);
    CHECK(name_of(StandingVerdict::out) == "out");

    CHECK(refusal_of([] { (void)standing_of(-one_inch, no_length, one_inch); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)standing_of(one_inch, no_length, one_inch, 0.0); }).path == "level_factor");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)standing_of(none, no_length, one_inch); }).path == "off");
        CHECK(refusal_of([&] { (void)standing_of(one_inch, none, one_inch); }).path == "deviation");
        CHECK(refusal_of([&] { (void)standing_of(one_inch, one_inch, none); }).path == "tolerance");
    }
}

TEST_CASE("one shift for a row") {
    // 0, 3, 1.5, 1.5, 1.5, -0.75: sum 6.75, mean 1.125; middle of -0.75 and 3 is 1.125 too. With a seventh at 4.5:
    // sum 11.25, mean 1.607; middle of -0.75 and 4.5 is 1.875.
    std::vector<Length> offs{0_in, 3_in, 1.5_in, 1.5_in, 1.5_in, -0.75_in};
    CHECK(best_shift(offs, BestBy::least_squares) == 1.125_in);
    CHECK(best_shift(offs, BestBy::least_worst) == 1.125_in);
    offs.push_back(4.5_in);
    CHECK(inches(best_shift(offs, BestBy::least_squares)) == Approx(11.25 / 7.0).epsilon(1e-14));
    CHECK(best_shift(offs, BestBy::least_worst) == 1.875_in);
    CHECK(refusal_of([] { (void)best_shift({}, BestBy::least_worst); }).code == FaultCode::missing_field);
    CHECK(refusal_of([] { (void)best_shift({one_inch / 0.0}, BestBy::least_worst); }).code == FaultCode::not_finite);
    CHECK(refusal_of([&] { (void)best_shift(offs, static_cast<BestBy>(7)); }).code == FaultCode::unknown_name);
}

TEST_CASE("four posts by hand, three lines") {
    // Stations 0 10 20 30 ft, offsets 1, 1 1/2, 1, 1 1/2 in.
    const StringRun run = run_of({0, 10, 20, 30}, {1.0, 1.5, 1.0, 1.5});

    // Least squares: means 15 ft and 1.25 in; squares 225 + 25 + 25 + 225 = 500; products 3.75 - 1.25 - 1.25 + 3.75 = 5;
    // slope 5/500 = 0.01 in per ft. Line 1.1 1.2 1.3 1.4, off -0.1 0.3 -0.3 0.1; squares 0.2 over two to spare.
    const StringLine fit = best_line(run, BestBy::least_squares);
    CHECK(fit.slope * 12.0 == Approx(0.01).epsilon(1e-12));
    CHECK(inches(fit.at_first) == Approx(1.1).epsilon(1e-12));
    CHECK(inches(fit.at_last) == Approx(1.4).epsilon(1e-12));
    CHECK(inches(fit.stations[1].move) == Approx(-0.3).epsilon(1e-12));
    CHECK(inches(fit.residual_deviation) == Approx(std::sqrt(0.1)).epsilon(1e-12));
    CHECK(fit.spare_readings == 2);
    // Deviations: slope s / sqrt(500) per ft; at zero s sqrt(1/4 + 225/500) = s sqrt(0.7); off at 10 ft
    // s sqrt(1 - 1/4 - 25/500) = s sqrt(0.7).
    CHECK(fit.slope_deviation * 12.0 * 32.0 == Approx(1.0 / std::sqrt(500.0)).epsilon(1e-12));
    CHECK(inches(fit.at_zero_deviation) * 32.0 == Approx(std::sqrt(0.7)).epsilon(1e-12));
    CHECK(inches(fit.stations[1].deviation) * 32.0 == Approx(std::sqrt(0.7)).epsilon(1e-12));
    CHECK_FALSE(fit.tolerance_given);
    CHECK(fit.tolerance == 0.25_in);
    CHECK_FALSE(fit.straight);  // 0.3 in, less 1.96 x 0.0261 in = 0.249 in: reads out, not proven
    CHECK(fit.verdict == StandingVerdict::undecided);

    // Least worst: 10, 20 and 30 ft have chord 1.5 and gap 0.5, so no line is nearer than 1/4 in; the level one at 1.25
    // is that near. Off by 1/4 to alternate sides everywhere.
    const StringLine strip = best_line(run, BestBy::least_worst);
    CHECK(inches(strip.largest_move) == Approx(0.25).epsilon(1e-14));
    CHECK(inches(strip.at_first) == Approx(1.25).epsilon(1e-14));
    CHECK(strip.slope == 0.0);
    CHECK(strip.deciding == std::vector<std::int64_t>{1, 2, 3});
    CHECK(strip.verdict == StandingVerdict::reads_within);
    CHECK(strip.straight);
    // off at 20 ft is half of reading less chord: s/2 sqrt(1 + 1/4 + 1/4).
    CHECK(inches(strip.stations[2].deviation) * 32.0 == Approx(0.5 * std::sqrt(1.5)).epsilon(1e-12));

    // Ends held: the line rises 1/2 in over 30 ft: 1, 1 1/6, 1 1/3, 1 1/2; off 1/3 and -1/3, s sqrt(1 + 4/9 + 1/9).
    const StringLine held = line_of_held_ends(run);
    CHECK(inches(held.stations[1].off) == Approx(1.0 / 3.0).epsilon(1e-12));
    CHECK(inches(held.stations[2].move) == Approx(1.0 / 3.0).epsilon(1e-12));
    CHECK(inches(held.stations[1].deviation) * 32.0 == Approx(std::sqrt(14.0) / 3.0).epsilon(1e-12));
    CHECK(held.stations[3].move == no_length);
    CHECK(inches(held.largest_move) == Approx(1.0 / 3.0).epsilon(1e-12));
    CHECK(held.verdict == StandingVerdict::out);  // 0.3333 - 1.96 x 0.03898 = 0.2569
}

TEST_CASE("a straight row is straight, and a level one too") {
    for (const LineRule rule : {LineRule::ends_held, LineRule::least_squares, LineRule::least_worst}) {
        const StringLine level = line_by(run_of({0, 8, 16, 24, 31}, {2, 2, 2, 2, 2}), rule);
        CHECK(level.largest_move == no_length);
        CHECK(level.slope == 0.0);
        CHECK(level.verdict == StandingVerdict::proven_within);
        const StringLine leaning = line_by(run_of({0, 8, 16, 24, 32}, {2, 3, 4, 5, 6}), rule);
        CHECK(inches(leaning.largest_move) < 1e-12);
        CHECK(leaning.slope == Approx(1.0 / 96.0).epsilon(1e-13));
        CHECK(leaning.straight);
    }
    const StringLine given = [] {
        StringRun run = run_of({0, 8, 16}, {2, 2.5, 2});
        run.tolerance = 1_in;
        return line_of_held_ends(run);
    }();
    CHECK(given.tolerance_given);
    CHECK(given.verdict == StandingVerdict::proven_within);
}

TEST_CASE("rows that say nothing are refused") {
    const auto refuse = [](const StringRun& run) {
        return refusal_of([&] { (void)best_line(run, BestBy::least_worst); });
    };
    CHECK(refuse(run_of({}, {})).code == FaultCode::missing_field);
    CHECK(refuse(run_of({0}, {1})).code == FaultCode::missing_field);
    CHECK(refuse(run_of({0, 8}, {1, 2})).path == "string.readings");
    CHECK(refuse(run_of({0, 8, 8}, {1, 2, 3})).code == FaultCode::out_of_order);
    CHECK(refuse(run_of({0, 8, 4}, {1, 2, 3})).path == "string.readings[2].station");
    StringRun run = run_of({0, 8, 16}, {1, 2, 3});
    CHECK(refusal_of([&] { (void)best_line(run, static_cast<BestBy>(9)); }).code == FaultCode::unknown_name);
    run.level_factor = 0.0;
    CHECK(refuse(run).path == "string.level_factor");
    run = run_of({0, 8, 16}, {1, 2, 3});
    run.reading_deviation = no_length;
    CHECK(refusal_of([&] { (void)line_of_held_ends(run); }).path == "string.reading_deviation");
    for (const Length none : lengths_that_are_none()) {
        run = run_of({0, 8, 16}, {1, 2, 3});
        run.readings[1].offset = none;
        CHECK(refuse(run).code == FaultCode::not_finite);
        run.readings[1] = {none, 1_in};
        CHECK(refuse(run).code == FaultCode::not_finite);
        run = run_of({0, 8, 16}, {1, 2, 3});
        run.tolerance = none;
        CHECK(refuse(run).path == "string.tolerance");
    }
}

TEST_CASE("certified regression data to their printed digits") {
    // NIST StRD, Norris: certified B0, B1, their standard deviations and the residual one.
    squaring_detail::LinePoints points;
    for (const TableRow& row : read_table("nist_strd_linear_data.csv")) {
        if (row.at("dataset") == "Norris") {
            points.push_back({std::stod(row.at("x1")), std::stod(row.at("y"))});
        }
    }
    REQUIRE(points.size() == 36);
    const squaring_detail::FittedLine fit = squaring_detail::fit_line(points);
    const double residual = squaring_detail::residual_deviation_of(points, fit.line);
    CHECK(fit.line.at(0.0) == Approx(-0.262323073774029).epsilon(1e-12));
    CHECK(fit.line.slope == Approx(1.00211681802045).epsilon(1e-14));
    CHECK(residual == Approx(0.884796396144373).epsilon(1e-12));
    CHECK(residual / std::sqrt(fit.spread) == Approx(0.429796848199937e-03).epsilon(1e-12));
    CHECK(residual * std::sqrt(1.0 / 36.0 + fit.line.x0 * fit.line.x0 / fit.spread) ==
          Approx(0.232818234301152).epsilon(1e-12));
}

TEST_CASE("the narrowest strip is that of every triple and of every slope, and its certificate holds") {
    SeededNumbers random{701};
    for (int i = 0; i < sweep(20000); ++i) {
        const StringRun run = random_run(random, 12);
        const StringLine line = best_line(run, BestBy::least_worst);
        const double triple = widest_triple(run);
        const double slopes = best_pair_slope(run);
        Faults faults;
        find_faults_of_least_worst(run, line, Path{"line"}, faults);
        const double worst = inches(line.largest_move);
        if (std::fabs(worst - triple) > 1e-11 || std::fabs(worst - slopes) > 1e-11 || !faults.empty()) {
            FAIL("round " << i << ": " << worst << " against " << triple << " and " << slopes);
        }
        const StringLine fit = best_line(run, BestBy::least_squares);
        if (inches(fit.largest_move) < worst - 1e-11 || fit.residual_deviation > line.residual_deviation + 1e-11_in) {
            FAIL("round " << i << ": one line beats the other at its own measure");
        }
    }
}

TEST_CASE("a line that is not the least worst is caught") {
    const StringRun run = run_of({0, 10, 20, 30}, {1.0, 1.5, 1.0, 1.4});
    const StringLine good = best_line(run, BestBy::least_worst);
    const auto caught = [&](const StringLine& line) {
        Faults faults;
        find_faults_of_least_worst(run, line, Path{"line"}, faults);
        return !faults.empty() && faults.front().code == FaultCode::contradiction;
    };
    CHECK_FALSE(caught(good));
    StringLine bad = good;
    bad.at_first += 0.01_in;
    CHECK(caught(bad));
    bad = good;
    bad.slope += 1e-4;
    CHECK(caught(bad));
    bad = good;
    bad.largest_move += 0.01_in;  // true, but not the least
    CHECK(caught(bad));
    bad = good;
    bad.deciding = {0, 1, 3};
    CHECK(caught(bad));
    bad.deciding = {0, 1};
    CHECK(caught(bad));
    bad.deciding = {2, 1, 9};
    CHECK(caught(bad));
}

TEST_CASE("stated deviations are how much the offs feel each reading") {
    SeededNumbers random{702};
    for (int i = 0; i < sweep(600); ++i) {
        StringRun run = random_run(random, 9);
        for (StringReading& each : run.readings) {
            each.offset += random.inches_between(-0.05, 0.05);  // no ties, so that the same three go on deciding
        }
        for (const LineRule rule : {LineRule::ends_held, LineRule::least_squares, LineRule::least_worst}) {
            const StringLine line = line_by(run, rule);
            std::vector<double> squares(run.readings.size() + 2, 0.0);
            const double step = 1e-6;
            for (std::size_t j = 0; j < run.readings.size(); ++j) {
                StringRun moved = run;
                moved.readings[j].offset += one_inch * step;
                const StringLine other = line_by(moved, rule);
                for (std::size_t k = 0; k < run.readings.size(); ++k) {
                    squares[k] += std::pow(inches(other.stations[k].off - line.stations[k].off) / step, 2);
                }
                squares[run.readings.size()] += std::pow((other.slope - line.slope) / step, 2);
                squares[run.readings.size() + 1] += std::pow(inches(other.at_zero - line.at_zero) / step, 2);
            }
            bool close = true;
            for (std::size_t k = 0; k < run.readings.size(); ++k) {
                close = close && std::fabs(std::sqrt(squares[k]) - 32.0 * inches(line.stations[k].deviation)) < 1e-6;
            }
            const double slope = std::sqrt(squares[run.readings.size()]);
            const double zero = std::sqrt(squares[run.readings.size() + 1]);
            close = close && std::fabs(slope - 32.0 * line.slope_deviation) < 1e-6 * (1.0 + slope) &&
                    std::fabs(zero - 32.0 * inches(line.at_zero_deviation)) < 1e-6 * (1.0 + zero);
            if (!close) {
                FAIL("round " << i << ", rule " << name_of(rule));
            }
        }
    }
}

TEST_CASE("a string sags") {
    // 60 ft of line at 0.001 lb/ft, pulled with 20 lbf: 0.001 x 3600 / (8 x 20) = 0.0225 ft = 0.27 in, more than the
    // 1/4 in an eave is held to. A quarter along: 0.001 x 15 x 45 / (2 x 20) = 0.016875 ft = 0.2025 in.
    const StretchedString string{60_ft, line_load_from_pounds_per_foot(0.001), force_from_pounds(20.0)};
    CHECK(inches(string_sag(string)) == Approx(0.27).epsilon(1e-13));
    CHECK(inches(string_sag(string, 15_ft)) == Approx(0.2025).epsilon(1e-13));
    CHECK(inches(string_sag(string, 45_ft)) == Approx(0.2025).epsilon(1e-13));
    CHECK(string_sag(string, 60_ft) == no_length);
    // In metric: 0.2 N/m over 10 m at 50 N: 0.2 x 100 / 400 = 0.05 m.
    const StretchedString metric{10_m, line_load_from_newtons_per_metre(0.2), force_from_newtons(50.0)};
    CHECK(millimetres(string_sag(metric)) == Approx(50.0).epsilon(1e-12));

    // Against the catenary at the slackest that is taken: H = 50 w L / 8, sag H/w (cosh(wL/2H) - 1).
    const double reach = 50.0 / 8.0;  // H / (w L)
    const double catenary = reach * (std::cosh(0.5 / reach) - 1.0);
    CHECK(catenary * 50.0 == Approx(1.0).epsilon(6e-4));
    CHECK(catenary > 1.0 / 50.0);

    // A purlin that is straight reads 0.27 in high at mid length from the string, its ends 0.
    const std::vector<StringReading> read{{0_ft, 0_in}, {15_ft, 0.2025_in}, {30_ft, 0.27_in}, {60_ft, 0_in}};
    for (const StringReading& each : without_sag(read, string, ReadFrom::up_from_string)) {
        CHECK(inches(magnitude(each.offset)) < 1e-12);
    }
    // Counted down from the string to what hangs lower, the sag is added.
    const std::vector<StringReading> down{{130_ft, 1_in}};
    CHECK(inches(without_sag(down, string, ReadFrom::down_from_string, 100_ft)[0].offset) ==
          Approx(1.27).epsilon(1e-13));

    CHECK(refusal_of([&] { (void)string_sag(string, 61_ft); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([&] { (void)without_sag(down, string, ReadFrom::up_from_string); }).code ==
          FaultCode::out_of_range);
    CHECK(refusal_of([&] { (void)without_sag(read, string, static_cast<ReadFrom>(5)); }).code ==
          FaultCode::unknown_name);
    // 0.01 lb/ft over 100 ft: 50 x 1 / 8 = 6.25 lbf at least.
    const auto slack = [](double pull) {
        return check(StretchedString{100_ft, line_load_from_pounds_per_foot(0.01), force_from_pounds(pull)}, "string");
    };
    CHECK(slack(6.3).empty());
    REQUIRE(slack(6.2).size() == 1);
    CHECK(slack(6.2)[0].path == "string.pull");
    CHECK(slack(-1.0)[0].code == FaultCode::out_of_range);
    CHECK(slack(std::nan(""))[0].code == FaultCode::not_finite);
}
