// SPDX-License-Identifier: BSL-1.0
#pragma once

// What keeps a purlin from rolling over and from sagging down the slope: the rule of depth to thickness for its squeezed edge,
// and the published limit up to which the roof's steel may be counted on to carry what pulls along the slope.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/lumber_values.hpp>
#include <eavewright/holding/section.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cmath>
#include <optional>
#include <string_view>

namespace eavewright {

/// What the rule of nominal depth to thickness asks of a bending member on edge.
enum class LateralNeed {
    none,              ///< to 2:1
    ends_held,         ///< to 4:1
    one_edge_held,     ///< to 5:1: held in line along its whole length
    bridging,          ///< to 6:1: bridging at 8 ft at the most, or both edges held
    both_edges_held,   ///< to 7:1
    beyond_the_table,  ///< deeper: the rule has no line for it
};
template <>
struct NamesOf<LateralNeed> {
    static constexpr std::array<std::string_view, 6> list{"none",     "ends_held",       "one_edge_held",
                                                          "bridging", "both_edges_held", "beyond_the_table"};
};

/// What is there to hold it. Ends held by blocks, hangers or the neighbour's lap.
struct LateralSupport {
    bool ends_held;
    bool one_edge_held;              ///< the top edge by the roof screwed to it, say
    bool both_edges_held;            ///< the bottom edge too
    std::optional<Length> bridging;  ///< widest distance between bridging, none where there is none
};

/// Widest distance between bridging that the rule takes.
inline constexpr Length widest_bridging = Length::from_feet(8.0);

/// What the rule asks of a size set on edge (UBC 1997 2306.7). Each ratio takes the line it reaches, so 2 x 5 is asked what 3:1
/// and 4:1 are. Throws `FaultError` with the first fault of `size`.
[[nodiscard]] inline LateralNeed lateral_need(const NominalSize& size) {
    require_sound(size, "size");
    const double ratio = size.width / size.thickness;
    return ratio <= 2.0   ? LateralNeed::none
           : ratio <= 4.0 ? LateralNeed::ends_held
           : ratio <= 5.0 ? LateralNeed::one_edge_held
           : ratio <= 6.0 ? LateralNeed::bridging
           : ratio <= 7.0 ? LateralNeed::both_edges_held
                          : LateralNeed::beyond_the_table;
}
/// Whether what is there meets the need; every line keeps the ends held too.
[[nodiscard]] inline bool meets_lateral_need(const LateralSupport& there, LateralNeed need) {
    const bool bridged = there.bridging && *there.bridging <= widest_bridging;
    switch (need) {
        case LateralNeed::none: return true;
        case LateralNeed::ends_held: return there.ends_held;
        case LateralNeed::one_edge_held: return there.ends_held && (there.one_edge_held || there.both_edges_held);
        case LateralNeed::bridging: return there.ends_held && (bridged || there.both_edges_held);
        case LateralNeed::both_edges_held: return there.ends_held && there.both_edges_held;
        case LateralNeed::beyond_the_table: break;
    }
    return false;
}

/// Farthest apart that trusses may stand for it.
inline constexpr Length widest_bay_held_by_roof = Length::from_metres(2.4);
/// Whether usual ribbed steel, screwed to the purlins, may be counted on for what pulls along the slope: a slope of 1 in 3 (4 in
/// 12) at the most, trusses 2.4 m (94.5 in) apart at the most. Beyond either, ties or blocking are needed. Source: the
/// leaflet on purlins and rafters of a national farm building plan service, by the Canadian Farm Building Code 1990.
[[nodiscard]] inline bool roof_may_hold_weak_axis(Pitch pitch, Length bay, bool usual_steel_roofing) {
    return usual_steel_roofing && pitch.rise_in_12() <= 4.0 + 1e-9 &&
           bay <= widest_bay_held_by_roof + Length::from_inches(1e-9);
}

}  // namespace eavewright
