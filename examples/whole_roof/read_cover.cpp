// SPDX-License-Identifier: BSL-1.0
#include "read_cover.hpp"

#include <eavewright/units/quantities.hpp>

#include <optional>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

SheetPlan read_sheets(JsonFields sheets, Length& thickness) {
    SheetPlan plan{.sheet = {.width = sheets.length("width", 48_in), .length = sheets.length("length", 96_in)}};
    thickness = sheets.length("thickness", 0.5_in);
    plan.gap = sheets.length_or("gap", plan.gap);
    plan.stagger_spaces = sheets.whole_or("stagger_spaces", plan.stagger_spaces);
    plan.start = sheets.name_or("start", plan.start);
    plan.joints = sheets.name_or("joints", plan.joints);
    plan.past_fascia = sheets.length_or("past_fascia", plan.past_fascia);
    plan.sliver = sheets.length_or("sliver", plan.sliver);
    plan.least_bearing = sheets.length_or("least_bearing", plan.least_bearing);
    plan.edge_reach = sheets.length_or("edge_reach", plan.edge_reach);
    sheets.finish();
    return plan;
}

NailPattern read_nails(JsonFields nails) {
    NailPattern pattern{.edge = nails.length("edge", 6_in), .field = nails.length("field", 12_in)};
    pattern.edge_distance = nails.length_or("edge_distance", pattern.edge_distance);
    nails.finish();
    return pattern;
}

PanelStock read_panel(JsonFields& steel) {
    PanelStock panel{};
    panel.cover = steel.length_or("cover", panel.cover);
    panel.side_lap = steel.length_or("side_lap", panel.side_lap);
    panel.rib_spacing = steel.length_or("rib_spacing", panel.rib_spacing);
    panel.lap = steel.name_or("lap", panel.lap);
    return panel;
}

EaveWindow read_window(JsonFields window) {
    EaveWindow read{};
    read.least = window.length("least", read.least);
    read.aimed = window.length("aimed", read.aimed);
    read.most = window.length("most", read.most);
    window.finish();
    return read;
}

PanelPlan read_panels(JsonFields& steel) {
    PanelPlan plan{.ridge_hold_back = steel.length("ridge_hold_back", 1_in), .panel = read_panel(steel)};
    plan.rips = steel.name_or("rips", plan.rips);
    if (auto window = steel.object_or_none("overhang")) {
        plan.eave = read_window(*window);
    }
    plan.edge_past_fascia = steel.length_or("edge_past_fascia", plan.edge_past_fascia);
    plan.increment = steel.length_or("increment", plan.increment);
    plan.longest = steel.length_or("longest", plan.longest);
    plan.end_lap = steel.length_or("end_lap", plan.end_lap);
    plan.ridge_play = steel.length_or("ridge_play", plan.ridge_play);
    plan.sliver = steel.length_or("sliver", plan.sliver);
    plan.trim_hides = steel.length_or("trim_hides", plan.trim_hides);
    plan.creep = steel.length_or("creep", plan.creep);
    plan.pack_drift = steel.length_or("pack_drift", plan.pack_drift);
    return plan;
}

ScrewPattern read_screws(JsonFields screws) {
    ScrewPattern pattern{};
    pattern.field = screws.whole_or("field", pattern.field);
    pattern.eave = screws.whole_or("eave", pattern.eave);
    pattern.ridge = screws.whole_or("ridge", pattern.ridge);
    pattern.end_lap = screws.whole_or("end_lap", pattern.end_lap);
    pattern.closing_edge = screws.whole_or("closing_edge", pattern.closing_edge);
    if (!screws.flag_or("stitched", true)) {
        pattern.stitch.reset();
    } else if (screws.has("stitch")) {
        pattern.stitch = screws.length("stitch", 24_in);
    }
    pattern.stitch_edge = screws.length_or("stitch_edge", pattern.stitch_edge);
    pattern.end_distance = screws.length_or("end_distance", pattern.end_distance);
    pattern.least_margin = screws.length_or("least_margin", pattern.least_margin);
    pattern.beside_rib = screws.length_or("beside_rib", pattern.beside_rib);
    pattern.unverified = !screws.flag_or("from_the_maker", !pattern.unverified);
    screws.finish();
    return pattern;
}

/// The gable to begin at: by the wind, by where people look from, or named.
LapRule read_begin(JsonFields begin) {
    LapRule rule = BeginAt{GableEnd::low_x};
    switch (begin.one_of({"wind_from_deg", "seen_from", "gable"})) {
        case 0:
            rule = AwayFromWind{.wind_from = angle_from_degrees(begin.number("wind_from_deg", 0.0)),
                                .ridge_bearing = angle_from_degrees(begin.number("ridge_bearing_deg", 0.0))};
            break;
        case 1: rule = AwayFromSight{begin.name("seen_from", GableEnd::low_x)}; break;
        case 2: rule = BeginAt{begin.name("gable", GableEnd::low_x)}; break;
        default: break;
    }
    begin.finish();
    return rule;
}

std::optional<TrimStock> read_trim(JsonFields& trim, const std::string& edge) {
    std::optional<JsonFields> given = trim.object_or_none(edge);
    if (!given) {
        return std::nullopt;
    }
    TrimStock stock{.piece = given->length("piece", 10_ft)};
    stock.lap = given->length_or("lap", stock.lap);
    stock.past_ends = given->length_or("past_ends", stock.past_ends);
    given->finish();
    return stock;
}

ClosurePlan read_closures(JsonFields closures) {
    ClosurePlan plan{.strip = closures.length("strip", 3_ft)};
    plan.beads = closures.whole_or("beads", plan.beads);
    plan.end_lap_beads = closures.whole_or("end_lap_beads", plan.end_lap_beads);
    plan.side_laps = closures.flag_or("side_laps", plan.side_laps);
    closures.finish();
    return plan;
}

MakersRule read_makers(JsonFields makers) {
    const bool exposure = makers.one_of({"head_lap", "exposure"}) == 1;
    MakersRule rule{.courses = HeadLap{makers.has("head_lap") ? makers.length("head_lap", 2_in) : 2_in},
                    .end_lap = makers.length("end_lap", 4_in),
                    .end_offset = makers.length("end_offset", 6_ft)};
    if (exposure) {
        rule.courses = Exposure{makers.length("exposure", 34_in)};
    }
    if (makers.has("starter")) {
        rule.starter = makers.length("starter", 19_in);
    }
    makers.finish();
    return rule;
}

/// A layer's mass in the one unit that is given; none where neither is.
std::optional<ArealMass> read_layer(JsonFields& handling, const std::string& layer) {
    const std::string pounds = layer + "_lb_per_sq_ft";
    const std::string kilograms = layer + "_kg_per_m2";
    const bool metric = handling.has(kilograms);
    if (!handling.has(pounds) && !metric) {
        return std::nullopt;
    }
    if (handling.has(pounds) && metric) {
        handling.refuse(kilograms, "a mass in kilograms beside one in pounds", "one of the two");
    }
    const std::string& key = metric ? kilograms : pounds;
    const double most = metric ? 4000.0 : 900.0;  // far above any cover, within what a layer may weigh
    const double mass = handling.number(key, 1.0);
    if (!(mass > 0.0 && mass <= most)) {
        handling.refuse(key, std::to_string(mass), "more than 0, at most " + std::to_string(static_cast<int>(most)));
        return std::nullopt;
    }
    return metric ? ArealMass::from_kilograms_per_square_metre(mass) : ArealMass::from_pounds_per_square_foot(mass);
}
std::optional<StackPlan> read_stack(JsonFields& handling, const std::string& name) {
    std::optional<JsonFields> given = handling.object_or_none(name);
    if (!given) {
        return std::nullopt;
    }
    const bool pascals = given->one_of({"load_limit_psf", "load_limit_pa"}) == 1;
    StackPlan plan{.load_limit = pascals ? pressure_from_pascals(given->number("load_limit_pa", 500.0))
                                         : pressure_from_psf(given->number("load_limit_psf", 10.0)),
                   .lie = given->name("lie", StackLie::along_eave)};
    plan.clearance = given->length_or("clearance", plan.clearance);
    plan.cleat = given->length_or("cleat", plan.cleat);
    plan.least_bearing = given->length_or("least_bearing", plan.least_bearing);
    given->finish();
    return plan;
}
}  // namespace

DeckPlan read_deck(JsonFields deck, Length& thickness) {
    DeckPlan plan{.sheets = read_sheets(deck.object("sheets"), thickness), .nails = read_nails(deck.object("nails"))};
    plan.ridge_hold_back = deck.length_or("ridge_hold_back", plan.ridge_hold_back);
    if (deck.has("stop_board")) {
        plan.stop_board = deck.length("stop_board", 16_ft);
    }
    if (auto overhangs = deck.object_or_none("overhangs_only")) {
        plan.overhangs_only = OverhangDeck{.thickness = thickness, .rakes = overhangs->flag_or("rakes", true)};
        thickness = no_length;  // the purlins drop by it, so that it builds nothing up
        overhangs->finish();
    }
    plan.layout = deck.name_or("layout", plan.layout);
    deck.finish();
    return plan;
}

SteelPlan read_steel(JsonFields steel) {
    SteelPlan plan{.panels = read_panels(steel)};
    if (auto screws = steel.object_or_none("screws")) {
        plan.screws = read_screws(*screws);
    }
    if (auto begin = steel.object_or_none("begin")) {
        plan.begin = read_begin(*begin);
    }
    if (auto trim = steel.object_or_none("trim")) {
        plan.edges = {.eave = read_trim(*trim, "eave"),
                      .rake = read_trim(*trim, "rake"),
                      .ridge = read_trim(*trim, "ridge"),
                      .high_eave = read_trim(*trim, "high_eave")};
        trim->finish();
    }
    if (auto closures = steel.object_or_none("closures")) {
        plan.edges.closures = read_closures(*closures);
    }
    steel.finish();
    return plan;
}

CoveringPlan read_covering(JsonFields covering) {
    CoveringPlan plan{.covering = covering.name("is", Covering::lapped_metal)};
    plan.high_wind = covering.flag_or("high_wind", plan.high_wind);
    if (covering.has("least_slope_here")) {
        plan.least_slope_here = covering.pitch("least_slope_here", Pitch::in_12(3));
    }
    covering.finish();
    return plan;
}

DryInPlan read_underlayment(JsonFields underlayment) {
    DryInPlan plan{.roll = {.length = underlayment.length("roll_length", 144_ft)}};
    plan.roll.width = underlayment.length_or("roll_width", plan.roll.width);
    if (auto makers = underlayment.object_or_none("makers")) {
        plan.makers = read_makers(*makers);
    }
    plan.eave_past = underlayment.length_or("eave_past", plan.eave_past);
    plan.rake_past = underlayment.length_or("rake_past", plan.rake_past);
    plan.ridge_wrap = underlayment.length_or("ridge_wrap", plan.ridge_wrap);
    plan.top = underlayment.name_or("top", plan.top);
    plan.start = underlayment.name_or("start", plan.start);
    underlayment.finish();
    return plan;
}

AirPlan read_air(JsonFields air) {
    AirPlan plan{};
    plan.ratio = air.number_or("ratio", plan.ratio);
    plan.high_share = air.number_or("high_share", plan.high_share);
    plan.rule = air.name_or("rule", plan.rule);
    plan.net_share = air.number_or("net_share", plan.net_share);
    air.finish();
    return plan;
}

HandlingPlan read_handling(JsonFields handling) {
    const bool kilograms = handling.one_of({"one_person_lb", "one_person_kg"}) == 1;
    const bool newtons = handling.one_of({"holding_lbf", "holding_n"}) == 1;
    HandlingPlan plan{.limits = {.one_person = kilograms ? mass_from_kilograms(handling.number("one_person_kg", 20.0))
                                                         : mass_from_pounds(handling.number("one_person_lb", 50.0)),
                                 .holding = newtons ? force_from_newtons(handling.number("holding_n", 100.0))
                                                    : force_from_pounds(handling.number("holding_lbf", 25.0))}};
    plan.limits.longest_alone = handling.length_or("longest_alone", plan.limits.longest_alone);
    plan.limits.drag = handling.number_or("drag", plan.limits.drag);
    plan.sheet = read_layer(handling, "sheet");
    plan.panel = read_layer(handling, "panel");
    plan.sheet_stack = read_stack(handling, "sheet_stack");
    plan.panel_stack = read_stack(handling, "panel_stack");
    handling.finish();
    return plan;
}
