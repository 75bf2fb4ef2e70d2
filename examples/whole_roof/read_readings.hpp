// SPDX-License-Identifier: BSL-1.0
#pragma once

// What was read on the roof: between marks, over strings, under levels.

#include "json_fields.hpp"

#include <eavewright/whole_roof/description.hpp>

[[nodiscard]] eavewright::RoofReadings read_readings(JsonFields readings, eavewright::Tick tick);
