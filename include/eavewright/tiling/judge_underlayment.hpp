// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is wrong where underlayment lies: end laps too near to each other, slivers, last courses.

#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/course_runs.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace eavewright::detail {

/// Judges every end lap against those of the course below.
inline void judge_end_laps(Underlayment& laid) {
    const auto middle = [](const RollEndLap& lap) { return (lap.left + lap.right) / 2.0; };
    std::vector<Length> below;
    std::vector<Length> here;
    std::int32_t course = -1;
    for (const RollEndLap& lap : laid.end_laps) {
        if (lap.course != course) {
            below = lap.course == course + 1 ? here : std::vector<Length>{};
            std::sort(below.begin(), below.end());
            here.clear();
            course = lap.course;
        }
        here.push_back(middle(lap));
        const auto next = std::lower_bound(below.begin(), below.end(), middle(lap));
        std::optional<Length> apart;
        if (next != below.end()) {
            apart = *next - middle(lap);
        }
        if (next != below.begin()) {
            const Length back = middle(lap) - *(next - 1);
            apart = apart ? shorter(*apart, back) : back;
        }
        if (apart && *apart + count_tolerance < laid.laps.end_offset) {
            laid.findings.push_back({UnderlaymentFindingCode::end_lap_too_near, lap.over,
                                     PlanePoint{middle(lap), laid.pieces[lap.over].low}, *apart, laid.laps.end_offset});
        }
    }
}

/// From the first to one past the last piece of every run, in the order in which they were laid.
struct PieceRange {
    std::size_t first;
    std::size_t end;
};
[[nodiscard]] inline std::vector<PieceRange> pieces_of_runs(const Underlayment& laid) {
    std::vector<PieceRange> ranges;
    std::size_t lap = 0;
    for (std::size_t i = 0; i < laid.pieces.size(); ++i) {
        if (lap < laid.end_laps.size() && laid.end_laps[lap].over == i) {
            ranges.back().end = i + 1;
            ++lap;
        } else {
            ranges.push_back({i, i + 1});
        }
    }
    return ranges;
}

/// Judges the last course over a stretch of the ground.
inline void judge_last(const UnderlaymentPlan& plan, const CourseRun& run, std::size_t piece, Underlayment& laid) {
    const RollPiece& p = laid.pieces[piece];
    const PlanePoint middle{(p.left + p.right) / 2.0, (p.low + p.high) / 2.0};
    const bool ripped = run.height + count_tolerance < laid.laps.roll_width;
    if (ripped && run.height + count_tolerance < plan.narrow) {
        laid.findings.push_back({UnderlaymentFindingCode::narrow_course, piece, middle, run.height, plan.narrow});
    }
    const Length past = run.ridge ? run.high - *run.ridge : no_length;
    if (past > plan.most_past_ridge + count_tolerance) {
        laid.findings.push_back(
            {UnderlaymentFindingCode::course_past_ridge, piece, middle, past, plan.most_past_ridge});
    }
}

/// Judges short pieces (a run of one piece is as long as it is) and the last courses.
inline void judge_pieces(const UnderlaymentPlan& plan, const std::vector<std::vector<CourseRun>>& courses,
                         Underlayment& laid) {
    const auto middle = [](const RollPiece& p) { return PlanePoint{(p.left + p.right) / 2.0, (p.low + p.high) / 2.0}; };
    const std::vector<PieceRange> ranges = pieces_of_runs(laid);
    for (const PieceRange& range : ranges) {
        for (std::size_t i = range.first; range.end > range.first + 1 && i < range.end; ++i) {
            const RollPiece& piece = laid.pieces[i];
            if (piece.length + count_tolerance < plan.sliver) {
                laid.findings.push_back(
                    {UnderlaymentFindingCode::sliver_piece, i, middle(piece), piece.length, plan.sliver});
            }
        }
    }
    std::size_t next = 0;
    for (const std::vector<CourseRun>& runs : courses) {
        for (std::size_t i = 0; i < runs.size(); ++i, ++next) {
            const CourseRun& run = runs[plan.start == StartCorner::eave_left ? i : runs.size() - 1 - i];
            if (run.last) {
                judge_last(plan, run, ranges[next].end - 1, laid);
            }
        }
    }
}

}  // namespace eavewright::detail
