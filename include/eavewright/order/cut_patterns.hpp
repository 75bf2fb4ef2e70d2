// SPDX-License-Identifier: BSL-1.0
#pragma once

// A cut list for the person at the saw: sticks cut alike stand together, and every piece has its marks from one end.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// Where a piece lies on its stick, from the end that is measured from. The saw runs beyond `to`, in the kerf.
struct CutMark {
    Length from;
    Length to;
};
template <>
struct FieldsOf<CutMark> {
    static constexpr auto list =
        field_list(field("from", FieldUnit::length, "where the piece begins", &CutMark::from),
                   field("to", FieldUnit::length, "where it ends; the saw runs beyond", &CutMark::to));
};

/// Sticks that are cut alike.
struct CutPattern {
    std::int64_t times;
    std::size_t stock;  ///< index into the plan's stock
    Length length;      ///< of the stick
    bool on_hand;
    std::vector<CutMark> marks;     ///< of each piece, longest first
    Length left;                    ///< after the last kerf, the far trim not in it
    std::vector<std::size_t> bars;  ///< indexes into the cut list's bars
};
template <>
struct FieldsOf<CutPattern> {
    static constexpr auto list =
        field_list(field("times", FieldUnit::count, "sticks cut so", &CutPattern::times),
                   field("stock", FieldUnit::count, "index of the stock length", &CutPattern::stock),
                   field("length", FieldUnit::length, "of the stick", &CutPattern::length),
                   field("on_hand", FieldUnit::none, "taken from what is on hand", &CutPattern::on_hand),
                   field("marks", FieldUnit::none, "where each piece begins and ends", &CutPattern::marks),
                   field("left", FieldUnit::length, "what is left after the last kerf", &CutPattern::left),
                   field("bars", FieldUnit::count, "indexes into the bars of the cut list", &CutPattern::bars));
};

namespace detail {
/// Marks as they come from summing exact lengths: trim, piece, kerf, piece.
[[nodiscard]] inline CutPattern pattern_of(const CutBar& bar, const std::vector<Length>& pieces,
                                           const StockPlan& plan) {
    std::vector<Length> lengths;
    for (const std::size_t piece : bar.pieces) {
        lengths.push_back(pieces[piece]);
    }
    std::stable_sort(lengths.begin(), lengths.end(), [](Length a, Length b) { return b < a; });
    CutPattern pattern{1, bar.stock, plan.stock[bar.stock].length, bar.on_hand, {}, no_length, {}};
    Length at = plan.end_trim;
    for (const Length length : lengths) {
        pattern.marks.push_back({at, at + length});
        at += length + plan.kerf;
    }
    // Where less than a kerf is left, the last piece needs no cut.
    pattern.left = longer(no_length, pattern.length - plan.far_trim - at);
    return pattern;
}
/// The same stick with the same cuts, up to `count_tolerance`.
[[nodiscard]] inline bool is_cut_alike(const CutPattern& a, const CutPattern& b) {
    return a.stock == b.stock && a.on_hand == b.on_hand &&
           std::equal(a.marks.begin(), a.marks.end(), b.marks.begin(), b.marks.end(),
                      [](const CutMark& m, const CutMark& n) { return magnitude(m.to - n.to) <= count_tolerance; });
}
}  // namespace detail

/// The sticks of a cut list grouped by how they are cut: most sticks first, then longest stock, then as listed. Marks
/// are exact; round them with a tick where they are written.
/// Throws `FaultError`: the first fault of `find_faults_of_cuts`.
[[nodiscard]] inline std::vector<CutPattern> group_cuts(const std::vector<Length>& pieces, const StockPlan& plan,
                                                        const CutList& list) {
    const Faults faults = find_faults_of_cuts(pieces, plan, list);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    std::vector<CutPattern> patterns;
    for (std::size_t b = 0; b < list.bars.size(); ++b) {
        CutPattern pattern = detail::pattern_of(list.bars[b], pieces, plan);
        auto alike = std::find_if(patterns.begin(), patterns.end(),
                                  [&](const CutPattern& other) { return detail::is_cut_alike(other, pattern); });
        if (alike == patterns.end()) {
            patterns.push_back(std::move(pattern));
            alike = patterns.end() - 1;
        } else {
            ++alike->times;
        }
        alike->bars.push_back(b);
    }
    std::stable_sort(patterns.begin(), patterns.end(), [](const CutPattern& a, const CutPattern& b) {
        return a.times != b.times ? a.times > b.times : a.length > b.length;
    });
    return patterns;
}

/// One line for the saw: `3 x 16': 0 to 8', 8' 0-1/8" to 15' 0-1/8"; 11-3/4" left`, marks rounded to the tick.
[[nodiscard]] inline std::string write_pattern(const CutPattern& pattern, Tick tick) {
    std::string line = std::to_string(pattern.times) + " x " + write_length(pattern.length, tick);
    line += pattern.on_hand ? " on hand:" : ":";
    for (std::size_t i = 0; i < pattern.marks.size(); ++i) {
        line += (i == 0 ? " " : ", ") + write_length(pattern.marks[i].from, tick);
        line += " to " + write_length(pattern.marks[i].to, tick);
    }
    return line + "; " + write_length(pattern.left, tick) + " left";
}

}  // namespace eavewright
