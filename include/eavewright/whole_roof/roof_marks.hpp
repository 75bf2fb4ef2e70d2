// SPDX-License-Identifier: BSL-1.0
#pragma once

// The marks of a roof as points, and its readings between them as a network: names become indexes here, and a name that no
// mark has is refused.

#include <eavewright/fault.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/squaring/judge_corners.hpp>
#include <eavewright/squaring/readings.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/lay_slope.hpp>
#include <eavewright/whole_roof/roof_readings.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Where the corners of every slope stand among the points, front first.
[[nodiscard]] inline std::vector<CornerPoints> corner_points(const RoofDescription& roof) {
    return slope_count(roof.shape) == 2 ? std::vector<CornerPoints>{{0, 1, 2, 3}, {5, 4, 3, 2}}
                                        : std::vector<CornerPoints>{{0, 1, 2, 3}};
}

template <Surface surface>
void add_corners(const Plane<surface>& plane, const std::vector<std::string>& names,
                 std::vector<MarkedPoint<BuildingPoint>>& points) {
    for (std::size_t i = 0; i < names.size(); ++i) {
        points.push_back({names[i], building_point(plane, plane.outline[i]), Free{}});
    }
}

/// Corners as they were meant to be, on the surface that the sheets lie on, then the marks that were added.
[[nodiscard]] inline std::vector<MarkedPoint<BuildingPoint>> roof_points(const RoofDescription& roof) {
    const RoofShape shape = shape_of(roof.shape);
    const bool gable = shape.slopes.size() == 2;
    std::vector<MarkedPoint<BuildingPoint>> points;
    const auto add = [&](const Slope& slope, const std::vector<std::string>& names) {
        if (roof.purlins) {
            add_corners(slope.purlin, names, points);
        } else {
            add_corners(slope.chord, names, points);
        }
    };
    add(shape.slopes[0], gable ? std::vector<std::string>{"front_left", "front_right", "ridge_right", "ridge_left"}
                               : std::vector<std::string>{"eave_left", "eave_right", "top_right", "top_left"});
    if (gable) {
        add(shape.slopes[1], {"back_right", "back_left"});  // its own left is the right seen from the front
        std::swap(points[4], points[5]);
    }
    for (const RoofMark& mark : roof.readings->marks) {
        points.push_back(
            {mark.name, mark.about, mark.held ? Freedom<BuildingPoint>{Held{}} : Freedom<BuildingPoint>{Free{}}});
    }
    return points;
}

/// Index of the mark of this name; a fault, and 0, where there is none.
[[nodiscard]] inline std::size_t mark_of(const std::vector<MarkedPoint<BuildingPoint>>& points, const std::string& name,
                                         const Path& path, Faults& faults) {
    std::string known;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (points[i].name == name) {
            return i;
        }
        known += (known.empty() ? "" : ", ") + points[i].name;
    }
    faults.push_back(Fault{FaultCode::unknown_name, path.text(), name, "one of " + known});
    return 0;
}

/// The network of all readings between marks.
[[nodiscard]] inline BuildingNetwork roof_network(const RoofDescription& roof, const Path& path, Faults& faults) {
    const RoofReadings& read = *roof.readings;
    BuildingNetwork network{roof_points(roof), read.tapes, {}};
    const auto find = [&](const std::string& name, std::string_view list, std::size_t i, std::string_view field) {
        const Path all{path, list};
        const Path one{all, i};
        return mark_of(network.points, name, Path{one, field}, faults);
    };
    for (std::size_t i = 0; i < read.distances.size(); ++i) {
        const RoofDistance& d = read.distances[i];
        network.readings.push_back(
            DistanceReading{find(d.from, "distances", i, "from"), find(d.to, "distances", i, "to"), d.read, d.tape});
    }
    for (std::size_t i = 0; i < read.offsets.size(); ++i) {
        const RoofOffset& o = read.offsets[i];
        network.readings.push_back(OffsetReading{find(o.mark, "offsets", i, "mark"), find(o.from, "offsets", i, "from"),
                                                 find(o.to, "offsets", i, "to"), o.read, o.deviation});
    }
    for (std::size_t i = 0; i < read.levels.size(); ++i) {
        const RoofLevel& l = read.levels[i];
        network.readings.push_back(LevelReading{find(l.mark, "levels", i, "mark"), l.setup, l.below, l.deviation});
    }
    return network;
}

/// What of the readings is refused, under the names they have in the description.
inline void find_reading_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    const RoofReadings& read = *roof.readings;
    const std::size_t before = faults.size();
    const BuildingNetwork network = roof_network(roof, path, faults);
    if (faults.size() == before && !network.readings.empty()) {
        Faults own;
        find_faults(network, Path{""}, own);
        for (Fault& fault : own) {  // readings count on through the three lists
            fault.path = path.text() + "." + fault.path;
            faults.push_back(std::move(fault));
        }
    }
    if (read.tapes.empty()) {
        faults.push_back(Fault{FaultCode::missing_field, Path{path, "tapes"}.text(), "none", "at least one tape"});
    }
    find_faults(read.odds, Path{path, "odds"}, faults);
    if (read.rule) {
        find_faults(*read.rule, Path{path, "rule"}, faults);
    }
    for (std::size_t i = 0; i < read.pulling.straps.size(); ++i) {
        const Path pulling{path, "pulling"};
        const Path list{pulling, "straps"};
        const Path strap{list, i};
        (void)mark_of(network.points, read.pulling.straps[i].from, Path{strap, "from"}, faults);
        (void)mark_of(network.points, read.pulling.straps[i].to, Path{strap, "to"}, faults);
    }
    for (std::size_t i = 0; i < read.crossings.size(); ++i) {
        if (read.crossings[i].slope >= slope_count(roof.shape)) {
            const Path list{path, "crossings"};
            const Path one{list, i};
            faults.push_back(Fault{FaultCode::out_of_range, Path{one, "slope"}.text(),
                                   std::to_string(read.crossings[i].slope),
                                   "0 to " + std::to_string(slope_count(roof.shape) - 1)});
        }
    }
    find_faults(read.trim, Path{path, "trim"}, faults);
}

}  // namespace eavewright::detail
