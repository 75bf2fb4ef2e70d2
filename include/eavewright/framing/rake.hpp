// SPDX-License-Identifier: BSL-1.0
#pragma once

// Lookouts and barge rafter at the rake: where the roof hangs past the gable wall.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/cut_angle.hpp>
#include <eavewright/framing/rafter.hpp>
#include <eavewright/framing/saw.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// How the barge rafter and the fascia meet at the corner of the eave.
enum class BargeFoot {
    mitred,         ///< long point at the corner of both outer faces
    over_fascia,    ///< the barge covers the end of the fascia
    behind_fascia,  ///< the fascia covers the end of the barge
};
template <>
struct NamesOf<BargeFoot> {
    static constexpr std::array<std::string_view, 3> list{"mitred", "over_fascia", "behind_fascia"};
};

/// A rake with its barge rafter on lookouts. Level distances out from the outer face of the walls.
struct Rake {
    Pitch pitch;
    Length run;            ///< level, outer face of the eave wall to the middle of the ridge
    Length eave_overhang;  ///< level, outer face of the eave wall to the fascia's outer face
    Length rake_overhang;  ///< level, outer face of the gable wall to the barge's outer face
    Length reach_inside;   ///< outer face of the gable wall in to the side of the frame that lookouts are nailed to
    Length spacing;        ///< of lookouts along the slope, at most
    Length barge_depth;    ///< square to its edges
    Length barge_thickness = Length::from_inches(1.5);   ///< 2x, PS 20
    Length lookout_width = Length::from_inches(1.5);     ///< up the slope: 2x4 on edge, PS 20
    Length lookout_depth = Length::from_inches(3.5);     ///< square to the slope
    Length ridge_thickness = Length::from_inches(1.5);   ///< ridge board that the top lookout keeps clear of
    Length fascia_thickness = Length::from_inches(1.5);  ///< 2x, PS 20
    TailCut tail = TailCut::plumb;                       ///< how the fascia stands
    BargeFoot foot = BargeFoot::mitred;
};

/// A rake laid out. Distances along the slope count from the fascia's outer face, on the line of the rafter tops.
struct RakeFigures {
    Length line_length;            ///< fascia's outer face to the middle of the ridge
    Length barge_length;           ///< top edge of the barge, on its outer face; the two barges meet at the ridge
    Length barge_blank;            ///< shortest piece it comes out of
    CutAngle ridge_cut;            ///< off square across: the pitch
    CutAngle foot_cut;             ///< off square across: the pitch, or none with a square tail
    SawSetting foot_saw;           ///< barge with its outer face on the table
    SawSetting fascia_saw;         ///< the fascia's end, its outer face on the table
    Length lookout_length;         ///< side of the frame to the back of the barge, both ends square
    std::vector<Length> lookouts;  ///< centres, lowest first: against the fascia, up to clear of the ridge
    Length lookout_spacing;        ///< between them, equal
};
template <>
struct FieldsOf<RakeFigures> {
    static constexpr auto list = field_list(
        field("line_length", FieldUnit::length, "fascia's outer face to the middle of the ridge",
              &RakeFigures::line_length),
        field("barge_length", FieldUnit::length, "top edge of the barge, on its outer face",
              &RakeFigures::barge_length),
        field("barge_blank", FieldUnit::length, "shortest piece the barge comes out of", &RakeFigures::barge_blank),
        field("ridge_cut", FieldUnit::none, "off square across", &RakeFigures::ridge_cut),
        field("foot_cut", FieldUnit::none, "off square across", &RakeFigures::foot_cut),
        field("foot_saw", FieldUnit::none, "barge with its outer face on the table", &RakeFigures::foot_saw),
        field("fascia_saw", FieldUnit::none, "fascia with its outer face on the table", &RakeFigures::fascia_saw),
        field("lookout_length", FieldUnit::length, "side of the frame to the back of the barge",
              &RakeFigures::lookout_length),
        field("lookouts", FieldUnit::length, "centres up the slope, from the fascia's outer face",
              &RakeFigures::lookouts),
        field("lookout_spacing", FieldUnit::length, "between the lookouts", &RakeFigures::lookout_spacing));
};

namespace detail {
/// The room that lookouts have along the slope, for their centres.
struct LookoutRoom {
    Length low;
    Length high;
};
[[nodiscard]] inline LookoutRoom lookout_room(const Rake& rake) {
    const bool plumb = rake.tail == TailCut::plumb;
    const Length behind = plumb ? rake.pitch.slope_over(rake.fascia_thickness) : rake.fascia_thickness;
    // Square to the slope, the top lookout meets the plumb ridge with its lower edge first.
    const Length top = rake.pitch.slope_over(rake.run + rake.eave_overhang - rake.ridge_thickness / 2.0) -
                       rake.pitch.rise_over(rake.lookout_depth);
    return {behind + rake.lookout_width / 2.0, top - rake.lookout_width / 2.0};
}
}  // namespace detail

inline void find_faults(const Rake& rake, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    require_within(rake.run, Length::from_inches(1.0), longest_building, Path{path, "run"}, faults);
    require_within(rake.eave_overhang, no_length, longest_overhang, Path{path, "eave_overhang"}, faults);
    require_within(rake.rake_overhang, no_length, longest_overhang, Path{path, "rake_overhang"}, faults);
    require_within(rake.reach_inside, no_length, longest_building, Path{path, "reach_inside"}, faults);
    require_within(rake.spacing, Length::from_inches(1.0), longest_building, Path{path, "spacing"}, faults);
    require_within(rake.barge_depth, Length::from_inches(0.5), deepest_layer, Path{path, "barge_depth"}, faults);
    require_within(rake.barge_thickness, no_length, thickest_member, Path{path, "barge_thickness"}, faults);
    require_within(rake.lookout_width, Length::from_inches(0.5), thickest_member, Path{path, "lookout_width"}, faults);
    require_within(rake.lookout_depth, Length::from_inches(0.5), thickest_member, Path{path, "lookout_depth"}, faults);
    require_within(rake.ridge_thickness, no_length, thickest_member, Path{path, "ridge_thickness"}, faults);
    require_within(rake.fascia_thickness, no_length, thickest_member, Path{path, "fascia_thickness"}, faults);
    if (faults.size() > before) {
        return;
    }
    if (rake.pitch.rise_over(rake.run) > greatest_height) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "pitch"}.text(),
                               describe_length(rake.pitch.rise_over(rake.run)) + " over the run",
                               "a rise of at most " + describe_length(greatest_height)});
        return;
    }
    const Length lookout = rake.rake_overhang - rake.barge_thickness + rake.reach_inside;
    if (!(lookout > no_length)) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "barge_thickness"}.text(),
                               describe_length(rake.barge_thickness),
                               "less than rake_overhang and reach_inside together"});
    }
    const detail::LookoutRoom room = detail::lookout_room(rake);
    if (!(room.high > room.low)) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "lookout_width"}.text(),
                               describe_length(rake.lookout_width), "room for two lookouts between fascia and ridge"});
    }
}

/// Lays out a rake. Lookouts stand at equal spaces, as few as keep each within `spacing`; the lowest lies against the
/// fascia, the highest clears the ridge board. With a plumb fascia a mitred foot is cut to the pitch and 45 deg, with a
/// square one to 0 and 45 deg. Throws `FaultError` with the first fault of `rake`, too_much_work above `most_steps`.
[[nodiscard]] inline RakeFigures lay_rake(const Rake& rake) {
    require_sound(rake, "rake");
    const bool plumb = rake.tail == TailCut::plumb;
    const Length line = rake.pitch.slope_over(rake.run + rake.eave_overhang);
    const Length behind = plumb ? rake.pitch.slope_over(rake.fascia_thickness) : rake.fascia_thickness;
    const Length barge = rake.foot == BargeFoot::behind_fascia ? line - behind : line;
    const detail::LookoutRoom room = detail::lookout_room(rake);
    const std::int64_t spaces = steps_to_cover(room.high - room.low, rake.spacing);
    const Length apart = (room.high - room.low) / static_cast<double>(spaces);
    const Direction up{0.0, rake.pitch.cosine(), rake.pitch.sine()};
    const Direction barge_face{-1.0, 0.0, 0.0};
    const Direction fascia_face = plumb ? Direction{0.0, -1.0, 0.0} : Direction{0.0, -up.y, -up.z};
    // Mitred halfway between both outer faces; otherwise one runs through and the other is cut square to its face.
    const bool mitred = rake.foot == BargeFoot::mitred;
    const Direction between{-1.0, -fascia_face.y, -fascia_face.z};
    RakeFigures figures{.line_length = line,
                        .barge_length = barge,
                        .barge_blank = plumb ? barge + rake.pitch.rise_over(rake.barge_depth) : barge,
                        .ridge_cut = CutAngle::of(rake.pitch),
                        .foot_cut = plumb ? CutAngle::of(rake.pitch) : CutAngle::none(),
                        .foot_saw = saw_setting(up, barge_face, mitred ? between : fascia_face),
                        .fascia_saw = saw_setting({1.0, 0.0, 0.0}, fascia_face, mitred ? between : barge_face),
                        .lookout_length = rake.rake_overhang - rake.barge_thickness + rake.reach_inside,
                        .lookouts = {},
                        .lookout_spacing = apart};
    for (std::int64_t k = 0; k <= spaces; ++k) {
        figures.lookouts.push_back(room.low + apart * static_cast<double>(k));
    }
    return figures;
}

}  // namespace eavewright
