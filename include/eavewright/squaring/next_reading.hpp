// SPDX-License-Identifier: BSL-1.0
#pragma once

// What to measure next. Where points are loose: the readings that settle them. Else: those whose length is known worst for
// the tape that would read it, since they tell most; each is chosen as if those before it had been read.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/coordinates.hpp>
#include <eavewright/squaring/readings.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

/// One distance worth reading.
struct NextReading {
    std::size_t from;
    std::size_t to;
    Length expected;           ///< what it should read
    Length deviation;          ///< how well that is known now; zero where it settles a loose point
    bool settles;              ///< it settles what the readings so far could not
    bool repeats;              ///< this pair was read before: a second reading is also a check of the first
    double gain;               ///< variance of the length now over that of a reading: 1 halves it; of one that settles,
                               ///< how squarely it meets the loose move, 0 to 1 and a little more
    Length largest_deviation;  ///< of any point's ellipse once it is read; of settled points only
};
template <>
struct FieldsOf<NextReading> {
    static constexpr auto list = field_list(
        field("from", FieldUnit::count, "point", &NextReading::from),
        field("to", FieldUnit::count, "point", &NextReading::to),
        field("expected", FieldUnit::length, "what it should read", &NextReading::expected),
        field("deviation", FieldUnit::length, "how well that is known now", &NextReading::deviation),
        field("settles", FieldUnit::none, "settles what could not be decided", &NextReading::settles),
        field("repeats", FieldUnit::none, "this pair was read before", &NextReading::repeats),
        field("gain", FieldUnit::ratio, "variance now over that of a reading", &NextReading::gain),
        field("largest_deviation", FieldUnit::length, "of any point once it is read", &NextReading::largest_deviation));
};

/// How to choose.
struct NextPlan {
    std::size_t most = 3;            ///< readings to propose, 1 to 100
    Length reach = one_inch * 1200;  ///< longest that the tape reads, 1 in to 100,000 in
    TapeError tape{};
    double least_gain = 0.1;  ///< what tells less is not proposed, 0 to 1000
};
inline void find_faults(const NextPlan& plan, const Path& path, Faults& faults) {
    squaring_detail::require_number(static_cast<double>(plan.most), 1.0, 100.0, Path{path, "most"}, faults);
    require_within(plan.reach, shortest_side, longest_reading, Path{path, "reach"}, faults);
    find_faults(plan.tape, Path{path, "tape"}, faults);
    squaring_detail::require_number(plan.least_gain, 0.0, 1000.0, Path{path, "least_gain"}, faults);
}

namespace squaring_detail {

/// A distance that could be read: its direction tells how it feels a move of its ends.
template <MeasuredPlace Place>
struct Candidate {
    std::size_t from;
    std::size_t to;
    StepBetween<coordinate_count<Place>> step;
    bool repeats;
};

template <MeasuredPlace Place>
[[nodiscard]] std::vector<Candidate<Place>> candidates_of(const Network<Place>& network,
                                                          const AdjustedNetwork<Place>& found, const NextPlan& plan) {
    const std::vector<ReadPair> read = read_pairs(network);
    const std::size_t count = network.points.size();
    std::vector<Candidate<Place>> all;
    for (std::size_t a = 0; a < count; ++a) {
        for (std::size_t b = a + 1; b < count; ++b) {
            const auto step = step_between(numbers_of(found.points[a].place), numbers_of(found.points[b].place));
            if (step.length >= inches(shortest_side) && step.length <= inches(plan.reach)) {
                all.push_back({a, b, step, read[a * count + b].read > 0.0});
            }
        }
    }
    return all;
}

/// What a move of all coordinates does to a distance.
template <MeasuredPlace Place>
[[nodiscard]] double felt(const Candidate<Place>& c, const std::vector<double>& move) {
    constexpr std::size_t n = coordinate_count<Place>;
    double sum = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        sum += c.step.direction[i] * (move[c.to * n + i] - move[c.from * n + i]);
    }
    return sum;
}

/// Takes from the undecided moves the one that a distance settles.
template <MeasuredPlace Place>
void settle(const Candidate<Place>& c, std::vector<std::vector<double>>& moves) {
    std::size_t strongest = 0;
    for (std::size_t m = 1; m < moves.size(); ++m) {
        strongest = std::fabs(felt(c, moves[m])) > std::fabs(felt(c, moves[strongest])) ? m : strongest;
    }
    const std::vector<double> settled = moves[strongest];
    const double size = felt(c, settled);
    moves.erase(moves.begin() + static_cast<std::ptrdiff_t>(strongest));
    for (std::vector<double>& move : moves) {
        const double share = felt(c, move) / size;
        for (std::size_t i = 0; i < move.size(); ++i) {
            move[i] -= share * settled[i];
        }
    }
}

/// How a distance varies with every coordinate, and its own variance.
template <MeasuredPlace Place>
[[nodiscard]] std::vector<double> varies_with(const Candidate<Place>& c, const Covariance& covariance) {
    constexpr std::size_t n = coordinate_count<Place>;
    const std::size_t size = covariance.points * n;
    std::vector<double> with(size, 0.0);
    for (std::size_t k = 0; k < size; ++k) {
        for (std::size_t i = 0; i < n; ++i) {
            with[k] += c.step.direction[i] * (covariance.entries[(c.to * n + i) * size + k] -
                                              covariance.entries[(c.from * n + i) * size + k]);
        }
    }
    return with;
}

/// Covariances once a distance of this variance is read: those of its own direction shrink.
inline void take_reading(const std::vector<double>& with, double own, double reading, Covariance& covariance) {
    const std::size_t size = with.size();
    for (std::size_t i = 0; i < size; ++i) {
        for (std::size_t j = 0; j < size; ++j) {
            covariance.entries[i * size + j] -= with[i] * with[j] / (own + reading);
        }
    }
}

[[nodiscard]] inline Length largest_deviation_of(const Covariance& covariance) {
    Length largest = no_length;
    for (std::size_t p = 0; p < covariance.points; ++p) {
        largest = longer(largest, error_ellipse(covariance.between(p, 0, p, 0), covariance.between(p, 0, p, 1),
                                                covariance.between(p, 1, p, 1))
                                      .long_axis);
    }
    return largest;
}

/// Best candidate for what is loose, else for what is known worst; how much it brings.
struct Choice {
    std::size_t index;
    double gain;
};
template <MeasuredPlace Place>
[[nodiscard]] Choice choose_next(const std::vector<Candidate<Place>>& candidates,
                                 const std::vector<std::vector<double>>& loose, const Covariance& covariance,
                                 const TapeError& tape) {
    Choice best{candidates.size(), 0.0};
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const Candidate<Place>& c = candidates[i];
        double gain = 0.0;
        if (!loose.empty()) {
            for (const std::vector<double>& move : loose) {
                gain += felt(c, move) * felt(c, move);
            }
            gain = std::sqrt(gain);
        } else {
            const double own = felt(c, varies_with(c, covariance));
            const double stretch = tape.scale * c.step.length;
            gain = own / (inches(tape.reading) * inches(tape.reading) + stretch * stretch);
        }
        if (gain > best.gain * (1.0 + 1e-9)) {
            best = {i, gain};
        }
    }
    return best;
}

}  // namespace squaring_detail

/// Distances worth reading next, in order, at most `plan.most`; none where nothing within reach tells anything. A distance
/// that settles a loose point must feel its move by at least a hundredth. Throws as `find_faults` of Network and NextPlan,
/// and does_not_fit where `found` is not of this network.
template <MeasuredPlace Place>
[[nodiscard]] std::vector<NextReading> next_readings(const Network<Place>& network, const AdjustedNetwork<Place>& found,
                                                     const NextPlan& plan = {}) {
    require_sound(network, "network");
    require_sound(plan, "plan");
    if (found.points.size() != network.points.size()) {
        throw FaultError{Fault{FaultCode::does_not_fit, "found", std::to_string(found.points.size()) + " points",
                               "the " + std::to_string(network.points.size()) + " of the network"}};
    }
    const auto candidates = squaring_detail::candidates_of(network, found, plan);
    std::vector<std::vector<double>> loose = found.undecided;
    Covariance covariance = found.covariance;
    std::vector<NextReading> next;
    while (next.size() < plan.most) {
        const auto best = squaring_detail::choose_next(candidates, loose, covariance, plan.tape);
        if (best.index == candidates.size() || best.gain < (loose.empty() ? plan.least_gain : 0.01)) {
            break;
        }
        const auto& c = candidates[best.index];
        const auto with = squaring_detail::varies_with(c, covariance);
        const double own = squaring_detail::felt(c, with);
        const bool settles = !loose.empty();
        if (settles) {
            squaring_detail::settle(c, loose);
        } else {
            const double stretch = plan.tape.scale * c.step.length;
            squaring_detail::take_reading(
                with, own, inches(plan.tape.reading) * inches(plan.tape.reading) + stretch * stretch, covariance);
        }
        next.push_back({c.from, c.to, one_inch * c.step.length,
                        settles ? no_length : one_inch * std::sqrt(own > 0.0 ? own : 0.0), settles, c.repeats,
                        best.gain, squaring_detail::largest_deviation_of(covariance)});
    }
    return next;
}

}  // namespace eavewright
