// SPDX-License-Identifier: BSL-1.0
#pragma once

// The whole plane at a glance: outline, frame lines, main figures, where the laying starts, which way is up.

#include <eavewright/drawing/page.hpp>
#include <eavewright/squaring/four_corners.hpp>

#include <cstddef>
#include <optional>
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

/// What is written along the sides and diagonals of an overview; an empty text is left out.
struct SideTexts {
    std::string eave;
    std::string left;
    std::string up_right;  ///< diagonal from the eave's left corner
    std::string ridge{};
    std::string right{};
    std::string up_left{};
};

[[nodiscard]] inline SideTexts measured_sides(const FourSides& sides, const Page& page) {
    return {.eave = page.figure(sides.eave),
            .left = page.figure(sides.left),
            .up_right = page.figure(sides.up_right),
            .ridge = page.figure(sides.ridge),
            .right = page.figure(sides.right),
            .up_left = page.figure(sides.up_left)};
}

/// An overview: the plane, lines across it, where strips meet, the corner that the laying starts at.
struct Overview {
    std::vector<PlanePoint> outline;
    SideTexts sides;
    std::vector<Length> lines;
    std::vector<Length> breaks;
    std::optional<bool> starts_right;
};

/// Sides and diagonals around the overview.
inline void draw_sides(Page& page, const Overview& overview, const View& view, const Extent& extent) {
    const SideTexts& sides = overview.sides;
    const SvgPoint eave_left = view.at(overview.outline[0]);
    const SvgPoint eave_right = view.at(overview.outline[1]);
    const SvgPoint top_right = view.at(overview.outline[2 % overview.outline.size()]);
    const SvgPoint top_left = view.at(overview.outline.back());
    const double mid_y = (eave_left.y + top_left.y) / 2.0;
    if (!sides.up_right.empty()) {
        draw_diagonal(page, eave_left, top_right, sides.up_left.empty() ? 0.5 : 0.24, sides.up_right);
    }
    if (!sides.up_left.empty()) {
        draw_diagonal(page, eave_right, top_left, 0.24, sides.up_left);
    }
    if (!sides.eave.empty()) {
        draw_level_dimension(page, eave_left.x, eave_right.x, view.y_of(extent.low.up) + 14.0, sides.eave);
    }
    if (!sides.ridge.empty()) {
        draw_level_dimension(page, top_left.x, top_right.x, view.y_of(extent.high.up) - 9.0, sides.ridge);
    }
    if (!sides.left.empty()) {
        page.svg.text({eave_left.x - 6.0, mid_y + 4.0}, sides.left,
                      {.size = 11.0, .anchor = TextAnchor::end, .bold = true});
    }
    if (!sides.right.empty()) {
        page.svg.text({eave_right.x + 6.0, mid_y + 4.0}, sides.right, {.size = 11.0, .bold = true});
    }
}

inline void draw_up_arrow(Page& page, double x, double bottom, double top) {
    draw_arrow(page.svg, {x, bottom}, {x, top});
    page.svg.text({x + 6.0, (bottom + top) / 2.0 + 3.5}, "up the slope", {.size = 10.0});
}

/// Room beside the overview for the texts of its sides.
[[nodiscard]] inline double side_room(const std::string& words) {
    return text_width(words, bold_room(11.0)) + page_margin + 6.0;
}

/// The overview figure.
inline void draw_overview(Page& page, const Overview& overview) {
    constexpr double most_height = 190.0;
    const Extent extent = extent_of(overview.outline);
    const double left_room = side_room(overview.sides.left);
    const double right_room = overview.sides.right.empty() ? 12.0 : side_room(overview.sides.right);
    const double wide = page.width - left_room - right_room;
    const double scale = lesser(wide / inches(extent.high.along - extent.low.along),
                                most_height / inches(extent.high.up - extent.low.up));
    page.y += 42.0;
    const View view{extent.low.along, left_room, page.y + inches(extent.high.up) * scale, scale};
    draw_up_arrow(page, left_room + 4.0, page.y - 16.0, page.y - 38.0);
    for (const Length line : overview.lines) {
        page.svg.line({view.x_of(line), view.y_of(extent.low.up)}, {view.x_of(line), view.y_of(extent.high.up)},
                      frame_pen);
    }
    for (std::size_t i = 1; i + 1 < overview.breaks.size(); ++i) {
        const double x = view.x_of(overview.breaks[i]);
        page.svg.line({x, view.y_of(extent.low.up) + 4.0}, {x, page.y - 4.0}, break_pen);
    }
    if (overview.starts_right) {
        draw_start_corner(page, view.at(overview.outline[*overview.starts_right ? 1 : 0]), *overview.starts_right);
    }
    page.svg.polygon(view.all(overview.outline), outline_pen);
    draw_sides(page, overview, view, extent);
    page.y = view.y_of(extent.low.up) + 26.0;
}

/// The overview of a slope: its frames, and its sides nominal, or as measured and adjusted.
[[nodiscard]] inline Overview overview_of(const SlopeResult& slope, const Page& page,
                                          const std::vector<Length>& breaks) {
    Overview overview{.outline = slope.outline,
                      .sides = {.eave = page.figure(slope.plane_length),
                                .left = page.figure(slope.slope_length),
                                .up_right = page.figure(slope.diagonal)},
                      .lines = slope.frames.centres,
                      .breaks = breaks,
                      .starts_right = std::nullopt};
    if (slope.trueness) {
        overview.sides = measured_sides(slope.trueness->measured.adjusted, page);
    }
    if (!slope.sheets.pieces.empty()) {
        overview.starts_right = started_right(slope);
    }
    return overview;
}

}  // namespace eavewright::detail
