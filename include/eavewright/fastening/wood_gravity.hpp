// SPDX-License-Identifier: BSL-1.0
#pragma once

// Specific gravity of wood, on the two bases that standards use. They are two types, since the same board has a lower figure
// at 12 percent moisture, and an equation fitted to one basis is wrong with the other.

#include <eavewright/fastening/strength.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/decimal.hpp>

#include <array>
#include <cmath>
#include <compare>
#include <cstddef>
#include <string_view>

namespace eavewright {

/// Ovendry weight over the weight of as much water as the wood's volume, 0.1 to 1.3 (else `FaultError`, not_finite or
/// out_of_range). The basis says at which moisture that volume is measured; no conversion is given, since none was read.
template <class VolumeBasis>
class SpecificGravity {
public:
    [[nodiscard]] static SpecificGravity of(double ratio) {
        if (!(ratio >= 0.1 && ratio <= 1.3)) {
            throw FaultError{Fault{std::isfinite(ratio) ? FaultCode::out_of_range : FaultCode::not_finite,
                                   "specific_gravity", write_decimal(ratio, 6), "0.1 to 1.3"}};
        }
        return SpecificGravity{ratio};
    }
    [[nodiscard]] constexpr double ratio() const noexcept { return ratio_; }
    friend constexpr auto operator<=>(SpecificGravity, SpecificGravity) = default;

private:
    constexpr explicit SpecificGravity(double ratio) noexcept : ratio_{ratio} {}

    double ratio_;
};

struct OvendryVolume;        ///< volume when ovendry
struct TwelvePercentVolume;  ///< volume at 12 percent moisture content

/// NDS Table 12.3.3A and all NDS equations; Wood Handbook equation 8-2a (ring shank).
using OvendryGravity = SpecificGravity<OvendryVolume>;
/// Wood Handbook Table 5-3 and its equations 8-1 (smooth nail), 8-9, 8-10, 8-14.
using GravityAtTwelvePercent = SpecificGravity<TwelvePercentVolume>;

/// Species combinations with an assigned specific gravity, NDS 2018 Table 12.3.3A (printed p. 87, read in a page-cited
/// transcription). Not all of the table's rows are here.
enum class SpeciesCombination {
    alaska_cedar,
    aspen,
    balsam_fir,
    beech_birch_hickory,
    cottonwood,
    douglas_fir_larch,
    douglas_fir_larch_north,
    douglas_fir_south,
    eastern_hemlock,
    eastern_softwoods,
    eastern_spruce,
    eastern_white_pine,
    engelmann_spruce_lodgepole_pine,
    hem_fir,
    hem_fir_north,
    mixed_maple,
    mixed_oak,
    mixed_southern_pine,
    northern_pine,
    northern_species,
    northern_white_cedar,
    ponderosa_pine,
    red_maple,
    red_oak,
    red_pine,
    redwood,
    sitka_spruce,
    southern_pine,
    spruce_pine_fir,
    spruce_pine_fir_south,
    western_cedars,
    western_hemlock,
    western_white_pine,
    western_woods,
    white_oak,
    yellow_poplar,
};
template <>
struct NamesOf<SpeciesCombination> {
    static constexpr std::array<std::string_view, 36> list{
        "Alaska Cedar",
        "Aspen",
        "Balsam Fir",
        "Beech-Birch-Hickory",
        "Cottonwood",
        "Douglas Fir-Larch",
        "Douglas Fir-Larch (North)",
        "Douglas Fir-South",
        "Eastern Hemlock",
        "Eastern Softwoods",
        "Eastern Spruce",
        "Eastern White Pine",
        "Engelmann Spruce-Lodgepole Pine",
        "Hem-Fir",
        "Hem-Fir (North)",
        "Mixed Maple",
        "Mixed Oak",
        "Mixed Southern Pine",
        "Northern Pine",
        "Northern Species",
        "Northern White Cedar",
        "Ponderosa Pine",
        "Red Maple",
        "Red Oak",
        "Red Pine",
        "Redwood",
        "Sitka Spruce",
        "Southern Pine",
        "Spruce-Pine-Fir",
        "Spruce-Pine-Fir (South)",
        "Western Cedars",
        "Western Hemlock",
        "Western White Pine",
        "Western Woods",
        "White Oak",
        "Yellow Poplar",
    };
};
inline constexpr std::size_t species_combination_count = NamesOf<SpeciesCombination>::list.size();

/// The specific gravity that the design standard assigns to visually graded lumber of a species combination; mechanically
/// graded lumber has figures of its own. Throws `FaultError` not_supported for an edition whose table was not read,
/// unknown_name for a number that is none of the names.
[[nodiscard]] inline OvendryGravity assigned_gravity(SpeciesCombination species, NdsEdition edition) {
    constexpr std::array<double, species_combination_count> table{
        0.47, 0.39, 0.36, 0.71, 0.41, 0.50, 0.49, 0.46, 0.41, 0.36, 0.41, 0.36, 0.38, 0.43, 0.46, 0.55, 0.68, 0.51,
        0.42, 0.35, 0.31, 0.43, 0.58, 0.67, 0.44, 0.37, 0.43, 0.55, 0.42, 0.36, 0.36, 0.47, 0.40, 0.36, 0.73, 0.43};
    detail::require_named(species, "species");
    detail::require_2018(edition, "Table 12.3.3A is of NDS 2018");
    return OvendryGravity::of(table[static_cast<std::size_t>(species)]);
}

}  // namespace eavewright
