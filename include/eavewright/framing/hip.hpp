// SPDX-License-Identifier: BSL-1.0
#pragma once

// Hip and valley rafters, regular or not: lengths, deductions, drop or backing, cuts; and the overhang at their corner.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/cut_angle.hpp>
#include <eavewright/framing/hip_line.hpp>
#include <eavewright/framing/rafter.hpp>
#include <eavewright/framing/saw.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace eavewright {

enum class HipKind { hip, valley };
template <>
struct NamesOf<HipKind> {
    static constexpr std::array<std::string_view, 2> list{"hip", "valley"};
};

/// What the head of a hip or valley is framed against.
enum class HipHead {
    ridge_board,        ///< the side of a ridge board that runs along eave A: one cheek cut
    ridge_end_commons,  ///< the corner between the last common of side A and the one of side B: two cheek cuts
};
template <>
struct NamesOf<HipHead> {
    static constexpr std::array<std::string_view, 2> list{"ridge_board", "ridge_end_commons"};
};

/// A hip or valley rafter over a corner of the plates, all plates of one height and all rafters with one height above
/// plate. Side A's overhang is given; side B's follows, so that the fascias meet at one height on the line.
struct HipRafter {
    HipPlanes planes;
    Length run_a;               ///< level, outer face of A's plate to the ridge: the common run of side A
    Length overhang_a;          ///< level, outer face of A's plate to the fascia's outer face
    Length depth;               ///< of the hip or valley, square to its edges
    Length height_above_plate;  ///< of the common rafters
    HipKind kind = HipKind::hip;
    HipHead head = HipHead::ridge_board;
    Length thickness = Length::from_inches(1.5);         ///< 2x, PS 20
    Length head_thickness = Length::from_inches(1.5);    ///< of the ridge board or the commons there; 0 for the line
    Length fascia_thickness = Length::from_inches(1.5);  ///< plumb fascia; 0 where there is none
};

/// A hip or valley rafter laid out. Deductions are level, along the run of the hip.
struct HipRafterFigures {
    HipLine line;
    Length run_b;     ///< common run of side B up to the same height
    Length plan_run;  ///< corner of the plates to the ridge, in plan
    Length rise;
    Length line_length;  ///< corner of the plates to the ridge, along the line
    Length overhang_b;
    Length tail_plan;       ///< corner of the plates to the corner of the fascia's outer faces, in plan
    Length tail_line;       ///< and along the line
    Length head_deduction;  ///< half the ridge or common, drawn out to the angle it stands at
    Length tail_deduction;  ///< for the fascia
    Length cut_length;      ///< along the middle of the top edge, between both deductions
    Length blank_length;    ///< cut length and the offset of the lower edge; cheeks reach past it by half a thickness
    CutAngle plumb_cut;     ///< off square across on its side: the pitch of the hip
    CutAngle head_cheek_a;  ///< line on the unbacked top edge at the head, off the length, on A's side of the middle
    CutAngle head_cheek_b;
    CutAngle tail_cheek_a;  ///< at the tail, against A's fascia
    CutAngle tail_cheek_b;
    SawSetting head_saw_a;  ///< side of the hip on the table
    SawSetting head_saw_b;
    Length plumb_depth;  ///< length of the plumb cut
    Length side_drop_a;  ///< hip: plane A lies this far under the line at the hip's side; valley: above it
    Length side_drop_b;
    Length drop;             ///< how far an unbacked hip is lowered so that both arrises clear; 0 for a valley
    Length backing_depth_a;  ///< else: how deep the bevel of A's side goes at the arris, square to the hip's edge
    Length backing_depth_b;
    Length shift_to_a;  ///< off the line to A's side (negative: to B's), where both arrises lie in their planes at once
    Length shifted_drop;  ///< the drop that goes with it, never more than `drop`; 0 for a valley
    Length
        height_above_plate;  ///< plumb wood of a hip lowered by `drop`, or of a valley, over the corner of the plates
};
template <>
struct FieldsOf<HipRafterFigures> {
    static constexpr auto list = field_list(
        field("line", FieldUnit::none, "the line between the planes", &HipRafterFigures::line),
        field("run_b", FieldUnit::length, "common run of side B up to the same height", &HipRafterFigures::run_b),
        field("plan_run", FieldUnit::length, "corner of the plates to the ridge in plan", &HipRafterFigures::plan_run),
        field("rise", FieldUnit::length, "over that run", &HipRafterFigures::rise),
        field("line_length", FieldUnit::length, "corner of the plates to the ridge", &HipRafterFigures::line_length),
        field("overhang_b", FieldUnit::length, "overhang of side B, eaves of one height",
              &HipRafterFigures::overhang_b),
        field("tail_plan", FieldUnit::length, "corner of the plates to that of the fascias, in plan",
              &HipRafterFigures::tail_plan),
        field("tail_line", FieldUnit::length, "corner of the plates to that of the fascias",
              &HipRafterFigures::tail_line),
        field("head_deduction", FieldUnit::length, "level, for the ridge or the commons",
              &HipRafterFigures::head_deduction),
        field("tail_deduction", FieldUnit::length, "level, for the fascia", &HipRafterFigures::tail_deduction),
        field("cut_length", FieldUnit::length, "along the middle of the top edge", &HipRafterFigures::cut_length),
        field("blank_length", FieldUnit::length, "cut length and the offset of the lower edge",
              &HipRafterFigures::blank_length),
        field("plumb_cut", FieldUnit::none, "off square across", &HipRafterFigures::plumb_cut),
        field("head_cheek_a", FieldUnit::none, "off the length, on A's side", &HipRafterFigures::head_cheek_a),
        field("head_cheek_b", FieldUnit::none, "off the length, on B's side", &HipRafterFigures::head_cheek_b),
        field("tail_cheek_a", FieldUnit::none, "off the length, against A's fascia", &HipRafterFigures::tail_cheek_a),
        field("tail_cheek_b", FieldUnit::none, "off the length, against B's fascia", &HipRafterFigures::tail_cheek_b),
        field("head_saw_a", FieldUnit::none, "A's cheek, side on the table", &HipRafterFigures::head_saw_a),
        field("head_saw_b", FieldUnit::none, "B's cheek, side on the table", &HipRafterFigures::head_saw_b),
        field("plumb_depth", FieldUnit::length, "length of the plumb cut", &HipRafterFigures::plumb_depth),
        field("side_drop_a", FieldUnit::length, "plane A under the line at the side, above it at a valley",
              &HipRafterFigures::side_drop_a),
        field("side_drop_b", FieldUnit::length, "plane B under the line at the side, above it at a valley",
              &HipRafterFigures::side_drop_b),
        field("drop", FieldUnit::length, "plumb, of an unbacked hip", &HipRafterFigures::drop),
        field("backing_depth_a", FieldUnit::length, "bevel of A's side at the arris",
              &HipRafterFigures::backing_depth_a),
        field("backing_depth_b", FieldUnit::length, "bevel of B's side at the arris",
              &HipRafterFigures::backing_depth_b),
        field("shift_to_a", FieldUnit::length, "off the line, where both arrises lie in their planes",
              &HipRafterFigures::shift_to_a),
        field("shifted_drop", FieldUnit::length, "drop that goes with the shift", &HipRafterFigures::shifted_drop),
        field("height_above_plate", FieldUnit::length, "plumb wood over the corner of the plates",
              &HipRafterFigures::height_above_plate));
};

inline void find_faults(const HipRafter& hip, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    find_faults(hip.planes, Path{path, "planes"}, faults);
    require_within(hip.run_a, Length::from_inches(1.0), longest_building, Path{path, "run_a"}, faults);
    require_within(hip.overhang_a, no_length, longest_overhang, Path{path, "overhang_a"}, faults);
    require_within(hip.depth, Length::from_inches(0.5), deepest_layer, Path{path, "depth"}, faults);
    require_within(hip.height_above_plate, no_length, deepest_layer * 4.0, Path{path, "height_above_plate"}, faults);
    require_within(hip.thickness, no_length, thickest_member, Path{path, "thickness"}, faults);
    require_within(hip.head_thickness, no_length, thickest_member, Path{path, "head_thickness"}, faults);
    require_within(hip.fascia_thickness, no_length, thickest_member, Path{path, "fascia_thickness"}, faults);
    if (faults.size() > before) {
        return;
    }
    detail::require_hip_between(hip.planes, Path{path, "planes"}, faults);
    const Length rise = hip.planes.pitch_a.rise_over(hip.run_a);
    const Length run_b = rise / hip.planes.pitch_b.rise_per_run();
    if (rise > greatest_height || run_b > longest_building) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "run_a"}.text(), describe_length(hip.run_a),
                               "a rise of at most " + describe_length(greatest_height) +
                                   " and a run of side B of at most " + describe_length(longest_building)});
    }
}

namespace detail {
/// A cut by an upright plane at `plan` to the member in plan, as a line on its level-across top edge, off its length.
[[nodiscard]] inline CutAngle cheek(CutAngle plan, Pitch pitch) {
    return CutAngle::from_figures(plan.sine() * pitch.cosine(), plan.cosine());
}
/// The same cut with the side of the member on the table.
[[nodiscard]] inline SawSetting cheek_saw(CutAngle plan, Pitch pitch) {
    return {.mitre = CutAngle::of(pitch), .bevel = plan.complement()};
}

/// Drop, backing and shift of a hip, and what stands above a valley.
inline void set_top(const HipRafter& hip, HipRafterFigures& to) {
    const HipLine& line = to.line;
    const Length half = hip.thickness / 2.0;
    const bool is_hip = hip.kind == HipKind::hip;
    to.side_drop_a = half * line.drop_per_offset_a;
    to.side_drop_b = half * line.drop_per_offset_b;
    to.backing_depth_a = to.side_drop_a * line.pitch.cosine();
    to.backing_depth_b = to.side_drop_b * line.pitch.cosine();
    const double both = line.drop_per_offset_a + line.drop_per_offset_b;
    const Length side_a = hip.thickness * line.drop_per_offset_b / both;
    to.drop = is_hip ? longer(to.side_drop_a, to.side_drop_b) : no_length;
    to.shift_to_a = is_hip ? side_a - half : no_length;
    to.shifted_drop = is_hip ? side_a * line.drop_per_offset_a : no_length;
    to.height_above_plate = hip.height_above_plate - to.drop;
}
}  // namespace detail

/// Lays out a hip or valley rafter. Exact but for rounding in the last places of sqrt.
///
/// Against the side of a ridge board along eave A the head loses half the board drawn out to the hip's angle with it
/// ("half the 45 degree thickness", NAVEDTRA 14044, Builder 3&2 vol. 2, p. 2-22); between the commons at the end of a
/// ridge, half a common drawn out to its angle, by the one that the hip meets first. The fascia is taken off in the
/// same way. Throws `FaultError` with the first fault of `hip`; not_supported where the hip runs back over an eave.
[[nodiscard]] inline HipRafterFigures hip_rafter(const HipRafter& hip) {
    require_sound(hip, "hip");
    const HipLine line = detail::hip_line_of(hip.planes);
    const Length half_head = hip.head_thickness / 2.0;
    const bool on_board = hip.head == HipHead::ridge_board;
    const CutAngle head_a = on_board ? line.plan_a : line.plan_a.complement();
    const CutAngle head_b = on_board ? line.plan_a : line.plan_b.complement();
    const Length head = longer(half_head / head_a.sine(), half_head / head_b.sine());
    const Length tail = longer(hip.fascia_thickness / line.plan_a.sine(), hip.fascia_thickness / line.plan_b.sine());
    const Length line_length = hip.run_a * line.length_per_run_a;
    const Length tail_line = hip.overhang_a * line.length_per_run_a;
    const Length cut = line_length + tail_line - line.pitch.slope_over(head + tail);
    const double b_over_a = hip.planes.pitch_a.rise_per_run() / hip.planes.pitch_b.rise_per_run();
    HipRafterFigures figures{.line = line,
                             .run_b = hip.run_a * b_over_a,
                             .plan_run = hip.run_a * line.plan_per_run_a,
                             .rise = hip.planes.pitch_a.rise_over(hip.run_a),
                             .line_length = line_length,
                             .overhang_b = hip.overhang_a * b_over_a,
                             .tail_plan = hip.overhang_a * line.plan_per_run_a,
                             .tail_line = tail_line,
                             .head_deduction = head,
                             .tail_deduction = tail,
                             .cut_length = cut,
                             .blank_length = cut + line.pitch.rise_over(hip.depth),
                             .plumb_cut = CutAngle::of(line.pitch),
                             .head_cheek_a = detail::cheek(head_a, line.pitch),
                             .head_cheek_b = detail::cheek(head_b, line.pitch),
                             .tail_cheek_a = detail::cheek(line.plan_a, line.pitch),
                             .tail_cheek_b = detail::cheek(line.plan_b, line.pitch),
                             .head_saw_a = detail::cheek_saw(head_a, line.pitch),
                             .head_saw_b = detail::cheek_saw(head_b, line.pitch),
                             .plumb_depth = line.pitch.slope_over(hip.depth),
                             .side_drop_a = no_length,
                             .side_drop_b = no_length,
                             .drop = no_length,
                             .backing_depth_a = no_length,
                             .backing_depth_b = no_length,
                             .shift_to_a = no_length,
                             .shifted_drop = no_length,
                             .height_above_plate = no_length};
    detail::set_top(hip, figures);
    return figures;
}

/// Overhangs at a corner of two pitches, fascias mitred at one height.
struct CornerOverhang {
    HipPlanes planes;
    Length overhang_a;                   ///< level, outer face of A's plate to the fascia's outer face
    std::optional<Length> overhang_b{};  ///< where not given: what lets both plates lie at one height
};

/// How plates and fascias lie at such a corner. The hip goes through the corner of the fascias; over the corner of the
/// plates only where the plates are level with one another.
struct CornerOverhangFigures {
    Length overhang_b;
    Length plate_step;       ///< B's plate above A's, where the rafters of both have one height above plate
    Length hip_off_corner;   ///< corner of the plates off the hip in plan, positive on A's side
    Length plan_to_plate_a;  ///< along the hip in plan, from the fascias' corner to where it crosses A's plate line
    Length plan_to_plate_b;
    Length slope_to_plate_a;  ///< and along the slope of the hip
    Length slope_to_plate_b;
};
template <>
struct FieldsOf<CornerOverhangFigures> {
    static constexpr auto list = field_list(
        field("overhang_b", FieldUnit::length, "overhang of side B", &CornerOverhangFigures::overhang_b),
        field("plate_step", FieldUnit::length, "B's plate above A's", &CornerOverhangFigures::plate_step),
        field("hip_off_corner", FieldUnit::length, "corner of the plates off the hip in plan, positive on A's side",
              &CornerOverhangFigures::hip_off_corner),
        field("plan_to_plate_a", FieldUnit::length, "fascias' corner to A's plate line, along the hip in plan",
              &CornerOverhangFigures::plan_to_plate_a),
        field("plan_to_plate_b", FieldUnit::length, "fascias' corner to B's plate line, along the hip in plan",
              &CornerOverhangFigures::plan_to_plate_b),
        field("slope_to_plate_a", FieldUnit::length, "fascias' corner to A's plate line, along the hip",
              &CornerOverhangFigures::slope_to_plate_a),
        field("slope_to_plate_b", FieldUnit::length, "fascias' corner to B's plate line, along the hip",
              &CornerOverhangFigures::slope_to_plate_b));
};

inline void find_faults(const CornerOverhang& corner, const Path& path, Faults& faults) {
    find_faults(corner.planes, Path{path, "planes"}, faults);
    require_within(corner.overhang_a, no_length, longest_overhang, Path{path, "overhang_a"}, faults);
    if (corner.overhang_b) {
        require_within(*corner.overhang_b, no_length, longest_overhang, Path{path, "overhang_b"}, faults);
    }
}

/// Works out the overhangs at a corner. Equal overhangs of unequal pitches want a step of the plates of overhang
/// times the difference of the pitches. Throws `FaultError` with the first fault of `corner`.
[[nodiscard]] inline CornerOverhangFigures corner_overhang(const CornerOverhang& corner) {
    require_sound(corner, "corner");
    const HipLine line = detail::hip_line_of(corner.planes);
    const double a = corner.planes.pitch_a.rise_per_run();
    const double b = corner.planes.pitch_b.rise_per_run();
    const Length overhang_a = corner.overhang_a;
    const Length overhang_b = corner.overhang_b.value_or(overhang_a * (a / b));
    const Length step = corner.overhang_b ? overhang_b * b - overhang_a * a : no_length;
    // The corner of the plates lies overhang_a off eave A and overhang_b off eave B; the hip where a and b times
    // those are one.
    const double plan = line.plan_per_run_a * b * corner.planes.corner.sine();
    return {.overhang_b = overhang_b,
            .plate_step = step,
            .hip_off_corner = step / plan,
            .plan_to_plate_a = overhang_a * line.plan_per_run_a,
            .plan_to_plate_b = overhang_b * line.plan_per_run_b,
            .slope_to_plate_a = overhang_a * line.length_per_run_a,
            .slope_to_plate_b = overhang_b * line.length_per_run_b};
}

/// Length of the ridge board of a hip roof of equal pitches over a rectangle, cut square, hips against its sides: long
/// plate less short plate, and the thickness of the ridge and the 45 degree thickness of the hip (Griffith, Carpentry,
/// App. IV, item 2). Throws `FaultError` for lengths outside 1 in to `longest_building`, thicknesses outside 0 to 24
/// in, and does_not_fit where the plan is wider than long.
[[nodiscard]] inline Length hip_ridge_board(Length length, Length width, Length ridge_thickness, Length hip_thickness) {
    Faults faults;
    require_within(length, Length::from_inches(1.0), longest_building, Path{"length"}, faults);
    require_within(width, Length::from_inches(1.0), longest_building, Path{"width"}, faults);
    require_within(ridge_thickness, no_length, thickest_member, Path{"ridge_thickness"}, faults);
    require_within(hip_thickness, no_length, thickest_member, Path{"hip_thickness"}, faults);
    if (faults.empty() && width > length) {
        faults.push_back(Fault{FaultCode::does_not_fit, "width", describe_length(width),
                               "no more than the length of " + describe_length(length)});
    }
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    return length - width + ridge_thickness + hypotenuse(hip_thickness, hip_thickness);
}

}  // namespace eavewright
