// SPDX-License-Identifier: BSL-1.0
#pragma once

// Shapes over one rectangle with sloped ends: hip, Dutch gable, jerkinhead. Coordinates, overhangs and heights as in
// plain_roofs.hpp; a `pitch` without a name is that of the front and back.

#include <eavewright/fault.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/composed_roof.hpp>
#include <eavewright/roof/plain_roofs.hpp>
#include <eavewright/roof/roof_body.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// Four slopes. All fascias stand at one level and one overhang, so that every hip starts at a corner of the fascias; with a
/// pitch of its own, an end's heel follows from that (`hip_end_heel`).
struct HipRoof {
    Length width;   ///< out to out, front to back
    Length length;  ///< out to out, left to right; may be the shorter one
    Pitch pitch;
    Length eave_overhang;  ///< on all four sides
    Length bearing_height;
    Length heel;                       ///< over the front and back walls
    std::optional<Pitch> end_pitch{};  ///< of the left and right slopes; none: as `pitch`
};

/// A hip with a small gable over each end.
///
/// The hip ends run up to the gablets' walls. What a gablet's own overhang covers of them is no part of their faces: add it
/// to an order where the hip end is sheeted up to the wall.
struct DutchGableRoof {
    Length width;
    Length length;
    Pitch pitch;             ///< of all slopes
    Length gablet_run;       ///< from the outer face of the end wall's posts in to the gablet's wall, level
    Length gablet_overhang;  ///< of the gablet's rakes past its wall
    Length eave_overhang;    ///< on all four sides
    Length bearing_height;
    Length heel;
};

/// A gable whose peaks are clipped by small hips.
struct JerkinheadRoof {
    Length width;
    Length length;
    Pitch pitch;
    Pitch end_pitch;
    Length hip_run;  ///< from the end's fascia in to the end of the ridge, level
    Length eave_overhang;
    Length rake_overhang;  ///< of the rakes and of the clipped ends between them
    Length bearing_height;
    Length heel;
};

namespace detail {
[[nodiscard]] inline Length end_heel_of(const HipRoof& roof) {
    return roof.heel + roof.end_pitch.value_or(roof.pitch).rise_over(roof.eave_overhang) -
           roof.pitch.rise_over(roof.eave_overhang);
}
/// Four planes from one eave, over one outline: front, right, back, left.
[[nodiscard]] inline RoofBody hip_body(GroundPoint low, GroundPoint high, Length eave, Pitch sides, Pitch ends) {
    return {rectangle(low, high),
            {rising_back(low.y, eave, sides), rising_left(high.x, eave, ends), rising_front(high.y, eave, sides),
             rising_right(low.x, eave, ends)}};
}
}  // namespace detail

inline void find_faults(const HipRoof& roof, const Path& path, Faults& faults) {
    detail::find_walls_faults(roof, path, faults);
    detail::find_overhang_faults(roof.eave_overhang, "eave_overhang", path, faults);
    detail::find_slope_faults(roof.pitch, roof.width / 2.0, "pitch", path, faults);
    detail::find_slope_faults(roof.end_pitch.value_or(roof.pitch), roof.length / 2.0, "end_pitch", path, faults);
    if (is_usable(roof.heel) && is_usable(roof.eave_overhang) && detail::end_heel_of(roof) < no_length) {
        faults.push_back(Fault{FaultCode::contradiction, path.text() + ".heel and " + path.text() + ".end_pitch",
                               "a heel of " + describe_length(detail::end_heel_of(roof)) + " over the end walls",
                               "fascias at one level with the ends' chords above their seats"});
    }
}
inline void find_faults(const DutchGableRoof& roof, const Path& path, Faults& faults) {
    detail::find_walls_faults(roof, path, faults);
    detail::find_overhang_faults(roof.gablet_overhang, "gablet_overhang", path, faults);
    detail::find_overhang_faults(roof.eave_overhang, "eave_overhang", path, faults);
    detail::find_slope_faults(roof.pitch, roof.width / 2.0, "pitch", path, faults);
    const Length half = shorter(roof.width, roof.length) / 2.0;
    detail::find_room_faults(roof.gablet_run, "gablet_run", half, "half the shorter side", path, faults);
    if (roof.gablet_overhang > roof.gablet_run + roof.eave_overhang) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "gablet_overhang"}.text(),
                               describe_length(roof.gablet_overhang), "no further out than the fascia of the hip end"});
    }
}
inline void find_faults(const JerkinheadRoof& roof, const Path& path, Faults& faults) {
    detail::find_walls_faults(roof, path, faults);
    detail::find_overhang_faults(roof.eave_overhang, "eave_overhang", path, faults);
    detail::find_overhang_faults(roof.rake_overhang, "rake_overhang", path, faults);
    detail::find_slope_faults(roof.pitch, roof.width / 2.0, "pitch", path, faults);
    detail::find_slope_faults(roof.end_pitch, roof.hip_run, "end_pitch", path, faults);
    detail::find_room_faults(roof.hip_run, "hip_run", roof.length / 2.0 + roof.rake_overhang, "half the ridge", path,
                             faults);
    const Length rise = roof.pitch.rise_over(roof.width / 2.0 + roof.eave_overhang);
    if (roof.end_pitch.rise_over(roof.hip_run) > rise - one_inch) {
        faults.push_back(
            Fault{FaultCode::contradiction, path.text() + ".hip_run and " + path.text() + ".end_pitch",
                  describe_length(roof.end_pitch.rise_over(roof.hip_run)) + " below the ridge",
                  "clipped ends at least 1 in above the eaves, " + describe_length(rise) + " below the ridge"});
    }
}

/// Plumb distance from the seat of the chord to the chord line over an end wall of a hip. Faults as `hip`.
[[nodiscard]] inline Length hip_end_heel(const HipRoof& roof) {
    require_sound(roof, "roof");
    return detail::end_heel_of(roof);
}

/// Names: front, right, back, left. Throws `FaultError` with the first fault.
///
/// By hand: 24 x 40 ft, 6 in 12, no overhang: ridge 12 ft in from both ends, 16 ft long, 6 ft above the eave.
[[nodiscard]] inline ComposedRoof hip(const HipRoof& roof) {
    require_sound(roof, "roof");
    const Length out = roof.eave_overhang;
    const Length eave = roof.bearing_height + roof.heel - roof.pitch.rise_over(out);
    return composed_roof({{detail::hip_body({-out, -out}, {roof.length + out, roof.width + out}, eave, roof.pitch,
                                            roof.end_pitch.value_or(roof.pitch)),
                           {"front", "right", "back", "left"}}});
}

/// Names: front, right, back, left; the gablets' slopes are part of front and back. Throws `FaultError` with the first fault.
[[nodiscard]] inline ComposedRoof dutch_gable(const DutchGableRoof& roof) {
    require_sound(roof, "roof");
    const Length out = roof.eave_overhang;
    const Length eave = roof.bearing_height + roof.heel - roof.pitch.rise_over(out);
    const Length in = roof.gablet_run - roof.gablet_overhang;
    const GroundPoint low{-out, -out};
    const GroundPoint high{roof.length + out, roof.width + out};
    RoofBody gablets{detail::rectangle({in, low.y}, {roof.length - in, high.y}),
                     {detail::rising_back(low.y, eave, roof.pitch), detail::rising_front(high.y, eave, roof.pitch)}};
    return composed_roof(
        {{detail::hip_body(low, high, eave, roof.pitch, roof.pitch), {"front", "right", "back", "left"}},
         {std::move(gablets), {"front", "back"}}});
}

/// Names: front, right, back, left, the ends small. Throws `FaultError` with the first fault.
[[nodiscard]] inline ComposedRoof jerkinhead(const JerkinheadRoof& roof) {
    require_sound(roof, "roof");
    const Length wall = roof.bearing_height + roof.heel;
    const Length ridge = wall + roof.pitch.rise_over(roof.width / 2.0);
    const Length clip = ridge - roof.end_pitch.rise_over(roof.hip_run);  // height of the clipped eave
    const GroundPoint low{-roof.rake_overhang, -roof.eave_overhang};
    const GroundPoint high{roof.length + roof.rake_overhang, roof.width + roof.eave_overhang};
    return composed_roof(
        {{{detail::rectangle(low, high),
           {detail::rising_back(no_length, wall, roof.pitch), detail::rising_left(high.x, clip, roof.end_pitch),
            detail::rising_front(roof.width, wall, roof.pitch), detail::rising_right(low.x, clip, roof.end_pitch)}},
          {"front", "right", "back", "left"}}});
}

}  // namespace eavewright
