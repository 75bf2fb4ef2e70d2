// SPDX-License-Identifier: BSL-1.0
#pragma once

// How the goods come: the part of the file that an order needs.

#include "json_fields.hpp"

#include <eavewright/whole_roof/supply.hpp>

[[nodiscard]] eavewright::SupplyPlan read_supply(JsonFields order);
