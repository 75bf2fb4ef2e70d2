// SPDX-License-Identifier: BSL-1.0
#pragma once

// The usual frames: one slope of four corners, a gable of six, with rafters, eaves and ridge that keep their lengths and
// a strap along each diagonal. Members, straps and conditions can be added to what these give.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/four_corners.hpp>
#include <eavewright/squaring/pull_frame.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/units/building_point.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace eavewright {

/// What the eaves may do while the ridge is pulled.
enum class EaveHold {
    held,   ///< on posts that stand: only the ridge goes
    along,  ///< each eave may slide along its own line
    free,   ///< nothing holds them: whatever makes the least movement
};
template <>
struct NamesOf<EaveHold> {
    static constexpr std::array<std::string_view, 3> list{"held", "along", "free"};
};

struct UsualFrame {
    EaveHold eaves = EaveHold::held;
    SquareTolerance tolerance{};
    bool judge_sides = true;  ///< also ask that opposite sides are equal, which no pull changes
};
inline void find_faults(const UsualFrame& usual, const Path& path, Faults& faults) {
    detail::require_named(usual.eaves, Path{path, "eaves"}, faults);
    find_faults(usual.tolerance, Path{path, "tolerance"}, faults);
}

/// Six corners of a gable. Left and right as seen from the front eave, facing up: for the back eave too.
struct GableCorners {
    BuildingPoint front_left;
    BuildingPoint front_right;
    BuildingPoint ridge_right;
    BuildingPoint ridge_left;
    BuildingPoint back_left;
    BuildingPoint back_right;
};

namespace squaring_detail {

template <MeasuredPlace Place>
[[nodiscard]] Freedom<Place> eave_freedom(EaveHold hold, const Place& left, const Place& right) {
    if (hold == EaveHold::held) {
        return Held{};
    }
    if (hold == EaveHold::free) {
        return Free{};
    }
    Numbers<Place> way = numbers_of(right);
    const Numbers<Place> from = numbers_of(left);
    for (std::size_t i = 0; i < way.size(); ++i) {
        way[i] -= from[i];
    }
    return FreeAlong<Place>{place_of<Place>(way)};
}

/// One slope over corners that the frame has, left and right as seen from its own eave.
struct SlopeCorners {
    std::size_t eave_left;
    std::size_t eave_right;
    std::size_t ridge_right;
    std::size_t ridge_left;
};
template <MeasuredPlace Place>
void add_slope(PullFrame<Place>& frame, const SlopeCorners& c, const std::string& name, const UsualFrame& usual) {
    const std::string before = name.empty() ? name : name + " ";
    frame.members.push_back(PullMember{c.eave_left, c.eave_right});
    frame.members.push_back(PullMember{c.eave_left, c.ridge_left});
    frame.members.push_back(PullMember{c.eave_right, c.ridge_right});
    frame.straps.push_back(PullStrap{before + "up_right", c.eave_left, c.ridge_right});
    frame.straps.push_back(PullStrap{before + "up_left", c.eave_right, c.ridge_left});
    frame.conditions.push_back(EqualDistances{before + "diagonals", c.eave_left, c.ridge_right, c.eave_right,
                                              c.ridge_left, usual.tolerance.diagonal_difference});
    if (usual.judge_sides) {
        frame.conditions.push_back(EqualDistances{before + "eave and ridge", c.eave_left, c.eave_right, c.ridge_left,
                                                  c.ridge_right, usual.tolerance.side_difference});
        frame.conditions.push_back(EqualDistances{before + "rakes", c.eave_left, c.ridge_left, c.eave_right,
                                                  c.ridge_right, usual.tolerance.side_difference});
    }
}

}  // namespace squaring_detail

/// One slope as found, on its own eave. Points eave_left, eave_right, ridge_right, ridge_left, in that order; straps
/// up_right and up_left, each with `name` and a space before it where that is not empty. Throws as `find_faults` of a
/// UsualFrame or of the PullFrame that it makes (a tolerance of nothing is too narrow for a plan).
[[nodiscard]] inline PlanePullFrame slope_frame(const FourCorners& corners, const UsualFrame& usual = {},
                                                const std::string& name = {},
                                                std::optional<Covariance> covariance = std::nullopt) {
    require_sound(usual, "usual");
    const auto eave = squaring_detail::eave_freedom(usual.eaves, corners.eave_left, corners.eave_right);
    const std::string before = name.empty() ? name : name + " ";
    PlanePullFrame frame{};
    frame.points = {{before + "eave_left", corners.eave_left, eave},
                    {before + "eave_right", corners.eave_right, eave},
                    {before + "ridge_right", corners.ridge_right, Free{}},
                    {before + "ridge_left", corners.ridge_left, Free{}}};
    squaring_detail::add_slope(frame, {0, 1, 2, 3}, name, usual);
    frame.members.push_back(PullMember{3, 2});
    frame.covariance = std::move(covariance);
    require_sound(frame, "frame");
    return frame;
}

/// A gable as found: both slopes under one ridge. Points in the order of GableCorners; straps "front up_right",
/// "front up_left", "back up_right", "back up_left", each as seen from its own eave, facing up. Throws as `slope_frame`.
[[nodiscard]] inline BuildingPullFrame gable_frame(const GableCorners& corners, const UsualFrame& usual = {},
                                                   std::optional<Covariance> covariance = std::nullopt) {
    require_sound(usual, "usual");
    const auto front = squaring_detail::eave_freedom(usual.eaves, corners.front_left, corners.front_right);
    const auto back = squaring_detail::eave_freedom(usual.eaves, corners.back_left, corners.back_right);
    BuildingPullFrame frame{};
    frame.points = {{"front_left", corners.front_left, front},    {"front_right", corners.front_right, front},
                    {"ridge_right", corners.ridge_right, Free{}}, {"ridge_left", corners.ridge_left, Free{}},
                    {"back_left", corners.back_left, back},       {"back_right", corners.back_right, back}};
    squaring_detail::add_slope(frame, {0, 1, 2, 3}, "front", usual);
    squaring_detail::add_slope(frame, {5, 4, 3, 2}, "back", usual);
    frame.members.push_back(PullMember{3, 2});
    frame.covariance = std::move(covariance);
    require_sound(frame, "frame");
    return frame;
}

}  // namespace eavewright
