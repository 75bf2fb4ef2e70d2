// SPDX-License-Identifier: BSL-1.0
#pragma once

// What roofs are composed of: bodies, each a stretch of the plan under the least of its planes.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/footprint.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// Most bodies of a roof, planes of a body, and convex pieces on the way to its faces; more is too_much_work.
inline constexpr std::size_t most_bodies = 16;
inline constexpr std::size_t most_body_planes = 12;
inline constexpr std::size_t most_face_pieces = 2000;
/// Steepest plane of a body, rise over run: 120 in 12.
inline constexpr double steepest_body_plane = 10.0;

/// A stretch of the plan and the planes over it: its height is the least of theirs.
struct RoofBody {
    /// Outline of its fascias in plan, as the corners of a `Footprint`.
    std::vector<GroundPoint> footprint;
    std::vector<HeightPlane> planes;
    std::vector<std::size_t> wall_edges{};  ///< sides of the footprint (i from corner i) that lie against a wall
    /// Bodies of one tier make one surface, each showing where it is the highest. Tiers pass over one another.
    std::size_t tier = 0;
};

template <>
struct FieldsOf<RoofBody> {
    static constexpr auto list = field_list(
        field("footprint", FieldUnit::none, "outline of its fascias in plan", &RoofBody::footprint),
        field("planes", FieldUnit::none, "the planes over it, the least of which is its height", &RoofBody::planes),
        field("wall_edges", FieldUnit::count, "sides of the footprint that lie against a wall", &RoofBody::wall_edges),
        field("tier", FieldUnit::count, "which of the surfaces that pass over one another", &RoofBody::tier));
};

/// Where a face comes from: the first body, and its plane, that holds the face's plane.
struct FaceSource {
    std::size_t body;
    std::size_t plane;
    friend constexpr bool operator==(FaceSource, FaceSource) = default;
};
template <>
struct FieldsOf<FaceSource> {
    static constexpr auto list = field_list(field("body", FieldUnit::count, "index of the body", &FaceSource::body),
                                            field("plane", FieldUnit::count, "index of its plane", &FaceSource::plane));
};

namespace detail {
inline void find_plane_faults(const HeightPlane& plane, const Path& path, Faults& faults) {
    const Path at{path, "at"};
    require_within(plane.at.x, -footprint_limit, footprint_limit, Path{at, "x"}, faults);
    require_within(plane.at.y, -footprint_limit, footprint_limit, Path{at, "y"}, faults);
    require_within(plane.height, -greatest_height, greatest_height, Path{path, "height"}, faults);
    const double steep = steepness(plane);
    if (!(steep <= steepest_body_plane)) {
        faults.push_back(Fault{std::isfinite(steep) ? FaultCode::out_of_range : FaultCode::not_finite, path.text(),
                               write_decimal(12.0 * steep, 6) + " in 12",
                               "at most " + write_decimal(12.0 * steepest_body_plane, 0) + " in 12"});
    }
}
}  // namespace detail

inline void find_faults(const RoofBody& body, const Path& path, Faults& faults) {
    const std::size_t n = body.footprint.size();
    const Footprint outline{body.footprint, std::vector<Side>(n, SlopedSide{Pitch::from_degrees(45.0)}), no_length};
    find_faults(outline, Path{path, "footprint"}, faults);
    const Path planes{path, "planes"};
    if (body.planes.empty() || body.planes.size() > most_body_planes) {
        faults.push_back(Fault{body.planes.empty() ? FaultCode::out_of_range : FaultCode::too_much_work, planes.text(),
                               std::to_string(body.planes.size()) + " planes",
                               "1 to " + std::to_string(most_body_planes) + " planes"});
    }
    for (std::size_t i = 0; i < body.planes.size(); ++i) {
        detail::find_plane_faults(body.planes[i], Path{planes, i}, faults);
    }
    const Path walls{path, "wall_edges"};
    for (std::size_t i = 0; i < body.wall_edges.size(); ++i) {
        if (body.wall_edges[i] >= n) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{walls, i}.text(), std::to_string(body.wall_edges[i]),
                                   "the index of a side of the footprint"});
        }
    }
}
inline void find_faults(const std::vector<RoofBody>& bodies, const Path& path, Faults& faults) {
    if (bodies.empty() || bodies.size() > most_bodies) {
        faults.push_back(Fault{bodies.empty() ? FaultCode::out_of_range : FaultCode::too_much_work, path.text(),
                               std::to_string(bodies.size()) + " bodies",
                               "1 to " + std::to_string(most_bodies) + " bodies"});
    }
    for (std::size_t i = 0; i < bodies.size(); ++i) {
        find_faults(bodies[i], Path{path, i}, faults);
    }
}

}  // namespace eavewright
