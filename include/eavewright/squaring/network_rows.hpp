// SPDX-License-Identifier: BSL-1.0
#pragma once

// A network of readings as equations: which numbers are unknown, and how each reading depends on them to first order.
// Unknowns count in inches; the scale of a tape counts in its own standard deviations, so that all are of one size.

#include <eavewright/squaring/coordinates.hpp>
#include <eavewright/squaring/readings.hpp>

#include <Eigen/Core>

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

namespace eavewright::squaring_detail {

// What computes with Eigen is a template, so that including it compiles nothing of Eigen's until it is used.
template <class Number>
using VectorOf = Eigen::Matrix<Number, Eigen::Dynamic, 1>;
template <class Number>
using MatrixOf = Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = VectorOf<double>;
using Matrix = MatrixOf<double>;

[[nodiscard]] constexpr Eigen::Index at(std::size_t i) { return static_cast<Eigen::Index>(i); }

/// Unknowns of one point: its coordinates, one step along a line, or none.
template <std::size_t dimensions>
struct PointUnknowns {
    std::size_t first;
    std::size_t count;
    std::array<double, dimensions> direction;  ///< where there is one
};

/// Which number of the solution is what.
template <MeasuredPlace Place>
struct Unknowns {
    static constexpr std::size_t dimensions = coordinate_count<Place>;
    std::vector<PointUnknowns<dimensions>> points;
    std::vector<std::optional<std::size_t>> scales;  ///< of each tape that has a scale error and was used
    std::vector<std::optional<std::size_t>> setups;  ///< of each setup that was used
    std::size_t count = 0;
};

/// One reading to first order, already divided by its standard deviation.
struct ReadingRow {
    std::array<std::size_t, 10> column;
    std::array<double, 10> slope;
    std::size_t used = 0;
    double open = 0.0;  ///< read less computed

    void add(std::size_t where, double value) {
        column[used] = where;
        slope[used] = value;
        ++used;
    }
};

/// The state of the search for places.
template <MeasuredPlace Place>
struct NetworkState {
    std::vector<Numbers<Place>> places;  ///< from a middle of their own, so that far grids lose no digits
    std::vector<double> scales;          ///< in standard deviations of each tape
    std::vector<double> setups;          ///< height of the line of sight
};

template <MeasuredPlace Place>
[[nodiscard]] Unknowns<Place> number_unknowns(const Network<Place>& network) {
    Unknowns<Place> all;
    for (const MarkedPoint<Place>& point : network.points) {
        PointUnknowns<Unknowns<Place>::dimensions> own{all.count, 0, {}};
        if (const auto* along = std::get_if<FreeAlong<Place>>(&point.freedom)) {
            own.count = 1;
            own.direction = step_between(Numbers<Place>{}, numbers_of(along->direction)).direction;
        } else if (std::holds_alternative<Free>(point.freedom)) {
            own.count = Unknowns<Place>::dimensions;
        }
        all.count += own.count;
        all.points.push_back(own);
    }
    all.scales.resize(network.tapes.size());
    for (const Reading<Place>& reading : network.readings) {
        if (const auto* distance = std::get_if<DistanceReading>(&reading)) {
            std::optional<std::size_t>& scale = all.scales[distance->tape];
            if (!scale && network.tapes[distance->tape].scale > 0.0) {
                scale = all.count++;
            }
        } else if constexpr (Unknowns<Place>::dimensions == 3) {
            if (const auto* level = std::get_if<LevelReading>(&reading)) {
                if (all.setups.size() <= level->setup) {
                    all.setups.resize(level->setup + 1);
                }
                if (!all.setups[level->setup]) {
                    all.setups[level->setup] = all.count++;
                }
            }
        }
    }
    return all;
}

/// How a reading feels a small move of a point.
template <std::size_t dimensions>
void add_point(const PointUnknowns<dimensions>& own, const std::array<double, dimensions>& slope, ReadingRow& row) {
    if (own.count == dimensions) {
        for (std::size_t i = 0; i < dimensions; ++i) {
            row.add(own.first + i, slope[i]);
        }
    } else if (own.count == 1) {
        double along = 0.0;
        for (std::size_t i = 0; i < dimensions; ++i) {
            along += own.direction[i] * slope[i];
        }
        row.add(own.first, along);
    }
}

template <std::size_t dimensions>
[[nodiscard]] std::array<double, dimensions> times(const std::array<double, dimensions>& a, double factor) {
    std::array<double, dimensions> product{};
    for (std::size_t i = 0; i < dimensions; ++i) {
        product[i] = a[i] * factor;
    }
    return product;
}

template <MeasuredPlace Place>
[[nodiscard]] ReadingRow row_of(const Network<Place>& network, const Unknowns<Place>& unknowns,
                                const NetworkState<Place>& state, const DistanceReading& r) {
    const TapeError& tape = network.tapes[r.tape];
    const double weight = 1.0 / inches(tape.reading);
    const auto step = step_between(state.places[r.from], state.places[r.to]);
    const double stretch = 1.0 + tape.scale * state.scales[r.tape];
    ReadingRow row;
    add_point(unknowns.points[r.from], times(step.direction, -stretch * weight), row);
    add_point(unknowns.points[r.to], times(step.direction, stretch * weight), row);
    if (unknowns.scales[r.tape]) {
        row.add(*unknowns.scales[r.tape], step.length * tape.scale * weight);
    }
    row.open = (inches(r.read) - step.length * stretch) * weight;
    return row;
}

template <MeasuredPlace Place>
[[nodiscard]] ReadingRow row_of(const Network<Place>&, const Unknowns<Place>& unknowns,
                                const NetworkState<Place>& state, const OffsetReading& r) {
    const double weight = 1.0 / inches(r.deviation);
    const auto flat = [&](std::size_t i) { return std::array<double, 2>{state.places[i][0], state.places[i][1]}; };
    const auto line = step_between(flat(r.line_from), flat(r.line_to));
    const std::array<double, 2> from = flat(r.line_from);
    const std::array<double, 2> point = flat(r.point);
    Numbers<Place> left{};
    left[0] = -line.direction[1];
    left[1] = line.direction[0];
    const double offset = left[0] * (point[0] - from[0]) + left[1] * (point[1] - from[1]);
    const double on = line.direction[0] * (point[0] - from[0]) + line.direction[1] * (point[1] - from[1]);
    const double share = line.length > 0.0 ? on / line.length : 0.0;
    ReadingRow row;
    add_point(unknowns.points[r.point], times(left, weight), row);
    add_point(unknowns.points[r.line_from], times(left, -(1.0 - share) * weight), row);
    add_point(unknowns.points[r.line_to], times(left, -share * weight), row);
    row.open = (inches(r.read) - offset) * weight;
    return row;
}

[[nodiscard]] inline ReadingRow row_of(const BuildingNetwork&, const Unknowns<BuildingPoint>& unknowns,
                                       const NetworkState<BuildingPoint>& state, const LevelReading& r) {
    const double weight = 1.0 / inches(r.deviation);
    ReadingRow row;
    add_point(unknowns.points[r.point], {0.0, 0.0, -weight}, row);
    row.add(*unknowns.setups[r.setup], weight);
    row.open = (inches(r.below) - (state.setups[r.setup] - state.places[r.point][2])) * weight;
    return row;
}

/// Rows of all readings, then one for each tape's own scale: that it is zero, but for its deviation.
template <MeasuredPlace Place>
void write_rows(const Network<Place>& network, const Unknowns<Place>& unknowns, const NetworkState<Place>& state,
                std::vector<ReadingRow>& rows) {
    rows.clear();
    for (const Reading<Place>& reading : network.readings) {
        rows.push_back(std::visit([&](const auto& r) { return row_of(network, unknowns, state, r); }, reading));
    }
    for (std::size_t tape = 0; tape < unknowns.scales.size(); ++tape) {
        if (unknowns.scales[tape]) {
            ReadingRow row;
            row.add(*unknowns.scales[tape], 1.0);
            row.open = -state.scales[tape];
            rows.push_back(row);
        }
    }
}

template <MeasuredPlace Place>
void take_step(const Unknowns<Place>& unknowns, const Vector& step, NetworkState<Place>& state) {
    for (std::size_t p = 0; p < state.places.size(); ++p) {
        const auto& own = unknowns.points[p];
        for (std::size_t i = 0; own.count > 0 && i < Unknowns<Place>::dimensions; ++i) {
            state.places[p][i] += own.count == 1 ? own.direction[i] * step[at(own.first)] : step[at(own.first + i)];
        }
    }
    for (std::size_t tape = 0; tape < unknowns.scales.size(); ++tape) {
        state.scales[tape] += unknowns.scales[tape] ? step[at(*unknowns.scales[tape])] : 0.0;
    }
    for (std::size_t setup = 0; setup < unknowns.setups.size(); ++setup) {
        state.setups[setup] += unknowns.setups[setup] ? step[at(*unknowns.setups[setup])] : 0.0;
    }
}

[[nodiscard]] inline double sum_of_squares(const std::vector<ReadingRow>& rows) {
    double sum = 0.0;
    for (const ReadingRow& row : rows) {
        sum += row.open * row.open;
    }
    return sum;
}

/// Slope of half the sum of squares, turned down: what the step answers to.
template <class Number>
[[nodiscard]] VectorOf<Number> downhill(const std::vector<ReadingRow>& rows, std::size_t unknowns) {
    VectorOf<Number> sum = VectorOf<Number>::Zero(at(unknowns));
    for (const ReadingRow& row : rows) {
        for (std::size_t i = 0; i < row.used; ++i) {
            sum[at(row.column[i])] += row.slope[i] * row.open;
        }
    }
    return sum;
}

}  // namespace eavewright::squaring_detail
