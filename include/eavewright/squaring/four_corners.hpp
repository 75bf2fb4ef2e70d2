// SPDX-License-Identifier: BSL-1.0
#pragma once

// The words of four-corner squaring: six taped lengths in, four corners out.
//
//     ridge_left  --------- ridge ---------  ridge_right        seen from outside, facing up the slope
//         |                                      |
//        left      up_right: eave_left to       right           (for a footprint: from outside the wall
//         |        ridge_right; up_left: the     |               that is called the eave)
//         |        other one                     |
//     eave_left   --------- eave  ----------  eave_right

#include <eavewright/field.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <string_view>

namespace eavewright {

/// Six lengths of a four-sided plane as read with a tape. Each `shortest_side` to `longest_reading`, none more than
/// `longest_per_shortest` times another.
struct FourSides {
    Length eave;
    Length ridge;
    Length left;
    Length right;
    Length up_right;  ///< from the eave's left corner to the ridge's right corner
    Length up_left;   ///< from the eave's right corner to the ridge's left corner
};

/// A corner in the plane: along the eave to the right from its left corner, and square to the eave up the slope.
struct PlaneCorner {
    Length along;
    Length up;
};

struct FourCorners {
    PlaneCorner eave_left;
    PlaneCorner eave_right;
    PlaneCorner ridge_right;
    PlaneCorner ridge_left;
};

struct CornerAngles {
    Angle eave_left;
    Angle eave_right;
    Angle ridge_right;
    Angle ridge_left;
};

/// One pure number for each of the six readings.
struct SixShares {
    double eave;
    double ridge;
    double left;
    double right;
    double up_right;
    double up_left;
};

/// What the one spare reading says of the six. Whichever it is, it cannot tell a wrong reading from the others.
enum class Closure {
    explained,      ///< reading errors of the stated size explain the misclosure
    not_explained,  ///< at least one reading is worse than stated; which one cannot be told: read again
};

template <>
struct NamesOf<Closure> {
    static constexpr std::array<std::string_view, 2> list{"explained", "not_explained"};
};

/// The adjusted figure, and how well the readings agree with it.
struct MeasuredCorners {
    FourCorners corners;  ///< eave_left at 0, 0; eave_right at eave, 0
    CornerAngles angles;  ///< inside angles, the machine's atan2
    FourSides adjusted;   ///< the six lengths of that figure
    FourSides residuals;  ///< adjusted less read
    Length misclosure;    ///< root sum of squares of the residuals; positive: the diagonals read long for the sides
    Length misclosure_deviation;  ///< its standard deviation, to first order that of one reading
    double misclosure_ratio;      ///< |misclosure| in standard deviations
    Closure closure;              ///< whether |misclosure| is within the level's factor of its standard deviation
    SixShares redundancy;         ///< share of the one spare reading that falls on each; they sum to 1
    FourSides alone;  ///< correction that would close the figure if this reading alone were wrong, to first order
    int steps;        ///< steps the adjustment took
};

template <>
struct FieldsOf<FourSides> {
    static constexpr auto list =
        field_list(field("eave", FieldUnit::length, "lower side", &FourSides::eave),
                   field("ridge", FieldUnit::length, "upper side", &FourSides::ridge),
                   field("left", FieldUnit::length, "left side facing up the slope", &FourSides::left),
                   field("right", FieldUnit::length, "right side facing up the slope", &FourSides::right),
                   field("up_right", FieldUnit::length, "eave left corner to ridge right corner", &FourSides::up_right),
                   field("up_left", FieldUnit::length, "eave right corner to ridge left corner", &FourSides::up_left));
};
template <>
struct FieldsOf<SixShares> {
    static constexpr auto list =
        field_list(field("eave", FieldUnit::ratio, "lower side", &SixShares::eave),
                   field("ridge", FieldUnit::ratio, "upper side", &SixShares::ridge),
                   field("left", FieldUnit::ratio, "left side facing up the slope", &SixShares::left),
                   field("right", FieldUnit::ratio, "right side facing up the slope", &SixShares::right),
                   field("up_right", FieldUnit::ratio, "eave left corner to ridge right corner", &SixShares::up_right),
                   field("up_left", FieldUnit::ratio, "eave right corner to ridge left corner", &SixShares::up_left));
};
template <>
struct FieldsOf<PlaneCorner> {
    static constexpr auto list =
        field_list(field("along", FieldUnit::length, "along the eave from its left corner", &PlaneCorner::along),
                   field("up", FieldUnit::length, "square to the eave, up the slope", &PlaneCorner::up));
};
template <>
struct FieldsOf<FourCorners> {
    static constexpr auto list =
        field_list(field("eave_left", FieldUnit::none, "origin", &FourCorners::eave_left),
                   field("eave_right", FieldUnit::none, "on the eave", &FourCorners::eave_right),
                   field("ridge_right", FieldUnit::none, "upper right corner", &FourCorners::ridge_right),
                   field("ridge_left", FieldUnit::none, "upper left corner", &FourCorners::ridge_left));
};
template <>
struct FieldsOf<CornerAngles> {
    static constexpr auto list =
        field_list(field("eave_left", FieldUnit::angle, "inside angle", &CornerAngles::eave_left),
                   field("eave_right", FieldUnit::angle, "inside angle", &CornerAngles::eave_right),
                   field("ridge_right", FieldUnit::angle, "inside angle", &CornerAngles::ridge_right),
                   field("ridge_left", FieldUnit::angle, "inside angle", &CornerAngles::ridge_left));
};
template <>
struct FieldsOf<MeasuredCorners> {
    static constexpr auto list = field_list(
        field("corners", FieldUnit::none, "adjusted corners", &MeasuredCorners::corners),
        field("angles", FieldUnit::none, "inside angles of the adjusted corners", &MeasuredCorners::angles),
        field("adjusted", FieldUnit::none, "adjusted lengths", &MeasuredCorners::adjusted),
        field("residuals", FieldUnit::none, "adjusted less read", &MeasuredCorners::residuals),
        field("misclosure", FieldUnit::length,
              "root sum of squares of the residuals, positive where diagonals read long", &MeasuredCorners::misclosure),
        field("misclosure_deviation", FieldUnit::length, "standard deviation of the misclosure",
              &MeasuredCorners::misclosure_deviation),
        field("misclosure_ratio", FieldUnit::ratio, "misclosure in standard deviations",
              &MeasuredCorners::misclosure_ratio),
        field("closure", FieldUnit::none, "whether reading errors explain the misclosure", &MeasuredCorners::closure),
        field("redundancy", FieldUnit::none, "share of the one spare reading on each", &MeasuredCorners::redundancy),
        field("alone", FieldUnit::none, "correction of each reading if it alone were wrong", &MeasuredCorners::alone),
        field("steps", FieldUnit::count, "steps of the adjustment", &MeasuredCorners::steps));
};

}  // namespace eavewright
