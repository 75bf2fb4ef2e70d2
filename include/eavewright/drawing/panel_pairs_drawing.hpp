// SPDX-License-Identifier: BSL-1.0
#pragma once

// Which two panels come out of one, drawn as they lie in the bought panel: a cut list to hang beside the stack.

#include <eavewright/drawing/cut_steel_drawing.hpp>
#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/tiling/panel_pairs.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/whole_roof/cut_steel.hpp>

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

namespace detail {
/// Why a panel shares with no other, for a person.
[[nodiscard]] constexpr std::string_view words_of(NoPair why) {
    constexpr std::array<std::string_view, 7> words{"all that they would fit share already",
                                                    "too little would be saved",
                                                    "together longer than is made",
                                                    "one would have to be turned, and its laps do not allow it",
                                                    "only mirror images are left, and no panel is turned over",
                                                    "nothing else is cut at this slope",
                                                    "the cut is not one straight line"};
    return words[static_cast<std::size_t>(why)];
}

[[nodiscard]] inline std::string paired_name(const std::vector<CutSteel>& planes, const PairedPanel& where) {
    return planes[where.plane].name + " " + panel_name(planes[where.plane].panels.pieces[where.piece]);
}

inline void require_pairs(const std::vector<CutSteel>& planes, const PanelPairs& pairs) {
    const auto require = [&](std::size_t plane, std::size_t piece) {
        if (plane >= planes.size() || piece >= planes[plane].panels.pieces.size()) {
            refuse_drawing(FaultCode::contradiction, "pairs", "indexes into the planes given");
        }
    };
    for (const CutSteel& plane : planes) {
        require_drawable_steel(plane);
    }
    for (const PanelPair& pair : pairs.pairs) {
        require(pair.first.plane, pair.first.piece);
        require(pair.second.plane, pair.second.piece);
        if (!is_usable(pair.bought) || !is_usable(pair.first.at) || !is_usable(pair.second.at) ||
            !(pair.bought > no_length)) {
            refuse_drawing(FaultCode::not_finite, "pairs.bought", "finite lengths");
        }
    }
    for (const UnpairedPanel& panel : pairs.unpaired) {
        require(panel.plane, panel.piece);
    }
}

/// The bought panel lies along the page, its lower end at the left.
inline void draw_pair(Page& page, const std::vector<CutSteel>& planes, const PanelPair& pair, double scale) {
    const CutPanels& first = planes[pair.first.plane].panels;
    const double wide = inches(pair.bought) * scale;
    const double high = inches(first.panel.cover + first.panel.side_lap) * scale;
    page.y += 4.0;
    page.paragraph(page.figure(pair.bought) + ": " + paired_name(planes, pair.first) + " and " +
                       paired_name(planes, pair.second) + ", saves " + page.figure(pair.saved) +
                       (pair.first.turned != pair.second.turned ? "; end for end" : "") +
                       (pair.second.over ? "; the second turned over" : ""),
                   10.0);
    page.y += 3.0;
    const double top = page.y;
    page.svg.rect({page_margin, top}, wide, high, R"(fill="none" stroke="#000" stroke-width="0.7")");
    for (const PairedPanel* where : {&pair.first, &pair.second}) {
        const CutPanels& plane = planes[where->plane].panels;
        std::vector<SvgPoint> corners;
        Length low = pair.bought;
        Length far_end = no_length;
        for (const PlanePoint& p : outline_in_bought(plane, *where)) {
            corners.push_back({page_margin + inches(p.up) * scale, top + inches(p.along) * scale});
            low = shorter(low, p.up);
            far_end = longer(far_end, p.up);
        }
        page.svg.polygon(corners, R"(fill="none" stroke="#000" stroke-width="1.8" stroke-linejoin="round")");
        const std::string name = panel_name(plane.pieces[where->piece]);
        const double half = text_width(name, bold_room(name_size)) / 2.0;
        // At the square end, where the panel is widest.
        const double x = where == &pair.first ? page_margin + inches(low) * scale + half + 4.0
                                              : page_margin + inches(far_end) * scale - half - 4.0;
        page.label({x, top + high / 2.0}, name, {.size = name_size, .bold = true});
    }
    page.y = top + high + 6.0;
}

/// Panels with a slanted cut that share with no other, by reason.
inline void list_unpaired(Page& page, const std::vector<CutSteel>& planes, const PanelPairs& pairs) {
    if (pairs.unpaired.empty()) {
        return;
    }
    page.heading("By themselves: " + std::to_string(pairs.unpaired.size()) + " panels with a slanted cut");
    std::map<NoPair, std::string> names;
    for (const UnpairedPanel& panel : pairs.unpaired) {
        std::string& all = names[panel.why];
        all += (all.empty() ? "" : ", ") + paired_name(planes, {panel.plane, panel.piece, false, false, no_length});
    }
    for (const auto& [why, all] : names) {
        page.paragraph(std::string{words_of(why)} + ": " + all, 10.0);
    }
}
}  // namespace detail

/// The pairs of a roof as a standalone SVG document: every bought panel with the two that come out of it, at one scale, and
/// the slanted panels left by themselves with the reason. `pairs` are those of `panels_of(planes)`; of `options` only title,
/// tick and page width are used. Throws `FaultError`: the first fault of `options`; contradiction or not_finite for pairs
/// that are not of these planes.
[[nodiscard]] inline std::string draw_pairs(const std::vector<CutSteel>& planes, const PanelPairs& pairs,
                                            const DrawingOptions& options) {
    require_sound(options, "options");
    detail::require_pairs(planes, pairs);
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const std::string title = options.title.empty() ? "Two panels out of one" : options.title;
    page.paragraph(title, 14.0, true);
    page.paragraph(drawing_caution, 10.0);
    page.paragraph(std::to_string(pairs.panels) + " panels to buy instead of " + std::to_string(pairs.panels_without) +
                       ": " + page.figure(pairs.bought) + " of length instead of " + page.figure(pairs.bought_without) +
                       ".",
                   11.0, true);
    page.paragraph(
        "Each strip is one bought panel, lower end at the left, seen from its face. End for end: the two lie in "
        "it with their ridge ends opposite ways. What is left between and beside them is waste.",
        10.0);
    Length longest = one_inch;
    for (const PanelPair& pair : pairs.pairs) {
        longest = longer(longest, pair.bought);
    }
    const double scale = (page.width - 2.0 * detail::page_margin) / inches(longest);
    for (const PanelPair& pair : pairs.pairs) {
        detail::draw_pair(page, planes, pair, scale < 1.5 ? scale : 1.5);
    }
    detail::list_unpaired(page, planes, pairs);
    return page.svg.document(page.width, page.y + detail::page_margin, title,
                             std::to_string(pairs.pairs.size()) + " pairs. " + std::string{drawing_caution});
}

}  // namespace eavewright
