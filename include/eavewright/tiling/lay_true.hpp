// SPDX-License-Identifier: BSL-1.0
#pragma once

// When a roof plane will not be pulled true, the same roof is laid so that it does not show: every way to lay its layers on
// the plane as it was measured, what each way shows where, and the one that shows least.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_row.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/grid_rips.hpp>
#include <eavewright/tiling/panel_steps.hpp>
#include <eavewright/tiling/panels.hpp>
#include <eavewright/tiling/row_drift.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/tile_sheets.hpp>
#include <eavewright/tiling/trim_cover.hpp>
#include <eavewright/tiling/turned_grid.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// What lies on the plane, and what may show. At least one of sheets and panels.
struct LayTruePlan {
    std::optional<SheetPlan> sheets{};  ///< their turn is not read
    std::optional<PanelPlan> panels{};  ///< their `trim_hides` is not read: `trim` says
    TrimCover trim{};
    JointRows joint_rows = JointRows::straight;  ///< common practice: a row is snapped
    PanelOrder lengths = PanelOrder::panel_by_panel;
    Length saw_tooth = saw_tooth_limit;  ///< a step at the eave above this is trimmed to a line
};

/// Sheets of one way.
struct SheetsShown {
    GridRips rips;
    std::vector<RowDrift> rows;            ///< one for each support
    std::int64_t rows_off;                 ///< of them, those that need a cleat or another rip
    std::optional<std::size_t> first_off;  ///< the first of those, from the eave (or from the left rake)
};
template <>
struct FieldsOf<SheetsShown> {
    static constexpr auto list = field_list(
        field("rips", FieldUnit::none, "first and last column", &SheetsShown::rips),
        field("rows_off", FieldUnit::count, "supports that need a cleat or another rip", &SheetsShown::rows_off),
        field("first_off", FieldUnit::count, "index of the first of them, null for none", &SheetsShown::first_off),
        field("rows", FieldUnit::none, "joints against supports, support by support", &SheetsShown::rows));
};

/// Panels of one way.
struct PanelsShown {
    GridRips rips;
    PanelSteps steps;
};
template <>
struct FieldsOf<PanelsShown> {
    static constexpr auto list = field_list(field("rips", FieldUnit::none, "first and last panel", &PanelsShown::rips),
                                            field("steps", FieldUnit::none, "lengths and steps", &PanelsShown::steps));
};

/// One way to lay the plane, and what it shows. The line to snap starts at the eave's left corner.
struct LayWay {
    GridWay way;
    double tangent;               ///< of the grid's turn, counter-clockwise seen from outside
    Length above_eave_right;      ///< its line along the grid passes so far up the slope from the eave's right corner
    Length right_at_ridge;        ///< its line across the grid has moved so far to the right at the ridge's height
    std::vector<EdgeTrim> edges;  ///< eave, right rake, ridge, left rake
    Length worst_wedge;           ///< of the four
    std::optional<SheetsShown> sheets;  ///< where there are any
    std::optional<PanelsShown> panels;  ///< where there are any
    std::int64_t rows_off;              ///< supports that sheet ends leave
    std::int64_t slivers;               ///< outer columns narrower than their limit at one end
    std::int64_t edges_shown;           ///< edges not hidden by trim, or not known to be
    Length eave_step;                   ///< from panel to panel, 0 without panels
    bool shows_nothing;                 ///< no row off, no sliver, every edge hidden, no step above the saw-tooth limit
};
template <>
struct FieldsOf<LayWay> {
    static constexpr auto list = field_list(
        field("way", FieldUnit::none, "what the grid is laid to", &LayWay::way),
        field("tangent", FieldUnit::ratio, "of the grid's turn, counter-clockwise from outside", &LayWay::tangent),
        field("above_eave_right", FieldUnit::length,
              "up the slope from the eave's right corner to the line along the grid", &LayWay::above_eave_right),
        field("right_at_ridge", FieldUnit::length, "to the right, of the line across the grid at the ridge's height",
              &LayWay::right_at_ridge),
        field("worst_wedge", FieldUnit::length, "of the four edges", &LayWay::worst_wedge),
        field("rows_off", FieldUnit::count, "supports that sheet ends leave", &LayWay::rows_off),
        field("slivers", FieldUnit::count, "outer columns narrower than their limit", &LayWay::slivers),
        field("edges_shown", FieldUnit::count, "edges not hidden by trim", &LayWay::edges_shown),
        field("eave_step", FieldUnit::length, "at the eave from panel to panel", &LayWay::eave_step),
        field("shows_nothing", FieldUnit::none, "nothing of it shows", &LayWay::shows_nothing),
        field("edges", FieldUnit::none, "eave, right rake, ridge, left rake", &LayWay::edges),
        field("sheets", FieldUnit::none, "what sheets show, null without", &LayWay::sheets),
        field("panels", FieldUnit::none, "what panels show, null without", &LayWay::panels));
};

/// Why the best way is the best: the first figure in which it beats the best of those that are laid another way. This is
/// also the order in which figures count.
enum class LayReason {
    edges_stay_on_supports,  ///< fewer supports that sheet ends leave
    no_sliver,               ///< fewer outer columns too narrow
    hidden_under_trim,       ///< fewer edges that show
    least_eave_step,         ///< a smaller step at the eave
    least_wedge,             ///< a smaller worst wedge
    nothing_to_choose,       ///< no difference: the plane is square, or it comes to the same
};
template <>
struct NamesOf<LayReason> {
    static constexpr std::array<std::string_view, 6> list{"edges_stay_on_supports", "no_sliver",   "hidden_under_trim",
                                                          "least_eave_step",        "least_wedge", "nothing_to_choose"};
};

/// All ways, in the order of `GridWay`, and the one to lay.
struct LayTrue {
    std::vector<LayWay> ways;
    std::size_t best;  ///< index of the first way that no other beats
    LayReason reason;
};
template <>
struct FieldsOf<LayTrue> {
    static constexpr auto list =
        field_list(field("best", FieldUnit::count, "index of the way to lay", &LayTrue::best),
                   field("reason", FieldUnit::none, "the figure that decided", &LayTrue::reason),
                   field("ways", FieldUnit::none, "every way and what it shows", &LayTrue::ways));
};

/// The reason as a person reads it.
[[nodiscard]] constexpr std::string_view describe(LayReason reason) noexcept {
    switch (reason) {
        case LayReason::edges_stay_on_supports: return "fewest rows of sheet ends leave what they lie on";
        case LayReason::no_sliver: return "it leaves the fewest slivers at the sides";
        case LayReason::hidden_under_trim: return "trim hides what is out of square at the most edges";
        case LayReason::least_eave_step: return "the step at the eave from panel to panel is smallest";
        case LayReason::least_wedge: return "its worst wedge is the smallest";
        default: return "all ways come to the same";
    }
}

inline void find_faults(const LayTruePlan& plan, const Path& path, Faults& faults) {
    if (!plan.sheets && !plan.panels) {
        faults.push_back(
            Fault{FaultCode::missing_field, Path{path, "sheets"}.text(), "neither sheets nor panels", "one of them"});
    }
    if (plan.sheets) {
        find_faults(*plan.sheets, Path{path, "sheets"}, faults);
    }
    if (plan.panels) {
        find_faults(*plan.panels, Path{path, "panels"}, faults);
    }
    find_faults(plan.trim, Path{path, "trim"}, faults);
    require_within(plan.saw_tooth, no_length, Length::from_inches(12.0), Path{path, "saw_tooth"}, faults);
    detail::require_named(plan.joint_rows, Path{path, "joint_rows"}, faults);
    detail::require_named(plan.lengths, Path{path, "lengths"}, faults);
}

namespace detail {
/// Which of the figures, in their order, is the first to tell two ways apart; below 0 in `sign` where `a` is better.
struct WayContrast {
    LayReason figure;
    int sign;
};
[[nodiscard]] inline WayContrast contrast(const LayWay& a, const LayWay& b) {
    const auto of_counts = [](std::int64_t x, std::int64_t y) { return x < y ? -1 : x > y ? 1 : 0; };
    const auto of_lengths = [](Length x, Length y) { return magnitude(x - y) <= lean_rounding ? 0 : x < y ? -1 : 1; };
    const std::array<WayContrast, 5> figures{
        WayContrast{LayReason::edges_stay_on_supports, of_counts(a.rows_off, b.rows_off)},
        WayContrast{LayReason::no_sliver, of_counts(a.slivers, b.slivers)},
        WayContrast{LayReason::hidden_under_trim, of_counts(a.edges_shown, b.edges_shown)},
        WayContrast{LayReason::least_eave_step, of_lengths(a.eave_step, b.eave_step)},
        WayContrast{LayReason::least_wedge, of_lengths(a.worst_wedge, b.worst_wedge)}};
    for (const WayContrast& figure : figures) {
        if (figure.sign != 0) {
            return figure;
        }
    }
    return {LayReason::nothing_to_choose, 0};
}

template <Surface surface>
[[nodiscard]] SheetsShown sheets_shown(const Plane<surface>& plane, const Supports<surface>& supports,
                                       const LayTruePlan& plan, double tangent) {
    const GridTurn turn = grid_turn(tangent);
    std::vector<PlanePoint> outline = sheet_outline(plane.outline, plane.edges, plan.sheets->past_fascia);
    for (PlanePoint& p : outline) {
        p = turned(p, plane.outline[0], turn);
    }
    SheetsShown shown{sheet_rips(outline, *plan.sheets, supports.run == SupportRun::up_slope),
                      row_drifts(plane, supports, *plan.sheets, plan.joint_rows, tangent), 0, std::nullopt};
    for (const RowDrift& row : shown.rows) {
        if (leaves_support(row)) {
            ++shown.rows_off;
            shown.first_off = shown.first_off.value_or(row.support);
        }
    }
    return shown;
}

/// What trim hides along eave and ridge: nothing of sheets alone, a step of panels, the wedge of panels of one length.
[[nodiscard]] inline std::optional<EdgeSteps> edge_steps(const LayTruePlan& plan, const LayWay& way) {
    if (!way.panels) {
        return EdgeSteps{no_length, no_length};
    }
    if (plan.lengths == PanelOrder::one_length) {
        return std::nullopt;
    }
    return EdgeSteps{way.panels->steps.step_eave, way.panels->steps.step_ridge};
}

template <Surface surface>
[[nodiscard]] LayWay lay_way(const Plane<surface>& plane, const Supports<surface>& supports, const LayTruePlan& plan,
                             GridWay chosen) {
    const double tangent = turn_of(plane, chosen);
    const std::vector<PlanePoint>& o = plane.outline;
    LayWay way{chosen,
               tangent,
               (o[1].along - o[0].along) * tangent,
               no_length - (o[3].up - o[0].up) * tangent,
               {},
               no_length,
               std::nullopt,
               std::nullopt,
               0,
               0,
               0,
               no_length,
               false};
    if (plan.sheets) {
        way.sheets = sheets_shown(plane, supports, plan, tangent);
        way.rows_off = way.sheets->rows_off;
        way.slivers += way.sheets->rips.slivers;
    }
    if (plan.panels) {
        way.panels = PanelsShown{panel_rips(turned(plane, tangent).outline, *plan.panels),
                                 panel_steps(plane, *plan.panels, tangent, plan.saw_tooth)};
        way.eave_step = way.panels->steps.step_eave;
        way.slivers += way.panels->rips.slivers;
    }
    way.edges = trim_over(edge_wedges(plane, tangent), plan.trim, edge_steps(plan, way));
    for (const EdgeTrim& edge : way.edges) {
        way.worst_wedge = longer(way.worst_wedge, edge.wedge.wedge);
        way.edges_shown += edge.show == EdgeShow::hidden ? 0 : 1;
    }
    way.shows_nothing = way.rows_off == 0 && way.slivers == 0 && way.edges_shown == 0 &&
                        way.eave_step <= plan.saw_tooth + count_tolerance;
    return way;
}
}  // namespace detail

/// Every way to lay a plane as it was measured, what each shows, and the best by this order: fewest supports that sheet ends
/// leave, fewest slivers, fewest edges that trim does not hide, least step at the eave, least worst wedge; of equals the
/// first. The plane has four corners, its eave on up = 0, as `measured_plane` makes it of what squaring found.
///
/// A grid laid with a turn is what `tile_sheets` lays with `SheetPlan::turn` set to the way's tangent, its rows stepped; with
/// straight rows, or for panels, lay the plane that `turned` gives.
///
/// Throws `FaultError`: the first fault of `plan` or `supports`; not_supported for a plane of another outline, with openings,
/// without rakes left and right, or with an edge more than 1 in 10 out of square, and for panels on supports up the slope;
/// does_not_fit where the hold-back leaves no panel; too_much_work above the limits of laying.
template <Surface surface>
[[nodiscard]] LayTrue ways_to_lay(const Plane<surface>& plane, const Supports<surface>& supports,
                                  const LayTruePlan& plan) {
    require_sound(plan, "lay_true");
    require_sound(supports, "supports");
    detail::require_nearly_square(plane);
    if (plan.panels && supports.run != SupportRun::along_eave) {
        throw FaultError{Fault{FaultCode::not_supported, "supports.run", std::string{name_of(supports.run)},
                               "supports that run along the eave, across the ribs"}};
    }
    LayTrue result{{}, 0, LayReason::nothing_to_choose};
    for (std::size_t i = 0; i < NamesOf<GridWay>::list.size(); ++i) {
        result.ways.push_back(detail::lay_way(plane, supports, plan, static_cast<GridWay>(i)));
        if (detail::contrast(result.ways[i], result.ways[result.best]).sign < 0) {
            result.best = i;
        }
    }
    std::optional<std::size_t> rival;
    for (std::size_t i = 0; i < result.ways.size(); ++i) {
        const bool another = detail::contrast(result.ways[result.best], result.ways[i]).sign < 0;
        if (another && (!rival || detail::contrast(result.ways[i], result.ways[*rival]).sign < 0)) {
            rival = i;
        }
    }
    if (rival) {
        result.reason = detail::contrast(result.ways[result.best], result.ways[*rival]).figure;
    }
    return result;
}

/// The same on purlin rows.
[[nodiscard]] inline LayTrue ways_to_lay(const PurlinPlane& plane, const PurlinRows& rows, const LayTruePlan& plan) {
    return ways_to_lay(plane, supports_of(rows), plan);
}

}  // namespace eavewright
