// SPDX-License-Identifier: BSL-1.0
#pragma once

// Panels of a four-sided plane as cut panels, so that all planes of a roof are listed, drawn and paired alike.

#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

namespace eavewright::detail {

/// A four-sided piece as a cut panel.
[[nodiscard]] inline CutPanel cut_panel_of(const PanelPiece& piece, const PanelPlan& plan, bool topmost,
                                           EdgeKind above) {
    const Length left = piece.outline[0].along;
    const Length right = piece.outline[1].along;
    const bool from_left = plan.start == StartCorner::eave_left;
    const bool keeps_far = from_left == (piece.lane == 0 && piece.ripped && piece.width > piece.cover);
    const Length stock_left = keeps_far ? right - plan.panel.cover : left;
    const Length out = left - stock_left;
    const double slope = (piece.right_length - piece.left_length) / piece.cover;
    PanelEnd lower{no_length, no_length, 0.0, no_length, true, false, std::nullopt, {}};
    lower.line = {{out, no_length}, {out + piece.cover, no_length}};
    lower.edge = piece.place == 0 ? std::optional<EdgeKind>{EdgeKind::eave} : std::nullopt;
    PanelEnd upper{piece.left_length,
                   piece.right_length,
                   slope,
                   plan.panel.cover * std::fabs(slope),
                   true,
                   piece.cut,
                   topmost ? std::optional<EdgeKind>{above} : std::nullopt,
                   {}};
    upper.line = {{out, piece.left_length}, {out + piece.cover, piece.right_length}};
    return {piece.lane,
            piece.place,
            {piece.outline, {}},
            piece.cover,
            piece.width,
            out,
            piece.low,
            longer(piece.left_length, piece.right_length),
            piece.order_length,
            piece.ripped,
            false,
            std::move(lower),
            std::move(upper)};
}

[[nodiscard]] inline CutPanels cut_panels_of(const Panels& laid, const PanelPlan& plan, EdgeKind above) {
    CutPanels panels{.start = laid.start,
                     .panel = laid.panel,
                     .increment = plan.increment,
                     .longest = plan.longest,
                     .lanes = laid.lanes,
                     .exact_panels = laid.exact_panels,
                     .first_cover = laid.first_cover,
                     .last_cover = laid.last_cover,
                     .overhang = laid.overhang,
                     .pieces = {},
                     .end_laps = laid.end_laps,
                     .marks = laid.marks,
                     .pack = laid.pack,
                     .covered = laid.covered,
                     .bought = laid.bought,
                     .bought_length = no_length,
                     .findings = laid.findings};
    for (std::size_t i = 0; i < laid.pieces.size(); ++i) {
        const bool topmost = i + 1 == laid.pieces.size() || laid.pieces[i + 1].place == 0;
        panels.pieces.push_back(cut_panel_of(laid.pieces[i], plan, topmost, above));
        panels.bought_length += laid.pieces[i].order_length;
    }
    return panels;
}

}  // namespace eavewright::detail
