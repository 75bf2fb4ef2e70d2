// SPDX-License-Identifier: BSL-1.0
#pragma once

// Fasteners of one slope against the wind, as `whole_roof` hands them back.

#include <eavewright/fastening/fastener_findings.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/fastener_holding.hpp>
#include <eavewright/holding/purlin_check.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/holding/zone_fasteners.hpp>
#include <eavewright/loads/dead.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/pressure_coefficients.hpp>
#include <eavewright/loads/roof_zones.hpp>
#include <eavewright/loads/snow.hpp>
#include <eavewright/loads/zone_pressures.hpp>
#include <eavewright/units/length.hpp>

#include <optional>
#include <vector>

namespace eavewright {

/// Nails of one zone: their spacing, then what they are used to.
struct ZoneNails {
    Length edge;
    Length field;
    ZoneFasteners loaded;
};
template <>
struct FieldsOf<ZoneNails> {
    static constexpr auto list =
        field_list(field("edge", FieldUnit::length, "spacing on supports under the ends of a piece", &ZoneNails::edge),
                   field("field", FieldUnit::length, "spacing on the supports between", &ZoneNails::field),
                   field("loaded", FieldUnit::none, "what they are used to", &ZoneNails::loaded));
};

/// A purlin of one zone, laid one way, its weak axis held or not.
struct PurlinInZone {
    RoofZone zone;
    MemberSet set;
    WeakAxis weak_axis;
    double utilisation;  ///< of what governs
    PurlinLimit governs;
    Verdict verdict;
    Force uplift_one_end;  ///< 0.6 W less 0.6 D at each end of the purlin
    Force uplift_both;     ///< where two purlins end on one truss
};
template <>
struct FieldsOf<PurlinInZone> {
    static constexpr auto list = field_list(
        field("zone", FieldUnit::none, "zone of the roof", &PurlinInZone::zone),
        field("set", FieldUnit::none, "on edge or flat", &PurlinInZone::set),
        field("weak_axis", FieldUnit::none, "who carries what pulls down the slope", &PurlinInZone::weak_axis),
        field("utilisation", FieldUnit::ratio, "of what governs", &PurlinInZone::utilisation),
        field("governs", FieldUnit::none, "what governs", &PurlinInZone::governs),
        field("verdict", FieldUnit::none, "holds, fails, or no verdict", &PurlinInZone::verdict),
        field(
            "uplift_one_end_lb", FieldUnit::ratio, "net uplift at each end in pounds",
            +[](const PurlinInZone& p) { return pounds_force(p.uplift_one_end); }),
        field(
            "uplift_both_lb", FieldUnit::ratio, "where two purlins end on one truss, in pounds",
            +[](const PurlinInZone& p) { return pounds_force(p.uplift_both); }));
};

/// The purlins of one slope against their loads.
struct PurlinHolding {
    EffectiveWindArea area;
    DeadLoad dead;
    std::optional<SnowLoad> snow;
    std::vector<PurlinInZone> zones;  ///< as they lie and the other way, held and free, zone by zone
    std::optional<PurlinCheck>
        worst;  ///< of the zones as they lie, held only where a published limit lets the roof hold
};
template <>
struct FieldsOf<PurlinHolding> {
    static constexpr auto list =
        field_list(field("area", FieldUnit::none, "effective wind area of a purlin", &PurlinHolding::area),
                   field("dead", FieldUnit::none, "dead load, layer by layer", &PurlinHolding::dead),
                   field("snow", FieldUnit::none, "balanced snow, null where none is described", &PurlinHolding::snow),
                   field("zones", FieldUnit::none, "as they lie and the other way, weak axis held and free",
                         &PurlinHolding::zones),
                   field("worst", FieldUnit::none, "the hardest-worked zone as they lie", &PurlinHolding::worst));
};

/// The fasteners of one slope against the wind.
struct SlopeHolding {
    RoofZones zones;
    std::vector<ZonePressure> pressures;  ///< on one fastener, zone by zone
    std::optional<NailHolding> nail;      ///< none without a deck over the whole slope, like what follows
    std::vector<ZoneNails> nails;
    std::vector<ShankCompared> shanks;  ///< the nail itself first
    std::optional<NailJudgement> nail_places;
    std::optional<ScrewHolding> screw;  ///< none without steel or a screw to judge
    std::vector<ZoneFasteners> screws;
    std::optional<PurlinHolding> purlins;  ///< where their lumber is described
};
template <>
struct FieldsOf<SlopeHolding> {
    static constexpr auto list = field_list(
        field(
            "caution", FieldUnit::none, "to be read with every figure here",
            +[](const SlopeHolding&) { return holding_caution; }),
        field("zones", FieldUnit::none, "zones of the plane", &SlopeHolding::zones),
        field("pressures", FieldUnit::none, "wind on one fastener, zone by zone", &SlopeHolding::pressures),
        field("nail", FieldUnit::none, "what one nail is allowed, null without a deck", &SlopeHolding::nail),
        field("nails", FieldUnit::none, "nails zone by zone", &SlopeHolding::nails),
        field("shanks", FieldUnit::none, "nails side by side, the one described first", &SlopeHolding::shanks),
        field("nail_places", FieldUnit::none, "nails that stand where they should not, null without a deck",
              &SlopeHolding::nail_places),
        field("screw", FieldUnit::none, "what one screw is allowed, null where none is described",
              &SlopeHolding::screw),
        field("screws", FieldUnit::none, "screws zone by zone", &SlopeHolding::screws),
        field("purlins", FieldUnit::none, "purlins against their loads, null where their lumber is not described",
              &SlopeHolding::purlins));
};

}  // namespace eavewright
