// SPDX-License-Identifier: BSL-1.0
#pragma once

// The steel of one slope: what lies on which supports, its screws, and what edges it.

#include <eavewright/fastening/screw_lines.hpp>
#include <eavewright/fastening/screws.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/closures.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/tiling/trim.hpp>

#include <optional>
#include <vector>

namespace eavewright {

/// The steel of one slope on the surface that it lies on: the deck, or the purlins.
struct SteelResult {
    Surface surface;
    std::vector<PlanePoint> outline;    ///< of that surface, nominal or as measured
    std::vector<SupportLine> supports;  ///< purlins as the screws meet them
    Panels panels;
    ScrewCount screws;
    ScrewLines lines;                    ///< to snap where the purlins do not show
    std::vector<DrillMark> drill_marks;  ///< of the pieces at the eave
    std::vector<TrimRun> trim;           ///< edge by edge; a ridge that two slopes share stands on the first
    std::optional<Closures> closures;
};
template <>
struct FieldsOf<SteelResult> {
    static constexpr auto list = field_list(
        field("surface", FieldUnit::none, "surface that the panels lie on", &SteelResult::surface),
        field("outline", FieldUnit::length, "its corners counter-clockwise from the eave's left",
              &SteelResult::outline),
        field("supports", FieldUnit::none, "purlins as the screws meet them", &SteelResult::supports),
        field("panels", FieldUnit::none, "panels as laid", &SteelResult::panels),
        field("screws", FieldUnit::none, "screws counted", &SteelResult::screws),
        field("lines", FieldUnit::none, "lines to snap over the purlins", &SteelResult::lines),
        field("drill_marks", FieldUnit::none, "rows of holes from the lower end of the panels at the eave",
              &SteelResult::drill_marks),
        field("trim", FieldUnit::none, "trim edge by edge; a shared ridge stands on the first slope",
              &SteelResult::trim),
        field("closures", FieldUnit::none, "closures and sealant, null where none are asked", &SteelResult::closures));
};

}  // namespace eavewright
