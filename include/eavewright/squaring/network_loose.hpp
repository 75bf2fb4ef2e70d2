// SPDX-License-Identifier: BSL-1.0
#pragma once

// Which points the readings cannot place, and on which of the others the whole is then held still.

#include <eavewright/squaring/network_datum.hpp>
#include <eavewright/squaring/network_rows.hpp>
#include <eavewright/squaring/network_solve.hpp>
#include <eavewright/squaring/readings.hpp>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <variant>
#include <vector>

namespace eavewright::squaring_detail {

/// Moves smaller than this share of the whole undecided move are rounding.
inline constexpr double least_move = 1e-5;
/// What `loosest` is where some point is known to be loose, and the question is only which.
inline constexpr double loosest_beside_others = 1e4;
/// Bodies looked at before the largest is chosen; of a network in more pieces than that nothing useful can be said.
inline constexpr std::size_t most_bodies = 2000;

/// Undecided moves of every coordinate: one column each, of length 1 in the scaled unknowns.
template <MeasuredPlace Place>
[[nodiscard]] Matrix moves_of_places(const Unknowns<Place>& unknowns, const Normals<double>& normals) {
    constexpr std::size_t n = coordinate_count<Place>;
    Matrix moves = Matrix::Zero(at(unknowns.points.size() * n), normals.undecided.cols());
    for (std::size_t p = 0; p < unknowns.points.size(); ++p) {
        const auto& own = unknowns.points[p];
        for (std::size_t i = 0; own.count > 0 && i < n; ++i) {
            const std::size_t from = own.first + (own.count == 1 ? 0 : i);
            moves.row(at(p * n + i)) =
                normals.undecided.row(at(from)) * (own.count == 1 ? own.direction[i] : 1.0) * normals.unit[at(from)];
        }
    }
    return moves;
}

/// Points that all undecided moves carry along with two points of a plane, or three in space, as one rigid body with them.
/// None where those lie in line, or are themselves moved apart.
template <MeasuredPlace Place>
[[nodiscard]] std::vector<bool> moving_as_one(const Matrix& motions, const Matrix& moves,
                                              const std::array<std::size_t, coordinate_count<Place>>& base) {
    constexpr Eigen::Index n = at(coordinate_count<Place>);
    const auto count = static_cast<std::size_t>(motions.rows() / n);
    Matrix turning{n * n, motions.cols()};
    Matrix moved{n * n, moves.cols()};
    for (std::size_t i = 0; i < base.size(); ++i) {
        turning.middleRows(at(i) * n, n) = motions.middleRows(at(base[i]) * n, n);
        moved.middleRows(at(i) * n, n) = moves.middleRows(at(base[i]) * n, n);
    }
    std::vector<bool> is_in(count, false);
    const Eigen::LLT<Matrix> factor{turning.transpose().lazyProduct(turning)};
    if (factor.info() != Eigen::Success || factor.matrixLLT().diagonal().minCoeff() < 1e-3) {
        return is_in;
    }
    const Matrix slope = turning.transpose().lazyProduct(moved);
    const Matrix left = moves - motions.lazyProduct(factor.solve(slope));
    const double most = least_move * moves.cwiseAbs().maxCoeff();
    for (std::size_t p = 0; p < count; ++p) {
        is_in[p] = left.middleRows(at(p) * n, n).norm() <= most;
    }
    for (const std::size_t each : base) {
        if (!is_in[each]) {
            return std::vector<bool>(count, false);
        }
    }
    return is_in;
}

/// Pairs of points with a distance read, in space with a third that was read from both.
template <MeasuredPlace Place>
[[nodiscard]] std::vector<std::array<std::size_t, coordinate_count<Place>>> bases_of(const Network<Place>& network) {
    std::vector<std::array<std::size_t, coordinate_count<Place>>> bases;
    const std::vector<ReadPair> pairs = read_pairs(network);
    const std::size_t count = network.points.size();
    for (std::size_t a = 0; a < count; ++a) {
        for (std::size_t b = 0; b < a; ++b) {
            const bool is_read = pairs[a * count + b].read > 0.0;
            if constexpr (coordinate_count<Place> == 2) {
                if (is_read) {
                    bases.push_back({a, b});
                }
            } else {
                for (std::size_t c = 0; is_read && c < b; ++c) {
                    if (pairs[a * count + c].read > 0.0 && pairs[b * count + c].read > 0.0) {
                        bases.push_back({a, b, c});
                    }
                }
            }
        }
    }
    return bases;
}

/// The largest rigid body, of a point more at least than it takes to tell how it moves; else none.
template <MeasuredPlace Place>
[[nodiscard]] std::vector<bool> largest_body(const Network<Place>& network, const NetworkState<Place>& state,
                                             const Matrix& moves) {
    constexpr std::size_t n = coordinate_count<Place>;
    const Matrix motions = rigid_motions(state);
    std::vector<std::vector<bool>> bodies;
    std::vector<bool> largest(state.places.size(), false);
    std::size_t most = n;
    for (const std::array<std::size_t, n>& base : bases_of(network)) {
        bool is_known = false;
        for (const std::vector<bool>& body : bodies) {
            bool is_inside = true;
            for (const std::size_t each : base) {
                is_inside = is_inside && body[each];
            }
            is_known = is_known || is_inside;
        }
        if (is_known || bodies.size() == most_bodies) {
            continue;
        }
        bodies.push_back(moving_as_one<Place>(motions, moves, base));
        std::size_t size = 0;
        for (const bool is_in : bodies.back()) {
            size += is_in ? 1U : 0U;
        }
        if (size > most) {
            most = size;
            largest = bodies.back();
        }
    }
    return largest;
}

/// Shortest distance read from each point, as it was read.
template <MeasuredPlace Place>
[[nodiscard]] std::vector<double> shortest_read(const Network<Place>& network) {
    std::vector<double> shortest(network.points.size(), std::numeric_limits<double>::infinity());
    for (const Reading<Place>& each : network.readings) {
        if (const auto* r = std::get_if<DistanceReading>(&each)) {
            const double read = inches(r->read);
            shortest[r->from] = read < shortest[r->from] ? read : shortest[r->from];
            shortest[r->to] = read < shortest[r->to] ? read : shortest[r->to];
        }
    }
    return shortest;
}

/// Points that an undecided move would move; and those whose standard error is more than the shortest distance read from
/// them, as near the flat of a triangle: there the first order, and with it the error, no longer says anything.
template <MeasuredPlace Place>
[[nodiscard]] std::vector<bool> loose_points(const Network<Place>& network, const Unknowns<Place>& unknowns,
                                             const Normals<double>& normals, const Matrix& cofactors) {
    const std::vector<double> shortest = shortest_read(network);
    std::vector<bool> is_loose;
    for (std::size_t p = 0; p < unknowns.points.size(); ++p) {
        const Eigen::Index first = at(unknowns.points[p].first);
        const Eigen::Index count = at(unknowns.points[p].count);
        const bool moves =
            count > 0 && normals.undecided.cols() > 0 && normals.undecided.middleRows(first, count).norm() > least_move;
        const double variance = count > 0 ? cofactors.diagonal().segment(first, count).sum() : 0.0;
        is_loose.push_back(moves || !(variance <= shortest[p] * shortest[p]));
    }
    return is_loose;
}

/// Where nothing holds the whole and some of it is loose, the largest body of points stands for the whole: a mark that
/// nobody read must not make all the others loose. Returns whether that changed anything.
template <MeasuredPlace Place>
[[nodiscard]] bool hold_by_largest_body(const Network<Place>& network, const Unknowns<Place>& unknowns,
                                        const NetworkState<Place>& state, const std::vector<bool>& is_loose,
                                        Normals<double>& normals) {
    if (std::find(is_loose.begin(), is_loose.end(), true) == is_loose.end()) {
        return false;
    }
    if (normals.undecided.cols() == 0) {  // loose by its error alone: something is all but undecided
        normals.bound = loosest_beside_others;
        take_apart(normals);
    }
    const std::vector<bool> is_in = largest_body(network, state, moves_of_places(unknowns, normals));
    Matrix hold = normals.datum.hold;
    for (std::size_t p = 0; p < is_in.size(); ++p) {
        const auto& own = unknowns.points[p];
        if (!is_in[p] && own.count > 0) {
            hold.middleRows(at(own.first), at(own.count)).setZero();
        }
    }
    if (apart<double>(hold).cols() == hold.cols()) {  // else no body, or one that held points already keep
        normals.datum.hold = hold;
        take_apart(normals);
    }
    return true;
}

}  // namespace eavewright::squaring_detail
