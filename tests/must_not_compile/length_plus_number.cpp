// SPDX-License-Identifier: BSL-1.0
// A bare number has no unit, so it does not add to a length.
// expected: no match for 'operator[+]'
// expected: invalid operands to binary expression
#include <eavewright/units/length.hpp>

using namespace eavewright;

Length lengthen(Length length);
Length lengthen(Length length) {
#ifdef MUST_NOT_COMPILE
    return length + 1.0;
#else
    return length + one_inch * 1.0;
#endif
}
