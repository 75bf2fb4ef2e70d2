// SPDX-License-Identifier: BSL-1.0
// The load duration factor belongs to a design standard's values; tests already lasted as long as they lasted.
// expected: no match for 'operator[*]'
// expected: invalid operands to binary expression
#include <eavewright/fastening/strength.hpp>

using namespace eavewright;

AllowableForce wind(UltimateForce test, ReferenceForce design);
AllowableForce wind(UltimateForce test, ReferenceForce design) {
#ifdef MUST_NOT_COMPILE
    return test * DesignFactor::of(1.6);
#else
    (void)test;
    return design * DesignFactor::of(1.6);
#endif
}
