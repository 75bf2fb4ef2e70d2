// SPDX-License-Identifier: BSL-1.0
#pragma once

// A search over layouts of sheets: where the grid starts, how wide its first lane is, how lanes are staggered, where sheets are
// cut back, how the grid is turned. Fewest sheets, then fewest slivers, then fewest cuts, then the widest narrowest piece.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/found_layout.hpp>
#include <eavewright/order/layout_choices.hpp>
#include <eavewright/order/search_sheet_cuts.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/tile_sheets.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// What layouts are searched for, and how far.
struct LayoutSearchPlan {
    SheetPlan plain;  ///< the layout to do better than; its sheet, gap, sliver limit and bearing hold for all
    SheetStock stock;
    bool two_faced = false;  ///< both faces of the sheets are alike
    bool turns = false;      ///< on measured planes the grid may be turned, which shares the taper between both rakes
    std::size_t finalists = 4;     ///< layouts, best by plain cutting, that are cut by search
    std::int64_t nodes = 10'000;   ///< places that each of those searches may try
    std::size_t most_tries = 500;  ///< layouts laid
    int least_spaces =
        2;  ///< support spaces that a piece should span: sheets are rated over two or more; common practice
};

/// How far a search has come.
struct LayoutProgress {
    std::size_t tried;
    std::size_t all;
    std::int64_t sheets;  ///< of the best so far
    std::int64_t fewest;
};

inline void find_faults(const LayoutSearchPlan& plan, const Path& path, Faults& faults) {
    find_faults(plan.plain, Path{path, "plain"}, faults);
    find_faults(plan.stock, Path{path, "stock"}, faults);
    if (plan.finalists < 1 || plan.finalists > 1000) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "finalists"}.text(), std::to_string(plan.finalists),
                               "1 to 1000"});
    }
    if (plan.least_spaces < 0 || plan.least_spaces > 100) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "least_spaces"}.text(),
                               std::to_string(plan.least_spaces), "0 to 100 support spaces"});
    }
    if (plan.most_tries < 1 || plan.most_tries > 1'000'000) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "most_tries"}.text(),
                               std::to_string(plan.most_tries), "1 to 1000000"});
    }
    if (plan.plain.sheet.length != plan.stock.sheet.length || plan.plain.sheet.width != plan.stock.sheet.width) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "stock.sheet"}.text(),
                               describe_length(plan.stock.sheet.length), "the sheet that is laid"});
    }
}

/// No layout with this sheet and gap covers planes of this area with fewer sheets. A piece and the gap beyond two of its sides
/// take (length + gap)(width + gap) of a plane; pieces out of one sheet, a kerf apart, together no more than
/// (length + m)(width + m), m the greater of gap and kerf. What laying leaves bare at the far end of the lanes, half a tick
/// at most besides a gap, is taken off first: `bare`.
[[nodiscard]] inline std::int64_t fewest_sheets(Area planes, Area bare, const SheetStock& stock, Length gap) {
    const Length m = longer(gap, stock.kerf);
    const double sheet = square_inches((stock.sheet.length + m) * (stock.sheet.width + m));
    const double share = (square_inches(planes) - square_inches(bare)) / sheet;
    return share > 0.0 ? static_cast<std::int64_t>(std::ceil(share - 1e-9)) : 0;
}

namespace detail {
/// All planes laid one way.
struct LaidRoof {
    std::vector<SheetPlan> plans;
    std::vector<Sheets> sheets;
    LayoutScore score;
};

inline void add_to_score(const Sheets& sheets, Length least_span, LayoutScore& score) {
    for (const Finding& finding : sheets.findings) {
        const bool sliver = finding.code == FindingCode::sliver_length || finding.code == FindingCode::sliver_width ||
                            finding.code == FindingCode::narrow_leg;
        ++(sliver ? score.slivers : score.unsupported);
    }
    for (const SheetPiece& piece : sheets.pieces) {
        score.short_spans += piece.length < least_span ? 1U : 0U;
        score.narrowest = shorter(score.narrowest, shorter(piece.length, piece.width));
        if (!piece.whole) {
            score.cuts += (piece.slanted ? 1 : 0) + 1;
        }
    }
}

template <Surface surface>
[[nodiscard]] LaidRoof lay_roof(const std::vector<Plane<surface>>& planes,
                                const std::vector<Supports<surface>>& supports, int least_spaces,
                                std::vector<SheetPlan> plans) {
    LaidRoof laid{std::move(plans), {}, {0, 0, 0, 0, Length::from_inches(length_limit_in)}};
    for (std::size_t i = 0; i < planes.size(); ++i) {
        laid.sheets.push_back(tile_sheets(planes[i], supports[i], laid.plans[i]));
        // From middle to middle of supports, less the gaps and a tick of rounding.
        const SheetPlan& own = laid.plans[i];
        add_to_score(laid.sheets.back(), supports[i].spacing * least_spaces - own.gap - own.tick.step(), laid.score);
    }
    return laid;
}

/// Sheets that plain cutting takes for all planes together.
[[nodiscard]] inline std::int64_t count_plainly(const LaidRoof& laid, const SheetStock& stock) {
    std::vector<SheetSize> sizes;
    for (const Sheets& sheets : laid.sheets) {
        const std::vector<SheetSize> own = cut_sizes(sheets);
        sizes.insert(sizes.end(), own.begin(), own.end());
    }
    return cut_sheets(sizes, stock).sheets;
}

[[nodiscard]] inline SheetSawPlan saw_roof(const LaidRoof& laid, const LayoutSearchPlan& plan) {
    std::vector<SheetShape> shapes;
    for (const Sheets& sheets : laid.sheets) {
        const std::vector<SheetShape> own = cut_shapes(sheets, plan.plain.tick);
        shapes.insert(shapes.end(), own.begin(), own.end());
    }
    return search_sheet_cuts(
        shapes, SheetSearchPlan{
                    .stock = plan.stock, .two_faced = plan.two_faced, .nodes = plan.nodes, .tick = plan.plain.tick});
}

[[nodiscard]] inline bool is_better(const LayoutScore& a, const LayoutScore& b) {
    if (a.sheets != b.sheets) {
        return a.sheets < b.sheets;
    }
    if (a.slivers != b.slivers) {
        return a.slivers < b.slivers;
    }
    return a.cuts != b.cuts ? a.cuts < b.cuts : b.narrowest < a.narrowest;
}
}  // namespace detail

/// Searches layouts of all planes of a roof together, whose pieces are cut from the same sheets. Every plane is laid by the
/// same choice (corner, start, stagger, cutting back), its first lane by its own width; the plain layout is among those tried,
/// so that none with more sheets is ever given back. `report(LayoutProgress)` says whether to go on. The same input gives
/// the same layout, whatever the machine. Throws `FaultError` as `tile_sheets` and `search_sheet_cuts` do.
template <Surface surface, class Report>
[[nodiscard]] FoundLayout search_layouts(const std::vector<Plane<surface>>& planes,
                                         const std::vector<Supports<surface>>& supports, const LayoutSearchPlan& plan,
                                         Report&& report) {
    require_sound(plan, "search");
    if (planes.empty() || planes.size() != supports.size()) {
        throw FaultError{Fault{FaultCode::contradiction, "search.planes", std::to_string(planes.size()) + " planes",
                               "planes, with supports for each"}};
    }
    Area area = Area::from_value(0.0);
    Area bare = Area::from_value(0.0);
    for (std::size_t i = 0; i < planes.size(); ++i) {
        area += net_area(planes[i]);
        const Extent extent = extent_of(planes[i].outline);
        const Length across = (extent.high.along - extent.low.along) + (extent.high.up - extent.low.up);
        bare += (across * 2.0) * (plan.plain.tick.step() / 2.0 + count_tolerance);
    }
    const std::int64_t fewest = fewest_sheets(area, bare, plan.stock, plan.plain.gap);
    detail::LaidRoof plain =
        detail::lay_roof(planes, supports, plan.least_spaces, std::vector<SheetPlan>(planes.size(), plan.plain));
    plain.score.sheets = detail::count_plainly(plain, plan.stock);
    const std::int64_t plain_sheets = plain.score.sheets;
    const std::vector<detail::LayoutChoice> choices =
        detail::layout_choices(supports.front().spacing, plan.plain, plan.turns, plan.most_tries);
    std::vector<detail::LaidRoof> best{std::move(plain)};  // the plain one first, then the finalists
    const std::size_t unsupported = best[0].score.unsupported;
    const std::size_t slivers = best[0].score.slivers;
    const std::size_t short_spans = best[0].score.short_spans;
    std::size_t tried = 1;
    for (const detail::LayoutChoice& choice : choices) {
        if (!report(LayoutProgress{tried, choices.size() + 1, best.size() > 1 ? best[1].score.sheets : plain_sheets,
                                   fewest})) {
            break;
        }
        std::vector<SheetPlan> plans;
        for (std::size_t i = 0; i < planes.size(); ++i) {
            plans.push_back(detail::plan_of(choice, planes[i], supports[i].run, plan.plain));
        }
        detail::LaidRoof laid = detail::lay_roof(planes, supports, plan.least_spaces, std::move(plans));
        ++tried;
        if (laid.score.unsupported > unsupported || laid.score.slivers > slivers ||
            laid.score.short_spans > short_spans) {
            continue;
        }
        laid.score.sheets = detail::count_plainly(laid, plan.stock);
        const auto place = std::find_if(best.begin() + 1, best.end(), [&](const detail::LaidRoof& other) {
            return detail::is_better(laid.score, other.score);
        });
        best.insert(place, std::move(laid));
        if (best.size() > plan.finalists + 1) {
            best.pop_back();
        }
    }
    std::size_t found = 0;
    std::vector<SheetSawPlan> saws;
    for (detail::LaidRoof& each : best) {
        saws.push_back(detail::saw_roof(each, plan));
        each.score.sheets = saws.back().sheets;
        each.score.cuts = static_cast<std::int64_t>(saws.back().cuts.size());
    }
    for (std::size_t i = 1; i < best.size(); ++i) {
        found = detail::is_better(best[i].score, best[found].score) ? i : found;
    }
    const LayoutScore plain_score = best[0].score;
    const bool proven = best[found].score.sheets == fewest;
    return {std::move(best[found].plans),
            std::move(best[found].sheets),
            std::move(saws[found]),
            best[found].score,
            plain_score,
            plain_sheets,
            fewest,
            tried,
            proven};
}

/// The same without reports.
template <Surface surface>
[[nodiscard]] FoundLayout search_layouts(const std::vector<Plane<surface>>& planes,
                                         const std::vector<Supports<surface>>& supports, const LayoutSearchPlan& plan) {
    return search_layouts(planes, supports, plan, [](const LayoutProgress&) { return true; });
}

}  // namespace eavewright
