// SPDX-License-Identifier: BSL-1.0
#pragma once

// The state of a search for few sheets: the sheets as they are laid, what waits for a place, and the way back.

#include <eavewright/order/pack_sheets.hpp>
#include <eavewright/order/pair_shapes.hpp>
#include <eavewright/order/sheet_cut_tree.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// A pair that a kind may be the first of.
struct PairOffer {
    std::int32_t block;
    std::size_t partner;  ///< kind of the second
};

/// The state of a search: the sheets, and how many pieces of each kind wait for a place.
struct SheetSearch {
    const std::vector<ShapeKind>& kinds;
    std::vector<Block> blocks{};                  ///< one of each kind, then the pairs, what saves most first
    std::vector<std::vector<PairOffer>> pairs{};  ///< pairs whose first is this kind
    PackRules rules;
    std::int64_t tried = 0;
    SearchDice dice{20'261'127U};
    std::vector<PackSheet> sheets{};
    std::vector<std::int32_t> waiting{};
    double waiting_area = 0.0;
    std::vector<std::pair<std::size_t, PackSheet>> before{};  ///< sheets as they were, to go back to
    std::vector<std::int64_t> saved_at{};                     ///< round in which a sheet was saved
    std::int64_t round = 0;
    std::vector<std::int32_t> items{};
    std::vector<std::int32_t> offers{};
    std::vector<std::pair<double, std::int32_t>> ordered{};

    void wait(const Block& block, std::int32_t change) {
        for (const BlockPlace& place : block.places) {
            waiting[place.kind] += change;
        }
        waiting_area += change > 0 ? block.area : -block.area;
    }
    [[nodiscard]] int inner_cuts(std::int32_t block) {
        Block& what = blocks[static_cast<std::size_t>(block)];
        return what.cuts = cuts_within(kinds, what, rules.kerf, rules.tick);
    }
    /// Blocks for all that waits: pairs that save, all but one in `skip` of them, then single pieces. 0 pairs none.
    void choose_items(std::size_t skip) {
        items.clear();
        offers.clear();
        std::vector<std::int32_t> left = waiting;
        for (std::size_t k = 0; k < kinds.size() && skip > 0; ++k) {
            for (std::size_t i = 0; left[k] > 0 && i < pairs[k].size(); ++i) {
                if (left[pairs[k][i].partner] > 0) {
                    offers.push_back(pairs[k][i].block);
                }
            }
        }
        std::sort(offers.begin(), offers.end());
        for (const std::int32_t pair : offers) {
            const std::size_t a = blocks[static_cast<std::size_t>(pair)].places[0].kind;
            const std::size_t b = blocks[static_cast<std::size_t>(pair)].places[1].kind;
            while (left[a] > 0 && left[b] > (a == b ? 1 : 0) && (skip == 1 || !dice.one_in(skip))) {
                --left[a];
                --left[b];
                items.push_back(pair);
            }
        }
        for (std::size_t k = 0; k < kinds.size(); ++k) {
            items.insert(items.end(), static_cast<std::size_t>(left[k]), static_cast<std::int32_t>(k));
        }
    }
    void order_items(const LayRules& how) {
        ordered.clear();
        double key = 0.0;
        std::int32_t last = -1;
        for (const std::int32_t item : items) {
            if (item != last) {
                key = order_of(blocks[static_cast<std::size_t>(item)], how.order) * (1.0 + how.shake * dice.share());
            }
            last = item;
            ordered.push_back({-key, item});
        }
        std::stable_sort(ordered.begin(), ordered.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
    }
    void save(std::size_t sheet) {
        if (saved_at[sheet] != round) {
            saved_at[sheet] = round;
            before.push_back({sheet, sheets[sheet]});
        }
    }
    /// Lays what waits into the sheets that `may_use` allows, on new ones as well where `opens` is true.
    template <class MayUse>
    void lay_waiting(const LayRules& how, std::size_t skip, bool opens, MayUse&& may_use) {
        choose_items(skip);
        order_items(how);
        for (const auto& [key, item] : ordered) {
            const Block& block = blocks[static_cast<std::size_t>(item)];
            FoundPlace best;
            const std::uint64_t blink = how.blinks ? dice.next() | 1U : 0;
            for (std::size_t s = 0; s < sheets.size(); ++s) {
                if (sheets[s].may_hold(block) && may_use(s)) {
                    find_place(sheets[s], s, block, how.place, blink, best, tried);
                }
            }
            if (best.node < 0 && opens) {
                sheets.emplace_back(rules);
                saved_at.push_back(-1);
                find_place(sheets.back(), sheets.size() - 1, block, how.place, 0, best, tried);
            }
            if (best.node >= 0) {
                if (!opens) {
                    save(best.sheet);
                }
                PackSheet& sheet = sheets[best.sheet];
                const PackNode& node = sheet.nodes[static_cast<std::size_t>(best.node)];
                const bool across =
                    crosscuts_first(node, best.turned ? block.w : block.l, best.turned ? block.l : block.w,
                                    how.split) != (how.blinks && dice.one_in(8));
                wait(block, -1);
                sheet.lay(best.node, item, block, best.turned, across, inner_cuts(item), rules);
            }
        }
    }
    /// Takes everything off a sheet.
    void clear(std::size_t sheet) {
        save(sheet);
        for (const PackNode& node : sheets[sheet].nodes) {
            if (node.use == NodeUse::block) {
                wait(blocks[static_cast<std::size_t>(node.block)], 1);
            }
        }
        sheets[sheet].clear(rules);
    }
    void go_back() {
        for (auto& [sheet, was] : before) {
            for (const PackNode& node : sheets[sheet].nodes) {
                if (node.use == NodeUse::block) {
                    wait(blocks[static_cast<std::size_t>(node.block)], 1);
                }
            }
            for (const PackNode& node : was.nodes) {
                if (node.use == NodeUse::block) {
                    wait(blocks[static_cast<std::size_t>(node.block)], -1);
                }
            }
            sheets[sheet] = std::move(was);
        }
    }
    void start_round() {
        ++round;
        before.clear();
    }
    void empty_all() {
        sheets.clear();
        saved_at.clear();
        waiting.assign(kinds.size(), 0);
        waiting_area = 0.0;
        for (std::size_t k = 0; k < kinds.size(); ++k) {
            waiting[k] = static_cast<std::int32_t>(kinds[k].pieces.size());
            waiting_area += kinds[k].area * static_cast<double>(waiting[k]);
        }
    }
    [[nodiscard]] bool is_done() const {
        return std::all_of(waiting.begin(), waiting.end(), [](std::int32_t count) { return count == 0; });
    }
    [[nodiscard]] std::int64_t cuts() const {
        std::int64_t all = 0;
        for (const PackSheet& sheet : sheets) {
            all += sheet.cuts;
        }
        return all;
    }
    /// Sheets that something can be gained on: not those that hold one block and leave room for none.
    [[nodiscard]] std::vector<std::size_t> loose_sheets() const {
        std::vector<std::size_t> loose;
        for (std::size_t s = 0; s < sheets.size(); ++s) {
            if (sheets[s].blocks != 1 || !sheets[s].free.empty()) {
                loose.push_back(s);
            }
        }
        return loose;
    }
    LayRules any_rules() {
        return {static_cast<int>(dice.below(4)), static_cast<int>(dice.below(3)), static_cast<int>(dice.below(4)), 0.4,
                true};
    }
};

[[nodiscard]] inline SheetSearch start_search(const std::vector<ShapeKind>& kinds, const SheetSearchPlan& plan) {
    const double l = inches(plan.stock.sheet.length);
    const double w = inches(plan.stock.sheet.width);
    const double kerf = inches(plan.stock.kerf);
    SheetSearch search{.kinds = kinds, .rules = {l, w, kerf, inches(plan.tick.step()), l, w}};
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        search.blocks.push_back(block_of_one(kinds, k, kerf, inches(plan.tick.step())));
        const bool turnable = kinds[k].shape.turnable;
        const double least = std::fmin(kinds[k].l(), kinds[k].w());
        search.rules.least_l = std::fmin(search.rules.least_l, turnable ? least : kinds[k].l());
        search.rules.least_w = std::fmin(search.rules.least_w, turnable ? least : kinds[k].w());
    }
    search.pairs.resize(kinds.size());
    for (Block& pair : pair_blocks(kinds, {l, w, kerf, plan.two_faced, plan.tick})) {
        search.pairs[pair.places[0].kind].push_back(
            {static_cast<std::int32_t>(search.blocks.size()), pair.places[1].kind});
        search.blocks.push_back(std::move(pair));
    }
    return search;
}

}  // namespace eavewright::detail
