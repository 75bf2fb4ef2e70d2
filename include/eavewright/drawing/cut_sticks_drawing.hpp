// SPDX-License-Identifier: BSL-1.0
#pragma once

// Cut sticks as a picture: every different stick once as a bar with its pieces, the kerfs, and what is left hatched.

#include <eavewright/drawing/cut_drawing.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {
/// Sticks that are cut alike, by the first of them; `sticks` are indexes into the bars.
struct StickGroup {
    const CutBar* bar;
    std::vector<std::size_t> sticks;
};

[[nodiscard]] inline std::vector<StickGroup> group_sticks(const CutList& list, const std::vector<Length>& pieces) {
    std::map<std::tuple<std::size_t, bool, std::vector<Length>>, std::size_t> known;
    std::vector<StickGroup> groups;
    for (std::size_t b = 0; b < list.bars.size(); ++b) {
        std::vector<Length> lengths;
        for (const std::size_t piece : list.bars[b].pieces) {
            lengths.push_back(pieces[piece]);
        }
        const auto [at, is_new] =
            known.try_emplace({list.bars[b].stock, list.bars[b].on_hand, std::move(lengths)}, groups.size());
        if (is_new) {
            groups.push_back({&list.bars[b], {}});
        }
        groups[at->second].sticks.push_back(b);
    }
    return groups;
}

/// Everything that the picture is made of.
struct StickPicture {
    Page& page;
    const CutList& list;
    const std::vector<Length>& pieces;
    const StockPlan& plan;
    const std::vector<std::string>& names;
    double scale;  ///< drawing units an inch
};

/// "2 of 21'-0": A1, B1", piece by piece in the order of the bar, equal neighbours together.
[[nodiscard]] inline std::string pieces_in_words(const StickPicture& in, const StickGroup& group) {
    std::string words;
    const std::vector<std::size_t>& first = group.bar->pieces;
    for (std::size_t i = 0; i < first.size();) {
        std::size_t end = i;
        while (end < first.size() && in.pieces[first[end]] == in.pieces[first[i]]) {
            ++end;
        }
        std::vector<std::string> names;
        for (const std::size_t stick : group.sticks) {
            for (std::size_t k = i; k < end; ++k) {
                names.push_back(name_of_piece(in.names, in.list.bars[stick].pieces[k]));
            }
        }
        words += words.empty() ? "" : "; ";
        words += (end - i > 1 ? std::to_string(end - i) + " of " : std::string{}) + in.page.figure(in.pieces[first[i]]);
        words += ": " + listed(names);
        i = end;
    }
    return words + (words.empty() ? "" : ".");
}

/// The bar: pieces outlined with their lengths where they fit, else their places' letters; what is left hatched.
inline void draw_bar(StickPicture& in, const StickGroup& group, double x) {
    constexpr double tall = 16.0;
    Page& page = in.page;
    const Length stock = in.plan.stock[group.bar->stock].length;
    const double end = x + inches(stock) * in.scale;
    const double left = inches(group.bar->left + in.plan.far_trim) * in.scale;
    const double trim = inches(in.plan.end_trim) * in.scale;
    if (trim > 0.5) {
        page.svg.open_group(offcut_pen, "Trimmed");
        hatch_polygon(page.svg, {{x, page.y}, {x + trim, page.y}, {x + trim, page.y + tall}, {x, page.y + tall}}, 5.0);
        page.svg.close_group();
    }
    if (left > 0.5) {
        page.svg.open_group(offcut_pen, "Left");
        hatch_polygon(page.svg,
                      {{end - left, page.y}, {end, page.y}, {end, page.y + tall}, {end - left, page.y + tall}}, 5.0);
        page.svg.close_group();
    }
    page.svg.rect({x, page.y}, end - x, tall, thin_pen);
    Length at = in.plan.end_trim;
    for (const std::size_t piece : group.bar->pieces) {
        const double from = x + inches(at) * in.scale;
        const double wide = inches(in.pieces[piece]) * in.scale;
        page.svg.rect({from, page.y}, wide, tall, piece_pen);
        const std::string figure = page.figure(in.pieces[piece]);
        const std::string name = group.sticks.size() == 1 ? name_of_piece(in.names, piece) : std::string{};
        const std::string both = name.empty() ? figure : name + "  " + figure;
        for (const std::string& words : {both, figure, name}) {
            if (!words.empty() && text_width(words, least_text) < wide - 3.0) {
                page.svg.text({from + wide / 2.0, page.y + 11.5}, words,
                              {.size = least_text, .anchor = TextAnchor::middle});
                break;
            }
        }
        at += in.pieces[piece] + in.plan.kerf;
    }
    page.y += tall;
}

/// One kind of stick with its words, from `x` on. Leaves `page.y` below it.
inline void draw_stick(StickPicture& in, const StickGroup& group, double x, double width) {
    Page& page = in.page;
    const std::size_t count = group.sticks.size();
    page.y += 14.0;
    page.svg.text({x, page.y},
                  page.figure(in.plan.stock[group.bar->stock].length) + (group.bar->on_hand ? ", on hand" : "") +
                      (count > 1 ? " x " + std::to_string(count) : ""),
                  {.size = 11.0, .bold = true});
    page.y += 4.0;
    draw_bar(in, group, x);
    page.y += 2.0;
    const std::string words = pieces_in_words(in, group) + " Left " + page.figure(group.bar->left) + ".";
    for (const std::string& line : wrap_text(words, least_text, width)) {
        page.y += least_text * 1.25;
        page.svg.text({x, page.y}, line, {.size = least_text});
    }
}

inline void write_stick_caption(StickPicture& in) {
    Page& page = in.page;
    const CutList& list = in.list;
    std::string buy;
    std::int64_t bought = 0;
    for (std::size_t s = 0; s < list.to_buy.size(); ++s) {
        if (list.to_buy[s] > 0) {
            buy += (buy.empty() ? "" : ", ") + std::to_string(list.to_buy[s]) + " of " +
                   page.figure(in.plan.stock[s].length);
            bought += list.to_buy[s];
        }
    }
    const auto sticks = static_cast<std::int64_t>(list.bars.size());
    const Length all = list.pieces + list.waste;
    page.paragraph(counted(list.bars.size(), "stick", "sticks") + ", " + std::to_string(sticks - bought) +
                       " from hand. To buy: " + (buy.empty() ? std::string{"none"} : buy) + ". " +
                       (sticks == list.fewest ? "No cutting needs fewer."
                                              : "No cutting needs fewer than " + std::to_string(list.fewest) +
                                                    "; whether so few do is not proven."),
                   10.5, true);
    page.paragraph(
        "Waste " + page.figure(list.waste) + ", " + write_decimal(all > no_length ? list.waste / all * 100.0 : 0.0, 1) +
            " %, offcuts and sawdust. Each stick is cut from its left end on, " +
            (in.plan.end_trim > no_length ? page.figure(in.plan.end_trim) + " of it trimmed off first, " : "") +
            "the kerf of " + page.figure(in.plan.kerf) + " beyond each piece. Hatched: what is left.",
        10.0);
}
}  // namespace detail

/// Cut sticks: every different one once with how often it is cut, its pieces in their order with length and name, what
/// is left hatched, in as many columns as the page holds, under a caption with the count, the bound and the waste.
/// `names` are those of the pieces, in their order; a piece without one is written as its number from 1. The same
/// arguments give the same bytes. Throws `FaultError`: out_of_range for a page width, and the first fault that
/// `find_faults_of_cuts` finds.
[[nodiscard]] inline std::string draw_cut_sticks(const CutList& list, const std::vector<Length>& pieces,
                                                 const StockPlan& plan, const std::vector<std::string>& names,
                                                 const CutDrawingOptions& options) {
    require_sound(options, "options");
    const Faults faults = find_faults_of_cuts(pieces, plan, list);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    Length longest = one_inch;
    for (const CutBar& bar : list.bars) {
        longest = longer(longest, plan.stock[bar.stock].length);
    }
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const detail::Columns columns = detail::columns_of(page, 320.0);
    detail::StickPicture in{page, list, pieces, plan, names, columns.width / inches(longest)};
    page.paragraph(options.title, 14.0, true);
    detail::write_stick_caption(in);
    const std::vector<detail::StickGroup> groups = detail::group_sticks(list, pieces);
    detail::fill_columns(page, columns, groups.size(),
                         [&](std::size_t i, double x) { detail::draw_stick(in, groups[i], x, columns.width); });
    return page.svg.document(
        page.width, page.y + detail::page_margin, options.title,
        detail::counted(list.bars.size(), "stick", "sticks") + ", " + detail::counted(groups.size(), "kind", "kinds"));
}

}  // namespace eavewright
