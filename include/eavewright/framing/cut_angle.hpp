// SPDX-License-Identifier: BSL-1.0
#pragma once

// An angle as a carpenter sets it: two figures on a framing square, degrees only where somebody asks for them.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <optional>
#include <string>

namespace eavewright {

/// The angle whose tangent is `across` over `along`: the two figures held on a framing square. Between -180 and 180
/// deg; beyond 90 deg `along` is negative. What it is measured from is said where it is used: *off square across* is
/// 0 for a square cut, *off the length* is 0 along the member.
class CutAngle {
public:
    /// Two finite figures, not both zero, else `FaultError` not_finite or out_of_range.
    [[nodiscard]] static CutAngle from_figures(double across, double along) {
        if (!(std::isfinite(across) && std::isfinite(along)) || (across == 0.0 && along == 0.0)) {
            throw FaultError{Fault{
                std::isfinite(across) && std::isfinite(along) ? FaultCode::out_of_range : FaultCode::not_finite, "",
                write_decimal(across, 6) + " on " + write_decimal(along, 6), "two finite figures, not both zero"}};
        }
        return CutAngle{across, along};
    }
    [[nodiscard]] static CutAngle of(Pitch pitch) noexcept { return CutAngle{pitch.rise_per_run(), 1.0}; }
    /// No angle at all: a square cut, where it is off square across.
    [[nodiscard]] static constexpr CutAngle none() noexcept { return CutAngle{0.0, 1.0}; }

    /// Inches across for 12 in along; none at 90 deg, negative beyond.
    [[nodiscard]] std::optional<double> in_12() const noexcept {
        return along_ == 0.0 ? std::nullopt : std::optional<double>{across_ * 12.0 / along_};
    }
    [[nodiscard]] double sine() const noexcept { return across_ / std::sqrt(across_ * across_ + along_ * along_); }
    [[nodiscard]] double cosine() const noexcept { return along_ / std::sqrt(across_ * across_ + along_ * along_); }
    /// Across over along: the tangent; infinite at 90 deg.
    [[nodiscard]] constexpr double tangent() const noexcept { return across_ / along_; }
    /// Along over across: infinite at 0.
    [[nodiscard]] constexpr double cotangent() const noexcept { return along_ / across_; }
    /// The machine's atan2, good to a unit in its last place.
    [[nodiscard]] Angle angle() const { return angle_from_radians(std::atan2(across_, along_)); }
    /// 90 deg less this: off the length where this is off square across, and the other way round.
    [[nodiscard]] constexpr CutAngle complement() const noexcept { return CutAngle{along_, across_}; }
    /// 180 deg less this.
    [[nodiscard]] constexpr CutAngle supplement() const noexcept { return CutAngle{across_, -along_}; }

    /// Both angles together, while the sum stays below 180 deg.
    [[nodiscard]] friend constexpr CutAngle operator+(CutAngle a, CutAngle b) noexcept {
        return CutAngle{a.across_ * b.along_ + a.along_ * b.across_, a.along_ * b.along_ - a.across_ * b.across_};
    }

private:
    constexpr CutAngle(double across, double along) noexcept : across_{across}, along_{along} {}

    double across_;
    double along_;
};
template <>
struct FieldsOf<CutAngle> {
    static constexpr auto list = field_list(
        field("degrees", FieldUnit::angle, "the angle", &CutAngle::angle),
        field("in_12", FieldUnit::ratio, "inches across for 12 in along, null at a right angle", &CutAngle::in_12));
};

}  // namespace eavewright
