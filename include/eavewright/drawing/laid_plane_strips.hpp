// SPDX-License-Identifier: BSL-1.0
#pragma once

// Strips of a plane of any outline: supports where they run, sheets, openings, sides by their kind, rows at the left.

#include <eavewright/drawing/finding_marks.hpp>
#include <eavewright/drawing/laid_plane.hpp>
#include <eavewright/drawing/laid_plane_names.hpp>
#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/shape_drawing.hpp>
#include <eavewright/drawing/strip_edges.hpp>
#include <eavewright/drawing/strip_pieces.hpp>
#include <eavewright/drawing/strip_sheets.hpp>
#include <eavewright/drawing/strips.hpp>
#include <eavewright/framing/purlin_row.hpp>
#include <eavewright/tiling/edge_support.hpp>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright::detail {

/// Figures of places along the eave: from the plane's zero, those left of it by name.
[[nodiscard]] inline std::string along_figure(const DrawnPlane& drawn, Length along, const Page& page) {
    const Length from_zero = along - drawn.zero().along;
    return from_zero < -count_tolerance ? page.figure(-from_zero) + " left" : page.figure(from_zero);
}

/// Where a row begins between two places; nothing where it does not run there.
[[nodiscard]] inline std::optional<Length> row_start(const PurlinRow& row, Length from, Length to) {
    if (row.stretches.empty()) {
        const Length start = longer(row.centreline.front().along, from);
        return start < shorter(row.centreline.back().along, to) ? std::optional<Length>{start} : std::nullopt;
    }
    for (const Span& stretch : row.stretches) {
        const Length start = longer(stretch.low, from);
        if (start < shorter(stretch.high, to)) {
            return start;
        }
    }
    return std::nullopt;
}

/// A row at the left of a strip: its words, its height, where it begins.
struct RowLeader {
    RakeMark mark;
    Length along;
};

/// Rows that run in a strip, lowest first: the height of a level row stands where it is first met, of a bent one in
/// every strip,
/// taken where it begins there.
[[nodiscard]] inline std::vector<RowLeader> row_leaders(const DrawnPlane& drawn, const Page& page, const Strips& strips,
                                                        std::size_t strip) {
    std::vector<RowLeader> leaders;
    for (std::size_t r = 0; drawn.purlins != nullptr && r < drawn.purlins->rows.size(); ++r) {
        const PurlinRow& row = drawn.purlins->rows[r];
        const std::optional<Length> start = row_start(row, strips.breaks[strip], strips.breaks[strip + 1]);
        if (!start) {
            continue;
        }
        const Length up = up_at(row.centreline, *start);
        const bool level = row.centreline.size() == 2 && row.centreline[0].up == row.centreline[1].up;
        const bool known = level && strip > 0 && row_start(row, strips.breaks[0], strips.breaks[strip]).has_value();
        const std::string name = row.kind == RowKind::field ? std::to_string(r) : std::string{name_of(row.kind)};
        leaders.push_back({{known ? name : name + ": " + page.figure(up - drawn.zero().up), up}, *start});
    }
    std::stable_sort(leaders.begin(), leaders.end(),
                     [](const RowLeader& a, const RowLeader& b) { return a.mark.up < b.mark.up; });
    return leaders;
}
[[nodiscard]] inline std::vector<RakeMark> marks_of(const std::vector<RowLeader>& leaders) {
    std::vector<RakeMark> marks;
    for (const RowLeader& leader : leaders) {
        marks.push_back(leader.mark);
    }
    return marks;
}

/// The rows' words end at `text_x`; each has a leader to where its row begins.
inline void draw_row_leaders(Page& page, const std::vector<RowLeader>& leaders, double text_x, Strip& strip) {
    const std::vector<double> heights = spread_marks(marks_of(leaders), strip.view.scale);
    page.svg.open_group("", "Purlin rows, centres up the slope");
    for (std::size_t i = 0; i < leaders.size(); ++i) {
        const double y = strip.view.eave_y - heights[i];
        const double row = strip.view.y_of(leaders[i].mark.up);
        page.svg.text({text_x, y + 3.4}, leaders[i].mark.words, {.size = mark_text, .anchor = TextAnchor::end});
        page.svg.polyline({{text_x + 2.0, y}, {text_x + 4.0, y}, {text_x + 10.0, row}}, thin_pen);
        page.svg.line({text_x + 10.0, row}, {strip.view.x_of(leaders[i].along), row}, frame_pen);
        const double wide = text_width(leaders[i].mark.words, mark_text);
        strip.taken.push_back({text_x - wide, y - 5.0, text_x + 4.0, y + 5.0});
    }
    page.svg.close_group();
}

/// Where long edges are held: a clip as a small box across the edge, a block as rungs along it.
inline void draw_long_edges(SvgText& svg, const EdgeSupport& held, const Strip& strip) {
    if (held.hold == EdgeHold::tongue_and_groove) {
        return;
    }
    const bool clips = held.hold == EdgeHold::clips;
    svg.open_group(clips ? R"(fill="#fff" stroke="#000" stroke-width="0.9")"
                         : R"(fill="none" stroke="#000" stroke-width="3" stroke-dasharray="1 1.5")",
                   clips ? "Clips" : "Blocks");
    for (const EdgeSpace& space : held.spaces) {
        const PlanePoint middle{(space.from.along + space.to.along) / 2.0, (space.from.up + space.to.up) / 2.0};
        if (!strip.holds(middle.along)) {
            continue;
        }
        if (!clips) {
            svg.line(strip.view.at(space.from), strip.view.at(space.to));
            continue;
        }
        const SvgPoint at = strip.view.at(middle);
        const bool upright = space.from.along == space.to.along;
        const double wide = upright ? 5.0 : 2.6;
        const double high = upright ? 2.6 : 5.0;
        svg.rect({at.x - wide / 2.0, at.y - high / 2.0}, wide, high);
    }
    svg.close_group();
}

/// Every side of the plane by its kind, on a white ground so that no sheet's line shows through its gaps.
inline void draw_sides_by_kind(Page& page, const DrawnPlane& drawn, const View& view) {
    page.svg.open_group("", "Sides of the plane");
    const std::vector<SvgPoint> corners = view.all(drawn.outline);
    page.svg.polygon(corners, R"(fill="none" stroke="#fff" stroke-width="3.6")");
    draw_edges(page, corners, drawn.edges);
    page.svg.close_group();
}

/// Blocks that would mend findings, under the names, which they would else strike out.
inline void draw_mends(SvgText& svg, const std::vector<FindingNote>& notes, const Strip& strip) {
    const Mend* before = nullptr;  // both sheets of a joint are found next to each other, with one block
    for (const FindingNote& note : notes) {
        if (!note.mend || !strip.holds(note.place.along)) {
            continue;
        }
        if (before == nullptr || !(before->from == note.mend->from && before->to == note.mend->to)) {
            svg.line(strip.view.at(note.mend->from), strip.view.at(note.mend->to), block_pen);
        }
        before = &*note.mend;
    }
}

/// All of a strip that the next one goes on with.
inline void draw_inside(Page& page, const DrawnPlane& drawn, const Strip& strip) {
    open_strip_window(page.svg, strip);
    draw_supports(page.svg, drawn.supports, drawn.sheets.run == SupportRun::along_eave, strip);
    draw_sheets(page.svg, drawn.sheets, strip);
    draw_openings(page.svg, drawn, strip.view, strip.from, strip.to);
    draw_sides_by_kind(page, drawn, strip.view);
    page.svg.close_group();
    draw_breaks(page.svg, strip);
    if (drawn.long_edges != nullptr) {
        draw_long_edges(page.svg, *drawn.long_edges, strip);
    }
}

/// The solid start corner; under the strip an arrow the way the lanes follow one another, with words that stay on the
/// page.
inline void draw_plane_start(Page& page, const DrawnPlane& drawn, const Strip& strip) {
    const bool right = started_right(drawn);
    if (drawn.sheets.pieces.empty() || !(right ? strip.last : strip.first)) {
        return;
    }
    const double way = right ? -1.0 : 1.0;
    const SvgPoint corner = draw_start_corner(page, drawn, strip.view);
    const double y = page.y + 8.0;
    if (y - corner.y > 16.0) {
        page.svg.line({corner.x, corner.y + 3.0}, {corner.x, y - 4.0}, frame_pen);
    }
    draw_arrow(page.svg, {corner.x, y}, {corner.x + way * 28.0, y});
    const std::string words = drawn.sheets.run == SupportRun::along_eave
                                  ? "start here: up the slope, lane by lane"
                                  : "start here: along the eave, course by course";
    const double wide = text_width(words, 10.0);
    const double beside = right ? corner.x - 33.0 - wide : corner.x + 33.0;
    const bool fits = beside >= page_margin && beside + wide <= page.width - page_margin;
    const double x = fits ? beside : greater(page_margin, lesser(beside, page.width - page_margin - wide));
    page.svg.text({x, fits ? y + 3.5 : y + 15.0}, words, {.size = 10.0});
    page.y = fits ? y + 10.0 : y + 21.0;
}

/// What all strips share.
struct PlaneStrips {
    Strips strips;
    Homes homes;
    double left;   ///< where the plane begins
    double right;  ///< room past its end
};

[[nodiscard]] inline PlaneStrips plane_strips(const DrawnPlane& drawn, const Page& page,
                                              const DrawingOptions& options) {
    PlaneStrips all{{}, {}, page_margin + 16.0, page_margin + 14.0};
    const Extent extent = drawn_extent(drawn);
    all.strips.breaks = {extent.low.along, extent.high.along};
    for (int pass = 0; pass < 3;
         ++pass) {  // where a bent row is met anew in every strip its figures may need more room
        for (std::size_t i = 0; options.marks && i + 1 < all.strips.breaks.size(); ++i) {
            const double wide = widest_mark(marks_of(row_leaders(drawn, page, all.strips, i)));
            all.left = greater(all.left, wide > 0.0 ? page_margin + wide + 16.0 : 0.0);
        }
        all.strips = strips_of(needs_of(drawn), extent, page.width - all.left - all.right);
    }
    all.homes = homes_of(drawn, all.strips);
    return all;
}

/// How far up the plane and its sheets reach in a strip.
[[nodiscard]] inline Span ups_of_strip(const DrawnPlane& drawn, Length from, Length to) {
    Span ups = ups_between(drawn.outline, from, to)
                   .value_or(Span{extent_of(drawn.outline).low.up, extent_of(drawn.outline).high.up});
    for (const SheetPiece& piece : drawn.sheets.pieces) {
        if (const std::optional<Span> one = ups_between(piece.outline, from, to)) {
            ups = {shorter(ups.low, one->low), longer(ups.high, one->high)};
        }
    }
    return ups;
}

[[nodiscard]] inline std::string strip_heading(const DrawnPlane& drawn, const Page& page, const Strips& strips,
                                               std::size_t index) {
    const std::size_t count = strips.breaks.size() - 1;
    return count == 1 ? std::string{"Sheets"}
                      : "Strip " + std::to_string(index + 1) + " of " + std::to_string(count) + ": " +
                            along_figure(drawn, strips.breaks[index], page) + " to " +
                            along_figure(drawn, strips.breaks[index + 1], page);
}

/// Marks of the findings, each in its own place where it may touch what stands there, else beside, never over a name.
inline void draw_plane_findings(const NameRoom& room, const std::vector<FindingNote>& notes,
                                const FindingGroups& groups) {
    const PageShape anywhere{{}, 0.0, 0.0};  // a mark may stand on the plane as well as off it
    const std::vector<PlacedMark> marks = place_marks(notes, groups, room.strip, [&](SvgPoint wanted) {
        constexpr HalfBox tight{mark_radius - 2.5, mark_radius - 2.5};
        constexpr HalfBox half{mark_radius + 1.5, mark_radius + 1.5};
        if (is_free(tight.around(wanted), room.strip.taken)) {
            return wanted;
        }
        return place_beside(wanted, half, room.bounds, room.strip.taken, anywhere, 90.0).value_or(wanted);
    });
    for (const PlacedMark& mark : marks) {
        draw_mark_leader(room.page.svg, mark);
        room.take(mark.wanted, {3.0, 3.0});
    }
    for (const PlacedMark& mark : marks) {
        draw_mark(room.page.svg, mark.at, notes[mark.finding].shape, mark.group + 1);
    }
}

inline void draw_plane_strip(Page& page, const DrawnPlane& drawn, const DrawingOptions& options,
                             const std::vector<FindingNote>& notes, const FindingGroups& groups, const PlaneStrips& all,
                             std::size_t index) {
    const Strips& strips = all.strips;
    const std::vector<RowLeader> leaders =
        options.marks ? row_leaders(drawn, page, strips, index) : std::vector<RowLeader>{};
    page.heading(strip_heading(drawn, page, strips, index));
    const Span ups = ups_of_strip(drawn, strips.breaks[index], strips.breaks[index + 1]);
    const double high = inches(ups.high) * strips.scale;
    const std::vector<double> heights = spread_marks(marks_of(leaders), strips.scale);
    const double above = heights.empty() ? 26.0 : greater(26.0, heights.back() - high + 8.0);
    const View view{strips.breaks[index], all.left, page.y + above + high, strips.scale};
    Strip strip{.view = view,
                .from = strips.breaks[index],
                .to = strips.breaks[index + 1],
                .top = view.y_of(ups.high),
                .bottom = view.y_of(ups.low),
                .first = index == 0,
                .last = index + 2 == strips.breaks.size()};
    draw_inside(page, drawn, strip);
    if (options.findings) {
        draw_mends(page.svg, notes, strip);
    }
    draw_row_leaders(page, leaders, all.left - 14.0, strip);
    const Box bounds{page_margin, strip.top - 22.0, page.width - 4.0, strip.bottom + 16.0};
    const NameRoom room{page, drawn, strip, bounds};
    const std::vector<std::size_t> sizes = write_plane_names(room, all.homes, index, options.names);
    if (options.findings) {
        draw_plane_findings(room, notes, groups);
    }
    write_sizes_beside(room, sizes);
    page.y = strip.bottom + 18.0;
    draw_plane_start(page, drawn, strip);
    page.y += 2.0;
}

}  // namespace eavewright::detail
