// SPDX-License-Identifier: BSL-1.0
#pragma once

// Velocity pressure at the mean roof height: q = 0.00256 Kz Kzt Kd Ke V^2, each factor by its edition.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/wind_speed.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>

namespace eavewright {

/// Kz is constant below this height (all editions).
inline constexpr Length lowest_kz_height = Length::from_feet(15.0);
/// Lowest height for components and cladding in Exposure B (ASCE 7-10 Table 30.3-1, 7-16 Table 26.10-1).
inline constexpr Length exposure_b_floor_height = Length::from_feet(30.0);
/// Highest roof that is computed: the table of ASCE 7-22 was read up to here, and the coefficients end at 60 ft.
inline constexpr Length highest_kz_height = Length::from_feet(100.0);
/// Wind directionality factor of buildings, components and cladding.
inline constexpr double building_kd = 0.85;

/// Kz and where it comes from.
struct ExposureCoefficient {
    double Kz;
    Length height;            ///< that Kz was taken at: not below 15 ft, nor below 30 ft where the floor holds
    bool exposure_b_floor;    ///< the floor of 30 ft in Exposure B raised it
    std::string_view source;  ///< equation or table
};
template <>
struct FieldsOf<ExposureCoefficient> {
    static constexpr auto list =
        field_list(field("Kz", FieldUnit::ratio, "velocity pressure exposure coefficient", &ExposureCoefficient::Kz),
                   field("height", FieldUnit::length, "height it was taken at", &ExposureCoefficient::height),
                   field("exposure_b_floor", FieldUnit::none, "raised by the floor of 30 ft in Exposure B",
                         &ExposureCoefficient::exposure_b_floor),
                   field("source", FieldUnit::none, "equation or table", &ExposureCoefficient::source));
};

namespace detail {
struct PowerLaw {
    double alpha;
    double zg_ft;
};
/// Kz = factor (z / zg)^(2 / alpha), z not below 15 ft.
[[nodiscard]] inline double power_law_kz(double factor, PowerLaw law, Length z) {
    return factor * std::pow(feet(longer(z, lowest_kz_height)) / law.zg_ft, 2.0 / law.alpha);
}
/// Constants of ASCE 7-05, 7-10 and 7-16 for B, C, D.
inline constexpr std::array<PowerLaw, 3> power_laws_to_2016{{{7.0, 1200.0}, {9.5, 900.0}, {11.5, 700.0}}};
inline constexpr std::array<PowerLaw, 3> power_laws_2022{{{7.5, 3280.0}, {9.8, 2460.0}, {11.5, 1935.0}}};

struct KzCells {
    double z_ft;
    std::array<double, 3> Kz;  ///< B, C, D
};
/// ASCE 7-22 Table 26.10-1.
inline constexpr std::array<KzCells, 11> kz_cells_2022{{{15.0, {0.57, 0.85, 1.03}},
                                                        {20.0, {0.62, 0.90, 1.08}},
                                                        {25.0, {0.66, 0.94, 1.12}},
                                                        {30.0, {0.70, 0.98, 1.16}},
                                                        {40.0, {0.74, 1.04, 1.22}},
                                                        {50.0, {0.79, 1.09, 1.27}},
                                                        {60.0, {0.83, 1.13, 1.31}},
                                                        {70.0, {0.86, 1.17, 1.34}},
                                                        {80.0, {0.90, 1.21, 1.38}},
                                                        {90.0, {0.92, 1.24, 1.40}},
                                                        {100.0, {0.95, 1.26, 1.43}}}};
[[nodiscard]] inline double kz_between_cells(std::size_t exposure, Length z) {
    const double z_ft = feet(z);
    std::size_t i = 1;
    while (i + 1 < kz_cells_2022.size() && kz_cells_2022[i].z_ft < z_ft) {
        ++i;
    }
    const KzCells& low = kz_cells_2022[i - 1];
    const KzCells& high = kz_cells_2022[i];
    const double share = (z_ft - low.z_ft) / (high.z_ft - low.z_ft);
    return low.Kz[exposure] + (high.Kz[exposure] - low.Kz[exposure]) * share;
}
inline void require_kz_height(WindExposure exposure, Length height, const Path& path, Faults& faults) {
    require_named(exposure, Path{path, "exposure"}, faults);
    require_within(height, one_inch, highest_kz_height, Path{path, "height"}, faults);
}
}  // namespace detail

/// Kz at a height of 1 in to 100 ft (else `FaultError`, out_of_range or not_finite); below 15 ft that of 15 ft.
/// ASCE 7-10 and 7-16: 2.01 (z / zg)^(2 / alpha), not rounded: 0.7006 and not 0.70 at 30 ft in Exposure B. ASCE 7-22: cells
/// of Table 26.10-1, straight between them. The floor of Exposure B is an edition's rule (`has_exposure_b_floor`).
[[nodiscard]] inline ExposureCoefficient exposure_coefficient(WindEdition edition, WindExposure exposure, Length height,
                                                              WindUse use) {
    Faults faults;
    detail::require_named(edition, Path{"edition"}, faults);
    detail::require_named(use, Path{"use"}, faults);
    detail::require_kz_height(exposure, height, Path{""}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    const auto which = static_cast<std::size_t>(exposure);
    const bool floored = has_exposure_b_floor(edition) && exposure == WindExposure::B &&
                         use == WindUse::components_and_cladding && height < exposure_b_floor_height;
    const Length z = floored ? exposure_b_floor_height : longer(height, lowest_kz_height);
    switch (edition) {
        case WindEdition::asce7_10:
            return {
                detail::power_law_kz(2.01, detail::power_laws_to_2016[which], z), z, floored,
                use == WindUse::main_frame ? "ASCE/SEI 7-10 Table 27.3-1 note 2" : "ASCE/SEI 7-10 Table 30.3-1 note 2"};
        case WindEdition::asce7_16:
            return {detail::power_law_kz(2.01, detail::power_laws_to_2016[which], z), z, floored,
                    "ASCE/SEI 7-16 Table 26.10-1 note 1"};
        case WindEdition::asce7_22: break;
    }
    return {detail::kz_between_cells(which, z), z, floored, "ASCE/SEI 7-22 Table 26.10-1"};
}

/// Kz of the 2022 equation, 2.41 (z / zg)^(2 / alpha), its factor 2.41 from memory: to compare the table with, which
/// differs by 0.012 up to 60 ft and by 0.0136 above. No result is made of it. Heights as `exposure_coefficient`.
[[nodiscard]] inline double kz_by_equation_2022(WindExposure exposure, Length height) {
    Faults faults;
    detail::require_kz_height(exposure, height, Path{""}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    return detail::power_law_kz(2.41, detail::power_laws_2022[static_cast<std::size_t>(exposure)], height);
}

/// Ke = exp(-0.0000362 z), z in feet above sea level, -1000 to 15,000 ft (ASCE/SEI 7-16 and 7-22 Table 26.9-1).
[[nodiscard]] inline double ground_elevation_factor(Length elevation) {
    Faults faults;
    require_within(elevation, Length::from_feet(-1000.0), Length::from_feet(15000.0), Path{"ground_elevation"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    return std::exp(-0.0000362 * feet(elevation));
}

/// Height h of a roof for wind: halfway from the eave to the highest point, or the eave's below 10 deg (ASCE/SEI 7-02 Fig.
/// 6-3). Heights above the ground; 1 in to 1000 ft, the eave not above the top (else `FaultError`).
[[nodiscard]] inline Length mean_roof_height(Length eave, Length top, Pitch pitch) {
    Faults faults;
    require_within(eave, one_inch, greatest_height, Path{"eave"}, faults);
    require_within(top, eave, greatest_height, Path{"top"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    return degrees(pitch.angle()) < 10.0 - 1e-9 ? eave : (eave + top) / 2.0;
}

/// The wind at a building.
struct WindSite {
    WindEdition edition;
    WindExposure exposure;
    WindSpeed speed;          ///< basic wind speed of the edition's map; more than 0
    Length mean_roof_height;  ///< above the ground, 1 in to 100 ft
    double Kzt;               ///< topographic factor, 1 on level ground; 1 to 4; a hill's is not computed here
    Length ground_elevation;  ///< above sea level; not read for `asce7_10`, which has no Ke
    WindUse use = WindUse::components_and_cladding;
};
inline void find_faults(const WindSite& site, const Path& path, Faults& faults) {
    detail::require_named(site.edition, Path{path, "edition"}, faults);
    detail::require_named(site.exposure, Path{path, "exposure"}, faults);
    detail::require_named(site.use, Path{path, "use"}, faults);
    detail::require_number(site.speed.mph(), 1.0, fastest_wind_mph, " mph", Path{path, "speed"}, faults);
    require_within(site.mean_roof_height, one_inch, highest_kz_height, Path{path, "mean_roof_height"}, faults);
    detail::require_number(site.Kzt, 1.0, 4.0, "", Path{path, "Kzt"}, faults);
    require_within(site.ground_elevation, Length::from_feet(-1000.0), Length::from_feet(15000.0),
                   Path{path, "ground_elevation"}, faults);
}

/// Velocity pressure with its factors.
struct VelocityPressure {
    WindEdition edition;
    WindExposure exposure;
    WindSpeed speed;
    Length mean_roof_height;
    ExposureCoefficient Kz;
    double Kzt;
    double Ke;     ///< 1 in an edition without it
    double Kd;     ///< 0.85
    bool Kd_in_q;  ///< Kd is a factor of `qh`; else it stands in the pressure equation
    Pressure qh;   ///< strength level
    std::string_view equation;
};
template <>
struct FieldsOf<VelocityPressure> {
    static constexpr auto list = field_list(
        field("edition", FieldUnit::none, "standard", &VelocityPressure::edition),
        field("exposure", FieldUnit::none, "exposure category", &VelocityPressure::exposure),
        field(
            "speed_mph", FieldUnit::ratio, "basic wind speed in mph",
            +[](const VelocityPressure& q) { return q.speed.mph(); }),
        field("mean_roof_height", FieldUnit::length, "above the ground", &VelocityPressure::mean_roof_height),
        field("Kz", FieldUnit::none, "velocity pressure exposure coefficient", &VelocityPressure::Kz),
        field("Kzt", FieldUnit::ratio, "topographic factor", &VelocityPressure::Kzt),
        field("Ke", FieldUnit::ratio, "ground elevation factor, 1 in an edition without it", &VelocityPressure::Ke),
        field("Kd", FieldUnit::ratio, "directionality factor", &VelocityPressure::Kd),
        field("Kd_in_q", FieldUnit::none, "Kd is a factor of qh", &VelocityPressure::Kd_in_q),
        field(
            "qh_psf", FieldUnit::ratio, "velocity pressure at the mean roof height in pounds per square foot",
            +[](const VelocityPressure& q) { return psf(q.qh); }),
        field("equation", FieldUnit::none, "equation", &VelocityPressure::equation));
};

/// Velocity pressure at the mean roof height, strength level. 7-10: 0.00256 Kz Kzt Kd V^2; 7-16: with Ke; 7-22: with Ke and
/// without Kd. Throws `FaultError` with the first fault of `site`. Shown with `loads_caution`.
[[nodiscard]] inline VelocityPressure velocity_pressure(const WindSite& site) {
    require_sound(site, "wind");
    const bool inside = kd_is_in_velocity_pressure(site.edition);
    VelocityPressure q{
        .edition = site.edition,
        .exposure = site.exposure,
        .speed = site.speed,
        .mean_roof_height = site.mean_roof_height,
        .Kz = exposure_coefficient(site.edition, site.exposure, site.mean_roof_height, site.use),
        .Kzt = site.Kzt,
        .Ke = has_ground_elevation_factor(site.edition) ? ground_elevation_factor(site.ground_elevation) : 1.0,
        .Kd = building_kd,
        .Kd_in_q = inside,
        .qh = velocity_pressure(site.speed),
        .equation = "ASCE/SEI 7-22 Eq. 26.10-1"};
    if (site.edition == WindEdition::asce7_10) {
        q.equation = site.use == WindUse::main_frame ? "ASCE/SEI 7-10 Eq. 27.3-1" : "ASCE/SEI 7-10 Eq. 30.3-1";
    } else if (site.edition == WindEdition::asce7_16) {
        q.equation = "ASCE/SEI 7-16 Eq. 26.10-1";
    }
    q.qh *= q.Kz.Kz * q.Kzt * q.Ke * (inside ? q.Kd : 1.0);
    return q;
}

}  // namespace eavewright
