// SPDX-License-Identifier: BSL-1.0
#pragma once

// The average load at which nails and screws came out of side grain in tests: the Wood Handbook's equations. No safety is in
// these figures, and they take no factor of a design standard.

#include <eavewright/fastening/bite.hpp>
#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/screw_sizes.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/fastening/wood_gravity.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <string>
#include <string_view>

namespace eavewright {

/// Average ultimate withdrawal by length of bite: p = coefficient G^gravity_power D^diameter_power, newtons a millimetre, D in
/// millimetres, as the handbook's metric equations (read in a page-cited transcription) have it.
struct TestValue {
    HandbookEdition edition;
    std::string_view equation;
    double coefficient;
    double gravity_power;
    double diameter_power;
    double gravity;
    std::string_view gravity_basis;
    Length diameter;  ///< that the equation takes: the thread root of a ring shank
    UltimateLineLoad by_length;
    bool smooth;  ///< a smooth nail
};
template <>
struct FieldsOf<TestValue> {
    static constexpr auto list = field_list(
        field("edition", FieldUnit::none, "edition of the handbook", &TestValue::edition),
        field("equation", FieldUnit::none, "number of the equation in that edition", &TestValue::equation),
        field("coefficient", FieldUnit::ratio, "of the equation, for newtons and millimetres", &TestValue::coefficient),
        field("gravity_power", FieldUnit::ratio, "power of the specific gravity", &TestValue::gravity_power),
        field("diameter_power", FieldUnit::ratio, "power of the diameter", &TestValue::diameter_power),
        field("gravity", FieldUnit::ratio, "specific gravity on the basis named", &TestValue::gravity),
        field("gravity_basis", FieldUnit::none, "moisture at which the wood's volume is measured",
              &TestValue::gravity_basis),
        field("diameter", FieldUnit::length, "that the equation takes", &TestValue::diameter),
        field(
            "pounds_per_inch", FieldUnit::ratio, "average ultimate withdrawal in pounds an inch of bite",
            +[](const TestValue& t) { return pounds_per_inch(t.by_length); }),
        field("smooth", FieldUnit::none, "a smooth nail", &TestValue::smooth));
};

/// Average ultimate withdrawal of one fastener.
struct TestWithdrawal {
    TestValue value;
    Bite bite;
    UltimateForce force;
    bool unverified;  ///< the bite
};
template <>
struct FieldsOf<TestWithdrawal> {
    static constexpr auto list = field_list(
        field("value", FieldUnit::none, "average ultimate withdrawal by length of bite", &TestWithdrawal::value),
        field("bite", FieldUnit::none, "what of it is in the wood", &TestWithdrawal::bite),
        field(
            "ultimate_pounds", FieldUnit::ratio, "average load in pounds at which one came out, not an allowable load",
            +[](const TestWithdrawal& t) { return pounds_force(t.force); }),
        field("unverified", FieldUnit::none, "rests on an assumption", &TestWithdrawal::unverified),
        field(
            "caution", FieldUnit::none, "to be read with it",
            +[](const TestWithdrawal&) { return holding_power_caution; }),
        field(
            "shank_caution", FieldUnit::none, "to be read with a smooth shank, else empty",
            +[](const TestWithdrawal& t) { return t.value.smooth ? smooth_shank_caution : std::string_view{}; }));
};

namespace detail {
struct TestEquation {
    std::string_view number;
    double coefficient;
    double gravity_power;
    double diameter_power;
    double thinnest;  ///< inches, with the next the sizes that the handbook tables
    double thickest;
    bool smooth;  ///< a smooth nail
};

[[nodiscard]] inline TestValue evaluate(const TestEquation& e, Length diameter, double gravity, std::string_view basis,
                                        Grain grain, HandbookEdition edition) {
    if (grain == Grain::end) {
        throw FaultError{Fault{FaultCode::not_supported, "grain", "end", "side grain, which the equation is for"}};
    }
    // The handbook names no range of woods: that of the design standard's tables, which rest on like tests.
    require_range(gravity, 0.31, 0.73, "specific_gravity", "as NDS Table 12.2C");
    require_range(inches(diameter), e.thinnest, e.thickest, "diameter", "Wood Handbook chapter 8 and NDS Appendix L");
    const double p =
        e.coefficient * std::pow(gravity, e.gravity_power) * std::pow(millimetres(diameter), e.diameter_power);
    return TestValue{.edition = edition,
                     .equation = e.number,
                     .coefficient = e.coefficient,
                     .gravity_power = e.gravity_power,
                     .diameter_power = e.diameter_power,
                     .gravity = gravity,
                     .gravity_basis = basis,
                     .diameter = diameter,
                     .by_length = UltimateLineLoad::of(line_load_from_newtons_per_metre(p * 1000.0)),
                     .smooth = e.smooth};
}
inline constexpr std::string_view basis_twelve = "ovendry weight, volume at 12 percent moisture";
inline constexpr std::string_view basis_ovendry = "ovendry weight, ovendry volume";
}  // namespace detail

/// Average ultimate withdrawal of a bright smooth common nail from seasoned wood: 54.12 G^2.5 D L (7850 in pounds and inches),
/// equation 8-1, printed p. 8-2. Older bulletins of the same laboratory print 6900 for another basis of G and other data: the two
/// do not mix. Throws `FaultError`: not_supported for end grain or another shank or steel, out_of_range for G outside 0.31 to
/// 0.73 or D outside 0.092 to 0.375 in.
[[nodiscard]] inline TestValue smooth_nail_test_value(const NailShank& nail, GravityAtTwelvePercent gravity,
                                                      Grain grain, HandbookEdition edition) {
    require_sound(nail, "nail");
    if (nail.shank != Shank::smooth || nail.steel != NailSteel::carbon) {
        throw FaultError{Fault{FaultCode::not_supported, "nail.shank", std::string{name_of(nail.shank)},
                               "a smooth shank of carbon steel; a ring shank takes the ovendry specific gravity"}};
    }
    return detail::evaluate({"8-1", 54.12, 2.5, 1.0, 0.092, 0.375, true}, nail.diameter, gravity.ratio(),
                            detail::basis_twelve, grain, edition);
}
/// Average ultimate withdrawal of a bright annularly threaded nail from seasoned wood, by length of thread in it: 77.57 G^2 D L
/// (11,250), D at the thread's root, equation 8-2a, printed p. 8-4; for rings that stand more than 0.2 mm above the root, 1.27 to
/// 1.96 mm apart. Throws as for a smooth one, missing_field where the root diameter is not known.
[[nodiscard]] inline TestValue ring_nail_test_value(const NailShank& nail, OvendryGravity gravity, Grain grain,
                                                    HandbookEdition edition) {
    require_sound(nail, "nail");
    if (nail.shank == Shank::smooth || nail.steel == NailSteel::stainless) {
        throw FaultError{Fault{FaultCode::not_supported, "nail.shank", std::string{name_of(nail.shank)},
                               "a ring shank of carbon steel; a smooth one takes the specific gravity at 12 percent"}};
    }
    if (!nail.root_diameter) {
        throw FaultError{Fault{FaultCode::missing_field, "nail.root_diameter", "", "the diameter between the rings"}};
    }
    return detail::evaluate({"8-2a", 77.57, 2.0, 1.0, 0.092, 0.375, false}, *nail.root_diameter, gravity.ratio(),
                            detail::basis_ovendry, grain, edition);
}
/// Average ultimate withdrawal of a wood screw, 108.25 G^2 D L (15,700), or a lag screw, 125.4 G^1.5 D^0.75 L (8100), by length
/// of thread: equations 8-10 and 8-14, printed pp. 8-10 and 8-12. Throws as for a nail.
[[nodiscard]] inline TestValue screw_test_value(const ScrewShank& screw, GravityAtTwelvePercent gravity, Grain grain,
                                                HandbookEdition edition) {
    require_sound(screw, "screw");
    const detail::TestEquation wood{"8-10", 108.25, 2.0, 1.0, 0.112, 0.372, false};
    const detail::TestEquation lag{"8-14", 125.4, 1.5, 0.75, 0.25, 1.25, false};
    return detail::evaluate(screw.kind == ScrewKind::lag_screw ? lag : wood, screw.diameter, gravity.ratio(),
                            detail::basis_twelve, grain, edition);
}
/// The same of a round drift bolt or pin of 1/4 to 1-1/4 in in a hole 1/8 in smaller: 45.51 G^2 D L (6600), equation 8-9,
/// printed p. 8-10.
[[nodiscard]] inline TestValue drift_bolt_test_value(Length diameter, GravityAtTwelvePercent gravity, Grain grain,
                                                     HandbookEdition edition) {
    return detail::evaluate({"8-9", 45.51, 2.0, 1.0, 0.25, 1.25, false}, diameter, gravity.ratio(),
                            detail::basis_twelve, grain, edition);
}

/// A test value over the bite of its fastener.
[[nodiscard]] inline TestWithdrawal test_withdrawal_over(const TestValue& value, const Bite& bite) {
    return TestWithdrawal{value, bite, value.by_length * bite.length, bite.unverified};
}

}  // namespace eavewright
