// SPDX-License-Identifier: BSL-1.0
#pragma once

// Random planes laid with panels, which the tests of tiling and fastening share.

#include <eavewright/tiling/lay_panels.hpp>

#include "tiling_planes.hpp"

#include <utility>

struct PanelCase {
    eavewright::PurlinPlane plane;
    eavewright::PurlinRows rows;
    eavewright::PanelPlan plan;
    eavewright::Panels panels;
};

inline eavewright::PanelPlan random_panel_plan(SeededNumbers& random) {
    using namespace eavewright;
    using namespace eavewright::literals;
    const bool metric = random.coin();
    PanelPlan plan{.ridge_hold_back = random.coin() ? 1_in : random.inches_between(0, 3)};
    const int spaces = random.whole(2, 6);
    const Length cover = metric ? 1000_mm : random.inches_between(20, 40);
    plan.panel = {.cover = cover,
                  .side_lap = random.inches_between(0, 4),
                  .rib_spacing = cover / static_cast<double>(spaces),
                  .lap = random.coin() ? SideLap::over_previous : SideLap::under_previous};
    plan.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
    plan.rips = random.coin() ? RipPlace::last : RipPlace::balanced;
    plan.eave.least = random.inches_between(0, 1);
    plan.eave.aimed = plan.eave.least + random.inches_between(0, 1);
    plan.eave.most = plan.eave.aimed + random.inches_between(0, 1);
    plan.edge_past_fascia = random.coin() ? no_length : random.inches_between(0, 1);
    plan.increment = random.coin() ? (metric ? 10_mm : 1_in) : (metric ? 1_mm : 0.25_in);
    plan.longest = random.coin() ? 40_ft : random.inches_between(80, 200);
    plan.end_lap = random.inches_between(4, 12);
    plan.ridge_play = random.inches_between(0, 1);
    plan.sliver = random.inches_between(0, 12);
    plan.tick = metric ? Tick::of_millimetres(1) : Tick::of_inch(random.coin() ? 16 : 8);
    return plan;
}

/// A plane with rows on it. Now and then a rule has no room for its last row on a plane that is out of square: drawn anew.
inline std::pair<eavewright::PurlinPlane, eavewright::PurlinRows> random_plane_and_rows(SeededNumbers& random) {
    while (true) {
        const double play = random.coin() ? 0.0 : 2.0;
        const eavewright::PurlinPlane plane =
            random_plane(random, random.between(40, 700), random.between(90, 330), play);
        try {
            return {plane, random_rows(random, plane, random_sheet_plan(random))};
        } catch (const eavewright::FaultError& error) {
            if (error.fault().path != "purlins.spacing") {
                throw;
            }
        }
    }
}

inline PanelCase random_panel_case(SeededNumbers& random) {
    const auto [plane, rows] = random_plane_and_rows(random);
    const eavewright::PanelPlan plan = random_panel_plan(random);
    return {plane, rows, plan, lay_panels(plane, rows, plan)};
}
