// SPDX-License-Identifier: BSL-1.0
#pragma once

// Carrying sheets and panels up alone: what each weighs, how many lifts, and the wind at which it pulls too hard.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/areal_mass.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/wind_speed.hpp>

#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>

namespace eavewright {

/// To be read before anything is lifted.
inline constexpr std::string_view handling_caution =
    "Handling figures are plain weights and still-air pressures. Gusts, footing, fatigue and height decide: stop "
    "early, "
    "secure what is laid, and follow the local rules for lifting and for work at height.";

/// What one person takes on. The limits are that person's own: there is no honest default for the force and the mass.
struct HandlingLimits {
    Mass one_person;  ///< the most that one person lifts
    Force holding;    ///< the hardest that one person can hold a sheet against the wind
    Length longest_alone =
        Length::from_metres(3.0);  ///< longer ones take two people, carried on edge: NZ Metal Roof and
                                   ///< Wall Cladding Code of Practice v3.0, 13.3
    double drag = 1.0;  ///< share of the velocity pressure on a sheet held square to the wind; 1.0 common practice
};

/// Pieces of one size.
struct HandledPieces {
    std::int64_t count;
    Length length;
    Length width;
    ArealMass layer;
};

/// What handling pieces of one size takes.
struct Handling {
    Mass each;
    Area area;                   ///< of one piece
    bool one_person;             ///< within both the mass and the length of one person
    std::int64_t pieces_a_lift;  ///< carried at once by one person; 1 where it takes two people
    std::int64_t lifts;
    WindSpeed wind_limit;  ///< at which one piece, held square to it, pulls harder than `holding`; 400 mph at most
    Mass stack;            ///< all of them in one place
    Pressure stack_load;   ///< of that stack on its own footprint
};
template <>
struct FieldsOf<Handling> {
    static constexpr auto list = field_list(
        field(
            "each_pounds", FieldUnit::ratio, "mass of one piece in pounds",
            +[](const Handling& h) { return pounds(h.each); }),
        field("area", FieldUnit::area, "area of one piece", &Handling::area),
        field("one_person", FieldUnit::none, "within the mass and the length of one person", &Handling::one_person),
        field("pieces_a_lift", FieldUnit::count, "carried at once by one person", &Handling::pieces_a_lift),
        field("lifts", FieldUnit::count, "lifts for all of them", &Handling::lifts),
        field(
            "wind_limit_mph", FieldUnit::ratio, "wind in mph at which one piece pulls harder than can be held",
            +[](const Handling& h) { return h.wind_limit.mph(); }),
        field(
            "stack_pounds", FieldUnit::ratio, "mass of all of them in one place in pounds",
            +[](const Handling& h) { return pounds(h.stack); }),
        field(
            "stack_load_psf", FieldUnit::ratio, "load of that stack on its footprint in pounds per square foot",
            +[](const Handling& h) { return psf(h.stack_load); }));
};

/// Most pieces that are handled in one call.
inline constexpr std::int64_t most_handled = 1'000'000;

inline void find_faults(const HandlingLimits& limits, const Path& path, Faults& faults) {
    const auto require = [&](double value, double highest, const char* name, const char* unit) {
        if (!(value > 0.0 && value <= highest)) {
            faults.push_back(Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite,
                                   Path{path, name}.text(), write_decimal(value, 3) + " " + unit,
                                   "more than 0, at most " + write_decimal(highest, 0) + " " + unit});
        }
    };
    require(pounds(limits.one_person), 1000.0, "one_person", "lb");
    require(pounds_force(limits.holding), 1000.0, "holding", "lbf");
    require(limits.drag, 3.0, "drag", "times");
    require_within(limits.longest_alone, Length::from_inches(12.0), Length::from_feet(100.0),
                   Path{path, "longest_alone"}, faults);
}
inline void find_faults(const HandledPieces& pieces, const Path& path, Faults& faults) {
    const Length least = one_inch / 256.0;  // a strip of half a fine tick is still carried up
    require_within(pieces.length, least, Length::from_feet(200.0), Path{path, "length"}, faults);
    require_within(pieces.width, least, Length::from_feet(200.0), Path{path, "width"}, faults);
    if (pieces.count < 0 || pieces.count > most_handled) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "count"}.text(), std::to_string(pieces.count),
                               "0 to " + std::to_string(most_handled)});
    }
}

namespace detail {
[[nodiscard]] inline WindSpeed wind_limit(Area area, const HandlingLimits& limits) {
    const double pressure = pounds_force(limits.holding) / (limits.drag * square_feet(area));
    const double mph = std::sqrt(pressure / velocity_pressure_psf_at_1_mph);
    return WindSpeed::from_mph(mph < fastest_wind_mph ? mph : fastest_wind_mph);
}
}  // namespace detail

/// Handling of pieces of one size: weight, lifts, wind. A piece over one person's mass or length counts one lift by two
/// people. Throws `FaultError` with the first fault of an input. Shown with `handling_caution`.
[[nodiscard]] inline Handling handle_pieces(const HandledPieces& pieces, const HandlingLimits& limits) {
    require_sound(limits, "handling");
    require_sound(pieces, "pieces");
    const Area area = pieces.length * pieces.width;
    const Mass each = pieces.layer * area;
    const bool alone =
        pounds(each) <= pounds(limits.one_person) && pieces.length <= limits.longest_alone + count_tolerance;
    const double fit = pounds(each) > 0.0 ? std::floor(pounds(limits.one_person) / pounds(each)) : 1.0;
    const double most = static_cast<double>(most_handled);
    const auto a_lift = alone && fit > 1.0 ? static_cast<std::int64_t>(fit < most ? fit : most) : std::int64_t{1};
    const Mass stack = each * static_cast<double>(pieces.count);
    return Handling{.each = each,
                    .area = area,
                    .one_person = alone,
                    .pieces_a_lift = a_lift,
                    .lifts = (pieces.count + a_lift - 1) / a_lift,
                    .wind_limit = detail::wind_limit(area, limits),
                    .stack = stack,
                    .stack_load = pressure_from_psf(pounds(stack) / square_feet(area))};
}

}  // namespace eavewright
