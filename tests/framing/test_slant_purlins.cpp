// SPDX-License-Identifier: BSL-1.0

// Purlins that end on hips and valleys: by hand, and against the planes in space.

#include <eavewright/framing/slant_purlins.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include "member_checks.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("purlins between two hips, worked by hand") {
    // 9 in 12, 20 ft of eave, hips at both ends: 10 in up the slope is 8 in in plan, so each end comes in by 8 in.
    const SlantPurlinSet set = slant_purlins({.pitch = Pitch::in_12(9),
                                              .eave_length = 20_ft,
                                              .rows = {0_in, 10_in, 140_in},
                                              .left = HipEnd{Pitch::in_12(9)},
                                              .right = HipEnd{Pitch::in_12(9)}});
    REQUIRE(set.purlins.size() == 3);
    CHECK(off_by(set.purlins[0].length, 240_in) < 1e-12);
    CHECK(off_by(set.purlins[1].from, 8_in) < 1e-12);
    CHECK(off_by(set.purlins[1].to, 232_in) < 1e-12);
    CHECK(off_by(set.purlins[2].length, 16_in) < 1e-12);
    CHECK(std::fabs(set.left_per_up - 0.8) < 1e-15);
    CHECK(std::fabs(set.right_per_up + 0.8) < 1e-15);
    // 3 1/2 in up the slope: the lower arris of the top face reaches 1.75 x 0.8 = 1.4 in further at each end.
    CHECK(off_by(set.purlins[1].long_length, 224_in + 2.8_in) < 1e-12);
    // Flat: mitre atan(0.8), bevel asin(0.6 sin 45).
    REQUIRE(set.left_cut);
    CHECK(std::fabs(degrees(set.left_cut->face_in_roof.mitre.angle()) - 38.659808254) < 1e-8);
    CHECK(std::fabs(degrees(set.left_cut->face_in_roof.bevel.angle()) - 25.104090250) < 1e-8);
}

TEST_CASE("held back from a hip rafter, and running past a rake") {
    // Half of a 1 1/2 in hip, level and square to it: 0.75 x sqrt 2 along the purlin. The rake hangs 12 in over.
    const SlantPurlinSet set = slant_purlins({.pitch = Pitch::in_12(9),
                                              .eave_length = 20_ft,
                                              .rows = {10_in},
                                              .left = RakeEnd{12_in},
                                              .right = HipEnd{.other = Pitch::in_12(9), .hold_back = 0.75_in}});
    CHECK(set.purlins[0].from == -12_in);
    CHECK(std::fabs(inches(set.purlins[0].to) - (232.0 - 0.75 * std::sqrt(2.0))) < 1e-9);
    CHECK(!set.left_cut);
    CHECK(set.left_per_up == 0.0);
    CHECK(off_by(set.purlins[0].long_length, set.purlins[0].length + 1.4_in) < 1e-12);
}

TEST_CASE("between a hip and the valley beside it every purlin is as long") {
    const SlantPurlinSet set = slant_purlins({.pitch = Pitch::in_12(5),
                                              .eave_length = 6_ft,
                                              .rows = {1_in, 30_in, 90_in},
                                              .left = HipEnd{Pitch::in_12(5)},
                                              .right = ValleyEnd{Pitch::in_12(5)}});
    for (const SlantPurlin& purlin : set.purlins) {
        CHECK(off_by(purlin.length, 6_ft) < 1e-12);
    }
    CHECK(std::fabs(set.left_per_up - set.right_per_up) < 1e-15);
}

TEST_CASE("ends lie on the other plane, arrises on the cut, in space") {
    SeededNumbers numbers{441};
    for (int i = 0; i < sweep(4000); ++i) {
        const RandomCorner random = random_open_corner(numbers);
        const Corner& corner = random.corner;
        const bool hip = numbers.coin();
        const HipCut kind = numbers.coin() ? HipCut::plumb : HipCut::bisecting;
        const Spot slanted = corner.meet(100.0);
        SlantPurlins in{.pitch = random.planes.pitch_a,
                        .eave_length = 900_ft,
                        .rows = {numbers.inches_between(5, 60), numbers.inches_between(60, 200)},
                        .left = HipEnd{random.planes.pitch_b, random.planes.corner},
                        .right = RakeEnd{},
                        .across = numbers.inches_between(1.0, 6.0),
                        .depth = numbers.inches_between(1.0, 6.0),
                        .cut = kind};
        if (!hip) {
            in.left = ValleyEnd{random.planes.pitch_b, random.planes.corner};
        }
        const double c = in.pitch.cosine();
        const double s = in.pitch.sine();
        if (slanted.x / slanted.y * 400.0 > 9000.0) {
            continue;
        }
        const SlantPurlinSet set = slant_purlins(in);
        const double turn = hip ? 1.0 : -1.0;
        const Spot normal_a{0.0, -s, c};
        const double size_b = size_of(corner.normal_b());
        const Spot normal_b{corner.normal_b().x / size_b, corner.normal_b().y / size_b, corner.normal_b().z / size_b};
        const Spot cut = kind == HipCut::plumb ? outer({0.0, 0.0, 1.0}, slanted) : normal_a - normal_b;
        for (const SlantPurlin& purlin : set.purlins) {
            // The middle of the top face ends where both planes are as high; the corner is the origin.
            const double u = inches(purlin.up);
            const Spot end{turn * inches(purlin.from), u * c, u * s};
            CHECK(std::fabs(end.z - corner.rise_b * corner.off_b(end.x, end.y)) < 1e-8 * (1.0 + size_of(end)));
            // Over the four arrises: none reaches past the long length, one reaches it.
            double most = -1e9;
            for (const double side : {-0.5, 0.5}) {
                for (const double deep : {0.0, 1.0}) {
                    const double v = u + side * inches(in.across);
                    const double d = deep * inches(in.depth);
                    const double y = v * c + d * s;
                    const double z = v * s - d * c;
                    const double x = -(cut.y * y + cut.z * z) / cut.x;  // on the cut through the corner
                    const double reach = inches(in.eave_length) - turn * x;
                    most = reach > most ? reach : most;
                }
            }
            CHECK(std::fabs(inches(purlin.long_length) - most) < 1e-7);
            CHECK(purlin.length == purlin.to - purlin.from);
            CHECK(purlin.long_length >= purlin.length);
        }
    }
}

TEST_CASE("slanted purlins that are refused, and written") {
    const auto refused = [](auto change) {
        SlantPurlins in{.pitch = Pitch::in_12(9),
                        .eave_length = 20_ft,
                        .rows = {10_in},
                        .left = HipEnd{Pitch::in_12(9)},
                        .right = HipEnd{Pitch::in_12(9)}};
        change(in);
        return refusal_of([&] { (void)slant_purlins(in); });
    };
    CHECK(refused([](SlantPurlins&) {}).path == "no fault");
    CHECK(refused([](SlantPurlins& in) { in.rows.push_back(151_in); }).path == "purlins.rows[1]");
    CHECK(refused([](SlantPurlins& in) { in.rows.push_back(-1_in); }).path == "purlins.rows[1]");
    CHECK(refused([](SlantPurlins& in) { in.left = HipEnd{Pitch::in_12(0)}; }).path == "purlins.left.other");
    CHECK(refused([](SlantPurlins& in) { in.pitch = Pitch::in_12(0); }).path == "purlins.pitch");
    CHECK(refused([](SlantPurlins& in) { in.right = RakeEnd{30_ft}; }).path == "purlins.right.past");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused([&](SlantPurlins& in) { in.eave_length = none; }).path == "purlins.eave_length");
        CHECK(refused([&](SlantPurlins& in) { in.rows[0] = none; }).path == "purlins.rows[0]");
    }
    const SlantPurlinSet set = slant_purlins({.pitch = Pitch::in_12(9),
                                              .eave_length = 20_ft,
                                              .rows = {10_in},
                                              .left = HipEnd{Pitch::in_12(9)},
                                              .right = RakeEnd{}});
    CHECK(write_json(set, LengthUnit::inches).find("\"right_cut\": null") != std::string::npos);
}
