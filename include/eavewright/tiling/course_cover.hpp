// SPDX-License-Identifier: BSL-1.0
#pragma once

// How often the runs of all courses lie over each other on a plane.

#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/course_runs.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright::detail {

/// Areas on the plane: runs over runs, and what no run covers.
struct CourseCover {
    Area over_others;
    Area bare;
};

/// The runs that lie over a part, of those whose strips hold it.
[[nodiscard]] inline std::vector<Span> runs_over(const std::vector<std::vector<CourseRun>>& courses,
                                                 const PlanePart& part, Span up) {
    std::vector<Span> over;
    const std::optional<PlanePoint> inside = point_in(part);
    for (const std::vector<CourseRun>& runs : courses) {
        for (const CourseRun& run : runs) {
            if (inside && run.part && run.low <= up.low && up.high <= run.high &&
                is_inside(*inside, run.part->outline)) {
                over.push_back({run.left, run.right});
            }
        }
    }
    return over;
}

/// Adds the areas of one part, cut where a run ends on it.
inline void add_cover(const PlanePart& part, const std::vector<Span>& over, CourseCover& cover) {
    const Extent extent = extent_of(part.outline);
    std::vector<Length> cuts{extent.low.along - one_inch};
    for (const Span& run : over) {
        for (const Length end : {run.low, run.high}) {
            if (end > extent.low.along && end < extent.high.along) {
                cuts.push_back(end);
            }
        }
    }
    cuts.push_back(extent.high.along + one_inch);
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
        const Length middle = longer(extent.low.along, cuts[i]) / 2.0 + shorter(extent.high.along, cuts[i + 1]) / 2.0;
        const auto times = std::count_if(over.begin(), over.end(),
                                         [&](const Span& run) { return run.low <= middle && middle <= run.high; });
        if (times == 1) {
            continue;
        }
        for (const PlanePart& cut : cuts.size() == 2
                                        ? std::vector<PlanePart>{part}
                                        : parts_along(part.outline, part.cutouts, {cuts[i], cuts[i + 1]})) {
            (times == 0 ? cover.bare : cover.over_others) +=
                net_area(cut) * (times == 0 ? 1.0 : static_cast<double>(times - 1));
        }
    }
}

/// The areas of a whole plane, level by level between the edges of all runs.
[[nodiscard]] inline CourseCover cover_of(const std::vector<PlanePoint>& outline,
                                          const std::vector<std::vector<PlanePoint>>& openings,
                                          const std::vector<std::vector<CourseRun>>& courses) {
    const Extent extent = extent_of(outline);
    std::vector<Length> levels{extent.low.up - one_inch, extent.high.up + one_inch};
    for (const std::vector<CourseRun>& runs : courses) {
        for (const CourseRun& run : runs) {
            for (const Length level : {run.low, run.high}) {
                if (level > extent.low.up && level < extent.high.up) {
                    levels.push_back(level);
                }
            }
        }
    }
    std::sort(levels.begin(), levels.end());
    levels.erase(std::unique(levels.begin(), levels.end()), levels.end());
    CourseCover cover{Area::from_value(0.0), Area::from_value(0.0)};
    for (std::size_t i = 0; i + 1 < levels.size(); ++i) {
        const Span level{levels[i], levels[i + 1]};
        const Span within{longer(level.low, extent.low.up), shorter(level.high, extent.high.up)};
        for (const PlanePart& part : parts_up(outline, openings, level)) {
            add_cover(part, runs_over(courses, part, within), cover);
        }
    }
    return cover;
}

}  // namespace eavewright::detail
