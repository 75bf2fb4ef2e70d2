// SPDX-License-Identifier: BSL-1.0
#pragma once

// A slope as measured, laid so that it does not show: the ways that tiling compares, for the layers that lie on it.

#include <eavewright/fault.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/hold_back.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/lay_true.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/laid_true.hpp>
#include <eavewright/whole_roof/lay_steel.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <optional>

namespace eavewright::detail {

/// The best way for what `plan` names; none for a plane that the ways do not cover, as one far out of square.
template <Surface surface>
[[nodiscard]] std::optional<LaidTrue> best_way(const Plane<surface>& plane, const Supports<surface>& supports,
                                               LayTruePlan plan, const RoofDescription& roof) {
    if (roof.readings) {
        plan.trim = roof.readings->trim;
    } else if (plan.panels) {
        plan.trim.rake = plan.panels->trim_hides;
    }
    try {
        return choose_way(ways_to_lay(plane, supports, plan));
    } catch (const FaultError&) {
        return std::nullopt;
    }
}

/// Sheets on the surface that was measured; where there are none, panels on it.
template <Surface surface>
void lay_as_it_stands(const RoofDescription& roof, const Plane<surface>& plane, const Supports<surface>& supports,
                      SlopeResult& result) {
    if (!result.trueness) {
        return;
    }
    const bool decked = roof.deck && !roof.deck->overhangs_only;
    if (decked) {
        SheetPlan sheets = roof.deck->sheets;
        sheets.tick = roof.tick;
        result.lay_true =
            best_way(held_back(plane, roof.deck->ridge_hold_back), supports, LayTruePlan{.sheets = sheets}, roof);
    } else if (roof.steel) {
        result.lay_true = best_way(plane, supports, LayTruePlan{.panels = panel_plan_on(roof, plane)}, roof);
    }
}

/// Panels on a finished deck, by the deck as measured or as the surface under it was found.
inline void lay_steel_as_it_stands(const RoofDescription& roof, const DeckPlane& deck,
                                   const Supports<Surface::deck_top>& supports, SlopeResult& result) {
    const bool decked = roof.deck && !roof.deck->overhangs_only;
    if (roof.steel && decked && (result.trueness || result.deck)) {
        result.lay_steel_true = best_way(deck, supports, LayTruePlan{.panels = panel_plan_on(roof, deck)}, roof);
    }
}

}  // namespace eavewright::detail
