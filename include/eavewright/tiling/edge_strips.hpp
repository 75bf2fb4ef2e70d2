// SPDX-License-Identifier: BSL-1.0
#pragma once

// Strips of underlayment along valleys, which lie first, and over hips where they are asked for, which lie last.
//
//    \ \     / /
//     \ \   / /     half of the strip on each plane, its middle on the line;
//      \ \ / /      courses lap its edges
//       \ | /
//
// A strip belongs to the line where two planes meet, so what is asked for is a list of lines, each once.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/tiling/course_runs.hpp>
#include <eavewright/tiling/lay_underlayment.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/tiling/underlayment_rule.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// How strips along edges are to be laid. Measured up the line from its foot.
struct EdgeStripPlan {
    UnderlaymentRoll roll;
    Length width = Length::from_inches(36.0);    ///< middle on the line; common practice: a full roll of 36 in
    Length end_lap = Length::from_inches(12.0);  ///< the upper piece over the lower; common practice
    Length past_foot =
        Length::from_inches(18.0);  ///< below the line's foot, cut along both eaves: half the width fills the
                                    ///< corner wherever the line is no flatter than 45 degrees to the eave
                                    ///< on the plane, as between equal pitches; common practice
    Length past_head =
        Length::from_inches(6.0);  ///< over the ridge, or over the strip that meets it there; common practice
    Length sliver = Length::from_inches(36.0);  ///< as in `UnderlaymentPlan`
};
/// For hips: the same, but that nothing reaches past the foot, where a strip is cut along both eaves.
[[nodiscard]] inline EdgeStripPlan hip_strip_plan(UnderlaymentRoll roll) {
    return EdgeStripPlan{.roll = roll, .past_foot = no_length};
}

/// The strip along one line.
struct EdgeStrip {
    std::size_t line;  ///< index of what was asked for
    Length length;     ///< of the line
    Length low;        ///< where the strip begins, negative below the foot
    Length high;
};

/// Strips along all lines, out of rolls cut in sequence.
struct EdgeStrips {
    Length width;
    Length roll_length;
    Length lines;        ///< length of all lines
    std::int64_t rolls;  ///< to buy
    Length laid;         ///< length of roll laid
    Length set_aside;
    std::int64_t cut_offs;
    Length left_over;  ///< on the last roll
    Area bought;
    Area ripped;  ///< off the length of the roll, where it is wider than the strips
    std::vector<EdgeStrip> strips;
    std::vector<RollPiece> pieces;     ///< `course` is the strip; left and right are up its line, low and high off it
    std::vector<RollEndLap> end_laps;  ///< the upper piece is over the lower
    std::vector<UnderlaymentFinding> findings;
};

template <>
struct FieldsOf<EdgeStrip> {
    static constexpr auto list =
        field_list(field("line", FieldUnit::count, "index of the line", &EdgeStrip::line),
                   field("length", FieldUnit::length, "of the line", &EdgeStrip::length),
                   field("low", FieldUnit::length, "where the strip begins, up the line", &EdgeStrip::low),
                   field("high", FieldUnit::length, "where it ends", &EdgeStrip::high));
};
template <>
struct FieldsOf<EdgeStrips> {
    static constexpr auto list =
        field_list(field("width", FieldUnit::length, "of the strips", &EdgeStrips::width),
                   field("roll_length", FieldUnit::length, "length of a roll", &EdgeStrips::roll_length),
                   field("lines", FieldUnit::length, "length of all lines", &EdgeStrips::lines),
                   field("rolls", FieldUnit::count, "rolls to buy", &EdgeStrips::rolls),
                   field("laid", FieldUnit::length, "length of roll laid", &EdgeStrips::laid),
                   field("set_aside", FieldUnit::length, "length of roll cut off or set aside", &EdgeStrips::set_aside),
                   field("cut_offs", FieldUnit::count, "pieces cut off or set aside", &EdgeStrips::cut_offs),
                   field("left_over", FieldUnit::length, "length on the last roll", &EdgeStrips::left_over),
                   field("bought", FieldUnit::area, "whole rolls", &EdgeStrips::bought),
                   field("ripped", FieldUnit::area, "ripped off along the length", &EdgeStrips::ripped),
                   field("strips", FieldUnit::none, "one for each line", &EdgeStrips::strips),
                   field("pieces", FieldUnit::none, "pieces, strip by strip from the foot up", &EdgeStrips::pieces),
                   field("end_laps", FieldUnit::none, "upper pieces over lower ones", &EdgeStrips::end_laps),
                   field("findings", FieldUnit::none, "what is wrong where", &EdgeStrips::findings));
};

namespace detail {
/// The plan of courses that cuts strips: no head lap, end laps wherever they fall.
[[nodiscard]] inline UnderlaymentPlan strip_courses(const EdgeStripPlan& plan) {
    UnderlaymentPlan courses{
        .roll = plan.roll,
        .rule = SingleCoverage{.head_lap = no_length, .end_lap = plan.end_lap, .end_offset = no_length}};
    courses.sliver = plan.sliver;
    courses.narrow = no_length;
    return courses;
}
}  // namespace detail

inline void find_faults(const EdgeStripPlan& plan, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    const Length foot = 12.0 * one_inch;
    require_within(plan.end_lap, no_length, 4.0 * foot, Path{path, "end_lap"}, faults);
    if (faults.size() == before) {
        find_faults(detail::strip_courses(plan), path, faults);
    }
    if (faults.size() != before) {
        return;
    }
    require_within(plan.width, one_inch, plan.roll.width + count_tolerance, Path{path, "width"}, faults);
    require_within(plan.past_foot, no_length, 20.0 * foot, Path{path, "past_foot"}, faults);
    require_within(plan.past_head, no_length, 20.0 * foot, Path{path, "past_head"}, faults);
}

/// Strips along lines of these lengths, in their order, each from its foot up. Lengths of valleys: those of `shared_edges`, or
/// `edge_length` of one of the two planes, each valley once.
///
/// Throws `FaultError`: the first fault of `plan`; out_of_range for a line that is not longer than 0, too_much_work above
/// `most_courses` lines or `most_roll_pieces` pieces.
[[nodiscard]] inline EdgeStrips lay_edge_strips(const std::vector<Length>& lines, const EdgeStripPlan& plan) {
    require_sound(plan, "strips");
    Faults faults;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        require_within(lines[i], count_tolerance, Length::from_inches(length_limit_in), Path{Path{"lines"}, i}, faults);
    }
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
    if (lines.size() > static_cast<std::size_t>(most_courses)) {
        throw FaultError{Fault{FaultCode::too_much_work, "lines", std::to_string(lines.size()) + " lines",
                               "no more than " + std::to_string(most_courses)}};
    }
    const UnderlaymentPlan courses = detail::strip_courses(plan);
    detail::UnderlaymentRuns made{detail::bare_underlayment(courses, plan.roll.width, no_length), {}};
    EdgeStrips result{plan.width,
                      plan.roll.length,
                      no_length,
                      0,
                      no_length,
                      no_length,
                      0,
                      no_length,
                      Area::from_value(0.0),
                      Area::from_value(0.0),
                      {},
                      {},
                      {},
                      {}};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Length high = lines[i] + plan.past_head;
        made.courses.push_back(
            {detail::CourseRun{-plan.past_foot, high, -plan.width / 2.0, plan.width / 2.0, plan.width}});
        result.strips.push_back({i, lines[i], -plan.past_foot, high});
        result.lines += lines[i];
    }
    detail::lay_runs(courses, made);
    result.rolls = made.laid.rolls;
    result.laid = made.laid.laid;
    result.set_aside = made.laid.set_aside;
    result.cut_offs = made.laid.cut_offs;
    result.left_over = made.laid.left_over;
    result.bought = plan.roll.width * plan.roll.length * static_cast<double>(result.rolls);
    result.ripped = (plan.roll.width - plan.width) * result.laid;
    result.pieces = std::move(made.laid.pieces);
    result.end_laps = std::move(made.laid.end_laps);
    result.findings = std::move(made.laid.findings);
    return result;
}

}  // namespace eavewright
