// SPDX-License-Identifier: BSL-1.0
#pragma once

// Purlins under a deck, as what lies on the deck is fastened to them.

#include <eavewright/fault.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <utility>

namespace eavewright {

/// The rows in coordinates of the deck's top: a screw goes in square to the slope, so over a plumb tail its place on the
/// deck lies deck x rise / run lower than the purlin's own coordinate; over a square tail the two are one.
/// Throws `FaultError` for a deck outside 0 to `deepest_layer`.
[[nodiscard]] inline Supports<Surface::deck_top> supports_under_deck(const PurlinRows& rows, Length deck, Pitch pitch,
                                                                     TailCut tail) {
    Faults faults;
    require_within(deck, no_length, deepest_layer, Path{"deck"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
    const Length lower = surface_offset(deck, pitch, tail).along_slope;
    Supports<Surface::deck_top> supports{SupportRun::along_eave, {}, rows.spacing};
    for (const PurlinRow& row : rows.rows) {
        supports.lines.push_back({row.centreline, row.width, row.stretches});
        for (PlanePoint& point : supports.lines.back().centreline) {
            point.up -= lower;
        }
    }
    return supports;
}

}  // namespace eavewright
