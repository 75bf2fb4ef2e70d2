// SPDX-License-Identifier: BSL-1.0

// The demo, the tool library's workshop, worked by hand: every expected figure is arithmetic that can be followed here.
//
// 36 ft x 60 ft gable, 4 in 12, 18 in eaves to the fascia's outer face, 12 in rakes, frames at 10 ft, 2x6 purlins on edge
// at 24 in, 4 ft x 8 ft sheets with 1/8 in gaps, nails at 6 in and 12 in, 3/8 in from edges.

#include "../support/compiled.hpp"
#include "workshop.hpp"

#include <eavewright/units/write_tape.hpp>
#include <eavewright/whole_roof.hpp>

#include "../support/printing.hpp"

#include <cmath>
#include <cstddef>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
// 4 in 12: the slope factor is sqrt(4*4 + 12*12) / 12 = sqrt(160) / 12 = sqrt(10) / 3.
const double factor = std::sqrt(10.0) / 3.0;
// Run 36/2 = 18 ft; with the overhang 18 + 1.5 = 19.5 ft = 234 in.
const Length slope_length = 19.5_ft * factor;

[[nodiscard]] const SheetPiece& piece_called(const Sheets& sheets, const std::string& name) {
    for (const SheetPiece& piece : sheets.pieces) {
        if (piece_name(piece) == name) {
            return piece;
        }
    }
    FAIL("no piece called " << name);
    return sheets.pieces.front();
}
[[nodiscard]] Length exact_length(const SheetPiece& piece) {
    const Extent extent = extent_of(piece.outline);
    return extent.high.up - extent.low.up;
}
[[nodiscard]] Length exact_width(const SheetPiece& piece) {
    const Extent extent = extent_of(piece.outline);
    return extent.high.along - extent.low.along;
}
}  // namespace

TEST_CASE("workshop: lengths") {
    const RoofResult roof = compiled::whole_roof(workshop());
    const SlopeResult& front = roof.slopes[0];
    CHECK(front.run == 18_ft);
    CHECK(front.total_run == 19.5_ft);
    CHECK(off_by(front.slope_length, slope_length) < 1e-12);
    CHECK(off_by(front.slope_length, 246.657657_in) < 1e-6);  // 234 x 1.0540926 = 246.6577
    CHECK(front.plane_length == 62_ft);                       // 60 + 2 x 1
    // The chord stops behind the 1 1/2 in fascia: (234 - 1.5) x sqrt(10)/3 = 245.0765; its tail (18 - 1.5) x 1.0540926 = 17.3925.
    CHECK(off_by(front.chord_length, 245.076519_in) < 1e-6);
    CHECK(off_by(front.tail_length, 17.392527_in) < 1e-6);
}

TEST_CASE("workshop: heights from the benchmark") {
    const RoofHeights heights = compiled::whole_roof(workshop()).heights;
    CHECK(heights.bearing == 144_in);
    CHECK(heights.chord_at_wall == 150_in);  // 144 + heel 6
    CHECK(heights.chord_at_eave == 144_in);  // 150 - 18 x 4/12
    CHECK(heights.chord_peak == 222_in);     // 144 + 234 x 4/12 = 144 + 78
    // 5 1/2 in purlins, plumb: 5.5 x 1.0540926 = 5.797509; with 7/16 in of sheet: 5.9375 x 1.0540926 = 6.258675.
    CHECK(off_by(heights.fascia_top, 149.797509_in) < 1e-6);
    CHECK(off_by(heights.purlin_peak, 227.797509_in) < 1e-6);
    CHECK(off_by(heights.deck_peak, 228.258675_in) < 1e-6);
}

TEST_CASE("workshop: areas and diagonals") {
    const RoofResult roof = compiled::whole_roof(workshop());
    // 62 x 19.5 x sqrt(10)/3 = 1209 x 1.05409255 = 1274.3979 sq ft a slope, 2548.7958 in all: 25.49 squares.
    CHECK(std::fabs(square_feet(roof.slopes[0].area) - 1274.3979) < 5e-5);
    CHECK(std::fabs(square_feet(roof.roof_area) - 2548.7958) < 5e-5);
    CHECK(std::fabs(squares(roof.roof_area) - 25.487958) < 5e-7);
    // Slope: 234^2 x 10/9 = 60840; 744^2 = 553536; the sum 614376, its root 783.8214 in = 65'-3 13/16".
    CHECK(off_by(roof.slopes[0].diagonal, Length::from_inches(std::sqrt(614376.0))) < 1e-9);
    CHECK(write_length(roof.slopes[0].diagonal, Tick::of_inch(16)) == "65'-3 13/16\"");
    // Footprint: 432^2 + 720^2 = 186624 + 518400 = 705024, its root 839.6571 in = 69'-11 11/16".
    CHECK(off_by(roof.footprint_diagonal, Length::from_inches(std::sqrt(705024.0))) < 1e-9);
    CHECK(write_length(roof.footprint_diagonal, Tick::of_inch(16)) == "69'-11 11/16\"");
}

TEST_CASE("workshop: purlin marks") {
    const SlopeResult front = compiled::whole_roof(workshop()).slopes[0];
    // Fascia, rows at 24 x 1 ... 24 x 10 = 240 in, and the ridge row: its upper side 2 in below the ridge, so that
    // screws reach it under steel that stays 1 in back, its centre 2 3/4 in.
    REQUIRE(front.marks.size() == 12);
    for (std::size_t row = 1; row <= 10; ++row) {
        CHECK(front.marks[row].mark == 24_in * static_cast<double>(row));
        // Purlin 1 1/2 in wide: its lower side 3/4 in below the centre. On the chord, square below, it lies 5 1/2 x 4/12 =
        // 1 5/6 in further up, and the tape starts behind the fascia, 1 1/2 x 1.0540926 = 1.5811 in short: + 0.2522.
        CHECK(front.marks[row].lower_edge == 24_in * static_cast<double>(row) - 0.75_in);
        CHECK(front.marks[row].on_chord ==
              24_in * static_cast<double>(row) - 0.5_in);  // -0.75 + 0.2522 = -0.4978, to 1/16
    }
    CHECK(off_by(front.marks[11].centre, slope_length - 2.75_in) < 1e-9);  // 246.6577 - 2.75 = 243.9077
    CHECK(front.marks[11].mark == 243.9375_in);                            // 243 15/16
    CHECK_FALSE(front.marks[0].on_chord.has_value());
}

TEST_CASE("workshop: purlin pieces and blocks") {
    const SlopeResult front = compiled::whole_roof(workshop()).slopes[0];
    // Frames: 12 + 0.75 = 12.75 (side flush with the wall), 132, 252, 372, 492, 612, 732 - 0.75 = 731.25 in from the rake.
    CHECK(front.frames.centres == std::vector<Length>{12.75_in, 132_in, 252_in, 372_in, 492_in, 612_in, 731.25_in});
    // 24 ft = 288 in of stock. Even rows: 252, then 240, then 744 - 492 = 252. Odd rows hold back to 132: 132, 240, 240, 132.
    std::vector<Length> even;
    std::vector<Length> odd;
    for (const PurlinPiece& piece : front.purlin_pieces) {
        if (piece.row == 2) {
            even.push_back(piece.length);
        }
        if (piece.row == 1) {
            odd.push_back(piece.length);
        }
    }
    CHECK(even == std::vector<Length>{252_in, 240_in, 252_in});
    CHECK(odd == std::vector<Length>{132_in, 240_in, 240_in, 132_in});
    // Blocks: the plumb fascia takes 1.5 x 1.0540926 = 1.5811 of the slope: 24 - 0.75 - 1.5811 = 21.6689, down to 21 5/8; row to row 24 - 1.5 = 22.5; last
    // 243.9077 - 240 - 1.5 = 2.4077, rounded down to 2 3/8.
    REQUIRE(front.blocks.size() == 22);  // 11 gaps in each of two end bays
    CHECK(front.blocks[0].length == 21.625_in);
    CHECK(front.blocks[1].length == 22.5_in);
    CHECK(front.blocks[10].length == 2.375_in);
}

TEST_CASE("workshop: columns and courses with joints one space off") {
    const Sheets sheets = compiled::whole_roof(workshop()).slopes[0].sheets;
    // 15 columns of 48 in with 15 gaps: 15 x 48.125 = 721.875; the rip is 744 - 721.875 = 22.125 in.
    CHECK(sheets.lanes == 16);
    CHECK(off_by(exact_width(piece_called(sheets, "P1")), 22.125_in) < 1e-9);
    // Columns A, C, E ...: 96 + 1/8 + 96 + 1/8 = 192.25; left 246.6577 - 192.25 = 54.4077.
    CHECK(exact_length(piece_called(sheets, "A1")) == 96_in);
    CHECK(off_by(exact_length(piece_called(sheets, "A2")), 96_in) < 1e-12);
    CHECK(off_by(exact_length(piece_called(sheets, "A3")), 54.407657_in) < 1e-6);
    // Columns B, D ...: the starter 96 - 24 = 72; 72 + 1/8 + 96 + 1/8 = 168.25; left 246.6577 - 168.25 = 78.4077.
    CHECK(exact_length(piece_called(sheets, "B1")) == 72_in);
    CHECK(off_by(exact_length(piece_called(sheets, "B3")), 78.407657_in) < 1e-6);
    CHECK(sheets.findings.empty());
    CHECK(sheets.pieces.size() == 48);  // 16 x 3
    CHECK(sheets.whole_sheets == 23);   // 8 columns with two, 7 of B, D ... with one; the rip has none
    // Cut to 1/16: 54 7/16 and 78 7/16, each 0.0298 in over; 22 1/8 is on the tick.
    CHECK(piece_called(sheets, "A3").length == 54.4375_in);
    CHECK(piece_called(sheets, "B3").length == 78.4375_in);
    CHECK(off_by(sheets.closure.worst_lane, 0.029843_in) < 1e-6);
    CHECK(sheets.closure.across < 1e-9_in);
    // Joints: gaps at 96 .. 96.125 on the row at 96 (95.25 .. 96.75): 0.75 and 0.625 in of bearing; at 192.125 .. 192.25 on
    // the row at 192 (191.25 .. 192.75): 0.875 and 0.5 in.
    CHECK(off_by(sheets.joints[0].first_bearing, 0.75_in) < 1e-9);
    CHECK(off_by(sheets.joints[0].second_bearing, 0.625_in) < 1e-9);
    CHECK(off_by(sheets.joints[1].first_bearing, 0.875_in) < 1e-9);
    CHECK(off_by(sheets.joints[1].second_bearing, 0.5_in) < 1e-9);
}

TEST_CASE("workshop: half stagger leaves a strip") {
    RoofDescription roof = workshop();
    roof.deck->sheets.stagger_spaces = 2;
    const Sheets sheets = compiled::whole_roof(roof).slopes[0].sheets;
    // Starter 48; 48 + 1/8 + 96 + 1/8 + 96 + 1/8 = 240.375; left 246.6577 - 240.375 = 6.2827 in.
    CHECK(off_by(exact_length(piece_called(sheets, "B4")), 6.282657_in) < 1e-6);
    std::size_t strips = 0;
    for (const Finding& finding : sheets.findings) {
        strips += finding.code == FindingCode::sliver_length ? 1U : 0U;
    }
    CHECK(strips == 8);  // columns B, D ... P
}

TEST_CASE("workshop: nails") {
    const RoofResult roof = compiled::whole_roof(workshop());
    const NailCount& nails = roof.slopes[0].nails;
    // Across 48 in, between 3/8 in edge distances, 47.25 in: edge 47.25/6 = 7.9 -> 8 spaces, 9 nails; field 47.25/12 = 3.9 ->
    // 4 spaces, 5 nails. Across the rip, 21.375 in: 3.6 -> 5 nails; 1.8 -> 3 nails.
    // Column A: A1 on five lines 9+5+5+5+9, A2 the same, A3 on rows 192, 216, 240 and ridge 9+5+5+9: 33 + 33 + 28 = 94.
    // Column B: B1 on four lines 9+5+5+9, B2 and B3 on five: 28 + 33 + 33 = 94. Column P (like B): 16 + 19 + 19 = 54.
    CHECK(nails.by_piece[0].edge + nails.by_piece[0].field == 33);
    CHECK(nails.by_piece[2].edge + nails.by_piece[2].field == 28);
    CHECK(nails.total == 15 * 94 + 54);  // 1464
    CHECK(roof.nails == 2 * 1464);
    // The fascia and the ridge row take only edge nails: 15 x 9 + 5 = 140.
    CHECK(nails.by_row.front() == 140);
    CHECK(nails.by_row.back() == 140);
    // Row 1 only field nails: 15 x 5 + 3 = 78. Row 4 at 96 in carries the joints of 8 columns: 8 x (9 + 9) and 7 x 5 + 3 = 182.
    CHECK(nails.by_row[1] == 78);
    CHECK(nails.by_row[4] == 182);
}

TEST_CASE("workshop: both slopes alike") {
    const RoofResult roof = compiled::whole_roof(workshop());
    REQUIRE(roof.slopes.size() == 2);
    CHECK(roof.slopes[0].nails.total == roof.slopes[1].nails.total);
    CHECK(roof.sheet_pieces == 96);
    CHECK(roof.whole_sheets == 46);
    CHECK(roof.findings == 0);
}
