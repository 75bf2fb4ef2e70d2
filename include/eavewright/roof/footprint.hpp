// SPDX-License-Identifier: BSL-1.0
#pragma once

// A footprint: the outline of the eaves in plan, and what stands on each of its sides. The roof over it is in
// footprint_roof.hpp.

#include <eavewright/fault.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace eavewright {

/// A side with an eave, its roof rising inward.
struct SlopedSide {
    Pitch pitch;
};
/// A side whose wall stands up to the roof: no face of its own, the faces beside it end there.
struct GableSide {};
using Side = std::variant<SlopedSide, GableSide>;

/// Most corners of a footprint.
inline constexpr std::size_t most_footprint_corners = 24;
/// Corners lie within this of the benchmark, along x and along y: 100,000 in, so that rounding stays below 1e-10 in.
inline constexpr Length footprint_limit = Length::from_inches(1e5);
/// A side is longer than this, and sides that do not follow one another stay further apart: the finest tape mark.
inline constexpr Length footprint_gap = Length::from_inches(1.0 / 64.0);
/// Flattest pitch of a sloped side, rise over run.
inline constexpr double flattest_side = 1e-3;

/// The outline of all eaves, at one level. Side i runs from corner i to corner i + 1.
///
/// 3 to 24 corners, counter-clockwise seen from above, whose sides neither cross nor touch. With one pitch all round
/// any such outline has a roof. With pitches of their own, or gables, the outline must be convex or have right angles
/// only (not_supported otherwise, as is a gable at an inside corner).
struct Footprint {
    std::vector<GroundPoint> corners;
    std::vector<Side> sides;
    Length eave_height;  ///< from the benchmark
};

namespace detail {
/// A place or a direction of the plan in inches, for the arithmetic between lengths.
struct PlanVector {
    double x;
    double y;
    friend constexpr PlanVector operator+(PlanVector a, PlanVector b) { return {a.x + b.x, a.y + b.y}; }
    friend constexpr PlanVector operator-(PlanVector a, PlanVector b) { return {a.x - b.x, a.y - b.y}; }
    friend constexpr PlanVector operator*(PlanVector a, double factor) { return {a.x * factor, a.y * factor}; }
};
[[nodiscard]] constexpr double dot(PlanVector a, PlanVector b) { return a.x * b.x + a.y * b.y; }
/// Positive where `b` points left of `a`.
[[nodiscard]] constexpr double cross(PlanVector a, PlanVector b) { return a.x * b.y - a.y * b.x; }
[[nodiscard]] inline double size_of(PlanVector a) { return std::sqrt(dot(a, a)); }
[[nodiscard]] constexpr PlanVector way(GroundPoint from, GroundPoint to) {
    return {inches(to.x - from.x), inches(to.y - from.y)};
}

/// Two directions (unit vectors) count as one below this sine: rounding, ten thousandfold.
inline constexpr double one_direction = 1e-9;
/// Two sides with pitches of their own count as one line below this sine: the corner between them says too little.
inline constexpr double one_line = 1e-6;

[[nodiscard]] inline PlanVector direction_of(const Footprint& plan, std::size_t side) {
    const PlanVector along = way(plan.corners[side], plan.corners[(side + 1) % plan.corners.size()]);
    return along * (1.0 / size_of(along));
}
[[nodiscard]] inline bool is_gable(const Side& side) { return std::holds_alternative<GableSide>(side); }
/// Both gables, or both of one pitch to the rounding of its making.
[[nodiscard]] inline bool are_alike(const Side& a, const Side& b) {
    if (is_gable(a) || is_gable(b)) {
        return is_gable(a) && is_gable(b);
    }
    const double pitch = std::get<SlopedSide>(a).pitch.rise_per_run();
    return std::fabs(pitch - std::get<SlopedSide>(b).pitch.rise_per_run()) <= 1e-12 * pitch;
}
[[nodiscard]] inline bool all_alike(const Footprint& plan) {
    for (const Side& side : plan.sides) {
        if (!are_alike(plan.sides.front(), side)) {
            return false;
        }
    }
    return true;
}

/// "footprint.sides[2] and footprint.sides[5]".
[[nodiscard]] inline std::string both_sides(const Path& path, std::size_t a, std::size_t b) {
    const Path sides{path, "sides"};
    return Path{sides, a < b ? a : b}.text() + " and " + Path{sides, a < b ? b : a}.text();
}
[[nodiscard]] inline std::string describe_side(const Side& side) {
    if (is_gable(side)) {
        return "a gable";
    }
    return write_decimal(std::get<SlopedSide>(side).pitch.rise_in_12(), 6) + " in 12";
}
[[nodiscard]] inline std::string describe_sides(const Footprint& plan, std::size_t a, std::size_t b) {
    return describe_side(plan.sides[a < b ? a : b]) + " and " + describe_side(plan.sides[a < b ? b : a]);
}

inline void find_faults_of_form(const Footprint& plan, const Path& path, Faults& faults) {
    const std::size_t n = plan.corners.size();
    if (n < 3 || n > most_footprint_corners) {
        faults.push_back(Fault{n < 3 ? FaultCode::out_of_range : FaultCode::too_much_work, Path{path, "corners"}.text(),
                               std::to_string(n) + " corners",
                               "3 to " + std::to_string(most_footprint_corners) + " corners"});
    }
    if (plan.sides.size() != n) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "sides"}.text(),
                               std::to_string(plan.sides.size()) + " sides",
                               "one for each of the " + std::to_string(n) + " corners"});
    }
    const Path corners{path, "corners"};
    for (std::size_t i = 0; i < n; ++i) {
        const Path corner{corners, i};
        require_within(plan.corners[i].x, -footprint_limit, footprint_limit, Path{corner, "x"}, faults);
        require_within(plan.corners[i].y, -footprint_limit, footprint_limit, Path{corner, "y"}, faults);
    }
    const Path sides{path, "sides"};
    for (std::size_t i = 0; i < plan.sides.size(); ++i) {
        const SlopedSide* sloped = std::get_if<SlopedSide>(&plan.sides[i]);
        if (sloped != nullptr && !(sloped->pitch.rise_per_run() >= flattest_side)) {
            const Path side{sides, i};
            faults.push_back(Fault{FaultCode::out_of_range, Path{side, "pitch"}.text(), describe_side(plan.sides[i]),
                                   "at least " + write_decimal(12.0 * flattest_side, 6) + " in 12"});
        }
    }
    const Length most = Length::from_inches(length_limit_in);
    require_within(plan.eave_height, -most, most, Path{path, "eave_height"}, faults);
}

/// How far a corner lies from a side.
[[nodiscard]] inline double gap_between(const Footprint& plan, std::size_t corner, std::size_t side) {
    const PlanVector along = way(plan.corners[side], plan.corners[(side + 1) % plan.corners.size()]);
    const PlanVector out = way(plan.corners[side], plan.corners[corner]);
    const double share = dot(out, along) / dot(along, along);
    return size_of(out - along * (share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share));
}
/// True where two sides that do not follow one another cross: each has its ends on both hands of the other. Sides in
/// line have theirs there by rounding; where an end that close to the line belongs to a crossing, the gap is too small
/// already.
[[nodiscard]] inline bool sides_cross(const Footprint& plan, std::size_t a, std::size_t b) {
    const std::size_t n = plan.corners.size();
    const auto parts = [&](std::size_t line, std::size_t side) {
        const PlanVector along = direction_of(plan, line);
        const GroundPoint at = plan.corners[line];
        const double one = cross(along, way(at, plan.corners[side]));
        const double other = cross(along, way(at, plan.corners[(side + 1) % n]));
        const double clear = inches(footprint_gap) / 2.0;
        return (one < -clear && other > clear) || (one > clear && other < -clear);
    };
    return parts(a, b) && parts(b, a);
}

inline void find_faults_of_outline(const Footprint& plan, const Path& path, Faults& faults) {
    const std::size_t n = plan.corners.size();
    const Path sides{path, "sides"};
    for (std::size_t i = 0; i < n; ++i) {
        const double length = size_of(way(plan.corners[i], plan.corners[(i + 1) % n]));
        if (!(length > inches(footprint_gap))) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{sides, i}.text(), describe_length(one_inch * length),
                                   "a side longer than " + describe_length(footprint_gap)});
        }
    }
    if (!faults.empty()) {
        return;
    }
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t side = 0; side < n; ++side) {
            if (side == i || (side + 1) % n == i) {
                continue;
            }
            // The side at this corner that does not itself end on the other one; a spike has only its own two sides.
            const std::size_t own = (i + 1) % n == side ? (i + n - 1) % n : i;
            const bool apart = own != (side + 1) % n && (own + 1) % n != side;
            if (!(gap_between(plan, i, side) > inches(footprint_gap)) || (apart && sides_cross(plan, own, side))) {
                faults.push_back(Fault{FaultCode::contradiction, both_sides(path, own, side),
                                       "sides that cross or touch", "an outline that meets itself nowhere"});
                return;
            }
        }
    }
    if (!(square_inches(plan_area(plan.corners)) > 0.0)) {
        faults.push_back(Fault{FaultCode::out_of_order, Path{path, "corners"}.text(), "corners that run clockwise",
                               "counter-clockwise, seen from above"});
    }
}

/// Sides that differ: what has no single answer, and what is outside what is laid out.
inline void find_faults_of_weights(const Footprint& plan, const Path& path, Faults& faults) {
    const std::size_t n = plan.corners.size();
    const PlanVector first = direction_of(plan, 0);
    std::optional<std::size_t> inside;  // an inside corner, and a corner that is not square
    std::optional<std::size_t> skew;
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t before = (i + n - 1) % n;
        const PlanVector in = direction_of(plan, before);
        const PlanVector out = direction_of(plan, i);
        const double turn = cross(in, out);
        if (std::fabs(turn) <= one_line && !are_alike(plan.sides[before], plan.sides[i])) {
            faults.push_back(Fault{FaultCode::contradiction, both_sides(path, before, i),
                                   describe_sides(plan, before, i) + " on one line",
                                   "one pitch, or two gables, on sides that go on in one line"});
        }
        if (turn < -one_direction) {
            inside = inside ? inside : i;
            if (is_gable(plan.sides[before]) || is_gable(plan.sides[i])) {
                faults.push_back(Fault{FaultCode::not_supported, both_sides(path, before, i),
                                       "a gable at an inside corner", "sloped sides at inside corners"});
            }
        }
        if (std::fabs(cross(first, out)) > one_direction && std::fabs(dot(first, out)) > one_direction) {
            skew = skew ? skew : i;
        }
    }
    if (inside && skew) {
        faults.push_back(Fault{FaultCode::not_supported, Path{path, "sides"}.text(),
                               "sides that differ over an outline with an inside corner and angles that are not right",
                               "one pitch all round, or an outline that is convex or has right angles only"});
    }
}
}  // namespace detail

inline void find_faults(const Footprint& plan, const Path& path, Faults& faults) {
    Faults own;
    detail::find_faults_of_form(plan, path, own);
    if (own.empty()) {
        detail::find_faults_of_outline(plan, path, own);
    }
    if (own.empty() && detail::all_alike(plan) && detail::is_gable(plan.sides.front())) {
        own.push_back(Fault{FaultCode::contradiction, detail::both_sides(path, 0, 1), "gables on every side",
                            "at least one sloped side"});
    }
    if (own.empty() && !detail::all_alike(plan)) {
        detail::find_faults_of_weights(plan, path, own);
    }
    faults.insert(faults.end(), own.begin(), own.end());
}

}  // namespace eavewright
