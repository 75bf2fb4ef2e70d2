// SPDX-License-Identifier: BSL-1.0

// One ridge over two eaves, drawn in plan: the ridge stands over the front eave and, seen from behind, over the back.

#include <eavewright/squaring/true_up_pair.hpp>

#include "../support/printing.hpp"
#include "quads.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

/// A gable along a line to the right, as seen from the front eave, facing up. Middles of the three lines.
struct GableLines {
    double front_eave;
    double ridge;
    double back_eave;
    double along = 744.0;
    double front_up = 246.0;
    double back_up = 246.0;
};

FourSides slope(double along, double up, double lean) {
    const double height = std::sqrt(up * up - lean * lean);
    return exact_readings({{{0.0, 0.0}, {along, 0.0}, {along + lean, height}, {lean, height}}});
}
Trueness front_of(const GableLines& g) { return true_up(slope(g.along, g.front_up, g.ridge - g.front_eave)); }
/// From behind, what stands to the right stands to the left.
Trueness back_of(const GableLines& g) { return true_up(slope(g.along, g.back_up, g.back_eave - g.ridge)); }

/// The ridge position that makes the larger of the two leans least, by search.
double best_move(const GableLines& g) {
    const auto worst = [&](double x) {
        return std::fmax(std::fabs(g.ridge + x - g.front_eave), std::fabs(g.ridge + x - g.back_eave));
    };
    double low = -100.0;
    double high = 100.0;
    for (int i = 0; i < 300; ++i) {
        const double a = low + (high - low) / 3.0;
        const double b = high - (high - low) / 3.0;
        (worst(a) < worst(b) ? high : low) = worst(a) < worst(b) ? b : a;
    }
    return (low + high) / 2.0;
}

}  // namespace

TEST_CASE("the closed form is the best ridge position, by search") {
    Seeded random{60};
    for (int i = 0; i < 500; ++i) {
        GableLines g{random.between(-4.0, 4.0), random.between(-4.0, 4.0), random.between(-4.0, 4.0)};
        g.front_up = random.between(150.0, 400.0);
        g.back_up = random.between(150.0, 400.0);
        const PairTrueness pair = true_up_pair(front_of(g), back_of(g));
        CAPTURE(i);
        CHECK(std::fabs(inches(pair.ridge_move) - best_move(g)) < 1e-9);
        CHECK(std::fabs(inches(pair.eave_slide) - (g.back_eave - g.front_eave)) < 1e-9);
        CHECK((pair.pull == PullDirection::right) == (inches(pair.ridge_move) > 0.0));
        // Measure again with the ridge moved: the slopes read what was promised.
        GableLines moved = g;
        moved.ridge += inches(pair.ridge_move);
        const Trueness front = front_of(moved);
        const Trueness back = back_of(moved);
        CHECK(off_by(front.shear, pair.front.shear) < 1e-9);
        CHECK(off_by(back.shear, pair.back.shear) < 1e-9);
        CHECK(off_by(front.diagonals.difference, pair.front.diagonal_difference) < 1e-9);
        CHECK(off_by(back.diagonals.difference, pair.back.diagonal_difference) < 1e-9);
        CHECK(inches(magnitude(true_up_pair(front, back).ridge_move)) < 1e-9);
    }
}

TEST_CASE("a ridge 2 in to the right of two good eaves: one pull cures both slopes") {
    const GableLines g{0.0, 2.0, 0.0};
    const Trueness front = front_of(g);
    const Trueness back = back_of(g);
    CHECK(std::fabs(inches(front.shear) - 2.0) < 1e-9);
    CHECK(std::fabs(inches(back.shear) + 2.0) < 1e-9);  // from behind it stands to the left
    CHECK(front.pull == PullDirection::left);
    CHECK(back.pull == PullDirection::right);  // the same pull, in the words of the back slope
    const PairTrueness pair = true_up_pair(front, back);
    CHECK(pair.verdict == PairVerdict::pull_ridge);
    CHECK(pair.pull == PullDirection::left);
    CHECK(std::fabs(inches(pair.ridge_move) + 2.0) < 1e-9);
    CHECK(inches(magnitude(pair.eave_slide)) < 1e-9);
    CHECK(pair.front.reads_within);
    CHECK(pair.back.reads_within);
}

TEST_CASE("a slid eave: no pull on the ridge cures it") {
    // Back eave 3 in to the right; the ridge in between is already at its best.
    const PairTrueness best = true_up_pair(front_of({0.0, 1.5, 3.0}), back_of({0.0, 1.5, 3.0}));
    CHECK(best.verdict == PairVerdict::eaves_slid);
    CHECK(best.pull == PullDirection::none);
    CHECK(std::fabs(inches(best.eave_slide) - 3.0) < 1e-9);
    CHECK(std::fabs(inches(best.front.shear) - 1.5) < 1e-9);
    CHECK(std::fabs(inches(best.back.shear) - 1.5) < 1e-9);
    CHECK_FALSE(best.front.reads_within);
    CHECK(best.front.diagonal_difference > 1_in);
    // Front slope square, back slope out by the whole slide: half of it goes over to the front.
    const PairTrueness half = true_up_pair(front_of({0.0, 0.0, 3.0}), back_of({0.0, 0.0, 3.0}));
    CHECK(half.verdict == PairVerdict::eaves_slid);
    CHECK(half.pull == PullDirection::right);
    CHECK(std::fabs(inches(half.ridge_move) - 1.5) < 1e-9);
    // A slide small enough to split: 0.1 in of shear shows 2 * 744 * 0.1 / 783.6 = 0.19 in between the diagonals, half
    // of it 0.095 in.
    const GableLines slight{0.0, 0.1, 0.1};
    CHECK(front_of(slight).verdict == SquareVerdict::pull);
    const PairTrueness split = true_up_pair(front_of(slight), back_of(slight));
    CHECK(split.verdict == PairVerdict::pull_ridge);
    CHECK(std::fabs(inches(split.ridge_move) + 0.05) < 1e-9);
    CHECK(std::fabs(inches(split.front.diagonal_difference) - 0.095) < 0.0005);
}

TEST_CASE("walking round the building changes the words, not the facts") {
    Seeded random{8};
    for (int i = 0; i < 100; ++i) {
        const GableLines g{random.between(-2.0, 2.0), random.between(-2.0, 2.0), random.between(-2.0, 2.0)};
        const PairTrueness one = true_up_pair(front_of(g), back_of(g));
        const PairTrueness other = true_up_pair(back_of(g), front_of(g));
        CHECK(one.ridge_move == -other.ridge_move);
        CHECK(one.eave_slide == other.eave_slide);  // right of the other eave, from either side
        CHECK(one.front.shear == other.back.shear);
        CHECK(one.verdict == other.verdict);
    }
}

TEST_CASE("square, unequal sides, and readings that disagree") {
    const GableLines good{0.0, 0.0, 0.0};
    const PairTrueness square = true_up_pair(front_of(good), back_of(good));
    CHECK(square.verdict == PairVerdict::square);
    CHECK(square.pull == PullDirection::none);
    const Trueness trapezoid = true_up(exact_readings({{{0.0, 0.0}, {744.0, 0.0}, {745.0, 246.0}, {-1.0, 246.0}}}));
    const PairTrueness unequal = true_up_pair(trapezoid, back_of(good));
    CHECK(unequal.verdict == PairVerdict::sides_unequal);
    CHECK(std::fabs(inches(unequal.ridge_difference) - 2.0) < 1e-9);  // one ridge, read 2 in apart
    FourSides wrong = slope(744.0, 246.0, 0.0);
    wrong.up_left += 3_in;
    CHECK(true_up_pair(front_of(good), true_up(wrong)).verdict == PairVerdict::readings_disagree);
}

TEST_CASE("the slide is as uncertain as both shears together") {
    const GableLines g{0.0, 1.0, 0.0};
    const PairTrueness pair = true_up_pair(front_of(g), back_of(g));
    CHECK(off_by(pair.eave_slide_deviation, hypotenuse(front_of(g).shear_deviation, back_of(g).shear_deviation)) <
          1e-15);
    CHECK(pair.eave_slide_deviation > front_of(g).shear_deviation);
}

TEST_CASE("what a pair refuses") {
    const GableLines good{0.0, 0.0, 0.0};
    Trueness broken = front_of(good);
    broken.shear = one_inch * std::numeric_limits<double>::quiet_NaN();
    const Fault fault = fault_of([&] { (void)true_up_pair(front_of(good), broken); });
    CHECK(fault.code == FaultCode::not_finite);
    CHECK(fault.path == "back.shear");
    Trueness empty = front_of(good);
    empty.target_diagonal = no_length;
    CHECK(fault_of([&] { (void)true_up_pair(empty, front_of(good)); }).path == "front.target_diagonal");
}

TEST_CASE("pair names") {
    CHECK(name_of(PairVerdict::square) == "square");
    CHECK(name_of(PairVerdict::eaves_slid) == "eaves_slid");
    CHECK(name_of(PairVerdict::readings_disagree) == "readings_disagree");
}
