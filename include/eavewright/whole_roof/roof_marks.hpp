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
#include <string_view>
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

/// A reading of the network by its place in the description, whose three lists count each for itself.
[[nodiscard]] inline std::string path_of_reading(const RoofReadings& read, const Path& path,
                                                 const std::string& within) {
    constexpr std::string_view lead = "readings[";
    if (within.rfind(lead, 0) != 0) {
        return path.text() + "." + within;
    }
    const std::size_t end = within.find(']');
    std::size_t index = 0;
    for (std::size_t at = lead.size(); at < end; ++at) {
        index = index * 10 + static_cast<std::size_t>(within[at] - '0');
    }
    std::string_view list = "distances";
    if (index >= read.distances.size()) {
        index -= read.distances.size();
        list = index < read.offsets.size() ? "offsets" : "levels";
        index -= index < read.offsets.size() ? 0 : read.offsets.size();
    }
    const Path all{path, list};
    std::string field = within.substr(end + 1);
    field = field == ".point" ? ".mark" : field == ".line_from" ? ".from" : field == ".line_to" ? ".to" : field;
    return Path{all, index}.text() + field;
}

inline void find_network_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    const RoofReadings& read = *roof.readings;
    const std::size_t before = faults.size();
    const BuildingNetwork network = roof_network(roof, path, faults);
    if (faults.size() == before && !network.readings.empty()) {
        Faults own;
        find_faults(network, Path{""}, own);
        for (Fault& fault : own) {
            fault.path = path_of_reading(read, path, fault.path);
            faults.push_back(std::move(fault));
        }
    }
    if (read.tapes.empty()) {
        faults.push_back(Fault{FaultCode::missing_field, Path{path, "tapes"}.text(), "none", "at least one tape"});
    }
    find_faults(read.odds, Path{path, "odds"}, faults);
}

inline void find_pulling_faults(const PullingPlan& plan, const std::vector<MarkedPoint<BuildingPoint>>& points,
                                const Path& path, Faults& faults) {
    require_named(plan.eaves, Path{path, "eaves"}, faults);
    require_named(plan.choice, Path{path, "choice"}, faults);
    require_within(plan.pull_deviation, no_length, one_inch * 12.0, Path{path, "pull_deviation"}, faults);
    if (plan.most_movement) {
        require_within(*plan.most_movement, no_length, longest_reading, Path{path, "most_movement"}, faults);
    }
    const Path list{path, "straps"};
    if (plan.straps.size() > most_pull_straps) {
        faults.push_back(Fault{FaultCode::too_much_work, list.text(), std::to_string(plan.straps.size()),
                               "at most " + std::to_string(most_pull_straps)});
    }
    for (std::size_t i = 0; i < plan.straps.size(); ++i) {
        const RoofStrap& each = plan.straps[i];
        const Path strap{list, i};
        const std::size_t before = faults.size();
        const std::size_t from = mark_of(points, each.from, Path{strap, "from"}, faults);
        const std::size_t to = mark_of(points, each.to, Path{strap, "to"}, faults);
        if (faults.size() == before && from == to) {
            faults.push_back(Fault{FaultCode::contradiction, Path{strap, "to"}.text(), each.to, "another mark"});
        }
        if (each.most_shortening) {
            require_within(*each.most_shortening, no_length, longest_reading, Path{strap, "most_shortening"}, faults);
        }
        bool named = !each.name.empty();
        for (std::size_t k = 0; k < i; ++k) {
            named = named && plan.straps[k].name != each.name;
        }
        if (!named) {
            faults.push_back(
                Fault{FaultCode::contradiction, Path{strap, "name"}.text(), each.name, "a name of its own"});
        }
    }
}

/// Strings, tails, purlins, walls, posts and crossed strings, each by its own room.
inline void find_line_faults(const RoofReadings& read, std::size_t slopes, const Path& path, Faults& faults) {
    const auto each_of = [&](const auto& all, std::string_view name, const auto& run_of) {
        const Path list{path, name};
        for (std::size_t i = 0; i < all.size(); ++i) {
            find_faults(run_of(all[i]), Path{list, i}, faults);
        }
    };
    each_of(
        read.strings, "strings", [](const RoofString& s) -> const auto& { return s.run; });
    each_of(
        read.tails, "tails", [](const RoofTails& t) -> const auto& { return t.run; });
    each_of(
        read.purlins, "purlins", [](const RoofPurlin& p) -> const auto& { return p.run; });
    each_of(
        read.walls, "walls", [](const RoofWall& w) -> const auto& { return w.wall; });
    each_of(
        read.crossings, "crossings", [](const RoofCrossing& c) -> const auto& { return c.strings; });
    const Path list{path, "crossings"};
    for (std::size_t i = 0; i < read.crossings.size(); ++i) {
        if (read.crossings[i].slope >= slopes) {
            const Path one{list, i};
            faults.push_back(Fault{FaultCode::out_of_range, Path{one, "slope"}.text(),
                                   std::to_string(read.crossings[i].slope), "0 to " + std::to_string(slopes - 1)});
        }
    }
    const Path strings{path, "strings"};
    for (std::size_t i = 0; i < read.strings.size(); ++i) {
        const Path one{strings, i};
        require_named(read.strings[i].line, Path{one, "line"}, faults);
    }
    if (read.posts) {
        find_faults(*read.posts, Path{path, "posts"}, faults);
    }
}

/// What of the readings is refused, under the names they have in the description.
inline void find_reading_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    const RoofReadings& read = *roof.readings;
    find_network_faults(roof, path, faults);
    if (read.rule) {
        find_faults(*read.rule, Path{path, "rule"}, faults);
    }
    find_pulling_faults(read.pulling, roof_points(roof), Path{path, "pulling"}, faults);
    find_line_faults(read, slope_count(roof.shape), path, faults);
    find_faults(read.trim, Path{path, "trim"}, faults);
}

}  // namespace eavewright::detail
