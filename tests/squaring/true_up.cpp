// SPDX-License-Identifier: BSL-1.0

// Is it square, and which way must the ridge go: known leans, a hinged frame simulated another way, the trapezoid that
// diagonals alone call square, and what the readings prove.

#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/units/tick.hpp>

#include "../support/printing.hpp"
#include "../support/table.hpp"
#include "quads.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <type_traits>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

/// A hinged frame with its eave held, turned by the angle of its left side: another road than the library's, which
/// counts by a diagonal.
class HingedFrame {
public:
    explicit HingedFrame(const FourSides& s)
        : eave_{inches(s.eave)}, ridge_{inches(s.ridge)}, left_{inches(s.left)}, right_{inches(s.right)} {}

    Quad at(double angle) const {
        const double x = left_ * std::cos(angle);
        const double y = left_ * std::sin(angle);
        // ridge_right: `ridge_` from ridge_left and `right_` from eave_right, on the far side.
        const double dx = eave_ - x;
        const double dy = -y;
        const double d = std::hypot(dx, dy);
        const double on = (d * d + ridge_ * ridge_ - right_ * right_) / (2.0 * d);
        const double off = std::sqrt(ridge_ * ridge_ - on * on);
        return {{{0.0, 0.0}, {eave_, 0.0}, {x + (on * dx - off * dy) / d, y + (on * dy + off * dx) / d}, {x, y}}};
    }
    /// Turns until `value` of the frame, which falls with the angle, is zero.
    template <class Value>
    Quad where(Value&& value) const {
        double low = 0.5;
        double high = 2.6;
        for (int i = 0; i < 200; ++i) {
            const double middle = (low + high) / 2.0;
            (value(at(middle)) > 0.0 ? low : high) = middle;
        }
        return at(low);
    }
    static double middle(const Quad& q) { return (q[2][0] + q[3][0]) / 2.0; }

private:
    double eave_, ridge_, left_, right_;
};

/// A parallelogram on its eave whose ridge stands `lean` to the right.
FourSides leaning(double along, double up, double lean) {
    const double height = std::sqrt(up * up - lean * lean);
    return exact_readings({{{0.0, 0.0}, {along, 0.0}, {along + lean, height}, {lean, height}}});
}
FourSides with_diagonals(FourSides s, Length up_right, Length up_left) {
    s.up_right = up_right;
    s.up_left = up_left;
    return s;
}

// Plane of a 60 ft building with 12 in rakes, 18 ft run and 18 in eave overhang at 4 in 12.
const Length plane_up = 19.5_ft * (std::sqrt(10.0) / 3.0);
const Length plane_diagonal = hypotenuse(62_ft, plane_up);
const FourSides plane{62_ft, 62_ft, plane_up, plane_up, plane_diagonal, plane_diagonal};

}  // namespace

TEST_CASE("a plane with equal sides and equal diagonals is square") {
    // sqrt(62^2 + 19.5^2 * 10 / 9) = sqrt(4266.5) ft = 65.31845 ft = 65'-3 13/16".
    const Trueness t = true_up(plane);
    CHECK(std::fabs(feet(t.target_diagonal) - std::sqrt(4266.5)) < 1e-12);
    CHECK(round_to_tick(t.target_diagonal, Tick::of_inch(16)) == 65_ft + 3_in + 13_in / 16);
    CHECK(t.verdict == SquareVerdict::square);
    CHECK(t.reads_within);
    CHECK(t.proven);
    CHECK(t.can_be_square);
    CHECK(t.pull == PullDirection::none);
    CHECK(t.shorten == Diagonal::none);
    CHECK(inches(magnitude(t.shear)) < 1e-12);
    CHECK(inches(magnitude(t.ridge_move)) < 1e-9);
    CHECK(degrees(t.corner_error) < 1e-10);
    CHECK(off_by(t.corners_after_pull.ridge_right.along, 62_ft) < 1e-9);
    CHECK(off_by(t.corners_after_pull.ridge_right.up, plane_up) < 1e-9);
}

TEST_CASE("40 by 60 ft, diagonals 1/8 in apart: the table's lean and corner error") {
    // diagonals_out_of_square.csv: 0.537976 arc minutes; lean 0.112673 in over 60 ft, 0.075116 in over 40 ft.
    const Lean lean = lean_from_difference(40_ft, 60_ft, 1_in / 8);
    const FourSides s = leaning(480.0, 720.0, inches(lean.of_up));
    CHECK(off_by(s.up_right - s.up_left, 1_in / 8) < 1e-9);
    const Trueness t = true_up(s);
    CHECK(std::fabs(degrees(t.corner_error) * 60.0 - 0.537976) < 0.51e-6);
    CHECK(std::fabs(inches(t.shear) - 0.112673) < 0.51e-6);
    CHECK(std::fabs(inches(t.ridge_move) + 0.112673) < 0.51e-6);
    const Trueness turned = true_up(leaning(720.0, 480.0, inches(lean.of_up) * 480.0 / 720.0));
    CHECK(std::fabs(inches(turned.shear) - 0.075116) < 0.51e-6);
}

TEST_CASE("every row of the table as a plane to true up") {
    for (const TableRow& row : read_table("diagonals_out_of_square.csv")) {
        const double a = 12.0 * std::stod(row.at("a_ft"));
        const double b = 12.0 * std::stod(row.at("b_ft"));
        const double s = std::stod(row.at("lean_over_side_b_in"));
        CAPTURE(a);
        CAPTURE(b);
        const Trueness t = true_up(leaning(a, b, s));
        CHECK(std::fabs(inches(t.diagonals.difference) - 0.125) < 0.51e-6 * 2.0);  // the lean is rounded to 1e-6 in
        CHECK(std::fabs(degrees(t.corner_error) * 60.0 - std::stod(row.at("corner_error_arcmin_for_1/8in_diag_diff"))) <
              0.02 / b);  // the same rounding, as an angle
        CHECK(std::fabs(inches(t.ridge_move) + s) < 1e-9);
        CHECK(t.pull == PullDirection::left);
        CHECK(t.shorten == Diagonal::up_right);
        CHECK(std::fabs(feet(t.target_diagonal) - std::stod(row.at("diagonal_ft"))) < 0.51e-8);
    }
}

TEST_CASE("a ridge that leans right is pulled left, along the long diagonal") {
    for (const double s : {0.25, 1.0, 3.0, 24.0}) {
        const Trueness t = true_up(leaning(744.0, 246.0, s));
        CAPTURE(s);
        CHECK(t.verdict == SquareVerdict::pull);
        CHECK(std::fabs(inches(t.shear) - s) < 1e-9);
        CHECK(std::fabs(inches(t.ridge_move) + s) < 1e-9);
        CHECK(t.pull == PullDirection::left);
        CHECK(t.shorten == Diagonal::up_right);
        CHECK(off_by(t.target_diagonal, diagonal(744_in, 246_in)) < 1e-9);
        CHECK(off_by(t.shorten_by, leaning(744.0, 246.0, s).up_right - t.target_diagonal) < 1e-9);
        CHECK(std::fabs(radians(t.corner_error) - std::asin(s / 246.0)) < 1e-12);
        CHECK(degrees(t.corner_error_after_pull) < 1e-9);
        CHECK(off_by(t.midline, 744_in) < 1e-9);
    }
}

TEST_CASE("the pull makes the diagonals of a hinged frame equal") {
    Seeded random{2718};
    for (int i = 0; i < 1000; ++i) {
        const double width = random.between(120.0, 2400.0);
        const double height = random.between(120.0, 900.0);
        const FourSides s =
            exact_readings(random_quad(random, width, height, 0.05 * (width < height ? width : height)));
        const Trueness t = true_up(s);
        CAPTURE(i);
        const HingedFrame frame{s};
        const double now = inches(squaring_detail::ridge_middle(t.measured.corners));
        const double wanted = now + inches(t.ridge_move);
        const Quad pulled = frame.where([&](const Quad& q) { return HingedFrame::middle(q) - wanted; });
        CHECK(std::fabs(between(pulled, 0, 2) - between(pulled, 1, 3)) < 1e-9);
        CHECK(std::fabs(between(pulled, 0, 2) - inches(t.target_diagonal)) < 1e-9);
        const Quad equal = frame.where([](const Quad& q) { return between(q, 0, 2) - between(q, 1, 3); });
        CHECK(std::fabs(HingedFrame::middle(equal) - wanted) < 1e-9);
        // The corners after the pull keep the four sides.
        const FourSides after = exact_readings(quad_of(t.corners_after_pull));
        CHECK(off_by(after.ridge, s.ridge) < 1e-9);
        CHECK(off_by(after.left, s.left) < 1e-9);
        CHECK(off_by(after.right, s.right) < 1e-9);
        CHECK(off_by(after.up_right, after.up_left) < 1e-9);
        CHECK(inches(t.shorten_by) >= -1e-9);
        // Directions agree with one another.
        if (t.pull != PullDirection::none) {
            CHECK((t.pull == PullDirection::right) == (t.ridge_move > no_length));
            CHECK((t.shorten == Diagonal::up_right) == (s.up_right > s.up_left));
            CHECK((t.pull == PullDirection::left) == (t.shear > no_length));
        }
    }
}

TEST_CASE("shear is where the ridge's middle stands along the midline, for every four-sided figure") {
    Seeded random{161};
    for (int i = 0; i < 300; ++i) {
        const Quad q = random_quad(random, 744.0, 246.0, 20.0);
        const double mx = (q[2][0] + q[3][0] - q[0][0] - q[1][0]) / 2.0;
        const double my = (q[2][1] + q[3][1] - q[0][1] - q[1][1]) / 2.0;
        const double ax = (q[1][0] + q[2][0] - q[0][0] - q[3][0]) / 2.0;
        const double ay = (q[1][1] + q[2][1] - q[0][1] - q[3][1]) / 2.0;
        const Trueness t = true_up(exact_readings(q));
        CHECK(std::fabs(inches(t.shear) - (mx * ax + my * ay) / std::hypot(ax, ay)) < 1e-9);
    }
}

TEST_CASE("an eighth of an inch reads within, and is not proven") {
    // Common practice: diagonals of 60 to 75 ft that differ by no more than 1/8 in are good.
    const FourSides eighth = with_diagonals(plane, plane_diagonal + 1_in / 16, plane_diagonal - 1_in / 16);
    const Trueness t = true_up(eighth);
    CHECK(off_by(t.diagonals.difference, 1_in / 8) < 1e-9);
    CHECK(t.diagonals.tolerance == 1_in / 8);
    // One reading 1/32 in: the difference has sqrt(2)/32 = 0.0442 in, times 1.96 = 0.0866 in to each side.
    CHECK(std::fabs(inches(t.diagonals.standard_deviation) - std::sqrt(2.0) / 32.0) < 1e-12);
    CHECK(t.diagonals.certainty == Certainty::not_proven);
    CHECK_FALSE(t.proven);
    // Exactly 1/8 in, as tape readings: 65'-3 7/8" and 65'-3 3/4".
    const Trueness tape_marks = true_up(with_diagonals(plane, 65_ft + 3_in + 7_in / 8, 65_ft + 3_in + 3_in / 4));
    CHECK(tape_marks.diagonals.reads_within);
    CHECK(tape_marks.verdict == SquareVerdict::square);
    CHECK(tape_marks.reads_within);
    CHECK_FALSE(tape_marks.proven);
    // 1/32 in apart is proven: 0.03125 + 0.0866 < 0.125.
    const Trueness close = true_up(with_diagonals(plane, plane_diagonal + 1_in / 32, plane_diagonal));
    CHECK(close.diagonals.certainty == Certainty::proven_within);
    CHECK(close.proven);
    // 1/4 in apart is proven outside: 0.25 - 0.0866 > 0.125; 3/16 in reads outside without proof.
    const Trueness out = true_up(with_diagonals(plane, plane_diagonal - 1_in / 8, plane_diagonal + 1_in / 8));
    CHECK(out.diagonals.certainty == Certainty::proven_outside);
    CHECK(out.verdict == SquareVerdict::pull);
    const Trueness maybe = true_up(with_diagonals(plane, plane_diagonal - 3_in / 32, plane_diagonal + 3_in / 32));
    CHECK(maybe.diagonals.certainty == Certainty::not_proven);
    CHECK_FALSE(maybe.diagonals.reads_within);
    CHECK(maybe.verdict == SquareVerdict::pull);
}

TEST_CASE("each tolerance and the level go where they belong") {
    FourSides s = leaning(744.0, 246.0, 0.0);
    s.ridge += 3_in / 16;  // sides 3/16 in apart, diagonals equal
    const Trueness wide_sides = true_up(s, {}, {.diagonal_difference = 1_in / 8, .side_difference = 1_in / 4});
    CHECK(wide_sides.eave_and_ridge.tolerance == 1_in / 4);
    CHECK(wide_sides.rakes.tolerance == 1_in / 4);
    CHECK(wide_sides.diagonals.tolerance == 1_in / 8);
    CHECK(wide_sides.can_be_square);
    CHECK_FALSE(true_up(s, {}, {.diagonal_difference = 1_in / 4}).can_be_square);
    // A misclosure of 2.5 standard deviations: unexplained at 95 %, explained at 99.9 % (3.290527, critical_values.csv).
    const Trueness probe = true_up(s);
    FourSides off = leaning(744.0, 246.0, 0.0);
    off.ridge += 3_in / 16 * (2.5 / probe.measured.misclosure_ratio);
    CHECK(std::fabs(true_up(off).measured.misclosure_ratio - 2.5) < 1e-3);
    CHECK(true_up(off).verdict == SquareVerdict::readings_disagree);
    CHECK(true_up(off, {}, {.level_factor = 3.290527}).measured.closure == Closure::explained);
}

TEST_CASE("proven is never claimed where it does not even read within") {
    for (int n = -40; n <= 40; ++n) {
        const Length off = one_inch * (n / 128.0);
        const Comparison c = compare_readings(65_ft + off, 65_ft, {}, 1_in / 8);
        if (c.certainty == Certainty::proven_within) {
            CHECK(c.reads_within);
        }
        if (c.certainty == Certainty::proven_outside) {
            CHECK_FALSE(c.reads_within);
        }
        const Comparison rough = compare_readings(65_ft + off, 65_ft, {.reading = 1_in}, 1_in / 8);
        CHECK(rough.certainty == Certainty::not_proven);  // a tape that coarse proves nothing
    }
}

TEST_CASE("a scale error that the readings share stretches the difference and hides nothing") {
    const TapeError hot{.reading = 1_in / 32, .scale = 0.001};
    const Comparison near_equal = compare_readings(65_ft, 65_ft, hot, 1_in / 8);
    CHECK(std::fabs(inches(near_equal.standard_deviation) - std::sqrt(2.0) / 32.0) < 1e-15);
    const Comparison apart = compare_readings(70_ft, 65_ft, hot, 1_in / 8);
    CHECK(std::fabs(inches(apart.standard_deviation) - std::hypot(std::sqrt(2.0) / 32.0, 0.06)) < 1e-12);
}

TEST_CASE("standard deviations are those of repeated readings") {
    Seeded random{1234};
    const TapeError tape{.reading = 1_in / 16};
    const FourSides exact = leaning(744.0, 246.0, 2.0);
    const Trueness stated = true_up(exact, tape);
    constexpr int trials = 20000;
    double difference = 0.0;
    double shear = 0.0;
    for (int i = 0; i < trials; ++i) {
        const auto read = [&](Length truth) { return truth + tape.reading * random.normal(); };
        const Trueness t = true_up({read(exact.eave), read(exact.ridge), read(exact.left), read(exact.right),
                                    read(exact.up_right), read(exact.up_left)},
                                   tape);
        difference += std::pow(inches(t.diagonals.difference - stated.diagonals.difference), 2.0);
        shear += std::pow(inches(t.shear - stated.shear), 2.0);
    }
    // 0.5 % is the standard error of a standard deviation from that many; four of them.
    CHECK(std::fabs(std::sqrt(difference / trials) / inches(stated.diagonals.standard_deviation) - 1.0) < 0.02);
    CHECK(std::fabs(std::sqrt(shear / trials) / inches(stated.shear_deviation) - 1.0) < 0.02);
}

TEST_CASE("the carport with equal diagonals and one side 2 in longer is told apart from square") {
    // squaring_rules.csv, 22 x 22 ft, a real case. Symmetric trapezoid: corner error atan(1/264) = 0.217 deg.
    double longer_by = 0.0;
    for (const TableRow& row : read_table("squaring_rules.csv")) {
        if (row.at("item") == "equal diagonals but one side longer by") {
            longer_by = std::stod(row.at("value"));
        }
    }
    REQUIRE(longer_by == 2.0);
    const Quad carport{{{0.0, 0.0}, {264.0, 0.0}, {265.0, 264.0}, {-1.0, 264.0}}};
    const FourSides s = exact_readings(carport);
    const Trueness t = true_up(s);
    CHECK(t.diagonals.difference == no_length);
    CHECK(t.diagonals.reads_within);
    CHECK(t.diagonals.certainty == Certainty::proven_within);
    CHECK(t.verdict == SquareVerdict::equal_diagonals_unequal_sides);
    CHECK_FALSE(t.can_be_square);
    CHECK_FALSE(t.reads_within);
    CHECK_FALSE(t.proven);
    CHECK(t.pull == PullDirection::none);
    CHECK(off_by(t.eave_and_ridge.difference, -2_in) < 1e-9);
    CHECK(t.eave_and_ridge.certainty == Certainty::proven_outside);
    CHECK(std::fabs(degrees(t.corner_error) - std::atan(1.0 / 264.0) * 180.0 / pi) < 1e-9);
    CHECK(std::fabs(degrees(t.corner_error) - 0.217) < 0.5e-3);
    CHECK(std::fabs(radians(t.corner_error_after_pull) - radians(t.corner_error)) < 1e-9);
    CHECK(off_by(t.target_diagonal, one_inch * std::hypot(265.0, 264.0)) < 1e-9);
}

TEST_CASE("a leaning trapezoid can be pulled to equal diagonals, not to square") {
    const Quad trapezoid{{{0.0, 0.0}, {264.0, 0.0}, {265.0, 264.0}, {-1.0, 264.0}}};
    Quad leans = trapezoid;
    leans[2][0] += 2.0;
    leans[3][0] += 2.0;
    const Trueness t = true_up(exact_readings(leans));
    CHECK(t.verdict == SquareVerdict::pull_but_sides_unequal);
    CHECK(t.pull == PullDirection::left);
    CHECK(degrees(t.corner_error_after_pull) > 0.2);
    CHECK(radians(t.corner_error_after_pull) < radians(t.corner_error));
    // Unequal rakes: eave and ridge cannot be parallel.
    const FourSides rakes = exact_readings({{{0.0, 0.0}, {744.0, 0.0}, {744.0, 246.0}, {0.0, 244.0}}});
    const Trueness r = true_up(rakes);
    CHECK_FALSE(r.rakes.reads_within);
    CHECK_FALSE(r.can_be_square);
    CHECK(std::fabs(inches(r.rakes.difference) + 2.0) < 1e-9);
    CHECK(radians(r.corner_error_after_pull) > 0.5 / 744.0);
}

TEST_CASE("a building as built, one long side 3/4 in longer") {
    // Post bays as read on site (trade column on setting posts): left 120 144 144 144 119.5, right 117 145.5 144 144
    // 121.75 in. The far wall then cannot be parallel to the near one, whatever the diagonals say.
    const double left = 120 + 144 + 144 + 144 + 119.5;
    const double right = 117 + 145.5 + 144 + 144 + 121.75;
    CHECK(right - left == 0.75);
    const Trueness t = true_up(exact_readings({{{0.0, 0.0}, {360.0, 0.0}, {360.0, right}, {0.0, left}}}));
    CHECK(t.rakes.certainty == Certainty::proven_outside);
    CHECK_FALSE(t.can_be_square);
}

TEST_CASE("readings that do not close settle nothing, and say so") {
    const Trueness t = true_up(with_diagonals(plane, plane_diagonal + 1_in, plane_diagonal + 1_in));
    CHECK(t.diagonals.difference == no_length);  // the diagonals agree, the sides contradict both
    CHECK(t.measured.closure == Closure::not_explained);
    CHECK(t.verdict == SquareVerdict::readings_disagree);
    CHECK_FALSE(t.proven);
}

TEST_CASE("seen from behind, left and right change places and nothing else") {
    Seeded random{404};
    for (int i = 0; i < 300; ++i) {
        const FourSides s = exact_readings(random_quad(random, 744.0, 246.0, 3.0));
        const Trueness t = true_up(s);
        const Trueness behind = true_up(mirror_of(s));
        CHECK(t.verdict == behind.verdict);
        CHECK(t.diagonals.difference == -behind.diagonals.difference);
        CHECK(t.rakes.difference == -behind.rakes.difference);
        CHECK(t.eave_and_ridge.difference == behind.eave_and_ridge.difference);
        CHECK(off_by(t.shear, -behind.shear) < 1e-9);
        CHECK(off_by(t.ridge_move, -behind.ridge_move) < 1e-9);
        CHECK(off_by(t.target_diagonal, behind.target_diagonal) < 1e-9);
        CHECK(off_by(t.shorten_by, behind.shorten_by) < 1e-9);
        if (t.pull != PullDirection::none) {
            CHECK((t.pull == PullDirection::left) == (behind.pull == PullDirection::right));
            CHECK((t.shorten == Diagonal::up_left) == (behind.shorten == Diagonal::up_right));
        }
    }
}

TEST_CASE("twice the size, twice the lengths, the same angles") {
    Seeded random{12};
    for (int i = 0; i < 100; ++i) {
        const FourSides s = exact_readings(random_quad(random, 744.0, 246.0, 3.0));
        const Trueness t = true_up(s);
        const Trueness twice = true_up(scaled(s, 2.0));
        CHECK(twice.shear == t.shear * 2.0);
        CHECK(twice.target_diagonal == t.target_diagonal * 2.0);
        CHECK(twice.ridge_move == t.ridge_move * 2.0);
        CHECK(twice.corner_error == t.corner_error);
        CHECK(off_by(true_up(scaled(s, 3.7)).ridge_move, t.ridge_move * 3.7) < 1e-8);
    }
}

TEST_CASE("inches and millimetres lead to the same plane") {
    const FourSides metric{18.9_m, 18.9_m, 6.26_m, 6.26_m, 19.912_m, 19.908_m};
    const Trueness t = true_up(metric, {.reading = 1_mm}, {.diagonal_difference = 3_mm, .side_difference = 3_mm});
    CHECK(std::fabs(millimetres(t.diagonals.difference) - 4.0) < 1e-9);
    CHECK(t.verdict == SquareVerdict::pull);
    // (19912^2 - 19908^2) / (4 * 18900) mm, and the closed figure differs from the readings by less than a millimetre.
    CHECK(std::fabs(millimetres(t.shear) - 39820.0 * 4.0 / 75600.0) < 1e-3);
}

TEST_CASE("what true_up refuses") {
    const auto first = [](const FourSides& s) { return fault_of([&] { (void)true_up(s); }); };
    SUBCASE("the end plane of a hip roof is no rectangle") {
        const Fault fault = first(exact_readings({{{0.0, 0.0}, {480.0, 0.0}, {360.0, 200.0}, {120.0, 200.0}}}));
        CHECK(fault.code == FaultCode::not_supported);
        CHECK(fault.path == "sides.ridge");
        const Fault rakes = first(exact_readings({{{0.0, 0.0}, {480.0, 0.0}, {480.0, 300.0}, {0.0, 200.0}}}));
        CHECK(rakes.code == FaultCode::not_supported);
        CHECK(rakes.path == "sides.right");
    }
    SUBCASE("whatever measured_corners refuses") {
        FourSides s = plane;
        s.up_left = no_length;
        CHECK(first(s).code == FaultCode::out_of_range);
        CHECK(first(s).path == "sides.up_left");
        Faults faults;
        find_true_up_faults(s, Path{"east"}, faults);
        REQUIRE(faults.size() == 1);
        CHECK(faults.front().path == "east.up_left");
    }
    SUBCASE("tape and tolerance") {
        const Length nan = one_inch * std::numeric_limits<double>::quiet_NaN();
        const auto tolerance_fault = [](const SquareTolerance& tolerance) {
            return fault_of([&] { (void)true_up(plane, {}, tolerance); });
        };
        CHECK(tolerance_fault({.diagonal_difference = -1_in}).path == "tolerance.diagonal_difference");
        CHECK(tolerance_fault({.side_difference = nan}).code == FaultCode::not_finite);
        CHECK(tolerance_fault({.side_difference = nan}).path == "tolerance.side_difference");
        CHECK(tolerance_fault({.level_factor = 11.0}).path == "tolerance.level_factor");
        CHECK(fault_of([&] { (void)true_up(plane, {.reading = nan}); }).path == "tape.reading");
        CHECK(check(SquareTolerance{.diagonal_difference = nan, .side_difference = nan, .level_factor = 0.0}).size() ==
              3);
    }
}

TEST_CASE("four bars without a position of equal diagonals are told so") {
    // A tall kite: sides 1, 1 below and 10, 10 above. At its widest the diagonal across is 2, the other never below 9.
    const double up = std::sqrt(100.0 - 0.75);
    const double low = 0.5;
    const squaring_detail::Bars kite{1.0, 10.0, 10.0, 1.0};  // eave_left, eave_right, ridge_right, ridge_left in turn
    const double across = std::sqrt(3.0);                    // eave_left to ridge_right
    CHECK_FALSE(squaring_detail::equal_diagonals(kite, across, up + low).has_value());
    const squaring_detail::Bars square{10.0, 10.0, 10.0, 10.0};
    const auto found = squaring_detail::equal_diagonals(square, 16.0, 12.0);
    REQUIRE(found.has_value());
    CHECK(std::fabs(found->up_right - 10.0 * std::sqrt(2.0)) < 1e-12);
}

TEST_CASE("names and fields") {
    CHECK(name_of(SquareVerdict::square) == "square");
    CHECK(name_of(SquareVerdict::readings_disagree) == "readings_disagree");
    CHECK(name_of(PullDirection::right) == "right");
    CHECK(name_of(Diagonal::up_left) == "up_left");
    CHECK(name_of(Certainty::proven_outside) == "proven_outside");
    CHECK(name_of(Closure::not_explained) == "not_explained");
    const Trueness t = true_up(leaning(744.0, 246.0, 1.0));
    bool seen = false;
    for_each_field<Trueness>([&](const auto& each) {
        CHECK_FALSE(each.meaning.empty());
        if constexpr (std::is_same_v<decltype(each.get), Length Trueness::*>) {
            if (each.name == "ridge_move") {
                seen = true;
                CHECK(t.*(each.get) == t.ridge_move);
            }
        }
    });
    CHECK(seen);
}
