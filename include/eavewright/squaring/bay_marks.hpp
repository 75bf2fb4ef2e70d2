// SPDX-License-Identifier: BSL-1.0
#pragma once

// Posts that stand off their bay marks. Stations of both post lines are taped from one line square across the building;
// the grid of marks may shift as a whole, and what is left is a post's own. A frame whose two posts stand at different
// stations runs skew over the building, and every purlin laid square meets it at another place than the one before.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/best_shift.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/plumb_rule.hpp>
#include <eavewright/squaring/standing.hpp>
#include <eavewright/squaring/string_line.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// Two lines of posts as found, frame by frame, beside the marks they were meant for.
struct PostLines {
    std::vector<Length> marks;  ///< intended stations, ascending; at least two, at most `most_string_readings`
    std::vector<Length> left;   ///< as found, one for each mark, ascending
    std::vector<Length> right;
    Length width;   ///< between the two post lines
    Length height;  ///< of the post tops over the ground that holds the posts
    /// How far a post may be leaned to bring its top to its mark.
    PlumbRule rule = post_frame_plumb;
    BestBy by = BestBy::least_squares;           ///< what the shift of the grid is best by
    Length reading_deviation = one_inch / 32.0;  ///< of one station; common practice. 0.0001 to 12 in
    double level_factor = two_sided_95;          ///< for each post by itself. 0.1 to 10
};

/// The best shift of the grid of marks for some of the posts, and what it leaves.
struct GridShift {
    Length shift;        ///< to be added to every mark
    Length largest;      ///< magnitude of the largest that a post then is off
    std::int64_t frame;  ///< where that is, from 0
};

/// One frame. Offs count along the building, further along positive.
struct FrameOff {
    Length mark;                 ///< intended station
    Length left_off;             ///< left post less its mark, the grid shifted for all posts
    Length right_off;            ///< right post less its mark
    Length bay_left;             ///< from the frame before, along the left line; 0 at the first
    Length bay_right;            ///< along the right line
    Length difference;           ///< left station less right station, as found: how much the bays' sums are apart here
    Angle skew;                  ///< of the frame, the left post further along positive; the machine's atan
    Length over_slope;           ///< how far a frame wanders along the purlins from eave to ridge: half the difference
    StandingVerdict left_lean;   ///< the left post leaned to its mark, against the rule
    StandingVerdict right_lean;  ///< the right post leaned to its mark
    StandingVerdict one_leans;   ///< the frame made square by leaning one post by the whole difference
    StandingVerdict both_lean;   ///< by leaning each post by half of it
};

/// Posts against their marks.
struct BayMarks {
    PlumbRule rule;              ///< which rule judged the leaning
    Length lean_limit;           ///< by it at the posts' height
    GridShift left;              ///< for the left posts alone
    GridShift right;             ///< for the right posts alone
    GridShift both;              ///< for all posts: the shift that the frames' offs use
    Length run_difference;       ///< last left station less last right one
    Length largest_difference;   ///< magnitude, over all frames
    std::int64_t largest_frame;  ///< where that is, from 0
    std::vector<FrameOff> frames;
};

template <>
struct FieldsOf<GridShift> {
    static constexpr auto list =
        field_list(field("shift", FieldUnit::length, "to be added to every mark", &GridShift::shift),
                   field("largest", FieldUnit::length, "largest that a post then is off", &GridShift::largest),
                   field("frame", FieldUnit::count, "where that is, from 0", &GridShift::frame));
};
template <>
struct FieldsOf<FrameOff> {
    static constexpr auto list = field_list(
        field("mark", FieldUnit::length, "intended station", &FrameOff::mark),
        field("left_off", FieldUnit::length, "left post less its shifted mark", &FrameOff::left_off),
        field("right_off", FieldUnit::length, "right post less its shifted mark", &FrameOff::right_off),
        field("bay_left", FieldUnit::length, "from the frame before along the left line", &FrameOff::bay_left),
        field("bay_right", FieldUnit::length, "from the frame before along the right line", &FrameOff::bay_right),
        field("difference", FieldUnit::length, "left station less right station", &FrameOff::difference),
        field("skew", FieldUnit::angle, "of the frame, left post further along positive", &FrameOff::skew),
        field("over_slope", FieldUnit::length, "along the purlins from eave to ridge", &FrameOff::over_slope),
        field("left_lean", FieldUnit::none, "left post leaned to its mark", &FrameOff::left_lean),
        field("right_lean", FieldUnit::none, "right post leaned to its mark", &FrameOff::right_lean),
        field("one_leans", FieldUnit::none, "one post leaned by the whole difference", &FrameOff::one_leans),
        field("both_lean", FieldUnit::none, "each post leaned by half the difference", &FrameOff::both_lean));
};
template <>
struct FieldsOf<BayMarks> {
    static constexpr auto list = field_list(
        field("rule", FieldUnit::none, "which rule judged the leaning", &BayMarks::rule),
        field("lean_limit", FieldUnit::length, "by that rule at the posts' height", &BayMarks::lean_limit),
        field("left", FieldUnit::none, "shift of the marks for the left posts alone", &BayMarks::left),
        field("right", FieldUnit::none, "shift of the marks for the right posts alone", &BayMarks::right),
        field("both", FieldUnit::none, "shift of the marks for all posts", &BayMarks::both),
        field("run_difference", FieldUnit::length, "last left station less last right one", &BayMarks::run_difference),
        field("largest_difference", FieldUnit::length, "largest of the frames", &BayMarks::largest_difference),
        field("largest_frame", FieldUnit::count, "where that is, from 0", &BayMarks::largest_frame),
        field("frames", FieldUnit::none, "each frame", &BayMarks::frames));
};

namespace squaring_detail {
inline void find_station_faults(const std::vector<Length>& stations, const Path& path, Faults& faults) {
    for (std::size_t i = 0; i < stations.size(); ++i) {
        const std::size_t before = faults.size();
        require_within(stations[i], -longest_reading, longest_reading, Path{path, i}, faults);
        if (i > 0 && faults.size() == before && !(stations[i] - stations[i - 1] >= closest_stations)) {
            faults.push_back(Fault{FaultCode::out_of_order, Path{path, i}.text(), describe_length(stations[i]),
                                   "at least " + describe_length(closest_stations) + " past the station before"});
        }
    }
}
}  // namespace squaring_detail

/// Faults: missing_field for fewer than two marks, too_much_work above the limit, contradiction where a line has more or
/// fewer posts than marks; out_of_order; out_of_range or not_finite; unknown_name.
inline void find_faults(const PostLines& lines, const Path& path, Faults& faults) {
    const std::size_t count = lines.marks.size();
    if (count < 2 || count > most_string_readings) {
        faults.push_back(Fault{count < 2 ? FaultCode::missing_field : FaultCode::too_much_work,
                               Path{path, "marks"}.text(), std::to_string(count) + " marks",
                               "2 to " + std::to_string(most_string_readings) + " marks"});
        return;
    }
    const auto find_line_faults = [&](const std::vector<Length>& line, std::string_view name) {
        if (line.size() != count) {
            faults.push_back(Fault{FaultCode::contradiction, Path{path, name}.text(),
                                   std::to_string(line.size()) + " posts",
                                   "one for each of the " + std::to_string(count) + " marks"});
            return;
        }
        squaring_detail::find_station_faults(line, Path{path, name}, faults);
    };
    find_line_faults(lines.marks, "marks");
    find_line_faults(lines.left, "left");
    find_line_faults(lines.right, "right");
    squaring_detail::require_side(lines.width, Path{path, "width"}, faults);
    squaring_detail::require_side(lines.height, Path{path, "height"}, faults);
    find_faults(lines.rule, Path{path, "rule"}, faults);
    detail::require_named(lines.by, Path{path, "by"}, faults);
    require_within(lines.reading_deviation, one_inch / 10000.0, one_inch * 12.0, Path{path, "reading_deviation"},
                   faults);
    find_level_faults(lines.level_factor, Path{path, "level_factor"}, faults);
}

namespace squaring_detail {
/// `offs` holds one or two whole lines of `frames` posts.
[[nodiscard]] inline GridShift shift_grid(const std::vector<Length>& offs, std::size_t frames, BestBy by) {
    GridShift grid{best_shift(offs, by), no_length, 0};
    for (std::size_t i = 0; i < offs.size(); ++i) {
        const Length left = magnitude(offs[i] - grid.shift);
        if (left > grid.largest) {
            grid.largest = left;
            grid.frame = static_cast<std::int64_t>(i % frames);
        }
    }
    return grid;
}
}  // namespace squaring_detail

/// Posts against their marks: the best shift of the grid, what each post is off, how skew each frame runs, and whether
/// leaning the posts, as far as the rule allows, would bring the tops to their marks or the frame square. Throws as
/// `find_faults` of PostLines. To be shown with the caution about pulling where posts are to be leaned.
[[nodiscard]] inline BayMarks hold_to_marks(const PostLines& lines) {
    require_sound(lines, "posts");
    const std::size_t count = lines.marks.size();
    std::vector<Length> left;
    std::vector<Length> right;
    for (std::size_t i = 0; i < count; ++i) {
        left.push_back(lines.left[i] - lines.marks[i]);
        right.push_back(lines.right[i] - lines.marks[i]);
    }
    std::vector<Length> both = left;
    both.insert(both.end(), right.begin(), right.end());
    BayMarks result{.rule = lines.rule,
                    .lean_limit = plumb_limit(lines.rule, lines.height),
                    .left = squaring_detail::shift_grid(left, count, lines.by),
                    .right = squaring_detail::shift_grid(right, count, lines.by),
                    .both = squaring_detail::shift_grid(both, count, lines.by),
                    .run_difference = lines.left[count - 1] - lines.right[count - 1],
                    .largest_difference = no_length,
                    .largest_frame = 0,
                    .frames = {}};
    const Length one = lines.reading_deviation;
    const Length two = one * std::sqrt(2.0);
    const auto judge = [&](Length off, Length deviation) {
        return standing_of(magnitude(off), deviation, result.lean_limit, lines.level_factor);
    };
    for (std::size_t i = 0; i < count; ++i) {
        const Length difference = lines.left[i] - lines.right[i];
        const Length left_off = left[i] - result.both.shift;
        const Length right_off = right[i] - result.both.shift;
        result.frames.push_back(FrameOff{.mark = lines.marks[i],
                                         .left_off = left_off,
                                         .right_off = right_off,
                                         .bay_left = i > 0 ? lines.left[i] - lines.left[i - 1] : no_length,
                                         .bay_right = i > 0 ? lines.right[i] - lines.right[i - 1] : no_length,
                                         .difference = difference,
                                         .skew = angle_from_radians(std::atan(difference / lines.width)),
                                         .over_slope = difference / 2.0,
                                         .left_lean = judge(left_off, one),
                                         .right_lean = judge(right_off, one),
                                         .one_leans = judge(difference, two),
                                         .both_lean = judge(difference / 2.0, two / 2.0)});
        if (magnitude(difference) > result.largest_difference) {
            result.largest_difference = magnitude(difference);
            result.largest_frame = static_cast<std::int64_t>(i);
        }
    }
    return result;
}

}  // namespace eavewright
