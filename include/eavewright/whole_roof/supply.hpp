// SPDX-License-Identifier: BSL-1.0
#pragma once

// How the goods of a roof come: packs, lengths, weights, prices, labour, what is on hand. Everything but the packs may be
// left out, and then the order leaves it out too.

#include <eavewright/fault.hpp>
#include <eavewright/order/article.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/order/money.hpp>
#include <eavewright/order/quantity.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cstdint>
#include <optional>
#include <string>

namespace eavewright {

/// Goods that are counted: sheets, trim, strips, nails, screws.
struct PackGoods {
    std::int64_t pack = 1;  ///< pieces in one sold unit
    SoldBy sold_by = SoldBy::piece;
    std::optional<Money> price{};     ///< of one sold unit
    std::optional<Mass> mass{};       ///< of one sold unit
    std::optional<double> minutes{};  ///< of labour for each piece placed
    std::int64_t on_hand = 0;         ///< pieces
    double spare = 0.0;               ///< share of what is placed, bought on top; nothing unless asked
};

/// Goods whose pieces differ in length alone: lumber, panels.
struct LengthGoods {
    std::optional<Money> price_a_foot{};
    std::optional<Mass> mass_a_foot{};
    std::optional<double> minutes{};  ///< of labour for each piece bought
};

/// Goods that run on from one sold unit to the next: sealant.
struct RunGoods {
    Length length;  ///< of one roll or tube
    SoldBy sold_by = SoldBy::roll;
    std::optional<Money> price{};
    std::optional<Mass> mass{};
    std::optional<double> minutes{};  ///< of labour for each foot
    Length on_hand = no_length;
    double spare = 0.0;
};

/// How everything comes. Lumber without lengths is cut from the purlins' own stock length.
struct SupplyPlan {
    std::string currency{};  ///< of every price; needed where there is one
    StockPlan lumber{.stock = {}};
    LengthGoods purlin{};
    PackGoods sheet{};
    Length sheet_kerf = Length::from_inches(0.125);  ///< between two pieces cut from one sheet; common practice
    PackGoods nail{};
    PackGoods underlayment{.sold_by = SoldBy::roll};
    LengthGoods panel{};
    std::int64_t panels_a_bundle = 20;  ///< of one length; common practice
    PackGoods eave_trim{};
    PackGoods rake_trim{};
    PackGoods ridge_trim{};
    PackGoods high_eave_trim{};
    PackGoods closure{.sold_by = SoldBy::strip};
    std::optional<RunGoods> sealant{};
    PackGoods screw{};
    PackGoods stitch_screw{};
};

inline void find_faults(const SupplyPlan& supply, const Path& path, Faults& faults) {
    if (!supply.lumber.stock.empty()) {
        find_faults(supply.lumber, Path{path, "lumber"}, faults);
    }
    require_within(supply.sheet_kerf, no_length, Length::from_inches(2.0), Path{path, "sheet_kerf"}, faults);
    if (supply.panels_a_bundle < 1 || supply.panels_a_bundle > 10'000) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "panels_a_bundle"}.text(),
                               std::to_string(supply.panels_a_bundle), "1 to 10000"});
    }
    const auto judge = [&](const PackGoods& goods, const char* name) {
        const Path at{path, name};
        if (goods.pack < 1 || goods.pack > most_placed_pieces) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{at, "pack"}.text(), std::to_string(goods.pack),
                                   "1 to " + std::to_string(most_placed_pieces)});
        }
        if (goods.on_hand < 0 || goods.on_hand > most_placed_pieces) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{at, "on_hand"}.text(), std::to_string(goods.on_hand),
                                   "0 to " + std::to_string(most_placed_pieces)});
        }
    };
    judge(supply.sheet, "sheet");
    judge(supply.nail, "nail");
    judge(supply.underlayment, "underlayment");
    judge(supply.eave_trim, "eave_trim");
    judge(supply.rake_trim, "rake_trim");
    judge(supply.ridge_trim, "ridge_trim");
    judge(supply.high_eave_trim, "high_eave_trim");
    judge(supply.closure, "closure");
    judge(supply.screw, "screw");
    judge(supply.stitch_screw, "stitch_screw");
}

}  // namespace eavewright
