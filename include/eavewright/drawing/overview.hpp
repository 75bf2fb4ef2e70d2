// SPDX-License-Identifier: BSL-1.0
#pragma once

// The whole plane at a glance: outline, frame lines, main figures, where the laying starts, which way is up.

#include <eavewright/drawing/page.hpp>
#include <eavewright/squaring/four_corners.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace eavewright::detail {

/// A dimension line below or above an edge, with its text on it.
inline void draw_level_dimension(Page& page, double left, double right, double y, const std::string& words) {
    page.svg.line({left, y}, {right, y}, thin_pen);
    page.svg.line({left, y - 4.0}, {left, y + 4.0}, thin_pen);
    page.svg.line({right, y - 4.0}, {right, y + 4.0}, thin_pen);
    page.label({(left + right) / 2.0, y}, words, {.size = 11.0, .bold = true});
}

/// A diagonal and its text, which stands at `share` of the way from its lower end.
inline void draw_diagonal(Page& page, SvgPoint low, SvgPoint high, double share, const std::string& words) {
    page.svg.line(low, high, diagonal_pen);
    page.label({low.x + (high.x - low.x) * share, low.y + (high.y - low.y) * share}, words, {.size = 10.0});
}

/// The solid corner where the first sheet goes.
inline void draw_start_corner(Page& page, SvgPoint corner, bool right) {
    const double along = right ? -9.0 : 9.0;
    page.svg.polygon({corner, {corner.x + along, corner.y}, {corner.x, corner.y - 9.0}}, R"(fill="#000")");
}

/// Sides and diagonals around the overview: nominal, or as measured and adjusted.
inline void draw_sides(Page& page, const SlopeResult& slope, const View& view, const Extent& extent) {
    const SvgPoint eave_left = view.at(slope.outline[0]);
    const SvgPoint eave_right = view.at(slope.outline[1]);
    const SvgPoint top_right = view.at(slope.outline[2 % slope.outline.size()]);
    const SvgPoint top_left = view.at(slope.outline.back());
    const double mid_y = (eave_left.y + top_left.y) / 2.0;
    const double below = view.y_of(extent.low.up) + 14.0;
    const TextLook side{.size = 11.0, .anchor = TextAnchor::end, .bold = true};
    if (!slope.trueness) {
        draw_diagonal(page, eave_left, top_right, 0.5, page.figure(slope.diagonal));
        draw_level_dimension(page, eave_left.x, eave_right.x, below, page.figure(slope.plane_length));
        page.svg.text({eave_left.x - 6.0, mid_y + 4.0}, page.figure(slope.slope_length), side);
        return;
    }
    const FourSides& sides = slope.trueness->measured.adjusted;
    draw_diagonal(page, eave_left, top_right, 0.24, page.figure(sides.up_right));
    draw_diagonal(page, eave_right, top_left, 0.24, page.figure(sides.up_left));
    draw_level_dimension(page, eave_left.x, eave_right.x, below, page.figure(sides.eave));
    draw_level_dimension(page, top_left.x, top_right.x, view.y_of(extent.high.up) - 9.0, page.figure(sides.ridge));
    page.svg.text({eave_left.x - 6.0, mid_y + 4.0}, page.figure(sides.left), side);
    page.svg.text({eave_right.x + 6.0, mid_y + 4.0}, page.figure(sides.right), {.size = 11.0, .bold = true});
}

inline void draw_up_arrow(Page& page, double x, double bottom, double top) {
    draw_arrow(page.svg, {x, bottom}, {x, top});
    page.svg.text({x + 6.0, (bottom + top) / 2.0 + 3.5}, "up the slope", {.size = 10.0});
}

/// Room beside the overview for the texts of its sides.
[[nodiscard]] inline double side_room(const std::string& words) {
    return text_width(words, bold_room(11.0)) + page_margin + 6.0;
}

/// The overview figure. `breaks` are where the strips below it meet.
inline void draw_overview(Page& page, const SlopeResult& slope, const std::vector<Length>& breaks) {
    constexpr double most_height = 190.0;
    const Extent extent = extent_of(slope.outline);
    const double left_room =
        side_room(page.figure(slope.trueness ? slope.trueness->measured.adjusted.left : slope.slope_length));
    const double right_room = slope.trueness ? side_room(page.figure(slope.trueness->measured.adjusted.right)) : 12.0;
    const double wide = page.width - left_room - right_room;
    const double scale = lesser(wide / inches(extent.high.along - extent.low.along),
                                most_height / inches(extent.high.up - extent.low.up));
    page.y += 42.0;
    const View view{extent.low.along, left_room, page.y + inches(extent.high.up) * scale, scale};
    draw_up_arrow(page, left_room + 4.0, page.y - 16.0, page.y - 38.0);
    for (const Length frame : slope.frames.centres) {
        page.svg.line({view.x_of(frame), view.y_of(extent.low.up)}, {view.x_of(frame), view.y_of(extent.high.up)},
                      frame_pen);
    }
    for (std::size_t i = 1; i + 1 < breaks.size(); ++i) {
        page.svg.line({view.x_of(breaks[i]), view.y_of(extent.low.up) + 4.0}, {view.x_of(breaks[i]), page.y - 4.0},
                      break_pen);
    }
    if (!slope.sheets.pieces.empty()) {
        const bool right = started_right(slope);
        draw_start_corner(page, view.at(right ? slope.outline[1] : slope.outline[0]), right);
    }
    page.svg.polygon(view.all(slope.outline), outline_pen);
    draw_sides(page, slope, view, extent);
    page.y = view.y_of(extent.low.up) + 26.0;
}

}  // namespace eavewright::detail
