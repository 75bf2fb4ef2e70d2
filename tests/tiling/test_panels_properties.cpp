// SPDX-License-Identifier: BSL-1.0

// What holds for every layout of panels, over seeded sweeps.

#include "support/printing.hpp"

#include "random_panels.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

using namespace eavewright;

namespace {
constexpr double tolerance = 2e-5;  // of counts, 1/65536 in

double ridge_at(const PanelCase& c, double along) {
    const PlanePoint a = c.plane.outline[3];
    const PlanePoint b = c.plane.outline[2];
    return inches(a.up) + (along - inches(a.along)) * inches(b.up - a.up) / inches(b.along - a.along);
}

/// Every point that steel should cover lies under one panel's cover, and under two pieces only in a planned lap.
void check_cover(const PanelCase& c, SeededNumbers& random) {
    const Extent extent = extent_of(c.plane.outline);
    for (int k = 0; k < 60; ++k) {
        const double x = random.between(inches(extent.low.along), inches(extent.high.along));
        const double bottom = -inches(c.plan.edge_past_fascia) - inches(c.plan.eave.least);
        const double y = random.between(bottom, ridge_at(c, x) - inches(c.plan.ridge_hold_back));
        std::vector<std::size_t> over;
        for (std::size_t i = 0; i < c.panels.pieces.size(); ++i) {
            const std::vector<PlanePoint>& o = c.panels.pieces[i].outline;
            const double left = inches(o[0].along);
            const double right = inches(o[1].along);
            if (x < left || x >= right) {
                continue;
            }
            const double top = inches(o[3].up) + (x - left) / (right - left) * inches(o[2].up - o[3].up);
            if (y >= inches(o[0].up) - 1e-9 && y <= top + 1e-9) {
                over.push_back(i);
            }
        }
        REQUIRE(!over.empty());
        REQUIRE(over.size() <= 2);
        if (over.size() == 2) {
            const bool planned =
                std::any_of(c.panels.end_laps.begin(), c.panels.end_laps.end(), [&](const PanelEndLap& lap) {
                    return lap.lower == over[0] && lap.upper == over[1] && y >= inches(lap.from) - 1e-9 &&
                           y <= inches(lap.to) + 1e-9;
                });
            CHECK(planned);
        }
    }
}

void check_lengths(const PanelCase& c) {
    const double hold_back = inches(c.plan.ridge_hold_back);
    const double play = inches(shorter(c.plan.ridge_play, c.plan.ridge_hold_back));
    double covered = 0.0;
    double bought = 0.0;
    CHECK(c.panels.overhang >= c.plan.eave.least - one_inch * tolerance);
    CHECK(c.panels.overhang <= c.plan.eave.most + one_inch * tolerance);
    for (std::size_t i = 0; i < c.panels.pieces.size(); ++i) {
        const PanelPiece& piece = c.panels.pieces[i];
        const bool topmost = i + 1 == c.panels.pieces.size() || c.panels.pieces[i + 1].place == 0;
        const double steps = piece.order_length / c.plan.increment;
        CHECK(std::fabs(steps - std::round(steps)) < 1e-6);
        CHECK(piece.order_length <= c.plan.longest + one_inch * tolerance);
        CHECK(piece.order_length >= longer(piece.left_length, piece.right_length) - one_inch * tolerance);
        if (piece.place == 0) {
            CHECK(off_by(piece.low, -c.plan.edge_past_fascia - c.panels.overhang) < 1e-9);
        }
        if (topmost) {
            // How far each upper corner stands past where it belongs.
            for (const std::size_t corner : {std::size_t{2}, std::size_t{3}}) {
                const double x = inches(piece.outline[corner].along);
                const double past = inches(piece.outline[corner].up) - (ridge_at(c, x) - hold_back);
                CHECK(past > -tolerance);
                CHECK(past < (piece.cut ? 0.0 : play) + tolerance);
            }
        } else {
            CHECK_FALSE(piece.cut);
        }
        bought += inches(c.plan.panel.cover + c.plan.panel.side_lap) * inches(piece.order_length);
        covered += square_inches(signed_area(piece.outline));
    }
    for (const PanelEndLap& lap : c.panels.end_laps) {
        const PanelPiece& upper = c.panels.pieces[lap.upper];
        covered -= inches(lap.to - lap.from) * inches(upper.cover);
        CHECK(lap.to - lap.from >= c.plan.end_lap - one_inch * tolerance);
        const Length middle = (upper.outline[0].along + upper.outline[1].along) / 2.0;
        const Length centre = up_at(c.rows.rows[lap.support].centreline, middle);
        CHECK(centre - lap.from >= c.plan.end_lap / 2.0 - one_inch * tolerance);
        CHECK(lap.to - centre >= c.plan.end_lap / 2.0 - one_inch * tolerance);
    }
    CHECK(std::fabs(square_inches(c.panels.covered) - covered) < 1e-6 * covered);
    CHECK(std::fabs(square_inches(c.panels.bought) - bought) < 1e-6 * bought);
}

void check_across(const PanelCase& c) {
    const Extent extent = extent_of(c.plane.outline);
    const double width = inches(extent.high.along - extent.low.along);
    const double cover = inches(c.plan.panel.cover);
    const double lanes = c.panels.lanes;
    CHECK(lanes * cover > width - tolerance);
    CHECK((lanes - 1.0) * cover < width - tolerance / 2.0);
    REQUIRE(c.panels.marks.size() == static_cast<std::size_t>(c.panels.lanes));
    const bool from_left = c.plan.start == StartCorner::eave_left;
    const Length eave_corner =
        from_left ? c.plane.outline[0].along - extent.low.along : extent.high.along - c.plane.outline[1].along;
    const Length ridge_corner =
        from_left ? c.plane.outline[3].along - extent.low.along : extent.high.along - c.plane.outline[2].along;
    // A metric value within the count tolerance of a tie is rounded as the tie.
    const double half = inches(c.plan.tick.step() / 2.0 + count_tolerance);
    for (std::size_t i = 0; i < c.panels.marks.size(); ++i) {
        const PanelMark& mark = c.panels.marks[i];
        const double exact =
            i + 1 == c.panels.marks.size() ? width : inches(c.panels.first_cover) + cover * static_cast<double>(i);
        CHECK(std::fabs(inches(mark.exact) - exact) < 1e-9);
        CHECK(off_by(mark.eave, mark.exact - eave_corner) <= half);  // the last as near as the first: nothing drifts
        CHECK(off_by(mark.ridge, mark.exact - ridge_corner) <= half);
    }
    if (c.plan.rips == RipPlace::balanced && c.panels.lanes > 1) {
        CHECK(off_by(c.panels.first_cover, c.panels.last_cover) < tolerance);
    } else {
        CHECK(c.panels.first_cover == (c.panels.lanes > 1 ? c.plan.panel.cover : one_inch * width));
    }
    for (const PanelPiece& piece : c.panels.pieces) {
        CHECK(piece.ripped == (inches(piece.cover) < cover - tolerance * 0.75));
    }
}

void check_findings(const PanelCase& c) {
    const auto has = [&](PanelFindingCode code) {
        return std::any_of(c.panels.findings.begin(), c.panels.findings.end(),
                           [&](const PanelFinding& finding) { return finding.code == code; });
    };
    CHECK(has(PanelFindingCode::sliver_cover) ==
          (inches(shorter(c.panels.first_cover, c.panels.last_cover)) < inches(c.plan.sliver) - tolerance));
    const double left = std::fabs(inches(c.plane.outline[3].along - c.plane.outline[0].along));
    const double right = std::fabs(inches(c.plane.outline[2].along - c.plane.outline[1].along));
    CHECK(has(PanelFindingCode::taper_past_trim) == (std::fmax(left, right) > inches(c.plan.trim_hides)));
    const double steps_least = inches(c.plan.eave.least + c.plan.edge_past_fascia);
    if (c.panels.end_laps.empty()) {
        // An increment lands in the window, or none does.
        double top = 0.0;
        for (const PanelPiece& piece : c.panels.pieces) {
            top = std::fmax(top, inches(longer(piece.left_length, piece.right_length) + piece.low));
        }
        const double increment = inches(c.plan.increment);
        const double first = std::ceil((top + steps_least - tolerance) / increment) * increment;
        const bool fits = first <= top + inches(c.plan.eave.most + c.plan.edge_past_fascia) + tolerance;
        CHECK(has(PanelFindingCode::no_increment_fits) == !fits);
    }
}
}  // namespace

TEST_CASE("random planes laid with panels") {
    SeededNumbers random{4001};
    int lapped = 0;
    int cut = 0;
    for (int i = 0; i < sweep(4000); ++i) {
        CAPTURE(i);
        const PanelCase c = random_panel_case(random);
        check_cover(c, random);
        check_lengths(c);
        check_across(c);
        check_findings(c);
        lapped += c.panels.end_laps.empty() ? 0 : 1;
        cut += c.panels.pieces.back().cut ? 1 : 0;
    }
    // The sweep has met what it is meant to meet.
    CHECK(lapped > sweep(4000) / 10);
    CHECK(cut > sweep(4000) / 20);
}
