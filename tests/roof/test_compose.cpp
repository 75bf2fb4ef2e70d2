// SPDX-License-Identifier: BSL-1.0

// The one construction under the shapes: bodies under the least of their planes, roofs under the greatest of their bodies;
// and openings in the planes that come of it.

#include <eavewright/roof/compose.hpp>
#include <eavewright/roof/face_planes.hpp>
#include <eavewright/roof/openings.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
Length in(double inches) { return Length::from_inches(inches); }
std::vector<GroundPoint> box(double x0, double y0, double x1, double y1) {
    return {{in(x0), in(y0)}, {in(x1), in(y0)}, {in(x1), in(y1)}, {in(x0), in(y1)}};
}
HeightPlane over(double x, double y, double height, double rise_x, double rise_y) {
    return {{in(x), in(y)}, in(height), rise_x, rise_y};
}
/// 300 x 100, 1 in 2, ridge along x at 25.
RoofBody gable_body() { return {box(0, 0, 300, 100), {over(0, 0, 0, 0, 0.5), over(0, 100, 0, 0, -0.5)}}; }
double plan_of(const Composition& roof) {
    double sum = 0.0;
    for (const RoofFace& face : roof.faces) {
        sum += square_inches(plan_area(face.outline));
    }
    return sum;
}
int count(const Composition& roof, EdgeKind kind) {
    int n = 0;
    for (const RoofFace& face : roof.faces) {
        for (const FaceEdge& edge : face.edges) {
            n += edge.kind == kind;
        }
    }
    return n;
}
}  // namespace

TEST_CASE("a face around a hole is cut up the slope through it") {
    // A box of 20 x 20 stands in the front slope, higher than the ridge.
    const Composition roof = compose({gable_body(), {box(120, 10, 140, 30), {over(0, 0, 60, 0, 0)}}});
    REQUIRE(roof.faces.size() == 4);
    CHECK(roof.sources[0] == roof.sources[1]);
    CHECK(std::fabs(plan_of(roof) - 30000) < 1e-6);
    CHECK(std::fabs(square_inches(plan_area(roof.faces[0].outline) + plan_area(roof.faces[1].outline)) - 14600) < 1e-6);
    CHECK(count(roof, EdgeKind::pitch_break) == 4);  // below the box and above it, from both sides
    CHECK(count(roof, EdgeKind::wall) == 6);         // of the box's four, the cut halves two
}

TEST_CASE("planes that are one make one face across bodies") {
    // The gable in two halves, and a single slope that goes on where the front plane left off.
    RoofBody left = gable_body();
    RoofBody right = gable_body();
    left.footprint = box(0, 0, 170, 100);
    right.footprint = box(150, 0, 300, 100);
    Composition roof = compose({left, right});
    REQUIRE(roof.faces.size() == 2);
    CHECK(roof.faces[0].outline.size() == 4);
    CHECK(std::fabs(plan_of(roof) - 30000) < 1e-6);
    roof = compose({gable_body(), {box(100, -60, 200, 0), {over(50, -60, -30, 0, 0.5)}}});
    REQUIRE(roof.faces.size() == 2);
    CHECK(std::fabs(plan_of(roof) - 36000) < 1e-6);
    CHECK(roof.faces[0].outline.size() == 8);
}

TEST_CASE("outlines that are not convex: an L, a U and an H under planes from their sides") {
    const double p = 0.5;
    const RoofBody porch{{{in(0), in(0)},
                          {in(400), in(0)},
                          {in(400), in(300)},
                          {in(300), in(300)},
                          {in(300), in(100)},
                          {in(0), in(100)}},
                         {over(0, 0, 0, 0, p), over(400, 0, 0, -p, 0)},
                         {3, 4}};
    const Composition l = compose({porch});
    REQUIRE(l.faces.size() == 2);
    CHECK(count(l, EdgeKind::wall) == 2);
    CHECK(count(l, EdgeKind::hip) == 2);
    CHECK(std::fabs(plan_of(l) - 60000) < 1e-6);
    RoofBody u{{{in(0), in(0)},
                {in(400), in(0)},
                {in(400), in(300)},
                {in(300), in(300)},
                {in(300), in(100)},
                {in(100), in(100)},
                {in(100), in(300)},
                {in(0), in(300)}},
               {over(0, 0, 0, 0, p), over(400, 0, 0, -p, 0), over(0, 0, 0, p, 0)}};
    CHECK(compose({u}).faces.size() == 3);
    CHECK(std::fabs(plan_of(compose({u})) - 80000) < 1e-6);
    const RoofBody h{{{in(0), in(0)},
                      {in(100), in(0)},
                      {in(100), in(100)},
                      {in(300), in(100)},
                      {in(300), in(0)},
                      {in(400), in(0)},
                      {in(400), in(300)},
                      {in(300), in(300)},
                      {in(300), in(200)},
                      {in(100), in(200)},
                      {in(100), in(300)},
                      {in(0), in(300)}},
                     {over(0, 0, 0, 0.1, 0)}};
    REQUIRE(compose({h}).faces.size() == 1);
    CHECK(compose({h}).faces[0].outline.size() == 12);
}

TEST_CASE("inside corners on one line: a comb under another body") {
    // A strip of 500 x 100 with five teeth of 50 x 100, their feet on one line; a level box over two of them and a gap.
    RoofBody comb{box(0, 0, 500, 0), {over(0, 0, 0, 0.1, 0.2)}};
    comb.footprint.resize(2, {no_length, no_length});
    for (int tooth = 4; tooth >= 0; --tooth) {
        const double x = 112.5 * tooth;
        for (const GroundPoint p : box(x, 100, x + 50, 200)) {
            comb.footprint.push_back(p);
        }
        // As the outline meets them: up the right side of the tooth, down the left one.
        const std::size_t n = comb.footprint.size();
        const GroundPoint left_foot = comb.footprint[n - 4];
        const GroundPoint right_foot = comb.footprint[n - 3];
        comb.footprint[n - 4] = right_foot;
        comb.footprint[n - 3] = {right_foot.x, in(200)};
        comb.footprint[n - 2] = {left_foot.x, in(200)};
        comb.footprint[n - 1] = left_foot;
    }
    comb.footprint.erase(comb.footprint.begin() + 2);  // the outermost feet lie on straight sides
    comb.footprint.pop_back();
    const Composition alone = compose({comb});
    REQUIRE(alone.faces.size() == 1);
    CHECK(std::fabs(plan_of(alone) - (50000 + 5 * 5000)) < 1e-6);
    const Composition roof = compose({comb, {box(120, 80, 270, 220), {over(0, 0, 200, 0, 0)}}});
    // The box of 150 x 140 covers 150 x 20 of the strip, 42.5 x 100 of the tooth at 112.5 and 45 x 100 of that at 225.
    const double covered = 150 * 20 + (162.5 - 120) * 100 + (270 - 225) * 100;
    CHECK(std::fabs(plan_of(roof) - (75000 - covered + 150 * 140)) < 1e-6);
}

TEST_CASE("a court in the middle, and faces that touch in a corner, stay simple outlines") {
    // Four level strips round a court: the face goes round it and is cut.
    std::vector<RoofBody> ring;
    for (const auto& strip : {box(0, 0, 300, 50), box(250, 0, 300, 300), box(0, 250, 300, 300), box(0, 0, 50, 300)}) {
        ring.push_back({strip, {over(0, 0, 10, 0, 0.25)}});
    }
    const Composition court = compose(ring);
    CHECK(court.faces.size() == 2);
    CHECK(std::fabs(plan_of(court) - 50000) < 1e-6);
    const Composition corner = compose(
        {{box(0, 0, 100, 100), {over(0, 0, 0, 0.1, 0.2)}}, {box(100, 100, 200, 200), {over(0, 0, 0, 0.1, 0.2)}}});
    REQUIRE(corner.faces.size() == 2);
    CHECK(corner.faces[0].outline.size() == 4);
}

TEST_CASE("the same bodies give the same bits, turned and moved ones the same roof") {
    const RoofBody wing{box(100, -50, 200, 50), {over(100, 0, 0, 0.4, 0), over(200, 0, 0, -0.4, 0)}};
    const Composition a = compose({gable_body(), wing});
    const Composition b = compose({gable_body(), wing});
    REQUIRE(a.faces.size() == b.faces.size());
    for (std::size_t f = 0; f < a.faces.size(); ++f) {
        CHECK(a.faces[f].outline == b.faces[f].outline);
    }
    // Turned by angles whose sine and cosine are exact fractions, and moved: areas and kinds stay.
    const double cosine = 0.6;
    const double sine = 0.8;
    std::vector<RoofBody> turned{gable_body(), wing};
    const auto turn = [&](GroundPoint p) {
        return GroundPoint{p.x * cosine - p.y * sine + 5000_in, p.x * sine + p.y * cosine - 7000_in};
    };
    for (RoofBody& body : turned) {
        for (GroundPoint& p : body.footprint) {
            p = turn(p);
        }
        for (HeightPlane& plane : body.planes) {
            plane = {turn(plane.at), plane.height, plane.rise_x * cosine - plane.rise_y * sine,
                     plane.rise_x * sine + plane.rise_y * cosine};
        }
    }
    const Composition c = compose(turned);
    REQUIRE(c.faces.size() == a.faces.size());
    for (std::size_t f = 0; f < a.faces.size(); ++f) {
        CHECK(std::fabs(square_inches(plan_area(c.faces[f].outline) - plan_area(a.faces[f].outline))) < 1e-6);
        REQUIRE(c.faces[f].edges.size() == a.faces[f].edges.size());
        for (std::size_t i = 0; i < a.faces[f].edges.size(); ++i) {
            CHECK(c.faces[f].edges[i].kind == a.faces[f].edges[i].kind);
        }
    }
}

TEST_CASE("random bodies: the surface is the greatest of the least at every point") {
    SeededNumbers random{99};
    for (int i = 0; i < sweep(3000); ++i) {
        std::vector<RoofBody> bodies;
        const int count_of_bodies = random.whole(1, 4);
        for (int b = 0; b < count_of_bodies; ++b) {
            const double x = random.between(0, 200);
            const double y = random.between(0, 200);
            RoofBody body{box(x, y, x + random.between(50, 200), y + random.between(50, 200)), {}};
            const int planes = random.whole(1, 4);
            for (int k = 0; k < planes; ++k) {
                body.planes.push_back(over(random.between(0, 400), random.between(0, 400), random.between(-10, 10),
                                           random.between(-1, 1), random.between(-1, 1)));
            }
            bodies.push_back(body);
        }
        const Composition roof = compose(bodies);
        for (int k = 0; k < 50; ++k) {
            const double x = random.between(0, 400);
            const double y = random.between(0, 400);
            double greatest = -1e18;
            for (const RoofBody& body : bodies) {
                if (x > inches(body.footprint[0].x) && x < inches(body.footprint[2].x) &&
                    y > inches(body.footprint[0].y) && y < inches(body.footprint[2].y)) {
                    double least = 1e18;
                    for (const HeightPlane& plane : body.planes) {
                        least = std::min(least, inches(height_over(plane, {in(x), in(y)})));
                    }
                    greatest = std::max(greatest, least);
                }
            }
            int faces = 0;
            double height = -1e18;
            for (const RoofFace& face : roof.faces) {
                bool inside = false;
                for (std::size_t c = 0; c < face.outline.size(); ++c) {
                    const GroundPoint p = face.outline[c];
                    const GroundPoint q = face.outline[(c + 1) % face.outline.size()];
                    const double py = inches(p.y);
                    const double qy = inches(q.y);
                    if ((py > y) != (qy > y) && x < inches(p.x) + inches(q.x - p.x) * (y - py) / (qy - py)) {
                        inside = !inside;
                    }
                }
                if (inside) {
                    ++faces;
                    height = inches(height_over(face.plane, {in(x), in(y)}));
                }
            }
            REQUIRE(faces == (greatest > -1e17 ? 1 : 0));
            REQUIRE((faces == 0 || std::fabs(height - greatest) < 1e-6));
        }
    }
}

TEST_CASE("bodies that are none are refused") {
    const auto path = [](std::vector<RoofBody> bodies) { return refusal_of([&] { (void)compose(bodies); }).path; };
    CHECK(path({}) == "bodies");
    CHECK(path(std::vector<RoofBody>(most_bodies + 1, gable_body())) == "bodies");
    RoofBody body = gable_body();
    body.planes.clear();
    CHECK(path({body}) == "bodies[0].planes");
    body = gable_body();
    body.planes[1].rise_x = 11.0;
    CHECK(path({gable_body(), body}) == "bodies[1].planes[1]");
    body = gable_body();
    body.wall_edges = {4};
    CHECK(path({body}) == "bodies[0].wall_edges[0]");
    body = gable_body();
    body.footprint = {body.footprint[0], body.footprint[3], body.footprint[2], body.footprint[1]};
    CHECK(path({body}) == "bodies[0].footprint.corners");
    // A second roof 1e-7 in above the first neither meets it nor steps from it.
    RoofBody close{box(100, 10, 200, 90), {over(0, 0, 1e-7, 0, 0.5)}};
    CHECK(refusal_of([&] {
              (void)compose({{box(0, 0, 300, 100), {over(0, 0, 0, 0, 0.5)}}, close});
          }).code == FaultCode::not_supported);
}

TEST_CASE("openings lie inside a plane, clear of its edges and of one another") {
    // The front of a hip: 40 ft at the eave, 16 ft at the ridge, 12 ft of run at 6 in 12.
    const double p = 0.5;
    const Composition roof =
        compose({{box(0, 0, 480, 288),
                  {over(0, 0, 0, 0, p), over(480, 0, 0, -p, 0), over(0, 288, 0, 0, -p), over(0, 0, 0, p, 0)}}});
    const ChordPlane front = plane_of(roof.faces[0]);
    const double whole = square_feet(net_area(front));
    // A 2 x 4 ft skylight, 10 ft along and 3 ft up.
    ChordPlane open = add_opening(front, OpeningOnSlope{{10_ft, 3_ft}, 2_ft, 4_ft}, 6_in);
    CHECK(std::fabs(square_feet(net_area(open)) - (whole - 8)) < 1e-9);
    // A chimney of 2 x 3 ft in plan, 2 ft in: 3 ft of run are 3 x sqrt(5)/2 ft of slope.
    open = add_opening(open, OpeningInPlan{.along = 20_ft, .run = 2_ft, .width = 2_ft, .depth = 3_ft}, 6_in);
    CHECK(std::fabs(square_feet(net_area(open)) - (whole - 8 - 3 * std::sqrt(5.0))) < 1e-9);
    CHECK(off_by(building_point(open, open.openings[1][2]).y, 5_ft) < 1e-9);
    // A cupola astride the ridge: the front's half ends on it, with no clearance.
    CHECK_NOTHROW(
        (void)add_opening(open, OpeningInPlan{.along = 18_ft, .run = 10_ft, .width = 4_ft, .depth = 2_ft}, no_length));
    const auto code = [&](const Opening& opening, Length clearance) {
        return refusal_of([&] { (void)add_opening(open, opening, clearance); }).code;
    };
    CHECK(code(OpeningInPlan{.along = 18_ft, .run = 10_ft, .width = 4_ft, .depth = 2_ft}, 1_in) ==
          FaultCode::does_not_fit);
    CHECK(code(OpeningInPlan{.along = 18_ft, .run = 10_ft, .width = 4_ft, .depth = 2.01_ft}, no_length) ==
          FaultCode::does_not_fit);
    // The hip runs at 45 degrees in plan: a corner at 6 ft along and 5 ft in is 1 ft off it along the eave, less square to it.
    CHECK(code(OpeningInPlan{.along = 6_ft, .run = 3_ft, .width = 1_ft, .depth = 2_ft}, 6_in) == FaultCode{});
    CHECK(code(OpeningInPlan{.along = 6_ft, .run = 3_ft, .width = 1_ft, .depth = 2_ft}, 9_in) ==
          FaultCode::does_not_fit);
    CHECK(code(OpeningInPlan{.along = 4_ft, .run = 3_ft, .width = 1_ft, .depth = 2_ft}, no_length) ==
          FaultCode::does_not_fit);  // over the hip
    CHECK(code(OpeningInPlan{.along = -9_ft, .run = 3_ft, .width = 1_ft, .depth = 2_ft}, no_length) ==
          FaultCode::does_not_fit);                                                                // beside the plane
    CHECK(code(OpeningOnSlope{{11_ft, 4_ft}, 2_ft, 1_ft}, no_length) == FaultCode::does_not_fit);  // on the skylight
    CHECK(code(OpeningOnSlope{{9_ft, 2_ft}, 4_ft, 7_ft}, no_length) == FaultCode::does_not_fit);   // round it
    CHECK(code(OpeningOnSlope{{12_ft, 3_ft}, 2_ft, 4_ft}, no_length) == FaultCode{});              // beside it
    CHECK(code(OpeningOnSlope{{12_ft, 3_ft}, 2_ft, 4_ft}, 1_in) == FaultCode::does_not_fit);
    CHECK(code(OpeningOnSlope{{15_ft, 3_ft}, 0.5_in, 4_ft}, no_length) == FaultCode::out_of_range);
    for (const Length none : lengths_that_are_none()) {
        CHECK(code(OpeningOnSlope{{none, 3_ft}, 2_ft, 4_ft}, no_length) != FaultCode{});
        CHECK(code(OpeningOnSlope{{15_ft, 3_ft}, 2_ft, 4_ft}, none) != FaultCode{});
    }
}
