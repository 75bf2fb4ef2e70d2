// SPDX-License-Identifier: BSL-1.0
#include "../support/compiled.hpp"
#include "workshop.hpp"

#include <eavewright/whole_roof.hpp>

#include "support/printing.hpp"

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
RoofDescription timber_store() {
    const PurlinStock stock{.thickness = 45_mm, .depth = 90_mm, .lie = PurlinLie::flat};
    RoofDescription roof{
        .name = "Timber store",
        .shape = SingleSlopeRoof{.width = 6_m,
                                 .length = 12_m,
                                 .pitch = Pitch::from_degrees(10.0),
                                 .eave_overhang = 450_mm,
                                 .high_overhang = 300_mm,
                                 .rake_overhang = 300_mm,
                                 .build_up = {.purlin = 45_mm, .deck = 15_mm},
                                 .bearing_height = 2.7_m,
                                 .heel = 140_mm},
        .frames = {.spacing = EqualBays{4}},
        .purlins = PurlinPlan{.spacing = ToSheets{.sheet_length = 2400_mm, .gap = 3_mm, .spaces = 4},
                              .cuts = {.stock_length = 6.6_m},
                              .stock = stock},
        .deck = DeckPlan{.sheets = {.sheet = {.width = 1200_mm, .length = 2400_mm}, .gap = 3_mm, .stagger_spaces = 2},
                         .nails = {.edge = 150_mm, .field = 300_mm}}};
    roof.tick = Tick::of_millimetres(1);
    return roof;
}
}  // namespace

TEST_CASE("walk: a metric roof closes to its own tick, every joint on a purlin's centre") {
    const RoofResult roof = compiled::whole_roof(timber_store());
    CHECK(roof.findings == 0);
    CHECK(roof.worst_closure <= 0.5_mm + 1e-9_in);
    // (6000 + 450 + 300) / cos 10 deg = 6854.13 mm.
    CHECK(std::fabs(millimetres(roof.slopes[0].slope_length) - 6750.0 / std::cos(angle_from_degrees(10.0).value())) <
          1e-6);
    for (const EndJoint& joint : roof.slopes[0].sheets.joints) {
        REQUIRE(joint.support.has_value());
        // 90 mm flat, 3 mm gap in the middle: each end bears (90 - 3)/2 = 43.5 mm.
        CHECK(std::fabs(millimetres(joint.first_bearing) - 43.5) < 1e-6);
        CHECK(std::fabs(millimetres(joint.second_bearing) - 43.5) < 1e-6);
    }
}

TEST_CASE("walk: a 2400 mm sheet on four 24 in spaces misses its purlin") {
    // 2400 mm = 94.488 in; the fifth 1 1/2 in purlin begins at 96 - 0.75 = 95.25 in.
    RoofDescription roof = workshop();
    roof.deck->sheets.sheet.length = 2400_mm;
    const RoofResult result = compiled::whole_roof(roof);
    std::size_t missed = 0;
    for (const Finding& finding : result.slopes[0].sheets.findings) {
        if (finding.code == FindingCode::joint_on_nothing) {
            ++missed;
            REQUIRE(finding.block.has_value());
            CHECK(finding.block->length <= 48_in);
        }
    }
    CHECK(missed == 64);  // 16 columns, two joints each, two ends a joint
}

TEST_CASE("walk: rows as found, fed back as the rows they were, change nothing") {
    const RoofResult ruled = compiled::whole_roof(workshop());
    RoofDescription roof = workshop();
    AsFound found{};
    for (const PurlinRow& row : ruled.slopes[0].purlins->rows) {
        if (row.kind != RowKind::eave) {
            found.rows.emplace_back(row.centreline.front().up);
        }
    }
    roof.as_built = {SlopeAsBuilt{.rows = found}, SlopeAsBuilt{.rows = found}};
    const RoofResult as_found = compiled::whole_roof(roof);
    CHECK(as_found.nails == ruled.nails);
    CHECK(as_found.findings == ruled.findings);
    CHECK(as_found.sheet_pieces == ruled.sheet_pieces);
}

TEST_CASE("walk: sides that read true give the nominal layout, to what the tape was rounded to") {
    const RoofResult nominal = compiled::whole_roof(workshop());
    const SlopeResult& slope = nominal.slopes[0];
    const FourSides sides{.eave = slope.plane_length,
                          .ridge = slope.plane_length,
                          .left = slope.slope_length,
                          .right = slope.slope_length,
                          .up_right = slope.diagonal,
                          .up_left = slope.diagonal};
    RoofDescription roof = workshop();
    roof.as_built = {SlopeAsBuilt{.sides = sides}, SlopeAsBuilt{.sides = sides}};
    const RoofResult measured = compiled::whole_roof(roof);
    CHECK(measured.nails == nominal.nails);
    CHECK(measured.findings == 0);
    REQUIRE(measured.ridge.has_value());
    CHECK(measured.slopes[0].trueness->verdict == SquareVerdict::square);
    CHECK(magnitude(measured.ridge->ridge_move) < 1e-9_in);
    CHECK(std::fabs(square_feet(measured.roof_area) - square_feet(nominal.roof_area)) < 1e-6);
}

TEST_CASE("walk: sheets over chords run along the eave") {
    RoofDescription roof = workshop();
    roof.purlins.reset();
    std::get<GableRoof>(roof.shape).build_up.purlin = 0_in;
    roof.steel.reset();  // its screws go into purlins
    roof.covering = CoveringPlan{.covering = Covering::asphalt_shingles};
    roof.frames.spacing = BaysAtMost{24_in};
    roof.deck->sheets.joints = JointPlace::on_supports;
    const RoofResult result = compiled::whole_roof(roof);
    const SlopeResult& front = result.slopes[0];
    CHECK(front.surface == Surface::chord_top);
    CHECK(front.sheets.run == SupportRun::up_slope);
    CHECK_FALSE(front.purlins.has_value());
    CHECK(front.purlin_pieces.empty());
    for (const EndJoint& joint : front.sheets.joints) {
        CHECK(joint.support.has_value());
    }
    REQUIRE(result.underlayment_rule.has_value());
    CHECK(kind_of(result.underlayment_rule->rule) == UnderlaymentRuleKind::single_coverage);  // 4 in 12 is not below it
    CHECK(front.underlayment->courses.size() == 8);
    // 246.6577 in up the slope in courses of 48 1/8: five and 6.03 in left, narrower than the sliver limit.
    for (const Finding& finding : front.sheets.findings) {
        CHECK(finding.code == FindingCode::sliver_width);
    }
}

TEST_CASE("walk: half lap under shingles below 4 in 12, and no lapped metal below 3 in 12") {
    RoofDescription roof = workshop();
    std::get<GableRoof>(roof.shape).pitch = Pitch::in_12(3.5);
    CHECK(compiled::check(roof).empty());
    roof.steel.reset();
    roof.covering = CoveringPlan{.covering = Covering::asphalt_shingles};
    const RoofResult low = compiled::whole_roof(roof);
    CHECK(kind_of(low.underlayment_rule->rule) == UnderlaymentRuleKind::half_lap);
    CHECK(low.slopes[0].underlayment->laps.layers == 2);
    roof = workshop();
    std::get<GableRoof>(roof.shape).pitch = Pitch::in_12(2.5);
    const Faults faults = compiled::check(roof);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].path == "steel");
    CHECK(faults[0].required.find("at least 3 in 12 for lapped metal") == 0);
    CHECK(faults[0].required.find("sealed lapped metal") != std::string::npos);
    roof.steel->edges.closures->side_laps = true;
    CHECK(compiled::check(roof).empty());
}

TEST_CASE("walk: the same description gives the same bits") {
    const std::string once = write_json(compiled::whole_roof(workshop()), LengthUnit::inches);
    const std::string again = write_json(compiled::whole_roof(workshop()), LengthUnit::inches);
    CHECK(once == again);
}

TEST_CASE("walk: every result carries its caution") {
    const std::string text = write_json(compiled::whole_roof(workshop()), LengthUnit::inches);
    CHECK(text.find("confirmed under the local code by a licensed professional") != std::string::npos);
}
