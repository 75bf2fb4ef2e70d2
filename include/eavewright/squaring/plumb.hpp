// SPDX-License-Identifier: BSL-1.0
#pragma once

// Plumb by a level: what is read over the level's length, carried to the top of the post; a whole wall at once, and the
// one move of its top that plumbs it best. Seen from outside the building: along the wall to the right is positive,
// across it away from the building.
//
//       |<- top ->|            A level held plumb touches the post at its foot end and shows a gap at the other end
//       |        /             (the gap counts to the side the top leans to). A straight post leans on in proportion:
//       |       /              top = height x gap / level length; where the height is taped along the leaning post,
//       | gap  /               top = length x gap / hypotenuse of the level length and the gaps.
//       |<--->/
//       |    /  level

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/best_shift.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/plumb_rule.hpp>
#include <eavewright/squaring/standing.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// How the height of a post was had.
enum class PostHeight {
    vertical,    ///< straight up
    along_post,  ///< taped along the post as it leans
};
template <>
struct NamesOf<PostHeight> {
    static constexpr std::array<std::string_view, 2> list{"vertical", "along_post"};
};

/// One post, read with the level in both directions.
struct PostReading {
    Length station;  ///< along the wall
    Length height;   ///< from where the level stood to the top that moves, `shortest_side` to `longest_reading`
    Length along;    ///< gap over the level's length, along the wall; at most a quarter of that length either way
    Length across;   ///< the same across the wall, outwards positive
};

/// Most posts of one wall.
inline constexpr std::size_t most_posts = 10'000;

/// A wall read with one level.
struct PlumbWall {
    std::vector<PostReading> posts;
    Length level_length;  ///< between the points where the gap is 0 and where it is read; 6 in to 20 ft
    PlumbRule rule;       ///< what judges; there is no default, since rules differ by more than four to one
    PostHeight height_is = PostHeight::vertical;
    BestBy by = BestBy::least_squares;  ///< what the one move is best by
    /// Standard deviation of one gap, 0.0001 to 12 in. Default: common practice for a careful reading.
    Length reading_deviation = one_inch / 32.0;
    /// Standard deviation of the level's own error, as a lean, which all readings share; 0 to 0.01. 0 where each
    /// reading is the mean of two, the level turned end for end. Default 1/2000: common practice for a good spirit level.
    double level_deviation = 0.0005;
    /// Standard deviations to each side for "proven", for each post by itself. 0.1 to 10.
    double level_factor = two_sided_95;
};

/// How far the top of a post stands off plumb over its foot.
struct TopOff {
    Length along;
    Length across;
    Length total;  ///< root of both squares
};

/// One post of the wall. The limit judges `total`, the strictest reading of the rules.
struct PostPlumb {
    Length station;
    Length limit;  ///< of this post's height
    TopOff top;
    Length deviation;  ///< standard deviation of the top's place in each direction
    StandingVerdict verdict;
    TopOff after;  ///< what the post keeps once the wall's top has had its one move
    StandingVerdict verdict_after;
};

/// A wall's plumb, and the one move of its top, the same for every post as the eave purlin ties them.
struct WallPlumb {
    PlumbRule rule;  ///< which rule judged
    StandingVerdict verdict;
    StandingVerdict verdict_after;  ///< once moved
    Length move_along;              ///< of the whole top
    Length move_across;
    Length largest;           ///< of the tops' totals
    std::int64_t largest_at;  ///< which post, from 0
    Length largest_after;
    std::int64_t largest_after_at;
    std::vector<PostPlumb> posts;
};

template <>
struct FieldsOf<TopOff> {
    static constexpr auto list =
        field_list(field("along", FieldUnit::length, "top off plumb along the wall, right positive", &TopOff::along),
                   field("across", FieldUnit::length, "across it, outwards positive", &TopOff::across),
                   field("total", FieldUnit::length, "both together", &TopOff::total));
};
template <>
struct FieldsOf<PostPlumb> {
    static constexpr auto list =
        field_list(field("station", FieldUnit::length, "along the wall", &PostPlumb::station),
                   field("limit", FieldUnit::length, "allowed by the rule at its height", &PostPlumb::limit),
                   field("top", FieldUnit::none, "top as it stands", &PostPlumb::top),
                   field("deviation", FieldUnit::length, "standard deviation of the top", &PostPlumb::deviation),
                   field("verdict", FieldUnit::none, "total against the limit", &PostPlumb::verdict),
                   field("after", FieldUnit::none, "top after the wall's one move", &PostPlumb::after),
                   field("verdict_after", FieldUnit::none, "that against the limit", &PostPlumb::verdict_after));
};
template <>
struct FieldsOf<WallPlumb> {
    static constexpr auto list = field_list(
        field("rule", FieldUnit::none, "which rule judged", &WallPlumb::rule),
        field("verdict", FieldUnit::none, "worst of the posts", &WallPlumb::verdict),
        field("verdict_after", FieldUnit::none, "worst of the posts after the one move", &WallPlumb::verdict_after),
        field("move_along", FieldUnit::length, "move of the whole top along the wall", &WallPlumb::move_along),
        field("move_across", FieldUnit::length, "and across it", &WallPlumb::move_across),
        field("largest", FieldUnit::length, "furthest top off plumb", &WallPlumb::largest),
        field("largest_at", FieldUnit::count, "which post that is, from 0", &WallPlumb::largest_at),
        field("largest_after", FieldUnit::length, "furthest after the move", &WallPlumb::largest_after),
        field("largest_after_at", FieldUnit::count, "which post that is, from 0", &WallPlumb::largest_after_at),
        field("posts", FieldUnit::none, "each post", &WallPlumb::posts));
};

/// Faults: out_of_range or not_finite; missing_field without posts, too_much_work above `most_posts`; unknown_name.
inline void find_faults(const PlumbWall& wall, const Path& path, Faults& faults) {
    find_faults(wall.rule, Path{path, "rule"}, faults);
    detail::require_named(wall.height_is, Path{path, "height_is"}, faults);
    detail::require_named(wall.by, Path{path, "by"}, faults);
    require_within(wall.level_length, one_inch * 6.0, one_inch * 240.0, Path{path, "level_length"}, faults);
    require_within(wall.reading_deviation, one_inch / 10000.0, one_inch * 12.0, Path{path, "reading_deviation"},
                   faults);
    squaring_detail::require_number(wall.level_deviation, 0.0, 0.01, Path{path, "level_deviation"}, faults);
    find_level_faults(wall.level_factor, Path{path, "level_factor"}, faults);
    const Path posts{path, "posts"};
    if (wall.posts.empty() || wall.posts.size() > most_posts) {
        faults.push_back(Fault{wall.posts.empty() ? FaultCode::missing_field : FaultCode::too_much_work, posts.text(),
                               std::to_string(wall.posts.size()) + " posts", "1 to " + std::to_string(most_posts)});
        return;
    }
    const Length widest = wall.level_length / 4.0;
    for (std::size_t i = 0; i < wall.posts.size(); ++i) {
        const Path here{posts, i};
        require_within(wall.posts[i].station, -longest_reading, longest_reading, Path{here, "station"}, faults);
        require_within(wall.posts[i].height, shortest_side, longest_reading, Path{here, "height"}, faults);
        require_within(wall.posts[i].along, -widest, widest, Path{here, "along"}, faults);
        require_within(wall.posts[i].across, -widest, widest, Path{here, "across"}, faults);
    }
}

namespace squaring_detail {
[[nodiscard]] inline TopOff top_off(Length along, Length across) {
    return TopOff{along, across, hypotenuse(along, across)};
}
[[nodiscard]] inline TopOff carry_to_top(const PostReading& post, Length level_length, PostHeight height_is) {
    const Length reach = height_is == PostHeight::vertical
                             ? level_length
                             : hypotenuse(level_length, hypotenuse(post.along, post.across));
    const double times = post.height / reach;
    return top_off(post.along * times, post.across * times);
}
}  // namespace squaring_detail

/// The top of one post off plumb, from the gaps over `level_length`. Exact for a straight post. Throws as `find_faults`
/// of PlumbWall for the lengths, unknown_name.
[[nodiscard]] inline TopOff top_off_plumb(const PostReading& post, Length level_length,
                                          PostHeight height_is = PostHeight::vertical) {
    require_sound(
        PlumbWall{.posts = {post}, .level_length = level_length, .rule = post_frame_plumb, .height_is = height_is},
        "wall");
    return squaring_detail::carry_to_top(post, level_length, height_is);
}

/// Every post of a wall against the rule, the one move of the whole top that is best by `wall.by` in each direction,
/// and what each post keeps after it. A move is a command, so the deviations stay those of the readings. Throws as
/// `find_faults` of PlumbWall. To be shown with the caution about pulling.
[[nodiscard]] inline WallPlumb plumb_wall(const PlumbWall& wall) {
    require_sound(wall, "wall");
    std::vector<TopOff> tops;
    std::vector<Length> along;
    std::vector<Length> across;
    for (const PostReading& post : wall.posts) {
        tops.push_back(squaring_detail::carry_to_top(post, wall.level_length, wall.height_is));
        along.push_back(tops.back().along);
        across.push_back(tops.back().across);
    }
    WallPlumb result{.rule = wall.rule,
                     .verdict = StandingVerdict::proven_within,
                     .verdict_after = StandingVerdict::proven_within,
                     .move_along = -best_shift(along, wall.by),
                     .move_across = -best_shift(across, wall.by),
                     .largest = no_length,
                     .largest_at = 0,
                     .largest_after = no_length,
                     .largest_after_at = 0,
                     .posts = {}};
    const double reading = wall.reading_deviation / wall.level_length;
    const double lean = std::sqrt(reading * reading + wall.level_deviation * wall.level_deviation);
    const auto note = [](Length off, Length& largest, std::int64_t& at, std::size_t i) {
        if (off > largest) {
            largest = off;
            at = static_cast<std::int64_t>(i);
        }
    };
    for (std::size_t i = 0; i < tops.size(); ++i) {
        const Length height = wall.posts[i].height;
        const Length limit = plumb_limit(wall.rule, height);
        const Length deviation = height * lean;
        const TopOff after =
            squaring_detail::top_off(tops[i].along + result.move_along, tops[i].across + result.move_across);
        const StandingVerdict now = standing_of(tops[i].total, deviation, limit, wall.level_factor);
        const StandingVerdict then = standing_of(after.total, deviation, limit, wall.level_factor);
        result.posts.push_back(PostPlumb{wall.posts[i].station, limit, tops[i], deviation, now, after, then});
        result.verdict = worse_of(result.verdict, now);
        result.verdict_after = worse_of(result.verdict_after, then);
        note(tops[i].total, result.largest, result.largest_at, i);
        note(after.total, result.largest_after, result.largest_after_at, i);
    }
    return result;
}

}  // namespace eavewright
