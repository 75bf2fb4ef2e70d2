// SPDX-License-Identifier: BSL-1.0

#include <eavewright/units/pitch.hpp>

#include "../support/printing.hpp"
#include "../support/table.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// Half a unit of the last printed digit, with the rounding of its own decimal.
double half_last_digit(const std::string& printed) {
    const std::size_t point = printed.find('.');
    const std::size_t places = point == std::string::npos ? 0 : printed.size() - point - 1;
    return 0.5000001 * std::pow(10.0, -static_cast<double>(places));
}

bool prints_as(double exact, const std::string& printed) {
    return std::fabs(exact - std::stod(printed)) <= half_last_digit(printed);
}

FaultCode refusal(double rise_in_12) {
    try {
        static_cast<void>(Pitch::in_12(rise_in_12));
    } catch (const FaultError& error) {
        return error.fault().code;
    }
    FAIL("accepted");
    return FaultCode::empty_text;
}
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();
}  // namespace

TEST_CASE("degrees, per cent and factors agree with the printed slope table") {
    for (const TableRow& row : read_table("slope_factors.csv")) {
        CAPTURE(row.at("rise_per_12"));
        const Pitch pitch = Pitch::in_12(std::stod(row.at("rise_per_12")));
        CHECK(prints_as(degrees(pitch.angle()), row.at("degrees")));
        CHECK(prints_as(pitch.percent(), row.at("percent")));
        CHECK(prints_as(pitch.slope_factor(), row.at("area_or_rafter_factor")));
        CHECK(prints_as(pitch.hip_valley_factor(), row.at("hip_valley_factor_per_unit_common_run")));
        CHECK((row.at("printed_degrees").empty() || prints_as(degrees(pitch.angle()), row.at("printed_degrees"))));
        CHECK((row.at("printed_percent").empty() || prints_as(pitch.percent(), row.at("printed_percent"))));
    }
}

TEST_CASE("rise for degrees agrees with the printed table but for its three misprints") {
    std::vector<int> misprints;
    for (const TableRow& row : read_table("degrees_to_rise.csv")) {
        CAPTURE(row.at("degrees"));
        const Pitch pitch = Pitch::from_degrees(std::stod(row.at("degrees")));
        CHECK(prints_as(pitch.rise_in_12(), row.at("rise_in_per_12")));
        const std::string printed = row.at("printed_rise_in_per_12");
        if (!printed.empty() && !prints_as(pitch.rise_in_12(), printed)) {
            misprints.push_back(std::stoi(row.at("degrees")));
            CHECK(std::fabs(pitch.rise_in_12() - std::stod(printed)) < 0.0011);
        }
    }
    // 8 deg 1.687, 14 deg 2.991, 35 deg 8.403 are printed; correct are 1.686, 2.992, 8.402.
    CHECK(misprints == std::vector<int>{8, 14, 35});
}

TEST_CASE("rise and run need no trigonometry") {
    CHECK(Pitch::from_rise_and_run(3_ft, 4_ft).slope_factor() == 1.25);
    CHECK(Pitch::in_12(5).slope_factor() == 13.0 / 12.0);
    CHECK(Pitch::in_12(6).hip_valley_factor() == 1.5);
    CHECK(Pitch::in_12(9).slope_over(4_ft) == 5_ft);
    CHECK(Pitch::in_12(4).rise_over(18_ft) == 6_ft);
    CHECK(Pitch::in_12(0).slope_factor() == 1.0);
    CHECK(Pitch::from_degrees(45) == Pitch::in_12(12));
    CHECK(Pitch::from_percent(25) == Pitch::in_12(3));
    CHECK(Pitch::from_rise_and_run(100_mm, 300_mm).rise_per_run() == doctest::Approx(1.0 / 3.0).epsilon(1e-15));
    // 28 ft wide at 4 in 12: 14 * 1.0541 = 14.75 ft printed in Hunker, "Roof Slope Multiplying Factors".
    CHECK(std::fabs(feet(Pitch::in_12(4).slope_over(14_ft)) - 14.7573) < 0.00005);
}

TEST_CASE("sine, cosine and angle belong to one triangle") {
    for (int rise = 0; rise <= 48; ++rise) {
        const Pitch pitch = Pitch::in_12(rise);
        CHECK(std::fabs(pitch.sine() - std::sin(radians(pitch.angle()))) < 1e-15);
        CHECK(std::fabs(pitch.cosine() - std::cos(radians(pitch.angle()))) < 1e-15);
        CHECK(std::fabs(pitch.cosine() * pitch.slope_factor() - 1.0) < 1e-15);
        CHECK(std::fabs(Pitch::from_degrees(degrees(pitch.angle())).rise_in_12() - rise) < 1e-13 * (1 + rise * rise));
    }
}

TEST_CASE("what is no pitch is refused") {
    CHECK(refusal(-1.0) == FaultCode::out_of_range);
    CHECK(refusal(12001.0) == FaultCode::out_of_range);
    CHECK(refusal(not_a_number) == FaultCode::not_finite);
    CHECK(refusal(infinite) == FaultCode::not_finite);
    CHECK(Pitch::in_12(12000).rise_per_run() == 1000.0);
    CHECK_FALSE(std::signbit(Pitch::in_12(-0.0).rise_per_run()));
    for (const double angle : {-1.0, 90.0, 95.0, 89.99, not_a_number, infinite}) {
        CHECK_THROWS_AS(static_cast<void>(Pitch::from_degrees(angle)), FaultError);
    }
    for (const Length run : {0_in, -1_in, one_inch * 1e-200, one_inch * not_a_number, one_inch * 1e300}) {
        CHECK_THROWS_AS(static_cast<void>(Pitch::from_rise_and_run(no_length, run)), FaultError);
    }
    CHECK_THROWS_AS(static_cast<void>(Pitch::from_rise_and_run(one_inch * infinite, 1_ft)), FaultError);
    CHECK_THROWS_AS(static_cast<void>(Pitch::from_percent(-0.1)), FaultError);
}

TEST_CASE("no run is out of range, not infinite") {
    try {
        static_cast<void>(Pitch::from_rise_and_run(1_in, 0_in));
        FAIL("accepted");
    } catch (const FaultError& error) {
        CHECK(error.fault().code == FaultCode::out_of_range);
        CHECK(error.fault().given == "1 in rise in 0 in run");
    }
}
