// SPDX-License-Identifier: BSL-1.0

// The workshop's steel worked by hand, the arithmetic beside each figure. Sizes and weights are the demo's own invention,
// the screw pattern is the library's generic one.

#include <eavewright/units/length.hpp>
#include <eavewright/whole_roof/whole_roof.hpp>

#include "../support/compiled.hpp"
#include "support/printing.hpp"
#include "whole_roof/workshop.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("workshop steel: 20 2/3 panels from the lee gable") {
    const RoofResult roof = compiled::whole_roof(workshop());
    const Panels& front = roof.slopes[0].steel->panels;
    const Panels& back = roof.slopes[1].steel->panels;
    CHECK(roof.slopes[0].steel->surface == Surface::deck_top);
    // Wind from 260, the ridge runs towards 90: the wind comes over the low gable (260 - 90 = 170, its cosine below 0).
    // Panels lap over the one before, so they start at the high gable: at the right of the front, at the left of the back.
    CHECK(front.start == StartCorner::eave_right);
    CHECK(back.start == StartCorner::eave_left);
    // 62 ft = 744 in; 744 / 36 = 20 2/3: 21 panels; 20 x 36 = 720, the last covers 24.
    CHECK(std::fabs(front.exact_panels - 62.0 / 3.0) < 1e-12);
    CHECK(front.lanes == 21);
    CHECK(front.pieces.size() == 21);
    CHECK(off_by(front.last_cover, 24_in) < 1e-9);
    // Upper ends 1 in below the ridge at 246.6577: 245.6577. With the aimed 1 1/2 in, 247.1577; in whole inches 247, which
    // hangs over by 247 - 245.6577 = 1.3423: between 1 and 2.
    for (const PanelPiece& piece : front.pieces) {
        CHECK(piece.order_length == 247_in);
        CHECK_FALSE(piece.cut);
    }
    CHECK(off_by(front.overhang, 1.342343_in) < 1e-6);
    CHECK(front.findings.empty());
    CHECK(back.pieces.size() == 21);
    CHECK(roof.panels == 42);
}

TEST_CASE("workshop steel: screws row by row") {
    const RoofResult roof = compiled::whole_roof(workshop());
    const SteelResult& steel = *roof.slopes[0].steel;
    // Ribs 9 in apart: 4 in each of 20 full covers, and at 0, 9 and 18 of the last 24: 83. With one at the closing edge 84
    // on each of the ten rows between; 2 x 83 + 1 = 167 at the eave and at the ridge: 10 x 84 + 2 x 167 = 1174.
    REQUIRE(steel.screws.by_row.size() == 12);
    CHECK(steel.screws.by_row.front() == 167);
    CHECK(steel.screws.by_row.back() == 167);
    for (std::size_t row = 1; row < 11; ++row) {
        CHECK(steel.screws.by_row[row] == 84);
    }
    CHECK(steel.screws.in_rows == 1174);
    // A side lap is 247 in long; between 1 in from its ends 245; 245 / 24 = 10.2: 11 spaces, 12 screws; 20 laps: 240.
    CHECK(steel.screws.stitch == 240);
    CHECK(steel.screws.total == 1414);
    CHECK(roof.screws == 2828);
    CHECK(steel.screws.findings.empty());
}

TEST_CASE("workshop steel: lines to snap on the deck, and holes to drill through a stack") {
    const RoofResult roof = compiled::whole_roof(workshop());
    const SteelResult& steel = *roof.slopes[0].steel;
    // A screw goes in square: on 7/16 in of deck it starts 7/16 x 4/12 = 0.1458 in lower than the purlin's own mark. Row 1:
    // 24 - 0.1458 = 23.8542, to 1/16 23 7/8. From the panel's lower end 23.8542 + 1.3423 = 25.1965, to 1/16 25 3/16.
    REQUIRE(steel.lines.lines.size() == 12);
    CHECK(off_by(steel.lines.lines[1].left, 23.854167_in) < 1e-6);
    CHECK(steel.lines.lines[1].left_mark == 23.875_in);
    CHECK(steel.lines.lines[1].left_on_panel == 25.1875_in);
    CHECK(steel.drill_marks[1].mark == 25.1875_in);
    // The purlin is 1 1/2 in wide: 3/4 less the mark's rounding, 0.0208 on the line, 0.0090 in the holes.
    CHECK(off_by(steel.lines.lines[1].least_margin, 0.729167_in) < 1e-6);
    CHECK(off_by(steel.drill_marks[1].least_margin, 0.740990_in) < 1e-6);
    CHECK(steel.drill_marks[1].holds);
    // Ridge row: its centre 2 3/4 in below the ridge at 246.6577, less 0.1458: 243.7618.
    CHECK(off_by(steel.lines.lines[11].left, 243.761824_in) < 1e-6);
    CHECK(steel.lines.findings.empty());
}

TEST_CASE("workshop steel: trim, closures and sealant") {
    const RoofResult roof = compiled::whole_roof(workshop());
    const SteelResult& front = *roof.slopes[0].steel;
    const SteelResult& back = *roof.slopes[1].steel;
    // Pieces of 126 in lapped 4 reach 126, then 122 further each. Eave 744: 1 + 618 / 122 (5.07 -> 6) = 7 pieces, the last
    // 744 - 6 x 122 = 12 in. Rake 246.6577: 1 + 120.66 / 122 = 2, the last 124.6577. The ridge once, on the front: 7.
    REQUIRE(front.trim.size() == 4);
    CHECK(front.trim[0].kind == EdgeKind::eave);
    CHECK(front.trim[0].pieces == 7);
    CHECK(off_by(front.trim[0].last_piece, 12_in) < 1e-9);
    CHECK(front.trim[1].pieces == 2);
    CHECK(off_by(front.trim[1].last_piece, 124.657657_in) < 1e-6);
    CHECK(front.trim[3].kind == EdgeKind::ridge);
    CHECK(front.trim[3].pieces == 7);
    CHECK(back.trim.size() == 3);
    // Strips of 3 ft along 62 ft: 20 2/3, 21 at the eave and 21 at the ridge; two beads along each: 4 x 62 = 248 ft.
    REQUIRE(front.closures.has_value());
    CHECK(front.closures->eave_strips == 21);
    CHECK(front.closures->ridge_strips == 21);
    CHECK(off_by(front.closures->sealant, 248_ft) < 1e-9);
    CHECK(front.closures->end_lap_run == no_length);
    CHECK(off_by(front.closures->side_lap_run, 20.0 * 247_in) < 1e-6);
}

TEST_CASE("workshop steel: weights, lifts and wind") {
    const RoofResult roof = compiled::whole_roof(workshop());
    // Sheet: 4 x 8 ft = 32 sq ft at 1.4 lb = 44.8 lb: one person (60 lb, and 8 ft is under 3 m), one a lift. 46 of them.
    const CarriedPieces& sheet = roof.carried.front();
    CHECK(sheet.name == "sheet");
    CHECK(sheet.count == 46);
    CHECK(std::fabs(pounds(sheet.handling.each) - 44.8) < 1e-9);
    CHECK(sheet.handling.one_person);
    CHECK(sheet.handling.lifts == 46);
    // 30 lbf over 32 sq ft = 0.9375 psf; 0.00256 v^2 = 0.9375: v = 19.137 mph.
    CHECK(std::fabs(sheet.handling.wind_limit.mph() - 19.1366) < 5e-5);
    // Panel: 39 x 247 in = 66.8958 sq ft at 0.9 lb = 60.2063 lb, and 20'-7" long: two people. 40 of them, 2408.25 lb.
    const CarriedPieces& panel = roof.carried[roof.carried.size() - 2];
    CHECK(panel.name == "panel");
    CHECK(panel.count == 40);  // the two rips stand behind
    CHECK(std::fabs(pounds(panel.handling.each) - 60.20625) < 1e-9);
    CHECK_FALSE(panel.handling.one_person);
    CHECK(std::fabs(pounds(panel.handling.stack) - 2408.25) < 1e-9);
    CHECK(roof.carried.back().count == 2);
    CHECK(roof.carried.back().width == 24_in);  // it begins on the 3 in that the panel before leaves past 720
}

TEST_CASE("workshop steel: foam in board feet") {
    const RoofResult roof = compiled::whole_roof(workshop());
    // Two slopes of 62 x 19.5 x sqrt(10)/3 = 1274.3979 sq ft, 2 in thick: 2 x 2 x 1274.3979 = 5097.59 board feet. It stops
    // against the blocks of the end bays, bays 1 and 6.
    REQUIRE(roof.foam.has_value());
    CHECK(std::fabs(board_feet(roof.foam->volume) - 5097.5917) < 5e-4);
    CHECK(roof.slopes[0].blocks.size() == 22);
}

TEST_CASE("workshop steel: air instead of foam, and a slot that the layers close") {
    RoofDescription roof = workshop();
    roof.foam.reset();
    roof.air = AirPlan{.ratio = 300.0, .high_share = 0.5};
    roof.deck->ridge_hold_back = 1_in;
    // 36 x 60 ft / 300 = 7.2 sq ft, half of it high: 518.4 sq in over 720 in = 0.72 in, 0.36 a side, level; up the slope
    // 0.36 x 1.0540926 = 0.3795 in: deck and steel stay 1 in back.
    const RoofResult open = compiled::whole_roof(roof);
    CHECK(off_by(open.air->ridge_slot_a_side, 0.36_in) < 1e-9);
    // The deck ends 1 in lower: 246.6577 - 1 - 192.25 = 53.4077 in the columns A, C ...
    Length third = no_length;
    for (const SheetPiece& piece : open.slopes[0].sheets.pieces) {
        third = piece.lane == 0 && piece.place == 2 ? extent_of(piece.outline).high.up - extent_of(piece.outline).low.up
                                                    : third;
    }
    CHECK(off_by(third, 53.407657_in) < 1e-6);
    roof.deck->ridge_hold_back = 0.375_in;
    const Faults faults = compiled::check(roof);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].path == "deck.ridge_hold_back");
    CHECK(faults[0].code == FaultCode::contradiction);
    roof.deck->ridge_hold_back = 0.3796_in;
    CHECK(compiled::check(roof).empty());
}

TEST_CASE("workshop steel: straight on the purlins") {
    RoofDescription roof = workshop();
    roof.deck.reset();
    CHECK(compiled::check(roof).size() == 2);
    roof.underlayment.reset();
    CHECK(compiled::check(roof).front().path == "shape.build_up.deck");
    std::get<GableRoof>(roof.shape).build_up.deck = no_length;
    const RoofResult bare = compiled::whole_roof(roof);
    CHECK(bare.sheet_pieces == 0);
    CHECK(bare.nails == 0);
    CHECK(bare.slopes[0].steel->surface == Surface::purlin_top);
    CHECK(bare.slopes[0].steel->screws.total == 1414);          // the same rows, the same ribs
    CHECK(bare.slopes[0].steel->lines.lines[1].left == 24_in);  // on the purlin itself
    CHECK(bare.findings == 0);
    roof.steel.reset();
    CHECK(compiled::check(roof).front().code == FaultCode::missing_field);
}

TEST_CASE("workshop steel: ordered after the deck was measured") {
    RoofDescription roof = workshop();
    // Front deck as found: its right rake 1 in short of 246 5/8 in, the diagonals so that the eave's corners are square at
    // the left: up_right^2 = 744^2 + 245.625^2, up_left^2 = 744^2 + 246.625^2.
    const Length left = 246.625_in;
    const Length right = 245.625_in;
    const FourSides deck{.eave = 744_in,
                         .ridge = Length::from_inches(std::sqrt(744.0 * 744.0 + 1.0)),
                         .left = left,
                         .right = right,
                         .up_right = hypotenuse(744_in, right),
                         .up_left = hypotenuse(744_in, left)};
    roof.as_built = {SlopeAsBuilt{.rows = std::nullopt, .sides = std::nullopt, .deck = deck}, SlopeAsBuilt{}};
    const RoofResult measured = compiled::whole_roof(roof);
    const Panels& panels = measured.slopes[0].steel->panels;
    REQUIRE(measured.slopes[0].deck.has_value());
    // Eave and ridge differ by 1 in over 744: the first panel, at the right, is 245.625 to 245.6734 long, the last 246.5927
    // to 246.625. One overhang serves all: the longest, 246.625 - 1 + 1.5 = 247.125 -> 247, hangs over 1.375; the first
    // reaches 245.6734 - 1 + 1.375 = 246.0484 and is ordered 247 too, 246.0484 -> 247 being the next inch.
    CHECK(off_by(panels.overhang, 1.375_in) < 1e-6);
    CHECK(panels.pieces.front().order_length == 247_in);
    CHECK(panels.pieces.back().order_length == 247_in);
    CHECK(off_by(panels.pieces.front().right_length, 246_in) < 1e-6);  // 245.625 - 1 + 1.375
    CHECK(off_by(panels.pieces.back().left_length, 247_in) < 1e-6);    // 246.625 - 1 + 1.375
    CHECK(measured.slopes[1].steel->panels.overhang > 1.3_in);         // the back keeps its own
}
