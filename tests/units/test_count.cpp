// SPDX-License-Identifier: BSL-1.0

#include <eavewright/units/count.hpp>

#include "../support/printing.hpp"

#include <doctest/doctest.h>
#include <boost/units/systems/si/length.hpp>

#include <cmath>
#include <cstdint>
#include <limits>
#include <random>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
std::string refused_path(Length total, Length step, FaultCode code) {
    try {
        static_cast<void>(whole_steps(total, step));
    } catch (const FaultError& error) {
        CHECK(error.fault().code == code);
        return error.fault().path;
    }
    return "accepted";
}
}  // namespace

TEST_CASE("whole feet hold whole inches") {
    int wrong = 0;
    for (int feet_given = 1; feet_given <= 2000; ++feet_given) {
        wrong += whole_steps(Length::from_feet(feet_given), 1_in) != 12 * feet_given;
        wrong += steps_to_cover(Length::from_feet(feet_given), 1_in) != 12 * feet_given;
    }
    CHECK(wrong == 0);
    CHECK(whole_steps(8_ft, 24_in) == 4);
    CHECK(steps_to_cover(8_ft, 24_in) == 4);
}

TEST_CASE("lengths that went through metres or thirds count as they were meant") {
    using Metres = boost::units::quantity<boost::units::si::length>;
    int trapped = 0;
    int wrong = 0;
    for (int n = 1; n <= 2401; ++n) {
        const Metres there{InchQuantity::from_value(n)};
        const InchQuantity back{there};
        trapped += std::floor(back.value()) != n || std::ceil(back.value()) != n;
        wrong += whole_steps(Length{back}, 1_in) != n || steps_to_cover(Length{back}, 1_in) != n;
        const Length third = one_inch * 0.1;
        wrong += whole_steps(third * n, third) != n || steps_to_cover(Length::from_inches(n / 10.0), third) != n;
    }
    CHECK(trapped > 0);  // a bare floor or ceil miscounts some of them
    CHECK(wrong == 0);
    CHECK(whole_steps(3810_mm, 381_mm) == 10);
    CHECK(steps_to_cover(2.4_m, 600_mm) == 4);
}

TEST_CASE("a miss of less than the tolerance counts, a tape mark does not") {
    CHECK(whole_steps(10_ft - count_tolerance * 0.5, 24_in) == 5);
    CHECK(whole_steps(10_ft - one_inch / 64, 24_in) == 4);
    CHECK(steps_to_cover(10_ft + count_tolerance * 0.5, 24_in) == 5);
    CHECK(steps_to_cover(10_ft + one_inch / 64, 24_in) == 6);
    CHECK(count_tolerance * 1024.0 == one_inch / 64);
}

TEST_CASE("property: the count covers, and one fewer does not") {
    std::mt19937 random{20201};
    int wrong = 0;
    for (int i = 0; i < 100000; ++i) {
        const Length total = one_inch * (static_cast<double>(random() % 1000000) / 77.0);
        const Length step = one_inch * (static_cast<double>(random() % 9000 + 100) / 77.0);
        const auto cover = static_cast<double>(steps_to_cover(total, step));
        const auto whole = static_cast<double>(whole_steps(total, step));
        wrong += !(step * cover > total - 2.0 * count_tolerance);
        wrong += cover > 0.0 && !(step * (cover - 1.0) < total);
        wrong += !(step * whole < total + 2.0 * count_tolerance);
        wrong += !(step * (whole + 1.0) > total);
        wrong += cover - whole < 0.0 || cover - whole > 1.0;
    }
    CHECK(wrong == 0);
}

TEST_CASE("nothing and less than nothing") {
    CHECK(whole_steps(0_in, 1_ft) == 0);
    CHECK(steps_to_cover(0_in, 1_ft) == 0);
    CHECK(whole_steps(-1_ft, 1_in) == 0);
    CHECK(steps_to_cover(-1_ft, 1_in) == 0);
    CHECK(steps_to_cover(count_tolerance * 0.5, 1_in) == 0);
    CHECK(steps_to_cover(one_inch / 64, 1_in) == 1);
}

TEST_CASE("counts without sense or bound are refused") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK(refused_path(1_ft, 0_in, FaultCode::out_of_range) == "step");
    CHECK(refused_path(1_ft, -1_in, FaultCode::out_of_range) == "step");
    CHECK(refused_path(1_ft, count_tolerance, FaultCode::out_of_range) == "step");
    CHECK(refused_path(1_ft, one_inch * nan, FaultCode::not_finite) == "step");
    CHECK(refused_path(one_inch * nan, 1_in, FaultCode::not_finite) == "total");
    CHECK(refused_path(one_inch * 2e7, 1_in, FaultCode::out_of_range) == "total");
    CHECK(refused_path(one_inch * 1e6, 1_in, FaultCode::too_much_work) == "step");
    CHECK(refused_path(one_inch * -1e6, 1_in, FaultCode::too_much_work) == "step");
    CHECK(whole_steps(one_inch * 999999.0, 1_in) == 999999);
}

TEST_CASE("greatest common divisor, Euclid VII.2") {
    CHECK(greatest_common_divisor(48, 36) == 12);
    CHECK(greatest_common_divisor(0, 7) == 7);
    CHECK(greatest_common_divisor(7, 0) == 7);
    CHECK(greatest_common_divisor(17, 5) == 1);
    CHECK(greatest_common_divisor(768, 1152) == 384);
}
