// SPDX-License-Identifier: BSL-1.0

#include <eavewright/units/quantities.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <type_traits>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// Relative difference; conversions may round a few times, each 1.1e-16.
double relative(double got, double exact) { return std::fabs(got / exact - 1.0); }
constexpr double few_roundings = 5e-16;

template <class A, class B>
concept Adds = requires(A a, B b) {
    a + b;
};
static_assert(!Adds<Area, Volume> && !Adds<Force, Mass> && !Adds<Pressure, Force> && !Adds<Angle, double>);
static_assert(!std::is_convertible_v<double, Area> && !std::is_convertible_v<double, Force>);
static_assert(std::is_same_v<decltype(Pressure{} * Area{}), Force>);
}  // namespace

// International foot 0.3048 m and pound 0.45359237 kg (1959), standard gravity 9.80665 m/s2 (CGPM 1901).
TEST_CASE("forces, pressures and masses follow the exact definitions") {
    CHECK(relative(newtons_per_pound_force, 0.45359237 * 9.80665) < few_roundings);
    CHECK(relative(pascals(pressure_from_psf(1.0)), 0.45359237 * 9.80665 / (0.3048 * 0.3048)) < few_roundings);
    CHECK(std::fabs(pascals(pressure_from_psf(1.0)) - 47.880258980336) < 1e-11);
    CHECK(relative(psf(pressure_from_pascals(47.880258980335840)), 1.0) < few_roundings);
    CHECK(relative(newtons(force_from_pounds(1000.0)), 4448.2216152605) < few_roundings);
    CHECK(relative(pounds_force(force_from_newtons(4448.2216152605)), 1000.0) < few_roundings);
    CHECK(kilograms(mass_from_pounds(100.0)) == doctest::Approx(45.359237).epsilon(few_roundings));
    CHECK(pounds(mass_from_kilograms(45.359237)) == doctest::Approx(100.0).epsilon(few_roundings));
    CHECK(psf(pressure_from_psf(20.0)) == 20.0);
}

TEST_CASE("areas in square feet, square metres and squares") {
    const Area roof = 62_ft * 20_ft;
    CHECK(square_feet(roof) == 1240.0);
    CHECK(squares(roof) == 12.4);
    CHECK(square_inches(roof) == 178560.0);
    CHECK(squares(10_ft * 10_ft) == 1.0);
    CHECK(relative(square_metres(roof), 1240.0 * 0.3048 * 0.3048) < few_roundings);
    CHECK(square_metres(1_in * 1_in) == 0.00064516);
    CHECK(relative(square_metres(10_m * 5_m), 50.0) < few_roundings);
    CHECK(relative(square_metres(area_from_square_metres(32.0)), 32.0) < few_roundings);
    CHECK(square_feet(area_from_square_feet(32.0)) == 32.0);
    CHECK((4_ft * 8_ft) / 8_ft == 4_ft);
}

TEST_CASE("volumes, with 12 board feet to the cubic foot") {
    CHECK(cubic_feet(2_ft * 3_ft * 4_ft) == 24.0);
    CHECK(cubic_inches(2_in * 3_in * 4_in) == 24.0);
    CHECK(board_feet(1_ft * 1_ft * 1_in) == 1.0);
    CHECK(board_feet(1_ft * 1_ft * 1_ft) == 12.0);
    CHECK(relative(board_feet(2_in * 6_in * 16_ft), 16.0) < few_roundings);  // nominal 2x6, 16 ft long
    CHECK(relative(cubic_metres(1_ft * 1_ft * 1_ft), 0.028316846592) < few_roundings);
    CHECK(relative(cubic_metres(2_m * 3_m * 4_m), 24.0) < 2.0 * few_roundings);
    CHECK((2_ft * 3_ft * 4_ft) / 4_ft == 2_ft * 3_ft);
}

TEST_CASE("a load on an area is a force") {
    CHECK(pounds_force(pressure_from_psf(20.0) * (4_ft * 8_ft)) == doctest::Approx(640.0).epsilon(few_roundings));
    CHECK(newtons(pressure_from_pascals(1000.0) * (2_m * 3_m)) == doctest::Approx(6000.0).epsilon(2.0 * few_roundings));
}

TEST_CASE("angles") {
    CHECK(relative(degrees(angle_from_radians(std::acos(-1.0))), 180.0) < few_roundings);
    CHECK(relative(radians(angle_from_degrees(30.0)), std::acos(-1.0) / 6.0) < few_roundings);
    CHECK(degrees(angle_from_degrees(45.0)) == doctest::Approx(45.0).epsilon(few_roundings));
}

TEST_CASE("forces along a length, moments and stresses") {
    // 25 psf on purlins 2 ft apart is 50 lb per ft; over 8 ft it is 400 lb, and w L^2 / 8 is 400 lb-ft.
    const LineLoad load = pressure_from_psf(25.0) * 2_ft;
    CHECK(pounds_per_foot(load) == doctest::Approx(50.0).epsilon(few_roundings));
    CHECK(pounds_force(load * 8_ft) == doctest::Approx(400.0).epsilon(few_roundings));
    const Moment moment = load * 8_ft * 8_ft / 8.0;
    CHECK(pound_feet(moment) == doctest::Approx(400.0).epsilon(few_roundings));
    CHECK(pound_inches(moment) == doctest::Approx(4800.0).epsilon(few_roundings));
    // A 2x4 on edge: 1.5 x 3.5^2 / 6 = 3.0625 cu in, 4800 / 3.0625 = 1567.35 psi.
    const Volume modulus = 1.5_in * 3.5_in * 3.5_in / 6.0;
    const Pressure stress = moment / modulus;
    CHECK(psi(stress) == doctest::Approx(4800.0 / 3.0625).epsilon(few_roundings));
    CHECK(megapascals(stress) == doctest::Approx(psi(stress) * 0.006894757293168).epsilon(1e-12));
    CHECK(inches_to_the_fourth(modulus * 3.5_in / 2.0) == doctest::Approx(5.359375).epsilon(few_roundings));
    CHECK((load * 8_ft) / load == 8_ft);
    CHECK(psf(load / 2_ft) == doctest::Approx(25.0).epsilon(few_roundings));
    CHECK(newtons_per_metre(line_load_from_newtons_per_metre(730.0)) == doctest::Approx(730.0).epsilon(few_roundings));
    CHECK(newton_metres(force_from_newtons(100.0) * 2_m) == doctest::Approx(200.0).epsilon(few_roundings));
    CHECK(pounds_per_inch(line_load_from_pounds_per_foot(12.0)) == 1.0);
    CHECK(psi(pressure_from_psi(1600.0)) == 1600.0);
}
