// SPDX-License-Identifier: BSL-1.0
#pragma once

// Pitch: rise over run as a value class. Trigonometry only where a person gives or asks for degrees.

#include <eavewright/fault.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <string>
#include <type_traits>

namespace eavewright {

/// Steepest pitch that enters: 0 <= pitch < 90 deg, told apart from vertical by a rise of 1000 in 1.
inline constexpr double steepest_rise_per_run = 1000.0;
/// A run must be longer than this: no roof is narrower, and squares of far smaller numbers vanish.
inline constexpr Length shortest_run = Length::from_inches(1e-6);

/// Rise over run of a roof plane, 0 <= pitch < 90 deg (else `FaultError`, not_finite or out_of_range).
/// Keeps rise and run as given, so 3 in 4 has slope factor 5/4 without rounding.
class Pitch {
public:
    /// Inches of rise in 12 inches of run.
    [[nodiscard]] static Pitch in_12(double rise) { return checked(rise, 12.0, write_decimal(rise, 6) + " in 12"); }
    /// Both finite and within `length_limit_in`, the run longer than `shortest_run`.
    [[nodiscard]] static Pitch from_rise_and_run(Length rise, Length run) {
        const std::string given =
            write_decimal(inches(rise), 6) + " in rise in " + write_decimal(inches(run), 6) + " in run";
        if (!is_usable(rise) || !(is_usable(run) && run > shortest_run)) {
            refuse(inches(rise) + inches(run), given);
        }
        return checked(inches(rise), inches(run), given);
    }
    [[nodiscard]] static Pitch from_percent(double percent) {
        return checked(percent, 100.0, write_decimal(percent, 6) + " %");
    }
    /// 45 deg is exactly 1 in 1; other angles are good to a few units in the last place of the machine's tan.
    [[nodiscard]] static Pitch from_degrees(double degrees) {
        const std::string given = write_decimal(degrees, 6) + " deg";
        if (!(degrees >= 0.0 && degrees < 90.0)) {
            refuse(degrees, given);
        }
        return degrees == 45.0 ? Pitch{1.0, 1.0} : checked(std::tan(degrees * pi / 180.0), 1.0, given);
    }

    [[nodiscard]] constexpr double rise_per_run() const noexcept { return rise_ / run_; }
    [[nodiscard]] constexpr double rise_in_12() const noexcept { return rise_ * 12.0 / run_; }
    [[nodiscard]] constexpr double percent() const noexcept { return rise_ * 100.0 / run_; }
    [[nodiscard]] Angle angle() const { return angle_from_radians(std::atan2(rise_, run_)); }
    [[nodiscard]] double sine() const noexcept { return rise_ / std::sqrt(rise_ * rise_ + run_ * run_); }
    [[nodiscard]] double cosine() const noexcept { return run_ / std::sqrt(rise_ * rise_ + run_ * run_); }
    /// Slope length per run; also sloped area per plan area.
    [[nodiscard]] double slope_factor() const noexcept { return std::sqrt(rise_ * rise_ + run_ * run_) / run_; }
    /// Length of a regular hip or valley per run of the common rafter.
    [[nodiscard]] double hip_valley_factor() const noexcept {
        return std::sqrt(rise_ * rise_ + 2.0 * run_ * run_) / run_;
    }
    /// Rise over `run`, exact where rise and run divide.
    [[nodiscard]] constexpr Length rise_over(Length run) const noexcept { return run * rise_ / run_; }
    /// True length up the slope over a horizontal `run`.
    [[nodiscard]] Length slope_over(Length run) const noexcept {
        return run * std::sqrt(rise_ * rise_ + run_ * run_) / run_;
    }

    friend constexpr bool operator==(Pitch a, Pitch b) noexcept { return a.rise_ * b.run_ == b.rise_ * a.run_; }

private:
    constexpr Pitch(double rise, double run) noexcept : rise_{rise}, run_{run} {}

    [[nodiscard]] static Pitch checked(double rise, double run, const std::string& given) {
        if (!(std::isfinite(rise) && std::isfinite(run) && run > 0.0 && rise >= 0.0 &&
              rise <= steepest_rise_per_run * run)) {
            refuse(rise + run, given);
        }
        return Pitch{rise + 0.0, run};  // -0 becomes 0
    }
    [[noreturn]] static void refuse(double value, const std::string& given) {
        throw FaultError{Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite, "", given,
                               "0 <= pitch < 90 deg, rising at most 1000 in 1"}};
    }

    double rise_;
    double run_;
};

static_assert(std::is_trivially_copyable_v<Pitch> && !std::is_default_constructible_v<Pitch>);

}  // namespace eavewright
