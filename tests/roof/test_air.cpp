// SPDX-License-Identifier: BSL-1.0
#include <eavewright/roof/air.hpp>
#include <eavewright/roof/shape.hpp>

#include <doctest/doctest.h>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/table.hpp"

#include <cmath>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
double square_inches_of(Area area) { return square_inches(area); }

VentPlan plan_of(double width_ft, double length_ft) {
    return {.width = 1_ft * width_ft,
            .length = 1_ft * length_ft,
            .ridge_length = 1_ft * length_ft,
            .eave_length = 2_ft * length_ft};
}
}  // namespace

TEST_CASE("air: 20 x 30 ft at 1/150 as a vent maker prints it") {
    // 600 sq ft / 150 = 4 sq ft = 576 sq in: ridge 288, each of two eaves 144 (vent maker's help page, How do I determine
    // how much Net Free Area, read).
    const VentOpenings air = vent_openings(plan_of(20.0, 30.0));
    CHECK(std::fabs(square_feet(air.net) - 4.0) < 1e-12);
    CHECK(std::fabs(square_inches_of(air.net) - 576.0) < 1e-9);
    CHECK(std::fabs(square_inches_of(air.high) - 288.0) < 1e-9);
    CHECK(std::fabs(square_inches_of(air.low) / 2.0 - 144.0) < 1e-9);
    // 288 sq in over 360 in of ridge: a slot of 0.8 in, 0.4 in held back on each slope.
    CHECK(off_by(air.ridge_slot, 0.8_in) < 1e-12);
    CHECK(off_by(air.ridge_slot_a_side, 0.4_in) < 1e-12);
    CHECK(off_by(air.eave_opening, 0.4_in) < 1e-12);  // 288 over 720 in of eaves
}

TEST_CASE("air: the whole table of net free areas") {
    for (const TableRow& row : read_table("vent_areas.csv")) {
        const std::string& size = row.at("plan_ft");
        const auto cross = size.find('x');
        VentPlan plan = plan_of(std::stod(size.substr(0, cross)), std::stod(size.substr(cross + 1)));
        const double last_digit = 0.0501;  // the table prints tenths of a square inch
        CHECK(std::fabs(square_inches_of(vent_openings(plan).net) - std::stod(row.at("net_sq_in_1_150"))) < last_digit);
        CHECK(std::fabs(square_inches_of(vent_openings(plan).high) - std::stod(row.at("half_sq_in"))) < last_digit);
        plan.ratio = 300.0;
        const double ridge_ft = feet(plan.ridge_length);
        CHECK(std::fabs(square_inches_of(vent_openings(plan).high) - std::stod(row.at("upper_50pct_of_1_300_sq_in"))) <
              last_digit);
        CHECK(std::fabs(square_inches_of(vent_openings(plan).high) / ridge_ft -
                        std::stod(row.at("ridge_sq_in_per_ft_50pct"))) < 5e-4);
        plan.high_share = 0.4;
        const VentOpenings low = vent_openings(plan);
        CHECK(std::fabs(square_inches_of(low.high) - std::stod(row.at("upper_40pct_of_1_300_sq_in"))) < last_digit);
        CHECK(std::fabs(square_inches_of(low.low) / (2.0 * ridge_ft) -
                        std::stod(row.at("eave_sq_in_per_ft_if_60pct_low"))) < 5e-4);
    }
}

TEST_CASE("air: editions disagree on the share at the ridge, so the edition is asked") {
    VentPlan plan = plan_of(40.0, 60.0);
    plan.ratio = 300.0;
    plan.high_share = 0.7;
    CHECK(refusal_of([&] { (void)vent_openings(plan); }).path == "air.high_share");  // 40 to 50 %
    plan.rule = VentRule::high_50_to_80;
    CHECK(check(plan).empty());
    plan.high_share = 0.45;
    CHECK(refusal_of([&] { (void)vent_openings(plan); }).path == "air.high_share");
    plan.rule = VentRule::no_share;
    CHECK(check(plan).empty());
    plan.rule = VentRule::high_50_to_80;
    plan.ratio = 150.0;  // at 1/150 no share is asked
    CHECK(check(plan).empty());
}

TEST_CASE("air: a screen that lets half the air through doubles the opening") {
    VentPlan plan = plan_of(20.0, 30.0);
    plan.net_share = 0.5;
    CHECK(off_by(vent_openings(plan).ridge_slot, 1.6_in) < 1e-12);
}

TEST_CASE("air: what is refused") {
    VentPlan plan = plan_of(20.0, 30.0);
    plan.ratio = std::nan("");
    CHECK(refusal_of([&] { (void)vent_openings(plan); }).code == FaultCode::not_finite);
    plan = plan_of(20.0, 30.0);
    plan.ridge_length = 0_in;
    CHECK(refusal_of([&] { (void)vent_openings(plan); }).code == FaultCode::contradiction);
    plan = plan_of(20.0, 30.0);
    plan.eave_length = 0_in;
    CHECK(refusal_of([&] { (void)vent_openings(plan); }).path == "air.eave_length");
    plan.width = 0_in;
    CHECK(refusal_of([&] { (void)vent_openings(plan); }).path == "air.width");
}

TEST_CASE("foam: board feet over the real plane") {
    // 1 board foot is 1 sq ft, 1 in thick; 100 sq ft at 3 in = 300 (insulation contractor's page, read).
    CHECK(std::fabs(board_feet(foam_over(area_from_square_feet(100.0), 3_in).volume) - 300.0) < 1e-9);
    // 40 x 60 ft at 4 in 12, 1 in: 2400 x sqrt(10)/3 = 2529.8 (derived).
    const Area plane = area_from_square_feet(2400.0 * Pitch::in_12(4).slope_factor());
    CHECK(std::fabs(board_feet(foam_over(plane, 1_in).volume) - 2529.8) < 0.05);
    CHECK(refusal_of([&] { (void)foam_over(plane, -1_in); }).path == "foam.thickness");
    CHECK(refusal_of([&] { (void)foam_over(Area::from_value(-1.0), 1_in); }).path == "foam.area");
}
