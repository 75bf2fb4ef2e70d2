// SPDX-License-Identifier: BSL-1.0
#pragma once

// Gable and single slope: from what a builder measures to planes and heights.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// Two equal slopes meeting at a ridge over the middle of the width.
///
/// Overhangs are horizontal, from the face that `face` names. The eave overhang ends at the fascia's outer face; with a
/// square tail it is taken where that face meets the line of the chord tops. `bearing_height` is the seat of the
/// chord on the wall, `heel` the plumb distance from the seat up to the line of the chord tops, over the outer face of
/// the posts. Heights count from one benchmark of the builder's choice.
struct GableRoof {
    Length width;   ///< out to out across the ridge
    Length length;  ///< out to out along the ridge
    Pitch pitch;
    Length eave_overhang;
    Length rake_overhang;
    BuildUp build_up;
    Length bearing_height;
    Length heel;
    WallFace face = WallFace::posts;
    Length girt_thickness = Length::from_inches(1.5);  ///< read only where the face is girts; 2x lumber, PS 20
    TailCut tail = TailCut::plumb;
    Length fascia_thickness = Length::from_inches(1.5);  ///< 2x fascia, PS 20; 0 where the fascia is not on yet
};

/// One slope from a low wall to a high wall, with a fascia at both; fields as for `GableRoof`.
struct SingleSlopeRoof {
    Length width;   ///< out to out across the slope, low wall to high wall
    Length length;  ///< out to out along the eave
    Pitch pitch;
    Length eave_overhang;  ///< at the low wall
    Length high_overhang;  ///< at the high wall
    Length rake_overhang;
    BuildUp build_up;
    Length bearing_height;  ///< at the low wall
    Length heel;
    WallFace face = WallFace::posts;
    Length girt_thickness = Length::from_inches(1.5);
    TailCut tail = TailCut::plumb;
    Length fascia_thickness = Length::from_inches(1.5);
};

/// Heights from the benchmark.
struct RoofHeights {
    Length bearing;        ///< seat of the chord on the wall
    Length chord_at_wall;  ///< line of the chord tops over the outer face of the posts
    Length chord_at_eave;  ///< line of the chord tops at the fascia's outer face
    Length fascia_top;     ///< outer top corner of the fascia, under the sheets
    Length chord_peak;     ///< line of the chord tops at the ridge or the high edge
    Length purlin_peak;
    Length deck_peak;
};
template <>
struct FieldsOf<RoofHeights> {
    static constexpr auto list = field_list(
        field("bearing", FieldUnit::length, "seat of the chord on the wall, above the benchmark",
              &RoofHeights::bearing),
        field("chord_at_wall", FieldUnit::length, "chord top line over the outer face of the posts",
              &RoofHeights::chord_at_wall),
        field("chord_at_eave", FieldUnit::length, "chord top line at the fascia's outer face",
              &RoofHeights::chord_at_eave),
        field("fascia_top", FieldUnit::length, "outer top corner of the fascia, under the sheets",
              &RoofHeights::fascia_top),
        field("chord_peak", FieldUnit::length, "chord top line at the ridge or high edge", &RoofHeights::chord_peak),
        field("purlin_peak", FieldUnit::length, "purlin top surface at the ridge or high edge",
              &RoofHeights::purlin_peak),
        field("deck_peak", FieldUnit::length, "deck top surface at the ridge or high edge", &RoofHeights::deck_peak));
};

/// One slope on its three surfaces.
struct Slope {
    std::string name;  ///< "front" and "back" for a gable, "roof" for a single slope
    ChordPlane chord;
    PurlinPlane purlin;
    DeckPlane deck;
    Length run;           ///< building line to ridge or high wall, horizontal: overhang not included
    Length total_run;     ///< fascia's outer face to ridge or high edge, horizontal
    Length chord_length;  ///< line length of the chord top with its tail: behind the fascia to ridge or high edge
    Length tail_length;   ///< the part of it that hangs past the outer face of the posts
    Length fascia_width;  ///< of the fascia along the slope: its thickness, drawn out by the slope where it is plumb
    Length chord_tail_offset;  ///< add to an up-coordinate of the purlin plane: distance from the chord's tail end
};

template <>
struct FieldsOf<Slope> {
    static constexpr auto list = field_list(
        field("name", FieldUnit::none, "front and back, or roof for a single slope", &Slope::name),
        field("chord", FieldUnit::none, "the plane of the chord tops", &Slope::chord),
        field("purlin", FieldUnit::none, "the plane of the purlin tops", &Slope::purlin),
        field("deck", FieldUnit::none, "the plane of the deck top", &Slope::deck),
        field("run", FieldUnit::length, "horizontal, overhang not included", &Slope::run),
        field("total_run", FieldUnit::length, "horizontal, overhang included", &Slope::total_run),
        field("chord_length", FieldUnit::length, "line length of the chord top with its tail", &Slope::chord_length),
        field("tail_length", FieldUnit::length, "the part of it past the wall", &Slope::tail_length),
        field("fascia_width", FieldUnit::length, "width of the fascia along the slope", &Slope::fascia_width),
        field("chord_tail_offset", FieldUnit::length,
              "from an up-coordinate of the purlin plane to the distance from the tail end",
              &Slope::chord_tail_offset));
};

/// A shape laid out: its slopes, front first, and its heights.
struct RoofShape {
    std::vector<Slope> slopes;
    RoofHeights heights;
    Length footprint_width;  ///< as given
    Length footprint_length;
    Length post_inset;  ///< from the faces the footprint goes to in to the outer face of the posts
};
template <>
struct FieldsOf<RoofShape> {
    static constexpr auto list = field_list(
        field("slopes", FieldUnit::none, "slopes, front first", &RoofShape::slopes),
        field("heights", FieldUnit::none, "heights above the benchmark", &RoofShape::heights),
        field("footprint_width", FieldUnit::length, "out to out across the ridge", &RoofShape::footprint_width),
        field("footprint_length", FieldUnit::length, "out to out along the ridge", &RoofShape::footprint_length),
        field("post_inset", FieldUnit::length, "from those faces in to the outer face of the posts",
              &RoofShape::post_inset));
};

namespace detail {
inline void find_fascia_faults(Length fascia, Length overhang, const std::string& name, const Path& path,
                               Faults& faults) {
    if (overhang > no_length && fascia > overhang) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "fascia_thickness"}.text(), describe_length(fascia),
                               "no thicker than the " + name + " of " + describe_length(overhang)});
    }
}

template <class Shape>
void find_shape_faults(const Shape& roof, const Path& path, Faults& faults) {
    require_within(roof.width, Length::from_inches(12.0), longest_building, Path{path, "width"}, faults);
    require_within(roof.length, Length::from_inches(12.0), longest_building, Path{path, "length"}, faults);
    require_within(roof.eave_overhang, no_length, longest_overhang, Path{path, "eave_overhang"}, faults);
    require_within(roof.rake_overhang, no_length, longest_overhang, Path{path, "rake_overhang"}, faults);
    require_within(roof.bearing_height, -greatest_height, greatest_height, Path{path, "bearing_height"}, faults);
    require_within(roof.heel, no_length, deepest_layer * 4.0, Path{path, "heel"}, faults);
    require_within(roof.girt_thickness, no_length, Length::from_inches(12.0), Path{path, "girt_thickness"}, faults);
    require_within(roof.fascia_thickness, no_length, Length::from_inches(12.0), Path{path, "fascia_thickness"}, faults);
    find_fascia_faults(roof.fascia_thickness, roof.eave_overhang, "eave overhang", path, faults);
    find_faults(roof.build_up, Path{path, "build_up"}, faults);
    const Length rise = roof.pitch.rise_over(roof.width);
    if (is_usable(roof.width) && rise > greatest_height) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "pitch"}.text(),
                               describe_length(rise) + " over the width",
                               "a rise of at most " + describe_length(greatest_height)});
    }
}

/// What both shapes share, in the terms of one slope.
struct SlopeInput {
    std::string name;
    Pitch pitch;
    Length run;         ///< face of the wall to ridge, or low wall to high wall
    Length post_inset;  ///< from that face to the outer face of the posts
    Length eave_overhang;
    Length high_overhang;  ///< 0 at a ridge
    Length along;          ///< length of the plane
    BuildUp build_up;
    Length bearing_height;
    Length heel;
    Length fascia_thickness;
    TailCut tail;
    EdgeKind top;
    BuildingPoint corner;  ///< lower left corner of the plane in plan, at the chord tops; z is filled in
    double along_x;        ///< +1 or -1
};

template <Surface surface>
[[nodiscard]] Plane<surface> rectangular_plane(const SlopeInput& in, Length depth, Length chord_eave_height) {
    const SurfaceOffset offset = surface_offset(depth, in.pitch, in.tail);
    Length slope = in.pitch.slope_over(in.run + in.eave_overhang + in.high_overhang);
    if (in.tail == TailCut::square && in.top == EdgeKind::ridge) {
        slope += in.pitch.rise_over(depth);  // the ridge is plumb though the tail is not
    }
    // With a square tail the lower edge moves out and up square to the slope; with a plumb one straight up.
    const Length out = in.tail == TailCut::square ? depth * in.pitch.sine() : no_length;
    const Length rise = in.tail == TailCut::square ? depth * in.pitch.cosine() : offset.plumb;
    const BuildingPoint origin{in.corner.x, in.corner.y - out * in.along_x, chord_eave_height + rise};
    return Plane<surface>{
        .pitch = in.pitch,
        .outline = {{no_length, no_length}, {in.along, no_length}, {in.along, slope}, {no_length, slope}},
        .edges = {EdgeKind::eave, EdgeKind::rake, in.top, EdgeKind::rake},
        .openings = {},
        .placement = {origin, in.along_x, 0.0}};
}

[[nodiscard]] inline RoofHeights heights_of(const SlopeInput& in) {
    const Length at_wall = in.bearing_height + in.heel;
    const Length at_eave = at_wall - in.pitch.rise_over(in.eave_overhang + in.post_inset);
    const Length peak = at_eave + in.pitch.rise_over(in.run + in.eave_overhang + in.high_overhang);
    const Length purlin_plumb = in.pitch.slope_over(in.build_up.purlin);
    const Length deck_plumb = in.pitch.slope_over(in.build_up.purlin + in.build_up.deck);
    const Length fascia_rise = in.tail == TailCut::plumb ? purlin_plumb : in.build_up.purlin * in.pitch.cosine();
    // A square high edge leaves the chord tops square to the slope, as its tail does.
    const bool square_top = in.tail == TailCut::square && in.top == EdgeKind::high_eave;
    const double square_per_plumb = square_top ? in.pitch.cosine() * in.pitch.cosine() : 1.0;
    return {.bearing = in.bearing_height,
            .chord_at_wall = at_wall,
            .chord_at_eave = at_eave,
            .fascia_top = at_eave + fascia_rise,
            .chord_peak = peak,
            .purlin_peak = peak + purlin_plumb * square_per_plumb,
            .deck_peak = peak + deck_plumb * square_per_plumb};
}

[[nodiscard]] inline Slope slope_of(const SlopeInput& in, const RoofHeights& heights) {
    const bool plumb = in.tail == TailCut::plumb;
    const Length total_run = in.run + in.eave_overhang + in.high_overhang;
    const Length behind_fascia = plumb ? in.pitch.slope_over(in.fascia_thickness) : in.fascia_thickness;
    const Length purlin_shift = surface_offset(in.build_up.purlin, in.pitch, in.tail).along_slope;
    return {
        .name = in.name,
        .chord = rectangular_plane<Surface::chord_top>(in, no_length, heights.chord_at_eave),
        .purlin = rectangular_plane<Surface::purlin_top>(in, in.build_up.purlin, heights.chord_at_eave),
        .deck = rectangular_plane<Surface::deck_top>(in, in.build_up.purlin + in.build_up.deck, heights.chord_at_eave),
        .run = in.run,
        .total_run = total_run,
        .chord_length = in.pitch.slope_over(total_run) - behind_fascia * (in.top == EdgeKind::high_eave ? 2.0 : 1.0),
        .tail_length = in.pitch.slope_over(in.eave_overhang + in.post_inset) - behind_fascia,
        .fascia_width = behind_fascia,
        .chord_tail_offset = purlin_shift - behind_fascia};
}
}  // namespace detail

inline void find_faults(const GableRoof& roof, const Path& path, Faults& faults) {
    detail::find_shape_faults(roof, path, faults);
}
inline void find_faults(const SingleSlopeRoof& roof, const Path& path, Faults& faults) {
    detail::find_shape_faults(roof, path, faults);
    require_within(roof.high_overhang, no_length, longest_overhang, Path{path, "high_overhang"}, faults);
    detail::find_fascia_faults(roof.fascia_thickness, roof.high_overhang, "high overhang", path, faults);
}

namespace detail {
/// The slope over the front eave of either shape.
template <class Shape>
[[nodiscard]] SlopeInput front_slope(const Shape& roof, std::string name, Length run, Length high_overhang,
                                     EdgeKind top) {
    return SlopeInput{.name = std::move(name),
                      .pitch = roof.pitch,
                      .run = run,
                      .post_inset = roof.face == WallFace::girts ? roof.girt_thickness : no_length,
                      .eave_overhang = roof.eave_overhang,
                      .high_overhang = high_overhang,
                      .along = roof.length + 2.0 * roof.rake_overhang,
                      .build_up = roof.build_up,
                      .bearing_height = roof.bearing_height,
                      .heel = roof.heel,
                      .fascia_thickness = roof.fascia_thickness,
                      .tail = roof.tail,
                      .top = top,
                      .corner = {-roof.rake_overhang, -roof.eave_overhang, no_length},
                      .along_x = 1.0};
}

/// A shape with its front slope alone.
template <class Shape>
[[nodiscard]] RoofShape shape_with_front(const Shape& roof, const SlopeInput& front) {
    const RoofHeights heights = heights_of(front);
    return RoofShape{.slopes = {slope_of(front, heights)},
                     .heights = heights,
                     .footprint_width = roof.width,
                     .footprint_length = roof.length,
                     .post_inset = front.post_inset};
}
}  // namespace detail

/// Lays out a gable: front slope (at y = 0) and back slope, both seen from outside facing up the slope.
/// Exact but for rounding in the last place of sqrt. Throws `FaultError` with the first fault of `roof`.
[[nodiscard]] inline RoofShape gable(const GableRoof& roof) {
    require_sound(roof, "roof");
    detail::SlopeInput slope = detail::front_slope(roof, "front", roof.width / 2.0, no_length, EdgeKind::ridge);
    RoofShape shape = detail::shape_with_front(roof, slope);
    slope.name = "back";
    slope.corner = {roof.length + roof.rake_overhang, roof.width + roof.eave_overhang, no_length};
    slope.along_x = -1.0;
    shape.slopes.push_back(detail::slope_of(slope, shape.heights));
    return shape;
}

/// Lays out a single slope. Throws `FaultError` with the first fault of `roof`.
[[nodiscard]] inline RoofShape single_slope(const SingleSlopeRoof& roof) {
    require_sound(roof, "roof");
    return detail::shape_with_front(
        roof, detail::front_slope(roof, "roof", roof.width, roof.high_overhang, EdgeKind::high_eave));
}

}  // namespace eavewright
