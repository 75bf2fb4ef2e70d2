// SPDX-License-Identifier: BSL-1.0
#pragma once

// The site sheet as plain text, for a printer without pictures or a screen in the sun.

#include <eavewright/drawing/site_words.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/site_sheet.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// Widest line of the plain site sheet, in characters.
inline constexpr std::size_t site_text_columns = 78;

namespace detail {
/// Characters of UTF-8 in `text`.
[[nodiscard]] inline std::size_t characters_in(std::string_view text) {
    std::size_t count = 0;
    for (const char c : text) {
        count += (static_cast<unsigned char>(c) & 0xC0U) == 0x80U ? 0U : 1U;
    }
    return count;
}
[[nodiscard]] inline std::string spaces(std::size_t count) { return std::string(count, ' '); }

/// The longest beginning of `word` of at most `characters`, never a broken character.
[[nodiscard]] inline std::size_t bytes_of(std::string_view word, std::size_t characters) {
    std::size_t end = 0;
    while (end < word.size() && characters_in(word.substr(0, end + 1)) <= characters) {
        ++end;
    }
    return end;
}

/// Lines of text, the first after `lead`, the others under it.
class PlainLines {
public:
    void add(std::string_view lead, std::string_view words) {
        const std::size_t room = site_text_columns - characters_in(lead);
        std::string line{lead};
        std::size_t used = 0;
        const auto finish = [&] {
            end_line(line);
            line = spaces(characters_in(lead));
            used = 0;
        };
        while (!words.empty()) {
            const std::size_t end = word_end(words);
            std::string_view word = words.substr(0, end);
            words.remove_prefix(end == words.size() ? end : end + 1);
            if (used > 0 && used + 1 + characters_in(word) > room) {
                finish();
            }
            while (characters_in(word) > room) {
                const std::size_t fitting = bytes_of(word, room);
                line += word.substr(0, fitting);
                word.remove_prefix(fitting);
                finish();
            }
            line += used > 0 ? " " : "";
            line += word;
            used += (used > 0 ? 1U : 0U) + characters_in(word);
        }
        end_line(line);
    }
    void blank() { text_ += "\n"; }
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    void end_line(std::string_view line) {
        while (!line.empty() && line.back() == ' ') {
            line.remove_suffix(1);
        }
        text_ += line;
        text_ += "\n";
    }
    std::string text_;
};

[[nodiscard]] inline std::string right_aligned(const std::string& words, std::size_t width) {
    const std::size_t used = characters_in(words);
    return (used < width ? spaces(width - used) : std::string{}) + words;
}

/// Marks as a table, or one paragraph a mark where the table is too wide.
inline void write_marks(const SiteStep& step, Tick tick, PlainLines& lines) {
    if (step.marks.empty()) {
        return;
    }
    lines.add("    Marks:   ", step.marks_from);
    std::vector<std::size_t> widths{0};
    for (const SiteMark& mark : step.marks) {
        const std::size_t width = characters_in(mark.label);
        widths[0] = width > widths[0] ? width : widths[0];
    }
    std::size_t whole = 6 + widths[0];
    for (std::size_t c = 0; c < step.mark_columns.size(); ++c) {
        std::size_t width = characters_in(step.mark_columns[c]);
        for (const SiteMark& mark : step.marks) {
            const std::size_t here = characters_in(mark_words(mark, c, tick));
            width = here > width ? here : width;
        }
        widths.push_back(width);
        whole += 3 + width;
    }
    const bool table = whole <= site_text_columns;
    const auto row = [&](const std::string& label, const auto& words_at) {
        std::string line = (table ? right_aligned(label, widths[0]) : label + ":");
        for (std::size_t c = 0; c < step.mark_columns.size(); ++c) {
            line += table ? "   " + right_aligned(words_at(c), widths[c + 1])
                          : (c > 0 ? "; " : " ") + step.mark_columns[c] + " " + words_at(c);
        }
        return line;
    };
    if (table) {
        lines.add("      " + row("", [&](std::size_t c) { return step.mark_columns[c]; }), "");
    }
    for (const SiteMark& mark : step.marks) {
        const std::string line = row(mark.label, [&](std::size_t c) { return mark_words(mark, c, tick); });
        table ? lines.add("      " + line, "") : lines.add("      ", line);
    }
}

inline void write_step(const SiteStep& step, std::size_t number, Tick tick, PlainLines& lines) {
    lines.add("[ ] " + std::to_string(number) + ". ", step.title);
    const auto part = [&](std::string_view lead, const std::string& words) {
        if (!words.empty()) {
            lines.add(lead, words);
        }
    };
    part("    Read:    ", step.reading);
    part("    Expect:  ", write_figures(step.expected, tick));
    part("    Limit:   ", limit_words(step, tick));
    part("    If off:  ", if_off_words(step, tick));
    write_marks(step, tick, lines);
    lines.add("    Read at site: ____________________________", "");
    lines.blank();
}

/// Characters that would break a line are none of a name's business.
[[nodiscard]] inline std::string on_one_line(std::string text) {
    for (char& c : text) {
        c = static_cast<unsigned char>(c) < 0x20U ? ' ' : c;
    }
    return text;
}
}  // namespace detail

/// The sheet as plain text of at most 78 columns: every step with its figures at `tick`, all its marks, and a line to
/// write the reading on; cautions last. The same arguments give the same bytes.
[[nodiscard]] inline std::string write_site_sheet(const SiteSheet& sheet, Tick tick) {
    detail::PlainLines lines;
    lines.add("Site sheet: ", detail::on_one_line(sheet.roof + ", " + detail::slope_words(sheet)));
    lines.add("", "Left and right: facing up the slope from the eave. Marks are rounded from the exact sums.");
    lines.blank();
    for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
        detail::write_step(sheet.steps[i], i + 1, tick, lines);
    }
    lines.add("", "Cautions");
    for (const std::string& caution : sheet.cautions) {
        lines.add("  - ", caution);
    }
    return lines.text();
}

}  // namespace eavewright
