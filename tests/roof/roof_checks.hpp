// SPDX-License-Identifier: BSL-1.0
#pragma once

// What holds for every roof made of faces, checked on the faces alone.

#include <eavewright/roof/roof_face.hpp>

#include "support/printing.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace roof_checks {
using eavewright::BuildingPoint;
using eavewright::EdgeKind;
using eavewright::feet;
using eavewright::GroundPoint;
using eavewright::HeightPlane;
using eavewright::inches;
using eavewright::Length;
using eavewright::RoofFace;
using eavewright::square_inches;
using Faces = std::vector<RoofFace>;

inline double across(GroundPoint o, GroundPoint a, GroundPoint b) {
    return inches(a.x - o.x) * inches(b.y - o.y) - inches(b.x - o.x) * inches(a.y - o.y);
}
inline double distance(GroundPoint a, GroundPoint b) { return inches(hypotenuse(a.x - b.x, a.y - b.y)); }

/// Area of a face's outline in space, by the vector area of its corners, in square inches.
inline double area_in_space(const RoofFace& face) {
    double x = 0.0;
    double y = 0.0;
    double z = 0.0;
    const BuildingPoint o = corner_of(face, 0);
    for (std::size_t i = 1; i + 1 < face.outline.size(); ++i) {
        const BuildingPoint p = corner_of(face, i);
        const BuildingPoint q = corner_of(face, i + 1);
        const double a[3] = {inches(p.x - o.x), inches(p.y - o.y), inches(p.z - o.z)};
        const double b[3] = {inches(q.x - o.x), inches(q.y - o.y), inches(q.z - o.z)};
        x += a[1] * b[2] - a[2] * b[1];
        y += a[2] * b[0] - a[0] * b[2];
        z += a[0] * b[1] - a[1] * b[0];
    }
    return std::sqrt(x * x + y * y + z * z) / 2.0;
}

/// Whether two points lie on both hands of a line, by more than the rounding of its ends: 1e-10 in.
inline bool parts(GroundPoint a, GroundPoint b, GroundPoint one, GroundPoint other) {
    const double left = across(a, b, one) / distance(a, b);
    const double right = across(a, b, other) / distance(a, b);
    return (left > 1e-10 && right < -1e-10) || (left < -1e-10 && right > 1e-10);
}
inline bool is_simple(const std::vector<GroundPoint>& outline) {
    const std::size_t n = outline.size();
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = i + 1; j < n; ++j) {
            const GroundPoint a = outline[i];
            const GroundPoint b = outline[(i + 1) % n];
            const GroundPoint c = outline[j];
            const GroundPoint d = outline[(j + 1) % n];
            if (a == c) {
                return false;
            }
            const bool apart = j != i + 1 && (j + 1) % n != i;
            if (apart && parts(a, b, c, d) && parts(c, d, a, b)) {
                return false;
            }
        }
    }
    return true;
}

/// How far two faces miss one another along their shared edges, in feet; infinite where they do not name one another.
inline double worst_gap(const Faces& faces) {
    double worst = 0.0;
    for (std::size_t f = 0; f < faces.size(); ++f) {
        const RoofFace& face = faces[f];
        for (std::size_t i = 0; i < face.edges.size(); ++i) {
            if (!face.edges[i].neighbour) {
                continue;
            }
            const GroundPoint from = face.outline[i];
            const GroundPoint to = face.outline[(i + 1) % face.outline.size()];
            const RoofFace& other = faces.at(*face.edges[i].neighbour);
            bool found = false;
            for (std::size_t k = 0; k < other.edges.size(); ++k) {
                found = found || (other.outline[k] == to && other.outline[(k + 1) % other.outline.size()] == from &&
                                  other.edges[k].neighbour == f && other.edges[k].kind == face.edges[i].kind);
            }
            if (!found) {
                return HUGE_VAL;
            }
            for (const GroundPoint p : {from, to}) {
                worst = std::max(worst, std::fabs(feet(height_over(face.plane, p) - height_over(other.plane, p))));
            }
        }
    }
    return worst;
}

/// What every roof of faces shows: each outline simple and counter-clockwise, edges shared both ways and met in space
/// within `gap_ft`, plan areas that add up to `plan`, and the area in space that the pitch makes of the plan area.
inline void check_faces(const Faces& faces, eavewright::Area plan, double gap_ft = 1e-9) {
    double sum = 0.0;
    for (const RoofFace& face : faces) {
        REQUIRE(face.outline.size() >= 3);
        REQUIRE(face.edges.size() == face.outline.size());
        CHECK(is_simple(face.outline));
        const double own = square_inches(plan_area(face.outline));
        CHECK(own > 0.0);
        sum += own;
        const double cosine = 1.0 / std::sqrt(1.0 + steepness(face.plane) * steepness(face.plane));
        CHECK(std::fabs(area_in_space(face) * cosine - own) <= 1e-9 * square_inches(plan));
    }
    CHECK(std::fabs(sum - square_inches(plan)) <= 1e-10 * square_inches(plan));
    CHECK(worst_gap(faces) <= gap_ft);
}

inline bool is_inside(const std::vector<GroundPoint>& outline, GroundPoint p) {
    bool inside = false;
    const std::size_t n = outline.size();
    for (std::size_t i = 0; i < n; ++i) {
        const GroundPoint a = outline[i];
        const GroundPoint b = outline[(i + 1) % n];
        if ((a.y > p.y) != (b.y > p.y) && (across(a, b, p) > 0.0) == (b.y > a.y)) {
            inside = !inside;
        }
    }
    return inside;
}
inline std::optional<std::size_t> face_over(const Faces& faces, GroundPoint p) {
    for (std::size_t f = 0; f < faces.size(); ++f) {
        if (is_inside(faces[f].outline, p)) {
            return f;
        }
    }
    return std::nullopt;
}

/// Water on a roof: straight down each face, over edges that fall on, along valleys, from node to node.
class Walker {
public:
    explicit Walker(const Faces& faces) : faces_{faces} {}

    /// The kind of edge at which the way down from `p` leaves the roof; none where it does not.
    std::optional<EdgeKind> walk_down(GroundPoint p) {
        std::optional<std::size_t> face = face_over(faces_, p);
        for (int step = 0; step < 400 && face; ++step) {
            const std::optional<Exit> exit = leave(*face, p);
            if (!exit) {
                return std::nullopt;
            }
            const RoofFace& here = faces_[*face];
            const eavewright::FaceEdge edge = here.edges[exit->edge];
            if (!edge.neighbour) {
                return edge.kind;
            }
            p = exit->at;
            const GroundPoint a = here.outline[exit->edge];
            const GroundPoint b = here.outline[(exit->edge + 1) % here.outline.size()];
            const bool at_end = distance(p, a) < close || distance(p, b) < close;
            if (!at_end && falls_right(faces_[*edge.neighbour].plane, a, b)) {
                face = edge.neighbour;
                continue;
            }
            const GroundPoint low = height_over(here.plane, a) < height_over(here.plane, b) ? a : b;
            p = at_end ? (distance(p, a) < close ? a : b) : low;
            const std::optional<EdgeKind> end = go_on(p, face);
            if (end) {
                return end;
            }
        }
        return std::nullopt;
    }

private:
    static constexpr double close = 1e-6;  // inches
    struct Exit {
        std::size_t edge;
        GroundPoint at;
    };

    static bool falls_right(const HeightPlane& plane, GroundPoint a, GroundPoint b) {
        return inches(b.x - a.x) * -plane.rise_y - inches(b.y - a.y) * -plane.rise_x < 0.0;
    }
    /// Where the way straight down a face leaves it.
    std::optional<Exit> leave(std::size_t f, GroundPoint p) const {
        const RoofFace& face = faces_[f];
        const double dx = -face.plane.rise_x;
        const double dy = -face.plane.rise_y;
        std::optional<Exit> exit;
        double least = HUGE_VAL;
        for (std::size_t i = 0; i < face.outline.size(); ++i) {
            const GroundPoint a = face.outline[i];
            const GroundPoint b = face.outline[(i + 1) % face.outline.size()];
            const double ex = inches(b.x - a.x);
            const double ey = inches(b.y - a.y);
            const double out = -(ex * dy - ey * dx);
            if (!(out > 1e-12 * distance(a, b))) {
                continue;
            }
            const double reach = (ex * inches(p.y - a.y) - ey * inches(p.x - a.x)) / out;
            const GroundPoint q{p.x + eavewright::one_inch * (dx * reach), p.y + eavewright::one_inch * (dy * reach)};
            const double share = (inches(q.x - a.x) * ex + inches(q.y - a.y) * ey) / (ex * ex + ey * ey);
            const double slack = close / distance(a, b);
            if (reach > -close && reach < least && share > -slack && share < 1.0 + slack) {
                least = reach;
                exit = Exit{i, q};
            }
        }
        return exit;
    }
    /// From a node: onto the face or along the edge that falls most; the kind of an eave where it stands on one.
    std::optional<EdgeKind> go_on(GroundPoint& p, std::optional<std::size_t>& face) const {
        for (int step = 0; step < 100; ++step) {
            double most = 0.0;
            std::optional<std::size_t> onto;
            std::optional<GroundPoint> along;
            for (std::size_t f = 0; f < faces_.size(); ++f) {
                const RoofFace& here = faces_[f];
                const std::size_t n = here.outline.size();
                for (std::size_t i = 0; i < n; ++i) {
                    if (!(here.outline[i] == p)) {
                        continue;
                    }
                    const std::size_t before = (i + n - 1) % n;
                    for (const std::size_t e : {before, i}) {
                        if (here.edges[e].kind == EdgeKind::eave) {
                            return EdgeKind::eave;
                        }
                        const GroundPoint other = here.outline[e == i ? (i + 1) % n : before];
                        const double fall = (height_over(here.plane, p) - height_over(here.plane, other)) /
                                            (eavewright::one_inch * distance(p, other));
                        if (fall > most + 1e-12) {
                            most = fall;
                            onto.reset();
                            along = other;
                        }
                    }
                    const bool inner = in_wedge(here.plane, here.outline[before], p, here.outline[(i + 1) % n]);
                    if (inner && steepness(here.plane) > most + 1e-12) {
                        most = steepness(here.plane);
                        onto = f;
                        along.reset();
                    }
                }
            }
            if (onto) {
                face = onto;
                return std::nullopt;
            }
            if (!along) {
                face.reset();
                return std::nullopt;
            }
            p = *along;
        }
        face.reset();
        return std::nullopt;
    }
    /// Whether straight down points into the corner of a face.
    static bool in_wedge(const HeightPlane& plane, GroundPoint before, GroundPoint at, GroundPoint after) {
        const double dx = -plane.rise_x;
        const double dy = -plane.rise_y;
        const double left_of_out = inches(after.x - at.x) * dy - inches(after.y - at.y) * dx;
        const double left_of_in = inches(at.x - before.x) * dy - inches(at.y - before.y) * dx;
        const bool bulges = across(before, at, after) >= 0.0;
        return bulges ? left_of_out > 0.0 && left_of_in > 0.0 : left_of_out > 0.0 || left_of_in > 0.0;
    }

    const Faces& faces_;
};
}  // namespace roof_checks
