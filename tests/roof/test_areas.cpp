// SPDX-License-Identifier: BSL-1.0

// Areas of planes against Boost.Geometry and against closed forms.

#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/shape.hpp>

#include "support/printing.hpp"
#include "support/seeded_numbers.hpp"
#include "support/table.hpp"

#include <doctest/doctest.h>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<double>;
using BoostPolygon = bg::model::polygon<BoostPoint, false, false>;
using Outline = std::vector<PlanePoint>;

DeckPlane plane_of(Outline outline) {
    return DeckPlane{.pitch = Pitch::in_12(4),
                     .outline = std::move(outline),
                     .edges = {},
                     .openings = {},
                     .placement = {{no_length, no_length, no_length}, 1.0, 0.0}};
}
BoostPolygon boost_polygon(const DeckPlane& plane) {
    BoostPolygon result;
    for (const PlanePoint p : plane.outline) {
        result.outer().emplace_back(inches(p.along), inches(p.up));
    }
    for (const Outline& opening : plane.openings) {
        result.inners().emplace_back();
        for (const PlanePoint p : opening) {
            result.inners().back().emplace_back(inches(p.along), inches(p.up));
        }
    }
    bg::correct(result);
    return result;
}
Outline in_feet(std::initializer_list<std::array<double, 2>> points) {
    Outline outline;
    for (const auto& p : points) {
        outline.push_back({12_in * p[0], 12_in * p[1]});
    }
    return outline;
}
Outline in_inches(std::initializer_list<std::array<double, 2>> points) {
    Outline outline;
    for (const auto& p : points) {
        outline.push_back({one_inch * p[0], one_inch * p[1]});
    }
    return outline;
}
double table_value(const std::string& start, const char* column = "value") {
    for (const TableRow& row : read_table("polygon_checks.csv")) {
        if (row.at("case").rfind(start, 0) == 0) {
            return std::stod(row.at(column));
        }
    }
    FAIL("no row " << start);
    return 0.0;
}
}  // namespace

TEST_CASE("ten corners and three openings") {
    DeckPlane plane = plane_of({});
    for (const TableRow& row : read_table("plane_10_corners.csv")) {
        const PlanePoint point{one_inch * std::stod(row.at("x_in")), one_inch * std::stod(row.at("y_in"))};
        const std::string ring = row.at("ring");
        if (ring == "outline") {
            plane.outline.push_back(point);
            continue;
        }
        const auto number = static_cast<std::size_t>(ring.back() - '0');
        plane.openings.resize(std::max(plane.openings.size(), number));
        plane.openings[number - 1].push_back(point);
    }
    REQUIRE(plane.outline.size() == 10);
    REQUIRE(plane.openings.size() == 3);
    CHECK(square_inches(net_area(plane)) == 844960.0);  // the source line of the table
    CHECK(bg::area(boost_polygon(plane)) == 844960.0);
    CHECK_FALSE(is_convex(plane.outline));
    // An opening counts the same whichever way round it is written.
    std::reverse(plane.openings[1].begin(), plane.openings[1].end());
    CHECK(square_inches(net_area(plane)) == 844960.0);
}

TEST_CASE("closed forms") {
    for (const int n : {3, 4, 5, 6, 8, 12}) {
        Outline outline;
        for (int i = 0; i < n; ++i) {
            outline.push_back({one_inch * std::cos(2.0 * pi * i / n), one_inch * std::sin(2.0 * pi * i / n)});
        }
        const double expected = table_value("regular " + std::to_string(n) + "-gon");
        CHECK(std::fabs(square_inches(signed_area(outline)) - expected) < 0.51e-10);
        CHECK(is_convex(outline));
        std::reverse(outline.begin(), outline.end());
        CHECK(std::fabs(square_inches(signed_area(outline)) + expected) < 0.51e-10);
        CHECK_FALSE(is_convex(outline));
    }
    const Outline l_shape = in_feet({{0, 0}, {40, 0}, {40, 12}, {24, 12}, {24, 24}, {0, 24}});
    CHECK(square_feet(signed_area(l_shape)) == table_value("L-shape 40x24"));
    CHECK_FALSE(is_convex(l_shape));
    CHECK(square_inches(signed_area(in_inches({{0, 0}, {14, 0}, {5, 12}}))) == table_value("triangle 13-14-15"));
    CHECK(square_inches(signed_area(in_inches({{0, 0}, {4, 0}, {4, 3}, {2, 5}, {0, 3}}))) ==
          table_value("polygon (0,0)"));
    CHECK(square_inches(signed_area(in_inches({{0, 0}, {10, 0}, {10, 2}, {2, 6}, {0, 6}}))) ==
          table_value("rectangle 0..10"));
    DeckPlane holed = plane_of(in_inches({{0, 0}, {12, 0}, {12, 8}, {0, 8}}));
    holed.openings.push_back(in_inches({{3, 2}, {6, 2}, {6, 5}, {3, 5}}));
    CHECK(square_inches(net_area(holed)) == table_value("rectangle 0..12"));
    const Outline bow_tie = in_inches({{0, 0}, {2, 2}, {2, 0}, {0, 2}});
    CHECK(square_inches(signed_area(bow_tie)) == table_value("self-touching"));
    CHECK_FALSE(is_convex(bow_tie));
    // Past the lengths that enter the library, to see that the sum does not cancel.
    const Outline sliver = in_inches({{0, 0}, {1e8, 0}, {1e8, 1}, {0, 1e-8 + 1}});
    CHECK(std::fabs(2.0 * square_inches(signed_area(sliver)) - table_value("thin sliver")) < 1e-7);
}

TEST_CASE("a gable and a hip roof have plan area times slope factor") {
    const GableRoof in{.width = 40_ft,
                       .length = 60_ft,
                       .pitch = Pitch::in_12(4),
                       .eave_overhang = 12_in,
                       .rake_overhang = 12_in,
                       .build_up = {no_length},
                       .bearing_height = 10_ft,
                       .heel = 6_in};
    const RoofShape shape = gable(in);
    const double area = square_feet(net_area(shape.slopes[0].chord)) + square_feet(net_area(shape.slopes[1].chord));
    CHECK(std::fabs(area - table_value("gable roof 40x60")) < 0.51e-6);
    CHECK(std::fabs(feet(shape.slopes[0].chord.outline[2].up) - table_value("gable roof 40x60", "second_value")) <
          0.51e-6);
    // The four planes of a hip roof, 40 x 24 ft at 6 in 12.
    const double up = feet(Pitch::in_12(6).slope_over(12_ft));
    const double hip = 2.0 * square_feet(signed_area(in_feet({{0, 0}, {40, 0}, {28, up}, {12, up}}))) +
                       2.0 * square_feet(signed_area(in_feet({{0, 0}, {24, 0}, {12, up}})));
    CHECK(std::fabs(hip - table_value("hip roof 40x24")) < 0.51e-6);
}

TEST_CASE("random planes have the area that Boost.Geometry finds") {
    SeededNumbers random{844960};
    for (int i = 0; i < sweep(3000); ++i) {
        // Star-shaped about a centre far from the origin: corners at ascending angles.
        const int n = random.whole(5, 14);
        const double cx = random.between(-1e5, 1e5);
        const double cy = random.between(-1e5, 1e5);
        DeckPlane plane = plane_of({});
        for (int k = 0; k < n; ++k) {
            const double angle = 2.0 * pi * (k + random.between(0.0, 0.9)) / n;
            const double radius = random.between(50.0, 1500.0);
            plane.outline.push_back(
                {one_inch * (cx + radius * std::cos(angle)), one_inch * (cy + radius * std::sin(angle))});
        }
        if (random.coin()) {
            const double s = random.between(1.0, 8.0);
            plane.openings.push_back(
                in_inches({{cx - s, cy - s}, {cx + s, cy - s}, {cx + s, cy + s}, {cx - s, cy + s}}));
        }
        const double expected = bg::area(boost_polygon(plane));
        CHECK(std::fabs(square_inches(net_area(plane)) - expected) < 1e-9 * 1e5 * 1500.0);
        // Moved to the origin, where no digits are lost, both agree to twelve.
        for (PlanePoint& p : plane.outline) {
            p = {p.along - one_inch * cx, p.up - one_inch * cy};
        }
        plane.openings.clear();
        const double at_origin = bg::area(boost_polygon(plane));
        CHECK(std::fabs(square_inches(signed_area(plane.outline)) - at_origin) < 1e-12 * 1500.0 * 1500.0 * n);
    }
}

TEST_CASE("spans of a convex outline end on its boundary") {
    SeededNumbers random{99};
    for (int i = 0; i < sweep(2000); ++i) {
        const double w = random.between(100, 900);
        const double h = random.between(100, 400);
        const Outline outline = in_inches({{0, 0},
                                           {w, 0},
                                           {w + random.between(-9, 9), h + random.between(-9, 9)},
                                           {random.between(-9, 9), h + random.between(-9, 9)}});
        REQUIRE(is_convex(outline));
        BoostPolygon polygon = boost_polygon(plane_of(outline));
        const Length up = random.inches_between(1, h - 10);
        const Span along = along_span(outline, up);
        const auto distance = [&](PlanePoint p) {
            bg::model::linestring<BoostPoint> ring(polygon.outer().begin(), polygon.outer().end());
            ring.push_back(ring.front());
            return bg::distance(BoostPoint(inches(p.along), inches(p.up)), ring);
        };
        CHECK(along.low < along.high);
        CHECK(distance({along.low, up}) < 1e-9);
        CHECK(distance({along.high, up}) < 1e-9);
        const Length x = random.inches_between(10, w - 10);
        const Span reach = up_span(outline, x);
        CHECK(reach.low == no_length);
        CHECK(distance({x, reach.high}) < 1e-9);
        const Span beyond = along_span(outline, one_inch * (h + 20));
        CHECK(beyond.high < beyond.low);
    }
}
