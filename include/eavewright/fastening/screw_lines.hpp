// SPDX-License-Identifier: BSL-1.0
#pragma once

// Where the rows of screws are snapped or drilled when no purlin shows, and how much the purlin below forgives.

#include <eavewright/fastening/screws.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright {

/// One line to snap straight across the panels, from a mark at the left rake to a mark at the right one. Marks go up the
/// slope from the fascia's outer face, on the surface that the panels lie on.
struct ScrewLine {
    std::size_t row;   ///< index of the support
    Length left;       ///< exact, at the panels' left edge
    Length right;      ///< exact, at their right edge
    Length left_mark;  ///< rounded to the tick
    Length right_mark;
    Length left_on_panel;         ///< the left mark from the first panel's lower end, rounded
    Length right_on_panel;        ///< the right mark from the last one's
    std::vector<Length> margins;  ///< at every panel edge from left to right: line to the purlin's nearer side,
                                  ///< below 0 where the line is off the purlin
    Length least_margin;
};
template <>
struct FieldsOf<ScrewLine> {
    static constexpr auto list = field_list(
        field("row", FieldUnit::count, "index of the support", &ScrewLine::row),
        field("left", FieldUnit::length, "exact, up from the fascia's outer face at the left rake", &ScrewLine::left),
        field("right", FieldUnit::length, "exact, at the right rake", &ScrewLine::right),
        field("left_mark", FieldUnit::length, "left, rounded", &ScrewLine::left_mark),
        field("right_mark", FieldUnit::length, "right, rounded", &ScrewLine::right_mark),
        field("left_on_panel", FieldUnit::length, "left, from the panel's lower end, rounded",
              &ScrewLine::left_on_panel),
        field("right_on_panel", FieldUnit::length, "right, from the panel's lower end, rounded",
              &ScrewLine::right_on_panel),
        field("margins", FieldUnit::length, "line to the purlin's nearer side at every panel edge",
              &ScrewLine::margins),
        field("least_margin", FieldUnit::length, "the least of them", &ScrewLine::least_margin));
};

/// The lines of a plane, lowest first, and what is wrong with them.
struct ScrewLines {
    std::vector<Length> panel_edges;  ///< along the eave, from left to right, where margins are taken
    std::vector<ScrewLine> lines;     ///< of the supports that the panels reach at both rakes
    std::vector<ScrewFinding> findings;
};
template <>
struct FieldsOf<ScrewLines> {
    static constexpr auto list = field_list(
        field("panel_edges", FieldUnit::length, "where margins are taken", &ScrewLines::panel_edges),
        field("lines", FieldUnit::none, "lines to snap, lowest first", &ScrewLines::lines),
        field("findings", FieldUnit::none, "lines too near to a purlin's side, or off it", &ScrewLines::findings));
};

/// One row of holes through a stack of panels, square across them.
struct DrillMark {
    std::size_t row;
    Length exact;  ///< from the lower end of the pieces: midway between the least and the most that any of them needs
    Length mark;   ///< rounded to the tick
    Length least_margin;  ///< of any hole to the purlin's side, drilled at the mark; below 0 where one misses
    bool holds;           ///< whether that is the least margin asked, so that the stack may be drilled
};
template <>
struct FieldsOf<DrillMark> {
    static constexpr auto list = field_list(
        field("row", FieldUnit::count, "index of the support", &DrillMark::row),
        field("exact", FieldUnit::length, "from the lower end of the pieces", &DrillMark::exact),
        field("mark", FieldUnit::length, "the same, rounded", &DrillMark::mark),
        field("least_margin", FieldUnit::length, "of any hole to the purlin's side", &DrillMark::least_margin),
        field("holds", FieldUnit::none, "whether that is the least margin asked", &DrillMark::holds));
};

namespace detail {
/// Lanes from left to right.
[[nodiscard]] inline std::vector<ScrewLane> lanes_from_left(const Panels& panels) {
    std::vector<ScrewLane> lanes = screw_lanes(panels);
    if (panels.start == StartCorner::eave_right) {
        std::reverse(lanes.begin(), lanes.end());
    }
    return lanes;
}

[[nodiscard]] inline ScrewLine screw_line(std::size_t row, const SupportLine& support, const ScrewLane& first,
                                          const ScrewLane& last, const std::vector<Length>& edges,
                                          const ScrewPattern& pattern) {
    const Length left = first.screw_up(support, edges.front(), pattern.end_distance);
    const Length right = last.screw_up(support, edges.back(), pattern.end_distance);
    ScrewLine line{.row = row,
                   .left = left,
                   .right = right,
                   .left_mark = round_to_tick(left, pattern.tick),
                   .right_mark = round_to_tick(right, pattern.tick),
                   .left_on_panel = round_to_tick(left - first.low, pattern.tick),
                   .right_on_panel = round_to_tick(right - last.low, pattern.tick),
                   .margins = {},
                   .least_margin = support.width / 2.0};
    for (const Length along : edges) {
        const double share = (along - edges.front()) / (edges.back() - edges.front());
        const Length up = line.left_mark + (line.right_mark - line.left_mark) * share;
        line.margins.push_back(support.width / 2.0 - magnitude(up - up_at(support.centreline, along)));
        line.least_margin = shorter(line.least_margin, line.margins.back());
    }
    return line;
}

inline void judge_line(const ScrewLine& line, const std::vector<Length>& edges, const ScrewPattern& pattern,
                       ScrewLines& lines) {
    if (line.least_margin + count_tolerance >= pattern.least_margin) {
        return;
    }
    std::size_t worst = 0;
    for (std::size_t i = 1; i < line.margins.size(); ++i) {
        worst = line.margins[i] < line.margins[worst] ? i : worst;
    }
    const double share = (edges[worst] - edges.front()) / (edges.back() - edges.front());
    const Length up = line.left_mark + (line.right_mark - line.left_mark) * share;
    const ScrewFindingCode code =
        line.least_margin < no_length ? ScrewFindingCode::misses_purlin : ScrewFindingCode::narrow_margin;
    lines.findings.push_back({code, line.row, {edges[worst], up}, line.least_margin, pattern.least_margin});
}
}  // namespace detail

/// The lines to snap, straight from rake to rake, for panels on purlins that do not show. A line lies on the purlin's
/// centre at both rakes, or as near to it as the end distance allows. Margins are of the line as marked, and only at panel
/// edges: rows that were found bent may be worse between. Supports that the panels do not reach at both rakes get a
/// finding and no line.
/// Throws as `count_screws`.
template <Surface surface>
[[nodiscard]] ScrewLines screw_lines(const Panels& panels, const Supports<surface>& supports,
                                     const ScrewPattern& pattern = {}) {
    detail::require_screwable(panels, supports, pattern);
    ScrewLines result{{}, {}, {}};
    const std::vector<detail::ScrewLane> lanes = detail::lanes_from_left(panels);
    if (lanes.empty()) {
        return result;
    }
    result.panel_edges.push_back(lanes.front().left);
    for (const detail::ScrewLane& lane : lanes) {
        result.panel_edges.push_back(lane.right);
    }
    for (std::size_t row = 0; row < supports.lines.size(); ++row) {
        const SupportLine& support = supports.lines[row];
        const Length left = lanes.front().margin(support, lanes.front().left, pattern.end_distance);
        const Length right = lanes.back().margin(support, lanes.back().right, pattern.end_distance);
        if (!(left > no_length && right > no_length)) {
            const Length along = left < right ? lanes.front().left : lanes.back().right;
            result.findings.push_back({ScrewFindingCode::row_past_panel,
                                       row,
                                       {along, up_at(support.centreline, along)},
                                       shorter(left, right),
                                       no_length});
            continue;
        }
        result.lines.push_back(
            detail::screw_line(row, support, lanes.front(), lanes.back(), result.panel_edges, pattern));
        detail::judge_line(result.lines.back(), result.panel_edges, pattern, result);
    }
    return result;
}

/// The same on purlin rows.
[[nodiscard]] inline ScrewLines screw_lines(const Panels& panels, const PurlinRows& rows,
                                            const ScrewPattern& pattern = {}) {
    return screw_lines(panels, supports_of(rows), pattern);
}

/// The same rows measured from the lower end of the pieces at `place` (0 at the eave), to drill a stack of them at once.
/// Holes go square across, so skew or bent rows eat the margin at panel edges: `holds` says whether it lasts. Only
/// supports under some piece of that place are listed.
/// Throws as `count_screws`.
template <Surface surface>
[[nodiscard]] std::vector<DrillMark> drill_marks(const Panels& panels, const Supports<surface>& supports,
                                                 const ScrewPattern& pattern = {}, std::int32_t place = 0) {
    detail::require_screwable(panels, supports, pattern);
    struct Need {
        Length from_low;
        Length centre;  ///< of the support, from the piece's lower end
    };
    std::vector<DrillMark> marks;
    for (std::size_t row = 0; row < supports.lines.size(); ++row) {
        const SupportLine& support = supports.lines[row];
        std::vector<Need> needs;
        for (const PanelPiece& piece : panels.pieces) {
            const detail::ScrewLane lane{0,
                                         1,
                                         piece.outline[0].along,
                                         piece.outline[1].along,
                                         piece.low,
                                         piece.outline[3].up,
                                         piece.outline[2].up};
            if (piece.place == place && lane.margin(support, lane.middle(), pattern.end_distance) > no_length) {
                for (const Length along : {lane.left, lane.right}) {
                    needs.push_back({lane.screw_up(support, along, pattern.end_distance) - piece.low,
                                     up_at(support.centreline, along) - piece.low});
                }
            }
        }
        if (needs.empty()) {
            continue;
        }
        Span reach{needs.front().from_low, needs.front().from_low};
        for (const Need& need : needs) {
            reach = {shorter(reach.low, need.from_low), longer(reach.high, need.from_low)};
        }
        const Length exact = (reach.low + reach.high) / 2.0;
        const Length mark = round_to_tick(exact, pattern.tick);
        Length least = support.width / 2.0;
        for (const Need& need : needs) {
            least = shorter(least, support.width / 2.0 - magnitude(mark - need.centre));
        }
        marks.push_back({row, exact, mark, least, least + count_tolerance >= pattern.least_margin});
    }
    return marks;
}

/// The same on purlin rows.
[[nodiscard]] inline std::vector<DrillMark> drill_marks(const Panels& panels, const PurlinRows& rows,
                                                        const ScrewPattern& pattern = {}, std::int32_t place = 0) {
    return drill_marks(panels, supports_of(rows), pattern, place);
}

}  // namespace eavewright
