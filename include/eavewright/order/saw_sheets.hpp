// SPDX-License-Identifier: BSL-1.0
#pragma once

// Writes down cuts: from a part and what it is to become, to the cuts, the parts and what is left.

#include <eavewright/order/sheet_cut_tree.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/order/sheet_spots.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Divides parts of a plan.
struct Sawyer {
    SheetSawPlan& plan;
    double kerf;
    double tick;  ///< a slanted side over which a part stands by no more than this is not sawn again

    [[nodiscard]] std::size_t add_part(std::size_t sheet, const Spots& outline) {
        plan.parts.push_back({sheet, points_of(outline), std::nullopt, std::nullopt});
        return plan.parts.size() - 1;
    }

    /// Cuts a part along a line; nothing happens where all of it lies on the left already. Gives back what is kept.
    std::size_t cut(std::size_t part, const SawLine& line, std::optional<std::size_t>* beyond = nullptr) {
        const Spots whole = spots_of(plan.parts[part].outline);
        if (part_beside(whole, line, 0.0, false).empty()) {
            return part;
        }
        double depth = 0.0;
        for (const Spot& spot : whole) {
            depth = std::fmax(depth, line.offset(spot));
        }
        const bool level = std::fabs(line.a.w - line.b.w) <= spot_tolerance;
        const bool plumb = std::fabs(line.a.l - line.b.l) <= spot_tolerance;
        SawCut made{part,
                    level ? SawWay::rip : (plumb ? SawWay::crosscut : SawWay::slant),
                    point_of(line.a),
                    point_of(line.b),
                    one_inch * depth,
                    add_part(plan.parts[part].sheet, part_beside(whole, line, 0.0, true)),
                    std::nullopt};
        const Spots rest = part_beside(whole, line, -kerf, false);
        if (!rest.empty()) {
            made.beyond = add_part(plan.parts[part].sheet, rest);
        }
        if (beyond != nullptr) {
            *beyond = made.beyond;
        }
        plan.parts[part].cut = plan.cuts.size();
        plan.cuts.push_back(made);
        return made.kept;
    }

    /// Saws a part to a convex outline: square sides first, then slanted ones.
    std::size_t cut_to(std::size_t part, const Spots& outline) {
        for (const bool slants : {false, true}) {
            for (std::size_t i = 0; i < outline.size(); ++i) {
                const SawLine side{outline[i], outline[(i + 1) % outline.size()]};
                const bool slanted =
                    std::fabs(side.a.l - side.b.l) > spot_tolerance && std::fabs(side.a.w - side.b.w) > spot_tolerance;
                const double over = reach_past(side, spots_of(plan.parts[part].outline));
                if (slanted == slants && (!slanted || over > tick + spot_tolerance)) {
                    part = cut(part, side);
                }
            }
        }
        return part;
    }
};

/// A plan of whole sheets, uncut.
[[nodiscard]] inline SheetSawPlan uncut_sheets(std::size_t sheets, std::size_t pieces, double l, double w) {
    const PlacedShape nowhere{0, 0, no_length, no_length};
    SheetSawPlan plan{static_cast<std::int64_t>(sheets),
                      0,
                      std::vector<PlacedShape>(pieces, nowhere),
                      {},
                      {},
                      {},
                      Area::from_value(0.0),
                      Area::from_value(0.0),
                      {0, 0},
                      false,
                      0,
                      0};
    for (std::size_t i = 0; i < sheets; ++i) {
        plan.parts.push_back({i, points_of(box_of(l, w)), std::nullopt, std::nullopt});
    }
    return plan;
}

/// How many cuts it takes to saw a box `l` by `w` to an outline.
[[nodiscard]] inline int cuts_to_outline(double l, double w, const Spots& outline, double kerf, double tick) {
    SheetSawPlan plan = uncut_sheets(1, 0, l, w);
    Sawyer sawyer{plan, kerf, tick};
    (void)sawyer.cut_to(0, outline);
    return static_cast<int>(plan.cuts.size());
}

/// Lists what is left, largest first, and adds up.
inline void close_plan(SheetSawPlan& plan, const std::vector<SheetShape>& shapes, const SheetStock& stock) {
    for (std::size_t i = 0; i < plan.parts.size(); ++i) {
        if (!plan.parts[i].cut && !plan.parts[i].piece) {
            const Spots outline = spots_of(plan.parts[i].outline);
            const SpotExtent extent = extent_of(outline);
            plan.offcuts.push_back({i,
                                    {.width = one_inch * (extent.high.w - extent.low.w),
                                     .length = one_inch * (extent.high.l - extent.low.l)},
                                    Area::from_value(area_of(outline))});
        }
    }
    std::stable_sort(plan.offcuts.begin(), plan.offcuts.end(),
                     [](const SheetOffcut& a, const SheetOffcut& b) { return b.area < a.area; });
    for (const SheetShape& shape : shapes) {
        plan.sawn += sawn_area(shape);
    }
    plan.waste = stock.sheet.length * stock.sheet.width * static_cast<double>(plan.sheets) - plan.sawn;
    plan.to_buy = plan.sheets > stock.on_hand ? plan.sheets - stock.on_hand : 0;
    plan.proven = plan.sheets == plan.bound.sheets;
}

}  // namespace eavewright::detail
