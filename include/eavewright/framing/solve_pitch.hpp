// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is missing, from what is known: pitch from heights, overhang from ridge and eave, run from a rafter's length.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/known_figures.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <cstddef>
#include <optional>

namespace eavewright {

/// How far given figures may disagree and still be taken for one: a common tape mark.
inline constexpr Length figures_agree_within = Length::from_inches(1.0 / 16.0);

/// One slope: any two of run, rise, slope and pitch, at least one of them a length.
struct SlopeKnown {
    std::optional<Length> run{};    ///< level
    std::optional<Length> rise{};   ///< plumb
    std::optional<Length> slope{};  ///< along the slope
    std::optional<Pitch> pitch{};
    Length agree_within = figures_agree_within;  ///< where more are given
};

/// One slope, complete.
struct SlopeFigure {
    Length run;
    Length rise;
    Length slope;
    Pitch pitch;
};
template <>
struct FieldsOf<SlopeFigure> {
    static constexpr auto list = field_list(field("run", FieldUnit::length, "level", &SlopeFigure::run),
                                            field("rise", FieldUnit::length, "plumb", &SlopeFigure::rise),
                                            field("slope", FieldUnit::length, "along it", &SlopeFigure::slope),
                                            field("pitch", FieldUnit::ratio, "rise in 12", &SlopeFigure::pitch));
};

/// A roof from eave to ridge on the line of the chord tops: four figures that do not follow from one another, a height
/// among them.
struct RoofKnown {
    std::optional<Pitch> pitch{};
    std::optional<Length> run{};           ///< level, building line to ridge
    std::optional<Length> overhang{};      ///< level, building line to the fascia's outer face
    std::optional<Length> total_run{};     ///< level, both together
    std::optional<Length> rise{};          ///< plumb, building line to ridge
    std::optional<Length> line_length{};   ///< along the slope, building line to ridge
    std::optional<Length> total_length{};  ///< along the slope, the fascia's outer face to ridge
    std::optional<Length> eave_height{};   ///< of the line at the fascia's outer face, above the benchmark
    std::optional<Length> wall_height{};   ///< of the line over the building line
    std::optional<Length> ridge_height{};
    Length agree_within = figures_agree_within;  ///< where more are given than are needed
};

/// A roof from eave to ridge, complete.
struct RoofFigure {
    Pitch pitch;
    Length run;
    Length overhang;
    Length total_run;
    Length rise;        ///< building line to ridge
    Length eave_fall;   ///< building line down to the fascia's outer face
    Length total_rise;  ///< both together
    Length line_length;
    Length tail_length;  ///< along the slope, over the overhang
    Length total_length;
    Length eave_height;
    Length wall_height;
    Length ridge_height;
};
template <>
struct FieldsOf<RoofFigure> {
    static constexpr auto list = field_list(
        field("pitch", FieldUnit::ratio, "rise in 12", &RoofFigure::pitch),
        field("run", FieldUnit::length, "level, building line to ridge", &RoofFigure::run),
        field("overhang", FieldUnit::length, "level, building line to the fascia's outer face", &RoofFigure::overhang),
        field("total_run", FieldUnit::length, "level, both together", &RoofFigure::total_run),
        field("rise", FieldUnit::length, "building line to ridge", &RoofFigure::rise),
        field("eave_fall", FieldUnit::length, "building line down to the eave", &RoofFigure::eave_fall),
        field("total_rise", FieldUnit::length, "eave to ridge", &RoofFigure::total_rise),
        field("line_length", FieldUnit::length, "along the slope, building line to ridge", &RoofFigure::line_length),
        field("tail_length", FieldUnit::length, "along the slope, over the overhang", &RoofFigure::tail_length),
        field("total_length", FieldUnit::length, "along the slope, eave to ridge", &RoofFigure::total_length),
        field("eave_height", FieldUnit::length, "at the fascia's outer face", &RoofFigure::eave_height),
        field("wall_height", FieldUnit::length, "over the building line", &RoofFigure::wall_height),
        field("ridge_height", FieldUnit::length, "at the ridge", &RoofFigure::ridge_height));
};

/// A hip or valley over a square corner: any three of these figures that the rest follow from.
struct HipKnown {
    std::optional<Pitch> pitch_a{};
    std::optional<Pitch> pitch_b{};
    std::optional<Length> run_a{};  ///< common run of side A: how far the hip comes in from eave A
    std::optional<Length> run_b{};
    std::optional<Length> rise{};      ///< over them
    std::optional<Length> plan_run{};  ///< of the hip
    std::optional<Length> length{};    ///< of the hip along its line
    Length agree_within = figures_agree_within;
};

/// A hip or valley over a square corner, complete.
struct HipFigure {
    Pitch pitch_a;
    Pitch pitch_b;
    Pitch pitch;  ///< of the hip
    Length run_a;
    Length run_b;
    Length rise;
    Length plan_run;
    Length common_length_a;
    Length common_length_b;
    Length length;
};
template <>
struct FieldsOf<HipFigure> {
    static constexpr auto list =
        field_list(field("pitch_a", FieldUnit::ratio, "rise in 12 of side A", &HipFigure::pitch_a),
                   field("pitch_b", FieldUnit::ratio, "rise in 12 of side B", &HipFigure::pitch_b),
                   field("pitch", FieldUnit::ratio, "rise in 12 of the hip", &HipFigure::pitch),
                   field("run_a", FieldUnit::length, "common run of side A", &HipFigure::run_a),
                   field("run_b", FieldUnit::length, "common run of side B", &HipFigure::run_b),
                   field("rise", FieldUnit::length, "over them", &HipFigure::rise),
                   field("plan_run", FieldUnit::length, "of the hip in plan", &HipFigure::plan_run),
                   field("common_length_a", FieldUnit::length, "common rafter of side A", &HipFigure::common_length_a),
                   field("common_length_b", FieldUnit::length, "common rafter of side B", &HipFigure::common_length_b),
                   field("length", FieldUnit::length, "of the hip along its line", &HipFigure::length));
};

namespace detail {
inline void find_distance_faults(const std::optional<Length>& value, const Path& path, Faults& faults) {
    if (value) {
        require_within(*value, no_length, longest_building, path, faults);
    }
}
inline void find_height_faults(const std::optional<Length>& value, const Path& path, Faults& faults) {
    if (value) {
        require_within(*value, -greatest_height, greatest_height, path, faults);
    }
}
inline void find_agreement_faults(Length within, const Path& path, Faults& faults) {
    require_within(within, no_length, Length::from_inches(12.0), Path{path, "agree_within"}, faults);
}
}  // namespace detail

inline void find_faults(const SlopeKnown& known, const Path& path, Faults& faults) {
    detail::find_distance_faults(known.run, Path{path, "run"}, faults);
    detail::find_distance_faults(known.rise, Path{path, "rise"}, faults);
    detail::find_distance_faults(known.slope, Path{path, "slope"}, faults);
    detail::find_agreement_faults(known.agree_within, path, faults);
}
inline void find_faults(const RoofKnown& known, const Path& path, Faults& faults) {
    detail::find_distance_faults(known.run, Path{path, "run"}, faults);
    detail::find_distance_faults(known.overhang, Path{path, "overhang"}, faults);
    detail::find_distance_faults(known.total_run, Path{path, "total_run"}, faults);
    detail::find_distance_faults(known.rise, Path{path, "rise"}, faults);
    detail::find_distance_faults(known.line_length, Path{path, "line_length"}, faults);
    detail::find_distance_faults(known.total_length, Path{path, "total_length"}, faults);
    detail::find_height_faults(known.eave_height, Path{path, "eave_height"}, faults);
    detail::find_height_faults(known.wall_height, Path{path, "wall_height"}, faults);
    detail::find_height_faults(known.ridge_height, Path{path, "ridge_height"}, faults);
    detail::find_agreement_faults(known.agree_within, path, faults);
}
inline void find_faults(const HipKnown& known, const Path& path, Faults& faults) {
    detail::find_distance_faults(known.run_a, Path{path, "run_a"}, faults);
    detail::find_distance_faults(known.run_b, Path{path, "run_b"}, faults);
    detail::find_distance_faults(known.rise, Path{path, "rise"}, faults);
    detail::find_distance_faults(known.plan_run, Path{path, "plan_run"}, faults);
    detail::find_distance_faults(known.length, Path{path, "length"}, faults);
    detail::find_agreement_faults(known.agree_within, path, faults);
}

/// Completes a slope. Throws `FaultError`: out_of_range; missing_field, saying what would complete it; contradiction,
/// naming the inputs that disagree by more than `agree_within`. What is given comes back as given.
[[nodiscard]] inline SlopeFigure solve_slope(const SlopeKnown& known) {
    require_sound(known, "slope");
    const Path path{"slope"};
    detail::KnownFigures figures;
    const std::size_t run = figures.add("run", detail::FigureKind::distance, known.run);
    const std::size_t rise = figures.add("rise", detail::FigureKind::distance, known.rise);
    const std::size_t slope = figures.add("slope", detail::FigureKind::distance, known.slope);
    const std::size_t pitch = figures.add("pitch", known.pitch);
    figures.add_triangle(run, rise, slope, pitch);
    figures.solve(known.agree_within, path);
    return {.run = figures.length(run),
            .rise = figures.length(rise),
            .slope = figures.length(slope),
            .pitch = detail::pitch_of(known.pitch, figures.value(pitch), path)};
}

/// Completes a roof from eave to ridge. Throws as `solve_slope`.
[[nodiscard]] inline RoofFigure solve_roof(const RoofKnown& known) {
    require_sound(known, "roof");
    using detail::FigureKind;
    const Path path{"roof"};
    detail::KnownFigures figures;
    const std::size_t pitch = figures.add("pitch", known.pitch);
    const std::size_t run = figures.add("run", FigureKind::distance, known.run);
    const std::size_t overhang = figures.add("overhang", FigureKind::distance, known.overhang);
    const std::size_t total_run = figures.add("total_run", FigureKind::distance, known.total_run);
    const std::size_t rise = figures.add("rise", FigureKind::distance, known.rise);
    const std::size_t line = figures.add("line_length", FigureKind::distance, known.line_length);
    const std::size_t total_line = figures.add("total_length", FigureKind::distance, known.total_length);
    const std::size_t eave = figures.add("eave_height", FigureKind::height, known.eave_height);
    const std::size_t wall = figures.add("wall_height", FigureKind::height, known.wall_height);
    const std::size_t ridge = figures.add("ridge_height", FigureKind::height, known.ridge_height);
    const std::size_t fall = figures.add_between(FigureKind::distance);
    const std::size_t total_rise = figures.add_between(FigureKind::distance);
    const std::size_t tail = figures.add_between(FigureKind::distance);
    figures.add_sum(run, overhang, total_run);
    figures.add_sum(wall, rise, ridge);
    figures.add_sum(eave, fall, wall);
    figures.add_sum(eave, total_rise, ridge);
    figures.add_sum(rise, fall, total_rise);
    figures.add_sum(line, tail, total_line);
    figures.add_triangle(total_run, total_rise, total_line, pitch);
    figures.add_triangle(run, rise, line, pitch);
    figures.add_triangle(overhang, fall, tail, pitch);
    figures.solve(known.agree_within, path);
    return {.pitch = detail::pitch_of(known.pitch, figures.value(pitch), path),
            .run = figures.length(run),
            .overhang = figures.length(overhang),
            .total_run = figures.length(total_run),
            .rise = figures.length(rise),
            .eave_fall = figures.length(fall),
            .total_rise = figures.length(total_rise),
            .line_length = figures.length(line),
            .tail_length = figures.length(tail),
            .total_length = figures.length(total_line),
            .eave_height = figures.length(eave),
            .wall_height = figures.length(wall),
            .ridge_height = figures.length(ridge)};
}

/// Completes a hip or valley over a square corner. Throws as `solve_slope`.
[[nodiscard]] inline HipFigure solve_hip(const HipKnown& known) {
    require_sound(known, "hip");
    using detail::FigureKind;
    const Path path{"hip"};
    detail::KnownFigures figures;
    const std::size_t pitch_a = figures.add("pitch_a", known.pitch_a);
    const std::size_t pitch_b = figures.add("pitch_b", known.pitch_b);
    const std::size_t run_a = figures.add("run_a", FigureKind::distance, known.run_a);
    const std::size_t run_b = figures.add("run_b", FigureKind::distance, known.run_b);
    const std::size_t rise = figures.add("rise", FigureKind::distance, known.rise);
    const std::size_t plan_run = figures.add("plan_run", FigureKind::distance, known.plan_run);
    const std::size_t length = figures.add("length", FigureKind::distance, known.length);
    const std::size_t pitch = figures.add_between(FigureKind::pitch);
    const std::size_t in_plan = figures.add_between(FigureKind::pitch);
    const std::size_t common_a = figures.add_between(FigureKind::distance);
    const std::size_t common_b = figures.add_between(FigureKind::distance);
    figures.add_triangle(run_a, rise, common_a, pitch_a);
    figures.add_triangle(run_b, rise, common_b, pitch_b);
    figures.add_triangle(run_a, run_b, plan_run, in_plan);
    figures.add_triangle(plan_run, rise, length, pitch);
    figures.solve(known.agree_within, path);
    return {.pitch_a = detail::pitch_of(known.pitch_a, figures.value(pitch_a), path, "pitch_a"),
            .pitch_b = detail::pitch_of(known.pitch_b, figures.value(pitch_b), path, "pitch_b"),
            .pitch = detail::pitch_of(std::nullopt, figures.value(pitch), path),
            .run_a = figures.length(run_a),
            .run_b = figures.length(run_b),
            .rise = figures.length(rise),
            .plan_run = figures.length(plan_run),
            .common_length_a = figures.length(common_a),
            .common_length_b = figures.length(common_b),
            .length = figures.length(length)};
}

}  // namespace eavewright
