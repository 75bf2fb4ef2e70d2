// SPDX-License-Identifier: BSL-1.0
#pragma once

// The wind at the site, the wood and the fasteners that are held against it.

#include "json_fields.hpp"

#include <eavewright/whole_roof/description.hpp>

[[nodiscard]] eavewright::HoldingPlan read_holding(JsonFields holding);
