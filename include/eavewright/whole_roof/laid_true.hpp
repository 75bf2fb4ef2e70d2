// SPDX-License-Identifier: BSL-1.0
#pragma once

// A slope that was measured and is not square: how it is best laid as it stands. The best way in full, the others by what
// they show.

#include <eavewright/field.hpp>
#include <eavewright/tiling/lay_true.hpp>
#include <eavewright/units/length.hpp>

#include <cstdint>
#include <string_view>
#include <vector>

namespace eavewright {

/// What one way shows, in short.
struct WayCompared {
    GridWay way;
    double tangent;
    Length worst_wedge;
    std::int64_t rows_off;
    std::int64_t slivers;
    std::int64_t edges_shown;
    Length eave_step;
    bool shows_nothing;
};
template <>
struct FieldsOf<WayCompared> {
    static constexpr auto list =
        field_list(field("way", FieldUnit::none, "what the grid is laid to", &WayCompared::way),
                   field("tangent", FieldUnit::ratio, "of the grid's turn", &WayCompared::tangent),
                   field("worst_wedge", FieldUnit::length, "of the four edges", &WayCompared::worst_wedge),
                   field("rows_off", FieldUnit::count, "supports that sheet ends leave", &WayCompared::rows_off),
                   field("slivers", FieldUnit::count, "outer columns narrower than their limit", &WayCompared::slivers),
                   field("edges_shown", FieldUnit::count, "edges not hidden by trim", &WayCompared::edges_shown),
                   field("eave_step", FieldUnit::length, "at the eave from panel to panel", &WayCompared::eave_step),
                   field("shows_nothing", FieldUnit::none, "nothing of it shows", &WayCompared::shows_nothing));
};

/// The choice.
struct LaidTrue {
    LayWay best;
    LayReason reason;
    std::vector<WayCompared> ways;
};
template <>
struct FieldsOf<LaidTrue> {
    static constexpr auto list =
        field_list(field("best", FieldUnit::none, "the way to lay it", &LaidTrue::best),
                   field("reason", FieldUnit::none, "why it is the best", &LaidTrue::reason),
                   field(
                       "why", FieldUnit::none, "the same in words",
                       +[](const LaidTrue& l) -> std::string_view { return describe(l.reason); }),
                   field("ways", FieldUnit::none, "what every way shows", &LaidTrue::ways));
};

/// The choice out of all ways.
[[nodiscard]] inline LaidTrue choose_way(const LayTrue& all) {
    LaidTrue laid{all.ways[all.best], all.reason, {}};
    for (const LayWay& w : all.ways) {
        laid.ways.push_back(
            {w.way, w.tangent, w.worst_wedge, w.rows_off, w.slivers, w.edges_shown, w.eave_step, w.shows_nothing});
    }
    return laid;
}

}  // namespace eavewright
