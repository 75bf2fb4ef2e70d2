// SPDX-License-Identifier: BSL-1.0
#pragma once

// A bound on sticks or their cost that can be checked: a weight for each length, such that no stick can hold more
// weight than it counts. All pieces then weigh no more than all sticks.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// What a way of cutting is to have little of.
enum class CutGoal {
    fewest_sticks,  ///< lengths of stock cut, from hand and bought
    fewest_bought,  ///< lengths bought; those on hand count nothing
    least_cost,     ///< cost of those bought, in hundredths
};
template <>
struct NamesOf<CutGoal> {
    static constexpr std::array<std::string_view, 3> list{"fewest_sticks", "fewest_bought", "least_cost"};
};

/// What all pieces of one length weigh, each.
struct CutWeight {
    Length length;
    std::int64_t weight;
};
template <>
struct FieldsOf<CutWeight> {
    static constexpr auto list =
        field_list(field("length", FieldUnit::length, "of the pieces", &CutWeight::length),
                   field("weight", FieldUnit::count, "of each of them, in the bound's units", &CutWeight::weight));
};

/// No way of cutting has less than `value`. `find_faults_of_bound` accepts or rejects it on its own: what is cut from
/// one stick weighs no more than `unit` times what the stick counts, and for a stick on hand its price; so all pieces
/// weigh no more than all sticks do, and `value` is that weight in whole ones, the prices of all that is on hand taken
/// off.
struct CutBound {
    CutGoal goal;
    Length step;                     ///< lengths are whole numbers of it, pieces rounded down and stock up
    std::int64_t unit;               ///< weight of one stick, or of one hundredth
    std::vector<CutWeight> weights;  ///< of each length that is cut, longest first
    std::vector<std::int64_t>
        hand_prices;     ///< weight that one stick on hand may hold beyond its count, of each stock length
    std::int64_t value;  ///< sticks, or hundredths
};
template <>
struct FieldsOf<CutBound> {
    static constexpr auto list =
        field_list(field("goal", FieldUnit::none, "what there is to be little of", &CutBound::goal),
                   field("step", FieldUnit::length, "lengths are whole numbers of it, pieces rounded down, stock up",
                         &CutBound::step),
                   field("unit", FieldUnit::count, "weight of one stick, or of one hundredth", &CutBound::unit),
                   field("weights", FieldUnit::none, "of each length that is cut, longest first", &CutBound::weights),
                   field("hand_prices", FieldUnit::count, "weight that a stick on hand may hold beyond its count",
                         &CutBound::hand_prices),
                   field("value", FieldUnit::count, "sticks, or hundredths", &CutBound::value));
};

/// What one stick counts for a goal.
[[nodiscard]] constexpr std::int64_t counts_for(CutGoal goal, const StockLength& stock, bool on_hand) {
    if (on_hand) {
        return goal == CutGoal::fewest_sticks ? 1 : 0;
    }
    return goal == CutGoal::least_cost ? stock.cost.value_or(no_money).hundredths() : 1;
}

/// What a cut list counts for a goal.
[[nodiscard]] inline std::int64_t counts_for(CutGoal goal, const StockPlan& plan, const CutList& list) {
    std::int64_t all = 0;
    for (const CutBar& bar : list.bars) {
        all += counts_for(goal, plan.stock[bar.stock], bar.on_hand);
    }
    return all;
}

/// Costs are needed for all that is for sale where the least cost is asked for.
inline void find_faults_of_goal(CutGoal goal, const StockPlan& plan, const Path& path, Faults& faults) {
    const Path list{path, "stock"};
    for (std::size_t i = 0; goal == CutGoal::least_cost && i < plan.stock.size(); ++i) {
        if (plan.stock[i].for_sale && !plan.stock[i].cost) {
            const Path at{list, i};
            faults.push_back(Fault{FaultCode::missing_field, Path{at, "cost"}.text(), "", "the cost of one"});
        }
    }
}

namespace detail {
/// Lengths this close are one length.
inline constexpr Length same_length = Length::from_inches(1e-9);
/// Finest step of a bound: what `count_tolerance` allows a bar, and what rounding makes of 20,000 lengths, stay below
/// it.
inline constexpr Length finest_cut_step = Length::from_inches(1.0 / 4096.0);
/// Most that the weights of a bound may sum to.
inline constexpr double most_cut_weight = 4e18;

/// How many steps a piece and its kerf take at least.
[[nodiscard]] inline std::int64_t least_steps(Length piece, Length step) {
    const double steps = piece / step;
    const double nearest = std::round(steps);
    const bool is_on = magnitude(piece - step * nearest) <= same_length;
    return static_cast<std::int64_t>(is_on ? nearest : std::floor(steps));
}
/// How many steps may be cut from a stick at most, the kerf that its last piece does not need added.
[[nodiscard]] inline std::int64_t most_steps_of(const StockPlan& plan, Length stock, Length step) {
    const Length most = usable_length(plan, stock) + plan.kerf + count_tolerance +
                        same_length * 2.0 * static_cast<double>(most_cut_pieces);
    return static_cast<std::int64_t>(std::floor(most / step));
}

/// A kind of piece as a stick sees it.
struct WeighedKind {
    std::int64_t size;  ///< in steps, with kerf
    std::int64_t weight;
    std::int64_t count;
};
/// A filling that no other outweighs in less room.
struct Filling {
    std::int64_t size;
    std::int64_t weight;
};

/// Adds one more piece of a kind to what may be filled.
inline void add_copy(const std::vector<Filling>& best, const WeighedKind& kind, std::int64_t room,
                     std::vector<Filling>& merged) {
    merged.clear();
    const auto take = [&](Filling next) {
        if (next.size > room || (!merged.empty() && next.weight <= merged.back().weight)) {
            return;
        }
        if (!merged.empty() && merged.back().size == next.size) {
            merged.back() = next;
        } else {
            merged.push_back(next);
        }
    };
    std::size_t without = 0;
    for (const Filling& filling : best) {
        const Filling with{filling.size + kind.size, filling.weight + kind.weight};
        while (without < best.size() && best[without].size <= with.size) {
            take(best[without++]);
        }
        take(with);
    }
}

/// All fillings up to `room` that no other outweighs in as little room, least first. None where they take more than
/// `work`.
[[nodiscard]] inline std::vector<Filling> best_fillings(const std::vector<WeighedKind>& kinds, std::int64_t room,
                                                        std::int64_t work) {
    std::vector<Filling> best{{0, 0}};
    std::vector<Filling> merged;
    for (const WeighedKind& kind : kinds) {
        const std::int64_t fit = kind.weight > 0 && kind.size > 0 ? room / kind.size : 0;
        for (std::int64_t copy = 0; copy < fit && copy < kind.count; ++copy) {
            add_copy(best, kind, room, merged);
            best.swap(merged);
            work -= static_cast<std::int64_t>(best.size());
            if (work < 0) {
                return {};
            }
        }
    }
    return best;
}
[[nodiscard]] inline std::int64_t weight_within(const std::vector<Filling>& best, std::int64_t room) {
    const auto above =
        std::upper_bound(best.begin(), best.end(), room, [](std::int64_t r, const Filling& f) { return r < f.size; });
    return above == best.begin() ? 0 : (above - 1)->weight;
}
/// Fillings that a judge lists, about a second's worth, and those that a maker of bounds lets it come to.
inline constexpr std::int64_t most_fillings = 400'000'000;
inline constexpr std::int64_t most_fillings_made = 20'000'000;

/// Stock lengths that may be taken, from hand or bought.
[[nodiscard]] inline bool may_take(const StockLength& stock, bool on_hand) {
    return on_hand ? stock.on_hand > 0 : stock.for_sale;
}

/// The value that weights prove: what pieces weigh more than is bought off by prices, in whole ones that sticks can sum
/// to.
[[nodiscard]] inline std::int64_t value_of_weights(const StockPlan& plan, CutGoal goal, std::int64_t unit,
                                                   std::int64_t weight) {
    std::int64_t common = 0;  // all sums of counts are multiples of it
    for (const StockLength& stock : plan.stock) {
        common = stock.for_sale ? greatest_common_divisor(common, counts_for(goal, stock, false)) : common;
        common = stock.on_hand > 0 ? greatest_common_divisor(common, counts_for(goal, stock, true)) : common;
    }
    if (weight <= 0 || common == 0) {
        return 0;
    }
    const std::int64_t whole = (weight - 1) / unit + 1;
    return ((whole - 1) / common + 1) * common;
}

/// The weights of all pieces, less the prices of all that is on hand; none where a piece has no weight or they are too
/// much.
[[nodiscard]] inline std::optional<std::int64_t> sum_weights(const std::vector<Length>& pieces, const StockPlan& plan,
                                                             const CutBound& bound, std::vector<std::int64_t>& counts) {
    counts.assign(bound.weights.size(), 0);
    double size = 0.0;
    std::int64_t sum = 0;
    for (const Length piece : pieces) {
        const auto at = std::lower_bound(bound.weights.begin(), bound.weights.end(), piece + same_length,
                                         [](const CutWeight& w, Length l) { return w.length > l; });
        if (at == bound.weights.end() || at->length < piece - same_length) {
            return std::nullopt;
        }
        ++counts[static_cast<std::size_t>(at - bound.weights.begin())];
        size += static_cast<double>(at->weight);
        sum += size < most_cut_weight ? at->weight : 0;
    }
    double off = 0.0;
    for (std::size_t i = 0; i < plan.stock.size(); ++i) {
        off += static_cast<double>(bound.hand_prices[i]) * static_cast<double>(plan.stock[i].on_hand);
        sum -= off < most_cut_weight ? bound.hand_prices[i] * plan.stock[i].on_hand : 0;
    }
    return size < most_cut_weight && off < most_cut_weight ? std::optional<std::int64_t>{sum} : std::nullopt;
}

/// The form of a bound: what must hold before its weights are looked at.
[[nodiscard]] inline bool is_formed(const StockPlan& plan, const CutBound& bound) {
    bool formed = bound.unit > 0 && bound.hand_prices.size() == plan.stock.size() && bound.step >= finest_cut_step &&
                  is_usable(bound.step) && bound.weights.size() <= most_cut_pieces;
    for (std::size_t i = 0; formed && i < bound.weights.size(); ++i) {
        const CutWeight& weight = bound.weights[i];
        formed = is_usable(weight.length) && weight.length > no_length && weight.weight >= 0 &&
                 (i == 0 || bound.weights[i - 1].length > weight.length);
    }
    return formed && std::all_of(bound.hand_prices.begin(), bound.hand_prices.end(),
                                 [](std::int64_t price) { return price >= 0; });
}

/// `weight` is no more than `count` times `unit`, asked by division since the product may not fit.
[[nodiscard]] inline bool may_hold(std::int64_t weight, std::int64_t unit, std::int64_t count) {
    return weight <= 0 || (weight - 1) / unit + 1 <= count;
}

/// What may weigh together on a stick, by its room. Kinds as they are weighed.
[[nodiscard]] inline std::vector<WeighedKind> weigh_kinds(const StockPlan& plan, const CutBound& bound,
                                                          const std::vector<std::int64_t>& counts) {
    std::vector<WeighedKind> kinds;
    for (std::size_t k = 0; k < counts.size(); ++k) {
        kinds.push_back(
            {least_steps(bound.weights[k].length + plan.kerf, bound.step), bound.weights[k].weight, counts[k]});
    }
    return kinds;
}
[[nodiscard]] inline std::int64_t longest_room(const StockPlan& plan, Length step) {
    std::int64_t room = 0;
    for (const StockLength& stock : plan.stock) {
        const bool there = may_take(stock, true) || may_take(stock, false);
        const std::int64_t steps = there ? most_steps_of(plan, stock.length, step) : 0;
        room = steps > room ? steps : room;
    }
    return room;
}
/// What is wrong with weights: a stick that may hold more than it counts, `counts` pieces of each length there to be
/// cut.
inline void judge_sticks(const StockPlan& plan, const CutBound& bound, const std::vector<std::int64_t>& counts,
                         Faults& faults) {
    const std::vector<Filling> best =
        best_fillings(weigh_kinds(plan, bound, counts), longest_room(plan, bound.step), most_fillings);
    if (best.empty()) {
        faults.push_back(Fault{FaultCode::too_much_work, "bound.step", std::to_string(counts.size()) + " lengths",
                               "longer steps or fewer lengths"});
        return;
    }
    for (std::size_t i = 0; i < plan.stock.size(); ++i) {
        const std::int64_t held = weight_within(best, most_steps_of(plan, plan.stock[i].length, bound.step));
        for (const bool on_hand : {true, false}) {
            const std::int64_t beyond = held - (on_hand ? bound.hand_prices[i] : 0);
            if (may_take(plan.stock[i], on_hand) &&
                !may_hold(beyond, bound.unit, counts_for(bound.goal, plan.stock[i], on_hand))) {
                faults.push_back(Fault{FaultCode::contradiction, "bound.weights", std::to_string(held),
                                       "no more than stock " + std::to_string(i) + " counts"});
            }
        }
    }
}
}  // namespace detail

/// Everything wrong with a bound, judged on its own from the pieces and the plan by listing what can weigh most on a
/// stick: a stick that holds more than it counts, a length without a weight, a value that the weights do not prove.
/// Empty where no way of cutting that `find_faults_of_cuts` accepts has less than `value`. Takes one pass over the
/// lengths and the room of the longest stick in steps; too_much_work where that is more than about a second's.
[[nodiscard]] inline Faults find_faults_of_bound(const std::vector<Length>& pieces, const StockPlan& plan,
                                                 const CutBound& bound) {
    Faults faults;
    const auto refuse = [&](FaultCode code, const std::string& path, std::int64_t given, const std::string& required) {
        faults.push_back(Fault{code, path, std::to_string(given), required});
    };
    find_faults_of_goal(bound.goal, plan, Path{"plan"}, faults);
    if (!detail::is_formed(plan, bound)) {
        refuse(FaultCode::out_of_range, "bound", bound.unit, "weights of lengths that descend, none below zero");
    }
    std::vector<std::int64_t> counts;
    const std::optional<std::int64_t> sum =
        faults.empty() ? detail::sum_weights(pieces, plan, bound, counts) : std::nullopt;
    if (!sum) {
        refuse(FaultCode::contradiction, "bound.weights", static_cast<std::int64_t>(bound.weights.size()),
               "a weight for every length, " + std::to_string(pieces.size()) + " pieces in all");
        return faults;
    }
    detail::judge_sticks(plan, bound, counts, faults);
    if (!faults.empty()) {
        return faults;
    }
    const std::int64_t value = detail::value_of_weights(plan, bound.goal, bound.unit, *sum);
    if (value != bound.value) {
        refuse(FaultCode::contradiction, "bound.value", bound.value, std::to_string(value) + ", as weighed");
    }
    return faults;
}

}  // namespace eavewright
