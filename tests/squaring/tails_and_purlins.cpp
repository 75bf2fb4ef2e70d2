// SPDX-License-Identifier: BSL-1.0

// Tails cut to one line that each reaches, and purlins shimmed straight: by hand, and against every line through two
// tails and every smaller handful of shims.

#include <eavewright/squaring/purlin_line.hpp>
#include <eavewright/squaring/tails.hpp>

#include "../support/printing.hpp"
#include "../support/refusal.hpp"
#include "../support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using doctest::Approx;

namespace {

std::vector<StringReading> row_of(const std::vector<double>& stations_ft, const std::vector<double>& offsets_in) {
    std::vector<StringReading> row;
    for (std::size_t i = 0; i < stations_ft.size(); ++i) {
        row.push_back({Length::from_feet(stations_ft[i]), Length::from_inches(offsets_in[i])});
    }
    return row;
}
std::vector<double> cuts_of(const TailTrim& trim) {
    std::vector<double> cuts;
    for (const TrimmedTail& cut : trim.cuts) {
        cuts.push_back(inches(cut.cut));
    }
    return cuts;
}
bool close_to(const std::vector<double>& a, const std::vector<double>& b) {
    bool close = a.size() == b.size();
    for (std::size_t i = 0; close && i < a.size(); ++i) {
        close = std::fabs(a[i] - b[i]) < 1e-12;
    }
    return close;
}
std::vector<std::int64_t> ticks_of(const PurlinLine& line) {
    std::vector<std::int64_t> ticks;
    for (const PurlinSupport& support : line.supports) {
        ticks.push_back(support.ticks);
    }
    return ticks;
}

/// Every support ends within the tolerance, by shims or by planing.
bool comes_straight(const PurlinLine& line) {
    bool straight = true;
    for (const PurlinSupport& s : line.supports) {
        straight = straight && magnitude(s.after) <= line.tolerance + 2.0 * count_tolerance && s.ticks >= 0 &&
                   s.plane >= no_length;
    }
    return straight;
}

/// Whether some fewer than `total` ticks, shared out in any way, make the tops straight within `band`.
bool fewer_do(squaring_detail::LinePoints points, std::size_t from, std::int64_t spare, double band, double step) {
    if (from == points.size()) {
        return squaring_detail::narrowest_strip(points).half_width <= band + 1e-12;
    }
    for (std::int64_t k = 0; k <= spare; ++k) {
        if (fewer_do(points, from + 1, spare - k, band, step)) {
            return true;
        }
        points[from].y += step;
    }
    return false;
}

/// Fewest supports to plane, by every choice of them. A choice will do where some slope leaves room between what the
/// others hold up and what the tallest stacks reach; that room is concave in the slope.
std::int64_t fewest_planed(const squaring_detail::LinePoints& points, double band, double tallest, double slack) {
    const auto room = [&](unsigned planed, double slope) {
        double held = -1e9;
        double reached = 1e9;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double level = points[i].y - slope * points[i].x;
            reached = std::min(reached, level + band + tallest);
            held = (planed >> i) % 2U != 0U ? held : std::max(held, level - band);
        }
        return reached - held;
    };
    const auto holds = [&](unsigned planed) {
        double low = -1.0;
        double high = 1.0;
        for (int step = 0; step < 90; ++step) {
            const double third = (high - low) / 3.0;
            (room(planed, low + third) < room(planed, high - third) ? low : high) =
                room(planed, low + third) < room(planed, high - third) ? low + third : high - third;
        }
        return room(planed, low) >= -slack;
    };
    std::int64_t fewest = static_cast<std::int64_t>(points.size());
    for (unsigned planed = 0; planed < (1U << points.size()); ++planed) {
        std::int64_t count = 0;
        for (std::size_t i = 0; i < points.size(); ++i) {
            count += static_cast<std::int64_t>((planed >> i) % 2U);
        }
        if (count < fewest && holds(planed)) {
            fewest = count;
        }
    }
    return fewest;
}

}  // namespace

TEST_CASE("four tails by hand, three lines") {
    // Stations 0 10 20 30 ft, past the string by 1, 1/2, 3/4, 1 1/4 in.
    TailRun run{.tails = row_of({0, 10, 20, 30}, {1.0, 0.5, 0.75, 1.25}),
                .rule = TailRule::parallel_to_string,
                .most_cut = 0.7_in};
    const TailTrim parallel = trim_tails(run);
    CHECK(close_to(cuts_of(parallel), {0.5, 0.0, 0.25, 0.75}));
    CHECK(parallel.total_cut == 1.5_in);
    CHECK(parallel.turn == no_length);
    CHECK(parallel.shortest == std::vector<std::int64_t>{1});
    CHECK(parallel.largest_at == 3);
    CHECK(parallel.too_long == 1);
    CHECK(parallel.cuts[3].too_long);

    // All four are corners of the inner hull; its edge over the mean station, 15 ft, runs from 1/2 at 10 ft to 3/4 at
    // 20 ft: 1/4, 1/2, 3/4, 1 in; cuts 3/4, 0, 0, 1/4.
    run.rule = TailRule::turned_least_total;
    const TailTrim total = trim_tails(run);
    CHECK(close_to(cuts_of(total), {0.75, 0.0, 0.0, 0.25}));
    CHECK(inches(total.total_cut) == Approx(1.0).epsilon(1e-12));
    CHECK(inches(total.turn) == Approx(0.75).epsilon(1e-12));
    CHECK(total.shortest == std::vector<std::int64_t>{1, 2});

    // Least worst: parallel to the chord of the outer two, which rises 1/4 in and is 1 1/12 at 10 ft: 7/12 less there.
    run.rule = TailRule::turned_least_worst;
    const TailTrim worst = trim_tails(run);
    CHECK(close_to(cuts_of(worst), {7.0 / 12.0, 0.0, 1.0 / 6.0, 7.0 / 12.0}));
    CHECK(worst.too_long == 0);

    // An eighth off every tail moves the line in by as much.
    run.least_cut = 0.125_in;
    CHECK(inches(trim_tails(run).largest_cut) == Approx(7.0 / 12.0 + 0.125).epsilon(1e-12));
    CHECK(trim_tails(run).shortest == std::vector<std::int64_t>{1});
}

TEST_CASE("tails in line, two tails, one tail") {
    for (const TailRule rule :
         {TailRule::parallel_to_string, TailRule::turned_least_total, TailRule::turned_least_worst}) {
        const TailTrim even =
            trim_tails({.tails = row_of({0, 2, 4, 6}, {-1, -1, -1, -1}), .rule = rule, .most_cut = 1_in});
        CHECK(even.total_cut == no_length);
        CHECK(even.at_last == -1_in);
        CHECK(even.shortest.size() == 4);
        const TailTrim two = trim_tails({.tails = row_of({0, 2}, {1, 2}), .rule = rule, .most_cut = 1_in});
        CHECK(two.total_cut == (rule == TailRule::parallel_to_string ? 1_in : no_length));
        const TailRun one{.tails = row_of({0}, {1}), .rule = rule, .most_cut = 1_in};
        if (rule == TailRule::parallel_to_string) {
            CHECK(trim_tails(one).total_cut == no_length);
        } else {
            CHECK(refusal_of([&] { (void)trim_tails(one); }).code == FaultCode::missing_field);
        }
    }
}

TEST_CASE("of lines that cut the same, the least turned one") {
    // One short tail in the middle: every line through it that all reach cuts 3/4 in in all; the one along the string is
    // taken. Where the row runs askew, the nearest to the string is along an outer edge: 0, 1/8, 1/4.
    TailRun run{.tails = row_of({0, 8, 16}, {0, -0.375, 0}), .rule = TailRule::turned_least_total, .most_cut = 1_in};
    CHECK(trim_tails(run).turn == no_length);
    CHECK(trim_tails(run).total_cut == 0.75_in);
    run.tails = row_of({0, 8, 16}, {0, 0.125, 1});
    CHECK(inches(trim_tails(run).turn) == Approx(0.25).epsilon(1e-12));
    CHECK(inches(trim_tails(run).total_cut) == Approx(0.75).epsilon(1e-12));  // 0, 0, 3/4
    run.tails = row_of({0, 8, 16}, {1, 0.125, 0});
    CHECK(inches(trim_tails(run).turn) == Approx(-0.25).epsilon(1e-12));
}

TEST_CASE("no line that every tail reaches takes less") {
    SeededNumbers random{731};
    for (int i = 0; i < sweep(5000); ++i) {
        TailRun run{.tails = {}, .rule = TailRule::turned_least_total, .most_cut = 100_in};
        const int count = random.whole(2, 10);
        const bool coarse = random.coin();
        double station = 0.0;
        for (int k = 0; k < count; ++k) {
            const double reach = coarse ? random.whole(-4, 4) / 8.0 : random.between(-2.0, 2.0);
            run.tails.push_back({Length::from_inches(station), Length::from_inches(reach)});
            station += coarse ? 24.0 : random.between(12.0, 48.0);
        }
        const TailTrim total = trim_tails(run);
        run.rule = TailRule::turned_least_worst;
        const TailTrim worst = trim_tails(run);
        run.rule = TailRule::parallel_to_string;
        const TailTrim parallel = trim_tails(run);
        // Lines with the slope of any pair, pushed in until every tail reaches: the best of both kinds is among them.
        double least_total = 1e9;
        double least_worst = 1e9;
        for (std::size_t a = 0; a < run.tails.size(); ++a) {
            for (std::size_t b = a + 1; b < run.tails.size(); ++b) {
                const double slope =
                    (run.tails[b].offset - run.tails[a].offset) / (run.tails[b].station - run.tails[a].station);
                double sum = 0.0;
                double least = 1e9;
                double most = -1e9;
                for (const StringReading& tail : run.tails) {
                    const double level = inches(tail.offset) - slope * inches(tail.station);
                    sum += level;
                    least = std::min(least, level);
                    most = std::max(most, level);
                }
                least_total = std::min(least_total, sum - least * count);
                least_worst = std::min(least_worst, most - least);
            }
        }
        bool reached = true;
        for (std::size_t k = 0; k < run.tails.size(); ++k) {
            reached = reached && total.cuts[k].line <= run.tails[k].offset + 1e-11_in &&
                      worst.cuts[k].line <= run.tails[k].offset + 1e-11_in;
        }
        if (!reached || std::fabs(inches(total.total_cut) - least_total) > 1e-10 ||
            std::fabs(inches(worst.largest_cut) - least_worst) > 1e-10 ||
            parallel.total_cut < total.total_cut - 1e-10_in) {
            FAIL("round " << i);
        }
    }
}

TEST_CASE("tails that cannot be read are refused") {
    const auto refuse = [](const TailRun& run) { return refusal_of([&] { (void)trim_tails(run); }); };
    const TailRule rule = TailRule::turned_least_total;
    CHECK(refuse({.tails = {}, .rule = TailRule::parallel_to_string, .most_cut = 1_in}).code ==
          FaultCode::missing_field);
    CHECK(refuse({.tails = row_of({0, 2, 2}, {1, 1, 1}), .rule = rule, .most_cut = 1_in}).code ==
          FaultCode::out_of_order);
    CHECK(refuse({.tails = row_of({0, 2}, {1, 1}), .rule = rule, .most_cut = -1_in}).path == "tails.most_cut");
    CHECK(refuse({.tails = row_of({0, 2}, {1, 1}), .rule = static_cast<TailRule>(8), .most_cut = 1_in}).code ==
          FaultCode::unknown_name);
    for (const Length none : lengths_that_are_none()) {
        TailRun run{.tails = row_of({0, 2, 4}, {1, 1, 1}), .rule = rule, .most_cut = 1_in};
        run.tails[1].offset = none;
        CHECK(refuse(run).code == FaultCode::not_finite);
        CHECK(refuse({.tails = row_of({0, 2}, {1, 1}), .rule = rule, .most_cut = none}).code == FaultCode::not_finite);
    }
}

TEST_CASE("a hollow is shimmed") {
    // Five supports 8 ft apart, the second 3/8 in low. The line may lie 1/8 under the others, and the low one up to 1/8
    // under that: 1/4 under. It needs 1/8 in, two ticks.
    PurlinRun run{.supports = row_of({0, 8, 16, 24, 32}, {0, -0.375, 0, 0, 0})};
    const PurlinLine line = straighten_purlin(run);
    CHECK(ticks_of(line) == std::vector<std::int64_t>{0, 2, 0, 0, 0});
    CHECK(line.supports[1].shim == 0.125_in);
    CHECK(line.supports[1].after == -0.125_in);
    CHECK(line.supports[0].after == 0.125_in);
    CHECK(line.plan_at_first == -0.125_in);
    CHECK(line.lowest == 1);
    CHECK(line.shim_ticks == 2);
    CHECK(line.shimmed == 1);
    CHECK(line.planed == 0);
    CHECK_FALSE(line.tolerance_given);
    // As found: 0 and 16 ft have chord 0, gap 3/8: no line is nearer than 3/16 in.
    CHECK(inches(line.supports[1].off) == Approx(-0.1875).epsilon(1e-12));
    CHECK(line.supports[1].kink == -0.375_in);
    CHECK_FALSE(line.straight);
    // 3/16 less 1.96 x 1/2 sqrt(1 + 1/4 + 1/4) / 32 = 0.150 is still out.
    CHECK(line.supports[1].verdict == StandingVerdict::out);
    // In 3 mm shims and a tolerance of 3 mm: 9.525 mm low, may be 6 under: 3.525, two shims.
    run.tick = Tick::of_millimetres(3);
    run.tolerance = 3_mm;
    CHECK(straighten_purlin(run).supports[1].ticks == 2);
    CHECK(millimetres(straighten_purlin(run).supports[1].shim) == Approx(6.0).epsilon(1e-12));
}

TEST_CASE("a hump lifts all the others, or is planed") {
    // The middle one 1/2 in high. The line lies 1/8 under it, and the others may be 1/8 under that: 1/4 in each, four
    // ticks, sixteen in all. Turning the line shifts shims from one side to the other and saves none.
    PurlinRun run{.supports = row_of({0, 8, 16, 24, 32}, {0, 0, 0.5, 0, 0})};
    const PurlinLine shims = straighten_purlin(run);
    CHECK(ticks_of(shims) == std::vector<std::int64_t>{4, 4, 0, 4, 4});
    CHECK(shims.largest_shim == 0.25_in);
    CHECK(shims.highest == 2);
    CHECK(shims.supports[2].kink == 0.5_in);
    CHECK(shims.supports[1].kink == -0.25_in);
    CHECK(shims.planed == 0);
    // No stack over 1/8 in: the line may lie at 1/8 + 1/8 = 1/4 in, and the hump at 3/8; 1/8 in is planed off.
    run.most_shim = 0.125_in;
    const PurlinLine plane = straighten_purlin(run);
    CHECK(ticks_of(plane) == std::vector<std::int64_t>{2, 2, 0, 2, 2});
    CHECK(plane.planed == 1);
    CHECK(inches(plane.supports[2].plane) == Approx(0.125).epsilon(1e-12));
    // No shims at all: the line lies 1/8 over the rest, and the hump comes down to 1/4 in.
    run.most_shim = no_length;
    CHECK(straighten_purlin(run).shim_ticks == 0);
    CHECK(inches(straighten_purlin(run).supports[2].plane) == Approx(0.25).epsilon(1e-12));
    CHECK(plane.largest_shim <= 0.125_in);
    CHECK(comes_straight(plane));
}

TEST_CASE("straight purlins need nothing") {
    for (const PurlinLine& line : {straighten_purlin({.supports = row_of({0, 8, 16}, {1, 1, 1})}),
                                   straighten_purlin({.supports = row_of({0, 8, 16, 24}, {0, 1, 2, 3})}),
                                   straighten_purlin({.supports = row_of({0, 8, 16}, {0, 0.2, 0})})}) {
        CHECK(line.shim_ticks == 0);
        CHECK(line.straight);
        CHECK(comes_straight(line));
    }
}

TEST_CASE("no smaller handful of shims makes a purlin straight") {
    SeededNumbers random{732};
    for (int i = 0; i < sweep(3000); ++i) {
        PurlinRun run{.supports = {}};
        const int count = random.whole(3, 5);
        double station = 0.0;
        const bool coarse = random.coin();
        for (int k = 0; k < count; ++k) {
            const double height = coarse ? random.whole(-5, 5) / 16.0 : random.between(-0.3, 0.3);
            run.supports.push_back({Length::from_inches(station), Length::from_inches(height)});
            station += coarse ? 96.0 : random.between(24.0, 144.0);
        }
        run.tolerance = one_inch * (random.whole(1, 4) / 32.0);
        run.most_shim = 12_in;
        const PurlinLine line = straighten_purlin(run);
        const auto points = squaring_detail::points_of(run.supports);
        if (!comes_straight(line) || line.planed != 0 ||
            (line.shim_ticks > 0 && fewer_do(points, 0, line.shim_ticks - 1, inches(line.tolerance), 0.0625))) {
            FAIL("round " << i << ": " << line.shim_ticks << " ticks");
        }
        run.most_shim = one_inch / 8.0;
        const PurlinLine planed = straighten_purlin(run);
        // Lengths count to `count_tolerance`, so a hair may spare the library a support.
        const std::int64_t fewest = fewest_planed(points, inches(line.tolerance), 0.125, 1e-9);
        const std::int64_t by_a_hair =
            fewest_planed(points, inches(line.tolerance), 0.125, 4.0 * inches(count_tolerance));
        if (!comes_straight(planed) || planed.largest_shim > 0.125_in || planed.planed > fewest ||
            planed.planed < by_a_hair) {
            FAIL("round " << i << ": planed " << planed.planed << " against " << fewest);
        }
    }
}

TEST_CASE("a long purlin is planned too") {
    SeededNumbers random{733};
    PurlinRun run{.supports = {}, .most_shim = 1_in};
    for (int k = 0; k < 60; ++k) {
        run.supports.push_back({Length::from_feet(8.0 * k), random.inches_between(-0.75, 0.75)});
    }
    const PurlinLine line = straighten_purlin(run);
    CHECK(comes_straight(line));
    CHECK(line.shim_ticks > 0);
    run.most_shim = 2_in;
    const PurlinLine shims = straighten_purlin(run);
    CHECK(shims.planed == 0);
    CHECK(shims.shim_ticks >= line.shim_ticks);
    CHECK(purlin_print_note.find("steel") != std::string_view::npos);
}

TEST_CASE("purlins that cannot be read are refused") {
    const auto refuse = [](const PurlinRun& run) { return refusal_of([&] { (void)straighten_purlin(run); }); };
    CHECK(refuse({.supports = row_of({0}, {0})}).code == FaultCode::missing_field);
    CHECK(refuse({.supports = row_of({0, 8, 8}, {0, 0, 0})}).code == FaultCode::out_of_order);
    CHECK(refuse({.supports = row_of({0, 8, 16}, {0, 13, 0})}).path == "purlin.supports[1].offset");
    CHECK(refuse({.supports = row_of({0, 8, 16}, {0, 0, 0}), .tolerance = one_inch / 64.0}).code ==
          FaultCode::does_not_fit);
    PurlinRun run{.supports = {}};
    for (int k = 0; k < 101; ++k) {
        run.supports.push_back({Length::from_feet(k), 0_in});
    }
    CHECK(refuse(run).code == FaultCode::too_much_work);
    for (const Length none : lengths_that_are_none()) {
        run = {.supports = row_of({0, 8, 16}, {0, 0, 0})};
        run.supports[2].offset = none;
        CHECK(refuse(run).code == FaultCode::not_finite);
        run = {.supports = row_of({0, 8, 16}, {0, 0, 0}), .tolerance = none};
        CHECK(refuse(run).path == "purlin.tolerance");
    }
}
