// SPDX-License-Identifier: BSL-1.0

// Saw settings: compound charts, and cuts turned in space until they lie where the saw cuts.

#include <eavewright/framing/rake.hpp>
#include <eavewright/framing/saw.hpp>
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
double deg(CutAngle cut) { return degrees(cut.angle()); }
HipSaw sawn(const HipPlanes& planes, TailCut fascia = TailCut::plumb, HipCut cut = HipCut::plumb) {
    return {.planes = planes, .fascia = fascia, .cut = cut};
}
HipPlanes polygon(double pitch_degrees, double sides) {
    return {.pitch_a = Pitch::from_degrees(pitch_degrees),
            .pitch_b = Pitch::from_degrees(pitch_degrees),
            .corner = PlanCorner::from_degrees(180.0 - 360.0 / sides)};
}

Spot unit(Spot a) { return {a.x / size_of(a), a.y / size_of(a), a.z / size_of(a)}; }
double up_to_square(double angle) { return angle > 90.0 ? 180.0 - angle : angle; }
/// Mitre and bevel measured on the wood: the line where the cut crosses the face against the line square across it, and
/// the angle between the two planes short of square.
struct OnWood {
    double mitre;
    double bevel;
};
OnWood on_wood(Spot length, Spot face, Spot cut) {
    const Spot line = outer(cut, face);
    const Spot across = outer(face, length);
    return {up_to_square(degrees_between(line, across)), 90.0 - up_to_square(degrees_between(cut, face))};
}
void check_setting(const SawSetting& setting, OnWood wood) {
    CHECK(std::fabs(deg(setting.mitre) - wood.mitre) < 1e-6);
    CHECK(std::fabs(deg(setting.bevel) - wood.bevel) < 1e-6);
}
}  // namespace

TEST_CASE("compound settings: a board lying in the roof over a corner of an n-sided plan") {
    // atan(cos p tan(180/n)) and asin(sin p sin(180/n)), as printed charts have it: 35.26 and 30.00 at 45 deg on a
    // square, 26.57 and 14.48 at 30 deg on a hexagon.
    const HipSawSettings square = hip_saw_settings(sawn(polygon(45, 4)));
    CHECK(std::fabs(deg(square.sheet.mitre) - 35.26) < 0.0051);
    CHECK(std::fabs(deg(square.sheet.bevel) - 30.00) < 0.0051);
    const HipSawSettings hexagon = hip_saw_settings(sawn(polygon(30, 6)));
    CHECK(std::fabs(deg(hexagon.sheet.mitre) - 26.57) < 0.0051);
    CHECK(std::fabs(deg(hexagon.sheet.bevel) - 14.48) < 0.0051);
    for (const double sides : {3.0, 4.0, 5.0, 6.0, 8.0, 12.0}) {
        for (double pitch = 5.0; pitch < 80.0; pitch += 5.0) {
            const HipSawSettings saw = hip_saw_settings(sawn(polygon(pitch, sides)));
            const double p = pitch * pi / 180.0;
            const double half = pi / sides;
            CHECK(std::fabs(deg(saw.sheet.mitre) - std::atan(std::cos(p) * std::tan(half)) * 180.0 / pi) < 1e-9);
            CHECK(std::fabs(deg(saw.sheet.bevel) - std::asin(std::sin(p) * std::sin(half)) * 180.0 / pi) < 1e-9);
            CHECK(std::fabs(deg(saw.jack_on_side.mitre) - pitch) < 1e-9);
            CHECK(std::fabs(deg(saw.jack_on_side.bevel) - (90.0 - 180.0 / sides)) < 1e-9);
        }
    }
}

TEST_CASE("sheets and jacks of the table of regular hips, to the last printed digit") {
    // The column of jack cuts holds the angle off the length, though it is headed off square across.
    for (const TableRow& row : read_table("regular_hip_angles.csv")) {
        const Pitch pitch = Pitch::in_12(std::stod(row.at("rise_in_per_12")));
        const HipSawSettings saw = hip_saw_settings(sawn({.pitch_a = pitch, .pitch_b = pitch}));
        check_cell(row, "sheathing_angle_from_eave_deg", deg(saw.sheet_from_eave));
        check_cell(row, "jack_side_cut_deg", deg(saw.jack_side_cut));
        check_cell(row, "jack_side_cut_deg", deg(saw.purlin_flat.mitre));
        // A sheet's mitre off square to the eave and its angle off the eave make a right angle.
        CHECK(std::fabs(deg(saw.sheet.mitre) + deg(saw.sheet_from_eave) - 90.0) < 1e-9);
    }
}

TEST_CASE("every setting is what stands on the wood") {
    SeededNumbers numbers{431};
    for (int i = 0; i < sweep(4000); ++i) {
        const RandomCorner random = random_open_corner(numbers);
        const Corner& corner = random.corner;
        const Spot eave{1.0, 0.0, 0.0};
        const Spot up{0.0, 1.0, corner.rise_a};
        const Spot normal_a = unit(corner.normal_a());
        const Spot normal_b = unit(corner.normal_b());
        const Spot hip = corner.meet(100.0);
        const Spot plumb = outer({0.0, 0.0, 1.0}, hip);
        const HipSawSettings saw = hip_saw_settings(sawn(random.planes));
        check_setting(saw.jack_on_side, on_wood(up, eave, plumb));
        check_setting(saw.jack_on_edge, on_wood(up, normal_a, plumb));
        check_setting(saw.purlin_flat, on_wood(eave, normal_a, plumb));
        check_setting(saw.purlin_on_edge, on_wood(eave, up, plumb));
        CHECK(std::fabs(deg(saw.sheet_from_eave) - degrees_between(eave, hip)) < 1e-9);
        CHECK(std::fabs(deg(saw.jack_side_cut) - degrees_between(up, hip)) < 1e-9);

        const Spot between = normal_a - normal_b;
        const HipSawSettings halved = hip_saw_settings(sawn(random.planes, TailCut::square, HipCut::bisecting));
        if (size_of(between) > 1e-3) {
            check_setting(halved.purlin_flat, on_wood(eave, normal_a, between));
            check_setting(halved.purlin_on_edge, on_wood(eave, up, between));
            // It holds the line, and stands alike to both planes.
            CHECK(std::fabs(inner(unit(between), unit(hip))) < 1e-12);
            CHECK(std::fabs(inner(between, normal_a) + inner(between, normal_b)) < 1e-12);
            const HipSawSettings other =
                hip_saw_settings(sawn(other_side(random.planes), TailCut::square, HipCut::bisecting));
            CHECK(std::fabs(deg(other.sheet.bevel) - deg(halved.sheet.bevel)) < 1e-6);
            CHECK(std::fabs(deg(other.fascia.bevel) - deg(halved.fascia.bevel)) < 1e-6);
        }
        // Plumb fascias meet over half the corner; square ones halfway between two faces that lean by the pitches.
        CHECK(std::fabs(deg(saw.fascia.mitre)) < 1e-9);
        CHECK(std::fabs(deg(saw.fascia.bevel) - (90.0 - degrees(random.planes.corner.angle()) / 2.0)) < 1e-6);
        const Spot face_a = unit({0.0, -1.0, -corner.rise_a});
        const Spot face_b = unit({-std::sin(corner.angle), std::cos(corner.angle), -corner.rise_b});
        check_setting(halved.fascia, on_wood(eave, face_a, face_a - face_b));
    }
}

TEST_CASE("at equal pitches the plane halfway is the upright one") {
    SeededNumbers numbers{432};
    for (int i = 0; i < sweep(1000); ++i) {
        const HipPlanes planes = polygon(numbers.between(3.0, 65.0), numbers.between(3.0, 12.0));
        const HipSawSettings plumb = hip_saw_settings(sawn(planes));
        const HipSawSettings half = hip_saw_settings(sawn(planes, TailCut::plumb, HipCut::bisecting));
        CHECK(std::fabs(deg(plumb.sheet.mitre) - deg(half.sheet.mitre)) < 1e-9);
        CHECK(std::fabs(deg(plumb.purlin_on_edge.bevel) - deg(half.purlin_on_edge.bevel)) < 1e-9);
    }
}

TEST_CASE("a mitred cut closes: both cuts turned onto one plane leave no gap") {
    // Two square fascias of one thickness at 6 and 12 in 12: all four arrises of one board meet those of the other.
    const Corner corner{0.5, 1.0, pi / 2.0};
    const Spot face_a = unit({0.0, -1.0, -corner.rise_a});
    const Spot face_b = unit({-1.0, 0.0, -corner.rise_b});
    const Spot cut = face_a - face_b;
    // The outer faces meet on a line through the corner; the inner faces, a thickness behind, on its neighbour. Both
    // lie in the cut: the plane through the corner square to `cut`.
    const Spot line = outer(face_a, face_b);
    CHECK(std::fabs(inner(line, cut)) < 1e-12);
    // A point 1 in behind both outer faces: solve p.face_a = -1, p.face_b = -1, p along their sum.
    const Spot sum{face_a.x + face_b.x, face_a.y + face_b.y, face_a.z + face_b.z};
    const double k = -1.0 / (1.0 + inner(face_a, face_b));
    const Spot behind{sum.x * k, sum.y * k, sum.z * k};
    CHECK(std::fabs(inner(behind, face_a) + 1.0) < 1e-12);
    CHECK(std::fabs(inner(behind, face_b) + 1.0) < 1e-12);
    CHECK(std::fabs(inner(behind, cut)) < 1e-12);
    const HipSawSettings saw =
        hip_saw_settings(sawn({.pitch_a = Pitch::in_12(6), .pitch_b = Pitch::in_12(12)}, TailCut::square));
    check_setting(saw.fascia, on_wood({1.0, 0.0, 0.0}, face_a, cut));
}

TEST_CASE("saw settings that are refused, and written") {
    CHECK(refusal_of([] {
              (void)hip_saw_settings(sawn({.pitch_a = Pitch::in_12(0), .pitch_b = Pitch::in_12(4)}));
          }).path == "saw.planes.pitch_a");
    CHECK(refusal_of([] {
              (void)hip_saw_settings(sawn(
                  {.pitch_a = Pitch::in_12(2), .pitch_b = Pitch::in_12(20), .corner = PlanCorner::from_degrees(150)}));
          }).code == FaultCode::not_supported);
    CHECK(write_json(hip_saw_settings(sawn(polygon(45, 4))), LengthUnit::inches).find("\"purlin_on_edge\"") !=
          std::string::npos);
}
