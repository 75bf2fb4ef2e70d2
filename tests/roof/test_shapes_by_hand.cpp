// SPDX-License-Identifier: BSL-1.0

// One building of every composed shape, its figures worked by hand in feet beside them. Geometry alone: no outside values.

#include <eavewright/roof/face_planes.hpp>
#include <eavewright/roof/hipped_roofs.hpp>
#include <eavewright/roof/plain_roofs.hpp>
#include <eavewright/roof/porch_roofs.hpp>
#include <eavewright/roof/winged_roofs.hpp>
#include <eavewright/roof/wrap_around_porch.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// The face of that name.
const RoofFace& face(const ComposedRoof& roof, const std::string& name) {
    for (std::size_t i = 0; i < roof.faces.size(); ++i) {
        if (roof.names[i] == name) {
            return roof.faces[i];
        }
    }
    throw std::runtime_error{"no face " + name};
}
double plan_feet(const ComposedRoof& roof, const std::string& name) {
    return square_feet(plan_area(face(roof, name).outline));
}
/// How many edges of a kind the roof has, shared ones counted from both sides.
int count(const ComposedRoof& roof, EdgeKind kind) {
    int n = 0;
    for (const RoofFace& f : roof.faces) {
        for (const FaceEdge& edge : f.edges) {
            n += edge.kind == kind;
        }
    }
    return n;
}
bool has_corner(const RoofFace& f, double x_ft, double y_ft, double z_ft) {
    for (std::size_t i = 0; i < f.outline.size(); ++i) {
        const BuildingPoint p = corner_of(f, i);
        if (std::fabs(feet(p.x) - x_ft) + std::fabs(feet(p.y) - y_ft) + std::fabs(feet(p.z) - z_ft) < 1e-9) {
            return true;
        }
    }
    return false;
}
void check_levels(const std::vector<Length>& levels, const std::vector<double>& in_feet) {
    REQUIRE(levels.size() == in_feet.size());
    for (std::size_t i = 0; i < levels.size(); ++i) {
        CHECK(std::fabs(feet(levels[i]) - in_feet[i]) < 1e-9);
    }
}
std::vector<EdgeKind> kinds(const RoofFace& f) {
    std::vector<EdgeKind> list;
    for (const FaceEdge& edge : f.edges) {
        list.push_back(edge.kind);
    }
    return list;
}

UnequalGableRoof saltbox() {
    return {.width = 30_ft,
            .length = 40_ft,
            .front_pitch = Pitch::in_12(6),
            .back_pitch = Pitch::in_12(3),
            .ridge = EqualWalls{},
            .front_overhang = 1_ft,
            .back_overhang = 2_ft,
            .rake_overhang = 1_ft,
            .bearing_height = 9_ft,
            .heel = 1_ft};
}
/// 24 x 40 ft, 6 in 12, chord line 10 ft up at the walls, no overhangs.
HipRoof plain_hip() {
    return {.width = 24_ft,
            .length = 40_ft,
            .pitch = Pitch::in_12(6),
            .eave_overhang = no_length,
            .bearing_height = 9_ft,
            .heel = 1_ft};
}
MainGable house(Length overhang) {
    return {.width = 24_ft,
            .length = 40_ft,
            .pitch = Pitch::in_12(6),
            .eave_overhang = overhang,
            .rake_overhang = overhang,
            .bearing_height = 9_ft,
            .heel = 1_ft};
}
/// 8 ft deep, 3 in 12, along the whole front of the house with 1 ft overhangs.
PorchRoof front_porch(PorchTie tie) {
    return {.main = house(1_ft),
            .start = no_length,
            .along = 40_ft,
            .depth = 8_ft,
            .pitch = Pitch::in_12(3),
            .tie = tie,
            .eave_overhang = 1_ft,
            .rake_overhang = 1_ft};
}
GableWing wing_on(MainSide side, Length width, Length projection) {
    return {.side = side,
            .centre = 20_ft,
            .width = width,
            .projection = projection,
            .pitch = Pitch::in_12(6),
            .eave_overhang = no_length,
            .rake_overhang = no_length,
            .bearing_height = 9_ft,
            .heel = 1_ft};
}
}  // namespace

TEST_CASE("gable of unequal pitches by hand: the ridge placed in three ways") {
    UnequalGableRoof roof = saltbox();
    // Equal walls: 30 ft split 3 : 6, the steep side 10 ft, rising 5 ft. Eaves 10 - 1/2 and 10 - 2/4.
    ComposedRoof made = unequal_gable(roof);
    CHECK(made.names == std::vector<std::string>{"front", "back"});
    check_levels(made.ridges, {15.0});
    check_levels(made.eaves, {9.5});
    CHECK(has_corner(face(made, "front"), 41, 10, 15));
    CHECK(std::fabs(plan_feet(made, "front") - 11 * 42) < 1e-9);
    // Surfaces: 2 in of purlins stand 2 x sqrt(1.25) and 2 x sqrt(1.0625) plumb; the ridge moves to where both meet again.
    const FacePlanes front = planes_of(made, {2_in})[0];
    const double lifted = 2 * (std::sqrt(1.25) - std::sqrt(1.0625));  // in; towards the front by that over 6/12 + 3/12
    const BuildingPoint ridge = building_point(front.purlin, front.purlin.outline[2]);
    CHECK(std::fabs(inches(ridge.y) - (120 - lifted / 0.75)) < 1e-9);
    CHECK(std::fabs(inches(ridge.z) - (180 + 2 * std::sqrt(1.25) - lifted / 0.75 * 0.5)) < 1e-9);
    // The ridge 20 ft in: 10 ft above the front wall; the back chord line falls 10/4 = 2.5 ft to the wall, 3 ft to the eave.
    roof.ridge = RidgeAt{20_ft};
    made = unequal_gable(roof);
    check_levels(made.ridges, {20.0});
    check_levels(made.eaves, {9.5, 17.0});
    // Equal eaves, 3 ft out at the back: 34 ft from fascia to fascia, the front 34 x 3/9 of it, less 1 ft of overhang.
    roof.ridge = EqualEaves{};
    roof.back_overhang = 3_ft;
    made = unequal_gable(roof);
    check_levels(made.eaves, {9.5});
    check_levels(made.ridges, {9.5 + 34.0 / 3 / 2});
}

TEST_CASE("gambrel by hand") {
    // 20 ft wide; 4 ft at 18 in 12 rise 6 ft, the other 6 ft at 6 in 12 rise 3 ft.
    const ComposedRoof roof = gambrel({.width = 20_ft,
                                       .length = 30_ft,
                                       .lower_pitch = Pitch::in_12(18),
                                       .upper_pitch = Pitch::in_12(6),
                                       .break_run = 4_ft,
                                       .eave_overhang = 1_ft,
                                       .rake_overhang = no_length,
                                       .bearing_height = 8_ft,
                                       .heel = no_length});
    CHECK(roof.names == std::vector<std::string>{"lower front", "upper front", "upper back", "lower back"});
    check_levels(roof.ridges, {17.0});
    check_levels(roof.eaves, {6.5});
    CHECK(has_corner(face(roof, "upper front"), 0, 4, 14));
    CHECK(kinds(face(roof, "lower front")) ==
          std::vector{EdgeKind::eave, EdgeKind::rake, EdgeKind::pitch_break, EdgeKind::rake});
    // The upper plane has no eave: up is 0 at the pitch break, and 6 ft x sqrt(5)/2 at the ridge.
    const ChordPlane upper = plane_of(face(roof, "upper front"));
    CHECK(upper.outline[0] == PlanePoint{no_length, no_length});
    CHECK(off_by(upper.outline[2].up, 6_ft * std::sqrt(5.0) / 2) < 1e-9);
    CHECK(off_by(upper.outline[2].along, 30_ft) < 1e-9);
}

TEST_CASE("monitor by hand") {
    // 36 ft wide, 12 ft raised: 12 ft at 4 in 12 rise 4 ft, 3 ft of wall, 6 ft at 4 in 12 rise 2 ft.
    const ComposedRoof roof = monitor({.width = 36_ft,
                                       .length = 40_ft,
                                       .monitor_width = 12_ft,
                                       .lower_pitch = Pitch::in_12(4),
                                       .upper_pitch = Pitch::in_12(4),
                                       .raise = 3_ft,
                                       .eave_overhang = 1.5_ft,
                                       .monitor_overhang = 1_ft,
                                       .rake_overhang = 1_ft,
                                       .bearing_height = 9_ft,
                                       .heel = 1_ft});
    check_levels(roof.ridges, {19.0});
    check_levels(roof.eaves, {9.5, 17.0 - 1.0 / 3});
    CHECK(has_corner(face(roof, "lower front"), -1, 12, 14));
    CHECK(kinds(face(roof, "lower front")) ==
          std::vector{EdgeKind::eave, EdgeKind::rake, EdgeKind::wall, EdgeKind::rake});
    // 39 x 42 ft of plan, and twice 1 x 42 ft where the raised eaves pass over.
    CHECK(std::fabs(square_feet(roof.plan) - (39 * 42 + 84)) < 1e-9);
}

TEST_CASE("hip by hand: regular and with steeper ends") {
    HipRoof roof = plain_hip();
    ComposedRoof made = hip(roof);
    // 12 ft of run on every side, rising 6 ft: the ridge from 12 to 28 ft.
    check_levels(made.ridges, {16.0});
    check_levels(made.eaves, {10.0});
    CHECK(has_corner(face(made, "front"), 12, 12, 16));
    CHECK(has_corner(face(made, "front"), 28, 12, 16));
    CHECK(std::fabs(plan_feet(made, "front") - (40 + 16) / 2.0 * 12) < 1e-9);
    CHECK(std::fabs(plan_feet(made, "left") - 24 * 12 / 2.0) < 1e-9);
    CHECK(count(made, EdgeKind::hip) == 8);
    // Regular hips rise plumb: 1.5 in of purlins lift the whole roof by 1.5 x sqrt(5)/2.
    const FacePlanes front = planes_of(made, {1.5_in})[0];
    const BuildingPoint end = building_point(front.purlin, front.purlin.outline[2]);
    CHECK(off_by(end.x, 28_ft) < 1e-9);
    CHECK(off_by(end.z, 16_ft + 1.5_in * std::sqrt(5.0) / 2) < 1e-9);
    // Ends at 12 in 12 run 6 ft; with 1 ft overhangs eaves at 9.5 ft, the ends' heel 1 - 1/2 + 1 = 1.5 ft.
    roof.end_pitch = Pitch::in_12(12);
    roof.eave_overhang = 1_ft;
    made = hip(roof);
    CHECK(off_by(hip_end_heel(roof), 1.5_ft) < 1e-9);
    check_levels(made.eaves, {9.5});
    CHECK(has_corner(face(made, "right"), 41 - 6.5, 12, 16));
    CHECK(std::fabs(plan_feet(made, "right") - 26 * 6.5 / 2) < 1e-9);
}

TEST_CASE("Dutch gable by hand") {
    const HipRoof base = plain_hip();
    const ComposedRoof roof = dutch_gable({.width = base.width,
                                           .length = base.length,
                                           .pitch = base.pitch,
                                           .gablet_run = 6_ft,
                                           .gablet_overhang = no_length,
                                           .eave_overhang = no_length,
                                           .bearing_height = base.bearing_height,
                                           .heel = base.heel});
    // The gablet's wall 6 ft in, where the hip end has risen 3 ft and is 12 ft wide; the ridge from 6 to 34 ft.
    REQUIRE(roof.faces.size() == 4);
    check_levels(roof.ridges, {16.0});
    CHECK(has_corner(face(roof, "front"), 6, 12, 16));
    CHECK(has_corner(face(roof, "left"), 6, 6, 13));
    CHECK(std::fabs(plan_feet(roof, "left") - (24 + 12) / 2.0 * 6) < 1e-9);
    CHECK(std::fabs(plan_feet(roof, "front") - (960 - 216) / 2.0) < 1e-9);
    CHECK(kinds(face(roof, "left")) == std::vector{EdgeKind::eave, EdgeKind::hip, EdgeKind::wall, EdgeKind::hip});
    CHECK(kinds(face(roof, "front")) ==
          std::vector{EdgeKind::eave, EdgeKind::hip, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake, EdgeKind::hip});
}

TEST_CASE("jerkinhead by hand") {
    const ComposedRoof roof = jerkinhead({.width = 24_ft,
                                          .length = 40_ft,
                                          .pitch = Pitch::in_12(12),
                                          .end_pitch = Pitch::in_12(12),
                                          .hip_run = 4_ft,
                                          .eave_overhang = no_length,
                                          .rake_overhang = no_length,
                                          .bearing_height = 9_ft,
                                          .heel = 1_ft});
    // Ridge 12 ft up; the clipped eave 4 ft lower, 8 ft up, where the gable is 24 - 16 = 8 ft wide.
    check_levels(roof.ridges, {22.0});
    check_levels(roof.eaves, {10.0, 18.0});
    CHECK(has_corner(face(roof, "left"), 0, 8, 18));
    CHECK(has_corner(face(roof, "left"), 4, 12, 22));
    CHECK(std::fabs(plan_feet(roof, "left") - 8 * 4 / 2.0) < 1e-9);
    CHECK(kinds(face(roof, "front")) ==
          std::vector{EdgeKind::eave, EdgeKind::rake, EdgeKind::hip, EdgeKind::ridge, EdgeKind::hip, EdgeKind::rake});
}

TEST_CASE("porch by hand: tied to the wall, under the eave, breaking pitch") {
    // Tied to the wall 9 ft up: 8 + 1 ft at 3 in 12 fall 2.25 ft. Main eave at 10 - 1/2.
    ComposedRoof roof = porch(front_porch(TiedToWall{9_ft}));
    check_levels(roof.eaves, {6.75, 9.5});
    // The rakes pass the corners of the house by 1 ft, where the top edge is a high eave and no wall.
    CHECK(kinds(face(roof, "porch")) == std::vector{EdgeKind::eave, EdgeKind::rake, EdgeKind::high_eave, EdgeKind::wall,
                                                    EdgeKind::high_eave, EdgeKind::rake});
    CHECK(std::fabs(square_feet(roof.plan) - (26 * 42 + 9 * 42)) < 1e-9);  // the 1 ft of overhang counted twice
    // Half a foot under the eave: 9 ft at the fascia, 9.25 at the wall, 7 at the porch's eave.
    roof = porch(front_porch(TiedUnderEave{6_in}));
    CHECK(has_corner(face(roof, "porch"), 0, 0, 9.25));
    check_levels(roof.eaves, {7.0, 9.5});
    // Breaking at the wall: the main overhang is gone, the main front starts at a pitch break.
    roof = porch(front_porch(BreaksPitch{no_length}));
    CHECK(kinds(face(roof, "front")) ==
          std::vector{EdgeKind::pitch_break, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
    check_levels(roof.eaves, {7.75, 9.5});
    CHECK(std::fabs(square_feet(roof.plan) - (24 + 1 + 9) * 42) < 1e-9);
    // 4 ft up the roof: 12 ft at the break, 13 ft of porch fall 3.25 ft.
    roof = porch(front_porch(BreaksPitch{4_ft}));
    CHECK(has_corner(face(roof, "porch"), 41, 4, 12));
    check_levels(roof.eaves, {8.75, 9.5});
    // A porch of 10 ft in the middle steps above the main slope at its ends: rakes over walls.
    PorchRoof narrow = front_porch(BreaksPitch{4_ft});
    narrow.start = 15_ft;
    narrow.along = 10_ft;
    narrow.rake_overhang = no_length;
    roof = porch(narrow);
    CHECK(count(roof, EdgeKind::wall) == 2);
    CHECK(std::fabs(plan_feet(roof, "front") - (13 * 42 - 5 * 10)) < 1e-9);
}

TEST_CASE("wrap-around porch by hand") {
    WrapAroundPorch roof{.main = house(no_length),
                         .pitch = Pitch::in_12(3),
                         .height = 9_ft,
                         .eave_overhang = no_length,
                         .rake_overhang = no_length,
                         .front = 8_ft,
                         .right = 8_ft};
    ComposedRoof made = wrap_around_porch(roof);
    // 8 ft at 3 in 12 fall 2 ft; the hip from the house's corner to the porch's, over 8 x 8 ft.
    check_levels(made.eaves, {7.0, 10.0});
    CHECK(has_corner(face(made, "porch front"), 40, 0, 9));
    CHECK(has_corner(face(made, "porch front"), 48, -8, 7));
    CHECK(std::fabs(plan_feet(made, "porch front") - (40 * 8 + 32)) < 1e-9);
    CHECK(std::fabs(plan_feet(made, "porch right") - (24 * 8 + 32)) < 1e-9);
    CHECK(count(made, EdgeKind::hip) == 2);
    CHECK(count(made, EdgeKind::wall) == 2);
    // 12 ft deep on the right: the same 2 ft of fall, 2 in 12.
    roof.right = 12_ft;
    made = wrap_around_porch(roof);
    check_levels(made.eaves, {7.0, 10.0});
    CHECK(has_corner(face(made, "porch right"), 52, -8, 7));
    CHECK(std::fabs(plane_of(face(made, "porch right")).pitch.rise_in_12() - 2) < 1e-12);
    // All round: four hips, and no end.
    roof.back = 8_ft;
    roof.left = 12_ft;
    made = wrap_around_porch(roof);
    CHECK(count(made, EdgeKind::hip) == 8);
    CHECK(count(made, EdgeKind::rake) == 4);  // the house's own
}

TEST_CASE("cross gable, T and cross by hand") {
    // 12 ft of 6 in 12 rise 3 ft; the ridge runs 6 ft into the main slope; two triangles of 6 x 6 / 2.
    ComposedRoof roof =
        gable_with_wings({.main = house(no_length), .wings = {wing_on(MainSide::front, 12_ft, no_length)}});
    check_levels(roof.ridges, {13.0, 16.0});
    check_levels(roof.eaves, {10.0});
    CHECK(has_corner(face(roof, "front"), 20, 6, 13));
    CHECK(std::fabs(plan_feet(roof, "wing 1 left") - 18) < 1e-9);
    CHECK(std::fabs(plan_feet(roof, "front") - (40 * 12 - 36)) < 1e-9);
    CHECK(count(roof, EdgeKind::valley) == 4);
    // Flush, the triangle hangs between valley, ridge and rake, without an eave: up is 0 at its lowest corner.
    const ChordPlane left = plane_of(face(roof, "wing 1 left"));
    CHECK(left.outline[0] == PlanePoint{no_length, no_length});
    CHECK(off_by(building_point(left, left.outline[0]).z, 10_ft) < 1e-9);
    // A T: 10 ft out, 6 x 10 ft more on either side, eaves of its own.
    roof = gable_with_wings({.main = house(no_length), .wings = {wing_on(MainSide::front, 12_ft, 10_ft)}});
    CHECK(std::fabs(plan_feet(roof, "wing 1 right") - 78) < 1e-9);
    check_levels(roof.eaves, {10.0});
    // A cross of equal ridges: four valleys meet over the middle, both slopes of the house are cut in two.
    roof = gable_with_wings({.main = house(no_length),
                             .wings = {wing_on(MainSide::front, 24_ft, 10_ft), wing_on(MainSide::back, 24_ft, 10_ft)}});
    REQUIRE(roof.faces.size() == 8);
    CHECK(roof.names[0] == "front 1");
    CHECK(roof.names[1] == "front 2");
    for (const RoofFace& f : roof.faces) {
        CHECK(has_corner(f, 20, 12, 16));
    }
    CHECK(count(roof, EdgeKind::valley) == 8);
    check_levels(roof.ridges, {16.0});
}

TEST_CASE("L by hand: equal ridges, and a lower wing") {
    LRoof l{.main = house(no_length), .wing_width = 24_ft, .projection = 16_ft, .wing_pitch = Pitch::in_12(6)};
    ComposedRoof roof = l_roof(l);
    // Ridges meet 12 ft in from the outer corner, (28, 12); the valley comes there from the inner corner (16, 0).
    REQUIRE(roof.faces.size() == 4);
    for (const char* name : {"front", "back", "right", "left"}) {
        CHECK(has_corner(face(roof, name), 28, 12, 16));
    }
    CHECK(std::fabs(plan_feet(roof, "front") - (16 + 28) / 2.0 * 12) < 1e-9);
    CHECK(std::fabs(plan_feet(roof, "back") - (40 + 28) / 2.0 * 12) < 1e-9);
    CHECK(std::fabs(plan_feet(roof, "left") - (16 + 28) / 2.0 * 12) < 1e-9);
    CHECK(count(roof, EdgeKind::valley) == 2);
    CHECK(count(roof, EdgeKind::hip) == 2);
    // A 12 ft wing: its ridge 3 ft up runs to (34, 6); from there a short hip goes on to the main ridge.
    l.wing_width = 12_ft;
    roof = l_roof(l);
    check_levels(roof.ridges, {13.0, 16.0});
    CHECK(has_corner(face(roof, "right"), 34, 6, 13));
    // Right: 22 x 6, then 6 ft from 6 to 12 ft deep, then 12 ft down to nothing.
    CHECK(std::fabs(plan_feet(roof, "right") - (132 + 54 + 72)) < 1e-9);
    CHECK(count(roof, EdgeKind::hip) == 4);
}

TEST_CASE("what a shape cannot be is refused, naming the inputs") {
    const auto fault = [](const auto& make) { return refusal_of(make); };
    UnequalGableRoof gable = saltbox();
    gable.ridge = RidgeAt{30_ft};
    CHECK(fault([&] { (void)unequal_gable(gable); }).path == "roof.ridge.run");
    gable.front_pitch = Pitch::in_12(0);
    CHECK(fault([&] { (void)unequal_gable(gable); }).path == "roof.front_pitch");
    PorchRoof steep = front_porch(BreaksPitch{no_length});
    steep.pitch = Pitch::in_12(6);
    CHECK(fault([&] { (void)porch(steep); }).path == "roof.pitch and roof.main.pitch");
    CHECK(fault([&] { (void)porch(front_porch(TiedToWall{10_ft})); }).path == "roof.tie and roof.main");
    GableWithWings high{.main = house(no_length), .wings = {wing_on(MainSide::front, 30_ft, no_length)}};
    CHECK(fault([&] { (void)gable_with_wings(high); }).code == FaultCode::contradiction);
    GableWithWings low{.main = house(no_length), .wings = {wing_on(MainSide::front, 12_ft, 10_ft)}};
    low.wings[0].bearing_height = 6_ft;
    CHECK(fault([&] { (void)gable_with_wings(low); }).code == FaultCode::not_supported);
    WrapAroundPorch open{.main = house(no_length),
                         .pitch = Pitch::in_12(3),
                         .height = 9_ft,
                         .eave_overhang = no_length,
                         .rake_overhang = no_length,
                         .front = 8_ft,
                         .back = 8_ft};
    CHECK(fault([&] { (void)wrap_around_porch(open); }).code == FaultCode::does_not_fit);
    open.right = 8_ft;
    open.height = 11_ft;
    CHECK(fault([&] { (void)wrap_around_porch(open); }).path == "roof.height and roof.main");
    LRoof stub{.main = house(no_length), .wing_width = 24_ft, .projection = 16_ft, .wing_pitch = Pitch::in_12(1)};
    CHECK(fault([&] { (void)l_roof(stub); }).path == "roof.main.length");
    for (const Length none : lengths_that_are_none()) {
        HipRoof bad = plain_hip();
        bad.width = none;
        CHECK(fault([&] { (void)hip(bad); }).path == "roof.width");
        GableWithWings wings{.main = house(no_length), .wings = {wing_on(MainSide::front, 12_ft, none)}};
        CHECK(fault([&] { (void)gable_with_wings(wings); }).path == "roof.wings[0].projection");
    }
}
