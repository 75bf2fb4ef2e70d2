// SPDX-License-Identifier: BSL-1.0
#pragma once

// Where a line that runs with the eave lies on a plane: between its edges and beside its openings.

#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <vector>

namespace eavewright {

namespace detail {
/// Calls `take(along)` where the straight edge from `a` to `b` crosses the line; its bends are corners of the edge's halves.
template <class Take>
void cross_line(PlanePoint a, PlanePoint b, const std::vector<PlanePoint>& line, Take take) {
    const auto above = [&](PlanePoint p) { return p.up - up_at(line, p.along); };
    const auto cross = [&](PlanePoint from, PlanePoint to) {
        const Length start = above(from);
        const Length end = above(to);
        if ((start >= no_length) != (end >= no_length)) {
            take(from.along + (to.along - from.along) * (start / (start - end)));
        }
    };
    PlanePoint from = a;
    const auto visit = [&](PlanePoint bend) {
        const double share = (bend.along - a.along) / (b.along - a.along);
        const PlanePoint on{bend.along, a.up + (b.up - a.up) * share};
        cross(from, on);
        from = on;
    };
    for (std::size_t i = 1; i + 1 < line.size(); ++i) {
        const PlanePoint bend = a.along < b.along ? line[i] : line[line.size() - 1 - i];
        if ((a.along < bend.along && bend.along < b.along) || (b.along < bend.along && bend.along < a.along)) {
            visit(bend);
        }
    }
    cross(from, b);
}
}  // namespace detail

/// The stretches of a line, ascending along, on an outline with openings. A corner on the line counts as above it.
[[nodiscard]] inline std::vector<Span> stretches_on(const std::vector<PlanePoint>& outline,
                                                    const std::vector<std::vector<PlanePoint>>& openings,
                                                    const std::vector<PlanePoint>& line) {
    std::vector<Length> met;
    const auto take_ring = [&](const std::vector<PlanePoint>& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            detail::cross_line(ring[i], ring[(i + 1) % ring.size()], line, [&](Length at) { met.push_back(at); });
        }
    };
    take_ring(outline);
    for (const std::vector<PlanePoint>& opening : openings) {
        take_ring(opening);
    }
    std::sort(met.begin(), met.end());
    std::vector<Span> stretches;
    for (std::size_t i = 0; i + 1 < met.size(); i += 2) {
        if (!stretches.empty() && met[i] <= stretches.back().high) {
            stretches.back().high = longer(stretches.back().high, met[i + 1]);
        } else if (met[i + 1] > met[i]) {
            stretches.push_back({met[i], met[i + 1]});
        }
    }
    return stretches;
}

/// `stretches` less what lies within `gone`.
[[nodiscard]] inline std::vector<Span> without(const std::vector<Span>& stretches, Span gone) {
    std::vector<Span> left;
    for (const Span& stretch : stretches) {
        if (gone.high <= stretch.low || stretch.high <= gone.low) {
            left.push_back(stretch);
            continue;
        }
        if (stretch.low < gone.low) {
            left.push_back({stretch.low, gone.low});
        }
        if (gone.high < stretch.high) {
            left.push_back({gone.high, stretch.high});
        }
    }
    return left;
}

}  // namespace eavewright
