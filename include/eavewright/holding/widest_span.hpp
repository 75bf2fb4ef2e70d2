// SPDX-License-Identifier: BSL-1.0
#pragma once

// How far a joist, rafter or purlin may reach, and how far apart it may stand, by the method of the printed span tables: bending
// under the whole load, sag under the live load alone, a simple span. Spans of rafters are read level: along the slope they are
// longer by the slope factor.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/bending.hpp>
#include <eavewright/holding/lumber_values.hpp>
#include <eavewright/holding/section.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <array>
#include <string_view>

namespace eavewright {

/// A member that is carried by the table's method.
struct SpanMember {
    LumberGrade grade;
    NominalSize size;
    MemberSet set;
    int members;              ///< how many share the load side by side
    bool joined;              ///< by what spreads load between them; with 3 of them up to 24 in apart it earns Cr
    Pressure live;            ///< live or snow load on the level (a purlin: square to the slope), to 1000 psf
    Pressure dead;            ///< dead load of the same area, to 1000 psf
    double duration;          ///< CD of the live load: 1.0 floor, 1.15 snow, 1.25 roof live
    double deflection_limit;  ///< the live load sags it by span / this at the most: 180, 240, 360
};
inline void find_faults(const SpanMember& m, const Path& path, Faults& faults) {
    detail::require_named(m.grade, Path{path, "grade"}, faults);
    find_faults(m.size, Path{path, "size"}, faults);
    detail::require_named(m.set, Path{path, "set"}, faults);
    detail::require_number(m.members, 1.0, 1e6, "", Path{path, "members"}, faults);
    detail::require_number(psf(m.live), 1e-6, 1000.0, " psf", Path{path, "live"}, faults);
    detail::require_number(psf(m.dead), 0.0, 1000.0, " psf", Path{path, "dead"}, faults);
    detail::require_number(m.duration, 0.9, 2.0, "", Path{path, "duration"}, faults);
    detail::require_number(m.deflection_limit, 1.0, 10000.0, "", Path{path, "deflection_limit"}, faults);
}

/// What ends a span.
enum class SpanLimit { bending, deflection };
template <>
struct NamesOf<SpanLimit> {
    static constexpr std::array<std::string_view, 2> list{"bending", "deflection"};
};

/// The longest span of a member at one spacing.
struct WidestSpan {
    Length spacing;
    AdjustedBending allowed;  ///< F'b with its factors
    LumberValue elasticity;   ///< E
    Length by_bending;
    Length by_deflection;
    Length span;     ///< the shorter of the two; level for a rafter
    Length printed;  ///< to the nearest inch, as tables print it: up to half an inch beyond `span`
    SpanLimit governs;
    bool unverified;  ///< a value rests on memory
};
template <>
struct FieldsOf<WidestSpan> {
    static constexpr auto list = field_list(
        field("spacing", FieldUnit::length, "centre to centre", &WidestSpan::spacing),
        field("allowed", FieldUnit::none, "allowable bending stress with its factors", &WidestSpan::allowed),
        field("elasticity", FieldUnit::none, "E", &WidestSpan::elasticity),
        field("by_bending", FieldUnit::length, "span that bending allows", &WidestSpan::by_bending),
        field("by_deflection", FieldUnit::length, "span that sag allows", &WidestSpan::by_deflection),
        field("span", FieldUnit::length, "longest span, level for a rafter", &WidestSpan::span),
        field("printed", FieldUnit::length, "to the nearest inch", &WidestSpan::printed),
        field("governs", FieldUnit::none, "what ends it", &WidestSpan::governs),
        field("unverified", FieldUnit::none, "rests on memory", &WidestSpan::unverified),
        field(
            "caution", FieldUnit::none, "to be read with it", +[](const WidestSpan&) { return holding_caution; }));
};

namespace detail {
/// The shape that resists, as the member is set.
struct BentShape {
    Volume modulus;
    SecondMoment second;
};
[[nodiscard]] inline BentShape bent_shape(const SectionProperties& p, MemberSet set) {
    return set == MemberSet::on_edge ? BentShape{p.edge_modulus, p.edge_second}
                                     : BentShape{p.flat_modulus, p.flat_second};
}
inline void require_spacing(Length spacing) {
    Faults faults;
    require_within(spacing, Length::from_inches(1.0), longest_span, Path{"spacing"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
}
}  // namespace detail

/// Longest span at a spacing (1 in to 100 ft): bending under live and dead load, sag under live load alone. Shear, bearing, creep
/// and what holds the squeezed edge are not looked at, as in the tables. Throws `FaultError` with the first fault of `member`,
/// not_supported for a size without values. Shown with `holding_caution`.
[[nodiscard]] inline WidestSpan widest_span(const SpanMember& member, Length spacing) {
    require_sound(member, "member");
    detail::require_spacing(spacing);
    const double Cr = repetitive_factor({member.members, spacing, member.joined});
    const AdjustedBending allowed = adjusted_bending(member.grade, member.size, member.set, member.duration, Cr);
    const LumberValue E = lumber_values(member.grade, member.size).elasticity;
    const detail::BentShape shape =
        detail::bent_shape(section_properties(dressed_section(member.size, Seasoning::dry)), member.set);
    const Length bending = span_at_stress((member.live + member.dead) * spacing, shape.modulus, allowed.stress);
    const Length sag = span_at_deflection(member.live * spacing, E.value, shape.second, member.deflection_limit);
    const Length span = shorter(bending, sag);
    return {spacing,
            allowed,
            E,
            bending,
            sag,
            span,
            round_to_tick(span, Tick::of_inch(1)),
            bending <= sag ? SpanLimit::bending : SpanLimit::deflection,
            allowed.unverified || E.unverified};
}

/// The widest spacing of members over a span.
struct WidestSpacing {
    Length span;
    double repetitive;  ///< Cr that the spacing earns
    Length by_bending;
    Length by_deflection;
    Length spacing;  ///< the narrower of the two, 100 ft at the most
    SpanLimit governs;
    bool unverified;
};
template <>
struct FieldsOf<WidestSpacing> {
    static constexpr auto list = field_list(
        field("span", FieldUnit::length, "between supports, level for a rafter", &WidestSpacing::span),
        field("repetitive", FieldUnit::ratio, "repetitive member factor Cr", &WidestSpacing::repetitive),
        field("by_bending", FieldUnit::length, "spacing that bending allows", &WidestSpacing::by_bending),
        field("by_deflection", FieldUnit::length, "spacing that sag allows", &WidestSpacing::by_deflection),
        field("spacing", FieldUnit::length, "widest spacing, centre to centre", &WidestSpacing::spacing),
        field("governs", FieldUnit::none, "what ends it", &WidestSpacing::governs),
        field("unverified", FieldUnit::none, "rests on memory", &WidestSpacing::unverified),
        field(
            "caution", FieldUnit::none, "to be read with it", +[](const WidestSpacing&) { return holding_caution; }));
};

namespace detail {
[[nodiscard]] inline WidestSpacing spacing_with(const SpanMember& member, Length span, double Cr) {
    const AdjustedBending allowed = adjusted_bending(member.grade, member.size, member.set, member.duration, Cr);
    const LumberValue E = lumber_values(member.grade, member.size).elasticity;
    const BentShape shape = bent_shape(section_properties(dressed_section(member.size, Seasoning::dry)), member.set);
    const double L = inches(span);
    const double by_stress =
        8.0 * psi(allowed.stress) * cubic_inches(shape.modulus) / (L * L * psi(member.live + member.dead));
    const double by_sag = 384.0 * psi(E.value) * inches_to_the_fourth(shape.second) /
                          (5.0 * member.deflection_limit * L * L * L * psi(member.live));
    const double most = inches(longest_span);
    const Length bending = Length::from_inches(by_stress < most ? by_stress : most);
    const Length sag = Length::from_inches(by_sag < most ? by_sag : most);
    return {span,
            Cr,
            bending,
            sag,
            shorter(bending, sag),
            bending <= sag ? SpanLimit::bending : SpanLimit::deflection,
            allowed.unverified || E.unverified};
}
}  // namespace detail

/// Widest spacing over a span (1 in to 100 ft) by the same method. Cr counts only where the spacing stays within 24 in: a member
/// that would pass it with Cr is held to 24 in, unless it does without. Throws as `widest_span`. Shown with `holding_caution`.
[[nodiscard]] inline WidestSpacing widest_spacing(const SpanMember& member, Length span) {
    require_sound(member, "member");
    detail::require_span(span);
    WidestSpacing with = detail::spacing_with(
        member, span, repetitive_factor({member.members, Length::from_inches(1.0), member.joined}));
    if (with.spacing <= widest_repetitive_spacing) {
        return with;
    }
    const WidestSpacing without = detail::spacing_with(member, span, 1.0);
    if (without.spacing > widest_repetitive_spacing) {
        return without;
    }
    with.spacing = widest_repetitive_spacing;
    return with;
}

/// Length along the slope of a span that a table gives level.
[[nodiscard]] inline Length along_the_slope(Length level_span, Pitch pitch) {
    detail::require_span(level_span);
    return pitch.slope_over(level_span);
}

}  // namespace eavewright
