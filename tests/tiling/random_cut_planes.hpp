// SPDX-License-Identifier: BSL-1.0
#pragma once

// Random planes of any outline with openings: faces of roofs over footprints, and outlines that no roof has.

#include <eavewright/roof/face_planes.hpp>
#include <eavewright/roof/footprint_roof.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/tiling/lay_cut_panels.hpp>

#include "cut_panel_planes.hpp"
#include "roof/footprints.hpp"
#include "support/seeded_numbers.hpp"

#include <cstddef>
#include <utility>
#include <vector>

namespace cut_planes {
/// With a few openings where there is room.
inline PurlinPlane with_openings(PurlinPlane plane, SeededNumbers& random, int tries) {
    using namespace eavewright;
    const Extent extent = extent_of(plane.outline);
    for (int i = 0; i < tries; ++i) {
        const OpeningOnSlope opening{{random.inches_between(inches(extent.low.along), inches(extent.high.along)),
                                      random.inches_between(inches(extent.low.up), inches(extent.high.up))},
                                     random.inches_between(6, 60),
                                     random.inches_between(6, 60)};
        try {
            plane = add_opening(plane, opening, one_inch);
        } catch (const FaultError&) {
            continue;  // no room there
        }
    }
    return plane;
}

/// Faces of a random roof over a footprint: hips, valleys, ridges, gables, convex or not.
inline std::vector<PurlinPlane> random_faces(SeededNumbers& random) {
    using namespace eavewright;
    const bool whole = random.coin();
    footprints::Corners corners;
    switch (random.whole(0, 6)) {
        case 0: corners = footprints::rectangle(random.whole(12, 50), random.whole(12, 50)); break;
        case 1: corners = footprints::l_plan(random, whole); break;
        case 2: corners = footprints::t_plan(random, whole); break;
        case 3: corners = footprints::u_plan(random, whole); break;
        case 4: corners = footprints::cross_plan(random, whole); break;
        case 5: corners = footprints::convex(random, random.whole(4, 7)); break;
        default: corners = footprints::star(random, random.whole(5, 8)); break;
    }
    std::vector<double> pitches;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        pitches.push_back(random.coin() ? 6.0 : random.whole(3, 12));
    }
    std::vector<PurlinPlane> planes;
    try {
        for (const RoofFace& face : roof_over(footprints::footprint(corners, pitches)).faces) {
            planes.push_back(eavewright::plane_of<Surface::purlin_top>(face));
        }
    } catch (const FaultError&) {
        return {};  // some random stars are no roof
    }
    return planes;
}

/// A random outline that no roof need have: corners around a middle, every kind of edge where its direction lets it be.
inline PurlinPlane random_outline(SeededNumbers& random) {
    using namespace eavewright;
    std::vector<PlanePoint> outline;
    for (const auto& corner : random.coin() ? footprints::star(random, random.whole(4, 9))
                                            : footprints::convex(random, random.whole(3, 8))) {
        outline.push_back({Length::from_feet(corner[0]), Length::from_feet(corner[1])});
    }
    std::vector<EdgeKind> edges;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[(i + 1) % outline.size()];
        const EdgeKind above[] = {EdgeKind::hip, EdgeKind::ridge, EdgeKind::wall, EdgeKind::rake};
        edges.push_back(b.along > a.along ? EdgeKind::valley : above[random.whole(0, 3)]);
    }
    return plane(std::move(outline), std::move(edges));
}

/// A plan without any gap, overhang or hold-back: panels cover the plane itself.
inline eavewright::CutPanelPlan bare_plan(SeededNumbers& random) {
    using namespace eavewright;
    CutPanelPlan plan{.panels = {.ridge_hold_back = no_length}, .hip_gap = no_length, .valley_gap = no_length};
    const double covers[] = {24.0, 36.0, 1000.0 / 25.4, random.between(12.0, 48.0)};
    plan.panels.panel.cover = one_inch * covers[random.whole(0, 3)];
    plan.panels.panel.rib_spacing = plan.panels.panel.cover / 4.0;
    plan.panels.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
    plan.panels.rips = random.coin() ? RipPlace::last : RipPlace::balanced;
    plan.panels.eave = {no_length, no_length, no_length};
    plan.panels.increment = one_inch / 64.0;
    plan.panels.longest = Length::from_feet(400.0);
    return plan;
}

/// Distance from a point to the nearest edge of these kinds.
inline Length distance_to_kinds(const PurlinPlane& plane, PlanePoint p, std::vector<EdgeKind> kinds) {
    using namespace eavewright;
    Length nearest = Length::from_inches(length_limit_in);
    for (std::size_t e = 0; e < plane.edges.size(); ++e) {
        for (const EdgeKind kind : kinds) {
            if (plane.edges[e] == kind) {
                nearest = shorter(nearest, eavewright::detail::distance_to(
                                               p, plane.outline[e], plane.outline[(e + 1) % plane.outline.size()]));
            }
        }
    }
    return nearest;
}
/// Whether a point lies under a panel's steel.
inline bool is_under(const eavewright::CutPanel& panel, PlanePoint p) {
    bool under = eavewright::detail::is_inside(p, panel.part.outline);
    for (const std::vector<PlanePoint>& cutout : panel.part.cutouts) {
        under = under && !eavewright::detail::is_inside(p, cutout);
    }
    return under;
}
/// Whether a point lies on the plane, off its openings.
inline bool is_on(const PurlinPlane& plane, PlanePoint p) {
    bool on = eavewright::detail::is_inside(p, plane.outline);
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        on = on && !eavewright::detail::is_inside(p, opening);
    }
    return on;
}
}  // namespace cut_planes
