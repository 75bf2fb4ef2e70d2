// SPDX-License-Identifier: BSL-1.0
// The search against an exact model in GLPK: every way of filling a stick is a column, and the solver proves the best whole
// numbers of them.
#include <eavewright/order/search_cuts.hpp>

#include <doctest/doctest.h>
#include <glpk.h>

#include "support/printing.hpp"

#include <cstdint>
#include <optional>
#include <random>
#include <vector>

using namespace eavewright;

namespace {
/// A purlin list in whole sixteenths, as neither side sees it.
struct List {
    std::vector<int> lengths;
    std::vector<int> counts;
    int kerf;
    struct Source {
        int length;
        int on_hand;
        bool for_sale;
        int cost;
    };
    std::vector<Source> sources;
    CutGoal goal;
};

struct Column {
    std::size_t source;
    bool on_hand;
    std::vector<int> parts;
};
/// Every filling that leaves no room for another piece, of every source.
void list_columns(const List& list, std::size_t kind, int room, Column& column, std::vector<Column>& columns) {
    if (kind == list.lengths.size()) {
        for (std::size_t k = 0; k < kind; ++k) {
            if (column.parts[k] < list.counts[k] && list.lengths[k] + list.kerf <= room) {
                return;
            }
        }
        columns.push_back(column);
        return;
    }
    const int size = list.lengths[kind] + list.kerf;
    for (int count = 0; count <= list.counts[kind] && count * size <= room; ++count) {
        column.parts[kind] = count;
        list_columns(list, kind + 1, room - count * size, column, columns);
    }
    column.parts[kind] = 0;
}

/// The least count, proven; none where the solver ends without a proof.
std::optional<double> least_by_solver(const List& list) {
    std::vector<Column> columns;
    for (std::size_t s = 0; s < list.sources.size(); ++s) {
        for (const bool on_hand : {true, false}) {
            if (on_hand ? list.sources[s].on_hand > 0 : list.sources[s].for_sale) {
                Column column{s, on_hand, std::vector<int>(list.lengths.size(), 0)};
                list_columns(list, 0, list.sources[s].length + list.kerf, column, columns);
            }
        }
    }
    const int kinds = static_cast<int>(list.lengths.size());
    glp_term_out(GLP_OFF);
    glp_prob* problem = glp_create_prob();
    glp_set_obj_dir(problem, GLP_MIN);
    glp_add_rows(problem, kinds + static_cast<int>(list.sources.size()));
    for (int k = 0; k < kinds; ++k) {
        glp_set_row_bnds(problem, k + 1, GLP_LO, list.counts[static_cast<std::size_t>(k)], 0.0);
    }
    for (std::size_t s = 0; s < list.sources.size(); ++s) {
        glp_set_row_bnds(problem, kinds + 1 + static_cast<int>(s), GLP_UP, 0.0, list.sources[s].on_hand);
    }
    glp_add_cols(problem, static_cast<int>(columns.size()));
    for (std::size_t c = 0; c < columns.size(); ++c) {
        const Column& column = columns[c];
        const List::Source& source = list.sources[column.source];
        const int each = list.goal == CutGoal::least_cost ? source.cost : 1;
        const int count = column.on_hand ? (list.goal == CutGoal::fewest_sticks ? 1 : 0) : each;
        const int j = static_cast<int>(c) + 1;
        glp_set_obj_coef(problem, j, count);
        glp_set_col_bnds(problem, j, GLP_LO, 0.0, 0.0);
        glp_set_col_kind(problem, j, GLP_IV);
        std::vector<int> rows{0};
        std::vector<double> values{0.0};
        for (int k = 0; k < kinds; ++k) {
            if (column.parts[static_cast<std::size_t>(k)] > 0) {
                rows.push_back(k + 1);
                values.push_back(column.parts[static_cast<std::size_t>(k)]);
            }
        }
        if (column.on_hand) {
            rows.push_back(kinds + 1 + static_cast<int>(column.source));
            values.push_back(1.0);
        }
        glp_set_mat_col(problem, j, static_cast<int>(rows.size()) - 1, rows.data(), values.data());
    }
    glp_iocp options;
    glp_init_iocp(&options);
    options.presolve = GLP_ON;
    options.gmi_cuts = GLP_ON;
    options.mir_cuts = GLP_ON;
    options.tm_lim = 20'000;
    const int ended = glp_intopt(problem, &options);
    // Without a proof the objective means nothing: only the status is asked.
    std::optional<double> least;
    if (ended == 0 && glp_mip_status(problem) == GLP_OPT) {
        least = glp_mip_obj_val(problem);
    }
    glp_delete_prob(problem);
    return least;
}

List random_list(std::mt19937& random) {
    const auto whole = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
    };
    List list{{}, {}, whole(0, 4), {}, static_cast<CutGoal>(whole(0, 2))};
    list.sources.push_back({192 * 16, whole(0, 3) == 0 ? whole(1, 3) : 0, true, 1600});
    for (int i = whole(0, 2); i > 0; --i) {
        const int feet = whole(8, 20);
        list.sources.push_back(
            {feet * 192, whole(0, 1) * whole(1, 4), whole(0, 1) == 1, feet * 100 + 10 * whole(-20, 20)});
    }
    for (int i = whole(1, 9); i > 0; --i) {
        list.lengths.push_back(whole(30 * 16, 150 * 16));
        list.counts.push_back(whole(1, 9));
    }
    return list;
}

FoundCuts search_list(const List& list) {
    CutSearchPlan plan{.stock = {.stock = {}, .kerf = one_inch / 16 * list.kerf}, .goal = list.goal};
    for (const List::Source& source : list.sources) {
        plan.stock.stock.push_back({.length = one_inch / 16 * source.length,
                                    .on_hand = source.on_hand,
                                    .for_sale = source.for_sale,
                                    .cost = Money::from_hundredths(source.cost)});
    }
    std::vector<Length> pieces;
    for (std::size_t k = 0; k < list.lengths.size(); ++k) {
        pieces.insert(pieces.end(), static_cast<std::size_t>(list.counts[k]), one_inch / 16 * list.lengths[k]);
    }
    FoundCuts found = search_cuts(pieces, plan);
    CHECK(find_faults_of_found_cuts(pieces, plan.stock, found).empty());
    return found;
}
}  // namespace

TEST_CASE("cutting peer: purlin lists as few as an exact solver's, and no bound above it") {
    std::mt19937 random{20261127};
#ifdef EAVEWRIGHT_FULL_SWEEPS
    const int lists = 1000;
#else
    const int lists = 200;
#endif
    int compared = 0;
    int proven = 0;
    for (int i = 0; i < lists; ++i) {
        INFO("list ", i);
        const List list = random_list(random);
        const FoundCuts found = search_list(list);
        const std::optional<double> least = least_by_solver(list);
        proven += found.proven ? 1 : 0;
        if (least) {
            ++compared;
            CHECK(static_cast<double>(found.value) == *least);
            CHECK(static_cast<double>(found.bound.value) <= *least);
        }
    }
    MESSAGE(compared << " of " << lists << " lists proven by the solver, " << proven << " by the search's own bound");
    CHECK(compared >= lists - lists / 100);  // a list that the solver does not settle in its time says nothing
    CHECK(proven > lists / 2);
}

TEST_CASE("cutting peer: the solver's status is asked, not its objective alone") {
    // One stick on hand for two pieces: there is no way, whatever the objective says.
    const List list{{100 * 16}, {2}, 0, {{192 * 16, 1, false, 1600}}, CutGoal::fewest_sticks};
    CHECK_FALSE(least_by_solver(list).has_value());
}
