// SPDX-License-Identifier: BSL-1.0
#pragma once

// Ribbed steel on a plane of any outline: panels cut to the angle of hips and valleys, split and notched at openings. The
// laying itself is in lay_cut_panels.hpp.
//
// A panel of lay_panels.hpp is a four-sided piece from eave to ridge, which screws, closures and drawings build on. One that is
// cut may have any outline, cutouts in it, and a slanted end below as well as above: another kind of result, hence another
// call.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panel_start.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// How panels are to be laid on a plane of any outline. Both gaps are measured square to their line, on the plane.
struct CutPanelPlan {
    PanelPlan panels;
    Length hip_gap = Length::from_inches(1.0);     ///< hip line to the panels' ends under the cap; common practice
    Length valley_gap = Length::from_inches(3.0);  ///< middle of the valley to the panels' edge; common practice
};

inline void find_faults(const CutPanelPlan& plan, const Path& path, Faults& faults) {
    const Length most = Length::from_feet(4.0);
    find_faults(plan.panels, path, faults);
    require_within(plan.hip_gap, no_length, most, Path{path, "hip_gap"}, faults);
    require_within(plan.valley_gap, no_length, most, Path{path, "valley_gap"}, faults);
}

/// One end of a panel as it is marked and cut. Up counts from the panel's own lower end, out from the left edge of its
/// cover, facing up the slope; all exact.
struct PanelEnd {
    Length left;    ///< up to the cut at the left end of its line
    Length right;   ///< the same at its right
    double slope;   ///< up for each along from end to end, above 0 where it rises to the right
    Length step;    ///< cover times slope: what the next panel at the same line is longer or shorter by
    bool straight;  ///< one straight cut; else along `line`
    bool cut;       ///< whether there is anything to cut: not so where it stays square as ordered. What an
                    ///< increment is too long comes off at the lower end where that is cut anyway
    std::optional<EdgeKind> edge;  ///< what it ends at, by its longest stretch; none at an opening or an end lap
    std::vector<PlanePoint> line;  ///< from left to right
};

/// One panel, or one piece of it where it is lapped.
struct CutPanel {
    std::int32_t lane;    ///< from the side begun at
    std::int32_t place;   ///< in its lane, from the lowest
    PlanePart part;       ///< what it covers; side laps lie past it, end laps in it
    Length cover;         ///< widest that it covers
    Length width;         ///< of material: to rip to where it is narrower than the stock
    Length out;           ///< left edge of what it covers, from the left edge of the stock's cover
    Length low;           ///< up-coordinate of its lower end
    Length length;        ///< from its lowest to its highest point, exact
    Length order_length;  ///< a whole number of increments, not below `length`
    bool ripped;          ///< its lane is narrower than the stock
    bool notched;         ///< an opening cuts into it
    PanelEnd lower;
    PanelEnd upper;
};

/// As it is written on the steel: 12, and 12b, 12c for pieces above the lowest of its lane.
[[nodiscard]] inline std::string panel_name(const CutPanel& panel) {
    return detail::panel_name_of(panel.lane, panel.place);
}

/// A plane of any outline laid with panels.
struct CutPanels {
    StartCorner start;
    PanelStock panel;
    Length increment;  ///< lengths are ordered in
    Length longest;    ///< that is made
    std::int32_t lanes;
    double exact_panels;  ///< width over cover, before it is rounded up
    Length first_cover;
    Length last_cover;
    Length overhang;  ///< of the lower ends past an eave's edge
    std::vector<CutPanel> pieces;
    std::vector<PanelEndLap> end_laps;
    std::vector<PanelMark> marks;  ///< on a plane without a ridge, both tapes read alike
    PackDrift pack;
    Area covered;          ///< by the panels as laid, laps once
    Area bought;           ///< full width times order length
    Length bought_length;  ///< of all panels, before any two come out of one
    std::vector<PanelFinding> findings;
};

template <>
struct FieldsOf<PanelEnd> {
    static constexpr auto list = field_list(
        field("left", FieldUnit::length, "up to the cut at its left, from the panel's lower end", &PanelEnd::left),
        field("right", FieldUnit::length, "the same at its right", &PanelEnd::right),
        field("slope", FieldUnit::ratio, "up for each along, above 0 where it rises to the right", &PanelEnd::slope),
        field("step", FieldUnit::length, "what the next panel at the same line is longer or shorter by",
              &PanelEnd::step),
        field("straight", FieldUnit::none, "one straight cut", &PanelEnd::straight),
        field("cut", FieldUnit::none, "whether there is anything to cut", &PanelEnd::cut),
        field("edge", FieldUnit::none, "what it ends at, null at an opening or an end lap", &PanelEnd::edge),
        field("line", FieldUnit::length, "from left to right, out from the cover's left edge", &PanelEnd::line));
};
template <>
struct FieldsOf<CutPanel> {
    static constexpr auto list =
        field_list(field(
                       "name", FieldUnit::none, "number from the side begun at, letter from the lowest",
                       +[](const CutPanel& panel) { return panel_name(panel); }),
                   field("order_length", FieldUnit::length, "length to order", &CutPanel::order_length),
                   field("length", FieldUnit::length, "from its lowest to its highest point", &CutPanel::length),
                   field("cover", FieldUnit::length, "widest that it covers", &CutPanel::cover),
                   field("width", FieldUnit::length, "width of material", &CutPanel::width),
                   field("out", FieldUnit::length, "left edge from the left edge of the stock's cover", &CutPanel::out),
                   field("low", FieldUnit::length, "lower end, up the slope", &CutPanel::low),
                   field("ripped", FieldUnit::none, "its lane is narrower than the stock", &CutPanel::ripped),
                   field("notched", FieldUnit::none, "an opening cuts into it", &CutPanel::notched),
                   field("lower", FieldUnit::none, "its lower end", &CutPanel::lower),
                   field("upper", FieldUnit::none, "its upper end", &CutPanel::upper),
                   field("part", FieldUnit::none, "what it covers", &CutPanel::part));
};
template <>
struct FieldsOf<CutPanels> {
    static constexpr auto list = field_list(
        field("start", FieldUnit::none, "the corner begun at", &CutPanels::start),
        field("panel", FieldUnit::none, "the panel", &CutPanels::panel),
        field("increment", FieldUnit::length, "lengths are ordered in", &CutPanels::increment),
        field("longest", FieldUnit::length, "that is made", &CutPanels::longest),
        field("lanes", FieldUnit::count, "panels side by side", &CutPanels::lanes),
        field("exact_panels", FieldUnit::ratio, "width over cover, not rounded up", &CutPanels::exact_panels),
        field("first_cover", FieldUnit::length, "cover of the first lane", &CutPanels::first_cover),
        field("last_cover", FieldUnit::length, "cover of the last lane", &CutPanels::last_cover),
        field("overhang", FieldUnit::length, "of the lower ends past an eave's edge", &CutPanels::overhang),
        field("covered", FieldUnit::area, "area covered, laps once", &CutPanels::covered),
        field("bought", FieldUnit::area, "full width times order length", &CutPanels::bought),
        field("bought_length", FieldUnit::length, "of all panels, before pairing", &CutPanels::bought_length),
        field("pack", FieldUnit::none, "where a pack that gains or loses ends", &CutPanels::pack),
        field("pieces", FieldUnit::none, "pieces, lane by lane", &CutPanels::pieces),
        field("end_laps", FieldUnit::none, "end laps, lane by lane", &CutPanels::end_laps),
        field("marks", FieldUnit::none, "coverage marks along eave and ridge", &CutPanels::marks),
        field("findings", FieldUnit::none, "what is wrong where", &CutPanels::findings));
};

}  // namespace eavewright
