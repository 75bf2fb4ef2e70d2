// SPDX-License-Identifier: BSL-1.0
#pragma once

// The arithmetic behind four_sides.hpp: when six lengths close in a plane, and the smallest change that makes them.
// Six doubles of inches in the order eave, ridge, left, right, up_right, up_left.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/four_corners.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

namespace eavewright {

/// No reading is longer than this many times another: keeps the arithmetic good to 1e-12 of the longest.
inline constexpr double longest_per_shortest = 1000.0;
/// Every corner stays this far (as a sine, about 3 deg) from folded or straight; no roof plane comes near.
inline constexpr double flattest_corner_sine = 0.05;
/// Readings further from every flat figure than this share of the shortest side are no measurement of one.
inline constexpr double largest_misclosure_share = 0.1;

namespace squaring_detail {

using Six = std::array<double, 6>;

[[nodiscard]] inline Six six_of(const FourSides& s) {
    return {inches(s.eave), inches(s.ridge), inches(s.left), inches(s.right), inches(s.up_right), inches(s.up_left)};
}
[[nodiscard]] inline FourSides lengths_of(const Six& d) {
    return FourSides{one_inch * d[0], one_inch * d[1], one_inch * d[2],
                     one_inch * d[3], one_inch * d[4], one_inch * d[5]};
}
[[nodiscard]] inline double dot(const Six& a, const Six& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        sum += a[i] * b[i];
    }
    return sum;
}

/// Height of a triangle over its base, by Kahan's form of Heron's formula: accurate for needles too. NaN where the
/// three make no triangle.
[[nodiscard]] inline double height_over(double base, double one, double other) {
    double a = base;
    double b = one;
    double c = other;
    const auto order = [](double& first, double& second) {
        if (first < second) {
            std::swap(first, second);
        }
    };
    order(a, b);
    order(b, c);
    order(a, b);
    return std::sqrt((a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c))) / (2.0 * base);
}
/// Foot of that height, from the end of the base where `one` starts.
[[nodiscard]] inline double foot_on(double base, double one, double other) {
    return (base + (one - other) * (one + other) / base) / 2.0;
}

/// The corners that five of the lengths make, both ridge corners above the eave; the ridge's length is not used.
[[nodiscard]] inline FourCorners corners_of(const Six& d) {
    return FourCorners{PlaneCorner{no_length, no_length}, PlaneCorner{one_inch * d[0], no_length},
                       PlaneCorner{one_inch * foot_on(d[0], d[4], d[3]), one_inch * height_over(d[0], d[4], d[3])},
                       PlaneCorner{one_inch * foot_on(d[0], d[2], d[5]), one_inch * height_over(d[0], d[2], d[5])}};
}

/// Twice the area of a triangle, positive against the clock.
[[nodiscard]] inline double twice_area(const PlaneCorner& a, const PlaneCorner& b, const PlaneCorner& c) {
    return inches(b.along - a.along) * inches(c.up - a.up) - inches(b.up - a.up) * inches(c.along - a.along);
}
[[nodiscard]] inline double distance(const PlaneCorner& a, const PlaneCorner& b) {
    return inches(hypotenuse(a.along - b.along, a.up - b.up));
}

/// For each corner, twice the area of the triangle of the other three; all positive in a convex figure.
struct OppositeAreas {
    double eave_left;
    double eave_right;
    double ridge_right;
    double ridge_left;
};
[[nodiscard]] inline OppositeAreas opposite_areas(const FourCorners& c) {
    return {twice_area(c.eave_right, c.ridge_right, c.ridge_left), twice_area(c.eave_left, c.ridge_right, c.ridge_left),
            twice_area(c.eave_left, c.eave_right, c.ridge_left), twice_area(c.eave_left, c.eave_right, c.ridge_right)};
}

/// How the closing of a flat figure feels a small change of each length: the forces that its bars would hold against
/// each other, length times the areas opposite both ends, sides against diagonals. Not normalised.
[[nodiscard]] inline Six closing_slope(const Six& d, const FourCorners& corners) {
    const OppositeAreas a = opposite_areas(corners);
    return Six{d[0] * a.eave_left * a.eave_right,   d[1] * a.ridge_right * a.ridge_left,
               d[2] * a.eave_left * a.ridge_left,   d[3] * a.eave_right * a.ridge_right,
               -d[4] * a.eave_left * a.ridge_right, -d[5] * a.eave_right * a.ridge_left};
}

/// Readings and the nearest six lengths that close.
struct Adjustment {
    Six adjusted;
    Six residuals;      ///< adjusted less read
    Six direction;      ///< unit vector along which the closure feels the readings
    double misclosure;  ///< residuals along `direction`: their root sum of squares, positive where diagonals read long
    bool settled;       ///< the corners of the adjusted lengths have the adjusted ridge, to 1e-11 of the longest
    int steps;
};

/// Least squares of six equally uncertain readings under one condition, that the ridge is as long as the other five
/// make it: the residuals stand along the slope of the condition at the adjusted lengths. Each step takes the slope
/// where the last one ended and goes there from the readings; residuals of a thousandth of the size take about five.
[[nodiscard]] inline Adjustment adjust(const Six& readings) {
    constexpr int most_steps = 100;
    double longest = 0.0;
    for (const double reading : readings) {
        longest = reading > longest ? reading : longest;
    }
    Adjustment now{readings, Six{}, Six{}, 0.0, false, 0};
    bool still = false;
    while (!still && now.steps < most_steps) {
        Six flat = now.adjusted;
        const FourCorners corners = corners_of(flat);
        flat[1] = distance(corners.ridge_left, corners.ridge_right);
        const Six slope = closing_slope(flat, corners);
        const double size = std::sqrt(dot(slope, slope));
        if (!(size > 0.0)) {  // NaN: a triangle has come apart
            return now;
        }
        for (std::size_t i = 0; i < slope.size(); ++i) {
            now.direction[i] = slope[i] / size;
        }
        now.misclosure = dot(now.direction, now.residuals) - now.direction[1] * (now.adjusted[1] - flat[1]);
        double moved = 0.0;
        for (std::size_t i = 0; i < slope.size(); ++i) {
            const double residual = now.misclosure * now.direction[i];
            moved += std::fabs(residual - now.residuals[i]);
            now.residuals[i] = residual;
            now.adjusted[i] = readings[i] + residual;
        }
        still = moved <= 1e-14 * longest;
        ++now.steps;
    }
    const FourCorners end = corners_of(now.adjusted);
    now.settled = std::fabs(distance(end.ridge_left, end.ridge_right) - now.adjusted[1]) <= 1e-11 * longest;
    return now;
}

/// What stands at one corner between its two neighbours, going round against the clock.
struct CornerTurn {
    double cross;    ///< positive where the corner is convex
    double dot;      ///< zero where it is square
    double product;  ///< of the two side lengths
};

[[nodiscard]] inline CornerTurn turn_at(const PlaneCorner& before, const PlaneCorner& at, const PlaneCorner& after) {
    const double ax = inches(after.along - at.along);
    const double ay = inches(after.up - at.up);
    const double bx = inches(before.along - at.along);
    const double by = inches(before.up - at.up);
    return CornerTurn{ax * by - ay * bx, ax * bx + ay * by, std::sqrt((ax * ax + ay * ay) * (bx * bx + by * by))};
}

/// In the order eave_left, eave_right, ridge_right, ridge_left.
[[nodiscard]] inline std::array<CornerTurn, 4> turns_of(const FourCorners& c) {
    return {turn_at(c.ridge_left, c.eave_left, c.eave_right), turn_at(c.eave_left, c.eave_right, c.ridge_right),
            turn_at(c.eave_right, c.ridge_right, c.ridge_left), turn_at(c.ridge_right, c.ridge_left, c.eave_left)};
}

[[nodiscard]] inline CornerAngles angles_of(const FourCorners& corners) {
    const auto turns = turns_of(corners);
    const auto angle = [&](std::size_t i) { return angle_from_radians(std::atan2(turns[i].cross, turns[i].dot)); };
    return CornerAngles{angle(0), angle(1), angle(2), angle(3)};
}

[[nodiscard]] inline bool is_convex(const FourCorners& corners) {
    for (const CornerTurn& turn : turns_of(corners)) {
        if (!(turn.cross >= flattest_corner_sine * turn.product)) {
            return false;
        }
    }
    return true;
}

[[nodiscard]] inline SixShares shares_of(const Six& direction) {
    const Six& g = direction;
    return SixShares{g[0] * g[0], g[1] * g[1], g[2] * g[2], g[3] * g[3], g[4] * g[4], g[5] * g[5]};
}

/// residual / redundancy for each reading.
[[nodiscard]] inline Six alone_of(const Adjustment& adjustment) {
    Six alone{};
    for (std::size_t i = 0; i < alone.size(); ++i) {
        alone[i] = adjustment.misclosure / adjustment.direction[i];
    }
    return alone;
}

[[nodiscard]] inline std::string write_inches(double value) { return describe_length(one_inch * value); }

inline void find_proportion_faults(const FourSides& sides, const Path& path, Faults& faults) {
    Length shortest = sides.eave;
    for_each_field<FourSides>([&](const auto& each) { shortest = shorter(shortest, sides.*(each.get)); });
    for_each_field<FourSides>([&](const auto& each) {
        require_within(sides.*(each.get), shortest, shortest * longest_per_shortest, Path{path, each.name}, faults);
    });
}

/// Three of the readings that must make a triangle.
inline void find_triangle_fault(const FourSides& sides, const std::array<std::size_t, 3>& three, const Path& path,
                                Faults& faults) {
    constexpr std::array<std::string_view, 6> names{"eave", "ridge", "left", "right", "up_right", "up_left"};
    const Six all = six_of(sides);
    for (std::size_t i = 0; i < 3; ++i) {
        const std::size_t longest = three[i];
        const std::size_t one = three[(i + 1) % 3];
        const std::size_t other = three[(i + 2) % 3];
        if (all[longest] >= all[one] + all[other]) {
            faults.push_back(Fault{FaultCode::contradiction, Path{path, names[longest]}.text(),
                                   write_inches(all[longest]),
                                   "less than " + std::string{names[one]} + " plus " + std::string{names[other]} +
                                       ", " + write_inches(all[one] + all[other])});
        }
    }
}

inline void find_triangle_faults(const FourSides& sides, const Path& path, Faults& faults) {
    find_triangle_fault(sides, {0, 3, 4}, path, faults);  // eave, right, up_right
    find_triangle_fault(sides, {0, 2, 5}, path, faults);  // eave, left, up_left
    find_triangle_fault(sides, {1, 2, 4}, path, faults);  // ridge, left, up_right
    find_triangle_fault(sides, {1, 3, 5}, path, faults);  // ridge, right, up_left
}

inline void find_closing_faults(const FourSides& sides, const Path& path, Faults& faults) {
    const Six readings = six_of(sides);
    const Adjustment adjustment = adjust(readings);
    double shortest = readings[0];
    for (const double reading : readings) {
        shortest = reading < shortest ? reading : shortest;
    }
    if (!adjustment.settled || !(std::fabs(adjustment.misclosure) <= largest_misclosure_share * shortest)) {
        faults.push_back(Fault{FaultCode::contradiction, path.text(),
                               "six readings that miss every flat figure by " +
                                   (adjustment.settled ? write_inches(std::fabs(adjustment.misclosure)) : "too much"),
                               "at most " + write_inches(largest_misclosure_share * shortest) +
                                   ", a tenth of the shortest; compare which corners were measured"});
    } else if (!is_convex(corners_of(adjustment.adjusted))) {
        faults.push_back(Fault{FaultCode::contradiction, path.text(),
                               "six readings of a figure that is folded, crossed or straight at a corner",
                               "four corners that all turn the same way by at least 3 deg and at most 177 deg; "
                               "compare which corners were measured"});
    }
}

}  // namespace squaring_detail

}  // namespace eavewright
