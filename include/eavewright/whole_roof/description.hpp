// SPDX-License-Identifier: BSL-1.0
#pragma once

// One roof as its builder describes it: everything that `whole_roof` needs, and nothing that follows from the rest.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/fastening/screws.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_pieces.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/row_spacing.hpp>
#include <eavewright/order/handling.hpp>
#include <eavewright/order/stack.hpp>
#include <eavewright/roof/air.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/tiling/closures.hpp>
#include <eavewright/tiling/covering.hpp>
#include <eavewright/tiling/panel_start.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/trim.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/tiling/underlayment_rule.hpp>
#include <eavewright/units/areal_mass.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/holding_plan.hpp>
#include <eavewright/whole_roof/roof_readings.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace eavewright {

using ShapeInput = std::variant<GableRoof, SingleSlopeRoof>;

/// Purlins on every slope alike.
struct PurlinPlan {
    RowSpacing spacing;
    PurlinCutPlan cuts;
    PurlinStock stock{};
    Length ridge_setback = no_length;  ///< upper side of the ridge row below the ridge line
    std::vector<std::size_t>
        blocked_bays{};  ///< bays that get a line of blocks, counted from 1 at the left of each slope
};

/// A deck that covers the overhangs alone: steel lies on the purlins elsewhere, which drop under the deck by its thickness.
struct OverhangDeck {
    Length thickness;
    bool rakes = true;  ///< the rake overhangs too
};

/// Whether sheets are laid as given, or as a search finds that they take fewest.
enum class SheetLayout { as_given, fewest_sheets };
template <>
struct NamesOf<SheetLayout> {
    static constexpr std::array<std::string_view, 2> list{"as_given", "fewest_sheets"};
};

/// Sheets over the whole slope, or over its overhangs alone, and what nails them down.
struct DeckPlan {
    SheetPlan sheets;
    NailPattern nails;
    std::optional<OverhangDeck> overhangs_only{};
    std::optional<Length> stop_board{};  ///< longest board to be had for the first row's stop board
    Length ridge_hold_back =
        no_length;  ///< upper edge of the sheets below the ridge, up the slope: half of a vent slot
    SheetLayout layout = SheetLayout::as_given;
};

/// What keeps the rain out, as far as its least slope and the underlayment ask.
struct CoveringPlan {
    Covering covering;
    bool high_wind = false;                   ///< as local code draws the line
    std::optional<Pitch> least_slope_here{};  ///< of another edition, local code or the maker
};

/// Underlayment on the deck. Its rule is the maker's, or follows from the covering.
struct DryInPlan {
    UnderlaymentRoll roll;
    std::optional<MakersRule> makers{};
    Length eave_past = no_length;  ///< as in `UnderlaymentPlan`, like all that follow
    Length rake_past = no_length;
    Length ridge_wrap = Length::from_inches(6.0);
    TopCourse top = TopCourse::ripped;
    StartCorner start = StartCorner::eave_left;
};

/// Trim of each kind of edge that gets some, and the strips under the ribs.
struct EdgePlan {
    std::optional<TrimStock> eave{};
    std::optional<TrimStock> rake{};
    std::optional<TrimStock> ridge{};  ///< one cap over both slopes
    std::optional<TrimStock> high_eave{};
    std::optional<ClosurePlan> closures{};
};

/// Ribbed steel on every slope alike, begun at the same gable so that ribs meet at the ridge.
struct SteelPlan {
    PanelPlan panels;  ///< `start` is found from `begin`, slope by slope
    ScrewPattern screws{};
    LapRule begin = BeginAt{GableEnd::low_x};  ///< where the wind settles nothing, the low gable
    EdgePlan edges{};
};

/// Air under the roof, over the whole footprint: the slot runs along the ridge, the openings along every eave.
struct AirPlan {
    double ratio = 150.0;     ///< plan area over net free area
    double high_share = 0.5;  ///< of it at the ridge
    VentRule rule = VentRule::high_40_to_50;
    double net_share = 1.0;  ///< of an opening that stays free behind its screen
};

/// Who carries, and what the layers weigh.
struct HandlingPlan {
    HandlingLimits limits;
    std::optional<ArealMass> sheet{};
    std::optional<ArealMass> panel{};
    std::optional<StackPlan> sheet_stack{};  ///< full sheets on the purlins
    std::optional<StackPlan> panel_stack{};  ///< the longest panels on what they are laid on
};

/// What was measured on one slope, where it was.
struct SlopeAsBuilt {
    std::optional<AsFound> rows{};     ///< purlins as found; frames may be left empty: the slope's own frame centres
    std::optional<FourSides> sides{};  ///< four sides and two diagonals of the surface the sheets lie on
    std::optional<FourSides> deck{};   ///< the same of the finished deck, before the steel is ordered
};

/// How square is square enough, and how well the tape reads.
struct SquaringPlan {
    TapeError tape{};
    SquareTolerance tolerance{};
    std::optional<FourSides>
        footprint{};  ///< the wall lines as measured: `eave` is the front wall, `left` the left end wall
};

/// The description of one roof. Every layer is optional: without purlins the deck lies on the chords, without a deck the
/// steel lies on the purlins.
struct RoofDescription {
    std::string name;
    ShapeInput shape;
    FramePlan frames;
    std::optional<PurlinPlan> purlins;
    std::optional<DeckPlan> deck;
    std::optional<CoveringPlan>
        covering{};  ///< steel is a lapped metal covering by itself, sealed where its side laps are
    std::optional<DryInPlan> underlayment{};
    std::optional<SteelPlan> steel{};
    std::optional<AirPlan> air{};
    std::optional<Length> foam{};  ///< thickness of foam under the roof; it stops against blocks in both end bays
    std::optional<HandlingPlan> handling{};
    SquaringPlan squaring{};
    std::vector<SlopeAsBuilt> as_built{};    ///< empty, or one a slope, front first
    Tick tick = Tick::of_inch(16);           ///< what marks and cuts are rounded to, in place of the ticks of the parts
    std::optional<HoldingPlan> holding{};    ///< the fasteners against the wind; needs purlins
    std::optional<RoofReadings> readings{};  ///< between marks, over strings, under levels: for `true_roof`
};

/// Number of slopes that a shape has.
[[nodiscard]] inline std::size_t slope_count(const ShapeInput& shape) {
    return std::holds_alternative<GableRoof>(shape) ? 2 : 1;
}

namespace detail {
[[nodiscard]] inline Pitch pitch_of(const ShapeInput& input) {
    return std::visit([](const auto& roof) { return roof.pitch; }, input);
}
[[nodiscard]] inline Length rake_overhang_of(const ShapeInput& input) {
    return std::visit([](const auto& roof) { return roof.rake_overhang; }, input);
}
[[nodiscard]] inline TailCut tail_of(const ShapeInput& input) {
    return std::visit([](const auto& roof) { return roof.tail; }, input);
}
[[nodiscard]] inline BuildUp build_up_of(const ShapeInput& input) {
    return std::visit([](const auto& roof) { return roof.build_up; }, input);
}
}  // namespace detail

}  // namespace eavewright
