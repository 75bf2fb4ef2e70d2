// SPDX-License-Identifier: BSL-1.0
#pragma once

// The rows of the coefficient figures: what was read off each, and what of it rests on memory.

#include <eavewright/loads/edition.hpp>

#include <array>
#include <string_view>

namespace eavewright::detail {

/// One line of a figure: constant up to the low area, constant from the high area, for slopes above the least (the low-slope
/// figures include level) up to the most. A positive row holds for every zone.
struct CoefficientRow {
    WindEdition edition;
    RoofForm form;
    double least_deg;
    double most_deg;
    RoofZone zone;
    bool positive;
    double low_sqft;
    double GCp_low;
    double high_sqft;
    double GCp_high;
    bool low_from_memory;
    bool high_from_memory;
    std::string_view figure;
    [[nodiscard]] constexpr bool low_slope() const noexcept { return least_deg == 0.0; }
};

/// 7-10: those not from memory reproduce the 2018 IRC Table R301.2(2). 7-22: read in a transcription that was checked
/// against the printed figures; its low-slope figure is for flat, gable and hip roofs alike.
inline constexpr std::array<CoefficientRow, 40> coefficient_rows{{
    {WindEdition::asce7_10, RoofForm::gable, 0.0, 7.0, RoofZone::zone_1, false, 10.0, -1.0, 100.0, -0.9, false, false,
     "ASCE/SEI 7-10 Fig. 30.4-2A"},
    {WindEdition::asce7_10, RoofForm::gable, 0.0, 7.0, RoofZone::zone_2, false, 10.0, -1.8, 100.0, -1.1, false, false,
     "ASCE/SEI 7-10 Fig. 30.4-2A"},
    {WindEdition::asce7_10, RoofForm::gable, 0.0, 7.0, RoofZone::zone_3, false, 10.0, -2.8, 100.0, -1.1, false, false,
     "ASCE/SEI 7-10 Fig. 30.4-2A"},
    {WindEdition::asce7_10, RoofForm::gable, 0.0, 7.0, RoofZone::zone_1, true, 10.0, 0.3, 100.0, 0.2, false, false,
     "ASCE/SEI 7-10 Fig. 30.4-2A"},
    {WindEdition::asce7_10, RoofForm::gable, 7.0, 27.0, RoofZone::zone_1, false, 10.0, -0.9, 100.0, -0.8, false, false,
     "ASCE/SEI 7-10 Fig. 30.4-2B"},
    {WindEdition::asce7_10, RoofForm::gable, 7.0, 27.0, RoofZone::zone_2, false, 10.0, -1.7, 100.0, -1.2, false, true,
     "ASCE/SEI 7-10 Fig. 30.4-2B"},
    {WindEdition::asce7_10, RoofForm::gable, 7.0, 27.0, RoofZone::zone_3, false, 10.0, -2.6, 100.0, -2.0, true, true,
     "ASCE/SEI 7-10 Fig. 30.4-2B"},
    {WindEdition::asce7_10, RoofForm::gable, 7.0, 27.0, RoofZone::zone_1, true, 10.0, 0.5, 100.0, 0.3, false, false,
     "ASCE/SEI 7-10 Fig. 30.4-2B"},
    {WindEdition::asce7_10, RoofForm::gable, 27.0, 45.0, RoofZone::zone_1, false, 10.0, -1.0, 100.0, -0.8, true, true,
     "ASCE/SEI 7-10 Fig. 30.4-2C"},
    {WindEdition::asce7_10, RoofForm::gable, 27.0, 45.0, RoofZone::zone_2, false, 10.0, -1.2, 100.0, -1.0, true, true,
     "ASCE/SEI 7-10 Fig. 30.4-2C"},
    {WindEdition::asce7_10, RoofForm::gable, 27.0, 45.0, RoofZone::zone_3, false, 10.0, -1.2, 100.0, -1.0, true, true,
     "ASCE/SEI 7-10 Fig. 30.4-2C"},
    {WindEdition::asce7_10, RoofForm::gable, 27.0, 45.0, RoofZone::zone_1, true, 10.0, 0.9, 100.0, 0.8, true, true,
     "ASCE/SEI 7-10 Fig. 30.4-2C"},
    {WindEdition::asce7_22, RoofForm::gable, 0.0, 7.0, RoofZone::zone_1_prime, false, 100.0, -0.9, 1000.0, -0.4, false,
     false, "ASCE/SEI 7-22 Fig. 30.3-2A"},
    {WindEdition::asce7_22, RoofForm::gable, 0.0, 7.0, RoofZone::zone_1, false, 10.0, -1.7, 500.0, -1.0, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2A"},
    {WindEdition::asce7_22, RoofForm::gable, 0.0, 7.0, RoofZone::zone_2, false, 10.0, -2.3, 500.0, -1.4, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2A"},
    {WindEdition::asce7_22, RoofForm::gable, 0.0, 7.0, RoofZone::zone_3, false, 10.0, -3.2, 500.0, -1.4, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2A"},
    {WindEdition::asce7_22, RoofForm::gable, 0.0, 7.0, RoofZone::zone_1, true, 10.0, 0.3, 100.0, 0.2, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2A"},
    {WindEdition::asce7_22, RoofForm::gable, 7.0, 20.0, RoofZone::zone_1, false, 10.0, -2.0, 300.0, -0.5, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2B"},
    {WindEdition::asce7_22, RoofForm::gable, 7.0, 20.0, RoofZone::zone_2, false, 10.0, -2.7, 200.0, -1.0, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2B"},
    {WindEdition::asce7_22, RoofForm::gable, 7.0, 20.0, RoofZone::zone_3, false, 10.0, -3.6, 100.0, -1.8, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2B"},
    {WindEdition::asce7_22, RoofForm::gable, 7.0, 20.0, RoofZone::zone_1, true, 10.0, 0.6, 200.0, 0.3, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2B"},
    {WindEdition::asce7_22, RoofForm::gable, 20.0, 27.0, RoofZone::zone_1, false, 10.0, -1.5, 200.0, -0.8, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2C"},
    {WindEdition::asce7_22, RoofForm::gable, 20.0, 27.0, RoofZone::zone_2, false, 10.0, -2.5, 100.0, -1.2, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2C"},
    {WindEdition::asce7_22, RoofForm::gable, 20.0, 27.0, RoofZone::zone_3, false, 10.0, -3.0, 100.0, -1.4, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2C"},
    {WindEdition::asce7_22, RoofForm::gable, 20.0, 27.0, RoofZone::zone_1, true, 10.0, 0.6, 200.0, 0.3, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2C"},
    {WindEdition::asce7_22, RoofForm::gable, 27.0, 45.0, RoofZone::zone_1, false, 10.0, -1.8, 100.0, -0.8, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2D"},
    {WindEdition::asce7_22, RoofForm::gable, 27.0, 45.0, RoofZone::zone_2, false, 10.0, -2.0, 200.0, -1.0, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2D"},
    {WindEdition::asce7_22, RoofForm::gable, 27.0, 45.0, RoofZone::zone_3, false, 10.0, -2.5, 200.0, -1.0, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2D"},
    {WindEdition::asce7_22, RoofForm::gable, 27.0, 45.0, RoofZone::zone_1, true, 10.0, 0.9, 200.0, 0.5, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2D"},
    {WindEdition::asce7_22, RoofForm::hip, 7.0, 20.0, RoofZone::zone_1, false, 10.0, -1.8, 200.0, -0.8, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2E"},
    {WindEdition::asce7_22, RoofForm::hip, 7.0, 20.0, RoofZone::zone_2, false, 10.0, -2.4, 200.0, -1.3, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2E"},
    {WindEdition::asce7_22, RoofForm::hip, 7.0, 20.0, RoofZone::zone_3, false, 10.0, -2.6, 200.0, -1.4, false, false,
     "ASCE/SEI 7-22 Fig. 30.3-2E"},
    {WindEdition::asce7_22, RoofForm::monoslope, 3.0, 10.0, RoofZone::zone_1, false, 10.0, -1.1, 100.0, -1.1, false,
     false, "ASCE/SEI 7-22 Fig. 30.3-5A"},
    {WindEdition::asce7_22, RoofForm::monoslope, 3.0, 10.0, RoofZone::zone_2, false, 10.0, -1.3, 100.0, -1.2, false,
     false, "ASCE/SEI 7-22 Fig. 30.3-5A"},
    {WindEdition::asce7_22, RoofForm::monoslope, 3.0, 10.0, RoofZone::zone_2_prime, false, 10.0, -1.6, 100.0, -1.5,
     false, false, "ASCE/SEI 7-22 Fig. 30.3-5A"},
    {WindEdition::asce7_22, RoofForm::monoslope, 3.0, 10.0, RoofZone::zone_3, false, 10.0, -1.8, 100.0, -1.2, false,
     false, "ASCE/SEI 7-22 Fig. 30.3-5A"},
    {WindEdition::asce7_22, RoofForm::monoslope, 3.0, 10.0, RoofZone::zone_3_prime, false, 10.0, -2.6, 100.0, -1.6,
     false, false, "ASCE/SEI 7-22 Fig. 30.3-5A"},
    {WindEdition::asce7_22, RoofForm::monoslope, 10.0, 30.0, RoofZone::zone_1, false, 10.0, -1.3, 100.0, -1.1, false,
     false, "ASCE/SEI 7-22 Fig. 30.3-5B"},
    {WindEdition::asce7_22, RoofForm::monoslope, 10.0, 30.0, RoofZone::zone_2, false, 10.0, -1.6, 100.0, -1.2, false,
     false, "ASCE/SEI 7-22 Fig. 30.3-5B"},
    {WindEdition::asce7_22, RoofForm::monoslope, 10.0, 30.0, RoofZone::zone_3, false, 10.0, -2.9, 100.0, -2.0, false,
     false, "ASCE/SEI 7-22 Fig. 30.3-5B"},
}};

}  // namespace eavewright::detail
