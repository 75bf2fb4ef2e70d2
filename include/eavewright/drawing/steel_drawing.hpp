// SPDX-License-Identifier: BSL-1.0
#pragma once

// The steel of one slope as a drawing: a standalone SVG text, made from the result alone.

#include <eavewright/drawing/heads.hpp>
#include <eavewright/drawing/lap_section.hpp>
#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/overview.hpp>
#include <eavewright/drawing/panel_strips.hpp>
#include <eavewright/drawing/steel_notes.hpp>
#include <eavewright/drawing/steel_tables.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
/// Sides measured on the surface that the panels lie on, where they were.
[[nodiscard]] inline std::optional<FourSides> sides_under_steel(const SlopeResult& slope, const SteelResult& steel) {
    const std::optional<Trueness>& measured = steel.surface == slope.surface ? slope.trueness : slope.deck;
    return measured ? std::optional<FourSides>{measured->measured.adjusted} : std::nullopt;
}

/// Whether the corners themselves are the plane's sides.
[[nodiscard]] inline bool is_plain_rectangle(const std::vector<PlanePoint>& o) {
    const auto same = [](Length a, Length b) { return magnitude(a - b) <= count_tolerance; };
    return o.size() == 4 && same(o[0].along, no_length) && same(o[0].up, no_length) && same(o[1].up, no_length) &&
           same(o[1].along, o[2].along) && same(o[3].along, no_length) && same(o[2].up, o[3].up);
}

[[nodiscard]] inline Overview overview_of(const SlopeResult& slope, const SteelResult& steel, const Page& page,
                                          const std::vector<Length>& breaks) {
    Overview overview{.outline = steel.outline,
                      .sides = {.eave = {}, .left = {}, .up_right = {}},
                      .lines = steel.lines.panel_edges,
                      .breaks = breaks,
                      .starts_right = starts_right(steel.panels)};
    const std::optional<FourSides> sides = sides_under_steel(slope, steel);
    if (sides) {
        overview.sides = measured_sides(*sides, page);
    } else if (is_plain_rectangle(steel.outline)) {
        overview.sides.eave = page.figure(steel.outline[1].along);
        overview.sides.left = page.figure(steel.outline[3].up);
    }
    return overview;
}

/// Corners of a plane out of square, as no other figure tells its shape.
inline void list_corners(Page& page, const std::vector<PlanePoint>& outline) {
    if (is_plain_rectangle(outline)) {
        return;
    }
    std::string words = "Corners from the eave's left, along the eave and up the slope: ";
    for (std::size_t i = 0; i < outline.size(); ++i) {
        words += (i > 0 ? "; " : "") + page.figure(outline[i].along) + " and " + page.figure(outline[i].up);
    }
    page.paragraph(words + ".", 10.0);
}

inline void write_steel_head(Page& page, const SlopeResult& slope, const SteelResult& steel,
                             const DrawingOptions& options) {
    write_title(page, options.title.empty() ? "Steel" : options.title,
                "Steel of " + (slope.name == "roof" ? std::string{"the roof"} : "the " + slope.name + " slope") +
                    (sides_under_steel(slope, steel) ? ", as measured" : ""),
                steel.surface);
    const Panels& panels = steel.panels;
    page.paragraph(std::to_string(panels.lanes) + (panels.lanes == 1 ? " panel" : " panels") + " from the " +
                       (starts_right(panels) ? "right" : "left") + " rake: first covers " +
                       page.figure(panels.first_cover) + ", last " + page.figure(panels.last_cover) + ".",
                   11.0, true);
    page.paragraph("Lower ends stand " + page.figure(panels.overhang) + " past the edge that they hang over.", 10.0);
}

/// Room beside a strip, and what is written there.
struct SteelRoom {
    std::vector<RakeMark> left_marks;
    std::vector<RakeMark> right_marks;
    double left;   ///< where the plane begins, at the left rake
    double right;  ///< kept free past the right rake
    double rows;   ///< where the plane begins on strips that follow, beside the names of the rows
    double names;  ///< part of either for names of narrow panels
};

/// Row and mark at the left rake; screws and mark at the right one. A row without a line says so.
[[nodiscard]] inline std::vector<RakeMark> line_marks(const SlopeResult& slope, const SteelResult& steel,
                                                      const Page& page, bool at_left) {
    std::vector<RakeMark> marks;
    std::size_t next = 0;
    for (std::size_t row = 0; row < steel.supports.size(); ++row) {
        const std::string name =
            at_left ? row_name(slope, row) + ": " : std::to_string(steel.screws.by_row[row]) + " at ";
        if (next < steel.lines.lines.size() && steel.lines.lines[next].row == row) {
            const ScrewLine& line = steel.lines.lines[next++];
            const Length up = at_left ? line.left_mark : line.right_mark;
            marks.push_back({name + page.figure(up), up});
        } else {
            const std::vector<PlanePoint>& line = steel.supports[row].centreline;
            marks.push_back({at_left ? name + "no line" : std::to_string(steel.screws.by_row[row]),
                             (at_left ? line.front() : line.back()).up});
        }
    }
    return marks;
}

[[nodiscard]] inline SteelRoom steel_room(const SlopeResult& slope, const SteelResult& steel, const Page& page,
                                          const DrawingOptions& options, const StripNeeds& needs) {
    SteelRoom room{
        .left_marks = {}, .right_marks = {}, .left = page_margin, .right = 12.0, .rows = page_margin, .names = 0.0};
    for (const PanelPiece& piece : steel.panels.pieces) {
        const double wide = inches(piece.cover) * legible_scale(needs) * 0.8;
        if (options.names && wide < text_width(panel_name(piece), bold_room(name_size)) - 4.0) {
            room.names = needs.name_wide + 8.0;
        }
    }
    if (options.marks) {
        room.left_marks = line_marks(slope, steel, page, true);
        room.right_marks = line_marks(slope, steel, page, false);
        room.left += widest_mark(room.left_marks) + 14.0;
        room.right = page_margin + widest_mark(room.right_marks) + 14.0;
        room.rows += widest_mark(row_names(slope, no_length)) + 14.0;
    }
    room.left += room.names;
    room.right += room.names;
    return room;
}

/// One strip with the marks of both rakes beside it; else strips that have those of one rake at most.
[[nodiscard]] inline Strips steel_strips(const SteelResult& steel, const StripNeeds& needs, const SteelRoom& room,
                                         double width) {
    const Extent extent = drawn_extent(steel);
    const Strips whole = strips_of(needs, extent, width - room.left - room.right);
    if (whole.breaks.size() == 2) {
        return whole;
    }
    const double beside = greater(room.left + 12.0, room.rows + room.right);
    const Strips parted = strips_of(needs, extent, width - beside);
    return parted.breaks.size() == 2 ? whole : parted;
}

/// Panels that a strip holds, in words.
[[nodiscard]] inline std::string panels_in_words(const Panels& panels, const Strip& strip) {
    std::vector<const PanelPiece*> held;
    for (const PanelPiece& piece : panels.pieces) {
        if (piece.place == 0 && strip.holds(middle_of(extent_of(piece.outline)).along)) {
            held.push_back(&piece);
        }
    }
    return (held.size() == 1 ? "panel " : "panels ") + joined_names(held);
}

/// Purlins, panels and lines of one strip, cut off where the next strip goes on.
inline void draw_steel_inside(Page& page, const SteelResult& steel, const Strip& strip, bool lines) {
    open_strip_window(page.svg, strip);
    draw_supports(page.svg, steel.supports, true, strip);
    draw_panels(page.svg, steel.panels, strip);
    draw_end_laps(page.svg, steel.panels, strip);
    if (lines) {
        draw_snap_lines(page.svg, steel.lines, strip.view);
    }
    page.svg.polygon(strip.view.all(steel.outline), outline_pen);
    page.svg.close_group();
    draw_breaks(page.svg, strip);
    draw_lap_heads(page.svg, steel.panels, strip);
}

inline void write_panel_names(Page& page, const Panels& panels, Strip& strip) {
    for (const PanelPiece& piece : panels.pieces) {
        const Extent extent = extent_of(piece.outline);
        if (strip.holds(middle_of(extent).along)) {
            write_name(page, extent, panel_name(piece), strip, 6.0);
        }
    }
}

/// Marks of the lines at the rakes; between them the rows' names.
inline void draw_line_marks(Page& page, const SlopeResult& slope, const SteelRoom& room, const Strip& strip) {
    if (room.left_marks.empty()) {
        return;
    }
    const double left = strip.view.x_of(strip.from);
    const double right = strip.view.x_of(strip.to);
    draw_rake_marks(page, strip.first ? room.left_marks : row_names(slope, strip.from), strip.view, left,
                    left - 12.0 - (strip.first ? room.names : 0.0), strip.first ? "Lines at the left rake" : "Rows");
    if (strip.last) {
        draw_rake_marks(page, room.right_marks, strip.view, right, right + 12.0 + room.names,
                        "Screws and lines at the right rake");
    }
}

inline void draw_steel_strip(Page& page, const SlopeResult& slope, const SteelResult& steel,
                             const DrawingOptions& options, const std::vector<FindingNote>& notes,
                             const FindingGroups& groups, const SteelRoom& room, const Strips& strips,
                             std::size_t index) {
    const Extent extent = drawn_extent(steel);
    const std::size_t count = strips.breaks.size() - 1;
    const double high = inches(extent.high.up) * strips.scale;
    Strip strip{.view = {strips.breaks[index], index == 0 ? room.left : room.rows, 0.0, strips.scale},
                .from = strips.breaks[index],
                .to = strips.breaks[index + 1],
                .top = 0.0,
                .bottom = 0.0,
                .first = index == 0,
                .last = index + 1 == count};
    page.heading(count == 1 ? "Panels"
                            : "Strip " + std::to_string(index + 1) + " of " + std::to_string(count) + ": " +
                                  panels_in_words(steel.panels, strip));
    double above = 26.0;
    const double covers = options.marks ? cover_room(page, steel.panels) : 0.0;
    above = greater(above, covers + 6.0);
    for (const std::vector<RakeMark>* marks : {&room.left_marks, &room.right_marks}) {
        const std::vector<double> heights = spread_marks(*marks, strips.scale);
        above = heights.empty() ? above : greater(above, heights.back() - high + 8.0);
    }
    strip.view.eave_y = page.y + above + high;
    strip.top = strip.view.y_of(extent.high.up);
    strip.bottom = strip.view.y_of(extent.low.up);
    draw_steel_inside(page, steel, strip, options.marks);
    draw_line_marks(page, slope, room, strip);
    if (options.names) {
        write_panel_names(page, steel.panels, strip);
    }
    if (options.findings) {
        draw_findings(page, notes, groups, strip);
    }
    page.y = strip.bottom + 8.0;
    if (options.marks) {
        draw_cover_marks(page, steel.panels, strip, false);
        draw_cover_marks(page, steel.panels, strip, true);
        page.y = strip.bottom + covers + 4.0;
    }
    const bool right = starts_right(steel.panels);
    if (right ? strip.last : strip.first) {
        page.y = draw_start_arrow(page, {right ? strip.view.x_of(strip.to) : strip.view.x_of(strip.from), strip.bottom},
                                  right, page.y, "begin at this gable");
    }
    page.y += 2.0;
}

/// What shapes and lines of the strips mean.
inline void write_steel_key(Page& page, const SteelResult& steel, const DrawingOptions& options) {
    std::string words = "Grey bands: purlins as the screws meet them, at their real width.";
    words += options.marks ? " Dashed: lines to snap; at the left rake the row and its mark up from the outer face of "
                             "the fascia, at the right rake its screws and its mark. Below the eave and above the "
                             "ridge: where each panel ends, from the corner that is begun at."
                           : "";
    words += " Solid arrow heads: the way that side laps open.";
    bool ripped = false;
    bool cut = false;
    for (const PanelPiece& piece : steel.panels.pieces) {
        ripped = ripped || piece.ripped;
        cut = cut || piece.cut;
    }
    words += ripped ? " Hatched panels are ripped." : "";
    words += cut ? " A heavy upper end is cut on site." : "";
    words += steel.panels.end_laps.empty() ? "" : " Closely hatched bands: end laps, the upper piece over the lower.";
    page.y += 2.0;
    page.paragraph(words, 10.0);
}

/// For those who listen to the drawing.
[[nodiscard]] inline std::string spoken_summary(const SlopeResult& slope, const SteelResult& steel,
                                                std::size_t findings) {
    return "Steel of " + slope.name + ": " + std::to_string(steel.panels.pieces.size()) + " panels from the " +
           (starts_right(steel.panels) ? "right" : "left") + " rake, " + std::to_string(steel.screws.total) +
           " screws, " + std::to_string(findings) + " findings. " + std::string{drawing_caution};
}

inline void write_steel_tables(Page& page, const SlopeResult& slope, const SteelResult& steel) {
    list_lengths(page, steel.panels);
    list_cuts(page, steel.panels);
    list_end_laps(page, slope, steel.panels);
    list_cover_marks(page, steel.panels);
    list_lines(page, slope, steel);
    list_drill_marks(page, slope, steel);
    list_screws(page, steel.screws);
    list_edges(page, steel);
}
}  // namespace detail

/// The steel of a slope as a standalone SVG document in the manner of `draw_plane`: overview with the gable to begin
/// at, the way that side laps open, panels by name in strips that read on a phone, lines to snap with their marks at both
/// rakes and their screws, marks along eave and ridge, findings as numbered shapes with their list, and tables of
/// lengths to order, rips, lines, drill marks, tapers and trim. `options.marks` are the lines and the marks, `options.tables`
/// what is listed; `options.frames` is not used. Every figure is a field of `slope.steel`, or of the sides measured, as
/// `write_length` writes it at `options.tick`. Nothing is told by tone alone.
///
/// The text grows linearly with the panels, and the same arguments give the same bytes. Throws `FaultError`: the first
/// fault of `options`, missing_field for a slope without steel, and not_finite, not_supported, does_not_fit or contradiction
/// for a result that does not hold together.
[[nodiscard]] inline std::string draw_steel(const SlopeResult& slope, const DrawingOptions& options) {
    require_sound(options, "options");
    if (!slope.steel) {
        throw FaultError{Fault{FaultCode::missing_field, "slope.steel", "", "a slope with steel"}};
    }
    const SteelResult& steel = *slope.steel;
    detail::require_drawable_steel(steel);
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const std::vector<detail::FindingNote> notes = detail::notes_of(slope, steel, page);
    const detail::FindingGroups groups = detail::group_findings(notes);
    const detail::StripNeeds needs = detail::needs_of(slope, steel);
    const detail::SteelRoom room = detail::steel_room(slope, steel, page, options, needs);
    const detail::Strips strips = detail::steel_strips(steel, needs, room, page.width);
    detail::write_steel_head(page, slope, steel, options);
    if (options.overview) {
        detail::draw_overview(page, detail::overview_of(slope, steel, page, strips.breaks));
        detail::list_corners(page, steel.outline);
    }
    detail::draw_lap_section(page, steel.panels);
    for (std::size_t i = 0; i + 1 < strips.breaks.size(); ++i) {
        detail::draw_steel_strip(page, slope, steel, options, notes, groups, room, strips, i);
    }
    detail::write_steel_key(page, steel, options);
    if (options.findings) {
        detail::draw_legend(page, notes, groups);
    }
    if (options.tables) {
        detail::write_steel_tables(page, slope, steel);
    }
    const std::string title = options.title.empty() ? "Steel of " + slope.name : options.title;
    return page.svg.document(page.width, page.y + detail::page_margin, title,
                             detail::spoken_summary(slope, steel, notes.size()));
}

}  // namespace eavewright
