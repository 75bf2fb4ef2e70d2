// SPDX-License-Identifier: BSL-1.0
#pragma once

// Tick: the finest mark a person works to, a fraction of an inch or a whole number of millimetres.

#include <eavewright/fault.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <string>

namespace eavewright {

/// What happens to a reading midway between two marks.
enum class Tie {
    half_up,    ///< away from zero, the way of a builder
    half_even,  ///< to the even mark: NIST Handbook 44, App. A, 10.3
};

/// A mark of the tape: 1/2, 1/4 ... 1/64 in, 1 in, or 1 to 1000 mm.
class Tick {
public:
    /// 1/denominator inch; denominator 1, 2, 4, 8, 16, 32 or 64, else `FaultError` out_of_range.
    [[nodiscard]] static constexpr Tick of_inch(int denominator) {
        switch (denominator) {
            case 1:
            case 2:
            case 4:
            case 8:
            case 16:
            case 32:
            case 64: return Tick{denominator, 0};
            default: refuse(std::to_string(denominator), "a denominator of 1, 2, 4, 8, 16, 32 or 64");
        }
    }
    /// `mm` whole millimetres, 1 to 1000, else `FaultError` out_of_range.
    [[nodiscard]] static constexpr Tick of_millimetres(int mm) {
        if (mm < 1 || mm > 1000) {
            refuse(std::to_string(mm) + " mm", "1 mm to 1000 mm");
        }
        return Tick{0, mm};
    }

    [[nodiscard]] constexpr bool is_metric() const noexcept { return millimetres_ != 0; }
    /// Marks to the inch; 0 for a metric tick.
    [[nodiscard]] constexpr int denominator() const noexcept { return denominator_; }
    [[nodiscard]] constexpr Length step() const {
        return is_metric() ? Length::from_millimetres(millimetres_) : one_inch / denominator_;
    }
    /// `length` in ticks, unrounded. Exact for an inch tick.
    [[nodiscard]] constexpr double ticks(Length length) const noexcept {
        return is_metric() ? millimetres(length) / millimetres_ : inches(length) * denominator_;
    }
    /// The length of `n` ticks, correct to the last place.
    [[nodiscard]] constexpr Length length(double n) const {
        return is_metric() ? Length::from_millimetres(n * millimetres_) : one_inch * (n / denominator_);
    }

    friend constexpr bool operator==(Tick, Tick) = default;

private:
    constexpr Tick(int denominator, int millimetres) noexcept : denominator_{denominator}, millimetres_{millimetres} {}
    [[noreturn]] static void refuse(const std::string& given, const std::string& required) {
        throw FaultError{Fault{FaultCode::out_of_range, "tick", given, required}};
    }

    int denominator_;
    int millimetres_;
};

namespace detail {
/// A metric length is rarely exact in inches; a value this close to a tie or a mark is taken to lie on it.
[[nodiscard]] inline double snapped_ticks(Length length, Tick tick) {
    const double exact = tick.ticks(length);
    if (!tick.is_metric() || !is_usable(length)) {
        return exact;
    }
    const double half_ticks = std::round(exact * 2.0) / 2.0;
    const Length off = magnitude(length - tick.length(half_ticks));
    return off < count_tolerance ? half_ticks : exact;
}
}  // namespace detail

/// Number of ticks nearest to `length`, as a whole-valued double.
[[nodiscard]] inline double nearest_ticks(Length length, Tick tick, Tie tie = Tie::half_up) {
    const double exact = detail::snapped_ticks(length, tick);
    const double down = std::floor(std::fabs(exact));
    const double rest = std::fabs(exact) - down;
    const bool up = rest > 0.5 || (rest == 0.5 && (tie == Tie::half_up || std::fmod(down, 2.0) == 1.0));
    return std::copysign(up ? down + 1.0 : down, exact);
}

/// The mark nearest to `length`.
[[nodiscard]] inline Length round_to_tick(Length length, Tick tick, Tie tie = Tie::half_up) {
    return tick.length(nearest_ticks(length, tick, tie));
}
/// The last mark not above `length` (up to `count_tolerance`): for what must fit into a gap.
[[nodiscard]] inline Length round_down_to_tick(Length length, Tick tick) {
    return tick.length(std::floor(tick.ticks(length + count_tolerance)));
}
/// The first mark not below `length` (up to `count_tolerance`): for what must reach.
[[nodiscard]] inline Length round_up_to_tick(Length length, Tick tick) {
    return tick.length(std::ceil(tick.ticks(length - count_tolerance)));
}

}  // namespace eavewright
