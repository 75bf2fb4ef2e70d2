// SPDX-License-Identifier: BSL-1.0
#include <eavewright/loads/dead.hpp>
#include <eavewright/loads/roof_live.hpp>
#include <eavewright/loads/snow.hpp>

#include <doctest/doctest.h>

#include "support/refusal.hpp"
#include "support/table.hpp"

#include <cmath>
#include <limits>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
SnowSite snow(double pg_psf, ThermalCondition thermal, double importance, RoofSlide surface) {
    return {.edition = SnowEdition::asce7_10,
            .ground_snow = pressure_from_psf(pg_psf),
            .terrain = SnowTerrain::C,
            .exposure = SnowExposure::partially_exposed,
            .thermal = thermal,
            .importance = importance,
            .surface = surface};
}
double Cs(double Ct, RoofSlide surface, double deg) {
    return slope_factor_of_snow(Ct, surface, Pitch::from_degrees(deg)).Cs;
}
bool close(double a, double b, double within) { return std::fabs(a - b) <= within; }
}  // namespace

TEST_CASE("snow: exposure factor, every cell of the table") {
    int right = 0;
    int refused = 0;
    const SnowTerrain terrains[] = {
        SnowTerrain::A,       SnowTerrain::B, SnowTerrain::C, SnowTerrain::D, SnowTerrain::above_tree_line,
        SnowTerrain::treeless};
    std::size_t at = 0;
    for (const TableRow& row : read_table("asce7_02_snow_Ce.csv")) {
        const SnowTerrain terrain = terrains[at++];
        for (int e = 0; e < 3; ++e) {
            const auto exposure = static_cast<SnowExposure>(e);
            const auto cell = row.find(std::string{name_of(exposure)});
            const std::string text = cell == row.end() ? "" : cell->second;
            const auto read = [&] { return snow_exposure_factor(SnowEdition::asce7_02, terrain, exposure); };
            if (text.empty()) {
                refused += refusal_of([&] { (void)read(); }).code == FaultCode::not_supported;
            } else {
                right += read().value == std::stod(text) && !read().unverified;
            }
        }
    }
    CHECK(right == 15);
    CHECK(refused == 3);
    CHECK(refusal_of([] {
              (void)snow_exposure_factor(SnowEdition::asce7_10, SnowTerrain::A, SnowExposure::sheltered);
          }).code == FaultCode::not_supported);
    CHECK(snow_exposure_factor(SnowEdition::asce7_22, SnowTerrain::B, SnowExposure::sheltered).unverified);
}

TEST_CASE("snow: slope lines, every row") {
    int right = 0;
    for (const TableRow& row : read_table("asce7_snow_Cs.csv")) {
        const std::string Ct_text = row.at("Ct");
        const double Ct = Ct_text == "<=1.0" ? 1.0 : Ct_text == "1.1" ? 1.1 : 1.2;
        const RoofSlide surface = row.at("surface") == "other" ? RoofSlide::other : RoofSlide::slippery;
        const double full = std::stod(row.at("theta1_deg"));
        const double divisor = std::stod(row.at("divisor_deg"));
        const double middle = full + divisor / 3.0;
        right += close(Cs(Ct, surface, full), 1.0, 1e-12) && Cs(Ct, surface, full / 2.0) == 1.0 &&
                 close(Cs(Ct, surface, middle), 1.0 - (middle - full) / divisor, 1e-12) &&
                 close(Cs(Ct, surface, 69.999), 0.0, 1e-4) && Cs(Ct, surface, 71.0) == 0.0 &&
                 slope_factor_of_snow(Ct, surface, Pitch::in_12(4.0)).unverified == (row.at("status") == "memory");
    }
    CHECK(right == 6);
    // Ct 1.1 slippery at 26.6 deg: 1 - 16.6 / 60 = 0.723 by the equation, where one printing draws 0.8.
    CHECK(Cs(1.1, RoofSlide::slippery, 26.6) == doctest::Approx(0.7233).epsilon(1e-4));
    CHECK(slope_factor_of_snow(1.2, RoofSlide::slippery, Pitch::in_12(6.0)).Cs == doctest::Approx(0.790).epsilon(1e-3));
    CHECK(slope_factor_of_snow(1.2, RoofSlide::slippery, Pitch::in_12(4.0)).Cs ==
          doctest::Approx(0.93755).epsilon(1e-5));
    CHECK(slope_factor_of_snow(1.0, RoofSlide::slippery, Pitch::in_12(4.0)).Cs == doctest::Approx(0.793).epsilon(1e-3));
    CHECK(slope_factor_of_snow(1.0, RoofSlide::other, Pitch::in_12(4.0)).Cs == 1.0);
    CHECK(refusal_of([] { (void)Cs(1.05, RoofSlide::other, 20.0); }).code == FaultCode::not_supported);
    CHECK(refusal_of([] { (void)Cs(1.15, RoofSlide::other, 20.0); }).code == FaultCode::not_supported);
    CHECK(refusal_of([] { (void)Cs(std::nan(""), RoofSlide::other, 20.0); }).code == FaultCode::not_finite);
}

TEST_CASE("snow: ground to flat to sloped roof") {
    // ASCE 7-10 walk-through: pg 30, Ce 0.9, Ct 1.0, I 1.0: 0.7 x 0.9 x 30 = 18.9 psf.
    SnowSite site = snow(30.0, ThermalCondition::heated, 1.0, RoofSlide::other);
    site.exposure = SnowExposure::fully_exposed;
    const SnowLoad house = balanced_snow(site, Pitch::in_12(4.0));
    CHECK(psf(house.flat) == doctest::Approx(18.9).epsilon(1e-12));
    // Cold barn: pg 40, Ce 1.0, Ct 1.2, I 0.8: 0.7 x 1.2 x 0.8 x 40 = 26.88; 4 in 12 steel: x 0.93755 = 25.20 psf in plan.
    const SnowLoad barn =
        balanced_snow(snow(40.0, ThermalCondition::unheated, 0.8, RoofSlide::slippery), Pitch::in_12(4.0));
    CHECK(psf(barn.flat) == doctest::Approx(26.88).epsilon(1e-12));
    CHECK(psf(barn.sloped.in_plan) == doctest::Approx(25.20).epsilon(1e-4));
    CHECK(barn.unverified);
    // At 4 in 12 cos^2 is 0.9 and sin cos 0.3.
    CHECK(psf(barn.sloped.normal) == doctest::Approx(0.9 * psf(barn.sloped.in_plan)).epsilon(1e-12));
    CHECK(psf(barn.sloped.along) == doctest::Approx(0.3 * psf(barn.sloped.in_plan)).epsilon(1e-12));
    CHECK(psf(barn.sloped.on_surface) == doctest::Approx(0.948683 * psf(barn.sloped.in_plan)).epsilon(1e-6));
    CHECK_FALSE(barn.least_not_checked);
    CHECK(balanced_snow(site, Pitch::in_12(2.0)).least_not_checked);
    // Read factors alone: Ct given as 1.1, slippery line read.
    site.thermal = GivenCt{1.1};
    site.surface = RoofSlide::slippery;
    CHECK_FALSE(balanced_snow(site, Pitch::in_12(6.0)).unverified);
}

TEST_CASE("snow: the importance factor is gone in 7-22, and no edition goes without saying") {
    SnowSite site = snow(40.0, ThermalCondition::heated, 0.8, RoofSlide::other);
    site.edition = SnowEdition::asce7_22;
    const auto refused = [](const SnowSite& s) {
        return refusal_of([&] { (void)balanced_snow(s, Pitch::in_12(4.0)); });
    };
    CHECK(refused(site).code == FaultCode::contradiction);
    site.importance.reset();
    CHECK(refused(site).code == FaultCode::not_supported);  // Ct of 7-22 by condition was not obtained
    site.thermal = GivenCt{1.2};
    const SnowLoad now = balanced_snow(site, Pitch::in_12(4.0));
    CHECK(psf(now.flat) == doctest::Approx(0.7 * 1.2 * 40.0).epsilon(1e-12));
    CHECK(now.importance == 1.0);
    CHECK(now.unverified);
    site.edition = SnowEdition::asce7_16;
    CHECK(refused(site).code == FaultCode::missing_field);
    site.importance = 2.0;
    CHECK(refused(site).code == FaultCode::out_of_range);
    site = snow(std::numeric_limits<double>::infinity(), ThermalCondition::heated, 1.0, RoofSlide::other);
    CHECK(refused(site).code == FaultCode::not_finite);
    site = snow(-1.0, ThermalCondition::heated, 1.0, RoofSlide::other);
    CHECK(refused(site).path == "snow.ground_snow");
}

TEST_CASE("loads on a slope: snow by the area in plan, own weight by the surface") {
    // A published post-frame column at 6 in 12: 18 psf x cos^2 = 14.4, 13.267 x cos^2 = 10.614, dead 1.596 x cos = 1.428 psf.
    const Pitch pitch = Pitch::in_12(6.0);
    CHECK(psf(load_from_plan(pressure_from_psf(18.0), pitch).normal) == doctest::Approx(14.4).epsilon(1e-12));
    CHECK(psf(load_from_plan(pressure_from_psf(13.267), pitch).normal) == doctest::Approx(10.614).epsilon(5e-5));
    const SlopeLoad dead = load_from_surface(pressure_from_psf(1.596), pitch);
    CHECK(psf(dead.normal) == doctest::Approx(1.4275).epsilon(5e-5));
    // The same load told the other way: 1.596 x slope factor 1.118034 in plan.
    CHECK(psf(dead.in_plan) == doctest::Approx(1.596 * 1.1180340).epsilon(1e-7));
    CHECK(psf(load_from_plan(dead.in_plan, pitch).normal) == doctest::Approx(psf(dead.normal)).epsilon(1e-12));
    CHECK(psf(load_from_plan(dead.in_plan, pitch).along) == doctest::Approx(psf(dead.along)).epsilon(1e-12));
}

TEST_CASE("roof live: reduced by area and slope") {
    // A permit calculation: 200 sq ft or less at 5 in 12: R1 1, R2 1.2 - 0.25 = 0.95, 19 psf.
    const RoofLiveLoad load = roof_live_load(area_from_square_feet(150.0), Pitch::in_12(5.0));
    CHECK(load.R1 == 1.0);
    CHECK(load.R2 == doctest::Approx(0.95).epsilon(1e-12));
    CHECK(psf(load.load.in_plan) == doctest::Approx(19.0).epsilon(1e-12));
    CHECK_FALSE(load.unverified);
    CHECK(psf(roof_live_load(area_from_square_feet(200.0), Pitch::in_12(4.0)).load.in_plan) ==
          doctest::Approx(20.0).epsilon(1e-12));
    // 400 sq ft at 5 in 12: 20 x 0.8 x 0.95 = 15.2; 700 at 12 in 12: 20 x 0.36 = 7.2, raised to 12. Both from memory.
    const RoofLiveLoad wide = roof_live_load(area_from_square_feet(400.0), Pitch::in_12(5.0));
    CHECK(psf(wide.load.in_plan) == doctest::Approx(15.2).epsilon(1e-12));
    CHECK(wide.unverified);
    const RoofLiveLoad steep = roof_live_load(area_from_square_feet(700.0), Pitch::in_12(12.0));
    CHECK(psf(steep.load.in_plan) == doctest::Approx(12.0).epsilon(1e-12));
    CHECK(steep.unverified);
    CHECK(refusal_of([] { (void)roof_live_load(area_from_square_feet(0.0), Pitch::in_12(4.0)); }).code ==
          FaultCode::out_of_range);
}

TEST_CASE("dead load: listed layers, every row") {
    int right = 0;
    for (const TableRow& row : read_table("dead_loads.csv")) {
        const std::string item = row.at("item");
        const double value = std::stod(row.at("value"));
        const auto panel = [](double thickness) {
            return wood_panel_weight(Length::from_inches(thickness)).weight.pounds_per_square_foot();
        };
        const auto listed = [](ListedLayer layer) { return listed_weight(layer).weight.pounds_per_square_foot(); };
        double found = -1.0;
        if (item == "plywood or OSB per 1/8 in") {
            found = panel(0.125);
        } else if (item.rfind("wood sheathing", 0) == 0) {
            found = listed(ListedLayer::wood_sheathing_1_inch);
        } else if (item == "asphalt shingles") {
            found = listed(ListedLayer::asphalt_shingles);
        } else if (item == "deck, metal 20 gage") {
            found = listed(ListedLayer::metal_deck_20_gauge);
        } else if (item == "deck, metal 18 gage") {
            found = listed(ListedLayer::metal_deck_18_gauge);
        } else if (item == "29 gauge ribbed roof panel") {
            found = listed(ListedLayer::ribbed_panel_29_gauge);
        } else if (item == "29 gauge flat galvanized nominal") {
            found = galvanized_sheet(29).weight.pounds_per_square_foot();
        } else if (item.rfind("7/16", 0) == 0) {
            found = panel(7.0 / 16.0) * 32.0;  // 4 x 8 ft
        } else if (item.rfind("15/32", 0) == 0) {
            found = panel(15.0 / 32.0) * 32.0;
        } else if (item.rfind("19/32", 0) == 0) {
            found = panel(19.0 / 32.0) * 32.0;
        }
        right += close(found, value, 1e-9);
    }
    CHECK(right == 10);
    CHECK(wood_panel_weight(0.5_in).unverified);
    CHECK_FALSE(listed_weight(ListedLayer::ribbed_panel_29_gauge).unverified);
}

TEST_CASE("dead load: a gauge number is no thickness, and sheet may be thinner than nominal") {
    int right = 0;
    for (const TableRow& row : read_table("galvanized_sheet_gauge.csv")) {
        const SheetGauge sheet = galvanized_sheet(std::stoi(row.at("gauge")));
        const double weight = sheet.weight.pounds_per_square_foot();
        right += inches(sheet.nominal) == std::stod(row.at("thickness_nominal_in")) &&
                 inches(sheet.least) == std::stod(row.at("thickness_min_in")) &&
                 inches(sheet.most) == std::stod(row.at("thickness_max_in")) &&
                 weight == std::stod(row.at("weight_lb_per_ft2")) &&
                 close(inches(sheet.nominal) * steel_sheet_psf_per_inch, weight, 0.003);
    }
    CHECK(right == 9);
    // 29 gauge: 0.0172 in nominal, 0.0142 in least: 17 % thinner. Weight goes by the nominal one.
    const SheetGauge sheet = galvanized_sheet(29);
    CHECK(1.0 - sheet.least / sheet.nominal == doctest::Approx(0.174).epsilon(5e-3));
    CHECK(sheet.weight.pounds_per_square_foot() > inches(sheet.least) * steel_sheet_psf_per_inch + 0.12);
    CHECK(refusal_of([] { (void)galvanized_sheet(23); }).code == FaultCode::not_supported);
    CHECK(refusal_of([] { (void)galvanized_sheet(-29); }).code == FaultCode::not_supported);
}

TEST_CASE("dead load: moisture content is in percent, and a share is refused") {
    int right = 0;
    for (const TableRow& row : read_table("lumber_density.csv")) {
        const WoodDensity wood{std::stod(row.at("species_G")), 19.0};
        const auto plf = [&](Length depth) { return pounds_per_foot(member_weight(wood, 1.5_in, depth)); };
        right += close(pounds_per_cubic_foot(wood), std::stod(row.at("density_pcf_at_19pct")), 0.00501) &&
                 close(plf(3.5_in), std::stod(row.at("2x4_plf")), 0.000501) &&
                 close(plf(5.5_in), std::stod(row.at("2x6_plf")), 0.000501) &&
                 close(plf(7.25_in), std::stod(row.at("2x8_plf")), 0.000501);
    }
    CHECK(right == 5);
    // A published column put 0.19 for 19 % and printed 34.56 for G 0.55, where the formula gives 37.33.
    CHECK(pounds_per_cubic_foot({0.55, 19.0}) == doctest::Approx(37.33).epsilon(2e-4));
    CHECK(refusal_of([] { (void)pounds_per_cubic_foot({0.55, 0.19}); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)pounds_per_cubic_foot({0.55, 0.19}); }).path == "wood.moisture_content_percent");
    CHECK(refusal_of([] { (void)pounds_per_cubic_foot({std::nan(""), 19.0}); }).code == FaultCode::not_finite);
}

TEST_CASE("dead load: layers add up with their shares") {
    // Ribbed 29 gauge 0.63, 7/16 in panel 1.4, 2x4 of G 0.42 flat at 24 in: 1.061 plf / 2 ft = 0.5305; felt as given 0.15.
    const DeadLoad load = dead_load({ListedLayer::ribbed_panel_29_gauge, WoodPanelLayer{0.4375_in},
                                     MemberLayer{{0.42, 19.0}, 3.5_in, 1.5_in, 24_in},
                                     GivenLayer{"felt", ArealMass::from_pounds_per_square_foot(0.15)}},
                                    Pitch::in_12(4.0));
    CHECK(psf(load.load.on_surface) == doctest::Approx(0.63 + 1.4 + 0.5305 + 0.15).epsilon(1e-4));
    CHECK(load.layers.size() == 4);
    CHECK(psf(load.layers[2].load) == doctest::Approx(0.5305).epsilon(5e-4));
    double shares = 0.0;
    for (const LayerLoad& layer : load.layers) {
        shares += layer.share;
    }
    CHECK(shares == doctest::Approx(1.0).epsilon(1e-12));
    CHECK(load.layers[0].name == "ribbed panel 29 gauge");
    CHECK(load.unverified);
    CHECK_FALSE(dead_load({FlatSteelLayer{29}}, Pitch::in_12(4.0)).unverified);
    CHECK(psf(dead_load({}, Pitch::in_12(4.0)).load.on_surface) == 0.0);
    CHECK(refusal_of([] {
              (void)dead_load({MemberLayer{{0.42, 19.0}, 3.5_in, 1.5_in, 1_in}}, Pitch::in_12(4.0));
          }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] {
              (void)dead_load(std::vector<DeadLayer>(101, FlatSteelLayer{29}), Pitch::in_12(4.0));
          }).code == FaultCode::too_much_work);
    CHECK(refusal_of([] { (void)wood_panel_weight(4_in); }).code == FaultCode::out_of_range);
}
