// SPDX-License-Identifier: BSL-1.0
#pragma once

// Writes lengths as a tape reads: rounded to a mark first, split into feet, inches and fraction after.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <cmath>
#include <cstdint>
#include <string>

namespace eavewright {

/// A length at its nearest mark of an inch tape, and what is left over. One sign holds for feet, inches and
/// fraction together; a length that rounds to zero has none.
struct TapeReading {
    bool negative;
    std::int64_t feet;
    int inches;        ///< 0 to 11
    int numerator;     ///< in lowest terms; 0 where there is no fraction
    int denominator;   ///< 2 to 64; 1 where there is no fraction
    Length remainder;  ///< exact length minus the mark, with its own sign: mark + remainder is the length
};

template <>
struct FieldsOf<TapeReading> {
    static constexpr auto list = field_list(
        field("negative", FieldUnit::none, "whether the whole reading is below zero", &TapeReading::negative),
        field("feet", FieldUnit::count, "whole feet", &TapeReading::feet),
        field("inches", FieldUnit::count, "whole inches, 0 to 11", &TapeReading::inches),
        field("numerator", FieldUnit::count, "numerator of the fraction of an inch", &TapeReading::numerator),
        field("denominator", FieldUnit::count, "denominator of the fraction of an inch", &TapeReading::denominator),
        field("remainder", FieldUnit::length, "exact length minus the mark", &TapeReading::remainder));
};

/// Decimals of a remainder: thousandths of an inch or tenths of a millimetre unless told otherwise (common practice).
struct RemainderPlaces {
    int inches = 3;
    int millimetres = 1;
};

namespace detail {
inline void require_writable(Length length) {
    if (!is_usable(length)) {
        Faults faults;
        require_within(length, Length::from_inches(-length_limit_in), Length::from_inches(length_limit_in),
                       Path{"length"}, faults);
        throw FaultError{faults.front()};
    }
}

[[nodiscard]] inline std::string sign_of(bool negative) { return negative ? "-" : ""; }

/// `6 1/2"`, `6"`, and `1/2"` or `0 1/2"` as asked.
[[nodiscard]] inline std::string write_inch_part(std::int64_t whole, const TapeReading& at, bool keeps_zero) {
    std::string text = whole != 0 || at.numerator == 0 || keeps_zero ? std::to_string(whole) : std::string{};
    if (at.numerator != 0) {
        text += text.empty() ? "" : " ";
        text += std::to_string(at.numerator) + "/" + std::to_string(at.denominator);
    }
    return text + "\"";
}

/// A small signed decimal behind a mark: ` +0.013"`; nothing where it rounds to zero.
[[nodiscard]] inline std::string write_left_over(double value, int places, const std::string& unit) {
    const std::string text = write_decimal(value, places);
    return text == "0" ? std::string{} : (text[0] == '-' ? " " : " +") + text + unit;
}
}  // namespace detail

/// The mark of `inch_tick` nearest to `length`, split into feet, inches and a fraction in lowest terms.
/// 11.97 in at 1/16 in is 1 ft 0 in: rounding comes first, so it carries. The remainder is exact.
/// Throws out_of_range for a metric tick or an unusable length, not_finite for NaN and infinity.
[[nodiscard]] inline TapeReading split_tape(Length length, Tick inch_tick, Tie tie = Tie::half_up) {
    detail::require_writable(length);
    if (inch_tick.is_metric()) {
        throw FaultError{Fault{FaultCode::out_of_range, "inch_tick", "a tick in millimetres", "a tick of an inch"}};
    }
    const double ticks = nearest_ticks(length, inch_tick, tie);
    const auto marks = static_cast<std::int64_t>(std::fabs(ticks));
    const std::int64_t per_inch = inch_tick.denominator();
    TapeReading at{ticks < 0.0,
                   marks / (12 * per_inch),
                   static_cast<int>(marks / per_inch % 12),
                   static_cast<int>(marks % per_inch),
                   inch_tick.denominator(),
                   length - inch_tick.length(ticks)};
    while (at.denominator > 1 && at.numerator % 2 == 0) {  // marks are binary, so halving reduces them fully
        at.numerator /= 2;
        at.denominator /= 2;
    }
    return at;
}

/// Feet and inches at the nearest mark: `12'-6 1/2"`, `0'-0 1/16"`, `-2'-3"`, `1'-0"`. Throws as `split_tape`.
[[nodiscard]] inline std::string write_feet_inches(Length length, Tick inch_tick, Tie tie = Tie::half_up) {
    const TapeReading at = split_tape(length, inch_tick, tie);
    return detail::sign_of(at.negative) + std::to_string(at.feet) + "'-" + detail::write_inch_part(at.inches, at, true);
}

/// Inches alone at the nearest mark: `150 1/2"`, `7/16"`, `0"`. Throws as `split_tape`.
[[nodiscard]] inline std::string write_inches(Length length, Tick inch_tick, Tie tie = Tie::half_up) {
    const TapeReading at = split_tape(length, inch_tick, tie);
    return detail::sign_of(at.negative) + detail::write_inch_part(at.feet * 12 + at.inches, at, false);
}

/// Most decimals of a millimetre that `write_millimetres` gives.
inline constexpr int most_millimetre_places = 6;

/// Millimetres with at most `places` decimals (0 to 6), trailing zeros dropped: `3810 mm`, `22.2 mm`.
/// Whole millimetres print as they were typed. As a millimetre is rarely exact in inches, a value within
/// count_tolerance / 10^places of a midpoint counts as the midpoint, and `tie` decides.
/// Throws out_of_range for other places or an unusable length, not_finite for NaN and infinity.
[[nodiscard]] inline std::string write_millimetres(Length length, int places = 0, Tie tie = Tie::half_up) {
    detail::require_writable(length);
    if (places < 0 || places > most_millimetre_places) {
        throw FaultError{Fault{FaultCode::out_of_range, "places", std::to_string(places), "0 to 6 decimals"}};
    }
    double scale = 1.0;
    for (int i = 0; i < places; ++i) {
        scale *= 10.0;
    }
    const double scaled = std::fabs(millimetres(length)) * scale;
    const double down = std::floor(scaled);
    const double past_midpoint = scaled - down - 0.5;
    const bool tied = std::fabs(past_midpoint) < millimetres(count_tolerance);
    const bool up = tied ? tie == Tie::half_up || std::fmod(down, 2.0) == 1.0 : past_midpoint > 0.0;
    const double rounded = (up ? down + 1.0 : down) / scale;
    return write_decimal(inches(length) < 0.0 ? -rounded : rounded, places) + " mm";
}

/// At the nearest mark of `tick`: feet and inches for a tick of an inch, whole millimetres for a metric one.
/// Throws out_of_range for an unusable length, not_finite for NaN and infinity.
[[nodiscard]] inline std::string write_length(Length length, Tick tick, Tie tie = Tie::half_up) {
    detail::require_writable(length);
    return tick.is_metric() ? write_millimetres(round_to_tick(length, tick, tie))
                            : write_feet_inches(length, tick, tie);
}

/// As `write_length`, followed by what the mark leaves over: `12'-6 1/2" +0.013"`, `3810 mm -0.3 mm`.
/// The remainder has its own sign (mark + remainder is the length) and is left out where it rounds to zero.
[[nodiscard]] inline std::string write_length_with_remainder(Length length, Tick tick, Tie tie = Tie::half_up,
                                                             RemainderPlaces places = {}) {
    const std::string mark = write_length(length, tick, tie);
    const Length left_over = length - round_to_tick(length, tick, tie);
    return mark + (tick.is_metric() ? detail::write_left_over(millimetres(left_over), places.millimetres, " mm")
                                    : detail::write_left_over(inches(left_over), places.inches, "\""));
}

}  // namespace eavewright
