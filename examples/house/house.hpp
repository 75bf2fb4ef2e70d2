// SPDX-License-Identifier: BSL-1.0
#pragma once

// The caretaker's house of the tool library: an L with a porch wrapped round its back and its left gable.

#include <eavewright/roof/porch_roofs.hpp>
#include <eavewright/roof/winged_roofs.hpp>
#include <eavewright/roof/wrap_around_porch.hpp>

#include <string>
#include <vector>

[[nodiscard]] inline eavewright::LRoof house_shape() {
    using namespace eavewright;
    using namespace eavewright::literals;
    return {.main = {.width = 24_ft,
                     .length = 40_ft,
                     .pitch = Pitch::in_12(6),
                     .eave_overhang = 1_ft,
                     .rake_overhang = 1_ft,
                     .bearing_height = 10_ft,
                     .heel = 1_ft},
            .wing_width = 24_ft,
            .projection = 16_ft,
            .wing_pitch = Pitch::in_12(6)};
}

[[nodiscard]] inline eavewright::WrapAroundPorch porch_shape() {
    using namespace eavewright;
    using namespace eavewright::literals;
    return {.main = house_shape().main,
            .pitch = Pitch::in_12(3),
            .height = 9_ft,
            .eave_overhang = 1_ft,
            .rake_overhang = 1_ft,
            .back = 8_ft,
            .left = 8_ft};
}

/// Both composed: the porch keeps its own tier under the house's overhangs.
[[nodiscard]] inline eavewright::ComposedRoof house_roof() {
    using namespace eavewright;
    const auto named = [](const RoofBody& body, const std::string& part) {
        NamedBody result{body, {}};
        for (std::size_t i = 1; i <= body.planes.size(); ++i) {
            result.names.push_back(part + " " + std::to_string(i));
        }
        return result;
    };
    std::vector<NamedBody> bodies;
    const char* const parts[] = {"main", "wing"};
    const ComposedRoof house = l_roof(house_shape());
    for (std::size_t b = 0; b < house.bodies.size(); ++b) {
        bodies.push_back(named(house.bodies[b], b < 2 ? parts[b] : "more"));
    }
    for (const RoofBody& body : wrap_around_porch(porch_shape()).bodies) {
        if (body.tier == 1) {
            bodies.push_back(named(body, "porch"));
        }
    }
    return composed_roof(bodies);
}
