// SPDX-License-Identifier: BSL-1.0
#pragma once

// The factors between snow on the ground and snow on a roof: exposure Ce, temperature Ct, slope Cs.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <variant>

namespace eavewright {

/// Edition of ASCE/SEI 7 that snow follows.
enum class SnowEdition { asce7_02, asce7_10, asce7_16, asce7_22 };
template <>
struct NamesOf<SnowEdition> {
    static constexpr std::array<std::string_view, 4> list{"asce7_02", "asce7_10", "asce7_16", "asce7_22"};
};

/// Terrain around the building.
enum class SnowTerrain {
    A,  ///< city centres; in 7-02 only
    B,
    C,
    D,
    above_tree_line,  ///< windswept, in mountains
    treeless,         ///< far north, no trees within 2 miles of the site
};
template <>
struct NamesOf<SnowTerrain> {
    static constexpr std::array<std::string_view, 6> list{"A", "B", "C", "D", "above_tree_line", "treeless"};
};

/// How the wind reaches the roof.
enum class SnowExposure { fully_exposed, partially_exposed, sheltered };
template <>
struct NamesOf<SnowExposure> {
    static constexpr std::array<std::string_view, 3> list{"fully_exposed", "partially_exposed", "sheltered"};
};

/// How warm the roof is kept.
enum class ThermalCondition {
    heated,               ///< all others: Ct 1.0
    just_above_freezing,  ///< also cold, ventilated roofs over insulation: Ct 1.1, from memory
    unheated,             ///< and open to the air: Ct 1.2, from memory
};
template <>
struct NamesOf<ThermalCondition> {
    static constexpr std::array<std::string_view, 3> list{"heated", "just_above_freezing", "unheated"};
};
/// Ct as the caller's professional gives it, 0.8 to 1.5.
struct GivenCt {
    double Ct;
};
using ThermalFactor = std::variant<ThermalCondition, GivenCt>;

/// Whether snow slides off by itself.
enum class RoofSlide {
    slippery,  ///< metal, slate, glass and smooth membranes, nothing in the way and room below for what falls
    other,
};
template <>
struct NamesOf<RoofSlide> {
    static constexpr std::array<std::string_view, 2> list{"slippery", "other"};
};

/// A factor, and whether it rests on memory.
struct SnowFactor {
    double value;
    bool unverified;
};
template <>
struct FieldsOf<SnowFactor> {
    static constexpr auto list =
        field_list(field("value", FieldUnit::ratio, "factor", &SnowFactor::value),
                   field("unverified", FieldUnit::none, "rests on memory", &SnowFactor::unverified));
};

/// Ce: ASCE/SEI 7-02 Table 7-2; 7-10 and 7-16 (Table 7-2, 7.3-1) are the same without terrain A. 7-22 as 7-16, from memory.
/// Throws `FaultError` not_supported where the table has no value.
[[nodiscard]] inline SnowFactor snow_exposure_factor(SnowEdition edition, SnowTerrain terrain, SnowExposure exposure) {
    Faults faults;
    detail::require_named(edition, Path{"edition"}, faults);
    detail::require_named(terrain, Path{"terrain"}, faults);
    detail::require_named(exposure, Path{"exposure"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    constexpr double none = 0.0;
    constexpr std::array<std::array<double, 3>, 6> table{
        {{none, 1.1, 1.3}, {0.9, 1.0, 1.2}, {0.9, 1.0, 1.1}, {0.8, 0.9, 1.0}, {0.7, 0.8, none}, {0.7, 0.8, none}}};
    const double Ce = table[static_cast<std::size_t>(terrain)][static_cast<std::size_t>(exposure)];
    if (Ce == none || (terrain == SnowTerrain::A && edition != SnowEdition::asce7_02)) {
        detail::refuse_load(FaultCode::not_supported, "terrain",
                            std::string{name_of(terrain)} + ", " + std::string{name_of(exposure)} + ", " +
                                std::string{name_of(edition)},
                            "a terrain and exposure that the edition's table has a factor for");
    }
    return {Ce, edition == SnowEdition::asce7_22};
}

/// Ct. By condition to 7-16 only: the table of 7-22 was not obtained, there it is given. Throws `FaultError` not_supported,
/// out_of_range, not_finite.
[[nodiscard]] inline SnowFactor thermal_factor(SnowEdition edition, const ThermalFactor& thermal) {
    Faults faults;
    if (const GivenCt* given = std::get_if<GivenCt>(&thermal)) {
        detail::require_number(given->Ct, 0.8, 1.5, "", Path{"Ct"}, faults);
        if (!faults.empty()) {
            throw FaultError{faults[0]};
        }
        return {given->Ct, false};
    }
    const ThermalCondition condition = std::get<ThermalCondition>(thermal);
    detail::require_named(condition, Path{"thermal"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    if (edition == SnowEdition::asce7_22) {
        detail::refuse_load(FaultCode::not_supported, "thermal", std::string{name_of(condition)},
                            "Ct as given: the table of 7-22 was not obtained");
    }
    switch (condition) {
        case ThermalCondition::just_above_freezing: return {1.1, true};
        case ThermalCondition::unheated: return {1.2, true};
        case ThermalCondition::heated: break;
    }
    return {1.0, false};
}

/// Cs with the line it lies on: 1 up to `full_deg`, then straight to 0 at 70 deg.
struct SlopeFactor {
    double Cs;
    Angle slope;
    double full_deg;
    std::string_view figure;
    bool unverified;
};
template <>
struct FieldsOf<SlopeFactor> {
    static constexpr auto list =
        field_list(field("Cs", FieldUnit::ratio, "slope factor", &SlopeFactor::Cs),
                   field("slope", FieldUnit::angle, "of the roof", &SlopeFactor::slope),
                   field("full_deg", FieldUnit::ratio, "degrees up to which all snow stays", &SlopeFactor::full_deg),
                   field("figure", FieldUnit::none, "figure", &SlopeFactor::figure),
                   field("unverified", FieldUnit::none, "rests on memory", &SlopeFactor::unverified));
};

/// Cs by the lines of ASCE/SEI 7 Fig. 7-2 (7.4-1): Ct up to 1.0, Ct 1.1, Ct 1.2 and more. The slippery line of Ct 1.1 is read,
/// the others are from memory. One printing draws the slippery line of Ct 1.1 wrong; the equation holds. Throws `FaultError`
/// not_supported for a Ct between the lines.
[[nodiscard]] inline SlopeFactor slope_factor_of_snow(double Ct, RoofSlide surface, Pitch pitch) {
    Faults faults;
    detail::require_number(Ct, 0.8, 1.5, "", Path{"Ct"}, faults);
    detail::require_named(surface, Path{"surface"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    constexpr std::array<std::array<double, 2>, 3> full_deg{{{5.0, 30.0}, {10.0, 37.5}, {15.0, 45.0}}};
    constexpr std::array<std::string_view, 3> figures{"ASCE/SEI 7 Fig. 7.4-1a", "ASCE/SEI 7 Fig. 7.4-1b",
                                                      "ASCE/SEI 7 Fig. 7.4-1c"};
    constexpr double same = 1e-9;
    const bool between = (Ct > 1.0 + same && Ct < 1.1 - same) || (Ct > 1.1 + same && Ct < 1.2 - same);
    if (between) {
        detail::refuse_load(FaultCode::not_supported, "Ct", write_decimal(Ct, 6), "up to 1.0, 1.1, or 1.2 and more");
    }
    const std::size_t line = Ct <= 1.0 + same ? 0 : Ct <= 1.1 + same ? 1 : 2;
    const double full = full_deg[line][static_cast<std::size_t>(surface)];
    const double deg = degrees(pitch.angle());
    const double falling = (70.0 - deg) / (70.0 - full);
    const double Cs = falling > 1.0 ? 1.0 : falling < 0.0 ? 0.0 : falling;
    return {Cs, pitch.angle(), full, figures[line], !(line == 1 && surface == RoofSlide::slippery)};
}

}  // namespace eavewright
