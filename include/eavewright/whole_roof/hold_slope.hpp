// SPDX-License-Identifier: BSL-1.0
#pragma once

// One slope's fasteners against the wind: zones of its plane, nails and screws where they stand, what they are used to.

#include <eavewright/fastening/fastener_findings.hpp>
#include <eavewright/fastening/nail_places.hpp>
#include <eavewright/fastening/screw_places.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/holding/fastener_holding.hpp>
#include <eavewright/holding/zone_fasteners.hpp>
#include <eavewright/holding/zone_patterns.hpp>
#include <eavewright/loads/roof_zones.hpp>
#include <eavewright/loads/velocity_pressure.hpp>
#include <eavewright/loads/zone_pressures.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/hold_purlins.hpp>
#include <eavewright/whole_roof/holding_result.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <cstddef>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright::detail {

[[nodiscard]] inline RoofForm form_of(const ShapeInput& shape) {
    return std::holds_alternative<GableRoof>(shape) ? RoofForm::gable : RoofForm::monoslope;
}

/// Halfway up the roof, or the eave where it is that low, above the benchmark, which is taken for the ground.
[[nodiscard]] inline Length wind_height(const RoofDescription& roof, const RoofShape& shape) {
    return mean_roof_height(shape.heights.chord_at_eave, longer(shape.heights.deck_peak, shape.heights.chord_at_eave),
                            pitch_of(roof.shape));
}

[[nodiscard]] inline VelocityPressure wind_pressure_of(const RoofDescription& roof, const RoofShape& shape) {
    const WindPlan& wind = roof.holding->wind;
    return velocity_pressure({.edition = wind.edition,
                              .exposure = wind.exposure,
                              .speed = wind.speed,
                              .mean_roof_height = wind_height(roof, shape),
                              .Kzt = wind.Kzt,
                              .ground_elevation = wind.ground_elevation});
}

/// Zones of the plane that the sheets lie on.
template <Surface surface>
[[nodiscard]] RoofZones zones_of(const RoofDescription& roof, const RoofShape& shape, const Slope& slope,
                                 const Plane<surface>& plane) {
    const WindPlan& wind = roof.holding->wind;
    const SingleSlopeRoof* const single = std::get_if<SingleSlopeRoof>(&roof.shape);
    const Length high = single != nullptr ? single->high_overhang : no_length;
    const Length eave = slope.total_run - slope.run - high;
    return roof_zones(plane, {.edition = wind.edition,
                              .form = form_of(roof.shape),
                              .mean_roof_height = wind_height(roof, shape),
                              .least_width = shorter(shape.footprint_width, shape.footprint_length),
                              .measured_from = wind.measured_from,
                              .eave_overhang = eave,
                              .rake_overhang = rake_overhang_of(roof.shape),
                              .high_overhang = high});
}

[[nodiscard]] inline FastenedInto fastened_into(const RoofDescription& roof, Length above) {
    const HoldingPlan& plan = *roof.holding;
    const PurlinStock& stock = roof.purlins->stock;
    return {.edition = plan.wood_standard,
            .drive = {above, stock.lie == PurlinLie::flat ? stock.thickness : stock.depth},
            .gravity = assigned_gravity(plan.purlins, plan.wood_standard),
            .use = {.duration = LoadDuration::ten_minutes,
                    .when_driven = plan.when_driven,
                    .in_service = plan.in_service,
                    .heat = plan.heat}};
}

/// Spacing of one zone: its own, or the deck's.
[[nodiscard]] inline ZoneNails nails_of_zone(const RoofDescription& roof, ZoneFasteners loaded) {
    ZoneNails nails{roof.deck->nails.edge, roof.deck->nails.field, std::move(loaded)};
    for (const ZoneSpacing& own : roof.holding->zones) {
        if (own.zone == nails.loaded.zone) {
            nails.edge = own.edge;
            nails.field = own.field;
        }
    }
    return nails;
}

template <Surface surface>
void hold_nails(const RoofDescription& roof, const WindOnPlane& wind, const Supports<surface>& supports,
                const SlopeResult& slope, SlopeHolding& holding) {
    const HoldingPlan& plan = *roof.holding;
    const FastenedInto into = fastened_into(roof, build_up_of(roof.shape).deck);
    const std::vector<NailPlace> places =
        nail_places(slope.sheets, supports, zoned_pattern(wind.zones, roof.deck->nails, plan.zones));
    holding.nail = hold_nail(plan.nail, into, plan.sheet_gravity);
    const std::vector<ZoneFasteners> zones = zone_nails(places, slope.sheets, wind, *holding.nail);
    for (const ZoneFasteners& zone : zones) {
        holding.nails.push_back(nails_of_zone(roof, zone));
    }
    std::vector<NailHolding> shanks{*holding.nail};
    for (const NailShank& other : plan.other_nails) {
        // A nail whose head is not known is compared by its shank alone.
        shanks.push_back(hold_nail(other, into, other.head ? plan.sheet_gravity : std::nullopt));
    }
    holding.shanks = compare_shanks(zones, wind, shanks);
    holding.nail_places = judge_nails(slope.sheets, supports, places);
}

/// The fasteners of a slope whose sheets lie on `plane`, steel and all. `slope` is laid.
template <Surface surface>
[[nodiscard]] SlopeHolding hold_slope(const RoofDescription& roof, const RoofShape& shape, const RoofZones& zones,
                                      const Supports<surface>& supports, const SlopeResult& slope) {
    const WindOnPlane wind{zones, wind_pressure_of(roof, shape), form_of(roof.shape), pitch_of(roof.shape),
                           roof.holding->wind.enclosure};
    SlopeHolding holding{
        zones,       zone_pressures(wind, fastener_wind_area), std::nullopt, {}, {}, std::nullopt, std::nullopt, {},
        std::nullopt};
    if (roof.deck && !roof.deck->overhangs_only) {
        hold_nails(roof, wind, supports, slope, holding);
    }
    if (slope.steel && roof.holding->screw) {
        const bool decked = roof.deck && !roof.deck->overhangs_only;
        const Length above = roof.holding->steel_and_washer + (decked ? build_up_of(roof.shape).deck : no_length);
        holding.screw = hold_screw(*roof.holding->screw, fastened_into(roof, above));
        const Supports<surface> under{SupportRun::along_eave, slope.steel->supports, supports.spacing};
        holding.screws = zone_screws(screw_places(slope.steel->panels, under, roof.steel->screws), slope.steel->panels,
                                     wind, *holding.screw);
    }
    if (roof.holding->purlin_strength) {
        holding.purlins = hold_purlins(roof, slope, wind);
    }
    return holding;
}

}  // namespace eavewright::detail
