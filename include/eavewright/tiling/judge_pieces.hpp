// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is found on a piece where it lies: slivers, joints, edges past their support. Works in the lane frame.

#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/bearing.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright::detail {

/// A slanted edge that a hip or valley rafter carries.
struct CarriedEdge {
    PlanePoint from;
    PlanePoint to;
};

/// Everything lanes are laid from; all in the lane frame.
struct LaneInput {
    std::vector<PlanePoint> outline;
    std::vector<std::vector<PlanePoint>> openings;
    std::vector<CarriedEdge> carried;
    std::vector<SupportLine> lines;
    Length spacing;
    SheetPlan plan;
    Extent extent;
    LaneFrame frame;
    bool lines_reversed;  ///< against the order in which the supports were given
};

/// Whether an outline differs from its box by less than half a tick, so that nobody could cut the difference.
[[nodiscard]] inline bool is_rectangle(const std::vector<PlanePoint>& outline, const Extent& box, Tick tick) {
    const Length allowed = tick.step() / 2.0;
    for (const PlanePoint corner :
         {box.low, PlanePoint{box.high.along, box.low.up}, box.high, PlanePoint{box.low.along, box.high.up}}) {
        bool reached = false;
        for (const PlanePoint& p : outline) {
            reached =
                reached || (magnitude(p.along - corner.along) <= allowed && magnitude(p.up - corner.up) <= allowed);
        }
        if (!reached) {
            return false;
        }
    }
    if (outline.size() == 4) {
        return true;
    }
    const Length across = box.high.along - box.low.along;
    const Length up = box.high.up - box.low.up;
    return across * up - signed_area(outline) <= allowed * (across + up);  // no notch in a side
}

inline void find_slivers(const SheetPlan& plan, const Extent& extent, std::size_t piece, const LaneFrame& frame,
                         std::vector<Finding>& findings) {
    const PlanePoint middle{(extent.low.along + extent.high.along) / 2.0, (extent.low.up + extent.high.up) / 2.0};
    const auto find = [&](FindingCode code, Length measured) {
        if (measured + count_tolerance < plan.sliver) {
            findings.push_back({code, piece, frame.to_plane(middle), measured, plan.sliver, std::nullopt});
        }
    };
    find(FindingCode::sliver_length, extent.high.up - extent.low.up);
    find(FindingCode::sliver_width, extent.high.along - extent.low.along);
}

/// The legs of a piece beside its notches and openings: across the middle of each edge that runs with the lane, what is left
/// of the piece.
inline void find_narrow_legs(const SheetPlan& plan, const PlanePart& part, std::size_t piece, const LaneFrame& frame,
                             std::vector<Finding>& findings) {
    const Rings rings = rings_of(part.outline, part.cutouts);
    const Extent extent = extent_of(part.outline);
    const auto look = [&](Axis axis, PlanePoint middle) {
        for (const Span& leg : spans_at(rings, axis, axis == Axis::up ? middle.up : middle.along)) {
            const Length at = axis == Axis::up ? middle.along : middle.up;
            const bool beside = leg.low - count_tolerance <= at && at <= leg.high + count_tolerance;
            const Length size = leg.high - leg.low;
            const Length box = axis == Axis::up ? extent.high.along - extent.low.along : extent.high.up - extent.low.up;
            if (beside && size + count_tolerance < plan.sliver && size + count_tolerance < box) {
                const Length mid = (leg.low + leg.high) / 2.0;
                const PlanePoint place = axis == Axis::up ? PlanePoint{mid, middle.up} : PlanePoint{middle.along, mid};
                findings.push_back(
                    {FindingCode::narrow_leg, piece, frame.to_plane(place), size, plan.sliver, std::nullopt});
            }
        }
    };
    const auto look_at_ring = [&](const std::vector<PlanePoint>& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const PlanePoint a = ring[i];
            const PlanePoint b = ring[(i + 1) % ring.size()];
            const PlanePoint middle{(a.along + b.along) / 2.0, (a.up + b.up) / 2.0};
            const bool inner = middle.along > extent.low.along && middle.along < extent.high.along &&
                               middle.up > extent.low.up && middle.up < extent.high.up;
            if (inner && magnitude(a.along - b.along) < count_tolerance) {
                look(Axis::up, middle);
            } else if (inner && magnitude(a.up - b.up) < count_tolerance) {
                look(Axis::along, middle);
            }
        }
    };
    look_at_ring(part.outline);
    for (const std::vector<PlanePoint>& cutout : part.cutouts) {
        look_at_ring(cutout);
    }
}

/// The along-stretch of a piece's edge at `up`.
[[nodiscard]] inline Span edge_at(const std::vector<PlanePoint>& outline, Length up) {
    Span span{Length::from_inches(length_limit_in), Length::from_inches(-length_limit_in)};
    for (const PlanePoint& p : outline) {
        if (magnitude(p.up - up) < count_tolerance) {
            span = {shorter(span.low, p.along), longer(span.high, p.along)};
        }
    }
    return span;
}

/// One edge of a piece along a level line that is being matched with its neighbours'; none where the piece has no such edge.
struct LaidEnd {
    std::size_t piece;
    std::optional<Span> edge;
    bool joined;
};

/// Calls `take(span)` for the edges of an outline that lie on the level line `up`, the outline on the side named.
template <class Take>
void for_level_edges(const std::vector<PlanePoint>& outline, Length up, bool below, Take take) {
    PlanePoint a = outline.back();
    for (const PlanePoint& b : outline) {
        if (magnitude(a.up - up) < count_tolerance && magnitude(b.up - up) < count_tolerance &&
            (below ? b.along < a.along : a.along < b.along)) {
            take(Span{shorter(a.along, b.along), longer(a.along, b.along)});
        }
        a = b;
    }
}

/// Judges the joint along `along` between two pieces.
inline void judge_joint(const LaneInput& in, std::size_t first, std::size_t second, Length first_end, Length second_end,
                        Span along, Sheets& sheets) {
    const JointBearing bearing = joint_bearing(in.lines, first_end, second_end, along);
    const Length middle = (first_end + second_end) / 2.0;
    const PlanePoint from = in.frame.to_plane({along.low, middle});
    const PlanePoint to = in.frame.to_plane({along.high, middle});
    const std::size_t last = in.lines.size() - 1;
    const std::optional<std::size_t> support =
        bearing.support && in.lines_reversed ? last - *bearing.support : bearing.support;
    sheets.joints.push_back({first, second, from, to, support, bearing.first, bearing.second});
    const MendingBlock block{from, to, round_down_to_tick(along.high - along.low, in.plan.tick)};
    const auto judge = [&](std::size_t piece, Length measured, Length end) {
        if (measured <= no_length || measured + count_tolerance < in.plan.least_bearing) {
            const bool carried = bearing.support && measured > no_length;
            const PlanePoint place = in.frame.to_plane({(along.low + along.high) / 2.0, end});
            sheets.findings.push_back({carried ? FindingCode::narrow_bearing : FindingCode::joint_on_nothing, piece,
                                       place, measured, in.plan.least_bearing, block});
        }
    };
    judge(first, bearing.first, first_end);
    judge(second, bearing.second, second_end);
}

/// Judges an edge across the lane that meets no other piece; `inside` is how far the piece reaches behind it.
inline void judge_edge(const LaneInput& in, std::size_t piece, Length end, Span along, Length inside, double outward,
                       Sheets& sheets) {
    const PlanePoint middle{(along.low + along.high) / 2.0, end};
    for (const CarriedEdge& edge : in.carried) {
        if (distance_to(middle, edge.from, edge.to) < in.plan.tick.step() / 2.0) {
            return;
        }
    }
    const Length past = past_support(in.lines, end, along, outward);
    const bool carried = past < Length::from_inches(length_limit_in);
    if (!carried || past > in.plan.edge_reach + count_tolerance) {
        const Length measured = carried ? past : inside;  // nothing under it: all of it stands out
        sheets.findings.push_back({FindingCode::edge_past_support, piece, in.frame.to_plane(middle), measured,
                                   in.plan.edge_reach, std::nullopt});
    }
}

/// Judges the edges across the lane that a piece has at openings and notches, between its two ends.
inline void judge_inner_edges(const LaneInput& in, const PlanePart& part, std::size_t piece, Sheets& sheets) {
    const Extent extent = extent_of(part.outline);
    const auto judge_ring = [&](const std::vector<PlanePoint>& ring, bool opening) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const PlanePoint a = ring[i];
            const PlanePoint b = ring[(i + 1) % ring.size()];
            const bool level = magnitude(a.up - b.up) < magnitude(a.along - b.along) / 8.0;
            const auto at_end = [&](PlanePoint p) {
                return magnitude(p.up - extent.low.up) < count_tolerance ||
                       magnitude(p.up - extent.high.up) < count_tolerance;
            };
            if (level && (opening || (!at_end(a) && !at_end(b)))) {
                const bool lower = (a.along < b.along) != opening;  // the piece lies above this edge
                const Span along{shorter(a.along, b.along), longer(a.along, b.along)};
                judge_edge(in, piece, (a.up + b.up) / 2.0, along, extent.high.up - extent.low.up, lower ? -1.0 : 1.0,
                           sheets);
            }
        }
    };
    judge_ring(part.outline, false);
    for (const std::vector<PlanePoint>& cutout : part.cutouts) {
        judge_ring(cutout, true);
    }
}

}  // namespace eavewright::detail
