// SPDX-License-Identifier: BSL-1.0
#pragma once

// Wind zones of one slope and how hard its fasteners work in them: a standalone SVG text, made from the result alone. Zones are told
// by how close their hatching is and by name, so that they read in grey.

#include <eavewright/drawing/cut_drawing.hpp>
#include <eavewright/drawing/heads.hpp>
#include <eavewright/drawing/number_table.hpp>
#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/overview.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/whole_roof/holding_result.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

namespace detail {
[[nodiscard]] inline std::string zone_in_words(RoofZone zone, bool overhang) {
    return std::string{name_of(zone)} + (overhang ? "o" : "");
}
/// Distance between the lines of a zone's hatching; 0 for none.
[[nodiscard]] inline double zone_hatching(RoofZone zone) {
    switch (zone) {
        case RoofZone::zone_2:
        case RoofZone::zone_2_prime: return 7.0;
        case RoofZone::zone_3:
        case RoofZone::zone_3_prime: return 3.5;
        default: return 0.0;
    }
}
inline constexpr std::string_view zone_pen = R"(fill="none" stroke="#000" stroke-width="0.8")";
inline constexpr std::string_view overhang_pen = R"(fill="none" stroke="#000" stroke-width="1" stroke-dasharray="2 2")";
inline constexpr std::string_view zone_hatch_pen = R"(stroke="#555" stroke-width="0.7" fill="none")";

/// The plane with its zones; what lies over no room is dashed, and "o" stands after its name.
inline void draw_zone_plan(Page& page, const SlopeResult& slope) {
    constexpr double room = 12.0;
    constexpr double most_height = 260.0;
    const Extent extent = extent_of(slope.outline);
    const double scale = lesser((page.width - 2.0 * room) / inches(extent.high.along - extent.low.along),
                                most_height / inches(extent.high.up - extent.low.up));
    page.y += 44.0;
    const View view{extent.low.along, room, page.y + inches(extent.high.up) * scale, scale};
    draw_up_arrow(page, room + 4.0, page.y - 12.0, page.y - 34.0);
    for (const ZoneArea& area : slope.holding->zones.areas) {
        const std::vector<SvgPoint> corners = view.all(area.outline);
        if (const double step = zone_hatching(area.zone); step > 0.0) {
            page.svg.open_group(zone_hatch_pen);
            hatch_polygon(page.svg, corners, step);
            page.svg.close_group();
        }
        page.svg.polygon(corners, area.overhang ? overhang_pen : zone_pen);
    }
    for (const ZoneArea& area : slope.holding->zones.areas) {
        const Extent box = extent_of(area.outline);
        const std::string name = std::string{name_of(area.zone)} + (area.overhang ? "o" : "");
        const double wide = inches(box.high.along - box.low.along) * scale;
        const double high = inches(box.high.up - box.low.up) * scale;
        if (wide >= text_width(name, bold_room(least_text)) + 2.0 && high >= least_text + 1.0) {
            page.label(view.at(middle_of(box)), name, {.size = least_text, .bold = true});
        }
    }
    page.svg.polygon(view.all(slope.outline), outline_pen);
    page.y = view.y_of(extent.low.up) + 6.0;
    const ZoneWidths& widths = slope.holding->zones.widths;
    page.paragraph(
        "Zone 1: no hatching. Zone 2: hatched, strips " + page.figure(widths.strip) +
            " wide, level. Zone 3: close hatching, corners. Dashed, with an o: over no room; its pressure is not "
            "computed.",
        10.0);
}

/// A bar for each zone: how much of what is allowed its hardest-worked fastener takes. The line stands at all of it.
inline void draw_bars(Page& page, std::string_view what, const std::vector<const ZoneFasteners*>& zones) {
    page.heading(std::string{what} + ": share of what the hardest-worked one is allowed");
    constexpr double name_room = 52.0;
    constexpr double figure_room = 44.0;
    double most = 1.0;
    for (const ZoneFasteners* zone : zones) {
        most = greater(most, zone->utilisation);
    }
    const double scale = (page.width - 2.0 * page_margin - name_room - figure_room) / most;
    const double left = page_margin + name_room;
    const double top = page.y + 2.0;
    for (const ZoneFasteners* zone : zones) {
        page.y += 16.0;
        page.svg.text({page_margin, page.y}, "zone " + zone_in_words(zone->zone, zone->overhang), {.size = least_text});
        if (!zone->uplift) {
            page.svg.text({left + 4.0, page.y}, "not computed", {.size = least_text});
            continue;
        }
        const double wide = zone->utilisation * scale;
        page.svg.rect({left, page.y - 9.0}, wide, 10.0, R"(fill="#bbb" stroke="#000" stroke-width="0.8")");
        page.svg.text({left + greater(wide, scale) + 4.0, page.y}, write_decimal(zone->utilisation * 100.0, 0) + " %",
                      {.size = least_text, .bold = zone->utilisation > 1.0});
    }
    page.svg.line({left + scale, top}, {left + scale, page.y + 4.0}, R"(stroke="#000" stroke-width="1.6")");
    page.svg.line({left, top}, {left, page.y + 4.0}, thin_pen);
    page.y += 8.0;
}

[[nodiscard]] inline std::string pressure_in_words(const Page& page, Pressure p) {
    return page.tick.is_metric() ? write_decimal(pascals(p) / 1000.0, 2) + " kPa" : write_decimal(psf(p), 1) + " psf";
}
[[nodiscard]] inline std::string force_in_words(const Page& page, Force f) {
    return page.tick.is_metric() ? write_decimal(newtons(f), 0) + " N" : write_decimal(pounds_force(f), 0) + " lb";
}

/// What stands behind the bars.
inline void list_zone(Page& page, const ZoneFasteners& zone, std::string_view fasteners, const std::string& spacing) {
    page.y += 3.0;
    page.paragraph("Zone " + zone_in_words(zone.zone, zone.overhang) + ": " + std::to_string(zone.fasteners) + " " +
                       std::string{fasteners} + spacing,
                   10.0, true);
    std::string words;
    if (zone.uplift) {
        words = "Uplift " + pressure_in_words(page, *zone.uplift) + ", " + force_in_words(page, zone.load) +
                " on the hardest-worked";
        if (zone.widest_spacing) {
            words += "; used up at " + page.figure(round_down_to_tick(*zone.widest_spacing, page.tick)) + " apart";
        }
        words += ". ";
    }
    words += zone.verdict == Verdict::holds   ? "Holds."
             : zone.verdict == Verdict::fails ? "Fails."
                                              : "No verdict: " + zone.reason + ".";
    page.paragraph(words, 10.0, false, 12.0);
}

inline void draw_nail_zones(Page& page, const SlopeHolding& holding) {
    std::vector<const ZoneFasteners*> zones;
    for (const ZoneNails& zone : holding.nails) {
        zones.push_back(&zone.loaded);
    }
    draw_bars(page, "Nails", zones);
    for (const ZoneNails& zone : holding.nails) {
        list_zone(page, zone.loaded, "nails",
                  ", " + page.figure(zone.edge) + " apart at ends, " + page.figure(zone.field) + " between");
    }
}
inline void draw_screw_zones(Page& page, const SlopeHolding& holding) {
    std::vector<const ZoneFasteners*> zones;
    for (const ZoneFasteners& zone : holding.screws) {
        zones.push_back(&zone);
    }
    draw_bars(page, "Screws of the steel, out of the purlins", zones);
    for (const ZoneFasteners& zone : holding.screws) {
        list_zone(page, zone, "screws", "");
    }
}
}  // namespace detail

/// Wind zones of one slope, and the share that fasteners take of what they are allowed zone by zone, as a standalone SVG
/// document. Every figure is a field of the result. `options.overview` draws the plan; marks, frames, names, findings and tables
/// are not used. The same arguments give the same bytes. Throws `FaultError`: the first fault of `options`; missing_field where
/// the slope's fasteners are not held against the wind; what `draw_plane` refuses of an outline.
[[nodiscard]] inline std::string draw_zones(const SlopeResult& slope, const DrawingOptions& options) {
    require_sound(options, "options");
    if (!slope.holding) {
        throw FaultError{Fault{FaultCode::missing_field, "slope.holding", "", "fasteners held against the wind"}};
    }
    detail::require_outline(slope.outline, "slope.outline");
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const std::string title = options.title.empty() ? "Wind zones" : options.title;
    detail::write_title(page, title, detail::slope_in_words(slope.name), slope.surface);
    page.paragraph(holding_caution, 10.0);
    page.paragraph("Zones: " + std::string{slope.holding->zones.placement} + ". Edge distance a " +
                       page.figure(slope.holding->zones.edge.a) + ".",
                   10.0);
    if (options.overview) {
        detail::draw_zone_plan(page, slope);
    }
    if (slope.holding->nail) {
        detail::draw_nail_zones(page, *slope.holding);
    }
    if (slope.holding->screw) {
        detail::draw_screw_zones(page, *slope.holding);
    }
    return page.svg.document(page.width, page.y + detail::page_margin, title,
                             detail::slope_in_words(slope.name) + ": " +
                                 std::to_string(slope.holding->zones.areas.size()) + " parts in wind zones. " +
                                 std::string{holding_caution});
}

}  // namespace eavewright
