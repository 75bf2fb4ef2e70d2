// SPDX-License-Identifier: BSL-1.0
#pragma once

// The line in which two roof planes meet over a corner of the eaves: hip or valley, equal pitches or not, any corner.
//
// Both planes rise from eaves of one height. Seen from above, the hip goes in from the corner between the eaves; a
// valley goes in from a corner that turns the other way, and the same figures hold with the corner measured outside
// the building.
//
//            \  B side             plan_b is the angle in plan from eave B to the line,
//     eave B  \      .- hip        plan_a from eave A; together they are the corner.
//              \  .-
//               *------------ eave A        (A side below and right of the line)

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/cut_angle.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <string>

namespace eavewright {

/// Angle between two eaves in plan, 0 < corner < 180 deg: inside the building at a hip, outside it at a valley.
class PlanCorner {
public:
    /// A square corner, without rounding.
    [[nodiscard]] static constexpr PlanCorner square() noexcept { return PlanCorner{0.0, 1.0}; }
    /// 1 to 179 deg, else `FaultError`; 90 deg is exactly square.
    [[nodiscard]] static PlanCorner from_degrees(double degrees) {
        if (!(degrees >= 1.0 && degrees <= 179.0)) {
            throw FaultError{Fault{std::isfinite(degrees) ? FaultCode::out_of_range : FaultCode::not_finite, "",
                                   write_decimal(degrees, 6) + " deg", "a corner of 1 to 179 deg"}};
        }
        const double radians = degrees * pi / 180.0;
        return degrees == 90.0 ? square() : PlanCorner{std::cos(radians), std::sin(radians)};
    }
    /// From a tape: `a` and `b` marked along the two walls from the corner, and `across` from mark to mark.
    /// All longer than `shortest_run`, and a triangle of 1 to 179 deg, else `FaultError`.
    [[nodiscard]] static PlanCorner from_sides(Length a, Length b, Length across) {
        const double x = inches(a);
        const double y = inches(b);
        const double z = inches(across);
        const double cosine = (x * x + y * y - z * z) / (2.0 * x * y);
        if (!(is_usable(a) && is_usable(b) && is_usable(across) && a > shortest_run && b > shortest_run &&
              magnitude_of(cosine) < cosine_of_one_degree)) {
            throw FaultError{
                Fault{std::isfinite(cosine) ? FaultCode::out_of_range : FaultCode::not_finite, "",
                      describe_length(across) + " across " + describe_length(a) + " and " + describe_length(b),
                      "three sides of a triangle with a corner of 1 to 179 deg"}};
        }
        return PlanCorner{cosine, std::sqrt((1.0 - cosine) * (1.0 + cosine))};
    }

    [[nodiscard]] constexpr double cosine() const noexcept { return cosine_; }
    [[nodiscard]] constexpr double sine() const noexcept { return sine_; }
    [[nodiscard]] Angle angle() const { return angle_from_radians(std::atan2(sine_, cosine_)); }

private:
    static constexpr double cosine_of_one_degree = 0.99984769515639127;
    constexpr PlanCorner(double cosine, double sine) noexcept : cosine_{cosine}, sine_{sine} {}
    [[nodiscard]] static constexpr double magnitude_of(double x) noexcept { return x < 0.0 ? -x : x; }

    double cosine_;
    double sine_;
};

/// The two planes that meet. The figures of side A are those of the plane over eave A.
struct HipPlanes {
    Pitch pitch_a;
    Pitch pitch_b;
    PlanCorner corner = PlanCorner::square();
};

/// The same corner seen from the other side.
[[nodiscard]] inline HipPlanes other_side(const HipPlanes& planes) {
    return {.pitch_a = planes.pitch_b, .pitch_b = planes.pitch_a, .corner = planes.corner};
}

/// Flattest pitch that makes a hip or valley: 1/8 in 12, below which the line has no place of its own.
inline constexpr double flattest_hip_rise_in_12 = 0.125;

namespace detail {
inline void require_hip_pitch(Pitch pitch, const Path& path, Faults& faults) {
    if (pitch.rise_in_12() < flattest_hip_rise_in_12) {
        faults.push_back(Fault{FaultCode::out_of_range, path.text(), write_decimal(pitch.rise_in_12(), 6) + " in 12",
                               "at least 1/8 in 12 at a hip or valley"});
    }
}
}  // namespace detail

inline void find_faults(const HipPlanes& planes, const Path& path, Faults& faults) {
    detail::require_hip_pitch(planes.pitch_a, Path{path, "pitch_a"}, faults);
    detail::require_hip_pitch(planes.pitch_b, Path{path, "pitch_b"}, faults);
}

/// Where two planes meet, whatever is framed there.
///
/// A backing angle is how far the plane falls from the top of the hip, in the section square to the hip. At a valley
/// the same figures say how the planes rise from it. One of the two is negative where an obtuse corner and unequal
/// pitches make the line run back past square to that eave.
struct HipLine {
    CutAngle plan_a;          ///< in plan, between eave A and the line; tan = tB sin(corner) / (tA + tB cos(corner))
    CutAngle plan_b;          ///< in plan, between eave B and the line
    double plan_per_run_a;    ///< plan run of the line over the common run of side A
    double plan_per_run_b;    ///< and over that of side B
    double length_per_run_a;  ///< true length of the line over the common run of side A
    double length_per_run_b;
    Pitch pitch;               ///< of the line over its own plan run
    double drop_per_offset_a;  ///< plumb fall of plane A for each inch beside the line, level and square to it in plan
    double drop_per_offset_b;
    CutAngle backing_a;  ///< of side A, from level across the top
    CutAngle backing_b;
    CutAngle dihedral;  ///< between the planes, measured under a hip; 180 deg is flat
};
template <>
struct FieldsOf<HipLine> {
    static constexpr auto list =
        field_list(field("plan_a", FieldUnit::none, "in plan, between eave A and the line", &HipLine::plan_a),
                   field("plan_b", FieldUnit::none, "in plan, between eave B and the line", &HipLine::plan_b),
                   field("plan_per_run_a", FieldUnit::ratio, "plan run of the line over the common run of side A",
                         &HipLine::plan_per_run_a),
                   field("plan_per_run_b", FieldUnit::ratio, "plan run of the line over the common run of side B",
                         &HipLine::plan_per_run_b),
                   field("length_per_run_a", FieldUnit::ratio, "true length over the common run of side A",
                         &HipLine::length_per_run_a),
                   field("length_per_run_b", FieldUnit::ratio, "true length over the common run of side B",
                         &HipLine::length_per_run_b),
                   field("pitch", FieldUnit::ratio, "rise in 12 of the line over its own plan run", &HipLine::pitch),
                   field("drop_per_offset_a", FieldUnit::ratio,
                         "plumb fall of plane A beside the line, per level offset", &HipLine::drop_per_offset_a),
                   field("drop_per_offset_b", FieldUnit::ratio,
                         "plumb fall of plane B beside the line, per level offset", &HipLine::drop_per_offset_b),
                   field("backing_a", FieldUnit::none, "backing angle of side A", &HipLine::backing_a),
                   field("backing_b", FieldUnit::none, "backing angle of side B", &HipLine::backing_b),
                   field("dihedral", FieldUnit::none, "angle between the planes, 180 deg is flat", &HipLine::dihedral));
};

namespace detail {
[[nodiscard]] inline HipLine hip_line_of(const HipPlanes& planes) {
    const double a = planes.pitch_a.rise_per_run();
    const double b = planes.pitch_b.rise_per_run();
    const double cosine = planes.corner.cosine();
    const double sine = planes.corner.sine();
    // Both planes are as high at (x, y) when a * y = b * (x sine - y cosine), eave A along x.
    const double x = a + b * cosine;
    const double y = b * sine;
    const double back = b + a * cosine;
    const double side = a * sine;
    const double square = a * a + 2.0 * a * b * cosine + b * b;
    const double plan = std::sqrt(square);
    const CutAngle plan_a = CutAngle::from_figures(y, x);
    const CutAngle plan_b = CutAngle::from_figures(side, back);
    const Pitch pitch = Pitch::from_rise_and_run(one_inch * (a * b * sine), one_inch * plan);
    const CutAngle backing_a = CutAngle::from_figures(pitch.sine() * x, y);
    const CutAngle backing_b = CutAngle::from_figures(pitch.sine() * back, side);
    return HipLine{.plan_a = plan_a,
                   .plan_b = plan_b,
                   .plan_per_run_a = plan / y,
                   .plan_per_run_b = plan / side,
                   .length_per_run_a = std::sqrt(square / (y * y) + a * a),
                   .length_per_run_b = std::sqrt(square / (side * side) + b * b),
                   .pitch = pitch,
                   .drop_per_offset_a = a * x / plan,
                   .drop_per_offset_b = b * back / plan,
                   .backing_a = backing_a,
                   .backing_b = backing_b,
                   .dihedral = (backing_a + backing_b).supplement()};
}

/// Members beside a hip need a line that goes in over both eaves.
inline void require_hip_between(const HipPlanes& planes, const Path& path, Faults& faults) {
    const double a = planes.pitch_a.rise_per_run();
    const double b = planes.pitch_b.rise_per_run();
    const double cosine = planes.corner.cosine();
    if (!(a + b * cosine > 0.0 && b + a * cosine > 0.0)) {
        faults.push_back(Fault{FaultCode::not_supported, path.text(),
                               write_decimal(planes.pitch_a.rise_in_12(), 6) + " in 12 and " +
                                   write_decimal(planes.pitch_b.rise_in_12(), 6) + " in 12 at " +
                                   write_decimal(degrees(planes.corner.angle()), 6) + " deg",
                               "a corner from which the hip runs in over both eaves"});
    }
}
}  // namespace detail

/// The line of a hip or valley. Ratios and square roots alone, exact to a few units in the last place; trigonometry
/// only in a corner given in degrees. Source: geometry; its figures are those of the framing square at a square
/// corner of equal pitches. Throws `FaultError` with the first fault of `planes`: a pitch below 1/8 in 12.
[[nodiscard]] inline HipLine hip_line(const HipPlanes& planes) {
    require_sound(planes, "planes");
    return detail::hip_line_of(planes);
}

}  // namespace eavewright
