// SPDX-License-Identifier: BSL-1.0
#include "lay_out.hpp"

#include <eavewright/whole_roof/true_roof.hpp>

eavewright::RoofResult lay_out(const eavewright::RoofDescription& roof) { return eavewright::trued_roof(roof); }
