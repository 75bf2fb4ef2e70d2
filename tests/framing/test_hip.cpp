// SPDX-License-Identifier: BSL-1.0

// Hips and valleys, regular or not: printed tables and examples, and planes built from scratch.

#include <eavewright/framing/hip.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"
#include "support/table.hpp"

#include "member_checks.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
HipPlanes regular(double rise) { return {.pitch_a = Pitch::in_12(rise), .pitch_b = Pitch::in_12(rise)}; }
HipRafter plain(const HipPlanes& planes, Length run) {
    return {.planes = planes,
            .run_a = run,
            .overhang_a = no_length,
            .depth = 7.25_in,
            .height_above_plate = 5_in,
            .fascia_thickness = no_length};
}
Length sixteenth(Length length) { return round_to_tick(length, Tick::of_inch(16)); }
double deg(CutAngle cut) { return degrees(cut.angle()); }
double short_of_square(double angle) { return angle > 90.0 ? 180.0 - angle : angle; }
}  // namespace

TEST_CASE("second and sixth line of the framing square") {
    for (const TableRow& row : read_table("rafter_square_table.csv")) {
        const HipRafterFigures hip = hip_rafter(plain(regular(std::stod(row.at("rise_in_per_12"))), 12_in));
        check_cell(row, "hip_exact_in", inches(hip.line_length));
        check_cell(row, "hip_2dp_in", inches(hip.line_length));
        check_cell(row, "sidecut_hip_exact_in_on_12", *hip.head_cheek_a.in_12());
        check_mark(row, "sidecut_hip_nearest_16th", *hip.head_cheek_a.in_12());
    }
    CHECK(hip_rafter(plain(regular(6), 12_in)).line_length == 18_in);  // without rounding
    CHECK(off_by(hip_rafter(plain(regular(14), 12_in)).line_length, 22_in) < 1e-13);
}

TEST_CASE("printed entries of the second line") {
    // 17.09, 17.23, 17.44 at 2, 3, 4 in 12 (Osborne, Rafter Tables); 18.00 at 6 (steel square article); 18.76 at 8
    // (NAVEDTRA 14044); 19 1/4 and 19 3/4 at 9 and 10 (Hodgson); 20 13/16 at 12 (Griffith): to the digit or the
    // fraction.
    const auto hip = [](double rise) { return hip_rafter(plain(regular(rise), 12_in)).line_length; };
    CHECK(std::fabs(inches(hip(2)) - 17.09) < 0.0051);
    CHECK(std::fabs(inches(hip(3)) - 17.23) < 0.0051);
    CHECK(std::fabs(inches(hip(4)) - 17.44) < 0.0051);
    CHECK(std::fabs(inches(hip(8)) - 18.76) < 0.0051);
    CHECK(round_to_tick(hip(9), Tick::of_inch(4)) == 19.25_in);
    CHECK(round_to_tick(hip(10), Tick::of_inch(4)) == 19.75_in);
    CHECK(sixteenth(hip(12)) == 20.8125_in);
}

TEST_CASE("angles of regular hips, to the last printed digit") {
    // The table's columns of side cuts are headed off square across; their figures (12 and C, 17 and H, marked on the
    // longer one) are the angle off the length, which is what is compared.
    for (const TableRow& row : read_table("regular_hip_angles.csv")) {
        const double rise = std::stod(row.at("rise_in_per_12"));
        HipRafter in = plain(regular(rise), 10_ft);
        const HipRafterFigures hip = hip_rafter(in);
        check_cell(row, "pitch_deg", degrees(in.planes.pitch_a.angle()));
        check_cell(row, "hip_slope_deg", deg(hip.plumb_cut));
        check_cell(row, "backing_deg_each_side", deg(hip.line.backing_a));
        check_cell(row, "backing_deg_each_side", deg(hip.line.backing_b));
        check_cell(row, "dihedral_deg", deg(hip.line.dihedral));
        check_cell(row, "hip_side_cut_deg_unbacked", deg(hip.head_cheek_a));
        check_cell(row, "backing_depth_in_for_1.5in", inches(hip.backing_depth_a));
        check_cell(row, "hip_drop_plumb_in_for_1.5in", inches(hip.drop));
        CHECK(off_by(hip.shift_to_a, no_length) < 1e-12);
    }
}

TEST_CASE("angles of irregular hips, to the last printed digit") {
    for (const TableRow& row : read_table("irregular_hip_angles.csv")) {
        const HipLine line = hip_line({.pitch_a = Pitch::in_12(std::stod(row.at("riseA_in_per_12"))),
                                       .pitch_b = Pitch::in_12(std::stod(row.at("riseB_in_per_12")))});
        check_cell(row, "planA_deg", deg(line.plan_a));
        check_cell(row, "planB_deg", deg(line.plan_b));
        check_cell(row, "hip_slope_deg", degrees(line.pitch.angle()));
        check_cell(row, "backingA_deg", deg(line.backing_a));
        check_cell(row, "backingB_deg", deg(line.backing_b));
        check_cell(row, "dihedral_deg", deg(line.dihedral));
        check_cell(row, "hip_plan_run_in_per_12_run_A", 12.0 * line.plan_per_run_a);
        check_cell(row, "hip_length_in_per_12_run_A", 12.0 * line.length_per_run_a);
    }
}

TEST_CASE("worked examples of hips") {
    HipRafter tail = plain(regular(8), 12_ft);
    tail.overhang_a = 18_in;
    check_example("R9", inches(hip_rafter(tail).tail_line));
    // Hodgson, Figs. 86-90: span 24 ft, rise 10 ft, side run 12, end run 16.
    const HipRafterFigures irregular = hip_rafter(plain(
        {.pitch_a = Pitch::from_rise_and_run(10_ft, 12_ft), .pitch_b = Pitch::from_rise_and_run(10_ft, 16_ft)}, 12_ft));
    check_example("R23", inches(irregular.plan_run));
    check_example("R26", inches(irregular.line_length));
    CHECK(off_by(irregular.run_b, 16_ft) < 1e-12);
    check_example("R29", inches(hip_rafter(plain(regular(9), 13_ft + 6_in)).line_length));
    check_example("R31", inches(hip_rafter(plain(regular(6), 11_ft + 3_in)).line_length));
    // Its plumb cut: rise 8 on 16.97 of run leaves a blank longer by depth times the hip's pitch.
    const HipRafterFigures blank = hip_rafter(plain(regular(8), 12_ft));
    CHECK(off_by(blank.blank_length - blank.cut_length, one_inch * (7.25 * 8.0 / std::sqrt(288.0))) < 1e-12);
    check_example("R33", inches(hip_rafter(plain(regular(10), 10_ft)).plan_run));
    check_example("R34", inches(hip_rafter(plain(regular(10), 10_ft)).line_length));
    check_example("R37", inches(hip_rafter(plain(regular(8), 12_ft)).head_deduction));
    HipRafter between = plain(regular(8), 12_ft);
    between.head = HipHead::ridge_end_commons;
    check_example("R39", inches(hip_rafter(between).head_deduction));
    check_example("R43", deg(hip_line(regular(6)).backing_a));
    check_example("R44", inches(hip_ridge_board(40_ft, 24_ft, 1.5_in, 1.5_in)));
}

TEST_CASE("an octagon's corner of 135 deg") {
    const HipPlanes planes{
        .pitch_a = Pitch::in_12(9), .pitch_b = Pitch::in_12(9), .corner = PlanCorner::from_degrees(135)};
    check_example("R40", 12.0 / hip_line(planes).plan_a.tangent());
    check_example("R42", 12.0 * hip_line(planes).plan_per_run_a);
    // From a tape: 2 ft along both walls, 2 x 24 x sin 67.5 across.
    const PlanCorner taped = PlanCorner::from_sides(2_ft, 2_ft, one_inch * (48.0 * std::sin(67.5 * pi / 180.0)));
    CHECK(std::fabs(degrees(taped.angle()) - 135.0) < 1e-9);
}

TEST_CASE("plates at a corner of two pitches") {
    // Equal 12 in overhangs at 6 and 12 in 12 want a step of 6 in; level plates want 24 in against 12.
    const HipPlanes planes{.pitch_a = Pitch::in_12(6), .pitch_b = Pitch::in_12(12)};
    const CornerOverhangFigures equal = corner_overhang({.planes = planes, .overhang_a = 12_in, .overhang_b = 12_in});
    check_example("R47", inches(equal.plate_step));
    const CornerOverhangFigures level = corner_overhang({.planes = planes, .overhang_a = 24_in});
    CHECK(level.overhang_b == 12_in);
    CHECK(level.plate_step == no_length);
    CHECK(level.hip_off_corner == no_length);
    CHECK(off_by(level.plan_to_plate_a, level.plan_to_plate_b) < 1e-12);
}

TEST_CASE("known misprints, beside the exact figures") {
    // Griffith: 12.5 x 20.78 = 259.75 in for a hip at 12 in 12 over 12 1/2 ft; exact 259.8076 = 21 ft 7 13/16 in.
    const Length griffith = hip_rafter(plain(regular(12), 12.5_ft)).line_length;
    CHECK(std::fabs(inches(griffith) - 259.8076) < 0.51e-4);
    CHECK(sixteenth(griffith) == 21_ft + 7.8125_in);
    // The Carpenter: hip of 10 ft at 10 in 12 as 16 ft 4 7/8 in, its run as 14 ft 1 5/8 in; exact 16 ft 5 in, 14 ft 1
    // 11/16.
    const HipRafterFigures ten = hip_rafter(plain(regular(10), 10_ft));
    CHECK(sixteenth(ten.line_length) == 16_ft + 5_in);
    CHECK(sixteenth(ten.plan_run) == 14_ft + 1.6875_in);
    // Radford vol. 3: backing at 6 in 12 by figures that read 18 and 8; they must be 18 and 6: 18.4349 deg, not 23.96.
    CHECK(std::fabs(hip_line(regular(6)).backing_a.tangent() - 6.0 / 18.0) < 1e-15);
    // Osborne: hip side cut 44.9 deg at 2 in 12, exact 44.80; plumb cut 13.2 deg at 4 in 12, exact 13.26.
    CHECK(std::fabs(deg(hip_rafter(plain(regular(2), 10_ft)).head_cheek_a) - 44.80) < 0.0051);
    CHECK(std::fabs(deg(hip_rafter(plain(regular(4), 10_ft)).plumb_cut) - 13.26) < 0.0051);
    // 17 for the hip's unit run: exact 16.9706, so that each step of 17 is 0.03 in too long.
    CHECK(std::fabs(inches(hip_rafter(plain(regular(8), 12_in)).plan_run) - 16.9706) < 0.51e-4);
}

TEST_CASE("lengths are the distance of their ends in space, angles those of the planes' normals") {
    SeededNumbers numbers{411};
    for (int i = 0; i < sweep(10000); ++i) {
        const RandomCorner random = random_corner(numbers);
        const Corner& corner = random.corner;
        const HipLine line = hip_line(random.planes);
        const double run = numbers.between(12.0, 400.0);
        const Spot top = corner.meet(run * corner.rise_a);
        CAPTURE(degrees(random.planes.corner.angle()));
        CAPTURE(random.planes.pitch_a.rise_in_12());
        CAPTURE(random.planes.pitch_b.rise_in_12());
        CHECK(std::fabs(run * line.length_per_run_a - size_of(top)) < 1e-9 * size_of(top));
        CHECK(std::fabs(run * line.plan_per_run_a - size_of({top.x, top.y, 0.0})) < 1e-9 * size_of(top));
        const double run_b = corner.off_b(top.x, top.y);
        CHECK(std::fabs(run_b * line.length_per_run_b - size_of(top)) < 1e-9 * size_of(top));
        CHECK(std::fabs(deg(line.plan_a) - std::atan2(top.y, top.x) * 180.0 / pi) < 1e-9);
        CHECK(std::fabs(deg(line.plan_a) + deg(line.plan_b) - degrees(random.planes.corner.angle())) < 1e-9);
        CHECK(std::fabs(degrees(line.pitch.angle()) - degrees_between(top, {top.x, top.y, 0.0})) < 1e-9);

        // The line is square to both normals; the planes part by the angle between the normals less than 180 deg.
        const Spot along = outer(corner.normal_a(), corner.normal_b());
        CHECK(std::fabs(std::fabs(inner(along, top)) - size_of(along) * size_of(top)) <
              1e-9 * size_of(along) * size_of(top));
        CHECK(std::fabs(deg(line.dihedral) - (180.0 - degrees_between(corner.normal_a(), corner.normal_b()))) < 1e-9);
        // Backing: from the level line across the hip to the line that the plane makes in the section square to the
        // hip.
        const Spot across{top.y, -top.x, 0.0};
        const Spot in_a = outer(corner.normal_a(), top);
        const double a = degrees_between(across, in_a);
        CHECK(std::fabs((a > 90.0 ? 180.0 - a : a) - std::fabs(deg(line.backing_a))) < 1e-8);
        CHECK((deg(line.backing_a) < 0.0) == (line.drop_per_offset_a < 0.0));
        // The plane's fall beside the hip: both planes are one inch lower on their own side by the drop per offset.
        const double flat = size_of({top.x, top.y, 0.0});
        const double beside_a = corner.rise_a * corner.off_a(top.x + top.y / flat, top.y - top.x / flat);
        CHECK(std::fabs(top.z - beside_a - line.drop_per_offset_a) < 1e-9 * (1.0 + top.z));
        const double beside_b = corner.rise_b * corner.off_b(top.x - top.y / flat, top.y + top.x / flat);
        CHECK(std::fabs(top.z - beside_b - line.drop_per_offset_b) < 1e-9 * (1.0 + top.z));
    }
}

TEST_CASE("an irregular hip of equal pitches is a regular one, and either side may be called A") {
    SeededNumbers numbers{412};
    for (int i = 0; i < sweep(2000); ++i) {
        const Pitch pitch = Pitch::in_12(numbers.between(1.0, 24.0));
        const HipLine line = hip_line({.pitch_a = pitch, .pitch_b = pitch});
        CHECK(std::fabs(line.length_per_run_a - pitch.hip_valley_factor()) < 1e-12 * pitch.hip_valley_factor());
        CHECK(std::fabs(deg(line.plan_a) - 45.0) < 1e-10);
        CHECK(std::fabs(line.backing_a.tangent() - line.pitch.sine()) < 1e-12);

        const RandomCorner random = random_open_corner(numbers);
        const HipRafterFigures one = hip_rafter(plain(random.planes, 10_ft));
        HipRafter other = plain(other_side(random.planes), one.run_b);
        if (one.run_b > longest_building) {
            continue;
        }
        other.head = HipHead::ridge_end_commons;
        const HipRafterFigures two = hip_rafter(other);
        CHECK(off_by(two.line_length, one.line_length) < 1e-9);
        CHECK(off_by(two.side_drop_a, one.side_drop_b) < 1e-12);
        CHECK(off_by(two.shift_to_a, -one.shift_to_a) < 1e-12);
        CHECK(off_by(two.shifted_drop, one.shifted_drop) < 1e-12);
        CHECK(std::fabs(deg(two.tail_cheek_a) - deg(one.tail_cheek_b)) < 1e-9);
    }
}

TEST_CASE("a hip lowered by its drop stays under both planes, shifted it lies in both") {
    SeededNumbers numbers{413};
    for (int i = 0; i < sweep(4000); ++i) {
        const RandomCorner random = random_open_corner(numbers);
        const Corner& corner = random.corner;
        HipRafter in = plain(random.planes, 10_ft);
        in.thickness = numbers.inches_between(0.5, 6.0);
        const HipRafterFigures hip = hip_rafter(in);
        const Spot top = corner.meet(inches(hip.rise));
        const double flat = size_of({top.x, top.y, 0.0});
        // Planes over a point beside the hip, `to_a` inches to A's side of the line at the top.
        const auto roof = [&](double to_a) {
            const double x = top.x + to_a * top.y / flat;
            const double y = top.y - to_a * top.x / flat;
            const double a = corner.rise_a * corner.off_a(x, y);
            const double b = corner.rise_b * corner.off_b(x, y);
            return a < b ? a : b;
        };
        const double half = inches(in.thickness) / 2.0;
        const double dropped = top.z - inches(hip.drop);
        CHECK(dropped < roof(half) + 1e-9);
        CHECK(dropped < roof(-half) + 1e-9);
        CHECK((std::fabs(dropped - roof(half)) < 1e-9 || std::fabs(dropped - roof(-half)) < 1e-9));
        const double shift = inches(hip.shift_to_a);
        CHECK(std::fabs(top.z - inches(hip.shifted_drop) - roof(shift + half)) < 1e-9);
        CHECK(std::fabs(top.z - inches(hip.shifted_drop) - roof(shift - half)) < 1e-9);
        CHECK(hip.shifted_drop <= hip.drop + 1e-12_in);
        // A valley is not lowered: the planes stand above its sides by what they fall under a hip.
        in.kind = HipKind::valley;
        const HipRafterFigures valley = hip_rafter(in);
        CHECK(valley.drop == no_length);
        CHECK(valley.side_drop_a == hip.side_drop_a);
        CHECK(valley.cut_length == hip.cut_length);
    }
}

TEST_CASE("deductions end a hip where its line meets the faces of ridge, commons and fascia") {
    SeededNumbers numbers{414};
    for (int i = 0; i < sweep(4000); ++i) {
        const RandomCorner random = random_open_corner(numbers);
        const Corner& corner = random.corner;
        HipRafter in = plain(random.planes, 20_ft);
        in.overhang_a = 24_in;
        in.head_thickness = numbers.inches_between(0.0, 4.0);
        in.fascia_thickness = numbers.inches_between(0.0, 3.0);
        const HipRafterFigures hip = hip_rafter(in);
        const Spot ridge = corner.meet(inches(hip.rise));
        const double slope = hip.line.pitch.slope_factor();
        // Straight along the line, from the ridge down to the ridge board's face: half of it off the ridge.
        const double flat = size_of({ridge.x, ridge.y, 0.0});
        const double share = inches(hip.head_deduction) / flat;
        CHECK(std::fabs(share * ridge.y - inches(in.head_thickness) / 2.0) < 1e-9);
        // At the tail the first of both fascias' backs: both are at least a fascia inside their eave.
        const double tail = inches(hip.tail_deduction) / flat;
        const double off_a = tail * corner.off_a(ridge.x, ridge.y);
        const double off_b = tail * corner.off_b(ridge.x, ridge.y);
        CHECK(std::fabs((off_a < off_b ? off_a : off_b) - inches(in.fascia_thickness)) < 1e-9);
        CHECK(std::fabs(inches(hip.cut_length) - (inches(hip.line_length + hip.tail_line) -
                                                  slope * inches(hip.head_deduction + hip.tail_deduction))) < 1e-9);
        // Between commons the hip stops at the one it meets first; each stands square to its eave.
        in.head = HipHead::ridge_end_commons;
        const double back = inches(hip_rafter(in).head_deduction) / flat;
        const double off_common_a = back * ridge.x;
        const double off_common_b = back * (ridge.x * std::cos(corner.angle) + ridge.y * std::sin(corner.angle));
        CHECK(std::fabs((off_common_a < off_common_b ? off_common_a : off_common_b) - inches(in.head_thickness) / 2.0) <
              1e-9);
        const HipRafterFigures nose = hip_rafter(in);
        // Saws: the side of the hip on the table, cut along the ridge board or the commons.
        const Spot side{ridge.y, -ridge.x, 0.0};
        const auto check_saw = [&](const SawSetting& saw, Spot face) {
            const Spot mark = outer(face, side);
            CHECK(std::fabs(deg(saw.mitre) - short_of_square(degrees_between(mark, outer(side, ridge)))) < 1e-6);
            CHECK(std::fabs(deg(saw.bevel) - (90.0 - short_of_square(degrees_between(face, side)))) < 1e-6);
        };
        check_saw(hip.head_saw_a, {0.0, 1.0, 0.0});
        check_saw(nose.head_saw_a, {1.0, 0.0, 0.0});
        check_saw(nose.head_saw_b, {std::cos(corner.angle), std::sin(corner.angle), 0.0});
        // The cheek on the level-across top: the ridge board's direction against the hip's, in that face.
        const auto check_cheek = [&](CutAngle cheek, Spot along) {
            const Spot mark = outer(outer(side, ridge), {along.y, -along.x, 0.0});
            CHECK(std::fabs(deg(cheek) - short_of_square(degrees_between(mark, ridge))) < 1e-6);
        };
        check_cheek(hip.head_cheek_a, {1.0, 0.0, 0.0});
        check_cheek(hip.head_cheek_b, {1.0, 0.0, 0.0});
        check_cheek(nose.head_cheek_a, {0.0, 1.0, 0.0});
        check_cheek(nose.head_cheek_b, {std::sin(corner.angle), -std::cos(corner.angle), 0.0});
        check_cheek(hip.tail_cheek_a, {1.0, 0.0, 0.0});
        check_cheek(hip.tail_cheek_b, {std::cos(corner.angle), std::sin(corner.angle), 0.0});
    }
}

TEST_CASE("plates off the corner of a hip") {
    SeededNumbers numbers{415};
    for (int i = 0; i < sweep(4000); ++i) {
        const RandomCorner random = random_corner(numbers);
        const Corner& corner = random.corner;
        const Length a = numbers.inches_between(0, 48);
        const Length b = numbers.inches_between(0, 48);
        const CornerOverhangFigures found =
            corner_overhang({.planes = random.planes, .overhang_a = a, .overhang_b = b});
        CHECK(std::fabs(inches(found.plate_step) - (inches(b) * corner.rise_b - inches(a) * corner.rise_a)) < 1e-9);
        // The corner of the plates, and the hip through the corner of the fascias.
        const double y = inches(a);
        const double x = (inches(b) + y * std::cos(corner.angle)) / std::sin(corner.angle);
        const Spot hip = corner.meet(100.0);
        const double flat = size_of({hip.x, hip.y, 0.0});
        CHECK(std::fabs(inches(found.hip_off_corner) - (x * hip.y - y * hip.x) / flat) < 1e-9);
        CHECK(std::fabs(inches(found.plan_to_plate_a) * hip.y / flat - y) < 1e-9);
        CHECK(std::fabs(inches(found.slope_to_plate_b) / size_of(hip) * corner.off_b(hip.x, hip.y) - inches(b)) < 1e-9);
    }
}

TEST_CASE("hips that are refused") {
    const auto refused = [](auto change) {
        HipRafter in = plain(regular(6), 10_ft);
        change(in);
        return refusal_of([&] { (void)hip_rafter(in); });
    };
    CHECK(refused([](HipRafter&) {}).path == "no fault");
    CHECK(refused([](HipRafter& in) { in.planes.pitch_b = Pitch::in_12(0); }).path == "hip.planes.pitch_b");
    CHECK(refused([](HipRafter& in) { in.run_a = 0_in; }).path == "hip.run_a");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused([&](HipRafter& in) { in.run_a = none; }).path == "hip.run_a");
        CHECK(refused([&](HipRafter& in) { in.overhang_a = none; }).path == "hip.overhang_a");
    }
    // 2 and 20 in 12 at 150 deg: the hip runs back past square to eave A.
    CHECK(refused([](HipRafter& in) {
              in.planes = {
                  .pitch_a = Pitch::in_12(2), .pitch_b = Pitch::in_12(20), .corner = PlanCorner::from_degrees(150)};
          }).code == FaultCode::not_supported);
    CHECK(refused([](HipRafter& in) {
              in.planes.pitch_a = Pitch::in_12(24);
              in.planes.pitch_b = Pitch::in_12(0.125);
              in.run_a = 200_ft;
          }).path == "hip.run_a");
    CHECK(refusal_of([] { (void)PlanCorner::from_degrees(180); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)PlanCorner::from_degrees(std::nan("")); }).code == FaultCode::not_finite);
    CHECK(refusal_of([] { (void)PlanCorner::from_sides(1_ft, 1_ft, 3_ft); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)hip_ridge_board(20_ft, 24_ft, 1.5_in, 1.5_in); }).path == "width");
    CHECK(refusal_of([] { (void)CutAngle::from_figures(0.0, 0.0); }).code == FaultCode::out_of_range);
}

TEST_CASE("a hip writes as JSON, every figure of it") {
    const std::string text = write_json(hip_rafter(plain(regular(6), 12_in)), LengthUnit::inches);
    CHECK(text.find("\"line_length\": 18,") != std::string::npos);
    CHECK(text.find("\"height_above_plate\"") != std::string::npos);
    const HipPlanes planes = regular(6);
    CHECK(write_json(corner_overhang({.planes = planes, .overhang_a = 12_in}), LengthUnit::inches)
              .find("\"overhang_b\": 12") != std::string::npos);
}
