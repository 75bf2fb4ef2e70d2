// SPDX-License-Identifier: BSL-1.0

// Drawings of underlayment on planes with hips, valleys and openings: well formed, complete, with the figures of the result.

#include <eavewright/drawing/underlayment_plane_drawing.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/units/write_tape.hpp>

#include "../support/refusal.hpp"
#include "svg_reader.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

struct Drawn {
    std::string name;
    DeckPlane plane;
    Underlayment laid;
};

DeckPlane deck(std::vector<PlanePoint> outline, std::vector<EdgeKind> edges) {
    return {Pitch::in_12(6), std::move(outline), std::move(edges), {}, {{no_length, no_length, no_length}, 1.0, 0.0}};
}

std::vector<Drawn> all_planes() {
    UnderlaymentPlan plan{.roll = {.length = 30_ft}, .rule = SingleCoverage{}};
    std::vector<Drawn> all;
    const auto add = [&](const std::string& name, const DeckPlane& plane) {
        all.push_back({name, plane, lay_underlayment(plane, plan)});
    };
    add("hip end",
        deck({{0_in, 0_in}, {288_in, 0_in}, {144_in, 161_in}}, {EdgeKind::eave, EdgeKind::hip, EdgeKind::hip}));
    const DeckPlane valley = deck({{0_in, 0_in}, {240_in, 0_in}, {324_in, 112_in}, {0_in, 112_in}},
                                  {EdgeKind::eave, EdgeKind::valley, EdgeKind::ridge, EdgeKind::rake});
    add("valley", valley);
    plan.start = StartCorner::eave_right;
    add("skylights", add_opening(add_opening(valley, OpeningOnSlope{{40_in, 20_in}, 24_in, 46_in}, 2_in),
                                 OpeningOnSlope{{140_in, 40_in}, 48_in, 50_in}, 2_in));
    plan.rule = HalfLap{};
    add("porch", deck({{0_in, 0_in}, {600_in, 0_in}, {492_in, 111_in}, {0_in, 111_in}},
                      {EdgeKind::eave, EdgeKind::hip, EdgeKind::wall, EdgeKind::rake}));
    return all;
}
std::string drawing_of(const Drawn& drawn, int width) {
    return draw_underlayment(drawn.plane, drawn.laid, drawn.name, {.title = "House", .page_width = width});
}
}  // namespace

TEST_CASE("underlayment of any plane is drawn well formed, on the page, the same each time") {
    for (const Drawn& each : all_planes()) {
        for (const int width : {360, 794}) {
            CAPTURE(each.name);
            CAPTURE(width);
            const std::string svg = drawing_of(each, width);
            CHECK(svg == drawing_of(each, width));
            CHECK_FALSE(holds(svg, "nan"));
            std::vector<svg_reader::Element> elements;
            REQUIRE_NOTHROW(elements = svg_reader::read(svg));
            CHECK(holds(svg_reader::words_of(elements), std::string{drawing_caution}));
            for (const auto& element : elements) {
                if (element.name != "text") {
                    continue;
                }
                CAPTURE(element.text);
                const double size = std::stod(element.attributes.at("font-size"));
                const auto anchor = element.attributes.find("text-anchor");
                const double room = text_width(element.text, size);
                const double x = std::stod(element.attributes.at("x"));
                const double left = anchor == element.attributes.end() ? x
                                    : anchor->second == "end"          ? x - room
                                                                       : x - room / 2.0;
                CHECK(left >= 0.0);
                CHECK(left + room <= width);
                CHECK(size >= 9.0);
            }
        }
    }
}

TEST_CASE("every piece, mark and kind of edge of a plane is on its drawing") {
    for (const Drawn& each : all_planes()) {
        CAPTURE(each.name);
        const auto written = [](Length length) { return write_length(length, Tick::of_inch(16)); };
        const std::string svg = drawing_of(each, 794);
        const std::string words = svg_reader::words_of(svg_reader::read(svg));
        for (const CourseMark& mark : each.laid.marks) {
            CHECK(holds(words, detail::course_name(each.laid, mark.course) + ": " + written(mark.left) + "\n"));
            CHECK(holds(words, "\n" + written(mark.right) + "\n"));
        }
        for (const RollPiece& piece : each.laid.pieces) {
            CHECK(holds(words, written(piece.length)));
            CHECK(holds(words, written(piece.roll_left)));
        }
        CHECK(holds(words, "valley") == (each.name == "valley" || each.name == "skylights"));
        CHECK(holds(words, "Crossed: openings") == !each.plane.openings.empty());
        CHECK(holds(words, "up the hip") == (each.name == "hip end" || each.name == "porch"));
        CHECK(holds(words, "Hatched: end laps") == !each.laid.end_laps.empty());
        std::size_t rectangles = 0;
        for (std::size_t at = svg.find("<rect"); at != std::string::npos; at = svg.find("<rect", at + 1)) {
            ++rectangles;
        }
        CHECK(rectangles >= each.laid.pieces.size() + each.laid.end_laps.size());
    }
}

TEST_CASE("a plane and an underlayment that do not hold together are refused by name") {
    const Drawn sound = all_planes().front();
    const auto path_of = [](const Drawn& drawn) {
        return refusal_of([&] { static_cast<void>(drawing_of(drawn, 360)); }).path;
    };
    CHECK(path_of(sound) == "no fault");
    Drawn broken = sound;
    broken.plane.edges.pop_back();
    CHECK(path_of(broken) == "plane.edges");
    broken = sound;
    broken.plane.openings.push_back({{10_in, 10_in}});
    CHECK(path_of(broken) == "plane.openings");
    broken = sound;
    broken.laid.courses.clear();
    CHECK(path_of(broken) == "slope.underlayment.courses");
}
