// SPDX-License-Identifier: BSL-1.0
#pragma once

// Straight by a taut string: offsets from it at stations (posts, truss tails, an eave purlin), the line that suits them,
// and how far each must move. The string itself need not be the line: where its ends may move, the best line is found.
//
//      offset   .    x         .         x: what is there       the string is read at every station, and what stands
//        |   x  .         .    x         .: the best line       further from it than the line does moves towards it
//        +------+----+----+----+----> station, along the string

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/best_shift.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/line_fit.hpp>
#include <eavewright/squaring/standing.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// One offset, read square to the string at a station along it. All offsets of a run count to the same side.
struct StringReading {
    Length station;
    Length offset;
};

/// Fewest readings that say anything of straightness (two always lie in a line), most in one call, and the least space
/// between two stations.
inline constexpr std::size_t fewest_string_readings = 3;
inline constexpr std::size_t most_string_readings = 10'000;
inline constexpr Length closest_stations = Length::from_inches(1.0 / 16.0);

/// What counts as straight where no tolerance is given. Common practice for an eave line.
inline constexpr Length straight_tolerance = Length::from_inches(0.25);

/// A string read from end to end, in the order of its stations.
struct StringRun {
    std::vector<StringReading> readings;
    /// Largest offset from the line, either way, 0 to 100 in. None given: `straight_tolerance`.
    std::optional<Length> tolerance = std::nullopt;
    /// Standard deviation of one offset, 0.0001 to 12 in. Default: common practice for a careful reading.
    Length reading_deviation = one_inch / 32.0;
    /// Standard deviations to each side for "proven", for each station by itself: two-sided 95 %. 0.1 to 10.
    double level_factor = two_sided_95;
};

/// Where the line runs.
enum class LineRule {
    ends_held,      ///< through the first and the last reading
    least_squares,  ///< both ends may move: least sum of squares
    least_worst,    ///< both ends may move: the largest move is as small as it can be
};
template <>
struct NamesOf<LineRule> {
    static constexpr std::array<std::string_view, 3> list{"ends_held", "least_squares", "least_worst"};
};

/// One station held against the line.
struct StationOff {
    Length station;
    Length offset;     ///< as read
    Length line;       ///< the line's offset there
    Length off;        ///< offset less line
    Length move;       ///< to be added to the offset so that it stands on the line
    Length deviation;  ///< standard deviation of `off`: that of the reading and of the line together
    StandingVerdict verdict;
};

/// A line through a string's readings, and whether they lie in it.
struct StringLine {
    LineRule rule;
    StandingVerdict verdict;  ///< the worst of the stations
    bool straight;            ///< every station reads within the tolerance
    Length tolerance;
    bool tolerance_given;  ///< false: `straight_tolerance`, common practice
    Length at_first;       ///< the line's offset at the first station
    Length at_last;
    double slope;               ///< offset by station
    Length at_zero;             ///< the line's offset at station 0, which may lie outside the run
    Length at_zero_deviation;   ///< standard deviation, from that of the readings
    double slope_deviation;     ///< standard deviation, from that of the readings
    Length residual_deviation;  ///< what the readings themselves say of one offset: root of squares over those to spare
    std::int64_t spare_readings;         ///< beyond the two that fix a line
    Length largest_move;                 ///< magnitude
    std::int64_t largest_at;             ///< which reading, from 0
    std::vector<std::int64_t> deciding;  ///< readings that fix the line: two ends held, three of the strip, else none
    std::vector<StationOff> stations;
};

template <>
struct FieldsOf<StationOff> {
    static constexpr auto list = field_list(
        field("station", FieldUnit::length, "along the string", &StationOff::station),
        field("offset", FieldUnit::length, "from the string, as read", &StationOff::offset),
        field("line", FieldUnit::length, "offset of the line there", &StationOff::line),
        field("off", FieldUnit::length, "offset less line", &StationOff::off),
        field("move", FieldUnit::length, "to be added to the offset to stand on the line", &StationOff::move),
        field("deviation", FieldUnit::length, "standard deviation of off", &StationOff::deviation),
        field("verdict", FieldUnit::none, "off against the tolerance", &StationOff::verdict));
};
template <>
struct FieldsOf<StringLine> {
    static constexpr auto list = field_list(
        field("rule", FieldUnit::none, "where the line runs", &StringLine::rule),
        field("verdict", FieldUnit::none, "worst of the stations", &StringLine::verdict),
        field("straight", FieldUnit::none, "every station reads within the tolerance", &StringLine::straight),
        field("tolerance", FieldUnit::length, "largest offset from the line either way", &StringLine::tolerance),
        field("tolerance_given", FieldUnit::none, "else common practice", &StringLine::tolerance_given),
        field("at_first", FieldUnit::length, "offset of the line at the first station", &StringLine::at_first),
        field("at_last", FieldUnit::length, "offset of the line at the last station", &StringLine::at_last),
        field("slope", FieldUnit::ratio, "offset by station", &StringLine::slope),
        field("at_zero", FieldUnit::length, "offset of the line at station 0", &StringLine::at_zero),
        field("at_zero_deviation", FieldUnit::length, "standard deviation of that", &StringLine::at_zero_deviation),
        field("slope_deviation", FieldUnit::ratio, "standard deviation of the slope", &StringLine::slope_deviation),
        field("residual_deviation", FieldUnit::length, "of one offset, by what is off the line",
              &StringLine::residual_deviation),
        field("spare_readings", FieldUnit::count, "beyond the two that fix a line", &StringLine::spare_readings),
        field("largest_move", FieldUnit::length, "magnitude of the largest move", &StringLine::largest_move),
        field("largest_at", FieldUnit::count, "which reading that is, from 0", &StringLine::largest_at),
        field("deciding", FieldUnit::count, "readings that fix the line, from 0", &StringLine::deciding),
        field("stations", FieldUnit::none, "each station against the line", &StringLine::stations));
};

namespace squaring_detail {
/// Readings in a row: enough of them, in range, stations ascending.
inline void find_row_faults(const std::vector<StringReading>& readings, std::size_t fewest, const Path& path,
                            Faults& faults) {
    if (readings.size() < fewest || readings.size() > most_string_readings) {
        const bool many = readings.size() > most_string_readings;
        faults.push_back(Fault{many ? FaultCode::too_much_work : FaultCode::missing_field, path.text(),
                               std::to_string(readings.size()) + " readings",
                               std::to_string(fewest) + " to " + std::to_string(most_string_readings) + " readings"});
        return;
    }
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Path here{path, i};
        const std::size_t before = faults.size();
        require_within(readings[i].station, -longest_reading, longest_reading, Path{here, "station"}, faults);
        require_within(readings[i].offset, -longest_reading, longest_reading, Path{here, "offset"}, faults);
        if (i > 0 && faults.size() == before && !(readings[i].station - readings[i - 1].station >= closest_stations)) {
            faults.push_back(Fault{FaultCode::out_of_order, Path{here, "station"}.text(),
                                   describe_length(readings[i].station),
                                   "at least " + describe_length(closest_stations) + " past the station before"});
        }
    }
}
[[nodiscard]] inline LinePoints points_of(const std::vector<StringReading>& readings) {
    LinePoints points;
    points.reserve(readings.size());
    for (const StringReading& reading : readings) {
        points.push_back(LinePoint{inches(reading.station), inches(reading.offset)});
    }
    return points;
}
}  // namespace squaring_detail

/// Faults: missing_field for fewer than three readings, too_much_work above 10,000; out_of_range or not_finite;
/// out_of_order for a station not past the one before it.
inline void find_faults(const StringRun& run, const Path& path, Faults& faults) {
    squaring_detail::find_row_faults(run.readings, fewest_string_readings, Path{path, "readings"}, faults);
    if (run.tolerance) {
        require_within(*run.tolerance, no_length, one_inch * 100.0, Path{path, "tolerance"}, faults);
    }
    require_within(run.reading_deviation, one_inch / 10000.0, one_inch * 12.0, Path{path, "reading_deviation"}, faults);
    find_level_faults(run.level_factor, Path{path, "level_factor"}, faults);
}

namespace squaring_detail {

/// A line that is a sum of shares of the readings: how much an error of one reading moves it at `x`.
class LineShares {
public:
    /// Through two readings (`b` unused) or along their chord halfway to the third one.
    LineShares(const LinePoints& points, std::size_t a, std::optional<std::size_t> b, std::size_t c)
        : from_{points[a].x}, over_{points[c].x - points[a].x}, a_{a}, b_{b.value_or(a)}, c_{c}, third_{b.has_value()} {
        half_ = third_ ? (points[b_].x - from_) / over_ / 2.0 : 0.0;
    }
    /// Variance of reading i less the line there, in variances of one reading.
    [[nodiscard]] double variance(std::size_t i, double x) const {
        const double along = (x - from_) / over_;
        const double of_a = 1.0 - along - (third_ ? 0.5 - half_ : 0.0);
        const double of_c = along - half_;
        const double of_b = third_ ? 0.5 : 0.0;
        const double own = i == a_ ? of_a : i == c_ ? of_c : third_ && i == b_ ? of_b : 0.0;
        const double sum = 1.0 - 2.0 * own + of_a * of_a + of_b * of_b + of_c * of_c;
        return sum > 0.0 ? sum : 0.0;
    }
    /// Variance of the slope and of the line at station 0.
    [[nodiscard]] double slope_variance() const { return 2.0 / (over_ * over_); }
    [[nodiscard]] double zero_variance() const {
        const double along = -from_ / over_;
        const double of_a = 1.0 - along - (third_ ? 0.5 - half_ : 0.0);
        const double of_c = along - half_;
        return of_a * of_a + of_c * of_c + (third_ ? 0.25 : 0.0);
    }

private:
    double from_, over_, half_ = 0.0;
    std::size_t a_, b_, c_;
    bool third_;
};

/// Everything about a line but what its rule gives: the deviations of slope and intercept, and the deciding readings.
template <class Variance>
[[nodiscard]] StringLine hold_line(const StringRun& run, const LinePoints& points, const PlainLine& line, LineRule rule,
                                   Variance&& variance) {
    StringLine result{.rule = rule,
                      .verdict = StandingVerdict::proven_within,
                      .straight = true,
                      .tolerance = run.tolerance.value_or(straight_tolerance),
                      .tolerance_given = run.tolerance.has_value(),
                      .at_first = one_inch * line.at(points[0].x),
                      .at_last = one_inch * line.at(points[points.size() - 1].x),
                      .slope = line.slope,
                      .at_zero = one_inch * line.at(0.0),
                      .at_zero_deviation = no_length,
                      .slope_deviation = 0.0,
                      .residual_deviation = one_inch * residual_deviation_of(points, line),
                      .spare_readings = static_cast<std::int64_t>(points.size()) - 2,
                      .largest_move = no_length,
                      .largest_at = 0,
                      .deciding = {},
                      .stations = {}};
    result.stations.reserve(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        const StringReading& read = run.readings[i];
        const Length there = one_inch * line.at(points[i].x);
        const Length off = read.offset - there;
        const Length deviation = run.reading_deviation * std::sqrt(variance(i));
        const StandingVerdict verdict = standing_of(magnitude(off), deviation, result.tolerance, run.level_factor);
        result.stations.push_back(StationOff{read.station, read.offset, there, off, -off, deviation, verdict});
        result.verdict = worse_of(result.verdict, verdict);
        if (magnitude(off) > result.largest_move) {
            result.largest_move = magnitude(off);
            result.largest_at = static_cast<std::int64_t>(i);
        }
    }
    result.straight = reads_within(result.verdict);
    return result;
}

[[nodiscard]] inline StringLine hold_shared_line(const StringRun& run, const LinePoints& points, const PlainLine& line,
                                                 LineRule rule, const LineShares& shares) {
    StringLine result =
        hold_line(run, points, line, rule, [&](std::size_t i) { return shares.variance(i, points[i].x); });
    result.slope_deviation = inches(run.reading_deviation) * std::sqrt(shares.slope_variance());
    result.at_zero_deviation = run.reading_deviation * std::sqrt(shares.zero_variance());
    return result;
}

}  // namespace squaring_detail

/// The string's own ends held: the line runs through the first and the last reading, which do not move. The errors of
/// both count at every other station. Throws as `find_faults` of StringRun.
[[nodiscard]] inline StringLine line_of_held_ends(const StringRun& run) {
    require_sound(run, "string");
    const squaring_detail::LinePoints points = squaring_detail::points_of(run.readings);
    const std::size_t last = points.size() - 1;
    StringLine line = squaring_detail::hold_shared_line(
        run, points, squaring_detail::line_through(points[0], points[last]), LineRule::ends_held,
        squaring_detail::LineShares{points, 0, std::nullopt, last});
    line.deciding = {0, static_cast<std::int64_t>(last)};
    return line;
}

/// The best line where both ends may move. By least squares every reading counts, and one bad one pulls the line a
/// little; by least worst the largest move is the smallest that any line has, and the three `deciding` readings, off to
/// alternate sides by that much, prove it (`find_faults_of_least_worst`). The deviations of a least-worst line take the
/// same three as deciding whatever the errors. Throws as `find_faults` of StringRun, unknown_name for `by`.
[[nodiscard]] inline StringLine best_line(const StringRun& run, BestBy by) {
    require_sound(run, "string");
    detail::require_named(by, "by");
    const squaring_detail::LinePoints points = squaring_detail::points_of(run.readings);
    if (by == BestBy::least_worst) {
        const squaring_detail::Strip strip = squaring_detail::narrowest_strip(points);
        const auto& d = strip.deciding;
        StringLine line = squaring_detail::hold_shared_line(run, points, strip.line, LineRule::least_worst,
                                                            squaring_detail::LineShares{points, d[0], d[1], d[2]});
        line.deciding = {static_cast<std::int64_t>(d[0]), static_cast<std::int64_t>(d[1]),
                         static_cast<std::int64_t>(d[2])};
        return line;
    }
    const squaring_detail::FittedLine fit = squaring_detail::fit_line(points);
    const double mean_share = 1.0 / static_cast<double>(points.size());
    StringLine line = squaring_detail::hold_line(run, points, fit.line, LineRule::least_squares, [&](std::size_t i) {
        const double from_mean = points[i].x - fit.line.x0;
        const double variance = 1.0 - mean_share - from_mean * from_mean / fit.spread;
        return variance > 0.0 ? variance : 0.0;
    });
    line.slope_deviation = inches(run.reading_deviation) / std::sqrt(fit.spread);
    line.at_zero_deviation = run.reading_deviation * std::sqrt(mean_share + fit.line.x0 * fit.line.x0 / fit.spread);
    return line;
}

/// Judges a least-worst line without the maker's code. Three readings left to right that stand off alternate sides of
/// the line by the largest move bound every line: on another one, one of the three stands off at least as far. So the
/// line is the best if its offs are what they say, none is larger, and the three alternate. Lengths to
/// `count_tolerance`. Faults: contradiction.
inline void find_faults_of_least_worst(const StringRun& run, const StringLine& line, const Path& path, Faults& faults) {
    const auto refuse = [&](std::string_view where, std::string_view what) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, where}.text(), std::string{what},
                               "a line no further from any reading than from three that alternate"});
    };
    if (run.readings.size() < fewest_string_readings || line.deciding.size() != 3 || line.deciding[0] < 0 ||
        line.deciding[0] >= line.deciding[1] || line.deciding[1] >= line.deciding[2] ||
        line.deciding[2] >= static_cast<std::int64_t>(run.readings.size())) {
        return refuse("deciding", "not three readings from left to right");
    }
    const auto off = [&](std::size_t i) {
        const StringReading& read = run.readings[i];
        return read.offset - line.at_first - (read.station - run.readings[0].station) * line.slope;
    };
    for (std::size_t i = 0; i < run.readings.size(); ++i) {
        if (!(magnitude(off(i)) <= line.largest_move + count_tolerance)) {
            return refuse("largest_move", "a reading stands further off");
        }
    }
    const double side = off(static_cast<std::size_t>(line.deciding[1])) > no_length ? 1.0 : -1.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const double turn = k == 1 ? side : -side;
        if (!(off(static_cast<std::size_t>(line.deciding[k])) * turn >= line.largest_move - count_tolerance)) {
            return refuse("deciding", "a deciding reading that does not stand off by the largest move on its side");
        }
    }
}

}  // namespace eavewright
