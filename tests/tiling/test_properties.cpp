// SPDX-License-Identifier: BSL-1.0

// What holds for any layout: pieces against the outline, joints and findings against all supports, one by one. Areas by
// Boost.Geometry; its overlays lose whole polygons where edges nearly coincide, so cutting is done here.

#include "support/printing.hpp"

#include "tiling_planes.hpp"

#include <doctest/doctest.h>
#include <boost/geometry/algorithms/area.hpp>
#include <boost/geometry/algorithms/correct.hpp>
#include <boost/geometry/algorithms/envelope.hpp>
#include <boost/geometry/geometries/box.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
namespace bg = boost::geometry;
using Point = bg::model::d2::point_xy<double>;  // x across the lanes, y along them, from the corner that is started at
using Polygon = bg::model::polygon<Point, false, false>;
using Box = bg::model::box<Point>;

constexpr double tolerance = 1.0 / 65536.0;  // below this a count takes two lengths for one
constexpr double rounding = 1e-8;

/// One laid-out plane, seen in lanes.
struct Case {
    SheetPlan plan;
    SupportRun run;
    std::vector<PlanePoint> outline;  // with what hangs past the fascia
    std::vector<SupportLine> lines;
    Sheets sheets;

    Point seen(PlanePoint p) const {
        const double along = plan.start == StartCorner::eave_right ? -inches(p.along) : inches(p.along);
        return run == SupportRun::along_eave ? Point(along, inches(p.up)) : Point(inches(p.up), along);
    }
    Polygon polygon(const std::vector<PlanePoint>& points) const {
        Polygon result;
        for (const PlanePoint p : points) {
            result.outer().push_back(seen(p));
        }
        bg::correct(result);
        return result;
    }
};
double side_of(Point a, Point b, Point p) {
    return (b.x() - a.x()) * (p.y() - a.y()) - (p.x() - a.x()) * (b.y() - a.y());
}
Point corner(const Polygon& polygon, std::size_t i) { return polygon.outer()[i % (polygon.outer().size())]; }

/// How far a point stands outside a convex polygon; negative inside.
double outside_by(const Polygon& polygon, Point p) {
    double worst = -std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < polygon.outer().size(); ++i) {
        const Point a = corner(polygon, i);
        const Point b = corner(polygon, i + 1);
        worst = std::fmax(worst, -side_of(a, b, p) / std::hypot(b.x() - a.x(), b.y() - a.y()));
    }
    return worst;
}
/// Area of what two convex polygons share: one cut along each edge of the other (Sutherland and Hodgman).
double area_of_common(Polygon part, const Polygon& knife) {
    for (std::size_t i = 0; i < knife.outer().size(); ++i) {
        const Point a = corner(knife, i);
        const Point b = corner(knife, i + 1);
        Polygon kept;
        for (std::size_t k = 0; k < part.outer().size(); ++k) {
            const Point p = corner(part, k);
            const Point q = corner(part, k + 1);
            const double sp = side_of(a, b, p);
            const double sq = side_of(a, b, q);
            if (sp >= 0.0) {
                kept.outer().push_back(p);
            }
            if ((sp > 0.0 && sq < 0.0) || (sp < 0.0 && sq > 0.0)) {
                const double t = sp / (sp - sq);
                kept.outer().emplace_back(p.x() + t * (q.x() - p.x()), p.y() + t * (q.y() - p.y()));
            }
        }
        part = kept;
    }
    return part.outer().size() < 3 ? 0.0 : bg::area(part);
}
Polygon box_polygon(double x0, double y0, double x1, double y1) {
    Polygon result;
    result.outer() = {Point(x0, y0), Point(x1, y0), Point(x1, y1), Point(x0, y1)};
    return result;
}
Box bounds(const Polygon& polygon) { return bg::return_envelope<Box>(polygon); }

/// The outline with its eave carried on past the fascia, rake by rake, as lines through two points.
std::vector<PlanePoint> hung(const std::vector<PlanePoint>& outline, Length past) {
    const auto carried_on = [&](PlanePoint low, PlanePoint high) {
        const double slope = (inches(high.along) - inches(low.along)) / (inches(high.up) - inches(low.up));
        return PlanePoint{low.along - past * slope, -past};
    };
    return {carried_on(outline[0], outline[3]), carried_on(outline[1], outline[2]), outline[2], outline[3]};
}

Case over_purlins(SeededNumbers& random, double play) {
    Case made{random_sheet_plan(random),
              SupportRun::along_eave,
              {},
              {},
              Sheets{SupportRun::along_eave, 0, {}, {}, {}, Area::from_value(0.0), 0, {no_length, no_length}}};
    const PurlinPlane plane = random_plane(random, random.between(90, 420), random.between(90, 320), play);
    const PurlinRows rows = random_rows(random, plane, made.plan);
    made.lines = supports_of(rows).lines;
    made.outline = hung(plane.outline, made.plan.past_fascia);
    made.sheets = tile_sheets(plane, rows, made.plan);
    return made;
}
Case over_chords(SeededNumbers& random, double play) {
    Case made{random_sheet_plan(random),
              SupportRun::up_slope,
              {},
              {},
              Sheets{SupportRun::up_slope, 0, {}, {}, {}, Area::from_value(0.0), 0, {no_length, no_length}}};
    const double rake = random.coin() ? 0.0 : random.between(4, 20);
    const double length = random.between(90, 400);
    const ChordPlane plane =
        random_plane<Surface::chord_top>(random, length + 2.0 * rake, random.between(90, 260), play);
    const FrameLines frames =
        frame_lines({.spacing = BaysAtMost{24_in}}, {.length = one_inch * length, .rake_overhang = one_inch * rake},
                    SeenFrom::front);
    const auto supports = supports_of(frames, plane);
    made.lines = supports.lines;
    made.outline = hung(plane.outline, made.plan.past_fascia);
    made.sheets = tile_sheets(plane, supports, made.plan);
    return made;
}

using Lanes = std::map<std::int32_t, std::vector<std::size_t>>;
Lanes lanes_of(const Sheets& sheets) {
    Lanes lanes;
    for (std::size_t i = 0; i < sheets.pieces.size(); ++i) {
        lanes[sheets.pieces[i].lane].push_back(i);
    }
    return lanes;
}

/// Pieces lie inside, apart by at least the gap, no larger than a sheet; with the gaps they fill the outline.
void check_pieces(const Case& c) {
    const Polygon outline = c.polygon(c.outline);
    const Box whole = bounds(outline);
    std::vector<Polygon> pieces;
    std::set<std::string> names;
    double laid = 0.0;
    const double gap = inches(c.plan.gap);
    for (const SheetPiece& piece : c.sheets.pieces) {
        CHECK(names.insert(piece_name(piece)).second);
        CHECK(piece.lane >= 0);
        CHECK(piece.lane < c.sheets.lanes);
        CHECK(square_inches(signed_area(piece.outline)) > 0.0);
        for (const PlanePoint p : piece.outline) {
            CHECK(is_usable(p.along));
            CHECK(is_usable(p.up));
        }
        pieces.push_back(c.polygon(piece.outline));
        laid += bg::area(pieces.back());
        for (const Point p : pieces.back().outer()) {
            CHECK(outside_by(outline, p) < rounding);
        }
        const Box box = bounds(pieces.back());
        const double width = box.max_corner().x() - box.min_corner().x();
        const double length = box.max_corner().y() - box.min_corner().y();
        const double missing = width * length - bg::area(pieces.back());
        CHECK(width <= inches(c.plan.sheet.width) + tolerance);
        CHECK(length <= inches(c.plan.sheet.length) + 2.0 * tolerance);
        if (!piece.slanted) {  // no corner of its box is cut by more than half a tick
            CHECK(missing <= inches(c.plan.tick.step()) / 2.0 * (width + length) + rounding);
        }
        if (missing < 1e-6) {
            CHECK_FALSE(piece.slanted);
        }
        if (piece.whole) {
            CHECK_FALSE(piece.slanted);
            CHECK(std::fabs(width - inches(c.plan.sheet.width)) < tolerance);
            CHECK(std::fabs(length - inches(c.plan.sheet.length)) < tolerance);
        }
        CHECK(piece.length <= c.plan.sheet.length);
        CHECK(piece.width <= c.plan.sheet.width);
        CHECK(off_by(piece.length, round_to_tick(piece.length, c.plan.tick)) < rounding);
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        for (std::size_t j = i + 1; j < pieces.size(); ++j) {
            const Box a = bounds(pieces[i]);
            const Box b = bounds(pieces[j]);
            const double x =
                std::fmax(a.min_corner().x() - b.max_corner().x(), b.min_corner().x() - a.max_corner().x());
            const double y =
                std::fmax(a.min_corner().y() - b.max_corner().y(), b.min_corner().y() - a.max_corner().y());
            CHECK(std::fmax(x, y) >= gap - rounding);  // an axis-parallel line separates any two
        }
    }
    double gaps = 0.0;
    const auto add = [&](double x0, double y0, double x1, double y1) {
        if (x1 > x0 && y1 > y0) {
            gaps += area_of_common(box_polygon(x0, y0, x1, y1), outline);
        }
    };
    double lane_end = 0.0;
    const double bottom = whole.min_corner().y() - 1.0;
    const double top = whole.max_corner().y() + 1.0;
    const double left = whole.min_corner().x();
    for (std::int32_t lane = 0; lane < c.sheets.lanes; ++lane) {
        const double x0 = left + lane * (inches(c.plan.sheet.width) + gap);
        lane_end = std::fmin(x0 + inches(c.plan.sheet.width), whole.max_corner().x());
        add(lane_end, bottom, std::fmin(lane_end + gap, whole.max_corner().x() + 1.0), top);
    }
    for (const auto& [lane, indexes] : lanes_of(c.sheets)) {
        const double x0 = left + lane * (inches(c.plan.sheet.width) + gap);
        const double x1 = std::fmin(x0 + inches(c.plan.sheet.width), whole.max_corner().x());
        for (std::size_t k = 0; k < indexes.size(); ++k) {
            const double end = bounds(pieces[indexes[k]]).max_corner().y();
            // Past the last piece at most a gap and half a tick stay bare: nobody cuts a piece thinner than that.
            const double bare = end + gap + inches(c.plan.tick.step()) / 2.0;
            const double next = k + 1 < indexes.size() ? bounds(pieces[indexes[k + 1]]).min_corner().y() : bare;
            CHECK(next - end >= gap - rounding);
            add(x0, end, x1, next);
        }
    }
    CHECK(std::fabs(laid + gaps - bg::area(outline)) < 1e-6);
    CHECK(std::fabs(square_inches(c.sheets.laid) - laid) < 1e-6);
}

/// Rounded lengths and gaps of every lane end within half a tick of where they should.
void check_closure(const Case& c, bool rectangular) {
    const double half_tick = inches(c.plan.tick.step()) / 2.0 + tolerance;
    double worst = 0.0;
    double across = 0.0;
    double from = std::numeric_limits<double>::infinity();
    double to = -from;
    for (const auto& [lane, indexes] : lanes_of(c.sheets)) {
        const Box first = bounds(c.polygon(c.sheets.pieces[indexes.front()].outline));
        const Box last = bounds(c.polygon(c.sheets.pieces[indexes.back()].outline));
        double rounded = inches(c.plan.gap) * static_cast<double>(indexes.size() - 1);
        for (const std::size_t i : indexes) {
            rounded += inches(c.sheets.pieces[i].length);
        }
        const double miss = std::fabs(rounded - (last.max_corner().y() - first.min_corner().y()));
        CHECK(miss <= half_tick);
        worst = std::fmax(worst, miss);
        across += inches(c.sheets.pieces[indexes.front()].width) + (lane > 0 ? inches(c.plan.gap) : 0.0);
        from = std::fmin(from, first.min_corner().x());
        to = std::fmax(to, first.max_corner().x());
    }
    CHECK(std::fabs(inches(c.sheets.closure.worst_lane) - worst) < 1e-7);
    if (rectangular) {
        CHECK(std::fabs(across - (to - from)) <= half_tick);
        CHECK(std::fabs(inches(c.sheets.closure.across) - std::fabs(across - (to - from))) < 1e-7);
    }
}

/// Height of a support's centre at `x`, by its own interpolation.
double centre_at(const std::vector<Point>& line, double x) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        if (x <= line[i].x() || i + 1 == line.size()) {
            const Point a = line[i - 1];
            const Point b = line[i];
            return a.y() + (x - a.x()) * (b.y() - a.y()) / (b.x() - a.x());
        }
    }
    return line.front().y();
}
struct SeenSupport {
    std::vector<Point> line;
    double width;
};
std::vector<SeenSupport> supports_seen(const Case& c) {
    std::vector<SeenSupport> result;
    for (const SupportLine& line : c.lines) {
        SeenSupport seen{{}, inches(line.width)};
        for (const PlanePoint p : line.centreline) {
            seen.line.push_back(c.seen(p));
        }
        std::sort(seen.line.begin(), seen.line.end(), [](Point a, Point b) { return a.x() < b.x(); });
        result.push_back(seen);
    }
    return result;
}
/// The stretch of a piece's boundary at `y`.
std::pair<double, double> stretch_at(const Polygon& piece, double y) {
    std::pair<double, double> stretch{std::numeric_limits<double>::infinity(),
                                      -std::numeric_limits<double>::infinity()};
    for (const Point p : piece.outer()) {
        if (std::fabs(p.y() - y) < tolerance) {
            stretch = {std::fmin(stretch.first, p.x()), std::fmax(stretch.second, p.x())};
        }
    }
    return stretch;
}
std::vector<double> samples(const SeenSupport& support, std::pair<double, double> stretch) {
    std::vector<double> xs;
    for (int i = 0; i <= 40; ++i) {
        xs.push_back(stretch.first + (stretch.second - stretch.first) * i / 40.0);
    }
    xs.push_back(stretch.second);
    for (const Point p : support.line) {
        if (p.x() > stretch.first && p.x() < stretch.second) {
            xs.push_back(p.x());
        }
    }
    return xs;
}
struct Bearing {
    double first;
    double second;
};
Bearing bearing_on(const SeenSupport& support, double first_end, double second_end, std::pair<double, double> stretch) {
    Bearing least{support.width, support.width};
    for (const double x : samples(support, stretch)) {
        const double low = centre_at(support.line, x) - support.width / 2.0;
        const double high = low + support.width;
        const auto over = [&](double end) { return end >= low && end <= high + tolerance; };
        least.first = std::fmin(least.first, over(first_end) ? first_end - low : 0.0);
        const bool second_over = second_end <= high && second_end >= low - tolerance;
        least.second = std::fmin(least.second, second_over ? high - second_end : 0.0);
    }
    return least;
}

using Predicted = std::vector<std::tuple<int, std::size_t, double>>;

double past_nearest(const std::vector<SeenSupport>& supports, double end, double x, double outward) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const SeenSupport& support : supports) {
        const double inner = (end - centre_at(support.line, x)) * outward + support.width / 2.0;
        if (inner >= -tolerance) {
            nearest = std::fmin(nearest, std::fmax(inner - support.width, 0.0));
        }
    }
    return nearest;
}

/// Every joint and every finding, from all supports and the outlines of the pieces alone.
void check_findings(const Case& c) {
    const std::vector<SeenSupport> supports = supports_seen(c);
    Predicted expected;
    std::size_t joint_index = 0;
    const double least = inches(c.plan.least_bearing);
    const auto edge = [&](std::size_t piece, const Polygon& polygon, double outward) {
        const Box box = bounds(polygon);
        const double end = outward > 0.0 ? box.max_corner().y() : box.min_corner().y();
        const auto stretch = stretch_at(polygon, end);
        const double past = std::fmax(past_nearest(supports, end, stretch.first, outward),
                                      past_nearest(supports, end, stretch.second, outward));
        if (past > inches(c.plan.edge_reach) + tolerance) {
            const bool none = std::isinf(past);
            expected.emplace_back(4, piece, none ? box.max_corner().y() - box.min_corner().y() : past);
        }
    };
    for (const auto& [lane, indexes] : lanes_of(c.sheets)) {
        for (std::size_t k = 0; k < indexes.size(); ++k) {
            const Polygon polygon = c.polygon(c.sheets.pieces[indexes[k]].outline);
            const Box box = bounds(polygon);
            const double length = box.max_corner().y() - box.min_corner().y();
            const double width = box.max_corner().x() - box.min_corner().x();
            if (length + tolerance < inches(c.plan.sliver)) {
                expected.emplace_back(2, indexes[k], length);
            }
            if (width + tolerance < inches(c.plan.sliver)) {
                expected.emplace_back(3, indexes[k], width);
            }
            if (k == 0) {
                edge(indexes[k], polygon, -1.0);
            }
            if (k + 1 == indexes.size()) {
                edge(indexes[k], polygon, 1.0);
                continue;
            }
            const Box above = bounds(c.polygon(c.sheets.pieces[indexes[k + 1]].outline));
            const double first_end = box.max_corner().y();
            const double second_end = above.min_corner().y();
            const auto stretch = stretch_at(polygon, first_end);
            if (!(stretch.second > stretch.first)) {
                continue;
            }
            std::optional<std::size_t> best;
            Bearing bearing{0.0, 0.0};
            for (std::size_t s = 0; s < supports.size(); ++s) {
                const Bearing b = bearing_on(supports[s], first_end, second_end, stretch);
                const double poorer = std::fmin(b.first, b.second);
                const double best_poorer = std::fmin(bearing.first, bearing.second);
                if (poorer > best_poorer ||
                    (poorer == best_poorer && b.first + b.second > bearing.first + bearing.second)) {
                    best = s;
                    bearing = b;
                }
            }
            REQUIRE(joint_index < c.sheets.joints.size());
            const EndJoint& joint = c.sheets.joints[joint_index++];
            CHECK(joint.first == indexes[k]);
            CHECK(joint.second == indexes[k + 1]);
            CHECK(joint.support == best);
            CHECK(std::fabs(inches(joint.first_bearing) - bearing.first) < rounding);
            CHECK(std::fabs(inches(joint.second_bearing) - bearing.second) < rounding);
            CHECK(std::fabs(c.seen(joint.from).y() - (first_end + second_end) / 2.0) < rounding);
            const auto judge = [&](std::size_t piece, double measured) {
                if (measured <= 0.0 || measured + tolerance < least) {
                    expected.emplace_back(best && measured > 0.0 ? 1 : 0, piece, measured);
                }
            };
            judge(indexes[k], bearing.first);
            judge(indexes[k + 1], bearing.second);
        }
    }
    CHECK(joint_index == c.sheets.joints.size());
    Predicted found;
    for (const Finding& finding : c.sheets.findings) {
        found.emplace_back(static_cast<int>(finding.code), finding.piece, inches(finding.measured));
        const bool at_joint =
            finding.code == FindingCode::joint_on_nothing || finding.code == FindingCode::narrow_bearing;
        CHECK(finding.block.has_value() == at_joint);
    }
    std::sort(expected.begin(), expected.end());
    std::sort(found.begin(), found.end());
    REQUIRE(found.size() == expected.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
        CHECK(std::get<0>(found[i]) == std::get<0>(expected[i]));
        CHECK(std::get<1>(found[i]) == std::get<1>(expected[i]));
        CHECK(std::fabs(std::get<2>(found[i]) - std::get<2>(expected[i])) < rounding);
    }
}

/// Cut back to supports, every joint lies over the middle of one, at the middle of its lane.
void check_on_supports(const Case& c, bool rectangular) {
    if (c.plan.joints != JointPlace::on_supports || !rectangular) {
        return;
    }
    const std::vector<SeenSupport> supports = supports_seen(c);
    for (const EndJoint& joint : c.sheets.joints) {
        const Point from = c.seen(joint.from);
        const Point to = c.seen(joint.to);
        double nearest = std::numeric_limits<double>::infinity();
        for (const SeenSupport& support : supports) {
            nearest = std::fmin(nearest, std::fabs(centre_at(support.line, (from.x() + to.x()) / 2.0) - from.y()));
        }
        CHECK(nearest < rounding);
    }
}

void check_all(const Case& c, bool rectangular) {
    check_pieces(c);
    check_closure(c, rectangular);
    check_findings(c);
    check_on_supports(c, rectangular);
}
}  // namespace

TEST_CASE("rectangular planes over purlins") {
    SeededNumbers random{1001};
    for (int i = 0; i < sweep(1500); ++i) {
        CAPTURE(i);
        check_all(over_purlins(random, 0.0), true);
    }
}

TEST_CASE("rectangular planes over chords") {
    SeededNumbers random{1002};
    for (int i = 0; i < sweep(1500); ++i) {
        CAPTURE(i);
        check_all(over_chords(random, 0.0), true);
    }
}

TEST_CASE("measured planes over purlins") {
    SeededNumbers random{1003};
    for (int i = 0; i < sweep(1500); ++i) {
        CAPTURE(i);
        check_all(over_purlins(random, 2.0), false);
    }
}

TEST_CASE("measured planes over chords") {
    SeededNumbers random{1004};
    for (int i = 0; i < sweep(1500); ++i) {
        CAPTURE(i);
        check_all(over_chords(random, 2.0), false);
    }
}
