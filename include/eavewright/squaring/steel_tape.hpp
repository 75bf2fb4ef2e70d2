// SPDX-License-Identifier: BSL-1.0
#pragma once

// A steel tape as its report of calibration describes it, and how it was held when it was read.

#include <eavewright/fault.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/temperature.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

/// Growth of tape steel with temperature: 6.45e-6 per degree Fahrenheit, 11.6e-6 per degree Celsius. Texts also use
/// 6.5e-6; a tape's report of calibration decides.
inline constexpr double tape_steel_expansion_per_fahrenheit = 6.45e-6;
/// A coefficient by the degree Celsius, by the degree Fahrenheit.
[[nodiscard]] constexpr double expansion_per_fahrenheit(double per_celsius) { return per_celsius / 1.8; }
/// Modulus of tape steel where the maker states none: 29,000,000 psi (common practice; texts use 29 and 30 million).
inline constexpr Pressure tape_steel_modulus = pressure_from_psi(29e6);
/// What stretches a tape to twice its length, were it to hold: cross-section times modulus.
[[nodiscard]] constexpr Force tape_stiffness(Area cross_section, Pressure modulus = tape_steel_modulus) {
    return force_from_pounds(square_inches(cross_section) * psi(modulus));
}

/// Hardest pull on a tape that enters.
inline constexpr Force hardest_pull = force_from_pounds(200.0);
/// A tape is taken as hanging shallow: between supports it weighs at most this share of the pull. There the parabola
/// falls short of the catenary by at most 3.5 % of the sag.
inline constexpr double heaviest_hang = 0.5;
/// Steepest slope of a reading, as the sine of 85 degrees: near plumb its level part is not read with a tape.
inline constexpr double steepest_sine = 0.9961946980917455;
inline constexpr std::int64_t most_tape_spans = 1000;

/// A steel tape. Its readings are true at its standard temperature, under its standard tension, lying flat, save for
/// standard_length / nominal_length.
struct SteelTape {
    Length nominal_length;   ///< what its end marks say, `shortest_side` to `longest_reading`
    Length standard_length;  ///< what is between them at standard conditions; within 1 % of it
    Force standard_tension;  ///< more than 0, at most `hardest_pull`
    Force stiffness;         ///< `tape_stiffness`: 5,000 to 10,000,000 lbf
    LineLoad weight;         ///< 0 to 1 lb/ft; only a tape that hangs feels it
    Temperature standard_temperature = Temperature::from_fahrenheit(68.0);  ///< 68 F (20 C): common practice
    /// 0 to 0.0001 per degree Fahrenheit.
    double expansion_per_fahrenheit = tape_steel_expansion_per_fahrenheit;
};

/// On a floor, a deck, or held up so closely that it does not sag.
struct SupportedThroughout {};
/// Hung over its whole reading between supports at equal distances: 1 for two supports, 4 for five.
struct EqualSpans {
    std::int64_t count;  ///< 1 to `most_tape_spans`
};
/// Hung over these distances between supports, flat over what is left of the reading. At most `most_tape_spans`;
/// together the reading at most, within half of one per cent.
struct HungSpans {
    std::vector<Length> spans;
};
using TapeSupport = std::variant<SupportedThroughout, EqualSpans, HungSpans>;

/// Read on the level, or read on a slope that is wanted as it lies.
struct OnTheLevel {};
/// Read along a slope of this angle with the level; at most 85 degrees either way.
struct SlopeAngle {
    Angle angle;
};
/// Read along a slope whose ends differ in height by this, either way; at most the rise of 85 degrees.
struct EndsRise {
    Length rise;
};
using TapeSlope = std::variant<OnTheLevel, SlopeAngle, EndsRise>;

/// How the tape was when it was read.
struct TapingConditions {
    Temperature temperature;  ///< of the steel, which in the sun is not that of the air
    Force
        tension;  ///< of the pull, more than 0, at most `hardest_pull`; on a slope at the middle, the mean of both ends
    TapeSupport support = SupportedThroughout{};
    Length hook_offset = no_length;  ///< added to each reading: how far the hook bears outside of the zero mark; -1 in
                                     ///< where the reading starts at the 1 in mark. Within 24 in
    TapeSlope slope = OnTheLevel{};
};

namespace squaring_detail {
inline void require_pounds(double value, double lowest, double highest, std::string_view unit, const Path& path,
                           Faults& faults) {
    if (!(value >= lowest && value <= highest)) {
        const std::string of{unit};
        faults.push_back(Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite, path.text(),
                               write_decimal(value, 6) + " " + of,
                               write_decimal(lowest, 3) + " to " + write_decimal(highest, 0) + " " + of});
    }
}
inline void require_pull(Force pull, const Path& path, Faults& faults) {
    require_pounds(pounds_force(pull), 0.001, pounds_force(hardest_pull), "lbf", path, faults);
}
/// `sine` of a slope.
inline void require_slope(double sine, std::string given, const Path& path, Faults& faults) {
    if (!(std::fabs(sine) <= steepest_sine)) {
        faults.push_back(Fault{std::isfinite(sine) ? FaultCode::out_of_range : FaultCode::not_finite, path.text(),
                               std::move(given), "a slope of 85 degrees at most"});
    }
}
inline void require_angle(Angle angle, const Path& path, Faults& faults) {
    // The sine alone would take 179 degrees for 1.
    const double turned = std::fabs(radians(angle)) <= pi / 2.0 ? std::sin(radians(angle)) : radians(angle);
    require_slope(turned, write_decimal(degrees(angle), 6) + " degrees", path, faults);
}
inline void require_count(std::int64_t count, const Path& path, Faults& faults) {
    if (count < 1 || count > most_tape_spans) {
        faults.push_back(Fault{FaultCode::out_of_range, path.text(), std::to_string(count),
                               "1 to " + std::to_string(most_tape_spans)});
    }
}
}  // namespace squaring_detail

/// Faults: out_of_range or not_finite.
inline void find_faults(const SteelTape& tape, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    require_within(tape.nominal_length, shortest_side, longest_reading, Path{path, "nominal_length"}, faults);
    if (faults.size() == before) {
        require_within(tape.standard_length, tape.nominal_length * 0.99, tape.nominal_length * 1.01,
                       Path{path, "standard_length"}, faults);
    }
    squaring_detail::require_pull(tape.standard_tension, Path{path, "standard_tension"}, faults);
    squaring_detail::require_pounds(pounds_force(tape.stiffness), 5000.0, 1e7, "lbf", Path{path, "stiffness"}, faults);
    squaring_detail::require_pounds(pounds_per_foot(tape.weight), 0.0, 1.0, "lb/ft", Path{path, "weight"}, faults);
    if (!(tape.expansion_per_fahrenheit >= 0.0 && tape.expansion_per_fahrenheit <= 1e-4)) {
        const double given = tape.expansion_per_fahrenheit;
        faults.push_back(Fault{std::isfinite(given) ? FaultCode::out_of_range : FaultCode::not_finite,
                               Path{path, "expansion_per_fahrenheit"}.text(), write_decimal(given, 12), "0 to 0.0001"});
    }
}

/// Faults: out_of_range or not_finite. Whether they suit a reading is asked where there is one.
inline void find_faults(const TapingConditions& conditions, const Path& path, Faults& faults) {
    squaring_detail::require_pull(conditions.tension, Path{path, "tension"}, faults);
    require_within(conditions.hook_offset, one_inch * -24.0, one_inch * 24.0, Path{path, "hook_offset"}, faults);
    const Path support{path, "support"};
    if (const auto* equal = std::get_if<EqualSpans>(&conditions.support)) {
        squaring_detail::require_count(equal->count, Path{support, "count"}, faults);
    } else if (const auto* hung = std::get_if<HungSpans>(&conditions.support)) {
        const Path spans{support, "spans"};
        squaring_detail::require_count(static_cast<std::int64_t>(hung->spans.size()), spans, faults);
        for (std::size_t i = 0; i < hung->spans.size() && i < most_tape_spans; ++i) {
            require_within(hung->spans[i], shortest_side, longest_reading, Path{spans, i}, faults);
        }
    }
    const Path slope{path, "slope"};
    if (const auto* tilted = std::get_if<SlopeAngle>(&conditions.slope)) {
        squaring_detail::require_angle(tilted->angle, Path{slope, "angle"}, faults);
    } else if (const auto* ends = std::get_if<EndsRise>(&conditions.slope)) {
        require_within(ends->rise, -longest_reading, longest_reading, Path{slope, "rise"}, faults);
    }
}

}  // namespace eavewright
