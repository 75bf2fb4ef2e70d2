// SPDX-License-Identifier: BSL-1.0

// Places of screws: one row worked out by hand, and on random layouts counted against the count by row, piece and lap.

#include <eavewright/fastening/fastener_findings.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "tiling/random_cut_planes.hpp"
#include "tiling/random_panels.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
std::vector<double> along_of(const std::vector<ScrewPlace>& screws, int support, int piece) {
    std::vector<double> places;
    for (const ScrewPlace& screw : screws) {
        if (screw.support == support && screw.piece == piece) {
            places.push_back(inches(screw.place.along));
        }
    }
    return places;
}

/// Places counted by row, piece and lap, against the count.
bool same_counts(const std::vector<ScrewPlace>& screws, const ScrewCount& count) {
    std::vector<std::int64_t> by_row(count.by_row.size(), 0);
    std::vector<std::int64_t> by_piece(count.by_piece.size(), 0);
    std::vector<std::int64_t> by_side_lap(count.by_side_lap.size(), 0);
    for (const ScrewPlace& screw : screws) {
        if (screw.use == ScrewUse::stitch) {
            by_side_lap[static_cast<std::size_t>(screw.side_lap)] += 1;
        } else {
            by_row[static_cast<std::size_t>(screw.support)] += 1;
            by_piece[static_cast<std::size_t>(screw.piece)] += 1;
        }
    }
    return by_row == count.by_row && by_piece == count.by_piece && by_side_lap == count.by_side_lap &&
           static_cast<std::int64_t>(screws.size()) == count.total;
}

ScrewPattern random_pattern(SeededNumbers& random) {
    ScrewPattern pattern;
    pattern.field = random.whole(0, 3);
    pattern.eave = random.whole(1, 3);
    pattern.ridge = random.whole(1, 3);
    pattern.end_lap = random.whole(1, 3);
    pattern.closing_edge = random.whole(0, 2);
    pattern.stitch = random.coin() ? std::optional<Length>{24_in} : std::nullopt;
    pattern.stitch_edge = random.inches_between(0, 3);
    pattern.beside_rib = random.inches_between(0, 3);
    return pattern;
}
}  // namespace

TEST_CASE("screws in the flats of two panels, by hand") {
    // Two panels of 36 in, ribs every 9 in; purlins at 1, 25 and 49 in of panels 50 in long, and screws 1 1/2 in beside a rib.
    const PurlinPlane plane = plane_of(72_in, 50_in);
    Supports<Surface::purlin_top> rows{SupportRun::along_eave, {}, 24_in};
    for (const Length up : {1_in, 25_in, 49_in}) {
        rows.lines.push_back({{{0_in, up}, {72_in, up}}, 1.5_in});
    }
    const Panels panels = lay_panels(plane, rows, {.ridge_hold_back = 0_in});
    const std::vector<ScrewPlace> screws = screw_places(panels, rows);
    CHECK(same_counts(screws, count_screws(panels, rows)));
    // Between: one a rib; the last panel closes, one more at its far edge.
    CHECK(along_of(screws, 1, 0) == std::vector<double>{1.5, 10.5, 19.5, 28.5});
    CHECK(along_of(screws, 1, 1) == std::vector<double>{37.5, 46.5, 55.5, 64.5, 70.5});
    // At the eave: both sides of every rib, that is both ends of every flat; in the last flat one between for the closing edge.
    CHECK(along_of(screws, 0, 0) == std::vector<double>{1.5, 7.5, 10.5, 16.5, 19.5, 25.5, 28.5, 34.5});
    CHECK(along_of(screws, 0, 1) == std::vector<double>{37.5, 43.5, 46.5, 52.5, 55.5, 61.5, 64.5, 67.5, 70.5});
    CHECK(screws[0].place.up == 1_in);
    CHECK(screws[0].use == ScrewUse::eave);
    // Stitch screws in the lap at 36, 1 in from both ends of its 50 or more: 48 in and a little takes 2 or 3 spaces of 24.
    std::vector<double> ups;
    for (const ScrewPlace& screw : screws) {
        if (screw.use == ScrewUse::stitch) {
            CHECK(screw.place.along == 36_in);
            CHECK(screw.side_lap == 0);
            ups.push_back(inches(screw.place.up));
        }
    }
    const double length = inches(panels.pieces[0].outline[2].up - panels.pieces[0].low);
    REQUIRE(ups.size() == static_cast<std::size_t>(std::ceil((length - 2.0) / 24.0 - 1e-6)) + 1);
    CHECK(ups.front() == doctest::Approx(inches(panels.pieces[0].low) + 1.0).epsilon(1e-12));
    CHECK(ups.back() == doctest::Approx(inches(panels.pieces[0].outline[2].up) - 1.0).epsilon(1e-12));

    // Begun at the right, mirrored.
    const Panels from_right = lay_panels(plane, rows, {.ridge_hold_back = 0_in, .start = StartCorner::eave_right});
    CHECK(along_of(screw_places(from_right, rows), 1, 0) == std::vector<double>{70.5, 61.5, 52.5, 43.5});
    const Supports<Surface::purlin_top> chords{SupportRun::up_slope, {}, no_length};
    CHECK(refusal_of([&] { (void)screw_places(panels, chords); }).path == "supports.run");
    CHECK(refusal_of([&] { (void)screw_places(panels, rows, {.beside_rib = -1_in}); }).path == "screws.beside_rib");
}

TEST_CASE("screws that miss the purlin, or come near its side") {
    // The row at 49 1/2 in carries the upper end of panels that end at 49 7/8: the screw stays 1 in inside, at 48 7/8, 5/8 off the
    // centre and 1/8 from the side. Judged against the same row 1/2 in further up it is 3/8 off the wood.
    const PurlinPlane plane = plane_of(36_in, 49.875_in);
    Supports<Surface::purlin_top> rows{SupportRun::along_eave, {}, 24_in};
    for (const Length up : {1_in, 25_in, 49.5_in}) {
        rows.lines.push_back({{{0_in, up}, {36_in, up}}, 1.5_in});
    }
    const PanelPlan plan{.ridge_hold_back = 0_in, .increment = 0.125_in, .ridge_play = 0_in};
    const std::vector<ScrewPlace> screws = screw_places(lay_panels(plane, rows, plan), rows);
    const std::vector<FastenerFinding> close = judge_screws(screws, rows);
    REQUIRE(close.size() == 9);  // 4 ribs twice, and the closing edge
    CHECK(close[0].code == FastenerFindingCode::near_support_side);
    CHECK(close[0].support == 2);
    CHECK(off_by(close[0].measured, 0.125_in) < 1e-9);
    CHECK(judge_screws(screws, rows, {.support_side = 0.125_in}).empty());
    for (PlanePoint& p : rows.lines[2].centreline) {
        p.up += 0.5_in;
    }
    const std::vector<FastenerFinding> off = judge_screws(screws, rows);
    REQUIRE(off.size() == 9);
    CHECK(off[0].code == FastenerFindingCode::off_support);
    CHECK(off_by(off[0].measured, -0.375_in) < 1e-9);
    rows.lines.pop_back();
    CHECK(refusal_of([&] { (void)judge_screws(screws, rows); }).code == FaultCode::out_of_range);
}

TEST_CASE("random panels: as many places as counted, on the panel's own cover and the support") {
    SeededNumbers random{6421};
    int differ = 0;
    int off_panel = 0;
    int off_support = 0;
    int wide = 0;
    std::size_t placed = 0;
    for (int i = 0; i < sweep(600); ++i) {
        const PanelCase c = random_panel_case(random);
        const ScrewPattern pattern = random_pattern(random);
        const Supports<Surface::purlin_top> rows = supports_of(c.rows);
        const std::vector<ScrewPlace> screws = screw_places(c.panels, rows, pattern);
        placed += screws.size();
        differ += same_counts(screws, count_screws(c.panels, rows, pattern)) ? 0 : 1;
        for (std::size_t k = 0; k < screws.size(); ++k) {
            const ScrewPlace& screw = screws[k];
            if (screw.use == ScrewUse::stitch) {
                const bool follows = k > 0 && screws[k - 1].side_lap == screw.side_lap;
                wide += follows && screw.place.up - screws[k - 1].place.up > *pattern.stitch + count_tolerance ? 1 : 0;
                continue;
            }
            const PanelPiece& piece = c.panels.pieces[static_cast<std::size_t>(screw.piece)];
            const Length into = screw.place.along - piece.outline[0].along;
            const Length left = piece.outline[1].along - screw.place.along;
            off_panel += into < -1e-9_in || left < -1e-9_in ? 1 : 0;
            const SupportLine& line = rows.lines[static_cast<std::size_t>(screw.support)];
            // Where the panel ends off the purlin's centre the screw stays the end distance inside it instead.
            const Length beside = magnitude(screw.place.up - up_at(line.centreline, screw.place.along));
            const Length top = up_span(piece.outline, shorter(longer(screw.place.along, piece.outline[0].along),
                                                              piece.outline[1].along))
                                   .high;
            const bool at_end = screw.place.up - piece.low < pattern.end_distance + 1e-6_in ||
                                top - screw.place.up < pattern.end_distance + 1e-6_in;
            off_support += beside > 1e-6_in && !at_end ? 1 : 0;
        }
    }
    CHECK(placed > 1000);
    CHECK(differ == 0);
    CHECK(off_panel == 0);
    CHECK(off_support == 0);
    CHECK(wide == 0);
}

TEST_CASE("random faces: as many places as counted, under steel and over wood") {
    SeededNumbers random{6422};
    int differ = 0;
    int off_steel = 0;
    int off_support = 0;
    std::size_t placed = 0;
    for (int i = 0; i < sweep(60); ++i) {
        for (const PurlinPlane& face : cut_planes::random_faces(random)) {
            const PurlinPlane plane = cut_planes::with_openings(face, random, 1);
            CutPanelPlan plan = cut_planes::bare_plan(random);
            plan.panels.longest = random.coin() ? 12_ft : 400_ft;
            const Supports<Surface::purlin_top> rows = cut_planes::level_supports(plane, 24_in);
            const CutPanels panels = lay_cut_panels(plane, rows, plan);
            const ScrewPattern pattern = random_pattern(random);
            const std::vector<ScrewPlace> screws = screw_places(panels, rows, pattern);
            placed += screws.size();
            differ += same_counts(screws, count_screws(panels, rows, pattern)) ? 0 : 1;
            for (const ScrewPlace& screw : screws) {
                bool under = false;
                for (const CutPanel& panel : panels.pieces) {
                    bool near_it = cut_planes::is_under(panel, screw.place);
                    const auto take = [&](const std::vector<PlanePoint>& ring) {
                        for (std::size_t k = 0; !near_it && k < ring.size(); ++k) {
                            near_it = detail::distance_to(screw.place, ring[k], ring[(k + 1) % ring.size()]) < 1e-4_in;
                        }
                    };
                    take(panel.part.outline);
                    for (const std::vector<PlanePoint>& cutout : panel.part.cutouts) {
                        take(cutout);
                    }
                    under = under || near_it;
                }
                off_steel += under ? 0 : 1;
                if (screw.support >= 0) {
                    const SupportLine& line = rows.lines[static_cast<std::size_t>(screw.support)];
                    const Length beside = magnitude(screw.place.up - line.centreline[0].up);
                    off_support += beside > line.width / 2.0 + 1e-6_in ? 1 : 0;
                }
            }
        }
    }
    CHECK(placed > 1000);
    CHECK(differ == 0);
    CHECK(off_steel == 0);
    CHECK(off_support == 0);
}
