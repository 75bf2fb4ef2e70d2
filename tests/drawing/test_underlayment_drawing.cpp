// SPDX-License-Identifier: BSL-1.0

// Drawings of underlayment: well formed, complete, with the figures of the result.

#include <eavewright/drawing/underlayment_drawing.hpp>
#include <eavewright/units/write_tape.hpp>

#include "../support/compiled.hpp"
#include "../support/printing.hpp"
#include "roofs.hpp"
#include "svg_reader.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using namespace test_roofs;

namespace {
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

RoofDescription dried_in(RoofDescription roof, Covering covering, DryInPlan plan) {
    std::get<GableRoof>(roof.shape).build_up.deck = 0.4375_in;
    roof.covering = CoveringPlan{.covering = covering};
    roof.underlayment = plan;
    return roof;
}

RoofDescription low_slope() {
    RoofDescription roof = wide_gable();
    std::get<GableRoof>(roof.shape).pitch = Pitch::in_12(3);
    return roof;
}

/// Single coverage and half lap, long and short rolls, from both rakes, out of square, metric.
std::vector<Named> all_dried_in() {
    const std::vector<std::pair<std::string, RoofDescription>> roofs{
        {"under metal", dried_in(wide_gable(), Covering::lapped_metal, {.roll = {.length = 144_ft}})},
        {"short rolls from the right",
         dried_in(wide_gable(), Covering::lapped_metal, {.roll = {.length = 25_ft}, .start = StartCorner::eave_right})},
        {"half lap", dried_in(low_slope(), Covering::asphalt_shingles, {.roll = {.length = 72_ft}})},
        {"out of square", dried_in(as_found(), Covering::lapped_metal, {.roll = {.length = 72_ft}})},
        {"whole top course", dried_in(wide_gable(), Covering::lapped_metal,
                                      {.roll = {.length = 72_ft}, .eave_past = 1_in, .top = TopCourse::whole})},
        {"metric", dried_in(metric_hall(), Covering::lapped_metal, {.roll = {.length = 40_m, .width = 1000_mm}})}};
    std::vector<Named> slopes;
    for (const auto& [name, roof] : roofs) {
        for (const SlopeResult& slope : compiled::whole_roof(roof).slopes) {
            slopes.push_back({name + " " + slope.name, slope, roof.tick});
        }
    }
    return slopes;
}
DrawingOptions options_at(Tick tick, int width = 360) {
    return DrawingOptions{.title = "Roof", .tick = tick, .page_width = width};
}
}  // namespace

TEST_CASE("underlayment is drawn well formed, on the page, the same each time") {
    for (const Named& each : all_dried_in()) {
        for (const int width : {360, 794}) {
            CAPTURE(each.name);
            CAPTURE(width);
            const std::string svg = draw_underlayment(each.slope, options_at(each.tick, width));
            CHECK(svg == draw_underlayment(each.slope, options_at(each.tick, width)));
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

TEST_CASE("courses carry their marks at both rakes, pieces their roll and length") {
    std::size_t laps = 0;
    for (const Named& each : all_dried_in()) {
        CAPTURE(each.name);
        const Underlayment& laid = *each.slope.underlayment;
        const auto written = [&](Length length) { return write_length(length, each.tick); };
        const std::string words =
            svg_reader::words_of(svg_reader::read(draw_underlayment(each.slope, options_at(each.tick, 794))));
        for (const CourseMark& mark : laid.marks) {
            CHECK(holds(words, detail::course_name(laid, mark.course) + ": " + written(mark.left) + "\n"));
            CHECK(holds(words, "\n" + written(mark.right) + "\n"));
        }
        for (const RollPiece& piece : laid.pieces) {
            CHECK(holds(words, written(piece.length)));
            CHECK(holds(words, written(piece.from)));
            CHECK(holds(words, written(piece.roll_left)));
        }
        CHECK(holds(words, std::to_string(laid.rolls) + (laid.rolls == 1 ? " roll of " : " rolls of ")));
        CHECK(holds(words, "laps the one below by " + written(laid.laps.head_lap)));
        CHECK(holds(words, "Findings: " +
                               (laid.findings.empty() ? std::string{"none"} : std::to_string(laid.findings.size()))));
        for (const UnderlaymentFinding& finding : laid.findings) {
            CHECK(holds(words, detail::in_words(name_of(finding.code))));
            CHECK(holds(words, written(finding.limit)));
        }
        CHECK(holds(words, "starter") == laid.courses.front().starter);
        CHECK(holds(words, "Hatched: end laps") == !laid.end_laps.empty());
        laps += laid.end_laps.size();
    }
    CHECK(laps > 10);
}

TEST_CASE("a slope without underlayment, or with one that does not hold together, is refused by name") {
    const SlopeResult slope = all_dried_in().front().slope;
    const auto code_of = [](const SlopeResult& drawn) {
        try {
            return static_cast<void>(draw_underlayment(drawn, {})), 0;
        } catch (const FaultError& error) {
            return number_of(error.fault().code);
        }
    };
    CHECK(code_of(slope) == 0);
    SlopeResult broken = slope;
    broken.underlayment.reset();
    CHECK(code_of(broken) == number_of(FaultCode::missing_field));
    broken = slope;
    broken.underlayment->pieces[0].course = 1000;
    CHECK(code_of(broken) == number_of(FaultCode::contradiction));
    broken = slope;
    broken.underlayment->marks.pop_back();
    CHECK(code_of(broken) == number_of(FaultCode::contradiction));
}
