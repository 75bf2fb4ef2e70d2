// SPDX-License-Identifier: BSL-1.0
#pragma once

// The lower and the upper end of a panel of any outline, as a person with shears marks them.

#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/tiling/panel_reach.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Corners that differ by less are one, and three on one line are two.
inline constexpr Length end_rounding = Length::from_inches(1e-7);

/// Index of the lowest or highest corner at the left or right side of an outline.
[[nodiscard]] inline std::size_t side_corner(const std::vector<PlanePoint>& outline, const Extent& extent, bool left,
                                             bool lowest) {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Length off = left ? outline[i].along - extent.low.along : extent.high.along - outline[i].along;
        const bool better =
            !found || (lowest ? outline[i].up < outline[*found].up : outline[i].up > outline[*found].up);
        if (off <= end_rounding && better) {
            found = i;
        }
    }
    return *found;
}

/// The corners from one to another, counter-clockwise, without those in the middle of a straight line.
[[nodiscard]] inline std::vector<PlanePoint> chain_of(const std::vector<PlanePoint>& outline, std::size_t from,
                                                      std::size_t to) {
    std::vector<PlanePoint> chain;
    for (std::size_t i = from;; i = (i + 1) % outline.size()) {
        const PlanePoint p = outline[i];
        if (chain.size() > 1) {
            const PlanePoint a = chain[chain.size() - 2];
            const Length reach = hypotenuse(p.along - a.along, p.up - a.up);
            if (std::fabs(turn(a, p, chain.back())) <= inches(end_rounding) * inches(reach)) {
                chain.pop_back();
            }
        }
        const bool same = !chain.empty() && distance_to(p, chain.back(), chain.back()) <= end_rounding;
        if (!same) {
            chain.push_back(p);
        }
        if (i == to) {
            return chain;
        }
    }
}

/// The edge of the plane along which a stretch of an end lies.
[[nodiscard]] inline std::optional<EdgeKind> edge_along(const PanelReach& reach, PlanePoint a, PlanePoint b) {
    const PlanePoint middle{(a.along + b.along) / 2.0, (a.up + b.up) / 2.0};
    for (const ReachEdge& edge : reach.edges) {
        const PlanePoint to{edge.from.along + edge.way.along, edge.from.up + edge.way.up};
        if (distance_to(middle, edge.from, to) <= opening_touches) {
            return edge.kind;
        }
    }
    return std::nullopt;
}

/// An end along `chain`, from left to right, of a panel whose lower end is at `low` and whose stock's cover begins at `left`.
[[nodiscard]] inline PanelEnd panel_end(const PanelReach& reach, std::vector<PlanePoint> chain, Length left, Length low,
                                        Length cover) {
    PanelEnd end{no_length, no_length, 0.0, no_length, chain.size() <= 2, false, std::nullopt, {}};
    Length longest = -one_inch;
    for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
        const Length run = magnitude(chain[i + 1].along - chain[i].along);
        if (run > longest) {
            longest = run;
            end.edge = edge_along(reach, chain[i], chain[i + 1]);
        }
    }
    const PlanePoint a = chain.front();
    const PlanePoint b = chain.back();
    const Length rise = b.up - a.up;
    const bool level = magnitude(rise) <= end_rounding;
    end.slope = level || !(b.along - a.along > end_rounding) ? 0.0 : rise / (b.along - a.along);
    end.step = cover * std::fabs(end.slope);
    end.cut = !end.straight || !level;
    end.left = a.up - low;
    end.right = b.up - low;
    for (PlanePoint& p : chain) {
        p = {p.along - left, p.up - low};
    }
    end.line = std::move(chain);
    return end;
}

/// Both ends of a part.
struct PartEnds {
    PanelEnd lower;
    PanelEnd upper;
};
[[nodiscard]] inline PartEnds ends_of(const PanelReach& reach, const std::vector<PlanePoint>& outline, Length left,
                                      Length cover) {
    const Extent extent = extent_of(outline);
    std::vector<PlanePoint> below =
        chain_of(outline, side_corner(outline, extent, true, true), side_corner(outline, extent, false, true));
    std::vector<PlanePoint> above =
        chain_of(outline, side_corner(outline, extent, false, false), side_corner(outline, extent, true, false));
    std::reverse(above.begin(), above.end());
    return {panel_end(reach, std::move(below), left, extent.low.up, cover),
            panel_end(reach, std::move(above), left, extent.low.up, cover)};
}

/// Whether the lowest corner of a part stands on an edge that panels hang over.
[[nodiscard]] inline bool stands_on_eave(const PanelReach& reach, const Extent& part) {
    return std::any_of(reach.edges.begin(), reach.edges.end(), [&](const ReachEdge& edge) {
        const Length from = edge.from.along;
        const Length to = edge.from.along + edge.way.along;
        const Length low = shorter(edge.from.up, edge.from.up + edge.way.up);
        const Length high = longer(edge.from.up, edge.from.up + edge.way.up);
        return edge.foot && from < part.high.along && part.low.along < to && part.low.up >= low - opening_touches &&
               part.low.up <= high + opening_touches;
    });
}

}  // namespace eavewright::detail
