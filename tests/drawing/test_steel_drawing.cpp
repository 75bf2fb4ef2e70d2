// SPDX-License-Identifier: BSL-1.0

// Drawings of steel: well formed, complete, with the figures of the result and no others.

#include <eavewright/drawing/plane_drawing.hpp>
#include <eavewright/drawing/steel_drawing.hpp>
#include <eavewright/units/write_tape.hpp>

#include "../support/compiled.hpp"
#include "../support/printing.hpp"
#include "steel_roofs.hpp"
#include "svg_reader.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <functional>
#include <optional>
#include <regex>
#include <set>
#include <string>
#include <type_traits>
#include <variant>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using namespace test_roofs;

namespace {
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
DrawingOptions options_at(Tick tick, int width = 360) {
    return DrawingOptions{.title = "Roof", .tick = tick, .page_width = width};
}
const std::vector<Named>& steel_slopes() {
    static const std::vector<Named> slopes = all_steel();
    return slopes;
}
std::string words_in(const std::string& svg) { return svg_reader::words_of(svg_reader::read(svg)); }

/// Every length of a result as the tape writes it, with and without what rounding left.
class Figures {
public:
    explicit Figures(Tick tick) : tick_{tick} {}
    template <class T>
    void add(const T& value) {
        if constexpr (std::is_same_v<T, Length>) {
            written.insert(write_length(value, tick_));
            written.insert(write_length_with_remainder(value, tick_));
        } else if constexpr (std::is_same_v<T, PlanePoint>) {
            add(value.along);
            add(value.up);
        } else if constexpr (HasFields<T>) {
            for_each_field<T>([&](const auto& each) { add(std::invoke(each.get, value)); });
        }
    }
    template <class T>
    void add(const std::vector<T>& values) {
        for (const auto& each : values) {
            add(each);
        }
    }
    template <class T>
    void add(const std::optional<T>& value) {
        if (value) {
            add(*value);
        }
    }
    std::set<std::string> written{};

private:
    Tick tick_;
};

/// Figures in feet and inches, or in millimetres, that stand in a text.
std::vector<std::string> figures_in(const std::string& text) {
    static const std::regex figure{
        R"(-?\d+'-\d+( \d+/\d+)?"( [-+]\d+(\.\d+)?")?|-?\d+(\.\d+)? mm( [-+]\d+(\.\d+)? mm)?)"};
    std::vector<std::string> found;
    for (std::sregex_iterator at{text.begin(), text.end(), figure}; at != std::sregex_iterator{}; ++at) {
        found.push_back(at->str());
    }
    return found;
}
}  // namespace

TEST_CASE("every drawing of steel is well formed, and every number in it is one") {
    for (const Named& each : steel_slopes()) {
        CAPTURE(each.name);
        std::vector<svg_reader::Element> elements;
        REQUIRE_NOTHROW(elements = svg_reader::read(draw_steel(each.slope, options_at(each.tick))));
        for (const auto& element : elements) {
            for (const auto& [name, value] : element.attributes) {
                CHECK_FALSE(holds(value, "nan"));
                CHECK_FALSE(holds(value, "inf"));
                CHECK(name != "id");
            }
        }
    }
}

TEST_CASE("every figure is a field of the result as the tape writes it") {
    std::size_t met = 0;
    for (const Named& each : steel_slopes()) {
        CAPTURE(each.name);
        Figures figures{each.tick};
        figures.add(*each.slope.steel);
        for (const std::optional<Trueness>& measured : {each.slope.trueness, each.slope.deck}) {
            if (measured) {
                for (const Length side : {measured->measured.adjusted.eave, measured->measured.adjusted.ridge,
                                          measured->measured.adjusted.left, measured->measured.adjusted.right,
                                          measured->measured.adjusted.up_right, measured->measured.adjusted.up_left}) {
                    figures.add(side);
                }
            }
        }
        for (const auto& element : svg_reader::read(draw_steel(each.slope, options_at(each.tick, 4000)))) {
            for (const std::string& figure : figures_in(element.name == "text" ? element.text : "")) {
                CAPTURE(figure);
                CHECK(figures.written.count(figure) == 1);
                ++met;
            }
        }
    }
    CHECK(met > 1000);
}

TEST_CASE("every panel carries its name once in the drawing") {
    for (const Named& each : steel_slopes()) {
        CAPTURE(each.name);
        DrawingOptions options = options_at(each.tick);
        options.tables = options.findings = options.marks = false;
        const auto elements = svg_reader::read(draw_steel(each.slope, options));
        for (const PanelPiece& piece : each.slope.steel->panels.pieces) {
            CAPTURE(panel_name(piece));
            CHECK(svg_reader::times_written(elements, panel_name(piece)) == 1);
        }
    }
}

TEST_CASE("marks along eave and ridge, lines with their screws at both rakes") {
    for (const Named& each : steel_slopes()) {
        CAPTURE(each.name);
        DrawingOptions options = options_at(each.tick);
        options.tables = options.findings = options.overview = false;
        const auto elements = svg_reader::read(draw_steel(each.slope, options));
        const auto written = [&](Length length) { return write_length(length, each.tick); };
        const SteelResult& steel = *each.slope.steel;
        std::multiset<std::string> turned;
        for (const auto& element : elements) {
            if (element.name == "text" && element.attributes.count("transform") == 1) {
                turned.insert(element.text);
            }
        }
        CHECK(turned.size() == 2 * steel.panels.marks.size());
        for (const PanelMark& mark : steel.panels.marks) {
            CHECK(turned.count(written(mark.eave)) >= 1);
            CHECK(turned.count(written(mark.ridge)) >= 1);
        }
        for (const ScrewLine& line : steel.lines.lines) {
            CHECK(svg_reader::times_written(
                      elements, detail::row_name(each.slope, line.row) + ": " + written(line.left_mark)) == 1);
            CHECK(svg_reader::times_written(elements, std::to_string(steel.screws.by_row[line.row]) + " at " +
                                                          written(line.right_mark)) == 1);
        }
    }
}

TEST_CASE("lengths to order, rips, cuts, drill marks, tapers and trim are listed") {
    for (const Named& each : steel_slopes()) {
        CAPTURE(each.name);
        const SteelResult& steel = *each.slope.steel;
        const std::string words = words_in(draw_steel(each.slope, options_at(each.tick, 720)));
        const auto written = [&](Length length) { return write_length(length, each.tick); };
        for (const PanelPiece& piece : steel.panels.pieces) {
            CHECK(holds(words, " x " + written(piece.order_length)));
            CHECK((!piece.ripped || holds(words, "rip to " + written(piece.width) + " wide")));
            CHECK((!piece.cut || holds(words, written(piece.left_length) + " at the left")));
        }
        for (const DrillMark& mark : steel.drill_marks) {
            CHECK(holds(words, written(mark.mark)));
        }
        CHECK(holds(words, "Left rake: its trim must hide " + written(steel.panels.left_rake.hidden)));
        CHECK(holds(words, "Right rake: its trim must hide " + written(steel.panels.right_rake.hidden)));
        for (const TrimRun& run : steel.trim) {
            CHECK(holds(words, written(run.run)));
            CHECK(holds(words, written(run.last_piece)));
        }
        CHECK(holds(words, "Screws: " + std::to_string(steel.screws.total)));
        CHECK(holds(words, std::string{drawing_caution}));
    }
}

TEST_CASE("the gable to begin at and the way side laps open") {
    // A panel over the one before it opens towards the first gable; under it, away from it.
    std::set<std::string> met;
    for (const Named& each : steel_slopes()) {
        CAPTURE(each.name);
        const Panels& panels = each.slope.steel->panels;
        const std::string words = words_in(draw_steel(each.slope, options_at(each.tick)));
        const std::string first = panels.start == StartCorner::eave_left ? "left" : "right";
        const std::string other = first == "left" ? "right" : "left";
        const bool over = panels.panel.lap == SideLap::over_previous;
        CHECK(holds(words, "Side laps open to the " + (over ? first : other)));
        CHECK(holds(words, "from the " + first + " rake"));
        CHECK(holds(words, "begin at this gable"));
        CHECK(holds(words, over ? "panel 2, over" : "panel 1, over"));
        met.insert(first + (over ? " over" : " under"));
    }
    CHECK(met.size() == 4);
}

TEST_CASE("all findings are listed under marks that stand in the drawing, each kind in a shape of its own") {
    std::size_t met = 0;
    for (const Named& each : steel_slopes()) {
        CAPTURE(each.name);
        DrawingOptions options = options_at(each.tick);
        options.names = options.tables = options.marks = false;
        const SteelResult& steel = *each.slope.steel;
        const detail::Page page{.width = 360.0, .y = 0.0, .tick = each.tick};
        const std::vector<detail::FindingNote> notes = detail::notes_of(each.slope, steel, page);
        CHECK(notes.size() ==
              steel.panels.findings.size() + steel.screws.findings.size() + steel.lines.findings.size());
        const auto elements = svg_reader::read(draw_steel(each.slope, options));
        const std::string words = svg_reader::words_of(elements);
        CHECK(holds(words, "Findings: " + (notes.empty() ? std::string{"none"} : std::to_string(notes.size()))));
        for (const detail::FindingNote& note : notes) {
            CHECK(holds(words, note.kind + ": " + note.figures));
            CHECK(holds(words, note.name));
        }
        const std::size_t groups = detail::group_findings(notes).groups.size();
        for (std::size_t g = 1; g <= groups; ++g) {
            CHECK(svg_reader::times_written(elements, std::to_string(g)) >= 2);
        }
        met += notes.size();
    }
    CHECK(met > 10);
    std::set<detail::MarkShape> shapes;
    for (std::size_t code = 0; code < NamesOf<PanelFindingCode>::list.size(); ++code) {
        shapes.insert(detail::look_of(static_cast<PanelFindingCode>(code)).shape);
    }
    for (std::size_t code = 0; code < NamesOf<ScrewFindingCode>::list.size(); ++code) {
        shapes.insert(detail::look_of(static_cast<ScrewFindingCode>(code)).shape);
    }
    CHECK(shapes.size() == NamesOf<PanelFindingCode>::list.size() + NamesOf<ScrewFindingCode>::list.size());
}

TEST_CASE("everything of a drawing of steel stays on the page, turned texts too") {
    for (const Named& each : steel_slopes()) {
        for (const int width : {360, 794}) {
            CAPTURE(each.name);
            CAPTURE(width);
            const auto elements = svg_reader::read(draw_steel(each.slope, options_at(each.tick, width)));
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
                const bool turned = element.attributes.count("transform") == 1;
                CHECK((turned ? x - size : x - before) >= 0.0);
                CHECK((turned ? x + 2.0 : x - before + room) <= width);
                CHECK((turned ? y + before - room : y - size) >= 0.0);
                CHECK((turned ? y + before : y) <= height);
                CHECK(size >= 9.0);
            }
        }
    }
}

TEST_CASE("same steel, same bytes, and no faster growth than the panels") {
    for (const Named& each : steel_slopes()) {
        const SlopeResult copy = each.slope;
        CHECK(draw_steel(each.slope, options_at(each.tick)) == draw_steel(copy, options_at(each.tick)));
    }
    double per_panel = 0.0;
    for (const int feet_long : {100, 200, 400}) {
        RoofDescription roof = with_steel();
        std::get<GableRoof>(roof.shape).length = Length::from_feet(feet_long);
        const SlopeResult slope = compiled::whole_roof(roof).slopes[0];
        const double now = static_cast<double>(draw_steel(slope, {.title = "Roof"}).size()) /
                           static_cast<double>(slope.steel->panels.pieces.size());
        CHECK((per_panel == 0.0 || now < per_panel * 1.15));
        per_panel = now;
    }
}

TEST_CASE("steel that cannot be drawn is refused by name") {
    const SlopeResult slope = compiled::whole_roof(with_steel()).slopes[0];
    const auto code_of = [](const SlopeResult& drawn, const DrawingOptions& options) {
        try {
            return static_cast<void>(draw_steel(drawn, options)), 0;
        } catch (const FaultError& error) {
            return number_of(error.fault().code);
        }
    };
    CHECK(code_of(slope, {.title = "", .page_width = 239}) == number_of(FaultCode::out_of_range));
    CHECK(code_of(slope, {.title = "", .page_width = 240}) == 0);
    SlopeResult broken = slope;
    broken.steel.reset();
    CHECK(code_of(broken, {}) == number_of(FaultCode::missing_field));
    broken = slope;
    broken.steel->outline.resize(2, slope.outline[0]);
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_supported));
    broken = slope;
    broken.steel->panels.pieces[2].outline.pop_back();
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_finite));
    broken = slope;
    broken.steel->lines.lines[0].row = 1000;
    CHECK(code_of(broken, {}) == number_of(FaultCode::contradiction));
    broken = slope;
    broken.steel->screws.by_row.clear();
    CHECK(code_of(broken, {}) == number_of(FaultCode::contradiction));
}

TEST_CASE("a plane without a deck shows purlins, frames and marks, and speaks of no sheets") {
    const SlopeResult slope = compiled::whole_roof(straight_on_purlins()).slopes[0];
    REQUIRE(slope.sheets.pieces.empty());
    const std::string svg = draw_plane(slope, {.title = "Roof"});
    const std::string words = words_in(svg);
    for (const char* unsaid : {"heet", "start here", "Findings", "Shaded"}) {
        CAPTURE(unsaid);
        CHECK_FALSE(holds(words, unsaid));
    }
    CHECK(holds(words, "Grey bands: purlins"));
    CHECK(holds(words, "Dotted lines: frames."));
    for (const RowMark& mark : slope.marks) {
        CHECK(holds(words, write_length(mark.centre, Tick::of_inch(16))));
    }
    CHECK(holds(svg, "no deck"));
}
