// SPDX-License-Identifier: BSL-1.0
#pragma once

// The outline of the eaves as it moves inward and up the roof: level lines of the roof, one after the other.
//
// Each side moves inward at its own speed (a gable stays), each corner along the line where its two sides meet. Where
// the outline next touches itself it is taken apart: places that have met become one, edges are parted at corners that
// lie on them, edges that lie on one another face to face become a ridge, and what is left is joined up again into
// outlines, each turning as sharply as it can. That one step covers a side that has shrunk to nothing, a corner that
// parts an edge, and any number of both at once. The ways of the corners and the ridges are the edges between the
// faces.

#include <eavewright/fault.hpp>
#include <eavewright/roof/footprint.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright::detail {

/// How close places of the moving outline count as one, in inches; the first under which a roof closes is taken. The
/// finest is far above the rounding of corners, and faces meet in space within it. The others serve sides that are
/// parallel or in line to a millionth but not quite, whose corners run so fast that rounding carries them further than
/// that.
inline constexpr std::array<double, 4> closeness{4e-9, 1e-7, 3e-6, 1e-4};

/// Thrown and caught within this room: the outline does not come apart cleanly at this closeness.
struct TooFine {};

/// A side as it moves. All figures in inches from the footprint's first corner.
struct MovingSide {
    PlanVector at;
    PlanVector along;  ///< unit vector; the roof lies on its left
    double speed;      ///< inches inward for an inch of offset; 0 for a gable
    std::size_t line;  ///< the first side on the same line with the same speed
};
[[nodiscard]] constexpr PlanVector inward(const MovingSide& side) { return {-side.along.y, side.along.x}; }

/// A point where faces meet, and how far the outline had come in: the offset of a side that has the first pitch.
struct WaveNode {
    PlanVector at;
    double offset;
};
/// An edge between faces, straight from one node to another: which side's face lies left of it and which right.
struct WaveArc {
    std::size_t from;
    std::size_t to;
    std::size_t left;
    std::size_t right;
};

/// A corner of a moving outline, and the side that runs from it to the next corner.
struct WaveCorner {
    std::size_t side;
    std::size_t start;  ///< the node it comes from
    PlanVector velocity;
};
using WaveLoop = std::vector<WaveCorner>;

struct Wavefront {
    double one_place;  ///< inches within which places are one
    std::vector<MovingSide> sides;
    std::vector<WaveNode> nodes;  ///< the corners of the footprint first
    std::vector<WaveArc> arcs;
};

[[nodiscard]] inline double speed_of(const Footprint& plan, std::size_t side) {
    const SlopedSide* sloped = std::get_if<SlopedSide>(&plan.sides[side]);
    if (sloped == nullptr) {
        return 0.0;
    }
    for (const Side& first : plan.sides) {
        if (!is_gable(first)) {
            return are_alike(first, plan.sides[side])
                       ? 1.0
                       : std::get<SlopedSide>(first).pitch.rise_per_run() / sloped->pitch.rise_per_run();
        }
    }
    return 1.0;
}

[[nodiscard]] inline Wavefront start_wavefront(const Footprint& plan, double one_place) {
    Wavefront wave{one_place, {}, {}, {}};
    for (std::size_t i = 0; i < plan.corners.size(); ++i) {
        const PlanVector at = way(plan.corners.front(), plan.corners[i]);
        wave.nodes.push_back({at, 0.0});
        wave.sides.push_back({at, direction_of(plan, i), speed_of(plan, i), i});
    }
    for (std::size_t i = 0; i < wave.sides.size(); ++i) {
        MovingSide& side = wave.sides[i];
        const PlanVector end = wave.nodes[(i + 1) % wave.nodes.size()].at;
        for (std::size_t j = 0; j < i && side.line == i; ++j) {
            const MovingSide& other = wave.sides[j];
            const bool on_line = std::fabs(cross(other.along, side.at - other.at)) <= wave.one_place &&
                                 std::fabs(cross(other.along, end - other.at)) <= wave.one_place;
            if (on_line && dot(side.along, other.along) > 0.0 && are_alike(plan.sides[i], plan.sides[j])) {
                side.line = other.line;
            }
        }
    }
    return wave;
}

/// How the corner between two sides moves. Sums and differences of unit vectors are square to one another, so it keeps
/// its digits however straight or sharp the corner is. Sides that run on in one line at different speeds have no
/// corner.
[[nodiscard]] inline PlanVector corner_velocity(const Footprint& plan, const Wavefront& wave, std::size_t before,
                                                std::size_t after) {
    const MovingSide& a = wave.sides[before];
    const MovingSide& b = wave.sides[after];
    const PlanVector sum = inward(a) + inward(b);
    const PlanVector difference = inward(a) - inward(b);
    if (size_of(sum) <= one_direction) {
        throw TooFine{};
    }
    const PlanVector together = sum * ((a.speed + b.speed) / dot(sum, sum));
    if (a.speed == b.speed) {
        return together;
    }
    if (size_of(difference) <= one_line) {
        throw FaultError{Fault{FaultCode::contradiction, both_sides(Path{"footprint"}, before, after),
                               describe_sides(plan, before, after) + ", which come to run on in one line",
                               "one pitch on both, or plan and pitches under which they do not come level"}};
    }
    return together + difference * ((a.speed - b.speed) / dot(difference, difference));
}

/// The outlines that the eaves start as: corners in the middle of one line left out.
[[nodiscard]] inline WaveLoop first_loop(const Footprint& plan, const Wavefront& wave) {
    WaveLoop loop;
    const std::size_t n = wave.sides.size();
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t before = (i + n - 1) % n;
        if (wave.sides[before].line != wave.sides[i].line) {
            loop.push_back({i, i, corner_velocity(plan, wave, before, i)});
        }
    }
    return loop;
}

[[nodiscard]] inline PlanVector place_of(const Wavefront& wave, const WaveCorner& corner, double offset) {
    const WaveNode& start = wave.nodes[corner.start];
    return start.at + corner.velocity * (offset - start.offset);
}

/// The next touch of an outline with itself: a corner comes to lie on an edge, or an edge has no length left.
struct Contact {
    double offset = std::numeric_limits<double>::infinity();
    std::size_t corner = 0;
    std::size_t edge = 0;  ///< the corner that the edge starts at
};

/// When edge `j` of an outline has shrunk to nothing, if ever.
[[nodiscard]] inline Contact end_of_edge(const Wavefront& wave, const WaveLoop& loop, std::size_t j, double now) {
    const WaveCorner& from = loop[j];
    const WaveCorner& to = loop[(j + 1) % loop.size()];
    const PlanVector along = wave.sides[from.side].along;
    const double growth = dot(to.velocity - from.velocity, along);
    const double length = dot(place_of(wave, to, now) - place_of(wave, from, now), along);
    if (!(growth < 0.0)) {
        return {};
    }
    return {length > 0.0 ? now - length / growth : now, (j + 1) % loop.size(), j};
}
/// When corner `i` comes to lie on edge `j`, if ever.
[[nodiscard]] inline Contact corner_on_edge(const Wavefront& wave, const WaveLoop& loop, std::size_t i, std::size_t j,
                                            double now) {
    const WaveCorner& from = loop[j];
    const WaveCorner& to = loop[(j + 1) % loop.size()];
    const MovingSide& side = wave.sides[from.side];
    const double closing = side.speed - dot(loop[i].velocity, inward(side));
    const double gap = dot(place_of(wave, loop[i], now) - place_of(wave, from, now), inward(side));
    if (!(closing > 0.0) || gap < -wave.one_place) {
        return {};
    }
    const double when = gap > 0.0 ? now + gap / closing : now;
    const PlanVector at = place_of(wave, loop[i], when);
    const bool past_start = dot(at - place_of(wave, from, when), side.along) >= -wave.one_place;
    const bool before_end = dot(place_of(wave, to, when) - at, side.along) >= -wave.one_place;
    return past_start && before_end ? Contact{when, i, j} : Contact{};
}
[[nodiscard]] inline Contact next_contact(const Wavefront& wave, const WaveLoop& loop, double now) {
    Contact next;
    const std::size_t n = loop.size();
    for (std::size_t j = 0; j < n; ++j) {
        for (std::size_t i = 0; i < n; ++i) {
            const bool own = i == j || i == (j + 1) % n;
            const Contact found = i == j ? end_of_edge(wave, loop, j, now)
                                  : own  ? Contact{}
                                         : corner_on_edge(wave, loop, i, j, now);
            if (found.offset < next.offset) {
                next = found;
            }
        }
    }
    return next;
}

}  // namespace eavewright::detail
