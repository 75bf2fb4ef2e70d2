// SPDX-License-Identifier: BSL-1.0
#pragma once

// The lines that nails of a piece stand in: one on each support under it, or more beside openings. Counts and places both
// stand on them. Works in the lane frame (tiling/lane_frame.hpp).

#include <eavewright/fastening/nail_pattern.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// A line of nails of a piece on a support: the support's centre line, or as near to it as the edge distance from the piece's
/// own ends allows.
struct NailLine {
    std::size_t support;
    Span across;  ///< from side to side of the piece, or of the support's wood
    Length up;    ///< level at which it is measured: the support's centre at the middle of the piece
    bool at_end;
    Span past;   ///< from the piece's ends to the support's faces; not above 0 where the support reaches under an end
    Span reach;  ///< the piece's ends there

    [[nodiscard]] Length length() const { return across.high - across.low; }
};

/// `centre`, or as near to it as keeps the edge distance from both ends of a piece; midway where there is no room for both.
[[nodiscard]] inline Length kept_inside(Span reach, Length centre, Length edge_distance) {
    const Length lowest = reach.low + edge_distance;
    const Length highest = reach.high - edge_distance;
    return highest < lowest ? (lowest + highest) / 2.0 : longer(lowest, shorter(highest, centre));
}

/// Where a nail line lies on a support under a piece that reaches over `reach`; none where too little of it lies under.
[[nodiscard]] inline std::optional<Length> nail_line_up(Span reach, Length centre, Length width, Length edge_distance) {
    const Length half = width / 2.0;
    const Length under = shorter(reach.high, centre + half) - longer(reach.low, centre - half);
    if (under + count_tolerance < edge_distance || under <= count_tolerance) {
        return std::nullopt;
    }
    return kept_inside(reach, centre, edge_distance);
}

/// The part of `across` where the support has wood in one of its stretches.
[[nodiscard]] inline Span wood_within(Span across, Span stretch, Length width) {
    return {longer(across.low, stretch.low - width), shorter(across.high, stretch.high + width)};
}

/// A support, and where its centre lies if that is the same all along.
struct NailSupport {
    SupportLine line;
    std::optional<Length> level;

    [[nodiscard]] Length centre_at(Length along) const { return level ? *level : up_at(line.centreline, along); }
};

[[nodiscard]] inline NailSupport nail_support(SupportLine line) {
    const std::vector<PlanePoint>& centre = line.centreline;
    bool level = true;
    for (const PlanePoint& p : centre) {
        level = level && p.up == centre[0].up;
    }
    const Length up = centre[0].up;
    return {std::move(line), level ? std::optional<Length>{up} : std::nullopt};
}

/// A piece as lines see it.
struct PieceToNail {
    PlanePart part;
    Extent extent;
    bool square;  ///< a rectangle along the axes: every line across it is as long as it is wide
    bool convex;

    /// Looks at `part` anew.
    void look() {
        const std::vector<PlanePoint>& outline = part.outline;
        extent = extent_of(outline);
        square = part.cutouts.empty() && outline.size() == 4;
        for (std::size_t i = 0; square && i < 4; ++i) {
            const PlanePoint a = outline[i];
            const PlanePoint b = outline[i == 3 ? 0 : i + 1];
            square = a.along == b.along || a.up == b.up;
        }
        convex = square || (part.cutouts.empty() && (outline.size() < 4 || is_convex(outline)));
    }
};

/// The nail lines of a piece on one support: one on a convex piece, on others one between every two edges; each only where
/// the support runs.
inline void add_nail_lines(const PieceToNail& piece, std::size_t support, const NailSupport& on, Length middle,
                           Length edge_distance, std::vector<NailLine>& found) {
    const Extent& extent = piece.extent;
    const SupportLine& line = on.line;
    const Length half = line.width / 2.0;
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
                found.push_back({support, part, *up, at_end, past, reach});
            }
        };
        for (const Span& stretch : line.stretches) {
            push(wood_within(across, stretch, line.width));
        }
        if (line.stretches.empty()) {
            push(across);
        }
    };
    if (piece.convex) {
        add(piece.square ? Span{extent.low.along, extent.high.along} : along_span(piece.part.outline, *up), middle,
            whole);
        return;
    }
    const Rings rings = rings_of(piece.part.outline, piece.part.cutouts);
    for (const Span& across : spans_at(rings, Axis::up, *up)) {
        const Length at = (across.low + across.high) / 2.0;
        for (const Span& reach : spans_at(rings, Axis::along, at)) {
            if (reach.low <= *up && *up <= reach.high) {
                add(across, on.centre_at(at), reach);
            }
        }
    }
}

/// The nail lines of one piece, lowest first, put into `found`. The outermost ones that an end hangs past by no more than
/// `end_reach` are at it.
inline void nail_lines(const PieceToNail& piece, const std::vector<NailSupport>& supports, Length widest,
                       const NailPattern& pattern, std::vector<NailLine>& found) {
    const Extent& extent = piece.extent;
    const Length middle = (extent.low.along + extent.high.along) / 2.0;
    found.clear();
    const auto first = std::partition_point(supports.begin(), supports.end(), [&](const NailSupport& support) {
        return support.centre_at(middle) < extent.low.up - widest;
    });
    for (auto i = static_cast<std::size_t>(first - supports.begin()); i < supports.size(); ++i) {
        const Length centre = supports[i].centre_at(middle);
        if (centre > extent.high.up + widest) {
            break;
        }
        add_nail_lines(piece, i, supports[i], centre, pattern.edge_distance, found);
    }
    for (NailLine& line : found) {
        line.at_end =
            line.at_end || (line.support == found[0].support && line.past.low <= pattern.end_reach + count_tolerance);
        line.at_end = line.at_end || (line.support == found[found.size() - 1].support &&
                                      line.past.high <= pattern.end_reach + count_tolerance);
    }
}

/// An area of a pattern in the lane frame.
struct NailArea {
    std::vector<PlanePoint> outline;
    Extent extent;
    Length edge;
    Length field;
};

/// What nails stand on, turned into the lane frame.
struct NailGround {
    LaneFrame frame;
    std::vector<NailSupport> supports;
    Length widest;
    NailPattern base;
    std::vector<NailArea> areas;

    /// A piece in the lane frame.
    void take(const SheetPiece& piece, PieceToNail& taken) const {
        if (frame.swapped) {
            taken.part.outline = frame.outline_to_lane(piece.outline);
        } else {
            taken.part.outline = piece.outline;
        }
        taken.part.cutouts.clear();
        for (const std::vector<PlanePoint>& cutout : piece.cutouts) {
            taken.part.cutouts.push_back(frame.outline_to_lane(cutout));
        }
        taken.look();
    }
};

/// Refuses what cannot be nailed, and turns the rest. Supports and sheets run the same way.
template <Surface surface>
[[nodiscard]] NailGround nail_ground(const Sheets& sheets, const Supports<surface>& supports, const NailPattern& base) {
    require_sound(supports, "supports");
    if (sheets.run != supports.run) {
        throw FaultError{Fault{FaultCode::contradiction, "supports.run", std::string{name_of(supports.run)},
                               std::string{name_of(sheets.run)} + ", which the sheets were laid on"}};
    }
    const LaneFrame frame{supports.run == SupportRun::up_slope, false, no_length};
    NailGround ground{frame, {}, no_length, base, {}};
    ground.supports.reserve(supports.lines.size());
    for (SupportLine& line : lines_to_lane(supports.lines, frame)) {
        ground.widest = longer(ground.widest, line.width);
        ground.supports.push_back(nail_support(std::move(line)));
    }
    return ground;
}

template <Surface surface>
[[nodiscard]] NailGround nail_ground(const Sheets& sheets, const Supports<surface>& supports,
                                     const ZonedNailPattern& pattern) {
    NailGround ground = nail_ground(sheets, supports, pattern.base);
    for (const PatternArea& area : pattern.areas) {
        std::vector<PlanePoint> outline = ground.frame.outline_to_lane(area.outline);
        const Extent extent = extent_of(outline);
        ground.areas.push_back({std::move(outline), extent, area.pattern.edge, area.pattern.field});
    }
    return ground;
}

/// Calls `visit(index, piece, line)` for every nail line of every piece, in their order.
template <class Visit>
void for_nail_lines(const Sheets& sheets, const NailGround& ground, Visit visit) {
    const PlanePoint corner{no_length, no_length};
    PieceToNail piece{{{}, {}}, {corner, corner}, false, false};
    std::vector<NailLine> lines;
    for (std::size_t index = 0; index < sheets.pieces.size(); ++index) {
        ground.take(sheets.pieces[index], piece);
        nail_lines(piece, ground.supports, ground.widest, ground.base, lines);
        for (const NailLine& line : lines) {
            visit(index, piece, line);
        }
    }
}

}  // namespace eavewright::detail
