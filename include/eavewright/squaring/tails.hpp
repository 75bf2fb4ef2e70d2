// SPDX-License-Identifier: BSL-1.0
#pragma once

// Rafter or truss tails to be cut to one line. A saw only shortens: the line is one that every tail reaches.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/line_fit.hpp>
#include <eavewright/squaring/string_line.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace eavewright {

/// Which line the tails are cut to.
enum class TailRule {
    parallel_to_string,  ///< as the string runs, at the shortest tail: the eave stays parallel to what the string was
    turned_least_total,  ///< free to turn: the least sum of cuts
    turned_least_worst,  ///< free to turn: the largest cut is as small as it can be
};
template <>
struct NamesOf<TailRule> {
    static constexpr std::array<std::string_view, 3> list{"parallel_to_string", "turned_least_total",
                                                          "turned_least_worst"};
};

/// Tails as read from a string along their ends; an offset is how far a tail reaches past the string, outwards positive
/// (negative: short of it).
struct TailRun {
    std::vector<StringReading> tails;  ///< stations ascending; at least one, two where the line may turn
    TailRule rule;                     ///< no default: a turned line leaves the eave off parallel by `turn`
    Length most_cut;                   ///< longest piece that may come off a tail, 0 to 100 in
    Length least_cut = no_length;      ///< what comes off every tail, for a clean saw cut; 0 to 100 in
};

struct TrimmedTail {
    Length station;
    Length reach;   ///< past the string, as read
    Length line;    ///< where it is cut, from the string
    Length cut;     ///< reach less line: what comes off
    bool too_long;  ///< more than `most_cut`
};

/// Tails cut to one line.
struct TailTrim {
    TailRule rule;
    Length at_first;  ///< the line at the first tail, from the string
    Length at_last;
    double slope;      ///< of the line against the string
    Length turn;       ///< at_last less at_first: how far the eave comes off parallel to the string
    Length total_cut;  ///< of all tails
    Length largest_cut;
    std::int64_t largest_at;             ///< which tail, from 0
    std::vector<std::int64_t> shortest;  ///< tails that hold the line back, from 0: cut by no more than `least_cut`
    std::int64_t too_long;               ///< how many tails lose more than `most_cut`
    std::vector<TrimmedTail> cuts;
};

template <>
struct FieldsOf<TrimmedTail> {
    static constexpr auto list =
        field_list(field("station", FieldUnit::length, "along the string", &TrimmedTail::station),
                   field("reach", FieldUnit::length, "past the string, as read", &TrimmedTail::reach),
                   field("line", FieldUnit::length, "where it is cut, from the string", &TrimmedTail::line),
                   field("cut", FieldUnit::length, "what comes off", &TrimmedTail::cut),
                   field("too_long", FieldUnit::none, "more than may come off", &TrimmedTail::too_long));
};
template <>
struct FieldsOf<TailTrim> {
    static constexpr auto list =
        field_list(field("rule", FieldUnit::none, "which line", &TailTrim::rule),
                   field("at_first", FieldUnit::length, "line at the first tail, from the string", &TailTrim::at_first),
                   field("at_last", FieldUnit::length, "line at the last tail, from the string", &TailTrim::at_last),
                   field("slope", FieldUnit::ratio, "of the line against the string", &TailTrim::slope),
                   field("turn", FieldUnit::length, "off parallel to the string from first to last", &TailTrim::turn),
                   field("total_cut", FieldUnit::length, "of all tails", &TailTrim::total_cut),
                   field("largest_cut", FieldUnit::length, "largest of the cuts", &TailTrim::largest_cut),
                   field("largest_at", FieldUnit::count, "which tail that is, from 0", &TailTrim::largest_at),
                   field("shortest", FieldUnit::count, "tails that hold the line back, from 0", &TailTrim::shortest),
                   field("too_long", FieldUnit::count, "tails that lose more than they may", &TailTrim::too_long),
                   field("cuts", FieldUnit::none, "each tail", &TailTrim::cuts));
};

/// Faults: missing_field, too_much_work, out_of_order, out_of_range, not_finite, unknown_name.
inline void find_faults(const TailRun& run, const Path& path, Faults& faults) {
    detail::require_named(run.rule, Path{path, "rule"}, faults);
    squaring_detail::find_row_faults(run.tails, run.rule == TailRule::parallel_to_string ? 1 : 2, Path{path, "tails"},
                                     faults);
    require_within(run.most_cut, no_length, one_inch * 100.0, Path{path, "most_cut"}, faults);
    require_within(run.least_cut, no_length, one_inch * 100.0, Path{path, "least_cut"}, faults);
}

namespace squaring_detail {
/// The highest line under all points, by each rule.
[[nodiscard]] inline PlainLine line_under(const LinePoints& points, TailRule rule) {
    if (rule == TailRule::parallel_to_string) {
        PlainLine level{points[0].x, points[0].y, 0.0};
        for (const LinePoint& p : points) {
            level.y0 = p.y < level.y0 ? p.y : level.y0;
        }
        return level;
    }
    if (points.size() == 2) {
        return line_through(points[0], points[1]);
    }
    if (rule == TailRule::turned_least_worst) {  // the narrowest strip, lowered to its inner edge
        const Strip strip = narrowest_strip(points);
        return PlainLine{strip.line.x0, strip.line.y0 - strip.half_width, strip.line.slope};
    }
    // The sum of what a line leaves is as small as the line is high at the mean station: the hull's edge over that.
    double mean = 0.0;
    for (const LinePoint& p : points) {
        mean += p.x / static_cast<double>(points.size());
    }
    const std::vector<std::size_t> hull = hull_of(points, -1.0);
    std::size_t edge = 1;
    while (edge + 1 < hull.size() && points[hull[edge]].x < mean) {
        ++edge;
    }
    const PlainLine before = line_through(points[hull[edge - 1]], points[hull[edge]]);
    const LinePoint& corner = points[hull[edge]];
    if (edge + 1 == hull.size() || std::fabs(corner.x - mean) > inches(count_tolerance)) {
        return before;
    }
    // A corner right at the mean: every line between its edges leaves the same sum; the one nearest to the string.
    const double after = line_through(corner, points[hull[edge + 1]]).slope;
    return PlainLine{corner.x, corner.y, before.slope > 0.0 ? before.slope : after < 0.0 ? after : 0.0};
}
}  // namespace squaring_detail

/// The line to cut tails to, and what comes off each. No line that every tail reaches by `least_cut` has a lesser sum
/// (turned_least_total), a lesser largest cut (turned_least_worst), or lies further out parallel to the string. Throws
/// as `find_faults` of TailRun.
[[nodiscard]] inline TailTrim trim_tails(const TailRun& run) {
    require_sound(run, "tails");
    const squaring_detail::LinePoints points = squaring_detail::points_of(run.tails);
    const squaring_detail::PlainLine line = squaring_detail::line_under(points, run.rule);
    const auto line_at = [&](std::size_t i) { return one_inch * line.at(points[i].x) - run.least_cut; };
    TailTrim trim{.rule = run.rule,
                  .at_first = line_at(0),
                  .at_last = line_at(points.size() - 1),
                  .slope = line.slope,
                  .turn = line_at(points.size() - 1) - line_at(0),
                  .total_cut = no_length,
                  .largest_cut = no_length,
                  .largest_at = 0,
                  .shortest = {},
                  .too_long = 0,
                  .cuts = {}};
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Length there = line_at(i);
        const Length cut = longer(run.tails[i].offset - there, no_length);
        const bool too_long = cut > run.most_cut + count_tolerance;
        trim.cuts.push_back(TrimmedTail{run.tails[i].station, run.tails[i].offset, there, cut, too_long});
        trim.total_cut += cut;
        trim.too_long += too_long ? 1 : 0;
        if (cut <= run.least_cut + count_tolerance) {
            trim.shortest.push_back(static_cast<std::int64_t>(i));
        }
        if (cut > trim.largest_cut) {
            trim.largest_cut = cut;
            trim.largest_at = static_cast<std::int64_t>(i);
        }
    }
    return trim;
}

}  // namespace eavewright
