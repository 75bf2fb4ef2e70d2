// SPDX-License-Identifier: BSL-1.0

// Nails at the doors: sizes that are none, numbers that are no names, and what a nail of one's own must not claim.

#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/nail_weight.hpp>
#include <eavewright/fastening/print_through.hpp>

#include "support/refusal.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <optional>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// The number `by` places past the last name; before the first one where that is negative enough.
template <class Enumeration>
Enumeration past(Enumeration last, int by) {
    return static_cast<Enumeration>(static_cast<int>(last) + by);
}
template <class Action>
bool unnamed(const char* path, Action&& action) {
    const Fault fault = refusal_of(action);
    return fault.code == FaultCode::unknown_name && fault.path == path;
}
const NailShank ring = post_frame_ring_nail(0.177_in, 4_in);
/// The fault of `ring` after `change`; none: "no fault".
template <class Change>
Fault fault_after(Change&& change) {
    NailShank nail = ring;
    change(nail);
    return refusal_of([&] { (void)nail_mass(nail); });
}
}  // namespace

TEST_CASE("nail sizes: a number that is no name is refused, the last name is not") {
    for (const int by : {1, 40, -100}) {
        CHECK(unnamed("penny", [&] { (void)standard_nail(NailStyle::common, past(Penny::d60, by)); }));
        CHECK(unnamed("style", [&] { (void)standard_nail(past(NailStyle::sinker, by), Penny::d8); }));
        CHECK(unnamed("nail", [&] { (void)roof_sheathing_ring_nail(past(RoofSheathingRing::rsrs_05, by)); }));
        CHECK(
            unnamed("penny", [&] { (void)rough_framing_nails(past(Penny::d60, by), Volume::from_value(144'000.0)); }));
        CHECK(unnamed("heads", [&] {
            (void)find_print_through({past(HeadUnder::flat_head_screw, by)}, Covering::lapped_metal);
        }));
        CHECK(unnamed("covering",
                      [&] { (void)find_print_through({HeadUnder::proud_nail}, past(Covering::coal_tar, by)); }));
        CHECK(unnamed("package.pack", [&] { (void)buy_nails(10, ring, CountedNails{past(NailPack::strip, by), 30}); }));
        CHECK(fault_after([&](NailShank& n) { n.shank = past(Shank::other_ring, by); }).path == "nail.shank");
        CHECK(fault_after([&](NailShank& n) { n.steel = past(NailSteel::stainless, by); }).path == "nail.steel");
    }
    // 60d sinker: 5-3/4 in (NDS 2018 Table L4). Framing nails: 1.67 x 60 = 100.2 lb a thousand board feet (US Army EN0069).
    CHECK(standard_nail(NailStyle::sinker, Penny::d60).length == 5.75_in);
    CHECK(pounds(rough_framing_nails(Penny::d60, Volume::from_value(144'000.0))) ==
          doctest::Approx(100.2).epsilon(1e-12));
    CHECK(find_print_through({HeadUnder::flat_head_screw}, Covering::coal_tar).empty());
}

TEST_CASE("nail sizes: a post-frame nail between the listed sizes is refused, the listed one in millimetres is not") {
    const auto refused = [](Length diameter, Length length) {
        return refusal_of([&] { (void)post_frame_ring_nail(diameter, length); }).code == FaultCode::not_supported;
    };
    CHECK(refused(0.162_in, 4_in));    // a common nail's diameter
    CHECK(refused(0.178_in, 4_in));    // a thousandth off
    CHECK(refused(0.177_in, 7_in));    // no such length in the list
    CHECK(refused(0.207_in, 3.5_in));  // begins at 4 in
    CHECK(refused(-0.177_in, 4_in));
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused(none, 4_in));
        CHECK(refused(0.177_in, none));
    }
    CHECK(post_frame_ring_nail(4.5_mm, 101.6_mm).root_diameter == 0.169_in);  // 4.5 mm is 0.1772 in
}

TEST_CASE("nail sizes: what a nail of one's own must not claim") {
    CHECK(fault_after([](NailShank&) {}).path == "no fault");
    // 0.177 in shank with a 3/8 in head, 0.169 in root and 2.25 in of thread in 4 in.
    CHECK(fault_after([](NailShank& n) { n.head = 0.17_in; }).path == "nail.head");
    CHECK(fault_after([](NailShank& n) { n.root_diameter = 0.18_in; }).path == "nail.root_diameter");
    CHECK(fault_after([](NailShank& n) { n.threaded_length = 4.25_in; }).path == "nail.threaded_length");
    CHECK(fault_after([](NailShank& n) { n.shank = Shank::smooth; }).code == FaultCode::contradiction);
    CHECK(fault_after([](NailShank& n) {
              n.shank = Shank::smooth;
              n.root_diameter.reset();
          }).path == "nail.shank");  // a thread on a smooth shank
    CHECK(fault_after([](NailShank& n) { n.diameter = 0.01_in; }).path == "nail.diameter");
    for (const Length none : lengths_that_are_none()) {
        CHECK(fault_after([&](NailShank& n) { n.diameter = none; }).code == FaultCode::not_finite);
        CHECK(fault_after([&](NailShank& n) { n.length = none; }).path == "nail.length");
        CHECK(fault_after([&](NailShank& n) { n.head = none; }).path == "nail.head");
    }
}
