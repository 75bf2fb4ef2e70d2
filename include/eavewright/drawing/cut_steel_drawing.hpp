// SPDX-License-Identifier: BSL-1.0
#pragma once

// The steel of a plane of any outline as a drawing: a standalone SVG text, made from the result alone.

#include <eavewright/drawing/cut_steel_tables.hpp>
#include <eavewright/drawing/heads.hpp>
#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/overview.hpp>
#include <eavewright/drawing/panel_strips.hpp>
#include <eavewright/drawing/shape_drawing.hpp>
#include <eavewright/drawing/steel_notes.hpp>
#include <eavewright/drawing/strip_edges.hpp>
#include <eavewright/drawing/strip_pieces.hpp>
#include <eavewright/drawing/strips.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/whole_roof/cut_steel.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
inline constexpr std::string_view cut_pen =
    R"(stroke="#000" stroke-width="2.6" fill="none" stroke-linecap="round" stroke-linejoin="round")";

/// A result made by hand can hold anything; one made by the library passes.
inline void require_drawable_steel(const CutSteel& steel) {
    require_outline(steel.outline, "steel.outline");
    if (steel.edges.size() != steel.outline.size()) {
        refuse_drawing(FaultCode::contradiction, "steel.edges", "one for each corner");
    }
    for (const std::vector<PlanePoint>& opening : steel.openings) {
        require_outline(opening, "steel.openings");
    }
    for (const SupportLine& support : steel.supports) {
        if (support.centreline.size() < 2 || !all_usable(support.centreline)) {
            refuse_drawing(FaultCode::not_finite, "steel.supports", "two finite points or more each");
        }
    }
    for (const CutPanel& piece : steel.panels.pieces) {
        if (piece.part.outline.size() < 3 || !all_usable(piece.part.outline) || !is_usable(piece.order_length) ||
            !is_usable(piece.low) || !is_usable(piece.out)) {
            refuse_drawing(FaultCode::not_finite, "steel.panels.pieces", "finite corners and lengths");
        }
    }
    const std::size_t pieces = steel.panels.pieces.size();
    for (const PanelEndLap& lap : steel.panels.end_laps) {
        require_below(lap.lower, pieces, "panels.end_laps");
        require_below(lap.upper, pieces, "panels.end_laps");
    }
    for (const PanelFinding& finding : steel.panels.findings) {
        require_below(finding.piece, pieces, "panels.findings");
    }
}

[[nodiscard]] inline Extent drawn_extent(const CutSteel& steel) {
    Extent all = extent_of(steel.outline);
    for (const CutPanel& piece : steel.panels.pieces) {
        const Extent one = extent_of(piece.part.outline);
        all.low = {shorter(all.low.along, one.low.along), shorter(all.low.up, one.low.up)};
        all.high = {longer(all.high.along, one.high.along), longer(all.high.up, one.high.up)};
    }
    return all;
}

[[nodiscard]] inline StripNeeds needs_of(const CutSteel& steel) {
    StripNeeds needs{
        .name_wide = 0.0, .piece_along = no_length, .piece_up = no_length, .row_spacing = std::nullopt, .edges = {}};
    for (const CutPanel& piece : steel.panels.pieces) {
        const Extent extent = extent_of(piece.part.outline);
        needs.name_wide = greater(needs.name_wide, text_width(panel_name(piece), bold_room(name_size)));
        needs.piece_along = longer(needs.piece_along, piece.cover);
        needs.piece_up = longer(needs.piece_up, extent.high.up - extent.low.up);
        needs.edges.insert(extent.low.along - piece.out);
    }
    return needs;
}

/// Supports where they run, and only under the plane.
inline void draw_runs(SvgText& svg, const CutSteel& steel, const Strip& strip) {
    svg.open_group(R"(stroke="#bbb" fill="none")", "Purlins");
    for (const SupportLine& line : steel.supports) {
        const Length middle = (line.centreline.front().up + line.centreline.back().up) / 2.0;
        const std::string look =
            "stroke-width=\"" + SvgText::number(greater(1.0, inches(line.width) * strip.view.scale)) + "\"";
        for (const Span& on : along_spans(steel.outline, steel.openings, middle)) {
            const std::vector<Span> all{on};
            for (const Span& run : line.stretches.empty() ? all : line.stretches) {
                const Length from = longer(on.low, run.low);
                const Length to = shorter(on.high, run.high);
                if (from < to) {
                    svg.line(strip.view.at({from, up_at(line.centreline, from)}),
                             strip.view.at({to, up_at(line.centreline, to)}), look);
                }
            }
        }
    }
    svg.close_group();
}

/// A cut along the points of an end.
inline void draw_end(SvgText& svg, const CutPanel& piece, const PanelEnd& end, const View& view) {
    if (!end.cut) {
        return;
    }
    const Length left = extent_of(piece.part.outline).low.along - piece.out;
    std::vector<SvgPoint> points;
    for (const PlanePoint& p : end.line) {
        points.push_back(view.at({left + p.along, piece.low + p.up}));
    }
    svg.polyline(points, cut_pen);
}

inline void draw_cut_panels(SvgText& svg, const CutSteel& steel, const Strip& strip) {
    svg.open_group(R"(fill="none" stroke="#000" stroke-width="0.9" stroke-linejoin="round")", "Panels");
    for (const CutPanel& piece : steel.panels.pieces) {
        if (strip.touches(extent_of(piece.part.outline))) {
            svg.polygon(strip.view.all(piece.part.outline));
            draw_end(svg, piece, piece.upper, strip.view);
            draw_end(svg, piece, piece.lower, strip.view);
        }
    }
    svg.close_group();
    svg.open_group(hatch_pen, "End laps");
    for (const PanelEndLap& lap : steel.panels.end_laps) {
        const PlanePart& part = steel.panels.pieces[lap.upper].part;
        for (const Span& span : along_spans(part.outline, part.cutouts, (lap.from + lap.to) / 2.0)) {
            hatch(svg, box_of({{span.low, lap.from}, {span.high, lap.to}}, strip.view), 3.0);
        }
    }
    svg.close_group();
}

/// Openings, crossed from corner to corner.
inline void draw_openings(SvgText& svg, const CutSteel& steel, const View& view) {
    svg.open_group(R"(fill="#fff" stroke="#000" stroke-width="1.4")", "Openings");
    for (const std::vector<PlanePoint>& opening : steel.openings) {
        svg.polygon(view.all(opening));
        for (std::size_t i = 0; i < opening.size() / 2; ++i) {
            svg.line(view.at(opening[i]), view.at(opening[i + opening.size() / 2]), thin_pen);
        }
    }
    svg.close_group();
}

/// Where a panel's name goes: in the widest stretch of it at the height of its middle, or nearby.
[[nodiscard]] inline Extent name_room(const CutPanel& piece, const View& view, double wanted) {
    const Extent hull = extent_of(piece.part.outline);
    const Length high = one_inch * ((name_size + 3.0) / view.scale);
    Extent best{hull.low, hull.low};
    for (const double share : std::array<double, 5>{0.5, 0.35, 0.65, 0.2, 0.8}) {
        const Length up = hull.low.up + (hull.high.up - hull.low.up) * share;
        for (const Span& span : along_spans(piece.part.outline, piece.part.cutouts, up)) {
            if (span.high - span.low > best.high.along - best.low.along) {
                best = {{span.low, up - high / 2.0}, {span.high, up + high / 2.0}};
            }
        }
        if (inches(best.high.along - best.low.along) * view.scale >= wanted) {
            return best;
        }
    }
    return best;
}

inline void write_cut_names(Page& page, const CutSteel& steel, Strip& strip) {
    for (const CutPanel& piece : steel.panels.pieces) {
        const std::string name = panel_name(piece);
        const double wide = text_width(name, bold_room(name_size));
        const Extent room = name_room(piece, strip.view, wide);
        if (strip.holds(middle_of(room).along)) {
            const SvgPoint at = strip.view.at(middle_of(room));
            page.label(at, name, {.size = name_size, .bold = true});
            strip.taken.push_back({at.x - wide / 2.0, at.y - 6.0, at.x + wide / 2.0, at.y + 6.0});
        }
    }
}

inline void draw_cut_strip(Page& page, const CutSteel& steel, const DrawingOptions& options,
                           const std::vector<FindingNote>& notes, const FindingGroups& groups, const Strips& strips,
                           std::size_t index) {
    const Extent extent = drawn_extent(steel);
    const std::size_t count = strips.breaks.size() - 1;
    const double high = inches(extent.high.up - extent.low.up) * strips.scale;
    page.heading(count == 1 ? "Panels" : "Strip " + std::to_string(index + 1) + " of " + std::to_string(count));
    const double top = page.y + 26.0;
    Strip strip{
        .view = {strips.breaks[index], page_margin + 12.0, top + inches(extent.high.up) * strips.scale, strips.scale},
        .from = strips.breaks[index],
        .to = strips.breaks[index + 1],
        .top = top,
        .bottom = top + high,
        .first = index == 0,
        .last = index + 1 == count};
    open_strip_window(page.svg, strip);
    draw_runs(page.svg, steel, strip);
    draw_openings(page.svg, steel, strip.view);
    draw_cut_panels(page.svg, steel, strip);
    draw_edges(page, strip.view.all(steel.outline), steel.edges);
    page.svg.close_group();
    draw_breaks(page.svg, strip);
    if (options.names) {
        write_cut_names(page, steel, strip);
    }
    if (options.findings) {
        draw_findings(page, notes, groups, strip);
    }
    page.y = strip.bottom + 10.0;
    const bool right = steel.panels.start == StartCorner::eave_right;
    if (right ? strip.last : strip.first) {
        const double way = right ? -1.0 : 1.0;
        const double x = right ? strip.view.x_of(strip.to) : strip.view.x_of(strip.from);
        draw_arrow(page.svg, {x, page.y + 6.0}, {x + way * 28.0, page.y + 6.0});
        page.svg.text({x + way * 33.0, page.y + 9.5}, "begin at this side",
                      {.size = 10.0, .anchor = right ? TextAnchor::end : TextAnchor::start});
        page.y += 14.0;
    }
    page.y += 2.0;
}

[[nodiscard]] inline std::vector<FindingNote> notes_of(const CutSteel& steel, const Page& page) {
    std::vector<FindingNote> notes;
    for (const PanelFinding& finding : steel.panels.findings) {
        const NoteLook look = look_of(finding.code);
        notes.push_back({.rank = look.rank,
                         .shape = look.shape,
                         .kind = in_words(name_of(finding.code)),
                         .figures = finding_figures(finding, page),
                         .piece = finding.piece,
                         .name = "panel " + panel_name(steel.panels.pieces[finding.piece]),
                         .place = finding.place});
    }
    for (const ScrewFinding& finding : steel.screws.findings) {
        const NoteLook look = look_of(finding.code);
        notes.push_back({.rank = look.rank,
                         .shape = look.shape,
                         .kind = in_words(name_of(finding.code)),
                         .figures = finding_figures(finding, false, page),
                         .piece = finding.row,
                         .name = "row " + std::to_string(finding.row),
                         .place = finding.place});
    }
    return notes;
}

inline void write_cut_steel_head(Page& page, const CutSteel& steel, const DrawingOptions& options) {
    const CutPanels& panels = steel.panels;
    write_title(page, options.title.empty() ? "Steel" : options.title, "Steel of " + steel.name, steel.surface);
    page.paragraph(std::to_string(panels.lanes) + (panels.lanes == 1 ? " lane" : " lanes") + " from the " +
                       (panels.start == StartCorner::eave_right ? "right" : "left") + " side: first covers " +
                       page.figure(panels.first_cover) + ", last " + page.figure(panels.last_cover) + ".",
                   11.0, true);
    const bool opens_right = (panels.panel.lap == SideLap::over_previous) == (panels.start == StartCorner::eave_right);
    page.paragraph("Lower ends at eaves stand " + page.figure(panels.overhang) +
                       " past the edge that they hang over. Side laps open to the " +
                       (opens_right ? "right." : "left."),
                   10.0);
}
}  // namespace detail

/// The steel of a plane of any outline as a standalone SVG document in the manner of the other drawings: every panel by name
/// in strips that read on a phone, its cuts as heavy lines, every edge of the plane by its kind, openings crossed, purlins
/// where they run, findings as numbered shapes with their list, and tables of lengths to order, cuts with their up-measures,
/// openings, rips, marks and screws. Every figure is a field of `steel`, or a cut measured from
/// the panel's other end, as `write_length` writes it at `options.tick`.
/// `options.overview` shows the whole plane where it is parted into strips; `marks` and `frames` are not used.
/// Throws `FaultError`: the first fault of `options`; not_finite, not_supported, does_not_fit or contradiction for a result
/// that does not hold together.
[[nodiscard]] inline std::string draw_steel(const CutSteel& steel, const DrawingOptions& options) {
    require_sound(options, "options");
    detail::require_drawable_steel(steel);
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const std::vector<detail::FindingNote> notes = detail::notes_of(steel, page);
    const detail::FindingGroups groups = detail::group_findings(notes);
    const double beside = 2.0 * (detail::page_margin + 12.0);
    const detail::Strips strips =
        detail::strips_of(detail::needs_of(steel), detail::drawn_extent(steel), page.width - beside);
    detail::write_cut_steel_head(page, steel, options);
    if (options.overview && strips.breaks.size() > 2) {
        detail::draw_overview(page, {.outline = steel.outline,
                                     .sides = {.eave = {}, .left = {}, .up_right = {}},
                                     .lines = {},
                                     .breaks = strips.breaks,
                                     .starts_right = std::nullopt});
    }
    for (std::size_t i = 0; i + 1 < strips.breaks.size(); ++i) {
        detail::draw_cut_strip(page, steel, options, notes, groups, strips, i);
    }
    page.paragraph(
        "Heavy lines: ends that are cut. Grey bands: purlins. Crossed: openings. Sides of the plane: thick, "
        "ridge; plain, hip; long dashes, valley; dash and dot, pitch break; short thick dashes, wall; thin, "
        "rake; dotted, eave. A letter after a number: above the lowest panel of its lane.",
        10.0);
    if (options.findings) {
        detail::draw_legend(page, notes, groups);
    }
    if (options.tables) {
        detail::write_cut_steel_tables(page, steel);
    }
    const std::string title = options.title.empty() ? "Steel of " + steel.name : options.title;
    return page.svg.document(page.width, page.y + detail::page_margin, title,
                             "Steel of " + steel.name + ": " + std::to_string(steel.panels.pieces.size()) +
                                 " panels, " + std::to_string(steel.screws.total) + " screws, " +
                                 std::to_string(notes.size()) + " findings. " + std::string{drawing_caution});
}

}  // namespace eavewright
