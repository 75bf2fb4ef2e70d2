// SPDX-License-Identifier: BSL-1.0
#include "read_supply.hpp"

#include <eavewright/units/decimal.hpp>

#include <cmath>
#include <optional>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

/// A number from 0 to `most`; none where the field is absent or refused.
std::optional<double> read_amount(JsonFields& goods, const std::string& key, double most) {
    if (!goods.has(key)) {
        return std::nullopt;
    }
    const double amount = goods.number(key, 0.0);
    if (!(amount >= 0.0 && amount <= most)) {
        goods.refuse(key, write_decimal(amount, 6), "0 to " + write_decimal(most, 0));
        return std::nullopt;
    }
    return amount;
}

std::optional<Money> read_money(JsonFields& goods, const std::string& key) {
    const std::optional<double> amount = read_amount(goods, key, 1e9);
    return amount ? std::optional<Money>{Money::from_hundredths(std::llround(*amount * 100.0))} : std::nullopt;
}

/// A mass in pounds or kilograms, whichever is there.
std::optional<Mass> read_mass(JsonFields& goods, const std::string& key) {
    if (goods.has(key + "_kg") && goods.has(key + "_lb")) {
        goods.refuse(key + "_kg", "a mass in kilograms beside one in pounds", "one of the two");
    }
    if (goods.has(key + "_kg")) {
        return mass_from_kilograms(read_amount(goods, key + "_kg", 1e5).value_or(0.0));
    }
    if (goods.has(key + "_lb")) {
        return mass_from_pounds(read_amount(goods, key + "_lb", 1e5).value_or(0.0));
    }
    return std::nullopt;
}

void read_goods(JsonFields& order, const std::string& name, PackGoods& goods) {
    std::optional<JsonFields> given = order.object_or_none(name);
    if (!given) {
        return;
    }
    goods.pack = given->whole_or("pack", static_cast<int>(goods.pack));
    goods.sold_by = given->name_or("sold_by", goods.sold_by);
    goods.price = read_money(*given, "price");
    goods.mass = read_mass(*given, "mass");
    goods.minutes = read_amount(*given, "minutes", 1e5);
    goods.on_hand = given->whole_or("on_hand", static_cast<int>(goods.on_hand));
    goods.spare = read_amount(*given, "spare", 1.0).value_or(0.0);
    given->finish();
}

void read_by_length(JsonFields& goods, LengthGoods& by_length) {
    by_length.price_a_foot = read_money(goods, "price_a_foot");
    by_length.mass_a_foot = read_mass(goods, "mass_a_foot");
    by_length.minutes = read_amount(goods, "minutes", 1e5);
}

void read_lumber(JsonFields lumber, SupplyPlan& supply) {
    for (JsonFields& stock : lumber.objects_or_none("lengths")) {
        StockLength length{.length = stock.length("length", 16_ft)};
        length.on_hand = stock.whole_or("on_hand", 0);
        length.for_sale = stock.flag_or("for_sale", true);
        stock.finish();
        supply.lumber.stock.push_back(length);
    }
    supply.lumber.kerf = lumber.length_or("kerf", supply.lumber.kerf);
    read_by_length(lumber, supply.purlins);
    lumber.finish();
}

RunGoods read_sealant(JsonFields sealant) {
    RunGoods goods{.length = sealant.length("roll", 50_ft)};
    goods.sold_by = sealant.name_or("sold_by", goods.sold_by);
    goods.price = read_money(sealant, "price");
    goods.mass = read_mass(sealant, "mass");
    goods.minutes = read_amount(sealant, "minutes_a_foot", 1e5);
    goods.on_hand = sealant.length_or("on_hand", goods.on_hand);
    goods.spare = read_amount(sealant, "spare", 1.0).value_or(0.0);
    sealant.finish();
    return goods;
}
}  // namespace

SupplyPlan read_supply(JsonFields order) {
    SupplyPlan supply{};
    if (order.has("currency")) {
        supply.currency = order.text("currency");
    }
    if (auto lumber = order.object_or_none("lumber")) {
        read_lumber(*lumber, supply);
    }
    read_goods(order, "sheets", supply.sheets);
    supply.sheet_kerf = order.length_or("sheet_kerf", supply.sheet_kerf);
    read_goods(order, "nails", supply.nails);
    read_goods(order, "underlayment", supply.underlayment);
    if (auto panels = order.object_or_none("panels")) {
        supply.panels_a_bundle = panels->whole_or("a_bundle", static_cast<int>(supply.panels_a_bundle));
        read_by_length(*panels, supply.panels);
        panels->finish();
    }
    read_goods(order, "eave_trim", supply.eave_trim);
    read_goods(order, "rake_trim", supply.rake_trim);
    read_goods(order, "ridge_cap", supply.ridge_cap);
    read_goods(order, "high_eave_trim", supply.high_eave_trim);
    read_goods(order, "inside_closures", supply.inside_closures);
    read_goods(order, "outside_closures", supply.outside_closures);
    if (auto sealant = order.object_or_none("sealant")) {
        supply.sealant = read_sealant(*sealant);
    }
    read_goods(order, "screws", supply.screws);
    read_goods(order, "stitch_screws", supply.stitch_screws);
    order.finish();
    return supply;
}
