// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lines read from a string or a level, each as a strip: stations along it, what stands off enlarged beside a bar, and
// an arrow with its amount for what is to be done there.

#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/drawing/truing_view.hpp>
#include <eavewright/drawing/truing_words.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/squaring/plumb.hpp>
#include <eavewright/squaring/purlin_line.hpp>
#include <eavewright/squaring/string_line.hpp>
#include <eavewright/squaring/tails.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/site_truing_steps.hpp>
#include <eavewright/whole_roof/truing_result.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

namespace detail {

/// One station of a strip: offsets upwards on the page.
struct StripStation {
    Length at;
    Length offset;
    Length line;         ///< where the line to come to lies
    Length work;         ///< what is to be done, as an arrow from the offset
    std::string amount;  ///< in words; empty where nothing is to be done
};
struct StringStrip {
    std::string title;
    std::string judged;
    std::string upwards;  ///< what an offset up the page means
    std::vector<StripStation> stations;
};

[[nodiscard]] inline std::string amount_words(const Page& page, std::string_view before, Length amount) {
    return is_nothing(page, amount) ? "" : std::string{before} + page.figure(magnitude(amount));
}

[[nodiscard]] inline StringStrip strip_of(const Page& page, const NamedResult<StringLine>& named) {
    const StringLine& found = named.found;
    StringStrip strip{"String " + named.name + ": " + spelled(name_of(found.verdict)),
                      "Line " + spelled(name_of(found.rule)) + ", limit " + page.figure(found.tolerance) +
                          (found.tolerance_given ? " as described." : " by " + std::string{common_practice} + "."),
                      "Up the page: the side that offsets were read to. Broken: the line to come to.",
                      {}};
    for (const StationOff& s : found.stations) {
        strip.stations.push_back({s.station, s.offset, s.line, s.move, amount_words(page, "", s.move)});
    }
    return strip;
}

[[nodiscard]] inline StringStrip strip_of(const Page& page, const NamedResult<TailTrim>& named) {
    StringStrip strip{"Tails " + named.name + ": cut to one line",
                      "Line " + spelled(name_of(named.found.rule)) +
                          (named.found.too_long > 0 ? ". Some lose more than they may." : "."),
                      "Up the page: past the string. Broken: where they are cut.",
                      {}};
    for (const TrimmedTail& t : named.found.cuts) {
        strip.stations.push_back(
            {t.station, t.reach, t.line, -t.cut, amount_words(page, "cut ", t.cut) + (t.too_long ? ", too much" : "")});
    }
    return strip;
}

[[nodiscard]] inline StringStrip strip_of(const Page& page, const NamedResult<PurlinLine>& named) {
    const PurlinLine& found = named.found;
    StringStrip strip{"Purlin " + named.name + ": " + spelled(name_of(found.verdict)),
                      "Limit " + page.figure(found.tolerance) +
                          (found.tolerance_given ? " as described. " : " by common practice. ") +
                          std::string{purlin_print_note},
                      "Up the page: above the string. Broken: the line of the plan.",
                      {}};
    const Length run = found.supports.back().station - found.supports.front().station;
    for (const PurlinSupport& s : found.supports) {
        const double share = (s.station - found.supports.front().station) / run;
        const Length line = found.plan_at_first + (found.plan_at_last - found.plan_at_first) * share;
        strip.stations.push_back(
            {s.station, s.height, line, s.shim - s.plane,
             s.plane > no_length ? amount_words(page, "plane ", s.plane) : amount_words(page, "shim ", s.shim)});
    }
    return strip;
}

/// A wall's tops in one of its two directions: one move of the whole top, so that each keeps what differs from it.
[[nodiscard]] inline StringStrip strip_of(const Page& page, const NamedResult<WallPlumb>& named, bool along) {
    const WallPlumb& wall = named.found;
    const Length move = along ? wall.move_along : wall.move_across;
    StringStrip strip{
        "Wall " + named.name + (along ? ", along it: " : ", outwards: ") + spelled(name_of(wall.verdict)),
        "Judged in both directions together by " + std::string{wall.rule.name} + " (" + std::string{wall.rule.source} +
            "). " +
            (is_nothing(page, move) ? "No move this way."
                                    : "Move the whole top " + page.figure(magnitude(move)) +
                                          (along ? (move > no_length ? " to the right." : " to the left.")
                                                 : (move > no_length ? " outwards." : " inwards."))) +
            " Then: " + spelled(name_of(wall.verdict_after)) + ".",
        along ? "Up the page: tops off to the right. Broken: plumb." : "Up the page: tops off outwards. Broken: plumb.",
        {}};
    for (const PostPlumb& p : wall.posts) {
        const Length off = along ? p.top.along : p.top.across;
        strip.stations.push_back({p.station, off, no_length, move, amount_words(page, "off ", off)});
    }
    return strip;
}

/// Rows of words, each word in the first row where it does not touch the one before.
struct WordRows {
    std::vector<double> ends{};
    [[nodiscard]] std::size_t row_of(double left, double right) {
        std::size_t row = 0;
        while (row < ends.size() && ends[row] > left) {
            ++row;
        }
        if (row == ends.size()) {
            ends.push_back(right);
        }
        ends[row] = right;
        return row;
    }
};
struct RowWord {
    double x;
    std::size_t row;
    std::string words;
};
/// Words at their stations as far as the page allows. Stations ascend.
[[nodiscard]] inline std::vector<RowWord> words_in_rows(const Page& page, const std::vector<double>& at,
                                                        const std::vector<std::string>& words, double size,
                                                        std::size_t& rows) {
    WordRows taken;
    std::vector<RowWord> placed;
    for (std::size_t i = 0; i < at.size(); ++i) {
        if (!words[i].empty()) {
            const double half = text_width(words[i], size) / 2.0 + 2.0;
            const double x = greater(half, lesser(at[i], page.width - half));
            placed.push_back({x, taken.row_of(x - half, x + half), words[i]});
        }
    }
    rows = taken.ends.size();
    return placed;
}

/// Everything that has a height in a strip: from the lowest to the highest.
struct StripReach {
    Length low = no_length;
    Length high = no_length;
    void take(Length each) {
        low = shorter(low, each);
        high = longer(high, each);
    }
};
[[nodiscard]] inline StripReach reach_of(const std::vector<StripStation>& stations) {
    StripReach reach;
    for (const StripStation& s : stations) {
        reach.take(s.offset);
        reach.take(s.line);
        reach.take(s.offset + s.work);
    }
    return reach;
}

inline void draw_strip(Page& page, const StringStrip& strip) {
    page.heading(strip.title);
    page.paragraph(strip.judged, 10.0);
    const StripReach reach = reach_of(strip.stations);
    const Length first = strip.stations.front().at;
    const Length run = strip.stations.back().at - first;
    constexpr double beside = 30.0;
    const double along = run > no_length ? (page.width - 2.0 * beside) / inches(run) : 1.0;  // units an inch
    const double enlargement = enlarged_into(reach.high - reach.low, 56.0, along);
    const double units = along * enlargement;
    std::vector<double> x;
    std::vector<std::string> amounts;
    std::vector<std::string> places;
    for (const StripStation& s : strip.stations) {
        x.push_back(run > no_length ? beside + inches(s.at - first) * along : page.width / 2.0);
        amounts.push_back(s.amount);
        places.push_back(page.figure(s.at));
    }
    constexpr double line_high = least_text * 1.25;
    std::size_t rows = 0;
    for (const RowWord& each : words_in_rows(page, x, amounts, bold_room(least_text), rows)) {
        page.svg.text({each.x, page.y + line_high * static_cast<double>(each.row + 1)}, each.words,
                      {.size = least_text, .anchor = TextAnchor::middle, .bold = true});
    }
    page.y += line_high * static_cast<double>(rows) + 10.0;
    const double zero = page.y + inches(reach.high) * units;
    const auto y_of = [&](Length offset) { return zero - inches(offset) * units; };
    page.svg.line({beside - 14.0, zero}, {page.width - beside + 14.0, zero}, thin_pen);
    page.svg.line({x.front(), y_of(strip.stations.front().line)}, {x.back(), y_of(strip.stations.back().line)},
                  break_pen);
    page.y = y_of(reach.low) + 6.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const StripStation& s = strip.stations[i];
        page.svg.line({x[i], zero}, {x[i], page.y + 3.0}, frame_pen);
        // The circle first: a short arrow would hide beneath it.
        page.svg.circle({x[i], y_of(s.offset)}, 3.0, R"(fill="#fff" stroke="#000" stroke-width="1.4")");
        if (!is_nothing(page, s.work)) {
            draw_move(page.svg, {x[i], y_of(s.offset)}, {x[i], y_of(s.offset + s.work)});
        }
    }
    page.y += 3.0;
    for (const RowWord& each : words_in_rows(page, x, places, least_text, rows)) {
        page.svg.text({each.x, page.y + line_high * static_cast<double>(each.row + 1)}, each.words,
                      {.size = least_text, .anchor = TextAnchor::middle});
    }
    page.y += line_high * static_cast<double>(rows) + 2.0;
    const Length longest = reach.high - reach.low;
    if (!is_nothing(page, longest)) {
        draw_scale_bar(page, "off the string", enlargement, along, longest);
    }
    page.paragraph(strip.upwards, least_text);
}

[[nodiscard]] inline std::vector<StringStrip> strips_of(const Page& page, const TruingResult& truing) {
    std::vector<StringStrip> strips;
    for (const auto& each : truing.strings) {
        strips.push_back(strip_of(page, each));
    }
    for (const auto& each : truing.tails) {
        strips.push_back(strip_of(page, each));
    }
    for (const auto& each : truing.purlins) {
        strips.push_back(strip_of(page, each));
    }
    for (const auto& each : truing.walls) {
        strips.push_back(strip_of(page, each, true));
        strips.push_back(strip_of(page, each, false));
    }
    return strips;
}

}  // namespace detail

/// Strings, tails, purlins and walls as they were read, each as a strip with what to do at every station, as a
/// standalone SVG document. Offsets are enlarged by a round number against the way along the string,
/// written beside a bar. Only `options.title`, `tick` and `page_width` are used. The same arguments give the same
/// bytes. Throws `FaultError`: the first fault of `options`; missing_field where none of them was read.
[[nodiscard]] inline std::string draw_strings(const RoofResult& result, const DrawingOptions& options) {
    require_sound(options, "options");
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const std::vector<detail::StringStrip> strips =
        result.truing ? detail::strips_of(page, *result.truing) : std::vector<detail::StringStrip>{};
    if (strips.empty()) {
        throw FaultError{Fault{FaultCode::missing_field, "result.truing", "", "strings, tails, purlins or walls"}};
    }
    const std::string title = options.title.empty() ? "Along the strings" : options.title;
    page.paragraph(title, 14.0, true);
    page.paragraph(drawing_caution, 10.0, true);
    page.y += 2.0;
    page.paragraph(pulling_caution, 10.0);
    for (const detail::StringStrip& strip : strips) {
        detail::draw_strip(page, strip);
    }
    return page.svg.document(
        page.width, page.y + detail::page_margin, title,
        std::to_string(strips.size()) + " lines. " + std::string{drawing_caution} + " " + std::string{pulling_caution});
}

}  // namespace eavewright
