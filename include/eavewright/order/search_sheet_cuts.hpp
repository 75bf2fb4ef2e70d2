// SPDX-License-Identifier: BSL-1.0
#pragma once

// A search for the fewest whole sheets, then the fewest cuts: sheets are emptied and laid anew until one is not needed.

#include <eavewright/fault.hpp>
#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/fewer_sheets.hpp>
#include <eavewright/order/first_sheets.hpp>
#include <eavewright/order/pack_sheets.hpp>
#include <eavewright/order/pair_shapes.hpp>
#include <eavewright/order/saw_sheets.hpp>
#include <eavewright/order/sheet_bound.hpp>
#include <eavewright/order/sheet_cut_tree.hpp>
#include <eavewright/order/sheet_search.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright {

/// How far a search has come.
struct SheetSearchProgress {
    std::int64_t nodes;  ///< places tried
    std::int64_t sheets;
    std::int64_t cuts;
    std::int64_t bound;
};

namespace detail {

/// Writes a sheet's cuts, part by part.
inline void saw_node(Sawyer& sawyer, const SheetSearch& search, const PackSheet& sheet, std::int32_t at,
                     std::size_t part, std::vector<std::size_t>& next) {
    const PackNode& node = sheet.nodes[static_cast<std::size_t>(at)];
    if (node.use == NodeUse::crosscut || node.use == NodeUse::rip) {
        const PackNode& first = sheet.nodes[static_cast<std::size_t>(node.first)];
        const double l = first.l0 + first.l;
        const double w = first.w0 + first.w;
        const SawLine line = node.use == NodeUse::crosscut ? SawLine{{l, node.w0}, {l, node.w0 + node.w}}
                                                           : SawLine{{node.l0 + node.l, w}, {node.l0, w}};
        std::optional<std::size_t> beyond;
        const std::size_t kept = sawyer.cut(part, line, &beyond);
        saw_node(sawyer, search, sheet, node.first, kept, next);
        if (node.second >= 0 && beyond) {
            saw_node(sawyer, search, sheet, node.second, *beyond, next);
        }
    }
    if (node.use != NodeUse::block) {
        return;
    }
    const Block& block = search.blocks[static_cast<std::size_t>(node.block)];
    std::vector<Spots> outlines;
    std::vector<BlockPlace> places = block.places;
    for (BlockPlace& place : places) {
        place.quarter_turns += node.turned ? 1 : 0;
        place.at = {place.at.l + node.l0, place.at.w + node.w0};
        outlines.push_back(outline_in_block(search.kinds, place));
    }
    const std::vector<std::size_t> parts = saw_block(sawyer, part, block, outlines.front(), outlines.back());
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const std::size_t piece = search.kinds[places[i].kind].pieces[next[places[i].kind]++];
        sawyer.plan.parts[parts[i]].piece = piece;
        sawyer.plan.pieces[piece] = {sawyer.plan.parts[part].sheet, parts[i],
                                     one_inch * places[i].at.l,     one_inch * places[i].at.w,
                                     places[i].quarter_turns,       places[i].mirrored};
    }
}

[[nodiscard]] inline SheetSawPlan saw_plan(const SheetSearch& search, std::size_t pieces) {
    SheetSawPlan plan = uncut_sheets(search.sheets.size(), pieces, search.rules.l, search.rules.w);
    Sawyer sawyer{plan, search.rules.kerf, search.rules.tick};
    std::vector<std::size_t> next(search.kinds.size(), 0);
    for (std::size_t s = 0; s < search.sheets.size(); ++s) {
        saw_node(sawyer, search, search.sheets[s], 0, s, next);
    }
    return plan;
}

}  // namespace detail

/// Saws every piece from whole sheets by cuts straight through, the strength axis of every piece along the sheet's
/// length unless it may be turned: as few sheets as are found, then as few cuts. Two slanted pieces, one turned by 180
/// degrees, come out of one rectangle with one slanted cut between them where that saves. Never more sheets than
/// `cut_sheets` takes. The same arguments give the same bytes. `report` is called now and then with a
/// `SheetSearchProgress`; the search ends where it gives back false, when `plan.nodes` places are tried, or when
/// nothing can be gained; the answer is whole in any case. Throws `FaultError`: the first fault of `plan`, out_of_range
/// for a piece larger than a sheet or a corner off its box, too_much_work above `most_sheet_cuts`.
template <class Report>
[[nodiscard]] SheetSawPlan search_sheet_cuts(const std::vector<SheetShape>& shapes, const SheetSearchPlan& plan,
                                             Report&& report) {
    require_sound(plan, "order");
    const Faults faults = find_faults_of_shapes(shapes, plan.stock.sheet);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    const SheetBound bound = bound_sheets(shapes, plan.stock);
    const std::vector<detail::ShapeKind> kinds = detail::shape_kinds(shapes);
    detail::SheetSearch search = detail::start_search(kinds, plan);
    const bool has_plain = detail::lay_plainly(search, shapes, plan.stock);
    const auto plain = static_cast<std::int64_t>(has_plain ? search.sheets.size() : 0);
    bool goes_on = true;
    std::int64_t next = 0;
    const auto may_go_on = [&] {
        if (goes_on && search.tried >= next) {
            next = search.tried + 1 + plan.nodes / 100;
            goes_on = report(SheetSearchProgress{search.tried, static_cast<std::int64_t>(search.sheets.size()),
                                                 search.cuts(), bound.sheets});
        }
        return goes_on;
    };
    if (!shapes.empty()) {
        detail::lay_in_turn(search, has_plain, plan.nodes / 2, bound.sheets);
        while (static_cast<std::int64_t>(search.sheets.size()) > bound.sheets && search.tried < plan.nodes / 4 * 3 &&
               detail::drop_sheet(search, plan.nodes / 4 * 3, may_go_on)) {
        }
        detail::save_cuts(search, plan.nodes, may_go_on);
    }
    SheetSawPlan sawn = detail::saw_plan(search, shapes.size());
    sawn.bound = bound;
    sawn.plain = plain;
    sawn.nodes = search.tried;
    detail::close_plan(sawn, shapes, plan.stock);
    return sawn;
}

/// The same to its end, without a report.
[[nodiscard]] inline SheetSawPlan search_sheet_cuts(const std::vector<SheetShape>& shapes,
                                                    const SheetSearchPlan& plan) {
    return search_sheet_cuts(shapes, plan, [](const SheetSearchProgress&) { return true; });
}

}  // namespace eavewright
