// SPDX-License-Identifier: BSL-1.0

// Panels against published counts, weights and growth.

#include <eavewright/tiling/panel_lengths.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/table.hpp"

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
