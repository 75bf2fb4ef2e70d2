// SPDX-License-Identifier: BSL-1.0
#pragma once

// Sheet joints run with the grid, supports run as they were found: how far they drift apart along each support, where the
// ends of the sheets come off it, and what to do there.
//
//      - - - - - - - - - joint line - - - -     set on the support's centre at the side begun at, it leaves it by as much
//      ==========___________                    as support and grid differ in direction, and as the support is bent
//      support              ==============

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/grid_rips.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/tile_sheets.hpp>
#include <eavewright/tiling/turned_grid.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// How the joints of one row lie from column to column.
enum class JointRows {
    straight,  ///< along one snapped line of the grid, all across the plane
    stepped,   ///< each column begins at its own lowest point of the plane, as `tile_sheets` lays a turned grid
};
template <>
struct NamesOf<JointRows> {
    static constexpr std::array<std::string_view, 2> list{"straight", "stepped"};
};

/// What to do about a row. Common practice.
enum class RowRemedy {
    none,        ///< set on the support's centre where the row begins, every end bears enough
    no_joints,   ///< no joint falls on this support: a piece beside it would be a sliver
    shift_line,  ///< every end bears enough once the line is set off the centre by `set_off`
    re_rip,      ///< one line cannot serve: from `leaves_column` on, the next course is ripped anew
    cleat,       ///< the support leaves the ends within single sheets: a cleat beside it carries them
};
template <>
struct NamesOf<RowRemedy> {
    static constexpr std::array<std::string_view, 5> list{"none", "no_joints", "shift_line", "re_rip", "cleat"};
};

/// One support against the joints that are to lie on it. Up and off are square to the joint line, above 0 where the
/// support lies on its far side: up the slope, or right of a joint line up the slope.
struct RowDrift {
    std::size_t support;  ///< its index
    Length from;          ///< its ends along the grid, from the side begun at
    Length to;
    Length drift;  ///< of its centre off the joint line from its first end to its last
    Length worst;  ///< largest distance off, the line set on its centre at the first end
    Length range;  ///< from its lowest to its highest place against the line: no line comes nearer than half of it
    Length within_column;  ///< the most of it within any one column
    Length allowed;        ///< half its width less half the gap and the least bearing: how far off both ends still bear
    Length bearing;  ///< least bearing of any end, the line set on its centre at the first end; 0 where one has none
    Length set_off;  ///< above its centre at the first end: where a line is set that shares the drift
    Length shared_bearing;                      ///< least bearing of any end then
    std::optional<std::int64_t> leaves_column;  ///< first column, from 0, in which an end bears less than the least
    std::optional<Length> leaves_at;            ///< where that is, along the grid from the side begun at
    std::int64_t columns_off;                   ///< columns in which one does
    std::int64_t re_rips;                       ///< how often a row is ripped anew so that all ends bear; 0 for a cleat
    RowRemedy remedy;
};
template <>
struct FieldsOf<RowDrift> {
    static constexpr auto list = field_list(
        field("support", FieldUnit::count, "index of the support", &RowDrift::support),
        field("from", FieldUnit::length, "its first end along the grid, from the side begun at", &RowDrift::from),
        field("to", FieldUnit::length, "its last end", &RowDrift::to),
        field("drift", FieldUnit::length, "of its centre off the joint line, first end to last", &RowDrift::drift),
        field("worst", FieldUnit::length, "largest distance off, set on the centre at the first end", &RowDrift::worst),
        field("range", FieldUnit::length, "from its lowest to its highest place against the line", &RowDrift::range),
        field("within_column", FieldUnit::length, "the most of it within one column", &RowDrift::within_column),
        field("allowed", FieldUnit::length, "how far off both ends still bear enough", &RowDrift::allowed),
        field("bearing", FieldUnit::length, "least bearing, set on the centre at the first end", &RowDrift::bearing),
        field("set_off", FieldUnit::length, "where a line is set that shares the drift, above the centre",
              &RowDrift::set_off),
        field("shared_bearing", FieldUnit::length, "least bearing of any end then", &RowDrift::shared_bearing),
        field("leaves_column", FieldUnit::count, "first column in which an end bears too little, null for none",
              &RowDrift::leaves_column),
        field("leaves_at", FieldUnit::length, "where that is along the grid, null for none", &RowDrift::leaves_at),
        field("columns_off", FieldUnit::count, "columns in which one does", &RowDrift::columns_off),
        field("re_rips", FieldUnit::count, "how often the row is ripped anew", &RowDrift::re_rips),
        field("remedy", FieldUnit::none, "what to do about it", &RowDrift::remedy));
};

namespace detail {
/// Everything drift is measured in; in the frame of the lanes, begun at the low side.
struct DriftGround {
    std::vector<PlanePoint> outline;
    std::vector<PlanePoint> lower;  ///< the edge that columns begin at, and the one they end at, as lines
    std::vector<PlanePoint> upper;
    std::vector<SupportLine> lines;
    Extent extent;
    SheetPlan plan;
    JointRows rows;
};

/// Lanes up, supports along, the grid's turn taken out, the side begun at at the left.
[[nodiscard]] inline DriftGround drift_ground(const std::vector<PlanePoint>& outline,
                                              const std::vector<SupportLine>& lines, SupportRun run,
                                              const SheetPlan& plan, JointRows rows, const GridTurn& turn) {
    LaneFrame frame{run == SupportRun::up_slope, false, no_length, turn.cosine, turn.sine};
    if (run == SupportRun::along_eave && plan.start == StartCorner::eave_right) {
        frame.mirrored = true;
    }
    const auto edge = [&](std::size_t from, std::size_t to) {
        std::vector<PlanePoint> line{frame.to_lane(outline[from]), frame.to_lane(outline[to])};
        if (line[0].along > line[1].along) {
            std::swap(line[0], line[1]);
        }
        return line;
    };
    DriftGround ground{frame.outline_to_lane(outline),
                       frame.swapped ? edge(0, 3) : edge(0, 1),
                       frame.swapped ? edge(1, 2) : edge(3, 2),
                       lines_to_lane(lines, frame),
                       {outline[0], outline[0]},
                       plan,
                       rows};
    ground.extent = extent_of(ground.outline);
    return ground;
}

/// The lowest point of the outline between two places along.
[[nodiscard]] inline Length lowest_between(const std::vector<PlanePoint>& outline, Span along) {
    const std::vector<PlanePoint> strip = clip_along(outline, along);
    return strip.empty() ? no_length : extent_of(strip).low.up;
}

/// One place on a support: how far along from the side begun at, in which column, how far off the joint line.
struct DriftPlace {
    Length along;
    std::int64_t column;
    Length off;
};

/// Ends and bends of a support, column by column.
[[nodiscard]] inline std::vector<DriftPlace> drift_places(const DriftGround& ground, const SupportLine& line) {
    const std::vector<PlanePoint>& centre = line.centreline;
    const Span first = along_span(ground.outline, centre.front().up);
    const Span last = along_span(ground.outline, centre.back().up);
    const Span reach{longer(centre.front().along, first.low), shorter(centre.back().along, last.high)};
    const Length origin = ground.extent.low.along;
    const Length pitch = ground.plan.sheet.width + ground.plan.gap;
    const std::int64_t columns = steps_to_cover(ground.extent.high.along - origin + ground.plan.rip_first, pitch);
    std::vector<DriftPlace> places;
    for (std::int64_t k = 0; k < columns; ++k) {
        const Length left = origin + (pitch * static_cast<double>(k) - ground.plan.rip_first);
        const Span column{longer(left, reach.low), shorter(left + ground.plan.sheet.width, reach.high)};
        if (!(column.high > column.low)) {
            continue;
        }
        const Length base = ground.rows == JointRows::straight
                                ? no_length
                                : lowest_between(ground.outline, {left, left + ground.plan.sheet.width});
        const auto add = [&](Length along) { places.push_back({along - origin, k, up_at(centre, along) - base}); };
        add(column.low);
        for (const PlanePoint& bend : centre) {
            if (bend.along > column.low && bend.along < column.high) {
                add(bend.along);
            }
        }
        add(column.high);
    }
    return places;
}

/// Where a joint on this support would leave a piece shorter than a sliver: at an eave or a ridge.
[[nodiscard]] inline bool carries_joints(const DriftGround& ground, const SupportLine& line) {
    const auto clear = [&](PlanePoint p) {
        return p.up - up_at(ground.lower, p.along) >= ground.plan.sliver &&
               up_at(ground.upper, p.along) - p.up >= ground.plan.sliver;
    };
    return std::all_of(line.centreline.begin(), line.centreline.end(), clear);
}

/// Fills in where the ends come off, the line set on the centre at the first place.
inline void find_leaving(const std::vector<DriftPlace>& places, RowDrift& row) {
    const Length zero = places[0].off;
    std::optional<std::int64_t> counted;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const Length off = places[i].off - zero;
        if (!(magnitude(off) > row.allowed + count_tolerance)) {
            continue;
        }
        if (counted != places[i].column) {
            counted = places[i].column;
            ++row.columns_off;
        }
        if (row.leaves_at) {
            continue;
        }
        row.leaves_column = places[i].column;
        row.leaves_at = places[i].along;
        if (i > 0 && places[i - 1].column == places[i].column) {
            const Length before = places[i - 1].off - zero;
            const Length limit = off > no_length ? row.allowed : -row.allowed;
            const double share = (limit - before) / (off - before);
            const bool within = share >= 0.0 && share <= 1.0;
            row.leaves_at =
                within ? places[i - 1].along + (places[i].along - places[i - 1].along) * share : places[i].along;
        }
    }
}

/// What to do about a row whose figures stand.
inline void choose_remedy(RowDrift& row) {
    if (!row.leaves_at) {
        row.remedy = RowRemedy::none;
    } else if (row.range / 2.0 <= row.allowed + count_tolerance) {
        row.remedy = RowRemedy::shift_line;
    } else if (row.allowed > no_length && row.within_column / 2.0 <= row.allowed + count_tolerance) {
        row.remedy = RowRemedy::re_rip;
        row.re_rips = steps_to_cover(row.range, row.allowed * 2.0 + count_tolerance) - 1;
    } else {
        row.remedy = RowRemedy::cleat;
    }
}

[[nodiscard]] inline RowDrift row_drift(const DriftGround& ground, std::size_t support) {
    const SupportLine& line = ground.lines[support];
    const std::vector<DriftPlace> places = drift_places(ground, line);
    const Length half = line.width / 2.0 - ground.plan.gap / 2.0;
    RowDrift row{support,      no_length, no_length, no_length,
                 no_length,    no_length, no_length, half - ground.plan.least_bearing,
                 no_length,    no_length, no_length, std::nullopt,
                 std::nullopt, 0,         0,         RowRemedy::no_joints};
    if (places.empty()) {
        return row;
    }
    const Length zero = places[0].off;
    Length lowest = no_length;
    Length highest = no_length;
    Span here{zero, zero};
    for (std::size_t i = 0; i < places.size(); ++i) {
        const Length off = places[i].off;
        const bool same = i > 0 && places[i - 1].column == places[i].column;
        here = same ? Span{shorter(here.low, off), longer(here.high, off)} : Span{off, off};
        row.within_column = longer(row.within_column, here.high - here.low);
        lowest = shorter(lowest, off - zero);
        highest = longer(highest, off - zero);
    }
    row.from = places.front().along;
    row.to = places.back().along;
    row.drift = places.back().off - zero;
    row.worst = longer(highest, -lowest);
    row.range = highest - lowest;
    row.set_off = (highest + lowest) / 2.0;
    row.bearing = longer(no_length, half - row.worst);
    row.shared_bearing = longer(no_length, half - row.range / 2.0);
    if (carries_joints(ground, line)) {
        find_leaving(places, row);
        choose_remedy(row);
    }
    return row;
}
}  // namespace detail

/// The drift of every support against joints of a grid turned by `tangent`, begun as `plan` says; `plan.turn` is not read.
/// Measured along the part of each support that lies on the plane, to rounding where it ends at the plane's edges.
/// Throws `FaultError`: the first fault of an input; not_supported as `turn_of`; out_of_range as `grid_turn`.
template <Surface surface>
[[nodiscard]] std::vector<RowDrift> row_drifts(const Plane<surface>& plane, const Supports<surface>& supports,
                                               const SheetPlan& plan, JointRows rows, double tangent) {
    require_sound(plan, "sheets");
    require_sound(supports, "supports");
    detail::require_nearly_square(plane);
    detail::require_named(rows, "joint_rows");
    const detail::DriftGround ground =
        detail::drift_ground(detail::sheet_outline(plane.outline, plane.edges, plan.past_fascia), supports.lines,
                             supports.run, plan, rows, grid_turn(tangent));
    std::vector<RowDrift> drifts;
    for (std::size_t i = 0; i < ground.lines.size(); ++i) {
        drifts.push_back(detail::row_drift(ground, i));
    }
    return drifts;
}

/// Whether a row needs more than a line set where it serves best.
[[nodiscard]] constexpr bool leaves_support(const RowDrift& row) noexcept {
    return row.remedy == RowRemedy::re_rip || row.remedy == RowRemedy::cleat;
}

}  // namespace eavewright
