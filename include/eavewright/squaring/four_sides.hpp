// SPDX-License-Identifier: BSL-1.0
#pragma once

// Four corners from six taped lengths: four sides and two diagonals of one roof plane or footprint (drawn in
// four_corners.hpp).
//
// Five lengths fix a four-sided figure, six are read: one is to spare. The six are adjusted by least squares, all
// equally uncertain, under the one condition that they close in a plane. Each step is closed form. A scale error that
// the readings share does not show in the closure: a figure that closes still closes when stretched.
//
// With one redundancy a wrong reading can be SEEN, in a misclosure that reading errors do not explain, but it cannot
// be LOCATED: any one of the six could be it. `alone` says by how much each would have to be wrong. Read all again.

#include <eavewright/fault.hpp>
#include <eavewright/squaring/closing.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/four_corners.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>

namespace eavewright {

/// Faults: out_of_range or not_finite for a length outside its range or out of proportion; contradiction where three
/// lengths make no triangle, or where the six make no convex four-sided figure in a plane, or only one that misses
/// them by more than `largest_misclosure_share`. Readings that merely disagree are a verdict, not a fault.
inline void find_faults(const FourSides& sides, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    for_each_field<FourSides>([&](const auto& each) {
        squaring_detail::require_side(sides.*(each.get), Path{path, each.name}, faults);
    });
    if (faults.size() == before) {
        squaring_detail::find_proportion_faults(sides, path, faults);
    }
    if (faults.size() == before) {
        squaring_detail::find_triangle_faults(sides, path, faults);
    }
    if (faults.size() == before) {
        squaring_detail::find_closing_faults(sides, path, faults);
    }
}

/// The corners that five readings make in closed form, without the sixth: the ridge's own length is not used, so nothing is
/// adjusted and nothing checks. Throws as `find_faults` of FourSides but for the closing of the six.
[[nodiscard]] inline FourCorners corners_from_five(const FourSides& sides) {
    const squaring_detail::Six d = squaring_detail::six_of(sides);
    const FourCorners corners = squaring_detail::corners_of(d);
    bool sound = true;
    for (const double each : d) {
        sound = sound && each >= inches(shortest_side) && each <= inches(longest_reading);
    }
    // A triangle that does not close has no height: its number is none, and compares with nothing.
    if (sound && inches(corners.ridge_right.up) > 0.0 && inches(corners.ridge_left.up) > 0.0) {
        return corners;
    }
    Faults faults;
    for_each_field<FourSides>([&](const auto& each) {
        squaring_detail::require_side(sides.*(each.get), Path{Path{"sides"}, each.name}, faults);
    });
    if (faults.empty()) {
        squaring_detail::find_triangle_fault(sides, {0, 3, 4}, Path{"sides"}, faults);
        squaring_detail::find_triangle_fault(sides, {0, 2, 5}, Path{"sides"}, faults);
    }
    if (faults.empty()) {
        faults.push_back(Fault{FaultCode::contradiction, "sides", "corners in one line", "corners off the eave"});
    }
    throw FaultError{faults.front()};
}

/// Adjusts six readings into four corners. `level_factor` (0.1 to 10) times the standard deviation is what reading
/// errors explain. Throws as `find_faults` of FourSides and TapeError. Accuracy: the adjusted lengths are those of the
/// corners to 1e-12 of the longest, whatever the readings; exact readings come back unchanged to the same measure.
/// Only the angles use trigonometry; all else is the same in every build without contraction.
[[nodiscard]] inline MeasuredCorners measured_corners(const FourSides& sides, const TapeError& tape = {},
                                                      double level_factor = two_sided_95) {
    require_sound(sides, "sides");
    require_sound(tape, "tape");
    Faults faults;
    find_level_faults(level_factor, Path{"level_factor"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    const squaring_detail::Adjustment adjustment = squaring_detail::adjust(squaring_detail::six_of(sides));
    const FourCorners corners = squaring_detail::corners_of(adjustment.adjusted);
    const double ratio = std::fabs(adjustment.misclosure) / inches(tape.reading);
    return MeasuredCorners{corners,
                           squaring_detail::angles_of(corners),
                           squaring_detail::lengths_of(adjustment.adjusted),
                           squaring_detail::lengths_of(adjustment.residuals),
                           one_inch * adjustment.misclosure,
                           tape.reading,
                           ratio,
                           ratio <= level_factor ? Closure::explained : Closure::not_explained,
                           squaring_detail::shares_of(adjustment.direction),
                           squaring_detail::lengths_of(squaring_detail::alone_of(adjustment)),
                           adjustment.steps};
}

}  // namespace eavewright
