// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a search over layouts of sheets gives back; the search itself is in search_layouts.hpp.

#include <eavewright/field.hpp>
#include <eavewright/order/sheet_cut_tree.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright {

/// What a layout is worth. One that rests worse, or has more slivers or short spans than the plain one is not taken; of the others the fewest
/// sheets win, then the fewest slivers, then the fewest cuts, then the widest narrowest piece.
struct LayoutScore {
    std::size_t unsupported;  ///< joints and edges that rest on too little
    std::size_t slivers;
    std::int64_t sheets;
    std::int64_t cuts;
    Length narrowest;             ///< least length or width of any piece
    std::size_t short_spans = 0;  ///< pieces over fewer support spaces than they should span
};
template <>
struct FieldsOf<LayoutScore> {
    static constexpr auto list = field_list(
        field("unsupported", FieldUnit::count, "joints and edges that rest on too little", &LayoutScore::unsupported),
        field("slivers", FieldUnit::count, "pieces and legs under the sliver limit", &LayoutScore::slivers),
        field("sheets", FieldUnit::count, "whole sheets", &LayoutScore::sheets),
        field("cuts", FieldUnit::count, "cuts", &LayoutScore::cuts),
        field("narrowest", FieldUnit::length, "least length or width of any piece", &LayoutScore::narrowest),
        field("short_spans", FieldUnit::count, "pieces over fewer support spaces than they should span",
              &LayoutScore::short_spans));
};

/// The layout found, beside the plain one.
struct FoundLayout {
    std::vector<SheetPlan> plans;  ///< one for each plane
    std::vector<Sheets> sheets;    ///< laid by them
    SheetSawPlan saw;              ///< all pieces, plane by plane, cut from whole sheets
    LayoutScore score;
    LayoutScore plain;          ///< the plain layout, cut by the same search
    std::int64_t plain_sheets;  ///< sheets of the plain layout, cut plainly
    std::int64_t fewest;        ///< no layout on this sheet and gap needs fewer
    std::size_t tried;
    bool proven;  ///< sheets are as few as `fewest`
};
template <>
struct FieldsOf<FoundLayout> {
    static constexpr auto list = field_list(
        field("score", FieldUnit::none, "the layout found", &FoundLayout::score),
        field("plain", FieldUnit::none, "the plain layout, cut by the same search", &FoundLayout::plain),
        field("plain_sheets", FieldUnit::count, "sheets of the plain layout, cut plainly", &FoundLayout::plain_sheets),
        field("fewest", FieldUnit::count, "no layout on this sheet and gap needs fewer", &FoundLayout::fewest),
        field("tried", FieldUnit::count, "layouts laid", &FoundLayout::tried),
        field("proven", FieldUnit::none, "as few sheets as `fewest`", &FoundLayout::proven));
};

}  // namespace eavewright
