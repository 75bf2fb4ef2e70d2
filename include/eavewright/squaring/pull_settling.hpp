// SPDX-License-Identifier: BSL-1.0
#pragma once

// Where given straps leave a frame.
//
// Members take their lengths off what the points may do; what is left are the ways the frame gives. Points resist
// alike, so that straps of some lengths leave the frame where its points have gone least (the root of the sum of squares
// of their ways): the way is then made of pulls of the straps, each with its tension, and none may be negative. For one
// set of straps the largest misfit, as a share of its tolerance, is made least, then the next, then the movement; to
// first order that is a least step within half-spaces, and repeating it from where it led makes it exact.

#include <eavewright/squaring/least_step.hpp>
#include <eavewright/squaring/pull_figure.hpp>
#include <eavewright/squaring/row_basis.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright::squaring_detail {

/// How exactly members keep their lengths and plans repeat, in inches.
inline constexpr double pull_closing = 1e-9;
/// Less than this of a direction is left by rounding alone.
inline constexpr double no_direction = 1e-7;

/// A strap must come shorter by this share of the way that it makes: with less it would lock before it pulls.
inline constexpr double least_hold = 1e-3;
/// Straps whose ways differ by less, a bit over half a degree, or are opposite to that, are no two straps: they would
/// only strain against each other.
inline constexpr double least_turn = 1e-2;

/// What a set of straps is held to.
struct PullRules {
    bool may_push = false;
    bool strap_limits = true;
    bool movement_limit = true;
};

/// Where a set of straps brings the frame.
struct Pulled {
    std::vector<std::size_t> straps;
    Row way;                     ///< of the unknowns
    double movement;             ///< its length
    std::vector<double> shares;  ///< of the conditions that were asked for, |misfit| over tolerance, largest first
    [[nodiscard]] bool within() const { return shares.empty() || shares[0] <= 1.0; }
};

/// A frame at one position, to first order, once the members have their lengths.
struct Linearised {
    Row members_way;          ///< the least way to the members' lengths
    std::vector<Row> straps;  ///< lengthening by the ways that the members leave
    Row strap_changes;
    std::vector<Row> conditions;
    Row misfits;
};

template <MeasuredPlace Place>
class PullSettling {
public:
    using Choice = std::vector<std::size_t>;

    explicit PullSettling(const PullFrame<Place>& frame) : figure_{frame}, first_{} {
        double shortest = inches(longest_reading);
        for (const PullMember& each : frame.members) {
            member_lengths_.push_back(figure_.distance(figure_.found(), each.from, each.to));
            shortest = member_lengths_.back() < shortest ? member_lengths_.back() : shortest;
        }
        for (const PullStrap& each : frame.straps) {
            strap_lengths_.push_back(figure_.distance(figure_.found(), each.from, each.to));
            shortest = strap_lengths_.back() < shortest ? strap_lengths_.back() : shortest;
        }
        longest_step_ = shortest / 8.0;
        double furthest = 0.0;
        for (const double each : figure_.found()) {
            furthest = std::fabs(each) > furthest ? std::fabs(each) : furthest;
        }
        closing_step_ = pull_closing + 1e-14 * furthest;
        first_ = linearised(Row(figure_.unknowns(), 0.0));
    }

    [[nodiscard]] const PullFigure<Place>& figure() const { return figure_; }
    [[nodiscard]] const Linearised& as_found() const { return first_; }
    [[nodiscard]] double strap_length(std::size_t s) const { return strap_lengths_[s]; }

    /// Nobody pulls.
    [[nodiscard]] Pulled left_alone(const Choice& conditions) const {
        Pulled here{{}, Row(figure_.unknowns(), 0.0), 0.0, {}};
        here.shares = shares_at(here.way, conditions);
        return here;
    }

    /// The best that these straps can do for these conditions; nothing where the straps depend on one another or no
    /// position was found.
    [[nodiscard]] std::optional<Pulled> pulled_by(const Choice& straps, const Choice& conditions,
                                                  const PullRules& rules) const {
        Row way(figure_.unknowns(), 0.0);
        std::vector<Row> cuts;
        for (int round = 0; round < 80; ++round) {
            const std::optional<Linearised> again =
                round == 0 ? std::nullopt : std::optional<Linearised>{linearised(way)};
            const Linearised& here = again ? *again : first_;
            RowBasis basis{figure_.unknowns(), least_hold, least_turn};
            for (const std::size_t s : straps) {
                if (!basis.add(here.straps[s])) {
                    return std::nullopt;
                }
            }
            const std::optional<Row> pull = best_pull(here, basis, straps, conditions, cuts, rules);
            if (!pull) {
                return std::nullopt;
            }
            Row next = here.members_way;
            for (std::size_t i = 0; i < basis.size(); ++i) {
                add_times(next.data(), (*pull)[i], basis.unit(i), next.size());
            }
            const bool cut = rules.movement_limit && cut_off(next, cuts);
            const double stepped = approach(way, next);
            if (stepped <= closing_step_ && !cut) {
                return closed(straps, conditions, way);
            }
        }
        return std::nullopt;
    }

    /// Members and these straps at given lengths, and otherwise the least way from `start`.
    [[nodiscard]] std::optional<Row> held_at(const Choice& straps, const Row& lengths, const Row& start) const {
        Row way = start;
        for (int round = 0; round < 80; ++round) {
            const Row x = figure_.at(way);
            RowBasis basis{figure_.unknowns(), no_direction};
            Row next = start;
            const auto keep = [&](std::size_t from, std::size_t to, double length) {
                const Row row = figure_.distance_row_of_unknowns(x, from, to);
                const double ask = dot(row, way) + length - figure_.distance(x, from, to);
                reach(basis, row, ask, next);
            };
            for (std::size_t m = 0; m < member_lengths_.size(); ++m) {
                keep(figure_.frame().members[m].from, figure_.frame().members[m].to, member_lengths_[m]);
            }
            for (std::size_t i = 0; i < straps.size(); ++i) {
                const PullStrap& strap = figure_.frame().straps[straps[i]];
                keep(strap.from, strap.to, lengths[i]);
            }
            if (approach(way, next) <= closing_step_) {
                return way;
            }
        }
        return std::nullopt;
    }

    /// As many straps as there are independent ones, the first of them.
    [[nodiscard]] Choice independent_straps() const {
        RowBasis basis{figure_.unknowns(), least_hold, least_turn};
        Choice straps;
        for (std::size_t s = 0; s < first_.straps.size(); ++s) {
            if (basis.add(first_.straps[s])) {
                straps.push_back(s);
            }
        }
        return straps;
    }

private:
    /// Adds to `way` what brings `row` . way to `ask`, square to all rows before; nothing for a dependent row.
    static void reach(RowBasis& basis, const Row& row, double ask, Row& way) {
        if (basis.add(row)) {
            const std::size_t last = basis.size() - 1;
            add_times(way.data(), (ask - dot(row, way)) / basis.parts(last)[last], basis.unit(last), way.size());
        }
    }

    /// Goes to `next`, or part of the way where that is far; how far was asked.
    [[nodiscard]] double approach(Row& way, const Row& next) const {
        double asked = 0.0;
        for (std::size_t i = 0; i < way.size(); ++i) {
            asked = std::fabs(next[i] - way[i]) > asked ? std::fabs(next[i] - way[i]) : asked;
        }
        const double share = asked > longest_step_ ? longest_step_ / asked : 1.0;
        for (std::size_t i = 0; i < way.size(); ++i) {
            way[i] += share * (next[i] - way[i]);
        }
        return asked;
    }

    [[nodiscard]] Linearised linearised(const Row& way) const {
        const PullFrame<Place>& frame = figure_.frame();
        const Row x = figure_.at(way);
        Linearised here{Row(way.size(), 0.0), {}, {}, {}, {}};
        RowBasis members{way.size(), no_direction};
        for (std::size_t m = 0; m < member_lengths_.size(); ++m) {
            const PullMember& each = frame.members[m];
            const Row row = figure_.distance_row_of_unknowns(x, each.from, each.to);
            const double off = member_lengths_[m] - figure_.distance(x, each.from, each.to);
            reach(members, row, dot(row, way) + off, here.members_way);
        }
        Row onto = here.members_way;
        add_times(onto, -1.0, way);
        for (std::size_t s = 0; s < strap_lengths_.size(); ++s) {
            const PullStrap& each = frame.straps[s];
            const Row row = figure_.distance_row_of_unknowns(x, each.from, each.to);
            here.strap_changes.push_back(figure_.distance(x, each.from, each.to) - strap_lengths_[s] + dot(row, onto));
            here.straps.push_back(members.remainder(row));
        }
        for (const PullCondition& each : frame.conditions) {
            const Row row = figure_.of_unknowns(figure_.misfit_row(x, each));
            here.misfits.push_back(figure_.misfit(x, each) + dot(row, onto));
            here.conditions.push_back(members.remainder(row));
        }
        return here;
    }

    /// Bounds that no pull may break, over the coordinates of the straps' span and one number more.
    [[nodiscard]] std::vector<HalfSpace> hard_bounds(const Linearised& here, const RowBasis& basis,
                                                     const Choice& straps, const std::vector<Row>& cuts,
                                                     const PullRules& rules) const {
        const std::size_t size = basis.size();
        std::vector<HalfSpace> sides;
        std::vector<Row> tensions(size, Row(size + 1, 0.0));
        for (std::size_t i = 0; i < size; ++i) {
            Row one(size, 0.0);
            one[i] = -1.0;
            const Row factors = basis.factors(one);
            for (std::size_t t = 0; t < size; ++t) {
                tensions[t][i] = factors[t];
            }
        }
        for (std::size_t t = 0; t < size; ++t) {
            Row lengthening = basis.parts(t);
            lengthening.resize(size + 1, 0.0);
            if (const auto& most = figure_.frame().straps[straps[t]].most_shortening; rules.strap_limits && most) {
                sides.push_back(HalfSpace{lengthening, -inches(*most) - here.strap_changes[straps[t]]});
            }
            if (!rules.may_push) {
                for (double& each : lengthening) {
                    each = -each;
                }
                sides.push_back(HalfSpace{lengthening, here.strap_changes[straps[t]]});
                sides.push_back(HalfSpace{tensions[t], 0.0});
            }
        }
        for (const Row& cut : cuts) {
            Row row = basis.coordinates(cut);
            for (double& each : row) {
                each = -each;
            }
            row.push_back(0.0);
            sides.push_back(HalfSpace{row, dot(cut, here.members_way) - inches(*figure_.frame().most_movement)});
        }
        return sides;
    }

    /// Least misfits one after the other: those that cannot come closer are held there, and the others go on.
    [[nodiscard]] std::optional<Row> best_pull(const Linearised& here, const RowBasis& basis, const Choice& straps,
                                               const Choice& conditions, const std::vector<Row>& cuts,
                                               const PullRules& rules) const {
        const std::vector<HalfSpace> hard = hard_bounds(here, basis, straps, cuts, rules);
        double widest = 0.0;
        for (const std::size_t c : conditions) {
            const double tolerance = tolerance_of(figure_.frame().conditions[c]);
            widest = tolerance > widest ? tolerance : widest;
        }
        Row weights;
        std::vector<Row> rows;
        for (const std::size_t c : conditions) {
            // The last number is the common share, so slight that it yields before the frame need move.
            weights.push_back(1e-5 * tolerance_of(figure_.frame().conditions[c]) / widest);
            rows.push_back(basis.coordinates(here.conditions[c]));
        }
        std::vector<std::optional<double>> held(conditions.size());
        std::optional<Row> pull;
        for (std::size_t round = 0; round <= conditions.size(); ++round) {
            std::vector<HalfSpace> sides = hard;
            for (std::size_t i = 0; i < conditions.size(); ++i) {
                for (const double sign : {-1.0, 1.0}) {
                    sides.push_back(HalfSpace{Row(basis.size() + 1, held[i] ? 0.0 : weights[i]),
                                              -sign * here.misfits[conditions[i]] - held[i].value_or(0.0)});
                    for (std::size_t k = 0; k < basis.size(); ++k) {
                        sides.back().row[k] = sign * rows[i][k];
                    }
                }
            }
            const LeastStep step = least_step(basis.size() + 1, sides);
            if (!step.found) {
                break;
            }
            pull = step.step;
            if (!hold_those_that_press(step, hard.size(), weights, held)) {
                break;
            }
        }
        return pull;
    }

    /// Conditions that share in what the common share is held up by; one that merely waits for it, since moving costs,
    /// presses far less. False where nothing is left to be done.
    [[nodiscard]] static bool hold_those_that_press(const LeastStep& step, std::size_t first, const Row& weights,
                                                    std::vector<std::optional<double>>& held) {
        const double common = step.step[step.step.size() - 1];
        bool more = false;
        for (std::size_t i = 0; i < held.size(); ++i) {
            const double pressure = step.pressure[first + 2 * i] + step.pressure[first + 2 * i + 1];
            const bool presses = pressure * weights[i] > 1e-4 * common;
            if (!held[i] && presses && common * weights[i] > 10.0 * pull_closing) {
                held[i] = common * weights[i] + 0.1 * pull_closing;
                more = true;
            }
        }
        return more;
    }

    /// Adds a bound for every point that goes too far; true where there is a new one.
    [[nodiscard]] bool cut_off(const Row& way, std::vector<Row>& cuts) const {
        bool added = false;
        for (std::size_t p = 0; figure_.frame().most_movement && p < figure_.frame().points.size(); ++p) {
            const Row along = figure_.along_way_of(p, way);
            if (dot(along, way) > inches(*figure_.frame().most_movement) + pull_closing) {
                cuts.push_back(along);
                added = true;
            }
        }
        return added;
    }

    [[nodiscard]] std::vector<double> shares_at(const Row& way, const Choice& conditions) const {
        const Row x = figure_.at(way);
        std::vector<double> shares;
        for (const std::size_t c : conditions) {
            const PullCondition& each = figure_.frame().conditions[c];
            shares.push_back(std::fabs(figure_.misfit(x, each)) / tolerance_of(each));
        }
        std::sort(shares.begin(), shares.end(), [](double a, double b) { return a > b; });
        return shares;
    }

    [[nodiscard]] std::optional<Pulled> closed(const Choice& straps, const Choice& conditions, const Row& way) const {
        const Row x = figure_.at(way);
        for (std::size_t m = 0; m < member_lengths_.size(); ++m) {
            const PullMember& each = figure_.frame().members[m];
            if (!(std::fabs(figure_.distance(x, each.from, each.to) - member_lengths_[m]) <= closing_step_)) {
                return std::nullopt;  // members that lock only once they are moved
            }
        }
        return Pulled{straps, way, norm(way), shares_at(way, conditions)};
    }

    PullFigure<Place> figure_;
    Row member_lengths_;
    Row strap_lengths_;
    double longest_step_;
    double closing_step_;
    Linearised first_;
};

}  // namespace eavewright::squaring_detail
