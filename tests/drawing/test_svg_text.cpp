// SPDX-License-Identifier: BSL-1.0

// The writer of SVG elements: escaping, numbers, breaking of lines.

#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>

#include "svg_reader.hpp"

#include <doctest/doctest.h>

#include <stdexcept>
#include <string>
#include <vector>

using namespace eavewright;

TEST_CASE("the checker refuses what is not well formed") {
    CHECK_NOTHROW(svg_reader::read("<a b=\"1\"><c/>x &lt; y</a>\n"));
    for (const char* broken : {"<a>", "<a></b>", "<a/><b/>", "<a b=1/>", "<a b=\"1\" b=\"2\"/>", "<a>&</a>",
                               "<a>&nbsp;</a>", "<a b=\"<\"/>", "x<a/>", "<a>\x01</a>", ""}) {
        CAPTURE(broken);
        CHECK_THROWS_AS(svg_reader::read(broken), std::runtime_error);
    }
}

TEST_CASE("what XML gives a meaning to is escaped, and read back the same") {
    CHECK(escape_xml("<&\">'") == "&lt;&amp;&quot;&gt;&#39;");
    CHECK(escape_xml("12'-6 1/2\"") == "12&#39;-6 1/2&quot;");
    CHECK(escape_xml("Länge \xE2\x80\x93 \xF0\x9F\x8F\xA0") == "Länge \xE2\x80\x93 \xF0\x9F\x8F\xA0");
    SvgText svg;
    svg.text({1.0, 2.0}, "<&\">'");
    const auto elements = svg_reader::read(svg.document(10.0, 10.0, "<&\">'", "a & b"));
    CHECK(svg_reader::times_written(elements, "<&\">'") == 1);
    CHECK(elements.front().attributes.at("aria-label") == "<&\">'");
}

TEST_CASE("bytes that XML does not allow become the replacement character") {
    const std::string mark = "\xEF\xBF\xBD";
    CHECK(escape_xml(std::string{"a\0b", 3}) == "a" + mark + "b");
    CHECK(escape_xml("\x1b[0m") == mark + "[0m");
    CHECK(escape_xml("\xFF") == mark);
    CHECK(escape_xml("\xC3") == mark);                                   // cut short
    CHECK(escape_xml("\xC0\xAF") == mark + mark);                        // overlong '/'
    CHECK(escape_xml("\xE0\x80\xAF") == mark + mark + mark);             // overlong in three bytes
    CHECK(escape_xml("\xED\xA0\x80") == mark + mark + mark);             // a surrogate
    CHECK(escape_xml("\xEF\xBF\xBE") == mark + mark + mark);             // U+FFFE
    CHECK(escape_xml("\xF4\x90\x80\x80") == mark + mark + mark + mark);  // past U+10FFFF
    CHECK(escape_xml("a\tb\nc") == "a\tb\nc");
}

TEST_CASE("coordinates are written to hundredths, without trailing zeros or a negative zero") {
    CHECK(SvgText::number(1.0) == "1");
    CHECK(SvgText::number(1.005001) == "1.01");
    CHECK(SvgText::number(-0.001) == "0");
    CHECK(SvgText::number(-2.5) == "-2.5");
}

TEST_CASE("elements carry their places, groups close in order") {
    SvgText svg;
    svg.open_group(R"(fill="none")", "rows");
    svg.open_window({1.0, 2.0}, 3.0, 4.0);
    svg.line({0.0, 0.0}, {1.5, 2.25}, R"(stroke="#000")");
    svg.close_group();
    svg.close_group();
    svg.text({5.0, 6.0}, "up", {.size = 9.0, .anchor = TextAnchor::end, .bold = true, .turned = true});
    const auto elements = svg_reader::read(svg.document(100.0, 50.0, "t", "d"));
    REQUIRE(elements.size() == 9);  // svg, title, desc, ground, group, its title, window, line, text
    CHECK(elements[0].attributes.at("viewBox") == "0 0 100 50");
    CHECK(elements[0].attributes.at("width") == "100%");
    CHECK(elements[0].attributes.at("xml:lang") == "en");
    CHECK(elements[1].text == "t");
    CHECK(elements[2].text == "d");
    CHECK(elements[5].text == "rows");
    CHECK(elements[6].attributes.at("viewBox") == "1 2 3 4");
    CHECK(elements[7].parent == 6);
    CHECK(elements[7].attributes.at("y2") == "2.25");
    CHECK(elements[8].parent == 0);
    CHECK(elements[8].attributes.at("text-anchor") == "end");
    CHECK(elements[8].attributes.at("transform") == "rotate(-90 5 6)");
}

TEST_CASE("lines break at spaces, never inside a figure, and lose no word") {
    const std::string text = "Eave 62'-0\", slope 20'-6 11/16\", diagonal 65'-3 13/16\"; 19745 mm and A1, B2";
    for (double width = 90.0; width < 500.0; width += 7.0) {
        const std::vector<std::string> lines = wrap_text(text, 10.0, width);
        std::string joined;
        for (const std::string& line : lines) {
            CAPTURE(line);
            CHECK(text_width(line, 10.0) <= width);
            CHECK(line.rfind("mm", 0) != 0);
            CHECK(line.rfind("11/16", 0) != 0);
            CHECK(line.rfind("13/16", 0) != 0);
            joined += (joined.empty() ? "" : " ") + line;
        }
        CHECK(joined == text);
    }
    CHECK(wrap_text("", 10.0, 100.0).empty());
}

TEST_CASE("a word wider than the page is broken between characters") {
    const std::string word = "ÄÖÜÄÖÜÄÖÜÄÖÜÄÖÜ";
    const std::vector<std::string> lines = wrap_text(word, 10.0, 20.0);
    CHECK(lines.size() > 3);
    std::string joined;
    for (const std::string& line : lines) {
        CHECK(escape_xml(line) == line);  // whole characters only
        joined += line;
    }
    CHECK(joined == word);
    CHECK(wrap_text("ab", 10.0, 0.5) == std::vector<std::string>{"a", "b"});  // at least a character a line
}
