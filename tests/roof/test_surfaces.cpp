// SPDX-License-Identifier: BSL-1.0

// Gable and single slope in space: the three surfaces, the fascia, the ridge and the heights, each found a second time
// with vectors from what the builder gave.

#include <eavewright/roof/shape.hpp>

#include "support/printing.hpp"
#include "support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
struct Vec {
    double x, y, z;
};
Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
Vec cross(Vec a, Vec b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
double size(Vec a) { return std::sqrt(dot(a, a)); }

template <Surface surface>
Vec at(const Plane<surface>& plane, PlanePoint p) {
    const BuildingPoint b = building_point(plane, p);
    return {inches(b.x), inches(b.y), inches(b.z)};
}
template <Surface surface>
Vec corner(const Plane<surface>& plane, std::size_t i) {
    return at(plane, plane.outline.at(i));
}
/// Outward unit normal from three corners in space.
template <Surface surface>
Vec normal(const Plane<surface>& plane) {
    const Vec n = cross(corner(plane, 1) - corner(plane, 0), corner(plane, 3) - corner(plane, 0));
    return {n.x / size(n), n.y / size(n), n.z / size(n)};
}

GableRoof random_gable(SeededNumbers& random) {
    const Length fascia = random.coin() ? 1.5_in : no_length;
    const double pitches[] = {0.0, 0.5, 3.0, 4.0, 6.0, 12.0, 17.3};
    return GableRoof{.width = random.inches_between(96, 1200),
                     .length = random.inches_between(96, 2400),
                     .pitch = Pitch::in_12(pitches[random.whole(0, 6)]),
                     .eave_overhang = random.coin() ? random.inches_between(1.5, 60) : no_length,
                     .rake_overhang = random.inches_between(0, 48),
                     .build_up = {random.inches_between(0, 6), random.inches_between(0, 2)},
                     .bearing_height = random.inches_between(-20, 240),
                     .heel = random.inches_between(0, 30),
                     .face = random.coin() ? WallFace::posts : WallFace::girts,
                     .girt_thickness = random.inches_between(0.5, 3),
                     .tail = random.coin() ? TailCut::plumb : TailCut::square,
                     .fascia_thickness = fascia};
}
SingleSlopeRoof single_from(const GableRoof& g, Length high_overhang) {
    return SingleSlopeRoof{.width = g.width,
                           .length = g.length,
                           .pitch = g.pitch,
                           .eave_overhang = g.eave_overhang,
                           .high_overhang = high_overhang,
                           .rake_overhang = g.rake_overhang,
                           .build_up = g.build_up,
                           .bearing_height = g.bearing_height,
                           .heel = g.heel,
                           .face = g.face,
                           .girt_thickness = g.girt_thickness,
                           .tail = g.tail,
                           .fascia_thickness = g.fascia_thickness};
}

/// What holds for one slope of any shape. `wall_y` and `outward_y` say where its building line lies and which way is
/// out.
void check_slope(const Slope& slope, const RoofHeights& heights, const GableRoof& in, double wall_y, double outward_y) {
    const double depth1 = inches(in.build_up.purlin);
    const double depth2 = depth1 + inches(in.build_up.deck);
    const Vec n = normal(slope.chord);
    CHECK(n.z > 0.0);  // counter-clockwise from outside
    CHECK(n.y * outward_y >= -1e-12);
    // Square to the slope, the surfaces lie apart by the depth of the layers; everywhere, since they are parallel.
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(std::fabs(dot(corner(slope.purlin, i) - corner(slope.chord, 0), n) - depth1) < 1e-9);
        CHECK(std::fabs(dot(corner(slope.deck, i) - corner(slope.chord, 0), n) - depth2) < 1e-9);
    }
    // Lower edges: with a plumb tail all three at the fascia's outer face, with a square one square above each other.
    const double face_y = wall_y + outward_y * inches(in.eave_overhang);
    const Vec c = corner(slope.chord, 0);
    const Vec p = corner(slope.purlin, 0);
    const Vec d = corner(slope.deck, 0);
    CHECK(std::fabs(c.y - face_y) < 1e-9);
    CHECK(std::fabs(c.z - inches(heights.chord_at_eave)) < 1e-9);
    CHECK(std::fabs(p.z - inches(heights.fascia_top)) < 1e-9);
    if (in.tail == TailCut::plumb) {
        CHECK(std::fabs(p.y - face_y) < 1e-9);
        CHECK(std::fabs(d.y - face_y) < 1e-9);
    } else {
        CHECK(std::fabs(size(p - c) - depth1) < 1e-9);
        CHECK(std::fabs(size(d - c) - depth2) < 1e-9);
    }
    // Over the outer face of the posts the chord tops stand a heel above the bearing.
    const double inset = in.face == WallFace::girts ? inches(in.girt_thickness) : 0.0;
    const double run_in = inches(in.eave_overhang) + inset;
    const Vec over_post = at(slope.chord, {no_length, in.pitch.slope_over(one_inch * run_in)});
    CHECK(std::fabs(over_post.y - (wall_y - outward_y * inset)) < 1e-9);
    CHECK(std::fabs(over_post.z - inches(in.bearing_height) - inches(in.heel)) < 1e-9);
    // The chord's tail ends behind the fascia, whose thickness is level where plumb and along the slope where square.
    const double slant = in.pitch.slope_factor();
    const double behind = inches(in.fascia_thickness) * (in.tail == TailCut::plumb ? slant : 1.0);
    CHECK(std::fabs(inches(slope.tail_length) - (run_in * slant - behind)) < 1e-9);
    // A mark on the purlin tops, dropped square onto the chord top, measured from the chord's tail end.
    const PlanePoint mark{5_in, 100_in};
    const Vec on_top = at(slope.purlin, mark);
    const Vec dropped{on_top.x - depth1 * n.x, on_top.y - depth1 * n.y, on_top.z - depth1 * n.z};
    const Vec tail_end = at(slope.chord, {5_in, one_inch * behind});
    const Vec from_tail = dropped - tail_end;
    CHECK(std::fabs(from_tail.x) < 1e-9);
    CHECK(std::fabs(size(from_tail) - (100.0 + inches(slope.chord_tail_offset))) < 1e-8);
    // Seen in plan, the area of the slope is its length by its total run, whichever tail.
    const double plan = inches(in.length + 2.0 * in.rake_overhang) * inches(slope.total_run);
    CHECK(std::fabs(square_inches(net_area(slope.chord)) * in.pitch.cosine() / plan - 1.0) < 1e-12);
}
}  // namespace

TEST_CASE("a gable in space: layers, fascia, ridge and heights") {
    SeededNumbers random{20240611};
    for (int i = 0; i < sweep(3000); ++i) {
        const GableRoof in = random_gable(random);
        const RoofShape shape = gable(in);
        REQUIRE(shape.slopes.size() == 2);
        CHECK(shape.slopes[0].name == "front");
        CHECK(shape.slopes[1].name == "back");
        check_slope(shape.slopes[0], shape.heights, in, 0.0, -1.0);
        check_slope(shape.slopes[1], shape.heights, in, inches(in.width), 1.0);
        // Front and back share the ridge line on every surface, its ends change places.
        const auto shares_ridge = [&](const auto& front, const auto& back, Length peak) {
            CHECK(size(corner(front, 3) - corner(back, 2)) < 1e-9);
            CHECK(size(corner(front, 2) - corner(back, 3)) < 1e-9);
            CHECK(std::fabs(corner(front, 3).y - inches(in.width) / 2.0) < 1e-9);
            CHECK(std::fabs(corner(front, 3).z - inches(peak)) < 1e-9);
            CHECK(std::fabs(corner(front, 2).x - corner(front, 3).x - inches(in.length + 2.0 * in.rake_overhang)) <
                  1e-9);
        };
        const Slope& front = shape.slopes[0];
        const Slope& back = shape.slopes[1];
        shares_ridge(front.chord, back.chord, shape.heights.chord_peak);
        shares_ridge(front.purlin, back.purlin, shape.heights.purlin_peak);
        shares_ridge(front.deck, back.deck, shape.heights.deck_peak);
        CHECK(front.run == in.width / 2.0);
        CHECK(off_by(front.total_run, in.width / 2.0 + in.eave_overhang) < 1e-12);
        CHECK(front.chord.edges ==
              std::vector<EdgeKind>{EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
        CHECK(shape.heights.bearing == in.bearing_height);
        CHECK(off_by(shape.heights.chord_at_wall, in.bearing_height + in.heel) < 1e-12);
        CHECK(shape.footprint_width == in.width);
        CHECK(shape.footprint_length == in.length);
    }
}

TEST_CASE("a single slope in space: high edge at its true height with either tail") {
    SeededNumbers random{20240612};
    for (int i = 0; i < sweep(3000); ++i) {
        const GableRoof in = random_gable(random);
        const Length high = random.coin() ? random.inches_between(1.5, 40) : no_length;
        const RoofShape shape = single_slope(single_from(in, high));
        REQUIRE(shape.slopes.size() == 1);
        const Slope& slope = shape.slopes[0];
        CHECK(slope.name == "roof");
        check_slope(slope, shape.heights, in, 0.0, -1.0);
        CHECK(std::fabs(corner(slope.chord, 2).y - inches(in.width + high)) < 1e-9);
        CHECK(std::fabs(corner(slope.chord, 2).z - inches(shape.heights.chord_peak)) < 1e-9);
        CHECK(std::fabs(corner(slope.purlin, 2).z - inches(shape.heights.purlin_peak)) < 1e-9);
        CHECK(std::fabs(corner(slope.deck, 2).z - inches(shape.heights.deck_peak)) < 1e-9);
        CHECK(slope.chord.edges[2] == EdgeKind::high_eave);
        CHECK(slope.run == in.width);
        // A fascia at both ends.
        const double behind = inches(in.fascia_thickness) * (in.tail == TailCut::plumb ? in.pitch.slope_factor() : 1.0);
        CHECK(std::fabs(inches(slope.chord_length) + 2.0 * behind - inches(slope.total_run) * in.pitch.slope_factor()) <
              1e-9);
    }
}

TEST_CASE("a width to the girts is a width to the posts with a girt on either side") {
    SeededNumbers random{7};
    for (int i = 0; i < sweep(500); ++i) {
        GableRoof posts = random_gable(random);
        posts.face = WallFace::posts;
        posts.fascia_thickness = no_length;
        posts.eave_overhang = random.inches_between(4, 40);
        GableRoof girts = posts;
        girts.face = WallFace::girts;
        girts.width += 2.0 * girts.girt_thickness;
        girts.eave_overhang -= girts.girt_thickness;
        const RoofShape a = gable(posts);
        const RoofShape b = gable(girts);
        CHECK(off_by(a.heights.chord_peak, b.heights.chord_peak) < 1e-9);
        CHECK(off_by(a.heights.fascia_top, b.heights.fascia_top) < 1e-9);
        CHECK(off_by(a.slopes[0].tail_length, b.slopes[0].tail_length) < 1e-9);
        CHECK(off_by(a.slopes[0].chord_length, b.slopes[0].chord_length) < 1e-9);
        CHECK(off_by(b.slopes[0].run - a.slopes[0].run, girts.girt_thickness) < 1e-9);
    }
}

TEST_CASE("heights by hand: 36 ft wide, 4 in 12, 18 in overhang, 2x4 purlins flat and 3/4 in deck") {
    // Slope factor sqrt(160)/12 = sqrt(10)/3. Heel 6 in on a bearing at 120 in: 126 at the wall, 6 lower 18 in out.
    const GableRoof in{.width = 36_ft,
                       .length = 60_ft,
                       .pitch = Pitch::in_12(4),
                       .eave_overhang = 18_in,
                       .rake_overhang = 12_in,
                       .build_up = {1.5_in, 0.75_in},
                       .bearing_height = 120_in,
                       .heel = 6_in};
    const RoofShape shape = gable(in);
    const double factor = std::sqrt(10.0) / 3.0;
    CHECK(shape.heights.chord_at_wall == 126_in);
    CHECK(shape.heights.chord_at_eave == 120_in);
    CHECK(off_by(shape.heights.fascia_top, 120_in + 1.5_in * factor) < 1e-12);
    CHECK(off_by(shape.heights.chord_peak, 198_in) < 1e-12);
    CHECK(off_by(shape.heights.deck_peak, 198_in + 2.25_in * factor) < 1e-12);
    CHECK(shape.slopes[0].total_run == 234_in);
    CHECK(off_by(shape.slopes[0].chord_length, 234_in * factor - 1.5_in * factor) < 1e-12);
    CHECK(off_by(shape.slopes[0].tail_length, 18_in * factor - 1.5_in * factor) < 1e-12);
    // Plumb tail: the mark moves up the chord by depth times tan(pitch), less what the fascia takes.
    CHECK(off_by(shape.slopes[0].chord_tail_offset, 0.5_in - 1.5_in * factor) < 1e-12);
    const SurfaceOffset plumb = surface_offset(1.5_in, Pitch::in_12(4), TailCut::plumb);
    CHECK(off_by(plumb.plumb, 1.5_in * factor) < 1e-12);
    CHECK(plumb.along_slope == 0.5_in);
    CHECK(surface_offset(1.5_in, Pitch::in_12(4), TailCut::square).along_slope == no_length);
}
