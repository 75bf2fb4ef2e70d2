// SPDX-License-Identifier: BSL-1.0
#pragma once

// Counts from lengths. Every count in the library goes through `whole_steps` or `steps_to_cover`.

#include <eavewright/fault.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstdint>
#include <string>
#include <utility>

namespace eavewright {

/// How far a length may miss a whole number of steps and still count as that number: a thousand times less than
/// the finest tape mark, ten thousand times more than the rounding of the arithmetic on any building.
inline constexpr Length count_tolerance = Length::from_inches(1.0 / 65536.0);

/// Most steps, pieces or rows that one call makes; more is refused as too_much_work.
inline constexpr std::int64_t most_steps = 1'000'000;

namespace detail {
inline void require_countable(Length total, Length step) {
    Faults faults;
    require_within(total, Length::from_inches(-length_limit_in), Length::from_inches(length_limit_in), Path{"total"},
                   faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
    if (!is_usable(step) || step <= count_tolerance) {
        throw FaultError{Fault{std::isfinite(inches(step)) ? FaultCode::out_of_range : FaultCode::not_finite, "step",
                               describe_length(step), "a step longer than " + describe_length(count_tolerance)}};
    }
    if (!(magnitude(total) / step < static_cast<double>(most_steps))) {
        throw FaultError{Fault{FaultCode::too_much_work, "step", describe_length(step),
                               "no more than " + std::to_string(most_steps) + " steps in all"}};
    }
}
}  // namespace detail

/// How many whole steps fit into `total`, up to `count_tolerance`; 0 where total is negative.
/// Throws out_of_range unless step is longer than the tolerance, too_much_work above `most_steps`, not_finite.
[[nodiscard]] inline std::int64_t whole_steps(Length total, Length step) {
    detail::require_countable(total, step);
    const double steps = std::floor((total + count_tolerance) / step);
    return steps > 0.0 ? static_cast<std::int64_t>(steps) : 0;
}

/// How many steps it takes to cover `total`, up to `count_tolerance`; 0 where total is not positive.
/// With n > 0 returned, n steps reach `total` and n - 1 do not. Throws as `whole_steps`.
[[nodiscard]] inline std::int64_t steps_to_cover(Length total, Length step) {
    detail::require_countable(total, step);
    const double steps = std::ceil((total - count_tolerance) / step);
    return steps > 0.0 ? static_cast<std::int64_t>(steps) : 0;
}

/// The largest count that both are multiples of; the other one where one is 0. Both at least 0. Own, since `<numeric>` cannot be
/// read where a platform has made macros of `min` and `max`.
[[nodiscard]] constexpr std::int64_t greatest_common_divisor(std::int64_t a, std::int64_t b) noexcept {
    while (b != 0) {
        const std::int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

}  // namespace eavewright
