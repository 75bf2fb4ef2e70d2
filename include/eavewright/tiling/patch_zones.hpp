// SPDX-License-Identifier: BSL-1.0
#pragma once

// Where a deck is cut around what is ruined: over the middles of supports, so that enough of old and new is left. Works in the
// lane frame (lane_frame.hpp).

#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/bearing.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/sheet_patch.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// What a deck is patched from; all in the lane frame.
struct PatchInput {
    const Sheets& sheets;
    const PatchPlan& plan;
    LaneFrame frame;
    std::vector<SupportLine> lines;
    std::vector<PlanePart> pieces;
    std::vector<Extent> boxes;
    std::vector<std::optional<Span>> ruined;  ///< of each piece, along its lane
};

/// An end of a new piece: where the old piece ends, or over the middle of a support.
struct PatchEnd {
    Length at;
    std::optional<std::size_t> support;
};
struct PatchZone {
    PatchEnd low;
    PatchEnd high;
};

/// How many spaces between supports a piece bridges, by the supports under the middle of its lane.
[[nodiscard]] inline int spaces_under(const PatchInput& in, const Extent& lane, Length low, Length high) {
    const Length middle = (lane.low.along + lane.high.along) / 2.0;
    int supports = 0;
    for (const SupportLine& line : in.lines) {
        const Length up = up_at(line.centreline, middle);
        supports += has_wood_at(line, middle) && up + line.width / 2.0 > low + count_tolerance &&
                            up - line.width / 2.0 < high - count_tolerance
                        ? 1
                        : 0;
    }
    return supports > 0 ? supports - 1 : 0;
}

/// The ends that a new piece in `piece` can have below (`outward` -1) or above the damage, each with enough bearing for both.
[[nodiscard]] inline std::vector<PatchEnd> patch_ends(const PatchInput& in, std::size_t piece, double outward) {
    const Extent& box = in.boxes[piece];
    const Span along{box.low.along, box.high.along};
    const Length half_gap = in.plan.sheets.gap / 2.0;
    const Length least = in.plan.sheets.least_bearing - count_tolerance;
    std::vector<PatchEnd> ends{{outward > 0.0 ? box.high.up : box.low.up, std::nullopt}};
    for (std::size_t i = 0; !in.plan.whole_sheets && i < in.lines.size(); ++i) {
        const Length centre = up_at(in.lines[i].centreline, (along.low + along.high) / 2.0);
        const bool clear = outward > 0.0 ? centre >= in.ruined[piece]->high : centre <= in.ruined[piece]->low;
        if (clear && centre - half_gap > box.low.up && centre + half_gap < box.high.up &&
            end_bearing(in.lines[i], centre - half_gap, along, 1.0) >= least &&
            end_bearing(in.lines[i], centre + half_gap, along, -1.0) >= least) {
            ends.push_back({centre - half_gap * outward, i});
        }
    }
    return ends;
}

/// What of a piece lies beyond an end of the patch.
[[nodiscard]] inline std::vector<PlanePart> parts_beyond(const PatchInput& in, std::size_t piece, const PatchEnd& end,
                                                         double outward) {
    const Extent& box = in.boxes[piece];
    const Length edge = end.at + in.plan.sheets.gap * outward;
    return parts_up(in.pieces[piece].outline, in.pieces[piece].cutouts,
                    outward > 0.0 ? Span{edge, box.high.up + one_inch} : Span{box.low.up - one_inch, edge});
}

/// Whether nothing of a piece stays beyond an end of the patch, or enough of it.
[[nodiscard]] inline bool leaves_enough(const PatchInput& in, std::size_t piece, const PatchEnd& end, double outward) {
    if (!end.support) {
        return true;
    }
    const std::vector<PlanePart> parts = parts_beyond(in, piece, end, outward);
    return std::all_of(parts.begin(), parts.end(), [&](const PlanePart& part) {
        const Extent box = extent_of(part.outline);
        return box.high.up - box.low.up + count_tolerance >= in.plan.sheets.sliver &&
               spaces_under(in, box, box.low.up, box.high.up) >= in.plan.least_spaces;
    });
}

/// The shortest new piece from one in `first` to one in `last`; none where nothing shorter than all of them will do and they
/// are longer than a sheet.
[[nodiscard]] inline std::optional<PatchZone> best_zone(const PatchInput& in, std::size_t first, std::size_t last) {
    std::optional<PatchZone> best;
    const Length stock = longer(in.plan.sheets.sheet.length, in.boxes[first].high.up - in.boxes[first].low.up);
    const Length most = first == last ? stock : in.plan.sheets.sheet.length;
    for (const PatchEnd& low : patch_ends(in, first, -1.0)) {
        for (const PatchEnd& high : patch_ends(in, last, 1.0)) {
            const Length size = high.at - low.at;
            const bool all = !low.support && !high.support;
            const bool enough = size + count_tolerance >= in.plan.sheets.sliver &&
                                spaces_under(in, in.boxes[first], low.at, high.at) >= in.plan.least_spaces;
            if (size <= most + count_tolerance && (all || enough) && leaves_enough(in, first, low, -1.0) &&
                leaves_enough(in, last, high, 1.0) && (!best || size < best->high.at - best->low.at)) {
                best = PatchZone{low, high};
            }
        }
    }
    return best;
}

/// Whether one new piece may lie over both, the joint between them gone.
[[nodiscard]] inline bool may_bridge(const PatchInput& in, std::size_t first, std::size_t second) {
    const auto is_plain = [&](std::size_t piece) {  // to the last digit, for the new piece is drawn as its box
        const Extent& box = in.boxes[piece];
        const Area full = (box.high.along - box.low.along) * (box.high.up - box.low.up);
        return in.pieces[piece].cutouts.empty() && full - net_area(in.pieces[piece]) <= full * 1e-12;
    };
    const auto is_theirs = [&](const EndJoint& joint) {
        return (joint.first == first && joint.second == second) || (joint.first == second && joint.second == first);
    };
    const Extent& a = in.boxes[first];
    const Extent& b = in.boxes[second];
    return std::any_of(in.sheets.joints.begin(), in.sheets.joints.end(), is_theirs) && !in.plan.whole_sheets &&
           in.ruined[first] && in.ruined[second] && is_plain(first) && is_plain(second) &&
           magnitude(a.low.along - b.low.along) < count_tolerance &&
           magnitude(a.high.along - b.high.along) < count_tolerance;
}

template <Surface surface>
[[nodiscard]] PatchInput patch_input(const Sheets& sheets, const Supports<surface>& supports, const PatchPlan& plan,
                                     const std::vector<DamagedArea>& areas) {
    const double cosine = 1.0 / std::sqrt(1.0 + sheets.turn * sheets.turn);
    const LaneFrame frame{sheets.run == SupportRun::up_slope, false, no_length, cosine, sheets.turn * cosine};
    PatchInput in{sheets, plan, frame, lines_to_lane(supports.lines, frame), {}, {}, {}};
    for (const SheetPiece& piece : sheets.pieces) {
        PlanePart part{frame.outline_to_lane(piece.outline), {}};
        for (const std::vector<PlanePoint>& cutout : piece.cutouts) {
            part.cutouts.push_back(frame.outline_to_lane(cutout));
        }
        in.boxes.push_back(extent_of(part.outline));
        std::optional<Span> ruined;
        for (const DamagedArea& area : areas) {
            // On a turned grid its box: a little more than the area.
            const Extent box = extent_of(frame.outline_to_lane(
                {area.low, {area.high.along, area.low.up}, area.high, {area.low.along, area.high.up}}));
            const Extent& mine = in.boxes.back();
            if (box.low.up >= mine.high.up || mine.low.up >= box.high.up || box.low.along >= mine.high.along ||
                mine.low.along >= box.high.along) {
                continue;
            }
            for (const PlanePart& over : parts_up(part.outline, part.cutouts, {box.low.up, box.high.up})) {
                for (const PlanePart& hurt : parts_along(over.outline, over.cutouts, {box.low.along, box.high.along})) {
                    const Extent reach = extent_of(hurt.outline);
                    ruined = ruined ? Span{shorter(ruined->low, reach.low.up), longer(ruined->high, reach.high.up)}
                                    : Span{reach.low.up, reach.high.up};
                }
            }
        }
        in.ruined.push_back(ruined);
        in.pieces.push_back(std::move(part));
    }
    return in;
}

}  // namespace eavewright::detail
