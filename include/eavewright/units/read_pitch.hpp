// SPDX-License-Identifier: BSL-1.0
#pragma once

// Reads a pitch as people write it: in 12, degrees or per cent.

#include <eavewright/fault.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/text_cursor.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {
namespace detail {

struct PitchReader {
    TextCursor cursor;

    std::optional<Pitch> pitch() {
        cursor.skip_blanks();
        const std::size_t begin = cursor.at;
        if (cursor.at_end()) {
            return cursor.refuse(FaultCode::empty_text, {0, cursor.text.size()}, required_pitch);
        }
        if (cursor.take_minus()) {
            return cursor.refuse(FaultCode::out_of_range, {begin, cursor.at}, "0 <= pitch < 90 deg, without a sign");
        }
        const std::optional<double> first = number();
        if (!first) {
            return std::nullopt;
        }
        const TextSpan span{begin, cursor.at};
        cursor.skip_blanks();
        return takes_ratio_sign() ? in_12(*first, span) : with_unit(*first, span);
    }

private:
    static constexpr std::string_view required_pitch = "a pitch such as 4:12, 4 in 12, 18.43 deg or 33.3 %";

    /// `4.5`, `4 1/2`, or a fraction in front of a ratio sign, as in `1/4:12`; `4/12` itself stops before the slash.
    std::optional<double> number() {
        if (lone_fraction_ahead()) {
            return as_number(0.0, cursor.fraction());
        }
        const std::optional<Decimal> whole = cursor.decimal();
        if (!whole) {
            return std::nullopt;
        }
        const double value = static_cast<double>(whole->mantissa) / power_of_ten(whole->places);
        const std::size_t after = cursor.at;
        if (cursor.take_slash()) {
            cursor.at = after;
            return value;
        }
        const std::optional<double> mixed = as_number(value, cursor.joined_fraction());
        if (mixed && whole->places > 0 && cursor.at > after) {
            return cursor.refuse(FaultCode::bad_fraction, {after, cursor.at}, "decimals or a fraction, not both");
        }
        return mixed;
    }

    [[nodiscard]] static std::optional<double> as_number(double whole, std::optional<int> sixty_fourths) {
        return sixty_fourths ? std::optional{whole + *sixty_fourths / 64.0} : std::nullopt;
    }

    [[nodiscard]] bool lone_fraction_ahead() const {
        PitchReader ahead{TextCursor{cursor.text, cursor.at}};
        const std::optional<int> part = ahead.cursor.fraction();
        ahead.cursor.skip_blanks();
        return part && *part != 0 && (!cursor.sees_digit() || ahead.takes_ratio_sign());
    }

    bool takes_ratio_sign() {
        const std::size_t begin = cursor.at;
        if (cursor.take(":") || cursor.take_slash() || lower_case(cursor.take_word()) == "in") {
            return true;
        }
        cursor.at = begin;
        return false;
    }

    std::optional<Pitch> in_12(double rise, TextSpan span) {
        cursor.skip_blanks();
        const std::optional<Decimal> run = cursor.decimal();
        if (!run) {
            return std::nullopt;
        }
        if (static_cast<double>(run->mantissa) / power_of_ten(run->places) != 12.0) {
            return cursor.refuse(FaultCode::ambiguous_text, run->span,
                                 "a ratio to 12, such as 4:12 (an old pitch such as 1/3 is rise over span, 8 in 12, "
                                 "while one in three is 4 in 12)");
        }
        return cursor.ends() ? made(span, [rise] { return Pitch::in_12(rise); }) : std::nullopt;
    }

    std::optional<Pitch> with_unit(double value, TextSpan span) {
        if (cursor.at_end() || cursor.sees_digit()) {
            return cursor.refuse(FaultCode::missing_unit, span, required_pitch);
        }
        const TextSpan place = cursor.next_span();
        const bool degree_sign = cursor.take("\xC2\xB0");
        const bool percent_sign = !degree_sign && cursor.take("%");
        const std::string word = lower_case(cursor.take_word());
        const bool is_degrees = degree_sign ? word.empty() : word == "deg" || word == "degree" || word == "degrees";
        const bool is_percent = percent_sign ? word.empty() : word == "percent";
        if (!is_degrees && !is_percent) {
            return cursor.refuse(FaultCode::unknown_unit, place, required_pitch);
        }
        if (!cursor.ends()) {
            return std::nullopt;
        }
        return is_degrees ? made(span, [value] { return Pitch::from_degrees(value); })
                          : made(span, [value] { return Pitch::from_percent(value); });
    }

    /// Pitch itself knows its range; its refusal is given back with the text and the place.
    template <class Make>
    std::optional<Pitch> made(TextSpan span, Make make) {
        try {
            return make();
        } catch (const FaultError& error) {
            return cursor.refuse(error.fault().code, span, error.fault().required);
        }
    }
};

}  // namespace detail

/// Reads a pitch: `4:12`, `4/12`, `4 in 12`, `4.5:12`, `4 1/2:12`, `1/4:12`, `18.43 deg`, `18.43°`, `33.3 %`.
///
/// The second number of a ratio must be 12. `1/3` and `1:3` are refused as ambiguous_text: the old third pitch is
/// rise over span, 8 in 12, while one in three is 4 in 12. Also refused, with the place in the text: empty_text,
/// not_a_number, missing_unit, unknown_unit, bad_fraction, trailing_text, too_many_digits as in `read_length`;
/// a sign, or 90 deg and steeper (out_of_range).
[[nodiscard]] inline Outcome<Pitch> read_pitch(std::string_view text) {
    detail::PitchReader reader{detail::TextCursor{text}};
    const std::optional<Pitch> read = reader.pitch();
    return read ? Outcome<Pitch>{*read} : Outcome<Pitch>{*reader.cursor.fault};
}

}  // namespace eavewright
