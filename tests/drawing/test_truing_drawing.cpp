// SPDX-License-Identifier: BSL-1.0

// Drawings of a roof as its readings found it: well formed, every mark named, arrows as long as their scale says.

#include <eavewright/drawing/strings_drawing.hpp>
#include <eavewright/drawing/truing_drawing.hpp>

#include "../support/compiled.hpp"
#include "../support/printing.hpp"
#include "../support/refusal.hpp"
#include "../whole_roof/readings.hpp"
#include "svg_reader.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using namespace moved_roofs;

namespace {
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
double number(const svg_reader::Element& element, const std::string& name) {
    return std::stod(element.attributes.at(name));
}

struct Drawn {
    RoofResult result;
    std::string svg;
    std::vector<svg_reader::Element> elements;
    std::string words;
};
Drawn drawn(const RoofDescription& roof, DrawingOptions options = {.title = "Workshop"}) {
    Drawn d{compiled::trued_roof(roof), {}, {}, {}};
    d.svg = draw_truing(d.result, options, *roof.readings);
    d.elements = svg_reader::read(d.svg);
    d.words = svg_reader::words_of(d.elements);
    return d;
}
/// Whether all words stand on the page and none on others, by the room that a plain font takes (estimates are wide).
bool words_clear(const std::vector<svg_reader::Element>& elements, double width) {
    std::vector<detail::Box> boxes;
    for (const svg_reader::Element& e : elements) {
        if (e.name != "text") {
            continue;
        }
        const double size = number(e, "font-size");
        const bool bold = e.attributes.count("font-weight") != 0;
        const double wide = 0.88 * text_width(e.text, bold ? bold_room(size) : size);
        const bool middle = e.attributes.count("text-anchor") != 0;
        const double left = number(e, "x") - (middle ? wide / 2.0 : 0.0);
        const double y = number(e, "y");
        boxes.push_back({left, y - 0.72 * size, left + wide, y + 0.2 * size});
    }
    bool clear = !boxes.empty();
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        clear = clear && boxes[i].left >= 0.0 && boxes[i].right <= width;
        for (std::size_t j = i + 1; j < boxes.size(); ++j) {
            clear = clear && !boxes[i].meets(boxes[j]);
        }
    }
    return clear;
}
bool clear_at_every_width(const RoofDescription& roof) {
    const RoofResult result = compiled::trued_roof(roof);
    bool clear = true;
    for (const int width : {240, 360, 720}) {
        const std::string svg = draw_truing(result, {.title = "Workshop", .page_width = width}, *roof.readings);
        clear = clear && words_clear(svg_reader::read(svg), width);
    }
    return clear;
}
/// The back eave slid along under a ridge that stands square to the front one.
RoofDescription slid() {
    RoofDescription roof = workshop();
    Standing s = as_meant(roof);
    s.places[4].x += 0.75_in;
    s.places[5].x += 0.75_in;
    roof.readings = read_all(s);
    return roof;
}
/// Eaves that nothing holds, so that every mark moves, some of them hardly.
RoofDescription unheld() {
    RoofDescription roof = workshop();
    Standing s = as_meant(roof);
    s.places[2].x += 0.5_in;
    s.places[3].x += 0.5_in;
    s.places[4].x += 0.75_in;
    roof.readings = read_all(s);
    roof.readings->pulling.eaves = EaveHold::free;
    return roof;
}
/// A stake close to a corner, with a name longer than a phone is wide.
RoofDescription staked() {
    RoofDescription roof = racked(0.625_in);
    const Standing s = as_meant(roof);
    const std::string name = "stake_by_the_drive_at_the_front_left_corner";
    const BuildingPoint stake{s.places[0].x - 36_in, s.places[0].y - 24_in, no_length};
    roof.readings->marks.push_back({name, stake, true});
    for (const std::size_t i : {0U, 1U, 4U}) {
        roof.readings->distances.push_back({name, s.names[i], distance_between(stake, s.places[i])});
    }
    return roof;
}
/// The number before "times as large" in the line that starts a legend.
double enlargement(const std::string& words, const std::string& what) {
    const std::string lead = what + ", drawn ";
    return std::stod(words.substr(words.find(lead) + lead.size()));
}
}  // namespace

TEST_CASE("a racked roof: marks, straps, arrows and both scales") {
    const RoofDescription roof = racked(0.625_in);
    const Drawn d = drawn(roof);
    for (const char* name : {"front left", "front right", "ridge right", "ridge left", "back left", "back right"}) {
        CHECK(holds(d.words, name));
    }
    CHECK(holds(d.words, "Pull it true"));
    CHECK(holds(d.words, "1: tighten"));
    CHECK(holds(d.words, "slacken"));
    CHECK(holds(d.words, "in 100 pulled by these amounts"));
    CHECK(holds(d.words, "Slacken a brace only while"));
    CHECK(holds(d.words, "Preliminary. To be confirmed"));
    // The plan's scale: from the marks at the front, 744 in apart. An arrow ends 7 units short of its head's point.
    const double times = enlargement(d.words, "moves");
    std::vector<double> dots;
    double arrow = 0.0;
    for (const svg_reader::Element& e : d.elements) {
        if (e.name == "circle" && std::fabs(number(e, "r") - 3.0) < 1e-9) {
            dots.push_back(number(e, "cx"));
        }
        if (e.name == "line" && e.attributes.count("stroke-width") != 0 && e.attributes.at("stroke-width") == "1.6") {
            arrow = std::fabs(number(e, "x2") - number(e, "x1")) + 7.0;
        }
    }
    REQUIRE(dots.size() == 6);
    const double scale = (dots[1] - dots[0]) / 744.0;
    const auto& moves = d.result.truing->pulls->moves;
    const double moved = std::fabs(inches(moves[2].to.x - moves[2].from.x));
    CHECK(moved > 0.5);
    CHECK(arrow == doctest::Approx(moved * scale * times).epsilon(0.01));
    // Errors: the widest ellipse is as wide as its 95 % region, so many times enlarged.
    const double errors = enlargement(d.words, "where marks lie 95 in 100");
    double widest = 0.0;
    for (const svg_reader::Element& e : d.elements) {
        if (e.name == "polygon" && e.attributes.count("fill") != 0 && e.attributes.at("fill") == "#ddd") {
            std::string points = e.attributes.at("points");
            double low = 1e9;
            double high = -1e9;
            for (std::size_t at = 0; at < points.size();) {
                const double x = std::stod(points.substr(at));
                low = std::fmin(low, x);
                high = std::fmax(high, x);
                at = points.find(' ', at) == std::string::npos ? points.size() : points.find(' ', at) + 1;
            }
            widest = std::fmax(widest, (high - low) / 2.0);
        }
    }
    Length deviation = no_length;
    for (const auto& point : d.result.truing->network->points) {
        deviation = longer(deviation, point.deviation.x);
    }
    CHECK(widest == doctest::Approx(inches(deviation) * ellipse_factor(0.95) * scale * errors).epsilon(0.02));
    CHECK(d.svg == draw_truing(d.result, {.title = "Workshop"}, *roof.readings));
    for (const svg_reader::Element& e : d.elements) {  // nothing leaves the page
        for (const char* x : {"x1", "x2", "cx"}) {
            if (e.attributes.count(x) != 0) {
                CHECK((number(e, x) >= 0.0 && number(e, x) <= 360.0));
            }
        }
    }
}

TEST_CASE("a roof that is true, one that is not to be pulled, one with a wrong reading, one left open") {
    CHECK(holds(drawn(racked(no_length)).words, "True: nothing is to be pulled"));
    RoofDescription wrong = racked(0.625_in);
    wrong.readings->distances[7].read += 2_in;
    const Drawn suspect = drawn(wrong);
    // The eighth distance is that from mark 0 to mark 2, read 2 in too long.
    CHECK(holds(suspect.words, "Suspect: reading 8, front left to ridge right"));
    CHECK(holds(suspect.words, "reading 8?"));
    CHECK(holds(suspect.words, "reads 0'-2\" too much"));
    CHECK(holds(suspect.words, "not to be judged, the readings do not agree"));
    CHECK(!holds(suspect.words, "Diagonals differ"));                                 // no figure is to be trusted then
    CHECK(holds(draw_truing(suspect.result, {.title = ""}), "Suspect: reading 8,"));  // by number alone
    CHECK(!holds(suspect.words, "tighten 0"));
    RoofDescription open = racked(0.625_in);
    open.readings->levels.clear();
    open.readings->distances.erase(open.readings->distances.begin() + 11, open.readings->distances.end());
    const Drawn loose = drawn(open);
    CHECK(holds(loose.words, "loose"));
    CHECK(holds(loose.svg, ">?</text>"));
    CHECK(holds(loose.words, "Dotted: read"));
    RoofDescription metric = racked(0.625_in);
    metric.tick = Tick::of_millimetres(1);
    CHECK(holds(drawn(metric, {.title = "m", .tick = Tick::of_millimetres(1)}).words, "mm: moves"));
}

TEST_CASE("without readings between marks there is nothing to draw") {
    CHECK(refusal_of([] { (void)draw_truing(compiled::whole_roof(workshop()), {.title = ""}); }).code ==
          FaultCode::missing_field);
    const RoofResult result = compiled::trued_roof(racked(no_length));
    CHECK(refusal_of([&] { (void)draw_truing(result, {.title = "", .page_width = 100}); }).code ==
          FaultCode::out_of_range);
}

TEST_CASE("what stays off is written as what is left of it, not as what it could come to alone") {
    // The ridge goes half of the way to the back eave: of the 1 7/16 in that the back diagonals differ by, each slope
    // keeps half. Alone either could be had, which is no comfort.
    const Drawn d = drawn(slid());
    CHECK(d.result.truing->pulls->verdict == PullVerdict::not_pullable);
    CHECK(holds(d.words, "Stays off: front diagonals, by 0'-0 11/16\""));
    CHECK(holds(d.words, "Stays off: back diagonals, by 0'-0 11/16\""));
    CHECK(holds(d.words, "these pulls take it out"));
    CHECK(!holds(d.words, "racked by 0'-0\""));
}

TEST_CASE("words stand clear of each other and on the page, at every width") {
    CHECK(clear_at_every_width(racked(0.625_in)));
    CHECK(clear_at_every_width(slid()));
    CHECK(clear_at_every_width(unheld()));
    CHECK(clear_at_every_width(staked()));
}

TEST_CASE("strings, purlins and walls as strips") {
    RoofDescription roof = workshop();
    roof.readings = RoofReadings{};
    roof.readings->strings.push_back(
        {"front eave", {{{no_length, no_length}, {20_ft, 0.375_in}, {40_ft, -0.25_in}, {60_ft, no_length}}}});
    roof.readings->purlins.push_back({"row 4", {{{no_length, no_length}, {30_ft, -0.5_in}, {60_ft, no_length}}}});
    roof.readings->walls.push_back(
        {"left gable",
         {.posts = {{no_length, 12_ft, 0.25_in, 0.125_in}, {36_ft, 12_ft, 0.25_in, no_length}},
          .level_length = 6_ft,
          .rule = post_frame_plumb}});
    RoofResult result = compiled::trued_roof(roof);
    const std::string svg = draw_strings(result, {.title = "Strings"});
    const std::vector<svg_reader::Element> elements = svg_reader::read(svg);
    const std::string words = svg_reader::words_of(elements);
    CHECK(holds(words, "String front eave: out"));
    CHECK(holds(words, "Purlin row 4"));
    CHECK(holds(words, "shim "));
    CHECK(holds(words, "Wall left gable, outwards"));
    CHECK(holds(words, "Preliminary. To be confirmed"));
    CHECK(holds(words, "Slacken a brace only while"));
    // Along: 300 units for 60 ft. The first strip's circles stand where its scale says; up the page is positive.
    std::vector<double> heights;
    for (const svg_reader::Element& e : elements) {
        if (e.name == "circle") {
            heights.push_back(number(e, "cy"));
        }
    }
    REQUIRE(heights.size() == 4 + 3 + 2 + 2);
    const double units = 300.0 / 720.0 * enlargement(words, "off the string");
    CHECK(heights[0] - heights[1] == doctest::Approx(0.375 * units).epsilon(0.01));
    CHECK(heights[2] - heights[0] == doctest::Approx(0.25 * units).epsilon(0.01));
    CHECK(svg == draw_strings(result, {.title = "Strings"}));
    CHECK(words_clear(elements, 360.0));
    const DrawingOptions narrow{.title = "m", .tick = Tick::of_millimetres(1), .page_width = 240};
    const std::vector<svg_reader::Element> metric = svg_reader::read(draw_strings(result, narrow));
    CHECK(holds(svg_reader::words_of(metric), "mm: off the string"));
    CHECK(words_clear(metric, 240.0));
    result.truing.reset();
    CHECK(refusal_of([&] { (void)draw_strings(result, {.title = ""}); }).code == FaultCode::missing_field);
}
