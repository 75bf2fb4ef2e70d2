// SPDX-License-Identifier: BSL-1.0

// Drawings of cut panels: well formed, complete, on the page, every cut with its figures.

#include <eavewright/drawing/cut_steel_drawing.hpp>
#include <eavewright/drawing/panel_pairs_drawing.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/tiling/pair_panels.hpp>

#include "../support/printing.hpp"
#include "../support/refusal.hpp"
#include "../tiling/cut_panel_planes.hpp"
#include "svg_reader.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
struct Named {
    std::string name;
    CutSteel steel;
    Tick tick;
};
CutSteel steel_on(const PurlinPlane& plane, const std::string& name, Length longest = 40_ft,
                  StartCorner start = StartCorner::eave_left) {
    CutSteel steel = cut_steel(name, plane, cut_planes::level_supports(plane, 24_in),
                               {.panels = {.ridge_hold_back = 1_in, .start = start, .longest = longest}});
    for (const EdgeKind kind : {EdgeKind::hip, EdgeKind::valley}) {
        for (const TrimRun& run : trim_runs(plane, kind, {.piece = 10_ft})) {
            steel.trim.push_back(run);
        }
    }
    return steel;
}
PurlinPlane with_skylights() {
    return add_opening(add_opening(cut_planes::valley_plane(), OpeningOnSlope{{60_in, 40_in}, 30_in, 40_in}, 1_in),
                       OpeningOnSlope{{115_in, 60_in}, 22_in, 30_in}, 1_in);
}
const std::vector<Named>& drawn() {
    static const std::vector<Named> all{
        {"hip end", steel_on(cut_planes::hip_end(), "hip end"), Tick::of_inch(16)},
        {"hip end, metric, from the right", steel_on(cut_planes::hip_end(), "hip end", 40_ft, StartCorner::eave_right),
         Tick::of_millimetres(1)},
        {"hip end, lapped", steel_on(cut_planes::hip_end(), "hip end", 12_ft), Tick::of_inch(8)},
        {"valley", steel_on(cut_planes::valley_plane(), "valley"), Tick::of_inch(16)},
        {"skylights", steel_on(with_skylights(), "skylights"), Tick::of_inch(16)},
        {"skylights, lapped", steel_on(with_skylights(), "skylights", 8_ft), Tick::of_inch(16)}};
    return all;
}
std::string draw(const Named& each, int width = 360) {
    return draw_steel(each.steel, {.title = "Roof", .tick = each.tick, .page_width = width});
}
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
}  // namespace

TEST_CASE("every cut is listed with its figures, every length to order, every opening") {
    for (const Named& each : drawn()) {
        CAPTURE(each.name);
        const std::string words = svg_reader::words_of(svg_reader::read(draw(each)));
        const auto figure = [&](Length length) { return write_length(length, each.tick); };
        for (const CutPanel& piece : each.steel.panels.pieces) {
            CAPTURE(panel_name(piece));
            CHECK(holds(words, figure(piece.order_length)));
            if (piece.upper.cut) {
                CHECK(holds(words, figure(piece.upper.left)));
                CHECK(holds(words, figure(piece.upper.right)));
            }
            if (piece.lower.cut) {
                CHECK(holds(words, figure(piece.length - piece.lower.left)));
                CHECK(holds(words, figure(piece.length - piece.lower.right)));
            }
        }
        for (const TrimRun& run : each.steel.trim) {
            CHECK(holds(words, figure(run.run)));
        }
        CHECK(holds(words, "Screws: " + std::to_string(each.steel.screws.total)));
        CHECK(holds(words, std::string{drawing_caution}.substr(0, 12)));
        CHECK(holds(words, "Openings to cut out") == !each.steel.openings.empty());
        CHECK(holds(words, "End laps: ") == !each.steel.panels.end_laps.empty());
    }
}

TEST_CASE("every panel carries its name once, its cuts are heavy lines, openings are crossed") {
    for (const Named& each : drawn()) {
        CAPTURE(each.name);
        const auto elements = svg_reader::read(draw(each));
        for (const CutPanel& piece : each.steel.panels.pieces) {
            CAPTURE(panel_name(piece));
            std::size_t names = 0;
            for (const auto& element : elements) {
                const bool bold = element.name == "text" && element.attributes.count("font-weight") == 1 &&
                                  element.attributes.at("font-size") == "10";
                names += bold && element.text == panel_name(piece) ? 1U : 0U;
            }
            CHECK(names == 1);
        }
        std::size_t heavy = 0;
        std::size_t cuts = 0;
        for (const auto& element : elements) {
            const auto width = element.attributes.find("stroke-width");
            heavy +=
                element.name == "polyline" && width != element.attributes.end() && width->second == "2.6" ? 1U : 0U;
        }
        for (const CutPanel& piece : each.steel.panels.pieces) {
            cuts += (piece.upper.cut ? 1U : 0U) + (piece.lower.cut ? 1U : 0U);
        }
        CHECK(heavy >= cuts);  // a panel at a break of strips stands in both
    }
}

TEST_CASE("everything stays on the page, at a phone's width and on paper") {
    for (const Named& each : drawn()) {
        for (const int width : {360, 794}) {
            CAPTURE(each.name);
            CAPTURE(width);
            const auto elements = svg_reader::read(draw(each, width));
            const std::string view = elements.front().attributes.at("viewBox");
            const double height = std::stod(view.substr(view.rfind(' ') + 1));
            for (const auto& element : elements) {
                if (element.name != "text") {
                    continue;
                }
                CAPTURE(element.text);
                const double size = std::stod(element.attributes.at("font-size"));
                const auto anchor = element.attributes.find("text-anchor");
                const double room = text_width(element.text, size);
                const double x = std::stod(element.attributes.at("x"));
                const double y = std::stod(element.attributes.at("y"));
                const double before = anchor == element.attributes.end() ? 0.0
                                      : anchor->second == "end"          ? room
                                                                         : room / 2.0;
                CHECK(x - before >= 0.0);
                CHECK(x - before + room <= width);
                CHECK(y - size >= 0.0);
                CHECK(y <= height);
                CHECK(size >= 9.0);
            }
        }
    }
}

TEST_CASE("the same steel gives the same bytes, and what cannot be drawn is refused") {
    for (const Named& each : drawn()) {
        CHECK(draw(each) == draw(each));
    }
    CutSteel steel = drawn()[0].steel;
    steel.edges.pop_back();
    CHECK(refusal_of([&] { (void)draw_steel(steel, {.title = "Roof"}); }).path == "steel.edges");
    steel = drawn()[0].steel;
    steel.panels.findings.push_back({PanelFindingCode::sliver_cover, 99, {0_in, 0_in}, 1_in, 6_in});
    CHECK(refusal_of([&] { (void)draw_steel(steel, {.title = "Roof"}); }).code == FaultCode::contradiction);
    for (const Length none : lengths_that_are_none()) {
        steel = drawn()[0].steel;
        steel.panels.pieces[0].part.outline[0].up = none;
        CHECK(refusal_of([&] { (void)draw_steel(steel, {.title = "Roof"}); }).code == FaultCode::not_finite);
    }
    CHECK(refusal_of([&] { (void)draw_steel(drawn()[0].steel, {.title = "", .page_width = 100}); }).path ==
          "options.page_width");
}

TEST_CASE("pairs are drawn in the panel that is bought, and what shares with none is listed with its reason") {
    const std::vector<CutSteel> planes{steel_on(cut_planes::hip_end(), "front"),
                                       steel_on(cut_planes::hip_end(), "back", 40_ft, StartCorner::eave_right),
                                       steel_on(cut_planes::valley_plane(), "wing")};
    const PanelPairs pairs = pair_panels(panels_of(planes));
    REQUIRE(pairs.pairs.size() > 11);
    const std::string svg = draw_pairs(planes, pairs, {.title = "Pairs"});
    const auto elements = svg_reader::read(svg);
    const std::string words = svg_reader::words_of(elements);
    std::size_t bought = 0;
    std::size_t laid = 0;
    for (const auto& element : elements) {
        bought += element.name == "rect" && element.attributes.count("stroke") == 1 ? 1U : 0U;
        laid += element.name == "polygon" ? 1U : 0U;
    }
    CHECK(bought == pairs.pairs.size());
    CHECK(laid == 2 * pairs.pairs.size());
    for (const PanelPair& pair : pairs.pairs) {
        CHECK(holds(words, write_length(pair.bought, Tick::of_inch(16))));
        CHECK(holds(words, planes[pair.first.plane].name + " " +
                               panel_name(planes[pair.first.plane].panels.pieces[pair.first.piece]) + " and "));
    }
    CHECK(holds(words, std::to_string(pairs.panels) + " panels to buy instead of 34"));
    CHECK(holds(words, "By themselves") == !pairs.unpaired.empty());
    const PanelPairs alone = pair_panels({planes[0].panels});
    CHECK(holds(svg_reader::words_of(svg_reader::read(draw_pairs(planes, alone, {.title = ""}))),
                "its laps do not allow it"));
    // Every outline stays within the panel that is bought.
    for (const PanelPair& pair : pairs.pairs) {
        for (const PairedPanel* where : {&pair.first, &pair.second}) {
            const Extent extent = extent_of(outline_in_bought(planes[where->plane].panels, *where));
            CHECK(extent.low.up >= -count_tolerance);
            CHECK(extent.high.up <= pair.bought + count_tolerance);
        }
    }
    CHECK(refusal_of([&] { (void)draw_pairs({planes[0]}, pairs, {.title = ""}); }).path == "pairs");
}
