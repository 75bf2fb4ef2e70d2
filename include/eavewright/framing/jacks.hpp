// SPDX-License-Identifier: BSL-1.0
#pragma once

// Jack rafters: from the eave to a hip, from a valley to the ridge, and cripples from a valley to a hip.
//
//      ridge ___________________            All jacks lie in plane A and run square to eave A. Hip jacks and cripples
//           /|  |  |  |\  |  | |            count from the hip's corner at the eave, valley jacks from the valley's top
//      hip / |  |  |  | \ |  | |            at the ridge: the shortest comes first.
//         /| |  |  |  |  \|  | | valley
//        /_|_|__|__|__|___\  | |
//          1 2   commons    \3 2 1

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/cut_angle.hpp>
#include <eavewright/framing/hip_line.hpp>
#include <eavewright/framing/rafter.hpp>
#include <eavewright/framing/saw.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// Most jacks that one call lays out.
inline constexpr std::int64_t most_jacks = 2000;
/// Closest spacing of rafters that is taken for one.
inline constexpr Length closest_rafters = Length::from_inches(1.0);

/// Jacks of plane A from its eave up to a hip.
struct HipJacks {
    HipPlanes planes;
    Length run;                     ///< common run of side A, outer face of the plate to the ridge
    Length spacing;                 ///< centre to centre, along the eave
    std::optional<Length> first{};  ///< corner of the plates to the first centre; one spacing where not given
    Length tail_level = no_length;  ///< level, outer face of the plate to the end of the tails
    Length hip_thickness = Length::from_inches(1.5);  ///< 2x, PS 20; 0 for line lengths
};

/// Jacks of plane A from a valley up to the ridge, which runs along eave A.
struct ValleyJacks {
    HipPlanes planes;
    Length run;                     ///< common run of side A from the valley's corner at the plates to the ridge
    Length spacing;                 ///< centre to centre, along the ridge
    std::optional<Length> first{};  ///< top of the valley to the first centre; one spacing where not given
    Length valley_thickness = Length::from_inches(1.5);
    Length ridge_thickness = Length::from_inches(1.5);
};

/// Cripples of plane A between a hip and the valley that runs up beside it.
struct CrippleJacks {
    HipPlanes hip;
    HipPlanes valley;    ///< its plane A is the hip's
    Length run;          ///< common run of side A up to the ridge
    Length eave_length;  ///< between the hip's and the valley's corner of the plates, along eave A
    Length spacing;
    std::optional<Length> first{};  ///< hip's corner to the first centre counted; those before the valley are hip jacks
    Length hip_thickness = Length::from_inches(1.5);
    Length valley_thickness = Length::from_inches(1.5);
};

/// One jack, by its centre line.
struct Jack {
    Length at;   ///< along the eave or ridge from where the jacks count
    Length run;  ///< between the lines that it goes from and to
    Length rise;
    Length line_length;  ///< along the slope
    Length cut_length;   ///< with its tail, less both deductions; the long point reaches past it by half its thickness
};
template <>
struct FieldsOf<Jack> {
    static constexpr auto list =
        field_list(field("at", FieldUnit::length, "centre, from where the jacks count", &Jack::at),
                   field("run", FieldUnit::length, "between the lines", &Jack::run),
                   field("rise", FieldUnit::length, "over the run", &Jack::rise),
                   field("line_length", FieldUnit::length, "along the slope", &Jack::line_length),
                   field("cut_length", FieldUnit::length, "with its tail, less both deductions, middle of the top",
                         &Jack::cut_length));
};

/// A set of jacks in the order of their places. Deductions are level, along the run of the jack.
struct JackSet {
    std::vector<Jack> jacks;
    Length common_difference;  ///< of line lengths from one jack to the next
    Length head_deduction;     ///< half the hip or ridge, drawn out to the angle that it stands at
    Length foot_deduction;     ///< half the valley, drawn out; 0 at an eave
    CutAngle plumb_cut;        ///< off square across, on the side: the pitch
    CutAngle side_cut;         ///< line on the top edge, off the length: at the hip, or at the foot of a valley jack
    SawSetting saw;            ///< the same cut with the side of the jack on the table
    std::optional<SawSetting> foot_saw;  ///< of a cripple, whose foot is cut as well
};
template <>
struct FieldsOf<JackSet> {
    static constexpr auto list =
        field_list(field("common_difference", FieldUnit::length, "of line lengths from one to the next",
                         &JackSet::common_difference),
                   field("head_deduction", FieldUnit::length, "level, for the hip or ridge", &JackSet::head_deduction),
                   field("foot_deduction", FieldUnit::length, "level, for the valley", &JackSet::foot_deduction),
                   field("plumb_cut", FieldUnit::none, "off square across", &JackSet::plumb_cut),
                   field("side_cut", FieldUnit::none, "line on the top edge, off the length", &JackSet::side_cut),
                   field("saw", FieldUnit::none, "side of the jack on the table", &JackSet::saw),
                   field("foot_saw", FieldUnit::none, "foot of a cripple, null for others", &JackSet::foot_saw),
                   field("jacks", FieldUnit::none, "jacks, in the order of their places", &JackSet::jacks));
};

namespace detail {
inline void find_spacing_faults(Length spacing, std::optional<Length> first, const Path& path, Faults& faults) {
    require_within(spacing, closest_rafters, longest_building, Path{path, "spacing"}, faults);
    if (first) {
        require_within(*first, no_length, longest_building, Path{path, "first"}, faults);
    }
}
inline void find_planes_faults(const HipPlanes& planes, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    find_faults(planes, path, faults);
    if (faults.size() == before) {
        require_hip_between(planes, path, faults);
    }
}

/// Half a member in the way, level along the jack: drawn out by the angle between the two in plan.
[[nodiscard]] inline Length half_across(Length thickness, const HipLine& line) {
    return thickness / 2.0 / line.plan_a.cosine();
}

/// What every jack of a set shares.
struct JackLines {
    Pitch pitch;
    double run_per_at;  ///< how the run grows along the eave
    Length run_at_0;
    Length head;  ///< deductions, level
    Length foot;
    Length tail;
};

/// Jacks from `first` on, from past `from` up to before `to`. One so short that nothing is left of it is not made.
[[nodiscard]] inline std::vector<Jack> jacks_between(const JackLines& lines, Length first, Length spacing, Length from,
                                                     Length to) {
    std::vector<Jack> jacks;
    const std::int64_t skipped = first > from ? 0 : whole_steps(from - first, spacing) + 1;
    const Length start = first + spacing * static_cast<double>(skipped);
    const std::int64_t count = start + count_tolerance < to ? steps_to_cover(to - start, spacing) : 0;
    if (count > most_jacks) {
        throw FaultError{Fault{FaultCode::too_much_work, "jacks.spacing", std::to_string(count) + " jacks",
                               "no more than " + std::to_string(most_jacks)}};
    }
    for (std::int64_t k = 0; k < count; ++k) {
        const Length at = first + spacing * static_cast<double>(skipped + k);
        const Length run = lines.run_at_0 + at * lines.run_per_at;
        const Length left = run - lines.head - lines.foot + lines.tail;
        if (left > no_length) {
            jacks.push_back(
                {at, run, lines.pitch.rise_over(run), lines.pitch.slope_over(run), lines.pitch.slope_over(left)});
        }
    }
    return jacks;
}

[[nodiscard]] inline JackSet jack_set(const JackLines& lines, const HipLine& cut, Length spacing) {
    return JackSet{.jacks = {},
                   .common_difference = lines.pitch.slope_over(spacing * lines.run_per_at),
                   .head_deduction = lines.head,
                   .foot_deduction = lines.foot,
                   .plumb_cut = CutAngle::of(lines.pitch),
                   .side_cut = CutAngle::from_figures(cut.plan_a.cosine() * lines.pitch.cosine(), cut.plan_a.sine()),
                   .saw = {.mitre = CutAngle::of(lines.pitch), .bevel = cut.plan_a},
                   .foot_saw = std::nullopt};
}
}  // namespace detail

inline void find_faults(const HipJacks& jacks, const Path& path, Faults& faults) {
    detail::find_planes_faults(jacks.planes, Path{path, "planes"}, faults);
    require_within(jacks.run, Length::from_inches(1.0), longest_building, Path{path, "run"}, faults);
    detail::find_spacing_faults(jacks.spacing, jacks.first, path, faults);
    require_within(jacks.tail_level, no_length, longest_overhang, Path{path, "tail_level"}, faults);
    require_within(jacks.hip_thickness, no_length, thickest_member, Path{path, "hip_thickness"}, faults);
}
inline void find_faults(const ValleyJacks& jacks, const Path& path, Faults& faults) {
    detail::find_planes_faults(jacks.planes, Path{path, "planes"}, faults);
    require_within(jacks.run, Length::from_inches(1.0), longest_building, Path{path, "run"}, faults);
    detail::find_spacing_faults(jacks.spacing, jacks.first, path, faults);
    require_within(jacks.valley_thickness, no_length, thickest_member, Path{path, "valley_thickness"}, faults);
    require_within(jacks.ridge_thickness, no_length, thickest_member, Path{path, "ridge_thickness"}, faults);
}
inline void find_faults(const CrippleJacks& jacks, const Path& path, Faults& faults) {
    detail::find_planes_faults(jacks.hip, Path{path, "hip"}, faults);
    detail::find_planes_faults(jacks.valley, Path{path, "valley"}, faults);
    require_within(jacks.run, Length::from_inches(1.0), longest_building, Path{path, "run"}, faults);
    require_within(jacks.eave_length, no_length, longest_building, Path{path, "eave_length"}, faults);
    detail::find_spacing_faults(jacks.spacing, jacks.first, path, faults);
    require_within(jacks.hip_thickness, no_length, thickest_member, Path{path, "hip_thickness"}, faults);
    require_within(jacks.valley_thickness, no_length, thickest_member, Path{path, "valley_thickness"}, faults);
    if (!(jacks.hip.pitch_a == jacks.valley.pitch_a)) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "valley.pitch_a"}.text(),
                               write_decimal(jacks.valley.pitch_a.rise_in_12(), 6) + " in 12",
                               "the pitch_a of the hip, " + write_decimal(jacks.hip.pitch_a.rise_in_12(), 6) +
                                   " in 12: both lie in one plane"});
    }
}

/// Jacks from the eave to the hip, up to the first common. The common difference is the spacing times the tangent of
/// the hip's plan angle and the slope factor: 19.23 in at 16 in and 8 in 12 on a square (NAVEDTRA 14044, Builder 3&2
/// vol. 2, p. 2-31). Each loses half the hip drawn out to its angle (p. 2-33).
/// Throws `FaultError` with the first fault of `jacks`, too_much_work above `most_jacks`.
[[nodiscard]] inline JackSet hip_jacks(const HipJacks& jacks) {
    require_sound(jacks, "jacks");
    const HipLine line = detail::hip_line_of(jacks.planes);
    const detail::JackLines lines{.pitch = jacks.planes.pitch_a,
                                  .run_per_at = line.plan_a.tangent(),
                                  .run_at_0 = no_length,
                                  .head = detail::half_across(jacks.hip_thickness, line),
                                  .foot = no_length,
                                  .tail = jacks.tail_level};
    JackSet set = detail::jack_set(lines, line, jacks.spacing);
    set.jacks = detail::jacks_between(lines, jacks.first.value_or(jacks.spacing), jacks.spacing, no_length,
                                      jacks.run / lines.run_per_at);
    return set;
}

/// Jacks from the valley to the ridge, counted down from the top of the valley. Each loses half the ridge at its head
/// and half the valley, drawn out, at its foot (NAVEDTRA 14044, Builder 3&2 vol. 2, p. 2-33). Faults as `hip_jacks`.
[[nodiscard]] inline JackSet valley_jacks(const ValleyJacks& jacks) {
    require_sound(jacks, "jacks");
    const HipLine line = detail::hip_line_of(jacks.planes);
    const detail::JackLines lines{.pitch = jacks.planes.pitch_a,
                                  .run_per_at = line.plan_a.tangent(),
                                  .run_at_0 = no_length,
                                  .head = jacks.ridge_thickness / 2.0,
                                  .foot = detail::half_across(jacks.valley_thickness, line),
                                  .tail = no_length};
    JackSet set = detail::jack_set(lines, line, jacks.spacing);
    set.jacks = detail::jacks_between(lines, jacks.first.value_or(jacks.spacing), jacks.spacing, no_length,
                                      jacks.run / lines.run_per_at);
    return set;
}

/// Cripples past the valley's corner up to where the hip reaches the ridge: all of one length where hip and valley run
/// side by side, as they do at equal pitches and square corners. Faults as `hip_jacks`; contradiction where hip and
/// valley give plane A two pitches.
[[nodiscard]] inline JackSet cripple_jacks(const CrippleJacks& jacks) {
    require_sound(jacks, "jacks");
    const HipLine hip = detail::hip_line_of(jacks.hip);
    const HipLine valley = detail::hip_line_of(jacks.valley);
    const detail::JackLines lines{.pitch = jacks.hip.pitch_a,
                                  .run_per_at = hip.plan_a.tangent() - valley.plan_a.tangent(),
                                  .run_at_0 = jacks.eave_length * valley.plan_a.tangent(),
                                  .head = detail::half_across(jacks.hip_thickness, hip),
                                  .foot = detail::half_across(jacks.valley_thickness, valley),
                                  .tail = no_length};
    JackSet set = detail::jack_set(lines, hip, jacks.spacing);
    set.foot_saw = SawSetting{.mitre = CutAngle::of(lines.pitch), .bevel = valley.plan_a};
    set.jacks = detail::jacks_between(lines, jacks.first.value_or(jacks.spacing), jacks.spacing, jacks.eave_length,
                                      jacks.run / hip.plan_a.tangent());
    return set;
}

}  // namespace eavewright
