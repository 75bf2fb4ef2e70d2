// SPDX-License-Identifier: BSL-1.0
#pragma once

// Cuts runs of underlayment out of rolls, in the order that they are opened.

#include <eavewright/fault.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/course_runs.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/tiling/underlayment_rule.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// The roll in hand, the laps of the course below, and what has been laid so far.
class RollWalk {
public:
    RollWalk(const UnderlaymentPlan& plan, Underlayment& laid) : plan_{plan}, laid_{laid} {}

    /// Lays the runs of one course, which are given from left to right, from the side that is begun at.
    void lay(std::int32_t course, const std::vector<CourseRun>& runs) {
        course_ = course;
        std::vector<Length> middles;
        for (std::size_t i = 0; i < runs.size(); ++i) {
            lay_run(runs[from_left() ? i : runs.size() - 1 - i], middles);
        }
        std::sort(middles.begin(), middles.end());
        below_ = std::move(middles);
    }

    [[nodiscard]] Length left() const { return left_; }
    /// Middles of the end laps of the course laid last, from left to right.
    [[nodiscard]] const std::vector<Length>& below() const { return below_; }

private:
    void lay_run(const CourseRun& course, std::vector<Length>& middles) {
        const Length run = course.right - course.left;
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
    }

    [[nodiscard]] Length end_lap() const { return laid_.laps.end_lap; }
    [[nodiscard]] bool from_left() const { return plan_.start == StartCorner::eave_left; }
    [[nodiscard]] Length along_of(const CourseRun& course, Length at) const {
        return from_left() ? course.left + at : course.right - at;
    }
    /// Shortest piece worth laying, and long enough to get on by.
    [[nodiscard]] Length least() const { return longer(plan_.sliver, longer(2.0 * end_lap(), one_inch)); }
    /// So that what follows to the far rake is no sliver either.
    [[nodiscard]] Length longest_before_lap(Length need) const { return need - least() + end_lap(); }

    /// The longest piece of the roll in hand whose end lap keeps away from those below.
    [[nodiscard]] std::optional<Length> piece_before_lap(const CourseRun& course, Length at, Length need) const {
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
    [[nodiscard]] std::optional<Length> nearest_clash(const CourseRun& course, Length at) const {
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
    void cut(const CourseRun& course, Length at, Length length, bool last) {
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
        laid_.pieces.push_back({course_, static_cast<std::int32_t>(laid_.rolls - 1), from, length,
                                shorter(one, far_end), longer(one, far_end), course.low, course.high, left_});
        laid_.laid += length;
        if (at > no_length) {
            const Length inner = along_of(course, at + end_lap());
            laid_.end_laps.push_back({course_, index - 1, index, shorter(one, inner), longer(one, inner)});
        }
    }

    const UnderlaymentPlan& plan_;
    Underlayment& laid_;
    std::int32_t course_ = 0;
    Length left_ = no_length;
    std::vector<Length> below_{};
};

}  // namespace eavewright::detail
