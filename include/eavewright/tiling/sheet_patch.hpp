// SPDX-License-Identifier: BSL-1.0
#pragma once

// A patch in a deck of sheets: what is asked, and what is cut, taken out and put in. The patching is in patch_sheets.hpp.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// A ruined rectangle on the plane, its sides along the eave and up the slope.
struct DamagedArea {
    PlanePoint low;   ///< lower left corner
    PlanePoint high;  ///< upper right corner
};

/// How a deck is patched.
struct PatchPlan {
    SheetPlan sheets;  ///< as the deck was laid: gap, sliver, least bearing and edge reach hold for the patch too
    int least_spaces =
        2;  ///< that a new piece bridges, and an old one that was cut; common practice: structural panels are
            ///< rated over two spans or more
    bool whole_sheets = false;  ///< every sheet that is touched comes out whole
};

/// A cut across a piece that stays in part, over the middle of a support.
struct PatchCut {
    std::size_t piece;  ///< index of the old piece
    Length at;          ///< from its lower or left end, along the strength axis, to the tick
    PlanePoint from;    ///< the edge of what stays
    PlanePoint to;
    std::size_t support;
    Length old_bearing;  ///< of what stays
    Length new_bearing;
};

/// What stays of a piece that was cut.
struct PatchStay {
    std::size_t piece;
    std::vector<PlanePoint> outline;
    std::vector<std::vector<PlanePoint>> cutouts;
    int spaces;  ///< between supports that it bridges
    Area area;
};

/// A piece that goes in.
struct PatchPiece {
    std::int32_t lane;
    std::vector<std::size_t> replaces;  ///< indices of the old pieces that it takes the place of, in whole or in part
    std::vector<PlanePoint> outline;    ///< as it lies, exact
    std::vector<std::vector<PlanePoint>> cutouts;
    Length length;  ///< cut size along the strength axis, rounded down to the tick, so that it goes in
    Length width;   ///< across it
    bool whole;     ///< a full sheet
    bool slanted;   ///< cut to the outline after length x width
    int spaces;     ///< between supports that it bridges
    Area area;
};

/// Closed, numbered list of what can be wrong with a patch.
enum class PatchFindingCode : int {
    end_on_nothing = 0,     ///< an end of a new piece lands between supports, as the joint did before
    narrow_bearing = 1,     ///< an end bears on less than the least bearing
    few_spaces = 2,         ///< a new piece bridges fewer spaces than asked: there is no more of it
    sliver = 3,             ///< a new piece is shorter or narrower than the sliver limit
    edge_past_support = 4,  ///< an outer edge of a new piece stands too far past the last support
};
template <>
struct NamesOf<PatchFindingCode> {
    static constexpr std::array<std::string_view, 5> list{"end_on_nothing", "narrow_bearing", "few_spaces", "sliver",
                                                          "edge_past_support"};
};

/// One thing found: on which new piece, where, how much, and what the limit is; for few_spaces both are counts.
struct PatchFinding {
    PatchFindingCode code;
    std::size_t piece;  ///< index in `SheetPatch::pieces`
    PlanePoint place;
    Length measured;
    Length limit;
    std::optional<MendingBlock> block;  ///< that would carry the end
};

/// A deck as it is patched. What was laid before, less `taken_out`, with `put_in`, is what lies after.
struct SheetPatch {
    std::vector<std::size_t> damaged;    ///< old pieces that are touched
    std::vector<std::size_t> whole_out;  ///< those of them that come out whole
    std::vector<PatchCut> cuts;
    std::vector<PatchStay> stays;      ///< what stays of those that were cut; all that is not damaged stays as it is
    std::vector<PatchPiece> pieces;    ///< to put in
    std::vector<MendingBlock> blocks;  ///< to add under ends that land on nothing or on too little
    std::vector<PatchFinding> findings;
    Area taken_out;  ///< of old pieces, what the saw takes along with it
    Area put_in;     ///< of new pieces
    Area gaps;       ///< new ones, at the cuts
    Area closed;     ///< old gaps that a new piece bridges
};

template <>
struct FieldsOf<PatchCut> {
    static constexpr auto list =
        field_list(field("piece", FieldUnit::count, "index of the old piece", &PatchCut::piece),
                   field("at", FieldUnit::length, "from its lower or left end", &PatchCut::at),
                   field("from", FieldUnit::length, "edge of what stays, one end", &PatchCut::from),
                   field("to", FieldUnit::length, "edge of what stays, other end", &PatchCut::to),
                   field("support", FieldUnit::count, "the support under it", &PatchCut::support),
                   field("old_bearing", FieldUnit::length, "of what stays", &PatchCut::old_bearing),
                   field("new_bearing", FieldUnit::length, "of the new piece", &PatchCut::new_bearing));
};
template <>
struct FieldsOf<PatchStay> {
    static constexpr auto list =
        field_list(field("piece", FieldUnit::count, "index of the old piece", &PatchStay::piece),
                   field("spaces", FieldUnit::count, "that it bridges", &PatchStay::spaces),
                   field("area", FieldUnit::area, "of what stays", &PatchStay::area),
                   field("outline", FieldUnit::length, "corners as it lies", &PatchStay::outline),
                   field("cutouts", FieldUnit::length, "outlines of openings within it", &PatchStay::cutouts));
};
template <>
struct FieldsOf<PatchPiece> {
    static constexpr auto list =
        field_list(field("lane", FieldUnit::count, "its lane", &PatchPiece::lane),
                   field("replaces", FieldUnit::count, "old pieces in whose place it goes", &PatchPiece::replaces),
                   field("length", FieldUnit::length, "cut size along the strength axis", &PatchPiece::length),
                   field("width", FieldUnit::length, "cut size across it", &PatchPiece::width),
                   field("whole", FieldUnit::none, "a full sheet", &PatchPiece::whole),
                   field("slanted", FieldUnit::none, "cut to the outline after length x width", &PatchPiece::slanted),
                   field("spaces", FieldUnit::count, "that it bridges", &PatchPiece::spaces),
                   field("area", FieldUnit::area, "as it lies", &PatchPiece::area),
                   field("outline", FieldUnit::length, "corners as it lies", &PatchPiece::outline),
                   field("cutouts", FieldUnit::length, "outlines of openings within it", &PatchPiece::cutouts));
};
template <>
struct FieldsOf<PatchFinding> {
    static constexpr auto list =
        field_list(field("code", FieldUnit::none, "what was found", &PatchFinding::code),
                   field("piece", FieldUnit::count, "index of the new piece", &PatchFinding::piece),
                   field("place", FieldUnit::length, "where", &PatchFinding::place),
                   field("measured", FieldUnit::length, "how much", &PatchFinding::measured),
                   field("limit", FieldUnit::length, "the limit it passes", &PatchFinding::limit),
                   field("block", FieldUnit::none, "what would carry it, null for none", &PatchFinding::block));
};
template <>
struct FieldsOf<SheetPatch> {
    static constexpr auto list =
        field_list(field("damaged", FieldUnit::count, "old pieces that are touched", &SheetPatch::damaged),
                   field("whole_out", FieldUnit::count, "those that come out whole", &SheetPatch::whole_out),
                   field("taken_out", FieldUnit::area, "of old pieces", &SheetPatch::taken_out),
                   field("put_in", FieldUnit::area, "of new pieces", &SheetPatch::put_in),
                   field("gaps", FieldUnit::area, "new ones, at the cuts", &SheetPatch::gaps),
                   field("closed", FieldUnit::area, "old gaps that a new piece bridges", &SheetPatch::closed),
                   field("cuts", FieldUnit::none, "cuts across old pieces", &SheetPatch::cuts),
                   field("stays", FieldUnit::none, "what stays of cut pieces", &SheetPatch::stays),
                   field("pieces", FieldUnit::none, "pieces to put in", &SheetPatch::pieces),
                   field("blocks", FieldUnit::none, "blocks to add", &SheetPatch::blocks),
                   field("findings", FieldUnit::none, "what is wrong where", &SheetPatch::findings));
};

inline void find_faults(const PatchPlan& plan, const Path& path, Faults& faults) {
    find_faults(plan.sheets, Path{path, "sheets"}, faults);
    if (plan.least_spaces < 1 || plan.least_spaces > 100) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "least_spaces"}.text(),
                               std::to_string(plan.least_spaces), "1 to 100 spaces"});
    }
}
inline void find_faults(const std::vector<DamagedArea>& areas, const Path& path, Faults& faults) {
    const Length most = Length::from_inches(length_limit_in);
    for (std::size_t i = 0; i < areas.size(); ++i) {
        const Path area{path, i};
        require_within(areas[i].low.along, -most, most, Path{area, "low.along"}, faults);
        require_within(areas[i].low.up, -most, most, Path{area, "low.up"}, faults);
        require_within(areas[i].high.along, areas[i].low.along, most, Path{area, "high.along"}, faults);
        require_within(areas[i].high.up, areas[i].low.up, most, Path{area, "high.up"}, faults);
    }
}

}  // namespace eavewright
