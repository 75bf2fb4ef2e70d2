// SPDX-License-Identifier: BSL-1.0
#pragma once

// A plane of any outline parted into lanes of panels, and lanes into pieces, before any of them is laid.

#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/tiling/panel_courses.hpp>
#include <eavewright/tiling/panel_ends.hpp>
#include <eavewright/tiling/panel_lengths.hpp>
#include <eavewright/tiling/panel_reach.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// What a plane's cut panels are laid from.
struct CutInput {
    const CutPanelPlan& plan;
    const std::vector<SupportLine>& lines;
    const std::vector<std::vector<PlanePoint>>& openings;
    Extent extent;  ///< of the plane
    std::vector<Length> edges;
};

/// One lane of cover.
struct CutLane {
    std::int32_t number;
    Length left;
    Length right;
    Length
        stock_left;  ///< left edge of the stock's cover: a first rip is cut on its rake side, the last on its far one
};

[[nodiscard]] inline std::vector<CutLane> cut_lanes(const CutInput& in) {
    std::vector<CutLane> lanes;
    const PanelPlan& plan = in.plan.panels;
    const bool from_left = plan.start == StartCorner::eave_left;
    for (std::size_t i = 0; i + 1 < in.edges.size(); ++i) {
        const Length left = from_left ? in.extent.low.along + in.edges[i] : in.extent.high.along - in.edges[i + 1];
        const Length right = from_left ? in.extent.low.along + in.edges[i + 1] : in.extent.high.along - in.edges[i];
        const bool first_rip = i == 0 && in.edges.size() > 2;  // full unless rips are balanced
        const Length stock_left = from_left == first_rip ? right - plan.panel.cover : left;
        lanes.push_back({static_cast<std::int32_t>(i), left, right, stock_left});
    }
    return lanes;
}

/// Parts of one lane, the lowest first, each with what stands in it.
struct LaneParts {
    CutLane lane;
    std::vector<PlanePart> parts;
};

[[nodiscard]] inline std::vector<LaneParts> lane_parts(const CutInput& in, const PanelReach& reach) {
    std::vector<LaneParts> result;
    const Rings rings = reach_rings(reach, in.openings);
    Rings kept;
    CutRoom room;
    for (const CutLane& lane : cut_lanes(in)) {
        LaneParts here{lane, {}};
        keep_span(rings, Axis::along, {lane.left, lane.right}, kept, room);
        add_parts(kept, here.parts);
        std::stable_sort(here.parts.begin(), here.parts.end(), [](const PlanePart& a, const PlanePart& b) {
            const PlanePoint low_a = extent_of(a.outline).low;
            const PlanePoint low_b = extent_of(b.outline).low;
            return low_a.up < low_b.up || (low_a.up == low_b.up && low_a.along < low_b.along);
        });
        result.push_back(std::move(here));
    }
    return result;
}

/// The overhang that lets the longest panel that stands on an eave come out at an increment, as on a four-sided plane.
/// Where that panel is lapped, or none stands on an eave, the aimed one.
[[nodiscard]] inline FittedLength fit_overhang(const CutInput& in, const PanelReach& reach,
                                               const std::vector<LaneParts>& lanes) {
    const PanelPlan& plan = in.plan.panels;
    std::optional<Length> longest;
    for (const LaneParts& lane : lanes) {
        for (const PlanePart& part : lane.parts) {
            const Extent extent = extent_of(part.outline);
            if (stands_on_eave(reach, extent)) {
                const Length length = extent.high.up - extent.low.up;
                longest = longest ? longer(*longest, length) : length;
            }
        }
    }
    if (longest) {
        const FittedLength fitted = fit_length(*longest, plan.eave, plan.increment);
        if (fitted.order <= plan.longest + count_tolerance) {
            return fitted;
        }
    }
    return {no_length, plan.eave.aimed, true};
}

/// Cuts a part that is longer than a panel over its supports.
class PartCourses {
public:
    PartCourses(const CutInput& in, const Extent& part, std::vector<std::size_t>& used)
        : in_{in}, part_{part}, used_{used} {
        for (std::size_t r = 0; r < in.lines.size(); ++r) {
            const Length centre = centre_of(r);
            if (runs_along(in.lines[r].stretches, {part.low.along, part.high.along}) &&
                centre - half_lap() > part.low.up + count_tolerance && centre + half_lap() < part.high.up) {
                rows_.push_back(r);
            }
        }
    }
    [[nodiscard]] Length centre_of(std::size_t row) const {
        return up_at(in_.lines[row].centreline, (part_.low.along + part_.high.along) / 2.0);
    }
    /// Supports to lap on, the lowest first: as few as can be, and those that other lanes lap on where they serve as well.
    [[nodiscard]] std::vector<std::size_t> laps() const {
        std::vector<std::size_t> result;
        Length low = part_.low.up;
        while (!reaches(low, part_.high.up)) {
            const std::size_t highest = highest_from(low);
            const std::size_t needed = laps_from(lap_low(highest));
            std::size_t chosen = highest;
            for (const std::size_t row : rows_) {
                const bool serves = lap_low(row) > low + count_tolerance && reaches(low, centre_of(row) + half_lap());
                if (serves && std::count(used_.begin(), used_.end(), row) > 0 && laps_from(lap_low(row)) <= needed) {
                    chosen = row;
                }
            }
            result.push_back(chosen);
            used_.push_back(chosen);
            low = lap_low(chosen);
        }
        return result;
    }

private:
    [[nodiscard]] Length half_lap() const { return in_.plan.panels.end_lap / 2.0; }
    [[nodiscard]] Length lap_low(std::size_t row) const { return centre_of(row) - half_lap(); }
    [[nodiscard]] bool reaches(Length low, Length high) const {
        const PanelPlan& plan = in_.plan.panels;
        return round_up_to_increment(high - low, plan.increment) <= plan.longest + count_tolerance;
    }
    [[nodiscard]] std::size_t highest_from(Length low) const {
        std::optional<std::size_t> found;
        for (const std::size_t row : rows_) {
            if (lap_low(row) > low + count_tolerance && reaches(low, centre_of(row) + half_lap())) {
                found = row;
            }
        }
        if (!found) {
            refuse_long_panel(part_.high.up - low, in_.plan.panels);
        }
        return *found;
    }
    [[nodiscard]] std::size_t laps_from(Length low) const {
        std::size_t count = 0;
        for (; !reaches(low, part_.high.up); low = lap_low(highest_from(low))) {
            ++count;
        }
        return count;
    }

    const CutInput& in_;
    Extent part_;
    std::vector<std::size_t>& used_;
    std::vector<std::size_t> rows_;
};

}  // namespace eavewright::detail
