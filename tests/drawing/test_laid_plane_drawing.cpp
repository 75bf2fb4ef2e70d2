// SPDX-License-Identifier: BSL-1.0

// Sheets on planes of any outline as drawings: well formed, complete, with the figures of the result, every name in
// its own piece,
// none over another.

#include <eavewright/drawing/laid_plane_drawing.hpp>
#include <eavewright/units/write_tape.hpp>

#include "../support/printing.hpp"
#include "laid_planes.hpp"
#include "svg_reader.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using test_planes::Laid;
using test_planes::Named;
using Elements = std::vector<svg_reader::Element>;

namespace {
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
double number_of(const svg_reader::Element& element, const char* name) {
    return std::stod(element.attributes.at(name));
}

/// The planes and their drawings at a phone's width, read once.
struct Read {
    Named named;
    std::string svg;
    Elements elements;
    std::string words;
};
const std::vector<Read>& all_read() {
    static const std::vector<Read> all = [] {
        std::vector<Read> read;
        for (Named& each : test_planes::all_planes()) {
            std::string svg = draw_plane(each.laid, {.title = "Plane", .tick = each.tick});
            Elements elements = svg_reader::read(svg);
            std::string words = svg_reader::words_of(elements);
            read.push_back({std::move(each), std::move(svg), std::move(elements), std::move(words)});
        }
        return read;
    }();
    return all;
}

/// The drawing with names alone, at a phone's width.
Elements names_alone(const Named& each) {
    return svg_reader::read(draw_plane(
        each.laid,
        {.title = "Plane", .tick = each.tick, .overview = false, .marks = false, .findings = false, .tables = false}));
}

std::set<std::string> names_of(const Laid& laid) {
    std::set<std::string> names;
    for (const SheetPiece& piece : laid.sheets.pieces) {
        names.insert(piece_name(piece));
    }
    return names;
}

/// Where a text stands: a little less than its estimated box, as boxes may touch.
struct TextBox {
    std::string text;
    double left, top, right, bottom;
    [[nodiscard]] bool meets(const TextBox& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
};
TextBox box_of(const svg_reader::Element& element) {
    const double size = number_of(element, "font-size");
    const auto anchor = element.attributes.find("text-anchor");
    const double room = text_width(element.text, size);
    const double x = number_of(element, "x");
    const double left = anchor == element.attributes.end() ? x : anchor->second == "end" ? x - room : x - room / 2.0;
    const double y = number_of(element, "y");
    return {element.text, left, y - size * 0.75, left + room, y};
}

/// Where the names of pieces stand in the strips.
std::vector<TextBox> labels_of(const Elements& elements, const std::set<std::string>& names) {
    std::vector<TextBox> labels;
    for (const svg_reader::Element& element : elements) {
        if (element.name == "text" && names.count(element.text) > 0 && number_of(element, "font-size") == 10.0 &&
            element.attributes.count("text-anchor") > 0) {
            labels.push_back(box_of(element));
        }
    }
    return labels;
}
void check_apart(const std::vector<TextBox>& labels) {
    for (std::size_t i = 0; i < labels.size(); ++i) {
        for (std::size_t k = i + 1; k < labels.size(); ++k) {
            CAPTURE(labels[i].text);
            CAPTURE(labels[k].text);
            CHECK_FALSE(labels[i].meets(labels[k]));
        }
    }
}

/// Whether an element lies in a window that cuts off what stands out of it.
bool is_in_window(const Elements& elements, const svg_reader::Element& element) {
    std::size_t parent = element.parent;
    while (parent != 0 && elements[parent].name != "svg") {
        parent = elements[parent].parent;
    }
    return parent != 0;
}

/// The corners of every polygon in a group of this title, in document order.
std::vector<std::vector<PlanePoint>> polygons_in(const Elements& elements, const std::string& title) {
    std::vector<std::vector<PlanePoint>> polygons;
    for (std::size_t i = 0; i < elements.size(); ++i) {
        if (elements[i].name != "title" || elements[i].text != title) {
            continue;
        }
        for (std::size_t k = i + 1; k < elements.size() && elements[k].name != "title"; ++k) {
            if (elements[k].name == "polygon" && elements[k].parent == elements[i].parent) {
                std::vector<PlanePoint> ring;
                const std::string& points = elements[k].attributes.at("points");
                for (std::size_t at = 0; at < points.size();) {
                    std::size_t used = 0;
                    const double x = std::stod(points.substr(at), &used);
                    at += used + 1;
                    const double y = std::stod(points.substr(at), &used);
                    at += used + 1;
                    ring.push_back({one_inch * x, one_inch * y});
                }
                polygons.push_back(ring);
            }
        }
    }
    return polygons;
}
}  // namespace

TEST_CASE("drawings of planes of any outline are well formed, and every number in them is one") {
    for (const Read& each : all_read()) {
        CAPTURE(each.named.laid.name);
        CHECK(each.elements.front().name == "svg");
        CHECK(holds(each.words, std::string{drawing_caution}));
        CHECK(holds(each.words, "up the slope"));
        CHECK(svg_reader::times_written(each.elements, "start here: up the slope, lane by lane") == 1);
        for (const svg_reader::Element& element : each.elements) {
            for (const auto& [name, value] : element.attributes) {
                CHECK_FALSE(holds(value, "nan"));
                CHECK_FALSE(holds(value, "inf"));
                CHECK(name != "id");
            }
        }
    }
}

TEST_CASE("every piece of any plane carries its name once in the drawing") {
    for (const Read& each : all_read()) {
        CAPTURE(each.named.laid.name);
        const Elements elements = names_alone(each.named);
        for (const std::string& name : names_of(each.named.laid)) {
            CAPTURE(name);
            CHECK(svg_reader::times_written(elements, name) == 1);
        }
    }
}

TEST_CASE("no name lies over another text, in the drawing with everything in it") {
    for (const Read& each : all_read()) {
        CAPTURE(each.named.laid.name);
        const std::set<std::string> names = names_of(each.named.laid);
        const std::vector<TextBox> labels = labels_of(each.elements, names);
        CHECK(labels.size() == names.size());
        check_apart(labels);
        for (const svg_reader::Element& element : each.elements) {
            for (std::size_t i = 0; element.name == "text" && i < labels.size(); ++i) {
                CAPTURE(labels[i].text);
                CAPTURE(element.text);
                CHECK((element.text == labels[i].text || !labels[i].meets(box_of(element))));
            }
        }
    }
}

TEST_CASE("random planes are drawn with every name once and apart, on the page") {
    const int planes = sweep(400);
    SeededNumbers random{20260};
    int drawn = 0;
    for (int i = 0; i < planes; ++i) {
        const PurlinPlane plane = i % 2 == 0 ? right_angled_plane(random) : slanted_plane(random);
        std::optional<Laid> laid;
        try {
            laid = test_planes::lay("random", plane, {{48_in, 96_in}}, Fixed{24_in});
        } catch (const FaultError&) {
            continue;  // too small for a row, or with a slanted eave
        }
        ++drawn;
        CAPTURE(i);
        const Elements elements = svg_reader::read(draw_plane(*laid, {.title = "Plane"}));
        const std::set<std::string> names = names_of(*laid);
        const std::vector<TextBox> labels = labels_of(elements, names);
        CHECK(labels.size() == names.size());
        check_apart(labels);
        for (const TextBox& label : labels) {
            CHECK((label.left >= 0.0 && label.right <= 360.0 && label.top >= 0.0));
        }
    }
    CHECK(drawn > planes / 3);
}

TEST_CASE("a name stands in its own piece or its leader begins there, never in a notch or an opening") {
    for (const Read& each : all_read()) {
        CAPTURE(each.named.laid.name);
        const Elements elements = names_alone(each.named);
        const Laid& laid = each.named.laid;
        const auto rings = polygons_in(elements, "Sheets");  // as many as are seen in the strips, each in its place
        const auto openings = polygons_in(elements, "Openings");
        const auto in_opening = [&](PlanePoint p) {
            for (const auto& opening : openings) {
                if (detail::is_inside(p, opening)) {
                    return true;
                }
            }
            return false;
        };
        std::size_t own = 0;
        for (std::size_t e = 0; e < elements.size(); ++e) {
            if (elements[e].name != "text" || names_of(laid).count(elements[e].text) == 0) {
                continue;
            }
            CAPTURE(elements[e].text);
            PlanePoint at{one_inch * number_of(elements[e], "x"), one_inch * (number_of(elements[e], "y") - 3.6)};
            if (elements[e - 2].name == "circle") {  // line, dot, ground, name
                at = {one_inch * number_of(elements[e - 2], "cx"), one_inch * number_of(elements[e - 2], "cy")};
            }
            CHECK_FALSE(in_opening(at));
            std::size_t around = 0;
            for (const auto& ring : rings) {
                around += detail::is_inside(at, ring) ? 1U : 0U;
            }
            CHECK(around >= 1);  // a piece that a break cuts is drawn in both strips, its window hides the rest
            own += around >= 1 ? 1U : 0U;
        }
        CHECK(own == laid.sheets.pieces.size());
    }
}

TEST_CASE("the piece around a name is the one that has it") {
    // One strip: pieces are drawn in the order of the layout, so that the ring round a name tells which piece it is.
    for (const Read& each : all_read()) {
        CAPTURE(each.named.laid.name);
        const DrawingOptions wide{.title = "Plane",
                                  .tick = each.named.tick,
                                  .page_width = 4000,
                                  .overview = false,
                                  .marks = false,
                                  .findings = false,
                                  .tables = false};
        const Elements elements = svg_reader::read(draw_plane(each.named.laid, wide));
        const auto rings = polygons_in(elements, "Sheets");
        const std::vector<SheetPiece>& pieces = each.named.laid.sheets.pieces;
        REQUIRE(rings.size() == pieces.size());
        std::map<std::string, PlanePoint> places;
        for (std::size_t e = 2; e < elements.size(); ++e) {
            if (elements[e].name == "text") {
                const bool leader = elements[e - 2].name == "circle";
                places.insert({elements[e].text, leader ? PlanePoint{one_inch * number_of(elements[e - 2], "cx"),
                                                                     one_inch * number_of(elements[e - 2], "cy")}
                                                        : PlanePoint{one_inch * number_of(elements[e], "x"),
                                                                     one_inch * (number_of(elements[e], "y") - 3.6)}});
            }
        }
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            CAPTURE(piece_name(pieces[i]));
            CHECK(detail::is_inside(places.at(piece_name(pieces[i])), rings[i]));
        }
    }
}

TEST_CASE("figures are those of the plane, its rows, openings and pieces") {
    for (const Read& each : all_read()) {
        const Laid& laid = each.named.laid;
        CAPTURE(laid.name);
        const auto written = [&](Length length) { return write_length(length, each.named.tick); };
        for (std::size_t i = 0; i < laid.plane.outline.size(); ++i) {
            CHECK(svg_reader::times_written(each.elements, written(edge_length(laid.plane.outline, i))) >= 1);
            CHECK(svg_reader::times_written(each.elements, detail::letter_of(i)) >= 2);  // at the side and in the list
        }
        for (std::size_t r = 0; r < laid.purlins->rows.size(); ++r) {
            const PurlinRow& row = laid.purlins->rows[r];
            const std::string name = row.kind == RowKind::field ? std::to_string(r) : std::string{name_of(row.kind)};
            const bool level = row.centreline.front().up == row.centreline.back().up;
            CAPTURE(name);
            if (level) {
                CHECK(svg_reader::times_written(each.elements, name + ": " + written(row.centreline[0].up)) == 1);
            }
        }
        for (std::size_t o = 0; o < laid.plane.openings.size(); ++o) {
            const Extent extent = extent_of(laid.plane.openings[o]);
            const std::string size =
                written(extent.high.along - extent.low.along) + " x " + written(extent.high.up - extent.low.up);
            CHECK(holds(each.words, detail::letter_of(laid.plane.outline.size() + o) + ": " + size));
            CHECK(holds(each.words,
                        "at " + written(extent.low.along) + " along, " + written(extent.low.up) + " up; cuts "));
        }
        std::size_t whole = 0;
        for (const SheetPiece& piece : laid.sheets.pieces) {
            whole += piece.whole ? 1U : 0U;
            CHECK(holds(each.words, written(piece.width) + " x " + written(piece.length)));
        }
        CHECK(holds(each.words, "Sheets: " + std::to_string(laid.sheets.pieces.size()) + " pieces, " +
                                    std::to_string(whole) + " whole"));
    }
}

TEST_CASE("findings of any plane are listed, each kind met in all, and marked") {
    std::set<FindingCode> met;
    for (const Read& each : all_read()) {
        const Sheets& sheets = each.named.laid.sheets;
        CAPTURE(each.named.laid.name);
        CHECK(holds(each.words, "Findings: " + (sheets.findings.empty() ? std::string{"none"}
                                                                        : std::to_string(sheets.findings.size()))));
        for (const Finding& finding : sheets.findings) {
            met.insert(finding.code);
            CHECK(holds(each.words, detail::in_words(name_of(finding.code))));
            CHECK(holds(each.words, write_length(finding.measured, each.named.tick)));
            CHECK(holds(each.words, piece_name(sheets.pieces[finding.piece])));
        }
    }
    CHECK(met.size() == NamesOf<FindingCode>::list.size());
}

TEST_CASE("what a piece is cut to is said beside its size") {
    const auto words_of = [](const Laid& laid, const char* piece) {
        const Laid* kept = &laid;
        const detail::DrawnPlane drawn = detail::drawn_plane(*kept);
        for (const SheetPiece& each : laid.sheets.pieces) {
            if (piece_name(each) == piece) {
                return detail::cuts_in_words(drawn, each, Tick::of_inch(16));
            }
        }
        return std::string{"no such piece"};
    };
    const Laid hip = test_planes::hip_end();
    CHECK(words_of(hip, "A1") == ", then cut to the hip");
    CHECK(words_of(hip, "C1") == ", whole");
    CHECK(words_of(hip, "D1").empty());  // shorter by the stagger, nothing slanted
    const Laid ell = test_planes::ell();
    CHECK(words_of(ell, "F1") == ", then cut to the valley");
    const Laid sky = test_planes::skylight();
    CHECK(words_of(sky, "A1") == ", notched at opening e");
    CHECK(words_of(sky, "B2") == ", notched at opening e");
    CHECK(words_of(sky, "C1") == ", opening f inside");
    CHECK(words_of(sky, "D1") == ", whole");
    const Laid leg = test_planes::narrow_leg();
    CHECK(words_of(leg, "C1") == ", then cut to opening f");
    const Laid ten = test_planes::ten_corners();
    bool notched = false;
    for (const SheetPiece& piece : ten.sheets.pieces) {
        notched = notched || words_of(ten, piece_name(piece).c_str()) == ", notched";
    }
    CHECK(notched);  // at the step of the eave
    const Laid turned = test_planes::turned();
    CHECK(words_of(turned, "B1") == ", then cut to the slanting eave");
    CHECK(holds(svg_reader::words_of(svg_reader::read(draw_plane(turned, {}))),
                "The grid is turned clockwise, 0'-1 1/2\" in 10'-0\". Lane A is ripped to 3'-0\"."));
}

TEST_CASE("sides are told by the form of their line, with a key of the kinds that are there") {
    for (const Read& each : all_read()) {
        CAPTURE(each.named.laid.name);
        std::set<EdgeKind> kinds(each.named.laid.plane.edges.begin(), each.named.laid.plane.edges.end());
        for (std::size_t k = 0; k < NamesOf<EdgeKind>::list.size(); ++k) {
            const std::string name = detail::in_words(NamesOf<EdgeKind>::list[k]);
            CHECK(svg_reader::times_written(each.elements, name) == kinds.count(static_cast<EdgeKind>(k)));
        }
        for (const svg_reader::Element& element : each.elements) {  // black, white and greys
            for (const char* tone : {"fill", "stroke"}) {
                const auto found = element.attributes.find(tone);
                const std::string value = found == element.attributes.end() ? "none" : found->second;
                const std::string third = value.substr(1, value.size() / 3);  // #fff, #c8c8c8
                CHECK((value == "none" || value == "#" + third + third + third));
            }
        }
    }
}

TEST_CASE("rows are drawn along their stretches, and only there") {
    const Laid laid = test_planes::skylight();
    const Elements elements = svg_reader::read(draw_plane(laid, {}));
    std::size_t stretches = 0;
    for (const PurlinRow& row : laid.purlins->rows) {
        stretches += row.stretches.empty() ? 1U : row.stretches.size();
    }
    CHECK(stretches > laid.purlins->rows.size());  // some stop at the skylights
    const auto bands = polygons_in(elements, "Purlins");
    CHECK(bands.size() == stretches);
    for (const auto& opening : polygons_in(elements, "Openings")) {
        const Extent hole = extent_of(opening);
        for (const auto& band : bands) {
            const Extent extent = extent_of(band);
            const PlanePoint middle{(hole.low.along + hole.high.along) / 2.0, (extent.low.up + extent.high.up) / 2.0};
            const bool beside = middle.up < hole.low.up + one_inch || middle.up > hole.high.up - one_inch;
            CHECK((beside || !detail::is_inside(middle, band)));
        }
    }
}

TEST_CASE("everything of any plane stays on the page, and nothing is written too small") {
    for (const Read& each : all_read()) {
        for (const int width : {240, 360, 720}) {
            CAPTURE(each.named.laid.name);
            CAPTURE(width);
            const Elements elements = svg_reader::read(
                draw_plane(each.named.laid, {.title = "Plane", .tick = each.named.tick, .page_width = width}));
            const std::string view = elements.front().attributes.at("viewBox");
            const double height = std::stod(view.substr(view.rfind(' ') + 1));
            for (const svg_reader::Element& element : elements) {
                for (const char* name : {"x", "x1", "x2", "cx"}) {
                    if (element.attributes.count(name) > 0 && !is_in_window(elements, element)) {
                        CHECK(number_of(element, name) >= 0.0);
                        CHECK(number_of(element, name) <= width);
                    }
                }
                for (const char* name : {"y", "y1", "y2", "cy"}) {
                    if (element.attributes.count(name) > 0) {
                        CHECK(number_of(element, name) >= 0.0);
                        CHECK(number_of(element, name) <= height);
                    }
                }
                if (element.name == "text") {
                    const TextBox box = box_of(element);
                    CAPTURE(element.text);
                    CHECK(box.left >= 0.0);
                    CHECK(box.right <= width);
                    CHECK(number_of(element, "font-size") >= 9.0);
                }
            }
        }
    }
}

TEST_CASE("the same plane gives the same bytes, and marks of clips or blocks only where they are needed") {
    for (const Read& each : all_read()) {
        const Laid copy = each.named.laid;
        CHECK(draw_plane(copy, {.title = "Plane", .tick = each.named.tick}) == each.svg);
    }
    Laid laid = test_planes::skylight();
    REQUIRE(laid.long_edges->needed);
    CHECK(holds(svg_reader::words_of(svg_reader::read(draw_plane(laid, {}))),
                std::to_string(laid.long_edges->clips) + " clips in all"));
    laid.long_edges->hold = EdgeHold::blocking;
    CHECK(holds(draw_plane(laid, {}), "<title>Blocks</title>"));
    laid.long_edges->needed = false;
    CHECK_FALSE(holds(draw_plane(laid, {}), "<title>Blocks</title>"));
    laid.long_edges.reset();
    laid.purlins.reset();  // over chords, or where nobody kept the rows
    CHECK_FALSE(holds(draw_plane(laid, {}), "row centres"));
}

TEST_CASE("the text of a plane with openings grows with its pieces and no faster") {
    double per_piece = 0.0;
    for (const int bays : {6, 12, 24, 48}) {
        const Length long_way = one_inch * (240.0 * bays);
        const Length top = 200_in * test_planes::hip_rise;
        PurlinPlane plane = any_plane({{0_in, 0_in}, {long_way, 0_in}, {long_way - 200_in, top}, {200_in, top}});
        for (int bay = 1; bay + 1 < bays; ++bay) {
            const Length at = one_inch * (240.0 * bay + 10.0);
            plane.openings.push_back({{at, 60_in}, {at + 30_in, 60_in}, {at + 30_in, 100_in}, {at, 100_in}});
        }
        const Laid laid = test_planes::lay("long", plane, {{48_in, 96_in}}, Fixed{24_in});
        const double now =
            static_cast<double>(draw_plane(laid, {}).size()) / static_cast<double>(laid.sheets.pieces.size());
        CAPTURE(bays);
        CHECK(now < 1200.0);
        CHECK((per_piece == 0.0 || now < per_piece * 1.15));
        per_piece = now;
    }
}

TEST_CASE("results of any plane that do not hold together are refused by name") {
    const Laid laid = test_planes::skylight();
    const auto code_of = [](const Laid& drawn, const DrawingOptions& options) {
        try {
            return static_cast<void>(draw_plane(drawn, options)), 0;
        } catch (const FaultError& error) {
            return number_of(error.fault().code);
        }
    };
    CHECK(code_of(laid, {.title = "", .page_width = 239}) == number_of(FaultCode::out_of_range));
    CHECK(code_of(laid, {}) == 0);
    const Length not_a_length = one_inch * std::numeric_limits<double>::quiet_NaN();
    Laid broken = laid;
    broken.plane.edges.pop_back();
    CHECK(code_of(broken, {}) == number_of(FaultCode::contradiction));
    broken = laid;
    broken.plane.outline.resize(2, laid.plane.outline[0]);
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_supported));
    broken = laid;
    broken.plane.openings[0].pop_back();
    broken.plane.openings[0].pop_back();
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_finite));
    broken = laid;
    broken.sheets.pieces[4].cutouts = {{{not_a_length, 0_in}, {0_in, 1_in}, {1_in, 1_in}}};
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_finite));
    broken = laid;
    broken.supports.lines[0].centreline.clear();
    CHECK(code_of(broken, {}) == number_of(FaultCode::not_finite));
    broken = laid;
    broken.sheets.findings[0].piece = 1000;
    CHECK(code_of(broken, {}) == number_of(FaultCode::contradiction));
}

TEST_CASE("a place within a shape keeps off its edges and holes") {
    // A square of 100 with a hole of 40 in its middle leaves bands of 30: a box of 20 by 10 fits, one of 32 by 32 does
    // not.
    const detail::PageShape ring{
        {{{0, 0}, {100, 0}, {100, 100}, {0, 100}}, {{30, 30}, {70, 30}, {70, 70}, {30, 70}}}, -1e3, 1e3};
    const detail::TextPlace fits = detail::place_within(ring, {10.0, 5.0});
    CHECK(fits.room >= 1.25);
    CHECK(ring.holds(fits.at));
    CHECK(detail::place_within(ring, {16.0, 16.0}).room < 1.0);
    // Round (15, 15) a square grows by 15 either way until it meets the outer edges: 1.5 times one of 10.
    CHECK(std::fabs(detail::room_round(ring, {15.0, 15.0}, {10.0, 10.0}) - 1.5) < 1e-12);
    CHECK(detail::room_round(ring, {50.0, 50.0}, {10.0, 10.0}) == -1.0);
    // The way from (2, 0) to (0, 2) comes closest to the origin on the diagonal, at (1, 1).
    CHECK(std::fabs(detail::square_round_origin({2.0, 0.0}, {0.0, 2.0}) - 1.0) < 1e-12);
    CHECK(detail::square_round_origin({3.0, -1.0}, {3.0, 1.0}) == 3.0);
    // A strip that ends at 60 leaves the left band and parts of the others.
    const detail::PageShape part{ring.rings, 0.0, 60.0};
    CHECK(detail::place_within(part, {10.0, 5.0}).at.x < 60.0);
}
