// SPDX-License-Identifier: BSL-1.0
#pragma once

// A long plane is drawn in strips, one under the other, so that every piece stays large enough to carry its name.

#include <eavewright/drawing/page.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <set>
#include <vector>

namespace eavewright::detail {

/// Strips of a plane and the one scale they are drawn at.
struct Strips {
    std::vector<Length> breaks;  ///< ascending: strip i reaches from breaks[i] to breaks[i + 1]
    double scale;                ///< drawing units an inch
};

/// What must stay legible in every strip, and where it may be broken.
struct StripNeeds {
    double name_wide;    ///< drawing units that the widest name takes
    Length piece_along;  ///< the largest piece each way; none where nothing is named
    Length piece_up;
    std::optional<Length> row_spacing;
    std::set<Length> edges;  ///< a strip that ends at one of them cuts no piece
};

/// The scale at which pieces carry their names and neighbouring marks of rows do not touch.
[[nodiscard]] inline double legible_scale(const StripNeeds& needs) {
    const double name_wide = greater(27.0, needs.name_wide + 5.0);
    constexpr double name_high = 20.0;
    constexpr double mark_high = 11.0;
    double scale = 0.0;
    if (needs.piece_along > no_length && needs.piece_up > no_length) {
        scale = greater(name_wide / inches(needs.piece_along), name_high / inches(needs.piece_up));
    }
    if (needs.row_spacing && *needs.row_spacing > Length::from_inches(11.0)) {
        scale = greater(scale, mark_high / inches(*needs.row_spacing));
    }
    return scale;
}

/// The edge closest to `target` between `low` and `high`, or `target` where there is none.
[[nodiscard]] inline Length break_at(const std::set<Length>& edges, Length target, Length low, Length high) {
    const auto above = edges.lower_bound(target);
    const bool has_above = above != edges.end() && *above < high;
    auto before = above;  // <iterator> would bring streams along, which do not stand behind platform macros
    if (above != edges.begin()) {
        --before;
    }
    const bool has_below = above != edges.begin() && *before > low;
    if (has_above && (!has_below || *above - target < target - *before)) {
        return *above;
    }
    return has_below ? *before : target;
}

/// As few strips as keep the legible scale on `wide` drawing units, drawn as large as they then fit.
[[nodiscard]] inline Strips strips_of(const StripNeeds& needs, const Extent& extent, double wide) {
    constexpr double comfortable_height = 300.0;
    const double needed = legible_scale(needs);
    const Length long_way = extent.high.along - extent.low.along;
    const double share = inches(long_way) * needed / wide;
    const int count = share <= 1.0 ? 1 : static_cast<int>(std::ceil(share));
    Strips strips{.breaks = {extent.low.along}, .scale = 0.0};
    Length widest = no_length;
    for (int i = 1; i <= count; ++i) {
        const Length target = extent.low.along + long_way * (static_cast<double>(i) / count);
        const Length end =
            i == count ? extent.high.along : break_at(needs.edges, target, strips.breaks.back(), extent.high.along);
        widest = longer(widest, end - strips.breaks.back());
        strips.breaks.push_back(end);
    }
    const double by_height = greater(needed, comfortable_height / inches(extent.high.up - extent.low.up));
    strips.scale = lesser(wide / inches(widest), by_height);
    return strips;
}

/// One strip on its way onto the page.
struct Strip {
    View view;
    Length from;
    Length to;
    double top;     ///< y of the plane's upper edge
    double bottom;  ///< y of its lower edge
    bool first;
    bool last;
    std::vector<Box> taken{};  ///< boxes that marks keep clear of

    /// Whether a point belongs to this strip: each belongs to exactly one.
    [[nodiscard]] bool holds(Length along) const { return (first || along >= from) && (last || along < to); }
    [[nodiscard]] bool touches(const Extent& extent) const {
        const Length hair = Length::from_inches(0.25);  // the gap to a neighbour is no part of it
        return extent.high.along > from + hair && extent.low.along < to - hair;
    }
    [[nodiscard]] bool is_free(const Box& box) const {
        for (const Box& other : taken) {
            if (box.meets(other)) {
                return false;
            }
        }
        return true;
    }
};

/// Opens a window on the plane within a strip, up to `close_group`.
inline void open_strip_window(SvgText& svg, const Strip& strip) {
    const double left = strip.view.x_of(strip.from);
    const double right = strip.view.x_of(strip.to);
    svg.open_window({left - 1.0, strip.top - 2.0}, right - left + 2.0, strip.bottom - strip.top + 4.0);
}

/// Where a strip goes on in the next one.
inline void draw_breaks(SvgText& svg, const Strip& strip) {
    const double left = strip.view.x_of(strip.from);
    const double right = strip.view.x_of(strip.to);
    for (const double x : {left, right}) {
        if (!(x == left ? strip.first : strip.last)) {
            svg.line({x, strip.top - 8.0}, {x, strip.bottom + 8.0}, break_pen);
        }
    }
}

}  // namespace eavewright::detail
