// SPDX-License-Identifier: BSL-1.0
#pragma once

// Rows made orthonormal one after another: the QR of a few short rows, by Gram-Schmidt done twice (twice is enough to
// be orthogonal to the last bits). Figures of a roof under straps have a dozen unknowns, and are solved thousands of
// times in a search.

#include <cmath>
#include <cstddef>
#include <vector>

namespace eavewright::squaring_detail {

using Row = std::vector<double>;

[[nodiscard]] inline double dot(const double* a, const double* b, std::size_t count) {
    double sum = 0.0;
    for (const double* end = a + count; a != end; ++a, ++b) {
        sum += *a * *b;
    }
    return sum;
}
[[nodiscard]] inline double dot(const Row& a, const Row& b) { return dot(a.data(), b.data(), a.size()); }
/// `to` and `times` of `row` more.
inline void add_times(double* to, double times, const double* row, std::size_t count) {
    for (double* end = to + count; to != end; ++to, ++row) {
        *to += times * *row;
    }
}
inline void add_times(Row& to, double times, const Row& row) { add_times(to.data(), times, row.data(), row.size()); }
[[nodiscard]] inline double norm(const Row& row) { return std::sqrt(dot(row, row)); }

/// Independent rows and an orthonormal basis of what they span.
class RowBasis {
public:
    /// A row that adds less than `least`, or less than `share` of itself, to what is spanned counts as dependent.
    explicit RowBasis(std::size_t width, double least, double share = 0.0)
        : width_{width}, least_{least}, share_{share} {}

    [[nodiscard]] std::size_t size() const { return parts_.size(); }
    /// Orthonormal row `i`.
    [[nodiscard]] const double* unit(std::size_t i) const { return units_.data() + i * width_; }
    /// Row `i` as it was added, in terms of the orthonormal ones up to its own.
    [[nodiscard]] const Row& parts(std::size_t i) const { return parts_[i]; }

    /// Takes a row in; false, and nothing taken, where it is dependent.
    bool add(const Row& row) {
        Row parts(size() + 1, 0.0);
        Row rest = row;
        remove(rest, parts);
        const double length = norm(rest);
        if (!(length > least_ && length >= share_ * norm(row))) {
            return false;
        }
        parts[size()] = length;
        for (double& each : rest) {
            each /= length;
        }
        units_.insert(units_.end(), rest.begin(), rest.end());
        parts_.push_back(parts);
        return true;
    }
    /// What the span does not reach of `row`.
    [[nodiscard]] Row remainder(Row row) const {
        Row parts(size(), 0.0);
        remove(row, parts);
        return row;
    }
    /// Of `row`, along each orthonormal row.
    [[nodiscard]] Row coordinates(const Row& row) const {
        Row along(size(), 0.0);
        for (std::size_t i = 0; i < size(); ++i) {
            along[i] = dot(unit(i), row.data(), width_);
        }
        return along;
    }
    /// Factors of the rows as added, which together have these coordinates.
    [[nodiscard]] Row factors(Row coordinates) const {
        for (std::size_t i = size(); i-- > 0;) {
            coordinates[i] /= parts_[i][i];
            for (std::size_t j = 0; j < i; ++j) {
                coordinates[j] -= parts_[i][j] * coordinates[i];
            }
        }
        return coordinates;
    }

private:
    void remove(Row& row, Row& parts) const {
        for (int pass = 0; pass < 2; ++pass) {
            for (std::size_t i = 0; i < size(); ++i) {
                const double along = dot(unit(i), row.data(), width_);
                add_times(row.data(), -along, unit(i), width_);
                parts[i] += along;
            }
        }
    }

    std::size_t width_;
    double least_;
    double share_;
    Row units_;
    std::vector<Row> parts_;
};

}  // namespace eavewright::squaring_detail
