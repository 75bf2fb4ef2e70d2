// SPDX-License-Identifier: BSL-1.0
#pragma once

// From a roof and its layout to the sheet that goes onto one of its planes.

#include <eavewright/fault.hpp>
#include <eavewright/order/handling.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/wind_speed.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/site_cover_steps.hpp>
#include <eavewright/whole_roof/site_frame_steps.hpp>
#include <eavewright/whole_roof/site_sheet.hpp>
#include <eavewright/whole_roof/site_truing_steps.hpp>

#include <algorithm>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {
inline void require_own_result(const RoofDescription& roof, const RoofResult& result, std::size_t slope) {
    const std::size_t slopes = slope_count(roof.shape);
    if (result.slopes.size() != slopes) {
        throw FaultError{Fault{FaultCode::contradiction, "result", std::to_string(result.slopes.size()) + " slopes",
                               std::to_string(slopes) + ", as the description has"}};
    }
    if (slope >= slopes) {
        throw FaultError{
            Fault{FaultCode::out_of_range, "slope", std::to_string(slope), "0 to " + std::to_string(slopes - 1)}};
    }
    for (const SlopeResult& each : result.slopes) {
        if (each.steel.has_value() != roof.steel.has_value() || each.purlins.has_value() != roof.purlins.has_value() ||
            each.sheets.pieces.empty() == roof.deck.has_value() ||
            (each.purlins && each.marks.size() < each.purlins->rows.size()) ||
            (each.steel && (each.steel->panels.pieces.empty() || each.steel->panels.marks.empty()))) {
            throw FaultError{
                Fault{FaultCode::contradiction, "result", "layers of another roof", "the layout of this description"}};
        }
    }
}

/// The least wind that pulls too hard on a piece of each kind, rounded down to a whole number.
[[nodiscard]] inline std::string wind_words(const RoofResult& result, bool metric) {
    std::string words;
    for (const char* kind : {"sheet", "panel"}) {
        std::optional<WindSpeed> least;
        for (const CarriedPieces& piece : result.carried) {
            if (piece.name == kind && (!least || piece.handling.wind_limit < *least)) {
                least = piece.handling.wind_limit;
            }
        }
        if (least) {
            const double speed = std::floor(metric ? least->metres_per_second() : least->mph());
            words += (words.empty() ? "" : ", ") + std::string{"a "} + kind + " at " + write_decimal(speed, 0) +
                     (metric ? " m/s" : " mph");
        }
    }
    return words;
}

[[nodiscard]] inline std::vector<std::string> cautions_of(const SiteInput& in) {
    std::vector<std::string> all{
        std::string{layout_caution},
        "Falls: settle how you are held before you climb, as the local rules for work at height ask; this sheet is no "
        "plan for that. Let somebody know when you go up and come down.",
        "Temporary bracing stays until what replaces it is fastened: unbraced frames fall in a row."};
    const std::string winds = wind_words(in.result, in.roof.tick.is_metric());
    all.push_back("Wind: fasten each piece before the next goes up, leave nothing loose overnight." +
                  (winds.empty()
                       ? std::string{}
                       : " By the figures given, steady wind pulls too hard on " + winds + "; gusts do so sooner."));
    if (in.result.truing) {
        all.push_back("Pulling. " + std::string{pulling_caution});
    }
    all.push_back(
        "Lifting. " +
        std::string{
            in.roof.handling
                ? handling_caution
                : std::string_view{
                      "Know what a piece weighs before it leaves the ground; follow the local rules for lifting."}});
    return all;
}

inline void add_step(std::optional<SiteStep> step, std::vector<SiteStep>& steps) {
    if (step) {
        steps.push_back(std::move(*step));
    }
}

[[nodiscard]] inline std::vector<SiteStep> steps_of(const SiteInput& in) {
    std::vector<SiteStep> steps{corners_step(in), eave_step(in), top_step(in), diagonals_step(in), braced_step(in)};
    if (in.slope.purlins) {
        steps.push_back(purlin_step(in));
    }
    add_step(base_line_step(in), steps);
    if (in.roof.deck) {
        steps.push_back(first_row_step(in));
    }
    steps.push_back(before_cover_step(in));
    if (in.slope.steel) {
        add_step(eave_trim_step(in), steps);
    }
    if (is_decked_over(in)) {
        steps.push_back(underlayment_step(in));
    }
    if (in.slope.steel) {
        add_step(rake_trim_step(in), steps);
        add_step(lines_step(in), steps);
        steps.push_back(first_panel_step(in));
        add_step(panel_marks_step(in), steps);
        add_step(last_panel_step(in), steps);
        add_step(top_trim_step(in), steps);
    }
    add_truing_steps(in, steps);
    std::stable_sort(steps.begin(), steps.end(), [](const SiteStep& a, const SiteStep& b) {
        return place_in_work(a.kind) < place_in_work(b.kind);
    });
    return steps;
}
}  // namespace detail

/// The sheet for plane `slope` (0 is the front): the steps that apply to it, in the order of work (`place_in_work`), and the
/// cautions. Every figure is a field of `result` or `roof` where one of them holds it; the sheet's own are the long
/// triangle, the plumb limit over the wall's height, and the marks at the right rake.
///
/// Limits are the description's own tolerances, else those of `limits`. `result` is what `whole_roof(roof)` gave.
/// Throws `FaultError`: the first fault of `limits`, contradiction where the result plainly is another's, out_of_range
/// for a plane that is not there.
[[nodiscard]] inline SiteSheet site_sheet(const RoofDescription& roof, const RoofResult& result, std::size_t slope,
                                          const SiteLimits& limits = {}) {
    require_sound(limits, "limits");
    detail::require_own_result(roof, result, slope);
    const detail::SiteInput in{roof, result, result.slopes[slope], slope, limits};
    return {
        .roof = roof.name, .slope = in.slope.name, .steps = detail::steps_of(in), .cautions = detail::cautions_of(in)};
}

/// A sheet with many readings in two: what is trued, up to how the roof is laid as it stands, and what is laid. Each keeps all
/// cautions. One sheet where nothing was read of the roof.
[[nodiscard]] inline std::vector<SiteSheet> sheets_of_work(const SiteSheet& sheet) {
    SiteSheet true_up = sheet;
    SiteSheet lay = sheet;
    true_up.steps.clear();
    lay.steps.clear();
    bool was_read = false;
    for (const SiteStep& step : sheet.steps) {
        was_read = was_read || (step.kind >= SiteStepKind::posts && step.kind != SiteStepKind::lay_true);
        const bool first = place_in_work(step.kind) <= place_in_work(SiteStepKind::lay_true);
        (first ? true_up : lay).steps.push_back(step);
    }
    return was_read ? std::vector<SiteSheet>{true_up, lay} : std::vector<SiteSheet>{sheet};
}

}  // namespace eavewright
