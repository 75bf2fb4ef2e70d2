// SPDX-License-Identifier: BSL-1.0
#include <eavewright/loads/roof_zones.hpp>
#include <eavewright/roof/shape.hpp>

#include <doctest/doctest.h>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include <cmath>
#include <cstddef>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
ChordPlane plane_of(Length along, Length run, Pitch pitch, EdgeKind top = EdgeKind::ridge) {
    const Length up = pitch.slope_over(run);
    return {.pitch = pitch,
            .outline = {{no_length, no_length}, {along, no_length}, {along, up}, {no_length, up}},
            .edges = {EdgeKind::eave, EdgeKind::rake, top, EdgeKind::rake},
            .openings = {},
            .placement = {{no_length, no_length, no_length}, 1.0, 0.0}};
}
ZonePlan plan_of(WindEdition edition, Length height, Length width) {
    return {.edition = edition,
            .form = RoofForm::gable,
            .mean_roof_height = height,
            .least_width = width,
            .measured_from = EdgeDatum::roof_edge,
            .eave_overhang = no_length,
            .rake_overhang = no_length};
}
/// Plan area of a zone in square feet, on or off the overhang.
double plan_feet(const RoofZones& zones, Pitch pitch, RoofZone zone, bool overhang = false) {
    double sum = 0.0;
    for (const ZoneArea& area : zones.areas) {
        sum += area.zone == zone && area.overhang == overhang ? square_feet(area.area) : 0.0;
    }
    return sum * pitch.cosine();
}
/// A point by its level distances from the left rake and the eave.
PlanePoint at(const ChordPlane& plane, Length along, Length run) { return {along, plane.pitch.slope_over(run)}; }
}  // namespace

TEST_CASE("roof zones: edge distance a") {
    struct Case {
        Length width;
        Length height;
        double a_ft;
    };
    // ASCE 7-02 Fig. 6-3: the smaller of 10 % and 0.4 h, not less than 4 % nor 3 ft. 24 x 36 ft: 2.4 ft raised to 3; 200 ft wide
    // at 36.63 ft: 0.4 h = 14.652.
    const std::vector<Case> cases{{40_ft, 14_ft, 4.0},
                                  {30_ft, 10_ft, 3.0},
                                  {24_ft, 9_ft, 3.0},
                                  {60_ft, 20_ft, 6.0},
                                  {200_ft, Length::from_feet(36.63), 14.652},
                                  {400_ft, 12_ft, 16.0}};
    for (const Case& c : cases) {
        CHECK(feet(edge_distance(c.width, c.height).a) == doctest::Approx(c.a_ft).epsilon(1e-12));
    }
    CHECK(refusal_of([] { (void)edge_distance(40_ft, 61_ft); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)edge_distance(lengths_that_are_none()[0], 20_ft); }).code == FaultCode::not_finite);
}

TEST_CASE("roof zones: gable of 7-10 above 7 deg by hand") {
    // 40 x 60 ft, h 14 ft: a = 4 ft. Each slope is 60 x 20 ft in plan: four corners of 16, strips 2 x 52 x 4 + 2 x 12 x 4 = 512,
    // field 52 x 12 = 624; together 1200.
    const Pitch pitch = Pitch::in_12(4.0);
    const ChordPlane plane = plane_of(60_ft, 20_ft, pitch);
    const RoofZones zones = roof_zones(plane, plan_of(WindEdition::asce7_10, 14_ft, 40_ft));
    CHECK(zones.areas.size() == 9);
    CHECK(plan_feet(zones, pitch, RoofZone::zone_3) == doctest::Approx(64.0).epsilon(1e-9));
    CHECK(plan_feet(zones, pitch, RoofZone::zone_2) == doctest::Approx(512.0).epsilon(1e-9));
    CHECK(plan_feet(zones, pitch, RoofZone::zone_1) == doctest::Approx(624.0).epsilon(1e-9));
    CHECK_FALSE(zones.unverified);
    CHECK(zone_at(zones, at(plane, 30_ft, 10_ft)).zone == RoofZone::zone_1);
    CHECK(zone_at(zones, at(plane, 30_ft, 47_in)).zone == RoofZone::zone_2);
    CHECK(zone_at(zones, at(plane, 30_ft, 49_in)).zone == RoofZone::zone_1);
    CHECK(zone_at(zones, at(plane, 30_ft, 19_ft)).zone == RoofZone::zone_2);  // ridge
    CHECK(zone_at(zones, at(plane, 2_ft, 10_ft)).zone == RoofZone::zone_2);
    CHECK(zone_at(zones, at(plane, 59_ft, 19_ft)).zone == RoofZone::zone_3);
    CHECK(zone_at(zones, at(plane, 4_ft, 10_ft)).zone == RoofZone::zone_2);  // on the line: the worse
}

TEST_CASE("roof zones: a strip is level, and longer on the slope") {
    // 12 in 12, a = 4 ft: up the slope the strip ends at 4 sqrt(2) = 5.657 ft, not at 4.
    const ChordPlane plane = plane_of(60_ft, 20_ft, Pitch::in_12(12.0));
    const RoofZones zones = roof_zones(plane, plan_of(WindEdition::asce7_10, 14_ft, 40_ft));
    CHECK(zone_at(zones, {30_ft, Length::from_feet(5.6)}).zone == RoofZone::zone_2);
    CHECK(zone_at(zones, {30_ft, Length::from_feet(5.7)}).zone == RoofZone::zone_1);
}

TEST_CASE("roof zones: 7-22 gable is placed as 7-10, with its memory told") {
    const Pitch pitch = Pitch::in_12(4.0);
    const ChordPlane plane = plane_of(60_ft, 20_ft, pitch);
    const RoofZones zones = roof_zones(plane, plan_of(WindEdition::asce7_22, 14_ft, 40_ft));
    CHECK(zones.unverified);
    CHECK(zone_at(zones, at(plane, 30_ft, 10_ft)).unverified);
    CHECK(plan_feet(zones, pitch, RoofZone::zone_2) == doctest::Approx(512.0).epsilon(1e-9));
    CHECK(zone_at(zones, at(plane, 30_ft, 19_ft)).zone == RoofZone::zone_2);
}

TEST_CASE("roof zones: low slope of 7-10 has no strip along its ridge") {
    const Pitch pitch = Pitch::in_12(1.0);
    const ChordPlane plane = plane_of(60_ft, 20_ft, pitch);
    ZonePlan plan = plan_of(WindEdition::asce7_10, 14_ft, 40_ft);
    const RoofZones zones = roof_zones(plane, plan);
    // Eave strip 52 x 4 and rakes 2 x 4 x 16: 336; corners 32.
    CHECK(plan_feet(zones, pitch, RoofZone::zone_3) == doctest::Approx(32.0).epsilon(1e-9));
    CHECK(plan_feet(zones, pitch, RoofZone::zone_2) == doctest::Approx(336.0).epsilon(1e-9));
    CHECK(zone_at(zones, at(plane, 30_ft, 19_ft)).zone == RoofZone::zone_1);
    CHECK_FALSE(zones.unverified);
    // An eave 1 ft behind the ridge reaches 3 ft over it.
    plan.beyond_ridge = 1_ft;
    const RoofZones near_edge = roof_zones(plane, plan);
    CHECK(zone_at(near_edge, at(plane, 30_ft, Length::from_feet(17.1))).zone == RoofZone::zone_2);
    CHECK(zone_at(near_edge, at(plane, 30_ft, Length::from_feet(16.9))).zone == RoofZone::zone_1);
    CHECK(plan_feet(near_edge, pitch, RoofZone::zone_3) == doctest::Approx(32.0 + 24.0).epsilon(1e-9));
}

TEST_CASE("roof zones: low slope of 7-16 and 7-22 by hand") {
    // h 10 ft: strips 6 ft, corner legs 6 x 2 ft, field 1' past 12 ft. 60 x 20 ft in plan, the eave behind the ridge 20 ft off.
    const Pitch pitch = Pitch::in_12(0.5);
    const ChordPlane plane = plane_of(60_ft, 20_ft, pitch);
    for (const WindEdition edition : {WindEdition::asce7_16, WindEdition::asce7_22}) {
        const RoofZones zones = roof_zones(plane, plan_of(edition, 10_ft, 40_ft));
        CHECK(zones.unverified);
        // Each corner 6 x 2 + 2 x 4 = 20; within 6 ft of an edge 60 x 6 + 2 x 6 x 14 = 528, less 40; within 12 ft 60 x 12 +
        // 2 x 12 x 8 = 912, less 528; past it 36 x 8.
        CHECK(plan_feet(zones, pitch, RoofZone::zone_3) == doctest::Approx(40.0).epsilon(1e-9));
        CHECK(plan_feet(zones, pitch, RoofZone::zone_2) == doctest::Approx(488.0).epsilon(1e-9));
        CHECK(plan_feet(zones, pitch, RoofZone::zone_1) == doctest::Approx(384.0).epsilon(1e-9));
        CHECK(plan_feet(zones, pitch, RoofZone::zone_1_prime) == doctest::Approx(288.0).epsilon(1e-9));
        CHECK(zone_at(zones, at(plane, 5_ft, 1_ft)).zone == RoofZone::zone_3);
        CHECK(zone_at(zones, at(plane, 5_ft, 3_ft)).zone == RoofZone::zone_2);
        CHECK(zone_at(zones, at(plane, 1_ft, 5_ft)).zone == RoofZone::zone_3);
        CHECK(zone_at(zones, at(plane, 30_ft, 19_ft)).zone == RoofZone::zone_1_prime);
    }
}

TEST_CASE("roof zones: overhangs, measured from their edge or from the wall") {
    const Pitch pitch = Pitch::in_12(4.0);
    const RoofShape shape = gable({.width = 40_ft,
                                   .length = 60_ft,
                                   .pitch = pitch,
                                   .eave_overhang = 2_ft,
                                   .rake_overhang = 1_ft,
                                   .build_up = {.purlin = 3.5_in},
                                   .bearing_height = 12_ft,
                                   .heel = 6_in});
    const PurlinPlane& plane = shape.slopes[0].purlin;
    ZonePlan plan = plan_of(WindEdition::asce7_10, 14_ft, 40_ft);
    plan.eave_overhang = 2_ft;
    plan.rake_overhang = 1_ft;
    const RoofZones edge = roof_zones(plane, plan);
    CHECK(edge.unverified);  // that distances start at the outer edge is from memory
    plan.measured_from = EdgeDatum::wall;
    const RoofZones wall = roof_zones(plane, plan);
    CHECK_FALSE(wall.unverified);
    const auto place = [&](const RoofZones& zones, Length run) {
        return zone_at(zones, {30_ft, pitch.slope_over(run)});
    };
    CHECK(place(edge, 23_in).overhang);
    CHECK_FALSE(place(edge, 25_in).overhang);
    CHECK(place(edge, 47_in).zone == RoofZone::zone_2);
    CHECK(place(edge, 49_in).zone == RoofZone::zone_1);
    CHECK(place(wall, 71_in).zone == RoofZone::zone_2);
    CHECK(place(wall, 73_in).zone == RoofZone::zone_1);
    // 62 x 22 ft in plan, over the walls 60 x 20.
    double over = 0.0;
    for (const ZoneArea& area : edge.areas) {
        over += area.overhang ? square_feet(area.area) * pitch.cosine() : 0.0;
    }
    CHECK(over == doctest::Approx(62.0 * 22.0 - 60.0 * 20.0).epsilon(1e-9));
}

namespace {
/// Whether the areas tile the plane and every point is in an area of the zone that `zone_at` says.
struct Tiling {
    bool sums;
    int points;
    int wrong;
};
Tiling tiling_of(const ChordPlane& plane, const RoofZones& zones, SeededNumbers& numbers, int tries) {
    double sum = 0.0;
    for (const ZoneArea& area : zones.areas) {
        sum += square_inches(area.area);
    }
    const double whole = square_inches(signed_area(plane.outline));
    Tiling found{std::fabs(sum - whole) <= 1e-9 * whole, 0, 0};
    const Extent extent = extent_of(plane.outline);
    for (int i = 0; i < tries; ++i) {
        const PlanePoint p{numbers.inches_between(inches(extent.low.along), inches(extent.high.along)),
                           numbers.inches_between(inches(extent.low.up), inches(extent.high.up))};
        if (!detail::is_inside(p, plane.outline)) {
            continue;
        }
        const ZonePlace place = zone_at(zones, p);
        int holding = 0;
        for (const ZoneArea& area : zones.areas) {
            if (detail::is_inside(p, area.outline)) {
                ++holding;
                found.wrong += area.zone != place.zone || area.overhang != place.overhang;
            }
        }
        found.wrong += holding != 1;
        ++found.points;
    }
    return found;
}
}  // namespace

TEST_CASE("roof zones: areas tile seeded planes and agree with zone_at") {
    SeededNumbers numbers{20240611};
    int planes = 0;
    int points = 0;
    int untiled = 0;
    int wrong = 0;
    for (int i = 0; i < sweep(3000); ++i) {
        const bool mono = numbers.whole(0, 3) == 0;
        const int which = numbers.whole(0, 2);
        const bool steep_allowed = !mono && which != 1;
        const Pitch pitch =
            Pitch::from_degrees(mono ? numbers.between(0.0, 3.0) : numbers.between(0.0, steep_allowed ? 45.0 : 7.0));
        const Length run = Length::from_feet(numbers.between(4.0, 60.0));
        ChordPlane plane = plane_of(Length::from_feet(numbers.between(6.0, 150.0)), run, pitch,
                                    mono ? EdgeKind::high_eave : EdgeKind::ridge);
        if (numbers.coin()) {  // as measured: out of square by some inches
            plane.outline[2] = {plane.outline[2].along + numbers.inches_between(-9.0, 9.0),
                                plane.outline[2].up + numbers.inches_between(-9.0, 9.0)};
            plane.outline[3].along += numbers.inches_between(-9.0, 9.0);
        }
        ZonePlan plan =
            plan_of(static_cast<WindEdition>(which), Length::from_feet(numbers.between(8.0, 60.0)), run * 2.0);
        plan.form = mono ? RoofForm::monoslope : RoofForm::gable;
        plan.measured_from = numbers.coin() ? EdgeDatum::wall : EdgeDatum::roof_edge;
        plan.eave_overhang = numbers.inches_between(0.0, 36.0);
        plan.rake_overhang = numbers.coin() ? no_length : numbers.inches_between(0.0, 24.0);
        plan.high_overhang = numbers.inches_between(0.0, 24.0);
        if (numbers.coin()) {
            plan.beyond_ridge = Length::from_feet(numbers.between(0.0, 40.0));
        }
        const RoofZones zones = roof_zones(plane, plan);
        const Tiling found = tiling_of(plane, zones, numbers, 20);
        untiled += found.sums ? 0 : 1;
        wrong += found.wrong;
        points += found.points;
        ++planes;
    }
    CHECK(planes == sweep(3000));
    CHECK(points > planes * 15);
    CHECK(untiled == 0);
    CHECK(wrong == 0);
}

TEST_CASE("roof zones: refuses roofs that no figure is known for") {
    const auto refused = [](const ChordPlane& plane, const ZonePlan& plan) {
        return refusal_of([&] { (void)roof_zones(plane, plan); });
    };
    const ChordPlane steep = plane_of(60_ft, 20_ft, Pitch::in_12(4.0));
    const ZonePlan good = plan_of(WindEdition::asce7_10, 14_ft, 40_ft);
    CHECK(refused(steep, plan_of(WindEdition::asce7_16, 14_ft, 40_ft)).code == FaultCode::not_supported);
    CHECK(refused(plane_of(60_ft, 20_ft, Pitch::in_12(12.1)), good).code == FaultCode::not_supported);
    CHECK(refused(plane_of(60_ft, 20_ft, Pitch::in_12(12.0)), good).path == "no fault");
    ZonePlan plan = good;
    plan.form = RoofForm::hip;
    CHECK(refused(steep, plan).code == FaultCode::not_supported);
    plan.form = RoofForm::monoslope;
    CHECK(refused(plane_of(60_ft, 20_ft, Pitch::in_12(1.0), EdgeKind::high_eave), plan).code ==
          FaultCode::not_supported);
    CHECK(refused(plane_of(60_ft, 20_ft, Pitch::in_12(0.5), EdgeKind::ridge), plan).path == "plane.edges");
    ChordPlane plane = steep;
    plane.edges[1] = EdgeKind::hip;
    CHECK(refused(plane, good).path == "plane.edges");
    plane = steep;
    plane.edges[2] = EdgeKind::wall;
    CHECK(refused(plane, good).code == FaultCode::not_supported);
    plane = steep;
    plane.outline.push_back({no_length, 1_ft});
    CHECK(refused(plane, good).path == "plane.outline");
    plan = good;
    plan.mean_roof_height = 61_ft;
    CHECK(refused(steep, plan).code == FaultCode::out_of_range);
    plan = good;
    plan.rake_overhang = lengths_that_are_none()[0];
    CHECK(refused(steep, plan).code == FaultCode::not_finite);
    const RoofZones zones = roof_zones(steep, good);
    CHECK(refusal_of([&] { (void)zone_at(zones, {61_ft, 1_ft}); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([&] { (void)zone_at(zones, {lengths_that_are_none()[0], 1_ft}); }).code == FaultCode::not_finite);
}
