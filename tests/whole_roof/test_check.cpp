// SPDX-License-Identifier: BSL-1.0
#include "../support/compiled.hpp"
#include "workshop.hpp"

#include <eavewright/whole_roof.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <limits>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
GableRoof& gable_of(RoofDescription& roof) { return std::get<GableRoof>(roof.shape); }

bool has_fault(const Faults& faults, FaultCode code, const std::string& path) {
    return std::any_of(faults.begin(), faults.end(), [&](const Fault& f) { return f.code == code && f.path == path; });
}
}  // namespace

TEST_CASE("check: a sound roof has no faults") { CHECK(compiled::check(workshop()).empty()); }

TEST_CASE("check: every fault of the parts is listed at once, and none is thrown") {
    RoofDescription roof = workshop();
    gable_of(roof).width = -36_ft;
    gable_of(roof).heel = 9999_ft;
    roof.frames.spacing = EqualBays{0};
    roof.purlins->spacing = Fixed{0_in};
    roof.deck->sheets.sheet.width = 0_in;
    roof.deck->nails.edge = 0_in;
    const Faults faults = compiled::check(roof);
    CHECK(faults.size() == 6);
    CHECK(has_fault(faults, FaultCode::out_of_range, "shape.width"));
    CHECK(has_fault(faults, FaultCode::out_of_range, "shape.heel"));
    CHECK(has_fault(faults, FaultCode::out_of_range, "frames.bays"));
    CHECK(has_fault(faults, FaultCode::out_of_range, "purlins.spacing.fixed"));
    CHECK(has_fault(faults, FaultCode::out_of_range, "deck.sheets.width"));
    CHECK(has_fault(faults, FaultCode::out_of_range, "deck.nails.edge"));
    CHECK_THROWS_AS((void)compiled::whole_roof(roof), FaultError);
}

TEST_CASE("check: what the steps would refuse is listed too") {
    RoofDescription roof = workshop();
    roof.purlins->cuts.stock_length = 8_ft;
    roof.purlins->blocked_bays = {7};
    roof.deck->sheets.stagger_spaces = 4;
    const Faults faults = compiled::check(roof);
    CHECK(faults.size() == 3);
    CHECK(has_fault(faults, FaultCode::does_not_fit, "purlins.stock_length"));
    CHECK(has_fault(faults, FaultCode::out_of_range, "purlins.blocked_bays[0]"));
    CHECK(has_fault(faults, FaultCode::does_not_fit, "deck.sheets.stagger_spaces"));
}

TEST_CASE("check: not-a-number that came out of arithmetic is refused at the door") {
    RoofDescription roof = workshop();
    gable_of(roof).length = 60_ft * std::numeric_limits<double>::quiet_NaN();
    CHECK(has_fault(compiled::check(roof), FaultCode::not_finite, "shape.length"));
    gable_of(roof).length = 60_ft * std::numeric_limits<double>::infinity();
    CHECK(has_fault(compiled::check(roof), FaultCode::not_finite, "shape.length"));
}

TEST_CASE("check: layers that contradict the purlins are refused") {
    RoofDescription roof = workshop();
    gable_of(roof).build_up.purlin = 1.5_in;  // the purlins stand 5 1/2 in on edge
    CHECK(has_fault(compiled::check(roof), FaultCode::contradiction, "shape.build_up.purlin"));
}

TEST_CASE("check: rows as found belong to a slope") {
    RoofDescription roof = workshop();
    roof.as_built = {SlopeAsBuilt{.rows = AsFound{{24_in, 23_in}}}, SlopeAsBuilt{}};
    CHECK(has_fault(compiled::check(roof), FaultCode::out_of_order, "as_built[0].rows[1]"));
    roof.as_built = {SlopeAsBuilt{}, SlopeAsBuilt{.rows = AsFound{{24_in, 300_in}}}};
    CHECK(has_fault(compiled::check(roof), FaultCode::does_not_fit, "as_built[1].rows[1]"));
    roof.as_built = {SlopeAsBuilt{}};
    CHECK(has_fault(compiled::check(roof), FaultCode::contradiction, "as_built"));
}

TEST_CASE("check: a fault reads as one line with input, value and what is allowed") {
    RoofDescription roof = workshop();
    gable_of(roof).rake_overhang = -1_in;
    const Faults faults = compiled::check(roof);
    REQUIRE(faults.size() == 1);
    CHECK(describe(faults[0]) ==
          "shape.rake_overhang: -1 in (-25.4 mm); required: 0 in (0 mm) to 240 in (6096 mm) [fault 202]");
}
