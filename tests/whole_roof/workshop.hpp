// SPDX-License-Identifier: BSL-1.0
#pragma once

// The tool library's workshop as the demo describes it.

#include <eavewright/whole_roof/description.hpp>

inline eavewright::RoofDescription workshop() {
    using namespace eavewright;
    using namespace eavewright::literals;
    const PurlinStock stock{.thickness = 1.5_in, .depth = 5.5_in, .lie = PurlinLie::on_edge};
    return {
        .name = "Tool library workshop",
        .shape = GableRoof{.width = 36_ft,
                           .length = 60_ft,
                           .pitch = Pitch::in_12(4),
                           .eave_overhang = 18_in,
                           .rake_overhang = 12_in,
                           .build_up = {.purlin = 5.5_in, .deck = 0.4375_in},
                           .bearing_height = 12_ft,
                           .heel = 6_in},
        .frames = {.spacing = BaysAtMost{10_ft}},
        .purlins = PurlinPlan{.spacing = Fixed{24_in},
                              .cuts = {.stock_length = 24_ft},
                              .stock = stock,
                              .ridge_setback = 2_in,
                              .blocked_bays = {1, 6}},
        .deck = DeckPlan{.sheets = {.sheet = {.width = 4_ft, .length = 8_ft}}, .nails = {.edge = 6_in, .field = 12_in}},
        .underlayment = DryInPlan{.roll = {.length = 144_ft}},
        .steel = SteelPlan{.panels = {.ridge_hold_back = 1_in},
                           .begin = AwayFromWind{.wind_from = angle_from_degrees(260.0),
                                                 .ridge_bearing = angle_from_degrees(90.0)},
                           .edges = {.eave = TrimStock{.piece = 126_in},
                                     .rake = TrimStock{.piece = 126_in},
                                     .ridge = TrimStock{.piece = 126_in},
                                     .closures = ClosurePlan{.strip = 3_ft}}},
        .foam = 2_in,
        .handling = HandlingPlan{.limits = {.one_person = mass_from_pounds(60.0), .holding = force_from_pounds(30.0)},
                                 .sheet = ArealMass::from_pounds_per_square_foot(1.4),
                                 .panel = ArealMass::from_pounds_per_square_foot(0.9)}};
}
