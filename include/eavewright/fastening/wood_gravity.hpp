// SPDX-License-Identifier: BSL-1.0
#pragma once

// Specific gravity of wood, by the basis that each equation was fitted on. The same board has two figures, and an equation fed
// the other's is wrong by several per cent, so they are different types.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/decimal.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <type_traits>

namespace eavewright {

namespace detail {
[[nodiscard]] inline double checked_gravity(double gravity, double least, double most) {
    if (!(gravity >= least && gravity <= most)) {
        throw FaultError{Fault{std::isfinite(gravity) ? FaultCode::out_of_range : FaultCode::not_finite, "gravity",
                               write_decimal(gravity, 6), write_decimal(least, 2) + " to " + write_decimal(most, 2)}};
    }
    return gravity;
}
/// Lightest and heaviest wood of either basis.
inline constexpr double lightest_wood = 0.1;
inline constexpr double heaviest_wood = 1.2;
}  // namespace detail

/// Ovendry weight on ovendry volume: the basis of the NDS and of the Wood Handbook's threaded nails. 0.1 to 1.2 (else
/// `FaultError`).
class OvendryGravity {
public:
    [[nodiscard]] static OvendryGravity of(double gravity) {
        return OvendryGravity{detail::checked_gravity(gravity, detail::lightest_wood, detail::heaviest_wood)};
    }
    [[nodiscard]] constexpr double value() const noexcept { return value_; }
    friend constexpr bool operator==(OvendryGravity, OvendryGravity) = default;

private:
    constexpr explicit OvendryGravity(double value) noexcept : value_{value} {}
    double value_;
};

/// Ovendry weight on the volume at 12 % moisture content: the basis of the Wood Handbook's smooth nails. 0.1 to 1.2 (else
/// `FaultError`).
class TwelvePercentGravity {
public:
    [[nodiscard]] static TwelvePercentGravity of(double gravity) {
        return TwelvePercentGravity{detail::checked_gravity(gravity, detail::lightest_wood, detail::heaviest_wood)};
    }
    [[nodiscard]] constexpr double value() const noexcept { return value_; }
    friend constexpr bool operator==(TwelvePercentGravity, TwelvePercentGravity) = default;

private:
    constexpr explicit TwelvePercentGravity(double value) noexcept : value_{value} {}
    double value_;
};

static_assert(!std::is_convertible_v<OvendryGravity, TwelvePercentGravity> &&
              !std::is_convertible_v<TwelvePercentGravity, OvendryGravity>);

/// Species combinations of the design standard, as they are stamped on lumber.
enum class SpeciesGroup {
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
struct NamesOf<SpeciesGroup> {
    static constexpr std::array<std::string_view, 36> list{"Alaska Cedar",
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
                                                           "Yellow Poplar"};
};

/// Assigned specific gravity of a species combination (AWC NDS 2018 Table 12.3.3A), ovendry weight and volume. Throws `FaultError`
/// unknown_name for a number that is none of the list.
[[nodiscard]] inline OvendryGravity assigned_gravity(SpeciesGroup species) {
    constexpr std::array<double, 36> gravities{0.47, 0.39, 0.36, 0.71, 0.41, 0.50, 0.49, 0.46, 0.41, 0.36, 0.41, 0.36,
                                               0.38, 0.43, 0.46, 0.55, 0.68, 0.51, 0.42, 0.35, 0.31, 0.43, 0.58, 0.67,
                                               0.44, 0.37, 0.43, 0.55, 0.42, 0.36, 0.36, 0.47, 0.40, 0.36, 0.73, 0.43};
    const auto index = static_cast<std::size_t>(species);
    if (index >= gravities.size()) {
        throw FaultError{Fault{FaultCode::unknown_name, "species", std::to_string(index), "one of the names"}};
    }
    return OvendryGravity::of(gravities[index]);
}

}  // namespace eavewright
