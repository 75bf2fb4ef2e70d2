// SPDX-License-Identifier: BSL-1.0
#include "print_order.hpp"

#include "report_text.hpp"

#include <optional>
#include <string>

using namespace eavewright;

namespace {

[[nodiscard]] std::string quantity(const ReportText& text, Quantity amount) {
    if (const std::optional<std::int64_t> pieces = amount.pieces()) {
        return std::to_string(*pieces);
    }
    return amount.length() ? text.of(*amount.length()) : text.area(*amount.area());
}

[[nodiscard]] std::string parts(const ReportText& text, const std::string& currency, const std::optional<Mass>& mass,
                                const std::optional<Money>& price, const std::optional<double>& minutes) {
    std::string all;
    if (mass && pounds(*mass) > 0.0) {
        all += ", " + text.mass(*mass);
    }
    if (price && no_money < *price) {
        all += ", " + currency + " " + write_money(*price);
    }
    if (minutes && *minutes > 0.0) {
        all += ", " + write_decimal(*minutes / 60.0, 1) + " h";
    }
    return all;
}

void print_line(const ReportText& text, const Order& order, const OrderLine& line) {
    const bool single = line.pack.pieces() == std::optional<std::int64_t>{1};
    text.out << "    " << std::right << std::setw(5) << line.packs << " " << name_of(line.sold_by)
             << (line.packs == 1 ? "" : (line.sold_by == SoldBy::box ? "es" : "s")) << " of " << line.name
             << (line.length ? " " + text.of(*line.length) : "")
             << (single ? "" : ", " + quantity(text, line.pack) + " each") << ": " << quantity(text, line.placed)
             << " placed";
    if (line.on_hand_used.number() > 0.0) {
        text.out << ", " << quantity(text, line.on_hand_used) << " on hand";
    }
    if (line.left_over.number() > 0.0) {
        text.out << ", " << quantity(text, line.left_over) << " left over";
    }
    text.out << parts(text, order.currency, line.mass, line.price, line.minutes) << "\n";
}
}  // namespace

namespace {
[[nodiscard]] std::string lumber_bound(const CutBound& bound) {
    return bound.goal == CutGoal::least_cost ? "no way of cutting buys less than " +
                                                   write_decimal(static_cast<double>(bound.value) / 100.0, 2) + " ft"
                                             : "no way of cutting buys fewer than " + std::to_string(bound.value);
}
}  // namespace

void print_order(std::ostream& out, const RoofOrder& roof, Tick tick) {
    const ReportText text{out, tick};
    const Order& order = roof.order;
    out << "\nWhat to buy\n===========\n";
    for (const DeliveryTotal& delivery : order.deliveries) {
        out << " " << ReportText::words(name_of(delivery.delivery)) << ", " << order_when(delivery.delivery) << "\n";
        for (const OrderLine& line : order.lines) {
            if (line.delivery == delivery.delivery) {
                print_line(text, order, line);
            }
        }
    }
    for (const LengthBundles& group : roof.panels) {
        out << " Panels of " << text.of(group.length) << ": " << group.bundles << " bundles of up to "
            << group.pieces_in_full << (group.heaviest ? ", the heaviest " + text.mass(*group.heaviest) : "") << "\n";
    }
    if (roof.lumber) {
        text.line("lumber wasted", text.of(roof.lumber->waste) + " of " + text.of(roof.lumber->bought) + " bought; " +
                                       (roof.lumber_bound ? lumber_bound(*roof.lumber_bound) : std::string{}));
    }
    if (roof.sheets) {
        text.line("sheets wasted", text.area(roof.sheets->waste) + "; no way of cutting needs fewer than " +
                                       std::to_string(roof.sheets->bound.sheets));
    }
    const std::string sums = parts(text, order.currency, order.total.mass, order.total.price, order.total.minutes);
    text.line("in all", sums.empty() ? std::to_string(order.total.packs) + " sold units" : sums.substr(2));
    if (!order.total.without_price.empty() && order.total.without_price.size() < order.lines.size()) {
        text.line("without a price", std::to_string(order.total.without_price.size()) + " lines, so there is no sum");
    }
    out << handling_caution << "\n";
}
