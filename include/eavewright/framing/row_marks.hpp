// SPDX-License-Identifier: BSL-1.0
#pragma once

// Purlin marks for the tape: each rounded from the exact sum, never summed after rounding.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright {

/// Where a row is marked, at one place along the eave.
struct RowMark {
    std::size_t row;  ///< index into `PurlinRows::rows`
    RowKind kind;
    Length along;       ///< where the tape lies
    Length centre;      ///< exact, up from the fascia's outer face, on the purlin tops
    Length mark;        ///< the same, rounded to the tick
    Length lower_edge;  ///< lower side of the purlin, rounded: where a line is drawn and the purlin stands above it
    std::optional<Length> on_chord;  ///< lower side of the purlin on the chord top, from the chord's tail end, rounded;
                                     ///< none for the fascia, which hangs in front of the tails
    Length remainder;                ///< centre minus mark
};
template <>
struct FieldsOf<RowMark> {
    static constexpr auto list = field_list(
        field("row", FieldUnit::count, "index of the row, from 0 at the eave", &RowMark::row),
        field("kind", FieldUnit::none, "eave (the fascia), field or top", &RowMark::kind),
        field("along", FieldUnit::length, "place along the eave", &RowMark::along),
        field("centre", FieldUnit::length, "exact centre up the slope from the fascia's outer face", &RowMark::centre),
        field("mark", FieldUnit::length, "centre rounded to the tick", &RowMark::mark),
        field("lower_edge", FieldUnit::length, "lower side of the purlin, rounded", &RowMark::lower_edge),
        field("on_chord", FieldUnit::length,
              "lower side on the chord top from the chord's tail end, rounded; null for the fascia",
              &RowMark::on_chord),
        field("remainder", FieldUnit::length, "centre minus mark", &RowMark::remainder));
};

/// Rows that lie lower than the others, under a deck at the overhangs alone.
struct DroppedRows {
    std::vector<std::size_t> rows{};
    Length marks_lower = no_length;  ///< their marks on the chord, against rows that do not drop
};

/// The marks of every row at `along`. `chord_tail_offset` is `Slope::chord_tail_offset`.
/// Throws `FaultError` where a length is not finite.
[[nodiscard]] inline std::vector<RowMark> row_marks(const PurlinRows& rows, Length along, Length chord_tail_offset,
                                                    Tick tick, const DroppedRows& dropped = {}) {
    Faults faults;
    const Length most = Length::from_inches(length_limit_in);
    require_within(along, -most, most, Path{"along"}, faults);
    require_within(chord_tail_offset, -most, most, Path{"chord_tail_offset"}, faults);
    require_within(dropped.marks_lower, -most, most, Path{"dropped.marks_lower"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
    std::vector<RowMark> marks;
    for (std::size_t r = 0; r < rows.rows.size(); ++r) {
        const PurlinRow& row = rows.rows[r];
        const Length centre = up_at(row.centreline, along);
        const Length mark = round_to_tick(centre, tick);
        const Length lower = centre - row.width / 2.0;
        std::optional<Length> on_chord;
        if (row.kind != RowKind::eave) {
            Length exact = lower + chord_tail_offset;
            for (const std::size_t low : dropped.rows) {
                exact -= low == r ? dropped.marks_lower : no_length;
            }
            on_chord = round_to_tick(exact, tick);
        }
        marks.push_back({r, row.kind, along, centre, mark, round_to_tick(lower, tick), on_chord, centre - mark});
    }
    return marks;
}

}  // namespace eavewright
