// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a layout has to be bought: lumber and sheets cut from stock, panels by length, everything else by the pack.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/article.hpp>
#include <eavewright/order/bundles.hpp>
#include <eavewright/order/cut_bound.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/order/money.hpp>
#include <eavewright/order/purchase.hpp>
#include <eavewright/order/quantity.hpp>
#include <eavewright/order/search_cuts.hpp>
#include <eavewright/order/search_sheet_cuts.hpp>
#include <eavewright/order/sheet_cut_tree.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/supply.hpp>

#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// What to buy for a roof, and how what is bought is cut.
struct RoofOrder {
    Order order;
    std::vector<Length> lumber_pieces;       ///< purlins, then blocks, slope by slope
    std::optional<CutList> lumber;           ///< their cuts; none where there are none
    std::vector<SheetShape> sheet_pieces;    ///< slope by slope, in the order of the layout
    std::optional<SheetSawPlan> sheets;      ///< how they are sawn from whole sheets
    std::vector<LengthBundles> panels;       ///< by length, longest first
    std::optional<CutBound> lumber_bound{};  ///< no way of cutting the lumber buys less, and why
};
template <>
struct FieldsOf<RoofOrder> {
    static constexpr auto list = field_list(
        field("order", FieldUnit::none, "what to buy, by delivery", &RoofOrder::order),
        field("lumber_pieces", FieldUnit::length, "purlins, then blocks, slope by slope", &RoofOrder::lumber_pieces),
        field("lumber", FieldUnit::none, "how they are cut, null where there are none", &RoofOrder::lumber),
        field("sheet_pieces", FieldUnit::none, "pieces of sheet, slope by slope", &RoofOrder::sheet_pieces),
        field("sheets", FieldUnit::none, "how they are sawn, null where there are none", &RoofOrder::sheets),
        field("panels", FieldUnit::none, "panels by length, longest first", &RoofOrder::panels),
        field("lumber_bound", FieldUnit::none, "no way of cutting the lumber buys less, null where there is none",
              &RoofOrder::lumber_bound));
};

/// What the sheets of an order are sawn from.
[[nodiscard]] inline SheetSearchPlan sheet_search(const RoofDescription& roof, const SupplyPlan& supply) {
    return {.stock = {.sheet = roof.deck->sheets.sheet, .on_hand = supply.sheets.on_hand, .kerf = supply.sheet_kerf},
            .nodes = 10'000,
            .tick = roof.tick};
}

/// Short names of an order's pieces of sheet, in its order: the slope's first letter, then the name in the layout.
[[nodiscard]] inline std::vector<std::string> sheet_piece_names(const RoofResult& result) {
    std::vector<std::string> names;
    for (const SlopeResult& slope : result.slopes) {
        for (const SheetPiece& piece : slope.sheets.pieces) {
            names.push_back(slope.name.substr(0, 1) + " " + piece_name(piece));
        }
    }
    return names;
}
/// Short names of its pieces of lumber: the slope's first letter and the row, or what it blocks.
[[nodiscard]] inline std::vector<std::string> lumber_piece_names(const RoofResult& result) {
    std::vector<std::string> names;
    for (const SlopeResult& slope : result.slopes) {
        const std::string letter = slope.name.substr(0, 1);
        for (const PurlinPiece& piece : slope.purlin_pieces) {
            names.push_back(letter + " row " + std::to_string(piece.row));
        }
        for (const BlockingPiece& block : slope.blocks) {
            names.push_back(letter + " block " + std::to_string(block.below) + "-" + std::to_string(block.below + 1));
        }
    }
    return names;
}

/// What lumber is cut from: the supply's lengths, or the one that the purlins are cut from.
[[nodiscard]] inline StockPlan lumber_stock(const RoofDescription& roof, const SupplyPlan& supply) {
    StockPlan plan = supply.lumber;
    if (plan.stock.empty()) {
        plan.stock.push_back({.length = roof.purlins->cuts.stock_length});
    }
    return plan;
}

namespace detail {
[[nodiscard]] inline Demand pack_demand(std::string name, Delivery delivery, const PackGoods& goods,
                                        std::int64_t placed) {
    const Quantity pack = Quantity::of_pieces(goods.pack);
    const Quantity one = Quantity::of_pieces(1);
    Article article{.name = std::move(name), .delivery = delivery, .sold_by = goods.sold_by, .pack = pack};
    article.price = goods.price;
    article.spare = goods.spare;
    article.on_hand = Quantity::of_pieces(goods.on_hand);
    if (goods.mass) {
        article.mass = UnitMass{*goods.mass, pack};
    }
    if (goods.minutes) {
        article.labour = UnitLabour{*goods.minutes, one};
    }
    return {article, Quantity::of_pieces(placed)};
}

/// Pieces of one length: priced and weighed by the foot, a price to the nearest hundredth a piece.
[[nodiscard]] inline Demand length_demand(std::string name, Delivery delivery, const LengthGoods& goods, Length length,
                                          std::int64_t placed, std::int64_t on_hand) {
    const Quantity one = Quantity::of_pieces(1);
    Article article{.name = std::move(name), .delivery = delivery, .sold_by = SoldBy::piece, .pack = one};
    article.length = length;
    article.on_hand = Quantity::of_pieces(on_hand);
    if (goods.price_a_foot) {
        const double hundredths = static_cast<double>(goods.price_a_foot->hundredths()) * feet(length);
        const bool fits = std::fabs(hundredths) < static_cast<double>(money_limit_hundredths);
        article.price = Money::from_hundredths(fits ? std::llround(hundredths) : money_limit_hundredths + 1);
    }
    if (goods.mass_a_foot) {
        article.mass = UnitMass{*goods.mass_a_foot * feet(length), one};
    }
    if (goods.minutes) {
        article.labour = UnitLabour{*goods.minutes, one};
    }
    return {article, Quantity::of_pieces(placed)};
}

/// Cuts, naming the pieces of a refusal as the order does: `lumber_pieces[4]`.
template <class Cut>
[[nodiscard]] auto naming_pieces(const std::string& kind, Cut cut) {
    try {
        return cut();
    } catch (const FaultError& error) {
        Fault fault = error.fault();
        fault.path = kind + fault.path;
        throw FaultError{std::move(fault)};
    }
}

/// Fewest lengths bought; of several for sale, the fewest feet, since lumber is priced by the foot.
[[nodiscard]] inline CutSearchPlan lumber_search(const StockPlan& plan) {
    CutSearchPlan search{.stock = plan, .goal = CutGoal::fewest_bought, .nodes = 20'000};
    std::size_t for_sale = 0;
    for (StockLength& stock : search.stock.stock) {
        for_sale += stock.for_sale ? 1U : 0U;
        if (!stock.cost) {
            stock.cost = Money::from_hundredths(std::llround(feet(stock.length) * 100.0));
        }
    }
    search.goal = for_sale > 1 ? CutGoal::least_cost : CutGoal::fewest_bought;
    return search;
}

inline void order_lumber(const RoofDescription& roof, const RoofResult& result, const SupplyPlan& supply,
                         RoofOrder& order, std::vector<Demand>& demands) {
    for (const SlopeResult& slope : result.slopes) {
        for (const PurlinPiece& piece : slope.purlin_pieces) {
            order.lumber_pieces.push_back(piece.length);
        }
        for (const BlockingPiece& block : slope.blocks) {
            order.lumber_pieces.push_back(block.length);
        }
    }
    if (order.lumber_pieces.empty()) {
        return;
    }
    const StockPlan plan = lumber_stock(roof, supply);
    FoundCuts found = naming_pieces("lumber_", [&] { return search_cuts(order.lumber_pieces, lumber_search(plan)); });
    order.lumber = std::move(found.list);
    if (found.bound.goal == CutGoal::fewest_bought && found.bound.value > order.lumber->fewest) {
        order.lumber->fewest = found.bound.value;  // there are no fewer lengths than are bought
    }
    order.lumber_bound = std::move(found.bound);
    std::vector<std::int64_t> used(plan.stock.size(), 0);
    std::vector<std::int64_t> from_hand(plan.stock.size(), 0);
    for (const CutBar& bar : order.lumber->bars) {
        ++used[bar.stock];
        from_hand[bar.stock] += bar.on_hand ? 1 : 0;
    }
    for (std::size_t i = 0; i < used.size(); ++i) {
        if (used[i] > 0) {
            demands.push_back(length_demand("purlin lumber", Delivery::framing, supply.purlins, plan.stock[i].length,
                                            used[i], from_hand[i]));
        }
    }
}

inline void order_deck(const RoofDescription& roof, const RoofResult& result, const SupplyPlan& supply,
                       RoofOrder& order, std::vector<Demand>& demands) {
    for (const SlopeResult& slope : result.slopes) {
        for (SheetShape& shape : cut_shapes(slope.sheets, roof.tick)) {
            order.sheet_pieces.push_back(std::move(shape));
        }
    }
    if (order.sheet_pieces.empty()) {
        return;
    }
    order.sheets =
        naming_pieces("sheet_", [&] { return search_sheet_cuts(order.sheet_pieces, sheet_search(roof, supply)); });
    demands.push_back(pack_demand("sheet", Delivery::deck, supply.sheets, order.sheets->sheets));
    demands.push_back(pack_demand("nail", Delivery::deck, supply.nails, result.nails));
}

/// Rolls slope by slope: what is left of one slope's last roll is not counted on for the next.
inline void order_underlayment(const RoofResult& result, const SupplyPlan& supply, std::vector<Demand>& demands) {
    std::int64_t rolls = 0;
    for (const SlopeResult& slope : result.slopes) {
        rolls += slope.underlayment ? slope.underlayment->rolls : 0;
    }
    if (rolls > 0) {
        demands.push_back(pack_demand("underlayment", Delivery::dry_in, supply.underlayment, rolls));
    }
}

inline void order_trim(const RoofResult& result, const SupplyPlan& supply, std::vector<Demand>& demands) {
    const auto add = [&](EdgeKind kind, const char* name, const PackGoods& goods) {
        std::int64_t pieces = 0;
        for (const SlopeResult& slope : result.slopes) {
            for (const TrimRun& run : slope.steel ? slope.steel->trim : std::vector<TrimRun>{}) {
                pieces += run.kind == kind ? run.pieces : 0;
            }
        }
        if (pieces > 0) {
            demands.push_back(pack_demand(name, Delivery::steel, goods, pieces));
        }
    };
    add(EdgeKind::eave, "eave trim", supply.eave_trim);
    add(EdgeKind::rake, "rake trim", supply.rake_trim);
    add(EdgeKind::ridge, "ridge cap", supply.ridge_cap);
    add(EdgeKind::high_eave, "high eave trim", supply.high_eave_trim);
}

inline void order_closures(const RoofResult& result, const SupplyPlan& supply, std::vector<Demand>& demands) {
    std::int64_t inside = 0;
    std::int64_t outside = 0;
    Length sealant = no_length;
    for (const SlopeResult& slope : result.slopes) {
        if (slope.steel && slope.steel->closures) {
            inside += slope.steel->closures->eave_strips;
            outside += slope.steel->closures->ridge_strips;
            sealant += slope.steel->closures->sealant;
        }
    }
    if (inside + outside > 0) {
        demands.push_back(pack_demand("inside closure", Delivery::steel, supply.inside_closures, inside));
        demands.push_back(pack_demand("outside closure", Delivery::steel, supply.outside_closures, outside));
    }
    if (supply.sealant && sealant > no_length) {
        const RunGoods& goods = *supply.sealant;
        const Quantity pack = Quantity::of_length(goods.length);
        Article article{.name = "sealant", .delivery = Delivery::steel, .sold_by = goods.sold_by, .pack = pack};
        article.price = goods.price;
        article.spare = goods.spare;
        article.on_hand = Quantity::of_length(goods.on_hand);
        article.mass = goods.mass ? std::optional<UnitMass>{UnitMass{*goods.mass, pack}} : std::nullopt;
        article.labour =
            goods.minutes
                ? std::optional<UnitLabour>{UnitLabour{*goods.minutes, Quantity::of_length(Length::from_feet(1.0))}}
                : std::nullopt;
        demands.push_back({article, Quantity::of_length(sealant)});
    }
}

inline void order_steel(const RoofDescription& roof, const RoofResult& result, const SupplyPlan& supply,
                        RoofOrder& order, std::vector<Demand>& demands) {
    std::vector<Length> lengths;
    std::int64_t screws = 0;
    std::int64_t stitches = 0;
    for (const SlopeResult& slope : result.slopes) {
        if (slope.steel) {
            for (const PanelPiece& piece : slope.steel->panels.pieces) {
                lengths.push_back(piece.order_length);  // a rip is cut from a panel of full width
            }
            screws += slope.steel->screws.in_rows;
            stitches += slope.steel->screws.stitch;
        }
    }
    if (lengths.empty()) {
        return;
    }
    const PanelStock& panel = roof.steel->panels.panel;
    order.panels = bundle_lengths(lengths, {.most_pieces = supply.panels_a_bundle,
                                            .width = panel.cover + panel.side_lap,
                                            .layer = roof.handling ? roof.handling->panel : std::nullopt});
    for (const LengthBundles& group : order.panels) {
        demands.push_back(length_demand("panel", Delivery::steel, supply.panels, group.length, group.count, 0));
    }
    order_trim(result, supply, demands);
    order_closures(result, supply, demands);
    demands.push_back(pack_demand("screw", Delivery::steel, supply.screws, screws));
    if (stitches > 0) {
        demands.push_back(pack_demand("stitch screw", Delivery::steel, supply.stitch_screws, stitches));
    }
}
}  // namespace detail

/// What a layout has to be bought. Never short: lumber and sheets are cut from what is bought (`find_faults_of_cuts` says
/// so on its own), everything else is counted up to whole packs (`find_faults_of_order`). Bought less placed is the waste;
/// no share is added unless asked. The steel is ordered by the lengths of `result`: measure the deck first.
/// Throws `FaultError`: the first fault of `supply`, does_not_fit where no length to be had is long enough, and as `search_cuts`, `search_sheet_cuts`, `bundle_lengths` and `purchase`.
[[nodiscard]] inline RoofOrder order_roof(const RoofDescription& roof, const RoofResult& result,
                                          const SupplyPlan& supply) {
    require_sound(supply, "supply");
    RoofOrder order{.order = {},
                    .lumber_pieces = {},
                    .lumber = {},
                    .sheet_pieces = {},
                    .sheets = {},
                    .panels = {},
                    .lumber_bound = {}};
    std::vector<Demand> demands;
    detail::order_lumber(roof, result, supply, order, demands);
    detail::order_deck(roof, result, supply, order, demands);
    detail::order_underlayment(result, supply, demands);
    detail::order_steel(roof, result, supply, order, demands);
    order.order = purchase(demands, {.currency = supply.currency});
    return order;
}

}  // namespace eavewright
