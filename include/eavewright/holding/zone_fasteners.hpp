// SPDX-License-Identifier: BSL-1.0
#pragma once

// Nails of a deck against the wind, zone by zone: the hardest-worked nail, and the widest spacing that would still hold.

#include <eavewright/fastening/nail_pattern.hpp>
#include <eavewright/fastening/nail_places.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/carried_areas.hpp>
#include <eavewright/holding/nail_holding.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/loads/zone_pressures.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// Fasteners of one zone and the load on the hardest-worked of them.
struct ZoneFasteners {
    RoofZone zone;
    bool overhang;
    std::int64_t fasteners;
    std::optional<Pressure> uplift;        ///< at allowable stress level; none where it was refused
    Length widest_across;                  ///< widest stretch of roof that a row between carries, across the rows
    Area area;                             ///< largest that one carries
    Force load;                            ///< on it
    PlanePoint place;                      ///< where it stands
    double utilisation;                    ///< load over what is allowed; 0 where there is no pressure
    std::optional<Length> widest_spacing;  ///< along a row between, so that it is used up
    Verdict verdict;
    std::string reason;  ///< why there is no verdict; empty where there is one
};
template <>
struct FieldsOf<ZoneFasteners> {
    static constexpr auto list = field_list(
        field("zone", FieldUnit::none, "zone of the roof", &ZoneFasteners::zone),
        field("overhang", FieldUnit::none, "its part over no room", &ZoneFasteners::overhang),
        field("fasteners", FieldUnit::count, "fasteners that stand in it", &ZoneFasteners::fasteners),
        field(
            "uplift_psf", FieldUnit::ratio,
            "uplift at allowable stress level in pounds per square foot, null where it cannot be given",
            +[](const ZoneFasteners& z) {
                return z.uplift ? std::optional<double>{psf(*z.uplift)} : std::optional<double>{};
            }),
        field("widest_across", FieldUnit::length, "widest stretch that a row between carries",
              &ZoneFasteners::widest_across),
        field("area", FieldUnit::area, "largest area that one carries", &ZoneFasteners::area),
        field(
            "load_lb", FieldUnit::ratio, "load on that one in pounds",
            +[](const ZoneFasteners& z) { return pounds_force(z.load); }),
        field("place", FieldUnit::length, "where it stands", &ZoneFasteners::place),
        field("utilisation", FieldUnit::ratio, "its load over what it is allowed", &ZoneFasteners::utilisation),
        field("widest_spacing", FieldUnit::length, "along a row between, at which it is used up",
              &ZoneFasteners::widest_spacing),
        field("verdict", FieldUnit::none, "holds, fails, or no verdict", &ZoneFasteners::verdict),
        field("reason", FieldUnit::none, "why there is no verdict", &ZoneFasteners::reason));
};

namespace detail {
/// A row at an end of its piece carries little; the widest is looked for among those between.
[[nodiscard]] inline bool is_row_between(const NailPlace& place) { return !place.edge; }
[[nodiscard]] inline bool is_row_between(const ScrewPlace& place) { return place.use == ScrewUse::field; }

/// The verdict on one zone, and why there is none.
inline void judge_zone(ZoneFasteners& zone, const ZonePressure& pressure, bool holding_unverified) {
    if (!pressure.net) {
        zone.reason = pressure.refused;
    } else if (pressure.net->unverified) {
        zone.reason = "the wind's coefficient or where the zone lies rests on memory";
    } else if (holding_unverified) {
        zone.reason = "what a fastener holds rests on memory";
    } else {
        zone.verdict = zone.utilisation <= 1.0 ? Verdict::holds : Verdict::fails;
    }
}

/// Loads of the fasteners by zone, each by its own place.
template <class Place>
[[nodiscard]] std::vector<ZoneFasteners> load_zones(const std::vector<Place>& places,
                                                    const std::vector<CarriedArea>& carried, const WindOnPlane& wind,
                                                    const std::vector<ZonePressure>& pressures) {
    std::vector<ZoneFasteners> zones;
    for (const ZonePressure& pressure : pressures) {
        const std::optional<Pressure> uplift =
            pressure.net ? std::optional<Pressure>{-pressure.net->uplift.asd} : std::nullopt;
        zones.push_back({pressure.zone,
                         pressure.overhang,
                         0,
                         uplift,
                         no_length,
                         Area::from_value(0.0),
                         force_from_pounds(0.0),
                         {no_length, no_length},
                         0.0,
                         std::nullopt,
                         Verdict::no_verdict,
                         {}});
    }
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (places[i].piece < 0) {
            continue;
        }
        const std::size_t at = find_zone(pressures, zone_near(wind.zones, places[i].place));
        if (at == zones.size()) {
            continue;
        }
        ZoneFasteners& zone = zones[at];
        ++zone.fasteners;
        if (is_row_between(places[i])) {
            zone.widest_across = longer(zone.widest_across, carried[i].across);
        }
        if (square_inches(carried[i].area) > square_inches(zone.area)) {
            zone.area = carried[i].area;
            zone.place = places[i].place;
        }
    }
    return zones;
}

/// What a fastener is allowed against the loads: utilisation, widest spacing, verdict.
inline void hold_against(std::vector<ZoneFasteners>& zones, const std::vector<ZonePressure>& pressures,
                         Allowable allowed, bool unverified) {
    for (std::size_t i = 0; i < zones.size(); ++i) {
        ZoneFasteners& zone = zones[i];
        if (zone.uplift) {
            zone.load = *zone.uplift * zone.area;
            zone.utilisation = utilisation(zone.load, allowed);
            const LineLoad along = *zone.uplift * zone.widest_across;
            if (zone.widest_across > no_length) {
                zone.widest_spacing = allowed.force() / along;
            }
        }
        judge_zone(zone, pressures[i], unverified);
    }
}
}  // namespace detail

/// The effective wind area of one nail or screw is the area it carries, which is below the 10 sq ft down to which every
/// coefficient is constant.
inline constexpr Area fastener_wind_area = area_from_square_feet(10.0);

/// Nails by zone against the wind. A nail is judged in the zone where it stands, for the area that it carries, by withdrawal
/// alone; the weight of the roof is not counted on. Every zone of the plane is listed, overhangs apart: their pressure is
/// refused, and so is their verdict. No verdict either where a coefficient, the place of a zone or what the nail holds rests on
/// memory. Throws `FaultError` where nails and sheets do not belong together.
[[nodiscard]] inline std::vector<ZoneFasteners> zone_nails(const std::vector<NailPlace>& nails, const Sheets& sheets,
                                                           const WindOnPlane& wind, const NailHolding& holding) {
    const std::vector<ZonePressure> pressures = zone_pressures(wind, fastener_wind_area);
    std::vector<ZoneFasteners> zones = detail::load_zones(nails, carried_areas(nails, sheets), wind, pressures);
    detail::hold_against(zones, pressures, holding.allowed, holding.unverified);
    return zones;
}

}  // namespace eavewright
