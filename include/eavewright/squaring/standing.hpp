// SPDX-License-Identifier: BSL-1.0
#pragma once

// Where a figure stands against a limit: what it reads, and what the readings prove.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <string_view>
#include <utility>

namespace eavewright {

/// Two answers in one word, from good to bad: does it read within the limit, and do the readings prove it.
enum class StandingVerdict {
    proven_within,  ///< the whole interval lies within the limit
    reads_within,   ///< reads within, but reading errors could hide that it is out
    undecided,      ///< reads out, but reading errors alone could make it read so: read again, or with a better tool
    out,            ///< the whole interval lies beyond the limit
};
template <>
struct NamesOf<StandingVerdict> {
    static constexpr std::array<std::string_view, 4> list{"proven_within", "reads_within", "undecided", "out"};
};

/// Whether the figure as read is within the limit, proven or not.
[[nodiscard]] constexpr bool reads_within(StandingVerdict verdict) noexcept {
    return verdict == StandingVerdict::proven_within || verdict == StandingVerdict::reads_within;
}

/// The worse of two: what stands for both together.
[[nodiscard]] constexpr StandingVerdict worse_of(StandingVerdict a, StandingVerdict b) noexcept {
    return a < b ? b : a;
}

/// Holds a figure `off` (its magnitude) with standard deviation `deviation` against `tolerance`. The interval is off
/// +- level_factor standard deviations; on the limit, to `count_tolerance`, is within it. All lengths 0 to
/// `length_limit_in`, level_factor 0.1 to 10; out_of_range or not_finite otherwise. A deviation of 0 is an exact figure.
[[nodiscard]] inline StandingVerdict standing_of(Length off, Length deviation, Length tolerance,
                                                 double level_factor = two_sided_95) {
    Faults faults;
    const Length most = Length::from_inches(length_limit_in);
    require_within(off, no_length, most, Path{"off"}, faults);
    require_within(deviation, no_length, most, Path{"deviation"}, faults);
    require_within(tolerance, no_length, most, Path{"tolerance"}, faults);
    find_level_faults(level_factor, Path{"level_factor"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    const Length margin = deviation * level_factor;
    const Length limit = tolerance + count_tolerance;
    if (off <= limit) {
        return off + margin <= limit ? StandingVerdict::proven_within : StandingVerdict::reads_within;
    }
    return off - margin > limit ? StandingVerdict::out : StandingVerdict::undecided;
}

}  // namespace eavewright
