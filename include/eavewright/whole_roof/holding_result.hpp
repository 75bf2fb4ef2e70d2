// SPDX-License-Identifier: BSL-1.0
#pragma once

// Fasteners of one slope against the wind, as `whole_roof` hands them back.

#include <eavewright/fastening/fastener_findings.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/fastener_holding.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/holding/zone_fasteners.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/roof_zones.hpp>
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
        field("screws", FieldUnit::none, "screws zone by zone", &SlopeHolding::screws));
};

}  // namespace eavewright
