// SPDX-License-Identifier: BSL-1.0
#pragma once

// What to buy, delivery by delivery.

#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/roof_order.hpp>

#include <iosfwd>

void print_order(std::ostream& out, const eavewright::RoofOrder& order, eavewright::Tick tick);
