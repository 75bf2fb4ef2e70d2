// SPDX-License-Identifier: BSL-1.0
#pragma once

// Convex pieces with labels put together again: pieces of one label that share a stretch of boundary become one outline.

#include <eavewright/fault.hpp>
#include <eavewright/roof/convex_pieces.hpp>
#include <eavewright/roof/footprint.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Corners within this of one another are one node; a node within it of an edge lies on that edge.
inline constexpr double one_node_in = 2.0 * on_line_in;

/// A piece of the plan that belongs to one plane.
struct Piece {
    Convex corners;
    std::size_t label;
    std::size_t body;
};

/// An edge between two nodes: what it belongs to lies on its left.
struct HalfEdge {
    std::size_t from;
    std::size_t to;
    std::size_t label;
};

/// A closed run of half edges of one label: counter-clockwise round a face, clockwise round a hole in one.
struct Ring {
    std::size_t label;
    std::vector<std::size_t> nodes;
};

[[noreturn]] inline void refuse_composition(const char* given) {
    throw FaultError{Fault{FaultCode::not_supported, "bodies", given,
                           "planes and outlines that meet, or stay apart by more than 1e-6 in"}};
}

/// Index of the node at `p`, made where there is none yet.
[[nodiscard]] inline std::size_t node_at(PlanVector p, std::vector<PlanVector>& nodes) {
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        if (std::fabs(nodes[i].x - p.x) <= one_node_in && std::fabs(nodes[i].y - p.y) <= one_node_in) {
            return i;
        }
    }
    nodes.push_back(p);
    return nodes.size() - 1;
}

/// Adds the edge from node to node, broken at every node that lies on it.
inline void add_broken(HalfEdge whole, const std::vector<PlanVector>& nodes, std::vector<HalfEdge>& edges) {
    const PlanVector a = nodes[whole.from];
    const PlanVector way_on = nodes[whole.to] - a;
    const double length = size_of(way_on);
    const PlanVector along = way_on * (1.0 / length);
    std::vector<std::pair<double, std::size_t>> on_it;
    for (std::size_t k = 0; k < nodes.size(); ++k) {
        const PlanVector off = nodes[k] - a;
        const double at = dot(along, off);
        if (at > one_node_in && at < length - one_node_in && std::fabs(cross(along, off)) <= one_node_in) {
            on_it.emplace_back(at, k);
        }
    }
    std::sort(on_it.begin(), on_it.end());
    std::size_t from = whole.from;
    for (const auto& [at, node] : on_it) {
        edges.push_back({from, node, whole.label});
        from = node;
    }
    edges.push_back({from, whole.to, whole.label});
}

/// All edges of the pieces, broken at all nodes, without those between two pieces of one label.
[[nodiscard]] inline std::vector<HalfEdge> outer_edges(const std::vector<Piece>& pieces,
                                                       std::vector<PlanVector>& nodes) {
    std::vector<HalfEdge> whole;
    whole.reserve(6 * pieces.size());
    nodes.reserve(3 * pieces.size());
    for (const Piece& piece : pieces) {
        const std::size_t first = whole.size();
        for (const PlanVector p : piece.corners) {
            const std::size_t node = node_at(p, nodes);
            if (whole.size() > first) {
                whole.back().to = node;
            }
            whole.push_back({node, node, piece.label});
        }
        whole.back().to = whole[first].from;
    }
    std::vector<HalfEdge> edges;
    edges.reserve(2 * whole.size());
    for (const HalfEdge& edge : whole) {
        if (edge.from != edge.to) {
            add_broken(edge, nodes, edges);
        }
    }
    const auto key = [](const HalfEdge& e) {
        return std::tuple{e.label, e.from < e.to ? e.from : e.to, e.from < e.to ? e.to : e.from, e.from > e.to};
    };
    std::sort(edges.begin(), edges.end(), [&](const HalfEdge& a, const HalfEdge& b) { return key(a) < key(b); });
    std::vector<HalfEdge> outer;
    outer.reserve(edges.size());
    for (const HalfEdge& edge : edges) {
        // Both ways along one edge cancel; the key brings them together.
        if (!outer.empty() && outer.back().label == edge.label && outer.back().from == edge.to &&
            outer.back().to == edge.from) {
            outer.pop_back();
        } else {
            outer.push_back(edge);
        }
    }
    std::sort(outer.begin(), outer.end(), [](const HalfEdge& a, const HalfEdge& b) {
        return std::tie(a.label, a.from, a.to) < std::tie(b.label, b.from, b.to);
    });
    return outer;
}

/// How far clockwise `to` lies from `from`, in a measure that grows with the angle: 0 to 4.
[[nodiscard]] inline double clockwise_measure(PlanVector from, PlanVector to) {
    const double c = dot(from, to) / (size_of(from) * size_of(to));
    const double s = -cross(from, to) / (size_of(from) * size_of(to));
    return s >= 0.0 ? 1.0 - c : 3.0 + c;
}

/// The edge that goes on from `edge`: of those of its label, the first met turning clockwise from the way back, so that
/// stretches which touch in one corner stay apart.
[[nodiscard]] inline std::optional<std::size_t> next_edge(const std::vector<HalfEdge>& edges,
                                                          const std::vector<PlanVector>& nodes,
                                                          const std::vector<bool>& used, const HalfEdge& edge) {
    const auto first = std::lower_bound(edges.begin(), edges.end(), edge, [](const HalfEdge& a, const HalfEdge& b) {
        return a.label != b.label ? a.label < b.label : a.from < b.to;
    });
    std::optional<std::size_t> best;
    double least = 0.0;
    for (auto it = first; it != edges.end() && it->label == edge.label && it->from == edge.to; ++it) {
        const std::size_t k = static_cast<std::size_t>(it - edges.begin());
        if (used[k]) {
            continue;
        }
        const double turn = clockwise_measure(nodes[edge.from] - nodes[edge.to], nodes[it->to] - nodes[it->from]);
        if (!best || turn < least) {
            best = k;
            least = turn;
        }
    }
    return best;
}

/// The edges strung to rings, by label, none of which passes a node twice. Every edge is used once; refuses edges that do
/// not close.
[[nodiscard]] inline std::vector<Ring> rings_of(const std::vector<HalfEdge>& edges,
                                                const std::vector<PlanVector>& nodes) {
    std::vector<Ring> rings;
    std::vector<bool> used(edges.size(), false);
    for (std::size_t first = 0; first < edges.size(); ++first) {
        std::vector<std::size_t> way;
        way.reserve(8);
        std::optional<std::size_t> edge = first;
        while (!used[*edge]) {
            used[*edge] = true;
            way.push_back(edges[*edge].from);
            const auto met = std::find(way.begin(), way.end(), edges[*edge].to);
            if (met != way.end()) {  // a ring is closed; what led to it goes on
                rings.push_back({edges[first].label, {met, way.end()}});
                way.erase(met, way.end());
                if (way.empty()) {
                    break;
                }
            }
            edge = next_edge(edges, nodes, used, edges[*edge]);
            if (!edge) {
                refuse_composition("faces that do not close");
            }
        }
    }
    return rings;
}

[[nodiscard]] inline double twice_area(const std::vector<std::size_t>& ring, const std::vector<PlanVector>& nodes) {
    double twice = 0.0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
        twice += cross(nodes[ring[i]] - nodes[ring[0]], nodes[ring[i + 1]] - nodes[ring[0]]);
    }
    return twice;
}

}  // namespace eavewright::detail
