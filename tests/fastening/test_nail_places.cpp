// SPDX-License-Identifier: BSL-1.0

// Places of nails: one sheet and a joint worked out by hand, and on random planes counted against the intervals, piece by piece.

#include <eavewright/fastening/fastener_findings.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/table.hpp"

#include "tiling/any_planes.hpp"
#include "tiling/tiling_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
using PurlinSupports = Supports<Surface::purlin_top>;

/// Supports 1 1/2 in wide with their centres at 0, `spacing`, ... up to and including `up`, the right ends higher by `lean`.
PurlinSupports supports_at(Length along, Length up, Length spacing, Length lean = 0_in) {
    PurlinSupports supports{SupportRun::along_eave, {}, spacing};
    for (std::int64_t i = 0; i <= whole_steps(up, spacing); ++i) {
        const Length centre = spacing * static_cast<double>(i);
        supports.lines.push_back({{{0_in, centre}, {along, centre + lean}}, 1.5_in});
    }
    return supports;
}
constexpr SheetPlan full_sheets{.sheet = {48_in, 96_in}, .stagger_spaces = 0};

std::vector<NailPlace> row_of(const std::vector<NailPlace>& nails, int piece, int support) {
    std::vector<NailPlace> row;
    for (const NailPlace& nail : nails) {
        if (nail.piece == piece && nail.support == support) {
            row.push_back(nail);
        }
    }
    return row;
}
bool same_counts(const NailCount& a, const NailCount& b) {
    bool same = a.total == b.total && a.by_row == b.by_row && a.by_piece.size() == b.by_piece.size();
    for (std::size_t i = 0; same && i < a.by_piece.size(); ++i) {
        same = a.by_piece[i].edge == b.by_piece[i].edge && a.by_piece[i].field == b.by_piece[i].field;
    }
    return same;
}
std::size_t found(const NailJudgement& judgement, FastenerFindingCode code) {
    return static_cast<std::size_t>(std::count_if(judgement.findings.begin(), judgement.findings.end(),
                                                  [&](const FastenerFinding& f) { return f.code == code; }));
}

/// A place inside a piece, told without the places' own code, and the least distance to an edge.
bool lies_on(const SheetPiece& piece, PlanePoint p) {
    bool on = detail::is_inside(p, piece.outline);
    for (const std::vector<PlanePoint>& cutout : piece.cutouts) {
        on = on && !detail::is_inside(p, cutout);
    }
    return on;
}
double to_edge(const SheetPiece& piece, PlanePoint p) {
    double least = 1e9;
    const auto take = [&](const std::vector<PlanePoint>& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            least = std::fmin(least, inches(detail::distance_to(p, ring[i], ring[(i + 1) % ring.size()])));
        }
    };
    take(piece.outline);
    std::for_each(piece.cutouts.begin(), piece.cutouts.end(), take);
    return least;
}
bool convex(const SheetPiece& piece) { return piece.cutouts.empty() && is_convex(piece.outline); }

/// What holds for every nail; words for what does not.
struct Sweep {
    std::size_t nails = 0;
    std::size_t off_edge = 0;     ///< nearer to an edge of a convex piece than asked, with room for more
    std::size_t off_support = 0;  ///< beside its support, no end of a piece in the way
    std::size_t off_piece = 0;
    std::size_t too_wide = 0;

    void look(const Sheets& sheets, const PurlinSupports& supports, const NailPattern& pattern,
              const std::vector<NailPlace>& places) {
        const double edge = inches(pattern.edge_distance);
        for (std::size_t i = 0; i < places.size(); ++i) {
            const NailPlace& nail = places[i];
            const SheetPiece& piece = sheets.pieces[static_cast<std::size_t>(nail.piece)];
            const SupportLine& line = supports.lines[static_cast<std::size_t>(nail.support)];
            const double kept = to_edge(piece, nail.place);
            off_piece += !lies_on(piece, nail.place) && kept > 1e-6 ? 1U : 0U;
            const double beside = std::fabs(inches(nail.place.up - up_at(line.centreline, nail.place.along)));
            bool at_end = false;  // held off the support's centre by an edge above or below
            if (convex(piece)) {
                const Span reach = up_span(piece.outline, nail.place.along);
                const Span across = along_span(piece.outline, nail.place.up);
                const bool narrow = inches(reach.high - reach.low) < 4.0 * edge + 1e-6 ||
                                    inches(across.high - across.low) < 4.0 * edge + 1e-6;
                off_edge += kept < edge - 1e-6 && !narrow && line.stretches.empty() ? 1U : 0U;
            }
            at_end = kept < 1.01 * edge + 1e-6;
            off_support += beside > inches(line.width) / 2.0 + 1e-6 && !at_end ? 1U : 0U;
            const bool same_line = i > 0 && places[i - 1].piece == nail.piece && places[i - 1].support == nail.support;
            if (same_line && convex(piece) && line.stretches.empty()) {
                const Length space = nail.place.along - places[i - 1].place.along;
                const Length most = nail.edge ? pattern.edge : pattern.field;
                too_wide += space > most + 2.0 * count_tolerance || space < no_length ? 1U : 0U;
            }
        }
        nails += places.size();
    }
};

NailPattern random_pattern(SeededNumbers& random) {
    return {.edge = random.inches_between(3, 8),
            .field = random.inches_between(6, 12),
            .edge_distance = random.coin() ? 0.375_in : random.inches_between(0, 0.7),
            .end_reach = random.coin() ? 3_in : random.inches_between(0, 8)};
}
}  // namespace

TEST_CASE("one full sheet, every row of the table, by places") {
    int rows = 0;
    for (const TableRow& row : read_table("sheet_nail_counts_4x8.csv")) {
        const auto number = [&](const char* column) { return std::stod(row.at(column)); };
        const auto supports = supports_at(48_in, 96_in, one_inch * number("support_spacing_in"));
        const Sheets sheets = tile_sheets(plane_of(48_in, 96_in), supports, full_sheets);
        const std::vector<NailPlace> nails = nail_places(sheets, supports,
                                                         NailPattern{.edge = one_inch * number("edge_spacing_in"),
                                                                     .field = one_inch * number("field_spacing_in"),
                                                                     .edge_distance = no_length});
        CHECK(static_cast<double>(nails.size()) == number("nails_per_sheet"));
        CHECK(static_cast<double>(row_of(nails, 0, 0).size()) == number("nails_per_end_row"));
        CHECK(static_cast<double>(row_of(nails, 0, 1).size()) == number("nails_per_field_row"));
        ++rows;
    }
    CHECK(rows == 20);
    // 6/12 on supports at 24 in: 2 rows of 9 and 3 of 5, which is 33, 12 in apart between.
    const auto supports = supports_at(48_in, 96_in, 24_in);
    const Sheets sheets = tile_sheets(plane_of(48_in, 96_in), supports, full_sheets);
    const auto nails = nail_places(sheets, supports, {.edge = 6_in, .field = 12_in, .edge_distance = no_length});
    REQUIRE(nails.size() == 33);
    CHECK(nails[10].place == PlanePoint{12_in, 24_in});
    CHECK(nails[32].place == PlanePoint{48_in, 96_in});
    CHECK(nails[0].edge);
    CHECK(!nails[10].edge);
}

TEST_CASE("two sheets on one purlin stand half a space from each other") {
    // Sheets end at 96 and begin at 96 1/8; the purlin's centre is at 96. Rows 3/8 in from the joint: 95 5/8 and 96 1/2, twice
    // 3/8 and the gap of 1/8 apart: 7/8. Of 48 in 47 1/4 lie between the edges: 10 spaces of at most 4 3/4, 11 nails a row.
    // Half a space more between the corners makes 10 1/2 spaces of 4 1/2 in: the lower row from 0.375 to 45.375, the upper one
    // from 2.625 to 47.625, each nail 2 1/4 in along from the nearest of the other.
    const auto supports = supports_at(48_in, 192_in, 24_in);
    const Sheets sheets = tile_sheets(plane_of(48_in, 192_in), supports, full_sheets);
    const NailPattern pattern{.edge = 4.75_in, .field = 12_in};
    const std::vector<NailPlace> nails = nail_places(sheets, supports, pattern);
    const std::vector<NailPlace> lower = row_of(nails, 0, 4);
    const std::vector<NailPlace> upper = row_of(nails, 1, 4);
    REQUIRE(lower.size() == 11);
    REQUIRE(upper.size() == 11);
    for (std::size_t i = 0; i < 11; ++i) {
        const double spaces = static_cast<double>(i);
        CHECK(off_by(lower[i].place.along, 0.375_in + 4.5_in * spaces) < 1e-9);
        CHECK(off_by(upper[i].place.along, 2.625_in + 4.5_in * spaces) < 1e-9);
        CHECK(off_by(upper[i].place.up - lower[i].place.up, 0.875_in) < 1e-9);
    }
    CHECK(off_by(lower[0].place.up, 95.625_in) < 1e-9);
    CHECK(same_counts(count_places(nails, 9, 2), count_nails(sheets, supports, pattern)));
    // The outer rows are nobody else's: from corner to corner in spaces of 4.725.
    CHECK(off_by(row_of(nails, 0, 0)[10].place.along, 47.625_in) < 1e-9);
    CHECK(off_by(row_of(nails, 0, 0)[1].place.along, 5.1_in) < 1e-9);

    // 1 1/2 in between rows at a joint is kept; 2 1/2 is not, by any nail of the second row.
    CHECK(judge_nails(sheets, supports, nails).findings.empty());
    const NailJudgement wider = judge_nails(sheets, supports, nails, {.joint_spacing = 2.5_in});
    CHECK(found(wider, FastenerFindingCode::too_close_at_joint) == 11);
    CHECK(wider.findings.size() == 11);
    CHECK(off_by(wider.findings[0].measured, 2.25_in) < 1e-9);
    CHECK(wider.findings[0].limit == 2.5_in);
    // Rows 7/8 in apart do not matter to each other where only nearer ones do.
    CHECK(judge_nails(sheets, supports, nails, {.joint_spacing = 2.5_in, .rows_together = 0.875_in}).findings.empty());
}

TEST_CASE("what is found, and what is not") {
    const auto supports = supports_at(96.125_in, 96_in, 24_in);
    const Sheets sheets = tile_sheets(plane_of(96.125_in, 96_in), supports, full_sheets);
    REQUIRE(sheets.pieces.size() == 2);
    const NailPattern pattern{.edge = 6_in, .field = 12_in};
    const std::vector<NailPlace> nails = nail_places(sheets, supports, pattern);
    const NailJudgement judgement = judge_nails(sheets, supports, nails);
    // Half of the end rows' purlins lies under the sheet: nails 3/8 in from the end and from the purlin's side.
    CHECK(judgement.findings.empty());
    // Side by side, corners 3/8 + 1/8 + 3/8 in apart, once on each of five purlins.
    CHECK(judgement.side_pairs == 5);
    CHECK(off_by(judgement.nearest_side_pair.value_or(no_length), 0.875_in) < 1e-9);
    // Rows of 47.25 / 8 and 47.25 / 4.
    CHECK(found(judge_nails(sheets, supports, nails, {.row_spacing = 6_in}), FastenerFindingCode::too_close) == 32);
    CHECK(found(judge_nails(sheets, supports, nails, {.support_side = 0.5_in}),
                FastenerFindingCode::near_support_side) == 36);
    CHECK(found(judge_nails(sheets, supports, nails, {.sheet_edge = 0.5_in}), FastenerFindingCode::near_edge) ==
          36 + 3 * 2 * 2);

    // One nail moved at a time: by 1 in off a purlin 3/4 in to either side; past the end of its wood; to a stretch's end.
    std::vector<NailPlace> moved{nails[20]};
    moved[0].place.up += 1_in;
    NailJudgement wrong = judge_nails(sheets, supports, moved);
    REQUIRE(wrong.findings.size() == 1);
    CHECK(wrong.findings[0].code == FastenerFindingCode::off_support);
    CHECK(off_by(wrong.findings[0].measured, -0.25_in) < 1e-9);
    CHECK(wrong.findings[0].fastener == 0);
    PurlinSupports ending = supports;
    const auto support = static_cast<std::size_t>(nails[20].support);
    ending.lines[support].stretches = {{0_in, nails[20].place.along - 2_in}};
    wrong = judge_nails(sheets, ending, {nails[20]});
    REQUIRE(wrong.findings.size() == 1);
    CHECK(wrong.findings[0].code == FastenerFindingCode::off_support);
    CHECK(off_by(wrong.findings[0].measured, -2_in) < 1e-9);
    ending.lines[support].stretches = {{0_in, nails[20].place.along + 0.25_in}};
    wrong = judge_nails(sheets, ending, {nails[20]});
    REQUIRE(wrong.findings.size() == 1);
    CHECK(wrong.findings[0].code == FastenerFindingCode::near_support_end);
    CHECK(off_by(wrong.findings[0].measured, 0.25_in) < 1e-9);

    // A purlin that leaves the first sheet's end, nailed at 95 5/8: at 47 5/8 along its lower face is 96 + 0.9 x 47.625 / 96.125
    // - 0.75 = 95.696 up, above the nail.
    PurlinSupports askew = supports;
    askew.lines[4].centreline[1].up += 0.9_in;
    const NailJudgement off = judge_nails(sheets, askew, nail_places(sheets, askew, pattern));
    CHECK(found(off, FastenerFindingCode::off_support) > 0);

    CHECK(refusal_of([&] { (void)judge_nails(sheets, supports, nails, {.sheet_edge = -1_in}); }).path ==
          "limits.sheet_edge");
    moved[0].piece = 2;
    CHECK(refusal_of([&] { (void)judge_nails(sheets, supports, moved); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([&] { (void)nail_places(sheets, supports, {.edge = 0_in, .field = 6_in}); }).path == "nails.edge");
    const Supports<Surface::chord_top> chords{SupportRun::up_slope, {{{{9_in, 0_in}, {9_in, 96_in}}, 1.5_in}}, 24_in};
    CHECK(refusal_of([&] { (void)nail_places(sheets, chords, pattern); }).code == FaultCode::contradiction);
}

TEST_CASE("a nail at a leaning edge keeps its distance square to it") {
    // A triangle 48 in wide and 48 in up; the purlin at 24 in is 24 in long under it. Its last nail is 3/8 in from the edge along
    // the purlin, 0.265 in square to it: moved in to 3/8 x sqrt 2 = 0.53033 in along.
    const PurlinPlane plane = any_plane({{0_in, 0_in}, {48_in, 0_in}, {0_in, 48_in}});
    const PurlinSupports supports{SupportRun::along_eave, {{{{0_in, 24_in}, {48_in, 24_in}}, 1.5_in}}, 24_in};
    const Sheets sheets = tile_sheets(plane, supports, full_sheets);
    const std::vector<NailPlace> nails = nail_places(sheets, supports, {.edge = 6_in, .field = 12_in});
    REQUIRE(nails.size() == 3);
    CHECK(off_by(nails[0].place.along, 0.375_in) < 1e-9);
    CHECK(off_by(nails[2].place.along, 24_in - 0.53033_in) < 1e-5);
    CHECK(off_by(nails[2].place.up, 24_in) < 1e-9);
}

TEST_CASE(
    "random planes: as many places as the intervals count, on piece and support, spaces not above the pattern's") {
    SeededNumbers random{6401};
    Sweep sweep_of_all;
    int differ = 0;
    for (int i = 0; i < sweep(900); ++i) {
        const NailPattern pattern = random_pattern(random);
        if (random.coin()) {
            const SheetPlan plan = random_sheet_plan(random);
            const double play = random.coin() ? 0.0 : 2.0;
            const PurlinPlane plane = random_plane(random, random.between(90, 500), random.between(90, 320), play);
            const PurlinSupports supports = supports_of(random_rows(random, plane, plan));
            const Sheets sheets = tile_sheets(plane, supports, plan);
            const std::vector<NailPlace> places = nail_places(sheets, supports, pattern);
            differ += same_counts(count_places(places, supports.lines.size(), sheets.pieces.size()),
                                  count_nails(sheets, supports, pattern))
                          ? 0
                          : 1;
            sweep_of_all.look(sheets, supports, pattern, places);
            continue;
        }
        const PurlinPlane plane = random.coin() ? right_angled_plane(random) : slanted_plane(random);
        const Extent all = extent_of(plane.outline);
        PurlinSupports supports = supports_at(all.high.along, all.high.up, random.inches_between(16, 26),
                                              random.coin() ? 0_in : random.inches_between(-1, 1));
        if (random.coin()) {  // one of them has a hole
            supports.lines[1].stretches = {{0_in, all.high.along * 0.3}, {all.high.along * 0.5, all.high.along}};
        }
        const SheetPlan plan{.sheet = {48_in, 96_in},
                             .gap = random.coin() ? 0_in : 0.125_in,
                             .stagger_spaces = random.whole(0, 2),
                             .start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right};
        const Sheets sheets = tile_sheets(plane, supports, plan);
        const std::vector<NailPlace> places = nail_places(sheets, supports, pattern);
        differ += same_counts(count_places(places, supports.lines.size(), sheets.pieces.size()),
                              count_nails(sheets, supports, pattern))
                      ? 0
                      : 1;
        sweep_of_all.look(sheets, supports, pattern, places);
    }
    CHECK(differ == 0);
    CHECK(sweep_of_all.nails > 10000);
    CHECK(sweep_of_all.off_piece == 0);
    CHECK(sweep_of_all.off_edge == 0);
    CHECK(sweep_of_all.off_support == 0);
    CHECK(sweep_of_all.too_wide == 0);
}

TEST_CASE("over chords the same nails, turned") {
    SeededNumbers random{6402};
    int differ = 0;
    for (int i = 0; i < sweep(100); ++i) {
        const Length along = random.inches_between(60, 300);
        const Length up = random.inches_between(60, 300);
        const PurlinSupports purlins = supports_at(along, up, random.inches_between(16, 26));
        Supports<Surface::chord_top> chords{SupportRun::up_slope, {}, purlins.spacing};
        for (const SupportLine& line : purlins.lines) {
            const Length at = line.centreline[0].up;
            chords.lines.push_back({{{at, 0_in}, {at, along}}, line.width});
        }
        const NailPattern pattern = random_pattern(random);
        const Sheets on_purlins = tile_sheets(plane_of(along, up), purlins, full_sheets);
        const Sheets on_chords = tile_sheets(plane_of<Surface::chord_top>(up, along), chords, full_sheets);
        const auto one = nail_places(on_purlins, purlins, pattern);
        const auto two = nail_places(on_chords, chords, pattern);
        bool same = one.size() == two.size();
        for (std::size_t n = 0; same && n < one.size(); ++n) {
            same = off_by(one[n].place.along, two[n].place.up) < 1e-9 &&
                   off_by(one[n].place.up, two[n].place.along) < 1e-9 && one[n].support == two[n].support;
        }
        differ += same ? 0 : 1;
    }
    CHECK(differ == 0);
}
