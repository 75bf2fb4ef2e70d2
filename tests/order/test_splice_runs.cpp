// SPDX-License-Identifier: BSL-1.0
#include <eavewright/order/cut_patterns.hpp>
#include <eavewright/order/splice_runs.hpp>

#include <doctest/doctest.h>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/table.hpp"

#include <random>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
SplicePlan from_stock(Length length, Length kerf) {
    return {.cuts = {.stock = {.stock = {{.length = length}}, .kerf = kerf}, .nodes = 2'000}};
}
/// A run with a place at every step.
SpliceRun run_over(Length length, Length step) {
    SpliceRun run{length, {}};
    for (Length at = step; at < length; at += step) {
        run.places.push_back(at);
    }
    return run;
}
SplicedCuts splice_judged(const std::vector<SpliceRun>& runs, const SplicePlan& plan) {
    SplicedCuts spliced = splice_runs(runs, plan);
    const Faults faults = find_faults_of_splices(runs, plan, spliced);
    CHECK_MESSAGE(faults.empty(), (faults.empty() ? std::string{} : describe(faults.front())));
    CHECK(spliced.cuts.value >= spliced.bound.value);
    return spliced;
}
/// The fewest sticks over every choice of splices.
std::int64_t fewest_by_trying(const std::vector<SpliceRun>& runs, const SplicePlan& plan, std::size_t run,
                              std::vector<Length>& pieces) {
    if (run == runs.size()) {
        return search_cuts(pieces, plan.cuts).value;
    }
    std::int64_t fewest = INT64_MAX;
    for (unsigned choice = 0; choice < 1U << runs[run].places.size(); ++choice) {
        const std::size_t before = pieces.size();
        std::size_t from = 0;
        bool fits = true;
        for (std::size_t to = 1; to <= runs[run].places.size() + 1; ++to) {
            if (to > runs[run].places.size() || (choice >> (to - 1) & 1U) != 0U) {
                pieces.push_back(detail::piece_between(runs[run], plan.overlap, from, to));
                fits = fits && pieces.back() <= plan.cuts.stock.stock.front().length;
                from = to;
            }
        }
        const std::int64_t value = fits ? fewest_by_trying(runs, plan, run + 1, pieces) : INT64_MAX;
        fewest = value < fewest ? value : fewest;
        pieces.resize(before, no_length);
    }
    return fewest;
}
}  // namespace

TEST_CASE("splices: a run of 60 ft over frames at 8 ft from 16 ft stock, by hand") {
    // Places at 96, 192 ... 672 in, stock 192: pieces of 2 bays where butted, 192 each, three of them, and 720 - 576 =
    // 144: four sticks, and 720 / 192 = 3.75 proves it.
    const std::vector<SpliceRun> runs{run_over(60_ft, 8_ft)};
    SplicePlan plan = from_stock(16_ft, 0.125_in);
    SplicedCuts spliced = splice_judged(runs, plan);
    CHECK(spliced.cuts.value == 4);
    CHECK(spliced.proven);
    CHECK(spliced.pieces.size() == 4);
    // Lapped by 12 in over a frame, two bays between laps take 192 + 12, over the stock. One bay takes 96 + 12 = 108,
    // at the ends 102 and, of the last 48 in, 54. Two bays at the start take 198: too long. 96 + 48 at the end: 144 + 6
    // = 150. So the seven whole bays are seven pieces of over 96, a stick each, the last one with the 48 beyond it.
    plan.overlap = 12_in;
    spliced = splice_judged(runs, plan);
    CHECK(spliced.cuts.value == 7);
    CHECK(spliced.proven);
}

TEST_CASE("splices: a run that fits stays whole, one that may not be spliced is refused") {
    const SplicePlan plan = from_stock(16_ft, 0.125_in);
    const SplicedCuts spliced = splice_judged({run_over(16_ft, 8_ft)}, plan);
    CHECK(spliced.cuts.value == 1);
    CHECK(spliced.runs.front().places.empty());
    CHECK(splice_judged({}, plan).cuts.value == 0);
    CHECK(refusal_of([&] { (void)splice_runs({{17_ft, {}}}, plan); }).path == "runs[0]");
    CHECK(refusal_of([&] { (void)splice_runs({{40_ft, {17_ft, 30_ft}}}, plan); }).code == FaultCode::does_not_fit);
    CHECK(refusal_of([&] { (void)splice_runs({{20_ft, {8_ft, 8_ft}}}, plan); }).path == "runs[0].places[1]");
    CHECK(refusal_of([&] { (void)splice_runs({{20_ft, {20_ft}}}, plan); }).path == "runs[0].places[0]");
}

TEST_CASE("splices: two runs that share a stick, by hand") {
    // Two runs of 24 ft = 288 in, places at 96 and 192, stock 192, no kerf. Spliced at 192: 192 + 96 each, so three
    // sticks in all, 192, 192 and 96 + 96. 576 / 192 = 3 proves it.
    const std::vector<SpliceRun> runs(2, run_over(24_ft, 8_ft));
    const SplicedCuts spliced = splice_judged(runs, from_stock(16_ft, 0_in));
    CHECK(spliced.cuts.value == 3);
    CHECK(spliced.proven);
}

TEST_CASE("splices: beside every choice tried, and within the bound, over a seeded sweep") {
    std::mt19937 random{20261128};
    const auto whole = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
    };
#ifdef EAVEWRIGHT_FULL_SWEEPS
    const int rounds = 200;
#else
    const int rounds = 20;
#endif
    int fewest_found = 0;
    int proven = 0;
    for (int round = 0; round < rounds; ++round) {
        SplicePlan plan = from_stock(16_ft, 0.125_in);
        plan.cuts.nodes = 300;
        plan.overlap = 1_in * whole(0, 12);
        std::vector<SpliceRun> runs;
        for (int i = whole(1, 3); i > 0; --i) {
            SpliceRun run{0_in, {}};
            for (int bay = whole(1, 3); bay > 0; --bay) {
                run.length += 1_in * whole(48, 110);
                run.places.push_back(run.length);
            }
            run.length += 1_in * whole(24, 110);
            runs.push_back(run);
        }
        const SplicedCuts spliced = splice_judged(runs, plan);
        std::vector<Length> pieces;
        const std::int64_t fewest = fewest_by_trying(runs, plan, 0, pieces);
        CHECK(spliced.bound.value <= fewest);
        CHECK(spliced.cuts.value >= fewest);
        CHECK(spliced.cuts.value <= fewest + 1);
        fewest_found += spliced.cuts.value == fewest ? 1 : 0;
        proven += spliced.proven ? 1 : 0;
    }
    MESSAGE("fewest found in " << fewest_found << ", proven in " << proven << " of " << rounds);
    CHECK(fewest_found >= rounds * 9 / 10);
}

TEST_CASE("splices: an answer that was tampered with is rejected") {
    const std::vector<SpliceRun> runs(2, run_over(60_ft, 8_ft));
    const SplicePlan plan = from_stock(16_ft, 0.125_in);
    const SplicedCuts good = splice_runs(runs, plan);
    REQUIRE(find_faults_of_splices(runs, plan, good).empty());
    std::vector<std::pair<std::string, SplicedCuts>> bad;
    const auto change = [&](const std::string& what, auto&& how) {
        bad.push_back({what, good});
        how(bad.back().second);
    };
    change("a splice moved", [](SplicedCuts& s) { s.runs[0].places[0] ^= 1U; });
    change("a splice lost", [](SplicedCuts& s) { s.runs[0].places.pop_back(); });
    change("a run lost", [](SplicedCuts& s) { s.runs.pop_back(); });
    change("a run cut from another's pieces", [](SplicedCuts& s) { s.runs[1].pieces = s.runs[0].pieces; });
    change("a piece shortened", [](SplicedCuts& s) { s.pieces[0] -= 1_in; });
    change("the bound raised", [](SplicedCuts& s) { ++s.bound.value; });
    change("a weight raised", [](SplicedCuts& s) { s.bound.weights.back().weight += s.bound.unit; });
    change("a weight lost", [](SplicedCuts& s) { s.bound.weights.pop_back(); });
    change("proven turned", [](SplicedCuts& s) { s.proven = !s.proven; });
    for (const auto& [what, spliced] : bad) {
        CHECK_MESSAGE(!find_faults_of_splices(runs, plan, spliced).empty(), what);
    }
}

TEST_CASE("cut patterns: marks for the saw, by hand") {
    // 60 + 1/8 + 60 + 1/8 + 60 in from 192, end trimmed by 1/2: 0.5 to 60.5, 60.625 to 120.625, 120.75 to 180.75. After
    // the last kerf at 180.875 there are 11.125 left.
    const StockPlan plan{.stock = {{.length = 16_ft}}, .kerf = 0.125_in, .end_trim = 0.5_in};
    std::vector<Length> pieces(6, 60_in);
    pieces.push_back(100_in);
    const CutList list = cut_stock(pieces, plan);
    const std::vector<CutPattern> patterns = group_cuts(pieces, plan, list);
    // First fit: 100 + 60, then 60 x 3, then 60 x 2.
    REQUIRE(patterns.size() == 3);
    std::int64_t sticks = 0;
    for (const CutPattern& pattern : patterns) {
        sticks += pattern.times;
        CHECK(pattern.bars.size() == static_cast<std::size_t>(pattern.times));
    }
    CHECK(sticks == static_cast<std::int64_t>(list.bars.size()));
    const CutPattern& three = patterns[1];
    REQUIRE(three.marks.size() == 3);
    CHECK(three.marks[0].from == 0.5_in);
    CHECK(three.marks[0].to == 60.5_in);
    CHECK(three.marks[1].from == 60.625_in);
    CHECK(three.marks[2].from == 120.75_in);
    CHECK(three.marks[2].to == 180.75_in);
    CHECK(three.left == 11.125_in);
    CHECK(write_pattern(three, Tick::of_inch(16)) ==
          "1 x 16'-0\": 0'-0 1/2\" to 5'-0 1/2\", 5'-0 5/8\" to 10'-0 5/8\", 10'-0 3/4\" to 15'-0 3/4\"; 0'-11 1/8\" "
          "left");
    CutList bad = list;
    bad.bars.pop_back();
    CHECK(refusal_of([&] { (void)group_cuts(pieces, plan, bad); }).code == FaultCode::contradiction);
}

TEST_CASE("cut patterns: the published rolls of the paper machine are 73, cut in ten ways") {
    // One optimal solution of the row paper_machine_5600 of csp_textbook.csv; 1 in stands for 4 mm.
    std::vector<Length> pieces;
    CutList list{{}, {0}, no_length, no_length, no_length, 0};
    for (const TableRow& row : read_table("csp_paper_machine_solution.csv")) {
        for (int roll = std::stoi(row.at("repetitions")); roll > 0; --roll) {
            CutBar bar{0, false, {}, no_length};
            const std::string& widths = row.at("pattern");
            for (std::size_t at = 0; at < widths.size(); at = widths.find('+', at) + 1) {
                bar.pieces.push_back(pieces.size());
                pieces.push_back(1_in / 4 * std::stod(widths.substr(at)));
                if (widths.find('+', at) == std::string::npos) {
                    break;
                }
            }
            list.bars.push_back(bar);
            ++list.to_buy[0];
        }
    }
    const StockPlan plan{.stock = {{.length = 1_in / 4 * 5600.0}}, .kerf = 0_in};
    const std::vector<CutPattern> patterns = group_cuts(pieces, plan, list);
    CHECK(patterns.size() == 10);
    CHECK(list.bars.size() == 73);
    CHECK(patterns.front().times == 16);
    const FoundCuts found = search_cuts(pieces, {.stock = plan});
    CHECK(found.value == 73);
    CHECK(found.proven);
}
