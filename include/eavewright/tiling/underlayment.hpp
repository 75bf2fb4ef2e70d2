// SPDX-License-Identifier: BSL-1.0
#pragma once

// Underlayment on a plane: what is asked, and the layout that answers. The laying itself is in lay_underlayment.hpp.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/underlayment_rule.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// Most courses and most pieces that one call lays; more is refused as too_much_work.
inline constexpr std::int64_t most_courses = 10'000;
inline constexpr std::size_t most_roll_pieces = 100'000;

/// A roll. Common ones, from memory: 36 in by 144 ft, which is 4 squares gross, and 36 in by 72 ft.
struct UnderlaymentRoll {
    Length length;
    Length width = Length::from_inches(36.0);
};

/// What becomes of the last course where it is wider than it need be.
enum class TopCourse {
    ripped,  ///< cut along its length to end at the ridge wrap
    whole,   ///< all of it goes over the ridge
};
template <>
struct NamesOf<TopCourse> {
    static constexpr std::array<std::string_view, 2> list{"ripped", "whole"};
};

/// Where a course ends at a valley. The strip along the valley (edge_strips.hpp) lies first.
enum class ValleyCourses {
    onto_strip,  ///< it laps the strip's edge; under a rule of two layers it reaches the valley's line all the same
    past_line,   ///< it is carried over the valley's line, onto the neighbour
};
template <>
struct NamesOf<ValleyCourses> {
    static constexpr std::array<std::string_view, 2> list{"onto_strip", "past_line"};
};

/// How underlayment is to be laid. The ridge is covered unbroken: a vent slot is cut out of it afterwards.
struct UnderlaymentPlan {
    UnderlaymentRoll roll;
    UnderlaymentRule rule;         ///< from `choose_underlayment`, or the maker's
    Length eave_past = no_length;  ///< of the first course's lower edge past the plane's eave; common practice: flush
    Length rake_past = no_length;  ///< past the plane at each rake; common practice: flush, under the rake trim
    Length ridge_wrap = Length::from_inches(6.0);  ///< over the ridge, along the slope; common practice
    TopCourse top = TopCourse::ripped;
    StartCorner start = StartCorner::eave_left;          ///< the rake that every course begins at
    Length sliver = Length::from_inches(36.0);           ///< a piece of roll shorter than this is not laid if it can
                                                         ///< be helped; common practice
    Length narrow = Length::from_inches(6.0);            ///< a lower last course is found; common practice
    Length most_past_ridge = Length::from_inches(12.0);  ///< more of the last course over the ridge is found; common
                                                         ///< practice
    Tick tick = Tick::of_inch(16);                       ///< what marks are rounded to
    Length hip_past = Length::from_inches(6.0);  ///< past a hip, along the course, and over a peak between hips; common
                                                 ///< practice
    ValleyCourses valley = ValleyCourses::onto_strip;  ///< common practice
    Length valley_lap = Length::from_inches(6.0);  ///< over the strip's edge, square to the valley; or past its line,
                                                   ///< along the course; common practice
    Length valley_strip = Length::from_inches(36.0);  ///< width of the strip, its middle on the valley; common practice
    Length turn_up = Length::from_inches(4.0);        ///< up a wall and the sides of an opening, which is cut that much
                                                      ///< smaller; common practice
};

/// One course, from the eave up; the starter, where there is one, is the first. Where notches and openings part it, its
/// ends are the outermost, and its height that of the highest part.
struct UnderlaymentCourse {
    std::int32_t index;
    bool starter;
    Length low;      ///< lower edge, up the slope from the eave; negative past it
    Length high;     ///< upper edge
    Length height;   ///< of the strip: the roll's width, or what it is ripped to
    Length exposed;  ///< of it above the lower edge, until the next course; 0 for a starter
    Length left;     ///< ends, along the eave
    Length right;
    bool ripped;  ///< narrower than the roll
};

/// A length cut from a roll, as it lies. Pieces stand course by course, from the rake that was begun at.
struct RollPiece {
    std::int32_t course;
    std::int32_t roll;  ///< from 0, in the order that they are opened
    Length from;        ///< where it begins on the roll
    Length length;
    Length left;  ///< the rectangle that it covers
    Length right;
    Length low;
    Length high;
    Length roll_left;  ///< on the roll once it is cut
};

/// Where one piece of a course lies over the end of another.
struct RollEndLap {
    std::int32_t course;
    std::size_t under;  ///< index of the piece laid first
    std::size_t over;
    Length left;
    Length right;
};

/// Where a course's lower edge goes, on a tape up each rake from its corner at the eave. Marks are rounded from the exact
/// sum; those past the eave are negative. A side that is not one straight edge from the eave to the top is marked straight up
/// the slope.
struct CourseMark {
    std::int32_t course;
    Length exact;  ///< up the slope, square to the eave
    Length left;   ///< along the left rake, to the tick
    Length right;
};

/// Where the area bought goes. Everything but the plane is waste: bought = net + all the others.
struct UnderlaymentAreas {
    Area bought;
    Area net;         ///< of the plane
    Area head_laps;   ///< of courses over courses; the second layer too
    Area end_laps;    ///< of pieces over pieces
    Area past_edges;  ///< past eave, rakes and ridge, and where a course runs on beside a leaning rake or over an
                      ///< opening; less what is left to valley strips
    Area ripped;      ///< off starter and last course, along their length
    Area offcuts;     ///< pieces of roll set aside, or cut off so that end laps keep away from each other
    Area left_over;   ///< on the last roll
    Area waste;       ///< bought less net
};

/// Closed, numbered list of what can be wrong with a layout of underlayment.
enum class UnderlaymentFindingCode : int {
    end_lap_too_near = 0,   ///< an end lap nearer than the offset to one of the next course
    sliver_piece = 1,       ///< a piece of roll shorter than the sliver limit
    narrow_course = 2,      ///< the last course is ripped lower than the limit
    course_past_ridge = 3,  ///< more of the last course goes over the ridge than the limit
};
template <>
struct NamesOf<UnderlaymentFindingCode> {
    static constexpr std::array<std::string_view, 4> list{"end_lap_too_near", "sliver_piece", "narrow_course",
                                                          "course_past_ridge"};
};

/// One thing found: what, on which piece, where, how much, and what the limit is.
struct UnderlaymentFinding {
    UnderlaymentFindingCode code;
    std::size_t piece;
    PlanePoint place;
    Length measured;
    Length limit;
};

/// A plane laid with underlayment.
struct Underlayment {
    StartCorner start;
    CourseLaps laps;
    Length roll_length;
    Length slope;           ///< from the first course's lower edge to the highest corner of the ridge
    double exact_courses;   ///< full sheets, before they are rounded up
    std::int64_t sheets;    ///< courses, the starter apart
    std::int64_t rolls;     ///< to buy
    Length laid;            ///< length of roll laid
    Length set_aside;       ///< length of roll cut off or set aside as waste
    std::int64_t cut_offs;  ///< how many pieces that is
    Length left_over;       ///< length on the last roll
    std::vector<UnderlaymentCourse> courses;
    std::vector<RollPiece> pieces;
    std::vector<RollEndLap> end_laps;
    std::vector<CourseMark> marks;
    UnderlaymentAreas areas;
    std::vector<UnderlaymentFinding> findings;
};

/// How many courses lie over a point, its edges included up to `count_tolerance`; an end lap counts once. On a plane with
/// notches a piece is taken as its whole rectangle: `underlayment_as_laid` says what of it lies on the plane.
[[nodiscard]] inline std::int64_t coverage_at(const Underlayment& underlayment, PlanePoint point) {
    std::int64_t layers = 0;
    std::int32_t counted = -1;
    for (const RollPiece& piece : underlayment.pieces) {
        const bool under = point.along >= piece.left - count_tolerance &&
                           point.along <= piece.right + count_tolerance && point.up >= piece.low - count_tolerance &&
                           point.up <= piece.high + count_tolerance;
        if (under && piece.course != counted) {
            counted = piece.course;
            ++layers;
        }
    }
    return layers;
}

template <>
struct FieldsOf<UnderlaymentCourse> {
    static constexpr auto list =
        field_list(field("index", FieldUnit::count, "from the eave up", &UnderlaymentCourse::index),
                   field("starter", FieldUnit::none, "whether it is the starter", &UnderlaymentCourse::starter),
                   field("low", FieldUnit::length, "lower edge, up the slope", &UnderlaymentCourse::low),
                   field("high", FieldUnit::length, "upper edge", &UnderlaymentCourse::high),
                   field("height", FieldUnit::length, "of the strip", &UnderlaymentCourse::height),
                   field("exposed", FieldUnit::length, "until the next course", &UnderlaymentCourse::exposed),
                   field("left", FieldUnit::length, "left end, along the eave", &UnderlaymentCourse::left),
                   field("right", FieldUnit::length, "right end", &UnderlaymentCourse::right),
                   field("ripped", FieldUnit::none, "narrower than the roll", &UnderlaymentCourse::ripped));
};
template <>
struct FieldsOf<RollPiece> {
    static constexpr auto list =
        field_list(field("course", FieldUnit::count, "index of its course", &RollPiece::course),
                   field("roll", FieldUnit::count, "index of its roll", &RollPiece::roll),
                   field("from", FieldUnit::length, "where it begins on the roll", &RollPiece::from),
                   field("length", FieldUnit::length, "length to cut", &RollPiece::length),
                   field("left", FieldUnit::length, "left end, along the eave", &RollPiece::left),
                   field("right", FieldUnit::length, "right end", &RollPiece::right),
                   field("low", FieldUnit::length, "lower edge, up the slope", &RollPiece::low),
                   field("high", FieldUnit::length, "upper edge", &RollPiece::high),
                   field("roll_left", FieldUnit::length, "left on the roll", &RollPiece::roll_left));
};
template <>
struct FieldsOf<RollEndLap> {
    static constexpr auto list =
        field_list(field("course", FieldUnit::count, "index of its course", &RollEndLap::course),
                   field("under", FieldUnit::count, "index of the piece laid first", &RollEndLap::under),
                   field("over", FieldUnit::count, "index of the piece over it", &RollEndLap::over),
                   field("left", FieldUnit::length, "left end, along the eave", &RollEndLap::left),
                   field("right", FieldUnit::length, "right end", &RollEndLap::right));
};
template <>
struct FieldsOf<CourseMark> {
    static constexpr auto list =
        field_list(field("course", FieldUnit::count, "index of the course", &CourseMark::course),
                   field("exact", FieldUnit::length, "its lower edge, up the slope", &CourseMark::exact),
                   field("left", FieldUnit::length, "on a tape up the left rake, rounded", &CourseMark::left),
                   field("right", FieldUnit::length, "on a tape up the right rake, rounded", &CourseMark::right));
};
template <>
struct FieldsOf<UnderlaymentAreas> {
    static constexpr auto list =
        field_list(field("bought", FieldUnit::area, "whole rolls", &UnderlaymentAreas::bought),
                   field("net", FieldUnit::area, "of the plane", &UnderlaymentAreas::net),
                   field("head_laps", FieldUnit::area, "courses over courses", &UnderlaymentAreas::head_laps),
                   field("end_laps", FieldUnit::area, "pieces over pieces", &UnderlaymentAreas::end_laps),
                   field("past_edges", FieldUnit::area, "past the plane's edges", &UnderlaymentAreas::past_edges),
                   field("ripped", FieldUnit::area, "ripped off along the length", &UnderlaymentAreas::ripped),
                   field("offcuts", FieldUnit::area, "cut off or set aside", &UnderlaymentAreas::offcuts),
                   field("left_over", FieldUnit::area, "on the last roll", &UnderlaymentAreas::left_over),
                   field("waste", FieldUnit::area, "bought less net", &UnderlaymentAreas::waste));
};
template <>
struct FieldsOf<UnderlaymentFinding> {
    static constexpr auto list =
        field_list(field("code", FieldUnit::none, "what was found", &UnderlaymentFinding::code),
                   field("piece", FieldUnit::count, "index of the piece", &UnderlaymentFinding::piece),
                   field("place", FieldUnit::length, "where", &UnderlaymentFinding::place),
                   field("measured", FieldUnit::length, "how much", &UnderlaymentFinding::measured),
                   field("limit", FieldUnit::length, "the limit it passes", &UnderlaymentFinding::limit));
};
template <>
struct FieldsOf<Underlayment> {
    static constexpr auto list = field_list(
        field("start", FieldUnit::none, "the corner begun at", &Underlayment::start),
        field("laps", FieldUnit::none, "the rule on this roll", &Underlayment::laps),
        field("roll_length", FieldUnit::length, "length of a roll", &Underlayment::roll_length),
        field("slope", FieldUnit::length, "lowest edge to the ridge's highest corner", &Underlayment::slope),
        field("exact_courses", FieldUnit::ratio, "full sheets, not rounded up", &Underlayment::exact_courses),
        field("sheets", FieldUnit::count, "courses, the starter apart", &Underlayment::sheets),
        field("rolls", FieldUnit::count, "rolls to buy", &Underlayment::rolls),
        field("laid", FieldUnit::length, "length of roll laid", &Underlayment::laid),
        field("set_aside", FieldUnit::length, "length of roll cut off or set aside", &Underlayment::set_aside),
        field("cut_offs", FieldUnit::count, "pieces cut off or set aside", &Underlayment::cut_offs),
        field("left_over", FieldUnit::length, "length on the last roll", &Underlayment::left_over),
        field("areas", FieldUnit::none, "where the area bought goes", &Underlayment::areas),
        field("courses", FieldUnit::none, "courses from the eave up", &Underlayment::courses),
        field("pieces", FieldUnit::none, "pieces, course by course", &Underlayment::pieces),
        field("end_laps", FieldUnit::none, "end laps, course by course", &Underlayment::end_laps),
        field("marks", FieldUnit::none, "lower edges on a tape up the rakes", &Underlayment::marks),
        field("findings", FieldUnit::none, "what is wrong where", &Underlayment::findings));
};

inline void find_faults(const UnderlaymentPlan& plan, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    const Length foot = 12.0 * one_inch;
    const Path roll{path, "roll"};
    require_within(plan.roll.width, 6.0 * one_inch, 20.0 * foot, Path{roll, "width"}, faults);
    require_within(plan.roll.length, 6.0 * foot, 5000.0 * foot, Path{roll, "length"}, faults);
    require_within(plan.eave_past, no_length, 4.0 * foot, Path{path, "eave_past"}, faults);
    require_within(plan.rake_past, no_length, 4.0 * foot, Path{path, "rake_past"}, faults);
    require_within(plan.ridge_wrap, no_length, 4.0 * foot, Path{path, "ridge_wrap"}, faults);
    require_within(plan.sliver, no_length, 100.0 * foot, Path{path, "sliver"}, faults);
    require_within(plan.narrow, no_length, 20.0 * foot, Path{path, "narrow"}, faults);
    require_within(plan.most_past_ridge, plan.ridge_wrap, 20.0 * foot, Path{path, "most_past_ridge"}, faults);
    require_within(plan.hip_past, no_length, 4.0 * foot, Path{path, "hip_past"}, faults);
    require_within(plan.valley_strip, no_length, 20.0 * foot, Path{path, "valley_strip"}, faults);
    require_within(plan.valley_lap, no_length, 10.0 * foot, Path{path, "valley_lap"}, faults);
    require_within(plan.turn_up, no_length, 4.0 * foot, Path{path, "turn_up"}, faults);
    if (faults.size() != before) {
        return;
    }
    const CourseLaps laps = laps_of(plan.rule, plan.roll.width);
    find_faults(laps, Path{path, "rule"}, faults);
    if (laps.end_lap >= plan.roll.length / 2.0) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "rule.end_lap"}.text(),
                               describe_length(laps.end_lap),
                               "less than half a roll of " + describe_length(plan.roll.length)});
    }
}

}  // namespace eavewright
