// SPDX-License-Identifier: BSL-1.0

// Drawings of a roof as its readings found it: well formed, every mark named, arrows as long as their scale says.

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
    d.svg = draw_truing(d.result, options);
    d.elements = svg_reader::read(d.svg);
    d.words = svg_reader::words_of(d.elements);
    return d;
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
    CHECK(d.svg == draw_truing(d.result, {.title = "Workshop"}));
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
    CHECK(holds(suspect.words, "Suspect: reading 8"));
    CHECK(holds(suspect.words, "no figure is to be trusted"));
    CHECK(!holds(suspect.words, "Diagonals differ by"));
    CHECK(!holds(suspect.words, "tighten 0"));
    RoofDescription open = racked(0.625_in);
    open.readings->levels.clear();
    open.readings->distances.erase(open.readings->distances.begin() + 11, open.readings->distances.end());
    const Drawn loose = drawn(open);
    CHECK(holds(loose.words, "loose"));
    CHECK(holds(loose.words, "Dotted: read"));
    RoofDescription metric = racked(0.625_in);
    metric.tick = Tick::of_millimetres(1);
    CHECK(holds(drawn(metric, {.title = "m", .tick = Tick::of_millimetres(1)}).words, "mm: moves"));
}

// Eaves slid by 1 in: each slope keeps half, 4 * 744 * 0.5 / (2 * 783.7) = 0.95 in between its diagonals, or whatever the plan
// leaves; alone either could be brought to nothing, and that must not be taken for what is left.
TEST_CASE("what a pull leaves is said, not what one condition could have alone") {
    RoofDescription roof = workshop();
    Standing s = as_meant(roof);
    s.places[4].x += 1_in;
    s.places[5].x += 1_in;
    roof.readings = read_all(s);
    const Drawn d = drawn(roof);
    CHECK(holds(d.words, "Preliminary. To be confirmed"));
    for (const PulledCondition& each : d.result.truing->pulls->conditions) {
        if (!each.met) {
            CHECK(magnitude(each.after.misfit) > each.tolerance);
            CHECK(holds(d.words, "leave " + write_length(magnitude(each.after.misfit), Tick::of_inch(16))));
        }
    }
}

TEST_CASE("without readings between marks there is nothing to draw") {
    CHECK(refusal_of([] { (void)draw_truing(compiled::whole_roof(workshop()), {.title = ""}); }).code ==
          FaultCode::missing_field);
    const RoofResult result = compiled::trued_roof(racked(no_length));
    CHECK(refusal_of([&] { (void)draw_truing(result, {.title = "", .page_width = 100}); }).code ==
          FaultCode::out_of_range);
}
