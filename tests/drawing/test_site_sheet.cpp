// SPDX-License-Identifier: BSL-1.0

// The printed site sheet: one page, nothing off it, nothing over another thing, every figure of the sheet on it.

#include <eavewright/drawing/site_sheet.hpp>
#include <eavewright/whole_roof/site_steps.hpp>

#include "../support/compiled.hpp"
#include "drawing/roofs.hpp"
#include "drawing/svg_reader.hpp"
#include "support/refusal.hpp"
#include "whole_roof/workshop.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
struct Made {
    std::string name;
    SiteSheet sheet;
    SlopeResult slope;
    Tick tick;
};

void add_all(const std::string& name, const RoofDescription& roof, std::vector<Made>& to) {
    const RoofResult result = compiled::whole_roof(roof);
    for (std::size_t i = 0; i < result.slopes.size(); ++i) {
        to.push_back({name + " " + result.slopes[i].name, site_sheet(roof, result, i), result.slopes[i], roof.tick});
    }
}

RoofDescription bare_steel() {
    RoofDescription roof = ::workshop();
    roof.deck.reset();
    roof.underlayment.reset();
    std::get<GableRoof>(roof.shape).build_up.deck = no_length;
    return roof;
}
RoofDescription long_steel() {
    RoofDescription roof = ::workshop();
    std::get<GableRoof>(roof.shape).length = 200_ft;
    return roof;
}
RoofDescription measured_steel() {
    RoofDescription roof = ::workshop();
    roof.underlayment = DryInPlan{.roll = {.length = 72_ft}};
    const Length rake = 246.65_in;
    roof.as_built = {
        SlopeAsBuilt{
            .rows = std::nullopt, .sides = FourSides{744_in, 744_in, rake, rake, 784.3_in, 783.3_in}, .deck = {}},
        SlopeAsBuilt{}};
    return roof;
}
RoofDescription metric_lean_to() {
    RoofDescription roof = test_roofs::shed();
    std::get<SingleSlopeRoof>(roof.shape).length = 12_m;
    std::get<SingleSlopeRoof>(roof.shape).width = 5_m;
    roof.steel = SteelPlan{.panels = {.ridge_hold_back = 20_mm}, .edges = {.high_eave = TrimStock{.piece = 3_m}}};
    roof.tick = Tick::of_millimetres(1);
    return roof;
}

const std::vector<Made>& made() {
    static const std::vector<Made> all = [] {
        std::vector<Made> list;
        add_all("demo", ::workshop(), list);
        add_all("bare steel", bare_steel(), list);
        add_all("200 ft", long_steel(), list);
        add_all("measured", measured_steel(), list);
        add_all("lean-to", metric_lean_to(), list);
        add_all("metric", test_roofs::metric_hall(), list);
        add_all("chords", test_roofs::on_chords(), list);
        add_all("as found", test_roofs::as_found(), list);
        add_all("shed", test_roofs::shed(), list);
        return list;
    }();
    return all;
}

constexpr SitePaper papers[] = {SitePaper::a4, SitePaper::letter};

std::string draw(const Made& each, SitePaper paper) {
    return draw_site_sheet(each.sheet, each.slope, {paper, each.tick});
}

struct TextBox {
    std::string words;
    detail::Box box;
};

double number_of(const svg_reader::Element& element, const std::string& name) {
    return std::stod(element.attributes.at(name));
}

/// Boxes of all texts: estimated widths, which real fonts stay below; letters from their top to their tail.
std::vector<TextBox> text_boxes(const std::vector<svg_reader::Element>& elements) {
    std::vector<TextBox> boxes;
    for (const svg_reader::Element& element : elements) {
        if (element.name != "text") {
            continue;
        }
        const double size = number_of(element, "font-size");
        const bool bold = element.attributes.count("font-weight") > 0;
        const double width = text_width(element.text, bold ? bold_room(size) : size);
        const auto anchor = element.attributes.find("text-anchor");
        const double x = number_of(element, "x");
        const double left = anchor == element.attributes.end() ? x
                            : anchor->second == "end"          ? x - width
                                                               : x - width / 2.0;
        const double y = number_of(element, "y");
        boxes.push_back({element.text, {left, y - size * 0.75, left + width, y + size * 0.22}});
    }
    return boxes;
}

void check_page(const std::string& svg, SitePaper paper) {
    const std::vector<svg_reader::Element> elements = svg_reader::read(svg);
    const bool a4 = paper == SitePaper::a4;
    CHECK(elements[0].attributes.at("width") == (a4 ? "210mm" : "8.5in"));
    CHECK(elements[0].attributes.at("height") == (a4 ? "297mm" : "11in"));
    CHECK(elements[0].attributes.at("viewBox") == (a4 ? "0 0 595.28 841.89" : "0 0 612 792"));
    constexpr double margin = 10.0 / 25.4 * 72.0;  // 10 mm in points
    const double right = (a4 ? 595.28 : 612.0) - margin;
    const double bottom = (a4 ? 841.89 : 792.0) - margin;
    const auto inside = [&](double x, double y) {
        CHECK(x >= margin);
        CHECK(x <= right);
        CHECK(y >= margin);
        CHECK(y <= bottom);
    };
    const std::vector<TextBox> boxes = text_boxes(elements);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        CAPTURE(boxes[i].words);
        inside(boxes[i].box.left, boxes[i].box.top);
        inside(boxes[i].box.right, boxes[i].box.bottom);
        for (std::size_t j = i + 1; j < boxes.size(); ++j) {
            if (boxes[i].box.meets(boxes[j].box)) {
                FAIL_CHECK("stands over: " << boxes[j].words);
            }
        }
    }
    for (std::size_t i = 4; i < elements.size(); ++i) {  // after the ground
        const svg_reader::Element& element = elements[i];
        CAPTURE(element.name);
        if (element.name == "line") {
            inside(number_of(element, "x1"), number_of(element, "y1"));
            inside(number_of(element, "x2"), number_of(element, "y2"));
        } else if (element.name == "rect") {
            inside(number_of(element, "x"), number_of(element, "y"));
            inside(number_of(element, "x") + number_of(element, "width"),
                   number_of(element, "y") + number_of(element, "height"));
        } else if (element.name == "polygon" || element.name == "polyline") {
            std::istringstream points{element.attributes.at("points")};
            double x = 0.0;
            double y = 0.0;
            for (char comma = ','; points >> x >> comma >> y;) {
                inside(x, y);
            }
        } else if (element.name == "text") {
            CHECK(number_of(element, "font-size") >= 5.5);
        } else {
            FAIL_CHECK("an element that is not looked at");
        }
        for (const auto& [name, value] : element.attributes) {
            CHECK(value.find("nan") == std::string::npos);
            CHECK((name != "fill" || value == "none" || value == "#000"));  // nothing is told by a tone
        }
    }
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
std::string words_of(const std::string& svg) { return svg_reader::words_of(svg_reader::read(svg)); }
}  // namespace

TEST_CASE("a site sheet is one page, with nothing off it and nothing over another thing") {
    for (const Made& each : made()) {
        for (const SitePaper paper : papers) {
            CAPTURE(each.name);
            CAPTURE(name_of(paper));
            const std::string svg = draw(each, paper);
            check_page(svg, paper);
            CHECK(svg == draw(each, paper));
        }
    }
}

TEST_CASE("every step stands on the page with its figures, its limit and what to do") {
    for (const Made& each : made()) {
        for (const SitePaper paper : papers) {
            CAPTURE(each.name);
            const std::string words = words_of(draw(each, paper));
            for (std::size_t i = 0; i < each.sheet.steps.size(); ++i) {
                const SiteStep& step = each.sheet.steps[i];
                CAPTURE(step.title);
                CHECK(holds(words, std::to_string(i + 1) + ". " + step.title));
                CHECK(holds(words, step.reading));
                CHECK(holds(words, step.if_off));
                CHECK(holds(words, detail::write_figures(step.expected, each.tick)));
                CHECK(holds(words, detail::limit_words(step, each.tick)));
                CHECK(holds(words, detail::write_figures(step.correction, each.tick)));
            }
            for (const std::string& caution : each.sheet.cautions) {
                CHECK(holds(words, caution));
            }
        }
    }
}

TEST_CASE("the demo's sheet holds every mark on either paper") {
    for (const Made& each : made()) {
        if (each.name.rfind("demo", 0) != 0) {
            continue;
        }
        for (const SitePaper paper : papers) {
            const std::vector<svg_reader::Element> elements = svg_reader::read(draw(each, paper));
            const std::string words = svg_reader::words_of(elements);
            CHECK_FALSE(holds(words, "in the report"));
            CHECK_FALSE(holds(words, "find no room"));
            for (const SiteStep& step : each.sheet.steps) {
                for (const SiteMark& mark : step.marks) {
                    for (const std::optional<Length>& at : mark.at) {
                        CHECK((!at || holds(words, write_length(*at, each.tick))));
                    }
                }
            }
            std::size_t boxes = 0;  // to tick: one a step, the frame of the cautions, the ground
            for (const svg_reader::Element& element : elements) {
                boxes += element.name == "rect" ? 1U : 0U;
            }
            CHECK(boxes == each.sheet.steps.size() + 2);
        }
    }
}

TEST_CASE("marks that find no room are left to the report, and the page says how many") {
    Made each = made().front();
    SiteStep& purlins = each.sheet.steps[5];
    REQUIRE(purlins.kind == SiteStepKind::purlin_marks);
    const std::size_t before = purlins.marks.size();
    while (purlins.marks.size() < 400) {
        purlins.marks.push_back(purlins.marks[purlins.marks.size() % before]);
    }
    for (const SitePaper paper : papers) {
        const std::string svg = draw(each, paper);
        check_page(svg, paper);
        CHECK(holds(words_of(svg), "marks stand in the report."));
        CHECK(holds(words_of(svg), "17. Ridge cap"));
    }
}

TEST_CASE("steps that find no room stand in the text, and the page says which") {
    Made each = made().front();
    while (each.sheet.steps.size() < 60) {
        each.sheet.steps.push_back(each.sheet.steps[each.sheet.steps.size() % 17]);
    }
    each.sheet.roof = std::string(500, 'W') + " <&>";
    for (const SitePaper paper : papers) {
        const std::string svg = draw(each, paper);
        check_page(svg, paper);
        CHECK(holds(words_of(svg), "to 60 find no room here"));
    }
}

TEST_CASE("a result that holds no plane is refused") {
    Made each = made().front();
    each.slope.outline.resize(2, each.slope.outline[0]);
    CHECK(refusal_of([&] { (void)draw(each, SitePaper::a4); }).code == FaultCode::not_supported);
}
