// SPDX-License-Identifier: BSL-1.0

// Underlayment on planes of any outline, over seeded sweeps: points, rolls cut up again, areas.

#include <eavewright/tiling/underlayment_as_laid.hpp>

#include "support/printing.hpp"

#include "any_planes.hpp"
#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <set>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
constexpr double beside = 1e-3;     // just inside a corner, just off a lap
constexpr double tolerance = 2e-5;  // of counts, 1/65536 in

struct Case {
    DeckPlane plane;
    UnderlaymentPlan plan;
    Underlayment laid;
    UnderlaymentAsLaid cover;
};

DeckPlane deck_of(const PurlinPlane& plane) {
    return {plane.pitch, plane.outline, plane.edges, plane.openings, plane.placement};
}

/// Bays side by side whose eaves and ridges lie about where courses begin and end.
DeckPlane stepped_deck(SeededNumbers& random, const UnderlaymentPlan& plan) {
    const CourseLaps laps = laps_of(plan.rule, plan.roll.width);
    const auto about_a_course = [&](int low, int high) {
        return laps.exposure * random.whole(low, high) + random.inches_between(-2, 2) +
               (random.coin() ? laps.head_lap * random.between(0, 1) : no_length);
    };
    std::vector<Length> eaves{no_length};
    for (int bay = random.whole(0, 3); bay > 0; --bay) {
        eaves.push_back(longer(no_length, about_a_course(0, 3)));
    }
    std::vector<PlanePoint> lower;
    std::vector<PlanePoint> upper;
    Length along = no_length;
    for (std::size_t bay = 0; bay < eaves.size(); ++bay) {
        const Length next = along + random.inches_between(20, 200);
        const Length beside_it = longer(eaves[bay == 0 ? 0 : bay - 1], eaves[bay + 1 == eaves.size() ? bay : bay + 1]);
        const Length ridge = longer(about_a_course(0, 7), longer(eaves[bay], beside_it) + 3_in);
        lower.insert(lower.end(), {{along, eaves[bay]}, {next, eaves[bay]}});
        upper.insert(upper.end(), {{along, ridge}, {next, ridge}});
        along = next;
    }
    lower.insert(lower.end(), upper.rbegin(), upper.rend());
    return deck_of(any_plane(lower));
}

DeckPlane random_deck(SeededNumbers& random, const UnderlaymentPlan& plan) {
    if (random.whole(0, 2) == 0) {
        return stepped_deck(random, plan);
    }
    DeckPlane plane = deck_of(random.coin() ? right_angled_plane(random) : slanted_plane(random));
    for (EdgeKind& kind : plane.edges) {
        if (random.whole(0, 7) == 0) {
            kind = random.coin() ? EdgeKind::wall : EdgeKind::pitch_break;
        }
    }
    std::vector<std::vector<PlanePoint>> convex;
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        if (is_convex(opening)) {
            convex.push_back(opening);
        }
    }
    plane.openings = convex;
    return plane;
}

UnderlaymentPlan random_plan(SeededNumbers& random) {
    UnderlaymentPlan plan{.roll = {.length = random.coin() ? Length::from_feet(72) : random.inches_between(80, 500)},
                          .rule = SingleCoverage{}};
    switch (random.whole(0, 3)) {
        case 0: plan.rule = HalfLap{}; break;
        case 1: plan.rule = SingleCoverage{.head_lap = random.inches_between(0, 10)}; break;
        case 2: {
            const Length exposure = random.inches_between(6, 18);
            plan.rule = MakersRule{Exposure{exposure}, 4_in, random.inches_between(0, 72), exposure + 1_in};
            break;
        }
        default: break;
    }
    const auto some = [&](Length usual, double most) {
        return random.coin() ? usual : random.coin() ? no_length : random.inches_between(0, most);
    };
    plan.eave_past = some(no_length, 4);
    plan.rake_past = some(no_length, 4);
    plan.ridge_wrap = some(6_in, 20);
    plan.most_past_ridge = plan.ridge_wrap + 12_in;
    plan.hip_past = some(6_in, 12);
    plan.turn_up = some(4_in, 8);
    plan.valley = random.whole(0, 2) == 0 ? ValleyCourses::past_line : ValleyCourses::onto_strip;
    plan.valley_lap = some(6_in, 17);
    plan.top = random.coin() ? TopCourse::ripped : TopCourse::whole;
    plan.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
    return plan;
}

Case laid_case(DeckPlane plane, const UnderlaymentPlan& plan) {
    Underlayment laid = lay_underlayment(plane, plan);
    UnderlaymentAsLaid cover = underlayment_as_laid(plane, plan);
    return {std::move(plane), plan, std::move(laid), std::move(cover)};
}

/// Twice the signed distance of a point from a line, over its length.
double off_line(PlanePoint a, PlanePoint b, double x, double y) {
    const double dx = inches(b.along - a.along);
    const double dy = inches(b.up - a.up);
    return (dx * (y - inches(a.up)) - dy * (x - inches(a.along))) / std::hypot(dx, dy);
}
/// By how much a point lies along the way from `a` to `b`, and how long that is.
std::pair<double, double> way_along(PlanePoint a, PlanePoint b, double x, double y) {
    const double dx = inches(b.along - a.along);
    const double dy = inches(b.up - a.up);
    const double size = std::hypot(dx, dy);
    return {((x - inches(a.along)) * dx + (y - inches(a.up)) * dy) / size, size};
}
/// Crossings counted to the right.
bool holds(const std::vector<PlanePoint>& ring, double x, double y) {
    bool in = false;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const PlanePoint a = ring[i];
        const PlanePoint b = ring[(i + 1) % ring.size()];
        if ((inches(a.up) > y) != (inches(b.up) > y)) {
            const double at =
                inches(a.along) + inches(b.along - a.along) * (y - inches(a.up)) / (inches(b.up) - inches(a.up));
            in = in != (x < at);
        }
    }
    return in;
}
double edge_distance(const std::vector<PlanePoint>& ring, double x, double y) {
    double least = 1e9;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const PlanePoint a = ring[i];
        const PlanePoint b = ring[(i + 1) % ring.size()];
        const auto [at, size] = way_along(a, b, x, y);
        const double t = std::fmax(0.0, std::fmin(1.0, at / size));
        least = std::fmin(
            least, std::hypot(x - inches(a.along + (b.along - a.along) * t), y - inches(a.up + (b.up - a.up) * t)));
    }
    return least;
}
/// On the plane, off every edge and opening by more than a hair.
bool is_on_plane(const DeckPlane& plane, double x, double y) {
    bool on = holds(plane.outline, x, y) && edge_distance(plane.outline, x, y) > beside / 4.0;
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        on = on && !holds(opening, x, y) && edge_distance(opening, x, y) > beside / 4.0;
    }
    return on;
}
/// Where the strip along a valley alone may lie: nearer to its line than where a course laps the strip.
bool is_left_to_strip(const Case& c, double x, double y) {
    const double deep = inches(c.plan.valley_strip) / 2.0 - inches(c.plan.valley_lap);
    for (std::size_t i = 0; i < c.plane.outline.size(); ++i) {
        const PlanePoint a = c.plane.outline[i];
        const PlanePoint b = c.plane.outline[(i + 1) % c.plane.outline.size()];
        if (c.plane.edges[i] == EdgeKind::valley) {
            const auto [at, size] = way_along(a, b, x, y);
            const double off = off_line(a, b, x, y);
            if (at > -1e-6 && at < size + 1e-6 && off > -1e-6 && off < deep + 1e-6) {
                return c.plan.valley == ValleyCourses::onto_strip && c.laid.laps.layers == 1;
            }
        }
    }
    return false;
}
std::size_t layers_at(const Case& c, double x, double y) {
    std::set<std::int32_t> courses;
    for (const RollPieceAsLaid& piece : c.cover.pieces) {
        for (const PlanePart& part : piece.parts) {
            bool in = holds(part.outline, x, y);
            for (const std::vector<PlanePoint>& cutout : part.cutouts) {
                in = in && !holds(cutout, x, y);
            }
            if (in) {
                courses.insert(c.laid.pieces[piece.piece].course);
            }
        }
    }
    return courses.size();
}
bool in_some_piece(const Case& c, double x, double y) {
    for (const RollPiece& p : c.laid.pieces) {
        if (x > inches(p.left) - 1e-6 && x < inches(p.right) + 1e-6 && y > inches(p.low) - 1e-6 &&
            y < inches(p.high) + 1e-6) {
            return true;
        }
    }
    return false;
}

/// Points all over the plane, beside its edges and openings, and beside the edges of every piece.
std::vector<std::pair<double, double>> points_of(const Case& c, SeededNumbers& random) {
    const Extent extent = extent_of(c.plane.outline);
    std::vector<std::pair<double, double>> points;
    const auto anywhere = [&](bool up) {
        return up ? random.between(inches(extent.low.up), inches(extent.high.up))
                  : random.between(inches(extent.low.along), inches(extent.high.along));
    };
    for (int k = 0; k < 60; ++k) {
        points.emplace_back(anywhere(false), anywhere(true));
    }
    std::vector<std::vector<PlanePoint>> rings = c.plane.openings;
    rings.push_back(c.plane.outline);
    for (const std::vector<PlanePoint>& ring : rings) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const PlanePoint a = ring[i];
            const PlanePoint b = ring[(i + 1) % ring.size()];
            const double size = inches(hypotenuse(b.along - a.along, b.up - a.up));
            for (int k = 0; k < 8; ++k) {
                const double t = k < 2 ? (k == 0 ? 0.002 : 0.998) : random.between(0, 1);
                for (const double side : {beside, -beside}) {
                    points.emplace_back(inches(a.along + (b.along - a.along) * t) - side * inches(b.up - a.up) / size,
                                        inches(a.up + (b.up - a.up) * t) + side * inches(b.along - a.along) / size);
                }
            }
        }
    }
    const double deep = inches(c.plan.valley_strip) / 2.0 - inches(c.plan.valley_lap);
    for (std::size_t i = 0; i < c.plane.outline.size(); ++i) {  // beside what is left to the strips, the ends of it too
        const PlanePoint a = c.plane.outline[i];
        const PlanePoint b = c.plane.outline[(i + 1) % c.plane.outline.size()];
        const double size = inches(hypotenuse(b.along - a.along, b.up - a.up));
        for (std::size_t k = 0; c.plane.edges[i] == EdgeKind::valley && k < c.laid.pieces.size(); ++k) {
            for (const Length level :
                 {c.laid.pieces[k].low, c.laid.pieces[k].high}) {  // where a course reaches farthest
                const double y = inches(level) - beside;
                const double in_y = y - (deep + beside) * inches(b.along - a.along) / size;
                const double t = (in_y - inches(a.up)) / inches(b.up - a.up);
                points.emplace_back(
                    inches(a.along + (b.along - a.along) * t) - (deep + beside) * inches(b.up - a.up) / size, y);
            }
        }
        for (int k = 0; k < 8 && c.plane.edges[i] == EdgeKind::valley; ++k) {
            const bool end = k < 4;
            const double t = end ? (k % 2 == 0 ? -beside : size + beside) / size : random.between(0, 1);
            const double in = end ? deep * random.between(0, 1) : deep + beside;
            points.emplace_back(inches(a.along + (b.along - a.along) * t) - in * inches(b.up - a.up) / size,
                                inches(a.up + (b.up - a.up) * t) + in * inches(b.along - a.along) / size);
        }
    }
    for (const RollPiece& piece : c.laid.pieces) {
        for (const double off : {-beside, beside}) {
            points.emplace_back(anywhere(false), inches(piece.low) + off);
            points.emplace_back(anywhere(false), inches(piece.high) + off);
            points.emplace_back(inches(piece.left) + off, random.between(inches(piece.low), inches(piece.high)));
            points.emplace_back(inches(piece.right) + off, random.between(inches(piece.low), inches(piece.high)));
        }
    }
    return points;
}

struct Tally {
    std::size_t on_plane = 0;
    std::size_t on_strips = 0;
    std::size_t past = 0;
};

void check_cover(const Case& c, SeededNumbers& random, Tally& tally) {
    const std::size_t wanted = static_cast<std::size_t>(c.laid.laps.layers);
    for (const auto& [x, y] : points_of(c, random)) {
        if (!is_on_plane(c.plane, x, y)) {
            continue;
        }
        ++tally.on_plane;
        if (is_left_to_strip(c, x, y)) {
            ++tally.on_strips;
            continue;
        }
        CAPTURE(x);
        CAPTURE(y);
        CHECK(layers_at(c, x, y) >= wanted);
    }
}

/// Past every edge as far as was asked, and up the sides of openings.
void check_past(const Case& c, SeededNumbers& random, Tally& tally) {
    const std::vector<PlanePoint>& o = c.plane.outline;
    for (std::size_t i = 0; i < o.size(); ++i) {
        const PlanePoint a = o[i];
        const PlanePoint b = o[(i + 1) % o.size()];
        double beyond = 0.0;    // along the course
        double straight = 0.0;  // up or down the slope
        const bool above = b.along < a.along;
        switch (c.plane.edges[i]) {
            case EdgeKind::rake: beyond = inches(c.plan.rake_past); break;
            case EdgeKind::hip: beyond = inches(c.plan.hip_past); break;
            case EdgeKind::valley:
                beyond = c.plan.valley == ValleyCourses::past_line ? inches(c.plan.valley_lap) : 0.0;
                break;
            case EdgeKind::wall: beyond = straight = inches(c.plan.turn_up); break;
            case EdgeKind::eave: straight = above ? 0.0 : inches(c.plan.eave_past); break;
            case EdgeKind::ridge:
            case EdgeKind::pitch_break:
            case EdgeKind::high_eave: straight = inches(c.plan.ridge_wrap); break;
        }
        for (int k = 0; k < 6; ++k) {
            const double t = random.between(0.001, 0.999);
            const double x = inches(a.along + (b.along - a.along) * t);
            const double y = inches(a.up + (b.up - a.up) * t);
            const double size = inches(hypotenuse(b.along - a.along, b.up - a.up));
            const double in_x = x - beside * inches(b.up - a.up) / size;
            const double in_y = y + beside * inches(b.along - a.along) / size;
            if (is_left_to_strip(c, in_x, in_y)) {
                continue;
            }
            ++tally.past;
            CAPTURE(x);
            CAPTURE(y);
            CAPTURE(i);
            if (a.up != b.up) {
                CHECK(in_some_piece(c, x + (b.up > a.up ? 1.0 : -1.0) * beyond * random.between(0, 1), y));
            }
            if (a.along != b.along && (above || c.plane.edges[i] == EdgeKind::eave)) {
                CHECK(in_some_piece(c, x, y + (above ? 1.0 : -1.0) * straight * random.between(0, 1)));
            }
        }
    }
    for (std::size_t i = 0; i < o.size(); ++i) {  // where a wrap over the ridge ends beside a rake
        const std::size_t next = (i + 1) % o.size();
        const PlanePoint foot = o[i];
        const PlanePoint head = o[next];
        const PlanePoint far_end = o[(next + 1) % o.size()];
        if (c.plane.edges[i] == EdgeKind::rake && c.plane.edges[next] == EdgeKind::ridge && head.up > foot.up &&
            far_end.along < head.along) {
            CHECK(in_some_piece(c, inches(head.along + c.plan.rake_past * random.between(0, 1)),
                                inches(head.up + c.plan.ridge_wrap * random.between(0, 1))));
        }
    }
    for (const std::vector<PlanePoint>& opening : c.plane.openings) {
        for (std::size_t i = 0; i < opening.size(); ++i) {
            const PlanePoint a = opening[i];
            const PlanePoint b = opening[(i + 1) % opening.size()];
            const double size = inches(hypotenuse(b.along - a.along, b.up - a.up));
            const double t = random.between(0, 1);
            const double in = inches(c.plan.turn_up) * random.between(0, 0.999);
            const double x = inches(a.along + (b.along - a.along) * t) - in * inches(b.up - a.up) / size;
            const double y = inches(a.up + (b.up - a.up) * t) + in * inches(b.along - a.along) / size;
            if (holds(opening, x, y) && !is_left_to_strip(c, x, y)) {
                CHECK(in_some_piece(c, x, y));
            }
        }
    }
}

/// Rolls, cut up again from their beginning, yield every piece, and every piece is as long as what it covers.
void check_rolls(const Case& c) {
    std::vector<double> used(static_cast<std::size_t>(c.laid.rolls), 0.0);
    double laid = 0.0;
    std::int32_t roll = 0;
    std::int32_t course = 0;
    for (const RollPiece& piece : c.laid.pieces) {
        CHECK((piece.roll >= roll && piece.roll <= roll + 1));
        CHECK((piece.course >= course && piece.course <= course + 1));
        roll = piece.roll;
        course = piece.course;
        double& on_roll = used.at(static_cast<std::size_t>(piece.roll));
        CHECK(std::fabs(inches(piece.from) - on_roll) < tolerance);
        CHECK(std::fabs(inches(piece.right - piece.left - piece.length)) < tolerance);
        CHECK(piece.high - piece.low <= c.plan.roll.width + one_inch * 1e-9);
        on_roll += inches(piece.length);
        laid += inches(piece.length);
        CHECK(on_roll <= inches(c.plan.roll.length) + tolerance);
    }
    CHECK(std::fabs(laid - inches(c.laid.laid)) < 1e-6);
    CHECK(laid <= inches(c.plan.roll.length) * static_cast<double>(c.laid.rolls) + tolerance);
    for (const double on_roll : used) {
        CHECK(on_roll > 0.0);
    }
    CHECK(std::fabs(inches(c.plan.roll.length) * static_cast<double>(c.laid.rolls) - laid -
                    inches(c.laid.set_aside + c.laid.left_over)) < 1e-4);
}

/// End laps lie between the pieces they name, in one run, as long as the rule asks.
void check_laps(const Case& c) {
    for (const RollEndLap& lap : c.laid.end_laps) {
        const RollPiece& under = c.laid.pieces.at(lap.under);
        const RollPiece& over = c.laid.pieces.at(lap.over);
        CHECK(under.course == lap.course);
        CHECK(over.course == lap.course);
        CHECK(off_by(lap.right - lap.left, c.laid.laps.end_lap) < 1e-9);
        CHECK(off_by(lap.left, longer(under.left, over.left)) < 1e-9);
        CHECK(off_by(lap.right, shorter(under.right, over.right)) < 1e-9);
    }
}

void check_areas(const Case& c) {
    const double net = square_inches(net_area(c.plane));
    double pieces = 0.0;
    double rects = 0.0;
    for (const RollPieceAsLaid& piece : c.cover.pieces) {
        double shoelace = 0.0;
        for (const PlanePart& part : piece.parts) {
            shoelace += square_inches(signed_area(part.outline));
            for (const std::vector<PlanePoint>& cutout : part.cutouts) {
                shoelace -= std::fabs(square_inches(signed_area(cutout)));
            }
        }
        CHECK(std::fabs(shoelace - square_inches(piece.area)) < 1e-9 * net);
        pieces += shoelace;
        const RollPiece& laid = c.laid.pieces.at(piece.piece);
        rects += inches(laid.right - laid.left) * inches(laid.high - laid.low);
    }
    const double laps = square_inches(c.cover.head_laps) + square_inches(c.cover.end_laps);
    CHECK(std::fabs(pieces - laps + square_inches(c.cover.on_strips) - net) < 1e-9 * net);
    CHECK(square_inches(c.cover.on_strips) >= 0.0);
    if (c.plan.valley == ValleyCourses::past_line || c.laid.laps.layers == 2) {
        CHECK(square_inches(c.cover.on_strips) < 1e-4 * std::sqrt(net));
    }
    const UnderlaymentAreas& a = c.laid.areas;
    const double bought = square_inches(a.bought);
    const Area sum = a.net + a.head_laps + a.end_laps + a.past_edges + a.ripped + a.offcuts + a.left_over;
    CHECK(std::fabs(square_inches(a.net) - net) < 1e-9 * net);
    CHECK(std::fabs(square_inches(sum) - bought) < 1e-6 * bought);
    CHECK(rects <= bought * (1.0 + 1e-9));
}
}  // namespace

TEST_CASE("underlayment on any plane: every point is covered, past every edge too") {
    SeededNumbers random{20311};
    Tally tally;
    for (int i = 0; i < sweep(4000); ++i) {
        CAPTURE(i);
        const UnderlaymentPlan plan = random_plan(random);
        const Case c = laid_case(random_deck(random, plan), plan);
        check_cover(c, random, tally);
        check_past(c, random, tally);
    }
    CHECK(tally.on_plane > 20000);
    CHECK(tally.on_strips > 200);
    CHECK(tally.on_strips < tally.on_plane / 4);
    CHECK(tally.past > 2000);
}

TEST_CASE("underlayment on any plane: rolls cut up again yield every piece, and areas close") {
    SeededNumbers random{20312};
    for (int i = 0; i < sweep(8000); ++i) {
        CAPTURE(i);
        const UnderlaymentPlan plan = random_plan(random);
        const Case c = laid_case(random_deck(random, plan), plan);
        check_rolls(c);
        check_laps(c);
        check_areas(c);
    }
}

TEST_CASE("underlayment on any plane: one of four sides is laid as ever, by either way of laying") {
    SeededNumbers random{20313};
    double sum = 0.0;
    for (int i = 0; i < 400; ++i) {
        CAPTURE(i);
        const double along = random.between(60, 1500);
        const double up = random.between(40, 400);
        DeckPlane plane = random_plane<Surface::deck_top>(random, along, up, random.coin() ? 2.0 : 0.2 * up);
        UnderlaymentPlan plan{.roll = {.length = random.inches_between(80, 1200)}, .rule = SingleCoverage{}};
        if (random.coin()) {
            plan.rule = HalfLap{};
        }
        plan.eave_past = random.inches_between(0, 4);
        plan.rake_past = random.inches_between(0, 4);
        plan.ridge_wrap = random.inches_between(0, 12);
        plan.top = random.coin() ? TopCourse::ripped : TopCourse::whole;
        plan.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
        if (!is_convex(plane.outline)) {
            continue;
        }
        const Underlayment laid = lay_underlayment(plane, plan);
        for (const RollPiece& piece : laid.pieces) {
            sum += inches(piece.left) + 3.0 * inches(piece.length) + 7.0 * inches(piece.high) + inches(piece.from);
        }
        for (const CourseMark& mark : laid.marks) {
            sum += 1.5 * inches(mark.left) - inches(mark.right);
        }
        for (const UnderlaymentFinding& finding : laid.findings) {
            sum += 11.0 * inches(finding.measured) + 13.0 * static_cast<double>(finding.piece);
        }
        sum += square_inches(laid.areas.head_laps) + 2.0 * square_inches(laid.areas.past_edges) +
               3.0 * square_inches(laid.areas.waste);
        // With a level ridge the general way comes to the same.
        plane.outline[2].up = plane.outline[3].up;
        const Underlayment one = lay_underlayment(plane, plan);
        const Underlayment two = detail::lay_on_any(plane, plan).laid;
        REQUIRE(two.pieces.size() == one.pieces.size());
        CHECK(two.sheets == one.sheets);
        CHECK(two.rolls == one.rolls);
        CHECK(two.findings.size() == one.findings.size());
        for (std::size_t k = 0; k < one.pieces.size(); ++k) {
            CHECK(off_by(two.pieces[k].left, one.pieces[k].left) < 1e-6);
            CHECK(off_by(two.pieces[k].right, one.pieces[k].right) < 1e-6);
            CHECK(off_by(two.pieces[k].high, one.pieces[k].high) < 1e-6);
        }
        for (std::size_t k = 0; k < one.marks.size(); ++k) {
            CHECK(off_by(two.marks[k].left, one.marks[k].left) < 1e-6);
            CHECK(off_by(two.marks[k].exact, one.marks[k].exact) < 1e-9);
        }
    }
    // As it came out before planes of other outlines were laid.
    CHECK(std::fabs(sum - 280043066.30221933) < 1e-9 * sum);
}
