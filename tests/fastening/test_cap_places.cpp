// SPDX-License-Identifier: BSL-1.0

// Caps of underlayment: three courses by hand, and on random planes places against the count and the spacings.

#include <eavewright/fastening/cap_places.hpp>
#include <eavewright/tiling/lay_underlayment.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "tiling/any_planes.hpp"
#include "tiling/tiling_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
bool same_counts(const std::vector<CapPlace>& caps, const CapCount& count) {
    CapCount mine{static_cast<std::int64_t>(caps.size()), 0, 0, 0, std::vector<std::int64_t>(count.by_piece.size(), 0)};
    for (const CapPlace& cap : caps) {
        (cap.use == CapUse::field ? mine.field : cap.use == CapUse::side_lap ? mine.side_laps : mine.end_laps) += 1;
        mine.by_piece[static_cast<std::size_t>(cap.piece)] += 1;
    }
    return mine.total == count.total && mine.field == count.field && mine.side_laps == count.side_laps &&
           mine.end_laps == count.end_laps && mine.by_piece == count.by_piece;
}
}  // namespace

TEST_CASE("three courses by hand") {
    // 122 in of eave, 100 in of slope; 36 in rolls lapped 2 in: courses at 0, 34 and 68, 4 in of the last over the ridge. Rows 1 in up from each lower edge and in
    // from the rakes: 120 in, 21 caps at 6 in, 11 at 12 in. From 1 to 35 three spaces of 11 1/3 in, so two rows between; the same
    // from 35 to 69; from 69 to the ridge less 1 in, 99, three spaces of 10, and a row at 99.
    const PurlinPlane plane = plane_of(122_in, 100_in);
    const Underlayment laid =
        lay_underlayment(plane, {.roll = {.length = 144_ft}, .rule = SingleCoverage{}, .ridge_wrap = 4_in});
    const CapCount count = count_caps(laid, plane);
    CHECK(count.side_laps == 3 * 21);
    CHECK(count.field == (2 + 2 + 3) * 11);
    CHECK(count.end_laps == 0);
    CHECK(count.total == 140);
    const std::vector<CapPlace> caps = cap_places(laid, plane);
    REQUIRE(same_counts(caps, count));
    CHECK(caps[0].place == PlanePoint{1_in, 1_in});
    CHECK(off_by(caps[20].place.along, 121_in) < 1e-9);
    CHECK(off_by(caps[21].place.up, 1_in + 34_in / 3.0) < 1e-9);
    CHECK(off_by(caps[22].place.along, 13_in) < 1e-9);
    CHECK(off_by(caps[139].place.up, 99_in) < 1e-9);
    // At 4 and 6 in: 31 and 21 a row; from 1 to 35 six spaces of 5 2/3 in, from 69 to 99 five: 5 + 5 + 5 rows between.
    CHECK(count_caps(laid, plane, {.field = 6_in, .lap = 4_in}).total == 3 * 31 + 15 * 21);
    // Wrapped 6 in it takes a fourth course at 102, whose caps stand beyond the ridge; the third is then spaced as the others.
    CHECK(count_caps(lay_underlayment(plane, {.roll = {.length = 144_ft}, .rule = SingleCoverage{}}), plane).total ==
          3 * 21 + 6 * 11);
}

TEST_CASE("half laps, and an end lap") {
    // 100 in by 53 in, 19 in starter and courses 17 in apart: 0, 17 and 34. The starter is held by the course over it. Rows at 1,
    // 18 and 35, and one between each two, 8 1/2 in up; above 35 to 52 two spaces of 8 1/2. 98 in take 17 spaces of at most 6 and
    // 9 of at most 12: 18 and 10 caps.
    const PurlinPlane plane = plane_of(100_in, 53_in);
    const Underlayment laid =
        lay_underlayment(plane, {.roll = {.length = 144_ft}, .rule = HalfLap{}, .ridge_wrap = 0_in});
    REQUIRE(laid.courses.size() == 4);
    const CapCount count = count_caps(laid, plane);
    CHECK(count.by_piece == std::vector<std::int64_t>{0, 18 + 10, 18 + 10, 18 + 10 + 10});
    CHECK(count.total == 94);

    // One course of 30 in on 130 in of eave with a roll of 72 in, 6 in lapped: one end lap. Of each row the lap's middle takes
    // one. Rows at 1, 10 1/3, 19 2/3 and 29: 28 in are three spaces, and one more cap stands in the lap between each two.
    const PurlinPlane low = plane_of(130_in, 30_in);
    const Underlayment lapped = lay_underlayment(
        low, {.roll = {.length = 72_in}, .rule = SingleCoverage{2_in, 6_in, 0_in}, .ridge_wrap = 0_in});
    REQUIRE(lapped.courses.size() == 1);
    REQUIRE(lapped.end_laps.size() == 1);
    const Length middle = (lapped.end_laps[0].left + lapped.end_laps[0].right) / 2.0;
    const auto spaces = [&](Length width, double spacing) {
        return static_cast<std::int64_t>(std::ceil(inches(width) / spacing - 1e-6));
    };
    const CapCount laps = count_caps(lapped, low);
    CHECK(laps.end_laps == 3);
    CHECK(laps.side_laps == spaces(middle - 1_in, 6) + spaces(129_in - middle, 6) + 1);
    CHECK(laps.field == 3 * (spaces(middle - 1_in, 12) + spaces(129_in - middle, 12) + 1));
    const std::vector<CapPlace> caps = cap_places(lapped, low);
    CHECK(same_counts(caps, laps));
    CHECK(std::count_if(caps.begin(), caps.end(),
                        [&](const CapPlace& cap) { return off_by(cap.place.along, middle) < 1e-9; }) == 7);
}

TEST_CASE("random planes: places as counted, on the plane and their piece, rows spaced as the pattern says") {
    SeededNumbers random{6431};
    int differ = 0;
    int off_plane = 0;
    int off_piece = 0;
    int wide = 0;
    std::size_t placed = 0;
    for (int i = 0; i < sweep(400); ++i) {
        const bool square = random.coin();
        const PurlinPlane plane = square ? plane_of(random.inches_between(60, 900), random.inches_between(40, 300))
                                         : (random.coin() ? right_angled_plane(random) : slanted_plane(random));
        const UnderlaymentPlan plan{
            .roll = {.length = random.coin() ? 144_ft : random.inches_between(150, 500)},
            .rule = random.coin() ? UnderlaymentRule{SingleCoverage{}} : UnderlaymentRule{HalfLap{}},
            .start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right};
        const CapPattern pattern{.field = random.coin() ? 12_in : random.inches_between(4, 20),
                                 .lap = random.coin() ? 6_in : random.inches_between(2, 12),
                                 .edge = random.coin() ? 1_in : random.inches_between(0, 2)};
        const Underlayment laid = lay_underlayment(plane, plan);
        const std::vector<CapPlace> caps = cap_places(laid, plane, pattern);
        placed += caps.size();
        differ += same_counts(caps, count_caps(laid, plane, pattern)) ? 0 : 1;
        std::map<std::pair<std::int32_t, double>, std::vector<double>> rows;
        for (const CapPlace& cap : caps) {
            const RollPiece& piece = laid.pieces[static_cast<std::size_t>(cap.piece)];
            off_piece += cap.place.along < piece.left - 1e-6_in || cap.place.along > piece.right + 1e-6_in ||
                                 cap.place.up < piece.low - 1e-6_in || cap.place.up > piece.high + 1e-6_in
                             ? 1
                             : 0;
            const auto on_ring = [&](const std::vector<PlanePoint>& ring) {
                bool on = false;
                for (std::size_t k = 0; k < ring.size(); ++k) {
                    on = on || detail::distance_to(cap.place, ring[k], ring[(k + 1) % ring.size()]) < 1e-6_in;
                }
                return on;
            };
            bool on = detail::is_inside(cap.place, plane.outline) || on_ring(plane.outline);
            for (const std::vector<PlanePoint>& opening : plane.openings) {
                on = on && (!detail::is_inside(cap.place, opening) || on_ring(opening));
            }
            off_plane += on ? 0 : 1;
            if (cap.use != CapUse::end_lap) {
                rows[{piece.course, inches(cap.place.up)}].push_back(inches(cap.place.along));
            }
        }
        if (square) {  // a course is one row from rake to rake, through its end laps
            for (auto& [row, at] : rows) {
                std::sort(at.begin(), at.end());
                const bool side_lap =
                    std::fabs(row.second - inches(longer(laid.courses[static_cast<std::size_t>(row.first)].low, 0_in) +
                                                  pattern.edge)) < 1e-9;
                for (std::size_t k = 1; k < at.size(); ++k) {
                    wide += at[k] - at[k - 1] > inches(side_lap ? pattern.lap : pattern.field) + 1e-4 ? 1 : 0;
                }
                wide += at.front() > inches(pattern.edge) + 1e-6 ? 1 : 0;
            }
        }
    }
    CHECK(placed > 1000);
    CHECK(differ == 0);
    CHECK(off_piece == 0);
    CHECK(off_plane == 0);
    CHECK(wide == 0);
}

TEST_CASE("patterns of caps that are refused") {
    const PurlinPlane plane = plane_of(122_in, 100_in);
    const Underlayment laid = lay_underlayment(plane, {.roll = {.length = 144_ft}, .rule = SingleCoverage{}});
    const auto refused = [&](const CapPattern& pattern) {
        return refusal_of([&] { (void)count_caps(laid, plane, pattern); }).path;
    };
    CHECK(refused({}) == "no fault");
    CHECK(refused({.field = 0_in}) == "caps.field");
    CHECK(refused({.lap = 49_in}) == "caps.lap");
    CHECK(refused({.edge = -1_in}) == "caps.edge");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused({.field = none}) == "caps.field");
    }
    PurlinPlane inside_out = plane;
    std::reverse(inside_out.outline.begin(), inside_out.outline.end());
    CHECK(refusal_of([&] { (void)cap_places(laid, inside_out); }).code == FaultCode::not_supported);
}
