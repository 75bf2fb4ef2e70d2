// SPDX-License-Identifier: BSL-1.0

// The first row's stop board: worked by hand on the demo workshop, then over seeded boards.

#include <eavewright/framing/frames.hpp>
#include <eavewright/tiling/stop_board.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"
#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
// The workshop: 60 ft wall, 12 in rakes, frames at 10 ft; centres 12.75, 132, 252, 372, 492, 612, 731.25 in from the rake edge.
FrameLines workshop_frames() {
    return frame_lines({.spacing = EqualBays{6}}, {.length = 60_ft, .rake_overhang = 12_in}, SeenFrom::front);
}
// 7/16 in sheets, 16 ft boards.
const StopBoardPlan board_plan{.stock_length = 16_ft, .sheet_thickness = 0.4375_in};
// 4 in 12: rise / slope = 4 / sqrt(160) = 0.316228, run / slope = 12 / sqrt(160) = 0.948683.
const double rise_per_slope = 4.0 / std::sqrt(160.0);
const double run_per_slope = 12.0 / std::sqrt(160.0);
}  // namespace

TEST_CASE("stop board: where its face lies and how proud it stands") {
    StopBoardPlan plan = board_plan;
    plan.past_fascia = 0.5_in;
    const StopBoard board = stop_board(workshop_plane(), workshop_frames(), plan);
    CHECK(board.from == PlanePoint{0_in, -0.5_in});
    CHECK(board.to == PlanePoint{744_in, -0.5_in});
    CHECK(board.proud == 0.4375_in);  // flush with the sheet
    CHECK(board.least_proud == 0.21875_in);
    CHECK(board.most_proud == 0.4375_in);
    // Its corner lies 0.5 in down the slope and 0.4375 in out square to it. Level: 0.5 x 0.948683 + 0.4375 x 0.316228 =
    // 0.474342 + 0.138350 = 0.612691. Plumb: 0.4375 x 0.948683 - 0.5 x 0.316228 = 0.415049 - 0.158114 = 0.256935.
    CHECK(off_by(board.off_fascia, 0.612691_in) < 1e-6);
    CHECK(off_by(board.above_fascia_top, 0.256935_in) < 1e-6);
    plan.tail = TailCut::square;  // face, board and edge of the sheet are parallel
    const StopBoard square = stop_board(workshop_plane(), workshop_frames(), plan);
    CHECK(square.off_fascia == 0.5_in);
    CHECK(square.above_fascia_top == 0.4375_in);
}

TEST_CASE("stop board: a plumb fascia needs packing even for sheets flush with it") {
    // The sheet's square edge leans out over a plumb face by 0.4375 x 0.316228 = 0.138350 in at its top.
    const StopBoard board = stop_board(workshop_plane(), workshop_frames(), board_plan);
    CHECK(off_by(board.off_fascia, 0.13835_in) < 1e-6);
    StopBoardPlan half = board_plan;
    half.proud = 0.21875_in;
    CHECK(off_by(stop_board(workshop_plane(), workshop_frames(), half).off_fascia, 0.069175_in) < 1e-6);
}

TEST_CASE("stop board: boards meet on frames") {
    // 192 in of stock: from 0 to the frame at 132 (252 is too far), then 120 in at a time (240 is too far) to 612; from
    // there to the rake edge 744 - 612 = 132 in.
    const StopBoard board = stop_board(workshop_plane(), workshop_frames(), board_plan);
    const std::vector<Length> ends{0_in, 132_in, 252_in, 372_in, 492_in, 612_in, 744_in};
    REQUIRE(board.pieces.size() == 6);
    for (std::size_t i = 0; i < board.pieces.size(); ++i) {
        CHECK(off_by(board.pieces[i].from, ends[i]) < 1e-9);
        CHECK(off_by(board.pieces[i].to, ends[i + 1]) < 1e-9);
    }
    // 20 ft = 240 in reaches exactly two bays: 0, 132, 372, 612, 744.
    StopBoardPlan longer_stock = board_plan;
    longer_stock.stock_length = 20_ft;
    CHECK(stop_board(workshop_plane(), workshop_frames(), longer_stock).pieces.size() == 4);
    // Half of a 1 1/2 in chord bears each end: 3/4 in, enough for the 1/2 in asked, too little for 1 in.
    CHECK(board.findings.empty());
    StopBoardPlan wide = board_plan;
    wide.least_bearing = 1_in;
    const StopBoard narrow = stop_board(workshop_plane(), workshop_frames(), wide);
    REQUIRE(narrow.findings.size() == 5);
    CHECK(narrow.findings[0].code == StopBoardFindingCode::narrow_joint);
    CHECK(narrow.findings[0].along == 132_in);
    CHECK(narrow.findings[0].measured == 0.75_in);
}

TEST_CASE("stop board: screws by place and by board") {
    const StopBoard board = stop_board(workshop_plane(), workshop_frames(), board_plan);
    // Held at barges 0.75 and 743.25, at 7 frames, and between frames 119.25 or 120 in apart at two places more (three
    // spaces of 39.75 or 40 in, within 48): 2 + 7 + 6 x 2 = 21 places.
    REQUIRE(board.holds.size() == 21);
    CHECK(off_by(board.holds[2].along, 52.5_in) < 1e-9);  // 12.75 + 119.25 / 3
    CHECK_FALSE(board.holds[2].frame.has_value());
    REQUIRE(board.holds[4].frame.has_value());
    CHECK(*board.holds[4].frame == 1);
    // Two screws a place, four where two boards meet: 21 x 2 + 5 joints x 2 = 52.
    CHECK(board.screws == 52);
    CHECK(board.holds[4].screws == 4);
    // The first board: barge, frame 0, two between, frame 1: 5 x 2. The second: frame, two between, frame: 4 x 2.
    CHECK(board.pieces[0].screws == 10);
    CHECK(board.pieces[1].screws == 8);
    CHECK(stop_board_comes_off.find("before the eave trim") != std::string_view::npos);
    CHECK(stop_board_caution.find("no foothold") != std::string_view::npos);
}

TEST_CASE("stop board: packing where the fascia was read") {
    StopBoardPlan plan = board_plan;
    plan.past_fascia = 0.5_in;
    plan.tail = TailCut::square;
    plan.most_space = 10_ft;
    // Frame by frame the fascia stands out 0, 1/4, 1/2, 3/4, -1/4, 0, 0: packing 1/2 less that.
    const std::vector<Length> offsets{0_in, 0.25_in, 0.5_in, 0.75_in, -0.25_in, 0_in, 0_in};
    const StopBoard board = stop_board(workshop_plane(), workshop_frames(), plan, offsets);
    REQUIRE(board.holds.size() == 9);  // two barges, seven frames
    const std::vector<Length> packing{0.5_in, 0.5_in, 0.25_in, 0_in, -0.25_in, 0.75_in, 0.5_in, 0.5_in, 0.5_in};
    for (std::size_t i = 0; i < packing.size(); ++i) {
        CHECK(board.holds[i].packing == packing[i]);
        CHECK(board.holds[i].measured == (i > 0 && i < 8));
    }
    REQUIRE(board.findings.size() == 1);
    CHECK(board.findings[0].code == StopBoardFindingCode::fascia_past_line);
    CHECK(board.findings[0].along == 372_in);
    CHECK(board.findings[0].measured == -0.25_in);
}

TEST_CASE("stop board: over seeded boards its face is straight, its joints lie on frames, its screws add up") {
    SeededNumbers random{4711};
    for (int i = 0; i < sweep(2000); ++i) {
        const Length rake = random.coin() ? no_length : random.inches_between(4, 24);
        const Length wall = random.inches_between(120, 900);
        const FrameLines frames = frame_lines({.spacing = BaysAtMost{random.inches_between(24, 140)}},
                                              {.length = wall, .rake_overhang = rake}, SeenFrom::front);
        const PurlinPlane plane = plane_of(wall + 2.0 * rake, 200_in);
        StopBoardPlan plan{.stock_length = random.inches_between(180, 300),
                           .sheet_thickness = random.inches_between(0.3, 0.8)};
        plan.past_fascia = random.inches_between(0, 1);
        plan.proud = plan.sheet_thickness * random.between(0.5, 1.0);
        plan.tail = random.coin() ? TailCut::plumb : TailCut::square;
        plan.screws_a_hold = random.whole(1, 4);
        std::vector<Length> offsets;
        for (std::size_t f = 0; f < frames.centres.size(); ++f) {
            offsets.push_back(random.inches_between(-0.5, 0.5));
        }
        const StopBoard board = stop_board(plane, frames, plan, offsets);
        CAPTURE(i);
        // Fascia and packing together bring every place of the face to one line.
        for (const StopBoardHold& hold : board.holds) {
            if (hold.frame) {
                CHECK(off_by(offsets[*hold.frame] + hold.packing, board.off_fascia) < 1e-9);
            }
            CHECK((hold.screws == plan.screws_a_hold || hold.screws == 2 * plan.screws_a_hold));
        }
        // Seen in the building, the corner that stops a sheet lies where the sheet's lower edge is `proud` of its bed.
        const bool plumb = plan.tail == TailCut::plumb;
        const double out = inches(board.off_fascia);
        const double over = inches(board.above_fascia_top);
        const double down = plumb ? out * run_per_slope - over * rise_per_slope : out;
        const double above = plumb ? out * rise_per_slope + over * run_per_slope : over;
        CHECK(std::fabs(down - inches(plan.past_fascia)) < 1e-9);
        CHECK(std::fabs(above - inches(board.proud)) < 1e-9);
        std::int64_t screws = 0;
        Length reach = no_length;
        for (const StopBoardPiece& piece : board.pieces) {
            CHECK(piece.from == reach);
            CHECK(piece.to - piece.from <= plan.stock_length + count_tolerance);
            CHECK(piece.screws >= 2 * plan.screws_a_hold);
            const bool inner = piece.to < plane.outline[1].along;
            bool on_frame = false;
            for (const Length centre : frames.centres) {
                on_frame = on_frame || centre == piece.to;
            }
            CHECK((!inner || on_frame));
            screws += piece.screws;
            reach = piece.to;
        }
        CHECK(reach == plane.outline[1].along);
        CHECK(screws == board.screws);
        std::size_t out_past = 0;
        for (std::size_t h = 0; h < board.holds.size(); ++h) {
            out_past += board.holds[h].packing < -count_tolerance ? 1U : 0U;
            CHECK((h == 0 || board.holds[h].along - board.holds[h - 1].along <= plan.most_space + count_tolerance));
        }
        CHECK(out_past == board.findings.size());
    }
}

TEST_CASE("stop board: what is refused") {
    const auto refused = [](const StopBoardPlan& plan, const std::vector<Length>& offsets = {}) {
        return refusal_of([&] { (void)stop_board(workshop_plane(), workshop_frames(), plan, offsets); });
    };
    StopBoardPlan plan = board_plan;
    plan.proud = 0.5_in;  // above the sheet's top
    CHECK(refused(plan).path == "stop_board.proud");
    plan.proud = 0.2_in;  // below half of it
    CHECK(refused(plan).code == FaultCode::out_of_range);
    plan = board_plan;
    plan.stock_length = 8_ft;  // the first joint lies at 132 in
    CHECK(refused(plan).code == FaultCode::does_not_fit);
    CHECK(refused(plan).required.find("132 in") != std::string::npos);
    plan = board_plan;
    plan.board_width = 1.5_in;  // 0.415 in of it stands above the fascia
    CHECK(refused(plan).path == "stop_board.board_width");
    plan = board_plan;
    plan.past_fascia = -0.1_in;
    CHECK(refused(plan).path == "stop_board.past_fascia");
    plan = board_plan;
    plan.screws_a_hold = 0;
    CHECK(refused(plan).path == "stop_board.screws_a_hold");
    CHECK(refused(board_plan, {0_in}).code == FaultCode::contradiction);
    for (const Length none : lengths_that_are_none()) {
        plan = board_plan;
        plan.stock_length = none;
        CHECK(refused(plan).path == "stop_board.stock_length");
        plan = board_plan;
        plan.proud = none;
        CHECK(refused(plan).path == "stop_board.proud");
        CHECK(refused(board_plan, std::vector<Length>(7, none)).path == "fascia_offsets[0]");
    }
    FrameLines no_frames = workshop_frames();
    no_frames.centres.clear();
    CHECK(refusal_of([&] { (void)stop_board(workshop_plane(), no_frames, board_plan); }).path == "frames.centres");
}
