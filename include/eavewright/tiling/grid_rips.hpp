// SPDX-License-Identifier: BSL-1.0
#pragma once

// The first and the last column of a grid on a plane that is out of square: what they are ripped to at both ends.

#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panel_courses.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright {

/// An outer column at one side of the plane, from its inner line to the plane's edge, measured across the grid. The first
/// end of a column up the slope is its eave end, of a course along the eave its left one.
struct TaperedRip {
    Length at_first;          ///< width at its first end: its eave end, or its left one
    Length at_second;         ///< width at its ridge end, or its right one
    Length widest;            ///< of the two
    Length narrowest;         ///< of the two; 0 where the column ends before that end is reached
    Length taper;             ///< widest less narrowest: what is cut off along the edge, or hidden
    Length reveal_widest;     ///< from the last rib, or the last line, that runs on the plane all along: to the edge
    Length reveal_narrowest;  ///< the same at the other end
    bool runs_out;            ///< the edge crosses its inner line: it comes to nothing
    bool sliver;              ///< narrower than the limit at its narrower end
};
template <>
struct FieldsOf<TaperedRip> {
    static constexpr auto list = field_list(
        field("at_first", FieldUnit::length, "width at its eave end, or left end", &TaperedRip::at_first),
        field("at_second", FieldUnit::length, "width at its ridge end, or right end", &TaperedRip::at_second),
        field("widest", FieldUnit::length, "wider of the two", &TaperedRip::widest),
        field("narrowest", FieldUnit::length, "narrower of the two", &TaperedRip::narrowest),
        field("taper", FieldUnit::length, "widest less narrowest", &TaperedRip::taper),
        field("reveal_widest", FieldUnit::length, "from the last whole rib or line to the edge",
              &TaperedRip::reveal_widest),
        field("reveal_narrowest", FieldUnit::length, "the same at the other end", &TaperedRip::reveal_narrowest),
        field("runs_out", FieldUnit::none, "the column ends before its other end", &TaperedRip::runs_out),
        field("sliver", FieldUnit::none, "narrower than the limit at one end", &TaperedRip::sliver));
};

/// Columns of a grid across a plane.
struct GridRips {
    Length width;          ///< of the plane across the grid, between its outermost points
    std::int64_t columns;  ///< side by side
    TaperedRip low;        ///< the column at the left rake; of courses along the eave, the one at the eave
    TaperedRip high;       ///< the column at the right rake; of courses, the one at the ridge
    int slivers;           ///< of the two
};
template <>
struct FieldsOf<GridRips> {
    static constexpr auto list =
        field_list(field("width", FieldUnit::length, "of the plane across the grid", &GridRips::width),
                   field("columns", FieldUnit::count, "side by side", &GridRips::columns),
                   field("low", FieldUnit::none, "at the left rake, or the course at the eave", &GridRips::low),
                   field("high", FieldUnit::none, "at the right rake, or the course at the ridge", &GridRips::high),
                   field("slivers", FieldUnit::count, "outer columns narrower than the limit", &GridRips::slivers));
};

namespace detail {
/// Columns before they meet a plane: column k lies from pitch x k - ripped, cover wide, counted from the side begun at.
struct GridColumns {
    Length cover;
    Length pitch;
    Length ripped;       ///< off the first one
    Length rib_spacing;  ///< lines within a column, from its inner edge
    Length sliver;
    bool from_high;  ///< begun at the right rake
};

/// Places across the grid of the four corners at the sides of the columns.
struct SideCorners {
    Length low_first, low_second, high_first, high_second;
    [[nodiscard]] Length lowest() const { return shorter(low_first, low_second); }
    [[nodiscard]] Length highest() const { return longer(high_first, high_second); }
};
/// Of an outline in the grid's frame; `courses` run along the eave.
[[nodiscard]] inline SideCorners side_corners(const std::vector<PlanePoint>& o, bool courses) {
    return courses ? SideCorners{o[0].up, o[1].up, o[3].up, o[2].up}
                   : SideCorners{o[0].along, o[3].along, o[1].along, o[2].along};
}

[[nodiscard]] inline TaperedRip tapered_rip(Length at_first, Length at_second, const GridColumns& columns) {
    // The edge may lie within the gap past the last sheet, which stays bare.
    TaperedRip rip{longer(no_length, shorter(columns.cover, at_first)),
                   longer(no_length, shorter(columns.cover, at_second)),
                   no_length,
                   no_length,
                   no_length,
                   no_length,
                   no_length,
                   shorter(at_first, at_second) < no_length,
                   false};
    rip.widest = longer(rip.at_first, rip.at_second);
    rip.narrowest = shorter(rip.at_first, rip.at_second);
    rip.taper = rip.widest - rip.narrowest;
    const Length inside = columns.rib_spacing * std::floor((rip.narrowest + count_tolerance) / columns.rib_spacing);
    rip.reveal_narrowest = longer(no_length, rip.narrowest - inside);
    rip.reveal_widest = rip.reveal_narrowest + rip.taper;
    rip.sliver = rip.narrowest + count_tolerance < columns.sliver;
    return rip;
}

/// The rips beside inner lines at `first_end` and `last_start` from the side begun at.
[[nodiscard]] inline GridRips rips_beside(const SideCorners& side, const GridColumns& columns, std::int64_t count,
                                          Length first_end, Length last_start) {
    const Length width = side.highest() - side.lowest();
    const Length low_line = columns.from_high ? side.highest() - last_start : side.lowest() + shorter(first_end, width);
    const Length high_line =
        columns.from_high ? side.highest() - shorter(first_end, width) : side.lowest() + last_start;
    GridRips rips{width, count, tapered_rip(low_line - side.low_first, low_line - side.low_second, columns),
                  tapered_rip(side.high_first - high_line, side.high_second - high_line, columns), 0};
    rips.slivers = (rips.low.sliver ? 1 : 0) + (rips.high.sliver ? 1 : 0);
    return rips;
}

[[nodiscard]] inline GridColumns sheet_columns(const SheetPlan& plan, bool courses) {
    return {plan.sheet.width, plan.sheet.width + plan.gap,
            plan.rip_first,   plan.sheet.width + plan.gap,
            plan.sliver,      !courses && plan.start == StartCorner::eave_right};
}

/// Rips of sheets as `tile_sheets` lays them.
[[nodiscard]] inline GridRips sheet_rips(const std::vector<PlanePoint>& outline, const SheetPlan& plan, bool courses) {
    const SideCorners side = side_corners(outline, courses);
    const GridColumns columns = sheet_columns(plan, courses);
    const std::int64_t count = steps_to_cover(side.highest() - side.lowest() + plan.rip_first, columns.pitch);
    const bool none_first = columns.cover - plan.rip_first <= count_tolerance;  // ripped to nothing: the next is first
    return rips_beside(side, columns, none_first ? count - 1 : count,
                       columns.cover - plan.rip_first + (none_first ? columns.pitch : no_length),
                       longer(no_length, columns.pitch * static_cast<double>(count - 1) - plan.rip_first));
}

/// Rips of panels as `lay_panels` lays them.
[[nodiscard]] inline GridRips panel_rips(const std::vector<PlanePoint>& outline, const PanelPlan& plan) {
    const SideCorners side = side_corners(outline, false);
    const std::vector<Length> edges = panel_edges(side.highest() - side.lowest(), plan);
    const GridColumns columns{plan.panel.cover,       plan.panel.cover, no_length,
                              plan.panel.rib_spacing, plan.sliver,      plan.start == StartCorner::eave_right};
    return rips_beside(side, columns, static_cast<std::int64_t>(edges.size() - 1), edges[1], edges[edges.size() - 2]);
}
}  // namespace detail

}  // namespace eavewright
