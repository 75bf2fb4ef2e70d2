// SPDX-License-Identifier: BSL-1.0
#pragma once

// A whole shape as one picture: its plan, and every plane laid flat.

#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/roof/composed_roof.hpp>
#include <eavewright/roof/face_planes.hpp>
#include <eavewright/roof/footprint_roof.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// How a shape is drawn.
struct ShapeDrawingOptions {
    std::string title;
    Tick tick = Tick::of_inch(16);
    int page_width = 360;  ///< as in `DrawingOptions`
};

namespace detail {
/// Each kind of edge has its own line, told apart without tones.
[[nodiscard]] constexpr std::string_view edge_pen(EdgeKind kind) {
    switch (kind) {
        case EdgeKind::ridge: return R"(stroke="#000" stroke-width="3" fill="none")";
        case EdgeKind::hip: return R"(stroke="#000" stroke-width="1.6" fill="none")";
        case EdgeKind::valley: return R"(stroke="#000" stroke-width="1.6" stroke-dasharray="7 3" fill="none")";
        case EdgeKind::pitch_break: return R"(stroke="#000" stroke-width="1" stroke-dasharray="8 2 2 2" fill="none")";
        case EdgeKind::wall: return R"(stroke="#000" stroke-width="2.4" stroke-dasharray="2 2" fill="none")";
        case EdgeKind::rake: return R"(stroke="#000" stroke-width="0.8" fill="none")";
        default: return R"(stroke="#000" stroke-width="1.2" stroke-dasharray="1 2.5" fill="none")";  // eaves
    }
}
inline constexpr std::string_view edge_key =
    "Thick: ridge. Plain: hip. Long dashes: valley. Dash and dot: pitch break. Short thick dashes: wall. Thin: rake. "
    "Dotted: eave, high eave. Arrows point down the slope; sides are listed from the eave round, counter-clockwise.";

/// A face as it is drawn.
struct DrawnFace {
    std::string name;
    const RoofFace* face;
    ChordPlane plane;
};

/// A place inside a polygon: the middle of its widest stretch at the height of its middle.
[[nodiscard]] inline SvgPoint place_inside(const std::vector<SvgPoint>& polygon) {
    double top = polygon[0].y;
    double bottom = top;
    for (const SvgPoint& p : polygon) {
        top = lesser(top, p.y);
        bottom = greater(bottom, p.y);
    }
    const double y = (top + bottom) / 2.0 + 1e-7;  // off every corner
    std::vector<double> crossings;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const SvgPoint a = polygon[i];
        const SvgPoint b = polygon[(i + 1) % polygon.size()];
        if ((a.y < y) != (b.y < y)) {
            crossings.push_back(a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y)));
        }
    }
    std::sort(crossings.begin(), crossings.end());
    SvgPoint best{polygon[0].x, y};
    double widest = -1.0;
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
        if (crossings[i + 1] - crossings[i] > widest) {
            widest = crossings[i + 1] - crossings[i];
            best.x = (crossings[i] + crossings[i + 1]) / 2.0;
        }
    }
    return best;
}

inline void draw_edges(Page& page, const std::vector<SvgPoint>& corners, const std::vector<EdgeKind>& kinds) {
    for (std::size_t i = 0; i < corners.size(); ++i) {
        page.svg.line(corners[i], corners[(i + 1) % corners.size()], edge_pen(kinds[i]));
    }
}

/// The plan, the back at the top, as large as the page lets it be.
inline void draw_plan(Page& page, const std::vector<DrawnFace>& faces) {
    GroundPoint low = faces[0].face->outline[0];
    GroundPoint high = low;
    for (const DrawnFace& drawn : faces) {
        for (const GroundPoint& p : drawn.face->outline) {
            low = {shorter(low.x, p.x), shorter(low.y, p.y)};
            high = {longer(high.x, p.x), longer(high.y, p.y)};
        }
    }
    const double across = inches(high.x - low.x);
    const double deep = inches(high.y - low.y);
    const double scale = lesser((page.width - 2.0 * page_margin - 4.0) / across, page.width * 0.8 / deep);
    const double left = (page.width - across * scale) / 2.0;
    const double bottom = page.y + 8.0 + deep * scale;
    for (std::size_t i = 0; i < faces.size(); ++i) {
        const RoofFace& face = *faces[i].face;
        std::vector<SvgPoint> corners;
        for (const GroundPoint& p : face.outline) {
            corners.push_back({left + inches(p.x - low.x) * scale, bottom - inches(p.y - low.y) * scale});
        }
        for (std::size_t e = 0; e < corners.size(); ++e) {
            if (face.edges[e].neighbour.value_or(i) >= i) {  // a shared edge once, or its dashes would fill up
                page.svg.line(corners[e], corners[(e + 1) % corners.size()], edge_pen(face.edges[e].kind));
            }
        }
        const SvgPoint middle = place_inside(corners);
        const double steep = steepness(face.plane);
        if (steep > 1e-9) {
            const SvgPoint down{-face.plane.rise_x / steep, face.plane.rise_y / steep};
            draw_arrow(page.svg, {middle.x + 8.0 * down.x, middle.y + 8.0 * down.y},
                       {middle.x + 24.0 * down.x, middle.y + 24.0 * down.y});
        }
        page.label(middle, std::to_string(i + 1), {.size = 10.0, .bold = true});
    }
    page.y = bottom + 10.0;
}

/// The sides of a plane in words, from its eave round: "eave 42'-0", hip 19'-6"".
[[nodiscard]] inline std::string sides_in_words(const Page& page, const ChordPlane& plane) {
    std::string words;
    for (std::size_t i = 0; i < plane.edges.size(); ++i) {
        words += i == 0 ? "" : ", ";
        words += in_words(name_of(plane.edges[i])) + " ";
        words += page.figure(edge_length(plane.outline, i));
    }
    return words;
}
[[nodiscard]] inline std::string area_in_words(const Page& page, Area area) {
    return page.tick.is_metric() ? write_decimal(square_metres(area), 2) + " m2"
                                 : write_decimal(square_feet(area), 1) + " sq ft";
}

/// Every plane laid flat at one scale, its lowest side at the bottom, its sides listed under it.
inline void draw_planes(Page& page, const std::vector<DrawnFace>& faces) {
    double widest = 1.0;
    double tallest = 1.0;
    for (const DrawnFace& drawn : faces) {
        const Extent extent = extent_of(drawn.plane.outline);
        widest = greater(widest, inches(extent.high.along - extent.low.along));
        tallest = greater(tallest, inches(extent.high.up - extent.low.up));
    }
    const double scale = lesser((page.width - 2.0 * page_margin - 4.0) / widest, page.width * 0.45 / tallest);
    for (std::size_t i = 0; i < faces.size(); ++i) {
        const ChordPlane& plane = faces[i].plane;
        const Extent extent = extent_of(plane.outline);
        page.y += 6.0;
        page.paragraph(std::to_string(i + 1) + " " + faces[i].name + ": " + area_in_words(page, net_area(plane)) +
                           ", " + write_decimal(plane.pitch.rise_in_12(), 3) + " in 12",
                       10.5, true);
        const double bottom = page.y + 8.0 + inches(extent.high.up - extent.low.up) * scale;
        std::vector<SvgPoint> corners;
        for (const PlanePoint& p : plane.outline) {
            corners.push_back({page_margin + 2.0 + inches(p.along - extent.low.along) * scale,
                               bottom - inches(p.up - extent.low.up) * scale});
        }
        draw_edges(page, corners, plane.edges);
        page.label(place_inside(corners), std::to_string(i + 1), {.size = 10.0, .bold = true});
        page.y = bottom + 2.0;
        page.paragraph(sides_in_words(page, plane), 10.0);
    }
}

/// Heights in words: "eaves at 9'-7", 10'-6"". Nothing where there are none.
[[nodiscard]] inline std::string heights_in_words(const Page& page, std::string_view what,
                                                  const std::vector<Length>& heights) {
    std::string words;
    for (const Length height : heights) {
        words += words.empty() ? std::string{what} + " at " : std::string{", "};
        words += page.figure(height);
    }
    return words.empty() ? words : words + "; ";
}

/// Levels that a shape holds, each once.
struct DrawnLevels {
    std::vector<Length> eaves;
    std::vector<Length> ridges;
    Length highest;
};

[[nodiscard]] inline std::string draw_faces(const std::vector<DrawnFace>& faces, const DrawnLevels& levels,
                                            const ShapeDrawingOptions& options) {
    if (options.page_width < 240 || options.page_width > 4000) {
        throw FaultError{Fault{FaultCode::out_of_range, "options.page_width", std::to_string(options.page_width),
                               "240 to 4000 drawing units"}};
    }
    if (faces.empty()) {
        throw FaultError{Fault{FaultCode::contradiction, "roof.faces", "no faces", "a roof of at least one face"}};
    }
    Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    page.paragraph(options.title, 14.0, true);
    page.paragraph(drawing_caution, 9.5);
    Area area = Area::from_value(0.0);
    for (const DrawnFace& drawn : faces) {
        area += net_area(drawn.plane);
    }
    page.paragraph(std::to_string(faces.size()) + (faces.size() == 1 ? " plane, " : " planes, ") +
                       area_in_words(page, area) + " of roof.",
                   10.0);
    page.paragraph("Above the benchmark: " + heights_in_words(page, "eaves", levels.eaves) +
                       heights_in_words(page, "ridges", levels.ridges) + "highest " + page.figure(levels.highest) +
                       ". Figures are those of the chord tops.",
                   10.0);
    page.heading("Plan, the back at the top");
    draw_plan(page, faces);
    page.paragraph(edge_key, 9.5);
    page.heading("Planes laid flat");
    draw_planes(page, faces);
    return page.svg.document(page.width, page.y + page_margin, options.title,
                             std::to_string(faces.size()) + " planes. " + std::string{drawing_caution});
}
}  // namespace detail

/// A composed shape: its plan with every edge by its kind, then every plane laid flat with its sides. Every figure is one of
/// `plane_of` of the face. The same arguments give the same bytes. Throws `FaultError`: out_of_range for a page width,
/// contradiction for a roof without faces.
[[nodiscard]] inline std::string draw_shape(const ComposedRoof& roof, const ShapeDrawingOptions& options) {
    std::vector<detail::DrawnFace> faces;
    for (std::size_t i = 0; i < roof.faces.size(); ++i) {
        faces.push_back({roof.names[i], &roof.faces[i], plane_of(roof.faces[i])});
    }
    return detail::draw_faces(faces, {roof.eaves, roof.ridges, roof.highest}, options);
}

/// The same of a roof over a footprint; its faces are named by their sides, counted from 1.
[[nodiscard]] inline std::string draw_shape(const FootprintRoof& roof, const ShapeDrawingOptions& options) {
    std::vector<detail::DrawnFace> faces;
    for (std::size_t i = 0; i < roof.faces.size(); ++i) {
        std::string name = "face ";
        name += std::to_string(i + 1);
        faces.push_back({std::move(name), &roof.faces[i], plane_of(roof.faces[i])});
    }
    return detail::draw_faces(faces, {{}, {}, roof.highest}, options);
}

}  // namespace eavewright
