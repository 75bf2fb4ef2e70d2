// SPDX-License-Identifier: BSL-1.0

// Drawings of shapes: every plane named with its area, every side with its length, nothing off the page, the same bytes.

#include <eavewright/drawing/shape_drawing.hpp>
#include <eavewright/roof/hipped_roofs.hpp>
#include <eavewright/roof/winged_roofs.hpp>

#include "../support/printing.hpp"
#include "../support/refusal.hpp"

#include <doctest/doctest.h>

#include <cstdlib>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
[[nodiscard]] ComposedRoof ell() {
    return l_roof({.main = {.width = 24_ft,
                            .length = 40_ft,
                            .pitch = Pitch::in_12(6),
                            .eave_overhang = 1_ft,
                            .rake_overhang = 1_ft,
                            .bearing_height = 10_ft,
                            .heel = 1_ft},
                   .wing_width = 24_ft,
                   .projection = 16_ft,
                   .wing_pitch = Pitch::in_12(6)});
}
[[nodiscard]] ComposedRoof hipped() {
    return hip({.width = 7.2_m,
                .length = 12_m,
                .pitch = Pitch::in_12(5),
                .eave_overhang = 450_mm,
                .bearing_height = 3_m,
                .heel = 300_mm});
}

/// Largest and smallest number that stands in attributes that end with `name="`.
struct Reach {
    double low = 1e9;
    double high = -1e9;
};
[[nodiscard]] Reach reach_of(const std::string& svg, const std::string& name) {
    Reach reach;
    const std::string key = " " + name + "=\"";
    for (std::size_t at = svg.find(key); at != std::string::npos; at = svg.find(key, at + 1)) {
        const double value = std::strtod(svg.c_str() + at + key.size(), nullptr);
        reach.low = value < reach.low ? value : reach.low;
        reach.high = value > reach.high ? value : reach.high;
    }
    return reach;
}
}  // namespace

TEST_CASE("a drawing of a shape names every plane and writes every side as the plane has it") {
    for (const bool metric : {false, true}) {
        const ComposedRoof roof = metric ? hipped() : ell();
        const Tick tick = metric ? Tick::of_millimetres(1) : Tick::of_inch(16);
        const std::string svg = draw_shape(roof, {.title = "A shape", .tick = tick});
        std::string words;  // wrapped lines put together again
        for (std::size_t at = svg.find("<text"); at != std::string::npos; at = svg.find("<text", at + 1)) {
            const std::size_t from = svg.find('>', at) + 1;
            words += svg.substr(from, svg.find("</text>", from) - from) + " ";
        }
        for (std::size_t i = 0; i < roof.faces.size(); ++i) {
            const ChordPlane plane = plane_of(roof.faces[i]);
            CHECK(words.find(std::to_string(i + 1) + " " + roof.names[i] + ": ") != std::string::npos);
            for (std::size_t e = 0; e < plane.edges.size(); ++e) {
                const std::string side = escape_xml(detail::in_words(name_of(plane.edges[e])) + " " +
                                                    write_length(edge_length(plane.outline, e), tick));
                CHECK(words.find(side) != std::string::npos);
            }
        }
        for (const Length height : {roof.eaves.front(), roof.ridges.front(), roof.highest}) {
            CHECK(words.find(escape_xml(write_length(height, tick))) != std::string::npos);
        }
        CHECK(words.find("eaves at ") < words.find("ridges at "));
        CHECK(words.find("ridges at ") < words.find("highest "));
        CHECK(words.find(std::string{drawing_caution}.substr(0, 12)) != std::string::npos);
        CHECK(svg == draw_shape(roof, {.title = "A shape", .tick = tick}));
    }
}

TEST_CASE("a drawing of a shape stays on its page") {
    for (const int width : {240, 360, 800}) {
        for (const ComposedRoof& roof : {ell(), hipped()}) {
            const std::string svg = draw_shape(roof, {.title = "A shape", .page_width = width});
            for (const char* name : {"x1", "x2", "x"}) {
                CHECK(reach_of(svg, name).low >= 0.0);
                CHECK(reach_of(svg, name).high <= static_cast<double>(width));
            }
            for (const char* name : {"y1", "y2", "y"}) {
                CHECK(reach_of(svg, name).low >= 0.0);
            }
        }
    }
}

TEST_CASE("a drawing of a footprint's roof, and what is refused") {
    const Footprint square{.corners = {{0_ft, 0_ft}, {20_ft, 0_ft}, {20_ft, 20_ft}, {0_ft, 20_ft}},
                           .sides = {SlopedSide{Pitch::in_12(6)}, SlopedSide{Pitch::in_12(6)},
                                     SlopedSide{Pitch::in_12(6)}, SlopedSide{Pitch::in_12(6)}},
                           .eave_height = 9_ft};
    const std::string svg = draw_shape(roof_over(square), {.title = "Pyramid"});
    CHECK(svg.find("4 face 4: ") != std::string::npos);
    CHECK(refusal_of([] { (void)draw_shape(ell(), {.title = "", .page_width = 100}); }).path == "options.page_width");
}
