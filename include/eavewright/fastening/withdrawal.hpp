// SPDX-License-Identifier: BSL-1.0
#pragma once

// What it takes to pull one nail or screw out of side grain, as a design standard's reference value.
//
// The equations are fitted to tests within a range of woods and diameters, and are refused outside it.

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/bite.hpp>
#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/screw_sizes.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/fastening/wood_gravity.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <string>
#include <string_view>

namespace eavewright {

/// Reference withdrawal by length of bite: W = coefficient G^gravity_power D^diameter_power, pounds an inch, D in inches.
struct WithdrawalValue {
    NdsEdition edition;
    std::string_view equation;  ///< its number in that edition
    Resistance resistance;
    Grain grain;
    double coefficient;
    double gravity_power;
    double diameter_power;
    double gravity;  ///< ovendry weight and volume
    Length diameter;
    ReferenceLineLoad by_length;
    bool unverified;
};
template <>
struct FieldsOf<WithdrawalValue> {
    static constexpr auto list = field_list(
        field("edition", FieldUnit::none, "edition of the design standard", &WithdrawalValue::edition),
        field("equation", FieldUnit::none, "number of the equation in that edition", &WithdrawalValue::equation),
        field("resistance", FieldUnit::none, "what resists", &WithdrawalValue::resistance),
        field("grain", FieldUnit::none, "how the fibres lie", &WithdrawalValue::grain),
        field("coefficient", FieldUnit::ratio, "of the equation, for pounds and inches", &WithdrawalValue::coefficient),
        field("gravity_power", FieldUnit::ratio, "power of the specific gravity", &WithdrawalValue::gravity_power),
        field("diameter_power", FieldUnit::ratio, "power of the diameter", &WithdrawalValue::diameter_power),
        field("gravity", FieldUnit::ratio, "specific gravity, ovendry weight and volume", &WithdrawalValue::gravity),
        field("diameter", FieldUnit::length, "of the fastener", &WithdrawalValue::diameter),
        field(
            "pounds_per_inch", FieldUnit::ratio, "reference withdrawal in pounds an inch of bite",
            +[](const WithdrawalValue& w) { return pounds_per_inch(w.by_length); }),
        field("unverified", FieldUnit::none, "rests on memory", &WithdrawalValue::unverified));
};

/// Reference withdrawal of one fastener.
struct Withdrawal {
    WithdrawalValue value;
    Bite bite;
    ReferenceForce force;
    bool unverified;  ///< the value, or the bite
};
template <>
struct FieldsOf<Withdrawal> {
    static constexpr auto list = field_list(
        field("value", FieldUnit::none, "reference withdrawal by length of bite", &Withdrawal::value),
        field("bite", FieldUnit::none, "what of it is in the wood", &Withdrawal::bite),
        field(
            "reference_pounds", FieldUnit::ratio, "reference withdrawal of one fastener in pounds",
            +[](const Withdrawal& w) { return pounds_force(w.force); }),
        field("unverified", FieldUnit::none, "rests on memory or on an assumption", &Withdrawal::unverified),
        field(
            "caution", FieldUnit::none, "to be read with it", +[](const Withdrawal&) { return holding_power_caution; }),
        field(
            "shank_caution", FieldUnit::none, "to be read with a smooth shank, else empty", +[](const Withdrawal& w) {
                return w.value.resistance == Resistance::nail_withdrawal ? smooth_shank_caution : std::string_view{};
            }));
};

namespace detail {
/// The equation, its number and the range that it holds in.
struct WithdrawalEquation {
    std::string_view number;
    Resistance resistance;
    double coefficient;
    double gravity_power;
    double diameter_power;
    double thinnest;
    double thickest;
    std::string_view range;
    bool unverified;
};

[[nodiscard]] inline WithdrawalValue evaluate(const WithdrawalEquation& e, Length diameter, OvendryGravity gravity,
                                              Grain grain, NdsEdition edition) {
    (void)end_grain_factor(e.resistance, grain);  // refuses what may not be loaded from end grain
    require_range(gravity.ratio(), 0.31, 0.73, "specific_gravity", "NDS Tables 12.2A to 12.2E");
    require_range(inches(diameter), e.thinnest, e.thickest, "diameter", e.range);
    const double w =
        e.coefficient * std::pow(gravity.ratio(), e.gravity_power) * std::pow(inches(diameter), e.diameter_power);
    return WithdrawalValue{.edition = edition,
                           .equation = e.number,
                           .resistance = e.resistance,
                           .grain = grain,
                           .coefficient = e.coefficient,
                           .gravity_power = e.gravity_power,
                           .diameter_power = e.diameter_power,
                           .gravity = gravity.ratio(),
                           .diameter = diameter,
                           .by_length = ReferenceLineLoad::of(LineLoad::from_value(w)),
                           .unverified = e.unverified};
}

[[nodiscard]] inline WithdrawalEquation smooth_equation(const NailShank& nail, NdsEdition edition) {
    constexpr std::string_view range = "NDS Table 12.2C";
    const bool now = edition == NdsEdition::nds_2018;
    if (!nail.steel) {
        throw FaultError{Fault{FaultCode::missing_field, "nail.steel", "", "carbon, hardened or stainless"}};
    }
    if (*nail.steel == NailSteel::stainless) {
        if (!now) {
            refuse_edition(edition, "smooth stainless nails came in with NDS 2018");
        }
        return {"12.2-4", Resistance::nail_withdrawal, 465.0, 1.5, 1.0, 0.092, 0.375, range, false};
    }
    return {"12.2-3", Resistance::nail_withdrawal, 1380.0, 2.5, 1.0, 0.092, 0.375, range, !now};
}

[[nodiscard]] inline WithdrawalEquation ring_equation(const NailShank& nail, NdsEdition edition) {
    const bool now = edition == NdsEdition::nds_2018;
    const bool sheathing = nail.shank == Shank::roof_sheathing_ring;
    if (nail.shank == Shank::other_ring || nail.steel == NailSteel::stainless) {
        throw FaultError{
            Fault{FaultCode::not_supported, "nail.shank",
                  std::string{name_of(nail.shank)} + (nail.steel == NailSteel::stainless ? " of stainless steel" : ""),
                  "a carbon steel roof sheathing or post-frame ring shank nail of ASTM F1667"}};
    }
    if (sheathing && !now) {
        refuse_edition(edition, "roof sheathing ring shank nails came in with NDS 2018");
    }
    return {now ? "12.2-5" : "12.2-4",
            Resistance::ring_nail_withdrawal,
            1800.0,
            2.0,
            1.0,
            0.113,
            0.207,
            "roof sheathing and post-frame ring shank nails",
            !now};
}
}  // namespace detail

/// Reference withdrawal of a nail by length of bite. Smooth carbon steel 1380 G^2.5 D, smooth stainless 465 G^1.5 D, roof
/// sheathing and post-frame ring shank 1800 G^2 D: NDS 2018 12.2-3, 12.2-4, 12.2-5 (read in page-cited transcriptions; the
/// printed tables round to 1 lb an inch). In the 2015 edition ring shank is 12.2-4, and its figures are unverified.
/// G 0.31 to 0.73, D 0.092 to 0.375 in (ring shank 0.113 to 0.207). Throws `FaultError`: out_of_range outside these,
/// not_supported for end grain, other ring shanks and what an edition does not have, missing_field for a smooth nail of unknown
/// steel. Shown with `holding_power_caution`, a smooth one with `smooth_shank_caution` as well.
[[nodiscard]] inline WithdrawalValue withdrawal_value(const NailShank& nail, OvendryGravity gravity, Grain grain,
                                                      NdsEdition edition) {
    require_sound(nail, "nail");
    const detail::WithdrawalEquation equation =
        nail.shank == Shank::smooth ? detail::smooth_equation(nail, edition) : detail::ring_equation(nail, edition);
    return detail::evaluate(equation, nail.diameter, gravity, grain, edition);
}

/// Reference withdrawal of a wood screw, 2850 G^2 D, or a lag screw, 1800 G^1.5 D^0.75, by length of thread in the wood:
/// NDS 2018 12.2-2 and 12.2-1. G 0.31 to 0.73; wood screws No. 6 to 24 (0.138 to 0.372 in), lag screws 1/4 to 1-1/4 in. A lag
/// screw may be in end grain. The screw's own tension is not checked. Throws as for a nail.
[[nodiscard]] inline WithdrawalValue withdrawal_value(const ScrewShank& screw, OvendryGravity gravity, Grain grain,
                                                      NdsEdition edition) {
    require_sound(screw, "screw");
    detail::require_2018(edition, "wood and lag screws in NDS 2018");
    const detail::WithdrawalEquation wood{
        "12.2-2", Resistance::wood_screw_withdrawal, 2850.0, 2.0, 1.0, 0.138, 0.372, "NDS Table 12.2B", false};
    const detail::WithdrawalEquation lag{"12.2-1", Resistance::lag_withdrawal, 1800.0, 1.5, 0.75, 0.25,
                                         1.25,     "NDS Table 12.2A",          false};
    return detail::evaluate(screw.kind == ScrewKind::lag_screw ? lag : wood, screw.diameter, gravity, grain, edition);
}

/// A reference value over the bite of its fastener.
[[nodiscard]] inline Withdrawal withdrawal_over(const WithdrawalValue& value, const Bite& bite) {
    return Withdrawal{value, bite, value.by_length * bite.length, value.unverified || bite.unverified};
}

/// Reference withdrawal of one nail or screw as it is driven. Throws as `withdrawal_value` and `bite_of`.
[[nodiscard]] inline Withdrawal withdrawal(const NailShank& nail, const Drive& drive, OvendryGravity gravity,
                                           Grain grain, NdsEdition edition) {
    return withdrawal_over(withdrawal_value(nail, gravity, grain, edition), bite_of(nail, drive));
}
[[nodiscard]] inline Withdrawal withdrawal(const ScrewShank& screw, const Drive& drive, OvendryGravity gravity,
                                           Grain grain, NdsEdition edition) {
    return withdrawal_over(withdrawal_value(screw, gravity, grain, edition), bite_of(screw, drive));
}

/// The allowable withdrawal of a use. The bite of a toe-nail is what of it is in the member that holds the point.
/// Throws as `use_factors`.
[[nodiscard]] inline Adjusted adjust(const Withdrawal& w, const UseConditions& use) {
    return detail::adjusted(w.force, use_factors(w.value.resistance, w.value.grain, use, w.value.edition),
                            w.unverified);
}

}  // namespace eavewright
