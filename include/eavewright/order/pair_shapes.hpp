// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is laid on a sheet as one rectangle: a piece in its box, or two slanted pieces out of one rectangle, parted by
// one straight slanted cut.

#include <eavewright/order/saw_sheets.hpp>
#include <eavewright/order/sheet_bound.hpp>
#include <eavewright/order/sheet_cut_tree.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/order/sheet_spots.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Pieces that are alike.
struct ShapeKind {
    SheetShape shape;
    Spots outline;
    double area;                      ///< of the outline
    std::vector<std::size_t> pieces;  ///< indexes into the pieces asked for
    [[nodiscard]] double l() const { return inches(shape.box.length); }
    [[nodiscard]] double w() const { return inches(shape.box.width); }
    [[nodiscard]] bool slanted() const { return outline.size() != 4 || area < l() * w() - 1e-9; }
};

/// One of the pieces in a block.
struct BlockPlace {
    std::size_t kind;
    Spot at;  ///< low corner of its box in the block
    int quarter_turns;
    bool mirrored;
};

/// A rectangle that one or two pieces come out of. Of two, the first is sawn along its side `side`, the second lies
/// beyond.
struct Block {
    double l;
    double w;
    bool turnable;
    double area;  ///< of its pieces
    int cuts;     ///< within it; -1 while nobody has asked
    std::vector<BlockPlace> places;
    std::size_t side = 0;
    double saving = 0.0;  ///< area of the boxes less that of the block, each grown by the blade
};

[[nodiscard]] inline std::vector<ShapeKind> shape_kinds(const std::vector<SheetShape>& shapes) {
    std::vector<ShapeKind> kinds;
    for (const std::size_t i : sorted_shapes(shapes)) {
        if (kinds.empty() || !is_equal(kinds.back().shape, shapes[i])) {
            Spots outline = sawn_outline(shapes[i]);
            const double area = area_of(outline);
            kinds.push_back({shapes[i], std::move(outline), area, {}});
        }
        kinds.back().pieces.push_back(i);
    }
    return kinds;
}

[[nodiscard]] inline Spots outline_in_block(const std::vector<ShapeKind>& kinds, const BlockPlace& place) {
    const ShapeKind& kind = kinds[place.kind];
    return shifted(turned_outline(kind.outline, kind.l(), kind.w(), place.quarter_turns, place.mirrored), place.at.l,
                   place.at.w);
}

[[nodiscard]] inline Block block_of_one(const std::vector<ShapeKind>& kinds, std::size_t kind, double kerf,
                                        double tick) {
    const ShapeKind& one = kinds[kind];
    return {one.l(),
            one.w(),
            one.shape.turnable,
            one.area,
            one.slanted() ? cuts_to_outline(one.l(), one.w(), one.outline, kerf, tick) : 0,
            {{kind, {0.0, 0.0}, 0, false}}};
}

/// What pairs are made for.
struct PairRules {
    double sheet_l;
    double sheet_w;
    double kerf;
    bool two_faced;
    Tick tick;
};
[[nodiscard]] inline double tick_up(double at, Tick tick) { return inches(round_up_to_tick(one_inch * at, tick)); }

/// The smallest blocks in which `second`, turned as said, lies beyond the slanted side `line` of `first`: as narrow as
/// the wider of them and as long as needed, and as short as the longer and as wide as needed. Added where they save.
inline void add_pair(const std::vector<ShapeKind>& kinds, std::size_t first, std::size_t side, const BlockPlace& second,
                     const PairRules& rules, std::vector<Block>& blocks) {
    const ShapeKind& a = kinds[first];
    const ShapeKind& b = kinds[second.kind];
    const SawLine line{a.outline[side], a.outline[(side + 1) % a.outline.size()]};
    const double run = std::hypot(line.b.l - line.a.l, line.b.w - line.a.w);
    const Spot away{(line.b.w - line.a.w) / run, (line.a.l - line.b.l) / run};  // from the first to the second
    double reach = 1e300;
    for (const Spot& spot : b.outline) {
        const double spot_l = second.quarter_turns == 0 ? spot.l : b.l() - spot.l;
        const double spot_w = (second.quarter_turns == 0) != second.mirrored ? spot.w : b.w() - spot.w;
        reach = std::fmin(reach, away.l * spot_l + away.w * spot_w);
    }
    const double need = rules.kerf + away.l * line.a.l + away.w * line.a.w - reach;
    const double base_l = away.l > 0.0 ? b.l() : a.l();
    const double base_w = away.w > 0.0 ? b.w() : a.w();
    const double least_l = std::fmax(a.l(), b.l());
    const double least_w = std::fmax(a.w(), b.w());
    const double steep_l = std::fabs(away.l);
    const double steep_w = std::fabs(away.w);
    const double boxes = (a.l() + rules.kerf) * (a.w() + rules.kerf) + (b.l() + rules.kerf) * (b.w() + rules.kerf);
    for (const bool narrow : {true, false}) {
        double l = least_l;
        double w = least_w;
        if (narrow) {
            l = std::fmax(l, tick_up(base_l + (need - steep_w * (w - base_w)) / steep_l, rules.tick));
        } else {
            w = std::fmax(w, tick_up(base_w + (need - steep_l * (l - base_l)) / steep_w, rules.tick));
        }
        const double saving = boxes - (l + rules.kerf) * (w + rules.kerf);
        if (!(saving > 1e-6) || l > rules.sheet_l || w > rules.sheet_w) {
            continue;
        }
        Block block{l, w, false, a.area + b.area, -1, {}, side, saving};
        block.places.push_back({first, {away.l > 0.0 ? 0.0 : l - a.l(), away.w > 0.0 ? 0.0 : w - a.w()}, 0, false});
        block.places.push_back(second);
        block.places[1].at = {away.l > 0.0 ? l - b.l() : 0.0, away.w > 0.0 ? w - b.w() : 0.0};
        blocks.push_back(block);
    }
}

/// Saws a block's part into its pieces. Gives back the parts of the pieces.
inline std::vector<std::size_t> saw_block(Sawyer& sawyer, std::size_t part, const Block& block, const Spots& first,
                                          const Spots& second) {
    if (block.places.size() == 1) {
        return {sawyer.cut_to(part, first)};
    }
    std::optional<std::size_t> beyond;
    const std::size_t kept = sawyer.cut(part, {first[block.side], first[(block.side + 1) % first.size()]}, &beyond);
    const std::size_t one = sawyer.cut_to(kept, first);
    return {one, sawyer.cut_to(beyond.value_or(kept), second)};
}

/// How many cuts it takes to saw a block into its pieces.
[[nodiscard]] inline int cuts_within(const std::vector<ShapeKind>& kinds, const Block& block, double kerf,
                                     double tick) {
    if (block.cuts >= 0) {
        return block.cuts;
    }
    SheetSawPlan plan = uncut_sheets(1, 0, block.l, block.w);
    Sawyer sawyer{plan, kerf, tick};
    (void)saw_block(sawyer, 0, block, outline_in_block(kinds, block.places[0]),
                    outline_in_block(kinds, block.places[1]));
    return static_cast<int>(plan.cuts.size());
}

inline constexpr std::size_t most_paired_kinds = 200;  ///< slanted kinds that are tried with each other

/// Every pair that saves, what saves most first. Of each two kinds the best few blocks.
[[nodiscard]] inline std::vector<Block> pair_blocks(const std::vector<ShapeKind>& kinds, const PairRules& rules) {
    std::vector<std::size_t> slanted;
    for (std::size_t k = 0; k < kinds.size() && slanted.size() < most_paired_kinds; ++k) {
        if (kinds[k].slanted()) {
            slanted.push_back(k);
        }
    }
    std::vector<Block> blocks;
    std::vector<Block> found;
    const auto saves_more = [](const Block& a, const Block& b) { return a.saving > b.saving; };
    for (const std::size_t a : slanted) {
        for (const std::size_t b : slanted) {
            if (a == b && kinds[a].pieces.size() < 2) {
                continue;
            }
            found.clear();
            for (std::size_t side = 0; side < kinds[a].outline.size(); ++side) {
                const Spot p = kinds[a].outline[side];
                const Spot q = kinds[a].outline[(side + 1) % kinds[a].outline.size()];
                if (std::fabs(p.l - q.l) <= spot_tolerance || std::fabs(p.w - q.w) <= spot_tolerance) {
                    continue;
                }
                for (const int quarters : {2, 0}) {
                    add_pair(kinds, a, side, {b, {0.0, 0.0}, quarters, false}, rules, found);
                    if (rules.two_faced) {
                        add_pair(kinds, a, side, {b, {0.0, 0.0}, quarters, true}, rules, found);
                    }
                }
            }
            std::stable_sort(found.begin(), found.end(), saves_more);
            for (std::size_t i = 0; i < found.size() && i < 2; ++i) {
                blocks.push_back(found[i]);
            }
        }
    }
    std::stable_sort(blocks.begin(), blocks.end(), saves_more);
    if (blocks.size() > 4000) {
        blocks.erase(blocks.begin() + 4000, blocks.end());
    }
    return blocks;
}

}  // namespace eavewright::detail
