// SPDX-License-Identifier: BSL-1.0
#pragma once

// A plane whose upper edge stays back from the ridge: for a vent slot, or for what cannot reach the line.

#include <eavewright/fault.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>

namespace eavewright {

/// `plane` with the upper ends of its rakes drawn back by `hold_back` up the slope, each along its own rake.
/// Throws `FaultError`: not_supported for other than four-sided planes, out_of_range unless 0 <= hold_back < the shorter
/// rake's height.
template <Surface surface>
[[nodiscard]] Plane<surface> held_back(const Plane<surface>& plane, Length hold_back) {
    detail::require_four_sided(plane);
    Plane<surface> shorter_plane = plane;
    std::vector<PlanePoint>& o = shorter_plane.outline;
    Faults faults;
    require_within(hold_back, no_length, shorter(o[2].up, o[3].up) - one_inch, Path{"ridge_hold_back"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    const auto draw_back = [&](PlanePoint& ridge, PlanePoint eave) {
        ridge = {ridge.along - (ridge.along - eave.along) * (hold_back / ridge.up), ridge.up - hold_back};
    };
    if (hold_back > no_length) {
        draw_back(o[2], o[1]);
        draw_back(o[3], o[0]);
    }
    return shorter_plane;
}

}  // namespace eavewright
