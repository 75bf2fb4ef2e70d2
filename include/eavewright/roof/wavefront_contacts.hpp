// SPDX-License-Identifier: BSL-1.0
#pragma once

// A moving outline taken apart where it touches itself, and joined up again.

#include <eavewright/roof/footprint.hpp>
#include <eavewright/roof/wavefront.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// How far `to` is turned clockwise from `from`, growing with the angle from just above 0 to 4 for a whole turn.
[[nodiscard]] inline double clockwise_turn(PlanVector from, PlanVector to) {
    const double x = dot(from, to);
    const double y = cross(to, from);
    const double share = x / (std::fabs(x) + std::fabs(y));
    const double turn = y >= 0.0 ? 1.0 - share : 3.0 + share;
    return turn > 0.0 ? turn : 4.0;
}

/// A stretch of an edge between two places.
struct WavePiece {
    std::size_t from;
    std::size_t to;
    std::size_t side;
    bool open = true;  ///< neither turned into a ridge nor yet part of a new outline
};

/// An outline at the moment it touches itself. Places are the corners of the loop; corners that have met share one.
struct WaveInstant {
    double offset;
    std::vector<PlanVector> at;                    ///< of each corner
    std::vector<std::size_t> place;                ///< of each corner: the first corner that stands there
    std::vector<bool> met;                         ///< whether something happens at a place
    std::vector<std::optional<std::size_t>> node;  ///< of each place where something happens
    std::vector<WavePiece> pieces;
};

/// Corners that have met, and where each place is: where its slowest corner is, which is known best.
[[nodiscard]] inline WaveInstant gather_places(const Wavefront& wave, const WaveLoop& loop, const Contact& contact) {
    const std::size_t n = loop.size();
    WaveInstant instant{
        contact.offset, {}, {}, std::vector<bool>(n, false), std::vector<std::optional<std::size_t>>(n), {}};
    for (std::size_t i = 0; i < n; ++i) {
        instant.at.push_back(place_of(wave, loop[i], contact.offset));
        instant.place.push_back(i);
    }
    const bool edge_ends = contact.corner == (contact.edge + 1) % n;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = i + 1; k < n; ++k) {
            const bool forced =
                edge_ends && ((i == contact.edge && k == contact.corner) || (k == contact.edge && i == contact.corner));
            const std::size_t low = instant.place[i] < instant.place[k] ? instant.place[i] : instant.place[k];
            const std::size_t high = instant.place[i] < instant.place[k] ? instant.place[k] : instant.place[i];
            if (low == high || !(forced || size_of(instant.at[i] - instant.at[k]) <= wave.one_place)) {
                continue;
            }
            instant.met[low] = true;
            for (std::size_t& place : instant.place) {
                place = place == high ? low : place;
            }
        }
    }
    std::vector<std::size_t> slowest = instant.place;
    for (std::size_t i = 0; i < n; ++i) {
        std::size_t& best = slowest[instant.place[i]];
        best = size_of(loop[i].velocity) < size_of(loop[best].velocity) ? i : best;
    }
    for (std::size_t i = 0; i < n; ++i) {
        instant.at[i] = i == instant.place[i] ? place_of(wave, loop[slowest[i]], contact.offset) : instant.at[i];
    }
    return instant;
}

/// The edges of the outline, parted at every place that lies on them.
inline void part_edges(const Wavefront& wave, const WaveLoop& loop, const Contact& contact, WaveInstant& instant) {
    const std::size_t n = loop.size();
    for (std::size_t j = 0; j < n; ++j) {
        const std::size_t from = instant.place[j];
        const std::size_t to = instant.place[(j + 1) % n];
        const PlanVector along = wave.sides[loop[j].side].along;
        const auto reach = [&](std::size_t place) { return dot(instant.at[place] - instant.at[from], along); };
        std::vector<std::size_t> stops{from};
        for (std::size_t i = 0; i < n && from != to; ++i) {
            const bool apart = instant.place[i] == i && i != from && i != to;
            const bool forced = contact.edge == j && instant.place[contact.corner] == i;
            const bool on_line = std::fabs(cross(along, instant.at[i] - instant.at[from])) <= wave.one_place;
            if (!apart || !(forced || (on_line && reach(i) > 0.0 && reach(i) < reach(to)))) {
                continue;
            }
            instant.met[i] = true;
            std::size_t k = stops.size();
            while (k > 1 && reach(stops[k - 1]) > reach(i)) {
                --k;
            }
            stops.insert(stops.begin() + static_cast<std::ptrdiff_t>(k), i);
        }
        stops.push_back(to);
        for (std::size_t k = 0; k + 1 < stops.size(); ++k) {
            if (stops[k] != stops[k + 1]) {
                instant.pieces.push_back({stops[k], stops[k + 1], loop[j].side});
            }
        }
    }
}

/// Pieces that lie on one another face to face close up: each pair will be a ridge.
[[nodiscard]] inline std::vector<std::pair<std::size_t, std::size_t>> close_pieces(WaveInstant& instant) {
    std::vector<std::pair<std::size_t, std::size_t>> closed;
    for (std::size_t a = 0; a < instant.pieces.size(); ++a) {
        for (std::size_t b = a + 1; b < instant.pieces.size(); ++b) {
            WavePiece& one = instant.pieces[a];
            WavePiece& other = instant.pieces[b];
            if (one.open && other.open && one.from == other.to && one.to == other.from) {
                one.open = false;
                other.open = false;
                instant.met[one.from] = true;
                instant.met[one.to] = true;
                closed.emplace_back(a, b);
            }
        }
    }
    return closed;
}

/// A node where corners have met, moved onto the planes of all sides that meet there: a few rounds of the shortest way
/// onto each in turn take out what rounding has left, which grows where sides meet at sharp angles.
[[nodiscard]] inline WaveNode settled_node(const Wavefront& wave, const WaveLoop& loop, const WaveInstant& instant,
                                           std::size_t place) {
    std::vector<std::size_t> meeting;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        if (instant.place[i] == place) {
            meeting.push_back(loop[(i + loop.size() - 1) % loop.size()].side);
            meeting.push_back(loop[i].side);
        }
    }
    for (const WavePiece& piece : instant.pieces) {
        if (piece.to == place) {
            meeting.push_back(piece.side);
        }
    }
    WaveNode node{instant.at[place], instant.offset};
    for (int round = 0; round < 16; ++round) {
        for (const std::size_t i : meeting) {
            const MovingSide& side = wave.sides[i];
            const double off = dot(node.at - side.at, inward(side)) - side.speed * node.offset;
            const double step = off / (1.0 + side.speed * side.speed);
            node.at = node.at - inward(side) * step;
            node.offset += side.speed * step;
        }
    }
    return node;
}

/// Ends the corners that have come to a place where something happens: their ways become edges between faces.
inline void end_corners(Wavefront& wave, const WaveLoop& loop, WaveInstant& instant) {
    const std::size_t n = loop.size();
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t place = instant.place[i];
        if (!instant.met[place]) {
            continue;
        }
        std::optional<std::size_t>& node = instant.node[place];
        const WaveNode& start = wave.nodes[loop[i].start];
        const bool here =
            size_of(start.at - instant.at[place]) <= wave.one_place && instant.offset - start.offset <= wave.one_place;
        if (!node && here) {
            node = loop[i].start;
        }
    }
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t place = instant.place[i];
        if (!instant.met[place]) {
            continue;
        }
        std::optional<std::size_t>& node = instant.node[place];
        if (!node) {
            node = wave.nodes.size();
            wave.nodes.push_back(settled_node(wave, loop, instant, place));
        }
        if (*node != loop[i].start) {
            wave.arcs.push_back({loop[i].start, *node, loop[(i + n - 1) % n].side, loop[i].side});
        }
    }
}

/// The piece that an outline goes on with after `piece`: of those that start where it ends, the sharpest turn left.
[[nodiscard]] inline std::size_t next_piece(const Wavefront& wave, const WaveInstant& instant, std::size_t piece) {
    const WavePiece& before = instant.pieces[piece];
    const PlanVector back = wave.sides[before.side].along * -1.0;
    std::optional<std::size_t> best;
    double least = 0.0;
    for (std::size_t k = 0; k < instant.pieces.size(); ++k) {
        if (!instant.pieces[k].open || instant.pieces[k].from != before.to) {
            continue;
        }
        const double turn = clockwise_turn(back, wave.sides[instant.pieces[k].side].along);
        if (!best || turn < least) {
            best = k;
            least = turn;
        }
    }
    if (!best) {
        throw TooFine{};
    }
    return *best;
}

/// A ring of pieces as an outline that moves on. Pieces of one line that follow one another are one edge.
[[nodiscard]] inline WaveLoop loop_of_ring(const Footprint& plan, const Wavefront& wave, const WaveLoop& old,
                                           const WaveInstant& instant, const std::vector<std::size_t>& ring) {
    WaveLoop loop;
    for (std::size_t k = 0; k < ring.size(); ++k) {
        const std::size_t before = instant.pieces[ring[(k + ring.size() - 1) % ring.size()]].side;
        const WavePiece& piece = instant.pieces[ring[k]];
        if (wave.sides[before].line == wave.sides[piece.side].line) {
            continue;
        }
        if (instant.met[piece.from]) {
            loop.push_back({piece.side, *instant.node[piece.from], corner_velocity(plan, wave, before, piece.side)});
        } else {
            loop.push_back(old[piece.from]);
        }
    }
    if (loop.size() < 3) {
        throw TooFine{};
    }
    return loop;
}

/// Takes an outline apart at a contact; what is left of it are the outlines returned.
[[nodiscard]] inline std::vector<WaveLoop> pass_contact(const Footprint& plan, Wavefront& wave, const WaveLoop& loop,
                                                        const Contact& contact) {
    WaveInstant instant = gather_places(wave, loop, contact);
    part_edges(wave, loop, contact, instant);
    const std::vector<std::pair<std::size_t, std::size_t>> ridges = close_pieces(instant);
    end_corners(wave, loop, instant);
    for (const auto& [one, other] : ridges) {
        const WavePiece& piece = instant.pieces[one];
        wave.arcs.push_back(
            {*instant.node[piece.from], *instant.node[piece.to], instant.pieces[other].side, piece.side});
    }
    std::vector<WaveLoop> loops;
    for (std::size_t first = 0; first < instant.pieces.size(); ++first) {
        if (!instant.pieces[first].open) {
            continue;
        }
        std::vector<std::size_t> ring{first};
        for (std::size_t next = next_piece(wave, instant, first); next != first;
             next = next_piece(wave, instant, next)) {
            ring.push_back(next);
            instant.pieces[next].open = false;
        }
        instant.pieces[first].open = false;
        loops.push_back(loop_of_ring(plan, wave, loop, instant, ring));
    }
    return loops;
}

/// Most contacts that one roof is followed through: each takes a corner away or parts an outline, so it has far fewer.
inline constexpr std::size_t most_contacts = 16 * most_footprint_corners;

/// The whole way of the eaves up the roof: its nodes, and the edges between its faces.
[[nodiscard]] inline Wavefront run_wavefront(const Footprint& plan, double one_place) {
    struct Moving {
        WaveLoop loop;
        double offset;
    };
    Wavefront wave = start_wavefront(plan, one_place);
    std::vector<Moving> moving{{first_loop(plan, wave), 0.0}};
    for (std::size_t passed = 0; !moving.empty(); ++passed) {
        const Moving now = std::move(moving.back());
        moving.pop_back();
        const Contact contact = next_contact(wave, now.loop, now.offset);
        if (!std::isfinite(contact.offset) || passed == most_contacts) {
            throw TooFine{};
        }
        for (WaveLoop& loop : pass_contact(plan, wave, now.loop, contact)) {
            moving.push_back({std::move(loop), contact.offset});
        }
    }
    return wave;
}

}  // namespace eavewright::detail
