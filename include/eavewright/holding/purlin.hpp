// SPDX-License-Identifier: BSL-1.0
#pragma once

// A purlin over one bay, and its strength under one combination of loads: bent about one axis where the roof carries what pulls
// along the slope, about both where nothing does.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/bending.hpp>
#include <eavewright/holding/lateral_support.hpp>
#include <eavewright/holding/lumber_values.hpp>
#include <eavewright/holding/section.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/loads/combinations.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <optional>
#include <string_view>

namespace eavewright {

/// Who carries what pulls down the slope.
enum class WeakAxis {
    held_by_roof,    ///< usual steel roofing, within the published limit: `roof_may_hold_weak_axis`
    held_by_design,  ///< ties or a designed diaphragm: the caller's word, which the result repeats
    free,            ///< nobody but the purlin
};
template <>
struct NamesOf<WeakAxis> {
    static constexpr std::array<std::string_view, 3> list{"held_by_roof", "held_by_design", "free"};
};

/// A purlin as a simple span from truss to truss; laps and continuity are not counted on.
struct Purlin {
    WindEdition edition;  ///< of the combinations
    Pitch pitch;
    LumberGrade grade;
    NominalSize size;
    MemberSet set;
    Length bay;      ///< centre to centre of the trusses, 1 in to 100 ft
    Length spacing;  ///< along the slope, 1 in to 100 ft
    int members;     ///< purlins side by side that share loads
    bool joined;     ///< by sheathing or its like; with 3 of them up to 24 in apart it earns Cr
    WeakAxis weak_axis;
    LateralSupport support;
    RoofLoads loads;        ///< the dead loads with the purlin's own weight
    bool loads_unverified;  ///< a load rests on memory
    double live_limit;      ///< snow or roof live load sags it by bay / this at the most
    double total_limit;     ///< with the dead load, by bay / this at the most
};
inline void find_faults(const Purlin& p, const Path& path, Faults& faults) {
    constexpr Length least = Length::from_inches(1.0);
    detail::require_named(p.edition, Path{path, "edition"}, faults);
    detail::require_named(p.grade, Path{path, "grade"}, faults);
    find_faults(p.size, Path{path, "size"}, faults);
    detail::require_named(p.set, Path{path, "set"}, faults);
    require_within(p.bay, least, longest_span, Path{path, "bay"}, faults);
    require_within(p.spacing, least, longest_span, Path{path, "spacing"}, faults);
    detail::require_number(p.members, 1.0, 1e6, "", Path{path, "members"}, faults);
    detail::require_named(p.weak_axis, Path{path, "weak_axis"}, faults);
    if (p.support.bridging) {
        require_within(*p.support.bridging, least, longest_span, Path{path, "support.bridging"}, faults);
    }
    find_faults(p.loads, Path{path, "loads"}, faults);
    detail::require_number(p.live_limit, 1.0, 10000.0, "", Path{path, "live_limit"}, faults);
    detail::require_number(p.total_limit, 1.0, 10000.0, "", Path{path, "total_limit"}, faults);
    if (p.weak_axis == WeakAxis::held_by_roof && !roof_may_hold_weak_axis(p.pitch, p.bay, true)) {
        faults.push_back(Fault{FaultCode::not_supported, Path{path, "weak_axis"}.text(),
                               write_decimal(p.pitch.rise_in_12(), 3) + " in 12, bays of " + describe_length(p.bay),
                               "a slope of 4 in 12 and bays of 2.4 m at the most for the roof to hold the weak axis; "
                               "beyond that ties or blocking"});
    }
}

/// Strength under one combination. "Edgewise" bends the wide side, whichever way the purlin is set.
struct PurlinCase {
    CombinedLoad load;
    SimpleSpan normal;  ///< square to the slope; negative where it lifts
    SimpleSpan along;   ///< down the slope, on the purlin itself: 0 where the weak axis is held
    Pressure edgewise;  ///< fb1
    Pressure flatwise;  ///< fb2
    AdjustedBending edge_allowed;
    AdjustedBending flat_allowed;
    std::optional<BeamStability> stability;  ///< none where no squeezed edge needs it
    bool buckles;                            ///< a stress reaches its critical one: `bending_share` is then 1 or more
    double plain_share;                      ///< fb1 / F'b1 + fb2 / F'b2 with CL 1: no less is used
    double bending_share;                    ///< with stability and, both ways, AWC NDS 2018 Eq. 3.9-3
    Pressure shear;
    std::optional<Pressure> shear_allowed;  ///< Fv CD, none where Fv was not obtained
    double shear_share;                     ///< 0 where Fv was not obtained
    bool bending_unverified;
    bool shear_unverified;
    Verdict bending_verdict;
    Verdict shear_verdict;
};
template <>
struct FieldsOf<PurlinCase> {
    static constexpr auto list = field_list(
        field("load", FieldUnit::none, "what acts together", &PurlinCase::load),
        field("normal", FieldUnit::none, "square to the slope, negative where it lifts", &PurlinCase::normal),
        field("along", FieldUnit::none, "down the slope, 0 where the weak axis is held", &PurlinCase::along),
        field(
            "edgewise_psi", FieldUnit::ratio, "stress of edgewise bending in pounds per square inch",
            +[](const PurlinCase& c) { return psi(c.edgewise); }),
        field(
            "flatwise_psi", FieldUnit::ratio, "stress of flatwise bending in pounds per square inch",
            +[](const PurlinCase& c) { return psi(c.flatwise); }),
        field("edge_allowed", FieldUnit::none, "allowable edgewise, with its factors", &PurlinCase::edge_allowed),
        field("flat_allowed", FieldUnit::none, "allowable flatwise, with its factors", &PurlinCase::flat_allowed),
        field("stability", FieldUnit::none, "sideways buckling, null where none is to be looked at",
              &PurlinCase::stability),
        field("buckles", FieldUnit::none, "a stress reaches its critical one", &PurlinCase::buckles),
        field("plain_share", FieldUnit::ratio, "shares of bending added, without stability", &PurlinCase::plain_share),
        field("bending_share", FieldUnit::ratio, "share of the bending strength", &PurlinCase::bending_share),
        field(
            "shear_psi", FieldUnit::ratio, "shear stress at the support in pounds per square inch",
            +[](const PurlinCase& c) { return psi(c.shear); }),
        field(
            "shear_allowed_psi", FieldUnit::ratio, "allowable shear in pounds per square inch, 0 where not obtained",
            +[](const PurlinCase& c) { return c.shear_allowed ? psi(*c.shear_allowed) : 0.0; }),
        field("shear_share", FieldUnit::ratio, "share of the shear strength, 0 where not obtained",
              &PurlinCase::shear_share),
        field("bending_unverified", FieldUnit::none, "bending rests on memory", &PurlinCase::bending_unverified),
        field("shear_unverified", FieldUnit::none, "shear rests on memory", &PurlinCase::shear_unverified),
        field("bending_verdict", FieldUnit::none, "verdict on bending", &PurlinCase::bending_verdict),
        field("shear_verdict", FieldUnit::none, "verdict on shear", &PurlinCase::shear_verdict));
};

namespace detail {
/// A share against 1. Rounding of a last place does not decide.
[[nodiscard]] inline Verdict verdict_of_share(double share, bool unverified) {
    return unverified ? Verdict::no_verdict : share <= 1.0 + 1e-12 ? Verdict::holds : Verdict::fails;
}
[[nodiscard]] inline Moment unsigned_moment(Moment m) { return pound_inches(m) < 0.0 ? -m : m; }

/// Distance between what holds the squeezed edge, when the rule of depth to thickness does not.
[[nodiscard]] inline Length unsupported_length(const Purlin& p) {
    return p.support.bridging ? shorter(*p.support.bridging, p.bay) : p.bay;
}

/// Fills in the share of bending: CL where the squeezed edge is not held by the rule, both ways the interaction.
inline void judge_bending(const Purlin& p, const SectionProperties& shape, const LumberValues& values, PurlinCase& c) {
    const bool bent_on_edge = psi(c.edgewise) > 0.0;
    const bool both_ways = bent_on_edge && psi(c.flatwise) > 0.0;
    // What lifts squeezes the bottom edge, which the roof on top does not hold (NDS 4.4.1, the compression edge, from memory).
    LateralSupport there = p.support;
    there.one_edge_held = there.one_edge_held && !(p.set == MemberSet::on_edge && pound_inches(c.normal.moment) < 0.0);
    const bool needs_stability = bent_on_edge && !meets_lateral_need(there, lateral_need(p.size));
    if ((needs_stability || both_ways) && values.stable_elasticity) {
        c.stability = beam_stability(shape.section, unsupported_length(p), BeamLoading::uniform, c.edge_allowed.stress,
                                     values.stable_elasticity->value);
        c.bending_unverified = true;  // the effective length of a uniform load is from memory
        if (needs_stability) {
            c.edge_allowed.stability = c.stability->factor;
            c.edge_allowed.stress = c.edge_allowed.stress * c.stability->factor;
        }
    } else if (needs_stability || both_ways) {
        c.bending_unverified = true;
    }
    c.bending_share = psi(c.edgewise) / psi(c.edge_allowed.stress) + psi(c.flatwise) / psi(c.flat_allowed.stress);
    if (both_ways && c.stability) {
        const Pressure none = pressure_from_psi(0.0);
        const Interaction used = two_way_interaction({none, c.edgewise, c.flatwise, none, c.edge_allowed.stress,
                                                      c.flat_allowed.stress, none, none, c.stability->critical});
        c.buckles = used.buckles;
        const double of_critical = psi(c.edgewise) / psi(c.stability->critical);  // 1 or more where it buckles
        c.bending_share = !used.buckles ? used.share : c.bending_share < of_critical ? of_critical : c.bending_share;
    }
}
}  // namespace detail

/// Strength of a purlin under one combination. Shear at the support's centre, 3 V / 2 A. Throws `FaultError`: first fault of
/// `purlin`, not_supported for a size without values, out_of_range where a squeezed edge that nothing holds is too slender for the
/// standard. Shown with `holding_caution`.
[[nodiscard]] inline PurlinCase purlin_case(const Purlin& purlin, const CombinedLoad& load) {
    require_sound(purlin, "purlin");
    const SectionProperties shape = section_properties(dressed_section(purlin.size, Seasoning::dry));
    const LumberValues values = lumber_values(purlin.grade, purlin.size);
    const double CD = load.factors.wood_duration;
    const double Cr = repetitive_factor({purlin.members, purlin.spacing, purlin.joined});
    const bool on_edge = purlin.set == MemberSet::on_edge;
    const SimpleSpan normal = simple_span(load.normal * purlin.spacing, purlin.bay);
    const SimpleSpan along =
        simple_span(load.along * purlin.spacing * (purlin.weak_axis == WeakAxis::free ? 1.0 : 0.0), purlin.bay);
    const Moment square = detail::unsigned_moment(normal.moment);
    PurlinCase c{.load = load,
                 .normal = normal,
                 .along = along,
                 .edgewise = bending_stress(on_edge ? square : along.moment, shape.edge_modulus),
                 .flatwise = bending_stress(on_edge ? along.moment : square, shape.flat_modulus),
                 .edge_allowed = adjusted_bending(purlin.grade, purlin.size, MemberSet::on_edge, CD, Cr),
                 .flat_allowed = adjusted_bending(purlin.grade, purlin.size, MemberSet::flat, CD, Cr),
                 .stability = {},
                 .buckles = false,
                 .plain_share = 0.0,
                 .bending_share = 0.0,
                 .shear = pressure_from_psi(0.0),
                 .shear_allowed = {},
                 .shear_share = 0.0,
                 .bending_unverified = false,
                 .shear_unverified = true,
                 .bending_verdict = Verdict::no_verdict,
                 .shear_verdict = Verdict::no_verdict};
    const bool loads_unverified = purlin.loads_unverified || load.factors.unverified;
    const bool values_unverified =
        (psi(c.edgewise) > 0.0 && c.edge_allowed.unverified) || (psi(c.flatwise) > 0.0 && c.flat_allowed.unverified);
    c.bending_unverified = loads_unverified || values_unverified;
    const bool plain_unverified = c.bending_unverified;
    c.plain_share = psi(c.edgewise) / psi(c.edge_allowed.stress) + psi(c.flatwise) / psi(c.flat_allowed.stress);
    detail::judge_bending(purlin, shape, values, c);
    const bool fails_anyway = detail::verdict_of_share(c.plain_share, plain_unverified) == Verdict::fails;
    c.bending_verdict = fails_anyway ? Verdict::fails : detail::verdict_of_share(c.bending_share, c.bending_unverified);
    const double V = std::hypot(pounds_force(normal.reaction), pounds_force(along.reaction));
    c.shear = rectangle_shear_stress(force_from_pounds(V), shape.area);
    if (values.shear) {
        c.shear_allowed = values.shear->value * CD;
        c.shear_share = psi(c.shear) / psi(*c.shear_allowed);
        c.shear_unverified = loads_unverified || values.shear->unverified;
        c.shear_verdict = detail::verdict_of_share(c.shear_share, c.shear_unverified);
    }
    return c;
}

}  // namespace eavewright
