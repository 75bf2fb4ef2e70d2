// SPDX-License-Identifier: BSL-1.0
#pragma once

// Pieces and stock in whole steps, as a search for few sticks sees them.

#include <eavewright/fault.hpp>
#include <eavewright/order/cut_bound.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace eavewright::detail {

/// Pieces of one length.
struct CutKind {
    Length length;
    std::int64_t size;                ///< with its kerf, in steps, rounded up
    std::vector<std::size_t> pieces;  ///< indexes into the pieces asked for
};
/// Where a stick comes from.
struct CutSource {
    std::size_t stock;
    bool on_hand;
    std::int64_t room;   ///< with the kerf that the last piece does not need, in steps, rounded down
    std::int64_t count;  ///< what one counts for the goal
    std::int64_t there;  ///< how many there are, `endless` for what is bought
};
inline constexpr std::int64_t endless = -1;

/// What is searched. Kinds are in falling order of size, sources in falling order of room.
struct CutModel {
    Length step;
    std::vector<CutKind> kinds;
    std::vector<CutSource> sources;
    /// A source that does not exist, endless and dear, where the others might not suffice; else their number.
    std::size_t made_up;
};

/// How many pieces of a kind.
struct KindCount {
    std::int32_t kind;
    std::int32_t count;
    friend bool operator==(const KindCount&, const KindCount&) = default;
};
/// A way to fill a stick.
struct CutColumn {
    std::int32_t source;
    std::vector<KindCount> parts;  ///< in the order of kinds
};
/// Sticks filled alike.
struct FilledSticks {
    CutColumn column;
    std::int64_t times;
};

/// All lengths with their kerf are whole numbers of 1/1024 in or of 1/80 mm (1/16 in is 127 of these), else whole
/// numbers of what parts the longest stick in 65,536 or more, rounded.
[[nodiscard]] inline Length base_step(const std::vector<Length>& pieces, const StockPlan& plan, bool& is_exact) {
    is_exact = true;
    for (const Length step : {one_inch / 1024.0, Length::from_millimetres(1.0 / 80.0)}) {
        const auto on_step = [&](Length piece) {
            const Length size = piece + plan.kerf;
            return magnitude(size - step * std::round(size / step)) <= same_length;
        };
        if (std::all_of(pieces.begin(), pieces.end(), on_step)) {
            return step;
        }
    }
    is_exact = false;
    Length longest = one_inch;
    for (const StockLength& stock : plan.stock) {
        longest = longer(longest, stock.length);
    }
    Length step = one_inch / 1024.0;
    while (longest / step > 131'072.0) {
        step *= 2.0;
    }
    return step;
}

[[nodiscard]] inline std::vector<CutKind> group_kinds(const std::vector<Length>& pieces) {
    std::vector<CutKind> kinds;
    for (const std::size_t piece : longest_first(pieces)) {
        if (kinds.empty() || kinds.back().length - pieces[piece] > same_length) {
            kinds.push_back({pieces[piece], 0, {}});
        }
        kinds.back().pieces.push_back(piece);
    }
    return kinds;
}

/// Sources worth taking from: none that is matched by an endless one, as long or longer, that counts no more.
[[nodiscard]] inline std::vector<CutSource> sources_of(const StockPlan& plan, CutGoal goal, Length step) {
    std::vector<CutSource> all;
    for (std::size_t i = 0; i < plan.stock.size(); ++i) {
        const Length most = usable_length(plan, plan.stock[i].length) + plan.kerf + count_tolerance / 2.0;
        const auto room = static_cast<std::int64_t>(std::floor(most / step));
        for (const bool on_hand : {true, false}) {
            if (may_take(plan.stock[i], on_hand)) {
                all.push_back({i, on_hand, room, counts_for(goal, plan.stock[i], on_hand),
                               on_hand ? plan.stock[i].on_hand : endless});
            }
        }
    }
    std::stable_sort(all.begin(), all.end(), [](const CutSource& a, const CutSource& b) {
        return a.room != b.room ? a.room > b.room : a.count < b.count;
    });
    std::vector<CutSource> kept;
    for (const CutSource& source : all) {
        const auto matches = [&](const CutSource& other) {
            return other.there == endless && other.count <= source.count;
        };
        if (std::none_of(kept.begin(), kept.end(), matches)) {
            kept.push_back(source);
        }
    }
    return kept;
}

/// Takes a source for granted that holds any piece, so dear that nothing is cut from it unless nothing else is left.
inline void make_up_source(CutModel& model, std::int64_t pieces) {
    model.made_up = model.sources.size();
    const std::int64_t largest = model.kinds.empty() ? 0 : model.kinds.front().size;
    std::int64_t dearest = 1;
    for (const CutSource& source : model.sources) {
        if (source.there == endless && source.room >= largest) {
            return;
        }
        dearest = source.count > dearest ? source.count : dearest;
    }
    model.sources.push_back({0, false, largest, dearest * (pieces + 1), endless});
}

[[nodiscard]] inline CutModel model_cuts(const std::vector<Length>& pieces, const StockPlan& plan, CutGoal goal) {
    bool is_exact = false;
    CutModel model{base_step(pieces, plan, is_exact), group_kinds(pieces), {}, 0};
    std::int64_t common = 0;
    const auto steps_of = [&](Length length) {
        const double steps = (length + plan.kerf) / model.step;
        return static_cast<std::int64_t>(is_exact ? std::round(steps) : std::ceil(steps));
    };
    for (CutKind& kind : model.kinds) {
        kind.size = steps_of(kind.length);
        common = greatest_common_divisor(common, kind.size);
    }
    if (is_exact && common > 1) {
        model.step *= static_cast<double>(common);
        for (CutKind& kind : model.kinds) {
            kind.size /= common;
        }
    }
    model.sources = sources_of(plan, goal, model.step);
    make_up_source(model, static_cast<std::int64_t>(pieces.size()));
    return model;
}

/// Makes any weights hold: the unit as large as the fullest bought stick needs, prices of sticks on hand as high as theirs
/// do. Steps are doubled until fillings can be listed.
inline void fit_weights(CutBound& bound, const StockPlan& plan, const std::vector<std::int64_t>& counts) {
    std::vector<Filling> best;
    while (best.empty()) {
        best = best_fillings(weigh_kinds(plan, bound, counts), longest_room(plan, bound.step), most_fillings_made);
        bound.step *= best.empty() ? 2.0 : 1.0;
    }
    std::vector<std::int64_t> held;
    for (const StockLength& stock : plan.stock) {
        held.push_back(weight_within(best, most_steps_of(plan, stock.length, bound.step)));
        const std::int64_t count = counts_for(bound.goal, stock, false);
        if (stock.for_sale && !may_hold(held.back(), bound.unit, count)) {
            bound.unit = (held.back() - 1) / count + 1;
        }
    }
    bound.hand_prices.assign(plan.stock.size(), 0);
    for (std::size_t i = 0; i < plan.stock.size(); ++i) {
        const std::int64_t free = counts_for(bound.goal, plan.stock[i], true) > 0 ? bound.unit : 0;
        if (plan.stock[i].on_hand > 0 && held[i] > free) {
            bound.hand_prices[i] = held[i] - free;
        }
    }
}
/// Prices of all that is on hand.
[[nodiscard]] inline std::int64_t price_of_hand(const CutBound& bound, const StockPlan& plan) {
    std::int64_t all = 0;
    for (std::size_t i = 0; i < plan.stock.size(); ++i) {
        all += bound.hand_prices[i] * plan.stock[i].on_hand;
    }
    return all;
}
/// The bound that weights give, whatever they are.
[[nodiscard]] inline CutBound close_bound(const CutModel& model, const StockPlan& plan, CutGoal goal,
                                          const std::vector<std::int64_t>& weights, std::int64_t unit) {
    CutBound bound{goal, model.step, unit, {}, {}, 0};
    std::vector<std::int64_t> counts;
    std::int64_t sum = 0;
    for (std::size_t k = 0; k < model.kinds.size(); ++k) {
        bound.weights.push_back({model.kinds[k].length, weights[k]});
        counts.push_back(static_cast<std::int64_t>(model.kinds[k].pieces.size()));
        sum += weights[k] * counts.back();
    }
    fit_weights(bound, plan, counts);
    bound.value = value_of_weights(plan, goal, bound.unit, sum - price_of_hand(bound, plan));
    return bound;
}

}  // namespace eavewright::detail
