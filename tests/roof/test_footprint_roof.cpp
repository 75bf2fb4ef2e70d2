// SPDX-License-Identifier: BSL-1.0

// Roofs over single footprints: outside tables, roofs worked by hand, and what is refused.

#include <eavewright/roof/footprint_roof.hpp>

#include "roof/footprints.hpp"
#include "roof/roof_checks.hpp"
#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/table.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using footprints::Corners;
using footprints::footprint;

namespace {
/// The footprints that the tables name, corners as in their source line.
const std::map<std::string, Corners>& named_footprints() {
    static const std::map<std::string, Corners> all{
        {"rect_40x24", {{0, 0}, {40, 0}, {40, 24}, {0, 24}}},
        {"square_24", {{0, 0}, {24, 0}, {24, 24}, {0, 24}}},
        {"L_equal_span", {{0, 0}, {40, 0}, {40, 24}, {24, 24}, {24, 40}, {0, 40}}},
    };
    return all;
}
double number(const TableRow& row, const std::string& column) { return std::stod(row.at(column)); }
bool is_at(const BuildingPoint& p, double x_ft, double y_ft) {
    return std::fabs(feet(p.x) - x_ft) < 1e-9 && std::fabs(feet(p.y) - y_ft) < 1e-9;
}
std::size_t count_arcs(const FootprintRoof& roof, EdgeKind kind) {
    std::size_t count = 0;
    for (const FootprintArc& arc : roof.arcs) {
        count += arc.kind == kind ? 1U : 0U;
    }
    return count;
}
std::string kinds_of(const RoofFace& face) {
    std::string text;
    for (const FaceEdge& edge : face.edges) {
        text += (text.empty() ? "" : " ") + std::string{name_of(edge.kind)};
    }
    return text;
}
Fault fault_of(const Footprint& plan) {
    return refusal_of([&] { (void)roof_over(plan); });
}
}  // namespace

TEST_CASE("nodes of hip roofs lie where the table puts them") {
    std::map<std::string, std::size_t> rows;
    for (const TableRow& row : read_table("hip_skeleton_nodes.csv")) {
        const std::string name = row.at("footprint");
        ++rows[name];
        for (const auto& [column, pitch] :
             std::map<std::string, double>{{"height_at_4_12", 4}, {"height_at_6_12", 6}, {"height_at_8_12", 8}}) {
            const FootprintRoof roof = roof_over(footprint(named_footprints().at(name), {pitch}, 9_ft));
            bool found = false;
            for (const BuildingPoint& node : roof.nodes) {
                found = found || (is_at(node, number(row, "x"), number(row, "y")) &&
                                  std::fabs(feet(node.z) - 9.0 - number(row, column)) < 5e-9);
            }
            CAPTURE(name);
            CAPTURE(column);
            CHECK(found);
        }
    }
    for (const auto& [name, count] : rows) {
        CHECK(roof_over(footprint(named_footprints().at(name))).nodes.size() ==
              named_footprints().at(name).size() + count);
    }
}

TEST_CASE("hips, valleys and ridges have the lengths of the table") {
    std::map<std::string, std::size_t> rows;
    for (const TableRow& row : read_table("hip_skeleton_edges.csv")) {
        const std::string name = row.at("footprint");
        ++rows[name];
        for (const auto& [column, pitch] :
             std::map<std::string, double>{{"length_4_12", 4}, {"length_6_12", 6}, {"length_8_12", 8}}) {
            const FootprintRoof roof = roof_over(footprint(named_footprints().at(name), {pitch}));
            bool found = false;
            for (const FootprintArc& arc : roof.arcs) {
                const BuildingPoint a = roof.nodes[arc.from];
                const BuildingPoint b = roof.nodes[arc.to];
                const bool there =
                    is_at(a, number(row, "x1"), number(row, "y1")) && is_at(b, number(row, "x2"), number(row, "y2"));
                const bool back =
                    is_at(b, number(row, "x1"), number(row, "y1")) && is_at(a, number(row, "x2"), number(row, "y2"));
                const Length plan = hypotenuse(b.x - a.x, b.y - a.y);
                found = found || ((there || back) && name_of(arc.kind) == row.at("type") &&
                                  std::fabs(feet(plan) - number(row, "plan_length")) < 5.1e-9 &&
                                  std::fabs(feet(hypotenuse(plan, b.z - a.z)) - number(row, column)) < 5.1e-9);
            }
            CAPTURE(name);
            CAPTURE(column);
            CHECK(found);
        }
    }
    for (const auto& [name, count] : rows) {
        CHECK(roof_over(footprint(named_footprints().at(name))).arcs.size() == count);
    }
}

TEST_CASE("a T with a narrow stem: one plane where the bar's two eaves lie in one line") {
    const Footprint plan =
        footprint({{0, 0}, {60, 0}, {60, 28}, {38, 28}, {38, 48}, {22, 48}, {22, 28}, {0, 28}}, {6.0});
    const FootprintRoof roof = roof_over(plan);
    roof_checks::check_faces(roof.faces, plan_area(plan.corners));
    REQUIRE(roof.faces.size() == 7);
    CHECK(roof.face_of_side[2] == roof.face_of_side[6]);
    CHECK(kinds_of(roof.faces[2]) == "eave valley valley eave hip ridge hip");
    CHECK(square_feet(plan_area(roof.faces[2].outline)) == doctest::Approx(580.0).epsilon(1e-12));  // 644 - 8 x 8
    CHECK(feet(roof.highest) == doctest::Approx(7.0).epsilon(1e-12));  // half the bar's 28 ft at 6 in 12
    CHECK(count_arcs(roof, EdgeKind::valley) == 2);
    CHECK(count_arcs(roof, EdgeKind::ridge) == 2);
}

TEST_CASE("a T with a stem as wide as its bar: the bar's plane parts at the ridge") {
    const Footprint plan = footprint({{0, 0}, {60, 0}, {60, 20}, {40, 20}, {40, 50}, {20, 50}, {20, 20}, {0, 20}});
    const FootprintRoof roof = roof_over(plan);
    roof_checks::check_faces(roof.faces, plan_area(plan.corners));
    CHECK(roof.faces.size() == 8);
    CHECK(roof.face_of_side[2] != roof.face_of_side[6]);
    CHECK(kinds_of(roof.faces[0]) == "eave hip ridge ridge hip");  // the stem's ridge ends on the bar's
}

TEST_CASE("a cross of equal arms: four ridges and four valleys meet in one point") {
    const Footprint plan = footprint({{10, 0},
                                      {20, 0},
                                      {20, 10},
                                      {30, 10},
                                      {30, 20},
                                      {20, 20},
                                      {20, 30},
                                      {10, 30},
                                      {10, 20},
                                      {0, 20},
                                      {0, 10},
                                      {10, 10}});
    const FootprintRoof roof = roof_over(plan);
    roof_checks::check_faces(roof.faces, plan_area(plan.corners));
    CHECK(roof.faces.size() == 12);
    CHECK(roof.nodes.size() == 12 + 5);
    CHECK(count_arcs(roof, EdgeKind::ridge) == 4);
    CHECK(count_arcs(roof, EdgeKind::valley) == 4);
    CHECK(count_arcs(roof, EdgeKind::hip) == 8);
}

TEST_CASE("regular polygons come to one point") {
    for (std::size_t n = 3; n <= most_footprint_corners; ++n) {
        Corners outline;
        for (std::size_t i = 0; i < n; ++i) {
            const double angle = 2.0 * pi * static_cast<double>(i) / static_cast<double>(n);
            outline.push_back({30.0 * std::cos(angle) + 7.0, 30.0 * std::sin(angle) - 3.0});
        }
        const FootprintRoof roof = roof_over(footprint(outline, {12.0}));
        CHECK(roof.nodes.size() == n + 1);
        CHECK(count_arcs(roof, EdgeKind::hip) == n);
        CHECK(roof.arcs.size() == n);
        const double inner = 30.0 * std::cos(pi / static_cast<double>(n));
        CHECK(feet(roof.highest) == doctest::Approx(inner).epsilon(1e-12));
    }
}

TEST_CASE("a hip roof with four pitches, worked by hand") {
    // Front 6 and back 4 in 12 over 24 ft: 6 y = 4 (24 - y), y = 9.6 ft, ridge 4.8 ft up. The left end, 12 in 12, meets
    // it 4.8 ft in; the right end, 8 in 12, 7.2 ft in.
    const FootprintRoof roof = roof_over(footprint(footprints::rectangle(40, 24), {6, 8, 4, 12}, 10_ft));
    REQUIRE(roof.nodes.size() == 6);
    CHECK(is_at(roof.nodes[4], 4.8, 9.6));
    CHECK(is_at(roof.nodes[5], 32.8, 9.6));
    CHECK(feet(roof.highest) == doctest::Approx(14.8).epsilon(1e-12));
    CHECK(kinds_of(roof.faces[0]) == "eave hip ridge hip");
    CHECK(kinds_of(roof.faces[1]) == "eave hip hip");
    CHECK(off_by(roof.faces[0].plane.height, 10_ft) == 0.0);
    CHECK(roof.faces[0].plane.rise_y == doctest::Approx(0.5).epsilon(1e-15));
    CHECK(roof.faces[3].plane.rise_x == doctest::Approx(1.0).epsilon(1e-15));
}

TEST_CASE("gables: both ends, one end, and a single slope") {
    const Corners house = footprints::rectangle(40, 24);
    const FootprintRoof gable_roof = roof_over(footprint(house, {6, 0, 6, 0}));
    REQUIRE(gable_roof.faces.size() == 2);
    CHECK(kinds_of(gable_roof.faces[0]) == "eave rake ridge rake");
    CHECK(gable_roof.faces[0].edges[2].neighbour == std::size_t{1});
    CHECK_FALSE(gable_roof.faces[0].edges[1].neighbour.has_value());
    CHECK_FALSE(gable_roof.face_of_side[1].has_value());
    CHECK(gable_roof.face_of_side[2] == std::size_t{1});
    CHECK(feet(gable_roof.highest) == doctest::Approx(6.0).epsilon(1e-12));

    const FootprintRoof half_hip = roof_over(footprint(house, {6, 6, 6, 0}));
    REQUIRE(half_hip.faces.size() == 3);
    CHECK(kinds_of(half_hip.faces[0]) == "eave hip ridge rake");
    CHECK(kinds_of(half_hip.faces[1]) == "eave hip hip");

    const FootprintRoof lean_to = roof_over(footprint(house, {6, 0, 0, 0}));
    REQUIRE(lean_to.faces.size() == 1);
    CHECK(kinds_of(lean_to.faces[0]) == "eave rake high_eave rake");
    CHECK(feet(lean_to.highest) == doctest::Approx(12.0).epsilon(1e-12));

    const FootprintRoof corner = roof_over(footprint(house, {6, 8, 0, 0}));
    REQUIRE(corner.faces.size() == 2);
    CHECK(kinds_of(corner.faces[0]) == "eave hip high_eave rake");
    CHECK(kinds_of(corner.faces[1]) == "eave rake hip");
    CHECK(feet(corner.highest) == doctest::Approx(12.0).epsilon(1e-12));
}

TEST_CASE("sides in one line share a face and keep their eaves") {
    const FootprintRoof roof = roof_over(footprint({{0, 0}, {10, 0}, {20, 0}, {20, 30}, {0, 30}}, {4, 4, 8, 6, 6}));
    REQUIRE(roof.faces.size() == 4);
    CHECK(kinds_of(roof.faces[0]) == "eave eave hip hip");
    CHECK(roof.face_of_side[0] == roof.face_of_side[1]);
    CHECK(roof.faces[0].outline[1] == GroundPoint{10_ft, 0_ft});
}

TEST_CASE("sides of their own pitch that would come level in one line are refused, naming both") {
    // Side 0, 4 in 12, catches up with side 2, 8 in 12, 5 ft further in: at 10 ft of run, before the plan is 30 ft
    // deep.
    const Fault level =
        fault_of(footprint({{0, 0}, {20, 0}, {20, 5}, {40, 5}, {40, 35}, {0, 35}}, {4, 24, 8, 8, 8, 8}));
    CHECK(level.code == FaultCode::contradiction);
    CHECK(level.path == "footprint.sides[0] and footprint.sides[2]");
    // With the steeper side in front it falls ever further behind.
    CHECK(fault_of(footprint({{0, 0}, {20, 0}, {20, 5}, {40, 5}, {40, 35}, {0, 35}}, {8, 24, 4, 8, 8, 8})).path ==
          "no fault");

    const Fault line = fault_of(footprint({{0, 0}, {10, 0}, {20, 0}, {20, 30}, {0, 30}}, {4, 8, 8, 6, 6}));
    CHECK(line.code == FaultCode::contradiction);
    CHECK(line.path == "footprint.sides[0] and footprint.sides[1]");
    const Fault gable_in_line = fault_of(footprint({{0, 0}, {10, 0}, {20, 0}, {20, 30}, {0, 30}}, {4, 0, 8, 6, 6}));
    CHECK(gable_in_line.code == FaultCode::contradiction);
    const Fault no_slope = fault_of(footprint(footprints::rectangle(20, 30), {0}));
    CHECK(no_slope.code == FaultCode::contradiction);
    CHECK(no_slope.path == "footprint.sides[0] and footprint.sides[1]");
}

TEST_CASE("sides that differ need an outline that is convex or has right angles only") {
    const Corners bent{{0, 0}, {40, 0}, {40, 24}, {22, 20}, {24, 40}, {0, 40}};
    CHECK(fault_of(footprint(bent, {6})).path == "no fault");
    CHECK(fault_of(footprint(bent, {6, 6, 7, 6, 6, 6})).code == FaultCode::not_supported);
    const Corners l_plan{{0, 0}, {40, 0}, {40, 24}, {24, 24}, {24, 40}, {0, 40}};
    const Fault inside = fault_of(footprint(l_plan, {6, 6, 0, 6, 6, 6}));
    CHECK(inside.code == FaultCode::not_supported);
    CHECK(inside.path == "footprint.sides[2] and footprint.sides[3]");
    CHECK(fault_of(footprint(footprints::turned(l_plan, 0.7, 3, 5), {6, 0, 6, 6, 0, 7})).path == "no fault");
}

TEST_CASE("outlines that are none are refused, saying why") {
    CHECK(fault_of(footprint({{0, 0}, {10, 0}})).code == FaultCode::out_of_range);
    CHECK(fault_of(footprint(Corners(25, {0.0, 0.0}))).code == FaultCode::too_much_work);
    CHECK(fault_of(footprint({{0, 0}, {0, 30}, {20, 30}, {20, 0}})).code == FaultCode::out_of_order);
    const Fault crossed = fault_of(footprint({{0, 0}, {20, 20}, {20, 0}, {0, 20}}));
    CHECK(crossed.code == FaultCode::contradiction);
    CHECK(crossed.path == "footprint.sides[0] and footprint.sides[2]");
    // A corner on another side, a side run back over, a side of no length.
    CHECK(fault_of(footprint({{0, 0}, {40, 0}, {40, 20}, {20, 0}, {0, 20}})).code == FaultCode::contradiction);
    CHECK(fault_of(footprint({{0, 0}, {40, 0}, {40, 20}, {40, 10}, {0, 20}})).code == FaultCode::contradiction);
    const Fault empty_side = fault_of(footprint({{0, 0}, {40, 0}, {40, 0}, {0, 20}}));
    CHECK(empty_side.code == FaultCode::out_of_range);
    CHECK(empty_side.path == "footprint.sides[1]");

    Footprint flat = footprint(footprints::rectangle(20, 30));
    flat.sides[2] = SlopedSide{Pitch::in_12(0)};
    CHECK(fault_of(flat).path == "footprint.sides[2].pitch");
    Footprint short_of_sides = footprint(footprints::rectangle(20, 30));
    short_of_sides.sides.pop_back();
    CHECK(fault_of(short_of_sides).path == "footprint.sides");
    for (const Length none : lengths_that_are_none()) {
        Footprint wild = footprint(footprints::rectangle(20, 30));
        wild.corners[1].x = none;
        CHECK(fault_of(wild).path == "footprint.corners[1].x");
        CHECK(fault_of(wild).code == FaultCode::not_finite);
        Footprint afloat = footprint(footprints::rectangle(20, 30));
        afloat.eave_height = none;
        CHECK(fault_of(afloat).path == "footprint.eave_height");
    }
}

TEST_CASE("every field of a footprint's roof has a name") {
    std::size_t fields = 0;
    for_each_field<FootprintRoof>([&](const auto& field) { fields += field.name.empty() ? 0U : 1U; });
    CHECK(fields == 7);
}
