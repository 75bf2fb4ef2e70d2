// SPDX-License-Identifier: BSL-1.0
#pragma once

// How far a taut string hangs below the straight line between its ends, and heights read from it set right.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/string_line.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// A string pulled tight between two ends at about the same height. For a string up a slope, read square to it, give
/// its weight times the cosine of the slope.
struct StretchedString {
    Length length;    ///< between the ends, `shortest_side` to `longest_reading`
    LineLoad weight;  ///< 0 to 1 lb/ft; weigh a long piece
    Force pull;       ///< 0.1 to 1000 lbf; a spring scale at one end tells it
};

/// Slackest string that the formula is used for: mid sag by length.
inline constexpr double slackest_string = 1.0 / 50.0;

/// Faults: out_of_range or not_finite; out_of_range for `pull` where the string would sag by more than a fiftieth of
/// its length.
inline void find_faults(const StretchedString& string, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    squaring_detail::require_side(string.length, Path{path, "length"}, faults);
    squaring_detail::require_number(pounds_per_foot(string.weight), 0.0, 1.0, Path{path, "weight"}, faults);
    squaring_detail::require_number(pounds_force(string.pull), 0.1, 1000.0, Path{path, "pull"}, faults);
    if (faults.size() == before) {
        const double least = pounds_force(string.weight * string.length) / (8.0 * slackest_string);
        squaring_detail::require_number(pounds_force(string.pull), least, 1000.0, Path{path, "pull"}, faults);
    }
}

/// How far the string hangs below the straight line at `from_end`: w x (L - x) / (2 T), the parabola. It is shallower
/// than the true catenary by less than 0.06 % at the slackest string taken. Faults as for StretchedString; `from_end`
/// 0 to the length.
[[nodiscard]] inline Length string_sag(const StretchedString& string, Length from_end) {
    require_sound(string, "string");
    Faults faults;
    require_within(from_end, no_length, string.length, Path{"from_end"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    const double weight = pounds_force(string.weight * from_end);
    return (string.length - from_end) * (weight / (2.0 * pounds_force(string.pull)));
}

/// The same at mid length, where it is largest: w L^2 / (8 T).
[[nodiscard]] inline Length string_sag(const StretchedString& string) {
    return string_sag(string, string.length / 2.0);
}

/// Which way a vertical offset counts.
enum class ReadFrom {
    up_from_string,    ///< how far the thing stands above the string
    down_from_string,  ///< how far it stands below the string
};
template <>
struct NamesOf<ReadFrom> {
    static constexpr std::array<std::string_view, 2> list{"up_from_string", "down_from_string"};
};

/// Vertical offsets as they would read from a string that does not sag: less the sag where they count up, plus it where
/// they count down. `first_end` is the station of the string's first end; every station lies on the string. Offsets read
/// sideways need none of this. Throws as `find_faults` of StretchedString; out_of_range, out_of_order for a reading.
[[nodiscard]] inline std::vector<StringReading> without_sag(std::vector<StringReading> readings,
                                                            const StretchedString& string, ReadFrom way,
                                                            Length first_end = no_length) {
    require_sound(string, "string");
    detail::require_named(way, "way");
    Faults faults;
    squaring_detail::find_row_faults(readings, 1, Path{"readings"}, faults);
    for (std::size_t i = 0; i < readings.size() && faults.empty(); ++i) {
        require_within(readings[i].station, first_end, first_end + string.length,
                       Path{Path{Path{"readings"}, i}, "station"}, faults);
    }
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    for (StringReading& reading : readings) {
        const Length sag = string_sag(string, reading.station - first_end);
        reading.offset += way == ReadFrom::up_from_string ? -sag : sag;
    }
    return readings;
}

}  // namespace eavewright
