// SPDX-License-Identifier: BSL-1.0
#pragma once

// An order judged on its own: never short, whole packs, no pack too many, sums that add up.

#include <eavewright/fault.hpp>
#include <eavewright/order/article.hpp>
#include <eavewright/order/money.hpp>
#include <eavewright/order/purchase.hpp>
#include <eavewright/order/quantity.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
/// Judges an order by multiplying and adding up only, where `purchase` divides.
class OrderCheck {
public:
    explicit OrderCheck(const Order& order) : order_{&order} {}

    void check_line(const Demand& demand, std::size_t index) {
        const OrderLine& line = order_->lines[index];
        at_ = "lines[" + std::to_string(index) + "].";
        require(line.name == demand.article.name && line.length == demand.article.length, "name", line.name,
                demand.article.name);
        require(line.sold_by == demand.article.sold_by && line.delivery == demand.article.delivery, "sold_by",
                "another article", "the article as demanded");
        const PlacedBy unit = demand.placed.unit();
        bool alike = line.pack == demand.article.pack && line.placed == demand.placed;
        for (const Quantity& each : {line.spare, line.needed, line.on_hand_used, line.bought, line.left_over}) {
            alike = alike && each.unit() == unit;
        }
        require(alike, "placed", describe_quantity(line.placed), describe_quantity(demand.placed) + " as demanded");
        if (alike) {
            amounts(demand, line);
            figures(demand.article, line);
        }
    }

    void check_total(const OrderTotal& total, const std::optional<Delivery>& delivery, const std::string& at) {
        at_ = at + ".";
        std::int64_t lines = 0;
        std::int64_t packs = 0;
        Sum mass;
        Sum minutes;
        std::int64_t hundredths = 0;
        std::vector<std::size_t> unpriced;
        for (std::size_t i = 0; i < order_->lines.size(); ++i) {
            const OrderLine& line = order_->lines[i];
            if (delivery && line.delivery != *delivery) {
                continue;
            }
            ++lines;
            packs += packs_of(line);
            mass.add(line.mass ? std::optional<double>{pounds(*line.mass)} : std::nullopt, i);
            minutes.add(line.minutes, i);
            hundredths += line.price ? line.price->hundredths() : 0;  // 10,000 prices fit
            if (!line.price) {
                unpriced.push_back(i);
            }
        }
        require(total.lines == lines, "lines", std::to_string(total.lines), std::to_string(lines));
        require(total.packs == packs, "packs", std::to_string(total.packs), std::to_string(packs));
        require(mass.is(total.mass ? std::optional<double>{pounds(*total.mass)} : std::nullopt, total.without_mass),
                "mass", "another sum", "the masses of its lines added up");
        require(minutes.is(total.minutes, total.without_minutes), "minutes", "another sum",
                "the minutes of its lines added up");
        require(total.without_price == unpriced && total.price.has_value() == unpriced.empty() &&
                    (!total.price || total.price->hundredths() == hundredths),
                "price", "another sum", "the prices of its lines added up");
    }

    /// What is wrong with the order as a whole.
    void require_whole(bool holds, const std::string& name, const std::string& given, const std::string& required) {
        at_.clear();
        require(holds, name, given, required);
    }

    Faults faults{};

private:
    struct Sum {
        double sum = 0.0;
        std::vector<std::size_t> without{};
        void add(const std::optional<double>& part, std::size_t index) {
            sum += part.value_or(0.0);
            if (!part) {
                without.push_back(index);
            }
        }
        [[nodiscard]] bool is(const std::optional<double>& given, const std::vector<std::size_t>& left) const {
            return left == without && given.has_value() == without.empty() && (!given || equal(*given, sum));
        }
    };
    /// Sums of ten thousand doubles differ by less.
    [[nodiscard]] static bool equal(double a, double b) { return std::fabs(a - b) <= 1e-9 * (1.0 + std::fabs(b)); }
    [[nodiscard]] static bool is_packs(std::int64_t packs) { return packs >= 0 && packs <= most_steps; }
    [[nodiscard]] static std::int64_t packs_of(const OrderLine& line) { return is_packs(line.packs) ? line.packs : 0; }

    void require(bool holds, const std::string& name, const std::string& given, const std::string& required) {
        if (!holds) {
            faults.push_back(Fault{FaultCode::contradiction, at_ + name, given, required});
        }
    }
    void amounts(const Demand& demand, const OrderLine& line) {
        const bool whole = demand.placed.unit() == PlacedBy::piece;
        const double tolerance = whole ? 0.0 : 2.0 * inches(count_tolerance);
        const auto same = [&](double a, double b) { return std::fabs(a - b) <= tolerance; };
        const double placed = demand.placed.number();
        const double pack = demand.article.pack.number();
        const double spare = line.spare.number();
        const double asked = placed * demand.article.spare;
        const double on_hand = demand.article.on_hand ? demand.article.on_hand->number() : 0.0;
        const double used = line.on_hand_used.number();
        const double needed = placed + spare;
        const double bought = static_cast<double>(line.packs) * pack;
        const double rounding = inches(count_tolerance);
        require(spare >= asked - rounding && spare < asked + (whole ? 1.0 : 2.0 * rounding), "spare",
                describe_quantity(line.spare), "the share that was asked, rounded up");
        require(same(line.needed.number(), needed), "needed", describe_quantity(line.needed), "placed and spare");
        require(used >= 0.0 && used <= on_hand + tolerance && used <= needed + tolerance, "on_hand_used",
                describe_quantity(line.on_hand_used), "no more than is on hand or needed");
        require(is_packs(line.packs), "packs", std::to_string(line.packs), "0 to " + std::to_string(most_steps));
        require(same(line.bought.number(), bought), "bought", describe_quantity(line.bought), "what its packs hold");
        require(bought + used + tolerance >= needed, "packs", std::to_string(line.packs), "enough: this is short");
        require(line.packs < 1 || bought - pack + used < needed - tolerance / 4.0, "packs", std::to_string(line.packs),
                "no pack too many");
        require(line.packs < 1 || same(used, on_hand), "on_hand_used", describe_quantity(line.on_hand_used),
                "all that is on hand before any is bought");
        require(same(line.left_over.number(), bought + used - placed), "left_over", describe_quantity(line.left_over),
                "bought and used from hand, less what is placed");
    }
    void figures(const Article& article, const OrderLine& line) {
        const bool none = line.packs == 0;
        const std::int64_t each = article.price ? article.price->hundredths() : 0;
        const std::int64_t price = line.price ? line.price->hundredths() : 0;
        // A price is judged by division, since the product of a broken line may not fit.
        const bool fits = none || each == 0 ? price == 0 : price % each == 0 && price / each == line.packs;
        require(line.price.has_value() == (none || article.price.has_value()) && fits, "price",
                line.price ? write_money(*line.price) : "none", "its packs at the price of each");
        const double mass = article.mass ? pounds(article.mass->mass) * static_cast<double>(line.packs) : 0.0;
        require(line.mass.has_value() == (none || article.mass.has_value()) &&
                    (!line.mass || !article.mass ||
                     equal(pounds(*line.mass) * article.mass->of.number(), mass * article.pack.number())),
                "mass", "another mass", "the mass of what is bought");
        require(
            line.minutes.has_value() == article.labour.has_value() &&
                (!line.minutes || !article.labour ||
                 equal(*line.minutes * article.labour->of.number(), article.labour->minutes * line.placed.number())),
            "minutes", "other minutes", "the labour of what is placed");
    }

    const Order* order_;
    std::string at_{};
};
}  // namespace detail

/// Everything wrong with an order, judged on its own from the demands: a line short of what is placed and spare, a pack too
/// many, stock on hand left lying while packs are bought, lines missing or out of their place, figures and sums that do not
/// add up. Empty where it may be ordered from. Demands that are unsound are its faults as well.
[[nodiscard]] inline Faults find_faults_of_order(const std::vector<Demand>& demands, const Order& order) {
    Faults unsound = check(demands, "demands");
    if (!unsound.empty()) {
        return unsound;
    }
    detail::OrderCheck judge{order};
    judge.require_whole(order.lines.size() == demands.size(), "lines", std::to_string(order.lines.size()) + " lines",
                        std::to_string(demands.size()) + ", one a demand");
    if (!judge.faults.empty()) {
        return judge.faults;
    }
    std::size_t next = 0;
    std::size_t deliveries = 0;
    bool priced = false;
    for (std::size_t d = 0; d < NamesOf<Delivery>::list.size(); ++d) {
        const std::size_t first = next;
        for (const Demand& demand : demands) {
            if (static_cast<std::size_t>(demand.article.delivery) == d) {
                priced = priced || demand.article.price.has_value();
                judge.check_line(demand, next++);
            }
        }
        if (next == first) {
            continue;
        }
        const std::string at = "deliveries[" + std::to_string(deliveries) + "]";
        const bool there = deliveries < order.deliveries.size() &&
                           static_cast<std::size_t>(order.deliveries[deliveries].delivery) == d;
        judge.require_whole(there, at, "another delivery", std::string{NamesOf<Delivery>::list[d]});
        if (there) {
            judge.check_total(order.deliveries[deliveries].total, static_cast<Delivery>(d), at);
        }
        ++deliveries;
    }
    judge.check_total(order.total, std::nullopt, "total");
    judge.require_whole(order.deliveries.size() == deliveries, "deliveries",
                        std::to_string(order.deliveries.size()) + " deliveries", std::to_string(deliveries));
    judge.require_whole(!priced || !order.currency.empty(), "currency", "", "the currency of the prices given");
    return judge.faults;
}

}  // namespace eavewright
