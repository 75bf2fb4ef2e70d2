// SPDX-License-Identifier: BSL-1.0
#include <eavewright/order/check_order.hpp>
#include <eavewright/order/cut_stock.hpp>
#include <eavewright/order/purchase.hpp>
#include <eavewright/writing/json.hpp>

#include <doctest/doctest.h>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/table.hpp"

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const PurchasePlan dollars{.currency = "USD"};
Quantity pieces(std::int64_t n) { return Quantity::of_pieces(n); }
Quantity run(Length length) { return Quantity::of_length(length); }
Quantity square_feet_of(double v) { return Quantity::of_area(area_from_square_feet(v)); }
std::optional<UnitMass> pounds_a(double mass, Quantity of) { return UnitMass{mass_from_pounds(mass), of}; }
std::optional<Money> cents(std::int64_t n) { return Money::from_hundredths(n); }

/// A plain article: pieces in packs, nothing else known.
Article in_packs(const std::string& name, std::int64_t held) {
    return {.name = name, .delivery = Delivery::deck, .sold_by = SoldBy::box, .pack = pieces(held)};
}

/// The workshop of the tool library as it is bought. Prices and minutes are made up for the example.
std::vector<Demand> workshop_demands() {
    return {
        {.article = {.name = "ribbed panel",
                     .delivery = Delivery::steel,
                     .sold_by = SoldBy::piece,
                     .pack = pieces(1),
                     .length = 234_in,
                     .mass = pounds_a(57.0375, pieces(1)),  // 39 in x 234 in at 0.9 lb a square foot
                     .price = cents(7020),
                     .labour = UnitLabour{9.0, pieces(1)}},
         .placed = pieces(40)},
        {.article = {.name = "eave trim",
                     .delivery = Delivery::steel,
                     .sold_by = SoldBy::piece,
                     .pack = pieces(1),
                     .length = 126_in,
                     .mass = pounds_a(5.25, pieces(1)),
                     .price = cents(1260),
                     .labour = UnitLabour{10.0, pieces(1)}},
         .placed = pieces(14)},
        {.article = {.name = "butyl tape",
                     .delivery = Delivery::steel,
                     .sold_by = SoldBy::roll,
                     .pack = run(50_ft),
                     .mass = pounds_a(1.5, run(50_ft)),
                     .price = cents(995),
                     .labour = UnitLabour{0.25, run(1_ft)}},
         .placed = run(320_ft)},
        {.article = {.name = "8d nails",
                     .delivery = Delivery::deck,
                     .sold_by = SoldBy::box,
                     .pack = pieces(500),
                     .mass = pounds_a(4.75, pieces(500)),
                     .price = cents(3499),
                     .labour = UnitLabour{1.0, pieces(8)}},
         .placed = pieces(2928)},
        {.article = {.name = "sheathing 4 x 8",
                     .delivery = Delivery::deck,
                     .sold_by = SoldBy::piece,
                     .pack = pieces(1),
                     .mass = pounds_a(44.8, pieces(1)),
                     .price = cents(1525),
                     .labour = UnitLabour{6.0, pieces(1)}},
         .placed = pieces(94)},
        {.article = {.name = "2 x 6 purlin",
                     .delivery = Delivery::framing,
                     .sold_by = SoldBy::piece,
                     .pack = pieces(1),
                     .length = 24_ft,
                     .mass = pounds_a(2.0, pieces(1)),
                     .price = cents(1840),
                     .labour = UnitLabour{12.0, pieces(1)}},
         .placed = pieces(66)},
        {.article = {.name = "underlayment",
                     .delivery = Delivery::dry_in,
                     .sold_by = SoldBy::roll,
                     .pack = square_feet_of(1000.0),
                     .mass = pounds_a(25.0, square_feet_of(1000.0)),
                     .price = cents(8900),
                     .labour = UnitLabour{30.0, square_feet_of(100.0)}},
         .placed = square_feet_of(2550.0)},
    };
}
}  // namespace

TEST_CASE("order: the workshop by hand, line by line") {
    const Order order = purchase(workshop_demands(), dollars);
    REQUIRE(order.lines.size() == 7);
    CHECK(find_faults_of_order(workshop_demands(), order).empty());
    // By delivery, then as given: purlins; nails, sheets; underlayment; panels, trim, butyl.
    const std::vector<std::string> names{"2 x 6 purlin", "8d nails",  "sheathing 4 x 8", "underlayment",
                                         "ribbed panel", "eave trim", "butyl tape"};
    for (std::size_t i = 0; i < names.size(); ++i) {
        CHECK(order.lines[i].name == names[i]);
    }
    // 2928 nails: 5 x 500 = 2500 is short, 6 boxes, 3000 - 2928 = 72 left. 6 x 34.99 = 209.94. 6 x 4.75 = 28.5 lb.
    // 2928 / 8 = 366 minutes.
    const OrderLine& nails = order.lines[1];
    CHECK(nails.packs == 6);
    CHECK(nails.bought == pieces(3000));
    CHECK(nails.left_over == pieces(72));
    CHECK(nails.price == cents(20994));
    CHECK(std::fabs(pounds(*nails.mass) - 28.5) < 1e-12);
    CHECK(std::fabs(*nails.minutes - 366.0) < 1e-12);
    // 2550 sq ft in rolls of 1000: 3 rolls, 450 left. 3 x 89.00 = 267.00. 25.5 x 30 = 765 minutes.
    const OrderLine& underlayment = order.lines[3];
    CHECK(underlayment.packs == 3);
    CHECK(std::fabs(underlayment.left_over.number() - 450.0) < 1e-9);
    CHECK(underlayment.price == cents(26700));
    CHECK(std::fabs(*underlayment.minutes - 765.0) < 1e-9);
    // 40 x 70.20 = 2808.00. 40 x 57.0375 = 2281.5 lb. 40 x 9 = 360 minutes.
    const OrderLine& panels = order.lines[4];
    CHECK(panels.packs == 40);
    CHECK(panels.length == 234_in);
    CHECK(panels.left_over == pieces(0));
    CHECK(panels.price == cents(280800));
    CHECK(std::fabs(pounds(*panels.mass) - 2281.5) < 1e-9);
    // 14 x 12.60 = 176.40. 14 x 5.25 = 73.5 lb.
    CHECK(order.lines[5].packs == 14);
    CHECK(order.lines[5].price == cents(17640));
    // 320 ft in rolls of 50: 6 x 50 = 300 is short, 7 rolls, 350 - 320 = 30 ft left. 7 x 9.95 = 69.65. 320 / 4 = 80 minutes.
    const OrderLine& butyl = order.lines[6];
    CHECK(butyl.packs == 7);
    CHECK(butyl.bought == run(350_ft));
    CHECK(off_by(*butyl.left_over.length(), 30_ft) < 1e-9);
    CHECK(butyl.price == cents(6965));
    CHECK(std::fabs(*butyl.minutes - 80.0) < 1e-9);
    for (const OrderLine& line : order.lines) {
        CHECK(line.spare.number() == 0.0);  // nothing on top that was not asked
    }
}

TEST_CASE("order: the workshop by hand, deliveries and the whole") {
    const Order order = purchase(workshop_demands(), dollars);
    REQUIRE(order.deliveries.size() == 4);
    const auto matches = [&](const OrderTotal& total, std::int64_t lines, std::int64_t packs, std::int64_t hundredths,
                             double mass, double minutes) {
        CHECK(total.lines == lines);
        CHECK(total.packs == packs);
        CHECK(total.price == cents(hundredths));
        CHECK(std::fabs(pounds(total.mass.value()) - mass) < 1e-9);
        CHECK(std::fabs(total.minutes.value() - minutes) < 1e-9);
        CHECK(total.without_price.empty());
    };
    // Framing: 66 x 18.40 = 1214.40; 66 x 2 = 132 lb; 66 x 12 = 792 min.
    matches(order.deliveries[0].total, 1, 66, 121440, 132.0, 792.0);
    // Deck: 209.94 + 94 x 15.25 = 1433.50, 1643.44; 28.5 + 94 x 44.8 = 4211.2, 4239.7 lb; 366 + 564 = 930 min.
    matches(order.deliveries[1].total, 2, 100, 164344, 4239.7, 930.0);
    // Dry-in: 267.00; 3 x 25 = 75 lb; 765 min.
    matches(order.deliveries[2].total, 1, 3, 26700, 75.0, 765.0);
    // Steel: 2808.00 + 176.40 + 69.65 = 3054.05; 2281.5 + 73.5 + 7 x 1.5 = 2365.5 lb; 360 + 140 + 80 = 580 min.
    matches(order.deliveries[3].total, 3, 61, 305405, 2365.5, 580.0);
    // 1214.40 + 1643.44 + 267.00 + 3054.05 = 6178.89; 132 + 4239.7 + 75 + 2365.5 = 6812.2 lb; 3067 min.
    matches(order.total, 7, 230, 617889, 6812.2, 3067.0);
    CHECK(order_when(order.deliveries[3].delivery).find("after the deck is down and measured") == 0);
}

TEST_CASE("order: as JSON, with its caution") {
    const nlohmann::json json =
        nlohmann::json::parse(write_json(purchase(workshop_demands(), dollars), LengthUnit::millimetres));
    CHECK(json["caution"] == std::string{handling_caution});
    CHECK(json["currency"] == "USD");
    CHECK(json["lines"][1]["price_hundredths"] == 20994);
    CHECK(json["lines"][1]["placed"]["pieces"] == 2928);
    CHECK(json["lines"][1]["length"].is_null());
    CHECK(json["lines"][6]["pack"]["length"] == 15240.0);  // 50 ft
    CHECK(json["deliveries"][3]["delivery"] == "steel");
    CHECK(json["deliveries"][3]["order_when"] == std::string{order_when(Delivery::steel)});
    CHECK(json["total"]["price_hundredths"] == 617889);
    CHECK(nlohmann::json::parse(write_json_schema<Order>("order"))["properties"].size() == json.size());
}

TEST_CASE("order: stock on hand is used first") {
    Demand nails{.article = in_packs("nails", 500), .placed = pieces(2928)};
    // 500 on hand: 2428 to cover, 5 boxes, 2500 + 500 - 2928 = 72 left.
    nails.article.on_hand = pieces(500);
    OrderLine line = purchase({nails}, {}).lines[0];
    CHECK(line.on_hand_used == pieces(500));
    CHECK(line.packs == 5);
    CHECK(line.left_over == pieces(72));
    // 4000 on hand: 2928 of them, nothing to buy, which weighs and costs nothing even without a mass or a price.
    nails.article.on_hand = pieces(4000);
    const Order order = purchase({nails}, {});
    line = order.lines[0];
    CHECK(line.on_hand_used == pieces(2928));
    CHECK(line.packs == 0);
    CHECK(line.left_over == pieces(0));
    CHECK(line.price == no_money);
    CHECK(order.total.price == no_money);
    CHECK(pounds(order.total.mass.value()) == 0.0);
    CHECK(find_faults_of_order({nails}, order).empty());
    // A cut-off coil of 12 ft 6 in on hand, 62 ft 6 in of trim coil: one coil of 50 ft, exactly.
    const Demand coil{.article = {.name = "trim coil",
                                  .delivery = Delivery::steel,
                                  .sold_by = SoldBy::coil,
                                  .pack = run(50_ft),
                                  .on_hand = run(150_in)},
                      .placed = run(750_in)};
    CHECK(purchase({coil}, {}).lines[0].packs == 1);
}

TEST_CASE("order: a price that is missing takes the sum away and is listed") {
    std::vector<Demand> demands = workshop_demands();
    demands[3].article.price.reset();  // nails
    demands[4].article.labour.reset();
    const Order order = purchase(demands, dollars);
    CHECK_FALSE(order.lines[1].price.has_value());
    CHECK_FALSE(order.total.price.has_value());
    CHECK(order.total.without_price == std::vector<std::size_t>{1});
    CHECK(order.total.without_minutes == std::vector<std::size_t>{2});
    CHECK(order.deliveries[0].total.price == cents(121440));  // framing lacks nothing
    CHECK_FALSE(order.deliveries[1].total.price.has_value());
    CHECK(order.deliveries[1].total.without_price == std::vector<std::size_t>{1});
    CHECK(order.deliveries[3].total.price == cents(305405));
    CHECK(order.total.mass.has_value());
    CHECK(find_faults_of_order(demands, order).empty());
}

TEST_CASE("order: a spare share is asked for, shown, and rounded up") {
    Demand trim{.article = in_packs("trim", 1), .placed = pieces(14)};
    CHECK(purchase({trim}, {}).lines[0].packs == 14);
    trim.article.spare = 0.05;  // 0.7 of a piece
    OrderLine line = purchase({trim}, {}).lines[0];
    CHECK(line.spare == pieces(1));
    CHECK(line.needed == pieces(15));
    CHECK(line.packs == 15);
    CHECK(line.left_over == pieces(1));
    // 7 percent of 100 is 7, though 100 x 0.07 is a little more than 7 in doubles; a tenth of 31 is 4.
    trim.article.spare = 0.07;
    trim.placed = pieces(100);
    CHECK(purchase({trim}, {}).lines[0].spare == pieces(7));
    trim.article.spare = 0.1;
    trim.placed = pieces(31);
    CHECK(purchase({trim}, {}).lines[0].spare == pieces(4));
    trim.placed = pieces(0);
    CHECK(purchase({trim}, {}).lines[0].spare == pieces(0));
    // A twentieth of 100 m: 105 m, 7 rolls of 15 m exactly.
    const Demand tape{.article = {.name = "butyl tape",
                                  .delivery = Delivery::steel,
                                  .sold_by = SoldBy::roll,
                                  .pack = run(15_m),
                                  .spare = 0.05},
                      .placed = run(100_m)};
    line = purchase({tape}, {}).lines[0];
    CHECK(off_by(*line.spare.length(), 5_m) < 1e-9);
    CHECK(line.packs == 7);
    CHECK(off_by(*line.left_over.length(), 5_m) < 1e-9);
}

TEST_CASE("order: metric articles") {
    // 97.5 m of tape in rolls of 15 m: 6 x 15 = 90 is short, 7 rolls, 7.5 m left. 240 m2 in rolls of 75 m2: 4 rolls.
    // A kilogram for each 10 m2 at 300 m2: 30 kg.
    const std::vector<Demand> demands{
        {.article = {.name = "butyl tape", .delivery = Delivery::steel, .sold_by = SoldBy::roll, .pack = run(15_m)},
         .placed = run(97.5_m)},
        {.article = {.name = "underlayment",
                     .delivery = Delivery::dry_in,
                     .sold_by = SoldBy::roll,
                     .pack = Quantity::of_area(area_from_square_metres(75.0)),
                     .mass = UnitMass{mass_from_kilograms(1.0), Quantity::of_area(area_from_square_metres(10.0))}},
         .placed = Quantity::of_area(area_from_square_metres(240.0))}};
    const Order order = purchase(demands, {});
    CHECK(order.lines[0].packs == 4);
    CHECK(std::fabs(kilograms(*order.lines[0].mass) - 30.0) < 1e-9);
    CHECK(order.lines[1].packs == 7);
    CHECK(off_by(*order.lines[1].left_over.length(), 7500_mm) < 1e-9);
    CHECK(find_faults_of_order(demands, order).empty());
}

TEST_CASE("order: nails by the pound as published") {
    // US Army EN0069 works 6000 nails and a fifth on top, 7200, at 74 a pound: 97.3 lb. Whole pounds: 98. Whole boxes of
    // 5 lb, 370 nails: 19 x 370 = 7030 is short, 20.
    double share = 0.0;
    double a_pound = 0.0;
    for (const TableRow& row : read_table("estimating_waste.csv")) {
        share = row.at("item") == "common wire nails" ? std::stod(row.at("value")) / 100.0 : share;
        a_pound = row.at("item") == "10d common nails per pound" ? std::stod(row.at("value")) : a_pound;
    }
    Demand nails{.article = {.name = "10d common",
                             .delivery = Delivery::deck,
                             .sold_by = SoldBy::pound,
                             .pack = pieces_by_mass(mass_from_pounds(1.0), a_pound),
                             .spare = share},
                 .placed = pieces(6000)};
    OrderLine line = purchase({nails}, {}).lines[0];
    CHECK(line.needed == pieces(7200));
    CHECK(line.packs == 98);
    nails.article.pack = pieces_by_mass(mass_from_pounds(5.0), a_pound);
    CHECK(purchase({nails}, {}).lines[0].packs == 20);
    nails.article.spare = 0.0;  // what is published is an input: 6000 / 370 = 16.2
    CHECK(purchase({nails}, {}).lines[0].packs == 17);
}

TEST_CASE("order: published counts of nails per pound agree on the pounds to buy within their spread") {
    // The published counts differ from each other by up to 12 percent; so may the pounds, and one for the whole pound.
    for (const TableRow& row : read_table("nails_per_pound.csv")) {
        const auto pounds_to_buy = [&](const char* column) {
            Demand nails{.article = in_packs("nails", 1), .placed = pieces(2928)};
            nails.article.sold_by = SoldBy::pound;
            nails.article.pack = pieces_by_mass(mass_from_pounds(1.0), std::stod(row.at(column)));
            return static_cast<double>(purchase({nails}, {}).lines[0].packs);
        };
        const double chart = pounds_to_buy("per_lb_popular_chart_READ");
        CHECK(std::fabs(pounds_to_buy("per_lb_traditional_table_MEMORY") - chart) <= 0.12 * chart + 1.0);
        CHECK(std::fabs(pounds_to_buy("per_lb_cylinder_DERIVED") - chart) <= 0.12 * chart + 1.0);
        if (row.at("penny") == "8d") {
            CHECK(chart == 30.0);  // 2928 at 100 a pound: 29.28
        }
    }
}

TEST_CASE("order: nails of corrugated roofs as published, box by box") {
    // Theatre Catalog 1952 counts nails for each length of sheet; 40 sheets of each, in boxes of 100, added up box by box.
    int rows = 0;
    for (const TableRow& row : read_table("nails_per_corrugated_sheet.csv")) {
        const std::int64_t placed = 40 * std::stoll(row.at("nails"));
        std::int64_t boxes = 0;
        for (std::int64_t held = 0; held < placed; held += 100) {
            ++boxes;
        }
        CHECK(purchase({{.article = in_packs("nails", 100), .placed = pieces(placed)}}, {}).lines[0].packs == boxes);
        ++rows;
    }
    CHECK(rows == 7);
}

TEST_CASE("order: what is refused") {
    const Demand sound{.article = in_packs("nails", 500), .placed = pieces(10)};
    const auto refused = [&](auto&& change) {
        Demand demand = sound;
        change(demand);
        return refusal_of([&] { (void)purchase({sound, demand}, {}); });
    };
    const Fault twice = refused([](Demand&) {});
    CHECK(twice.code == FaultCode::contradiction);  // two demands for one article
    CHECK(twice.path == "demands[1]");
    CHECK(refused([](Demand& d) { d.article.name.clear(); }).path == "demands[1].article.name");
    CHECK(refused([](Demand& d) { d.article.pack = pieces(0); }).path == "demands[1].article.pack");
    CHECK(refused([](Demand& d) { d.placed = pieces(-1); }).path == "demands[1].placed");
    CHECK(refused([](Demand& d) { d.placed = run(1_ft); }).code == FaultCode::contradiction);
    CHECK(refused([](Demand& d) { d.placed = pieces(600'000'000); }).code == FaultCode::too_much_work);
    CHECK(refused([](Demand& d) { d.article.on_hand = pieces(-1); }).path == "demands[1].article.on_hand");
    CHECK(refused([](Demand& d) { d.article.on_hand = run(1_ft); }).path == "demands[1].article.on_hand");
    CHECK(refused([](Demand& d) { d.article.spare = 1.01; }).path == "demands[1].article.spare");
    CHECK(refused([](Demand& d) { d.article.spare = std::nan(""); }).code == FaultCode::not_finite);
    CHECK(refused([](Demand& d) { d.article.price = cents(-1); }).path == "demands[1].article.price");
    CHECK(refused([](Demand& d) { d.article.mass = pounds_a(-1.0, pieces(1)); }).path == "demands[1].article.mass");
    CHECK(refused([](Demand& d) { d.article.mass = pounds_a(1.0, pieces(0)); }).path == "demands[1].article.mass.of");
    CHECK(refused([](Demand& d) {
              d.article.labour = UnitLabour{1.0, run(1_ft)};
          }).path == "demands[1].article.labour.of");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused([&](Demand& d) { d.article.length = none; }).path == "demands[1].article.length");
        CHECK(refusal_of([&] {
                  (void)purchase(
                      {{.article =
                            {.name = "tape", .delivery = Delivery::steel, .sold_by = SoldBy::roll, .pack = run(50_ft)},
                        .placed = run(none)}},
                      {});
              }).path == "demands[0].placed");
    }
    // The same name at another length is another article.
    CHECK(refused([](Demand& d) { d.article.length = 10_ft; }).path == "no fault");
}

TEST_CASE("order: money that overflows is refused, and a price needs its currency") {
    Demand dear{.article = in_packs("dear", 1), .placed = pieces(2)};
    dear.article.price = Money::from_hundredths(money_limit_hundredths);
    CHECK(refusal_of([&] { (void)purchase({dear}, dollars); }).code == FaultCode::out_of_range);
    dear.placed = pieces(1);
    CHECK(purchase({dear}, dollars).total.price->hundredths() == money_limit_hundredths);
    Demand other = dear;
    other.article.name = "as dear";
    CHECK(refusal_of([&] { (void)purchase({dear, other}, dollars); }).path == "money");
    const Fault bare = refusal_of([&] { (void)purchase({dear}, {}); });
    CHECK(bare.code == FaultCode::missing_field);
    CHECK(bare.path == "plan.currency");
    CHECK(purchase({}, {}).lines.empty());
    CHECK(purchase({}, {}).total.price == no_money);
}
