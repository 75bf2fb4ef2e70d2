// SPDX-License-Identifier: BSL-1.0
#pragma once

// Cap nails or cap staples of an underlayment: counted by rows, and placed in them.
//
//     |        next course
//     +--o---o---o---o---o---o---o--      side lap: a row along the lower edge of every course
//     |                   :o:
//     |  o       o        :o:    o        field: rows in equal spaces between side laps
//     |                   :o:
//     +--o---o---o---o---o-o-o---o--      end lap: a column up its middle, which takes one of every row that crosses it
//
// Caps go into the deck, so that supports have no say. What is folded over a ridge, hip or valley, up a wall, or lies past an
// edge of the plane, is no part of it; strips along valleys are neither.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/outline.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace eavewright {

/// Spacings of caps: 12 in between side laps and 6 in at side and end laps (IBC 1507.1.1 exception 2, read).
struct CapPattern {
    Length field = Length::from_inches(12.0);  ///< from row to row and within a row
    Length lap = Length::from_inches(6.0);     ///< along side and end laps
    Length edge = Length::from_inches(1.0);  ///< row to a course's lower edge, cap to the plane's edge; common practice
};

inline void find_faults(const CapPattern& pattern, const Path& path, Faults& faults) {
    require_within(pattern.field, one_inch, 48.0 * one_inch, Path{path, "field"}, faults);
    require_within(pattern.lap, one_inch, 48.0 * one_inch, Path{path, "lap"}, faults);
    require_within(pattern.edge, no_length, 6.0 * one_inch, Path{path, "edge"}, faults);
}

/// What a cap is there for.
enum class CapUse { field, side_lap, end_lap };
template <>
struct NamesOf<CapUse> {
    static constexpr std::array<std::string_view, 3> list{"field", "side_lap", "end_lap"};
};

/// One cap. They stand piece by piece, row by row from the lowest, then up the piece's end lap.
struct CapPlace {
    PlanePoint place;
    std::int32_t piece;  ///< index of the piece of roll; the upper one at laps
    CapUse use;
};
template <>
struct FieldsOf<CapPlace> {
    static constexpr auto list =
        field_list(field("place", FieldUnit::length, "on the plane", &CapPlace::place),
                   field("piece", FieldUnit::count, "index of the piece of roll", &CapPlace::piece),
                   field("use", FieldUnit::none, "what it is there for", &CapPlace::use));
};

/// Caps of a plane.
struct CapCount {
    std::int64_t total;
    std::int64_t field;
    std::int64_t side_laps;
    std::int64_t end_laps;
    std::vector<std::int64_t> by_piece;  ///< by piece of roll, in their order
};
template <>
struct FieldsOf<CapCount> {
    static constexpr auto list =
        field_list(field("total", FieldUnit::count, "caps in all", &CapCount::total),
                   field("field", FieldUnit::count, "in rows between side laps", &CapCount::field),
                   field("side_laps", FieldUnit::count, "along courses' lower edges", &CapCount::side_laps),
                   field("end_laps", FieldUnit::count, "up end laps, besides those of rows", &CapCount::end_laps),
                   field("by_piece", FieldUnit::count, "in each piece of roll, in order", &CapCount::by_piece));
};

namespace detail {
/// One end of a piece in its course: the middle of an end lap, or where the course ends.
struct PieceEnd {
    Length at;
    bool lapped;
    bool over;  ///< it lies over its neighbour there, and takes the caps in the lap
};
struct PieceEnds {
    PieceEnd left;
    PieceEnd right;
};

[[nodiscard]] inline std::vector<PieceEnds> piece_ends(const Underlayment& laid) {
    std::vector<PieceEnds> ends;
    ends.reserve(laid.pieces.size());
    for (const RollPiece& piece : laid.pieces) {
        ends.push_back({{piece.left, false, false}, {piece.right, false, false}});
    }
    for (const RollEndLap& lap : laid.end_laps) {
        const Length middle = (lap.left + lap.right) / 2.0;
        const bool over_at_left = laid.pieces[lap.over].left > laid.pieces[lap.under].left;
        (over_at_left ? ends[lap.over].left : ends[lap.over].right) = {middle, true, true};
        (over_at_left ? ends[lap.under].right : ends[lap.under].left) = {middle, true, false};
    }
    return ends;
}

/// Rows of caps in one piece: how many, the lowest, and what they stand apart.
struct CapRows {
    std::int64_t rows;
    Length lowest;
    Length apart;
    [[nodiscard]] Length up(std::int64_t row) const { return lowest + apart * static_cast<double>(row); }
};

/// A starter is held by the course over it. The last course has a row along its upper edge.
[[nodiscard]] inline CapRows cap_rows(const Underlayment& laid, const RollPiece& piece, Span plane,
                                      const CapPattern& pattern) {
    const auto course = static_cast<std::size_t>(piece.course);
    const bool last = course + 1 == laid.courses.size();
    const Length lowest = longer(piece.low, plane.low) + pattern.edge;
    const Length highest = last ? shorter(piece.high, plane.high) - pattern.edge
                                : longer(laid.courses[course + 1].low, plane.low) + pattern.edge;
    if (highest <= lowest + count_tolerance) {
        return {last ? 1 : 0, lowest, no_length};
    }
    const std::int64_t spaces = steps_to_cover(highest - lowest, pattern.field);
    return {last ? spaces + 1 : spaces, lowest, (highest - lowest) / static_cast<double>(spaces)};
}

/// A stretch of a row in equal spaces.
struct CapStretch {
    Length first;
    Length apart;
    std::int64_t caps;
};

/// The caps of a row of one piece between two edges of the plane. The cap in an end lap is the upper piece's.
[[nodiscard]] inline CapStretch cap_stretch(Span across, const PieceEnds& ends, Length spacing, Length edge) {
    const bool from_lap = ends.left.lapped && across.low < ends.left.at;
    const bool to_lap = ends.right.lapped && across.high > ends.right.at;
    const Length low = from_lap ? ends.left.at : longer(across.low, ends.left.at) + edge;
    const Length high = to_lap ? ends.right.at : shorter(across.high, ends.right.at) - edge;
    if (high - low <= count_tolerance) {
        const bool room = shorter(across.high, ends.right.at) - longer(across.low, ends.left.at) > count_tolerance;
        return {(low + high) / 2.0, no_length, room ? 1 : 0};
    }
    const std::int64_t spaces = steps_to_cover(high - low, spacing);
    const Length apart = (high - low) / static_cast<double>(spaces);
    const std::int64_t others = (from_lap && !ends.left.over ? 1 : 0) + (to_lap && !ends.right.over ? 1 : 0);
    return {from_lap && !ends.left.over ? low + apart : low, apart, spaces + 1 - others};
}

/// A plane as rows of caps cross it.
class CapGround {
public:
    template <Surface surface>
    explicit CapGround(const Plane<surface>& plane)
        : outline_{plane.outline},
          extent_{extent_of(plane.outline)},
          convex_{plane.openings.empty() && is_convex(plane.outline)} {
        if (!convex_) {
            rings_ = rings_of(plane.outline, plane.openings);
        }
    }
    [[nodiscard]] Span up() const { return {extent_.low.up, extent_.high.up}; }
    /// Calls `visit(span)` for where the plane lies on the level line at `up`.
    template <class Visit>
    void for_spans(Length up, Visit visit) const {
        if (!convex_) {
            for (const Span& across : spans_at(rings_, Axis::up, up)) {
                visit(across);
            }
        } else if (extent_.low.up <= up && up < extent_.high.up) {
            visit(along_span(outline_, up));
        }
    }

private:
    const std::vector<PlanePoint>& outline_;
    Extent extent_;
    bool convex_;
    Rings rings_;
};

/// Calls `row(piece, use, up, stretch)` for each stretch of each row, and `column(piece, place)` for each cap of an end lap
/// between two rows.
template <Surface surface, class Row, class Column>
void for_caps(const Underlayment& laid, const Plane<surface>& plane, const CapPattern& pattern, Row row,
              Column column) {
    const CapGround ground{plane};
    const std::vector<PieceEnds> ends = piece_ends(laid);
    for (std::size_t i = 0; i < laid.pieces.size(); ++i) {
        const RollPiece& piece = laid.pieces[i];
        const CapRows rows = cap_rows(laid, piece, ground.up(), pattern);
        for (std::int64_t r = 0; r < rows.rows; ++r) {
            const Length spacing = r == 0 ? pattern.lap : pattern.field;
            ground.for_spans(rows.up(r), [&](Span across) {
                const CapStretch stretch = cap_stretch(across, ends[i], spacing, pattern.edge);
                if (stretch.caps > 0) {
                    row(i, r == 0 ? CapUse::side_lap : CapUse::field, rows.up(r), stretch);
                }
            });
        }
        const bool last = static_cast<std::size_t>(piece.course) + 1 == laid.courses.size();
        const std::int64_t gaps = last ? rows.rows - 1 : rows.rows;
        const std::int64_t between = gaps > 0 ? steps_to_cover(rows.apart, pattern.lap) - 1 : 0;
        for (const PieceEnd& end : {ends[i].left, ends[i].right}) {
            for (std::int64_t g = 0; end.over && between > 0 && g < gaps; ++g) {
                const Length apart = rows.apart / static_cast<double>(between + 1);
                for (std::int64_t k = 1; k <= between; ++k) {
                    const PlanePoint cap{end.at, rows.up(g) + apart * static_cast<double>(k)};
                    bool on_plane = false;
                    ground.for_spans(cap.up, [&](Span across) {
                        on_plane = on_plane || (across.low <= cap.along && cap.along <= across.high);
                    });
                    if (on_plane) {
                        column(i, cap);
                    }
                }
            }
        }
    }
}
}  // namespace detail

/// Counts the caps that hold an underlayment to the deck of the plane it was laid on, interval by interval.
/// Throws `FaultError` with the first fault of `pattern` or the plane's outline.
template <Surface surface>
[[nodiscard]] CapCount count_caps(const Underlayment& laid, const Plane<surface>& plane,
                                  const CapPattern& pattern = {}) {
    require_sound(pattern, "caps");
    detail::require_outline(plane);
    CapCount count{0, 0, 0, 0, std::vector<std::int64_t>(laid.pieces.size(), 0)};
    detail::for_caps(
        laid, plane, pattern,
        [&](std::size_t piece, CapUse use, Length, const detail::CapStretch& stretch) {
            (use == CapUse::field ? count.field : count.side_laps) += stretch.caps;
            count.by_piece[piece] += stretch.caps;
        },
        [&](std::size_t piece, PlanePoint) {
            count.end_laps += 1;
            count.by_piece[piece] += 1;
        });
    count.total = count.field + count.side_laps + count.end_laps;
    return count;
}

/// The place of every cap that `count_caps` counts. Faults as it.
template <Surface surface>
[[nodiscard]] std::vector<CapPlace> cap_places(const Underlayment& laid, const Plane<surface>& plane,
                                               const CapPattern& pattern = {}) {
    require_sound(pattern, "caps");
    detail::require_outline(plane);
    std::vector<CapPlace> places;
    detail::for_caps(
        laid, plane, pattern,
        [&](std::size_t piece, CapUse use, Length up, const detail::CapStretch& stretch) {
            for (std::int64_t i = 0; i < stretch.caps; ++i) {
                places.push_back({{stretch.first + stretch.apart * static_cast<double>(i), up},
                                  static_cast<std::int32_t>(piece),
                                  use});
            }
        },
        [&](std::size_t piece, PlanePoint cap) {
            places.push_back({cap, static_cast<std::int32_t>(piece), CapUse::end_lap});
        });
    return places;
}

}  // namespace eavewright
