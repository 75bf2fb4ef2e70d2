// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lays sheets on a plane: lane by lane, each piece named and placed, each end joint judged where it lands.

#include <eavewright/fault.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/bearing.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// Most pieces that one plane is laid with.
inline constexpr std::int64_t most_pieces = 200'000;

namespace detail {

/// Everything a lane is laid from; all in the lane frame.
struct LaneInput {
    std::vector<PlanePoint> outline;
    std::vector<SupportLine> lines;
    Length spacing;
    SheetPlan plan;
    Extent extent;
    LaneFrame frame;
    bool lines_reversed;  ///< against the order in which the supports were given
};

/// Where a sheet from `start` ends that is cut back to the last support it reaches, the gap centred on the support; where
/// it lies whole if it reaches none.
[[nodiscard]] inline Length cut_back(const LaneInput& in, Length start, Length length, Length along) {
    const Length half_gap = in.plan.gap / 2.0;
    const Length whole = start + length;
    const std::optional<std::size_t> last = last_support_below(in.lines, along, whole + half_gap + count_tolerance);
    const Length back = last ? up_at(in.lines[*last].centreline, along) - half_gap : start;
    return back > start ? back : whole;
}

/// The exact ends of the pieces of one lane, before they are cut to the outline.
[[nodiscard]] inline std::vector<Span> lane_spans(const LaneInput& in, std::int32_t lane, Span along, Length top) {
    const SheetPlan& plan = in.plan;
    const Length middle = (along.low + along.high) / 2.0;
    std::vector<Span> spans;
    Length start = in.extent.low.up;
    Length length = plan.sheet.length - (lane % 2 == 1 ? in.spacing * plan.stagger_spaces : no_length);
    while (start + plan.tick.step() / 2.0 < top) {  // less than half a tick is no piece
        Length end = start + length;
        if (end + count_tolerance >= top) {
            end = top;
        } else if (plan.joints == JointPlace::on_supports) {
            end = cut_back(in, start, length, middle);
            if (end - start < plan.sliver && length < plan.sheet.length) {
                end = shorter(top, cut_back(in, start, plan.sheet.length, middle));  // no stagger that leaves a sliver
            }
        }
        spans.push_back({start, end});
        start = end + plan.gap;
        length = plan.sheet.length;
    }
    return spans;
}

/// Cuts on one axis, each rounded so that it ends as near as the tick allows to where it should: what the cuts before it
/// missed is made good by the next, so that nothing piles up.
class RoundedAxis {
public:
    RoundedAxis(Length origin, Length gap, Tick tick) : origin_{origin}, gap_{gap}, tick_{tick} {}

    /// Rounded size of a piece from `low` to `high`, the next one along the axis: a multiple of the tick, whatever the gap.
    /// A size that comes `uncut` from the sheet stays what it is.
    [[nodiscard]] Length cut(Length low, Length high, Length uncut) {
        const bool follows = has_last_ && magnitude(low - last_exact_ - gap_) < count_tolerance;
        const Length from = follows ? last_ + gap_ : low - origin_;
        if (!has_last_) {
            first_ = from;
            first_exact_ = low;
        }
        last_exact_ = high;
        const bool is_uncut = magnitude(high - low - uncut) < count_tolerance;
        const Length size = is_uncut ? uncut : shorter(round_to_tick(high - origin_ - from, tick_), uncut);
        last_ = from + size;
        has_last_ = true;
        return size;
    }
    /// By how much the rounded pieces and gaps so far miss the exact distance.
    [[nodiscard]] Length miss() const {
        return has_last_ ? (last_ - first_) - (last_exact_ - first_exact_) : no_length;
    }

private:
    Length origin_;
    Length gap_;
    Tick tick_;
    bool has_last_ = false;
    Length first_ = no_length;
    Length first_exact_ = no_length;
    Length last_ = no_length;
    Length last_exact_ = no_length;
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
    return true;
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

/// Judges the joint between piece `second` and the one before it, whose lane-frame outlines are given.
inline void judge_joint(const LaneInput& in, const std::vector<PlanePoint>& below, Length first_end, Length second_end,
                        std::size_t second, Sheets& sheets) {
    const Span along = edge_at(below, first_end);
    if (!(along.high > along.low)) {
        return;  // the slanted edge of the plane ends the lane here
    }
    const JointBearing bearing = joint_bearing(in.lines, first_end, second_end, along);
    const Length middle = (first_end + second_end) / 2.0;
    const PlanePoint from = in.frame.to_plane({along.low, middle});
    const PlanePoint to = in.frame.to_plane({along.high, middle});
    const std::size_t last = in.lines.size() - 1;
    const std::optional<std::size_t> support =
        bearing.support && in.lines_reversed ? last - *bearing.support : bearing.support;
    sheets.joints.push_back({second - 1, second, from, to, support, bearing.first, bearing.second});
    const MendingBlock block{from, to, round_down_to_tick(along.high - along.low, in.plan.tick)};
    const auto judge = [&](std::size_t piece, Length measured, Length end) {
        if (measured <= no_length || measured + count_tolerance < in.plan.least_bearing) {
            const bool carried = bearing.support && measured > no_length;
            const PlanePoint place = in.frame.to_plane({(along.low + along.high) / 2.0, end});
            sheets.findings.push_back({carried ? FindingCode::narrow_bearing : FindingCode::joint_on_nothing, piece,
                                       place, measured, in.plan.least_bearing, block});
        }
    };
    judge(second - 1, bearing.first, first_end);
    judge(second, bearing.second, second_end);
}

inline void judge_edge(const LaneInput& in, const std::vector<PlanePoint>& outline, std::size_t piece, double outward,
                       Sheets& sheets) {
    const Extent extent = extent_of(outline);
    const Length end = outward > 0 ? extent.high.up : extent.low.up;
    const Span along = edge_at(outline, end);
    const Length past = past_support(in.lines, end, along, outward);
    const bool carried = past < Length::from_inches(length_limit_in);
    if (!carried || past > in.plan.edge_reach + count_tolerance) {
        const PlanePoint place = in.frame.to_plane({(along.low + along.high) / 2.0, end});
        const Length measured =
            carried ? past : extent.high.up - extent.low.up;  // nothing under it: all of it stands out
        sheets.findings.push_back(
            {FindingCode::edge_past_support, piece, place, measured, in.plan.edge_reach, std::nullopt});
    }
}

/// A lane being laid: its strip of the outline, and the rounding along it.
struct Lane {
    std::int32_t number;
    std::vector<PlanePoint> strip;
    Extent reach;      ///< of the strip
    Length cut_width;  ///< of a piece as wide as the strip
    RoundedAxis lengths;
};

/// Adds the piece that has this lane-frame outline.
inline void add_piece(const LaneInput& in, Lane& lane, std::int32_t place, const std::vector<PlanePoint>& outline,
                      Sheets& sheets) {
    const SheetPlan& plan = in.plan;
    const Extent extent = extent_of(outline);
    const Length exact_length = extent.high.up - extent.low.up;
    const Length exact_width = extent.high.along - extent.low.along;
    const bool full_strip = extent.low.along == lane.reach.low.along && extent.high.along == lane.reach.high.along;
    const bool slanted = !is_rectangle(outline, extent, plan.tick);
    const bool whole = !slanted && magnitude(exact_length - plan.sheet.length) < count_tolerance &&
                       magnitude(exact_width - plan.sheet.width) < count_tolerance;
    const Length length = lane.lengths.cut(extent.low.up, extent.high.up, plan.sheet.length);
    const Length width = full_strip ? lane.cut_width : round_to_tick(exact_width, plan.tick);
    find_slivers(plan, extent, sheets.pieces.size(), in.frame, sheets.findings);
    sheets.pieces.push_back({lane.number, place, in.frame.outline_to_plane(outline), length, width, whole, slanted});
    sheets.laid += signed_area(outline);
    sheets.whole_sheets += whole ? 1 : 0;
}

/// Lays one lane, from the start to the far edge of its strip.
inline void lay_lane(const LaneInput& in, Lane& lane, Sheets& sheets) {
    const Span along{lane.reach.low.along, lane.reach.high.along};
    std::vector<PlanePoint> before;
    Length before_end = no_length;
    std::int32_t place = 0;
    for (const Span& span : lane_spans(in, lane.number, along, lane.reach.high.up)) {
        std::vector<PlanePoint> outline = clip_up(lane.strip, span);
        if (outline.size() < 3 || square_inches(signed_area(outline)) <= 0.0) {
            continue;
        }
        add_piece(in, lane, place, outline, sheets);
        const std::size_t index = sheets.pieces.size() - 1;
        if (place == 0) {
            judge_edge(in, outline, index, -1.0, sheets);
        } else {
            judge_joint(in, before, before_end, span.low, index, sheets);
        }
        before = std::move(outline);
        before_end = span.high;
        ++place;
    }
    if (place > 0) {
        judge_edge(in, before, sheets.pieces.size() - 1, 1.0, sheets);
        sheets.closure.worst_lane = longer(sheets.closure.worst_lane, magnitude(lane.lengths.miss()));
    }
}

/// Lays the whole outline. Positions are absolute from the start corner, so that joints stay on the same supports
/// in every lane even where an edge is slanted.
[[nodiscard]] inline Sheets lay_outline(const LaneInput& in, SupportRun run) {
    const Length step = in.plan.sheet.width + in.plan.gap;
    const std::int64_t lanes = steps_to_cover(in.extent.high.along - in.extent.low.along, step);
    const std::int64_t places = 2 + steps_to_cover(in.extent.high.up - in.extent.low.up, in.plan.sheet.length);
    if (lanes * places > most_pieces) {
        throw FaultError{Fault{FaultCode::too_much_work, "sheets", std::to_string(lanes * places) + " pieces",
                               "no more than " + std::to_string(most_pieces) + " pieces"}};
    }
    Sheets sheets{.run = run,
                  .lanes = static_cast<std::int32_t>(lanes),
                  .pieces = {},
                  .joints = {},
                  .findings = {},
                  .laid = Area::from_value(0.0),
                  .whole_sheets = 0,
                  .closure = {no_length, no_length}};
    sheets.pieces.reserve(static_cast<std::size_t>(lanes * places));
    RoundedAxis width_axis{in.extent.low.along, in.plan.gap, in.plan.tick};
    for (std::int64_t lane = 0; lane < lanes; ++lane) {
        const Length from = in.extent.low.along + step * static_cast<double>(lane);
        const Length to = shorter(from + in.plan.sheet.width, in.extent.high.along);
        const std::vector<PlanePoint> strip = clip_along(in.outline, {from, to});
        if (strip.size() < 3) {
            continue;
        }
        const Extent reach = extent_of(strip);
        const Length cut_width = width_axis.cut(reach.low.along, reach.high.along, in.plan.sheet.width);
        Lane laid{
            static_cast<std::int32_t>(lane), strip, reach, cut_width, {in.extent.low.up, in.plan.gap, in.plan.tick}};
        lay_lane(in, laid, sheets);
    }
    sheets.closure.across = magnitude(width_axis.miss());
    return sheets;
}

/// The outline that the sheets fill: the plane's, its eave pushed out past the fascia along the rakes.
[[nodiscard]] inline std::vector<PlanePoint> sheet_outline(const std::vector<PlanePoint>& outline, Length past_fascia) {
    std::vector<PlanePoint> result = outline;
    const auto pushed = [&](PlanePoint eave, PlanePoint ridge) {
        const double share = past_fascia / (ridge.up - eave.up);
        return PlanePoint{eave.along - (ridge.along - eave.along) * share, eave.up - past_fascia};
    };
    result[0] = pushed(outline[0], outline[3]);
    result[1] = pushed(outline[1], outline[2]);
    return result;
}

template <Surface surface>
void require_sheetable(const Plane<surface>& plane, const Supports<surface>& supports) {
    require_four_sided(plane);
    if (!plane.openings.empty()) {
        throw FaultError{Fault{FaultCode::not_supported, "plane.openings",
                               std::to_string(plane.openings.size()) + " openings", "a plane without openings"}};
    }
    if (supports.lines.empty()) {
        throw FaultError{Fault{FaultCode::not_supported, "supports", "no supports", "at least one support"}};
    }
    require_sound(supports, "supports");
}
}  // namespace detail

/// Lays sheets on a rectangular or measured four-sided plane, their strength axis across the supports: columns up the
/// slope over purlins, courses along the eave over chords. Outlines are exact; cut sizes are rounded to the tick so
/// that they still add up, and what they miss is in `closure`. Past the last piece of a lane no more than a gap and half
/// a tick stay bare.
///
/// Throws `FaultError`: the first fault of `plan` or `supports`; not_supported for other planes or no supports;
/// does_not_fit where the stagger leaves nothing of a sheet; too_much_work above `most_pieces`.
template <Surface surface>
[[nodiscard]] Sheets tile_sheets(const Plane<surface>& plane, const Supports<surface>& supports,
                                 const SheetPlan& plan) {
    require_sound(plan, "sheets");
    detail::require_sheetable(plane, supports);
    if (plan.sheet.length - supports.spacing * plan.stagger_spaces < plan.gap + count_tolerance) {
        throw FaultError{Fault{FaultCode::does_not_fit, "sheets.stagger_spaces", std::to_string(plan.stagger_spaces),
                               "fewer spaces of " + describe_length(supports.spacing) + " than a sheet is long"}};
    }
    const std::vector<PlanePoint> outline = detail::sheet_outline(plane.outline, plan.past_fascia);
    const Extent extent = extent_of(outline);
    const detail::LaneFrame frame{supports.run == SupportRun::up_slope, plan.start == StartCorner::eave_right,
                                  extent.low.along + extent.high.along};
    detail::LaneInput in{frame.outline_to_lane(outline),
                         detail::lines_to_lane(supports.lines, frame),
                         supports.spacing,
                         plan,
                         extent,
                         frame,
                         frame.swapped && frame.mirrored};
    in.extent = extent_of(in.outline);
    return detail::lay_outline(in, supports.run);
}

/// The same on purlin rows.
[[nodiscard]] inline Sheets tile_sheets(const PurlinPlane& plane, const PurlinRows& rows, const SheetPlan& plan) {
    return tile_sheets(plane, supports_of(rows), plan);
}

}  // namespace eavewright
