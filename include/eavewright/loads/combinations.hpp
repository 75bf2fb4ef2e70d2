// SPDX-License-Identifier: BSL-1.0
#pragma once

// Loads that act together, in allowable stress design, each combination with the load duration factor that wood takes
// under it: the one of its shortest load. A combination that needs a load which is not there is left out, since a shorter one
// covers it and its duration factor would be too kind.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/on_slope.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

namespace eavewright {

/// Combinations of roof loads. Rain, earthquake and floor live load are not among them.
enum class LoadCombination {
    dead,
    dead_snow,
    dead_roof_live,
    dead_wind,
    dead_snow_wind,
    dead_roof_live_wind,
    uplift,  ///< the least dead load against the wind that lifts
};
template <>
struct NamesOf<LoadCombination> {
    static constexpr std::array<std::string_view, 7> list{
        "D", "D+S", "D+Lr", "D+0.6W", "D+0.75S+0.45W", "D+0.75Lr+0.45W", "0.6D+0.6W"};
};
inline constexpr std::size_t load_combination_count = NamesOf<LoadCombination>::list.size();

/// What of each load counts.
struct CombinationFactors {
    double dead;
    double snow;
    double roof_live;
    double wind;           ///< of the strength-level pressure
    double wood_duration;  ///< CD of the shortest load: 0.9 dead, 1.15 snow, 1.25 roof live, 1.6 wind
    std::string_view equation;
    bool unverified;  ///< rests on memory
};
template <>
struct FieldsOf<CombinationFactors> {
    static constexpr auto list = field_list(
        field("dead", FieldUnit::ratio, "share of the dead load", &CombinationFactors::dead),
        field("snow", FieldUnit::ratio, "share of the snow load", &CombinationFactors::snow),
        field("roof_live", FieldUnit::ratio, "share of the roof live load", &CombinationFactors::roof_live),
        field("wind", FieldUnit::ratio, "share of the strength-level wind load", &CombinationFactors::wind),
        field("wood_duration", FieldUnit::ratio, "load duration factor CD of wood", &CombinationFactors::wood_duration),
        field("equation", FieldUnit::none, "combination in the standard", &CombinationFactors::equation),
        field("unverified", FieldUnit::none, "rests on memory", &CombinationFactors::unverified));
};

/// The factors of one combination: ASCE/SEI 7-10 and 7-16, 2.4.1; CD from NDS 2018 Table 2.3.2. From the edition of 2022 snow is
/// given at strength level, of which allowable stress design takes 0.7: that from memory, so `unverified`. Throws `FaultError`
/// unknown_name for a number that is no combination or edition.
[[nodiscard]] inline CombinationFactors combination_factors(LoadCombination combination, WindEdition edition) {
    Faults faults;
    detail::require_named(combination, Path{"combination"}, faults);
    detail::require_named(edition, Path{"edition"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    const bool newest = edition == WindEdition::asce7_22;
    const double snow = newest ? 0.7 : 1.0;
    switch (combination) {
        case LoadCombination::dead: return {1.0, 0.0, 0.0, 0.0, 0.9, "ASCE/SEI 7 2.4.1: D", false};
        case LoadCombination::dead_snow:
            return {1.0,   snow, 0.0, 0.0, 1.15, newest ? "ASCE/SEI 7-22 2.4.1: D + 0.7S" : "ASCE/SEI 7 2.4.1: D + S",
                    newest};
        case LoadCombination::dead_roof_live: return {1.0, 0.0, 1.0, 0.0, 1.25, "ASCE/SEI 7 2.4.1: D + Lr", false};
        case LoadCombination::dead_wind: return {1.0, 0.0, 0.0, 0.6, 1.6, "ASCE/SEI 7 2.4.1: D + 0.6W", false};
        case LoadCombination::dead_snow_wind:
            return {
                1.0,
                0.75 * snow,
                0.0,
                0.75 * 0.6,
                1.6,
                newest ? "ASCE/SEI 7-22 2.4.1: D + 0.75(0.7S) + 0.75(0.6W)" : "ASCE/SEI 7 2.4.1: D + 0.75S + 0.75(0.6W)",
                newest};
        case LoadCombination::dead_roof_live_wind:
            return {1.0, 0.0, 0.75, 0.75 * 0.6, 1.6, "ASCE/SEI 7 2.4.1: D + 0.75Lr + 0.75(0.6W)", false};
        case LoadCombination::uplift: break;
    }
    return {0.6, 0.0, 0.0, 0.6, 1.6, "ASCE/SEI 7 2.4.1: 0.6D + 0.6W", false};
}

/// What acts on one slope. Pressures are 0 to 1000 psf; the two dead loads are by area of the surface, snow and roof live load
/// by area in plan, wind square to the surface at strength level.
struct RoofLoads {
    Pressure dead;         ///< vertical, the heaviest that may be there
    Pressure least_dead;   ///< vertical, the lightest: against uplift only
    Pressure snow;         ///< ps, in plan
    Pressure roof_live;    ///< Lr, in plan
    Pressure wind_down;    ///< towards the roof, as a positive pressure; 0 where there is none
    Pressure wind_uplift;  ///< away from the roof, as a positive pressure; 0 where there is none
};
inline void find_faults(const RoofLoads& loads, const Path& path, Faults& faults) {
    constexpr double most_psf = 1000.0;
    detail::require_number(psf(loads.dead), 0.0, most_psf, " psf", Path{path, "dead"}, faults);
    detail::require_number(psf(loads.least_dead), 0.0, most_psf, " psf", Path{path, "least_dead"}, faults);
    detail::require_number(psf(loads.snow), 0.0, most_psf, " psf", Path{path, "snow"}, faults);
    detail::require_number(psf(loads.roof_live), 0.0, most_psf, " psf", Path{path, "roof_live"}, faults);
    detail::require_number(psf(loads.wind_down), 0.0, most_psf, " psf", Path{path, "wind_down"}, faults);
    detail::require_number(psf(loads.wind_uplift), 0.0, most_psf, " psf", Path{path, "wind_uplift"}, faults);
    if (loads.least_dead > loads.dead) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "least_dead"}.text(),
                               write_decimal(psf(loads.least_dead), 6) + " psf", "no more than the dead load"});
    }
}

/// One combination on a slope, by area of the surface.
struct CombinedLoad {
    LoadCombination combination;
    CombinationFactors factors;
    Pressure normal;  ///< square to the slope; negative where it lifts
    Pressure along;   ///< down the slope
};
template <>
struct FieldsOf<CombinedLoad> {
    static constexpr auto list =
        field_list(field("combination", FieldUnit::none, "what acts together", &CombinedLoad::combination),
                   field("factors", FieldUnit::none, "shares, duration and equation", &CombinedLoad::factors),
                   field(
                       "normal_psf", FieldUnit::ratio,
                       "square to the slope, pounds per square foot of surface, negative where it lifts",
                       +[](const CombinedLoad& c) { return psf(c.normal); }),
                   field(
                       "along_psf", FieldUnit::ratio, "down the slope, pounds per square foot of surface",
                       +[](const CombinedLoad& c) { return psf(c.along); }));
};

namespace detail {
/// Whether every load that the combination is about is there.
[[nodiscard]] inline bool has_its_loads(LoadCombination combination, const RoofLoads& loads) {
    const bool snow = psf(loads.snow) > 0.0;
    const bool live = psf(loads.roof_live) > 0.0;
    const bool wind = psf(loads.wind_down) > 0.0;
    switch (combination) {
        case LoadCombination::dead: return true;
        case LoadCombination::dead_snow: return snow;
        case LoadCombination::dead_roof_live: return live;
        case LoadCombination::dead_wind: return wind;
        case LoadCombination::dead_snow_wind: return snow && wind;
        case LoadCombination::dead_roof_live_wind: return live && wind;
        case LoadCombination::uplift: break;
    }
    return psf(loads.wind_uplift) > 0.0;
}
}  // namespace detail

/// One combination on a slope. Throws `FaultError` with the first fault of `loads`. Shown with `loads_caution`.
[[nodiscard]] inline CombinedLoad combine(LoadCombination combination, const RoofLoads& loads, Pitch pitch,
                                          WindEdition edition) {
    require_sound(loads, "loads");
    const CombinationFactors f = combination_factors(combination, edition);
    const bool lifts = combination == LoadCombination::uplift;
    const SlopeLoad dead = load_from_surface((lifts ? loads.least_dead : loads.dead) * f.dead, pitch);
    const SlopeLoad in_plan = load_from_plan(loads.snow * f.snow + loads.roof_live * f.roof_live, pitch);
    const Pressure wind = (lifts ? -loads.wind_uplift : loads.wind_down) * f.wind;
    return {combination, f, dead.normal + in_plan.normal + wind, dead.along + in_plan.along};
}
/// Every combination whose loads are all there, in the order of `LoadCombination`. Throws as `combine`.
[[nodiscard]] inline std::vector<CombinedLoad> combine_all(const RoofLoads& loads, Pitch pitch, WindEdition edition) {
    std::vector<CombinedLoad> all;
    for (std::size_t i = 0; i < load_combination_count; ++i) {
        const auto combination = static_cast<LoadCombination>(i);
        if (detail::has_its_loads(combination, loads)) {
            all.push_back(combine(combination, loads, pitch, edition));
        }
    }
    return all;
}

}  // namespace eavewright
