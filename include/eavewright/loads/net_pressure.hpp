// SPDX-License-Identifier: BSL-1.0
#pragma once

// Net wind pressure on a component of a roof, outside and inside together, at strength and at allowable stress level.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/pressure_coefficients.hpp>
#include <eavewright/loads/roof_zones.hpp>
#include <eavewright/loads/velocity_pressure.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {

/// Share of the strength-level wind load in allowable stress design.
inline constexpr double asd_wind_factor = 0.6;
/// Components and cladding are not designed for less, in either direction: 16 psf at strength level, 10 psf at allowable
/// stress level.
inline constexpr double least_strength_psf = 16.0;
inline constexpr double least_asd_psf = 10.0;

/// What the wind acts on.
struct PressurePlace {
    RoofForm form;
    Pitch pitch;
    ZonePlace zone;            ///< as `zone_at` gives it
    Area effective_wind_area;  ///< as `effective_wind_area` gives it
    Enclosure enclosure;
};
inline void find_faults(const PressurePlace& place, const Path& path, Faults& faults) {
    detail::require_named(place.form, Path{path, "form"}, faults);
    detail::require_named(place.enclosure, Path{path, "enclosure"}, faults);
    detail::require_named(place.zone.zone, Path{path, "zone"}, faults);
}
inline void find_faults(const VelocityPressure& q, const Path& path, Faults& faults) {
    detail::require_named(q.edition, Path{path, "edition"}, faults);
    detail::require_number(psf(q.qh), 0.0, 1e4, " psf", Path{path, "qh"}, faults);
    detail::require_number(q.Kd, 0.1, 1.0, "", Path{path, "Kd"}, faults);
    require_within(q.mean_roof_height, one_inch, highest_low_building, Path{path, "mean_roof_height"}, faults);
}

/// Which way the greater pressure acts.
enum class WindDirection { uplift, downward };
template <>
struct NamesOf<WindDirection> {
    static constexpr std::array<std::string_view, 2> list{"uplift", "downward"};
};

/// Pressures in one direction; away from the roof is negative.
struct DirectedPressure {
    ExternalCoefficient GCp;
    double GCpi;        ///< with the sign that adds to GCp
    Pressure computed;  ///< strength level
    Pressure strength;  ///< not less than 16 psf
    Pressure asd;       ///< 0.6 of `computed`, not less than 10 psf
    bool at_least;      ///< a least pressure stands in for the computed one, at either level
};
template <>
struct FieldsOf<DirectedPressure> {
    static constexpr auto list = field_list(
        field("GCp", FieldUnit::none, "external pressure coefficient", &DirectedPressure::GCp),
        field("GCpi", FieldUnit::ratio, "internal pressure coefficient that adds to it", &DirectedPressure::GCpi),
        field(
            "computed_psf", FieldUnit::ratio, "strength level as computed, in pounds per square foot, uplift negative",
            +[](const DirectedPressure& p) { return psf(p.computed); }),
        field(
            "strength_psf", FieldUnit::ratio, "strength level, 16 at the least",
            +[](const DirectedPressure& p) { return psf(p.strength); }),
        field(
            "asd_psf", FieldUnit::ratio, "allowable stress level, 10 at the least",
            +[](const DirectedPressure& p) { return psf(p.asd); }),
        field("at_least", FieldUnit::none, "a least pressure stands in for the computed one",
              &DirectedPressure::at_least));
};

/// Net pressure in both directions with what it follows from.
struct NetPressure {
    WindEdition edition;
    RoofZone zone;
    Pressure qh;
    double Kd_outside_q;                       ///< 0.85 where Kd stands in this equation, else 1
    DirectedPressure uplift;                   ///< negative GCp with internal pressure
    std::optional<DirectedPressure> downward;  ///< positive GCp with internal suction; none where it was not obtained
    WindDirection governing;                   ///< of the two computed ones
    std::string_view equation;
    bool unverified;  ///< a coefficient, or where the zone lies, rests on memory: no verdict is made of it
};
template <>
struct FieldsOf<NetPressure> {
    static constexpr auto list =
        field_list(field("edition", FieldUnit::none, "standard", &NetPressure::edition),
                   field("zone", FieldUnit::none, "zone of the roof", &NetPressure::zone),
                   field(
                       "qh_psf", FieldUnit::ratio, "velocity pressure in pounds per square foot",
                       +[](const NetPressure& p) { return psf(p.qh); }),
                   field("Kd_outside_q", FieldUnit::ratio,
                         "directionality factor where it stands in this equation, else 1", &NetPressure::Kd_outside_q),
                   field("uplift", FieldUnit::none, "away from the roof", &NetPressure::uplift),
                   field("downward", FieldUnit::none, "toward the roof, where it is known", &NetPressure::downward),
                   field("governing", FieldUnit::none, "the greater of the two computed ones", &NetPressure::governing),
                   field("equation", FieldUnit::none, "equation", &NetPressure::equation),
                   field("unverified", FieldUnit::none, "rests on memory", &NetPressure::unverified));
};

namespace detail {
/// `pressure` moved away from 0 until it is `least`; `sign` is its direction.
[[nodiscard]] inline Pressure not_less(Pressure pressure, double least_psf, double sign) {
    return psf(pressure) * sign < least_psf ? pressure_from_psf(sign * least_psf) : pressure;
}
[[nodiscard]] inline DirectedPressure directed_pressure(Pressure factor, const ExternalCoefficient& coefficient,
                                                        double GCpi, double sign) {
    const Pressure computed = factor * (coefficient.GCp + sign * GCpi);
    const Pressure asd = computed * asd_wind_factor;
    const bool at_least = psf(computed) * sign < least_strength_psf || psf(asd) * sign < least_asd_psf;
    return {coefficient,
            sign * GCpi,
            computed,
            not_less(computed, least_strength_psf, sign),
            not_less(asd, least_asd_psf, sign),
            at_least};
}
inline void require_supported(const PressurePlace& place) {
    if (place.zone.overhang) {
        refuse_load(
            FaultCode::not_supported, "place.zone", "a strip over the overhang",
            "a zone inside the walls: under an overhang the wall's pressure acts too, and its coefficients were not "
            "obtained");
    }
    if (place.enclosure == Enclosure::open_sided) {
        refuse_load(FaultCode::not_supported, "place.enclosure", "open_sided",
                    "enclosed or partially_enclosed: net coefficients of open-sided roofs were not obtained");
    }
}
}  // namespace detail

/// Net pressure on a component of a roof up to 60 ft: qh [(GCp) - (GCpi)] in 7-10 and 7-16, qh Kd [(GCp) - (GCpi)] in 7-22,
/// the sign of GCpi that makes it greater. Uplift is negative. Throws `FaultError` not_supported for open-sided buildings,
/// overhangs and coefficients that were not obtained, and the first fault of an input. Shown with `loads_caution`.
[[nodiscard]] inline NetPressure net_pressure(const VelocityPressure& q, const PressurePlace& place) {
    require_sound(q, "q");
    require_sound(place, "place");
    detail::require_supported(place);
    const ZoneCoefficients found =
        zone_coefficients({q.edition, place.form, place.pitch, place.zone.zone, place.effective_wind_area});
    const double GCpi = internal_coefficient(place.enclosure);
    const double outside = q.Kd_in_q ? 1.0 : q.Kd;
    const Pressure factor = q.qh * outside;
    NetPressure net{.edition = q.edition,
                    .zone = place.zone.zone,
                    .qh = q.qh,
                    .Kd_outside_q = outside,
                    .uplift = detail::directed_pressure(factor, found.negative, GCpi, -1.0),
                    .downward = std::nullopt,
                    .governing = WindDirection::uplift,
                    .equation = "ASCE/SEI 7-22 Eq. 30.3-1: p = qh Kd [(GCp) - (GCpi)]",
                    .unverified = place.zone.unverified || found.negative.unverified};
    if (q.edition != WindEdition::asce7_22) {
        net.equation = q.edition == WindEdition::asce7_10 ? "ASCE/SEI 7-10 Eq. 30.4-1: p = qh [(GCp) - (GCpi)]"
                                                          : "ASCE/SEI 7-16 Eq. 30.3-1: p = qh [(GCp) - (GCpi)]";
    }
    if (found.positive) {
        net.downward = detail::directed_pressure(factor, *found.positive, GCpi, 1.0);
        net.unverified = net.unverified || found.positive->unverified;
        net.governing =
            psf(net.downward->computed) > -psf(net.uplift.computed) ? WindDirection::downward : WindDirection::uplift;
    }
    return net;
}

// How printed tables round. Nothing is computed with a rounded pressure; these are to compare with a table.

/// Whole psf cut toward zero, as the 2018 IRC Table R301.2(2) prints negative pressures up to 170 mph: -14.3 is -14.
[[nodiscard]] inline double cut_to_whole_psf(Pressure pressure) { return std::trunc(psf(pressure)); }
/// Whole psf to the nearest, ties away from zero: as the table of field pressures in property loss prevention data prints.
[[nodiscard]] inline double round_to_whole_psf(Pressure pressure) { return std::round(psf(pressure)); }
/// How far a computed pressure may fall short of a printed whole one that it was cut to.
inline constexpr double cut_slack_psf = 0.05;
/// Whether `printed` is `pressure` cut toward zero: greater by less than 1 psf in magnitude, short by 0.05 psf at the most,
/// since the table's makers cut figures that were themselves rounded.
[[nodiscard]] inline bool reads_as_cut(Pressure pressure, double printed_psf) {
    const double over = std::fabs(psf(pressure)) - std::fabs(printed_psf);
    return over >= -cut_slack_psf && over < 1.0;
}

}  // namespace eavewright
