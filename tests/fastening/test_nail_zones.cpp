// SPDX-License-Identifier: BSL-1.0

// Nails by zone: a line that crosses a boundary worked out by hand, and what holds for every pattern, over seeded sweeps.

#include <eavewright/fastening/nail_places.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "tiling/any_planes.hpp"
#include "tiling/tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
using PurlinSupports = Supports<Surface::purlin_top>;
constexpr double tolerance = 2e-5;  // of counts, 1/65536 in: an area holds what lies on its boundary up to that

std::vector<PlanePoint> box(Length left, Length low, Length right, Length high) {
    return {{left, low}, {right, low}, {right, high}, {left, high}};
}
PurlinSupports level_supports(Length along, Length up, Length spacing) {
    PurlinSupports supports{SupportRun::along_eave, {}, spacing};
    for (std::int64_t i = 0; i <= whole_steps(up, spacing); ++i) {
        const Length centre = spacing * static_cast<double>(i);
        supports.lines.push_back({{{0_in, centre}, {along, centre}}, 1.5_in});
    }
    return supports;
}
/// One sheet over one purlin across its middle, which takes the field spacing.
struct OneRow {
    PurlinSupports supports{SupportRun::along_eave, {{{{0_in, 48_in}, {48_in, 48_in}}, 1.5_in}}, 24_in};
    Sheets sheets = tile_sheets(plane_of(48_in, 96_in), supports, {.sheet = {48_in, 96_in}, .stagger_spaces = 0});
};

/// Boxes and leaning quadrilaterals about a plane, with spacings between `tight` and `loose`.
std::vector<PatternArea> random_areas(SeededNumbers& random, const Extent& all, const NailPattern& base) {
    std::vector<PatternArea> areas;
    for (int n = random.whole(1, 5); n > 0; --n) {
        const Length left = random.inches_between(inches(all.low.along) - 20, inches(all.high.along));
        const Length low = random.inches_between(inches(all.low.up) - 20, inches(all.high.up));
        const Length right = left + (random.coin() ? 48_in : random.inches_between(0.5, 200));
        const Length high = low + (random.coin() ? 48_in : random.inches_between(0.5, 200));
        std::vector<PlanePoint> outline = box(left, low, right, high);
        if (random.coin()) {
            outline[1].along += random.inches_between(0, 40);
            outline[2].up += random.inches_between(0, 40);
        }
        NailPattern own = base;
        own.edge = random.coin() ? base.edge : random.inches_between(3, 12);
        own.field = random.coin() ? base.field : random.inches_between(3, 12);
        areas.push_back({outline, own});
    }
    return areas;
}
NailPattern loosest(const ZonedNailPattern& zones) {
    NailPattern most = zones.base;
    for (const PatternArea& area : zones.areas) {
        most.edge = longer(most.edge, area.pattern.edge);
        most.field = longer(most.field, area.pattern.field);
    }
    return most;
}
ZonedNailPattern halved(ZonedNailPattern zones) {
    zones.base.edge /= 2.0;
    zones.base.field /= 2.0;
    for (PatternArea& area : zones.areas) {
        area.pattern.edge /= 2.0;
        area.pattern.field /= 2.0;
    }
    return zones;
}
bool nowhere_below(const NailCount& a, const NailCount& b) {
    bool holds = true;
    for (std::size_t i = 0; i < a.by_row.size(); ++i) {
        holds = holds && a.by_row[i] >= b.by_row[i];
    }
    for (std::size_t i = 0; i < a.by_piece.size(); ++i) {
        holds = holds && a.by_piece[i].edge >= b.by_piece[i].edge && a.by_piece[i].field >= b.by_piece[i].field;
    }
    return holds && a.total >= b.total;
}
bool same_counts(const NailCount& a, const NailCount& b) { return nowhere_below(a, b) && nowhere_below(b, a); }

/// The spacing that a point's zone asks for; 1000 in close to a boundary, where either side's may hold.
Length spacing_at(const ZonedNailPattern& zones, PlanePoint p, bool edge) {
    for (const PatternArea& area : zones.areas) {
        for (std::size_t i = 0; i < area.outline.size(); ++i) {
            if (detail::distance_to(p, area.outline[i], area.outline[(i + 1) % area.outline.size()]) < 0.001_in) {
                return 1000_in;
            }
        }
        if (detail::is_inside(p, area.outline)) {
            return edge ? area.pattern.edge : area.pattern.field;
        }
    }
    return edge ? zones.base.edge : zones.base.field;
}
bool is_box(const SheetPiece& piece) {
    bool square = piece.cutouts.empty() && piece.outline.size() == 4;
    for (std::size_t i = 0; square && i < 4; ++i) {
        const PlanePoint a = piece.outline[i];
        const PlanePoint b = piece.outline[(i + 1) % 4];
        square = a.along == b.along || a.up == b.up;
    }
    return square;
}
/// Spaces that touch a zone and are wider than it allows. On square pieces, whose nails stand where their line is.
int too_wide(const Sheets& sheets, const ZonedNailPattern& zones, const std::vector<NailPlace>& nails) {
    int wide = 0;
    for (std::size_t i = 1; i < nails.size(); ++i) {
        const NailPlace& a = nails[i - 1];
        const NailPlace& b = nails[i];
        if (a.piece != b.piece || a.support != b.support || !is_box(sheets.pieces[static_cast<std::size_t>(a.piece)])) {
            continue;
        }
        const Length space = b.place.along - a.place.along;
        for (int k = 0; k <= 8; ++k) {
            const double share = k / 8.0;
            const PlanePoint p{a.place.along + space * share, a.place.up + (b.place.up - a.place.up) * share};
            wide += space > spacing_at(zones, p, a.edge) + 0.0005_in ? 1 : 0;
        }
    }
    return wide;
}
}  // namespace

TEST_CASE("a line that crosses from a tight zone into a loose one") {
    // From 0.375 to 24 at 6 in, beyond at 12: the tight spacing is kept one space past 24, to 30. On the scale of spaces the line
    // is 29.625 / 6 + 17.625 / 12 = 4.9375 + 1.46875 = 6.40625 long: 7 spaces, 8 nails. Each is 0.9151786 of a space: 5.4910714 in
    // as far as 30. The sixth nail is the fifth space's end, at 0.375 + 27.4553571 = 27.8303571; the seventh at 6 x 0.9151786 =
    // 5.4910714, which is 0.5535714 past 4.9375: 30 + 12 x 0.5535714 = 36.6428571.
    const OneRow one;
    const ZonedNailPattern zones{{.edge = 6_in, .field = 12_in},
                                 {{box(-10_in, 0_in, 24_in, 96_in), {.edge = 6_in, .field = 6_in}}}};
    const std::vector<NailPlace> nails = nail_places(one.sheets, one.supports, zones);
    REQUIRE(nails.size() == 8);
    CHECK(count_nails(one.sheets, one.supports, zones).total == 8);
    for (std::size_t i = 0; i <= 5; ++i) {
        CHECK(off_by(nails[i].place.along, 0.375_in + 5.4910714_in * static_cast<double>(i)) < tolerance);
        CHECK(nails[i].area == (i < 5 ? 0 : base_area));  // the fifth, at 22.34, is the last before 24
    }
    CHECK(off_by(nails[6].place.along, 36.6428571_in) < tolerance);
    CHECK(off_by(nails[7].place.along, 47.625_in) < 1e-9);
    // Seen from the right the same.
    const ZonedNailPattern turned{zones.base, {{box(24_in, 0_in, 60_in, 96_in), {.edge = 6_in, .field = 6_in}}}};
    const std::vector<NailPlace> from_right = nail_places(one.sheets, one.supports, turned);
    REQUIRE(from_right.size() == 8);
    for (std::size_t i = 0; i < 8; ++i) {
        CHECK(off_by(from_right[i].place.along, 48_in - nails[7 - i].place.along) < 1e-9);
    }
    // 4 spaces of at most 12, 8 of at most 6 alone.
    CHECK(count_nails(one.sheets, one.supports, zones.base).total == 5);
    CHECK(count_nails(one.sheets, one.supports, {.edge = 6_in, .field = 6_in}).total == 9);
}

TEST_CASE("the first area that holds a place wins, boundaries included, and areas of one spacing are as one") {
    const OneRow one;
    const NailPattern base{.edge = 6_in, .field = 12_in};
    const NailPattern six{.edge = 6_in, .field = 6_in};
    const NailPattern four{.edge = 4_in, .field = 4_in};
    const auto count = [&](std::vector<PatternArea> areas) {
        return count_nails(one.sheets, one.supports, ZonedNailPattern{base, std::move(areas)}).total;
    };
    const auto all = box(-1_in, 0_in, 60_in, 96_in);
    // 47.25 / 4: 12 spaces.
    CHECK(count({{all, four}, {all, six}}) == 13);
    CHECK(count({{all, six}, {all, four}}) == 9);
    // A boundary on the row itself: the area that ends there holds it, and so does the one that begins there.
    CHECK(count({{box(-1_in, 0_in, 60_in, 48_in), six}}) == 9);
    CHECK(count({{box(-1_in, 48_in, 60_in, 96_in), six}}) == 9);
    CHECK(count({{box(-1_in, 48.01_in, 60_in, 96_in), six}}) == 5);
    // Parted by boundaries that change nothing.
    CHECK(count({{box(-1_in, 0_in, 20_in, 96_in), six}, {box(20_in, 0_in, 60_in, 96_in), six}}) == 9);
    CHECK(count({{box(10_in, 0_in, 20_in, 96_in), base}}) == 5);
    CHECK(count({}) == 5);
    // An area of no width to speak of still has its one space on either side of 24: from 18 to 30 at 6 in, 35.25 at 12:
    // 12 / 6 + 35.25 / 12 = 4.94: 5 spaces.
    CHECK(count({{box(24_in, 0_in, 24.001_in, 96_in), six}}) == 6);
}

TEST_CASE("zones on random planes: places as counted, never below the loosest, halving never lowers, spaces kept") {
    SeededNumbers random{6411};
    int differ = 0;
    int below = 0;
    int lower = 0;
    int same_lower = 0;
    int wide = 0;
    std::int64_t crossed = 0;
    for (int i = 0; i < sweep(500); ++i) {
        const PurlinPlane plane =
            random.whole(0, 2) == 0
                ? slanted_plane(random)
                : (random.coin() ? right_angled_plane(random)
                                 : random_plane(random, random.between(90, 500), random.between(90, 320), 0.0));
        const Extent all = extent_of(plane.outline);
        PurlinSupports supports = level_supports(all.high.along, all.high.up, random.inches_between(16, 26));
        if (random.coin()) {  // askew, and not all alike
            for (SupportLine& line : supports.lines) {
                line.centreline[1].up += random.inches_between(-0.6, 0.6);
            }
        }
        const Sheets sheets = tile_sheets(
            plane, supports, {.sheet = {48_in, 96_in}, .gap = random.coin() ? 0_in : 0.125_in, .stagger_spaces = 1});
        const NailPattern base{.edge = random.coin() ? 6_in : random.inches_between(3, 12),
                               .field = random.coin() ? 12_in : random.inches_between(3, 12),
                               .edge_distance = random.coin() ? 0.375_in : random.inches_between(0, 0.7)};
        const ZonedNailPattern zones{base, random_areas(random, all, base)};
        const NailCount count = count_nails(sheets, supports, zones);
        const NailCount loose = count_nails(sheets, supports, loosest(zones));
        const std::vector<NailPlace> nails = nail_places(sheets, supports, zones);
        differ += same_counts(count, count_places(nails, supports.lines.size(), sheets.pieces.size())) ? 0 : 1;
        below += nowhere_below(count, loose) ? 0 : 1;
        lower += nowhere_below(count_nails(sheets, supports, halved(zones)), count) ? 0 : 1;
        NailPattern half = base;
        half.edge /= 2.0;
        half.field /= 2.0;
        same_lower += nowhere_below(count_nails(sheets, supports, half), count_nails(sheets, supports, base)) ? 0 : 1;
        wide += too_wide(sheets, zones, nails);
        crossed += count.total - loose.total;
    }
    CHECK(differ == 0);
    CHECK(below == 0);
    CHECK(lower == 0);
    CHECK(same_lower == 0);
    CHECK(wide == 0);
    CHECK(crossed > 1000);  // the areas did something
}

TEST_CASE("zones that are refused") {
    const OneRow one;
    const NailPattern base{.edge = 6_in, .field = 12_in};
    const auto refused = [&](const PatternArea& area) {
        return refusal_of([&] { (void)count_nails(one.sheets, one.supports, ZonedNailPattern{base, {area}}); });
    };
    const std::vector<PlanePoint> square = box(0_in, 0_in, 48_in, 48_in);
    CHECK(refused({square, base}).path == "no fault");
    CHECK(refused({{square[0], square[1]}, base}).code == FaultCode::not_supported);
    CHECK(refused({{square[3], square[2], square[1], square[0]}, base}).path == "nails.areas[0].outline");
    CHECK(refused({{{0_in, 0_in}, {48_in, 0_in}, {10_in, 10_in}, {0_in, 48_in}}, base}).code ==
          FaultCode::not_supported);
    CHECK(refused({square, {.edge = 0_in, .field = 6_in}}).path == "nails.areas[0].pattern.edge");
    CHECK(refused({square, {.edge = 6_in, .field = 6_in, .edge_distance = 0.5_in}}).code == FaultCode::contradiction);
    CHECK(refused({square, {.edge = 6_in, .field = 6_in, .end_reach = 0.5_in}}).path ==
          "nails.areas[0].pattern.end_reach");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refused({{{none, 0_in}, square[1], square[2]}, base}).path == "nails.areas[0].outline[0].along");
    }
    const ZonedNailPattern many{base, std::vector<PatternArea>(201, PatternArea{square, base})};
    CHECK(refusal_of([&] { (void)nail_places(one.sheets, one.supports, many); }).code == FaultCode::too_much_work);
    const ZonedNailPattern unsound{{.edge = 6_in, .field = 0_in}, {}};
    CHECK(refusal_of([&] { (void)nail_places(one.sheets, one.supports, unsound); }).path == "nails.base.field");
}
