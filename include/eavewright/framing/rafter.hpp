// SPDX-License-Identifier: BSL-1.0
#pragma once

// The common rafter: lengths along its top edge, its cuts, its seat on the plate, and the fascia on its tail.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/cut_angle.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <cmath>
#include <optional>
#include <string>

namespace eavewright {

/// Thickest member, plate or board that is taken for one.
inline constexpr Length thickest_member = Length::from_inches(24.0);

/// A common rafter from plate to ridge board. Level distances go from the outer face of the plate; the overhang ends at
/// the fascia's outer face, with a square tail where that face meets the line of the rafter tops (as in `GableRoof`).
struct CommonRafter {
    Pitch pitch;
    Length run;                                          ///< level, outer face of the plate to the middle of the ridge
    Length overhang;                                     ///< level, outer face of the plate to the fascia's outer face
    Length depth;                                        ///< of the rafter, square to its edges: 5.5 in for a 2x6
    Length plate_width;                                  ///< level room for the seat; 0 where there is no birdsmouth
    Length ridge_thickness = Length::from_inches(1.5);   ///< 2x ridge board, PS 20; 0 where rafters meet
    TailCut tail = TailCut::plumb;                       ///< and the fascia on it
    Length fascia_thickness = Length::from_inches(1.5);  ///< 2x fascia, PS 20; 0 where there is none
    Length purlin = no_length;  ///< layer between rafter tops and deck, square to the slope; the fascia rises with it
    /// Deepest notch over the bearing as a share of the depth: 1/4 (UBC 1997 2306.2.2, IRC R802.7.1). Confirm locally.
    double notch_share = 0.25;
};

/// A birdsmouth: level seat, plumb heel cut at the outer face of the plate.
struct Birdsmouth {
    Length seat;                       ///< level: the plate's width, or what the notch limit leaves of it
    std::optional<Length> seat_limit;  ///< longest seat within the notch limit; none on a level rafter
    Length heel_cut;                   ///< plumb depth at the outer face of the plate
    Length notch_depth;                ///< square to the lower edge
    Length notch_limit;                ///< share of the depth that may be notched
    bool covers_plate;                 ///< the seat is as wide as the plate
};
template <>
struct FieldsOf<Birdsmouth> {
    static constexpr auto list = field_list(
        field("seat", FieldUnit::length, "level seat on the plate", &Birdsmouth::seat),
        field("seat_limit", FieldUnit::length, "longest seat within the notch limit, null on a level rafter",
              &Birdsmouth::seat_limit),
        field("heel_cut", FieldUnit::length, "plumb depth at the outer face of the plate", &Birdsmouth::heel_cut),
        field("notch_depth", FieldUnit::length, "depth square to the lower edge", &Birdsmouth::notch_depth),
        field("notch_limit", FieldUnit::length, "deepest notch allowed", &Birdsmouth::notch_limit),
        field("covers_plate", FieldUnit::none, "the seat is as wide as the plate", &Birdsmouth::covers_plate));
};

/// A common rafter laid out. Lengths along the top edge unless said; heights above the plate.
struct RafterFigures {
    Length rise;                   ///< over the run
    Length line_length;            ///< outer face of the plate to the middle of the ridge
    Length ridge_deduction;        ///< level: half the ridge board (NAVEDTRA 14044, Builder 3&2 vol. 2, p. 2-15)
    Length ridge_deduction_along;  ///< the same along the rafter
    Length overhang_length;        ///< outer face of the plate to the fascia's outer face
    Length behind_fascia;          ///< what the fascia takes of it
    Length tail_length;            ///< outer face of the plate to the end of the rafter
    Length cut_length;             ///< end of the tail to the face of the ridge board
    Length blank_length;           ///< shortest piece it comes out of: long point to long point of both edges
    CutAngle plumb_cut;            ///< off square across: the pitch
    CutAngle seat_cut;             ///< off the length of the rafter: the pitch
    CutAngle tail_cut;             ///< off square across: the pitch, or none for a square tail
    Length plumb_depth;            ///< length of the plumb cut; a ridge board is at least as deep
    Birdsmouth birdsmouth;
    Length height_above_plate;  ///< plumb wood over the outer face of the plate: the heel of a roof shape
    Length ridge_height;        ///< where the lines of both rafters meet
    Length ridge_board_top;     ///< of a board whose top arrises lie in the rafter tops
    Length eave_height;         ///< line of the rafter tops at the fascia's outer face
    Length
        fascia_drop;  ///< rafter's top corner at its tail down to the fascia's top edge, on the fascia's back; negative
                      ///< where the fascia stands above it
    Length fascia_top;  ///< outer top corner, just under the deck
};
template <>
struct FieldsOf<RafterFigures> {
    static constexpr auto list = field_list(
        field("rise", FieldUnit::length, "over the run", &RafterFigures::rise),
        field("line_length", FieldUnit::length, "outer face of the plate to the middle of the ridge",
              &RafterFigures::line_length),
        field("ridge_deduction", FieldUnit::length, "half the ridge board, level", &RafterFigures::ridge_deduction),
        field("ridge_deduction_along", FieldUnit::length, "half the ridge board along the rafter",
              &RafterFigures::ridge_deduction_along),
        field("overhang_length", FieldUnit::length, "plate to the fascia's outer face",
              &RafterFigures::overhang_length),
        field("behind_fascia", FieldUnit::length, "what the fascia takes along the slope",
              &RafterFigures::behind_fascia),
        field("tail_length", FieldUnit::length, "plate to the end of the rafter", &RafterFigures::tail_length),
        field("cut_length", FieldUnit::length, "end of the tail to the face of the ridge board",
              &RafterFigures::cut_length),
        field("blank_length", FieldUnit::length, "shortest piece the rafter comes out of",
              &RafterFigures::blank_length),
        field("plumb_cut", FieldUnit::none, "off square across", &RafterFigures::plumb_cut),
        field("seat_cut", FieldUnit::none, "off the length of the rafter", &RafterFigures::seat_cut),
        field("tail_cut", FieldUnit::none, "off square across", &RafterFigures::tail_cut),
        field("plumb_depth", FieldUnit::length, "length of the plumb cut", &RafterFigures::plumb_depth),
        field("birdsmouth", FieldUnit::none, "the seat on the plate", &RafterFigures::birdsmouth),
        field("height_above_plate", FieldUnit::length, "plumb wood over the outer face of the plate",
              &RafterFigures::height_above_plate),
        field("ridge_height", FieldUnit::length, "where the rafter lines meet, above the plate",
              &RafterFigures::ridge_height),
        field("ridge_board_top", FieldUnit::length, "top of the ridge board, above the plate",
              &RafterFigures::ridge_board_top),
        field("eave_height", FieldUnit::length, "line of the rafter tops at the fascia's outer face, above the plate",
              &RafterFigures::eave_height),
        field("fascia_drop", FieldUnit::length, "rafter's top corner down to the fascia's top edge",
              &RafterFigures::fascia_drop),
        field("fascia_top", FieldUnit::length, "outer top corner of the fascia, above the plate",
              &RafterFigures::fascia_top));
};

inline void find_faults(const CommonRafter& rafter, const Path& path, Faults& faults) {
    require_within(rafter.run, Length::from_inches(1.0), longest_building, Path{path, "run"}, faults);
    require_within(rafter.overhang, no_length, longest_overhang, Path{path, "overhang"}, faults);
    require_within(rafter.depth, Length::from_inches(0.5), deepest_layer, Path{path, "depth"}, faults);
    require_within(rafter.plate_width, no_length, thickest_member, Path{path, "plate_width"}, faults);
    require_within(rafter.ridge_thickness, no_length, thickest_member, Path{path, "ridge_thickness"}, faults);
    require_within(rafter.fascia_thickness, no_length, thickest_member, Path{path, "fascia_thickness"}, faults);
    require_within(rafter.purlin, no_length, deepest_layer, Path{path, "purlin"}, faults);
    if (!(rafter.notch_share > 0.0 && rafter.notch_share <= 0.5)) {
        faults.push_back(Fault{std::isfinite(rafter.notch_share) ? FaultCode::out_of_range : FaultCode::not_finite,
                               Path{path, "notch_share"}.text(), write_decimal(rafter.notch_share, 6),
                               "above 0, at most 0.5"});
    }
    const auto require_fit = [&](Length part, const char* name, Length room, const char* where) {
        if (part > room) {
            faults.push_back(Fault{FaultCode::does_not_fit, Path{path, name}.text(), describe_length(part),
                                   std::string{"no more than the "} + where + " of " + describe_length(room)});
        }
    };
    require_fit(rafter.ridge_thickness / 2.0, "ridge_thickness", rafter.run, "run");
    if (rafter.overhang > no_length) {
        require_fit(rafter.fascia_thickness, "fascia_thickness", rafter.overhang, "overhang");
    }
    require_fit(rafter.pitch.rise_over(rafter.run), "pitch", greatest_height, "greatest rise");
}

/// The seat of a rafter of `depth` on a plate: as wide as the plate, unless the notch would pass `notch_share` of the
/// depth, measured square to the lower edge. The longest seat is (share x depth) x sqrt(144 + r x r) / r.
/// Source: two published answers for a 2x12, 8 7/8 in at 4 in 12 and 4 in at 12 in 12. A seat wants 1 1/2 in of
/// bearing on wood (IRC R802.6); whether it holds is for the local code. Lengths at least 0 and share above 0,
/// unchecked.
[[nodiscard]] inline Birdsmouth birdsmouth(Pitch pitch, Length depth, Length plate_width, double notch_share = 0.25) {
    const Length limit = depth * notch_share;
    std::optional<Length> longest;
    if (pitch.rise_per_run() > 0.0) {
        longest = limit / pitch.sine();
    }
    const Length seat = longest ? shorter(plate_width, *longest) : plate_width;
    return {.seat = seat,
            .seat_limit = longest,
            .heel_cut = pitch.rise_over(seat),
            .notch_depth = seat * pitch.sine(),
            .notch_limit = limit,
            .covers_plate = !(seat < plate_width)};
}

/// Lays out a common rafter. Exact but for rounding in the last place of sqrt.
///
/// A plumb fascia with a square top edge drops by its thickness times the pitch, so that its outer corner clears the
/// deck; one square to the slope lies flush. Purlins on the rafters lift either by their depth, plumb or square to
/// the slope. Throws `FaultError` with the first fault of `rafter`.
[[nodiscard]] inline RafterFigures common_rafter(const CommonRafter& rafter) {
    require_sound(rafter, "rafter");
    const Pitch pitch = rafter.pitch;
    const bool plumb = rafter.tail == TailCut::plumb;
    const Length half_ridge = rafter.ridge_thickness / 2.0;
    const Length along = pitch.slope_over(half_ridge);
    const Length behind = plumb ? pitch.slope_over(rafter.fascia_thickness) : rafter.fascia_thickness;
    const Length line = pitch.slope_over(rafter.run);
    const Length tail = pitch.slope_over(rafter.overhang) - behind;
    const Length cut = line - along + tail;
    const Birdsmouth seat = birdsmouth(pitch, rafter.depth, rafter.plate_width, rafter.notch_share);
    const Length plumb_depth = pitch.slope_over(rafter.depth);
    const Length above_plate = plumb_depth - seat.heel_cut;
    const Length eave = above_plate - pitch.rise_over(rafter.overhang);
    const Length lift = plumb ? pitch.slope_over(rafter.purlin) : rafter.purlin;
    const Length fascia_top = plumb ? eave + lift : eave + rafter.purlin * pitch.cosine();
    return {.rise = pitch.rise_over(rafter.run),
            .line_length = line,
            .ridge_deduction = half_ridge,
            .ridge_deduction_along = along,
            .overhang_length = pitch.slope_over(rafter.overhang),
            .behind_fascia = behind,
            .tail_length = tail,
            .cut_length = cut,
            // Plumb at the ridge the lower edge ends further down than the upper one; so it does at a plumb tail.
            .blank_length = plumb ? cut + pitch.rise_over(rafter.depth) : cut,
            .plumb_cut = CutAngle::of(pitch),
            .seat_cut = CutAngle::of(pitch),
            .tail_cut = plumb ? CutAngle::of(pitch) : CutAngle::none(),
            .plumb_depth = plumb_depth,
            .birdsmouth = seat,
            .height_above_plate = above_plate,
            .ridge_height = above_plate + pitch.rise_over(rafter.run),
            .ridge_board_top = above_plate + pitch.rise_over(rafter.run - half_ridge),
            .eave_height = eave,
            .fascia_drop = (plumb ? pitch.rise_over(rafter.fascia_thickness) : no_length) - lift,
            .fascia_top = fascia_top};
}

}  // namespace eavewright
