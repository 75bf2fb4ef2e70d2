// SPDX-License-Identifier: BSL-1.0
#pragma once

// Is a plane square, and if not, which way must the ridge go? Compare the two diagonals of each roof plane and pull
// the long one; then look at the sides, since equal diagonals alone also fit a trapezoid.
//
// Which readings feed what: the three comparisons hold the readings themselves against the limits, as a person with
// the tape would. Shear, pull and target come from the adjusted figure (four_sides.hpp), which closes; adjusting moves
// both diagonals of a near rectangle alike, so their difference is the same in both.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/four_sides.hpp>
#include <eavewright/squaring/linkage.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {

/// What counts as square.
struct SquareTolerance {
    /// Largest difference of the diagonals. Common practice: diagonals of 60 to 75 ft within 1/8 in are good.
    Length diagonal_difference = one_inch / 8.0;
    /// Largest difference of opposite sides. Common practice: the same 1/8 in.
    Length side_difference = one_inch / 8.0;
    /// Standard deviations to each side for "proven": two-sided 95 %. 0.1 to 10.
    double level_factor = two_sided_95;
};

/// Faults: out_of_range or not_finite. Tolerances 0 to 100 in.
inline void find_faults(const SquareTolerance& tolerance, const Path& path, Faults& faults) {
    const Length most = one_inch * 100.0;
    require_within(tolerance.diagonal_difference, no_length, most, Path{path, "diagonal_difference"}, faults);
    require_within(tolerance.side_difference, no_length, most, Path{path, "side_difference"}, faults);
    find_level_faults(tolerance.level_factor, Path{path, "level_factor"}, faults);
}

/// Directions are as seen from the eave, facing up the slope.
enum class PullDirection {
    none,  ///< less than any tape mark
    left,
    right,
};
template <>
struct NamesOf<PullDirection> {
    static constexpr std::array<std::string_view, 3> list{"none", "left", "right"};
};

enum class Diagonal {
    none,
    up_right,  ///< from the eave's left corner
    up_left,   ///< from the eave's right corner
};
template <>
struct NamesOf<Diagonal> {
    static constexpr std::array<std::string_view, 3> list{"none", "up_right", "up_left"};
};

enum class SquareVerdict {
    square,                         ///< diagonals and sides read within: a rectangle
    equal_diagonals_unequal_sides,  ///< the trapezoid: diagonals read within, sides do not; a pull cannot cure it
    pull,                           ///< sides read within: pulling the ridge makes it square
    pull_but_sides_unequal,         ///< a pull makes the diagonals equal, the corners stay off
    readings_disagree,              ///< the six do not close within their errors: read again before pulling
};
template <>
struct NamesOf<SquareVerdict> {
    static constexpr std::array<std::string_view, 5> list{"square", "equal_diagonals_unequal_sides", "pull",
                                                          "pull_but_sides_unequal", "readings_disagree"};
};

/// How square a plane is and what would make it so. Left and right are as seen from the eave, facing up the slope;
/// right is positive.
struct Trueness {
    SquareVerdict verdict;
    bool reads_within;  ///< diagonals and both pairs of sides read within their tolerances
    bool proven;  ///< all three proven within, each at the level, and the readings close: then square at that level
    bool can_be_square;         ///< opposite sides read equal within tolerance, so a pull can make it square
    Comparison diagonals;       ///< up_right less up_left
    Comparison eave_and_ridge;  ///< eave less ridge
    Comparison rakes;           ///< left less right
    Length shear;               ///< ridge's middle off the line square to the midline through the eave's middle
    Length shear_deviation;     ///< standard deviation of the shear
    Length midline;          ///< from the middle of the left side to that of the right, once pulled; carries the shear
    Length ridge_move;       ///< how far the ridge must go along the eave for equal diagonals, sides kept
    PullDirection pull;      ///< which way that is
    Diagonal shorten;        ///< the diagonal to pull on
    Length shorten_by;       ///< by how much it comes shorter, from its adjusted length
    Length target_diagonal;  ///< what both diagonals read after the pull
    Angle corner_error;      ///< corner furthest from 90 deg now
    Angle corner_error_after_pull;   ///< and after the pull: what unequal sides leave
    FourCorners corners_after_pull;  ///< eave kept in place
    MeasuredCorners measured;        ///< the adjusted figure and how well the readings close
};

template <>
struct FieldsOf<Trueness> {
    static constexpr auto list = field_list(
        field("verdict", FieldUnit::none, "square, or what to do", &Trueness::verdict),
        field("reads_within", FieldUnit::none, "diagonals and sides read within tolerance", &Trueness::reads_within),
        field("proven", FieldUnit::none, "all three are proven within and the readings close", &Trueness::proven),
        field("can_be_square", FieldUnit::none, "opposite sides read equal within tolerance", &Trueness::can_be_square),
        field("diagonals", FieldUnit::none, "up_right less up_left", &Trueness::diagonals),
        field("eave_and_ridge", FieldUnit::none, "eave less ridge", &Trueness::eave_and_ridge),
        field("rakes", FieldUnit::none, "left less right", &Trueness::rakes),
        field("shear", FieldUnit::length, "middle of the ridge off square over the eave's, right positive",
              &Trueness::shear),
        field("shear_deviation", FieldUnit::length, "standard deviation of the shear", &Trueness::shear_deviation),
        field("midline", FieldUnit::length, "middle of left side to middle of right side", &Trueness::midline),
        field("ridge_move", FieldUnit::length, "how far the ridge must go, right positive", &Trueness::ridge_move),
        field("pull", FieldUnit::none, "which way the ridge must go, facing up the slope", &Trueness::pull),
        field("shorten", FieldUnit::none, "the diagonal to pull on", &Trueness::shorten),
        field("shorten_by", FieldUnit::length, "by how much it comes shorter", &Trueness::shorten_by),
        field("target_diagonal", FieldUnit::length, "both diagonals after the pull", &Trueness::target_diagonal),
        field("corner_error", FieldUnit::angle, "corner furthest from square now", &Trueness::corner_error),
        field("corner_error_after_pull", FieldUnit::angle, "corner furthest from square after the pull",
              &Trueness::corner_error_after_pull),
        field("corners_after_pull", FieldUnit::none, "corners after the pull, eave kept",
              &Trueness::corners_after_pull),
        field("measured", FieldUnit::none, "the adjusted figure", &Trueness::measured));
};

/// Opposite sides further apart than this ratio belong to no plane that is meant to be a rectangle.
inline constexpr double largest_side_ratio = 1.25;

namespace squaring_detail {

[[nodiscard]] inline Angle largest_corner_error(const FourCorners& corners) {
    double sine = 0.0;
    for (const CornerTurn& turn : turns_of(corners)) {
        const double here = std::fabs(turn.dot) / turn.product;
        sine = here > sine ? here : sine;
    }
    return angle_from_radians(std::asin(sine));
}

[[nodiscard]] inline std::optional<Position> pulled(const FourSides& adjusted) {
    const Six d = six_of(adjusted);
    return equal_diagonals(Bars{d[0], d[1], d[2], d[3]}, d[4], d[5]);
}

inline void require_alike(Length one, Length other, std::string_view other_name, const Path& path, Faults& faults) {
    if (longer(one, other) > shorter(one, other) * largest_side_ratio) {
        faults.push_back(Fault{FaultCode::not_supported, path.text(), write_inches(inches(one)),
                               "a plane meant to be a rectangle: within a quarter of " + std::string{other_name} +
                                   ", " + write_inches(inches(other))});
    }
}

[[nodiscard]] inline SquareVerdict verdict_of(const Trueness& t) {
    if (t.measured.closure == Closure::not_explained) {
        return SquareVerdict::readings_disagree;
    }
    if (t.diagonals.reads_within) {
        return t.can_be_square ? SquareVerdict::square : SquareVerdict::equal_diagonals_unequal_sides;
    }
    return t.can_be_square ? SquareVerdict::pull : SquareVerdict::pull_but_sides_unequal;
}

/// Shear of a figure: the vector from the eave's middle to the ridge's, along the midline, is
/// (up_right^2 - up_left^2) / (4 midline) for every four-sided figure; zero exactly where the diagonals are equal.
[[nodiscard]] inline Length shear_of(const MeasuredCorners& measured) {
    const double d1 = inches(measured.adjusted.up_right);
    const double d2 = inches(measured.adjusted.up_left);
    return one_inch * ((d1 - d2) * (d1 + d2) / (4.0 * inches(midline(measured.corners))));
}

/// To first order, with independent diagonals: the figure's sides hardly matter while it is near square.
[[nodiscard]] inline Length shear_deviation_of(const MeasuredCorners& measured, Length shear, const TapeError& tape) {
    const double d1 = inches(measured.adjusted.up_right);
    const double d2 = inches(measured.adjusted.up_left);
    const double read = inches(tape.reading) * std::sqrt(d1 * d1 + d2 * d2) / (2.0 * inches(midline(measured.corners)));
    const double stretched = tape.scale * inches(shear);
    return one_inch * std::sqrt(read * read + stretched * stretched);
}

}  // namespace squaring_detail

/// What `true_up` asks of the sides beyond `find_faults`: not_supported where opposite sides differ by more than a
/// quarter, or no position of the four sides has equal diagonals.
inline void find_true_up_faults(const FourSides& sides, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    find_faults(sides, path, faults);
    if (faults.size() != before) {
        return;
    }
    squaring_detail::require_alike(sides.ridge, sides.eave, "eave", Path{path, "ridge"}, faults);
    squaring_detail::require_alike(sides.right, sides.left, "left", Path{path, "right"}, faults);
    if (faults.size() != before) {
        return;
    }
    if (!squaring_detail::pulled(
            squaring_detail::lengths_of(squaring_detail::adjust(squaring_detail::six_of(sides)).adjusted))) {
        faults.push_back(Fault{FaultCode::not_supported, path.text(), "sides that no pull brings to equal diagonals",
                               "a plane meant to be a rectangle"});
    }
}

/// How square the plane is, and how far and which way to pull. Throws as `find_true_up_faults`, and as `find_faults`
/// of TapeError and SquareTolerance. With unequal sides the pull still makes the diagonals equal, to 1e-12 of their
/// length, and `corner_error_after_pull` is what remains.
[[nodiscard]] inline Trueness true_up(const FourSides& sides, const TapeError& tape = {},
                                      const SquareTolerance& tolerance = {}) {
    require_sound(tape, "tape");
    require_sound(tolerance, "tolerance");
    Faults faults;
    find_true_up_faults(sides, Path{"sides"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    const double level = tolerance.level_factor;
    const MeasuredCorners measured = measured_corners(sides, tape, level);
    const squaring_detail::Position after = squaring_detail::pulled(measured.adjusted).value();
    const Length target = one_inch * after.up_right;
    const Length shear = squaring_detail::shear_of(measured);
    const Length move = squaring_detail::ridge_middle(after.corners) - squaring_detail::ridge_middle(measured.corners);
    const bool still = magnitude(move) <= count_tolerance;
    const bool to_right = move > no_length;
    const Length longest = longer(measured.adjusted.up_right, measured.adjusted.up_left);
    Trueness t{
        .verdict = SquareVerdict::readings_disagree,
        .reads_within = false,
        .proven = false,
        .can_be_square = false,
        .diagonals = compare_readings(sides.up_right, sides.up_left, tape, tolerance.diagonal_difference, level),
        .eave_and_ridge = compare_readings(sides.eave, sides.ridge, tape, tolerance.side_difference, level),
        .rakes = compare_readings(sides.left, sides.right, tape, tolerance.side_difference, level),
        .shear = shear,
        .shear_deviation = squaring_detail::shear_deviation_of(measured, shear, tape),
        .midline = squaring_detail::midline(after.corners),
        .ridge_move = move,
        .pull = still      ? PullDirection::none
                : to_right ? PullDirection::right
                           : PullDirection::left,
        .shorten = still      ? Diagonal::none
                   : to_right ? Diagonal::up_left
                              : Diagonal::up_right,
        .shorten_by = longest - target,
        .target_diagonal = target,
        .corner_error = squaring_detail::largest_corner_error(measured.corners),
        .corner_error_after_pull = squaring_detail::largest_corner_error(after.corners),
        .corners_after_pull = after.corners,
        .measured = measured,
    };
    t.can_be_square = t.eave_and_ridge.reads_within && t.rakes.reads_within;
    t.reads_within = t.diagonals.reads_within && t.can_be_square;
    t.proven = t.diagonals.certainty == Certainty::proven_within &&
               t.eave_and_ridge.certainty == Certainty::proven_within &&
               t.rakes.certainty == Certainty::proven_within && measured.closure == Closure::explained;
    t.verdict = squaring_detail::verdict_of(t);
    return t;
}

}  // namespace eavewright
