// SPDX-License-Identifier: BSL-1.0
#pragma once

// Planes and frames that the tests of framing stand on.

#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/roof/shape.hpp>

#include <cmath>
#include <utility>
#include <vector>

/// A purlin plane with the given outline, 4 in 12.
inline eavewright::PurlinPlane purlin_plane(std::vector<eavewright::PlanePoint> outline) {
    using namespace eavewright;
    return PurlinPlane{.pitch = Pitch::in_12(4),
                       .outline = std::move(outline),
                       .edges = {EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake},
                       .openings = {},
                       .placement = {{no_length, no_length, no_length}, 1.0, 0.0}};
}
inline eavewright::PurlinPlane rectangle(eavewright::Length along, eavewright::Length up) {
    using eavewright::no_length;
    return purlin_plane({{no_length, no_length}, {along, no_length}, {along, up}, {no_length, up}});
}
/// Corners in inches: eave right (on up 0), ridge right, ridge left.
inline eavewright::PurlinPlane measured(double eave, double right_along, double right_up, double left_along,
                                        double left_up) {
    using eavewright::no_length;
    using eavewright::one_inch;
    return purlin_plane({{no_length, no_length},
                         {one_inch * eave, no_length},
                         {one_inch * right_along, one_inch * right_up},
                         {one_inch * left_along, one_inch * left_up}});
}
