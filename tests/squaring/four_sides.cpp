// SPDX-License-Identifier: BSL-1.0

// Four corners from six readings, against exact figures, against a published network, and against least squares by
// another road (Gauss-Newton on coordinates with a QR decomposition).

#include <eavewright/squaring/four_sides.hpp>

#include "../support/printing.hpp"
#include "../support/table.hpp"
#include "quads.hpp"

#include <doctest/doctest.h>
#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

constexpr std::array<std::array<int, 2>, 6> ends{{{0, 1}, {3, 2}, {0, 3}, {1, 2}, {0, 2}, {1, 3}}};

/// Least squares of six readings in the five unknown coordinates: Gauss-Newton, Householder QR, from `start`.
std::array<double, 6> adjust_by_coordinates(const std::array<double, 6>& readings, const Quad& start) {
    Eigen::Matrix<double, 5, 1> x;
    x << start[1][0], start[2][0], start[2][1], start[3][0], start[3][1];
    std::array<double, 6> lengths{};
    for (int round = 0; round < 60; ++round) {
        const Quad q{{{0.0, 0.0}, {x[0], 0.0}, {x[1], x[2]}, {x[3], x[4]}}};
        constexpr int column[4][2] = {{-1, -1}, {0, -1}, {1, 2}, {3, 4}};
        Eigen::Matrix<double, 6, 5> slopes = Eigen::Matrix<double, 6, 5>::Zero();
        Eigen::Matrix<double, 6, 1> missing;
        for (int i = 0; i < 6; ++i) {
            const auto a = static_cast<std::size_t>(ends[static_cast<std::size_t>(i)][0]);
            const auto b = static_cast<std::size_t>(ends[static_cast<std::size_t>(i)][1]);
            const double length = between(q, a, b);
            lengths[static_cast<std::size_t>(i)] = length;
            missing[i] = readings[static_cast<std::size_t>(i)] - length;
            for (std::size_t axis = 0; axis < 2; ++axis) {
                const double slope = (q[a][axis] - q[b][axis]) / length;
                if (column[a][axis] >= 0) {
                    slopes(i, column[a][axis]) = slope;
                }
                if (column[b][axis] >= 0) {
                    slopes(i, column[b][axis]) = -slope;
                }
            }
        }
        x += slopes.householderQr().solve(missing);
    }
    return lengths;
}

double root_sum(const FourSides& s) {
    double sum = 0.0;
    for (const double v : numbers_of(s)) {
        sum += v * v;
    }
    return std::sqrt(sum);
}

const FourSides rectangle{60_ft, 60_ft, 21_ft, 21_ft, hypotenuse(60_ft, 21_ft), hypotenuse(60_ft, 21_ft)};

}  // namespace

TEST_CASE("exact readings give the corners back") {
    Seeded random{20240601};
    for (int i = 0; i < 2000; ++i) {
        const double width = random.between(60.0, 2400.0);
        const double height = random.between(60.0, 1200.0);
        const double play = random.between(0.0, 0.2) * std::min(width, height);
        const Quad q = random_quad(random, width, height, play);
        const MeasuredCorners m = measured_corners(exact_readings(q));
        const Quad back = quad_of(m.corners);
        for (std::size_t c = 0; c < 4; ++c) {
            CHECK(std::fabs(back[c][0] - q[c][0]) < 1e-9);
            CHECK(std::fabs(back[c][1] - q[c][1]) < 1e-9);
        }
        CHECK(std::fabs(inches(m.misclosure)) < 1e-9);
        CHECK(m.closure == Closure::explained);
        const double total = radians(m.angles.eave_left) + radians(m.angles.eave_right) +
                             radians(m.angles.ridge_right) + radians(m.angles.ridge_left);
        CHECK(std::fabs(total - 2.0 * pi) < 1e-12);
    }
}

TEST_CASE("the adjustment is the least squares one, by another road") {
    Seeded random{7};
    for (int i = 0; i < 1000; ++i) {
        const double width = random.between(60.0, 2400.0);
        const double height = random.between(60.0, 1200.0);
        const Quad q = random_quad(random, width, height, 0.1 * std::min(width, height));
        FourSides readings = exact_readings(q);
        const double error = i % 2 == 0 ? 1.0 / 32.0 : 1.0;
        readings.eave += one_inch * (error * random.normal());
        readings.ridge += one_inch * (error * random.normal());
        readings.left += one_inch * (error * random.normal());
        readings.right += one_inch * (error * random.normal());
        readings.up_right += one_inch * (error * random.normal());
        readings.up_left += one_inch * (error * random.normal());
        CAPTURE(i);
        const MeasuredCorners m = measured_corners(readings);
        const auto expected = adjust_by_coordinates(numbers_of(readings), q);
        const auto got = numbers_of(m.adjusted);
        const Quad corners = quad_of(m.corners);
        for (std::size_t k = 0; k < 6; ++k) {
            CHECK(std::fabs(got[k] - expected[k]) < 1e-9);
            // The corners carry the adjusted lengths, the ridge too.
            CHECK(
                std::fabs(between(corners, static_cast<std::size_t>(ends[k][0]), static_cast<std::size_t>(ends[k][1])) -
                          got[k]) < 1e-9);
        }
        CHECK(std::fabs(root_sum(m.residuals) - std::fabs(inches(m.misclosure))) < 1e-9);
    }
}

TEST_CASE("no closing figure near the adjusted one is nearer to the readings") {
    Seeded random{99};
    FourSides readings = rectangle;
    readings.ridge += 1_in;
    readings.up_left -= 1_in / 2;
    const MeasuredCorners m = measured_corners(readings);
    const Quad best = quad_of(m.corners);
    const auto read = numbers_of(readings);
    for (int i = 0; i < 500; ++i) {
        Quad other = best;
        other[1][0] += random.between(-0.01, 0.01);
        for (std::size_t c = 2; c < 4; ++c) {
            other[c][0] += random.between(-0.01, 0.01);
            other[c][1] += random.between(-0.01, 0.01);
        }
        const auto lengths = numbers_of(exact_readings(other));
        double sum = 0.0;
        for (std::size_t k = 0; k < 6; ++k) {
            sum += (lengths[k] - read[k]) * (lengths[k] - read[k]);
        }
        CHECK(std::sqrt(sum) >= inches(magnitude(m.misclosure)) - 1e-12);
    }
}

TEST_CASE("a published free network of four points and six distances") {
    // Strang and Borre 1997, Ex. 12.4 p. 411, in the tables: sigma 0.01 m. P lies inside the triangle 1 2 3, so it is
    // no roof plane; the arithmetic is the same. Scale free: a metre stands for an inch here.
    std::map<std::string, TableRow> rows;
    for (const TableRow& row : read_table("trilateration_observations.csv")) {
        if (row.at("network") == "StrangBorre_free") {
            rows[row.at("from") + "-" + row.at("to")] = row;
        }
    }
    REQUIRE(rows.size() == 6);
    // eave 2-3, ridge P-1, left 2-P, right 3-1, up_right 2-1, up_left 3-P.
    const std::array<std::string, 6> order{"2-3", "1-P", "2-P", "1-3", "1-2", "3-P"};
    std::array<double, 6> readings{};
    for (std::size_t i = 0; i < 6; ++i) {
        readings[i] = std::stod(rows.at(order[i]).at("distance"));
    }
    const squaring_detail::Adjustment got = squaring_detail::adjust(readings);
    REQUIRE(got.settled);
    for (std::size_t i = 0; i < 6; ++i) {
        CAPTURE(order[i]);
        CHECK(std::fabs(got.residuals[i] - std::stod(rows.at(order[i]).at("residual_v"))) < 0.51e-6);
        CHECK(std::fabs(got.direction[i] * got.direction[i] - std::stod(rows.at(order[i]).at("redundancy"))) < 0.51e-5);
    }
    for (const TableRow& row : read_table("trilateration_summary.csv")) {
        if (row.at("network") == "StrangBorre_free") {
            CHECK(std::fabs(std::fabs(got.misclosure) / 0.01 - std::stod(row.at("s0_unit_weight_ratio"))) < 1e-6);
        }
    }
    // Distances between the printed adjusted points.
    std::map<std::string, std::array<double, 2>> points;
    for (const TableRow& row : read_table("trilateration_results.csv")) {
        if (row.at("network") == "StrangBorre_free") {
            points[row.at("point")] = {std::stod(row.at("x_adjusted")), std::stod(row.at("y_adjusted"))};
        }
    }
    for (std::size_t i = 0; i < 6; ++i) {
        const auto& a = points.at(order[i].substr(0, 1));
        const auto& b = points.at(order[i].substr(2, 1));
        CHECK(std::fabs(std::hypot(a[0] - b[0], a[1] - b[1]) - got.adjusted[i]) < 2e-5);  // printed to 1e-5 each
    }
}

TEST_CASE("the misclosure of honest readings has the stated standard deviation") {
    Seeded random{4711};
    const TapeError tape{.reading = 1_in / 32};
    const Quad q{{{0.0, 0.0}, {744.0, 0.0}, {745.0, 246.0}, {1.0, 246.5}}};
    const FourSides exact = exact_readings(q);
    constexpr int trials = 20000;
    double squares = 0.0;
    double sum = 0.0;
    int explained = 0;
    for (int i = 0; i < trials; ++i) {
        const auto read = [&](Length truth) { return truth + tape.reading * random.normal(); };
        const FourSides readings{read(exact.eave),  read(exact.ridge),    read(exact.left),
                                 read(exact.right), read(exact.up_right), read(exact.up_left)};
        const MeasuredCorners m = measured_corners(readings, tape);
        sum += inches(m.misclosure);
        squares += inches(m.misclosure) * inches(m.misclosure);
        explained += m.closure == Closure::explained ? 1 : 0;
    }
    // Standard error of a standard deviation from n trials: 1 / sqrt(2n) = 0.5 %; of the mean: sigma / sqrt(n).
    CHECK(std::fabs(std::sqrt(squares / trials) * 32.0 - 1.0) < 0.02);
    CHECK(std::fabs(sum / trials) < 4.0 / 32.0 / std::sqrt(double{trials}));
    CHECK(std::fabs(explained / double{trials} - 0.95) < 0.008);  // 5 standard errors
}

TEST_CASE("a blunder is seen, and not located") {
    // With one redundancy every reading can take the blame; the result names a correction for each.
    FourSides readings = rectangle;
    readings.up_right += 2_in;
    const MeasuredCorners m = measured_corners(readings);
    CHECK(m.closure == Closure::not_explained);
    CHECK(m.misclosure > no_length);  // a diagonal reads long for the sides
    CHECK(m.misclosure_ratio > 10.0);
    const SixShares& r = m.redundancy;
    CHECK(std::fabs(r.eave + r.ridge + r.left + r.right + r.up_right + r.up_left - 1.0) < 1e-12);
    CHECK(off_by(m.alone.up_right, -2_in) < 0.01);
    // Each correction alone closes the figure, to first order: none of the six is the culprit by the numbers.
    const auto alone = numbers_of(m.alone);
    for (std::size_t i = 0; i < 6; ++i) {
        auto corrected = numbers_of(readings);
        corrected[i] += alone[i];
        CAPTURE(i);
        CHECK(inches(magnitude(measured_corners(squaring_detail::lengths_of(corrected)).misclosure)) < 0.05);
    }
    FourSides short_side = rectangle;
    short_side.ridge += 2_in;
    CHECK(measured_corners(short_side).misclosure < no_length);  // a side reads long for the diagonals
}

TEST_CASE("a tape that is long everywhere does not show in the closure") {
    Seeded random{5};
    const FourSides exact = exact_readings(random_quad(random, 744.0, 246.0, 5.0));
    CHECK(inches(magnitude(measured_corners(scaled(exact, 1.001)).misclosure)) < 1e-9);
}

TEST_CASE("mirror and scale") {
    Seeded random{31};
    for (int i = 0; i < 200; ++i) {
        FourSides readings = exact_readings(random_quad(random, 744.0, 246.0, 20.0));
        readings.left += one_inch * random.normal();
        const MeasuredCorners m = measured_corners(readings);
        const MeasuredCorners behind = measured_corners(mirror_of(readings));
        const auto one = numbers_of(mirror_of(m.adjusted));
        const auto other = numbers_of(behind.adjusted);
        const auto doubled = numbers_of(measured_corners(scaled(readings, 2.0)).adjusted);
        const auto plain = numbers_of(m.adjusted);
        for (std::size_t k = 0; k < 6; ++k) {
            CHECK(std::fabs(one[k] - other[k]) < 1e-10);
            CHECK(doubled[k] == 2.0 * plain[k]);  // a power of two changes no rounding
        }
        CHECK(off_by(m.misclosure, behind.misclosure) < 1e-10);
        CHECK(off_by(behind.corners.ridge_left.along, m.adjusted.eave - m.corners.ridge_right.along) < 1e-9);
    }
}

TEST_CASE("ordinary readings settle in a few steps, outrageous ones still settle") {
    FourSides readings = rectangle;
    readings.up_right += 1_in / 8;
    CHECK(measured_corners(readings).steps <= 6);
    readings.up_right += 20_in;
    CHECK(measured_corners(readings).steps < 30);
}

TEST_CASE("what four sides refuse") {
    const Length nan = one_inch * std::numeric_limits<double>::quiet_NaN();
    const auto first = [](const FourSides& s) { return fault_of([&] { (void)measured_corners(s); }); };
    const auto with = [](auto change) {
        FourSides s = rectangle;
        change(s);
        return s;
    };
    CHECK(check(rectangle).empty());
    SUBCASE("zero, negative, not a number, too long") {
        CHECK(first(with([](FourSides& s) { s.eave = no_length; })).path == "sides.eave");
        CHECK(first(with([](FourSides& s) { s.eave = no_length; })).code == FaultCode::out_of_range);
        CHECK(first(with([](FourSides& s) { s.right = -1_ft; })).path == "sides.right");
        CHECK(first(with([&](FourSides& s) { s.up_left = nan; })).code == FaultCode::not_finite);
        CHECK(first(with([&](FourSides& s) { s.up_left = nan; })).path == "sides.up_left");
        CHECK(first(with([](FourSides& s) { s.ridge = one_inch * 100001.0; })).code == FaultCode::out_of_range);
        const FourSides nothing{nan, nan, nan, nan, nan, nan};
        CHECK(check(nothing, "east").size() == 6);
        CHECK(check(nothing, "east").back().path == "east.up_left");
    }
    SUBCASE("out of proportion") {
        const FourSides thin{1001_in, 1001_in, 1_in, 1_in, 1001_in, 1001_in};
        CHECK(first(thin).code == FaultCode::out_of_range);
        CHECK(first(thin).path == "sides.eave");
    }
    SUBCASE("three readings that make no triangle") {
        const Fault fault = first(with([](FourSides& s) { s.up_right = 82_ft; }));
        CHECK(fault.code == FaultCode::contradiction);
        CHECK(fault.path == "sides.up_right");
        CHECK(fault.required == "less than eave plus right, 972 in (24688.8 mm)");
        CHECK(check(with([](FourSides& s) { s.up_right = 82_ft; })).size() == 2);  // with ridge and left neither
        CHECK(first(with([](FourSides& s) { s.left = 2_ft; })).path == "sides.up_left");
    }
    SUBCASE("six that make triangles but no figure") {
        // 5 ft off: the triangles hold, the figure cannot close.
        const Fault fault = first(with([](FourSides& s) { s.up_right += 5_ft; }));
        CHECK(fault.code == FaultCode::contradiction);
        CHECK(fault.path == "sides");
        CHECK(first({10_ft, 10_ft, 10_ft, 10_ft, 10_ft, 10_ft}).code == FaultCode::contradiction);  // a tetrahedron
    }
    SUBCASE("side and diagonal mixed up: the figure is crossed") {
        const FourSides mixed{60_ft, 60_ft, rectangle.up_right, rectangle.up_left, 21_ft, 21_ft};
        CHECK(first(mixed).code == FaultCode::contradiction);
        CHECK(first(mixed).path == "sides");
    }
    SUBCASE("a corner that is straight or turns in") {
        const Quad dart{{{0.0, 0.0}, {100.0, 0.0}, {40.0, 30.0}, {20.0, 100.0}}};
        CHECK(first(exact_readings(dart)).code == FaultCode::contradiction);
        const Quad straight{{{0.0, 0.0}, {100.0, 0.0}, {50.0, 50.0}, {0.0, 100.0}}};
        CHECK(first(exact_readings(straight)).code == FaultCode::contradiction);
        // Nearly straight: the sine of the corner is 0.02 at 50.5, 50.5 (refused below 0.05) and 0.38 at 60, 60.
        const Quad nearly{{{0.0, 0.0}, {100.0, 0.0}, {50.5, 50.5}, {0.0, 100.0}}};
        CHECK(first(exact_readings(nearly)).given.find("straight") != std::string::npos);
        const Quad kinked{{{0.0, 0.0}, {100.0, 0.0}, {60.0, 60.0}, {0.0, 100.0}}};
        CHECK(check(exact_readings(kinked)).empty());
    }
    SUBCASE("tape and level") {
        const auto tape_fault = [](const TapeError& tape) {
            return fault_of([&] { (void)measured_corners(rectangle, tape); });
        };
        CHECK(tape_fault({.reading = no_length}).path == "tape.reading");
        CHECK(tape_fault({.reading = no_length}).code == FaultCode::out_of_range);
        CHECK(tape_fault({.scale = -0.001}).path == "tape.scale");
        CHECK(tape_fault({.scale = inches(nan)}).code == FaultCode::not_finite);
        CHECK(fault_of([] { (void)measured_corners(rectangle, {}, 0.0); }).path == "level_factor");
    }
}

TEST_CASE("the level of 95 % is the tabulated one") {
    for (const TableRow& row : read_table("critical_values.csv")) {
        if (row.at("statistic") == "normal two-sided" && row.at("parameters") == "alpha=0.05") {
            CHECK(std::fabs(two_sided_95 - std::stod(row.at("value"))) < 0.51e-8);
            return;
        }
    }
    FAIL("row not found");
}
