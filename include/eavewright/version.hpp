// SPDX-License-Identifier: BSL-1.0
#pragma once

// The version of the library. The build reads it from these four lines, so it is written nowhere else.

namespace eavewright {

inline constexpr int version_major = 0;
inline constexpr int version_minor = 1;
inline constexpr int version_patch = 0;
inline constexpr const char* version_text = "0.1.0";

}  // namespace eavewright
