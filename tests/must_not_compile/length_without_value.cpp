// SPDX-License-Identifier: BSL-1.0
// A length has no default: zero is as good a mistake as any.
// expected: no matching function for call to 'eavewright::Length::Length[(][)]'
// expected: no matching constructor for initialization of 'eavewright::Length'
#include <eavewright/units/length.hpp>

double tail();
double tail() {
#ifdef MUST_NOT_COMPILE
    eavewright::Length length;
#else
    eavewright::Length length = eavewright::no_length;
#endif
    return eavewright::inches(length);
}
