// SPDX-License-Identifier: BSL-1.0
#pragma once

// How the goods of a roof come: packs, lengths, weights, prices, labour, what is on hand. Everything but the packs may be
// left out, and then the order leaves it out too.

#include <eavewright/fault.hpp>
#include <eavewright/order/article.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/order/money.hpp>
#include <eavewright/order/quantity.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
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
    LengthGoods purlins{};
    PackGoods sheets{};
    Length sheet_kerf = Length::from_inches(0.125);  ///< between two pieces cut from one sheet; common practice
    PackGoods nails{};
    PackGoods underlayment{.sold_by = SoldBy::roll};
    LengthGoods panels{};
    std::int64_t panels_a_bundle = 20;  ///< of one length; common practice
    PackGoods eave_trim{};
    PackGoods rake_trim{};
    PackGoods ridge_cap{};
    PackGoods high_eave_trim{};
    PackGoods inside_closures{.sold_by = SoldBy::strip};   ///< under the lower ends
    PackGoods outside_closures{.sold_by = SoldBy::strip};  ///< on the upper ends
    std::optional<RunGoods> sealant{};
    PackGoods screws{};
    PackGoods stitch_screws{};
};

namespace detail {
inline void require_amount(double given, double most, const Path& path, Faults& faults) {
    if (!(given >= 0.0 && given <= most)) {
        faults.push_back(Fault{std::isfinite(given) ? FaultCode::out_of_range : FaultCode::not_finite, path.text(),
                               write_decimal(given, 6), "0 to " + write_decimal(most, 0)});
    }
}
inline void require_count(std::int64_t given, std::int64_t least, const Path& path, Faults& faults) {
    if (given < least || given > most_placed_pieces) {
        faults.push_back(Fault{FaultCode::out_of_range, path.text(), std::to_string(given),
                               std::to_string(least) + " to " + std::to_string(most_placed_pieces)});
    }
}

/// What all goods have: a price, a mass and labour of 0 or more, and a currency where there is a price.
struct GoodsParts {
    const std::optional<Money>& price;
    const std::optional<Mass>& mass;
    const std::optional<double>& minutes;
    const char* price_name = "price";
    const char* mass_name = "mass";
};
inline void find_faults_of_parts(const GoodsParts& goods, bool has_currency, const Path& path, Faults& faults) {
    if (goods.price && *goods.price < no_money) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, goods.price_name}.text(), write_money(*goods.price),
                               "0.00 or more"});
    }
    if (goods.price && !has_currency) {
        faults.push_back(Fault{FaultCode::missing_field, Path{path, goods.price_name}.text(), write_money(*goods.price),
                               "a currency for the order that has prices"});
    }
    if (goods.mass) {
        require_amount(pounds(*goods.mass), 1e6, Path{path, goods.mass_name}, faults);
    }
    if (goods.minutes) {
        require_amount(*goods.minutes, 1e6, Path{path, "minutes"}, faults);
    }
}

inline void find_pack_faults(const PackGoods& goods, bool has_currency, const Path& path, Faults& faults) {
    require_count(goods.pack, 1, Path{path, "pack"}, faults);
    require_count(goods.on_hand, 0, Path{path, "on_hand"}, faults);
    require_amount(goods.spare, 1.0, Path{path, "spare"}, faults);
    find_faults_of_parts({goods.price, goods.mass, goods.minutes}, has_currency, path, faults);
}
inline void find_length_faults(const LengthGoods& goods, bool has_currency, const Path& path, Faults& faults) {
    find_faults_of_parts({goods.price_a_foot, goods.mass_a_foot, goods.minutes, "price_a_foot", "mass_a_foot"},
                         has_currency, path, faults);
}
inline void find_run_faults(const RunGoods& goods, bool has_currency, const Path& path, Faults& faults) {
    require_within(goods.length, one_inch, longest_placed, Path{path, "length"}, faults);
    require_within(goods.on_hand, no_length, longest_placed, Path{path, "on_hand"}, faults);
    require_amount(goods.spare, 1.0, Path{path, "spare"}, faults);
    find_faults_of_parts({goods.price, goods.mass, goods.minutes}, has_currency, path, faults);
}
}  // namespace detail

inline void find_faults(const SupplyPlan& supply, const Path& path, Faults& faults) {
    const bool currency = !supply.currency.empty();
    if (!supply.lumber.stock.empty()) {
        find_faults(supply.lumber, Path{path, "lumber"}, faults);
    }
    require_within(supply.sheet_kerf, no_length, Length::from_inches(2.0), Path{path, "sheet_kerf"}, faults);
    if (supply.panels_a_bundle < 1 || supply.panels_a_bundle > 10'000) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "panels_a_bundle"}.text(),
                               std::to_string(supply.panels_a_bundle), "1 to 10000"});
    }
    detail::find_length_faults(supply.purlins, currency, Path{path, "purlins"}, faults);
    detail::find_length_faults(supply.panels, currency, Path{path, "panels"}, faults);
    const auto judge = [&](const PackGoods& goods, const char* name) {
        detail::find_pack_faults(goods, currency, Path{path, name}, faults);
    };
    judge(supply.sheets, "sheets");
    judge(supply.nails, "nails");
    judge(supply.underlayment, "underlayment");
    judge(supply.eave_trim, "eave_trim");
    judge(supply.rake_trim, "rake_trim");
    judge(supply.ridge_cap, "ridge_cap");
    judge(supply.high_eave_trim, "high_eave_trim");
    judge(supply.inside_closures, "inside_closures");
    judge(supply.outside_closures, "outside_closures");
    judge(supply.screws, "screws");
    judge(supply.stitch_screws, "stitch_screws");
    if (supply.sealant) {
        detail::find_run_faults(*supply.sealant, currency, Path{path, "sealant"}, faults);
    }
}

}  // namespace eavewright
