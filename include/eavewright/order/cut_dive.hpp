// SPDX-License-Identifier: BSL-1.0
#pragma once

// Whole sticks out of parts of sticks: what is whole is kept, what is left is solved anew, and sticks are filled one by
// one by prices that learn.

#include <eavewright/order/cut_model.hpp>
#include <eavewright/order/cut_program.hpp>
#include <eavewright/order/fill_stick.hpp>
#include <eavewright/order/pack_sheets.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// A way to cut everything, or the part of one.
struct CutDraft {
    std::vector<FilledSticks> sticks{};
    std::int64_t count = 0;

    void add(const CutModel& model, const CutColumn& column, std::int64_t times) {
        sticks.push_back({column, times});
        count += times * model.sources[static_cast<std::size_t>(column.source)].count;
    }
};

/// The state of a search.
struct CutSearch {
    const CutModel& model;
    std::int64_t most_nodes;
    std::function<bool(const CutSearch&)> report;
    StickFiller filler{model};
    std::vector<CutColumn> columns{};
    std::int64_t nodes = 0;   ///< sticks filled and steps of the program
    std::int64_t bound = 0;   ///< no way of cutting counts less
    std::int64_t best = 0;    ///< count of the best way known
    std::int64_t common = 1;  ///< all counts are multiples of it
    CutDraft draft{};         ///< the best way that this search found, empty while the one it was given is the best
    std::int64_t next_report = 0;
    bool goes_on = true;
    SearchDice dice{20'261'127U};

    /// Counts a step, a larger one as several; false when the search is to end.
    bool step(std::int64_t work) {
        nodes += work;
        if (goes_on && nodes >= next_report) {
            next_report = nodes + 1 + most_nodes / 200;
            goes_on = report(*this);
        }
        goes_on = goes_on && nodes < most_nodes;
        return goes_on && best > bound;
    }
    [[nodiscard]] bool is_done() const { return !goes_on || best <= bound; }
    void keep(const CutDraft& found) {
        if (found.count < best) {
            best = found.count;
            draft = found;
        }
    }
};

[[nodiscard]] inline CutDemand whole_demand(const CutModel& model) {
    CutDemand demand;
    for (const CutKind& kind : model.kinds) {
        demand.left.push_back(static_cast<std::int64_t>(kind.pieces.size()));
    }
    for (const CutSource& source : model.sources) {
        demand.there.push_back(source.there);
    }
    return demand;
}
[[nodiscard]] inline bool is_nothing(const CutDemand& demand) {
    return std::all_of(demand.left.begin(), demand.left.end(), [](std::int64_t left) { return left == 0; });
}

/// How often a column can be taken from what is left.
[[nodiscard]] inline std::int64_t times_within(const CutDemand& demand, const CutColumn& column) {
    std::int64_t times = demand.there[static_cast<std::size_t>(column.source)];
    for (const KindCount& part : column.parts) {
        const std::int64_t most = demand.left[static_cast<std::size_t>(part.kind)] / part.count;
        times = times == endless || most < times ? most : times;
    }
    return times;
}
inline void take_sticks(CutSearch& search, CutDemand& demand, CutDraft& draft, const CutColumn& column,
                        std::int64_t times) {
    for (const KindCount& part : column.parts) {
        demand.left[static_cast<std::size_t>(part.kind)] -= part.count * times;
    }
    std::int64_t& there = demand.there[static_cast<std::size_t>(column.source)];
    there = there == endless ? endless : there - times;
    draft.add(search.model, column, times);
}

/// The source that gives most value for what it counts, filled.
[[nodiscard]] inline CutColumn fill_one(CutSearch& search, const CutDemand& demand,
                                        const std::vector<std::int64_t>& values, std::int64_t tries) {
    CutColumn best{0, {}};
    double most = -1.0;
    search.filler.prepare(values, demand.left);
    for (std::size_t s = 0; s < search.model.sources.size(); ++s) {
        const CutSource& source = search.model.sources[s];
        if (demand.there[s] == 0 || (s == search.model.made_up && !best.parts.empty())) {
            continue;
        }
        const std::int64_t value = search.filler.fill(source.room, 0, tries);
        const double worth = static_cast<double>(value) / (static_cast<double>(source.count) + 1e-3);
        if (value > 0 && worth > most) {
            most = worth;
            best = {static_cast<std::int32_t>(s), search.filler.parts()};
        }
    }
    return best;
}

/// The cheapest source that holds all that is left, if one does.
[[nodiscard]] inline bool fill_last(const CutModel& model, const CutDemand& demand, CutColumn& last) {
    std::int64_t size = 0;
    for (std::size_t k = 0; k < model.kinds.size(); ++k) {
        size += model.kinds[k].size * demand.left[k];
    }
    bool found = false;
    for (std::size_t s = 0; s < model.sources.size(); ++s) {
        const bool cheaper =
            !found || model.sources[s].count < model.sources[static_cast<std::size_t>(last.source)].count;
        if (demand.there[s] != 0 && model.sources[s].room >= size && cheaper) {
            last.source = static_cast<std::int32_t>(s);
            found = true;
        }
    }
    for (std::size_t k = 0; found && k < model.kinds.size(); ++k) {
        if (demand.left[k] > 0) {
            last.parts.push_back({static_cast<std::int32_t>(k), static_cast<std::int32_t>(demand.left[k])});
        }
    }
    return found;
}

/// Moves the values of what a stick was filled with towards what they cost there: what leaves room over becomes dear.
inline void correct_values(CutSearch& search, const CutColumn& column, std::vector<std::int64_t>& values, double old) {
    const CutSource& source = search.model.sources[static_cast<std::size_t>(column.source)];
    std::int64_t used = 0;
    for (const KindCount& part : column.parts) {
        used += search.model.kinds[static_cast<std::size_t>(part.kind)].size * part.count;
    }
    const double share = static_cast<double>(source.room) / static_cast<double>(used);
    for (const KindCount& part : column.parts) {
        const auto kind = static_cast<std::size_t>(part.kind);
        const double now = 1024.0 * static_cast<double>(search.model.kinds[kind].size) * share;
        values[kind] = 1 + static_cast<std::int64_t>(old * static_cast<double>(values[kind]) + (1.0 - old) * now);
    }
}

/// Fills sticks one after the other until nothing is left or it counts as much as the best. Values are corrected as it
/// goes.
inline void fill_rest(CutSearch& search, CutDemand demand, CutDraft draft, std::vector<std::int64_t>& values,
                      double old) {
    const auto work = static_cast<std::int64_t>(1 + search.model.kinds.size() / 500);
    while (!is_nothing(demand) && draft.count < search.best && search.step(work)) {
        CutColumn column{0, {}};
        if (fill_last(search.model, demand, column)) {
            take_sticks(search, demand, draft, column, 1);
            break;
        }
        column = fill_one(search, demand, values, 300);
        if (column.parts.empty()) {
            return;
        }
        const std::int64_t times = times_within(demand, column);
        take_sticks(search, demand, draft, column, times > 3 && old < 1.0 ? (times + 1) / 2 : times);
        correct_values(search, column, values, old);
    }
    if (is_nothing(demand)) {
        search.keep(draft);
    }
}

/// Fills what is left several times over, values by size at first.
inline void fill_often(CutSearch& search, const CutDemand& demand, const CutDraft& draft, std::size_t rounds) {
    std::vector<std::int64_t> values;
    for (const CutKind& kind : search.model.kinds) {
        values.push_back(1024 * kind.size);
    }
    for (std::size_t round = 0; round < rounds && !search.is_done(); ++round) {
        fill_rest(search, demand, draft, values, round == 0 ? 1.0 : 0.4 + 0.5 * search.dice.share());
    }
}

/// Whole ones that counts can sum to, at least `value`.
[[nodiscard]] inline std::int64_t round_up_count(const CutSearch& search, double value) {
    const auto common = static_cast<double>(search.common);
    return static_cast<std::int64_t>(std::ceil(value / common - 1e-6)) * search.common;
}

/// One dive: solve, keep what is whole, else one stick of the fullest column, or now and then of another; to the end.
inline void dive(CutSearch& search, std::size_t rounds, bool strays) {
    CutDemand demand = whole_demand(search.model);
    CutDraft draft;
    while (!is_nothing(demand) && !search.is_done()) {
        CutProgram program{search.model, demand, search.columns, search.filler};
        const bool solved = program.solve([&] { return search.step(program.work()); });
        if (!solved || draft.count + round_up_count(search, program.value()) >= search.best) {
            return;
        }
        std::vector<UsedColumn> used = program.used();
        bool took = false;
        for (UsedColumn& each : used) {
            const CutColumn column = search.columns[each.column];
            const auto whole = static_cast<std::int64_t>(each.times + 1e-4);
            const std::int64_t times = lesser(whole, times_within(demand, column));
            if (times > 0) {
                take_sticks(search, demand, draft, column, times);
                each.times -= static_cast<double>(times);
                took = true;
            }
        }
        fill_often(search, demand, draft, rounds);
        std::stable_sort(used.begin(), used.end(),
                         [](const UsedColumn& a, const UsedColumn& b) { return a.times > b.times; });
        std::size_t at = 0;
        while (strays && at + 1 < used.size() && search.dice.one_in(3)) {
            ++at;
        }
        for (std::size_t i = 0; i < used.size() && (!took || i == 0); ++i) {
            const CutColumn column = search.columns[used[(at + i) % used.size()].column];
            if (times_within(demand, column) > 0 && used[(at + i) % used.size()].times > 1e-3) {
                take_sticks(search, demand, draft, column, 1);
                took = true;
            }
        }
        if (!took) {
            return;
        }
    }
    if (is_nothing(demand)) {
        search.keep(draft);
    }
}

}  // namespace eavewright::detail
