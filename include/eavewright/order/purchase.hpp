// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is bought: every demand as a line of whole packs, delivery by delivery, with mass, price and labour.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/article.hpp>
#include <eavewright/order/handling.hpp>
#include <eavewright/order/money.hpp>
#include <eavewright/order/quantity.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// An article and how much of it is placed. All that is placed of one article is one demand, since packs are whole over
/// all of it.
struct Demand {
    Article article;
    Quantity placed;
};

/// What holds for the whole order.
struct PurchasePlan {
    std::string currency{};  ///< of all prices, as it shall be written; needed where there is a price, never converted
};

/// One article of an order.
struct OrderLine {
    std::string name;
    std::optional<Length> length;  ///< of each piece, where that is part of what is bought
    Delivery delivery;
    SoldBy sold_by;
    Quantity pack;
    Quantity placed;
    Quantity spare;              ///< on top of what is placed, only where a share was asked: whole pieces, rounded up
    Quantity needed;             ///< placed and spare
    Quantity on_hand_used;       ///< of what is on hand, first
    std::int64_t packs;          ///< to buy, whole
    Quantity bought;             ///< what these packs hold
    Quantity left_over;          ///< bought and used from hand, less what is placed
    std::optional<Mass> mass;    ///< of what is bought; nothing bought weighs nothing
    std::optional<Money> price;  ///< of what is bought; nothing bought costs nothing
    std::optional<double> minutes;  ///< of labour for what is placed
};

/// Sums over lines. A sum is none where a line lacks its part, and these lines are listed: a sum that leaves some out would
/// be read as the whole.
struct OrderTotal {
    std::int64_t lines;
    std::int64_t packs;
    std::optional<Mass> mass;
    std::optional<Money> price;
    std::optional<double> minutes;
    std::vector<std::size_t> without_mass;  ///< indexes into the order's lines
    std::vector<std::size_t> without_price;
    std::vector<std::size_t> without_minutes;
};

/// The lines of one delivery summed.
struct DeliveryTotal {
    Delivery delivery;
    OrderTotal total;
};

/// What to buy, which `find_faults_of_order` accepts or rejects on its own.
struct Order {
    std::string currency;
    std::vector<OrderLine> lines;           ///< by delivery, then as given
    std::vector<DeliveryTotal> deliveries;  ///< those that have lines, in the order of the building
    OrderTotal total;
};

template <>
struct FieldsOf<OrderLine> {
    static constexpr auto list = field_list(
        field("name", FieldUnit::none, "what is bought", &OrderLine::name),
        field("length", FieldUnit::length, "of each piece, null where that is no part of it", &OrderLine::length),
        field("delivery", FieldUnit::none, "the delivery it comes with", &OrderLine::delivery),
        field("sold_by", FieldUnit::none, "what one sold unit is called", &OrderLine::sold_by),
        field("pack", FieldUnit::none, "how much one sold unit holds", &OrderLine::pack),
        field("placed", FieldUnit::none, "how much is placed", &OrderLine::placed),
        field("spare", FieldUnit::none, "on top of it, nothing unless asked", &OrderLine::spare),
        field("needed", FieldUnit::none, "placed and spare", &OrderLine::needed),
        field("on_hand_used", FieldUnit::none, "taken from what is on hand", &OrderLine::on_hand_used),
        field("packs", FieldUnit::count, "sold units to buy", &OrderLine::packs),
        field("bought", FieldUnit::none, "how much they hold", &OrderLine::bought),
        field("left_over", FieldUnit::none, "bought and used from hand, less what is placed", &OrderLine::left_over),
        field(
            "mass_pounds", FieldUnit::ratio, "mass of what is bought in pounds, null where not given",
            +[](const OrderLine& l) { return l.mass ? std::optional<double>{pounds(*l.mass)} : std::nullopt; }),
        field(
            "price_hundredths", FieldUnit::count, "price of what is bought in hundredths, null where not given",
            +[](const OrderLine& l) {
                return l.price ? std::optional<std::int64_t>{l.price->hundredths()} : std::nullopt;
            }),
        field("minutes", FieldUnit::ratio, "minutes of labour to place it, null where not given", &OrderLine::minutes));
};
template <>
struct FieldsOf<OrderTotal> {
    static constexpr auto list = field_list(
        field("lines", FieldUnit::count, "lines summed", &OrderTotal::lines),
        field("packs", FieldUnit::count, "sold units to buy", &OrderTotal::packs),
        field(
            "mass_pounds", FieldUnit::ratio, "mass in pounds, null where a line lacks it",
            +[](const OrderTotal& t) { return t.mass ? std::optional<double>{pounds(*t.mass)} : std::nullopt; }),
        field(
            "price_hundredths", FieldUnit::count, "price in hundredths, null where a line lacks it",
            +[](const OrderTotal& t) {
                return t.price ? std::optional<std::int64_t>{t.price->hundredths()} : std::nullopt;
            }),
        field("minutes", FieldUnit::ratio, "minutes of labour, null where a line lacks them", &OrderTotal::minutes),
        field("without_mass", FieldUnit::count, "indexes of the lines without a mass", &OrderTotal::without_mass),
        field("without_price", FieldUnit::count, "indexes of the lines without a price", &OrderTotal::without_price),
        field("without_minutes", FieldUnit::count, "indexes of the lines without minutes",
              &OrderTotal::without_minutes));
};
template <>
struct FieldsOf<DeliveryTotal> {
    static constexpr auto list =
        field_list(field("delivery", FieldUnit::none, "the delivery", &DeliveryTotal::delivery),
                   field(
                       "order_when", FieldUnit::none, "when it can be ordered",
                       +[](const DeliveryTotal& d) { return order_when(d.delivery); }),
                   field("total", FieldUnit::none, "its lines summed", &DeliveryTotal::total));
};
template <>
struct FieldsOf<Order> {
    static constexpr auto list = field_list(
        field(
            "caution", FieldUnit::none, "to be read before anything is lifted",
            +[](const Order&) { return handling_caution; }),
        field("currency", FieldUnit::none, "of all prices", &Order::currency),
        field("lines", FieldUnit::none, "what to buy, by delivery, then as given", &Order::lines),
        field("deliveries", FieldUnit::none, "sums of each delivery, in the order of the building", &Order::deliveries),
        field("total", FieldUnit::none, "sums of all lines", &Order::total));
};

/// Most demands of one order.
inline constexpr std::size_t most_demands = 10'000;

namespace detail {
/// A share of what is placed, whole pieces rounded up; lengths and areas as they come, since their packs are rounded up.
[[nodiscard]] inline Quantity spare_of(Quantity placed, double share) {
    switch (placed.unit()) {
        case PlacedBy::length: return Quantity::of_length(one_inch * (placed.number() * share));
        case PlacedBy::area: return Quantity::of_area(area_from_square_feet(placed.number() * share));
        default: {
            const double pieces = std::ceil(placed.number() * share - inches(count_tolerance));
            return Quantity::of_pieces(pieces > 0.0 ? static_cast<std::int64_t>(pieces) : 0);
        }
    }
}
}  // namespace detail

inline void find_faults(const Demand& demand, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    find_faults(demand.article, Path{path, "article"}, faults);
    require_quantity(demand.placed, demand.article.pack.unit(), false, Path{path, "placed"}, faults);
    if (faults.size() > before) {
        return;
    }
    const Quantity needed = demand.placed + detail::spare_of(demand.placed, demand.article.spare);
    if (!(needed.number() / demand.article.pack.number() < static_cast<double>(most_steps))) {
        faults.push_back(Fault{FaultCode::too_much_work, Path{path, "placed"}.text(),
                               describe_quantity(needed) + " in packs of " + describe_quantity(demand.article.pack),
                               "fewer than " + std::to_string(most_steps) + " packs"});
    }
}

/// Faults of every demand, and two demands for one article: the same name, and the same length up to `count_tolerance`.
inline void find_faults(const std::vector<Demand>& demands, const Path& path, Faults& faults) {
    if (demands.size() > most_demands) {
        faults.push_back(Fault{FaultCode::too_much_work, path.text(), std::to_string(demands.size()) + " demands",
                               "no more than " + std::to_string(most_demands)});
        return;
    }
    std::vector<std::size_t> order(demands.size());
    for (std::size_t i = 0; i < demands.size(); ++i) {
        find_faults(demands[i], Path{path, i}, faults);
        order[i] = i;
    }
    const auto length_of = [&](std::size_t i) { return demands[i].article.length.value_or(no_length); };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const int names = demands[a].article.name.compare(demands[b].article.name);
        return names < 0 || (names == 0 && length_of(a) < length_of(b));
    });
    for (std::size_t i = 1; i < order.size(); ++i) {
        const Article& one = demands[order[i - 1]].article;
        const Article& other = demands[order[i]].article;
        if (one.name == other.name && length_of(order[i]) - length_of(order[i - 1]) <= count_tolerance) {
            faults.push_back(Fault{FaultCode::contradiction, Path{path, order[i]}.text(), other.name,
                                   "one demand for all of it, with " + Path{path, order[i - 1]}.text()});
        }
    }
}

/// The currency is needed where a demand has a price.
inline void find_faults(const PurchasePlan& plan, const std::vector<Demand>& demands, const Path& path,
                        Faults& faults) {
    const bool priced =
        std::any_of(demands.begin(), demands.end(), [](const Demand& d) { return d.article.price.has_value(); });
    if (priced && plan.currency.empty()) {
        faults.push_back(
            Fault{FaultCode::missing_field, Path{path, "currency"}.text(), "", "the currency of the prices given"});
    }
}

namespace detail {
[[nodiscard]] inline OrderLine line_of(const Demand& demand) {
    const Article& article = demand.article;
    const PlacedBy unit = article.pack.unit();
    const Quantity spare = spare_of(demand.placed, article.spare);
    const Quantity needed = demand.placed + spare;
    const Quantity on_hand = article.on_hand.value_or(Quantity::none(unit));
    const Quantity used = on_hand.number() < needed.number() ? on_hand : needed;
    const std::int64_t packs = packs_to_cover(needed - used, article.pack);
    const Quantity bought = article.pack * packs;
    OrderLine line{.name = article.name,
                   .length = article.length,
                   .delivery = article.delivery,
                   .sold_by = article.sold_by,
                   .pack = article.pack,
                   .placed = demand.placed,
                   .spare = spare,
                   .needed = needed,
                   .on_hand_used = used,
                   .packs = packs,
                   .bought = bought,
                   .left_over = bought + used - demand.placed,
                   .mass = std::nullopt,
                   .price = std::nullopt,
                   .minutes = std::nullopt};
    if (packs == 0) {
        line.mass = mass_from_pounds(0.0);
        line.price = no_money;
    }
    if (packs > 0 && article.mass) {
        line.mass = article.mass->mass * (bought.number() / article.mass->of.number());
    }
    if (packs > 0 && article.price) {
        line.price = *article.price * packs;
    }
    if (article.labour) {
        line.minutes = article.labour->minutes * (demand.placed.number() / article.labour->of.number());
    }
    return line;
}

[[nodiscard]] inline OrderTotal nothing_ordered() {
    return {.lines = 0,
            .packs = 0,
            .mass = mass_from_pounds(0.0),
            .price = no_money,
            .minutes = 0.0,
            .without_mass = {},
            .without_price = {},
            .without_minutes = {}};
}

/// Adds a line's part to a sum, or takes the sum away and notes the line.
template <class Part>
void add_part(std::optional<Part>& sum, const std::optional<Part>& part, std::size_t index,
              std::vector<std::size_t>& without) {
    if (!part) {
        without.push_back(index);
        sum.reset();
    } else if (sum) {
        *sum += *part;
    }
}
inline void add_line(OrderTotal& total, const OrderLine& line, std::size_t index) {
    ++total.lines;
    total.packs += line.packs;
    add_part(total.mass, line.mass, index, total.without_mass);
    add_part(total.price, line.price, index, total.without_price);
    add_part(total.minutes, line.minutes, index, total.without_minutes);
}
}  // namespace detail

/// The order that covers every demand: what is on hand first, then whole packs, never short and no pack too many. Nothing is
/// added for waste unless a demand asks for a spare share. Masses are shown with `handling_caution`.
/// Throws `FaultError`: the first fault of the demands, missing_field for prices without a currency, out_of_range where a
/// price or a sum of prices is no `Money`.
[[nodiscard]] inline Order purchase(const std::vector<Demand>& demands, const PurchasePlan& plan) {
    require_sound(demands, "demands");
    Faults faults;
    find_faults(plan, demands, Path{"plan"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    Order order{plan.currency, {}, {}, detail::nothing_ordered()};
    order.lines.reserve(demands.size());
    for (const Demand& demand : demands) {
        order.lines.push_back(detail::line_of(demand));
    }
    std::stable_sort(order.lines.begin(), order.lines.end(),
                     [](const OrderLine& a, const OrderLine& b) { return a.delivery < b.delivery; });
    for (std::size_t i = 0; i < order.lines.size(); ++i) {
        const OrderLine& line = order.lines[i];
        if (order.deliveries.empty() || order.deliveries.back().delivery != line.delivery) {
            order.deliveries.push_back({line.delivery, detail::nothing_ordered()});
        }
        detail::add_line(order.deliveries.back().total, line, i);
        detail::add_line(order.total, line, i);
    }
    return order;
}

}  // namespace eavewright
