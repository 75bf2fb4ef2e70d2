// SPDX-License-Identifier: BSL-1.0
// A build that assumes away NaN and infinity would remove the library's checks for them.
// flags: -ffinite-math-only
// expected: eavewright refuses -ffast-math and -ffinite-math-only
#include <eavewright/fault.hpp>
