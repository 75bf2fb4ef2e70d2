// SPDX-License-Identifier: BSL-1.0
#pragma once

// Convex outlines on a sheet and straight saw lines through them: what lies on either side, and how far two are apart.

#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace eavewright {

/// A point of a sheet or of a piece's box: along the strength axis, and across it to the left, both from the low
/// corner.
struct CutPoint {
    Length length;
    Length width;
    friend constexpr bool operator==(CutPoint, CutPoint) = default;
};
template <>
struct FieldsOf<CutPoint> {
    static constexpr auto list =
        field_list(field("length", FieldUnit::length, "along the strength axis", &CutPoint::length),
                   field("width", FieldUnit::length, "across it", &CutPoint::width));
};

namespace detail {
/// A `CutPoint` in bare inches, for the arithmetic inside this room.
struct Spot {
    double l;
    double w;
};
using Spots = std::vector<Spot>;

inline constexpr double spot_tolerance = 1.0 / 32768.0;  ///< twice count_tolerance: what two roundings may differ by

[[nodiscard]] inline Spots spots_of(const std::vector<CutPoint>& points) {
    Spots spots;
    spots.reserve(points.size());
    for (const CutPoint& p : points) {
        spots.push_back({inches(p.length), inches(p.width)});
    }
    return spots;
}
[[nodiscard]] inline CutPoint point_of(Spot spot) { return {one_inch * spot.l, one_inch * spot.w}; }
[[nodiscard]] inline std::vector<CutPoint> points_of(const Spots& spots) {
    std::vector<CutPoint> points;
    points.reserve(spots.size());
    for (const Spot& spot : spots) {
        points.push_back(point_of(spot));
    }
    return points;
}
[[nodiscard]] inline Spots box_of(double l, double w) { return {{0.0, 0.0}, {l, 0.0}, {l, w}, {0.0, w}}; }

[[nodiscard]] inline double cross_of(Spot o, Spot a, Spot b) {
    return (a.l - o.l) * (b.w - o.w) - (b.l - o.l) * (a.w - o.w);
}
/// Area inside a counter-clockwise outline.
[[nodiscard]] inline double area_of(const Spots& spots) {
    double twice = 0.0;
    for (std::size_t i = 1; i + 1 < spots.size(); ++i) {
        twice += cross_of(spots[0], spots[i], spots[i + 1]);
    }
    return twice / 2.0;
}

/// Low and high corner of an outline of at least one spot.
struct SpotExtent {
    Spot low;
    Spot high;
};
[[nodiscard]] inline SpotExtent extent_of(const Spots& spots) {
    SpotExtent extent{spots[0], spots[0]};
    for (const Spot& spot : spots) {
        extent.low = {std::fmin(extent.low.l, spot.l), std::fmin(extent.low.w, spot.w)};
        extent.high = {std::fmax(extent.high.l, spot.l), std::fmax(extent.high.w, spot.w)};
    }
    return extent;
}

/// The convex hull, counter-clockwise, no three corners in one line (monotone chain).
[[nodiscard]] inline Spots hull_of(Spots spots) {
    std::sort(spots.begin(), spots.end(), [](Spot a, Spot b) { return a.l < b.l || (a.l == b.l && a.w < b.w); });
    Spots hull;
    for (int side = 0; side < 2; ++side) {
        const std::size_t from = hull.size();
        for (const Spot& spot : spots) {
            while (hull.size() >= from + 2 && !(cross_of(hull[hull.size() - 2], hull.back(), spot) > 1e-9)) {
                hull.pop_back();
            }
            hull.push_back(spot);
        }
        hull.pop_back();
        std::reverse(spots.begin(), spots.end());
    }
    return hull;
}

/// A line from `a` to `b` along which a saw runs; what is kept lies on its left, the blade on its right.
struct SawLine {
    Spot a;
    Spot b;
    /// Distance of a spot from the line, positive on the left.
    [[nodiscard]] double offset(Spot p) const {
        const double l = b.l - a.l;
        const double w = b.w - a.w;
        return cross_of(a, b, p) / std::sqrt(l * l + w * w);
    }
};

/// The part of a convex outline whose distance from the line is at least `from` (on the left), or at most `from` on the
/// right. Nothing where it is thinner than the tolerance.
[[nodiscard]] inline Spots part_beside(const Spots& outline, const SawLine& line, double from, bool left) {
    Spots kept;
    double farthest = 0.0;
    const double sign = left ? 1.0 : -1.0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Spot p = outline[i];
        const Spot q = outline[(i + 1) % outline.size()];
        const double at_p = sign * (line.offset(p) - from);
        const double at_q = sign * (line.offset(q) - from);
        farthest = std::fmax(farthest, at_p);
        if (at_p >= 0.0) {
            kept.push_back(p);
        }
        if ((at_p > 0.0 && at_q < 0.0) || (at_p < 0.0 && at_q > 0.0)) {
            const double share = at_p / (at_p - at_q);
            kept.push_back({p.l + (q.l - p.l) * share, p.w + (q.w - p.w) * share});
        }
    }
    return farthest > spot_tolerance && kept.size() > 2 ? kept : Spots{};
}

/// How far spots reach past a line, to its right; 0 where they all lie on its left.
[[nodiscard]] inline double reach_past(const SawLine& line, const Spots& spots) {
    double most = 0.0;
    for (const Spot& spot : spots) {
        most = std::fmax(most, -line.offset(spot));
    }
    return most;
}

/// How far spots reach out of a convex counter-clockwise outline; 0 where they lie within.
[[nodiscard]] inline double reach_out_of(const Spots& outline, const Spots& spots) {
    double most = 0.0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const SawLine edge{outline[i], outline[(i + 1) % outline.size()]};
        if (std::fabs(edge.a.l - edge.b.l) + std::fabs(edge.a.w - edge.b.w) >= spot_tolerance) {
            most = std::fmax(most, reach_past(edge, spots));
        }
    }
    return most;
}

/// Distance of a spot from the stretch between two others.
[[nodiscard]] inline double distance_of(Spot p, Spot a, Spot b) {
    const double l = b.l - a.l;
    const double w = b.w - a.w;
    const double square = l * l + w * w;
    const double along = square > 0.0 ? ((p.l - a.l) * l + (p.w - a.w) * w) / square : 0.0;
    const double share = std::fmax(0.0, std::fmin(1.0, along));
    const double dl = p.l - a.l - l * share;
    const double dw = p.w - a.w - w * share;
    return std::sqrt(dl * dl + dw * dw);
}

/// How far two convex outlines are apart; 0 where one lies on the other.
[[nodiscard]] inline double gap_between(const Spots& first, const Spots& second) {
    bool apart = false;
    double nearest = 1e300;
    for (int turn = 0; turn < 2; ++turn) {
        const Spots& own = turn == 0 ? first : second;
        const Spots& other = turn == 0 ? second : first;
        for (std::size_t i = 0; i < own.size(); ++i) {
            const SawLine edge{own[i], own[(i + 1) % own.size()]};
            double closest = -1e300;
            for (const Spot& spot : other) {
                closest = std::fmax(closest, edge.offset(spot));
                nearest = std::fmin(nearest, distance_of(spot, edge.a, edge.b));
            }
            apart = apart || closest <= 0.0;
        }
    }
    return apart ? nearest : 0.0;
}
}  // namespace detail

}  // namespace eavewright
