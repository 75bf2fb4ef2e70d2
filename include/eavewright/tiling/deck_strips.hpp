// SPDX-License-Identifier: BSL-1.0
#pragma once

// A deck at the overhangs alone, steel straight on the purlins elsewhere. Where the deck lies, the purlins drop by its
// thickness, so that deck top and purlin tops are one surface and the steel runs over both.
//
//    +--+---------------------+--+  ridge      The eave strip runs from rake to rake, up to the upper side of the first
//    |  |                     |  |             row whose centre lies at or above the wall line. That row drops with it:
//    |LR|  steel on purlins   |RR|             a row cannot lie at two heights, and so the sheet bears on all of it and
//    |  |                     |  |             the steel is screwed to it through the deck. The rake strips begin there,
//    |==+---------------------+==|  row k      on a backing nailed to that row, and reach in to a frame line, on which
//    |          eave             |             the dropped ends of the rows are cut.
//    +---------------------------+  eave

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/frame_faults.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/tile_sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// Where a deck lies that covers the overhangs alone. That strips end on a row's upper side and on frame lines is common
/// practice.
struct DeckStripsPlan {
    Length thickness;               ///< of the deck, by which what lies under it drops, square to the slope
    Length eave_depth;              ///< up-coordinate of the wall line on this surface
    Length rake_depth = no_length;  ///< of both rake overhangs, from the rake edge in; 0 for no deck there
    TailCut tail = TailCut::plumb;
};

/// One strip: a plane of its own, its eave on up = 0 and its left side on along = 0, with what lies under it.
/// Up-coordinates are those of the surface that its sheets lie on: a dropped row keeps its own. Its edges have the kinds of
/// the parent's; those inside the parent are joints with steel or another strip, and take no trim.
template <Surface surface>
struct DeckStrip {
    std::string name;   ///< "eave", "left rake" or "right rake"
    PlanePoint offset;  ///< of its origin in the parent plane
    Plane<surface> plane;
    Supports<surface> supports;
    std::vector<std::size_t> parent_rows;  ///< index in the parent of each of its supports; the backing has that of the
                                           ///< row it is nailed to
    bool backed;  ///< its first support is a backing along its lower edge, for which there is no row
};
template <Surface surface>
struct FieldsOf<DeckStrip<surface>> {
    static constexpr auto list = field_list(
        field("name", FieldUnit::none, "eave, left rake or right rake", &DeckStrip<surface>::name),
        field("offset", FieldUnit::length, "its origin in the parent plane", &DeckStrip<surface>::offset),
        field("plane", FieldUnit::none, "its plane, in its own coordinates", &DeckStrip<surface>::plane),
        field(
            "supports", FieldUnit::none, "what lies under it, in its own coordinates",
            +[](const DeckStrip<surface>& strip) { return strip.supports.lines; }),
        field("parent_rows", FieldUnit::count, "index in the parent of each support", &DeckStrip<surface>::parent_rows),
        field("backed", FieldUnit::none, "its first support is a backing along its lower edge",
              &DeckStrip<surface>::backed));
};

/// A plane with its overhangs decked.
template <Surface surface>
struct DeckStrips {
    std::vector<DeckStrip<surface>> strips;  ///< eave, then left and right rake if asked
    std::vector<PlanePoint> steel;           ///< the rest, where steel lies straight on the purlins; parent coordinates
    std::vector<std::size_t> dropped_rows;   ///< that drop along their whole length, the fascia's among them
    Length drop;                             ///< square to the slope
    Length marks_lower;   ///< how much lower a dropped row's mark on the chord lies than if it had not dropped
    bool rake_ends_drop;  ///< of the other rows, what lies past the frame lines drops too
    Area area;            ///< of all strips
};
template <Surface surface>
struct FieldsOf<DeckStrips<surface>> {
    static constexpr auto list =
        field_list(field("drop", FieldUnit::length, "what lies under the deck drops by this, square to the slope",
                         &DeckStrips<surface>::drop),
                   field("marks_lower", FieldUnit::length, "a dropped row's mark on the chord lies lower by this",
                         &DeckStrips<surface>::marks_lower),
                   field("dropped_rows", FieldUnit::count, "indexes of rows that drop along their whole length",
                         &DeckStrips<surface>::dropped_rows),
                   field("rake_ends_drop", FieldUnit::none, "the other rows drop past the frame lines",
                         &DeckStrips<surface>::rake_ends_drop),
                   field("area", FieldUnit::area, "of all strips", &DeckStrips<surface>::area),
                   field("steel", FieldUnit::length, "outline of where steel lies straight on the purlins",
                         &DeckStrips<surface>::steel),
                   field("strips", FieldUnit::none, "eave, left rake, right rake", &DeckStrips<surface>::strips));
};

inline void find_faults(const DeckStripsPlan& plan, const Path& path, Faults& faults) {
    require_within(plan.thickness, Length::from_inches(0.125), Length::from_inches(12.0), Path{path, "thickness"},
                   faults);
    require_within(plan.eave_depth, one_inch, longest_building, Path{path, "eave_depth"}, faults);
    require_within(plan.rake_depth, no_length, longest_overhang, Path{path, "rake_depth"}, faults);
}

/// A point of a strip in the coordinates of its parent plane.
template <Surface surface>
[[nodiscard]] PlanePoint to_parent(const DeckStrip<surface>& strip, PlanePoint point) {
    return {point.along + strip.offset.along, point.up + strip.offset.up};
}

namespace detail {
template <Surface surface>
void require_rectangle(const Plane<surface>& plane) {
    require_four_sided(plane);
    const std::vector<PlanePoint>& o = plane.outline;
    const Length worst = longer(longer(magnitude(o[3].along - o[0].along), magnitude(o[2].along - o[1].along)),
                                magnitude(o[2].up - o[3].up));
    if (worst > count_tolerance || !plane.openings.empty()) {
        throw FaultError{
            Fault{FaultCode::not_supported, "plane.outline",
                  describe_length(worst) + " out of square, " + std::to_string(plane.openings.size()) + " openings",
                  "a rectangular plane without openings"}};
    }
}

/// The part of a row between two places along it, in coordinates from `origin`.
[[nodiscard]] inline SupportLine row_between(const SupportLine& row, Span along, PlanePoint origin) {
    SupportLine part{{{no_length, up_at(row.centreline, along.low) - origin.up}}, row.width};
    for (const PlanePoint& p : row.centreline) {
        if (p.along > along.low + count_tolerance && p.along < along.high - count_tolerance) {
            part.centreline.push_back({p.along - origin.along, p.up - origin.up});
        }
    }
    part.centreline.push_back({along.high - origin.along, up_at(row.centreline, along.high) - origin.up});
    return part;
}

/// Lowest and highest centre of a row from rake to rake.
[[nodiscard]] inline Span centres_of(const SupportLine& row, Span eave) {
    const SupportLine part = row_between(row, eave, {eave.low, no_length});
    const Extent extent = extent_of(part.centreline);
    return {extent.low.up, extent.high.up};
}

/// A strip over `extent` of the parent, on the rows [from, to).
template <Surface surface>
[[nodiscard]] DeckStrip<surface> strip_over(const Plane<surface>& parent, const Supports<surface>& supports,
                                            std::string name, const Extent& extent, std::size_t from, std::size_t to) {
    const Length along = extent.high.along - extent.low.along;
    const Length up = extent.high.up - extent.low.up;
    DeckStrip<surface> strip{std::move(name),
                             extent.low,
                             parent,
                             Supports<surface>{SupportRun::along_eave, {}, supports.spacing},
                             {},
                             false};
    strip.plane.outline = {{no_length, no_length}, {along, no_length}, {along, up}, {no_length, up}};
    strip.plane.placement.origin = building_point(parent, extent.low);
    for (std::size_t r = from; r < to; ++r) {
        strip.supports.lines.push_back(
            row_between(supports.lines[r], {extent.low.along, extent.high.along}, extent.low));
        strip.parent_rows.push_back(r);
    }
    return strip;
}

/// A backing of the row's own width along the lower edge of a strip, as far as there is room below the strip's first row.
template <Surface surface>
void back_lower_edge(DeckStrip<surface>& strip, std::size_t row, Length width) {
    const Length along = strip.plane.outline[1].along;
    Length room = width;
    if (!strip.supports.lines.empty()) {
        const SupportLine& next = strip.supports.lines.front();
        for (const PlanePoint& p : next.centreline) {
            room = shorter(room, p.up - next.width / 2.0);
        }
    }
    if (room < Length::from_inches(0.25)) {
        return;  // the next row lies under the edge
    }
    std::vector<SupportLine> lines{SupportLine{{{no_length, room / 2.0}, {along, room / 2.0}}, room}};
    std::vector<std::size_t> rows{row};
    lines.insert(lines.end(), strip.supports.lines.begin(), strip.supports.lines.end());
    rows.insert(rows.end(), strip.parent_rows.begin(), strip.parent_rows.end());
    strip.supports.lines = std::move(lines);
    strip.parent_rows = std::move(rows);
    strip.backed = true;
}

/// The first row whose centre lies nowhere below `depth`. Throws does_not_fit where no row is left for the steel above it.
[[nodiscard]] inline std::size_t last_dropped_row(const std::vector<SupportLine>& rows, Span eave, Length depth) {
    for (std::size_t r = 0; r + 1 < rows.size(); ++r) {
        if (centres_of(rows[r], eave).low + count_tolerance >= depth) {
            return r;
        }
    }
    throw FaultError{Fault{FaultCode::does_not_fit, "deck_strips.eave_depth", describe_length(depth),
                           "a row at or above it, and another above that for the steel"}};
}

/// Where the rake strips end inside: on the first frame line past the overhang, exactly at it where there is none.
[[nodiscard]] inline Span between_rake_strips(const FrameLines& frames, Span eave, Length depth) {
    if (depth <= no_length) {
        return eave;
    }
    const Length middle = (eave.low + eave.high) / 2.0;
    Span inside{eave.low + depth, eave.high - depth};
    for (auto f = frames.centres.rbegin(); f != frames.centres.rend(); ++f) {
        if (*f < middle && *f + count_tolerance >= eave.low + depth) {
            inside.low = *f;  // from the right: the last one taken is the first past the overhang
        }
    }
    for (const Length centre : frames.centres) {
        if (centre > middle && centre - count_tolerance <= eave.high - depth) {
            inside.high = centre;
        }
    }
    if (!(inside.high > inside.low + count_tolerance)) {
        throw FaultError{Fault{FaultCode::does_not_fit, "deck_strips.rake_depth", describe_length(depth),
                               "less than half of the eave, " + describe_length((eave.high - eave.low) / 2.0)}};
    }
    return inside;
}
}  // namespace detail

/// Splits a rectangular plane into the strips that are decked and the rest. `plane` and `supports` are the surface that
/// deck top and purlin tops share. `tile_sheets` and `count_nails` take each strip as any other plane; only the eave strip
/// hangs past the fascia. Strips touch, with no gap taken off either.
///
/// Throws `FaultError`: the first fault of an input; not_supported for a plane that is no rectangle or has openings, for
/// supports that run up the slope; does_not_fit where the wall line lies so high, or the rakes so deep, that no steel is
/// left straight on purlins.
template <Surface surface>
[[nodiscard]] DeckStrips<surface> deck_strips(const Plane<surface>& plane, const Supports<surface>& supports,
                                              const FrameLines& frames, const DeckStripsPlan& plan) {
    require_sound(plan, "deck_strips");
    require_sound(frames, "frames");
    require_sound(supports, "supports");
    detail::require_rectangle(plane);
    if (supports.run != SupportRun::along_eave) {
        throw FaultError{Fault{FaultCode::not_supported, "supports.run", std::string{name_of(supports.run)},
                               std::string{name_of(SupportRun::along_eave)}}};
    }
    const Span eave{plane.outline[0].along, plane.outline[1].along};
    const Length ridge = plane.outline[2].up;
    const std::size_t last = detail::last_dropped_row(supports.lines, eave, plan.eave_depth);
    const Length width = supports.lines[last].width;
    const Length end = detail::centres_of(supports.lines[last], eave).low + width / 2.0;
    if (!(end + count_tolerance < ridge)) {
        throw FaultError{Fault{FaultCode::does_not_fit, "deck_strips.eave_depth", describe_length(end),
                               "an upper end of the eave strip below the ridge at " + describe_length(ridge)}};
    }
    const Span inside = detail::between_rake_strips(frames, eave, plan.rake_depth);
    DeckStrips<surface> result{
        .strips = {},
        .steel = {{inside.low, end}, {inside.high, end}, {inside.high, ridge}, {inside.low, ridge}},
        .dropped_rows = {},
        .drop = plan.thickness,
        .marks_lower = surface_offset(plan.thickness, plane.pitch, plan.tail).along_slope,
        .rake_ends_drop = plan.rake_depth > no_length,
        .area = Area::from_value(0.0)};
    for (std::size_t r = 0; r <= last; ++r) {
        result.dropped_rows.push_back(r);
    }
    const auto add = [&](const char* name, PlanePoint low, PlanePoint high, std::size_t from, std::size_t to) {
        result.strips.push_back(detail::strip_over(plane, supports, name, {low, high}, from, to));
    };
    add("eave", {eave.low, no_length}, {eave.high, end}, 0, last + 1);
    if (result.rake_ends_drop) {
        add("left rake", {eave.low, end}, {inside.low, ridge}, last + 1, supports.lines.size());
        add("right rake", {inside.high, end}, {eave.high, ridge}, last + 1, supports.lines.size());
        detail::back_lower_edge(result.strips[1], last, width);
        detail::back_lower_edge(result.strips[2], last, width);
    }
    for (const DeckStrip<surface>& strip : result.strips) {
        result.area += signed_area(strip.plane.outline);
    }
    return result;
}

/// Sheets of one strip in its own coordinates, which its supports are in too. Past the fascia goes the eave strip alone.
/// Throws as `tile_sheets`.
template <Surface surface>
[[nodiscard]] Sheets tile_strip(const DeckStrip<surface>& strip, SheetPlan plan) {
    if (strip.offset.up > no_length) {
        plan.past_fascia = no_length;
    }
    return tile_sheets(strip.plane, strip.supports, plan);
}

/// Sheets of a strip with all places in the parent's coordinates; indexes of supports in joints stay those of the strip.
template <Surface surface>
[[nodiscard]] Sheets sheets_in_parent(const DeckStrip<surface>& strip, Sheets sheets) {
    const auto move = [&](PlanePoint& point) { point = to_parent(strip, point); };
    for (SheetPiece& piece : sheets.pieces) {
        for (PlanePoint& corner : piece.outline) {
            move(corner);
        }
    }
    for (EndJoint& joint : sheets.joints) {
        move(joint.from);
        move(joint.to);
    }
    for (Finding& finding : sheets.findings) {
        move(finding.place);
        if (finding.block) {
            move(finding.block->from);
            move(finding.block->to);
        }
    }
    return sheets;
}

/// Lays the sheets of every strip and returns them as `sheets_in_parent` does, strip by strip. Throws as `tile_sheets`.
template <Surface surface>
[[nodiscard]] std::vector<Sheets> tile_deck_strips(const DeckStrips<surface>& strips, const SheetPlan& plan) {
    std::vector<Sheets> laid;
    for (const DeckStrip<surface>& strip : strips.strips) {
        laid.push_back(sheets_in_parent(strip, tile_strip(strip, plan)));
    }
    return laid;
}

}  // namespace eavewright
