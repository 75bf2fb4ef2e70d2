// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a network of readings comes to: places with their errors, what each reading is worth, and what they cannot say.
// Made by squaring/network.hpp, which needs Eigen; this header and all who read it do not.

#include <eavewright/field.hpp>
#include <eavewright/squaring/coordinates.hpp>
#include <eavewright/squaring/error_ellipse.hpp>
#include <eavewright/squaring/readings.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// At which odds the readings are judged. Each 1e-9 to 0.5; `power` 0.5 to 0.999.
struct NetworkLevels {
    double region =
        0.05;  ///< share of regions that miss the truth, and of sound networks whose sum of squares is refused
    double reading = 0.001;  ///< share of sound readings that are taken for blunders; Baarda's choice
    double power = 0.8;      ///< share of blunders of the stated size that are seen; Baarda's choice
};
inline void find_faults(const NetworkLevels& levels, const Path& path, Faults& faults) {
    squaring_detail::require_number(levels.region, 1e-9, 0.5, Path{path, "region"}, faults);
    squaring_detail::require_number(levels.reading, 1e-9, 0.5, Path{path, "reading"}, faults);
    squaring_detail::require_number(levels.power, 0.5, 0.999, Path{path, "power"}, faults);
}

/// What the readings as a whole say. Later ones exclude earlier ones.
enum class NetworkStanding {
    agree,               ///< reading errors of the stated size explain the residuals
    not_checked,         ///< just as many readings as it takes: a blunder in any of them would not be seen
    blunder_placed,      ///< they do not agree, and one reading alone explains why
    blunder_not_placed,  ///< they do not agree, and two or more readings could each be the one: read the suspects again
    disagree,            ///< they do not agree, and no single reading explains it
    loose,               ///< they cannot decide where some points are
    not_settled,         ///< no places were found that the readings lead to: wrong points, or `about` far off
};
template <>
struct NamesOf<NetworkStanding> {
    static constexpr std::array<std::string_view, 7> list{
        "agree", "not_checked", "blunder_placed", "blunder_not_placed", "disagree", "loose", "not_settled"};
};

/// Where a point was found, and how well. A held point has no errors.
template <MeasuredPlace Place>
struct AdjustedPoint {
    std::string name;
    Place place;
    bool loose;       ///< the readings cannot decide where it is, or no better than the shortest distance read from it:
                      ///< `place` is one of many
    Place deviation;  ///< standard deviation of each coordinate; of a loose point zero
    ErrorEllipse plan;  ///< of the first two coordinates; of a loose point zero
};

/// One reading after the adjustment, in the order given.
struct AdjustedReading {
    Length read;
    Length adjusted;     ///< what it would have read without its error
    Length residual;     ///< adjusted less read
    Length deviation;    ///< standard deviation of the reading, as stated
    double redundancy;   ///< share of its error that shows in its own residual, 0 to 1; over all readings, with the
                         ///< scales of tapes, the number of spare readings
    double normalised;   ///< residual in its own standard deviations; 0 for a reading that nothing checks
    double studentised;  ///< the same by the deviation that the residuals themselves show (Pope's tau)
    bool checked;        ///< other readings check it
    bool stands_out;     ///< beyond what one sound reading in 1 / `NetworkLevels::reading` shows
    Length blunder;      ///< by how much it would be wrong if it alone were: -residual / redundancy; 0 unless checked
    std::optional<Length> smallest_blunder;  ///< the smallest that is seen with the stated power; none unless checked
    std::optional<Length> hidden_move;       ///< furthest that a point is moved by a blunder of that size
};

/// The scale error of one tape, where it has one.
struct AdjustedTape {
    double scale;       ///< how much longer it reads than it should, as a share
    double deviation;   ///< standard deviation of that
    double redundancy;  ///< share of the stated scale error that the other readings check
};

/// Everything that the readings lead to.
template <MeasuredPlace Place>
struct AdjustedNetwork {
    NetworkStanding standing;
    std::vector<AdjustedPoint<Place>> points;
    std::vector<AdjustedReading> readings;
    std::vector<AdjustedTape> tapes;
    std::size_t unknowns;
    std::size_t spare;      ///< readings to spare: degrees of freedom
    double sum_of_squares;  ///< of residuals over their readings' deviations
    double
        unit_deviation;  ///< root of that over `spare`: about 1 where the stated errors are right; 0 without spare ones
    double largest_sum_of_squares;  ///< what sound readings stay below, but for the share `NetworkLevels::region`
    std::vector<std::size_t>
        suspects;  ///< readings that alone could explain a disagreement, likeliest first; those at least a twentieth as likely as the first
    std::vector<std::size_t> loose;  ///< points that are loose
    /// Moves of the points that no reading feels, beside those of the whole as one body: one step in inches for each
    /// coordinate, the squares adding up to 1. Readings that feel all of them would settle the network.
    std::vector<std::vector<double>> undecided;
    bool afloat;  ///< nothing holds the whole: it is placed by its own middle as given in `about`
    int steps;
    Covariance covariance;  ///< of all coordinates, from the stated errors
};

template <MeasuredPlace Place>
struct FieldsOf<AdjustedPoint<Place>> {
    using P = AdjustedPoint<Place>;
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "name of the mark", &P::name),
                   field("place", FieldUnit::none, "where it was found", &P::place),
                   field("loose", FieldUnit::none, "the readings cannot decide where it is", &P::loose),
                   field("deviation", FieldUnit::none, "standard deviation of each coordinate", &P::deviation),
                   field("plan", FieldUnit::none, "error ellipse of the first two coordinates", &P::plan));
};
template <>
struct FieldsOf<AdjustedReading> {
    static constexpr auto list = field_list(
        field("read", FieldUnit::length, "as read", &AdjustedReading::read),
        field("adjusted", FieldUnit::length, "without its error", &AdjustedReading::adjusted),
        field("residual", FieldUnit::length, "adjusted less read", &AdjustedReading::residual),
        field("deviation", FieldUnit::length, "stated standard deviation", &AdjustedReading::deviation),
        field("redundancy", FieldUnit::ratio, "share of its error that shows in its residual",
              &AdjustedReading::redundancy),
        field("normalised", FieldUnit::ratio, "residual in its standard deviations", &AdjustedReading::normalised),
        field("studentised", FieldUnit::ratio, "the same by the deviation the residuals show",
              &AdjustedReading::studentised),
        field("checked", FieldUnit::none, "other readings check it", &AdjustedReading::checked),
        field("stands_out", FieldUnit::none, "beyond what a sound reading shows", &AdjustedReading::stands_out),
        field("blunder", FieldUnit::length, "by how much it alone would be wrong", &AdjustedReading::blunder),
        field("smallest_blunder", FieldUnit::length, "smallest that would be seen, null where nothing checks it",
              &AdjustedReading::smallest_blunder),
        field("hidden_move", FieldUnit::length, "furthest move of a point by a blunder of that size",
              &AdjustedReading::hidden_move));
};
template <>
struct FieldsOf<AdjustedTape> {
    static constexpr auto list = field_list(
        field("scale", FieldUnit::ratio, "how much longer it reads, as a share", &AdjustedTape::scale),
        field("deviation", FieldUnit::ratio, "standard deviation of that", &AdjustedTape::deviation),
        field("redundancy", FieldUnit::ratio, "share of it that the readings check", &AdjustedTape::redundancy));
};
template <MeasuredPlace Place>
struct FieldsOf<AdjustedNetwork<Place>> {
    using N = AdjustedNetwork<Place>;
    static constexpr auto list = field_list(
        field("standing", FieldUnit::none, "what the readings as a whole say", &N::standing),
        field("points", FieldUnit::none, "where the marks were found", &N::points),
        field("readings", FieldUnit::none, "readings in the order given", &N::readings),
        field("tapes", FieldUnit::none, "scale errors of the tapes", &N::tapes),
        field("unknowns", FieldUnit::count, "what was to be found", &N::unknowns),
        field("spare", FieldUnit::count, "readings to spare", &N::spare),
        field("sum_of_squares", FieldUnit::ratio, "of residuals over deviations", &N::sum_of_squares),
        field("unit_deviation", FieldUnit::ratio, "about 1 where the stated errors are right", &N::unit_deviation),
        field("largest_sum_of_squares", FieldUnit::ratio, "what sound readings stay below", &N::largest_sum_of_squares),
        field("suspects", FieldUnit::count, "readings that alone could explain a disagreement", &N::suspects),
        field("loose", FieldUnit::count, "points that the readings cannot place", &N::loose),
        field("afloat", FieldUnit::none, "nothing holds the whole", &N::afloat),
        field("steps", FieldUnit::count, "steps of the adjustment", &N::steps));
};

}  // namespace eavewright
