// SPDX-License-Identifier: BSL-1.0
#pragma once

// Replaces what is ruined in a deck of sheets, around pieces that stay.
//
//     ____________________ ____        A piece is cut across, from edge to edge, over the middle of a support, so that old and
//    |      |      |      |    |       new bear on half of it each, the gap between them. Of all pairs of supports around the
//    | old  |xnewxx| old  |    |       damage the one that takes out least is cut at, of those that leave enough of both: the
//    |______|______|______|____|       new piece and each old one bridge spaces enough, or nothing of the old one stays.

#include <eavewright/fault.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/bearing.hpp>
#include <eavewright/tiling/judge_pieces.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/patch_zones.hpp>
#include <eavewright/tiling/sheet_patch.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {
[[nodiscard]] inline PlanePart part_to_plane(const LaneFrame& frame, const PlanePart& part) {
    PlanePart result{frame.outline_to_plane(part.outline), {}};
    for (const std::vector<PlanePoint>& cutout : part.cutouts) {
        result.cutouts.push_back(frame.outline_to_plane(cutout));
    }
    return result;
}

/// Whether the piece meets another end to end at its lower (`outward` -1) or upper end.
[[nodiscard]] inline bool meets_another(const PatchInput& in, std::size_t piece, double outward) {
    const Length end = outward > 0.0 ? in.boxes[piece].high.up : in.boxes[piece].low.up;
    for (const EndJoint& joint : in.sheets.joints) {
        const bool mine = joint.first == piece || joint.second == piece;
        const Length at = in.frame.to_lane(joint.from).up;
        if (mine && magnitude(at - end) < in.plan.sheets.gap + one_inch / 16.0) {
            return true;
        }
    }
    return false;
}

/// Judges one end of a new piece that is not cut over a support: it lies where the old piece ended.
inline void judge_patch_end(const PatchInput& in, std::size_t old_piece, const PlanePart& part, Length at,
                            double outward, SheetPatch& patch) {
    const Span along = edge_at(part.outline, at);
    if (!(along.high > along.low)) {
        return;  // a slanted edge of the plane ends it
    }
    const SheetPlan& plan = in.plan.sheets;
    const PlanePoint place = in.frame.to_plane({(along.low + along.high) / 2.0, at});
    const std::size_t piece = patch.pieces.size() - 1;
    if (!meets_another(in, old_piece, outward)) {
        const Length past = past_support(in.lines, at, along, outward);
        if (past > plan.edge_reach + count_tolerance) {
            patch.findings.push_back(
                {PatchFindingCode::edge_past_support, piece, place, past, plan.edge_reach, std::nullopt});
        }
        return;
    }
    Length best = no_length;
    for_supports_near(in.lines, (along.low + along.high) / 2.0, at,
                      [&](std::size_t i) { best = longer(best, end_bearing(in.lines[i], at, along, outward)); });
    if (best <= no_length || best + count_tolerance < plan.least_bearing) {
        const MendingBlock block{in.frame.to_plane({along.low, at}), in.frame.to_plane({along.high, at}),
                                 round_down_to_tick(along.high - along.low, plan.tick)};
        patch.findings.push_back(
            {best > no_length ? PatchFindingCode::narrow_bearing : PatchFindingCode::end_on_nothing, piece, place, best,
             plan.least_bearing, block});
        patch.blocks.push_back(block);
    }
}

/// Puts in one piece, and judges it.
inline void put_in(const PatchInput& in, const PatchZone& zone, const PlanePart& part,
                   const std::vector<std::size_t>& replaces, SheetPatch& patch) {
    const SheetPlan& plan = in.plan.sheets;
    const Extent box = extent_of(part.outline);
    const Length length = box.high.up - box.low.up;
    const Length width = box.high.along - box.low.along;
    const bool slanted = !is_rectangle(part.outline, box, plan.tick);
    const bool whole = !slanted && part.cutouts.empty() && magnitude(length - plan.sheet.length) < count_tolerance &&
                       magnitude(width - plan.sheet.width) < count_tolerance;
    const PlanePart placed = part_to_plane(in.frame, part);
    const int spaces = spaces_under(in, box, box.low.up, box.high.up);
    patch.pieces.push_back({in.sheets.pieces[replaces.front()].lane, replaces, placed.outline, placed.cutouts,
                            whole ? plan.sheet.length : round_down_to_tick(length, plan.tick),
                            whole ? plan.sheet.width : round_down_to_tick(width, plan.tick), whole, slanted, spaces,
                            net_area(part)});
    patch.put_in += net_area(part);
    const PlanePoint middle =
        in.frame.to_plane({(box.low.along + box.high.along) / 2.0, (box.low.up + box.high.up) / 2.0});
    const std::size_t piece = patch.pieces.size() - 1;
    const Length shortest = shorter(length, width);
    if (shortest + count_tolerance < plan.sliver) {
        patch.findings.push_back({PatchFindingCode::sliver, piece, middle, shortest, plan.sliver, std::nullopt});
    }
    if (spaces < in.plan.least_spaces) {
        patch.findings.push_back({PatchFindingCode::few_spaces, piece, middle, one_inch * spaces,
                                  one_inch * in.plan.least_spaces, std::nullopt});
    }
    if (!zone.low.support) {
        judge_patch_end(in, replaces.front(), part, box.low.up, -1.0, patch);
    }
    if (!zone.high.support) {
        judge_patch_end(in, replaces.back(), part, box.high.up, 1.0, patch);
    }
}

/// Cuts an old piece at an end of the patch; what is beyond stays.
inline void cut_old(const PatchInput& in, std::size_t piece, const PatchEnd& end, double outward, SheetPatch& patch) {
    if (!end.support) {
        return;
    }
    const Extent& box = in.boxes[piece];
    const Length edge = end.at + in.plan.sheets.gap * outward;
    for (const PlanePart& part : parts_beyond(in, piece, end, outward)) {
        const Extent reach = extent_of(part.outline);
        PlanePart placed = part_to_plane(in.frame, part);
        patch.stays.push_back({piece, std::move(placed.outline), std::move(placed.cutouts),
                               spaces_under(in, reach, reach.low.up, reach.high.up), net_area(part)});
        patch.taken_out -= net_area(part);
    }
    const Span along{box.low.along, box.high.along};
    const SupportLine& line = in.lines[*end.support];
    patch.cuts.push_back({piece, round_to_tick(edge - box.low.up, in.plan.sheets.tick),
                          in.frame.to_plane({along.low, edge}), in.frame.to_plane({along.high, edge}), *end.support,
                          end_bearing(line, edge, along, -outward), end_bearing(line, end.at, along, outward)});
}

/// Replaces what lies in a zone from one piece to another of its lane, or to itself.
inline void patch_zone(const PatchInput& in, const PatchZone& zone, std::size_t first, std::size_t last,
                       SheetPatch& patch) {
    const Area before = patch.put_in;
    const Area taken = patch.taken_out;
    std::vector<std::size_t> replaces{first};
    patch.taken_out += net_area(in.pieces[first]);
    if (first != last) {
        replaces.push_back(last);
        patch.taken_out += net_area(in.pieces[last]);
        const Extent& box = in.boxes[first];
        patch.closed += (box.high.along - box.low.along) * (in.boxes[last].low.up - box.high.up);
        put_in(in, zone,
               {{{box.low.along, zone.low.at},
                 {box.high.along, zone.low.at},
                 {box.high.along, zone.high.at},
                 {box.low.along, zone.high.at}},
                {}},
               replaces, patch);
    } else if (!zone.low.support && !zone.high.support) {
        put_in(in, zone, in.pieces[first], replaces, patch);
    } else {
        const Length low = zone.low.support ? zone.low.at : zone.low.at - one_inch;
        const Length high = zone.high.support ? zone.high.at : zone.high.at + one_inch;
        for (const PlanePart& part : parts_up(in.pieces[first].outline, in.pieces[first].cutouts, {low, high})) {
            put_in(in, zone, part, replaces, patch);
        }
    }
    if (!zone.low.support && (first != last || !zone.high.support)) {
        patch.whole_out.push_back(first);
    }
    if (first != last && !zone.high.support) {
        patch.whole_out.push_back(last);
    }
    cut_old(in, first, zone.low, -1.0, patch);
    cut_old(in, last, zone.high, 1.0, patch);
    const Area bridged = first != last ? (in.boxes[first].high.along - in.boxes[first].low.along) *
                                             (in.boxes[last].low.up - in.boxes[first].high.up)
                                       : Area::from_value(0.0);
    patch.gaps += (patch.taken_out - taken) + bridged - (patch.put_in - before);
}

/// Two ruined neighbours of a lane become one new piece where that takes no more than two would.
inline void patch_all(const PatchInput& in, SheetPatch& patch) {
    for (std::size_t i = 0; i < in.pieces.size(); ++i) {
        if (!in.ruined[i]) {
            continue;
        }
        patch.damaged.push_back(i);
        const PatchZone one = *best_zone(in, i, i);
        const bool next = i + 1 < in.pieces.size();
        const bool falls = next && in.boxes[i + 1].low.up < in.boxes[i].low.up;  // laid from the far end
        const std::size_t lower = falls ? i + 1 : i;
        const std::size_t upper = falls ? i : i + 1;
        const std::optional<PatchZone> both =
            next && may_bridge(in, lower, upper) ? best_zone(in, lower, upper) : std::nullopt;
        if (both) {
            patch.damaged.push_back(i + 1);
            patch_zone(in, *both, lower, upper, patch);
            ++i;
        } else {
            patch_zone(in, one, i, i, patch);
        }
    }
}
}  // namespace detail

/// The patch that replaces `areas` of a deck. `sheets` is what `tile_sheets` laid on `supports` by `plan.sheets`.
///
/// Every piece that an area touches is cut back to the middles of supports, or comes out whole; of what can be cut, least
/// comes out. Two ruined neighbours of a lane give one new piece where it is no longer than a sheet. New pieces reach from
/// edge to edge of their lane, so that their long edges lie where the old ones lay. Ends that land where a joint lay on
/// nothing, or on too little, get a block and are found.
///
/// Throws `FaultError`: the first fault of `plan`, `supports` or `areas`; not_supported without supports; contradiction for
/// supports that run the other way than those of `sheets`.
template <Surface surface>
[[nodiscard]] SheetPatch patch_sheets(const Sheets& sheets, const Supports<surface>& supports, const PatchPlan& plan,
                                      const std::vector<DamagedArea>& areas) {
    require_sound(plan, "patch");
    require_sound(areas, "areas");
    if (supports.lines.empty()) {
        throw FaultError{Fault{FaultCode::not_supported, "supports", "no supports", "at least one support"}};
    }
    require_sound(supports, "supports");
    if (supports.run != sheets.run) {
        throw FaultError{Fault{FaultCode::contradiction, "supports.run", std::string{name_of(supports.run)},
                               "the run of the supports that the sheets were laid on"}};
    }
    const Area none = Area::from_value(0.0);
    SheetPatch patch{{}, {}, {}, {}, {}, {}, {}, none, none, none, none};
    detail::patch_all(detail::patch_input(sheets, supports, plan, areas), patch);
    return patch;
}

}  // namespace eavewright
