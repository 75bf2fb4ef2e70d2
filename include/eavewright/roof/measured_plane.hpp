// SPDX-License-Identifier: BSL-1.0
#pragma once

// A plane as it was measured: the nominal plane with the corners that squaring found.

#include <eavewright/roof/plane.hpp>
#include <eavewright/squaring/four_corners.hpp>

namespace eavewright {

/// `nominal` with its outline replaced by measured corners. Its eave's left corner keeps its place in the building
/// and its pitch is taken as built; openings are dropped, since they were not measured.
template <Surface surface>
[[nodiscard]] Plane<surface> measured_plane(const Plane<surface>& nominal, const FourCorners& corners) {
    const auto point = [](const PlaneCorner& c) { return PlanePoint{c.along, c.up}; };
    Plane<surface> plane = nominal;
    plane.outline = {point(corners.eave_left), point(corners.eave_right), point(corners.ridge_right),
                     point(corners.ridge_left)};
    plane.openings.clear();
    return plane;
}

}  // namespace eavewright
