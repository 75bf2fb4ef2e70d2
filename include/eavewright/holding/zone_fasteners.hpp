// SPDX-License-Identifier: BSL-1.0
#pragma once

// Nails of a deck against the wind, zone by zone: the hardest-worked nail, and the widest spacing that would still hold.

#include <eavewright/fastening/nail_pattern.hpp>
#include <eavewright/fastening/nail_places.hpp>
#include <eavewright/fastening/screw_places.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/carried_areas.hpp>
#include <eavewright/holding/fastener_holding.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/loads/zone_pressures.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panels.hpp>
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
                         AllowableForce allowed, bool unverified) {
    for (std::size_t i = 0; i < zones.size(); ++i) {
        ZoneFasteners& zone = zones[i];
        if (zone.uplift) {
            zone.load = *zone.uplift * zone.area;
            zone.utilisation = utilisation(zone.load, allowed);
            const LineLoad along = *zone.uplift * zone.widest_across;
            if (zone.widest_across > no_length) {
                zone.widest_spacing = allowed.amount() / along;
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

/// Screws of steel panels by zone against the wind, by withdrawal alone. Stitch screws carry nothing. There is never a verdict:
/// whether the steel tears over the heads is for the panel maker's tests to say. Throws as `zone_nails`.
[[nodiscard]] inline std::vector<ZoneFasteners> zone_screws(const std::vector<ScrewPlace>& screws, const Panels& panels,
                                                            const WindOnPlane& wind, const ScrewHolding& holding) {
    const std::vector<ZonePressure> pressures = zone_pressures(wind, fastener_wind_area);
    std::vector<ZoneFasteners> zones = detail::load_zones(screws, carried_areas(screws, panels), wind, pressures);
    detail::hold_against(zones, pressures, holding.pull_out.force, holding.pull_out.unverified);
    for (ZoneFasteners& zone : zones) {
        zone.verdict = Verdict::no_verdict;
        zone.reason = zone.reason.empty() ? "whether the steel tears over the heads is not computed" : zone.reason;
    }
    return zones;
}

/// One shank in one zone, beside the others.
struct ShankInZone {
    RoofZone zone;
    bool overhang;
    double utilisation;  ///< 0 where there is no pressure
    std::optional<Length> widest_spacing;
    Verdict verdict;
};
template <>
struct FieldsOf<ShankInZone> {
    static constexpr auto list =
        field_list(field("zone", FieldUnit::none, "zone of the roof", &ShankInZone::zone),
                   field("overhang", FieldUnit::none, "its part over no room", &ShankInZone::overhang),
                   field("utilisation", FieldUnit::ratio, "load over what is allowed", &ShankInZone::utilisation),
                   field("widest_spacing", FieldUnit::length, "along a row between, at which it is used up",
                         &ShankInZone::widest_spacing),
                   field("verdict", FieldUnit::none, "holds, fails, or no verdict", &ShankInZone::verdict));
};
struct ShankCompared {
    NailHolding holding;
    std::vector<ShankInZone> zones;  ///< in the order of the zones
};
template <>
struct FieldsOf<ShankCompared> {
    static constexpr auto list =
        field_list(field("holding", FieldUnit::none, "what the nail holds", &ShankCompared::holding),
                   field("zones", FieldUnit::none, "how it does in each zone", &ShankCompared::zones));
};

/// Other nails in the same places: what each would be used to, zone by zone. `loaded` as `zone_nails` gives it.
[[nodiscard]] inline std::vector<ShankCompared> compare_shanks(const std::vector<ZoneFasteners>& loaded,
                                                               const WindOnPlane& wind,
                                                               const std::vector<NailHolding>& shanks) {
    const std::vector<ZonePressure> pressures = zone_pressures(wind, fastener_wind_area);
    std::vector<ShankCompared> compared;
    for (const NailHolding& shank : shanks) {
        std::vector<ZoneFasteners> zones = loaded;
        for (ZoneFasteners& zone : zones) {
            zone.verdict = Verdict::no_verdict;
        }
        detail::hold_against(zones, pressures, shank.allowed, shank.unverified);
        compared.push_back({shank, {}});
        for (const ZoneFasteners& zone : zones) {
            compared[compared.size() - 1].zones.push_back(
                {zone.zone, zone.overhang, zone.utilisation, zone.widest_spacing, zone.verdict});
        }
    }
    return compared;
}

}  // namespace eavewright
