// SPDX-License-Identifier: BSL-1.0
#pragma once

// A deck at the overhangs alone: its strips laid, and counted as one set of sheets on the slope.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/deck_strips.hpp>
#include <eavewright/tiling/sheets.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// What a deck at the overhangs alone changes about a slope. Its sheets stand with the slope's, strip by strip, each strip
/// beginning a lane of its own.
struct OverhangResult {
    std::vector<std::string> strips;        ///< eave, then left and right rake where these are decked
    std::vector<std::int32_t> first_lanes;  ///< lane that each strip begins with
    std::vector<std::size_t> dropped_rows;  ///< that drop along their whole length
    Length drop;                            ///< by the deck's thickness, square to the slope
    Length marks_lower;                     ///< how much lower a dropped row's mark on the chord lies
    bool rake_ends_drop;                    ///< the other rows drop past the frame lines
    std::vector<PlanePoint> steel;          ///< where steel lies straight on the purlins
};
template <>
struct FieldsOf<OverhangResult> {
    static constexpr auto list = field_list(
        field("strips", FieldUnit::none, "strips of deck", &OverhangResult::strips),
        field("first_lanes", FieldUnit::count, "lane that each strip begins with", &OverhangResult::first_lanes),
        field("dropped_rows", FieldUnit::count, "rows that drop along their whole length",
              &OverhangResult::dropped_rows),
        field("drop", FieldUnit::length, "they drop by this, square to the slope", &OverhangResult::drop),
        field("marks_lower", FieldUnit::length, "a dropped row's mark on the chord lies lower by this",
              &OverhangResult::marks_lower),
        field("rake_ends_drop", FieldUnit::none, "the other rows drop past the frame lines",
              &OverhangResult::rake_ends_drop),
        field("steel", FieldUnit::length, "outline of where steel lies straight on the purlins",
              &OverhangResult::steel));
};

namespace detail {
/// Sheets of one strip join those of the strips before: lanes and indexes count on, supports get the parent's index.
template <Surface surface>
void join_strip(const DeckStrip<surface>& strip, Sheets&& laid, Sheets& all) {
    const std::size_t before = all.pieces.size();
    for (SheetPiece& piece : laid.pieces) {
        piece.lane += all.lanes;
        all.pieces.push_back(std::move(piece));
    }
    for (EndJoint& joint : laid.joints) {
        joint.first += before;
        joint.second += before;
        if (joint.support) {
            joint.support = strip.parent_rows[*joint.support];
        }
        all.joints.push_back(joint);
    }
    for (Finding& finding : laid.findings) {
        finding.piece += before;
        all.findings.push_back(finding);
    }
    all.lanes += laid.lanes;
    all.laid += laid.laid;
    all.whole_sheets += laid.whole_sheets;
    all.closure.worst_lane = longer(all.closure.worst_lane, laid.closure.worst_lane);
    all.closure.across = longer(all.closure.across, laid.closure.across);
}

/// Nails of one strip, by the parent's rows.
template <Surface surface>
void join_nails(const DeckStrip<surface>& strip, const NailCount& count, NailCount& all) {
    all.total += count.total;
    for (std::size_t i = 0; i < count.by_row.size(); ++i) {
        all.by_row[strip.parent_rows[i]] += count.by_row[i];
    }
    for (const PieceNails& piece : count.by_piece) {
        all.by_piece.push_back(piece);
    }
}

/// Lays the strips. `rows` is how many rows the slope has; `sheets` and `nails` come empty.
template <Surface surface>
[[nodiscard]] OverhangResult lay_strips(const DeckStrips<surface>& strips, const SheetPlan& plan,
                                        const NailPattern& pattern, std::size_t rows, Sheets& sheets,
                                        NailCount& nails) {
    OverhangResult result{.strips = {},
                          .first_lanes = {},
                          .dropped_rows = strips.dropped_rows,
                          .drop = strips.drop,
                          .marks_lower = strips.marks_lower,
                          .rake_ends_drop = strips.rake_ends_drop,
                          .steel = strips.steel};
    nails.by_row.assign(rows, 0);
    for (const DeckStrip<surface>& strip : strips.strips) {
        Sheets laid = tile_strip(strip, plan);
        join_nails(strip, count_nails(laid, strip.supports, pattern), nails);
        result.strips.push_back(strip.name);
        result.first_lanes.push_back(sheets.lanes);
        join_strip(strip, sheets_in_parent(strip, std::move(laid)), sheets);
    }
    return result;
}
}  // namespace detail

}  // namespace eavewright
