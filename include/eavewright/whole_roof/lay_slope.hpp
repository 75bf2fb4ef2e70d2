// SPDX-License-Identifier: BSL-1.0
#pragma once

// One slope from its description to its layout: planes as built, purlin rows, pieces, sheets, nails, steel.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_pieces.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/row_marks.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/order/stack_pieces.hpp>
#include <eavewright/roof/hold_back.hpp>
#include <eavewright/roof/measured_plane.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/tiling/deck_strips.hpp>
#include <eavewright/tiling/lay_underlayment.hpp>
#include <eavewright/tiling/stop_board.hpp>
#include <eavewright/tiling/tile_sheets.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/description_faults.hpp>
#include <eavewright/whole_roof/hold_slope.hpp>
#include <eavewright/whole_roof/lay_steel.hpp>
#include <eavewright/whole_roof/lay_strips.hpp>
#include <eavewright/whole_roof/lay_ways.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

namespace detail {
[[nodiscard]] inline RoofShape shape_of(const ShapeInput& input) {
    const GableRoof* roof = std::get_if<GableRoof>(&input);
    return roof != nullptr ? gable(*roof) : single_slope(std::get<SingleSlopeRoof>(input));
}

/// The nominal plane, or the measured one where its sides were taken.
template <Surface surface>
[[nodiscard]] Plane<surface> plane_as_built(const Plane<surface>& nominal, const std::optional<Trueness>& trueness) {
    return trueness ? measured_plane(nominal, trueness->measured.corners) : nominal;
}

/// Figures of a slope that stand before anything lies on it.
template <Surface surface>
[[nodiscard]] SlopeResult bare_slope(const Slope& slope, const Plane<surface>& nominal, const Plane<surface>& plane,
                                     FrameLines frames, std::optional<Trueness> trueness) {
    const Extent extent = extent_of(nominal.outline);
    return SlopeResult{.name = slope.name,
                       .surface = surface,
                       .outline = plane.outline,
                       .plane_length = extent.high.along,
                       .slope_length = extent.high.up,
                       .diagonal = diagonal(extent.high.along, extent.high.up),
                       .area = net_area(plane),
                       .run = slope.run,
                       .total_run = slope.total_run,
                       .chord_length = slope.chord_length,
                       .tail_length = slope.tail_length,
                       .frames = std::move(frames),
                       .purlins = std::nullopt,
                       .marks = {},
                       .purlin_pieces = {},
                       .blocks = {},
                       .supports = {},
                       .sheets = Sheets{.run = SupportRun::along_eave,
                                        .lanes = 0,
                                        .pieces = {},
                                        .joints = {},
                                        .findings = {},
                                        .laid = Area::from_value(0.0),
                                        .whole_sheets = 0,
                                        .closure = {no_length, no_length}},
                       .nails = {0, {}, {}},
                       .trueness = std::move(trueness),
                       .deck = std::nullopt,
                       .steel = std::nullopt,
                       .underlayment = std::nullopt,
                       .overhangs = std::nullopt,
                       .stop_board = std::nullopt,
                       .sheet_stacks = std::nullopt,
                       .panel_stacks = std::nullopt,
                       .holding = std::nullopt,
                       .lay_true = std::nullopt,
                       .lay_steel_true = std::nullopt};
}

[[nodiscard]] inline Length deck_thickness(const RoofDescription& roof) {
    return roof.deck && roof.deck->overhangs_only ? roof.deck->overhangs_only->thickness : build_up_of(roof.shape).deck;
}

template <Surface surface>
void lay_sheets(const RoofDescription& roof, const Plane<surface>& plane, const Supports<surface>& supports,
                const std::optional<RoofZones>& zones, SlopeResult& result) {
    result.supports = supports.lines;
    if (!roof.deck) {
        return;
    }
    const DeckPlan& deck = *roof.deck;
    SheetPlan plan = deck.sheets;
    plan.tick = roof.tick;
    if (deck.overhangs_only) {
        const DeckStripsPlan strips{.thickness = deck.overhangs_only->thickness,
                                    .eave_depth = plane.pitch.slope_over(result.total_run - result.run),
                                    .rake_depth = deck.overhangs_only->rakes ? rake_overhang_of(roof.shape) : no_length,
                                    .tail = tail_of(roof.shape)};
        result.overhangs =
            lay_strips(deck_strips(held_back(plane, deck.ridge_hold_back), supports, result.frames, strips), plan,
                       deck.nails, supports.lines.size(), result.sheets, result.nails);
    } else {
        result.sheets = tile_sheets(held_back(plane, deck.ridge_hold_back), supports, plan);
        result.nails =
            zones ? count_nails(result.sheets, supports, zoned_pattern(*zones, deck.nails, roof.holding->zones))
                  : count_nails(result.sheets, supports, deck.nails);
    }
}

/// The first row's stop board, where one is asked for.
template <Surface surface>
void put_up_stop_board(const RoofDescription& roof, const Plane<surface>& plane, SlopeResult& result) {
    if (roof.deck && roof.deck->stop_board) {
        result.stop_board = stop_board(plane, result.frames,
                                       {.stock_length = *roof.deck->stop_board,
                                        .sheet_thickness = deck_thickness(roof),
                                        .past_fascia = roof.deck->sheets.past_fascia,
                                        .tail = tail_of(roof.shape)});
    }
}

/// Where full sheets may stand on the rows that they will be nailed to.
template <Surface surface>
void stack_sheets(const RoofDescription& roof, const Plane<surface>& plane, const Supports<surface>& supports,
                  SlopeResult& result) {
    if (roof.handling && roof.handling->sheet_stack && roof.deck) {
        const SheetSize& sheet = roof.deck->sheets.sheet;
        result.sheet_stacks = stack_pieces(
            {static_cast<std::int64_t>(result.sheets.whole_sheets), sheet.length, sheet.width, *roof.handling->sheet},
            plane, supports, result.frames, *roof.handling->sheet_stack);
    }
}
template <Surface surface>
void stack_panels(const RoofDescription& roof, const Plane<surface>& plane, const Supports<surface>& supports,
                  SlopeResult& result) {
    if (!roof.handling || !roof.handling->panel_stack || !result.steel) {
        return;
    }
    HandledPieces pieces{0, no_length, no_length, *roof.handling->panel};
    for (const PanelPiece& piece : result.steel->panels.pieces) {
        if (piece.order_length > pieces.length + count_tolerance) {
            pieces = {0, piece.order_length, piece.width, pieces.layer};
        }
        pieces.count += magnitude(piece.order_length - pieces.length) <= count_tolerance ? 1 : 0;
        pieces.width = longer(pieces.width, piece.width);
    }
    result.panel_stacks = stack_pieces(pieces, plane, supports, result.frames, *roof.handling->panel_stack);
}

inline void lay_underlayment_on(const RoofDescription& roof, const DeckPlane& deck, SlopeResult& result) {
    if (roof.underlayment) {
        const UnderlaymentChoice choice = choose_underlayment(underlayment_site(roof, *covering_of(roof)));
        result.underlayment = lay_underlayment(deck, underlayment_plan(*roof.underlayment, choice.rule, roof.tick));
    }
}

/// Rows of one slope: as found where they were, else by the rule.
[[nodiscard]] inline PurlinRows rows_of_slope(const RoofDescription& roof, const Slope& slope, const PurlinPlane& plane,
                                              const SlopeAsBuilt& built, const FrameLines& frames) {
    RowSpacing spacing = roof.purlins->spacing;
    if (built.rows) {
        AsFound found = *built.rows;
        if (found.frames.empty()) {
            found.frames = frames.centres;
        }
        spacing = found;
    }
    return purlin_rows(plane, spacing,
                       {.stock = roof.purlins->stock,
                        .fascia_width = slope.fascia_width,
                        .sheet_past_fascia = roof.deck ? roof.deck->sheets.past_fascia : no_length,
                        .ridge_setback = roof.purlins->ridge_setback});
}

inline void require_bays(const std::vector<std::size_t>& bays, const FrameLines& frames) {
    const std::size_t count = frames.centres.size() - 1;
    for (std::size_t i = 0; i < bays.size(); ++i) {
        if (bays[i] < 1 || bays[i] > count) {
            throw FaultError{Fault{FaultCode::out_of_range, "purlins.blocked_bays[" + std::to_string(i) + "]",
                                   std::to_string(bays[i]), "a bay from 1 to " + std::to_string(count)}};
        }
    }
}

/// Rows that a deck at the overhangs alone lowers; none under any other.
[[nodiscard]] inline DroppedRows dropped_rows_of(const SlopeResult& slope) {
    return slope.overhangs ? DroppedRows{slope.overhangs->dropped_rows, slope.overhangs->marks_lower} : DroppedRows{};
}

/// Bays that get blocks, in order: those chosen, and for foam both end bays, where it must stop.
[[nodiscard]] inline std::vector<std::size_t> blocked_bays_of(const RoofDescription& roof, const FrameLines& frames) {
    std::vector<std::size_t> bays = roof.purlins->blocked_bays;
    if (roof.foam) {
        bays.push_back(1);
        bays.push_back(frames.centres.size() - 1);
        std::sort(bays.begin(), bays.end());
        bays.erase(std::unique(bays.begin(), bays.end()), bays.end());
    }
    return bays;
}

inline void lay_purlins(const RoofDescription& roof, const Slope& slope, const PurlinRows& rows, bool found,
                        SlopeResult& result) {
    const DroppedRows dropped = dropped_rows_of(result);
    const auto mark_at = [&](Length along) {
        return row_marks(rows, along, slope.chord_tail_offset, roof.tick, dropped);
    };
    result.marks = mark_at(result.frames.plane_left);
    for (std::size_t f = 0; found && f < result.frames.centres.size(); ++f) {
        for (const RowMark& mark : mark_at(result.frames.centres[f])) {
            result.marks.push_back(mark);
        }
    }
    require_bays(roof.purlins->blocked_bays, result.frames);
    PurlinCutPlan cuts = roof.purlins->cuts;
    cuts.tick = roof.tick;
    result.purlin_pieces = purlin_pieces(rows, result.frames, cuts);
    for (const std::size_t bay : blocked_bays_of(roof, result.frames)) {
        for (const BlockingPiece& block :
             blocking_pieces(rows, result.frames, {.bay = bay - 1, .lines = 1, .tick = roof.tick})) {
            result.blocks.push_back(block);
        }
    }
    result.purlins = rows;
}

/// What one slope brings along: its frames, and how true it stands where it was measured.
struct SlopeStart {
    const Slope& slope;
    SlopeAsBuilt built;
    FrameLines frames;
    std::optional<Trueness> trueness;
    std::optional<Trueness> deck;
};

[[nodiscard]] inline SlopeStart start_slope(const RoofDescription& roof, const RoofShape& shape, std::size_t index) {
    SlopeStart start{.slope = shape.slopes[index],
                     .built = roof.as_built.empty() ? SlopeAsBuilt{} : roof.as_built[index],
                     .frames = frame_lines(roof.frames,
                                           {.length = shape.footprint_length,
                                            .rake_overhang = rake_overhang_of(roof.shape),
                                            .post_inset = shape.post_inset},
                                           index == 0 ? SeenFrom::front : SeenFrom::back),
                     .trueness = std::nullopt,
                     .deck = std::nullopt};
    const auto judge = [&](const std::optional<FourSides>& sides) {
        return sides ? std::optional<Trueness>{true_up(*sides, roof.squaring.tape, roof.squaring.tolerance)}
                     : std::nullopt;
    };
    start.trueness = judge(start.built.sides);
    start.deck = judge(start.built.deck);
    return start;
}

[[nodiscard]] inline SlopeResult lay_slope(const RoofDescription& roof, const RoofShape& shape, std::size_t index) {
    const SlopeStart start = start_slope(roof, shape, index);
    if (!roof.purlins) {
        const ChordPlane plane = plane_as_built(start.slope.chord, start.trueness);
        SlopeResult result = bare_slope(start.slope, start.slope.chord, plane, start.frames, start.trueness);
        lay_sheets(roof, plane, supports_of(start.frames, plane), std::nullopt, result);
        lay_as_it_stands(roof, plane, supports_of(start.frames, plane), result);
        put_up_stop_board(roof, plane, result);
        lay_underlayment_on(roof, deck_as_built(start.slope, start.slope.chord, start.trueness, start.deck), result);
        result.deck = start.deck;
        return result;
    }
    const PurlinPlane plane = plane_as_built(start.slope.purlin, start.trueness);
    SlopeResult result = bare_slope(start.slope, start.slope.purlin, plane, start.frames, start.trueness);
    const PurlinRows rows = rows_of_slope(roof, start.slope, plane, start.built, start.frames);
    const std::optional<RoofZones> zones =
        roof.holding ? std::optional<RoofZones>{zones_of(roof, shape, start.slope, plane)} : std::nullopt;
    lay_sheets(roof, plane, supports_of(rows), zones, result);
    lay_as_it_stands(roof, plane, supports_of(rows), result);
    put_up_stop_board(roof, plane, result);
    lay_purlins(roof, start.slope, rows, start.built.rows.has_value(), result);
    result.deck = start.deck;
    const DeckPlane deck = deck_as_built(start.slope, start.slope.purlin, start.trueness, start.deck);
    lay_underlayment_on(roof, deck, result);
    stack_sheets(roof, plane, supports_of(rows), result);
    if (roof.steel) {
        result.steel = lay_steel(roof, start.slope, plane, deck, rows, index == 0);
        lay_steel_as_it_stands(roof, deck, deck_supports_of(roof, start.slope, rows), result);
        stack_panels(roof, plane, supports_of(rows), result);
    }
    if (zones) {
        result.holding = hold_slope(roof, shape, *zones, supports_of(rows), result);
    }
    return result;
}
}  // namespace detail

}  // namespace eavewright
