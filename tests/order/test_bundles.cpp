// SPDX-License-Identifier: BSL-1.0
#include <eavewright/order/bundles.hpp>
#include <eavewright/writing/json.hpp>

#include <doctest/doctest.h>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include <cmath>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("bundles: lengths counted, longest first") {
    const std::vector<CountedLength> groups = group_lengths({144_in, 234_in, 144_in, 233.9375_in, 234_in});
    REQUIRE(groups.size() == 3);
    CHECK(groups[0].length == 234_in);
    CHECK(groups[0].count == 2);
    CHECK(groups[1].length == 233.9375_in);  // a sixteenth is another length
    CHECK(groups[1].count == 1);
    CHECK(groups[2].count == 2);
    CHECK(group_lengths({}).empty());
}

TEST_CASE("bundles: equal up to the count tolerance, as long as the longest") {
    // 5.95 m written three ways differs in the last place only.
    const std::vector<CountedLength> groups = group_lengths({5950_mm, 5.95_m, 1_mm * 5950});
    REQUIRE(groups.size() == 1);
    CHECK(groups[0].count == 3);
    // A ladder of rungs, each 2/3 of the tolerance apart, does not chain: 3 rungs span 4/3 of it.
    const Length rung = count_tolerance * (2.0 / 3.0);
    const std::vector<CountedLength> ladder = group_lengths({100_in, 100_in - rung, 100_in - rung * 2.0});
    REQUIRE(ladder.size() == 2);
    CHECK(ladder[0].length == 100_in);
    CHECK(ladder[0].count == 2);
}

TEST_CASE("bundles: forty panels of the workshop by hand") {
    // 40 of 19 ft 6 in, 15 a bundle: 15 + 15 + 10. 39 in x 234 in = 63.375 sq ft at 0.9 lb: 57.0375 lb each, 855.5625 a full
    // bundle, 2281.5 in all. And 4 of 8 ft: 26 sq ft, 23.4 lb each, one bundle of 4: 93.6.
    std::vector<Length> lengths(40, 234_in);
    lengths.insert(lengths.begin(), 4, 96_in);
    const std::vector<LengthBundles> all = bundle_lengths(
        lengths, {.most_pieces = 15, .width = 39_in, .layer = ArealMass::from_pounds_per_square_foot(0.9)});
    REQUIRE(all.size() == 2);
    CHECK(all[0].length == 234_in);
    CHECK(all[0].bundles == 3);
    CHECK(all[0].pieces_in_full == 15);
    CHECK(all[0].pieces_in_last == 10);
    REQUIRE(all[0].heaviest.has_value());
    CHECK(std::fabs(pounds(*all[0].each) - 57.0375) < 1e-9);
    CHECK(std::fabs(pounds(*all[0].heaviest) - 855.5625) < 1e-9);
    CHECK(std::fabs(pounds(*all[0].total) - 2281.5) < 1e-9);
    CHECK(all[1].bundles == 1);
    CHECK(all[1].pieces_in_full == 4);
    CHECK(all[1].pieces_in_last == 4);
    CHECK(std::fabs(pounds(*all[1].heaviest) - 93.6) < 1e-9);
}

TEST_CASE("bundles: weights are shown with their caution, and none where no mass is given") {
    const std::vector<LengthBundles> all =
        bundle_lengths(std::vector<Length>(30, 10_ft), {.most_pieces = 15, .width = 1_m});
    REQUIRE(all.size() == 1);
    CHECK(all[0].bundles == 2);
    CHECK(all[0].pieces_in_last == 15);
    CHECK_FALSE(all[0].heaviest.has_value());
    const std::string json = write_json(all[0], LengthUnit::inches);
    CHECK(json.find(std::string{handling_caution}) != std::string::npos);
    CHECK(json.find("\"heaviest_pounds\": null") != std::string::npos);
}

TEST_CASE("bundles: what is refused") {
    CHECK(refusal_of([] { (void)bundle_lengths({1_ft}, {.most_pieces = 0, .width = 1_ft}); }).path ==
          "bundles.most_pieces");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)bundle_lengths({1_ft}, {.most_pieces = 9, .width = none}); }).path ==
              "bundles.width");
        CHECK(refusal_of([&] { (void)group_lengths({1_ft, none}); }).path == "lengths[1]");
    }
    CHECK(refusal_of([] { (void)group_lengths({0_ft}); }).code == FaultCode::out_of_range);
}
