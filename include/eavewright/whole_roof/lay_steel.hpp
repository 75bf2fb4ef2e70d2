// SPDX-License-Identifier: BSL-1.0
#pragma once

// The steel of one slope: on the finished deck, or straight on the purlins.

#include <eavewright/fastening/screw_lines.hpp>
#include <eavewright/fastening/screws.hpp>
#include <eavewright/framing/deck_supports.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/measured_plane.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/tiling/closures.hpp>
#include <eavewright/tiling/lay_panels.hpp>
#include <eavewright/tiling/panel_start.hpp>
#include <eavewright/tiling/trim.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/description_faults.hpp>
#include <eavewright/whole_roof/steel_result.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright::detail {

/// The finished deck: as it was measured, else moved as the surface under it was found to have moved, else nominal.
template <Surface under>
[[nodiscard]] DeckPlane deck_as_built(const Slope& slope, const Plane<under>& nominal_under,
                                      const std::optional<Trueness>& trueness_under,
                                      const std::optional<Trueness>& deck) {
    if (deck) {
        return measured_plane(slope.deck, deck->measured.corners);
    }
    DeckPlane plane = slope.deck;
    if (trueness_under) {
        const Plane<under> found = measured_plane(nominal_under, trueness_under->measured.corners);
        for (std::size_t i = 0; i < plane.outline.size(); ++i) {
            plane.outline[i].along += found.outline[i].along - nominal_under.outline[i].along;
            plane.outline[i].up += found.outline[i].up - nominal_under.outline[i].up;
        }
        plane.openings.clear();
    }
    return plane;
}

/// The plan for one slope: its start from the gable, the edge that the overhang counts from no less than the deck's.
template <Surface surface>
[[nodiscard]] PanelPlan panel_plan_on(const RoofDescription& roof, const Plane<surface>& plane) {
    PanelPlan plan = roof.steel->panels;
    plan.tick = roof.tick;
    plan.start = start_at(plane, first_gable(roof.steel->begin, plan.panel.lap).value_or(GableEnd::low_x));
    if (roof.deck) {
        plan.edge_past_fascia = longer(plan.edge_past_fascia, roof.deck->sheets.past_fascia);
    }
    return plan;
}

/// Trim of every edge that gets some. A cap that two slopes share is counted on the first of them.
template <Surface surface>
[[nodiscard]] std::vector<TrimRun> edge_trim(const EdgePlan& edges, const Plane<surface>& plane, bool with_ridge) {
    std::vector<TrimRun> all;
    const auto add = [&](EdgeKind kind, const std::optional<TrimStock>& stock) {
        if (stock) {
            for (TrimRun& run : trim_runs(plane, kind, *stock)) {
                all.push_back(run);
            }
        }
    };
    add(EdgeKind::eave, edges.eave);
    add(EdgeKind::rake, edges.rake);
    add(EdgeKind::high_eave, edges.high_eave);
    if (with_ridge) {
        add(EdgeKind::ridge, edges.ridge);
    }
    return all;
}

template <Surface surface>
[[nodiscard]] SteelResult lay_steel_on(const RoofDescription& roof, const Plane<surface>& plane,
                                       const Supports<surface>& supports, bool with_ridge) {
    const SteelPlan& steel = *roof.steel;
    ScrewPattern pattern = steel.screws;
    pattern.tick = roof.tick;
    const Panels panels = lay_panels(plane, supports, panel_plan_on(roof, plane));
    SteelResult result{.surface = surface,
                       .outline = plane.outline,
                       .supports = supports.lines,
                       .panels = panels,
                       .screws = count_screws(panels, supports, pattern),
                       .lines = screw_lines(panels, supports, pattern),
                       .drill_marks = drill_marks(panels, supports, pattern),
                       .trim = edge_trim(steel.edges, plane, with_ridge),
                       .closures = std::nullopt};
    if (steel.edges.closures) {
        result.closures = closures_under(panels, *steel.edges.closures);
    }
    return result;
}

/// What screws through a finished deck bite into.
[[nodiscard]] inline Supports<Surface::deck_top> deck_supports_of(const RoofDescription& roof, const Slope& slope,
                                                                  const PurlinRows& rows) {
    return supports_under_deck(rows, build_up_of(roof.shape).deck, slope.deck.pitch, tail_of(roof.shape));
}

/// The steel of a slope whose purlins lie as `rows`.
[[nodiscard]] inline SteelResult lay_steel(const RoofDescription& roof, const Slope& slope, const PurlinPlane& purlins,
                                           const DeckPlane& deck, const PurlinRows& rows, bool with_ridge) {
    if (!roof.deck || roof.deck->overhangs_only) {
        return lay_steel_on(roof, purlins, supports_of(rows), with_ridge);
    }
    return lay_steel_on(roof, deck, deck_supports_of(roof, slope, rows), with_ridge);
}

}  // namespace eavewright::detail
