// SPDX-License-Identifier: BSL-1.0
#pragma once

// From bodies to what of them shows from above, in convex pieces, and from those to outlines.

#include <eavewright/fault.hpp>
#include <eavewright/roof/convex_pieces.hpp>
#include <eavewright/roof/footprint.hpp>
#include <eavewright/roof/merge_pieces.hpp>
#include <eavewright/roof/roof_body.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace eavewright::detail {
/// Two planes that differ by less than this over a tier are one; two faces that do along an edge share it.
inline constexpr double one_height_in = 1e-8;
/// A step between faces is higher than this.
inline constexpr double least_step_in = 1e-6;
/// Planes whose slopes differ by less do not cross within a building.
inline constexpr double one_slope = 1e-6;
/// Most cuts that open faces with holes.
inline constexpr std::size_t most_hole_cuts = 64;

[[nodiscard]] inline double height_at(const HeightPlane& plane, PlanVector p) {
    return inches(plane.height) + (p.x - inches(plane.at.x)) * plane.rise_x + (p.y - inches(plane.at.y)) * plane.rise_y;
}
[[nodiscard]] constexpr PlanVector as_vector(GroundPoint p) { return {inches(p.x), inches(p.y)}; }
[[nodiscard]] inline GroundPoint as_ground(PlanVector p) { return {one_inch * p.x, one_inch * p.y}; }

/// How far inside the stretch where `own` is lower than `other` a point lies; planes that do not cross say which.
struct LowerThan {
    const HeightPlane& own;
    const HeightPlane& other;
    double slope;
    double sense;  ///< for parallel planes
    LowerThan(const HeightPlane& a, const HeightPlane& b, PlanVector near_by)
        : own{a},
          other{b},
          slope{size_of(PlanVector{a.rise_x - b.rise_x, a.rise_y - b.rise_y})},
          sense{height_at(a, near_by) < height_at(b, near_by) ? 1.0 : -1.0} {}
    [[nodiscard]] double operator()(PlanVector p) const {
        return slope < one_slope ? sense : (height_at(other, p) - height_at(own, p)) / slope;
    }
};

/// A plane of a tier, told apart from all others.
struct LabelledPlane {
    HeightPlane plane;
    FaceSource source;
};

/// One tier on its way from bodies to faces.
struct Tier {
    std::vector<std::size_t> bodies;
    std::vector<LabelledPlane> planes;
    std::vector<std::vector<std::size_t>> labels;  ///< for each of the bodies, of its planes
    std::vector<Piece> pieces;
};

[[nodiscard]] inline bool is_one_plane(const HeightPlane& a, const HeightPlane& b, const PlanBox& over) {
    const PlanVector corners[] = {over.low, {over.high.x, over.low.y}, over.high, {over.low.x, over.high.y}};
    return std::all_of(std::begin(corners), std::end(corners),
                       [&](PlanVector p) { return std::fabs(height_at(a, p) - height_at(b, p)) <= one_height_in; });
}

[[nodiscard]] inline std::vector<PlanVector> outline_of(const RoofBody& body) {
    std::vector<PlanVector> outline;
    outline.reserve(body.footprint.size());
    for (const GroundPoint p : body.footprint) {
        outline.push_back(as_vector(p));
    }
    return outline;
}

inline void label_planes(const std::vector<RoofBody>& bodies, Tier& tier) {
    std::vector<PlanVector> all;
    for (const std::size_t b : tier.bodies) {
        const std::vector<PlanVector> outline = outline_of(bodies[b]);
        all.insert(all.end(), outline.begin(), outline.end());
    }
    const PlanBox box = box_of(all);
    for (const std::size_t b : tier.bodies) {
        std::vector<std::size_t> labels;
        for (std::size_t i = 0; i < bodies[b].planes.size(); ++i) {
            const HeightPlane& plane = bodies[b].planes[i];
            std::size_t label = 0;
            while (label < tier.planes.size() && !is_one_plane(tier.planes[label].plane, plane, box)) {
                ++label;
            }
            if (label == tier.planes.size()) {
                tier.planes.push_back({plane, {b, i}});
            }
            labels.push_back(label);
        }
        tier.labels.push_back(std::move(labels));
    }
}

/// The body's own surface: every plane over the stretch where it is the least.
inline void add_body(const RoofBody& body, std::size_t index, const std::vector<std::size_t>& labels,
                     const std::vector<LabelledPlane>& planes, std::vector<Piece>& pieces) {
    std::vector<Convex> parts;
    add_convex_parts(outline_of(body), parts);
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (std::find(labels.begin(), labels.begin() + static_cast<std::ptrdiff_t>(i), labels[i]) !=
            labels.begin() + static_cast<std::ptrdiff_t>(i)) {
            continue;
        }
        for (const Convex& part : parts) {
            Convex piece = part;
            for (std::size_t j = 0; j < labels.size() && piece.size() >= 3; ++j) {
                if (labels[j] != labels[i]) {
                    piece = cut(piece, LowerThan{planes[labels[i]].plane, planes[labels[j]].plane, piece.front()}).kept;
                }
            }
            if (piece.size() >= 3) {
                pieces.push_back({std::move(piece), labels[i], index});
            }
        }
    }
}

/// The part of `piece` that `over`, of another body, covers.
[[nodiscard]] inline Convex covered_part(const Piece& piece, const Piece& over, const Convex& rest,
                                         const std::vector<LabelledPlane>& planes) {
    if (piece.label == over.label && piece.body < over.body) {
        return {};
    }
    Convex covered = common_part(rest, over.corners);
    if (piece.label != over.label && covered.size() >= 3) {
        covered = cut(covered, LowerThan{planes[piece.label].plane, planes[over.label].plane, covered.front()}).kept;
    }
    return has_area(covered) ? covered : Convex{};
}

/// What of the bodies shows from above.
[[nodiscard]] inline std::vector<Piece> visible_pieces(const std::vector<Piece>& pieces,
                                                       const std::vector<LabelledPlane>& planes) {
    std::vector<PlanBox> boxes;
    boxes.reserve(pieces.size());
    for (const Piece& piece : pieces) {
        boxes.push_back(box_of(piece.corners));
    }
    std::vector<Piece> visible;
    visible.reserve(4 * pieces.size());
    std::vector<Convex> left;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        std::vector<Convex> rest{pieces[i].corners};
        for (std::size_t k = 0; k < pieces.size(); ++k) {
            if (pieces[k].body == pieces[i].body || are_apart(boxes[i], boxes[k])) {
                continue;
            }
            left.clear();
            for (Convex& part : rest) {
                const Convex covered = covered_part(pieces[i], pieces[k], part, planes);
                if (covered.empty()) {
                    left.push_back(std::move(part));
                } else {
                    take_out(std::move(part), covered, left);
                }
            }
            rest.swap(left);
        }
        for (Convex& part : rest) {
            visible.push_back({std::move(part), pieces[i].label, pieces[i].body});
        }
        if (visible.size() > most_face_pieces) {
            throw FaultError{Fault{FaultCode::too_much_work, "bodies", std::to_string(visible.size()) + " pieces",
                                   "at most " + std::to_string(most_face_pieces)}};
        }
    }
    return visible;
}

/// Unit vector up the slope in plan; the way to the back for a level plane.
[[nodiscard]] inline PlanVector up_slope(const HeightPlane& plane) {
    const double steep = steepness(plane);
    return steep > one_slope ? PlanVector{plane.rise_x, plane.rise_y} * (1.0 / steep) : PlanVector{0.0, 1.0};
}

/// Cuts a plane straight up the slope through `at`: what lies right of the cut counts as a plane of its own.
inline void cut_plane(std::size_t label, PlanVector at, Tier& tier) {
    const PlanVector up = up_slope(tier.planes[label].plane);
    const std::size_t right_label = tier.planes.size();
    tier.planes.push_back(tier.planes[label]);
    std::vector<Piece> pieces;
    pieces.reserve(2 * tier.pieces.size());
    for (const Piece& piece : tier.pieces) {
        if (piece.label != label) {
            pieces.push_back(piece);
            continue;
        }
        const Halves halves = cut(piece.corners, LeftOf{at, at + up});
        if (halves.kept.size() >= 3) {
            pieces.push_back({halves.kept, label, piece.body});
        }
        if (halves.rest.size() >= 3) {
            pieces.push_back({halves.rest, right_label, piece.body});
        }
    }
    tier.pieces = std::move(pieces);
}

/// Opens a face with a hole: a cut through the middle of the hole.
inline void open_hole(const Ring& hole, const std::vector<PlanVector>& nodes, Tier& tier) {
    const PlanVector up = up_slope(tier.planes[hole.label].plane);
    PlanVector leftmost = nodes[hole.nodes.front()];
    PlanVector rightmost = leftmost;
    for (const std::size_t node : hole.nodes) {
        leftmost = cross(up, nodes[node] - leftmost) > 0.0 ? nodes[node] : leftmost;
        rightmost = cross(up, nodes[node] - rightmost) < 0.0 ? nodes[node] : rightmost;
    }
    cut_plane(hole.label, (leftmost + rightmost) * 0.5, tier);
}

/// A cut that is asked for: through the faces of one source, straight up the slope.
struct Seam {
    FaceSource source;
    PlanVector at;
};
/// Cuts along the seams of the tier, the rightmost of a plane first, so that each still finds its plane under its first
/// label.
inline void cut_seams(std::vector<Seam> seams, Tier& tier) {
    const std::size_t planes = tier.planes.size();
    for (std::size_t label = 0; label < planes; ++label) {
        const PlanVector up = up_slope(tier.planes[label].plane);
        std::sort(seams.begin(), seams.end(),
                  [&](const Seam& a, const Seam& b) { return cross(up, a.at) < cross(up, b.at); });
        for (const Seam& seam : seams) {
            if (seam.source == tier.planes[label].source) {
                cut_plane(label, seam.at, tier);
            }
        }
    }
}

/// The outlines of a tier.
struct Outlines {
    std::vector<PlanVector> nodes;
    std::vector<Ring> rings;
};

/// Rings in the order of their sources, those of one plane from left to right, then up the slope.
inline void order_rings(const std::vector<LabelledPlane>& planes, Outlines& merged) {
    struct Place {
        FaceSource source;
        double left;
        double low;
        std::size_t ring;
    };
    std::vector<Place> places;
    for (std::size_t r = 0; r < merged.rings.size(); ++r) {
        const HeightPlane& plane = planes[merged.rings[r].label].plane;
        const PlanVector up = up_slope(plane);
        Place place{planes[merged.rings[r].label].source, 0.0, 0.0, r};
        for (std::size_t i = 0; i < merged.rings[r].nodes.size(); ++i) {
            const PlanVector p = merged.nodes[merged.rings[r].nodes[i]];
            const double left = -cross(up, p);
            place.left = i == 0 || left < place.left ? left : place.left;
            place.low = i == 0 || dot(up, p) < place.low ? dot(up, p) : place.low;
        }
        places.push_back(place);
    }
    std::sort(places.begin(), places.end(), [](const Place& a, const Place& b) {
        return std::tie(a.source.body, a.source.plane, a.left, a.low, a.ring) <
               std::tie(b.source.body, b.source.plane, b.left, b.low, b.ring);
    });
    std::vector<Ring> rings;
    rings.reserve(places.size());
    for (const Place& place : places) {
        rings.push_back(std::move(merged.rings[place.ring]));
    }
    merged.rings = std::move(rings);
}

/// Pieces to outlines without holes.
[[nodiscard]] inline Outlines merge_tier(Tier& tier) {
    for (std::size_t cuts = 0; cuts <= most_hole_cuts; ++cuts) {
        Outlines merged;
        const std::vector<HalfEdge> edges = outer_edges(tier.pieces, merged.nodes);
        merged.rings = rings_of(edges, merged.nodes);
        const auto hole = std::find_if(merged.rings.begin(), merged.rings.end(), [&](const Ring& ring) {
            return ring.nodes.size() > 2 && twice_area(ring.nodes, merged.nodes) < 0.0;
        });
        if (hole == merged.rings.end()) {
            order_rings(tier.planes, merged);
            return merged;
        }
        open_hole(*hole, merged.nodes, tier);
    }
    refuse_composition("too many faces with holes");
}

}  // namespace eavewright::detail
