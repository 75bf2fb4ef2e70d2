// SPDX-License-Identifier: BSL-1.0
#pragma once

// Purlin rows on a plane, laid by rule or as they were found on site.

#include <eavewright/fault.hpp>
#include <eavewright/framing/plane_rows.hpp>
#include <eavewright/framing/purlin_row.hpp>
#include <eavewright/framing/row_spacing.hpp>
#include <eavewright/framing/row_stretches.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/outline.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <tuple>
#include <variant>
#include <vector>

namespace eavewright {

namespace detail {
/// A row parallel to the eave at `up`, from rake to rake.
[[nodiscard]] inline PurlinRow level_row(const std::vector<PlanePoint>& outline, Length up, Length width) {
    const Span along = along_span(outline, up);
    return {RowKind::field, {{along.low, up}, {along.high, up}}, width};
}

/// Left and right rake edge of a four-sided outline as lines from eave to ridge.
struct Rakes {
    PlanePoint eave_left, eave_right, ridge_right, ridge_left;
    [[nodiscard]] PurlinRow row_at(double left_share, double right_share, RowKind kind, Length width) const {
        const auto on = [](PlanePoint a, PlanePoint b, double share) {
            return PlanePoint{a.along + (b.along - a.along) * share, a.up + (b.up - a.up) * share};
        };
        return {kind, {on(eave_left, ridge_left, left_share), on(eave_right, ridge_right, right_share)}, width};
    }
};

/// The ridge row: parallel to the ridge edge, its centre `below` it.
[[nodiscard]] inline PurlinRow ridge_row(const Rakes& rakes, Length below, Length width) {
    return rakes.row_at(1.0 - below / rakes.ridge_left.up, 1.0 - below / rakes.ridge_right.up, RowKind::top, width);
}

/// Rows at every `step` above `from`, as long as they stay clear of the ridge row.
inline void add_rows_by_step(const std::vector<PlanePoint>& outline, Length from, Length step, PurlinRows& to) {
    const Length width = bearing_width(to.stock);
    const std::vector<PlanePoint>& top = to.rows.back().centreline;
    const Length room = shorter(top.front().up, top.back().up) - width - from;
    const PurlinRow ridge = to.rows.back();
    to.rows.pop_back();
    const std::int64_t count = whole_steps(room, step);
    require_few_rows(count);
    for (std::int64_t k = 1; k <= count; ++k) {
        to.rows.push_back(level_row(outline, from + step * static_cast<double>(k), width));
    }
    to.rows.push_back(ridge);
    to.spacing = step;
}

/// Rows in equal spaces between eave row and ridge row; where the rakes differ in length, equal on each rake.
inline void add_equal_rows(const Rakes& rakes, Length eave_centre, Length at_most, PurlinRows& to) {
    const PurlinRow ridge = to.rows.back();
    const Length left = ridge.centreline.front().up - eave_centre;
    const Length right = ridge.centreline.back().up - eave_centre;
    const std::int64_t spaces = steps_to_cover(longer(left, right), at_most);
    require_few_rows(spaces);
    to.rows.pop_back();
    for (std::int64_t k = 1; k < spaces; ++k) {
        const double share = static_cast<double>(k) / static_cast<double>(spaces);
        to.rows.push_back(rakes.row_at((eave_centre + left * share) / rakes.ridge_left.up,
                                       (eave_centre + right * share) / rakes.ridge_right.up, RowKind::field,
                                       bearing_width(to.stock)));
    }
    to.rows.push_back(ridge);
    to.spacing = longer(left, right) / static_cast<double>(spaces);
}

/// A row with one centre a frame, carried on straight from the end frames to the rake edges.
[[nodiscard]] inline PurlinRow row_through_frames(const std::vector<PlanePoint>& outline,
                                                  const std::vector<Length>& frames, const std::vector<Length>& centres,
                                                  Length width) {
    std::vector<PlanePoint> found;
    for (std::size_t f = 0; f < centres.size(); ++f) {
        found.push_back({frames[f], centres[f]});
    }
    const Span along = along_span(outline, centres[centres.size() / 2]);
    PurlinRow row{RowKind::field, {}, width};
    if (along.low < frames.front()) {
        row.centreline.push_back({along.low, up_at(found, along.low)});
    }
    for (const PlanePoint& point : found) {
        row.centreline.push_back(point);
    }
    if (along.high > frames.back()) {
        row.centreline.push_back({along.high, up_at(found, along.high)});
    }
    return row;
}

/// Replaces the ruled ridge row by the rows that were found, the topmost of them being the ridge row.
inline void add_found_rows(const std::vector<PlanePoint>& outline, const Rakes& rakes, const AsFound& found,
                           PurlinRows& to) {
    const Length width = bearing_width(to.stock);
    to.rows.pop_back();
    for (std::size_t i = 0; i < found.rows.size(); ++i) {
        const std::vector<Length>& centres = found.rows[i].centres;
        const Length highest = *std::max_element(centres.begin(), centres.end());
        const Length ridge = shorter(rakes.ridge_left.up, rakes.ridge_right.up);
        if (highest > ridge) {
            throw FaultError{Fault{FaultCode::does_not_fit, "purlins.spacing.rows[" + std::to_string(i) + "]",
                                   describe_length(highest), "a centre below the ridge at " + describe_length(ridge)}};
        }
        to.rows.push_back(centres.size() == 1 ? level_row(outline, centres.front(), width)
                                              : row_through_frames(outline, found.frames, centres, width));
    }
    to.rows.back().kind = RowKind::top;
    to.spacing = middle_space(found);
}

/// Calls `judge(i, apart)` with the distance of row i from the row below it at every point where either bends.
template <class Judge>
void at_every_bend(const std::vector<PurlinRow>& rows, Judge judge) {
    for (std::size_t i = 1; i < rows.size(); ++i) {
        for (const std::vector<PlanePoint>* line : {&rows[i - 1].centreline, &rows[i].centreline}) {
            for (const PlanePoint& p : *line) {
                judge(i, up_at(rows[i].centreline, p.along) - up_at(rows[i - 1].centreline, p.along));
            }
        }
    }
}

/// Rows by rule lie beside one another; rows as found may be off by a reading, but each lies above the one before it.
inline void require_apart(const std::vector<PurlinRow>& rows, bool as_found) {
    at_every_bend(rows, [&](std::size_t i, Length apart) {
        const Length least = as_found ? no_length : (rows[i - 1].width + rows[i].width) / 2.0 - rows_may_touch;
        if (!(apart > least)) {
            throw FaultError{Fault{FaultCode::does_not_fit, "purlins.spacing", describe_length(apart),
                                   "row " + std::to_string(i) + " above row " + std::to_string(i - 1) +
                                       " by more than " + describe_length(least)}};
        }
    });
}

[[nodiscard]] inline Length widest_space(const std::vector<PurlinRow>& rows) {
    Length widest = no_length;
    at_every_bend(rows, [&](std::size_t, Length apart) { widest = longer(widest, apart); });
    return widest;
}
}  // namespace detail

/// Purlin rows on a plane. The fascia is the eave row; by rule, a row closes every level edge at the top, and rows that
/// would lie on it are left out. Rows stop at hips, valleys, rakes and openings: their stretches say where they run. On
/// a plane of four sides the eave lies on up = 0, and the ridge may be out of level as measured; on any other outline eaves,
/// ridges, walls and breaks of pitch are level, and every found row is straight or bent at frames.
///
/// Throws `FaultError`: the first fault of an input, not_supported for an outline that crosses itself or has a slanted
/// eave or ridge, does_not_fit where a found row lies above the ridge, rows lie on or across one another, or the plane is
/// too short for its ridge row; too_much_work above `most_rows`.
[[nodiscard]] inline PurlinRows purlin_rows(const PurlinPlane& plane, const RowSpacing& spacing,
                                            const RowPlan& plan = {}) {
    require_sound(plan, "purlins");
    require_sound(spacing, "purlins.spacing");
    if (!detail::is_four_sided(plane)) {
        detail::require_outline(plane);
        return detail::rows_on_any(plane, spacing, plan);
    }
    detail::require_four_sided(plane);
    const detail::Rakes rakes{plane.outline[0], plane.outline[1], plane.outline[2], plane.outline[3]};
    const Length width = bearing_width(plan.stock);
    const Length below_ridge = plan.ridge_setback + width / 2.0;
    const Length lowest_ridge = shorter(rakes.ridge_left.up, rakes.ridge_right.up);
    if (lowest_ridge < below_ridge + width / 2.0 + longer(width / 2.0, plan.fascia_width)) {
        throw FaultError{Fault{FaultCode::does_not_fit, "purlins.ridge_setback", describe_length(plan.ridge_setback),
                               "room for a ridge row on a slope of " + describe_length(lowest_ridge)}};
    }
    PurlinRows result{.rows = {},
                      .stock = plan.stock,
                      .spacing = no_length,
                      .widest_space = no_length,
                      .sheet_lower_edge = -plan.sheet_past_fascia};
    const Length eave_centre = plan.fascia_width / 2.0;
    if (plan.fascia_width > no_length) {
        PurlinRow eave = detail::level_row(plane.outline, eave_centre, plan.fascia_width);
        eave.kind = RowKind::eave;
        result.rows.push_back(eave);
    }
    result.rows.push_back(detail::ridge_row(rakes, below_ridge, width));
    if (const Fixed* fixed = std::get_if<Fixed>(&spacing)) {
        detail::add_rows_by_step(plane.outline, result.sheet_lower_edge, fixed->spacing, result);
    } else if (const AtMost* at_most = std::get_if<AtMost>(&spacing)) {
        detail::add_equal_rows(rakes, eave_centre, at_most->spacing, result);
    } else if (const ToSheets* sheets = std::get_if<ToSheets>(&spacing)) {
        detail::add_rows_by_step(plane.outline, result.sheet_lower_edge - sheets->gap / 2.0,
                                 (sheets->sheet_length + sheets->gap) / sheets->spaces, result);
    } else {
        detail::add_found_rows(plane.outline, rakes, std::get<AsFound>(spacing), result);
    }
    detail::require_apart(result.rows, std::holds_alternative<AsFound>(spacing));
    result.widest_space = detail::widest_space(result.rows);
    for (PurlinRow& row : result.rows) {
        if (!plane.openings.empty()) {
            row.stretches = stretches_on(plane.outline, plane.openings, row.centreline);
        }
    }
    return result;
}

}  // namespace eavewright
