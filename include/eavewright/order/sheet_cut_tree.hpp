// SPDX-License-Identifier: BSL-1.0
#pragma once

// How whole sheets are sawn into pieces, cut by cut: each cut runs straight through the part that it divides.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/sheet_bound.hpp>
#include <eavewright/order/sheet_spots.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// What pieces are sawn from, and how long a search may try.
struct SheetSearchPlan {
    SheetStock stock;
    bool two_faced = false;         ///< both faces are alike, so that a piece may be turned over
    std::int64_t nodes = 100'000;   ///< places that the search may try for pieces, 0 to 1,000,000,000
    Tick tick = Tick::of_inch(16);  ///< that slanted cuts of two pieces are set to
};

inline void find_faults(const SheetSearchPlan& plan, const Path& path, Faults& faults) {
    find_faults(plan.stock, path, faults);
    if (plan.nodes < 0 || plan.nodes > 1'000'000'000) {
        faults.push_back(
            Fault{FaultCode::out_of_range, Path{path, "nodes"}.text(), std::to_string(plan.nodes), "0 to 1000000000"});
    }
}

/// Which way a cut runs.
enum class SawWay {
    crosscut,  ///< square across the strength axis
    rip,       ///< along it
    slant,     ///< along a slanted side of a piece
};
template <>
struct NamesOf<SawWay> {
    static constexpr std::array<std::string_view, 3> list{"crosscut", "rip", "slant"};
};

/// One cut, straight through a part. The line is the edge of what is measured off; the blade runs beyond it.
struct SawCut {
    std::size_t part;  ///< index of the part that it divides
    SawWay way;
    CutPoint from;  ///< the line on the sheet; what is measured off lies to its left
    CutPoint to;
    Length at;         ///< width of what is measured off, square to a crosscut or rip; of a slant, its depth
    std::size_t kept;  ///< part that is measured off
    std::optional<std::size_t> beyond;  ///< part beyond the blade; none where the blade takes all of it
};
template <>
struct FieldsOf<SawCut> {
    static constexpr auto list = field_list(
        field("part", FieldUnit::count, "index of the part that it divides", &SawCut::part),
        field("way", FieldUnit::none, "which way it runs", &SawCut::way),
        field("from", FieldUnit::length, "the line on the sheet, one point", &SawCut::from),
        field("to", FieldUnit::length, "the line on the sheet, another point", &SawCut::to),
        field("at", FieldUnit::length, "what is measured off, square to the cut", &SawCut::at),
        field("kept", FieldUnit::count, "index of the part measured off", &SawCut::kept),
        field("beyond", FieldUnit::count, "index of the part beyond the blade, null for none", &SawCut::beyond));
};

/// A whole sheet, or what a cut makes of one.
struct SawnPart {
    std::size_t sheet;                 ///< number of the sheet, from 0
    std::vector<CutPoint> outline;     ///< on the sheet, counter-clockwise, convex
    std::optional<std::size_t> cut;    ///< index of the cut that divides it; none for a piece or an offcut
    std::optional<std::size_t> piece;  ///< index of the piece that it is
};
template <>
struct FieldsOf<SawnPart> {
    static constexpr auto list =
        field_list(field("sheet", FieldUnit::count, "number of the sheet, from 0", &SawnPart::sheet),
                   field("outline", FieldUnit::length, "corners on the sheet", &SawnPart::outline),
                   field("cut", FieldUnit::count, "index of the cut that divides it, null for none", &SawnPart::cut),
                   field("piece", FieldUnit::count, "index of the piece that it is, null for none", &SawnPart::piece));
};

/// Where a piece lies on its sheet.
struct PlacedShape {
    std::size_t sheet;  ///< number of the sheet, from 0
    std::size_t part;   ///< index of its part
    Length at_length;   ///< low corner of its box as it lies, along the strength axis
    Length at_width;
    int quarter_turns = 0;  ///< counter-clockwise; 2 keeps the strength axis
    bool mirrored = false;  ///< turned over about its length before that
};
template <>
struct FieldsOf<PlacedShape> {
    static constexpr auto list = field_list(
        field("sheet", FieldUnit::count, "number of the sheet, from 0", &PlacedShape::sheet),
        field("part", FieldUnit::count, "index of its part", &PlacedShape::part),
        field("at_length", FieldUnit::length, "low corner of its box along the strength axis", &PlacedShape::at_length),
        field("at_width", FieldUnit::length, "low corner of its box across", &PlacedShape::at_width),
        field("quarter_turns", FieldUnit::count, "turned counter-clockwise", &PlacedShape::quarter_turns),
        field("mirrored", FieldUnit::none, "turned over about its length before that", &PlacedShape::mirrored));
};

/// What is left of a sheet and is no piece.
struct SheetOffcut {
    std::size_t part;
    SheetSize box;  ///< around it
    Area area;
};
template <>
struct FieldsOf<SheetOffcut> {
    static constexpr auto list = field_list(field("part", FieldUnit::count, "index of its part", &SheetOffcut::part),
                                            field("box", FieldUnit::none, "the box around it", &SheetOffcut::box),
                                            field("area", FieldUnit::area, "its area", &SheetOffcut::area));
};

/// Whole sheets sawn into pieces. `find_faults_of_cuts` accepts or rejects it on its own.
struct SheetSawPlan {
    std::int64_t sheets;               ///< whole sheets in all
    std::int64_t to_buy;               ///< of them not on hand
    std::vector<PlacedShape> pieces;   ///< one for each piece asked for, in that order
    std::vector<SawnPart> parts;       ///< first the whole sheets, then what the cuts make
    std::vector<SawCut> cuts;          ///< in the order they are sawn, sheet after sheet
    std::vector<SheetOffcut> offcuts;  ///< largest first
    Area sawn;                         ///< area of all pieces
    Area waste;                        ///< of the sheets less the pieces: offcuts and sawdust
    SheetBound bound;                  ///< no straight-through cutting needs fewer sheets, and why
    bool proven;                       ///< the sheets are as few as the bound
    std::int64_t plain;                ///< sheets that `cut_sheets` takes; none where a piece only fits turned
    std::int64_t nodes;                ///< places tried by the search
};
template <>
struct FieldsOf<SheetSawPlan> {
    static constexpr auto list = field_list(
        field("sheets", FieldUnit::count, "whole sheets in all", &SheetSawPlan::sheets),
        field("to_buy", FieldUnit::count, "of them not on hand", &SheetSawPlan::to_buy),
        field("proven", FieldUnit::none, "the sheets are as few as the bound", &SheetSawPlan::proven),
        field("plain", FieldUnit::count, "sheets of the plain way of cutting, 0 where it has none",
              &SheetSawPlan::plain),
        field("sawn", FieldUnit::area, "area of all pieces", &SheetSawPlan::sawn),
        field("waste", FieldUnit::area, "area of the sheets less the pieces", &SheetSawPlan::waste),
        field("bound", FieldUnit::none, "fewest sheets that any cutting needs, and why", &SheetSawPlan::bound),
        field("pieces", FieldUnit::none, "where each piece lies", &SheetSawPlan::pieces),
        field("parts", FieldUnit::none, "whole sheets, then what the cuts make", &SheetSawPlan::parts),
        field("cuts", FieldUnit::none, "cuts in the order they are sawn", &SheetSawPlan::cuts),
        field("offcuts", FieldUnit::none, "what is left, largest first", &SheetSawPlan::offcuts),
        field("nodes", FieldUnit::count, "places tried by the search", &SheetSawPlan::nodes));
};

}  // namespace eavewright
