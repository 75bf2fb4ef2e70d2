// SPDX-License-Identifier: BSL-1.0
#pragma once

// How much room a text takes in a drawing, and where to break it. Widths are estimates on the wide side, as nobody
// knows which font a reader's screen will choose.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

namespace detail {
/// Width of one byte of UTF-8 in parts of the font size: the widest of the common plain fonts. Only the first byte of a
/// character counts.
[[nodiscard]] inline double byte_width(char c) {
    constexpr std::string_view narrow = " '.,:;|!/-()[]ijlftIr";
    constexpr std::string_view wide = "mwMW@%";
    const auto code = static_cast<unsigned char>(c);
    if ((code & 0xC0U) == 0x80U) {
        return 0.0;
    }
    if (narrow.find(c) != std::string_view::npos) {
        return 0.37;
    }
    return wide.find(c) != std::string_view::npos ? 0.95 : (c == '"' ? 0.46 : (c >= 'A' && c <= 'Z' ? 0.7 : 0.63));
}

/// Where the first word of `text` ends: at a space, but a fraction or `mm` stays with its number.
[[nodiscard]] inline std::size_t word_end(std::string_view text) {
    std::size_t space = text.find(' ');
    while (space != std::string_view::npos) {
        const std::string_view next = text.substr(space + 1, text.find(' ', space + 1) - space - 1);
        const bool digit = !next.empty() && next.front() >= '0' && next.front() <= '9';
        if (!(digit && next.find('/') != std::string_view::npos) && next.substr(0, 2) != "mm") {
            return space;
        }
        space = text.find(' ', space + 1);
    }
    return text.size();
}

/// The longest beginning of `word` that fits, at least one character, never a broken one.
[[nodiscard]] inline std::size_t fitting_bytes(std::string_view word, double size, double width) {
    double used = byte_width(word.front()) * size;
    std::size_t end = 1;
    while (end < word.size() && used + byte_width(word[end]) * size <= width) {
        used += byte_width(word[end]) * size;
        ++end;
    }
    while (end < word.size() && (static_cast<unsigned char>(word[end]) & 0xC0U) == 0x80U) {
        ++end;
    }
    return end;
}
}  // namespace detail

/// Font size that bold letters of size `size` take the room of.
[[nodiscard]] constexpr double bold_room(double size) noexcept { return size * 1.1; }

/// Estimated width of `text` at font size `size`, in the unit of `size`; real fonts stay below it by up to a fifth.
[[nodiscard]] inline double text_width(std::string_view text, double size) {
    double width = 0.0;
    for (const char c : text) {
        width += detail::byte_width(c);
    }
    return width * size;
}

/// `text` in lines no wider than `width`, broken at spaces (never inside a figure), and inside a word only where
/// it alone is too wide.
/// An empty text gives no lines.
[[nodiscard]] inline std::vector<std::string> wrap_text(std::string_view text, double size, double width) {
    std::vector<std::string> lines;
    std::string line;
    const auto finish = [&] {
        if (!line.empty()) {
            lines.push_back(line);
        }
        line.clear();
    };
    while (!text.empty()) {
        const std::size_t end_of_word = detail::word_end(text);
        std::string_view word = text.substr(0, end_of_word);
        text.remove_prefix(end_of_word == text.size() ? end_of_word : end_of_word + 1);
        const std::string gap = line.empty() ? "" : " ";
        if (text_width(line + gap + std::string{word}, size) > width) {
            finish();
        }
        while (!word.empty() && text_width(word, size) > width) {
            const std::size_t end = detail::fitting_bytes(word, size, width);
            lines.emplace_back(word.substr(0, end));
            word.remove_prefix(end);
        }
        line += line.empty() || word.empty() ? "" : " ";
        line += std::string{word};
    }
    finish();
    return lines;
}

}  // namespace eavewright
