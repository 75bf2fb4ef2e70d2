// SPDX-License-Identifier: BSL-1.0

// Nails across a stretch, in one sheet against a table, and on random layouts counted a second time.

#include <eavewright/fastening/nails.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/table.hpp"

#include "tiling/tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <numeric>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
constexpr SheetSize four_by_eight{48_in, 96_in};

/// Level supports with their centres at 0, `spacing`, ... up to and including `up`.
Supports<Surface::purlin_top> level_supports(Length along, Length up, Length spacing, Length width = 1.5_in) {
    Supports<Surface::purlin_top> supports{SupportRun::along_eave, {}, spacing};
    for (std::int64_t i = 0; i <= whole_steps(up, spacing); ++i) {
        const Length centre = spacing * static_cast<double>(i);
        supports.lines.push_back({{{0_in, centre}, {along, centre}}, width});
    }
    return supports;
}
std::int64_t sum(const std::vector<std::int64_t>& numbers) {
    return std::accumulate(numbers.begin(), numbers.end(), std::int64_t{0});
}
std::int64_t sum(const std::vector<PieceNails>& pieces) {
    std::int64_t total = 0;
    for (const PieceNails& piece : pieces) {
        total += piece.edge + piece.field;
    }
    return total;
}
}  // namespace

TEST_CASE("a 4 ft sheet takes 7, 8 and 9 nails a purlin at 8, 7 and 6 in") {
    // Common practice, with nails at the very edges as the trade counts, and 3/8 in from them.
    for (const Length edge : {0_in, 0.375_in}) {
        CHECK(nails_across(48_in, 8_in, edge) == 7);
        CHECK(nails_across(48_in, 7_in, edge) == 8);
        CHECK(nails_across(48_in, 6_in, edge) == 9);
    }
    CHECK(nails_across(1200_mm, 150_mm, no_length) == 9);
    CHECK(nails_across(1200_mm, 200_mm, no_length) == 7);
}

TEST_CASE("narrow stretches") {
    CHECK(nails_across(no_length, 6_in, 0.375_in) == 0);
    CHECK(nails_across(-1_in, 6_in, 0.375_in) == 0);
    CHECK(nails_across(0.5_in, 6_in, 0.375_in) == 1);
    CHECK(nails_across(0.75_in, 6_in, 0.375_in) == 1);
    CHECK(nails_across(1_in, 6_in, 0.375_in) == 2);
    CHECK(nails_across(6.75_in, 6_in, 0.375_in) == 2);
    CHECK(nails_across(6.8125_in, 6_in, 0.375_in) == 3);
}

TEST_CASE("equal spaces not above the pattern, and one nail fewer would be") {
    SeededNumbers random{60};
    for (int i = 0; i < sweep(20000); ++i) {
        const Length width = random.inches_between(0.1, 480);
        const Length spacing = random.inches_between(1, 24);
        const Length edge = random.inches_between(0, 1);
        const std::int64_t nails = nails_across(width, spacing, edge);
        const Length between = width - 2.0 * edge;
        REQUIRE(nails >= 1);
        if (nails == 1) {
            CHECK(between <= count_tolerance);
            continue;
        }
        CHECK(between / static_cast<double>(nails - 1) <= spacing + count_tolerance);
        CHECK((nails == 2 || between / static_cast<double>(nails - 2) > spacing));
    }
}

TEST_CASE("one full sheet, every row of the table") {
    // The table has supports under both ends and nails in the very edges.
    int rows = 0;
    for (const TableRow& row : read_table("sheet_nail_counts_4x8.csv")) {
        const auto number = [&](const char* column) { return std::stod(row.at(column)); };
        const Length spacing = one_inch * number("support_spacing_in");
        const auto supports = level_supports(48_in, 96_in, spacing);
        CHECK(static_cast<double>(supports.lines.size()) == number("supports_per_sheet"));
        const Sheets sheets =
            tile_sheets(plane_of(48_in, 96_in), supports, {.sheet = four_by_eight, .stagger_spaces = 0});
        REQUIRE(sheets.pieces.size() == 1);
        const NailPattern pattern{.edge = one_inch * number("edge_spacing_in"),
                                  .field = one_inch * number("field_spacing_in"),
                                  .edge_distance = no_length};
        const NailCount count = count_nails(sheets, supports, pattern);
        CHECK(static_cast<double>(count.total) == number("nails_per_sheet"));
        CHECK(static_cast<double>(count.by_row.front()) == number("nails_per_end_row"));
        CHECK(static_cast<double>(count.by_row.back()) == number("nails_per_end_row"));
        for (std::size_t r = 1; r + 1 < count.by_row.size(); ++r) {
            CHECK(static_cast<double>(count.by_row[r]) == number("nails_per_field_row"));
        }
        CHECK(static_cast<double>(count.by_piece[0].edge) == 2.0 * number("nails_per_end_row"));
        // The same sheet over chords: turned, not counted otherwise.
        Supports<Surface::chord_top> chords{SupportRun::up_slope, {}, spacing};
        for (const SupportLine& line : supports.lines) {
            const Length at = line.centreline[0].up;
            chords.lines.push_back({{{at, 0_in}, {at, 48_in}}, line.width});
        }
        const Sheets turned =
            tile_sheets(plane_of<Surface::chord_top>(96_in, 48_in), chords,
                        {.sheet = four_by_eight, .stagger_spaces = 0, .start = StartCorner::eave_right});
        CHECK(count_nails(turned, chords, pattern).by_row == count.by_row);
        ++rows;
    }
    CHECK(rows == 20);
}

TEST_CASE("at a joint both sheets are nailed to the support they share") {
    const auto supports = level_supports(48_in, 192_in, 24_in);
    const Sheets sheets = tile_sheets(plane_of(48_in, 192_in), supports, {.sheet = four_by_eight, .stagger_spaces = 0});
    const NailCount count = count_nails(sheets, supports, {.edge = 6_in, .field = 12_in});
    REQUIRE(sheets.pieces.size() == 2);
    CHECK(count.by_row == std::vector<std::int64_t>{9, 5, 5, 5, 18, 5, 5, 5, 9});
    CHECK(count.by_piece[0].edge == 18);
    CHECK(count.by_piece[0].field == 15);
}

TEST_CASE("an end that hangs past the outermost support gives it the edge spacing as far as the reach") {
    // Purlins 1 1/2 in wide at 0, 24, 48, 72 and 93 1/4: the upper side of the last at 94, the end of the sheet at 96.
    Supports<Surface::purlin_top> supports = level_supports(48_in, 96_in, 24_in);
    supports.lines.back().centreline = {{0_in, 93.25_in}, {48_in, 93.25_in}};
    const Sheets sheets = tile_sheets(plane_of(48_in, 96_in), supports, {.sheet = four_by_eight, .stagger_spaces = 0});
    const auto by_row = [&](Length reach) {
        return count_nails(sheets, supports, {.edge = 6_in, .field = 12_in, .end_reach = reach}).by_row;
    };
    CHECK(by_row(2_in) == std::vector<std::int64_t>{9, 5, 5, 5, 9});
    CHECK(by_row(1.9375_in) == std::vector<std::int64_t>{9, 5, 5, 5, 5});
}

TEST_CASE("a support that a sheet only touches takes no nails from it") {
    // The sheet ends at 95.25, where the purlin at 96 begins; the one at 120 begins past the plane's end.
    const auto supports = level_supports(48_in, 120_in, 24_in);
    const SheetPlan plan{.sheet = {48_in, 95.25_in}, .gap = no_length, .stagger_spaces = 0};
    const Sheets sheets = tile_sheets(plane_of(48_in, 119_in), supports, plan);
    const NailCount count = count_nails(sheets, supports, {.edge = 6_in, .field = 6_in, .edge_distance = no_length});
    CHECK(count.by_row == std::vector<std::int64_t>{9, 9, 9, 9, 9, 0});  // 96 is nailed by the upper sheet alone
}

TEST_CASE("what only rounding lays on a support is not nailed to it, and supports side by side both are") {
    Supports<Surface::purlin_top> supports = level_supports(48_in, 96_in, 24_in);
    supports.lines.back().centreline = {{0_in, 96_in - 1e-9_in}, {48_in, 96_in - 1e-9_in}};
    supports.lines.insert(supports.lines.begin() + 1, SupportLine{{{0_in, 1.5_in}, {48_in, 1.5_in}}, 1.5_in});
    const SheetPlan plan{.sheet = {48_in, 95.25_in}, .gap = no_length, .stagger_spaces = 0};
    const Sheets sheets = tile_sheets(plane_of(48_in, 95.25_in), supports, plan);
    const NailCount count = count_nails(sheets, supports, {.edge = 6_in, .field = 12_in, .edge_distance = no_length});
    CHECK(count.by_row == std::vector<std::int64_t>{9, 5, 5, 5, 5, 0});
}

TEST_CASE("slanted pieces have as many nails as their width at the support asks for") {
    // 48 in at the eave, 40 at 96 in up. At 24, 48, 72: 46, 44, 42 in; less 3/4 in for the edges,
    // at 5 in: 10, 9, 9 spaces.
    const auto plane = plane_with<Surface::purlin_top>({{0_in, 0_in}, {48_in, 0_in}, {40_in, 96_in}, {0_in, 96_in}});
    const auto supports = level_supports(48_in, 96_in, 24_in);
    const Sheets sheets = tile_sheets(plane, supports, {.sheet = four_by_eight, .stagger_spaces = 0});
    REQUIRE(sheets.pieces.size() == 1);
    CHECK(sheets.pieces[0].slanted);
    const NailCount count = count_nails(sheets, supports, {.edge = 4_in, .field = 5_in});
    // Ends: nailed 3/8 in inside, 47.97 and 40.03 in wide; 47.22 / 4 and 39.28 / 4 make 12 and 10 spaces.
    CHECK(count.by_row == std::vector<std::int64_t>{13, 11, 10, 10, 11});
    CHECK(count.by_piece[0].edge == 24);
    CHECK(count.by_piece[0].field == 31);
}

TEST_CASE("total, by row and by piece agree on random planes, and with a count of every support under every piece") {
    SeededNumbers random{61};
    for (int i = 0; i < sweep(600); ++i) {
        const double play = random.coin() ? 0.0 : 2.0;
        const SheetPlan plan = random_sheet_plan(random);
        const PurlinPlane plane = random_plane(random, random.between(90, 500), random.between(90, 320), play);
        const PurlinRows rows = random_rows(random, plane, plan);
        const Sheets sheets = tile_sheets(plane, rows, plan);
        const NailPattern pattern{.edge = random.inches_between(3, 8),
                                  .field = random.inches_between(6, 12),
                                  .edge_distance = random.coin() ? 0.375_in : random.inches_between(0, 0.7),
                                  .end_reach = random.coin() ? 3_in : random.inches_between(0, 8)};
        const NailCount count = count_nails(sheets, rows, pattern);
        CHECK(sum(count.by_row) == count.total);
        CHECK(sum(count.by_piece) == count.total);
        CHECK(count.by_row.size() == rows.rows.size());
        CHECK(count.by_piece.size() == sheets.pieces.size());
        // Again, each support against each piece: how much of it lies under, and whether at an end.
        for (std::size_t p = 0; p < sheets.pieces.size(); ++p) {
            const SheetPiece& piece = sheets.pieces[p];
            const Extent box = extent_of(piece.outline);
            const Area whole_box = (box.high.along - box.low.along) * (box.high.up - box.low.up);
            if (square_inches(signed_area(piece.outline)) < square_inches(whole_box) * (1.0 - 1e-12)) {
                continue;  // an edge leans, by less than a cut would show or by more
            }
            PieceNails expected{0, 0};
            Length lowest = box.high.up;  // faces of the outermost supports that are nailed
            Length highest = box.low.up;
            const auto lies_under = [&](const PurlinRow& row) {
                const Length centre = up_at(row.centreline, (box.low.along + box.high.along) / 2.0);
                return Span{longer(box.low.up, centre - row.width / 2.0),
                            shorter(box.high.up, centre + row.width / 2.0)};
            };
            for (const PurlinRow& row : rows.rows) {
                const Span under = lies_under(row);
                if (!(under.high - under.low < longer(pattern.edge_distance, 1e-4_in))) {
                    lowest = shorter(lowest, under.low);
                    highest = longer(highest, under.high);
                }
            }
            for (const PurlinRow& row : rows.rows) {
                const Length centre = up_at(row.centreline, (box.low.along + box.high.along) / 2.0);
                const Length low = longer(box.low.up, centre - row.width / 2.0);
                const Length high = shorter(box.high.up, centre + row.width / 2.0);
                if (high - low < longer(pattern.edge_distance, 1e-4_in)) {
                    continue;
                }
                const bool at_end = low == box.low.up || high == box.high.up ||
                                    (low == lowest && low - box.low.up <= pattern.end_reach) ||
                                    (high == highest && box.high.up - high <= pattern.end_reach);
                const Length between = box.high.along - box.low.along - 2.0 * pattern.edge_distance;
                const Length spacing = at_end ? pattern.edge : pattern.field;
                const double spaces = std::ceil((between - count_tolerance) / spacing);
                (at_end ? expected.edge : expected.field) +=
                    between > no_length ? static_cast<std::int64_t>(spaces) + 1 : 1;
            }
            CHECK(count.by_piece[p].edge == expected.edge);
            CHECK(count.by_piece[p].field == expected.field);
        }
    }
}

TEST_CASE("patterns and supports that are refused") {
    const auto supports = level_supports(48_in, 96_in, 24_in);
    const Sheets sheets = tile_sheets(plane_of(48_in, 96_in), supports, {.sheet = four_by_eight, .stagger_spaces = 0});
    const auto count = [&](const NailPattern& pattern) {
        return refusal_of([&] { (void)count_nails(sheets, supports, pattern); });
    };
    CHECK(count({.edge = 6_in, .field = 12_in}).path == "no fault");
    CHECK(count({.edge = no_length, .field = 12_in}).path == "nails.edge");
    CHECK(count({.edge = 6_in, .field = 0.5_in}).path == "nails.field");
    CHECK(count({.edge = 6_in, .field = 49_in}).path == "nails.field");
    CHECK(count({.edge = 6_in, .field = 6_in, .edge_distance = -0.1_in}).path == "nails.edge_distance");
    CHECK(count({.edge = 6_in, .field = 6_in, .end_reach = 25_in}).path == "nails.end_reach");
    for (const Length none : lengths_that_are_none()) {
        CHECK(count({.edge = none, .field = 12_in}).path == "nails.edge");
        CHECK(count({.edge = 6_in, .field = none}).path == "nails.field");
        CHECK(count({.edge = 6_in, .field = 6_in, .edge_distance = none}).path == "nails.edge_distance");
        CHECK(refusal_of([&] { (void)nails_across(none, 6_in, 0_in); }).path == "width");
        CHECK(refusal_of([&] { (void)nails_across(48_in, none, 0_in); }).path == "step");
        CHECK(refusal_of([&] { (void)nails_across(48_in, 6_in, none); }).path == "edge_distance");
    }
    CHECK(refusal_of([] { (void)nails_across(48_in, 0_in, 0_in); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)nails_across(48_in, 6_in, -1_in); }).path == "edge_distance");
    CHECK(refusal_of([] { (void)nails_across(9e6_in, 1_in, 0_in); }).code == FaultCode::too_much_work);
    Supports<Surface::chord_top> chords{SupportRun::up_slope, {{{{9_in, 0_in}, {9_in, 96_in}}, 1.5_in}}, 24_in};
    CHECK(refusal_of([&] { (void)count_nails(sheets, chords, {.edge = 6_in, .field = 6_in}); }).code ==
          FaultCode::contradiction);
}
