// SPDX-License-Identifier: BSL-1.0
#pragma once

// Shapes over one rectangle whose ends are gables: unequal pitches, gambrel, monitor.
//
// Everywhere x runs along the ridge from the outer face of the left wall's posts, y to the back from the front wall's.
// Overhangs are horizontal, from the outer face of the posts to the fascia's outer face, tails plumb. A bearing height is
// the seat of the chord on the wall above the benchmark, a heel the plumb distance from there to the line of the chord tops
// over the outer face of the posts.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/composed_roof.hpp>
#include <eavewright/roof/roof_body.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <string>
#include <utility>
#include <variant>

namespace eavewright {

/// The ridge where both chord lines stand level over the walls: equal bearings and heels.
struct EqualWalls {};
/// The ridge where both fascias stand level.
struct EqualEaves {};
/// The ridge at a place of its own.
struct RidgeAt {
    Length run;  ///< from the outer face of the front wall's posts, level; within the width
};
using RidgePlace = std::variant<EqualWalls, EqualEaves, RidgeAt>;

/// Two slopes with pitches of their own.
struct UnequalGableRoof {
    Length width;   ///< out to out across the ridge, 1 ft to 2000 ft
    Length length;  ///< out to out along the ridge, 1 ft to 2000 ft
    Pitch front_pitch;
    Pitch back_pitch;
    RidgePlace ridge;
    Length front_overhang;
    Length back_overhang;
    Length rake_overhang;
    Length bearing_height;  ///< of the front wall; where the back wall's chord line stands, follows
    Length heel;
};

/// A gable whose slopes break from a steep lower to a flatter upper pitch.
struct GambrelRoof {
    Length width;
    Length length;
    Pitch lower_pitch;  ///< steeper than the upper one
    Pitch upper_pitch;
    Length break_run;  ///< from the outer face of the posts in to the pitch break, level; less than half the width
    Length eave_overhang;
    Length rake_overhang;
    Length bearing_height;
    Length heel;
};

/// A gable raised over the middle of two lower slopes that end at its walls.
struct MonitorRoof {
    Length width;
    Length length;
    Length monitor_width;  ///< out to out of the raised walls, over the middle; less than the width
    Pitch lower_pitch;
    Pitch upper_pitch;
    Length raise;  ///< at the raised walls, plumb from the lower chord line to the upper
    Length eave_overhang;
    Length monitor_overhang;  ///< of the raised eaves, past the raised walls
    Length rake_overhang;     ///< of all slopes
    Length bearing_height;
    Length heel;
};

namespace detail {
inline void find_size_faults(Length size, const char* name, const Path& path, Faults& faults) {
    require_within(size, Length::from_inches(12.0), longest_building, Path{path, name}, faults);
}
inline void find_overhang_faults(Length overhang, const char* name, const Path& path, Faults& faults) {
    require_within(overhang, no_length, longest_overhang, Path{path, name}, faults);
}
inline void find_rise_faults(Pitch pitch, Length run, const char* name, const Path& path, Faults& faults) {
    const Length rise = pitch.rise_over(run);
    if (is_usable(run) && (rise > greatest_height || pitch.rise_per_run() > steepest_body_plane)) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, name}.text(),
                               write_decimal(pitch.rise_in_12(), 6) + " in 12, " + describe_length(rise) + " in all",
                               "at most " + write_decimal(12.0 * steepest_body_plane, 0) + " in 12 and a rise of " +
                                   describe_length(greatest_height)});
    }
}
/// A slope that rises, within what is composed.
inline void find_slope_faults(Pitch pitch, Length run, const char* name, const Path& path, Faults& faults) {
    find_rise_faults(pitch, run, name, path, faults);
    if (!(pitch.rise_per_run() >= flattest_side)) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, name}.text(),
                               write_decimal(pitch.rise_in_12(), 6) + " in 12",
                               "at least " + write_decimal(12.0 * flattest_side, 6) + " in 12"});
    }
}
/// What the shapes over a rectangle share.
template <class Shape>
void find_walls_faults(const Shape& roof, const Path& path, Faults& faults) {
    find_size_faults(roof.width, "width", path, faults);
    find_size_faults(roof.length, "length", path, faults);
    require_within(roof.bearing_height, -greatest_height / 2.0, greatest_height / 2.0, Path{path, "bearing_height"},
                   faults);
    require_within(roof.heel, no_length, deepest_layer * 4.0, Path{path, "heel"}, faults);
}
/// One length of a shape that must stay below another, and above nothing.
inline void find_room_faults(Length part, const char* name, Length room, const std::string& what, const Path& path,
                             Faults& faults) {
    if (!(part > one_inch) || !(part < room - one_inch)) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, name}.text(), describe_length(part),
                               "more than 1 in and 1 in less than " + what + " of " + describe_length(room)});
    }
}
}  // namespace detail

inline void find_faults(const UnequalGableRoof& roof, const Path& path, Faults& faults) {
    detail::find_walls_faults(roof, path, faults);
    detail::find_overhang_faults(roof.front_overhang, "front_overhang", path, faults);
    detail::find_overhang_faults(roof.back_overhang, "back_overhang", path, faults);
    detail::find_overhang_faults(roof.rake_overhang, "rake_overhang", path, faults);
    detail::find_slope_faults(roof.front_pitch, roof.width, "front_pitch", path, faults);
    detail::find_slope_faults(roof.back_pitch, roof.width, "back_pitch", path, faults);
    if (const RidgeAt* ridge = std::get_if<RidgeAt>(&roof.ridge)) {
        detail::find_room_faults(ridge->run, "ridge.run", roof.width, "the width", path, faults);
    }
}
inline void find_faults(const GambrelRoof& roof, const Path& path, Faults& faults) {
    detail::find_walls_faults(roof, path, faults);
    detail::find_overhang_faults(roof.eave_overhang, "eave_overhang", path, faults);
    detail::find_overhang_faults(roof.rake_overhang, "rake_overhang", path, faults);
    detail::find_rise_faults(roof.lower_pitch, roof.width / 2.0, "lower_pitch", path, faults);
    detail::find_room_faults(roof.break_run, "break_run", roof.width / 2.0, "half the width", path, faults);
    if (!(roof.lower_pitch.rise_per_run() > roof.upper_pitch.rise_per_run() + flattest_side) ||
        !(roof.upper_pitch.rise_per_run() >= flattest_side)) {
        faults.push_back(Fault{FaultCode::contradiction,
                               path.text() + ".lower_pitch and " + path.text() + ".upper_pitch",
                               write_decimal(roof.lower_pitch.rise_in_12(), 6) + " in 12 below " +
                                   write_decimal(roof.upper_pitch.rise_in_12(), 6) + " in 12",
                               "a lower pitch steeper than the upper, and the upper not level"});
    }
}
inline void find_faults(const MonitorRoof& roof, const Path& path, Faults& faults) {
    detail::find_walls_faults(roof, path, faults);
    detail::find_overhang_faults(roof.eave_overhang, "eave_overhang", path, faults);
    detail::find_overhang_faults(roof.monitor_overhang, "monitor_overhang", path, faults);
    detail::find_overhang_faults(roof.rake_overhang, "rake_overhang", path, faults);
    detail::find_rise_faults(roof.lower_pitch, roof.width / 2.0, "lower_pitch", path, faults);
    detail::find_rise_faults(roof.upper_pitch, roof.width / 2.0, "upper_pitch", path, faults);
    detail::find_room_faults(roof.monitor_width, "monitor_width", roof.width, "the width", path, faults);
    require_within(roof.raise, no_length, greatest_height / 4.0, Path{path, "raise"}, faults);
    const Length clear = roof.raise + roof.lower_pitch.rise_over(roof.monitor_overhang) -
                         roof.upper_pitch.rise_over(roof.monitor_overhang);
    if (!(shorter(clear, roof.raise) > no_length) || roof.upper_pitch.rise_per_run() < flattest_side ||
        roof.lower_pitch.rise_per_run() < flattest_side) {
        faults.push_back(Fault{FaultCode::contradiction, path.text() + ".raise and " + path.text() + ".upper_pitch",
                               describe_length(clear) + " between the raised fascia and the lower slope",
                               "slopes that rise, the raised eave above the lower slope"});
    }
}

/// Two slopes meeting at a ridge off the middle. Names: front, back. Throws `FaultError` with the first fault.
///
/// By hand: 30 ft wide, 6 in 12 and 3 in 12, equal walls: the front rises over 30 x 3 / (6 + 3) = 10 ft, by 5 ft.
[[nodiscard]] inline ComposedRoof unequal_gable(const UnequalGableRoof& roof) {
    require_sound(roof, "roof");
    const double front = roof.front_pitch.rise_per_run();
    const double back = roof.back_pitch.rise_per_run();
    const Length wall = roof.bearing_height + roof.heel;
    Length run = roof.width * back / (front + back);
    if (std::holds_alternative<EqualEaves>(roof.ridge)) {
        // Level over the whole width from fascia to fascia, the front fascia an overhang outside the wall.
        run = (roof.width + roof.front_overhang + roof.back_overhang) * back / (front + back) - roof.front_overhang;
    } else if (const RidgeAt* given = std::get_if<RidgeAt>(&roof.ridge)) {
        run = given->run;
    }
    const Length ridge = wall + roof.front_pitch.rise_over(run);
    const auto outline = detail::rectangle({-roof.rake_overhang, -roof.front_overhang},
                                           {roof.length + roof.rake_overhang, roof.width + roof.back_overhang});
    if (run < -roof.front_overhang + one_inch || run > roof.width + roof.back_overhang - one_inch) {
        throw FaultError{
            Fault{FaultCode::does_not_fit, "roof.ridge", describe_length(run), "a ridge between the fascias"}};
    }
    return composed_roof(
        {{{outline,
           {detail::rising_back(run, ridge, roof.front_pitch), detail::rising_front(run, ridge, roof.back_pitch)}},
          {"front", "back"}}});
}
/// Four slopes. Names: lower front, upper front, upper back, lower back. Throws `FaultError` with the first fault.
[[nodiscard]] inline ComposedRoof gambrel(const GambrelRoof& roof) {
    require_sound(roof, "roof");
    const Length wall = roof.bearing_height + roof.heel;
    const Length at_break = wall + roof.lower_pitch.rise_over(roof.break_run);
    const auto outline = detail::rectangle({-roof.rake_overhang, -roof.eave_overhang},
                                           {roof.length + roof.rake_overhang, roof.width + roof.eave_overhang});
    return composed_roof({{{outline,
                            {detail::rising_back(no_length, wall, roof.lower_pitch),
                             detail::rising_back(roof.break_run, at_break, roof.upper_pitch),
                             detail::rising_front(roof.width - roof.break_run, at_break, roof.upper_pitch),
                             detail::rising_front(roof.width, wall, roof.lower_pitch)}},
                           {"lower front", "upper front", "upper back", "lower back"}}});
}

/// Lower slopes with walls at their tops, and the raised gable, which passes over them by its overhang: there `plan` counts
/// both. Names: lower front, lower back, upper front, upper back. Throws `FaultError` with the first fault.
[[nodiscard]] inline ComposedRoof monitor(const MonitorRoof& roof) {
    require_sound(roof, "roof");
    const Length wall = roof.bearing_height + roof.heel;
    const Length left = -roof.rake_overhang;
    const Length right = roof.length + roof.rake_overhang;
    const Length front = (roof.width - roof.monitor_width) / 2.0;  // of the raised walls
    const Length back = roof.width - front;
    const Length raised = wall + roof.lower_pitch.rise_over(front) + roof.raise;
    return composed_roof(
        {{{.footprint = detail::rectangle({left, -roof.eave_overhang}, {right, front}),
           .planes = {detail::rising_back(no_length, wall, roof.lower_pitch)},
           .wall_edges = {2}},
          {"lower front"}},
         {{.footprint = detail::rectangle({left, back}, {right, roof.width + roof.eave_overhang}),
           .planes = {detail::rising_front(roof.width, wall, roof.lower_pitch)},
           .wall_edges = {0}},
          {"lower back"}},
         {{.footprint = detail::rectangle({left, front - roof.monitor_overhang}, {right, back + roof.monitor_overhang}),
           .planes = {detail::rising_back(front, raised, roof.upper_pitch),
                      detail::rising_front(back, raised, roof.upper_pitch)},
           .wall_edges = {},
           .tier = 1},
          {"upper front", "upper back"}}});
}

}  // namespace eavewright
