// SPDX-License-Identifier: BSL-1.0
#pragma once

// The area of its sheet or panel that each fastener carries: half way to the next one along its support, and half way to the next support
// of the same piece, or to the piece's edge where there is no next.
//
//      ┌───────────┬───────────────┐
//      │  ·   ·   ·┆  ·   ·   ·   ·│  ← half way to the row above
//      o   o   o   o   o   o   o   o
//      │      ┊   ┊   area of one nail
//      └──────────────────────────────
//
// The areas of one rectangular piece add up to the piece.

#include <eavewright/fastening/nail_places.hpp>
#include <eavewright/fastening/screw_places.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace eavewright {

/// What one fastener carries.
struct CarriedArea {
    Length along_support;  ///< half way to its neighbours on the same support
    Length across;         ///< half way to the next supports of its piece
    Area area;
};

namespace detail {
/// Fasteners of one piece on one support: a run of the list.
struct FastenerRun {
    std::size_t first;
    std::size_t count;
    Length across;  ///< where they stand, across the supports, in the mean
    Length share;   ///< half way to the neighbours
};

[[nodiscard]] inline Length along_run(PlanePoint p, SupportRun run) {
    return run == SupportRun::along_eave ? p.along : p.up;
}
[[nodiscard]] inline Length across_run(PlanePoint p, SupportRun run) {
    return run == SupportRun::along_eave ? p.up : p.along;
}

/// What each of the sorted places between two ends has of the way: half of the spaces beside it.
[[nodiscard]] inline std::vector<Length> shares_between(const std::vector<Length>& places, Length low, Length high) {
    std::vector<Length> shares;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const Length from = i == 0 ? low : (places[i - 1] + places[i]) / 2.0;
        const Length to = i + 1 == places.size() ? high : (places[i] + places[i + 1]) / 2.0;
        shares.push_back(longer(no_length, to - from));
    }
    return shares;
}

/// Runs of one piece, from `first` on; each on one support, in the order of the supports.
template <class Place>
[[nodiscard]] std::vector<FastenerRun> runs_of_piece(const std::vector<Place>& nails, std::size_t first,
                                                     std::size_t last, SupportRun run) {
    std::vector<FastenerRun> runs;
    for (std::size_t i = first; i < last; ++i) {
        if (runs.empty() || nails[i].support != nails[i - 1].support) {
            runs.push_back({i, 0, no_length, no_length});
        }
        FastenerRun& here = runs[runs.size() - 1];
        here.across += across_run(nails[i].place, run);
        ++here.count;
    }
    for (FastenerRun& each : runs) {
        each.across /= static_cast<double>(each.count);
    }
    std::sort(runs.begin(), runs.end(), [](const FastenerRun& a, const FastenerRun& b) { return a.across < b.across; });
    return runs;
}

/// How far a piece reaches each way.
struct PieceReach {
    Span along;
    Span across;
};
[[nodiscard]] inline PieceReach reach_of(const std::vector<PlanePoint>& outline, SupportRun run) {
    const Extent extent = extent_of(outline);
    return {{along_run(extent.low, run), along_run(extent.high, run)},
            {across_run(extent.low, run), across_run(extent.high, run)}};
}

template <class Place>
void share_piece(const std::vector<Place>& nails, std::vector<FastenerRun>& runs, const PieceReach& reach,
                 SupportRun run, std::vector<CarriedArea>& areas) {
    std::vector<Length> places;
    for (const FastenerRun& each : runs) {
        places.push_back(each.across);
    }
    const std::vector<Length> across = shares_between(places, reach.across.low, reach.across.high);
    for (std::size_t r = 0; r < runs.size(); ++r) {
        places.clear();
        for (std::size_t i = 0; i < runs[r].count; ++i) {
            places.push_back(along_run(nails[runs[r].first + i].place, run));
        }
        std::vector<std::size_t> order(places.size());
        for (std::size_t i = 0; i < order.size(); ++i) {
            order[i] = i;
        }
        std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return places[a] < places[b]; });
        std::sort(places.begin(), places.end());
        const std::vector<Length> along = shares_between(places, reach.along.low, reach.along.high);
        for (std::size_t i = 0; i < order.size(); ++i) {
            areas[runs[r].first + order[i]] = {along[i], across[r], along[i] * across[r]};
        }
    }
}

/// `pieces` have an outline each; places with a piece below 0 carry nothing.
template <class Place, class Piece>
[[nodiscard]] std::vector<CarriedArea> share_out(const std::vector<Place>& places, const std::vector<Piece>& pieces,
                                                 SupportRun run) {
    std::vector<CarriedArea> areas(places.size(), CarriedArea{no_length, no_length, Area::from_value(0.0)});
    std::size_t first = 0;
    while (first < places.size()) {
        const std::int32_t piece = places[first].piece;
        std::size_t last = first;
        while (last < places.size() && places[last].piece == piece) {
            ++last;
        }
        if (piece >= 0 && static_cast<std::size_t>(piece) >= pieces.size()) {
            throw FaultError{Fault{FaultCode::contradiction, "places", "piece " + std::to_string(piece),
                                   "fasteners of these pieces"}};
        }
        if (piece >= 0) {
            std::vector<FastenerRun> runs = runs_of_piece(places, first, last, run);
            share_piece(places, runs, reach_of(pieces[static_cast<std::size_t>(piece)].outline, run), run, areas);
        }
        first = last;
    }
    return areas;
}
}  // namespace detail

/// The area that each nail carries, in the order of `nails`. Exact for rectangular pieces; a slanted piece is taken as the
/// rectangle around it, so that its nails carry rather more than less, and openings are not taken out. `nails` as
/// `nail_places` gives them for these sheets, piece by piece. Throws `FaultError` contradiction where one names a piece that
/// is not there.
[[nodiscard]] inline std::vector<CarriedArea> carried_areas(const std::vector<NailPlace>& nails, const Sheets& sheets) {
    return detail::share_out(nails, sheets.pieces, sheets.run);
}
namespace detail {
/// Along a row a panel hands its load on to its neighbour where they lap, so there the way is shared by all the screws of a row.
inline void share_rows(const std::vector<ScrewPlace>& screws, const Panels& panels, std::vector<CarriedArea>& areas) {
    Span reach{Length::from_inches(length_limit_in), Length::from_inches(-length_limit_in)};
    for (const PanelPiece& piece : panels.pieces) {
        const Extent extent = extent_of(piece.outline);
        reach = {shorter(reach.low, extent.low.along), longer(reach.high, extent.high.along)};
    }
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < screws.size(); ++i) {
        if (screws[i].piece >= 0) {
            order.push_back(i);
        }
    }
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return screws[a].support != screws[b].support ? screws[a].support < screws[b].support
                                                      : screws[a].place.along < screws[b].place.along;
    });
    std::vector<Length> places;
    for (std::size_t first = 0; first < order.size(); first += places.size()) {
        places.clear();
        for (std::size_t k = first; k < order.size() && screws[order[k]].support == screws[order[first]].support; ++k) {
            places.push_back(screws[order[k]].place.along);
        }
        const std::vector<Length> along = shares_between(places, reach.low, reach.high);
        for (std::size_t k = 0; k < along.size(); ++k) {
            CarriedArea& area = areas[order[first + k]];
            area = {along[k], area.across, along[k] * area.across};
        }
    }
}
}  // namespace detail

/// The same of screws in panels on supports along the eave, as `screw_places` gives them; half way to the next screw of the row,
/// on whichever panel. Stitch screws carry nothing: their area is 0. At an end lap the upper piece's screws hold both, and the lower piece's last row is taken to hold the lap alone
/// as well, so that its screws carry rather more than less.
[[nodiscard]] inline std::vector<CarriedArea> carried_areas(const std::vector<ScrewPlace>& screws,
                                                            const Panels& panels) {
    std::vector<CarriedArea> areas = detail::share_out(screws, panels.pieces, SupportRun::along_eave);
    detail::share_rows(screws, panels, areas);
    return areas;
}

}  // namespace eavewright
