// SPDX-License-Identifier: BSL-1.0

// What a shape refuses.

#include <eavewright/roof/measured_plane.hpp>
#include <eavewright/roof/shape.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
GableRoof sound_gable() {
    return GableRoof{.width = 36_ft,
                     .length = 60_ft,
                     .pitch = Pitch::in_12(4),
                     .eave_overhang = 18_in,
                     .rake_overhang = 12_in,
                     .build_up = {1.5_in},
                     .bearing_height = 120_in,
                     .heel = 6_in};
}
SingleSlopeRoof sound_shed() {
    return SingleSlopeRoof{.width = 24_ft,
                           .length = 60_ft,
                           .pitch = Pitch::in_12(2),
                           .eave_overhang = 18_in,
                           .high_overhang = 12_in,
                           .rake_overhang = 12_in,
                           .build_up = {1.5_in},
                           .bearing_height = 120_in,
                           .heel = 6_in};
}
template <class Roof>
std::vector<std::pair<std::string, Length Roof::*>> lengths_of() {
    return {{"roof.width", &Roof::width},
            {"roof.length", &Roof::length},
            {"roof.eave_overhang", &Roof::eave_overhang},
            {"roof.rake_overhang", &Roof::rake_overhang},
            {"roof.bearing_height", &Roof::bearing_height},
            {"roof.heel", &Roof::heel},
            {"roof.girt_thickness", &Roof::girt_thickness},
            {"roof.fascia_thickness", &Roof::fascia_thickness}};
}
template <class Roof, class Lay>
void check_every_length(Roof sound, Lay lay, const std::vector<std::pair<std::string, Length Roof::*>>& lengths) {
    CHECK(refusal_of([&] { (void)lay(sound); }).path == "no fault");
    for (const auto& entry : lengths) {
        const std::string& path = entry.first;
        Length Roof::*const member = entry.second;
        CAPTURE(path);
        for (const Length none : lengths_that_are_none()) {
            Roof roof = sound;
            roof.*member = none;
            const Fault fault = refusal_of([&] { (void)lay(roof); });
            CHECK(fault.path == path);
            CHECK(fault.code == FaultCode::not_finite);
        }
        Roof huge = sound;
        huge.*member = Length::from_feet(9000);
        CHECK(refusal_of([&] { (void)lay(huge); }).path == path);
        CHECK(refusal_of([&] { (void)lay(huge); }).code == FaultCode::out_of_range);
        if (path != "roof.bearing_height") {  // the benchmark may lie above the wall
            Roof negative = sound;
            negative.*member = -1_in;
            CHECK(refusal_of([&] { (void)lay(negative); }).path == path);
        }
    }
}
}  // namespace

TEST_CASE("a gable refuses every length that is none, absurd or negative, by name") {
    check_every_length(
        sound_gable(), [](const GableRoof& r) { return gable(r); }, lengths_of<GableRoof>());
}

TEST_CASE("a single slope refuses every length that is none, absurd or negative, by name") {
    auto lengths = lengths_of<SingleSlopeRoof>();
    lengths.emplace_back("roof.high_overhang", &SingleSlopeRoof::high_overhang);
    check_every_length(
        sound_shed(), [](const SingleSlopeRoof& r) { return single_slope(r); }, lengths);
}

TEST_CASE("layers, fascia and pitch that do not fit") {
    GableRoof roof = sound_gable();
    roof.build_up.deck = 5_ft;
    CHECK(refusal_of([&] { (void)gable(roof); }).path == "roof.build_up.deck");
    roof = sound_gable();
    roof.build_up.purlin = -1_in;
    CHECK(refusal_of([&] { (void)gable(roof); }).path == "roof.build_up.purlin");
    roof = sound_gable();
    roof.eave_overhang = 1_in;
    CHECK(refusal_of([&] { (void)gable(roof); }).code == FaultCode::does_not_fit);
    roof = sound_gable();
    roof.width = 2000_ft;
    roof.pitch = Pitch::from_percent(90000);  // its slope would be longer than any length that enters
    CHECK(refusal_of([&] { (void)gable(roof); }).path == "roof.pitch");
    SingleSlopeRoof shed = sound_shed();
    shed.high_overhang = 1_in;
    CHECK(refusal_of([&] { (void)single_slope(shed); }).path == "roof.fascia_thickness");
}

TEST_CASE("check tells all faults at once") {
    GableRoof roof = sound_gable();
    roof.width = no_length;
    roof.heel = -1_in;
    const Faults faults = check(roof, "roof");
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].path == "roof.width");
    CHECK(faults[1].path == "roof.heel");
}

TEST_CASE("a plane with a corner that is no number is told apart") {
    const PurlinPlane plane = gable(sound_gable()).slopes[0].purlin;
    CHECK(check(plane, "plane").empty());
    for (const Length none : lengths_that_are_none()) {
        PurlinPlane broken = plane;
        broken.outline[2].up = none;
        const Faults faults = check(broken, "plane");
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].path == "plane.outline[2].up");
        CHECK_FALSE(is_convex(broken.outline));
    }
}

TEST_CASE("a measured plane has the measured corners, and stands where the nominal one stood") {
    const DeckPlane nominal = gable(sound_gable()).slopes[1].deck;
    const FourCorners corners{{no_length, no_length}, {744_in, no_length}, {743_in, 246_in}, {-0.5_in, 245_in}};
    const DeckPlane plane = measured_plane(nominal, corners);
    CHECK(plane.outline == std::vector<PlanePoint>{{0_in, 0_in}, {744_in, 0_in}, {743_in, 246_in}, {-0.5_in, 245_in}});
    CHECK(plane.pitch == nominal.pitch);
    const BuildingPoint a = building_point(plane, {no_length, no_length});
    const BuildingPoint b = building_point(nominal, {no_length, no_length});
    CHECK(a.x == b.x);
    CHECK(a.y == b.y);
    CHECK(a.z == b.z);
}
