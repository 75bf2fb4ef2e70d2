// SPDX-License-Identifier: BSL-1.0
#pragma once

// Flat: does a four-sided plane lie in a plane. Strings along both diagonals show it where they cross, or a level shows
// it in the heights of the corners (four_corners.hpp names them).
//
//     ridge_left ---- ridge_right     In a parallelogram the diagonals halve each other, and the gap between the strings
//          \  `.   .'    /            is half the twist: gap = (z1 + z3)/2 - (z2 + z4)/2. In any convex figure the place
//           \   `.'     /             of the crossing weighs the heights, the strings being straight:
//            \ .'  `.  /                  gap = (1-s) z_eave_left + s z_ridge_right - (1-t) z_eave_right - t z_ridge_left
//     eave_left ---- eave_right       with s and t the shares of each diagonal up to the crossing. So each corner stands
//                                     off the plane of the other three by the gap over its own weight.
//
// Heights count square to the plan that the corners are given in. Where a roof's corners are levelled, plan and heights
// are level and plumb, and what is found is plumb too; square to the roof it is less by the cosine of the pitch.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/closing.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/four_corners.hpp>
#include <eavewright/squaring/standing.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace eavewright {

/// Largest distance of a corner from the plane of the other three where none is given. Common practice.
inline constexpr Length flat_tolerance = Length::from_inches(0.5);

/// One length for each corner, away from the building positive.
struct CornerHeights {
    Length eave_left;
    Length eave_right;
    Length ridge_right;
    Length ridge_left;
};

/// Where the diagonals cross in plan: the share of each from its eave end, 0.001 to 0.999. Halfway in a parallelogram.
struct StringCrossing {
    double on_up_right = 0.5;  ///< from eave_left to ridge_right
    double on_up_left = 0.5;   ///< from eave_right to ridge_left
};

enum class UpperString { up_right, up_left };
template <>
struct NamesOf<UpperString> {
    static constexpr std::array<std::string_view, 2> list{"up_right", "up_left"};
};

/// Two strings over the corners, each along one diagonal, as read where they cross.
struct CrossedStrings {
    UpperString upper;          ///< the one that lies on top
    Length clear_gap;           ///< between the strings, 0 to 1000 in; 0 where they touch
    Length thickness;           ///< mean thickness of the two strings, 0 to 1 in
    StringCrossing crossing{};  ///< from `crossing_of` where the figure is no parallelogram
    /// How much higher the ends of the upper string sit over the corners than those of the lower one, 0 to 100 in.
    Length upper_raised = no_length;
    Length upper_sag = no_length;  ///< of each string at the crossing (string_sag.hpp), 0 to 100 in
    Length lower_sag = no_length;
    std::optional<Length> tolerance = std::nullopt;  ///< 0 to 100 in; none given: `flat_tolerance`
    Length reading_deviation = one_inch / 32.0;      ///< of the gap; common practice. 0.0001 to 12 in
    double level_factor = two_sided_95;              ///< 0.1 to 10
};

/// Heights of the corners as levelled, over any one datum.
struct LevelledCorners {
    FourCorners plan;
    CornerHeights heights;
    std::optional<Length> tolerance = std::nullopt;  ///< 0 to 100 in; none given: `flat_tolerance`
    Length reading_deviation = one_inch / 32.0;      ///< of one height; common practice. 0.0001 to 12 in
    double level_factor = two_sided_95;              ///< 0.1 to 10
};

/// How far four corners are from one plane.
struct Twist {
    StandingVerdict verdict;  ///< `largest` against the tolerance
    Length tolerance;
    bool tolerance_given;  ///< false: `flat_tolerance`, common practice
    Length gap;            ///< straight line over up_right less the one over up_left, where they cross
    CornerHeights fourth;  ///< each corner off the plane of the other three
    Length largest;        ///< magnitude of the largest of these; twice the gap in a parallelogram
    Length deviation;      ///< standard deviation of `largest`
    bool strings_touch;    ///< the lower string may bear the upper one: change them over and read again
    StringCrossing crossing;
};

/// Levelled corners against the plane that fits them best.
struct Flatness {
    Twist twist;
    double slope_along;       ///< of that plane: height by length along the eave to the right
    double slope_up;          ///< and by length up the slope
    CornerHeights residuals;  ///< height less plane
    Length largest_residual;  ///< magnitude; a quarter of the twist in a parallelogram
};

template <>
struct FieldsOf<CornerHeights> {
    static constexpr auto list =
        field_list(field("eave_left", FieldUnit::length, "away from the building", &CornerHeights::eave_left),
                   field("eave_right", FieldUnit::length, "away from the building", &CornerHeights::eave_right),
                   field("ridge_right", FieldUnit::length, "away from the building", &CornerHeights::ridge_right),
                   field("ridge_left", FieldUnit::length, "away from the building", &CornerHeights::ridge_left));
};
template <>
struct FieldsOf<StringCrossing> {
    static constexpr auto list = field_list(
        field("on_up_right", FieldUnit::ratio, "share of that diagonal from the eave", &StringCrossing::on_up_right),
        field("on_up_left", FieldUnit::ratio, "share of that diagonal from the eave", &StringCrossing::on_up_left));
};
template <>
struct FieldsOf<Twist> {
    static constexpr auto list = field_list(
        field("verdict", FieldUnit::none, "largest against the tolerance", &Twist::verdict),
        field("tolerance", FieldUnit::length, "of a corner off the plane of the other three", &Twist::tolerance),
        field("tolerance_given", FieldUnit::none, "else common practice", &Twist::tolerance_given),
        field("gap", FieldUnit::length, "line over up_right less line over up_left where they cross", &Twist::gap),
        field("fourth", FieldUnit::none, "each corner off the plane of the other three", &Twist::fourth),
        field("largest", FieldUnit::length, "magnitude of the largest of these", &Twist::largest),
        field("deviation", FieldUnit::length, "standard deviation of largest", &Twist::deviation),
        field("strings_touch", FieldUnit::none, "change the strings over and read again", &Twist::strings_touch),
        field("crossing", FieldUnit::none, "where the diagonals cross", &Twist::crossing));
};
template <>
struct FieldsOf<Flatness> {
    static constexpr auto list = field_list(
        field("twist", FieldUnit::none, "how far from one plane", &Flatness::twist),
        field("slope_along", FieldUnit::ratio, "best plane, height by length along the eave", &Flatness::slope_along),
        field("slope_up", FieldUnit::ratio, "best plane, height by length up the slope", &Flatness::slope_up),
        field("residuals", FieldUnit::none, "height less best plane", &Flatness::residuals),
        field("largest_residual", FieldUnit::length, "magnitude of the largest residual", &Flatness::largest_residual));
};

namespace squaring_detail {
inline void find_judging_faults(const std::optional<Length>& tolerance, Length deviation, double level_factor,
                                const Path& path, Faults& faults) {
    if (tolerance) {
        require_within(*tolerance, no_length, one_inch * 100.0, Path{path, "tolerance"}, faults);
    }
    require_within(deviation, one_inch / 10000.0, one_inch * 12.0, Path{path, "reading_deviation"}, faults);
    find_level_faults(level_factor, Path{path, "level_factor"}, faults);
}
/// Corners in range and convex.
inline void find_plan_faults(const FourCorners& plan, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    for_each_field<FourCorners>([&](const auto& each) {
        const PlaneCorner& corner = plan.*(each.get);
        const Path here{path, each.name};
        require_within(corner.along, -longest_reading, longest_reading, Path{here, "along"}, faults);
        require_within(corner.up, -longest_reading, longest_reading, Path{here, "up"}, faults);
    });
    if (faults.size() != before) {
        return;
    }
    bool apart = is_convex(plan);
    for (const CornerTurn& turn : turns_of(plan)) {
        apart = apart && turn.product >= 1.0;  // square inches; coinciding corners turn by nothing
    }
    if (!apart) {
        faults.push_back(Fault{FaultCode::contradiction, path.text(),
                               "corners that are folded, crossed, in line or on one spot",
                               "four corners that all turn the same way by at least 3 deg and at most 177 deg"});
    }
}
}  // namespace squaring_detail

/// Faults: out_of_range or not_finite, unknown_name.
inline void find_faults(const CrossedStrings& strings, const Path& path, Faults& faults) {
    detail::require_named(strings.upper, Path{path, "upper"}, faults);
    require_within(strings.clear_gap, no_length, one_inch * 1000.0, Path{path, "clear_gap"}, faults);
    require_within(strings.thickness, no_length, one_inch, Path{path, "thickness"}, faults);
    const Path crossing{path, "crossing"};
    squaring_detail::require_number(strings.crossing.on_up_right, 0.001, 0.999, Path{crossing, "on_up_right"}, faults);
    squaring_detail::require_number(strings.crossing.on_up_left, 0.001, 0.999, Path{crossing, "on_up_left"}, faults);
    require_within(strings.upper_raised, no_length, one_inch * 100.0, Path{path, "upper_raised"}, faults);
    require_within(strings.upper_sag, no_length, one_inch * 100.0, Path{path, "upper_sag"}, faults);
    require_within(strings.lower_sag, no_length, one_inch * 100.0, Path{path, "lower_sag"}, faults);
    squaring_detail::find_judging_faults(strings.tolerance, strings.reading_deviation, strings.level_factor, path,
                                         faults);
}
/// Faults: out_of_range or not_finite; contradiction for a plan that is not convex, so with three corners in line.
inline void find_faults(const LevelledCorners& corners, const Path& path, Faults& faults) {
    squaring_detail::find_plan_faults(corners.plan, Path{path, "plan"}, faults);
    for_each_field<CornerHeights>([&](const auto& each) {
        require_within(corners.heights.*(each.get), -longest_reading, longest_reading,
                       Path{Path{path, "heights"}, each.name}, faults);
    });
    squaring_detail::find_judging_faults(corners.tolerance, corners.reading_deviation, corners.level_factor, path,
                                         faults);
}

/// Where the diagonals of a convex figure cross: the areas on both sides of a diagonal divide the other one. Throws
/// contradiction where it is not convex, out_of_range or not_finite.
[[nodiscard]] inline StringCrossing crossing_of(const FourCorners& plan) {
    Faults faults;
    squaring_detail::find_plan_faults(plan, Path{"plan"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    const squaring_detail::OppositeAreas a = squaring_detail::opposite_areas(plan);
    return StringCrossing{a.ridge_right / (a.ridge_right + a.eave_left), a.ridge_left / (a.ridge_left + a.eave_right)};
}

namespace squaring_detail {
/// How much the height of each corner counts in the gap: eave_left, eave_right, ridge_right, ridge_left. They sum to 0.
[[nodiscard]] inline std::array<double, 4> gap_weights(const StringCrossing& c) {
    return {1.0 - c.on_up_right, c.on_up_left - 1.0, c.on_up_right, -c.on_up_left};
}
/// Each corner off the plane of the other three, whose heights are 0 there.
[[nodiscard]] inline CornerHeights fourth_corners(Length gap, const StringCrossing& crossing) {
    const auto w = gap_weights(crossing);
    return CornerHeights{gap / w[0], gap / w[1], gap / w[2], gap / w[3]};
}
[[nodiscard]] inline Length largest_of(const CornerHeights& h) {
    return longer(longer(magnitude(h.eave_left), magnitude(h.eave_right)),
                  longer(magnitude(h.ridge_right), magnitude(h.ridge_left)));
}
[[nodiscard]] inline Twist twist_of_gap(Length gap, Length gap_deviation, const StringCrossing& crossing,
                                        const std::optional<Length>& tolerance, double level_factor) {
    const CornerHeights fourth = fourth_corners(gap, crossing);
    const Length largest = largest_of(fourth);
    const Length deviation = largest_of(fourth_corners(gap_deviation, crossing));
    const Length limit = tolerance.value_or(flat_tolerance);
    return Twist{.verdict = standing_of(largest, deviation, limit, level_factor),
                 .tolerance = limit,
                 .tolerance_given = tolerance.has_value(),
                 .gap = gap,
                 .fourth = fourth,
                 .largest = largest,
                 .deviation = deviation,
                 .strings_touch = false,
                 .crossing = crossing};
}
}  // namespace squaring_detail

/// Twist from the gap between two strings. The lines that straight, thin strings would make are apart by the clear gap
/// and one thickness, less what the upper one was raised by, more by its own sag and less by the other's. Strings that
/// touch may bear on each other, and then only say that the upper line is no higher than that: the verdict is at best
/// undecided until they have been changed over, or the upper one raised clear. Throws as `find_faults` of CrossedStrings.
[[nodiscard]] inline Twist twist_of(const CrossedStrings& strings) {
    require_sound(strings, "strings");
    const Length upper_less_lower =
        strings.clear_gap + strings.thickness - strings.upper_raised + strings.upper_sag - strings.lower_sag;
    const Length gap = strings.upper == UpperString::up_right ? upper_less_lower : -upper_less_lower;
    Twist twist = squaring_detail::twist_of_gap(gap, strings.reading_deviation, strings.crossing, strings.tolerance,
                                                strings.level_factor);
    if (!(strings.clear_gap > no_length)) {
        twist.strings_touch = true;
        twist.verdict = StandingVerdict::undecided;
    }
    return twist;
}

/// Twist from levelled corners, and the plane of least squares through them. Throws as `find_faults` of LevelledCorners.
[[nodiscard]] inline Flatness flatness_of(const LevelledCorners& corners) {
    require_sound(corners, "corners");
    const StringCrossing crossing = crossing_of(corners.plan);
    const auto w = squaring_detail::gap_weights(crossing);
    const CornerHeights& z = corners.heights;
    const Length gap = z.eave_left * w[0] + z.eave_right * w[1] + z.ridge_right * w[2] + z.ridge_left * w[3];
    const double squares = w[0] * w[0] + w[1] * w[1] + w[2] * w[2] + w[3] * w[3];
    // Four heights, three numbers of a plane: one to spare, so the residuals stand along the weights.
    const Length by = gap / squares;
    const CornerHeights residuals{by * w[0], by * w[1], by * w[2], by * w[3]};
    // The plane goes through the heights less the residuals: its slopes by three of the corners.
    const FourCorners& p = corners.plan;
    const double right = inches(z.eave_right - residuals.eave_right - z.eave_left + residuals.eave_left);
    const double up = inches(z.ridge_left - residuals.ridge_left - z.eave_left + residuals.eave_left);
    const double ax = inches(p.eave_right.along - p.eave_left.along);
    const double ay = inches(p.eave_right.up - p.eave_left.up);
    const double bx = inches(p.ridge_left.along - p.eave_left.along);
    const double by_up = inches(p.ridge_left.up - p.eave_left.up);
    const double area = ax * by_up - ay * bx;
    return Flatness{.twist = squaring_detail::twist_of_gap(gap, corners.reading_deviation * std::sqrt(squares),
                                                           crossing, corners.tolerance, corners.level_factor),
                    .slope_along = (right * by_up - up * ay) / area,
                    .slope_up = (up * ax - right * bx) / area,
                    .residuals = residuals,
                    .largest_residual = squaring_detail::largest_of(residuals)};
}

}  // namespace eavewright
