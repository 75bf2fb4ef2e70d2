// SPDX-License-Identifier: BSL-1.0
#pragma once

// Sheets on a plane of any outline as a drawing: a standalone SVG text, made from the result alone.

#include <eavewright/drawing/finding_marks.hpp>
#include <eavewright/drawing/heads.hpp>
#include <eavewright/drawing/laid_plane.hpp>
#include <eavewright/drawing/laid_plane_strips.hpp>
#include <eavewright/drawing/laid_plane_tables.hpp>
#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/overview.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/shape_drawing.hpp>
#include <eavewright/drawing/sheet_findings.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/units/decimal.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
/// Title, which plane, main figures in words.
inline void write_head(Page& page, const DrawnPlane& drawn, const DrawingOptions& options) {
    write_title(page, options.title.empty() ? "Roof plane" : options.title, in_words(drawn.name), drawn.surface);
    page.paragraph(area_in_words(page, drawn.area) + (drawn.openings.empty() ? "" : " with the openings left out") +
                       ", " + write_decimal(drawn.pitch.rise_in_12(), 3) + " in 12; " +
                       std::to_string(drawn.sheets.pieces.size()) + " pieces of sheet.",
                   11.0, true);
    const std::string grid = grid_in_words(drawn.sheets, page);
    if (!grid.empty()) {
        page.paragraph(grid, 10.0);
    }
    const Length past = extent_of(drawn.outline).low.up - drawn_extent(drawn).low.up;
    if (past > count_tolerance) {
        page.paragraph("Sheets hang " + page.figure(past) + " past the outer face of the fascia.", 10.0);
    }
}

/// The letters of the sides, each outside its side where there is room, else inside; those without any stand in the
/// list
/// alone.
inline void write_side_letters(Page& page, const DrawnPlane& drawn, const View& view, std::vector<Box>& taken) {
    const std::vector<SvgPoint> corners = view.all(drawn.outline);
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const SvgPoint a = corners[i];
        const SvgPoint b = corners[(i + 1) % corners.size()];
        const double length = std::sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
        if (!(length > 0.0)) {
            continue;
        }
        const SvgPoint out{-(b.y - a.y) / length, (b.x - a.x) / length};  // the plane lies to the left, y points down
        const HalfBox half = name_box(letter_of(i));
        bool placed = false;
        for (const double away : {9.0, 13.0, -9.0, 18.0, -13.0}) {
            for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8}) {
                const SvgPoint at{a.x + (b.x - a.x) * share + out.x * away, a.y + (b.y - a.y) * share + out.y * away};
                const Box box = half.around(at);
                if (!placed && box.left >= 2.0 && box.right <= page.width - 2.0 && is_free(box, taken)) {
                    page.svg.text({at.x, at.y + 3.6}, letter_of(i), {.size = 10.0, .anchor = TextAnchor::middle});
                    taken.push_back(box);
                    placed = true;
                }
            }
        }
    }
}

/// The whole plane: sides and openings by letter, where strips meet, the start corner.
inline void draw_plane_overview(Page& page, const DrawnPlane& drawn, const std::vector<Length>& breaks) {
    constexpr double most_height = 230.0;
    constexpr double room = 24.0;
    const Extent extent = extent_of(drawn.outline);
    const double scale = lesser((page.width - 2.0 * room) / inches(extent.high.along - extent.low.along),
                                most_height / inches(extent.high.up - extent.low.up));
    page.y += 58.0;
    const View view{extent.low.along, room, page.y + inches(extent.high.up) * scale, scale};
    draw_up_arrow(page, room + 4.0, page.y - 28.0, page.y - 50.0);
    draw_openings(page.svg, drawn, view, extent.low.along, extent.high.along);
    for (std::size_t i = 1; i + 1 < breaks.size(); ++i) {
        page.svg.line({view.x_of(breaks[i]), view.y_of(extent.low.up) + 4.0}, {view.x_of(breaks[i]), page.y - 4.0},
                      break_pen);
    }
    draw_sides_by_kind(page, drawn, view);
    if (!drawn.sheets.pieces.empty()) {
        (void)draw_start_corner(page, drawn, view);
    }
    std::vector<Box> taken;
    for (std::size_t i = 1; i + 1 < breaks.size(); ++i) {
        taken.push_back({view.x_of(breaks[i]) - 1.0, 0.0, view.x_of(breaks[i]) + 1.0, view.y_of(extent.low.up) + 4.0});
    }
    for (std::size_t i = 0; i < drawn.openings.size(); ++i) {
        const std::string letter = letter_of_opening(drawn, i);
        const PageShape shape = shape_on_page(drawn.openings[i], {}, view, 0.0, page.width);
        const SvgPoint at = place_within(shape, name_box(letter)).at;
        if (is_free(name_box(letter).around(at), taken)) {
            page.label(at, letter, {.size = 10.0});
            taken.push_back(name_box(letter).around(at));
        }
    }
    write_side_letters(page, drawn, view, taken);
    page.y = view.y_of(extent.low.up) + 22.0;
    list_sides(page, drawn);
}

/// The lines of the sides' kinds that the plane has, each with its name.
inline void draw_side_key(Page& page, const DrawnPlane& drawn) {
    double x = page_margin;
    bool any = false;
    for (std::size_t k = 0; k < NamesOf<EdgeKind>::list.size(); ++k) {
        const auto kind = static_cast<EdgeKind>(k);
        bool met = false;
        for (const EdgeKind edge : drawn.edges) {
            met = met || edge == kind;
        }
        if (!met) {
            continue;
        }
        const std::string words = in_words(name_of(kind));
        const double wide = 34.0 + text_width(words, 10.0) + 12.0;
        if (!any || x + wide - 12.0 > page.width - page_margin) {
            page.y += 13.0;
            x = page_margin;
        }
        page.svg.line({x, page.y - 3.5}, {x + 28.0, page.y - 3.5}, edge_pen(kind));
        page.svg.text({x + 34.0, page.y}, words, {.size = 10.0});
        x += wide;
        any = true;
    }
    page.y += 3.0;
}

/// What the tones and lines of the strips mean.
inline void write_plane_key(Page& page, const DrawnPlane& drawn, const DrawingOptions& options, bool several) {
    const bool purlins = drawn.sheets.run == SupportRun::along_eave;
    std::string words = std::string{purlins ? "Grey bands: purlins" : "Grey bands: chords"} + ", at their real width.";
    if (options.marks && drawn.purlins != nullptr) {
        words += " At the left: row centres up the slope, from the corner where side a begins.";
    }
    words += drawn.sheets.pieces.empty() ? "" : " Shaded sheets are cut.";
    words += drawn.openings.empty() ? "" : " Hatched: openings.";
    for (const Finding& finding : drawn.sheets.findings) {
        if (options.findings && finding.block) {
            words += " Heavy dashes: where a block would carry the joint.";
            break;
        }
    }
    if (drawn.long_edges != nullptr && drawn.long_edges->hold == EdgeHold::clips) {
        words += " Small boxes on long edges: spaces with clips, " + std::to_string(drawn.long_edges->clips) +
                 " clips in all.";
    } else if (drawn.long_edges != nullptr && drawn.long_edges->hold == EdgeHold::blocking) {
        words += " Rungs along long edges: blocks, " + std::to_string(drawn.long_edges->blocks.size()) + " in all.";
    }
    words += several ? " Strips are measured along the eave from the corner where side a begins." : "";
    page.y += 2.0;
    page.paragraph(words, 10.0);
    draw_side_key(page, drawn);
}

/// For those who listen to the drawing.
[[nodiscard]] inline std::string spoken_summary(const DrawnPlane& drawn, const Page& page) {
    return "Plane " + drawn.name + ": " + area_in_words(page, drawn.area) + ", " +
           std::to_string(drawn.outline.size()) + " sides, " + std::to_string(drawn.openings.size()) + " openings; " +
           std::to_string(drawn.supports.size()) + " supports, " + std::to_string(drawn.sheets.pieces.size()) +
           " pieces of sheet, " + std::to_string(drawn.sheets.findings.size()) + " findings. " +
           std::string{drawing_caution};
}

[[nodiscard]] inline std::string draw_laid_plane(const DrawnPlane& drawn, const DrawingOptions& options) {
    require_drawable(drawn);
    Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const std::vector<FindingNote> notes = notes_of(drawn.sheets, page);
    const FindingGroups groups = group_findings(notes);
    const PlaneStrips all = plane_strips(drawn, page, options);
    write_head(page, drawn, options);
    if (options.overview) {
        draw_plane_overview(page, drawn, all.strips.breaks);
    }
    for (std::size_t i = 0; i + 1 < all.strips.breaks.size(); ++i) {
        draw_plane_strip(page, drawn, options, notes, groups, all, i);
    }
    write_plane_key(page, drawn, options, all.strips.breaks.size() > 2);
    if (options.findings && !drawn.sheets.pieces.empty()) {
        draw_legend(page, notes, groups);
    }
    if (options.tables) {
        list_openings(page, drawn);
        list_plane_pieces(page, drawn);
    }
    const std::string title = options.title.empty() ? "Roof plane " + drawn.name : options.title;
    return page.svg.document(page.width, page.y + page_margin, title, spoken_summary(drawn, page));
}
}  // namespace detail

/// Sheets on a plane of any outline as a standalone SVG document, eave at the bottom: the whole plane with its sides
/// and openings
/// by letter, the sheets in strips large enough to read on a phone, supports where they run, rows with their heights,
/// findings as numbered shapes with their list, openings with their places, and pieces by size and by what is cut off
/// them. Sides are told by the form of their line, never by tone. Every figure is a field of `laid`, or a difference
/// of two, as
/// `write_length` writes it at `options.tick`. `options.frames` is not used.
///
/// A piece that cannot hold its name has it close by, with a leader. The same arguments give the same bytes. Throws
/// `FaultError`: the first fault of `options`; not_finite, not_supported, does_not_fit or contradiction for a result
/// that does
/// not hold together.
template <Surface surface>
[[nodiscard]] std::string draw_plane(const LaidPlane<surface>& laid, const DrawingOptions& options) {
    require_sound(options, "options");
    return detail::draw_laid_plane(detail::drawn_plane(laid), options);
}

}  // namespace eavewright
