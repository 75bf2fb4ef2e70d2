// SPDX-License-Identifier: BSL-1.0
#pragma once

// The roof over a footprint: a face for every eave, meeting in hips, valleys and ridges.
//
// With one pitch all round the edges between the faces are the footprint's straight skeleton; with pitches of their own
// and gables, the weighted one. Both come from moving the eaves inward and up (wavefront.hpp).

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/face_edges.hpp>
#include <eavewright/roof/footprint.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/roof/wavefront.hpp>
#include <eavewright/roof/wavefront_contacts.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

/// An edge between two faces, or between a face and a gable.
struct FootprintArc {
    EdgeKind kind;
    std::size_t from;  ///< index of the node it starts at
    std::size_t to;
    std::optional<std::size_t> left;  ///< index of the face left of it, seen from above; none at a gable
    std::optional<std::size_t> right;
};
template <>
struct FieldsOf<FootprintArc> {
    static constexpr auto list = field_list(
        field("kind", FieldUnit::none, "what the edge is", &FootprintArc::kind),
        field("from", FieldUnit::count, "index of the node it starts at", &FootprintArc::from),
        field("to", FieldUnit::count, "index of the node it ends at", &FootprintArc::to),
        field("left", FieldUnit::count, "index of the face left of it, null at a gable", &FootprintArc::left),
        field("right", FieldUnit::count, "index of the face right of it, null at a gable", &FootprintArc::right));
};

/// The roof over a footprint.
///
/// Faces stand in the order of their first sides, each outline beginning at that side's eave. Sides in one line share a
/// face where their roofs run into one another. Two faces share the same two nodes along an edge, bit for bit, so a
/// node that lies on the straight edge of a face is a corner of its outline.
struct FootprintRoof {
    std::vector<RoofFace> faces;
    std::vector<std::optional<std::size_t>> face_of_side;  ///< none for a gable
    std::vector<BuildingPoint> nodes;                      ///< the corners of the footprint first, in their order
    std::vector<FootprintArc> arcs;                        ///< every edge but the eaves
    Length highest;                                        ///< of all nodes
    Area plan;                                             ///< of the footprint
    Length widest_miss;  ///< largest height between a node and the planes that meet there
};
template <>
struct FieldsOf<FootprintRoof> {
    static constexpr auto list = field_list(
        field("faces", FieldUnit::none, "the planes over the plan", &FootprintRoof::faces),
        field("face_of_side", FieldUnit::count, "index of the face at each side, null at a gable",
              &FootprintRoof::face_of_side),
        field("nodes", FieldUnit::none, "corners of the footprint, then where edges meet", &FootprintRoof::nodes),
        field("arcs", FieldUnit::none, "every edge but the eaves", &FootprintRoof::arcs),
        field("highest", FieldUnit::length, "height of the highest node", &FootprintRoof::highest),
        field("plan", FieldUnit::area, "area of the footprint", &FootprintRoof::plan),
        field("widest_miss", FieldUnit::length, "largest height between a node and the planes that meet there",
              &FootprintRoof::widest_miss));
};

namespace detail {
/// One edge of a face: the face lies on its left.
struct FaceHalf {
    std::size_t from;
    std::size_t to;
    std::size_t line;                  ///< of the face's sides
    std::optional<std::size_t> side;   ///< at an eave
    std::optional<std::size_t> other;  ///< the half on its right; none at an eave or a gable
    std::optional<std::size_t> face;   ///< once it is known
};

/// Eaves first, then both halves of every arc; those of gables left out.
[[nodiscard]] inline std::vector<FaceHalf> halves_of(const Wavefront& wave) {
    std::vector<FaceHalf> halves;
    const std::size_t n = wave.sides.size();
    for (std::size_t i = 0; i < n; ++i) {
        if (wave.sides[i].speed > 0.0) {
            halves.push_back({i, (i + 1) % n, wave.sides[i].line, i, {}, {}});
        }
    }
    for (const WaveArc& arc : wave.arcs) {
        const bool left = wave.sides[arc.left].speed > 0.0;
        const bool right = wave.sides[arc.right].speed > 0.0;
        const std::size_t next = halves.size();
        if (left) {
            halves.push_back({arc.from, arc.to, wave.sides[arc.left].line, {}, {}, {}});
        }
        if (right) {
            halves.push_back({arc.to, arc.from, wave.sides[arc.right].line, {}, {}, {}});
        }
        if (left && right) {
            halves[next].other = next + 1;
            halves[next + 1].other = next;
        }
    }
    return halves;
}

/// The half that an outline goes on with: of those of its line that start where it ends, the sharpest turn left.
[[nodiscard]] inline std::optional<std::size_t> next_half(const Wavefront& wave, const std::vector<FaceHalf>& halves,
                                                          std::size_t half) {
    const auto direction = [&](std::size_t from, std::size_t to) { return wave.nodes[to].at - wave.nodes[from].at; };
    std::optional<std::size_t> best;
    double least = 0.0;
    for (std::size_t k = 0; k < halves.size(); ++k) {
        if (halves[k].from != halves[half].to || halves[k].line != halves[half].line || halves[k].face) {
            continue;
        }
        const double turn =
            clockwise_turn(direction(halves[half].to, halves[half].from), direction(halves[k].from, halves[k].to));
        if (!best || turn < least) {
            best = k;
            least = turn;
        }
    }
    return best;
}

/// The halves of every face in order around it; each half learns its face.
[[nodiscard]] inline std::vector<std::vector<std::size_t>> trace_faces(const Wavefront& wave,
                                                                       std::vector<FaceHalf>& halves) {
    std::vector<std::vector<std::size_t>> faces;
    for (std::size_t first = 0; first < halves.size(); ++first) {
        if (halves[first].face) {
            continue;
        }
        std::vector<std::size_t> ring;
        std::optional<std::size_t> next = first;
        while (next && (ring.empty() || halves[*next].from != halves[first].from)) {
            halves[*next].face = faces.size();
            ring.push_back(*next);
            next = halves[*next].to == halves[first].from ? first : next_half(wave, halves, *next);
        }
        if (!next || !halves[first].side) {
            throw TooFine{};
        }
        faces.push_back(std::move(ring));
    }
    return faces;
}

[[nodiscard]] inline HeightPlane plane_over_side(const Footprint& plan, const Wavefront& wave, std::size_t side) {
    const double rise = std::get<SlopedSide>(plan.sides[side]).pitch.rise_per_run();
    const PlanVector in = inward(wave.sides[side]);
    return {plan.corners[side], plan.eave_height, rise * in.x, rise * in.y};
}

[[nodiscard]] inline std::vector<BuildingPoint> building_nodes(const Footprint& plan, const Wavefront& wave) {
    double pitch = 0.0;  // that offsets are counted with: of the first sloped side
    for (std::size_t i = plan.sides.size(); i-- > 0;) {
        const SlopedSide* sloped = std::get_if<SlopedSide>(&plan.sides[i]);
        pitch = sloped != nullptr ? sloped->pitch.rise_per_run() : pitch;
    }
    std::vector<BuildingPoint> nodes;
    for (std::size_t i = 0; i < wave.nodes.size(); ++i) {
        const GroundPoint first = plan.corners.front();
        const WaveNode& node = wave.nodes[i];
        const GroundPoint at = i < plan.corners.size()
                                   ? plan.corners[i]
                                   : GroundPoint{first.x + one_inch * node.at.x, first.y + one_inch * node.at.y};
        nodes.push_back({at.x, at.y, plan.eave_height + one_inch * node.offset * pitch});
    }
    return nodes;
}

[[nodiscard]] inline GroundPoint ground_of(const BuildingPoint& point) { return {point.x, point.y}; }

/// Kind of the edge along `half`, which is no eave, once every half knows its face.
[[nodiscard]] inline EdgeKind kind_of_half(const FootprintRoof& roof, const std::vector<FaceHalf>& halves,
                                           std::size_t half) {
    const FaceHalf& own = halves[half];
    const HeightPlane& plane = roof.faces[*own.face].plane;
    const GroundPoint from = ground_of(roof.nodes[own.from]);
    const GroundPoint to = ground_of(roof.nodes[own.to]);
    if (own.other) {
        return classify_edge(plane, roof.faces[*halves[*own.other].face].plane, from, to);
    }
    return is_level(plane, from, to) ? EdgeKind::high_eave : EdgeKind::rake;
}

inline void take_edges(FootprintRoof& roof, const std::vector<FaceHalf>& halves,
                       const std::vector<std::vector<std::size_t>>& rings) {
    for (std::size_t face = 0; face < rings.size(); ++face) {
        for (const std::size_t half : rings[face]) {
            const std::optional<std::size_t> other = halves[half].other;
            const EdgeKind kind = halves[half].side ? EdgeKind::eave : kind_of_half(roof, halves, half);
            roof.faces[face].edges.push_back({kind, other ? halves[*other].face : std::optional<std::size_t>{}});
        }
    }
    for (std::size_t half = 0; half < halves.size(); ++half) {
        const FaceHalf& own = halves[half];
        if (own.side) {
            roof.face_of_side[*own.side] = own.face;
        } else if (!own.other || *own.other > half) {
            roof.arcs.push_back({kind_of_half(roof, halves, half), own.from, own.to, own.face,
                                 own.other ? halves[*own.other].face : std::optional<std::size_t>{}});
        }
    }
}

/// True where two stretches cross by more than the rounding of their ends.
[[nodiscard]] inline bool stretches_cross(GroundPoint a, GroundPoint b, GroundPoint c, GroundPoint d) {
    const auto parts = [](GroundPoint from, GroundPoint to, GroundPoint one, GroundPoint other) {
        const PlanVector along = way(from, to);
        const double rounding = 1e-11 * size_of(along);  // inches off the line
        const double left = cross(along, way(from, one));
        const double right = cross(along, way(from, other));
        return (left > rounding && right < -rounding) || (left < -rounding && right > rounding);
    };
    return parts(a, b, c, d) && parts(c, d, a, b);
}
/// Shortest edge between two faces: one that is shorter has a direction of rounding alone.
inline constexpr Length shortest_arc = Length::from_inches(1e-6);

/// True where an outline meets itself, or has an edge too short to tell.
[[nodiscard]] inline bool meets_itself(const std::vector<GroundPoint>& outline) {
    const std::size_t n = outline.size();
    for (std::size_t i = 0; i < n; ++i) {
        const GroundPoint next = outline[(i + 1) % n];
        if (!(hypotenuse(next.x - outline[i].x, next.y - outline[i].y) > shortest_arc)) {
            return true;
        }
        for (std::size_t j = i + 2; j < n; ++j) {
            if ((j + 1) % n != i && stretches_cross(outline[i], outline[i + 1], outline[j], outline[(j + 1) % n])) {
                return true;
            }
        }
    }
    return false;
}
/// Every face counter-clockwise and meeting itself nowhere, all of them together the footprint, and no miss wider than
/// documented.
[[nodiscard]] inline bool closes(const FootprintRoof& roof) {
    double sum = 0.0;
    double steepest = 0.0;
    for (const RoofFace& face : roof.faces) {
        const double rise = steepness(face.plane);
        steepest = rise > steepest ? rise : steepest;
        const double area = square_inches(plan_area(face.outline));
        if (!(area > 0.0) || meets_itself(face.outline)) {
            return false;
        }
        sum += area;
    }
    return std::fabs(sum - square_inches(roof.plan)) <= 1e-10 * square_inches(roof.plan) &&
           inches(roof.widest_miss) <= closeness.back() * (1.0 + steepest);
}

[[nodiscard]] inline FootprintRoof roof_at(const Footprint& plan, double one_place) {
    const Wavefront wave = run_wavefront(plan, one_place);
    std::vector<FaceHalf> halves = halves_of(wave);
    const std::vector<std::vector<std::size_t>> rings = trace_faces(wave, halves);
    FootprintRoof roof{{},
                       std::vector<std::optional<std::size_t>>(plan.sides.size()),
                       building_nodes(plan, wave),
                       {},
                       plan.eave_height,
                       plan_area(plan.corners),
                       no_length};
    for (const std::vector<std::size_t>& ring : rings) {
        RoofFace face{plane_over_side(plan, wave, *halves[ring.front()].side), {}, {}};
        for (const std::size_t half : ring) {
            const BuildingPoint& node = roof.nodes[halves[half].from];
            face.outline.push_back(ground_of(node));
            const Length miss = magnitude(height_over(face.plane, ground_of(node)) - node.z);
            roof.widest_miss = longer(roof.widest_miss, miss);
        }
        roof.faces.push_back(std::move(face));
    }
    take_edges(roof, halves, rings);
    for (const BuildingPoint& node : roof.nodes) {
        roof.highest = longer(roof.highest, node.z);
    }
    return roof;
}
}  // namespace detail

/// The roof over `plan`, a pure function.
///
/// Faces meet in space within 1e-9 ft at pitches up to 24 in 12. Only where sides are parallel or in line, or edges
/// meet in a point, to less than a thousandth of an inch but not to rounding, are such places taken as one and the miss
/// is larger: `widest_miss` says how large, at most 1e-4 in times one plus the steepest rise over run.
///
/// A gable has no face: the faces beside it end there in a rake, or in a high eave where that end is level. Throws
/// `FaultError`: the first fault of `plan`; contradiction, naming both, where two sides with pitches of their own come
/// to run on in one line, so that either could take the roof from there; not_supported where no closeness closes the
/// roof.
[[nodiscard]] inline FootprintRoof roof_over(const Footprint& plan) {
    require_sound(plan, "footprint");
    for (const double one_place : detail::closeness) {
        try {
            FootprintRoof roof = detail::roof_at(plan, one_place);
            if (detail::closes(roof)) {
                return roof;
            }
        } catch (const detail::TooFine&) {
            continue;
        }
    }
    throw FaultError{Fault{FaultCode::not_supported, "footprint.corners", "corners that meet almost but not quite",
                           "an outline whose edges and corners meet exactly or stay well apart"}};
}

}  // namespace eavewright
