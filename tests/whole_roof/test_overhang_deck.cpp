// SPDX-License-Identifier: BSL-1.0

// The workshop with a deck at its overhangs alone, its stop board, and stacks on its slopes: what the walk makes of them.

#include "../support/compiled.hpp"
#include "workshop.hpp"

#include <eavewright/whole_roof.hpp>

#include "../support/printing.hpp"

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
[[nodiscard]] RoofDescription decked_at_overhangs() {
    RoofDescription roof = workshop();
    roof.deck->overhangs_only = OverhangDeck{.thickness = 0.4375_in};
    roof.underlayment.reset();
    std::get<GableRoof>(roof.shape).build_up.deck = no_length;
    return roof;
}
}  // namespace

TEST_CASE("overhang deck: purlins drop under it, steel lies on one surface") {
    const RoofResult roof = compiled::whole_roof(decked_at_overhangs());
    const SlopeResult& front = roof.slopes[0];
    REQUIRE(front.overhangs.has_value());
    // The wall stands 18 in level from the fascia's face: 18 x 1.0540926 = 18.9737 in up the slope. The first row at or
    // above it is row 1 at 24 in: fascia and row 1 drop by 7/16 in, the strip ends on row 1's upper side, 24.75 in.
    CHECK(front.overhangs->dropped_rows == std::vector<std::size_t>{0, 1});
    CHECK(front.overhangs->drop == 0.4375_in);
    CHECK(front.overhangs->rake_ends_drop);
    CHECK(front.overhangs->strips == std::vector<std::string>{"eave", "left rake", "right rake"});
    // Row 1 on the chord: 24 - 0.75 + 0.2522 = 23.5022 for a purlin that does not drop; 7/16 x 4/12 = 0.1458 lower 23.3564,
    // to 1/16 23 3/8. Row 2 does not drop: 47.5022, 47 1/2.
    CHECK(off_by(front.overhangs->marks_lower, 0.145833_in) < 1e-6);
    CHECK(front.marks[1].on_chord == 23.375_in);
    CHECK(front.marks[2].on_chord == 47.5_in);
    // Strips: 744 x 24.75; rakes from there to the ridge, 246.6577 - 24.75 = 221.9077, 12.75 in wide to the end frames'
    // centres: 18414 + 2 x 2829.32 = 24072.6 sq in, with gaps between sheets a little less is laid.
    CHECK(square_inches(front.sheets.laid) < 24072.65);
    CHECK(square_inches(front.sheets.laid) > 24072.65 * 0.98);
    CHECK(front.steel->surface == Surface::purlin_top);
    CHECK(front.steel->screws.total == 1414);
    CHECK(front.nails.total > 0);
    CHECK(front.nails.by_row.size() == front.supports.size());
    std::int64_t by_row = 0;
    std::int64_t by_piece = 0;
    for (const std::int64_t row : front.nails.by_row) {
        by_row += row;
    }
    for (const PieceNails& piece : front.nails.by_piece) {
        by_piece += piece.edge + piece.field;
    }
    CHECK(by_row == front.nails.total);
    CHECK(by_piece == front.nails.total);
    CHECK(front.nails.by_piece.size() == front.sheets.pieces.size());
    // Every strip begins a lane of its own, so that no two pieces have one name.
    const std::vector<PlacedPiece> pieces = placed_pieces(roof);
    CHECK(check(pieces).empty());
    CHECK(order_roof(decked_at_overhangs(), roof, SupplyPlan{}).sheets->sheets > 0);
}

TEST_CASE("overhang deck: the site sheet knows of no underlayment, and marks both rakes alike") {
    const RoofDescription roof = decked_at_overhangs();
    const SiteSheet sheet = site_sheet(roof, compiled::whole_roof(roof), 0);
    bool first_row = false;
    for (const SiteStep& step : sheet.steps) {
        CHECK(step.kind != SiteStepKind::underlayment);
        CHECK(step.title.find("underlayment") == std::string::npos);
        CHECK(step.reading.find("underlayment") == std::string::npos);
        first_row = first_row || step.kind == SiteStepKind::first_row;
        if (step.kind == SiteStepKind::purlin_marks) {
            CHECK(step.mark_columns.size() == 2);  // one chord and one centre: left and right read alike
            CHECK(step.marks.front().at.front() == 23.375_in);
        }
    }
    CHECK(first_row);
}

TEST_CASE("foam stops against blocks in both end bays, chosen or not") {
    RoofDescription roof = workshop();
    roof.purlins->blocked_bays = {3};
    CHECK(compiled::whole_roof(roof).slopes[0].blocks.size() == 3 * 11);
    roof.foam.reset();
    CHECK(compiled::whole_roof(roof).slopes[0].blocks.size() == 11);
    roof.foam = -1_in;
    CHECK(compiled::check(roof).front().path == "foam");
}

TEST_CASE("overhang deck: what contradicts it") {
    RoofDescription roof = decked_at_overhangs();
    CHECK(compiled::check(roof).empty());
    roof.underlayment = DryInPlan{.roll = {.length = 144_ft}};
    CHECK(compiled::check(roof).front().path == "underlayment");
    roof.underlayment.reset();
    std::get<GableRoof>(roof.shape).build_up.deck = 0.4375_in;
    CHECK(compiled::check(roof).front().path == "shape.build_up.deck");
    roof = decked_at_overhangs();
    roof.deck->overhangs_only->thickness = 0_in;
    CHECK(compiled::check(roof).front().path == "deck.overhangs_only.thickness");
}

TEST_CASE("stop board: along the eave, as proud as a sheet is thick") {
    RoofDescription roof = workshop();
    roof.deck->stop_board = 16_ft;
    const RoofResult laid = compiled::whole_roof(roof);
    const StopBoard& board = laid.slopes[0].stop_board.value();
    CHECK(board.from == PlanePoint{0_in, 0_in});
    CHECK(board.to == PlanePoint{744_in, 0_in});
    CHECK(board.proud == 0.4375_in);
    // A plumb fascia: the sheet's square-cut edge meets the board 7/16 in above the surface, 7/16 x sin = 0.4375 x 0.3162
    // = 0.1383 in out from the fascia's face.
    CHECK(off_by(board.off_fascia, 0.138350_in) < 1e-6);
    // Boards of 16 ft = 192 in join on frames 120 in apart: 12.75 to 132 is the first reach within 192, then 120 each.
    for (const StopBoardPiece& piece : board.pieces) {
        CHECK(piece.to - piece.from <= 192_in);
    }
    CHECK(board.pieces.front().from == 0_in);
    CHECK(board.pieces.back().to == 744_in);
    CHECK(board.findings.empty());
    const SiteSheet sheet = site_sheet(roof, laid, 0);
    bool shown = false;
    for (const SiteStep& step : sheet.steps) {
        for (const SiteFigure& figure : step.expected) {
            shown = shown || (figure.label == "stop board proud" && figure.length == board.proud);
        }
    }
    CHECK(shown);
    roof.deck->stop_board = 6_ft;  // shorter than from joint to joint
    CHECK(compiled::check(roof).front().path == "deck.stop_board");
}

TEST_CASE("stacks: full sheets within the load that a professional named") {
    RoofDescription roof = workshop();
    roof.handling->sheet_stack = StackPlan{.load_limit = pressure_from_psf(10.0), .lie = StackLie::along_eave};
    const RoofResult laid = compiled::whole_roof(roof);
    const Stacks& stacks = laid.slopes[0].sheet_stacks.value();
    // 1.4 psf on the slope is 1.4 x 1.0540926 = 1.4757 psf in plan: 10 / 1.4757 = 6.78, 6 sheets a stack. 23 full sheets:
    // four stacks of 6, 6, 6 and 5; none stays on the ground. 6 x 44.8 = 268.8 lb.
    CHECK(stacks.pieces_a_stack == 6);
    CHECK(stacks.stacks_needed == 4);
    CHECK(stacks.on_ground == 0);
    CHECK(std::fabs(pounds(stacks.places.front().mass) - 268.8) < 1e-9);
    roof.handling->sheet.reset();
    CHECK(compiled::check(roof).front().path == "handling.sheet_stack");
}
