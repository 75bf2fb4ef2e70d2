// SPDX-License-Identifier: BSL-1.0
#pragma once

// Nails in sheets: counted on the supports that really lie under each piece.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/bearing.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// A nailing pattern. Nails stand in equal spaces not above the one given, between the edge distances.
struct NailPattern {
    Length edge;                                        ///< spacing on supports under the ends of a piece
    Length field;                                       ///< spacing on the supports between
    Length edge_distance = Length::from_inches(0.375);  ///< nail to panel edge; 3/8 in, common practice
    Length end_reach =
        Length::from_inches(3.0);  ///< an end that hangs no further past the outermost support of its piece
                                   ///< gives that support the edge spacing; common practice
};

/// Nails of one piece.
struct PieceNails {
    std::int64_t edge;   ///< on supports under its ends
    std::int64_t field;  ///< on supports between
};
/// Nails counted three ways, each adding up to the same total.
struct NailCount {
    std::int64_t total;
    std::vector<std::int64_t> by_row;  ///< by support, in their order
    std::vector<PieceNails> by_piece;  ///< by piece, in their order
};
template <>
struct FieldsOf<PieceNails> {
    static constexpr auto list =
        field_list(field("edge", FieldUnit::count, "nails on supports under the ends", &PieceNails::edge),
                   field("field", FieldUnit::count, "nails on supports between", &PieceNails::field));
};
template <>
struct FieldsOf<NailCount> {
    static constexpr auto list =
        field_list(field("total", FieldUnit::count, "nails in all", &NailCount::total),
                   field("by_row", FieldUnit::count, "nails in each support, in order", &NailCount::by_row),
                   field("by_piece", FieldUnit::none, "nails in each piece, in order", &NailCount::by_piece));
};

inline void find_faults(const NailPattern& pattern, const Path& path, Faults& faults) {
    require_within(pattern.edge, one_inch, Length::from_inches(48.0), Path{path, "edge"}, faults);
    require_within(pattern.field, one_inch, Length::from_inches(48.0), Path{path, "field"}, faults);
    require_within(pattern.edge_distance, no_length, Length::from_inches(6.0), Path{path, "edge_distance"}, faults);
    require_within(pattern.end_reach, no_length, Length::from_inches(24.0), Path{path, "end_reach"}, faults);
}

/// Nails in a line across `width`: one at each end (in by the edge distance) and equal spaces not above `spacing`
/// between. A stretch too narrow for two takes one; nothing takes none.
/// Throws `FaultError` for a width or edge distance that is not finite, a negative edge distance, or as `steps_to_cover`.
[[nodiscard]] inline std::int64_t nails_across(Length width, Length spacing, Length edge_distance) {
    Faults faults;
    const Length most = Length::from_inches(length_limit_in);
    require_within(width, -most, most, Path{"width"}, faults);
    require_within(edge_distance, no_length, most, Path{"edge_distance"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
    if (width <= count_tolerance) {
        return 0;
    }
    const Length between = width - 2.0 * edge_distance;
    return between <= count_tolerance ? 1 : steps_to_cover(between, spacing) + 1;
}

namespace detail {
/// A line of nails of a piece on a support: the support's centre line, or as near to it as the edge distance from the piece's
/// own ends allows. Lane frame.
struct NailLine {
    std::size_t support;
    Length length;
    bool at_end;
    Span past;  ///< from the piece's ends to the support's faces; not above 0 where the support reaches under an end
};

/// Where a nail line lies on a support under a piece that reaches over `reach`; none where too little of it lies under.
[[nodiscard]] inline std::optional<Length> nail_line_up(Span reach, Length centre, Length width, Length edge_distance) {
    const Length half = width / 2.0;
    const Length under = shorter(reach.high, centre + half) - longer(reach.low, centre - half);
    if (under + count_tolerance < edge_distance || under <= count_tolerance) {
        return std::nullopt;
    }
    const Length lowest = reach.low + edge_distance;
    const Length highest = reach.high - edge_distance;
    return highest < lowest ? (lowest + highest) / 2.0 : longer(lowest, shorter(highest, centre));
}

/// The part of `across` where the support has wood in one of its stretches.
[[nodiscard]] inline Span wood_within(Span across, Span stretch, Length width) {
    return {longer(across.low, stretch.low - width), shorter(across.high, stretch.high + width)};
}

/// The nail lines of a piece on one support: one on a convex piece, on others one between every two edges; each only where
/// the support runs.
inline void add_nail_lines(const PlanePart& piece, bool convex, const Extent& extent, std::size_t support,
                           const SupportLine& line, Length edge_distance, std::vector<NailLine>& found) {
    const Length half = line.width / 2.0;
    const Length middle = up_at(line.centreline, (extent.low.along + extent.high.along) / 2.0);
    const Span whole{extent.low.up, extent.high.up};
    const std::optional<Length> up = nail_line_up(whole, middle, line.width, edge_distance);
    if (!up) {
        return;
    }
    const auto add = [&](Span across, Length centre, Span reach) {
        const Span past{centre - half - reach.low, reach.high - (centre + half)};
        const bool at_end = past.low <= count_tolerance || past.high <= count_tolerance;
        const auto push = [&](Span part) {
            if (part.high > part.low) {
                found.push_back({support, part.high - part.low, at_end, past});
            }
        };
        for (const Span& stretch : line.stretches) {
            push(wood_within(across, stretch, line.width));
        }
        if (line.stretches.empty()) {
            push(across);
        }
    };
    if (convex) {
        add(along_span(piece.outline, *up), middle, whole);
        return;
    }
    const Rings rings = rings_of(piece.outline, piece.cutouts);
    for (const Span& across : spans_at(rings, Axis::up, *up)) {
        const Length at = (across.low + across.high) / 2.0;
        for (const Span& reach : spans_at(rings, Axis::along, at)) {
            if (reach.low <= *up && *up <= reach.high) {
                add(across, up_at(line.centreline, at), reach);
            }
        }
    }
}

/// The nail lines of one piece, lowest first. The outermost ones that an end hangs past by no more than `end_reach` are at it.
[[nodiscard]] inline std::vector<NailLine> nail_lines(const PlanePart& piece, const std::vector<SupportLine>& lines,
                                                      Length widest, const NailPattern& pattern) {
    const Extent extent = extent_of(piece.outline);
    const Length middle = (extent.low.along + extent.high.along) / 2.0;
    const bool convex = piece.cutouts.empty() && (piece.outline.size() < 4 || is_convex(piece.outline));
    std::vector<NailLine> found;
    std::size_t i = last_support_below(lines, middle, extent.low.up - widest).value_or(0);
    for (; i < lines.size() && up_at(lines[i].centreline, middle) <= extent.high.up + widest; ++i) {
        add_nail_lines(piece, convex, extent, i, lines[i], pattern.edge_distance, found);
    }
    for (NailLine& line : found) {
        line.at_end =
            line.at_end || (line.support == found[0].support && line.past.low <= pattern.end_reach + count_tolerance);
        line.at_end = line.at_end || (line.support == found[found.size() - 1].support &&
                                      line.past.high <= pattern.end_reach + count_tolerance);
    }
    return found;
}
}  // namespace detail

/// Counts the nails of every piece on every support under it. A support belongs to a piece where at least the edge
/// distance of it lies under the piece; under an end of the piece it takes the edge spacing, and so does the outermost one
/// where the end hangs past it by `end_reach` at most.
/// Throws `FaultError` with the first fault of `pattern` or `supports`, contradiction where the sheets were laid on supports
/// that run the other way.
template <Surface surface>
[[nodiscard]] NailCount count_nails(const Sheets& sheets, const Supports<surface>& supports,
                                    const NailPattern& pattern) {
    require_sound(pattern, "nails");
    require_sound(supports, "supports");
    if (sheets.run != supports.run) {
        throw FaultError{Fault{FaultCode::contradiction, "supports.run", std::string{name_of(supports.run)},
                               std::string{name_of(sheets.run)} + ", which the sheets were laid on"}};
    }
    const detail::LaneFrame frame{supports.run == SupportRun::up_slope, false, no_length};
    const std::vector<SupportLine> lines = detail::lines_to_lane(supports.lines, frame);
    Length widest = no_length;
    for (const SupportLine& line : lines) {
        widest = longer(widest, line.width);
    }
    NailCount count{0, std::vector<std::int64_t>(lines.size(), 0), {}};
    count.by_piece.reserve(sheets.pieces.size());
    for (const SheetPiece& piece : sheets.pieces) {
        PlanePart part{frame.outline_to_lane(piece.outline), {}};
        for (const std::vector<PlanePoint>& cutout : piece.cutouts) {
            part.cutouts.push_back(frame.outline_to_lane(cutout));
        }
        PieceNails nails{0, 0};
        for (const detail::NailLine& line : detail::nail_lines(part, lines, widest, pattern)) {
            const std::int64_t row =
                nails_across(line.length, line.at_end ? pattern.edge : pattern.field, pattern.edge_distance);
            (line.at_end ? nails.edge : nails.field) += row;
            count.by_row[line.support] += row;
            count.total += row;
        }
        count.by_piece.push_back(nails);
    }
    return count;
}

/// The same on purlin rows.
[[nodiscard]] inline NailCount count_nails(const Sheets& sheets, const PurlinRows& rows, const NailPattern& pattern) {
    return count_nails(sheets, supports_of(rows), pattern);
}

}  // namespace eavewright
