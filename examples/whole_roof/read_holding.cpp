// SPDX-License-Identifier: BSL-1.0
#include "read_holding.hpp"

#include <eavewright/units/wind_speed.hpp>

#include <optional>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

/// What the library refuses while a value is made becomes a fault of its field.
template <class Make, class Value>
Value made_or(JsonFields& fields, const std::string& key, Value stand_in, Make make) {
    try {
        return make();
    } catch (const FaultError& error) {
        fields.refuse(key, error.fault().given, error.fault().required);
        return stand_in;
    }
}

WindSpeed read_speed(JsonFields& wind) {
    const WindSpeed calm = WindSpeed::from_mph(1.0);
    switch (wind.one_of({"speed_mph", "speed_m_s"})) {
        case 0:
            return made_or(wind, "speed_mph", calm, [&] { return WindSpeed::from_mph(wind.number("speed_mph", 1.0)); });
        case 1:
            return made_or(wind, "speed_m_s", calm,
                           [&] { return WindSpeed::from_metres_per_second(wind.number("speed_m_s", 1.0)); });
        default: return calm;
    }
}

WindPlan read_wind(JsonFields wind) {
    WindPlan plan{.edition = wind.name("standard", WindEdition::asce7_22),
                  .exposure = wind.name("exposure", WindExposure::C),
                  .speed = read_speed(wind),
                  .enclosure = wind.name("enclosure", Enclosure::enclosed)};
    plan.measured_from = wind.name_or("measured_from", plan.measured_from);
    plan.Kzt = wind.number_or("Kzt", plan.Kzt);
    plan.ground_elevation = wind.length_or("ground_elevation", plan.ground_elevation);
    wind.finish();
    return plan;
}

NailShank read_nail(JsonFields nail) {
    const NailShank stand_in = standard_nail(NailStyle::common, Penny::d8);
    const auto by_penny = [&](const char* key, NailStyle style) {
        const Penny penny = nail.name(key, Penny::d8);
        return made_or(nail, key, stand_in, [&] { return standard_nail(style, penny); });
    };
    NailShank read = stand_in;
    switch (nail.one_of({"common", "box", "sinker", "roof_sheathing_ring", "post_frame_ring"})) {
        case 0: read = by_penny("common", NailStyle::common); break;
        case 1: read = by_penny("box", NailStyle::box); break;
        case 2: read = by_penny("sinker", NailStyle::sinker); break;
        case 3: {
            const RoofSheathingRing which = nail.name("roof_sheathing_ring", RoofSheathingRing::rsrs_01);
            read = made_or(nail, "roof_sheathing_ring", stand_in, [&] { return roof_sheathing_ring_nail(which); });
            break;
        }
        case 4: {
            const Length diameter = nail.length("post_frame_ring", 0.148_in);
            const Length length = nail.length("length", 3_in);
            read = made_or(nail, "post_frame_ring", stand_in, [&] { return post_frame_ring_nail(diameter, length); });
            break;
        }
        default: break;
    }
    nail.finish();
    return read;
}

ScrewShank read_screw(JsonFields screw) {
    const ScrewShank stand_in = wood_screw(10, 1.5_in);
    const int number = screw.whole("wood_screw", 10);
    const Length length = screw.length("length", 1.5_in);
    const ScrewShank read = made_or(screw, "wood_screw", stand_in, [&] { return wood_screw(number, length); });
    screw.finish();
    return read;
}

ZoneSpacing read_zone(JsonFields zone) {
    const ZoneSpacing read{zone.name("zone", RoofZone::zone_1), zone.length("edge", 6_in), zone.length("field", 6_in)};
    zone.finish();
    return read;
}

SnowSite read_snow(JsonFields snow) {
    SnowSite site{.edition = snow.name("standard", SnowEdition::asce7_22),
                  .ground_snow = pressure_from_psf(0.0),
                  .terrain = snow.name("terrain", SnowTerrain::C),
                  .exposure = snow.name("exposure", SnowExposure::partially_exposed),
                  .thermal = ThermalCondition::heated,
                  .importance = std::nullopt,
                  .surface = snow.name("surface", RoofSlide::other)};
    switch (snow.one_of({"ground_psf", "ground_kpa"})) {
        case 0: site.ground_snow = pressure_from_psf(snow.number("ground_psf", 0.0)); break;
        case 1: site.ground_snow = pressure_from_pascals(1000.0 * snow.number("ground_kpa", 0.0)); break;
        default: break;
    }
    if (snow.one_of({"thermal", "Ct"}) == 1) {
        site.thermal = GivenCt{snow.number("Ct", 1.0)};
    } else {
        site.thermal = snow.name("thermal", ThermalCondition::heated);
    }
    if (snow.has("importance")) {
        site.importance = snow.number("importance", 1.0);
    }
    snow.finish();
    return site;
}

PurlinStrength read_strength(JsonFields strength) {
    PurlinStrength read{.grade = strength.name("grade", LumberGrade::spruce_pine_fir_no2)};
    if (auto snow = strength.object_or_none("snow")) {
        read.snow = read_snow(*snow);
    }
    if (strength.has("other_dead_lb_per_sq_ft")) {
        const double pounds_a_foot = strength.number("other_dead_lb_per_sq_ft", 0.0);
        read.other_dead = made_or(strength, "other_dead_lb_per_sq_ft", ArealMass::from_pounds_per_square_foot(0.0),
                                  [&] { return ArealMass::from_pounds_per_square_foot(pounds_a_foot); });
    }
    read.live_limit = strength.number_or("live_limit", read.live_limit);
    read.total_limit = strength.number_or("total_limit", read.total_limit);
    strength.finish();
    return read;
}

/// Optional fields.
void read_rest(JsonFields& holding, HoldingPlan& plan) {
    for (JsonFields& other : holding.objects_or_none("other_nails")) {
        plan.other_nails.push_back(read_nail(other));
    }
    if (holding.has("sheet_gravity")) {
        const double gravity = holding.number("sheet_gravity", 0.5);
        plan.sheet_gravity =
            made_or(holding, "sheet_gravity", OvendryGravity::of(0.5), [&] { return OvendryGravity::of(gravity); });
    }
    if (auto screw = holding.object_or_none("screw")) {
        plan.screw = read_screw(*screw);
    }
    plan.steel_and_washer = holding.length_or("steel_and_washer", plan.steel_and_washer);
    plan.when_driven = holding.name_or("wood_when_driven", plan.when_driven);
    plan.in_service = holding.name_or("wood_in_service", plan.in_service);
    plan.heat = holding.name_or("sustained_heat", plan.heat);
    if (auto strength = holding.object_or_none("purlin_strength")) {
        plan.purlin_strength = read_strength(*strength);
    }
    for (JsonFields& zone : holding.objects_or_none("zones")) {
        plan.zones.push_back(read_zone(zone));
    }
}

}  // namespace

HoldingPlan read_holding(JsonFields holding) {
    HoldingPlan plan{.wind = read_wind(holding.object("wind")),
                     .wood_standard = holding.name("wood_standard", NdsEdition::nds_2018),
                     .purlins = holding.name("purlins", SpeciesCombination::spruce_pine_fir),
                     .nail = read_nail(holding.object("nail"))};
    read_rest(holding, plan);
    holding.finish();
    return plan;
}
