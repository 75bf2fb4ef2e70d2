// SPDX-License-Identifier: BSL-1.0
#pragma once

// Steps of the site sheet from the finished deck, or the bare purlins, to the cap.

#include <eavewright/tiling/panels.hpp>
#include <eavewright/tiling/trim.hpp>
#include <eavewright/tiling/underlayment.hpp>
#include <eavewright/whole_roof/site_frame_steps.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// What the six readings should be: as they were given, or nominal.
[[nodiscard]] inline std::vector<SiteFigure> surface_figures(const SlopeResult& slope, const std::string& top) {
    if (const std::optional<Trueness>& known = slope.deck ? slope.deck : slope.trueness; known) {
        const FourSides& s = known->measured.adjusted;
        return {{"eave", s.eave},
                {top, s.ridge},
                {"left rake", s.left},
                {"right rake", s.right},
                {"diagonal from the left eave corner", s.up_right},
                {"from the right", s.up_left}};
    }
    return {{"eave and " + top, slope.plane_length}, {"rakes", slope.slope_length}, {"diagonals", slope.diagonal}};
}

/// Lengths to order, panels of one length together as they follow one another.
inline void add_order_lengths(const Panels& panels, SiteStep& step) {
    std::int32_t places = 0;
    for (const PanelPiece& piece : panels.pieces) {
        places = piece.place >= places ? piece.place + 1 : places;
    }
    for (std::int32_t place = 0; place < places; ++place) {
        const PanelPiece* first = nullptr;
        const PanelPiece* last = nullptr;
        const auto close = [&] {
            if (first != nullptr) {
                step.marks.push_back(
                    {first == last ? panel_name(*first) : panel_name(*first) + " to " + panel_name(*last),
                     {first->order_length}});
            }
        };
        for (const PanelPiece& piece : panels.pieces) {
            if (piece.place != place) {
                continue;
            }
            if (first == nullptr || magnitude(piece.order_length - first->order_length) > count_tolerance) {
                close();
                first = &piece;
            }
            last = &piece;
        }
        close();
    }
    step.marks_from = "Panels to order, from the first one laid.";
    step.mark_columns = {"length"};
}

/// Whether a deck lies under all of the steel, and underlayment on it; one at the overhangs alone leaves the purlins bare.
[[nodiscard]] inline bool is_decked_over(const SiteInput& in) { return in.roof.deck && !in.roof.deck->overhangs_only; }

[[nodiscard]] inline SiteStep before_cover_step(const SiteInput& in) {
    const bool deck = is_decked_over(in);
    const bool steel = in.slope.steel.has_value();
    const std::string title = std::string{deck ? "Sheathed: " : "Purlin tops: "} +
                              (steel ? "read again, then order steel" : "read the diagonals again");
    std::string if_off = "Do not force it: a rake's trim hides a taper, up to its width.";
    if (steel) {
        if_off = deck ? "Give the six as the measured deck and lay out again: lengths and marks follow."
                      : "Give the six as measured sides and lay out again: lengths and marks follow.";
    }
    SiteStep step =
        with_limit(step_of(SiteStepKind::before_cover, title,
                           std::string{"Eave, "} + in.top() + ", both rakes, both diagonals, on the " +
                               (deck ? "deck" : in.surface()) +
                               (in.slope.deck ? ". Expected is what was given; the limit is for a reading against it."
                                              : ". The limit is for the difference of the diagonals."),
                           surface_figures(in.slope, in.top()), std::move(if_off)),
                   in.roof.squaring.tolerance.diagonal_difference, described);
    if (steel) {
        add_order_lengths(in.slope.steel->panels, step);
    }
    return step;
}

[[nodiscard]] inline std::vector<TrimRun> trim_of(const SteelResult& steel, EdgeKind kind) {
    std::vector<TrimRun> runs;
    for (const TrimRun& run : steel.trim) {
        if (run.kind == kind) {
            runs.push_back(run);
        }
    }
    return runs;
}

/// Run and last piece of trim; a second rake of the same length is not said twice.
inline void add_trim_figures(const std::vector<TrimRun>& runs, Length lap, std::vector<SiteFigure>& to) {
    const bool alike = runs.size() < 2 || magnitude(runs[0].run - runs[1].run) <= count_tolerance;
    for (std::size_t i = 0; i < (alike ? 1 : runs.size()); ++i) {
        const std::string which = alike ? "" : (runs[i].edge == 1 ? "right " : "left ");
        to.push_back({which + "run", runs[i].run});
        to.push_back({which + "last piece", runs[i].last_piece});
    }
    to.push_back({"lap", lap});
}
[[nodiscard]] inline std::string pieces_of(const TrimRun& run) {
    return std::to_string(run.pieces) + (run.pieces == 1 ? " piece" : " pieces");
}

[[nodiscard]] inline std::optional<SiteStep> eave_trim_step(const SiteInput& in) {
    const std::vector<TrimRun> runs = trim_of(*in.slope.steel, EdgeKind::eave);
    if (runs.empty()) {
        return std::nullopt;
    }
    const bool deck = is_decked_over(in);
    SiteStep step = step_of(
        SiteStepKind::eave_trim, deck ? "Eave trim, under the underlayment" : "Eave trim, before the panels",
        pieces_of(runs[0]) + " to a string along the fascia, laps away from the wind." +
            (in.roof.deck ? " Stop board off first." : "") + (deck ? " The underlayment comes down over it." : ""),
        {}, "Set it to the string, not to the fascia; shim behind it.");
    add_trim_figures(runs, in.roof.steel->edges.eave->lap, step.expected);
    return with_limit(std::move(step), in.limits.trim, common_practice);
}

/// Courses with their marks where the roof has some laid out; a deck is dried in all the same.
[[nodiscard]] inline SiteStep underlayment_step(const SiteInput& in) {
    SiteStep step = step_of(SiteStepKind::underlayment, "Underlayment courses",
                            "From the eave up, each course over the one below, end laps off one another, on lines "
                            "snapped level with the eave.",
                            {}, "Lift a wrinkled or wandering course and lay it again: steel does not hide it.");
    if (!in.slope.underlayment) {
        return step;
    }
    const Underlayment& laid = *in.slope.underlayment;
    step.expected = {{"exposure", laid.laps.exposure},
                     {"head lap", laid.laps.head_lap},
                     {"end lap", laid.laps.end_lap},
                     {"end laps apart", laid.laps.end_offset}};
    bool alike = true;
    for (const CourseMark& mark : laid.marks) {
        alike = alike && mark.left == mark.right;
    }
    step.mark_columns =
        alike ? std::vector<std::string>{"both rakes"} : std::vector<std::string>{"left rake", "right rake"};
    for (const CourseMark& mark : laid.marks) {
        SiteMark at{std::to_string(mark.course + 1), {mark.left}};
        if (!alike) {
            at.at.emplace_back(mark.right);
        }
        step.marks.push_back(std::move(at));
    }
    step.marks_from = "Lower edges up the rakes, from the eave's corners.";
    return step;
}

[[nodiscard]] inline std::optional<SiteStep> rake_trim_step(const SiteInput& in) {
    const SteelResult& steel = *in.slope.steel;
    const std::vector<TrimRun> runs = trim_of(steel, EdgeKind::rake);
    if (runs.empty()) {
        return std::nullopt;
    }
    SiteStep step =
        step_of(SiteStepKind::rake_trim, is_decked_over(in) ? "Rake trim, over the underlayment" : "Rake trim",
                pieces_of(runs[0]) + " a rake, to a string, from the eave up: the upper piece over the lower.", {},
                "A taper stays under the trim; more than it hides: lay out again.");
    add_trim_figures(runs, in.roof.steel->edges.rake->lap, step.expected);
    bool tapers = false;
    const auto add_taper = [&](const RakeTaper& rake, const char* label) {
        if (rake.hidden > count_tolerance) {
            step.expected.push_back({label, rake.hidden});
            tapers = true;
        }
    };
    add_taper(steel.panels.left_rake, "taper at the left rake");
    add_taper(steel.panels.right_rake, "taper at the right rake");
    return tapers ? with_limit(std::move(step), in.roof.steel->panels.trim_hides, "of a taper, from the description")
                  : with_limit(std::move(step), in.limits.trim, common_practice);
}

/// Lines over the purlins where the deck hides them, and the same rows on a panel.
inline void add_screw_lines(const SteelResult& steel, SiteStep& step) {
    bool alike = true;
    Length margin = steel.lines.lines.front().least_margin;
    for (const ScrewLine& line : steel.lines.lines) {
        alike = alike && line.left_mark == line.right_mark;
        margin = shorter(margin, line.least_margin);
    }
    step.expected.push_back({"least margin to a purlin's side", margin});
    step.mark_columns =
        alike ? std::vector<std::string>{"both rakes"} : std::vector<std::string>{"left rake", "right rake"};
    step.mark_columns.emplace_back("on a panel");
    for (const ScrewLine& line : steel.lines.lines) {
        SiteMark mark{line.row == 0 ? "fascia" : std::to_string(line.row), {line.left_mark}};
        if (!alike) {
            mark.at.emplace_back(line.right_mark);
        }
        std::optional<Length> drilled;
        for (const DrillMark& hole : steel.drill_marks) {
            if (hole.row == line.row && hole.holds) {
                drilled = hole.mark;
            }
        }
        mark.at.push_back(drilled);
        step.marks.push_back(std::move(mark));
    }
    step.marks_from =
        "Rakes: up from the fascia's outer face, on the deck. On a panel: from its lower end, to drill a stack.";
}

[[nodiscard]] inline std::optional<SiteStep> lines_step(const SiteInput& in) {
    const SteelResult& steel = *in.slope.steel;
    const bool lines = steel.surface == Surface::deck_top && !steel.lines.lines.empty();
    if (!lines && !steel.closures) {
        return std::nullopt;
    }
    std::string reading;
    if (steel.closures) {
        reading =
            std::to_string(steel.closures->eave_strips) + " closure strips along the eave, sealed as their maker asks.";
    }
    if (lines) {
        reading += std::string{reading.empty() ? "" : " "} + "Mark the purlin lines at both rakes, snap them.";
    }
    SiteStep step =
        step_of(SiteStepKind::closures_and_lines,
                !lines            ? "Eave closures"
                : !steel.closures ? "Purlin lines"
                                  : "Eave closures, purlin lines",
                std::move(reading), {},
                lines ? "A test screw finds no purlin: read that row from below, snap it anew, fill the hole."
                      : "A gap under a rib: shift the strip before the panel covers it.");
    if (lines) {
        add_screw_lines(steel, step);
        step = with_limit(std::move(step), in.limits.marks, common_practice);
    }
    return step;
}

[[nodiscard]] inline std::string begun_at(const Panels& panels) {
    return panels.start == StartCorner::eave_left ? "left" : "right";
}

[[nodiscard]] inline SiteStep first_panel_step(const SiteInput& in) {
    const Panels& panels = in.slope.steel->panels;
    const PanelPiece& first = panels.pieces.front();
    std::vector<SiteFigure> expected{{"mark 1 at the eave", panels.marks.front().eave},
                                     {"at the " + in.top(), panels.marks.front().ridge},
                                     {"lower end past the eave's edge", panels.overhang},
                                     {"length", first.order_length}};
    if (first.ripped) {
        expected.push_back({"rip it to", first.width});
    }
    return with_limit(
        step_of(SiteStepKind::first_panel, "First panel square to the eave",
                "At the " + begun_at(panels) + " rake: the far edge of its cover on mark 1, at eave and " + in.top() +
                    ", tape from the corners at that rake.",
                std::move(expected), "Turn it about its lower corner until both marks fit. Never follow the rake."),
        in.roof.steel->panels.creep, described);
}

[[nodiscard]] inline std::optional<SiteStep> panel_marks_step(const SiteInput& in) {
    const Panels& panels = in.slope.steel->panels;
    const std::int32_t every = in.limits.panels_between;
    if (panels.lanes <= every) {
        return std::nullopt;
    }
    SiteStep step = step_of(SiteStepKind::panel_marks, "Ribs on the mark every " + std::to_string(every) + " panels",
                            "The far rib of these panels at eave and " + in.top() +
                                ", tape always from the corners at the " + begun_at(panels) + " rake.",
                            {}, "Draw or spread the next panels a little each, never one by all of it.");
    bool alike = true;
    for (const PanelMark& mark : panels.marks) {
        alike = alike && mark.eave == mark.ridge;
    }
    step.mark_columns =
        alike ? std::vector<std::string>{"eave, " + in.top()} : std::vector<std::string>{"eave", in.top()};
    step.mark_columns.emplace_back(alike ? "least" : "eave, least");
    step.mark_columns.emplace_back(alike ? "most" : "eave, most");
    for (const PanelMark& mark : panels.marks) {
        if ((mark.lane + 1) % every == 0 && mark.lane + 1 < panels.lanes) {
            std::vector<std::optional<Length>> at{mark.eave};
            if (!alike) {
                at.emplace_back(mark.ridge);
            }
            at.emplace_back(mark.least);
            at.emplace_back(mark.most);
            step.marks.push_back({std::to_string(mark.lane + 1), std::move(at)});
        }
    }
    step.marks_from = "Panels, from the corners at the " + begun_at(panels) + " rake.";
    return with_limit(std::move(step), in.roof.steel->panels.creep, described);
}

[[nodiscard]] inline std::optional<SiteStep> last_panel_step(const SiteInput& in) {
    const Panels& panels = in.slope.steel->panels;
    if (panels.lanes < 2) {
        return std::nullopt;
    }
    const PanelPiece& last = panels.pieces.back();
    std::vector<SiteFigure> expected{{"cover left", panels.last_cover}};
    if (last.ripped) {
        expected.push_back({"rip it to", last.width});
    }
    expected.push_back({"if every panel gains", panels.pack.last_cover_gained});
    expected.push_back({"if every one loses", panels.pack.last_cover_lost});
    return with_limit(
        step_of(SiteStepKind::last_panel,
                last.ripped ? "Last panel: read what is left, then rip" : "Last panel: read what is left",
                "From the last rib to the " + std::string{panels.start == StartCorner::eave_left ? "right" : "left"} +
                    " rake's edge, at eave and " + in.top() + ".",
                std::move(expected),
                last.ripped ? "Rip to what is read, with what lies under the lap. Eave and " + in.top() +
                                  " differ: trim hides it."
                            : "A little over: the rake trim hides it. Short by more: one more panel, ripped."),
        in.roof.steel->panels.creep, described);
}

/// The cap over the ridge stands on the first slope and serves both.
[[nodiscard]] inline std::optional<SiteStep> top_trim_step(const SiteInput& in) {
    const EdgePlan& edges = in.roof.steel->edges;
    const std::optional<SteelResult>& owner = in.is_gable() ? in.result.slopes[0].steel : in.slope.steel;
    const std::optional<TrimStock>& stock = in.is_gable() ? edges.ridge : edges.high_eave;
    if (!owner || !stock) {
        return std::nullopt;
    }
    const std::vector<TrimRun> runs = trim_of(*owner, in.is_gable() ? EdgeKind::ridge : EdgeKind::high_eave);
    if (runs.empty()) {
        return std::nullopt;
    }
    SiteStep step = step_of(SiteStepKind::top_trim, in.is_gable() ? "Ridge cap" : "High-edge trim",
                            pieces_of(runs[0]) + ", to a line snapped on the panels, laps away from the wind." +
                                (in.is_gable() ? " One cap, once both slopes are on." : "") +
                                (in.slope.steel->closures ? " Closures under it." : ""),
                            {{"panels below the " + in.top(), in.roof.steel->panels.ridge_hold_back}},
                            "Too high: cut the panels back. Too low: see that cap and closures cover them.");
    add_trim_figures(runs, stock->lap, step.expected);
    return with_limit(std::move(step), in.roof.steel->panels.ridge_play, described);
}

}  // namespace eavewright::detail
