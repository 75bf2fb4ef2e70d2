// SPDX-License-Identifier: BSL-1.0

// Readings of every kind, sound and wild: either a fault comes out or finite figures that keep their promises.

#include <eavewright/squaring/true_up_pair.hpp>

#include "../support/printing.hpp"
#include "quads.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <type_traits>

using namespace eavewright;

namespace {

#ifdef EAVEWRIGHT_FULL_SWEEPS
constexpr int sweep = 200000;
#else
constexpr int sweep = 20000;
#endif

/// Every number of a result, through its field list.
template <class Value>
bool all_finite(const Value& value) {
    if constexpr (std::is_same_v<Value, Length>) {
        return std::isfinite(inches(value));
    } else if constexpr (std::is_same_v<Value, Angle>) {
        return std::isfinite(radians(value));
    } else if constexpr (std::is_same_v<Value, double>) {
        return std::isfinite(value);
    } else if constexpr (HasFields<Value>) {
        bool fine = true;
        for_each_field<Value>([&](const auto& each) { fine = fine && all_finite(value.*(each.get)); });
        return fine;
    } else {
        static_assert(std::is_enum_v<Value> || std::is_integral_v<Value>);
        return true;
    }
}

/// Sizes over four powers of ten, proportions up to the limit.
Quad wild_quad(Seeded& random) {
    const double width = std::pow(10.0, random.between(0.3, 4.0));
    const double height = std::pow(10.0, random.between(0.3, 4.0));
    return random_quad(random, width, height, random.between(0.0, 0.3) * std::fmin(width, height));
}

}  // namespace

TEST_CASE("sound readings of any size and proportion give finite figures that close") {
    Seeded random{1};
    int accepted = 0;
    for (int i = 0; i < sweep; ++i) {
        const Quad q = wild_quad(random);
        FourSides s = exact_readings(q);
        const double error = std::pow(10.0, random.between(-6.0, -1.0)) * inches(shorter(s.left, s.eave));
        s.ridge += one_inch * (error * random.normal());
        s.left += one_inch * (error * random.normal());
        s.up_right += one_inch * (error * random.normal());
        if (!check(s).empty()) {
            continue;
        }
        ++accepted;
        CAPTURE(i);
        const MeasuredCorners m = measured_corners(s);
        REQUIRE(all_finite(m));
        const Length longest = longer(longer(m.adjusted.up_right, m.adjusted.up_left), m.adjusted.eave);
        const Quad corners = quad_of(m.corners);
        CHECK(std::fabs(between(corners, 2, 3) - inches(m.adjusted.ridge)) <= 1e-11 * inches(longest));
        CHECK(std::fabs(between(corners, 0, 2) - inches(m.adjusted.up_right)) <= 1e-12 * inches(longest));
        CHECK(std::fabs(between(corners, 1, 3) - inches(m.adjusted.up_left)) <= 1e-12 * inches(longest));
        Faults faults;
        find_true_up_faults(s, Path{"s"}, faults);
        if (faults.empty()) {
            const Trueness t = true_up(s);
            REQUIRE(all_finite(t));
            const Quad after = quad_of(t.corners_after_pull);
            CHECK(std::fabs(between(after, 0, 2) - between(after, 1, 3)) <= 2e-12 * inches(longest));
            CHECK(all_finite(true_up_pair(t, t)));
        }
    }
    CHECK(accepted > sweep / 2);
}

TEST_CASE("whatever six numbers come, a fault or a finite figure goes out") {
    Seeded random{2};
    const double specials[] = {0.0,
                               -0.0,
                               1.0,
                               -1.0,
                               std::numeric_limits<double>::infinity(),
                               -std::numeric_limits<double>::infinity(),
                               std::numeric_limits<double>::quiet_NaN(),
                               std::numeric_limits<double>::denorm_min(),
                               1e308,
                               100000.0,
                               100.0,
                               99.0};
    constexpr double count = static_cast<double>(std::size(specials));
    int answered = 0;
    for (int i = 0; i < sweep; ++i) {
        const auto any = [&] {
            const double pick = random.between(0.0, 1.0);
            return one_inch * (pick < 0.03  ? specials[static_cast<std::size_t>(random.between(0.0, count))]
                               : pick < 0.5 ? std::floor(random.between(1.0, 20.0))
                                            : random.between(1.0, 20.0));
        };
        const FourSides s{any(), any(), any(), any(), any(), any()};
        try {
            const Trueness t = true_up(s);
            REQUIRE(all_finite(t));
            ++answered;
        } catch (const FaultError& error) {
            CHECK_FALSE(error.fault().required.empty());
        }
    }
    CHECK(answered > 0);
}

TEST_CASE("limits of the range") {
    const FourSides least{one_inch, one_inch, one_inch, one_inch, one_inch * std::sqrt(2.0), one_inch * std::sqrt(2.0)};
    CHECK(all_finite(true_up(least)));
    CHECK(off_by(true_up(least).target_diagonal, one_inch * std::sqrt(2.0)) < 1e-12);
    const FourSides greatest = scaled(least, 70000.0);
    CHECK(all_finite(true_up(greatest)));
    CHECK(off_by(true_up(greatest).target_diagonal, one_inch * (70000.0 * std::sqrt(2.0))) < 1e-6);
    // Thin: 1 in by nearly 1000 in.
    const double d = std::hypot(999.0, 1.0);
    const FourSides thin{one_inch * 999.0, one_inch * 999.0, one_inch, one_inch, one_inch * d, one_inch * d};
    CHECK(true_up(thin).verdict == SquareVerdict::square);
    CHECK(off_by(true_up(thin).target_diagonal, one_inch * d) < 1e-9);
}
