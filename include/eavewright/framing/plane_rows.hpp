// SPDX-License-Identifier: BSL-1.0
#pragma once

// Purlin rows on a plane of any outline: hips, valleys, several eaves and ridges, openings.
//
// Every level edge has a row of its own along it: the fascia on an eave, a purlin just inside a ridge, a wall or a break of
// pitch. Field rows lie at the rule's levels, from edge to edge; where one would lie on an edge's own row it is left out.

#include <eavewright/fault.hpp>
#include <eavewright/framing/purlin_row.hpp>
#include <eavewright/framing/row_spacing.hpp>
#include <eavewright/framing/row_stretches.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright::detail {

/// A row along a level edge, no longer than the edge.
struct EdgeRow {
    RowKind kind;
    Length up;     ///< of its centre
    Length width;  ///< what a sheet can bear on
    Span along;    ///< of its edge
};

[[nodiscard]] inline bool is_carried_by_rafter(EdgeKind kind) {
    return kind == EdgeKind::hip || kind == EdgeKind::valley || kind == EdgeKind::rake;
}

/// The rows along the level edges of a plane. Somebody who walks the outline has the plane on the left, so an edge walked to
/// the right is a lower one.
[[nodiscard]] inline std::vector<EdgeRow> edge_rows(const PurlinPlane& plane, const RowPlan& plan) {
    std::vector<EdgeRow> rows;
    const Length width = bearing_width(plan.stock);
    for (std::size_t i = 0; i < plane.outline.size(); ++i) {
        const PlanePoint a = plane.outline[i];
        const PlanePoint b = plane.outline[(i + 1) % plane.outline.size()];
        const EdgeKind kind = i < plane.edges.size() ? plane.edges[i] : EdgeKind::rake;
        if (is_carried_by_rafter(kind)) {
            continue;
        }
        if (magnitude(b.up - a.up) > rows_may_touch) {
            throw FaultError{Fault{FaultCode::not_supported, "plane.outline[" + std::to_string(i) + "]",
                                   describe_length(b.up - a.up) + " from level",
                                   "level edges, but for rakes, hips and valleys of a plane of other than four sides"}};
        }
        const bool lower = b.along > a.along;
        const Length off = plan.ridge_setback + width / 2.0;
        const Span along{shorter(a.along, b.along), longer(a.along, b.along)};
        if (lower && kind == EdgeKind::eave) {
            if (plan.fascia_width > no_length) {
                rows.push_back({RowKind::eave, a.up + plan.fascia_width / 2.0, plan.fascia_width, along});
            }
        } else {
            rows.push_back({lower ? RowKind::field : RowKind::top, lower ? a.up + off : a.up - off, width, along});
        }
    }
    return rows;
}

/// A straight level line across the whole plane.
[[nodiscard]] inline std::vector<PlanePoint> level_line(const Extent& extent, Length up) {
    return {{extent.low.along, up}, {extent.high.along, up}};
}

[[nodiscard]] inline std::vector<Length> levels_by_step(Length from, Length step, Length below) {
    std::vector<Length> levels;
    const std::int64_t count = whole_steps(below - from, step);
    require_few_rows(count);
    for (std::int64_t k = 1; k <= count; ++k) {
        levels.push_back(from + step * static_cast<double>(k));
    }
    return levels;
}

/// The field rows' centre lines that the rule asks for, and its spacing.
struct FieldLines {
    std::vector<std::vector<PlanePoint>> lines;
    Length spacing;
};

[[nodiscard]] inline FieldLines field_lines(const PurlinPlane& plane, const RowSpacing& spacing, const RowPlan& plan) {
    const Extent extent = extent_of(plane.outline);
    FieldLines field{{}, no_length};
    std::vector<Length> levels;
    const Length from = extent.low.up - plan.sheet_past_fascia;
    if (const Fixed* fixed = std::get_if<Fixed>(&spacing)) {
        field.spacing = fixed->spacing;
        levels = levels_by_step(from, field.spacing, extent.high.up);
    } else if (const ToSheets* sheets = std::get_if<ToSheets>(&spacing)) {
        field.spacing = (sheets->sheet_length + sheets->gap) / sheets->spaces;
        levels = levels_by_step(from - sheets->gap / 2.0, field.spacing, extent.high.up);
    } else if (const AtMost* at_most = std::get_if<AtMost>(&spacing)) {
        const Length eave = extent.low.up + plan.fascia_width / 2.0;
        const Length top = extent.high.up - plan.ridge_setback - bearing_width(plan.stock) / 2.0;
        const std::int64_t spaces = top > eave ? steps_to_cover(top - eave, at_most->spacing) : 1;
        require_few_rows(spaces);
        field.spacing = (top - eave) / static_cast<double>(spaces);
        for (std::int64_t k = 1; k < spaces; ++k) {
            levels.push_back(eave + field.spacing * static_cast<double>(k));
        }
    } else {
        const AsFound& found = std::get<AsFound>(spacing);
        field.spacing = middle_space(found);
        for (const FoundRow& row : found.rows) {
            std::vector<PlanePoint> line;
            for (std::size_t f = 0; row.centres.size() > 1 && f < row.centres.size(); ++f) {
                line.push_back({found.frames[f], row.centres[f]});
            }
            field.lines.push_back(row.centres.size() > 1 ? line : level_line(extent, row.centres[0]));
        }
    }
    for (const Length level : levels) {
        field.lines.push_back(level_line(extent, level));
    }
    return field;
}

/// A row that lies on an edge's own row gives way to it, as far as that reaches.
[[nodiscard]] inline std::vector<Span> clear_of_edges(std::vector<Span> stretches, const std::vector<PlanePoint>& line,
                                                      Length width, const std::vector<EdgeRow>& edges) {
    for (const EdgeRow& edge : edges) {
        const Length middle = (edge.along.low + edge.along.high) / 2.0;
        if (magnitude(up_at(line, middle) - edge.up) < (width + edge.width) / 2.0 - rows_may_touch) {
            stretches = without(stretches, edge.along);
        }
    }
    return stretches;
}

/// Adds a row where at least its own width of it runs.
inline void add_row(RowKind kind, const std::vector<PlanePoint>& line, Length width, const std::vector<Span>& stretches,
                    std::vector<PurlinRow>& rows) {
    PurlinRow row{kind, line, width, {}};
    for (const Span& stretch : stretches) {
        if (stretch.high - stretch.low > width) {
            row.stretches.push_back(stretch);
        }
    }
    if (!row.stretches.empty()) {
        rows.push_back(std::move(row));
    }
}

/// Rows on one level are one row: its stretches together, its width the narrower.
inline void join_levels(std::vector<PurlinRow>& rows) {
    std::stable_sort(rows.begin(), rows.end(), [](const PurlinRow& a, const PurlinRow& b) {
        return a.centreline.front().up < b.centreline.front().up;
    });
    std::vector<PurlinRow> joined;
    for (PurlinRow& row : rows) {
        const bool level = row.centreline.size() == 2 && !joined.empty() && joined.back().centreline.size() == 2 &&
                           magnitude(row.centreline[0].up - joined.back().centreline[0].up) <= count_tolerance &&
                           magnitude(row.centreline[1].up - joined.back().centreline[1].up) <= count_tolerance;
        if (!level) {
            joined.push_back(std::move(row));
            continue;
        }
        PurlinRow& below = joined.back();
        below.width = shorter(below.width, row.width);
        below.stretches.insert(below.stretches.end(), row.stretches.begin(), row.stretches.end());
        std::sort(below.stretches.begin(), below.stretches.end(),
                  [](const Span& a, const Span& b) { return a.low < b.low; });
    }
    rows = std::move(joined);
    for (PurlinRow& row : rows) {  // what touches is one stretch
        std::vector<Span> merged;
        for (const Span& stretch : row.stretches) {
            if (!merged.empty() && stretch.low <= merged.back().high + count_tolerance) {
                merged.back().high = longer(merged.back().high, stretch.high);
            } else {
                merged.push_back(stretch);
            }
        }
        row.stretches = std::move(merged);
    }
}

/// Largest distance from a row to the next one above it, at the ends and in the middle of every stretch.
[[nodiscard]] inline Length widest_space_on(const std::vector<PurlinRow>& rows) {
    Length widest = no_length;
    for (std::size_t low = 0; low < rows.size(); ++low) {
        for (const Span& stretch : rows[low].stretches) {
            for (const Length at : {stretch.low, (stretch.low + stretch.high) / 2.0, stretch.high}) {
                for (std::size_t high = low + 1; high < rows.size(); ++high) {
                    if (runs_at(rows[high].stretches, at)) {
                        widest = longer(widest, up_at(rows[high].centreline, at) - up_at(rows[low].centreline, at));
                        break;
                    }
                }
            }
        }
    }
    return widest;
}

/// Rows that were found must not cross where both run; the order of all must be plain from end to end.
inline void require_ascending(const std::vector<PurlinRow>& rows) {
    for (std::size_t i = 1; i < rows.size(); ++i) {
        for (const std::vector<PlanePoint>* line : {&rows[i - 1].centreline, &rows[i].centreline}) {
            for (const PlanePoint& p : *line) {
                if (!(up_at(rows[i].centreline, p.along) > up_at(rows[i - 1].centreline, p.along))) {
                    throw FaultError{Fault{FaultCode::does_not_fit, "purlins.spacing", describe_length(p.up),
                                           "row " + std::to_string(i) + " above row " + std::to_string(i - 1)}};
                }
            }
        }
    }
}

/// Rows on any plane whose outline does not cross itself.
[[nodiscard]] inline PurlinRows rows_on_any(const PurlinPlane& plane, const RowSpacing& spacing, const RowPlan& plan) {
    const std::vector<EdgeRow> edges = edge_rows(plane, plan);
    const Extent extent = extent_of(plane.outline);
    const Length width = bearing_width(plan.stock);
    const FieldLines field = field_lines(plane, spacing, plan);
    PurlinRows result{.rows = {},
                      .stock = plan.stock,
                      .spacing = field.spacing,
                      .widest_space = no_length,
                      .sheet_lower_edge = extent.low.up - plan.sheet_past_fascia};
    const bool found = std::holds_alternative<AsFound>(spacing);
    for (const EdgeRow& edge : edges) {
        if (found && edge.kind != RowKind::eave) {
            continue;  // every purlin there is has been measured
        }
        const std::vector<PlanePoint> line = level_line(extent, edge.up);
        const std::vector<Span> on_plane = stretches_on(plane.outline, plane.openings, line);
        std::vector<Span> own;
        for (const Span& stretch : on_plane) {
            const Span part{longer(stretch.low, edge.along.low), shorter(stretch.high, edge.along.high)};
            if (part.high > part.low) {
                own.push_back(part);
            }
        }
        add_row(edge.kind, line, edge.width, own, result.rows);
    }
    for (const std::vector<PlanePoint>& line : field.lines) {
        const std::vector<Span> on_plane = stretches_on(plane.outline, plane.openings, line);
        add_row(RowKind::field, line, width, found ? on_plane : clear_of_edges(on_plane, line, width, edges),
                result.rows);
    }
    if (result.rows.empty()) {
        throw FaultError{Fault{FaultCode::does_not_fit, "purlins.spacing", "no row on the plane", "at least one row"}};
    }
    join_levels(result.rows);
    require_ascending(result.rows);
    result.widest_space = widest_space_on(result.rows);
    return result;
}

}  // namespace eavewright::detail
