// SPDX-License-Identifier: BSL-1.0

// Lookouts and barge at the rake: by hand, and over many rakes.

#include <eavewright/framing/rake.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include "member_checks.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
Rake nine_in_12() {
    return {.pitch = Pitch::in_12(9),
            .run = 8_ft,
            .eave_overhang = 12_in,
            .rake_overhang = 12_in,
            .reach_inside = 24_in,
            .spacing = 24_in,
            .barge_depth = 5.5_in};
}
double deg(CutAngle cut) { return degrees(cut.angle()); }
}  // namespace

TEST_CASE("a rake worked by hand") {
    // 108 in level at 9 in 12 is 135 in. Lookouts: 1 1/2 in fascia takes 1.875; the first at 1.875 + 0.75 = 2.625. At
    // the ridge half a 1 1/2 in board takes 0.9375, a 3 1/2 in lookout 3.5 x 3/4 = 2.625; the last at
    // 135 - 0.9375 - 2.625 - 0.75 = 130.6875. Between them 128.0625: six spaces of 21.34375.
    const RakeFigures figures = lay_rake(nine_in_12());
    CHECK(figures.line_length == 135_in);
    CHECK(figures.barge_length == 135_in);
    CHECK(figures.barge_blank == 139.125_in);
    CHECK(figures.lookout_length == 34.5_in);
    REQUIRE(figures.lookouts.size() == 7);
    CHECK(figures.lookouts.front() == 2.625_in);
    CHECK(off_by(figures.lookouts.back(), 130.6875_in) < 1e-12);
    CHECK(off_by(figures.lookout_spacing, 21.34375_in) < 1e-12);
    CHECK(*figures.ridge_cut.in_12() == 9.0);
    CHECK(std::fabs(deg(figures.foot_saw.mitre) - 36.869897646) < 1e-8);
    CHECK(std::fabs(deg(figures.foot_saw.bevel) - 45.0) < 1e-9);
    CHECK(std::fabs(deg(figures.fascia_saw.mitre)) < 1e-9);
    CHECK(std::fabs(deg(figures.fascia_saw.bevel) - 45.0) < 1e-9);
}

TEST_CASE("where the fascia covers the barge it is shorter, and both ends are cut plain") {
    Rake in = nine_in_12();
    in.foot = BargeFoot::behind_fascia;
    const RakeFigures behind = lay_rake(in);
    CHECK(behind.barge_length == 133.125_in);
    CHECK(std::fabs(deg(behind.foot_saw.mitre) - 36.869897646) < 1e-8);
    CHECK(std::fabs(deg(behind.foot_saw.bevel)) < 1e-9);
    CHECK(std::fabs(deg(behind.fascia_saw.bevel)) < 1e-9);
    in.foot = BargeFoot::over_fascia;
    CHECK(lay_rake(in).barge_length == 135_in);
}

TEST_CASE("a square tail leaves the barge's foot square, mitred at 45 deg") {
    Rake in = nine_in_12();
    in.tail = TailCut::square;
    const RakeFigures figures = lay_rake(in);
    CHECK(deg(figures.foot_cut) == 0.0);
    CHECK(std::fabs(deg(figures.foot_saw.mitre)) < 1e-9);
    CHECK(std::fabs(deg(figures.foot_saw.bevel) - 45.0) < 1e-9);
    CHECK(std::fabs(deg(figures.fascia_saw.mitre)) < 1e-9);
    CHECK(figures.barge_blank == figures.barge_length);
    CHECK(figures.lookouts.front() == 2.25_in);
}

TEST_CASE("lookouts stand within their spacing between fascia and ridge, the barge as long as the gable's plane") {
    SeededNumbers numbers{451};
    for (int i = 0; i < sweep(3000); ++i) {
        const Rake in{.pitch = Pitch::in_12(numbers.between(0.0, 20.0)),
                      .run = numbers.inches_between(80, 500),
                      .eave_overhang = numbers.inches_between(4, 36),
                      .rake_overhang = numbers.inches_between(4, 36),
                      .reach_inside = numbers.inches_between(0, 120),
                      .spacing = numbers.inches_between(8, 60),
                      .barge_depth = numbers.inches_between(3, 12),
                      .tail = numbers.coin() ? TailCut::plumb : TailCut::square};
        const RakeFigures figures = lay_rake(in);
        CHECK(figures.lookout_spacing <= in.spacing + 1e-4_in);
        CHECK(figures.lookout_spacing * static_cast<double>(figures.lookouts.size()) >
              in.spacing * (static_cast<double>(figures.lookouts.size()) - 2.0));
        for (std::size_t k = 1; k < figures.lookouts.size(); ++k) {
            CHECK(off_by(figures.lookouts[k] - figures.lookouts[k - 1], figures.lookout_spacing) < 1e-9);
        }
        // The top lookout's upper lower corner, square below the top edge, touches the ridge board's plumb face.
        const Length up = figures.lookouts.back() + in.lookout_width / 2.0;
        const double level = inches(up) * in.pitch.cosine() + inches(in.lookout_depth) * in.pitch.sine();
        CHECK(std::fabs(level - inches(in.run + in.eave_overhang - in.ridge_thickness / 2.0)) < 1e-9);

        const RoofShape shape = gable({.width = in.run * 2.0,
                                       .length = 40_ft,
                                       .pitch = in.pitch,
                                       .eave_overhang = in.eave_overhang,
                                       .rake_overhang = in.rake_overhang,
                                       .build_up = {no_length},
                                       .bearing_height = no_length,
                                       .heel = no_length});
        CHECK(off_by(figures.line_length, shape.slopes[0].chord.outline[2].up) < 1e-9);
    }
}

TEST_CASE("rakes that are refused, and written") {
    const auto refused = [](auto change) {
        Rake in = nine_in_12();
        change(in);
        return refusal_of([&] { (void)lay_rake(in); });
    };
    CHECK(refused([](Rake&) {}).path == "no fault");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused([&](Rake& in) { in.run = none; }).path == "rake.run");
        CHECK(refused([&](Rake& in) { in.spacing = none; }).path == "rake.spacing");
        CHECK(refused([&](Rake& in) { in.reach_inside = none; }).path == "rake.reach_inside");
    }
    CHECK(refused([](Rake& in) { in.spacing = 0_in; }).path == "rake.spacing");
    CHECK(refused([](Rake& in) {
              in.rake_overhang = 1_in;
              in.reach_inside = 0_in;
          }).path == "rake.barge_thickness");
    CHECK(refused([](Rake& in) { in.run = 3_in, in.eave_overhang = 1_in; }).path == "rake.lookout_width");
    CHECK(write_json(lay_rake(nine_in_12()), LengthUnit::inches).find("\"lookouts\": [2.625") != std::string::npos);
}
