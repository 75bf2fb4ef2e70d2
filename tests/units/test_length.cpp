// SPDX-License-Identifier: BSL-1.0

#include "nearest.hpp"

#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include "../support/printing.hpp"

#include <doctest/doctest.h>
#include <boost/units/base_units/us/foot.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/time.hpp>

#include <limits>
#include <string>
#include <type_traits>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
using Metres = boost::units::quantity<boost::units::si::length>;
using Feet = boost::units::quantity<boost::units::us::foot_base_unit::unit_type>;

template <class A, class B>
concept Adds = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept Subtracts = requires(A a, B b) {
    a - b;
};
template <class A, class B>
concept Multiplies = requires(A a, B b) {
    a* b;
};
template <class A, class B>
concept Divides = requires(A a, B b) {
    a / b;
};
template <class A, class B>
concept Compares = requires(A a, B b) {
    a < b;
};
template <class A, class B>
concept Equates = requires(A a, B b) {
    a == b;
};

// What a length must be for vectors, registers and memcpy.
static_assert(std::is_trivially_copyable_v<Length> && std::is_trivially_destructible_v<Length>);
static_assert(std::is_standard_layout_v<Length> && sizeof(Length) == sizeof(double));
static_assert(std::is_nothrow_copy_constructible_v<Length> && std::is_nothrow_copy_assignable_v<Length>);

// No way in without a unit, and none for a forgotten field.
static_assert(!std::is_default_constructible_v<Length>);
static_assert(!std::is_constructible_v<Length, double> && !std::is_constructible_v<Length, int>);
static_assert(!std::is_constructible_v<Length, std::nullptr_t>);
static_assert(!std::is_constructible_v<Length, boost::units::quantity<boost::units::si::time>>);
static_assert(!std::is_convertible_v<Metres, Length> && std::is_constructible_v<Length, Metres>);
static_assert(!std::is_convertible_v<Length, double> && !std::is_constructible_v<double, Length>);

// Dimensions hold.
static_assert(Adds<Length, Length> && !Adds<Length, double> && !Adds<double, Length> && !Adds<Length, Area>);
static_assert(Subtracts<Length, Length> && !Subtracts<Length, double> && !Subtracts<double, Length>);
static_assert(Compares<Length, Length> && !Compares<Length, double> && !Compares<Length, int>);
static_assert(Equates<Length, Length> && !Equates<Length, double>);
static_assert(Multiplies<Length, double> && Multiplies<int, Length> && Multiplies<Length, Volume> &&
              !Multiplies<Length, SecondMoment>);
static_assert(Divides<Length, double> && !Divides<double, Length> && !Divides<Length, Area>);
static_assert(std::is_same_v<decltype(1_ft * 1_ft), Area> && std::is_same_v<decltype(1_ft * 1_ft * 1_ft), Volume>);
static_assert(std::is_same_v<decltype(1_ft / 1_ft), double> && std::is_same_v<decltype((1_ft * 1_ft) / 1_ft), Length>);

FaultCode refusal(double inches_given) {
    try {
        static_cast<void>(Length::from_inches(inches_given));
    } catch (const FaultError& error) {
        return error.fault().code;
    }
    FAIL("accepted");
    return FaultCode::empty_text;
}
}  // namespace

TEST_CASE("every 64th of an inch to 200 ft is exact and sums without error") {
    Length sum = no_length;
    int wrong = 0;
    for (int k = 1; k <= 153600; ++k) {
        const Length mark = one_inch * k / 64;
        wrong += inches(mark) * 64.0 != k;
        sum += one_inch / 64;
        wrong += sum != mark;
    }
    CHECK(wrong == 0);
    CHECK(sum == 200_ft);
}

TEST_CASE("64ths to 1000 ft come out in millimetres and metres correct to the last place") {
    int wrong = 0;
    for (int k = 1; k <= 64 * 12000; ++k) {
        const Length mark = one_inch * k / 64;
        wrong += !is_nearest(millimetres(mark), 127.0 * k, 320.0);
        wrong += !is_nearest(metres(mark), 127.0 * k, 320000.0);
        wrong += static_cast<Metres>(mark).value() != metres(mark);
    }
    CHECK(wrong == 0);
}

TEST_CASE("whole millimetres and metres come in correct to the last place") {
    int wrong = 0;
    for (int n = 1; n <= 254000; ++n) {  // 254000 m is the longest length
        wrong += !is_nearest(inches(Length::from_millimetres(n)), 10.0 * n, 254.0);
        wrong += !is_nearest(inches(Length::from_metres(n)), 10000.0 * n, 254.0);
        wrong += n % 254 == 0 && inches(Length::from_millimetres(n)) != n / 254 * 10;
    }
    CHECK(wrong == 0);
}

TEST_CASE("Boost.Units lengths come in and go out") {
    CHECK(Length{Feet::from_value(12.0)} == 144_in);
    CHECK(Length{Metres::from_value(0.0254)} == 1_in);
    CHECK(Length{Metres::from_value(0.3048)} == 1_ft);
    CHECK(Length{InchQuantity::from_value(6.5)} == 6.5_in);
    CHECK(static_cast<InchQuantity>(6.5_in).value() == 6.5);
    CHECK(static_cast<Metres>(3_in).value() == 0.0762);  // Boost.Units alone gives a neighbour of it
    CHECK(static_cast<Metres>(1_ft).value() == 0.3048);
    CHECK(std::fabs(static_cast<Feet>(150_in).value() - 12.5) < 1e-14);
    CHECK_THROWS_AS(Length{Metres::from_value(std::numeric_limits<double>::quiet_NaN())}, FaultError);
}

TEST_CASE("literals name their unit") {
    CHECK(1_ft == 12_in);
    CHECK(2.5_ft == 30_in);
    CHECK(6.5_in == 6_in + one_inch / 2);
    CHECK(254_mm == 10_in);
    CHECK(38.1_mm == 1.5_in);
    CHECK(2.54_m == 100_in);
    CHECK(3_m == 3000_mm);
    static_assert(8_ft / 24_in == 4.0);
}

TEST_CASE("numbers that are no length are refused where they enter") {
    CHECK(refusal(std::numeric_limits<double>::quiet_NaN()) == FaultCode::not_finite);
    CHECK(refusal(std::numeric_limits<double>::infinity()) == FaultCode::not_finite);
    CHECK(refusal(-std::numeric_limits<double>::infinity()) == FaultCode::not_finite);
    CHECK(refusal(1.1e7) == FaultCode::out_of_range);
    CHECK(refusal(-1.1e7) == FaultCode::out_of_range);
    CHECK(inches(Length::from_inches(1e7)) == 1e7);
    CHECK_THROWS_AS(static_cast<void>(Length::from_feet(1e6)), FaultError);
    CHECK_THROWS_AS(static_cast<void>(Length::from_metres(1e6)), FaultError);
    CHECK_THROWS_AS(static_cast<void>(Length::from_millimetres(1e9)), FaultError);
    CHECK_FALSE(is_usable(10000000_in + 1_in));
    CHECK_FALSE(is_usable(1_in * std::numeric_limits<double>::quiet_NaN()));
}

TEST_CASE("arithmetic, order and helpers") {
    Length a = 1_ft;
    a += 6_in;
    a -= 2_in;
    a *= 3.0;
    a /= 4.0;
    CHECK(a == 12_in);
    CHECK(-a == +(-12_in));
    CHECK(2 * a == a * 2);
    CHECK(shorter(1_in, 2_in) == 1_in);
    CHECK(longer(1_in, 2_in) == 2_in);
    CHECK(shorter(2_in, 1_in) == 1_in);
    CHECK(longer(2_in, 1_in) == 2_in);
    CHECK(magnitude(-3_in) == 3_in);
    CHECK(hypotenuse(3_ft, 4_ft) == 5_ft);
    CHECK(hypotenuse(-20_ft, 21_ft) == 29_ft);
    CHECK(feet(18_in) == 1.5);
}

TEST_CASE("a length out of bounds is told with path and bounds") {
    Faults faults;
    require_within(5_in, 1_in, 5_in, Path{"gap"}, faults);
    CHECK(faults.empty());
    require_within(6_in, 1_in, 5_in, Path{Path{"roof"}, "gap"}, faults);
    require_within(1_in * std::numeric_limits<double>::infinity(), 1_in, 5_in, Path{"gap"}, faults);
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].code == FaultCode::out_of_range);
    CHECK(describe(faults[0]) == "roof.gap: 6 in (152.4 mm); required: 1 in (25.4 mm) to 5 in (127 mm) [fault 202]");
    CHECK(faults[1].code == FaultCode::not_finite);
}
