// SPDX-License-Identifier: BSL-1.0

// Purlin rows on planes of other than four sides: where each runs, worked out by hand.

#include <eavewright/framing/purlin_pieces.hpp>
#include <eavewright/framing/purlin_rows.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "tiling/any_planes.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const RowPlan on_edge{.stock = {.lie = PurlinLie::on_edge}};

void check_run(const PurlinRow& row, Length up, const std::vector<Span>& stretches) {
    CHECK(row.centreline.front().up == up);
    REQUIRE(row.stretches.size() == stretches.size());
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        CHECK(row.stretches[i].low == stretches[i].low);
        CHECK(row.stretches[i].high == stretches[i].high);
    }
}
}  // namespace

TEST_CASE("rows on a plane with two eaves and two ridges") {
    // Eave at 0 from 0 to 120 in and at 30 in from 120 to 200 in; ridge at 96 in over the first 80 in, at 72 in over the rest.
    const PurlinPlane plane = any_plane({{0_in, 0_in},
                                         {120_in, 0_in},
                                         {120_in, 30_in},
                                         {200_in, 30_in},
                                         {200_in, 72_in},
                                         {80_in, 72_in},
                                         {80_in, 96_in},
                                         {0_in, 96_in}});
    const PurlinRows rows = purlin_rows(plane, Fixed{24_in}, on_edge);
    // Fascias 1.5 in wide: middles at 0.75 and 30.75 in. Ridge rows: 96 - 0.75 and 72 - 0.75 in. Field rows at 24, 48 and 72 in;
    // at 72 in the level of the lower ridge's own row (71.25) is too near over its stretch, so it stops at 80 in.
    REQUIRE(rows.rows.size() == 7);
    check_run(rows.rows[0], 0.75_in, {{0_in, 120_in}});
    check_run(rows.rows[1], 24_in, {{0_in, 120_in}});
    check_run(rows.rows[2], 30.75_in, {{120_in, 200_in}});
    check_run(rows.rows[3], 48_in, {{0_in, 200_in}});
    check_run(rows.rows[4], 71.25_in, {{80_in, 200_in}});
    check_run(rows.rows[5], 72_in, {{0_in, 80_in}});
    check_run(rows.rows[6], 95.25_in, {{0_in, 80_in}});
    CHECK(rows.rows[0].kind == RowKind::eave);
    CHECK(rows.rows[2].kind == RowKind::eave);
    CHECK(rows.rows[4].kind == RowKind::top);
    CHECK(rows.widest_space == 24_in);
    // 200 in of row in lengths of 144 in over frames at 40, 120 and 160 in: spliced over the last inner one that is reached.
    FrameLines frames{.centres = {10_in, 40_in, 120_in, 160_in, 190_in},
                      .chord_width = 1.5_in,
                      .barge_width = no_length,
                      .wall_left = no_length,
                      .wall_right = 200_in,
                      .plane_left = no_length,
                      .plane_right = 200_in};
    std::vector<PurlinPiece> on_row_3;
    for (const PurlinPiece& piece : purlin_pieces(rows, frames, {.stock_length = 144_in})) {
        CHECK(rows.rows[piece.row].kind != RowKind::eave);
        if (piece.row == 3) {
            on_row_3.push_back(piece);
        }
    }
    // An odd row stops one frame short: 0 to 40, 40 to 160 and 160 to 200 in.
    REQUIRE(on_row_3.size() == 3);
    CHECK(on_row_3[0].length == 40_in);
    CHECK(on_row_3[1].length == 120_in);
    CHECK(on_row_3[2].length == 40_in);
    // Blocks at 155 in, between 120 and 190: rows there at 30.75, 48 and 71.25 in, with gaps of 15.75 and 21.75 in.
    frames.centres = {120_in, 190_in};
    const std::vector<BlockingPiece> blocks = blocking_pieces(rows, frames, {.bay = 0});
    REQUIRE(blocks.size() == 2);
    CHECK(blocks[0].below == 2);
    CHECK(blocks[0].length == 15.75_in);
    CHECK(blocks[1].below == 3);
    CHECK(blocks[1].length == 21.75_in);
}

TEST_CASE("rows beside an opening, equal spaces, and rows as found on a hip end") {
    PurlinPlane plane = any_plane({{0_in, 0_in}, {96_in, 0_in}, {96_in, 96_in}, {0_in, 96_in}});
    plane.openings = {{{24_in, 40_in}, {48_in, 40_in}, {48_in, 60_in}, {24_in, 60_in}}};
    const PurlinRows rows = purlin_rows(plane, Fixed{24_in}, on_edge);
    check_run(rows.rows[2], 48_in, {{0_in, 24_in}, {48_in, 96_in}});
    check_run(rows.rows[1], 24_in, {{0_in, 96_in}});
    const PurlinPlane hip = any_plane({{0_in, 0_in}, {120_in, 0_in}, {60_in, 60_in}});
    const PurlinRows equal = purlin_rows(hip, AtMost{20_in}, on_edge);
    CHECK(equal.spacing <= 20_in);
    const PurlinRows found = purlin_rows(hip, AsFound{{20_in, 41_in}}, on_edge);
    REQUIRE(found.rows.size() == 3);
    check_run(found.rows[1], 20_in, {{20_in, 100_in}});
    check_run(found.rows[2], 41_in, {{41_in, 79_in}});
}

TEST_CASE("outlines that rows are refused on") {
    const auto refused = [](const PurlinPlane& plane) {
        return refusal_of([&] { (void)purlin_rows(plane, Fixed{24_in}, on_edge); }).path;
    };
    PurlinPlane slanted_ridge = any_plane({{0_in, 0_in}, {90_in, 0_in}, {90_in, 90_in}, {40_in, 80_in}, {0_in, 80_in}});
    slanted_ridge.edges[2] = EdgeKind::ridge;
    CHECK(refused(slanted_ridge) == "plane.outline[2]");
    CHECK(refused(any_plane({{0_in, 0_in}, {90_in, 0_in}, {0_in, 90_in}, {90_in, 90_in}, {40_in, 99_in}})) ==
          "plane.outline");
    CHECK(refused(any_plane({{0_in, 0_in}, {1_in, 0_in}})) == "plane.outline");
    PurlinPlane kinds = any_plane({{0_in, 0_in}, {120_in, 0_in}, {60_in, 60_in}});
    kinds.edges.pop_back();
    CHECK(refused(kinds) == "plane.edges");
    kinds =
        any_plane({{0_in, 0_in}, {120_in, 0_in}, {60_in, 60_in}}, {{{200_in, 0_in}, {220_in, 0_in}, {220_in, 20_in}}});
    CHECK(refused(kinds) == "plane.openings");
}
