// SPDX-License-Identifier: BSL-1.0
#include "read_roof.hpp"

#include "json_fields.hpp"
#include "read_cover.hpp"
#include "read_holding.hpp"
#include "read_readings.hpp"
#include "read_supply.hpp"

#include <eavewright/whole_roof/roof_order.hpp>
#include <eavewright/whole_roof/whole_roof.hpp>

#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

// Stand-ins for what could not be read: sound by themselves, so that the rest of the file is still judged.
constexpr Length stand_in = 12_in;

[[nodiscard]] FrameSpacing read_frame_spacing(JsonFields& frames) {
    switch (frames.one_of({"bays", "bay_at_most", "centres"})) {
        case 0: return EqualBays{frames.whole("bays", 1)};
        case 2: return FramesAt{frames.lengths("centres")};
        default: return BaysAtMost{frames.length("bay_at_most", 10_ft)};
    }
}

[[nodiscard]] FramePlan read_frames(JsonFields frames) {
    FramePlan plan{.spacing = read_frame_spacing(frames)};
    plan.chord_width = frames.length_or("chord_width", plan.chord_width);
    plan.barge_width = frames.length_or("barge_width", plan.barge_width);
    frames.finish();
    return plan;
}

[[nodiscard]] RowSpacing read_row_spacing(JsonFields spacing, const std::optional<DeckPlan>& deck) {
    RowSpacing rule = AtMost{24_in};
    switch (spacing.one_of({"fixed", "at_most", "spaces_per_sheet"})) {
        case 0: rule = Fixed{spacing.length("fixed", 24_in)}; break;
        case 1: rule = AtMost{spacing.length("at_most", 24_in)}; break;
        case 2:
            if (deck) {
                rule = ToSheets{deck->sheets.sheet.length, deck->sheets.gap, spacing.whole("spaces_per_sheet", 4)};
            } else {
                spacing.refuse("spaces_per_sheet", std::to_string(spacing.whole("spaces_per_sheet", 4)),
                               "a deck whose sheets divide into spaces");
            }
            break;
        default: break;
    }
    spacing.finish();
    return rule;
}

[[nodiscard]] PurlinPlan read_purlins(JsonFields purlins, const std::optional<DeckPlan>& deck) {
    const PurlinStock stock{.thickness = purlins.length("thickness", 1.5_in),
                            .depth = purlins.length("depth", 3.5_in),
                            .lie = purlins.name("lie", PurlinLie::flat)};
    PurlinPlan plan{.spacing = read_row_spacing(purlins.object("spacing"), deck),
                    .cuts = {.stock_length = purlins.length("stock_length", 40_ft)},
                    .stock = stock};
    plan.cuts.lap = purlins.length_or("lap", plan.cuts.lap);
    plan.ridge_setback = purlins.length_or("ridge_setback", plan.ridge_setback);
    for (const int bay : purlins.wholes_or_none("blocked_bays")) {
        plan.blocked_bays.push_back(static_cast<std::size_t>(bay < 0 ? 0 : bay));  // 0 is refused with its place below
    }
    purlins.finish();
    return plan;
}

[[nodiscard]] FourSides read_sides(JsonFields sides) {
    const FourSides read{.eave = sides.length("eave", 48_in),
                         .ridge = sides.length("ridge", 48_in),
                         .left = sides.length("left", 36_in),
                         .right = sides.length("right", 36_in),
                         .up_right = sides.length("up_right", 60_in),
                         .up_left = sides.length("up_left", 60_in)};
    sides.finish();
    return read;
}

[[nodiscard]] SquaringPlan read_squaring(JsonFields squaring) {
    SquaringPlan plan{};
    if (auto tape = squaring.object_or_none("tape")) {
        plan.tape.reading = tape->length_or("reading", plan.tape.reading);
        plan.tape.scale = tape->number_or("scale", plan.tape.scale);
        tape->finish();
    }
    if (auto tolerance = squaring.object_or_none("tolerance")) {
        plan.tolerance.diagonal_difference =
            tolerance->length_or("diagonal_difference", plan.tolerance.diagonal_difference);
        plan.tolerance.side_difference = tolerance->length_or("side_difference", plan.tolerance.side_difference);
        tolerance->finish();
    }
    if (auto footprint = squaring.object_or_none("footprint")) {
        plan.footprint = read_sides(*footprint);
    }
    squaring.finish();
    return plan;
}

[[nodiscard]] std::vector<SlopeAsBuilt> read_as_built(JsonFields& file) {
    std::vector<SlopeAsBuilt> slopes;
    for (JsonFields& slope : file.objects_or_none("as_built")) {
        SlopeAsBuilt built{};
        if (slope.has("rows")) {
            AsFound found{};
            for (std::vector<Length>& row : slope.rows_of_lengths("rows")) {
                found.rows.emplace_back(std::move(row));
            }
            built.rows = found;
        }
        if (auto sides = slope.object_or_none("sides")) {
            built.sides = read_sides(*sides);
        }
        if (auto deck = slope.object_or_none("deck")) {
            built.deck = read_sides(*deck);
        }
        slope.finish();
        slopes.push_back(built);
    }
    return slopes;
}

template <class Shape>
void read_common_shape(JsonFields& shape, Shape& roof) {
    roof.face = shape.name_or("measured_to", roof.face);
    roof.girt_thickness = shape.length_or("girt_thickness", roof.girt_thickness);
    roof.tail = shape.name_or("tail", roof.tail);
    roof.fascia_thickness = shape.length_or("fascia_thickness", roof.fascia_thickness);
}

[[nodiscard]] ShapeInput read_shape(JsonFields shape, BuildUp build_up) {
    const bool is_gable = shape.choice("kind", {"gable", "single_slope"}) != 1;
    const Length width = shape.length("width", 24_ft);
    const Length length = shape.length("length", 24_ft);
    const Pitch pitch = shape.pitch("pitch", Pitch::in_12(4));
    const Length eave = shape.length("eave_overhang", stand_in);
    const Length rake = shape.length("rake_overhang", stand_in);
    const Length bearing = shape.length("bearing_height", 10_ft);
    const Length heel = shape.length("heel", stand_in);
    if (is_gable) {
        GableRoof roof{.width = width,
                       .length = length,
                       .pitch = pitch,
                       .eave_overhang = eave,
                       .rake_overhang = rake,
                       .build_up = build_up,
                       .bearing_height = bearing,
                       .heel = heel};
        read_common_shape(shape, roof);
        shape.finish();
        return roof;
    }
    SingleSlopeRoof roof{.width = width,
                         .length = length,
                         .pitch = pitch,
                         .eave_overhang = eave,
                         .high_overhang = shape.length("high_overhang", stand_in),
                         .rake_overhang = rake,
                         .build_up = build_up,
                         .bearing_height = bearing,
                         .heel = heel};
    read_common_shape(shape, roof);
    shape.finish();
    return roof;
}

[[nodiscard]] RoofDescription read_description(JsonFields& file) {
    Length thickness = no_length;
    std::optional<DeckPlan> deck;
    if (auto given = file.object_or_none("deck")) {
        deck = read_deck(*given, thickness);
    }
    std::optional<PurlinPlan> purlins;
    if (auto given = file.object_or_none("purlins")) {
        purlins = read_purlins(*given, deck);
    }
    const BuildUp build_up{.purlin = purlins ? build_up_depth(purlins->stock) : no_length, .deck = thickness};
    RoofDescription roof{.name = file.text("name"),
                         .shape = read_shape(file.object("shape"), build_up),
                         .frames = read_frames(file.object("frames")),
                         .purlins = purlins,
                         .deck = deck};
    if (auto covering = file.object_or_none("covering")) {
        roof.covering = read_covering(*covering);
    }
    if (auto underlayment = file.object_or_none("underlayment")) {
        roof.underlayment = read_underlayment(*underlayment);
    }
    if (auto steel = file.object_or_none("steel")) {
        roof.steel = read_steel(*steel);
    }
    if (auto air = file.object_or_none("air")) {
        roof.air = read_air(*air);
    }
    if (file.has("foam")) {
        roof.foam = file.length("foam", 1_in);
    }
    if (auto holding = file.object_or_none("holding")) {
        roof.holding = read_holding(*holding);
    }
    if (auto handling = file.object_or_none("handling")) {
        roof.handling = read_handling(*handling);
    }
    if (auto squaring = file.object_or_none("squaring")) {
        roof.squaring = read_squaring(*squaring);
    }
    roof.as_built = read_as_built(file);
    roof.tick = file.tick("tick");
    if (auto readings = file.object_or_none("readings")) {
        roof.readings = read_readings(*readings, roof.tick);
    }
    return roof;
}

/// The file is flatter than the description in places: where a fault stands in the file.
void name_as_in_file(Fault& fault) {
    constexpr std::pair<std::string_view, std::string_view> places[] = {
        {"steel.panels.eave.", "steel.overhang."},
        {"steel.panels.eave", "steel.overhang"},
        {"steel.panels.panel.", "steel."},
        {"steel.panels.", "steel."},
        {"steel.edges.closures", "steel.closures"},
        {"steel.edges.", "steel.trim."},
        {"handling.limits.", "handling."},
        {"order.purlins.", "order.lumber."},
        {"order.lumber.stock", "order.lumber.lengths"},
        {"order.panels_a_bundle", "order.panels.a_bundle"},
        {"order.sealant.length", "order.sealant.roll"}};
    // Readings lie in lists, so their names are changed wherever they stand.
    constexpr std::pair<std::string_view, std::string_view> reading_names[] = {{".supports", ".tops"},
                                                                               {"].tails", "].reaches"},
                                                                               {".level_length", ".level"},
                                                                               {".clear_gap", ".gap"},
                                                                               {".reading_deviation", ".deviation"},
                                                                               {".pull_deviation", ".deviation"}};
    for (const auto& [inside, in_file] : reading_names) {
        const std::size_t at = fault.path.rfind("readings.", 0) == 0 ? fault.path.find(inside) : std::string::npos;
        if (at != std::string::npos) {
            fault.path.replace(at, inside.size(), in_file);
        }
    }
    for (const auto& [inside, in_file] : places) {
        if (fault.path.rfind(inside, 0) == 0) {
            fault.path = std::string{in_file} + fault.path.substr(inside.size());
            return;
        }
    }
}

/// Where the file itself could not be read, faults of values against one another may stem from stand-ins.
void add_faults_of_values(Faults found, Faults& faults) {
    const bool all_read = faults.empty();
    std::set<std::string> told;
    for (const Fault& fault : faults) {
        told.insert(fault.path);
    }
    for (Fault& fault : found) {
        name_as_in_file(fault);
        if ((all_read || number_of(fault.code) < 400) && told.count(fault.path) == 0) {
            faults.push_back(std::move(fault));
        }
    }
}

/// What the order itself refuses, once roof and supply are sound: lengths that nothing can be cut from, and the like.
void add_faults_of_order(const RoofDescription& roof, const SupplyPlan& supply, Faults& faults) {
    try {
        (void)order_roof(roof, whole_roof(roof), supply);
    } catch (const FaultError& error) {
        Fault fault = error.fault();
        fault.path = "order." + fault.path;
        faults.push_back(std::move(fault));
    }
}
}  // namespace

RoofFile read_roof(const std::string& text) {
    RoofFile result;
    const std::optional<nlohmann::json> document = parse_json(text, result.faults);
    if (!document) {
        return result;
    }
    const Path root{""};
    JsonFields file{*document, root, result.faults};
    file.expect("format", "roof description");
    file.expect("version", 2);  // 1 had sheets and nails at the top
    RoofDescription roof = read_description(file);
    std::optional<SupplyPlan> supply;
    if (auto order = file.object_or_none("order")) {
        supply = read_supply(*order);
    }
    file.finish();
    result.unit = roof.tick.is_metric() ? LengthUnit::millimetres : LengthUnit::inches;
    Faults found = check(roof);
    if (supply) {
        for (Fault& fault : check(*supply, "order")) {
            found.push_back(std::move(fault));
        }
    }
    add_faults_of_values(std::move(found), result.faults);
    if (supply && result.faults.empty()) {
        add_faults_of_order(roof, *supply, result.faults);
    }
    if (result.faults.empty()) {
        result.roof = std::move(roof);
        result.supply = std::move(supply);
    }
    return result;
}
