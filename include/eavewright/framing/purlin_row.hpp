// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a purlin row is, and the rows of a plane. They are laid in purlin_rows.hpp.

#include <eavewright/field.hpp>
#include <eavewright/framing/row_spacing.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <string_view>
#include <vector>

namespace eavewright {

/// What a row is: the fascia at the eave, a purlin in the field, or the topmost purlin, under a ridge or a high edge.
enum class RowKind { eave, field, top };
template <>
struct NamesOf<RowKind> {
    static constexpr std::array<std::string_view, 3> list{"eave", "field", "top"};
};

/// One row of support: the fascia at the eave, or a purlin.
struct PurlinRow {
    RowKind kind;
    std::vector<PlanePoint> centreline;  ///< ascending along, from edge to edge
    Length width;                        ///< what a sheet can bear on
    std::vector<Span> stretches{};  ///< where it runs, ascending: between slanted edges and beside openings; none for
                                    ///< one that runs all along its centre line
};
template <>
struct FieldsOf<PurlinRow> {
    static constexpr auto list =
        field_list(field("kind", FieldUnit::none, "eave (the fascia), field or top", &PurlinRow::kind),
                   field("centreline", FieldUnit::length, "centre line from edge to edge", &PurlinRow::centreline),
                   field("width", FieldUnit::length, "width a sheet can bear on", &PurlinRow::width),
                   field("stretches", FieldUnit::length,
                         "where it runs along the eave; none for all along its centre line", &PurlinRow::stretches));
};

/// The rows of a plane, lowest first.
struct PurlinRows {
    std::vector<PurlinRow> rows;
    PurlinStock stock;
    Length spacing;           ///< between field rows: the rule's, or the middle one of those found
    Length widest_space;      ///< largest centre to centre distance anywhere
    Length sheet_lower_edge;  ///< up-coordinate, 0 or less
};
template <>
struct FieldsOf<PurlinRows> {
    static constexpr auto list = field_list(
        field("spacing", FieldUnit::length, "between field rows: the rule's, or the middle one of those found",
              &PurlinRows::spacing),
        field("widest_space", FieldUnit::length, "largest centre to centre distance", &PurlinRows::widest_space),
        field("sheet_lower_edge", FieldUnit::length, "lower edge of the sheets against the fascia's outer face",
              &PurlinRows::sheet_lower_edge),
        field("rows", FieldUnit::none, "rows, lowest first", &PurlinRows::rows));
};

/// The rows as what sheets lie on.
[[nodiscard]] inline Supports<Surface::purlin_top> supports_of(const PurlinRows& rows) {
    Supports<Surface::purlin_top> supports{SupportRun::along_eave, {}, rows.spacing};
    for (const PurlinRow& row : rows.rows) {
        supports.lines.push_back({row.centreline, row.width, row.stretches});
    }
    return supports;
}

}  // namespace eavewright
