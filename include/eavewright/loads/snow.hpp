// SPDX-License-Identifier: BSL-1.0
#pragma once

// Balanced snow, from the ground to a sloped roof: pf = 0.7 Ce Ct I pg, ps = Cs pf on the area in plan. Drifts, unbalanced and
// partial loads, snow that slides from above, rain on snow and the least load of low slopes are not computed.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/on_slope.hpp>
#include <eavewright/loads/snow_factors.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {

/// Snow at a building.
struct SnowSite {
    SnowEdition edition;
    Pressure ground_snow;  ///< pg of the edition's map, 0 to 1000 psf; from 2022 the map of the risk category
    SnowTerrain terrain;
    SnowExposure exposure;
    ThermalFactor thermal;
    std::optional<double> importance;  ///< I, 0.5 to 1.5; none in `asce7_22`, which has no I
    RoofSlide surface;
};
inline void find_faults(const SnowSite& site, const Path& path, Faults& faults) {
    detail::require_named(site.edition, Path{path, "edition"}, faults);
    detail::require_named(site.terrain, Path{path, "terrain"}, faults);
    detail::require_named(site.exposure, Path{path, "exposure"}, faults);
    detail::require_named(site.surface, Path{path, "surface"}, faults);
    detail::require_number(psf(site.ground_snow), 0.0, 1000.0, " psf", Path{path, "ground_snow"}, faults);
    const bool has_importance = site.edition != SnowEdition::asce7_22;
    if (site.importance.has_value() != has_importance) {
        faults.push_back(
            Fault{has_importance ? FaultCode::missing_field : FaultCode::contradiction, Path{path, "importance"}.text(),
                  site.importance ? "a factor" : "nothing",
                  has_importance ? "the importance factor I" : "none: 7-22 maps ground snow by risk category"});
    }
    if (site.importance) {
        detail::require_number(*site.importance, 0.5, 1.5, "", Path{path, "importance"}, faults);
    }
}

/// Balanced snow with its factors.
struct SnowLoad {
    SnowEdition edition;
    Pressure ground_snow;  ///< pg
    double Ce;
    double Ct;
    double importance;       ///< 1 in an edition without it
    Pressure flat;           ///< pf, in plan
    SlopeFactor slope;       ///< Cs with its line
    SlopeLoad sloped;        ///< ps, in plan and its parts
    bool least_not_checked;  ///< below 15 deg a least roof snow load may govern, which is not computed
    std::string_view equation;
    bool unverified;  ///< a factor rests on memory
};
template <>
struct FieldsOf<SnowLoad> {
    static constexpr auto list = field_list(
        field("edition", FieldUnit::none, "standard", &SnowLoad::edition),
        field(
            "ground_snow_psf", FieldUnit::ratio, "ground snow in pounds per square foot",
            +[](const SnowLoad& s) { return psf(s.ground_snow); }),
        field("Ce", FieldUnit::ratio, "exposure factor", &SnowLoad::Ce),
        field("Ct", FieldUnit::ratio, "thermal factor", &SnowLoad::Ct),
        field("importance", FieldUnit::ratio, "importance factor, 1 in an edition without it", &SnowLoad::importance),
        field(
            "flat_psf", FieldUnit::ratio, "flat roof snow in pounds per square foot",
            +[](const SnowLoad& s) { return psf(s.flat); }),
        field("slope", FieldUnit::none, "slope factor Cs with its line", &SnowLoad::slope),
        field("sloped", FieldUnit::none, "sloped roof snow and its parts", &SnowLoad::sloped),
        field("least_not_checked", FieldUnit::none, "a least load of low slopes may govern, which is not computed",
              &SnowLoad::least_not_checked),
        field("equation", FieldUnit::none, "equations", &SnowLoad::equation),
        field("unverified", FieldUnit::none, "a factor rests on memory", &SnowLoad::unverified));
};

/// Balanced snow on one slope. Throws `FaultError`: not_supported for an exposure factor or a slope line that was not
/// obtained, and the first fault of `site`. Shown with `loads_caution`.
[[nodiscard]] inline SnowLoad balanced_snow(const SnowSite& site, Pitch pitch) {
    require_sound(site, "snow");
    const SnowFactor Ce = snow_exposure_factor(site.edition, site.terrain, site.exposure);
    const SnowFactor Ct = thermal_factor(site.edition, site.thermal);
    const double importance = site.importance.value_or(1.0);
    const SlopeFactor slope = slope_factor_of_snow(Ct.value, site.surface, pitch);
    const Pressure flat = site.ground_snow * (0.7 * Ce.value * Ct.value * importance);
    const bool newest = site.edition == SnowEdition::asce7_22;
    return {.edition = site.edition,
            .ground_snow = site.ground_snow,
            .Ce = Ce.value,
            .Ct = Ct.value,
            .importance = importance,
            .flat = flat,
            .slope = slope,
            .sloped = load_from_plan(flat * slope.Cs, pitch),
            .least_not_checked = degrees(pitch.angle()) < 15.0,
            .equation = newest ? "ASCE/SEI 7-22 Eq. 7.3-1, 7.4-1: pf = 0.7 Ce Ct pg, ps = Cs pf"
                               : "ASCE/SEI 7 Eq. 7.3-1, 7.4-1: pf = 0.7 Ce Ct I pg, ps = Cs pf",
            .unverified = Ce.unverified || Ct.unverified || slope.unverified || newest};
}

}  // namespace eavewright
