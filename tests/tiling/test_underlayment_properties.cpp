// SPDX-License-Identifier: BSL-1.0

// What holds for every layout of underlayment, over seeded sweeps.

#include <eavewright/tiling/lay_underlayment.hpp>

#include "support/printing.hpp"

#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
constexpr double tolerance = 2e-5;  // of counts, 1/65536 in
constexpr double beside = 1e-3;     // just inside a corner, just off a lap

struct UnderlaymentCase {
    DeckPlane plane;
    UnderlaymentPlan plan;
    Underlayment laid;
};

UnderlaymentRule random_rule(SeededNumbers& random, Length width) {
    const Length end_lap = random.coin() ? 4_in : random.inches_between(0, 12);
    const Length offset = random.coin() ? 6_ft : random.inches_between(0, 100);
    switch (random.whole(0, 3)) {
        case 0: return SingleCoverage{random.coin() ? 2_in : random.inches_between(0, 8), end_lap, offset};
        case 1: {
            const Length overlap = width * random.between(0.5, 0.7);
            return HalfLap{(width - overlap) * random.between(1.0, 1.3), overlap, end_lap, offset};
        }
        case 2: return MakersRule{HeadLap{width * random.between(0.0, 0.8)}, end_lap, offset};
        default: {
            const Length exposure = width * random.between(0.2, 0.5);
            return MakersRule{Exposure{exposure}, end_lap, offset, longer(exposure, width * random.between(0.2, 1.0))};
        }
    }
}

UnderlaymentPlan random_underlayment_plan(SeededNumbers& random) {
    const bool metric = random.coin();
    const Length width = metric ? 1_m : (random.coin() ? 36_in : random.inches_between(20, 60));
    const Length length =
        metric ? 50_m : (random.coin() ? Length::from_feet(random.coin() ? 144 : 72) : random.inches_between(72, 1200));
    UnderlaymentPlan plan{.roll = {.length = length, .width = width}, .rule = random_rule(random, width)};
    plan.eave_past = random.coin() ? 0_in : random.inches_between(0, 4);
    plan.rake_past = random.coin() ? 0_in : random.inches_between(0, 4);
    plan.ridge_wrap = random.coin() ? 6_in : random.inches_between(0, 20);
    plan.most_past_ridge = plan.ridge_wrap + random.inches_between(0, 20);
    plan.top = random.coin() ? TopCourse::ripped : TopCourse::whole;
    plan.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
    plan.sliver = random.coin() ? 36_in : random.inches_between(0, 50);
    plan.tick = metric ? Tick::of_millimetres(1) : Tick::of_inch(16);
    return plan;
}

/// Rectangular, a little out of square, or leaning a lot.
DeckPlane random_deck(SeededNumbers& random) {
    const double along = random.between(60, 1500);
    const double up = random.between(40, 400);
    const int kind = random.whole(0, 2);
    const double play = kind == 0 ? 0.0 : kind == 1 ? 2.0 : 0.24 * std::fmin(along, up);
    while (true) {
        DeckPlane plane = random_plane<Surface::deck_top>(random, along, up, play);
        if (is_convex(plane.outline)) {
            return plane;
        }
    }
}

UnderlaymentCase random_case(SeededNumbers& random) {
    DeckPlane plane = random_deck(random);
    const UnderlaymentPlan plan = random_underlayment_plan(random);
    Underlayment laid = lay_underlayment(plane, plan);
    return {std::move(plane), plan, std::move(laid)};
}

double ridge_at(const UnderlaymentCase& c, double along) {
    const PlanePoint a = c.plane.outline[3];
    const PlanePoint b = c.plane.outline[2];
    return inches(a.up) + (along - inches(a.along)) * inches(b.up - a.up) / inches(b.along - a.along);
}

/// Counted anew from the rectangles of the pieces, grown by `grown`; edges left out.
std::size_t layers_over(const Underlayment& laid, double x, double y, std::size_t pieces, double grown = 0.0) {
    std::set<std::int32_t> courses;
    for (std::size_t i = 0; i < pieces; ++i) {
        const RollPiece& p = laid.pieces[i];
        if (x > inches(p.left) - grown && x < inches(p.right) + grown && y > inches(p.low) - grown &&
            y < inches(p.high) + grown) {
            courses.insert(p.course);
        }
    }
    return courses.size();
}

/// Strictly inside the outline, by more than `margin` from every edge.
bool is_inside(const std::vector<PlanePoint>& outline, double x, double y, double margin) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[(i + 1) % outline.size()];
        const double dx = inches(b.along - a.along);
        const double dy = inches(b.up - a.up);
        const double off = (dx * (y - inches(a.up)) - dy * (x - inches(a.along))) / std::sqrt(dx * dx + dy * dy);
        if (!(off > margin)) {
            return false;
        }
    }
    return true;
}

/// Points all over the plane, just inside its corners and edges, and just beside every lap.
std::vector<PlanePoint> points_of(const UnderlaymentCase& c, SeededNumbers& random) {
    const std::vector<PlanePoint>& o = c.plane.outline;
    const Extent extent = extent_of(o);
    const PlanePoint middle{(o[0].along + o[1].along + o[2].along + o[3].along) / 4.0,
                            (o[0].up + o[1].up + o[2].up + o[3].up) / 4.0};
    const auto inward = [&](PlanePoint p) {
        const Length reach = hypotenuse(middle.along - p.along, middle.up - p.up);
        const double step = one_inch * (20.0 * beside) / reach;
        return PlanePoint{p.along + (middle.along - p.along) * step, p.up + (middle.up - p.up) * step};
    };
    std::vector<PlanePoint> points;
    for (int k = 0; k < 100; ++k) {
        points.push_back({random.inches_between(inches(extent.low.along), inches(extent.high.along)),
                          random.inches_between(inches(extent.low.up), inches(extent.high.up))});
    }
    for (std::size_t i = 0; i < 4; ++i) {
        const PlanePoint a = o[i];
        const PlanePoint b = o[(i + 1) % 4];
        points.push_back(inward(a));
        for (int k = 0; k < 10; ++k) {
            const double t = random.between(0, 1);
            points.push_back(inward({a.along + (b.along - a.along) * t, a.up + (b.up - a.up) * t}));
        }
    }
    for (const UnderlaymentCourse& course : c.laid.courses) {
        for (const Length at : {course.low, course.high}) {
            const Span span = along_span(o, at);
            for (const double off : {-beside, beside}) {
                points.push_back({random.inches_between(inches(span.low), inches(span.high)), at + one_inch * off});
                points.push_back({span.low + one_inch * (20.0 * beside), at + one_inch * off});
                points.push_back({span.high - one_inch * (20.0 * beside), at + one_inch * off});
            }
        }
    }
    for (const RollEndLap& lap : c.laid.end_laps) {
        const RollPiece& piece = c.laid.pieces[lap.over];
        for (const Length at : {lap.left, lap.right}) {
            for (const double off : {-beside, beside}) {
                points.push_back({at + one_inch * off, random.inches_between(inches(piece.low), inches(piece.high))});
                points.push_back({at + one_inch * off, piece.low + one_inch * beside});
                points.push_back({at + one_inch * off, piece.high - one_inch * beside});
            }
        }
    }
    return points;
}

void check_cover(const UnderlaymentCase& c, SeededNumbers& random) {
    const std::size_t wanted = static_cast<std::size_t>(c.laid.laps.layers);
    const std::size_t all = c.laid.pieces.size();
    std::size_t tried = 0;
    std::size_t agreed = 0;
    for (const PlanePoint p : points_of(c, random)) {
        if (!is_inside(c.plane.outline, inches(p.along), inches(p.up), beside / 2.0)) {
            continue;
        }
        ++tried;
        CHECK(layers_over(c.laid, inches(p.along), inches(p.up), all) >= wanted);
        CHECK(coverage_at(c.laid, p) >= c.laid.laps.layers);
        // Edges are in, up to the count tolerance.
        const std::int64_t layers = coverage_at(c.laid, p);
        const double x = inches(p.along);
        const double y = inches(p.up);
        agreed += layers >= static_cast<std::int64_t>(layers_over(c.laid, x, y, all)) &&
                          layers <= static_cast<std::int64_t>(layers_over(c.laid, x, y, all, tolerance))
                      ? 1U
                      : 0U;
    }
    CHECK(tried > 60);
    CHECK(agreed == tried);
    // Past the eave, the rakes and the ridge one layer lies as far as was asked.
    const std::vector<PlanePoint>& o = c.plane.outline;
    for (int k = 0; k < 40; ++k) {
        const double x = random.between(inches(o[3].along), inches(o[2].along));
        const double over = ridge_at(c, x) + inches(c.plan.ridge_wrap) * random.between(0, 1) - beside;
        CHECK(layers_over(c.laid, x, over, all) >= 1);
        const double x0 = random.between(inches(o[0].along), inches(o[1].along));
        CHECK(layers_over(c.laid, x0, beside - inches(c.plan.eave_past) * random.between(0, 1), all) >= 1);
        const double y = random.between(beside, inches(shorter(o[2].up, o[3].up)));
        const Span span = along_span(o, one_inch * y);
        CHECK(layers_over(c.laid, inches(span.low - c.plan.rake_past) + beside, y, all) >= 1);
        CHECK(layers_over(c.laid, inches(span.high + c.plan.rake_past) - beside, y, all) >= 1);
    }
    // One course fewer would not do: the highest corner has too few layers, or its wrap is bare.
    std::size_t before = all;
    while (before > 0 && c.laid.pieces[before - 1].course == c.laid.courses.back().index) {
        --before;
    }
    const PlanePoint high = o[2].up > o[3].up ? o[2] : o[3];
    const double inside = high.along == o[2].along ? -beside / 2.0 : beside / 2.0;
    const double x = inches(high.along) + inside;
    const double wrap_end = inches(high.up + c.plan.ridge_wrap) - beside / 10.0;
    const double ridge = inches(high.up) - beside / 10.0;
    CHECK((layers_over(c.laid, x, ridge, before) < wanted || layers_over(c.laid, x, wrap_end, before) < 1));
}

/// Rolls, cut up again from their beginning, yield every piece; nothing is counted twice.
void check_rolls(const UnderlaymentCase& c) {
    std::vector<Length> used(static_cast<std::size_t>(c.laid.rolls), no_length);
    Length laid = no_length;
    std::int32_t roll = 0;
    for (const RollPiece& piece : c.laid.pieces) {
        CHECK(piece.roll >= roll);
        roll = piece.roll;
        Length& on_roll = used.at(static_cast<std::size_t>(piece.roll));
        CHECK(piece.length > no_length);
        CHECK(off_by(piece.from, on_roll) < tolerance);
        on_roll += piece.length;
        laid += piece.length;
        CHECK(on_roll <= c.plan.roll.length + one_inch * tolerance);
        CHECK(off_by(piece.right - piece.left, piece.length) < tolerance);
    }
    CHECK(roll + 1 == c.laid.rolls);
    Length left = no_length;
    for (const Length on_roll : used) {
        CHECK(on_roll > no_length);
        left += c.plan.roll.length - on_roll;
    }
    CHECK(off_by(laid, c.laid.laid) < 1e-6);
    const double play = tolerance * static_cast<double>(c.laid.rolls);
    CHECK(off_by(left, c.laid.set_aside + c.laid.left_over) < play);
    CHECK(off_by(c.laid.left_over, c.plan.roll.length - used.back()) < play);
}

void check_courses(const UnderlaymentCase& c) {
    const bool from_left = c.plan.start == StartCorner::eave_left;
    std::size_t next = 0;
    std::size_t laps = 0;
    for (const UnderlaymentCourse& course : c.laid.courses) {
        const std::size_t first = next;
        for (; next < c.laid.pieces.size() && c.laid.pieces[next].course == course.index; ++next) {
            const RollPiece& piece = c.laid.pieces[next];
            CHECK(piece.low == course.low);
            CHECK(piece.high == course.high);
            if (next == first) {
                CHECK((from_left ? off_by(piece.left, course.left) : off_by(piece.right, course.right)) < 1e-9);
                continue;
            }
            const RollPiece& under = c.laid.pieces[next - 1];
            const RollEndLap& lap = c.laid.end_laps.at(laps++);
            CHECK(lap.over == next);
            CHECK(lap.under == next - 1);
            CHECK(off_by(lap.right - lap.left, c.laid.laps.end_lap) < 1e-9);
            CHECK(off_by(lap.left, from_left ? piece.left : under.left) < 1e-9);
            CHECK(off_by(lap.right, from_left ? under.right : piece.right) < 1e-9);
        }
        REQUIRE(next > first);
        const RollPiece& last = c.laid.pieces[next - 1];
        CHECK((from_left ? off_by(last.right, course.right) : off_by(last.left, course.left)) < 1e-9);
        CHECK(course.height <= c.plan.roll.width);
        CHECK(off_by(course.high - course.low, course.height) < 1e-9);
        CHECK(course.ripped == (course.height < c.plan.roll.width - one_inch * tolerance * 0.7));
    }
    CHECK(next == c.laid.pieces.size());
    CHECK(laps == c.laid.end_laps.size());
}

/// Findings say what is wrong, and nothing else is; every lap is held against every lap of the course below it.
void check_findings(const UnderlaymentCase& c, std::size_t& too_near, std::size_t& slivers) {
    const auto found = [&](UnderlaymentFindingCode code, std::size_t piece) {
        return std::any_of(c.laid.findings.begin(), c.laid.findings.end(),
                           [&](const UnderlaymentFinding& f) { return f.code == code && f.piece == piece; });
    };
    const auto middle = [](const RollEndLap& lap) { return inches(lap.left + lap.right) / 2.0; };
    for (const RollEndLap& lap : c.laid.end_laps) {
        double nearest = 1e9;
        for (const RollEndLap& below : c.laid.end_laps) {
            if (below.course + 1 == lap.course) {
                nearest = std::fmin(nearest, std::fabs(middle(below) - middle(lap)));
            }
        }
        const bool near_by = nearest < inches(c.laid.laps.end_offset) - tolerance;
        CHECK(near_by == found(UnderlaymentFindingCode::end_lap_too_near, lap.over));
        too_near += near_by ? 1 : 0;
    }
    for (std::size_t i = 0; i < c.laid.pieces.size(); ++i) {
        const RollPiece& piece = c.laid.pieces[i];
        const UnderlaymentCourse& course = c.laid.courses[static_cast<std::size_t>(piece.course)];
        const bool whole = off_by(piece.length, course.right - course.left) < tolerance;
        const bool sliver = !whole && piece.length < c.plan.sliver - one_inch * tolerance;
        CHECK(sliver == found(UnderlaymentFindingCode::sliver_piece, i));
        slivers += sliver ? 1 : 0;
    }
    const UnderlaymentCourse& top = c.laid.courses.back();
    const Length lower = shorter(c.plane.outline[2].up, c.plane.outline[3].up);
    const std::size_t last = c.laid.pieces.size() - 1;
    CHECK(found(UnderlaymentFindingCode::course_past_ridge, last) ==
          (top.high - lower > c.plan.most_past_ridge + one_inch * tolerance));
    CHECK(found(UnderlaymentFindingCode::narrow_course, last) ==
          (top.ripped && top.height < c.plan.narrow - one_inch * tolerance));
}

void check_areas(const UnderlaymentCase& c) {
    const UnderlaymentAreas& a = c.laid.areas;
    const double bought = inches(c.plan.roll.width) * inches(c.plan.roll.length) * static_cast<double>(c.laid.rolls);
    CHECK(std::fabs(square_inches(a.bought) - bought) < 1e-6 * bought);
    CHECK(std::fabs(square_inches(a.net) - square_inches(signed_area(c.plane.outline))) < 1e-6 * bought);
    const Area parts = a.net + a.head_laps + a.end_laps + a.past_edges + a.ripped + a.offcuts + a.left_over;
    CHECK(std::fabs(square_inches(a.bought - parts)) < 1e-6 * bought);
    CHECK(std::fabs(square_inches(a.bought - a.net - a.waste)) < 1e-6 * bought);
    for (const Area& part : {a.head_laps, a.end_laps, a.past_edges, a.ripped, a.offcuts, a.left_over}) {
        CHECK(square_inches(part) > -1e-6 * bought);
    }
}

void check_marks(const UnderlaymentCase& c) {
    const std::vector<PlanePoint>& o = c.plane.outline;
    REQUIRE(c.laid.marks.size() == c.laid.courses.size());
    const double half = inches(c.plan.tick.step() / 2.0 + count_tolerance);
    for (std::size_t i = 0; i < c.laid.marks.size(); ++i) {
        const UnderlaymentCourse& course = c.laid.courses[i];
        const double sheet = static_cast<double>(i) - (c.laid.courses[0].starter && i > 0 ? 1.0 : 0.0);
        const double low = sheet * inches(c.laid.laps.exposure) - inches(c.plan.eave_past);
        CHECK(std::fabs(inches(course.low) - low) < 1e-9);
        const double left = std::hypot(inches(o[3].along - o[0].along), inches(o[3].up)) / inches(o[3].up);
        const double right = std::hypot(inches(o[2].along - o[1].along), inches(o[2].up)) / inches(o[2].up);
        CHECK(std::fabs(inches(c.laid.marks[i].left) - low * left) <= half);  // the last as near as the first
        CHECK(std::fabs(inches(c.laid.marks[i].right) - low * right) <= half);
    }
}
}  // namespace

TEST_CASE("underlayment: every point is covered as often as the rule asks, and one course fewer would not do") {
    SeededNumbers random{20301};
    for (int i = 0; i < sweep(4000); ++i) {
        CAPTURE(i);
        const UnderlaymentCase c = random_case(random);
        check_cover(c, random);
    }
}

TEST_CASE("underlayment: rolls cut up again yield every piece, courses close, findings and areas hold") {
    SeededNumbers random{20302};
    std::size_t too_near = 0;
    std::size_t slivers = 0;
    std::size_t laps = 0;
    for (int i = 0; i < sweep(20000); ++i) {
        CAPTURE(i);
        const UnderlaymentCase c = random_case(random);
        check_rolls(c);
        check_courses(c);
        check_findings(c, too_near, slivers);
        check_areas(c);
        check_marks(c);
        laps += c.laid.end_laps.size();
    }
    CHECK(too_near > 0);
    CHECK(too_near < laps / 4);
    CHECK(slivers < laps / 4);
}

TEST_CASE("underlayment: rolls of 72 ft and more always keep end laps 6 ft apart") {
    SeededNumbers random{20303};
    for (int i = 0; i < sweep(10000); ++i) {
        CAPTURE(i);
        UnderlaymentPlan plan{.roll = {.length = Length::from_feet(random.coin() ? 144 : 72)},
                              .rule = SingleCoverage{}};
        if (random.coin()) {
            plan.rule = HalfLap{};
        }
        plan.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
        plan.most_past_ridge = 20_ft;
        plan.narrow = 0_in;
        const DeckPlane plane = random_plane<Surface::deck_top>(random, random.between(100, 2400),
                                                                random.between(60, 500), random.between(0, 12));
        if (is_convex(plane.outline)) {
            CHECK(lay_underlayment(plane, plan).findings.empty());
        }
    }
}

TEST_CASE("underlayment: begun at the other rake of the mirrored plane, it is the mirror image") {
    SeededNumbers random{20304};
    for (int i = 0; i < sweep(2000); ++i) {
        CAPTURE(i);
        const UnderlaymentCase c = random_case(random);
        const std::vector<PlanePoint>& o = c.plane.outline;
        DeckPlane mirrored = c.plane;
        for (std::size_t k = 0; k < 4; ++k) {
            const PlanePoint p = o[k < 2 ? 1 - k : 5 - k];
            mirrored.outline[k] = {-p.along, p.up};
        }
        UnderlaymentPlan plan = c.plan;
        plan.start = plan.start == StartCorner::eave_left ? StartCorner::eave_right : StartCorner::eave_left;
        const Underlayment other = lay_underlayment(mirrored, plan);
        REQUIRE(other.pieces.size() == c.laid.pieces.size());
        CHECK(other.rolls == c.laid.rolls);
        for (std::size_t k = 0; k < other.pieces.size(); ++k) {
            CHECK(off_by(other.pieces[k].left, -c.laid.pieces[k].right) < 1e-6);
            CHECK(off_by(other.pieces[k].length, c.laid.pieces[k].length) < 1e-6);
        }
    }
}
