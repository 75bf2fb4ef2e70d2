// SPDX-License-Identifier: BSL-1.0
#pragma once

// Planes, rows and random layouts that the tests of tiling and fastening share.

#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include "support/seeded_numbers.hpp"

#include <utility>
#include <vector>

template <eavewright::Surface surface>
eavewright::Plane<surface> plane_with(std::vector<eavewright::PlanePoint> outline) {
    using namespace eavewright;
    return Plane<surface>{.pitch = Pitch::in_12(4),
                          .outline = std::move(outline),
                          .edges = {EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake},
                          .openings = {},
                          .placement = {{no_length, no_length, no_length}, 1.0, 0.0}};
}
template <eavewright::Surface surface = eavewright::Surface::purlin_top>
eavewright::Plane<surface> plane_of(eavewright::Length along, eavewright::Length up) {
    using eavewright::no_length;
    return plane_with<surface>({{no_length, no_length}, {along, no_length}, {along, up}, {no_length, up}});
}

/// A plane near `along` by `up` inches; with `play`, its corners but for the eave's left one are off by up to that.
template <eavewright::Surface surface = eavewright::Surface::purlin_top>
eavewright::Plane<surface> random_plane(SeededNumbers& random, double along, double up, double play) {
    using eavewright::no_length;
    using eavewright::one_inch;
    const auto off = [&] { return random.between(-play, play); };
    return plane_with<surface>({{no_length, no_length},
                                {one_inch * (along + off()), no_length},
                                {one_inch * (along + off()), one_inch * (up + off())},
                                {one_inch * off(), one_inch * (up + off())}});
}

/// The workshop's plane: 36 ft by 60 ft at 4 in 12, 18 in and 12 in of overhang, 744 in of eave and 19.5 ft x sqrt(10) / 3 =
/// 246.6577 in of slope.
inline eavewright::PurlinPlane workshop_plane() {
    using namespace eavewright;
    using namespace eavewright::literals;
    return gable({.width = 36_ft,
                  .length = 60_ft,
                  .pitch = Pitch::in_12(4),
                  .eave_overhang = 18_in,
                  .rake_overhang = 12_in,
                  .build_up = {.purlin = 5.5_in},
                  .bearing_height = 12_ft,
                  .heel = 6_in})
        .slopes[0]
        .purlin;
}

inline eavewright::SheetPlan random_sheet_plan(SeededNumbers& random) {
    using namespace eavewright;
    using namespace eavewright::literals;
    const bool metric = random.coin();
    SheetPlan plan{.sheet = metric ? SheetSize{1200_mm, 2400_mm} : SheetSize{48_in, 96_in}};
    plan.gap = random.coin() ? (metric ? 3_mm : 0.125_in) : random.inches_between(0, 0.5);
    plan.tick = metric ? Tick::of_millimetres(1) : Tick::of_inch(random.coin() ? 16 : 4);
    plan.stagger_spaces = random.whole(0, 3);
    plan.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
    plan.joints = random.coin() ? JointPlace::full_sheets : JointPlace::on_supports;
    plan.past_fascia = random.coin() ? no_length : random.inches_between(0, 1.5);
    plan.edge_reach = random.inches_between(0, 3);
    plan.least_bearing = random.coin() ? 0.5_in : random.inches_between(0, 1);
    plan.sliver = random.inches_between(0, 20);
    return plan;
}

/// Rows by a random rule, or as found and askew.
inline eavewright::PurlinRows random_rows(SeededNumbers& random, const eavewright::PurlinPlane& plane,
                                          const eavewright::SheetPlan& plan) {
    using namespace eavewright;
    using namespace eavewright::literals;
    const RowPlan rows{.stock = {.lie = random.coin() ? PurlinLie::flat : PurlinLie::on_edge},
                       .sheet_past_fascia = plan.past_fascia,
                       .ridge_setback = random.inches_between(0, 4)};
    switch (random.whole(0, 3)) {
        case 0: return purlin_rows(plane, Fixed{random.inches_between(16, 26)}, rows);
        case 1: return purlin_rows(plane, AtMost{random.inches_between(16, 26)}, rows);
        case 2: return purlin_rows(plane, ToSheets{plan.sheet.length, plan.gap, random.whole(4, 6)}, rows);
        default: break;
    }
    const Extent extent = extent_of(plane.outline);
    const Length top = shorter(plane.outline[2].up, plane.outline[3].up);
    AsFound found{{}, {12_in, extent.high.along / 3.0, extent.high.along / 1.5, extent.high.along - 12_in}};
    for (Length up = 22_in; up < top - 3_in; up += 24_in) {
        std::vector<Length> centres;
        for (int f = 0; f < 4; ++f) {
            centres.push_back(up + random.inches_between(-0.6, 0.6));
        }
        found.rows.emplace_back(centres);
    }
    return purlin_rows(plane, found, rows);
}
