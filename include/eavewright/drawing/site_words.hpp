// SPDX-License-Identifier: BSL-1.0
#pragma once

// How the figures of a site sheet are written, on the page and in plain text alike.

#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>
#include <eavewright/whole_roof/site_sheet.hpp>

#include <cmath>
#include <string>
#include <vector>

namespace eavewright::detail {

/// A limit in inches or millimetres, never more than it is: down to the tick, and finer where that would leave nothing.
[[nodiscard]] inline std::string write_limit(Length limit, Tick tick) {
    const Length at_tick = round_down_to_tick(limit, tick);
    if (tick.is_metric()) {
        const double tenths = std::floor(millimetres(limit + count_tolerance) * 10.0);
        return at_tick > no_length ? write_millimetres(at_tick) : write_decimal(tenths / 10.0, 1) + " mm";
    }
    constexpr Tick finest = Tick::of_inch(64);
    return write_inches(at_tick > no_length ? at_tick : round_down_to_tick(limit, finest), finest);
}

/// `label 12'-0"; label 3'-6"`.
[[nodiscard]] inline std::string write_figures(const std::vector<SiteFigure>& figures, Tick tick) {
    std::string words;
    for (const SiteFigure& figure : figures) {
        words += (words.empty() ? "" : "; ") + figure.label + " " + write_length(figure.length, tick);
    }
    return words;
}

/// The limit with its source, or nothing.
[[nodiscard]] inline std::string limit_words(const SiteStep& step, Tick tick) {
    return step.limit ? write_limit(*step.limit, tick) + " (" + step.limit_source + ")" : std::string{};
}

/// What to do when the reading is off, and by how much where that is known.
[[nodiscard]] inline std::string if_off_words(const SiteStep& step, Tick tick) {
    const std::string figures = write_figures(step.correction, tick);
    return step.if_off + (figures.empty() ? "" : " As given: " + figures + ".");
}

/// `front slope`, or `roof`.
[[nodiscard]] inline std::string slope_words(const SiteSheet& sheet) {
    return sheet.slope == "roof" ? sheet.slope : sheet.slope + " slope";
}

/// One mark as the tape reads it, a dash where there is none.
[[nodiscard]] inline std::string mark_words(const SiteMark& mark, std::size_t column, Tick tick) {
    return column < mark.at.size() && mark.at[column] ? write_length(*mark.at[column], tick) : "-";
}

}  // namespace eavewright::detail
