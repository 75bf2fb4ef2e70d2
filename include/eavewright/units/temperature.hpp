// SPDX-License-Identifier: BSL-1.0
#pragma once

// Temperature, as a thermometer reads it.

#include <eavewright/fault.hpp>
#include <eavewright/units/decimal.hpp>

#include <cmath>
#include <compare>
#include <type_traits>

namespace eavewright {

/// Coldest and hottest that enters: -100 to 100 C.
inline constexpr double coldest_fahrenheit = -148.0;
inline constexpr double hottest_fahrenheit = 212.0;

/// A temperature, -148 to 212 F or -100 to 100 C (else `FaultError`, not_finite or out_of_range). 68 F is 20 C exactly.
class Temperature {
public:
    [[nodiscard]] static constexpr Temperature from_fahrenheit(double degrees) { return checked(degrees); }
    [[nodiscard]] static constexpr Temperature from_celsius(double degrees) {
        return checked(degrees * 9.0 / 5.0 + 32.0);
    }

    [[nodiscard]] constexpr double fahrenheit() const noexcept { return fahrenheit_; }
    [[nodiscard]] constexpr double celsius() const noexcept { return (fahrenheit_ - 32.0) * 5.0 / 9.0; }

    friend constexpr auto operator<=>(Temperature, Temperature) = default;

private:
    constexpr explicit Temperature(double fahrenheit) noexcept : fahrenheit_{fahrenheit} {}

    [[nodiscard]] static constexpr Temperature checked(double fahrenheit) {
        if (!(fahrenheit >= coldest_fahrenheit && fahrenheit <= hottest_fahrenheit)) {  // NaN fails both
            refuse(fahrenheit);
        }
        return Temperature{fahrenheit};
    }
    [[noreturn]] static void refuse(double fahrenheit) {
        throw FaultError{Fault{std::isfinite(fahrenheit) ? FaultCode::out_of_range : FaultCode::not_finite, "",
                               write_decimal(fahrenheit, 6) + " F", "-148 to 212 F (-100 to 100 C)"}};
    }

    double fahrenheit_;
};

static_assert(std::is_trivially_copyable_v<Temperature> && !std::is_default_constructible_v<Temperature>);

}  // namespace eavewright
