// SPDX-License-Identifier: BSL-1.0
#pragma once

// The layouts that a search tries: ways to start a grid that a builder would think of, from the plainest on.

#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/outline.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <cstddef>
#include <vector>

namespace eavewright::detail {

/// How wide the first lane is: whole, as wide as the last one, ripped by a part of a sheet, or so that a seam meets one side of
/// the first opening.
enum class FirstLane { whole, like_last, ripped, at_opening };

struct LayoutChoice {
    StartCorner start;
    JointPlace joints;
    int start_spaces;
    int stagger_spaces;
    FirstLane first;
    int sixths;   ///< of a sheet that are ripped off; or the side of the opening, 0 or 1
    bool turned;  ///< by half of what the rakes lean
};

/// The choices, plainest first, no more than `most`. A staggered plan stays staggered.
[[nodiscard]] inline std::vector<LayoutChoice> layout_choices(Length spacing, const SheetPlan& plain, bool turns,
                                                              std::size_t most) {
    const int spaces = spacing > no_length ? static_cast<int>(whole_steps(plain.sheet.length, spacing)) : 1;
    struct First {
        FirstLane lane;
        int sixths;
    };
    std::vector<First> firsts{{FirstLane::whole, 0},
                              {FirstLane::like_last, 0},
                              {FirstLane::ripped, 3},
                              {FirstLane::at_opening, 0},
                              {FirstLane::at_opening, 1}};
    for (const int sixths : {1, 2, 4, 5}) {
        firsts.push_back({FirstLane::ripped, sixths});
    }
    std::vector<LayoutChoice> choices;
    for (const bool turned : {false, true}) {
        for (const JointPlace joints : {JointPlace::full_sheets, JointPlace::on_supports}) {
            for (const First& first : firsts) {
                for (const StartCorner start : {StartCorner::eave_left, StartCorner::eave_right}) {
                    for (int start_spaces = 0; start_spaces == 0 || start_spaces < spaces; ++start_spaces) {
                        const int lowest = plain.stagger_spaces > 0 ? 1 : 0;
                        for (int stagger = lowest; stagger <= lowest || stagger + start_spaces < spaces; ++stagger) {
                            const bool fits = stagger + start_spaces < spaces || (stagger == 0 && start_spaces == 0);
                            const bool wanted = (turns || !turned) && (plain.stagger_spaces > 0 || stagger == 0);
                            if (fits && wanted && choices.size() < most) {
                                choices.push_back(
                                    {start, joints, start_spaces, stagger, first.lane, first.sixths, turned});
                            }
                        }
                    }
                }
            }
        }
    }
    return choices;
}

/// Across the lanes: along the eave over purlins, up the slope over chords.
[[nodiscard]] inline Span across_lanes(const std::vector<PlanePoint>& outline, SupportRun run) {
    const Extent extent = extent_of(outline);
    return run == SupportRun::along_eave ? Span{extent.low.along, extent.high.along}
                                         : Span{extent.low.up, extent.high.up};
}

/// What is ripped off the first lane so that the grid has a seam at `off` from where it starts.
[[nodiscard]] inline Length rip_for_seam(Length off, const SheetPlan& plan) {
    const Length step = plan.sheet.width + plan.gap;
    const Length left = off - step * static_cast<double>(whole_steps(off, step));  // width of the lane that ends there
    return left > count_tolerance && left < plan.sheet.width ? plan.sheet.width - left : no_length;
}

/// Tangent of the turn that shares the taper of a measured plane between its rakes: half of what both lean together.
[[nodiscard]] inline double shared_turn(const std::vector<PlanePoint>& outline) {
    if (outline.size() != 4 || !(outline[3].up > no_length) || !(outline[2].up > no_length)) {
        return 0.0;
    }
    const double left = (outline[0].along - outline[3].along) / outline[3].up;
    const double right = (outline[1].along - outline[2].along) / outline[2].up;
    const double turn = (left + right) / 2.0;
    return turn > -steepest_turn && turn < steepest_turn ? turn : 0.0;
}

/// The plan that a choice makes of the plain one on a plane.
template <Surface surface>
[[nodiscard]] SheetPlan plan_of(const LayoutChoice& choice, const Plane<surface>& plane, SupportRun run,
                                const SheetPlan& plain) {
    SheetPlan plan = plain;
    plan.start = choice.start;
    plan.joints = choice.joints;
    plan.start_spaces = choice.start_spaces;
    plan.stagger_spaces = choice.stagger_spaces;
    plan.turn = choice.turned ? shared_turn(plane.outline) : 0.0;
    const Span across = across_lanes(plane.outline, run);
    const Length width = across.high - across.low;
    Length rip = no_length;
    if (choice.first == FirstLane::ripped) {
        rip = plan.sheet.width * (choice.sixths / 6.0);
    } else if (choice.first == FirstLane::like_last) {
        // First and last share what is left after the whole lanes and one more.
        const Length step = plan.sheet.width + plan.gap;
        const Length last = width - step * static_cast<double>(steps_to_cover(width, step) - 1);
        rip = last > no_length ? (plan.sheet.width - last) / 2.0 : no_length;
    } else if (choice.first == FirstLane::at_opening && !plane.openings.empty()) {
        const Span side = across_lanes(plane.openings[0], run);
        const bool from_low = run == SupportRun::up_slope || plan.start == StartCorner::eave_left;
        const Length low = from_low ? side.low - across.low : across.high - side.high;
        rip = rip_for_seam(choice.sixths == 0 ? low : low + (side.high - side.low), plan);
    }
    rip = round_down_to_tick(rip, plan.tick);
    plan.rip_first = rip > no_length && rip < plan.sheet.width ? rip : no_length;
    return plan;
}

}  // namespace eavewright::detail
