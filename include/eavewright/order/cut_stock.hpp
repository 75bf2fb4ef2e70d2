// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lengths cut from stock: purlins, blocks, fascia. What is on hand goes first, the rest is bought in whole lengths.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/money.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// A length that can be had.
struct StockLength {
    Length length;
    std::int64_t on_hand = 0;  ///< lying there already, used before any is bought
    bool for_sale = true;
    std::optional<Money> cost{};  ///< of one that is bought, above zero; what is on hand costs nothing
};

/// What pieces are cut from.
struct StockPlan {
    std::vector<StockLength> stock;
    Length kerf = Length::from_inches(0.125);  ///< that a saw takes between two pieces; common practice
    Length end_trim = no_length;               ///< squared off the end that is measured from, with the kerf of that cut
    Length far_trim = no_length;  ///< nothing is cut from so much of the other end, with the kerf of that cut
};

/// What pieces are cut from, of a stock length.
[[nodiscard]] constexpr Length usable_length(const StockPlan& plan, Length stock) noexcept {
    return stock - plan.end_trim - plan.far_trim;
}

/// One length of stock and what is cut from it, first cut first.
struct CutBar {
    std::size_t stock;  ///< index into the plan's stock
    bool on_hand;
    std::vector<std::size_t> pieces;  ///< indexes into the pieces asked for
    Length left;                      ///< after the cuts, their kerfs and the trims
};
template <>
struct FieldsOf<CutBar> {
    static constexpr auto list =
        field_list(field("stock", FieldUnit::count, "index of the stock length", &CutBar::stock),
                   field("on_hand", FieldUnit::none, "taken from what is on hand", &CutBar::on_hand),
                   field("pieces", FieldUnit::count, "indexes of the pieces cut from it", &CutBar::pieces),
                   field("left", FieldUnit::length, "what is left", &CutBar::left));
};

/// A way to cut every piece, which `find_faults_of_cuts` accepts or rejects on its own.
struct CutList {
    std::vector<CutBar> bars;
    std::vector<std::int64_t> to_buy;  ///< of each stock length
    Length pieces;                     ///< all pieces together
    Length bought;                     ///< all lengths to buy together
    Length waste;                      ///< bought and taken from hand, less the pieces
    std::int64_t fewest;  ///< no way of cutting needs fewer bars: all pieces and kerfs over the longest stock
};
template <>
struct FieldsOf<CutList> {
    static constexpr auto list =
        field_list(field("bars", FieldUnit::none, "lengths of stock and what is cut from them", &CutList::bars),
                   field("to_buy", FieldUnit::count, "to buy of each stock length", &CutList::to_buy),
                   field("pieces", FieldUnit::length, "all pieces together", &CutList::pieces),
                   field("bought", FieldUnit::length, "all lengths to buy together", &CutList::bought),
                   field("waste", FieldUnit::length, "bought and taken from hand, less the pieces", &CutList::waste),
                   field("fewest", FieldUnit::count, "no way of cutting needs fewer lengths", &CutList::fewest));
};

/// Most pieces that are cut in one call.
inline constexpr std::size_t most_cut_pieces = 20'000;

inline void find_faults(const StockPlan& plan, const Path& path, Faults& faults) {
    require_within(plan.kerf, no_length, Length::from_inches(2.0), Path{path, "kerf"}, faults);
    require_within(plan.end_trim, no_length, Length::from_feet(2.0), Path{path, "end_trim"}, faults);
    require_within(plan.far_trim, no_length, Length::from_feet(2.0), Path{path, "far_trim"}, faults);
    const Path list{path, "stock"};
    if (plan.stock.empty() || plan.stock.size() > 100) {
        faults.push_back(Fault{FaultCode::out_of_range, list.text(), std::to_string(plan.stock.size()) + " lengths",
                               "1 to 100 lengths"});
    }
    for (std::size_t i = 0; i < plan.stock.size(); ++i) {
        const Path at{list, i};
        require_within(plan.stock[i].length, one_inch, Length::from_feet(200.0), Path{at, "length"}, faults);
        if (plan.stock[i].on_hand < 0 || plan.stock[i].on_hand > most_steps) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{at, "on_hand"}.text(),
                                   std::to_string(plan.stock[i].on_hand), "0 to " + std::to_string(most_steps)});
        }
        if (usable_length(plan, plan.stock[i].length) <= no_length) {
            faults.push_back(Fault{FaultCode::does_not_fit, Path{at, "length"}.text(),
                                   describe_length(plan.stock[i].length), "more than is trimmed off its ends"});
        }
        if (plan.stock[i].cost && *plan.stock[i].cost <= no_money) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{at, "cost"}.text(), write_money(*plan.stock[i].cost),
                                   "more than nothing"});
        }
    }
}

namespace detail {
/// A bar that is being filled. Each piece takes its length and a kerf, and the bar has one kerf to spare at its end. Trims
/// are taken off when it is opened.
struct OpenBar {
    CutBar bar;
    Length room;
};

/// The shortest stock that holds `length` and may be taken: on hand while it lasts, or for sale. None where there is none.
[[nodiscard]] inline std::optional<std::size_t> shortest_stock(const std::vector<StockLength>& stock, Length length,
                                                               bool on_hand) {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < stock.size(); ++i) {
        const bool there = on_hand ? stock[i].on_hand > 0 : stock[i].for_sale;
        if (there && stock[i].length + count_tolerance >= length && (!best || stock[i].length < stock[*best].length)) {
            best = i;
        }
    }
    return best;
}
[[nodiscard]] inline std::optional<std::size_t> longest_for_sale(const std::vector<StockLength>& stock) {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < stock.size(); ++i) {
        if (stock[i].for_sale && (!best || stock[*best].length < stock[i].length)) {
            best = i;
        }
    }
    return best;
}

/// Indexes of the pieces, longest first; equal ones in the order they came.
[[nodiscard]] inline std::vector<std::size_t> longest_first(const std::vector<Length>& pieces) {
    std::vector<std::size_t> order(pieces.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return pieces[b] < pieces[a]; });
    return order;
}

/// Opens a bar for a piece that no open one holds: from hand if one is long enough, else the longest for sale.
[[nodiscard]] inline OpenBar open_bar(StockPlan& left, Length piece, std::size_t index) {
    const Length trims = left.end_trim + left.far_trim;
    if (const std::optional<std::size_t> hand = shortest_stock(left.stock, piece + trims, true)) {
        --left.stock[*hand].on_hand;
        return {{*hand, true, {}, no_length}, usable_length(left, left.stock[*hand].length) + left.kerf};
    }
    const std::optional<std::size_t> longest = longest_for_sale(left.stock);
    const Length most = longest ? usable_length(left, left.stock[*longest].length) : no_length;
    if (!longest || most + count_tolerance < piece) {
        throw FaultError{Fault{FaultCode::does_not_fit, "pieces[" + std::to_string(index) + "]", describe_length(piece),
                               longest ? "at most the longest stock for sale, " + describe_length(most)
                                       : std::string{"stock that is for sale"}}};
    }
    return {{*longest, false, {}, no_length}, most + left.kerf};
}

[[nodiscard]] inline std::int64_t fewest_bars(const std::vector<Length>& pieces, const StockPlan& plan) {
    Length longest = no_length;
    for (const StockLength& stock : plan.stock) {
        longest = stock.for_sale || stock.on_hand > 0 ? longer(longest, stock.length) : longest;
    }
    Length all = no_length;
    for (const Length piece : pieces) {
        all += piece + plan.kerf;
    }
    return pieces.empty() ? 0 : steps_to_cover(all, usable_length(plan, longest) + plan.kerf);
}
}  // namespace detail

/// Everything wrong with a cut list, judged on its own from the pieces and the plan: a piece cut twice or not at all, a bar
/// overfilled, more taken from hand than is there, counts that do not add up. Empty where it may be sawn from.
[[nodiscard]] inline Faults find_faults_of_cuts(const std::vector<Length>& pieces, const StockPlan& plan,
                                                const CutList& list) {
    Faults faults;
    const auto refuse = [&](std::size_t bar, const std::string& given, const std::string& required) {
        faults.push_back(Fault{FaultCode::contradiction, "bars[" + std::to_string(bar) + "]", given, required});
    };
    std::vector<int> cut(pieces.size(), 0);
    std::vector<std::int64_t> from_hand(plan.stock.size(), 0);
    std::vector<std::int64_t> to_buy(plan.stock.size(), 0);
    for (std::size_t b = 0; b < list.bars.size(); ++b) {
        const CutBar& bar = list.bars[b];
        if (bar.stock >= plan.stock.size()) {
            refuse(b, "stock " + std::to_string(bar.stock), "one of the plan's lengths");
            continue;
        }
        ++(bar.on_hand ? from_hand : to_buy)[bar.stock];
        Length used = -plan.kerf;
        for (const std::size_t piece : bar.pieces) {
            if (piece >= pieces.size()) {
                refuse(b, "piece " + std::to_string(piece), "one of the pieces asked for");
                continue;
            }
            ++cut[piece];
            used += pieces[piece] + plan.kerf;
        }
        const Length usable = usable_length(plan, plan.stock[bar.stock].length);
        if (used > usable + count_tolerance) {
            refuse(b, describe_length(used), "no more than the stock's " + describe_length(usable));
        }
    }
    for (std::size_t i = 0; i < cut.size(); ++i) {
        if (cut[i] != 1) {
            faults.push_back(Fault{FaultCode::contradiction, "pieces[" + std::to_string(i) + "]",
                                   "cut " + std::to_string(cut[i]) + " times", "cut once"});
        }
    }
    for (std::size_t s = 0; s < plan.stock.size(); ++s) {
        const bool counted = s < list.to_buy.size() && list.to_buy[s] == to_buy[s];
        if (from_hand[s] > plan.stock[s].on_hand || !counted || (to_buy[s] > 0 && !plan.stock[s].for_sale)) {
            faults.push_back(
                Fault{FaultCode::contradiction, "to_buy[" + std::to_string(s) + "]",
                      std::to_string(from_hand[s]) + " from hand, " + std::to_string(to_buy[s]) + " bought",
                      "what is on hand, and what is for sale counted"});
        }
    }
    return faults;
}

namespace detail {
inline void require_cuttable(const std::vector<Length>& pieces) {
    if (pieces.size() > most_cut_pieces) {
        throw FaultError{Fault{FaultCode::too_much_work, "pieces", std::to_string(pieces.size()) + " pieces",
                               "no more than " + std::to_string(most_cut_pieces)}};
    }
    Faults faults;
    const Path list{"pieces"};
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        require_within(pieces[i], one_inch / 64.0, Length::from_feet(200.0), Path{list, i}, faults);
    }
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
}

/// First fit, longest first.
[[nodiscard]] inline std::vector<OpenBar> fill_bars(const std::vector<Length>& pieces, const StockPlan& plan) {
    StockPlan left = plan;
    std::vector<OpenBar> open;
    for (const std::size_t piece : longest_first(pieces)) {
        const Length needed = pieces[piece] + plan.kerf;
        auto bar = std::find_if(open.begin(), open.end(),
                                [&](const OpenBar& b) { return b.room + count_tolerance >= needed; });
        if (bar == open.end()) {
            open.push_back(open_bar(left, pieces[piece], piece));
            bar = open.end() - 1;
        }
        bar->bar.pieces.push_back(piece);
        bar->room -= needed;
    }
    return open;
}
}  // namespace detail

/// Cuts every piece: longest first into the first bar that holds it, what is on hand before what is bought, each bought bar
/// in the end the shortest for sale that holds its cuts. With one stock length this never takes more than 11/9 of the
/// fewest possible bars and 6/9 (Dosa 2007, first-fit decreasing; from memory); it is the fewest where the bars number
/// `fewest`. Throws `FaultError`: the first fault of `plan`, out_of_range for a piece below 1/64 in or over 200 ft,
/// does_not_fit for one longer than any stock to be had, too_much_work above `most_cut_pieces`.
[[nodiscard]] inline CutList cut_stock(const std::vector<Length>& pieces, const StockPlan& plan) {
    require_sound(plan, "order");
    detail::require_cuttable(pieces);
    CutList list{{},        std::vector<std::int64_t>(plan.stock.size(), 0),
                 no_length, no_length,
                 no_length, detail::fewest_bars(pieces, plan)};
    for (detail::OpenBar& each : detail::fill_bars(pieces, plan)) {
        CutBar& bar = each.bar;
        const Length used = plan.stock[bar.stock].length - each.room;
        if (!bar.on_hand) {
            bar.stock = detail::shortest_stock(plan.stock, used, false).value_or(bar.stock);
            ++list.to_buy[bar.stock];
            list.bought += plan.stock[bar.stock].length;
        }
        bar.left = plan.stock[bar.stock].length - used;
        list.waste += plan.stock[bar.stock].length;
        list.bars.push_back(bar);
    }
    for (const Length piece : pieces) {
        list.pieces += piece;
    }
    list.waste -= list.pieces;
    return list;
}

}  // namespace eavewright
