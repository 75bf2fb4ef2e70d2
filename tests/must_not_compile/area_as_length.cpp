// SPDX-License-Identifier: BSL-1.0
// Width times length is an area, and no length.
// expected: could not convert .* to 'eavewright::Length'
// expected: no viable conversion from returned value of type .* to function return type '(eavewright::)?Length'
#include <eavewright/units/quantities.hpp>

using namespace eavewright;

#ifdef MUST_NOT_COMPILE
Length floor_of(Length width, Length length);
Length floor_of(Length width, Length length) { return width * length; }
#else
Area floor_of(Length width, Length length);
Area floor_of(Length width, Length length) { return width * length; }
#endif
