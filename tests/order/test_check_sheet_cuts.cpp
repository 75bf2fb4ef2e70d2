// SPDX-License-Identifier: BSL-1.0

// The judge of sawn sheets: answers changed in many ways are rejected, each for what was changed.

#include <eavewright/order/check_sheet_cuts.hpp>
#include <eavewright/order/search_sheet_cuts.hpp>

#include "sheet_cases.hpp"

#include "../support/printing.hpp"
#include "../support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using sheet_cases::box;
using sheet_cases::trapezoid;
using sheet_cases::triangle;

namespace {
const SheetSearchPlan plan{.stock = {.sheet = {.width = 4_ft, .length = 8_ft}, .on_hand = 1}};

std::vector<SheetShape> pieces() {
    return {box(60_in, 48_in),      box(35_in, 24_in),      box(35_in, 20_in), triangle(90_in, 48_in),
            triangle(90_in, 48_in), box(12_in, 8_in, true), box(96_in, 48_in), trapezoid(70_in, 40_in, 48_in),
            box(50_in, 26_in),      box(50_in, 26_in),      box(50_in, 26_in), box(50_in, 26_in),
            box(50_in, 26_in),      box(50_in, 26_in)};
}

struct Change {
    const char* name;
    std::function<void(SheetSawPlan&)> make;
};

/// The first cut that runs one way, and the first part of an offcut.
SawCut& cut_of(SheetSawPlan& sawn, SawWay way) {
    for (SawCut& cut : sawn.cuts) {
        if (cut.way == way) {
            return cut;
        }
    }
    FAIL("no such cut");
    return sawn.cuts.front();
}

const std::vector<Change> changes{
    {"a piece moved along", [](SheetSawPlan& s) { s.pieces[1].at_length += 1_in / 16; }},
    {"a piece moved across", [](SheetSawPlan& s) { s.pieces[2].at_width -= 1_in / 16; }},
    {"a piece off the sheet", [](SheetSawPlan& s) { s.pieces[0].at_length = 90_in; }},
    {"a piece on another sheet", [](SheetSawPlan& s) { s.pieces[0].sheet = 1 - s.pieces[0].sheet; }},
    {"a piece turned across", [](SheetSawPlan& s) { s.pieces[6].quarter_turns = 1; }},
    {"a quarter turn that is none", [](SheetSawPlan& s) { s.pieces[0].quarter_turns = 4; }},
    {"a slanted piece turned", [](SheetSawPlan& s) { s.pieces[3].quarter_turns = 2 - s.pieces[3].quarter_turns; }},
    {"a piece turned over", [](SheetSawPlan& s) { s.pieces[0].mirrored = true; }},
    {"two pieces exchanged", [](SheetSawPlan& s) { std::swap(s.pieces[1], s.pieces[2]); }},
    {"two of one part", [](SheetSawPlan& s) { s.pieces[4] = s.pieces[3]; }},
    {"a piece left out", [](SheetSawPlan& s) { s.pieces.pop_back(); }},
    {"a piece without a part", [](SheetSawPlan& s) { s.pieces[0].part = s.parts.size(); }},
    {"a part without its piece", [](SheetSawPlan& s) { s.parts[s.pieces[5].part].piece.reset(); }},
    {"a part with another piece", [](SheetSawPlan& s) { s.parts[s.pieces[1].part].piece = 2; }},
    {"an offcut that says it is a piece", [](SheetSawPlan& s) { s.parts[s.offcuts[0].part].piece = 1; }},
    {"a part that grows", [](SheetSawPlan& s) { s.parts[s.pieces[1].part].outline[0].length -= 1_in / 8; }},
    {"a part on another sheet", [](SheetSawPlan& s) { s.parts[s.pieces[1].part].sheet ^= 1U; }},
    {"a sheet that is larger", [](SheetSawPlan& s) { s.parts[0].outline[2].width += 1_in; }},
    {"a part that nothing makes", [](SheetSawPlan& s) { s.parts.push_back(s.parts.back()); }},
    {"an outline of one corner",
     [](SheetSawPlan& s) {
         s.parts.back().outline.erase(s.parts.back().outline.begin() + 1, s.parts.back().outline.end());
     }},
    {"a cut left out", [](SheetSawPlan& s) { s.cuts.pop_back(); }},
    {"a cut made twice", [](SheetSawPlan& s) { s.cuts.push_back(s.cuts.back()); }},
    {"cuts in another order", [](SheetSawPlan& s) { std::swap(s.cuts.front(), s.cuts.back()); }},
    {"a cut moved", [](SheetSawPlan& s) { cut_of(s, SawWay::crosscut).from.length += 1_in / 16; }},
    {"a cut said to be elsewhere", [](SheetSawPlan& s) { cut_of(s, SawWay::rip).at += 1_in / 16; }},
    {"a cut said to run another way", [](SheetSawPlan& s) { cut_of(s, SawWay::rip).way = SawWay::crosscut; }},
    {"a cut the other way round",
     [](SheetSawPlan& s) { std::swap(cut_of(s, SawWay::slant).from, cut_of(s, SawWay::slant).to); }},
    {"a slanted side moved by two ticks",
     [](SheetSawPlan& s) { s.parts[s.pieces[3].part].outline[1].length += 1_in / 8; }},
    {"a cut of another part", [](SheetSawPlan& s) { s.cuts.back().part = 0; }},
    {"a cut of no part", [](SheetSawPlan& s) { s.cuts.back().part = s.parts.size(); }},
    {"a cut of no length", [](SheetSawPlan& s) { s.cuts.back().to = s.cuts.back().from; }},
    {"a cut of no number", [](SheetSawPlan& s) { s.cuts.back().to.length = one_inch / 0.0; }},
    {"a cut that keeps what it divides", [](SheetSawPlan& s) { s.cuts.back().kept = s.cuts.back().part; }},
    {"what lies beyond forgotten", [](SheetSawPlan& s) { s.cuts.front().beyond.reset(); }},
    {"what lies beyond kept", [](SheetSawPlan& s) { std::swap(s.cuts.front().kept, *s.cuts.front().beyond); }},
    {"a cut that a part does not know", [](SheetSawPlan& s) { s.parts[s.cuts.front().part].cut.reset(); }},
    {"an offcut not listed", [](SheetSawPlan& s) { s.offcuts.pop_back(); }},
    {"an offcut listed twice", [](SheetSawPlan& s) { s.offcuts.push_back(s.offcuts.back()); }},
    {"an offcut that is larger", [](SheetSawPlan& s) { s.offcuts[0].box.length += 1_in; }},
    {"an offcut of more area", [](SheetSawPlan& s) { s.offcuts[0].area += Area::from_value(1.0); }},
    {"offcuts the smallest first", [](SheetSawPlan& s) { std::swap(s.offcuts.front(), s.offcuts.back()); }},
    {"an offcut that is a piece", [](SheetSawPlan& s) { s.offcuts[0].part = s.pieces[0].part; }},
    {"a sheet more", [](SheetSawPlan& s) { ++s.sheets; }},
    {"a sheet less", [](SheetSawPlan& s) { --s.sheets; }},
    {"fewer to buy", [](SheetSawPlan& s) { --s.to_buy; }},
    {"what is on hand bought", [](SheetSawPlan& s) { ++s.to_buy; }},
    {"less waste", [](SheetSawPlan& s) { s.waste -= Area::from_value(1.0); }},
    {"more sawn", [](SheetSawPlan& s) { s.sawn += Area::from_value(1.0); }},
    {"a higher bound", [](SheetSawPlan& s) { ++s.bound.sheets; }},
    {"a lower bound", [](SheetSawPlan& s) { --s.bound.sheets; }},
    {"a higher bound by area", [](SheetSawPlan& s) { ++s.bound.by_area; }},
    {"a scale that proves less",
     [](SheetSawPlan& s) {
         s.bound.lengths = {ScaleKind::floors, 0.5, 100};
     }},
    {"a scale out of its range",
     [](SheetSawPlan& s) {
         s.bound.widths = {ScaleKind::large_only, 0.7, 1};
     }},
    {"a proof denied or claimed", [](SheetSawPlan& s) { s.proven = !s.proven; }},
};
}  // namespace

TEST_CASE("the judge of sawn sheets rejects every answer that was changed") {
    const SheetSawPlan good = search_sheet_cuts(pieces(), plan);
    REQUIRE(find_faults_of_cuts(pieces(), plan, good).empty());
    REQUIRE(good.offcuts.size() > 1);
    REQUIRE(good.cuts.front().beyond.has_value());
    REQUIRE(good.bound.sheets > good.bound.by_area);
    REQUIRE(changes.size() >= 20);
    for (const Change& change : changes) {
        SheetSawPlan bad = good;
        change.make(bad);
        INFO(std::string{change.name});
        CHECK_FALSE(find_faults_of_cuts(pieces(), plan, bad).empty());
    }
}

TEST_CASE("the judge of sawn sheets asks for the kerf, the sheet and the pieces that it is given") {
    const SheetSawPlan good = search_sheet_cuts(pieces(), plan);
    SheetSearchPlan other = plan;
    other.stock.kerf = 0.25_in;
    CHECK_FALSE(find_faults_of_cuts(pieces(), other, good).empty());
    other = plan;
    other.stock.sheet.length = 97_in;
    CHECK_FALSE(find_faults_of_cuts(pieces(), other, good).empty());
    other = plan;
    other.stock.on_hand = 2;
    CHECK(find_faults_of_cuts(pieces(), other, good).front().path == "to_buy");
    std::vector<SheetShape> longer = pieces();
    longer[1].box.length += 1_in / 16;
    CHECK_FALSE(find_faults_of_cuts(longer, plan, good).empty());
    longer = pieces();
    longer.push_back(box(5_in, 5_in));
    CHECK(find_faults_of_cuts(longer, plan, good).front().path == "sheets");
    longer = pieces();
    longer[3] = sheet_cases::other_hand(90_in, 48_in);
    CHECK_FALSE(find_faults_of_cuts(longer, plan, good).empty());
}

TEST_CASE("the judge of sawn sheets measures how far pieces are apart without the cuts") {
    using detail::box_of;
    using detail::gap_between;
    using detail::shifted;
    CHECK(gap_between(box_of(4.0, 4.0), shifted(box_of(4.0, 4.0), 4.125, 0.0)) == 0.125);
    CHECK(gap_between(box_of(4.0, 4.0), shifted(box_of(4.0, 4.0), 3.875, 0.0)) == 0.0);
    CHECK(std::fabs(gap_between(box_of(4.0, 4.0), shifted(box_of(4.0, 4.0), 4.03, 4.04)) - 0.05) < 1e-12);
    // Two halves of a square of 8, the second moved off the diagonal by 1 both ways: sqrt 2 apart.
    const detail::Spots low{{0.0, 0.0}, {8.0, 0.0}, {0.0, 8.0}};
    const detail::Spots high{{9.0, 9.0}, {1.0, 9.0}, {9.0, 1.0}};
    CHECK(std::fabs(gap_between(low, high) - std::sqrt(2.0)) < 1e-12);
}

TEST_CASE("the judge of sawn sheets rejects changes of random answers") {
    SeededNumbers random{20'261'131};
    for (int i = 0; i < sweep(200); ++i) {
        std::vector<SheetShape> some;
        for (int n = random.whole(3, 15); n > 0; --n) {
            some.push_back(sheet_cases::any_piece(random));
        }
        SheetSearchPlan quick = plan;
        quick.nodes = 2'000;
        const SheetSawPlan good = search_sheet_cuts(some, quick);
        REQUIRE(find_faults_of_cuts(some, quick, good).empty());
        SheetSawPlan bad = good;
        const auto piece = static_cast<std::size_t>(random.whole(0, static_cast<int>(some.size()) - 1));
        (random.coin() ? bad.pieces[piece].at_length : bad.pieces[piece].at_width) += 1_in / 64;
        CHECK_FALSE(find_faults_of_cuts(some, quick, bad).empty());
        bad = good;
        if (!bad.cuts.empty()) {
            SawCut& cut = bad.cuts[static_cast<std::size_t>(random.whole(0, static_cast<int>(bad.cuts.size()) - 1))];
            const Length off = random.coin() ? 1_in / 64 : -1_in / 64;
            (cut.way == SawWay::rip ? cut.from.width : cut.from.length) += off;
            (cut.way == SawWay::rip ? cut.to.width : cut.to.length) += off;
            CHECK_FALSE(find_faults_of_cuts(some, quick, bad).empty());
        }
    }
}
