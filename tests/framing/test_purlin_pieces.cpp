// SPDX-License-Identifier: BSL-1.0

// Purlins cut from stock, and the blocks between them.

#include <eavewright/framing/purlin_pieces.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"
#include "support/table.hpp"

#include "framing_planes.hpp"

#include <doctest/doctest.h>

#include <cstdint>
#include <limits>
#include <map>
#include <set>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
using ByRow = std::map<std::size_t, std::vector<PurlinPiece>>;

ByRow by_row(const std::vector<PurlinPiece>& pieces) {
    ByRow rows;
    for (const PurlinPiece& piece : pieces) {
        rows[piece.row].push_back(piece);
    }
    return rows;
}
PurlinRows rows_of(Length along, Length up, PurlinLie lie) {
    return purlin_rows(rectangle(along, up), AtMost{24_in}, {.stock = {.lie = lie}});
}
std::vector<Length> lengths(const std::vector<PurlinPiece>& pieces) {
    std::vector<Length> result;
    for (const PurlinPiece& piece : pieces) {
        result.push_back(piece.length);
    }
    return result;
}
}  // namespace

TEST_CASE("62 ft rows on frames 10 ft apart from 24 ft stock") {
    const FrameLines frames =
        frame_lines({.spacing = EqualBays{6}}, {.length = 60_ft, .rake_overhang = 12_in}, SeenFrom::front);
    const ByRow rows = by_row(purlin_pieces(rows_of(744_in, 247_in, PurlinLie::flat), frames, {.stock_length = 24_ft}));
    REQUIRE(rows.size() > 8);
    CHECK(rows.count(0) == 0);  // the fascia is no purlin
    for (const auto& [row, pieces] : rows) {
        // By hand: two bays and the overhang are 252 in; odd rows stop one frame short at first.
        CHECK(lengths(pieces) == (row % 2 == 0 ? std::vector<Length>{252_in, 240_in, 252_in}
                                               : std::vector<Length>{132_in, 240_in, 240_in, 132_in}));
    }
}

TEST_CASE("every row is covered end to end, splices lie on inner frames, no piece is longer than stock") {
    SeededNumbers random{50};
    int staggered = 0;
    for (int i = 0; i < sweep(2000); ++i) {
        const Length length = random.inches_between(240, 1200);
        const Length rake = random.inches_between(0, 24);
        const FrameLines frames = frame_lines({.spacing = BaysAtMost{random.inches_between(48, 144)}},
                                              {.length = length, .rake_overhang = rake}, SeenFrom::front);
        const bool lapped = random.coin();
        const Length lap = lapped ? random.inches_between(0, 18) : no_length;
        const Length bay = length / static_cast<double>(frames.centres.size() - 1);
        const Length stock = bay * random.whole(1, 3) + rake + lap + random.inches_between(0, 30);
        const PurlinRows rows = rows_of(length + 2.0 * rake, 200_in, lapped ? PurlinLie::lapped : PurlinLie::on_edge);
        const PurlinCutPlan plan{.stock_length = round_to_tick(longer(stock, 12_in), Tick::of_inch(4)), .lap = lap};
        const Fault fault = refusal_of([&] { (void)purlin_pieces(rows, frames, plan); });
        if (fault.path != "no fault") {
            CHECK(fault.path == "purlins.stock_length");
            CHECK(plan.stock_length < bay * 2.0 + rake + lap);  // two bays and an end always reach
            continue;
        }
        const std::set<Length> inner(frames.centres.begin() + 1, frames.centres.end() - 1);
        std::map<std::size_t, std::set<Length>> splices;
        for (const auto& [row, pieces] : by_row(purlin_pieces(rows, frames, plan))) {
            CHECK(pieces.front().from == no_length);
            CHECK(off_by(pieces.back().to, length + 2.0 * rake) < 1e-9);
            Length cut = no_length;
            for (std::size_t p = 0; p < pieces.size(); ++p) {
                CHECK(pieces[p].to - pieces[p].from <= plan.stock_length + count_tolerance);
                CHECK(pieces[p].length <= plan.stock_length + count_tolerance);
                CHECK(off_by(pieces[p].to - pieces[p].from, pieces[p].length) <= 1.0 / 16.0 + 1e-9);
                CHECK(pieces[p].length == round_to_tick(pieces[p].length, plan.tick));
                cut += pieces[p].length - (p > 0 ? lap : no_length);
                CHECK(pieces[p].length > no_length);
                if (p > 0) {
                    CHECK(off_by(pieces[p - 1].to - pieces[p].from, lap) < 1e-9);
                    const Length splice = (pieces[p - 1].to + pieces[p].from) / 2.0;
                    bool on_frame = false;
                    for (const Length frame : inner) {
                        if (off_by(frame, splice) < 1e-9) {
                            on_frame = true;
                            splices[row].insert(frame);
                        }
                    }
                    CHECK(on_frame);
                }
            }
            if (!lapped) {  // butted pieces add up to the row, however many there are
                CHECK(off_by(cut, length + 2.0 * rake) <= 1.0 / 32.0 + 1e-9);
            }
        }
        // Where the stock leaves a choice of two inner frames at the start, neighbours' first splices differ.
        const Length reach = plan.stock_length - lap / 2.0 + count_tolerance;
        if (splices.count(2) == 1 && frames.centres.size() > 3 && frames.centres[2] <= reach &&
            frames.centres.size() - 2 >= 2) {
            REQUIRE(splices.count(1) == 1);
            CHECK(*splices[1].begin() != *splices[2].begin());
            ++staggered;
        }
    }
    CHECK(staggered > sweep(2000) / 10);
}

TEST_CASE("equal bays and butted pieces: no splice of a row is on a frame where its neighbour splices") {
    // Stock of two and of three bays, with and without room to spare.
    for (const Length spare : {0_in, 12_in, 36_in}) {
        for (const double bays : {2.0, 3.0}) {
            const FrameLines frames =
                frame_lines({.spacing = EqualBays{9}}, {.length = 90_ft, .rake_overhang = 12_in}, SeenFrom::front);
            const Length stock = 120_in * bays + 12_in + spare;
            const PurlinRows rows = rows_of(92_ft, 247_in, PurlinLie::flat);
            ByRow pieces = by_row(purlin_pieces(rows, frames, {.stock_length = stock}));
            std::set<Length> odd;
            std::set<Length> even;
            for (std::size_t p = 0; p + 1 < pieces[1].size(); ++p) {
                odd.insert(pieces[1][p].to);
            }
            for (std::size_t p = 0; p + 1 < pieces[2].size(); ++p) {
                even.insert(pieces[2][p].to);
            }
            for (const Length splice : odd) {
                CHECK(even.count(splice) == 0);
            }
        }
    }
}

TEST_CASE("hung pieces are the clear gap rounded down, on frames as built too") {
    std::vector<Length> stations;
    for (const TableRow& row : read_table("asbuilt_post_bays.csv")) {
        stations.push_back(one_inch * std::stod(row.at("right_station_in")));
    }
    const FrameLines frames =
        frame_lines({.spacing = FramesAt{stations}}, {.length = 56_ft, .rake_overhang = 12_in}, SeenFrom::front);
    const PurlinRows rows = rows_of(696_in, 200_in, PurlinLie::hung);
    for (const auto& [row, pieces] : by_row(purlin_pieces(rows, frames, {.stock_length = 16_ft}))) {
        // Bays 117 145.5 144 144 121.75, each less a chord of 1 1/2 in.
        CHECK(lengths(pieces) == std::vector<Length>{115.5_in, 144_in, 142.5_in, 142.5_in, 120.25_in});
    }
    // To whole inches: rounded down, never up.
    const std::vector<PurlinPiece> coarse =
        purlin_pieces(rows, frames, {.stock_length = 16_ft, .tick = Tick::of_inch(1)});
    CHECK(coarse[0].length == 115_in);
    CHECK(coarse[4].length == 120_in);
    const std::vector<PurlinPiece> metric =
        purlin_pieces(rows, frames, {.stock_length = 16_ft, .tick = Tick::of_millimetres(1)});
    CHECK(metric[0].length == 2933_mm);  // 115.5 in is 2933.7 mm
    CHECK(refusal_of([&] { (void)purlin_pieces(rows, frames, {.stock_length = 12_ft - 1_in}); }).path ==
          "purlins.stock_length");
}

TEST_CASE("blocks: the gap at their place rounded down, on level, slanted and bent rows") {
    SeededNumbers random{51};
    for (int i = 0; i < sweep(1000); ++i) {
        const FrameLines frames =
            frame_lines({.spacing = EqualBays{4}}, {.length = 40_ft, .rake_overhang = 12_in}, SeenFrom::front);
        AsFound found{{}, frames.centres};
        for (int r = 1; r <= 6; ++r) {
            std::vector<Length> centres;
            for (std::size_t f = 0; f < frames.centres.size(); ++f) {
                centres.push_back(random.inches_between(24.0 * r - 0.75, 24.0 * r + 0.75));
            }
            found.rows.emplace_back(centres);
        }
        const PurlinRows rows = purlin_rows(rectangle(504_in, 150_in), found);
        const Tick tick = random.coin() ? Tick::of_inch(16) : Tick::of_millimetres(1);
        const BlockingPlan plan{
            .bay = static_cast<std::size_t>(random.whole(0, 3)), .lines = random.whole(1, 3), .tick = tick};
        const std::vector<BlockingPiece> blocks = blocking_pieces(rows, frames, plan);
        CHECK(blocks.size() == 6 * static_cast<std::size_t>(plan.lines));
        for (const BlockingPiece& block : blocks) {
            const PurlinRow& low = rows.rows[block.below];
            const PurlinRow& high = rows.rows[block.below + 1];
            // The block is 1 1/2 in thick: it must fit on the tighter of its two sides.
            const auto gap_at = [&](Length along) {
                return up_at(high.centreline, along) - up_at(low.centreline, along) - (low.width + high.width) / 2.0;
            };
            const Length gap = shorter(gap_at(block.along - 0.75_in), gap_at(block.along + 0.75_in));
            CHECK(off_by(block.clear_gap, gap) < 1e-9);
            CHECK(block.length <= gap + count_tolerance);
            CHECK(gap - block.length < tick.step());
            CHECK(block.along > frames.centres[plan.bay]);
            CHECK(block.along < frames.centres[plan.bay + 1]);
        }
    }
}

TEST_CASE("blocks by hand") {
    const FrameLines frames =
        frame_lines({.spacing = EqualBays{6}}, {.length = 60_ft, .rake_overhang = 12_in}, SeenFrom::front);
    const PurlinRows rows = purlin_rows(rectangle(744_in, 100_in), Fixed{24_in});
    const std::vector<BlockingPiece> blocks = blocking_pieces(rows, frames, {.bay = 1});
    // Fascia top side at 1 1/2, first purlin from 22 1/4: 20 3/4. Then 24 - 3 1/2 = 20 1/2.
    // Ridge row from 96 1/2 on 72 + 1 3/4: 22 3/4.
    REQUIRE(blocks.size() == 4);
    CHECK(blocks[0].length == 20.75_in);
    CHECK(blocks[1].length == 20.5_in);
    CHECK(blocks[2].length == 20.5_in);
    CHECK(blocks[3].length == 22.75_in);
    CHECK(blocks[0].along == 192_in);
}

TEST_CASE("pieces and blocks that are refused") {
    const FrameLines frames =
        frame_lines({.spacing = EqualBays{6}}, {.length = 60_ft, .rake_overhang = 12_in}, SeenFrom::front);
    const PurlinRows rows = rows_of(744_in, 100_in, PurlinLie::lapped);
    const auto cut = [&](const PurlinCutPlan& plan) {
        return refusal_of([&] { (void)purlin_pieces(rows, frames, plan); });
    };
    CHECK(cut({.stock_length = 24_ft}).path == "no fault");
    CHECK(cut({.stock_length = 8_ft}).code == FaultCode::does_not_fit);
    CHECK(cut({.stock_length = 1_in}).path == "purlins.stock_length");
    CHECK(cut({.stock_length = 40_ft, .lap = 119.5_in}).path == "purlins.lap");  // end bays are 119 1/4 between centres
    CHECK(cut({.stock_length = 24_ft, .lap = -1_in}).path == "purlins.lap");
    for (const Length none : lengths_that_are_none()) {
        CHECK(cut({.stock_length = none}).path == "purlins.stock_length");
        CHECK(cut({.stock_length = 24_ft, .lap = none}).path == "purlins.lap");
    }
    FrameLines no_frames = frames;
    no_frames.centres.clear();
    const PurlinCutPlan long_stock{.stock_length = 24_ft};
    CHECK(refusal_of([&] { (void)purlin_pieces(rows, no_frames, long_stock); }).code == FaultCode::does_not_fit);
    CHECK(refusal_of([&] { (void)blocking_pieces(rows, no_frames, {.bay = 0}); }).path == "blocking.bay");
    const auto block = [&](std::size_t bay, int lines) {
        return refusal_of([&] { (void)blocking_pieces(rows, frames, {.bay = bay, .lines = lines}); });
    };
    CHECK(block(5, 1).path == "no fault");
    CHECK(block(6, 1).path == "blocking.bay");
    CHECK(block(std::numeric_limits<std::size_t>::max(), 1).path == "blocking.bay");
    CHECK(block(0, 0).path == "blocking.lines");
    CHECK(block(0, 101).path == "blocking.lines");
}
