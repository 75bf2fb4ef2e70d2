// SPDX-License-Identifier: BSL-1.0
#pragma once

// The tool library's workshop as the demo describes it.

#include <eavewright/whole_roof/description.hpp>

inline eavewright::RoofDescription workshop() {
    using namespace eavewright;
    using namespace eavewright::literals;
    const PurlinStock stock{.thickness = 1.5_in, .depth = 5.5_in, .lie = PurlinLie::on_edge};
    return {.name = "Tool library workshop",
            .shape = GableRoof{.width = 36_ft,
                               .length = 60_ft,
                               .pitch = Pitch::in_12(4),
                               .eave_overhang = 18_in,
                               .rake_overhang = 12_in,
                               .build_up = {.purlin = 5.5_in, .deck = 0.4375_in},
                               .bearing_height = 12_ft,
                               .heel = 6_in},
            .frames = {.spacing = BaysAtMost{10_ft}},
            .purlins =
                PurlinPlan{
                    .spacing = Fixed{24_in}, .cuts = {.stock_length = 24_ft}, .stock = stock, .blocked_bays = {1, 6}},
            .sheets = {.sheet = {.width = 4_ft, .length = 8_ft}},
            .nails = {.edge = 6_in, .field = 12_in}};
}
