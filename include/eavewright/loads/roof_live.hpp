// SPDX-License-Identifier: BSL-1.0
#pragma once

// Roof live load: people and their materials during work on the roof, Lr = 20 R1 R2.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/on_slope.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <string_view>

namespace eavewright {

/// Roof live load before it is reduced, and the least it is reduced to (the least from memory).
inline constexpr double full_roof_live_psf = 20.0;
inline constexpr double least_roof_live_psf = 12.0;

/// Roof live load with its factors.
struct RoofLiveLoad {
    Area tributary_area;
    double R1;       ///< by the area
    double F;        ///< inches of rise in 12
    double R2;       ///< by the slope
    SlopeLoad load;  ///< Lr acts on the area in plan
    std::string_view equation;
    bool
        unverified;  ///< a branch from memory was taken: area above 200 sq ft, slope of 12 in 12 or more, the least load
};
template <>
struct FieldsOf<RoofLiveLoad> {
    static constexpr auto list =
        field_list(field("tributary_area", FieldUnit::area, "in plan", &RoofLiveLoad::tributary_area),
                   field("R1", FieldUnit::ratio, "reduction by area", &RoofLiveLoad::R1),
                   field("F", FieldUnit::ratio, "inches of rise in 12", &RoofLiveLoad::F),
                   field("R2", FieldUnit::ratio, "reduction by slope", &RoofLiveLoad::R2),
                   field("load", FieldUnit::none, "Lr in plan and its parts", &RoofLiveLoad::load),
                   field("equation", FieldUnit::none, "equation", &RoofLiveLoad::equation),
                   field("unverified", FieldUnit::none, "a branch from memory was taken", &RoofLiveLoad::unverified));
};

/// Roof live load on an ordinary pitched roof, `tributary_area` in plan, more than 0 to 1,000,000 sq ft (else `FaultError`).
/// R1 = 1 up to 200 sq ft, 1.2 - 0.001 A to 600, 0.6 above; R2 = 1 up to 4 in 12, 1.2 - 0.05 F to 12, 0.6 above; 12 psf at
/// the least. Shown with `loads_caution`.
[[nodiscard]] inline RoofLiveLoad roof_live_load(Area tributary_area, Pitch pitch) {
    Faults faults;
    const double sqft = square_feet(tributary_area);
    detail::require_number(sqft, 1e-6, 1e6, " sq ft", Path{"tributary_area"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    const double F = pitch.rise_in_12();
    const double R1 = sqft <= 200.0 ? 1.0 : sqft < 600.0 ? 1.2 - 0.001 * sqft : 0.6;
    const double R2 = F <= 4.0 ? 1.0 : F < 12.0 ? 1.2 - 0.05 * F : 0.6;
    const double reduced = full_roof_live_psf * R1 * R2;
    const double Lr = reduced < least_roof_live_psf ? least_roof_live_psf : reduced;
    return {tributary_area,
            R1,
            F,
            R2,
            load_from_plan(pressure_from_psf(Lr), pitch),
            "ASCE/SEI 7-16 Eq. 4.8-1: Lr = 20 R1 R2",
            sqft > 200.0 || F >= 12.0 || reduced < least_roof_live_psf};
}

}  // namespace eavewright
