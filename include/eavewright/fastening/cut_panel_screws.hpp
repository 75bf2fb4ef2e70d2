// SPDX-License-Identifier: BSL-1.0
#pragma once

// Screws in panels of any outline: rib by rib, on the supports that really lie under each rib.

#include <eavewright/fastening/screws.hpp>
#include <eavewright/framing/purlin_row.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
/// Lines are looked at this far inside a panel's side, where its outline has crossings.
inline constexpr Length inside_by = Length::from_inches(1e-6);

/// The pieces of one lane, and the stock that they are cut from.
struct CutScrewLane {
    std::int32_t number;
    std::vector<std::size_t> pieces;
    Length stock_left;
    Length left;
    Length right;
};

[[nodiscard]] inline std::vector<CutScrewLane> cut_screw_lanes(const CutPanels& panels) {
    std::vector<CutScrewLane> lanes;
    for (std::size_t i = 0; i < panels.pieces.size(); ++i) {
        const CutPanel& piece = panels.pieces[i];
        const Extent extent = extent_of(piece.part.outline);
        if (lanes.empty() || lanes.back().number != piece.lane) {
            lanes.push_back({piece.lane, {}, extent.low.along - piece.out, extent.low.along, extent.high.along});
        }
        lanes.back().pieces.push_back(i);
        lanes.back().left = shorter(lanes.back().left, extent.low.along);
        lanes.back().right = longer(lanes.back().right, extent.high.along);
    }
    return lanes;
}

/// Where the steel of a lane lies on the line up the slope at `along`; pieces that lap are one.
[[nodiscard]] inline std::vector<Span> steel_spans(const CutPanels& panels, const CutScrewLane& lane, Length along) {
    std::vector<Span> spans;
    for (const std::size_t i : lane.pieces) {
        const PlanePart& part = panels.pieces[i].part;
        for (const Span& span : up_spans(part.outline, part.cutouts, along)) {
            if (!spans.empty() && span.low <= spans.back().high + count_tolerance) {
                spans.back().high = longer(spans.back().high, span.high);
            } else {
                spans.push_back(span);
            }
        }
    }
    return spans;
}

/// Ribs that a lane's stock has, from its first lap to short of the next panel's, as far as the lane reaches.
[[nodiscard]] inline std::vector<Length> cut_ribs(const CutPanels& panels, const CutScrewLane& lane) {
    const std::int64_t spaces = rib_spaces(panels.panel);
    const Length spacing = panels.panel.cover / static_cast<double>(spaces);
    const bool from_left = panels.start == StartCorner::eave_left;
    std::vector<Length> places;
    for (std::int64_t k = 0; k < spaces; ++k) {
        const Length off = spacing * static_cast<double>(k);
        const Length at = from_left ? lane.stock_left + off : lane.stock_left + panels.panel.cover - off;
        const Length into = from_left ? at - lane.left : lane.right - at;
        if (into >= -count_tolerance && into < lane.right - lane.left - count_tolerance) {
            places.push_back(longer(lane.left + inside_by, shorter(lane.right - inside_by, at)));
        }
    }
    return places;
}

[[nodiscard]] inline bool laps_on(const CutPanels& panels, std::int32_t lane, std::size_t row) {
    return std::any_of(panels.end_laps.begin(), panels.end_laps.end(), [&](const PanelEndLap& lap) {
        return lap.support == row && panels.pieces[lap.upper].lane == lane;
    });
}

/// The place nearest to a support's centre that keeps the end distance.
[[nodiscard]] inline RibHold rib_hold(Span steel, const SupportLine& line, Length along, Length end_distance) {
    const Length centre = up_at(line.centreline, along);
    const Length up = longer(steel.low + end_distance, shorter(steel.high - end_distance, centre));
    const bool room = steel.high - steel.low >= 2.0 * end_distance - count_tolerance;
    return {up, room ? line.width / 2.0 - magnitude(up - centre) : -line.width};
}

/// The topmost piece of a lane at a place: at an end lap the upper one's.
[[nodiscard]] inline std::size_t cut_piece_at(const CutPanels& panels, const CutScrewLane& lane, PlanePoint place) {
    std::size_t found = lane.pieces.front();
    for (const std::size_t i : lane.pieces) {
        const PlanePart& part = panels.pieces[i].part;
        for (const Span& span : up_spans(part.outline, part.cutouts, place.along)) {
            if (span.low - count_tolerance <= place.up && place.up <= span.high + count_tolerance) {
                found = i;
            }
        }
    }
    return found;
}

/// One row that holds a rib: how many screws, where the rib is, and the piece they go through first.
struct HeldRib {
    std::size_t row;
    PerRib screws;
    std::size_t piece;
    PlanePoint place;
};

/// Calls `hold(HeldRib)` for every row that holds a rib of a lane: each stretch of steel has its lowest and its topmost row.
/// `nearest` keeps the best margin of each row.
template <class Hold>
void for_held_ribs(const CutPanels& panels, const std::vector<SupportLine>& lines, const ScrewPattern& pattern,
                   const CutScrewLane& lane, Length along, std::vector<Length>& nearest, Hold hold) {
    for (const Span& steel : steel_spans(panels, lane, along)) {
        std::vector<std::size_t> held;
        for (std::size_t row = 0; row < lines.size(); ++row) {
            if (!runs_at(lines[row].stretches, along)) {
                continue;
            }
            const Length margin = rib_hold(steel, lines[row], along, pattern.end_distance).margin;
            nearest[row] = longer(nearest[row], margin);
            if (margin > no_length) {
                held.push_back(row);
            }
        }
        for (std::size_t i = 0; i < held.size(); ++i) {
            const std::size_t row = held[i];
            const PlanePoint place{along, rib_hold(steel, lines[row], along, pattern.end_distance).up};
            hold(HeldRib{row, per_rib(pattern, laps_on(panels, lane.number, row), i == 0, i + 1 == held.size()),
                         cut_piece_at(panels, lane, place), place});
        }
    }
}

/// Whether a side of the piece runs straight up the slope through a place: no slanted end.
[[nodiscard]] inline bool is_side(const PlanePart& part, PlanePoint place) {
    const auto runs_there = [&](const std::vector<PlanePoint>& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const PlanePoint a = ring[i];
            const PlanePoint b = ring[(i + 1) % ring.size()];
            if (magnitude(a.along - b.along) <= inside_by && magnitude(a.along - place.along) <= inside_by &&
                shorter(a.up, b.up) <= place.up && place.up <= longer(a.up, b.up)) {
                return true;
            }
        }
        return false;
    };
    return runs_there(part.outline) || std::any_of(part.cutouts.begin(), part.cutouts.end(), runs_there);
}

/// Calls `visit(along, to_right)` for the sides of one piece at a level that no neighbour's lap holds down, with the way to
/// its steel.
template <class Visit>
void for_open_sides(const CutPanels& panels, const CutScrewLane& lane, const CutPanel& piece, Length up,
                    const CutScrewLane* next, Visit visit) {
    const bool from_left = panels.start == StartCorner::eave_left;
    const bool opens =
        lane.number == 0 && panels.lanes > 1 && panels.first_cover + count_tolerance < panels.panel.cover;
    const Length far_side = from_left ? lane.right : lane.left;
    const Length first_side = from_left ? lane.left : lane.right;
    for (const Span& span : along_spans(piece.part.outline, piece.part.cutouts, up)) {
        for (const bool to_right : {true, false}) {
            const Length along = to_right ? span.low : span.high;
            if (!is_side(piece.part, {along, up})) {
                continue;
            }
            bool open = true;
            if (magnitude(along - first_side) <= inside_by) {
                open = opens;
            } else if (magnitude(along - far_side) <= inside_by && next != nullptr) {
                const Length beyond = from_left ? far_side + inside_by : far_side - inside_by;
                for (const Span& steel : steel_spans(panels, *next, beyond)) {
                    open = open && !(steel.low - count_tolerance <= up && up <= steel.high + count_tolerance);
                }
            }
            if (open) {
                visit(along, to_right);
            }
        }
    }
}

/// Calls `visit(row, piece, place, to_right)` for every place where a row crosses a side of a lane that closes.
template <class Visit>
void for_closing_sides(const CutPanels& panels, const std::vector<SupportLine>& lines, const ScrewPattern& pattern,
                       const CutScrewLane& lane, const CutScrewLane* next, Visit visit) {
    for (const std::size_t i : lane.pieces) {
        const CutPanel& piece = panels.pieces[i];
        const Extent extent = extent_of(piece.part.outline);
        const Length middle = (extent.low.along + extent.high.along) / 2.0;
        for (std::size_t row = 0; row < lines.size(); ++row) {
            const RibHold place = rib_hold({extent.low.up, extent.high.up}, lines[row], middle, pattern.end_distance);
            const bool lies_under =
                std::any_of(panels.end_laps.begin(), panels.end_laps.end(),
                            [&](const PanelEndLap& lap) { return lap.lower == i && lap.support == row; });
            if (!(place.margin > no_length) || lies_under || !runs_at(lines[row].stretches, middle)) {
                continue;
            }
            for_open_sides(panels, lane, piece, place.up, next, [&](Length along, bool to_right) {
                visit(row, i, PlanePoint{along, place.up}, to_right);
            });
        }
    }
}

/// Calls `visit(seam, span)` for every stretch of the lap between two lanes where both have steel.
template <class Visit>
void for_lap_stretches(const CutPanels& panels, const CutScrewLane& a, const CutScrewLane& b, Visit visit) {
    const bool from_left = panels.start == StartCorner::eave_left;
    const Length seam = from_left ? a.right : a.left;
    const Length in_a = from_left ? seam - inside_by : seam + inside_by;
    const Length in_b = from_left ? seam + inside_by : seam - inside_by;
    for (const Span& one : steel_spans(panels, a, in_a)) {
        for (const Span& two : steel_spans(panels, b, in_b)) {
            const Span lap{longer(one.low, two.low), shorter(one.high, two.high)};
            if (lap.high - lap.low > 10.0 * inside_by) {
                visit(seam, lap);
            }
        }
    }
}

/// Refuses what cannot be screwed.
template <Surface surface>
void require_screwable(const CutPanels& panels, const Supports<surface>& supports, const ScrewPattern& pattern) {
    require_sound(pattern, "screws");
    require_sound(supports, "supports");
    require_sound(panels.panel, "panels.panel");
    if (supports.run != SupportRun::along_eave) {
        throw FaultError{Fault{FaultCode::contradiction, "supports.run", std::string{name_of(supports.run)},
                               "supports that run along the eave, across the ribs"}};
    }
}

/// The lane that laps lane `i`; none where a lane between them is missing.
[[nodiscard]] inline const CutScrewLane* next_lane(const std::vector<CutScrewLane>& lanes, std::size_t i) {
    return i + 1 < lanes.size() && lanes[i + 1].number == lanes[i].number + 1 ? &lanes[i + 1] : nullptr;
}
}  // namespace detail

/// Counts the screws of panels of any outline. Each rib is taken by itself: on every stretch of its steel a row counts where
/// the support runs under it and the nearest place that keeps the end distance still lies on it; the lowest and the topmost of
/// them are its eave and its ridge, at a slanted end as well. A side without a neighbour's lap, at a rake or an opening, is a
/// closing edge in every row that it crosses. Stitch screws stand in each side lap where both neighbours have steel. A row
/// that runs under steel and holds no screw at all is found.
///
/// What holds the cap or the metal itself down along a hip or valley is no part of it, nor is an edge that ends on nothing:
/// blocking under slanted ends is the framing's. Throws as for four-sided planes.
template <Surface surface>
[[nodiscard]] ScrewCount count_screws(const CutPanels& panels, const Supports<surface>& supports,
                                      const ScrewPattern& pattern = {}) {
    detail::require_screwable(panels, supports, pattern);
    const std::vector<SupportLine>& lines = supports.lines;
    ScrewCount count{.total = 0,
                     .in_rows = 0,
                     .stitch = 0,
                     .by_row = std::vector<std::int64_t>(lines.size(), 0),
                     .by_piece = std::vector<std::int64_t>(panels.pieces.size(), 0),
                     .by_side_lap = {},
                     .unverified = pattern.unverified,
                     .findings = {}};
    std::vector<Length> nearest(lines.size(), Length::from_inches(-length_limit_in));
    const std::vector<detail::CutScrewLane> lanes = detail::cut_screw_lanes(panels);
    const auto add = [&](std::size_t row, std::size_t piece, int screws) {
        count.by_row[row] += screws;
        count.by_piece[piece] += screws;
        count.in_rows += screws;
    };
    for (std::size_t i = 0; i < lanes.size(); ++i) {
        const detail::CutScrewLane* next = detail::next_lane(lanes, i);
        for (const Length along : detail::cut_ribs(panels, lanes[i])) {
            detail::for_held_ribs(panels, lines, pattern, lanes[i], along, nearest,
                                  [&](const detail::HeldRib& rib) { add(rib.row, rib.piece, rib.screws.screws); });
        }
        detail::for_closing_sides(
            panels, lines, pattern, lanes[i], next,
            [&](std::size_t row, std::size_t piece, PlanePoint, bool) { add(row, piece, pattern.closing_edge); });
        if (i + 1 < lanes.size()) {
            count.by_side_lap.push_back(0);
        }
        if (next != nullptr) {
            detail::for_lap_stretches(panels, lanes[i], *next, [&](Length, Span lap) {
                count.by_side_lap.back() += detail::stitches_in(lap, pattern);
            });
            count.stitch += count.by_side_lap.back();
        }
    }
    for (std::size_t row = 0; row < lines.size(); ++row) {
        if (count.by_row[row] == 0) {
            count.findings.push_back(
                {ScrewFindingCode::row_past_panel, row, lines[row].centreline.front(), nearest[row], no_length});
        }
    }
    count.total = count.in_rows + count.stitch;
    return count;
}

/// The same on purlin rows.
[[nodiscard]] inline ScrewCount count_screws(const CutPanels& panels, const PurlinRows& rows,
                                             const ScrewPattern& pattern = {}) {
    return count_screws(panels, supports_of(rows), pattern);
}

}  // namespace eavewright
