// SPDX-License-Identifier: BSL-1.0

// Purlin rows by every rule and as found, on rectangular and measured planes, and their marks.

#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/row_marks.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include "framing_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
Length centre(const PurlinRows& rows, std::size_t i, Length along = no_length) {
    return up_at(rows.rows.at(i).centreline, along);
}
const PurlinStock on_edge{.lie = PurlinLie::on_edge};
constexpr Length flat_half = Length::from_inches(1.75);
}  // namespace

TEST_CASE("a row at every spacing, marked at the exact multiple") {
    const Length up = 247_in;
    for (const Length step : {23.9375_in, 600_mm, 24_in, 19.2_in}) {
        const PurlinRows rows = purlin_rows(rectangle(744_in, up), Fixed{step});
        REQUIRE(rows.rows.size() > 8);
        CHECK(rows.rows.front().kind == RowKind::eave);
        CHECK(centre(rows, 0) == 0.75_in);
        CHECK(rows.rows.back().kind == RowKind::top);
        CHECK(centre(rows, rows.rows.size() - 1) == up - flat_half);
        CHECK(rows.spacing == step);
        for (std::size_t k = 1; k + 1 < rows.rows.size(); ++k) {
            CHECK(rows.rows[k].kind == RowKind::field);
            CHECK(centre(rows, k) == step * static_cast<double>(k));
            CHECK(centre(rows, k, 700_in) == step * static_cast<double>(k));
        }
        // One more would lie on the ridge row.
        const Length next = step * static_cast<double>(rows.rows.size() - 1);
        CHECK(next > up - flat_half - 3.5_in);
    }
}

TEST_CASE("rows count from the lower edge of sheets that hang past the fascia") {
    const PurlinRows rows = purlin_rows(rectangle(744_in, 247_in), Fixed{24_in}, {.sheet_past_fascia = 0.75_in});
    CHECK(rows.sheet_lower_edge == -0.75_in);
    CHECK(centre(rows, 1) == 23.25_in);
    CHECK(centre(rows, 4) == 95.25_in);
}

TEST_CASE("forty marks carry no rounding along") {
    SeededNumbers random{40};
    for (int i = 0; i < sweep(200); ++i) {
        const Length step = i == 0 ? 23.9375_in : i == 1 ? 600_mm : random.inches_between(6, 30);
        const Tick tick = i % 2 == 0 ? Tick::of_inch(16) : Tick::of_millimetres(1);
        const PurlinRows rows = purlin_rows(rectangle(744_in, step * 41.6 + 6_in), Fixed{step}, {.stock = on_edge});
        const std::vector<RowMark> marks = row_marks(rows, 12_in, no_length, tick);
        REQUIRE(marks.size() >= 42);
        for (std::size_t k = 1; k + 1 < marks.size(); ++k) {
            const Length exact = step * static_cast<double>(k);
            CHECK(off_by(marks[k].mark, exact) <= inches(tick.step()) / 2.0 + 1e-9);
            CHECK(marks[k].mark == round_to_tick(exact, tick));
            CHECK(off_by(marks[k].centre, exact) < 1e-9);
            CHECK(marks[k].remainder == marks[k].centre - marks[k].mark);
            CHECK(marks[k].lower_edge == round_to_tick(marks[k].centre - 0.75_in, tick));
            CHECK(marks[k].row == k);
        }
    }
    // 40 x 23 15/16 is 957 1/2 exactly, and 40 x 600 mm is 24 m.
    const PurlinRows inch = purlin_rows(rectangle(744_in, 1000_in), Fixed{23.9375_in}, {.stock = on_edge});
    CHECK(row_marks(inch, 0_in, no_length, Tick::of_inch(16))[40].mark == 957.5_in);
    const PurlinRows metric = purlin_rows(rectangle(20_m, 25_m), Fixed{600_mm}, {.stock = on_edge});
    CHECK(row_marks(metric, 0_in, no_length, Tick::of_millimetres(1))[40].mark == 24_m);
}

TEST_CASE("equal spaces at most: equal, not above, one fewer would exceed") {
    SeededNumbers random{41};
    for (int i = 0; i < sweep(2000); ++i) {
        const Length up = random.inches_between(40, 500);
        const Length at_most = random.inches_between(8, 40);
        const PurlinRows rows = purlin_rows(rectangle(744_in, up), AtMost{at_most});
        const double spaces = static_cast<double>(rows.rows.size()) - 1.0;
        const Length room = up - flat_half - 0.75_in;
        for (std::size_t k = 1; k < rows.rows.size(); ++k) {
            CHECK(off_by(centre(rows, k) - centre(rows, k - 1), room / spaces) < 1e-9);
        }
        CHECK(off_by(rows.spacing, room / spaces) < 1e-9);
        CHECK(off_by(rows.widest_space, room / spaces) < 1e-9);
        CHECK(rows.spacing <= at_most + count_tolerance);
        CHECK((spaces == 1.0 || room / (spaces - 1.0) > at_most));
    }
}

TEST_CASE("equal spaces on a plane whose rakes differ: equal on either rake") {
    const PurlinPlane plane = measured(744, 743.5, 247.5, -0.5, 246.25);
    const PurlinRows rows = purlin_rows(plane, AtMost{24_in});
    const std::size_t last = rows.rows.size() - 1;
    const auto left = [&](std::size_t k) { return rows.rows[k].centreline.front().up; };
    const auto right = [&](std::size_t k) { return rows.rows[k].centreline.back().up; };
    CHECK(off_by(left(last), 246.25_in - flat_half) < 1e-9);
    CHECK(off_by(right(last), 247.5_in - flat_half) < 1e-9);
    for (std::size_t k = 1; k <= last; ++k) {
        CHECK(off_by(left(k) - left(k - 1), (left(last) - 0.75_in) / static_cast<double>(last)) < 1e-9);
        CHECK(off_by(right(k) - right(k - 1), (right(last) - 0.75_in) / static_cast<double>(last)) < 1e-9);
        // Both ends on the rakes.
        CHECK(off_by(rows.rows[k].centreline.front().along, -0.5_in * (left(k) / 246.25_in)) < 1e-9);
        CHECK(off_by(rows.rows[k].centreline.back().along, 744_in - 0.5_in * (right(k) / 247.5_in)) < 1e-9);
    }
    // The widest space is taken along one line up the slope, the rows end on a rake that leans: 0.5 in of 247 over 744.
    CHECK(off_by(rows.widest_space, (right(last) - 0.75_in) / static_cast<double>(last)) < 1e-4);
}

TEST_CASE("rows to sheets: the middle of every end gap falls on a row") {
    SeededNumbers random{42};
    for (int i = 0; i < sweep(2000); ++i) {
        const Length sheet = random.coin() ? 96_in : random.coin() ? 2400_mm : random.inches_between(60, 144);
        const Length gap = random.coin() ? 0.125_in : random.coin() ? 3_mm : no_length;
        const Length past = random.coin() ? no_length : random.inches_between(0, 2);
        const int spaces = random.whole(2, 5);
        const PurlinRows rows = purlin_rows(rectangle(744_in, random.inches_between(250, 600)),
                                            ToSheets{sheet, gap, spaces}, {.sheet_past_fascia = past});
        Length end = -past;
        for (std::size_t k = static_cast<std::size_t>(spaces); k + 1 < rows.rows.size();
             k += static_cast<std::size_t>(spaces)) {
            end += sheet;
            CHECK(off_by(centre(rows, k), end + gap / 2.0) < 1e-9);
            end += gap;
        }
        CHECK(off_by(rows.spacing * spaces, sheet + gap) < 1e-9);
    }
}

TEST_CASE("rows as found: level, frame by frame, and carried on to the rakes") {
    const AsFound found{{24_in, {47.5_in, 48_in, 48.25_in}, 72_in}, {12_in, 132_in, 252_in}};
    const PurlinRows rows = purlin_rows(rectangle(264_in, 74_in), found);
    REQUIRE(rows.rows.size() == 4);
    CHECK(rows.rows[0].kind == RowKind::eave);
    CHECK(rows.rows[3].kind == RowKind::top);
    CHECK(centre(rows, 1, 200_in) == 24_in);
    CHECK(centre(rows, 2, 12_in) == 47.5_in);
    CHECK(centre(rows, 2, 132_in) == 48_in);
    CHECK(centre(rows, 2, 72_in) == 47.75_in);
    CHECK(off_by(centre(rows, 2, 264_in), 48.275_in) < 1e-12);
    CHECK(rows.rows[2].centreline.front().along == no_length);
    CHECK(rows.rows[2].centreline.back().along == 264_in);
    CHECK(rows.spacing == 24_in);
    CHECK(off_by(rows.widest_space, 72_in - (47.5_in - 0.05_in)) < 1e-12);  // at the left rake
}

TEST_CASE("the purlin's depth and width follow how it lies") {
    const PurlinStock stock{};
    CHECK(bearing_width(stock) == 3.5_in);  // 2x4 flat
    CHECK(build_up_depth(stock) == 1.5_in);
    for (const PurlinLie lie : {PurlinLie::on_edge, PurlinLie::lapped, PurlinLie::hung}) {
        const PurlinStock edge{.lie = lie};
        CHECK(bearing_width(edge) == 1.5_in);
        CHECK(build_up_depth(edge) == (lie == PurlinLie::hung ? no_length : 3.5_in));
    }
}

TEST_CASE("marks on the chord are the purlin's lower side dropped square, from the tail end behind the fascia") {
    // In the plane square to the eave: chord tops along s = (cos, sin) from the fascia's outer face at the origin.
    for (const double rise : {2.0, 4.0, 12.0}) {
        for (const TailCut tail : {TailCut::plumb, TailCut::square}) {
            const Pitch pitch = Pitch::in_12(rise);
            const Length depth = 3.5_in;
            const RoofShape shape = gable({.width = 36_ft,
                                           .length = 60_ft,
                                           .pitch = pitch,
                                           .eave_overhang = 18_in,
                                           .rake_overhang = 12_in,
                                           .build_up = {depth},
                                           .bearing_height = 0_in,
                                           .heel = 6_in,
                                           .tail = tail});
            const Slope& slope = shape.slopes[0];
            const PurlinRows rows = purlin_rows(slope.purlin, Fixed{24_in}, {.stock = on_edge});
            const std::vector<RowMark> marks = row_marks(rows, 0_in, slope.chord_tail_offset, Tick::of_inch(64));
            CHECK_FALSE(marks.front().on_chord.has_value());  // the fascia hangs in front of the tails
            for (std::size_t k = 1; k < marks.size(); ++k) {
                const BuildingPoint top = building_point(slope.purlin, {0_in, marks[k].centre - 0.75_in});
                const double y = inches(top.y) + inches(depth) * pitch.sine();  // down along the inward normal
                const double z = inches(top.z) - inches(depth) * pitch.cosine();
                const BuildingPoint eave = building_point(slope.chord, {0_in, 0_in});
                const double behind = tail == TailCut::plumb ? 1.5 / pitch.cosine() : 1.5;
                const double from_tail = std::hypot(y - inches(eave.y), z - inches(eave.z)) - behind;
                REQUIRE(marks[k].on_chord.has_value());
                CHECK(std::fabs(inches(*marks[k].on_chord) - from_tail) <= 1.0 / 128.0 + 1e-9);
            }
        }
    }
}

TEST_CASE("rows as supports keep their order, lines and widths") {
    const PurlinRows rows = purlin_rows(rectangle(744_in, 247_in), AtMost{24_in});
    const auto supports = supports_of(rows);
    REQUIRE(supports.lines.size() == rows.rows.size());
    CHECK(supports.run == SupportRun::along_eave);
    CHECK(supports.spacing == rows.spacing);
    CHECK(supports.lines.front().width == 1.5_in);
    CHECK(supports.lines.back().width == 3.5_in);
    CHECK(check(supports, "supports").empty());
}

TEST_CASE("rules, plans and planes that are refused") {
    const PurlinPlane plane = rectangle(744_in, 247_in);
    const auto lay = [&](const RowSpacing& spacing, const RowPlan& plan = {}) {
        return refusal_of([&] { (void)purlin_rows(plane, spacing, plan); });
    };
    CHECK(lay(Fixed{24_in}).path == "no fault");
    CHECK(lay(Fixed{no_length}).path == "purlins.spacing.fixed");
    CHECK(lay(Fixed{-24_in}).path == "purlins.spacing.fixed");
    CHECK(lay(AtMost{1_in}).path == "purlins.spacing.at_most");
    CHECK(lay(ToSheets{96_in, 0.125_in, 0}).path == "purlins.spacing.spaces");
    CHECK(lay(ToSheets{96_in, 0.125_in, 60}).path == "purlins.spacing.spaces");
    CHECK(lay(ToSheets{96_in, -0.125_in, 4}).path == "purlins.spacing.gap");
    CHECK(lay(Fixed{3_in}).code == FaultCode::does_not_fit);  // flat 2x4s would lie on one another
    CHECK(lay(Fixed{3_in}, {.stock = on_edge}).path == "no fault");
    CHECK(lay(AsFound{{}}).path == "purlins.spacing.rows");
    CHECK(lay(AsFound{{24_in, 23_in}}).code == FaultCode::out_of_order);
    CHECK(lay(AsFound{{0.5_in, 24_in}}).code == FaultCode::does_not_fit);  // below the fascia's middle
    CHECK(lay(AsFound{{24_in, 248_in}}).code == FaultCode::does_not_fit);  // above the ridge
    CHECK(lay(AsFound{{{24_in, 25_in}}, {0_in, 10_in, 20_in}}).code == FaultCode::contradiction);
    CHECK(lay(AsFound{{{24_in, 25_in}}, {10_in, 10_in}}).code == FaultCode::out_of_order);
    CHECK(lay(AsFound{{{24_in, 30_in}, {26_in, 31_in}}, {0_in, 10_in}}).code ==
          FaultCode::does_not_fit);  // they cross further on
    CHECK(lay(Fixed{24_in}, {.ridge_setback = 47_in}).path == "no fault");
    for (const Length none : lengths_that_are_none()) {
        CHECK(lay(Fixed{none}).path == "purlins.spacing.fixed");
        CHECK(lay(AtMost{none}).path == "purlins.spacing.at_most");
        CHECK(lay(ToSheets{none, 0_in, 4}).path == "purlins.spacing.sheet_length");
        CHECK(lay(ToSheets{96_in, none, 4}).path == "purlins.spacing.gap");
        CHECK(lay(AsFound{{24_in, none}}).path == "purlins.spacing.rows[1]");
        CHECK(lay(AsFound{{24_in}, {none}}).path == "purlins.spacing.frames[0]");
        CHECK(lay(Fixed{24_in}, {.fascia_width = none}).path == "purlins.fascia_width");
        CHECK(lay(Fixed{24_in}, {.sheet_past_fascia = none}).path == "purlins.sheet_past_fascia");
        CHECK(lay(Fixed{24_in}, {.ridge_setback = none}).path == "purlins.ridge_setback");
        CHECK(lay(Fixed{24_in}, {.stock = {.thickness = none}}).path == "purlins.thickness");
        const PurlinRows rows = purlin_rows(plane, Fixed{24_in});
        CHECK(refusal_of([&] { (void)row_marks(rows, none, no_length, Tick::of_inch(16)); }).path == "along");
        CHECK(refusal_of([&] { (void)row_marks(rows, no_length, none, Tick::of_inch(16)); }).path ==
              "chord_tail_offset");
        PurlinPlane broken = plane;
        broken.outline[3].up = none;
        CHECK(refusal_of([&] { (void)purlin_rows(broken, Fixed{24_in}); }).path == "plane.outline[3].up");
    }
}

TEST_CASE("planes that rows are not laid on") {
    const auto lay = [](std::vector<PlanePoint> outline) {
        return refusal_of([&] { (void)purlin_rows(purlin_plane(std::move(outline)), AtMost{24_in}); }).code;
    };
    CHECK(lay({{0_in, 0_in}, {100_in, 0_in}, {50_in, 80_in}}) == FaultCode::not_supported);
    CHECK(lay({}) == FaultCode::not_supported);
    CHECK(lay({{0_in, 0_in}, {0_in, 80_in}, {100_in, 80_in}, {100_in, 0_in}}) ==
          FaultCode::not_supported);  // clockwise
    CHECK(lay({{0_in, 5_in}, {100_in, 0_in}, {100_in, 80_in}, {0_in, 80_in}}) ==
          FaultCode::not_supported);  // eave off 0
    CHECK(lay({{0_in, 0_in}, {100_in, 0_in}, {100_in, 80_in}, {0_in, 0_in}}) ==
          FaultCode::not_supported);  // no left rake
    CHECK(lay({{100_in, 0_in}, {0_in, 0_in}, {0_in, -80_in}, {100_in, -80_in}}) ==
          FaultCode::not_supported);  // upside down
    CHECK(lay({{0_in, 0_in}, {100_in, 0_in}, {100_in, 4_in}, {0_in, 4_in}}) ==
          FaultCode::does_not_fit);  // no room for a ridge row
    CHECK(lay({{0_in, 0_in}, {100_in, 0_in}, {100_in, 9e5_in}, {0_in, 9e5_in}}) == FaultCode::too_much_work);
}
