// SPDX-License-Identifier: BSL-1.0

// Ribbed steel small enough to work out by hand, where it begins, and what is refused.

#include <eavewright/roof/shape.hpp>
#include <eavewright/tiling/lay_panels.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
// 62 ft along, 19.5 ft of run at 4 in 12: 234 x sqrt(10)/3 = 246.6577 in up the slope.
const Length demo_up = 234_in * (std::sqrt(10.0) / 3.0);
PurlinRows rows_on(const PurlinPlane& plane) {
    return purlin_rows(plane, Fixed{24_in}, {.stock = {.lie = PurlinLie::on_edge}});
}
Panels laid(const PurlinPlane& plane, const PanelPlan& plan) { return lay_panels(plane, rows_on(plane), plan); }
Panels demo(const PanelPlan& plan = {.ridge_hold_back = 1_in}) { return laid(plane_of(62_ft, demo_up), plan); }
/// 744 in of eave, 743 in of ridge: the right rake leans in by 1 in.
PurlinPlane tapered() {
    return plane_with<Surface::purlin_top>({{0_in, 0_in}, {744_in, 0_in}, {743_in, 240_in}, {0_in, 240_in}});
}
/// 240 in up the left rake, 241 in up the right one.
PurlinPlane sloping() {
    return plane_with<Surface::purlin_top>({{0_in, 0_in}, {144_in, 0_in}, {144_in, 241_in}, {0_in, 240_in}});
}
std::size_t count_of(const Panels& panels, PanelFindingCode code) {
    std::size_t count = 0;
    for (const PanelFinding& finding : panels.findings) {
        count += finding.code == code ? 1 : 0;
    }
    return count;
}
GableRoof gable_with(TailCut tail) {
    return {.width = 36_ft,
            .length = 60_ft,
            .pitch = Pitch::in_12(4),
            .eave_overhang = 18_in,
            .rake_overhang = 12_in,
            .build_up = {.purlin = 5.5_in, .deck = 0.5_in},
            .bearing_height = 12_ft,
            .heel = 6_in,
            .tail = tail};
}
}  // namespace

TEST_CASE("62 ft at 36 in: 20 2/3 panels, so 21, the last one covering 24 in") {
    const Panels panels = demo();
    // 62 x 12 = 744; 744 / 36 = 20.6667; 20 x 36 = 720; 744 - 720 = 24.
    CHECK(std::fabs(panels.exact_panels - 62.0 / 3.0) < 1e-12);
    CHECK(panels.lanes == 21);
    CHECK(panels.pieces.size() == 21);
    CHECK(panels.first_cover == 36_in);
    CHECK(panels.last_cover == 24_in);
    CHECK(panels.pieces[0].width == 39_in);  // 36 and the lap of 3
    CHECK_FALSE(panels.pieces[0].ripped);
    CHECK(panels.pieces[20].width == 24_in);  // its far lap has no neighbour
    CHECK(panels.pieces[20].ripped);
    CHECK(panel_name(panels.pieces[20]) == "21");
    CHECK(panels.findings.empty());
}

TEST_CASE("the panel's length inside its window") {
    const Panels panels = demo();
    // Fascia to upper end: 246.6577 - 1 = 245.6577. Aimed: 245.6577 + 1.5 = 247.1577, nearest inch 247, which leaves
    // 247 - 245.6577 = 1.3423 in of overhang, between 1 and 2.
    CHECK(panels.pieces[0].order_length == 247_in);
    CHECK(off_by(panels.overhang, 1.342343_in) < 1e-6);
    CHECK(off_by(panels.pieces[0].low, -1.342343_in) < 1e-6);
    CHECK_FALSE(panels.pieces[0].cut);
    // Bought: 21 x 39 x 247 = 202293 sq in = 1404.8125 sq ft. Covered: 744 x 247 = 183768 sq in = 1276.1667 sq ft.
    CHECK(std::fabs(square_feet(panels.bought) - 1404.8125) < 1e-9);
    CHECK(std::fabs(square_feet(panels.covered) - 183768.0 / 144.0) < 1e-6);

    // Metric: 6265.1 mm of slope less 25.4 mm; whole millimetres come within 0.5 mm of the aimed 38.1 mm.
    const Panels metric = demo({.ridge_hold_back = 1_in, .increment = 1_mm});
    // 245.657657 x 25.4 = 6239.7045; + 38.1 = 6277.8045, nearest 6278: overhang 38.2955 mm.
    CHECK(std::fabs(millimetres(metric.pieces[0].order_length) - 6278.0) < 1e-9);
    CHECK(std::fabs(millimetres(metric.overhang) - 38.2955) < 1e-4);
}

TEST_CASE("an overhang counts from the deck's edge where the deck stands past the fascia") {
    const Panels panels = demo({.ridge_hold_back = 1_in, .edge_past_fascia = 0.5_in});
    // 245.6577 + 0.5 + 1.5 = 247.6577, nearest 248: overhang 248 - 246.1577 = 1.8423 past the deck, 2.3423 past the fascia.
    CHECK(panels.pieces[0].order_length == 248_in);
    CHECK(off_by(panels.overhang, 1.842343_in) < 1e-6);
    CHECK(off_by(panels.pieces[0].low, -2.342343_in) < 1e-6);
}

TEST_CASE("no increment fits a narrow window: ordered long and cut at the ridge") {
    PanelPlan plan{.ridge_hold_back = 1_in};
    plan.eave = {1.5_in, 1.5_in, 1.625_in};
    const Panels panels = demo(plan);
    // 247 leaves 1.3423, 248 leaves 2.3423: neither lies in 1.5 to 1.625. Kept: 1.5 of overhang, 247.1577 long, so 248.
    CHECK(panels.overhang == 1.5_in);
    CHECK(panels.pieces[0].order_length == 248_in);
    CHECK(off_by(panels.pieces[0].left_length, 247.157657_in) < 1e-6);
    CHECK(panels.pieces[0].cut);  // 248 - 247.1577 = 0.8423 is more than the cap's play of 0.5
    CHECK(count_of(panels, PanelFindingCode::no_increment_fits) == 1);
    CHECK(panels.findings.size() == 1);
}

TEST_CASE("fitting a length") {
    const EaveWindow window{1_in, 1.5_in, 2_in};
    // On a whole number of increments: 100 - 98.5 = 1.5, as aimed.
    CHECK(fit_length(98.5_in, window, 1_in).order == 100_in);
    // Two as near: 99 leaves 1, 100 leaves 2; the longer one.
    CHECK(fit_length(98_in, window, 1_in).order == 100_in);
    CHECK(fit_length(98_in, window, 1_in).overhang == 2_in);
    // Whole feet: 98 + 1.5 = 99.5 lies between 96 and 108, and neither leaves 1 to 2.
    CHECK_FALSE(fit_length(98_in, window, 1_ft).fits);
    CHECK(fit_length(98_in, window, 1_ft).order == 108_in);
    // The nearest one lies outside, the other inside: 0.6 + aimed 1.4; 2 in increments from 100.
    const FittedLength far_one = fit_length(98_in, {0.25_in, 1.25_in, 2.1_in}, 2_in);  // 98 -> 0, 100 -> 2
    CHECK(far_one.order == 100_in);
    CHECK(far_one.fits);
    CHECK(refusal_of([&] { (void)fit_length(98_in, window, no_length); }).path == "increment");
    CHECK(refusal_of([&] { (void)fit_length(98_in, {2_in, 1_in, 3_in}, 1_in); }).path == "eave");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)fit_length(none, window, 1_in); }).path != "no fault");
        CHECK(refusal_of([&] { (void)fit_length(98_in, window, none); }).path == "increment");
    }
}

TEST_CASE("balanced rips: the same panels, the same rip at both rakes") {
    const Panels panels = demo({.ridge_hold_back = 1_in, .rips = RipPlace::balanced});
    // 19 x 36 = 684; 744 - 684 = 60; half is 30.
    CHECK(panels.lanes == 21);
    CHECK(panels.first_cover == 30_in);
    CHECK(panels.last_cover == 30_in);
    CHECK(panels.pieces[0].width == 33_in);   // keeps the lap under its neighbour
    CHECK(panels.pieces[20].width == 30_in);  // lies over its neighbour, its own far lap cut away
    CHECK(panels.marks[0].eave == 30_in);
    CHECK(panels.marks[1].eave == 66_in);
    CHECK(panels.marks[20].eave == 744_in);
}

TEST_CASE("a plane exactly four panels wide") {
    const Panels panels = laid(plane_of(144_in, demo_up), {.ridge_hold_back = 1_in});
    CHECK(panels.exact_panels == 4.0);  // 4 x 36 = 144
    CHECK(panels.lanes == 4);
    CHECK(panels.last_cover == 36_in);
    CHECK_FALSE(panels.pieces[3].ripped);
    // Balanced has nothing to balance.
    const Panels balanced = laid(plane_of(144_in, demo_up), {.ridge_hold_back = 1_in, .rips = RipPlace::balanced});
    CHECK(balanced.first_cover == 36_in);
    CHECK(balanced.last_cover == 36_in);
    // A pack that loses 1/16 in a panel covers 4 x 35 15/16 = 143 3/4: 1/4 in short, a fifth panel or a stretch.
    CHECK(panels.pack.total == 0.1875_in);  // of the three before the last
    CHECK(panels.pack.panels_lost == 5);
    REQUIRE(panels.findings.size() == 1);
    CHECK(panels.findings[0].code == PanelFindingCode::pack_runs_short);
    CHECK(panels.findings[0].measured == 0.25_in);
    CHECK(laid(plane_of(144_in, demo_up), {.ridge_hold_back = 1_in, .pack_drift = 0_in}).findings.empty());
    // Exactly four of a metric panel: 4 x 1000 mm.
    const PanelStock metric{.cover = 1000_mm, .side_lap = 70_mm, .rib_spacing = 250_mm};
    CHECK(laid(plane_of(4_m, 6_m), {.ridge_hold_back = 25_mm, .panel = metric}).lanes == 4);
}

TEST_CASE("a sixteenth more than four panels") {
    const Panels panels = laid(plane_of(144.0625_in, demo_up), {.ridge_hold_back = 1_in, .pack_drift = 0_in});
    CHECK(panels.lanes == 5);
    CHECK(panels.last_cover == 0.0625_in);
    CHECK(count_of(panels, PanelFindingCode::sliver_cover) == 1);
    CHECK(count_of(panels, PanelFindingCode::within_lap) == 1);  // the fourth panel's own lap of 3 in reaches
    // Balanced: (144.0625 - 3 x 36) / 2 = 18.03125 at each side, no sliver.
    const Panels balanced =
        laid(plane_of(144.0625_in, demo_up), {.ridge_hold_back = 1_in, .rips = RipPlace::balanced, .pack_drift = 0_in});
    CHECK(balanced.first_cover == 18.03125_in);
    CHECK(balanced.findings.empty());
}

TEST_CASE("marks are rounded from the exact sum, and where a pack may end") {
    // 3 ft 1/3 in of cover: ten are 363 1/3, to 363 5/16; ten times 36 5/16 would be 363 1/8.
    const PanelStock odd{.cover = one_inch * (109.0 / 3.0), .side_lap = 3_in, .rib_spacing = one_inch * (109.0 / 12.0)};
    const Panels panels = laid(plane_of(62_ft, demo_up), {.ridge_hold_back = 1_in, .panel = odd});
    CHECK(off_by(panels.marks[9].exact, one_inch * (1090.0 / 3.0)) < 1e-9);
    CHECK(panels.marks[9].eave == 363.3125_in);
    CHECK(panels.marks[9].least == 363.1875_in);  // 1/8 of creep
    CHECK(panels.marks[9].most == 363.4375_in);
    // The demo: 20 panels before the last gain or lose 20/16 = 1 1/4 in, so the last covers 22 3/4 to 25 1/4.
    const PackDrift pack = demo().pack;
    CHECK(pack.total == 1.25_in);
    CHECK(pack.last_cover_gained == 22.75_in);
    CHECK(pack.last_cover_lost == 25.25_in);
    CHECK(pack.panels_lost == 21);
}

TEST_CASE("a ridge one inch shorter than the eave: the right trim hides the wedge") {
    const Panels panels = laid(tapered(), {.ridge_hold_back = 1_in});
    CHECK(panels.left_rake.hidden == 0_in);
    CHECK(panels.right_rake.lean == -1_in);
    CHECK(panels.right_rake.hidden == 1_in);
    CHECK(panels.right_rake.saw_tooth == 0.15_in);  // 36 x 1 / 240
    CHECK(panels.findings.empty());
    CHECK(panels.lanes == 21);
    // Begun at the left both tapes read alike; begun at the right the ridge's corner stands 1 in further in.
    CHECK(panels.marks[4].eave == 180_in);
    CHECK(panels.marks[4].ridge == 180_in);
    const Panels right = laid(tapered(), {.ridge_hold_back = 1_in, .start = StartCorner::eave_right});
    CHECK(right.marks[4].eave == 180_in);
    CHECK(right.marks[4].ridge == 179_in);
    CHECK(right.pieces[0].outline[0].along == 708_in);
    CHECK(right.pieces[0].outline[1].along == 744_in);
    // Three inches are what a trim hides; a sixteenth more is found.
    const auto leaning = [](Length lean) {
        return plane_with<Surface::purlin_top>({{0_in, 0_in}, {360_in, 0_in}, {360_in, 192_in}, {lean, 192_in}});
    };
    CHECK(laid(leaning(3_in), {.ridge_hold_back = 1_in, .pack_drift = 0_in}).findings.empty());
    const Panels past = laid(leaning(3.0625_in), {.ridge_hold_back = 1_in, .pack_drift = 0_in});
    CHECK(count_of(past, PanelFindingCode::taper_past_trim) == 1);
}

TEST_CASE("rakes of different length: each panel's length at its own place") {
    const Panels panels = laid(sloping(), {.ridge_hold_back = 1_in, .increment = 0.25_in, .pack_drift = 0_in});
    // The ridge climbs 1 in in 144: 1/4 in a panel. The longest is 241 - 1 = 240 above the fascia: 241 1/2 leaves 1 1/2.
    REQUIRE(panels.pieces.size() == 4);
    CHECK(panels.overhang == 1.5_in);
    const std::vector<std::pair<Length, Length>> lengths{
        {240.5_in, 240.75_in}, {240.75_in, 241_in}, {241_in, 241.25_in}, {241.25_in, 241.5_in}};
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(panels.pieces[i].left_length == lengths[i].first);
        CHECK(panels.pieces[i].right_length == lengths[i].second);
        CHECK(panels.pieces[i].order_length == lengths[i].second);
        CHECK_FALSE(panels.pieces[i].cut);  // 1/4 in stands under the cap
    }
    // Without play under the cap, every one is cut on the slant.
    const Panels cut =
        laid(sloping(), {.ridge_hold_back = 1_in, .increment = 0.25_in, .ridge_play = 0_in, .pack_drift = 0_in});
    CHECK(cut.pieces[0].cut);
    CHECK(cut.pieces[0].outline[3].up == 239_in);
    CHECK(cut.pieces[0].outline[2].up == 239.25_in);
    // By the inch: 241.5 leaves no inch but 241 (1 in of overhang) or 242 (2 in); as near, so 242. The lowest needs 241.25.
    const Panels inch = laid(sloping(), {.ridge_hold_back = 1_in, .pack_drift = 0_in});
    CHECK(inch.overhang == 2_in);
    CHECK(inch.pieces[0].right_length == 241.25_in);
    CHECK(inch.pieces[0].order_length == 242_in);
    CHECK(inch.pieces[0].cut);  // 242 - 241 = 1 at its left
    CHECK(inch.pieces[3].order_length == 242_in);
    CHECK_FALSE(inch.pieces[3].cut);  // 242 - 241.75 = 1/4
}

TEST_CASE("end laps lie over a purlin row") {
    PanelPlan plan{.ridge_hold_back = 1_in};
    plan.longest = 12_ft;
    const Panels panels = demo(plan);
    // From -1.5, 144 reaches 142.5. The row at 120 wants 120 + 4 = 124: 125.5, ordered 126; the row at 144 wants 148.
    // The upper piece begins 4 below the row: 245.6577 - 116 = 129.6577, ordered 130: it starts 0.3423 lower, at 115.6577.
    REQUIRE(panels.pieces.size() == 42);
    REQUIRE(panels.end_laps.size() == 21);
    CHECK(panels.overhang == 1.5_in);
    CHECK(panels.pieces[0].order_length == 126_in);
    CHECK(panel_name(panels.pieces[1]) == "1b");
    CHECK(panels.pieces[1].order_length == 130_in);
    CHECK(off_by(panels.pieces[1].low, 115.657657_in) < 1e-6);
    CHECK_FALSE(panels.pieces[1].cut);
    const PanelEndLap& lap = panels.end_laps[0];
    CHECK(lap.support == 5);  // fascia, 24, 48, 72, 96, 120
    CHECK(off_by(lap.from, 115.657657_in) < 1e-6);
    CHECK(lap.to == 124.5_in);  // -1.5 + 126
    CHECK(panels.findings.empty());
    // Bought: 21 x 39 x (126 + 130); covered: 744 x (245.6577 + 1.5), laps once.
    CHECK(std::fabs(square_inches(panels.bought) - 21.0 * 39.0 * 256.0) < 1e-6);
    CHECK(std::fabs(square_inches(panels.covered) - 744.0 * (inches(demo_up) + 0.5)) < 1e-6);

    plan.longest = 10_ft;
    CHECK(demo(plan).pieces.size() == 63);  // 102, 104 and 58: three to a lane
    plan.longest = 2_ft;                    // from -1.5, 24 reaches 22.5: no row with half a lap below that
    CHECK(refusal_of([&] { (void)demo(plan); }).path == "panels.longest");
}

TEST_CASE("a skew row leaves its end lap") {
    PurlinPlane plane = plane_of(144_in, 240_in);
    // Over 36 in the middle row climbs 6 in: 3 in either way of a panel's middle, with half a purlin 3.75, against a lap of 6.
    Supports<Surface::purlin_top> supports{SupportRun::along_eave, {}, 60_in};
    supports.lines.push_back({{{0_in, 1_in}, {144_in, 1_in}}, 1.5_in});
    supports.lines.push_back({{{0_in, 108_in}, {144_in, 132_in}}, 1.5_in});
    supports.lines.push_back({{{0_in, 238_in}, {144_in, 238_in}}, 1.5_in});
    PanelPlan plan{.ridge_hold_back = 1_in};
    plan.longest = 150_in;
    plan.end_lap = 6_in;
    plan.increment = 0.0625_in;
    plan.pack_drift = 0_in;
    const Panels panels = lay_panels(plane, supports, plan);
    CHECK(count_of(panels, PanelFindingCode::end_lap_off_support) == 4);
    for (const PanelFinding& finding : panels.findings) {
        CHECK(off_by(finding.measured, 0.75_in) < 0.0626);  // 3.75 - 3, a lap being an increment longer at most
    }
    plan.end_lap = 8_in;  // 3.75 within 4
    CHECK(lay_panels(plane, supports, plan).findings.empty());
}

TEST_CASE("lengths differ by surface only with square tails") {
    const PanelPlan plan{.ridge_hold_back = 1_in, .increment = 1_in / 64.0};
    for (const TailCut tail : {TailCut::plumb, TailCut::square}) {
        const Slope front = gable(gable_with(tail)).slopes[0];
        const Supports<Surface::purlin_top> on_purlins{SupportRun::along_eave, {}, no_length};
        const Supports<Surface::deck_top> on_deck{SupportRun::along_eave, {}, no_length};
        const Length purlin = lay_panels(front.purlin, on_purlins, plan).pieces[0].left_length;
        const Panels deck = lay_panels(front.deck, on_deck, plan);
        // Square tails: 1/2 in of deck x 4/12 = 1/6 in more to the ridge.
        const Length more = tail == TailCut::square ? one_inch / 6.0 : no_length;
        const Length above = deck.pieces[0].left_length - deck.overhang;
        const Length purlin_above = purlin - lay_panels(front.purlin, on_purlins, plan).overhang;
        CHECK(off_by(above, purlin_above + more) < 1e-9);
    }
}

TEST_CASE("the gable to begin at") {
    const Angle east = angle_from_degrees(90);
    const auto from = [&](double bearing) { return AwayFromWind{angle_from_degrees(bearing), east}; };
    // x runs east. Wind from the west meets the low gable: panels go up against it, from the east, the high gable.
    CHECK(first_gable(from(270), SideLap::over_previous) == GableEnd::high_x);
    CHECK(first_gable(from(90), SideLap::over_previous) == GableEnd::low_x);
    CHECK(first_gable(from(315), SideLap::over_previous) == GableEnd::high_x);
    CHECK(first_gable(from(270), SideLap::under_previous) == GableEnd::low_x);
    // From the north, or within 10 degrees of it, the wind settles nothing; at 11 it does.
    CHECK_FALSE(first_gable(from(0), SideLap::over_previous).has_value());
    CHECK_FALSE(first_gable(from(190), SideLap::over_previous).has_value());
    CHECK(first_gable(from(191), SideLap::over_previous) == GableEnd::high_x);
    // The other rule asks where one looks from, and may contradict the wind.
    CHECK(first_gable(AwayFromSight{GableEnd::high_x}, SideLap::over_previous) == GableEnd::low_x);
    CHECK(first_gable(BeginAt{GableEnd::high_x}, SideLap::under_previous) == GableEnd::high_x);
    CHECK(refusal_of([&] { (void)first_gable(from(361), SideLap::over_previous); }).path == "lap_rule.wind_from");
}

TEST_CASE("both slopes begin at the same gable, and their ribs meet at the ridge") {
    const RoofShape shape = gable(gable_with(TailCut::plumb));
    for (const GableEnd end : {GableEnd::low_x, GableEnd::high_x}) {
        const StartCorner front = start_at(shape.slopes[0].purlin, end);
        const StartCorner back = start_at(shape.slopes[1].purlin, end);
        CHECK(front != back);  // left and right are mirrored
        CHECK(front == (end == GableEnd::low_x ? StartCorner::eave_left : StartCorner::eave_right));
        std::vector<std::vector<double>> edges;
        for (std::size_t s = 0; s < 2; ++s) {
            const PurlinPlane& plane = shape.slopes[s].purlin;
            const Panels panels = laid(plane, {.ridge_hold_back = 1_in, .start = s == 0 ? front : back});
            edges.emplace_back();
            for (const PanelPiece& piece : panels.pieces) {
                const double left = inches(building_point(plane, piece.outline[3]).x);
                const double right = inches(building_point(plane, piece.outline[2]).x);
                edges.back().push_back(std::fmin(left, right));
                edges.back().push_back(std::fmax(left, right));
            }
        }
        REQUIRE(edges[0].size() == edges[1].size());
        for (std::size_t i = 0; i < edges[0].size(); ++i) {
            CHECK(std::fabs(edges[0][i] - edges[1][i]) < 1e-9);
        }
    }
    PurlinPlane hip_end = plane_of(62_ft, demo_up);
    hip_end.placement.along_x = 0.0;
    hip_end.placement.along_y = 1.0;
    CHECK(refusal_of([&] { (void)start_at(hip_end, GableEnd::low_x); }).code == FaultCode::not_supported);
}

TEST_CASE("planes and plans that are refused") {
    const PurlinPlane plane = plane_of(62_ft, demo_up);
    const PurlinRows rows = rows_on(plane);
    const auto refused = [&](const PanelPlan& plan) {
        return refusal_of([&] { (void)lay_panels(plane, rows, plan); });
    };
    CHECK(refused({.ridge_hold_back = 1_in, .panel = {.rib_spacing = 10_in}}).path == "panels.panel.rib_spacing");
    CHECK(refused({.ridge_hold_back = 1_in, .panel = {.side_lap = 40_in}}).path == "panels.panel.side_lap");
    CHECK(refused({.ridge_hold_back = 1_in, .increment = 0_in}).path == "panels.increment");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused({.ridge_hold_back = none}).path == "panels.ridge_hold_back");
        CHECK(refused({.ridge_hold_back = 1_in, .creep = none}).path == "panels.creep");
    }
    PurlinPlane hip = plane;
    hip.edges[1] = EdgeKind::hip;
    CHECK(refusal_of([&] { (void)lay_panels(hip, rows, {.ridge_hold_back = 1_in}); }).path == "plane.edges");
    PurlinPlane open = plane;
    open.openings.push_back(plane.outline);
    CHECK(refusal_of([&] { (void)lay_panels(open, rows, {.ridge_hold_back = 1_in}); }).path == "plane.openings");
    const PurlinPlane low = plane_of(62_ft, 10_in);
    const Supports<Surface::purlin_top> none{SupportRun::along_eave, {}, no_length};
    CHECK(refusal_of([&] { (void)lay_panels(low, none, {.ridge_hold_back = 12_in}); }).path ==
          "panels.ridge_hold_back");
    const Supports<Surface::purlin_top> chords{SupportRun::up_slope, {}, no_length};
    CHECK(refusal_of([&] { (void)lay_panels(plane, chords, {.ridge_hold_back = 1_in}); }).path == "supports.run");
    // A printed spacing that is rounded: 4 x 9 1/64 is 36 1/16.
    CHECK(check(PanelStock{.rib_spacing = 9.015625_in}).empty());
}

TEST_CASE("panels as JSON") {
    const std::string json = write_json(demo(), LengthUnit::inches);
    CHECK(json.find("\"lanes\": 21") != std::string::npos);
    CHECK(json.find("\"last_cover\": 24") != std::string::npos);
    CHECK(json.find("\"name\": \"21\"") != std::string::npos);
}
