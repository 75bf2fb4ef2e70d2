// SPDX-License-Identifier: BSL-1.0
#pragma once

// The scanner under the readers of lengths and pitches: bytes of UTF-8, decimals as integers, the first fault kept.

#include <eavewright/fault.hpp>

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright::detail {

/// mantissa / 10^places, both exact in a double: at most 15 significant digits and 20 decimals.
struct Decimal {
    std::int64_t mantissa;
    int places;
    TextSpan span;
};

inline constexpr int most_significant_digits = 15;
inline constexpr int most_places = 20;

/// 10^exponent, exact for 0 to 22.
[[nodiscard]] constexpr double power_of_ten(int exponent) noexcept {
    double power = 1.0;
    for (int i = 0; i < exponent; ++i) {
        power *= 10.0;
    }
    return power;
}

[[nodiscard]] constexpr bool is_digit(char c) noexcept { return c >= '0' && c <= '9'; }
[[nodiscard]] constexpr bool is_letter(char c) noexcept { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
[[nodiscard]] inline std::string lower_case(std::string_view word) {
    std::string lower{word};
    for (char& c : lower) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return lower;
}

/// One vulgar fraction that has a character of its own.
struct FractionCharacter {
    std::string_view text;
    int sixty_fourths;
};
inline constexpr FractionCharacter fraction_characters[] = {
    {"\xC2\xBD", 32},    {"\xC2\xBC", 16},     {"\xC2\xBE", 48},  // one half, one quarter, three quarters
    {"\xE2\x85\x9B", 8}, {"\xE2\x85\x9C", 24}, {"\xE2\x85\x9D", 40}, {"\xE2\x85\x9E", 56},  // eighths
};

/// Reads along a text. Every reader answers with nothing once `fault` is set.
struct TextCursor {
    std::string_view text;
    std::size_t at = 0;
    std::optional<Fault> fault{};

    [[nodiscard]] bool at_end() const noexcept { return at >= text.size(); }
    [[nodiscard]] char next(std::size_t ahead = 0) const noexcept {
        return at + ahead < text.size() ? text[at + ahead] : '\0';
    }
    [[nodiscard]] bool sees_digit() const noexcept { return is_digit(next()); }

    /// What a person would call the next thing: a word, or one character with all its bytes.
    [[nodiscard]] TextSpan next_span() const noexcept {
        std::size_t end = at;
        while (end < text.size() && is_letter(text[end])) {
            ++end;
        }
        if (end == at && end < text.size()) {
            ++end;
            while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) {
                ++end;
            }
        }
        return {at, end};
    }

    std::nullopt_t refuse(FaultCode code, TextSpan place, std::string_view required) {
        if (!fault) {
            fault = Fault{code, "", std::string{text}, std::string{required}, place};
        }
        return std::nullopt;
    }

    bool take(std::string_view wanted) noexcept {
        const bool found = text.substr(at, wanted.size()) == wanted;
        at += found ? wanted.size() : 0;
        return found;
    }
    bool take_any(std::initializer_list<std::string_view> wanted) noexcept {
        for (const std::string_view each : wanted) {
            if (take(each)) {
                return true;
            }
        }
        return false;
    }
    void skip_blanks() noexcept {
        while (take_any({" ", "\t", "\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89"})) {  // no-break, narrow, thin space
        }
    }
    std::string_view take_word() noexcept {
        const std::size_t begin = at;
        while (is_letter(next())) {
            ++at;
        }
        return text.substr(begin, at - begin);
    }
    /// Hyphen or en dash as a join; the minus sign U+2212 is none.
    bool take_dash() noexcept { return take_any({"-", "\xE2\x80\x93", "\xE2\x80\x90", "\xE2\x80\x91"}); }
    bool take_minus() noexcept { return take_any({"-", "\xE2\x88\x92"}); }
    bool take_slash() noexcept { return take_any({"/", "\xE2\x81\x84"}); }

    /// True where only blanks are left; else the fault trailing_text.
    bool ends() {
        skip_blanks();
        if (!at_end()) {
            refuse(FaultCode::trailing_text, {at, text.size()}, "nothing after the value");
        }
        return at_end();
    }

    /// Digits with at most one decimal point; no sign, comma or exponent.
    std::optional<Decimal> decimal() {
        Decimal read{0, 0, {at, at}};
        if (!sees_digit() && !(next() == '.' && is_digit(next(1)))) {
            return refuse(FaultCode::not_a_number, next_span(), "a number, such as 12 or 6.5");
        }
        int significant = take_digits(read, 0);
        if (next() == '.' && is_digit(next(1))) {
            ++at;
            const std::size_t point = at;
            significant = take_digits(read, significant);
            read.places = at - point > most_places ? most_places + 1 : static_cast<int>(at - point);
        }
        read.span.end = at;
        if (significant > most_significant_digits || read.places > most_places) {
            return refuse(FaultCode::too_many_digits, read.span, "at most 15 significant digits and 20 decimals");
        }
        return refuse_bad_ending() ? std::nullopt : std::optional{read};
    }

    /// 64ths in the fraction at the cursor, 0 where there is none; nothing where no tape carries it.
    std::optional<int> fraction() {
        const std::size_t begin = at;
        for (const FractionCharacter& each : fraction_characters) {
            if (take(each.text)) {
                return each.sixty_fourths;
            }
        }
        const int numerator = small_number();
        if (at == begin || !take_slash()) {
            at = begin;
            return 0;
        }
        const int denominator = small_number();
        const bool on_tape = denominator == 2 || denominator == 4 || denominator == 8 || denominator == 16 ||
                             denominator == 32 || denominator == 64;
        if (!on_tape || numerator == 0 || numerator >= denominator) {
            return refuse(FaultCode::bad_fraction, {begin, at},
                          "a fraction below one in halves, quarters, 8ths, 16ths, 32nds or 64ths");
        }
        return numerator * (64 / denominator);
    }

    /// The fraction after a whole number: `6 1/2`, `6-1/2`; 0 where there is none.
    std::optional<int> joined_fraction() {
        const std::size_t begin = at;
        if (take_slash()) {
            return refuse(FaultCode::bad_fraction, {begin, at}, "a fraction of whole numbers");
        }
        if (!take_dash()) {
            skip_blanks();
        }
        const std::optional<int> part = fraction();
        if (part && *part == 0) {
            at = begin;
        }
        return part;
    }

private:
    /// Returns the significant digits so far; stops adding up where they are too many.
    int take_digits(Decimal& read, int significant) noexcept {
        for (; sees_digit(); ++at) {
            significant += (significant > 0 || next() != '0') && significant <= most_significant_digits ? 1 : 0;
            if (significant <= most_significant_digits) {
                read.mantissa = read.mantissa * 10 + (next() - '0');
            }
        }
        return significant;
    }
    /// Whole number, every value above 999 taken as 1000.
    int small_number() noexcept {
        int value = 0;
        for (; sees_digit(); ++at) {
            value = value > 99 ? 1000 : value * 10 + (next() - '0');
        }
        return value;
    }
    bool refuse_bad_ending() {
        const bool exponent =
            (next() == 'e' || next() == 'E') && (is_digit(next(1)) || next(1) == '-' || next(1) == '+');
        if (next() == ',') {
            refuse(FaultCode::ambiguous_text, next_span(), "a decimal point, and no mark between thousands");
        } else if (exponent || next() == '.') {
            refuse(FaultCode::not_a_number, next_span(), "a plain decimal number without exponent");
        }
        return fault.has_value();
    }
};

}  // namespace eavewright::detail
