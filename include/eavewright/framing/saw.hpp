// SPDX-License-Identifier: BSL-1.0
#pragma once

// Saw settings where members meet at a hip or valley: mitre and bevel for a face lying on the saw.
//
// Every setting is one construction: a member runs along one direction, one of its faces lies on the saw table, and a
// plane cuts it. The rest is which directions those are.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/cut_angle.hpp>
#include <eavewright/framing/hip_line.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string_view>

namespace eavewright {

/// A direction in space, of any length but zero. At a corner: x along eave A, y square to it into the building, z up.
struct Direction {
    double x;
    double y;
    double z;
};
[[nodiscard]] constexpr double dot(Direction a, Direction b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
[[nodiscard]] constexpr Direction cross(Direction a, Direction b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

/// How a saw is set. Both are 0 for a square cut. Which way each leans follows from the roof: a saw setting is a size.
struct SawSetting {
    CutAngle mitre;  ///< off square across, on the face that lies on the table
    CutAngle bevel;  ///< tilt of the blade off square to that face
};
template <>
struct FieldsOf<SawSetting> {
    static constexpr auto list =
        field_list(field("mitre", FieldUnit::none, "off square across, on the face on the table", &SawSetting::mitre),
                   field("bevel", FieldUnit::none, "tilt of the blade off square to that face", &SawSetting::bevel));
};

/// Mitre and bevel of the cut that the plane square to `cut` makes through a member along `length`, with the face
/// square to `face` on the table. `length` and `face` are square to one another; none is zero, and `cut` is not `face`.
/// Ratios and square roots alone; unchecked.
[[nodiscard]] inline SawSetting saw_setting(Direction length, Direction face, Direction cut) {
    const Direction across = cross(face, length);
    const double size = std::sqrt(dot(length, length));
    const double face_size = std::sqrt(dot(face, face));
    const double on_length = dot(cut, length) / size;
    const double on_across = dot(cut, across) / (size * face_size);
    const double on_face = dot(cut, face) / face_size;
    const double in_face = std::sqrt(on_length * on_length + on_across * on_across);
    return {.mitre = CutAngle::from_figures(std::fabs(on_across), std::fabs(on_length)),
            .bevel = CutAngle::from_figures(std::fabs(on_face), in_face)};
}

/// Which plane purlins and sheets are cut to at a hip or valley.
enum class HipCut {
    plumb,      ///< upright through the line: against the side of a hip or valley rafter, or over its middle
    bisecting,  ///< halfway between the two planes: both sides mitred on one another; upright where pitches are equal
};
template <>
struct NamesOf<HipCut> {
    static constexpr std::array<std::string_view, 2> list{"plumb", "bisecting"};
};

/// What is cut at a hip or valley.
struct HipSaw {
    HipPlanes planes;                 ///< settings are those of side A; `other_side` gives side B
    TailCut fascia = TailCut::plumb;  ///< how the fascia stands
    HipCut cut = HipCut::plumb;       ///< of purlins and sheets
};

/// Saw settings of side A at a hip or valley.
struct HipSawSettings {
    SawSetting jack_on_side;    ///< jack with its side on the table: the plumb line as mitre
    SawSetting jack_on_edge;    ///< jack with its top edge on the table
    CutAngle jack_side_cut;     ///< line on the jack's top edge, off its length: cos(pitch) on tan(plan angle)
    SawSetting fascia;          ///< fascia with its outer face on the table, mitred with that of side B, one thickness
    SawSetting purlin_flat;     ///< purlin with its wide face in the roof, that face on the table
    SawSetting purlin_on_edge;  ///< purlin with its wide face square to the roof, that face on the table
    SawSetting sheet;           ///< sheet with its face on the table, mitre off square to the eave edge
    CutAngle sheet_from_eave;   ///< line on the sheet, off its eave edge
};
template <>
struct FieldsOf<HipSawSettings> {
    static constexpr auto list = field_list(
        field("jack_on_side", FieldUnit::none, "jack with its side on the table", &HipSawSettings::jack_on_side),
        field("jack_on_edge", FieldUnit::none, "jack with its top edge on the table", &HipSawSettings::jack_on_edge),
        field("jack_side_cut", FieldUnit::none, "line on the jack's top edge, off its length",
              &HipSawSettings::jack_side_cut),
        field("fascia", FieldUnit::none, "fascia with its outer face on the table", &HipSawSettings::fascia),
        field("purlin_flat", FieldUnit::none, "purlin lying flat, wide face on the table",
              &HipSawSettings::purlin_flat),
        field("purlin_on_edge", FieldUnit::none, "purlin on edge, wide face on the table",
              &HipSawSettings::purlin_on_edge),
        field("sheet", FieldUnit::none, "sheet with its face on the table", &HipSawSettings::sheet),
        field("sheet_from_eave", FieldUnit::none, "line on the sheet, off its eave edge",
              &HipSawSettings::sheet_from_eave));
};

namespace detail {
/// Directions at a corner, all of length 1.
struct CornerDirections {
    Direction eave;       ///< along eave A
    Direction up;         ///< up the slope of side A
    Direction normal;     ///< out of plane A
    Direction plumb_cut;  ///< square to the upright plane through the line
    Direction bisecting;  ///< square to the plane halfway between both
};

[[nodiscard]] inline CornerDirections directions_at(const HipPlanes& planes) {
    const HipLine line = hip_line_of(planes);
    const Pitch a = planes.pitch_a;
    const Pitch b = planes.pitch_b;
    // Side B rises along (sine, -cosine) of the corner. The two normals differ along the plane halfway between them.
    const Direction across{b.sine() * planes.corner.sine(), -a.sine() - b.sine() * planes.corner.cosine(),
                           a.cosine() - b.cosine()};
    const double size = std::sqrt(dot(across, across));
    return {.eave = {1.0, 0.0, 0.0},
            .up = {0.0, a.cosine(), a.sine()},
            .normal = {0.0, -a.sine(), a.cosine()},
            .plumb_cut = {-line.plan_a.sine(), line.plan_a.cosine(), 0.0},
            .bisecting = {across.x / size, across.y / size, across.z / size}};
}

[[nodiscard]] inline Direction cut_of(const CornerDirections& at, HipCut cut) {
    return cut == HipCut::plumb ? at.plumb_cut : at.bisecting;
}

/// Fascia boards of one thickness, mitred: the cut lies halfway between their outer faces.
[[nodiscard]] inline SawSetting fascia_saw(const HipPlanes& planes, TailCut tail) {
    const bool plumb = tail == TailCut::plumb;
    const double level_a = plumb ? 1.0 : planes.pitch_a.cosine();
    const double level_b = plumb ? 1.0 : planes.pitch_b.cosine();
    const Direction face_a{0.0, -level_a, plumb ? 0.0 : -planes.pitch_a.sine()};
    const Direction face_b{-planes.corner.sine() * level_b, planes.corner.cosine() * level_b,
                           plumb ? 0.0 : -planes.pitch_b.sine()};
    return saw_setting({1.0, 0.0, 0.0}, face_a, {face_a.x - face_b.x, face_a.y - face_b.y, face_a.z - face_b.z});
}
}  // namespace detail

inline void find_faults(const HipSaw& saw, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    find_faults(saw.planes, Path{path, "planes"}, faults);
    if (faults.size() == before) {
        detail::require_hip_between(saw.planes, Path{path, "planes"}, faults);
    }
}

/// Saw settings of side A. At equal pitches p over a corner of an n-sided plan: a board lying in the roof is set to a
/// mitre of atan(cos p tan(180/n)) and a bevel of asin(sin p sin(180/n)); a jack on its side to p and 90 - 180/n.
/// The line goes the same way at a valley; only long and short point change places.
/// Throws `FaultError` with the first fault of `saw`; not_supported where the hip runs back over an eave.
[[nodiscard]] inline HipSawSettings hip_saw_settings(const HipSaw& saw) {
    require_sound(saw, "saw");
    const detail::CornerDirections at = detail::directions_at(saw.planes);
    const HipLine line = detail::hip_line_of(saw.planes);
    const Direction cut = detail::cut_of(at, saw.cut);
    const SawSetting in_roof = saw_setting(at.eave, at.normal, cut);
    const SawSetting jack_on_edge = saw_setting(at.up, at.normal, at.plumb_cut);
    const double cosine = saw.planes.pitch_a.cosine();
    return {.jack_on_side = saw_setting(at.up, at.eave, at.plumb_cut),
            .jack_on_edge = jack_on_edge,
            .jack_side_cut = jack_on_edge.mitre.complement(),
            .fascia = detail::fascia_saw(saw.planes, saw.fascia),
            .purlin_flat = in_roof,
            .purlin_on_edge = saw_setting(at.eave, at.up, cut),
            .sheet = in_roof,
            .sheet_from_eave = CutAngle::from_figures(line.plan_a.sine(), line.plan_a.cosine() * cosine)};
}

}  // namespace eavewright
