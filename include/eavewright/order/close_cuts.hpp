// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a search found, as a cut list: real pieces on real sticks, those on hand used up, each bought one the cheapest
// and shortest.

#include <eavewright/order/cut_bound.hpp>
#include <eavewright/order/cut_dive.hpp>
#include <eavewright/order/cut_model.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright::detail {

/// Length that a bar's pieces take with the kerfs between them.
[[nodiscard]] inline Length cut_from(const CutBar& bar, const std::vector<Length>& pieces, Length kerf) {
    Length used = -kerf;
    for (const std::size_t piece : bar.pieces) {
        used += pieces[piece] + kerf;
    }
    return bar.pieces.empty() ? no_length : used;
}

/// Takes bought bars from what is left on hand: as many as can be, the least filled first, each from the shortest
/// stick.
inline void use_hand(std::vector<CutBar>& bars, const std::vector<Length>& pieces, const StockPlan& plan) {
    std::vector<std::int64_t> there;
    for (const StockLength& stock : plan.stock) {
        there.push_back(stock.on_hand);
    }
    std::vector<std::size_t> order;
    for (std::size_t b = 0; b < bars.size(); ++b) {
        if (bars[b].on_hand) {
            --there[bars[b].stock];
        } else {
            order.push_back(b);
        }
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return cut_from(bars[a], pieces, plan.kerf) < cut_from(bars[b], pieces, plan.kerf);
    });
    for (const std::size_t b : order) {
        std::size_t best = there.size();
        for (std::size_t i = 0; i < there.size(); ++i) {
            const bool holds = there[i] > 0 && usable_length(plan, plan.stock[i].length) + count_tolerance >=
                                                   cut_from(bars[b], pieces, plan.kerf);
            if (holds && (best == there.size() || plan.stock[i].length < plan.stock[best].length)) {
                best = i;
            }
        }
        if (best < there.size()) {
            --there[best];
            bars[b].stock = best;
            bars[b].on_hand = true;
        }
    }
}

/// Makes each bought bar the one that counts least and is shortest of those that hold its cuts.
inline void shorten(std::vector<CutBar>& bars, const std::vector<Length>& pieces, const StockPlan& plan, CutGoal goal) {
    for (CutBar& bar : bars) {
        const Length used = cut_from(bar, pieces, plan.kerf);
        for (std::size_t i = 0; !bar.on_hand && i < plan.stock.size(); ++i) {
            const StockLength& other = plan.stock[i];
            const std::int64_t count = counts_for(goal, other, false);
            const std::int64_t now = counts_for(goal, plan.stock[bar.stock], false);
            const bool is_less = count < now || (count == now && other.length < plan.stock[bar.stock].length);
            if (other.for_sale && is_less && usable_length(plan, other.length) + count_tolerance >= used) {
                bar.stock = i;
            }
        }
    }
}

[[nodiscard]] inline CutList close_list(std::vector<CutBar> bars, const std::vector<Length>& pieces,
                                        const StockPlan& plan, CutGoal goal) {
    use_hand(bars, pieces, plan);
    shorten(bars, pieces, plan, goal);
    CutList list{std::move(bars), std::vector<std::int64_t>(plan.stock.size(), 0),
                 no_length,       no_length,
                 no_length,       fewest_bars(pieces, plan)};
    for (CutBar& bar : list.bars) {
        const Length length = plan.stock[bar.stock].length;
        bar.left = usable_length(plan, length) - cut_from(bar, pieces, plan.kerf);
        list.waste += length;
        if (!bar.on_hand) {
            ++list.to_buy[bar.stock];
            list.bought += length;
        }
    }
    for (const Length piece : pieces) {
        list.pieces += piece;
    }
    list.waste -= list.pieces;
    return list;
}

/// Gives the sticks of a draft their pieces, longest first; equal sticks stand together.
[[nodiscard]] inline std::vector<CutBar> bars_of(const CutModel& model, const CutDraft& draft) {
    std::vector<CutBar> bars;
    std::vector<std::size_t> next(model.kinds.size(), 0);
    for (const FilledSticks& sticks : draft.sticks) {
        const CutSource& source = model.sources[static_cast<std::size_t>(sticks.column.source)];
        for (std::int64_t i = 0; i < sticks.times; ++i) {
            CutBar bar{source.stock, source.on_hand, {}, no_length};
            for (const KindCount& part : sticks.column.parts) {
                const auto kind = static_cast<std::size_t>(part.kind);
                for (std::int32_t p = 0; p < part.count; ++p) {
                    bar.pieces.push_back(model.kinds[kind].pieces[next[kind]++]);
                }
            }
            bars.push_back(std::move(bar));
        }
    }
    return bars;
}

/// Whether a draft takes sticks that do not exist.
[[nodiscard]] inline bool is_made_up(const CutModel& model, const CutDraft& draft) {
    return std::any_of(draft.sticks.begin(), draft.sticks.end(), [&](const FilledSticks& sticks) {
        return static_cast<std::size_t>(sticks.column.source) == model.made_up;
    });
}

}  // namespace eavewright::detail
