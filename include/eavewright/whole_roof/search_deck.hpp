// SPDX-License-Identifier: BSL-1.0
#pragma once

// Another layout of the same deck, all slopes from the same sheets: what a search would save.

#include <eavewright/framing/supports.hpp>
#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/search_layouts.hpp>
#include <eavewright/roof/hold_back.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/lay_slope.hpp>

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {
/// The planes that a deck lies on, and what carries it.
template <Surface surface>
struct DeckGrounds {
    std::vector<Plane<surface>> planes;
    std::vector<Supports<surface>> supports;
};

template <Surface surface>
[[nodiscard]] FoundLayout search_on(const DeckGrounds<surface>& grounds, const RoofDescription& roof, Length kerf) {
    LayoutSearchPlan plan{.plain = roof.deck->sheets, .stock = {.sheet = roof.deck->sheets.sheet, .kerf = kerf}};
    plan.plain.tick = roof.tick;
    plan.turns = !roof.as_built.empty();
    return search_layouts(grounds.planes, grounds.supports, plan);
}
}  // namespace detail

/// The layout with the fewest sheets for the deck of a roof, and what it saves against the one described. None without a
/// deck, or with one at the overhangs alone. Throws `FaultError` as `whole_roof` does.
[[nodiscard]] inline std::optional<FoundLayout> search_deck(const RoofDescription& roof, Length kerf = one_inch / 8.0) {
    if (!roof.deck || roof.deck->overhangs_only) {
        return std::nullopt;
    }
    const RoofShape shape = detail::shape_of(roof.shape);
    detail::DeckGrounds<Surface::purlin_top> on_purlins;
    detail::DeckGrounds<Surface::chord_top> on_chords;
    for (std::size_t i = 0; i < shape.slopes.size(); ++i) {
        const detail::SlopeStart start = detail::start_slope(roof, shape, i);
        if (roof.purlins) {
            const PurlinPlane plane = detail::plane_as_built(start.slope.purlin, start.trueness);
            on_purlins.planes.push_back(held_back(plane, roof.deck->ridge_hold_back));
            on_purlins.supports.push_back(
                supports_of(detail::rows_of_slope(roof, start.slope, plane, start.built, start.frames)));
        } else {
            const ChordPlane plane = detail::plane_as_built(start.slope.chord, start.trueness);
            on_chords.planes.push_back(held_back(plane, roof.deck->ridge_hold_back));
            on_chords.supports.push_back(supports_of(start.frames, plane));
        }
    }
    return roof.purlins ? detail::search_on(on_purlins, roof, kerf) : detail::search_on(on_chords, roof, kerf);
}

}  // namespace eavewright
