// SPDX-License-Identifier: BSL-1.0
#pragma once

// Judges a plan of pulls without its maker: from the frame and the plan alone, by distances between places.
//
// That the way is the least one that the straps make is shown by the tensions: at every point they balance what it
// resists, its own way. That no other straps would do better is not judged here.

#include <eavewright/fault.hpp>
#include <eavewright/squaring/coordinates.hpp>
#include <eavewright/squaring/pulls.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace eavewright {

/// How exact a plan must be to be accepted, in inches.
inline constexpr Length pull_check_tolerance = Length::from_inches(1e-6);

namespace squaring_detail {

template <MeasuredPlace Place>
class PullCheck {
public:
    PullCheck(const PullFrame<Place>& frame, const PullPlan<Place>& plan) : frame_{frame}, plan_{plan} {}

    [[nodiscard]] Faults faults() {
        if (!check_sizes()) {
            return faults_;
        }
        check_moves();
        check_members();
        check_straps();
        check_balance();
        check_conditions();
        check_steps();
        check_verdict();
        return faults_;
    }

private:
    void refuse(const std::string& path, const std::string& given, std::string_view required) {
        faults_.push_back(Fault{FaultCode::contradiction, path, given, std::string{required}});
    }
    /// NaN is not alike.
    void require_alike(Length given, Length required, const std::string& path, std::string_view what) {
        if (!(magnitude(given - required) <= pull_check_tolerance)) {
            refuse(path, describe_length(given), std::string{what} + ", " + describe_length(required));
        }
    }
    void require_at_most(Length given, Length most, const std::string& path, std::string_view what) {
        if (!(given <= most + pull_check_tolerance)) {
            refuse(path, describe_length(given), std::string{what} + ", " + describe_length(most));
        }
    }
    [[nodiscard]] static std::string at(std::string_view list, std::size_t i, std::string_view field) {
        return std::string{list} + "[" + std::to_string(i) + "]." + std::string{field};
    }
    [[nodiscard]] Length now(std::size_t a, std::size_t b) const {
        return distance_between(frame_.points[a].about, frame_.points[b].about);
    }
    [[nodiscard]] Length after(std::size_t a, std::size_t b) const {
        return distance_between(plan_.moves[a].to, plan_.moves[b].to);
    }

    [[nodiscard]] bool check_sizes() {
        const auto require = [&](std::size_t given, std::size_t required, const std::string& path) {
            if (given != required) {
                faults_.push_back(Fault{FaultCode::does_not_fit, path, std::to_string(given),
                                        std::to_string(required) + ", as the frame has"});
            }
        };
        require(plan_.moves.size(), frame_.points.size(), "moves");
        require(plan_.straps.size(), frame_.straps.size(), "straps");
        require(plan_.member_tensions.size(), frame_.members.size(), "member_tensions");
        require(plan_.conditions.size(), frame_.conditions.size(), "conditions");
        std::size_t tightened = 0;
        for (const PulledStrap& each : plan_.straps) {
            tightened += each.tightened ? 1 : 0;
        }
        require(plan_.straps_tightened, tightened, "straps_tightened");
        require(plan_.steps.size(), tightened, "steps");
        for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
            require(plan_.steps[i].straps.size(), frame_.straps.size(), at("steps", i, "straps"));
            require(plan_.steps[i].conditions.size(), frame_.conditions.size(), at("steps", i, "conditions"));
            if (plan_.steps[i].strap >= frame_.straps.size()) {
                refuse(at("steps", i, "strap"), std::to_string(plan_.steps[i].strap), "a strap of the frame");
            }
        }
        return faults_.empty();
    }

    void check_moves() {
        double squares = 0.0;
        Length longest = no_length;
        for (std::size_t p = 0; p < plan_.moves.size(); ++p) {
            const PulledPoint<Place>& move = plan_.moves[p];
            const MarkedPoint<Place>& point = frame_.points[p];
            const Length gone = distance_between(point.about, move.to);
            require_at_most(distance_between(point.about, move.from), no_length, at("moves", p, "from"),
                            "where it was found");
            require_alike(move.distance, gone, at("moves", p, "distance"), "its way");
            if (frame_.most_movement) {
                require_at_most(gone, *frame_.most_movement, at("moves", p, "to"), "as far as a point may go");
            }
            if (std::holds_alternative<Held>(point.freedom)) {
                require_at_most(gone, no_length, at("moves", p, "to"), "held where it was found");
            }
            if (const auto* along = std::get_if<FreeAlong<Place>>(&point.freedom)) {
                require_at_most(off_its_line(point.about, move.to, along->direction), no_length, at("moves", p, "to"),
                                "on the line it is free along");
            }
            squares += inches(gone) * inches(gone);
            longest = longer(longest, gone);
        }
        require_alike(plan_.total_movement, one_inch * std::sqrt(squares), "total_movement", "of all ways");
        require_alike(plan_.largest_movement, longest, "largest_movement", "the longest way");
    }
    [[nodiscard]] static Length off_its_line(const Place& from, const Place& to, const Place& direction) {
        const auto start = numbers_of(from);
        const auto way = step_between({}, numbers_of(direction)).direction;
        auto gone = numbers_of(to);
        double along = 0.0;
        for (std::size_t i = 0; i < gone.size(); ++i) {
            gone[i] -= start[i];
            along += gone[i] * way[i];
        }
        double squares = 0.0;
        for (std::size_t i = 0; i < gone.size(); ++i) {
            squares += (gone[i] - along * way[i]) * (gone[i] - along * way[i]);
        }
        return one_inch * std::sqrt(squares);
    }

    void check_members() {
        for (std::size_t m = 0; m < frame_.members.size(); ++m) {
            const PullMember& each = frame_.members[m];
            require_alike(after(each.from, each.to), now(each.from, each.to), "members[" + std::to_string(m) + "]",
                          "the length that a member keeps");
        }
    }

    void check_straps() {
        for (std::size_t s = 0; s < frame_.straps.size(); ++s) {
            const PullStrap& strap = frame_.straps[s];
            const PulledStrap& pulled = plan_.straps[s];
            require_alike(pulled.now, now(strap.from, strap.to), at("straps", s, "now"), "as found");
            require_alike(pulled.after, after(strap.from, strap.to), at("straps", s, "after"), "between its ends");
            require_alike(pulled.change, after(strap.from, strap.to) - now(strap.from, strap.to),
                          at("straps", s, "change"), "after less now");
            if (!(pulled.tension >= no_length)) {
                refuse(at("straps", s, "tension"), describe_length(pulled.tension), "a pull: straps do not push");
            }
            if (!pulled.tightened) {
                require_at_most(pulled.tension, no_length, at("straps", s, "tension"), "none where nobody pulls");
                continue;
            }
            require_at_most(pulled.change, no_length, at("straps", s, "change"), "shorter, where it is tightened");
            if (strap.most_shortening) {
                require_at_most(-pulled.change, *strap.most_shortening, at("straps", s, "change"),
                                "as much as it may shorten");
            }
        }
    }

    /// The way of each point against what members and straps do to it there.
    void check_balance() {
        constexpr std::size_t dimension = coordinate_count<Place>;
        std::vector<Numbers<Place>> pull(frame_.points.size(), Numbers<Place>{});
        const auto add = [&](std::size_t from, std::size_t to, Length tension) {
            const auto way = step_between(numbers_of(plan_.moves[from].to), numbers_of(plan_.moves[to].to)).direction;
            for (std::size_t i = 0; i < dimension; ++i) {
                pull[from][i] += inches(tension) * way[i];
                pull[to][i] -= inches(tension) * way[i];
            }
        };
        for (std::size_t m = 0; m < frame_.members.size(); ++m) {
            add(frame_.members[m].from, frame_.members[m].to, plan_.member_tensions[m]);
        }
        for (std::size_t s = 0; s < frame_.straps.size(); ++s) {
            add(frame_.straps[s].from, frame_.straps[s].to, plan_.straps[s].tension);
        }
        for (std::size_t p = 0; p < frame_.points.size(); ++p) {
            require_alike(unbalanced(p, pull[p]), no_length, at("moves", p, "to"),
                          "the way that the tensions there make");
        }
    }
    [[nodiscard]] Length unbalanced(std::size_t p, Numbers<Place> rest) const {
        if (std::holds_alternative<Held>(frame_.points[p].freedom)) {
            return no_length;
        }
        const auto from = numbers_of(frame_.points[p].about);
        const auto to = numbers_of(plan_.moves[p].to);
        double along = 0.0;
        double squares = 0.0;
        const auto* line = std::get_if<FreeAlong<Place>>(&frame_.points[p].freedom);
        const auto way = line == nullptr ? Numbers<Place>{} : step_between({}, numbers_of(line->direction)).direction;
        for (std::size_t i = 0; i < rest.size(); ++i) {
            rest[i] -= to[i] - from[i];
            along += rest[i] * way[i];
            squares += rest[i] * rest[i];
        }
        return one_inch * (line == nullptr ? std::sqrt(squares) : along);
    }

    [[nodiscard]] Length misfit(const PullCondition& condition, bool moved) const {
        const auto length = [&](std::size_t a, std::size_t b) { return moved ? after(a, b) : now(a, b); };
        if (const auto* equal = std::get_if<EqualDistances>(&condition)) {
            return length(equal->a, equal->b) - length(equal->c, equal->d);
        }
        if (const auto* wanted = std::get_if<WantedDistance>(&condition)) {
            return length(wanted->a, wanted->b) - wanted->target;
        }
        const OnLine& line = std::get<OnLine>(condition);
        const auto place = [&](std::size_t p) {
            return numbers_of(moved ? plan_.moves[p].to : frame_.points[p].about);
        };
        const auto from = place(line.line_from);
        const auto to = place(line.line_to);
        const auto here = place(line.point);
        const double dx = to[0] - from[0];
        const double dy = to[1] - from[1];
        // Twice the area of the triangle over its base.
        return one_inch * ((dx * (here[1] - from[1]) - dy * (here[0] - from[0])) /
                           inches(hypotenuse(one_inch * dx, one_inch * dy)));
    }

    void check_conditions() {
        for (std::size_t c = 0; c < frame_.conditions.size(); ++c) {
            const PulledCondition& claimed = plan_.conditions[c];
            const Length tolerance = std::visit([](const auto& each) { return each.tolerance; }, frame_.conditions[c]);
            require_alike(claimed.now.misfit, misfit(frame_.conditions[c], false), at("conditions", c, "now"),
                          "as found");
            require_alike(claimed.after.misfit, misfit(frame_.conditions[c], true), at("conditions", c, "after"),
                          "between the moved points");
            require_alike(claimed.tolerance, tolerance, at("conditions", c, "tolerance"), "as the frame has it");
            const Length left = magnitude(misfit(frame_.conditions[c], true));
            if (claimed.met ? left > tolerance + pull_check_tolerance : left < tolerance - pull_check_tolerance) {
                refuse(at("conditions", c, "met"), claimed.met ? "true" : "false",
                       "what the moved points show, " + describe_length(left));
            }
            if (claimed.met != (claimed.obstacle == PullObstacle::none)) {
                refuse(at("conditions", c, "obstacle"), std::string{name_of(claimed.obstacle)},
                       "one where the condition is not met, and only there");
            }
        }
    }

    /// Each tightened strap once, by its change; whatever would stop a step is let out before it; the last step leaves
    /// what the plan promises.
    void check_steps() {
        std::vector<Length> out;
        for (const PulledStrap& each : plan_.straps) {
            out.push_back(each.now);
        }
        std::vector<bool> done(frame_.straps.size(), false);
        for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
            const PullStep& step = plan_.steps[i];
            const PulledStrap& strap = plan_.straps[step.strap];
            if (done[step.strap] || !strap.tightened) {
                refuse(at("steps", i, "strap"), step.name, "each tightened strap once");
            }
            done[step.strap] = true;
            require_alike(step.tighten_by, -strap.change, at("steps", i, "tighten_by"), "the change of the strap");
            require_alike(step.target, strap.after, at("steps", i, "target"), "the strap after the pulls");
            require_at_most(magnitude(step.tighten_by_ticks - step.tighten_by), frame_.tick.step() / 2.0,
                            at("steps", i, "tighten_by_ticks"), "half a tick off");
            require_alike(step.straps[step.strap], step.target, at("steps", i, "straps"), "the target of this step");
            for (const Slackening& each : step.slacken_first) {
                if (each.strap >= out.size() || !(each.by_ticks >= each.by - count_tolerance - pull_check_tolerance)) {
                    refuse(at("steps", i, "slacken_first"), each.name,
                           "a strap of the frame, by a whole tick at least");
                    continue;
                }
                out[each.strap] = out[each.strap] + each.by;
            }
            out[step.strap] = step.target;
            for (std::size_t s = 0; s < out.size(); ++s) {
                require_at_most(step.straps[s], out[s] + pull_check_tolerance, at("steps", i, "slacken_first"),
                                "let out far enough of " + frame_.straps[s].name);
            }
        }
        if (!plan_.steps.empty()) {
            const PullStep& last = plan_.steps.back();
            for (std::size_t s = 0; s < out.size(); ++s) {
                require_alike(last.straps[s], plan_.straps[s].after, at("steps", plan_.steps.size() - 1, "straps"),
                              "the strap after the pulls");
            }
            for (std::size_t c = 0; c < plan_.conditions.size(); ++c) {
                require_alike(last.conditions[c].misfit, plan_.conditions[c].after.misfit,
                              at("steps", plan_.steps.size() - 1, "conditions"), "the condition after the pulls");
            }
        }
    }

    void check_verdict() {
        bool met = true;
        for (const PulledCondition& each : plan_.conditions) {
            met = met && each.met;
        }
        const bool claimed = plan_.verdict != PullVerdict::not_pullable;
        const bool still = plan_.verdict != PullVerdict::already_true || plan_.straps_tightened == 0;
        if (met != claimed || !still) {
            refuse("verdict", std::string{name_of(plan_.verdict)},
                   "what the conditions and pulls of the plan amount to");
        }
        for (const double chance :
             {plan_.chance_within, plan_.chance_exact_pulls, plan_.chance_exact_points, plan_.chance_pulled_to_read}) {
            if (!(chance >= 0.0 && chance <= 1.0)) {
                refuse("chance_within", write_decimal(chance, 6), "a probability");
            }
        }
    }

    const PullFrame<Place>& frame_;
    const PullPlan<Place>& plan_;
    Faults faults_;
};

}  // namespace squaring_detail

/// Empty where the plan is what it claims to be: members keep their lengths, straps pull and do not push, their changes
/// and the conditions are those of the moved points, nothing goes further than it may, and the steps lead there. Each
/// fault names the first thing that is not so: contradiction, or does_not_fit for a plan of another frame. Throws as
/// `find_faults` of a PullFrame.
template <MeasuredPlace Place>
[[nodiscard]] Faults find_faults_of_pull_plan(const PullFrame<Place>& frame, const PullPlan<Place>& plan) {
    require_sound(frame, "frame");
    return squaring_detail::PullCheck<Place>{frame, plan}.faults();
}

}  // namespace eavewright
