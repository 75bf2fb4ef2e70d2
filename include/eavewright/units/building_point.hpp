// SPDX-License-Identifier: BSL-1.0
#pragma once

// A point of the building.

#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

namespace eavewright {

/// A point of the building: x along the ridge, y from the front wall to the back, z up from the benchmark.
struct BuildingPoint {
    Length x;
    Length y;
    Length z;
};

template <>
struct FieldsOf<BuildingPoint> {
    static constexpr auto list =
        field_list(field("x", FieldUnit::length, "along the ridge", &BuildingPoint::x),
                   field("y", FieldUnit::length, "from the front wall to the back", &BuildingPoint::y),
                   field("z", FieldUnit::length, "up from the benchmark", &BuildingPoint::z));
};

}  // namespace eavewright
