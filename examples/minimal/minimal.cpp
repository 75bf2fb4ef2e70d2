// SPDX-License-Identifier: BSL-1.0
#include <eavewright/eavewright.hpp>

#include <iostream>

using namespace eavewright;
using namespace eavewright::literals;

int main() {
    const RoofShape roof = gable({.width = 36_ft, .length = 60_ft, .pitch = Pitch::in_12(4), .eave_overhang = 18_in,
                                  .rake_overhang = 12_in, .build_up = {.purlin = 1.5_in}, .bearing_height = 12_ft, .heel = 6_in});
    const PurlinPlane& front = roof.slopes.front().purlin;
    const PurlinRows rows = purlin_rows(front, Fixed{24_in});
    const Sheets sheets = tile_sheets(front, rows, {.sheet = {.width = 4_ft, .length = 8_ft}});
    const NailCount nails = count_nails(sheets, rows, {.edge = 6_in, .field = 12_in});
    std::cout << "slope " << write_length(front.outline[2].up, Tick::of_inch(16)) << ", " << sheets.pieces.size() << " pieces, "
              << sheets.findings.size() << " findings, " << nails.total << " nails\n";
}
