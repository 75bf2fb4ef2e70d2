// SPDX-License-Identifier: BSL-1.0
#pragma once

// What the readings of the roof say, and what to pull.

#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <ostream>

void print_truing(std::ostream& out, const eavewright::RoofResult& result, eavewright::Tick tick);
