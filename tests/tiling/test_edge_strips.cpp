// SPDX-License-Identifier: BSL-1.0

// Strips along valleys and hips: by hand, and rolls cut up again.

#include <eavewright/roof/hipped_roofs.hpp>
#include <eavewright/roof/shared_edges.hpp>
#include <eavewright/roof/winged_roofs.hpp>
#include <eavewright/tiling/edge_strips.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
std::vector<Length> lengths_of(const std::vector<SharedEdge>& edges) {
    std::vector<Length> lengths;
    for (const SharedEdge& edge : edges) {
        lengths.push_back(edge.length);
    }
    return lengths;
}
}  // namespace

TEST_CASE("strips by hand: the valley of an L, and two more") {
    // Both wings 24 ft wide at 6 in 12 with a foot of overhang: the valley runs 156 in one way, 156 the other and rises 78:
    // sqrt(2 x 156 x 156 + 78 x 78) = sqrt(54756) = 234. Two planes share it; it is one line.
    const ComposedRoof house = l_roof({.main = {.width = 24_ft,
                                                .length = 40_ft,
                                                .pitch = Pitch::in_12(6),
                                                .eave_overhang = 1_ft,
                                                .rake_overhang = 1_ft,
                                                .bearing_height = 10_ft,
                                                .heel = 1_ft},
                                       .wing_width = 24_ft,
                                       .projection = 16_ft,
                                       .wing_pitch = Pitch::in_12(6)});
    std::vector<Length> valleys = lengths_of(shared_edges(house.faces, EdgeKind::valley));
    REQUIRE(valleys.size() == 1);
    CHECK(off_by(valleys[0], 234_in) < 1e-9);
    // 18 below its foot and 6 over the ridge: 258 in. With lines of 300 and 400, 324 and 424, out of rolls of 72 ft, 864:
    //   strip 1  258 of roll 1, 606 left
    //   strip 2  324, 282 left
    //   strip 3  282, lapped 12; 424 - 270 = 154 of roll 2, 710 left
    valleys.push_back(300_in);
    valleys.push_back(400_in);
    const EdgeStripPlan plan{.roll = {.length = 72_ft}};
    const EdgeStrips strips = lay_edge_strips(valleys, plan);
    CHECK(strips.rolls == 2);
    REQUIRE(strips.pieces.size() == 4);
    CHECK(off_by(strips.pieces[0].left, -18_in) < 1e-9);
    CHECK(off_by(strips.pieces[0].length, 258_in) < 1e-9);
    CHECK(off_by(strips.pieces[1].length, 324_in) < 1e-9);
    CHECK(off_by(strips.pieces[2].length, 282_in) < 1e-9);
    CHECK(off_by(strips.pieces[3].left, 252_in) < 1e-9);  // -18 + 282 - 12
    CHECK(off_by(strips.pieces[3].right, 406_in) < 1e-9);
    CHECK(strips.pieces[3].roll == 1);
    CHECK(off_by(strips.left_over, 710_in) < 1e-9);
    CHECK(off_by(strips.laid, 1018_in) < 1e-9);  // 258 + 324 + 424 + 12
    CHECK(off_by(strips.lines, 934_in) < 1e-9);
    REQUIRE(strips.end_laps.size() == 1);
    CHECK(strips.end_laps[0].over == 3);  // the upper piece, so that it sheds
    CHECK(off_by(strips.end_laps[0].right - strips.end_laps[0].left, 12_in) < 1e-9);
    CHECK(square_inches(strips.bought) == 2.0 * 36.0 * 864.0);
    CHECK(square_inches(strips.ripped) == 0.0);
    CHECK(strips.findings.empty());
    CHECK(strips.pieces[0].low == -18_in);
    CHECK(strips.pieces[0].high == 18_in);
}

TEST_CASE("strips by hand: over the hips of a hip roof, out of metre-wide rolls") {
    // 24 ft wide, 18 in of overhang at 5 in 12: each of four hips runs 162 both ways and rises 67.5:
    // sqrt(2 x 162 x 162 + 67.5 x 67.5) = sqrt(57044.25) = 238.84
    const ComposedRoof roof = hip({.width = 24_ft,
                                   .length = 40_ft,
                                   .pitch = Pitch::in_12(5),
                                   .eave_overhang = 18_in,
                                   .bearing_height = 10_ft,
                                   .heel = 1_ft});
    const std::vector<Length> hips = lengths_of(shared_edges(roof.faces, EdgeKind::hip));
    REQUIRE(hips.size() == 4);
    for (const Length length : hips) {
        CHECK(std::fabs(inches(length) - std::sqrt(57044.25)) < 1e-9);
    }
    EdgeStripPlan plan = hip_strip_plan({.length = 50_m, .width = 1_m});
    plan.width = 500_mm;
    const EdgeStrips strips = lay_edge_strips(hips, plan);
    CHECK(strips.rolls == 1);
    CHECK(strips.end_laps.empty());
    CHECK(std::fabs(inches(strips.laid) - 4.0 * (std::sqrt(57044.25) + 6.0)) < 1e-9);
    CHECK(std::fabs(square_inches(strips.ripped) - inches(500_mm) * inches(strips.laid)) < 1e-6);
}

TEST_CASE("strips: rolls cut up again yield every piece, strips are covered from end to end") {
    SeededNumbers random{20321};
    for (int i = 0; i < sweep(20000); ++i) {
        CAPTURE(i);
        EdgeStripPlan plan{.roll = {.length = random.inches_between(80, 900)}};
        plan.end_lap = random.inches_between(0, 24);
        plan.past_foot = random.coin() ? 18_in : random.inches_between(0, 30);
        plan.past_head = random.inches_between(0, 20);
        plan.sliver = random.coin() ? 36_in : random.inches_between(0, 40);
        std::vector<Length> lines;
        for (int k = random.whole(0, 6); k >= 0; --k) {
            lines.push_back(random.inches_between(1, 700));
        }
        const EdgeStrips strips = lay_edge_strips(lines, plan);
        REQUIRE(strips.strips.size() == lines.size());
        std::vector<double> used(static_cast<std::size_t>(strips.rolls), 0.0);
        std::size_t next = 0;
        double need = 0.0;
        for (std::size_t k = 0; k < lines.size(); ++k) {
            double reached = -inches(plan.past_foot);
            const double top = inches(lines[k] + plan.past_head);
            need += top - reached;
            const std::size_t first = next;
            for (; next < strips.pieces.size() && strips.pieces[next].course == static_cast<int>(k); ++next) {
                const RollPiece& piece = strips.pieces[next];
                const double lap = next == first ? 0.0 : inches(plan.end_lap);
                CHECK(std::fabs(inches(piece.left) - (reached - lap)) < 2e-5);
                CHECK(std::fabs(inches(piece.right - piece.left - piece.length)) < 2e-5);
                reached = inches(piece.right);
                double& on_roll = used.at(static_cast<std::size_t>(piece.roll));
                CHECK(std::fabs(inches(piece.from) - on_roll) < 2e-5);
                on_roll += inches(piece.length);
                CHECK(on_roll <= inches(plan.roll.length) + 2e-5);
            }
            CHECK(next > first);
            CHECK(std::fabs(reached - top) < 2e-5);
        }
        CHECK(next == strips.pieces.size());
        CHECK(need <= inches(plan.roll.length) * static_cast<double>(strips.rolls) + 2e-5);
        for (const double on_roll : used) {
            CHECK(on_roll > 0.0);
        }
    }
}

TEST_CASE("strips: faults") {
    const EdgeStripPlan sound{.roll = {.length = 72_ft}};
    const auto with = [&](auto change) {
        EdgeStripPlan plan = sound;
        change(plan);
        return refusal_of([&] { static_cast<void>(lay_edge_strips({100_in}, plan)); }).path;
    };
    CHECK(with([](EdgeStripPlan&) {}) == "no fault");
    CHECK(with([](EdgeStripPlan& p) { p.width = 37_in; }) == "strips.width");
    CHECK(with([](EdgeStripPlan& p) { p.past_foot = -1_in; }) == "strips.past_foot");
    CHECK(with([](EdgeStripPlan& p) { p.past_head = -1_in; }) == "strips.past_head");
    CHECK(with([](EdgeStripPlan& p) { p.end_lap = -1_in; }) == "strips.end_lap");
    CHECK(with([](EdgeStripPlan& p) { p.roll.length = 0_in; }) == "strips.roll.length");
    CHECK(lay_edge_strips({}, sound).rolls == 0);
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { static_cast<void>(lay_edge_strips({100_in, none}, sound)); }).path == "lines[1]");
        CHECK(with([&](EdgeStripPlan& p) { p.width = none; }) == "strips.width");
    }
    CHECK(refusal_of([&] { static_cast<void>(lay_edge_strips({0_in}, sound)); }).code == FaultCode::out_of_range);
}
