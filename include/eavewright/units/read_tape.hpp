// SPDX-License-Identifier: BSL-1.0
#pragma once

// Reads a length as people write it on site: feet and inches with fractions, decimals, millimetres, metres.

#include <eavewright/fault.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/text_cursor.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {
namespace detail {

enum class WrittenUnit { foot, inch, millimetre, centimetre, metre };

/// A number with an optional tape fraction, and the unit behind it.
struct WrittenPart {
    Decimal whole;
    int sixty_fourths;
    TextSpan span;
    WrittenUnit unit;
    TextSpan unit_span;
};

/// Inches as numerator / denominator, both exact.
struct InchQuotient {
    double numerator;
    double denominator;
};

/// Exact for 15 digits: 12m is 4 times 3m, 10m twice 5m, and 1 mm is 10/254 in.
[[nodiscard]] inline InchQuotient quotient_of(const Decimal& number, WrittenUnit unit) {
    const double mantissa = static_cast<double>(number.mantissa);
    if (unit == WrittenUnit::inch || unit == WrittenUnit::foot) {
        return {unit == WrittenUnit::foot ? mantissa * 12.0 : mantissa, power_of_ten(number.places)};
    }
    const int tens = (unit == WrittenUnit::millimetre ? 1 : unit == WrittenUnit::centimetre ? 2 : 4) - number.places;
    return tens >= 0 ? InchQuotient{mantissa * power_of_ten(tens), 254.0}
                     : InchQuotient{mantissa, 254.0 * power_of_ten(-tens)};
}

struct LengthReader {
    TextCursor cursor;

    std::optional<Length> length() {
        cursor.skip_blanks();
        if (cursor.at_end()) {
            return cursor.refuse(FaultCode::empty_text, {0, cursor.text.size()}, required_length);
        }
        const bool negative = cursor.take_minus();
        if (!negative) {
            cursor.take("+");
        }
        cursor.skip_blanks();
        const std::optional<WrittenPart> first = part();
        if (!first) {
            return std::nullopt;
        }
        if (first->sixty_fourths != 0 && first->unit != WrittenUnit::inch) {
            return cursor.refuse(FaultCode::bad_fraction, first->span, "a decimal number, or inches with a fraction");
        }
        cursor.skip_blanks();
        if (first->unit == WrittenUnit::foot && !cursor.at_end()) {
            return feet_and_inches(*first, negative);
        }
        if (!cursor.ends()) {
            return std::nullopt;
        }
        return first->sixty_fourths != 0 ? finish(with_fraction(0, *first), first->span, negative)
                                         : finish(quotient_of(first->whole, first->unit), first->span, negative);
    }

private:
    static constexpr std::string_view required_length = "a length with its unit, such as 12'-6 1/2\" or 3810 mm";
    static constexpr double exact_limit = 9007199254740992.0;  // 2^53

    std::optional<WrittenPart> part() {
        WrittenPart read{Decimal{0, 0, {cursor.at, cursor.at}}, 0, {cursor.at, cursor.at}, WrittenUnit::inch, {0, 0}};
        const std::optional<int> lone = cursor.fraction();
        if (!lone) {
            return std::nullopt;
        }
        read.sixty_fourths = *lone;
        if (*lone == 0 && !mixed_number(read)) {
            return std::nullopt;
        }
        read.span.end = cursor.at;
        cursor.skip_blanks();
        read.unit_span.begin = cursor.at;
        const std::optional<WrittenUnit> found = unit(read.span);
        if (!found) {
            return std::nullopt;
        }
        read.unit = *found;
        read.unit_span.end = cursor.at;
        return read;
    }

    bool mixed_number(WrittenPart& read) {
        const std::optional<Decimal> whole = cursor.decimal();
        if (!whole) {
            return false;
        }
        read.whole = *whole;
        const std::size_t after = cursor.at;
        const std::optional<int> sixty_fourths = cursor.joined_fraction();
        if (sixty_fourths && *sixty_fourths != 0 && whole->places > 0) {
            cursor.refuse(FaultCode::bad_fraction, {after, cursor.at}, "decimals or a fraction, not both");
            return false;
        }
        read.sixty_fourths = sixty_fourths.value_or(0);
        return sixty_fourths.has_value();
    }

    bool take_foot_mark() noexcept {
        return cursor.take_any({"'", "\xE2\x80\x99", "\xE2\x80\x98", "\xE2\x80\xB2"});  // straight, curly, prime
    }
    bool take_inch_mark() noexcept {
        return cursor.take_any({"\"", "\xE2\x80\x9D", "\xE2\x80\x9C", "\xE2\x80\xB3",  // straight, curly, prime
                                "''", "\xE2\x80\x99\xE2\x80\x99", "\xE2\x80\xB2\xE2\x80\xB2"});
    }

    std::optional<WrittenUnit> unit(TextSpan number) {
        if (take_inch_mark()) {
            return WrittenUnit::inch;
        }
        if (take_foot_mark()) {
            return WrittenUnit::foot;
        }
        const TextSpan place = cursor.next_span();
        const std::string_view word = cursor.take_word();
        const std::optional<WrittenUnit> named = unit_named(word);
        if (named) {
            if (*named == WrittenUnit::foot || *named == WrittenUnit::inch) {
                cursor.take(".");  // "ft." and "in."
            }
            return named;
        }
        const bool none = word.empty() && (cursor.at_end() || cursor.sees_digit() || cursor.take_minus() ||
                                           cursor.take_dash() || cursor.take_slash());
        return none ? cursor.refuse(FaultCode::missing_unit, number, required_unit)
                    : cursor.refuse(FaultCode::unknown_unit, place, required_unit);
    }
    static constexpr std::string_view required_unit = "a unit after the number: ', \", ft, in, mm, cm or m";

    /// Feet and inches in any case. Metric only as mm, MM, cm, CM and m: Mm is a million metres and M is anything.
    [[nodiscard]] static std::optional<WrittenUnit> unit_named(std::string_view word) {
        const std::string lower = lower_case(word);
        if (lower == "ft" || lower == "foot" || lower == "feet") {
            return WrittenUnit::foot;
        }
        if (lower == "in" || lower == "inch" || lower == "inches") {
            return WrittenUnit::inch;
        }
        if (word == "mm" || word == "MM") {
            return WrittenUnit::millimetre;
        }
        if (word == "cm" || word == "CM") {
            return WrittenUnit::centimetre;
        }
        return word == "m" ? std::optional{WrittenUnit::metre} : std::nullopt;
    }

    /// Whatever follows the feet. `12'-6"`, `12' - 6"` and `12' 6"` are one length; `12' -6"` might be two.
    std::optional<Length> feet_and_inches(const WrittenPart& feet, bool negative) {
        const std::size_t begin = cursor.at;
        if (feet.whole.places > 0) {
            return cursor.refuse(FaultCode::trailing_text, {begin, cursor.text.size()}, "whole feet before inches");
        }
        const bool blank_before = begin > feet.unit_span.end;
        if (cursor.take_dash()) {
            const std::size_t after = cursor.at;
            cursor.skip_blanks();
            if (blank_before && cursor.at == after) {
                return cursor.refuse(FaultCode::ambiguous_text, {begin, after}, "one sign, before the whole length");
            }
        } else if (!begins_number()) {
            return cursor.refuse(FaultCode::trailing_text, {begin, cursor.text.size()}, "inches or nothing after feet");
        }
        const std::optional<WrittenPart> rest = part();
        if (!rest || !fits_below_foot(*rest) || !cursor.ends()) {
            return std::nullopt;
        }
        return add_up(feet, *rest, negative);
    }

    [[nodiscard]] bool begins_number() const {
        TextCursor ahead{cursor.text, cursor.at};
        return cursor.sees_digit() || (cursor.next() == '.' && is_digit(cursor.next(1))) ||
               ahead.fraction().value_or(0) != 0;
    }

    bool fits_below_foot(const WrittenPart& rest) {
        if (rest.unit != WrittenUnit::inch) {
            cursor.refuse(FaultCode::unknown_unit, rest.unit_span, "inches after feet");
        } else if (static_cast<double>(rest.whole.mantissa) / power_of_ten(rest.whole.places) >= 12.0) {
            cursor.refuse(FaultCode::out_of_range, rest.span, "less than 12 inches after feet");
        }
        return !cursor.fault.has_value();
    }

    std::optional<Length> add_up(const WrittenPart& feet, const WrittenPart& rest, bool negative) {
        const TextSpan span{feet.span.begin, rest.unit_span.end};
        if (rest.sixty_fourths != 0) {
            return finish(with_fraction(feet.whole.mantissa, rest), span, negative);
        }
        InchQuotient sum = quotient_of(rest.whole, WrittenUnit::inch);
        sum.numerator += static_cast<double>(feet.whole.mantissa) * 12.0 * sum.denominator;
        if (sum.numerator > exact_limit && sum.numerator / sum.denominator <= length_limit_in) {
            return cursor.refuse(FaultCode::too_many_digits, span, "fewer decimals, at most 15 digits in all");
        }
        return finish(sum, span, negative);
    }

    [[nodiscard]] static InchQuotient with_fraction(std::int64_t feet, const WrittenPart& rest) {
        return {static_cast<double>((feet * 12 + rest.whole.mantissa) * 64 + rest.sixty_fourths), 64.0};
    }

    std::optional<Length> finish(InchQuotient in, TextSpan place, bool negative) {
        const double value = in.numerator / in.denominator;
        if (value > length_limit_in) {
            return cursor.refuse(FaultCode::out_of_range, place, "a length within 10000000 in");
        }
        return Length::from_inches(negative && value > 0.0 ? -value : value);
    }
};

}  // namespace detail

/// Reads a length with its unit: `12'-6 1/2"`, `12' 6-1/2"`, `12 ft 6.5 in`, `150.5"`, `7/16"`, `100'`, `3810 mm`,
/// `381 cm`, `3.81 m`. One sign before the whole, so `-2'-3"` is -27 in and `-0' 3/8"` is -3/8 in.
/// Takes straight and curly quotes, primes, two apostrophes for inches, the characters for halves, quarters and
/// eighths, the minus sign, no-break spaces, and hyphen or en dash between feet and inches. Feet and inches in any
/// case; metric as mm, MM, cm, CM and m.
///
/// Every text gives the double nearest to what it says: the digits are read as one integer of at most 15 digits
/// and divided once by an exact number (inches m/10^k, feet 12m/10^k, millimetres 10m/(254*10^k), metres
/// 10000m/(254*10^k), powers of ten cancelled first so that both sides stay exact).
///
/// Refused, with the place in the text: nothing at all (empty_text); no digits, an exponent, nan, inf (not_a_number);
/// a number without unit (missing_unit); unknown letters, or anything but inches after feet (unknown_unit);
/// fractions other than halves to 64ths, 0 or not below one, with decimals, of feet or metric (bad_fraction); text
/// after the value, inches after decimal feet (trailing_text); more than 15 digits (too_many_digits); commas, a
/// second sign (ambiguous_text); 12 inches or more after feet, lengths above `length_limit_in` (out_of_range).
[[nodiscard]] inline Outcome<Length> read_length(std::string_view text) {
    detail::LengthReader reader{detail::TextCursor{text}};
    const std::optional<Length> read = reader.length();
    return read ? Outcome<Length>{*read} : Outcome<Length>{*reader.cursor.fault};
}

}  // namespace eavewright
