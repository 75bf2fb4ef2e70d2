// SPDX-License-Identifier: BSL-1.0
// A description that leaves out a length is incomplete, and says so while it compiles.
// expected: could not convert .* to 'eavewright::Length'
// expected: no matching constructor for initialization of 'eavewright::Length'
#include <eavewright/units/length.hpp>

using namespace eavewright;

struct Opening {
    Length width;
    Length height;
};

Opening door();
Opening door() {
#ifdef MUST_NOT_COMPILE
    return Opening{.width = Length::from_feet(12.0)};
#else
    return Opening{.width = Length::from_feet(12.0), .height = Length::from_feet(10.0)};
#endif
}
