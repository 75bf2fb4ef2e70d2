// SPDX-License-Identifier: BSL-1.0
#pragma once

// A page that grows downwards, and how a stretch of roof plane is placed on it.

#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/write_tape.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright::detail {

inline constexpr double page_margin = 8.0;
inline constexpr double least_text = 9.5;  ///< nothing on a drawing is written smaller, symbols' numbers aside

// Pens. Meaning never hangs on a tone alone: it survives a printer that only has black.
inline constexpr std::string_view outline_pen =
    R"(fill="none" stroke="#000" stroke-width="1.8" stroke-linejoin="round")";
inline constexpr std::string_view thin_pen = R"(stroke="#000" stroke-width="0.7" fill="none")";
inline constexpr std::string_view frame_pen = R"(stroke="#777" stroke-width="0.7" stroke-dasharray="1 2" fill="none")";
inline constexpr std::string_view diagonal_pen =
    R"(stroke="#000" stroke-width="0.7" stroke-dasharray="6 3" fill="none")";
inline constexpr std::string_view break_pen =
    R"(stroke="#000" stroke-width="1" stroke-dasharray="8 2 2 2" fill="none")";
inline constexpr std::string_view block_pen = R"(stroke="#000" stroke-width="2" stroke-dasharray="3 1.5" fill="none")";

[[nodiscard]] inline double lesser(double a, double b) { return b < a ? b : a; }
[[nodiscard]] inline double greater(double a, double b) { return a < b ? b : a; }

/// A box on the page that something stands in.
struct Box {
    double left;
    double top;
    double right;
    double bottom;
    [[nodiscard]] bool meets(const Box& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
};

struct Page {
    SvgText svg{};
    double width;
    double y;  ///< where the next thing goes
    Tick tick;

    [[nodiscard]] std::string figure(Length length) const { return write_length(length, tick); }

    /// Lines of text across the page from `indent`, which leave `y` below them.
    void paragraph(std::string_view words, double size, bool bold = false, double indent = 0.0) {
        for (const std::string& line :
             wrap_text(words, bold ? bold_room(size) : size, width - 2.0 * page_margin - indent)) {
            y += size * 1.25;
            svg.text({page_margin + indent, y}, line, {.size = size, .bold = bold});
        }
    }
    void heading(std::string_view words) {
        y += 8.0;
        paragraph(words, 11.5, true);
        y += 2.0;
    }
    /// A text on a white ground, its middle at `at`.
    void label(SvgPoint at, std::string_view words, TextLook look) {
        const double half = text_width(words, look.bold ? bold_room(look.size) : look.size) / 2.0;
        svg.rect({at.x - half, at.y - look.size * 0.55}, 2.0 * half, look.size * 1.1, R"(fill="#fff")");
        look.anchor = TextAnchor::middle;
        svg.text({at.x, at.y + look.size * 0.36}, words, look);
    }
};

/// Places plane points on the page, eave at the bottom.
struct View {
    Length left;  ///< along-coordinate that lies at x
    double x;
    double eave_y;  ///< y of up = 0
    double scale;   ///< drawing units an inch

    [[nodiscard]] double x_of(Length along) const { return x + inches(along - left) * scale; }
    [[nodiscard]] double y_of(Length up) const { return eave_y - inches(up) * scale; }
    [[nodiscard]] SvgPoint at(PlanePoint p) const { return {x_of(p.along), y_of(p.up)}; }
    [[nodiscard]] std::vector<SvgPoint> all(const std::vector<PlanePoint>& points) const {
        std::vector<SvgPoint> result;
        result.reserve(points.size());
        for (const PlanePoint& p : points) {
            result.push_back(at(p));
        }
        return result;
    }
};

/// An arrow from `a` to `b` with a solid head.
inline void draw_arrow(SvgText& svg, SvgPoint a, SvgPoint b) {
    const double length = std::sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
    const double ux = (b.x - a.x) / length;
    const double uy = (b.y - a.y) / length;
    const SvgPoint neck{b.x - 7.0 * ux, b.y - 7.0 * uy};
    svg.line(a, neck, R"(stroke="#000" stroke-width="1.6")");
    svg.polygon({b, {neck.x - 3.5 * uy, neck.y + 3.5 * ux}, {neck.x + 3.5 * uy, neck.y - 3.5 * ux}}, R"(fill="#000")");
}

/// Everything that is drawn of a plane: its outline, and sheets that hang past it.
[[nodiscard]] inline Extent drawn_extent(const SlopeResult& slope) {
    Extent all = extent_of(slope.outline);
    for (const SheetPiece& piece : slope.sheets.pieces) {
        const Extent one = extent_of(piece.outline);
        all.low = {shorter(all.low.along, one.low.along), shorter(all.low.up, one.low.up)};
        all.high = {longer(all.high.along, one.high.along), longer(all.high.up, one.high.up)};
    }
    return all;
}

/// Where the first sheet lies: true where the laying started at the eave's right corner.
[[nodiscard]] inline bool started_right(const SlopeResult& slope) {
    if (slope.sheets.pieces.empty()) {
        return false;
    }
    const Extent plane = extent_of(slope.outline);
    const Extent first = extent_of(slope.sheets.pieces.front().outline);
    return plane.high.along - first.high.along < first.low.along - plane.low.along;
}

[[nodiscard]] inline PlanePoint middle_of(const Extent& extent) {
    return {(extent.low.along + extent.high.along) / 2.0, (extent.low.up + extent.high.up) / 2.0};
}

inline constexpr double name_size = 10.0;

/// Room of the widest name of a sheet.
[[nodiscard]] inline double widest_name(const Sheets& sheets) {
    double widest = 0.0;
    for (const SheetPiece& piece : sheets.pieces) {
        widest = greater(widest, text_width(piece_name(piece), bold_room(name_size)));
    }
    return widest;
}

/// `eave_left` as a person writes it: `Eave left`.
[[nodiscard]] inline std::string in_words(std::string_view name) {
    std::string words{name};
    for (char& c : words) {
        c = c == '_' ? ' ' : c;
    }
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z') {
        words.front() = static_cast<char>(words.front() - 'a' + 'A');
    }
    return words;
}

}  // namespace eavewright::detail
