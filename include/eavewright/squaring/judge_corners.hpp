// SPDX-License-Identifier: BSL-1.0
#pragma once

// Four corners of an adjusted network held against a rule: is the plane square, as read and as proven? In the trade's own
// measures: the difference of the diagonals, the rack over the slope, the angle of the corners.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/coordinates.hpp>
#include <eavewright/squaring/four_corners.hpp>
#include <eavewright/squaring/square_rules.hpp>
#include <eavewright/squaring/standing.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright {

/// Which points of a network are the corners of a plane, seen from outside, facing up the slope.
struct CornerPoints {
    std::size_t eave_left;
    std::size_t eave_right;
    std::size_t ridge_right;
    std::size_t ridge_left;
};

/// A figure with its standard deviation.
struct MeasuredFigure {
    Length value;
    Length deviation;
};
/// A difference held against a limit.
struct JudgedDifference {
    Length value;
    Length deviation;
    Length limit;
    StandingVerdict verdict;
};

/// How square four corners are.
struct SquareJudgement {
    StandingVerdict verdict;                  ///< the worse of diagonals and sides
    std::optional<std::size_t> loose_corner;  ///< a corner that the readings do not place: undecided, and no figures
    bool readings_agree;                      ///< false where a blunder is seen: no figure is to be trusted then
    bool can_be_square;                       ///< opposite sides read equal within the limit: a pull can make it square
    SquareRule rule;                          ///< the rule that judged
    double level_factor;                      ///< standard deviations to each side that "proven" takes
    FourSides lengths;                        ///< sides and diagonals between the places found
    JudgedDifference diagonals;               ///< up_right less up_left
    JudgedDifference eave_and_ridge;          ///< eave less ridge
    JudgedDifference rakes;                   ///< left less right
    MeasuredFigure rack;                      ///< the ridge's middle off square over the eave's, right positive
    Angle corner_error;                       ///< the same as an angle of the corners; the machine's atan2
};

template <>
struct FieldsOf<MeasuredFigure> {
    static constexpr auto list =
        field_list(field("value", FieldUnit::length, "from the places found", &MeasuredFigure::value),
                   field("deviation", FieldUnit::length, "its standard deviation", &MeasuredFigure::deviation));
};
template <>
struct FieldsOf<JudgedDifference> {
    static constexpr auto list =
        field_list(field("value", FieldUnit::length, "first less second", &JudgedDifference::value),
                   field("deviation", FieldUnit::length, "its standard deviation", &JudgedDifference::deviation),
                   field("limit", FieldUnit::length, "largest either way", &JudgedDifference::limit),
                   field("verdict", FieldUnit::none, "where it stands", &JudgedDifference::verdict));
};
template <>
struct FieldsOf<SquareJudgement> {
    static constexpr auto list = field_list(
        field("verdict", FieldUnit::none, "the worse of diagonals and sides", &SquareJudgement::verdict),
        field("loose_corner", FieldUnit::count, "a corner the readings do not place, null where none",
              &SquareJudgement::loose_corner),
        field("readings_agree", FieldUnit::none, "false where a blunder is seen", &SquareJudgement::readings_agree),
        field("can_be_square", FieldUnit::none, "opposite sides read equal within the limit",
              &SquareJudgement::can_be_square),
        field("rule", FieldUnit::none, "the rule that judged", &SquareJudgement::rule),
        field("level_factor", FieldUnit::ratio, "standard deviations to each side", &SquareJudgement::level_factor),
        field("lengths", FieldUnit::none, "sides and diagonals between the places found", &SquareJudgement::lengths),
        field("diagonals", FieldUnit::none, "up_right less up_left", &SquareJudgement::diagonals),
        field("eave_and_ridge", FieldUnit::none, "eave less ridge", &SquareJudgement::eave_and_ridge),
        field("rakes", FieldUnit::none, "left less right", &SquareJudgement::rakes),
        field("rack", FieldUnit::none, "ridge's middle off square over the eave's, right positive",
              &SquareJudgement::rack),
        field("corner_error", FieldUnit::angle, "the same as an angle of the corners", &SquareJudgement::corner_error));
};

namespace squaring_detail {

/// A figure to first order in the coordinates of four corners.
template <MeasuredPlace Place>
struct CornerFigure {
    double value;
    std::array<Numbers<Place>, 4> slope;
};

template <MeasuredPlace Place>
[[nodiscard]] CornerFigure<Place> combined(const CornerFigure<Place>& a, double of_a, const CornerFigure<Place>& b,
                                           double of_b) {
    CornerFigure<Place> sum{a.value * of_a + b.value * of_b, {}};
    for (std::size_t c = 0; c < 4; ++c) {
        for (std::size_t i = 0; i < coordinate_count<Place>; ++i) {
            sum.slope[c][i] = a.slope[c][i] * of_a + b.slope[c][i] * of_b;
        }
    }
    return sum;
}

/// Length of a sum of corners with these weights, which add up to nothing: a side, a diagonal, a midline.
template <MeasuredPlace Place>
[[nodiscard]] CornerFigure<Place> length_figure(const std::array<Numbers<Place>, 4>& corners,
                                                const std::array<double, 4>& weights) {
    Numbers<Place> way{};
    for (std::size_t c = 0; c < 4; ++c) {
        for (std::size_t i = 0; i < way.size(); ++i) {
            way[i] += weights[c] * corners[c][i];
        }
    }
    const auto step = step_between(Numbers<Place>{}, way);
    CornerFigure<Place> figure{step.length, {}};
    for (std::size_t c = 0; c < 4; ++c) {
        for (std::size_t i = 0; i < way.size(); ++i) {
            figure.slope[c][i] = weights[c] * step.direction[i];
        }
    }
    return figure;
}

template <MeasuredPlace Place>
[[nodiscard]] Length deviation_of(const CornerFigure<Place>& figure, const std::array<std::size_t, 4>& points,
                                  const Covariance& covariance) {
    double variance = 0.0;
    for (std::size_t a = 0; a < 4; ++a) {
        for (std::size_t b = 0; b < 4; ++b) {
            for (std::size_t i = 0; i < coordinate_count<Place>; ++i) {
                for (std::size_t j = 0; j < coordinate_count<Place>; ++j) {
                    variance += figure.slope[a][i] * figure.slope[b][j] *
                                square_inches(covariance.between(points[a], i, points[b], j));
                }
            }
        }
    }
    return one_inch * std::sqrt(variance > 0.0 ? variance : 0.0);
}

/// Sides, diagonals and midlines of four corners, in the order eave_left, eave_right, ridge_right, ridge_left.
template <MeasuredPlace Place>
struct CornerLengths {
    CornerFigure<Place> eave, ridge, left, right, up_right, up_left, along, up;
};
template <MeasuredPlace Place>
[[nodiscard]] CornerLengths<Place> corner_lengths(const std::array<Numbers<Place>, 4>& c) {
    return {length_figure<Place>(c, {-1.0, 1.0, 0.0, 0.0}),  length_figure<Place>(c, {0.0, 0.0, 1.0, -1.0}),
            length_figure<Place>(c, {-1.0, 0.0, 0.0, 1.0}),  length_figure<Place>(c, {0.0, -1.0, 1.0, 0.0}),
            length_figure<Place>(c, {-1.0, 0.0, 1.0, 0.0}),  length_figure<Place>(c, {0.0, -1.0, 0.0, 1.0}),
            length_figure<Place>(c, {-0.5, 0.5, 0.5, -0.5}), length_figure<Place>(c, {-0.5, -0.5, 0.5, 0.5})};
}

/// (up_right^2 - up_left^2) / (4 midline), to first order: see shear in true_up.hpp.
template <MeasuredPlace Place>
[[nodiscard]] CornerFigure<Place> rack_figure(const CornerLengths<Place>& l) {
    const double m = l.along.value;
    CornerFigure<Place> rack =
        combined(l.up_right, l.up_right.value / (2.0 * m), l.up_left, -l.up_left.value / (2.0 * m));
    const double value = (l.up_right.value - l.up_left.value) * (l.up_right.value + l.up_left.value) / (4.0 * m);
    rack = combined(rack, 1.0, l.along, -value / m);
    rack.value = value;
    return rack;
}

[[nodiscard]] inline JudgedDifference judge_difference(Length value, Length deviation, Length limit, double level) {
    return {value, deviation, limit, standing_of(magnitude(value), deviation, limit, level)};
}

}  // namespace squaring_detail

/// Faults of corners that name no points of the network, or one twice; out_of_range or contradiction.
inline void find_corner_faults(const CornerPoints& corners, std::size_t points, const Path& path, Faults& faults) {
    const std::array<std::size_t, 4> all{corners.eave_left, corners.eave_right, corners.ridge_right,
                                         corners.ridge_left};
    for (std::size_t i = 0; i < 4; ++i) {
        squaring_detail::require_index(all[i], points, path, faults);
        for (std::size_t j = 0; j < i; ++j) {
            squaring_detail::require_other(all[i], all[j], path, faults);
        }
    }
}

namespace squaring_detail {
/// What is said where a corner is loose, and what the figures are written into else.
[[nodiscard]] inline SquareJudgement nothing_judged(const SquareRule& rule, Length side_limit, double level_factor,
                                                    NetworkStanding standing) {
    const JudgedDifference side{no_length, no_length, side_limit, StandingVerdict::undecided};
    return {.verdict = StandingVerdict::undecided,
            .loose_corner = std::nullopt,
            .readings_agree = standing == NetworkStanding::agree || standing == NetworkStanding::not_checked,
            .can_be_square = false,
            .rule = rule,
            .level_factor = level_factor,
            .lengths = FourSides{no_length, no_length, no_length, no_length, no_length, no_length},
            .diagonals = {no_length, no_length, rule.limit, StandingVerdict::undecided},
            .eave_and_ridge = side,
            .rakes = side,
            .rack = {no_length, no_length},
            .corner_error = angle_from_radians(0.0)};
}

/// The figures of four corners that are where they are.
template <MeasuredPlace Place>
void judge_lengths(const CornerLengths<Place>& l, const std::array<std::size_t, 4>& points,
                   const Covariance& covariance, SquareJudgement& judged) {
    judged.lengths = FourSides{one_inch * l.eave.value,  one_inch * l.ridge.value,    one_inch * l.left.value,
                               one_inch * l.right.value, one_inch * l.up_right.value, one_inch * l.up_left.value};
    const auto judge = [&](const auto& first, const auto& second, JudgedDifference& into) {
        const auto difference = combined(first, 1.0, second, -1.0);
        into = judge_difference(one_inch * difference.value, deviation_of(difference, points, covariance), into.limit,
                                judged.level_factor);
    };
    judge(l.up_right, l.up_left, judged.diagonals);
    judge(l.eave, l.ridge, judged.eave_and_ridge);
    judge(l.left, l.right, judged.rakes);
    judged.can_be_square = reads_within(judged.eave_and_ridge.verdict) && reads_within(judged.rakes.verdict);
    judged.verdict = worse_of(judged.diagonals.verdict, worse_of(judged.eave_and_ridge.verdict, judged.rakes.verdict));
    if (l.along.value > 0.0) {
        const auto rack = rack_figure(l);
        const double square_up = l.up.value * l.up.value - rack.value * rack.value;
        judged.rack = {one_inch * rack.value, deviation_of(rack, points, covariance)};
        judged.corner_error = angle_from_radians(std::atan2(rack.value, std::sqrt(square_up > 0.0 ? square_up : 0.0)));
    }
}
}  // namespace squaring_detail

/// Holds four corners against `rule`, sides against `side_limit` (0 to 100 in). `level_factor` as in `standing_of`. Throws
/// for corners that are no points of the network and for limits out of range. Where a corner is loose the verdict is
/// undecided and the figures are zero. Deviations are to first order, from all readings together.
template <MeasuredPlace Place>
[[nodiscard]] SquareJudgement judge_corners(const AdjustedNetwork<Place>& network, const CornerPoints& corners,
                                            const SquareRule& rule = eighth_inch_rule(),
                                            Length side_limit = one_inch / 8.0, double level_factor = two_sided_95) {
    Faults faults;
    find_corner_faults(corners, network.points.size(), Path{"corners"}, faults);
    find_faults(rule, Path{"rule"}, faults);
    require_within(side_limit, no_length, one_inch * 100.0, Path{"side_limit"}, faults);
    find_level_faults(level_factor, Path{"level_factor"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    SquareJudgement judged = squaring_detail::nothing_judged(rule, side_limit, level_factor, network.standing);
    const std::array<std::size_t, 4> points{corners.eave_left, corners.eave_right, corners.ridge_right,
                                            corners.ridge_left};
    std::array<squaring_detail::Numbers<Place>, 4> places{};
    for (std::size_t c = 0; c < 4; ++c) {
        places[c] = squaring_detail::numbers_of(network.points[points[c]].place);
        if (network.points[points[c]].loose || network.standing == NetworkStanding::not_settled) {
            judged.loose_corner = points[c];
        }
    }
    if (!judged.loose_corner) {
        squaring_detail::judge_lengths(squaring_detail::corner_lengths<Place>(places), points, network.covariance,
                                       judged);
    }
    return judged;
}

}  // namespace eavewright
