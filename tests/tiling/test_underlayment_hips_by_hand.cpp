// SPDX-License-Identifier: BSL-1.0

// Underlayment round hips, valleys, notches and skylights, worked by hand.

#include <eavewright/tiling/underlayment_as_laid.hpp>

#include "support/printing.hpp"

#include "any_planes.hpp"
#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
DeckPlane deck(std::vector<PlanePoint> outline, std::vector<EdgeKind> edges,
               std::vector<std::vector<PlanePoint>> openings = {}) {
    return {Pitch::in_12(6),
            std::move(outline),
            std::move(edges),
            std::move(openings),
            {{no_length, no_length, no_length}, 1.0, 0.0}};
}
UnderlaymentPlan single_coverage() { return {.roll = {.length = 144_ft}, .rule = SingleCoverage{}}; }
std::vector<PlanePoint> box(Length left, Length low, Length right, Length high) {
    return {{left, low}, {right, low}, {right, high}, {left, high}};
}

struct End {
    Length left;
    Length right;
    Length low;
    Length high;
};
/// The pieces of a layout without end laps, in order.
void check_pieces(const Underlayment& laid, const std::vector<End>& ends) {
    REQUIRE(laid.pieces.size() == ends.size());
    CHECK(laid.end_laps.empty());
    for (std::size_t i = 0; i < ends.size(); ++i) {
        CAPTURE(i);
        CHECK(off_by(laid.pieces[i].left, ends[i].left) < 1e-9);
        CHECK(off_by(laid.pieces[i].right, ends[i].right) < 1e-9);
        CHECK(off_by(laid.pieces[i].low, ends[i].low) < 1e-9);
        CHECK(off_by(laid.pieces[i].high, ends[i].high) < 1e-9);
    }
}
const DeckPlane hip_end =
    deck({{0_in, 0_in}, {240_in, 0_in}, {120_in, 150_in}}, {EdgeKind::eave, EdgeKind::hip, EdgeKind::hip});
/// The valley runs 84 along and 112 up, so 140: 3-4-5.
const DeckPlane beside_valley = deck({{0_in, 0_in}, {240_in, 0_in}, {324_in, 112_in}, {0_in, 112_in}},
                                     {EdgeKind::eave, EdgeKind::valley, EdgeKind::ridge, EdgeKind::rake});
}  // namespace

TEST_CASE("underlayment by hand: a hip end") {
    // 150 in and 6 over the peak: (156 - 2) / 34 = 4.53 -> 5 courses, the last ripped to 156 - 4 x 34 = 20.
    // The hips lean 120 in 150, 0.8 in an inch. A course is longest at its lower edge, 34 k, and goes 6 past each hip:
    //   0.8 x 34 = 27.2 - 6 = 21.2;  54.4 - 6 = 48.4;  81.6 - 6 = 75.6;  108.8 - 6 = 102.8; right ends 240 less those.
    const UnderlaymentPlan plan = single_coverage();
    const Underlayment laid = lay_underlayment(hip_end, plan);
    check_pieces(laid, {{-6_in, 246_in, 0_in, 36_in},
                        {21.2_in, 218.8_in, 34_in, 70_in},
                        {48.4_in, 191.6_in, 68_in, 104_in},
                        {75.6_in, 164.4_in, 102_in, 138_in},
                        {102.8_in, 137.2_in, 136_in, 156_in}});
    // 252 + 197.6 + 143.2 + 88.8 + 34.4 = 716 of the 1728 in roll.
    CHECK(laid.rolls == 1);
    CHECK(off_by(laid.laid, 716_in) < 1e-9);
    CHECK(off_by(laid.left_over, 1012_in) < 1e-9);
    CHECK(laid.findings.empty());
    // Head laps on the plane, 2 in high, as long as the plane is at their middle, 240 - 1.6 x up:
    //   2 x (240 - 56) + 2 x (240 - 110.4) + 2 x (240 - 164.8) + 2 x (240 - 219.2) = 819.2
    const UnderlaymentAsLaid cover = underlayment_as_laid(hip_end, plan);
    CHECK(std::fabs(square_inches(cover.head_laps) - 819.2) < 1e-9);
    CHECK(square_inches(cover.on_strips) == 0.0);
    // The first piece on the plane: 36 x (240 + 240 - 57.6) / 2 = 7603.2.
    CHECK(std::fabs(square_inches(cover.pieces[0].area) - 7603.2) < 1e-9);
    double all = 0.0;
    for (const RollPieceAsLaid& piece : cover.pieces) {
        all += square_inches(piece.area);
    }
    CHECK(std::fabs(all - 18000.0 - 819.2) < 1e-8);
    // The hips do not reach the top side by side with the eave's corners: 120 along for 150 up, sqrt(41) / 5 in an inch.
    CHECK(off_by(laid.marks[1].left, 43.5625_in) < 1e-9);  // 34 x 1.280625 = 43.541 -> 43 9/16
    CHECK(laid.marks[1].right == laid.marks[1].left);
}

TEST_CASE("underlayment by hand: beside a valley") {
    // The strip lies 18 in on the plane, courses lap it by 6: they end 12 from the valley's line, along the course
    // 12 / 0.8 = 15 in. At its upper edge a course would reach 240 + 0.75 x 36 = 267; so 252. Then 240 + 0.75 x 70 - 15 =
    // 277.5 and 240 + 0.75 x 104 - 15 = 303. The last goes over the ridge, which runs to 324.
    UnderlaymentPlan plan = single_coverage();
    const Underlayment laid = lay_underlayment(beside_valley, plan);
    check_pieces(laid, {{0_in, 252_in, 0_in, 36_in},
                        {0_in, 277.5_in, 34_in, 70_in},
                        {0_in, 303_in, 68_in, 104_in},
                        {0_in, 324_in, 102_in, 118_in}});
    // Left to the strip: three triangles. From where the valley passes the end of a course, (252 - 240) / 0.75 = 16, to where
    // the next begins, 34: 18 high, 13.5 long, 121.5.
    CHECK(std::fabs(square_inches(underlayment_as_laid(beside_valley, plan).on_strips) - 3.0 * 121.5) < 1e-9);
    // Carried over the line by 6 in:
    plan.valley = ValleyCourses::past_line;
    check_pieces(lay_underlayment(beside_valley, plan), {{0_in, 273_in, 0_in, 36_in},
                                                         {0_in, 298.5_in, 34_in, 70_in},
                                                         {0_in, 324_in, 68_in, 104_in},
                                                         {0_in, 330_in, 102_in, 118_in}});
    CHECK(square_inches(underlayment_as_laid(beside_valley, plan).on_strips) == 0.0);
    // Two layers are two layers at the valley too: the starter, 19 in high, reaches its line, 240 + 14.25.
    plan.valley = ValleyCourses::onto_strip;
    plan.rule = HalfLap{};
    const Underlayment twice = lay_underlayment(beside_valley, plan);
    CHECK(twice.courses[0].right == 254.25_in);
    CHECK(twice.courses[1].right == 267_in);
    CHECK(square_inches(underlayment_as_laid(beside_valley, plan).on_strips) == 0.0);
}

TEST_CASE("underlayment by hand: skylights in one course, across two, and higher than a course") {
    UnderlaymentPlan plan = single_coverage();
    plan.ridge_wrap = 0_in;  // 104 in: three courses, 34 x 2 + 36
    const std::vector<EdgeKind> edges{EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake};
    const DeckPlane in_one = deck(box(0_in, 0_in, 480_in, 104_in), edges, {box(100_in, 8_in, 124_in, 28_in)});
    const DeckPlane in_two = deck(in_one.outline, edges, {box(200_in, 20_in, 224_in, 60_in)});
    const DeckPlane high = deck(in_one.outline, edges, {box(300_in, 30_in, 330_in, 80_in)});
    const std::vector<End> across{
        {0_in, 480_in, 0_in, 36_in}, {0_in, 480_in, 34_in, 70_in}, {0_in, 480_in, 68_in, 104_in}};
    check_pieces(lay_underlayment(in_one, plan), across);
    check_pieces(lay_underlayment(in_two, plan), across);
    // 24 x 20 is cut out of the first course, 480 x 36; it is a hole in it.
    const UnderlaymentAsLaid one = underlayment_as_laid(in_one, plan);
    CHECK(std::fabs(square_inches(one.pieces[0].area) - (480.0 * 36.0 - 24.0 * 20.0)) < 1e-9);
    REQUIRE(one.pieces[0].parts.size() == 1);
    CHECK(one.pieces[0].parts[0].cutouts.size() == 1);
    CHECK(std::fabs(square_inches(one.head_laps) - 2.0 * 480.0 * 2.0) < 1e-9);
    // Across two: 24 x (36 - 20) off the first, 24 x (60 - 34) off the second, and 24 x 2 of their lap is in it.
    const UnderlaymentAsLaid two = underlayment_as_laid(in_two, plan);
    CHECK(std::fabs(square_inches(two.pieces[0].area) - (480.0 * 36.0 - 24.0 * 16.0)) < 1e-9);
    CHECK(std::fabs(square_inches(two.pieces[1].area) - (480.0 * 36.0 - 24.0 * 26.0)) < 1e-9);
    CHECK(std::fabs(square_inches(two.head_laps) - (2.0 * 480.0 * 2.0 - 24.0 * 2.0)) < 1e-9);
    // From 30 to 80: cut 4 in smaller, 304 to 326 and 34 to 76, it parts the second course from its lower edge on.
    const Underlayment parted = lay_underlayment(high, plan);
    check_pieces(parted, {{0_in, 480_in, 0_in, 36_in},
                          {0_in, 304_in, 34_in, 70_in},
                          {326_in, 480_in, 34_in, 70_in},
                          {0_in, 480_in, 68_in, 104_in}});
    CHECK(parted.courses[1].left == 0_in);
    CHECK(parted.courses[1].right == 480_in);
    // With 7 in turned up, 307 to 323 and 37 to 73, the second course runs below it too and is cut out.
    plan.turn_up = 7_in;
    check_pieces(lay_underlayment(high, plan), across);
    // From the right the pieces of a course come in the other order.
    plan.turn_up = 4_in;
    plan.start = StartCorner::eave_right;
    CHECK(lay_underlayment(high, plan).pieces[1].left == 326_in);
}

TEST_CASE("underlayment by hand: a notch, its courses line up on both sides") {
    //        ____________________________ 98
    //       |                            |
    //       |        ________            |
    //       |       |  50    |           |
    //       |_______|        |___________|
    //       0     100      250         400
    UnderlaymentPlan plan = single_coverage();
    const DeckPlane plane = deck({{0_in, 0_in},
                                  {100_in, 0_in},
                                  {100_in, 50_in},
                                  {250_in, 50_in},
                                  {250_in, 0_in},
                                  {400_in, 0_in},
                                  {400_in, 98_in},
                                  {0_in, 98_in}},
                                 {EdgeKind::eave, EdgeKind::rake, EdgeKind::eave, EdgeKind::wall, EdgeKind::eave,
                                  EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
    // 98 + 6: (104 - 2) / 34 = 3. The wall at 250 is on the right one's left, 4 in turned up it.
    check_pieces(lay_underlayment(plane, plan), {{0_in, 100_in, 0_in, 36_in},
                                                 {246_in, 400_in, 0_in, 36_in},
                                                 {0_in, 400_in, 34_in, 70_in},
                                                 {0_in, 400_in, 68_in, 104_in}});
}

TEST_CASE("underlayment by hand: a lower ridge ends its courses, a higher eave begins them later") {
    UnderlaymentPlan plan = single_coverage();
    plan.ridge_wrap = 0_in;
    const auto plane_with = [](Length eave, Length ridge) {
        return deck({{0_in, 0_in},
                     {100_in, 0_in},
                     {100_in, eave},
                     {200_in, eave},
                     {200_in, 138_in},
                     {100_in, 138_in},
                     {100_in, ridge},
                     {0_in, ridge}},
                    {EdgeKind::eave, EdgeKind::rake, EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake,
                     EdgeKind::ridge, EdgeKind::rake});
    };
    // Eave at 68 and the lower ridge at 102, both on lines of courses: the third, 68 to 104, is the first on the right, and the
    // fourth is there alone. The second reaches over there: it has the lap from 68 to 70 in it, one part with its own.
    check_pieces(lay_underlayment(plane_with(68_in, 102_in), plan), {{0_in, 100_in, 0_in, 36_in},
                                                                     {0_in, 200_in, 34_in, 70_in},
                                                                     {0_in, 200_in, 68_in, 104_in},
                                                                     {100_in, 200_in, 102_in, 138_in}});
    // A low bay apart, its eave on the line of a course and its ridge within the lap: it has that course alone.
    const DeckPlane low_bay = deck({{0_in, 0_in},
                                    {100_in, 0_in},
                                    {100_in, 34_in},
                                    {110_in, 34_in},
                                    {110_in, 35.5_in},
                                    {100_in, 35.5_in},
                                    {100_in, 104_in},
                                    {0_in, 104_in}},
                                   {EdgeKind::eave, EdgeKind::rake, EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge,
                                    EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake});
    const Underlayment laid = lay_underlayment(low_bay, plan);
    CHECK(coverage_at(laid, {105_in, 34.5_in}) >= 1);
    CHECK(coverage_at(laid, {105_in, 35.4_in}) >= 1);
    // A flat triangle on the line of a course.
    plan.hip_past = 0_in;
    const DeckPlane alone =
        deck({{0_in, 34_in}, {100_in, 34_in}, {50_in, 35.5_in}}, {EdgeKind::eave, EdgeKind::hip, EdgeKind::hip});
    const Underlayment flat = lay_underlayment(alone, plan);
    check_pieces(flat, {{0_in, 100_in, 34_in, 35.5_in}});
    CHECK(flat.courses[0].low == 34_in);  // from the lowest eave, wherever that lies
}
