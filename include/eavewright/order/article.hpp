// SPDX-License-Identifier: BSL-1.0
#pragma once

// What can be bought: how it is sold, how much a pack holds, when it is ordered, and what is on hand.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/money.hpp>
#include <eavewright/order/quantity.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {

/// Deliveries in the order of the building.
enum class Delivery {
    framing,  ///< purlins, blocks, fascia
    deck,     ///< sheets and their nails
    dry_in,   ///< underlayment
    steel,    ///< panels, trim, closures, sealant, screws
};
template <>
struct NamesOf<Delivery> {
    static constexpr std::array<std::string_view, 4> list{"framing", "deck", "dry_in", "steel"};
};

/// When a delivery can be ordered: what has to stand and be measured before its quantities hold.
[[nodiscard]] constexpr std::string_view order_when(Delivery delivery) {
    switch (delivery) {
        case Delivery::framing: return "after posts, wall lines and frames are set and measured";
        case Delivery::deck: return "after the purlins are on and measured";
        case Delivery::dry_in: return "with the deck: it goes on the day that the deck is down";
        default: return "after the deck is down and measured, or the purlins where there is no deck";
    }
}

/// What one sold unit is called.
enum class SoldBy { piece, strip, bundle, box, bag, tube, roll, coil, pound, kilogram };
template <>
struct NamesOf<SoldBy> {
    static constexpr std::array<std::string_view, 10> list{"piece", "strip", "bundle", "box",   "bag",
                                                           "tube",  "roll",  "coil",   "pound", "kilogram"};
};

/// Mass of so much of an article: of one piece, of a pack, of a foot. 0 to 1,000,000 lb.
struct UnitMass {
    Mass mass;
    Quantity of;
};
/// Labour to place so much of an article: minutes of one person. 0 to 1,000,000 min.
struct UnitLabour {
    double minutes;
    Quantity of;
};

/// An article as it is sold. Placed quantities run on from pack to pack: sealant and coil are joined where one ends. What
/// may not be joined is cut by `cut_stock` or `cut_sheets` first, and their lengths and sheets are demanded as pieces.
struct Article {
    std::string name;
    Delivery delivery;
    SoldBy sold_by;
    Quantity pack;                                ///< how much one sold unit holds; the article is placed in its unit
    std::optional<Length> length = std::nullopt;  ///< of each piece where that is part of what is bought, as of panels
    std::optional<UnitMass> mass = std::nullopt;
    std::optional<Money> price = std::nullopt;  ///< of one sold unit, 0 or more
    std::optional<UnitLabour> labour = std::nullopt;
    std::optional<Quantity> on_hand = std::nullopt;  ///< used before any is bought; none: nothing
    double spare = 0.0;  ///< share of what is placed that is bought on top, 0 to 1; nothing unless asked
};

inline void find_faults(const Article& article, const Path& path, Faults& faults) {
    const PlacedBy unit = article.pack.unit();
    const auto require = [&](double value, double highest, const Path& at, const char* word) {
        if (!(value >= 0.0 && value <= highest)) {
            faults.push_back(Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite, at.text(),
                                   write_decimal(value, 6) + word, "0 to " + write_decimal(highest, 0) + word});
        }
    };
    if (article.name.empty()) {
        faults.push_back(Fault{FaultCode::missing_field, Path{path, "name"}.text(), "", "a name"});
    }
    require_quantity(article.pack, unit, true, Path{path, "pack"}, faults);
    if (article.length) {
        require_within(*article.length, one_inch / 64.0, Length::from_feet(200.0), Path{path, "length"}, faults);
    }
    if (article.mass) {
        const Path at{path, "mass"};
        require(pounds(article.mass->mass), 1e6, at, " lb");
        require_quantity(article.mass->of, unit, true, Path{at, "of"}, faults);
    }
    if (article.price && *article.price < no_money) {
        faults.push_back(
            Fault{FaultCode::out_of_range, Path{path, "price"}.text(), write_money(*article.price), "0.00 or more"});
    }
    if (article.labour) {
        const Path at{path, "labour"};
        require(article.labour->minutes, 1e6, at, " min");
        require_quantity(article.labour->of, unit, true, Path{at, "of"}, faults);
    }
    if (article.on_hand) {
        require_quantity(*article.on_hand, unit, false, Path{path, "on_hand"}, faults);
    }
    require(article.spare, 1.0, Path{path, "spare"}, " of what is placed");
}

}  // namespace eavewright
