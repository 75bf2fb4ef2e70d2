// SPDX-License-Identifier: BSL-1.0
#pragma once

// Screws in ribbed panels: counted on the supports that really lie under each panel, and along its side laps.

#include <eavewright/fastening/screw_pattern.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// Closed, numbered list of what can be wrong with a row of screws.
enum class ScrewFindingCode : int {
    row_past_panel = 0,  ///< a support lies past a panel's end: no screw reaches it, the next one is doubled instead
    narrow_margin = 1,   ///< the line that is snapped comes nearer to the purlin's side than the least margin
    misses_purlin = 2,   ///< the line that is snapped leaves the purlin
};
template <>
struct NamesOf<ScrewFindingCode> {
    static constexpr std::array<std::string_view, 3> list{"row_past_panel", "narrow_margin", "misses_purlin"};
};

/// One thing found: what, on which row, where, how much, and what the limit is.
struct ScrewFinding {
    ScrewFindingCode code;
    std::size_t row;
    PlanePoint place;
    Length measured;  ///< the margin; below 0 by how far the line is off
    Length limit;
};
template <>
struct FieldsOf<ScrewFinding> {
    static constexpr auto list =
        field_list(field("code", FieldUnit::none, "what was found", &ScrewFinding::code),
                   field("row", FieldUnit::count, "index of the support", &ScrewFinding::row),
                   field("place", FieldUnit::length, "where", &ScrewFinding::place),
                   field("measured", FieldUnit::length, "margin to the purlin's side", &ScrewFinding::measured),
                   field("limit", FieldUnit::length, "least margin", &ScrewFinding::limit));
};

/// Screws of a plane. The total is what stands in the rows and in the side laps; the rows' screws are counted by row and
/// by piece, each adding up to `in_rows`.
struct ScrewCount {
    std::int64_t total;
    std::int64_t in_rows;
    std::int64_t stitch;
    std::vector<std::int64_t> by_row;       ///< by support, in their order
    std::vector<std::int64_t> by_piece;     ///< by piece, in their order; at an end lap the upper piece's
    std::vector<std::int64_t> by_side_lap;  ///< stitch screws, from the first lap to the last
    bool unverified;                        ///< as the pattern
    std::vector<ScrewFinding> findings;
};
template <>
struct FieldsOf<ScrewCount> {
    static constexpr auto list = field_list(
        field("total", FieldUnit::count, "screws in all", &ScrewCount::total),
        field("in_rows", FieldUnit::count, "screws into supports", &ScrewCount::in_rows),
        field("stitch", FieldUnit::count, "screws in side laps", &ScrewCount::stitch),
        field("by_row", FieldUnit::count, "screws in each support, in order", &ScrewCount::by_row),
        field("by_piece", FieldUnit::count, "screws in each piece, in order", &ScrewCount::by_piece),
        field("by_side_lap", FieldUnit::count, "stitch screws in each side lap, in order", &ScrewCount::by_side_lap),
        field("unverified", FieldUnit::none, "the pattern was not read off the maker's sheet", &ScrewCount::unverified),
        field("findings", FieldUnit::none, "what is wrong where", &ScrewCount::findings));
};

namespace detail {
/// Where a screw stands on a support, and how much of the support is left beside it.
struct RibHold {
    Length up;
    Length margin;
};

/// A lane of panels as screws see it: its pieces, and how far its steel reaches.
struct ScrewLane {
    std::size_t first_piece;
    std::size_t pieces;
    Length left;
    Length right;
    Length low;
    Length left_top;
    Length right_top;

    [[nodiscard]] Length middle() const { return (left + right) / 2.0; }
    [[nodiscard]] Length top_at(Length along) const {
        return left_top + (right_top - left_top) * ((along - left) / (right - left));
    }
    /// The place nearest to a support's centre at which a screw holds the panel, and from there to the nearer side of the
    /// support, below 0 where the support lies past the panel's end.
    [[nodiscard]] RibHold hold(const SupportLine& line, Length along, Length top, Length end_distance) const {
        const Length centre = up_at(line.centreline, along);
        const Length up = longer(low + end_distance, shorter(top - end_distance, centre));
        return {up, line.width / 2.0 - magnitude(up - centre)};
    }
    [[nodiscard]] Length screw_up(const SupportLine& line, Length along, Length end_distance) const {
        return hold(line, along, top_at(along), end_distance).up;
    }
    [[nodiscard]] Length margin(const SupportLine& line, Length along, Length end_distance) const {
        return hold(line, along, top_at(along), end_distance).margin;
    }
};

[[nodiscard]] inline std::vector<ScrewLane> screw_lanes(const Panels& panels) {
    std::vector<ScrewLane> lanes;
    for (std::size_t i = 0; i < panels.pieces.size(); ++i) {
        const PanelPiece& piece = panels.pieces[i];
        if (piece.place == 0) {
            lanes.push_back({i, 0, piece.outline[0].along, piece.outline[1].along, piece.low, no_length, no_length});
        }
        ScrewLane& lane = lanes.back();
        lane.pieces += 1;
        lane.left_top = piece.outline[3].up;
        lane.right_top = piece.outline[2].up;
    }
    return lanes;
}

/// Sides of a lane that no neighbour laps.
struct OpenSides {
    bool first;  ///< a first panel that was ripped, at the rake begun at
    bool last;
};
[[nodiscard]] inline OpenSides open_sides_of(const Panels& panels, std::int32_t lane) {
    return {lane == 0 && panels.lanes > 1 && panels.first_cover + count_tolerance < panels.panel.cover,
            lane + 1 == panels.lanes};
}

/// Whether a lane is lapped over a support. Every lane has one lap less than pieces, so laps are found by counting.
[[nodiscard]] inline bool is_end_lap(const Panels& panels, const ScrewLane& lane, std::size_t row) {
    const auto laps_before = lane.first_piece - static_cast<std::size_t>(panels.pieces[lane.first_piece].lane);
    for (std::size_t k = 0; k + 1 < lane.pieces; ++k) {
        if (panels.end_laps[laps_before + k].support == row) {
            return true;
        }
    }
    return false;
}

/// The piece that a screw at `up` goes through first.
[[nodiscard]] inline std::size_t piece_at(const Panels& panels, const ScrewLane& lane, Length up) {
    std::size_t piece = lane.first_piece;
    while (piece + 1 < lane.first_piece + lane.pieces && panels.pieces[piece + 1].low <= up) {
        ++piece;
    }
    return piece;
}

/// Calls `visit(along)` for the ribs of a lane, given its lowest piece: from its first lap to short of the next panel's.
template <class Visit>
void for_ribs(const Panels& panels, const PanelPiece& piece, Visit visit) {
    const std::int64_t spaces = rib_spaces(panels.panel);
    const Length spacing = panels.panel.cover / static_cast<double>(spaces);
    const bool from_far = piece.lane == 0 && panels.lanes > 1 && piece.ripped;
    for (std::int64_t k = 0; k < spaces; ++k) {
        const Length out =
            from_far ? piece.cover - spacing * static_cast<double>(spaces - k) : spacing * static_cast<double>(k);
        if (out >= -count_tolerance && out < piece.cover - count_tolerance) {
            visit(panels.start == StartCorner::eave_left ? piece.outline[0].along + out : piece.outline[1].along - out);
        }
    }
}
[[nodiscard]] inline std::vector<Length> ribs_of(const Panels& panels, const PanelPiece& piece) {
    std::vector<Length> places;
    for_ribs(panels, piece, [&](Length along) { places.push_back(along); });
    return places;
}
}  // namespace detail

/// Places along the eave of the ribs that are screwed in a lane, away from the rake begun at: from its first lap to short
/// of the next panel's. A first panel that was ripped has its cut side at the rake.
/// Throws out_of_range for a lane that is not there.
[[nodiscard]] inline std::vector<Length> rib_places(const Panels& panels, std::int32_t lane) {
    for (const PanelPiece& piece : panels.pieces) {
        if (piece.lane == lane) {
            return detail::ribs_of(panels, piece);
        }
    }
    throw FaultError{
        Fault{FaultCode::out_of_range, "lane", std::to_string(lane), "0 to " + std::to_string(panels.lanes - 1)}};
}

namespace detail {
/// One finding a row: the lane that stays furthest from it.
inline void find_past_panel(std::size_t row, PlanePoint place, Length margin, ScrewCount& count) {
    for (ScrewFinding& finding : count.findings) {
        if (finding.row == row) {
            if (margin < finding.measured) {
                finding.place = place;
                finding.measured = margin;
            }
            return;
        }
    }
    count.findings.push_back({ScrewFindingCode::row_past_panel, row, place, margin, no_length});
}

/// One lane in one row that holds it.
struct HeldRow {
    std::size_t row;
    PerRib screws;
    std::size_t piece;  ///< the piece that they go through first
};

/// A row under a lane, and how far up the screws in its middle stand.
struct RowUnder {
    std::size_t row;
    Length up;
};

/// Calls `hold(HeldRow)` for every row that holds a lane, lowest first, and `miss(row, place, margin)` for the others before.
template <class Hold, class Miss>
void for_held_rows(const Panels& panels, const std::vector<SupportLine>& lines, const ScrewPattern& pattern,
                   const ScrewLane& lane, std::vector<RowUnder>& held, Hold hold, Miss miss) {
    const Length middle = lane.middle();
    const Length top = lane.top_at(middle);
    held.clear();
    for (std::size_t row = 0; row < lines.size(); ++row) {
        const RibHold at = lane.hold(lines[row], middle, top, pattern.end_distance);
        if (at.margin > no_length) {
            held.push_back({row, at.up});
        } else {
            miss(row, PlanePoint{middle, up_at(lines[row].centreline, middle)}, at.margin);
        }
    }
    for (std::size_t i = 0; i < held.size(); ++i) {
        const std::size_t row = held[i].row;
        hold(HeldRow{row, per_rib(pattern, is_end_lap(panels, lane, row), i == 0, i + 1 == held.size()),
                     piece_at(panels, lane, held[i].up)});
    }
}

inline void count_lane(const Panels& panels, const std::vector<SupportLine>& lines, const ScrewPattern& pattern,
                       const ScrewLane& lane, std::vector<RowUnder>& held, ScrewCount& count) {
    const PanelPiece& lowest = panels.pieces[lane.first_piece];
    std::int64_t ribs = 0;
    for_ribs(panels, lowest, [&](Length) { ++ribs; });
    const OpenSides open = open_sides_of(panels, lowest.lane);
    const int closing = pattern.closing_edge * ((open.first ? 1 : 0) + (open.last ? 1 : 0));
    for_held_rows(
        panels, lines, pattern, lane, held,
        [&](const HeldRow& row) {
            const std::int64_t screws = ribs * row.screws.screws + closing;
            count.by_row[row.row] += screws;
            count.by_piece[row.piece] += screws;
            count.in_rows += screws;
        },
        [&](std::size_t row, PlanePoint place, Length margin) { find_past_panel(row, place, margin, count); });
}

/// Calls `visit(seam, span)` for every side lap, from the first lap to the last: where it lies along the eave, and from where
/// to where both panels have steel.
template <class Visit>
void for_side_laps(const std::vector<ScrewLane>& lanes, bool from_left, Visit visit) {
    for (std::size_t i = 0; i + 1 < lanes.size(); ++i) {
        const ScrewLane& a = from_left ? lanes[i] : lanes[i + 1];  // at the left of the lap
        const ScrewLane& b = from_left ? lanes[i + 1] : lanes[i];
        visit(a.right, Span{longer(a.low, b.low), shorter(a.right_top, b.left_top)});
    }
}

inline void count_stitches(const std::vector<ScrewLane>& lanes, bool from_left, const ScrewPattern& pattern,
                           ScrewCount& count) {
    for_side_laps(lanes, from_left, [&](Length, Span lap) {
        count.by_side_lap.push_back(stitches_in(lap, pattern));
        count.stitch += count.by_side_lap.back();
    });
}

template <Surface surface>
void require_screwable(const Panels& panels, const Supports<surface>& supports, const ScrewPattern& pattern) {
    require_sound(pattern, "screws");
    require_sound(supports, "supports");
    require_sound(panels.panel, "panels.panel");
    if (supports.run != SupportRun::along_eave) {
        throw FaultError{Fault{FaultCode::contradiction, "supports.run", std::string{name_of(supports.run)},
                               "supports that run along the eave, across the ribs"}};
    }
}
}  // namespace detail

/// Counts the screws of panels on the supports under them. A row counts where the nearest place that keeps the end
/// distance still lies on the support; the lowest and topmost row that a panel reaches are its eave and its ridge.
/// Stitch screws stand in equal spaces not above the pattern's, along each side lap from end to end.
/// Throws `FaultError` with the first fault of an input, contradiction where the supports run up the slope.
template <Surface surface>
[[nodiscard]] ScrewCount count_screws(const Panels& panels, const Supports<surface>& supports,
                                      const ScrewPattern& pattern = {}) {
    detail::require_screwable(panels, supports, pattern);
    ScrewCount count{.total = 0,
                     .in_rows = 0,
                     .stitch = 0,
                     .by_row = std::vector<std::int64_t>(supports.lines.size(), 0),
                     .by_piece = std::vector<std::int64_t>(panels.pieces.size(), 0),
                     .by_side_lap = {},
                     .unverified = pattern.unverified,
                     .findings = {}};
    const std::vector<detail::ScrewLane> lanes = detail::screw_lanes(panels);
    std::vector<detail::RowUnder> held;
    for (const detail::ScrewLane& lane : lanes) {
        detail::count_lane(panels, supports.lines, pattern, lane, held, count);
    }
    detail::count_stitches(lanes, panels.start == StartCorner::eave_left, pattern, count);
    count.total = count.in_rows + count.stitch;
    return count;
}

/// The same on purlin rows.
[[nodiscard]] inline ScrewCount count_screws(const Panels& panels, const PurlinRows& rows,
                                             const ScrewPattern& pattern = {}) {
    return count_screws(panels, supports_of(rows), pattern);
}

}  // namespace eavewright
