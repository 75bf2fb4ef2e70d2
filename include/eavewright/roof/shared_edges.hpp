// SPDX-License-Identifier: BSL-1.0
#pragma once

// The edges that two faces share, each once: what lies along hips, valleys and ridges is counted from them.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// An edge in space between two faces, or of one alone.
struct SharedEdge {
    std::size_t face;                      ///< index of the first of the two
    std::size_t edge;                      ///< from this corner of it to the next
    std::optional<std::size_t> neighbour;  ///< none where one face alone has it
    Length length;                         ///< in space
};
template <>
struct FieldsOf<SharedEdge> {
    static constexpr auto list = field_list(
        field("face", FieldUnit::count, "index of the first face", &SharedEdge::face),
        field("edge", FieldUnit::count, "from this corner of it to the next", &SharedEdge::edge),
        field("neighbour", FieldUnit::count, "index of the other face, null for none", &SharedEdge::neighbour),
        field("length", FieldUnit::length, "in space", &SharedEdge::length));
};

/// The edges of one kind, in the order of the faces; one that two faces share is named by the first of them. Lengths are
/// those of the faces' surface. Throws contradiction where a face has not an edge for each corner.
[[nodiscard]] inline std::vector<SharedEdge> shared_edges(const std::vector<RoofFace>& faces, EdgeKind kind) {
    std::vector<SharedEdge> shared;
    for (std::size_t f = 0; f < faces.size(); ++f) {
        const RoofFace& face = faces[f];
        if (face.edges.size() != face.outline.size()) {
            throw FaultError{Fault{FaultCode::contradiction, "faces[" + std::to_string(f) + "].edges",
                                   std::to_string(face.edges.size()) + " edges", "one for each corner"}};
        }
        for (std::size_t e = 0; e < face.edges.size(); ++e) {
            const std::optional<std::size_t> neighbour = face.edges[e].neighbour;
            if (face.edges[e].kind == kind && (!neighbour || *neighbour > f)) {
                const BuildingPoint a = corner_of(face, e);
                const BuildingPoint b = corner_of(face, e + 1);
                shared.push_back({f, e, neighbour, hypotenuse(hypotenuse(b.x - a.x, b.y - a.y), b.z - a.z)});
            }
        }
    }
    return shared;
}

}  // namespace eavewright
