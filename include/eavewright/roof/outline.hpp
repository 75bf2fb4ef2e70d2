// SPDX-License-Identifier: BSL-1.0
#pragma once

// What laying asks of a plane of any outline.

#include <eavewright/fault.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/quantities.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace eavewright {

/// Most corners of a plane, its openings' together, that anything is laid on.
inline constexpr std::size_t most_corners = 2000;

namespace detail {
/// A convex plane of four sides whose first is its eave: its ridge may lie as it was measured.
template <Surface surface>
[[nodiscard]] bool is_four_sided(const Plane<surface>& plane) {
    return plane.outline.size() == 4 && is_convex(plane.outline) &&
           (plane.edges.empty() || plane.edges[0] == EdgeKind::eave);
}

/// True where two sides of a ring that are not neighbours cross.
[[nodiscard]] inline bool crosses_itself(const std::vector<PlanePoint>& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        for (std::size_t k = i + 1; k < ring.size(); ++k) {
            if (segments_cross(ring[i], ring[(i + 1) % ring.size()], ring[k], ring[(k + 1) % ring.size()])) {
                return true;
            }
        }
    }
    return false;
}

/// Finite, counter-clockwise, not crossing itself, a kind for every edge; openings of three corners or more, inside.
template <Surface surface>
void require_outline(const Plane<surface>& plane) {
    require_sound(plane, "plane");
    const std::vector<PlanePoint>& outline = plane.outline;
    const auto refuse = [](const char* path, const std::string& given, const char* required) {
        throw FaultError{Fault{FaultCode::not_supported, path, given, required}};
    };
    std::size_t corners = outline.size();
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        corners += opening.size();
    }
    if (outline.size() < 3 || corners > most_corners) {
        refuse("plane.outline", std::to_string(corners) + " corners", "3 to 2000 corners");
    }
    if (!(square_inches(signed_area(outline)) > 0.0) || crosses_itself(outline)) {
        refuse("plane.outline", "an outline that is clockwise or crosses itself", "corners counter-clockwise");
    }
    if (plane.edges.size() != outline.size()) {
        refuse("plane.edges", std::to_string(plane.edges.size()) + " kinds of edges", "one for each corner");
    }
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        if (opening.size() < 3 || crosses_itself(opening) || outlines_cross(opening, outline) ||
            !is_inside(middle_of(opening), outline)) {
            refuse("plane.openings", "an opening off the plane", "openings inside the outline");
        }
    }
}
}  // namespace detail

}  // namespace eavewright
