// SPDX-License-Identifier: BSL-1.0
#pragma once

// Both slopes of a gable share one ridge, so they cannot be pulled square one by one.
//
// Each slope's shear is as seen from its own eave, facing up: the back slope's right is the front slope's left. In
// front words (right of a person at the front eave, facing up, is positive) the ridge stands
//     s1 = front.shear  from square over the front eave,   s2 = -back.shear  from square over the back eave.
// Moving the ridge by x makes them s1 + x and s2 + x. The larger of the two is least at x = -(s1 + s2) / 2, and then
// each slope keeps half of s1 - s2, which is how far the back eave has slid to the right of the front eave. No pull
// on the ridge cures a slide: one eave (with its walls) must go.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <string_view>

namespace eavewright {

enum class PairVerdict {
    square,             ///< both slopes are square as read
    pull_ridge,         ///< one pull on the ridge brings the diagonals of both within tolerance
    eaves_slid,         ///< the best pull leaves a slope outside: one eave has slid against the other
    sides_unequal,      ///< the diagonals are or can be brought within, but a slope has unequal sides: no rectangle
    readings_disagree,  ///< the readings of a slope do not close: read again first
};
template <>
struct NamesOf<PairVerdict> {
    static constexpr std::array<std::string_view, 5> list{"square", "pull_ridge", "eaves_slid", "sides_unequal",
                                                          "readings_disagree"};
};

/// What one slope shows once the ridge stands at its best, in the slope's own words: as seen from its own eave,
/// facing up, right positive.
struct SlopeAfterMove {
    Length shear;
    Length diagonal_difference;  ///< up_right less up_left
    bool reads_within;           ///< that difference against the slope's own tolerance
};

/// One ridge over two eaves. Ridge and slide are in front words: right as seen from the front eave, facing up.
struct PairTrueness {
    PairVerdict verdict;
    Length ridge_move;            ///< best for both slopes: the larger remaining |shear| is least; right positive
    PullDirection pull;           ///< which way that is, as seen from the front eave, facing up
    Length eave_slide;            ///< how far the back eave's middle stands to the right of the front eave's
    Length eave_slide_deviation;  ///< its standard deviation
    SlopeAfterMove front;         ///< the front slope after the move
    SlopeAfterMove back;          ///< the back slope after the move
    Length ridge_difference;      ///< ridge as read on the front less as read on the back: one ridge, two readings
};

template <>
struct FieldsOf<SlopeAfterMove> {
    static constexpr auto list = field_list(
        field("shear", FieldUnit::length, "right positive as seen from its own eave, facing up",
              &SlopeAfterMove::shear),
        field("diagonal_difference", FieldUnit::length, "up_right less up_left", &SlopeAfterMove::diagonal_difference),
        field("reads_within", FieldUnit::none, "difference within tolerance", &SlopeAfterMove::reads_within));
};
template <>
struct FieldsOf<PairTrueness> {
    static constexpr auto list = field_list(
        field("verdict", FieldUnit::none, "square, or what to do", &PairTrueness::verdict),
        field("ridge_move", FieldUnit::length, "right positive as seen from the front eave, facing up",
              &PairTrueness::ridge_move),
        field("pull", FieldUnit::none, "which way, as seen from the front eave, facing up", &PairTrueness::pull),
        field("eave_slide", FieldUnit::length, "back eave to the right of the front eave, in front words",
              &PairTrueness::eave_slide),
        field("eave_slide_deviation", FieldUnit::length, "standard deviation of the slide",
              &PairTrueness::eave_slide_deviation),
        field("front", FieldUnit::none, "front slope after the move", &PairTrueness::front),
        field("back", FieldUnit::none, "back slope after the move", &PairTrueness::back),
        field("ridge_difference", FieldUnit::length, "ridge as read on the front less as read on the back",
              &PairTrueness::ridge_difference));
};

/// Faults of a Trueness that was not made by `true_up`: out_of_range or not_finite.
inline void find_faults(const Trueness& slope, const Path& path, Faults& faults) {
    squaring_detail::require_side(slope.target_diagonal, Path{path, "target_diagonal"}, faults);
    squaring_detail::require_side(slope.midline, Path{path, "midline"}, faults);
    require_within(slope.shear, -longest_reading, longest_reading, Path{path, "shear"}, faults);
    require_within(slope.shear_deviation, no_length, longest_reading, Path{path, "shear_deviation"}, faults);
}

namespace squaring_detail {

/// Diagonals of a slope whose ridge stands `shear` off: up_right^2 and up_left^2 are target^2 +- 2 midline shear.
/// Exact where opposite sides are equal.
[[nodiscard]] inline Length difference_after(const Trueness& slope, Length shear) {
    const double target = inches(slope.target_diagonal);
    const double spread = 2.0 * inches(slope.midline) * inches(shear);
    const double held = target * target > std::fabs(spread) ? spread : std::copysign(target * target, spread);
    const double up_right = std::sqrt(target * target + held);
    const double up_left = std::sqrt(target * target - held);
    return one_inch * (2.0 * held / (up_right + up_left));
}

[[nodiscard]] inline SlopeAfterMove after_move(const Trueness& slope, Length shear) {
    const Length difference = difference_after(slope, shear);
    return SlopeAfterMove{shear, difference, magnitude(difference) <= slope.diagonals.tolerance};
}

[[nodiscard]] inline PairVerdict pair_verdict(const Trueness& front, const Trueness& back, bool within_after) {
    const auto either = [&](SquareVerdict verdict) { return front.verdict == verdict || back.verdict == verdict; };
    if (either(SquareVerdict::readings_disagree)) {
        return PairVerdict::readings_disagree;
    }
    if (front.verdict == SquareVerdict::square && back.verdict == SquareVerdict::square) {
        return PairVerdict::square;
    }
    if (!within_after) {
        return PairVerdict::eaves_slid;
    }
    return front.can_be_square && back.can_be_square ? PairVerdict::pull_ridge : PairVerdict::sides_unequal;
}

}  // namespace squaring_detail

/// The best single move of the ridge for both slopes of a gable, and what it cannot cure. `front` and `back` come from
/// `true_up`, each measured from its own eave, facing up. Throws as `find_faults` of a Trueness. To first order in the
/// shear, which is thousandths of the rafter on any roof that stands; exact for equal opposite sides.
[[nodiscard]] inline PairTrueness true_up_pair(const Trueness& front, const Trueness& back) {
    require_sound(front, "front");
    require_sound(back, "back");
    const Length front_off = front.shear;  // both in front words
    const Length back_off = -back.shear;
    const Length move = (front_off + back_off) / -2.0;
    const SlopeAfterMove front_after = squaring_detail::after_move(front, (front_off - back_off) / 2.0);
    const SlopeAfterMove back_after =
        squaring_detail::after_move(back, (front_off - back_off) / 2.0);  // -(back_off + move)
    const bool still = magnitude(move) <= count_tolerance;
    return PairTrueness{
        .verdict = squaring_detail::pair_verdict(front, back, front_after.reads_within && back_after.reads_within),
        .ridge_move = move,
        .pull = still              ? PullDirection::none
                : move > no_length ? PullDirection::right
                                   : PullDirection::left,
        .eave_slide = front_off - back_off,
        .eave_slide_deviation = hypotenuse(front.shear_deviation, back.shear_deviation),
        .front = front_after,
        .back = back_after,
        .ridge_difference = front.measured.adjusted.ridge - back.measured.adjusted.ridge -
                            (front.measured.residuals.ridge - back.measured.residuals.ridge),
    };
}

}  // namespace eavewright
