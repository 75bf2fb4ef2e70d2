// SPDX-License-Identifier: BSL-1.0
#pragma once

// One construction for every shape: the least of the planes of a body, the greatest of the bodies of a roof.
//
//      a body: the least of its planes           a roof: the greatest of its bodies
//
//            \    /    a plane goes on above              /\_   wing
//       ______\  /      the others, out of reach     _____/  \_____  main
//      /       \/\                                  /    valleys   \ .
//     /           \ .                              /                \ .
//
// Hip, gable, unequal pitches, gambrel and jerkinhead are bodies; cross gables, L, T and cross plans, Dutch gables and
// porches that break pitch are roofs of several. What passes under another roof (a porch tied under the eave) stands in
// a tier of its own.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/face_edges.hpp>
#include <eavewright/roof/footprint.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/roof_body.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/roof/tier_pieces.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

namespace eavewright {

/// The faces of a roof, by tier, then by source, then from left to right; and where each comes from.
struct Composition {
    std::vector<RoofFace> faces;
    std::vector<FaceSource> sources;
};
template <>
struct FieldsOf<Composition> {
    static constexpr auto list =
        field_list(field("faces", FieldUnit::none, "the faces over the plan", &Composition::faces),
                   field("sources", FieldUnit::none, "body and plane of each face", &Composition::sources));
};

namespace detail {
/// Which ring lies left of each edge, for look-up by its ends.
struct RingEdge {
    std::size_t from;
    std::size_t to;
    std::size_t ring;
};
[[nodiscard]] inline std::vector<RingEdge> ring_edges(const std::vector<Ring>& rings) {
    std::vector<RingEdge> edges;
    for (std::size_t r = 0; r < rings.size(); ++r) {
        const std::vector<std::size_t>& nodes = rings[r].nodes;
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            edges.push_back({nodes[i], nodes[(i + 1) % nodes.size()], r});
        }
    }
    std::sort(edges.begin(), edges.end(), [](const RingEdge& a, const RingEdge& b) {
        return std::tie(a.from, a.to, a.ring) < std::tie(b.from, b.to, b.ring);
    });
    return edges;
}
[[nodiscard]] inline std::optional<std::size_t> ring_left_of(const std::vector<RingEdge>& edges, std::size_t from,
                                                             std::size_t to) {
    const auto it = std::lower_bound(
        edges.begin(), edges.end(), std::pair{from, to},
        [](const RingEdge& a, const auto& b) { return a.from != b.first ? a.from < b.first : a.to < b.second; });
    return it != edges.end() && it->from == from && it->to == to ? std::optional{it->ring} : std::nullopt;
}

/// True where `p` lies on one of the sides of the body's footprint: of all, or of those against a wall.
[[nodiscard]] inline bool is_on_outline(const RoofBody& body, PlanVector p, bool walls_only) {
    const std::size_t n = body.footprint.size();
    for (std::size_t i = 0; i < n; ++i) {
        if (walls_only && std::find(body.wall_edges.begin(), body.wall_edges.end(), i) == body.wall_edges.end()) {
            continue;
        }
        const PlanVector a = as_vector(body.footprint[i]);
        const PlanVector b = as_vector(body.footprint[(i + 1) % n]);
        const double length = size_of(b - a);
        const double at = dot(b - a, p - a) / length;
        if (at > -least_step_in && at < length + least_step_in && std::fabs(LeftOf{a, b}(p)) < least_step_in) {
            return true;
        }
    }
    return false;
}

/// A face's edge that nothing shares: what it is by the way the face runs from it.
[[nodiscard]] inline EdgeKind kind_of_free_edge(const HeightPlane& plane, GroundPoint from, GroundPoint to) {
    if (!is_level(plane, from, to)) {
        return EdgeKind::rake;
    }
    return rise_to_left(plane, from, to) < -level_slope ? EdgeKind::high_eave : EdgeKind::eave;
}

/// What the edge of a face is whose other side is `beyond`, a face of the same tier.
[[nodiscard]] inline FaceEdge edge_between(const HeightPlane& own, const HeightPlane& other, std::size_t beyond,
                                           PlanVector from, PlanVector to) {
    const double at_from = height_at(own, from) - height_at(other, from);
    const double at_to = height_at(own, to) - height_at(other, to);
    const double step = std::fabs(at_from) > std::fabs(at_to) ? at_from : at_to;
    if (std::fabs(step) <= one_height_in) {
        return {classify_edge(own, other, as_ground(from), as_ground(to)), beyond};
    }
    if (std::fabs(step) < least_step_in) {
        refuse_composition("faces that neither meet nor step");
    }
    return {step < 0.0 ? EdgeKind::wall : kind_of_free_edge(own, as_ground(from), as_ground(to)), std::nullopt};
}

/// What an edge with nothing beyond it is.
[[nodiscard]] inline FaceEdge edge_at_outline(const std::vector<RoofBody>& bodies, const Tier& tier,
                                              const HeightPlane& own, PlanVector from, PlanVector to) {
    const PlanVector middle = (from + to) * 0.5;
    bool on_outline = false;
    for (const std::size_t b : tier.bodies) {
        if (is_on_outline(bodies[b], middle, true)) {
            return {EdgeKind::wall, std::nullopt};
        }
        on_outline = on_outline || is_on_outline(bodies[b], middle, false);
    }
    if (!on_outline) {
        refuse_composition("a gap between faces");
    }
    return {kind_of_free_edge(own, as_ground(from), as_ground(to)), std::nullopt};
}

/// Leaves out the corners at which an edge goes on in its line as what it was.
inline void drop_straight_corners(RoofFace& face) {
    const std::size_t n = face.outline.size();
    RoofFace kept{face.plane, {}, {}};
    kept.outline.reserve(n);
    kept.edges.reserve(n);
    for (std::size_t i = 0; i < n; ++i) {
        const PlanVector before = as_vector(face.outline[(i + n - 1) % n]);
        const PlanVector after = as_vector(face.outline[(i + 1) % n]);
        const FaceEdge& in = face.edges[(i + n - 1) % n];
        const FaceEdge& out = face.edges[i];
        const bool goes_on = in.kind == out.kind && in.neighbour == out.neighbour;
        if (!goes_on || std::fabs(LeftOf{before, after}(as_vector(face.outline[i]))) > one_node_in) {
            kept.outline.push_back(face.outline[i]);
            kept.edges.push_back(out);
        }
    }
    face = std::move(kept);
}

/// Where the outline starts: at the left end of its longest eave, or at its lowest corner where it has none.
[[nodiscard]] inline std::size_t first_corner(const RoofFace& face) {
    const std::size_t n = face.outline.size();
    std::optional<std::size_t> eave;
    Length longest = no_length;
    std::size_t lowest = 0;
    const auto is_left = [&](std::size_t a, std::size_t b) {
        const PlanVector up{face.plane.rise_x, face.plane.rise_y};
        return cross(up, as_vector(face.outline[a]) - as_vector(face.outline[b])) > on_line_in;
    };
    for (std::size_t i = 0; i < n; ++i) {
        const GroundPoint a = face.outline[i];
        const GroundPoint b = face.outline[(i + 1) % n];
        const Length length = hypotenuse(b.x - a.x, b.y - a.y);
        if (face.edges[i].kind == EdgeKind::eave && (!eave || length > longest + one_inch * least_step_in)) {
            eave = i;
            longest = length;
        }
        const Length rise = height_over(face.plane, a) - height_over(face.plane, face.outline[lowest]);
        if (rise < one_inch * -one_height_in || (magnitude(rise) <= one_inch * one_height_in && is_left(i, lowest))) {
            lowest = i;
        }
    }
    return eave ? *eave : lowest;
}

/// The faces of one tier, appended; neighbours count from the first face of all.
inline void add_faces(const std::vector<RoofBody>& bodies, Tier& tier, Composition& roof) {
    const Outlines merged = merge_tier(tier);
    const std::vector<RingEdge> edges = ring_edges(merged.rings);
    const std::size_t before = roof.faces.size();
    for (const Ring& ring : merged.rings) {
        const LabelledPlane& own = tier.planes[ring.label];
        RoofFace face{own.plane, {}, {}};
        face.outline.reserve(ring.nodes.size());
        face.edges.reserve(ring.nodes.size());
        for (std::size_t i = 0; i < ring.nodes.size(); ++i) {
            const std::size_t from = ring.nodes[i];
            const std::size_t to = ring.nodes[(i + 1) % ring.nodes.size()];
            const PlanVector a = merged.nodes[from];
            const PlanVector b = merged.nodes[to];
            const std::optional<std::size_t> beyond = ring_left_of(edges, to, from);
            face.outline.push_back(as_ground(a));
            face.edges.push_back(
                beyond ? edge_between(own.plane, tier.planes[merged.rings[*beyond].label].plane, before + *beyond, a, b)
                       : edge_at_outline(bodies, tier, own.plane, a, b));
        }
        drop_straight_corners(face);
        const auto first = static_cast<std::ptrdiff_t>(first_corner(face));
        std::rotate(face.outline.begin(), face.outline.begin() + first, face.outline.end());
        std::rotate(face.edges.begin(), face.edges.begin() + first, face.edges.end());
        roof.faces.push_back(std::move(face));
        roof.sources.push_back(own.source);
    }
}
/// The roof of sound bodies, its faces cut along `seams` too.
[[nodiscard]] inline Composition compose_with_seams(const std::vector<RoofBody>& bodies,
                                                    const std::vector<Seam>& seams) {
    std::vector<std::size_t> tiers;
    for (const RoofBody& body : bodies) {
        tiers.push_back(body.tier);
    }
    std::sort(tiers.begin(), tiers.end());
    tiers.erase(std::unique(tiers.begin(), tiers.end()), tiers.end());
    Composition roof;
    for (const std::size_t number : tiers) {
        Tier tier;
        for (std::size_t b = 0; b < bodies.size(); ++b) {
            if (bodies[b].tier == number) {
                tier.bodies.push_back(b);
            }
        }
        label_planes(bodies, tier);
        for (std::size_t k = 0; k < tier.bodies.size(); ++k) {
            add_body(bodies[tier.bodies[k]], tier.bodies[k], tier.labels[k], tier.planes, tier.pieces);
        }
        tier.pieces = visible_pieces(tier.pieces, tier.planes);
        cut_seams(seams, tier);
        add_faces(bodies, tier, roof);
    }
    return roof;
}
}  // namespace detail

/// The roof of `bodies`: in each tier the greatest of its bodies over every point of the plan, as faces that are as large
/// as they can be, each a simple outline counter-clockwise.
///
/// An outline begins at the left end of the face's longest eave, or at its lowest corner where it has none. Faces
/// that meet share both ends of their edge bit for bit in plan and to 1e-8 in (below 1e-9 ft) in height, and name each
/// other. Where one passes over the other the lower has a wall there, the upper an eave, rake or high eave, and neither
/// names the other. Planes that are one over the tier (to 1e-8 in) make one face across bodies. A face around a hole is cut
/// straight up the slope through the hole, the cut being a pitch break between two faces of one plane. What lies under a
/// higher body of the same tier, under its overhang too, is no part of a face: the roof is as seen from above.
///
/// Throws `FaultError`: the first fault of `bodies`; too_much_work above `most_face_pieces`; not_supported where faces come
/// within 1e-6 in of meeting without doing so.
[[nodiscard]] inline Composition compose(const std::vector<RoofBody>& bodies) {
    require_sound(bodies, "bodies");
    return detail::compose_with_seams(bodies, {});
}

}  // namespace eavewright
