// SPDX-License-Identifier: BSL-1.0
#pragma once

// Nails in sheets: counted on the supports that really lie under each piece.

#include <eavewright/fastening/nail_lines.hpp>
#include <eavewright/fastening/nail_pattern.hpp>
#include <eavewright/fastening/nail_spacing.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/tiling/sheets.hpp>

#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright {

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

namespace detail {
/// Nails of lines of one pattern. Most lines are as long as one before them, and are not divided anew.
class EvenNails {
public:
    explicit EvenNails(const NailPattern& pattern) : pattern_{pattern} {}
    [[nodiscard]] std::int64_t in(const NailLine& line) {
        Last& last = line.at_end ? edge_ : field_;
        if (line.length() != last.length) {
            last.length = line.length();
            last.nails =
                nails_across(last.length, line.at_end ? pattern_.edge : pattern_.field, pattern_.edge_distance);
        }
        return last.nails;
    }

private:
    struct Last {
        Length length = no_length;
        std::int64_t nails = 0;
    };
    NailPattern pattern_;
    Last edge_{};
    Last field_{};
};

[[nodiscard]] inline NailCount count_nails_on(const Sheets& sheets, const NailGround& ground) {
    NailCount count{0, std::vector<std::int64_t>(ground.supports.size(), 0),
                    std::vector<PieceNails>(sheets.pieces.size(), PieceNails{0, 0})};
    EvenNails even{ground.base};
    NailSpacing spacing;
    for_nail_lines(sheets, ground, [&](std::size_t piece, const PieceToNail&, const NailLine& line) {
        std::int64_t nails = 0;
        if (ground.areas.empty()) {
            nails = even.in(line);
        } else {
            space_line(ground, line, spacing);
            nails = nails_in(line, spacing, ground.base.edge_distance);
        }
        (line.at_end ? count.by_piece[piece].edge : count.by_piece[piece].field) += nails;
        count.by_row[line.support] += nails;
        count.total += nails;
    });
    return count;
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
    return detail::count_nails_on(sheets, detail::nail_ground(sheets, supports, pattern));
}

/// The same by zone: each part of a line that lies in an area takes the area's spacing (nail_spacing.hpp says how it changes
/// at a boundary). Never below the count with the loosest of the patterns everywhere.
template <Surface surface>
[[nodiscard]] NailCount count_nails(const Sheets& sheets, const Supports<surface>& supports,
                                    const ZonedNailPattern& pattern) {
    require_sound(pattern, "nails");
    return detail::count_nails_on(sheets, detail::nail_ground(sheets, supports, pattern));
}

/// The same on purlin rows.
[[nodiscard]] inline NailCount count_nails(const Sheets& sheets, const PurlinRows& rows, const NailPattern& pattern) {
    return count_nails(sheets, supports_of(rows), pattern);
}
[[nodiscard]] inline NailCount count_nails(const Sheets& sheets, const PurlinRows& rows,
                                           const ZonedNailPattern& pattern) {
    return count_nails(sheets, supports_of(rows), pattern);
}

}  // namespace eavewright
