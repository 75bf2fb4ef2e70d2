// SPDX-License-Identifier: BSL-1.0
#pragma once

// The design standard's factors between a reference value and the allowable value of a use, each from a condition that is
// named, never from a number that is typed in.

#include <eavewright/fastening/strength.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

namespace eavewright {

/// The shortest-lasting load of a combination, with the whole of which it is over (NDS 2018 Table 2.3.2).
enum class LoadDuration {
    permanent,    ///< dead load
    ten_years,    ///< occupancy live load; what reference values are for
    two_months,   ///< snow
    seven_days,   ///< construction; roof live load
    ten_minutes,  ///< wind, earthquake
    impact,       ///< 2.0, but a connection takes no more than 1.6
};
template <>
struct NamesOf<LoadDuration> {
    static constexpr std::array<std::string_view, 6> list{"permanent",  "ten_years",   "two_months",
                                                          "seven_days", "ten_minutes", "impact"};
};

/// Moisture content of the wood.
enum class WoodMoisture {
    dry,  ///< up to 19 percent
    wet,  ///< above
};
template <>
struct NamesOf<WoodMoisture> {
    static constexpr std::array<std::string_view, 2> list{"dry", "wet"};
};

/// The warmest that the wood gets for long.
enum class SustainedHeat {
    to_100_f,  ///< up to 100 F (38 C)
    to_125_f,  ///< above that, up to 125 F (52 C)
    to_150_f,  ///< above that, up to 150 F (66 C)
};
template <>
struct NamesOf<SustainedHeat> {
    static constexpr std::array<std::string_view, 3> list{"to_100_f", "to_125_f", "to_150_f"};
};

/// What a connection lives through.
struct UseConditions {
    LoadDuration duration;
    WoodMoisture when_driven;
    WoodMoisture in_service;
    SustainedHeat heat;
    bool toe_nailed = false;  ///< driven slantwise, about 30 degrees to the member
    bool diaphragm = false;   ///< a nail of a diaphragm, for its lateral value
};
inline void find_faults(const UseConditions& use, const Path& path, Faults& faults) {
    detail::require_named(use.duration, Path{path, "duration"}, faults);
    detail::require_named(use.when_driven, Path{path, "when_driven"}, faults);
    detail::require_named(use.in_service, Path{path, "in_service"}, faults);
    detail::require_named(use.heat, Path{path, "heat"}, faults);
}

/// Every factor of one use; 1 where it does not apply.
struct UseFactors {
    NdsEdition edition;
    Resistance resistance;
    double duration;       ///< CD
    bool duration_capped;  ///< the load's own is above the 1.6 that connections may take
    double wet_service;    ///< CM
    double temperature;    ///< Ct
    double toe_nail;       ///< Ctn
    double end_grain;      ///< Ceg
    double diaphragm;      ///< Cdi
    double product;
};
template <>
struct FieldsOf<UseFactors> {
    static constexpr auto list = field_list(
        field("edition", FieldUnit::none, "edition of the design standard", &UseFactors::edition),
        field("resistance", FieldUnit::none, "what resists", &UseFactors::resistance),
        field("duration", FieldUnit::ratio, "load duration factor CD", &UseFactors::duration),
        field("duration_capped", FieldUnit::none, "held to the 1.6 of connections", &UseFactors::duration_capped),
        field("wet_service", FieldUnit::ratio, "wet service factor CM", &UseFactors::wet_service),
        field("temperature", FieldUnit::ratio, "temperature factor Ct", &UseFactors::temperature),
        field("toe_nail", FieldUnit::ratio, "toe-nail factor Ctn", &UseFactors::toe_nail),
        field("end_grain", FieldUnit::ratio, "end grain factor Ceg", &UseFactors::end_grain),
        field("diaphragm", FieldUnit::ratio, "diaphragm factor Cdi", &UseFactors::diaphragm),
        field("product", FieldUnit::ratio, "product of all", &UseFactors::product));
};

/// A reference strength, its factors and the allowable strength that they make of it.
struct Adjusted {
    ReferenceForce reference;
    UseFactors factors;
    AllowableForce force;
    bool unverified;  ///< rests on memory or on an assumption: no verdict by it
};
template <>
struct FieldsOf<Adjusted> {
    static constexpr auto list = field_list(
        field(
            "reference_pounds", FieldUnit::ratio, "reference strength of one fastener in pounds",
            +[](const Adjusted& a) { return pounds_force(a.reference); }),
        field("factors", FieldUnit::none, "every factor of the use", &Adjusted::factors),
        field(
            "allowable_pounds", FieldUnit::ratio, "allowable strength of one fastener in pounds",
            +[](const Adjusted& a) { return pounds_force(a.force); }),
        field("unverified", FieldUnit::none, "rests on memory or on an assumption", &Adjusted::unverified),
        field(
            "caution", FieldUnit::none, "to be read with it", +[](const Adjusted&) { return holding_power_caution; }));
};

/// Load duration factor of solid wood; a connection is held to 1.6. NDS 2018 Table 2.3.2.
[[nodiscard]] constexpr double load_duration_factor(LoadDuration duration) {
    constexpr std::array<double, 6> factors{0.9, 1.0, 1.15, 1.25, 1.6, 2.0};
    return factors[static_cast<std::size_t>(duration)];
}
/// The most that connections and wood structural panels take of it: NDS 2018 11.3.2 and Table 2.3.2.
inline constexpr double greatest_connection_duration_factor = 1.6;

/// Wet service factor CM of NDS 2018 Table 11.3.3 for dowels below 1/4 in and for screws in withdrawal; ring shank there means
/// roof sheathing and post-frame. Toe-nails in withdrawal take none (12.5.4.1): `use_factors` knows.
[[nodiscard]] constexpr double wet_service_factor(Resistance resistance, WoodMoisture when_driven,
                                                  WoodMoisture in_service) {
    const bool wet = in_service == WoodMoisture::wet;
    switch (resistance) {
        case Resistance::nail_withdrawal: return when_driven == in_service ? 1.0 : 0.25;
        case Resistance::ring_nail_withdrawal: return 1.0;
        case Resistance::nail_lateral: return wet || when_driven == WoodMoisture::wet ? 0.7 : 1.0;
        case Resistance::wood_screw_withdrawal:
        case Resistance::lag_withdrawal:
        case Resistance::head_pull_through: break;
    }
    return wet ? 0.7 : 1.0;
}

/// Temperature factor Ct of connections: NDS 2018 Table 11.3.4.
[[nodiscard]] constexpr double temperature_factor(SustainedHeat heat, WoodMoisture in_service) {
    const bool wet = in_service == WoodMoisture::wet;
    switch (heat) {
        case SustainedHeat::to_125_f: return wet ? 0.7 : 0.8;
        case SustainedHeat::to_150_f: return wet ? 0.5 : 0.7;
        case SustainedHeat::to_100_f: break;
    }
    return 1.0;
}

/// End grain factor Ceg: NDS 2018 12.5.2. Throws `FaultError` not_supported where nails and wood screws would be loaded in
/// withdrawal from end grain, which the standard forbids.
[[nodiscard]] inline double end_grain_factor(Resistance resistance, Grain grain) {
    if (grain == Grain::side || resistance == Resistance::head_pull_through) {
        return 1.0;
    }
    switch (resistance) {
        case Resistance::nail_lateral: return 0.67;
        case Resistance::lag_withdrawal: return 0.75;
        default: break;
    }
    throw FaultError{Fault{FaultCode::not_supported, "grain", "end grain in " + std::string{name_of(resistance)},
                           "side grain: nails and wood screws may not be loaded in withdrawal from end grain"}};
}

/// Toe-nail factor Ctn: NDS 2018 12.5.4. Throws `FaultError` contradiction for a screw, and for a head on the slant.
[[nodiscard]] inline double toe_nail_factor(Resistance resistance) {
    switch (resistance) {
        case Resistance::nail_withdrawal:
        case Resistance::ring_nail_withdrawal: return 0.67;
        case Resistance::nail_lateral: return 0.83;
        default: break;
    }
    throw FaultError{Fault{FaultCode::contradiction, "toe_nailed", std::string{name_of(resistance)},
                           "a nail in withdrawal or loaded sideways"}};
}

/// Every factor of a use. Throws `FaultError` with the first fault of `use`, not_supported for an edition that was not read or
/// for withdrawal from end grain, contradiction for a toe-nailed screw.
[[nodiscard]] inline UseFactors use_factors(Resistance resistance, Grain grain, const UseConditions& use,
                                            NdsEdition edition) {
    require_sound(use, "use");
    detail::require_2018(edition, "Tables 2.3.2, 11.3.1, 11.3.3 and 11.3.4 are of NDS 2018");
    const double full = load_duration_factor(use.duration);
    const bool capped = full > greatest_connection_duration_factor;
    const bool lateral = resistance == Resistance::nail_lateral;
    UseFactors a{.edition = edition,
                 .resistance = resistance,
                 .duration = capped ? greatest_connection_duration_factor : full,
                 .duration_capped = capped,
                 .wet_service =
                     use.toe_nailed && !lateral ? 1.0 : wet_service_factor(resistance, use.when_driven, use.in_service),
                 .temperature = temperature_factor(use.heat, use.in_service),
                 .toe_nail = use.toe_nailed ? toe_nail_factor(resistance) : 1.0,
                 .end_grain = end_grain_factor(resistance, grain),
                 .diaphragm = use.diaphragm && lateral ? 1.1 : 1.0,
                 .product = 1.0};
    a.product = a.duration * a.wet_service * a.temperature * a.toe_nail * a.end_grain * a.diaphragm;
    return a;
}

namespace detail {
[[nodiscard]] inline Adjusted adjusted(ReferenceForce reference, const UseFactors& factors, bool unverified) {
    return Adjusted{reference, factors, reference * DesignFactor::of(factors.product), unverified};
}
}  // namespace detail

}  // namespace eavewright
