// SPDX-License-Identifier: BSL-1.0
#include <eavewright/order/cut_sheets.hpp>

#include <doctest/doctest.h>
#include <eavewright/whole_roof.hpp>

#include "../support/compiled.hpp"
#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "whole_roof/workshop.hpp"

#include <cmath>
#include <random>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const SheetStock four_by_eight{.sheet = {.width = 4_ft, .length = 8_ft}};
}

TEST_CASE("sheets to buy: one slope of the workshop by hand") {
    // 23 whole; 7 of 78 7/16 x 48, 7 of 72 x 48 and 8 of 54 7/16 x 48 each leave less than 54 7/16 of their length, so each
    // takes a sheet: 45. The rips, 22 1/8 wide: 96 and 78 7/16 side by side (22.125 + 1/8 + 22.125 = 44.375) on one sheet, 72
    // on another: 47 in all.
    const Sheets sheets = compiled::whole_roof(workshop()).slopes[0].sheets;
    const std::vector<SheetSize> pieces = cut_sizes(sheets);
    const SheetCutList list = cut_sheets(pieces, four_by_eight);
    CHECK(list.sheets == 47);
    CHECK(list.to_buy == 47);
    CHECK(find_faults_of_cuts(pieces, four_by_eight, list).empty());
    // 1269.9 sq ft of pieces, cut sizes rounded up a little, on 32 sq ft sheets: 39.7, so no way needs fewer than 40.
    CHECK(list.fewest == 40);
    CHECK(std::fabs(square_feet(list.pieces) + square_feet(list.waste) - 47.0 * 32.0) < 1e-9);
}

TEST_CASE("sheets to buy: what is on hand goes first") {
    SheetStock stock = four_by_eight;
    stock.on_hand = 2;
    const std::vector<SheetSize> pieces(3, stock.sheet);
    CHECK(cut_sheets(pieces, stock).to_buy == 1);
    stock.on_hand = 5;
    CHECK(cut_sheets(pieces, stock).to_buy == 0);
}

TEST_CASE("sheets to buy: the kerf decides whether two halves fit") {
    const std::vector<SheetSize> halves(2, SheetSize{.width = 4_ft, .length = 48_in});
    SheetStock stock = four_by_eight;
    CHECK(cut_sheets(halves, stock).sheets == 2);  // 48 + 1/8 + 48 is over 96
    stock.kerf = 0_in;
    CHECK(cut_sheets(halves, stock).sheets == 1);
}

TEST_CASE("sheets to buy: never short, over a seeded sweep") {
    std::mt19937 random{20261126};
    const auto whole = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
    };
#ifdef EAVEWRIGHT_FULL_SWEEPS
    const int rounds = 3000;
#else
    const int rounds = 300;
#endif
    for (int round = 0; round < rounds; ++round) {
        SheetStock stock = four_by_eight;
        stock.kerf = 1_in / 16 * whole(0, 4);
        stock.on_hand = whole(0, 10);
        std::vector<SheetSize> pieces;
        for (int i = whole(0, 60); i > 0; --i) {
            pieces.push_back({.width = whole(0, 2) > 0 ? 4_ft : 1_in / 16 * whole(16, 768),
                              .length = whole(0, 2) > 1 ? 8_ft : 1_in / 16 * whole(16, 1536)});
        }
        const SheetCutList list = cut_sheets(pieces, stock);
        REQUIRE(find_faults_of_cuts(pieces, stock, list).empty());
        CHECK(list.sheets >= list.fewest);
        CHECK(list.sheets <= static_cast<std::int64_t>(pieces.size()));
    }
}

TEST_CASE("sheets to buy: layouts of random roofs come out of what is bought") {
    std::mt19937 random{20261127};
    const auto whole = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
    };
    for (int round = 0; round < 40; ++round) {
        RoofDescription roof = workshop();
        GableRoof& gable = std::get<GableRoof>(roof.shape);
        gable.width = 1_ft * whole(16, 60);
        gable.length = 1_ft * whole(20, 120);
        gable.pitch = Pitch::in_12(whole(1, 12));
        roof.purlins->blocked_bays.clear();
        roof.steel.reset();  // a slope of 1 or 2 in 12 is too flat for it, and the deck alone is asked here
        roof.underlayment.reset();
        for (const SlopeResult& slope : compiled::whole_roof(roof).slopes) {
            const std::vector<SheetSize> pieces = cut_sizes(slope.sheets);
            CHECK(find_faults_of_cuts(pieces, four_by_eight, cut_sheets(pieces, four_by_eight)).empty());
        }
    }
}

TEST_CASE("sheets to buy: the checker rejects what may not be sawn from") {
    const std::vector<SheetSize> pieces{{.width = 2_ft, .length = 8_ft}, {.width = 1_ft, .length = 8_ft}};
    const SheetCutList good = cut_sheets(pieces, four_by_eight);
    REQUIRE(find_faults_of_cuts(pieces, four_by_eight, good).empty());
    SheetCutList bad = good;
    bad.cuts[1].at_width = bad.cuts[0].at_width + 2_ft;  // no kerf between them
    CHECK(find_faults_of_cuts(pieces, four_by_eight, bad).front().given == "a piece on another");
    bad = good;
    bad.cuts[1].at_width = 40_in;  // 40 + 12 is off the sheet
    CHECK(find_faults_of_cuts(pieces, four_by_eight, bad).front().given == "a piece off its sheet");
    bad = good;
    bad.cuts.pop_back();
    CHECK(find_faults_of_cuts(pieces, four_by_eight, bad).front().path == "pieces[1]");
    bad = good;
    bad.to_buy = 0;
    CHECK(find_faults_of_cuts(pieces, four_by_eight, bad).front().path == "to_buy");
}

TEST_CASE("sheets to buy: what is refused") {
    CHECK(refusal_of([] { (void)cut_sheets({{.width = 5_ft, .length = 8_ft}}, four_by_eight); }).path ==
          "pieces[0].width");
    CHECK(refusal_of([] { (void)cut_sheets({}, {.sheet = {.width = 4_ft, .length = 8_ft}, .on_hand = -1}); }).path ==
          "order.on_hand");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)cut_sheets({{.width = none, .length = 8_ft}}, four_by_eight); }).path ==
              "pieces[0].width");
    }
    CHECK(cut_sheets({}, four_by_eight).sheets == 0);
}
