// SPDX-License-Identifier: BSL-1.0
#pragma once

// Every nail of every sheet has a place. Counted, the places are `count_nails`; both stand on the same nail lines and spacing.
//
// A line follows its support's centre, and keeps the edge distance from the piece it nails: along the support as the count
// does, and in again from a leaning edge until it is kept square to that edge too.
//
// Where two pieces meet end to end on one support, their rows stand on either side of the joint:
//
//        :  o     o     o     o   :      upper piece: begins half a space late, ends at its corner
//     ===:========================:===   joint: twice the edge distance and the gap from row to row
//        :o     o     o     o     :      lower piece: begins at its corner, ends half a space soon
//
// Each keeps as many nails as it has alone, in spaces a little shorter, and every nail stands half a space from the
// neighbour's nearest. Half a space is the most that two rows can be apart along one support.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright {

/// One nail. They stand piece by piece, support by support, in the direction of the supports' run.
struct NailPlace {
    PlanePoint place;
    std::int32_t piece;    ///< index of the sheet piece
    std::int32_t support;  ///< index of the support
    std::int32_t area;     ///< index of the area whose pattern it has, `base_area` for the base
    bool edge;             ///< on a support under an end of its piece
};
template <>
struct FieldsOf<NailPlace> {
    static constexpr auto list =
        field_list(field("place", FieldUnit::length, "on the plane", &NailPlace::place),
                   field("piece", FieldUnit::count, "index of the piece", &NailPlace::piece),
                   field("support", FieldUnit::count, "index of the support", &NailPlace::support),
                   field("area", FieldUnit::count, "index of the pattern's area, -1 for the base", &NailPlace::area),
                   field("edge", FieldUnit::none, "on a support under an end of its piece", &NailPlace::edge));
};

namespace detail {
/// How far a line square to an axis runs inside a piece on either side of a place, and how much further in than a distance
/// a point of the line stands that keeps it square to the edge there. Steep edges are sides, kept along the support; others
/// are ends, kept up and down; 0 on the line that leaves an edge to the other, which meets it too.
struct RoomInside {
    Length low;
    Length high;
    double at_low;
    double at_high;

    /// `at`, or as near to it as keeps `distance` from both edges; midway where there is no room for both.
    [[nodiscard]] Length keep(Length at, Length distance) const {
        const Length lowest = low + distance * at_low;
        const Length highest = high - distance * at_high;
        return highest < lowest ? low + (high - low) * (at_low / (at_low + at_high))
                                : longer(lowest, shorter(highest, at));
    }
};

/// The room around `place` along the axis square to `across`, between the nearest edges that the line crosses; `whole` where
/// it crosses none.
[[nodiscard]] inline RoomInside room_inside(const Rings& rings, Axis across, PlanePoint place, Span whole) {
    const bool level = across == Axis::up;
    const Cut cut{across, level ? place.up : place.along, true};
    const Length at = level ? place.along : place.up;
    const double steepest = level ? 1.0 + 1e-9 : 1.0 - 1e-9;  // an edge that is both is a side
    RoomInside room{whole.low, whole.high, 1.0, 1.0};
    bool has_low = false;
    bool has_high = false;
    std::size_t from = 0;
    for (const std::size_t end : rings.ends) {
        for (std::size_t i = from; i < end; ++i) {
            const PlanePoint a = rings.points[i];
            const PlanePoint b = rings.points[i + 1 == end ? from : i + 1];
            if ((cut.side(a) >= 0.0) == (cut.side(b) >= 0.0)) {
                continue;
            }
            const PlanePoint meets = cut.meet(a, b);
            const Length met = level ? meets.along : meets.up;
            const double lean = level ? (b.along - a.along) / (b.up - a.up) : (b.up - a.up) / (b.along - a.along);
            const bool other_meets =
                level ? (a.along > place.along) != (b.along > place.along) : (a.up > place.up) != (b.up > place.up);
            const double square = std::fabs(lean) <= steepest || !other_meets ? std::sqrt(1.0 + lean * lean) : 0.0;
            if (met <= at && (!has_low || met > room.low)) {
                room.low = met;
                room.at_low = square;
                has_low = true;
            }
            if (met >= at && (!has_high || met < room.high)) {
                room.high = met;
                room.at_high = square;
                has_high = true;
            }
        }
        from = end;
    }
    return room;
}

/// Places of nails on one piece.
class PieceOfNails {
public:
    void take(const PieceToNail& piece) {
        square_ = piece.square;
        if (!square_) {
            rings_ = rings_of(piece.part.outline, piece.part.cutouts);
        }
    }

    /// Where a nail that the line has at `along` stands.
    [[nodiscard]] PlanePoint place(const NailLine& line, const NailSupport& support, Length along,
                                   Length edge_distance) const {
        const Length centre = support.centre_at(along);
        if (square_) {
            return {along, kept_inside(line.reach, centre, edge_distance)};
        }
        PlanePoint place{along, line.up};
        place.up = room_inside(rings_, Axis::along, place, line.reach).keep(centre, edge_distance);
        for (int turn = 0; turn < 4; ++turn) {  // what moves it off one edge may bring it nearer to another
            const PlanePoint before = place;
            place.along = room_inside(rings_, Axis::up, place, line.across).keep(place.along, edge_distance);
            place.up = room_inside(rings_, Axis::along, place, line.reach).keep(place.up, edge_distance);
            if (place == before) {
                break;
            }
        }
        return place;
    }

private:
    bool square_ = false;
    Rings rings_;
};

/// On which supports each piece meets its neighbours end to end.
struct SharedSupports {
    std::vector<std::int32_t> below;  ///< under its lower end; -1 for none
    std::vector<std::int32_t> above;

    [[nodiscard]] NailShift shift_of(std::size_t piece, std::size_t support) const {
        const auto here = static_cast<std::int32_t>(support);
        return below[piece] == here   ? NailShift::begins_late
               : above[piece] == here ? NailShift::ends_soon
                                      : NailShift::none;
    }
};

/// Of two pieces that meet end to end, the index of the one nearer to where the lane frame begins, then the other.
struct PiecesOfJoint {
    std::size_t lower;
    std::size_t upper;
};
[[nodiscard]] inline PiecesOfJoint pieces_of(const Sheets& sheets, const EndJoint& joint) {
    const auto low = [&](std::size_t piece) {
        const Extent extent = extent_of(sheets.pieces[piece].outline);
        return sheets.run == SupportRun::along_eave ? extent.low.up : extent.low.along;
    };
    return low(joint.first) < low(joint.second) ? PiecesOfJoint{joint.first, joint.second}
                                                : PiecesOfJoint{joint.second, joint.first};
}

[[nodiscard]] inline SharedSupports shared_supports(const Sheets& sheets) {
    SharedSupports shared{std::vector<std::int32_t>(sheets.pieces.size(), -1),
                          std::vector<std::int32_t>(sheets.pieces.size(), -1)};
    for (const EndJoint& joint : sheets.joints) {
        if (joint.support) {
            const PiecesOfJoint pieces = pieces_of(sheets, joint);
            shared.above[pieces.lower] = static_cast<std::int32_t>(*joint.support);
            shared.below[pieces.upper] = static_cast<std::int32_t>(*joint.support);
        }
    }
    return shared;
}

[[nodiscard]] inline std::vector<NailPlace> nail_places_on(const Sheets& sheets, const NailGround& ground) {
    const SharedSupports shared = shared_supports(sheets);
    const Length edge_distance = ground.base.edge_distance;
    std::vector<NailPlace> places;
    NailSpacing spacing;
    PieceOfNails nailed;
    std::size_t taken = sheets.pieces.size();
    for_nail_lines(sheets, ground, [&](std::size_t piece, const PieceToNail& to_nail, const NailLine& line) {
        if (piece != taken) {
            nailed.take(to_nail);
            taken = piece;
        }
        space_line(ground, line, spacing);
        const std::int64_t nails = nails_in(line, spacing, edge_distance);
        const NailSupport& support = ground.supports[line.support];
        for_nails_in(spacing, nails, shared.shift_of(piece, line.support), [&](Length along) {
            const PlanePoint place = nailed.place(line, support, along, edge_distance);
            places.push_back({ground.frame.to_plane(place), static_cast<std::int32_t>(piece),
                              static_cast<std::int32_t>(line.support), spacing.area_at(along), line.at_end});
        });
    });
    return places;
}
}  // namespace detail

/// The place of every nail that `count_nails` counts for the same arguments, on the plane of the sheets. Spaces, measured in
/// the direction of the support's run, are nowhere above the pattern's. A nail stands on its support's centre or as near to it
/// as the edge distance from its piece's ends allows; where too little of a crooked support lies under the piece, and beside
/// the corner of an opening, one may miss support or edge distance: `judge_nails` finds it.
/// Faults as `count_nails`.
template <Surface surface>
[[nodiscard]] std::vector<NailPlace> nail_places(const Sheets& sheets, const Supports<surface>& supports,
                                                 const NailPattern& pattern) {
    require_sound(pattern, "nails");
    return detail::nail_places_on(sheets, detail::nail_ground(sheets, supports, pattern));
}

/// The same by zone. A line is straight from end to end in telling which areas it crosses.
template <Surface surface>
[[nodiscard]] std::vector<NailPlace> nail_places(const Sheets& sheets, const Supports<surface>& supports,
                                                 const ZonedNailPattern& pattern) {
    require_sound(pattern, "nails");
    return detail::nail_places_on(sheets, detail::nail_ground(sheets, supports, pattern));
}

/// The same on purlin rows.
[[nodiscard]] inline std::vector<NailPlace> nail_places(const Sheets& sheets, const PurlinRows& rows,
                                                        const NailPattern& pattern) {
    return nail_places(sheets, supports_of(rows), pattern);
}
[[nodiscard]] inline std::vector<NailPlace> nail_places(const Sheets& sheets, const PurlinRows& rows,
                                                        const ZonedNailPattern& pattern) {
    return nail_places(sheets, supports_of(rows), pattern);
}

/// Places counted as `count_nails` counts, of as many supports and pieces.
[[nodiscard]] inline NailCount count_places(const std::vector<NailPlace>& places, std::size_t supports,
                                            std::size_t pieces) {
    NailCount count{static_cast<std::int64_t>(places.size()), std::vector<std::int64_t>(supports, 0),
                    std::vector<PieceNails>(pieces, PieceNails{0, 0})};
    for (const NailPlace& nail : places) {
        PieceNails& piece = count.by_piece[static_cast<std::size_t>(nail.piece)];
        (nail.edge ? piece.edge : piece.field) += 1;
        count.by_row[static_cast<std::size_t>(nail.support)] += 1;
    }
    return count;
}

}  // namespace eavewright
