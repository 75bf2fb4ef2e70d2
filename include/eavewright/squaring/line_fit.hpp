// SPDX-License-Identifier: BSL-1.0
#pragma once

// The arithmetic behind a string read at stations: the line of least squares, the hull, and the narrowest strip that
// holds all readings. Doubles of inches, stations strictly ascending; the callers in this room check what goes in.

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace eavewright::squaring_detail {

struct LinePoint {
    double x;
    double y;
};
using LinePoints = std::vector<LinePoint>;

struct PlainLine {
    double x0;
    double y0;
    double slope;
    [[nodiscard]] double at(double x) const { return y0 + slope * (x - x0); }
};

[[nodiscard]] inline PlainLine line_through(const LinePoint& a, const LinePoint& b) {
    return PlainLine{a.x, a.y, (b.y - a.y) / (b.x - a.x)};
}

/// Least squares about the mean station, where intercept and slope do not touch each other.
struct FittedLine {
    PlainLine line;  ///< x0 is the mean station
    double spread;   ///< sum of squares of the stations about their mean
};
[[nodiscard]] inline FittedLine fit_line(const LinePoints& points) {
    const auto count = static_cast<double>(points.size());
    double x = 0.0;
    double y = 0.0;
    for (const LinePoint& p : points) {
        x += p.x / count;
        y += p.y / count;
    }
    double xx = 0.0;
    double xy = 0.0;
    for (const LinePoint& p : points) {
        xx += (p.x - x) * (p.x - x);
        xy += (p.x - x) * (p.y - y);
    }
    return FittedLine{PlainLine{x, y, xy / xx}, xx};
}

/// Root of the sum of squared residuals over the readings to spare; 0 where there are none.
[[nodiscard]] inline double residual_deviation_of(const LinePoints& points, const PlainLine& line) {
    double sum = 0.0;
    for (const LinePoint& p : points) {
        const double off = p.y - line.at(p.x);
        sum += off * off;
    }
    return points.size() > 2 ? std::sqrt(sum / static_cast<double>(points.size() - 2)) : 0.0;
}

/// Corners of the upper hull (side +1) or the lower hull (side -1), left to right.
[[nodiscard]] inline std::vector<std::size_t> hull_of(const LinePoints& points, double side) {
    std::vector<std::size_t> hull;
    for (std::size_t i = 0; i < points.size(); ++i) {
        while (hull.size() > 1) {
            const LinePoint& o = points[hull[hull.size() - 2]];
            const LinePoint& a = points[hull[hull.size() - 1]];
            const double turn = (a.x - o.x) * (points[i].y - o.y) - (a.y - o.y) * (points[i].x - o.x);
            if (turn * side < 0.0) {
                break;
            }
            hull.pop_back();
        }
        hull.push_back(i);
    }
    return hull;
}

/// The narrowest strip, measured along the offsets, that holds all points.
struct Strip {
    PlainLine line;                       ///< its middle
    std::array<std::size_t, 3> deciding;  ///< left to right; they touch opposite edges in turn
    double half_width;
};

/// At least three points. No line keeps three alternating points closer than half of the gap of the middle one from the
/// chord of the outer two, and the narrowest strip has such three of which the outer two are an edge of a hull: so it is
/// the largest such gap. Each point is looked at twice.
[[nodiscard]] inline Strip narrowest_strip(const LinePoints& points) {
    const std::size_t last = points.size() - 1;
    Strip best{line_through(points[0], points[last]), {0, 1, last}, 0.0};
    for (const double side : {1.0, -1.0}) {
        const std::vector<std::size_t> hull = hull_of(points, side);
        for (std::size_t edge = 1; edge < hull.size(); ++edge) {
            const PlainLine chord = line_through(points[hull[edge - 1]], points[hull[edge]]);
            for (std::size_t b = hull[edge - 1] + 1; b < hull[edge]; ++b) {
                const double gap = side * (chord.at(points[b].x) - points[b].y);
                if (gap > 2.0 * best.half_width) {
                    best.line = PlainLine{chord.x0, chord.y0 - side * gap / 2.0, chord.slope};
                    best.deciding = {hull[edge - 1], b, hull[edge]};
                    best.half_width = gap / 2.0;
                }
            }
        }
    }
    return best;
}

}  // namespace eavewright::squaring_detail
