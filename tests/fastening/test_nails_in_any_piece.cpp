// SPDX-License-Identifier: BSL-1.0

// Nails in pieces with notches and openings, counted by hand.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include "support/printing.hpp"
#include "tiling/any_planes.hpp"

#include <doctest/doctest.h>

#include <cstdint>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const NailPattern pattern{.edge = 6_in, .field = 12_in};
const SheetPlan one_sheet{.sheet = {48_in, 96_in}, .gap = 0_in, .stagger_spaces = 0};
}  // namespace

TEST_CASE("a sheet with a skylight inside it") {
    // Rows at 0.75, 24, 48, 72 and 95.25 in. Nails 3/8 in from both edges: 48 in takes 47.25 / 6 -> 8 + 1 = 9 at an end and
    // 47.25 / 12 -> 4 + 1 = 5 between: 9 + 5 + 5 + 5 + 9 = 33.
    PurlinPlane plane = any_plane({{0_in, 0_in}, {48_in, 0_in}, {48_in, 96_in}, {0_in, 96_in}});
    const auto count = [&] {
        const PurlinRows rows = purlin_rows(plane, Fixed{24_in}, {.stock = {.lie = PurlinLie::on_edge}});
        return count_nails(tile_sheets(plane, rows, one_sheet), rows, pattern);
    };
    CHECK(count().total == 33);
    // A skylight from 12 to 36 in along and 40 to 56 in up: the row at 48 in lies under two legs of 12 in each:
    // 11.25 / 12 -> 1 + 1 = 2 a leg. 33 - 5 + 4 = 32.
    plane.openings = {{{12_in, 40_in}, {36_in, 40_in}, {36_in, 56_in}, {12_in, 56_in}}};
    const NailCount beside = count();
    CHECK(beside.total == 32);
    CHECK(beside.by_row[2] == 4);
    // From 24.75 in up on, the upper face of the row at 24 in lies under the opening's lower edge: an end there, 9 nails.
    plane.openings = {{{12_in, 24.75_in}, {36_in, 24.75_in}, {36_in, 60_in}, {12_in, 60_in}}};
    CHECK(count().by_row[1] == 9);
}

TEST_CASE("a sheet on a hip") {
    // Half of a square hip end: 48 in wide and 48 in up, one piece, a triangle. Rows at 0.75 in, 47.25 in long there, and at
    // 24 in, 24 in long. The fascia's takes (47.25 - 0.75) / 6 = 7.75 -> 8 + 1 = 9 nails, the other, field, (24 - 0.75) / 12
    // -> 2 + 1 = 3: its end hangs 48 - 24.75 in past it.
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {48_in, 0_in}, {0_in, 48_in}});
    Supports<Surface::purlin_top> supports{
        SupportRun::along_eave,
        {{{{0_in, 0.75_in}, {48_in, 0.75_in}}, 1.5_in}, {{{0_in, 24_in}, {48_in, 24_in}}, 1.5_in}},
        24_in};
    const NailCount nails = count_nails(tile_sheets(plane, supports, one_sheet), supports, pattern);
    CHECK(nails.by_row == std::vector<std::int64_t>{9, 3});
}
