// SPDX-License-Identifier: BSL-1.0
#pragma once

// The steel of one plane of any outline: what lies on which supports, its panels and its screws.

#include <eavewright/fastening/cut_panel_screws.hpp>
#include <eavewright/fastening/screws.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/tiling/lay_cut_panels.hpp>
#include <eavewright/tiling/trim.hpp>

#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// The steel of one plane on the surface that it lies on.
struct CutSteel {
    std::string name;
    Surface surface;
    std::vector<PlanePoint> outline;  ///< of that surface
    std::vector<EdgeKind> edges;
    std::vector<std::vector<PlanePoint>> openings;
    std::vector<SupportLine> supports;
    CutPanels panels;
    ScrewCount screws;
    std::vector<TrimRun> trim{};  ///< of the edges that the caller has trimmed on this plane
};
template <>
struct FieldsOf<CutSteel> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "of the plane", &CutSteel::name),
                   field("surface", FieldUnit::none, "surface that the panels lie on", &CutSteel::surface),
                   field("outline", FieldUnit::length, "its corners counter-clockwise", &CutSteel::outline),
                   field("edges", FieldUnit::none, "kind of the edge from each corner to the next", &CutSteel::edges),
                   field("openings", FieldUnit::length, "outlines of openings", &CutSteel::openings),
                   field("supports", FieldUnit::none, "what the screws meet", &CutSteel::supports),
                   field("panels", FieldUnit::none, "panels as laid", &CutSteel::panels),
                   field("screws", FieldUnit::none, "screws counted", &CutSteel::screws),
                   field("trim", FieldUnit::none, "trim of its edges", &CutSteel::trim));
};

/// Lays and screws the steel of one plane. Faults as `lay_cut_panels` and `count_screws`. Hip caps and valley metal lie on
/// two planes: take them from `trim_of_lines` for all planes together.
template <Surface surface>
[[nodiscard]] CutSteel cut_steel(std::string name, const Plane<surface>& plane, const Supports<surface>& supports,
                                 const CutPanelPlan& plan, const ScrewPattern& pattern = {}) {
    CutPanels panels = lay_cut_panels(plane, supports, plan);
    ScrewCount screws = count_screws(panels, supports, pattern);
    return {std::move(name), surface,           plane.outline,     plane.edges, plane.openings,
            supports.lines,  std::move(panels), std::move(screws), {}};
}

/// The panels alone, in the order of the planes, as pairing takes them.
[[nodiscard]] inline std::vector<CutPanels> panels_of(const std::vector<CutSteel>& planes) {
    std::vector<CutPanels> panels;
    panels.reserve(planes.size());
    for (const CutSteel& plane : planes) {
        panels.push_back(plane.panels);
    }
    return panels;
}

}  // namespace eavewright
