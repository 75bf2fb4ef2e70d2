// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lays underlayment on a plane, course by course from the eave, out of rolls in the order that they are opened.

#include <eavewright/fault.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/underlayment.hpp>
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

/// Strips from the eave up, each as long as its ground.
[[nodiscard]] inline std::vector<UnderlaymentCourse> courses_of(const UnderlaymentPlan& plan, const CourseLaps& laps,
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

/// The roll in hand, the laps of the course below, and what has been laid so far.
class RollWalk {
public:
    RollWalk(const UnderlaymentPlan& plan, Underlayment& laid) : plan_{plan}, laid_{laid} {}

    /// Lays one course from the rake that is begun at.
    void lay(const UnderlaymentCourse& course) {
        const Length run = course.right - course.left;
        std::vector<Length> middles;
        for (Length at = no_length; at < run;) {
            if (left_ <= count_tolerance) {
                open_roll();
            }
            const Length need = run - at;
            if (left_ + count_tolerance >= need) {
                cut(course, at, shorter(left_, need), true);
                break;
            }
            const std::optional<Length> piece = piece_before_lap(course, at, need);
            if (!piece && left_ + count_tolerance < plan_.roll.length) {
                set_aside();
                continue;
            }
            const Length length = piece ? *piece : shorter(left_, longest_before_lap(need));
            cut(course, at, length > 2.0 * end_lap() ? length : left_, false);
            set_aside();
            at += laid_.pieces.back().length - end_lap();
            middles.push_back(along_of(course, at + end_lap() / 2.0));
        }
        std::sort(middles.begin(), middles.end());
        below_ = middles;
    }

    [[nodiscard]] Length left() const { return left_; }
    /// Middles of the end laps of the course laid last, from left to right.
    [[nodiscard]] const std::vector<Length>& below() const { return below_; }

private:
    [[nodiscard]] Length end_lap() const { return laid_.laps.end_lap; }
    [[nodiscard]] bool from_left() const { return plan_.start == StartCorner::eave_left; }
    [[nodiscard]] Length along_of(const UnderlaymentCourse& course, Length at) const {
        return from_left() ? course.left + at : course.right - at;
    }
    /// Shortest piece worth laying, and long enough to get on by.
    [[nodiscard]] Length least() const { return longer(plan_.sliver, longer(2.0 * end_lap(), one_inch)); }
    /// So that what follows to the far rake is no sliver either.
    [[nodiscard]] Length longest_before_lap(Length need) const { return need - least() + end_lap(); }

    /// The longest piece of the roll in hand whose end lap keeps away from those below.
    [[nodiscard]] std::optional<Length> piece_before_lap(const UnderlaymentCourse& course, Length at,
                                                         Length need) const {
        Length piece = shorter(left_, longest_before_lap(need));
        while (piece + count_tolerance >= least()) {
            const std::optional<Length> clash = nearest_clash(course, at + piece - end_lap() / 2.0);
            if (!clash) {
                return piece;
            }
            piece = *clash - laid_.laps.end_offset - at + end_lap() / 2.0;
        }
        return std::nullopt;
    }
    /// Of the laps below that are too near to a lap in the middle of `at`, the one nearest to the start.
    [[nodiscard]] std::optional<Length> nearest_clash(const UnderlaymentCourse& course, Length at) const {
        const Length reach = laid_.laps.end_offset - count_tolerance;
        const Length place = along_of(course, at);
        const auto first = std::upper_bound(below_.begin(), below_.end(), place - reach);
        const auto last = std::lower_bound(first, below_.end(), place + reach);
        if (first == last) {
            return std::nullopt;
        }
        return from_left() ? *first - course.left : course.right - *(last - 1);
    }

    void open_roll() {
        left_ = plan_.roll.length;
        ++laid_.rolls;
    }
    void set_aside() {
        if (left_ > count_tolerance) {
            laid_.set_aside += left_;
            ++laid_.cut_offs;
        }
        left_ = no_length;
    }
    void cut(const UnderlaymentCourse& course, Length at, Length length, bool last) {
        if (laid_.pieces.size() >= most_roll_pieces) {
            throw FaultError{Fault{FaultCode::too_much_work, "underlayment.roll.length",
                                   describe_length(plan_.roll.length),
                                   "no more than " + std::to_string(most_roll_pieces) + " pieces in all"}};
        }
        const Length one = along_of(course, at);
        const Length far_end = last ? (from_left() ? course.right : course.left) : along_of(course, at + length);
        const Length from = plan_.roll.length - left_;
        left_ = longer(no_length, left_ - length);
        const std::size_t index = laid_.pieces.size();
        laid_.pieces.push_back({course.index, static_cast<std::int32_t>(laid_.rolls - 1), from, length,
                                shorter(one, far_end), longer(one, far_end), course.low, course.high, left_});
        laid_.laid += length;
        if (at > no_length) {
            const Length inner = along_of(course, at + end_lap());
            laid_.end_laps.push_back({course.index, index - 1, index, shorter(one, inner), longer(one, inner)});
        }
    }

    const UnderlaymentPlan& plan_;
    Underlayment& laid_;
    Length left_ = no_length;
    std::vector<Length> below_{};
};

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

/// Judges short pieces (a course of one piece is as long as it is) and the last course.
inline void judge_pieces(const UnderlaymentPlan& plan, Length lower_ridge, Underlayment& laid) {
    const auto middle = [](const RollPiece& p) { return PlanePoint{(p.left + p.right) / 2.0, (p.low + p.high) / 2.0}; };
    for (std::size_t i = 0; i < laid.pieces.size(); ++i) {
        const RollPiece& piece = laid.pieces[i];
        const UnderlaymentCourse& course = laid.courses[static_cast<std::size_t>(piece.course)];
        const bool alone = piece.length + count_tolerance >= course.right - course.left;
        if (!alone && piece.length + count_tolerance < plan.sliver) {
            laid.findings.push_back(
                {UnderlaymentFindingCode::sliver_piece, i, middle(piece), piece.length, plan.sliver});
        }
    }
    const UnderlaymentCourse& top = laid.courses.back();
    const std::size_t last = laid.pieces.size() - 1;
    if (top.ripped && top.height + count_tolerance < plan.narrow) {
        laid.findings.push_back(
            {UnderlaymentFindingCode::narrow_course, last, middle(laid.pieces[last]), top.height, plan.narrow});
    }
    const Length past = top.high - lower_ridge;
    if (past > plan.most_past_ridge + count_tolerance) {
        laid.findings.push_back(
            {UnderlaymentFindingCode::course_past_ridge, last, middle(laid.pieces[last]), past, plan.most_past_ridge});
    }
}

/// Lower edges on a tape up the rakes, which are longer than they are high where they lean.
[[nodiscard]] inline std::vector<CourseMark> marks_of(const std::vector<UnderlaymentCourse>& courses,
                                                      const std::vector<PlanePoint>& o, Tick tick) {
    const double left = hypotenuse(o[3].along - o[0].along, o[3].up) / o[3].up;
    const double right = hypotenuse(o[2].along - o[1].along, o[2].up) / o[2].up;
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

[[nodiscard]] inline Underlayment lay_underlayment_outline(const std::vector<PlanePoint>& o, Area net,
                                                           const UnderlaymentPlan& plan) {
    const CourseLaps laps = laps_of(plan.rule, plan.roll.width);
    const Length slope = longer(o[2].up, o[3].up) + plan.eave_past;
    const std::int64_t sheets = full_courses(laps, slope, plan.ridge_wrap);
    if (sheets >= most_courses) {
        throw FaultError{Fault{FaultCode::too_much_work, "underlayment.rule", std::to_string(sheets) + " courses",
                               "fewer than " + std::to_string(most_courses)}};
    }
    const Area none = Area::from_value(0.0);
    Underlayment laid{.start = plan.start,
                      .laps = laps,
                      .roll_length = plan.roll.length,
                      .slope = slope,
                      .exact_courses = exact_courses_of(laps, slope, plan.ridge_wrap),
                      .sheets = sheets,
                      .rolls = 0,
                      .laid = no_length,
                      .set_aside = no_length,
                      .cut_offs = 0,
                      .left_over = no_length,
                      .courses = courses_of(plan, laps, ground_to_cover(o, plan), sheets),
                      .pieces = {},
                      .end_laps = {},
                      .marks = {},
                      .areas = {none, none, none, none, none, none, none, none, none},
                      .findings = {}};
    RollWalk walk{plan, laid};
    for (const UnderlaymentCourse& course : laid.courses) {
        walk.lay(course);
    }
    laid.left_over = walk.left();
    laid.marks = marks_of(laid.courses, o, plan.tick);
    laid.areas = areas_of(laid, net);
    judge_end_laps(laid);
    judge_pieces(plan, shorter(o[2].up, o[3].up), laid);
    return laid;
}
}  // namespace detail

/// Lays underlayment on a rectangular or measured four-sided plane, in courses along its eave. Every course reaches from
/// the outermost point of its strip at one rake to that at the other, so every point is covered where a rake leans; the
/// courses reach `ridge_wrap` past the ridge's highest corner.
///
/// Rolls are cut in sequence: what is left on one begins the next course. A piece is cut back, and its rest set aside,
/// where its end lap would come nearer than the offset to one of the course below, or would leave a sliver at the far
/// rake; what is left on a roll is set aside whole where no piece of it serves. Where a whole roll does not serve either,
/// it is laid all the same and found. A strip ripped from the roll (starter, last course) leaves its other part as waste.
///
/// Throws `FaultError`: the first fault of `plan`; not_supported for other planes, or one with openings; too_much_work
/// from `most_courses` or above `most_roll_pieces`.
template <Surface surface>
[[nodiscard]] Underlayment lay_underlayment(const Plane<surface>& plane, const UnderlaymentPlan& plan) {
    require_sound(plan, "underlayment");
    detail::require_four_sided(plane);
    if (!plane.openings.empty()) {
        throw FaultError{Fault{FaultCode::not_supported, "plane.openings",
                               std::to_string(plane.openings.size()) + " openings", "a plane without openings"}};
    }
    return detail::lay_underlayment_outline(plane.outline, net_area(plane), plan);
}

}  // namespace eavewright
