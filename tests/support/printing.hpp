// SPDX-License-Identifier: BSL-1.0
#pragma once

// How doctest prints the library's values when a check fails.

#include <eavewright/units/length.hpp>

#include <doctest/doctest.h>

#include <sstream>

namespace doctest {
template <>
struct StringMaker<eavewright::Length> {
    static String convert(eavewright::Length length) {
        std::ostringstream out;
        out.precision(17);
        out << eavewright::inches(length) << " in";
        return out.str().c_str();
    }
};
}  // namespace doctest

/// The absolute difference in inches: `CHECK(off_by(a, b) < 1e-9)` says the tolerance beside the check.
inline double off_by(eavewright::Length a, eavewright::Length b) {
    return eavewright::inches(eavewright::magnitude(a - b));
}
