// SPDX-License-Identifier: BSL-1.0
#pragma once

// Truing compiled once, in trued.cpp: Eigen takes its time.

#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/result.hpp>

[[nodiscard]] eavewright::TruingResult truing_of(const eavewright::RoofDescription& roof);
[[nodiscard]] eavewright::RoofResult trued(const eavewright::RoofDescription& roof);
