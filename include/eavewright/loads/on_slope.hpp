// SPDX-License-Identifier: BSL-1.0
#pragma once

// A vertical load on a slope, told by which area it is spread over: snow and roof live load by the area in plan, the roof's
// own weight by its surface.

#include <eavewright/field.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

namespace eavewright {

/// One vertical load in the ways that it is needed.
struct SlopeLoad {
    Pressure in_plan;     ///< vertical, by area in plan
    Pressure on_surface;  ///< vertical, by area of the surface
    Pressure normal;      ///< square to the slope, by area of the surface
    Pressure along;       ///< down the slope, by area of the surface
};
template <>
struct FieldsOf<SlopeLoad> {
    static constexpr auto list =
        field_list(field(
                       "in_plan_psf", FieldUnit::ratio, "vertical, in pounds per square foot in plan",
                       +[](const SlopeLoad& l) { return psf(l.in_plan); }),
                   field(
                       "on_surface_psf", FieldUnit::ratio, "vertical, in pounds per square foot of surface",
                       +[](const SlopeLoad& l) { return psf(l.on_surface); }),
                   field(
                       "normal_psf", FieldUnit::ratio, "square to the slope, in pounds per square foot of surface",
                       +[](const SlopeLoad& l) { return psf(l.normal); }),
                   field(
                       "along_psf", FieldUnit::ratio, "down the slope, in pounds per square foot of surface",
                       +[](const SlopeLoad& l) { return psf(l.along); }));
};

/// A load by area in plan: normal p cos^2, along p sin cos. Exact where rise and run are.
[[nodiscard]] inline SlopeLoad load_from_plan(Pressure in_plan, Pitch pitch) {
    const double c = pitch.cosine();
    return {in_plan, in_plan * c, in_plan * c * c, in_plan * pitch.sine() * c};
}
/// A load by area of the surface: normal w cos, along w sin.
[[nodiscard]] inline SlopeLoad load_from_surface(Pressure on_surface, Pitch pitch) {
    return {on_surface * pitch.slope_factor(), on_surface, on_surface * pitch.cosine(), on_surface * pitch.sine()};
}

}  // namespace eavewright
