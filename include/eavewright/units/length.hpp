// SPDX-License-Identifier: BSL-1.0
#pragma once

// Length: a trivially copyable value class that counts in inches, with Boost.Units at its border.
//
// Inches, since every mark of a tape down to 1/64 in is then an exact double, and 8 ft / 24 in is exactly 4.
// The operators are plain arithmetic, as fast as a bare double; numbers are checked where they enter.

#include <eavewright/fault.hpp>
#include <eavewright/units/decimal.hpp>

#include <boost/units/base_units/us/inch.hpp>
#include <boost/units/base_units/us/pound_force.hpp>
#include <boost/units/get_dimension.hpp>
#include <boost/units/make_system.hpp>
#include <boost/units/physical_dimensions/area.hpp>
#include <boost/units/physical_dimensions/length.hpp>
#include <boost/units/physical_dimensions/volume.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/length.hpp>

#include <cmath>
#include <compare>
#include <string>
#include <string_view>
#include <type_traits>

namespace eavewright {

/// The Boost.Units system that the library computes in: inch and pound-force (so pressure is lbf per square inch).
using InchSystem =
    boost::units::make_system<boost::units::us::inch_base_unit, boost::units::us::pound_force_base_unit>::type;
using InchUnit = boost::units::unit<boost::units::length_dimension, InchSystem>;
using AreaUnit = boost::units::unit<boost::units::area_dimension, InchSystem>;
using VolumeUnit = boost::units::unit<boost::units::volume_dimension, InchSystem>;

/// Length as a Boost.Units quantity, for code that computes with quantities.
using InchQuantity = boost::units::quantity<InchUnit>;
/// Area; read it through `square_feet`, `square_metres`, `squares` and their like in units/quantities.hpp.
using Area = boost::units::quantity<AreaUnit>;
/// Volume; read it through `cubic_feet`, `cubic_metres`, `board_feet`.
using Volume = boost::units::quantity<VolumeUnit>;

/// Longest length (either sign) that enters the library: 10,000,000 in, about 158 miles.
inline constexpr double length_limit_in = 1e7;

/// A length with sign. Made from a number with its unit named; there is no route from a bare number and no
/// default, so a forgotten field does not compile. Finite and within `length_limit_in` when made from a number
/// (else `FaultError`, not_finite or out_of_range); arithmetic on lengths is unchecked.
class Length {
public:
    [[nodiscard]] static constexpr Length from_inches(double inches) { return checked(inches); }
    [[nodiscard]] static constexpr Length from_feet(double feet) { return checked(feet * 12.0); }
    /// Correct to the last place for whole millimetres: 25.4 mm is 1 in by definition.
    [[nodiscard]] static constexpr Length from_millimetres(double mm) { return checked(mm * 10.0 / 254.0); }
    [[nodiscard]] static constexpr Length from_metres(double m) { return checked(m * 10000.0 / 254.0); }

    /// From any Boost.Units length. Metres go the exact way of `from_metres`.
    template <class Unit>
        requires(std::is_same_v<typename boost::units::get_dimension<Unit>::type, boost::units::length_dimension>)
    explicit Length(const boost::units::quantity<Unit, double>& quantity) : inches_{from_quantity(quantity).inches_} {}

    /// To any Boost.Units length.
    template <class Unit>
        requires(std::is_same_v<typename boost::units::get_dimension<Unit>::type, boost::units::length_dimension>)
    explicit constexpr operator boost::units::quantity<Unit, double>() const {
        if constexpr (std::is_same_v<Unit, boost::units::si::length>) {
            return boost::units::quantity<Unit, double>::from_value(inches_ * 254.0 / 10000.0);
        } else {
            return boost::units::quantity<Unit, double>(InchQuantity::from_value(inches_));
        }
    }

    friend constexpr auto operator<=>(Length, Length) = default;

    constexpr Length& operator+=(Length other) noexcept {
        inches_ += other.inches_;
        return *this;
    }
    constexpr Length& operator-=(Length other) noexcept {
        inches_ -= other.inches_;
        return *this;
    }
    constexpr Length& operator*=(double factor) noexcept {
        inches_ *= factor;
        return *this;
    }
    constexpr Length& operator/=(double divisor) noexcept {
        inches_ /= divisor;
        return *this;
    }

    friend constexpr Length operator+(Length a) noexcept { return a; }
    friend constexpr Length operator-(Length a) noexcept { return Length{-a.inches_}; }
    friend constexpr Length operator+(Length a, Length b) noexcept { return Length{a.inches_ + b.inches_}; }
    friend constexpr Length operator-(Length a, Length b) noexcept { return Length{a.inches_ - b.inches_}; }
    friend constexpr Length operator*(Length a, double factor) noexcept { return Length{a.inches_ * factor}; }
    friend constexpr Length operator*(double factor, Length a) noexcept { return Length{factor * a.inches_}; }
    friend constexpr Length operator/(Length a, double divisor) noexcept { return Length{a.inches_ / divisor}; }
    friend constexpr double operator/(Length a, Length b) noexcept { return a.inches_ / b.inches_; }

    friend constexpr Area operator*(Length a, Length b) { return Area::from_value(a.inches_ * b.inches_); }
    friend constexpr Volume operator*(Area a, Length b) { return Volume::from_value(a.value() * b.inches_); }
    friend constexpr Volume operator*(Length a, Area b) { return b * a; }
    friend constexpr Length operator/(Area a, Length b) { return Length{a.value() / b.inches_}; }
    friend constexpr Area operator/(Volume a, Length b) { return Area::from_value(a.value() / b.inches_); }

    friend constexpr double inches(Length a) noexcept;

private:
    constexpr explicit Length(double inches) noexcept : inches_{inches} {}

    [[nodiscard]] static constexpr Length checked(double inches) {
        if (!(inches >= -length_limit_in && inches <= length_limit_in)) {  // NaN fails both
            refuse(inches);
        }
        return Length{inches};
    }
    [[noreturn]] static void refuse(double inches) {
        throw FaultError{Fault{std::isfinite(inches) ? FaultCode::out_of_range : FaultCode::not_finite, "",
                               write_decimal(inches, 6) + " in",
                               "a finite length within " + write_decimal(length_limit_in, 0) + " in"}};
    }
    template <class Unit>
    [[nodiscard]] static Length from_quantity(const boost::units::quantity<Unit, double>& quantity) {
        if constexpr (std::is_same_v<Unit, boost::units::si::length>) {
            return from_metres(quantity.value());
        } else {
            return checked(boost::units::quantity<InchUnit>(quantity).value());
        }
    }

    double inches_;
};

static_assert(std::is_trivially_copyable_v<Length> && sizeof(Length) == sizeof(double));
static_assert(!std::is_default_constructible_v<Length> && !std::is_convertible_v<double, Length>);

[[nodiscard]] constexpr double inches(Length a) noexcept { return a.inches_; }
[[nodiscard]] constexpr double feet(Length a) noexcept { return inches(a) / 12.0; }
/// Correct to the last place for 64ths of an inch up to 1000 ft: the product by 254 is exact there.
[[nodiscard]] constexpr double millimetres(Length a) noexcept { return inches(a) * 254.0 / 10.0; }
[[nodiscard]] constexpr double metres(Length a) noexcept { return inches(a) * 254.0 / 10000.0; }

inline constexpr Length one_inch = Length::from_inches(1.0);
inline constexpr Length no_length = Length::from_inches(0.0);

// The standard's own names for these are macros on some platforms, so the library has its own.
[[nodiscard]] constexpr Length shorter(Length a, Length b) noexcept { return b < a ? b : a; }
[[nodiscard]] constexpr Length longer(Length a, Length b) noexcept { return a < b ? b : a; }
[[nodiscard]] constexpr Length magnitude(Length a) noexcept { return inches(a) < 0 ? -a : a; }

/// sqrt(a*a + b*b), from +, *, / and sqrt alone so that every build gives the same bits.
[[nodiscard]] inline Length hypotenuse(Length a, Length b) noexcept {
    const double x = inches(a);
    const double y = inches(b);
    return one_inch * std::sqrt(x * x + y * y);
}

/// Finite and within the limit; what public functions ask of lengths that came out of arithmetic.
[[nodiscard]] constexpr bool is_usable(Length a) noexcept {
    return inches(a) >= -length_limit_in && inches(a) <= length_limit_in;
}

namespace literals {
[[nodiscard]] constexpr Length operator""_ft(long double v) { return Length::from_feet(static_cast<double>(v)); }
[[nodiscard]] constexpr Length operator""_ft(unsigned long long v) { return Length::from_feet(static_cast<double>(v)); }
[[nodiscard]] constexpr Length operator""_in(long double v) { return Length::from_inches(static_cast<double>(v)); }
[[nodiscard]] constexpr Length operator""_in(unsigned long long v) {
    return Length::from_inches(static_cast<double>(v));
}
[[nodiscard]] constexpr Length operator""_mm(long double v) { return Length::from_millimetres(static_cast<double>(v)); }
[[nodiscard]] constexpr Length operator""_mm(unsigned long long v) {
    return Length::from_millimetres(static_cast<double>(v));
}
[[nodiscard]] constexpr Length operator""_m(long double v) { return Length::from_metres(static_cast<double>(v)); }
[[nodiscard]] constexpr Length operator""_m(unsigned long long v) {
    return Length::from_metres(static_cast<double>(v));
}
}  // namespace literals

/// A length as the text of a fault shows it, in both units: "36 in (914.4 mm)".
[[nodiscard]] inline std::string describe_length(Length length) {
    return write_decimal(inches(length), 6) + " in (" + write_decimal(millimetres(length), 4) + " mm)";
}

// How an input length is checked at a public door; the text of a fault is only built when there is one.

/// Adds a fault unless `value` is finite and lies in [lowest, highest].
inline void require_within(Length value, Length lowest, Length highest, const Path& path, Faults& faults) {
    if (value >= lowest && value <= highest) {
        return;
    }
    faults.push_back(Fault{std::isfinite(inches(value)) ? FaultCode::out_of_range : FaultCode::not_finite, path.text(),
                           describe_length(value), describe_length(lowest) + " to " + describe_length(highest)});
}

}  // namespace eavewright
