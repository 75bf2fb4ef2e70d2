// SPDX-License-Identifier: BSL-1.0
#pragma once

// What every edge of every sheet rests on.

#include <eavewright/field.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/tile_sheets.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// What an edge of a sheet rests on.
enum class EdgeRest {
    on_support,        ///< an end joint over a support that carries both ends
    on_nothing,        ///< an end joint between supports, or one that a support carries in part
    between_supports,  ///< a long edge beside the next lane: carried where it crosses supports, free between
    at_hip,            ///< along the hip rafter
    at_valley,         ///< along the valley rafter
    at_opening,
    at_outer_edge,  ///< eave, rake, ridge, wall or break of pitch
};
template <>
struct NamesOf<EdgeRest> {
    static constexpr std::array<std::string_view, 7> list{"on_support", "on_nothing", "between_supports", "at_hip",
                                                          "at_valley",  "at_opening", "at_outer_edge"};
};

/// One edge of a piece, its outline counter-clockwise.
struct PieceEdge {
    std::size_t piece;
    PlanePoint from;
    PlanePoint to;
    EdgeRest rest;
    std::optional<std::size_t> support;  ///< under an end joint
    std::optional<EdgeKind> outer;       ///< kind of the plane's edge it lies on
};
template <>
struct FieldsOf<PieceEdge> {
    static constexpr auto list = field_list(
        field("piece", FieldUnit::count, "index of the piece", &PieceEdge::piece),
        field("from", FieldUnit::length, "where the edge begins", &PieceEdge::from),
        field("to", FieldUnit::length, "where it ends", &PieceEdge::to),
        field("rest", FieldUnit::none, "what it rests on", &PieceEdge::rest),
        field("support", FieldUnit::count, "index of the support under an end joint, null elsewhere",
              &PieceEdge::support),
        field("outer", FieldUnit::none, "kind of the plane's edge it lies on, null inside", &PieceEdge::outer));
};

namespace detail {
/// A point nearer than this to a line lies on it: rounding of where slanted edges were cut, far below a tick.
inline constexpr Length edge_rounding = Length::from_inches(1e-6);

[[nodiscard]] inline bool lies_on(PlanePoint a, PlanePoint b, PlanePoint from, PlanePoint to) {
    return distance_to(a, from, to) < edge_rounding && distance_to(b, from, to) < edge_rounding;
}
[[nodiscard]] inline std::optional<std::size_t> edge_under(PlanePoint a, PlanePoint b,
                                                           const std::vector<PlanePoint>& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        if (lies_on(a, b, ring[i], ring[(i + 1) % ring.size()])) {
            return i;
        }
    }
    return std::nullopt;
}

/// Whether an edge runs across the lanes rather than with them.
[[nodiscard]] inline bool runs_across(const Sheets& sheets, PlanePoint a, PlanePoint b) {
    const Length along = (b.along - a.along) + (b.up - a.up) * sheets.turn;
    const Length up = (b.up - a.up) - (b.along - a.along) * sheets.turn;
    const bool flat = magnitude(along) > magnitude(up);
    return sheets.run == SupportRun::along_eave ? flat : !flat;
}

/// End joints of each piece, as indexes into the layout's.
[[nodiscard]] inline std::vector<std::vector<std::size_t>> joints_by_piece(const Sheets& sheets) {
    std::vector<std::vector<std::size_t>> joints(sheets.pieces.size());
    for (std::size_t j = 0; j < sheets.joints.size(); ++j) {
        joints[sheets.joints[j].first].push_back(j);
        joints[sheets.joints[j].second].push_back(j);
    }
    return joints;
}

/// The joint along an end: of several, the one that is carried worst.
inline void rest_on_joint(const Sheets& sheets, const std::vector<std::size_t>& joints, Length reach, PieceEdge& edge) {
    edge.rest = EdgeRest::on_nothing;
    bool met = false;
    for (const std::size_t j : joints) {
        const EndJoint& joint = sheets.joints[j];
        const PlanePoint middle{(joint.from.along + joint.to.along) / 2.0, (joint.from.up + joint.to.up) / 2.0};
        if (distance_to(middle, edge.from, edge.to) > reach) {
            continue;
        }
        const bool carried = joint.support && joint.first_bearing > no_length && joint.second_bearing > no_length;
        if (!met || !carried) {
            edge.rest = carried ? EdgeRest::on_support : EdgeRest::on_nothing;
            edge.support = joint.support;
        }
        met = true;
    }
}
}  // namespace detail

/// Every edge of every piece, openings' edges included, piece by piece. `plan` and `plane` are those that it was laid with.
[[nodiscard]] inline std::vector<PieceEdge> piece_edges(const Sheets& sheets, const PurlinPlane& plane,
                                                        const SheetPlan& plan) {
    const std::vector<PlanePoint> outline = detail::sheet_outline(plane.outline, plane.edges, plan.past_fascia);
    const std::vector<std::vector<std::size_t>> joints = detail::joints_by_piece(sheets);
    const Length reach = plan.gap / 2.0 + detail::edge_rounding;
    std::vector<PieceEdge> edges;
    const auto add = [&](std::size_t piece, PlanePoint a, PlanePoint b) {
        PieceEdge edge{piece, a, b, EdgeRest::between_supports, std::nullopt, std::nullopt};
        for (const std::vector<PlanePoint>& opening : plane.openings) {
            if (detail::edge_under(a, b, opening)) {
                edge.rest = EdgeRest::at_opening;
            }
        }
        const std::optional<std::size_t> outer = detail::edge_under(a, b, outline);
        if (outer && edge.rest != EdgeRest::at_opening && *outer < plane.edges.size()) {
            edge.outer = plane.edges[*outer];
            edge.rest = *edge.outer == EdgeKind::hip      ? EdgeRest::at_hip
                        : *edge.outer == EdgeKind::valley ? EdgeRest::at_valley
                                                          : EdgeRest::at_outer_edge;
        } else if (edge.rest == EdgeRest::between_supports && detail::runs_across(sheets, a, b)) {
            detail::rest_on_joint(sheets, joints[piece], reach, edge);
        }
        edges.push_back(edge);
    };
    for (std::size_t p = 0; p < sheets.pieces.size(); ++p) {
        const SheetPiece& piece = sheets.pieces[p];
        for (std::size_t i = 0; i < piece.outline.size(); ++i) {
            add(p, piece.outline[i], piece.outline[(i + 1) % piece.outline.size()]);
        }
        for (const std::vector<PlanePoint>& cutout : piece.cutouts) {
            for (std::size_t i = 0; i < cutout.size(); ++i) {
                add(p, cutout[(i + 1) % cutout.size()], cutout[i]);
            }
        }
    }
    return edges;
}

}  // namespace eavewright
