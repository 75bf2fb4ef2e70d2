// SPDX-License-Identifier: BSL-1.0

// Sheets sawn straight through: by hand, against trying every cut, never more than the plain way.

#include <eavewright/order/check_sheet_cuts.hpp>
#include <eavewright/order/search_sheet_cuts.hpp>

#include "sheet_cases.hpp"

#include "../support/printing.hpp"
#include "../support/refusal.hpp"
#include "../support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using sheet_cases::box;
using sheet_cases::other_hand;
using sheet_cases::pentagon;
using sheet_cases::trapezoid;
using sheet_cases::triangle;

namespace {
const SheetSearchPlan four_by_eight{.stock = {.sheet = {.width = 4_ft, .length = 8_ft}}};

/// Searches, and sees the answer through the checker.
SheetSawPlan sawn(const std::vector<SheetShape>& shapes, const SheetSearchPlan& plan = four_by_eight) {
    SheetSawPlan found = search_sheet_cuts(shapes, plan);
    const Faults faults = find_faults_of_cuts(shapes, plan, found);
    if (!faults.empty()) {
        FAIL(describe(faults.front()));
    }
    return found;
}
}  // namespace

TEST_CASE("sawn sheets: what the plain way leaves beside a short rip is used") {
    // Rip 23 off 48: 48 - 23 - 1/8 = 24 7/8. Along it 50 + 1/8 + 45 7/8 = 96: three pieces, two cuts, nothing left.
    const std::vector<SheetShape> pieces{box(96_in, 23_in), box(50_in, 24.875_in), box(45.875_in, 24.875_in)};
    const SheetSawPlan one = sawn(pieces);
    CHECK(one.plain == 2);
    CHECK(one.sheets == 1);
    CHECK(one.proven);
    CHECK(one.cuts.size() == 2);
    CHECK(one.cuts[0].way == SawWay::rip);
    CHECK(one.cuts[1].way == SawWay::crosscut);
    CHECK(one.offcuts.empty());
    // A blade of 3/16 takes a sixteenth too much: 23 + 3/16 + 24 7/8 = 48 1/16, 50 + 3/16 + 45 7/8 = 96 1/16, so that
    // no two of them go together.
    SheetSearchPlan thick = four_by_eight;
    thick.stock.kerf = 0.1875_in;
    CHECK(sawn(pieces, thick).sheets == 3);
}

TEST_CASE("sawn sheets: four triangles out of one sheet, where the blade just lets them") {
    // Legs of 47 13/16: two of them out of 47 13/16 x (47 13/16 + 1/8 x sqrt 2 = 47.989, to the tick 48), which is the
    // sheet's width. Two such rectangles: 47 13/16 x 2 + 1/8 = 95 3/4. Boxes alone: as long, two a sheet.
    const SheetSawPlan four = sawn(std::vector<SheetShape>(4, triangle(47.8125_in, 47.8125_in)));
    CHECK(four.plain == 2);
    CHECK(four.sheets == 1);
    CHECK(four.proven);
    // One crosscut off each rectangle, and one slanted cut in each, which is a side of both triangles up to the tick.
    REQUIRE(four.cuts.size() == 4);
    CHECK(four.cuts[0].way == SawWay::crosscut);
    CHECK(std::fabs(inches(four.cuts[0].at) - 47.8125) < 1e-9);
    // 47 7/8: 48.052 across is over 48; along, 48 1/16 x 2 + 1/8 = 96 1/4 is over 96.
    CHECK(sawn(std::vector<SheetShape>(4, triangle(47.875_in, 47.875_in))).sheets == 2);
    CHECK(sawn(std::vector<SheetShape>(3, triangle(47.875_in, 47.875_in))).sheets == 2);
    // 47 3/4 along: 47.927, to the tick 47 15/16; 47 15/16 x 2 + 1/8 = 96.
    CHECK(sawn(std::vector<SheetShape>(4, triangle(47.75_in, 47.75_in))).sheets == 1);
}

TEST_CASE("sawn sheets: two of one hand come out of one rectangle, a mirrored one only where there is no face") {
    // 90 x 48, slant sqrt(90^2 + 48^2) = 102: the blade takes 1/8 x 102 / 48 = 0.266 along the sheet, 90 5/16 to the
    // tick.
    const SheetShape left = triangle(90_in, 48_in);
    const SheetShape right = other_hand(90_in, 48_in);
    const SheetSawPlan pair = sawn({left, left});
    CHECK(pair.sheets == 1);
    REQUIRE(pair.cuts.size() == 2);
    CHECK(pair.cuts.back().way == SawWay::slant);
    CHECK(pair.cuts.front().way == SawWay::crosscut);
    CHECK(std::fabs(inches(pair.cuts.front().at) - 90.3125) < 1e-9);
    CHECK((pair.pieces[0].quarter_turns + pair.pieces[1].quarter_turns) % 4 == 2);
    CHECK(sawn({right, right}).sheets == 1);
    CHECK(sawn({left, right}).sheets == 2);
    SheetSearchPlan alike = four_by_eight;
    alike.two_faced = true;
    const SheetSawPlan turned_over = sawn({left, right}, alike);
    CHECK(turned_over.sheets == 1);
    CHECK(turned_over.pieces[0].mirrored != turned_over.pieces[1].mirrored);
    // Right trapezoids 60 and 30 long, and 40 and 20: along their common length (60 + 20) and more, as the slants
    // differ.
    CHECK(sawn({trapezoid(60_in, 30_in, 48_in), trapezoid(40_in, 20_in, 48_in)}).sheets == 1);
    // A corner of 40 x 24 off 60 x 48 takes a triangle of 40 x 24 less what the blade takes, not one of 40 x 24.
    CHECK(sawn({pentagon(96_in, 48_in, 40_in, 24_in), triangle(38_in, 22_in)}).sheets == 1);
    CHECK(sawn({pentagon(96_in, 48_in, 40_in, 24_in), triangle(40_in, 24_in)}).sheets == 2);
}

TEST_CASE("sawn sheets: the strength axis is kept unless a piece may be turned") {
    const std::vector<SheetShape> kept(2, box(48_in, 30_in));
    const std::vector<SheetShape> free(4, box(48_in, 23.8125_in, true));
    CHECK(sawn(kept).sheets == 2);  // 48 x 2 + 1/8 is over 96, 30 x 2 over 48
    // Turned, each is 23 13/16 long: 23 13/16 x 4 + 3 x 1/8 = 95 5/8.
    const SheetSawPlan turned = sawn(free);
    CHECK(turned.sheets == 1);
    CHECK(turned.cuts.size() == 4);
    CHECK(turned.pieces[0].quarter_turns == 1);
    const SheetSawPlan only_turned = sawn({box(30_in, 60_in, true)});  // wider than the sheet as it is
    CHECK(only_turned.sheets == 1);
    CHECK(only_turned.plain == 0);
}

TEST_CASE("sawn sheets: the two slopes of the workshop") {
    // A slope: 23 whole, 7 of 78 7/16, 7 of 72 and 8 of 54 7/16, all 48 wide and over half a sheet long; rips of 22
    // 1/8, one of each: 96, 78 7/16, 72. The wide ones take 45 sheets a slope and leave 41 7/16 at most, too short for
    // any rip. Rips: 22 1/8 x 2 + 1/8 = 44 3/8, two a sheet: 6 rips, 3 sheets. 90 + 3 = 93, and no way needs fewer.
    std::vector<SheetShape> pieces;
    const auto add = [&](int count, Length length, Length width) {
        pieces.insert(pieces.end(), static_cast<std::size_t>(2 * count), box(length, width));
    };
    add(23, 96_in, 48_in);
    add(7, 78.4375_in, 48_in);
    add(7, 72_in, 48_in);
    add(8, 54.4375_in, 48_in);
    add(1, 96_in, 22.125_in);
    add(1, 78.4375_in, 22.125_in);
    add(1, 72_in, 22.125_in);
    const SheetSawPlan found = sawn(pieces);
    CHECK(found.sheets == 93);
    CHECK(found.bound.sheets == 93);
    CHECK(found.bound.by_area == 80);
    CHECK(found.proven);
    // 44 crosscuts of wide pieces; two rips for each pair of rips, and one crosscut for two of the pairs.
    CHECK(found.cuts.size() == 44 + 3 * 2 + 2);
    REQUIRE(!found.offcuts.empty());
    for (std::size_t i = 1; i < found.offcuts.size(); ++i) {
        CHECK(found.offcuts[i].area <= found.offcuts[i - 1].area);
    }
    // The largest: 96 - 54 7/16 - 1/8 = 41 7/16 by 48.
    CHECK(std::fabs(inches(found.offcuts[0].box.length) - 41.4375) < 1e-9);
    CHECK(std::fabs(inches(found.offcuts[0].box.width) - 48.0) < 1e-9);
}

TEST_CASE("sawn sheets: bounds by hand") {
    const SheetStock stock = four_by_eight.stock;
    // Over half in both ways: one a sheet, though the area is 3 x 50 x 26 / 4608 = 0.85 of a sheet.
    const SheetBound large = bound_sheets(std::vector<SheetShape>(3, box(50_in, 26_in)), stock);
    CHECK(large.by_area == 1);
    CHECK(large.sheets == 3);
    // Whole width and 32 long: 3 x 32 + 2 x 1/8 is over 96, two a sheet: 5 pieces, 3 sheets. Area: 1.67, so 2.
    const SheetBound thirds = bound_sheets(std::vector<SheetShape>(5, box(32_in, 48_in)), stock);
    CHECK(thirds.by_area == 2);
    CHECK(thirds.sheets == 3);
    // Where they may be turned (48 along, 32 across) there is still no third beside two, but the bound need not know.
    CHECK(bound_sheets(std::vector<SheetShape>(5, box(32_in, 48_in, true)), stock).sheets <= 3);
    CHECK(bound_sheets({}, stock).sheets == 0);
    // A scale out of its range proves nothing.
    CHECK(sheets_by_scales({box(90_in, 40_in)}, stock, {ScaleKind::shares, 0.9, 1}, {}) == 0);
    CHECK(sheets_by_scales({box(90_in, 40_in)}, stock, {ScaleKind::floors, 0.5, 0}, {}) == 0);
}

TEST_CASE("sawn sheets: as few as trying every cut finds, over seeded small lists") {
    SeededNumbers random{20'261'129};
    const auto round = [&](int at_most) {
        const int kerf = random.whole(0, 1);
        std::vector<sheet_cases::TryEveryCut::Piece> small;
        std::vector<SheetShape> pieces;
        for (int i = random.whole(2, at_most); i > 0; --i) {
            small.push_back({random.whole(2, 11), random.whole(1, 7), random.whole(0, 4) == 0});
            pieces.push_back(box(1_in * small.back().length, 1_in * small.back().width, small.back().turnable));
        }
        const SheetSearchPlan plan{.stock = {.sheet = {.width = 7_in, .length = 11_in}, .kerf = 1_in * kerf}};
        const std::int64_t fewest = sheet_cases::TryEveryCut{small, 11, 7, kerf}.fewest_sheets();
        const SheetSawPlan found = sawn(pieces, plan);
        CHECK(found.sheets == fewest);
        CHECK(found.bound.sheets <= fewest);
    };
    for (int i = 0; i < sweep(600); ++i) {
        round(5);
    }
    for (int i = 0; i < sweep(100); ++i) {
        round(7);
    }
}

TEST_CASE("sawn sheets: never more than the plain way, and sound, over seeded lists") {
    SeededNumbers random{20'261'130};
    std::int64_t plain = 0;
    std::int64_t searched = 0;
    for (int i = 0; i < sweep(400); ++i) {
        SheetSearchPlan plan = four_by_eight;
        plan.stock.kerf = 1_in / 16 * random.whole(0, 4);
        plan.stock.on_hand = random.whole(0, 10);
        plan.two_faced = random.coin();
        plan.nodes = random.whole(0, 5000);
        std::vector<SheetShape> pieces;
        for (int n = random.whole(0, 40); n > 0; --n) {
            const SheetShape piece = sheet_cases::any_piece(random);
            pieces.insert(pieces.end(), static_cast<std::size_t>(random.whole(1, 3)), piece);
        }
        std::vector<SheetSize> boxes;
        for (const SheetShape& piece : pieces) {
            boxes.push_back(piece.box);
        }
        const SheetSawPlan found = sawn(pieces, plan);
        const SheetCutList list = cut_sheets(boxes, plan.stock);
        CHECK(found.sheets <= list.sheets);
        CHECK(found.plain == list.sheets);
        CHECK(found.bound.sheets <= found.sheets);
        plain += list.sheets;
        searched += found.sheets;
    }
    CHECK(searched < plain);
}

TEST_CASE("sawn sheets: the same every time, and stopped when the caller says so") {
    SeededNumbers random{7};
    std::vector<SheetShape> pieces;
    for (int i = 0; i < 30; ++i) {
        pieces.push_back(sheet_cases::any_piece(random));
    }
    SheetSearchPlan plan = four_by_eight;
    plan.nodes = 20'000;
    const SheetSawPlan first = sawn(pieces, plan);
    const SheetSawPlan again = sawn(pieces, plan);
    CHECK(first.cuts.size() == again.cuts.size());
    CHECK(first.nodes == again.nodes);
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        CHECK(first.pieces[i].at_length == again.pieces[i].at_length);
        CHECK(first.pieces[i].part == again.pieces[i].part);
    }
    std::int64_t calls = 0;
    std::int64_t before = 0;
    const SheetSawPlan stopped = search_sheet_cuts(pieces, plan, [&](const SheetSearchProgress& progress) {
        CHECK(progress.nodes >= before);
        CHECK(progress.bound <= first.sheets);
        before = progress.nodes;
        return ++calls < 3;
    });
    CHECK(calls == 3);
    CHECK(stopped.nodes < first.nodes);
    CHECK(find_faults_of_cuts(pieces, plan, stopped).empty());
    CHECK(stopped.sheets >= first.sheets);
    CHECK(stopped.sheets <= stopped.plain);
}

TEST_CASE("sawn sheets: what is refused") {
    const auto path_of = [](const std::vector<SheetShape>& pieces, const SheetSearchPlan& plan) {
        return refusal_of([&] { (void)search_sheet_cuts(pieces, plan); }).path;
    };
    CHECK(path_of({box(97_in, 10_in)}, four_by_eight) == "pieces[0].length");
    CHECK(path_of({box(10_in, 49_in)}, four_by_eight) == "pieces[0].width");
    CHECK(path_of({box(10_in, 49_in, true)}, four_by_eight) == "no fault");
    CHECK(path_of({box(49_in, 49_in, true)}, four_by_eight) == "pieces[0].width");
    CHECK(path_of({box(0_in, 10_in)}, four_by_eight) == "pieces[0].length");
    SheetShape off = triangle(20_in, 10_in);
    off.outline[1].length = 21_in;
    CHECK(path_of({off}, four_by_eight) == "pieces[0].outline[1].length");
    for (const Length none : lengths_that_are_none()) {
        CHECK(path_of({box(none, 10_in)}, four_by_eight) == "pieces[0].length");
    }
    SheetSearchPlan plan = four_by_eight;
    plan.nodes = -1;
    CHECK(path_of({}, plan) == "order.nodes");
    plan = four_by_eight;
    plan.stock.kerf = -1_in;
    CHECK(path_of({}, plan) == "order.kerf");
    CHECK(path_of(std::vector<SheetShape>(most_sheet_cuts + 1, box(10_in, 10_in)), four_by_eight) == "pieces");
    CHECK(sawn({}).sheets == 0);
    CHECK(sawn({}).proven);
}
