// SPDX-License-Identifier: BSL-1.0
#pragma once

// The edge distance a: how wide the strips are in which the wind pulls harder.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/length.hpp>

namespace eavewright {

/// The edge distance a with the figures it is the least and the most of.
struct EdgeDistance {
    Length tenth;         ///< 10 % of the least horizontal dimension
    Length of_height;     ///< 0.4 h
    Length twenty_fifth;  ///< 4 % of the least horizontal dimension: a is not less
    Length least;         ///< 3 ft: a is not less
    Length a;
};
template <>
struct FieldsOf<EdgeDistance> {
    static constexpr auto list = field_list(
        field("tenth", FieldUnit::length, "10 % of the least horizontal dimension", &EdgeDistance::tenth),
        field("of_height", FieldUnit::length, "0.4 of the mean roof height", &EdgeDistance::of_height),
        field("twenty_fifth", FieldUnit::length, "4 % of the least horizontal dimension", &EdgeDistance::twenty_fifth),
        field("least", FieldUnit::length, "3 ft", &EdgeDistance::least),
        field("a", FieldUnit::length, "edge distance, level", &EdgeDistance::a));
};

/// Highest mean roof height that the coefficients of low buildings hold for.
inline constexpr Length highest_low_building = Length::from_feet(60.0);

/// Edge distance a: 10 % of the least horizontal dimension or 0.4 h, the smaller, but not less than 4 % of the dimension nor
/// 3 ft (ASCE/SEI 7-02 Fig. 6-3). `least_width` is the building's, overhangs not included, 1 ft to 2000 ft; `height` the
/// mean roof height up to 60 ft. Throws `FaultError` otherwise.
[[nodiscard]] inline EdgeDistance edge_distance(Length least_width, Length height) {
    Faults faults;
    require_within(least_width, Length::from_feet(1.0), longest_building, Path{"least_width"}, faults);
    require_within(height, one_inch, highest_low_building, Path{"mean_roof_height"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    EdgeDistance d{least_width / 10.0, 0.4 * height, least_width / 25.0, Length::from_feet(3.0), no_length};
    d.a = longer(shorter(d.tenth, d.of_height), longer(d.twenty_fifth, d.least));
    return d;
}

}  // namespace eavewright
