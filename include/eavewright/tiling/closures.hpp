// SPDX-License-Identifier: BSL-1.0
#pragma once

// Closure strips under the ribs and sealant in the joints, by the run of each.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/tiling/trim.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <cstdint>
#include <string>

namespace eavewright {

/// Closures shaped to the ribs, inside ones under the lower ends and outside ones on the upper ends, and the sealant that
/// beds them. Which joints are sealed is the maker's word; the figures are common practice.
struct ClosurePlan {
    Length strip;            ///< length of a closure strip, mostly a panel's cover
    int beads = 2;           ///< of sealant along a strip: one under it, one on it
    int end_lap_beads = 1;   ///< along each end lap
    bool side_laps = false;  ///< sealed: what lapped seams below 3 in 12 ask (IRC R905.10.2, as in covering.hpp)
};

/// Closures and sealant of one plane.
struct Closures {
    Length eave_run;  ///< along the lower ends
    Length ridge_run;
    std::int64_t eave_strips;
    std::int64_t ridge_strips;
    Length end_lap_run;   ///< of all end laps together
    Length side_lap_run;  ///< of all side laps together
    Length sealant;       ///< all beads together
};
template <>
struct FieldsOf<Closures> {
    static constexpr auto list =
        field_list(field("eave_run", FieldUnit::length, "along the lower ends of the panels", &Closures::eave_run),
                   field("ridge_run", FieldUnit::length, "along their upper ends", &Closures::ridge_run),
                   field("eave_strips", FieldUnit::count, "closure strips at the eave", &Closures::eave_strips),
                   field("ridge_strips", FieldUnit::count, "closure strips at the ridge", &Closures::ridge_strips),
                   field("end_lap_run", FieldUnit::length, "of all end laps together", &Closures::end_lap_run),
                   field("side_lap_run", FieldUnit::length, "of all side laps together", &Closures::side_lap_run),
                   field("sealant", FieldUnit::length, "all beads of sealant together", &Closures::sealant));
};

inline void find_faults(const ClosurePlan& plan, const Path& path, Faults& faults) {
    require_within(plan.strip, one_inch, Length::from_feet(20.0), Path{path, "strip"}, faults);
    const auto beads = [&](int given, const char* name) {
        if (given < 0 || given > 10) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{path, name}.text(), std::to_string(given), "0 to 10"});
        }
    };
    beads(plan.beads, "beads");
    beads(plan.end_lap_beads, "end_lap_beads");
}

namespace detail {
[[nodiscard]] inline Length upper_end(const PanelPiece& piece) {
    return hypotenuse(piece.outline[2].along - piece.outline[3].along, piece.outline[2].up - piece.outline[3].up);
}
[[nodiscard]] inline bool ends_its_lane(const Panels& panels, std::size_t index) {
    return index + 1 == panels.pieces.size() || panels.pieces[index + 1].place == 0;
}
/// How far two lanes lie side by side, from the lower end to the upper one.
[[nodiscard]] inline Length side_laps_of(const Panels& panels) {
    Length run = no_length;
    for (const PanelPiece& piece : panels.pieces) {
        if (piece.lane + 1 < panels.lanes) {  // the last lane laps nobody
            run += panels.start == StartCorner::eave_left ? piece.outline[2].up - piece.outline[1].up
                                                          : piece.outline[3].up - piece.outline[0].up;
        }
    }
    for (const PanelEndLap& lap : panels.end_laps) {
        run -= panels.pieces[lap.lower].lane + 1 < panels.lanes ? lap.to - lap.from : no_length;
    }
    return run;
}
}  // namespace detail

/// Strips fill each run end to end, a part counted whole. Runs follow the panels as laid, side laps counted once.
/// Throws `FaultError` with the first fault of `plan`.
[[nodiscard]] inline Closures closures_under(const Panels& panels, const ClosurePlan& plan) {
    require_sound(plan, "closures");
    Closures result{.eave_run = no_length,
                    .ridge_run = no_length,
                    .eave_strips = 0,
                    .ridge_strips = 0,
                    .end_lap_run = no_length,
                    .side_lap_run = detail::side_laps_of(panels),
                    .sealant = no_length};
    for (std::size_t i = 0; i < panels.pieces.size(); ++i) {
        const PanelPiece& piece = panels.pieces[i];
        result.eave_run += piece.place == 0 ? piece.cover : no_length;
        result.ridge_run += detail::ends_its_lane(panels, i) ? detail::upper_end(piece) : no_length;
    }
    for (const PanelEndLap& lap : panels.end_laps) {
        result.end_lap_run += panels.pieces[lap.upper].width;
    }
    result.eave_strips = count_strips(result.eave_run, plan.strip);
    result.ridge_strips = count_strips(result.ridge_run, plan.strip);
    result.sealant = (result.eave_run + result.ridge_run) * static_cast<double>(plan.beads) +
                     result.end_lap_run * static_cast<double>(plan.end_lap_beads) +
                     result.side_lap_run * (plan.side_laps ? 1.0 : 0.0);
    return result;
}

}  // namespace eavewright
