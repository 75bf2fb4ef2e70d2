// SPDX-License-Identifier: BSL-1.0

// What holds for panels on every plane, over seeded sweeps: faces of random roofs and outlines that no roof has.

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "random_cut_planes.hpp"
#include "random_panels.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// Random points: each on the plane under one panel, each off it under none.
void check_points(const PurlinPlane& plane, const CutPanels& panels, SeededNumbers& random, int points) {
    const Extent extent = extent_of(plane.outline);
    for (int k = 0; k < points; ++k) {
        const PlanePoint p{random.inches_between(inches(extent.low.along) - 5, inches(extent.high.along) + 5),
                           random.inches_between(inches(extent.low.up) - 5, inches(extent.high.up) + 5)};
        int under = 0;
        for (const CutPanel& panel : panels.pieces) {
            under += cut_planes::is_under(panel, p) ? 1 : 0;
        }
        CHECK(under == (cut_planes::is_on(plane, p) ? 1 : 0));
    }
}

/// What every panel says of itself holds for its part.
void check_panels(const CutPanels& panels, const CutPanelPlan& plan) {
    double bought = 0.0;
    for (const CutPanel& panel : panels.pieces) {
        const Extent hull = extent_of(panel.part.outline);
        const double steps = panel.order_length / plan.panels.increment;
        CHECK(std::fabs(steps - std::round(steps)) < 1e-6);
        CHECK(panel.order_length >= panel.length - count_tolerance);
        CHECK(panel.order_length < panel.length + plan.panels.increment + count_tolerance);
        CHECK(off_by(hull.low.up, panel.low) < 1e-9);
        CHECK(off_by(hull.high.along - hull.low.along, panel.cover) < 1e-9);
        CHECK(panel.out >= -count_tolerance);
        CHECK(panel.out + panel.cover <= plan.panels.panel.cover + count_tolerance);
        // The ends reach from side to side, and no corner lies past them.
        for (const PanelEnd* end : {&panel.lower, &panel.upper}) {
            CHECK(off_by(end->line.front().along, panel.out) < 1e-6);
            CHECK(off_by(end->line.back().along, panel.out + panel.cover) < 1e-6);
            CHECK(end->left == end->line.front().up);
            CHECK(end->right == end->line.back().up);
            CHECK(end->straight == (end->line.size() <= 2));
        }
        CHECK(shorter(panel.lower.left, panel.lower.right) >= -count_tolerance);
        CHECK(longer(panel.upper.left, panel.upper.right) <= panel.length + count_tolerance);
        if (panel.upper.straight) {
            CHECK(off_by(longer(panel.upper.left, panel.upper.right), panel.length) < 1e-6);
        }
        bought += inches(panel.order_length);
    }
    CHECK(std::fabs(bought - inches(panels.bought_length)) < 1e-6);
}

void check_bare(const PurlinPlane& plane, SeededNumbers& random) {
    const CutPanelPlan plan = cut_planes::bare_plan(random);
    const CutPanels panels = lay_cut_panels(plane, cut_planes::level_supports(plane, 24_in), plan);
    const double net = square_inches(net_area(plane));
    const double width = inches(extent_of(plane.outline).high.along - extent_of(plane.outline).low.along);
    // A length that fits an increment to within the tolerance of counts stands that little past its eave.
    CHECK(std::fabs(square_inches(panels.covered) - net) < 1e-9 * net + width * std::fabs(inches(panels.overhang)));
    check_panels(panels, plan);
    for (const CutPanel& panel : panels.pieces) {
        const Extent hull = extent_of(panel.part.outline);
        CHECK(off_by(hull.high.up - hull.low.up, panel.length) < 1e-9);
    }
    check_points(plane, panels, random, 12);
}
}  // namespace

TEST_CASE("panels cover random planes exactly, no two of them the same place") {
    SeededNumbers random{5001};
    int planes = 0;
    int notched = 0;
    int valleys = 0;
    const int rounds = sweep(2500);
    for (int i = 0; i < rounds; ++i) {
        CAPTURE(i);
        std::vector<PurlinPlane> faces = cut_planes::random_faces(random);
        faces.push_back(cut_planes::random_outline(random));
        for (const PurlinPlane& face : faces) {
            const PurlinPlane plane = cut_planes::with_openings(face, random, random.whole(0, 3));
            check_bare(plane, random);
            ++planes;
            notched += plane.openings.empty() ? 0 : 1;
            valleys += std::count(plane.edges.begin(), plane.edges.end(), EdgeKind::valley) > 0 ? 1 : 0;
        }
    }
    CHECK(planes > 3 * rounds);
    CHECK(notched > rounds / 2);
    CHECK(valleys > rounds);
}

TEST_CASE("hips and valleys keep their gaps, and nothing else is left bare") {
    SeededNumbers random{5002};
    int refused = 0;
    const int rounds = sweep(2500);
    for (int i = 0; i < rounds; ++i) {
        CAPTURE(i);
        for (const PurlinPlane& face : cut_planes::random_faces(random)) {
            const PurlinPlane plane = cut_planes::with_openings(face, random, 1);
            CutPanelPlan plan = cut_planes::bare_plan(random);
            plan.hip_gap = random.inches_between(0, 3);
            plan.valley_gap = random.inches_between(0, 6);
            plan.panels.ridge_hold_back = random.inches_between(0, 3);
            plan.panels.eave = {1_in, 1.5_in, 2_in};
            plan.panels.increment = 1_in;
            CutPanels panels = [&]() -> CutPanels {
                try {
                    return lay_cut_panels(plane, cut_planes::level_supports(plane, 24_in), plan);
                } catch (const FaultError& error) {
                    CHECK(error.fault().path.find("p") == 0);  // gaps, or an opening, that eat up a small face
                    ++refused;
                    CutPanelPlan none = cut_planes::bare_plan(random);
                    return lay_cut_panels(plane, cut_planes::level_supports(plane, 24_in), none);
                }
            }();
            if (panels.increment != 1_in) {
                continue;
            }
            CHECK(panels.overhang >= 1_in - count_tolerance);
            CHECK(panels.overhang <= 2_in + count_tolerance);
            check_panels(panels, plan);
            const Length most = longer(longer(plan.hip_gap, plan.valley_gap), plan.panels.ridge_hold_back);
            const Extent extent = extent_of(plane.outline);
            for (int k = 0; k < 25; ++k) {
                const PlanePoint p{random.inches_between(inches(extent.low.along), inches(extent.high.along)),
                                   random.inches_between(inches(extent.low.up), inches(extent.high.up))};
                int under = 0;
                for (const CutPanel& panel : panels.pieces) {
                    under += cut_planes::is_under(panel, p) ? 1 : 0;
                }
                const bool on = cut_planes::is_on(plane, p);
                CHECK(under <= 1);
                const bool near_hip =
                    cut_planes::distance_to_kinds(plane, p, {EdgeKind::hip}) < plan.hip_gap - 0.001_in;
                const bool near_valley =
                    cut_planes::distance_to_kinds(plane, p, {EdgeKind::valley}) < plan.valley_gap - 0.001_in;
                if (!on || near_hip || near_valley) {
                    const bool hangs = cut_planes::distance_to_kinds(plane, p, {EdgeKind::eave}) < 3_in;
                    CHECK((hangs || under == 0));
                } else if (cut_planes::distance_to_kinds(plane, p, {EdgeKind::hip, EdgeKind::valley, EdgeKind::ridge}) >
                           4.0 * most + 1_in) {
                    CHECK(under == 1);
                }
            }
        }
    }
    CHECK(refused < rounds / 4);
}

TEST_CASE("four-sided planes: the very same panels") {
    SeededNumbers random{5003};
    for (int i = 0; i < sweep(1500); ++i) {
        CAPTURE(i);
        const PanelCase c = random_panel_case(random);
        const CutPanels panels = lay_cut_panels(c.plane, c.rows, {.panels = c.plan});
        REQUIRE(panels.pieces.size() == c.panels.pieces.size());
        CHECK(panels.overhang == c.panels.overhang);
        CHECK(panels.bought == c.panels.bought);
        CHECK(panels.covered == c.panels.covered);
        CHECK(panels.end_laps.size() == c.panels.end_laps.size());
        CHECK(panels.findings.size() == c.panels.findings.size());
        for (std::size_t k = 0; k < panels.pieces.size(); ++k) {
            const CutPanel& cut = panels.pieces[k];
            const PanelPiece& piece = c.panels.pieces[k];
            CHECK(panel_name(cut) == panel_name(piece));
            CHECK(cut.order_length == piece.order_length);
            CHECK(cut.part.outline == piece.outline);
            CHECK(cut.width == piece.width);
            CHECK(cut.low == piece.low);
            CHECK(cut.upper.left == piece.left_length);
            CHECK(cut.upper.right == piece.right_length);
            CHECK(cut.upper.cut == piece.cut);
            CHECK(cut.out >= -count_tolerance);
            CHECK(cut.out + cut.cover <= c.plan.panel.cover + count_tolerance);
        }
    }
}

TEST_CASE("four-sided planes laid by parts of lanes: the same panels too, where rakes are square") {
    SeededNumbers random{5004};
    for (int i = 0; i < sweep(1500); ++i) {
        CAPTURE(i);
        const Length wide = random.inches_between(60, 700);
        const Length left = random.inches_between(90, 330);
        const PurlinPlane plane = plane_with<Surface::purlin_top>(
            {{0_in, 0_in}, {wide, 0_in}, {wide, left + random.inches_between(-2, 2)}, {0_in, left}});
        PanelPlan plan = random_panel_plan(random);
        plan.longest = 40_ft;
        const Supports<Surface::purlin_top> supports = cut_planes::level_supports(plane, 24_in);
        const Panels panels = lay_panels(plane, supports, plan);
        const CutPanels any = detail::lay_any_outline(plane, supports, {.panels = plan});
        REQUIRE(any.pieces.size() == panels.pieces.size());
        CHECK(off_by(any.overhang, panels.overhang) < 1e-9);
        for (std::size_t k = 0; k < any.pieces.size(); ++k) {
            CHECK(off_by(any.pieces[k].order_length, panels.pieces[k].order_length) < 1e-9);
            CHECK(off_by(any.pieces[k].width, panels.pieces[k].width) < 1e-9);
            CHECK(off_by(any.pieces[k].low, panels.pieces[k].low) < 1e-9);
            CHECK(off_by(any.pieces[k].upper.left, panels.pieces[k].left_length) < 1e-9);
            CHECK(off_by(any.pieces[k].upper.right, panels.pieces[k].right_length) < 1e-9);
        }
    }
}

TEST_CASE("lapped panels on random faces: none too long, covered once, laps on their supports") {
    SeededNumbers random{5005};
    std::size_t laps = 0;
    for (int i = 0; i < sweep(1500); ++i) {
        CAPTURE(i);
        for (const PurlinPlane& plane : cut_planes::random_faces(random)) {
            CutPanelPlan plan = cut_planes::bare_plan(random);
            plan.panels.longest = 12_ft;
            const Supports<Surface::purlin_top> supports = cut_planes::level_supports(plane, 24_in);
            const CutPanels panels = lay_cut_panels(plane, supports, plan);
            const double net = square_inches(net_area(plane));
            CHECK(std::fabs(square_inches(panels.covered) - net) < 1e-9 * net + 1e-2);
            check_panels(panels, plan);
            for (const CutPanel& panel : panels.pieces) {
                CHECK(panel.order_length <= 12_ft + count_tolerance);
            }
            for (const PanelEndLap& lap : panels.end_laps) {
                const Length centre = supports.lines[lap.support].centreline.front().up;
                CHECK(off_by(centre - lap.from, plan.panels.end_lap / 2.0) < 1e-6);
                CHECK(lap.to - centre <= plan.panels.end_lap / 2.0 + count_tolerance);
                CHECK(panels.pieces[lap.lower].lane == panels.pieces[lap.upper].lane);
            }
            laps += panels.end_laps.size();
        }
    }
    CHECK(laps > 1000);
}
