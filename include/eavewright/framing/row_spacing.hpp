// SPDX-License-Identifier: BSL-1.0
#pragma once

// What purlin rows are laid from: their spacing by rule or as found, their lumber, and what they lie between.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
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
inline void require_few_rows(std::int64_t rows) {
    if (rows > static_cast<std::int64_t>(most_rows)) {
        throw FaultError{Fault{FaultCode::too_much_work, "purlins.spacing", std::to_string(rows) + " rows",
                               "no more than " + std::to_string(most_rows) + " rows"}};
    }
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

/// How far two rows by rule may run into one another on a plane out of square, where the top row leans: a tape's finest mark.
inline constexpr Length rows_may_touch = Length::from_inches(1.0 / 64.0);

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

}  // namespace eavewright
