// SPDX-License-Identifier: BSL-1.0
#pragma once

// Trim, closures and sealant by the run of each edge of a plane.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace eavewright {

/// Trim of one profile: pieces of one length that lap one another.
struct TrimStock {
    Length piece;                           ///< length of a piece
    Length lap = Length::from_inches(4.0);  ///< of one piece over the next; common practice, the maker's comes first
    Length past_ends = no_length;           ///< of the run past its edge, both ends together: turned down or cut back
};

/// One edge of a plane and the trim that covers it.
struct TrimRun {
    std::size_t edge;  ///< index into the plane's edges
    EdgeKind kind;
    Length run;           ///< of the edge, with what goes past its ends
    std::int64_t pieces;  ///< whole pieces
    Length last_piece;    ///< what the last of them is cut to
    Length piece;         ///< length of a whole one
};
template <>
struct FieldsOf<TrimRun> {
    static constexpr auto list =
        field_list(field("edge", FieldUnit::count, "index of the edge", &TrimRun::edge),
                   field("kind", FieldUnit::none, "what the edge is", &TrimRun::kind),
                   field("run", FieldUnit::length, "of the edge, with what goes past its ends", &TrimRun::run),
                   field("pieces", FieldUnit::count, "whole pieces", &TrimRun::pieces),
                   field("last_piece", FieldUnit::length, "what the last of them is cut to", &TrimRun::last_piece),
                   field("piece", FieldUnit::length, "length of a whole one", &TrimRun::piece));
};

inline void find_faults(const TrimStock& stock, const Path& path, Faults& faults) {
    require_within(stock.piece, Length::from_inches(6.0), Length::from_feet(60.0), Path{path, "piece"}, faults);
    require_within(stock.lap, no_length, Length::from_inches(24.0), Path{path, "lap"}, faults);
    require_within(stock.past_ends, -Length::from_feet(4.0), Length::from_feet(4.0), Path{path, "past_ends"}, faults);
    if (stock.lap >= stock.piece / 2.0) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "lap"}.text(), describe_length(stock.lap),
                               "less than half a piece of " + describe_length(stock.piece)});
    }
}

/// Pieces that cover a run: n pieces with lap d cover nL - (n-1)d. 0 for a run of nothing.
/// Throws `FaultError` with the first fault of `stock`, or too_much_work.
[[nodiscard]] inline std::int64_t count_trim(Length run, const TrimStock& stock) {
    require_sound(stock, "trim");
    return run <= count_tolerance ? 0 : 1 + steps_to_cover(run - stock.piece, stock.piece - stock.lap);
}

/// The trim of every edge of one kind, on one plane. A ridge is shared by two planes: ask for it on one of them.
/// Throws `FaultError`: the first fault of `stock`, contradiction where the plane has not one kind for each edge.
template <Surface surface>
[[nodiscard]] std::vector<TrimRun> trim_runs(const Plane<surface>& plane, EdgeKind kind, const TrimStock& stock) {
    require_sound(stock, "trim");
    if (plane.edges.size() != plane.outline.size()) {
        throw FaultError{Fault{FaultCode::contradiction, "plane.edges", std::to_string(plane.edges.size()) + " edges",
                               "one for each of " + std::to_string(plane.outline.size()) + " corners"}};
    }
    std::vector<TrimRun> runs;
    for (std::size_t edge = 0; edge < plane.edges.size(); ++edge) {
        if (plane.edges[edge] != kind) {
            continue;
        }
        const Length run = longer(no_length, edge_length(plane.outline, edge) + stock.past_ends);
        const std::int64_t pieces = count_trim(run, stock);
        const double before = static_cast<double>(pieces > 0 ? pieces - 1 : 0);
        runs.push_back({edge, kind, run, pieces, run - (stock.piece - stock.lap) * before, stock.piece});
    }
    return runs;
}

/// Strips or rolls that fill a run end to end without a lap: closures under the ribs, butyl tape.
/// Throws `FaultError` out_of_range for a strip that is no length, too_much_work.
[[nodiscard]] inline std::int64_t count_strips(Length run, Length strip) { return steps_to_cover(run, strip); }

}  // namespace eavewright
