// SPDX-License-Identifier: BSL-1.0
#pragma once

// Level distances from the edges of a plane, and a convex plane cut into cells along lines at such distances.

#include <eavewright/field.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace eavewright {

/// An edge that distances are measured from. The level distance of a point is
/// per_along x along + per_up x up + at_origin, 0 on the edge and positive inside.
struct ZoneEdge {
    EdgeKind kind;
    Length overhang;  ///< level, from the wall line to the edge
    Length datum;     ///< where zone widths start: level distance in from the edge, negative where they start beyond it
    double per_along;
    double per_up;
    Length at_origin;
    [[nodiscard]] Length distance(PlanePoint p) const noexcept {
        return per_along * p.along + per_up * p.up + at_origin;
    }
};
template <>
struct FieldsOf<ZoneEdge> {
    static constexpr auto list =
        field_list(field("kind", FieldUnit::none, "what the edge is", &ZoneEdge::kind),
                   field("overhang", FieldUnit::length, "level, from the wall line to the edge", &ZoneEdge::overhang),
                   field("datum", FieldUnit::length, "level distance in from the edge at which zone widths start",
                         &ZoneEdge::datum),
                   field("per_along", FieldUnit::ratio, "level distance by along", &ZoneEdge::per_along),
                   field("per_up", FieldUnit::ratio, "level distance by up", &ZoneEdge::per_up),
                   field("at_origin", FieldUnit::length, "level distance of the origin", &ZoneEdge::at_origin));
};

namespace detail {
/// The edge from corner `i` of a counter-clockwise outline, seen in plan.
[[nodiscard]] inline ZoneEdge zone_edge(const std::vector<PlanePoint>& outline, std::size_t i, EdgeKind kind,
                                        double cosine, Length overhang) {
    const PlanePoint a = outline[i];
    const PlanePoint b = outline[(i + 1) % outline.size()];
    const double along = inches(b.along - a.along);
    const double run = inches(b.up - a.up) * cosine;
    const double length = std::sqrt(along * along + run * run);
    const double per_along = -run / length;
    const double per_up = along / length * cosine;
    return {kind, overhang, no_length, per_along, per_up, -(per_along * a.along + per_up * a.up)};
}

/// Points at one distance from an edge.
struct ZoneLine {
    const ZoneEdge* edge;
    Length distance;
    [[nodiscard]] double side(PlanePoint p) const noexcept { return inches(edge->distance(p) - distance); }
};
/// A line that comes no further into a cell than this does not cut it.
inline constexpr double zone_rounding_in = 1e-9;

/// The part of a convex outline on one side of a line: inner (+1) or outer (-1).
[[nodiscard]] inline std::vector<PlanePoint> convex_side(const std::vector<PlanePoint>& outline, const ZoneLine& line,
                                                         double sign) {
    std::vector<PlanePoint> kept;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[(i + 1) % outline.size()];
        const double side_a = line.side(a);
        const double side_b = line.side(b);
        if (sign * side_a >= 0.0) {
            kept.push_back(a);
        }
        if ((side_a < 0.0 && side_b > 0.0) || (side_a > 0.0 && side_b < 0.0)) {
            // From the outer end always, so that both sides of the line get the same point to the bit.
            const PlanePoint from = side_a < 0.0 ? a : b;
            const PlanePoint to = side_a < 0.0 ? b : a;
            const double share = std::fabs(line.side(from)) / (std::fabs(side_a) + std::fabs(side_b));
            kept.push_back({from.along + (to.along - from.along) * share, from.up + (to.up - from.up) * share});
        }
    }
    return kept;
}
[[nodiscard]] inline bool cuts(const std::vector<PlanePoint>& outline, const ZoneLine& line) {
    bool inner = false;
    bool outer = false;
    for (const PlanePoint& p : outline) {
        inner = inner || line.side(p) > zone_rounding_in;
        outer = outer || line.side(p) < -zone_rounding_in;
    }
    return inner && outer;
}

template <class Place>
struct PlacedCell {
    Place place;
    std::vector<PlanePoint> outline;
};

/// Cuts a convex outline along the lines from `next` on and asks `place_of` for each cell's place; what lies in one place on
/// both sides of a line stays whole.
template <class PlaceOf>
[[nodiscard]] auto cut_into_cells(const std::vector<PlanePoint>& outline, const std::vector<ZoneLine>& lines,
                                  std::size_t next, const PlaceOf& place_of) {
    using Cell = PlacedCell<decltype(place_of(outline[0]))>;
    while (next < lines.size() && !cuts(outline, lines[next])) {
        ++next;
    }
    std::vector<Cell> cells;
    if (next == lines.size()) {
        cells.push_back({place_of(middle_of(outline)), outline});
        return cells;
    }
    cells = cut_into_cells(convex_side(outline, lines[next], -1.0), lines, next + 1, place_of);
    std::vector<Cell> inner = cut_into_cells(convex_side(outline, lines[next], 1.0), lines, next + 1, place_of);
    if (cells.size() == 1 && inner.size() == 1 && cells[0].place == inner[0].place) {
        cells[0].outline = outline;
        return cells;
    }
    for (Cell& cell : inner) {
        cells.push_back(std::move(cell));
    }
    return cells;
}
}  // namespace detail

}  // namespace eavewright
