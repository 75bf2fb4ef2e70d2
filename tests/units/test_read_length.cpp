// SPDX-License-Identifier: BSL-1.0

#include "nearest.hpp"

#include <eavewright/units/read_tape.hpp>

#include "../support/printing.hpp"
#include "../support/table.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <iterator>
#include <random>
#include <string>
#include <string_view>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
Length read(const std::string& text) {
    CAPTURE(text);
    const Outcome<Length> outcome = read_length(text);
    INFO((outcome ? std::string{} : describe(outcome.fault())));
    REQUIRE(outcome.has_value());
    return outcome.value();
}

/// "301/2" or "-27" as numerator and denominator.
struct Ratio {
    double numerator;
    double denominator;
};
Ratio ratio_of(const std::string& text) {
    const std::size_t slash = text.find('/');
    return {std::stod(text), slash == std::string::npos ? 1.0 : std::stod(text.substr(slash + 1))};
}
}  // namespace

TEST_CASE("the table of feet-and-inch texts reads exactly, the survey foot row not at all") {
    int survey_rows = 0;
    for (const TableRow& row : read_table("feet_inch_cases.csv")) {
        const std::string text = row.at("text");
        CAPTURE(text);
        if (text.find("survey") != std::string::npos) {
            // A fraction of metres with a remark behind it is no length of a tape: refused, never guessed.
            const Outcome<Length> outcome = read_length(text);
            REQUIRE_FALSE(outcome.has_value());
            CHECK(outcome.fault().code == FaultCode::bad_fraction);
            ++survey_rows;
            continue;
        }
        const Ratio exact = ratio_of(row.at("inches_rational"));
        CHECK(is_nearest(std::fabs(inches(read(text))), std::fabs(exact.numerator), exact.denominator));
        CHECK(std::signbit(inches(read(text))) == (exact.numerator < 0.0));
        CHECK(std::fabs(millimetres(read(text)) - std::stod(row.at("mm"))) < 6e-9);
    }
    CHECK(survey_rows == 1);
}

TEST_CASE("every 64th reads as fraction, decimal, 4-place decimal, millimetres and feet") {
    for (const TableRow& row : read_table("inch_64ths.csv")) {
        const int k = std::stoi(row.at("k"));
        CAPTURE(k);
        const Length exact = one_inch * k / 64;
        CHECK(read(row.at("fraction_in") + "\"") == exact);
        CHECK(read(row.at("inch_exact") + " in") == exact);
        CHECK(off_by(read(row.at("inch_4dp") + "\""), exact) <= 0.00005 + 1e-12);
        CHECK(read(row.at("mm_exact") + " mm") == exact);
        CHECK(off_by(read(row.at("foot_8dp") + "'"), exact) <= 12.0 * 0.5e-8 + 1e-12);
        CHECK((k == 64 || read("5'-11 " + std::to_string(k) + "/64\"") == 71_in + exact));
    }
}

TEST_CASE("what people write") {
    const Length expected = 150.5_in;
    for (const char* text : {"12' 6-1/2\"",
                             "12'-6 1/2\"",
                             "12'6 1/2\"",
                             "12'-6-1/2\"",
                             "12ft 6.5in",
                             "12 ft 6 1/2 in",
                             "12 FT 6 1/2 IN",
                             "12 feet 6.5 inches",
                             "12 Foot 6.5 Inch",
                             "12 ft. 6 1/2 in.",
                             "12 ft - 6 1/2 in",
                             "12' - 6 1/2\"",
                             "150.5\"",
                             "150 1/2\"",
                             "150-1/2 in",
                             "+150.5\"",
                             "  12'-6 1/2\"  ",
                             "\t150.5 in\t",
                             "12' 6 1/2''",
                             "12'-6 2/4\"",
                             "12'-6 32/64\"",
                             "012'-06.50\"",
                             "3822.7 mm",
                             "3822.7mm",
                             "3822.70 MM",
                             "382.27 cm",
                             "382.27 CM",
                             "3.8227 m",
                             "12\xE2\x80\x99 6\xC2\xBD\xE2\x80\x9D",          // curly quotes, character for one half
                             "12\xE2\x80\xB2-6 \xC2\xBD\xE2\x80\xB3",         // primes
                             "12\xE2\x80\x99-6 1/2\xE2\x80\x99\xE2\x80\x99",  // two curly apostrophes
                             "12'\xE2\x80\x93"
                             "6 1/2\"",  // en dash
                             "12\xC2\xA0"
                             "ft\xC2\xA0"
                             "6\xC2\xA0"
                             "1/2\xC2\xA0in",  // no-break spaces
                             "12'-6 1\xE2\x81\x84"
                             "2\""}) {  // fraction slash
        CAPTURE(text);
        CHECK(read(text) == expected);
    }
    CHECK(read("7/16\"") == one_inch * 7.0 / 16.0);
    CHECK(read(".5\"") == one_inch / 2);
    CHECK(read("0.5'") == 6_in);
    CHECK(read("100'") == 100_ft);
    CHECK(read("12''") == 12_in);
    CHECK(read("3810 mm") == 150_in);
    CHECK(read("381 cm") == 150_in);
    CHECK(read("3.81 m") == 150_in);
    CHECK(read("5' 1/2\"") == 60.5_in);
    CHECK(read("11.999 in") == 11.999_in);
    CHECK(read("10000000\"") == Length::from_inches(1e7));
}

TEST_CASE("every fraction character") {
    CHECK(read("\xC2\xBC\"") == 0.25_in);
    CHECK(read("\xC2\xBD\"") == 0.5_in);
    CHECK(read("\xC2\xBE\"") == 0.75_in);
    CHECK(read("\xE2\x85\x9B\"") == 0.125_in);
    CHECK(read("3\xE2\x85\x9C\"") == 3.375_in);
    CHECK(read("3 \xE2\x85\x9D in") == 3.625_in);
    CHECK(read("1'-3-\xE2\x85\x9E\"") == 15.875_in);
    CHECK(read("1' \xE2\x85\x9E\"") == 12.875_in);
}

TEST_CASE("one sign for the whole") {
    CHECK(read("-2'-3\"") == -27_in);
    CHECK(read("-2' 3\"") == -27_in);
    CHECK(read("-0' 3/8\"") == -0.375_in);
    CHECK(read("\xE2\x88\x92"
               "6 1/2\"") == -6.5_in);  // U+2212
    CHECK(read("- 25.4 mm") == -1_in);
    CHECK(read("-0\"") == 0_in);
    CHECK_FALSE(std::signbit(inches(read("-0'-0\""))));
}

TEST_CASE("what cannot be read is refused with its reason and its place") {
    struct Refusal {
        const char* text;
        FaultCode code;
        std::size_t begin;
        std::size_t end;
    };
    const Refusal table[] = {
        {"", FaultCode::empty_text, 0, 0},
        {"  ", FaultCode::empty_text, 0, 2},
        {"-", FaultCode::not_a_number, 1, 1},
        {"abc", FaultCode::not_a_number, 0, 3},
        {"nan", FaultCode::not_a_number, 0, 3},
        {"inf in", FaultCode::not_a_number, 0, 3},
        {"-inf", FaultCode::not_a_number, 1, 4},
        {"1e3 mm", FaultCode::not_a_number, 1, 2},
        {"1E-3 m", FaultCode::not_a_number, 1, 2},
        {"--5\"", FaultCode::not_a_number, 1, 2},
        {"+-5\"", FaultCode::not_a_number, 1, 2},
        {"(5\")", FaultCode::not_a_number, 0, 1},
        {"ft", FaultCode::not_a_number, 0, 2},
        {"5.\"", FaultCode::not_a_number, 1, 2},
        {"1.2.3 m", FaultCode::not_a_number, 3, 4},
        {"12'-", FaultCode::not_a_number, 4, 4},
        {"12'--6\"", FaultCode::not_a_number, 4, 5},
        {"\xC2\xB2", FaultCode::not_a_number, 0, 2},  // a superscript is one character of two bytes
        {"150", FaultCode::missing_unit, 0, 3},
        {"1 1/2", FaultCode::missing_unit, 0, 5},
        {"7/16", FaultCode::missing_unit, 0, 4},
        {"12' 6", FaultCode::missing_unit, 4, 5},
        {"12'-6 1/2", FaultCode::missing_unit, 4, 9},
        {"6 12\"", FaultCode::missing_unit, 0, 1},
        {"6 - 1/2\"", FaultCode::missing_unit, 0, 1},
        {"6 / 8\"", FaultCode::missing_unit, 0, 1},
        {"1/2/4\"", FaultCode::missing_unit, 0, 3},
        {"5 yd", FaultCode::unknown_unit, 2, 4},
        {"5 M", FaultCode::unknown_unit, 2, 3},
        {"5 Mm", FaultCode::unknown_unit, 2, 4},
        {"5 Cm", FaultCode::unknown_unit, 2, 4},
        {"5 km", FaultCode::unknown_unit, 2, 4},
        {"5 inc", FaultCode::unknown_unit, 2, 5},
        {"5%", FaultCode::unknown_unit, 1, 2},
        {"5\xC2\xB0", FaultCode::unknown_unit, 1, 3},
        {"12' 6'", FaultCode::unknown_unit, 5, 6},
        {"12 ft 6 ft", FaultCode::unknown_unit, 8, 10},
        {"12' 30 mm", FaultCode::unknown_unit, 7, 9},
        {"1/3\"", FaultCode::bad_fraction, 0, 3},
        {"6 3/10\"", FaultCode::bad_fraction, 2, 6},
        {"6 1/128\"", FaultCode::bad_fraction, 2, 7},
        {"6 1/0\"", FaultCode::bad_fraction, 2, 5},
        {"6 1/\"", FaultCode::bad_fraction, 2, 4},
        {"6 1/1\"", FaultCode::bad_fraction, 2, 5},
        {"6 0/16\"", FaultCode::bad_fraction, 2, 6},
        {"0/2\"", FaultCode::bad_fraction, 0, 3},
        {"16/16\"", FaultCode::bad_fraction, 0, 5},
        {"61/2\"", FaultCode::bad_fraction, 0, 4},
        {"12' 61/2\"", FaultCode::bad_fraction, 4, 8},
        {"6 99999999999999999999/2\"", FaultCode::bad_fraction, 2, 24},
        {"6.5 1/2\"", FaultCode::bad_fraction, 3, 7},
        {"1.5/2\"", FaultCode::bad_fraction, 3, 4},
        {"1/2 mm", FaultCode::bad_fraction, 0, 3},
        {"1 1/2 m", FaultCode::bad_fraction, 0, 5},
        {"12 1/2'", FaultCode::bad_fraction, 0, 6},
        {"12.5' 6\"", FaultCode::trailing_text, 6, 8},
        {"12.0'-6\"", FaultCode::trailing_text, 5, 8},
        {"12' +6\"", FaultCode::trailing_text, 4, 7},
        {"12' six", FaultCode::trailing_text, 4, 7},
        {"6\" 12'", FaultCode::trailing_text, 3, 6},
        {"6\"\"", FaultCode::trailing_text, 2, 3},
        {"5''6\"", FaultCode::trailing_text, 3, 5},
        {"3 m 81 cm", FaultCode::trailing_text, 4, 9},
        {"5 m2", FaultCode::trailing_text, 3, 4},
        {"6\" x 8\"", FaultCode::trailing_text, 3, 7},
        {"12'-6 1/2\" +0.013\"", FaultCode::trailing_text, 11, 18},
        {"0.1234567890123456 m", FaultCode::too_many_digits, 0, 18},
        {"1234567890123456 mm", FaultCode::too_many_digits, 0, 16},
        {"0.000000000000000000001 m", FaultCode::too_many_digits, 0, 23},
        {"1000' 6.6666666666666\"", FaultCode::too_many_digits, 0, 22},
        {"3,81 m", FaultCode::ambiguous_text, 1, 2},
        {"3,810 mm", FaultCode::ambiguous_text, 1, 2},
        {"12' -6\"", FaultCode::ambiguous_text, 4, 5},
        {"-2' -3\"", FaultCode::ambiguous_text, 4, 5},
        {"12' 12\"", FaultCode::out_of_range, 4, 6},
        {"12' 13 1/2\"", FaultCode::out_of_range, 4, 10},
        {"12' 12.01\"", FaultCode::out_of_range, 4, 9},
        {"10000001\"", FaultCode::out_of_range, 0, 8},
        {"-1000 000 m", FaultCode::missing_unit, 1, 5},
        {"999999999999999'", FaultCode::out_of_range, 0, 15},
        {"999999999999999' 11 63/64\"", FaultCode::out_of_range, 0, 26},
        {"833334 ft", FaultCode::out_of_range, 0, 6},
    };
    for (const Refusal& each : table) {
        CAPTURE(each.text);
        const Outcome<Length> outcome = read_length(each.text);
        REQUIRE_FALSE(outcome.has_value());
        const Fault& fault = outcome.fault();
        CHECK(number_of(fault.code) == number_of(each.code));
        REQUIRE(fault.place.has_value());
        CHECK(fault.place->begin == each.begin);
        CHECK(fault.place->end == each.end);
        CHECK(fault.given == each.text);
        CHECK_FALSE(fault.required.empty());
        CHECK_THROWS_AS(static_cast<void>(outcome.value()), FaultError);
    }
}

TEST_CASE("property: decimals are correctly rounded in every unit") {
    std::mt19937_64 random{64};
    int wrong = 0;
    int read_at_all = 0;
    for (int i = 0; i < 60000; ++i) {
        const int places = static_cast<int>(random() % 14) + 1;
        const auto mantissa = static_cast<std::int64_t>(random() % 1000000000000000ULL) + 1;
        std::string digits = std::to_string(mantissa);
        const auto needed = static_cast<std::size_t>(places) + 1;
        digits.insert(0, digits.size() < needed ? needed - digits.size() : 0, '0');
        digits.insert(digits.size() - static_cast<std::size_t>(places), ".");
        const auto misses = [&](const char* unit, double numerator, double denominator) {
            const Outcome<Length> outcome = read_length(digits + unit);
            read_at_all += outcome.has_value();
            return outcome ? !is_nearest(inches(outcome.value()), numerator, denominator)
                           : numerator / denominator <= length_limit_in;
        };
        const auto exact = static_cast<double>(mantissa);
        wrong += misses(" in", exact, std::pow(10.0, places));
        wrong += misses(" ft", exact * 3.0, std::pow(10.0, places) / 4.0);
        wrong += misses(" mm", exact, 254.0 * std::pow(10.0, places - 1));
        wrong += misses(" cm", exact * 5.0, 127.0 * std::pow(10.0, places - 1));
        wrong += places >= 3 && misses(" m", exact * 5.0, 127.0 * std::pow(10.0, places - 3));
    }
    CHECK(wrong == 0);
    CHECK(read_at_all > 100000);
}

TEST_CASE("property: any text gives a usable length or a fault inside the text") {
    const std::string_view pieces[] = {"0",
                                       "1",
                                       "12",
                                       "64",
                                       "9999999",
                                       ".",
                                       ",",
                                       "'",
                                       "\"",
                                       "-",
                                       "+",
                                       "/",
                                       " ",
                                       "ft",
                                       "in",
                                       "mm",
                                       "cm",
                                       "m",
                                       "e",
                                       "1/2",
                                       "\xC2\xBD",
                                       "\xE2\x80\x93",
                                       "\xE2\x88\x92",
                                       "\xE2\x80",
                                       "\xFF",
                                       "nan",
                                       "\xC2\xA0"};
    std::mt19937 random{5};
    int wrong = 0;
    int readable = 0;
    for (int i = 0; i < 200000; ++i) {
        std::string text;
        for (auto n = random() % 8; n > 0; --n) {
            text += pieces[random() % std::size(pieces)];
        }
        const Outcome<Length> outcome = read_length(text);
        readable += outcome.has_value();
        if (outcome) {
            wrong += !is_usable(outcome.value());
        } else {
            const TextSpan place = outcome.fault().place.value_or(TextSpan{1, 0});
            wrong += place.begin > place.end || place.end > text.size();
        }
    }
    CHECK(wrong == 0);
    CHECK(readable > 1000);
}
