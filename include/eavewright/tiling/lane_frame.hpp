// SPDX-License-Identifier: BSL-1.0
#pragma once

// The one frame that sheets are laid in: lanes run up, supports run along. Planes over chords are turned into it, and
// planes started at the right are mirrored, so that laying is written once.

#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Turns plane points into lane points and back: first the grid's own turn, then the mirror, then the swap.
struct LaneFrame {
    bool swapped;         ///< lanes run along the eave
    bool mirrored;        ///< laid from the right
    Length mirror;        ///< along' = mirror - along
    double cosine = 1.0;  ///< of the grid's turn, counter-clockwise
    double sine = 0.0;

    [[nodiscard]] PlanePoint unturned(PlanePoint p) const {
        return sine == 0.0 ? p : PlanePoint{p.along * cosine + p.up * sine, p.up * cosine - p.along * sine};
    }
    [[nodiscard]] PlanePoint to_lane(PlanePoint p) const {
        const PlanePoint u = unturned(p);
        const PlanePoint m{mirrored ? mirror - u.along : u.along, u.up};
        return swapped ? PlanePoint{m.up, m.along} : m;
    }
    [[nodiscard]] PlanePoint to_plane(PlanePoint p) const {
        const PlanePoint m = swapped ? PlanePoint{p.up, p.along} : p;
        const PlanePoint u{mirrored ? mirror - m.along : m.along, m.up};
        return sine == 0.0 ? u : PlanePoint{u.along * cosine - u.up * sine, u.up * cosine + u.along * sine};
    }
    /// An outline, kept counter-clockwise.
    template <class Turn>
    [[nodiscard]] std::vector<PlanePoint> turned(const std::vector<PlanePoint>& outline, Turn turn) const {
        std::vector<PlanePoint> result;
        result.reserve(outline.size());
        for (const PlanePoint& p : outline) {
            result.push_back(turn(p));
        }
        if (swapped != mirrored) {
            std::reverse(result.begin(), result.end());
        }
        return result;
    }
    [[nodiscard]] std::vector<PlanePoint> outline_to_lane(const std::vector<PlanePoint>& outline) const {
        return turned(outline, [this](PlanePoint p) { return to_lane(p); });
    }
    [[nodiscard]] std::vector<PlanePoint> outline_to_plane(const std::vector<PlanePoint>& outline) const {
        return turned(outline, [this](PlanePoint p) { return to_plane(p); });
    }
};

/// Where a support runs, along in the lane frame.
[[nodiscard]] inline Span stretch_to_lane(const SupportLine& line, Span stretch, const LaneFrame& frame) {
    const auto on_line = [&](Length at) {
        const PlanePoint p =
            frame.swapped ? PlanePoint{along_at(line.centreline, at), at} : PlanePoint{at, up_at(line.centreline, at)};
        return frame.to_lane(p).along;
    };
    const Length low = on_line(stretch.low);
    const Length high = on_line(stretch.high);
    return {shorter(low, high), longer(low, high)};
}

/// Supports in the lane frame, lowest first, each with its points ascending along.
[[nodiscard]] inline std::vector<SupportLine> lines_to_lane(const std::vector<SupportLine>& lines,
                                                            const LaneFrame& frame) {
    std::vector<SupportLine> result;
    result.reserve(lines.size());
    for (const SupportLine& line : lines) {
        SupportLine turned{{}, line.width};
        turned.centreline.reserve(line.centreline.size());
        turned.stretches.reserve(line.stretches.size());
        for (const PlanePoint& p : line.centreline) {
            turned.centreline.push_back(frame.to_lane(p));
        }
        if (!turned.centreline.empty() && turned.centreline.front().along > turned.centreline.back().along) {
            std::reverse(turned.centreline.begin(), turned.centreline.end());
        }
        for (const Span& stretch : line.stretches) {
            turned.stretches.push_back(stretch_to_lane(line, stretch, frame));
        }
        if (frame.mirrored && !frame.swapped) {
            std::reverse(turned.stretches.begin(), turned.stretches.end());
        }
        result.push_back(std::move(turned));
    }
    if (frame.swapped && frame.mirrored) {
        std::reverse(result.begin(), result.end());
    }
    return result;
}

/// The part of a convex outline on one side of a line square to an axis: keep where `side(point)` is not negative.
template <class Side>
[[nodiscard]] std::vector<PlanePoint> clip(const std::vector<PlanePoint>& outline, Side side) {
    std::vector<PlanePoint> kept;
    kept.reserve(outline.size() + 1);
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[(i + 1) % outline.size()];
        const Length sa = side(a);
        const Length sb = side(b);
        if (sa >= no_length) {
            kept.push_back(a);
        }
        if ((sa > no_length && sb < no_length) || (sa < no_length && sb > no_length)) {
            const double share = sa / (sa - sb);
            kept.push_back({a.along + (b.along - a.along) * share, a.up + (b.up - a.up) * share});
        }
    }
    return kept;
}

/// The part of a convex outline between two values of along.
[[nodiscard]] inline std::vector<PlanePoint> clip_along(const std::vector<PlanePoint>& outline, Span span) {
    std::vector<PlanePoint> part = clip(outline, [&](PlanePoint p) { return p.along - span.low; });
    part = clip(part, [&](PlanePoint p) { return span.high - p.along; });
    for (PlanePoint& p : part) {  // cut corners lie on the cutting line to the last bit
        p.along = longer(span.low, shorter(span.high, p.along));
    }
    return part;
}
/// The part of a convex outline between two values of up.
[[nodiscard]] inline std::vector<PlanePoint> clip_up(const std::vector<PlanePoint>& outline, Span span) {
    std::vector<PlanePoint> part = clip(outline, [&](PlanePoint p) { return p.up - span.low; });
    part = clip(part, [&](PlanePoint p) { return span.high - p.up; });
    for (PlanePoint& p : part) {
        p.up = longer(span.low, shorter(span.high, p.up));
    }
    return part;
}

}  // namespace eavewright::detail
