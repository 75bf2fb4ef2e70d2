// SPDX-License-Identifier: BSL-1.0
#pragma once

// The one call that needs Eigen, in a source file of its own: whoever includes this compiles nothing of it.

#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/result.hpp>

[[nodiscard]] eavewright::RoofResult lay_out(const eavewright::RoofDescription& roof);
