// SPDX-License-Identifier: BSL-1.0
#pragma once

// How far a tape can be trusted, and what a difference of two readings proves.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <string>
#include <string_view>

namespace eavewright {

/// Half width, in standard deviations, of the two-sided 95 % interval of the normal distribution.
inline constexpr double two_sided_95 = 1.959963984540054;

/// What a tape is good for. Each reading carries its own independent error; a stretched, hot or badly printed tape
/// adds one relative error that all of its readings share.
struct TapeError {
    /// One standard deviation of one reading, 0.0001 in to 12 in. Default: common practice for a careful reading.
    Length reading = one_inch / 32.0;
    /// Relative standard deviation shared by all readings of the tape, 0 to 0.01. Default: none.
    double scale = 0.0;
};

namespace squaring_detail {
inline void require_number(double value, double lowest, double highest, const Path& path, Faults& faults) {
    if (value >= lowest && value <= highest) {
        return;
    }
    faults.push_back(Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite, path.text(),
                           write_decimal(value, 6), write_decimal(lowest, 6) + " to " + write_decimal(highest, 6)});
}
}  // namespace squaring_detail

/// Faults: out_of_range or not_finite.
inline void find_faults(const TapeError& tape, const Path& path, Faults& faults) {
    require_within(tape.reading, one_inch / 10000.0, one_inch * 12.0, Path{path, "reading"}, faults);
    squaring_detail::require_number(tape.scale, 0.0, 0.01, Path{path, "scale"}, faults);
}

/// Range of a level factor (standard deviations to each side): 0.1 to 10; out_of_range or not_finite otherwise.
inline void find_level_faults(double level_factor, const Path& path, Faults& faults) {
    squaring_detail::require_number(level_factor, 0.1, 10.0, path, faults);
}

/// What the readings prove about a limit, at the level of the comparison.
enum class Certainty {
    proven_within,   ///< the whole interval lies within the limit
    not_proven,      ///< the interval reaches across the limit: read again, or with a better tape
    proven_outside,  ///< the whole interval lies beyond the limit
};

template <>
struct NamesOf<Certainty> {
    static constexpr std::array<std::string_view, 3> list{"proven_within", "not_proven", "proven_outside"};
};

/// Two readings that should be equal, held against a limit. Two answers: `reads_within` is what the tape shows,
/// `certainty` is what it proves.
struct Comparison {
    Length difference;          ///< first reading less second, as read
    Length standard_deviation;  ///< of that difference
    Length tolerance;           ///< the limit for |difference|
    bool reads_within;          ///< |difference| <= tolerance
    Certainty certainty;
};

template <>
struct FieldsOf<Comparison> {
    static constexpr auto list = field_list(
        field("difference", FieldUnit::length, "first reading less second", &Comparison::difference),
        field("standard_deviation", FieldUnit::length, "of the difference", &Comparison::standard_deviation),
        field("tolerance", FieldUnit::length, "limit of the difference either way", &Comparison::tolerance),
        field("reads_within", FieldUnit::none, "the difference as read is within the limit", &Comparison::reads_within),
        field("certainty", FieldUnit::none, "what the readings prove about the limit", &Comparison::certainty));
};

/// Standard deviation of `first - second`, both read with the same tape: independent reading errors add in squares,
/// a shared scale error only stretches the difference.
[[nodiscard]] inline Length difference_deviation(Length first, Length second, const TapeError& tape) {
    const double reading = inches(tape.reading);
    const double stretched = tape.scale * inches(first - second);
    return one_inch * std::sqrt(2.0 * reading * reading + stretched * stretched);
}

/// Holds `first - second` against `tolerance`. The interval is difference +- level_factor standard deviations.
/// A plain formula: the callers in this room check what goes in.
[[nodiscard]] inline Comparison compare_readings(Length first, Length second, const TapeError& tape, Length tolerance,
                                                 double level_factor = two_sided_95) {
    const Length deviation = difference_deviation(first, second, tape);
    const Length off = magnitude(first - second);
    const Length margin = deviation * level_factor;
    const Certainty certainty = off + margin <= tolerance  ? Certainty::proven_within
                                : off - margin > tolerance ? Certainty::proven_outside
                                                           : Certainty::not_proven;
    return Comparison{first - second, deviation, tolerance, off <= tolerance, certainty};
}

}  // namespace eavewright
