// SPDX-License-Identifier: BSL-1.0

#include "trued.hpp"

#include "../support/networks.hpp"

#include <eavewright/whole_roof/true_roof.hpp>

eavewright::TruingResult truing_of(const eavewright::RoofDescription& roof) { return eavewright::true_roof(roof); }
eavewright::RoofResult trued(const eavewright::RoofDescription& roof) { return eavewright::trued_roof(roof); }
