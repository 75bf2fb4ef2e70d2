// SPDX-License-Identifier: BSL-1.0
#pragma once

// The workshop with its marks moved, and what a perfect tape and level would read of them.

#include <eavewright/whole_roof/roof_marks.hpp>

#include "workshop.hpp"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace moved_roofs {
using namespace eavewright;
using namespace eavewright::literals;

/// Places of the marks, moved, and what a perfect tape and level would read of them.
struct Standing {
    std::vector<BuildingPoint> places;
    std::vector<std::string> names;
};
inline Standing as_meant(const RoofDescription& roof) {
    RoofDescription read = roof;
    read.readings = RoofReadings{};
    Standing standing;
    for (const auto& point : detail::roof_points(read)) {
        standing.places.push_back(point.about);
        standing.names.push_back(point.name);
    }
    return standing;
}

/// All distances of a tape over the roof, and all six heights from one setup.
inline RoofReadings read_all(const Standing& s) {
    RoofReadings read{};
    const auto tape = [&](std::size_t a, std::size_t b) {
        read.distances.push_back({s.names[a], s.names[b], distance_between(s.places[a], s.places[b])});
    };
    for (const auto& [a, b] : std::vector<std::pair<std::size_t, std::size_t>>{{0, 1},
                                                                               {3, 2},
                                                                               {4, 5},
                                                                               {0, 3},
                                                                               {1, 2},
                                                                               {4, 3},
                                                                               {5, 2},
                                                                               {0, 2},
                                                                               {1, 3},
                                                                               {5, 3},
                                                                               {4, 2},
                                                                               {0, 4},
                                                                               {1, 5},
                                                                               {0, 5},
                                                                               {1, 4}}) {
        tape(a, b);
    }
    for (std::size_t i = 0; i < s.places.size(); ++i) {
        read.levels.push_back({s.names[i], 20_ft - s.places[i].z});
    }
    return read;
}

/// The workshop with its ridge slid along: both ridge marks to the right seen from the front.
inline RoofDescription racked(Length slid) {
    RoofDescription roof = workshop();
    Standing s = as_meant(roof);
    s.places[2].x += slid;
    s.places[3].x += slid;
    roof.readings = read_all(s);
    return roof;
}

}  // namespace moved_roofs
