// SPDX-License-Identifier: BSL-1.0

// The fasteners and purlins of the workshop against the wind, through the whole walk, and the picture of its zones.

#include <eavewright/drawing/zones_drawing.hpp>
#include <eavewright/holding/purlin_connection.hpp>
#include <eavewright/whole_roof.hpp>

#include "../support/compiled.hpp"
#include "workshop.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// 7-10, 115 mph, Exposure C; 8d common nails into Douglas fir-larch; 2x6 purlins on edge.
RoofDescription held_workshop() {
    RoofDescription roof = workshop();
    roof.holding = HoldingPlan{.wind = {.edition = WindEdition::asce7_10,
                                        .exposure = WindExposure::C,
                                        .speed = WindSpeed::from_mph(115.0),
                                        .enclosure = Enclosure::enclosed},
                               .wood_standard = NdsEdition::nds_2018,
                               .purlins = SpeciesCombination::douglas_fir_larch,
                               .nail = standard_nail(NailStyle::common, Penny::d8)};
    roof.holding->other_nails = {post_frame_ring_nail(0.135_in, 3_in)};
    roof.holding->screw = wood_screw(10, 2_in);
    roof.holding->purlin_strength = PurlinStrength{.grade = LumberGrade::douglas_fir_larch_no2};
    return roof;
}
bool is_refused(const RoofDescription& roof, const std::string& path, FaultCode code) {
    for (const Fault& fault : compiled::check(roof)) {
        if (fault.path == path && fault.code == code) {
            return true;
        }
    }
    return false;
}
}  // namespace

TEST_CASE("held against the wind: the workshop by hand") {
    const RoofResult result = compiled::whole_roof(held_workshop());
    // h: eave 12 ft 6 in and the deck's peak, halfway: the roof rises 6 ft over 18 ft of run and 6 in over the overhang.
    // Kz = 2.01 (h / 900)^(2 / 9.5), q = 0.00256 Kz 0.85 x 115^2.
    const double h = feet(result.wind->mean_roof_height);
    const double kz = 2.01 * std::pow(h / 900.0, 2.0 / 9.5);
    CHECK(h == doctest::Approx(15.5).epsilon(0.01));
    CHECK(psf(result.wind->qh) == doctest::Approx(0.00256 * kz * 0.85 * 115.0 * 115.0).epsilon(1e-9));
    const SlopeHolding& front = *result.slopes[0].holding;
    // a: a tenth of 36 ft is 3.6 ft, 0.4 h is more, 3 ft is less.
    CHECK(feet(front.zones.edge.a) == doctest::Approx(3.6).epsilon(1e-9));
    // 1380 x 0.5^2.5 x 0.131 = 31.957 lb an inch; 2.5 - 0.4375 = 2.0625 in; x 1.6 = 105.46 lb.
    CHECK(pounds_force(front.nail->allowed) == doctest::Approx(105.46).epsilon(1e-4));
    std::int64_t nails = 0;
    for (const ZoneNails& zone : front.nails) {
        nails += zone.loaded.fasteners;
        CHECK((zone.loaded.overhang || zone.loaded.uplift.has_value()));
    }
    CHECK(nails == result.slopes[0].nails.total);
    // Zone 1: 0.6 q (0.9 + 0.18); a nail of a full sheet between carries 24 in by 11 13/16 in, those under the first joint
    // rather more.
    const ZoneFasteners& field = front.nails[0].loaded;
    CHECK(psf(*field.uplift) == doctest::Approx(0.6 * 1.08 * psf(result.wind->qh)).epsilon(1e-9));
    CHECK(field.utilisation > psf(*field.uplift) * 1.96 / 105.46);
    CHECK(field.utilisation < psf(*field.uplift) * 2.1 / 105.46);
    CHECK(field.verdict == Verdict::holds);
    CHECK(front.shanks.size() == 2);
    CHECK(front.shanks[1].zones[0].utilisation < 0.6 * front.shanks[0].zones[0].utilisation);
    std::int64_t screws = 0;
    for (const ZoneFasteners& zone : front.screws) {
        screws += zone.fasteners;
    }
    CHECK(screws == result.slopes[0].steel->screws.in_rows);
}

TEST_CASE("held against the wind: purlins both ways, and uplift on their ends") {
    const RoofResult result = compiled::whole_roof(held_workshop());
    const PurlinHolding& purlins = *result.slopes[0].holding->purlins;
    // 10 ft bays, 24 in apart: a third of the bay is 3 1/3 ft, so 33 1/3 sq ft count.
    CHECK(square_feet(purlins.area.area) == doctest::Approx(100.0 / 3.0).epsilon(1e-9));
    CHECK(purlins.zones.size() == 12);  // three zones, on edge and flat, held and free
    for (std::size_t i = 0; i < purlins.zones.size(); i += 4) {
        CHECK(purlins.zones[i].set == MemberSet::on_edge);
        CHECK(purlins.zones[i].weak_axis == WeakAxis::held_by_design);  // bays of 10 ft are past 2.4 m
        CHECK(purlins.zones[i].utilisation < purlins.zones[i + 1].utilisation);
        CHECK(purlins.zones[i].utilisation < purlins.zones[i + 2].utilisation);
    }
    // Zone 1 uplift by hand: 0.6 W - 0.6 D cos, on 2 ft by half of 10 ft.
    const double w = purlins.zones[0].uplift_one_end.value() / 10.0;
    const double d = psf(purlins.dead.load.on_surface) * 0.6 * Pitch::in_12(4).cosine();
    const double gcp = -0.9 + 0.1 * std::log10(100.0 / 3.0 / 10.0);
    CHECK(w == doctest::Approx(0.6 * psf(result.wind->qh) * (0.18 - gcp) - d).epsilon(1e-6));
}

TEST_CASE("held against the wind: nails by zone are counted and bought") {
    RoofDescription roof = held_workshop();
    const std::int64_t base = compiled::whole_roof(roof).nails;
    roof.holding->zones = {{RoofZone::zone_2, 6_in, 6_in}, {RoofZone::zone_3, 4_in, 4_in}};
    const RoofResult zoned = compiled::whole_roof(roof);
    CHECK(zoned.nails > base);
    CHECK(zoned.slopes[0].holding->nails[1].field == 6_in);
    CHECK(zoned.slopes[0].holding->nails[2].edge == 4_in);
    CHECK(zoned.slopes[0].holding->nails[1].loaded.utilisation < 0.35);
}

TEST_CASE("held against the wind: what is refused") {
    RoofDescription bare = held_workshop();
    bare.purlins.reset();
    bare.steel.reset();
    bare.foam.reset();
    CHECK(is_refused(bare, "purlins", FaultCode::missing_field));
    RoofDescription sixteen = held_workshop();
    sixteen.holding->wind.edition = WindEdition::asce7_16;  // the six zones of its gables were not obtained
    CHECK(is_refused(sixteen, "holding.wind.form", FaultCode::not_supported));
    RoofDescription open = held_workshop();
    open.holding->wind.enclosure = Enclosure::open_sided;
    const RoofResult result = compiled::whole_roof(open);
    for (const ZoneNails& zone : result.slopes[0].holding->nails) {
        CHECK(zone.loaded.verdict == Verdict::no_verdict);
        CHECK(!zone.loaded.uplift);
    }
    CHECK(result.slopes[0].holding->purlins->zones.empty());
    RoofDescription deckless = held_workshop();
    deckless.deck.reset();
    deckless.underlayment.reset();
    deckless.holding->zones = {{RoofZone::zone_2, 6_in, 6_in}};
    CHECK(is_refused(deckless, "holding.zones", FaultCode::contradiction));
    RoofDescription fine = held_workshop();
    fine.holding->nail.diameter = 0.01_in;
    CHECK(is_refused(fine, "holding.nail.diameter", FaultCode::out_of_range));
}

TEST_CASE("held against the wind: 7-22 gives figures and no verdict") {
    RoofDescription roof = held_workshop();
    roof.holding->wind.edition = WindEdition::asce7_22;
    for (const ZoneNails& zone : compiled::whole_roof(roof).slopes[0].holding->nails) {
        CHECK(zone.loaded.verdict == Verdict::no_verdict);
        CHECK(!zone.loaded.reason.empty());
    }
}

TEST_CASE("held against the wind: the picture") {
    const RoofResult result = compiled::whole_roof(held_workshop());
    const std::string drawn = draw_zones(result.slopes[0], {.title = "Workshop"});
    CHECK(drawn == draw_zones(result.slopes[0], {.title = "Workshop"}));
    CHECK(drawn.find("Edge distance a 3&#39;-7 3/16") != std::string::npos);
    CHECK(drawn.find("not computed") != std::string::npos);
    CHECK(drawn.find("licensed professional") != std::string::npos);
    RoofDescription metric = held_workshop();
    metric.tick = Tick::of_millimetres(1);
    CHECK(draw_zones(compiled::whole_roof(metric).slopes[1], {.title = "", .tick = metric.tick}).find("kPa") !=
          std::string::npos);
    CHECK_THROWS_AS((void)draw_zones(compiled::whole_roof(workshop()).slopes[0], {}), FaultError);
}

TEST_CASE("held against the wind: what hangs from the purlins presses and holds nothing down") {
    RoofDescription roof = held_workshop();
    const PurlinHolding bare = *compiled::whole_roof(roof).slopes[0].holding->purlins;
    roof.holding->purlin_strength->other_dead = ArealMass::from_pounds_per_square_foot(10.0);
    const PurlinHolding loaded = *compiled::whole_roof(roof).slopes[0].holding->purlins;
    CHECK(loaded.zones[0].utilisation > bare.zones[0].utilisation);
    CHECK(pounds_force(loaded.zones[0].uplift_both) == pounds_force(bare.zones[0].uplift_both));
    // The connection's own check gives the same uplift: 0.6 W of zone 1 less 0.6 D square to the slope.
    const double d = psf(bare.dead.load.on_surface) * 0.6 * Pitch::in_12(4).cosine();
    const double w = bare.zones[0].uplift_both.value() / 20.0 + d;
    const PurlinConnection joint = check_purlin_connection({.uplift = pressure_from_psf(w),
                                                            .dead = bare.dead.load.on_surface,
                                                            .pitch = Pitch::in_12(4),
                                                            .spacing = 24_in,
                                                            .place = PurlinsMeet{10_ft, 10_ft}});
    CHECK(pounds_force(joint.uplift) == doctest::Approx(pounds_force(bare.zones[0].uplift_both)).epsilon(1e-9));
}

TEST_CASE("held against the wind: a low single slope keeps its two overhangs apart") {
    RoofDescription roof = held_workshop();
    roof.shape = SingleSlopeRoof{.width = 30_ft,
                                 .length = 60_ft,
                                 .pitch = Pitch::in_12(0.5),
                                 .eave_overhang = 18_in,
                                 .high_overhang = 6_in,
                                 .rake_overhang = 12_in,
                                 .build_up = {.purlin = 5.5_in, .deck = 0.4375_in},
                                 .bearing_height = 12_ft,
                                 .heel = 6_in};
    roof.steel.reset();
    roof.underlayment.reset();
    roof.foam.reset();
    roof.handling.reset();
    const RoofResult result = compiled::whole_roof(roof);
    const std::vector<ZoneEdge>& edges = result.slopes[0].holding->zones.edges;
    CHECK(inches(edges[0].overhang) == doctest::Approx(18.0).epsilon(1e-9));
    CHECK(inches(edges[2].overhang) == doctest::Approx(6.0).epsilon(1e-9));
}
