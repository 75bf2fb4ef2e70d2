// SPDX-License-Identifier: BSL-1.0
#pragma once

// Where a text stands on a shape of any outline: well inside it where it fits, else close by, tied to it by a leader.

#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright::detail {

/// A shape on the page: rings of which the later ones are holes, seen between two upright lines.
struct PageShape {
    std::vector<std::vector<SvgPoint>> rings;
    double left;
    double right;

    [[nodiscard]] bool holds(SvgPoint p) const {
        bool inside = false;
        for (const std::vector<SvgPoint>& ring : rings) {
            for (std::size_t i = 0; i < ring.size(); ++i) {
                const SvgPoint a = ring[i];
                const SvgPoint b = ring[(i + 1) % ring.size()];
                if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * ((p.y - a.y) / (b.y - a.y))) {
                    inside = !inside;
                }
            }
        }
        return inside && p.x > left && p.x < right;
    }
};

/// Half the width and half the height of a box.
struct HalfBox {
    double wide;
    double high;
    [[nodiscard]] Box around(SvgPoint p) const { return {p.x - wide, p.y - high, p.x + wide, p.y + high}; }
};

/// Half the side of the largest upright square round the origin that the way from `a` to `b` does not enter.
[[nodiscard]] inline double square_round_origin(SvgPoint a, SvgPoint b) {
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    double least = lesser(greater(std::fabs(a.x), std::fabs(a.y)), greater(std::fabs(b.x), std::fabs(b.y)));
    const auto look = [&](double over, double under) {  // the square is smallest at an end, on an axis or on a diagonal
        const double share = under == 0.0 ? -1.0 : over / under;
        if (share > 0.0 && share < 1.0) {
            least = lesser(least, greater(std::fabs(a.x + dx * share), std::fabs(a.y + dy * share)));
        }
    };
    look(-a.x, dx);
    look(-a.y, dy);
    look(a.y - a.x, dx - dy);
    look(-a.x - a.y, dx + dy);
    return least;
}

/// How many times a box round `p` could grow until it touches the shape's edge; 1 where it just fits, -1 for a point
/// outside.
[[nodiscard]] inline double room_round(const PageShape& shape, SvgPoint p, HalfBox half) {
    if (!shape.holds(p)) {
        return -1.0;
    }
    const auto seen = [&](SvgPoint q) { return SvgPoint{(q.x - p.x) / half.wide, (q.y - p.y) / half.high}; };
    double room = lesser((p.x - shape.left) / half.wide, (shape.right - p.x) / half.wide);
    for (const std::vector<SvgPoint>& ring : shape.rings) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            room = lesser(room, square_round_origin(seen(ring[i]), seen(ring[(i + 1) % ring.size()])));
        }
    }
    return room;
}

/// A place and the room there, as `room_round` counts it.
struct TextPlace {
    SvgPoint at;
    double room;
};

/// Points along level lines through the shape, the middle of the whole first.
[[nodiscard]] inline std::vector<SvgPoint> points_inside(const PageShape& shape, const Box& box) {
    constexpr int lines = 11;
    std::vector<SvgPoint> points{{(box.left + box.right) / 2.0, (box.top + box.bottom) / 2.0}};
    std::vector<double> met;
    for (int line = 0; line < lines; ++line) {
        const double y = box.top + (box.bottom - box.top) * ((line + 0.5) / lines);
        met.clear();
        for (const std::vector<SvgPoint>& ring : shape.rings) {
            for (std::size_t i = 0; i < ring.size(); ++i) {
                const SvgPoint a = ring[i];
                const SvgPoint b = ring[(i + 1) % ring.size()];
                if ((a.y > y) != (b.y > y)) {
                    met.push_back(a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y)));
                }
            }
        }
        std::sort(met.begin(), met.end());
        for (std::size_t i = 0; i + 1 < met.size(); i += 2) {
            const double from = greater(met[i], shape.left);
            const double to = lesser(met[i + 1], shape.right);
            for (const double share : {0.5, 0.3, 0.7, 0.12, 0.88}) {
                points.push_back({from + (to - from) * share, y});
            }
        }
    }
    return points;
}

/// The place for a box well inside a shape: its middle where that has room to spare, else where there is most room.
/// `room`
/// below 1 says that the box fits nowhere, -1 that the shape is not seen.
[[nodiscard]] inline TextPlace place_within(const PageShape& shape, HalfBox half) {
    constexpr double to_spare = 1.25;
    constexpr double tie = 1e-6;  // equal places go to the first, whatever the last bit says
    Box box{shape.right, 1e9, shape.left, -1e9};
    for (const SvgPoint& p : shape.rings[0]) {
        box = {lesser(box.left, p.x), lesser(box.top, p.y), greater(box.right, p.x), greater(box.bottom, p.y)};
    }
    box.left = greater(box.left, shape.left);
    box.right = lesser(box.right, shape.right);
    TextPlace best{{(box.left + box.right) / 2.0, (box.top + box.bottom) / 2.0}, -1.0};
    const auto look = [&](SvgPoint p) {
        const double room = room_round(shape, p, half);
        if (room > best.room + tie) {
            best = {p, room};
        }
    };
    for (const SvgPoint& p : points_inside(shape, box)) {
        look(p);
        if (best.room >= to_spare && p.x == best.at.x && p.y == best.at.y) {
            break;
        }
    }
    double dx = (box.right - box.left) / 16.0;
    double dy = (box.bottom - box.top) / 16.0;
    for (int step = 0; step < 6 && best.room >= 0.0 && best.room < to_spare; ++step, dx /= 2.0, dy /= 2.0) {
        const SvgPoint centre = best.at;
        for (const double x : {-dx, 0.0, dx}) {
            for (const double y : {-dy, 0.0, dy}) {
                look({centre.x + x, centre.y + y});
            }
        }
    }
    return best;
}

[[nodiscard]] inline bool is_free(const Box& box, const std::vector<Box>& taken) {
    return std::none_of(taken.begin(), taken.end(), [&](const Box& other) { return box.meets(other); });
}

/// Whether the way from `a` to `b` leads over something taken, looked at every tenth of it.
[[nodiscard]] inline bool leads_over(SvgPoint a, SvgPoint b, const std::vector<Box>& taken) {
    for (int i = 1; i < 10; ++i) {
        const SvgPoint p{a.x + (b.x - a.x) * (i / 10.0), a.y + (b.y - a.y) * (i / 10.0)};
        if (!is_free({p.x, p.y, p.x, p.y}, taken)) {
            return true;
        }
    }
    return false;
}

/// A free place for a box near `from`, off the shape rather than on it, no farther away than `reach`.
[[nodiscard]] inline std::optional<SvgPoint> place_beside(SvgPoint from, HalfBox half, const Box& bounds,
                                                          const std::vector<Box>& taken, const PageShape& shape,
                                                          double reach) {
    constexpr double step = 6.0;
    constexpr double on_shape = 30.0;  // drawing units of leader that a place off the shape is worth
    constexpr double over_text = 20.0;
    const int steps = static_cast<int>(reach / step);
    std::optional<SvgPoint> best;
    double least = 1e9;
    for (int j = -steps; j <= steps; ++j) {
        for (int i = -steps; i <= steps; ++i) {
            const SvgPoint at{from.x + i * step, from.y + j * step};
            const Box box = half.around(at);
            double cost = std::sqrt((at.x - from.x) * (at.x - from.x) + (at.y - from.y) * (at.y - from.y));
            const bool on_page = box.left >= bounds.left && box.right <= bounds.right && box.top >= bounds.top &&
                                 box.bottom <= bounds.bottom;
            if (!on_page || cost + 1e-6 >= least || !is_free(box, taken)) {
                continue;
            }
            const bool on = shape.holds(at) || shape.holds({box.left, box.top}) || shape.holds({box.right, box.top}) ||
                            shape.holds({box.left, box.bottom}) || shape.holds({box.right, box.bottom});
            cost += (on ? on_shape : 0.0) + (leads_over(from, at, taken) ? over_text : 0.0);
            if (cost + 1e-6 < least) {
                least = cost;
                best = at;
            }
        }
    }
    return best;
}

}  // namespace eavewright::detail
