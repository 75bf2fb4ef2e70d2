// SPDX-License-Identifier: BSL-1.0
#pragma once

// Posts of the frame itself: where they are cut off, how they are notched, how long they are.
//
// Heights count from the builder's benchmark and are those of the line of the chord tops, as in roof/shape.hpp.
// Whether a post, a notch or a footing holds is for a licensed professional under the local code.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/rafter.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <variant>

namespace eavewright {

/// Plumb distance from the seat of a truss up to the line of its chord tops, over the end of the bottom chord: the
/// plumb cut of the top chord and the butt left under it, 1/4 in or 3/8 in (SBCA, Raised Heels). 2x4 at 4 in 12: 3
/// 15/16 in. Throws `FaultError`: chord depth of 0.5 to 48 in, butt of 0 to 24 in.
[[nodiscard]] inline Length truss_heel(Pitch pitch, Length chord_depth, Length butt) {
    Faults faults;
    require_within(chord_depth, Length::from_inches(0.5), deepest_layer, Path{"chord_depth"}, faults);
    require_within(butt, no_length, thickest_member, Path{"butt"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    return pitch.slope_over(chord_depth) + butt;
}

/// Where the truss or rafter bears: the height of its seat.
struct AtBearing {
    Length height;
};
/// How high the line of the chord tops stands over the outer face of the posts.
struct AtChordLine {
    Length height;
};
using KnownHeight = std::variant<AtBearing, AtChordLine>;

/// What the post carries, and how.
enum class PostSeat {
    truss_in_side,    ///< truss let into the side of the post, which runs on up beside it
    carrier_in_face,  ///< carrier let into the face of the post, truss on the carrier; the post runs on up
    on_top,           ///< truss, or the carrier under it, on top of the post
};
template <>
struct NamesOf<PostSeat> {
    static constexpr std::array<std::string_view, 3> list{"truss_in_side", "carrier_in_face", "on_top"};
};

/// How a post that runs up past its seat is cut off.
enum class PostTop {
    level,   ///< at the lower side of the slope
    sloped,  ///< along the roof
};
template <>
struct NamesOf<PostTop> {
    static constexpr std::array<std::string_view, 2> list{"level", "sloped"};
};

/// A post under the eave.
struct EavePost {
    Pitch pitch;
    KnownHeight height;
    Length heel;              ///< seat to the line of the chord tops, plumb, over the outer face of the posts
    Length depth;             ///< of the post across the wall, the way the slope runs
    Length width;             ///< of the post along the wall
    Length let_in_thickness;  ///< of the truss (all its plies) or the carrier that is let in; 0 for on_top
    Length foot;              ///< bottom of the post; below a benchmark at grade it is negative
    PostSeat seat = PostSeat::truss_in_side;
    PostTop top = PostTop::level;
    Length carrier_depth = no_length;  ///< height of the carrier under the truss; 0 where there is none
    Length clearance = no_length;      ///< plumb, post below the line of the chord tops
    double notch_share = 1.0 / 6.0;    ///< of the post's size that a notch may take: trade column, 7/8 in of 5 1/2
    Length trim = Length::from_inches(12.0);  ///< spare length: 1 ft (Ecker and Flanders, Pole Building, 1984)
};

/// A post under the eave laid out.
struct EavePostFigures {
    Length bearing;        ///< seat of the truss
    Length chord_line;     ///< over the outer face of the posts
    Length cut_off_outer;  ///< at the outer face
    Length cut_off_inner;
    Length notch_bottom;  ///< seat of what is let in; the cut-off where nothing is
    Length notch_height;  ///< from there to the cut-off at the outer face
    Length notch_depth;   ///< level, into the post
    Length wood_left;     ///< beside the notch
    Length notch_limit;
    bool notch_within_limit;
    Length length;        ///< foot to the higher side of the cut-off
    Length stock_length;  ///< with the spare
};
template <>
struct FieldsOf<EavePostFigures> {
    static constexpr auto list = field_list(
        field("bearing", FieldUnit::length, "seat of the truss", &EavePostFigures::bearing),
        field("chord_line", FieldUnit::length, "line of the chord tops over the outer face",
              &EavePostFigures::chord_line),
        field("cut_off_outer", FieldUnit::length, "cut-off at the outer face", &EavePostFigures::cut_off_outer),
        field("cut_off_inner", FieldUnit::length, "cut-off at the inner face", &EavePostFigures::cut_off_inner),
        field("notch_bottom", FieldUnit::length, "seat of what is let in", &EavePostFigures::notch_bottom),
        field("notch_height", FieldUnit::length, "from the seat to the cut-off at the outer face",
              &EavePostFigures::notch_height),
        field("notch_depth", FieldUnit::length, "level, into the post", &EavePostFigures::notch_depth),
        field("wood_left", FieldUnit::length, "beside the notch", &EavePostFigures::wood_left),
        field("notch_limit", FieldUnit::length, "deepest notch by the share given", &EavePostFigures::notch_limit),
        field("notch_within_limit", FieldUnit::none, "the notch is no deeper than that",
              &EavePostFigures::notch_within_limit),
        field("length", FieldUnit::length, "foot to the higher side of the cut-off", &EavePostFigures::length),
        field("stock_length", FieldUnit::length, "with the spare", &EavePostFigures::stock_length));
};

namespace detail {
inline void find_post_size_faults(Length depth, Length foot, Length trim, const Path& path, Faults& faults) {
    require_within(depth, Length::from_inches(1.0), Length::from_inches(48.0), Path{path, "depth"}, faults);
    require_within(foot, -greatest_height, greatest_height, Path{path, "foot"}, faults);
    require_within(trim, no_length, Length::from_feet(20.0), Path{path, "trim"}, faults);
}
inline void require_above_foot(Length top, Length foot, const Path& path, Faults& faults) {
    if (!(top > foot)) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "foot"}.text(), describe_length(foot),
                               "a foot below the top of the post at " + describe_length(top)});
    }
}

[[nodiscard]] inline Length bearing_of(const EavePost& post) {
    if (const AtBearing* at = std::get_if<AtBearing>(&post.height)) {
        return at->height;
    }
    return std::get<AtChordLine>(post.height).height - post.heel;
}
[[nodiscard]] inline Length notch_bottom_of(const EavePost& post) {
    return bearing_of(post) - (post.seat == PostSeat::truss_in_side ? no_length : post.carrier_depth);
}
[[nodiscard]] inline Length cut_off_of(const EavePost& post) {
    return post.seat == PostSeat::on_top ? notch_bottom_of(post) : bearing_of(post) + post.heel - post.clearance;
}
/// The size of the post that the notch goes into.
[[nodiscard]] inline Length notched_size(const EavePost& post) {
    return post.seat == PostSeat::carrier_in_face ? post.depth : post.width;
}
}  // namespace detail

inline void find_faults(const EavePost& post, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    const Length given = std::visit([](const auto& at) { return at.height; }, post.height);
    require_within(given, -greatest_height, greatest_height, Path{path, "height"}, faults);
    require_within(post.heel, no_length, deepest_layer * 4.0, Path{path, "heel"}, faults);
    require_within(post.width, Length::from_inches(1.0), Length::from_inches(48.0), Path{path, "width"}, faults);
    detail::find_post_size_faults(post.depth, post.foot, post.trim, path, faults);
    require_within(post.let_in_thickness, no_length, thickest_member, Path{path, "let_in_thickness"}, faults);
    require_within(post.carrier_depth, no_length, deepest_layer, Path{path, "carrier_depth"}, faults);
    require_within(post.clearance, no_length, deepest_layer, Path{path, "clearance"}, faults);
    if (!(post.notch_share > 0.0 && post.notch_share <= 1.0)) {
        faults.push_back(Fault{std::isfinite(post.notch_share) ? FaultCode::out_of_range : FaultCode::not_finite,
                               Path{path, "notch_share"}.text(), write_decimal(post.notch_share, 6),
                               "above 0, at most 1"});
    }
    if (faults.size() > before) {
        return;
    }
    detail::require_above_foot(detail::notch_bottom_of(post), post.foot, path, faults);
    if (post.let_in_thickness > detail::notched_size(post)) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "let_in_thickness"}.text(),
                               describe_length(post.let_in_thickness),
                               "no more than the post's " + describe_length(detail::notched_size(post))});
    }
    if (post.seat == PostSeat::on_top && post.let_in_thickness > no_length) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "let_in_thickness"}.text(),
                               describe_length(post.let_in_thickness), "0 where seat is on_top: nothing is let in"});
    }
    if (detail::cut_off_of(post) < detail::notch_bottom_of(post)) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "clearance"}.text(), describe_length(post.clearance),
                               "a cut-off above the seat"});
    }
}

/// Works out a post under the eave. The cut-off runs with the line of the chord tops: level at the outer face, or
/// sloped up to the inner one. Throws `FaultError` with the first fault of `post`.
[[nodiscard]] inline EavePostFigures eave_post(const EavePost& post) {
    require_sound(post, "post");
    const Length bearing = detail::bearing_of(post);
    const Length outer = detail::cut_off_of(post);
    const bool sloped = post.top == PostTop::sloped && post.seat != PostSeat::on_top;
    const Length inner = sloped ? outer + post.pitch.rise_over(post.depth) : outer;
    const Length limit = detail::notched_size(post) * post.notch_share;
    const Length length = inner - post.foot;
    return {.bearing = bearing,
            .chord_line = bearing + post.heel,
            .cut_off_outer = outer,
            .cut_off_inner = inner,
            .notch_bottom = detail::notch_bottom_of(post),
            .notch_height = outer - detail::notch_bottom_of(post),
            .notch_depth = post.let_in_thickness,
            .wood_left = detail::notched_size(post) - post.let_in_thickness,
            .notch_limit = limit,
            .notch_within_limit = !(post.let_in_thickness > limit),
            .length = length,
            .stock_length = length + post.trim};
}

/// A post under the ridge, alone or with a ridge beam whose top arrises lie in the planes of the chord tops.
struct RidgePost {
    Pitch pitch_a;
    Pitch pitch_b;
    Length ridge_height;  ///< where the lines of the chord tops meet
    Length depth;         ///< of the post across the ridge, its middle under the ridge
    Length foot;
    Length beam_thickness = no_length;  ///< 0 with a depth of 0: no beam, the post peaks at the ridge
    Length beam_depth = no_length;
    Length trim = Length::from_inches(12.0);  ///< spare length: 1 ft (Ecker and Flanders, Pole Building, 1984)
};

/// A ridge post laid out.
struct RidgePostFigures {
    Length beam_top;   ///< the ridge itself where there is no beam
    Length cut_off;    ///< at the middle of the post
    Length cut_off_a;  ///< at its face to side A: lower than the middle where the post peaks
    Length cut_off_b;
    Length length;
    Length stock_length;
};
template <>
struct FieldsOf<RidgePostFigures> {
    static constexpr auto list =
        field_list(field("beam_top", FieldUnit::length, "top of the beam", &RidgePostFigures::beam_top),
                   field("cut_off", FieldUnit::length, "cut-off at the middle", &RidgePostFigures::cut_off),
                   field("cut_off_a", FieldUnit::length, "cut-off at the face to side A", &RidgePostFigures::cut_off_a),
                   field("cut_off_b", FieldUnit::length, "cut-off at the face to side B", &RidgePostFigures::cut_off_b),
                   field("length", FieldUnit::length, "foot to the cut-off", &RidgePostFigures::length),
                   field("stock_length", FieldUnit::length, "with the spare", &RidgePostFigures::stock_length));
};

namespace detail {
[[nodiscard]] inline Length beam_top_of(const RidgePost& post) {
    const Length half = post.beam_thickness / 2.0;
    return post.ridge_height - longer(post.pitch_a.rise_over(half), post.pitch_b.rise_over(half));
}
}  // namespace detail

inline void find_faults(const RidgePost& post, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    require_within(post.ridge_height, -greatest_height, greatest_height, Path{path, "ridge_height"}, faults);
    detail::find_post_size_faults(post.depth, post.foot, post.trim, path, faults);
    require_within(post.beam_thickness, no_length, thickest_member, Path{path, "beam_thickness"}, faults);
    require_within(post.beam_depth, no_length, deepest_layer, Path{path, "beam_depth"}, faults);
    if (faults.size() > before) {
        return;
    }
    const Length half = post.beam_depth > no_length ? no_length : post.depth / 2.0;
    const Length fall = longer(post.pitch_a.rise_over(half), post.pitch_b.rise_over(half));
    detail::require_above_foot(detail::beam_top_of(post) - post.beam_depth - fall, post.foot, path, faults);
}

/// Works out a ridge post. Throws `FaultError` with the first fault of `post`.
[[nodiscard]] inline RidgePostFigures ridge_post(const RidgePost& post) {
    require_sound(post, "post");
    const Length beam_top = detail::beam_top_of(post);
    const Length cut_off = beam_top - post.beam_depth;
    const Length half = post.beam_depth > no_length ? no_length : post.depth / 2.0;
    return {.beam_top = beam_top,
            .cut_off = cut_off,
            .cut_off_a = cut_off - post.pitch_a.rise_over(half),
            .cut_off_b = cut_off - post.pitch_b.rise_over(half),
            .length = cut_off - post.foot,
            .stock_length = cut_off - post.foot + post.trim};
}

/// A post anywhere under a plane: in a gable wall, under a porch, at a hip.
struct PostUnderPlane {
    HeightPlane plane;
    GroundPoint middle;
    Length size_x;  ///< of the post along x
    Length depth;   ///< of the post along y
    Length foot;
    Length below = no_length;                 ///< square to the plane, plane to the top of the post: a rafter's depth
    Length trim = Length::from_inches(12.0);  ///< spare length: 1 ft (Ecker and Flanders, Pole Building, 1984)
};

/// A post under a plane laid out.
struct PostUnderPlaneFigures {
    Length plane_height;  ///< of the plane over the middle of the post
    Length cut_off;       ///< at the middle, for a top cut along the plane
    Length lowest;        ///< lowest corner of that cut: where a level cut-off goes
    Length highest;
    Length length;  ///< foot to the highest corner
    Length stock_length;
};
template <>
struct FieldsOf<PostUnderPlaneFigures> {
    static constexpr auto list = field_list(
        field("plane_height", FieldUnit::length, "of the plane over the middle", &PostUnderPlaneFigures::plane_height),
        field("cut_off", FieldUnit::length, "at the middle", &PostUnderPlaneFigures::cut_off),
        field("lowest", FieldUnit::length, "lowest corner of the cut-off", &PostUnderPlaneFigures::lowest),
        field("highest", FieldUnit::length, "highest corner of the cut-off", &PostUnderPlaneFigures::highest),
        field("length", FieldUnit::length, "foot to the highest corner", &PostUnderPlaneFigures::length),
        field("stock_length", FieldUnit::length, "with the spare", &PostUnderPlaneFigures::stock_length));
};

inline void find_faults(const PostUnderPlane& post, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    const Path middle{path, "middle"};
    require_within(post.middle.x, -longest_building, longest_building, Path{middle, "x"}, faults);
    require_within(post.middle.y, -longest_building, longest_building, Path{middle, "y"}, faults);
    require_within(post.plane.height, -greatest_height, greatest_height, Path{path, "plane"}, faults);
    require_within(post.size_x, Length::from_inches(1.0), Length::from_inches(48.0), Path{path, "size_x"}, faults);
    detail::find_post_size_faults(post.depth, post.foot, post.trim, path, faults);
    require_within(post.below, no_length, deepest_layer, Path{path, "below"}, faults);
    if (faults.size() > before) {
        return;
    }
    const Length height = height_over(post.plane, post.middle);
    require_within(height, -greatest_height, greatest_height, Path{path, "plane"}, faults);
    if (!(steepness(post.plane) <= steepest_rise_per_run)) {
        faults.push_back(Fault{std::isfinite(steepness(post.plane)) ? FaultCode::out_of_range : FaultCode::not_finite,
                               Path{path, "plane"}.text(), write_decimal(steepness(post.plane), 6) + " in 1",
                               "rising at most 1000 in 1"});
    }
}

/// Works out a post under a plane. Throws `FaultError` with the first fault of `post`; does_not_fit where the foot lies
/// above the cut-off.
[[nodiscard]] inline PostUnderPlaneFigures post_under(const PostUnderPlane& post) {
    require_sound(post, "post");
    const double steep = steepness(post.plane);
    const Length height = height_over(post.plane, post.middle);
    const Length cut_off = height - post.below * std::sqrt(1.0 + steep * steep);
    const Length corner =
        magnitude(post.size_x / 2.0 * post.plane.rise_x) + magnitude(post.depth / 2.0 * post.plane.rise_y);
    Faults faults;
    detail::require_above_foot(cut_off - corner, post.foot, Path{"post"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    return {.plane_height = height,
            .cut_off = cut_off,
            .lowest = cut_off - corner,
            .highest = cut_off + corner,
            .length = cut_off + corner - post.foot,
            .stock_length = cut_off + corner - post.foot + post.trim};
}

}  // namespace eavewright
