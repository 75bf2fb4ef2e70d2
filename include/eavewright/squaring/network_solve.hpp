// SPDX-License-Identifier: BSL-1.0
#pragma once

// One step of the adjustment: the least squares solution of the rows, its cofactors, and what the rows leave undecided.
//
// Sound networks go the quick way, by the factor of their normal equations. The trace of the inverse bounds how near they
// are to undecided; past that bound they are taken apart by eigenvalues, which names what moves freely.

#include <eavewright/squaring/network_datum.hpp>
#include <eavewright/squaring/network_rows.hpp>

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/Eigenvalues>

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace eavewright::squaring_detail {

/// A number that is this many times less certain than its own readings are together is not decided by them.
inline constexpr double loosest = 1e6;

template <class Number>
[[nodiscard]] MatrixOf<Number> normal_matrix(const std::vector<ReadingRow>& rows, std::size_t unknowns) {
    MatrixOf<Number> normal = MatrixOf<Number>::Zero(at(unknowns), at(unknowns));
    for (const ReadingRow& row : rows) {
        for (std::size_t i = 0; i < row.used; ++i) {
            for (std::size_t j = 0; j < row.used; ++j) {
                normal(at(row.column[i]), at(row.column[j])) += row.slope[i] * row.slope[j];
            }
        }
    }
    return normal;
}

/// Normal equations and the factor that solves them; what they leave undecided beside rigid motions.
template <class Number>
struct Normals {
    MatrixOf<Number> normal;
    Datum<Number> datum;
    Number hold_weight;
    MatrixOf<Number> factor;     ///< lower triangle; what stands above it is not used
    bool quick;                  ///< the factor is good; else the eigenvalues below
    VectorOf<Number> unit;       ///< of each unknown, its own error if the others were known: what eigenvalues count in
    MatrixOf<Number> undecided;  ///< unit vectors, in those units, that no reading feels
    MatrixOf<Number> pseudo_inverse;
    Number bound = loosest;

    [[nodiscard]] VectorOf<Number> solve(const VectorOf<Number>& slope) const {
        if (!quick) {
            return pseudo_inverse.lazyProduct(slope);
        }
        VectorOf<Number> solved = factor.template triangularView<Eigen::Lower>().solve(slope);
        factor.template triangularView<Eigen::Lower>().transpose().solveInPlace(solved);
        return solved;
    }
};

/// Holds the whole still: adds what the datum keeps to the normal equations.
template <class Number>
void add_hold(const Normals<Number>& n, MatrixOf<Number>& normal) {
    for (Eigen::Index i = 0; i < n.datum.count(); ++i) {
        const auto hold = n.datum.hold.col(i);
        normal += n.hold_weight * hold.lazyProduct(hold.transpose());
    }
}

/// An inverse of the normal equations by their eigenvalues, with the unknowns that lie beyond `bound` named. Each unknown
/// counts in its own unit, so that a coarse reading beside fine ones is not taken for none.
template <class Number>
void take_apart(Normals<Number>& n) {
    MatrixOf<Number> held = n.normal;
    add_hold(n, held);
    const Eigen::Index all = held.rows();
    n.unit = VectorOf<Number>::Ones(all);
    for (Eigen::Index i = 0; i < all; ++i) {
        n.unit[i] = held(i, i) > 0.0 ? 1.0 / std::sqrt(held(i, i)) : 1.0;
    }
    held = n.unit.asDiagonal() * held * n.unit.asDiagonal();
    const Eigen::SelfAdjointEigenSolver<MatrixOf<Number>> parts{held};
    const VectorOf<Number>& values = parts.eigenvalues();
    const Number least = all > 0 ? values[all - 1] / (n.bound * n.bound) : 0.0;
    Eigen::Index undecided = 0;
    while (undecided < all && !(values[undecided] > least)) {
        ++undecided;
    }
    n.undecided = parts.eigenvectors().leftCols(undecided);
    n.pseudo_inverse = MatrixOf<Number>::Zero(all, all);
    for (Eigen::Index i = undecided; i < all; ++i) {
        const VectorOf<Number> own = n.unit.cwiseProduct(parts.eigenvectors().col(i));
        n.pseudo_inverse += own.lazyProduct(own.transpose()) / values[i];
    }
    n.quick = false;
}

/// Lower factor of a symmetric matrix, in its own lower half; whether every pivot stands well above rounding. A pivot far below
/// its diagonal is what is left of an unknown once the others are settled. Readings join neighbours, so that most of the
/// factor is zero: columns that do not touch are passed over, which the library's dense factor cannot do.
template <class Number>
[[nodiscard]] bool factor_lower(MatrixOf<Number>& matrix) {
    const Eigen::Index size = matrix.rows();
    const VectorOf<Number> before = matrix.diagonal();
    for (Eigen::Index k = 0; k < size; ++k) {
        const Number pivot = matrix(k, k);
        if (!(pivot > 1e-10 * before[k])) {
            return false;
        }
        matrix.col(k).tail(size - k) /= std::sqrt(pivot);
        for (Eigen::Index j = k + 1; j < size; ++j) {
            const Number joined = matrix(j, k);
            if (joined != 0.0) {
                matrix.col(j).tail(size - j) -= joined * matrix.col(k).tail(size - j);
            }
        }
    }
    return true;
}

/// Factors the normal equations of `rows`.
template <class Number>
[[nodiscard]] Normals<Number> factor_normals(const std::vector<ReadingRow>& rows, std::size_t unknowns,
                                             Datum<Number> datum) {
    Normals<Number> n{normal_matrix<Number>(rows, unknowns),
                      std::move(datum),
                      1.0,
                      {},
                      true,
                      {},
                      MatrixOf<Number>{at(unknowns), 0},
                      {}};
    const Number felt = n.normal.trace();
    n.hold_weight = felt > 0.0 ? felt / static_cast<Number>(unknowns) : 1.0;
    n.factor = n.normal;
    add_hold(n, n.factor);
    n.quick = factor_lower(n.factor);
    if (!n.quick) {
        take_apart(n);
    }
    return n;
}

/// Inverse of a matrix from its lower factor. Both halves of the way skip the zeros above the diagonal, which the general
/// routines do not: a third of their work.
template <class Number>
[[nodiscard]] MatrixOf<Number> inverse_by_factor(const MatrixOf<Number>& lower) {
    const Eigen::Index size = lower.rows();
    MatrixOf<Number> inverse_lower = MatrixOf<Number>::Identity(size, size);
    for (Eigen::Index j = 0; j < size; ++j) {
        for (Eigen::Index k = j; k < size; ++k) {
            const Eigen::Index below = size - k - 1;
            const Number here = inverse_lower(k, j) / lower(k, k);
            inverse_lower(k, j) = here;
            inverse_lower.col(j).tail(below) -= here * lower.col(k).tail(below);
        }
    }
    MatrixOf<Number> inverse{size, size};
    for (Eigen::Index j = 0; j < size; ++j) {
        for (Eigen::Index i = j; i < size; ++i) {
            inverse(i, j) = inverse_lower.col(i).tail(size - i).dot(inverse_lower.col(j).tail(size - i));
            inverse(j, i) = inverse(i, j);
        }
    }
    return inverse;
}

/// Covariances of the unknowns, for readings of their stated deviations; of the whole as `datum.hold` keeps it.
template <class Number>
[[nodiscard]] MatrixOf<Number> cofactors_of(Normals<Number>& n) {
    MatrixOf<Number> cofactors = n.pseudo_inverse;
    if (n.quick) {
        cofactors = inverse_by_factor(n.factor);
        Number worst = 0;
        for (Eigen::Index i = 0; i < cofactors.rows(); ++i) {
            const Number here = cofactors(i, i) * n.normal(i, i);
            worst = here > worst ? here : worst;
        }
        if (!(worst < loosest * loosest)) {
            take_apart(n);
            cofactors = n.pseudo_inverse;
        }
    }
    if (n.datum.count() > 0) {  // the hold itself is no reading: take its share out
        const MatrixOf<Number> seen = n.datum.hold.transpose().lazyProduct(n.datum.hold);
        const MatrixOf<Number> share = seen.llt().solve(n.datum.motions.transpose());
        cofactors -= share.transpose().lazyProduct(share) / n.hold_weight;
    }
    return cofactors;
}

}  // namespace eavewright::squaring_detail
