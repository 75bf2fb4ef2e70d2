// SPDX-License-Identifier: BSL-1.0
#pragma once

// One roof laid out: what `whole_roof` hands back.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_pieces.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/row_marks.hpp>
#include <eavewright/loads/velocity_pressure.hpp>
#include <eavewright/order/found_layout.hpp>
#include <eavewright/order/handling.hpp>
#include <eavewright/order/stack.hpp>
#include <eavewright/roof/air.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/squaring/true_up_pair.hpp>
#include <eavewright/tiling/covering.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/stop_board.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/tiling/underlayment_rule.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/whole_roof/holding_result.hpp>
#include <eavewright/whole_roof/laid_true.hpp>
#include <eavewright/whole_roof/lay_strips.hpp>
#include <eavewright/whole_roof/steel_result.hpp>
#include <eavewright/whole_roof/truing_result.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// Version of the result's fields; grows when a field is added, never changes what a field means.
inline constexpr int result_version = 5;

/// The caution that goes with every result that somebody climbs onto.
inline constexpr std::string_view layout_caution =
    "Preliminary layout from the measurements given. Not a structural design: spans, fastening, bracing, uplift and "
    "snow, "
    "lifting and work at height are to be confirmed under the local code by a licensed professional before anyone "
    "builds "
    "from it.";

/// One slope laid out. The surface is the one that the sheets lie on.
struct SlopeResult {
    std::string name;
    Surface surface;
    std::vector<PlanePoint> outline;  ///< nominal, or as measured
    Length plane_length;              ///< nominal, along the eave
    Length slope_length;              ///< nominal, fascia's outer face to ridge, up the slope
    Length diagonal;                  ///< nominal
    Area area;                        ///< of `outline`
    Length run;                       ///< overhang not included
    Length total_run;                 ///< overhang included
    Length chord_length;              ///< line length of the chord top with its tail
    Length tail_length;
    FrameLines frames;
    std::optional<PurlinRows> purlins;
    std::vector<RowMark> marks;  ///< at the left rake; with rows as found, at every frame
    std::vector<PurlinPiece> purlin_pieces;
    std::vector<BlockingPiece> blocks;
    std::vector<SupportLine> supports;  ///< what the sheets lie on, in the order that joints and nails count them
    Sheets sheets;                      ///< none where the roof has no deck
    NailCount nails;
    std::optional<Trueness> trueness;  ///< where the sides were measured
    std::optional<Trueness> deck;      ///< where the finished deck was measured
    std::optional<SteelResult> steel;
    std::optional<Underlayment> underlayment;
    std::optional<OverhangResult> overhangs;  ///< where the deck covers the overhangs alone
    std::optional<StopBoard> stop_board;
    std::optional<Stacks> sheet_stacks;      ///< full sheets
    std::optional<Stacks> panel_stacks;      ///< the longest panels
    std::optional<SlopeHolding> holding;     ///< where the fasteners are held against the wind
    std::optional<LaidTrue> lay_true;        ///< how to lay it as it stands, where it was measured
    std::optional<LaidTrue> lay_steel_true;  ///< the same of steel on a finished deck
};

/// Pieces of one size as they are carried up.
struct CarriedPieces {
    std::string name;
    std::int64_t count;
    Length length;
    Length width;
    Handling handling;
};

/// One roof laid out.
struct RoofResult {
    std::string name;
    Pitch pitch;
    Length footprint_width;
    Length footprint_length;
    Length footprint_diagonal;
    RoofHeights heights;
    Area roof_area;
    std::int64_t sheet_pieces;
    std::int64_t whole_sheets;
    std::int64_t nails;
    std::int64_t findings;
    Length worst_closure;
    std::optional<Trueness> footprint;  ///< where the wall lines were measured
    std::optional<PairTrueness> ridge;  ///< where both slopes of a gable were measured
    std::vector<SlopeResult> slopes;    ///< front first
    std::int64_t panels;                ///< pieces of steel
    std::int64_t screws;
    std::optional<VentOpenings> air;
    std::optional<Foam> foam;
    std::optional<SlopeVerdict> covering;                 ///< the covering at this slope
    std::optional<UnderlaymentChoice> underlayment_rule;  ///< and what it asks of the underlayment
    std::vector<CarriedPieces> carried;    ///< heaviest kind first: sheets, then panels, each longest first
    std::optional<FoundLayout> search;     ///< where the deck was laid as a search found it
    std::optional<VelocityPressure> wind;  ///< where the fasteners are held against it
    std::optional<TruingResult> truing;    ///< where readings of the roof were given
};

template <>
struct FieldsOf<SlopeResult> {
    static constexpr auto list = field_list(
        field("name", FieldUnit::none, "front or back, or roof for a single slope", &SlopeResult::name),
        field("surface", FieldUnit::none, "surface that the sheets lie on and that figures are on",
              &SlopeResult::surface),
        field("outline", FieldUnit::length, "corners counter-clockwise from the eave's left, nominal or as measured",
              &SlopeResult::outline),
        field("plane_length", FieldUnit::length, "nominal length along the eave", &SlopeResult::plane_length),
        field("slope_length", FieldUnit::length, "nominal, fascia's outer face to ridge up the slope",
              &SlopeResult::slope_length),
        field("diagonal", FieldUnit::length, "nominal diagonal", &SlopeResult::diagonal),
        field("area", FieldUnit::area, "area of the outline", &SlopeResult::area),
        field(
            "squares", FieldUnit::ratio, "the same in roofing squares of 100 square feet",
            +[](const SlopeResult& s) { return squares(s.area); }),
        field("run", FieldUnit::length, "horizontal, overhang not included", &SlopeResult::run),
        field("total_run", FieldUnit::length, "horizontal, overhang included", &SlopeResult::total_run),
        field("chord_length", FieldUnit::length, "line length of the chord top with its tail",
              &SlopeResult::chord_length),
        field("tail_length", FieldUnit::length, "the part of it past the wall", &SlopeResult::tail_length),
        field("frames", FieldUnit::none, "frame lines", &SlopeResult::frames),
        field("purlins", FieldUnit::none, "purlin rows, null where sheets lie on the chords", &SlopeResult::purlins),
        field("marks", FieldUnit::none, "purlin marks", &SlopeResult::marks),
        field("purlin_pieces", FieldUnit::none, "purlins cut into pieces", &SlopeResult::purlin_pieces),
        field("blocks", FieldUnit::none, "blocks in the bays that were chosen", &SlopeResult::blocks),
        field("supports", FieldUnit::none, "what the sheets lie on", &SlopeResult::supports),
        field("sheets", FieldUnit::none, "sheets as laid", &SlopeResult::sheets),
        field("nails", FieldUnit::none, "nails counted", &SlopeResult::nails),
        field("trueness", FieldUnit::none, "how true the slope is, null where it was not measured",
              &SlopeResult::trueness),
        field("deck", FieldUnit::none, "how true the finished deck is, null where it was not measured",
              &SlopeResult::deck),
        field("steel", FieldUnit::none, "the steel, null where there is none", &SlopeResult::steel),
        field("underlayment", FieldUnit::none, "the underlayment, null where there is none",
              &SlopeResult::underlayment),
        field("overhangs", FieldUnit::none, "the deck at the overhangs alone, null for any other",
              &SlopeResult::overhangs),
        field("stop_board", FieldUnit::none, "the first row's stop board, null where none is asked",
              &SlopeResult::stop_board),
        field("sheet_stacks", FieldUnit::none, "where full sheets may stand, null where not asked",
              &SlopeResult::sheet_stacks),
        field("panel_stacks", FieldUnit::none, "where the longest panels may stand, null where not asked",
              &SlopeResult::panel_stacks),
        field("holding", FieldUnit::none, "fasteners against the wind, null where not asked", &SlopeResult::holding),
        field("lay_true", FieldUnit::none, "how to lay it as it stands, null where it was not measured",
              &SlopeResult::lay_true),
        field("lay_steel_true", FieldUnit::none, "how to lay steel on the deck as it stands, null without",
              &SlopeResult::lay_steel_true));
};

template <>
struct FieldsOf<CarriedPieces> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "what the pieces are", &CarriedPieces::name),
                   field("count", FieldUnit::count, "how many of this size", &CarriedPieces::count),
                   field("length", FieldUnit::length, "length of each", &CarriedPieces::length),
                   field("width", FieldUnit::length, "width of each", &CarriedPieces::width),
                   field("handling", FieldUnit::none, "what carrying them takes", &CarriedPieces::handling),
                   field(
                       "caution", FieldUnit::none, "to be read before anything is lifted",
                       +[](const CarriedPieces&) { return handling_caution; }));
};

template <>
struct FieldsOf<RoofResult> {
    static constexpr auto list = field_list(
        field("name", FieldUnit::none, "name of the roof", &RoofResult::name),
        field(
            "caution", FieldUnit::none, "to be read before anything is built from this",
            +[](const RoofResult&) { return layout_caution; }),
        field("pitch_in_12", FieldUnit::ratio, "inches of rise in 12 of run", &RoofResult::pitch),
        field("footprint_width", FieldUnit::length, "out to out across the ridge", &RoofResult::footprint_width),
        field("footprint_length", FieldUnit::length, "out to out along the ridge", &RoofResult::footprint_length),
        field("footprint_diagonal", FieldUnit::length, "nominal diagonal of the footprint",
              &RoofResult::footprint_diagonal),
        field("heights", FieldUnit::none, "heights above the benchmark", &RoofResult::heights),
        field("roof_area", FieldUnit::area, "area of all slopes", &RoofResult::roof_area),
        field(
            "squares", FieldUnit::ratio, "the same in roofing squares of 100 square feet",
            +[](const RoofResult& r) { return squares(r.roof_area); }),
        field("sheet_pieces", FieldUnit::count, "pieces of sheet laid", &RoofResult::sheet_pieces),
        field("whole_sheets", FieldUnit::count, "of them full sheets", &RoofResult::whole_sheets),
        field("nails", FieldUnit::count, "nails in all", &RoofResult::nails),
        field("findings", FieldUnit::count, "findings in all", &RoofResult::findings),
        field("worst_closure", FieldUnit::length, "largest miss of rounded cuts on any plane",
              &RoofResult::worst_closure),
        field("footprint", FieldUnit::none, "how true the wall lines are, null where not measured",
              &RoofResult::footprint),
        field("ridge", FieldUnit::none, "what the shared ridge must do, null where not both slopes were measured",
              &RoofResult::ridge),
        field("slopes", FieldUnit::none, "slopes, front first", &RoofResult::slopes),
        field("panels", FieldUnit::count, "pieces of steel laid", &RoofResult::panels),
        field("screws", FieldUnit::count, "screws in all", &RoofResult::screws),
        field("air", FieldUnit::none, "net free area and openings, null where none were asked", &RoofResult::air),
        field("foam", FieldUnit::none, "foam under the roof, null where none was asked", &RoofResult::foam),
        field("covering", FieldUnit::none, "the covering at this slope, null where none is named",
              &RoofResult::covering),
        field("underlayment_rule", FieldUnit::none, "the rule of the underlayment, null where there is none",
              &RoofResult::underlayment_rule),
        field("carried", FieldUnit::none, "what carrying the pieces takes, size by size", &RoofResult::carried),
        field("search", FieldUnit::none, "what a search for fewer sheets found, null where none was asked for",
              &RoofResult::search),
        field("wind", FieldUnit::none, "velocity pressure of the wind, null where not asked", &RoofResult::wind),
        field("truing", FieldUnit::none, "what the readings of the roof say, null without", &RoofResult::truing));
};

}  // namespace eavewright
