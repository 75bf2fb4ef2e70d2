// SPDX-License-Identifier: BSL-1.0
#pragma once

// What one fastener holds, in two kinds that never meet: the average load at which tests broke it (a handbook's), and the load
// that a design standard allows. The first is five to six times the second, and no factor of one belongs to the other, so they
// are different types: they do not add, compare or convert, and a duration factor multiplies an allowable load alone.

#include <eavewright/fault.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <compare>
#include <string_view>
#include <type_traits>

namespace eavewright {

/// To be read before a fastener is trusted.
inline constexpr std::string_view fastening_caution =
    "Holding figures are for single fasteners in sound wood of the stated gravity, driven as the standard asks. They "
    "are "
    "preliminary: species, moisture, installation, edition in force and every factor are to be confirmed under the "
    "local code by a "
    "licensed professional.";

namespace detail {
/// The strongest fastener that is taken for one: a million pounds.
inline constexpr double strongest_fastener_lb = 1e6;

[[nodiscard]] inline double checked_strength(double pounds) {
    if (!(pounds >= 0.0 && pounds <= strongest_fastener_lb)) {
        throw FaultError{Fault{std::isfinite(pounds) ? FaultCode::out_of_range : FaultCode::not_finite, "strength",
                               write_decimal(pounds, 6) + " lb", "0 to 1000000 lb"}};
    }
    return pounds;
}
}  // namespace detail

/// Average load at which tests broke a fastener: a handbook's figure. 0 to 1,000,000 lb (else `FaultError`).
class Ultimate {
public:
    [[nodiscard]] static Ultimate of(Force load) { return Ultimate{detail::checked_strength(pounds_force(load))}; }
    [[nodiscard]] constexpr Force force() const noexcept { return force_from_pounds(pounds_); }

    friend constexpr auto operator<=>(Ultimate, Ultimate) = default;

private:
    constexpr explicit Ultimate(double pounds) noexcept : pounds_{pounds} {}
    double pounds_;
};

/// Load that a design standard allows on a fastener, at ten years' duration until it is adjusted. 0 to 1,000,000 lb (else
/// `FaultError`).
class Allowable {
public:
    [[nodiscard]] static Allowable of(Force load) { return Allowable{detail::checked_strength(pounds_force(load))}; }
    [[nodiscard]] constexpr Force force() const noexcept { return force_from_pounds(pounds_); }

    friend constexpr auto operator<=>(Allowable, Allowable) = default;

private:
    constexpr explicit Allowable(double pounds) noexcept : pounds_{pounds} {}
    double pounds_;
};

/// The same by length in the wood: pounds an inch of bite.
class UltimatePerLength {
public:
    [[nodiscard]] static UltimatePerLength of(LineLoad load) {
        return UltimatePerLength{detail::checked_strength(pounds_per_inch(load))};
    }
    [[nodiscard]] constexpr LineLoad line_load() const noexcept { return LineLoad::from_value(pounds_an_inch_); }
    friend Ultimate operator*(UltimatePerLength w, Length bite) { return Ultimate::of(w.line_load() * bite); }

private:
    constexpr explicit UltimatePerLength(double pounds_an_inch) noexcept : pounds_an_inch_{pounds_an_inch} {}
    double pounds_an_inch_;
};
class AllowablePerLength {
public:
    [[nodiscard]] static AllowablePerLength of(LineLoad load) {
        return AllowablePerLength{detail::checked_strength(pounds_per_inch(load))};
    }
    [[nodiscard]] constexpr LineLoad line_load() const noexcept { return LineLoad::from_value(pounds_an_inch_); }
    friend Allowable operator*(AllowablePerLength w, Length bite) { return Allowable::of(w.line_load() * bite); }

private:
    constexpr explicit AllowablePerLength(double pounds_an_inch) noexcept : pounds_an_inch_{pounds_an_inch} {}
    double pounds_an_inch_;
};

/// Share of what is allowed that a load takes; infinity never comes out: a fastener that holds nothing is refused (`FaultError`,
/// out_of_range), and so is a load below 0.
[[nodiscard]] inline double utilisation(Force load, Allowable allowed) {
    const double share = pounds_force(load) / pounds_force(allowed.force());
    if (!(pounds_force(load) >= 0.0) || !std::isfinite(share)) {
        throw FaultError{Fault{FaultCode::out_of_range, "load", write_decimal(pounds_force(load), 6) + " lb",
                               "at least 0, on a fastener that holds something"}};
    }
    return share;
}

static_assert(!std::is_default_constructible_v<Ultimate> && !std::is_default_constructible_v<Allowable>);
static_assert(!std::is_convertible_v<Ultimate, Allowable> && !std::is_constructible_v<Allowable, Ultimate>);

}  // namespace eavewright
