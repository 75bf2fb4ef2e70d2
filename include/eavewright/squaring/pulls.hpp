// SPDX-License-Identifier: BSL-1.0
#pragma once

// A plan of pulls: whether the frame can be pulled true, what to slacken and tighten, in which order and by how much,
// where every point then stands, and how likely that is to be good enough. Made by squaring/plan_pulls.hpp, judged
// without its maker by squaring/check_pulls.hpp.

#include <eavewright/field.hpp>
#include <eavewright/squaring/coordinates.hpp>
#include <eavewright/squaring/pull_frame.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// What to spare where there is a choice.
enum class PullChoice {
    fewest_straps,   ///< within tolerance with the fewest straps; among those, the least movement
    least_movement,  ///< as true as all straps can make it, with the least movement
};
template <>
struct NamesOf<PullChoice> {
    static constexpr std::array<std::string_view, 2> list{"fewest_straps", "least_movement"};
};

enum class PullVerdict {
    already_true,  ///< every condition is within its tolerance as found: leave it
    pullable,      ///< these pulls bring every condition within its tolerance
    not_pullable,  ///< some condition stays outside; each says why, and the plan is the best that can be had
};
template <>
struct NamesOf<PullVerdict> {
    static constexpr std::array<std::string_view, 3> list{"already_true", "pullable", "not_pullable"};
};

/// Why a condition cannot be brought within its tolerance: the first of these that holds.
enum class PullObstacle {
    none,
    points_held,            ///< none of its points may go the way it takes
    members_fix_it,         ///< members keep it as it is, as unequal opposite sides
    no_strap_moves_it,      ///< the frame could, but no strap pulls that way
    no_position_found,      ///< not even with straps that could push: the members lock or do not reach
    conditions_contradict,  ///< each alone could be had, not all at once
    would_have_to_push,     ///< a strap would have to push, and straps only pull
    strap_limit,            ///< a strap would have to come shorter than it may
    moves_too_far,          ///< a point would have to go further than it may
};
template <>
struct NamesOf<PullObstacle> {
    static constexpr std::array<std::string_view, 9> list{
        "none",
        "points_held",
        "members_fix_it",
        "no_strap_moves_it",
        "no_position_found",
        "conditions_contradict",
        "would_have_to_push",
        "strap_limit",
        "moves_too_far",
    };
};

/// What a tape or string shows of a condition: both distances; the distance and its target; or the offset from the
/// line, to the left of it positive, and no length.
struct ConditionReading {
    Length first;
    Length second;
    Length misfit;  ///< first less second
};

struct PulledCondition {
    std::string name;
    ConditionReading now;
    ConditionReading after;
    Length tolerance;
    bool met;  ///< |misfit| after the pulls is within the tolerance
    PullObstacle obstacle;
    Length best;  ///< least |misfit| that this condition could be brought to if it alone counted
};

template <MeasuredPlace Place>
struct PulledPoint {
    std::string name;
    Place from;
    Place to;
    Length distance;
};

struct PulledStrap {
    std::string name;
    Length now;
    Length after;
    Length change;   ///< after less now. Negative: comes shorter. Positive: must be slackened by this at least
    bool tightened;  ///< pulled on; one that comes shorter without that hangs loose, and is taken up at the end
    Length
        tension;  ///< how hard it pulls, where a pull of 1 in moves a point 1 in that nothing else holds; not negative
};

struct Slackening {
    std::size_t strap;
    std::string name;
    Length by;        ///< further than so far, at least
    Length by_ticks;  ///< the same, up to a whole tick
};

/// Slacken what is named, read, tighten, read. Lengths are those after the step.
struct PullStep {
    std::size_t strap;
    std::string name;
    std::vector<Slackening> slacken_first;  ///< every strap that would stop this pull
    Length tighten_by;                      ///< shorter than as found; what has come loose of it by then is part of it
    Length tighten_by_ticks;                ///< the same to the nearest tick
    Length target;                          ///< distance between its ends once it is done
    std::vector<ConditionReading> conditions;  ///< in the order of the frame's
    std::vector<Length> straps;                ///< between the ends of each strap, in the order of the frame's
};

/// Everything there is to do, and what comes of it.
///
/// Chances are those that every condition ends within its tolerance, by linear propagation through the plan. Three
/// independent sources: the error of each pull; where the points really stood (`PullFrame::covariance`); and how the
/// pull is ended. A pull by amount starts from the true figure, so that what was misread at the start stays in the end;
/// a pull to a reading ends at a length worked out from the misread figure.
template <MeasuredPlace Place>
struct PullPlan {
    PullVerdict verdict;
    PullChoice choice;
    std::vector<PulledCondition> conditions;
    std::vector<PulledPoint<Place>> moves;
    std::vector<PulledStrap> straps;
    std::vector<Length> member_tensions;  ///< as `PulledStrap::tension`, in the order of the frame's; negative: pushes
    std::vector<PullStep> steps;
    std::size_t straps_tightened;
    Length total_movement;         ///< root of the sum of squares of all points' ways
    Length largest_movement;       ///< the longest way of a point
    double chance_within;          ///< every pull done by its amount, with the frame's `pull_deviation`
    double chance_exact_pulls;     ///< every pull done by exactly its amount
    double chance_exact_points;    ///< as `chance_within`, had the points been found exactly
    double chance_pulled_to_read;  ///< every pull done until its strap reads `target`, with `reading_deviation`
    std::string_view caution;
};

template <>
struct FieldsOf<ConditionReading> {
    static constexpr auto list = field_list(
        field("first", FieldUnit::length, "first distance, or offset from the line, left positive",
              &ConditionReading::first),
        field("second", FieldUnit::length, "second distance, or target, or nothing", &ConditionReading::second),
        field("misfit", FieldUnit::length, "first less second", &ConditionReading::misfit));
};
template <>
struct FieldsOf<PulledCondition> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "name of the condition", &PulledCondition::name),
                   field("now", FieldUnit::none, "as found", &PulledCondition::now),
                   field("after", FieldUnit::none, "after the pulls", &PulledCondition::after),
                   field("tolerance", FieldUnit::length, "largest misfit either way", &PulledCondition::tolerance),
                   field("met", FieldUnit::none, "within tolerance after the pulls", &PulledCondition::met),
                   field("obstacle", FieldUnit::none, "why it is not met", &PulledCondition::obstacle),
                   field("best", FieldUnit::length, "least misfit if it alone counted", &PulledCondition::best));
};
template <MeasuredPlace Place>
struct FieldsOf<PulledPoint<Place>> {
    using P = PulledPoint<Place>;
    static constexpr auto list = field_list(field("name", FieldUnit::none, "name of the mark", &P::name),
                                            field("from", FieldUnit::none, "where it was found", &P::from),
                                            field("to", FieldUnit::none, "where it goes", &P::to),
                                            field("distance", FieldUnit::length, "how far", &P::distance));
};
template <>
struct FieldsOf<PulledStrap> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "name of the strap", &PulledStrap::name),
                   field("now", FieldUnit::length, "between its ends as found", &PulledStrap::now),
                   field("after", FieldUnit::length, "between its ends after the pulls", &PulledStrap::after),
                   field("change", FieldUnit::length, "negative: shorter; positive: slacken at least so much",
                         &PulledStrap::change),
                   field("tightened", FieldUnit::none, "pulled on", &PulledStrap::tightened),
                   field("tension", FieldUnit::length, "how hard it pulls, by how far that moves a loose point",
                         &PulledStrap::tension));
};
template <>
struct FieldsOf<Slackening> {
    static constexpr auto list =
        field_list(field("strap", FieldUnit::count, "which strap, from 0", &Slackening::strap),
                   field("name", FieldUnit::none, "its name", &Slackening::name),
                   field("by", FieldUnit::length, "at least so much more than so far", &Slackening::by),
                   field("by_ticks", FieldUnit::length, "up to a whole tick", &Slackening::by_ticks));
};
template <>
struct FieldsOf<PullStep> {
    static constexpr auto list = field_list(
        field("strap", FieldUnit::count, "which strap, from 0", &PullStep::strap),
        field("name", FieldUnit::none, "its name", &PullStep::name),
        field("slacken_first", FieldUnit::none, "straps that would stop this pull", &PullStep::slacken_first),
        field("tighten_by", FieldUnit::length, "shorter than as found", &PullStep::tighten_by),
        field("tighten_by_ticks", FieldUnit::length, "to the nearest tick", &PullStep::tighten_by_ticks),
        field("target", FieldUnit::length, "between its ends once done", &PullStep::target),
        field("conditions", FieldUnit::none, "every condition after this step", &PullStep::conditions),
        field("straps", FieldUnit::length, "between the ends of every strap after this step", &PullStep::straps));
};
template <MeasuredPlace Place>
struct FieldsOf<PullPlan<Place>> {
    using P = PullPlan<Place>;
    static constexpr auto list = field_list(
        field("verdict", FieldUnit::none, "whether it can be pulled true", &P::verdict),
        field("choice", FieldUnit::none, "what was spared", &P::choice),
        field("conditions", FieldUnit::none, "each now and after", &P::conditions),
        field("moves", FieldUnit::none, "where every point goes", &P::moves),
        field("straps", FieldUnit::none, "change of each strap", &P::straps),
        field("member_tensions", FieldUnit::length, "how hard each member pulls, negative: pushes",
              &P::member_tensions),
        field("steps", FieldUnit::none, "order of work", &P::steps),
        field("straps_tightened", FieldUnit::count, "straps pulled on", &P::straps_tightened),
        field("total_movement", FieldUnit::length, "root of the sum of squares of all ways", &P::total_movement),
        field("largest_movement", FieldUnit::length, "longest way of a point", &P::largest_movement),
        field("chance_within", FieldUnit::ratio, "all within tolerance, pulls by amount", &P::chance_within),
        field("chance_exact_pulls", FieldUnit::ratio, "the same with pulls without error", &P::chance_exact_pulls),
        field("chance_exact_points", FieldUnit::ratio, "the same with points found exactly", &P::chance_exact_points),
        field("chance_pulled_to_read", FieldUnit::ratio, "pulls done until the strap reads its target",
              &P::chance_pulled_to_read),
        field("caution", FieldUnit::none, "read before pulling", &P::caution));
};

}  // namespace eavewright
