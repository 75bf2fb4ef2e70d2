// SPDX-License-Identifier: BSL-1.0
#pragma once

// One fastener pulled and pushed sideways at once.

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <string>
#include <string_view>

namespace eavewright {

/// Which rule joins the two strengths.
enum class CombinedRule {
    nails,   ///< NDS 2018 12.4-2: cosine and sine
    screws,  ///< wood screws and lag screws, 12.4-1: their squares
};
template <>
struct NamesOf<CombinedRule> {
    static constexpr std::array<std::string_view, 2> list{"nails", "screws"};
};

/// The allowable strength of one fastener against a load on the slant.
struct Combined {
    CombinedRule rule;
    std::string_view equation;
    Angle angle;                ///< between the load and the wood's surface: 0 is sideways, 90 degrees straight out
    AllowableForce withdrawal;  ///< W' p
    AllowableForce lateral;     ///< Z'
    AllowableForce force;
    bool unverified;
};
template <>
struct FieldsOf<Combined> {
    static constexpr auto list = field_list(
        field("rule", FieldUnit::none, "which rule joins them", &Combined::rule),
        field("equation", FieldUnit::none, "its number", &Combined::equation),
        field("angle", FieldUnit::angle, "between the load and the wood's surface", &Combined::angle),
        field(
            "withdrawal_pounds", FieldUnit::ratio, "allowable withdrawal in pounds",
            +[](const Combined& c) { return pounds_force(c.withdrawal); }),
        field(
            "lateral_pounds", FieldUnit::ratio, "allowable lateral value in pounds",
            +[](const Combined& c) { return pounds_force(c.lateral); }),
        field(
            "allowable_pounds", FieldUnit::ratio, "allowable strength at that angle in pounds",
            +[](const Combined& c) { return pounds_force(c.force); }),
        field("unverified", FieldUnit::none, "rests on memory or on an assumption", &Combined::unverified),
        field(
            "caution", FieldUnit::none, "to be read with it", +[](const Combined&) { return holding_power_caution; }));
};

/// W'p Z' / (W'p cos a + Z' sin a) for nails, with the squares of cosine and sine for screws: NDS 2018 12.4. Head pull-through is
/// no part of it and is judged apart. Throws `FaultError`: out_of_range or not_finite for an angle outside 0 to 90 degrees or
/// where either strength is nothing, not_supported for an edition that was not read.
[[nodiscard]] inline Combined combine(AllowableForce withdrawal, AllowableForce lateral, Angle angle, CombinedRule rule,
                                      NdsEdition edition) {
    detail::require_2018(edition, "12.4 is of NDS 2018");
    detail::require_range(degrees(angle), 0.0, 90.0, "angle", "degrees from the wood's surface");
    const double w = pounds_force(withdrawal);
    const double z = pounds_force(lateral);
    if (!(w > 0.0 && z > 0.0)) {
        throw FaultError{Fault{FaultCode::out_of_range, w > 0.0 ? "lateral" : "withdrawal", "0 lb", "more than 0 lb"}};
    }
    const bool nails = rule == CombinedRule::nails;
    const double cosine = std::cos(radians(angle));
    const double sine = std::sin(radians(angle));
    const double joined = w * z / (w * (nails ? cosine : cosine * cosine) + z * (nails ? sine : sine * sine));
    return Combined{.rule = rule,
                    .equation = nails ? "12.4-2" : "12.4-1",
                    .angle = angle,
                    .withdrawal = withdrawal,
                    .lateral = lateral,
                    .force = AllowableForce::of(force_from_pounds(joined)),
                    .unverified = false};
}

/// The same of two adjusted strengths of one nail; what either rests on is carried. Throws as above, contradiction where the
/// first is no nail's withdrawal or the second no nail's lateral value.
[[nodiscard]] inline Combined combine(const Adjusted& withdrawal, const Adjusted& lateral, Angle angle) {
    const Resistance out = withdrawal.factors.resistance;
    const bool nail = out == Resistance::nail_withdrawal || out == Resistance::ring_nail_withdrawal;
    if (!nail || lateral.factors.resistance != Resistance::nail_lateral) {
        throw FaultError{Fault{FaultCode::contradiction, nail ? "lateral" : "withdrawal",
                               std::string{name_of(nail ? lateral.factors.resistance : out)},
                               "the withdrawal and the lateral value of a nail"}};
    }
    Combined both = combine(withdrawal.force, lateral.force, angle, CombinedRule::nails, withdrawal.factors.edition);
    both.unverified = withdrawal.unverified || lateral.unverified;
    return both;
}

}  // namespace eavewright
