// SPDX-License-Identifier: BSL-1.0
#pragma once

// Roofs that the drawings are tried on.

#include <eavewright/whole_roof/whole_roof.hpp>

#include <string>
#include <utility>
#include <vector>

namespace test_roofs {
using namespace eavewright;
using namespace eavewright::literals;

/// 36 ft wide gable at 4 in 12, frames at 10 ft, purlins on edge at 24 in.
inline RoofDescription wide_gable(Length length = 60_ft) {
    return RoofDescription{.name = "workshop",
                           .shape = GableRoof{.width = 36_ft,
                                              .length = length,
                                              .pitch = Pitch::in_12(4),
                                              .eave_overhang = 18_in,
                                              .rake_overhang = 12_in,
                                              .build_up = {.purlin = 5.5_in},
                                              .bearing_height = 12_ft,
                                              .heel = 6_in},
                           .frames = {.spacing = BaysAtMost{10_ft}},
                           .purlins = PurlinPlan{.spacing = Fixed{24_in},
                                                 .cuts = {.stock_length = 24_ft},
                                                 .stock = {1.5_in, 5.5_in, PurlinLie::on_edge}},
                           .deck = DeckPlan{.sheets = {.sheet = {4_ft, 8_ft}}, .nails = {6_in, 12_in}}};
}

/// Every other lane half a sheet shorter at its start: slivers and narrow bearings at the ridge.
inline RoofDescription half_stagger() {
    RoofDescription roof = wide_gable();
    roof.deck->sheets.stagger_spaces = 2;
    return roof;
}

/// Laid from the right, past the fascia, on rows that no sheet end meets.
inline RoofDescription from_the_right() {
    RoofDescription roof = wide_gable();
    roof.deck->sheets.start = StartCorner::eave_right;
    roof.deck->sheets.past_fascia = 0.75_in;
    roof.purlins->spacing = AtMost{24_in};
    return roof;
}

inline RoofDescription metric_hall() {
    return RoofDescription{
        .name = "hall",
        .shape = GableRoof{.width = 12_m,
                           .length = 18_m,
                           .pitch = Pitch::from_degrees(15),
                           .eave_overhang = 400_mm,
                           .rake_overhang = 300_mm,
                           .build_up = {.purlin = 45_mm},
                           .bearing_height = 4_m,
                           .heel = 150_mm},
        .frames = {.spacing = BaysAtMost{3_m}},
        .purlins =
            PurlinPlan{
                .spacing = Fixed{600_mm}, .cuts = {.stock_length = 7200_mm}, .stock = {45_mm, 95_mm, PurlinLie::flat}},
        .deck = DeckPlan{.sheets = {.sheet = {1200_mm, 2400_mm}, .gap = 3_mm}, .nails = {150_mm, 300_mm}},
        .tick = Tick::of_millimetres(1)};
}

/// Sheets on chords at 24 in: courses along the eave.
inline RoofDescription on_chords() {
    RoofDescription roof = wide_gable();
    roof.purlins.reset();
    std::get<GableRoof>(roof.shape).build_up.purlin = 0_in;
    roof.frames.spacing = BaysAtMost{24_in};
    return roof;
}

/// Out of square, rows crooked from frame to frame.
inline RoofDescription as_found() {
    RoofDescription roof = wide_gable();
    std::vector<FoundRow> rows;
    for (int row = 1; row <= 10; ++row) {
        std::vector<Length> centres;
        for (int frame = 0; frame < 7; ++frame) {
            centres.push_back(24.0 * row * one_inch + (one_inch / 8) * ((row * frame) % 5) -
                              (one_inch / 4) * (frame % 3));
        }
        rows.emplace_back(centres);
    }
    roof.as_built = {SlopeAsBuilt{.rows = AsFound{rows, {}},
                                  .sides = FourSides{62_ft, 62_ft, 246.625_in, 246.75_in, 786_in, 782.25_in}},
                     SlopeAsBuilt{}};
    return roof;
}

inline RoofDescription shed() {
    return RoofDescription{.name = "shed",
                           .shape = SingleSlopeRoof{.width = 8_ft,
                                                    .length = 10_ft,
                                                    .pitch = Pitch::in_12(3),
                                                    .eave_overhang = 6_in,
                                                    .high_overhang = 6_in,
                                                    .rake_overhang = 0_in,
                                                    .build_up = {.purlin = 1.5_in},
                                                    .bearing_height = 7_ft,
                                                    .heel = 4_in},
                           .frames = {.spacing = BaysAtMost{5_ft}},
                           .purlins = PurlinPlan{.spacing = AtMost{24_in}, .cuts = {.stock_length = 12_ft}},
                           .deck = DeckPlan{.sheets = {.sheet = {4_ft, 8_ft}}, .nails = {6_in, 12_in}}};
}

struct Named {
    std::string name;
    SlopeResult slope;
    Tick tick;
};

/// Every slope of every roof above.
inline std::vector<Named> all_slopes() {
    std::vector<Named> slopes;
    for (const auto& [name, roof] :
         std::vector<std::pair<std::string, RoofDescription>>{{"workshop", wide_gable()},
                                                              {"half stagger", half_stagger()},
                                                              {"from the right", from_the_right()},
                                                              {"metric", metric_hall()},
                                                              {"chords", on_chords()},
                                                              {"as found", as_found()},
                                                              {"shed", shed()},
                                                              {"200 ft", wide_gable(200_ft)}}) {
        for (const SlopeResult& slope : compiled::whole_roof(roof).slopes) {
            slopes.push_back({name + " " + slope.name, slope, roof.tick});
        }
    }
    return slopes;
}
}  // namespace test_roofs
