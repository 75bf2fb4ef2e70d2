// SPDX-License-Identifier: BSL-1.0
#pragma once

// The layout of a roof as text for the screen, from the same figures as the JSON and the drawings.

#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <iosfwd>

/// Writes the report, lengths to `tick`.
void print_report(std::ostream& out, const eavewright::RoofResult& roof, eavewright::Tick tick);
