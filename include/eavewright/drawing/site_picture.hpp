// SPDX-License-Identifier: BSL-1.0
#pragma once

// The small picture on a site sheet: the plane, its purlins, the base line, and the marks of the panels at the eave.

#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace eavewright::detail {

/// Everything that the picture shows of a slope, sheets and steel that hang past the plane left out.
[[nodiscard]] inline Extent pictured_extent(const SlopeResult& slope) {
    Extent all = extent_of(slope.outline);
    if (slope.steel) {
        const Extent steel = extent_of(slope.steel->outline);
        all.low = {shorter(all.low.along, steel.low.along), shorter(all.low.up, steel.low.up)};
        all.high = {longer(all.high.along, steel.high.along), longer(all.high.up, steel.high.up)};
    }
    return all;
}

/// Ticks at the eave where panels end, a number at every fifth, or fewer where those would touch.
inline void draw_panel_ticks(SvgText& svg, const SteelResult& steel, const View& view, double size) {
    const Extent extent = extent_of(steel.outline);
    const bool from_left = steel.panels.start == StartCorner::eave_left;
    const auto x_of = [&](const PanelMark& mark) {
        return view.x_of(from_left ? extent.low.along + mark.exact : extent.high.along - mark.exact);
    };
    const double widest = text_width(std::to_string(steel.panels.lanes), size) + 2.0;
    std::int32_t every = 5;
    while (inches(steel.panels.panel.cover) * view.scale * every < widest) {
        every *= 2;
    }
    for (const PanelMark& mark : steel.panels.marks) {
        const bool named = (mark.lane + 1) % every == 0 && mark.lane + 1 < steel.panels.lanes;
        const double x = x_of(mark);
        svg.line({x, view.eave_y}, {x, view.eave_y + (named ? 5.0 : 2.5)}, thin_pen);
        if (named) {
            svg.text({x, view.eave_y + 5.5 + size * 0.85}, std::to_string(mark.lane + 1),
                     {.size = size, .anchor = TextAnchor::middle});
        }
    }
}

/// The far edge of the first column of sheets, or of the first panel where there is no deck. Says whether
/// there is one: courses have none.
[[nodiscard]] inline bool draw_base_line(SvgText& svg, const SlopeResult& slope, const View& view) {
    const Extent extent = extent_of(slope.outline);
    Length at = extent.low.along;
    if (!slope.sheets.pieces.empty() && slope.sheets.run == SupportRun::along_eave) {
        const Extent first = extent_of(slope.sheets.pieces.front().outline);
        at = started_right(slope) ? first.low.along : first.high.along;
    } else if (slope.sheets.pieces.empty() && slope.steel && !slope.steel->panels.marks.empty()) {
        const Length exact = slope.steel->panels.marks.front().exact;
        at = slope.steel->panels.start == StartCorner::eave_left ? extent.low.along + exact : extent.high.along - exact;
    } else {
        return false;
    }
    svg.line({view.x_of(at), view.eave_y}, {view.x_of(at), view.y_of(extent.high.up)},
             R"(stroke="#000" stroke-width="1.4" stroke-dasharray="5 2" fill="none")");
    return true;
}

/// The plane within a box of `width` and at most `height`; how high it came out. Numbers stand at size `size`.
[[nodiscard]] inline double draw_site_picture(SvgText& svg, const SlopeResult& slope, SvgPoint corner, double width,
                                              double height, double size, Tick tick) {
    const Extent extent = pictured_extent(slope);
    const std::string up = write_length(slope.slope_length, tick);
    const std::string along = write_length(slope.plane_length, tick);
    const double side = text_width(up, bold_room(size)) + 6.0;
    const double above = size * 1.4;
    const double below = (slope.steel ? size * 1.2 + 6.0 : 4.0) + size * 2.6;
    const double scale = lesser((width - side - 6.0) / inches(extent.high.along - extent.low.along),
                                (height - above - below) / inches(extent.high.up - extent.low.up));
    const View view{extent.low.along, corner.x + side, corner.y + above + inches(extent.high.up) * scale, scale};
    for (const SupportLine& support : slope.supports) {
        svg.polyline(view.all(support.centreline), R"(stroke="#555" stroke-width="0.5" fill="none")");
    }
    svg.line(view.at(slope.outline.front()), view.at(slope.outline[2 % slope.outline.size()]), diagonal_pen);
    svg.line(view.at(slope.outline[1]), view.at(slope.outline.back()), diagonal_pen);
    const bool base_line = draw_base_line(svg, slope, view);
    svg.polygon(view.all(slope.outline), R"(fill="none" stroke="#000" stroke-width="1.3" stroke-linejoin="round")");
    if (slope.steel) {
        draw_panel_ticks(svg, *slope.steel, view, size);
    }
    const double top = view.y_of(extent.high.up);
    const double bottom = view.y_of(extent.low.up);
    svg.text({view.x - 4.0, (top + bottom) / 2.0 + size * 0.36}, up,
             {.size = size, .anchor = TextAnchor::end, .bold = true});
    svg.text({(view.x + view.x_of(extent.high.along)) / 2.0, bottom + below - 2.0 - size * 1.2}, "eave " + along,
             {.size = size, .anchor = TextAnchor::middle, .bold = true});
    svg.text({view.x, top - size * 0.4}, "up the slope", {.size = size});
    svg.text({corner.x, bottom + below - 1.0},
             std::string{slope.purlins ? "Thin lines: purlins." : "Thin lines: chords."} +
                 (base_line ? " Heavy dashes: base line." : "") + (slope.steel ? " Ticks: panels." : ""),
             {.size = size});
    return bottom + below - corner.y;
}

}  // namespace eavewright::detail
