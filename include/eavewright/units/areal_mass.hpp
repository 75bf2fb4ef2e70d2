// SPDX-License-Identifier: BSL-1.0
#pragma once

// Mass of a layer per area: what a square foot of steel or sheathing weighs.

#include <eavewright/fault.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <type_traits>

namespace eavewright {

/// Heaviest layer that is taken for one: 1000 lb per square foot.
inline constexpr double heaviest_layer_psf = 1000.0;

/// Mass per area of a layer, 0 to 1000 lb per square foot (else `FaultError`, not_finite or out_of_range).
class ArealMass {
public:
    [[nodiscard]] static ArealMass from_pounds_per_square_foot(double pounds) { return checked(pounds); }
    [[nodiscard]] static ArealMass from_kilograms_per_square_metre(double kilograms) {
        return checked(kilograms / kilograms_per_pound * 0.09290304);  // 1 sq ft = 0.3048^2 m2
    }

    [[nodiscard]] constexpr double pounds_per_square_foot() const noexcept { return pounds_; }
    [[nodiscard]] constexpr double kilograms_per_square_metre() const noexcept {
        return pounds_ * kilograms_per_pound / 0.09290304;
    }

    friend Mass operator*(ArealMass layer, Area area) { return mass_from_pounds(layer.pounds_ * square_feet(area)); }
    friend Mass operator*(Area area, ArealMass layer) { return layer * area; }
    friend constexpr bool operator==(ArealMass, ArealMass) = default;

private:
    constexpr explicit ArealMass(double pounds) noexcept : pounds_{pounds} {}

    [[nodiscard]] static ArealMass checked(double pounds) {
        if (!(pounds >= 0.0 && pounds <= heaviest_layer_psf)) {
            throw FaultError{Fault{std::isfinite(pounds) ? FaultCode::out_of_range : FaultCode::not_finite, "",
                                   write_decimal(pounds, 6) + " lb per sq ft", "0 to 1000 lb per sq ft"}};
        }
        return ArealMass{pounds};
    }

    double pounds_;
};

static_assert(std::is_trivially_copyable_v<ArealMass> && !std::is_default_constructible_v<ArealMass>);

}  // namespace eavewright
