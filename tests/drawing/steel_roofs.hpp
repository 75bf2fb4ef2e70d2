// SPDX-License-Identifier: BSL-1.0
#pragma once

// Roofs whose steel the drawings are tried on.

#include "../support/compiled.hpp"
#include "roofs.hpp"

#include <string>
#include <utility>
#include <vector>

namespace test_roofs {

/// The workshop with a deck and steel on it, laid from a gable that the builder names.
inline RoofDescription with_steel(GableEnd begin = GableEnd::low_x) {
    RoofDescription roof = wide_gable();
    std::get<GableRoof>(roof.shape).build_up.deck = 0.4375_in;
    roof.steel = SteelPlan{.panels = {.ridge_hold_back = 1_in},
                           .begin = BeginAt{begin},
                           .edges = {.eave = TrimStock{.piece = 126_in},
                                     .rake = TrimStock{.piece = 126_in},
                                     .ridge = TrimStock{.piece = 126_in},
                                     .closures = ClosurePlan{.strip = 3_ft}}};
    return roof;
}

/// Narrow rips at both rakes.
inline RoofDescription balanced_rips() {
    RoofDescription roof = with_steel(GableEnd::high_x);
    roof.steel->panels.rips = RipPlace::balanced;
    roof.steel->panels.sliver = 12_in;
    return roof;
}

/// A last panel that covers less than its side lap.
inline RoofDescription within_a_lap() {
    RoofDescription roof = with_steel();
    std::get<GableRoof>(roof.shape).length = 58_ft + 2_in;
    roof.steel->panels.panel.lap = SideLap::under_previous;
    return roof;
}

/// Panels no longer than 9 ft: three in a lane.
inline RoofDescription lapped() {
    RoofDescription roof = with_steel();
    roof.steel->panels.longest = 9_ft;
    return roof;
}

/// Straight on the purlins, which turns of phrase about a deck must not reach.
inline RoofDescription straight_on_purlins() {
    RoofDescription roof = with_steel();
    std::get<GableRoof>(roof.shape).build_up.deck = 0_in;
    roof.deck.reset();
    return roof;
}

/// Measured out of square, rows crooked, on a deck and on purlins.
inline RoofDescription crooked_steel(bool deck) {
    RoofDescription roof = deck ? with_steel() : straight_on_purlins();
    roof.as_built = as_found().as_built;
    return roof;
}

inline RoofDescription metric_steel() {
    RoofDescription roof = metric_hall();
    std::get<GableRoof>(roof.shape).build_up.deck = 12_mm;
    roof.steel = SteelPlan{.panels = {.ridge_hold_back = 25_mm,
                                      .panel = {.cover = 1000_mm, .side_lap = 50_mm, .rib_spacing = 250_mm},
                                      .eave = {25_mm, 40_mm, 60_mm},
                                      .increment = 10_mm,
                                      .longest = 4_m,
                                      .end_lap = 200_mm}};
    return roof;
}

/// Every slope of every roof with steel above.
inline std::vector<Named> all_steel() {
    std::vector<Named> slopes;
    for (const auto& [name, roof] : std::vector<std::pair<std::string, RoofDescription>>{
             {"steel", with_steel()},
             {"steel from the other gable", with_steel(GableEnd::high_x)},
             {"balanced rips", balanced_rips()},
             {"within a lap", within_a_lap()},
             {"lapped", lapped()},
             {"on purlins", straight_on_purlins()},
             {"crooked deck", crooked_steel(true)},
             {"crooked purlins", crooked_steel(false)},
             {"metric steel", metric_steel()}}) {
        for (const SlopeResult& slope : compiled::whole_roof(roof).slopes) {
            slopes.push_back({name + " " + slope.name, slope, roof.tick});
        }
    }
    return slopes;
}
}  // namespace test_roofs
