// SPDX-License-Identifier: BSL-1.0
#pragma once

// Frame lines: where trusses or rafters stand along a plane.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

/// Bays of one size that fill the building: `count` of them.
struct EqualBays {
    int count;
};
/// As few equal bays as keep each within `bay`.
struct BaysAtMost {
    Length bay;
};
/// Frame centres as measured along the front eave from the left wall's outer face, left to right.
struct FramesAt {
    std::vector<Length> centres;
};
using FrameSpacing = std::variant<EqualBays, BaysAtMost, FramesAt>;

/// How frames stand along the building. Equal bays run out to out of the end posts: the two end frames stand with their
/// outer sides flush with the posts, so their centres are half a chord inside.
struct FramePlan {
    FrameSpacing spacing;
    Length chord_width = Length::from_inches(1.5);  ///< 2x chord, PS 20; twice that for a doubled truss
    Length barge_width = Length::from_inches(1.5);  ///< barge rafter at the rake edge; 0 where there is none
};

/// The eave wall that frames stand along.
struct EaveWall {
    Length length;         ///< out to out of the end walls, to the faces that the shape is measured to
    Length rake_overhang;  ///< past those faces, on both sides
    Length post_inset =
        no_length;  ///< from those faces in to the outer face of the posts: the girts, where measured to them
};
/// Which eave somebody stands at; left and right change sides between the two.
enum class SeenFrom { front, back };
template <>
struct NamesOf<SeenFrom> {
    static constexpr std::array<std::string_view, 2> list{"front", "back"};
};

/// Frame centres in the along-coordinate of a plane.
struct FrameLines {
    std::vector<Length> centres;  ///< ascending
    Length chord_width;
    Length barge_width;
    Length wall_left;  ///< outer face of the left end wall
    Length wall_right;
    Length plane_left;  ///< left rake edge, usually 0
    Length plane_right;
};
template <>
struct FieldsOf<FrameLines> {
    static constexpr auto list = field_list(
        field("centres", FieldUnit::length, "frame centres from the plane's left rake edge", &FrameLines::centres),
        field("chord_width", FieldUnit::length, "thickness of a chord", &FrameLines::chord_width),
        field("wall_left", FieldUnit::length, "outer face of the left end wall", &FrameLines::wall_left),
        field("wall_right", FieldUnit::length, "outer face of the right end wall", &FrameLines::wall_right));
};

inline void find_faults(const EaveWall& wall, const Path& path, Faults& faults) {
    require_within(wall.length, Length::from_inches(12.0), longest_building, Path{path, "length"}, faults);
    require_within(wall.rake_overhang, no_length, longest_overhang, Path{path, "rake_overhang"}, faults);
    require_within(wall.post_inset, no_length, Length::from_inches(12.0), Path{path, "post_inset"}, faults);
}

inline void find_faults(const FramePlan& plan, const Path& path, Faults& faults) {
    require_within(plan.chord_width, Length::from_inches(0.5), Length::from_inches(24.0), Path{path, "chord_width"},
                   faults);
    require_within(plan.barge_width, no_length, Length::from_inches(24.0), Path{path, "barge_width"}, faults);
    if (const EqualBays* equal = std::get_if<EqualBays>(&plan.spacing);
        equal != nullptr && (equal->count < 1 || equal->count > 1000)) {
        faults.push_back(
            Fault{FaultCode::out_of_range, Path{path, "bays"}.text(), std::to_string(equal->count), "1 to 1000 bays"});
    }
    if (const BaysAtMost* most = std::get_if<BaysAtMost>(&plan.spacing)) {
        require_within(most->bay, Length::from_inches(6.0), longest_building, Path{path, "bay_at_most"}, faults);
    }
    if (const FramesAt* at = std::get_if<FramesAt>(&plan.spacing)) {
        const Path list{path, "centres"};
        if (at->centres.size() < 2) {
            faults.push_back(Fault{FaultCode::out_of_range, list.text(), std::to_string(at->centres.size()) + " frames",
                                   "at least 2 frames"});
        }
        for (std::size_t i = 0; i < at->centres.size(); ++i) {
            require_within(at->centres[i], -longest_overhang, longest_building, Path{list, i}, faults);
            if (i > 0 && !(at->centres[i] > at->centres[i - 1] + plan.chord_width)) {
                faults.push_back(Fault{FaultCode::out_of_order, Path{list, i}.text(), describe_length(at->centres[i]),
                                       "more than a chord width past " + describe_length(at->centres[i - 1])});
            }
        }
    }
}

namespace detail {
/// Measured frames may miss the nominal length by some inches, but not stand off the plane by a chord.
inline void require_on_plane(const FrameLines& lines) {
    for (const Length centre : lines.centres) {
        if (centre < lines.plane_left - lines.chord_width || centre > lines.plane_right + lines.chord_width) {
            throw FaultError{Fault{FaultCode::does_not_fit, "frames.centres", describe_length(centre - lines.wall_left),
                                   describe_length(lines.plane_left - lines.wall_left) + " to " +
                                       describe_length(lines.plane_right - lines.wall_left) + ", from rake to rake"}};
        }
    }
}

/// Centres of equal bays between the end posts' outer faces, the end frames flush with them.
[[nodiscard]] inline std::vector<Length> equal_bay_centres(const FramePlan& plan, const EaveWall& wall) {
    const Length between = wall.length - 2.0 * wall.post_inset;
    const BaysAtMost* most = std::get_if<BaysAtMost>(&plan.spacing);
    const std::int64_t bays =
        most != nullptr ? steps_to_cover(between, most->bay) : std::get<EqualBays>(plan.spacing).count;
    if (between / static_cast<double>(bays) < 2.0 * plan.chord_width) {
        throw FaultError{Fault{FaultCode::does_not_fit, "frames", std::to_string(bays) + " bays",
                               "bays of at least two chord widths"}};
    }
    std::vector<Length> centres;
    for (std::int64_t i = 0; i <= bays; ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(bays);
        centres.push_back(wall.rake_overhang + wall.post_inset + between * share);
    }
    centres.front() += plan.chord_width / 2.0;
    centres.back() -= plan.chord_width / 2.0;
    return centres;
}
}  // namespace detail

/// Frame centres along an eave wall, in the along-coordinate of the slope that is seen from `side`.
/// Throws `FaultError` with the first fault of `plan` or of the wall, does_not_fit where bays are too short for the chords
/// or a frame stands off the plane.
[[nodiscard]] inline FrameLines frame_lines(const FramePlan& plan, const EaveWall& wall, SeenFrom side) {
    require_sound(plan, "frames");
    require_sound(wall, "frames.wall");
    FrameLines lines{.centres = {},
                     .chord_width = plan.chord_width,
                     .barge_width = wall.rake_overhang > no_length ? plan.barge_width : no_length,
                     .wall_left = wall.rake_overhang,
                     .wall_right = wall.rake_overhang + wall.length,
                     .plane_left = no_length,
                     .plane_right = wall.length + 2.0 * wall.rake_overhang};
    if (const FramesAt* at = std::get_if<FramesAt>(&plan.spacing)) {
        for (const Length centre : at->centres) {
            lines.centres.push_back(wall.rake_overhang + centre);
        }
        detail::require_on_plane(lines);
    } else {
        lines.centres = detail::equal_bay_centres(plan, wall);
    }
    if (side == SeenFrom::back) {
        std::vector<Length> reversed;
        for (auto centre = lines.centres.rbegin(); centre != lines.centres.rend(); ++centre) {
            reversed.push_back(lines.plane_right - *centre);
        }
        lines.centres = reversed;
    }
    return lines;
}

/// Chords, and barge rafters at the rakes, as what sheets lie on where there are no purlins under them.
[[nodiscard]] inline Supports<Surface::chord_top> supports_of(const FrameLines& frames, const ChordPlane& plane) {
    Supports<Surface::chord_top> supports{SupportRun::up_slope, {}, no_length};
    const Extent extent = extent_of(plane.outline);
    const auto add = [&](Length centre, Length width) {
        supports.lines.push_back({{{centre, extent.low.up}, {centre, extent.high.up}}, width});
    };
    const Length barge = frames.barge_width;
    if (barge > no_length) {
        add(frames.plane_left + barge / 2.0, barge);
    }
    for (const Length centre : frames.centres) {
        add(centre, frames.chord_width);
    }
    if (barge > no_length) {
        add(frames.plane_right - barge / 2.0, barge);
    }
    if (frames.centres.size() > 1) {
        supports.spacing =
            (frames.centres.back() - frames.centres.front()) / static_cast<double>(frames.centres.size() - 1);
    }
    return supports;
}

}  // namespace eavewright
