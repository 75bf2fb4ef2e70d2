// SPDX-License-Identifier: BSL-1.0
#pragma once

// Withdrawal from side grain by length of bite: what the design standard allows, and what the handbook's tests averaged.

#include <eavewright/fastening/strength.hpp>
#include <eavewright/fastening/wood_gravity.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

namespace eavewright {

/// Edition of the wood design standard (AWC NDS). Equations were renumbered, so a number means nothing without it.
enum class NdsEdition { nds_2015, nds_2018 };
template <>
struct NamesOf<NdsEdition> {
    static constexpr std::array<std::string_view, 2> list{"nds_2015", "nds_2018"};
};

/// Fasteners whose withdrawal the standard gives.
enum class WithdrawalKind {
    smooth_nail,            ///< carbon steel: 1,380 G^2.5 D
    stainless_smooth_nail,  ///< 465 G^1.5 D
    ring_shank_nail,  ///< roof sheathing and post-frame ring shanks of ASTM F1667: 1,800 G^2 D, by the deformed length
    wood_screw,       ///< 2,850 G^2 D, by the threaded length
    lag_screw,        ///< 1,800 G^1.5 D^0.75, by the threaded length less the tip
};
template <>
struct NamesOf<WithdrawalKind> {
    static constexpr std::array<std::string_view, 5> list{"smooth_nail", "stainless_smooth_nail", "ring_shank_nail",
                                                          "wood_screw", "lag_screw"};
};

/// Which way a fastener goes into the wood.
enum class Grain {
    side,
    end,  ///< refused: the standard does not allow nails and wood screws to be pulled out of end grain
};
template <>
struct NamesOf<Grain> {
    static constexpr std::array<std::string_view, 2> list{"side", "end"};
};

/// Reference withdrawal value with what it follows from.
struct WithdrawalValue {
    WithdrawalKind kind;
    double gravity;
    Length diameter;
    AllowablePerLength by_length;
    std::string_view equation;  ///< edition, clause, number and formula
    bool scatters;              ///< tests of smooth shanks often fell well below it; shown with `smooth_shank_caution`
};
template <>
struct FieldsOf<WithdrawalValue> {
    static constexpr auto list = field_list(
        field("kind", FieldUnit::none, "fastener", &WithdrawalValue::kind),
        field("gravity", FieldUnit::ratio, "specific gravity, ovendry weight and volume", &WithdrawalValue::gravity),
        field("diameter", FieldUnit::length, "of the shank", &WithdrawalValue::diameter),
        field(
            "pounds_an_inch", FieldUnit::ratio, "reference value in pounds an inch of bite",
            +[](const WithdrawalValue& w) { return pounds_per_inch(w.by_length.line_load()); }),
        field("equation", FieldUnit::none, "edition, clause, number and formula", &WithdrawalValue::equation),
        field("scatters", FieldUnit::none, "tests of smooth shanks often fell well below it",
              &WithdrawalValue::scatters));
};

/// To be read beside every smooth shank.
inline constexpr std::string_view smooth_shank_caution =
    "Smooth shanks: tests of full-size joints scatter, and a research programme saw many pull out well below what the "
    "standard "
    "implies. Ring shanks met or passed it.";

namespace detail {
/// W = factor G^gravity_power D^diameter_power, D in inches, W in pounds an inch.
struct WithdrawalLaw {
    double factor;
    double gravity_power;
    double diameter_power;

    [[nodiscard]] LineLoad at(double gravity, Length diameter) const {
        return LineLoad::from_value(factor * std::pow(gravity, gravity_power) *
                                    std::pow(inches(diameter), diameter_power));
    }
};

/// AWC NDS, by kind.
inline constexpr std::array<WithdrawalLaw, 5> nds_laws{
    {{1380.0, 2.5, 1.0}, {465.0, 1.5, 1.0}, {1800.0, 2.0, 1.0}, {2850.0, 2.0, 1.0}, {1800.0, 1.5, 0.75}}};

/// The equation's place by edition. In 2018, 12.2-4 became the stainless nail's; before, it was the ring shank's.
struct EquationPlace {
    std::string_view in_2015;  ///< empty where that edition has none
    std::string_view in_2018;
};
inline constexpr std::array<EquationPlace, 5> equation_places{
    {{"AWC NDS 2015 12.2.3, Eq. 12.2-3: W = 1380 G^2.5 D", "AWC NDS 2018 12.2.3.1(a), Eq. 12.2-3: W = 1380 G^2.5 D"},
     {"", "AWC NDS 2018 12.2.3.1, Eq. 12.2-4: W = 465 G^1.5 D"},
     {"AWC NDS 2015 12.2.3, Eq. 12.2-4: W = 1800 G^2 D", "AWC NDS 2018 12.2.3.2, Eq. 12.2-5: W = 1800 G^2 D"},
     {"AWC NDS 2015 12.2.2: W = 2850 G^2 D", "AWC NDS 2018 12.2.2: W = 2850 G^2 D"},
     {"AWC NDS 2015 12.2.1: W = 1800 G^1.5 D^0.75", "AWC NDS 2018 12.2.1: W = 1800 G^1.5 D^0.75"}}};

inline void require_gravity(double gravity, double least, double most, Faults& faults) {
    if (!(gravity >= least && gravity <= most)) {
        faults.push_back(
            Fault{FaultCode::out_of_range, "gravity", write_decimal(gravity, 6),
                  write_decimal(least, 2) + " to " + write_decimal(most, 2) + ", where the equation holds"});
    }
}
inline void throw_first(Faults& faults) {
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
}
template <HasNames Enumeration>
void require_listed(Enumeration value, const char* path, Faults& faults) {
    if (static_cast<std::size_t>(value) >= NamesOf<Enumeration>::list.size()) {
        faults.push_back(
            Fault{FaultCode::unknown_name, path, std::to_string(static_cast<int>(value)), "one of the names"});
    }
}
}  // namespace detail

/// Reference withdrawal value of the design standard, pounds an inch of bite at ten years' duration, dry, side grain. G 0.31 to
/// 0.73 (the range of Table 12.2C); D 0.092 to 0.375 in for nails and wood screws, 0.25 to 1.25 in for lag screws (the upper
/// bound from memory). Throws `FaultError` out_of_range past these, not_supported for end grain of any but lag screws (whose value the end
/// grain factor then lowers) and for an edition that lacks the equation.
[[nodiscard]] inline WithdrawalValue withdrawal(NdsEdition edition, WithdrawalKind kind, OvendryGravity gravity,
                                                Length diameter, Grain grain = Grain::side) {
    Faults faults;
    detail::require_listed(edition, "edition", faults);
    detail::require_listed(kind, "kind", faults);
    detail::throw_first(faults);
    const auto which = static_cast<std::size_t>(kind);
    const bool lag = kind == WithdrawalKind::lag_screw;
    detail::require_gravity(gravity.value(), 0.31, 0.73, faults);
    require_within(diameter, Length::from_inches(lag ? 0.25 : 0.092), Length::from_inches(lag ? 1.25 : 0.375),
                   Path{"diameter"}, faults);
    const detail::EquationPlace place = detail::equation_places[which];
    const std::string_view equation = edition == NdsEdition::nds_2018 ? place.in_2018 : place.in_2015;
    if (equation.empty()) {
        faults.push_back(Fault{FaultCode::not_supported, "edition", std::string{name_of(edition)},
                               "nds_2018 for stainless smooth nails"});
    }
    if (grain != Grain::side && !lag) {
        faults.push_back(Fault{FaultCode::not_supported, "grain", "end",
                               "side grain: withdrawal from end grain is not allowed for nails and wood screws"});
    }
    detail::throw_first(faults);
    const bool smooth = kind == WithdrawalKind::smooth_nail || kind == WithdrawalKind::stainless_smooth_nail;
    return {.kind = kind,
            .gravity = gravity.value(),
            .diameter = diameter,
            .by_length = AllowablePerLength::of(detail::nds_laws[which].at(gravity.value(), diameter)),
            .equation = equation,
            .scatters = smooth};
}

namespace detail {
/// USDA FPL-GTR-282 (2021), chapter 8, in inches and pounds. The nails' coefficients of old research notes (6,900 for 7,850) rest
/// on another gravity basis and are not here.
[[nodiscard]] inline UltimatePerLength handbook_law(WithdrawalLaw law, double gravity, Length diameter,
                                                    const char* diameter_name) {
    Faults faults;
    require_within(diameter, Length::from_inches(0.05), Length::from_inches(1.5), Path{diameter_name}, faults);
    throw_first(faults);
    return UltimatePerLength::of(law.at(gravity, diameter));
}
}  // namespace detail

/// Average ultimate withdrawal of bright smooth nails from side grain: 7,850 G^2.5 D pounds an inch (Wood Handbook, FPL-GTR-282,
/// Eq. 8-1). G on the volume at 12 % moisture content. D 0.05 to 1.5 in (else `FaultError`).
[[nodiscard]] inline UltimatePerLength handbook_withdrawal_smooth_nail(TwelvePercentGravity gravity, Length diameter) {
    return detail::handbook_law({7850.0, 2.5, 1.0}, gravity.value(), diameter, "diameter");
}
/// Of annularly threaded nails: 11,250 G^2 D, D under the thread (its root), by the threaded length (Eq. 8-2a; thread crests more
/// than 0.2 mm above the root, 1.27 to 1.96 mm apart). G on ovendry volume. The handbook has no equation for helical threads.
[[nodiscard]] inline UltimatePerLength handbook_withdrawal_ring_nail(OvendryGravity gravity, Length root_diameter) {
    return detail::handbook_law({11250.0, 2.0, 1.0}, gravity.value(), root_diameter, "root_diameter");
}
/// Of wood screws: 15,700 G^2 D, by the threaded length (Eq. 8-10).
[[nodiscard]] inline UltimatePerLength handbook_withdrawal_wood_screw(OvendryGravity gravity, Length diameter) {
    return detail::handbook_law({15700.0, 2.0, 1.0}, gravity.value(), diameter, "diameter");
}
/// Of lag screws: 8,100 G^1.5 D^0.75, by the threaded length (Eq. 8-14).
[[nodiscard]] inline UltimatePerLength handbook_withdrawal_lag_screw(OvendryGravity gravity, Length diameter) {
    return detail::handbook_law({8100.0, 1.5, 0.75}, gravity.value(), diameter, "diameter");
}
/// Of drift bolts: 6,600 G^2 D (Eq. 8-9).
[[nodiscard]] inline UltimatePerLength handbook_withdrawal_drift_bolt(OvendryGravity gravity, Length diameter) {
    return detail::handbook_law({6600.0, 2.0, 1.0}, gravity.value(), diameter, "diameter");
}

}  // namespace eavewright
