// SPDX-License-Identifier: BSL-1.0
#pragma once

// What the fasteners of a roof are held against: the wind at the site, the wood, and the nails and screws themselves.

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/screw_sizes.hpp>
#include <eavewright/fastening/wood_gravity.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/holding/lumber_values.hpp>
#include <eavewright/holding/zone_patterns.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/roof_zones.hpp>
#include <eavewright/loads/snow.hpp>
#include <eavewright/loads/velocity_pressure.hpp>
#include <eavewright/units/areal_mass.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/wind_speed.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// The wind at the site. Edition, exposure, speed and enclosure have no default: only the code in force knows them.
struct WindPlan {
    WindEdition edition;
    WindExposure exposure;
    WindSpeed speed;
    Enclosure enclosure;
    EdgeDatum measured_from = EdgeDatum::wall;  ///< wider strips, never narrower
    double Kzt = 1.0;                           ///< level ground
    Length ground_elevation = no_length;        ///< above sea level: no relief asked for thin air
};

/// What the purlins are checked for: their lumber, and the loads besides wind and the layers that the roof has.
struct PurlinStrength {
    LumberGrade grade;
    std::optional<SnowSite> snow{};
    std::optional<ArealMass>
        other_dead{};            ///< hung from the purlins or laid on them, besides sheets, steel and themselves
    double live_limit = 180.0;   ///< bay over the sag under snow or roof live load: IRC Table R802.4.1, no ceiling
    double total_limit = 120.0;  ///< with the dead load; common practice
};

/// The fasteners of a roof against the wind, and its purlins.
struct HoldingPlan {
    WindPlan wind;
    NdsEdition wood_standard;
    SpeciesCombination purlins;
    NailShank nail;
    std::vector<NailShank> other_nails{};           ///< set beside it
    std::optional<OvendryGravity> sheet_gravity{};  ///< with it, heads are checked too
    std::optional<ScrewShank> screw{};              ///< of the steel
    Length steel_and_washer = one_inch / 8.0;       ///< under a screw's head; common practice
    WoodMoisture when_driven = WoodMoisture::dry;
    WoodMoisture in_service = WoodMoisture::dry;
    SustainedHeat heat = SustainedHeat::to_100_f;
    std::optional<PurlinStrength> purlin_strength{};
    std::vector<ZoneSpacing> zones{};  ///< nail spacing of zones that have their own; the deck's elsewhere
};

/// Most shanks that are compared.
inline constexpr std::size_t most_other_nails = 20;

inline void find_faults(const WindPlan& wind, const Path& path, Faults& faults) {
    detail::require_named(wind.enclosure, Path{path, "enclosure"}, faults);
    detail::require_named(wind.measured_from, Path{path, "measured_from"}, faults);
    find_faults(WindSite{.edition = wind.edition,
                         .exposure = wind.exposure,
                         .speed = wind.speed,
                         .mean_roof_height = Length::from_feet(15.0),  // the roof's own comes with its shape
                         .Kzt = wind.Kzt,
                         .ground_elevation = wind.ground_elevation},
                path, faults);
}

inline void find_faults(const HoldingPlan& plan, const Path& path, Faults& faults) {
    find_faults(plan.wind, Path{path, "wind"}, faults);
    detail::require_named(plan.wood_standard, Path{path, "wood_standard"}, faults);
    detail::require_named(plan.purlins, Path{path, "purlins"}, faults);
    find_faults(plan.nail, Path{path, "nail"}, faults);
    const Path others{path, "other_nails"};
    if (plan.other_nails.size() > most_other_nails) {
        faults.push_back(Fault{FaultCode::too_much_work, others.text(), std::to_string(plan.other_nails.size()),
                               "at most " + std::to_string(most_other_nails)});
        return;
    }
    for (std::size_t i = 0; i < plan.other_nails.size(); ++i) {
        find_faults(plan.other_nails[i], Path{others, i}, faults);
    }
    if (plan.screw) {
        find_faults(*plan.screw, Path{path, "screw"}, faults);
    }
    require_within(plan.steel_and_washer, no_length, one_inch, Path{path, "steel_and_washer"}, faults);
    if (plan.purlin_strength) {
        const Path strength{path, "purlin_strength"};
        detail::require_named(plan.purlin_strength->grade, Path{strength, "grade"}, faults);
        if (plan.purlin_strength->snow) {
            find_faults(*plan.purlin_strength->snow, Path{strength, "snow"}, faults);
        }
        detail::require_number(plan.purlin_strength->live_limit, 1.0, 10000.0, "", Path{strength, "live_limit"},
                               faults);
        detail::require_number(plan.purlin_strength->total_limit, 1.0, 10000.0, "", Path{strength, "total_limit"},
                               faults);
    }
    find_faults(plan.zones, Path{path, "zones"}, faults);
}

}  // namespace eavewright
