// SPDX-License-Identifier: BSL-1.0
#pragma once

// How likely several correlated normal errors all stay within their limits.
//
// The errors are written as a triangle of independent ones (Cholesky, the least settled first), and limits are then
// taken one after the other (Genz 1992). One independent error: a difference of two values of the error function. Two:
// Simpson's rule over the first. More: the 4096 points of a lattice whose generators are square roots of primes, folded.
// No random numbers: the same question always has the same answer.

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace eavewright::squaring_detail {

/// Probability that a standard normal number lies between the two; 0 where they are not in order.
[[nodiscard]] inline double normal_between(double low, double high) {
    if (!(low < high)) {
        return 0.0;
    }
    const double root = std::sqrt(0.5);
    // From the side that keeps its digits.
    return low > 0.0 ? 0.5 * (std::erfc(low * root) - std::erfc(high * root))
                     : 0.5 * (std::erfc(-high * root) - std::erfc(-low * root));
}

/// The number that a standard normal one stays below with probability `share` (0 to 1): a start good to 5e-4
/// (Abramowitz and Stegun 26.2.23, from memory), made exact to 1e-13 of itself by three steps of Newton.
[[nodiscard]] inline double normal_quantile(double share) {
    const bool low = share < 0.5;
    const double tail = low ? share : 1.0 - share;
    if (!(tail > 1e-300)) {
        return low ? -38.0 : 38.0;
    }
    const double t = std::sqrt(-2.0 * std::log(tail));
    double z = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    for (int round = 0; round < 3; ++round) {
        const double above = 0.5 * std::erfc(z * std::sqrt(0.5));
        const double density = 0.3989422804014327 * std::exp(-0.5 * z * z);
        z += density > 0.0 ? (above - tail) / density : 0.0;
    }
    return low ? -z : z;
}

/// Errors as a triangle of independent ones, each row divided by its own standard deviation.
struct NormalBox {
    std::size_t independent;
    std::vector<std::vector<double>> rows;
    std::vector<std::size_t> last;  ///< of each row, its last independent error
    std::vector<double> low;
    std::vector<double> high;
    bool empty;  ///< an error of no size stands outside its limit
};

/// `covariance` row by row, symmetric; limits are either side of no error, `mean` is where the errors are around.
[[nodiscard]] inline NormalBox normal_box(const std::vector<double>& mean, const std::vector<double>& covariance,
                                          const std::vector<double>& limit) {
    NormalBox box{0, {}, {}, {}, {}, false};
    std::vector<std::size_t> kept;
    for (std::size_t i = 0; i < mean.size(); ++i) {
        const double deviation = std::sqrt(covariance[i * mean.size() + i]);
        if (deviation > 1e-9) {
            kept.push_back(i);
            box.low.push_back((-limit[i] - mean[i]) / deviation);
            box.high.push_back((limit[i] - mean[i]) / deviation);
        } else {
            box.empty = box.empty || std::fabs(mean[i]) > limit[i];
        }
    }
    const std::size_t count = kept.size();
    box.rows.assign(count, {});
    box.last.assign(count, 0);
    std::vector<bool> used(count, false);
    std::vector<double> rest(count, 1.0);
    const auto correlation = [&](std::size_t i, std::size_t j) {
        const std::size_t n = mean.size();
        return covariance[kept[i] * n + kept[j]] /
               std::sqrt(covariance[kept[i] * n + kept[i]] * covariance[kept[j] * n + kept[j]]);
    };
    for (; box.independent < count; ++box.independent) {
        std::size_t pivot = count;
        for (std::size_t i = 0; i < count; ++i) {
            if (!used[i] && rest[i] > 1e-10 && (pivot == count || rest[i] > rest[pivot])) {
                pivot = i;
            }
        }
        if (pivot == count) {
            break;
        }
        used[pivot] = true;
        const double root = std::sqrt(rest[pivot]);
        for (std::size_t i = 0; i < count; ++i) {
            double part = i == pivot ? root : 0.0;
            if (!used[i]) {
                part = correlation(i, pivot);
                for (std::size_t k = 0; k < box.independent; ++k) {
                    part -= box.rows[i][k] * box.rows[pivot][k];
                }
                part /= root;
                rest[i] -= part * part;
            }
            box.rows[i].push_back(part);
            box.last[i] = std::fabs(part) > 1e-8 ? box.independent : box.last[i];
        }
    }
    return box;
}

/// Between which numbers independent error `k` must lie, those before it given.
[[nodiscard]] inline std::pair<double, double> normal_limits(const NormalBox& box, std::size_t k,
                                                             const std::vector<double>& before) {
    std::pair<double, double> limits{-38.0, 38.0};
    for (std::size_t i = 0; i < box.rows.size(); ++i) {
        if (box.last[i] != k) {
            continue;
        }
        double sum = 0.0;
        for (std::size_t j = 0; j < k; ++j) {
            sum += box.rows[i][j] * before[j];
        }
        const double part = box.rows[i][k];
        const double one = (box.low[i] - sum) / part;
        const double other = (box.high[i] - sum) / part;
        const double low = part > 0.0 ? one : other;
        const double high = part > 0.0 ? other : one;
        limits.first = low > limits.first ? low : limits.first;
        limits.second = high < limits.second ? high : limits.second;
    }
    return limits;
}

[[nodiscard]] inline double chance_of_two(const NormalBox& box) {
    const auto limits = normal_limits(box, 0, {});
    const double low = limits.first > -8.5 ? limits.first : -8.5;
    const double high = limits.second < 8.5 ? limits.second : 8.5;
    if (!(low < high)) {
        return 0.0;
    }
    constexpr int steps = 400;
    const double width = (high - low) / steps;
    double sum = 0.0;
    std::vector<double> first(1, 0.0);
    for (int i = 0; i <= steps; ++i) {
        first[0] = low + width * i;
        const auto second = normal_limits(box, 1, first);
        const double weight = i == 0 || i == steps ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
        sum += weight * std::exp(-0.5 * first[0] * first[0]) * normal_between(second.first, second.second);
    }
    return sum * width / 3.0 * 0.3989422804014327;
}

[[nodiscard]] inline std::vector<double> roots_of_primes(std::size_t count) {
    std::vector<double> roots;
    for (int n = 2; roots.size() < count; ++n) {
        bool prime = true;
        for (int d = 2; d * d <= n; ++d) {
            prime = prime && n % d != 0;
        }
        if (prime) {
            roots.push_back(std::sqrt(static_cast<double>(n)));
        }
    }
    return roots;
}

[[nodiscard]] inline double chance_of_many(const NormalBox& box) {
    constexpr int points = 4096;
    const std::vector<double> roots = roots_of_primes(box.independent);
    double sum = 0.0;
    std::vector<double> errors(box.independent, 0.0);
    for (int i = 0; i < points; ++i) {
        double chance = 1.0;
        for (std::size_t k = 0; k < box.independent && chance > 0.0; ++k) {
            const auto limits = normal_limits(box, k, errors);
            const double here = normal_between(limits.first, limits.second);
            chance *= here;
            if (k + 1 < box.independent && here > 0.0) {
                const double along = (i + 0.5) * roots[k];
                const double folded = std::fabs(2.0 * (along - std::floor(along)) - 1.0);
                errors[k] = normal_quantile(normal_between(-38.0, limits.first) + folded * here);
            }
        }
        sum += chance;
    }
    return sum / points;
}

/// The probability that every error is within its limit, 0 to 1. Exact for one independent error, to 1e-3 or better
/// else. `covariance` is symmetric and not negative, of as many rows as there are limits.
[[nodiscard]] inline double chance_in_box(const std::vector<double>& mean, const std::vector<double>& covariance,
                                          const std::vector<double>& limit) {
    const NormalBox box = normal_box(mean, covariance, limit);
    if (box.empty) {
        return 0.0;
    }
    double chance = 1.0;
    if (box.independent == 1) {
        const auto limits = normal_limits(box, 0, {});
        chance = normal_between(limits.first, limits.second);
    } else if (box.independent == 2) {
        chance = chance_of_two(box);
    } else if (box.independent > 2) {
        chance = chance_of_many(box);
    }
    return chance > 1.0 ? 1.0 : chance;
}

}  // namespace eavewright::squaring_detail
