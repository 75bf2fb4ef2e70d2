// SPDX-License-Identifier: BSL-1.0

// Outlines of laid pieces in the sheet's own axes, and the sheets that hip planes are sawn from.

#include <eavewright/order/check_sheet_cuts.hpp>
#include <eavewright/order/search_sheet_cuts.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include "../support/printing.hpp"
#include "../support/seeded_numbers.hpp"
#include "../tiling/any_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const SheetSearchPlan four_by_eight{.stock = {.sheet = {.width = 4_ft, .length = 8_ft}}};
const SheetPlan laid{.sheet = {.width = 4_ft, .length = 8_ft}};

Supports<Surface::purlin_top> supports_every_24_in(SupportRun run) {
    Supports<Surface::purlin_top> supports{run, {}, 24_in};
    for (int i = 0; i < 60; ++i) {
        const Length at = 24_in * i;
        const PlanePoint low = run == SupportRun::along_eave ? PlanePoint{-10_ft, at} : PlanePoint{at, -10_ft};
        const PlanePoint high = run == SupportRun::along_eave ? PlanePoint{80_ft, at} : PlanePoint{at, 80_ft};
        supports.lines.push_back({{low, high}, 1.5_in});
    }
    return supports;
}
bool has_corner(const SheetShape& shape, Length length, Length width) {
    for (const CutPoint& corner : shape.outline) {
        if (off_by(corner.length, length) + off_by(corner.width, width) < 1e-9) {
            return true;
        }
    }
    return false;
}
std::size_t slanted_in(const std::vector<SheetShape>& shapes) {
    std::size_t count = 0;
    for (const SheetShape& shape : shapes) {
        count += shape.outline.empty() ? 0U : 1U;
    }
    return count;
}
}  // namespace

TEST_CASE("cut shapes: a hip at the right, columns over purlins") {
    // 96 along the eave, the hip from there to 96 up: the first column is 48 at its right side, 96 at its left.
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {96_in, 0_in}, {0_in, 96_in}});
    const Sheets sheets = tile_sheets(plane, supports_every_24_in(SupportRun::along_eave), laid);
    const std::vector<SheetShape> shapes = cut_shapes(sheets);
    REQUIRE(shapes.size() == sheets.pieces.size());
    // Length runs up, width to the left: of A1, whose left side is 96 and right side 48, the corner off is at (96, 0).
    CHECK(shapes[0].box.length == 96_in);
    CHECK(shapes[0].box.width == 48_in);
    REQUIRE(shapes[0].outline.size() == 4);
    CHECK(has_corner(shapes[0], 0_in, 0_in));
    CHECK(has_corner(shapes[0], 48_in, 0_in));
    CHECK(has_corner(shapes[0], 96_in, 48_in));
    CHECK(has_corner(shapes[0], 0_in, 48_in));
    // B1, a gap of 1/8 on, is a triangle of 47 7/8 both ways: its right angle is at the eave's left, (0, 47 7/8).
    REQUIRE(shapes[1].outline.size() == 3);
    CHECK(has_corner(shapes[1], 0_in, 0_in));
    CHECK(has_corner(shapes[1], 0_in, 47.875_in));
    CHECK(has_corner(shapes[1], 47.875_in, 47.875_in));
    CHECK(std::fabs(square_inches(sawn_area(shapes[0])) - 48.0 * (48.0 + 96.0) / 2.0) < 1e-9);
}

TEST_CASE("cut shapes: the same hip, courses over rafters") {
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {96_in, 0_in}, {0_in, 96_in}});
    const Sheets sheets = tile_sheets(plane, supports_every_24_in(SupportRun::up_slope), laid);
    const std::vector<SheetShape> shapes = cut_shapes(sheets);
    REQUIRE(shapes.size() == sheets.pieces.size());
    // Length runs along the eave, width up: the first course is 96 long at its eave and 48 long at 48.
    CHECK(has_corner(shapes[0], 0_in, 0_in));
    CHECK(has_corner(shapes[0], 96_in, 0_in));
    CHECK(has_corner(shapes[0], 48_in, 48_in));
    CHECK(has_corner(shapes[0], 0_in, 48_in));
}

TEST_CASE("cut shapes: a notch and an opening keep their box, a whole sheet has no outline") {
    PurlinPlane plane = any_plane({{0_in, 0_in}, {144.25_in, 0_in}, {144.25_in, 96_in}, {0_in, 96_in}});
    plane.openings.push_back({{10_in, 20_in}, {30_in, 20_in}, {30_in, 50_in}, {10_in, 50_in}});    // within A1
    plane.openings.push_back({{80_in, 30_in}, {110_in, 30_in}, {110_in, 60_in}, {80_in, 60_in}});  // on B1's joint
    const std::vector<SheetShape> shapes =
        cut_shapes(tile_sheets(plane, supports_every_24_in(SupportRun::along_eave), laid));
    REQUIRE(shapes.size() == 4);  // the second column starts shorter by a space: 72 and 23 7/8
    CHECK(slanted_in(shapes) == 0);
    CHECK(shapes[0].box.width == 48_in);
    CHECK(shapes[3].box.width == 48_in);
    CHECK(shapes[3].box.length == 96_in);
}

TEST_CASE("cut shapes: outlines lie in their boxes, and their areas are those laid up to a tick, over random planes") {
    SeededNumbers random{20'261'132};
    std::size_t slanted = 0;
    for (int i = 0; i < sweep(400); ++i) {
        const PurlinPlane plane = slanted_plane(random);
        SheetPlan plan = laid;
        plan.turn = random.coin() ? 0.0 : random.between(-0.03, 0.03);
        plan.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
        const SupportRun run = random.coin() ? SupportRun::along_eave : SupportRun::up_slope;
        const Sheets sheets = tile_sheets(plane, supports_every_24_in(run), plan);
        const std::vector<SheetShape> shapes = cut_shapes(sheets);
        CHECK(find_faults_of_shapes(shapes, {.width = 49_in, .length = 97_in}).empty());
        for (std::size_t p = 0; p < shapes.size(); ++p) {
            const SheetPiece& piece = sheets.pieces[p];
            if (shapes[p].outline.empty()) {
                continue;
            }
            ++slanted;
            const double edges = 2.0 * inches(piece.length + piece.width);
            CHECK(std::fabs(square_inches(sawn_area(shapes[p])) - square_inches(signed_area(piece.outline))) <
                  edges / 16.0);
        }
    }
    CHECK(slanted > 100);
}

TEST_CASE("cut shapes: hip planes are sawn from fewer sheets than their boxes") {
    // Two equal hip ends of 24 ft at a slope of 13 ft, their columns slanted on both sides: pieces of one hand at each
    // hip.
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {288_in, 0_in}, {144_in, 156_in}});
    std::vector<SheetShape> shapes;
    for (int end = 0; end < 2; ++end) {
        for (SheetShape& shape : cut_shapes(tile_sheets(plane, supports_every_24_in(SupportRun::along_eave), laid))) {
            shapes.push_back(std::move(shape));
        }
    }
    const SheetSawPlan found = search_sheet_cuts(shapes, four_by_eight);
    CHECK(find_faults_of_cuts(shapes, four_by_eight, found).empty());
    CHECK(found.sheets < found.plain);
    MESSAGE("two hip ends: " << found.plain << " sheets by boxes, " << found.sheets << " sawn, bound "
                             << found.bound.sheets);
}
