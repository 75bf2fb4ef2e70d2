// SPDX-License-Identifier: BSL-1.0
#pragma once

// What the courses of an underlayment have to cover on a plane of any outline.
//
//             ____________ ridge: over it by the wrap
//            /            \                          .
//      hip  /              \____ eave higher up: the courses are still those of the lowest eave
//     past / _ opening: cut    |
//    /____/__[_]__ smaller_____|
//     eave: past it
//
// Along a valley a strip lies first; where courses end on that strip, the rest of it is no ground of theirs.

#include <eavewright/fault.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// What is covered past an edge straight down or up from it.
struct Flap {
    std::vector<PlanePoint> outline;  ///< convex
    PlanePoint from;                  ///< the edge, or a peak twice
    PlanePoint to;
    bool up;           ///< above the plane
    bool ridge;        ///< over a ridge, which the last course may pass by no more than a limit
    Length past_left;  ///< what courses reach past its ends
    Length past_right;
};

struct Ground {
    std::vector<PlanePoint> outline;
    std::vector<EdgeKind> edges;
    std::vector<std::vector<PlanePoint>> openings;  ///< as they are cut: smaller by the turn-up
    std::vector<Flap> flaps;
    std::vector<std::vector<PlanePoint>> on_strips;  ///< quadrilaterals along valleys that are left to the strips
    Length base;                                     ///< lower edge of the first course
    Length plane_top;
    Length top;  ///< with what is over the ridge
};

/// How far a course reaches past an edge at its end, along the eave.
[[nodiscard]] inline Length past_beside(EdgeKind kind, const UnderlaymentPlan& plan) {
    switch (kind) {
        case EdgeKind::rake: return plan.rake_past;
        case EdgeKind::hip: return plan.hip_past;
        case EdgeKind::valley: return plan.valley == ValleyCourses::past_line ? plan.valley_lap : no_length;
        case EdgeKind::wall: return plan.turn_up;
        case EdgeKind::eave:
        case EdgeKind::ridge:
        case EdgeKind::pitch_break:
        case EdgeKind::high_eave: break;
    }
    return no_length;
}
/// How far the courses reach past an edge above (`up`) or below them, up the slope.
[[nodiscard]] inline Length past_across(EdgeKind kind, bool up, const UnderlaymentPlan& plan) {
    switch (kind) {
        case EdgeKind::eave: return up ? no_length : plan.eave_past;
        case EdgeKind::ridge:
        case EdgeKind::pitch_break:
        case EdgeKind::high_eave: return up ? plan.ridge_wrap : no_length;
        case EdgeKind::wall: return up ? plan.turn_up : no_length;
        case EdgeKind::rake:
        case EdgeKind::hip:
        case EdgeKind::valley: break;
    }
    return no_length;
}

/// A convex opening, counter-clockwise, with every side moved in by `by`; nothing where nothing is left.
[[nodiscard]] inline std::vector<PlanePoint> moved_in(std::vector<PlanePoint> ring, Length by) {
    if (square_inches(signed_area(ring)) < 0.0) {
        std::reverse(ring.begin(), ring.end());
    }
    if (!is_convex(ring)) {
        throw FaultError{Fault{FaultCode::not_supported, "plane.openings", "an opening that is not convex",
                               "convex openings, up whose sides the underlayment turns"}};
    }
    std::vector<PlanePoint> inner = ring;
    for (std::size_t i = 0; by > no_length && i < ring.size(); ++i) {
        const PlanePoint a = ring[i];
        const PlanePoint b = ring[(i + 1) % ring.size()];
        const Length size = hypotenuse(b.along - a.along, b.up - a.up);
        if (size > no_length) {
            inner = clip(inner, [&](PlanePoint p) { return one_inch * turn(a, b, p) / (size / one_inch) - by; });
        }
    }
    const bool gone = inner.size() < 3 || !(square_inches(signed_area(inner)) > 0.0);
    return gone ? std::vector<PlanePoint>{} : inner;
}

/// What lies past each edge, and over each peak between hips.
[[nodiscard]] inline std::vector<Flap> flaps_of(const std::vector<PlanePoint>& o, const std::vector<EdgeKind>& edges,
                                                const UnderlaymentPlan& plan) {
    std::vector<Flap> flaps;
    const std::size_t n = o.size();
    for (std::size_t i = 0; i < n; ++i) {
        const PlanePoint a = o[i];
        const PlanePoint b = o[(i + 1) % n];
        const bool up = b.along < a.along;
        const Length past = past_across(edges[i], up, plan);
        const Length before = past_beside(edges[(i + n - 1) % n], plan);
        const Length after = past_beside(edges[(i + 1) % n], plan);
        if (past > no_length && a.along != b.along) {
            const PlanePoint left = up ? b : a;
            const PlanePoint right = up ? a : b;
            const Length off = up ? past : -past;
            flaps.push_back({{left, right, {right.along, right.up + off}, {left.along, left.up + off}},
                             left,
                             right,
                             up,
                             up && edges[i] != EdgeKind::wall,
                             up ? after : before,
                             up ? before : after});
        }
        const std::size_t next = (i + 1) % n;
        const bool peak = b.up > a.up && b.up > o[(next + 1) % n].up && turn(a, b, o[(next + 1) % n]) > 0.0;
        if (peak && plan.hip_past > no_length && (edges[i] == EdgeKind::hip || edges[next] == EdgeKind::hip)) {
            const Length by = plan.hip_past;
            flaps.push_back(
                {{{b.along - by, b.up}, {b.along + by, b.up}, {b.along + by, b.up + by}, {b.along - by, b.up + by}},
                 b,
                 b,
                 true,
                 false,
                 no_length,
                 no_length});
        }
    }
    return flaps;
}

/// What is left to the strip along each valley: all that is nearer to its line than where the courses have lapped the strip.
[[nodiscard]] inline std::vector<std::vector<PlanePoint>> left_to_strips(const std::vector<PlanePoint>& o,
                                                                         const std::vector<EdgeKind>& edges,
                                                                         const UnderlaymentPlan& plan, int layers) {
    std::vector<std::vector<PlanePoint>> quads;
    const Length deep = plan.valley_strip / 2.0 - plan.valley_lap;
    if (plan.valley != ValleyCourses::onto_strip || layers > 1 || !(deep > count_tolerance)) {
        return quads;
    }
    for (std::size_t i = 0; i < o.size(); ++i) {
        const PlanePoint a = o[i];
        const PlanePoint b = o[(i + 1) % o.size()];
        const Length size = hypotenuse(b.along - a.along, b.up - a.up);
        if (edges[i] == EdgeKind::valley && size > count_tolerance) {
            const PlanePoint in{-(b.up - a.up) / size * one_inch, (b.along - a.along) / size * one_inch};
            const auto off = [&](PlanePoint p, double by) {
                return PlanePoint{p.along + in.along * by, p.up + in.up * by};
            };
            // A hair past the line, so that the line itself is theirs.
            const double past = -0.001;
            quads.push_back({off(a, past), off(b, past), off(b, deep / one_inch), off(a, deep / one_inch)});
        }
    }
    return quads;
}

template <Surface surface>
[[nodiscard]] Ground ground_of(const Plane<surface>& plane, const UnderlaymentPlan& plan, int layers) {
    Ground ground{plane.outline,
                  plane.edges,
                  {},
                  flaps_of(plane.outline, plane.edges, plan),
                  left_to_strips(plane.outline, plane.edges, plan, layers),
                  no_length,
                  no_length,
                  no_length};
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        std::vector<PlanePoint> cut = moved_in(opening, plan.turn_up);
        if (!cut.empty()) {
            ground.openings.push_back(std::move(cut));
        }
    }
    const Extent extent = extent_of(plane.outline);
    ground.base = extent.low.up;
    ground.plane_top = extent.high.up;
    ground.top = extent.high.up;
    for (const Flap& flap : ground.flaps) {
        const Extent reach = extent_of(flap.outline);
        ground.base = shorter(ground.base, reach.low.up);
        ground.top = longer(ground.top, reach.high.up);
    }
    return ground;
}

/// Strictly within a convex quadrilateral, counter-clockwise.
[[nodiscard]] inline bool is_deep_in(PlanePoint p, const std::vector<PlanePoint>& quad) {
    for (std::size_t i = 0; i < quad.size(); ++i) {
        if (!(turn(quad[i], quad[(i + 1) % quad.size()], p) > 1e-9)) {
            return false;
        }
    }
    return true;
}

/// Where two segments cross, or the first crosses the line of the second at one of its ends.
[[nodiscard]] inline std::optional<PlanePoint> meeting_of(PlanePoint a, PlanePoint b, PlanePoint c, PlanePoint d) {
    const double start = turn(c, d, a);
    const double end = turn(c, d, b);
    if (!(start * end < 0.0) || turn(a, b, c) * turn(a, b, d) > 0.0) {
        return std::nullopt;
    }
    const double share = start / (start - end);
    return PlanePoint{a.along + (b.along - a.along) * share, a.up + (b.up - a.up) * share};
}
template <class Take>
void take_meetings(const std::vector<PlanePoint>& one, const std::vector<PlanePoint>& other, Take take) {
    for (std::size_t i = 0; i < one.size(); ++i) {
        for (std::size_t k = 0; k < other.size(); ++k) {
            const std::optional<PlanePoint> at =
                meeting_of(one[i], one[(i + 1) % one.size()], other[k], other[(k + 1) % other.size()]);
            if (at) {
                take(*at);
            }
        }
    }
}

/// From where to where along the eave what is left of a part reaches once the strips have theirs; nothing where they have all.
/// It ends at a corner of the part, or where the edges of part and shares cross: a corner of a share dents what is left.
[[nodiscard]] inline std::optional<Span> reach_beside_strips(const std::vector<PlanePoint>& part,
                                                             const std::vector<std::vector<PlanePoint>>& quads) {
    std::optional<Span> reach;
    const auto take = [&](PlanePoint p) {
        const auto has = [&](const std::vector<PlanePoint>& quad) { return is_deep_in(p, quad); };
        if (std::none_of(quads.begin(), quads.end(), has)) {
            reach = reach ? Span{shorter(reach->low, p.along), longer(reach->high, p.along)} : Span{p.along, p.along};
        }
    };
    const auto take_inside = [&](PlanePoint p) {
        if (is_inside(p, part)) {
            take(p);
        }
    };
    std::for_each(part.begin(), part.end(), take);
    for (std::size_t q = 0; q < quads.size(); ++q) {
        take_meetings(part, quads[q], take);
        for (std::size_t other = q + 1; other < quads.size(); ++other) {
            take_meetings(quads[q], quads[other], take_inside);
        }
    }
    return reach;
}

}  // namespace eavewright::detail
