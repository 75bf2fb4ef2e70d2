// SPDX-License-Identifier: BSL-1.0

// Searched layouts: never more sheets than the plain one, never worse supported, judged by both checkers.

#include <eavewright/order/check_sheet_cuts.hpp>
#include <eavewright/order/search_layouts.hpp>
#include <eavewright/tiling/check_layout.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "tiling/any_planes.hpp"
#include "tiling/tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
using PurlinSupports = std::vector<Supports<Surface::purlin_top>>;
const LayoutSearchPlan four_by_eight{.plain = {.sheet = {48_in, 96_in}}, .stock = {.sheet = {48_in, 96_in}}};

Supports<Surface::purlin_top> rows_under(const PurlinPlane& plane) {
    return supports_of(purlin_rows(plane, ToSheets{96_in, 0.125_in, 4}, {.stock = {.lie = PurlinLie::on_edge}}));
}

/// Rows that need no level edges: for planes with crooked eaves.
Supports<Surface::purlin_top> rows_across(const PurlinPlane& plane) {
    const Extent extent = extent_of(plane.outline);
    Supports<Surface::purlin_top> supports{SupportRun::along_eave, {}, 24_in};
    for (Length at = extent.low.up + 1_in; at < extent.high.up; at += 24_in) {
        supports.lines.push_back({{{extent.low.along, at}, {extent.high.along, at}}, 1.5_in});
    }
    return supports;
}

std::vector<SheetShape> shapes_of(const FoundLayout& found) {
    std::vector<SheetShape> shapes;
    for (const Sheets& sheets : found.sheets) {
        for (const SheetShape& shape : cut_shapes(sheets)) {
            shapes.push_back(shape);
        }
    }
    return shapes;
}

void check_found(const FoundLayout& found, const std::vector<PurlinPlane>& planes, const LayoutSearchPlan& plan) {
    CHECK(found.score.sheets <= found.plain.sheets);
    CHECK(found.score.sheets <= found.plain_sheets);
    CHECK(found.score.unsupported <= found.plain.unsupported);
    CHECK(found.score.slivers <= found.plain.slivers);
    CHECK(found.fewest <= found.score.sheets);
    CHECK(found.proven == (found.fewest == found.score.sheets));
    CHECK(found.saw.sheets == found.score.sheets);
    CHECK(found.score.cuts == static_cast<std::int64_t>(found.saw.cuts.size()));
    const SheetSearchPlan saw{.stock = plan.stock, .two_faced = plan.two_faced, .nodes = plan.nodes};
    CHECK(find_faults_of_cuts(shapes_of(found), saw, found.saw).empty());
    REQUIRE(found.sheets.size() == planes.size());
    for (std::size_t i = 0; i < planes.size(); ++i) {
        const Area gaps = net_area(planes[i]) - found.sheets[i].laid;
        CHECK(find_faults_of_layout(found.sheets[i], planes[i].outline, planes[i].openings, plan.plain.sheet, gaps)
                  .empty());
    }
}
}  // namespace

TEST_CASE("sheets that no layout can do without, by hand") {
    // Kerf and gap of 1/8 in: a sheet covers at most 48 1/8 x 96 1/8 = 4626.0156 sq in with its gaps.
    const SheetStock stock{.sheet = {48_in, 96_in}};
    CHECK(fewest_sheets(Area::from_value(4626.0), Area::from_value(0.0), stock, 0.125_in) == 1);
    CHECK(fewest_sheets(Area::from_value(4626.1), Area::from_value(0.0), stock, 0.125_in) == 2);
    CHECK(fewest_sheets(Area::from_value(4626.1), Area::from_value(0.2), stock, 0.125_in) == 1);
    CHECK(fewest_sheets(Area::from_value(0.0), Area::from_value(0.0), stock, 0.125_in) == 0);
    // The workshop's slope is 744 x 246.6577 = 183,513.3 sq in: 39.67, so 40 a slope and 80 for both: 79.34.
    const double both = 2.0 * square_inches(net_area(workshop_plane()));
    CHECK(fewest_sheets(Area::from_value(both), Area::from_value(0.0), stock, 0.125_in) == 80);
}

TEST_CASE("the workshop, both slopes from the same sheets") {
    const std::vector<PurlinPlane> planes{workshop_plane(), workshop_plane()};
    const PurlinSupports supports{rows_under(planes[0]), rows_under(planes[1])};
    const FoundLayout found = search_layouts(planes, supports, four_by_eight);
    check_found(found, planes, four_by_eight);
    // Lanes of 96, 96 and 54 3/8 in: 15 full ones and one 22 1/8 in wide a slope. No two of 54 3/8 in come out of one sheet: 30
    // lanes of 3; two lanes of 22 1/8 in fit side by side: 3 sheets. 93 in all, and cutting cannot do better on this layout.
    CHECK(found.plain_sheets == 93);
    CHECK(found.score.sheets == 93);
    CHECK(found.saw.bound.sheets == 93);
    CHECK(found.fewest == 80);
    CHECK_FALSE(found.proven);
    CHECK(found.tried > 50);
    const FoundLayout again = search_layouts(planes, supports, four_by_eight);
    CHECK(again.score.cuts == found.score.cuts);
    CHECK(again.plans[0].rip_first == found.plans[0].rip_first);
}

TEST_CASE("a sliver that another start avoids") {
    // 100 in wide: 48 + 48 + 3 3/4 in. The first and last lane share what the one in the middle leaves.
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {100_in, 0_in}, {100_in, 96_in}, {0_in, 96_in}});
    LayoutSearchPlan plan = four_by_eight;
    plan.plain.stagger_spaces = 0;
    const FoundLayout found = search_layouts(std::vector<PurlinPlane>{plane}, PurlinSupports{rows_under(plane)}, plan);
    check_found(found, {plane}, plan);
    CHECK(found.plain.narrowest == 3.75_in);
    CHECK(found.plain.slivers == 1);
    CHECK(found.score.slivers == 0);
    CHECK(found.score.narrowest > 12_in);
    CHECK(found.score.sheets == 3);
    CHECK(found.fewest == 3);
    CHECK(found.proven);
}

TEST_CASE("a measured plane whose grid is turned") {
    // The right rake leans out by 2 in over 16 ft, the left one stands: the grid turns by half of it, clockwise.
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {192_in, 0_in}, {194_in, 192_in}, {0_in, 192_in}});
    CHECK(detail::shared_turn(plane.outline) == -1.0 / 192.0);
    LayoutSearchPlan plan = four_by_eight;
    plan.turns = true;
    const FoundLayout found = search_layouts(std::vector<PurlinPlane>{plane}, PurlinSupports{rows_under(plane)}, plan);
    check_found(found, {plane}, plan);
}

TEST_CASE("searches over any planes never need more than the plain layout") {
    SeededNumbers random{5101};
    int saved = 0;
    for (int i = 0; i < sweep(300); ++i) {
        CAPTURE(i);
        const std::vector<PurlinPlane> planes{random.coin() ? right_angled_plane(random) : slanted_plane(random),
                                              slanted_plane(random)};
        LayoutSearchPlan plan = four_by_eight;
        plan.plain.stagger_spaces = random.whole(0, 1);
        plan.most_tries = 60;
        plan.finalists = 2;
        plan.nodes = 1'000;
        const FoundLayout found =
            search_layouts(planes, PurlinSupports{rows_across(planes[0]), rows_across(planes[1])}, plan);
        check_found(found, planes, plan);
        saved += found.score.sheets < found.plain_sheets ? 1 : 0;
    }
    CHECK(saved > 0);
}

TEST_CASE("searches that are stopped or refused") {
    const std::vector<PurlinPlane> planes{workshop_plane()};
    const PurlinSupports supports{rows_under(planes[0])};
    std::size_t reports = 0;
    const FoundLayout stopped = search_layouts(planes, supports, four_by_eight, [&](const LayoutProgress& progress) {
        ++reports;
        CHECK(progress.tried == reports);
        CHECK(progress.fewest <= progress.sheets);
        return reports < 5;
    });
    CHECK(reports == 5);
    CHECK(stopped.tried == 5);
    CHECK(stopped.score.sheets <= stopped.plain_sheets);
    const auto refused = [&](LayoutSearchPlan plan) {
        return refusal_of([&] { (void)search_layouts(planes, supports, plan); }).path;
    };
    LayoutSearchPlan plan = four_by_eight;
    plan.stock.sheet.width = 47_in;
    CHECK(refused(plan) == "search.stock.sheet");
    plan = four_by_eight;
    plan.finalists = 0;
    CHECK(refused(plan) == "search.finalists");
    plan = four_by_eight;
    plan.plain.gap = -1_in;
    CHECK(refused(plan) == "search.plain.gap");
    CHECK(refusal_of([&] { (void)search_layouts(planes, PurlinSupports{}, four_by_eight); }).path == "search.planes");
}
