// SPDX-License-Identifier: BSL-1.0
#pragma once

// Convex stretches of the plan, and the three things a composed roof does with them: cut by a line, taken out of one
// another, made of an outline that is not convex.

#include <eavewright/fault.hpp>
#include <eavewright/roof/footprint.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// A corner within this of a line lies on it, in inches: ten thousand times the rounding on any building, and far below
/// what a tape reads.
inline constexpr double on_line_in = 5e-8;

/// Most corners of a convex stretch: those of a footprint, and one for every plane and side that cuts it.
inline constexpr std::size_t most_convex_corners = 64;

/// A convex stretch of the plan, counter-clockwise. Its corners lie in place: roofs are cut into many small stretches, and
/// memory asked for each would cost more than the cutting.
class Convex {
public:
    Convex() noexcept = default;
    Convex(const Convex& other) noexcept { copy(other); }
    Convex& operator=(const Convex& other) noexcept {
        copy(other);
        return *this;
    }
    ~Convex() = default;

    void push_back(PlanVector p) {
        if (size_ == most_convex_corners) {
            throw FaultError{Fault{FaultCode::too_much_work, "bodies", "more corners than that",
                                   "at most " + std::to_string(most_convex_corners) + " corners of a convex part"}};
        }
        corners_[size_++] = p;
    }
    [[nodiscard]] std::size_t size() const noexcept { return size_; }
    [[nodiscard]] bool empty() const noexcept { return size_ == 0; }
    [[nodiscard]] PlanVector operator[](std::size_t i) const noexcept { return corners_[i]; }
    [[nodiscard]] PlanVector front() const noexcept { return (*this)[0]; }
    [[nodiscard]] PlanVector back() const noexcept { return (*this)[size_ - 1]; }
    [[nodiscard]] const PlanVector* begin() const noexcept { return corners_; }
    [[nodiscard]] const PlanVector* end() const noexcept { return corners_ + size_; }

private:
    void copy(const Convex& other) noexcept {
        size_ = other.size_;
        for (std::size_t i = 0; i < size_; ++i) {
            corners_[i] = other.corners_[i];
        }
    }
    std::size_t size_ = 0;
    PlanVector corners_[most_convex_corners];
};

/// A stretch cut in two; either may be empty.
struct Halves {
    Convex kept;  ///< where the distance is positive
    Convex rest;
};

/// Where the distance is 0 between two points, the same bits from either end.
[[nodiscard]] inline PlanVector crossing(PlanVector a, double at_a, PlanVector b, double at_b) {
    if (b.x < a.x || (b.x == a.x && b.y < a.y)) {
        return crossing(b, at_b, a, at_a);
    }
    return a + (b - a) * (at_a / (at_a - at_b));
}

/// `piece` cut where `distance` (linear, in inches) changes its sign.
template <class Distance>
[[nodiscard]] Halves cut(const Convex& piece, Distance distance) {
    Halves halves;
    bool any_kept = false;
    bool any_rest = false;
    for (const PlanVector p : piece) {
        const double d = distance(p);
        any_kept = any_kept || d > on_line_in;
        any_rest = any_rest || d < -on_line_in;
    }
    if (!any_kept || !any_rest) {
        (any_kept ? halves.kept : halves.rest) = piece;
        return halves;
    }
    PlanVector last = piece.back();
    double at_last = distance(last);
    for (const PlanVector p : piece) {
        const double d = distance(p);
        if ((at_last > on_line_in && d < -on_line_in) || (at_last < -on_line_in && d > on_line_in)) {
            const PlanVector between = crossing(last, at_last, p, d);
            halves.kept.push_back(between);
            halves.rest.push_back(between);
        }
        if (d >= -on_line_in) {
            halves.kept.push_back(p);
        }
        if (d <= on_line_in) {
            halves.rest.push_back(p);
        }
        last = p;
        at_last = d;
    }
    return halves;
}

/// Distance to the left of the line from `a` to `b`.
struct LeftOf {
    PlanVector at;
    PlanVector along;
    LeftOf(PlanVector a, PlanVector b) : at{a}, along{(b - a) * (1.0 / size_of(b - a))} {}
    [[nodiscard]] double operator()(PlanVector p) const { return cross(along, p - at); }
};

/// The part of `piece` inside the convex `other`.
[[nodiscard]] inline Convex common_part(Convex piece, const Convex& other) {
    for (std::size_t i = 0; i < other.size() && piece.size() >= 3; ++i) {
        piece = cut(piece, LeftOf{other[i], other[(i + 1) % other.size()]}).kept;
    }
    return piece;
}

/// Wider than a line: what is thinner than the tolerance covers nothing.
[[nodiscard]] inline bool has_area(const Convex& piece) {
    double twice = 0.0;
    double around = 0.0;
    for (std::size_t i = 0; i < piece.size(); ++i) {
        const PlanVector next = piece[(i + 1) % piece.size()] - piece[0];
        twice += cross(piece[i] - piece[0], next);
        around += size_of(next - (piece[i] - piece[0]));
    }
    return piece.size() >= 3 && twice > on_line_in * around;
}

/// Adds to `left` what is left of `piece` without `taken`, a convex part of it.
inline void take_out(Convex piece, const Convex& taken, std::vector<Convex>& left) {
    for (std::size_t i = 0; i < taken.size() && piece.size() >= 3; ++i) {
        const PlanVector along = taken[(i + 1) % taken.size()] - taken[i];
        if (dot(along, along) <= on_line_in * on_line_in) {
            continue;
        }
        Halves halves = cut(piece, LeftOf{taken[i], taken[(i + 1) % taken.size()]});
        if (halves.rest.size() >= 3) {
            left.push_back(std::move(halves.rest));
        }
        piece = std::move(halves.kept);
    }
}

/// Smallest and largest coordinates; turned inside out for no points.
struct PlanBox {
    PlanVector low;
    PlanVector high;
};
template <class Points>
[[nodiscard]] PlanBox box_of(const Points& piece) {
    constexpr double past = 1e30;  // every coordinate of a plan
    PlanBox box{{past, past}, {-past, -past}};
    for (const PlanVector p : piece) {
        box.low = {p.x < box.low.x ? p.x : box.low.x, p.y < box.low.y ? p.y : box.low.y};
        box.high = {p.x > box.high.x ? p.x : box.high.x, p.y > box.high.y ? p.y : box.high.y};
    }
    return box;
}
[[nodiscard]] inline bool are_apart(const PlanBox& a, const PlanBox& b) {
    return a.high.x <= b.low.x || b.high.x <= a.low.x || a.high.y <= b.low.y || b.high.y <= a.low.y;
}

/// The nearest side that the way on from an inside corner meets.
struct Hit {
    std::size_t side;
    double distance;
};
[[nodiscard]] inline Hit first_hit(const std::vector<PlanVector>& outline, std::size_t corner, PlanVector heading) {
    const std::size_t n = outline.size();
    Hit best{corner, -1.0};
    for (std::size_t k = 1; k + 1 < n; ++k) {
        const std::size_t side = (corner + k) % n;
        const PlanVector a = outline[side] - outline[corner];
        const PlanVector b = outline[(side + 1) % n] - outline[corner];
        const double at_a = cross(heading, a);
        const double at_b = cross(heading, b);
        // A corner on the way ends the cut even where the way goes on beyond it, along another side or past its end.
        const bool is_corner = std::fabs(at_a) <= on_line_in && k > 1;
        if (!is_corner && ((at_a > 0.0) == (at_b > 0.0) || at_a == at_b)) {
            continue;
        }
        const double distance = dot(heading, is_corner ? a : a + (b - a) * (at_a / (at_a - at_b)));
        if (distance > on_line_in && (best.distance < 0.0 || distance < best.distance)) {
            best = {side, distance};
        }
    }
    return best;
}

/// Adds the convex parts of a simple outline: from every inside corner a cut goes on straight to the side it meets.
inline void add_convex_parts(const std::vector<PlanVector>& outline, std::vector<Convex>& parts) {
    const std::size_t n = outline.size();
    for (std::size_t i = 0; i < n; ++i) {
        const PlanVector in = outline[i] - outline[(i + n - 1) % n];
        const PlanVector out = outline[(i + 1) % n] - outline[i];
        if (cross(in, out) >= -one_direction * size_of(in) * size_of(out)) {
            continue;
        }
        const PlanVector heading = in * (1.0 / size_of(in));
        const Hit hit = first_hit(outline, i, heading);
        if (hit.distance < 0.0) {
            continue;
        }
        PlanVector end = outline[i] + heading * hit.distance;
        for (const std::size_t corner : {hit.side, (hit.side + 1) % n}) {
            end = size_of(outline[corner] - end) <= on_line_in ? outline[corner] : end;
        }
        const auto part = [&](std::size_t from, std::size_t to) {
            std::vector<PlanVector> some;  // the corners from one to the other, closed by the cut
            for (std::size_t k = from; k != (to + 1) % n; k = (k + 1) % n) {
                some.push_back(outline[k]);
            }
            if (size_of(some.back() - end) > on_line_in && size_of(some.front() - end) > on_line_in) {
                some.push_back(end);
            }
            return some;
        };
        add_convex_parts(part(i, hit.side), parts);
        add_convex_parts(part((hit.side + 1) % n, i), parts);
        return;
    }
    Convex whole;
    for (const PlanVector p : outline) {
        whole.push_back(p);
    }
    parts.push_back(whole);
}

}  // namespace eavewright::detail
