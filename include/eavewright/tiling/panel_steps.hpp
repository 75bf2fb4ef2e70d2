// SPDX-License-Identifier: BSL-1.0
#pragma once

// Ribbed panels laid along a grid that is not square to eave or ridge: a length for every panel, and the step from one to
// the next.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panel_courses.hpp>
#include <eavewright/tiling/panel_lengths.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/tiling/turned_grid.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright {

/// A saw-tooth of more than this may be trimmed to a line: 5 mm (NZ Metal Roof and Wall Cladding Code of Practice v3.0,
/// 14.1 and 14.9).
inline constexpr Length saw_tooth_limit = Length::from_millimetres(5.0);

/// What one panel has to reach, up from its lower end. On a plane out of square one of the lower figures is 0: there its
/// lower end hangs past the eave by the overhang, and at the other side by that much more, or it is cut.
struct PanelLength {
    std::int32_t lane;   ///< from the rake begun at
    Length cover;        ///< width that it covers
    Length lower_left;   ///< to where a lower end along the eave would lie at its left, facing up the slope
    Length lower_right;  ///< the same at its right
    Length upper_left;   ///< to where the upper end belongs at its left
    Length upper_right;  ///< the same at its right
    Length length;       ///< the longer of the two
    Length order;        ///< the first whole number of increments not below it
};
template <>
struct FieldsOf<PanelLength> {
    static constexpr auto list = field_list(
        field("lane", FieldUnit::count, "panels before it, from the rake begun at", &PanelLength::lane),
        field("cover", FieldUnit::length, "width that it covers", &PanelLength::cover),
        field("lower_left", FieldUnit::length, "up to a lower end along the eave, left", &PanelLength::lower_left),
        field("lower_right", FieldUnit::length, "the same at its right", &PanelLength::lower_right),
        field("upper_left", FieldUnit::length, "up to where the upper end belongs, left", &PanelLength::upper_left),
        field("upper_right", FieldUnit::length, "the same at its right", &PanelLength::upper_right),
        field("length", FieldUnit::length, "the longer of the two", &PanelLength::length),
        field("order", FieldUnit::length, "length to order", &PanelLength::order));
};

/// Panels of one way to lay a plane.
struct PanelSteps {
    Length overhang;                   ///< of the lower ends past the eave's edge, at their nearer corners
    bool fits;                         ///< whether some increment lands in the overhang window
    std::vector<PanelLength> lengths;  ///< from the rake begun at
    Length shortest;                   ///< of the lengths
    Length longest;                    ///< of the lengths
    Length step_eave;                  ///< at the eave from panel to panel: cover x lean / slope
    Length step_ridge;                 ///< the same at the ridge
    bool trim_to_line;                 ///< a step at the eave is above the limit: trimmed to a line
    Length one_order;                  ///< the order length that serves every panel
    Length eave_cut;                   ///< most that comes off a lower end where all come in that one length
    bool one_length_serves;            ///< uncut: the shortest panel's overhang then still lies in the window
    bool lapped;                       ///< longer than panels are made: they are lapped over a support
};
template <>
struct FieldsOf<PanelSteps> {
    static constexpr auto list = field_list(
        field("overhang", FieldUnit::length, "of the lower ends past the eave's edge", &PanelSteps::overhang),
        field("fits", FieldUnit::none, "whether an increment lands in the overhang window", &PanelSteps::fits),
        field("shortest", FieldUnit::length, "shortest panel", &PanelSteps::shortest),
        field("longest", FieldUnit::length, "longest panel", &PanelSteps::longest),
        field("step_eave", FieldUnit::length, "at the eave from panel to panel", &PanelSteps::step_eave),
        field("step_ridge", FieldUnit::length, "at the ridge from panel to panel", &PanelSteps::step_ridge),
        field("trim_to_line", FieldUnit::none, "the step at the eave is above the limit", &PanelSteps::trim_to_line),
        field("one_order", FieldUnit::length, "order length that serves every panel", &PanelSteps::one_order),
        field("eave_cut", FieldUnit::length, "most that comes off a lower end then", &PanelSteps::eave_cut),
        field("one_length_serves", FieldUnit::none, "uncut, within the overhang window",
              &PanelSteps::one_length_serves),
        field("lapped", FieldUnit::none, "longer than panels are made", &PanelSteps::lapped),
        field("lengths", FieldUnit::none, "panel by panel", &PanelSteps::lengths));
};

namespace detail {
/// Lanes of panels in the grid's frame: what `panel_lanes` gives, with the eave's line under each.
[[nodiscard]] inline PanelLength panel_length(const PanelLane& lane, const std::vector<PlanePoint>& o) {
    const std::vector<PlanePoint> eave{o[0], o[1]};
    const Length left = up_at(eave, lane.left);
    const Length right = up_at(eave, lane.right);
    const Length low = shorter(left, right);
    PanelLength panel{lane.number,         lane.right - lane.left, left - low,       right - low,
                      lane.left_top - low, lane.right_top - low,   lane.top() - low, no_length};
    return panel;
}

/// What a grid turned by `tangent` is laid to, and the tangent of the ridge against the eave.
struct StepTurns {
    double grid;
    double ridge;
    [[nodiscard]] double ridge_on_grid() const { return (ridge - grid) / (1.0 + ridge * grid); }
};

/// `outline` in the grid's frame.
[[nodiscard]] inline PanelSteps steps_on(const std::vector<PlanePoint>& outline, const PanelPlan& plan, Length limit,
                                         const StepTurns& turns) {
    const std::vector<SupportLine> none;
    const PanelInput in{plan, outline, none, extent_of(outline), -plan.edge_past_fascia};
    const std::vector<Length> edges = panel_edges(in.extent.high.along - in.extent.low.along, plan);
    PanelSteps steps{no_length, false, {},        no_length, no_length, no_length,
                     no_length, false, no_length, no_length, false,     false};
    for (const PanelLane& lane : panel_lanes(in, edges)) {
        steps.lengths.push_back(panel_length(lane, outline));
    }
    // Up to here lengths begin at the fascia's line; the edge that they hang over and the overhang come on top.
    steps.shortest = steps.longest = steps.lengths[0].length;
    for (const PanelLength& panel : steps.lengths) {
        steps.longest = longer(steps.longest, panel.length);
        steps.shortest = shorter(steps.shortest, panel.length);
    }
    if (!(steps.shortest + plan.edge_past_fascia > count_tolerance)) {
        throw FaultError{Fault{FaultCode::does_not_fit, "panels.ridge_hold_back", describe_length(plan.ridge_hold_back),
                               "less than the slope is long"}};
    }
    FittedLength fitted = fit_length(steps.longest + plan.edge_past_fascia, plan.eave, plan.increment);
    steps.lapped = fitted.order > plan.longest + count_tolerance;
    steps.overhang = steps.lapped ? plan.eave.aimed : fitted.overhang;
    steps.fits = steps.lapped || fitted.fits;
    const Length below = plan.edge_past_fascia + steps.overhang;
    for (PanelLength& panel : steps.lengths) {
        panel.upper_left += below;
        panel.upper_right += below;
        panel.length += below;
        panel.order = round_up_to_increment(panel.length, plan.increment);
        steps.one_order = longer(steps.one_order, panel.order);
    }
    steps.longest += below;
    steps.shortest += below;
    steps.step_eave = plan.panel.cover * std::fabs(turns.grid);
    steps.step_ridge = plan.panel.cover * std::fabs(turns.ridge_on_grid());
    steps.trim_to_line = steps.step_eave > limit + count_tolerance;
    steps.eave_cut = steps.one_order - steps.shortest;
    steps.one_length_serves = steps.overhang + steps.eave_cut + steps.step_eave <= plan.eave.most + count_tolerance;
    return steps;
}
}  // namespace detail

/// Lengths and steps of panels laid along a grid turned by `tangent`. Ridge and eave count as straight lines carried on past
/// their corners, as in `lay_panels`, whose lengths these are without a turn. `limit` is the saw-tooth that may stay.
/// Throws `FaultError`: the first fault of `plan`, not_supported as `turn_of`, out_of_range as `grid_turn` and for a limit
/// that is not 0 to 12 in, does_not_fit where the hold-back leaves no panel, too_much_work above `most_panels`.
template <Surface surface>
[[nodiscard]] PanelSteps panel_steps(const Plane<surface>& plane, const PanelPlan& plan, double tangent,
                                     Length limit = saw_tooth_limit) {
    require_sound(plan, "panels");
    detail::require_nearly_square(plane);
    Faults faults;
    require_within(limit, no_length, Length::from_inches(12.0), Path{"saw_tooth"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    return detail::steps_on(turned(plane, tangent).outline, plan, limit,
                            {tangent, turn_of(plane, GridWay::square_to_ridge)});
}

}  // namespace eavewright
