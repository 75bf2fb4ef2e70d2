// SPDX-License-Identifier: BSL-1.0
#pragma once

// Gables that run into one another: cross gable, T and cross plans, and an L whose ridge turns the corner. Coordinates,
// overhangs and heights as in plain_roofs.hpp.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
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
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// Which long side of the main roof.
enum class MainSide { front, back };
template <>
struct NamesOf<MainSide> {
    static constexpr std::array<std::string_view, 2> list{"front", "back"};
};

/// A gable square to the main one, its ridge running into the main roof.
struct GableWing {
    MainSide side;
    Length centre;      ///< of its ridge, along the main wall from the outer face of the left wall's posts
    Length width;       ///< out to out across its ridge
    Length projection;  ///< of its end wall from the main wall's posts out; 0 for a cross gable flush with the wall
    Pitch pitch;
    Length eave_overhang;
    Length rake_overhang;   ///< past its end wall
    Length bearing_height;  ///< of its side walls
    Length heel;
};

/// A main gable with wings: one flush wing is a cross gable, a wing that projects makes a T, two opposite ones a cross, one
/// at an end an L whose main ridge runs through.
struct GableWithWings {
    MainGable main;
    std::vector<GableWing> wings;  ///< 1 to 8
};

/// An L whose outer corner is hipped: the main ridge turns into the wing's, from the outer corner a hip, from the inner one
/// a valley. The wing is at the right, in front. All fascias stand at one level and one overhang.
struct LRoof {
    MainGable main;     ///< length: from the left gable wall to the wing's right wall
    Length wing_width;  ///< out to out across its ridge
    Length projection;  ///< of its gable wall in front of the main front wall
    Pitch wing_pitch;
};

/// Most wings of a main gable.
inline constexpr std::size_t most_wings = 8;

namespace detail {
[[nodiscard]] inline Length ridge_height(const GableWing& wing) {
    return wing.bearing_height + wing.heel + wing.pitch.rise_over(wing.width / 2.0);
}

inline void find_wing_faults(const MainGable& main, const GableWing& wing, const Path& path, Faults& faults) {
    const Length out = wing.width / 2.0 + wing.eave_overhang;
    if (wing.centre - out < -main.rake_overhang || wing.centre + out > main.length + main.rake_overhang) {
        faults.push_back(
            Fault{FaultCode::does_not_fit, Path{path, "centre"}.text(),
                  "fascias at " + describe_length(wing.centre - out) + " and " + describe_length(wing.centre + out),
                  "between the rakes of the main roof"});
    }
    const Length ridge = ridge_height(wing);
    if (ridge > ridge_height(main) + one_inch * least_step_in) {
        faults.push_back(Fault{FaultCode::contradiction, path.text() + ".pitch and main.pitch",
                               "a wing's ridge at " + describe_length(ridge),
                               "no higher than the main ridge at " + describe_length(ridge_height(main))});
    }
    if (!(ridge > eave_height(main))) {
        faults.push_back(Fault{FaultCode::not_supported, Path{path, "bearing_height"}.text(),
                               "a wing's ridge at " + describe_length(ridge),
                               "above the main eaves at " + describe_length(eave_height(main)) +
                                   ": a lower wing meets the wall, not the roof"});
    }
}
}  // namespace detail

inline void find_faults(const GableWing& wing, const Path& path, Faults& faults) {
    detail::find_size_faults(wing.width, "width", path, faults);
    require_within(wing.centre, no_length, longest_building, Path{path, "centre"}, faults);
    require_within(wing.projection, no_length, longest_building, Path{path, "projection"}, faults);
    detail::find_slope_faults(wing.pitch, wing.width / 2.0, "pitch", path, faults);
    detail::find_overhang_faults(wing.eave_overhang, "eave_overhang", path, faults);
    detail::find_overhang_faults(wing.rake_overhang, "rake_overhang", path, faults);
    require_within(wing.bearing_height, -greatest_height / 2.0, greatest_height / 2.0, Path{path, "bearing_height"},
                   faults);
    require_within(wing.heel, no_length, deepest_layer * 4.0, Path{path, "heel"}, faults);
}
inline void find_faults(const GableWithWings& roof, const Path& path, Faults& faults) {
    find_faults(roof.main, Path{path, "main"}, faults);
    const Path wings{path, "wings"};
    if (roof.wings.empty() || roof.wings.size() > most_wings) {
        faults.push_back(Fault{roof.wings.empty() ? FaultCode::out_of_range : FaultCode::too_much_work, wings.text(),
                               std::to_string(roof.wings.size()) + " wings",
                               "1 to " + std::to_string(most_wings) + " wings"});
    }
    for (std::size_t i = 0; i < roof.wings.size(); ++i) {
        const std::size_t before = faults.size();
        const Path wing{wings, i};
        find_faults(roof.wings[i], wing, faults);
        if (faults.size() == before) {
            detail::find_wing_faults(roof.main, roof.wings[i], wing, faults);
        }
    }
}
inline void find_faults(const LRoof& roof, const Path& path, Faults& faults) {
    find_faults(roof.main, Path{path, "main"}, faults);
    detail::find_size_faults(roof.wing_width, "wing_width", path, faults);
    detail::find_size_faults(roof.projection, "projection", path, faults);
    detail::find_slope_faults(roof.wing_pitch, roof.wing_width / 2.0, "wing_pitch", path, faults);
    if (!faults.empty()) {
        return;
    }
    if (roof.wing_width > roof.main.length - roof.main.eave_overhang - one_inch) {
        faults.push_back(
            Fault{FaultCode::does_not_fit, Path{path, "wing_width"}.text(), describe_length(roof.wing_width),
                  "1 in and an overhang less than the main length of " + describe_length(roof.main.length)});
    }
    // Each ridge must come out of the hipped corner before its gable wall.
    const Length over = roof.main.eave_overhang;
    const Length main_rise = roof.main.pitch.rise_over(roof.main.width / 2.0 + over);
    const Length wing_rise = roof.wing_pitch.rise_over(roof.wing_width / 2.0 + over);
    const bool main_fits = main_rise < roof.wing_pitch.rise_over(roof.main.length + over - one_inch);
    if (!main_fits || !(wing_rise < roof.main.pitch.rise_over(roof.main.width + over + roof.projection - one_inch))) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, main_fits ? "projection" : "main.length"}.text(),
                               describe_length(main_fits ? roof.projection : roof.main.length),
                               "room for the hip at the outer corner to rise to the ridge"});
    }
}

/// Main gable and wings; each wing goes on into the main roof as far as it stands above it. Names: front, back, and wing 1
/// left, wing 1 right and so on, left and right as seen in plan with the front below.
/// Throws `FaultError` with the first fault. A wing whose eaves stand below the main fascia passes under it unseen: the
/// faces are the roof as seen from above.
///
/// By hand: a 12 ft wing of 6 in 12 on a 24 ft main roof of 6 in 12, equal bearings: ridges 3 ft and 6 ft up; the wing's
/// runs 3 ft / (6 in 12) = 6 ft into the main roof, to a point from which two valleys fall to its eaves.
[[nodiscard]] inline ComposedRoof gable_with_wings(const GableWithWings& roof) {
    require_sound(roof, "roof");
    std::vector<NamedBody> bodies{detail::main_body(roof.main)};
    for (std::size_t i = 0; i < roof.wings.size(); ++i) {
        const GableWing& wing = roof.wings[i];
        const Length left = wing.centre - wing.width / 2.0;
        const Length right = wing.centre + wing.width / 2.0;
        const Length out = wing.projection + wing.rake_overhang;
        const bool front = wing.side == MainSide::front;
        const Length middle = roof.main.width / 2.0;
        const GroundPoint low{left - wing.eave_overhang, front ? -out : middle};
        const GroundPoint high{right + wing.eave_overhang, front ? middle : roof.main.width + out};
        const Length wall = wing.bearing_height + wing.heel;
        const std::string name = "wing " + std::to_string(i + 1);
        bodies.push_back(
            {{detail::rectangle(low, high),
              {detail::rising_right(left, wall, wing.pitch), detail::rising_left(right, wall, wing.pitch)}},
             {name + " left", name + " right"}});
    }
    return composed_roof(bodies);
}

/// Names: front, back, left, right: the main roof's slopes and the wing's. Throws `FaultError` with the first fault.
///
/// With equal widths and pitches both ridges meet over the corner; otherwise the lower one runs into the other's slope, and
/// the higher roof is hipped above it.
[[nodiscard]] inline ComposedRoof l_roof(const LRoof& roof) {
    require_sound(roof, "roof");
    const MainGable& main = roof.main;
    const Length out = main.eave_overhang;
    const Length eave = detail::eave_height(main);
    const GroundPoint corner{main.length + out, main.width + out};  // the outer one
    const Length wing_left = main.length - roof.wing_width - out;
    const HeightPlane back = detail::rising_front(corner.y, eave, main.pitch);
    const HeightPlane right = detail::rising_left(corner.x, eave, roof.wing_pitch);
    RoofBody main_body{detail::rectangle({-main.rake_overhang, -out}, corner),
                       {detail::rising_back(-out, eave, main.pitch), back, right}};
    RoofBody wing_body{detail::rectangle({wing_left, -roof.projection - main.rake_overhang}, corner),
                       {detail::rising_right(wing_left, eave, roof.wing_pitch), right, back}};
    return composed_roof(
        {{std::move(main_body), {"front", "back", "right"}}, {std::move(wing_body), {"left", "right", "back"}}});
}

}  // namespace eavewright
