// SPDX-License-Identifier: BSL-1.0
#pragma once

// Sheets in a strip, with their names, and blocks between the purlins.

#include <eavewright/drawing/sheet_findings.hpp>
#include <eavewright/drawing/strip_pieces.hpp>
#include <eavewright/drawing/strips.hpp>
#include <eavewright/units/write_tape.hpp>

#include <cmath>
#include <optional>
#include <set>
#include <string>

namespace eavewright::detail {

/// Lower edges of the lanes along the eave, where lanes run up the slope.
[[nodiscard]] inline std::set<Length> lane_edges(const Sheets& sheets) {
    std::set<Length> edges;
    if (sheets.run == SupportRun::along_eave) {
        for (const SheetPiece& piece : sheets.pieces) {
            if (piece.place == 0) {
                edges.insert(extent_of(piece.outline).low.along);
            }
        }
    }
    return edges;
}

/// What the strips of a slope's sheets need.
[[nodiscard]] inline StripNeeds needs_of(const SlopeResult& slope) {
    StripNeeds needs{.name_wide = widest_name(slope.sheets),
                     .piece_along = no_length,
                     .piece_up = no_length,
                     .row_spacing = std::nullopt,
                     .edges = lane_edges(slope.sheets)};
    for (const SheetPiece& piece : slope.sheets.pieces) {
        const Extent extent = extent_of(piece.outline);
        needs.piece_along = longer(needs.piece_along, extent.high.along - extent.low.along);
        needs.piece_up = longer(needs.piece_up, extent.high.up - extent.low.up);
    }
    if (slope.purlins) {
        needs.row_spacing = slope.purlins->spacing;
    }
    return needs;
}

/// Blocks in the bays that were chosen, from row to row.
inline void draw_blocks(SvgText& svg, const SlopeResult& slope, const Strip& strip) {
    if (!slope.purlins) {
        return;
    }
    for (const BlockingPiece& block : slope.blocks) {
        if (strip.holds(block.along) && block.below + 1 < slope.purlins->rows.size()) {
            const Length low = up_at(slope.purlins->rows[block.below].centreline, block.along);
            const Length high = up_at(slope.purlins->rows[block.below + 1].centreline, block.along);
            svg.line(strip.view.at({block.along, low}), strip.view.at({block.along, high}),
                     R"(stroke="#aaa" stroke-width="1.6")");
        }
    }
}

/// A grid that is turned, and a first lane that is narrower than the rest, in words.
[[nodiscard]] inline std::string grid_in_words(const Sheets& sheets, const Page& page) {
    std::string words;
    if (sheets.turn != 0.0) {
        const Length over = page.tick.is_metric() ? Length::from_inches(3000.0 / 25.4) : Length::from_feet(10.0);
        const Length off = over * std::fabs(sheets.turn);
        words += "The grid is turned " + std::string{sheets.turn > 0.0 ? "counter-clockwise" : "clockwise"} + ", " +
                 write_length_with_remainder(off, page.tick) + " in " + page.figure(over) + ". ";
    }
    std::optional<Length> first;
    Length widest = no_length;
    for (const SheetPiece& piece : sheets.pieces) {
        widest = longer(widest, piece.width);
        if (piece.lane == 0) {
            first = first ? longer(*first, piece.width) : piece.width;
        }
    }
    if (first && *first < widest) {
        words += std::string{sheets.run == SupportRun::along_eave ? "Lane" : "Course"} + " A is ripped to " +
                 page.figure(*first) + ". ";
    }
    return words;
}

/// Outlines of the sheets; those that are cut are shaded lightly.
inline void draw_sheets(SvgText& svg, const Sheets& sheets, const Strip& strip) {
    svg.open_group(R"(fill="none" stroke="#000" stroke-width="0.9" stroke-linejoin="round")", "Sheets");
    for (const SheetPiece& piece : sheets.pieces) {
        if (strip.touches(extent_of(piece.outline))) {
            svg.polygon(strip.view.all(piece.outline), piece.whole ? "" : R"(fill="#000" fill-opacity="0.1")");
        }
    }
    svg.close_group();
}

/// Cut size under the name, where the piece is large enough on the page for both.
inline void write_size_inside(Page& page, const SheetPiece& piece, const Extent& extent, Strip& strip) {
    const std::string size = page.figure(piece.width) + " x " + page.figure(piece.length);
    const double wide = text_width(size, least_text);
    const SvgPoint middle = strip.view.at(middle_of(extent));
    const bool fits = inches(extent.high.along - extent.low.along) * strip.view.scale > wide + 4.0 &&
                      inches(extent.high.up - extent.low.up) * strip.view.scale > 34.0;
    if (!piece.whole && fits) {
        page.label({middle.x, middle.y + 12.0}, size, {.size = least_text});
        strip.taken.push_back({middle.x - wide / 2.0, middle.y + 6.0, middle.x + wide / 2.0, middle.y + 18.0});
    }
}

inline void write_names(Page& page, const Sheets& sheets, Strip& strip) {
    for (const SheetPiece& piece : sheets.pieces) {
        const Extent extent = extent_of(piece.outline);
        if (!strip.holds(middle_of(extent).along)) {
            continue;
        }
        Extent seen = extent;  // a sheet that a break cuts carries its name in the part with its middle
        seen.low.along = longer(extent.low.along, strip.from);
        seen.high.along = shorter(extent.high.along, strip.to);
        const NamePlace place = write_name(page, seen, piece_name(piece), strip);
        if (!place.outside) {
            write_size_inside(page, piece, seen, strip);
        }
    }
}

}  // namespace eavewright::detail
