// SPDX-License-Identifier: BSL-1.0
// The handbook's smooth nail takes the specific gravity at 12 percent moisture, not the design standard's ovendry one.
// expected: could not convert 'ovendry' from 'SpecificGravity<eavewright::OvendryVolume>' to
// expected: no matching function for call to 'smooth_nail_test_value'
#include <eavewright/fastening/handbook_withdrawal.hpp>

using namespace eavewright;

TestValue of(const NailShank& nail, OvendryGravity ovendry, GravityAtTwelvePercent air_dry);
TestValue of(const NailShank& nail, OvendryGravity ovendry, GravityAtTwelvePercent air_dry) {
#ifdef MUST_NOT_COMPILE
    (void)air_dry;
    return smooth_nail_test_value(nail, ovendry, Grain::side, HandbookEdition::gtr_282);
#else
    (void)ovendry;
    return smooth_nail_test_value(nail, air_dry, Grain::side, HandbookEdition::gtr_282);
#endif
}
