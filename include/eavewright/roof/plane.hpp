// SPDX-License-Identifier: BSL-1.0
#pragma once

// A roof plane in its own coordinates, and where it stands in the building.
//
// Along runs with the eave, to the right for somebody who stands outside and faces up the slope; up runs up the slope,
// square to along, measured on the surface. Which surface that is stands in the type:
//
//                        ___---  deck_top      underside of steel or shingles
//                  ___---___---  purlin_top    underside of the sheets
//            ___---___---______  chord_top     top edge of truss chord or rafter
//      ___---___---
//     |  fascia's outer face: up = 0 of every surface with a plumb tail
//
// The surfaces are parallel, apart by the depth of the layer between them, measured square to the slope.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/building_point.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// A point on a roof plane. Not convertible to a building point: only `building_point` knows where a plane stands.
struct PlanePoint {
    Length along;  ///< along the eave, to the right when facing up the slope
    Length up;     ///< up the slope, on the surface
    friend constexpr bool operator==(PlanePoint, PlanePoint) = default;
};

/// Which of the parallel surfaces a plane is.
enum class Surface { chord_top, purlin_top, deck_top };
template <>
struct NamesOf<Surface> {
    static constexpr std::array<std::string_view, 3> list{"chord_top", "purlin_top", "deck_top"};
};

/// What an edge of a plane is.
enum class EdgeKind { eave, rake, ridge, hip, valley, pitch_break, wall, high_eave };
template <>
struct NamesOf<EdgeKind> {
    static constexpr std::array<std::string_view, 8> list{"eave",   "rake",        "ridge", "hip",
                                                          "valley", "pitch_break", "wall",  "high_eave"};
};

/// Where a plane stands: its origin, and the direction of along in plan (a unit vector).
struct Placement {
    BuildingPoint origin;
    double along_x;
    double along_y;
};

/// A roof plane: outline counter-clockwise as seen from outside, edge i from corner i to corner i + 1.
template <Surface surface>
struct Plane {
    Pitch pitch;
    std::vector<PlanePoint> outline;
    std::vector<EdgeKind> edges;
    std::vector<std::vector<PlanePoint>> openings;
    Placement placement;
};
using ChordPlane = Plane<Surface::chord_top>;
using PurlinPlane = Plane<Surface::purlin_top>;
using DeckPlane = Plane<Surface::deck_top>;

template <Surface surface>
void find_faults(const Plane<surface>& plane, const Path& path, Faults& faults) {
    const Length most = Length::from_inches(length_limit_in);
    const Path outline{path, "outline"};
    for (std::size_t i = 0; i < plane.outline.size(); ++i) {
        const Path corner{outline, i};
        require_within(plane.outline[i].along, -most, most, Path{corner, "along"}, faults);
        require_within(plane.outline[i].up, -most, most, Path{corner, "up"}, faults);
    }
}

template <>
struct FieldsOf<PlanePoint> {
    static constexpr auto list = field_list(field("along", FieldUnit::length, "along the eave", &PlanePoint::along),
                                            field("up", FieldUnit::length, "up the slope", &PlanePoint::up));
};
template <>
struct FieldsOf<Placement> {
    static constexpr auto list =
        field_list(field("origin", FieldUnit::none, "the plane's origin in the building", &Placement::origin),
                   field("along_x", FieldUnit::ratio, "direction of along in plan, its x", &Placement::along_x),
                   field("along_y", FieldUnit::ratio, "direction of along in plan, its y", &Placement::along_y));
};
template <Surface surface>
struct FieldsOf<Plane<surface>> {
    static constexpr auto list = field_list(
        field(
            "surface", FieldUnit::none, "which of the parallel surfaces it is",
            +[](const Plane<surface>&) { return surface; }),
        field("pitch_in_12", FieldUnit::ratio, "inches of rise in 12 of run", &Plane<surface>::pitch),
        field("outline", FieldUnit::length, "corners counter-clockwise, from the eave's left",
              &Plane<surface>::outline),
        field("edges", FieldUnit::none, "kind of the edge from each corner to the next", &Plane<surface>::edges),
        field("openings", FieldUnit::length, "outlines of openings", &Plane<surface>::openings),
        field("placement", FieldUnit::none, "where it stands in the building", &Plane<surface>::placement));
};

/// Smallest and largest along and up of an outline.
struct Extent {
    PlanePoint low;
    PlanePoint high;
};

/// The extent of an outline of at least one point.
[[nodiscard]] inline Extent extent_of(const std::vector<PlanePoint>& outline) {
    Extent extent{outline.front(), outline.front()};
    for (const PlanePoint& p : outline) {
        extent.low = {shorter(extent.low.along, p.along), shorter(extent.low.up, p.up)};
        extent.high = {longer(extent.high.along, p.along), longer(extent.high.up, p.up)};
    }
    return extent;
}

/// Area inside an outline, positive when counter-clockwise. Summed from its first corner, so that a plane far from
/// the origin loses no digits.
[[nodiscard]] inline Area signed_area(const std::vector<PlanePoint>& outline) {
    double twice = 0.0;
    for (std::size_t i = 1; i + 1 < outline.size(); ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[i + 1];
        const PlanePoint o = outline.front();
        twice += inches(a.along - o.along) * inches(b.up - o.up) - inches(b.along - o.along) * inches(a.up - o.up);
    }
    return Area::from_value(twice / 2.0);
}

/// Length of the edge from corner `edge` of an outline to the next.
[[nodiscard]] inline Length edge_length(const std::vector<PlanePoint>& outline, std::size_t edge) {
    const PlanePoint a = outline[edge];
    const PlanePoint b = outline[(edge + 1) % outline.size()];
    return hypotenuse(b.along - a.along, b.up - a.up);
}

/// Surface area of a plane without its openings.
template <Surface surface>
[[nodiscard]] Area net_area(const Plane<surface>& plane) {
    double area = square_inches(signed_area(plane.outline));
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        area -= std::fabs(square_inches(signed_area(opening)));
    }
    return Area::from_value(area);
}

/// The place of a point of the plane in the building.
template <Surface surface>
[[nodiscard]] BuildingPoint building_point(const Plane<surface>& plane, PlanePoint point) {
    const Placement& at = plane.placement;
    const Length run = point.up * plane.pitch.cosine();
    return {at.origin.x + point.along * at.along_x - run * at.along_y,
            at.origin.y + point.along * at.along_y + run * at.along_x, at.origin.z + point.up * plane.pitch.sine()};
}

/// A stretch of an axis; empty where high < low.
struct Span {
    Length low;
    Length high;
};
template <>
struct FieldsOf<Span> {
    static constexpr auto list = field_list(field("low", FieldUnit::length, "where it begins", &Span::low),
                                            field("high", FieldUnit::length, "where it ends", &Span::high));
};

namespace detail {
/// The part of a convex outline on the line where `cross(point) == at`, in terms of `main(point)`.
template <class Main, class Cross>
[[nodiscard]] Span convex_span(const std::vector<PlanePoint>& outline, Length at, Main main, Cross cross) {
    Span span{Length::from_inches(length_limit_in), Length::from_inches(-length_limit_in)};
    const auto take = [&](Length value) { span = {shorter(span.low, value), longer(span.high, value)}; };
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[(i + 1) % outline.size()];
        const Length ca = cross(a);
        const Length cb = cross(b);
        if (ca == at) {
            take(main(a));
        }
        if ((ca < at && at < cb) || (cb < at && at < ca)) {
            take(main(a) + (main(b) - main(a)) * ((at - ca) / (cb - ca)));
        }
    }
    return span;
}
}  // namespace detail

/// From where to where a convex outline reaches up the slope at `along`.
[[nodiscard]] inline Span up_span(const std::vector<PlanePoint>& outline, Length along) {
    return detail::convex_span(
        outline, along, [](PlanePoint p) { return p.up; }, [](PlanePoint p) { return p.along; });
}
/// From where to where a convex outline reaches along the eave at height `up`.
[[nodiscard]] inline Span along_span(const std::vector<PlanePoint>& outline, Length up) {
    return detail::convex_span(
        outline, up, [](PlanePoint p) { return p.along; }, [](PlanePoint p) { return p.up; });
}

/// Counter-clockwise with some area, no corner turning right (and none that is not a number).
[[nodiscard]] inline bool is_convex(const std::vector<PlanePoint>& outline) {
    const std::size_t n = outline.size();
    if (n < 3 || !(square_inches(signed_area(outline)) > 0.0)) {
        return false;
    }
    for (std::size_t i = 0; i < n; ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[(i + 1) % n];
        const PlanePoint c = outline[(i + 2) % n];
        const double turn =
            inches(b.along - a.along) * inches(c.up - b.up) - inches(c.along - b.along) * inches(b.up - a.up);
        if (!(turn >= 0.0)) {
            return false;
        }
    }
    return true;
}

namespace detail {
/// What rows and sheets ask of a plane: finite, convex, four corners, the first two of them the eave, on up = 0.
template <Surface surface>
void require_four_sided(const Plane<surface>& plane) {
    require_sound(plane, "plane");
    const std::vector<PlanePoint>& outline = plane.outline;
    const auto refuse = [](const std::string& given, const char* required) {
        throw FaultError{Fault{FaultCode::not_supported, "plane.outline", given, required}};
    };
    if (outline.size() != 4 || !is_convex(outline)) {
        refuse(std::to_string(outline.size()) + " corners", "a convex plane of four corners");
    }
    if (outline[0].up != no_length || outline[1].up != no_length) {
        refuse(describe_length(longer(outline[0].up, outline[1].up)), "an eave on up = 0");
    }
    const Length ridge = shorter(outline[2].up, outline[3].up);
    if (!(ridge > count_tolerance)) {
        refuse(describe_length(ridge), "a ridge above the eave");
    }
}
}  // namespace detail

}  // namespace eavewright
