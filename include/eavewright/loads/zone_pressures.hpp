// SPDX-License-Identifier: BSL-1.0
#pragma once

// Net pressure of every zone that a plane has, for one effective wind area; where none can be given, why not.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/net_pressure.hpp>
#include <eavewright/loads/roof_zones.hpp>
#include <eavewright/loads/velocity_pressure.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// Wind on one plane.
struct WindOnPlane {
    RoofZones zones;
    VelocityPressure q;
    RoofForm form;
    Pitch pitch;
    Enclosure enclosure;
};

/// What the wind asks of one zone of a plane.
struct ZonePressure {
    RoofZone zone;
    bool overhang;
    Area area;                       ///< of the plane that lies in it, openings not taken out
    std::optional<NetPressure> net;  ///< none where it was refused
    std::string refused;             ///< why; empty where it was not
};
template <>
struct FieldsOf<ZonePressure> {
    static constexpr auto list =
        field_list(field("zone", FieldUnit::none, "zone of the roof", &ZonePressure::zone),
                   field("overhang", FieldUnit::none, "its part over no room", &ZonePressure::overhang),
                   field("area", FieldUnit::area, "of the plane that lies in it", &ZonePressure::area),
                   field("net", FieldUnit::none, "net pressure, null where none can be given", &ZonePressure::net),
                   field("refused", FieldUnit::none, "why none can be given", &ZonePressure::refused));
};

/// Every zone of the plane, mildest first, inside the walls before overhangs, with its pressure on a component of one
/// effective wind area. A zone whose coefficients were not obtained has none, and says so. Throws `FaultError` for inputs that
/// no zone would take.
[[nodiscard]] inline std::vector<ZonePressure> zone_pressures(const WindOnPlane& wind, Area effective_wind_area) {
    std::vector<ZonePressure> found;
    for (const ZoneArea& part : wind.zones.areas) {
        std::size_t i = 0;
        while (i < found.size() && (found[i].zone != part.zone || found[i].overhang != part.overhang)) {
            ++i;
        }
        if (i == found.size()) {
            found.push_back({part.zone, part.overhang, Area::from_value(0.0), std::nullopt, {}});
        }
        found[i].area += part.area;
    }
    std::sort(found.begin(), found.end(), [](const ZonePressure& a, const ZonePressure& b) {
        return a.overhang != b.overhang ? b.overhang : a.zone < b.zone;
    });
    for (ZonePressure& each : found) {
        try {
            each.net = net_pressure(wind.q, {.form = wind.form,
                                             .pitch = wind.pitch,
                                             .zone = {each.zone, each.overhang, wind.zones.unverified},
                                             .effective_wind_area = effective_wind_area,
                                             .enclosure = wind.enclosure});
        } catch (const FaultError& error) {
            if (error.fault().code != FaultCode::not_supported) {
                throw;
            }
            each.refused = "not computed for " + error.fault().given + "; it takes " + error.fault().required;
        }
    }
    return found;
}

/// Index of the zone that a place has among `zones`, or their number where it is none of them.
[[nodiscard]] inline std::size_t find_zone(const std::vector<ZonePressure>& zones, const ZonePlace& place) {
    std::size_t i = 0;
    while (i < zones.size() && (zones[i].zone != place.zone || zones[i].overhang != place.overhang)) {
        ++i;
    }
    return i;
}

}  // namespace eavewright
