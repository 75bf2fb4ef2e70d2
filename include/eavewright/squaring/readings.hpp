// SPDX-License-Identifier: BSL-1.0
#pragma once

// Marked points and what was read between them: distances by tape, offsets from a string, heights by a level. Not all
// points need be read from all; what the readings settle is for squaring/network.hpp to say.

#include <eavewright/fault.hpp>
#include <eavewright/squaring/coordinates.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/length.hpp>

#include <concepts>
#include <cstddef>
#include <string>
#include <string_view>
#include <type_traits>
#include <unordered_map>
#include <variant>
#include <vector>

namespace eavewright {

/// A point that the readings are to place.
struct Free {};
/// A point that stands where it is said to stand: the foot of a post in concrete, the end of a base line.
struct Held {};
/// A point that can only be along one line through where it is said to stand. Only the direction counts, not its length.
template <MeasuredPlace Place>
struct FreeAlong {
    Place direction;
};
template <MeasuredPlace Place>
using Freedom = std::variant<Free, Held, FreeAlong<Place>>;

/// A mark on the building. `about` is where it stands if held, and else near enough to tell it from its mirror image:
/// within a tenth of the shortest distance read from it.
template <MeasuredPlace Place>
struct MarkedPoint {
    std::string name;
    Place about;
    Freedom<Place> freedom = Free{};
};

/// A distance as read, point to point, with one of the tapes.
struct DistanceReading {
    std::size_t from;
    std::size_t to;
    Length read;
    std::size_t tape = 0;
};

/// How far a point stands off the line (in a building: off the plumb plane) from one point to another, to the left of
/// it seen from above or, on a roof, from outside. In 0.0001 to 12 in is one standard deviation.
struct OffsetReading {
    std::size_t point;
    std::size_t line_from;
    std::size_t line_to;
    Length read;
    Length deviation = one_inch / 16.0;
};

/// How far a point stands below the line of sight of a level, or below the water of a hose, at one of its setups. Two
/// points read at one setup give their difference in height; the height of the setup itself is found with the rest.
struct LevelReading {
    std::size_t point;
    std::size_t setup;
    Length below;
    Length deviation = one_inch / 16.0;
};

namespace squaring_detail {
template <MeasuredPlace Place>
struct ReadingsOf;
template <>
struct ReadingsOf<PlaneCorner> {
    using Kind = std::variant<DistanceReading, OffsetReading>;
};
template <>
struct ReadingsOf<BuildingPoint> {
    using Kind = std::variant<DistanceReading, OffsetReading, LevelReading>;
};
}  // namespace squaring_detail

/// Heights are read in the building only: a plane has none.
template <MeasuredPlace Place>
using Reading = typename squaring_detail::ReadingsOf<Place>::Kind;

/// Marked points, tapes and readings. At most 500 points and 5000 readings.
template <MeasuredPlace Place>
struct Network {
    std::vector<MarkedPoint<Place>> points;
    std::vector<TapeError> tapes;
    std::vector<Reading<Place>> readings;
};
using PlaneNetwork = Network<PlaneCorner>;
using BuildingNetwork = Network<BuildingPoint>;

inline constexpr std::size_t most_network_points = 500;
inline constexpr std::size_t most_network_readings = 5000;
/// Three distances break their triangle where the longest is more than the sum of the others by this many standard
/// deviations: no reading error then, but a wrong point or a slipped foot.
inline constexpr double broken_triangle_deviations = 10.0;

namespace squaring_detail {

inline void require_index(std::size_t index, std::size_t count, const Path& path, Faults& faults) {
    if (index >= count) {
        faults.push_back(Fault{FaultCode::out_of_range, path.text(), std::to_string(index),
                               "0 to " + std::to_string(count == 0 ? 0 : count - 1) + ", of " + std::to_string(count)});
    }
}
inline void require_other(std::size_t one, std::size_t other, const Path& path, Faults& faults) {
    if (one == other) {
        faults.push_back(Fault{FaultCode::contradiction, path.text(), std::to_string(one), "two different points"});
    }
}
inline void require_deviation(Length deviation, const Path& path, Faults& faults) {
    require_within(deviation, one_inch / 10000.0, one_inch * 12.0, Path{path, "deviation"}, faults);
}

template <MeasuredPlace Place>
void find_reading_faults(const Network<Place>& network, const DistanceReading& r, const Path& path, Faults& faults) {
    require_index(r.from, network.points.size(), Path{path, "from"}, faults);
    require_index(r.to, network.points.size(), Path{path, "to"}, faults);
    require_other(r.to, r.from, Path{path, "to"}, faults);
    require_within(r.read, shortest_side, longest_reading, Path{path, "read"}, faults);
    require_index(r.tape, network.tapes.size(), Path{path, "tape"}, faults);
}
template <MeasuredPlace Place>
void find_reading_faults(const Network<Place>& network, const OffsetReading& r, const Path& path, Faults& faults) {
    require_index(r.point, network.points.size(), Path{path, "point"}, faults);
    require_index(r.line_from, network.points.size(), Path{path, "line_from"}, faults);
    require_index(r.line_to, network.points.size(), Path{path, "line_to"}, faults);
    require_other(r.line_to, r.line_from, Path{path, "line_to"}, faults);
    require_other(r.point, r.line_from, Path{path, "point"}, faults);
    require_other(r.point, r.line_to, Path{path, "point"}, faults);
    require_within(r.read, -longest_reading, longest_reading, Path{path, "read"}, faults);
    require_deviation(r.deviation, path, faults);
}
inline void find_reading_faults(const BuildingNetwork& network, const LevelReading& r, const Path& path,
                                Faults& faults) {
    require_index(r.point, network.points.size(), Path{path, "point"}, faults);
    require_index(r.setup, most_network_points, Path{path, "setup"}, faults);
    require_within(r.below, -longest_reading, longest_reading, Path{path, "below"}, faults);
    require_deviation(r.deviation, path, faults);
}

template <MeasuredPlace Place>
void find_point_faults(const MarkedPoint<Place>& point, const Path& path, Faults& faults) {
    if (point.name.empty()) {
        faults.push_back(Fault{FaultCode::missing_field, Path{path, "name"}.text(), "", "a name"});
    }
    const Length most = one_inch * length_limit_in;
    for_each_field<Place>([&](const auto& each) {
        require_within(point.about.*(each.get), -most, most, Path{Path{path, "about"}, each.name}, faults);
    });
    if (const auto* along = std::get_if<FreeAlong<Place>>(&point.freedom)) {
        const double size = inches(distance_between(place_of<Place>({}), along->direction));
        if (!(size > 0.0 && size <= length_limit_in)) {
            faults.push_back(Fault{std::isfinite(size) ? FaultCode::out_of_range : FaultCode::not_finite,
                                   Path{path, "freedom"}.text(), write_decimal(size, 6), "a direction"});
        }
    }
}

template <MeasuredPlace Place>
void find_name_faults(const Network<Place>& network, const Path& path, Faults& faults) {
    std::unordered_map<std::string_view, std::size_t> seen;
    for (std::size_t i = 0; i < network.points.size(); ++i) {
        const auto [known, fresh] = seen.emplace(network.points[i].name, i);
        if (!fresh) {
            faults.push_back(Fault{FaultCode::contradiction, Path{Path{Path{path, "points"}, i}, "name"}.text(),
                                   network.points[i].name,
                                   "a name of its own; points[" + std::to_string(known->second) + "] has it"});
        }
    }
}

/// The shortest reading of each pair of points, and its standard deviation; zero where none was read.
struct ReadPair {
    double read;
    double deviation;
};
template <MeasuredPlace Place>
[[nodiscard]] std::vector<ReadPair> read_pairs(const Network<Place>& network) {
    const std::size_t count = network.points.size();
    std::vector<ReadPair> pairs(count * count, ReadPair{0.0, 0.0});
    for (const Reading<Place>& each : network.readings) {
        if (const auto* distance = std::get_if<DistanceReading>(&each)) {
            const TapeError& tape = network.tapes[distance->tape];
            const double read = inches(distance->read);
            const ReadPair pair{
                read, std::sqrt(inches(tape.reading) * inches(tape.reading) + tape.scale * read * tape.scale * read)};
            for (const std::size_t at :
                 {distance->from * count + distance->to, distance->to * count + distance->from}) {
                if (pairs[at].read == 0.0 || read < pairs[at].read) {
                    pairs[at] = pair;
                }
            }
        }
    }
    return pairs;
}

template <MeasuredPlace Place>
void find_broken_triangles(const Network<Place>& network, const Path& path, Faults& faults) {
    const std::size_t count = network.points.size();
    const std::vector<ReadPair> pairs = read_pairs(network);
    for (std::size_t r = 0; r < network.readings.size(); ++r) {
        const auto* longest = std::get_if<DistanceReading>(&network.readings[r]);
        for (std::size_t via = 0; longest != nullptr && via < count; ++via) {
            const ReadPair& one = pairs[longest->from * count + via];
            const ReadPair& other = pairs[via * count + longest->to];
            if (one.read == 0.0 || other.read == 0.0) {
                continue;
            }
            const double own = inches(network.tapes[longest->tape].reading);
            const double deviation =
                std::sqrt(own * own + one.deviation * one.deviation + other.deviation * other.deviation);
            if (inches(longest->read) > one.read + other.read + broken_triangle_deviations * deviation) {
                faults.push_back(Fault{FaultCode::contradiction, Path{Path{Path{path, "readings"}, r}, "read"}.text(),
                                       describe_length(longest->read),
                                       "at most the way over " + network.points[via].name + ", " +
                                           describe_length(one_inch * (one.read + other.read))});
                return;
            }
        }
    }
}

}  // namespace squaring_detail

/// Faults: too_much_work for more points or readings than the limits; out_of_range, not_finite or contradiction for a
/// point, tape or reading by itself; contradiction where three distances break their triangle by far more than reading
/// errors could. Readings that merely disagree, or settle nothing, are a verdict.
template <MeasuredPlace Place>
void find_faults(const Network<Place>& network, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    const auto require_count = [&](std::size_t count, std::size_t most, std::string_view name) {
        if (count == 0 || count > most) {
            faults.push_back(Fault{count == 0 ? FaultCode::missing_field : FaultCode::too_much_work,
                                   Path{path, name}.text(), std::to_string(count), "1 to " + std::to_string(most)});
        }
    };
    require_count(network.points.size(), most_network_points, "points");
    require_count(network.readings.size(), most_network_readings, "readings");
    if (faults.size() != before) {
        return;
    }
    for (std::size_t i = 0; i < network.points.size(); ++i) {
        squaring_detail::find_point_faults(network.points[i], Path{Path{path, "points"}, i}, faults);
    }
    squaring_detail::find_name_faults(network, path, faults);
    for (std::size_t i = 0; i < network.tapes.size(); ++i) {
        find_faults(network.tapes[i], Path{Path{path, "tapes"}, i}, faults);
    }
    for (std::size_t i = 0; i < network.readings.size(); ++i) {
        std::visit(
            [&](const auto& reading) {
                squaring_detail::find_reading_faults(network, reading, Path{Path{path, "readings"}, i}, faults);
            },
            network.readings[i]);
    }
    if (faults.size() == before) {
        squaring_detail::find_broken_triangles(network, path, faults);
    }
}

}  // namespace eavewright
