// SPDX-License-Identifier: BSL-1.0
#pragma once

// The walk as one function: from the description of a roof to its layout.

#include <eavewright/fault.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/squaring/true_up_pair.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/description_faults.hpp>
#include <eavewright/whole_roof/hold_slope.hpp>
#include <eavewright/whole_roof/lay_slope.hpp>
#include <eavewright/whole_roof/over_all.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/roof_marks.hpp>
#include <eavewright/whole_roof/search_deck.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {
/// Findings of the steel; a row that no screw reaches is found by count and by line, and counts once.
[[nodiscard]] inline std::size_t count_findings(const SteelResult& steel) {
    std::size_t count = steel.panels.findings.size() + steel.screws.findings.size();
    for (const ScrewFinding& finding : steel.lines.findings) {
        count += finding.code == ScrewFindingCode::row_past_panel ? 0U : 1U;
    }
    return count;
}

inline void add_totals(RoofResult& result) {
    for (const SlopeResult& slope : result.slopes) {
        result.roof_area += slope.area;
        result.sheet_pieces += static_cast<std::int64_t>(slope.sheets.pieces.size());
        result.whole_sheets += static_cast<std::int64_t>(slope.sheets.whole_sheets);
        result.nails += slope.nails.total;
        result.findings += static_cast<std::int64_t>(slope.sheets.findings.size());
        result.worst_closure =
            longer(result.worst_closure, longer(slope.sheets.closure.worst_lane, slope.sheets.closure.across));
        result.findings += static_cast<std::int64_t>(slope.stop_board ? slope.stop_board->findings.size() : 0U);
        if (slope.underlayment) {
            result.findings += static_cast<std::int64_t>(slope.underlayment->findings.size());
        }
        if (slope.steel) {
            result.panels += static_cast<std::int64_t>(slope.steel->panels.pieces.size());
            result.screws += slope.steel->screws.total;
            result.findings += static_cast<std::int64_t>(count_findings(*slope.steel));
        }
    }
}

/// A part of the walk names its inputs from its own door; `to` is where they stand in the description.
struct PathOf {
    std::string from;
    std::string to;
};

/// Runs one step for its faults alone; says whether it went through. A fault that another slope met is not repeated.
template <class Step>
bool attempt(Faults& faults, const PathOf& rename, Step step) {
    try {
        step();
        return true;
    } catch (const FaultError& error) {
        Fault fault = error.fault();
        if (!rename.from.empty() && fault.path.rfind(rename.from, 0) == 0) {
            fault.path = rename.to + fault.path.substr(rename.from.size());
        }
        for (const Fault& known : faults) {
            if (known.path == fault.path && known.code == fault.code) {
                return false;
            }
        }
        faults.push_back(std::move(fault));
        return false;
    }
}

/// What the steps of one slope refuse, every step on its own.
inline void find_slope_faults(const RoofDescription& roof, const RoofShape& shape, std::size_t index, Faults& faults) {
    std::optional<SlopeStart> start;
    if (!attempt(faults, {}, [&] { start.emplace(start_slope(roof, shape, index)); })) {
        return;
    }
    const PathOf stop_board_path{"stop_board.stock_length", "deck.stop_board"};
    SlopeResult nothing = bare_slope(start->slope, start->slope.chord, start->slope.chord, start->frames, {});
    if (!roof.purlins) {
        attempt(faults, {"sheets.", "deck.sheets."}, [&] {
            const ChordPlane plane = plane_as_built(start->slope.chord, start->trueness);
            lay_sheets(roof, plane, supports_of(start->frames, plane), std::nullopt, nothing);
        });
        attempt(faults, stop_board_path,
                [&] { put_up_stop_board(roof, plane_as_built(start->slope.chord, start->trueness), nothing); });
        attempt(faults, {}, [&] {
            lay_underlayment_on(roof, deck_as_built(start->slope, start->slope.chord, start->trueness, start->deck),
                                nothing);
        });
        return;
    }
    const PurlinPlane plane = plane_as_built(start->slope.purlin, start->trueness);
    const PathOf found =
        start->built.rows ? PathOf{"purlins.spacing.", "as_built[" + std::to_string(index) + "]."} : PathOf{};
    std::optional<PurlinRows> rows;
    if (!attempt(faults, found,
                 [&] { rows = rows_of_slope(roof, start->slope, plane, start->built, start->frames); })) {
        return;
    }
    attempt(faults, {}, [&] { (void)purlin_pieces(*rows, start->frames, roof.purlins->cuts); });
    attempt(faults, {}, [&] { require_bays(roof.purlins->blocked_bays, start->frames); });
    std::optional<RoofZones> zones;
    if (roof.holding &&
        !attempt(faults, {"zones.", "holding.wind."}, [&] { zones = zones_of(roof, shape, start->slope, plane); })) {
        return;
    }
    if (!attempt(faults, {"sheets.", "deck.sheets."},
                 [&] { lay_sheets(roof, plane, supports_of(*rows), zones, nothing); })) {
        return;
    }
    attempt(faults, stop_board_path, [&] { put_up_stop_board(roof, plane, nothing); });
    attempt(faults, {"stack.", "handling.sheet_stack."},
            [&] { stack_sheets(roof, plane, supports_of(*rows), nothing); });
    const DeckPlane deck = deck_as_built(start->slope, start->slope.purlin, start->trueness, start->deck);
    attempt(faults, {}, [&] { lay_underlayment_on(roof, deck, nothing); });
    if (roof.steel && attempt(faults, {"panels.", "steel.panels."},
                              [&] { nothing.steel = lay_steel(roof, start->slope, plane, deck, *rows, index == 0); })) {
        attempt(faults, {"stack.", "handling.panel_stack."},
                [&] { stack_panels(roof, plane, supports_of(*rows), nothing); });
    }
    if (zones) {
        nothing.purlins = rows;
        attempt(faults, {"", "holding."},
                [&] { nothing.holding = hold_slope(roof, shape, *zones, supports_of(*rows), nothing); });
    }
}

/// A vent slot that the layers would close.
inline void find_air_faults(const RoofDescription& roof, const RoofShape& shape, Faults& faults) {
    if (!roof.air || !attempt(faults, {}, [&] { (void)air_of(roof, shape); })) {
        return;
    }
    const Length needed = slot_hold_back(roof, *air_of(roof, shape));
    const auto require = [&](Length given, const char* path) {
        if (given + count_tolerance < needed) {
            faults.push_back(Fault{FaultCode::contradiction, path, describe_length(given),
                                   "at least " + describe_length(needed) + ", which the slot of air asks"});
        }
    };
    if (roof.deck) {
        require(roof.deck->ridge_hold_back, "deck.ridge_hold_back");
    }
    if (roof.steel) {
        require(roof.steel->panels.ridge_hold_back, "steel.panels.ridge_hold_back");
    }
}
}  // namespace detail

/// Every fault of a description at once: those of its parts, and where these are sound, those that the steps of the walk
/// would refuse (stock too short for its bays, a stagger longer than a sheet, a row above the ridge).
inline void find_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    detail::find_description_faults(roof, path, faults);
    if (faults.size() != before) {
        return;
    }
    if (roof.readings) {
        detail::find_reading_faults(roof, Path{path, "readings"}, faults);
    }
    const RoofShape shape = detail::shape_of(roof.shape);
    for (std::size_t i = 0; i < shape.slopes.size(); ++i) {
        detail::find_slope_faults(roof, shape, i, faults);
    }
    detail::find_air_faults(roof, shape, faults);
    if (roof.squaring.footprint) {
        detail::attempt(faults, {},
                        [&] { (void)true_up(*roof.squaring.footprint, roof.squaring.tape, roof.squaring.tolerance); });
    }
}

namespace detail {
[[nodiscard]] inline std::optional<SlopeVerdict> covering_verdict(const RoofDescription& roof) {
    const std::optional<CoveringPlan> covering = covering_of(roof);
    return covering ? std::optional<SlopeVerdict>{slope_verdict(covering->covering, pitch_of(roof.shape),
                                                                covering->least_slope_here)}
                    : std::nullopt;
}
[[nodiscard]] inline std::optional<UnderlaymentChoice> underlayment_choice(const RoofDescription& roof) {
    return roof.underlayment
               ? std::optional<UnderlaymentChoice>{choose_underlayment(underlayment_site(roof, *covering_of(roof)))}
               : std::nullopt;
}

/// The figures that no layer adds to.
[[nodiscard]] inline RoofResult start_roof(const RoofDescription& roof, const RoofShape& shape) {
    return {.name = roof.name,
            .pitch = pitch_of(roof.shape),
            .footprint_width = shape.footprint_width,
            .footprint_length = shape.footprint_length,
            .footprint_diagonal = diagonal(shape.footprint_width, shape.footprint_length),
            .heights = shape.heights,
            .roof_area = Area::from_value(0.0),
            .sheet_pieces = 0,
            .whole_sheets = 0,
            .nails = 0,
            .findings = 0,
            .worst_closure = no_length,
            .footprint = std::nullopt,
            .ridge = std::nullopt,
            .slopes = {},
            .panels = 0,
            .screws = 0,
            .air = air_of(roof, shape),
            .foam = std::nullopt,
            .covering = covering_verdict(roof),
            .underlayment_rule = underlayment_choice(roof),
            .carried = {},
            .search = std::nullopt,
            .wind = roof.holding ? std::optional<VelocityPressure>{wind_pressure_of(roof, shape)} : std::nullopt,
            .truing = std::nullopt};
}

[[nodiscard]] inline RoofResult lay_roof(const RoofDescription& roof) {
    const RoofShape shape = shape_of(roof.shape);
    RoofResult result = start_roof(roof, shape);
    if (roof.squaring.footprint) {
        result.footprint = true_up(*roof.squaring.footprint, roof.squaring.tape, roof.squaring.tolerance);
    }
    if (roof.deck && roof.deck->layout == SheetLayout::fewest_sheets) {
        result.search = search_deck(roof);
    }
    for (std::size_t i = 0; i < shape.slopes.size(); ++i) {
        if (!result.search) {
            result.slopes.push_back(lay_slope(roof, shape, i));
            continue;
        }
        RoofDescription searched = roof;
        searched.deck->sheets = result.search->plans[i];
        result.slopes.push_back(lay_slope(searched, shape, i));
    }
    if (result.slopes.size() == 2 && result.slopes[0].trueness && result.slopes[1].trueness) {
        result.ridge = true_up_pair(*result.slopes[0].trueness, *result.slopes[1].trueness);
    }
    add_totals(result);
    result.foam = foam_of(roof, result);
    result.carried = carried_pieces(roof, result);
    return result;
}
}  // namespace detail

namespace detail {
/// Readings are left to whoever trued the roof.
[[nodiscard]] inline RoofResult lay_described(const RoofDescription& roof) {
    Faults faults;
    find_description_faults(roof, Path{""}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    try {
        return lay_roof(roof);
    } catch (const FaultError&) {
        require_sound(roof, "");  // the same fault, named by its place in the description
        throw;
    }
}
}  // namespace detail

/// Lays out a whole roof: shape, planes as built, purlin rows, pieces, sheets, nails, steel, screws, trim, and how true it
/// stands. Throws `FaultError` with the first fault of `check(roof)`, not_supported for a description with readings between
/// marks: `true_roof` looks at those first.
[[nodiscard]] inline RoofResult whole_roof(const RoofDescription& roof) {
    if (roof.readings) {
        throw FaultError{Fault{FaultCode::not_supported, "readings", "readings that nobody has looked at",
                               "what true_roof found of them, beside the description"}};
    }
    return detail::lay_described(roof);
}

/// The same roof by what its readings say: each slope that was not measured by itself is laid by its corners as `truing`
/// found them, where the readings agree. `truing` is what `true_roof(roof)` gave (whole_roof/true_roof.hpp, which needs
/// Eigen; this does not). Throws as above, does_not_fit where `truing` is of another shape.
[[nodiscard]] inline RoofResult whole_roof(const RoofDescription& roof, const TruingResult& truing) {
    const std::size_t slopes = slope_count(roof.shape);
    if (!truing.slopes.empty() && truing.slopes.size() != slopes) {
        throw FaultError{Fault{FaultCode::does_not_fit, "truing", std::to_string(truing.slopes.size()) + " slopes",
                               std::to_string(slopes) + ", as the description has"}};
    }
    RoofDescription found = roof;
    if (roof.as_built.empty() && !truing.slopes.empty()) {
        found.as_built.resize(slopes);
    }
    for (std::size_t i = 0; i < truing.slopes.size(); ++i) {
        if (truing.slopes[i].square.readings_agree && !found.as_built[i].sides) {
            found.as_built[i].sides = truing.slopes[i].sides;
        }
    }
    RoofResult result = detail::lay_described(found);
    result.truing = truing;
    return result;
}

}  // namespace eavewright
