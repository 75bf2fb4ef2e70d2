// SPDX-License-Identifier: BSL-1.0
#pragma once

// A simple span under a uniform load: moment, shear, deflection, stresses; how far it may reach; and the stability of a beam
// and of a beam-column bent both ways, as the design standard has them.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/section.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <initializer_list>
#include <string_view>

namespace eavewright {

/// What a uniform load does to a simple span.
struct SimpleSpan {
    LineLoad load;
    Length span;
    Force reaction;  ///< at each end; also the greatest shear
    Moment moment;   ///< at the middle
};
template <>
struct FieldsOf<SimpleSpan> {
    static constexpr auto list =
        field_list(field(
                       "load_plf", FieldUnit::ratio, "uniform load in pounds per foot",
                       +[](const SimpleSpan& s) { return pounds_per_foot(s.load); }),
                   field("span", FieldUnit::length, "between supports", &SimpleSpan::span),
                   field(
                       "reaction_pounds", FieldUnit::ratio, "reaction of each end in pounds",
                       +[](const SimpleSpan& s) { return pounds_force(s.reaction); }),
                   field(
                       "moment_pound_inches", FieldUnit::ratio, "moment at the middle in pound-inches",
                       +[](const SimpleSpan& s) { return pound_inches(s.moment); }));
};

/// Longest span that is looked at.
inline constexpr Length longest_span = Length::from_feet(100.0);

namespace detail {
inline void require_span(Length span) {
    Faults faults;
    require_within(span, Length::from_inches(1.0), longest_span, Path{"span"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
}
/// A number more than 0 at the door of a function.
inline void require_positive(double value, double highest, const char* unit, const char* name) {
    Faults faults;
    require_number(value, 1e-9, highest, unit, Path{name}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
}
inline constexpr double greatest_line_load = 1e5;  ///< lb/in
inline constexpr double greatest_stress_psi = 1e8;
inline constexpr double greatest_property = 1e8;
}  // namespace detail

/// Reaction w L / 2 and moment w L^2 / 8; the load may lift (negative). Span 1 in to 100 ft, load to 100,000 lb/in (else
/// `FaultError`).
[[nodiscard]] inline SimpleSpan simple_span(LineLoad load, Length span) {
    detail::require_span(span);
    Faults faults;
    detail::require_number(pounds_per_inch(load), -detail::greatest_line_load, detail::greatest_line_load, " lb/in",
                           Path{"load"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    const Force whole = load * span;
    return {load, span, whole / 2.0, whole * (span / 8.0)};
}

/// 5 w L^4 / (384 E I). E to 100,000,000 psi, I more than 0 (else `FaultError`).
[[nodiscard]] inline Length simple_span_deflection(LineLoad load, Length span, Pressure elasticity,
                                                   SecondMoment second) {
    const SimpleSpan s = simple_span(load, span);
    detail::require_positive(psi(elasticity), detail::greatest_stress_psi, " psi", "elasticity");
    detail::require_positive(inches_to_the_fourth(second), detail::greatest_property, " in4", "second");
    const double L = inches(s.span);
    return Length::from_inches(5.0 * pounds_per_inch(load) * L * L * L * L /
                               (384.0 * psi(elasticity) * inches_to_the_fourth(second)));
}
/// Bending stress M / S; S more than 0 (else `FaultError`).
[[nodiscard]] inline Pressure bending_stress(Moment moment, Volume modulus) {
    detail::require_positive(cubic_inches(modulus), detail::greatest_property, " in3", "modulus");
    return pressure_from_psi(pound_inches(moment) / cubic_inches(modulus));
}
/// Greatest shear stress of a rectangle, 3 V / (2 A); A more than 0 (else `FaultError`).
[[nodiscard]] inline Pressure rectangle_shear_stress(Force shear, Area area) {
    detail::require_positive(square_inches(area), detail::greatest_property, " in2", "area");
    return pressure_from_psi(1.5 * pounds_force(shear) / square_inches(area));
}

/// Span at which a load brings the stress, L = sqrt(8 F S / w). Load, modulus and stress more than 0 (else `FaultError`); no more
/// than 100 ft comes out.
[[nodiscard]] inline Length span_at_stress(LineLoad load, Volume modulus, Pressure stress) {
    detail::require_positive(pounds_per_inch(load), detail::greatest_line_load, " lb/in", "load");
    detail::require_positive(cubic_inches(modulus), detail::greatest_property, " in3", "modulus");
    detail::require_positive(psi(stress), detail::greatest_stress_psi, " psi", "stress");
    const double L = std::sqrt(8.0 * psi(stress) * cubic_inches(modulus) / pounds_per_inch(load));
    return L < inches(longest_span) ? Length::from_inches(L) : longest_span;
}
/// Span at which a load sags it by span / `over`, L = cbrt(384 E I / (5 w over)). All more than 0, `over` to 10,000 (else
/// `FaultError`); no more than 100 ft comes out.
[[nodiscard]] inline Length span_at_deflection(LineLoad load, Pressure elasticity, SecondMoment second, double over) {
    detail::require_positive(pounds_per_inch(load), detail::greatest_line_load, " lb/in", "load");
    detail::require_positive(psi(elasticity), detail::greatest_stress_psi, " psi", "elasticity");
    detail::require_positive(inches_to_the_fourth(second), detail::greatest_property, " in4", "second");
    detail::require_positive(over, 10000.0, "", "over");
    const double L =
        std::cbrt(384.0 * psi(elasticity) * inches_to_the_fourth(second) / (5.0 * pounds_per_inch(load) * over));
    return L < inches(longest_span) ? Length::from_inches(L) : longest_span;
}

/// Stress of a rectangle bent both ways, at its worst corner.
struct TwoWayStress {
    Pressure edgewise;
    Pressure flatwise;
    Pressure corner;     ///< their sum
    Angle neutral_axis;  ///< from the axis of edgewise bending
};
template <>
struct FieldsOf<TwoWayStress> {
    static constexpr auto list = field_list(
        field(
            "edgewise_psi", FieldUnit::ratio, "stress of edgewise bending in pounds per square inch",
            +[](const TwoWayStress& s) { return psi(s.edgewise); }),
        field(
            "flatwise_psi", FieldUnit::ratio, "stress of flatwise bending in pounds per square inch",
            +[](const TwoWayStress& s) { return psi(s.flatwise); }),
        field(
            "corner_psi", FieldUnit::ratio, "their sum at the worst corner in pounds per square inch",
            +[](const TwoWayStress& s) { return psi(s.corner); }),
        field("neutral_axis", FieldUnit::angle, "from the axis of edgewise bending", &TwoWayStress::neutral_axis));
};
/// Moments by size: 0 to 1e9 lb-in each (else `FaultError`). The neutral axis lies at tan b = (Mf / Iyy) / (Me / Ixx).
[[nodiscard]] inline TwoWayStress two_way_stress(const SectionProperties& p, Moment edgewise, Moment flatwise) {
    Faults faults;
    detail::require_number(pound_inches(edgewise), 0.0, 1e9, " lb-in", Path{"edgewise"}, faults);
    detail::require_number(pound_inches(flatwise), 0.0, 1e9, " lb-in", Path{"flatwise"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    const Pressure fe = bending_stress(edgewise, p.edge_modulus);
    const Pressure ff = bending_stress(flatwise, p.flat_modulus);
    return {fe, ff, fe + ff,
            angle_from_radians(std::atan2(pound_inches(flatwise) * inches_to_the_fourth(p.edge_second),
                                          pound_inches(edgewise) * inches_to_the_fourth(p.flat_second)))};
}

/// How a beam is loaded, as far as its buckling sideways cares.
enum class BeamLoading {
    at_middle,  ///< one load at mid-span, no support between
    uniform,
};
template <>
struct NamesOf<BeamLoading> {
    static constexpr std::array<std::string_view, 2> list{"at_middle", "uniform"};
};

/// Sideways buckling of a beam bent edgewise.
struct BeamStability {
    Length unsupported;  ///< lu
    Length effective;    ///< le
    double slenderness;  ///< RB = sqrt(le d / b^2), 50 at the most
    Pressure critical;   ///< FbE = 1.20 E'min / RB^2
    double factor;       ///< CL
    bool unverified;     ///< le rests on memory
};
template <>
struct FieldsOf<BeamStability> {
    static constexpr auto list = field_list(
        field("unsupported", FieldUnit::length, "between supports of the squeezed edge", &BeamStability::unsupported),
        field("effective", FieldUnit::length, "effective length le", &BeamStability::effective),
        field("slenderness", FieldUnit::ratio, "RB", &BeamStability::slenderness),
        field(
            "critical_psi", FieldUnit::ratio, "FbE in pounds per square inch",
            +[](const BeamStability& s) { return psi(s.critical); }),
        field("factor", FieldUnit::ratio, "beam stability factor CL", &BeamStability::factor),
        field("unverified", FieldUnit::none, "the effective length rests on memory", &BeamStability::unverified));
};

namespace detail {
/// (1 + F) / 2c - sqrt(((1 + F) / 2c)^2 - F / c): the curve between crushing and buckling.
[[nodiscard]] inline double stability_curve(double F, double c, double divisor) {
    const double a = (1.0 + F) / divisor;
    return a - std::sqrt(a * a - F / c);
}
/// Effective length of a single span (NDS 2018 Table 3.3.3). The line for a load at the middle is the one a published example
/// confirms; the others are from memory.
[[nodiscard]] inline Length effective_beam_length(BeamLoading loading, Length unsupported, Length depth) {
    const bool stocky = unsupported / depth < 7.0;
    if (loading == BeamLoading::at_middle) {
        return stocky ? unsupported * 1.80 : unsupported * 1.37 + depth * 3.0;
    }
    return stocky ? unsupported * 2.06 : unsupported * 1.63 + depth * 3.0;
}
}  // namespace detail

/// Beam stability factor CL of a section on edge whose squeezed edge is held every `unsupported` (AWC NDS 2018 3.3.3), from
/// `star`, the bending value with every factor but CL and Cfu. Throws `FaultError`: lengths from 1 in to 100 ft, stresses above 0,
/// out_of_range where RB is above 50.
[[nodiscard]] inline BeamStability beam_stability(const Section& section, Length unsupported, BeamLoading loading,
                                                  Pressure star, Pressure stable_elasticity) {
    require_sound(section, "section");
    detail::require_span(unsupported);
    detail::require_positive(psi(star), detail::greatest_stress_psi, " psi", "star");
    detail::require_positive(psi(stable_elasticity), detail::greatest_stress_psi, " psi", "stable_elasticity");
    const Length le = detail::effective_beam_length(loading, unsupported, section.depth);
    const double RB = std::sqrt((le / section.breadth) * (section.depth / section.breadth));
    if (!(RB <= 50.0)) {
        detail::refuse_load(FaultCode::out_of_range, "unsupported", describe_length(unsupported),
                            "a slenderness RB of 50 at the most, here " + write_decimal(RB, 1));
    }
    const Pressure FbE = stable_elasticity * (1.20 / (RB * RB));
    const bool confirmed = loading == BeamLoading::at_middle && unsupported / section.depth >= 7.0;
    return {unsupported,
            le,
            RB,
            FbE,
            section.breadth < section.depth ? detail::stability_curve(psi(FbE) / psi(star), 0.95, 1.9) : 1.0,
            !confirmed};
}

/// A column held at its ends, by one of its axes.
struct ColumnStability {
    double slenderness;  ///< le / d, 50 at the most
    Pressure critical;   ///< FcE = 0.822 E'min / (le / d)^2
    double factor;       ///< CP, sawn lumber: c = 0.8
    Pressure stress;     ///< F'c
};
template <>
struct FieldsOf<ColumnStability> {
    static constexpr auto list =
        field_list(field("slenderness", FieldUnit::ratio, "le / d", &ColumnStability::slenderness),
                   field(
                       "critical_psi", FieldUnit::ratio, "FcE in pounds per square inch",
                       +[](const ColumnStability& s) { return psi(s.critical); }),
                   field("factor", FieldUnit::ratio, "column stability factor CP", &ColumnStability::factor),
                   field(
                       "stress_psi", FieldUnit::ratio, "allowable compression F'c in pounds per square inch",
                       +[](const ColumnStability& s) { return psi(s.stress); }));
};
/// Column stability of sawn lumber (AWC NDS 2018 3.7.1) for buckling over `side`, from `star`, the compression value with every
/// factor but CP. Throws `FaultError` out_of_range where le / d is above 50, and for stresses not above 0.
[[nodiscard]] inline ColumnStability column_stability(Length effective, Length side, Pressure star,
                                                      Pressure stable_elasticity) {
    detail::require_span(effective);
    detail::require_positive(inches(side), 60.0, " in", "side");
    detail::require_positive(psi(star), detail::greatest_stress_psi, " psi", "star");
    detail::require_positive(psi(stable_elasticity), detail::greatest_stress_psi, " psi", "stable_elasticity");
    const double ratio = effective / side;
    if (!(ratio <= 50.0)) {
        detail::refuse_load(FaultCode::out_of_range, "effective", describe_length(effective),
                            "a slenderness of 50 at the most, here " + write_decimal(ratio, 1));
    }
    const Pressure FcE = stable_elasticity * (0.822 / (ratio * ratio));
    const double CP = detail::stability_curve(psi(FcE) / psi(star), 0.8, 1.6);
    return {ratio, FcE, CP, star * CP};
}

/// Stresses and limits of a member that is squeezed and bent both ways; index 1 is edgewise, 2 flatwise.
struct BeamColumn {
    Pressure fc;
    Pressure fb1;
    Pressure fb2;
    Pressure Fc;    ///< F'c; not looked at where fc is 0
    Pressure Fb1;   ///< F'b1, with CL
    Pressure Fb2;   ///< F'b2
    Pressure FcE1;  ///< not looked at where fc is 0
    Pressure FcE2;  ///< not looked at where fc is 0
    Pressure FbE;
};
/// Share of a beam-column's strength that is used, AWC NDS 2018 Eq. 3.9-3; in order, the terms of it. A term past its critical
/// stress cannot be written: `buckles` says so, and the share is 0 then.
struct Interaction {
    double compression;  ///< (fc / F'c)^2
    double edgewise;     ///< fb1 / (F'b1 (1 - fc / FcE1))
    double flatwise;     ///< fb2 / (F'b2 (1 - fc / FcE2 - (fb1 / FbE)^2))
    double share;        ///< their sum; holds up to 1
    bool buckles;        ///< a stress reaches its critical one: fails, without a share
};
template <>
struct FieldsOf<Interaction> {
    static constexpr auto list =
        field_list(field("compression", FieldUnit::ratio, "term of compression", &Interaction::compression),
                   field("edgewise", FieldUnit::ratio, "term of edgewise bending", &Interaction::edgewise),
                   field("flatwise", FieldUnit::ratio, "term of flatwise bending", &Interaction::flatwise),
                   field("share", FieldUnit::ratio, "sum of the terms, holds up to 1", &Interaction::share),
                   field("buckles", FieldUnit::none, "a stress reaches its critical one", &Interaction::buckles));
};
/// AWC NDS 2018 Eq. 3.9-3. Throws `FaultError` for stresses below 0 and for limits that are not above 0.
[[nodiscard]] inline Interaction two_way_interaction(const BeamColumn& m) {
    const double fc = psi(m.fc);
    const double fb1 = psi(m.fb1);
    const double fb2 = psi(m.fb2);
    for (const double stress : {fc, fb1, fb2}) {
        Faults faults;
        detail::require_number(stress, 0.0, detail::greatest_stress_psi, " psi", Path{"stress"}, faults);
        if (!faults.empty()) {
            throw FaultError{faults[0]};
        }
    }
    const bool squeezed = fc > 0.0;
    for (const double limit : {psi(m.Fb1), psi(m.Fb2), psi(m.FbE)}) {
        detail::require_positive(limit, detail::greatest_stress_psi, " psi", "limit");
    }
    if (squeezed) {
        for (const double limit : {psi(m.Fc), psi(m.FcE1), psi(m.FcE2)}) {
            detail::require_positive(limit, detail::greatest_stress_psi, " psi", "limit");
        }
    }
    const double part = squeezed ? fc / psi(m.Fc) : 0.0;
    const double tilted = fb1 / psi(m.FbE);
    const double left1 = 1.0 - (squeezed ? fc / psi(m.FcE1) : 0.0);
    const double left2 = 1.0 - (squeezed ? fc / psi(m.FcE2) : 0.0) - tilted * tilted;
    if (!(left1 > 1e-6 && left2 > 1e-6)) {
        return {part * part, 0.0, 0.0, 0.0, true};
    }
    const double edgewise = fb1 / (psi(m.Fb1) * left1);
    const double flatwise = fb2 / (psi(m.Fb2) * left2);
    return {part * part, edgewise, flatwise, part * part + edgewise + flatwise, false};
}

}  // namespace eavewright
