// SPDX-License-Identifier: BSL-1.0
#pragma once

// What the trim of each edge has to hide when layers are laid along a grid, against what it covers.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/turned_grid.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace eavewright {

/// What the trim over a gable hides of a plane out of square: up to 3 in (readmetalroofing.com, Installing Exposed Fastener
/// Metal Roofs; trade practice).
inline constexpr Length gable_trim_hides = Length::from_inches(3.0);

/// What each trim hides. There is no published figure for eave and ridge: where none is given, only what needs no hiding is
/// called hidden.
struct TrimCover {
    Length rake = gable_trim_hides;
    std::optional<Length> ridge{};  ///< one slope's half of the cap, past the panels' upper ends
    std::optional<Length> eave{};
};
inline void find_faults(const TrimCover& cover, const Path& path, Faults& faults) {
    const Length most = Length::from_feet(4.0);
    require_within(cover.rake, no_length, most, Path{path, "rake"}, faults);
    if (cover.ridge) {
        require_within(*cover.ridge, no_length, most, Path{path, "ridge"}, faults);
    }
    if (cover.eave) {
        require_within(*cover.eave, no_length, most, Path{path, "eave"}, faults);
    }
}

/// Whether an edge shows that the plane is out of square.
enum class EdgeShow {
    hidden,     ///< nothing to hide, or no more than the trim covers
    shows,      ///< more than the trim covers
    not_given,  ///< there is something to hide, and nobody said what the trim covers
};
template <>
struct NamesOf<EdgeShow> {
    static constexpr std::array<std::string_view, 3> list{"hidden", "shows", "not_given"};
};

/// How long panels are ordered.
enum class PanelOrder {
    panel_by_panel,  ///< each for its own place, as `lay_panels` lays them: eave and ridge trim hide a step
    one_length,      ///< all alike, in one straight line: eave and ridge trim hide the whole wedge
};
template <>
struct NamesOf<PanelOrder> {
    static constexpr std::array<std::string_view, 2> list{"panel_by_panel", "one_length"};
};

/// One edge, and its trim.
struct EdgeTrim {
    EdgeWedge wedge;
    Length must_hide;            ///< at a rake the wedge, at eave and ridge the wedge or one panel's step
    std::optional<Length> trim;  ///< what it covers, where given
    EdgeShow show;
};
template <>
struct FieldsOf<EdgeTrim> {
    static constexpr auto list =
        field_list(field("wedge", FieldUnit::none, "the edge and its wedge", &EdgeTrim::wedge),
                   field("must_hide", FieldUnit::length, "what its trim must hide", &EdgeTrim::must_hide),
                   field("trim", FieldUnit::length, "what its trim covers, null where not given", &EdgeTrim::trim),
                   field("show", FieldUnit::none, "whether it shows", &EdgeTrim::show));
};

/// Steps from panel to panel along eave and ridge.
struct EdgeSteps {
    Length eave;
    Length ridge;
};

/// The trim of each edge. `steps` are those of panels cut one by one; none where panels are of one length. Sheets, which are
/// cut along every edge, leave eave and ridge nothing to hide: steps of 0.
/// Throws `FaultError` with the first fault of `cover`.
[[nodiscard]] inline std::vector<EdgeTrim> trim_over(const std::vector<EdgeWedge>& wedges, const TrimCover& cover,
                                                     const std::optional<EdgeSteps>& steps) {
    require_sound(cover, "trim");
    std::vector<EdgeTrim> trims;
    for (const EdgeWedge& wedge : wedges) {
        EdgeTrim trim{wedge, wedge.wedge, cover.rake, EdgeShow::hidden};
        if (wedge.edge == GridEdge::eave || wedge.edge == GridEdge::ridge) {
            const bool eave = wedge.edge == GridEdge::eave;
            trim.trim = eave ? cover.eave : cover.ridge;
            if (steps) {
                trim.must_hide = eave ? steps->eave : steps->ridge;
            }
        }
        if (trim.must_hide > count_tolerance) {
            const bool covered = trim.trim && trim.must_hide <= *trim.trim + count_tolerance;
            trim.show = !trim.trim ? EdgeShow::not_given : covered ? EdgeShow::hidden : EdgeShow::shows;
        }
        trims.push_back(trim);
    }
    return trims;
}

}  // namespace eavewright
