// SPDX-License-Identifier: BSL-1.0
#pragma once

// A long plane is drawn in strips, one under the other, so that every sheet stays large enough to carry its name.

#include <eavewright/drawing/page.hpp>

#include <cmath>
#include <cstddef>
#include <set>
#include <vector>

namespace eavewright::detail {

/// Strips of a plane and the one scale they are drawn at.
struct Strips {
    std::vector<Length> breaks;  ///< ascending: strip i reaches from breaks[i] to breaks[i + 1]
    double scale;                ///< drawing units an inch
};

/// The scale at which sheets carry their names and neighbouring purlin marks do not touch.
[[nodiscard]] inline double legible_scale(const SlopeResult& slope) {
    const double name_wide = greater(27.0, widest_name(slope.sheets) + 5.0);
    constexpr double name_high = 20.0;
    constexpr double mark_high = 11.0;
    Length along = no_length;
    Length up = no_length;
    for (const SheetPiece& piece : slope.sheets.pieces) {
        const Extent extent = extent_of(piece.outline);
        along = longer(along, extent.high.along - extent.low.along);
        up = longer(up, extent.high.up - extent.low.up);
    }
    double scale = 0.0;
    if (along > no_length && up > no_length) {
        scale = greater(name_wide / inches(along), name_high / inches(up));
    }
    if (slope.purlins && slope.purlins->spacing > Length::from_inches(11.0)) {
        scale = greater(scale, mark_high / inches(slope.purlins->spacing));
    }
    return scale;
}

/// Lower edges of the lanes along the eave, where lanes run up the slope: a strip that ends there cuts no sheet.
[[nodiscard]] inline std::set<Length> lane_edges(const Sheets& sheets) {
    std::set<Length> edges;
    if (sheets.run == SupportRun::along_eave) {
        for (const SheetPiece& piece : sheets.pieces) {
            if (piece.place == 0) {
                edges.insert(extent_of(piece.outline).low.along);
            }
        }
    }
    return edges;
}

/// The edge closest to `target` between `low` and `high`, or `target` where there is none.
[[nodiscard]] inline Length break_at(const std::set<Length>& edges, Length target, Length low, Length high) {
    const auto above = edges.lower_bound(target);
    const bool has_above = above != edges.end() && *above < high;
    const bool has_below = above != edges.begin() && *std::prev(above) > low;
    if (has_above && (!has_below || *above - target < target - *std::prev(above))) {
        return *above;
    }
    return has_below ? *std::prev(above) : target;
}

/// As few strips as keep the legible scale on `wide` drawing units, drawn as large as they then fit.
[[nodiscard]] inline Strips strips_of(const SlopeResult& slope, const Extent& extent, double wide) {
    constexpr double comfortable_height = 300.0;
    const double needed = legible_scale(slope);
    const Length long_way = extent.high.along - extent.low.along;
    const double share = inches(long_way) * needed / wide;
    const int count = share <= 1.0 ? 1 : static_cast<int>(std::ceil(share));
    const std::set<Length> edges = lane_edges(slope.sheets);
    Strips strips{.breaks = {extent.low.along}, .scale = 0.0};
    Length widest = no_length;
    for (int i = 1; i <= count; ++i) {
        const Length target = extent.low.along + long_way * (static_cast<double>(i) / count);
        const Length end =
            i == count ? extent.high.along : break_at(edges, target, strips.breaks.back(), extent.high.along);
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

}  // namespace eavewright::detail
