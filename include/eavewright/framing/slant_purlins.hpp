// SPDX-License-Identifier: BSL-1.0
#pragma once

// Purlins of a plane that ends on hips and valleys: each row reaches from one slanted edge to the other.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/hip_line.hpp>
#include <eavewright/framing/rafter.hpp>
#include <eavewright/framing/saw.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace eavewright {

/// An end that runs straight up the slope, `past` the corner of the eave line (negative: short of it).
struct RakeEnd {
    Length past = no_length;
};
/// An end on the hip over the corner of the eave line: rows get shorter up the slope.
struct HipEnd {
    Pitch other;  ///< of the plane on the other side
    PlanCorner corner = PlanCorner::square();
    /// Level, square to the hip: half a hip rafter where purlins butt on its side, 0 where they meet over the line.
    Length hold_back = no_length;
};
/// An end on the valley over the corner of the eave line: rows get longer up the slope.
struct ValleyEnd {
    Pitch other;
    PlanCorner corner = PlanCorner::square();
    Length hold_back = no_length;
};
using SlantEnd = std::variant<RakeEnd, HipEnd, ValleyEnd>;

/// Purlins of one plane. Up-coordinates go up the slope on the purlin tops from their eave line, along-coordinates
/// along that line from its left corner, somebody facing up the slope.
struct SlantPurlins {
    Pitch pitch;
    Length eave_length;        ///< of the line of the purlin tops at the eave, corner to corner
    std::vector<Length> rows;  ///< middle of each row, up the slope
    SlantEnd left;
    SlantEnd right;
    Length across = Length::from_inches(3.5);  ///< of a purlin up the slope: 2x4 flat, PS 20; 1.5 in on edge
    Length depth = Length::from_inches(1.5);   ///< square to the roof: 2x4 flat; 3.5 in on edge
    HipCut cut = HipCut::plumb;
};

/// One purlin between its slanted ends.
struct SlantPurlin {
    Length up;    ///< middle of the row
    Length from;  ///< along-coordinate of its left end, middle of the top face
    Length to;
    Length length;       ///< in the middle of the top face
    Length long_length;  ///< the piece it comes out of: long point to long point over all four arrises
};
template <>
struct FieldsOf<SlantPurlin> {
    static constexpr auto list = field_list(
        field("up", FieldUnit::length, "middle of the row, up the slope", &SlantPurlin::up),
        field("from", FieldUnit::length, "left end along the eave, middle of the top face", &SlantPurlin::from),
        field("to", FieldUnit::length, "right end along the eave, middle of the top face", &SlantPurlin::to),
        field("length", FieldUnit::length, "in the middle of the top face", &SlantPurlin::length),
        field("long_length", FieldUnit::length, "long point to long point over all arrises",
              &SlantPurlin::long_length));
};

/// Saw settings of one end: the face in the roof on the table, or the face square to it.
struct SlantCut {
    SawSetting face_in_roof;
    SawSetting face_square_to_roof;
};
template <>
struct FieldsOf<SlantCut> {
    static constexpr auto list =
        field_list(field("face_in_roof", FieldUnit::none, "the face in the roof on the table", &SlantCut::face_in_roof),
                   field("face_square_to_roof", FieldUnit::none, "the face square to the roof on the table",
                         &SlantCut::face_square_to_roof));
};

/// The purlins of a plane. Ends at a rake are cut square and have no setting.
struct SlantPurlinSet {
    std::vector<SlantPurlin> purlins;
    double left_per_up;  ///< how much the left end moves along for each inch up the slope
    double right_per_up;
    std::optional<SlantCut> left_cut;
    std::optional<SlantCut> right_cut;
};
template <>
struct FieldsOf<SlantPurlinSet> {
    static constexpr auto list = field_list(
        field("left_per_up", FieldUnit::ratio, "along-movement of the left end per length up the slope",
              &SlantPurlinSet::left_per_up),
        field("right_per_up", FieldUnit::ratio, "along-movement of the right end per length up the slope",
              &SlantPurlinSet::right_per_up),
        field("left_cut", FieldUnit::none, "saw settings of the left end, null at a rake", &SlantPurlinSet::left_cut),
        field("right_cut", FieldUnit::none, "saw settings of the right end, null at a rake",
              &SlantPurlinSet::right_cut),
        field("purlins", FieldUnit::none, "purlins, in the order of the rows", &SlantPurlinSet::purlins));
};

namespace detail {
/// Where one end lies, counted inward from its corner.
struct SlantLine {
    double per_up;     ///< inward movement up the slope
    double per_depth;  ///< and down into the roof
    Length shift;
    std::optional<SlantCut> cut;
    [[nodiscard]] Length at(Length up, Length depth) const { return shift + up * per_up + depth * per_depth; }
};

[[nodiscard]] inline SlantLine slant_line(const HipPlanes& planes, HipCut kind, Length hold_back, double inward) {
    const CornerDirections at = directions_at(planes);
    const Direction cut = cut_of(at, kind);
    // A point of the purlin lies on the cut where its part along the eave makes up for those up and into the roof.
    return {.per_up = -inward * dot(cut, at.up) / cut.x,
            .per_depth = inward * dot(cut, at.normal) / cut.x,
            .shift = hold_back / hip_line_of(planes).plan_a.sine(),
            .cut = SlantCut{.face_in_roof = saw_setting(at.eave, at.normal, cut),
                            .face_square_to_roof = saw_setting(at.eave, at.up, cut)}};
}

[[nodiscard]] inline SlantLine slant_line(const SlantPurlins& in, const SlantEnd& end) {
    if (const HipEnd* hip = std::get_if<HipEnd>(&end)) {
        return slant_line({in.pitch, hip->other, hip->corner}, in.cut, hip->hold_back, 1.0);
    }
    if (const ValleyEnd* valley = std::get_if<ValleyEnd>(&end)) {
        return slant_line({in.pitch, valley->other, valley->corner}, in.cut, valley->hold_back, -1.0);
    }
    return {.per_up = 0.0, .per_depth = 0.0, .shift = -std::get<RakeEnd>(end).past, .cut = std::nullopt};
}

inline void find_end_faults(const SlantPurlins& in, const SlantEnd& end, const Path& all, std::string_view side,
                            Faults& faults) {
    const Path path{all, side};
    const auto find = [&](const HipPlanes& planes, Length hold_back) {
        const std::size_t before = faults.size();
        require_hip_pitch(planes.pitch_a, Path{all, "pitch"}, faults);
        require_hip_pitch(planes.pitch_b, Path{path, "other"}, faults);
        if (faults.size() == before) {
            require_hip_between(planes, path, faults);
        }
        require_within(hold_back, no_length, thickest_member, Path{path, "hold_back"}, faults);
    };
    if (const HipEnd* hip = std::get_if<HipEnd>(&end)) {
        find({in.pitch, hip->other, hip->corner}, hip->hold_back);
    } else if (const ValleyEnd* valley = std::get_if<ValleyEnd>(&end)) {
        find({in.pitch, valley->other, valley->corner}, valley->hold_back);
    } else {
        require_within(std::get<RakeEnd>(end).past, -longest_overhang, longest_overhang, Path{path, "past"}, faults);
    }
}

/// How far the end reaches out of all four arrises: the least inward.
[[nodiscard]] inline Length outermost(const SlantLine& line, const SlantPurlins& in, Length up) {
    const Length half = in.across / 2.0;
    const Length top = shorter(line.at(up - half, no_length), line.at(up + half, no_length));
    return shorter(top, shorter(line.at(up - half, in.depth), line.at(up + half, in.depth)));
}
}  // namespace detail

inline void find_faults(const SlantPurlins& in, const Path& path, Faults& faults) {
    require_within(in.eave_length, no_length, longest_building, Path{path, "eave_length"}, faults);
    require_within(in.across, no_length, thickest_member, Path{path, "across"}, faults);
    require_within(in.depth, no_length, thickest_member, Path{path, "depth"}, faults);
    const Path rows{path, "rows"};
    if (in.rows.size() > static_cast<std::size_t>(most_steps)) {
        faults.push_back(Fault{FaultCode::too_much_work, rows.text(), std::to_string(in.rows.size()) + " rows",
                               "no more than " + std::to_string(most_steps)});
        return;
    }
    for (std::size_t i = 0; i < in.rows.size(); ++i) {
        require_within(in.rows[i], no_length, longest_building, Path{rows, i}, faults);
    }
    detail::find_end_faults(in, in.left, path, "left", faults);
    detail::find_end_faults(in, in.right, path, "right", faults);
}

/// Lengths and end cuts of purlins between slanted edges. Up a hip, each row is shorter than the one below by the same
/// amount. Throws `FaultError` with the first fault of `in`; does_not_fit where nothing is left of a row.
[[nodiscard]] inline SlantPurlinSet slant_purlins(const SlantPurlins& in) {
    require_sound(in, "purlins");
    const detail::SlantLine left = detail::slant_line(in, in.left);
    const detail::SlantLine right = detail::slant_line(in, in.right);
    SlantPurlinSet set{.purlins = {},
                       .left_per_up = left.per_up,
                       .right_per_up = -right.per_up,
                       .left_cut = left.cut,
                       .right_cut = right.cut};
    for (std::size_t i = 0; i < in.rows.size(); ++i) {
        const Length up = in.rows[i];
        const Length from = left.at(up, no_length);
        const Length to = in.eave_length - right.at(up, no_length);
        if (!(to > from)) {
            throw FaultError{Fault{FaultCode::does_not_fit, "purlins.rows[" + std::to_string(i) + "]",
                                   describe_length(up), "a row below the point where the ends meet"}};
        }
        set.purlins.push_back(
            {.up = up,
             .from = from,
             .to = to,
             .length = to - from,
             .long_length = in.eave_length - detail::outermost(right, in, up) - detail::outermost(left, in, up)});
    }
    return set;
}

}  // namespace eavewright
