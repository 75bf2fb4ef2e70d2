// SPDX-License-Identifier: BSL-1.0
#pragma once

// Ribbed steel on a plane: what is asked, and the layout that answers. The laying itself is in lay_panels.hpp.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/panel_lengths.hpp>
#include <eavewright/tiling/panel_start.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// A ribbed panel. It is as wide as its cover and one side lap; ribs stand in equal spaces from lap to lap.
struct PanelStock {
    Length cover = Length::from_inches(36.0);       ///< a 39 in ribbed sheet covers 36 in (Raising Poultry, p. 38)
    Length side_lap = Length::from_inches(3.0);     ///< the same source
    Length rib_spacing = Length::from_inches(9.0);  ///< a common profile, from memory: read it off the panel
    SideLap lap = SideLap::over_previous;           ///< common practice
};

/// Where narrow panels go when the plane is no whole number of covers.
enum class RipPlace {
    last,      ///< full panels first, what is left at the far rake
    balanced,  ///< equal rips at both rakes
};
template <>
struct NamesOf<RipPlace> {
    static constexpr std::array<std::string_view, 2> list{"last", "balanced"};
};

/// How panels are to be laid.
///
/// End lap: published least laps run from 4 in (Cyclopedia of Architecture, Carpentry and Building, Laying Corrugated
/// Roofing) over 6 in (V-crimp at 4 in 12 and up, Theatre Catalog 1952, p. 231) and 8 in (Univ. of Florida UF00008517,
/// step 52) to 250 and 300 mm (slides after Fajardo, Simplified Construction Estimate). The maker's comes first.
struct PanelPlan {
    Length
        ridge_hold_back;  ///< upper end below the ridge line, along the slope: half of a vent slot, or the least that
                          ///< the panels of two slopes need; no published figure
    PanelStock panel{};
    StartCorner start = StartCorner::eave_left;  ///< from `start_at` for a gable
    RipPlace rips = RipPlace::last;
    EaveWindow eave{};
    Length edge_past_fascia = no_length;           ///< the edge that the overhang counts from, past the fascia's
                                                   ///< outer face: the deck's or the trim's
    Length increment = one_inch;                   ///< lengths are ordered in; common practice, metric 1 mm or 10 mm
    Length longest = Length::from_feet(40.0);      ///< that is made, carried and lifted; common practice
    Length end_lap = Length::from_inches(8.0);     ///< see above
    Length ridge_play = Length::from_inches(0.5);  ///< how far an uncut corner may stand past the hold-back under the
                                                   ///< cap, never past the ridge; common practice
    Length sliver = Length::from_inches(6.0);      ///< a narrower or shorter piece is found; common practice
    Length trim_hides = Length::from_inches(3.0);  ///< at a rake out of square (readmetalroofing.com, Installing
                                                   ///< Exposed Fastener Metal Roofs)
    Length creep = Length::from_inches(0.125);     ///< a lap may stand off its mark; common practice
    Length pack_drift = Length::from_inches(1.0 / 16);  ///< a pack may gain or lose, each panel; common practice
    Tick tick = Tick::of_inch(16);                      ///< what marks and cuts are rounded to
};

/// One panel, or one piece of it where it is lapped. Lanes count from the rake that was begun at, places from the eave.
struct PanelPiece {
    std::int32_t lane;
    std::int32_t place;
    std::vector<PlanePoint> outline;  ///< of what it covers, counter-clockwise; side laps lie past it, end laps in it
    Length cover;                     ///< width that it covers
    Length width;                     ///< of material: to rip to where it is narrower than the stock
    Length low;                       ///< up-coordinate of its lower end
    Length left_length;   ///< from the lower end to where the upper end belongs, at its left when facing up the slope
    Length right_length;  ///< the same at its right
    Length order_length;  ///< a whole number of increments, not below the longer of the two
    bool ripped;          ///< narrower than the stock
    bool cut;             ///< its upper end is cut from `left_length` to `right_length`; else it stays as ordered
};

namespace detail {
/// The number of a lane from 1, and a letter for what lies above its lowest piece.
[[nodiscard]] inline std::string panel_name_of(std::int32_t lane, std::int32_t place) {
    std::string name = std::to_string(lane + 1);
    if (place > 0) {
        name += place < 26 ? std::string(1, static_cast<char>('a' + place)) : "-" + std::to_string(place + 1);
    }
    return name;
}
}  // namespace detail

/// Name of a piece as it is written on the steel: the panel's number from the first gable, and a letter from the eave for
/// pieces above the lowest: 12, 12b, 12c.
[[nodiscard]] inline std::string panel_name(const PanelPiece& piece) {
    return detail::panel_name_of(piece.lane, piece.place);
}

/// Where the lower end of one piece lies over the upper end of another.
struct PanelEndLap {
    std::size_t lower;    ///< index of the piece below
    std::size_t upper;    ///< index of the piece above, which lies over it
    std::size_t support;  ///< index of the support under it
    Length from;          ///< lower end of the upper piece
    Length to;            ///< upper end of the lower piece
};

/// Where the far edge of a panel's cover belongs, rounded from the exact sum.
struct PanelMark {
    std::int32_t lane;  ///< the panel that ends here
    Length exact;       ///< from the edge that the panels begin at, which is the plane's outermost
    Length eave;        ///< on a tape from the eave's corner at the first rake, to the tick
    Length ridge;       ///< on a tape from the ridge's corner at the first rake, to the tick
    Length least;       ///< eave mark less the creep allowed
    Length most;        ///< eave mark and the creep allowed
};

/// Where the panels end if every one of them gains or loses what a pack may.
struct PackDrift {
    Length total;              ///< of all panels before the last, either way
    Length last_cover_gained;  ///< cover left for the last panel where every one gains
    Length last_cover_lost;    ///< and where every one loses
    std::int64_t panels_lost;  ///< panels needed where every one loses
};

/// Closed, numbered list of what can be wrong with a layout of panels.
enum class PanelFindingCode : int {
    sliver_cover = 0,         ///< a rip covers less than the sliver limit
    within_lap = 1,           ///< the last rip covers no more than a side lap, which the panel before it has uncut
    no_increment_fits = 2,    ///< no order length lands in the overhang window: panels come long at the ridge
    taper_past_trim = 3,      ///< a rake is further out of square than its trim hides
    end_lap_off_support = 4,  ///< a support leaves its end lap somewhere across the panel
    sliver_length = 5,        ///< a piece is shorter than the sliver limit
    pack_runs_short = 6,      ///< one more panel is needed where every panel loses what a pack may
};
template <>
struct NamesOf<PanelFindingCode> {
    static constexpr std::array<std::string_view, 7> list{"sliver_cover",    "within_lap",          "no_increment_fits",
                                                          "taper_past_trim", "end_lap_off_support", "sliver_length",
                                                          "pack_runs_short"};
};

/// One thing found: what, on which piece, where, how much, and what the limit is.
struct PanelFinding {
    PanelFindingCode code;
    std::size_t piece;
    PlanePoint place;
    Length measured;
    Length limit;
};

/// A plane laid with panels.
struct Panels {
    StartCorner start;
    PanelStock panel;
    std::int32_t lanes;
    double exact_panels;  ///< width over cover, before it is rounded up
    Length first_cover;
    Length last_cover;
    Length overhang;  ///< of the lower ends past the eave's edge
    std::vector<PanelPiece> pieces;
    std::vector<PanelEndLap> end_laps;
    std::vector<PanelMark> marks;
    RakeTaper left_rake;
    RakeTaper right_rake;
    PackDrift pack;
    Area covered;  ///< by the panels as laid, laps once
    Area bought;   ///< full width times order length
    std::vector<PanelFinding> findings;
};

template <>
struct FieldsOf<PanelStock> {
    static constexpr auto list = field_list(
        field("cover", FieldUnit::length, "width that a panel covers", &PanelStock::cover),
        field("side_lap", FieldUnit::length, "width that lies under or over its neighbour", &PanelStock::side_lap),
        field("rib_spacing", FieldUnit::length, "rib to rib", &PanelStock::rib_spacing),
        field("lap", FieldUnit::none, "how a panel laps the one before it", &PanelStock::lap));
};
template <>
struct FieldsOf<PanelPiece> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "number from the first gable, letter from the eave", &panel_name),
                   field("order_length", FieldUnit::length, "length to order", &PanelPiece::order_length),
                   field("left_length", FieldUnit::length, "lower end to where the upper end belongs, left",
                         &PanelPiece::left_length),
                   field("right_length", FieldUnit::length, "the same at the right", &PanelPiece::right_length),
                   field("cover", FieldUnit::length, "width that it covers", &PanelPiece::cover),
                   field("width", FieldUnit::length, "width of material", &PanelPiece::width),
                   field("low", FieldUnit::length, "lower end, up the slope", &PanelPiece::low),
                   field("ripped", FieldUnit::none, "narrower than the stock", &PanelPiece::ripped),
                   field("cut", FieldUnit::none, "upper end cut to left and right length", &PanelPiece::cut),
                   field("outline", FieldUnit::length, "corners of what it covers", &PanelPiece::outline));
};
template <>
struct FieldsOf<PanelEndLap> {
    static constexpr auto list = field_list(
        field("lower", FieldUnit::count, "index of the piece below", &PanelEndLap::lower),
        field("upper", FieldUnit::count, "index of the piece above, which lies over it", &PanelEndLap::upper),
        field("support", FieldUnit::count, "index of the support under it", &PanelEndLap::support),
        field("from", FieldUnit::length, "lower end of the upper piece", &PanelEndLap::from),
        field("to", FieldUnit::length, "upper end of the lower piece", &PanelEndLap::to));
};
template <>
struct FieldsOf<PanelMark> {
    static constexpr auto list = field_list(
        field("lane", FieldUnit::count, "index of the panel that ends here", &PanelMark::lane),
        field("exact", FieldUnit::length, "from the edge that the panels begin at", &PanelMark::exact),
        field("eave", FieldUnit::length, "from the eave's corner at the first rake, rounded", &PanelMark::eave),
        field("ridge", FieldUnit::length, "from the ridge's corner at the first rake, rounded", &PanelMark::ridge),
        field("least", FieldUnit::length, "eave mark less the creep allowed", &PanelMark::least),
        field("most", FieldUnit::length, "eave mark and the creep allowed", &PanelMark::most));
};
template <>
struct FieldsOf<PackDrift> {
    static constexpr auto list = field_list(
        field("total", FieldUnit::length, "of all panels before the last, either way", &PackDrift::total),
        field("last_cover_gained", FieldUnit::length, "cover of the last panel where every one gains",
              &PackDrift::last_cover_gained),
        field("last_cover_lost", FieldUnit::length, "cover of the last panel where every one loses",
              &PackDrift::last_cover_lost),
        field("panels_lost", FieldUnit::count, "panels needed where every one loses", &PackDrift::panels_lost));
};
template <>
struct FieldsOf<PanelFinding> {
    static constexpr auto list =
        field_list(field("code", FieldUnit::none, "what was found", &PanelFinding::code),
                   field("piece", FieldUnit::count, "index of the piece", &PanelFinding::piece),
                   field("place", FieldUnit::length, "where", &PanelFinding::place),
                   field("measured", FieldUnit::length, "how much", &PanelFinding::measured),
                   field("limit", FieldUnit::length, "the limit it passes", &PanelFinding::limit));
};
template <>
struct FieldsOf<Panels> {
    static constexpr auto list =
        field_list(field("start", FieldUnit::none, "the corner begun at", &Panels::start),
                   field("panel", FieldUnit::none, "the panel", &Panels::panel),
                   field("lanes", FieldUnit::count, "panels side by side", &Panels::lanes),
                   field("exact_panels", FieldUnit::ratio, "width over cover, not rounded up", &Panels::exact_panels),
                   field("first_cover", FieldUnit::length, "cover of the first panel", &Panels::first_cover),
                   field("last_cover", FieldUnit::length, "cover of the last panel", &Panels::last_cover),
                   field("overhang", FieldUnit::length, "of the lower ends past the eave's edge", &Panels::overhang),
                   field("covered", FieldUnit::area, "area covered, laps once", &Panels::covered),
                   field("bought", FieldUnit::area, "full width times order length", &Panels::bought),
                   field("left_rake", FieldUnit::none, "taper at the left rake", &Panels::left_rake),
                   field("right_rake", FieldUnit::none, "taper at the right rake", &Panels::right_rake),
                   field("pack", FieldUnit::none, "where a pack that gains or loses ends", &Panels::pack),
                   field("pieces", FieldUnit::none, "pieces, lane by lane", &Panels::pieces),
                   field("end_laps", FieldUnit::none, "end laps, lane by lane", &Panels::end_laps),
                   field("marks", FieldUnit::none, "coverage marks along eave and ridge", &Panels::marks),
                   field("findings", FieldUnit::none, "what is wrong where", &Panels::findings));
};

/// Spaces between ribs from lap to lap: 4 of 9 in to a cover of 36 in.
[[nodiscard]] inline std::int64_t rib_spaces(const PanelStock& panel) {
    return static_cast<std::int64_t>(std::llround(panel.cover / panel.rib_spacing));
}

/// Ribs divide the cover into equal spaces, up to 1/16 in in all: a spacing is often printed rounded.
inline void find_faults(const PanelStock& panel, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    require_within(panel.cover, 6.0 * one_inch, 120.0 * one_inch, Path{path, "cover"}, faults);
    require_within(panel.side_lap, no_length, 24.0 * one_inch, Path{path, "side_lap"}, faults);
    require_within(panel.rib_spacing, one_inch, 120.0 * one_inch, Path{path, "rib_spacing"}, faults);
    if (faults.size() != before) {
        return;
    }
    const std::int64_t spaces = rib_spaces(panel);
    const Length off = magnitude(panel.rib_spacing * static_cast<double>(spaces) - panel.cover);
    if (spaces < 1 || off > Length::from_inches(1.0 / 16.0) + count_tolerance) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "rib_spacing"}.text(),
                               describe_length(panel.rib_spacing),
                               "a whole part of the cover of " + describe_length(panel.cover)});
    }
    if (panel.side_lap >= panel.cover) {
        faults.push_back(Fault{FaultCode::does_not_fit, Path{path, "side_lap"}.text(), describe_length(panel.side_lap),
                               "less than the cover of " + describe_length(panel.cover)});
    }
}

inline void find_faults(const PanelPlan& plan, const Path& path, Faults& faults) {
    const Length foot = Length::from_inches(12.0);
    find_faults(plan.panel, Path{path, "panel"}, faults);
    find_faults(plan.eave, Path{path, "eave"}, faults);
    require_within(plan.ridge_hold_back, no_length, 4.0 * foot, Path{path, "ridge_hold_back"}, faults);
    require_within(plan.edge_past_fascia, no_length, foot, Path{path, "edge_past_fascia"}, faults);
    require_within(plan.increment, one_inch / 64.0, 4.0 * foot, Path{path, "increment"}, faults);
    require_within(plan.longest, foot, 400.0 * foot, Path{path, "longest"}, faults);
    require_within(plan.end_lap, no_length, 4.0 * foot, Path{path, "end_lap"}, faults);
    require_within(plan.ridge_play, no_length, 4.0 * foot, Path{path, "ridge_play"}, faults);
    require_within(plan.sliver, no_length, 10.0 * foot, Path{path, "sliver"}, faults);
    require_within(plan.trim_hides, no_length, 4.0 * foot, Path{path, "trim_hides"}, faults);
    require_within(plan.creep, no_length, foot, Path{path, "creep"}, faults);
    require_within(plan.pack_drift, no_length, one_inch, Path{path, "pack_drift"}, faults);
}

}  // namespace eavewright
