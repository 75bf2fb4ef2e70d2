// SPDX-License-Identifier: BSL-1.0

// Panels against published counts, weights and growth.

#include <eavewright/tiling/lay_panels.hpp>
#include <eavewright/tiling/panel_lengths.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/table.hpp"

#include "tiling_planes.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("sheets of 14 x 20 in by area, every part counted whole") {
    for (const TableRow& row : read_table("sheet_counts_14x20_tin.csv")) {
        // 1/2 in edges leave 13 x 19 = 247 sq in of each.
        const Area roof = area_from_square_feet(std::stod(row.at("roof_sq_ft")));
        CHECK(panels_for_area(roof, 13_in, 19_in) == std::stoll(row.at("printed_sheets")));
    }
    // The same source: 20 x 84 = 1680 sq ft, 1000 and 680 looked up apart: 583 + 397 = 980.
    CHECK(panels_for_area(area_from_square_feet(1680), 13_in, 19_in) == 980);
    CHECK(panels_for_area(area_from_square_feet(1000), 13_in, 19_in) == 583);
}

TEST_CASE("weight laid follows L / (L - lap) within 0.6 lb") {
    // Printed in whole pounds, and the weight of the bare sheet is not: one constant a gauge, fitted by least squares.
    const std::vector<TableRow> rows = read_table("corrugated_weight_end_lap.csv");
    std::map<std::string, std::pair<double, double>> sums;
    const auto factor = [](const TableRow& row) {
        return end_lap_factor(Length::from_feet(std::stod(row.at("sheet_length_ft"))), 6_in);
    };
    for (const TableRow& row : rows) {
        sums[row.at("gauge")].first += factor(row) * std::stod(row.at("printed_lb_per_square"));
        sums[row.at("gauge")].second += factor(row) * factor(row);
    }
    CHECK(sums.size() == 4);
    for (const TableRow& row : rows) {
        const std::pair<double, double> sum = sums[row.at("gauge")];
        const double weight = sum.first / sum.second * factor(row);
        CHECK(std::fabs(weight - std::stod(row.at("printed_lb_per_square"))) < 0.6);
        CHECK(std::fabs(weight - std::stod(row.at("computed"))) < 0.006);
    }
    CHECK(end_lap_factor(10_ft, no_length) == 1.0);
    CHECK(refusal_of([] { (void)end_lap_factor(6_in, 6_in); }).code == FaultCode::does_not_fit);
    CHECK(refusal_of([] { (void)end_lap_factor(6_in, -1_in); }).code == FaultCode::does_not_fit);
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)end_lap_factor(none, 1_in); }).code == FaultCode::does_not_fit);
    }
}

TEST_CASE("growth of steel") {
    // NZ Metal Roof and Wall Cladding Code of Practice v3.0, Temperature Range: 30 m through 60 C grows 21.6 mm.
    const Length growth = thermal_growth(30_m, TemperatureChange::from_celsius(60));
    CHECK(std::fabs(millimetres(growth) - 21.6) < 1e-9);
    // Insulated, light 75 and dark 95 C; the millimetres worked out as 12 x dT x L / 1000.
    CHECK(std::fabs(millimetres(thermal_growth(30_m, TemperatureChange::from_celsius(75))) - 27.0) < 1e-9);
    CHECK(std::fabs(millimetres(thermal_growth(30_m, TemperatureChange::from_celsius(95))) - 34.2) < 1e-9);
    CHECK(std::fabs(millimetres(thermal_growth(-(30_m), TemperatureChange::from_celsius(60))) + 21.6) < 1e-9);
    // 6.5e-6 a degree Fahrenheit (AISC, from memory): 40 ft through 100 F grows 0.312 in; within 3 %.
    const Length fahrenheit = thermal_growth(40_ft, TemperatureChange::from_fahrenheit(100));
    CHECK(std::fabs(inches(fahrenheit) - 0.312) < 0.03 * 0.312);
    CHECK(std::fabs(inches(fahrenheit) - 0.32) < 1e-12);  // 480 x 12e-6 x 500/9
    CHECK(refusal_of([] { (void)TemperatureChange::from_celsius(501); }).path == "temperature");
    CHECK(refusal_of([] { (void)thermal_growth(1_m, TemperatureChange::from_celsius(1), -1.0); }).path ==
          "growth_per_celsius");
}

TEST_CASE("saw-tooth of panels laid along a leaning rake") {
    // NZ Code of Practice 14.9: a step above 5 mm may be trimmed. 36 in of cover, 3 in of lean in 16 ft: 9/16 in.
    CHECK(rake_taper(3_in, 16_ft, 36_in).saw_tooth == 0.5625_in);
    CHECK(rake_taper(-3_in, 16_ft, 36_in).saw_tooth == 0.5625_in);
    // 5 mm come from 1.05 in of lean at 36 in, 1.57 in at 24 in.
    CHECK(std::fabs(millimetres(rake_taper(1.05_in, 16_ft, 36_in).saw_tooth) - 5.0) < 0.005 * 5.0);
    CHECK(std::fabs(millimetres(rake_taper(1.57_in, 16_ft, 24_in).saw_tooth) - 5.0) < 0.005 * 5.0);
    CHECK(refusal_of([] { (void)rake_taper(1_in, no_length, 36_in); }).path == "rise");
}

TEST_CASE("a shed's sheet by the foot") {
    // 8 ft of run, 1 ft of rise, 1.75 ft along the slope at both ends: 11.562 ft, so a 12 ft sheet (a published shed).
    const Length slope = hypotenuse(8_ft, 1_ft);
    const FittedLength fitted = fit_length(slope + 1.75_ft, {1.75_ft, 1.75_ft, 2.75_ft}, 1_ft);
    CHECK(off_by(slope + 3.5_ft, 11.562258_ft) < 1e-5);
    CHECK(fitted.order == 12_ft);
    CHECK(fitted.fits);
}

namespace {
/// The published value of the first rule whose name starts so.
double rule(const std::string& name) {
    for (const TableRow& row : read_table("panel_layout_rules.csv")) {
        if (row.at("rule").rfind(name, 0) == 0) {
            return std::stod(row.at("value"));
        }
    }
    FAIL("no rule " << name);
    return 0.0;
}
Panels row_of(Length along, Length cover) {
    const Supports<Surface::purlin_top> none{SupportRun::along_eave, {}, no_length};
    const PanelStock stock{.cover = cover, .side_lap = 2_in, .rib_spacing = cover / 4.0};
    return lay_panels(plane_of(along, 10_ft), none, {.ridge_hold_back = 1_in, .panel = stock, .pack_drift = no_length});
}
}  // namespace

TEST_CASE("defaults are the published ones where there are such") {
    const PanelPlan plan{.ridge_hold_back = 1_in};
    CHECK(inches(plan.eave.most) == rule("eave overhang of metal past rafter end"));
    CHECK(inches(plan.eave.most) == rule("V-crimp sheet projection past sheathing"));
    CHECK(inches(plan.end_lap) == rule("end lap of short sheets, minimum"));
    CHECK(inches(plan.panel.cover) == rule("ribbed sheet 39 in wide, cover with 3 in lap"));
    CHECK(inches(plan.panel.cover + plan.panel.side_lap) == 39.0);
    CHECK(inches(plan.trim_hides) == rule("out-of-square at rake that gable trim can hide"));
}

TEST_CASE("published counts of sheets in a row") {
    // readmetalroofing.com: 10 ft at 3 ft of cover: 3 whole and 1 ft of a fourth.
    CHECK(row_of(10_ft, 3_ft).lanes == 4);
    CHECK(row_of(10_ft, 3_ft).last_cover == 1_ft);
    // paramvisions.com: 12 ft at 1.015 m is printed 3.6036, 3.6576 / 1.015 = 3.60355: within the last digit; 22 ft is 6.6065 (printed 6.6036, the digits of the row above).
    CHECK(std::fabs(row_of(12_ft, 1.015_m).exact_panels - 3.6036) < 1e-4);
    CHECK(row_of(12_ft, 1.015_m).lanes == 4);
    CHECK(std::fabs(row_of(22_ft, 1.015_m).exact_panels - 6.6065) < 5e-5);
    CHECK(row_of(22_ft, 1.015_m).lanes == 7);
    // UF00008517, steps 54 and 55: 40 ft and 12 in at 24 in of cover: 492 / 24 = 20.5.
    const Length row = 40_ft + one_inch * rule("added to ridge length for finishing");
    CHECK(row_of(row, one_inch * rule("cover of common corrugated sheet")).lanes == 21);
    // Fajardo's 0.80 m sheet in a row of 15 m: 22 at 0.70 m of cover, 25 at 0.60 m, which is exact.
    CHECK(row_of(15_m, 0.7_m).lanes == 22);
    CHECK(row_of(15_m, 0.6_m).lanes == 25);
    CHECK(off_by(row_of(15_m, 0.6_m).last_cover, 0.6_m) < 1e-9);
}
