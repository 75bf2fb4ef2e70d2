// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is wrong with a description before any step of the walk is tried: faults of its parts, each judged by its own room,
// and parts that contradict one another.

#include <eavewright/fault.hpp>
#include <eavewright/framing/purlin_pieces.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/row_spacing.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/tiling/covering.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/tiling/underlayment_rule.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/description.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

namespace detail {
inline void find_layer_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    const Length expected = roof.purlins ? build_up_depth(roof.purlins->stock) : no_length;
    const Length given = build_up_of(roof.shape).purlin;
    if (magnitude(expected - given) > count_tolerance) {
        faults.push_back(Fault{FaultCode::contradiction, Path{Path{Path{path, "shape"}, "build_up"}, "purlin"}.text(),
                               describe_length(given),
                               describe_length(expected) + ", as purlins.stock lifts the sheets"});
    }
}

inline void find_purlin_faults(const PurlinPlan& purlins, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    find_faults(RowPlan{.stock = purlins.stock, .ridge_setback = purlins.ridge_setback}, path, faults);
    find_faults(purlins.spacing, Path{path, "spacing"}, faults);
    find_faults(purlins.cuts, path, faults);
    if (const AsFound* found = std::get_if<AsFound>(&purlins.spacing); found != nullptr && faults.size() == before) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "spacing"}.text(), "rows as found",
                               "a rule for every slope; rows as found stand in as_built, slope by slope"});
    }
}

inline void find_as_built_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    const Path list{path, "as_built"};
    if (!roof.as_built.empty() && roof.as_built.size() != slope_count(roof.shape)) {
        faults.push_back(Fault{FaultCode::contradiction, list.text(), std::to_string(roof.as_built.size()) + " slopes",
                               "none, or one for each of the " + std::to_string(slope_count(roof.shape)) + " slopes"});
    }
    for (std::size_t i = 0; i < roof.as_built.size(); ++i) {
        const Path slope{list, i};
        if (roof.as_built[i].rows && !roof.purlins) {
            faults.push_back(Fault{FaultCode::contradiction, Path{slope, "rows"}.text(), "rows as found",
                                   "purlins, which this roof has not"});
        }
        if (roof.as_built[i].sides) {
            find_faults(*roof.as_built[i].sides, Path{slope, "sides"}, faults);
        }
        if (roof.as_built[i].deck) {
            find_faults(*roof.as_built[i].deck, Path{slope, "deck"}, faults);
        }
        if (roof.as_built[i].deck && (!roof.deck || roof.deck->overhangs_only)) {
            faults.push_back(Fault{FaultCode::contradiction, Path{slope, "deck"}.text(), "a deck that was measured",
                                   "a whole deck, which this roof has not"});
        }
    }
}

inline void find_deck_faults(const DeckPlan& deck, const Path& path, Faults& faults) {
    find_faults(deck.sheets, Path{path, "sheets"}, faults);
    find_faults(deck.nails, Path{path, "nails"}, faults);
    require_within(deck.ridge_hold_back, no_length, longest_overhang, Path{path, "ridge_hold_back"}, faults);
    if (deck.overhangs_only) {
        require_within(deck.overhangs_only->thickness, Length::from_inches(0.125), Length::from_inches(12.0),
                       Path{Path{path, "overhangs_only"}, "thickness"}, faults);
    }
    if (deck.stop_board) {
        require_within(*deck.stop_board, Length::from_feet(2.0), Length::from_feet(60.0), Path{path, "stop_board"},
                       faults);
    }
}

inline void find_edge_faults(const EdgePlan& edges, const Path& path, Faults& faults) {
    const auto judge = [&](const auto& plan, const char* name) {
        if (plan) {
            find_faults(*plan, Path{path, name}, faults);
        }
    };
    judge(edges.eave, "eave");
    judge(edges.rake, "rake");
    judge(edges.ridge, "ridge");
    judge(edges.high_eave, "high_eave");
    judge(edges.closures, "closures");
}

inline void find_steel_faults(const SteelPlan& steel, const Path& path, Faults& faults) {
    find_faults(steel.panels, Path{path, "panels"}, faults);
    find_faults(steel.screws, Path{path, "screws"}, faults);
    find_faults(steel.begin, Path{path, "begin"}, faults);
    find_edge_faults(steel.edges, Path{path, "edges"}, faults);
}

/// What the roof is covered with, where it says so or has steel.
[[nodiscard]] inline std::optional<CoveringPlan> covering_of(const RoofDescription& roof) {
    if (roof.covering || !roof.steel) {
        return roof.covering;
    }
    const bool sealed = roof.steel->edges.closures && roof.steel->edges.closures->side_laps;
    return CoveringPlan{.covering = sealed ? Covering::sealed_lapped_metal : Covering::lapped_metal};
}

[[nodiscard]] inline UnderlaymentSite underlayment_site(const RoofDescription& roof, const CoveringPlan& covering) {
    return {.covering = covering.covering,
            .pitch = pitch_of(roof.shape),
            .high_wind = covering.high_wind,
            .least_slope_here = covering.least_slope_here,
            .makers = roof.underlayment ? roof.underlayment->makers : std::nullopt};
}

/// The plan of courses under a rule that was chosen.
[[nodiscard]] inline UnderlaymentPlan underlayment_plan(const DryInPlan& plan, const UnderlaymentRule& rule,
                                                        Tick tick) {
    UnderlaymentPlan courses{.roll = plan.roll, .rule = rule};
    courses.eave_past = plan.eave_past;
    courses.rake_past = plan.rake_past;
    courses.ridge_wrap = plan.ridge_wrap;
    courses.top = plan.top;
    courses.start = plan.start;
    courses.tick = tick;
    return courses;
}

/// The covering at this slope, and what it asks of the underlayment.
inline void find_covering_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    const std::optional<CoveringPlan> covering = covering_of(roof);
    const Path place{path, roof.covering ? "covering" : "steel"};
    if (roof.steel && roof.covering && roof.covering->covering != Covering::lapped_metal &&
        roof.covering->covering != Covering::sealed_lapped_metal) {
        faults.push_back(Fault{FaultCode::contradiction, place.text(), words_of(roof.covering->covering),
                               "lapped metal, sealed or not, where there is steel"});
    }
    if (covering) {
        const SlopeVerdict verdict =
            slope_verdict(covering->covering, pitch_of(roof.shape), covering->least_slope_here);
        if (verdict.ruling == SlopeRuling::too_low) {
            faults.push_back(Fault{FaultCode::out_of_range, place.text(),
                                   write_decimal(verdict.pitch.rise_in_12(), 6) + " in 12", remedy_of(verdict)});
            return;
        }
    }
    if (!roof.underlayment) {
        return;
    }
    const Path underlayment{path, "underlayment"};
    if (!roof.deck || roof.deck->overhangs_only) {
        faults.push_back(Fault{FaultCode::contradiction, underlayment.text(), "underlayment without a deck",
                               "a whole deck that it lies on"});
    }
    if (!covering) {
        faults.push_back(Fault{FaultCode::missing_field, Path{path, "covering"}.text(), "",
                               "the covering, which the rule of the underlayment follows"});
        return;
    }
    try {
        const UnderlaymentChoice choice = choose_underlayment(underlayment_site(roof, *covering));
        find_faults(underlayment_plan(*roof.underlayment, choice.rule, roof.tick), underlayment, faults);
    } catch (const FaultError& error) {
        Fault fault = error.fault();
        fault.path = underlayment.text();
        faults.push_back(std::move(fault));
    }
}

/// Something covers the roof, and the deck's depth stands in the shape where there is a deck, and only there.
inline void find_cover_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    if (!roof.deck && !roof.steel) {
        faults.push_back(Fault{FaultCode::missing_field, Path{path, "deck"}.text(), "", "a deck, steel, or both"});
    }
    if (roof.deck) {
        find_deck_faults(*roof.deck, Path{path, "deck"}, faults);
    }
    const Length depth = build_up_of(roof.shape).deck;
    if ((!roof.deck || roof.deck->overhangs_only) && magnitude(depth) > count_tolerance) {
        faults.push_back(Fault{FaultCode::contradiction, Path{Path{Path{path, "shape"}, "build_up"}, "deck"}.text(),
                               describe_length(depth), "0 where the purlins are not decked over"});
    }
    if (roof.deck && roof.deck->overhangs_only && !roof.purlins) {
        faults.push_back(Fault{FaultCode::contradiction, Path{Path{path, "deck"}, "overhangs_only"}.text(),
                               "a deck at the overhangs alone", "purlins, which drop under it"});
    }
    if (roof.steel) {
        find_steel_faults(*roof.steel, Path{path, "steel"}, faults);
    }
    if (roof.steel && !roof.purlins) {
        faults.push_back(Fault{FaultCode::not_supported, Path{path, "steel"}.text(), "steel without purlins",
                               "purlins, which its screws go into"});
    }
    find_covering_faults(roof, path, faults);
    if (roof.foam) {
        require_within(*roof.foam, no_length, Length::from_inches(24.0), Path{path, "foam"}, faults);  // as `foam_over`
    }
    if (roof.handling) {
        const Path handling{path, "handling"};
        find_faults(roof.handling->limits, Path{handling, "limits"}, faults);
        const auto stack = [&](const std::optional<StackPlan>& plan, const std::optional<ArealMass>& layer,
                               const char* name) {
            if (plan) {
                find_faults(*plan, Path{handling, name}, faults);
            }
            if (plan && !layer) {
                faults.push_back(Fault{FaultCode::missing_field, Path{handling, name}.text(), "a stack of unknown mass",
                                       "the mass of what is stacked"});
            }
        };
        stack(roof.handling->sheet_stack, roof.handling->sheet, "sheet_stack");
        stack(roof.handling->panel_stack, roof.handling->panel, "panel_stack");
    }
}
/// Faults of the parts of a description, each judged by its own room, and of parts that contradict one another.
inline void find_description_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    std::visit([&](const auto& shape) { find_faults(shape, Path{path, "shape"}, faults); }, roof.shape);
    find_layer_faults(roof, path, faults);
    find_faults(roof.frames, Path{path, "frames"}, faults);
    if (roof.purlins) {
        find_purlin_faults(*roof.purlins, Path{path, "purlins"}, faults);
    }
    find_cover_faults(roof, path, faults);
    const Path squaring{path, "squaring"};
    find_faults(roof.squaring.tape, Path{squaring, "tape"}, faults);
    find_faults(roof.squaring.tolerance, Path{squaring, "tolerance"}, faults);
    if (roof.squaring.footprint) {
        find_faults(*roof.squaring.footprint, Path{squaring, "footprint"}, faults);
    }
    find_as_built_faults(roof, path, faults);
    if (roof.holding) {
        find_faults(*roof.holding, Path{path, "holding"}, faults);
        if (!roof.purlins) {
            faults.push_back(Fault{FaultCode::missing_field, Path{path, "purlins"}.text(), "",
                                   "purlins: fasteners into chords are not held against the wind"});
        }
        if (!roof.holding->zones.empty() && (!roof.deck || roof.deck->overhangs_only)) {
            faults.push_back(Fault{FaultCode::contradiction, Path{Path{path, "holding"}, "zones"}.text(),
                                   std::to_string(roof.holding->zones.size()) + " zones",
                                   "no spacing by zone, or a deck over the whole slope"});
        }
    }
}
}  // namespace detail

}  // namespace eavewright
