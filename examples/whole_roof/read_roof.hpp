// SPDX-License-Identifier: BSL-1.0
#pragma once

// Reads the description of a roof from a JSON file; every field is listed in README.md beside this file.

#include <eavewright/fault.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/supply.hpp>
#include <eavewright/writing/json.hpp>

#include <optional>
#include <string>

/// What a file held: the roof, or everything that is wrong with it.
struct RoofFile {
    std::optional<eavewright::RoofDescription> roof;
    std::optional<eavewright::SupplyPlan> supply;  ///< where the file asks for an order
    eavewright::LengthUnit unit = eavewright::LengthUnit::inches;
    eavewright::Faults faults;
};

/// Reads and checks `text`. The roof is there only where there are no faults.
[[nodiscard]] RoofFile read_roof(const std::string& text);
