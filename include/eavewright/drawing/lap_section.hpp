// SPDX-License-Identifier: BSL-1.0
#pragma once

// A side lap cut across, seen from the eave: which panel is on top, and which way the lap opens.

#include <eavewright/drawing/panel_strips.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace eavewright::detail {

/// Ribs and flats from x = `from` to `to`, ribs standing at the whole multiples of `step` around `lap`.
[[nodiscard]] inline std::vector<SvgPoint> rib_profile(double from, double to, double lap, double step, double y) {
    constexpr double foot = 9.0;
    constexpr double crown = 4.0;
    constexpr double high = 11.0;
    std::vector<SvgPoint> points{{from, y}};
    for (int k = -2; k <= 2; ++k) {
        const double rib = lap + step * k;
        if (rib - foot > from && rib + foot < to) {
            points.insert(points.end(),
                          {{rib - foot, y}, {rib - crown, y - high}, {rib + crown, y - high}, {rib + foot, y}});
        }
    }
    points.push_back({to, y});
    return points;
}

/// The lap of panel 1 and panel 2.
inline void draw_lap_section(Page& page, const Panels& panels) {
    if (panels.lanes < 2) {
        return;
    }
    constexpr double step = 52.0;
    constexpr double past = 15.0;
    const bool opens_right = laps_open_right(panels);
    page.heading(std::string{"Side laps open to the "} + (opens_right ? "right" : "left"));
    const double lap = page_margin + 150.0;
    const double y = page.y + 30.0;
    const double way = opens_right ? 1.0 : -1.0;
    const double over = lap - way * step * 1.6;
    const double under = lap + way * step * 1.6;
    const double over_end = lap + way * past;
    const double under_end = lap - way * past;
    constexpr std::string_view over_pen = R"(stroke="#000" stroke-width="2.2" fill="none" stroke-linejoin="round")";
    constexpr std::string_view under_pen = R"(stroke="#000" stroke-width="1" fill="none" stroke-linejoin="round")";
    page.svg.polyline(rib_profile(lesser(under, under_end), greater(under, under_end), lap, step, y), under_pen);
    page.svg.polyline(rib_profile(lesser(over, over_end), greater(over, over_end), lap, step, y - 3.5), over_pen);
    draw_arrow(page.svg, {over_end + way * 5.0, y - 20.0}, {over_end + way * 30.0, y - 20.0});
    const bool over_is_second = panels.panel.lap == SideLap::over_previous;
    page.svg.text({lap - way * 50.0, y + 13.0}, over_is_second ? "panel 2, over" : "panel 1, over",
                  {.size = 10.0, .anchor = TextAnchor::middle, .bold = true});
    page.svg.text({lap + way * 50.0, y + 13.0}, over_is_second ? "panel 1, under" : "panel 2, under",
                  {.size = 10.0, .anchor = TextAnchor::middle});
    page.y = y + 17.0;
    page.paragraph("Cut across, seen from the eave. A panel covers " + page.figure(panels.panel.cover) +
                       ", laps its neighbour by " + page.figure(panels.panel.side_lap) + ", ribs every " +
                       page.figure(panels.panel.rib_spacing) + ".",
                   10.0);
}

}  // namespace eavewright::detail
