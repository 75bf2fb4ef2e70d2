// SPDX-License-Identifier: BSL-1.0
#pragma once

// A roof as faces over the plan: what every shape is made of before its planes are laid out one by one.
//
// x runs along the main ridge, y from the front to the back, z up from the benchmark. A face is a sloped plane over a
// stretch of the plan; where two faces meet they share an edge in space. Figures are those of the line of the chord tops.

#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// A point of the plan, seen from above.
struct GroundPoint {
    Length x;
    Length y;
    friend constexpr bool operator==(GroundPoint, GroundPoint) = default;
};
template <>
struct FieldsOf<GroundPoint> {
    static constexpr auto list =
        field_list(field("x", FieldUnit::length, "along the ridge", &GroundPoint::x),
                   field("y", FieldUnit::length, "from the front to the back", &GroundPoint::y));
};

/// A plane over the plan: its height at one point, and how it rises from there (rise over run along x and along y).
struct HeightPlane {
    GroundPoint at;
    Length height;
    double rise_x;
    double rise_y;
};
template <>
struct FieldsOf<HeightPlane> {
    static constexpr auto list =
        field_list(field("at", FieldUnit::none, "a point of the plan", &HeightPlane::at),
                   field("height", FieldUnit::length, "its height there", &HeightPlane::height),
                   field("rise_x", FieldUnit::ratio, "rise over run along x", &HeightPlane::rise_x),
                   field("rise_y", FieldUnit::ratio, "rise over run along y", &HeightPlane::rise_y));
};

[[nodiscard]] inline Length height_over(const HeightPlane& plane, GroundPoint p) {
    return plane.height + (p.x - plane.at.x) * plane.rise_x + (p.y - plane.at.y) * plane.rise_y;
}
/// Rise over run straight up the slope.
[[nodiscard]] inline double steepness(const HeightPlane& plane) {
    return std::sqrt(plane.rise_x * plane.rise_x + plane.rise_y * plane.rise_y);
}

/// The edge from one corner of a face to the next.
struct FaceEdge {
    EdgeKind kind;
    std::optional<std::size_t> neighbour{};  ///< the face that shares it in space; none at an eave, a rake or a wall
};
template <>
struct FieldsOf<FaceEdge> {
    static constexpr auto list =
        field_list(field("kind", FieldUnit::none, "what the edge is", &FaceEdge::kind),
                   field("neighbour", FieldUnit::count, "index of the face that shares it, null where none does",
                         &FaceEdge::neighbour));
};

/// One face: its outline in plan counter-clockwise seen from above, edge i from corner i to corner i + 1.
struct RoofFace {
    HeightPlane plane;
    std::vector<GroundPoint> outline;
    std::vector<FaceEdge> edges;
};
template <>
struct FieldsOf<RoofFace> {
    static constexpr auto list =
        field_list(field("plane", FieldUnit::none, "the plane over the plan", &RoofFace::plane),
                   field("outline", FieldUnit::none, "corners in plan, counter-clockwise", &RoofFace::outline),
                   field("edges", FieldUnit::none, "edge from each corner to the next", &RoofFace::edges));
};

[[nodiscard]] inline BuildingPoint corner_of(const RoofFace& face, std::size_t corner) {
    const GroundPoint p = face.outline[corner % face.outline.size()];
    return {p.x, p.y, height_over(face.plane, p)};
}

/// Area inside an outline in plan, positive when counter-clockwise. Summed from its first corner.
[[nodiscard]] inline Area plan_area(const std::vector<GroundPoint>& outline) {
    double twice = 0.0;
    for (std::size_t i = 1; i + 1 < outline.size(); ++i) {
        const GroundPoint o = outline[0];
        const GroundPoint a = outline[i];
        const GroundPoint b = outline[i + 1];
        twice += inches(a.x - o.x) * inches(b.y - o.y) - inches(b.x - o.x) * inches(a.y - o.y);
    }
    return Area::from_value(twice / 2.0);
}

}  // namespace eavewright
