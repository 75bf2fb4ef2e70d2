// SPDX-License-Identifier: BSL-1.0
#pragma once

// The search for the places that readings lead to: Gauss-Newton steps from where the points are said to stand.

#include <eavewright/squaring/network_datum.hpp>
#include <eavewright/squaring/network_rows.hpp>
#include <eavewright/squaring/network_solve.hpp>
#include <eavewright/squaring/readings.hpp>

#include <cmath>
#include <cstddef>
#include <limits>
#include <variant>
#include <vector>

namespace eavewright::squaring_detail {

inline constexpr int most_network_steps = 100;

/// The search for places, from where the points are said to stand.
template <MeasuredPlace Place>
struct NetworkSearch {
    Unknowns<Place> unknowns;
    NetworkState<Place> state;
    Numbers<Place> origin;
    std::vector<ReadingRow> rows;
    int steps = 0;
    bool settled = false;
};

template <MeasuredPlace Place>
[[nodiscard]] NetworkSearch<Place> start_search(const Network<Place>& network) {
    NetworkSearch<Place> search{number_unknowns(network), {}, {}, {}};
    const double share = 1.0 / static_cast<double>(network.points.size());
    for (const auto& point : network.points) {
        const auto numbers = numbers_of(point.about);
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            search.origin[i] += numbers[i] * share;
        }
    }
    for (const auto& point : network.points) {
        auto numbers = numbers_of(point.about);
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            numbers[i] -= search.origin[i];
        }
        search.state.places.push_back(numbers);
    }
    search.state.scales.assign(network.tapes.size(), 0.0);
    search.state.setups.assign(search.unknowns.setups.size(), 0.0);
    if constexpr (coordinate_count<Place> == 3) {
        for (const auto& reading : network.readings) {
            if (const auto* level = std::get_if<LevelReading>(&reading)) {
                search.state.setups[level->setup] = inches(level->below) + search.state.places[level->point][2];
            }
        }
    }
    write_rows(network, search.unknowns, search.state, search.rows);
    return search;
}

/// One step that does not make the sum of squares worse; shortened by halves where the whole step would. Returns the size
/// of the step in standard deviations, or -1 where none was found.
template <MeasuredPlace Place>
[[nodiscard]] double step_down(const Network<Place>& network, const Normals<double>& normals,
                               NetworkSearch<Place>& search) {
    const Vector slope = downhill<double>(search.rows, search.unknowns.count);
    const Vector whole = normals.solve(slope);
    const double size = std::sqrt(std::fabs(whole.dot(slope)));
    const double before = sum_of_squares(search.rows);
    const NetworkState<Place> start = search.state;
    double share = 1.0;
    for (int halving = 0; halving < 30; ++halving, share /= 2.0) {
        take_step(search.unknowns, share * whole, search.state);
        write_rows(network, search.unknowns, search.state, search.rows);
        const double after = sum_of_squares(search.rows);
        if (after <= before * (1.0 + 1e-12) || size < 1e-6) {
            return size;
        }
        search.state = start;
    }
    write_rows(network, search.unknowns, search.state, search.rows);
    return -1.0;
}

/// Steps until they are a hundred-millionth of the standard deviations, or as short as rounding lets them be. The factor is kept
/// while it still brings the steps down tenfold.
template <MeasuredPlace Place>
void search_places(const Network<Place>& network, NetworkSearch<Place>& search) {
    const auto factor = [&] {
        return factor_normals(search.rows, search.unknowns.count,
                              datum_of(network, search.unknowns, search.state, search.rows));
    };
    Normals<double> normals = factor();
    bool fresh = true;
    double last = std::numeric_limits<double>::infinity();
    while (!search.settled && search.steps < most_network_steps) {
        const double size = step_down(network, normals, search);
        ++search.steps;
        const bool slow = size < 0.0 || size > 0.1 * last;
        const bool at_rounding = fresh && size >= 0.0 && (size > 0.9 * last ? size <= 1e-5 : slow && size <= 1e-7);
        search.settled = (size >= 0.0 && size <= 1e-8) || at_rounding;
        if (size < 0.0 && fresh) {
            return;
        }
        last = size < 0.0 ? std::numeric_limits<double>::infinity() : size;
        fresh = slow;
        if (slow && !search.settled) {
            normals = factor();
        }
    }
}

}  // namespace eavewright::squaring_detail
