// SPDX-License-Identifier: BSL-1.0
#pragma once

// A grid turned on a roof plane that is out of square, and the wedge that it leaves at each of the four edges.
//
//          ridge                    An edge that is not the grid's own direction leaves a wedge: the distance from the
//      \-----------/                grid's last line to the edge is not the same at both ends of it. Turning the grid
//       \  | | |  / rake            moves the wedge from one pair of edges to the other; it goes away only on a plane
//        \-------/                  that is square in itself.
//          eave
//
// A turn is a tangent, counter-clockwise seen from outside, as in `SheetPlan::turn`. Square roots and ratios alone.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// What the layers' grid is laid to.
enum class GridWay {
    square_to_eave,    ///< courses along the eave, columns square to it
    square_to_ridge,   ///< courses along the ridge
    along_left_rake,   ///< columns along the left rake, facing up the slope
    along_right_rake,  ///< columns along the right rake
    between_rakes,     ///< columns between the two: the taper shared by both rakes
    turned,            ///< so that the worst wedge of all four edges is least
};
template <>
struct NamesOf<GridWay> {
    static constexpr std::array<std::string_view, 6> list{"square_to_eave",   "square_to_ridge", "along_left_rake",
                                                          "along_right_rake", "between_rakes",   "turned"};
};

/// An edge of a four-sided plane, in the order of its outline.
enum class GridEdge { eave, right_rake, ridge, left_rake };
template <>
struct NamesOf<GridEdge> {
    static constexpr std::array<std::string_view, 4> list{"eave", "right_rake", "ridge", "left_rake"};
};

/// What an edge leaves between itself and a grid.
struct EdgeWedge {
    GridEdge edge;
    Length length;  ///< of the edge
    Length lean;  ///< of the edge against the grid: of a rake to the right from eave to ridge, of eave and ridge up the
                  ///< slope from left to right; a lean below a billionth of an inch is rounding, and given as 0
    Length wedge;  ///< its size: the largest less the least distance from a line of the grid to the edge
};
template <>
struct FieldsOf<EdgeWedge> {
    static constexpr auto list =
        field_list(field("edge", FieldUnit::none, "which edge", &EdgeWedge::edge),
                   field("length", FieldUnit::length, "of the edge", &EdgeWedge::length),
                   field("lean", FieldUnit::length, "a rake's to the right going up, eave's and ridge's up going right",
                         &EdgeWedge::lean),
                   field("wedge", FieldUnit::length, "largest less least distance from a grid line to the edge",
                         &EdgeWedge::wedge));
};

/// A turn of a grid. Made by `grid_turn`.
struct GridTurn {
    double tangent;
    double cosine;
    double sine;
};

/// The turn that has this tangent. Throws `FaultError` out_of_range beyond `steepest_turn`, and for what is no number.
[[nodiscard]] inline GridTurn grid_turn(double tangent) {
    if (!(tangent >= -steepest_turn && tangent <= steepest_turn)) {
        throw FaultError{Fault{std::isfinite(tangent) ? FaultCode::out_of_range : FaultCode::not_finite, "turn",
                               write_decimal(tangent, 6), "a tangent between -0.1 and 0.1"}};
    }
    if (tangent == 0.0) {
        return {0.0, 1.0, 0.0};
    }
    const double cosine = 1.0 / std::sqrt(1.0 + tangent * tangent);
    return {tangent, cosine, tangent * cosine};
}

/// A point of the plane in a frame turned about `about`, which keeps its place. Exact without a turn.
[[nodiscard]] inline PlanePoint turned(PlanePoint p, PlanePoint about, const GridTurn& turn) {
    if (turn.tangent == 0.0) {
        return p;
    }
    const Length along = p.along - about.along;
    const Length up = p.up - about.up;
    return {about.along + (along * turn.cosine + up * turn.sine), about.up + (up * turn.cosine - along * turn.sine)};
}
/// The way back: a point of the turned frame on the plane.
[[nodiscard]] inline PlanePoint turned_back(PlanePoint p, PlanePoint about, const GridTurn& turn) {
    return turned(p, about, {turn.tangent, turn.cosine, -turn.sine});
}

/// The same plane in a frame turned about its first corner, the eave's left one: outline and openings. Its placement and
/// pitch stay those of the plane that was not turned. Throws as `grid_turn`; the plane's own first fault.
template <Surface surface>
[[nodiscard]] Plane<surface> turned(const Plane<surface>& plane, double tangent) {
    const GridTurn turn = grid_turn(tangent);
    require_sound(plane, "plane");
    Plane<surface> result = plane;
    const auto turn_ring = [&](std::vector<PlanePoint>& ring) {
        for (PlanePoint& p : ring) {
            p = turned(p, plane.outline.front(), turn);
        }
    };
    turn_ring(result.outline);
    for (std::vector<PlanePoint>& opening : result.openings) {
        turn_ring(opening);
    }
    return result;
}

/// The supports of a plane in the same frame; `about` is the plane's first corner. Throws as `grid_turn`; the first fault
/// of `supports`.
template <Surface surface>
[[nodiscard]] Supports<surface> turned(const Supports<surface>& supports, PlanePoint about, double tangent) {
    const GridTurn turn = grid_turn(tangent);
    require_sound(supports, "supports");
    const bool along_eave = supports.run == SupportRun::along_eave;
    Supports<surface> result = supports;
    for (std::size_t i = 0; i < result.lines.size(); ++i) {
        const std::vector<PlanePoint>& line = supports.lines[i].centreline;
        for (PlanePoint& p : result.lines[i].centreline) {
            p = turned(p, about, turn);
        }
        const auto stretch_end = [&](Length at) {
            const PlanePoint p = along_eave ? PlanePoint{at, up_at(line, at)} : PlanePoint{along_at(line, at), at};
            const PlanePoint q = turned(p, about, turn);
            return along_eave ? q.along : q.up;
        };
        for (Span& stretch : result.lines[i].stretches) {
            stretch = {stretch_end(stretch.low), stretch_end(stretch.high)};
        }
    }
    return result;
}

namespace detail {
/// Leans below this are rounding.
inline constexpr Length lean_rounding = Length::from_inches(1e-9);

/// An edge as a turn sees it: its lean against the grid is cosine x (lean + run x tangent).
struct EdgeLean {
    GridEdge edge;
    Length length;
    Length lean;  ///< against a grid that is not turned
    Length run;   ///< below 0 for eave and ridge, which a turn to the left lowers at their right ends
    [[nodiscard]] double own_turn() const { return lean == no_length ? 0.0 : -(lean / run); }
    [[nodiscard]] Length lean_at(const GridTurn& turn) const {
        const Length at = (lean + run * turn.tangent) * turn.cosine;
        return magnitude(at) < lean_rounding ? no_length : at;
    }
};

[[nodiscard]] inline EdgeLean edge_lean(const std::vector<PlanePoint>& o, GridEdge edge) {
    const auto level = [&](std::size_t left, std::size_t right) {
        return EdgeLean{edge, hypotenuse(o[right].along - o[left].along, o[right].up - o[left].up),
                        o[right].up - o[left].up, o[left].along - o[right].along};
    };
    const auto upright = [&](std::size_t low, std::size_t high) {
        return EdgeLean{edge, hypotenuse(o[high].along - o[low].along, o[high].up - o[low].up),
                        o[high].along - o[low].along, o[high].up - o[low].up};
    };
    switch (edge) {
        case GridEdge::eave: return level(0, 1);
        case GridEdge::right_rake: return upright(1, 2);
        case GridEdge::ridge: return level(3, 2);
        default: return upright(0, 3);
    }
}

[[nodiscard]] inline std::vector<EdgeLean> edge_leans(const std::vector<PlanePoint>& outline) {
    std::vector<EdgeLean> leans;
    for (const GridEdge edge : {GridEdge::eave, GridEdge::right_rake, GridEdge::ridge, GridEdge::left_rake}) {
        leans.push_back(edge_lean(outline, edge));
    }
    return leans;
}

/// Four sides, no openings, rakes or walls left and right, every edge within 1 in 10 of square to the eave.
template <Surface surface>
void require_nearly_square(const Plane<surface>& plane) {
    require_four_sided(plane);
    const auto refuse = [](const char* path, const std::string& given, const char* required) {
        throw FaultError{Fault{FaultCode::not_supported, path, given, required}};
    };
    if (!plane.openings.empty()) {
        refuse("plane.openings", std::to_string(plane.openings.size()) + " openings", "a plane without openings");
    }
    for (const std::size_t side : {std::size_t{1}, std::size_t{3}}) {
        if (side < plane.edges.size() && plane.edges[side] != EdgeKind::rake && plane.edges[side] != EdgeKind::wall) {
            refuse("plane.edges", std::string{name_of(plane.edges[side])}, "a rake or a wall at both sides");
        }
    }
    for (const EdgeLean& lean : edge_leans(plane.outline)) {
        const bool level = lean.edge == GridEdge::eave || lean.edge == GridEdge::ridge;
        const Length run = level ? -lean.run : lean.run;
        if (!(run >= one_inch)) {
            refuse("plane.outline", std::string{name_of(lean.edge)} + " of " + describe_length(run),
                   "edges of an inch at least, each on its own side");
        }
        if (!(std::fabs(lean.own_turn()) <= steepest_turn)) {
            refuse("plane.outline",
                   std::string{name_of(lean.edge)} + " that leans " + describe_length(magnitude(lean.lean)) + " in " +
                       describe_length(run),
                   "edges within 1 in 10 of square: more cannot be laid so that it does not show");
        }
    }
}

[[nodiscard]] inline Length worst_wedge(const std::vector<EdgeLean>& edges, double tangent) {
    const GridTurn turn = grid_turn(tangent);
    Length worst = no_length;
    for (const EdgeLean& edge : edges) {
        worst = longer(worst, magnitude(edge.lean_at(turn)));
    }
    return worst;
}

/// The turn with the least worst wedge. Every wedge falls to nothing at its edge's own turn and rises on both sides, so
/// the least of their greatest lies at an own turn, or where two are alike: the cosine drops out, and ratios are left.
[[nodiscard]] inline double least_worst_turn(const std::vector<EdgeLean>& edges) {
    double best = 0.0;
    Length least = worst_wedge(edges, 0.0);
    const auto look = [&](double tangent) {
        if (!(std::fabs(tangent) <= steepest_turn)) {
            return;
        }
        const Length worst = worst_wedge(edges, tangent);
        if (worst < least || (worst == least && std::fabs(tangent) < std::fabs(best))) {
            best = tangent == 0.0 ? 0.0 : tangent;  // never -0
            least = worst;
        }
    };
    for (std::size_t i = 0; i < edges.size(); ++i) {
        look(edges[i].own_turn());
        for (std::size_t k = 0; k < i; ++k) {
            for (const double side : {1.0, -1.0}) {
                const Length run = edges[i].run - edges[k].run * side;
                if (run != no_length) {
                    look((edges[k].lean * side - edges[i].lean) / run);
                }
            }
        }
    }
    return best;
}
}  // namespace detail

/// The tangent of a way on a plane of four sides, its eave on up = 0.
/// Throws `FaultError`: the plane's first fault; not_supported for other planes, openings, and edges more than 1 in 10 out
/// of square; unknown_name.
template <Surface surface>
[[nodiscard]] double turn_of(const Plane<surface>& plane, GridWay way) {
    detail::require_nearly_square(plane);
    detail::require_named(way, "way");
    const std::vector<detail::EdgeLean> leans = detail::edge_leans(plane.outline);
    switch (way) {
        case GridWay::square_to_eave: return leans[0].own_turn();
        case GridWay::along_right_rake: return leans[1].own_turn();
        case GridWay::square_to_ridge: return leans[2].own_turn();
        case GridWay::along_left_rake: return leans[3].own_turn();
        case GridWay::between_rakes: return detail::least_worst_turn({leans[1], leans[3]});
        default: return detail::least_worst_turn(leans);
    }
}

/// The wedges of a grid at the eave, the right rake, the ridge and the left rake. All are exactly 0 on a square plane
/// without a turn. Throws as `turn_of` and `grid_turn`.
template <Surface surface>
[[nodiscard]] std::vector<EdgeWedge> edge_wedges(const Plane<surface>& plane, double tangent) {
    detail::require_nearly_square(plane);
    const GridTurn turn = grid_turn(tangent);
    std::vector<EdgeWedge> wedges;
    for (const detail::EdgeLean& edge : detail::edge_leans(plane.outline)) {
        const Length lean = edge.lean_at(turn);
        wedges.push_back({edge.edge, edge.length, lean, magnitude(lean)});
    }
    return wedges;
}

}  // namespace eavewright
