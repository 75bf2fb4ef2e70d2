// SPDX-License-Identifier: BSL-1.0

// Drawings of roof planes: well formed, complete, with the figures of the result and no others.

#include <eavewright/drawing/plane_drawing.hpp>
#include <eavewright/units/write_tape.hpp>

#include "../support/compiled.hpp"
#include "../support/printing.hpp"
#include "roofs.hpp"
#include "svg_reader.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <limits>
#include <set>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using namespace test_roofs;

namespace {
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
        ++count;
    }
    return count;
}
DrawingOptions options_at(Tick tick) { return DrawingOptions{.title = "Roof", .tick = tick}; }

double number_in(const std::string& text) { return std::stod(text); }
}  // namespace

TEST_CASE("every drawing is well formed, and every number in it is one") {
    for (const Named& each : all_slopes()) {
        CAPTURE(each.name);
        const std::string svg = draw_plane(each.slope, options_at(each.tick));
        std::vector<svg_reader::Element> elements;
        REQUIRE_NOTHROW(elements = svg_reader::read(svg));
        CHECK(elements.front().name == "svg");
        CHECK(elements.front().attributes.count("id") == 0);
        for (const auto& element : elements) {
            for (const auto& [name, value] : element.attributes) {
                CHECK_FALSE(holds(value, "nan"));
                CHECK_FALSE(holds(value, "inf"));
                CHECK_FALSE(holds(value, "or more"));
                CHECK(name != "id");
            }
        }
    }
}

TEST_CASE("every piece carries its name once in the drawing") {
    for (const Named& each : all_slopes()) {
        CAPTURE(each.name);
        DrawingOptions options = options_at(each.tick);
        options.tables = false;
        options.findings = false;
        const auto elements = svg_reader::read(draw_plane(each.slope, options));
        for (const SheetPiece& piece : each.slope.sheets.pieces) {
            CAPTURE(piece_name(piece));
            CHECK(svg_reader::times_written(elements, piece_name(piece)) == 1);
        }
    }
}

TEST_CASE("dimensions are the fields of the result as the tape writes them") {
    for (const Named& each : all_slopes()) {
        CAPTURE(each.name);
        const SlopeResult& slope = each.slope;
        const auto elements = svg_reader::read(draw_plane(slope, options_at(each.tick)));
        const std::string words = svg_reader::words_of(elements);
        const auto written = [&](Length length) { return write_length(length, each.tick); };
        CHECK(holds(words, "ave " + written(slope.plane_length) + ", slope " + written(slope.slope_length) +
                               ", diagonal " + written(slope.diagonal)));
        const auto stands_alone = [&](Length length) {
            return svg_reader::times_written(elements, written(length)) > 0;
        };
        if (slope.trueness) {
            const FourSides& sides = slope.trueness->measured.adjusted;
            for (const Length side :
                 {sides.eave, sides.ridge, sides.left, sides.right, sides.up_right, sides.up_left}) {
                CHECK(stands_alone(side));
            }
        } else {
            CHECK(stands_alone(slope.plane_length));
            CHECK(stands_alone(slope.slope_length));
            CHECK(stands_alone(slope.diagonal));
        }
        for (std::size_t i = 0; i < slope.frames.centres.size(); ++i) {
            CHECK(holds(words, written(slope.frames.centres[i])));
            if (i > 0) {
                CHECK(holds(words, written(slope.frames.centres[i] - slope.frames.centres[i - 1])));
            }
        }
        for (const RowMark& mark : slope.marks) {
            CHECK(holds(words, written(mark.centre)));
        }
    }
}

TEST_CASE("purlin marks stand at the left rake with the kind of their row") {
    const SlopeResult slope = compiled::whole_roof(wide_gable()).slopes[0];
    const auto elements = svg_reader::read(draw_plane(slope, {.title = "Roof"}));
    const std::size_t rows = slope.purlins->rows.size();
    for (std::size_t i = 0; i < rows; ++i) {
        const RowMark& mark = slope.marks[i];
        const std::string kind = mark.kind == RowKind::eave  ? "eave"
                                 : mark.kind == RowKind::top ? "top"
                                                             : std::to_string(mark.row);
        CHECK(svg_reader::times_written(elements, kind + ": " + write_length(mark.centre, Tick::of_inch(16))) == 1);
    }
}

TEST_CASE("cut pieces are listed with their size and name, like ones together") {
    for (const Named& each : all_slopes()) {
        CAPTURE(each.name);
        DrawingOptions options = options_at(each.tick);
        options.names = false;
        options.findings = false;
        const std::string words = svg_reader::words_of(svg_reader::read(draw_plane(each.slope, options)));
        std::size_t whole = 0;
        for (const SheetPiece& piece : each.slope.sheets.pieces) {
            whole += piece.whole ? 1U : 0U;
            CHECK(holds(words, write_length(piece.width, each.tick) + " x " + write_length(piece.length, each.tick)));
            if (!piece.whole) {
                CHECK(holds(words, piece_name(piece)));
            }
        }
        CHECK(holds(words, "Sheets: " + std::to_string(each.slope.sheets.pieces.size()) + " pieces, " +
                               std::to_string(whole) + " whole"));
    }
}

TEST_CASE("all findings are listed with piece, measure, limit and block, under a mark that stands in the drawing") {
    std::set<FindingCode> met;
    for (const Named& each : all_slopes()) {
        CAPTURE(each.name);
        DrawingOptions options = options_at(each.tick);
        options.names = false;
        options.tables = false;
        options.marks = false;
        const Sheets& sheets = each.slope.sheets;
        const auto elements = svg_reader::read(draw_plane(each.slope, options));
        const std::string words = svg_reader::words_of(elements);
        CHECK(holds(words, "Findings: " + (sheets.findings.empty() ? std::string{"none"}
                                                                   : std::to_string(sheets.findings.size()))));
        for (const Finding& finding : sheets.findings) {
            met.insert(finding.code);
            CHECK(holds(words, detail::in_words(name_of(finding.code))));
            CHECK(holds(words, write_length(finding.measured, each.tick)));
            CHECK(holds(words, write_length(finding.limit, each.tick)));
            CHECK(holds(words, piece_name(sheets.pieces[finding.piece])));
            if (finding.block) {
                CHECK(holds(words, "block " + write_length(finding.block->length, each.tick)));
            }
        }
        const detail::Page page{.width = 360.0, .y = 0.0, .tick = each.tick};
        const detail::FindingGroups groups = detail::group_findings(detail::notes_of(sheets, page));
        std::size_t listed = 0;
        for (std::size_t g = 0; g < groups.groups.size(); ++g) {
            listed += groups.groups[g].findings.size();
            CHECK(svg_reader::times_written(elements, std::to_string(g + 1)) >= 2);  // in the drawing and in the list
        }
        CHECK(listed == sheets.findings.size());
    }
    // The roofs above meet every kind but a narrow leg, which takes an opening; test_laid_plane_drawing.cpp meets that.
    CHECK(met.count(FindingCode::narrow_leg) == 0);
    CHECK(met.size() + 1 == NamesOf<FindingCode>::list.size());
}

TEST_CASE("a bearing that rounds to its limit shows what it lacks") {
    const Finding finding{
        FindingCode::narrow_bearing, 0, {0_in, 0_in}, 0.49_in, 0.5_in, MendingBlock{{0_in, 0_in}, {4_ft, 0_in}, 4_ft}};
    const detail::Page page{.width = 360.0, .y = 0.0, .tick = Tick::of_inch(16)};
    CHECK(detail::finding_figures(finding, page) == "bears on 0'-0 1/2\" -0.01\", needs 0'-0 1/2\"; block 4'-0\"");
}

TEST_CASE("each kind of finding has a shape of its own") {
    std::set<std::string> shapes;
    for (std::size_t code = 0; code < NamesOf<FindingCode>::list.size(); ++code) {
        SvgText svg;
        detail::draw_finding_mark(svg, {0.0, 0.0}, static_cast<FindingCode>(code), 7);
        const auto elements = svg_reader::read(svg.document(1.0, 1.0, "", ""));
        REQUIRE(elements.size() == 6);  // svg, title, desc, ground, shape, number
        const auto& points = elements[4].attributes.find("points");
        shapes.insert(elements[4].name + (points == elements[4].attributes.end() ? "" : points->second));
        CHECK(elements[5].text == "7");
    }
    CHECK(shapes.size() == NamesOf<FindingCode>::list.size());
}

TEST_CASE("caution, direction and start corner are never left out") {
    for (const Named& each : all_slopes()) {
        CAPTURE(each.name);
        DrawingOptions bare = options_at(each.tick);
        bare.marks = bare.frames = bare.names = bare.findings = bare.tables = false;
        const std::string words = svg_reader::words_of(svg_reader::read(draw_plane(each.slope, bare)));
        CHECK(holds(words, std::string{drawing_caution}));
        CHECK(holds(words, "up the slope"));
        CHECK(holds(words, "start here"));
        CHECK(count_of(words, "start here") == 2);  // once, in both readings of the words
    }
}

TEST_CASE("an overhang past the fascia is told with its figure") {
    const std::string with = svg_reader::words_of(
        svg_reader::read(draw_plane(compiled::whole_roof(from_the_right()).slopes[0], {.title = "Roof"})));
    const std::string without = svg_reader::words_of(
        svg_reader::read(draw_plane(compiled::whole_roof(wide_gable()).slopes[0], {.title = "Roof"})));
    CHECK(holds(with, "Sheets hang 0'-0 3/4\" past the outer face of the fascia"));
    CHECK_FALSE(holds(without, "Sheets hang"));
}

TEST_CASE("a turned grid and a ripped first lane are told, and only they") {
    RoofDescription roof = wide_gable();
    const auto words_of = [&] {
        return svg_reader::words_of(
            svg_reader::read(draw_plane(compiled::whole_roof(roof).slopes[0], {.title = "Roof"})));
    };
    CHECK_FALSE(holds(words_of(), "turned"));
    CHECK_FALSE(holds(words_of(), "ripped"));
    roof.deck->sheets.rip_first = 10_in;
    CHECK(holds(words_of(), "Lane A is ripped to 3'-2\"."));
    roof.deck->sheets.turn = 1.0 / 480.0;  // 120 in in 480 times as much
    CHECK(holds(words_of(), "The grid is turned counter-clockwise, 0'-0 1/4\" in 10'-0\"."));
}

TEST_CASE("same result, same bytes") {
    for (const Named& each : all_slopes()) {
        const SlopeResult copy = each.slope;
        CHECK(draw_plane(each.slope, options_at(each.tick)) == draw_plane(copy, options_at(each.tick)));
    }
}

TEST_CASE("odd names do not break the document") {
    SlopeResult slope = compiled::whole_roof(shed()).slopes[0];
    slope.name = "<&\">";
    const std::string title = "</svg><script>&amp;\"'\x01";
    const auto elements = svg_reader::read(draw_plane(slope, {.title = title}));
    CHECK(elements[1].text == "</svg><script>&amp;\"'\xEF\xBF\xBD");
    for (const auto& element : elements) {
        CHECK(element.name != "script");
    }
}

TEST_CASE("everything stays on the page, and nothing is written too small to read on a phone") {
    for (const Named& each : all_slopes()) {
        for (const int width : {360, 720}) {
            CAPTURE(each.name);
            CAPTURE(width);
            DrawingOptions options = options_at(each.tick);
            options.page_width = width;
            const auto elements = svg_reader::read(draw_plane(each.slope, options));
            const std::string view = elements.front().attributes.at("viewBox");
            const double height = number_in(view.substr(view.rfind(' ') + 1));
            for (const auto& element : elements) {
                if (element.name != "text") {
                    continue;
                }
                CAPTURE(element.text);
                const double size = number_in(element.attributes.at("font-size"));
                const auto anchor = element.attributes.find("text-anchor");
                const double room = text_width(element.text, size);
                const double x = number_in(element.attributes.at("x"));
                const double left = anchor == element.attributes.end() ? x
                                    : anchor->second == "end"          ? x - room
                                                                       : x - room / 2.0;
                CHECK(left >= 0.0);
                CHECK(left + room <= width);
                CHECK(number_in(element.attributes.at("y")) <= height);
                CHECK(size >= 9.0);
            }
        }
    }
}

TEST_CASE("the text grows with the pieces and no faster") {
    double per_piece = 0.0;
    for (const int feet_long : {100, 200, 400, 800}) {
        const SlopeResult slope = compiled::whole_roof(wide_gable(Length::from_feet(feet_long))).slopes[0];
        const std::size_t bytes = draw_plane(slope, {.title = "Roof"}).size();
        const double now = static_cast<double>(bytes) / static_cast<double>(slope.sheets.pieces.size());
        CAPTURE(feet_long);
        CHECK(now < 800.0);
        CHECK((per_piece == 0.0 || now < per_piece * 1.15));
        per_piece = now;
    }
}

TEST_CASE("options and results that cannot be drawn are refused by name") {
    const SlopeResult slope = compiled::whole_roof(shed()).slopes[0];
    const auto code_of = [](const SlopeResult& drawn, const DrawingOptions& options) {
        try {
            return static_cast<void>(draw_plane(drawn, options)), 0;
        } catch (const FaultError& error) {
            return number_of(error.fault().code);
        }
    };
    CHECK(code_of(slope, {.title = "", .page_width = 239}) == number_of(FaultCode::out_of_range));
    CHECK(code_of(slope, {.title = "", .page_width = 4001}) == number_of(FaultCode::out_of_range));
    CHECK(code_of(slope, {.title = "", .page_width = 240}) == 0);
    const Length not_a_length = one_inch * std::numeric_limits<double>::quiet_NaN();
    SlopeResult broken = slope;
    broken.outline[1].along = not_a_length;
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_finite));
    broken = slope;
    broken.sheets.pieces[2].outline[0].up = not_a_length;
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_finite));
    broken = slope;
    broken.supports[0].centreline[0].up = not_a_length;
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_finite));
    broken = slope;
    broken.outline.resize(2, slope.outline[0]);
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_supported));
    broken = slope;
    REQUIRE_FALSE(broken.sheets.findings.empty());
    broken.sheets.findings[0].piece = 1000;
    CHECK(code_of(broken, {}) == number_of(FaultCode::contradiction));
}
