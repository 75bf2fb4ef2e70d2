// SPDX-License-Identifier: BSL-1.0
// An average load at which tests failed and a design standard's value are no two parts of one strength.
// expected: no match for 'operator[+]'
// expected: invalid operands to binary expression
#include <eavewright/fastening/strength.hpp>

using namespace eavewright;

ReferenceForce both(UltimateForce test, ReferenceForce design);
ReferenceForce both(UltimateForce test, ReferenceForce design) {
#ifdef MUST_NOT_COMPILE
    return test + design;
#else
    (void)test;
    return design + design;
#endif
}
