// SPDX-License-Identifier: BSL-1.0
#pragma once

// The printed factor that carries pressures for 30 ft and Exposure B to other heights and exposures.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/velocity_pressure.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <string_view>

namespace eavewright {

/// The factor as printed and as it follows from Kz.
struct HeightExposureFactor {
    double printed;   ///< two decimals; between heights, of the next greater height
    double computed;  ///< Kz(h, exposure) / Kz(30 ft, B)
    Length height;    ///< of the printed row
    std::string_view table;
};
template <>
struct FieldsOf<HeightExposureFactor> {
    static constexpr auto list = field_list(
        field("printed", FieldUnit::ratio, "factor as printed", &HeightExposureFactor::printed),
        field("computed", FieldUnit::ratio, "Kz over Kz at 30 ft in Exposure B", &HeightExposureFactor::computed),
        field("height", FieldUnit::length, "height of the printed row", &HeightExposureFactor::height),
        field("table", FieldUnit::none, "table", &HeightExposureFactor::table));
};

/// IRC Table R301.2(3) (2015 to 2021), mean roof height up to 60 ft. The printed cells are from memory, every one confirmed
/// within 0.006 by the ratio of Kz with the constants of 7-10. Throws `FaultError` out_of_range above 60 ft, not_finite.
[[nodiscard]] inline HeightExposureFactor height_exposure_factor(Length height, WindExposure exposure) {
    Faults faults;
    detail::require_named(exposure, Path{"exposure"}, faults);
    require_within(height, one_inch, Length::from_feet(60.0), Path{"mean_roof_height"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    constexpr std::array<std::array<double, 3>, 10> rows{{{1.00, 1.21, 1.47},
                                                          {1.00, 1.29, 1.55},
                                                          {1.00, 1.35, 1.61},
                                                          {1.00, 1.40, 1.66},
                                                          {1.05, 1.45, 1.70},
                                                          {1.09, 1.49, 1.74},
                                                          {1.12, 1.53, 1.78},
                                                          {1.16, 1.56, 1.81},
                                                          {1.19, 1.59, 1.84},
                                                          {1.22, 1.62, 1.87}}};
    std::size_t row = 0;
    while (row + 1 < rows.size() && feet(height) > 15.0 + 5.0 * static_cast<double>(row)) {
        ++row;
    }
    const auto kz = [](Length z, WindExposure e) {
        return exposure_coefficient(WindEdition::asce7_10, e, z, WindUse::components_and_cladding).Kz;
    };
    return {rows[row][static_cast<std::size_t>(exposure)],
            kz(height, exposure) / kz(exposure_b_floor_height, WindExposure::B),
            Length::from_feet(15.0 + 5.0 * static_cast<double>(row)), "IRC Table R301.2(3)"};
}

}  // namespace eavewright
