// SPDX-License-Identifier: BSL-1.0
// A number typed in is no factor of a design standard; a whole number of fasteners is.
// expected: no match for 'operator[*]'
// expected: invalid operands to binary expression
#include <eavewright/fastening/strength.hpp>

using namespace eavewright;

ReferenceForce stronger(ReferenceForce design);
ReferenceForce stronger(ReferenceForce design) {
#ifdef MUST_NOT_COMPILE
    return design * 1.6;
#else
    return design * 2;
#endif
}
