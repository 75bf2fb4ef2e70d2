// SPDX-License-Identifier: BSL-1.0
#pragma once

// Places stacks on a slope: one over a frame line, from the middle outward, each on the lowest row that holds it.

#include <eavewright/fault.hpp>
#include <eavewright/framing/frame_faults.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/order/handling.hpp>
#include <eavewright/order/stack.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/areal_mass.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {
/// Size of a stack's footprint on the plane.
struct StackSize {
    Length along;
    Length up;
};

/// Whether a rectangle lies inside a convex outline and `clearance` away from each of its edges.
[[nodiscard]] inline bool stands_clear(const std::vector<PlanePoint>& outline, const std::vector<PlanePoint>& footprint,
                                       Length clearance) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[(i + 1) % outline.size()];
        const Length edge = hypotenuse(b.along - a.along, b.up - a.up);
        for (const PlanePoint& p : footprint) {
            const Area twice = (b.along - a.along) * (p.up - a.up) - (p.along - a.along) * (b.up - a.up);
            if (twice / edge + count_tolerance < clearance) {
                return false;
            }
        }
    }
    return true;
}

[[nodiscard]] inline std::vector<PlanePoint> stack_footprint(Length centre, Length lower, StackSize size) {
    const Length left = centre - size.along / 2.0;
    const Length right = centre + size.along / 2.0;
    return {{left, lower}, {right, lower}, {right, lower + size.up}, {left, lower + size.up}};
}

/// Lowest and highest centre of a row over a stretch of the eave.
[[nodiscard]] inline Span row_over(const SupportLine& row, Span along) {
    const Length left = up_at(row.centreline, along.low);
    const Length right = up_at(row.centreline, along.high);
    Span span{shorter(left, right), longer(left, right)};
    for (const PlanePoint& bend : row.centreline) {
        if (bend.along > along.low && bend.along < along.high) {
            span = {shorter(span.low, bend.up), longer(span.high, bend.up)};
        }
    }
    return span;
}

/// The rows that a footprint bears on by `least` or more, everywhere along it.
[[nodiscard]] inline std::vector<std::size_t> rows_under(const std::vector<SupportLine>& rows,
                                                         const std::vector<PlanePoint>& footprint, Length least) {
    std::vector<std::size_t> under;
    const Span along{footprint[0].along, footprint[1].along};
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const Span centre = row_over(rows[r], along);
        const Length half = rows[r].width / 2.0;
        const auto bearing = [&](Length at) {
            return shorter(at + half, footprint[2].up) - longer(at - half, footprint[0].up);
        };
        const Length poorer = shorter(bearing(centre.low), bearing(centre.high));
        if (poorer > no_length && poorer + count_tolerance >= least) {
            under.push_back(r);
        }
    }
    return under;
}

/// What one frame line offers: the place, or whether only rows were wanting.
struct StackOffer {
    std::optional<StackPlace> place;
    std::size_t most_rows;  ///< under any footprint with room, where there is no place
};

/// The lowest place over a frame: near the wall, where it is reached from below and the frames bend least.
[[nodiscard]] inline StackOffer lowest_place(const std::vector<PlanePoint>& outline,
                                             const std::vector<SupportLine>& rows, std::size_t frame, Length centre,
                                             StackSize size, const StackPlan& plan) {
    StackOffer offer{std::nullopt, 0};
    const Span along{centre - size.along / 2.0, centre + size.along / 2.0};
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const Length lower = row_over(rows[r], along).high - rows[r].width / 2.0 + plan.cleat;
        const std::vector<PlanePoint> footprint = stack_footprint(centre, lower, size);
        if (!stands_clear(outline, footprint, plan.clearance)) {
            continue;
        }
        std::vector<std::size_t> under = rows_under(rows, footprint, plan.least_bearing);
        if (under.empty() || under.front() != r) {
            continue;  // the cleat leaves too little of this row
        }
        if (under.size() >= plan.least_rows) {
            offer.place = StackPlace{.frame = frame,
                                     .row = r,
                                     .rows = std::move(under),
                                     .footprint = footprint,
                                     .pieces = 0,
                                     .mass = mass_from_pounds(0.0),
                                     .load = pressure_from_psf(0.0),
                                     .load_in_plan = pressure_from_psf(0.0)};
            return offer;
        }
        offer.most_rows = under.size() > offer.most_rows ? under.size() : offer.most_rows;
    }
    return offer;
}

/// Indexes of frames, the middle one first, then outward by turns.
[[nodiscard]] inline std::vector<std::size_t> middle_outward(std::size_t frames) {
    std::vector<std::size_t> order;
    const std::size_t middle = (frames - 1) / 2;
    for (std::size_t off = 0; order.size() < frames; ++off) {
        if (middle + off < frames) {
            order.push_back(middle + off);
        }
        if (off > 0 && off <= middle) {
            order.push_back(middle - off);
        }
    }
    return order;
}

/// All places, from the middle frame outward, none lying in another's way along the eave.
struct StackPlaces {
    std::vector<StackPlace> places;
    std::size_t most_rows;
};
[[nodiscard]] inline StackPlaces stack_places(const std::vector<PlanePoint>& outline,
                                              const std::vector<SupportLine>& rows, const FrameLines& frames,
                                              StackSize size, const StackPlan& plan) {
    StackPlaces all{{}, 0};
    for (const std::size_t frame : middle_outward(frames.centres.size())) {
        const Length centre = frames.centres[frame];
        bool taken = false;
        for (const StackPlace& other : all.places) {
            taken = taken || magnitude(centre - frames.centres[other.frame]) + count_tolerance < size.along;
        }
        if (taken) {
            continue;
        }
        const StackOffer offer = lowest_place(outline, rows, frame, centre, size, plan);
        if (offer.place) {
            all.places.push_back(*offer.place);
        }
        all.most_rows = offer.most_rows > all.most_rows ? offer.most_rows : all.most_rows;
    }
    return all;
}

/// Most pieces on one footprint: each adds its own layer to the load in plan.
[[nodiscard]] inline std::int64_t pieces_a_stack(const HandledPieces& pieces, const StackPlan& plan, Pitch pitch) {
    constexpr double rounding = 1e-12;  // relative, of two divisions: an exact fit counts as one
    const double each = pieces.layer.pounds_per_square_foot() / pitch.cosine();
    const double most = static_cast<double>(pieces.count);
    const double fit = each > 0.0 ? std::floor(psf(plan.load_limit) / each * (1.0 + rounding)) : most;
    return static_cast<std::int64_t>(fit < most ? fit : most);
}

/// Why there is no place at all.
[[nodiscard]] inline StackFinding why_no_place(const std::vector<PlanePoint>& outline, StackSize size,
                                               std::size_t most_rows, const StackPlan& plan) {
    const Extent extent = extent_of(outline);
    const Length along = extent.high.along - extent.low.along - 2.0 * plan.clearance;
    const Length up = extent.high.up - extent.low.up - 2.0 * plan.clearance;
    if (size.along > along + count_tolerance) {
        return {StackFindingCode::longer_than_room, inches(size.along), inches(longer(along, no_length))};
    }
    if (size.up > up + count_tolerance) {
        return {StackFindingCode::longer_than_room, inches(size.up), inches(longer(up, no_length))};
    }
    if (most_rows > 0) {
        return {StackFindingCode::too_few_rows, static_cast<double>(most_rows), static_cast<double>(plan.least_rows)};
    }
    return {StackFindingCode::no_place, 0.0, 1.0};
}

/// Spreads `count` pieces over the places evenly, whole ones, the first stacks taking what does not divide.
inline void fill_stacks(std::int64_t count, Mass each, Area footprint, Pitch pitch, std::vector<StackPlace>& places) {
    const auto stacks = static_cast<std::int64_t>(places.size());
    for (std::int64_t s = 0; s < stacks; ++s) {
        StackPlace& place = places[static_cast<std::size_t>(s)];
        place.pieces = count / stacks + (s < count % stacks ? 1 : 0);
        place.mass = each * static_cast<double>(place.pieces);
        place.load = pressure_from_psf(pounds(place.mass) / square_feet(footprint));
        place.load_in_plan = pressure_from_psf(psf(place.load) / pitch.cosine());
    }
}
}  // namespace detail

/// Stacks of pieces of one size on a four-sided plane: as few as the limit allows, filled evenly, one over a frame line,
/// from the middle outward, each at the lowest row that holds it with the clearance to every edge. A load per area in
/// plan is the greater one (by slope / run), so the load on the footprint itself lies within the limit too. Which side
/// of the ridge is loaded when is the caller's. Shown with `handling_caution`.
///
/// Throws `FaultError`: the first fault of an input; not_supported for another plane, one with openings, or supports that
/// run up the slope.
template <Surface surface>
[[nodiscard]] Stacks stack_pieces(const HandledPieces& pieces, const Plane<surface>& plane,
                                  const Supports<surface>& supports, const FrameLines& frames, const StackPlan& plan) {
    require_sound(plan, "stack");
    require_sound(pieces, "pieces");
    require_sound(frames, "frames");
    require_sound(supports, "supports");
    detail::require_four_sided(plane);
    if (supports.run != SupportRun::along_eave) {
        throw FaultError{Fault{FaultCode::not_supported, "supports.run", std::string{name_of(supports.run)},
                               std::string{name_of(SupportRun::along_eave)}}};
    }
    if (!plane.openings.empty()) {
        throw FaultError{Fault{FaultCode::not_supported, "plane.openings",
                               std::to_string(plane.openings.size()) + " openings", "a plane without openings"}};
    }
    const Area footprint = pieces.length * pieces.width;
    Stacks stacks{.each = pieces.layer * footprint,
                  .pieces_a_stack = detail::pieces_a_stack(pieces, plan, plane.pitch),
                  .stacks_needed = 0,
                  .places = {},
                  .on_ground = pieces.count,
                  .findings = {}};
    if (pieces.count == 0) {
        return stacks;
    }
    if (stacks.pieces_a_stack == 0) {
        stacks.findings.push_back({StackFindingCode::piece_too_heavy,
                                   pieces.layer.pounds_per_square_foot() / plane.pitch.cosine(), psf(plan.load_limit)});
        return stacks;
    }
    const bool along = plan.lie == StackLie::along_eave;
    const detail::StackSize size{along ? pieces.length : pieces.width, along ? pieces.width : pieces.length};
    detail::StackPlaces found = detail::stack_places(plane.outline, supports.lines, frames, size, plan);
    stacks.stacks_needed = (pieces.count + stacks.pieces_a_stack - 1) / stacks.pieces_a_stack;
    if (found.places.empty()) {
        stacks.findings.push_back(detail::why_no_place(plane.outline, size, found.most_rows, plan));
    }
    if (static_cast<std::int64_t>(found.places.size()) > stacks.stacks_needed) {
        found.places.erase(found.places.begin() + stacks.stacks_needed, found.places.end());
    }
    const std::int64_t room = static_cast<std::int64_t>(found.places.size()) * stacks.pieces_a_stack;
    const std::int64_t placed = room < pieces.count ? room : pieces.count;
    stacks.on_ground = pieces.count - placed;
    if (stacks.on_ground > 0) {
        stacks.findings.push_back({StackFindingCode::left_on_ground, static_cast<double>(stacks.on_ground), 0.0});
    }
    detail::fill_stacks(placed, stacks.each, footprint, plane.pitch, found.places);
    stacks.places = std::move(found.places);
    return stacks;
}

}  // namespace eavewright
