// SPDX-License-Identifier: BSL-1.0
#pragma once

// Planes with a hip or a valley, small enough to work out by hand.

#include <eavewright/tiling/lay_cut_panels.hpp>

#include <cmath>
#include <utility>
#include <vector>

namespace cut_planes {
using eavewright::EdgeKind;
using eavewright::Length;
using eavewright::PlanePoint;
using eavewright::PurlinPlane;

inline PurlinPlane plane(std::vector<PlanePoint> outline, std::vector<EdgeKind> edges) {
    using eavewright::no_length;
    return {eavewright::Pitch::in_12(4),
            std::move(outline),
            std::move(edges),
            {},
            {{no_length, no_length, no_length}, 1.0, 0.0}};
}
/// Level supports, every `spacing` from the lowest to the highest corner.
inline eavewright::Supports<eavewright::Surface::purlin_top> level_supports(const PurlinPlane& plane, Length spacing) {
    using namespace eavewright;
    Supports<Surface::purlin_top> supports{SupportRun::along_eave, {}, spacing};
    const Extent extent = extent_of(plane.outline);
    for (Length up = extent.low.up; up < extent.high.up; up += spacing) {
        supports.lines.push_back({{{extent.low.along, up}, {extent.high.along, up}}, 1.5 * one_inch, {}});
    }
    return supports;
}
inline const double factor = std::sqrt(10.0) / 3.0;  // slope over run at 4 in 12: sqrt(1 + 1/9)

/// A hip end of 36 ft at 4 in 12, all pitches equal: 216 in of run, 216 x sqrt(10)/3 up the slope.
inline PurlinPlane hip_end() {
    using eavewright::one_inch;
    return plane({{0.0 * one_inch, 0.0 * one_inch},
                  {432.0 * one_inch, 0.0 * one_inch},
                  {216.0 * one_inch, 216.0 * one_inch * factor}},
                 {EdgeKind::eave, EdgeKind::hip, EdgeKind::hip});
}
/// 30 ft of ridge over 18 ft of eave: 144 in of run, the right side a valley at equal pitch from the eave's right end.
inline PurlinPlane valley_plane() {
    using eavewright::one_inch;
    return plane({{0.0 * one_inch, 0.0 * one_inch},
                  {216.0 * one_inch, 0.0 * one_inch},
                  {360.0 * one_inch, 144.0 * one_inch * factor},
                  {0.0 * one_inch, 144.0 * one_inch * factor}},
                 {EdgeKind::eave, EdgeKind::valley, EdgeKind::ridge, EdgeKind::rake});
}

}  // namespace cut_planes
