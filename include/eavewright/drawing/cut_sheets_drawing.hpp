// SPDX-License-Identifier: BSL-1.0
#pragma once

// Cut sheets as a picture: every different sheet once, its pieces, its cuts in the order they are sawn, what is left
// hatched.

#include <eavewright/drawing/cut_drawing.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/sheet_groups.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/order/check_sheet_cuts.hpp>
#include <eavewright/order/sheet_cut_tree.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

namespace detail {
/// Everything that the picture is made of.
struct SheetPicture {
    Page& page;
    const SheetSawPlan& sawn;
    const std::vector<SheetShape>& shapes;
    const SheetSearchPlan& plan;
    const std::vector<std::string>& names;
};

inline constexpr double widest_sheet = 420.0;  ///< in the picture

/// Where a sheet lies on the page: length to the right, width up.
struct SheetView {
    double left;
    double bottom;
    double scale;
    [[nodiscard]] SvgPoint at(CutPoint p) const {
        return {left + inches(p.length) * scale, bottom - inches(p.width) * scale};
    }
    [[nodiscard]] std::vector<SvgPoint> all(const std::vector<CutPoint>& points) const {
        std::vector<SvgPoint> result;
        for (const CutPoint& p : points) {
            result.push_back(at(p));
        }
        return result;
    }
};

[[nodiscard]] inline std::string size_in_words(const Page& page, const SheetSize& size) {
    return page.figure(size.width) + " x " + page.figure(size.length);
}
/// The ends of a cut on the sheet: of what it keeps, the side that lies on its line.
[[nodiscard]] inline std::vector<CutPoint> ends_of_cut(const SheetSawPlan& sawn, const SawCut& cut) {
    const SawLine line{spots_of({cut.from})[0], spots_of({cut.to})[0]};
    std::vector<CutPoint> ends;
    for (const CutPoint& corner : sawn.parts[cut.kept].outline) {
        if (std::fabs(line.offset(spots_of({corner})[0])) <= spot_tolerance) {
            ends.push_back(corner);
        }
    }
    return ends;
}

/// A slant's end as it is marked: width x length from the low corner of its part.
[[nodiscard]] inline std::string mark_in_words(const Page& page, const SheetSawPlan& sawn, const SawCut& cut,
                                               CutPoint end) {
    const SpotExtent extent = extent_of(spots_of(sawn.parts[cut.part].outline));
    return page.figure(end.width - one_inch * extent.low.w) + " x " + page.figure(end.length - one_inch * extent.low.l);
}
/// "rip 1'-11"", "slant from 0'-0" x 5'-0" to 4'-0" x 1'-0"": what a cut measures off.
[[nodiscard]] inline std::string cut_in_words(const Page& page, const SheetSawPlan& sawn, const SawCut& cut) {
    const std::vector<CutPoint> ends = ends_of_cut(sawn, cut);
    if (cut.way != SawWay::slant || ends.size() < 2) {
        return std::string{name_of(cut.way)} + " " + page.figure(cut.at);
    }
    return "slant from " + mark_in_words(page, sawn, cut, ends.front()) + " to " +
           mark_in_words(page, sawn, cut, ends.back());
}

/// The number of a cut in a circle on its line: in the middle, else towards an end, where it covers nothing.
inline void write_cut_number(Page& page, const SheetView& view, const std::vector<CutPoint>& ends,
                             const std::string& number, TakenPlaces& taken) {
    if (ends.size() < 2) {
        return;
    }
    const SvgPoint a = view.at(ends.front());
    const SvgPoint b = view.at(ends.back());
    const double half = number.size() > 1 ? 7.5 : 6.0;
    for (const double share : {0.5, 0.25, 0.75, 0.12, 0.88}) {
        const SvgPoint at{a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
        if (taken.take({at.x - half, at.y - half, at.x + half, at.y + half})) {
            page.svg.circle(at, half, number_pen);
            page.svg.text({at.x, at.y + 3.0}, number, {.size = 8.5, .anchor = TextAnchor::middle});
            return;
        }
    }
}

/// A piece's label, and its size under it where both fit.
inline void write_piece_label(SheetPicture& in, const SheetView& view, const SawnPart& part, const DrawnPiece& piece,
                              TakenPlaces& taken) {
    const std::vector<SvgPoint> corners = view.all(part.outline);
    Box box{1e300, 1e300, -1e300, -1e300};
    SvgPoint middle{0.0, 0.0};
    for (const SvgPoint& p : corners) {
        box = {lesser(box.left, p.x), lesser(box.top, p.y), greater(box.right, p.x), greater(box.bottom, p.y)};
        middle.x += p.x / static_cast<double>(corners.size());
        middle.y += p.y / static_cast<double>(corners.size());
    }
    const bool slanted = corners.size() != 4 || !piece.square;
    const double room = (box.right - box.left) * (slanted ? 0.5 : 1.0) - 4.0;
    const double tall = (box.bottom - box.top) * (slanted ? 0.5 : 1.0) - 2.0;
    const double label = text_width(piece.label, bold_room(10.0));
    const double size = text_width(piece.size, least_text);
    const bool both = size <= room && tall >= 24.0;
    const double half = (both ? greater(label, size) : label) / 2.0;
    const double down = both ? 12.0 : 6.0;
    taken.boxes.push_back({middle.x - half, middle.y - down, middle.x + half, middle.y + down});
    const bool turned = label > room && tall > label;
    const TextLook look{.size = 10.0, .anchor = TextAnchor::middle, .bold = true, .turned = turned};
    in.page.svg.text({middle.x + (turned ? 3.6 : 0.0), middle.y + (turned ? 0.0 : (both ? -1.5 : 3.6))}, piece.label,
                     look);
    if (both) {
        in.page.svg.text({middle.x, middle.y + 10.0}, piece.size, {.size = least_text, .anchor = TextAnchor::middle});
    }
}

/// One sheet: offcuts hatched, pieces outlined, then labels, then numbers of the cuts.
inline void draw_one_sheet(SheetPicture& in, const SheetGroup& group, const SheetView& view) {
    SvgText& svg = in.page.svg;
    svg.open_group(offcut_pen, "Offcuts");
    for (const std::size_t part : group.parts) {
        if (!in.sawn.parts[part].cut && !in.sawn.parts[part].piece) {
            const std::vector<SvgPoint> corners = view.all(in.sawn.parts[part].outline);
            svg.polygon(corners);
            hatch_polygon(svg, corners, 6.0);
        }
    }
    svg.close_group();
    svg.rect(view.at({no_length, in.plan.stock.sheet.width}), inches(in.plan.stock.sheet.length) * view.scale,
             inches(in.plan.stock.sheet.width) * view.scale, outline_pen);
    TakenPlaces taken;
    for (const DrawnPiece& piece : group.pieces) {
        svg.polygon(view.all(in.sawn.parts[piece.part].outline), piece_pen);
    }
    for (const DrawnPiece& piece : group.pieces) {
        write_piece_label(in, view, in.sawn.parts[piece.part], piece, taken);
    }
    for (std::size_t i = 0; i < group.cuts.size(); ++i) {
        write_cut_number(in.page, view, ends_of_cut(in.sawn, in.sawn.cuts[group.cuts[i]]), std::to_string(i + 1),
                         taken);
    }
}

/// What is written under a sheet: pieces with sizes and names, cuts in their order, the largest offcut.
[[nodiscard]] inline std::vector<std::string> words_of_sheet(const SheetPicture& in, const SheetGroup& group) {
    std::vector<std::string> lines;
    std::string pieces;
    for (const DrawnPiece& piece : group.pieces) {
        pieces += pieces.empty() ? "" : "; ";
        pieces += piece.label + " " + piece.size + (piece.square ? "" : " slanted");
        pieces += piece.turned ? ", turned across" : "";
        pieces += piece.names.size() > 1 || piece.names[0] != piece.label ? ": " + listed(piece.names) : "";
    }
    lines.push_back(pieces + ".");
    std::string cuts;
    for (std::size_t i = 0; i < group.cuts.size(); ++i) {
        cuts += (i == 0 ? "Cuts: " : "; ") + std::to_string(i + 1) + " " +
                cut_in_words(in.page, in.sawn, in.sawn.cuts[group.cuts[i]]);
    }
    if (!cuts.empty()) {
        lines.push_back(cuts + ".");
    }
    if (group.largest_offcut < in.sawn.offcuts.size()) {
        const SheetOffcut& offcut = in.sawn.offcuts[group.largest_offcut];
        lines.push_back("Largest offcut " + size_in_words(in.page, offcut.box) +
                        (in.sawn.parts[offcut.part].outline.size() == 4 && is_box(in.sawn.parts[offcut.part].outline)
                             ? "."
                             : ", its box."));
    }
    return lines;
}

/// One sheet with its words, from `x` on. Leaves `page.y` below it.
inline void draw_group(SheetPicture& in, const SheetGroup& group, std::size_t number, double x, double width) {
    Page& page = in.page;
    const double scale = (width - 4.0) / inches(in.plan.stock.sheet.length);
    const double tall = inches(in.plan.stock.sheet.width) * scale;
    page.y += 14.0;
    page.svg.text({x, page.y},
                  "Sheet " + std::to_string(number) + (group.count > 1 ? " x " + std::to_string(group.count) : ""),
                  {.size = 11.5, .bold = true});
    page.y += 6.0 + tall;
    draw_one_sheet(in, group, {x + 2.0, page.y, scale});
    page.y += 3.0;
    for (const std::string& words : words_of_sheet(in, group)) {
        for (const std::string& line : wrap_text(words, least_text, width)) {
            page.y += least_text * 1.25;
            page.svg.text({x, page.y}, line, {.size = least_text});
        }
    }
}

inline void write_sheet_caption(SheetPicture& in) {
    Page& page = in.page;
    const SheetSawPlan& sawn = in.sawn;
    const double sheets =
        square_inches(in.plan.stock.sheet.length * in.plan.stock.sheet.width) * static_cast<double>(sawn.sheets);
    const double share = sheets > 0.0 ? square_inches(sawn.waste) / sheets * 100.0 : 0.0;
    page.paragraph(counted(static_cast<std::size_t>(sawn.sheets), "sheet", "sheets") + " of " +
                       size_in_words(page, in.plan.stock.sheet) + ", " + std::to_string(sawn.to_buy) + " to buy. " +
                       (sawn.proven ? "No straight-through cutting needs fewer."
                                    : "No straight-through cutting needs fewer than " +
                                          std::to_string(sawn.bound.sheets) + "; whether so few do is not proven."),
                   10.5, true);
    page.paragraph("By area alone " + std::to_string(sawn.bound.by_area) + "." +
                       (sawn.plain > 0 ? " Plain cutting takes " + std::to_string(sawn.plain) + "." : "") + " " +
                       counted(sawn.cuts.size(), "cut", "cuts") + ". Waste " + write_decimal(share, 1) + " % (" +
                       (page.tick.is_metric() ? write_decimal(square_metres(sawn.waste), 2) + " m2"
                                              : write_decimal(square_feet(sawn.waste), 1) + " sq ft") +
                       "), offcuts and sawdust.",
                   10.0);
    page.paragraph(
        "Width x length. The length of a sheet, its strength axis, lies across the page. Hatched: offcuts. "
        "Numbers in circles: the order of cuts, each straight through its part. Of a crosscut or rip stands what "
        "it measures off, the blade beyond; of a slant its two ends, from the lower left corner of its part. "
        "Kerf " +
            page.figure(in.plan.stock.kerf) + ".",
        least_text);
}
}  // namespace detail

/// Cut sheets: every different sheet once with how often it is cut, its pieces named and sized, its cuts in their
/// order, offcuts hatched, under a caption with the count, the bound and the waste. `names` are those of the pieces, in
/// their order; a piece without one is written as its number from 1. Pieces of equal sheets share a letter, their names
/// listed below. The same arguments give the same bytes. Throws `FaultError`: out_of_range for a page width, and the
/// first fault of the plan that `find_faults_of_cuts` finds.
[[nodiscard]] inline std::string draw_cut_sheets(const SheetSawPlan& sawn, const std::vector<SheetShape>& shapes,
                                                 const SheetSearchPlan& plan, const std::vector<std::string>& names,
                                                 const CutDrawingOptions& options) {
    require_sound(options, "options");
    const Faults faults = find_faults_of_cuts(shapes, plan, sawn);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    detail::SheetPicture in{page, sawn, shapes, plan, names};
    page.paragraph(options.title, 14.0, true);
    detail::write_sheet_caption(in);
    const std::vector<detail::SheetGroup> groups = detail::group_sheets(sawn, shapes, names, options.tick);
    const detail::Columns columns = detail::columns_of(page, 300.0);
    detail::fill_columns(page, columns, groups.size(), [&](std::size_t i, double x) {
        detail::draw_group(in, groups[i], i + 1, x, detail::lesser(columns.width, detail::widest_sheet));
    });
    return page.svg.document(page.width, page.y + detail::page_margin, options.title,
                             detail::counted(static_cast<std::size_t>(sawn.sheets), "sheet", "sheets") + ", " +
                                 detail::counted(groups.size(), "kind", "kinds"));
}

}  // namespace eavewright
