// SPDX-License-Identifier: BSL-1.0
#pragma once

// Runs of purlin or fascia that may be spliced at given places only: where to splice so that the fewest sticks are cut.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/cut_bound.hpp>
#include <eavewright/order/cut_model.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/order/search_cuts.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// A run to be covered from its start to its end.
struct SpliceRun {
    Length length;
    std::vector<Length> places;  ///< where it may be spliced, ascending from the start, within it
};

/// How runs are spliced and their pieces cut.
struct SplicePlan {
    CutSearchPlan cuts;
    Length overlap =
        no_length;  ///< of two pieces at a splice, half of it each side of the place; none where they are butted
    Length shortest = one_inch / 64;  ///< no piece is shorter, where the run is not
    std::size_t rounds = 8;           ///< choices of splices that are cut by search, at most
};

/// A run as it is spliced.
struct SplicedRun {
    std::vector<std::size_t> places;  ///< indexes into the run's places
    std::vector<std::size_t> pieces;  ///< indexes into the pieces, from the start of the run
};
template <>
struct FieldsOf<SplicedRun> {
    static constexpr auto list =
        field_list(field("places", FieldUnit::count, "indexes of the places where it is spliced", &SplicedRun::places),
                   field("pieces", FieldUnit::count, "indexes of its pieces, from its start", &SplicedRun::pieces));
};

/// Runs spliced and cut, which `find_faults_of_splices` accepts or rejects on its own.
struct SplicedCuts {
    std::vector<SplicedRun> runs;
    std::vector<Length> pieces;  ///< run by run
    FoundCuts cuts;              ///< its bound holds for these pieces
    /// Holds however the runs are spliced: weights for every piece that a run could have, each run taken to be spliced
    /// so that its pieces weigh least.
    CutBound bound;
    bool proven;  ///< the value of `cuts` is the bound's
};
template <>
struct FieldsOf<SplicedCuts> {
    static constexpr auto list =
        field_list(field("runs", FieldUnit::none, "where each run is spliced", &SplicedCuts::runs),
                   field("pieces", FieldUnit::length, "all pieces, run by run", &SplicedCuts::pieces),
                   field("cuts", FieldUnit::none, "how they are cut", &SplicedCuts::cuts),
                   field("bound", FieldUnit::none, "holds however the runs are spliced", &SplicedCuts::bound),
                   field("proven", FieldUnit::none, "the value is the bound's", &SplicedCuts::proven));
};

/// Most places where one run may be spliced, and most runs.
inline constexpr std::size_t most_splice_places = 200;
inline constexpr std::size_t most_splice_runs = 2'000;

inline void find_faults(const SpliceRun& run, const Path& path, Faults& faults) {
    require_within(run.length, one_inch / 64.0, Length::from_feet(2000.0), Path{path, "length"}, faults);
    const Path list{path, "places"};
    if (run.places.size() > most_splice_places) {
        faults.push_back(Fault{FaultCode::too_much_work, list.text(), std::to_string(run.places.size()) + " places",
                               "no more than " + std::to_string(most_splice_places)});
        return;
    }
    for (std::size_t i = 0; i < run.places.size(); ++i) {
        const Length before = i == 0 ? no_length : run.places[i - 1];
        if (!(run.places[i] > before && run.places[i] < run.length)) {
            faults.push_back(Fault{FaultCode::out_of_order, Path{list, i}.text(), describe_length(run.places[i]),
                                   "beyond " + describe_length(before) + ", within the run"});
        }
    }
}
inline void find_faults(const std::vector<SpliceRun>& runs, const Path& path, Faults& faults) {
    if (runs.size() > most_splice_runs) {
        faults.push_back(Fault{FaultCode::too_much_work, path.text(), std::to_string(runs.size()) + " runs",
                               "no more than " + std::to_string(most_splice_runs)});
    }
    for (std::size_t i = 0; i < runs.size() && i < most_splice_runs; ++i) {
        find_faults(runs[i], Path{path, i}, faults);
    }
}
inline void find_faults(const SplicePlan& plan, const Path& path, Faults& faults) {
    find_faults(plan.cuts, path, faults);
    require_within(plan.overlap, no_length, Length::from_feet(20.0), Path{path, "overlap"}, faults);
    require_within(plan.shortest, one_inch / 64.0, Length::from_feet(20.0), Path{path, "shortest"}, faults);
}

namespace detail {
/// Ends of a run's possible pieces: its start, its places, its end.
[[nodiscard]] inline Length end_of(const SpliceRun& run, std::size_t end) {
    return end == 0 ? no_length : end > run.places.size() ? run.length : run.places[end - 1];
}
/// The piece between two ends, with its share of the overlaps.
[[nodiscard]] inline Length piece_between(const SpliceRun& run, Length overlap, std::size_t from, std::size_t to) {
    Length length = end_of(run, to) - end_of(run, from);
    length += from > 0 ? overlap / 2.0 : no_length;
    length += to <= run.places.size() ? overlap / 2.0 : no_length;
    return length;
}
[[nodiscard]] inline bool may_be_piece(Length length, const SplicePlan& plan, Length longest, bool whole) {
    return length <= longest + count_tolerance / 2.0 && (whole || length + count_tolerance >= plan.shortest);
}
[[nodiscard]] inline Length longest_usable(const StockPlan& plan) {
    Length longest = no_length;
    for (const StockLength& stock : plan.stock) {
        if (may_take(stock, true) || may_take(stock, false)) {
            longest = longer(longest, usable_length(plan, stock.length));
        }
    }
    return longest;
}

/// What the pieces of a run weigh at least, by `weigh(length)`, and where it is then spliced: the shortest way from its
/// start to its end. None where no splices make it of pieces that can be had.
struct LightestSplices {
    double weight;
    std::vector<std::size_t> places;
};
template <class Weigh>
[[nodiscard]] std::optional<LightestSplices> lightest_splices(const SpliceRun& run, const SplicePlan& plan,
                                                              Length longest, Weigh&& weigh) {
    const std::size_t last = run.places.size() + 1;
    std::vector<double> least(last + 1, -1.0);
    std::vector<std::size_t> before(last + 1, 0);
    least[0] = 0.0;
    for (std::size_t to = 1; to <= last; ++to) {
        for (std::size_t from = 0; from < to; ++from) {
            const Length piece = piece_between(run, plan.overlap, from, to);
            if (least[from] < 0.0 || !may_be_piece(piece, plan, longest, from == 0 && to == last)) {
                continue;
            }
            const double weight = least[from] + weigh(piece);
            if (least[to] < 0.0 || weight < least[to]) {
                least[to] = weight;
                before[to] = from;
            }
        }
    }
    if (least[last] < 0.0) {
        return std::nullopt;
    }
    LightestSplices found{least[last], {}};
    for (std::size_t at = before[last]; at > 0; at = before[at]) {
        found.places.insert(found.places.begin(), at - 1);
    }
    return found;
}

/// Every length that a piece of some run could have, longest first, up to `same_length`.
[[nodiscard]] inline std::vector<Length> possible_pieces(const std::vector<SpliceRun>& runs, const SplicePlan& plan) {
    const Length longest = longest_usable(plan.cuts.stock);
    std::vector<Length> all;
    for (const SpliceRun& run : runs) {
        const std::size_t last = run.places.size() + 1;
        for (std::size_t to = 1; to <= last; ++to) {
            for (std::size_t from = 0; from < to; ++from) {
                const Length piece = piece_between(run, plan.overlap, from, to);
                if (may_be_piece(piece, plan, longest, from == 0 && to == last)) {
                    all.push_back(piece);
                }
            }
        }
    }
    std::sort(all.begin(), all.end(), [](Length a, Length b) { return b < a; });
    std::vector<Length> lengths;
    for (const Length length : all) {
        if (lengths.empty() || lengths.back() - length > same_length) {
            lengths.push_back(length);
        }
    }
    return lengths;
}

/// Most that the weights of all runs may sum to, so that their sums are exact as doubles.
inline constexpr double most_run_weight = 4e15;

/// The least that all runs can weigh, whatever their splices; none where a piece has no weight.
[[nodiscard]] inline std::optional<std::int64_t> weigh_runs(const std::vector<SpliceRun>& runs, const SplicePlan& plan,
                                                            const std::vector<CutWeight>& weights) {
    const Length longest = longest_usable(plan.cuts.stock);
    bool is_weighed = true;
    const auto weigh = [&](Length piece) {
        const auto at = std::lower_bound(weights.begin(), weights.end(), piece + same_length,
                                         [](const CutWeight& w, Length l) { return w.length > l; });
        is_weighed = is_weighed && at != weights.end() && at->length >= piece - same_length;
        return is_weighed ? static_cast<double>(at->weight) : 0.0;
    };
    double all = 0.0;
    for (const SpliceRun& run : runs) {
        const std::optional<LightestSplices> least = lightest_splices(run, plan, longest, weigh);
        all += least ? least->weight : most_run_weight;
    }
    return is_weighed && all < most_run_weight ? std::optional{static_cast<std::int64_t>(all)} : std::nullopt;
}

/// Value of weights for runs, less what is on hand.
[[nodiscard]] inline std::int64_t value_for_runs(const CutBound& bound, const StockPlan& plan, std::int64_t weight) {
    double off = 0.0;
    for (std::size_t i = 0; i < plan.stock.size(); ++i) {
        off += static_cast<double>(bound.hand_prices[i]) * static_cast<double>(plan.stock[i].on_hand);
    }
    return off < most_cut_weight ? value_of_weights(plan, bound.goal, bound.unit, weight - price_of_hand(bound, plan))
                                 : 0;
}
/// A piece may come from a stick as often as it fits.
[[nodiscard]] inline std::vector<std::int64_t> any_counts(const CutBound& bound) {
    return std::vector<std::int64_t>(bound.weights.size(), static_cast<std::int64_t>(most_cut_pieces));
}

inline void judge_run(const SpliceRun& run, const SplicedRun& spliced, const SplicePlan& plan,
                      const std::vector<Length>& pieces, const Path& path, Faults& faults) {
    const auto refuse = [&](const std::string& given, const std::string& required) {
        faults.push_back(Fault{FaultCode::contradiction, path.text(), given, required});
    };
    std::vector<std::size_t> ends{0};
    for (const std::size_t place : spliced.places) {
        if (place >= run.places.size() || place + 1 <= ends.back()) {
            return refuse("place " + std::to_string(place), "places of the run, ascending");
        }
        ends.push_back(place + 1);
    }
    ends.push_back(run.places.size() + 1);
    if (spliced.pieces.size() + 1 != ends.size()) {
        return refuse(std::to_string(spliced.pieces.size()) + " pieces", "one more than its splices");
    }
    for (std::size_t i = 0; i < spliced.pieces.size(); ++i) {
        const Length needed = piece_between(run, plan.overlap, ends[i], ends[i + 1]);
        const std::size_t piece = spliced.pieces[i];
        if (piece >= pieces.size() || magnitude(pieces[piece] - needed) > same_length) {
            return refuse("piece " + std::to_string(piece), describe_length(needed));
        }
        if (needed + count_tolerance < plan.shortest && spliced.pieces.size() > 1) {
            return refuse(describe_length(needed), "no piece below " + describe_length(plan.shortest));
        }
    }
}
}  // namespace detail

/// Everything wrong with spliced runs, judged on their own: a splice where none may be, a piece of another length or
/// used twice, the cuts, and a bound that does not hold for every way of splicing.
[[nodiscard]] inline Faults find_faults_of_splices(const std::vector<SpliceRun>& runs, const SplicePlan& plan,
                                                   const SplicedCuts& spliced) {
    Faults faults = find_faults_of_found_cuts(spliced.pieces, plan.cuts.stock, spliced.cuts);
    const Path list{"runs"};
    std::vector<int> used(spliced.pieces.size(), 0);
    for (std::size_t r = 0; r < runs.size() && r < spliced.runs.size(); ++r) {
        detail::judge_run(runs[r], spliced.runs[r], plan, spliced.pieces, Path{list, r}, faults);
        for (const std::size_t piece : spliced.runs[r].pieces) {
            used[piece < used.size() ? piece : 0] += piece < used.size() ? 1 : 2;
        }
    }
    const bool all_once = std::all_of(used.begin(), used.end(), [](int times) { return times == 1; });
    if (runs.size() != spliced.runs.size() || !all_once) {
        faults.push_back(Fault{FaultCode::contradiction, "runs", std::to_string(spliced.runs.size()) + " runs",
                               "every run, and every piece in one of them"});
    }
    if (!detail::is_formed(plan.cuts.stock, spliced.bound) || spliced.bound.goal != spliced.cuts.bound.goal) {
        faults.push_back(
            Fault{FaultCode::out_of_range, "bound", "", "weights of lengths that descend, none below zero"});
    }
    const std::optional<std::int64_t> weight =
        faults.empty() ? detail::weigh_runs(runs, plan, spliced.bound.weights) : std::nullopt;
    if (!weight) {
        faults.push_back(
            Fault{FaultCode::contradiction, "bound.weights", "", "a weight for every piece that a run can have"});
        return faults;
    }
    detail::judge_sticks(plan.cuts.stock, spliced.bound, detail::any_counts(spliced.bound), faults);
    const std::int64_t value = detail::value_for_runs(spliced.bound, plan.cuts.stock, *weight);
    if (value != spliced.bound.value || spliced.proven != (spliced.cuts.value == value)) {
        faults.push_back(Fault{FaultCode::contradiction, "bound.value", std::to_string(spliced.bound.value),
                               std::to_string(value) + ", as weighed, and proven where it is met"});
    }
    return faults;
}

namespace detail {
/// Where each run is spliced.
using SpliceChoice = std::vector<std::vector<std::size_t>>;

/// The state of choosing splices.
struct SpliceSearch {
    const std::vector<SpliceRun>& runs;
    const SplicePlan& plan;
    std::vector<Length> lengths;  ///< that a piece may have
    Length step;
    std::optional<SplicedCuts> best{};
    std::optional<CutBound> bound{};

    [[nodiscard]] bool is_done() const { return best && bound && best->cuts.value <= bound->value; }

    template <class Weigh>
    [[nodiscard]] SpliceChoice choose(Weigh&& weigh) const {
        SpliceChoice choice;
        for (std::size_t r = 0; r < runs.size(); ++r) {
            std::optional<LightestSplices> least =
                lightest_splices(runs[r], plan, longest_usable(plan.cuts.stock), weigh);
            if (!least) {
                throw FaultError{Fault{FaultCode::does_not_fit, "runs[" + std::to_string(r) + "]",
                                       describe_length(runs[r].length),
                                       "places to splice it, close enough for the longest stock to be had"}};
            }
            choice.push_back(std::move(least->places));
        }
        return choice;
    }
    /// Cuts a choice, and keeps it where it is better.
    void try_choice(const SpliceChoice& choice) {
        const CutBound none{plan.cuts.goal, step, 1, {}, {}, 0};
        SplicedCuts tried{{}, {}, nothing_found(none), none, false};
        for (std::size_t r = 0; r < runs.size(); ++r) {
            SplicedRun run{choice[r], {}};
            std::size_t from = 0;
            for (std::size_t i = 0; i <= choice[r].size(); ++i) {
                const std::size_t to = i < choice[r].size() ? choice[r][i] + 1 : runs[r].places.size() + 1;
                run.pieces.push_back(tried.pieces.size());
                tried.pieces.push_back(piece_between(runs[r], plan.overlap, from, to));
                from = to;
            }
            tried.runs.push_back(std::move(run));
        }
        tried.cuts = search_cuts(tried.pieces, plan.cuts);
        if (!best || tried.cuts.value < best->cuts.value) {
            best = std::move(tried);
        }
    }
    /// Makes a bound of weights for all lengths, and keeps it where it says more.
    void try_weights(const std::vector<std::int64_t>& weights, std::int64_t unit) {
        CutBound tried{plan.cuts.goal, step, unit, {}, {}, 0};
        for (std::size_t i = 0; i < lengths.size(); ++i) {
            tried.weights.push_back({lengths[i], weights[i]});
        }
        fit_weights(tried, plan.cuts.stock, any_counts(tried));
        if (const std::optional<std::int64_t> weight = weigh_runs(runs, plan, tried.weights)) {
            tried.value = value_for_runs(tried, plan.cuts.stock, *weight);
        }
        if (!bound || tried.value > bound->value) {
            bound = std::move(tried);
        }
    }
};

/// Weights for all lengths out of weights for some: each other length, the longest first, weighs what a stick has to
/// spare for it beside what may be on it already.
[[nodiscard]] inline std::vector<std::int64_t> lift_weights(const SpliceSearch& search, const CutBound& some) {
    const StockPlan& stock = search.plan.cuts.stock;
    const std::int64_t room = longest_room(stock, some.step);
    std::vector<WeighedKind> kinds = weigh_kinds(stock, some, any_counts(some));
    std::vector<Filling> best = best_fillings(kinds, room, most_fillings_made);
    std::vector<Filling> merged;
    std::vector<std::int64_t> weights;
    for (const Length length : search.lengths) {
        const auto known = std::find_if(some.weights.begin(), some.weights.end(), [&](const CutWeight& w) {
            return magnitude(w.length - length) <= same_length;
        });
        std::int64_t weight = known != some.weights.end() ? known->weight : 0;
        const std::int64_t size = least_steps(length + stock.kerf, some.step);
        if (known == some.weights.end() && !best.empty() && size > 0) {
            weight = INT64_MAX;
            for (const StockLength& each : stock.stock) {
                const std::int64_t holds = most_steps_of(stock, each.length, some.step);
                const std::int64_t full = counts_for(some.goal, each, !each.for_sale) * some.unit;
                for (std::int64_t count = 1; count * size <= holds; ++count) {
                    weight = lesser(weight, (full - weight_within(best, holds - count * size)) / count);
                }
            }
            weight = weight < 0 || weight == INT64_MAX ? 0 : weight;
            for (std::int64_t copy = 0; weight > 0 && copy < room / size; ++copy) {
                add_copy(best, {size, weight, 1}, room, merged);
                best.swap(merged);
            }
        }
        weights.push_back(weight);
    }
    return weights;
}
/// Above so many lengths only plain weights are tried, since each takes a listing of what is beside it.
inline constexpr std::size_t most_lifted = 400;

/// Weights by size, or with pieces that leave room for none below a limit a whole stick, in steps.
inline void try_plain_weights(SpliceSearch& search) {
    const std::int64_t room = longest_room(search.plan.cuts.stock, search.step);
    for (std::size_t limit = 0; limit <= search.lengths.size(); limit += 1 + search.lengths.size() / 20) {
        const Length least = limit == 0 ? no_length : search.lengths[limit - 1];
        std::vector<std::int64_t> weights;
        for (const Length length : search.lengths) {
            const std::int64_t size = least_steps(length + search.plan.cuts.stock.kerf, search.step);
            const bool fills = size > room - least_steps(least + search.plan.cuts.stock.kerf, search.step);
            weights.push_back(length < least ? 0 : (fills ? room : size) * 1024);
        }
        search.try_weights(weights, 1);
    }
}
}  // namespace detail

/// Splices runs at places where that is allowed, and cuts their pieces from as few sticks, or at as little cost, as is
/// found; a run that fits a stick may stay whole. Tried are the fewest pieces, long ones first from either end, the
/// least material, and what the prices of each try then say, for all runs or every other, `plan.rounds` in all; the
/// bound holds for every way of splicing.
/// Throws `FaultError`: the first fault of `plan` and `runs`, does_not_fit for a run that no splices make of pieces
/// that can be had, and as `search_cuts`.
[[nodiscard]] inline SplicedCuts splice_runs(const std::vector<SpliceRun>& runs, const SplicePlan& plan) {
    require_sound(plan, "order");
    require_sound(runs, "runs");
    detail::SpliceSearch search{runs, plan, detail::possible_pieces(runs, plan), one_inch};
    bool is_exact = false;
    search.step = detail::base_step(search.lengths, plan.cuts.stock, is_exact);
    const Length longest = detail::longest_usable(plan.cuts.stock);
    const auto size = [](Length piece) { return inches(piece); };
    // A constant for each piece makes them few; the square makes them unlike, the long ones first.
    const auto few = [&](Length piece) {
        const double share = piece / longest;
        return 4.0 - share * share;
    };
    std::vector<detail::SpliceChoice> choices{search.choose(few), search.choose(size)};
    detail::try_plain_weights(search);
    for (std::size_t round = 0; round < plan.rounds + 1 && round < choices.size() && !search.is_done(); ++round) {
        search.try_choice(choices[round]);
        if (search.lengths.size() > detail::most_lifted || search.is_done()) {
            continue;
        }
        const std::vector<std::int64_t> weights = detail::lift_weights(search, search.best->cuts.bound);
        search.try_weights(weights, search.best->cuts.bound.unit);
        const auto weigh = [&](Length piece) {
            const auto at = std::lower_bound(search.lengths.begin(), search.lengths.end(), piece + detail::same_length,
                                             [](Length a, Length b) { return a > b; });
            return static_cast<double>(weights[static_cast<std::size_t>(at - search.lengths.begin())]) +
                   1e-3 * inches(piece);
        };
        detail::SpliceChoice all = search.choose(weigh);
        detail::SpliceChoice some = all;
        for (std::size_t r = round % 2; r < runs.size(); r += 2) {
            some[r] = search.best->runs[r].places;
        }
        for (const detail::SpliceChoice& choice : {all, some}) {
            if (std::find(choices.begin(), choices.end(), choice) == choices.end()) {
                choices.push_back(choice);
            }
        }
    }
    SplicedCuts found = std::move(*search.best);
    found.bound = std::move(*search.bound);
    found.proven = found.cuts.value == found.bound.value;
    return found;
}

}  // namespace eavewright
