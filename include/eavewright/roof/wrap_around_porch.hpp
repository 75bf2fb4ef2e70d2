// SPDX-License-Identifier: BSL-1.0
#pragma once

// A porch round the corners of a gable, with a hip at every corner it turns. Coordinates, overhangs and heights as in
// plain_roofs.hpp.

#include <eavewright/fault.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/composed_roof.hpp>
#include <eavewright/roof/plain_roofs.hpp>
#include <eavewright/roof/porch_roofs.hpp>
#include <eavewright/roof/roof_body.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// A gable with a porch round its corners, tied to its walls at one level, its fascias at one level too.
///
/// The first depth given (front, right, back, left) has `pitch`; sides of another depth have what brings their fascias to
/// the same level. Two sides that meet at a corner meet in a hip there.
struct WrapAroundPorch {
    MainGable main;
    Pitch pitch;
    Length height;         ///< of the chord line at the walls, from the benchmark; no higher than the main roof's eaves
    Length eave_overhang;  ///< past the porch's posts, on all its sides
    Length rake_overhang;  ///< where the porch ends, past the corner of the main walls
    std::optional<Length>
        front{};  ///< depth from the main wall's posts to the outer face of the porch's; none: no porch
    std::optional<Length> right{};
    std::optional<Length> back{};
    std::optional<Length> left{};
};

namespace detail {
/// Sides in the order front, right, back, left; each meets the next at its right end, seen from outside.
[[nodiscard]] inline std::array<std::optional<Length>, 4> porch_depths(const WrapAroundPorch& roof) {
    return {roof.front, roof.right, roof.back, roof.left};
}
inline constexpr std::array<const char*, 4> porch_sides{"front", "right", "back", "left"};

/// How far the fascias stand below the walls' line.
[[nodiscard]] inline Length porch_drop(const WrapAroundPorch& roof) {
    for (const std::optional<Length>& depth : porch_depths(roof)) {
        if (depth) {
            return roof.pitch.rise_over(*depth + roof.eave_overhang);
        }
    }
    return no_length;
}
[[nodiscard]] inline bool turns_a_corner(const WrapAroundPorch& roof) {
    const auto depths = porch_depths(roof);
    for (std::size_t side = 0; side < 4; ++side) {
        if (depths[side] && depths[(side + 1) % 4]) {
            return true;
        }
    }
    return false;
}
/// A point given in front of one side, in the building: u along the side from its left corner, v inward.
[[nodiscard]] inline GroundPoint at_side(const MainGable& main, std::size_t side, GroundPoint p) {
    switch (side) {
        case 0: return p;
        case 1: return {main.length - p.y, p.x};
        case 2: return {main.length - p.x, main.width - p.y};
        default: return {p.y, main.width - p.x};
    }
}
[[nodiscard]] inline HeightPlane porch_plane(const WrapAroundPorch& roof, std::size_t side, Pitch pitch) {
    switch (side) {
        case 0: return rising_back(no_length, roof.height, pitch);
        case 1: return rising_left(roof.main.length, roof.height, pitch);
        case 2: return rising_front(roof.main.width, roof.height, pitch);
        default: return rising_right(no_length, roof.height, pitch);
    }
}
}  // namespace detail

inline void find_faults(const WrapAroundPorch& roof, const Path& path, Faults& faults) {
    find_faults(roof.main, Path{path, "main"}, faults);
    detail::find_overhang_faults(roof.eave_overhang, "eave_overhang", path, faults);
    detail::find_overhang_faults(roof.rake_overhang, "rake_overhang", path, faults);
    const auto depths = detail::porch_depths(roof);
    for (std::size_t side = 0; side < 4; ++side) {
        if (depths[side]) {
            detail::find_size_faults(*depths[side], detail::porch_sides[side], path, faults);
            detail::find_slope_faults(roof.pitch, *depths[side], "pitch", path, faults);
        }
    }
    require_within(roof.height, -greatest_height, greatest_height, Path{path, "height"}, faults);
    if (!detail::turns_a_corner(roof)) {
        faults.push_back(Fault{FaultCode::does_not_fit, path.text(), "no two sides that meet",
                               "depths of two sides that meet at a corner at least"});
    }
    if (!faults.empty()) {
        return;
    }
    if (roof.height > detail::eave_height(roof.main)) {
        faults.push_back(Fault{FaultCode::contradiction, path.text() + ".height and " + path.text() + ".main",
                               describe_length(roof.height),
                               "no higher than the main eaves at " + describe_length(detail::eave_height(roof.main))});
    }
    for (std::size_t side = 0; side < 4; ++side) {
        const Length drop = detail::porch_drop(roof);
        if (depths[side] && !(drop > (*depths[side] + roof.eave_overhang) * flattest_side)) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{path, detail::porch_sides[side]}.text(),
                                   describe_length(drop) + " of fall", "at least 1 in 1000"});
        }
    }
}

/// The main gable, and the porch as a tier of its own with walls at its top: where the main overhangs pass over it, `plan`
/// counts both. Names: front, back, and porch front, porch right, porch back, porch left for the sides it has.
/// Throws `FaultError` with the first fault.
[[nodiscard]] inline ComposedRoof wrap_around_porch(const WrapAroundPorch& roof) {
    require_sound(roof, "roof");
    const auto depths = detail::porch_depths(roof);
    const Length drop = detail::porch_drop(roof);
    std::vector<HeightPlane> planes;
    std::vector<std::string> names;
    for (std::size_t side = 0; side < 4; ++side) {
        if (depths[side]) {
            const Pitch pitch = Pitch::from_rise_and_run(drop, *depths[side] + roof.eave_overhang);
            planes.push_back(detail::porch_plane(roof, side, pitch));
            names.push_back(std::string{"porch "} + detail::porch_sides[side]);
        }
    }
    std::vector<NamedBody> bodies{detail::main_body(roof.main)};
    for (std::size_t side = 0; side < 4; ++side) {
        if (!depths[side]) {
            continue;
        }
        // Front and back go on to the fascias round the corner, so that every corner lies in one strip alone.
        const auto past = [&](std::size_t other) {
            const bool has_corner = side % 2 == 0;
            return !depths[other] ? roof.rake_overhang : has_corner ? *depths[other] + roof.eave_overhang : no_length;
        };
        const Length wall = side % 2 == 0 ? roof.main.length : roof.main.width;
        const detail::PorchStrip strip = detail::strip_against(wall, *depths[side] + roof.eave_overhang,
                                                               -past((side + 3) % 4), wall + past((side + 1) % 4));
        RoofBody body{.footprint = {}, .planes = planes, .wall_edges = {strip.wall_side}, .tier = 1};
        for (const GroundPoint p : strip.outline) {
            body.footprint.push_back(detail::at_side(roof.main, side, p));
        }
        bodies.push_back({std::move(body), names});
    }
    return composed_roof(bodies);
}

}  // namespace eavewright
