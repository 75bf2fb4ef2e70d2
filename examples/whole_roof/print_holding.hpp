// SPDX-License-Identifier: BSL-1.0
#pragma once

// Fasteners against the wind: zones, spacing, utilisation, shanks side by side.

#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <iosfwd>

/// Nothing for a roof whose fasteners are not held against the wind.
void print_holding(std::ostream& out, const eavewright::RoofResult& result, eavewright::Tick tick);
