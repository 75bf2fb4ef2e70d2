// SPDX-License-Identifier: BSL-1.0
#pragma once

// Every screw of ribbed panels has a place. Counted, the places are `count_screws`; both walk the same rows, ribs and laps.
//
//      rib       rib       rib              one a rib: in the flat beside it, away from the rake begun at
//    __/\_o______/\_o______/\__             two a rib: on both sides of every rib, so one beside each rib of a flat
//    __/\_o____o_/\_o____o_/\__             three and more: equal spaces between those two
//
// The flat begins at a rib and ends at the next, so that the screws of a panel stand on its own cover: the one before its first
// rib is the neighbour's, the one before the neighbour's first rib is its own. A closing edge adds its screws to the flat
// beside it.

#include <eavewright/fastening/cut_panel_screws.hpp>
#include <eavewright/fastening/nail_spacing.hpp>
#include <eavewright/fastening/screw_pattern.hpp>
#include <eavewright/fastening/screws.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright {

/// One screw. Those in rows stand lane by lane; those of a lane's side lap follow all rows.
struct ScrewPlace {
    PlanePoint place;
    std::int32_t piece;     ///< index of the piece it goes through first; -1 in a side lap
    std::int32_t support;   ///< index of the support it goes into; -1 in a side lap
    std::int32_t side_lap;  ///< index of the side lap, -1 for one in a row
    ScrewUse use;
};
template <>
struct FieldsOf<ScrewPlace> {
    static constexpr auto list = field_list(
        field("place", FieldUnit::length, "on the plane", &ScrewPlace::place),
        field("piece", FieldUnit::count, "index of the piece, -1 in a side lap", &ScrewPlace::piece),
        field("support", FieldUnit::count, "index of the support, -1 in a side lap", &ScrewPlace::support),
        field("side_lap", FieldUnit::count, "index of the side lap, -1 for one in a row", &ScrewPlace::side_lap),
        field("use", FieldUnit::none, "what it is there for", &ScrewPlace::use));
};

namespace detail {
/// Calls `visit(along)` for the screws of a flat that begins at one rib and ends at the next, or at the panel's edge.
template <class Visit>
void for_screws_in_flat(Length from, Length to, int screws, Length beside, Visit visit) {
    const double way = to < from ? -1.0 : 1.0;
    const Length width = magnitude(to - from);
    if (screws == 1) {
        visit(from + shorter(beside, width / 2.0) * way);
    }
    const Length in = shorter(beside, width / 4.0);
    for (int i = 0; screws > 1 && i < screws; ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(screws - 1);
        visit(from + (in + (width - 2.0 * in) * share) * way);
    }
}

/// A flat of a lane: from a rib to the next, or between the panel's edge and a rib.
struct Flat {
    Length from;
    Length to;
    bool rib;     ///< it begins at a rib
    int closing;  ///< open sides that it lies at
};

/// The flats of a lane away from the rake begun at.
[[nodiscard]] inline std::vector<Flat> flats_of(const Panels& panels, const PanelPiece& piece) {
    const bool from_left = panels.start == StartCorner::eave_left;
    const Length near_edge = from_left ? piece.outline[0].along : piece.outline[1].along;
    const Length far_edge = from_left ? piece.outline[1].along : piece.outline[0].along;
    const std::vector<Length> ribs = ribs_of(panels, piece);
    std::vector<Flat> flats;
    if (ribs.empty() || magnitude(ribs[0] - near_edge) > count_tolerance) {
        flats.push_back({near_edge, ribs.empty() ? far_edge : ribs[0], false, 0});
    }
    for (std::size_t i = 0; i < ribs.size(); ++i) {
        flats.push_back({ribs[i], i + 1 < ribs.size() ? ribs[i + 1] : far_edge, true, 0});
    }
    const OpenSides open = open_sides_of(panels, piece.lane);
    flats[0].closing += open.first ? 1 : 0;
    flats[flats.size() - 1].closing += open.last ? 1 : 0;
    return flats;
}

inline void place_lane(const Panels& panels, const std::vector<SupportLine>& lines, const ScrewPattern& pattern,
                       const ScrewLane& lane, std::vector<RowUnder>& held, std::vector<ScrewPlace>& places) {
    const std::vector<Flat> flats = flats_of(panels, panels.pieces[lane.first_piece]);
    const auto hold = [&](const HeldRow& row) {
        for (const Flat& flat : flats) {
            const int by_rib = flat.rib ? row.screws.screws : 0;
            const int closing = flat.closing * pattern.closing_edge;
            int left = by_rib;
            const auto add = [&](Length along) {
                const ScrewUse use = left-- > 0 ? row.screws.use : ScrewUse::closing_edge;
                places.push_back({{along, lane.screw_up(lines[row.row], along, pattern.end_distance)},
                                  static_cast<std::int32_t>(row.piece),
                                  static_cast<std::int32_t>(row.row),
                                  -1,
                                  use});
            };
            const bool turned = flat.rib && by_rib == 0;  // with none for the rib, the closing one stays at its edge
            for_screws_in_flat(turned ? flat.to : flat.from, turned ? flat.from : flat.to, by_rib + closing,
                               pattern.beside_rib, add);
        }
    };
    for_held_rows(panels, lines, pattern, lane, held, hold, [](std::size_t, PlanePoint, Length) {});
}

/// Stitch screws of one stretch of a side lap.
inline void place_stitches(Length seam, Span lap, std::size_t side_lap, const ScrewPattern& pattern,
                           std::vector<ScrewPlace>& places) {
    const std::int64_t screws = stitches_in(lap, pattern);
    const Length between = lap.high - lap.low - 2.0 * pattern.stitch_edge;
    for (std::int64_t i = 0; i < screws; ++i) {
        const Length up = screws == 1 ? (lap.low + lap.high) / 2.0
                                      : lap.low + pattern.stitch_edge +
                                            between * (static_cast<double>(i) / static_cast<double>(screws - 1));
        places.push_back({{seam, up}, -1, -1, static_cast<std::int32_t>(side_lap), ScrewUse::stitch});
    }
}
}  // namespace detail

/// The place of every screw that `count_screws` counts for the same arguments. In a row a screw stands on the support's centre
/// or as near to it as the end distance allows, in the flat beside its rib; stitch screws stand in equal spaces on the line
/// where two covers meet. Faults as `count_screws`.
template <Surface surface>
[[nodiscard]] std::vector<ScrewPlace> screw_places(const Panels& panels, const Supports<surface>& supports,
                                                   const ScrewPattern& pattern = {}) {
    detail::require_screwable(panels, supports, pattern);
    std::vector<ScrewPlace> places;
    const std::vector<detail::ScrewLane> lanes = detail::screw_lanes(panels);
    std::vector<detail::RowUnder> held;
    for (const detail::ScrewLane& lane : lanes) {
        detail::place_lane(panels, supports.lines, pattern, lane, held, places);
    }
    std::size_t side_lap = 0;
    detail::for_side_laps(lanes, panels.start == StartCorner::eave_left, [&](Length seam, Span lap) {
        detail::place_stitches(seam, lap, side_lap++, pattern, places);
    });
    return places;
}

namespace detail {
/// The place of a screw beside a rib or an edge on the row that holds it: where the lane has no steel on that row there, as at
/// a slanted end, the rib itself.
[[nodiscard]] inline PlanePoint beside_or_at(const CutPanels& panels, const CutScrewLane& lane, const SupportLine& line,
                                             PlanePoint held, Length along, Length end_distance) {
    for (const Span& steel : steel_spans(panels, lane, along)) {
        const RibHold hold = rib_hold(steel, line, along, end_distance);
        if (hold.margin > no_length && runs_at(line.stretches, along)) {
            return {along, hold.up};
        }
    }
    return held;
}

inline void place_cut_lane(const CutPanels& panels, const std::vector<SupportLine>& lines, const ScrewPattern& pattern,
                           const CutScrewLane& lane, const CutScrewLane* next, std::vector<ScrewPlace>& places) {
    const double away = panels.start == StartCorner::eave_left ? 1.0 : -1.0;
    std::vector<Length> nearest(lines.size(), Length::from_inches(-length_limit_in));
    const auto add = [&](std::size_t row, std::size_t piece, PlanePoint held, Length along, ScrewUse use) {
        places.push_back({beside_or_at(panels, lane, lines[row], held, along, pattern.end_distance),
                          static_cast<std::int32_t>(piece), static_cast<std::int32_t>(row), -1, use});
    };
    const std::vector<Length> ribs = cut_ribs(panels, lane);
    for (std::size_t i = 0; i < ribs.size(); ++i) {
        const Length past = away > 0.0 ? lane.right : lane.left;
        const Length to = i + 1 < ribs.size() ? ribs[i + 1] : past;
        for_held_ribs(panels, lines, pattern, lane, ribs[i], nearest, [&](const HeldRib& rib) {
            for_screws_in_flat(ribs[i], to, rib.screws.screws, pattern.beside_rib,
                               [&](Length along) { add(rib.row, rib.piece, rib.place, along, rib.screws.use); });
        });
    }
    for_closing_sides(
        panels, lines, pattern, lane, next, [&](std::size_t row, std::size_t piece, PlanePoint side, bool to_right) {
            for (int i = 0; i < pattern.closing_edge; ++i) {
                const Length in = pattern.beside_rib * (static_cast<double>(i + 1) * 0.5);
                add(row, piece, side, to_right ? side.along + in : side.along - in, ScrewUse::closing_edge);
            }
        });
}
}  // namespace detail

/// The same of panels of any outline. Screws at a closing edge stand half the distance beside a rib in from it. Where a flat
/// has no steel on a row, as at a slanted end, its screw stands on the rib or the edge that the count found there.
template <Surface surface>
[[nodiscard]] std::vector<ScrewPlace> screw_places(const CutPanels& panels, const Supports<surface>& supports,
                                                   const ScrewPattern& pattern = {}) {
    detail::require_screwable(panels, supports, pattern);
    std::vector<ScrewPlace> places;
    const std::vector<detail::CutScrewLane> lanes = detail::cut_screw_lanes(panels);
    for (std::size_t i = 0; i < lanes.size(); ++i) {
        detail::place_cut_lane(panels, supports.lines, pattern, lanes[i], detail::next_lane(lanes, i), places);
    }
    for (std::size_t i = 0; i + 1 < lanes.size(); ++i) {
        if (const detail::CutScrewLane* next = detail::next_lane(lanes, i)) {
            detail::for_lap_stretches(panels, lanes[i], *next, [&](Length seam, Span lap) {
                detail::place_stitches(seam, lap, i, pattern, places);
            });
        }
    }
    return places;
}

/// The same on purlin rows.
[[nodiscard]] inline std::vector<ScrewPlace> screw_places(const Panels& panels, const PurlinRows& rows,
                                                          const ScrewPattern& pattern = {}) {
    return screw_places(panels, supports_of(rows), pattern);
}
[[nodiscard]] inline std::vector<ScrewPlace> screw_places(const CutPanels& panels, const PurlinRows& rows,
                                                          const ScrewPattern& pattern = {}) {
    return screw_places(panels, supports_of(rows), pattern);
}

}  // namespace eavewright
