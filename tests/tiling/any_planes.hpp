// SPDX-License-Identifier: BSL-1.0
#pragma once

// Planes of any outline for sweeps: two chains from left to right, the upper above the lower, with openings inside.

#include <eavewright/roof/outline.hpp>
#include <eavewright/roof/plane.hpp>

#include "support/seeded_numbers.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

/// The kind that an edge can have by how it lies.
inline eavewright::EdgeKind kind_of_edge(eavewright::PlanePoint a, eavewright::PlanePoint b) {
    using eavewright::EdgeKind;
    if (a.along == b.along) {
        return EdgeKind::rake;
    }
    if (a.up == b.up) {
        return a.along < b.along ? EdgeKind::eave : EdgeKind::ridge;
    }
    return a.along < b.along ? EdgeKind::valley : EdgeKind::hip;  // walked to the right, the plane widens above it
}

inline eavewright::PurlinPlane any_plane(std::vector<eavewright::PlanePoint> outline,
                                         std::vector<std::vector<eavewright::PlanePoint>> openings = {}) {
    using namespace eavewright;
    PurlinPlane plane{
        Pitch::in_12(4), std::move(outline), {}, std::move(openings), {{no_length, no_length, no_length}, 1.0, 0.0}};
    for (std::size_t i = 0; i < plane.outline.size(); ++i) {
        plane.edges.push_back(kind_of_edge(plane.outline[i], plane.outline[(i + 1) % plane.outline.size()]));
    }
    return plane;
}

/// Whether an opening lies inside the outline and clear of the others, from the library's own refusals' parts.
inline bool is_clear(const eavewright::PurlinPlane& plane, const std::vector<eavewright::PlanePoint>& opening) {
    using namespace eavewright;
    const Length least = one_inch / 64.0;
    if (!detail::is_inside(detail::middle_of(opening), plane.outline) ||
        detail::outlines_cross(opening, plane.outline) || detail::gap_between(opening, plane.outline) < least) {
        return false;
    }
    for (const PlanePoint& corner : plane.outline) {
        if (detail::is_inside(corner, opening)) {
            return false;
        }
    }
    return std::all_of(plane.openings.begin(), plane.openings.end(), [&](const std::vector<PlanePoint>& other) {
        return !detail::outlines_cross(opening, other) && !detail::is_inside(detail::middle_of(opening), other) &&
               !detail::is_inside(detail::middle_of(other), opening) && detail::gap_between(opening, other) >= least;
    });
}

/// Lengths in whole sixty-fourths, often on the lines of a 48 by 96 in grid, so that joints fall on edges.
inline eavewright::Length whole_64ths(SeededNumbers& random, int low_in, int high_in, int grid_in) {
    const int inches = random.whole(low_in, high_in);
    if (random.whole(0, 2) == 0) {
        return eavewright::one_inch * static_cast<double>(inches / grid_in * grid_in);
    }
    return eavewright::one_inch * (inches + random.whole(0, 63) / 64.0);
}

/// A right-angled plane in whole sixty-fourths: steps in its eave and ridge, openings with right angles.
inline eavewright::PurlinPlane right_angled_plane(SeededNumbers& random) {
    using namespace eavewright;
    const int bays = random.whole(1, 4);
    std::vector<PlanePoint> lower;
    std::vector<PlanePoint> upper;
    Length along = no_length;
    for (int bay = 0; bay < bays; ++bay) {
        const Length next = along + one_inch + whole_64ths(random, 11, 180, 48);
        const Length low = bay == 0 || random.coin() ? no_length : whole_64ths(random, 0, 60, 24);
        const Length high = one_inch * 72.0 + whole_64ths(random, 1, 300, 96);
        lower.insert(lower.end(), {{along, low}, {next, low}});
        upper.insert(upper.end(), {{along, high}, {next, high}});
        along = next;
    }
    std::vector<PlanePoint> outline = lower;
    outline.insert(outline.end(), upper.rbegin(), upper.rend());
    std::vector<PlanePoint> clean;
    for (const PlanePoint& p : outline) {
        if (clean.empty() || clean.back() != p) {
            clean.push_back(p);
        }
    }
    PurlinPlane plane = any_plane(clean);
    for (int tries = random.whole(0, 6); tries > 0; --tries) {
        const PlanePoint low{whole_64ths(random, 1, 300, 48), whole_64ths(random, 1, 200, 48)};
        const PlanePoint high{low.along + one_inch + whole_64ths(random, 1, 70, 48),
                              low.up + one_inch + whole_64ths(random, 1, 110, 48)};
        const std::vector<PlanePoint> opening{low, {high.along, low.up}, high, {low.along, high.up}};
        if (is_clear(plane, opening)) {
            plane.openings.push_back(opening);
        }
    }
    return plane;
}

/// A plane between two crooked chains, hips and valleys among their edges, openings of three to five corners.
inline eavewright::PurlinPlane slanted_plane(SeededNumbers& random) {
    using namespace eavewright;
    const int bends = random.whole(0, 4);
    const Length width = random.inches_between(40, 600);
    std::vector<PlanePoint> lower{{no_length, no_length}};
    std::vector<PlanePoint> upper{{no_length, random.inches_between(60, 360)}};
    for (int bend = 1; bend <= bends + 1; ++bend) {
        const Length along = width * (bend / (bends + 1.0)) - (bend <= bends ? random.inches_between(0, 9) : no_length);
        const bool level = random.coin();
        lower.push_back({along, level ? lower.back().up : random.inches_between(0, 50)});
        upper.push_back({along, random.coin() ? upper.back().up : random.inches_between(60, 360)});
    }
    if (random.coin()) {  // a hip end: the chains meet
        upper.back().up = lower.back().up;
    }
    std::vector<PlanePoint> outline = lower;
    const bool meets = upper.back() == lower.back();
    outline.insert(outline.end(), upper.rbegin() + (meets ? 1 : 0), upper.rend());
    if (detail::crosses_itself(outline)) {
        return slanted_plane(random);
    }
    PurlinPlane plane = any_plane(outline);
    for (int tries = random.whole(0, 6); tries > 0; --tries) {
        const Length along = random.inches_between(5, 500);
        const Length up = random.inches_between(5, 250);
        const Length size = random.inches_between(2, 60);
        std::vector<PlanePoint> opening{{along, up}, {along + size, up + size * random.between(-0.3, 0.3)}};
        opening.push_back({along + size * 0.9, up + size});
        if (random.coin()) {
            opening.push_back({along + size * random.between(0.1, 0.4), up + size * 1.1});
        }
        if (is_clear(plane, opening)) {
            plane.openings.push_back(opening);
        }
    }
    return plane;
}
