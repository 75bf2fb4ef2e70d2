// SPDX-License-Identifier: BSL-1.0
#pragma once

// What of each piece of underlayment lies on its plane, once it is trimmed along hips, valleys and openings.

#include <eavewright/field.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/course_cover.hpp>
#include <eavewright/tiling/course_runs.hpp>
#include <eavewright/tiling/judge_underlayment.hpp>
#include <eavewright/tiling/lay_underlayment.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright {

/// One piece of roll on the plane. What is folded up at openings and walls, or lies past an edge, is no part of it.
struct RollPieceAsLaid {
    std::size_t piece;  ///< index in `Underlayment::pieces`
    std::vector<PlanePart> parts;
    Area area;
};
template <>
struct FieldsOf<RollPieceAsLaid> {
    static constexpr auto list =
        field_list(field("piece", FieldUnit::count, "index of the piece", &RollPieceAsLaid::piece),
                   field("parts", FieldUnit::none, "what of it lies on the plane", &RollPieceAsLaid::parts),
                   field("area", FieldUnit::area, "of the parts", &RollPieceAsLaid::area));
};

/// All of them. The areas of the pieces less both laps, and what is left to strips, are the net area of the plane.
struct UnderlaymentAsLaid {
    std::vector<RollPieceAsLaid> pieces;  ///< in the order of `Underlayment::pieces`
    Area head_laps;                       ///< on the plane, courses over courses
    Area end_laps;                        ///< on the plane, pieces over pieces of their course
    Area on_strips;                       ///< of the plane under no course: the strips along its valleys cover it
};
template <>
struct FieldsOf<UnderlaymentAsLaid> {
    static constexpr auto list = field_list(
        field("pieces", FieldUnit::none, "every piece as it lies", &UnderlaymentAsLaid::pieces),
        field("head_laps", FieldUnit::area, "courses over courses", &UnderlaymentAsLaid::head_laps),
        field("end_laps", FieldUnit::area, "pieces over pieces", &UnderlaymentAsLaid::end_laps),
        field("on_strips", FieldUnit::area, "left to the strips along valleys", &UnderlaymentAsLaid::on_strips));
};

namespace detail {
/// What of a rectangle lies on the plane, within a run's part of the ground.
[[nodiscard]] inline std::vector<PlanePart> parts_under(const std::vector<PlanePoint>& outline,
                                                        const std::vector<std::vector<PlanePoint>>& openings,
                                                        const CourseRun& run, Span along) {
    std::vector<PlanePart> under;
    for (const PlanePart& part : parts_up(outline, openings, {run.low, run.high})) {
        const std::optional<PlanePoint> inside = point_in(part);
        if (inside && run.part && is_inside(*inside, run.part->outline)) {
            for (PlanePart& cut : parts_along(part.outline, part.cutouts, along)) {
                under.push_back(std::move(cut));
            }
        }
    }
    return under;
}

[[nodiscard]] inline Area area_of(const std::vector<PlanePart>& parts) {
    Area area = Area::from_value(0.0);
    for (const PlanePart& part : parts) {
        area += net_area(part);
    }
    return area;
}

/// Gives the runs on a plane of four sides their parts: each strip of it is one.
inline void add_parts_of_four_sided(const std::vector<PlanePoint>& outline,
                                    std::vector<std::vector<CourseRun>>& courses) {
    for (std::vector<CourseRun>& runs : courses) {
        for (CourseRun& run : runs) {
            std::vector<PlanePart> parts;
            if (!run.part) {
                parts = parts_up(outline, {}, {run.low, run.high});
            }
            if (!parts.empty()) {
                run.part = std::move(parts[0]);
            }
        }
    }
}
}  // namespace detail

/// What of each piece that `lay_underlayment` gives for the same arguments lies on the plane, and faults as it.
template <Surface surface>
[[nodiscard]] UnderlaymentAsLaid underlayment_as_laid(const Plane<surface>& plane, const UnderlaymentPlan& plan) {
    detail::UnderlaymentRuns made = detail::lay_underlayment_runs(plane, plan);
    if (detail::is_between_rakes(plane)) {
        detail::add_parts_of_four_sided(plane.outline, made.courses);
    }
    const detail::CourseCover cover = detail::cover_of(plane.outline, plane.openings, made.courses);
    UnderlaymentAsLaid result{{}, cover.over_others, Area::from_value(0.0), cover.bare};
    const std::vector<detail::PieceRange> ranges = detail::pieces_of_runs(made.laid);
    std::size_t next = 0;
    std::size_t lap = 0;
    for (const std::vector<detail::CourseRun>& runs : made.courses) {
        for (std::size_t i = 0; i < runs.size(); ++i, ++next) {
            const detail::CourseRun& run = runs[plan.start == StartCorner::eave_left ? i : runs.size() - 1 - i];
            for (std::size_t p = ranges[next].first; p < ranges[next].end; ++p) {
                const RollPiece& piece = made.laid.pieces[p];
                std::vector<PlanePart> parts =
                    detail::parts_under(plane.outline, plane.openings, run, {piece.left, piece.right});
                const Area area = detail::area_of(parts);
                result.pieces.push_back({p, std::move(parts), area});
                if (p > ranges[next].first) {
                    const RollEndLap& over = made.laid.end_laps[lap++];
                    result.end_laps += detail::area_of(
                        detail::parts_under(plane.outline, plane.openings, run, {over.left, over.right}));
                }
            }
        }
    }
    return result;
}

}  // namespace eavewright
