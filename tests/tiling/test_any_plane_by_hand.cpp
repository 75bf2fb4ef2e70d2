// SPDX-License-Identifier: BSL-1.0

// Sheets on a hip end, in a valley, around a skylight and on a plane a sixteenth too long, worked out by hand; what each
// edge rests on, and what the long edges need.
//
// On a 4 in 12 slope between equal pitches a hip or valley rises sqrt(160) / 12 = sqrt(10) / 3 = 1.054093 in up the slope for
// every inch along the eave: 12 in of run to 12 in of eave, and the slope is sqrt(12^2 + 4^2) for 12 of run.

#include <eavewright/tiling/check_layout.hpp>
#include <eavewright/tiling/edge_support.hpp>
#include <eavewright/tiling/piece_edges.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "tiling/any_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const double rise = std::sqrt(10.0) / 3.0;
const SheetPlan no_gap{.sheet = {48_in, 96_in}, .gap = 0_in, .stagger_spaces = 0};

double area_of(const SheetPiece& piece) { return square_inches(net_area({piece.outline, piece.cutouts})); }
bool near_to(double a, double b) { return std::fabs(a - b) < 1e-9; }

std::size_t count_rests(const std::vector<PieceEdge>& edges, EdgeRest rest) {
    return static_cast<std::size_t>(
        std::count_if(edges.begin(), edges.end(), [&](const PieceEdge& edge) { return edge.rest == rest; }));
}
std::size_t count_found(const Sheets& sheets, FindingCode code) {
    return static_cast<std::size_t>(std::count_if(sheets.findings.begin(), sheets.findings.end(),
                                                  [&](const Finding& finding) { return finding.code == code; }));
}
PurlinRows rows_on(const PurlinPlane& plane) {
    return purlin_rows(plane, Fixed{24_in}, {.stock = {.lie = PurlinLie::on_edge}});
}
}  // namespace

TEST_CASE("a hip end 24 ft wide") {
    // Half the width is 144 in, so that the point lies 144 x 1.054093 = 151.789 in up the slope.
    const Length top = 144_in * rise;
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {288_in, 0_in}, {144_in, top}});
    REQUIRE(plane.edges == std::vector<EdgeKind>{EdgeKind::eave, EdgeKind::hip, EdgeKind::hip});
    const PurlinRows rows = rows_on(plane);
    // Rows at 24, 48, ... 144, over the fascia's at 0.75; the one at 144 is 288 - 2 x 144 / 1.054093 = 14.779 in long.
    REQUIRE(rows.rows.size() == 7);
    CHECK(near_to(inches(rows.rows[0].centreline[0].up), 0.75));
    for (std::size_t k = 1; k < 7; ++k) {
        const double up = 24.0 * static_cast<double>(k);
        REQUIRE(rows.rows[k].stretches.size() == 1);
        CHECK(near_to(inches(rows.rows[k].stretches[0].low), up / rise));
        CHECK(near_to(inches(rows.rows[k].stretches[0].high), 288.0 - up / rise));
    }
    const Sheets sheets = tile_sheets(plane, rows, no_gap);
    // Six lanes. The first reaches 48 x 1.054093 = 50.596 in, a triangle; the second 101.193 in, so that a second piece lies
    // above 96 in; the third to the point, cut along the hip from 101.193 to 151.789 in; then the same from the right.
    REQUIRE(sheets.lanes == 6);
    REQUIRE(sheets.pieces.size() == 10);
    CHECK(near_to(area_of(sheets.pieces[0]), 48.0 * 48.0 * rise / 2.0));
    const double met = 96.0 / rise;  // 91.074 in: where the hip passes the first sheet's upper end
    CHECK(near_to(area_of(sheets.pieces[1]), 48.0 * 96.0 - (met - 48.0) * (96.0 - 48.0 * rise) / 2.0));
    CHECK(near_to(area_of(sheets.pieces[2]), (96.0 - met) * (96.0 * rise - 96.0) / 2.0));
    CHECK(sheets.pieces[3].whole);
    CHECK(near_to(area_of(sheets.pieces[4]), 48.0 * (96.0 * rise - 96.0 + inches(top) - 96.0) / 2.0));
    for (std::size_t k = 0; k < 5; ++k) {  // the right half mirrors the left
        CHECK(near_to(area_of(sheets.pieces[k]), area_of(sheets.pieces[k == 0 ? 9 : k == 1 ? 7 : k == 2 ? 8 : k + 2])));
    }
    CHECK(near_to(square_inches(sheets.laid), 288.0 * 144.0 * rise / 2.0));
    // The tips above 96 in are 96 - 91.074 = 4.926 in wide and 5.193 in long: both slivers, twice.
    CHECK(count_found(sheets, FindingCode::sliver_width) == 2);
    CHECK(count_found(sheets, FindingCode::sliver_length) == 2);
    // Joints at 96 in lie over the row there; the hip rafters carry the slanted edges.
    CHECK(sheets.joints.size() == 4);
    CHECK(count_found(sheets, FindingCode::joint_on_nothing) == 0);
    CHECK(count_found(sheets, FindingCode::edge_past_support) == 0);
    const std::vector<PieceEdge> edges = piece_edges(sheets, plane, no_gap);
    CHECK(count_rests(edges, EdgeRest::at_hip) == 8);      // pieces 1, 2, 3 and 5 of each half
    CHECK(count_rests(edges, EdgeRest::on_support) == 8);  // four joints, from both sides
    CHECK(count_rests(edges, EdgeRest::at_outer_edge) == 6);
    CHECK(count_rests(edges, EdgeRest::at_opening) == 0);
    // Long edges: at 48, 96, 144, 192 and 240 in along, two sides each: one piece either side at 48, two at 144; at 96 the tip
    // has one beside it, and so has the lower sheet.
    CHECK(count_rests(edges, EdgeRest::between_supports) == 2 + 4 + 4 + 4 + 2);
}

TEST_CASE("a plane that ends in a valley") {
    // Eave 144 in, then a valley up to the right over 96 in; the ridge lies 96 x 1.054093 = 101.193 in up.
    const Length top = 96_in * rise;
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {144_in, 0_in}, {240_in, top}, {0_in, top}});
    REQUIRE(plane.edges == std::vector<EdgeKind>{EdgeKind::eave, EdgeKind::valley, EdgeKind::ridge, EdgeKind::rake});
    SheetPlan plan = no_gap;
    plan.tick = Tick::of_inch(64);
    const Sheets sheets = tile_sheets(plane, rows_on(plane), plan);
    // Five lanes of two pieces. The fourth sheet lies on the valley from 0 to 50.596 in: 48 x 96 less a triangle of 48 by 50.596.
    REQUIRE(sheets.pieces.size() == 10);
    CHECK(near_to(area_of(sheets.pieces[6]), 48.0 * 96.0 - 48.0 * 48.0 * rise / 2.0));
    CHECK(sheets.pieces[6].slanted);
    CHECK(sheets.pieces[6].length == 96_in);
    // The fifth starts on the valley at 50.596 in and meets it again at its upper end, 91.074 - 48 = 43.074 in along it.
    const double met = 96.0 / rise - 48.0;
    CHECK(near_to(area_of(sheets.pieces[8]), met * (96.0 - 48.0 * rise) / 2.0));
    CHECK(near_to(square_inches(sheets.laid), inches(top) * (144.0 + 240.0) / 2.0));
    const std::vector<PieceEdge> edges = piece_edges(sheets, plane, plan);
    CHECK(count_rests(edges, EdgeRest::at_valley) == 3);
    CHECK(count_rests(edges, EdgeRest::at_hip) == 0);
    // 101.193 - 96 = 5.193 in above the joint: five slivers that another start would avoid.
    CHECK(count_found(sheets, FindingCode::sliver_length) == 5);
}

TEST_CASE("a skylight on a joint") {
    // Two lanes of two sheets; 24 by 24 in out of the middle takes 12 x 12 in of each.
    PurlinPlane plane = any_plane({{0_in, 0_in}, {96_in, 0_in}, {96_in, 192_in}, {0_in, 192_in}});
    plane.openings = {{{36_in, 84_in}, {60_in, 84_in}, {60_in, 108_in}, {36_in, 108_in}}};
    const PurlinRows rows = rows_on(plane);
    // The row at 96 in stops at the skylight and goes on behind it.
    REQUIRE(rows.rows[4].stretches.size() == 2);
    CHECK(rows.rows[4].stretches[0].high == 36_in);
    CHECK(rows.rows[4].stretches[1].low == 60_in);
    CHECK(rows.rows[3].stretches.size() == 1);
    const Sheets sheets = tile_sheets(plane, rows, no_gap);
    REQUIRE(sheets.pieces.size() == 4);
    for (const SheetPiece& piece : sheets.pieces) {
        CHECK(area_of(piece) == 48.0 * 96.0 - 12.0 * 12.0);
        CHECK(piece.outline.size() == 6);
        CHECK(piece.slanted);
        CHECK_FALSE(piece.whole);
        CHECK(piece.length == 96_in);
        CHECK(piece.width == 48_in);
    }
    REQUIRE(sheets.joints.size() == 2);
    CHECK(sheets.joints[0].from == PlanePoint{0_in, 96_in});
    CHECK(sheets.joints[0].to == PlanePoint{36_in, 96_in});
    CHECK(sheets.joints[1].from == PlanePoint{60_in, 96_in});
    CHECK(sheets.joints[1].first_bearing == 0.75_in);
    // Below it the last purlin is at 72 in, 12 - 0.75 = 11.25 in short of the skylight's edge; above it the next at 120 in.
    REQUIRE(count_found(sheets, FindingCode::edge_past_support) == 4);
    CHECK(sheets.findings.back().measured == 11.25_in);
    const std::vector<PieceEdge> edges = piece_edges(sheets, plane, no_gap);
    CHECK(count_rests(edges, EdgeRest::at_opening) == 8);
    CHECK(count_rests(edges, EdgeRest::on_support) == 4);

    // Moved by 3 in to the left it leaves 48 - 9 = 39 in of one lane and 33 in of the other; moved by 33 in, a leg of 3 in.
    plane.openings = {{{3_in, 84_in}, {27_in, 84_in}, {27_in, 108_in}, {3_in, 108_in}}};
    const Sheets narrow = tile_sheets(plane, rows_on(plane), no_gap);
    CHECK(count_found(narrow, FindingCode::narrow_leg) == 2);

    // Wholly inside one sheet it is a cutout of that.
    plane.openings = {{{12_in, 24_in}, {36_in, 24_in}, {36_in, 72_in}, {12_in, 72_in}}};
    const Sheets inside = tile_sheets(plane, rows_on(plane), no_gap);
    REQUIRE(inside.pieces[0].cutouts.size() == 1);
    CHECK(area_of(inside.pieces[0]) == 48.0 * 96.0 - 24.0 * 48.0);
    CHECK(count_rests(piece_edges(inside, plane, no_gap), EdgeRest::at_opening) == 4);
}

TEST_CASE("a plane a sixteenth too long for three courses") {
    const auto lay = [](Length up, Length gap) {
        SheetPlan plan = no_gap;
        plan.gap = gap;
        const PurlinPlane plane = any_plane({{0_in, 0_in}, {48_in, 0_in}, {48_in, up}, {0_in, up}});
        return tile_sheets(plane, rows_on(plane), plan);
    };
    CHECK(lay(288_in, 0_in).pieces.size() == 3);
    // 288 1/16 in: a fourth piece of a sixteenth, which nobody wants; it is said, with its size.
    const Sheets fourth = lay(288.0625_in, 0_in);
    REQUIRE(fourth.pieces.size() == 4);
    CHECK(fourth.pieces[3].length == 0.0625_in);
    CHECK(count_found(fourth, FindingCode::sliver_length) == 1);
    // With gaps of 1/8 in three courses take 3 x 96 + 2 x 1/8 = 288 1/4 in; at 288 5/16 in the last 1/16 is less than a gap and
    // stays bare, under the ridge cap.
    const Sheets bare = lay(288.3125_in, 0.125_in);
    REQUIRE(bare.pieces.size() == 3);
    CHECK(square_inches(bare.laid) == 3.0 * 96.0 * 48.0);
    // At 288 7/16 in there is room for a gap and a sixteenth.
    CHECK(lay(288.4375_in, 0.125_in).pieces.size() == 4);
    // Started two spaces shorter, the pieces are 48, 96, 96 and 288.0625 - 240 = 48 1/16 in long.
    SheetPlan shorter_start = no_gap;
    shorter_start.start_spaces = 2;
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {48_in, 0_in}, {48_in, 288.0625_in}, {0_in, 288.0625_in}});
    const Sheets better = tile_sheets(plane, rows_on(plane), shorter_start);
    REQUIRE(better.pieces.size() == 4);
    CHECK(better.pieces[0].length == 48_in);
    CHECK(better.pieces[3].length == 48.0625_in);
    CHECK(count_found(better, FindingCode::sliver_length) == 0);
}

TEST_CASE("a first lane ripped, and a grid turned") {
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {100_in, 0_in}, {100_in, 96_in}, {0_in, 96_in}});
    SheetPlan plan = no_gap;
    plan.rip_first = 22_in;  // 26 + 48 + 26 instead of 48 + 48 + 4
    const Sheets sheets = tile_sheets(plane, rows_on(plane), plan);
    REQUIRE(sheets.pieces.size() == 3);
    CHECK(sheets.pieces[0].width == 26_in);
    CHECK(sheets.pieces[1].width == 48_in);
    CHECK(sheets.pieces[2].width == 26_in);
    // Turned by 1 in 96: up the left edge the grid walks 1 in to the left, so that the first lane loses a triangle of
    // 96 x 1 / 2 there less what its slanted foot adds; all pieces together are the plane.
    plan.rip_first = 0_in;
    plan.turn = 1.0 / 96.0;
    const Sheets turned = tile_sheets(plane, rows_on(plane), plan);
    CHECK(turned.turn == plan.turn);
    CHECK(std::fabs(square_inches(turned.laid) - 9600.0) < 12.0);  // strips thinner than half a tick stay bare
    for (const SheetPiece& piece : turned.pieces) {
        for (std::size_t i = 0; i < piece.outline.size(); ++i) {
            const PlanePoint a = piece.outline[i];
            const PlanePoint b = piece.outline[(i + 1) % piece.outline.size()];
            const double along = inches(b.along - a.along);
            const double up = inches(b.up - a.up);
            // Every edge lies on the plane's outline or runs with the grid: (along, up) is (-1, 96) or (96, 1) times something.
            const bool outer = detail::edge_under(a, b, plane.outline).has_value();
            CHECK((outer || std::fabs(up + 96.0 * along) < 1e-9 || std::fabs(along - 96.0 * up) < 1e-9));
        }
    }
}

TEST_CASE("what long edges need between purlins") {
    // Two lanes 16 ft up over rows at 24 in: rows at 0.75, 24, ... 168 and, under the ridge, 191.25 in: eight spaces, beside the
    // one long edge 192 in long: 24 - 0.75 = 23.25 in, six of 24 in, and 191.25 - 168 = 23.25 in.
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {96_in, 0_in}, {96_in, 192_in}, {0_in, 192_in}});
    const Supports<Surface::purlin_top> supports = supports_of(rows_on(plane));
    const Sheets sheets = tile_sheets(plane, supports, no_gap);
    const auto need = [&](EdgeSupportPlan plan) { return edge_support(sheets, plane, supports, no_gap, plan); };
    // 24/0 spans 24 in with held edges and 20 in without (the table from memory).
    const EdgeSupport clips = need({.spans = widest_spans(SpanRating::r24_0)});
    CHECK(clips.span == 24_in);
    CHECK(clips.needed);
    CHECK_FALSE(clips.too_wide);
    CHECK(clips.unverified);
    CHECK(clips.clips == 8);
    CHECK(clips.blocks.empty());
    // 24/16 spans 24 in either way.
    const EdgeSupport none = need({.spans = widest_spans(SpanRating::r24_16)});
    CHECK_FALSE(none.needed);
    CHECK(none.clips == 0);
    CHECK(need({.spans = widest_spans(SpanRating::r20_0)}).too_wide);
    // Under steel clips would show: blocks of 24 - 1.5 = 22.5 in, and 23.25 - 1.5 = 21.75 in at both ends.
    const EdgeSupport blocks = need({.spans = widest_spans(SpanRating::r24_0), .steel_on_deck = true});
    CHECK(blocks.shows_in_steel);
    CHECK(blocks.hold == EdgeHold::blocking);
    CHECK(blocks.clips == 0);
    CHECK(blocks.blocks ==
          std::vector<Length>{21.75_in, 22.5_in, 22.5_in, 22.5_in, 22.5_in, 22.5_in, 22.5_in, 21.75_in});
    const EdgeSupport milled =
        need({.spans = widest_spans(SpanRating::r24_0), .hold = EdgeHold::tongue_and_groove, .steel_on_deck = true});
    CHECK_FALSE(milled.shows_in_steel);
    CHECK((milled.clips == 0 && milled.blocks.empty()));
    CHECK(refusal_of([&] { (void)need({.spans = {0_in, 24_in}}); }).path == "edge_support.spans.edges_held");
}

TEST_CASE("a layout that was tampered with is rejected") {
    PurlinPlane plane = any_plane({{0_in, 0_in}, {144_in, 0_in}, {240_in, 96_in * rise}, {0_in, 96_in * rise}});
    plane.openings = {{{36_in, 24_in}, {60_in, 24_in}, {60_in, 48_in}, {36_in, 48_in}}};
    const Sheets laid = tile_sheets(plane, rows_on(plane), no_gap);
    const Area no_area = Area::from_value(1e-6);
    const auto faults = [&](const std::function<void(Sheets&)>& tamper) {
        Sheets sheets = laid;
        tamper(sheets);
        return find_faults_of_layout(sheets, plane.outline, plane.openings, no_gap.sheet, no_area);
    };
    CHECK(faults([](Sheets&) {}).empty());
    CHECK_FALSE(faults([](Sheets& s) { s.pieces.pop_back(); }).empty());
    CHECK_FALSE(faults([](Sheets& s) { s.pieces.push_back(s.pieces[2]); }).empty());
    CHECK_FALSE(faults([](Sheets& s) { s.laid += Area::from_value(1.0); }).empty());
    CHECK_FALSE(faults([](Sheets& s) { s.whole_sheets += 1; }).empty());
    CHECK_FALSE(faults([](Sheets& s) { s.pieces[0].length = 97_in; }).empty());
    CHECK_FALSE(faults([](Sheets& s) { s.pieces[0].width = 48.5_in; }).empty());
    CHECK_FALSE(faults([](Sheets& s) { s.pieces[0].outline.clear(); }).empty());
    for (std::size_t p = 0; p < laid.pieces.size(); ++p) {
        CHECK_FALSE(faults([&](Sheets& s) {
                        for (PlanePoint& corner : s.pieces[p].outline) {
                            corner.along += 0.01_in;  // on its neighbour or off the plane
                        }
                    }).empty());
        CHECK_FALSE(faults([&](Sheets& s) { s.pieces[p].outline[0].up -= 0.5_in; }).empty());
    }
}
