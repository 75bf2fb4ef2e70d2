// SPDX-License-Identifier: BSL-1.0

// The site sheet: which steps stand on it, in which order, and that its figures are those of the layout.

#include <eavewright/drawing/site_sheet_text.hpp>
#include <eavewright/whole_roof/site_steps.hpp>
#include <eavewright/whole_roof/whole_roof.hpp>
#include <eavewright/writing/json.hpp>

#include "../support/compiled.hpp"
#include "drawing/roofs.hpp"
#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "whole_roof/workshop.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const SiteStep* find_step(const SiteSheet& sheet, SiteStepKind kind) {
    for (const SiteStep& step : sheet.steps) {
        if (step.kind == kind) {
            return &step;
        }
    }
    return nullptr;
}
const SiteStep& step_in(const SiteSheet& sheet, SiteStepKind kind) {
    const SiteStep* step = find_step(sheet, kind);
    REQUIRE(step != nullptr);
    return *step;
}
SiteSheet sheet_of(const RoofDescription& roof, std::size_t slope = 0) {
    return site_sheet(roof, compiled::whole_roof(roof), slope);
}
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::vector<RoofDescription> roofs() {
    RoofDescription bare = workshop();
    bare.deck.reset();
    bare.underlayment.reset();
    std::get<GableRoof>(bare.shape).build_up.deck = no_length;
    return {workshop(),
            bare,
            test_roofs::wide_gable(200_ft),
            test_roofs::half_stagger(),
            test_roofs::from_the_right(),
            test_roofs::metric_hall(),
            test_roofs::on_chords(),
            test_roofs::as_found(),
            test_roofs::shed()};
}

/// A single slope of 6 x 9 m in millimetres, steel straight on purlins.
RoofDescription metric_lean_to() {
    return {.name = "lean-to",
            .shape = SingleSlopeRoof{.width = 6_m,
                                     .length = 9_m,
                                     .pitch = Pitch::from_degrees(15),
                                     .eave_overhang = 300_mm,
                                     .high_overhang = 300_mm,
                                     .rake_overhang = 200_mm,
                                     .build_up = {.purlin = 45_mm},
                                     .bearing_height = 3_m,
                                     .heel = 100_mm},
            .frames = {.spacing = BaysAtMost{3_m}},
            .purlins =
                PurlinPlan{
                    .spacing = AtMost{600_mm}, .cuts = {.stock_length = 6_m}, .stock = {45_mm, 95_mm, PurlinLie::flat}},
            .deck = std::nullopt,
            .steel = SteelPlan{.panels = {.ridge_hold_back = 20_mm,
                                          .panel = {.cover = 1000_mm, .side_lap = 60_mm, .rib_spacing = 250_mm},
                                          .increment = 10_mm,
                                          .tick = Tick::of_millimetres(1)},
                               .edges = {.high_eave = TrimStock{.piece = 3_m}}},
            .tick = Tick::of_millimetres(1)};
}
}  // namespace

TEST_CASE("the workshop's sheet holds every step once, in its numbered order") {
    const SiteSheet sheet = sheet_of(workshop());
    REQUIRE(sheet.steps.size() == 17);  // those that follow from readings come only where there are some
    for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
        CHECK(static_cast<std::size_t>(sheet.steps[i].kind) == i);
    }
    // Numbers and names are there for good: files hold them.
    CHECK(static_cast<int>(SiteStepKind::corners_plumb) == 0);
    CHECK(name_of(SiteStepKind::diagonals_braced) == "diagonals_braced");
    CHECK(static_cast<int>(SiteStepKind::diagonals_braced) == 4);
    CHECK(static_cast<int>(SiteStepKind::underlayment) == 10);
    CHECK(name_of(SiteStepKind::top_trim) == "top_trim");
    CHECK(static_cast<int>(SiteStepKind::top_trim) == 16);
}

TEST_CASE("every roof's steps come in order, each with something to read and something to do") {
    for (const RoofDescription& roof : roofs()) {
        const RoofResult result = compiled::whole_roof(roof);
        for (std::size_t slope = 0; slope < result.slopes.size(); ++slope) {
            CAPTURE(roof.name);
            const SiteSheet sheet = site_sheet(roof, result, slope);
            CHECK(sheet.slope == result.slopes[slope].name);
            for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
                const SiteStep& step = sheet.steps[i];
                CAPTURE(step.title);
                CHECK((i == 0 || place_in_work(sheet.steps[i - 1].kind) < place_in_work(step.kind)));
                CHECK_FALSE(step.title.empty());
                CHECK_FALSE(step.reading.empty());
                CHECK_FALSE(step.if_off.empty());
                CHECK(step.limit.has_value() != step.limit_source.empty());
                CHECK(step.marks.empty() == step.mark_columns.empty());
                CHECK(step.marks.empty() == step.marks_from.empty());
                for (const SiteMark& mark : step.marks) {
                    CHECK(mark.at.size() == step.mark_columns.size());
                    for (const std::optional<Length>& at : mark.at) {  // what a tape reads is on the tick
                        CHECK((!at || off_by(*at, round_to_tick(*at, roof.tick)) < 1e-9));
                    }
                }
            }
        }
    }
}

TEST_CASE("workshop's sheet by hand: frames, walls, diagonals") {
    const SiteSheet sheet = sheet_of(workshop());
    // 1/4 in in 10 ft over 12 ft: 0.25 x 144 / 120 = 0.3 in. tolerances.csv, wood wall plumb, Ballast via WoodWorks.
    const SiteStep& corners = step_in(sheet, SiteStepKind::corners_plumb);
    CHECK(off_by(*corners.limit, 0.3_in) < 1e-12);
    CHECK(holds(corners.limit_source, "Ballast"));
    CHECK(corners.expected[0].length == 144_in);
    // Fascia: 144 + 5.5 x 1.0540926 = 149.797509; eave 60 + 2 x 1 ft. Ridge: 144 + 234 x 4/12 = 222, purlins 5.797509
    // above.
    const SiteStep& eave = step_in(sheet, SiteStepKind::eave_line);
    CHECK(off_by(eave.expected[0].length, 149.797509_in) < 1e-6);
    CHECK(eave.expected[1].length == 744_in);
    const SiteStep& ridge = step_in(sheet, SiteStepKind::top_line);
    CHECK(ridge.expected[0].length == 222_in);
    CHECK(off_by(ridge.expected[1].length, 227.797509_in) < 1e-6);
    // 744^2 + 234^2 x 10/9 = 553536 + 60840 = 614376.
    for (const SiteStepKind kind : {SiteStepKind::diagonals, SiteStepKind::diagonals_braced}) {
        const SiteStep& step = step_in(sheet, kind);
        REQUIRE(step.expected.size() == 1);
        CHECK(off_by(step.expected[0].length, Length::from_inches(std::sqrt(614376.0))) < 1e-9);
        CHECK(step.limit == 0.125_in);
        CHECK(step.correction.empty());
    }
}

TEST_CASE("workshop's sheet by hand: purlins, base line, first row") {
    const SiteSheet sheet = sheet_of(workshop());
    const SiteStep& purlins = step_in(sheet, SiteStepKind::purlin_marks);
    REQUIRE(purlins.marks.size() == 11);  // 12 rows, of which the fascia is there already
    REQUIRE(purlins.mark_columns.size() == 2);
    // On the chord 24 - 3/4 + 0.2522 = 23.5022, to 1/16 23 1/2; the top row 243.9077, 243 15/16, on the chord 243.4099.
    CHECK(purlins.marks[0].label == "1");
    CHECK(purlins.marks[0].at[0] == 23.5_in);
    CHECK(purlins.marks[0].at[1] == 24_in);
    CHECK(purlins.marks[10].label == "top");
    CHECK(purlins.marks[10].at[0] == 243.4375_in);
    CHECK(purlins.marks[10].at[1] == 243.9375_in);
    // First column 4 ft wide; 58 ft of eave and 20.55 ft of slope are left. Lying 3-4-5: 58 / 4 = 14 parts, 20.55 / 3 =
    // 6 parts: 6. Standing: 58 / 3 = 19, 20.55 / 4 = 5. So 24, 18 and 30 ft.
    const SiteStep& base = step_in(sheet, SiteStepKind::base_line);
    CHECK(base.expected[0].length == 4_ft);
    CHECK(holds(base.expected[0].label, "left"));
    CHECK(base.expected[1].length == 24_ft);
    CHECK(base.expected[2].length == 18_ft);
    CHECK(base.expected[3].length == 30_ft);
    // Column A begins with a whole sheet, column B a space of 24 in shorter.
    const SiteStep& row = step_in(sheet, SiteStepKind::first_row);
    REQUIRE(row.expected.size() == 3);
    CHECK(row.expected[0].length == 0_in);
    CHECK(off_by(row.expected[1].length, 96_in) < 1e-9);
    CHECK(off_by(row.expected[2].length, 72_in) < 1e-9);
}

TEST_CASE("workshop's sheet by hand: steel") {
    const SiteSheet sheet = sheet_of(workshop());
    const SiteStep& order = step_in(sheet, SiteStepKind::before_cover);
    REQUIRE(order.marks.size() == 1);
    CHECK(order.marks[0].label == "1 to 21");
    CHECK(order.marks[0].at[0] == 247_in);
    CHECK(off_by(order.expected[1].length, 246.657657_in) < 1e-6);
    // 7 pieces of 126 in lapped 4: the last 744 - 6 x 122 = 12 in.
    const SiteStep& eave = step_in(sheet, SiteStepKind::eave_trim);
    CHECK(holds(eave.reading, "7 pieces"));
    CHECK(off_by(eave.expected[1].length, 12_in) < 1e-9);
    CHECK(eave.expected[2].length == 4_in);
    // Row 1: 24 - 7/16 x 4/12 = 23.8542, to 1/16 23 7/8; on a panel 25.1965, 25 3/16.
    const SiteStep& lines = step_in(sheet, SiteStepKind::closures_and_lines);
    REQUIRE(lines.marks.size() == 12);
    CHECK(lines.marks[1].at[0] == 23.875_in);
    CHECK(lines.marks[1].at[1] == 25.1875_in);
    CHECK(holds(lines.reading, "21 closure strips"));
    // Begun at the right of the front; overhang 247 - 245.6577.
    const SiteStep& first = step_in(sheet, SiteStepKind::first_panel);
    CHECK(holds(first.reading, "right rake"));
    CHECK(first.expected[0].length == 36_in);
    CHECK(first.expected[1].length == 36_in);
    CHECK(off_by(first.expected[2].length, 1.342343_in) < 1e-6);
    CHECK(first.expected[3].length == 247_in);
    // Every fifth of 21: 5 x 36 = 180 in and so on, creep 1/8 in either way.
    const SiteStep& ribs = step_in(sheet, SiteStepKind::panel_marks);
    REQUIRE(ribs.marks.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        const Length mark = 180_in * static_cast<double>(i + 1);
        CHECK(ribs.marks[i].label == std::to_string(5 * (i + 1)));
        CHECK(ribs.marks[i].at[0] == mark);
        CHECK(ribs.marks[i].at[1] == mark - 0.125_in);
        CHECK(ribs.marks[i].at[2] == mark + 0.125_in);
    }
    // Last: 744 - 20 x 36 = 24 in; a pack of 20 that gains or loses 1/16 each leaves 22 3/4 or 25 1/4.
    const SiteStep& last = step_in(sheet, SiteStepKind::last_panel);
    REQUIRE(last.expected.size() == 4);
    CHECK(off_by(last.expected[0].length, 24_in) < 1e-9);
    CHECK(last.expected[1].length == 24_in);
    CHECK(off_by(last.expected[2].length, 22.75_in) < 1e-9);
    CHECK(off_by(last.expected[3].length, 25.25_in) < 1e-9);
    const SiteStep& cap = step_in(sheet, SiteStepKind::top_trim);
    CHECK(cap.expected[0].length == 1_in);
    CHECK(cap.limit == 0.5_in);
}

TEST_CASE("figures are the fields of the layout, on either slope") {
    const RoofDescription roof = workshop();
    const RoofResult result = compiled::whole_roof(roof);
    for (std::size_t index = 0; index < 2; ++index) {
        const SlopeResult& slope = result.slopes[index];
        const SiteSheet sheet = site_sheet(roof, result, index);
        CHECK(step_in(sheet, SiteStepKind::eave_line).expected[0].length == result.heights.fascia_top);
        CHECK(step_in(sheet, SiteStepKind::top_line).expected[1].length == result.heights.purlin_peak);
        CHECK(step_in(sheet, SiteStepKind::diagonals).expected[0].length == slope.diagonal);
        CHECK(step_in(sheet, SiteStepKind::before_cover).expected[1].length == slope.slope_length);
        CHECK(step_in(sheet, SiteStepKind::purlin_marks).expected[0].length == slope.purlins->widest_space);
        const SteelResult& steel = *slope.steel;
        const SiteStep& lines = step_in(sheet, SiteStepKind::closures_and_lines);
        for (std::size_t i = 0; i < lines.marks.size(); ++i) {
            CHECK(lines.marks[i].at[0] == steel.lines.lines[i].left_mark);
            CHECK(lines.marks[i].at[1] == steel.drill_marks[i].mark);
        }
        CHECK(step_in(sheet, SiteStepKind::first_panel).expected[2].length == steel.panels.overhang);
        CHECK(step_in(sheet, SiteStepKind::last_panel).expected[0].length == steel.panels.last_cover);
        CHECK(step_in(sheet, SiteStepKind::top_trim).expected[1].length == result.slopes[0].steel->trim[3].run);
    }
    CHECK(holds(step_in(site_sheet(roof, result, 1), SiteStepKind::first_panel).reading, "left rake"));
}

TEST_CASE("limits follow the description") {
    RoofDescription roof = workshop();
    roof.squaring.tolerance.diagonal_difference = 0.375_in;
    roof.steel->panels.creep = 0.25_in;
    const RoofResult result = compiled::whole_roof(roof);
    const SiteSheet sheet = site_sheet(roof, result, 0, {.eave = 0.5_in, .panels_between = 7});
    CHECK(step_in(sheet, SiteStepKind::diagonals).limit == 0.375_in);
    CHECK(step_in(sheet, SiteStepKind::before_cover).limit == 0.375_in);
    CHECK(step_in(sheet, SiteStepKind::first_panel).limit == 0.25_in);
    CHECK(step_in(sheet, SiteStepKind::eave_line).limit == 0.5_in);
    const SiteStep& ribs = step_in(sheet, SiteStepKind::panel_marks);
    REQUIRE(ribs.marks.size() == 2);  // 7 and 14; 21 is the last panel
    CHECK(ribs.marks[1].at[0] == 504_in);
}

TEST_CASE("what a roof has not does not stand on its sheet") {
    RoofDescription roof = workshop();
    roof.steel.reset();
    roof.underlayment.reset();
    const SiteSheet no_steel = sheet_of(roof);
    for (const SiteStepKind kind :
         {SiteStepKind::eave_trim, SiteStepKind::rake_trim, SiteStepKind::closures_and_lines, SiteStepKind::first_panel,
          SiteStepKind::panel_marks, SiteStepKind::last_panel, SiteStepKind::top_trim}) {
        CHECK(find_step(no_steel, kind) == nullptr);
    }
    CHECK_FALSE(holds(step_in(no_steel, SiteStepKind::before_cover).title, "steel"));
    CHECK(step_in(no_steel, SiteStepKind::before_cover).marks.empty());

    roof = workshop();
    roof.deck.reset();
    roof.underlayment.reset();
    std::get<GableRoof>(roof.shape).build_up.deck = no_length;
    const SiteSheet no_deck = sheet_of(roof);
    CHECK(find_step(no_deck, SiteStepKind::first_row) == nullptr);
    CHECK(find_step(no_deck, SiteStepKind::underlayment) == nullptr);
    CHECK(step_in(no_deck, SiteStepKind::closures_and_lines).marks.empty());  // the purlins show
    CHECK(step_in(no_deck, SiteStepKind::base_line).expected[0].length == 36_in);
    for (const SiteStep& step : no_deck.steps) {
        CHECK_FALSE(holds(step.title + step.reading, "underlayment"));
        CHECK_FALSE(holds(step.title + step.reading, "heath"));  // sheathing
    }

    const SiteSheet chords = sheet_of(test_roofs::on_chords());
    CHECK(find_step(chords, SiteStepKind::purlin_marks) == nullptr);
    CHECK(find_step(chords, SiteStepKind::base_line) == nullptr);  // courses along the eave
    CHECK(step_in(chords, SiteStepKind::top_line).expected.size() == 1);

    roof = workshop();
    roof.steel->edges = {};
    const SiteSheet no_trim = sheet_of(roof);
    CHECK(find_step(no_trim, SiteStepKind::eave_trim) == nullptr);
    CHECK(find_step(no_trim, SiteStepKind::rake_trim) == nullptr);
    CHECK(find_step(no_trim, SiteStepKind::top_trim) == nullptr);
    CHECK_FALSE(holds(step_in(no_trim, SiteStepKind::closures_and_lines).reading, "closure"));
}

TEST_CASE("a single slope has a high edge and no ridge") {
    for (const RoofDescription& roof : {test_roofs::shed(), metric_lean_to()}) {
        const SiteSheet sheet = sheet_of(roof);
        CHECK(step_in(sheet, SiteStepKind::diagonals).title == "Diagonals of the slope");
        for (const SiteStep& step : sheet.steps) {
            const std::string words =
                step.title + step.reading + step.if_off + detail::write_figures(step.expected, roof.tick);
            CHECK_FALSE(holds(words, "ridge"));
            CHECK_FALSE(holds(words, "Ridge"));
            CHECK_FALSE(holds(words, "both slopes"));
        }
    }
    const SiteSheet lean_to = sheet_of(metric_lean_to());
    CHECK(step_in(lean_to, SiteStepKind::top_trim).title == "High-edge trim");
    // 9.4 m of eave less the first panel's 1 m: 8.4 m; 6.6 m / cos 15 = 6.833 m of slope. Lying, in parts of 100 mm:
    // 84 / 4 = 21, 68.33 / 3 = 22: 21 parts. Standing: 84 / 3 = 28, 68.33 / 4 = 17. So 8.4, 6.3 and 10.5 m.
    const SiteStep& base = step_in(lean_to, SiteStepKind::base_line);
    CHECK(off_by(base.expected[1].length, 8.4_m) < 1e-9);
    CHECK(off_by(base.expected[2].length, 6.3_m) < 1e-9);
    CHECK(off_by(base.expected[3].length, 10.5_m) < 1e-9);
    CHECK(step_in(lean_to, SiteStepKind::panel_marks).marks[0].at[0] == Length::from_millimetres(5000));
}

TEST_CASE("long triangles fit, are square, and no longer one of their kind fits") {
    const Tick inch = Tick::of_inch(16);
    CHECK(long_triangle(58_ft, 20.5_ft, inch)->third_side == 30_ft);
    CHECK(long_triangle(4_ft, 3_ft, inch)->third_side == 5_ft);
    CHECK(long_triangle(3_ft, 4_ft, inch)->slope_leg == 4_ft);
    CHECK(long_triangle(3.9_ft, 3_ft, inch)->third_side == 55_in);  // in inches: 46.8 / 4 = 11, 36 / 3 = 12: 11 parts
    CHECK_FALSE(long_triangle(2.9_in, 100_ft, inch).has_value());
    CHECK_FALSE(long_triangle(-1_ft, 10_ft, inch).has_value());
    for (double along = 5.0; along < 900.0; along += 37.3) {
        for (double up = 5.0; up < 300.0; up += 13.7) {
            const std::optional<LongTriangle> found =
                long_triangle(Length::from_inches(along), Length::from_inches(up), inch);
            REQUIRE(found.has_value());
            CHECK(inches(found->eave_leg) <= along);
            CHECK(inches(found->slope_leg) <= up);
            CHECK(off_by(found->third_side, hypotenuse(found->eave_leg, found->slope_leg)) < 1e-9);
            const double part = inches(found->third_side) / 5.0;
            const double more = part + (part >= 12.0 ? 12.0 : 1.0);
            CHECK_FALSE((3.0 * more <= along && 4.0 * more <= up));
            CHECK_FALSE((4.0 * more <= along && 3.0 * more <= up));
        }
    }
}

TEST_CASE("measured slopes say what to pull, in the words of their verdicts") {
    RoofDescription roof = workshop();
    const Length rake = 246.65_in;
    // One slope out by 1 in of diagonals: the longer from the left eave corner, so the ridge goes left.
    const FourSides out{744_in, 744_in, rake, rake, 784.3_in, 783.3_in};
    roof.as_built = {SlopeAsBuilt{.rows = std::nullopt, .sides = out, .deck = std::nullopt}, SlopeAsBuilt{}};
    RoofResult result = compiled::whole_roof(roof);
    const Trueness& front = *result.slopes[0].trueness;
    REQUIRE(front.verdict == SquareVerdict::pull);
    const SiteStep step = step_in(site_sheet(roof, result, 0), SiteStepKind::diagonals);
    REQUIRE(step.expected.size() == 2);  // the slopes differ now
    CHECK(step.expected[0].length == front.target_diagonal);
    CHECK(step.expected[1].length == result.slopes[1].diagonal);
    REQUIRE(step.correction.size() == 2);
    CHECK(step.correction[0].label == "ridge to the left");
    CHECK(step.correction[0].length == magnitude(front.ridge_move));
    CHECK(holds(step.correction[1].label, "left eave corner"));
    CHECK(step.correction[1].length == front.shorten_by);
    CHECK(step_in(site_sheet(roof, result, 1), SiteStepKind::diagonals).correction.empty());

    // Both slopes read: one ridge serves both, in the front's words on either sheet.
    const FourSides back{744_in, 744_in, rake, rake, 783.3_in, 784.3_in};
    roof.as_built[1].sides = back;
    result = compiled::whole_roof(roof);
    REQUIRE(result.ridge->verdict == PairVerdict::pull_ridge);
    for (std::size_t index = 0; index < 2; ++index) {
        const SiteStep both = step_in(site_sheet(roof, result, index), SiteStepKind::diagonals);
        REQUIRE(both.correction.size() == 1);
        CHECK(both.correction[0].label == "ridge to the left, seen from the front eave");
        CHECK(both.correction[0].length == magnitude(result.ridge->ridge_move));
    }
    roof.as_built[1].sides = out;  // both lean to their own left-to-right: the eaves have slid
    result = compiled::whole_roof(roof);
    REQUIRE(result.ridge->verdict == PairVerdict::eaves_slid);
    const SiteStep slid = step_in(site_sheet(roof, result, 0), SiteStepKind::diagonals);
    REQUIRE_FALSE(slid.correction.empty());
    CHECK(slid.correction[0].length == magnitude(result.ridge->eave_slide));
    CHECK(holds(slid.if_off, "no pull"));
}

TEST_CASE("a measured deck gives its readings and lengths") {
    RoofDescription roof = workshop();
    const Length left = 246.625_in;
    const Length right = 244.125_in;
    const FourSides deck{744_in, hypotenuse(744_in, left - right), left,
                         right,  hypotenuse(744_in, right),        hypotenuse(744_in, left)};
    roof.as_built = {SlopeAsBuilt{.rows = std::nullopt, .sides = std::nullopt, .deck = deck}, SlopeAsBuilt{}};
    const RoofResult result = compiled::whole_roof(roof);
    const SiteStep step = step_in(site_sheet(roof, result, 0), SiteStepKind::before_cover);
    REQUIRE(step.expected.size() == 6);
    CHECK(off_by(step.expected[2].length, left) < 1e-6);
    CHECK(off_by(step.expected[3].length, right) < 1e-6);
    std::size_t named = 0;
    const std::vector<PanelPiece>& pieces = result.slopes[0].steel->panels.pieces;
    REQUIRE(step.marks.size() > 1);
    for (std::size_t i = 1; i < step.marks.size(); ++i) {
        CHECK(step.marks[i].at[0] != step.marks[i - 1].at[0]);
    }
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        named += pieces[i].order_length != pieces[i - 1].order_length ? 1U : 0U;
    }
    CHECK(step.marks.size() == named + 1);
}

TEST_CASE("rows as found are read again, at both rakes") {
    const RoofDescription roof = test_roofs::as_found();
    const RoofResult result = compiled::whole_roof(roof);
    const SiteStep step = step_in(site_sheet(roof, result, 0), SiteStepKind::purlin_marks);
    CHECK(holds(step.title, "as found"));
    REQUIRE(step.mark_columns.size() == 4);
    for (std::size_t i = 0; i < step.marks.size(); ++i) {
        CHECK(step.marks[i].at[1] == result.slopes[0].marks[i + 1].mark);
    }
}

TEST_CASE("courses of underlayment stand with their marks") {
    RoofDescription roof = workshop();
    roof.underlayment = DryInPlan{.roll = {.length = 72_ft}};
    const RoofResult result = compiled::whole_roof(roof);
    const SiteStep step = step_in(site_sheet(roof, result, 0), SiteStepKind::underlayment);
    const Underlayment& laid = *result.slopes[0].underlayment;
    CHECK(step.expected[0].length == laid.laps.exposure);
    CHECK(step.expected[2].length == laid.laps.end_lap);
    REQUIRE(step.marks.size() == laid.marks.size());
    for (std::size_t i = 0; i < laid.marks.size(); ++i) {
        CHECK(step.marks[i].at[0] == laid.marks[i].left);
    }
}

TEST_CASE("cautions name falls, lifting, wind, bracing and the professional") {
    const SiteSheet sheet = sheet_of(workshop());
    std::string all;
    for (const std::string& caution : sheet.cautions) {
        all += caution + "\n";
    }
    for (const char* part : {"Falls", "Lifting", "Wind", "bracing", "licensed professional", "local rules"}) {
        CHECK(holds(all, part));
    }
    CHECK(holds(all, std::string{layout_caution}));
    CHECK(holds(all, std::string{handling_caution}));
    // 30 lbf on 32 sq ft: 19.1 mph; on 66.9 sq ft: sqrt(30 / 66.8958 / 0.00256) = 13.2 mph. Rounded down.
    CHECK(holds(all, "a sheet at 19 mph, a panel at 13 mph"));
    CHECK_FALSE(holds(detail::wind_words(compiled::whole_roof(test_roofs::shed()), false), "mph"));
}

TEST_CASE("a sheet is not made of another roof's layout, nor for a plane that is not there") {
    const RoofDescription roof = workshop();
    const RoofResult result = compiled::whole_roof(roof);
    const Fault plane = refusal_of([&] { (void)site_sheet(roof, result, 2); });
    CHECK(plane.path == "slope");
    CHECK(plane.code == FaultCode::out_of_range);
    CHECK(refusal_of([&] { (void)site_sheet(test_roofs::shed(), result, 0); }).code == FaultCode::contradiction);
    CHECK(refusal_of([&] { (void)site_sheet(test_roofs::on_chords(), result, 0); }).code == FaultCode::contradiction);
    const Fault limit = refusal_of([&] { (void)site_sheet(roof, result, 0, {.plumb = 13_in}); });
    CHECK(limit.path == "limits.plumb");
    CHECK(refusal_of([&] { (void)site_sheet(roof, result, 0, {.panels_between = 0}); }).path ==
          "limits.panels_between");
    for (const Length bad : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)site_sheet(roof, result, 0, {.trim = bad}); }).path == "limits.trim");
    }
}

TEST_CASE("a wall without a height above its benchmark keeps its limit to itself") {
    RoofDescription roof = workshop();
    std::get<GableRoof>(roof.shape).bearing_height = 0_in;
    const SiteStep corners = step_in(sheet_of(roof), SiteStepKind::corners_plumb);
    CHECK_FALSE(corners.limit.has_value());
    CHECK(corners.expected.empty());
}

TEST_CASE("a sheet travels as JSON") {
    const std::string json = write_json(sheet_of(workshop()), LengthUnit::inches);
    CHECK(holds(json, R"("kind": "diagonals_braced")"));
    CHECK(holds(json, R"("limit": 0.3)"));
    CHECK(holds(json, R"({"label": "widest space", "length": 24})"));
    CHECK_FALSE(holds(json, "nan"));
    CHECK(holds(write_json_schema<SiteSheet>("sheet"), "mark_columns"));
}

TEST_CASE("plain text: narrow, whole, the same every time") {
    for (RoofDescription roof : roofs()) {
        roof.name += "\n\x01 \xC3\xA9" + std::string(100, 'w');
        const RoofResult result = compiled::whole_roof(roof);
        const SiteSheet sheet = site_sheet(roof, result, result.slopes.size() - 1);
        const std::string text = write_site_sheet(sheet, roof.tick);
        CHECK(text == write_site_sheet(sheet, roof.tick));
        std::string joined;
        std::size_t start = 0;
        for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', start)) {
            const std::string line = text.substr(start, end - start);
            CHECK(detail::characters_in(line) <= 78);
            CHECK((line.empty() || line.back() != ' '));
            const std::size_t first = line.find_first_not_of(' ');
            joined += first == std::string::npos ? "" : line.substr(first) + " ";
            start = end + 1;
        }
        CHECK(start == text.size());
        for (const SiteStep& step : sheet.steps) {
            CHECK(holds(joined, step.title));
            CHECK(holds(joined, step.if_off));
            CHECK(holds(joined, detail::write_figures(step.expected, roof.tick)));
            for (const SiteMark& mark : step.marks) {
                CHECK((!mark.at[0] || holds(text, write_length(*mark.at[0], roof.tick))));
            }
        }
        for (const std::string& caution : sheet.cautions) {
            CHECK(holds(joined, caution));
        }
    }
}

TEST_CASE("limits are never written larger than they are") {
    const Tick sixteenth = Tick::of_inch(16);
    CHECK(detail::write_limit(0.3_in, sixteenth) == "1/4\"");
    CHECK(detail::write_limit(0.125_in, Tick::of_inch(2)) == "1/8\"");
    CHECK(detail::write_limit(0.1_in, Tick::of_inch(8)) == "3/32\"");  // 0.1 x 64 = 6.4: 6/64
    CHECK(detail::write_limit(0_in, sixteenth) == "0\"");
    CHECK(detail::write_limit(0.125_in, Tick::of_millimetres(1)) == "3 mm");  // 3.175
    CHECK(detail::write_limit(0.125_in, Tick::of_millimetres(5)) == "3.1 mm");
}
