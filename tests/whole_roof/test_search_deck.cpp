// SPDX-License-Identifier: BSL-1.0

// A deck laid as a search finds it, through the whole walk.

#include <eavewright/whole_roof/roof_order.hpp>
#include <eavewright/whole_roof/search_deck.hpp>
#include <eavewright/whole_roof/whole_roof.hpp>

#include "../support/compiled.hpp"
#include "support/printing.hpp"
#include "workshop.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <optional>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("a deck laid as found takes no more sheets than the one described") {
    RoofDescription roof = workshop();
    roof.deck->sheets.rip_first = 40_in;  // a first lane of 8 in, which nobody would choose
    const RoofResult described = compiled::whole_roof(roof);
    roof.deck->layout = SheetLayout::fewest_sheets;
    const RoofResult found = compiled::whole_roof(roof);
    CHECK_FALSE(described.search.has_value());
    REQUIRE(found.search.has_value());
    CHECK(found.search->score.slivers < found.search->plain.slivers);
    CHECK(found.search->score.sheets <= found.search->plain_sheets);
    CHECK(order_roof(roof, found, {}).sheets->sheets <= order_roof(roof, described, {}).sheets->sheets);
    for (std::size_t i = 0; i < found.slopes.size(); ++i) {
        CHECK(found.slopes[i].sheets.pieces.size() == found.search->sheets[i].pieces.size());
    }
    const std::optional<FoundLayout> alone = search_deck(roof);
    REQUIRE(alone.has_value());
    CHECK(alone->score.sheets == found.search->score.sheets);
    roof.deck->overhangs_only = OverhangDeck{0.4375_in};
    CHECK_FALSE(search_deck(roof).has_value());
    roof.deck.reset();
    CHECK_FALSE(search_deck(roof).has_value());
}
