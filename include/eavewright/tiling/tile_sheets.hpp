// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lays sheets on a plane of any outline: lane by lane, each piece named and placed, each end joint judged where it lands.

#include <eavewright/fault.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/outline.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/bearing.hpp>
#include <eavewright/tiling/judge_pieces.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/rounded_axis.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// Most pieces that one plane is laid with; a million of them take about 250 MB.
inline constexpr std::int64_t most_pieces = 2'000'000;

namespace detail {

/// Where a sheet from `start` ends that is cut back to the last support it reaches, the gap centred on the support; where
/// it lies whole if it reaches none.
[[nodiscard]] inline Length cut_back(const LaneInput& in, Length start, Length length, Length along) {
    const Length half_gap = in.plan.gap / 2.0;
    const Length whole = start + length;
    std::optional<std::size_t> last = last_support_below(in.lines, along, whole + half_gap + count_tolerance);
    while (last && !has_wood_at(in.lines[*last], along)) {
        last = *last > 0 ? std::optional<std::size_t>{*last - 1} : std::nullopt;
    }
    const Length back = last ? up_at(in.lines[*last].centreline, along) - half_gap : start;
    return back > start ? back : whole;
}

/// A lane being laid: its strip of the outline, and the rounding along it.
struct Lane {
    std::int32_t number;
    Extent reach;      ///< of the strip
    Length start;      ///< of its first sheet
    Length cut_width;  ///< of a piece as wide as the strip
    RoundedAxis lengths;
};

/// The exact ends of the sheets of one lane, before they are cut to the outline.
inline void find_spans(const LaneInput& in, const Lane& lane, std::vector<Span>& spans) {
    const SheetPlan& plan = in.plan;
    const Length middle = (lane.reach.low.along + lane.reach.high.along) / 2.0;
    const Length top = lane.reach.high.up;
    const int spaces = plan.start_spaces + (lane.number % 2 == 1 ? plan.stagger_spaces : 0);
    spans.clear();
    Length start = lane.start;
    Length length = plan.sheet.length - (spaces > 0 ? in.spacing * spaces : no_length);
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
}

/// What laying works in, kept from piece to piece so that little is allocated.
struct LayRoom {
    CutRoom cut;
    Rings ahead;  ///< what no lane has taken yet
    Rings strip;  ///< what is left of the lane
    Rings cell;   ///< one sheet's place in it
    Rings spare;
    std::vector<Span> spans;
    std::vector<PlanePart> parts;
    std::vector<LaidEnd> open;   ///< upper ends that wait for the next sheet
    std::vector<LaidEnd> below;  ///< the same, of the sheet before
};

/// The box that a strip is, where it is nothing but a box.
[[nodiscard]] inline std::optional<Extent> box_of_strip(const Rings& strip) {
    if (strip.ends.size() != 1 || strip.points.size() != 4) {
        return std::nullopt;
    }
    const Extent box = extent_of(strip.points);
    for (const PlanePoint& p : strip.points) {
        if ((p.along != box.low.along && p.along != box.high.along) || (p.up != box.low.up && p.up != box.high.up)) {
            return std::nullopt;
        }
    }
    return box;
}

/// Where sheets of a lane are cut from: its strip of the plane, most often a box.
class StripCutter {
public:
    StripCutter(Rings& strip, LayRoom& room)
        : strip_{&strip}, room_{&room}, is_box_{false}, box_{{no_length, no_length}, {no_length, no_length}} {
        if (const std::optional<Extent> box = box_of_strip(strip)) {
            is_box_ = true;
            box_ = *box;
        }
    }

    /// What lies below `high` goes to the room's cell; what lies above `next`, if anything is to come, stays.
    void cut(Length high, const Length* next) {
        if (is_box_) {
            const Extent cell{box_.low, {box_.high.along, shorter(high, box_.high.up)}};
            room_->cell.clear();
            if (cell.high.up > cell.low.up) {
                room_->cell.points = {
                    cell.low, {cell.high.along, cell.low.up}, cell.high, {cell.low.along, cell.high.up}};
                room_->cell.ends.push_back(4);
            }
            box_.low.up = next != nullptr ? longer(*next, box_.low.up) : box_.high.up;
            return;
        }
        keep_side(*strip_, {Axis::up, high, false}, room_->cell, room_->cut);
        if (next != nullptr) {
            keep_side(*strip_, {Axis::up, *next, true}, room_->spare, room_->cut);
            std::swap(*strip_, room_->spare);
        }
    }

private:
    Rings* strip_;
    LayRoom* room_;
    bool is_box_;  // no optional: g++ 12 takes what it holds for uninitialized at -O3
    Extent box_;
};

/// Each outline from its lowest corner, the left one of two.
inline void start_lowest(std::vector<PlanePoint>& outline) {
    const auto first = std::min_element(outline.begin(), outline.end(), [](const PlanePoint& a, const PlanePoint& b) {
        return a.up < b.up || (a.up == b.up && a.along < b.along);
    });
    if (first != outline.begin()) {
        std::rotate(outline.begin(), first, outline.end());
    }
}

/// The parts of a cell, from left to right; those after the first `count` of `parts` are kept for their room alone.
inline std::size_t find_parts(const Rings& cell, std::vector<PlanePart>& parts) {
    if (cell.ends.size() == 1) {
        parts.resize(parts.empty() ? 1 : parts.size());
        parts[0].cutouts.clear();
        parts[0].outline.assign(cell.points.begin(), cell.points.end());
        start_lowest(parts[0].outline);
        return twice_area(cell.points.data(), cell.points.size()) > 0.0 ? 1 : 0;
    }
    parts.clear();
    add_parts(cell, parts);
    for (PlanePart& part : parts) {
        start_lowest(part.outline);
    }
    std::stable_sort(parts.begin(), parts.end(), [](const PlanePart& a, const PlanePart& b) {
        return extent_of(a.outline).low.along < extent_of(b.outline).low.along;
    });
    return parts.size();
}

/// Adds the piece that has this lane-frame part.
inline void add_piece(const LaneInput& in, Lane& lane, std::int32_t place, const PlanePart& part, Sheets& sheets) {
    const SheetPlan& plan = in.plan;
    const Extent extent = extent_of(part.outline);
    const Length exact_length = extent.high.up - extent.low.up;
    const Length exact_width = extent.high.along - extent.low.along;
    const bool full_strip = extent.low.along == lane.reach.low.along && extent.high.along == lane.reach.high.along;
    const bool slanted = !part.cutouts.empty() || !is_rectangle(part.outline, extent, plan.tick);
    const bool whole = !slanted && magnitude(exact_length - plan.sheet.length) < count_tolerance &&
                       magnitude(exact_width - plan.sheet.width) < count_tolerance;
    const Length length = lane.lengths.cut(extent.low.up, extent.high.up, plan.sheet.length);
    const Length width = full_strip ? lane.cut_width : round_to_tick(exact_width, plan.tick);
    const std::size_t index = sheets.pieces.size();
    find_slivers(plan, extent, index, in.frame, sheets.findings);
    SheetPiece piece{lane.number, place, in.frame.outline_to_plane(part.outline), length, width, whole, slanted, {}};
    for (const std::vector<PlanePoint>& cutout : part.cutouts) {
        piece.cutouts.push_back(in.frame.outline_to_plane(cutout));
    }
    sheets.pieces.push_back(std::move(piece));
    sheets.laid += net_area(part);
    sheets.whole_sheets += whole ? 1 : 0;
    if (slanted && (!part.cutouts.empty() || part.outline.size() > 4)) {
        find_narrow_legs(plan, part, index, in.frame, sheets.findings);
        judge_inner_edges(in, part, index, sheets);
    }
}

/// Matches the lower edges of a new piece with the upper edges below it; judges its lower end as an outer one where none meets.
inline void join_below(const LaneInput& in, const PlanePart& part, std::size_t index, Length low, Length below_end,
                       LayRoom& room, Sheets& sheets) {
    bool joined = false;
    std::size_t over_count = 0;
    for_level_edges(part.outline, low, false, [&](const Span&) { ++over_count; });
    for_level_edges(part.outline, low, false, [&](const Span& over) {
        for (LaidEnd& end : room.below) {
            const Span under = end.edge.value_or(over);
            const Span both{longer(under.low, over.low), shorter(under.high, over.high)};
            if (end.edge && both.high > both.low) {
                const bool alone = over_count == 1 && room.below.size() == 1;
                judge_joint(in, end.piece, index, below_end, low, alone ? under : both, sheets);
                end.joined = joined = true;
            }
        }
    });
    if (!joined) {
        const Extent extent = extent_of(part.outline);
        judge_edge(in, index, extent.low.up, edge_at(part.outline, extent.low.up), extent.high.up - extent.low.up, -1.0,
                   sheets);
    }
}

/// Judges the upper ends of pieces that no other met.
inline void close_ends(const LaneInput& in, const std::vector<LaidEnd>& ends, Sheets& sheets) {
    for (std::size_t i = 0; i < ends.size();) {
        const std::size_t piece = ends[i].piece;
        bool joined = false;
        for (; i < ends.size() && ends[i].piece == piece; ++i) {
            joined = joined || ends[i].joined;
        }
        if (!joined) {
            const std::vector<PlanePoint> outline = in.frame.outline_to_lane(sheets.pieces[piece].outline);
            const Extent extent = extent_of(outline);
            judge_edge(in, piece, extent.high.up, edge_at(outline, extent.high.up), extent.high.up - extent.low.up, 1.0,
                       sheets);
        }
    }
}

/// Lays one lane, from its start to the farthest edge of its strip.
inline void lay_lane(const LaneInput& in, Lane& lane, LayRoom& room, Sheets& sheets) {
    find_spans(in, lane, room.spans);
    room.open.clear();
    Length below_end = no_length;
    std::int32_t place = 0;
    StripCutter cutter{room.strip, room};
    for (std::size_t s = 0; s < room.spans.size(); ++s) {
        const Span span = room.spans[s];
        cutter.cut(span.high, s + 1 < room.spans.size() ? &room.spans[s + 1].low : nullptr);
        const std::size_t count = find_parts(room.cell, room.parts);
        std::swap(room.open, room.below);
        room.open.clear();
        for (std::size_t i = 0; i < count; ++i) {
            const PlanePart& part = room.parts[i];
            const std::size_t index = sheets.pieces.size();
            add_piece(in, lane, place++, part, sheets);
            join_below(in, part, index, span.low, below_end, room, sheets);
            const std::size_t before = room.open.size();
            for_level_edges(part.outline, span.high, true, [&](const Span& edge) {
                room.open.push_back({index, edge, false});
            });
            if (room.open.size() == before) {
                room.open.push_back({index, std::nullopt, false});
            }
        }
        close_ends(in, room.below, sheets);
        below_end = span.high;
    }
    close_ends(in, room.open, sheets);
    if (place > 0) {
        sheets.closure.worst_lane = longer(sheets.closure.worst_lane, magnitude(lane.lengths.miss()));
    }
}

[[nodiscard]] inline std::int64_t require_few_lanes(const LaneInput& in) {
    const Length step = in.plan.sheet.width + in.plan.gap;
    const Length across = in.extent.high.along - in.extent.low.along;
    const std::int64_t lanes = steps_to_cover(across + in.plan.rip_first, step);
    const std::int64_t places = 2 + steps_to_cover(in.extent.high.up - in.extent.low.up, in.plan.sheet.length);
    if (lanes * places > most_pieces) {
        throw FaultError{Fault{FaultCode::too_much_work, "sheets", std::to_string(lanes * places) + " pieces",
                               "no more than " + std::to_string(most_pieces) + " pieces"}};
    }
    return lanes;
}

/// Lays the whole outline. Positions are absolute from the start corner, so that joints stay on the same supports
/// in every lane even where an edge is slanted; in a turned grid they count from each lane's own lowest point.
[[nodiscard]] inline Sheets lay_outline(const LaneInput& in, SupportRun run) {
    const std::int64_t lanes = require_few_lanes(in);
    Sheets sheets{.run = run,
                  .lanes = static_cast<std::int32_t>(lanes),
                  .pieces = {},
                  .joints = {},
                  .findings = {},
                  .laid = Area::from_value(0.0),
                  .whole_sheets = 0,
                  .closure = {no_length, no_length},
                  .turn = in.plan.turn};
    const Length step = in.plan.sheet.width + in.plan.gap;
    RoundedAxis width_axis{in.extent.low.along, in.plan.gap, in.plan.tick};
    const std::int64_t places = 2 + steps_to_cover(in.extent.high.up - in.extent.low.up, in.plan.sheet.length);
    sheets.pieces.reserve(static_cast<std::size_t>(lanes * places < 100'000 ? lanes * places : 100'000));
    LayRoom room;
    room.ahead = rings_of(in.outline, in.openings);
    for (std::int64_t lane = 0; lane < lanes; ++lane) {
        const Length from = in.extent.low.along + (step * static_cast<double>(lane) - in.plan.rip_first);
        const Length to = from + in.plan.sheet.width;
        if (lane > 0) {
            keep_side(room.ahead, {Axis::along, from, true}, room.spare, room.cut);
            std::swap(room.ahead, room.spare);
        }
        keep_side(room.ahead, {Axis::along, to, false}, room.strip, room.cut);
        if (room.strip.points.empty()) {
            continue;
        }
        const Extent reach = extent_of(room.strip.points);
        const Length cut_width = width_axis.cut(reach.low.along, reach.high.along, in.plan.sheet.width);
        const Length start = in.plan.turn == 0.0 ? in.extent.low.up : reach.low.up;
        Lane laid{static_cast<std::int32_t>(lane), reach, start, cut_width, {start, in.plan.gap, in.plan.tick}};
        lay_lane(in, laid, room, sheets);
    }
    sheets.closure.across = magnitude(width_axis.miss());
    return sheets;
}

/// The outline that the sheets fill: the plane's, its eaves pushed out past the fascia along the edges beside them.
[[nodiscard]] inline std::vector<PlanePoint> sheet_outline(const std::vector<PlanePoint>& outline,
                                                           const std::vector<EdgeKind>& edges, Length past_fascia) {
    std::vector<PlanePoint> result = outline;
    const std::size_t n = outline.size();
    if (past_fascia == no_length) {
        return result;
    }
    const auto pushed = [&](PlanePoint eave, PlanePoint beside) {
        if (!(beside.up > eave.up)) {
            return PlanePoint{eave.along, eave.up - past_fascia};
        }
        const double share = past_fascia / (beside.up - eave.up);
        return PlanePoint{eave.along - (beside.along - eave.along) * share, eave.up - past_fascia};
    };
    const bool four = n == 4 && is_convex(outline);
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t next = (i + 1) % n;
        if (four ? i == 0 : edges[i] == EdgeKind::eave && outline[next].along > outline[i].along) {
            result[i] = pushed(outline[i], outline[(i + n - 1) % n]);
            result[next] = pushed(outline[next], outline[(i + 2) % n]);
        }
    }
    return result;
}

template <Surface surface>
void require_sheetable(const Plane<surface>& plane, const Supports<surface>& supports) {
    if (is_four_sided(plane)) {
        require_four_sided(plane);
    }
    if (!is_four_sided(plane) || !plane.openings.empty()) {
        require_outline(plane);
    }
    if (supports.lines.empty()) {
        throw FaultError{Fault{FaultCode::not_supported, "supports", "no supports", "at least one support"}};
    }
    require_sound(supports, "supports");
}

[[nodiscard]] inline LaneFrame lane_frame(SupportRun run, const SheetPlan& plan,
                                          const std::vector<PlanePoint>& outline) {
    LaneFrame frame{run == SupportRun::up_slope, false, no_length};
    if (plan.turn != 0.0) {
        frame.cosine = 1.0 / std::sqrt(1.0 + plan.turn * plan.turn);
        frame.sine = plan.turn * frame.cosine;
    }
    std::vector<PlanePoint> unturned;
    for (const PlanePoint& p : outline) {
        unturned.push_back(frame.unturned(p));
    }
    const Extent extent = extent_of(unturned);
    frame.mirrored = plan.start == StartCorner::eave_right;
    frame.mirror = extent.low.along + extent.high.along;
    return frame;
}

template <Surface surface>
[[nodiscard]] LaneInput lane_input(const Plane<surface>& plane, const Supports<surface>& supports,
                                   const SheetPlan& plan) {
    const std::vector<PlanePoint> outline = sheet_outline(plane.outline, plane.edges, plan.past_fascia);
    const LaneFrame frame = lane_frame(supports.run, plan, outline);
    LaneInput in{frame.outline_to_lane(outline),
                 {},
                 {},
                 lines_to_lane(supports.lines, frame),
                 supports.spacing,
                 plan,
                 extent_of(outline),
                 frame,
                 frame.swapped && frame.mirrored};
    in.extent = extent_of(in.outline);
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        in.openings.push_back(frame.outline_to_lane(opening));
    }
    for (std::size_t i = 0; i < plane.edges.size() && i < plane.outline.size(); ++i) {
        if (plane.edges[i] == EdgeKind::hip || plane.edges[i] == EdgeKind::valley) {
            in.carried.push_back({frame.to_lane(outline[i]), frame.to_lane(outline[(i + 1) % outline.size()])});
        }
    }
    return in;
}
}  // namespace detail

/// Lays sheets on a plane of any outline, with or without openings, their strength axis across the supports: columns up the
/// slope over purlins, courses along the eave over chords. Outlines are exact; cut sizes are rounded to the tick so
/// that they still add up, and what they miss is in `closure`. Past the last piece of a lane no more than a gap and half
/// a tick stay bare. Edges on hips and valleys are taken as carried by the rafter there.
///
/// Throws `FaultError`: the first fault of `plan` or `supports`; not_supported for an outline that crosses itself, an
/// opening off the plane or no supports; does_not_fit where start and stagger leave nothing of a sheet; too_much_work
/// above `most_pieces`.
template <Surface surface>
[[nodiscard]] Sheets tile_sheets(const Plane<surface>& plane, const Supports<surface>& supports,
                                 const SheetPlan& plan) {
    require_sound(plan, "sheets");
    detail::require_sheetable(plane, supports);
    const int spaces = plan.stagger_spaces + plan.start_spaces;
    if (plan.sheet.length - supports.spacing * spaces < plan.gap + count_tolerance) {
        throw FaultError{Fault{FaultCode::does_not_fit, "sheets.stagger_spaces", std::to_string(spaces),
                               "fewer spaces of " + describe_length(supports.spacing) + " than a sheet is long"}};
    }
    return detail::lay_outline(detail::lane_input(plane, supports, plan), supports.run);
}

/// The same on purlin rows.
[[nodiscard]] inline Sheets tile_sheets(const PurlinPlane& plane, const PurlinRows& rows, const SheetPlan& plan) {
    return tile_sheets(plane, supports_of(rows), plan);
}

}  // namespace eavewright
