// SPDX-License-Identifier: BSL-1.0

// What holds for every composed shape, over random buildings: faces that meet in space, tile the plan, stand at the heights
// their inputs give, shed water to an eave, and lie flat in coordinates of their own.

#include <eavewright/roof/face_planes.hpp>

#include "roof/random_roofs.hpp"
#include "support/printing.hpp"
#include "support/refusal.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <optional>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
struct Spot {
    double x, y;
};
Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.y + b.y}; }
Spot operator*(Spot a, double f) { return {a.x * f, a.y * f}; }
double cross_of(Spot a, Spot b) { return a.x * b.y - a.y * b.x; }
double dot_of(Spot a, Spot b) { return a.x * b.x + a.y * b.y; }
double size_of_spot(Spot a) { return std::sqrt(dot_of(a, a)); }
Spot spot(const RoofFace& face, std::size_t i) {
    const GroundPoint p = face.outline[i % face.outline.size()];
    return {inches(p.x), inches(p.y)};
}
Spot downhill(const RoofFace& face) {
    const double steep = steepness(face.plane);
    return {-face.plane.rise_x / steep, -face.plane.rise_y / steep};
}
double height_of(const RoofFace& face, Spot p) {
    return inches(height_over(face.plane, {one_inch * p.x, one_inch * p.y}));
}
bool holds(const RoofFace& face, Spot p) {
    bool inside = false;
    for (std::size_t i = 0; i < face.outline.size(); ++i) {
        const Spot a = spot(face, i);
        const Spot b = spot(face, i + 1);
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) {
            inside = !inside;
        }
    }
    return inside;
}

/// Both faces of a shared edge: the same ends in plan, bit for bit, and within 1e-9 ft in space.
/// Returns how many edges are not what they should be.
int wrong_edges(const std::vector<RoofFace>& faces) {
    int wrong = 0;
    for (std::size_t f = 0; f < faces.size(); ++f) {
        const std::size_t n = faces[f].outline.size();
        wrong += faces[f].edges.size() != n || !(square_inches(plan_area(faces[f].outline)) > 0.0);
        for (std::size_t i = 0; i < n; ++i) {
            const FaceEdge& edge = faces[f].edges[i];
            const bool free = edge.kind == EdgeKind::eave || edge.kind == EdgeKind::rake ||
                              edge.kind == EdgeKind::high_eave || edge.kind == EdgeKind::wall;
            if (free || !edge.neighbour) {
                wrong += free != !edge.neighbour;
                continue;
            }
            const RoofFace& other = faces[*edge.neighbour];
            int found = 0;
            for (std::size_t k = 0; k < other.outline.size(); ++k) {
                if (other.outline[k] == faces[f].outline[(i + 1) % n] &&
                    other.outline[(k + 1) % other.outline.size()] == faces[f].outline[i]) {
                    found += other.edges[k].kind == edge.kind && other.edges[k].neighbour == f &&
                             feet(magnitude(corner_of(other, k).z - corner_of(faces[f], i + 1).z)) < 1e-9 &&
                             feet(magnitude(corner_of(other, k + 1).z - corner_of(faces[f], i).z)) < 1e-9;
                }
            }
            wrong += found != 1;
        }
    }
    return wrong;
}

/// A drop of water on the roof: a face, or a corner where faces meet.
class Drop {
public:
    Drop(const std::vector<RoofFace>& faces, std::size_t face, Spot at) : faces_{faces}, face_{face}, at_{at} {}

    /// True where it comes to an eave.
    bool reaches_eave() {
        for (int step = 0; step < 200; ++step) {
            const std::optional<bool> end = flow();
            if (end) {
                return *end;
            }
        }
        return false;
    }

private:
    std::optional<bool> flow() {
        const RoofFace& face = faces_[face_];
        const Spot down = downhill(face);
        std::size_t hit = 0;
        double least = 1e18;
        for (std::size_t i = 0; i < face.outline.size(); ++i) {
            const Spot a = spot(face, i);
            const Spot edge = spot(face, i + 1) - a;
            const double outward = -cross_of(edge, down) / size_of_spot(edge);
            if (outward < 1e-9) {
                continue;
            }
            const double way = cross_of(edge, at_ - a) / size_of_spot(edge) / outward;
            const double along = dot_of(edge, at_ + down * way - a) / size_of_spot(edge);
            if (way > -1e-6 && way < least && along > -1e-6 && along < size_of_spot(edge) + 1e-6) {
                least = way;
                hit = i;
            }
        }
        if (least > 1e17) {
            return false;
        }
        at_ = at_ + down * least;
        return cross_edge(face, hit);
    }

    std::optional<bool> cross_edge(const RoofFace& face, std::size_t i) {
        const FaceEdge& edge = face.edges[i];
        if (!edge.neighbour) {
            return edge.kind == EdgeKind::eave;
        }
        const Spot a = spot(face, i);
        const Spot b = spot(face, i + 1);
        const bool at_a = size_of_spot(at_ - a) < 1e-6;
        if (at_a || size_of_spot(at_ - b) < 1e-6) {
            return leave_corner(at_a ? a : b);
        }
        const RoofFace& next = faces_[*edge.neighbour];
        if (cross_of(b - a, downhill(next)) < -1e-9 * size_of_spot(b - a)) {
            face_ = *edge.neighbour;
            return std::nullopt;
        }
        // Both fall to the edge: down the valley to its lower end.
        if (height_of(face, a) == height_of(face, b)) {
            return false;
        }
        return leave_corner(height_of(face, a) < height_of(face, b) ? a : b);
    }

    /// From a corner down the steepest face that falls away inside itself, or down a valley.
    std::optional<bool> leave_corner(Spot corner) {
        double steepest = 1e-9;
        std::optional<Spot> valley_end;
        std::size_t fall = faces_.size();
        for (std::size_t f = 0; f < faces_.size(); ++f) {
            for (std::size_t i = 0; i < faces_[f].outline.size(); ++i) {
                const std::size_t n = faces_[f].outline.size();
                if (size_of_spot(spot(faces_[f], i) - corner) > 1e-9) {
                    continue;
                }
                if (faces_[f].edges[i].kind == EdgeKind::eave ||
                    faces_[f].edges[(i + n - 1) % n].kind == EdgeKind::eave) {
                    return true;
                }
                const Spot out = spot(faces_[f], i + 1) - corner;
                const Spot in = spot(faces_[f], i + n - 1) - corner;
                const Spot down = downhill(faces_[f]);
                const double slope =
                    (height_of(faces_[f], corner) - height_of(faces_[f], corner + out)) / size_of_spot(out);
                if (slope > steepest) {
                    steepest = slope;
                    valley_end = corner + out;
                    fall = faces_.size();
                }
                const bool wide = cross_of(out, in) < 0.0;
                const bool left_of_out = cross_of(out, down) > 1e-9 * size_of_spot(out);
                const bool right_of_in = cross_of(down, in) > 1e-9 * size_of_spot(in);
                const bool inside = wide ? left_of_out || right_of_in : left_of_out && right_of_in;
                if (inside && steepness(faces_[f].plane) > steepest) {
                    steepest = steepness(faces_[f].plane);
                    fall = f;
                }
            }
        }
        if (fall < faces_.size()) {
            face_ = fall;
            at_ = corner + downhill(faces_[fall]) * 1e-5;
            return std::nullopt;
        }
        return valley_end ? leave_corner(*valley_end) : std::optional{false};
    }

    const std::vector<RoofFace>& faces_;
    std::size_t face_;
    Spot at_;
};

/// Drops let fall on every face: how many do not come to an eave. Each tier on its own.
int lost_drops(const ComposedRoof& roof, SeededNumbers& random) {
    int lost = 0;
    for (std::size_t tier = 0; tier < 2; ++tier) {
        std::vector<RoofFace> faces;
        const auto in_tier = [&](std::size_t f) { return roof.bodies[roof.sources[f].body].tier == tier; };
        std::size_t first = 0;
        while (first < roof.faces.size() && !in_tier(first)) {
            ++first;
        }
        for (std::size_t f = first; f < roof.faces.size() && in_tier(f); ++f) {
            faces.push_back(roof.faces[f]);
            for (FaceEdge& edge : faces.back().edges) {
                if (edge.neighbour) {
                    *edge.neighbour -= first;
                }
            }
        }
        for (std::size_t f = 0; f < faces.size(); ++f) {
            const Spot a = spot(faces[f], 0);
            const Spot b = spot(faces[f], 1);
            for (std::size_t k = 2; k < faces[f].outline.size(); ++k) {
                const double share = random.between(0.05, 0.95);
                const double up = random.between(0.05, 0.95);
                const Spot p = a * (1 - up) + (b * (1 - share) + spot(faces[f], k) * share) * up;
                lost += holds(faces[f], p) && !Drop{faces, f, p}.reaches_eave();
            }
        }
    }
    return lost;
}

/// Planes laid flat: corners come back in space, area times cosine is the plan area.
template <Surface surface>
double worst_flat(const std::vector<RoofFace>& faces) {
    double worst = 0.0;
    for (const RoofFace& face : faces) {
        const Plane<surface> plane = plane_of<surface>(face);
        std::size_t first = 0;
        for (std::size_t i = 0; i < face.outline.size(); ++i) {
            const BuildingPoint at = building_point(plane, plane.outline[0]);
            const BuildingPoint corner = corner_of(face, i);
            if (off_by(at.x, corner.x) + off_by(at.y, corner.y) < 1e-6) {
                first = i;
            }
        }
        for (std::size_t i = 0; i < face.outline.size(); ++i) {
            const BuildingPoint at = building_point(plane, plane.outline[i]);
            const BuildingPoint corner = corner_of(face, first + i);
            worst = std::max({worst, off_by(at.x, corner.x), off_by(at.y, corner.y), off_by(at.z, corner.z)});
            worst = std::max(worst, plane.edges[i] == face.edges[(first + i) % face.outline.size()].kind ? 0.0 : 1.0);
        }
        const double plan = square_inches(plan_area(face.outline));
        worst = std::max(worst, std::fabs(square_inches(net_area(plane)) * plane.pitch.cosine() / plan - 1.0));
    }
    return worst;
}
}  // namespace

TEST_CASE("every composed shape over random buildings: edges, plan, heights, water, planes") {
    SeededNumbers random{20261125};
    for (const drawn::Kind& kind : drawn::kinds()) {
        CAPTURE(kind.name);
        for (int i = 0; i < sweep(10000); ++i) {
            CAPTURE(i);
            const DrawnRoof drawn = kind.draw(random);
            REQUIRE(wrong_edges(drawn.roof.faces) == 0);
            // The faces tile the plan; tiers overlap by what `overlap` says.
            REQUIRE(std::fabs(square_inches(drawn.roof.plan) / drawn.plan - 1.0) < 1e-9);
            REQUIRE(std::fabs(inches(drawn.roof.highest) - drawn.highest) < 1e-8);
            std::vector<double> eaves;
            for (const double eave : drawn.eaves) {
                if (eaves.empty() || eave - eaves.back() > 1e-6) {
                    eaves.push_back(eave);
                }
            }
            REQUIRE(drawn.roof.eaves.size() == eaves.size());
            for (std::size_t k = 0; k < eaves.size(); ++k) {
                REQUIRE(std::fabs(inches(drawn.roof.eaves[k]) - eaves[k]) < 1e-8);
            }
            REQUIRE(lost_drops(drawn.roof, random) == 0);
            REQUIRE(worst_flat<Surface::chord_top>(drawn.roof.faces) < 1e-8);  // in; 1e-9 ft is 1.2e-8 in
        }
    }
}

TEST_CASE("tiers overlap by the overhang: what is covered twice is what passes over") {
    SeededNumbers random{77};
    for (const drawn::Kind& kind : drawn::kinds()) {
        CAPTURE(kind.name);
        for (int i = 0; i < sweep(300); ++i) {
            const DrawnRoof drawn = kind.draw(random);
            // Points on a grid: the faces over each, by tier, and the share of the plan that two tiers cover.
            double low_x = 1e9, low_y = 1e9, high_x = -1e9, high_y = -1e9;
            for (const RoofFace& face : drawn.roof.faces) {
                for (std::size_t k = 0; k < face.outline.size(); ++k) {
                    const Spot p = spot(face, k);
                    low_x = std::min(low_x, p.x), low_y = std::min(low_y, p.y);
                    high_x = std::max(high_x, p.x), high_y = std::max(high_y, p.y);
                }
            }
            const int steps = 40;
            int twice = 0;
            bool one_a_tier = true;
            for (int k = 0; k < steps * steps; ++k) {
                const Spot p{low_x + (high_x - low_x) * (k % steps + random.between(0, 1)) / steps,
                             low_y + (high_y - low_y) * (k / steps + random.between(0, 1)) / steps};
                int over[2] = {0, 0};
                for (std::size_t f = 0; f < drawn.roof.faces.size(); ++f) {
                    over[drawn.roof.bodies[drawn.roof.sources[f].body].tier] += holds(drawn.roof.faces[f], p);
                }
                one_a_tier = one_a_tier && over[0] <= 1 && over[1] <= 1;
                twice += over[0] > 0 && over[1] > 0;
            }
            CHECK(one_a_tier);
            const double box = (high_x - low_x) * (high_y - low_y);
            // Points fall into cells: the count strays by the cells on the boundary of the overlap only.
            CHECK(std::fabs(twice * box / (steps * steps) - drawn.overlap) < 0.03 * box);
        }
    }
}

TEST_CASE("raised surfaces: each plane its depth above the chord tops, the fascia line kept") {
    SeededNumbers random{20261126};
    for (const drawn::Kind& kind : drawn::kinds()) {
        CAPTURE(kind.name);
        for (int i = 0; i < sweep(2000); ++i) {
            const DrawnRoof drawn = kind.draw(random);
            const BuildUp layers{random.inches_between(0.5, 6), random.inches_between(0, 1.5)};
            const std::vector<FacePlanes> planes = planes_of(drawn.roof, layers);
            REQUIRE(planes.size() == drawn.roof.faces.size());
            REQUIRE(wrong_edges(compose(raised(drawn.roof.bodies, layers.purlin)).faces) == 0);
            double plan = 0.0;
            for (std::size_t f = 0; f < planes.size(); ++f) {
                const HeightPlane& chord = drawn.roof.faces[f].plane;
                const double cosine = 1.0 / std::sqrt(1.0 + steepness(chord) * steepness(chord));
                const auto check_depth = [&](const auto& plane, Length depth) {
                    for (const PlanePoint& corner : plane.outline) {
                        const BuildingPoint at = building_point(plane, corner);
                        const double above = inches(at.z - height_over(chord, {at.x, at.y})) * cosine;
                        REQUIRE(std::fabs(above - inches(depth)) < 1e-8);
                    }
                };
                check_depth(planes[f].purlin, layers.purlin);
                check_depth(planes[f].deck, layers.purlin + layers.deck);
                plan += square_inches(net_area(planes[f].deck)) * planes[f].deck.pitch.cosine();
            }
            REQUIRE(std::fabs(plan / drawn.plan - 1.0) < 1e-9);
        }
    }
}
