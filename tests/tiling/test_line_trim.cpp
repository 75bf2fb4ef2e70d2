// SPDX-License-Identifier: BSL-1.0

// Hip caps and valley metal of a whole roof, each line once.

#include <eavewright/roof/hipped_roofs.hpp>
#include <eavewright/roof/winged_roofs.hpp>
#include <eavewright/tiling/line_trim.hpp>

#include "support/printing.hpp"

#include "random_cut_planes.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <cstdint>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const TrimStock cap{.piece = 10_ft};
std::vector<ChordPlane> chord_planes(const ComposedRoof& roof) {
    std::vector<ChordPlane> planes;
    for (const RoofFace& face : roof.faces) {
        planes.push_back(eavewright::plane_of(face));
    }
    return planes;
}
}  // namespace

TEST_CASE("a hip roof has four hips and one ridge, not eight and two") {
    // 34 by 48 ft out to out with 1 ft of overhang: 36 by 50 ft at 4 in 12. Hips of 216 in of run: sqrt(2 x 216^2 + 72^2) =
    // 313.840724 in, 3 pieces each (120 + 116 x 2 = 352). Ridge: 600 - 432 = 168 in, 2 pieces.
    const std::vector<ChordPlane> planes = chord_planes(hip({.width = 34_ft,
                                                             .length = 48_ft,
                                                             .pitch = Pitch::in_12(4),
                                                             .eave_overhang = 1_ft,
                                                             .bearing_height = 10_ft,
                                                             .heel = 1_ft}));
    const std::vector<LineTrim> hips = trim_of_lines(planes, EdgeKind::hip, cap);
    REQUIRE(hips.size() == 4);
    std::int64_t pieces = 0;
    for (const LineTrim& hip : hips) {
        CHECK(off_by(hip.trim.run, 313.840724_in) < 1e-5);
        REQUIRE(hip.neighbour.has_value());
        CHECK(*hip.neighbour > hip.plane);
        pieces += hip.trim.pieces;
    }
    CHECK(pieces == 12);
    const std::vector<LineTrim> ridges = trim_of_lines(planes, EdgeKind::ridge, cap);
    REQUIRE(ridges.size() == 1);
    CHECK(off_by(ridges[0].trim.run, 168_in) < 1e-6);
    CHECK(ridges[0].trim.pieces == 2);
    CHECK(trim_of_lines(planes, EdgeKind::eave, cap).size() == 4);
    CHECK(trim_of_lines(planes, EdgeKind::valley, cap).empty());
}

TEST_CASE("the valley of an L") {
    const std::vector<ChordPlane> planes = chord_planes(l_roof({.main = {.width = 24_ft,
                                                                         .length = 40_ft,
                                                                         .pitch = Pitch::in_12(6),
                                                                         .eave_overhang = 1_ft,
                                                                         .rake_overhang = 1_ft,
                                                                         .bearing_height = 10_ft,
                                                                         .heel = 1_ft},
                                                                .wing_width = 24_ft,
                                                                .projection = 16_ft,
                                                                .wing_pitch = Pitch::in_12(6)}));
    const std::vector<LineTrim> valleys = trim_of_lines(planes, EdgeKind::valley, cap);
    REQUIRE(!valleys.empty());
    for (const LineTrim& valley : valleys) {
        CHECK(valley.neighbour.has_value());
    }
    // From the eaves' inside corner to the ridge: 13 ft of run at 6 in 12, sqrt(2 x 156^2 + 78^2) = 234 in.
    CHECK(off_by(valleys[0].trim.run, 234_in) < 1e-6);
}

TEST_CASE("random roofs: every line between two planes is met from both") {
    SeededNumbers random{5401};
    std::size_t lines = 0;
    for (int i = 0; i < sweep(1000); ++i) {
        CAPTURE(i);
        const std::vector<PurlinPlane> planes = cut_planes::random_faces(random);
        for (const EdgeKind kind : {EdgeKind::hip, EdgeKind::valley, EdgeKind::ridge}) {
            std::size_t edges = 0;
            for (const PurlinPlane& plane : planes) {
                edges += trim_runs(plane, kind, cap).size();
            }
            const std::vector<LineTrim> once = trim_of_lines(planes, kind, cap);
            std::size_t met = 0;
            for (const LineTrim& line : once) {
                met += line.neighbour ? 1U : 0U;
            }
            CHECK(once.size() + met == edges);
            CHECK(met == once.size());
            lines += once.size();
        }
    }
    CHECK(lines > 500);
}
