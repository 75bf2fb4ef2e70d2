// SPDX-License-Identifier: BSL-1.0
#pragma once

// Four sides of fixed length with hinged corners: what a plane is while it is being pulled square. Eave held still,
// one freedom, counted by the diagonal up_right. While all corners are convex, lengthening up_right shortens up_left,
// so there is at most one position with equal diagonals.

#include <eavewright/squaring/closing.hpp>
#include <eavewright/squaring/four_corners.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <optional>

namespace eavewright::squaring_detail {

/// Four side lengths in inches.
struct Bars {
    double eave;
    double ridge;
    double left;
    double right;
};

/// One position of the bars.
struct Position {
    FourCorners corners;
    double up_right;
    double up_left;
    double slope;  ///< of up_right - up_left in up_right; more than 1 while convex
};

/// The bars with the given up_right; nothing where they do not reach or a corner is not convex.
[[nodiscard]] inline std::optional<Position> position_at(const Bars& bars, double up_right) {
    const double p = up_right;
    const double x = foot_on(bars.eave, p, bars.right);
    const double y = height_over(bars.eave, p, bars.right);
    const double on = foot_on(p, bars.left, bars.ridge);
    const double off = height_over(p, bars.left, bars.ridge);
    const FourCorners c{PlaneCorner{no_length, no_length}, PlaneCorner{one_inch * bars.eave, no_length},
                        PlaneCorner{one_inch * x, one_inch * y},
                        PlaneCorner{one_inch * ((on * x - off * y) / p), one_inch * ((on * y + off * x) / p)}};
    if (!is_convex(c)) {  // NaN where a triangle does not reach: not convex either
        return std::nullopt;
    }
    const double up_left = distance(c.eave_right, c.ridge_left);
    // A small turn keeps the sides: the forces that the two diagonals would hold against each other balance.
    const OppositeAreas areas = opposite_areas(c);
    const double right_force = areas.eave_left * areas.ridge_right * p;
    const double left_force = areas.eave_right * areas.ridge_left * up_left;
    return Position{c, p, up_left, 1.0 + right_force / left_force};
}

/// The same figure seen from behind.
[[nodiscard]] inline Position mirrored(const Position& from, double eave) {
    const auto flip = [&](const PlaneCorner& c) { return PlaneCorner{one_inch * eave - c.along, c.up}; };
    const FourCorners& c = from.corners;
    return Position{FourCorners{flip(c.eave_right), flip(c.eave_left), flip(c.ridge_left), flip(c.ridge_right)},
                    from.up_left, from.up_right, from.slope};
}

/// Equal diagonals by closing up_right from a position where it is the longer one: Newton's step, halving where it
/// leaves the bracket. The target lies between the two diagonals.
[[nodiscard]] inline std::optional<Position> equal_from_longer(const Bars& bars, double up_right, double up_left) {
    double low = up_left;
    double high = up_right;
    double next = high;
    std::optional<Position> best;
    for (int round = 0; round < 200; ++round) {
        const std::optional<Position> here = position_at(bars, next);
        double step = 0.0;
        if (!here) {
            low = next;
        } else {
            const double open = here->up_right - here->up_left;
            (open > 0.0 ? high : low) = next;
            if (!best || std::fabs(open) < std::fabs(best->up_right - best->up_left)) {
                best = here;
            }
            step = open / here->slope;
        }
        if (here && std::fabs(step) <= 1e-16 * next) {
            break;
        }
        const double newton = next - step;
        const double middle = low + (high - low) / 2.0;
        const double last = next;
        next = (here && newton > low && newton < high) ? newton : middle;
        if (next == last || !(low < high)) {
            break;
        }
    }
    const bool found = best && std::fabs(best->up_right - best->up_left) <= 1e-12 * best->up_right;
    return found ? best : std::nullopt;
}

/// The convex position of the bars with equal diagonals, from a convex position with the given ones; nothing where
/// the bars have none (a tall kite, for one).
[[nodiscard]] inline std::optional<Position> equal_diagonals(const Bars& bars, double up_right, double up_left) {
    if (up_right >= up_left) {
        return equal_from_longer(bars, up_right, up_left);
    }
    const Bars behind{bars.eave, bars.ridge, bars.right, bars.left};  // mirror, so that both leans give the same bits
    const std::optional<Position> found = equal_from_longer(behind, up_left, up_right);
    return found ? std::optional<Position>{mirrored(*found, bars.eave)} : std::nullopt;
}

/// Middle of the ridge along the eave.
[[nodiscard]] inline Length ridge_middle(const FourCorners& corners) {
    return (corners.ridge_left.along + corners.ridge_right.along) / 2.0;
}

/// From the middle of the left side to the middle of the right one.
[[nodiscard]] inline Length midline(const FourCorners& c) {
    return hypotenuse((c.eave_right.along + c.ridge_right.along - c.eave_left.along - c.ridge_left.along) / 2.0,
                      (c.eave_right.up + c.ridge_right.up - c.eave_left.up - c.ridge_left.up) / 2.0);
}

}  // namespace eavewright::squaring_detail
