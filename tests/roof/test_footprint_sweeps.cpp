// SPDX-License-Identifier: BSL-1.0

// What holds for the roof over every footprint, over seeded footprints of every kind.

#include <eavewright/roof/footprint_roof.hpp>

#include "roof/footprints.hpp"
#include "roof/roof_checks.hpp"
#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// Every eave where the footprint put it, the highest point the highest node, faces and arcs telling the same.
void check_against_footprint(const FootprintRoof& roof, const Footprint& plan) {
    Length highest = plan.eave_height;
    std::size_t eaves = 0;
    std::size_t shared = 0;
    for (const RoofFace& face : roof.faces) {
        for (std::size_t i = 0; i < face.outline.size(); ++i) {
            highest = longer(highest, corner_of(face, i).z);
            shared += face.edges[i].neighbour ? 1U : 0U;
            if (face.edges[i].kind != EdgeKind::eave) {
                continue;
            }
            ++eaves;
            CHECK(off_by(corner_of(face, i).z, plan.eave_height) <= 1.2e-8);
            CHECK(off_by(corner_of(face, i + 1).z, plan.eave_height) <= 1.2e-8);
        }
    }
    std::size_t sloped = 0;
    for (std::size_t i = 0; i < plan.sides.size(); ++i) {
        const std::optional<std::size_t> face = roof.face_of_side[i];
        REQUIRE(face.has_value() == std::holds_alternative<SlopedSide>(plan.sides[i]));
        if (face) {
            ++sloped;
            const std::vector<GroundPoint>& outline = roof.faces[*face].outline;
            const auto at = std::find(outline.begin(), outline.end(), plan.corners[i]);
            REQUIRE(at != outline.end());
            CHECK(roof.faces[*face].edges[static_cast<std::size_t>(at - outline.begin())].kind == EdgeKind::eave);
        }
    }
    std::size_t between = 0;
    for (const FootprintArc& arc : roof.arcs) {
        between += arc.left && arc.right ? 2U : 0U;
        for (const std::optional<std::size_t> face : {arc.left, arc.right}) {
            for (const std::size_t node : {arc.from, arc.to}) {
                const BuildingPoint p = roof.nodes[node];
                CHECK((!face || off_by(height_over(roof.faces[*face].plane, {p.x, p.y}), p.z) <= 1.2e-8));
            }
        }
    }
    CHECK(eaves == sloped);
    CHECK(shared == between);
    CHECK(inches(roof.widest_miss) <= 1.2e-8);
    CHECK(off_by(roof.highest, highest) <= 1.2e-8);
}

GroundPoint point_inside(SeededNumbers& numbers, const Footprint& plan) {
    Length low_x = plan.corners[0].x;
    Length low_y = plan.corners[0].y;
    Length high_x = low_x;
    Length high_y = low_y;
    for (const GroundPoint p : plan.corners) {
        low_x = shorter(low_x, p.x);
        low_y = shorter(low_y, p.y);
        high_x = longer(high_x, p.x);
        high_y = longer(high_y, p.y);
    }
    for (;;) {
        const GroundPoint p{numbers.inches_between(inches(low_x), inches(high_x)),
                            numbers.inches_between(inches(low_y), inches(high_y))};
        if (roof_checks::is_inside(plan.corners, p)) {
            return p;
        }
    }
}
void check_ways_down(SeededNumbers& numbers, const FootprintRoof& roof, const Footprint& plan) {
    roof_checks::Walker walker{roof.faces};
    for (int i = 0; i < 3; ++i) {
        const GroundPoint p = point_inside(numbers, plan);
        CAPTURE(feet(p.x));
        CAPTURE(feet(p.y));
        CHECK(walker.walk_down(p) == EdgeKind::eave);
    }
}
void check_roof(SeededNumbers& numbers, const Footprint& plan) {
    const FootprintRoof roof = roof_over(plan);
    roof_checks::check_faces(roof.faces, plan_area(plan.corners));
    check_against_footprint(roof, plan);
    check_ways_down(numbers, roof, plan);
}
std::vector<double> one_pitch(SeededNumbers& numbers) { return {numbers.between(1.0, 24.0)}; }
}  // namespace

TEST_CASE("equal pitch over star-shaped footprints") {
    SeededNumbers numbers{1};
    for (int i = 0; i < sweep(3000); ++i) {
        CAPTURE(i);
        const int corners = numbers.whole(3, 24);
        footprints::Corners outline = footprints::star(numbers, corners < 5 ? 5 : corners);
        check_roof(numbers, footprints::footprint(outline, one_pitch(numbers), numbers.inches_between(90, 200)));
    }
}

TEST_CASE("equal pitch over convex footprints") {
    SeededNumbers numbers{2};
    for (int i = 0; i < sweep(1000); ++i) {
        CAPTURE(i);
        const footprints::Corners outline = footprints::convex(numbers, numbers.whole(3, 24));
        check_roof(numbers, footprints::footprint(outline, one_pitch(numbers), numbers.inches_between(90, 200)));
    }
}

TEST_CASE("equal pitch over right-angled footprints, square to the axes and turned") {
    SeededNumbers numbers{3};
    for (int i = 0; i < sweep(3000); ++i) {
        CAPTURE(i);
        footprints::Corners outline = footprints::right_angled(numbers);
        if (numbers.coin()) {
            outline = footprints::turned_at_random(numbers, outline);
        }
        check_roof(numbers, footprints::footprint(outline, one_pitch(numbers), numbers.inches_between(90, 200)));
    }
}

TEST_CASE("one pitch over footprints that miss right angles and straight lines by a little or next to nothing") {
    SeededNumbers numbers{7};
    for (int i = 0; i < sweep(2000); ++i) {
        CAPTURE(i);
        const double off = std::pow(10.0, numbers.between(-14.0, -1.0));  // feet
        CAPTURE(off);
        footprints::Corners outline;
        const footprints::Corners square = footprints::right_angled(numbers);
        for (std::size_t k = 0; k < square.size(); ++k) {
            const std::array<double, 2> next = square[(k + 1) % square.size()];
            outline.push_back(
                {square[k][0] + off * numbers.between(-1, 1), square[k][1] + off * numbers.between(-1, 1)});
            if (numbers.coin() && outline.size() + square.size() - k < 24) {
                outline.push_back({(square[k][0] + next[0]) / 2 + off * numbers.between(-1, 1),
                                   (square[k][1] + next[1]) / 2 + off * numbers.between(-1, 1)});
            }
        }
        const Footprint plan = footprints::footprint(outline, {6.0});
        const FootprintRoof roof = roof_over(plan);
        CHECK(inches(roof.widest_miss) <= 1e-4);  // and twice that between two planes
        roof_checks::check_faces(roof.faces, plan_area(plan.corners), 2e-4 / 12.0);
    }
}

TEST_CASE("pitches of their own over convex footprints: the lowest plane is the roof") {
    SeededNumbers numbers{4};
    for (int i = 0; i < sweep(1500); ++i) {
        CAPTURE(i);
        const footprints::Corners outline = footprints::convex(numbers, numbers.whole(3, 12));
        const Footprint plan = footprints::footprint(outline, footprints::pitches(numbers, outline.size()), 100_in);
        check_roof(numbers, plan);
        const FootprintRoof roof = roof_over(plan);
        for (int k = 0; k < 5; ++k) {
            const GroundPoint p = point_inside(numbers, plan);
            const std::optional<std::size_t> over = roof_checks::face_over(roof.faces, p);
            REQUIRE(over.has_value());
            Length lowest = Length::from_inches(1e6);
            for (const RoofFace& face : roof.faces) {
                lowest = shorter(lowest, height_over(face.plane, p));
            }
            CHECK(off_by(height_over(roof.faces[*over].plane, p), lowest) <= 1.2e-8);
        }
    }
}

TEST_CASE("pitches of their own over right-angled footprints") {
    SeededNumbers numbers{5};
    int refused = 0;
    int laid = 0;
    for (int i = 0; i < sweep(1000); ++i) {
        CAPTURE(i);
        footprints::Corners outline = footprints::right_angled(numbers);
        if (numbers.coin()) {
            outline = footprints::turned_at_random(numbers, outline);
        }
        const Footprint plan = footprints::footprint(outline, footprints::pitches(numbers, outline.size()), 100_in);
        const Fault fault = refusal_of([&] { (void)roof_over(plan); });
        if (fault.path == "no fault") {
            ++laid;
            check_roof(numbers, plan);
        } else {
            ++refused;  // two sides that come level, one behind the other
            CHECK(fault.code == FaultCode::contradiction);
            CHECK(fault.path.find(" and footprint.sides") != std::string::npos);
        }
    }
    CHECK(laid > refused / 2);
    CHECK(refused > 0);
}

TEST_CASE("gables at the ends of rectangles and wings") {
    SeededNumbers numbers{6};
    for (int i = 0; i < sweep(500); ++i) {
        CAPTURE(i);
        const bool whole = numbers.coin();
        footprints::Corners outline;
        std::vector<double> pitches;
        const double p = numbers.whole(2, 16);
        switch (numbers.whole(0, 3)) {
            case 0:
                outline = footprints::rectangle(footprints::size(numbers, whole, 10, 80),
                                                footprints::size(numbers, whole, 10, 80));
                pitches = {p, numbers.coin() ? 0.0 : p, numbers.coin() ? p : numbers.between(2.0, 16.0), 0.0};
                break;
            case 1:
                outline = footprints::l_plan(numbers, whole);
                pitches = {p, numbers.coin() ? 0.0 : p, p, p, 0.0, p};
                break;
            case 2:
                outline = footprints::t_plan(numbers, whole);
                pitches = {p, numbers.coin() ? 0.0 : p, p, p, 0.0, p, p, 0.0};
                break;
            default:
                outline = footprints::cross_plan(numbers, whole);
                pitches = {0.0, p, p, 0.0, p, p, numbers.coin() ? 0.0 : p, p, p, 0.0, p, p};
        }
        if (numbers.coin()) {
            outline = footprints::turned_at_random(numbers, outline);
        }
        check_roof(numbers, footprints::footprint(outline, pitches, 100_in));
    }
}
