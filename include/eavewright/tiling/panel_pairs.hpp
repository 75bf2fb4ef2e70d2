// SPDX-License-Identifier: BSL-1.0
#pragma once

// Two cut panels out of one bought one: what is asked, and the answer. The search is in pair_panels.hpp, the judge in
// check_panel_pairs.hpp.
//
// A slanted cut across a panel makes two. Moved up or down, not turned, what is cut off a right hip fits a left valley. Turned
// end for end in its plane it keeps its hand, so it fits a right hip again; but its laps change sides. They lie right where the
// other plane is laid from its other side, or where the profile's laps fit either way. Painted or ribbed, a panel is never
// turned over, so the two sides of one hip, mirror images, cannot share a panel; flat sheets that are alike on both faces can.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace eavewright {

/// What the panels allow. The defaults are those of a painted, ribbed panel with an over and an under lap.
struct PairPlan {
    Length clearance = Length::from_inches(0.125);  ///< between the two, square to the cut: what marking and a blade
                                                    ///< take; common practice
    Length least_saved = Length::from_inches(6.0);  ///< what a pair must save to be worth its care; common practice
    bool laps_either_way = false;                   ///< a panel turned end for end still laps its neighbours
    bool two_faced = false;                         ///< flat and alike on both faces: may be turned over as well
};

inline void find_faults(const PairPlan& plan, const Path& path, Faults& faults) {
    require_within(plan.clearance, no_length, Length::from_inches(12.0), Path{path, "clearance"}, faults);
    require_within(plan.least_saved, no_length, Length::from_feet(400.0), Path{path, "least_saved"}, faults);
}

/// Where a panel lies in the bought one, which lies with its lower end towards whoever looks.
struct PairedPanel {
    std::size_t plane;  ///< index into the planes given
    std::size_t piece;  ///< index into its pieces
    bool turned;        ///< end for end from how it lies on the roof, facing up the slope
    bool over;          ///< turned over, top to bottom, before it is turned
    Length at;          ///< its nearer end, up from the bought panel's lower end
};

/// Two panels out of one.
struct PanelPair {
    PairedPanel first;   ///< at the lower end
    PairedPanel second;  ///< at the upper end, beyond the cut
    Length bought;       ///< a whole number of increments
    Length saved;        ///< order lengths of the two, less `bought`
};

/// Why a panel with a slanted cut shares with no other: the nearest that any other came.
enum class NoPair {
    partners_taken,        ///< every panel that it fits shares with another already
    saves_nothing,         ///< what fits would save less than is asked, or nothing
    too_long,              ///< together longer than is made
    laps_do_not_turn,      ///< one of the two would have to be turned, and its laps do not allow it
    would_be_turned_over,  ///< only mirror images are left
    no_such_slope,         ///< nothing else is cut at this slope out of this panel
    bent_cut,              ///< its cut is not one straight line
};
template <>
struct NamesOf<NoPair> {
    static constexpr std::array<std::string_view, 7> list{"partners_taken",   "saves_nothing",        "too_long",
                                                          "laps_do_not_turn", "would_be_turned_over", "no_such_slope",
                                                          "bent_cut"};
};

/// A panel with a slanted cut that shares with no other.
struct UnpairedPanel {
    std::size_t plane;
    std::size_t piece;
    NoPair why;
};

/// How the panels of several planes share, which `find_faults_of_pairs` accepts or rejects on its own.
struct PanelPairs {
    std::vector<PanelPair> pairs;
    std::vector<UnpairedPanel> unpaired;  ///< of those with a slanted cut
    std::int64_t panels_without;          ///< to buy, each by itself
    std::int64_t panels;                  ///< to buy as paired: one less for every pair
    Length bought_without;
    Length bought;
    Length saved;
};

template <>
struct FieldsOf<PairedPanel> {
    static constexpr auto list = field_list(
        field("plane", FieldUnit::count, "index of the plane", &PairedPanel::plane),
        field("piece", FieldUnit::count, "index of the piece", &PairedPanel::piece),
        field("turned", FieldUnit::none, "end for end from how it lies on the roof", &PairedPanel::turned),
        field("over", FieldUnit::none, "turned over, top to bottom", &PairedPanel::over),
        field("at", FieldUnit::length, "its nearer end, up from the bought panel's lower end", &PairedPanel::at));
};
template <>
struct FieldsOf<PanelPair> {
    static constexpr auto list =
        field_list(field("first", FieldUnit::none, "the one at the lower end", &PanelPair::first),
                   field("second", FieldUnit::none, "the one at the upper end", &PanelPair::second),
                   field("bought", FieldUnit::length, "length to buy", &PanelPair::bought),
                   field("saved", FieldUnit::length, "order lengths of the two less that", &PanelPair::saved));
};
template <>
struct FieldsOf<UnpairedPanel> {
    static constexpr auto list =
        field_list(field("plane", FieldUnit::count, "index of the plane", &UnpairedPanel::plane),
                   field("piece", FieldUnit::count, "index of the piece", &UnpairedPanel::piece),
                   field("why", FieldUnit::none, "why it shares with no other", &UnpairedPanel::why));
};
template <>
struct FieldsOf<PanelPairs> {
    static constexpr auto list = field_list(
        field("panels_without", FieldUnit::count, "panels to buy, each by itself", &PanelPairs::panels_without),
        field("panels", FieldUnit::count, "panels to buy as paired", &PanelPairs::panels),
        field("bought_without", FieldUnit::length, "length to buy, each by itself", &PanelPairs::bought_without),
        field("bought", FieldUnit::length, "length to buy as paired", &PanelPairs::bought),
        field("saved", FieldUnit::length, "the difference", &PanelPairs::saved),
        field("pairs", FieldUnit::none, "two panels out of one", &PanelPairs::pairs),
        field("unpaired", FieldUnit::none, "slanted panels that share with no other, and why", &PanelPairs::unpaired));
};

/// Most slanted panels that one call pairs.
inline constexpr std::size_t most_paired_panels = 1'000;

namespace detail {
/// Which side of a panel lies over its neighbour: true for the left, facing up the slope.
[[nodiscard]] inline bool laps_over_left(const CutPanels& panels) {
    return (panels.start == StartCorner::eave_left) == (panels.panel.lap == SideLap::over_previous);
}
/// Whether an end is one straight cut on the slant.
[[nodiscard]] inline bool is_slanted(const PanelEnd& end) { return end.straight && end.cut && end.slope != 0.0; }
}  // namespace detail

/// The outline of a paired panel where it lies in the bought one: along from that one's left edge, laps included, up from its
/// lower end. `piece` must be one of the plane's.
[[nodiscard]] inline std::vector<PlanePoint> outline_in_bought(const CutPanels& plane, const PairedPanel& where) {
    const CutPanel& panel = plane.pieces[where.piece];
    const Length lap = plane.start == StartCorner::eave_left ? no_length : plane.panel.side_lap;
    const Length across = plane.panel.cover + plane.panel.side_lap;
    const Length left = extent_of(panel.part.outline).low.along;
    std::vector<PlanePoint> outline;
    for (const PlanePoint& p : panel.part.outline) {
        // What stays long under a cap is more than the panel needs.
        PlanePoint q{p.along - left + panel.out + lap, shorter(p.up - panel.low, panel.length)};
        q.up = where.over ? panel.length - q.up : q.up;
        q = where.turned ? PlanePoint{across - q.along, panel.length - q.up} : q;
        outline.push_back({q.along, q.up + where.at});
    }
    return outline;
}

}  // namespace eavewright
