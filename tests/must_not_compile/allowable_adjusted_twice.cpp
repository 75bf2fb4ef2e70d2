// SPDX-License-Identifier: BSL-1.0
// A strength that has had its factors takes no more of them.
// expected: no match for 'operator[*]'
// expected: invalid operands to binary expression
#include <eavewright/fastening/strength.hpp>

using namespace eavewright;

AllowableForce wind(ReferenceForce design);
AllowableForce wind(ReferenceForce design) {
    const AllowableForce once = design * DesignFactor::of(1.6);
#ifdef MUST_NOT_COMPILE
    return once * DesignFactor::of(1.6);
#else
    return once;
#endif
}
