// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lean-tos and porches against a gable: tied to its wall, tied under its eave, breaking pitch on its roof.
// Coordinates, overhangs and heights as in plain_roofs.hpp; the porch is in front, at y < 0.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/composed_roof.hpp>
#include <eavewright/roof/plain_roofs.hpp>
#include <eavewright/roof/roof_body.hpp>
#include <eavewright/roof/roof_face.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

/// The gable that other roofs stand against.
struct MainGable {
    Length width;
    Length length;
    Pitch pitch;
    Length eave_overhang;
    Length rake_overhang;
    Length bearing_height;
    Length heel;
};

/// The porch's chord line meets the main wall at a height of its own.
struct TiedToWall {
    Length height;  ///< of the chord line over the outer face of the wall's posts, from the benchmark
};
/// The porch's chord line passes below the main roof's fascia and goes on to the wall.
struct TiedUnderEave {
    Length clearance;  ///< plumb, from the main chord line at the fascia down to the porch's
};
/// The porch's slope starts on the main roof, in a pitch break.
struct BreaksPitch {
    Length
        run;  ///< from the outer face of the main wall's posts up the roof to the break, level; below 0: on the overhang
};
using PorchTie = std::variant<TiedToWall, TiedUnderEave, BreaksPitch>;

/// A gable with a lean-to or porch along its front wall.
struct PorchRoof {
    MainGable main;
    Length start;  ///< along the wall to the outer face of the porch's first post
    Length along;  ///< out to out of the porch's posts along the wall
    Length depth;  ///< from the main wall's posts out to the outer face of the porch's
    Pitch pitch;
    PorchTie tie;
    Length eave_overhang;
    Length rake_overhang;
};

namespace detail {
[[nodiscard]] inline Length wall_height(const MainGable& main) { return main.bearing_height + main.heel; }
[[nodiscard]] inline Length eave_height(const MainGable& main) {
    return wall_height(main) - main.pitch.rise_over(main.eave_overhang);
}
[[nodiscard]] inline Length ridge_height(const MainGable& main) {
    return wall_height(main) + main.pitch.rise_over(main.width / 2.0);
}
[[nodiscard]] inline NamedBody main_body(const MainGable& main) {
    return {{rectangle({-main.rake_overhang, -main.eave_overhang},
                       {main.length + main.rake_overhang, main.width + main.eave_overhang}),
             {rising_back(no_length, wall_height(main), main.pitch),
              rising_front(main.width, wall_height(main), main.pitch)}},
            {"front", "back"}};
}
/// Where the porch's plane starts, level, and its height there.
struct PorchTop {
    Length y;
    Length height;
};
[[nodiscard]] inline PorchTop porch_top(const PorchRoof& roof) {
    if (const TiedToWall* wall = std::get_if<TiedToWall>(&roof.tie)) {
        return {no_length, wall->height};
    }
    if (const TiedUnderEave* eave = std::get_if<TiedUnderEave>(&roof.tie)) {
        return {no_length, eave_height(roof.main) - eave->clearance + roof.pitch.rise_over(roof.main.eave_overhang)};
    }
    const Length run = std::get<BreaksPitch>(roof.tie).run;
    const Length rise = run < no_length ? -roof.main.pitch.rise_over(-run) : roof.main.pitch.rise_over(run);
    return {run, wall_height(roof.main) + rise};
}

inline void find_tie_faults(const PorchRoof& roof, const Path& path, Faults& faults) {
    const PorchTop top = porch_top(roof);
    if (const BreaksPitch* breaks = std::get_if<BreaksPitch>(&roof.tie)) {
        require_within(breaks->run, -roof.main.eave_overhang, roof.main.width / 2.0 - one_inch, Path{path, "tie.run"},
                       faults);
        if (!(roof.pitch.rise_per_run() + flattest_side <= roof.main.pitch.rise_per_run())) {
            faults.push_back(Fault{FaultCode::contradiction, path.text() + ".pitch and " + path.text() + ".main.pitch",
                                   write_decimal(roof.pitch.rise_in_12(), 6) + " in 12 on " +
                                       write_decimal(roof.main.pitch.rise_in_12(), 6) + " in 12",
                                   "a porch flatter than the roof it breaks from"});
        }
        return;
    }
    require_within(top.height, -greatest_height, greatest_height, Path{path, "tie"}, faults);
    // Both are straight between wall and fascia, so that the ends decide.
    const Length at_wall = wall_height(roof.main) - top.height;
    const Length at_fascia =
        eave_height(roof.main) - (top.height - roof.pitch.rise_over(shorter(roof.main.eave_overhang, roof.depth)));
    if (shorter(at_wall, at_fascia) < no_length) {
        faults.push_back(Fault{FaultCode::contradiction, path.text() + ".tie and " + path.text() + ".main",
                               describe_length(shorter(at_wall, at_fascia)) + " below the main roof",
                               "a porch that passes under the main roof"});
    }
    if (roof.start < no_length || roof.start + roof.along > roof.main.length) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "along"}.text(),
                               describe_length(roof.start) + " to " + describe_length(roof.start + roof.along),
                               "within the main wall of " + describe_length(roof.main.length)});
    }
}
}  // namespace detail

inline void find_faults(const MainGable& main, const Path& path, Faults& faults) {
    detail::find_walls_faults(main, path, faults);
    detail::find_overhang_faults(main.eave_overhang, "eave_overhang", path, faults);
    detail::find_overhang_faults(main.rake_overhang, "rake_overhang", path, faults);
    detail::find_slope_faults(main.pitch, main.width / 2.0, "pitch", path, faults);
}
inline void find_faults(const PorchRoof& roof, const Path& path, Faults& faults) {
    find_faults(roof.main, Path{path, "main"}, faults);
    detail::find_size_faults(roof.along, "along", path, faults);
    detail::find_size_faults(roof.depth, "depth", path, faults);
    detail::find_slope_faults(roof.pitch, roof.depth, "pitch", path, faults);
    detail::find_overhang_faults(roof.eave_overhang, "eave_overhang", path, faults);
    detail::find_overhang_faults(roof.rake_overhang, "rake_overhang", path, faults);
    const Length most = roof.main.length + longest_overhang;
    require_within(roof.start, -longest_overhang, most, Path{path, "start"}, faults);
    if (!faults.empty()) {
        return;
    }
    detail::find_tie_faults(roof, path, faults);
    if (std::holds_alternative<BreaksPitch>(roof.tie)) {
        const Length left = roof.start - roof.rake_overhang;
        const Length right = roof.start + roof.along + roof.rake_overhang;
        if (left < -roof.main.rake_overhang || right > roof.main.length + roof.main.rake_overhang) {
            faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "along"}.text(),
                                   describe_length(left) + " to " + describe_length(right) + " with its rakes",
                                   "between the rakes of the main roof"});
        }
        if (!(roof.depth + roof.eave_overhang > roof.main.eave_overhang + one_inch)) {
            faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "depth"}.text(), describe_length(roof.depth),
                                   "a porch that reaches past the main roof's fascia"});
        }
    }
}

namespace detail {
/// A strip in front of a wall from 0 to `wall`, out to `out`, past the wall's ends by `before` and `after`; the part of its
/// top that lies against the wall is side `wall_side`. Seen facing the wall from outside: x to the right, y inward.
struct PorchStrip {
    std::vector<GroundPoint> outline;
    std::size_t wall_side;
};
[[nodiscard]] inline PorchStrip strip_against(Length wall, Length out, Length from, Length to) {
    PorchStrip strip{{{from, -out}, {to, -out}, {to, no_length}}, 2};
    if (to > wall + one_inch / 64.0) {
        strip.outline.push_back({wall, no_length});
        strip.wall_side = 3;
    }
    if (from < -one_inch / 64.0) {
        strip.outline.push_back({no_length, no_length});
    }
    strip.outline.push_back({from, no_length});
    return strip;
}
}  // namespace detail

/// The main gable and its porch. Names: front, back, porch.
///
/// Tied to the wall or under the eave the porch is a tier of its own with a wall at its top: where the main overhang passes
/// over it, `plan` counts both. Breaking pitch it is one surface with the main roof: they share the pitch break, and what
/// the porch covers of the main roof is no part of its face; past the porch's ends it stays above the main slope.
/// Throws `FaultError` with the first fault.
[[nodiscard]] inline ComposedRoof porch(const PorchRoof& roof) {
    require_sound(roof, "roof");
    const detail::PorchTop top = detail::porch_top(roof);
    const Length out = roof.depth + roof.eave_overhang;
    const Length left = roof.start - roof.rake_overhang;
    const Length right = roof.start + roof.along + roof.rake_overhang;
    RoofBody body{.footprint = {}, .planes = {detail::rising_back(top.y, top.height, roof.pitch)}};
    if (std::holds_alternative<BreaksPitch>(roof.tie)) {
        body.footprint = detail::rectangle({left, -out}, {right, top.y});
    } else {
        detail::PorchStrip strip = detail::strip_against(roof.main.length, out, left, right);
        body.footprint = std::move(strip.outline);
        body.wall_edges = {strip.wall_side};
        body.tier = 1;
    }
    return composed_roof({detail::main_body(roof.main), {std::move(body), {"porch"}}});
}

}  // namespace eavewright
