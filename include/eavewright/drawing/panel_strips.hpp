// SPDX-License-Identifier: BSL-1.0
#pragma once

// Panels in a strip: rips hatched, end laps, lines to snap, which way side laps open, marks along eave and ridge.

#include <eavewright/drawing/strip_edges.hpp>
#include <eavewright/drawing/strip_pieces.hpp>
#include <eavewright/drawing/strips.hpp>
#include <eavewright/whole_roof/steel_result.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright::detail {

inline constexpr std::string_view snap_pen = R"(stroke="#000" stroke-width="0.8" stroke-dasharray="5 2.5" fill="none")";
inline constexpr std::string_view hatch_pen = R"(stroke="#000" stroke-width="0.5" fill="none")";
inline constexpr std::string_view heavy_pen = R"(stroke="#000" stroke-width="2.6" fill="none")";

[[nodiscard]] inline bool starts_right(const Panels& panels) { return panels.start == StartCorner::eave_right; }

/// Which way the free edge of a side lap looks: true to the right. A panel over the one before it opens towards that.
[[nodiscard]] inline bool laps_open_right(const Panels& panels) {
    return (panels.panel.lap == SideLap::over_previous) == starts_right(panels);
}

/// Outline of the plane and of the panels that hang past it.
[[nodiscard]] inline Extent drawn_extent(const SteelResult& steel) {
    Extent all = extent_of(steel.outline);
    for (const PanelPiece& piece : steel.panels.pieces) {
        const Extent one = extent_of(piece.outline);
        all.low = {shorter(all.low.along, one.low.along), shorter(all.low.up, one.low.up)};
        all.high = {longer(all.high.along, one.high.along), longer(all.high.up, one.high.up)};
    }
    return all;
}

/// What the strips of a slope's steel need: no panel is cut by a break.
[[nodiscard]] inline StripNeeds needs_of(const SlopeResult& slope, const SteelResult& steel) {
    StripNeeds needs{
        .name_wide = 0.0, .piece_along = no_length, .piece_up = no_length, .row_spacing = std::nullopt, .edges = {}};
    for (const PanelPiece& piece : steel.panels.pieces) {
        const Extent extent = extent_of(piece.outline);
        needs.name_wide = greater(needs.name_wide, text_width(panel_name(piece), bold_room(name_size)));
        needs.piece_along = longer(needs.piece_along, piece.cover);
        needs.piece_up = longer(needs.piece_up, extent.high.up - extent.low.up);
        if (piece.place == 0) {
            needs.edges.insert(extent.low.along);
        }
    }
    if (slope.purlins) {
        needs.row_spacing = slope.purlins->spacing;
    }
    return needs;
}

/// Slanting lines across a box: told from its neighbours by shape.
inline void hatch(SvgText& svg, const Box& box, double step) {
    const double wide = box.right - box.left;
    const double high = box.bottom - box.top;
    for (double t = step; t < wide + high; t += step) {  // along the left side down, then along the bottom
        const double back = greater(0.0, t - high);
        const double reach = lesser(t, wide);
        svg.line({box.left + back, box.top + (t - back)}, {box.left + reach, box.top + (t - reach)});
    }
}

[[nodiscard]] inline Box box_of(const Extent& extent, const View& view) {
    return {view.x_of(extent.low.along), view.y_of(extent.high.up), view.x_of(extent.high.along),
            view.y_of(extent.low.up)};
}

/// Outlines; what is ripped is hatched, and an upper end that is cut is heavy.
inline void draw_panels(SvgText& svg, const Panels& panels, const Strip& strip) {
    svg.open_group(R"(fill="none" stroke="#000" stroke-width="0.9" stroke-linejoin="round")", "Panels");
    for (const PanelPiece& piece : panels.pieces) {
        if (!strip.touches(extent_of(piece.outline))) {
            continue;
        }
        svg.polygon(strip.view.all(piece.outline));
        if (piece.ripped) {
            Extent extent = extent_of(piece.outline);
            extent.high.up = shorter(piece.outline[2].up, piece.outline[3].up);
            svg.open_group(hatch_pen);
            hatch(svg, box_of(extent, strip.view), 7.0);
            svg.close_group();
        }
        if (piece.cut) {
            svg.line(strip.view.at(piece.outline[3]), strip.view.at(piece.outline[2]), heavy_pen);
        }
    }
    svg.close_group();
}

/// End laps: closely hatched between the lower end of the piece above and the upper end of the piece below.
inline void draw_end_laps(SvgText& svg, const Panels& panels, const Strip& strip) {
    if (panels.end_laps.empty()) {
        return;
    }
    svg.open_group(hatch_pen, "End laps");
    for (const PanelEndLap& lap : panels.end_laps) {
        const Extent lane = extent_of(panels.pieces[lap.upper].outline);
        if (strip.touches(lane)) {
            const Box box = box_of({{lane.low.along, lap.from}, {lane.high.along, lap.to}}, strip.view);
            hatch(svg, box, 3.0);
            svg.line({box.left, box.bottom}, {box.right, box.bottom}, R"(stroke-width="1.6")");
            svg.line({box.left, box.top}, {box.right, box.top}, R"(stroke-dasharray="2 1.5" stroke-width="0.8")");
        }
    }
    svg.close_group();
}

/// Lines to snap, straight from mark to mark.
inline void draw_snap_lines(SvgText& svg, const ScrewLines& lines, const View& view) {
    svg.open_group(snap_pen, "Lines to snap");
    for (const ScrewLine& line : lines.lines) {
        svg.line(view.at({lines.panel_edges.front(), line.left_mark}),
                 view.at({lines.panel_edges.back(), line.right_mark}));
    }
    svg.close_group();
}

/// An arrow head on each side lap, under the ridge: it points the way that the lap opens.
inline void draw_lap_heads(SvgText& svg, const Panels& panels, const Strip& strip) {
    const double way = laps_open_right(panels) ? 1.0 : -1.0;
    svg.open_group(R"(fill="#000" stroke="#fff" stroke-width="0.8")", "Side laps open this way");
    for (const PanelPiece& piece : panels.pieces) {
        const PlanePoint corner = piece.outline[starts_right(panels) ? 3 : 2];  // upper, where the next lane begins
        const Extent extent = extent_of(piece.outline);
        const bool topmost = piece.lane + 1 < panels.lanes && strip.holds(middle_of(extent).along);
        if (topmost && (&piece == &panels.pieces.back() || (&piece + 1)->lane != piece.lane)) {
            const SvgPoint at = strip.view.at(corner);
            svg.polygon(
                {{at.x + way * 7.0, at.y + 9.0}, {at.x - way * 1.0, at.y + 4.5}, {at.x - way * 1.0, at.y + 13.5}});
        }
    }
    svg.close_group();
}

/// Places in ascending order moved apart to `step` at least, within `low` to `high` as far as they fit.
[[nodiscard]] inline std::vector<double> spread_out(std::vector<double> places, double step, double low, double high) {
    for (std::size_t i = 0; i < places.size(); ++i) {
        places[i] = greater(places[i], i == 0 ? low : places[i - 1] + step);
    }
    for (std::size_t i = places.size(); i-- > 0;) {
        places[i] = lesser(places[i], i + 1 == places.size() ? high : places[i + 1] - step);
    }
    return places;
}

/// A mark where a panel ends, as it is written.
struct CoverText {
    double x;
    std::string words;
};

/// Marks of the panels that a strip holds, from left to right.
[[nodiscard]] inline std::vector<CoverText> cover_texts(const Page& page, const Panels& panels, const Strip& strip,
                                                        bool at_eave) {
    std::vector<CoverText> texts;
    std::size_t mark = 0;
    for (const PanelPiece& piece : panels.pieces) {
        if (piece.place != 0 || mark >= panels.marks.size()) {
            continue;
        }
        const PanelMark& here = panels.marks[mark++];
        if (strip.holds(middle_of(extent_of(piece.outline)).along)) {
            texts.push_back({strip.view.x_of(piece.outline[starts_right(panels) ? 0 : 1].along),
                             page.figure(at_eave ? here.eave : here.ridge)});
        }
    }
    if (starts_right(panels)) {
        return {texts.rbegin(), texts.rend()};
    }
    return texts;
}

/// Room of the longest mark along eave or ridge, with its leader.
[[nodiscard]] inline double cover_room(const Page& page, const Panels& panels) {
    double room = 0.0;
    for (const PanelMark& mark : panels.marks) {
        room = greater(room, greater(text_width(page.figure(mark.eave), mark_text),
                                     text_width(page.figure(mark.ridge), mark_text)));
    }
    return room == 0.0 ? 0.0 : room + 12.0;
}

/// Cumulative marks turned upwards, below the eave or above the ridge, each with a leader to its edge.
inline void draw_cover_marks(Page& page, const Panels& panels, const Strip& strip, bool at_eave) {
    const std::vector<CoverText> texts = cover_texts(page, panels, strip, at_eave);
    std::vector<double> wanted;
    for (const CoverText& text : texts) {
        wanted.push_back(text.x);
    }
    const std::vector<double> places = spread_out(wanted, 11.0, page_margin + 4.0, page.width - page_margin - 4.0);
    const double edge = at_eave ? strip.bottom : strip.top;
    const double way = at_eave ? 1.0 : -1.0;
    page.svg.open_group("", at_eave ? "Marks along the eave where panels end" : "Marks along the ridge");
    for (std::size_t i = 0; i < texts.size(); ++i) {
        page.svg.polyline({{texts[i].x, edge}, {texts[i].x, edge + way * 3.0}, {places[i], edge + way * 8.0}},
                          thin_pen);
        page.svg.text({places[i] + 3.4, edge + way * 10.0}, texts[i].words,
                      {.size = mark_text, .anchor = at_eave ? TextAnchor::end : TextAnchor::start, .turned = true});
    }
    page.svg.close_group();
}

}  // namespace eavewright::detail
