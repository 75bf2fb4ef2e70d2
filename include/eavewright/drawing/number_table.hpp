// SPDX-License-Identifier: BSL-1.0
#pragma once

// Figures in columns, side by side where the page is wide, and row by row in words where it is too narrow.

#include <eavewright/drawing/page.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace eavewright::detail {

/// A table: a head for each column, then rows of as many cells.
struct NumberTable {
    std::vector<std::string> heads;
    std::vector<std::vector<std::string>> rows;
};

inline constexpr double table_text = 9.5;
inline constexpr double table_gap = 9.0;

/// Room of every column.
[[nodiscard]] inline std::vector<double> column_widths(const NumberTable& table) {
    std::vector<double> widths;
    for (std::size_t c = 0; c < table.heads.size(); ++c) {
        widths.push_back(text_width(table.heads[c], bold_room(table_text)));
        for (const std::vector<std::string>& row : table.rows) {
            widths.back() = greater(widths.back(), text_width(row[c], table_text));
        }
        widths.back() += table_gap;
    }
    return widths;
}

/// Rows in words: `head cell; head cell`.
inline void write_rows(Page& page, const NumberTable& table) {
    for (const std::vector<std::string>& row : table.rows) {
        std::string words;
        for (std::size_t c = 0; c < row.size(); ++c) {
            words += (c > 0 ? "; " : "") + table.heads[c] + " " + row[c];
        }
        page.paragraph(words, table_text);
    }
}

inline void write_line(Page& page, const std::vector<std::string>& cells, const std::vector<double>& widths, double x,
                       double y, bool bold) {
    for (std::size_t c = 0; c < cells.size(); ++c) {
        page.svg.text({x, y}, cells[c], {.size = table_text, .bold = bold});
        x += widths[c];
    }
}

inline void write_table(Page& page, const NumberTable& table) {
    const std::vector<double> widths = column_widths(table);
    double wide = 0.0;
    for (const double width : widths) {
        wide += width;
    }
    const double room = page.width - 2.0 * page_margin;
    if (table.rows.empty() || wide - table_gap > room) {
        write_rows(page, table);
        return;
    }
    constexpr double between = 14.0;
    constexpr double line = 12.0;
    constexpr std::size_t fewest = 6;  // rows that are worth a second block
    auto blocks = static_cast<std::size_t>((room + between + table_gap) / (wide + between));
    while (blocks > 1 && table.rows.size() < blocks * fewest) {
        --blocks;
    }
    const std::size_t each = (table.rows.size() + blocks - 1) / blocks;
    for (std::size_t b = 0; b < blocks; ++b) {
        const double x = page_margin + static_cast<double>(b) * (wide + between);
        write_line(page, table.heads, widths, x, page.y + line, true);
        page.svg.line({x, page.y + line + 3.0}, {x + wide - table_gap, page.y + line + 3.0}, thin_pen);
        for (std::size_t r = 0; r < each && b * each + r < table.rows.size(); ++r) {
            write_line(page, table.rows[b * each + r], widths, x, page.y + line * static_cast<double>(r + 2) + 3.0,
                       false);
        }
    }
    page.y += line * static_cast<double>(each + 1) + 6.0;
}

}  // namespace eavewright::detail
