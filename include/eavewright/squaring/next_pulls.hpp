// SPDX-License-Identifier: BSL-1.0
#pragma once

// After a round of pulls: what came of it against what was planned. The next round is a new plan from newly found
// points; what this says is by how much a frame springs back, so that the next amounts can allow for it.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/coordinates.hpp>
#include <eavewright/squaring/pull_figure.hpp>
#include <eavewright/squaring/pulls.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace eavewright {

/// How much of a planned change must come about for the next amount to be judged by it: below a half something held
/// that should not have, above one and a half something slipped, and neither is springing back. Common practice.
inline constexpr double least_gain = 0.5;
inline constexpr double largest_gain = 1.5;

struct ConditionGain {
    std::string name;
    Length planned;   ///< change of the misfit by the plan
    Length achieved;  ///< change as found
    double gain;      ///< achieved over planned; 1 where nothing was planned
    Length misfit;    ///< as found now
    bool within;      ///< of its tolerance, as found now
};

struct PullRound {
    std::vector<ConditionGain> conditions;
    bool within;    ///< every condition is
    bool settled;   ///< enough was planned to tell a gain: four standard deviations of a reading at least
    double gain;    ///< of all conditions together, by least squares; 1 unless settled
    double factor;  ///< by which the next amounts are multiplied: 1 over the gain, kept within the limits above
};

template <>
struct FieldsOf<ConditionGain> {
    static constexpr auto list = field_list(
        field("name", FieldUnit::none, "name of the condition", &ConditionGain::name),
        field("planned", FieldUnit::length, "planned change of the misfit", &ConditionGain::planned),
        field("achieved", FieldUnit::length, "change as found", &ConditionGain::achieved),
        field("gain", FieldUnit::ratio, "achieved over planned, 1 where nothing was planned", &ConditionGain::gain),
        field("misfit", FieldUnit::length, "as found now", &ConditionGain::misfit),
        field("within", FieldUnit::none, "of its tolerance", &ConditionGain::within));
};
template <>
struct FieldsOf<PullRound> {
    static constexpr auto list =
        field_list(field("conditions", FieldUnit::none, "each condition, planned and found", &PullRound::conditions),
                   field("within", FieldUnit::none, "every condition is within its tolerance", &PullRound::within),
                   field("settled", FieldUnit::none, "enough was planned to tell a gain", &PullRound::settled),
                   field("gain", FieldUnit::ratio, "achieved over planned, of all", &PullRound::gain),
                   field("factor", FieldUnit::ratio, "multiplies the next amounts", &PullRound::factor));
};

/// Holds what was found after the pulls of `plan` against it. `found` are all points of the frame in its order, newly
/// found. Throws as `find_faults` of a PullFrame; does_not_fit where plan or points are not those of the frame;
/// out_of_range or not_finite for a place.
template <MeasuredPlace Place>
[[nodiscard]] PullRound compare_round(const PullFrame<Place>& frame, const PullPlan<Place>& plan,
                                      const std::vector<Place>& found) {
    require_sound(frame, "frame");
    if (found.size() != frame.points.size() || plan.conditions.size() != frame.conditions.size()) {
        throw FaultError{Fault{FaultCode::does_not_fit, "found", std::to_string(found.size()) + " points",
                               std::to_string(frame.points.size()) + ", those of the frame and its plan"}};
    }
    PullFrame<Place> now = frame;
    for (std::size_t p = 0; p < found.size(); ++p) {
        now.points[p].about = found[p];
    }
    require_sound(now, "found");
    const squaring_detail::PullFigure<Place> figure{now};
    PullRound round{{}, true, false, 1.0, 1.0};
    double both = 0.0;
    double planned_squares = 0.0;
    for (std::size_t c = 0; c < frame.conditions.size(); ++c) {
        const PulledCondition& each = plan.conditions[c];
        const Length misfit = figure.reading(figure.found(), frame.conditions[c]).misfit;
        const double planned = inches(each.after.misfit - each.now.misfit);
        const double achieved = inches(misfit - each.now.misfit);
        const bool any = std::fabs(planned) > 1e-6;
        round.conditions.push_back(ConditionGain{each.name, one_inch * planned, one_inch * achieved,
                                                 any ? achieved / planned : 1.0, misfit,
                                                 magnitude(misfit) <= each.tolerance});
        round.within = round.within && round.conditions.back().within;
        both += planned * achieved;
        planned_squares += planned * planned;
    }
    const double least = 4.0 * inches(frame.reading_deviation);
    round.settled = planned_squares > 1e-12 && planned_squares >= least * least;
    if (round.settled) {
        round.gain = both / planned_squares;
        const double above = round.gain > least_gain ? round.gain : least_gain;
        round.factor = 1.0 / (above < largest_gain ? above : largest_gain);
    }
    return round;
}

/// The amount to pull so that what is left after springing back is the one planned.
[[nodiscard]] inline Length next_amount(Length planned, const PullRound& last) { return planned * last.factor; }

}  // namespace eavewright
