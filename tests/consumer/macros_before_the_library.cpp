// SPDX-License-Identifier: BSL-1.0
// Some standard headers take min and max away again; with them included first, the macros still stand in the library.
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "platform_macros.hpp"

#include <eavewright/eavewright.hpp>

double rafter_in();

double rafter_in() {
    using namespace eavewright::literals;
    return eavewright::inches(eavewright::Pitch::in_12(9.0).slope_over(16_ft));
}
