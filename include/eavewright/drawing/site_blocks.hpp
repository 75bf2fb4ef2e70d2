// SPDX-License-Identifier: BSL-1.0
#pragma once

// A step of the site sheet set in lines before it is placed, so that a page can be tried at one size after another.

#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/site_words.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/site_sheet.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright::detail {

struct PlacedText {
    SvgPoint at;
    std::string words;
    TextLook look;
};
struct PlacedRule {
    SvgPoint from;
    SvgPoint to;
    std::string_view look;
};

/// Something set in a column, from its upper left corner.
struct SiteBlock {
    std::vector<PlacedText> texts{};
    std::vector<PlacedRule> rules{};
    double height = 0.0;
    double box = 0.0;  ///< side of the box to tick; 0 for none
};

/// How a column is set.
struct SiteType {
    double size;  ///< of the letters, in points
    double width;
    std::size_t most_rows;  ///< of marks side by side; more are left to the report
    Tick tick;
    [[nodiscard]] double lead() const { return size * 1.15; }
};

inline void draw_block(SvgText& svg, const SiteBlock& block, SvgPoint corner) {
    if (block.box > 0.0) {
        svg.rect({corner.x + 0.5, corner.y + 1.5}, block.box, block.box,
                 R"(fill="none" stroke="#000" stroke-width="0.8")");
    }
    for (const PlacedRule& rule : block.rules) {
        svg.line({corner.x + rule.from.x, corner.y + rule.from.y}, {corner.x + rule.to.x, corner.y + rule.to.y},
                 rule.look);
    }
    for (const PlacedText& text : block.texts) {
        svg.text({corner.x + text.at.x, corner.y + text.at.y}, text.words, text.look);
    }
}

/// Adds `words` under what stands, indented, after a bold `lead` that starts at the column's edge.
inline void add_paragraph(SiteBlock& block, const SiteType& type, std::string_view lead, std::string_view words,
                          double indent, bool bold = false) {
    bool first = true;
    for (const std::string& line : wrap_text(words, bold ? bold_room(type.size) : type.size, type.width - indent)) {
        block.height += type.lead();
        if (first && !lead.empty()) {
            block.texts.push_back({{0.0, block.height}, std::string{lead}, {.size = type.size}});
        }
        block.texts.push_back({{indent, block.height}, line, {.size = type.size, .bold = bold}});
        first = false;
    }
}

/// Widths of a table of marks: the label's and one for each column.
[[nodiscard]] inline std::vector<double> mark_widths(const SiteStep& step, const SiteType& type, double gap) {
    std::vector<double> widths{0.0};
    for (const SiteMark& mark : step.marks) {
        widths[0] = greater(widths[0], text_width(mark.label, bold_room(type.size)));
    }
    for (std::size_t c = 0; c < step.mark_columns.size(); ++c) {
        double width = 0.0;
        for (const SiteMark& mark : step.marks) {
            width = greater(width, text_width(mark_words(mark, c, type.tick), type.size));
        }
        for (const std::string& line : wrap_text(step.mark_columns[c], type.size, greater(width, 5.5 * type.size))) {
            width = greater(width, text_width(line, type.size));
        }
        widths.push_back(width + gap);
    }
    return widths;
}

/// Headings and marks of one part of the rows, its left edge at `left`.
inline void add_mark_rows(SiteBlock& block, const SiteStep& step, const SiteType& type,
                          const std::vector<double>& widths, double gap, double left, double top, double head_lines,
                          std::size_t from, std::size_t to) {
    const TextLook figure{.size = type.size, .anchor = TextAnchor::end};
    double right = left + widths[0];
    for (std::size_t c = 0; c < step.mark_columns.size(); ++c) {
        right += widths[c + 1];
        const std::vector<std::string> lines = wrap_text(step.mark_columns[c], type.size, widths[c + 1] - gap + 0.01);
        double y = top + (head_lines - static_cast<double>(lines.size())) * type.lead();
        for (const std::string& line : lines) {
            y += type.lead();
            block.texts.push_back({{right, y}, line, figure});
        }
    }
    const double rule = top + head_lines * type.lead() + type.size * 0.28;
    block.rules.push_back({{left, rule}, {right, rule}, R"(stroke="#000" stroke-width="0.5")"});
    double y = top + head_lines * type.lead() + type.size * 0.2;
    for (std::size_t i = from; i < to; ++i) {
        y += type.lead();
        block.texts.push_back(
            {{left + widths[0], y}, step.marks[i].label, {.size = type.size, .anchor = TextAnchor::end, .bold = true}});
        right = left + widths[0];
        for (std::size_t c = 0; c < step.mark_columns.size(); ++c) {
            right += widths[c + 1];
            block.texts.push_back({{right, y}, mark_words(step.marks[i], c, type.tick), figure});
        }
    }
}

/// The marks of a step in as many parts side by side as fit; says how many stand in the report alone.
inline void add_marks(SiteBlock& block, const SiteStep& step, const SiteType& type, double indent) {
    if (step.marks.empty()) {
        return;
    }
    if (step.marks.size() == 1) {
        const SiteMark& only = step.marks.front();
        std::string words = step.marks_from + " " + only.label + ":";
        for (std::size_t c = 0; c < step.mark_columns.size(); ++c) {
            words += (c > 0 ? ", " : " ") + step.mark_columns[c] + " " + mark_words(only, c, type.tick);
        }
        return add_paragraph(block, type, "Marks", words, indent, true);
    }
    const double gap = type.size * 0.9;
    const std::vector<double> widths = mark_widths(step, type, gap);
    double one = 0.0;
    for (const double width : widths) {
        one += width;
    }
    const double between = type.size * 1.6;
    const double room = type.width - indent;
    std::size_t parts = 0;
    while (static_cast<double>(parts + 1) * one + static_cast<double>(parts) * between <= room && parts < 8) {
        ++parts;
    }
    const std::size_t shown = parts * type.most_rows < step.marks.size() ? parts * type.most_rows : step.marks.size();
    if (shown > 0) {
        add_paragraph(block, type, "Marks", step.marks_from, indent);
        double head_lines = 1.0;
        for (std::size_t c = 0; c < step.mark_columns.size(); ++c) {
            const std::size_t lines = wrap_text(step.mark_columns[c], type.size, widths[c + 1] - gap + 0.01).size();
            head_lines = greater(head_lines, static_cast<double>(lines));
        }
        const std::size_t rows = (shown + parts - 1) / parts;
        const double top = block.height;
        for (std::size_t part = 0; part * rows < shown; ++part) {
            const std::size_t end = (part + 1) * rows < shown ? (part + 1) * rows : shown;
            add_mark_rows(block, step, type, widths, gap, indent + static_cast<double>(part) * (one + between), top,
                          head_lines, part * rows, end);
        }
        block.height += (head_lines + static_cast<double>(rows)) * type.lead() + type.size * 0.2;
    }
    if (shown < step.marks.size()) {
        add_paragraph(
            block, type, shown > 0 ? "" : "Marks",
            (shown > 0 ? "Another " : "") + std::to_string(step.marks.size() - shown) +
                (step.marks.size() - shown == 1 ? " mark stands in the report." : " marks stand in the report."),
            indent, true);
    }
}

/// One step: box, number, title and a line to write on; what to read, expect, and do.
[[nodiscard]] inline SiteBlock step_block(const SiteStep& step, std::size_t number, const SiteType& type) {
    SiteBlock block;
    const double indent = type.size * 4.0;
    const double write_on = type.width * 0.24;
    block.box = type.size * 1.05;
    SiteType title = type;
    title.size = type.size * 1.08;
    title.width = type.width - write_on - type.size;
    block.height = type.size * 0.1;
    add_paragraph(block, title, "", std::to_string(number) + ". " + step.title, type.size * 1.7, true);
    block.rules.push_back({{type.width - write_on, block.height + 1.0},
                           {type.width, block.height + 1.0},
                           R"(stroke="#000" stroke-width="0.6")"});
    block.height += type.size * 0.12;
    add_paragraph(block, type, "Read", step.reading, indent);
    const std::string limit = limit_words(step, type.tick);
    const std::string expected = write_figures(step.expected, type.tick);
    const std::string within = limit.empty() ? "" : expected.empty() ? limit : ". Limit " + limit;
    add_paragraph(block, type, expected.empty() ? "Limit" : "Expect", expected + within, indent, true);
    add_paragraph(block, type, "If off", if_off_words(step, type.tick), indent);
    add_marks(block, step, type, indent);
    block.height += type.size * 0.65;
    return block;
}

}  // namespace eavewright::detail
