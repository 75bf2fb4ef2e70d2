// SPDX-License-Identifier: BSL-1.0
#pragma once

// Which standard a wind load follows, what is asked of it, and the words both sides use. An edition is always an input:
// the same roof has other loads under the next one, and only the code in force says which counts.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/decimal.hpp>

#include <array>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>

namespace eavewright {

/// To be read before a load is used.
inline constexpr std::string_view loads_caution =
    "Loads are preliminary figures for planning. The edition in force, wind speed, exposure, terrain, snow and every "
    "load "
    "left out here are for the local code and a licensed professional to settle before anything is built on them.";

/// Edition of ASCE/SEI 7. The standard of 2005 shares the constants of `asce7_10` for Kz, a and the gable coefficients, but
/// neither its wind speeds nor its load factor.
enum class WindEdition { asce7_10, asce7_16, asce7_22 };
template <>
struct NamesOf<WindEdition> {
    static constexpr std::array<std::string_view, 3> list{"asce7_10", "asce7_16", "asce7_22"};
};

/// Exposure category of the ground upwind.
enum class WindExposure { B, C, D };
template <>
struct NamesOf<WindExposure> {
    static constexpr std::array<std::string_view, 3> list{"B", "C", "D"};
};

/// What a wind load is for.
enum class WindUse {
    components_and_cladding,  ///< sheets, panels, purlins, fasteners
    main_frame,
};
template <>
struct NamesOf<WindUse> {
    static constexpr std::array<std::string_view, 2> list{"components_and_cladding", "main_frame"};
};

/// How the wind gets into the building.
enum class Enclosure { enclosed, partially_enclosed, open_sided };
template <>
struct NamesOf<Enclosure> {
    static constexpr std::array<std::string_view, 3> list{"enclosed", "partially_enclosed", "open_sided"};
};

/// The shapes that coefficients are given for.
enum class RoofForm { gable, hip, monoslope };
template <>
struct NamesOf<RoofForm> {
    static constexpr std::array<std::string_view, 3> list{"gable", "hip", "monoslope"};
};

/// Zone of a roof. Which of them a roof has depends on edition, form and slope.
enum class RoofZone { zone_1_prime, zone_1, zone_2, zone_2_prime, zone_3, zone_3_prime };
template <>
struct NamesOf<RoofZone> {
    static constexpr std::array<std::string_view, 6> list{"1'", "1", "2", "2'", "3", "3'"};
};

/// True where Kd is a factor of the velocity pressure. From the 2022 edition it stands in the pressure equation instead, so
/// that q alone differs by 0.85 between editions and p does not.
[[nodiscard]] constexpr bool kd_is_in_velocity_pressure(WindEdition edition) noexcept {
    return edition != WindEdition::asce7_22;
}
/// True where components and cladding in Exposure B take Kz of 30 ft at the least.
[[nodiscard]] constexpr bool has_exposure_b_floor(WindEdition edition) noexcept {
    return edition != WindEdition::asce7_22;
}
/// True where the edition knows the ground elevation factor Ke; before it, air is that of sea level.
[[nodiscard]] constexpr bool has_ground_elevation_factor(WindEdition edition) noexcept {
    return edition != WindEdition::asce7_10;
}

namespace detail {
[[noreturn]] inline void refuse_load(FaultCode code, std::string path, std::string given, std::string required) {
    throw FaultError{Fault{code, std::move(path), std::move(given), std::move(required)}};
}
/// Adds a fault unless `value` is finite and lies in [lowest, highest].
inline void require_number(double value, double lowest, double highest, const char* unit, const Path& path,
                           Faults& faults) {
    if (value >= lowest && value <= highest) {
        return;
    }
    faults.push_back(Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite, path.text(),
                           write_decimal(value, 6) + unit,
                           write_decimal(lowest, 6) + " to " + write_decimal(highest, 6) + unit});
}
}  // namespace detail

}  // namespace eavewright
