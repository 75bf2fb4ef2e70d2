// SPDX-License-Identifier: BSL-1.0
#pragma once

// From a face over the plan to a plane in its own coordinates, on each of the three surfaces.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/compose.hpp>
#include <eavewright/roof/composed_roof.hpp>
#include <eavewright/roof/footprint.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/roof_body.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// A face on its three surfaces, tails plumb: the fascia line is the same on all of them.
struct FacePlanes {
    std::string name;
    ChordPlane chord;
    PurlinPlane purlin;
    DeckPlane deck;
};
template <>
struct FieldsOf<FacePlanes> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "name of the face", &FacePlanes::name),
                   field("chord", FieldUnit::none, "the plane of the chord tops", &FacePlanes::chord),
                   field("purlin", FieldUnit::none, "the plane of the purlin tops", &FacePlanes::purlin),
                   field("deck", FieldUnit::none, "the plane of the deck top", &FacePlanes::deck));
};

namespace detail {
/// Unit vector up the slope in plan; for a level face square to its first edge, inward.
[[nodiscard]] inline PlanVector way_up(const RoofFace& face, std::size_t first) {
    const double steep = steepness(face.plane);
    if (steep > level_slope) {
        return PlanVector{face.plane.rise_x, face.plane.rise_y} * (1.0 / steep);
    }
    const PlanVector edge = as_vector(face.outline[(first + 1) % face.outline.size()]) - as_vector(face.outline[first]);
    return PlanVector{-edge.y, edge.x} * (1.0 / size_of(edge));
}
inline void require_face(const RoofFace& face) {
    if (face.outline.size() < 3 || face.edges.size() != face.outline.size()) {
        throw FaultError{
            Fault{FaultCode::contradiction, "face.edges",
                  std::to_string(face.outline.size()) + " corners, " + std::to_string(face.edges.size()) + " edges",
                  "at least 3 corners, and an edge from each"}};
    }
    Faults faults;
    find_plane_faults(face.plane, Path{"face.plane"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
}
}  // namespace detail

/// `face` in its own coordinates: along its eave, to the right when facing up the slope, and up the slope.
///
/// The outline begins at the left end of the longest eave, where along and up are 0. Where no eave is level (a triangle that
/// hangs between valleys, the upper plane of a gambrel) both are 0 at the lowest corner, the leftmost of several. Kinds
/// of edges go along. `building_point` gives every corner back to 1e-9 ft. Throws `FaultError`: contradiction for an
/// outline that is none, out_of_range for a plane beyond the limits of a `RoofBody`.
template <Surface surface>
[[nodiscard]] Plane<surface> plane_of(const RoofFace& face) {
    detail::require_face(face);
    const std::size_t n = face.outline.size();
    const std::size_t first = detail::first_corner(face);
    const detail::PlanVector up = detail::way_up(face, first);
    const detail::PlanVector along{up.y, -up.x};
    const Pitch pitch = Pitch::in_12(12.0 * steepness(face.plane));
    Plane<surface> plane{.pitch = pitch,
                         .outline = {},
                         .edges = {},
                         .openings = {},
                         .placement = {corner_of(face, first), along.x, along.y}};
    for (std::size_t k = 0; k < n; ++k) {
        const std::size_t i = (first + k) % n;
        const detail::PlanVector off = detail::as_vector(face.outline[i]) - detail::as_vector(face.outline[first]);
        plane.outline.push_back(
            {one_inch * detail::dot(along, off), pitch.slope_over(one_inch * detail::dot(up, off))});
        plane.edges.push_back(face.edges[i].kind);
    }
    if (plane.edges[0] == EdgeKind::eave && magnitude(plane.outline[1].up) < count_tolerance) {
        plane.outline[1].up = no_length;  // the eave's own line, which rounding of the turn had left by 1e-14 in
    }
    return plane;
}
/// The plane of the chord tops.
[[nodiscard]] inline ChordPlane plane_of(const RoofFace& face) { return plane_of<Surface::chord_top>(face); }

/// The bodies with every plane raised plumb so that it lies `depth` above, square to its own slope.
/// Throws out_of_range unless 0 <= depth <= 8 ft.
[[nodiscard]] inline std::vector<RoofBody> raised(std::vector<RoofBody> bodies, Length depth) {
    Faults faults;
    require_within(depth, no_length, 2.0 * deepest_layer, Path{"depth"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
    for (RoofBody& body : bodies) {
        for (HeightPlane& plane : body.planes) {
            plane.height += depth * std::sqrt(1.0 + plane.rise_x * plane.rise_x + plane.rise_y * plane.rise_y);
        }
    }
    return bodies;
}

namespace detail {
/// Between faces of one plane that stand side by side: where they touch in a point, or part.
[[nodiscard]] inline std::vector<Seam> seams_between(const ComposedRoof& roof) {
    std::vector<Seam> seams;
    for (std::size_t f = 0; f + 1 < roof.faces.size(); ++f) {
        if (!(roof.sources[f] == roof.sources[f + 1])) {
            continue;
        }
        const PlanVector up = up_slope(roof.faces[f].plane);
        PlanVector right = as_vector(roof.faces[f].outline.front());  // end of the one on the left
        PlanVector left = as_vector(roof.faces[f + 1].outline.front());
        for (const GroundPoint p : roof.faces[f].outline) {
            right = cross(up, as_vector(p) - right) < 0.0 ? as_vector(p) : right;
        }
        for (const GroundPoint p : roof.faces[f + 1].outline) {
            left = cross(up, as_vector(p) - left) > 0.0 ? as_vector(p) : left;
        }
        if (cross(up, left - right) <= one_node_in) {
            seams.push_back({roof.sources[f], (left + right) * 0.5});
        }
    }
    return seams;
}

/// The faces of a raised surface, which must be those of the chord tops.
[[nodiscard]] inline std::vector<RoofFace> raised_faces(const ComposedRoof& roof, Length depth, Surface surface) {
    if (depth == no_length) {
        return roof.faces;
    }
    const std::vector<RoofBody> bodies = raised(roof.bodies, depth);
    Composition made = compose(bodies);
    if (made.sources.size() < roof.sources.size()) {
        // Faces that touched in a point have grown together there.
        made = compose_with_seams(bodies, seams_between(roof));
    }
    if (made.sources != roof.sources) {
        throw FaultError{Fault{FaultCode::not_supported, "build_up",
                               std::to_string(made.sources.size()) + " faces of " + std::string{name_of(surface)},
                               "a build-up on which the " + std::to_string(roof.sources.size()) +
                                   " faces of the chord tops stay the same ones"}};
    }
    return std::move(made.faces);
}
}  // namespace detail

/// Every face on its three surfaces, in the order of the faces.
///
/// Every plane is raised plumb by the depth of its layers times its slope factor and the roof composed anew, the fascia
/// lines staying where they are in plan. With equal pitches hips, valleys and ridges rise plumb; with unequal ones they move
/// towards the flatter plane or away from it, and at a hip's foot the steeper plane, raised by more, ends on a short rake
/// over the flatter one's fascia. Ridges of one height over unequal pitches come apart; where two faces of one plane that
/// met in a point would then grow together, they stay apart along a short pitch break. Throws `FaultError`: the first
/// fault of `build_up`; not_supported where a raised surface has other faces than the chord tops.
[[nodiscard]] inline std::vector<FacePlanes> planes_of(const ComposedRoof& roof, const BuildUp& build_up) {
    require_sound(build_up, "build_up");
    const std::vector<RoofFace> purlin = detail::raised_faces(roof, build_up.purlin, Surface::purlin_top);
    const std::vector<RoofFace> deck = detail::raised_faces(roof, build_up.purlin + build_up.deck, Surface::deck_top);
    std::vector<FacePlanes> planes;
    for (std::size_t i = 0; i < roof.faces.size(); ++i) {
        planes.push_back({roof.names[i], plane_of<Surface::chord_top>(roof.faces[i]),
                          plane_of<Surface::purlin_top>(purlin[i]), plane_of<Surface::deck_top>(deck[i])});
    }
    return planes;
}

}  // namespace eavewright
