// SPDX-License-Identifier: BSL-1.0
#pragma once

// Air under a roof, as net free area turned into a ridge slot and eave openings; or foam on its underside, in board feet.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <string_view>

namespace eavewright {

/// Which wording decides how much of the air must leave high where the smaller ratio is used. Editions differ, so the
/// edition is an input.
enum class VentRule {
    high_40_to_50,  ///< 40 to 50 % high, no more than 3 ft below the ridge: 2012 IRC R806.2, read in secondary copies
    high_50_to_80,  ///< 50 to 80 % high, 3 ft above the eave vents: older IRC, read in a city's handout of Minnesota
    no_share,       ///< the ratio alone: WAC 246-359-330 asks 1/300 without shares
};
template <>
struct NamesOf<VentRule> {
    static constexpr std::array<std::string_view, 3> list{"high_40_to_50", "high_50_to_80", "no_share"};
};

/// What is asked of the openings.
struct VentPlan {
    Length width;  ///< of the space below the roof in plan, overhangs not included
    Length length;
    Length ridge_length;      ///< that is slotted; 0 where the air leaves elsewhere
    Length eave_length;       ///< of all eaves together that are opened
    double ratio = 150.0;     ///< plan area over net free area: 150, or 300 where the rule allows it
    double high_share = 0.5;  ///< of the net free area, at the ridge
    VentRule rule = VentRule::high_40_to_50;
    double net_share = 1.0;  ///< of an opening that stays free behind its screen; 1 for a bare slot
};

/// Net free area and the openings that give it.
struct VentOpenings {
    Area plan_area;
    Area net;                  ///< required in all
    Area high;                 ///< of it at the ridge
    Area low;                  ///< of it at the eaves
    Length ridge_slot;         ///< clear width at the ridge, both sides together
    Length ridge_slot_a_side;  ///< the hold-back of the sheets on each slope, measured level
    Length eave_opening;       ///< clear width along the eaves
};
template <>
struct FieldsOf<VentOpenings> {
    static constexpr auto list = field_list(
        field("plan_area", FieldUnit::area, "plan area of the space below", &VentOpenings::plan_area),
        field("net", FieldUnit::area, "net free area required in all", &VentOpenings::net),
        field("high", FieldUnit::area, "of it at the ridge", &VentOpenings::high),
        field("low", FieldUnit::area, "of it at the eaves", &VentOpenings::low),
        field("ridge_slot", FieldUnit::length, "clear width at the ridge, both sides together",
              &VentOpenings::ridge_slot),
        field("ridge_slot_a_side", FieldUnit::length, "hold-back of the sheets on each slope, measured level",
              &VentOpenings::ridge_slot_a_side),
        field("eave_opening", FieldUnit::length, "clear width along the eaves", &VentOpenings::eave_opening));
};

namespace detail {
inline void require_between(double value, double lowest, double highest, const Path& path, Faults& faults) {
    if (!(value >= lowest && value <= highest)) {
        faults.push_back(Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite, path.text(),
                               write_decimal(value, 6), write_decimal(lowest, 6) + " to " + write_decimal(highest, 6)});
    }
}

/// Lowest and highest share of the air at the ridge that a rule takes.
struct ShareRange {
    double lowest;
    double highest;
};
[[nodiscard]] inline ShareRange share_range(VentRule rule) {
    switch (rule) {
        case VentRule::high_40_to_50: return {0.4, 0.5};
        case VentRule::high_50_to_80: return {0.5, 0.8};
        default: return {0.0, 1.0};
    }
}
}  // namespace detail

/// The ratio down to which no share of high and low is asked: 1/150 (IRC R806.2).
inline constexpr double plain_vent_ratio = 150.0;

inline void find_faults(const VentPlan& plan, const Path& path, Faults& faults) {
    require_within(plan.width, Length::from_inches(12.0), longest_building, Path{path, "width"}, faults);
    require_within(plan.length, Length::from_inches(12.0), longest_building, Path{path, "length"}, faults);
    require_within(plan.ridge_length, no_length, longest_building, Path{path, "ridge_length"}, faults);
    require_within(plan.eave_length, no_length, 4.0 * longest_building, Path{path, "eave_length"}, faults);
    detail::require_between(plan.ratio, 10.0, 1000.0, Path{path, "ratio"}, faults);
    detail::require_between(plan.net_share, 0.05, 1.0, Path{path, "net_share"}, faults);
    const bool shared = plan.ratio > plain_vent_ratio;  // a smaller area must be placed well; a larger one need not
    const detail::ShareRange range = shared ? detail::share_range(plan.rule) : detail::ShareRange{0.0, 1.0};
    detail::require_between(plan.high_share, range.lowest, range.highest, Path{path, "high_share"}, faults);
    if (plan.high_share > 0.0 && !(plan.ridge_length > no_length)) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "ridge_length"}.text(),
                               describe_length(plan.ridge_length),
                               "a ridge for the share of " + write_decimal(plan.high_share, 3) + " that leaves there"});
    }
    if (plan.high_share < 1.0 && !(plan.eave_length > no_length)) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "eave_length"}.text(),
                               describe_length(plan.eave_length), "eaves for the share that enters there"});
    }
}

/// Net free area of a roof space and the openings that give it. Exact but for rounding. Throws `FaultError` with the first
/// fault of `plan`. The edition in force, screens and what may count as an opening are for the local code to say.
[[nodiscard]] inline VentOpenings vent_openings(const VentPlan& plan) {
    require_sound(plan, "air");
    const auto open = [&](Area net, Length along) {
        return along > no_length ? net / along / plan.net_share : no_length;
    };
    VentOpenings result{.plan_area = plan.width * plan.length,
                        .net = Area::from_value(0.0),
                        .high = Area::from_value(0.0),
                        .low = Area::from_value(0.0),
                        .ridge_slot = no_length,
                        .ridge_slot_a_side = no_length,
                        .eave_opening = no_length};
    result.net = result.plan_area / plan.ratio;
    result.high = result.net * plan.high_share;
    result.low = result.net - result.high;
    result.ridge_slot = open(result.high, plan.ridge_length);
    result.ridge_slot_a_side = result.ridge_slot / 2.0;
    result.eave_opening = open(result.low, plan.eave_length);
    return result;
}

/// Foam sprayed on the underside of a roof plane.
struct Foam {
    Area area;
    Length thickness;
    Volume volume;
};
template <>
struct FieldsOf<Foam> {
    static constexpr auto list = field_list(field("area", FieldUnit::area, "area sprayed, on the slope", &Foam::area),
                                            field("thickness", FieldUnit::length, "thickness", &Foam::thickness),
                                            field(
                                                "board_feet", FieldUnit::ratio, "board feet: 1 sq ft, 1 in thick",
                                                +[](const Foam& foam) { return board_feet(foam.volume); }));
};

/// Foam over `area` of real plane (`net_area`), `thickness` 0 to 24 in. What it stops against at the end bays are
/// `blocking_pieces` of these bays. Throws `FaultError` out_of_range for other thicknesses or a negative area.
[[nodiscard]] inline Foam foam_over(Area area, Length thickness) {
    Faults faults;
    require_within(thickness, no_length, Length::from_inches(24.0), Path{"foam.thickness"}, faults);
    detail::require_between(square_feet(area), 0.0, 1e7, Path{"foam.area"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    return {area, thickness, area * thickness};
}

}  // namespace eavewright
