// SPDX-License-Identifier: BSL-1.0

// Screws in panels cut to hips and openings: by hand, and against those of four-sided planes.

#include <eavewright/fastening/cut_panel_screws.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "tiling/random_cut_planes.hpp"
#include "tiling/random_panels.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <cstdint>
#include <numeric>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const CutPanelPlan bare{.panels = {.ridge_hold_back = 0_in, .eave = {0_in, 0_in, 0_in}, .increment = one_inch / 64.0},
                        .hip_gap = 0_in,
                        .valley_gap = 0_in};
/// Level rows of 1 1/2 in at these heights.
Supports<Surface::purlin_top> rows_at(const PurlinPlane& plane, const std::vector<Length>& heights) {
    Supports<Surface::purlin_top> rows{SupportRun::along_eave, {}, 24_in};
    const Extent extent = extent_of(plane.outline);
    for (const Length up : heights) {
        rows.lines.push_back({{{extent.low.along, up}, {extent.high.along, up}}, 1.5_in, {}});
    }
    return rows;
}
std::int64_t sum_of(const std::vector<std::int64_t>& counts) {
    return std::accumulate(counts.begin(), counts.end(), std::int64_t{0});
}
}  // namespace

TEST_CASE("a right half of a hip end, two panels: rib by rib") {
    // 72 in of eave falling to nothing at the right: at `along` the steel reaches 72 - along up (a slope of 1). Ribs at 0, 9,
    // 18, 27 (panel 1) and 36, 45, 54, 63 (panel 2) reach 72, 63, 54, 45, 36, 27, 18, 9. Rows at 1, 25 and 49, 1 1/2 wide.
    const PurlinPlane plane = cut_planes::plane({{0_in, 0_in}, {72_in, 0_in}, {0_in, 72_in}},
                                                {EdgeKind::eave, EdgeKind::hip, EdgeKind::rake});
    const Supports<Surface::purlin_top> rows = rows_at(plane, {1_in, 25_in, 49_in});
    const CutPanels panels = lay_cut_panels(plane, rows, bare);
    const ScrewCount count = count_screws(panels, rows);
    // Row 1: all eight ribs, 2 each at their lowest row: 16. Row 25: reached with 1 in of end distance by 72, 63, 54, 45, 36,
    // 27 (27 - 1 = 26): six; the topmost of 45, 36, 27 gets 2, the others 1: 3 + 6 = 9. Row 49: by 72, 63, 54 (53): their
    // topmost, 2 each: 6.
    CHECK(count.by_row == std::vector<std::int64_t>{16, 9, 6});
    CHECK(count.in_rows == 31);
    CHECK(sum_of(count.by_piece) == 31);
    // Panel 1: 4 x 2 + (1 + 1 + 1 + 2) + 6 = 19; panel 2: 4 x 2 + 2 + 2 = 12. The hip is no closing edge.
    CHECK(count.by_piece == std::vector<std::int64_t>{19, 12});
    // The side lap at 36 is 36 in long: 34 between end screws in spaces of at most 24: 3.
    CHECK(count.by_side_lap == std::vector<std::int64_t>{3});
    CHECK(count.total == 34);
    CHECK(count.findings.empty());
    // A row that runs from 0 to 30 only holds panel 1's four ribs; one above all steel is found.
    Supports<Surface::purlin_top> partly = rows_at(plane, {1_in, 25_in, 74_in});
    partly.lines[1].stretches = {{0_in, 30_in}};
    const ScrewCount less = count_screws(panels, partly);
    CHECK(less.by_row == std::vector<std::int64_t>{16, 8, 0});  // row 25 is the topmost of all four: 2 each
    REQUIRE(less.findings.size() == 1);
    CHECK(less.findings[0].code == ScrewFindingCode::row_past_panel);
    CHECK(less.findings[0].row == 2);
    // At 0 the steel reaches 72, a screw 71: 74 less 71 is 3, half a row 0.75.
    CHECK(off_by(less.findings[0].measured, -2.25_in) < 1e-5);
}

TEST_CASE("a skylight: ribs below and above it, closing edges at its sides") {
    // One panel of 36 in and a neighbour; 12 to 24 along and 30 to 60 up is open. Ribs at 0, 9, 18, 27 and 36, 45, 54, 63.
    const PurlinPlane whole = cut_planes::plane({{0_in, 0_in}, {72_in, 0_in}, {72_in, 96_in}, {0_in, 96_in}},
                                                {EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
    const Supports<Surface::purlin_top> rows = rows_at(whole, {1_in, 24_in, 48_in, 72_in, 95_in});
    const PurlinPlane plane = add_opening(whole, OpeningOnSlope{{12_in, 30_in}, 12_in, 30_in}, 0_in);
    const ScrewCount count = count_screws(lay_cut_panels(plane, rows, bare), rows);
    // Rows at 1 and 95: 8 ribs x 2, and 1 at the far rake: 17 each. Row 24: the rib at 18 ends at 30, its topmost row, 2; seven
    // others 1; far rake 1: 10. Row 48: the rib at 18 is not there: 7; both sides of the opening 2; far rake 1: 10. Row 72: the
    // lowest row of the rib at 18 above the opening: 2 + 7 + 1 = 10.
    CHECK(count.by_row == std::vector<std::int64_t>{17, 10, 10, 10, 17});
    CHECK(sum_of(count.by_row) == count.in_rows);
    CHECK(sum_of(count.by_piece) == count.in_rows);
}

TEST_CASE("a skylight on a seam parts the stitch screws and leaves a closing edge") {
    // 24 to 48 along over the seam at 36, 30 to 60 up; of ribs 27, 36 and 45 nothing is left at 48.
    const PurlinPlane whole = cut_planes::plane({{0_in, 0_in}, {72_in, 0_in}, {72_in, 96_in}, {0_in, 96_in}},
                                                {EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
    const Supports<Surface::purlin_top> rows = rows_at(whole, {1_in, 48_in, 95_in});
    const PurlinPlane plane = add_opening(whole, OpeningOnSlope{{24_in, 30_in}, 24_in, 30_in}, 0_in);
    const ScrewCount count = count_screws(lay_cut_panels(plane, rows, bare), rows);
    // Row 48: ribs 0, 9, 18, 54, 63: 5; both sides of the opening 2; far rake 1: 8.
    CHECK(count.by_row[1] == 8);
    // Two side laps of 30 and 36 in: 28 and 34 in spaces of at most 24: 3 and 3.
    CHECK(count.by_side_lap == std::vector<std::int64_t>{6});
}

TEST_CASE("four-sided planes on level rows: the same screws as theirs") {
    SeededNumbers random{5301};
    for (int i = 0; i < sweep(600); ++i) {
        CAPTURE(i);
        const PurlinPlane plane = plane_of(random.inches_between(60, 400), random.inches_between(90, 300));
        const PanelPlan plan = random_panel_plan(random);
        const Supports<Surface::purlin_top> rows =
            rows_at(plane, {0.75_in, 24_in, 48_in, 72_in, plane.outline[2].up - random.inches_between(2, 12)});
        ScrewPattern pattern;
        pattern.closing_edge = random.whole(0, 2);
        pattern.field = random.whole(1, 2);
        Panels panels = [&] {
            try {
                return lay_panels(plane, rows, plan);
            } catch (const FaultError&) {
                PanelPlan longer_ones = plan;
                longer_ones.longest = 40_ft;  // too few rows to lap on
                return lay_panels(plane, rows, longer_ones);
            }
        }();
        const CutPanels cut = detail::cut_panels_of(panels, plan, EdgeKind::ridge);
        const ScrewCount theirs = count_screws(panels, rows, pattern);
        const ScrewCount ours = count_screws(cut, rows, pattern);
        CHECK(ours.by_row == theirs.by_row);
        CHECK(ours.by_piece == theirs.by_piece);
        CHECK(ours.by_side_lap == theirs.by_side_lap);
        CHECK(ours.total == theirs.total);
    }
}

TEST_CASE("random faces: sums agree, and no rib is without a screw that a row could hold") {
    SeededNumbers random{5302};
    for (int i = 0; i < sweep(300); ++i) {
        CAPTURE(i);
        for (const PurlinPlane& face : cut_planes::random_faces(random)) {
            const PurlinPlane plane = cut_planes::with_openings(face, random, 1);
            CutPanelPlan plan = cut_planes::bare_plan(random);
            plan.panels.longest = random.coin() ? 12_ft : 400_ft;
            const Supports<Surface::purlin_top> rows = cut_planes::level_supports(plane, 24_in);
            CutPanels panels = lay_cut_panels(plane, rows, plan);
            const ScrewCount count = count_screws(panels, rows);
            CHECK(sum_of(count.by_row) == count.in_rows);
            CHECK(sum_of(count.by_piece) == count.in_rows);
            CHECK(sum_of(count.by_side_lap) == count.stitch);
            CHECK(count.total == count.in_rows + count.stitch);
        }
    }
    const PurlinPlane plane = cut_planes::hip_end();
    const CutPanels panels = lay_cut_panels(plane, cut_planes::level_supports(plane, 24_in), bare);
    const Supports<Surface::purlin_top> chords{SupportRun::up_slope, {}, no_length};
    CHECK(refusal_of([&] { (void)count_screws(panels, chords); }).path == "supports.run");
    CHECK(refusal_of([&] {
              (void)count_screws(panels, cut_planes::level_supports(plane, 24_in), {.field = -1});
          }).path == "screws.field");
}
