// SPDX-License-Identifier: BSL-1.0
#pragma once

// What one nail holds sideways: where it bears, and the least of its yield modes there.

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/fastening/wood_gravity.hpp>
#include <eavewright/fastening/yield_modes.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <optional>
#include <string>
#include <variant>

namespace eavewright {

/// A nail through a side member into a main one of wood.
struct NailJoint {
    Length side_thickness;
    std::variant<OvendryGravity, Pressure> side;  ///< wood, or the bearing strength of a metal side plate
    Length main_thickness;
    OvendryGravity main;
    Grain grain = Grain::side;                             ///< of the main member
    std::optional<Pressure> bending_yield = std::nullopt;  ///< of the nail; none: by its steel and diameter
    bool toe_nailed = false;  ///< driven at 30 degrees, started a third of its length from the member's end
};
inline void find_faults(const NailJoint& joint, const Path& path, Faults& faults) {
    require_within(joint.side_thickness, one_inch / 64.0, 12.0 * one_inch, Path{path, "side_thickness"}, faults);
    require_within(joint.main_thickness, one_inch / 8.0, 48.0 * one_inch, Path{path, "main_thickness"}, faults);
}

/// What one nail holds sideways.
struct NailLateral {
    NdsEdition edition;
    Length penetration;            ///< into the main member, tip included
    double penetration_diameters;  ///< the same in nail diameters; 6 at least
    DowelJoint joint;              ///< bearing lengths and strengths
    YieldModes modes;              ///< with these bearing lengths
    std::optional<ReferenceForce>
        by_penetration;    ///< below 10 diameters: the value at 10 by p/10D, as the tables' footnote
    ReferenceForce force;  ///< the lesser of both
    Grain grain;
    bool toe_nailed;
    bool unverified;
};
template <>
struct FieldsOf<NailLateral> {
    static constexpr auto list = field_list(
        field("edition", FieldUnit::none, "edition of the design standard", &NailLateral::edition),
        field("penetration", FieldUnit::length, "into the main member, tip included", &NailLateral::penetration),
        field("penetration_diameters", FieldUnit::ratio, "the same in nail diameters",
              &NailLateral::penetration_diameters),
        field(
            "main_bearing", FieldUnit::length, "bearing length in the main member",
            +[](const NailLateral& n) { return n.joint.main.length; }),
        field(
            "side_bearing", FieldUnit::length, "bearing length in the side member",
            +[](const NailLateral& n) { return n.joint.side.length; }),
        field(
            "main_bearing_psi", FieldUnit::ratio, "dowel bearing strength of the main member in psi",
            +[](const NailLateral& n) { return psi(n.joint.main.strength); }),
        field(
            "side_bearing_psi", FieldUnit::ratio, "dowel bearing strength of the side member in psi",
            +[](const NailLateral& n) { return psi(n.joint.side.strength); }),
        field(
            "bending_yield_psi", FieldUnit::ratio, "bending yield strength of the nail in psi",
            +[](const NailLateral& n) { return psi(n.joint.bending_yield); }),
        field("modes", FieldUnit::none, "the yield modes", &NailLateral::modes),
        field(
            "by_penetration_pounds", FieldUnit::ratio,
            "value at ten diameters by p/10D in pounds, null at ten and more",
            +[](const NailLateral& n) {
                return n.by_penetration ? std::optional<double>{pounds_force(*n.by_penetration)} : std::nullopt;
            }),
        field(
            "reference_pounds", FieldUnit::ratio, "reference lateral value of one nail in pounds",
            +[](const NailLateral& n) { return pounds_force(n.force); }),
        field("grain", FieldUnit::none, "how the main member's fibres lie", &NailLateral::grain),
        field("toe_nailed", FieldUnit::none, "driven slantwise", &NailLateral::toe_nailed),
        field("unverified", FieldUnit::none, "rests on memory", &NailLateral::unverified),
        field(
            "caution", FieldUnit::none, "to be read with it",
            +[](const NailLateral&) { return holding_power_caution; }));
};

namespace detail {
/// Where a nail bears, and how deep it is.
struct NailReach {
    Length side;
    Length main;
    Length penetration;
};
[[nodiscard]] inline NailReach nail_reach(const NailShank& nail, const NailJoint& joint) {
    if (joint.toe_nailed) {  // 12.3.10.2, and for the main member commentary C12.5.4-1, from memory
        const Length third = nail.length / 3.0;
        const Length deep = nail.length * (std::sqrt(3.0) / 2.0) - third;
        const Length main = shorter(deep, joint.main_thickness);
        return {shorter(joint.side_thickness, third), main, main};
    }
    const Length deep = nail.length - joint.side_thickness;
    const Length penetration = shorter(deep, joint.main_thickness);
    // 12.3.5.3: where the tapered tip, 2 D, is in the member, half of what is in it does not bear.
    const Length tip_past = longer(no_length, deep - joint.main_thickness);
    const Length tip_within = longer(no_length, 2.0 * nail.diameter - tip_past);
    return {joint.side_thickness, penetration - tip_within / 2.0, penetration};
}
}  // namespace detail

/// What one nail below 1/4 in holds sideways in single shear, its axis square to the load. The penetration is at least 6 D, tip
/// included (NDS 2018 12.1.6.4). Below 10 D the tables' footnote takes the value at 10 D by p/10D, or a calculation with the
/// bearing lengths that there are: here the lesser of both. D is the nominal diameter of ring shanks too
/// (12.3.7.1). That, and the bearing lengths of toe-nails, are from memory and `unverified`.
/// Throws `FaultError`: the first fault of an input, does_not_fit for less than 6 D, out_of_range for D of 1/4 in and more or
/// outside Table I1, missing_field for a nail of unknown steel without a bending yield strength, not_supported for an edition
/// that was not read. Shown with `holding_power_caution`.
[[nodiscard]] inline NailLateral nail_lateral(const NailShank& nail, const NailJoint& joint, NdsEdition edition) {
    require_sound(nail, "nail");
    require_sound(joint, "joint");
    if (!joint.bending_yield && !nail.steel) {
        throw FaultError{
            Fault{FaultCode::missing_field, "joint.bending_yield", "", "a figure for a nail of unknown steel"}};
    }
    const detail::NailReach reach = detail::nail_reach(nail, joint);
    const double diameters = reach.penetration / nail.diameter;
    if (reach.penetration + count_tolerance < 6.0 * nail.diameter) {
        throw FaultError{Fault{FaultCode::does_not_fit, "joint", describe_length(reach.penetration),
                               "a penetration of 6 diameters or more, " + describe_length(6.0 * nail.diameter)}};
    }
    const OvendryGravity* const wood = std::get_if<OvendryGravity>(&joint.side);
    const Pressure side = wood != nullptr ? dowel_bearing(*wood, edition) : std::get<Pressure>(joint.side);
    DowelJoint dowel{.diameter = nail.diameter,
                     .bending_yield = joint.bending_yield ? *joint.bending_yield
                                                          : nail_bending_yield(*nail.steel, nail.diameter, edition),
                     .main = {reach.main, dowel_bearing(joint.main, edition)},
                     .side = {reach.side, side}};
    const YieldModes modes = yield_modes(dowel, edition);
    NailLateral lateral{.edition = edition,
                        .penetration = reach.penetration,
                        .penetration_diameters = diameters,
                        .joint = dowel,
                        .modes = modes,
                        .by_penetration = std::nullopt,
                        .force = modes.least,
                        .grain = joint.grain,
                        .toe_nailed = joint.toe_nailed,
                        .unverified = joint.toe_nailed || nail.shank != Shank::smooth};
    if (reach.penetration + count_tolerance < 10.0 * nail.diameter) {
        dowel.main.length = 10.0 * nail.diameter;
        const double share = diameters / 10.0;
        const ReferenceForce scaled =
            ReferenceForce::of(force_from_pounds(pounds_force(yield_modes(dowel, edition).least) * share));
        lateral.by_penetration = scaled;
        lateral.force = scaled < modes.least ? scaled : modes.least;
    }
    return lateral;
}

/// The allowable lateral value of a use. Throws as `use_factors`, contradiction where the use and the joint do not agree on
/// toe-nailing.
[[nodiscard]] inline Adjusted adjust(const NailLateral& lateral, const UseConditions& use) {
    if (use.toe_nailed != lateral.toe_nailed) {
        throw FaultError{Fault{FaultCode::contradiction, "use.toe_nailed", use.toe_nailed ? "true" : "false",
                               "as the joint, whose bearing lengths depend on it"}};
    }
    return detail::adjusted(lateral.force, use_factors(Resistance::nail_lateral, lateral.grain, use, lateral.edition),
                            lateral.unverified);
}

}  // namespace eavewright
