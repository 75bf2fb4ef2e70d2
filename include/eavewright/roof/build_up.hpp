// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a shape is described with: which face a width goes to, how the tails are cut, which layers lie on the chords.

#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <string_view>

namespace eavewright {

/// Which faces of the wall a footprint is measured to. Overhangs are measured from the same faces.
enum class WallFace {
    posts,  ///< out to out of posts
    girts,  ///< out to out of the girts that stand outside the posts
};
template <>
struct NamesOf<WallFace> {
    static constexpr std::array<std::string_view, 2> list{"posts", "girts"};
};

/// How the tails, and the fascia on them, are cut.
enum class TailCut {
    plumb,   ///< vertical
    square,  ///< square to the slope
};
template <>
struct NamesOf<TailCut> {
    static constexpr std::array<std::string_view, 2> list{"plumb", "square"};
};

/// Depth of the layers on the chords, measured square to the slope.
struct BuildUp {
    Length purlin;            ///< chord top to purlin top; 0 where purlins hang between the chords
    Length deck = no_length;  ///< purlin top to deck top; 0 where steel lies straight on the purlins
};

/// Longest side of a building: 2000 ft, well past any pole building, so that a slip of a unit is caught.
inline constexpr Length longest_building = Length::from_feet(2000.0);
/// Deepest overhang, and deepest layer, that is taken for one.
inline constexpr Length longest_overhang = Length::from_feet(20.0);
inline constexpr Length deepest_layer = Length::from_feet(4.0);
/// Heights above the benchmark, either way.
inline constexpr Length greatest_height = Length::from_feet(1000.0);

inline void find_faults(const BuildUp& layers, const Path& path, Faults& faults) {
    require_within(layers.purlin, no_length, deepest_layer, Path{path, "purlin"}, faults);
    require_within(layers.deck, no_length, deepest_layer, Path{path, "deck"}, faults);
}

/// How a surface `depth` above the chord tops (square to the slope) lies against them, for one pitch and tail.
struct SurfaceOffset {
    Length plumb;        ///< vertical distance between the two surfaces
    Length along_slope;  ///< add to an up-coordinate of the surface for the same spot, square below, on the chord top
};

[[nodiscard]] inline SurfaceOffset surface_offset(Length depth, Pitch pitch, TailCut tail) {
    return {pitch.slope_over(depth), tail == TailCut::plumb ? pitch.rise_over(depth) : no_length};
}

}  // namespace eavewright
