// SPDX-License-Identifier: BSL-1.0
#include <eavewright/order/check_order.hpp>
#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/order/purchase.hpp>

#include <doctest/doctest.h>

#include "support/printing.hpp"
#include "support/seeded_numbers.hpp"

#include <cstdint>
#include <map>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const PurchasePlan dollars{.currency = "USD"};
Quantity pieces(std::int64_t n) { return Quantity::of_pieces(n); }
Quantity run(Length length) { return Quantity::of_length(length); }

std::vector<Demand> nails_and_tape() {
    return {{.article = {.name = "tape",
                         .delivery = Delivery::steel,
                         .sold_by = SoldBy::roll,
                         .pack = run(50_ft),
                         .mass = UnitMass{mass_from_pounds(1.5), run(50_ft)},
                         .price = Money::from_hundredths(995),
                         .labour = UnitLabour{0.25, run(1_ft)},
                         .on_hand = run(20_ft)},
             .placed = run(320_ft)},
            {.article = {.name = "nails",
                         .delivery = Delivery::deck,
                         .sold_by = SoldBy::box,
                         .pack = pieces(500),
                         .mass = UnitMass{mass_from_pounds(4.75), pieces(500)},
                         .price = Money::from_hundredths(3499),
                         .labour = UnitLabour{1.0, pieces(8)},
                         .on_hand = pieces(100),
                         .spare = 0.05},
             .placed = pieces(2928)},
            {.article = {.name = "sheets", .delivery = Delivery::deck, .sold_by = SoldBy::piece, .pack = pieces(1)},
             .placed = pieces(94)}};
}

/// The order with everything consistent but `more` packs on one line: only that the count is wrong may give it away.
Order with_packs(Order order, std::size_t index, std::int64_t more, std::int64_t hundredths_each, double pounds_each) {
    OrderLine& line = order.lines[index];
    line.packs += more;
    line.bought = line.pack * line.packs;
    line.left_over = line.bought + line.on_hand_used - line.placed;
    const Money money = Money::from_hundredths(hundredths_each * more);
    const Mass mass = mass_from_pounds(pounds_each * static_cast<double>(more));
    for (OrderTotal* total : {&order.deliveries[line.delivery == Delivery::deck ? 0 : 1].total, &order.total}) {
        total->packs += more;
        if (total->price) {
            *total->price += money;
        }
        if (total->mass) {
            *total->mass += mass;
        }
    }
    *line.price += money;
    *line.mass += mass;
    return order;
}
bool names_path(const Faults& faults, const std::string& path) {
    for (const Fault& fault : faults) {
        if (fault.path == path) {
            return true;
        }
    }
    return false;
}
}  // namespace

TEST_CASE("order check: a pack fewer is short, a pack more is too many") {
    const std::vector<Demand> demands = nails_and_tape();
    const Order good = purchase(demands, dollars);
    REQUIRE(find_faults_of_order(demands, good).empty());
    // Nails: 2928 and a twentieth, 147, is 3075; less 100 on hand, 2975: 6 boxes. Tape: 300 ft beyond hand: 6 rolls.
    CHECK(good.lines[0].packs == 6);
    CHECK(good.lines[2].packs == 6);
    for (const std::size_t index : {std::size_t{0}, std::size_t{2}}) {
        const std::int64_t each = index == 0 ? 3499 : 995;
        const double mass = index == 0 ? 4.75 : 1.5;
        const std::string path = "lines[" + std::to_string(index) + "].packs";
        CHECK(find_faults_of_order(demands, with_packs(good, index, 0, each, mass)).size() == 0);
        const Faults fewer = find_faults_of_order(demands, with_packs(good, index, -1, each, mass));
        REQUIRE(fewer.size() == 1);
        CHECK(fewer[0].path == path);
        CHECK(fewer[0].required == "enough: this is short");
        const Faults more = find_faults_of_order(demands, with_packs(good, index, 1, each, mass));
        REQUIRE(more.size() == 1);
        CHECK(more[0].path == path);
        CHECK(more[0].required == "no pack too many");
    }
}

TEST_CASE("order check: a wrong figure is rejected where it stands") {
    const std::vector<Demand> demands = nails_and_tape();
    const Order good = purchase(demands, dollars);
    const auto rejects = [&](const std::string& path, auto&& change) {
        Order bad = good;
        change(bad);
        INFO(path);
        CHECK(names_path(find_faults_of_order(demands, bad), path));
    };
    const Money cent = Money::from_hundredths(1);
    rejects("total.price", [&](Order& o) { o.total.price = cent; });
    rejects("total.mass", [](Order& o) { o.total.mass = mass_from_pounds(1.0); });
    rejects("total.minutes", [](Order& o) { o.total.minutes = 5.0; });
    rejects("total.lines", [](Order& o) { ++o.total.lines; });
    rejects("total.packs", [](Order& o) { --o.total.packs; });
    rejects("total.price", [](Order& o) { o.total.without_price.clear(); });
    rejects("deliveries[1].price", [&](Order& o) { *o.deliveries[1].total.price += cent; });
    rejects("deliveries[1].minutes", [](Order& o) { *o.deliveries[1].total.minutes += 1.0; });
    rejects("deliveries[0].mass", [](Order& o) { o.deliveries[0].total.without_mass = {0}; });
    rejects("deliveries[1]", [](Order& o) { o.deliveries.pop_back(); });
    rejects("deliveries", [](Order& o) { o.deliveries.push_back(o.deliveries[1]); });
    rejects("deliveries[0]", [](Order& o) { o.deliveries[0].delivery = Delivery::framing; });
    rejects("lines", [](Order& o) { o.lines.pop_back(); });
    rejects("lines[0].name", [](Order& o) { o.lines[0] = o.lines[1]; });
    rejects("lines[0].name", [](Order& o) { o.lines[0].length = 1_ft; });
    rejects("lines[0].sold_by", [](Order& o) { o.lines[0].sold_by = SoldBy::bag; });
    rejects("lines[0].placed", [](Order& o) { o.lines[0].placed = pieces(2927); });
    rejects("lines[0].placed", [](Order& o) { o.lines[0].pack = pieces(501); });
    rejects("lines[0].placed", [](Order& o) { o.lines[0].bought = run(1_ft); });
    rejects("lines[0].spare", [](Order& o) { o.lines[0].spare = pieces(146); });
    rejects("lines[0].spare", [](Order& o) { o.lines[0].spare = pieces(148); });
    rejects("lines[2].spare", [](Order& o) { o.lines[2].spare = run(1_in); });  // not asked
    rejects("lines[0].needed", [](Order& o) { o.lines[0].needed = pieces(2928); });
    rejects("lines[0].on_hand_used", [](Order& o) { o.lines[0].on_hand_used = pieces(101); });
    rejects("lines[0].on_hand_used", [](Order& o) { o.lines[0].on_hand_used = pieces(99); });  // left lying
    rejects("lines[2].on_hand_used", [](Order& o) { o.lines[2].on_hand_used = run(19_ft); });
    rejects("lines[0].bought", [](Order& o) { o.lines[0].bought = pieces(2999); });
    rejects("lines[2].left_over", [](Order& o) { o.lines[2].left_over = run(1_in); });
    rejects("lines[0].price", [&](Order& o) { *o.lines[0].price += cent; });
    rejects("lines[0].price", [](Order& o) { o.lines[0].price.reset(); });
    rejects("lines[1].price", [](Order& o) { o.lines[1].price = no_money; });  // made up: no price was given
    rejects("lines[0].mass", [](Order& o) { *o.lines[0].mass += mass_from_pounds(0.01); });
    rejects("lines[0].minutes", [](Order& o) { *o.lines[0].minutes += 0.01; });
    rejects("lines[0].packs", [](Order& o) { o.lines[0].packs = -1; });
    rejects("lines[0].packs", [](Order& o) { o.lines[0].packs = INT64_MAX; });
    rejects("currency", [](Order& o) { o.currency.clear(); });
    const std::vector<Demand> complete{demands[0], demands[1]};
    const Order priced = purchase(complete, dollars);
    REQUIRE(find_faults_of_order(complete, priced).empty());
    for (const auto& change : std::vector<void (*)(OrderTotal&)>{
             [](OrderTotal& t) { *t.price += Money::from_hundredths(1); }, [](OrderTotal& t) { t.price.reset(); },
             [](OrderTotal& t) { *t.mass -= mass_from_pounds(0.01); }, [](OrderTotal& t) { *t.minutes += 0.01; }}) {
        Order bad = priced;
        change(bad.total);
        CHECK(find_faults_of_order(complete, bad).size() == 1);
    }
    std::vector<Demand> unsound = demands;
    unsound[0].placed = run(-1_ft);
    CHECK(find_faults_of_order(unsound, good).front().path == "demands[0].placed");
}

TEST_CASE("order check: never short, whole packs and none too many, over a seeded sweep") {
    SeededNumbers numbers{20261125};
    for (int round = sweep(20000); round > 0; --round) {
        std::vector<Demand> demands;
        std::map<std::string, std::vector<std::int64_t>> whole;  // placed, pack, on hand in pieces or sixteenths
        for (int i = numbers.whole(0, 8); i > 0; --i) {
            const int unit = numbers.whole(0, 2);
            const std::int64_t pack = numbers.whole(1, numbers.coin() ? 5 : 9600);
            // Often an exact multiple of the pack, or one beside it.
            const std::int64_t placed =
                numbers.coin() ? numbers.whole(0, 100000)
                               : std::int64_t{pack} * numbers.whole(0, 20) + (numbers.coin() ? 0 : numbers.whole(0, 1));
            const std::int64_t on_hand = numbers.whole(0, 2) > 0 ? 0 : numbers.whole(0, 120000);
            const auto of = [&](std::int64_t n) {
                const double sixteenths = static_cast<double>(n) / 16.0;
                return unit == 0   ? pieces(n)
                       : unit == 1 ? run(1_in * sixteenths)
                                   : Quantity::of_area(area_from_square_feet(sixteenths));
            };
            Demand demand{.article = {.name = "article " + std::to_string(i),
                                      .delivery = static_cast<Delivery>(numbers.whole(0, 3)),
                                      .sold_by = SoldBy::box,
                                      .pack = of(pack)},
                          .placed = of(placed)};
            if (on_hand > 0) {
                demand.article.on_hand = of(on_hand);
            }
            if (numbers.coin()) {
                demand.article.price = Money::from_hundredths(numbers.whole(0, 100000));
            }
            if (numbers.coin()) {
                demand.article.mass = UnitMass{mass_from_pounds(numbers.between(0.0, 90.0)), of(pack)};
            }
            if (numbers.coin()) {
                demand.article.labour = UnitLabour{numbers.between(0.0, 20.0), of(1)};
            }
            whole[demand.article.name] = {placed, pack, on_hand};
            demands.push_back(demand);
        }
        const Order order = purchase(demands, dollars);
        REQUIRE(find_faults_of_order(demands, order).empty());
        std::int64_t hundredths = 0;
        for (const OrderLine& line : order.lines) {
            const std::vector<std::int64_t>& n = whole.at(line.name);
            REQUIRE(line.packs * n[1] + n[2] >= n[0]);
            REQUIRE((line.packs == 0 || (line.packs - 1) * n[1] + n[2] < n[0]));
            REQUIRE(line.left_over.number() >= 0.0);
            hundredths += line.price ? line.price->hundredths() : 0;
        }
        REQUIRE((!order.total.price || order.total.price->hundredths() == hundredths));
    }
}

TEST_CASE("order check: metric packs and spare shares, over a seeded sweep") {
    // Rolls of whole millimetres, placed multiples of them and a millimetre either side: no double is exact there.
    SeededNumbers numbers{20261128};
    for (int round = sweep(20000); round > 0; --round) {
        const int pack = numbers.whole(10, 50000);
        const int rolls = numbers.whole(1, 60);
        const int off = numbers.whole(-1, 1);
        Demand tape{.article = {.name = "tape",
                                .delivery = Delivery::steel,
                                .sold_by = SoldBy::roll,
                                .pack = run(Length::from_millimetres(pack))},
                    .placed = run(Length::from_millimetres(static_cast<double>(pack) * rolls + off))};
        Order order = purchase({tape}, {});
        REQUIRE(order.lines[0].packs == rolls + (off > 0 ? 1 : 0));
        REQUIRE(find_faults_of_order({tape}, order).empty());
        tape.article.spare = numbers.whole(0, 100) / 100.0;
        order = purchase({tape}, {});
        REQUIRE(find_faults_of_order({tape}, order).empty());
        // Pieces and hundredths: the spare in whole numbers.
        const int percent = numbers.whole(0, 100);
        const int placed = numbers.whole(0, 100000);
        const Demand nails{.article = {.name = "nails",
                                       .delivery = Delivery::deck,
                                       .sold_by = SoldBy::box,
                                       .pack = pieces(numbers.whole(1, 1000)),
                                       .spare = percent / 100.0},
                           .placed = pieces(placed)};
        order = purchase({nails}, {});
        REQUIRE(order.lines[0].spare == pieces((std::int64_t{placed} * percent + 99) / 100));
        REQUIRE(find_faults_of_order({nails}, order).empty());
    }
}

TEST_CASE("order check: lengths bought are cut up again into every piece, over a seeded sweep") {
    SeededNumbers numbers{20261129};
    for (int round = sweep(3000); round > 0; --round) {
        StockPlan plan{.stock = {{.length = 24_ft}}, .kerf = 1_in / 16 * numbers.whole(0, 4)};
        for (int i = numbers.whole(0, 3); i > 0; --i) {
            plan.stock.push_back({.length = 1_ft * (2 * i + 6 * numbers.whole(1, 2) + 1),
                                  .on_hand = numbers.whole(0, 4),
                                  .for_sale = numbers.coin()});
        }
        std::vector<Length> asked;
        for (int i = numbers.whole(0, 60); i > 0; --i) {
            asked.push_back(1_in / 16 * numbers.whole(16, 288 * 16));
        }
        const CutList cuts = cut_stock(asked, plan);
        std::vector<Demand> demands;
        for (std::size_t s = 0; s < plan.stock.size(); ++s) {
            demands.push_back({.article = {.name = "stock " + std::to_string(s),
                                           .delivery = Delivery::framing,
                                           .sold_by = SoldBy::bundle,
                                           .pack = pieces(numbers.whole(1, 4)),
                                           .length = plan.stock[s].length},
                               .placed = pieces(cuts.to_buy[s])});
        }
        const Order order = purchase(demands, {});
        REQUIRE(find_faults_of_order(demands, order).empty());
        // The pile: what was on hand and what the order brings. Each bar is taken off it and sawn from one end.
        std::map<std::size_t, std::int64_t> pile;
        for (std::size_t s = 0; s < plan.stock.size(); ++s) {
            pile[s] = plan.stock[s].on_hand + order.lines[s].bought.pieces().value();
        }
        std::vector<bool> cut(asked.size(), false);
        for (const CutBar& bar : cuts.bars) {
            REQUIRE(--pile[bar.stock] >= 0);
            Length left = plan.stock[bar.stock].length;
            for (const std::size_t piece : bar.pieces) {
                REQUIRE(asked[piece] <= left + 1e-9_in);
                left -= asked[piece] + plan.kerf;
                REQUIRE_FALSE(cut[piece]);
                cut[piece] = true;
            }
        }
        REQUIRE(cut == std::vector<bool>(asked.size(), true));
    }
}

TEST_CASE("order check: sheets bought are cut up again into every piece, over a seeded sweep") {
    SeededNumbers numbers{20261130};
    for (int round = sweep(2000); round > 0; --round) {
        SheetStock stock{.sheet = {.width = 4_ft, .length = 8_ft},
                         .on_hand = numbers.whole(0, 8),
                         .kerf = 1_in / 16 * numbers.whole(0, 4)};
        std::vector<SheetSize> asked;
        for (int i = numbers.whole(0, 40); i > 0; --i) {
            asked.push_back({.width = numbers.coin() ? 4_ft : 1_in / 16 * numbers.whole(16, 768),
                             .length = numbers.coin() ? 8_ft : 1_in / 16 * numbers.whole(16, 1536)});
        }
        const SheetCutList cuts = cut_sheets(asked, stock);
        // All sheets are demanded, and those on hand are the article's: the order must come to what the cutting buys.
        Demand sheets{.article = {.name = "sheets",
                                  .delivery = Delivery::deck,
                                  .sold_by = SoldBy::piece,
                                  .pack = pieces(1),
                                  .on_hand = pieces(stock.on_hand)},
                      .placed = pieces(cuts.sheets)};
        const Order order = purchase({sheets}, {});
        REQUIRE(find_faults_of_order({sheets}, order).empty());
        REQUIRE(order.lines[0].packs == cuts.to_buy);
        const std::int64_t pile = stock.on_hand + order.lines[0].bought.pieces().value();
        // Each piece lies on a sheet of the pile, within it; no two share a place.
        std::vector<int> times(asked.size(), 0);
        for (std::size_t c = 0; c < cuts.cuts.size(); ++c) {
            const SheetCut& a = cuts.cuts[c];
            const SheetSize& size = asked[a.piece];
            ++times[a.piece];
            REQUIRE(static_cast<std::int64_t>(a.sheet) < pile);
            REQUIRE(a.at_length + size.length <= 96_in + 1e-9_in);
            REQUIRE(a.at_width + size.width <= 48_in + 1e-9_in);
            for (std::size_t d = 0; d < c; ++d) {
                const SheetCut& b = cuts.cuts[d];
                const SheetSize& other = asked[b.piece];
                const bool apart = a.sheet != b.sheet || a.at_length + size.length <= b.at_length + 1e-9_in ||
                                   b.at_length + other.length <= a.at_length + 1e-9_in ||
                                   a.at_width + size.width <= b.at_width + 1e-9_in ||
                                   b.at_width + other.width <= a.at_width + 1e-9_in;
                REQUIRE(apart);
            }
        }
        REQUIRE(times == std::vector<int>(asked.size(), 1));
    }
}
