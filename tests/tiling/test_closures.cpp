// SPDX-License-Identifier: BSL-1.0

// Closures and sealant: by hand, and against an own count over random planes.

#include <eavewright/tiling/closures.hpp>
#include <eavewright/tiling/lay_panels.hpp>

#include "../support/printing.hpp"
#include "../support/refusal.hpp"
#include "../support/seeded_numbers.hpp"
#include "random_panels.hpp"

#include <cmath>
#include <map>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("closures: four panels exactly, lapped once") {
    // 144 in wide, 300 in long, rows every 24 in: panels of at most 200 in, lapped 8 in on a row.
    const PurlinPlane plane = plane_of(144_in, 300_in);
    const PurlinRows rows = purlin_rows(plane, Fixed{24_in}, {.ridge_setback = 3_in});
    const Panels panels = lay_panels(plane, rows, {.ridge_hold_back = 1_in, .longest = 200_in});
    REQUIRE(panels.lanes == 4);
    REQUIRE(panels.end_laps.size() == 4);
    const Closures closures =
        closures_under(panels, {.strip = 3_ft, .beads = 2, .end_lap_beads = 1, .side_laps = true});
    CHECK(closures.eave_strips == 4);  // 144 / 36
    CHECK(closures.ridge_strips == 4);
    CHECK(closures.end_lap_run == 3.0 * 39_in + 36_in + 3_in);  // four panels of 39 in
    // Three side laps, each from the lower ends to the upper ones at 299: 299 + the overhang, the end lap counted once.
    CHECK(off_by(closures.side_lap_run, 3.0 * (299_in + panels.overhang)) < 1e-9);
    CHECK(off_by(closures.sealant, 2.0 * 288_in + 156_in + closures.side_lap_run) < 1e-9);
    CHECK(off_by(closures_under(panels, {.strip = 3_ft, .beads = 1, .end_lap_beads = 0}).sealant, 288_in) < 1e-9);
    CHECK(closures_under(panels, {.strip = 36.0625_in}).eave_strips == 4);  // 3.993
    CHECK(closures_under(panels, {.strip = 35.9375_in}).eave_strips == 5);  // 4.007
}

TEST_CASE("closures: runs of random planes, counted again lane by lane") {
    SeededNumbers random{421};
    for (int i = 0; i < sweep(400); ++i) {
        const PanelCase c = random_panel_case(random);
        const Closures closures = closures_under(c.panels, {.strip = random.inches_between(12, 60)});
        const Extent extent = extent_of(c.plane.outline);
        CHECK(off_by(closures.eave_run, extent.high.along - extent.low.along) < 1e-6);
        CHECK(closures.ridge_run >= closures.eave_run - 1e-6_in);  // the ridge may slant
        // Where two lanes meet: from the lower of their ends to the upper one, read off the outlines.
        std::map<std::int32_t, Span> left;
        std::map<std::int32_t, Span> right;
        for (const PanelPiece& piece : c.panels.pieces) {
            const auto stretch = [&](std::map<std::int32_t, Span>& sides, Length low, Length high) {
                const auto [at, is_new] = sides.try_emplace(piece.lane, Span{low, high});
                at->second = {shorter(at->second.low, low), longer(at->second.high, high)};
            };
            stretch(left, piece.outline[0].up, piece.outline[3].up);
            stretch(right, piece.outline[1].up, piece.outline[2].up);
        }
        Length run = no_length;
        for (std::int32_t lane = 0; lane + 1 < c.panels.lanes; ++lane) {
            const Span side = c.panels.start == StartCorner::eave_left ? right.at(lane) : left.at(lane);
            run += side.high - side.low;
        }
        CHECK(off_by(closures.side_lap_run, run) < 1e-6);
    }
}

TEST_CASE("closures: what is refused") {
    const PurlinPlane plane = plane_of(144_in, 200_in);
    const Panels panels = lay_panels(plane, purlin_rows(plane, Fixed{24_in}), {.ridge_hold_back = 1_in});
    CHECK(refusal_of([&] { (void)closures_under(panels, {.strip = 0_in}); }).path == "closures.strip");
    CHECK(refusal_of([&] { (void)closures_under(panels, {.strip = 3_ft, .beads = -1}); }).path == "closures.beads");
    CHECK(refusal_of([&] { (void)closures_under(panels, {.strip = 3_ft, .end_lap_beads = 11}); }).path ==
          "closures.end_lap_beads");
}
