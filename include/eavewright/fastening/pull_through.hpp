// SPDX-License-Identifier: BSL-1.0
#pragma once

// What it takes to pull the sheet over the nail's head.

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/fastening/wood_gravity.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <string_view>

namespace eavewright {

/// Reference head pull-through of one nail with a round head.
struct PullThrough {
    NdsEdition edition;
    std::string_view equation;
    Length head;
    Length thickness;          ///< net, of what is held down
    Length thickness_counted;  ///< no more than 2.5 heads of it
    double gravity;            ///< of what is held down, ovendry weight and volume
    ReferenceForce force;
    bool unverified;
};
template <>
struct FieldsOf<PullThrough> {
    static constexpr auto list = field_list(
        field("edition", FieldUnit::none, "edition of the design standard", &PullThrough::edition),
        field("equation", FieldUnit::none, "number of the equation in that edition", &PullThrough::equation),
        field("head", FieldUnit::length, "diameter of the head", &PullThrough::head),
        field("thickness", FieldUnit::length, "net, of what is held down", &PullThrough::thickness),
        field("thickness_counted", FieldUnit::length, "no more than 2.5 heads of it", &PullThrough::thickness_counted),
        field("gravity", FieldUnit::ratio, "specific gravity of what is held down, ovendry", &PullThrough::gravity),
        field(
            "reference_pounds", FieldUnit::ratio, "reference head pull-through in pounds",
            +[](const PullThrough& p) { return pounds_force(p.force); }),
        field("unverified", FieldUnit::none, "rests on memory", &PullThrough::unverified),
        field(
            "caution", FieldUnit::none, "to be read with it",
            +[](const PullThrough&) { return holding_power_caution; }));
};

/// Reference head pull-through: 690 pi D_H G^2 t for a thickness up to 2.5 heads, 1725 pi D_H^2 G^2 for more, which meet there.
/// NDS 2018 12.2-6a and b, 12.2.5, from memory, so `unverified`; G is that of the sheet or board held down. Heads 0.234 to
/// 0.500 in, net thickness 5/16 to 1-1/2 in (Table 12.2F), G 0.31 to 0.73. Throws `FaultError`: missing_field for a head that
/// is not known, out_of_range outside the table, not_supported for the edition before, which has none.
[[nodiscard]] inline PullThrough pull_through(const NailShank& nail, Length thickness, OvendryGravity held_down,
                                              NdsEdition edition) {
    require_sound(nail, "nail");
    detail::require_2018(edition, "head pull-through came in with NDS 2018");
    if (!nail.head) {
        throw FaultError{Fault{FaultCode::missing_field, "nail.head", "", "the diameter of the head"}};
    }
    const Length head = *nail.head;
    detail::require_range(inches(head), 0.234, 0.5, "nail.head", "NDS Table 12.2F");
    detail::require_range(inches(thickness), 5.0 / 16.0, 1.5, "thickness", "NDS Table 12.2F");
    detail::require_range(held_down.ratio(), 0.31, 0.73, "specific_gravity", "NDS Table 12.3.3A");
    const bool thin = thickness <= 2.5 * head;
    const Length counted = thin ? thickness : 2.5 * head;
    const double squared = held_down.ratio() * held_down.ratio();
    return PullThrough{
        .edition = edition,
        .equation = thin ? "12.2-6a" : "12.2-6b",
        .head = head,
        .thickness = thickness,
        .thickness_counted = counted,
        .gravity = held_down.ratio(),
        .force = ReferenceForce::of(force_from_pounds(690.0 * pi * squared * square_inches(head * counted))),
        .unverified = true};
}

/// The allowable head pull-through of a use: duration, moisture and heat alone (NDS 2018 Table 11.3.1). Throws as
/// `use_factors`.
[[nodiscard]] inline Adjusted adjust(const PullThrough& p, const UseConditions& use) {
    return detail::adjusted(p.force, use_factors(Resistance::head_pull_through, Grain::side, use, p.edition),
                            p.unverified);
}

}  // namespace eavewright
