// SPDX-License-Identifier: BSL-1.0
#pragma once

// Writes SVG 1.1 as text: the few elements that a drawing needs. Only geometry and words go in, so the text is the same
// on every machine. No element has an id: several drawings can stand in one page without disturbing each other.

#include <eavewright/units/decimal.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// A point of a drawing in drawing units: x to the right, y DOWN.
struct SvgPoint {
    double x;
    double y;
};

/// Where a text stands against its point.
enum class TextAnchor { start, middle, end };

/// How a text looks.
struct TextLook {
    double size = 10.0;  ///< font size in drawing units
    TextAnchor anchor = TextAnchor::start;
    bool bold = false;
    bool turned = false;  ///< reads upwards
    std::string_view fill = "#000";
};

namespace detail {
/// Bytes of the character of UTF-8 that starts `text`, or 0 where it is none, or none that XML 1.0 allows.
[[nodiscard]] inline std::size_t xml_character(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
    const std::uint32_t lead = byte(0);
    if (lead < 0x80U) {
        return lead >= 0x20U || lead == 0x09U || lead == 0x0AU || lead == 0x0DU ? 1 : 0;
    }
    const std::size_t size = lead >= 0xF0U ? 4 : (lead >= 0xE0U ? 3 : 2);
    if (lead < 0xC2U || lead > 0xF4U || text.size() < size) {
        return 0;
    }
    std::uint32_t code = lead & (0xFFU >> (size + 1));
    for (std::size_t i = 1; i < size; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) {
            return 0;
        }
        code = code << 6U | (byte(i) & 0x3FU);
    }
    const bool overlong = (size == 3 && code < 0x800U) || (size == 4 && code < 0x10000U);
    const bool outside = (code >= 0xD800U && code <= 0xDFFFU) || code == 0xFFFEU || code == 0xFFFFU || code > 0x10FFFFU;
    return overlong || outside ? 0 : size;
}
}  // namespace detail

/// `text` as it may stand in an XML element or attribute. Bytes that XML 1.0 does not allow come out as U+FFFD.
[[nodiscard]] inline std::string escape_xml(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    while (!text.empty()) {
        const std::size_t size = detail::xml_character(text);
        switch (size == 1 ? text.front() : 'x') {
            case '<': out += "&lt;"; break;
            case '>': out += "&gt;"; break;
            case '&': out += "&amp;"; break;
            case '"': out += "&quot;"; break;
            case '\'': out += "&#39;"; break;
            default: out += size == 0 ? std::string_view{"\xEF\xBF\xBD"} : text.substr(0, size); break;
        }
        text.remove_prefix(size == 0 ? 1 : size);
    }
    return out;
}

/// Collects elements, then closes them into a document. `look` arguments are attributes as they stand in the SVG and
/// are not escaped: they come from code, never from a user. Texts are escaped.
class SvgText {
public:
    /// A coordinate as it is written: hundredths of a drawing unit.
    [[nodiscard]] static std::string number(double value) { return write_decimal(value, 2); }

    void line(SvgPoint a, SvgPoint b, std::string_view look = {}) {
        open("line");
        attribute("x1", a.x);
        attribute("y1", a.y);
        attribute("x2", b.x);
        attribute("y2", b.y);
        close(look);
    }
    /// `corner` is the upper left one.
    void rect(SvgPoint corner, double width, double height, std::string_view look = {}) {
        open("rect");
        place(corner, width, height);
        close(look);
    }
    void circle(SvgPoint centre, double radius, std::string_view look = {}) {
        open("circle");
        attribute("cx", centre.x);
        attribute("cy", centre.y);
        attribute("r", radius);
        close(look);
    }
    void polygon(const std::vector<SvgPoint>& points, std::string_view look = {}) { shape("polygon", points, look); }
    void polyline(const std::vector<SvgPoint>& points, std::string_view look = {}) { shape("polyline", points, look); }

    /// `at` is on the base line.
    void text(SvgPoint at, std::string_view words, TextLook look = {}) {
        open("text");
        attribute("x", at.x);
        attribute("y", at.y);
        attribute("font-size", look.size);
        if (look.anchor != TextAnchor::start) {
            body_ += look.anchor == TextAnchor::middle ? R"( text-anchor="middle")" : R"( text-anchor="end")";
        }
        body_ += look.bold ? R"( font-weight="bold")" : "";
        if (look.fill != "#000") {
            body_ += R"( fill=")" + std::string{look.fill} + "\"";
        }
        if (look.turned) {
            body_ += R"( transform="rotate(-90 )" + number(at.x) + " " + number(at.y) + ")\"";
        }
        body_ += ">" + escape_xml(words) + "</text>\n";
    }

    /// Elements up to `close_group` share `look`; `name` is what a screen reader calls them, nothing where empty.
    void open_group(std::string_view look, std::string_view name = {}) {
        body_ += "<g";
        extra(look);
        body_ += name.empty() ? ">\n" : "><title>" + escape_xml(name) + "</title>\n";
        open_.push_back("g");
    }
    /// What is drawn up to `close_group` is cut off at the window; coordinates stay those of the drawing.
    void open_window(SvgPoint corner, double width, double height) {
        open("svg");
        place(corner, width, height);
        body_ += R"( viewBox=")" + number(corner.x) + " " + number(corner.y) + " " + number(width) + " " +
                 number(height) + "\" overflow=\"hidden\">\n";
        open_.push_back("svg");
    }
    void close_group() {
        body_ += "</" + std::string{open_.back()} + ">\n";
        open_.pop_back();
    }

    /// As wide as the place that shows it.
    static constexpr std::string_view as_wide_as_its_place = R"(width="100%" style="height:auto")";

    /// The document: everything drawn so far on white. Title and description are for screen readers. `shown` are the
    /// attributes that say how large it is shown: those of a sheet of paper, for a page to print.
    [[nodiscard]] std::string document(double width, double height, std::string_view title,
                                       std::string_view description,
                                       std::string_view shown = as_wide_as_its_place) const {
        const std::string size = number(width) + " " + number(height);
        return R"(<svg xmlns="http://www.w3.org/2000/svg" version="1.1" xml:lang="en" lang="en" role="img")"
               R"( viewBox="0 0 )" +
               size + "\" " + std::string{shown} + R"( font-family="Arial, Helvetica, sans-serif" aria-label=")" +
               escape_xml(title) + "\">\n<title>" + escape_xml(title) + "</title>\n<desc>" + escape_xml(description) +
               "</desc>\n<rect width=\"" + number(width) + "\" height=\"" + number(height) + "\" fill=\"#fff\"/>\n" +
               body_ + "</svg>\n";
    }

private:
    void open(std::string_view name) {
        body_ += '<';
        body_ += name;
    }
    void attribute(std::string_view name, double value) {
        body_ += ' ';
        body_ += name;
        body_ += "=\"" + number(value);
        body_ += '"';
    }
    void place(SvgPoint corner, double width, double height) {
        attribute("x", corner.x);
        attribute("y", corner.y);
        attribute("width", width);
        attribute("height", height);
    }
    void extra(std::string_view look) {
        body_ += look.empty() ? "" : " ";
        body_ += look;
    }
    void close(std::string_view look) {
        extra(look);
        body_ += "/>\n";
    }
    void shape(std::string_view name, const std::vector<SvgPoint>& points, std::string_view look) {
        open(name);
        body_ += R"( points=")";
        for (std::size_t i = 0; i < points.size(); ++i) {
            body_ += i > 0 ? " " : "";
            body_ += number(points[i].x) + "," + number(points[i].y);
        }
        body_ += "\"";
        close(look);
    }

    std::string body_;
    std::vector<std::string_view> open_;
};

}  // namespace eavewright
