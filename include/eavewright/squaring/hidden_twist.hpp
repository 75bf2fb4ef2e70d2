// SPDX-License-Identifier: BSL-1.0
#pragma once

// What six taped lengths can hide of a twist. From distances alone there is only an upper limit.
//
// Lift the corners of a flat figure by heights z: a length p becomes sqrt(p^2 + dz^2), longer by dz^2 / (2 p). Only the
// squares of the heights show, so the lengths are the same for a twist up or down: distances never tell the sign. The
// six close in a plane under one condition, which feels the lengths by a unit vector e; for sides and diagonals e p is
// -w_i w_j / N times p, with the weights w of flatness.hpp and N the root of the sum of squares of w_i w_j p. So the
// misclosure (positive where the diagonals read long) is
//     -sum e dz^2 / (2 p) = sum w_i w_j (z_i - z_j)^2 / (2 N) = -gap^2 / (2 N)
// since the weights sum to 0. It depends on the gap alone, is of second order (an inch of twist in a roof of 60 by 20 ft
// shortens the diagonals' reading by a third of a thousandth of an inch) and is the same one redundancy that reading
// errors and blunders fall into: it cannot tell the value either. What it can say is which gap is too large to hide:
//     gap^2 <= 2 N (level x deviation - misclosure)

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/flatness.hpp>
#include <eavewright/squaring/four_sides.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace eavewright {

/// The largest twist that readings cannot exclude. Its sign is never known.
struct TwistLimit {
    Length gap;            ///< between straight lines over both diagonals, where they cross
    CornerHeights fourth;  ///< each corner off the plane of the other three, as magnitudes
    Length largest;        ///< of these; twice the gap in a parallelogram
    bool rough;            ///< gap beyond a tenth of the shortest side: no more than a rough figure
};

/// What six lengths say of a twist.
struct HiddenTwist {
    /// None where the diagonals read longer than errors of the stated size explain: no twist does that, so a reading is
    /// worse than stated and no limit follows.
    std::optional<TwistLimit> limit;
    Length explaining_gap;  ///< the gap that alone would explain the misclosure as read; 0 where diagonals read long
    Length stiffness;       ///< N: a gap shows as gap^2 / (2 N) of misclosure
    double level_factor;    ///< standard deviations to each side
};

template <>
struct FieldsOf<TwistLimit> {
    static constexpr auto list = field_list(
        field("gap", FieldUnit::length, "between lines over both diagonals where they cross", &TwistLimit::gap),
        field("fourth", FieldUnit::none, "each corner off the plane of the other three", &TwistLimit::fourth),
        field("largest", FieldUnit::length, "largest of these", &TwistLimit::largest),
        field("rough", FieldUnit::none, "gap beyond a tenth of the shortest side", &TwistLimit::rough));
};
template <>
struct FieldsOf<HiddenTwist> {
    static constexpr auto list = field_list(
        field("limit", FieldUnit::none, "largest twist that the readings cannot exclude", &HiddenTwist::limit),
        field("explaining_gap", FieldUnit::length, "gap that alone would explain the misclosure",
              &HiddenTwist::explaining_gap),
        field("stiffness", FieldUnit::length, "a gap shows as its square over twice this", &HiddenTwist::stiffness),
        field("level_factor", FieldUnit::ratio, "standard deviations to each side", &HiddenTwist::level_factor));
};

/// The largest twist that six readings cannot exclude, at a level of `level_factor` standard deviations (0.1 to 10), the
/// readings being no worse than stated. Second order: within 0.1 % up to a gap of a tenth of the shortest side
/// (measured). Faults: out_of_range or not_finite; contradiction for corners that are not convex.
[[nodiscard]] inline HiddenTwist largest_hidden_twist(const MeasuredCorners& measured,
                                                      double level_factor = two_sided_95) {
    Faults faults;
    find_level_faults(level_factor, Path{"level_factor"}, faults);
    const Path path{"measured"};
    for_each_field<FourSides>([&](const auto& each) {
        squaring_detail::require_side(measured.adjusted.*(each.get), Path{Path{path, "adjusted"}, each.name}, faults);
    });
    require_within(measured.misclosure, -longest_reading, longest_reading, Path{path, "misclosure"}, faults);
    require_within(measured.misclosure_deviation, one_inch / 10000.0, one_inch * 12.0,
                   Path{path, "misclosure_deviation"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    const StringCrossing crossing = crossing_of(measured.corners);
    const auto w = squaring_detail::gap_weights(crossing);
    const squaring_detail::Six p = squaring_detail::six_of(measured.adjusted);
    const squaring_detail::Six felt{w[0] * w[1] * p[0], w[3] * w[2] * p[1], w[0] * w[3] * p[2],
                                    w[1] * w[2] * p[3], w[0] * w[2] * p[4], w[1] * w[3] * p[5]};
    const Length stiffness = one_inch * std::sqrt(squaring_detail::dot(felt, felt));
    const auto gap_that_shows = [&](Length misclosure) {
        return misclosure > no_length ? one_inch * std::sqrt(2.0 * inches(stiffness) * inches(misclosure)) : no_length;
    };
    HiddenTwist result{.limit = std::nullopt,
                       .explaining_gap = gap_that_shows(-measured.misclosure),
                       .stiffness = stiffness,
                       .level_factor = level_factor};
    const Length room = measured.misclosure_deviation * level_factor - measured.misclosure;
    if (room >= no_length) {
        const Length gap = gap_that_shows(room);
        const CornerHeights f = squaring_detail::fourth_corners(gap, crossing);
        Length shortest = measured.adjusted.eave;
        for_each_field<FourSides>(
            [&](const auto& each) { shortest = shorter(shortest, measured.adjusted.*(each.get)); });
        result.limit = TwistLimit{gap,
                                  CornerHeights{magnitude(f.eave_left), magnitude(f.eave_right),
                                                magnitude(f.ridge_right), magnitude(f.ridge_left)},
                                  squaring_detail::largest_of(f), gap > shortest / 10.0};
    }
    return result;
}

}  // namespace eavewright
