// SPDX-License-Identifier: BSL-1.0
#pragma once

// What every composed shape returns, and how it is made of named bodies.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/compose.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/roof_body.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// A shape laid out over the plan, at the line of the chord tops.
struct ComposedRoof {
    std::vector<RoofBody> bodies;     ///< what it was composed of
    std::vector<RoofFace> faces;      ///< as `compose` gives them
    std::vector<FaceSource> sources;  ///< body and plane of each face
    std::vector<std::string> names;   ///< of the faces: "front", or "front 1", "front 2" from left to right
    std::vector<Length> eaves;        ///< heights of the level eaves at the fascia, each once, lowest first
    std::vector<Length> ridges;       ///< heights of the level ridges, each once, lowest first
    Length highest;                   ///< highest corner of all faces
    Area plan;                        ///< of all faces; where one tier passes over another, both count
};
template <>
struct FieldsOf<ComposedRoof> {
    static constexpr auto list = field_list(
        field("bodies", FieldUnit::none, "what it was composed of", &ComposedRoof::bodies),
        field("faces", FieldUnit::none, "the faces over the plan", &ComposedRoof::faces),
        field("sources", FieldUnit::none, "body and plane of each face", &ComposedRoof::sources),
        field("names", FieldUnit::none, "names of the faces", &ComposedRoof::names),
        field("eaves", FieldUnit::length, "heights of the level eaves, each once, lowest first", &ComposedRoof::eaves),
        field("ridges", FieldUnit::length, "heights of the level ridges, each once, lowest first",
              &ComposedRoof::ridges),
        field("highest", FieldUnit::length, "height of the highest corner", &ComposedRoof::highest),
        field("plan", FieldUnit::area, "plan area of all faces", &ComposedRoof::plan));
};

/// A body whose planes have names.
struct NamedBody {
    RoofBody body;
    std::vector<std::string> names;  ///< one for each plane
};

inline void find_faults(const std::vector<NamedBody>& bodies, const Path& path, Faults& faults) {
    for (std::size_t i = 0; i < bodies.size(); ++i) {
        if (bodies[i].names.size() != bodies[i].body.planes.size()) {
            const Path body{path, i};
            faults.push_back(Fault{FaultCode::contradiction, Path{body, "names"}.text(),
                                   std::to_string(bodies[i].names.size()) + " names",
                                   "one for each of the " + std::to_string(bodies[i].body.planes.size()) + " planes"});
        }
    }
}

namespace detail {
/// Heights that differ by less are one level.
inline constexpr Length one_level = Length::from_inches(1e-6);

/// Sorted, each level once.
inline void keep_levels(std::vector<Length>& heights) {
    std::sort(heights.begin(), heights.end());
    heights.erase(
        std::unique(heights.begin(), heights.end(), [](Length a, Length b) { return magnitude(a - b) < one_level; }),
        heights.end());
}

/// Names of the faces, numbered where a plane has several.
[[nodiscard]] inline std::vector<std::string> face_names(const std::vector<NamedBody>& bodies,
                                                         const std::vector<FaceSource>& sources) {
    std::vector<std::string> names;
    names.reserve(sources.size());
    for (std::size_t i = 0; i < sources.size(); ++i) {
        std::string name = bodies[sources[i].body].names[sources[i].plane];
        const bool first = i == 0 || !(sources[i - 1] == sources[i]);
        std::size_t number = first ? 1 : 2;
        for (std::size_t k = i; k > 1 && sources[k - 1] == sources[i] && sources[k - 2] == sources[i]; --k) {
            ++number;
        }
        if (!first || (i + 1 < sources.size() && sources[i + 1] == sources[i])) {
            name += " " + std::to_string(number);
        }
        names.push_back(std::move(name));
    }
    return names;
}
}  // namespace detail

/// The roof of `bodies`, with names and heights. Faults as `compose`, and contradiction where names are missing.
[[nodiscard]] inline ComposedRoof composed_roof(const std::vector<NamedBody>& bodies) {
    require_sound(bodies, "bodies");
    std::vector<RoofBody> plain;
    plain.reserve(bodies.size());
    for (const NamedBody& body : bodies) {
        plain.push_back(body.body);
    }
    Composition made = compose(plain);
    ComposedRoof roof{.bodies = std::move(plain),
                      .faces = std::move(made.faces),
                      .sources = std::move(made.sources),
                      .names = {},
                      .eaves = {},
                      .ridges = {},
                      .highest = no_length,
                      .plan = Area::from_value(0.0)};
    roof.names = detail::face_names(bodies, roof.sources);
    roof.highest = corner_of(roof.faces.front(), 0).z;
    for (const RoofFace& face : roof.faces) {
        roof.plan += plan_area(face.outline);
        for (std::size_t i = 0; i < face.outline.size(); ++i) {
            const Length height = corner_of(face, i).z;
            roof.highest = longer(roof.highest, height);
            if (face.edges[i].kind == EdgeKind::eave) {
                roof.eaves.push_back(height);
            }
            if (face.edges[i].kind == EdgeKind::ridge) {
                roof.ridges.push_back(height);
            }
        }
    }
    detail::keep_levels(roof.eaves);
    detail::keep_levels(roof.ridges);
    return roof;
}

namespace detail {
/// An upright outline, its sides in the order front, right, back, left.
[[nodiscard]] inline std::vector<GroundPoint> rectangle(GroundPoint low, GroundPoint high) {
    return {low, {high.x, low.y}, high, {low.x, high.y}};
}
/// Planes that have `height` over one line and rise from there: towards the back, the front, the right, the left.
[[nodiscard]] inline HeightPlane rising_back(Length y, Length height, Pitch pitch) {
    return {{no_length, y}, height, 0.0, pitch.rise_per_run()};
}
[[nodiscard]] inline HeightPlane rising_front(Length y, Length height, Pitch pitch) {
    return {{no_length, y}, height, 0.0, -pitch.rise_per_run()};
}
[[nodiscard]] inline HeightPlane rising_right(Length x, Length height, Pitch pitch) {
    return {{x, no_length}, height, pitch.rise_per_run(), 0.0};
}
[[nodiscard]] inline HeightPlane rising_left(Length x, Length height, Pitch pitch) {
    return {{x, no_length}, height, -pitch.rise_per_run(), 0.0};
}
}  // namespace detail

}  // namespace eavewright
