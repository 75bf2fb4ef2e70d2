// SPDX-License-Identifier: BSL-1.0
#pragma once

// What errors of pulls and of found points do to the misfits in the end.
//
// At the end every condition is a combination of the lengths that members and tightened straps then have, and of where
// the points were at the start (the way is least). A pull by amount leaves a strap its true length at the start, less
// the amount, plus the error of the pull; a pull to a reading leaves it the length that was read.

#include <eavewright/squaring/normal_box.hpp>
#include <eavewright/squaring/pull_settling.hpp>

#include <cstddef>
#include <vector>

namespace eavewright::squaring_detail {

/// How the misfits in the end answer to errors.
struct PullSensitivity {
    std::vector<double> misfits;
    std::vector<double> limits;
    std::vector<Row> of_pulls;             ///< of each condition, by the error of each tightened strap
    std::vector<Row> of_points_by_amount;  ///< by the error of each coordinate as found
    std::vector<Row> of_points_by_reading;
};

/// `straps` are those tightened, `way` is where the plan leads.
template <MeasuredPlace Place>
[[nodiscard]] PullSensitivity pull_sensitivity(const PullFigure<Place>& figure, const std::vector<std::size_t>& straps,
                                               const Row& way) {
    const PullFrame<Place>& frame = figure.frame();
    const Row end = figure.at(way);
    RowBasis basis{figure.unknowns(), no_direction};
    std::vector<Row> at_end;
    std::vector<Row> turned;  // how much more a length answered at the start than in the end
    const auto take = [&](std::size_t from, std::size_t to) {
        const Row row = figure.distance_row(end, from, to);
        if (basis.add(figure.of_unknowns(row))) {
            at_end.push_back(row);
            turned.push_back(figure.distance_row(figure.found(), from, to));
            add_times(turned.back(), -1.0, row);
        }
    };
    for (const PullMember& each : frame.members) {
        take(each.from, each.to);
    }
    const std::size_t members = basis.size();
    for (const std::size_t s : straps) {
        take(frame.straps[s].from, frame.straps[s].to);
    }
    PullSensitivity result{};
    for (const PullCondition& each : frame.conditions) {
        const Row row = figure.misfit_row(end, each);
        const Row factors = basis.factors(basis.coordinates(figure.of_unknowns(row)));
        result.misfits.push_back(figure.misfit(end, each));
        result.limits.push_back(tolerance_of(each));
        result.of_pulls.emplace_back(factors.begin() + static_cast<std::ptrdiff_t>(members), factors.end());
        Row by_amount = row;
        Row by_reading = row;
        for (std::size_t i = 0; i < factors.size(); ++i) {
            add_times(by_amount, factors[i], turned[i]);
            add_times(by_reading, i < members ? factors[i] : -factors[i], i < members ? turned[i] : at_end[i]);
        }
        result.of_points_by_amount.push_back(by_amount);
        result.of_points_by_reading.push_back(by_reading);
    }
    return result;
}

/// `points` are the rows of one way of pulling, or none for points found exactly.
[[nodiscard]] inline double chance_of_pulls(const PullSensitivity& here, double pull_deviation,
                                            const std::vector<Row>& points, const Covariance* covariance) {
    const std::size_t count = here.misfits.size();
    std::vector<double> both(count * count, 0.0);
    for (std::size_t j = 0; j < count; ++j) {
        Row spread;
        if (covariance != nullptr) {
            const std::size_t width = points[j].size();
            for (std::size_t c = 0; c < width; ++c) {
                spread.push_back(dot(points[j].data(), covariance->entries.data() + c * width, width));
            }
        }
        for (std::size_t i = 0; i < count; ++i) {
            both[i * count + j] = dot(here.of_pulls[i], here.of_pulls[j]) * pull_deviation * pull_deviation;
            both[i * count + j] += spread.empty() ? 0.0 : dot(points[i], spread);
        }
    }
    return chance_in_box(here.misfits, both, here.limits);
}

}  // namespace eavewright::squaring_detail
