// SPDX-License-Identifier: BSL-1.0
#pragma once

// The purlins of one slope against dead load, snow, roof live load and the wind of each zone: as they lie and the other way, with
// and without the roof holding their weak axis.

#include <eavewright/fault.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_row.hpp>
#include <eavewright/framing/row_spacing.hpp>
#include <eavewright/holding/purlin_check.hpp>
#include <eavewright/holding/section.hpp>
#include <eavewright/loads/dead.hpp>
#include <eavewright/loads/net_pressure.hpp>
#include <eavewright/loads/pressure_coefficients.hpp>
#include <eavewright/loads/roof_live.hpp>
#include <eavewright/loads/snow.hpp>
#include <eavewright/loads/zone_pressures.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/holding_result.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright::detail {

/// The nominal size whose dressed section the purlins have.
[[nodiscard]] inline NominalSize nominal_size_of(const PurlinStock& stock) {
    const Length thin = shorter(stock.thickness, stock.depth);
    const Length wide = longer(stock.thickness, stock.depth);
    for (const double width : {4.0, 6.0, 8.0, 10.0, 12.0}) {
        const NominalSize nominal{Length::from_inches(2.0), Length::from_inches(width)};
        const Section dressed = dressed_section(nominal, Seasoning::dry);
        if (magnitude(dressed.breadth - thin) < one_inch / 64.0 && magnitude(dressed.depth - wide) < one_inch / 64.0) {
            return nominal;
        }
    }
    throw FaultError{Fault{FaultCode::not_supported, "purlins.stock",
                           describe_length(stock.thickness) + " x " + describe_length(stock.depth),
                           "a dressed dry size from 2x4 to 2x12, whose values are listed"}};
}

/// What lies on a purlin, and the purlin.
[[nodiscard]] inline std::vector<DeadLayer> layers_on(const RoofDescription& roof, Length spacing) {
    const PurlinStrength& plan = *roof.holding->purlin_strength;
    const PurlinStock& stock = roof.purlins->stock;
    std::vector<DeadLayer> layers;
    if (roof.deck && !roof.deck->overhangs_only) {
        layers.push_back(roof.handling && roof.handling->sheet
                             ? DeadLayer{GivenLayer{"sheets", *roof.handling->sheet}}
                             : DeadLayer{WoodPanelLayer{build_up_of(roof.shape).deck}});
    }
    if (roof.steel) {
        layers.push_back(roof.handling && roof.handling->panel ? DeadLayer{GivenLayer{"steel", *roof.handling->panel}}
                                                               : DeadLayer{ListedLayer::ribbed_panel_29_gauge});
    }
    layers.push_back(MemberLayer{{assigned_gravity(roof.holding->purlins, roof.holding->wood_standard).ratio(), 19.0},
                                 shorter(stock.thickness, stock.depth),
                                 longer(stock.thickness, stock.depth),
                                 spacing});
    if (plan.other_dead) {  // last: `lightest_on` leaves it out
        layers.push_back(GivenLayer{"other layers", *plan.other_dead});
    }
    return layers;
}

/// What is sure to lie there when it lifts: sheets, steel and the purlins themselves.
[[nodiscard]] inline DeadLoad lightest_on(const RoofDescription& roof, Length spacing) {
    std::vector<DeadLayer> layers = layers_on(roof, spacing);
    if (roof.holding->purlin_strength->other_dead) {
        layers.pop_back();
    }
    return dead_load(layers, pitch_of(roof.shape));
}

/// Widest bay between frames and widest space between rows that any purlin of the slope has.
[[nodiscard]] inline Length widest_bay(const FrameLines& frames) {
    Length widest = no_length;
    for (std::size_t i = 1; i < frames.centres.size(); ++i) {
        widest = longer(widest, frames.centres[i] - frames.centres[i - 1]);
    }
    return widest;
}

/// Loads that no zone changes, and the purlin without its wind.
[[nodiscard]] inline Purlin unloaded_purlin(const RoofDescription& roof, const SlopeResult& slope, const DeadLoad& dead,
                                            const std::optional<SnowLoad>& snow) {
    const PurlinStrength& plan = *roof.holding->purlin_strength;
    const Length bay = widest_bay(slope.frames);
    const Length spacing = slope.purlins->widest_space;
    const Pressure nothing = pressure_from_psf(0.0);
    const RoofLiveLoad live = roof_live_load(bay * spacing, pitch_of(roof.shape));
    const bool covered = roof.deck || roof.steel;
    return {
        .edition = roof.holding->wind.edition,
        .pitch = pitch_of(roof.shape),
        .grade = plan.grade,
        .size = nominal_size_of(roof.purlins->stock),
        .set = roof.purlins->stock.lie == PurlinLie::flat ? MemberSet::flat : MemberSet::on_edge,
        .bay = bay,
        .spacing = spacing,
        .members = static_cast<int>(slope.purlins->rows.size()),
        .joined = covered,
        .weak_axis = WeakAxis::free,
        .support = {.ends_held = true, .one_edge_held = covered, .both_edges_held = false, .bridging = std::nullopt},
        .loads = {.dead = dead.load.on_surface,
                  .least_dead = lightest_on(roof, spacing).load.on_surface,
                  .snow = snow ? snow->sloped.in_plan : nothing,
                  .roof_live = live.load.in_plan,
                  .wind_down = nothing,
                  .wind_uplift = nothing},
        .loads_unverified = dead.unverified || (snow && snow->unverified),
        .live_limit = plan.live_limit,
        .total_limit = plan.total_limit};
}

[[nodiscard]] inline PurlinInZone purlin_in_zone(const Purlin& purlin, const ZonePressure& zone) {
    const PurlinCheck check = check_purlin(purlin);
    return {.zone = zone.zone,
            .set = purlin.set,
            .weak_axis = purlin.weak_axis,
            .utilisation = check.utilisation,
            .governs = check.governs,
            .verdict = check.verdict,
            .uplift_one_end = check.uplift.one_end,
            .uplift_both = check.uplift.both_purlins};
}

/// Purlins of a slope in every zone inside the walls whose pressure is known.
[[nodiscard]] inline PurlinHolding hold_purlins(const RoofDescription& roof, const SlopeResult& slope,
                                                const WindOnPlane& wind) {
    const PurlinStrength& plan = *roof.holding->purlin_strength;
    const EffectiveWindArea area = effective_wind_area(widest_bay(slope.frames), slope.purlins->widest_space);
    const DeadLoad dead = dead_load(layers_on(roof, slope.purlins->widest_space), pitch_of(roof.shape));
    const std::optional<SnowLoad> snow =
        plan.snow ? std::optional<SnowLoad>{balanced_snow(*plan.snow, pitch_of(roof.shape))} : std::nullopt;
    Purlin purlin = unloaded_purlin(roof, slope, dead, snow);
    const bool unverified = purlin.loads_unverified;
    PurlinHolding holding{area, dead, snow, {}, std::nullopt};
    const bool may_hold = roof_may_hold_weak_axis(purlin.pitch, purlin.bay, roof.steel.has_value());
    const WeakAxis held = may_hold ? WeakAxis::held_by_roof : WeakAxis::held_by_design;
    const MemberSet as_laid = purlin.set;
    for (const ZonePressure& zone : zone_pressures(wind, area.area)) {
        if (!zone.net) {
            continue;
        }
        purlin.loads.wind_uplift = -zone.net->uplift.strength;
        purlin.loads.wind_down = zone.net->downward ? zone.net->downward->strength : pressure_from_psf(0.0);
        purlin.loads_unverified = unverified || zone.net->unverified;
        for (const MemberSet set : {as_laid, as_laid == MemberSet::flat ? MemberSet::on_edge : MemberSet::flat}) {
            for (const WeakAxis axis : {held, WeakAxis::free}) {
                purlin.set = set;
                purlin.weak_axis = axis;
                holding.zones.push_back(purlin_in_zone(purlin, zone));
            }
        }
        purlin.set = as_laid;
        purlin.weak_axis = may_hold ? held : WeakAxis::free;
        PurlinCheck check = check_purlin(purlin);
        if (!holding.worst || check.utilisation > holding.worst->utilisation) {
            holding.worst = check;
        }
    }
    return holding;
}

}  // namespace eavewright::detail
