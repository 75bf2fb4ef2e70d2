// SPDX-License-Identifier: BSL-1.0
#pragma once

// First ways of laying everything: the plain one, the largest first where it fits best, and sheet by sheet.

#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/pack_sheets.hpp>
#include <eavewright/order/sheet_search.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// The sheets of `cut_sheets`, as this search holds them. None where a piece fits a sheet only when it is turned.
[[nodiscard]] inline bool lay_plainly(SheetSearch& search, const std::vector<SheetShape>& shapes,
                                      const SheetStock& stock) {
    std::vector<SheetSize> boxes;
    for (const SheetShape& shape : shapes) {
        boxes.push_back(shape.box);
        if (shape.box.length > stock.sheet.length || shape.box.width > stock.sheet.width) {
            return false;
        }
    }
    std::vector<std::int32_t> kind_of(shapes.size(), 0);
    for (std::size_t k = 0; k < search.kinds.size(); ++k) {
        for (const std::size_t piece : search.kinds[k].pieces) {
            kind_of[piece] = static_cast<std::int32_t>(k);
        }
    }
    const SheetCutList list = cut_sheets(boxes, stock);
    search.empty_all();
    struct PlainStrip {
        Length from;
        std::int32_t side;  ///< node beyond what is ripped off it
    };
    std::vector<std::vector<PlainStrip>> strips(static_cast<std::size_t>(list.sheets));
    std::vector<std::int32_t> rest(strips.size(), 0);
    for (std::size_t s = 0; s < strips.size(); ++s) {
        search.sheets.emplace_back(search.rules);
        search.saved_at.push_back(-1);
    }
    for (const SheetCut& cut : list.cuts) {
        PackSheet& sheet = search.sheets[cut.sheet];
        const std::int32_t item = kind_of[cut.piece];
        const Block& block = search.blocks[static_cast<std::size_t>(item)];
        auto strip = std::find_if(strips[cut.sheet].begin(), strips[cut.sheet].end(),
                                  [&](const PlainStrip& each) { return each.from == cut.at_length; });
        const bool opens = strip == strips[cut.sheet].end();
        const LeftParts left = sheet.lay(opens ? rest[cut.sheet] : strip->side, item, block, false, opens,
                                         search.inner_cuts(item), search.rules);
        search.wait(block, -1);
        if (opens) {
            strips[cut.sheet].push_back({cut.at_length, left.beyond_rip});
            rest[cut.sheet] = left.beyond_crosscut;
        } else {
            strip->side = left.beyond_rip;
        }
    }
    search.waiting_area = 0.0;
    return true;
}

/// Blocks of one sort that wait.
struct WaitingBlocks {
    std::int32_t block;
    std::int32_t left;
    double worth;
    double key;
};

/// Fills one sheet from what waits, in the order of the keys.
[[nodiscard]] inline double fill_sheet(SheetSearch& search, std::vector<WaitingBlocks>& waiting, const LayRules& how,
                                       PackSheet& sheet, std::vector<std::int32_t>& used) {
    sheet.clear(search.rules);
    used.assign(waiting.size(), 0);
    double worth = 0.0;
    for (std::size_t i = 0; i < waiting.size() && !sheet.free.empty(); ++i) {
        const Block& block = search.blocks[static_cast<std::size_t>(waiting[i].block)];
        while (used[i] < waiting[i].left && sheet.may_hold(block)) {
            FoundPlace best;
            find_place(sheet, 0, block, how.place, 0, best, search.tried);
            if (best.node < 0) {
                break;
            }
            const PackNode& node = sheet.nodes[static_cast<std::size_t>(best.node)];
            const bool across =
                crosscuts_first(node, best.turned ? block.w : block.l, best.turned ? block.l : block.w, how.split);
            sheet.lay(best.node, waiting[i].block, block, best.turned, across != search.dice.one_in(8),
                      search.inner_cuts(waiting[i].block), search.rules);
            ++used[i];
            worth += waiting[i].worth;
        }
    }
    return worth;
}

/// Lays everything sheet by sheet: of `trials` ways to fill one the best, again as often as there are pieces for it.
/// Larger pieces are worth more than their area where `power` is above 1, so that small ones are kept for what is left.
inline void fill_sheet_by_sheet(SheetSearch& search, std::size_t skip, double power, int trials) {
    search.choose_items(skip);
    std::vector<WaitingBlocks> waiting;
    std::sort(search.items.begin(), search.items.end());
    for (const std::int32_t item : search.items) {
        if (waiting.empty() || waiting.back().block != item) {
            const Block& block = search.blocks[static_cast<std::size_t>(item)];
            const double area = (block.l + search.rules.kerf) * (block.w + search.rules.kerf);
            waiting.push_back({item, 0, std::pow(area, power), 0.0});
        }
        ++waiting.back().left;
    }
    PackSheet sheet{search.rules};
    PackSheet best{search.rules};
    std::vector<std::int32_t> used;
    std::vector<std::int32_t> times_used;
    while (!waiting.empty()) {
        double most = -1.0;
        std::vector<WaitingBlocks> best_order;
        for (int trial = 0; trial < trials; ++trial) {
            LayRules how = search.any_rules();
            const double shake = trial < 4 ? 0.0 : 1.5;
            how.order = trial < 4 ? trial : how.order;
            for (WaitingBlocks& each : waiting) {
                each.key = order_of(search.blocks[static_cast<std::size_t>(each.block)], how.order) *
                           (1.0 + shake * search.dice.share());
            }
            std::stable_sort(waiting.begin(), waiting.end(),
                             [](const WaitingBlocks& a, const WaitingBlocks& b) { return b.key < a.key; });
            const double worth = fill_sheet(search, waiting, how, sheet, used);
            if (worth > most) {
                most = worth;
                best = sheet;
                best_order = waiting;
                times_used = used;
            }
        }
        std::int32_t times = 0;
        for (std::size_t i = 0; i < best_order.size(); ++i) {
            const std::int32_t enough = times_used[i] > 0 ? best_order[i].left / times_used[i] : 0;
            times = enough > 0 && (times == 0 || enough < times) ? enough : times;
        }
        waiting.clear();
        for (std::size_t i = 0; i < best_order.size(); ++i) {
            best_order[i].left -= times * times_used[i];
            for (std::int32_t n = times * times_used[i]; n > 0; --n) {
                search.wait(search.blocks[static_cast<std::size_t>(best_order[i].block)], -1);
            }
            if (best_order[i].left > 0) {
                waiting.push_back(best_order[i]);
            }
        }
        search.sheets.insert(search.sheets.end(), static_cast<std::size_t>(times), best);
    }
}

/// Ways that are tried first, those that did best on random lists ahead: order, place, first cut.
inline constexpr std::array<LayRules, 12> first_ways{{{0, 0, 2},
                                                      {1, 0, 2},
                                                      {2, 0, 3},
                                                      {0, 0, 0},
                                                      {3, 0, 2},
                                                      {0, 0, 1},
                                                      {0, 1, 0},
                                                      {2, 0, 0},
                                                      {0, 2, 0},
                                                      {2, 2, 3},
                                                      {1, 2, 2},
                                                      {0, 2, 2}}};

/// Lays everything in one way after the other, and keeps the best.
inline void lay_in_turn(SheetSearch& search, bool with_plain, std::int64_t most, std::int64_t fewest) {
    std::vector<PackSheet> best = search.sheets;
    bool found = with_plain;
    const auto keep = [&] {
        if (!found || search.sheets.size() < best.size()) {
            best = search.sheets;
            found = true;
        }
        return static_cast<std::int64_t>(best.size()) <= fewest;
    };
    for (std::size_t way = 0; way < first_ways.size() && (!found || search.tried < most / 4 * 3); ++way) {
        search.empty_all();
        const LayRules how = first_ways[way];
        search.lay_waiting(how, 1, true, [](std::size_t) { return true; });
        if (keep()) {
            break;
        }
    }
    std::int64_t work = 0;  // of the last way; a way that would go past the limit is not begun
    constexpr std::array<double, 4> powers{1.2, 1.35, 1.1, 1.5};
    for (int way = 0; way < 8 && static_cast<std::int64_t>(best.size()) > fewest; ++way) {
        const std::int64_t begin = search.tried;
        const int trials = way < 4 ? 12 : 40;
        const auto guess = static_cast<std::int64_t>(best.size() * search.kinds.size()) * trials / 2;
        if (begin + (work > 0 ? work : guess / 4) > most) {
            break;
        }
        search.empty_all();
        fill_sheet_by_sheet(search, way % 2 == 0 ? 1 : 4, powers[static_cast<std::size_t>(way % 4)], trials);
        work = search.tried - begin;
        if (keep()) {
            break;
        }
    }
    search.sheets = std::move(best);
    search.saved_at.assign(search.sheets.size(), -1);
    search.waiting.assign(search.kinds.size(), 0);
    search.waiting_area = 0.0;
}

}  // namespace eavewright::detail
