// SPDX-License-Identifier: BSL-1.0
#pragma once

// Finds which cut panels of a roof come out of one bought panel, by one slanted cut.

#include <eavewright/fault.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/tiling/panel_lengths.hpp>
#include <eavewright/tiling/panel_pairs.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
/// A panel with a slanted end, as pairing sees it.
struct SlantedPanel {
    std::size_t plane;
    std::size_t piece;
    const CutPanels* laid;
    const CutPanel* panel;
};

/// What two panels make of one, or why not.
struct PairTry {
    NoPair why;  ///< where `pair` is none
    std::optional<PanelPair> pair;
};

[[nodiscard]] inline bool same_stock(const CutPanels& a, const CutPanels& b) {
    return a.panel.cover == b.panel.cover && a.panel.side_lap == b.panel.side_lap &&
           a.panel.rib_spacing == b.panel.rib_spacing && a.increment == b.increment;
}

/// Where the cut of an end meets the left edge of the material, up from the panel's nearer end, once the panel is turned so
/// that it lies as `turned` and `over` say.
[[nodiscard]] inline Length cut_at_left(const SlantedPanel& one, const PanelEnd& end, bool turned, bool over) {
    const PanelStock& stock = one.laid->panel;
    const Length lap = one.laid->start == StartCorner::eave_left ? no_length : stock.side_lap;
    Length x = end.line.front().along + lap;
    Length y = end.line.front().up;
    double slope = end.slope;
    if (over) {
        y = one.panel->length - y;
        slope = -slope;
    }
    if (turned) {
        x = stock.cover + stock.side_lap - x;
        y = one.panel->length - y;
    }
    return y - x * slope;
}

/// `first` with one end cut, under `second` with one end cut. Ends face each other, hence how each must be turned.
[[nodiscard]] inline PairTry try_ends(const SlantedPanel& first, bool first_upper, const SlantedPanel& second,
                                      bool second_lower, const PairPlan& plan) {
    const PanelEnd& below = first_upper ? first.panel->upper : first.panel->lower;
    const PanelEnd& above = second_lower ? second.panel->lower : second.panel->upper;
    if (!is_slanted(below) || !is_slanted(above)) {
        return {NoPair::no_such_slope, std::nullopt};
    }
    const PanelStock& stock = first.laid->panel;
    const Length across = stock.cover + stock.side_lap;
    const bool like = magnitude(across * (below.slope - above.slope)) <= count_tolerance;
    const bool mirrored = magnitude(across * (below.slope + above.slope)) <= count_tolerance;
    if (!like && !mirrored) {
        return {NoPair::no_such_slope, std::nullopt};
    }
    if (!like && !plan.two_faced) {
        return {NoPair::would_be_turned_over, std::nullopt};
    }
    // Turned over top to bottom, an end faces the other way; turned end for end as well, it faces as before.
    PanelPair pair{{first.plane, first.piece, !first_upper, false, no_length},
                   {second.plane, second.piece, like ? !second_lower : second_lower, !like, no_length},
                   no_length,
                   no_length};
    const bool laps_right =
        (laps_over_left(*first.laid) != pair.first.turned) == (laps_over_left(*second.laid) != pair.second.turned);
    if (!laps_right && !plan.laps_either_way && !plan.two_faced) {
        return {NoPair::laps_do_not_turn, std::nullopt};
    }
    const Length between = plan.clearance * std::sqrt(1.0 + below.slope * below.slope);
    const Length up = cut_at_left(first, below, pair.first.turned, false) + between -
                      cut_at_left(second, above, pair.second.turned, pair.second.over);
    const Length least = longer(longer(up, no_length) + second.panel->length, first.panel->length);
    pair.bought = round_up_to_increment(least, first.laid->increment);
    pair.saved = first.panel->order_length + second.panel->order_length - pair.bought;
    pair.second.at = longer(pair.bought - second.panel->length, longer(up, no_length));
    if (pair.bought > shorter(first.laid->longest, second.laid->longest) + count_tolerance) {
        return {NoPair::too_long, std::nullopt};
    }
    if (!(pair.saved > count_tolerance) || pair.saved + count_tolerance < plan.least_saved) {
        return {NoPair::saves_nothing, std::nullopt};
    }
    return {NoPair::partners_taken, pair};
}

/// The best that two panels make together.
[[nodiscard]] inline PairTry try_pair(const SlantedPanel& a, const SlantedPanel& b, const PairPlan& plan) {
    PairTry best{NoPair::no_such_slope, std::nullopt};
    if (!same_stock(*a.laid, *b.laid)) {
        return best;
    }
    for (const bool a_upper : {true, false}) {
        for (const bool b_lower : {true, false}) {
            PairTry here = try_ends(a, a_upper, b, b_lower, plan);
            const bool better = here.pair && (!best.pair || here.pair->saved > best.pair->saved);
            if (better || (!best.pair && !here.pair && here.why < best.why)) {
                best = here;
            }
        }
    }
    return best;
}

/// All pairs that save, and the nearest that each panel came to one.
struct PairTable {
    std::size_t size;
    std::vector<double> saved;  ///< size x size; 0 where the two do not pair
    std::vector<NoPair> nearest;
    [[nodiscard]] double at(std::size_t a, std::size_t b) const { return saved[a * size + b]; }
};

struct PairEdge {
    std::size_t a;
    std::size_t b;
    Length saved;
    Length bought;
};

[[nodiscard]] inline PairTable pair_table(const std::vector<SlantedPanel>& panels, const PairPlan& plan,
                                          std::vector<PairEdge>& edges) {
    const std::size_t n = panels.size();
    PairTable table{n, std::vector<double>(n * n, 0.0), std::vector<NoPair>(n, NoPair::no_such_slope)};
    for (std::size_t a = 0; a < n; ++a) {
        for (std::size_t b = a + 1; b < n; ++b) {
            const PairTry here = try_pair(panels[a], panels[b], plan);
            table.nearest[a] = here.why < table.nearest[a] ? here.why : table.nearest[a];
            table.nearest[b] = here.why < table.nearest[b] ? here.why : table.nearest[b];
            if (here.pair) {
                table.saved[a * n + b] = inches(here.pair->saved);
                table.saved[b * n + a] = inches(here.pair->saved);
                edges.push_back({a, b, here.pair->saved, here.pair->bought});
            }
        }
    }
    return table;
}

/// Partners, greatest saving first, of two that save alike the longer one: it fits fewer others.
[[nodiscard]] inline std::vector<std::optional<std::size_t>> greedy_partners(std::vector<PairEdge> edges,
                                                                             std::size_t count) {
    std::stable_sort(edges.begin(), edges.end(), [](const PairEdge& a, const PairEdge& b) {
        return a.saved > b.saved || (a.saved == b.saved && a.bought > b.bought);
    });
    std::vector<std::optional<std::size_t>> partner(count);
    for (const PairEdge& edge : edges) {
        if (!partner[edge.a] && !partner[edge.b]) {
            partner[edge.a] = edge.b;
            partner[edge.b] = edge.a;
        }
    }
    return partner;
}

/// Two panels left alone that would save more with a and b than a and b do together.
[[nodiscard]] inline bool part_for_two(const PairTable& table, std::size_t a,
                                       std::vector<std::optional<std::size_t>>& partner) {
    const std::size_t b = *partner[a];
    const auto best_for = [&](std::size_t of, std::size_t but) {
        std::optional<std::size_t> best;
        for (std::size_t k = 0; k < table.size; ++k) {
            const bool alone = !partner[k] && k != but;
            if (alone && table.at(of, k) > (best ? table.at(of, *best) : 0.0)) {
                best = k;
            }
        }
        return best;
    };
    for (const bool a_first : {true, false}) {
        const std::size_t one = a_first ? a : b;
        const std::size_t two = a_first ? b : a;
        const std::optional<std::size_t> first = best_for(one, table.size);
        const std::optional<std::size_t> second = first ? best_for(two, *first) : std::nullopt;
        const double gain = (first ? table.at(one, *first) : 0.0) + (second ? table.at(two, *second) : 0.0);
        if (first && gain > table.at(a, b) + 1e-9) {
            partner[a] = partner[b] = std::nullopt;
            partner[one] = *first;
            partner[*first] = one;
            if (second) {
                partner[two] = *second;
                partner[*second] = two;
            }
            return true;
        }
    }
    return false;
}

/// Two pairs that save more with their partners exchanged.
[[nodiscard]] inline bool exchange(const PairTable& table, std::size_t a,
                                   std::vector<std::optional<std::size_t>>& partner) {
    const std::size_t b = *partner[a];
    for (std::size_t c = a + 1; c < table.size; ++c) {
        if (!partner[c] || c == b) {
            continue;
        }
        const std::size_t d = *partner[c];
        if (table.at(a, c) > 0.0 && table.at(b, d) > 0.0 &&
            table.at(a, c) + table.at(b, d) > table.at(a, b) + table.at(c, d) + 1e-9) {
            partner[a] = c;
            partner[c] = a;
            partner[b] = d;
            partner[d] = b;
            return true;
        }
    }
    return false;
}

/// Every step saves more, so it ends; rounds are bounded all the same.
inline void improve_partners(const PairTable& table, std::vector<std::optional<std::size_t>>& partner) {
    bool better = true;
    for (int round = 0; better && round < 50; ++round) {
        better = false;
        for (std::size_t a = 0; a < table.size; ++a) {
            better = (partner[a] && part_for_two(table, a, partner)) || better;
            better = (partner[a] && exchange(table, a, partner)) || better;
        }
    }
}

[[nodiscard]] inline std::vector<SlantedPanel> slanted_panels(const std::vector<CutPanels>& planes, PanelPairs& pairs) {
    std::vector<SlantedPanel> panels;
    for (std::size_t p = 0; p < planes.size(); ++p) {
        for (std::size_t i = 0; i < planes[p].pieces.size(); ++i) {
            const CutPanel& panel = planes[p].pieces[i];
            ++pairs.panels_without;
            pairs.bought_without += panel.order_length;
            if (is_slanted(panel.lower) || is_slanted(panel.upper)) {
                panels.push_back({p, i, &planes[p], &panel});
            } else if (!panel.lower.straight || !panel.upper.straight) {
                pairs.unpaired.push_back({p, i, NoPair::bent_cut});
            }
        }
    }
    if (panels.size() > most_paired_panels) {
        throw FaultError{Fault{FaultCode::too_much_work, "planes", std::to_string(panels.size()) + " slanted panels",
                               "no more than " + std::to_string(most_paired_panels)}};
    }
    return panels;
}
}  // namespace detail

/// Pairs the slanted panels of several planes so that less is bought: each at most once, only where it saves. Greatest saving
/// first, then partners are parted and exchanged while that saves more: never worse than no pairing, not proven the best.
/// Openings' cutouts are not used again. Planes must be laid with one profile, increment and paint to share.
/// Throws `FaultError`: the first fault of `plan`; too_much_work above `most_paired_panels`.
[[nodiscard]] inline PanelPairs pair_panels(const std::vector<CutPanels>& planes, const PairPlan& plan = {}) {
    require_sound(plan, "pairs");
    PanelPairs result{{}, {}, 0, 0, no_length, no_length, no_length};
    const std::vector<detail::SlantedPanel> panels = detail::slanted_panels(planes, result);
    std::vector<detail::PairEdge> edges;
    const detail::PairTable table = detail::pair_table(panels, plan, edges);
    std::vector<std::optional<std::size_t>> partner = detail::greedy_partners(edges, panels.size());
    detail::improve_partners(table, partner);
    for (std::size_t a = 0; a < panels.size(); ++a) {
        if (!partner[a]) {
            result.unpaired.push_back({panels[a].plane, panels[a].piece, table.nearest[a]});
        } else if (*partner[a] > a) {
            const detail::PairTry made = detail::try_pair(panels[a], panels[*partner[a]], plan);
            result.pairs.push_back(*made.pair);
            result.saved += made.pair->saved;
        }
    }
    result.panels = result.panels_without - static_cast<std::int64_t>(result.pairs.size());
    result.bought = result.bought_without - result.saved;
    return result;
}

}  // namespace eavewright
