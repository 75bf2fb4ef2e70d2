// SPDX-License-Identifier: BSL-1.0
#pragma once

// What every drawing begins with: its title and caution, after a look at whether the result can be drawn at all.

#include <eavewright/drawing/page.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/roof/plane.hpp>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright::detail {

[[nodiscard]] inline bool all_usable(const std::vector<PlanePoint>& points) {
    for (const PlanePoint& p : points) {
        if (!is_usable(p.along) || !is_usable(p.up)) {
            return false;
        }
    }
    return true;
}

[[noreturn]] inline void refuse_drawing(FaultCode code, std::string path, std::string required) {
    throw FaultError{Fault{code, std::move(path), "a result that cannot be drawn", std::move(required)}};
}

/// Refuses an outline that is no plane.
inline void require_outline(const std::vector<PlanePoint>& outline, const std::string& path) {
    if (!all_usable(outline)) {
        refuse_drawing(FaultCode::not_finite, path, "finite corners");
    }
    if (outline.size() < 3) {
        refuse_drawing(FaultCode::not_supported, path, "at least three corners");
    }
    const Extent extent = extent_of(outline);
    if (extent.high.along - extent.low.along < one_inch || extent.high.up - extent.low.up < one_inch) {
        refuse_drawing(FaultCode::does_not_fit, path, "a plane of at least an inch each way");
    }
}

[[nodiscard]] inline std::string slope_in_words(std::string_view name) {
    return in_words(name) + (name == "roof" ? "" : " slope");
}

[[nodiscard]] inline std::string_view surface_in_words(Surface surface) {
    return surface == Surface::chord_top ? "chord tops" : surface == Surface::purlin_top ? "purlin tops" : "deck";
}

/// Title, what is drawn and how it is seen, and the caution in its box.
inline void write_title(Page& page, std::string_view title, const std::string& what, Surface surface) {
    page.paragraph(title, 14.0, true);
    page.paragraph(what + "; figures on the " + std::string{surface_in_words(surface)} +
                       ", seen from outside, eave at the bottom.",
                   10.0);
    page.y += 5.0;
    const double top = page.y;
    page.y += 2.0;
    page.paragraph(drawing_caution, 10.0, true, 5.0);
    page.y += 5.0;
    page.svg.rect({page_margin, top}, page.width - 2.0 * page_margin, page.y - top,
                  R"(fill="none" stroke="#000" stroke-width="1.2")");
    page.y += 5.0;
}

}  // namespace eavewright::detail
