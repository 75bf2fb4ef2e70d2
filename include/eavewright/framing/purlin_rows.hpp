// SPDX-License-Identifier: BSL-1.0
#pragma once

// Purlin rows on a plane: by rule, or as they were found on site.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

/// A row at every `spacing` from the sheets' lower edge; the last space, below the ridge row, is what is left.
struct Fixed {
    Length spacing;
};
/// Equal spaces from the eave row to the ridge row, as few as keep each within `spacing`.
struct AtMost {
    Length spacing;
};
/// Rows so that sheet ends meet on purlin centres: `spaces` equal spaces to a sheet and its gap.
struct ToSheets {
    Length sheet_length;
    Length gap;
    int spaces;
};
/// One row as measured: one centre where it is straight and level with the eave, one a frame where it is not.
struct FoundRow {
    FoundRow(Length centre) : centres{centre} {}  // NOLINT(google-explicit-constructor): a lone centre is a row
    FoundRow(std::vector<Length> per_frame) : centres{std::move(per_frame)} {}  // NOLINT(google-explicit-constructor)
    FoundRow(std::initializer_list<Length> per_frame) : centres{per_frame} {}

    std::vector<Length> centres;  ///< up the slope from the fascia's outer face, on the purlin tops
};
/// Every purlin between fascia and ridge as it was found, the topmost last. `frames` are the along-coordinates that
/// rows with several centres were measured at.
struct AsFound {
    std::vector<FoundRow> rows;
    std::vector<Length> frames{};
};
using RowSpacing = std::variant<Fixed, AtMost, ToSheets, AsFound>;

/// How purlins lie.
enum class PurlinLie {
    flat,     ///< wide face down
    on_edge,  ///< narrow face down, butted end to end
    hung,     ///< between the chords, tops flush with them
    lapped,   ///< on edge, passing side by side at the frames
};
template <>
struct NamesOf<PurlinLie> {
    static constexpr std::array<std::string_view, 4> list{"flat", "on_edge", "hung", "lapped"};
};

/// The lumber of the purlins, dressed sizes.
struct PurlinStock {
    Length thickness = Length::from_inches(1.5);  ///< narrow face; 2x4, PS 20
    Length depth = Length::from_inches(3.5);      ///< wide face
    PurlinLie lie = PurlinLie::flat;
};
/// The width a sheet bears on.
[[nodiscard]] inline Length bearing_width(const PurlinStock& stock) {
    return stock.lie == PurlinLie::flat ? stock.depth : stock.thickness;
}
/// How far the purlins lift the sheets above the chord tops.
[[nodiscard]] inline Length build_up_depth(const PurlinStock& stock) {
    switch (stock.lie) {
        case PurlinLie::flat: return stock.thickness;
        case PurlinLie::hung: return no_length;
        default: return stock.depth;
    }
}

/// What rows need besides their spacing.
struct RowPlan {
    PurlinStock stock{};
    Length fascia_width = Length::from_inches(1.5);  ///< of the fascia along the slope (`Slope::fascia_width`), which
                                                     ///< carries the sheets' lower edge; 0 for none
    Length sheet_past_fascia = no_length;            ///< how far the sheets' lower edge hangs past the fascia
    Length ridge_setback = no_length;                ///< upper side of the ridge row below the ridge line
};

/// What a row is: the fascia at the eave, a purlin in the field, or the topmost purlin, under a ridge or a high edge.
enum class RowKind { eave, field, top };
template <>
struct NamesOf<RowKind> {
    static constexpr std::array<std::string_view, 3> list{"eave", "field", "top"};
};

/// One row of support: the fascia at the eave, or a purlin.
struct PurlinRow {
    RowKind kind;
    std::vector<PlanePoint> centreline;  ///< ascending along, from rake edge to rake edge
    Length width;                        ///< what a sheet can bear on
};
template <>
struct FieldsOf<PurlinRow> {
    static constexpr auto list =
        std::make_tuple(field("kind", FieldUnit::none, "eave (the fascia), field or top", &PurlinRow::kind),
                        field("centreline", FieldUnit::length, "centre line from rake to rake", &PurlinRow::centreline),
                        field("width", FieldUnit::length, "width a sheet can bear on", &PurlinRow::width));
};

/// The rows of a plane, lowest first.
struct PurlinRows {
    std::vector<PurlinRow> rows;
    PurlinStock stock;
    Length spacing;           ///< between field rows: the rule's, or the middle one of those found
    Length widest_space;      ///< largest centre to centre distance anywhere
    Length sheet_lower_edge;  ///< up-coordinate, 0 or less
};
template <>
struct FieldsOf<PurlinRows> {
    static constexpr auto list = std::make_tuple(
        field("spacing", FieldUnit::length, "between field rows: the rule's, or the middle one of those found",
              &PurlinRows::spacing),
        field("widest_space", FieldUnit::length, "largest centre to centre distance", &PurlinRows::widest_space),
        field("sheet_lower_edge", FieldUnit::length, "lower edge of the sheets against the fascia's outer face",
              &PurlinRows::sheet_lower_edge),
        field("rows", FieldUnit::none, "rows, lowest first", &PurlinRows::rows));
};

/// Most rows that one plane may have.
inline constexpr std::size_t most_rows = 2000;

inline void find_faults(const RowPlan& plan, const Path& path, Faults& faults) {
    const Length foot = Length::from_inches(12.0);
    require_within(plan.stock.thickness, Length::from_inches(0.5), foot, Path{path, "thickness"}, faults);
    require_within(plan.stock.depth, Length::from_inches(0.5), 2.0 * foot, Path{path, "depth"}, faults);
    require_within(plan.fascia_width, no_length, foot, Path{path, "fascia_width"}, faults);
    require_within(plan.sheet_past_fascia, no_length, foot, Path{path, "sheet_past_fascia"}, faults);
    require_within(plan.ridge_setback, no_length, 4.0 * foot, Path{path, "ridge_setback"}, faults);
}

namespace detail {
inline void find_found_faults(const AsFound& found, const Path& path, Faults& faults) {
    const Path rows{path, "rows"};
    if (found.rows.empty() || found.rows.size() > most_rows) {
        faults.push_back(Fault{FaultCode::out_of_range, rows.text(), std::to_string(found.rows.size()) + " rows",
                               "1 to " + std::to_string(most_rows) + " rows"});
    }
    for (std::size_t i = 0; i < found.rows.size(); ++i) {
        const std::vector<Length>& row = found.rows[i].centres;
        if (row.empty() || (row.size() > 1 && row.size() != found.frames.size())) {
            faults.push_back(Fault{FaultCode::contradiction, Path{rows, i}.text(),
                                   std::to_string(row.size()) + " centres",
                                   "one centre, or one a frame (" + std::to_string(found.frames.size()) + ")"});
            continue;
        }
        for (const Length centre : row) {
            require_within(centre, no_length, longest_building, Path{rows, i}, faults);
        }
        const std::vector<Length> none{};
        const std::vector<Length>& below = i > 0 ? found.rows[i - 1].centres : none;
        for (std::size_t f = 0; !below.empty() && (f < row.size() || f < below.size()); ++f) {
            const Length low = below[f < below.size() ? f : 0];
            const Length high = row[f < row.size() ? f : 0];
            if (!(high > low)) {
                faults.push_back(Fault{FaultCode::out_of_order, Path{rows, i}.text(), describe_length(high),
                                       "above the row below it at " + describe_length(low)});
                break;
            }
        }
    }
    for (std::size_t f = 0; f < found.frames.size(); ++f) {
        require_within(found.frames[f], -longest_building, longest_building, Path{Path{path, "frames"}, f}, faults);
    }
    for (std::size_t f = 1; f < found.frames.size(); ++f) {
        if (!(found.frames[f] > found.frames[f - 1] + count_tolerance)) {
            faults.push_back(Fault{FaultCode::out_of_order, Path{Path{path, "frames"}, f}.text(),
                                   describe_length(found.frames[f]), "past the frame before it"});
        }
    }
}
}  // namespace detail

inline void find_faults(const RowSpacing& spacing, const Path& path, Faults& faults) {
    const Length least = Length::from_inches(3.0);  // closer than this a row would lie on its neighbour
    const Length most = Length::from_feet(40.0);
    if (const Fixed* fixed = std::get_if<Fixed>(&spacing)) {
        require_within(fixed->spacing, least, most, Path{path, "fixed"}, faults);
    } else if (const AtMost* at_most = std::get_if<AtMost>(&spacing)) {
        require_within(at_most->spacing, least, most, Path{path, "at_most"}, faults);
    } else if (const ToSheets* sheets = std::get_if<ToSheets>(&spacing)) {
        require_within(sheets->sheet_length, Length::from_inches(12.0), most, Path{path, "sheet_length"}, faults);
        require_within(sheets->gap, no_length, Length::from_inches(2.0), Path{path, "gap"}, faults);
        if (sheets->spaces < 1 || sheets->spaces > 100 ||
            (sheets->sheet_length + sheets->gap) / sheets->spaces < least) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{path, "spaces"}.text(), std::to_string(sheets->spaces),
                                   "1 to 100 spaces of at least 3 in"});
        }
    } else {
        detail::find_found_faults(std::get<AsFound>(spacing), path, faults);
    }
}

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

inline void require_few_rows(std::int64_t rows) {
    if (rows > static_cast<std::int64_t>(most_rows)) {
        throw FaultError{Fault{FaultCode::too_much_work, "purlins.spacing", std::to_string(rows) + " rows",
                               "no more than " + std::to_string(most_rows) + " rows"}};
    }
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

/// The middle one of the spaces that were found, the first counted from the fascia's outer face. Not the mean: the last
/// space below the ridge is usually a short one.
[[nodiscard]] inline Length middle_space(const AsFound& found) {
    std::vector<Length> spaces;
    Length below = no_length;
    for (const FoundRow& row : found.rows) {
        spaces.push_back(row.centres.front() - below);
        below = row.centres.front();
    }
    std::sort(spaces.begin(), spaces.end());
    return spaces[spaces.size() / 2];
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

/// Rows by rule lie beside one another; rows as found may be off by a reading, but each lies above the one before it.
inline void require_apart(const std::vector<PurlinRow>& rows, bool as_found) {
    for (std::size_t i = 1; i < rows.size(); ++i) {
        const Length least = as_found ? no_length : (rows[i - 1].width + rows[i].width) / 2.0 - count_tolerance;
        for (const std::vector<PlanePoint>* line : {&rows[i - 1].centreline, &rows[i].centreline}) {
            for (const PlanePoint& p : *line) {
                const Length apart = up_at(rows[i].centreline, p.along) - up_at(rows[i - 1].centreline, p.along);
                if (!(apart > least)) {
                    throw FaultError{Fault{FaultCode::does_not_fit, "purlins.spacing", describe_length(apart),
                                           "row " + std::to_string(i) + " above row " + std::to_string(i - 1) +
                                               " by more than " + describe_length(least)}};
                }
            }
        }
    }
}

[[nodiscard]] inline Length widest_space(const std::vector<PurlinRow>& rows) {
    Length widest = no_length;
    for (std::size_t i = 1; i < rows.size(); ++i) {
        for (const std::vector<PlanePoint>* line : {&rows[i - 1].centreline, &rows[i].centreline}) {
            for (const PlanePoint& p : *line) {
                widest = longer(widest, up_at(rows[i].centreline, p.along) - up_at(rows[i - 1].centreline, p.along));
            }
        }
    }
    return widest;
}
}  // namespace detail

/// Purlin rows on a four-sided plane whose eave lies on up = 0. The fascia is the eave row; by rule, a ridge row closes
/// the top. Rows that would lie on the ridge row are left out.
///
/// Throws `FaultError`: the first fault of an input, not_supported for a plane that is not four-sided and convex,
/// does_not_fit where a found row lies above the ridge, rows lie on or across one another, or the plane is too short for
/// its ridge row; too_much_work above `most_rows`.
[[nodiscard]] inline PurlinRows purlin_rows(const PurlinPlane& plane, const RowSpacing& spacing,
                                            const RowPlan& plan = {}) {
    require_sound(plan, "purlins");
    require_sound(spacing, "purlins.spacing");
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
    return result;
}

/// The rows as what sheets lie on.
[[nodiscard]] inline Supports<Surface::purlin_top> supports_of(const PurlinRows& rows) {
    Supports<Surface::purlin_top> supports{SupportRun::along_eave, {}, rows.spacing};
    for (const PurlinRow& row : rows.rows) {
        supports.lines.push_back({row.centreline, row.width});
    }
    return supports;
}

}  // namespace eavewright
