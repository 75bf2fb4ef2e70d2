// SPDX-License-Identifier: BSL-1.0

// Roofs of one pitch against the straight skeleton of CGAL, a general-purpose geometry library: the nodes of both in
// the same places at the same heights. Built only where CGAL is found (Debian: libcgal-dev).

#include <eavewright/roof/footprint_roof.hpp>

#include "roof/footprints.hpp"
#include "roof/roof_checks.hpp"
#include "support/seeded_numbers.hpp"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_2.h>
#include <CGAL/create_straight_skeleton_2.h>
#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

using namespace eavewright;

namespace {
using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;

/// A node inside the footprint: x, y and its distance from the eaves, in inches.
struct PeerNode {
    double x;
    double y;
    double offset;
};
std::vector<PeerNode> peer_nodes(const Footprint& plan) {
    CGAL::Polygon_2<Kernel> polygon;
    for (const GroundPoint p : plan.corners) {
        polygon.push_back(Kernel::Point_2{inches(p.x), inches(p.y)});
    }
    const auto skeleton =
        CGAL::create_interior_straight_skeleton_2(polygon.vertices_begin(), polygon.vertices_end(), Kernel{});
    std::vector<PeerNode> nodes;
    REQUIRE(skeleton);
    for (auto v = skeleton->vertices_begin(); v != skeleton->vertices_end(); ++v) {
        if (v->is_skeleton()) {
            nodes.push_back({v->point().x(), v->point().y(), v->time()});
        }
    }
    return nodes;
}

constexpr double same_place = 1e-6;  // inches; both compute in double
bool same_node(const PeerNode& a, const PeerNode& b) {
    return std::fabs(a.x - b.x) < same_place && std::fabs(a.y - b.y) < same_place &&
           std::fabs(a.offset - b.offset) < same_place;
}
bool holds(const std::vector<PeerNode>& nodes, const PeerNode& node) {
    for (const PeerNode& other : nodes) {
        if (same_node(node, other)) {
            return true;
        }
    }
    return false;
}

/// Nodes that only the peer has: ends of the seam between the parts of one plane, which is no edge of a roof.
int compare(const footprints::Corners& outline) {
    const Footprint plan = footprints::footprint(outline, {12.0});  // 12 in 12: heights are distances from the eaves
    const FootprintRoof roof = roof_over(plan);
    const std::vector<PeerNode> theirs = peer_nodes(plan);
    std::vector<PeerNode> ours;
    for (std::size_t i = plan.corners.size(); i < roof.nodes.size(); ++i) {
        ours.push_back({inches(roof.nodes[i].x), inches(roof.nodes[i].y), inches(roof.nodes[i].z)});
        CAPTURE(ours.back().x);
        CAPTURE(ours.back().y);
        CAPTURE(ours.back().offset);
        CHECK(holds(theirs, ours.back()));
    }
    int seams = 0;
    for (const PeerNode& node : theirs) {
        if (holds(ours, node)) {
            continue;
        }
        ++seams;
        CAPTURE(node.x);
        CAPTURE(node.y);
        const GroundPoint at{Length::from_inches(node.x), Length::from_inches(node.y)};
        double miss = HUGE_VAL;  // against the edges that the node lies on
        for (const RoofFace& face : roof.faces) {
            for (std::size_t i = 0; i < face.outline.size(); ++i) {
                const GroundPoint a = face.outline[i];
                const GroundPoint b = face.outline[(i + 1) % face.outline.size()];
                const double around = roof_checks::distance(a, at) + roof_checks::distance(at, b);
                if (around - roof_checks::distance(a, b) < same_place) {
                    miss = std::fmin(miss, std::fabs(inches(height_over(face.plane, at)) - node.offset));
                }
            }
        }
        CHECK(miss < same_place);
    }
    return seams;
}
}  // namespace

TEST_CASE("star-shaped footprints have the nodes of CGAL's straight skeleton") {
    SeededNumbers numbers{11};
    for (int i = 0; i < sweep(2000); ++i) {
        CAPTURE(i);
        CHECK(compare(footprints::star(numbers, numbers.whole(5, 24))) == 0);
    }
}

TEST_CASE("convex footprints have the nodes of CGAL's straight skeleton") {
    SeededNumbers numbers{12};
    for (int i = 0; i < sweep(1000); ++i) {
        CAPTURE(i);
        CHECK(compare(footprints::convex(numbers, numbers.whole(3, 24))) == 0);
    }
}

TEST_CASE("right-angled footprints have the nodes of CGAL's straight skeleton but the ends of seams") {
    SeededNumbers numbers{13};
    int seams = 0;
    for (int i = 0; i < sweep(2000); ++i) {
        CAPTURE(i);
        seams += compare(footprints::right_angled(numbers));
    }
    CHECK(seams > 0);
}
