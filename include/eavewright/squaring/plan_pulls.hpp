// SPDX-License-Identifier: BSL-1.0
#pragma once

// From found points to pulls: can the frame be pulled true, what to slacken and tighten, and what comes of it.

#include <eavewright/fault.hpp>
#include <eavewright/squaring/pull_chance.hpp>
#include <eavewright/squaring/pull_search.hpp>
#include <eavewright/squaring/pulls.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright {

namespace squaring_detail {

/// Changes below this are no change: nobody pulls a millionth of an inch.
inline constexpr double no_pull = 1e-6;

template <MeasuredPlace Place>
class PullPlanner {
    using Choice = std::vector<std::size_t>;

public:
    PullPlanner(const PullFrame<Place>& frame, PullChoice choice)
        : frame_{frame}, figure_{frame}, settling_{frame}, choice_{choice} {}

    [[nodiscard]] PullPlan<Place> plan() const {
        std::vector<PullObstacle> obstacles;
        Choice hopeful;
        bool within = true;
        for (std::size_t c = 0; c < frame_.conditions.size(); ++c) {
            obstacles.push_back(outright_obstacle(c));
            if (obstacles[c] == PullObstacle::none) {
                hopeful.push_back(c);
            }
            within = within && is_met(figure_.found(), c);
        }
        const Pulled pulled = within ? settling_.left_alone({}) : best_pulled(settling_, hopeful, choice_, PullRules{});
        PullPlan<Place> plan = described(pulled);
        name_obstacles(plan, obstacles, hopeful);
        plan.verdict = within ? PullVerdict::already_true : PullVerdict::pullable;
        for (const PulledCondition& each : plan.conditions) {
            plan.verdict = each.met ? plan.verdict : PullVerdict::not_pullable;
        }
        return plan;
    }

private:
    [[nodiscard]] bool is_met(const Row& x, std::size_t c) const {
        return std::fabs(figure_.misfit(x, frame_.conditions[c])) <= tolerance_of(frame_.conditions[c]);
    }

    /// What keeps a condition that is not met now, as far as directions show; none where pulls may help.
    [[nodiscard]] PullObstacle outright_obstacle(std::size_t c) const {
        if (is_met(figure_.found(), c)) {
            return PullObstacle::none;
        }
        const Linearised& here = settling_.as_found();
        if (norm(figure_.of_unknowns(figure_.misfit_row(figure_.found(), frame_.conditions[c]))) < no_direction) {
            return PullObstacle::points_held;
        }
        if (norm(here.conditions[c]) < no_direction) {
            return PullObstacle::members_fix_it;
        }
        for (const Row& strap : here.straps) {
            if (norm(strap) > least_hold && std::fabs(dot(strap, here.conditions[c])) > no_direction) {
                return PullObstacle::none;
            }
        }
        return PullObstacle::no_strap_moves_it;
    }

    /// The first rule that stands in the way of these conditions; none where straps that could push would not do.
    [[nodiscard]] PullObstacle rule_in_the_way(const Choice& conditions) const {
        const auto pushed =
            settling_.pulled_by(settling_.independent_straps(), conditions, PullRules{true, false, false});
        if (!pushed || !pushed->within()) {
            return PullObstacle::none;
        }
        if (!best_pulled(settling_, conditions, PullChoice::fewest_straps, PullRules{false, false, false}).within()) {
            return PullObstacle::would_have_to_push;
        }
        if (!best_pulled(settling_, conditions, PullChoice::fewest_straps, PullRules{false, true, false}).within()) {
            return PullObstacle::strap_limit;
        }
        return PullObstacle::moves_too_far;
    }

    void name_obstacles(PullPlan<Place>& plan, const std::vector<PullObstacle>& outright, const Choice& hopeful) const {
        std::optional<PullObstacle> together;
        for (std::size_t c = 0; c < plan.conditions.size(); ++c) {
            PulledCondition& here = plan.conditions[c];
            here.best = magnitude(here.after.misfit);
            if (here.met) {
                continue;
            }
            here.obstacle = outright[c];
            if (here.obstacle != PullObstacle::none) {
                here.best = shorter(here.best, magnitude(here.now.misfit));
                continue;
            }
            const Pulled alone = best_pulled(settling_, {c}, PullChoice::least_movement, PullRules{});
            here.best = shorter(here.best, here.tolerance * alone.shares[0]);
            together = together ? together : rule_in_the_way(hopeful);
            here.obstacle = *together;
            if (here.obstacle == PullObstacle::none) {
                const PullObstacle own = alone.within() ? PullObstacle::conditions_contradict : rule_in_the_way({c});
                here.obstacle = own == PullObstacle::none ? PullObstacle::no_position_found : own;
            }
        }
    }

    [[nodiscard]] PullPlan<Place> described(const Pulled& pulled) const {
        const Row x = figure_.at(pulled.way);
        PullPlan<Place> plan{PullVerdict::not_pullable,
                             choice_,
                             {},
                             {},
                             {},
                             {},
                             {},
                             0,
                             one_inch * pulled.movement,
                             no_length,
                             0.0,
                             0.0,
                             0.0,
                             0.0,
                             pulling_caution};
        for (const PullCondition& each : frame_.conditions) {
            const ConditionReading after = figure_.reading(x, each);
            const Length tolerance = one_inch * tolerance_of(each);
            plan.conditions.push_back(PulledCondition{name_of_condition(each), figure_.reading(figure_.found(), each),
                                                      after, tolerance, magnitude(after.misfit) <= tolerance,
                                                      PullObstacle::none, no_length});
        }
        for (std::size_t p = 0; p < frame_.points.size(); ++p) {
            Numbers<Place> to{};
            for (std::size_t i = 0; i < to.size(); ++i) {
                to[i] = x[p * to.size() + i];
            }
            const Place place = place_of<Place>(to);
            const Length distance = distance_between(frame_.points[p].about, place);
            plan.moves.push_back(PulledPoint<Place>{frame_.points[p].name, frame_.points[p].about, place, distance});
            plan.largest_movement = longer(plan.largest_movement, distance);
        }
        add_straps(pulled, x, plan);
        add_steps(pulled, plan);
        add_chances(pulled, plan);
        return plan;
    }

    /// Changes of all straps, and the tensions that make this way: way = - sum of tension times lengthening.
    void add_straps(const Pulled& pulled, const Row& x, PullPlan<Place>& plan) const {
        for (std::size_t s = 0; s < frame_.straps.size(); ++s) {
            const PullStrap& each = frame_.straps[s];
            const Length now = one_inch * settling_.strap_length(s);
            const Length after = one_inch * figure_.distance(x, each.from, each.to);
            plan.straps.push_back(PulledStrap{each.name, now, after, after - now, false, no_length});
        }
        RowBasis basis{figure_.unknowns(), no_direction};
        std::vector<Length*> tensions;
        const auto take = [&](std::size_t from, std::size_t to, Length& tension) {
            if (basis.add(figure_.distance_row_of_unknowns(x, from, to))) {
                tensions.push_back(&tension);
            }
        };
        plan.member_tensions.assign(frame_.members.size(), no_length);
        for (std::size_t m = 0; m < frame_.members.size(); ++m) {
            take(frame_.members[m].from, frame_.members[m].to, plan.member_tensions[m]);
        }
        for (const std::size_t s : pulled.straps) {
            take(frame_.straps[s].from, frame_.straps[s].to, plan.straps[s].tension);
            plan.straps[s].tightened = true;
            ++plan.straps_tightened;
        }
        const Row factors = basis.factors(basis.coordinates(pulled.way));
        for (std::size_t i = 0; i < factors.size(); ++i) {
            *tensions[i] = one_inch * -factors[i];
        }
        for (const std::size_t s : pulled.straps) {
            plan.straps[s].tension = longer(plan.straps[s].tension, no_length);
        }
    }

    [[nodiscard]] Row strap_lengths(const Row& way) const {
        const Row x = figure_.at(way);
        Row lengths;
        for (const PullStrap& each : frame_.straps) {
            lengths.push_back(figure_.distance(x, each.from, each.to));
        }
        return lengths;
    }

    /// What has been done so far.
    struct Progress {
        Row way;
        Row let_out;  ///< how long each strap may become before it must be slackened further
        Choice done;
        Row lengths;  ///< of those done
    };

    /// The most there is to pull comes first, unless the frame has no position in between that way. Where it has none in
    /// any order, what is left is tightened together, little by little: then each step shows the end.
    void add_steps(const Pulled& pulled, PullPlan<Place>& plan) const {
        Choice left = pulled.straps;
        std::stable_sort(left.begin(), left.end(),
                         [&](std::size_t a, std::size_t b) { return plan.straps[a].change < plan.straps[b].change; });
        const Row still(figure_.unknowns(), 0.0);
        Progress here{still, strap_lengths(still), {}, {}};
        while (!left.empty()) {
            std::size_t next = 0;
            std::optional<Row> held;
            for (std::size_t i = 0; left.size() > 1 && !held && i < left.size(); ++i) {
                Choice straps = here.done;
                Row lengths = here.lengths;
                straps.push_back(left[i]);
                lengths.push_back(inches(plan.straps[left[i]].after));
                held = settling_.held_at(straps, lengths, here.way);
                next = held ? i : 0;
            }
            const std::size_t s = left[next];
            here.done.push_back(s);
            here.lengths.push_back(inches(plan.straps[s].after));
            here.way = held.value_or(pulled.way);
            left.erase(left.begin() + static_cast<std::ptrdiff_t>(next));
            plan.steps.push_back(step_to(here, s, plan));
        }
    }

    /// Tightening strap `s` brings the frame where it is now.
    [[nodiscard]] PullStep step_to(Progress& here, std::size_t s, const PullPlan<Place>& plan) const {
        const Length by = -plan.straps[s].change;
        PullStep step{s, frame_.straps[s].name, {}, by, round_to_tick(by, frame_.tick), plan.straps[s].after, {}, {}};
        const Row lengths = strap_lengths(here.way);
        for (std::size_t other = 0; other < lengths.size(); ++other) {
            const double more = lengths[other] - here.let_out[other];
            if (other != s && more > no_pull) {
                step.slacken_first.push_back(Slackening{other, frame_.straps[other].name, one_inch * more,
                                                        round_up_to_tick(one_inch * more, frame_.tick)});
                here.let_out[other] = lengths[other];
            }
            step.straps.push_back(one_inch * lengths[other]);
        }
        here.let_out[s] = inches(plan.straps[s].after);
        const Row x = figure_.at(here.way);
        for (const PullCondition& each : frame_.conditions) {
            step.conditions.push_back(figure_.reading(x, each));
        }
        return step;
    }

    void add_chances(const Pulled& pulled, PullPlan<Place>& plan) const {
        const PullSensitivity here = pull_sensitivity(figure_, pulled.straps, pulled.way);
        const Covariance* points = frame_.covariance ? &*frame_.covariance : nullptr;
        const double pull = inches(frame_.pull_deviation);
        plan.chance_exact_points = chance_of_pulls(here, pull, {}, nullptr);
        plan.chance_within = points == nullptr ? plan.chance_exact_points
                                               : chance_of_pulls(here, pull, here.of_points_by_amount, points);
        plan.chance_exact_pulls = chance_of_pulls(here, 0.0, here.of_points_by_amount, points);
        plan.chance_pulled_to_read =
            chance_of_pulls(here, inches(frame_.reading_deviation), here.of_points_by_reading, points);
    }

    const PullFrame<Place>& frame_;
    PullFigure<Place> figure_;
    PullSettling<Place> settling_;
    PullChoice choice_;
};

}  // namespace squaring_detail

/// What to slacken and tighten so that every condition comes within its tolerance, and if that cannot be, why and the
/// best that can be had. Members keep their lengths to 1e-9 in; straps only pull. Conditions are brought to no misfit
/// where the straps can, else the largest share of a tolerance is made least, then the next. Throws as `find_faults` of
/// a PullFrame; unknown_name for a choice that is none. Every independent set of straps is tried (those within half a
/// degree of pulling the same way, or against each other, are not independent), so that "fewest" and
/// "least" are so among all positions that are reached going straight there from the found one. Friction, springing
/// back and what nails still hold are not in it: read after every step, and plan the next round from new readings
/// (squaring/next_pulls.hpp). To be shown with `pulling_caution`.
template <MeasuredPlace Place>
[[nodiscard]] PullPlan<Place> plan_pulls(const PullFrame<Place>& frame, PullChoice choice) {
    require_sound(frame, "frame");
    detail::require_named(choice, "choice");
    return squaring_detail::PullPlanner<Place>{frame, choice}.plan();
}

}  // namespace eavewright
