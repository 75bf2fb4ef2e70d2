// SPDX-License-Identifier: BSL-1.0

// The workshop's order worked by hand, and orders of random roofs: cut up again, what is bought yields every piece.

#include "../support/compiled.hpp"
#include "workshop.hpp"

#include <eavewright/order/check_order.hpp>
#include <eavewright/order/check_sheet_cuts.hpp>
#include <eavewright/order/difference.hpp>
#include <eavewright/whole_roof/placed_pieces.hpp>
#include <eavewright/whole_roof/roof_order.hpp>
#include <eavewright/whole_roof/whole_roof.hpp>

#include "../support/printing.hpp"
#include "../support/seeded_numbers.hpp"

#include <cmath>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
[[nodiscard]] const OrderLine& line_of(const RoofOrder& roof, const std::string& name) {
    for (const OrderLine& line : roof.order.lines) {
        if (line.name == name) {
            return line;
        }
    }
    FAIL("no line for " << name);
    return roof.order.lines.front();
}
[[nodiscard]] std::int64_t placed(const RoofOrder& roof, const std::string& name) {
    return line_of(roof, name).placed.pieces().value();
}

[[nodiscard]] std::int64_t in_bars(const CutList& list) {
    std::int64_t pieces = 0;
    for (const CutBar& bar : list.bars) {
        pieces += static_cast<std::int64_t>(bar.pieces.size());
    }
    return pieces;
}
}  // namespace

TEST_CASE("workshop order: counts by hand") {
    const RoofDescription roof = workshop();
    SupplyPlan supply{};
    supply.nails = {.pack = 1000, .sold_by = SoldBy::box};
    supply.screws = {.pack = 250, .sold_by = SoldBy::bag};
    supply.sealant = RunGoods{.length = 50_ft};
    const RoofOrder order = order_roof(roof, compiled::whole_roof(roof), supply);
    // Lumber a slope: 10 pieces of 21 ft, 17 of 20 ft, 12 of 11 ft. 24 ft each for the first two; 11 ft twice from one
    // (22 ft and a kerf): 10 + 17 + 6 = 33. The blocks come out of what is left: 3 ft less a kerf of a 24 ft length takes
    // one of 22 1/2 in, 4 ft less a kerf two. Two slopes: 66.
    CHECK(placed(order, "purlin lumber") == 66);
    CHECK(line_of(order, "purlin lumber").length == 24_ft);
    CHECK(order.lumber_pieces.size() == 2 * (10 + 17 + 12 + 22));
    // Sheets a slope: 23 whole, 7 of 78 7/16, 7 of 72 and 8 of 54 7/16 in, no two of which make 96: 45 sheets, 90 in all.
    // Rips of 22 1/8 in: three a slope, two side by side in one 48 in sheet (22.125 x 2 + 1/8 = 44.375): 3 more.
    CHECK(placed(order, "sheet") == 93);
    // 2928 nails in boxes of 1000: 3, 72 left. Panels 2 x 21. Eave trim 2 x 7, rake trim 4 x 2, one ridge of 7.
    CHECK(line_of(order, "nail").packs == 3);
    CHECK(line_of(order, "nail").left_over.pieces() == 72);
    CHECK(placed(order, "panel") == 42);
    CHECK(line_of(order, "panel").length == 247_in);
    CHECK(placed(order, "eave trim") == 14);
    CHECK(placed(order, "rake trim") == 8);
    CHECK(placed(order, "ridge cap") == 7);
    CHECK(placed(order, "inside closure") == 42);
    CHECK(placed(order, "outside closure") == 42);
    // Sealant 2 x 248 = 496 ft: 10 rolls of 50 ft, 4 ft left. Screws 2 x 1174 = 2348: 10 bags of 250; 480 stitch screws.
    CHECK(line_of(order, "sealant").packs == 10);
    CHECK(off_by(line_of(order, "sealant").left_over.length().value(), 4_ft) < 1e-6);
    CHECK(line_of(order, "screw").packs == 10);
    CHECK(placed(order, "stitch screw") == 480);
    // Underlayment: 8 courses of 62 ft from rolls of 144 ft, 4 rolls a slope.
    CHECK(placed(order, "underlayment") == 8);
    // Panels in bundles of 20: 20, 20 and 2; 20 x 60.20625 lb = 1204.125 lb.
    REQUIRE(order.panels.size() == 1);
    CHECK(order.panels[0].bundles == 3);
    CHECK(order.panels[0].pieces_in_last == 2);
    CHECK(std::fabs(pounds(order.panels[0].heaviest.value()) - 1204.125) < 1e-9);
    // By delivery, and none without what it comes with.
    REQUIRE(order.order.deliveries.size() == 4);
    CHECK(order.order.deliveries[0].delivery == Delivery::framing);
    CHECK(order.order.deliveries[3].delivery == Delivery::steel);
    CHECK(order.order.total.minutes == std::nullopt);
}

TEST_CASE("workshop order: prices, and what is on hand first") {
    const RoofDescription roof = workshop();
    SupplyPlan supply{.currency = "tokens"};
    supply.lumber = {.stock = {{.length = 24_ft}, {.length = 16_ft, .on_hand = 6, .for_sale = false}}};
    supply.purlins = {.price_a_foot = Money::from_hundredths(110)};
    supply.sheets = {.price = Money::from_hundredths(1850), .on_hand = 4};
    const RoofOrder order = order_roof(roof, compiled::whole_roof(roof), supply);
    // Six of 16 ft on hand take an 11 ft piece each: 66 - 3 = 63 to buy, at 24 x 1.10 = 26.40: 1663.20.
    CHECK(line_of(order, "purlin lumber").packs == 63);
    CHECK(line_of(order, "purlin lumber").price == Money::from_hundredths(166320));
    // 93 sheets, 4 on hand: 89 at 18.50 = 1646.50.
    CHECK(line_of(order, "sheet").packs == 89);
    CHECK(line_of(order, "sheet").price == Money::from_hundredths(164650));
    CHECK(order.order.total.price ==
          std::nullopt);  // nails have no price, so there is no sum that would be read as one
}

TEST_CASE("what an order buys yields every piece when it is cut again") {
    SeededNumbers random{77};
    for (int i = 0; i < sweep(300); ++i) {
        RoofDescription roof = workshop();
        GableRoof& shape = std::get<GableRoof>(roof.shape);
        shape.width = random.inches_between(240, 600);
        shape.length = random.inches_between(240, 1200);
        shape.pitch = Pitch::in_12(random.between(3, 9));
        roof.deck->sheets.stagger_spaces = random.whole(1, 2);
        roof.purlins->blocked_bays = {1};
        roof.steel->panels.rips = random.coin() ? RipPlace::last : RipPlace::balanced;
        const RoofResult laid = compiled::whole_roof(roof);
        SupplyPlan supply{};
        supply.nails.pack = random.whole(1, 1000);
        supply.screws.pack = random.whole(1, 300);
        supply.screws.spare = random.coin() ? 0.0 : 0.05;
        supply.sealant = RunGoods{.length = random.inches_between(200, 900)};
        supply.sheets.on_hand = random.whole(0, 30);
        const RoofOrder order = order_roof(roof, laid, supply);
        // Lumber: every bar holds its pieces and their kerfs, every piece is in one bar.
        const StockPlan stock{.stock = {{.length = roof.purlins->cuts.stock_length}}};
        CHECK(find_faults_of_cuts(order.lumber_pieces, stock, *order.lumber).empty());
        CHECK(in_bars(*order.lumber) == static_cast<std::int64_t>(order.lumber_pieces.size()));
        CHECK(line_of(order, "purlin lumber").bought == Quantity::of_pieces(order.lumber->to_buy[0]));
        // Sheets.
        CHECK(find_faults_of_cuts(order.sheet_pieces, sheet_search(roof, supply), *order.sheets).empty());
        CHECK(order.sheets->sheets <= order.sheets->plain);
        CHECK(line_of(order, "sheet").packs == order.sheets->to_buy);
        // Panels: one for each piece laid, at least as long.
        std::map<double, std::int64_t> panels;
        for (const SlopeResult& slope : laid.slopes) {
            for (const PanelPiece& piece : slope.steel->panels.pieces) {
                CHECK(piece.left_length <= piece.order_length + count_tolerance);
                CHECK(piece.right_length <= piece.order_length + count_tolerance);
                ++panels[inches(piece.order_length)];
            }
        }
        for (const OrderLine& line : order.order.lines) {
            CHECK(line.bought.number() + line.on_hand_used.number() >= line.placed.number() - 1e-6);
            if (line.name == "panel") {
                CHECK(line.packs == panels[inches(line.length.value())]);
                panels.erase(inches(line.length.value()));
            }
        }
        CHECK(panels.empty());
    }
}

TEST_CASE("the difference between two layouts, piece by piece") {
    const RoofDescription before = workshop();
    RoofDescription after = workshop();
    std::get<GableRoof>(after.shape).length = 62_ft;
    const std::vector<PlacedPiece> first = placed_pieces(compiled::whole_roof(before));
    const std::vector<PlacedPiece> second = placed_pieces(compiled::whole_roof(after));
    const Difference same = difference(first, first, before.tick);
    CHECK(same.changes.empty());
    CHECK(same.unchanged == static_cast<std::int64_t>(first.size()));
    // 2 ft more: 64 ft = 768 in is 21 1/3 panels: panel 21 becomes a full one on both slopes, and a 22nd covers 12 in.
    const Difference longer_roof = difference(first, second, before.tick);
    std::int64_t panels_added = 0;
    std::int64_t panels_resized = 0;
    for (const PieceChange& change : longer_roof.changes) {
        panels_added += change.kind == PieceKind::panel && change.change == ChangeKind::added ? 1 : 0;
        panels_resized += change.kind == PieceKind::panel && change.change == ChangeKind::resized ? 1 : 0;
        if (change.kind == PieceKind::panel && change.change == ChangeKind::resized) {
            CHECK(change.name == "21");
            CHECK(off_by(change.before->width, 24_in) < 1e-9);
            CHECK(off_by(change.after->width, 39_in) < 1e-9);
        }
    }
    CHECK(panels_added == 2);
    CHECK(panels_resized == 2);
    CHECK(longer_roof.removed == 0);
}
