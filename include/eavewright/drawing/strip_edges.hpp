// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is written around a strip: purlin marks at the rake, frame lines at the eave, where the laying starts.

#include <eavewright/drawing/overview.hpp>
#include <eavewright/drawing/strips.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright::detail {

/// A text beside the rake, and the height it belongs to.
struct RakeMark {
    std::string words;
    Length up;
};

/// Purlin marks at the left rake, lowest first: kind of the row, and its centre up from the fascia's outer face.
[[nodiscard]] inline std::vector<RakeMark> rake_marks(const SlopeResult& slope, const Page& page) {
    std::vector<RakeMark> marks;
    const std::size_t rows = slope.purlins ? slope.purlins->rows.size() : 0;
    for (std::size_t i = 0; i < rows && i < slope.marks.size(); ++i) {
        const RowMark& mark = slope.marks[i];
        const std::string kind =
            mark.kind == RowKind::field ? std::to_string(mark.row) : std::string{name_of(mark.kind)};
        marks.push_back({kind + ": " + page.figure(mark.centre), mark.centre});
    }
    return marks;
}

inline constexpr double mark_text = 9.5;
inline constexpr double mark_step = 10.5;

[[nodiscard]] inline double widest_mark(const std::vector<RakeMark>& marks) {
    double widest = 0.0;
    for (const RakeMark& mark : marks) {
        widest = greater(widest, text_width(mark.words, mark_text));
    }
    return widest;
}

/// How a row is called: eave, 1, 2, ... top.
[[nodiscard]] inline std::string row_name(const SlopeResult& slope, std::size_t row) {
    const bool known = slope.purlins && row < slope.purlins->rows.size();
    return known && slope.purlins->rows[row].kind != RowKind::field
               ? std::string{name_of(slope.purlins->rows[row].kind)}
               : std::to_string(row);
}

/// On the strips that follow, the rows' names alone: their heights there are in the list of marks where they differ.
[[nodiscard]] inline std::vector<RakeMark> row_names(const SlopeResult& slope, Length along) {
    std::vector<RakeMark> names;
    for (std::size_t r = 0; slope.purlins && r < slope.purlins->rows.size(); ++r) {
        names.push_back({row_name(slope, r), up_at(slope.purlins->rows[r].centreline, along)});
    }
    return names;
}

/// How far above up = 0 each mark is written, kept apart so that none covers its neighbour; lowest first.
[[nodiscard]] inline std::vector<double> spread_marks(const std::vector<RakeMark>& marks, double scale) {
    std::vector<double> heights;
    for (const RakeMark& mark : marks) {
        const double wanted = inches(mark.up) * scale;
        heights.push_back(heights.empty() ? wanted : greater(wanted, heights.back() + mark_step));
    }
    return heights;
}

/// The marks, each with a leader to its row at `rake`. Beside the left rake the texts end at `text_x`, beside the right
/// one they begin there.
inline void draw_rake_marks(Page& page, const std::vector<RakeMark>& marks, const View& view, double rake,
                            double text_x, std::string_view name) {
    const std::vector<double> heights = spread_marks(marks, view.scale);
    const double way = text_x < rake ? 1.0 : -1.0;
    page.svg.open_group("", name);
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const double y = view.eave_y - heights[i];
        page.svg.text({text_x, y + 3.4}, marks[i].words,
                      {.size = mark_text, .anchor = way > 0.0 ? TextAnchor::end : TextAnchor::start});
        page.svg.polyline({{text_x + way * 2.0, y},
                           {text_x + way * 5.0, y},
                           {rake - way * 2.0, view.y_of(marks[i].up)},
                           {rake, view.y_of(marks[i].up)}},
                          thin_pen);
    }
    page.svg.close_group();
}

/// One space of the frame chain, or several alike side by side.
struct FrameSpace {
    Length from;
    Length to;
    std::string words;
    std::size_t count;
};

/// From the left rake edge over all frames to the right one, as far as it lies in the strip.
[[nodiscard]] inline std::vector<FrameSpace> frame_spaces(const SlopeResult& slope, const Page& page,
                                                          const Strip& strip) {
    std::vector<Length> chain{slope.frames.plane_left};
    chain.insert(chain.end(), slope.frames.centres.begin(), slope.frames.centres.end());
    if (!slope.trueness) {
        chain.push_back(
            slope.frames.plane_right);  // of a measured plane nobody read where the right rake meets the chain
    }
    std::vector<FrameSpace> spaces;
    for (std::size_t i = 1; i < chain.size(); ++i) {
        if (strip.holds((chain[i - 1] + chain[i]) / 2.0) && chain[i] - chain[i - 1] > count_tolerance) {
            spaces.push_back({chain[i - 1], chain[i], page.figure(chain[i] - chain[i - 1]), 1});
        }
    }
    return spaces;
}

/// Spaces that read alike and are too narrow for their text are named together: `12 of 2'-0"`.
[[nodiscard]] inline std::vector<FrameSpace> joined_spaces(const std::vector<FrameSpace>& spaces, double scale) {
    std::vector<FrameSpace> joined;
    for (const FrameSpace& space : spaces) {
        const bool narrow = inches(space.to - space.from) * scale < text_width(space.words, least_text) + 4.0;
        if (narrow && !joined.empty() && joined.back().words == space.words) {
            joined.back().to = space.to;
            ++joined.back().count;
        } else {
            joined.push_back(space);
        }
    }
    return joined;
}

/// A text of the frame chain: where it would stand, and where there is room for it.
struct FrameText {
    std::string words;
    double wanted;
    double x;
    std::size_t level;  ///< lines below the first
};

/// Texts that would touch go one line lower.
[[nodiscard]] inline std::vector<FrameText> frame_texts(const SlopeResult& slope, const Page& page,
                                                        const Strip& strip) {
    std::vector<FrameText> texts;
    std::vector<double> reached;  // how far right each line of text is filled
    for (const FrameSpace& space : joined_spaces(frame_spaces(slope, page, strip), strip.view.scale)) {
        const std::string words = space.count > 1 ? std::to_string(space.count) + " of " + space.words : space.words;
        const double half = text_width(words, least_text) / 2.0;
        const double wanted = (strip.view.x_of(space.from) + strip.view.x_of(space.to)) / 2.0;
        const double x = greater(page_margin + half, lesser(page.width - page_margin - half, wanted));
        std::size_t level = 0;
        while (level < reached.size() && reached[level] > x - half) {
            ++level;
        }
        reached.resize(level < reached.size() ? reached.size() : level + 1, 0.0);
        reached[level] = x + half + 4.0;
        texts.push_back({words, wanted, x, level});
    }
    return texts;
}

/// Ticks where the frames stand, and their spacing below. Returns how far down that reached.
inline double draw_frames(Page& page, const SlopeResult& slope, const Strip& strip, double top) {
    page.svg.open_group("", "Frame spacing along the eave, from the rake edge");
    for (const Length frame : slope.frames.centres) {
        if (strip.holds(frame)) {
            page.svg.line({strip.view.x_of(frame), strip.bottom - 5.0}, {strip.view.x_of(frame), top + 5.0},
                          R"(stroke="#000" stroke-width="1.1")");
        }
    }
    const std::vector<FrameText> texts = frame_texts(slope, page, strip);
    const auto y_of = [&](const FrameText& text) { return top + 11.0 + 11.5 * static_cast<double>(text.level); };
    double reached = top + 5.0;
    for (const FrameText& text : texts) {
        bool hidden = text.level == 0;
        for (const FrameText& other : texts) {  // a leader that would run under another text is left out
            hidden = hidden || (other.level < text.level &&
                                std::fabs(other.x - text.wanted) < text_width(other.words, least_text) / 2.0);
        }
        if (!hidden) {
            page.svg.line({text.wanted, top + 1.0}, {text.x, y_of(text) - 4.0}, thin_pen);
        }
    }
    for (const FrameText& text : texts) {
        page.label({text.x, y_of(text)}, text.words, {.size = least_text});
        reached = greater(reached, y_of(text) + 8.0);
    }
    page.svg.close_group();
    return reached;
}

/// The solid start corner, and under it an arrow along the eave with words.
inline double draw_start_arrow(Page& page, SvgPoint corner, bool right, double y, std::string_view words) {
    const double way = right ? -1.0 : 1.0;
    draw_start_corner(page, corner, right);
    draw_arrow(page.svg, {corner.x, y + 6.0}, {corner.x + way * 28.0, y + 6.0});
    page.svg.text({corner.x + way * 33.0, y + 9.5}, words,
                  {.size = 10.0, .anchor = right ? TextAnchor::end : TextAnchor::start});
    return y + 14.0;
}

/// The start corner, and which way the lanes follow one another.
inline double draw_start(Page& page, const SlopeResult& slope, const Strip& strip, double y) {
    const bool right = started_right(slope);
    if (slope.sheets.pieces.empty() || !(right ? strip.last : strip.first)) {
        return y;
    }
    const double corner = right ? strip.view.x_of(strip.to) : strip.view.x_of(strip.from);
    const bool columns = slope.sheets.run == SupportRun::along_eave;
    return draw_start_arrow(
        page, {corner, strip.bottom}, right, y,
        columns ? "start here: up the slope, lane by lane" : "start here: along the eave, course by course");
}

}  // namespace eavewright::detail
