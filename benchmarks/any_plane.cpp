// SPDX-License-Identifier: BSL-1.0

// Sheets over the ten-cornered plane of tests/data/plane_10_corners.csv, 195 cells of 48 by 96 in, per cell: a general overlay,
// the library's cut alone, and the whole layout with pieces, joints, bearings and findings. And a million sheets.

#define BOOST_GEOMETRY_NO_ROBUSTNESS
#include <eavewright/order/search_layouts.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include <benchmark/benchmark.h>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include <cstddef>
#include <initializer_list>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
namespace bg = boost::geometry;
using Point = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<Point, false, false>;

constexpr int lanes = 15;
constexpr int rows_of_cells = 13;

[[nodiscard]] std::vector<PlanePoint> ring(std::initializer_list<std::pair<double, double>> corners) {
    std::vector<PlanePoint> points;
    for (const auto& [along, up] : corners) {
        points.push_back({one_inch * along, one_inch * up});
    }
    return points;
}
[[nodiscard]] PurlinPlane ten_corners() {
    using enum EdgeKind;
    return {
        Pitch::in_12(4),
        ring({{0, 0},
              {300, 0},
              {300, 60},
              {420, 60},
              {420, 0},
              {720, 0},
              {720, 1248},
              {400, 1248},
              {400, 1150},
              {0, 1150}}),
        {eave, rake, eave, rake, eave, rake, ridge, rake, ridge, rake},
        {ring({{100, 200}, {136, 200}, {136, 236}, {100, 236}}), ring({{500, 500}, {548, 500}, {548, 596}, {500, 596}}),
         ring({{250, 800}, {286, 800}, {286, 836}, {250, 836}})},
        {{no_length, no_length, no_length}, 1.0, 0.0}};
}
void per_cell(benchmark::State& state, double area) {
    state.counters["a_cell"] = benchmark::Counter(static_cast<double>(state.iterations()) * lanes * rows_of_cells,
                                                  benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
    state.counters["sq_in"] = area;
}

void cells_by_overlay(benchmark::State& state) {
    const PurlinPlane plane = ten_corners();
    Polygon polygon;
    for (const PlanePoint p : plane.outline) {
        polygon.outer().emplace_back(inches(p.along), inches(p.up));
    }
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        polygon.inners().emplace_back();
        for (const PlanePoint p : opening) {
            polygon.inners().back().emplace_back(inches(p.along), inches(p.up));
        }
    }
    bg::correct(polygon);
    double area = 0.0;
    for (auto _ : state) {
        area = 0.0;
        for (int lane = 0; lane < lanes; ++lane) {
            for (int row = 0; row < rows_of_cells; ++row) {
                const double x = 48.0 * lane;
                const double y = 96.0 * row;
                Polygon box;
                box.outer() = {Point(x, y), Point(x + 48, y), Point(x + 48, y + 96), Point(x, y + 96)};
                std::vector<Polygon> parts;
                bg::intersection(polygon, box, parts);
                for (const Polygon& part : parts) {
                    area += bg::area(part);
                }
            }
        }
        benchmark::DoNotOptimize(area);
    }
    per_cell(state, area);
}
BENCHMARK(cells_by_overlay)->Unit(benchmark::kMicrosecond);

void cells_cut(benchmark::State& state) {
    const PurlinPlane plane = ten_corners();
    double area = 0.0;
    detail::CutRoom room;
    detail::Rings ahead;
    detail::Rings strip;
    detail::Rings cell;
    detail::Rings spare;
    for (auto _ : state) {
        area = 0.0;
        ahead = detail::rings_of(plane.outline, plane.openings);
        for (int lane = 1; lane <= lanes; ++lane) {
            detail::keep_side(ahead, {detail::Axis::along, 48_in * lane, false}, strip, room);
            detail::keep_side(ahead, {detail::Axis::along, 48_in * lane, true}, spare, room);
            std::swap(ahead, spare);
            for (int row = 1; row <= rows_of_cells; ++row) {
                detail::keep_side(strip, {detail::Axis::up, 96_in * row, false}, cell, room);
                detail::keep_side(strip, {detail::Axis::up, 96_in * row, true}, spare, room);
                std::swap(strip, spare);
                std::size_t from = 0;
                for (const std::size_t end : cell.ends) {
                    area += detail::twice_area(cell.points.data() + from, end - from) / 2.0;
                    from = end;
                }
            }
        }
        benchmark::DoNotOptimize(area);
    }
    per_cell(state, area);
}
BENCHMARK(cells_cut)->Unit(benchmark::kMicrosecond);

void cells_laid(benchmark::State& state) {
    const PurlinPlane plane = ten_corners();
    const Supports<Surface::purlin_top> supports = supports_of(purlin_rows(plane, Fixed{24_in}));
    const SheetPlan plan{.sheet = {48_in, 96_in}, .gap = 0_in};
    double area = 0.0;
    for (auto _ : state) {
        const Sheets sheets = tile_sheets(plane, supports, plan);
        area = square_inches(sheets.laid);
        benchmark::ClobberMemory();
    }
    per_cell(state, area);
}
BENCHMARK(cells_laid)->Unit(benchmark::kMicrosecond);

/// 1000 lanes of 1000 sheets.
void a_million_sheets(benchmark::State& state) {
    const Length along = 48_in * 1000;
    const Length up = 96_in * 1000;
    const PurlinPlane plane{Pitch::in_12(4),
                            {{0_in, 0_in}, {along, 0_in}, {along, up}, {0_in, up}},
                            {EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake},
                            {},
                            {{no_length, no_length, no_length}, 1.0, 0.0}};
    Supports<Surface::purlin_top> supports{SupportRun::along_eave, {}, 96_in};
    for (int row = 0; row <= 1000; ++row) {
        supports.lines.push_back({{{0_in, 96_in * row}, {along, 96_in * row}}, 1.5_in});
    }
    const SheetPlan plan{.sheet = {48_in, 96_in}, .gap = 0_in, .stagger_spaces = 0};
    std::size_t pieces = 0;
    for (auto _ : state) {
        const Sheets sheets = tile_sheets(plane, supports, plan);
        pieces = sheets.pieces.size();
        state.counters["megabytes"] = static_cast<double>(pieces * (sizeof(SheetPiece) + 4 * sizeof(PlanePoint) + 16) +
                                                          sheets.joints.capacity() * sizeof(EndJoint)) /
                                      1e6;
    }
    state.counters["pieces"] = static_cast<double>(pieces);
}
BENCHMARK(a_million_sheets)->Unit(benchmark::kMillisecond)->Iterations(1);

/// Both slopes of the demo workshop, every layout that the search thinks of.
void search_the_demo(benchmark::State& state) {
    const RoofShape shape = gable({.width = 36_ft,
                                   .length = 60_ft,
                                   .pitch = Pitch::in_12(4),
                                   .eave_overhang = 18_in,
                                   .rake_overhang = 12_in,
                                   .build_up = {.purlin = 5.5_in},
                                   .bearing_height = 12_ft,
                                   .heel = 6_in});
    std::vector<PurlinPlane> planes;
    std::vector<Supports<Surface::purlin_top>> supports;
    for (const Slope& slope : shape.slopes) {
        planes.push_back(slope.purlin);
        supports.push_back(supports_of(purlin_rows(slope.purlin, ToSheets{96_in, 0.125_in, 4})));
    }
    double sheets = 0.0;
    double tried = 0.0;
    for (auto _ : state) {
        const FoundLayout found =
            search_layouts(planes, supports, {.plain = {.sheet = {48_in, 96_in}}, .stock = {.sheet = {48_in, 96_in}}});
        sheets = static_cast<double>(found.score.sheets);
        tried = static_cast<double>(found.tried);
    }
    state.counters["sheets"] = sheets;
    state.counters["tried"] = tried;
}
BENCHMARK(search_the_demo)->Unit(benchmark::kMillisecond);
}  // namespace
