// SPDX-License-Identifier: BSL-1.0
#pragma once

// Wind speed, and the pressure that it has when it is stopped.

#include <eavewright/fault.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <compare>
#include <type_traits>

namespace eavewright {

/// Fastest wind that enters: 400 mph.
inline constexpr double fastest_wind_mph = 400.0;

/// A wind speed, 0 to 400 mph (else `FaultError`, not_finite or out_of_range).
class WindSpeed {
public:
    [[nodiscard]] static WindSpeed from_mph(double mph) { return checked(mph); }
    /// 1 mph is 1609.344 m in 3600 s.
    [[nodiscard]] static WindSpeed from_metres_per_second(double v) { return checked(v * 3600.0 / 1609.344); }

    [[nodiscard]] constexpr double mph() const noexcept { return mph_; }
    [[nodiscard]] constexpr double metres_per_second() const noexcept { return mph_ * 1609.344 / 3600.0; }

    friend constexpr auto operator<=>(WindSpeed, WindSpeed) = default;

private:
    constexpr explicit WindSpeed(double mph) noexcept : mph_{mph} {}

    [[nodiscard]] static WindSpeed checked(double mph) {
        if (!(mph >= 0.0 && mph <= fastest_wind_mph)) {
            throw FaultError{Fault{std::isfinite(mph) ? FaultCode::out_of_range : FaultCode::not_finite, "",
                                   write_decimal(mph, 6) + " mph", "0 to 400 mph"}};
        }
        return WindSpeed{mph};
    }

    double mph_;
};

static_assert(std::is_trivially_copyable_v<WindSpeed> && !std::is_default_constructible_v<WindSpeed>);

/// Velocity pressure in pounds per square foot at 1 mph, standard air (ASCE 7: q = 0.00256 V^2).
inline constexpr double velocity_pressure_psf_at_1_mph = 0.00256;

/// Pressure of standard air stopped at `speed`: 0.00256 V^2 psf, no gust, height or exposure factor.
[[nodiscard]] inline Pressure velocity_pressure(WindSpeed speed) {
    return pressure_from_psf(velocity_pressure_psf_at_1_mph * speed.mph() * speed.mph());
}
/// The speed whose velocity pressure this is. Throws `FaultError` for a pressure that no wind up to 400 mph has.
[[nodiscard]] inline WindSpeed speed_of_pressure(Pressure pressure) {
    return WindSpeed::from_mph(std::sqrt(psf(pressure) / velocity_pressure_psf_at_1_mph));
}

}  // namespace eavewright
