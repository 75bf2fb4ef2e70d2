// SPDX-License-Identifier: BSL-1.0
#pragma once

// The sheet that a lone builder takes onto one plane: steps in order, each with what to read, what it should read, how
// far it may be off, what to do then, and the marks needed at that moment. What a sheet is; site_steps.hpp makes it.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// Closed, numbered list of the steps. Numbers are for good; `place_in_work` is the order in which they are taken.
enum class SiteStepKind : int {
    corners_plumb = 0,
    eave_line = 1,            ///< straight and level
    top_line = 2,             ///< the ridge, or the high edge, straight and at its height
    diagonals = 3,            ///< of every slope
    diagonals_braced = 4,     ///< the same with braces on and straps off
    purlin_marks = 5,         ///< at both rakes
    base_line = 6,            ///< of the first column, by a long triangle
    first_row = 7,            ///< of sheets, to a string
    before_cover = 8,         ///< the finished surface read again, before the steel is ordered
    eave_trim = 9,            ///< under the underlayment
    underlayment = 10,        ///< courses
    rake_trim = 11,           ///< over the underlayment
    closures_and_lines = 12,  ///< closures at the eave, screw lines snapped
    first_panel = 13,         ///< square to the eave
    panel_marks = 14,         ///< ribs on the mark every few panels
    last_panel = 15,          ///< its cover, and what to rip it to
    top_trim = 16,            ///< ridge cap or high-edge trim
    posts = 17,               ///< against their bay marks, where they were read
    walls = 18,               ///< pulled plumb as a whole, where their posts were read
    strings = 19,             ///< lines to be moved, where a string was read
    tails = 20,               ///< to be trimmed to one line, where they were read
    read_again = 21,          ///< marks that the readings leave open or that disagree
    pull = 22,                ///< one strap at a time, where readings say what to pull
    twist = 23,               ///< of a slope, by strings crossed over it
    shims = 24,               ///< under purlins that were read
    lay_true = 25,            ///< how to lay a slope that stays out of square
};

/// Place of a step in the order of work.
[[nodiscard]] constexpr int place_in_work(SiteStepKind kind) noexcept {
    constexpr std::array<int, 26> places{2,  3,  6,  8,  10, 12, 15, 16, 17, 18, 19, 20, 21,
                                         22, 23, 24, 25, 0,  1,  4,  5,  7,  9,  11, 13, 14};
    return places[static_cast<std::size_t>(kind)];
}
template <>
struct NamesOf<SiteStepKind> {
    static constexpr std::array<std::string_view, 26> list{"corners_plumb",
                                                           "eave_line",
                                                           "top_line",
                                                           "diagonals",
                                                           "diagonals_braced",
                                                           "purlin_marks",
                                                           "base_line",
                                                           "first_row",
                                                           "before_cover",
                                                           "eave_trim",
                                                           "underlayment",
                                                           "rake_trim",
                                                           "closures_and_lines",
                                                           "first_panel",
                                                           "panel_marks",
                                                           "last_panel",
                                                           "top_trim",
                                                           "posts",
                                                           "walls",
                                                           "strings",
                                                           "tails",
                                                           "read_again",
                                                           "pull",
                                                           "twist",
                                                           "shims",
                                                           "lay_true"};
};

/// One figure with its name.
struct SiteFigure {
    std::string label;
    Length length;
};
template <>
struct FieldsOf<SiteFigure> {
    static constexpr auto list = field_list(field("label", FieldUnit::none, "what it is", &SiteFigure::label),
                                            field("length", FieldUnit::length, "how long", &SiteFigure::length));
};

/// One row of marks: a purlin row, a screw line, a panel.
struct SiteMark {
    std::string label;
    std::vector<std::optional<Length>>
        at;  ///< one for each of the step's `mark_columns`, to the tick; none where there
             ///< is nothing to mark
};
template <>
struct FieldsOf<SiteMark> {
    static constexpr auto list =
        field_list(field("label", FieldUnit::none, "which row, line or panel", &SiteMark::label),
                   field("at", FieldUnit::length, "a mark for each column, null for none", &SiteMark::at));
};

/// One step. Figures are exact; who writes them rounds them, a limit always down.
struct SiteStep {
    SiteStepKind kind;
    std::string title;
    std::string reading;                 ///< what to read, and how
    std::vector<SiteFigure> expected;    ///< none where the reading is an offset from a string or a level
    std::optional<Length> limit;         ///< how far the reading may be off
    std::string limit_source;            ///< whose limit that is; empty where there is none
    std::string if_off;                  ///< what to do then
    std::vector<SiteFigure> correction;  ///< by how much, where the readings were given
    std::string marks_from;              ///< what the marks are measured from; empty without marks
    std::vector<std::string> mark_columns;
    std::vector<SiteMark> marks;
};
template <>
struct FieldsOf<SiteStep> {
    static constexpr auto list = field_list(
        field("kind", FieldUnit::none, "which step", &SiteStep::kind),
        field("title", FieldUnit::none, "the step in a few words", &SiteStep::title),
        field("reading", FieldUnit::none, "what to read, and how", &SiteStep::reading),
        field("expected", FieldUnit::none, "what it should read", &SiteStep::expected),
        field("limit", FieldUnit::length, "how far it may be off, null where no figure is set", &SiteStep::limit),
        field("limit_source", FieldUnit::none, "whose limit that is", &SiteStep::limit_source),
        field("if_off", FieldUnit::none, "what to do when it is off", &SiteStep::if_off),
        field("correction", FieldUnit::none, "by how much, where readings were given", &SiteStep::correction),
        field("marks_from", FieldUnit::none, "what the marks are measured from", &SiteStep::marks_from),
        field("mark_columns", FieldUnit::none, "headings of the marks", &SiteStep::mark_columns),
        field("marks", FieldUnit::none, "marks needed at this moment", &SiteStep::marks));
};

/// The sheet of one plane.
struct SiteSheet {
    std::string roof;
    std::string slope;  ///< front or back, or roof for a single slope
    std::vector<SiteStep> steps;
    std::vector<std::string> cautions;
};
template <>
struct FieldsOf<SiteSheet> {
    static constexpr auto list =
        field_list(field("roof", FieldUnit::none, "name of the roof", &SiteSheet::roof),
                   field("slope", FieldUnit::none, "name of the slope", &SiteSheet::slope),
                   field("steps", FieldUnit::none, "steps in order", &SiteSheet::steps),
                   field("cautions", FieldUnit::none, "to be read before anyone climbs", &SiteSheet::cautions));
};

/// Limits that no description states, in one place.
struct SiteLimits {
    /// Wood wall plumb, 1/4 in in 10 ft: D. K. Ballast, Handbook of Construction Tolerances, quoted by WoodWorks.
    Length plumb = Length::from_inches(0.25);
    Length plumb_height = Length::from_feet(10.0);
    Length eave = Length::from_inches(0.25);           ///< off the string and off level, end to end; common practice
    Length top = Length::from_inches(0.25);            ///< the same of ridge or high edge; common practice
    Length marks = Length::from_inches(1.0 / 16);      ///< a purlin off its mark; common practice
    Length first_row = Length::from_inches(1.0 / 16);  ///< half of a 1/8 in gap of sheets; common practice
    Length trim = Length::from_inches(0.125);          ///< off its string; common practice
    std::int32_t panels_between = 5;  ///< ribs are held to a mark every so many panels; common practice
};

/// Faults: out_of_range or not_finite. Limits 0 to 12 in, the plumb height 1 in to 100 ft, panels 1 to 1000.
inline void find_faults(const SiteLimits& limits, const Path& path, Faults& faults) {
    const auto require = [&](Length given, std::string_view name) {
        require_within(given, no_length, Length::from_inches(12.0), Path{path, name}, faults);
    };
    require(limits.plumb, "plumb");
    require_within(limits.plumb_height, one_inch, Length::from_feet(100.0), Path{path, "plumb_height"}, faults);
    require(limits.eave, "eave");
    require(limits.top, "top");
    require(limits.marks, "marks");
    require(limits.first_row, "first_row");
    require(limits.trim, "trim");
    if (limits.panels_between < 1 || limits.panels_between > 1000) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "panels_between"}.text(),
                               std::to_string(limits.panels_between), "1 to 1000 panels"});
    }
}

/// A right angle laid out with the tape: legs of 3 and 4 parts, the third side of 5.
struct LongTriangle {
    Length eave_leg;
    Length slope_leg;
    Length third_side;
};

/// The longest triangle of 3-4-5 within `along` the eave and `up` the slope, its part a whole number of feet (or of
/// 100 mm for a metric tick), of inches (10 mm) on a plane too short for that. None where neither fits.
/// Throws `FaultError` for lengths that cannot be counted.
[[nodiscard]] inline std::optional<LongTriangle> long_triangle(Length along, Length up, Tick tick) {
    const bool metric = tick.is_metric();
    for (const Length part : {metric ? Length::from_millimetres(100.0) : Length::from_feet(1.0),
                              metric ? Length::from_millimetres(10.0) : one_inch}) {
        const auto parts = [&](double eave_share, double slope_share) {
            const std::int64_t by_eave = whole_steps(along, part * eave_share);
            const std::int64_t by_slope = whole_steps(up, part * slope_share);
            return static_cast<double>(by_eave < by_slope ? by_eave : by_slope);
        };
        const double lying = parts(4.0, 3.0);
        const double standing = parts(3.0, 4.0);
        const bool lies = lying >= standing;
        if ((lies ? lying : standing) > 0.0) {
            const Length eave_leg = part * (lies ? 4.0 * lying : 3.0 * standing);
            const Length slope_leg = part * (lies ? 3.0 * lying : 4.0 * standing);
            return LongTriangle{eave_leg, slope_leg, diagonal(eave_leg, slope_leg)};
        }
    }
    return std::nullopt;
}

}  // namespace eavewright
