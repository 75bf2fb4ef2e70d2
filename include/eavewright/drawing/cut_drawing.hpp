// SPDX-License-Identifier: BSL-1.0
#pragma once

// What pictures of cuts share: their options, hatching of what is left, names of alike pieces, places for small
// numbers.

#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/units/tick.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// How cut sheets and cut sticks are drawn.
struct CutDrawingOptions {
    std::string title;
    Tick tick = Tick::of_inch(16);
    int page_width = 360;  ///< as in `DrawingOptions`
};

inline void find_faults(const CutDrawingOptions& options, const Path& path, Faults& faults) {
    if (options.page_width < 240 || options.page_width > 4000) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "page_width"}.text(),
                               std::to_string(options.page_width), "240 to 4000 drawing units"});
    }
}

namespace detail {
inline constexpr std::string_view piece_pen = R"(stroke="#000" stroke-width="1.2" fill="#fff" stroke-linejoin="round")";
inline constexpr std::string_view offcut_pen = R"(stroke="#000" stroke-width="0.4" fill="none")";
inline constexpr std::string_view number_pen = R"(stroke="#000" stroke-width="0.7" fill="#fff")";

/// Slanted lines across a convex polygon, `step` apart.
inline void hatch_polygon(SvgText& svg, const std::vector<SvgPoint>& polygon, double step) {
    if (polygon.size() < 3) {
        return;
    }
    double low = 1e300;
    double high = -1e300;
    for (const SvgPoint& p : polygon) {
        low = lesser(low, p.x + p.y);
        high = greater(high, p.x + p.y);
    }
    for (double at = (std::floor(low / step) + 0.5) * step; at < high; at += step) {
        std::vector<SvgPoint> ends;
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const SvgPoint a = polygon[i];
            const SvgPoint b = polygon[(i + 1) % polygon.size()];
            const double at_a = a.x + a.y - at;
            const double at_b = b.x + b.y - at;
            if ((at_a < 0.0) != (at_b < 0.0)) {
                const double share = at_a / (at_a - at_b);
                ends.push_back({a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share});
            }
        }
        if (ends.size() == 2) {
            svg.line(ends[0], ends[1]);
        }
    }
}

/// a, b ... z, aa, ab ...
[[nodiscard]] inline std::string letters_of(std::size_t number) {
    std::string letters;
    for (std::size_t n = number + 1; n > 0; n = (n - 1) / 26) {
        letters.insert(letters.begin(), static_cast<char>('a' + (n - 1) % 26));
    }
    return letters;
}

/// The name of a piece: as given, or its number from 1.
[[nodiscard]] inline std::string name_of_piece(const std::vector<std::string>& names, std::size_t piece) {
    return piece < names.size() && !names[piece].empty() ? names[piece] : std::to_string(piece + 1);
}

/// Names in the order of their numbers, "A1, A2, A3".
[[nodiscard]] inline std::string listed(const std::vector<std::string>& names) {
    std::string words;
    for (const std::string& name : names) {
        words += words.empty() ? "" : ", ";
        words += name;
    }
    return words;
}

/// Boxes that are written in already; a new text takes its place only where it meets none.
struct TakenPlaces {
    std::vector<Box> boxes{};
    bool take(const Box& box) {
        for (const Box& other : boxes) {
            if (other.meets(box)) {
                return false;
            }
        }
        boxes.push_back(box);
        return true;
    }
};

/// Columns side by side on a page.
struct Columns {
    std::size_t count;
    double width;
};
inline constexpr double between_columns = 16.0;

/// As many columns as the page holds at a width of `least` each, at least one.
[[nodiscard]] inline Columns columns_of(const Page& page, double least) {
    const double room = page.width - 2.0 * page_margin;
    const double more = std::floor((room - least) / (least + between_columns));
    const std::size_t count = 1 + (more > 0.0 ? static_cast<std::size_t>(more) : 0);
    return {count, (room - between_columns * static_cast<double>(count - 1)) / static_cast<double>(count)};
}
/// Calls `draw(index, x)` for each thing, row by row; each leaves `page.y` below itself.
template <class Draw>
void fill_columns(Page& page, const Columns& columns, std::size_t things, Draw&& draw) {
    for (std::size_t first = 0; first < things; first += columns.count) {
        const double top = page.y;
        double bottom = top;
        for (std::size_t i = first; i < first + columns.count && i < things; ++i) {
            page.y = top;
            draw(i, page_margin + (columns.width + between_columns) * static_cast<double>(i - first));
            bottom = greater(bottom, page.y);
        }
        page.y = bottom;
    }
}

[[nodiscard]] inline std::string counted(std::size_t count, const std::string& one, const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}
}  // namespace detail

}  // namespace eavewright
