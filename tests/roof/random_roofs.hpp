// SPDX-License-Identifier: BSL-1.0
#pragma once

// Buildings of every composed shape, drawn at random, with what their inputs say about the roof.

#include <eavewright/roof/composed_roof.hpp>
#include <eavewright/roof/hipped_roofs.hpp>
#include <eavewright/roof/plain_roofs.hpp>
#include <eavewright/roof/porch_roofs.hpp>
#include <eavewright/roof/winged_roofs.hpp>
#include <eavewright/roof/wrap_around_porch.hpp>

#include "support/seeded_numbers.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

/// A roof beside what must come out, each from the inputs in inches by a formula of its own.
struct DrawnRoof {
    eavewright::ComposedRoof roof;
    double highest;
    std::vector<double> eaves;  ///< heights of the level eaves, lowest first
    double plan;                ///< area under all faces, by rectangles
    double overlap;             ///< the part of it where one tier passes over another
};

namespace drawn {
using namespace eavewright;

struct Walls {
    double width, length, overhang, rake, bearing, heel;
    explicit Walls(SeededNumbers& random)
        : width{random.between(192, 960)},
          length{random.between(240, 1920)},
          overhang{random.coin() ? random.between(1.5, 36) : 0.0},
          rake{random.coin() ? random.between(1.5, 36) : 0.0},
          bearing{random.between(-20, 240)},
          heel{random.between(0, 24)} {}
    [[nodiscard]] double wall() const { return bearing + heel; }
    [[nodiscard]] double plan() const { return (width + 2 * overhang) * (length + 2 * rake); }
};
inline Length in(double inches) { return Length::from_inches(inches); }
inline double in_12(SeededNumbers& random, double low, double high) {
    return random.coin() ? static_cast<double>(random.whole(static_cast<int>(low) + 1, static_cast<int>(high)))
                         : random.between(low, high);
}

inline DrawnRoof unequal(SeededNumbers& random) {
    const Walls w{random};
    const double front = in_12(random, 1, 14);
    const double back = in_12(random, 1, 14);
    const double back_overhang = random.between(0, 36);
    RidgePlace place = EqualWalls{};
    double run = w.width * back / (front + back);
    double back_eave = w.wall() - back_overhang * back / 12;
    const int way = random.whole(0, 2);
    if (way == 1) {
        run = random.between(40, w.width - 40);
        place = RidgeAt{in(run)};
        back_eave = w.wall() + run * front / 12 - (w.width - run + back_overhang) * back / 12;
    }
    const double front_eave = w.wall() - w.overhang * front / 12;
    if (way == 2) {
        place = EqualEaves{};
        back_eave = front_eave;
        // Front and back fall by the same from the ridge.
        run = (w.width + back_overhang - w.overhang * front / back) / (1 + front / back);
    }
    const ComposedRoof roof = unequal_gable({.width = in(w.width),
                                             .length = in(w.length),
                                             .front_pitch = Pitch::in_12(front),
                                             .back_pitch = Pitch::in_12(back),
                                             .ridge = place,
                                             .front_overhang = in(w.overhang),
                                             .back_overhang = in(back_overhang),
                                             .rake_overhang = in(w.rake),
                                             .bearing_height = in(w.bearing),
                                             .heel = in(w.heel)});
    return {roof,
            w.wall() + run * front / 12,
            {std::min(front_eave, back_eave), std::max(front_eave, back_eave)},
            (w.width + w.overhang + back_overhang) * (w.length + 2 * w.rake),
            0.0};
}

inline DrawnRoof gambrel_at_random(SeededNumbers& random) {
    const Walls w{random};
    const double upper = in_12(random, 1, 8);
    const double lower = upper + in_12(random, 1, 16);
    const double run = random.between(0.1, 0.9) * w.width / 2;
    const ComposedRoof roof = gambrel({.width = in(w.width),
                                       .length = in(w.length),
                                       .lower_pitch = Pitch::in_12(lower),
                                       .upper_pitch = Pitch::in_12(upper),
                                       .break_run = in(run),
                                       .eave_overhang = in(w.overhang),
                                       .rake_overhang = in(w.rake),
                                       .bearing_height = in(w.bearing),
                                       .heel = in(w.heel)});
    return {roof,
            w.wall() + run * lower / 12 + (w.width / 2 - run) * upper / 12,
            {w.wall() - w.overhang * lower / 12},
            w.plan(),
            0.0};
}

inline DrawnRoof monitor_at_random(SeededNumbers& random) {
    const Walls w{random};
    const double lower = in_12(random, 1, 8);
    const double upper = in_12(random, 1, 8);
    const double inner = random.between(0.25, 0.7) * w.width;
    const double out = random.between(0, 20);
    const double raise = random.between(24, 60);
    const ComposedRoof roof = monitor({.width = in(w.width),
                                       .length = in(w.length),
                                       .monitor_width = in(inner),
                                       .lower_pitch = Pitch::in_12(lower),
                                       .upper_pitch = Pitch::in_12(upper),
                                       .raise = in(raise),
                                       .eave_overhang = in(w.overhang),
                                       .monitor_overhang = in(out),
                                       .rake_overhang = in(w.rake),
                                       .bearing_height = in(w.bearing),
                                       .heel = in(w.heel)});
    const double raised = w.wall() + (w.width - inner) / 2 * lower / 12 + raise;
    const double overlap = 2 * out * (w.length + 2 * w.rake);
    return {roof,
            raised + inner / 2 * upper / 12,
            {w.wall() - w.overhang * lower / 12, raised - out * upper / 12},
            w.plan() + overlap,
            overlap};
}

inline DrawnRoof hip_at_random(SeededNumbers& random) {
    const Walls w{random};
    const double pitch = in_12(random, 1, 14);
    const bool own = random.coin();
    const double end = own ? in_12(random, 1, 14) : pitch;
    const double eave = w.bearing + 40 - w.overhang * pitch / 12;  // a heel that leaves room for the ends'
    const double side = (w.width / 2 + w.overhang) * pitch / 12;
    const double across = (w.length / 2 + w.overhang) * end / 12;
    HipRoof hipped{.width = in(w.width),
                   .length = in(w.length),
                   .pitch = Pitch::in_12(pitch),
                   .eave_overhang = in(w.overhang),
                   .bearing_height = in(w.bearing),
                   .heel = in(40)};
    if (own) {
        hipped.end_pitch = Pitch::in_12(end);
    }
    return {hip(hipped),
            eave + std::min(side, across),
            {eave},
            (w.width + 2 * w.overhang) * (w.length + 2 * w.overhang),
            0.0};
}

inline DrawnRoof dutch_at_random(SeededNumbers& random) {
    const Walls w{random};
    const double pitch = in_12(random, 1, 14);
    const double run = random.between(0.2, 0.95) * std::min(w.width, w.length) / 2;
    const double eave = w.wall() - w.overhang * pitch / 12;
    const ComposedRoof roof = dutch_gable({.width = in(w.width),
                                           .length = in(w.length),
                                           .pitch = Pitch::in_12(pitch),
                                           .gablet_run = in(run),
                                           .gablet_overhang = in(random.between(0, 12)),
                                           .eave_overhang = in(w.overhang),
                                           .bearing_height = in(w.bearing),
                                           .heel = in(w.heel)});
    return {roof,
            eave + (w.width / 2 + w.overhang) * pitch / 12,
            {eave},
            (w.width + 2 * w.overhang) * (w.length + 2 * w.overhang),
            0.0};
}

inline DrawnRoof jerkinhead_at_random(SeededNumbers& random) {
    const Walls w{random};
    const double pitch = in_12(random, 3, 14);
    const double end = in_12(random, 3, 14);
    const double side = (w.width / 2 + w.overhang) * pitch / 12;
    const double run = std::min(random.between(0.1, 0.8) * side * 12 / end, 0.4 * w.length);
    const ComposedRoof roof = jerkinhead({.width = in(w.width),
                                          .length = in(w.length),
                                          .pitch = Pitch::in_12(pitch),
                                          .end_pitch = Pitch::in_12(end),
                                          .hip_run = in(run),
                                          .eave_overhang = in(w.overhang),
                                          .rake_overhang = in(w.rake),
                                          .bearing_height = in(w.bearing),
                                          .heel = in(w.heel)});
    const double eave = w.wall() - w.overhang * pitch / 12;
    return {roof, eave + side, {eave, eave + side - run * end / 12}, w.plan(), 0.0};
}

inline MainGable main_of(const Walls& w, double pitch) {
    return {.width = in(w.width),
            .length = in(w.length),
            .pitch = Pitch::in_12(pitch),
            .eave_overhang = in(w.overhang),
            .rake_overhang = in(w.rake),
            .bearing_height = in(w.bearing),
            .heel = in(w.heel)};
}

/// Tied to the wall or under the eave.
inline DrawnRoof tied_porch(SeededNumbers& random) {
    const Walls w{random};
    const double main_pitch = in_12(random, 2, 12);
    const double pitch = in_12(random, 1, 2);
    const double depth = random.between(60, 160);
    const double out = random.between(0, 24);
    const double rake = random.between(0, 24);
    const bool whole = random.coin();
    const double start = whole ? 0.0 : random.between(0, 0.3) * w.length;
    const double along = whole ? w.length : random.between(0.2, 0.7) * w.length;
    const double main_eave = w.wall() - w.overhang * main_pitch / 12;
    const double clear = random.between(1, 30);
    const bool under = random.coin();
    const double top = under ? main_eave - clear + w.overhang * pitch / 12 : main_eave - clear;
    const PorchTie tie = under ? PorchTie{TiedUnderEave{in(clear)}} : PorchTie{TiedToWall{in(top)}};
    const ComposedRoof roof = porch({.main = main_of(w, main_pitch),
                                     .start = in(start),
                                     .along = in(along),
                                     .depth = in(depth),
                                     .pitch = Pitch::in_12(pitch),
                                     .tie = tie,
                                     .eave_overhang = in(out),
                                     .rake_overhang = in(rake)});
    const double covered = std::min(start + along + rake, w.length + w.rake) - std::max(start - rake, -w.rake);
    return {roof,
            w.wall() + w.width / 2 * main_pitch / 12,
            {top - (depth + out) * pitch / 12, main_eave},
            w.plan() + (along + 2 * rake) * (depth + out),
            covered * w.overhang};
}

inline DrawnRoof breaking_porch(SeededNumbers& random) {
    const Walls w{random};
    const double main_pitch = in_12(random, 4, 12);
    const double pitch = in_12(random, 1, 3);
    const double depth = random.between(60, 160);
    const double out = random.between(0, 24);
    const double run = random.between(-w.overhang, 0.4 * w.width);
    const bool whole = random.coin();
    const double rake = whole ? w.rake : random.between(0, 20);
    const double start = whole ? 0.0 : random.between(20, 0.3 * w.length);
    const double along = whole ? w.length : random.between(0.2, 0.5) * w.length;
    const ComposedRoof roof = porch({.main = main_of(w, main_pitch),
                                     .start = in(start),
                                     .along = in(along),
                                     .depth = in(depth),
                                     .pitch = Pitch::in_12(pitch),
                                     .tie = BreaksPitch{in(run)},
                                     .eave_overhang = in(out),
                                     .rake_overhang = in(rake)});
    const double eave = w.wall() + run * main_pitch / 12 - (run + depth + out) * pitch / 12;
    const double main_eave = w.wall() - w.overhang * main_pitch / 12;
    std::vector<double> eaves{eave, main_eave};  // the back eave stands whatever the porch hides
    std::sort(eaves.begin(), eaves.end());
    return {roof, w.wall() + w.width / 2 * main_pitch / 12, eaves,
            w.plan() + (along + 2 * rake) * (depth + out - w.overhang), 0.0};
}

inline DrawnRoof wrapping_porch(SeededNumbers& random) {
    const Walls w{random};
    const double main_pitch = in_12(random, 3, 12);
    const double pitch = in_12(random, 1, 4);
    const double main_eave = w.wall() - w.overhang * main_pitch / 12;
    const double height = main_eave - random.between(0, 30);
    const double out = random.between(0, 24);
    const double rake = random.between(0, 24);
    WrapAroundPorch in_hand{.main = main_of(w, main_pitch),
                            .pitch = Pitch::in_12(pitch),
                            .height = in(height),
                            .eave_overhang = in(out),
                            .rake_overhang = in(rake)};
    const bool equal = random.coin();
    const double depth = random.between(60, 160);
    const int first = random.whole(0, 3);
    const int count = random.whole(2, 4);
    double depths[4] = {0, 0, 0, 0};
    for (int k = 0; k < count; ++k) {
        depths[(first + k) % 4] = equal ? depth : random.between(60, 160);
    }
    std::optional<Length>* sides[4] = {&in_hand.front, &in_hand.right, &in_hand.back, &in_hand.left};
    double first_depth = 0.0;
    for (int side = 3; side >= 0; --side) {
        if (depths[side] > 0) {
            *sides[side] = in(depths[side]);
            first_depth = depths[side];
        }
    }
    // Strips with the rakes at their ends, and a rectangle at every corner turned; what the main overhangs cover of them.
    double plan = w.plan();
    double overlap = 0.0;
    for (int side = 0; side < 4; ++side) {
        if (depths[side] <= 0) {
            continue;
        }
        const bool long_side = side % 2 == 0;
        const double deep = depths[side] + out;
        const double over = std::min(deep, long_side ? w.overhang : w.rake);  // main overhang on this side
        const double over_end = long_side ? w.rake : w.overhang;              // and past its ends
        plan += (long_side ? w.length : w.width) * deep;
        overlap += (long_side ? w.length : w.width) * over;
        for (const int next : {(side + 1) % 4, (side + 3) % 4}) {
            if (depths[next] <= 0) {
                plan += rake * deep;
                overlap += std::min(rake, over_end) * over;
            } else if (next == (side + 1) % 4) {
                plan += (depths[next] + out) * deep;
                overlap += std::min(depths[next] + out, over_end) * over;
            }
        }
    }
    return {wrap_around_porch(in_hand),
            w.wall() + w.width / 2 * main_pitch / 12,
            {height - (first_depth + out) * pitch / 12, main_eave},
            plan,
            overlap};
}

/// One wing to four. Eaves at one level where `level`, else wings with heights of their own.
inline DrawnRoof winged(SeededNumbers& random) {
    const Walls w{random};
    const double main_pitch = in_12(random, 3, 12);
    const double main_eave = w.wall() - w.overhang * main_pitch / 12;
    const double ridge = w.wall() + w.width / 2 * main_pitch / 12;
    GableWithWings roof{.main = main_of(w, main_pitch), .wings = {}};
    double plan = w.plan();
    std::vector<double> eaves{main_eave};
    const bool equal_ridges = random.coin();
    const int fronts = random.whole(1, 2);
    const int backs = random.whole(0, 2);
    for (int k = 0; k < fronts + backs; ++k) {
        const bool front = k < fronts;
        const int here = front ? fronts : backs;
        const int place = front ? k : k - fronts;
        const double room = w.length / here;
        const double pitch = in_12(random, 3, 12);
        const double top = equal_ridges ? ridge - main_eave : random.between(0.3, 0.95) * (ridge - main_eave);
        double half = top * 12 / pitch;  // to the fascia, from an eave level with the main one
        if (half > 0.48 * room) {
            half = random.between(0.2, 0.48) * room;
            if (half * pitch / 12 > ridge - main_eave) {
                half = 0.5 * (ridge - main_eave) * 12 / pitch;
            }
        }
        const double out = random.between(0, 0.5) * std::min(40.0, half - 6.5);
        const double projection = random.coin() ? 0.0 : random.between(10, 200);
        const double rake = w.overhang + random.between(0, 20);
        const double wall = main_eave + out * pitch / 12;
        roof.wings.push_back({.side = front ? MainSide::front : MainSide::back,
                              .centre = in((place + 0.5) * room),
                              .width = in(2 * (half - out)),
                              .projection = in(projection),
                              .pitch = Pitch::in_12(pitch),
                              .eave_overhang = in(out),
                              .rake_overhang = in(rake),
                              .bearing_height = in(wall - 4),
                              .heel = in(4)});
        plan += 2 * half * (projection + rake - w.overhang);
    }
    return {gable_with_wings(roof), ridge, eaves, plan, 0.0};
}

inline DrawnRoof l_at_random(SeededNumbers& random) {
    const Walls w{random};
    const double pitch = in_12(random, 2, 12);
    const bool equal = random.coin();
    const double wing_pitch = equal ? pitch : in_12(random, 2, 12);
    const double wing_width =
        equal && random.coin() && w.width < 0.8 * w.length ? w.width : random.between(0.2, 0.8) * w.length;
    const double projection = random.between(60, 400);
    const double eave = w.wall() - w.overhang * pitch / 12;
    const double main_ridge = eave + (w.width / 2 + w.overhang) * pitch / 12;
    const double wing_ridge = eave + (wing_width / 2 + w.overhang) * wing_pitch / 12;
    if (main_ridge - eave > 0.95 * w.length * wing_pitch / 12 ||
        wing_ridge - eave > 0.95 * (w.width + projection) * pitch / 12) {
        return l_at_random(random);  // the hip would reach past a gable wall
    }
    const ComposedRoof roof = l_roof({.main = main_of(w, pitch),
                                      .wing_width = in(wing_width),
                                      .projection = in(projection),
                                      .wing_pitch = Pitch::in_12(wing_pitch)});
    return {roof,
            std::max(main_ridge, wing_ridge),
            {eave},
            (w.length + w.rake + w.overhang) * (w.width + 2 * w.overhang) +
                (wing_width + 2 * w.overhang) * (projection + w.rake - w.overhang),
            0.0};
}

struct Kind {
    const char* name;
    DrawnRoof (*draw)(SeededNumbers&);
};
inline const std::vector<Kind>& kinds() {
    static const std::vector<Kind> all{{"gable of unequal pitches", unequal},
                                       {"gambrel", gambrel_at_random},
                                       {"monitor", monitor_at_random},
                                       {"hip", hip_at_random},
                                       {"Dutch gable", dutch_at_random},
                                       {"jerkinhead", jerkinhead_at_random},
                                       {"porch tied to wall or eave", tied_porch},
                                       {"porch breaking pitch", breaking_porch},
                                       {"wrap-around porch", wrapping_porch},
                                       {"gable with wings", winged},
                                       {"L", l_at_random}};
    return all;
}
}  // namespace drawn
