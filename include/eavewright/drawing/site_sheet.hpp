// SPDX-License-Identifier: BSL-1.0
#pragma once

// The site sheet of one plane as a page to print: a picture, the steps with room to write, the marks, the cautions.

#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/plane_drawing.hpp>
#include <eavewright/drawing/site_blocks.hpp>
#include <eavewright/drawing/site_picture.hpp>
#include <eavewright/drawing/site_words.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/site_sheet.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// Paper that the sheet is printed on, upright.
enum class SitePaper { a4, letter };
template <>
struct NamesOf<SitePaper> {
    static constexpr std::array<std::string_view, 2> list{"a4", "letter"};
};

struct SiteSheetOptions {
    SitePaper paper = SitePaper::a4;
    Tick tick = Tick::of_inch(16);  ///< what figures are written to
};

namespace detail {
/// A sheet of paper in points, 72 to the inch.
struct PaperSize {
    double width;
    double height;
    std::string_view shown;
};
[[nodiscard]] constexpr PaperSize size_of_paper(SitePaper paper) {
    return paper == SitePaper::a4 ? PaperSize{595.28, 841.89, R"(width="210mm" height="297mm")"}
                                  : PaperSize{612.0, 792.0, R"(width="8.5in" height="11in")"};
}

inline constexpr double site_margin = 30.0;        ///< 10.6 mm
inline constexpr double site_gutter = 14.0;        ///< between the two columns
inline constexpr double site_most_picture = 84.0;  ///< height

/// Steps set at one size, and where they go.
struct SiteSetting {
    SiteType type;
    std::vector<SiteBlock> blocks;
    std::vector<SvgPoint> corners;  ///< of the blocks that found room; the others stand in the text alone
    SiteBlock cautions;
    double column_end;  ///< y under the last block of the second column
};

/// The caution lines across the whole page.
[[nodiscard]] inline SiteBlock caution_block(const SiteSheet& sheet, SiteType type, double width) {
    SiteBlock block;
    type.width = width - 10.0;
    block.height = type.size * 0.3;
    for (std::size_t i = 0; i < sheet.cautions.size(); ++i) {
        add_paragraph(block, type, "", sheet.cautions[i], 0.0, i == 0);
    }
    for (PlacedText& text : block.texts) {
        text.at.x += 5.0;
    }
    block.height += type.size * 0.6;
    return block;
}

/// Two columns of blocks, filled in order. Where one finds no room, those after it are left out as well.
inline void place_blocks(SiteSetting& setting, double top, double picture, double bottom, double column) {
    std::size_t in_column = 0;
    double y = top + picture;
    for (const SiteBlock& block : setting.blocks) {
        if (y + block.height > bottom && in_column == 0) {
            in_column = 1;
            y = top;
        }
        if (y + block.height > bottom) {
            break;
        }
        setting.corners.push_back({site_margin + (in_column == 0 ? 0.0 : column + site_gutter), y});
        y += block.height;
    }
    setting.column_end = in_column == 0 ? top : y;
}

[[nodiscard]] inline SiteSetting set_steps(const SiteSheet& sheet, SiteType type, const PaperSize& paper, double top,
                                           double picture) {
    const double width = paper.width - 2.0 * site_margin;
    type.width = (width - site_gutter) / 2.0;
    SiteSetting setting{type, {}, {}, caution_block(sheet, type, width), top};
    for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
        setting.blocks.push_back(step_block(sheet.steps[i], i + 1, type));
    }
    const double bottom = paper.height - site_margin - setting.cautions.height - 2.0 * type.lead();
    place_blocks(setting, top, picture, bottom, type.width);
    return setting;
}

/// The largest letters at which all steps find room with all their marks; where none do, fewer marks, then smaller
/// letters.
[[nodiscard]] inline SiteSetting fit_steps(const SiteSheet& sheet, Tick tick, const PaperSize& paper, double top,
                                           double picture) {
    constexpr std::size_t all_rows = 1000000;
    const auto fits = [](const SiteSetting& setting) { return setting.corners.size() == setting.blocks.size(); };
    for (int tenths = 80; tenths >= 62; --tenths) {
        SiteSetting setting = set_steps(sheet, {tenths / 10.0, 0.0, all_rows, tick}, paper, top, picture);
        if (fits(setting)) {
            return setting;
        }
    }
    for (const double size : {6.2, 6.0, 5.5}) {
        for (std::size_t rows = 12;; rows = rows * 2 / 3) {
            SiteSetting setting = set_steps(sheet, {size, 0.0, rows, tick}, paper, top, picture);
            if (fits(setting) || (rows == 0 && size < 6.0)) {
                return setting;
            }
            if (rows == 0) {
                break;
            }
        }
    }
    return set_steps(sheet, {5.5, 0.0, 0, tick}, paper, top, picture);
}

/// Title and how to read the sheet; returns the y below.
[[nodiscard]] inline double write_site_head(SvgText& svg, const SiteSheet& sheet, const PaperSize& paper) {
    const double width = paper.width - 2.0 * site_margin;
    double y = site_margin;
    std::vector<std::string> title =
        wrap_text("Site sheet: " + sheet.roof + ", " + slope_words(sheet), bold_room(13.0), width);
    if (title.size() > 2) {  // a name of any length may not push the steps off the page
        title.resize(2);
    }
    for (const std::string& line : title) {
        y += 14.0;
        svg.text({site_margin, y}, line, {.size = 13.0, .bold = true});
    }
    for (const std::string& line : wrap_text("Left and right: facing up the slope. Marks are rounded from exact sums, "
                                             "limits down. Write what you read on the line.",
                                             7.0, width)) {
        y += 8.5;
        svg.text({site_margin, y}, line, {.size = 7.0});
    }
    return y + 4.0;
}

/// What is left of the second column, ruled for notes.
inline void rule_notes(SvgText& svg, const SiteSetting& setting, const PaperSize& paper, double bottom) {
    const double left = site_margin + setting.type.width + site_gutter;
    const double right = paper.width - site_margin;
    double y = setting.column_end + setting.type.lead();
    if (bottom - y < 30.0) {
        return;
    }
    svg.text({left, y}, "Notes", {.size = setting.type.size, .bold = true});
    for (y += 14.0; y <= bottom - 4.0; y += 14.0) {
        svg.line({left, y}, {right, y}, R"(stroke="#000" stroke-width="0.4")");
    }
}

inline void draw_site_foot(SvgText& svg, const SiteSheet& sheet, const SiteSetting& setting, const PaperSize& paper) {
    const double top = paper.height - site_margin - setting.cautions.height;
    if (setting.corners.size() < setting.blocks.size()) {
        svg.text({site_margin, top - setting.type.lead() * 0.5},
                 "Steps " + std::to_string(setting.corners.size() + 1) + " to " + std::to_string(sheet.steps.size()) +
                     " find no room here: they stand in the plain text of this sheet.",
                 {.size = setting.type.size, .bold = true});
    }
    svg.rect({site_margin, top}, paper.width - 2.0 * site_margin, setting.cautions.height,
             R"(fill="none" stroke="#000" stroke-width="1.2")");
    draw_block(svg, setting.cautions, {site_margin, top});
}

/// For those who listen to the page.
[[nodiscard]] inline std::string spoken_steps(const SiteSheet& sheet) {
    std::string words = "Steps in order: ";
    for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
        words += (i > 0 ? "; " : "") + sheet.steps[i].title;
    }
    return words + ".";
}
}  // namespace detail

/// The sheet as a standalone SVG document of one printed page, upright, with margins of 10.6 mm: the plane of `slope`
/// small, the steps of `sheet` in two columns, the cautions at the foot. Letters are as large as the page allows, 8 to
/// 5.5 points. Marks that find no room are left to the report, and steps to the plain text, and the page says so.
///
/// Nothing is told by tone, and the same arguments give the same bytes. Throws `FaultError` as `draw_plane` for a
/// result that holds no plane.
[[nodiscard]] inline std::string draw_site_sheet(const SiteSheet& sheet, const SlopeResult& slope,
                                                 const SiteSheetOptions& options = {}) {
    detail::require_drawable(slope);
    const detail::PaperSize paper = detail::size_of_paper(options.paper);
    SvgText svg;
    const double top = detail::write_site_head(svg, sheet, paper);
    const double column = (paper.width - 2.0 * detail::site_margin - detail::site_gutter) / 2.0;
    const double picture = detail::draw_site_picture(svg, slope, {detail::site_margin, top}, column,
                                                     detail::site_most_picture, 7.0, options.tick);
    const detail::SiteSetting setting = detail::fit_steps(sheet, options.tick, paper, top, picture + 4.0);
    for (std::size_t i = 0; i < setting.corners.size(); ++i) {
        detail::draw_block(svg, setting.blocks[i], setting.corners[i]);
    }
    const double bottom = paper.height - detail::site_margin - setting.cautions.height;
    detail::rule_notes(svg, setting, paper, bottom - setting.type.lead() * 1.5);
    detail::draw_site_foot(svg, sheet, setting, paper);
    return svg.document(paper.width, paper.height, "Site sheet: " + sheet.roof + ", " + detail::slope_words(sheet),
                        detail::spoken_steps(sheet), paper.shown);
}

}  // namespace eavewright
