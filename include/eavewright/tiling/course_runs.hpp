// SPDX-License-Identifier: BSL-1.0
#pragma once

// The runs of a course: one for each part of the ground that lies in its strip, each laid from end to end by itself.
//
// A run is left out where the courses above or below it cover its part as often as the rule asks: where a higher eave begins
// within a head lap, or a lower ridge ends in one.

#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/tiling/underlayment_ground.hpp>
#include <eavewright/tiling/underlayment_rule.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// The rectangle that a run covers, and what of the ground is in it.
struct CourseRun {
    Length left;
    Length right;
    Length low;
    Length high;
    Length height;
    std::optional<Length> ridge{};    ///< lowest corner of the ridges that it passes
    std::optional<PlanePart> part{};  ///< none where it lies past an edge only
    bool last = false;                ///< no course lies over it
};

/// What one strip of ground asks for, before it is known whether other courses cover it.
struct WantedRun {
    Length left;
    Length right;
    Length low;   ///< of the ground in it
    Length high;  ///< of the ground in it
    Length plane_high;
    std::optional<Length> ridge;
    std::optional<PlanePart> part;
};

/// The kind of the plane's edge on which both points lie; none on the edges of a course.
[[nodiscard]] inline std::optional<EdgeKind> kind_of_side(const Ground& ground, PlanePoint a, PlanePoint b) {
    const PlanePoint middle{(a.along + b.along) / 2.0, (a.up + b.up) / 2.0};
    const std::vector<PlanePoint>& o = ground.outline;
    for (std::size_t i = 0; i < o.size(); ++i) {
        const PlanePoint from = o[i];
        const PlanePoint to = o[(i + 1) % o.size()];
        if ((to.up > from.up) == (b.up > a.up) && distance_to(middle, from, to) < count_tolerance) {
            return ground.edges[i];
        }
    }
    return std::nullopt;
}

[[nodiscard]] inline bool lies_on(PlanePoint p, const std::vector<PlanePoint>& outline) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
        if (distance_to(p, outline[i], outline[(i + 1) % outline.size()]) < count_tolerance) {
            return true;
        }
    }
    return false;
}

/// A part of the plane in a strip, with what lies past its sides.
[[nodiscard]] inline std::optional<WantedRun> run_over(const Ground& ground, const UnderlaymentPlan& plan,
                                                       PlanePart part) {
    const std::vector<PlanePoint>& o = part.outline;
    const std::optional<Span> reach = reach_beside_strips(o, ground.on_strips);
    if (!reach) {
        return std::nullopt;
    }
    const Extent extent = extent_of(o);
    WantedRun run{reach->low, reach->high, extent.low.up, extent.high.up, extent.high.up, std::nullopt, std::nullopt};
    for (std::size_t i = 0; i < o.size(); ++i) {
        const PlanePoint a = o[i];
        const PlanePoint b = o[(i + 1) % o.size()];
        const std::optional<EdgeKind> kind = a.up != b.up ? kind_of_side(ground, a, b) : std::nullopt;
        const Length past = kind ? past_beside(*kind, plan) : no_length;
        if (past > no_length && b.up > a.up) {
            run.right = longer(run.right, longer(a.along, b.along) + past);
        } else if (past > no_length) {
            run.left = shorter(run.left, shorter(a.along, b.along) - past);
        }
    }
    run.part = std::move(part);
    return run;
}

inline void add_flap(const Flap& flap, const Extent& reach, WantedRun& run) {
    run.left = shorter(run.left, reach.low.along);
    run.right = longer(run.right, reach.high.along);
    run.low = shorter(run.low, reach.low.up);
    run.high = longer(run.high, reach.high.up);
    if (flap.ridge) {
        const Length low = shorter(flap.from.up, flap.to.up);
        run.ridge = run.ridge ? shorter(*run.ridge, low) : low;
    }
}

/// The run whose part has the flap's edge for a side; none where the edge itself is not in the strip.
[[nodiscard]] inline WantedRun* run_beside(const Flap& flap, Span strip, std::vector<WantedRun>& runs) {
    const PlanePoint a = flap.from;
    const PlanePoint b = flap.to;
    const Length low = longer(strip.low, shorter(a.up, b.up));
    const Length high = shorter(strip.high, longer(a.up, b.up));
    if (low > high) {
        return nullptr;
    }
    const bool level = magnitude(b.up - a.up) <= count_tolerance;
    const double share = level ? 0.5 : ((low + high) / 2.0 - a.up) / (b.up - a.up);
    const PlanePoint middle{a.along + (b.along - a.along) * share, a.up + (b.up - a.up) * share};
    for (WantedRun& run : runs) {
        if (lies_on(middle, run.part->outline)) {
            return &run;
        }
    }
    return nullptr;
}

/// Adds what lies past the edges in a strip: to the run over the part it touches, else as runs of their own.
inline void add_flaps(const Ground& ground, Span strip, std::vector<WantedRun>& runs) {
    std::vector<WantedRun> alone;
    for (const Flap& flap : ground.flaps) {
        const Extent all = extent_of(flap.outline);
        if (all.high.up <= strip.low + count_tolerance || all.low.up >= strip.high - count_tolerance) {
            continue;
        }
        Extent reach = extent_of(clip_up(flap.outline, strip));
        if (WantedRun* const run = run_beside(flap, strip, runs)) {
            add_flap(flap, reach, *run);
            continue;
        }
        reach.low.along -= flap.past_left;
        reach.high.along += flap.past_right;
        WantedRun run{reach.low.along, reach.high.along, reach.low.up, reach.high.up,
                      reach.low.up,    std::nullopt,     std::nullopt};
        add_flap(flap, reach, run);
        alone.push_back(std::move(run));
    }
    std::sort(alone.begin(), alone.end(), [](const WantedRun& a, const WantedRun& b) { return a.left < b.left; });
    const std::size_t parts = runs.size();
    for (const WantedRun& run : alone) {
        if (runs.size() > parts && run.left <= runs.back().right) {
            WantedRun& before = runs.back();
            before.right = longer(before.right, run.right);
            before.low = shorter(before.low, run.low);
            before.high = longer(before.high, run.high);
            before.ridge = before.ridge && run.ridge ? shorter(*before.ridge, *run.ridge)
                                                     : (before.ridge ? before.ridge : run.ridge);
        } else {
            runs.push_back(run);
        }
    }
}

/// Where one course lies, all the way across.
struct CourseStrip {
    bool starter;
    Length low;
    Length high;
};

[[nodiscard]] inline std::vector<CourseStrip> course_strips(const CourseLaps& laps, Length base, std::int64_t sheets) {
    std::vector<CourseStrip> strips;
    if (laps.starter > count_tolerance) {
        strips.push_back({true, base, base + laps.starter});
    }
    for (std::int64_t k = 0; k < sheets; ++k) {
        const Length low = laps.exposure * static_cast<double>(k) + base;
        strips.push_back({false, low, low + laps.roll_width});
    }
    return strips;
}

/// A point inside a part, half way up.
[[nodiscard]] inline std::optional<PlanePoint> point_in(const PlanePart& part) {
    const Extent extent = extent_of(part.outline);
    const Length up = (extent.low.up + extent.high.up) / 2.0;
    const std::vector<Span> spans = along_spans(part.outline, part.cutouts, up);
    return spans.empty() ? std::nullopt : std::optional<PlanePoint>{{(spans[0].low + spans[0].high) / 2.0, up}};
}
/// Whether the next courses cover all of a run's ground. They are laid there: none of it lies below them, so that no course
/// below covers it in their place.
[[nodiscard]] inline bool is_covered_above(const std::vector<CourseStrip>& strips, std::size_t course,
                                           const WantedRun& run, int layers) {
    const std::size_t above = course + static_cast<std::size_t>(run.part ? layers : 1);
    return above < strips.size() && strips[above].low <= run.low + count_tolerance;
}
/// Whether the courses before cover all of it. They are laid there: a part that lies in one lap from its foot to its top, which
/// both this course and those would leave to each other, is a whole plane, and the first course begins at its foot.
[[nodiscard]] inline bool is_covered_below(const std::vector<CourseStrip>& strips, std::size_t course,
                                           const WantedRun& run, int layers) {
    const std::size_t deep = static_cast<std::size_t>(run.part ? layers : 1);
    return course >= deep && run.high <= strips[course - 1].high + count_tolerance &&
           run.plane_high <= strips[course - deep].high + count_tolerance;
}

/// The runs of every strip, from the eave up, each from left to right.
[[nodiscard]] inline std::vector<std::vector<CourseRun>> runs_on(const Ground& ground, const UnderlaymentPlan& plan,
                                                                 const std::vector<CourseStrip>& strips, int layers) {
    std::vector<std::vector<CourseRun>> courses;
    for (std::size_t c = 0; c < strips.size(); ++c) {
        const Span strip{strips[c].low, strips[c].high};
        std::vector<WantedRun> wanted;
        for (PlanePart& part : parts_up(ground.outline, ground.openings, strip)) {
            std::optional<WantedRun> run = run_over(ground, plan, std::move(part));
            if (run && run->high - run->low > count_tolerance) {
                wanted.push_back(std::move(*run));
            }
        }
        add_flaps(ground, strip, wanted);
        std::vector<CourseRun> runs;
        for (WantedRun& run : wanted) {
            if (run.right - run.left > count_tolerance && !is_covered_above(strips, c, run, layers) &&
                !is_covered_below(strips, c, run, layers)) {
                const Length high = plan.top == TopCourse::ripped ? shorter(strip.high, run.high) : strip.high;
                runs.push_back(
                    {run.left, run.right, strip.low, high, high - strip.low, run.ridge, std::move(run.part)});
            }
        }
        std::sort(runs.begin(), runs.end(), [](const CourseRun& a, const CourseRun& b) { return a.left < b.left; });
        courses.push_back(std::move(runs));
    }
    return courses;
}

/// Marks the runs that no run of the next course lies over.
inline void mark_last(std::vector<std::vector<CourseRun>>& courses) {
    for (std::size_t c = 0; c < courses.size(); ++c) {
        for (CourseRun& run : courses[c]) {
            const auto over = [&](const CourseRun& next) { return next.left < run.right && run.left < next.right; };
            run.last = c + 1 == courses.size() || std::none_of(courses[c + 1].begin(), courses[c + 1].end(), over);
        }
    }
}

}  // namespace eavewright::detail
