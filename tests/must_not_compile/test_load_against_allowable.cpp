// SPDX-License-Identifier: BSL-1.0
// An average load at which tests failed says nothing of which design value is the less.
// expected: no match for 'operator<'
// expected: invalid operands to binary expression
#include <eavewright/fastening/strength.hpp>

using namespace eavewright;

bool less(UltimateForce test, AllowableForce allowable);
bool less(UltimateForce test, AllowableForce allowable) {
#ifdef MUST_NOT_COMPILE
    return test < allowable;
#else
    (void)test;
    return allowable < allowable;
#endif
}
