// SPDX-License-Identifier: BSL-1.0
#pragma once

// Planes of any outline with their sheets, that the drawings are tried on.

#include <eavewright/drawing/laid_plane_drawing.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/tiling/edge_support.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include "support/table.hpp"
#include "tiling/any_planes.hpp"

#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace test_planes {
using namespace eavewright;
using namespace eavewright::literals;

using Laid = LaidPlane<Surface::purlin_top>;

struct Named {
    Laid laid;
    Tick tick;
};

/// A hip or valley between equal slopes of 4 in 12 rises sqrt(10) / 3 up the slope for each inch along the eave.
inline const double hip_rise = std::sqrt(10.0) / 3.0;

/// Purlins on edge, sheets, and clips where the long edges of a 24/0 sheet need them.
inline Laid lay(std::string name, PurlinPlane plane, const SheetPlan& plan, const RowSpacing& spacing) {
    PurlinRows rows = purlin_rows(plane, spacing, {.stock = {.lie = PurlinLie::on_edge}});
    Sheets sheets = tile_sheets(plane, rows, plan);
    Laid laid{.name = std::move(name),
              .plane = std::move(plane),
              .supports = supports_of(rows),
              .sheets = std::move(sheets),
              .purlins = std::move(rows)};
    laid.long_edges =
        edge_support(laid.sheets, laid.plane, laid.supports, plan, {.spans = widest_spans(SpanRating::r24_0)});
    return laid;
}

/// 24 ft wide, its point in the middle.
inline Laid hip_end() {
    return lay("hip end", any_plane({{0_in, 0_in}, {288_in, 0_in}, {144_in, 144_in * hip_rise}}), {{48_in, 96_in}},
               Fixed{24_in});
}

/// The front of an L: a rake at the left, a valley up to the wing, the ridge past it to a hip at the right.
inline Laid ell() {
    const Length top = 168_in * hip_rise;
    return lay("front of the L",
               any_plane({{0_in, 0_in},
                          {240_in, 0_in},
                          {360_in, 120_in * hip_rise},
                          {480_in, 120_in * hip_rise},
                          {432_in, top},
                          {0_in, top}}),
               {{48_in, 96_in}}, AtMost{24_in});
}

/// The plane of ten corners and three openings.
inline Laid ten_corners() {
    std::map<std::string, std::vector<PlanePoint>> rings;
    for (const TableRow& row : read_table("plane_10_corners.csv")) {
        rings[row.at("ring")].push_back({one_inch * std::stod(row.at("x_in")), one_inch * std::stod(row.at("y_in"))});
    }
    return lay("ten corners",
               any_plane(rings.at("outline"), {rings.at("opening1"), rings.at("opening2"), rings.at("opening3")}),
               {{48_in, 96_in}}, Fixed{24_in});
}

/// A skylight where four sheets meet, and one inside a sheet; laid past the fascia.
inline Laid skylight() {
    PurlinPlane plane = any_plane({{0_in, 0_in}, {192_in, 0_in}, {192_in, 192_in}, {0_in, 192_in}});
    plane.openings = {{{36_in, 84_in}, {60_in, 84_in}, {60_in, 108_in}, {36_in, 108_in}},
                      {{108_in, 24_in}, {130_in, 24_in}, {130_in, 72_in}, {108_in, 72_in}}};
    return lay("skylight", plane, {.sheet = {48_in, 96_in}, .gap = 0_in, .stagger_spaces = 0, .past_fascia = 0.75_in},
               Fixed{24_in});
}

/// Out of square as measured; the grid turned, the first lane ripped, laid from the right.
inline Laid turned() {
    PurlinPlane plane = any_plane({{0_in, 0_in}, {480_in, 0_in}, {477_in, 242_in}, {-4_in, 240_in}});
    plane.edges = {EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake};
    return lay("as measured", plane,
               {.sheet = {48_in, 96_in}, .start = StartCorner::eave_right, .rip_first = 12_in, .turn = -0.0125},
               Fixed{24_in});
}

/// A hip, a valley and a chimney in millimetres.
inline Laid metric() {
    PurlinPlane plane = any_plane({{0_mm, 0_mm}, {7000_mm, 0_mm}, {9000_mm, 2400_mm}, {2200_mm, 2400_mm}});
    plane.openings = {{{4100_mm, 900_mm}, {4900_mm, 900_mm}, {4900_mm, 1700_mm}, {4100_mm, 1700_mm}}};
    return lay("hip and valley", plane, {.sheet = {1200_mm, 2400_mm}, .gap = 3_mm, .tick = Tick::of_millimetres(1)},
               Fixed{600_mm});
}

/// A skylight close to the edge of a sheet leaves a leg of 3 in, and a triangular opening cuts a corner off.
inline Laid narrow_leg() {
    PurlinPlane plane = any_plane({{0_in, 0_in}, {144_in, 0_in}, {144_in, 144_in}, {0_in, 144_in}});
    plane.openings = {{{3_in, 60_in}, {27_in, 60_in}, {27_in, 110_in}, {3_in, 110_in}},
                      {{90_in, 80_in}, {120_in, 96_in}, {90_in, 112_in}}};
    return lay("narrow leg", plane, {{48_in, 96_in}}, Fixed{24_in});
}

inline std::vector<Named> all_planes() {
    const Tick inch = Tick::of_inch(16);
    std::vector<Named> planes;
    for (Laid& laid : std::vector<Laid>{hip_end(), ell(), ten_corners(), skylight(), turned(), narrow_leg()}) {
        planes.push_back({std::move(laid), inch});
    }
    planes.push_back({metric(), Tick::of_millimetres(1)});
    return planes;
}
}  // namespace test_planes
