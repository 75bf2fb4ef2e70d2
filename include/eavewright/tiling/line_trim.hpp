// SPDX-License-Identifier: BSL-1.0
#pragma once

// Caps and metal along the lines that two planes share: each hip, valley and ridge of a roof once.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/trim.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright {

/// The trim of one line of a roof.
struct LineTrim {
    std::size_t plane;  ///< the first of the planes that it edges; `trim.edge` is an edge of that one
    std::optional<std::size_t> neighbour;  ///< the other one; none where no plane given shares the line
    TrimRun trim;
};
template <>
struct FieldsOf<LineTrim> {
    static constexpr auto list = field_list(
        field("plane", FieldUnit::count, "index of the first plane that it edges", &LineTrim::plane),
        field("neighbour", FieldUnit::count, "index of the other, null where there is none", &LineTrim::neighbour),
        field("trim", FieldUnit::none, "its run and pieces", &LineTrim::trim));
};

/// Ends of one line, seen from two planes, that are nearer than this are one: wider than rounding, and than what unequal
/// pitches leave of a line after sheathing; narrower than any edge.
inline constexpr Length one_line_within = Length::from_inches(0.25);

namespace detail {
struct LineEnds {
    BuildingPoint from;
    BuildingPoint to;
};
[[nodiscard]] inline bool is_one_place(BuildingPoint a, BuildingPoint b) {
    return magnitude(a.x - b.x) < one_line_within && magnitude(a.y - b.y) < one_line_within &&
           magnitude(a.z - b.z) < one_line_within;
}
template <Surface surface>
[[nodiscard]] LineEnds ends_of_line(const Plane<surface>& plane, std::size_t edge) {
    return {building_point(plane, plane.outline[edge]),
            building_point(plane, plane.outline[(edge + 1) % plane.outline.size()])};
}
}  // namespace detail

/// The trim of every line of one kind on a roof, each once although two planes share it: hip caps, valley metal, ridge caps.
/// Lines that end in different places on either side, as at a plane that was measured, are taken from both.
/// Throws as `trim_runs`.
template <Surface surface>
[[nodiscard]] std::vector<LineTrim> trim_of_lines(const std::vector<Plane<surface>>& planes, EdgeKind kind,
                                                  const TrimStock& stock) {
    std::vector<LineTrim> lines;
    std::vector<detail::LineEnds> ends;
    for (std::size_t p = 0; p < planes.size(); ++p) {
        for (const TrimRun& run : trim_runs(planes[p], kind, stock)) {
            const detail::LineEnds here = detail::ends_of_line(planes[p], run.edge);
            bool met = false;
            for (std::size_t i = 0; i < lines.size() && !met; ++i) {
                met = lines[i].plane != p && !lines[i].neighbour && detail::is_one_place(ends[i].from, here.to) &&
                      detail::is_one_place(ends[i].to, here.from);
                if (met) {
                    lines[i].neighbour = p;
                }
            }
            if (!met) {
                lines.push_back({p, std::nullopt, run});
                ends.push_back(here);
            }
        }
    }
    return lines;
}

}  // namespace eavewright
