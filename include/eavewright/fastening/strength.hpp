// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a figure of strength stands for. An average load at which tests failed, a design standard's reference value and that
// value adjusted to its use are three types: they do not add, compare or take each other's factors.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <compare>
#include <concepts>
#include <string>
#include <string_view>
#include <type_traits>

namespace eavewright {

/// To be read with every figure of holding power.
inline constexpr std::string_view holding_power_caution =
    "Holding power is preliminary. It takes sound wood of the named specific gravity, fasteners driven as drawn, one "
    "load at "
    "a time. Local code, the maker's evaluation report and a licensed engineer decide what a roof may rely on.";
/// To be read beside every figure for a smooth shank. Forest Products Journal 63(5-6):213: averages within 7 to 8 percent of
/// the predicted peak in one series; other programmes report smooth shanks often well below the design standard's equation.
inline constexpr std::string_view smooth_shank_caution =
    "Withdrawal tests of smooth shanks scatter widely, and many fell well below the equation; wood that dries or moves "
    "after "
    "driving loosens them. Ring shanks tested equal to their equation or above.";

/// Edition of the National Design Specification for Wood Construction (AWC). No function takes one for granted.
enum class NdsEdition {
    nds_2015,  ///< withdrawal of smooth and post-frame ring nails only, from memory
    nds_2018,  ///< read in page-cited transcriptions
};
template <>
struct NamesOf<NdsEdition> {
    static constexpr std::array<std::string_view, 2> list{"nds_2015", "nds_2018"};
};

/// Edition of the Wood Handbook (USDA Forest Products Laboratory).
enum class HandbookEdition {
    gtr_282,  ///< FPL-GTR-282, 2021, chapter 8
};
template <>
struct NamesOf<HandbookEdition> {
    static constexpr std::array<std::string_view, 1> list{"gtr_282"};
};

/// What of a fastener resists, as the design standard tells them apart.
enum class Resistance {
    nail_withdrawal,       ///< smooth shank
    ring_nail_withdrawal,  ///< roof sheathing and post-frame ring shank
    wood_screw_withdrawal,
    lag_withdrawal,
    head_pull_through,
    nail_lateral,
};
template <>
struct NamesOf<Resistance> {
    static constexpr std::array<std::string_view, 6> list{"nail_withdrawal",       "ring_nail_withdrawal",
                                                          "wood_screw_withdrawal", "lag_withdrawal",
                                                          "head_pull_through",     "nail_lateral"};
};

/// How the wood's fibres lie to the fastener.
enum class Grain {
    side,  ///< across the fastener
    end,   ///< along it
};
template <>
struct NamesOf<Grain> {
    static constexpr std::array<std::string_view, 2> list{"side", "end"};
};

/// A strength with its basis in its type: a force, or a force by length of bite. 0 or more and finite (else `FaultError`,
/// not_finite or out_of_range). Strengths of one basis add, compare and divide; a whole number of alike fasteners multiplies.
template <class Basis, class Amount>
class Strength {
public:
    [[nodiscard]] static Strength of(Amount amount) {
        if (!(amount.value() >= 0.0 && amount.value() <= 1e9)) {
            throw FaultError{Fault{std::isfinite(amount.value()) ? FaultCode::out_of_range : FaultCode::not_finite,
                                   "strength", write_decimal(amount.value(), 6), "0 to 1000000000"}};
        }
        return Strength{amount};
    }
    /// The bare force, or force by length: what it stands for is then the reader's to remember.
    [[nodiscard]] constexpr Amount amount() const noexcept { return amount_; }

    friend constexpr bool operator==(Strength a, Strength b) { return a.amount_.value() == b.amount_.value(); }
    friend constexpr auto operator<=>(Strength a, Strength b) { return a.amount_.value() <=> b.amount_.value(); }
    friend Strength operator+(Strength a, Strength b) { return of(a.amount_ + b.amount_); }
    friend constexpr double operator/(Strength a, Strength b) { return a.amount_.value() / b.amount_.value(); }
    template <std::integral Count>
    friend Strength operator*(Strength a, Count count) {
        return of(Amount::from_value(a.amount_.value() * static_cast<double>(count)));
    }

private:
    constexpr explicit Strength(Amount amount) : amount_{amount} {}

    Amount amount_;
};

struct AverageTest;      ///< mean of the loads at which tests failed; no safety in it
struct ReferenceDesign;  ///< a design standard's value at ten years of load, dry, before its factors
struct AllowableDesign;  ///< a reference value after every factor of its use

using UltimateForce = Strength<AverageTest, Force>;
using UltimateLineLoad = Strength<AverageTest, LineLoad>;
using ReferenceForce = Strength<ReferenceDesign, Force>;
using ReferenceLineLoad = Strength<ReferenceDesign, LineLoad>;
using AllowableForce = Strength<AllowableDesign, Force>;
using AllowableLineLoad = Strength<AllowableDesign, LineLoad>;

static_assert(!std::is_default_constructible_v<UltimateForce> && !std::is_convertible_v<Force, AllowableForce> &&
              !std::is_constructible_v<AllowableForce, UltimateForce> &&
              !std::is_constructible_v<AllowableForce, ReferenceForce>);

/// A strength by length of bite over a bite.
template <class Basis>
[[nodiscard]] Strength<Basis, Force> operator*(Strength<Basis, LineLoad> by_length, Length bite) {
    return Strength<Basis, Force>::of(by_length.amount() * bite);
}

[[nodiscard]] constexpr double pounds_force(UltimateForce f) { return pounds_force(f.amount()); }
[[nodiscard]] constexpr double pounds_force(ReferenceForce f) { return pounds_force(f.amount()); }
[[nodiscard]] constexpr double pounds_force(AllowableForce f) { return pounds_force(f.amount()); }
[[nodiscard]] constexpr double newtons(UltimateForce f) { return newtons(f.amount()); }
[[nodiscard]] constexpr double newtons(ReferenceForce f) { return newtons(f.amount()); }
[[nodiscard]] constexpr double newtons(AllowableForce f) { return newtons(f.amount()); }
[[nodiscard]] constexpr double pounds_per_inch(UltimateLineLoad w) { return pounds_per_inch(w.amount()); }
[[nodiscard]] constexpr double pounds_per_inch(ReferenceLineLoad w) { return pounds_per_inch(w.amount()); }
[[nodiscard]] constexpr double pounds_per_inch(AllowableLineLoad w) { return pounds_per_inch(w.amount()); }

/// The product of a design standard's factors for one use: more than 0, at most 2 (else `FaultError`). It makes an allowable
/// strength of a reference one, once; average test loads take none.
class DesignFactor {
public:
    [[nodiscard]] static DesignFactor of(double factor) {
        if (!(factor > 0.0 && factor <= 2.0)) {
            throw FaultError{Fault{std::isfinite(factor) ? FaultCode::out_of_range : FaultCode::not_finite, "factor",
                                   write_decimal(factor, 6), "more than 0, at most 2"}};
        }
        return DesignFactor{factor};
    }
    [[nodiscard]] constexpr double value() const noexcept { return factor_; }

    template <class Amount>
    friend Strength<AllowableDesign, Amount> operator*(Strength<ReferenceDesign, Amount> reference,
                                                       DesignFactor factor) {
        return Strength<AllowableDesign, Amount>::of(Amount::from_value(reference.amount().value() * factor.factor_));
    }

private:
    constexpr explicit DesignFactor(double factor) noexcept : factor_{factor} {}

    double factor_;
};

/// Share of an allowable strength that `load` takes: 1 is all of it. Throws `FaultError` out_of_range or not_finite for a load
/// below 0 or no number, and where there is no strength at all.
[[nodiscard]] inline double utilisation(Force load, AllowableForce strength) {
    if (!(pounds_force(load) >= 0.0 && std::isfinite(pounds_force(load)))) {
        throw FaultError{Fault{std::isfinite(pounds_force(load)) ? FaultCode::out_of_range : FaultCode::not_finite,
                               "load", write_decimal(pounds_force(load), 6) + " lb", "0 lb or more"}};
    }
    if (!(pounds_force(strength) > 0.0)) {
        throw FaultError{Fault{FaultCode::out_of_range, "strength", "0 lb", "more than 0 lb"}};
    }
    return pounds_force(load) / pounds_force(strength);
}

namespace detail {
/// Refuses what an edition does not have, or what of it was not read.
[[noreturn]] inline void refuse_edition(NdsEdition edition, std::string_view what) {
    throw FaultError{Fault{FaultCode::not_supported, "edition", std::string{name_of(edition)},
                           "an edition of which this was read: " + std::string{what}}};
}
inline void require_2018(NdsEdition edition, std::string_view what) {
    if (edition != NdsEdition::nds_2018) {
        refuse_edition(edition, what);
    }
}
/// Refuses a figure outside the range of a standard's table.
inline void require_range(double value, double lowest, double highest, std::string_view path, std::string_view source) {
    constexpr double slack = 1e-9;  // millimetres converted may miss a printed bound by their rounding
    if (!(value >= lowest - slack && value <= highest + slack)) {
        throw FaultError{
            Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite, std::string{path},
                  write_decimal(value, 6),
                  write_decimal(lowest, 4) + " to " + write_decimal(highest, 4) + " (" + std::string{source} + ")"}};
    }
}
}  // namespace detail

}  // namespace eavewright
