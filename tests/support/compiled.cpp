// SPDX-License-Identifier: BSL-1.0

#include "compiled.hpp"

#include "networks.hpp"

#include <eavewright/whole_roof/true_roof.hpp>

namespace compiled {
eavewright::RoofResult whole_roof(const eavewright::RoofDescription& roof) { return eavewright::whole_roof(roof); }
eavewright::RoofResult whole_roof(const eavewright::RoofDescription& roof, const eavewright::TruingResult& truing) {
    return eavewright::whole_roof(roof, truing);
}
eavewright::Faults check(const eavewright::RoofDescription& roof) { return eavewright::check(roof); }
eavewright::TruingResult true_roof(const eavewright::RoofDescription& roof) { return eavewright::true_roof(roof); }
eavewright::RoofResult trued_roof(const eavewright::RoofDescription& roof) { return eavewright::trued_roof(roof); }
}  // namespace compiled
