// SPDX-License-Identifier: BSL-1.0
#pragma once

// A network of readings adjusted: places by least squares, errors, and which reading to doubt.
//
// Every reading has the standard deviation of its tape or its own; a tape's scale error is one more unknown, known to be
// zero but for its deviation, so that all readings of the tape share it. Residuals are judged one by one against their
// own deviations (Baarda: w = v / (sigma sqrt(r)), r the share of redundancy), all together by their sum of squares.
// Source of the method: W. Baarda, A Testing Procedure for Use in Geodetic Networks, 1968; A. J. Pope, The Statistics
// of Residuals and the Detection of Outliers, NOAA Technical Report NOS 65 NGS 1, 1976 (both from memory).

#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/critical_values.hpp>
#include <eavewright/squaring/network_loose.hpp>
#include <eavewright/squaring/network_rows.hpp>
#include <eavewright/squaring/network_search.hpp>
#include <eavewright/squaring/network_solve.hpp>
#include <eavewright/squaring/readings.hpp>

#include <Eigen/Core>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

namespace squaring_detail {

/// A reading whose own residual shows less than this share of its error is not checked by the others.
inline constexpr double least_redundancy = 1e-6;
/// A reading stays a suspect while it is at least a twentieth as likely to be the wrong one as the likeliest.
inline constexpr double suspect_odds = 20.0;

/// What judging takes from the search: the rows at the places found, and covariances of the unknowns.
template <MeasuredPlace Place>
struct Solution {
    const Network<Place>& network;
    const NetworkSearch<Place>& search;
    Normals<double> normals;
    Matrix cofactors;
    std::vector<bool> is_loose;
};

template <MeasuredPlace Place>
[[nodiscard]] Solution<Place> solution_at(const Network<Place>& network, const NetworkSearch<Place>& search) {
    Solution<Place> s{network,
                      search,
                      factor_normals(search.rows, search.unknowns.count,
                                     datum_of(network, search.unknowns, search.state, search.rows)),
                      {},
                      {}};
    s.cofactors = cofactors_of(s.normals);
    s.is_loose = loose_points(network, search.unknowns, s.normals, s.cofactors);
    if (s.normals.datum.count() > 0 &&
        hold_by_largest_body(network, search.unknowns, search.state, s.is_loose, s.normals)) {
        s.cofactors = cofactors_of(s.normals);
        s.is_loose = loose_points(network, search.unknowns, s.normals, s.cofactors);
    }
    return s;
}

/// Cofactors times the slopes of one row: where an error of that reading goes.
template <class Number>
[[nodiscard]] VectorOf<Number> pushed_by(const ReadingRow& row, const MatrixOf<Number>& cofactors) {
    VectorOf<Number> push = VectorOf<Number>::Zero(cofactors.rows());
    for (std::size_t i = 0; i < row.used; ++i) {
        push += row.slope[i] * cofactors.col(at(row.column[i]));
    }
    return push;
}
template <class Number>
[[nodiscard]] Number felt_by(const ReadingRow& row, const VectorOf<Number>& push) {
    Number sum = 0;
    for (std::size_t i = 0; i < row.used; ++i) {
        sum += row.slope[i] * push[at(row.column[i])];
    }
    return sum;
}

/// Furthest that one point that is not loose goes in a move of the unknowns.
template <MeasuredPlace Place>
[[nodiscard]] double furthest_move(const Solution<Place>& s, const Vector& move) {
    double most = 0.0;
    for (std::size_t p = 0; p < s.is_loose.size(); ++p) {
        const auto& own = s.search.unknowns.points[p];
        const double here =
            own.count == 0 || s.is_loose[p] ? 0.0 : move.segment(at(own.first), at(own.count)).squaredNorm();
        most = here > most ? here : most;
    }
    return std::sqrt(most);
}

struct ReadAs {
    Length read;
    Length deviation;
};
template <MeasuredPlace Place>
[[nodiscard]] ReadAs read_as(const Network<Place>& network, const DistanceReading& r) {
    return {r.read, network.tapes[r.tape].reading};
}
template <MeasuredPlace Place>
[[nodiscard]] ReadAs read_as(const Network<Place>&, const OffsetReading& r) {
    return {r.read, r.deviation};
}
[[nodiscard]] inline ReadAs read_as(const BuildingNetwork&, const LevelReading& r) { return {r.below, r.deviation}; }

/// Odds as distances in standard deviations.
struct Limits {
    double reading;     ///< beyond it a reading stands out
    double detectable;  ///< shift that is seen with the stated power
};

template <MeasuredPlace Place>
[[nodiscard]] AdjustedReading judge_reading(const Solution<Place>& s, std::size_t index, const Limits& limits) {
    const ReadingRow& row = s.search.rows[index];
    const Vector push = pushed_by(row, s.cofactors);
    const double shown = 1.0 - felt_by(row, push);
    const ReadAs as = std::visit([&](const auto& r) { return read_as(s.network, r); }, s.network.readings[index]);
    const Length residual = as.deviation * -row.open;
    AdjustedReading judged{.read = as.read,
                           .adjusted = as.read + residual,
                           .residual = residual,
                           .deviation = as.deviation,
                           .redundancy = shown < 0.0 ? 0.0 : shown,
                           .normalised = 0.0,
                           .studentised = 0.0,
                           .checked = shown > least_redundancy,
                           .stands_out = false,
                           .blunder = no_length,
                           .smallest_blunder = std::nullopt,
                           .hidden_move = std::nullopt};
    if (judged.checked) {
        judged.normalised = -row.open / std::sqrt(shown);
        judged.stands_out = std::fabs(judged.normalised) > limits.reading;
        judged.blunder = residual / -shown;
        judged.smallest_blunder = as.deviation * (limits.detectable / std::sqrt(shown));
        judged.hidden_move = one_inch * (furthest_move(s, push) * limits.detectable / std::sqrt(shown));
    }
    return judged;
}

template <MeasuredPlace Place>
[[nodiscard]] std::vector<AdjustedTape> judge_tapes(const Solution<Place>& s) {
    std::vector<AdjustedTape> tapes;
    for (std::size_t t = 0; t < s.network.tapes.size(); ++t) {
        const double stated = s.network.tapes[t].scale;
        const auto& scale = s.search.unknowns.scales[t];
        const double share = scale ? s.cofactors(at(*scale), at(*scale)) : 1.0;
        tapes.push_back({scale ? stated * s.search.state.scales[t] : 0.0, stated * std::sqrt(share < 0.0 ? 0.0 : share),
                         share < 1.0 ? 1.0 - share : 0.0});
    }
    return tapes;
}

/// How each coordinate follows the unknowns: the columns that a point's coordinates take from the cofactors.
template <MeasuredPlace Place>
[[nodiscard]] Covariance covariance_of(const Solution<Place>& s) {
    constexpr std::size_t n = coordinate_count<Place>;
    const std::size_t points = s.network.points.size();
    Covariance all{points, n, std::vector<double>(points * n * points * n, 0.0)};
    const auto slope = [&](const PointUnknowns<n>& own, std::size_t i) {
        return own.count == 1 ? own.direction[i] : 1.0;
    };
    for (std::size_t a = 0; a < points; ++a) {
        const auto& first = s.search.unknowns.points[a];
        for (std::size_t b = 0; b < points && first.count > 0 && !s.is_loose[a]; ++b) {
            const auto& second = s.search.unknowns.points[b];
            for (std::size_t k = 0; k < n * n && second.count > 0 && !s.is_loose[b]; ++k) {
                const std::size_t i = k / n;
                const std::size_t j = k % n;
                const auto row = at(first.first + (first.count == 1 ? 0 : i));
                const auto column = at(second.first + (second.count == 1 ? 0 : j));
                all.entries[(a * n + i) * points * n + b * n + j] =
                    slope(first, i) * slope(second, j) * s.cofactors(row, column);
            }
        }
    }
    return all;
}

/// Undecided moves as steps of all coordinates.
template <MeasuredPlace Place>
[[nodiscard]] std::vector<std::vector<double>> undecided_moves(const Solution<Place>& s) {
    std::vector<std::vector<double>> all;
    if (s.normals.undecided.cols() == 0) {
        return all;
    }
    const Matrix moves = moves_of_places(s.search.unknowns, s.normals);
    for (Eigen::Index m = 0; m < moves.cols(); ++m) {
        all.emplace_back(moves.col(m).begin(), moves.col(m).end());
    }
    return all;
}

template <MeasuredPlace Place>
[[nodiscard]] std::vector<AdjustedPoint<Place>> judge_points(const Solution<Place>& s, const Covariance& covariance) {
    constexpr std::size_t n = coordinate_count<Place>;
    std::vector<AdjustedPoint<Place>> points;
    for (std::size_t p = 0; p < s.is_loose.size(); ++p) {
        const MarkedPoint<Place>& mark = s.network.points[p];
        Numbers<Place> place = s.search.state.places[p];
        Numbers<Place> deviation{};
        for (std::size_t i = 0; i < n; ++i) {
            place[i] += s.search.origin[i];
            const double variance = square_inches(covariance.between(p, i, p, i));
            deviation[i] = variance > 0.0 ? std::sqrt(variance) : 0.0;
        }
        points.push_back({mark.name, std::holds_alternative<Held>(mark.freedom) ? mark.about : place_of<Place>(place),
                          s.is_loose[p], place_of<Place>(deviation),
                          error_ellipse(covariance.between(p, 0, p, 0), covariance.between(p, 0, p, 1),
                                        covariance.between(p, 1, p, 1))});
    }
    return points;
}

/// Readings that could each, alone, be what is wrong: likeliest first. Leaving a reading out takes the square of its
/// normalised residual off the sum, so the odds of two suspects follow from the difference of their squares.
template <MeasuredPlace Place>
[[nodiscard]] std::vector<std::size_t> suspects_of(const AdjustedNetwork<Place>& all) {
    std::vector<std::size_t> suspects;
    double top = 0.0;
    for (const AdjustedReading& each : all.readings) {
        const double square = each.normalised * each.normalised;
        top = square > top ? square : top;
    }
    for (std::size_t i = 0; i < all.readings.size(); ++i) {
        const double square = all.readings[i].normalised * all.readings[i].normalised;
        if (all.readings[i].checked && square >= top - 2.0 * std::log(suspect_odds)) {
            suspects.push_back(i);
        }
    }
    std::stable_sort(suspects.begin(), suspects.end(), [&](std::size_t a, std::size_t b) {
        return std::fabs(all.readings[a].normalised) > std::fabs(all.readings[b].normalised);
    });
    return suspects;
}

template <MeasuredPlace Place>
void judge_whole(const NetworkLevels& levels, bool settled, AdjustedNetwork<Place>& all) {
    bool disagrees = all.spare > 0 && all.sum_of_squares > all.largest_sum_of_squares;
    for (const AdjustedReading& each : all.readings) {
        disagrees = disagrees || each.stands_out;
    }
    // In the flat of a triangle no step is the last: there it is enough that the readings agree.
    const bool flat =
        !all.loose.empty() && all.sum_of_squares <= chi_square_quantile(1.0 - levels.region, at(all.readings.size()));
    if (!settled && !flat) {
        all.standing = NetworkStanding::not_settled;
    } else if (!all.loose.empty()) {
        all.standing = NetworkStanding::loose;
    } else if (all.spare == 0) {
        all.standing = NetworkStanding::not_checked;
    } else if (disagrees) {
        all.suspects = suspects_of(all);
        const double worst = all.suspects.empty() ? 0.0 : all.readings[all.suspects[0]].normalised;
        const double rest = all.sum_of_squares - worst * worst;
        const bool one_explains =
            !all.suspects.empty() &&
            (all.spare == 1 || rest <= chi_square_quantile(1.0 - levels.region, at(all.spare - 1)));
        all.standing = !one_explains              ? NetworkStanding::disagree
                       : all.suspects.size() == 1 ? NetworkStanding::blunder_placed
                                                  : NetworkStanding::blunder_not_placed;
    } else {
        all.standing = NetworkStanding::agree;
    }
}

/// Readings and stated scales, less what they had to find.
template <MeasuredPlace Place>
[[nodiscard]] std::size_t count_spare(const Solution<Place>& s) {
    const auto decided =
        static_cast<std::size_t>(s.cofactors.rows() - s.normals.datum.count() - s.normals.undecided.cols());
    return s.search.rows.size() > decided ? s.search.rows.size() - decided : 0;
}

}  // namespace squaring_detail

/// Adjusts a network of readings by least squares. Throws as `find_faults` of Network and of NetworkLevels. Readings that
/// disagree or cannot decide are told by `standing`, never by a number that is none. Places are those of the least sum of
/// squares to a millionth of their standard errors; errors come from the stated deviations, to first order.
template <MeasuredPlace Place>
[[nodiscard]] AdjustedNetwork<Place> adjust_network(const Network<Place>& network, const NetworkLevels& levels = {}) {
    require_sound(network, "network");
    require_sound(levels, "levels");
    squaring_detail::NetworkSearch<Place> search = squaring_detail::start_search(network);
    squaring_detail::search_places(network, search);
    const squaring_detail::Solution<Place> solution = squaring_detail::solution_at(network, search);
    const std::vector<bool>& is_loose = solution.is_loose;
    AdjustedNetwork<Place> all{.standing = NetworkStanding::agree,
                               .points = {},
                               .readings = {},
                               .tapes = squaring_detail::judge_tapes(solution),
                               .unknowns = search.unknowns.count,
                               .spare = squaring_detail::count_spare(solution),
                               .sum_of_squares = squaring_detail::sum_of_squares(search.rows),
                               .unit_deviation = 0.0,
                               .largest_sum_of_squares = 0.0,
                               .suspects = {},
                               .loose = {},
                               .undecided = squaring_detail::undecided_moves(solution),
                               .afloat = solution.normals.datum.count() > 0,
                               .steps = search.steps,
                               .covariance = squaring_detail::covariance_of(solution)};
    all.points = squaring_detail::judge_points(solution, all.covariance);
    const squaring_detail::Limits limits{two_sided_normal(levels.reading),
                                         detectable_shift(levels.reading, levels.power)};
    for (std::size_t i = 0; i < network.readings.size(); ++i) {
        all.readings.push_back(squaring_detail::judge_reading(solution, i, limits));
    }
    if (all.spare > 0) {
        all.unit_deviation = std::sqrt(all.sum_of_squares / static_cast<double>(all.spare));
        all.largest_sum_of_squares = chi_square_quantile(1.0 - levels.region, static_cast<int>(all.spare));
        for (AdjustedReading& each : all.readings) {
            each.studentised = all.unit_deviation > 0.0 ? each.normalised / all.unit_deviation : 0.0;
        }
    }
    for (std::size_t p = 0; p < is_loose.size(); ++p) {
        if (is_loose[p]) {
            all.loose.push_back(p);
        }
    }
    squaring_detail::judge_whole(levels, search.settled, all);
    return all;
}

}  // namespace eavewright
