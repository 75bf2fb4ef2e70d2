// SPDX-License-Identifier: BSL-1.0
#pragma once

// How tests of members compare with printed figures, and a corner of two planes built from scratch to hold them
// against.

#include <eavewright/framing/hip_line.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>

#include "support/seeded_numbers.hpp"
#include "support/table.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <stdexcept>
#include <string>

/// Half of the last digit printed in `text`, and a hair for its own rounding.
inline double half_last_digit(const std::string& text) {
    const std::size_t point = text.find('.');
    const double places = point == std::string::npos ? 0.0 : static_cast<double>(text.size() - point - 1);
    return 0.5 * std::pow(10.0, -places) * (1.0 + 1e-3);
}
/// `found` prints as the cell does.
inline void check_cell(const TableRow& row, const std::string& column, double found) {
    const std::string& printed = row.at(column);
    CAPTURE(column);
    CAPTURE(printed);
    CHECK(std::fabs(found - std::stod(printed)) <= half_last_digit(printed));
}
/// `found` inches read as the cell does on a tape of sixteenths.
inline void check_mark(const TableRow& row, const std::string& column, double found) {
    using namespace eavewright;
    CAPTURE(column);
    CHECK(write_inches(one_inch * found, Tick::of_inch(16)) == row.at(column) + "\"");
}
/// Row `id` of the worked examples agrees with `found`, in the row's own unit, and to the sixteenth where that is
/// inches.
inline void check_example(const std::string& id, double found) {
    for (const TableRow& row : read_table("rafter_worked_examples.csv")) {
        if (row.at("id") == id) {
            CAPTURE(id);
            check_cell(row, "exact_value", found);
            if (row.at("unit") == "in") {
                using namespace eavewright;
                CHECK(write_feet_inches(one_inch * found, Tick::of_inch(16)) == row.at("exact_nearest_16th"));
            }
            return;
        }
    }
    FAIL("no row " << id);
}

/// A point or a direction, in inches.
struct Spot {
    double x;
    double y;
    double z;
};
inline Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
inline double inner(Spot a, Spot b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
inline double size_of(Spot a) { return std::sqrt(inner(a, a)); }
inline Spot outer(Spot a, Spot b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
inline double degrees_between(Spot a, Spot b) {
    return std::atan2(size_of(outer(a, b)), inner(a, b)) * 180.0 / eavewright::pi;
}

/// Two planes over eaves through the origin: eave A along x, eave B turned by the corner; both rise inward.
struct Corner {
    double rise_a;
    double rise_b;
    double angle;  ///< radians
    [[nodiscard]] double off_a(double, double y) const { return y; }
    [[nodiscard]] double off_b(double x, double y) const { return x * std::sin(angle) - y * std::cos(angle); }
    [[nodiscard]] Spot normal_a() const { return {0.0, -rise_a, 1.0}; }
    [[nodiscard]] Spot normal_b() const { return {-rise_b * std::sin(angle), rise_b * std::cos(angle), 1.0}; }
    /// Where both planes are `z` high.
    [[nodiscard]] Spot meet(double z) const {
        const double y = z / rise_a;
        return {(z / rise_b + y * std::cos(angle)) / std::sin(angle), y, z};
    }
};

/// A corner at random, with what the library is asked for it. Pitches of 1 to 24 in 12.
struct RandomCorner {
    Corner corner;
    eavewright::HipPlanes planes;
};
inline RandomCorner random_corner(SeededNumbers& numbers) {
    const double a = numbers.between(1.0, 24.0);
    const double b = numbers.between(1.0, 24.0);
    const double angle = numbers.coin() ? 90.0 : numbers.between(30.0, 150.0);
    return {{a / 12.0, b / 12.0, angle * eavewright::pi / 180.0},
            {.pitch_a = eavewright::Pitch::in_12(a),
             .pitch_b = eavewright::Pitch::in_12(b),
             .corner = eavewright::PlanCorner::from_degrees(angle)}};
}
/// One whose hip goes in over both eaves, clearly.
inline RandomCorner random_open_corner(SeededNumbers& numbers) {
    for (;;) {
        const RandomCorner found = random_corner(numbers);
        const double cosine = std::cos(found.corner.angle);
        if (found.corner.rise_a + found.corner.rise_b * cosine > 0.02 &&
            found.corner.rise_b + found.corner.rise_a * cosine > 0.02) {
            return found;
        }
    }
}
