// SPDX-License-Identifier: BSL-1.0
#pragma once

// A straight least squares fit: numbers that the readings depend on in proportion, as a line or a plane through marks.
// By Householder reflections of scaled columns, which keeps twice the digits that normal equations would; on any number
// type, so that a fit can be checked with one of more digits.

#include <eavewright/fault.hpp>

#include <Eigen/Core>
#include <Eigen/QR>

#include <cmath>
#include <cstddef>
#include <limits>
#include <string>

namespace eavewright {

/// The fit of `observed` by the columns of a design. Numbers are in whatever units went in.
template <class Number>
struct LinearFit {
    using Numbers = Eigen::Matrix<Number, Eigen::Dynamic, 1>;
    bool is_decided;    ///< the columns are independent; else what follows but `rank` is empty or zero
    std::size_t rank;   ///< independent columns
    std::size_t spare;  ///< observations beyond the coefficients
    Numbers coefficients;
    Numbers deviations;  ///< standard errors of the coefficients, by `residual_deviation`
    Numbers residuals;   ///< fitted less observed
    Number
        residual_deviation;  ///< root of the sum of squares over `spare`; zero, and with it the errors, where none is
};

/// Most observations and coefficients of a fit.
inline constexpr Eigen::Index most_fit_observations = 10000;
inline constexpr Eigen::Index most_fit_coefficients = 100;

namespace squaring_detail {
/// Faults: missing_field for no column; too_much_work; contradiction for another count of observations; not_finite.
template <class Number>
void require_fit(const Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>& design,
                 const Eigen::Matrix<Number, Eigen::Dynamic, 1>& observed) {
    const auto refuse = [](FaultCode code, const char* path, const std::string& given, const char* required) {
        throw FaultError{Fault{code, path, given, required}};
    };
    if (design.cols() == 0 || design.rows() == 0) {
        refuse(FaultCode::missing_field, "design", "nothing",
               "a row for each observation, a column for each coefficient");
    }
    if (design.rows() > most_fit_observations || design.cols() > most_fit_coefficients) {
        refuse(FaultCode::too_much_work, "design",
               std::to_string(design.rows()) + " by " + std::to_string(design.cols()), "at most 10000 by 100");
    }
    if (observed.size() != design.rows()) {
        refuse(FaultCode::contradiction, "observed", std::to_string(observed.size()), "as many as the design has rows");
    }
    const Number most = std::numeric_limits<Number>::max();
    for (Eigen::Index i = 0; i < design.rows(); ++i) {
        bool is_finite = observed[i] >= -most && observed[i] <= most;
        for (Eigen::Index j = 0; j < design.cols(); ++j) {
            is_finite = is_finite && design(i, j) >= -most && design(i, j) <= most;
        }
        if (!is_finite) {
            refuse(FaultCode::not_finite, "design", "row " + std::to_string(i), "finite numbers");
        }
    }
}
}  // namespace squaring_detail

/// Fits `observed` by the columns of `design`, one row an observation, all of one weight (divide a row and its observation by
/// the standard deviation for another). Columns count as dependent where what is left of one beside the others is less than
/// `least_left` of it: by default the rounding of the number type. Accuracy: about as many digits as the type has, less those
/// of the condition of the scaled columns. Throws as above; dependent columns are a verdict.
template <class Number>
[[nodiscard]] LinearFit<Number> fit_linear(const Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>& design,
                                           const Eigen::Matrix<Number, Eigen::Dynamic, 1>& observed,
                                           double least_left = 0.0) {
    using std::sqrt;
    using Matrix = Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>;
    squaring_detail::require_fit(design, observed);
    const Eigen::Index count = design.cols();
    typename LinearFit<Number>::Numbers scale{count};
    Matrix scaled = design;
    for (Eigen::Index j = 0; j < count; ++j) {
        const Number size = design.col(j).norm();
        scale[j] = size > Number{0} ? Number{Number{1} / size} : Number{1};
        scaled.col(j) *= scale[j];
    }
    Eigen::ColPivHouseholderQR<Matrix> factor{design.rows(), count};
    if (least_left > 0.0) {
        factor.setThreshold(Number{least_left});
    }
    factor.compute(scaled);
    const auto rank = static_cast<std::size_t>(factor.rank());
    const std::size_t rows = static_cast<std::size_t>(design.rows());
    LinearFit<Number> fit{factor.rank() == count, rank, rows > rank ? rows - rank : 0, {}, {}, {}, Number{0}};
    if (!fit.is_decided) {
        return fit;
    }
    fit.coefficients = factor.solve(observed);
    fit.residuals = scaled * fit.coefficients - observed;
    fit.coefficients += factor.solve(-fit.residuals);  // what rounding left over
    fit.residuals = scaled * fit.coefficients - observed;
    if (fit.spare > 0) {
        fit.residual_deviation = sqrt(Number{fit.residuals.squaredNorm() / Number{static_cast<double>(fit.spare)}});
    }
    const Matrix inverse =
        factor.matrixQR().topRows(count).template triangularView<Eigen::Upper>().solve(Matrix::Identity(count, count));
    fit.deviations.resize(count);
    for (Eigen::Index j = 0; j < count; ++j) {
        const Eigen::Index own = factor.colsPermutation().indices()[j];
        fit.deviations[own] = inverse.row(j).norm() * fit.residual_deviation * scale[own];
    }
    fit.coefficients = fit.coefficients.cwiseProduct(scale);
    return fit;
}

}  // namespace eavewright
