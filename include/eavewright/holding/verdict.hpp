// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a check says in the end, and what is to be read with it.

#include <eavewright/field.hpp>

#include <array>
#include <string_view>

namespace eavewright {

/// To be read with every check of fasteners and members against loads.
inline constexpr std::string_view holding_caution =
    "Checks are preliminary and cover what they name alone. Load path, connections, diaphragm, bracing, posts and "
    "footings, and "
    "every figure here are for a licensed professional to confirm under the local code before anyone relies on them.";

/// A figure that rests on memory or was refused gives no verdict.
enum class Verdict { holds, fails, no_verdict };
template <>
struct NamesOf<Verdict> {
    static constexpr std::array<std::string_view, 3> list{"holds", "fails", "no_verdict"};
};

}  // namespace eavewright
