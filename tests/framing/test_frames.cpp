// SPDX-License-Identifier: BSL-1.0

// Where frames stand: equal bays, bays at most, frames as measured, seen from either eave.

#include <eavewright/framing/frames.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"
#include "support/table.hpp"

#include "framing_planes.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("six equal bays of 60 ft: end frames flush with the end walls") {
    const FrameLines frames =
        frame_lines({.spacing = EqualBays{6}}, {.length = 60_ft, .rake_overhang = 12_in}, SeenFrom::front);
    CHECK(frames.centres == std::vector<Length>{12.75_in, 132_in, 252_in, 372_in, 492_in, 612_in, 731.25_in});
    CHECK(frames.wall_left == 12_in);
    CHECK(frames.wall_right == 732_in);
    CHECK(frames.plane_left == no_length);
    CHECK(frames.plane_right == 744_in);
    CHECK(frames.barge_width == 1.5_in);
    CHECK(frame_lines({.spacing = EqualBays{6}}, {.length = 60_ft, .rake_overhang = no_length}, SeenFrom::front)
              .barge_width == no_length);  // no overhang, no barge
}

TEST_CASE("bays at most: as few as keep each within, one fewer would not") {
    SeededNumbers random{31};
    for (int i = 0; i < sweep(2000); ++i) {
        const Length length = random.inches_between(240, 2400);
        const Length bay = random.inches_between(24, 200);
        const FrameLines frames =
            frame_lines({.spacing = BaysAtMost{bay}}, {.length = length, .rake_overhang = 6_in}, SeenFrom::front);
        const auto bays = static_cast<double>(frames.centres.size() - 1);
        CHECK(length / bays <= bay + count_tolerance);
        CHECK((bays == 1.0 || length / (bays - 1.0) > bay));
        CHECK(off_by(frames.centres.front() - frames.chord_width / 2.0, frames.wall_left) < 1e-12);
        CHECK(off_by(frames.centres.back() + frames.chord_width / 2.0, frames.wall_right) < 1e-9);
        for (std::size_t f = 1; f + 1 < frames.centres.size(); ++f) {
            CHECK(off_by(frames.centres[f], 6_in + length * (static_cast<double>(f) / bays)) < 1e-9);
        }
    }
    CHECK(frame_lines({.spacing = BaysAtMost{8_ft}}, {.length = 64_ft, .rake_overhang = no_length}, SeenFrom::front)
              .centres.size() == 9);  // an exact fit is not one more
}

TEST_CASE("posts that stand as they were built, seen from both eaves") {
    std::vector<Length> left;
    std::vector<Length> right;
    for (const TableRow& row : read_table("asbuilt_post_bays.csv")) {
        left.push_back(one_inch * std::stod(row.at("left_station_in")));
        right.push_back(one_inch * std::stod(row.at("right_station_in")));
        CHECK(off_by(left.back() - right.back(), one_inch * std::stod(row.at("left_minus_right_in"))) == 0.0);
    }
    REQUIRE(left.size() == 6);
    const FrameLines front =
        frame_lines({.spacing = FramesAt{left}}, {.length = 56_ft, .rake_overhang = 12_in}, SeenFrom::front);
    const FrameLines back =
        frame_lines({.spacing = FramesAt{right}}, {.length = 56_ft, .rake_overhang = 12_in}, SeenFrom::back);
    for (std::size_t f = 0; f < 6; ++f) {
        CHECK(front.centres[f] == left[f] + 12_in);
        CHECK(back.centres[f] == 696_in - (right[5 - f] + 12_in));
    }
    // The bays of the page come back: 120 144 144 144 119.5, and the right side's from its other end.
    CHECK(front.centres[1] - front.centres[0] == 120_in);
    CHECK(front.centres[5] - front.centres[4] == 119.5_in);
    CHECK(back.centres[1] - back.centres[0] == 121.75_in);
    CHECK(back.centres[5] - back.centres[4] == 117_in);
}

TEST_CASE("mirrored twice is where it was") {
    SeededNumbers random{32};
    for (int i = 0; i < sweep(500); ++i) {
        const FramePlan plan{.spacing = EqualBays{random.whole(1, 12)}};
        const Length length = random.inches_between(400, 1000);
        const FrameLines front = frame_lines(plan, {.length = length, .rake_overhang = 10_in}, SeenFrom::front);
        const FrameLines back = frame_lines(plan, {.length = length, .rake_overhang = 10_in}, SeenFrom::back);
        for (std::size_t f = 0; f < front.centres.size(); ++f) {
            const Length twice = back.plane_right - back.centres[back.centres.size() - 1 - f];
            CHECK(off_by(twice, front.centres[f]) < 1e-9);
        }
    }
}

TEST_CASE("chords and barge rafters as supports") {
    const ChordPlane plane = gable({.width = 36_ft,
                                    .length = 60_ft,
                                    .pitch = Pitch::in_12(4),
                                    .eave_overhang = 18_in,
                                    .rake_overhang = 12_in,
                                    .build_up = {no_length},
                                    .bearing_height = 0_in,
                                    .heel = 6_in})
                                 .slopes[0]
                                 .chord;
    const FrameLines frames =
        frame_lines({.spacing = EqualBays{30}}, {.length = 60_ft, .rake_overhang = 12_in}, SeenFrom::front);
    const auto supports = supports_of(frames, plane);
    CHECK(supports.run == SupportRun::up_slope);
    REQUIRE(supports.lines.size() == 33);
    CHECK(supports.lines.front().centreline[0].along == 0.75_in);
    CHECK(supports.lines.back().centreline[0].along == 743.25_in);
    CHECK(supports.lines[1].centreline[1].up == plane.outline[2].up);
    CHECK(off_by(supports.spacing, 718.5_in / 30.0) < 1e-12);
    CHECK(check(supports, "supports").empty());
}

TEST_CASE("frames that are refused") {
    const auto lay = [](const FrameSpacing& spacing, Length length = 60_ft, Length rake = 12_in) {
        return refusal_of([&] {
            (void)frame_lines({.spacing = spacing}, {.length = length, .rake_overhang = rake}, SeenFrom::front);
        });
    };
    CHECK(lay(EqualBays{6}).path == "no fault");
    CHECK(lay(EqualBays{0}).path == "frames.bays");
    CHECK(lay(EqualBays{-3}).path == "frames.bays");
    CHECK(lay(EqualBays{1001}).path == "frames.bays");
    CHECK(lay(EqualBays{500}).code == FaultCode::does_not_fit);
    CHECK(lay(BaysAtMost{1_in}).path == "frames.bay_at_most");
    CHECK(lay(FramesAt{{0_in}}).path == "frames.centres");
    CHECK(lay(FramesAt{{0_in, 1_in}}).code == FaultCode::out_of_order);
    CHECK(lay(FramesAt{{0_in, 300_in, 200_in}}).path == "frames.centres[2]");
    CHECK(lay(FramesAt{{0_in, 800_in}}).code == FaultCode::does_not_fit);  // 80 in past the wall, 68 past the rake
    CHECK(lay(FramesAt{{-60_in, 700_in}}).code == FaultCode::does_not_fit);
    for (const Length none : lengths_that_are_none()) {
        CHECK(lay(BaysAtMost{none}).path == "frames.bay_at_most");
        CHECK(lay(FramesAt{{0_in, none}}).path == "frames.centres[1]");
        CHECK(lay(EqualBays{6}, none).path == "frames.wall.length");
        CHECK(lay(BaysAtMost{10_ft}, none).path == "frames.wall.length");
        CHECK(lay(EqualBays{6}, 60_ft, none).path == "frames.wall.rake_overhang");
    }
    CHECK(lay(EqualBays{6}, -60_ft).path == "frames.wall.length");
    CHECK(refusal_of([] {
              (void)frame_lines({.spacing = EqualBays{6}, .chord_width = no_length},
                                {.length = 60_ft, .rake_overhang = 0_in}, SeenFrom::front);
          }).path == "frames.chord_width");
}

TEST_CASE("supports that are refused") {
    using Lines = std::vector<SupportLine>;
    const auto faults_of = [](const Lines& lines, Length spacing = 24_in) {
        const Supports<Surface::purlin_top> supports{SupportRun::along_eave, lines, spacing};
        const Faults faults = check(supports, "supports");
        return faults.empty() ? std::string{} : faults.front().path;
    };
    const SupportLine low{{{0_in, 10_in}, {100_in, 10_in}}, 1.5_in};
    const SupportLine high{{{0_in, 30_in}, {100_in, 30_in}}, 1.5_in};
    CHECK(faults_of({low, high}).empty());
    CHECK(faults_of({high, low}) == "supports.lines[1]");
    CHECK(faults_of({{{{0_in, 10_in}, {100_in, 40_in}}, 1.5_in}, high}) == "supports.lines[1]");  // they cross
    CHECK(faults_of({{{{0_in, 10_in}}, 1.5_in}}) == "supports.lines[0].centreline");
    CHECK(faults_of({{{{9_in, 10_in}, {9_in, 10_in}}, 1.5_in}}) == "supports.lines[0].centreline[1]");
    CHECK(faults_of({{{{0_in, 10_in}, {9_in, 10_in}}, no_length}}) == "supports.lines[0].width");
    CHECK(faults_of({low}, -1_in) == "supports.spacing");
    for (const Length none : lengths_that_are_none()) {
        CHECK(faults_of({{{{0_in, none}, {9_in, 10_in}}, 1.5_in}}) == "supports.lines[0].centreline[0]");
        CHECK(faults_of({low}, none) == "supports.spacing");
    }
}

TEST_CASE("a bent line is read straight between its points and carried on past its ends") {
    const std::vector<PlanePoint> line{{0_in, 10_in}, {10_in, 12_in}, {30_in, 8_in}, {40_in, 9_in}};
    CHECK(up_at(line, -10_in) == 8_in);
    CHECK(up_at(line, 0_in) == 10_in);
    CHECK(up_at(line, 5_in) == 11_in);
    CHECK(up_at(line, 10_in) == 12_in);
    CHECK(up_at(line, 20_in) == 10_in);
    CHECK(up_at(line, 30_in) == 8_in);
    CHECK(off_by(up_at(line, 60_in), 11_in) < 1e-12);
}

TEST_CASE("frames: measured to the girts, the end frames are flush with the posts behind them") {
    // 60 ft out to out of 1 1/2 in girts, 12 in rakes: posts from 12 + 1.5 in; the first chord's centre 0.75 in inside.
    const EaveWall wall{.length = 60_ft, .rake_overhang = 12_in, .post_inset = 1.5_in};
    const FrameLines frames = frame_lines({.spacing = EqualBays{6}}, wall, SeenFrom::front);
    CHECK(frames.centres.front() == 14.25_in);
    CHECK(frames.centres.back() == 744_in - 14.25_in);
    CHECK(off_by(frames.centres[3], 372_in) < 1e-9);
}
