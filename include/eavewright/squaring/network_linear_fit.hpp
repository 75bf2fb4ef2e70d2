// SPDX-License-Identifier: BSL-1.0
#pragma once

// A straight least squares fit: numbers that the readings depend on in proportion, as a line or a plane through marks.
// By Householder reflections of scaled columns, which keeps twice the digits that normal equations would; on any number
// type, so that a fit can be checked with one of more digits; written out, since that compiles far sooner.

#include <eavewright/fault.hpp>

#include <Eigen/Core>

#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <utility>
#include <vector>

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
/// Faults: missing_field for no column; too_much_work; contradiction for another count of observations;
/// not_finite; out_of_range for `least_left`.
template <class Number>
void require_fit(const Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>& design,
                 const Eigen::Matrix<Number, Eigen::Dynamic, 1>& observed, const Number& least_left) {
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
    if (!(least_left >= Number{0} && least_left < Number{1})) {
        refuse(FaultCode::out_of_range, "least_left", "", "0 to 1");
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
/// Columns turned into a triangle by reflections, the longest of what is left first.
template <class Number>
struct Reflections {
    Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>
        columns;                      ///< above the diagonal the triangle, else reflections
    std::vector<Number> diagonal;     ///< of the triangle; as many as independent columns
    std::vector<Number> half_square;  ///< of each reflection
    std::vector<Eigen::Index> order;  ///< which column is which

    /// Sum of squares of a column from row `k` down.
    [[nodiscard]] Number square_left(Eigen::Index j, Eigen::Index k) const {
        Number sum{0};
        for (Eigen::Index i = k; i < columns.rows(); ++i) {
            sum += columns(i, j) * columns(i, j);
        }
        return sum;
    }
    /// Applies reflection `k` to one column of numbers.
    template <class Numbers>
    void reflect(Eigen::Index k, Numbers&& numbers) const {
        Number share{0};
        for (Eigen::Index i = k; i < columns.rows(); ++i) {
            share += columns(i, k) * numbers(i);
        }
        share /= half_square[static_cast<std::size_t>(k)];
        for (Eigen::Index i = k; i < columns.rows(); ++i) {
            numbers(i) -= share * columns(i, k);
        }
    }
    /// Solves the triangle for the first rows of `numbers`.
    [[nodiscard]] std::vector<Number> solve_triangle(std::vector<Number> numbers) const {
        for (std::size_t k = diagonal.size(); k-- > 0;) {
            for (std::size_t j = k + 1; j < diagonal.size(); ++j) {
                numbers[k] -= columns(static_cast<Eigen::Index>(k), static_cast<Eigen::Index>(j)) * numbers[j];
            }
            numbers[k] /= diagonal[k];
        }
        return numbers;
    }
};

template <class Number>
[[nodiscard]] Reflections<Number> reflect_columns(Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic> columns,
                                                  const Number& least_left) {
    using std::sqrt;
    Reflections<Number> r{std::move(columns), {}, {}, {}};
    for (Eigen::Index j = 0; j < r.columns.cols(); ++j) {
        r.order.push_back(j);
    }
    for (Eigen::Index k = 0; k < r.columns.cols() && k < r.columns.rows(); ++k) {
        Eigen::Index longest = k;
        Number square = r.square_left(k, k);
        for (Eigen::Index j = k + 1; j < r.columns.cols(); ++j) {
            const Number own = r.square_left(j, k);
            longest = own > square ? j : longest;
            square = own > square ? own : square;
        }
        const Number length = sqrt(square);
        if (!(length > least_left)) {
            break;
        }
        for (Eigen::Index i = 0; i < r.columns.rows(); ++i) {
            std::swap(r.columns(i, k), r.columns(i, longest));
        }
        std::swap(r.order[static_cast<std::size_t>(k)], r.order[static_cast<std::size_t>(longest)]);
        const Number first = r.columns(k, k);
        r.diagonal.push_back(first > Number{0} ? Number{-length} : length);
        r.half_square.push_back(square + length * (first > Number{0} ? first : Number{-first}));
        r.columns(k, k) = first - r.diagonal.back();
        for (Eigen::Index j = k + 1; j < r.columns.cols(); ++j) {
            r.reflect(k, [&](Eigen::Index i) -> Number& { return r.columns(i, j); });
        }
    }
    return r;
}

/// Adds to the coefficients what the residuals ask for.
template <class Number>
void improve(const Reflections<Number>& factor, LinearFit<Number>& fit) {
    auto turned = fit.residuals;
    const std::size_t count = factor.diagonal.size();
    for (std::size_t k = 0; k < count; ++k) {
        factor.reflect(static_cast<Eigen::Index>(k), turned);
    }
    std::vector<Number> step;
    for (std::size_t k = 0; k < count; ++k) {
        step.push_back(turned[static_cast<Eigen::Index>(k)]);
    }
    step = factor.solve_triangle(std::move(step));
    for (std::size_t k = 0; k < count; ++k) {
        fit.coefficients[factor.order[k]] -= step[k];
    }
}

/// Fitted less observed, at the coefficients so far.
template <class Number>
void find_residuals(const Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>& columns,
                    const Eigen::Matrix<Number, Eigen::Dynamic, 1>& observed, LinearFit<Number>& fit) {
    for (Eigen::Index i = 0; i < columns.rows(); ++i) {
        Number fitted{0};
        for (Eigen::Index j = 0; j < columns.cols(); ++j) {
            fitted += columns(i, j) * fit.coefficients[j];
        }
        fit.residuals[i] = fitted - observed[i];
    }
}

/// Standard errors of the coefficients, from the rows of the inverse of the triangle.
template <class Number>
void find_deviations(const Reflections<Number>& factor, LinearFit<Number>& fit) {
    using std::sqrt;
    const std::size_t count = factor.diagonal.size();
    std::vector<Number> squares(count, Number{0});
    for (std::size_t j = 0; j < count; ++j) {
        std::vector<Number> unit(count, Number{0});
        unit[j] = Number{1};
        unit = factor.solve_triangle(std::move(unit));
        for (std::size_t k = 0; k < count; ++k) {
            squares[k] += unit[k] * unit[k];
        }
    }
    for (std::size_t k = 0; k < count; ++k) {
        fit.deviations[factor.order[k]] = sqrt(squares[k]) * fit.residual_deviation;
    }
}
}  // namespace squaring_detail

/// Fits `observed` by the columns of `design`, one row an observation, all of one weight (divide a row and its observation by
/// the standard deviation for another). Columns are dependent where what is left of one beside the others is no more than
/// `least_left` of it, 0 to 1; by default the rounding of the number type. Accuracy: as many digits as the type has, less
/// those of the condition of the scaled columns. Throws as `require_fit`; dependent columns are a verdict.
template <class Number>
[[nodiscard]] LinearFit<Number> fit_linear(const Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>& design,
                                           const Eigen::Matrix<Number, Eigen::Dynamic, 1>& observed,
                                           Number least_left = std::numeric_limits<Number>::epsilon()) {
    using std::sqrt;
    squaring_detail::require_fit(design, observed, least_left);
    auto scaled = design;
    std::vector<Number> scale;
    for (Eigen::Index j = 0; j < design.cols(); ++j) {
        Number square{0};
        for (Eigen::Index i = 0; i < design.rows(); ++i) {
            square += design(i, j) * design(i, j);
        }
        scale.push_back(square > Number{0} ? Number{Number{1} / sqrt(square)} : Number{1});
        for (Eigen::Index i = 0; i < design.rows(); ++i) {
            scaled(i, j) *= scale.back();
        }
    }
    const auto factor = squaring_detail::reflect_columns(scaled, least_left);
    const auto rows = static_cast<std::size_t>(design.rows());
    const std::size_t rank = factor.diagonal.size();
    LinearFit<Number> fit{rank == scale.size(), rank, rows - rank, {}, {}, {}, Number{0}};
    if (!fit.is_decided) {
        return fit;
    }
    fit.coefficients.setZero(design.cols());
    fit.deviations.setZero(design.cols());
    fit.residuals = -observed;
    for (int time = 0; time < 2; ++time) {  // the second time takes up what rounding left over
        squaring_detail::improve(factor, fit);
        squaring_detail::find_residuals(scaled, observed, fit);
    }
    if (fit.spare > 0) {
        Number square{0};
        for (Eigen::Index i = 0; i < design.rows(); ++i) {
            square += fit.residuals[i] * fit.residuals[i];
        }
        fit.residual_deviation = sqrt(Number{square / Number{static_cast<double>(fit.spare)}});
    }
    squaring_detail::find_deviations(factor, fit);
    for (std::size_t j = 0; j < scale.size(); ++j) {
        fit.coefficients[static_cast<Eigen::Index>(j)] *= scale[j];
        fit.deviations[static_cast<Eigen::Index>(j)] *= scale[j];
    }
    return fit;
}

}  // namespace eavewright
