// SPDX-License-Identifier: BSL-1.0
#pragma once

// What no reading can feel: the whole moving as one rigid body. Where points are held it cannot; where none are it is
// placed by its own middle ("inner constraints"), which makes the sum of all variances least.

#include <eavewright/squaring/network_rows.hpp>

#include <Eigen/Core>
#include <Eigen/Eigenvalues>

#include <array>
#include <cstddef>
#include <vector>

namespace eavewright::squaring_detail {

/// Rigid motions that held points and readings leave free: one column each. `hold` is the same with the heights of setups
/// left out: what is kept still on the whole.
template <class Number>
struct Datum {
    MatrixOf<Number> motions;
    MatrixOf<Number> hold;
    [[nodiscard]] Eigen::Index count() const { return motions.cols(); }
};

/// All rigid motions of the places about their middle, three or six, turned ones scaled to the size of the whole: one
/// velocity for each coordinate.
template <MeasuredPlace Place>
[[nodiscard]] Matrix rigid_motions(const NetworkState<Place>& state) {
    constexpr std::size_t n = coordinate_count<Place>;
    const std::size_t points = state.places.size();
    Numbers<Place> middle{};
    for (const auto& place : state.places) {
        for (std::size_t i = 0; i < n; ++i) {
            middle[i] += place[i] / static_cast<double>(points);
        }
    }
    double size = 0.0;
    for (const auto& place : state.places) {
        size += step_between(middle, place).length / static_cast<double>(points);
    }
    const double turn = size > 0.0 ? 1.0 / size : 0.0;
    Matrix motions = Matrix::Zero(at(points * n), n == 2 ? 3 : 6);
    for (std::size_t p = 0; p < points; ++p) {
        for (std::size_t i = 0; i < n; ++i) {
            motions(at(p * n + i), at(i)) = 1.0;
        }
        // About the axis square to i and j: i moves with -j, j moves with i.
        constexpr std::array<std::array<std::size_t, 2>, 3> turns{{{0, 1}, {0, 2}, {1, 2}}};
        for (std::size_t t = 0; t < (n == 2 ? 1U : 3U); ++t) {
            const auto [i, j] = turns[t];
            motions(at(p * n + i), at(n + t)) = -turn * (state.places[p][j] - middle[j]);
            motions(at(p * n + j), at(n + t)) = turn * (state.places[p][i] - middle[i]);
        }
    }
    return motions;
}

/// Squares of what each motion would do to points and readings that do not let it: with points that are free along a line
/// standing still, and with them sliding.
struct BrokenByMotions {
    Matrix standing;
    Matrix sliding;
    bool has_lines = false;
};

/// The same motions as unknowns of the network; adds to `broken` what they would do to points.
template <MeasuredPlace Place>
[[nodiscard]] Matrix as_unknowns(const Network<Place>& network, const Unknowns<Place>& unknowns, const Matrix& motions,
                                 BrokenByMotions& broken) {
    constexpr std::size_t n = coordinate_count<Place>;
    Matrix moved = Matrix::Zero(at(unknowns.count), motions.cols());
    for (std::size_t p = 0; p < unknowns.points.size(); ++p) {
        const auto& own = unknowns.points[p];
        Matrix left = motions.middleRows(at(p * n), at(n));
        if (own.count == n) {
            moved.middleRows(at(own.first), at(n)) = left;
            continue;
        }
        broken.standing += left.transpose().lazyProduct(left);
        if (own.count == 1) {
            const Eigen::Map<const Vector> direction{own.direction.data(), at(n)};
            moved.row(at(own.first)) = direction.transpose().lazyProduct(left);
            left -= direction.lazyProduct(moved.row(at(own.first)));
            broken.has_lines = true;
        }
        broken.sliding += left.transpose().lazyProduct(left);
    }
    if constexpr (n == 3) {
        for (const auto& reading : network.readings) {
            const auto* level = std::get_if<LevelReading>(&reading);
            if (level != nullptr) {
                moved.row(at(*unknowns.setups[level->setup])) = motions.row(at(level->point * n + 2));
            }
        }
    }
    return moved;
}

/// The same motions at right angles to one another and of length 1. A turn of points in one line about that line moves
/// nothing: only motions that move something stay.
template <class Number>
[[nodiscard]] MatrixOf<Number> apart(MatrixOf<Number> motions) {
    Eigen::Index kept = 0;
    for (Eigen::Index i = 0; i < motions.cols(); ++i) {
        VectorOf<Number> own = motions.col(i);
        const Number size = own.norm();
        for (Eigen::Index k = 0; k < kept; ++k) {
            own -= motions.col(k) * motions.col(k).dot(own);
        }
        if (own.norm() > 1e-6 * (size > 1.0 ? size : 1.0)) {
            motions.col(kept++) = own / own.norm();
        }
    }
    motions.conservativeResize(motions.rows(), kept);
    return motions;
}

/// Combinations of the motions that break nothing.
template <class Number>
[[nodiscard]] MatrixOf<Number> unbroken(const MatrixOf<Number>& broken, std::size_t points) {
    const Eigen::SelfAdjointEigenSolver<MatrixOf<Number>> kinds{broken};
    Eigen::Index free = 0;
    while (free < broken.cols() && kinds.eigenvalues()[free] <= 1e-12 * static_cast<Number>(points)) {
        ++free;
    }
    return kinds.eigenvectors().leftCols(free);
}

/// What the motions would do to readings: all but distances may feel them, as offsets in plan and levels feel a tilt.
template <MeasuredPlace Place>
[[nodiscard]] Matrix broken_readings(const Network<Place>& network, const std::vector<ReadingRow>& rows,
                                     const Matrix& moved) {
    Matrix broken = Matrix::Zero(moved.cols(), moved.cols());
    for (std::size_t r = 0; r < network.readings.size(); ++r) {
        if (!std::holds_alternative<DistanceReading>(network.readings[r])) {
            Eigen::RowVectorXd felt = Eigen::RowVectorXd::Zero(moved.cols());
            double size = 0.0;
            for (std::size_t i = 0; i < rows[r].used; ++i) {
                felt += rows[r].slope[i] * moved.row(at(rows[r].column[i]));
                size += rows[r].slope[i] * rows[r].slope[i];
            }
            broken += felt.transpose().lazyProduct(felt) / (size > 0.0 ? size : 1.0);
        }
    }
    return broken;
}

/// The rigid motions that held points and readings leave free. A point that is free along a line lets the whole slide along
/// it, and turn about the point; a turn that carries the point along its line soon carries it off.
template <MeasuredPlace Place>
[[nodiscard]] Datum<double> datum_of(const Network<Place>& network, const Unknowns<Place>& unknowns,
                                     const NetworkState<Place>& state, const std::vector<ReadingRow>& rows) {
    constexpr Eigen::Index n = at(coordinate_count<Place>);
    const Matrix motions = rigid_motions(state);
    const Eigen::Index count = motions.cols();
    BrokenByMotions broken{Matrix::Zero(count, count), Matrix::Zero(count, count)};
    const Matrix moved = as_unknowns(network, unknowns, motions, broken);
    const Matrix felt = broken_readings(network, rows, moved);
    Matrix free = moved.lazyProduct(unbroken<double>(broken.standing + felt, state.places.size()));
    if (broken.has_lines) {
        broken.sliding += felt;
        const Matrix slides = unbroken<double>(broken.sliding.topLeftCorner(n, n), state.places.size());
        const Matrix turns = free;
        free.resize(turns.rows(), turns.cols() + slides.cols());
        free << turns, moved.leftCols(n).lazyProduct(slides);
    }
    Datum<double> datum{apart<double>(free), {}};
    datum.hold = datum.motions;
    for (const auto& setup : unknowns.setups) {
        if (setup) {
            datum.hold.row(at(*setup)).setZero();
        }
    }
    return datum;
}

}  // namespace eavewright::squaring_detail
