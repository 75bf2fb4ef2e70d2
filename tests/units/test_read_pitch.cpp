// SPDX-License-Identifier: BSL-1.0

#include <eavewright/units/read_pitch.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <string>

using namespace eavewright;

namespace {
Pitch read(const std::string& text) {
    CAPTURE(text);
    const Outcome<Pitch> outcome = read_pitch(text);
    INFO((outcome ? std::string{} : describe(outcome.fault())));
    REQUIRE(outcome.has_value());
    return outcome.value();
}
}  // namespace

TEST_CASE("what people write for a pitch") {
    for (const char* text :
         {"4:12", "4/12", "4 in 12", "4 IN 12", "4in12", " 4 : 12 ", "4 / 12", "4.0:12.0", "04/12"}) {
        CAPTURE(text);
        CHECK(read(text) == Pitch::in_12(4));
    }
    for (const char* text : {"4.5:12", "4.5/12", "4 1/2:12", "4-1/2 in 12", "4\xC2\xBD:12", "4 1/2 / 12"}) {
        CAPTURE(text);
        CHECK(read(text) == Pitch::in_12(4.5));
    }
    for (const char* text : {"1/4:12", "1/4 in 12", "0.25/12", ".25:12", "\xC2\xBC:12", "\xC2\xBC in 12", "1/4/12"}) {
        CAPTURE(text);
        CHECK(read(text) == Pitch::in_12(0.25));
    }
    for (const char* text : {"18.43 deg", "18.43\xC2\xB0", "18.43 \xC2\xB0", "18.43 degrees", "18.43 DEG"}) {
        CAPTURE(text);
        CHECK(read(text) == Pitch::from_degrees(18.43));
    }
    for (const char* text : {"33.3 %", "33.3%", "33.3 percent"}) {
        CAPTURE(text);
        CHECK(read(text) == Pitch::from_percent(33.3));
    }
    CHECK(read("45 deg") == Pitch::in_12(12));
    CHECK(read("0:12").slope_factor() == 1.0);
    CHECK(std::fabs(read("18.43 deg").rise_in_12() - 4.0) < 0.005);
}

TEST_CASE("what is no pitch, or two pitches, is refused with its place") {
    struct Refusal {
        const char* text;
        FaultCode code;
        std::size_t begin;
        std::size_t end;
    };
    const Refusal table[] = {
        {"", FaultCode::empty_text, 0, 0},
        {" ", FaultCode::empty_text, 0, 1},
        {"steep", FaultCode::not_a_number, 0, 5},
        {"nan deg", FaultCode::not_a_number, 0, 3},
        {"inf %", FaultCode::not_a_number, 0, 3},
        {"+4:12", FaultCode::not_a_number, 0, 1},
        {"4:", FaultCode::not_a_number, 2, 2},
        {"4 in", FaultCode::not_a_number, 4, 4},
        {"4:-12", FaultCode::not_a_number, 2, 3},
        {"4e0:12", FaultCode::not_a_number, 1, 2},
        {"4", FaultCode::missing_unit, 0, 1},
        {"4 12", FaultCode::missing_unit, 0, 1},
        {"4 1/2", FaultCode::missing_unit, 0, 5},
        {"18 rad", FaultCode::unknown_unit, 3, 6},
        {"4\" in 12", FaultCode::unknown_unit, 1, 2},
        {"250 mm in 1 m", FaultCode::unknown_unit, 4, 6},
        {"4 1/3:12", FaultCode::bad_fraction, 2, 5},
        {"4.5 1/2:12", FaultCode::bad_fraction, 3, 7},
        {"4:12 pitch", FaultCode::trailing_text, 5, 10},
        {"4:12:3", FaultCode::trailing_text, 4, 6},
        {"45 deg 3", FaultCode::trailing_text, 7, 8},
        {"4.1234567890123456:12", FaultCode::too_many_digits, 0, 18},
        {"1/3", FaultCode::ambiguous_text, 2, 3},
        {"1/2", FaultCode::ambiguous_text, 2, 3},
        {"1:3", FaultCode::ambiguous_text, 2, 3},
        {"1 in 3", FaultCode::ambiguous_text, 5, 6},
        {"4:0", FaultCode::ambiguous_text, 2, 3},
        {"4,5:12", FaultCode::ambiguous_text, 1, 2},
        {"-4:12", FaultCode::out_of_range, 0, 1},
        {"\xE2\x88\x92"
         "4:12",
         FaultCode::out_of_range, 0, 3},
        {"-18 deg", FaultCode::out_of_range, 0, 1},
        {"90 deg", FaultCode::out_of_range, 0, 2},
        {"95 deg", FaultCode::out_of_range, 0, 2},
        {" 12001:12", FaultCode::out_of_range, 1, 6},
        {"100001 %", FaultCode::out_of_range, 0, 6},
    };
    for (const Refusal& each : table) {
        CAPTURE(each.text);
        const Outcome<Pitch> outcome = read_pitch(each.text);
        REQUIRE_FALSE(outcome.has_value());
        const Fault& fault = outcome.fault();
        CHECK(number_of(fault.code) == number_of(each.code));
        REQUIRE(fault.place.has_value());
        CHECK(fault.place->begin == each.begin);
        CHECK(fault.place->end == each.end);
        CHECK(fault.given == each.text);
    }
}

TEST_CASE("the old third pitch is named where it is refused") {
    const std::string required = read_pitch("1/3").fault().required;
    CHECK(required.find("rise over span") != std::string::npos);
    CHECK(required.find("8 in 12") != std::string::npos);
}
