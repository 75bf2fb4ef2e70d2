// SPDX-License-Identifier: BSL-1.0

// Published adjustments of measured distances, to their printed digits. One unit of each book stands as one inch here.
// F. Krumm, Geodetic Network Adjustment Examples, Univ. Stuttgart, Rev. 3.5, 2020, with each example's own book; the rows
// lie in tests/data/trilateration_*.csv with their sources.

#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/critical_values.hpp>

#include "../support/networks.hpp"
#include "../support/table.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <string>

using namespace eavewright;

namespace {

double number(const std::string& text) { return std::stod(text); }

PlaneNetwork published(const std::string& name) {
    PlaneNetwork network;
    std::map<std::string, std::size_t> index;
    for (const TableRow& row : read_table("trilateration_points.csv")) {
        if (row.at("network") == name) {
            index[row.at("point")] = network.points.size();
            const Freedom<PlaneCorner> freedom =
                row.at("role") == "fixed" ? Freedom<PlaneCorner>{Held{}} : Freedom<PlaneCorner>{Free{}};
            network.points.push_back(
                {row.at("point"),
                 {one_inch * number(row.at("x_approx_or_fixed")), one_inch * number(row.at("y_approx_or_fixed"))},
                 freedom});
        }
    }
    for (const TableRow& row : read_table("trilateration_observations.csv")) {
        if (row.at("network") == name) {
            if (network.tapes.empty()) {
                network.tapes.push_back({one_inch * number(row.at("sigma"))});
            }
            network.readings.push_back(DistanceReading{index.at(row.at("from")), index.at(row.at("to")),
                                                       one_inch * number(row.at("distance"))});
        }
    }
    return network;
}

/// Half a unit of the last printed digit; a little more, since the printed values were themselves rounded from theirs.
bool prints_as(double value, double printed, int decimals) {
    return std::fabs(value - printed) <= 0.5001 * std::pow(10.0, -decimals);
}

const char* const names[] = {"Benning82", "StrangBorre_fix", "StrangBorre_free", "Hoepke_free", "Hoepke_blunder"};

}  // namespace

TEST_CASE("places and standard deviations of published networks to the printed digit") {
    for (const std::string name : names) {
        const PlaneNetwork network = published(name);
        const AdjustedNetwork<PlaneCorner> adjusted = adjust_network(network);
        for (const TableRow& row : read_table("trilateration_results.csv")) {
            if (row.at("network") != name) {
                continue;
            }
            for (const auto& point : adjusted.points) {
                if (point.name != row.at("point")) {
                    continue;
                }
                CAPTURE(name);
                CAPTURE(point.name);
                CHECK(prints_as(inches(point.place.along), number(row.at("x_adjusted")), 5));
                CHECK(prints_as(inches(point.place.up), number(row.at("y_adjusted")), 5));
                // Books print deviations scaled by the residuals' own size.
                CHECK(prints_as(inches(point.deviation.along) * adjusted.unit_deviation, number(row.at("sd_x")), 6));
                CHECK(prints_as(inches(point.deviation.up) * adjusted.unit_deviation, number(row.at("sd_y")), 6));
                if (!row.at("printed_x").empty()) {
                    CHECK(prints_as(inches(point.place.along), number(row.at("printed_x")), 4));
                    CHECK(prints_as(inches(point.place.up), number(row.at("printed_y")), 4));
                    CHECK(prints_as(100.0 * inches(point.deviation.along) * adjusted.unit_deviation,
                                    number(row.at("printed_sd_x_hundredths")), 3));
                    CHECK(prints_as(100.0 * inches(point.deviation.up) * adjusted.unit_deviation,
                                    number(row.at("printed_sd_y_hundredths")), 3));
                }
            }
        }
    }
}

TEST_CASE("residuals, redundancies and normalised residuals of published networks") {
    for (const std::string name : names) {
        const AdjustedNetwork<PlaneCorner> adjusted = adjust_network(published(name));
        std::size_t at = 0;
        for (const TableRow& row : read_table("trilateration_observations.csv")) {
            if (row.at("network") != name) {
                continue;
            }
            CAPTURE(name);
            CAPTURE(at);
            const AdjustedReading& reading = adjusted.readings[at++];
            CHECK(prints_as(inches(reading.residual), number(row.at("residual_v")), 6));
            CHECK(prints_as(reading.redundancy, number(row.at("redundancy")), 5));
            CHECK(prints_as(reading.normalised, number(row.at("w")), 4));
            CHECK(prints_as(reading.studentised, number(row.at("tau")), 4));
        }
        for (const TableRow& row : read_table("trilateration_summary.csv")) {
            if (row.at("network") == name) {
                CHECK(adjusted.spare == std::stoul(row.at("dof")));
                CHECK(prints_as(adjusted.unit_deviation, number(row.at("s0_unit_weight_ratio")), 8));
                CHECK(adjusted.sum_of_squares ==
                      doctest::Approx(number(row.at("vTPv_with_P=1/sigma^2"))).epsilon(1e-8));
            }
        }
        CHECK(adjusted.afloat == (name.find("free") != std::string::npos || name == "Hoepke_blunder"));
    }
}

// W. Hoepke, Fehlerlehre und Ausgleichungsrechnung, de Gruyter 1980, Ex. 35.5: the book lists one distance 5 cm long.
TEST_CASE("the published blunder of 5 cm is found at its own reading, and its size") {
    const AdjustedNetwork<PlaneCorner> adjusted = adjust_network(published("Hoepke_blunder"));
    REQUIRE(!adjusted.suspects.empty());
    const std::size_t worst = adjusted.suspects[0];
    const PlaneNetwork network = published("Hoepke_blunder");
    const auto& reading = std::get<DistanceReading>(network.readings[worst]);
    CHECK(network.points[reading.from].name == "1059");
    CHECK(network.points[reading.to].name == "75");
    CHECK(prints_as(adjusted.readings[worst].studentised, -3.2908, 4));
    CHECK(prints_as(adjusted.readings[worst].redundancy, 0.46717, 5));
    CHECK(prints_as(inches(adjusted.readings[worst].blunder), 0.0501, 4));
    CHECK(std::fabs(adjusted.readings[worst].studentised) > pope_tau(per_reading_alpha(0.05, 27), 14));

    // The clean case: the largest is 2.532 at 1087-20, below the critical 2.741.
    const AdjustedNetwork<PlaneCorner> clean = adjust_network(published("Hoepke_free"));
    double largest = 0.0;
    for (const AdjustedReading& each : clean.readings) {
        largest = std::fmax(largest, std::fabs(each.studentised));
    }
    CHECK(prints_as(largest, 2.532, 3));
    CHECK(prints_as(pope_tau(per_reading_alpha(0.05, 27), 14), 2.741, 3));
}

TEST_CASE("without the published blunder the others say what it should have read") {
    PlaneNetwork network = published("Hoepke_blunder");
    std::erase_if(network.readings, [&](const auto& each) {
        const auto& r = std::get<DistanceReading>(each);
        return network.points[r.from].name == "1059" && network.points[r.to].name == "75";
    });
    const AdjustedNetwork<PlaneCorner> adjusted = adjust_network(network);
    CHECK(adjusted.spare == 13);
    CHECK(prints_as(adjusted.unit_deviation, 5.14136, 5));
    const auto place = [&](const std::string& name) {
        for (const auto& point : adjusted.points) {
            if (point.name == name) {
                return point.place;
            }
        }
        return PlaneCorner{no_length, no_length};
    };
    CHECK(prints_as(inches(distance_between(place("1059"), place("75"))), 1789.4489, 4));
}

// H. Wolf, Ausgleichungsrechnung II, Duemmler 1979, p. 87: P = 900.0167 899.9833 1300.0062, deviations 1.179 1.179 0.625 cm.
TEST_CASE("a published point in space from four distances") {
    BuildingNetwork network;
    for (const TableRow& row : read_table("trilateration_3d_wolf.csv")) {
        if (row.at("item") == "fixed") {
            network.points.push_back({std::to_string(network.points.size() + 1),
                                      {one_inch * number(row.at("x_or_from")), one_inch * number(row.at("y_or_to")),
                                       one_inch * number(row.at("z_or_distance"))},
                                      Held{}});
        }
    }
    network.points.push_back({"P", {one_inch * 890.0, one_inch * 905.0, one_inch * 1290.0}, Free{}});
    network.tapes.push_back({one_inch * 0.01});
    for (const TableRow& row : read_table("trilateration_3d_wolf.csv")) {
        if (row.at("item") == "distance") {
            network.readings.push_back(
                DistanceReading{std::stoul(row.at("x_or_from")) - 1, 4, one_inch * number(row.at("z_or_distance"))});
        }
    }
    const AdjustedNetwork<BuildingPoint> adjusted = adjust_network(network);
    const auto& p = adjusted.points[4];
    CHECK(prints_as(inches(p.place.x), 900.0167, 4));
    CHECK(prints_as(inches(p.place.y), 899.9833, 4));
    CHECK(prints_as(inches(p.place.z), 1300.0062, 4));
    CHECK(prints_as(100.0 * inches(p.deviation.x) * adjusted.unit_deviation, 1.179, 3));
    CHECK(prints_as(100.0 * inches(p.deviation.y) * adjusted.unit_deviation, 1.179, 3));
    CHECK(prints_as(100.0 * inches(p.deviation.z) * adjusted.unit_deviation, 0.625, 3));
    CHECK(adjusted.spare == 1);
}

// One reading to spare: every studentised residual is 1, so a blunder can be seen in the sum, but not placed.
TEST_CASE("with one reading to spare a blunder is seen and not placed") {
    for (const std::string name : {"Benning82", "StrangBorre_fix", "StrangBorre_free"}) {
        const AdjustedNetwork<PlaneCorner> adjusted = adjust_network(published(name));
        CAPTURE(name);
        CHECK(adjusted.spare == 1);
        for (const AdjustedReading& each : adjusted.readings) {
            CHECK(std::fabs(std::fabs(each.studentised) - 1.0) < 1e-6);
        }
    }
    const AdjustedNetwork<PlaneCorner> wrong = adjust_network(published("StrangBorre_fix"));  // w = 3.30 > 3.29
    CHECK(wrong.standing == NetworkStanding::blunder_not_placed);
    CHECK(wrong.suspects.size() == 3);
    CHECK(adjust_network(published("Benning82")).standing == NetworkStanding::agree);
}
