// SPDX-License-Identifier: BSL-1.0
#pragma once

// A search for the fewest sticks or the least cost, with a bound that says how much could still be won.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/close_cuts.hpp>
#include <eavewright/order/cut_bound.hpp>
#include <eavewright/order/cut_dive.hpp>
#include <eavewright/order/cut_model.hpp>
#include <eavewright/order/cut_program.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/order/cut_tree.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// What pieces are cut from, for what, and how far it is searched.
struct CutSearchPlan {
    StockPlan stock;
    CutGoal goal = CutGoal::fewest_sticks;
    std::int64_t nodes = 100'000;  ///< sticks that may be filled and steps of the program that may be taken
};

/// How far a search has come.
struct CutProgress {
    std::int64_t nodes;
    std::int64_t value;  ///< of the best way of cutting so far; none where none is known yet
    std::int64_t bound;
};

/// A way of cutting and how good it is. `find_faults_of_found_cuts` accepts or rejects it on its own.
struct FoundCuts {
    CutList list;
    std::int64_t value;                 ///< sticks, or hundredths, as the goal of the bound counts them
    CutBound bound;                     ///< no way of cutting has less than its value
    bool proven;                        ///< the value is the bound's
    std::optional<std::int64_t> plain;  ///< value of `cut_stock`, none where first fit runs out of stock
    std::int64_t nodes;
    bool tried_all;  ///< every way of less value was tried, so that there is none; not proven by the bound alone
};
template <>
struct FieldsOf<FoundCuts> {
    static constexpr auto list =
        field_list(field("list", FieldUnit::none, "lengths of stock and what is cut from them", &FoundCuts::list),
                   field("value", FieldUnit::count, "sticks, or hundredths", &FoundCuts::value),
                   field("bound", FieldUnit::none, "no way of cutting has less than its value", &FoundCuts::bound),
                   field("proven", FieldUnit::none, "the value is the bound's", &FoundCuts::proven),
                   field("plain", FieldUnit::count, "value of cutting by first fit, null where that runs out of stock",
                         &FoundCuts::plain),
                   field("nodes", FieldUnit::count, "sticks filled and steps taken", &FoundCuts::nodes),
                   field("tried_all", FieldUnit::none, "every way of less value was tried", &FoundCuts::tried_all));
};

/// Most of `CutSearchPlan::nodes`.
inline constexpr std::int64_t most_cut_nodes = 100'000'000;

inline void find_faults(const CutSearchPlan& plan, const Path& path, Faults& faults) {
    find_faults(plan.stock, path, faults);
    find_faults_of_goal(plan.goal, plan.stock, path, faults);
    if (plan.nodes < 0 || plan.nodes > most_cut_nodes) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "nodes"}.text(), std::to_string(plan.nodes),
                               "0 to " + std::to_string(most_cut_nodes)});
    }
}

/// Everything wrong with what a search found, judged on its own from the pieces and the plan: the cuts, the bound, and
/// what is said of both. Knows nothing of how it was found.
[[nodiscard]] inline Faults find_faults_of_found_cuts(const std::vector<Length>& pieces, const StockPlan& plan,
                                                      const FoundCuts& found) {
    Faults faults = find_faults_of_cuts(pieces, plan, found.list);
    const Faults of_bound = find_faults_of_bound(pieces, plan, found.bound);
    faults.insert(faults.end(), of_bound.begin(), of_bound.end());
    if (!faults.empty()) {
        return faults;
    }
    const std::int64_t value = counts_for(found.bound.goal, plan, found.list);
    if (value != found.value) {
        faults.push_back(Fault{FaultCode::contradiction, "value", std::to_string(found.value),
                               std::to_string(value) + ", as the sticks count"});
    }
    if (found.proven != (found.value == found.bound.value)) {
        faults.push_back(Fault{FaultCode::contradiction, "proven", found.proven ? "proven" : "not proven",
                               "proven where the value is the bound's"});
    }
    return faults;
}

namespace detail {
inline void require_held(const std::vector<Length>& pieces, const StockPlan& plan) {
    Length longest = no_length;
    for (const StockLength& stock : plan.stock) {
        const bool there = may_take(stock, true) || may_take(stock, false);
        longest = there ? longer(longest, usable_length(plan, stock.length)) : longest;
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (pieces[i] > longest + count_tolerance / 2.0) {
            throw FaultError{Fault{FaultCode::does_not_fit, "pieces[" + std::to_string(i) + "]",
                                   describe_length(pieces[i]),
                                   "at most what the longest stock to be had gives, " + describe_length(longest)}};
        }
    }
}

/// All counts are multiples of it.
[[nodiscard]] inline std::int64_t common_count(const CutModel& model) {
    std::int64_t common = 0;
    for (const CutSource& source : model.sources) {
        common = greatest_common_divisor(common, source.count);
    }
    return common > 0 ? common : 1;
}

[[nodiscard]] inline FoundCuts nothing_found(CutBound bound) {
    CutList list{{}, {}, no_length, no_length, no_length, 0};
    return {std::move(list), 0, std::move(bound), false, std::nullopt, 0, true};
}

/// First fit, where it does not run out of stock.
[[nodiscard]] inline std::optional<CutList> try_first_fit(const std::vector<Length>& pieces, const StockPlan& plan) {
    try {
        return cut_stock(pieces, plan);
    } catch (const FaultError& error) {
        if (error.fault().code != FaultCode::does_not_fit) {
            throw;
        }
        return std::nullopt;
    }
}

/// Pieces weigh their size; or, of a stick in which only they and one other fit, longer ones a whole stick, shorter
/// ones nothing (Martello and Toth 1990): the better of what all such limits give on the longest source.
[[nodiscard]] inline std::vector<std::int64_t> plain_weights(const CutModel& model) {
    const std::int64_t room = model.sources.front().room;
    const bool alike = std::all_of(model.sources.begin(), model.sources.end(),
                                   [&](const CutSource& s) { return s.count == 1 && s.there == endless; });
    const std::int64_t scale = alike ? 1 : std::int64_t{1} << 20;
    std::vector<std::int64_t> best;
    double most = -1.0;
    const std::size_t skip = 1 + model.kinds.size() / 500;
    for (std::size_t limit = 0; limit <= model.kinds.size(); limit += skip) {
        const std::int64_t least = limit == 0 ? 0 : model.kinds[limit - 1].size;
        if (least * 2 > room) {
            continue;
        }
        std::vector<std::int64_t> weights;
        double sum = 0.0;
        for (const CutKind& kind : model.kinds) {
            const bool fills = kind.size > room - least;
            weights.push_back(kind.size < least ? 0 : (fills ? room : kind.size) * scale);
            sum += static_cast<double>(weights.back()) * static_cast<double>(kind.pieces.size());
        }
        if (sum > most) {
            most = sum;
            best = std::move(weights);
        }
    }
    return best;
}

/// The prices of a program as weights: of a small unit where they are simple fractions, else of a large one.
[[nodiscard]] inline CutBound bound_of(const CutProgram& program, const CutModel& model, const StockPlan& plan,
                                       CutGoal goal) {
    double sum = 1.0;
    for (std::size_t k = 0; k < model.kinds.size(); ++k) {
        sum += program.price_of(k) * static_cast<double>(model.kinds[k].pieces.size());
    }
    const auto weigh = [&](double unit, bool nearest) {
        std::vector<std::int64_t> weights;
        for (std::size_t k = 0; k < model.kinds.size(); ++k) {
            const double weight = program.price_of(k) * unit;
            weights.push_back(static_cast<std::int64_t>(nearest ? std::round(weight) : std::floor(weight)));
        }
        return close_bound(model, plan, goal, weights, static_cast<std::int64_t>(unit));
    };
    double unit = 1'073'741'824.0;
    while (unit > 1.0 && unit * sum > 1e17) {
        unit /= 2.0;
    }
    CutBound fine = weigh(unit, false);
    for (double simple = 1.0; simple <= 120.0; simple += 1.0) {
        bool is_simple = true;
        for (std::size_t k = 0; is_simple && k < model.kinds.size(); ++k) {
            const double weight = program.price_of(k) * simple;
            is_simple = std::fabs(weight - std::round(weight)) < 1e-6 * simple;
        }
        if (is_simple) {
            CutBound plain = weigh(simple, true);
            return plain.value >= fine.value ? plain : fine;
        }
    }
    return fine;
}

inline void raise_bound(CutSearch& search, CutBound& bound, CutBound other) {
    if (other.value > bound.value || bound.weights.empty()) {
        bound = std::move(other);
        search.bound = bound.value;
    }
}

/// Bound first, then a dive, then all ways in turn within half of the nodes, then dives that stray. True where every way
/// that counts less than what was found was tried.
inline bool run_search(CutSearch& search, const StockPlan& plan, CutGoal goal, CutBound& bound) {
    raise_bound(search, bound, close_bound(search.model, plan, goal, plain_weights(search.model), 1));
    const CutDemand demand = whole_demand(search.model);
    if (!search.is_done()) {
        fill_often(search, demand, {}, 2);
    }
    if (search.model.kinds.size() > most_program_kinds) {
        fill_often(search, demand, {}, 100);
    }
    if (search.is_done() || search.model.kinds.size() > most_program_kinds) {
        return search.best <= search.bound;
    }
    CutProgram program{search.model, demand, search.columns, search.filler};
    const bool solved = program.solve([&] { return search.step(program.work()); });
    raise_bound(search, bound, bound_of(program, search.model, plan, goal));
    if (!search.is_done()) {
        dive(search, 3, false);
    }
    if (!search.is_done() && solved &&
        CutTree{search, program}.try_all(search.nodes + (search.most_nodes - search.nodes) / 2)) {
        return true;
    }
    for (std::int64_t before = -1; !search.is_done() && search.nodes > before;) {
        before = search.nodes;
        dive(search, 3, true);
    }
    return search.best <= search.bound;
}
}  // namespace detail

/// Cuts every piece from as few sticks, or at as little cost, as is found: prices from the program in which parts of
/// sticks are allowed, then dives. Never counts more than `cut_stock`. What is on hand is taken wherever it does no
/// harm, each bought stick is the cheapest and shortest that holds its cuts. `report` is called about two hundred times
/// with a `CutProgress`; the search ends where it gives back false, after `plan.nodes` steps (a step takes microseconds
/// for tens of lengths, milliseconds for hundreds), or when the bound is met; the answer is whole in any case. The same
/// arguments give the same answer. Lengths that are no whole numbers of 1/1024 in or 1/80 mm are rounded up to be cut
/// and down in the bound, by less than 1/300 in.
/// Throws `FaultError`: the first fault of `plan` (missing_field for a cost), out_of_range for a piece below 1/64 in or
/// over 200 ft, does_not_fit for one longer than any stock to be had or where no way was found with the stock on hand,
/// too_much_work above `most_cut_pieces`.
template <class Report>
[[nodiscard]] FoundCuts search_cuts(const std::vector<Length>& pieces, const CutSearchPlan& plan, Report&& report) {
    require_sound(plan, "order");
    detail::require_cuttable(pieces);
    detail::require_held(pieces, plan.stock);
    const detail::CutModel model = detail::model_cuts(pieces, plan.stock, plan.goal);
    std::optional<CutList> plain = detail::try_first_fit(pieces, plan.stock);
    FoundCuts found = detail::nothing_found({plan.goal, model.step, 1, {}, {}, 0});
    found.bound.hand_prices.assign(plan.stock.stock.size(), 0);
    constexpr std::int64_t unknown = INT64_MAX / 4;
    detail::CutSearch search{model, plan.nodes, [&](const detail::CutSearch& s) {
                                 return report(CutProgress{s.nodes, s.best < unknown ? s.best : -1, s.bound});
                             }};
    search.best = unknown;
    if (plain) {
        found.plain = counts_for(plan.goal, plan.stock, *plain);
        plain = detail::close_list(std::move(plain->bars), pieces, plan.stock, plan.goal);
        search.best = counts_for(plan.goal, plan.stock, *plain);
    }
    search.common = detail::common_count(model);
    if (!pieces.empty()) {
        found.tried_all = detail::run_search(search, plan.stock, plan.goal, found.bound);
    }
    if (search.draft.sticks.empty() && plain) {
        found.list = std::move(*plain);
    } else if (!pieces.empty() && (search.draft.sticks.empty() || detail::is_made_up(model, search.draft))) {
        throw FaultError{Fault{FaultCode::does_not_fit, "order.stock", std::to_string(pieces.size()) + " pieces",
                               "more stock on hand, or stock for sale; no way was found to cut them all"}};
    } else {
        found.list = detail::close_list(detail::bars_of(model, search.draft), pieces, plan.stock, plan.goal);
    }
    found.value = counts_for(plan.goal, plan.stock, found.list);
    found.proven = found.value == found.bound.value;
    found.nodes = search.nodes;
    return found;
}

/// The same to its end, without a report.
[[nodiscard]] inline FoundCuts search_cuts(const std::vector<Length>& pieces, const CutSearchPlan& plan) {
    return search_cuts(pieces, plan, [](const CutProgress&) { return true; });
}

}  // namespace eavewright
