// SPDX-License-Identifier: BSL-1.0
#pragma once

// Humps and hollows of purlin tops under a string, over the frames or up a slope, and the shims that take them out.
// Shims only raise, so what stands highest decides how high all others must come; where that asks for more than a shim
// may be, the high ones are planed or dropped instead.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/least_shims.hpp>
#include <eavewright/squaring/standing.hpp>
#include <eavewright/squaring/string_line.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// To be shown with every figure of this header.
inline constexpr std::string_view purlin_print_note =
    "Humps and hollows of the purlins print through steel: take them out at the frames before it goes on. Shims only "
    "raise; a high purlin is planed or dropped in its seat. Do not cut a truss or a rafter to lower one without its "
    "designer.";

/// How far a purlin's top may stand off a straight line where no tolerance is given. Common practice: 1/8 in in 10 ft;
/// held over the whole run, which is stricter where that is longer.
inline constexpr Length purlin_tolerance = Length::from_inches(0.125);

/// Most supports of one purlin, and the most that their heights may differ.
inline constexpr std::size_t most_supports = 100;
inline constexpr Length most_height_difference = Length::from_inches(12.0);

/// Purlin tops as read at their supports, over a string stretched along them.
struct PurlinRun {
    /// Station along the string, and how far the top stands above the straight line of the string (sag taken off:
    /// `without_sag`); below is negative. Three supports at least.
    std::vector<StringReading> supports;
    std::optional<Length> tolerance = std::nullopt;  ///< either way, 0 to 10 in; none given: `purlin_tolerance`
    Length reading_deviation = one_inch / 32.0;      ///< of one height; common practice. 0.0001 to 12 in
    double level_factor = two_sided_95;              ///< for each support by itself. 0.1 to 10
    Tick tick = Tick::of_inch(16);                   ///< shims come in whole ticks, no more than twice the tolerance
    Length most_shim = one_inch / 2.0;               ///< tallest stack of shims, 0 to 12 in; common practice
};

/// One support of the purlin.
struct PurlinSupport {
    Length station;
    Length height;            ///< over the string, as read
    Length off;               ///< height less the best line through all tops (least worst): positive is a hump
    Length kink;              ///< height less the chord of its neighbours, 0 at the ends: what the steel shows here
    StandingVerdict verdict;  ///< `off` against the tolerance
    std::int64_t ticks;       ///< shim in ticks
    Length shim;
    Length plane;  ///< to be planed or dropped instead
    Length after;  ///< top over the line of the plan, once shimmed or planed: within the tolerance
};

/// A purlin's top against a straight line, and the plan that makes it straight.
struct PurlinLine {
    StandingVerdict verdict;  ///< as found, worst of the supports
    bool straight;            ///< as found, every support reads within
    Length tolerance;
    bool tolerance_given;     ///< false: `purlin_tolerance`, common practice
    std::int64_t highest;     ///< support furthest above the best line, from 0
    std::int64_t lowest;      ///< and furthest below
    Length plan_at_first;     ///< the plan's line over the string at the first support
    Length plan_at_last;      ///< and at the last one
    std::int64_t shim_ticks;  ///< of all supports
    std::int64_t shimmed;     ///< supports that get shims
    Length largest_shim;      ///< of one support
    std::int64_t planed;      ///< supports that are planed or dropped
    std::vector<PurlinSupport> supports;
};

template <>
struct FieldsOf<PurlinSupport> {
    static constexpr auto list =
        field_list(field("station", FieldUnit::length, "along the string", &PurlinSupport::station),
                   field("height", FieldUnit::length, "over the string, as read", &PurlinSupport::height),
                   field("off", FieldUnit::length, "over the best line through all tops", &PurlinSupport::off),
                   field("kink", FieldUnit::length, "over the chord of its neighbours", &PurlinSupport::kink),
                   field("verdict", FieldUnit::none, "off against the tolerance", &PurlinSupport::verdict),
                   field("ticks", FieldUnit::count, "shim in ticks", &PurlinSupport::ticks),
                   field("shim", FieldUnit::length, "shim under the purlin", &PurlinSupport::shim),
                   field("plane", FieldUnit::length, "to be planed or dropped", &PurlinSupport::plane),
                   field("after", FieldUnit::length, "over the plan's line, once done", &PurlinSupport::after));
};
template <>
struct FieldsOf<PurlinLine> {
    static constexpr auto list = field_list(
        field("verdict", FieldUnit::none, "as found, worst of the supports", &PurlinLine::verdict),
        field("straight", FieldUnit::none, "as found, every support reads within", &PurlinLine::straight),
        field("tolerance", FieldUnit::length, "off a straight line either way", &PurlinLine::tolerance),
        field("tolerance_given", FieldUnit::none, "else common practice", &PurlinLine::tolerance_given),
        field("highest", FieldUnit::count, "support furthest above the best line, from 0", &PurlinLine::highest),
        field("lowest", FieldUnit::count, "support furthest below it, from 0", &PurlinLine::lowest),
        field("plan_at_first", FieldUnit::length, "plan's line at the first support", &PurlinLine::plan_at_first),
        field("plan_at_last", FieldUnit::length, "plan's line at the last support", &PurlinLine::plan_at_last),
        field("shim_ticks", FieldUnit::count, "ticks of shims in all", &PurlinLine::shim_ticks),
        field("shimmed", FieldUnit::count, "supports that get shims", &PurlinLine::shimmed),
        field("largest_shim", FieldUnit::length, "tallest stack of shims", &PurlinLine::largest_shim),
        field("planed", FieldUnit::count, "supports planed or dropped", &PurlinLine::planed),
        field("supports", FieldUnit::none, "each support", &PurlinLine::supports));
};

/// Faults: missing_field for fewer than three supports, too_much_work above `most_supports`; out_of_order; out_of_range,
/// also for heights more than `most_height_difference` apart; not_finite; does_not_fit for a tick that no shim can meet
/// the tolerance with.
inline void find_faults(const PurlinRun& run, const Path& path, Faults& faults) {
    const Path supports{path, "supports"};
    const std::size_t before = faults.size();
    squaring_detail::find_row_faults(run.supports, fewest_string_readings, supports, faults);
    if (run.supports.size() > most_supports && faults.size() == before) {
        faults.push_back(Fault{FaultCode::too_much_work, supports.text(), std::to_string(run.supports.size()),
                               "at most " + std::to_string(most_supports) + " supports"});
    }
    for (std::size_t i = 1; i < run.supports.size() && faults.size() == before; ++i) {
        const Length first = run.supports[0].offset;
        require_within(run.supports[i].offset, first - most_height_difference, first + most_height_difference,
                       Path{Path{supports, i}, "offset"}, faults);
    }
    if (run.tolerance) {
        require_within(*run.tolerance, no_length, one_inch * 10.0, Path{path, "tolerance"}, faults);
    }
    require_within(run.reading_deviation, one_inch / 10000.0, one_inch * 12.0, Path{path, "reading_deviation"}, faults);
    find_level_faults(run.level_factor, Path{path, "level_factor"}, faults);
    require_within(run.most_shim, no_length, one_inch * 12.0, Path{path, "most_shim"}, faults);
    const Length band = run.tolerance.value_or(purlin_tolerance) * 2.0;
    if (faults.size() == before && run.tick.step() > band) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "tick"}.text(), describe_length(run.tick.step()),
                               "a tick no coarser than twice the tolerance, " + describe_length(band)});
    }
}

/// Where a purlin's top is high or low, and what makes it straight. Where no stack need be taller than `most_shim` in
/// the plan of least shims, that is it: no plan of whole ticks that only raises has a lesser sum (of those with the same
/// sum, low stacks are preferred, not proven lowest). Otherwise high supports are planed, the fewest that keep every
/// stack within `most_shim`, and of these the least depth in all. Lengths to `count_tolerance`. Throws as `find_faults`
/// of PurlinRun. To be shown with `purlin_print_note`.
[[nodiscard]] inline PurlinLine straighten_purlin(const PurlinRun& run) {
    require_sound(run, "purlin");
    const StringLine found = best_line(StringRun{.readings = run.supports,
                                                 .tolerance = run.tolerance.value_or(purlin_tolerance),
                                                 .reading_deviation = run.reading_deviation,
                                                 .level_factor = run.level_factor},
                                       BestBy::least_worst);
    const squaring_detail::LinePoints points = squaring_detail::points_of(run.supports);
    const double band = inches(found.tolerance);
    const squaring_detail::ShimPlan plan =
        squaring_detail::plan_shims(points, band, inches(run.tick.step()), whole_steps(run.most_shim, run.tick.step()));
    PurlinLine result{.verdict = found.verdict,
                      .straight = found.straight,
                      .tolerance = found.tolerance,
                      .tolerance_given = run.tolerance.has_value(),
                      .highest = 0,
                      .lowest = 0,
                      .plan_at_first = one_inch * plan.line.at(points[0].x),
                      .plan_at_last = one_inch * plan.line.at(points[points.size() - 1].x),
                      .shim_ticks = 0,
                      .shimmed = 0,
                      .largest_shim = no_length,
                      .planed = 0,
                      .supports = {}};
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Length line = one_inch * plan.line.at(points[i].x);
        const Length height = run.supports[i].offset;
        const Length plane = plan.planed[i] ? height - line - found.tolerance : no_length;
        const Length shim = run.tick.length(static_cast<double>(plan.ticks[i]));
        const bool inside = i > 0 && i + 1 < points.size();
        const Length kink =
            inside
                ? one_inch * (points[i].y - squaring_detail::line_through(points[i - 1], points[i + 1]).at(points[i].x))
                : no_length;
        result.supports.push_back(PurlinSupport{.station = run.supports[i].station,
                                                .height = height,
                                                .off = found.stations[i].off,
                                                .kink = kink,
                                                .verdict = found.stations[i].verdict,
                                                .ticks = plan.ticks[i],
                                                .shim = shim,
                                                .plane = plane,
                                                .after = height + shim - plane - line});
        const auto here = static_cast<std::int64_t>(i);
        const auto off_of = [&](std::int64_t k) { return result.supports[static_cast<std::size_t>(k)].off; };
        result.highest = off_of(here) > off_of(result.highest) ? here : result.highest;
        result.lowest = off_of(here) < off_of(result.lowest) ? here : result.lowest;
        result.shim_ticks += plan.ticks[i];
        result.shimmed += plan.ticks[i] > 0 ? 1 : 0;
        result.planed += plane > no_length ? 1 : 0;
        result.largest_shim = longer(result.largest_shim, shim);
    }
    return result;
}

}  // namespace eavewright
