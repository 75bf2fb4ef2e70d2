// SPDX-License-Identifier: BSL-1.0

// Kinds of edges between two faces, each from a roof in which that edge has its name.

#include <eavewright/roof/face_edges.hpp>

#include <doctest/doctest.h>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// A plane through the origin.
HeightPlane rising(double along_x, double along_y) { return {{0_in, 0_in}, 0_in, along_x, along_y}; }
const GroundPoint here{0_in, 0_in};
const GroundPoint east{100_in, 0_in};
const GroundPoint north_east{100_in, 100_in};
}  // namespace

TEST_CASE("level edges are ridges, valleys and pitch breaks") {
    // Left of the way east lies the north.
    CHECK(classify_edge(rising(0, -0.5), rising(0, 0.5), here, east) == EdgeKind::ridge);
    CHECK(classify_edge(rising(0, -0.5), rising(0, 0.25), here, east) == EdgeKind::ridge);
    CHECK(classify_edge(rising(0, 0.5), rising(0, -0.5), here, east) == EdgeKind::valley);
    CHECK(classify_edge(rising(0, 0.25), rising(0, 0.5), here, east) == EdgeKind::pitch_break);
    CHECK(classify_edge(rising(0, 0.5), rising(0, 0.25), here, east) == EdgeKind::pitch_break);
    CHECK(classify_edge(rising(0, 0), rising(0, 0.5), here, east) == EdgeKind::pitch_break);
    CHECK(classify_edge(rising(0, 0.5), rising(0, 0.5), here, east) == EdgeKind::pitch_break);
}

TEST_CASE("sloped edges are hips where the roof bends down and valleys where it bends up") {
    // Out of an outer corner: the side to the west rises east, the one to the south rises north.
    CHECK(classify_edge(rising(0.5, 0), rising(0, 0.5), here, north_east) == EdgeKind::hip);
    // Out of an inner corner the two planes change places.
    CHECK(classify_edge(rising(0, 0.5), rising(0.5, 0), here, north_east) == EdgeKind::valley);
    // The same edges from their other end.
    CHECK(classify_edge(rising(0, 0.5), rising(0.5, 0), north_east, here) == EdgeKind::hip);
    CHECK(classify_edge(rising(0.5, 0), rising(0, 0.5), north_east, here) == EdgeKind::valley);
}

TEST_CASE("an edge is level to the rounding of its ends") {
    CHECK(is_level(rising(0, 0.5), here, east));
    CHECK(is_level(rising(1e-12, 0.5), here, east));
    CHECK_FALSE(is_level(rising(1e-6, 0.5), here, east));
    CHECK_FALSE(is_level(rising(0, 0.5), here, {100_in, 1e-6_in}));
}
