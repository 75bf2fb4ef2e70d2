// SPDX-License-Identifier: BSL-1.0

// Sheets on planes of any outline: every place of the grid is cut anew by an oracle, and its pieces are weighed against it.
// Right-angled planes in whole sixty-fourths by integers, slanted ones by Boost.Geometry without its rescaling. Each cell
// is summed up under its edges as well, and overlay and sum must agree.

#include <eavewright/tiling/check_layout.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include "support/printing.hpp"
#include "support/table.hpp"
#include "tiling/any_planes.hpp"

#include <doctest/doctest.h>
#include <boost/geometry/algorithms/area.hpp>
#include <boost/geometry/algorithms/correct.hpp>
#include <boost/geometry/algorithms/intersection.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
namespace bg = boost::geometry;
using Point = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<Point, false, false>;
using Polygons = bg::model::multi_polygon<Polygon>;

/// One place of the grid, in lane coordinates: x across the lanes from the start corner, y along them.
struct Cell {
    double left, right, low, high;
};

/// A laid plane, and the way from its points to lane coordinates.
struct Laid {
    PurlinPlane plane;
    SheetPlan plan;
    SupportRun run;
    Length spacing;
    Sheets sheets;

    [[nodiscard]] Point seen(PlanePoint p) const {
        const Extent extent = extent_of(plane.outline);
        const double along = plan.start == StartCorner::eave_right
                                 ? inches(extent.high.along + extent.low.along - p.along)
                                 : inches(p.along);
        return run == SupportRun::along_eave ? Point(along, inches(p.up)) : Point(inches(p.up), along);
    }
    [[nodiscard]] Polygon polygon(const std::vector<PlanePoint>& outline,
                                  const std::vector<std::vector<PlanePoint>>& holes) const {
        Polygon result;
        for (const PlanePoint p : outline) {
            result.outer().push_back(seen(p));
        }
        for (const std::vector<PlanePoint>& hole : holes) {
            result.inners().emplace_back();
            for (const PlanePoint p : hole) {
                result.inners().back().push_back(seen(p));
            }
        }
        bg::correct(result);
        return result;
    }
};

/// Lane edges and sheet ends from the plan alone: whole sheets with their gaps, the first lane ripped, lanes staggered.
std::vector<Cell> cells_of(const Laid& laid, double gap_share_across, double gap_share_up) {
    const Polygon plane = laid.polygon(laid.plane.outline, {});
    double left = 1e9, right = -1e9, low = 1e9, high = -1e9;
    for (const Point& p : plane.outer()) {
        left = std::fmin(left, p.x());
        right = std::fmax(right, p.x());
        low = std::fmin(low, p.y());
        high = std::fmax(high, p.y());
    }
    const double width = inches(laid.plan.sheet.width);
    const double length = inches(laid.plan.sheet.length);
    const double gap = inches(laid.plan.gap);
    std::vector<Cell> cells;
    for (int lane = 0; left + (width + gap) * lane - inches(laid.plan.rip_first) < right; ++lane) {
        const double from = left + (width + gap) * lane - inches(laid.plan.rip_first);
        double start = low;
        double size = length - inches(laid.spacing) * (laid.plan.start_spaces + (lane % 2) * laid.plan.stagger_spaces);
        while (start < high) {
            cells.push_back({std::fmax(from, left), from + width + gap * gap_share_across, start,
                             start + size + gap * gap_share_up});
            start += size + gap;
            size = length;
        }
    }
    return cells;
}

std::int64_t in_64ths(double inches) { return static_cast<std::int64_t>(std::llround(inches * 64.0)); }

/// Area of a right-angled outline within a cell in square sixty-fourths: the sum over its level edges of how much of the
/// cell lies above each, with the sign of its direction.
std::int64_t area_within(const Laid& laid, const std::vector<PlanePoint>& ring, const Cell& cell) {
    std::int64_t area = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = laid.seen(ring[i]);
        const Point b = laid.seen(ring[(i + 1) % ring.size()]);
        if (a.y() != b.y()) {
            continue;
        }
        const std::int64_t low = std::max(in_64ths(std::fmin(a.x(), b.x())), in_64ths(cell.left));
        const std::int64_t high = std::min(in_64ths(std::fmax(a.x(), b.x())), in_64ths(cell.right));
        const std::int64_t above = in_64ths(cell.high) - std::max(in_64ths(a.y()), in_64ths(cell.low));
        if (high > low && above > 0) {
            area += (high - low) * above * (a.x() < b.x() ? 1 : -1);
        }
    }
    return area < 0 ? -area : area;
}

std::int64_t area_within(const Laid& laid, const Cell& cell) {
    std::int64_t area = area_within(laid, laid.plane.outline, cell);
    for (const std::vector<PlanePoint>& opening : laid.plane.openings) {
        area -= area_within(laid, opening, cell);
    }
    return area;
}

double area_by_overlay(const Polygon& plane, const Cell& cell) {
    Polygon box;
    box.outer() = {Point(cell.left, cell.low), Point(cell.right, cell.low), Point(cell.right, cell.high),
                   Point(cell.left, cell.high)};
    Polygons parts;
    bg::intersection(plane, box, parts);
    return bg::area(parts);
}

/// Area within a cell as a sum under its edges: of each, the signed area between it and the cell's top.
double area_under_edges(const Polygon& plane, const Cell& cell) {
    const auto under = [&](const Point& a, const Point& b) {
        const double low = std::fmax(std::fmin(a.x(), b.x()), cell.left);
        const double high = std::fmin(std::fmax(a.x(), b.x()), cell.right);
        if (!(high > low)) {
            return 0.0;
        }
        const double rise = (b.y() - a.y()) / (b.x() - a.x());
        const auto y_at = [&](double x) { return a.y() + (x - a.x()) * rise; };
        std::array<double, 4> at{low, high, high, high};  // where the edge passes through the cell's bottom and top
        for (std::size_t k = 0; rise != 0.0 && k < 2; ++k) {
            const double x = a.x() + ((k == 0 ? cell.low : cell.high) - a.y()) / rise;
            at[k + 1] = std::fmin(std::fmax(x, low), high);
        }
        std::sort(at.begin(), at.end());
        double area = 0.0;
        for (std::size_t k = 0; k + 1 < at.size(); ++k) {
            const double y = std::fmax(y_at((at[k] + at[k + 1]) / 2.0), cell.low);
            area += (at[k + 1] - at[k]) * std::fmax(cell.high - y, 0.0);
        }
        return a.x() < b.x() ? area : -area;
    };
    double area = 0.0;
    const auto add = [&](const auto& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            area += under(ring[i], ring[(i + 1) % ring.size()]);
        }
    };
    add(plane.outer());
    for (const auto& hole : plane.inners()) {
        add(hole);
    }
    return area;
}

/// The highest point of the plane between two lines up its lanes.
double top_between(const Polygon& plane, double left, double right) {
    double top = -1e9;
    const auto& ring = plane.outer();
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point& a = ring[i];
        const Point& b = ring[(i + 1) % ring.size()];
        for (const double x : {a.x(), left, right}) {
            const bool on_edge = x >= std::fmin(a.x(), b.x()) && x <= std::fmax(a.x(), b.x());
            if (on_edge && x >= left && x <= right) {
                top = std::fmax(top, a.x() == b.x() ? std::fmax(a.y(), b.y())
                                                    : a.y() + (x - a.x()) * ((b.y() - a.y()) / (b.x() - a.x())));
            }
        }
    }
    return top;
}

double area_of(const SheetPiece& piece) { return square_inches(net_area({piece.outline, piece.cutouts})); }

/// Every piece lies within one cell of the grid; gives back the pieces' areas by cell.
std::vector<double> areas_by_cell(const Laid& laid, const std::vector<Cell>& cells) {
    const auto add = [](double slack) { return slack + 1e-9; };
    std::vector<double> areas(cells.size(), 0.0);
    for (const SheetPiece& piece : laid.sheets.pieces) {
        const Polygon polygon = laid.polygon(piece.outline, piece.cutouts);
        std::size_t home = cells.size();
        for (std::size_t c = 0; c < cells.size() && home == cells.size(); ++c) {
            bool inside = true;
            for (const Point& p : polygon.outer()) {
                inside = inside && p.x() >= cells[c].left - add(0) && p.x() <= cells[c].right + add(0) &&
                         p.y() >= cells[c].low - add(0) && p.y() <= cells[c].high + add(0);
            }
            home = inside ? c : home;
        }
        REQUIRE(home < cells.size());
        areas[home] += area_of(piece);
    }
    return areas;
}

/// Straight supports from edge to edge, at the spacing, whatever the outline.
template <Surface surface>
Supports<surface> straight_supports(const Plane<surface>& plane, SupportRun run, Length spacing) {
    const Extent extent = extent_of(plane.outline);
    Supports<surface> supports{run, {}, spacing};
    const Length past = one_inch * 100.0;
    const bool along = run == SupportRun::along_eave;
    const Length high = along ? extent.high.up : extent.high.along;
    for (Length at = one_inch / 2.0; at < high; at += spacing) {
        supports.lines.push_back(along ? SupportLine{{{-past, at}, {extent.high.along + past, at}}, 1.5_in}
                                       : SupportLine{{{at, -past}, {at, extent.high.up + past}}, 1.5_in});
    }
    return supports;
}

/// A random plan; in whole sixty-fourths.
SheetPlan random_grid(SeededNumbers& random) {
    SheetPlan plan{.sheet = random.coin() ? SheetSize{48_in, 96_in} : SheetSize{32_in, 72.25_in}};
    plan.gap = random.coin() ? no_length : one_inch / 8.0;
    plan.stagger_spaces = random.whole(0, 1);
    plan.start_spaces = random.whole(0, 1);
    plan.rip_first = random.coin() ? no_length : one_inch * random.whole(0, 31);
    plan.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
    plan.tick = Tick::of_inch(64);
    return plan;
}

/// The library's own checker, which knows nothing of laying.
Faults judge(const Laid& laid, double bare) {
    return find_faults_of_layout(laid.sheets, laid.plane.outline, laid.plane.openings, laid.plan.sheet,
                                 Area::from_value(bare));
}

Laid lay(PurlinPlane plane, SeededNumbers& random) {
    const SheetPlan plan = random_grid(random);
    const SupportRun run = random.coin() ? SupportRun::along_eave : SupportRun::up_slope;
    const Length spacing = 24_in;
    Sheets sheets = tile_sheets(plane, straight_supports(plane, run, spacing), plan);
    return {std::move(plane), plan, run, spacing, std::move(sheets)};
}
}  // namespace

TEST_CASE("right-angled planes with openings, cell by cell in whole sixty-fourths") {
    SeededNumbers random{5001};
    for (int i = 0; i < sweep(10'000); ++i) {
        CAPTURE(i);
        const Laid laid = lay(right_angled_plane(random), random);
        const std::vector<Cell> cells = cells_of(laid, 0.0, 0.0);
        const std::vector<double> areas = areas_by_cell(laid, cells);
        std::int64_t pieces = 0;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            REQUIRE(areas[c] * 4096.0 == static_cast<double>(area_within(laid, cells[c])));
            pieces += area_within(laid, cells[c]);
        }
        // With every gap added to the sheet before it, the grid is the whole plane.
        std::int64_t with_gaps = 0;
        for (const Cell& cell : cells_of(laid, 1.0, 1.0)) {
            with_gaps += area_within(laid, cell);
        }
        CHECK(static_cast<double>(with_gaps) == 4096.0 * square_inches(net_area(laid.plane)));
        CHECK(std::fabs(4096.0 * square_inches(laid.sheets.laid) - static_cast<double>(pieces)) <
              1e-9 * static_cast<double>(with_gaps));
        CHECK(judge(laid, static_cast<double>(with_gaps - pieces) / 4096.0).empty());
    }
}

TEST_CASE("slanted planes with openings, cell by cell against an overlay") {
    SeededNumbers random{5002};
    std::int64_t all = 0;
    std::int64_t lost = 0;  // by the overlay
    const double half_tick = 1.0 / 128.0;
    for (int i = 0; i < sweep(10'000); ++i) {
        CAPTURE(i);
        const Laid laid = lay(slanted_plane(random), random);
        const Polygon plane = laid.polygon(laid.plane.outline, laid.plane.openings);
        const double whole = square_inches(net_area(laid.plane));
        const std::vector<Cell> cells = cells_of(laid, 0.0, 0.0);
        const std::vector<double> areas = areas_by_cell(laid, cells);
        const std::vector<Cell> with_gaps = cells_of(laid, 1.0, 1.0);
        double pieces = 0.0;
        double gaps = 0.0;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            const double sum = area_under_edges(plane, cells[c]);
            const double overlay = area_by_overlay(plane, cells[c]);
            lost += std::fabs(overlay - sum) < 1e-9 * whole ? 0 : 1;
            const double reach = top_between(plane, cells[c].left, cells[c].right) - cells[c].low;
            const bool bare = reach <= half_tick + 1e-9;  // nobody cuts a piece shorter than half a tick
            CHECK(std::fabs(areas[c] - (bare ? 0.0 : sum)) < 1e-9 * whole);
            pieces += bare ? sum : areas[c];
            gaps += area_under_edges(plane, with_gaps[c]) - sum;
        }
        all += static_cast<std::int64_t>(cells.size());
        CHECK(std::fabs(pieces + gaps - whole) < 1e-9 * whole);
        double laid_area = 0.0;
        for (const SheetPiece& piece : laid.sheets.pieces) {
            laid_area += area_of(piece);
        }
        CHECK(std::fabs(square_inches(laid.sheets.laid) - laid_area) < 1e-9 * whole);
        CHECK(judge(laid, whole - laid_area).empty());
    }
    MESSAGE("the overlay and the sum under the edges differ in " << lost << " of " << all << " cells");
    CHECK(lost == 0);
}
