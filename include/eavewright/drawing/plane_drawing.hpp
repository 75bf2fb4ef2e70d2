// SPDX-License-Identifier: BSL-1.0
#pragma once

// One roof plane as a drawing: a standalone SVG text, made from the result alone.

#include <eavewright/drawing/finding_marks.hpp>
#include <eavewright/drawing/heads.hpp>
#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/overview.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/strip_edges.hpp>
#include <eavewright/drawing/strip_sheets.hpp>
#include <eavewright/drawing/strips.hpp>
#include <eavewright/drawing/tables.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
/// A result made by hand can hold anything; one made by the library passes.
inline void require_drawable(const SlopeResult& slope) {
    require_outline(slope.outline, "slope.outline");
    for (std::size_t i = 0; i < slope.sheets.pieces.size(); ++i) {
        if (slope.sheets.pieces[i].outline.empty() || !all_usable(slope.sheets.pieces[i].outline)) {
            refuse_drawing(FaultCode::not_finite, "slope.sheets.pieces[" + std::to_string(i) + "]", "finite corners");
        }
    }
    for (std::size_t i = 0; i < slope.supports.size(); ++i) {
        if (slope.supports[i].centreline.empty() || !all_usable(slope.supports[i].centreline)) {
            refuse_drawing(FaultCode::not_finite, "slope.supports[" + std::to_string(i) + "]", "finite points");
        }
    }
    for (std::size_t i = 0; i < slope.sheets.findings.size(); ++i) {
        const Finding& finding = slope.sheets.findings[i];
        if (finding.piece >= slope.sheets.pieces.size() || !all_usable({finding.place})) {
            refuse_drawing(FaultCode::contradiction, "slope.sheets.findings[" + std::to_string(i) + "]",
                           "a piece of the layout and a finite place");
        }
    }
}

/// Title, which slope, main figures in words.
inline void write_head(Page& page, const SlopeResult& slope, const DrawingOptions& options) {
    write_title(page, options.title.empty() ? "Roof plane" : options.title,
                slope_in_words(slope.name) + (slope.trueness ? ", as measured" : ""), slope.surface);
    page.paragraph(std::string{slope.trueness ? "Nominal: eave " : "Eave "} + page.figure(slope.plane_length) +
                       ", slope " + page.figure(slope.slope_length) + ", diagonal " + page.figure(slope.diagonal) + ".",
                   11.0, true);
    const std::string grid = slope.overhangs ? std::string{} : grid_in_words(slope.sheets, page);
    if (!grid.empty()) {
        page.paragraph(grid, 10.0);
    }
    const Length past = -drawn_extent(slope).low.up;
    if (past > count_tolerance) {
        page.paragraph("Sheets hang " + page.figure(past) + " past the outer face of the fascia.", 10.0);
    }
}

/// Room that a strip needs beside and above the plane.
struct StripRoom {
    std::vector<RakeMark> marks;
    double left;  ///< where the plane begins
    double right;
    double marks_right;  ///< where the texts of the marks end
};

[[nodiscard]] inline StripRoom strip_room(const SlopeResult& slope, const Page& page, const DrawingOptions& options) {
    const double name_room = widest_name(slope.sheets) + 14.0;  // a narrow last lane is named past the rake
    StripRoom room{.marks = {},
                   .left = page_margin,
                   .right = started_right(slope) && !slope.overhangs ? 12.0 : name_room,
                   .marks_right = 0.0};
    if (options.marks) {
        room.marks = rake_marks(slope, page);
    }
    room.left += room.marks.empty() ? 0.0 : widest_mark(room.marks) + 14.0;
    room.marks_right = room.left - 12.0;
    room.left += started_right(slope) || slope.overhangs ? name_room : 0.0;  // strips at both rakes are narrow
    return room;
}

/// Frames under purlins that no sheet covers.
inline void draw_frame_lines(SvgText& svg, const SlopeResult& slope, const Strip& strip) {
    for (const Length frame : slope.frames.centres) {
        if (strip.holds(frame)) {
            svg.line({strip.view.x_of(frame), strip.top}, {strip.view.x_of(frame), strip.bottom}, frame_pen);
        }
    }
}

/// Plane, supports and sheets of one strip, cut off where the next strip goes on.
inline void draw_inside(Page& page, const SlopeResult& slope, const Strip& strip) {
    open_strip_window(page.svg, strip);
    draw_supports(page.svg, slope.supports, slope.sheets.run == SupportRun::along_eave, strip);
    draw_blocks(page.svg, slope, strip);
    if (slope.sheets.pieces.empty() || slope.overhangs) {
        draw_frame_lines(page.svg, slope, strip);
    }
    draw_sheets(page.svg, slope.sheets, strip);
    page.svg.polygon(strip.view.all(slope.outline), outline_pen);
    page.svg.close_group();
    draw_breaks(page.svg, strip);
}

inline void draw_strip(Page& page, const SlopeResult& slope, const DrawingOptions& options,
                       const std::vector<FindingNote>& notes, const FindingGroups& groups, const StripRoom& room,
                       const Strips& strips, std::size_t index) {
    const Extent extent = drawn_extent(slope);
    const std::size_t count = strips.breaks.size() - 1;
    const bool first = index == 0;
    const std::vector<RakeMark> marks =
        first || room.marks.empty() ? room.marks : row_names(slope, strips.breaks[index]);
    page.heading(count == 1 ? (slope.sheets.pieces.empty() ? "Supports" : "Sheets")
                            : "Strip " + std::to_string(index + 1) + " of " + std::to_string(count) + ": " +
                                  page.figure(strips.breaks[index]) + " to " + page.figure(strips.breaks[index + 1]));
    const double high = inches(extent.high.up) * strips.scale;
    const std::vector<double> heights = spread_marks(marks, strips.scale);
    const double above = !heights.empty() ? greater(26.0, heights.back() - high + 8.0) : 26.0;
    const View view{strips.breaks[index], room.left, page.y + above + high, strips.scale};
    Strip strip{.view = view,
                .from = strips.breaks[index],
                .to = strips.breaks[index + 1],
                .top = view.y_of(extent.high.up),
                .bottom = view.y_of(extent.low.up),
                .first = first,
                .last = index + 1 == count};
    draw_inside(page, slope, strip);
    if (options.names) {
        write_names(page, slope.sheets, strip);
    }
    if (options.findings) {
        draw_findings(page, notes, groups, strip);
    }
    draw_rake_marks(
        page, marks, strip.view, strip.view.x_of(strip.from), first ? room.marks_right : room.left - 12.0,
        first ? "Purlin marks at the left rake, centres up from the outer face of the fascia" : "Purlin rows");
    page.y = strip.bottom + 8.0;
    if (options.frames) {
        page.y = draw_frames(page, slope, strip, strip.bottom + 2.0);
    }
    page.y = draw_start(page, slope, strip, page.y) + 2.0;
}

/// What the tones and lines of the strips mean.
inline void write_key(Page& page, const SlopeResult& slope, const DrawingOptions& options, bool several) {
    const bool purlins = slope.sheets.run == SupportRun::along_eave;
    std::string words = std::string{purlins ? "Grey bands: purlins" : "Grey bands: chords"} + ", at their real width.";
    words += options.marks && slope.purlins ? " Row centres are up from the outer face of the fascia." : "";
    words += options.frames ? " Ticks at the eave: frames, and the spaces between them." : "";
    words += slope.blocks.empty() ? "" : " Thin upright bands: blocks between the purlins.";
    words += slope.sheets.pieces.empty() ? " Dotted lines: frames." : " Shaded sheets are cut.";
    for (const Finding& finding : slope.sheets.findings) {
        if (options.findings && finding.block) {
            words += " Heavy dashes: where a block would carry the joint.";
            break;
        }
    }
    words += several ? " Strips are measured along the eave from its left corner." : "";
    page.y += 2.0;
    page.paragraph(words, 10.0);
}

/// For those who listen to the drawing.
[[nodiscard]] inline std::string spoken_summary(const SlopeResult& slope, const Page& page) {
    return "Plane " + slope.name + ": eave " + page.figure(slope.plane_length) + ", slope " +
           page.figure(slope.slope_length) + ", diagonal " + page.figure(slope.diagonal) + "; " +
           std::to_string(slope.supports.size()) + " supports, " +
           (slope.sheets.pieces.empty() ? std::string{"no deck"}
                                        : std::to_string(slope.sheets.pieces.size()) + " pieces of sheet, " +
                                              std::to_string(slope.sheets.findings.size()) + " findings") +
           ". " + std::string{drawing_caution};
}
}  // namespace detail

/// A roof plane as a standalone SVG document, eave at the bottom: overview with sides and diagonals, the sheets in
/// strips large enough to read on a phone, purlin marks, frame spacing, findings as numbered shapes with their list,
/// and pieces to cut. A roof without a deck shows its purlins, frames and marks alone. Every figure is a field of `slope`, or the space between two neighbours of a list, as
/// `write_length` writes it at `options.tick`. Nothing is told by tone alone.
///
/// The text grows linearly with the pieces, and the same arguments give the same bytes. Throws `FaultError`: the first
/// fault of `options`, and not_finite, not_supported, does_not_fit or contradiction for a result that holds no plane.
[[nodiscard]] inline std::string draw_plane(const SlopeResult& slope, const DrawingOptions& options) {
    require_sound(options, "options");
    detail::require_drawable(slope);
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const std::vector<detail::FindingNote> notes = detail::notes_of(slope.sheets, page);
    const detail::FindingGroups groups = detail::group_findings(notes);
    const detail::StripRoom room = detail::strip_room(slope, page, options);
    const detail::Strips strips =
        detail::strips_of(detail::needs_of(slope), detail::drawn_extent(slope), page.width - room.left - room.right);
    detail::write_head(page, slope, options);
    if (options.overview) {
        detail::draw_overview(page, detail::overview_of(slope, page, strips.breaks));
    }
    for (std::size_t i = 0; i + 1 < strips.breaks.size(); ++i) {
        detail::draw_strip(page, slope, options, notes, groups, room, strips, i);
    }
    detail::write_key(page, slope, options, strips.breaks.size() > 2);
    if (options.findings && !slope.sheets.pieces.empty()) {
        detail::draw_legend(page, notes, groups);
    }
    if (options.tables) {
        detail::list_pieces(page, slope.sheets);
        detail::list_frames(page, slope.frames);
        detail::list_marks_at_frames(page, slope);
    }
    const std::string title = options.title.empty() ? "Roof plane " + slope.name : options.title;
    return page.svg.document(page.width, page.y + detail::page_margin, title, detail::spoken_summary(slope, page));
}

}  // namespace eavewright
