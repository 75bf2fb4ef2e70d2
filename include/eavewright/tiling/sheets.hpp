// SPDX-License-Identifier: BSL-1.0
#pragma once

// Sheets on a plane: what is asked, and the layout that answers. The laying itself is in tile_sheets.hpp.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// A sheet; its length is the direction of the strength axis, which lies across the supports.
struct SheetSize {
    Length width;
    Length length;
};

template <>
struct FieldsOf<SheetSize> {
    static constexpr auto list =
        field_list(field("length", FieldUnit::length, "along the strength axis", &SheetSize::length),
                   field("width", FieldUnit::length, "across it", &SheetSize::width));
};

/// The corner that the first sheet goes to.
enum class StartCorner { eave_left, eave_right };
template <>
struct NamesOf<StartCorner> {
    static constexpr std::array<std::string_view, 2> list{"eave_left", "eave_right"};
};

/// Where sheets of a lane meet.
enum class JointPlace {
    full_sheets,  ///< every sheet is laid whole, wherever its end falls
    on_supports,  ///< every sheet is cut back to the last support it reaches
};
template <>
struct NamesOf<JointPlace> {
    static constexpr std::array<std::string_view, 2> list{"full_sheets", "on_supports"};
};

/// How sheets are to be laid.
struct SheetPlan {
    SheetSize sheet;
    Length gap = Length::from_inches(0.125);  ///< at ends and edges; APA, PS 2 panels: 1/8 in
    int stagger_spaces = 1;                   ///< every other lane starts shorter by this many support spaces
    StartCorner start = StartCorner::eave_left;
    JointPlace joints = JointPlace::full_sheets;
    Length past_fascia = no_length;             ///< lower edge of the first row past the fascia's outer face
    Length sliver = Length::from_inches(12.0);  ///< a piece shorter or narrower than this is found; common practice
    Length least_bearing = Length::from_inches(0.5);  ///< of each sheet end on its support; common practice
    Length edge_reach = Length::from_inches(3.0);  ///< how far an edge may stand past the last support; common practice
    Tick tick = Tick::of_inch(16);                 ///< what cuts are rounded to
    Length rip_first = no_length;  ///< the first lane is narrower than a sheet by this, and all others lie nearer to it
    int start_spaces = 0;          ///< every lane starts shorter by this many support spaces
    double turn =
        0.0;  ///< tangent of the grid's turn, counter-clockwise seen from outside; each lane then starts at its own
              ///< lowest point
};

/// Steepest turn of a grid.
inline constexpr double steepest_turn = 0.1;

/// One piece as it lies. Lanes are columns up the slope over purlins, courses along the eave over chords.
struct SheetPiece {
    std::int32_t lane;                ///< from 0 at the start corner
    std::int32_t place;               ///< place in its lane, from 0
    std::vector<PlanePoint> outline;  ///< counter-clockwise, exact
    Length length;                    ///< cut size along the strength axis, to the tick
    Length width;                     ///< cut size across it, to the tick
    bool whole;                       ///< a full sheet, uncut
    bool slanted;  ///< off a rectangle by half a tick or more: cut to the outline after `length` x `width`
    std::vector<std::vector<PlanePoint>> cutouts{};  ///< openings within it, counter-clockwise
};

/// Name of a piece: letters for the lane, number for its place. A1 lies in the start corner.
[[nodiscard]] inline std::string piece_name(const SheetPiece& piece) {
    std::string letters;
    for (std::int32_t n = piece.lane; n >= 0; n = n / 26 - 1) {
        letters.insert(letters.begin(), static_cast<char>('A' + n % 26));
    }
    return letters + std::to_string(piece.place + 1);
}

/// Where two pieces of a lane meet end to end.
struct EndJoint {
    std::size_t first;  ///< index of the piece nearer to the start
    std::size_t second;
    PlanePoint from;  ///< the middle of the gap, from one side of the lane to the other
    PlanePoint to;
    std::optional<std::size_t> support;  ///< the support under it; none where it lands between supports
    Length first_bearing;                ///< narrowest bearing of each end along the joint; 0 where there is none
    Length second_bearing;
};

/// Closed, numbered list of what can be wrong with a sheet where it lies.
enum class FindingCode : int {
    joint_on_nothing = 0,   ///< an end joint lands between supports
    narrow_bearing = 1,     ///< an end bears on less than the least bearing
    sliver_length = 2,      ///< a piece is shorter than the sliver limit
    sliver_width = 3,       ///< a piece is narrower than the sliver limit
    edge_past_support = 4,  ///< the outer edge, or the edge at an opening, stands too far past the last support
    narrow_leg = 5,         ///< what is left beside an opening or a notch is narrower than the sliver limit
};
template <>
struct NamesOf<FindingCode> {
    static constexpr std::array<std::string_view, 6> list{"joint_on_nothing", "narrow_bearing",    "sliver_length",
                                                          "sliver_width",     "edge_past_support", "narrow_leg"};
};

/// A block that would carry a joint: its centre line, and its length rounded down to the tick.
struct MendingBlock {
    PlanePoint from;
    PlanePoint to;
    Length length;
};

/// One thing found: what, on which piece, where, how much, and what the limit is.
struct Finding {
    FindingCode code;
    std::size_t piece;
    PlanePoint place;
    Length measured;
    Length limit;
    std::optional<MendingBlock> block;  ///< for joints
};

/// How far rounded cuts and gaps miss the plane they have to fill.
struct LayoutClosure {
    Length worst_lane;  ///< largest miss of any lane, end to end
    Length across;      ///< miss of all lanes side by side
};

/// A plane laid with sheets.
struct Sheets {
    SupportRun run;  ///< of the supports; the sheets' length lies across it
    std::int32_t lanes;
    std::vector<SheetPiece> pieces;  ///< lane by lane
    std::vector<EndJoint> joints;
    std::vector<Finding> findings;
    Area laid;                 ///< area of all pieces as laid
    std::size_t whole_sheets;  ///< pieces that are full sheets
    LayoutClosure closure;
    double turn = 0.0;  ///< tangent of the grid's turn on the plane
};

template <>
struct FieldsOf<SheetPiece> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "letters for the lane, number for the place in it", &piece_name),
                   field("length", FieldUnit::length, "cut size along the strength axis", &SheetPiece::length),
                   field("width", FieldUnit::length, "cut size across it", &SheetPiece::width),
                   field("whole", FieldUnit::none, "a full sheet, uncut", &SheetPiece::whole),
                   field("slanted", FieldUnit::none, "cut to the outline after length x width", &SheetPiece::slanted),
                   field("outline", FieldUnit::length, "corners as laid", &SheetPiece::outline),
                   field("cutouts", FieldUnit::length, "outlines of openings within it", &SheetPiece::cutouts));
};
template <>
struct FieldsOf<EndJoint> {
    static constexpr auto list = field_list(
        field("first", FieldUnit::count, "index of the piece nearer to the start", &EndJoint::first),
        field("second", FieldUnit::count, "index of the next piece", &EndJoint::second),
        field("from", FieldUnit::length, "middle of the gap at one side of the lane", &EndJoint::from),
        field("to", FieldUnit::length, "middle of the gap at the other side", &EndJoint::to),
        field("support", FieldUnit::count, "index of the support under the joint, null for none", &EndJoint::support),
        field("first_bearing", FieldUnit::length, "narrowest bearing of the first piece's end",
              &EndJoint::first_bearing),
        field("second_bearing", FieldUnit::length, "narrowest bearing of the second piece's end",
              &EndJoint::second_bearing));
};
template <>
struct FieldsOf<MendingBlock> {
    static constexpr auto list =
        field_list(field("from", FieldUnit::length, "centre line, one end", &MendingBlock::from),
                   field("to", FieldUnit::length, "centre line, other end", &MendingBlock::to),
                   field("length", FieldUnit::length, "length as cut, rounded down", &MendingBlock::length));
};
template <>
struct FieldsOf<Finding> {
    static constexpr auto list =
        field_list(field("code", FieldUnit::none, "what was found", &Finding::code),
                   field("piece", FieldUnit::count, "index of the piece", &Finding::piece),
                   field("place", FieldUnit::length, "where", &Finding::place),
                   field("measured", FieldUnit::length, "how much", &Finding::measured),
                   field("limit", FieldUnit::length, "the limit it passes", &Finding::limit),
                   field("block", FieldUnit::none, "the block that would carry the joint, null for other findings",
                         &Finding::block));
};
template <>
struct FieldsOf<LayoutClosure> {
    static constexpr auto list = field_list(
        field("worst_lane", FieldUnit::length, "largest miss of rounded cuts and gaps in a lane",
              &LayoutClosure::worst_lane),
        field("across", FieldUnit::length, "miss of the rounded lanes side by side", &LayoutClosure::across));
};
template <>
struct FieldsOf<Sheets> {
    static constexpr auto list =
        field_list(field("run", FieldUnit::none, "which way the supports run", &Sheets::run),
                   field("lanes", FieldUnit::count, "columns up the slope, or courses along the eave", &Sheets::lanes),
                   field("whole_sheets", FieldUnit::count, "pieces that are full sheets", &Sheets::whole_sheets),
                   field("laid", FieldUnit::area, "area of all pieces as laid", &Sheets::laid),
                   field("closure", FieldUnit::none, "how far rounded cuts miss the plane", &Sheets::closure),
                   field("pieces", FieldUnit::none, "pieces, lane by lane", &Sheets::pieces),
                   field("joints", FieldUnit::none, "end joints", &Sheets::joints),
                   field("findings", FieldUnit::none, "what is wrong where", &Sheets::findings),
                   field("turn", FieldUnit::ratio, "tangent of the grid's turn on the plane", &Sheets::turn));
};

inline void find_faults(const SheetPlan& plan, const Path& path, Faults& faults) {
    const Length inch = one_inch;
    require_within(plan.sheet.width, 6.0 * inch, 480.0 * inch, Path{path, "width"}, faults);
    require_within(plan.sheet.length, 6.0 * inch, 480.0 * inch, Path{path, "length"}, faults);
    require_within(plan.gap, no_length, 2.0 * inch, Path{path, "gap"}, faults);
    require_within(plan.past_fascia, no_length, 12.0 * inch, Path{path, "past_fascia"}, faults);
    require_within(plan.sliver, no_length, 480.0 * inch, Path{path, "sliver"}, faults);
    require_within(plan.least_bearing, no_length, 12.0 * inch, Path{path, "least_bearing"}, faults);
    require_within(plan.edge_reach, no_length, 48.0 * inch, Path{path, "edge_reach"}, faults);
    require_within(plan.rip_first, no_length, plan.sheet.width, Path{path, "rip_first"}, faults);
    if (!(plan.turn >= -steepest_turn && plan.turn <= steepest_turn)) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "turn"}.text(), write_decimal(plan.turn, 6),
                               "a tangent between -0.1 and 0.1"});
    }
    if (plan.start_spaces < 0 || plan.start_spaces > 100) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "start_spaces"}.text(),
                               std::to_string(plan.start_spaces), "0 to 100 support spaces"});
    }
    if (plan.stagger_spaces < 0 || plan.stagger_spaces > 100) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "stagger_spaces"}.text(),
                               std::to_string(plan.stagger_spaces), "0 to 100 support spaces"});
    }
}

}  // namespace eavewright
