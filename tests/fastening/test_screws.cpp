// SPDX-License-Identifier: BSL-1.0

// Screws in ribbed steel: by hand, where no purlin shows, and on random layouts counted a second time.

#include <eavewright/fastening/screw_lines.hpp>
#include <eavewright/fastening/screws.hpp>
#include <eavewright/framing/deck_supports.hpp>
#include <eavewright/tiling/lay_panels.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "tiling/random_panels.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numeric>
#include <optional>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const Length demo_up = 234_in * (std::sqrt(10.0) / 3.0);  // 246.6577 in
/// Fascia, rows at 24, 48 ... 240 in, and a ridge row whose upper side stays `setback` below the ridge.
PurlinRows demo_rows(Length setback) {
    return purlin_rows(plane_of(62_ft, demo_up), Fixed{24_in},
                       {.stock = {.lie = PurlinLie::on_edge}, .ridge_setback = setback});
}
Panels demo_panels(const PanelPlan& plan = {.ridge_hold_back = 1_in}) {
    return lay_panels(plane_of(62_ft, demo_up), demo_rows(2_in), plan);
}
std::int64_t sum(const std::vector<std::int64_t>& numbers) {
    return std::accumulate(numbers.begin(), numbers.end(), std::int64_t{0});
}
/// 144 in of eave with one row between fascia and ridge, as found at 0, 72 and 144 in along.
struct Found {
    PurlinRows rows;
    Panels panels;
};
Found found(std::vector<Length> centres) {
    const PurlinPlane plane = plane_of(144_in, 48_in);
    const PurlinRows rows = purlin_rows(plane, AsFound{{std::move(centres), 44_in}, {0_in, 72_in, 144_in}},
                                        {.stock = {.lie = PurlinLie::on_edge}});
    return {rows, lay_panels(plane, rows, {.ridge_hold_back = 1_in, .pack_drift = 0_in})};
}
}  // namespace

TEST_CASE("screws of the 62 ft plane by row") {
    const Panels panels = demo_panels();
    const ScrewCount count = count_screws(panels, demo_rows(2_in));
    // A full panel of 36 in has ribs at 0, 9, 18 and 27; the last one, 24 in, at 0, 9 and 18.
    CHECK(rib_places(panels, 0) == std::vector<Length>{0_in, 9_in, 18_in, 27_in});
    CHECK(rib_places(panels, 20) == std::vector<Length>{720_in, 729_in, 738_in});
    // Field: 20 x 4 + 3, and one at the closing edge: 84. Eave and ridge: 20 x 8 + 6 + 1 = 167.
    REQUIRE(count.by_row.size() == 12);
    CHECK(count.by_row.front() == 167);
    CHECK(count.by_row.back() == 167);
    for (std::size_t row = 1; row < 11; ++row) {
        CHECK(count.by_row[row] == 84);
    }
    CHECK(count.in_rows == 1174);        // 2 x 167 + 10 x 84
    CHECK(count.by_piece[0] == 56);      // 2 x 8 + 10 x 4
    CHECK(count.by_piece[20] == 54);     // 2 x 7 + 10 x 4
    CHECK(sum(count.by_piece) == 1174);  // 20 x 56 + 54
    // Side laps of 247 in: 245 between the outer two, 11 spaces of 22.27, so 12; 20 laps.
    CHECK(count.by_side_lap == std::vector<std::int64_t>(20, 12));
    CHECK(count.stitch == 240);
    CHECK(count.total == 1414);
    CHECK(count.findings.empty());
    CHECK(count.unverified);
}

TEST_CASE("other patterns") {
    const Panels panels = demo_panels();
    const PurlinRows rows = demo_rows(2_in);
    CHECK(count_screws(panels, rows, {.stitch = std::nullopt}).total == 1174);
    CHECK(count_screws(panels, rows, {.stitch = 36_in}).stitch == 160);  // 245 / 36: 7 spaces, 8 screws
    const ScrewCount plain =
        count_screws(panels, rows, {.eave = 1, .ridge = 1, .closing_edge = 0, .unverified = false});
    CHECK(plain.by_row == std::vector<std::int64_t>(12, 83));
    CHECK_FALSE(plain.unverified);
}

TEST_CASE("balanced rips keep their ribs on one grid") {
    const Panels panels = demo_panels({.ridge_hold_back = 1_in, .rips = RipPlace::balanced});
    // The first panel is cut at the rake, 6 in off its first lap: ribs at 3, 12 and 21; the last has 30 in from its lap on.
    CHECK(rib_places(panels, 0) == std::vector<Length>{3_in, 12_in, 21_in});
    CHECK(rib_places(panels, 1) == std::vector<Length>{30_in, 39_in, 48_in, 57_in});
    CHECK(rib_places(panels, 20) == std::vector<Length>{714_in, 723_in, 732_in, 741_in});
    // A closing edge at each rake: 3 + 1 + 19 x 4 + 4 + 1.
    CHECK(count_screws(panels, demo_rows(2_in)).by_row[5] == 85);
}

TEST_CASE("end laps are doubled, and counted with the piece on top") {
    PanelPlan plan{.ridge_hold_back = 1_in};
    plan.longest = 12_ft;
    const Panels panels = demo_panels(plan);
    const ScrewCount count = count_screws(panels, demo_rows(2_in));
    // Lapped over the row at 120, the sixth. Lower piece: eave 8, rows at 24 to 96 4 each: 24. Upper: 8 + 5 x 4 + 8 = 36.
    CHECK(count.by_row[5] == 167);
    CHECK(count.by_row[4] == 84);
    CHECK(count.by_piece[0] == 24);
    CHECK(count.by_piece[1] == 36);
    CHECK(count.in_rows == 1174 + 83);  // one more for each of the 83 ribs
}

TEST_CASE("a ridge row that the steel stops short of") {
    const PurlinRows rows = demo_rows(0_in);
    const Panels panels = lay_panels(plane_of(62_ft, demo_up), rows, {.ridge_hold_back = 1_in});
    const ScrewCount count = count_screws(panels, rows);
    // Row at 246.6577 - 0.75 = 245.9077; the steel ends at 245.6577, its screws 1 in lower: 1.25 off, 0.5 past the purlin.
    CHECK(count.by_row[11] == 0);
    CHECK(count.by_row[10] == 167);  // doubled in its place
    REQUIRE(count.findings.size() == 1);
    CHECK(count.findings[0].code == ScrewFindingCode::row_past_panel);
    CHECK(count.findings[0].row == 11);
    CHECK(off_by(count.findings[0].measured, -0.5_in) < 1e-9);
    CHECK(screw_lines(panels, rows).lines.size() == 11);
    CHECK(screw_lines(panels, rows).findings.size() == 1);
    // With 1/4 in to the panel's end the screws stand 0.5 off the centre: 1/4 in to the purlin's side, just enough.
    const ScrewPattern nearer{.end_distance = 0.25_in};
    CHECK(count_screws(panels, rows, nearer).by_row[11] == 167);
    const ScrewLines lines = screw_lines(panels, rows, nearer);
    REQUIRE(lines.lines.size() == 12);
    // 245.4077 is marked at 245 7/16 = 245.4375: margin 0.75 - 0.4702 = 0.2798.
    CHECK(lines.lines[11].left_mark == 245.4375_in);
    CHECK(off_by(lines.lines[11].least_margin, 0.279843_in) < 1e-6);
    CHECK(lines.findings.empty());
}

TEST_CASE("lines to snap, and the same from the panel's lower end") {
    const Panels panels = demo_panels();
    const PurlinRows rows = demo_rows(2_in);
    const ScrewLines lines = screw_lines(panels, rows);
    REQUIRE(lines.lines.size() == 12);
    CHECK(lines.panel_edges.size() == 22);
    // The fascia is 1 1/2 in of slope: its middle at 3/4. The ridge row: 246.6577 - 2 - 0.75 = 243.9077, to 243 15/16.
    CHECK(lines.lines[0].left_mark == 0.75_in);
    CHECK(lines.lines[1].left_mark == 24_in);
    CHECK(lines.lines[11].right_mark == 243.9375_in);
    // Panels start 1.3423 below the fascia's face: 24 + 1.3423 = 25.3423, to 25 5/16; 240 + 1.3423 to 241 5/16.
    CHECK(lines.lines[1].left_on_panel == 25.3125_in);
    CHECK(lines.lines[10].right_on_panel == 241.3125_in);
    CHECK(lines.lines[1].least_margin == 0.75_in);                    // on the centre of 1 1/2 in
    CHECK(off_by(lines.lines[11].least_margin, 0.720157_in) < 1e-6);  // 0.75 - 0.0298
    CHECK(lines.findings.empty());
    const std::vector<DrillMark> drill = drill_marks(panels, rows);
    REQUIRE(drill.size() == 12);
    CHECK(off_by(drill[1].exact, 25.342343_in) < 1e-6);
    CHECK(drill[1].mark == 25.3125_in);
    CHECK(off_by(drill[1].least_margin, 0.720157_in) < 1e-6);  // 0.0298 off by the tick
    CHECK(drill[1].holds);
    CHECK(drill_marks(panels, rows, {}, 1).empty());  // no second pieces
}

TEST_CASE("stacks of lapped pieces are drilled apart") {
    PanelPlan plan{.ridge_hold_back = 1_in};
    plan.longest = 12_ft;
    const Panels panels = demo_panels(plan);
    const std::vector<DrillMark> lower = drill_marks(panels, demo_rows(2_in), {}, 0);
    const std::vector<DrillMark> upper = drill_marks(panels, demo_rows(2_in), {}, 1);
    // Lower: fascia to the lap at 120, from -1.5. Upper: the lap at 120 to the ridge row, from 115.6577.
    REQUIRE(lower.size() == 6);
    CHECK(lower[5].exact == 121.5_in);
    REQUIRE(upper.size() == 7);
    CHECK(upper[0].row == 5);
    CHECK(off_by(upper[0].exact, 4.342343_in) < 1e-6);
}

TEST_CASE("bent rows under a straight line") {
    // Purlins 1 1/2 in wide. Up 1 in in the middle: the line is 1 in off, 1/4 in past the purlin's side.
    const Found off = found({24_in, 25_in, 24_in});
    const ScrewLines lines = screw_lines(off.panels, off.rows);
    REQUIRE(lines.findings.size() == 1);
    CHECK(lines.findings[0].code == ScrewFindingCode::misses_purlin);
    CHECK(lines.findings[0].row == 1);
    CHECK(lines.findings[0].place == PlanePoint{72_in, 24_in});
    CHECK(lines.findings[0].measured == -0.25_in);
    // At 36 in along the row is half as far up: 0.75 - 0.5.
    CHECK(lines.lines[1].margins == std::vector<Length>{0.75_in, 0.25_in, -0.25_in, 0.25_in, 0.75_in});
    const Found close = found({24_in, 24.625_in, 24_in});
    REQUIRE(screw_lines(close.panels, close.rows).findings.size() == 1);
    CHECK(screw_lines(close.panels, close.rows).findings[0].code == ScrewFindingCode::narrow_margin);
    CHECK(screw_lines(close.panels, close.rows).findings[0].measured == 0.125_in);
    const Found fine = found({24_in, 24.5_in, 24_in});
    CHECK(screw_lines(fine.panels, fine.rows).findings.empty());
}

TEST_CASE("skew rows: a line follows them, a stack does not") {
    const Found skew = found({24_in, 24.5_in, 25_in});
    CHECK(screw_lines(skew.panels, skew.rows).findings.empty());
    CHECK(screw_lines(skew.panels, skew.rows).lines[1].right_mark == 25_in);
    // Drilled midway, 24 1/2 up, the holes are 1/2 in off at the rakes: 1/4 in of margin is left, just enough.
    const std::vector<DrillMark> holds = drill_marks(skew.panels, skew.rows);
    CHECK(holds[1].exact == 24.5_in - skew.panels.pieces[0].low);
    CHECK(holds[1].holds);
    const Found more = found({24_in, 24.625_in, 25.25_in});
    CHECK_FALSE(drill_marks(more.panels, more.rows)[1].holds);
    CHECK(screw_lines(more.panels, more.rows).findings.empty());
}

TEST_CASE("purlins under a deck") {
    const PurlinRows rows = demo_rows(2_in);
    // 1/2 in of deck at 4 in 12: square down from the deck, a purlin lies 1/2 x 4/12 = 1/6 in lower on the deck's tape.
    const Supports<Surface::deck_top> plumb = supports_under_deck(rows, 0.5_in, Pitch::in_12(4), TailCut::plumb);
    CHECK(off_by(plumb.lines[1].centreline[0].up, 24_in - one_inch / 6.0) < 1e-12);
    CHECK(supports_under_deck(rows, 0.5_in, Pitch::in_12(4), TailCut::square).lines[1].centreline[0].up == 24_in);
    const DeckPlane deck = plane_of<Surface::deck_top>(62_ft, demo_up);
    const Panels panels = lay_panels(deck, plumb, {.ridge_hold_back = 1_in});
    CHECK(count_screws(panels, plumb).total == 1414);
    CHECK(screw_lines(panels, plumb).lines[1].left_mark == 23.8125_in);  // 23.8333
    CHECK(refusal_of([&] { (void)supports_under_deck(rows, -1_in, Pitch::in_12(4), TailCut::plumb); }).path == "deck");
}

TEST_CASE("screws that are refused") {
    const Panels panels = demo_panels();
    const PurlinRows rows = demo_rows(2_in);
    CHECK(refusal_of([&] { (void)count_screws(panels, rows, {.field = -1}); }).path == "screws.field");
    CHECK(refusal_of([&] { (void)count_screws(panels, rows, {.closing_edge = 21}); }).path == "screws.closing_edge");
    CHECK(refusal_of([&] { (void)count_screws(panels, rows, {.stitch = 0_in}); }).path == "screws.stitch");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)screw_lines(panels, rows, {.end_distance = none}); }).path ==
              "screws.end_distance");
    }
    Supports<Surface::purlin_top> chords = supports_of(rows);
    chords.run = SupportRun::up_slope;
    CHECK(refusal_of([&] { (void)count_screws(panels, chords); }).path != "no fault");
    CHECK(refusal_of([&] { (void)rib_places(panels, 21); }).path == "lane");
    const std::string json = write_json(count_screws(panels, rows), LengthUnit::inches);
    CHECK(json.find("\"total\": 1414") != std::string::npos);
}

TEST_CASE("screws of random layouts, counted row by row and rib by rib") {
    SeededNumbers random{4101};
    for (int i = 0; i < sweep(2000); ++i) {
        CAPTURE(i);
        const PanelCase c = random_panel_case(random);
        ScrewPattern pattern;
        pattern.field = random.whole(1, 3);
        pattern.eave = random.whole(1, 4);
        pattern.ridge = random.whole(1, 4);
        pattern.end_lap = random.whole(1, 4);
        pattern.closing_edge = random.whole(0, 2);
        pattern.end_distance = random.inches_between(0, 2);
        const ScrewCount count = count_screws(c.panels, c.rows, pattern);
        CHECK(sum(count.by_row) == count.in_rows);
        CHECK(sum(count.by_piece) == count.in_rows);
        CHECK(sum(count.by_side_lap) == count.stitch);
        CHECK(count.by_side_lap.size() + 1 == static_cast<std::size_t>(c.panels.lanes));
        CHECK(count.total == count.in_rows + count.stitch);
        std::int64_t expected = 0;
        for (std::int32_t lane = 0; lane < c.panels.lanes; ++lane) {
            std::vector<PanelPiece> pieces;
            for (const PanelPiece& piece : c.panels.pieces) {
                if (piece.lane == lane) {
                    pieces.push_back(piece);
                }
            }
            REQUIRE(!pieces.empty());
            const double left = inches(pieces.front().outline[0].along);
            const double right = inches(pieces.front().outline[1].along);
            const double bottom = inches(pieces.front().outline[0].up);
            const double top = (inches(pieces.back().outline[2].up) + inches(pieces.back().outline[3].up)) / 2.0;
            // Ribs stand on one grid from the first full lap: spacing from the first panel's far edge.
            const double spacing = inches(c.plan.panel.cover) / static_cast<double>(rib_spaces(c.plan.panel));
            const double from = c.panels.lanes > 1 ? inches(c.panels.marks[0].exact) : 0.0;
            const double edge = inches(lane > 0 ? c.panels.marks[static_cast<std::size_t>(lane - 1)].exact : no_length);
            std::int64_t ribs = 0;
            for (double k = -50.0; k < 5000.0; k += 1.0) {
                const double at = from + k * spacing - edge;
                ribs += at > -1e-5 && at < right - left - 1e-5 ? 1 : 0;
            }
            std::vector<std::size_t> reached;
            for (std::size_t row = 0; row < c.rows.rows.size(); ++row) {
                const double centre = inches(up_at(c.rows.rows[row].centreline, one_inch * ((left + right) / 2.0)));
                const double ends = inches(pattern.end_distance);
                const double screw = std::fmax(bottom + ends, std::fmin(top - ends, centre));
                if (std::fabs(screw - centre) < inches(c.rows.rows[row].width) / 2.0) {
                    reached.push_back(row);
                }
            }
            for (const std::size_t row : reached) {
                int per_rib = pattern.field;
                for (const PanelEndLap& lap : c.panels.end_laps) {
                    if (lap.support == row && c.panels.pieces[lap.upper].lane == lane) {
                        per_rib = pattern.end_lap;
                    }
                }
                per_rib = row == reached.front() ? std::max(per_rib, pattern.eave) : per_rib;
                per_rib = row == reached.back() ? std::max(per_rib, pattern.ridge) : per_rib;
                expected += ribs * per_rib + (lane + 1 == c.panels.lanes ? pattern.closing_edge : 0) +
                            (lane == 0 && c.panels.lanes > 1 && pieces.front().ripped ? pattern.closing_edge : 0);
            }
        }
        CHECK(count.in_rows == expected);
        for (const ScrewLine& line : screw_lines(c.panels, c.rows, pattern).lines) {
            CHECK(off_by(line.left_mark, line.left) <= inches(pattern.tick.step()) / 2.0 + 1e-9);
            CHECK(line.margins.size() == static_cast<std::size_t>(c.panels.lanes) + 1);
        }
    }
}
