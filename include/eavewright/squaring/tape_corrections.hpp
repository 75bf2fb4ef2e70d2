// SPDX-License-Identifier: BSL-1.0
#pragma once

// From what a steel tape reads to the distance that is there, and back to the reading at which to set a mark.
//
// Every term is a share of the reading, small and added by itself, as surveyors write them down:
//     calibration   (standard - nominal) / nominal x reading
//     temperature   expansion x (temperature - standard) x reading
//     tension       (pull - standard) / stiffness x reading
//     sag           -w^2 l^3 / (24 pull^2) for each hung span l; on a slope, with the part of w that is square to it
//     hook          as it is
//     to level      the slope's length to its level part
// Products of two terms are left out: under 1e-6 of the reading where no term is more than 5e-4 of it.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/steel_tape.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <variant>

namespace eavewright {

/// A reading and what is added to it, term by term.
struct CorrectedReading {
    Length read;
    Length calibration;
    Length temperature;
    Length tension;
    Length sag;  ///< negative where the tape hangs: it reads long
    Length hook;
    Length straight;   ///< sum so far: from mark to mark as the tape lay
    Length to_level;   ///< negative on a slope
    Length corrected;  ///< sum of all: the level distance, or `straight` where no slope was given
};

template <>
struct FieldsOf<CorrectedReading> {
    static constexpr auto list = field_list(
        field("read", FieldUnit::length, "as the tape reads", &CorrectedReading::read),
        field("calibration", FieldUnit::length, "added for a tape that is not as long as its marks say",
              &CorrectedReading::calibration),
        field("temperature", FieldUnit::length, "added for steel warmer than its standard",
              &CorrectedReading::temperature),
        field("tension", FieldUnit::length, "added for a pull above the standard", &CorrectedReading::tension),
        field("sag", FieldUnit::length, "added for the hang between supports, negative", &CorrectedReading::sag),
        field("hook", FieldUnit::length, "added for where the reading starts", &CorrectedReading::hook),
        field("straight", FieldUnit::length, "from mark to mark as the tape lay", &CorrectedReading::straight),
        field("to_level", FieldUnit::length, "added to come from the slope to the level, negative",
              &CorrectedReading::to_level),
        field("corrected", FieldUnit::length, "level distance, or as the tape lay where no slope was given",
              &CorrectedReading::corrected));
};

namespace squaring_detail {

/// Length times sqrt(1 - sine^2), less that length.
[[nodiscard]] inline Length level_less_slope(Length along, double sine) {
    return along * (-sine * sine / (1.0 + std::sqrt((1.0 - sine) * (1.0 + sine))));
}

/// Sine of the slope of a straight line from mark to mark.
[[nodiscard]] inline double sine_of(const TapeSlope& slope, Length straight) {
    if (const auto* tilted = std::get_if<SlopeAngle>(&slope)) {
        return std::sin(radians(tilted->angle));
    }
    const auto* ends = std::get_if<EndsRise>(&slope);
    return ends != nullptr ? ends->rise / straight : 0.0;
}

/// Sum of l^3 of the hung spans, in inches^3.
[[nodiscard]] inline double cubes_of_spans(const TapeSupport& support, Length read) {
    double sum = 0.0;
    if (const auto* equal = std::get_if<EqualSpans>(&support)) {
        const auto count = static_cast<double>(equal->count);
        const double span = inches(read) / count;
        sum = count * span * span * span;
    } else if (const auto* hung = std::get_if<HungSpans>(&support)) {
        for (const Length span : hung->spans) {
            sum += inches(span) * inches(span) * inches(span);
        }
    }
    return sum;
}

/// The longest hung span, and what they come to; none where the tape lies flat.
struct Hang {
    Length longest;
    Length together;
};
[[nodiscard]] inline Hang hang_of(const TapeSupport& support, Length read) {
    Hang hang{no_length, no_length};
    if (const auto* equal = std::get_if<EqualSpans>(&support)) {
        hang = Hang{read / static_cast<double>(equal->count), read};
    } else if (const auto* hung = std::get_if<HungSpans>(&support)) {
        for (const Length span : hung->spans) {
            hang = Hang{longer(hang.longest, span), hang.together + span};
        }
    }
    return hang;
}

inline void require_shallow(Length span, LineLoad weight, Force pull, const Path& path, Faults& faults) {
    const Force hanging = weight * span;
    if (!(pounds_force(hanging) <= heaviest_hang * pounds_force(pull))) {
        faults.push_back(Fault{FaultCode::out_of_range, path.text(), write_decimal(pounds_force(pull), 6) + " lbf",
                               "twice the weight of the longest hung span at least, " +
                                   write_decimal(2.0 * pounds_force(hanging), 3) + " lbf"});
    }
}

/// All terms of a reading; what goes in is sound.
[[nodiscard]] inline CorrectedReading terms_of(Length read, const SteelTape& tape, const TapingConditions& at) {
    const double warmer = at.temperature.fahrenheit() - tape.standard_temperature.fahrenheit();
    const double harder =
        (pounds_force(at.tension) - pounds_force(tape.standard_tension)) / pounds_force(tape.stiffness);
    CorrectedReading r{.read = read,
                       .calibration = read * ((tape.standard_length - tape.nominal_length) / tape.nominal_length),
                       .temperature = read * (tape.expansion_per_fahrenheit * warmer),
                       .tension = read * harder,
                       .sag = no_length,
                       .hook = at.hook_offset,
                       .straight = no_length,
                       .to_level = no_length,
                       .corrected = no_length};
    const Length taut = read + r.calibration + r.temperature + r.tension + r.hook;
    const double lean = sine_of(at.slope, taut);  // the sag would change it by a share of the sag only
    const double share = pounds_per_inch(tape.weight) / pounds_force(at.tension);
    r.sag = one_inch * (-share * share * (1.0 - lean * lean) * cubes_of_spans(at.support, read) / 24.0);
    r.straight = taut + r.sag;
    r.to_level = level_less_slope(r.straight, sine_of(at.slope, r.straight));
    r.corrected = r.straight + r.to_level;
    return r;
}

/// What a reading asks of the conditions.
inline void find_reading_faults(Length read, const SteelTape& tape, const TapingConditions& at, Faults& faults) {
    const Path conditions{"conditions"};
    require_within(read, shortest_side, longest_reading, Path{"read"}, faults);
    if (!faults.empty()) {
        return;
    }
    const Hang hang = hang_of(at.support, read);
    if (hang.together > read * 1.005) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{Path{conditions, "support"}, "spans"}.text(),
                               describe_length(hang.together), "the reading at most, " + describe_length(read)});
    }
    require_shallow(hang.longest, tape.weight, at.tension, Path{conditions, "tension"}, faults);
    const Length left = read * 0.8 + at.hook_offset;  // the other terms together take less than a fifth
    if (left < shortest_side * 0.5) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{conditions, "hook_offset"}.text(),
                               describe_length(at.hook_offset), "well within the reading, " + describe_length(read)});
    } else if (const auto* ends = std::get_if<EndsRise>(&at.slope)) {
        const CorrectedReading flat =
            terms_of(read, tape, TapingConditions{at.temperature, at.tension, at.support, at.hook_offset});
        require_slope(ends->rise / flat.straight, describe_length(ends->rise), Path{Path{conditions, "slope"}, "rise"},
                      faults);
    }
}

inline void require_taping(const SteelTape& tape, const TapingConditions& conditions) {
    require_sound(tape, "tape");
    require_sound(conditions, "conditions");
}
inline void refuse_first(const Faults& faults) {
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
}

/// The straight line from mark to mark whose level part is `level`.
[[nodiscard]] inline Length slope_of_level(Length level, const TapeSlope& slope) {
    if (const auto* tilted = std::get_if<SlopeAngle>(&slope)) {
        return level / std::cos(radians(tilted->angle));
    }
    const auto* ends = std::get_if<EndsRise>(&slope);
    return ends != nullptr ? hypotenuse(level, ends->rise) : level;
}

}  // namespace squaring_detail

/// The distance that is there where the tape reads `read` (`shortest_side` to `longest_reading`; more than one tape
/// length may be read in several). Throws as `find_faults` of both; does_not_fit where the hung spans or the hook are
/// longer than the reading; out_of_range where a span hangs too heavily for the pull or the slope is too steep.
[[nodiscard]] inline CorrectedReading correct_reading(Length read, const SteelTape& tape,
                                                      const TapingConditions& conditions) {
    squaring_detail::require_taping(tape, conditions);
    Faults faults;
    squaring_detail::find_reading_faults(read, tape, conditions, faults);
    squaring_detail::refuse_first(faults);
    return squaring_detail::terms_of(read, tape, conditions);
}

/// The reading at which to set a mark so that `wanted` is there: `correct_reading(result).corrected` is `wanted` to a
/// relative 1e-12. On a slope `wanted` is the level distance. Throws as `correct_reading`.
[[nodiscard]] inline Length reading_to_set(Length wanted, const SteelTape& tape, const TapingConditions& conditions) {
    squaring_detail::require_taping(tape, conditions);
    Faults faults;
    require_within(wanted, no_length, longest_reading, Path{"wanted"}, faults);
    squaring_detail::refuse_first(faults);
    const Length straight = squaring_detail::slope_of_level(wanted, conditions.slope);
    Length read = straight - conditions.hook_offset;
    squaring_detail::find_reading_faults(read, tape, conditions, faults);
    squaring_detail::refuse_first(faults);
    // Each round leaves of the error what the terms are of the reading: a tenth at most, in practice a thousandth.
    Length missing = straight;
    for (int i = 0; i < 60 && magnitude(missing) > straight * 1e-15; ++i) {
        missing = straight - squaring_detail::terms_of(read, tape, conditions).straight;
        read += missing;
    }
    squaring_detail::find_reading_faults(read, tape, conditions, faults);
    squaring_detail::refuse_first(faults);
    return read;
}

/// The level part of a line along a slope of this angle. `along` `shortest_side` to `longest_reading`, the angle 85
/// degrees at most either way. Throws out_of_range or not_finite.
[[nodiscard]] inline Length level_from_slope(Length along, Angle angle) {
    Faults faults;
    squaring_detail::require_side(along, Path{"along"}, faults);
    squaring_detail::require_angle(angle, Path{"angle"}, faults);
    squaring_detail::refuse_first(faults);
    return along * std::cos(radians(angle));
}

/// The same where the ends of the line differ in height by `rise`, either way: sqrt(along^2 - rise^2).
[[nodiscard]] inline Length level_from_slope(Length along, Length rise) {
    Faults faults;
    squaring_detail::require_side(along, Path{"along"}, faults);
    squaring_detail::refuse_first(faults);
    squaring_detail::require_slope(rise / along, describe_length(rise), Path{"rise"}, faults);
    squaring_detail::refuse_first(faults);
    return one_inch * std::sqrt(inches(along - rise) * inches(along + rise));
}

/// By how much a span that hangs is shorter than its tape, `taped` between two supports of one height, pulled with
/// `tension` along the tape at its end. The catenary; the parabola w^2 l^3 / (24 pull^2) of `correct_reading` falls short
/// of it by 0.14 (w l / pull)^2 of itself, 3.5 % where w l is half the pull. Relative 1e-13. Throws out_of_range or
/// not_finite for a length, a weight (0 to 1 lb/ft), a pull, or a span too heavy for the pull.
[[nodiscard]] inline Length sag_by_catenary(Length taped, LineLoad weight, Force tension) {
    Faults faults;
    squaring_detail::require_side(taped, Path{"taped"}, faults);
    squaring_detail::require_pounds(pounds_per_foot(weight), 0.0, 1.0, "lb/ft", Path{"weight"}, faults);
    squaring_detail::require_pull(tension, Path{"tension"}, faults);
    squaring_detail::refuse_first(faults);
    squaring_detail::require_shallow(taped, weight, tension, Path{"tension"}, faults);
    squaring_detail::refuse_first(faults);
    // With x half the weight over the level pull the span is taped * asinh(x) / x; 1 - asinh(x) / x as a series, which
    // for x up to 0.26 has no need of a difference.
    const double half = pounds_force(weight * taped) / 2.0;
    const double pull = pounds_force(tension);
    const double square = half * half / ((pull - half) * (pull + half));
    double product = 1.0;
    double sum = 0.0;
    for (int n = 1; n < 40; ++n) {
        product *= -square * (2.0 * n - 1.0) / (2.0 * n);
        sum -= product / (2.0 * n + 1.0);
    }
    return taped * sum;
}

/// The pull at which stretch makes good the sag of a tape hung over equal spans, so that it reads as it would flat under
/// its standard tension: the root of P^2 (P - standard) = W^2 stiffness / 24, W the weight of one span. For a heavy tape
/// it may be more than anyone should put on it. Throws as `find_faults` of the tape, and out_of_range or not_finite for
/// the span.
[[nodiscard]] inline Force normal_tension(const SteelTape& tape, Length span) {
    require_sound(tape, "tape");
    Faults faults;
    squaring_detail::require_side(span, Path{"span"}, faults);
    squaring_detail::refuse_first(faults);
    const double weight = pounds_force(tape.weight * span);
    const double standard = pounds_force(tape.standard_tension);
    const double product = weight * weight * pounds_force(tape.stiffness) / 24.0;
    // P - standard is less than the cube root of the product; from there Newton comes down to the root.
    double pull = standard + std::cbrt(product);
    for (int i = 0; i < 60; ++i) {
        const double step = (pull * pull * (pull - standard) - product) / (pull * (3.0 * pull - 2.0 * standard));
        pull -= step;
        if (!(step > 1e-15 * pull)) {
            break;
        }
    }
    return force_from_pounds(pull);
}

}  // namespace eavewright
