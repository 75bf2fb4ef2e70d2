// SPDX-License-Identifier: BSL-1.0
#pragma once

// How far panels reach on a plane of any outline: past its eaves, short of its ridges, hips and valleys, around openings.

#include <eavewright/fault.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/outline.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// An edge of the plane as panels see it.
struct ReachEdge {
    EdgeKind kind;
    bool foot;          ///< panels hang over it
    PlanePoint from;    ///< moved; of a finished reach, where it meets the edge before it
    PlanePoint way;     ///< to its other end
    bool moved;         ///< by anything at all
    std::size_t index;  ///< into the plane's edges
};

/// Where panels belong, and the edges that they end at.
struct PanelReach {
    std::vector<PlanePoint> outline;
    std::vector<ReachEdge> edges;  ///< of the outline, in order; those that the gaps have swallowed left out
};

[[nodiscard]] inline double cross_of(PlanePoint a, PlanePoint b) {
    return inches(a.along) * inches(b.up) - inches(a.up) * inches(b.along);
}
[[nodiscard]] inline double dot_of(PlanePoint a, PlanePoint b) {
    return inches(a.along) * inches(b.along) + inches(a.up) * inches(b.up);
}
[[nodiscard]] inline PlanePoint between(PlanePoint from, PlanePoint to) {
    return {to.along - from.along, to.up - from.up};
}

/// Eaves go down by `overhang` past the edge that it counts from, whatever lies on top comes down by the hold-back, hips and
/// valleys step inwards square to themselves, rakes and walls at the side stay.
[[nodiscard]] inline ReachEdge reach_edge(const CutPanelPlan& plan, Length overhang, EdgeKind kind, PlanePoint a,
                                          PlanePoint b, std::size_t index) {
    ReachEdge edge{kind, false, a, between(a, b), false, index};
    const Length length = hypotenuse(edge.way.along, edge.way.up);
    if (kind == EdgeKind::hip || kind == EdgeKind::valley) {
        const Length gap = kind == EdgeKind::hip ? plan.hip_gap : plan.valley_gap;
        edge.from = {a.along - gap * (edge.way.up / length), a.up + gap * (edge.way.along / length)};
        edge.moved = gap > no_length;
        return edge;
    }
    if (kind == EdgeKind::rake || magnitude(edge.way.along) < magnitude(edge.way.up)) {
        return edge;
    }
    edge.foot = edge.way.along > no_length && kind != EdgeKind::wall;
    Length down = edge.foot ? plan.panels.edge_past_fascia + overhang : no_length;
    if (edge.way.along < no_length) {
        down = plan.panels.ridge_hold_back;
    }
    edge.from.up -= down;
    edge.moved = down > no_length;
    return edge;
}

/// Corners between one edge and the next: where their lines meet, or a step where the lines are one direction.
inline void add_corner(const ReachEdge& a, const ReachEdge& b, PlanePoint corner, std::vector<PlanePoint>& corners) {
    if (!a.moved && !b.moved && (b.index == a.index + 1 || b.index == 0)) {
        corners.push_back(corner);
        return;
    }
    const double turned = cross_of(a.way, b.way);
    const double size = std::sqrt(dot_of(a.way, a.way) * dot_of(b.way, b.way));
    if (std::fabs(turned) <= 1e-9 * size) {
        corners.push_back({a.from.along + a.way.along, a.from.up + a.way.up});
        corners.push_back(b.from);
        return;
    }
    const double share = cross_of(between(a.from, b.from), b.way) / turned;
    corners.push_back({a.from.along + a.way.along * share, a.from.up + a.way.up * share});
}

/// The outline of moved edges; `starts` are where each edge begins.
[[nodiscard]] inline std::vector<PlanePoint> met_edges(const std::vector<ReachEdge>& edges,
                                                       const std::vector<PlanePoint>& corners,
                                                       std::vector<std::size_t>& starts) {
    std::vector<PlanePoint> outline;
    starts.clear();
    for (std::size_t i = 0; i < edges.size(); ++i) {
        const ReachEdge& before = edges[(i + edges.size() - 1) % edges.size()];
        add_corner(before, edges[i], corners[edges[i].index], outline);
        starts.push_back(outline.size() - 1);
    }
    return outline;
}

/// The edge that the gaps have turned round furthest, if any: there is no room for it.
[[nodiscard]] inline std::optional<std::size_t> swallowed_edge(const std::vector<ReachEdge>& edges,
                                                               const std::vector<PlanePoint>& outline,
                                                               const std::vector<std::size_t>& starts) {
    std::optional<std::size_t> worst;
    double least = 0.0;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        const PlanePoint from = outline[starts[i]];
        const PlanePoint to = outline[(starts[i] + 1) % outline.size()];
        const double kept = dot_of(between(from, to), edges[i].way) / dot_of(edges[i].way, edges[i].way);
        if (kept < least) {
            least = kept;
            worst = i;
        }
    }
    return worst;
}

[[noreturn]] inline void refuse_reach() {
    throw FaultError{Fault{FaultCode::does_not_fit, "panels", "gaps that leave no plane between them",
                           "hip, valley and ridge gaps smaller than the plane"}};
}

/// How far panels reach on `plane` with this overhang.
template <Surface surface>
[[nodiscard]] PanelReach panel_reach(const Plane<surface>& plane, const CutPanelPlan& plan, Length overhang) {
    const std::size_t n = plane.outline.size();
    PanelReach reach{{}, {}};
    for (std::size_t i = 0; i < n; ++i) {
        reach.edges.push_back(
            reach_edge(plan, overhang, plane.edges[i], plane.outline[i], plane.outline[(i + 1) % n], i));
    }
    std::vector<std::size_t> starts;
    while (reach.edges.size() >= 3) {
        reach.outline = met_edges(reach.edges, plane.outline, starts);
        const std::optional<std::size_t> gone = swallowed_edge(reach.edges, reach.outline, starts);
        if (!gone) {
            break;
        }
        reach.edges.erase(reach.edges.begin() + static_cast<std::ptrdiff_t>(*gone));
    }
    const std::size_t m = reach.outline.size();
    if (reach.edges.size() < 3 || !(square_inches(signed_area(reach.outline)) > 0.0) || crosses_itself(reach.outline)) {
        refuse_reach();
    }
    for (std::size_t i = 0; i < reach.edges.size(); ++i) {
        reach.edges[i].from = reach.outline[starts[i]];
        reach.edges[i].way = between(reach.edges[i].from, reach.outline[(starts[i] + 1) % m]);
    }
    return reach;
}

/// How near an opening may come to the reach and still end at it.
inline constexpr Length opening_touches = Length::from_inches(1e-6);

/// Where an edge of an opening, from a corner within the reach to one outside of it, leaves it.
struct Leaving {
    std::size_t edge;
    PlanePoint at;
};
[[nodiscard]] inline Leaving leave_reach(const std::vector<PlanePoint>& outline, PlanePoint in, PlanePoint corner) {
    std::optional<Leaving> found;
    const double past = 1.0 + 2.0 * (opening_touches / hypotenuse(corner.along - in.along, corner.up - in.up));
    const PlanePoint out{in.along + (corner.along - in.along) * past, in.up + (corner.up - in.up) * past};
    for (std::size_t e = 0; e < outline.size(); ++e) {
        const PlanePoint a = outline[e];
        const PlanePoint b = outline[(e + 1) % outline.size()];
        const double side_in = turn(a, b, in);
        const double side_out = turn(a, b, out);
        if (side_in > 0.0 && side_out <= 0.0 && turn(in, out, a) * turn(in, out, b) <= 0.0) {
            if (found) {
                throw FaultError{Fault{FaultCode::not_supported, "plane.openings", "an opening across a corner",
                                       "an opening that each of its sides leaves the panels' reach once"}};
            }
            const double share = side_in / (side_in - side_out);
            found = Leaving{e, {in.along + (out.along - in.along) * share, in.up + (out.up - in.up) * share}};
        }
    }
    if (!found) {
        refuse_reach();
    }
    return *found;
}

/// Corners of an opening, clockwise, and which of them lie within the reach.
struct ReachOpening {
    std::vector<PlanePoint> ring;
    std::vector<bool> within;
    std::size_t outside;
};
[[nodiscard]] inline ReachOpening reach_opening(const std::vector<PlanePoint>& outline,
                                                const std::vector<PlanePoint>& opening) {
    ReachOpening result{{}, {}, 0};
    const bool clockwise = square_inches(signed_area(opening)) < 0.0;
    for (std::size_t i = 0; i < opening.size(); ++i) {
        PlanePoint p = clockwise ? opening[i] : opening[opening.size() - 1 - i];
        Length nearest = Length::from_inches(length_limit_in);
        for (std::size_t e = 0; e < outline.size(); ++e) {
            nearest = shorter(nearest, distance_to(p, outline[e], outline[(e + 1) % outline.size()]));
        }
        const bool within = is_inside(p, outline) && nearest > opening_touches;
        result.ring.push_back(p);
        result.within.push_back(within);
        result.outside += within ? 0 : 1;
    }
    return result;
}

/// The reach without an opening that lies across one stretch of its edge: a cupola astride a ridge.
[[nodiscard]] inline std::vector<PlanePoint> without_opening(const std::vector<PlanePoint>& outline,
                                                             const ReachOpening& opening) {
    const std::size_t n = opening.ring.size();
    std::size_t first = n;
    std::size_t entries = 0;
    for (std::size_t i = 0; i < n; ++i) {
        if (opening.within[i] && !opening.within[(i + n - 1) % n]) {
            first = i;
            ++entries;
        }
    }
    if (entries != 1) {
        throw FaultError{Fault{FaultCode::not_supported, "plane.openings", "an opening across several edges",
                               "an opening that lies across one stretch of the plane's edge at most"}};
    }
    const Leaving in = leave_reach(outline, opening.ring[first], opening.ring[(first + n - 1) % n]);
    std::vector<PlanePoint> result{in.at};
    std::size_t last = first;
    for (std::size_t i = first; opening.within[i % n]; ++i) {
        result.push_back(opening.ring[i % n]);
        last = i % n;
    }
    const Leaving out = leave_reach(outline, opening.ring[last], opening.ring[(last + 1) % n]);
    result.push_back(out.at);
    std::size_t e = out.edge;
    do {
        e = (e + 1) % outline.size();
        result.push_back(outline[e]);
    } while (e != in.edge);
    return result;
}

/// The panels' reach as rings: openings within it stay, those across its edge are taken out of it.
[[nodiscard]] inline Rings reach_rings(const PanelReach& reach, const std::vector<std::vector<PlanePoint>>& openings) {
    std::vector<PlanePoint> outline = reach.outline;
    std::vector<std::vector<PlanePoint>> kept;
    for (const std::vector<PlanePoint>& opening : openings) {
        const ReachOpening seen = reach_opening(outline, opening);
        if (seen.outside == 0) {
            kept.push_back(opening);
        } else if (seen.outside < seen.ring.size()) {
            outline = without_opening(outline, seen);
        }
    }
    return rings_of(outline, kept);
}

}  // namespace eavewright::detail
