// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lays underlayment on a plane, course by course from the eave, out of rolls in the order that they are opened.

#include <eavewright/fault.hpp>
#include <eavewright/roof/outline.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/course_cover.hpp>
#include <eavewright/tiling/course_runs.hpp>
#include <eavewright/tiling/judge_underlayment.hpp>
#include <eavewright/tiling/roll_walk.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/tiling/underlayment_ground.hpp>
#include <eavewright/tiling/underlayment_rule.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {
/// What has to be covered: the plane, pulled down past its eave and up over its ridge.
[[nodiscard]] inline std::vector<PlanePoint> ground_to_cover(const std::vector<PlanePoint>& o,
                                                             const UnderlaymentPlan& plan) {
    return {{o[0].along, -plan.eave_past},           {o[1].along, -plan.eave_past},           o[1], o[2],
            {o[2].along, o[2].up + plan.ridge_wrap}, {o[3].along, o[3].up + plan.ridge_wrap}, o[3], o[0]};
}

/// Outermost ends of an outline between two heights; it reaches into them.
[[nodiscard]] inline Span ends_between(const std::vector<PlanePoint>& outline, Length low, Length high) {
    Span ends{Length::from_inches(length_limit_in), Length::from_inches(-length_limit_in)};
    const auto take = [&](Length along) { ends = {shorter(ends.low, along), longer(ends.high, along)}; };
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const PlanePoint a = outline[i];
        const PlanePoint b = outline[(i + 1) % outline.size()];
        if (a.up >= low && a.up <= high) {
            take(a.along);
        }
        for (const Length at : {low, high}) {
            if ((a.up < at && at < b.up) || (b.up < at && at < a.up)) {
                take(a.along + (b.along - a.along) * ((at - a.up) / (b.up - a.up)));
            }
        }
    }
    return ends;
}

/// Strips from the eave up on a plane of four sides, each as long as its ground.
[[nodiscard]] inline std::vector<UnderlaymentCourse> courses_of_four_sided(const UnderlaymentPlan& plan,
                                                                           const CourseLaps& laps,
                                                                           const std::vector<PlanePoint>& ground,
                                                                           std::int64_t sheets) {
    const Length top = extent_of(ground).high.up;
    const bool has_starter = laps.starter > count_tolerance;
    std::vector<UnderlaymentCourse> courses;
    const auto add = [&](bool starter, Length low, Length height, Length exposed) {
        const Span ends = ends_between(ground, low, low + height);
        courses.push_back({static_cast<std::int32_t>(courses.size()), starter, low, low + height, height, exposed,
                           ends.low - plan.rake_past, ends.high + plan.rake_past,
                           height + count_tolerance < laps.roll_width});
    };
    const bool rips = plan.top == TopCourse::ripped;
    if (has_starter) {
        add(true, -plan.eave_past, rips ? shorter(laps.starter, top + plan.eave_past) : laps.starter, no_length);
    }
    for (std::int64_t k = 0; k < sheets; ++k) {
        const Length low = laps.exposure * static_cast<double>(k) - plan.eave_past;
        const Length height = rips ? shorter(laps.roll_width, top - low) : laps.roll_width;
        add(false, low, height, k + 1 == sheets ? height : laps.exposure);
    }
    return courses;
}

/// By how much the first or last side of an outline is longer than it is high; 1 where it does not run from the eave up to
/// `top`.
[[nodiscard]] inline double lean_of(PlanePoint foot, PlanePoint head, Length top) {
    const bool reaches = head.up > foot.up + count_tolerance && head.up + count_tolerance >= top;
    return reaches ? hypotenuse(head.along - foot.along, head.up - foot.up) / (head.up - foot.up) : 1.0;
}

/// Lower edges on a tape up the rakes, which are longer than they are high where they lean.
[[nodiscard]] inline std::vector<CourseMark> marks_of(const std::vector<UnderlaymentCourse>& courses, double left,
                                                      double right, Tick tick) {
    std::vector<CourseMark> marks;
    marks.reserve(courses.size());
    for (const UnderlaymentCourse& course : courses) {
        marks.push_back({course.index, course.low, round_to_tick(course.low * left, tick),
                         round_to_tick(course.low * right, tick)});
    }
    return marks;
}

[[nodiscard]] inline UnderlaymentAreas areas_of(const Underlayment& laid, Area net) {
    const Length width = laid.laps.roll_width;
    const Area none = Area::from_value(0.0);
    UnderlaymentAreas areas{width * laid.roll_length * static_cast<double>(laid.rolls),
                            net,
                            none,
                            none,
                            none,
                            none,
                            width * laid.set_aside,
                            width * laid.left_over,
                            none};
    areas.waste = areas.bought - net;
    areas.past_edges = -net;
    for (const UnderlaymentCourse& course : laid.courses) {
        areas.head_laps += (course.right - course.left) * (course.height - course.exposed);
        areas.past_edges += (course.right - course.left) * course.exposed;
    }
    for (const RollEndLap& lap : laid.end_laps) {
        const RollPiece& piece = laid.pieces[lap.over];
        areas.end_laps += (lap.right - lap.left) * (piece.high - piece.low);
    }
    for (const RollPiece& piece : laid.pieces) {
        areas.ripped += piece.length * (width - (piece.high - piece.low));
    }
    return areas;
}

[[nodiscard]] inline double exact_courses_of(const CourseLaps& laps, Length slope, Length past_ridge) {
    const double once = (slope + past_ridge - laps.head_lap) / laps.exposure;
    const double twice = (slope - (laps.roll_width - 2.0 * laps.exposure)) / laps.exposure;
    return laps.layers == 1 || once > twice ? once : twice;
}

inline void require_few_courses(std::int64_t sheets) {
    if (sheets >= most_courses) {
        throw FaultError{Fault{FaultCode::too_much_work, "underlayment.rule", std::to_string(sheets) + " courses",
                               "fewer than " + std::to_string(most_courses)}};
    }
}

/// An underlayment with no course yet.
[[nodiscard]] inline Underlayment bare_underlayment(const UnderlaymentPlan& plan, Length slope, Length past_ridge) {
    const CourseLaps laps = laps_of(plan.rule, plan.roll.width);
    const std::int64_t sheets = full_courses(laps, slope, past_ridge);
    require_few_courses(sheets);
    const Area none = Area::from_value(0.0);
    return {.start = plan.start,
            .laps = laps,
            .roll_length = plan.roll.length,
            .slope = slope,
            .exact_courses = exact_courses_of(laps, slope, past_ridge),
            .sheets = sheets,
            .rolls = 0,
            .laid = no_length,
            .set_aside = no_length,
            .cut_offs = 0,
            .left_over = no_length,
            .courses = {},
            .pieces = {},
            .end_laps = {},
            .marks = {},
            .areas = {none, none, none, none, none, none, none, none, none},
            .findings = {}};
}

/// A layout, and the runs that it was cut for.
struct UnderlaymentRuns {
    Underlayment laid;
    std::vector<std::vector<CourseRun>> courses;
};

inline void lay_runs(const UnderlaymentPlan& plan, UnderlaymentRuns& made) {
    RollWalk walk{plan, made.laid};
    for (std::size_t c = 0; c < made.courses.size(); ++c) {
        walk.lay(static_cast<std::int32_t>(c), made.courses[c]);
    }
    made.laid.left_over = walk.left();
    judge_end_laps(made.laid);
    judge_pieces(plan, made.courses, made.laid);
}

/// On a convex plane of four sides whose eave is level, between rakes: its ridge may lie as it was measured.
[[nodiscard]] inline UnderlaymentRuns lay_on_four_sided(const std::vector<PlanePoint>& o, Area net,
                                                        const UnderlaymentPlan& plan) {
    UnderlaymentRuns made{bare_underlayment(plan, longer(o[2].up, o[3].up) + plan.eave_past, plan.ridge_wrap), {}};
    Underlayment& laid = made.laid;
    laid.courses = courses_of_four_sided(plan, laid.laps, ground_to_cover(o, plan), laid.sheets);
    for (const UnderlaymentCourse& course : laid.courses) {
        made.courses.push_back({CourseRun{course.left, course.right, course.low, course.high, course.height}});
    }
    made.courses.back()[0].last = true;
    made.courses.back()[0].ridge = shorter(o[2].up, o[3].up);
    lay_runs(plan, made);
    laid.marks = marks_of(laid.courses, hypotenuse(o[3].along - o[0].along, o[3].up) / o[3].up,
                          hypotenuse(o[2].along - o[1].along, o[2].up) / o[2].up, plan.tick);
    laid.areas = areas_of(laid, net);
    return made;
}

/// What the runs of each course make of it; a course without runs is left out.
inline void add_courses(const std::vector<CourseStrip>& strips, std::vector<std::vector<CourseRun>> runs,
                        UnderlaymentRuns& made) {
    Underlayment& laid = made.laid;
    laid.sheets = 0;
    for (std::size_t c = 0; c < runs.size(); ++c) {
        if (runs[c].empty()) {
            continue;
        }
        UnderlaymentCourse course{static_cast<std::int32_t>(laid.courses.size()),
                                  strips[c].starter,
                                  strips[c].low,
                                  strips[c].low,
                                  no_length,
                                  strips[c].starter ? no_length : laid.laps.exposure,
                                  runs[c][0].left,
                                  runs[c][0].right,
                                  false};
        for (const CourseRun& run : runs[c]) {
            course.left = shorter(course.left, run.left);
            course.right = longer(course.right, run.right);
            course.height = longer(course.height, run.height);
        }
        course.high = course.low + course.height;
        course.ripped = course.height + count_tolerance < laid.laps.roll_width;
        laid.sheets += course.starter ? 0 : 1;
        laid.courses.push_back(course);
        made.courses.push_back(std::move(runs[c]));
    }
    if (!laid.courses.empty() && !laid.courses.back().starter) {
        laid.courses.back().exposed = laid.courses.back().height;
    }
}

/// On a plane of any outline.
template <Surface surface>
[[nodiscard]] UnderlaymentRuns lay_on_any(const Plane<surface>& plane, const UnderlaymentPlan& plan) {
    const CourseLaps laps = laps_of(plan.rule, plan.roll.width);
    const Ground ground = ground_of(plane, plan, laps.layers);
    UnderlaymentRuns made{
        bare_underlayment(plan, ground.plane_top - ground.base, longer(no_length, ground.top - ground.plane_top)), {}};
    Underlayment& laid = made.laid;
    const std::vector<CourseStrip> strips = course_strips(laps, ground.base, laid.sheets);
    std::vector<std::vector<CourseRun>> runs = runs_on(ground, plan, strips, laps.layers);
    mark_last(runs);
    add_courses(strips, std::move(runs), made);
    lay_runs(plan, made);
    const std::vector<PlanePoint>& o = plane.outline;
    laid.marks = marks_of(laid.courses, lean_of(o[0], o[o.size() - 1], ground.plane_top),
                          lean_of(o[1], o[2], ground.plane_top), plan.tick);
    laid.areas = areas_of(laid, net_area(plane));
    laid.areas.head_laps = cover_of(plane.outline, plane.openings, made.courses).over_others;
    laid.areas.past_edges = -laid.areas.net - laid.areas.head_laps;
    for (const std::vector<CourseRun>& course : made.courses) {
        for (const CourseRun& run : course) {
            laid.areas.past_edges += (run.right - run.left) * run.height;
        }
    }
    return made;
}

/// Whether a plane is laid as one of four sides: convex, without openings, a level eave on up = 0, rakes beside it, a ridge or
/// a high eave above.
template <Surface surface>
[[nodiscard]] bool is_between_rakes(const Plane<surface>& plane) {
    const std::vector<PlanePoint>& o = plane.outline;
    const auto is_one_of = [&](std::size_t edge, EdgeKind one, EdgeKind two) {
        return plane.edges.size() != 4 || plane.edges[edge] == one || plane.edges[edge] == two ||
               plane.edges[edge] == EdgeKind::pitch_break;
    };
    return o.size() == 4 && is_convex(o) && plane.openings.empty() && o[0].up == no_length && o[1].up == no_length &&
           shorter(o[2].up, o[3].up) > count_tolerance && is_one_of(0, EdgeKind::eave, EdgeKind::eave) &&
           is_one_of(1, EdgeKind::rake, EdgeKind::rake) && is_one_of(2, EdgeKind::ridge, EdgeKind::high_eave) &&
           is_one_of(3, EdgeKind::rake, EdgeKind::rake);
}

template <Surface surface>
[[nodiscard]] UnderlaymentRuns lay_underlayment_runs(const Plane<surface>& plane, const UnderlaymentPlan& plan) {
    require_sound(plan, "underlayment");
    require_sound(plane, "plane");
    if (is_between_rakes(plane)) {
        return lay_on_four_sided(plane.outline, net_area(plane), plan);
    }
    require_outline(plane);
    return lay_on_any(plane, plan);
}
}  // namespace detail

/// Lays underlayment on a plane of any outline, in courses along its eave: one grid of courses from the lowest eave up,
/// whatever lies between. Where notches or openings part a course, each part of it is a run of its own, from end to end.
///
/// Every run reaches from the outermost point of its strip at one side to that at the other, so every point is covered where
/// a side leans: past rakes by `rake_past`, past hips by `hip_past`, up walls by `turn_up`, over or short of a valley as
/// `valley` says. Openings are cut smaller than they are by `turn_up`; what lies in a course is cut out of it, what parts a
/// course ends it. Courses reach `ridge_wrap` past every ridge, on a plane of four sides past its highest corner.
///
/// Rolls are cut in sequence: what is left on one begins the next course. A piece is cut back, and its rest set aside,
/// where its end lap would come nearer than the offset to one of the course below, or would leave a sliver at the far
/// end; what is left on a roll is set aside whole where no piece of it serves. Where a whole roll does not serve either,
/// it is laid all the same and found. A strip ripped from the roll (starter, last course) leaves its other part as waste.
///
/// Throws `FaultError`: the first fault of `plan`; not_supported for an outline that crosses itself or has no kinds of edges,
/// and for an opening that is not convex or off the plane; too_much_work from `most_courses` or above `most_roll_pieces`.
template <Surface surface>
[[nodiscard]] Underlayment lay_underlayment(const Plane<surface>& plane, const UnderlaymentPlan& plan) {
    return detail::lay_underlayment_runs(plane, plan).laid;
}

}  // namespace eavewright
