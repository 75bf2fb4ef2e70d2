// SPDX-License-Identifier: BSL-1.0

// Pictures of cut sheets and cut sticks: well formed, on their page, every figure one of the plan's, the same bytes.

#include <eavewright/drawing/cut_sheets_drawing.hpp>
#include <eavewright/drawing/cut_sticks_drawing.hpp>
#include <eavewright/order/search_sheet_cuts.hpp>

#include "../order/sheet_cases.hpp"
#include "../support/printing.hpp"
#include "../support/refusal.hpp"
#include "../support/seeded_numbers.hpp"
#include "svg_reader.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <cstdlib>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using sheet_cases::box;
using sheet_cases::triangle;

namespace {
const SheetSearchPlan plan{.stock = {.sheet = {.width = 4_ft, .length = 8_ft}, .on_hand = 1}};

bool says(const std::string& words, const std::string& what) { return words.find(what) != std::string::npos; }

/// Every coordinate lies on the page; texts start on it and, as they are estimated, end on it.
void check_on_page(const std::vector<svg_reader::Element>& elements, double width) {
    for (const svg_reader::Element& element : elements) {
        for (const char* name : {"x", "x1", "x2", "cx"}) {
            const auto found = element.attributes.find(name);
            if (found != element.attributes.end()) {
                const double x = std::strtod(found->second.c_str(), nullptr);
                CHECK(x >= 0.0);
                CHECK(x <= width);
            }
        }
        if (element.name == "text" && element.attributes.count("text-anchor") == 0) {
            const double x = std::strtod(element.attributes.at("x").c_str(), nullptr);
            const double size = std::strtod(element.attributes.at("font-size").c_str(), nullptr);
            CHECK(x + text_width(element.text, size) <= width + 1.0);
        }
    }
}
/// How many elements stand in the groups of a name.
std::size_t count_of(const std::vector<svg_reader::Element>& elements, const std::string& name) {
    std::size_t count = 0;
    for (const svg_reader::Element& element : elements) {
        count += element.name == name ? 1U : 0U;
    }
    return count;
}
}  // namespace

TEST_CASE("a picture of cut sheets draws equal sheets once and says what the plan says") {
    std::vector<SheetShape> shapes(5, box(60_in, 48_in));
    shapes.insert(shapes.end(), 2, triangle(90_in, 48_in));
    shapes.push_back(box(30_in, 20_in));
    std::vector<std::string> names{"A1", "A2", "A3", "<B1>", "B2", "C1", "C2"};
    const SheetSawPlan sawn = search_sheet_cuts(shapes, plan);
    REQUIRE(sawn.sheets == 6);
    const CutDrawingOptions options{.title = "Cuts & pieces"};
    const std::string svg = draw_cut_sheets(sawn, shapes, plan, names, options);
    CHECK(svg == draw_cut_sheets(sawn, shapes, plan, names, options));
    const std::vector<svg_reader::Element> elements = svg_reader::read(svg);
    const std::string words = svg_reader::words_of(elements);
    check_on_page(elements, 360.0);
    // 5 of 60 x 48, one of them with the 30 x 20 beside it: four sheets alike, two others.
    CHECK(says(words, "6 sheets of 4'-0\" x 8'-0\", 5 to buy."));
    CHECK(says(words, "No straight-through cutting needs fewer."));
    CHECK(says(words, "By area alone " + std::to_string(sawn.bound.by_area) + "."));
    CHECK(says(words, std::to_string(sawn.cuts.size()) + " cuts."));
    CHECK(svg_reader::times_written(elements, "Sheet 1 x 4") + svg_reader::times_written(elements, "Sheet 2 x 4") +
              svg_reader::times_written(elements, "Sheet 3 x 4") ==
          1);
    CHECK(says(words, "Sheet 3"));
    CHECK_FALSE(says(words, "Sheet 4"));
    for (const std::string& name : names) {
        CHECK(says(words, name));
    }
    CHECK(says(words, "8"));  // the piece without a name
    CHECK(says(words, "4'-0\" x 7'-6\" slanted"));
    CHECK(says(words, "crosscut 5'-0\""));
    CHECK(says(words, "slant from"));
    CHECK(says(words, "1'-8\" x 2'-6\""));
    // One number for each cut of each kind of sheet: the four alike have one cut each.
    CHECK(count_of(elements, "circle") == sawn.cuts.size() - 3);
    CHECK(svg.find("<title>Offcuts</title>") != std::string::npos);
    CHECK(svg.find("fill=\"#f") == svg.find("fill=\"#fff\""));  // black on white
}

TEST_CASE("pictures of random cut sheets are well formed and stay on their page") {
    SeededNumbers random{20'261'133};
    for (int i = 0; i < sweep(80); ++i) {
        std::vector<SheetShape> shapes;
        for (int n = random.whole(1, 25); n > 0; --n) {
            shapes.push_back(sheet_cases::any_piece(random));
        }
        SheetSearchPlan quick = plan;
        quick.nodes = 1'000;
        const SheetSawPlan sawn = search_sheet_cuts(shapes, quick);
        const int width = random.coin() ? 360 : random.whole(240, 1200);
        const Tick tick = random.coin() ? Tick::of_inch(16) : Tick::of_millimetres(1);
        const std::string svg =
            draw_cut_sheets(sawn, shapes, quick, {}, {.title = "", .tick = tick, .page_width = width});
        const std::vector<svg_reader::Element> elements = svg_reader::read(svg);
        check_on_page(elements, width);
        const std::string words = svg_reader::words_of(elements);
        for (const SheetShape& shape : shapes) {
            CHECK(says(words, write_length(shape.box.width, tick) + " x " + write_length(shape.box.length, tick)));
        }
    }
}

TEST_CASE("a picture of cut sticks draws equal sticks once and says what the list says") {
    const StockPlan stock{.stock = {{.length = 24_ft}, {.length = 16_ft, .on_hand = 1, .for_sale = false}}};
    std::vector<Length> pieces(3, 21_ft);
    pieces.insert(pieces.end(), 2, 11_ft);
    pieces.push_back(22.5_in);
    std::vector<std::string> names{"P1", "P2", "P3", "R1", "R2", "K1"};
    const CutList list = cut_stock(pieces, stock);
    const std::string svg = draw_cut_sticks(list, pieces, stock, names, {.title = "Purlins"});
    CHECK(svg == draw_cut_sticks(list, pieces, stock, names, {.title = "Purlins"}));
    const std::vector<svg_reader::Element> elements = svg_reader::read(svg);
    const std::string words = svg_reader::words_of(elements);
    check_on_page(elements, 360.0);
    // 21 ft three times, in one of them the 22 1/2; 11 ft from the one on hand, 11 ft from one bought: 5 sticks.
    REQUIRE(list.bars.size() == 5);
    CHECK(says(words, "5 sticks, 1 from hand. To buy: 4 of 24'-0\"."));
    CHECK(svg_reader::times_written(elements, "24'-0\" x 2") == 1);
    CHECK(svg_reader::times_written(elements, "16'-0\", on hand") == 1);
    for (const std::string& name : names) {
        CHECK(says(words, name));
    }
    // Beside 21 ft and 22 1/2 in with a kerf: 288 - 252 - 22 1/2 - 1/8 = 13 3/8.
    CHECK(says(words, "Left 1'-1 3/8\"."));
    CHECK(says(words, "Waste " + write_length(list.waste, Tick::of_inch(16))));
    // A stick of many short pieces lists them together.
    const std::vector<Length> blocks(12, 22.5_in);
    const std::string more = svg_reader::words_of(
        svg_reader::read(draw_cut_sticks(cut_stock(blocks, stock), blocks, stock, {}, {.title = "Blocks"})));
    CHECK(says(more, "of 1'-10 1/2\": 1, 2, 3"));
}

TEST_CASE("pictures of random cut sticks are well formed and stay on their page") {
    SeededNumbers random{20'261'134};
    for (int i = 0; i < sweep(80); ++i) {
        const StockPlan stock{.stock = {{.length = 20_ft, .on_hand = random.whole(0, 3)}, {.length = 12_ft}}};
        std::vector<Length> pieces;
        for (int n = random.whole(0, 40); n > 0; --n) {
            pieces.push_back(1_in / 16 * random.whole(16, 3840));
        }
        const int width = random.coin() ? 360 : random.whole(240, 1200);
        const std::string svg = draw_cut_sticks(cut_stock(pieces, stock), pieces, stock, {},
                                                {.title = "", .tick = Tick::of_inch(16), .page_width = width});
        check_on_page(svg_reader::read(svg), width);
    }
}

TEST_CASE("pictures of cuts refuse a plan that may not be sawn from, and a page too narrow") {
    const std::vector<SheetShape> shapes{box(60_in, 48_in)};
    SheetSawPlan sawn = search_sheet_cuts(shapes, plan);
    const auto drawn = [&](int width) {
        return refusal_of([&] { (void)draw_cut_sheets(sawn, shapes, plan, {}, {.title = "", .page_width = width}); })
            .path;
    };
    CHECK(drawn(100) == "options.page_width");
    CHECK(drawn(360) == "no fault");
    sawn.to_buy = 7;
    CHECK(drawn(360) == "to_buy");
    const StockPlan stock{.stock = {{.length = 24_ft}}};
    CutList list = cut_stock({10_ft}, stock);
    list.to_buy[0] = 9;
    CHECK(refusal_of([&] { (void)draw_cut_sticks(list, {10_ft}, stock, {}, {.title = ""}); }).path == "to_buy[0]");
}
