// SPDX-License-Identifier: BSL-1.0
#pragma once

// The whole walk, compiled once in compiled.cpp: a dozen test sources call it, and each would compile the library anew.

#include <eavewright/fault.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/result.hpp>

namespace compiled {
[[nodiscard]] eavewright::RoofResult whole_roof(const eavewright::RoofDescription& roof);
[[nodiscard]] eavewright::RoofResult whole_roof(const eavewright::RoofDescription& roof,
                                                const eavewright::TruingResult& truing);
[[nodiscard]] eavewright::Faults check(const eavewright::RoofDescription& roof);
[[nodiscard]] eavewright::TruingResult true_roof(const eavewright::RoofDescription& roof);
[[nodiscard]] eavewright::RoofResult trued_roof(const eavewright::RoofDescription& roof);
}  // namespace compiled
