// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is found wrong with cut panels: narrow, short, beside an opening, off a support, at the far side.

#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panel_lanes.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <vector>

namespace eavewright::detail {

/// Whether the support stays under an end lap all across the panel.
inline void judge_cut_lap(const CutInput& in, const PanelEndLap& lap, CutPanels& panels) {
    const SupportLine& line = in.lines[lap.support];
    const Extent extent = extent_of(panels.pieces[lap.upper].part.outline);
    for (const Length along : {extent.low.along, extent.high.along}) {
        const Length centre = up_at(line.centreline, along);
        const Length past = longer(lap.from - (centre - line.width / 2.0), centre + line.width / 2.0 - lap.to);
        if (past > count_tolerance) {
            panels.findings.push_back(
                {PanelFindingCode::end_lap_off_support, lap.upper, {along, centre}, past, no_length});
            return;
        }
    }
}

/// Judges one panel: narrow, short, or with a narrow strip beside an opening.
inline void judge_cut_panel(const CutInput& in, std::size_t index, CutPanels& panels) {
    const Length sliver = in.plan.panels.sliver;
    const CutPanel& piece = panels.pieces[index];
    const Extent extent = extent_of(piece.part.outline);
    const PlanePoint middle{(extent.low.along + extent.high.along) / 2.0, (extent.low.up + extent.high.up) / 2.0};
    const auto find = [&](PanelFindingCode code, PlanePoint place, Length measured) {
        panels.findings.push_back({code, index, place, measured, sliver});
    };
    if (piece.cover + count_tolerance < sliver) {
        find(PanelFindingCode::sliver_cover, middle, piece.cover);
    }
    if (piece.length + count_tolerance < sliver) {
        find(PanelFindingCode::sliver_length, middle, piece.length);
    }
    if (!piece.notched) {
        return;
    }
    for (const std::vector<PlanePoint>& opening : in.openings) {
        const Extent box = extent_of(opening);
        if (!(box.low.up < extent.high.up && extent.low.up < box.high.up)) {
            continue;
        }
        const Length up = (longer(box.low.up, extent.low.up) + shorter(box.high.up, extent.high.up)) / 2.0;
        const Length left = box.low.along - extent.low.along;
        const Length right = extent.high.along - box.high.along;
        if (left > count_tolerance && left + count_tolerance < sliver) {
            find(PanelFindingCode::sliver_cover, {extent.low.along + left / 2.0, up}, left);
        }
        if (right > count_tolerance && right + count_tolerance < sliver) {
            find(PanelFindingCode::sliver_cover, {extent.high.along - right / 2.0, up}, right);
        }
    }
}

inline void judge_cut_panels(const CutInput& in, bool fits, CutPanels& panels) {
    const PanelPlan& plan = in.plan.panels;
    for (std::size_t i = 0; i < panels.pieces.size(); ++i) {
        judge_cut_panel(in, i, panels);
    }
    const std::size_t last = panels.pieces.empty() ? 0 : panels.pieces.size() - 1;
    PlanePoint place = in.extent.low;
    if (!panels.pieces.empty()) {
        const Extent hull = extent_of(panels.pieces.back().part.outline);
        place = {(hull.low.along + hull.high.along) / 2.0, hull.low.up + (hull.high.up - hull.low.up) / 4.0};
    }
    if (!fits) {
        panels.findings.push_back(
            {PanelFindingCode::no_increment_fits, last, place, plan.increment, plan.eave.most - plan.eave.least});
    }
    if (panels.lanes > 1 && panels.last_cover <= plan.panel.side_lap + count_tolerance) {
        panels.findings.push_back({PanelFindingCode::within_lap, last, place, panels.last_cover, plan.panel.side_lap});
    }
    if (panels.pack.panels_lost > panels.lanes) {
        const Length reach = (plan.panel.cover - plan.pack_drift) * static_cast<double>(panels.lanes);
        panels.findings.push_back({PanelFindingCode::pack_runs_short, last, place, in.edges.back() - reach, no_length});
    }
}

}  // namespace eavewright::detail
