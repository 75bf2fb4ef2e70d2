// SPDX-License-Identifier: BSL-1.0

// Least slopes of coverings against the table of outside values, and the rule of underlayment that follows from them.

#include <eavewright/tiling/covering.hpp>
#include <eavewright/tiling/underlayment_rule.hpp>
#include <eavewright/units/read_pitch.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/table.hpp"

#include <doctest/doctest.h>

#include <map>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const std::map<std::string, Covering> table_names{
    {"asphalt shingles", Covering::asphalt_shingles},
    {"metal roof panels, lapped nonsoldered seam, no lap sealant", Covering::lapped_metal},
    {"metal roof panels, lapped nonsoldered seam, with lap sealant", Covering::sealed_lapped_metal},
    {"standing seam metal", Covering::standing_seam},
    {"metal shingles", Covering::metal_shingles},
    {"wood shakes", Covering::wood_shakes},
    {"wood shingles", Covering::wood_shingles},
    {"mineral-surfaced roll roofing", Covering::mineral_roll},
    {"clay and concrete tile", Covering::tile},
    {"slate", Covering::slate},
    {"built-up, single-ply, liquid-applied", Covering::built_up},
    {"coal-tar built-up", Covering::coal_tar}};

/// "3:12 (25 percent)" without what stands in brackets.
Pitch pitch_in(const std::string& text) { return read_pitch(text.substr(0, text.find(" ("))).value(); }

UnderlaymentChoice choice_for(Covering covering, double rise, bool high_wind = false) {
    return choose_underlayment({.covering = covering, .pitch = Pitch::in_12(rise), .high_wind = high_wind});
}
}  // namespace

TEST_CASE("coverings: every least slope of the table") {
    std::size_t met = 0;
    for (const TableRow& row : read_table("roof_min_slopes.csv")) {
        const std::string& name = row.at("covering");
        CAPTURE(name);
        if (name == "asphalt shingles, double underlayment") {  // from 2:12 up to 4:12: two layers, see below
            CHECK(row.at("minimum_slope") == "from 2:12 up to 4:12");
            continue;
        }
        REQUIRE(table_names.count(name) == 1);
        const Covering covering = table_names.at(name);
        const LeastSlope least = least_slope(covering);
        CHECK(least.least == pitch_in(row.at("minimum_slope")));
        CHECK(least.clause == row.at("clause"));
        CHECK(least.unverified == (row.at("status") == "FROM MEMORY"));
        CHECK((least.source == SlopeSource::memory) == least.unverified);
        ++met;
        // The least slope itself is allowed, in any way of writing it; a tenth of an inch lower is not.
        const SlopeRuling at_least = least.unverified ? SlopeRuling::unverified : SlopeRuling::allowed;
        const SlopeRuling below = least.unverified ? SlopeRuling::unverified : SlopeRuling::too_low;
        const double rise = least.least.rise_in_12();
        CHECK(slope_verdict(covering, least.least).ruling == at_least);
        CHECK(slope_verdict(covering, Pitch::from_degrees(degrees(least.least.angle()))).ruling == at_least);
        CHECK(slope_verdict(covering, Pitch::from_percent(rise / 12.0 * 100.0)).ruling == at_least);
        CHECK(slope_verdict(covering, Pitch::in_12(rise - 0.1)).ruling == below);
        CHECK(slope_verdict(covering, Pitch::in_12(rise - 1e-4)).ruling == below);
    }
    CHECK(met == covering_count);
}

TEST_CASE("coverings: too low a slope names what would do") {
    const SlopeVerdict flat = slope_verdict(Covering::lapped_metal, Pitch::in_12(2));
    CHECK(flat.ruling == SlopeRuling::too_low);
    CHECK(flat.least.least == Pitch::in_12(3));
    CHECK(flat.would_do == std::vector<Covering>{Covering::sealed_lapped_metal, Covering::standing_seam});
    CHECK(remedy_of(flat) ==
          "at least 3 in 12 for lapped metal (IRC R905.10.2 / IBC 1507.4.2), or here sealed lapped metal or standing "
          "seam");
    // At 3/8 in 12 lap sealant no longer serves, at 1/8 no metal does.
    CHECK(slope_verdict(Covering::lapped_metal, Pitch::in_12(0.375)).would_do ==
          std::vector<Covering>{Covering::standing_seam});
    CHECK(slope_verdict(Covering::lapped_metal, Pitch::in_12(0.125)).would_do.empty());
    CHECK(slope_verdict(Covering::asphalt_shingles, Pitch::in_12(1)).would_do ==
          std::vector<Covering>{Covering::mineral_roll, Covering::built_up, Covering::coal_tar});
    // Slate is never named: its least slope is from memory.
    CHECK(slope_verdict(Covering::tile, Pitch::in_12(2)).would_do.empty());

    const Fault refused = refusal_of([&] { require_slope(flat); });
    CHECK(refused.code == FaultCode::out_of_range);
    CHECK(refused.path == "pitch");
    CHECK(refused.given == "2 in 12");
    CHECK(refused.required == remedy_of(flat));
}

TEST_CASE("coverings: slate gets no verdict, unless its least slope is given") {
    for (const double rise : {1.0, 4.0, 12.0}) {
        const SlopeVerdict slate = slope_verdict(Covering::slate, Pitch::in_12(rise));
        CHECK(slate.ruling == SlopeRuling::unverified);
        CHECK(remedy_of(slate).empty());
        CHECK_NOTHROW(require_slope(slate));
    }
    CHECK(slope_verdict(Covering::slate, Pitch::in_12(3), Pitch::in_12(4)).ruling == SlopeRuling::too_low);
    CHECK(slope_verdict(Covering::slate, Pitch::in_12(4), Pitch::in_12(4)).ruling == SlopeRuling::allowed);
}

TEST_CASE("coverings: a least slope given for this roof comes first") {
    CHECK(slope_verdict(Covering::lapped_metal, Pitch::in_12(2), Pitch::in_12(2)).ruling == SlopeRuling::allowed);
    const SlopeVerdict strict = slope_verdict(Covering::lapped_metal, Pitch::in_12(3), Pitch::in_12(4));
    CHECK(strict.ruling == SlopeRuling::too_low);
    CHECK(strict.least.source == SlopeSource::given_here);
    CHECK(remedy_of(strict) ==
          "at least 4 in 12 for lapped metal (as given for this roof), or here sealed lapped metal or standing seam or "
          "metal shingles");
    CHECK(write_json(strict, LengthUnit::inches).find(R"("source": "given_here")") != std::string::npos);
}

TEST_CASE("underlayment: which rule holds") {
    // Half lap below 4 in 12 is a shingle rule.
    CHECK(kind_of(choice_for(Covering::asphalt_shingles, 2).rule) == UnderlaymentRuleKind::half_lap);
    CHECK(kind_of(choice_for(Covering::asphalt_shingles, 3.99).rule) == UnderlaymentRuleKind::half_lap);
    CHECK(kind_of(choice_for(Covering::asphalt_shingles, 4).rule) == UnderlaymentRuleKind::single_coverage);
    CHECK(kind_of(choice_for(Covering::lapped_metal, 3).rule) == UnderlaymentRuleKind::single_coverage);
    CHECK(kind_of(choice_for(Covering::sealed_lapped_metal, 0.5).rule) == UnderlaymentRuleKind::single_coverage);
    CHECK(kind_of(choice_for(Covering::wood_shakes, 3).rule) == UnderlaymentRuleKind::single_coverage);
    const UnderlaymentChoice four_by_degrees = choose_underlayment(
        {.covering = Covering::asphalt_shingles, .pitch = Pitch::from_degrees(degrees(Pitch::in_12(4).angle()))});
    CHECK(kind_of(four_by_degrees.rule) == UnderlaymentRuleKind::single_coverage);
    // High wind lengthens the head lap to 4 in, which is from memory and says so.
    CHECK(std::get<SingleCoverage>(choice_for(Covering::lapped_metal, 4).rule).head_lap == 2_in);
    CHECK(std::get<SingleCoverage>(choice_for(Covering::lapped_metal, 4, true).rule).head_lap == 4_in);
    CHECK(choice_for(Covering::lapped_metal, 4, true).unverified);
    CHECK(choice_for(Covering::lapped_metal, 4).unverified);
    CHECK_FALSE(choice_for(Covering::asphalt_shingles, 3).unverified);
    CHECK(choice_for(Covering::slate, 6).slope.ruling == SlopeRuling::unverified);
    // The maker's rule comes first, but not before the least slope.
    UnderlaymentSite site{.covering = Covering::asphalt_shingles, .pitch = Pitch::in_12(3)};
    site.makers = MakersRule{.courses = Exposure{33_in}, .end_lap = 6_in, .end_offset = 3_ft};
    CHECK(kind_of(choose_underlayment(site).rule) == UnderlaymentRuleKind::makers);
    CHECK(laps_of(choose_underlayment(site).rule, 36_in).head_lap == 3_in);
    CHECK(write_json(choose_underlayment(site), LengthUnit::inches).find(R"("kind": "makers")") != std::string::npos);
    site.pitch = Pitch::in_12(1.5);
    CHECK(refusal_of([&] { static_cast<void>(choose_underlayment(site)); }).code == FaultCode::out_of_range);
    site.least_slope_here = Pitch::in_12(1);
    CHECK(kind_of(choose_underlayment(site).rule) == UnderlaymentRuleKind::makers);
    CHECK(refusal_of([&] { static_cast<void>(choice_for(Covering::lapped_metal, 2)); }).required ==
          remedy_of(slope_verdict(Covering::lapped_metal, Pitch::in_12(2))));
    CHECK(refusal_of([&] { static_cast<void>(choice_for(Covering::built_up, 2)); }).code == FaultCode::not_supported);
}

TEST_CASE("underlayment: laps of the table") {
    const CourseLaps single = laps_of(SingleCoverage{}, 36_in);
    const CourseLaps half = laps_of(HalfLap{}, 36_in);
    const std::map<std::string, std::string> value_of = [] {
        std::map<std::string, std::string> found;
        for (const TableRow& row : read_table("underlayment_laps.csv")) {
            found[row.at("rule")] = row.at("value");
        }
        return found;
    }();
    CHECK(value_of.at("one layer shingle fashion, side (horizontal) lap") == "2 in");
    CHECK(single.head_lap == 2_in);
    CHECK(value_of.at("end laps offset") == "6 ft");
    CHECK(single.end_offset == 6_ft);
    CHECK(half.end_offset == 6_ft);
    CHECK(value_of.at("starter strip at eave") == "19 in");
    CHECK(half.starter == 19_in);
    CHECK(value_of.at("36 in sheets, overlap") == "19 in (17 in exposure)");
    CHECK(half.head_lap == 19_in);
    CHECK(half.exposure == 17_in);
    CHECK(value_of.at("end lap") == "4 in");
    CHECK(single.end_lap == 4_in);
    CHECK(half.end_lap == 4_in);
    CHECK(value_of.at("net coverage per course 36 in at 2 in lap") == "34 in exposure");
    CHECK(single.exposure == 34_in);
    CHECK(half.layers == 2);
    CHECK(single.layers == 1);
}
