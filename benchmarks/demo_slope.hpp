// SPDX-License-Identifier: BSL-1.0
#pragma once

// The front slope of the workshop, step by step, for the programs that time one room.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

namespace demo {
using namespace eavewright;
using namespace eavewright::literals;

inline GableRoof shape() {
    return {.width = 36_ft,
            .length = 60_ft,
            .pitch = Pitch::in_12(4),
            .eave_overhang = 18_in,
            .rake_overhang = 12_in,
            .build_up = {.purlin = 5.5_in, .deck = 0.4375_in},
            .bearing_height = 12_ft,
            .heel = 6_in};
}
inline PurlinPlane plane() { return gable(shape()).slopes.front().purlin; }
inline RowPlan row_plan() { return {.stock = {.thickness = 1.5_in, .depth = 5.5_in, .lie = PurlinLie::on_edge}}; }
inline PurlinRows rows() { return purlin_rows(plane(), Fixed{24_in}, row_plan()); }
inline FrameLines frames() {
    return frame_lines({.spacing = BaysAtMost{10_ft}}, {.length = 60_ft, .rake_overhang = 12_in}, SeenFrom::front);
}
inline SheetPlan sheet_plan() { return {.sheet = {.width = 4_ft, .length = 8_ft}}; }
inline Sheets sheets() { return tile_sheets(plane(), rows(), sheet_plan()); }
}  // namespace demo
