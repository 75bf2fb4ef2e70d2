// SPDX-License-Identifier: BSL-1.0
#pragma once

// What holds the long edges of sheets between supports: whether the span asks for it, how many clips or blocks, and where clips
// would show through steel that lies on the sheets.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/piece_edges.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/span_rating.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace eavewright {

/// What can hold two long edges flush between supports.
enum class EdgeHold {
    clips,              ///< metal clips between the edges; they stand above the sheets by their own metal
    tongue_and_groove,  ///< milled into the sheets
    blocking,           ///< lumber under the edges, from support to support
};
template <>
struct NamesOf<EdgeHold> {
    static constexpr std::array<std::string_view, 3> list{"clips", "tongue_and_groove", "blocking"};
};

/// What is asked about the long edges of a deck.
struct EdgeSupportPlan {
    WidestSpans spans;  ///< of the sheets' rating
    EdgeHold hold = EdgeHold::clips;
    bool steel_on_deck = false;  ///< panels lie right on the deck or on a thin underlayment over it
    /// From this span on two clips a space, below it one in the middle; APA practice, from memory.
    Length two_clips_from = Length::from_inches(48.0);
    Length block_thickness = Length::from_inches(1.5);
    Tick tick = Tick::of_inch(16);
};

/// A space between two supports under a long edge between two lanes.
struct EdgeSpace {
    std::size_t below;  ///< index of the support at its lower end, in the order of the supports
    PlanePoint from;    ///< on the edge, over the middle of the one support
    PlanePoint to;      ///< over the middle of the next
    Length clear;       ///< between the supports
};
template <>
struct FieldsOf<EdgeSpace> {
    static constexpr auto list =
        field_list(field("below", FieldUnit::count, "index of the support at its start", &EdgeSpace::below),
                   field("from", FieldUnit::length, "on the edge, over that support", &EdgeSpace::from),
                   field("to", FieldUnit::length, "over the next support", &EdgeSpace::to),
                   field("clear", FieldUnit::length, "clear between the supports", &EdgeSpace::clear));
};

/// What the long edges of a deck need.
struct EdgeSupport {
    Length span;          ///< widest space between two supports under a long edge, middle to middle
    bool needed;          ///< the span is wider than free edges allow
    bool too_wide;        ///< it is wider than held edges allow
    bool shows_in_steel;  ///< clips were asked for under steel: blocking is counted instead
    EdgeHold hold;        ///< what is counted
    std::vector<EdgeSpace> spaces;
    std::int64_t clips;
    std::vector<Length> blocks;  ///< cut lengths, rounded down, in the order of the spaces
    bool unverified;             ///< as the spans
};
template <>
struct FieldsOf<EdgeSupport> {
    static constexpr auto list = field_list(
        field("span", FieldUnit::length, "widest space under a long edge, middle to middle", &EdgeSupport::span),
        field("needed", FieldUnit::none, "wider than free edges allow", &EdgeSupport::needed),
        field("too_wide", FieldUnit::none, "wider than held edges allow", &EdgeSupport::too_wide),
        field("shows_in_steel", FieldUnit::none, "clips would show through the steel; blocking is counted",
              &EdgeSupport::shows_in_steel),
        field("hold", FieldUnit::none, "what is counted", &EdgeSupport::hold),
        field("clips", FieldUnit::count, "clips in all", &EdgeSupport::clips),
        field("blocks", FieldUnit::length, "cut lengths of blocks", &EdgeSupport::blocks),
        field("spaces", FieldUnit::none, "spaces between supports along the long edges", &EdgeSupport::spaces),
        field("unverified", FieldUnit::none, "the spans were not read off the code or the maker's sheet",
              &EdgeSupport::unverified));
};

inline void find_faults(const EdgeSupportPlan& plan, const Path& path, Faults& faults) {
    const Length most = Length::from_feet(10.0);
    require_within(plan.spans.edges_held, one_inch, most, Path{path, "spans.edges_held"}, faults);
    require_within(plan.spans.edges_free, one_inch, most, Path{path, "spans.edges_free"}, faults);
    require_within(plan.two_clips_from, one_inch, most, Path{path, "two_clips_from"}, faults);
    require_within(plan.block_thickness, one_inch / 4.0, one_inch * 12.0, Path{path, "block_thickness"}, faults);
}

namespace detail {
/// The spaces under one long edge, from support to support. An edge that covers less than half of a space needs nothing there.
template <Surface surface>
void add_edge_spaces(const Supports<surface>& supports, const PieceEdge& edge, std::vector<EdgeSpace>& spaces) {
    const bool rows = supports.run == SupportRun::along_eave;
    const auto cross = [&](PlanePoint p) { return rows ? p.up : p.along; };
    const auto main = [&](PlanePoint p) { return rows ? p.along : p.up; };
    const bool forward = cross(edge.from) < cross(edge.to);
    const PlanePoint low = forward ? edge.from : edge.to;
    const PlanePoint high = forward ? edge.to : edge.from;
    const Length at = (main(low) + main(high)) / 2.0;
    std::size_t below = supports.lines.size();
    for (std::size_t i = 0; i < supports.lines.size(); ++i) {
        const SupportLine& line = supports.lines[i];
        if (!runs_at(line.stretches, at)) {
            continue;
        }
        if (below < supports.lines.size()) {
            const SupportLine& first = supports.lines[below];
            const Length from = rows ? up_at(first.centreline, at) : along_at(first.centreline, at);
            const Length to = rows ? up_at(line.centreline, at) : along_at(line.centreline, at);
            const Length covered = shorter(cross(high), to) - longer(cross(low), from);
            if (covered * 2.0 > to - from) {
                const auto point = [&](Length c) { return rows ? PlanePoint{at, c} : PlanePoint{c, at}; };
                spaces.push_back({below, point(from), point(to), to - from - (first.width + line.width) / 2.0});
            }
        }
        below = i;
    }
}

/// Of the two edges along a gap one counts: the one whose piece lies to the left, or below, of the gap.
[[nodiscard]] inline bool counts_for_gap(const Sheets& sheets, const PieceEdge& edge) {
    return sheets.run == SupportRun::along_eave ? edge.to.up > edge.from.up : edge.to.along < edge.from.along;
}
}  // namespace detail

/// What the long edges of a deck need between their supports. A space counts where a long edge covers at least half of it.
/// Where two end joints share a space each edge is weighed on its own, so that no space counts twice.
/// Throws `FaultError` with the first fault of `plan` or `supports`.
///
/// Preliminary: the rating on the sheet, its maker's sheet and the local code decide.
[[nodiscard]] inline EdgeSupport edge_support(const Sheets& sheets, const PurlinPlane& plane,
                                              const Supports<Surface::purlin_top>& supports,
                                              const SheetPlan& sheet_plan, const EdgeSupportPlan& plan) {
    require_sound(plan, "edge_support");
    require_sound(supports, "supports");
    EdgeSupport result{no_length, false, false, false, plan.hold, {}, 0, {}, plan.spans.unverified};
    for (const PieceEdge& edge : piece_edges(sheets, plane, sheet_plan)) {
        if (edge.rest == EdgeRest::between_supports && detail::counts_for_gap(sheets, edge)) {
            detail::add_edge_spaces(supports, edge, result.spaces);
        }
    }
    for (const EdgeSpace& space : result.spaces) {
        result.span = longer(result.span, longer(space.to.up - space.from.up, space.to.along - space.from.along));
    }
    result.needed = result.span > plan.spans.edges_free + count_tolerance;
    result.too_wide = result.span > plan.spans.edges_held + count_tolerance;
    if (!result.needed) {
        return result;
    }
    result.shows_in_steel = plan.hold == EdgeHold::clips && plan.steel_on_deck;
    result.hold = result.shows_in_steel ? EdgeHold::blocking : plan.hold;
    for (const EdgeSpace& space : result.spaces) {
        const Length span = longer(space.to.up - space.from.up, space.to.along - space.from.along);
        if (result.hold == EdgeHold::clips) {
            result.clips += span + count_tolerance >= plan.two_clips_from ? 2 : 1;
        } else if (result.hold == EdgeHold::blocking) {
            result.blocks.push_back(round_down_to_tick(space.clear, plan.tick));
        }
    }
    return result;
}

}  // namespace eavewright
