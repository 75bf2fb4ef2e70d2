// SPDX-License-Identifier: BSL-1.0
#pragma once

// Findings of panels and screws in words and shapes, and what a result of steel must hold to be drawn.

#include <eavewright/drawing/finding_marks.hpp>
#include <eavewright/drawing/heads.hpp>
#include <eavewright/drawing/strip_edges.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace eavewright::detail {

/// How grave a finding of steel is, and its shape.
struct NoteLook {
    int rank;
    MarkShape shape;
};

[[nodiscard]] inline NoteLook look_of(PanelFindingCode code) {
    switch (code) {
        case PanelFindingCode::end_lap_off_support: return {1, MarkShape::solid_square};
        case PanelFindingCode::taper_past_trim: return {4, MarkShape::hexagon};
        case PanelFindingCode::no_increment_fits: return {5, MarkShape::triangle_down};
        case PanelFindingCode::pack_runs_short: return {6, MarkShape::house};
        case PanelFindingCode::within_lap: return {8, MarkShape::disc};
        case PanelFindingCode::sliver_cover: return {9, MarkShape::diamond};
        case PanelFindingCode::sliver_length: break;
    }
    return {10, MarkShape::triangle};
}

[[nodiscard]] inline NoteLook look_of(ScrewFindingCode code) {
    switch (code) {
        case ScrewFindingCode::misses_purlin: return {0, MarkShape::solid_disc};
        case ScrewFindingCode::row_past_panel: return {2, MarkShape::solid_diamond};
        case ScrewFindingCode::narrow_margin: break;
    }
    return {7, MarkShape::square};
}

[[nodiscard]] inline std::string finding_figures(const PanelFinding& finding, const Page& page) {
    const std::string measured = measured_against(finding.measured, finding.limit, page);
    const std::string limit = page.figure(finding.limit);
    switch (finding.code) {
        case PanelFindingCode::sliver_cover: return "covers " + measured + ", limit " + limit;
        case PanelFindingCode::within_lap: return "covers " + measured + ", a side lap is " + limit;
        case PanelFindingCode::no_increment_fits: return "ordered in steps of " + measured + ", the window is " + limit;
        case PanelFindingCode::taper_past_trim: return "out of square by " + measured + ", trim hides " + limit;
        case PanelFindingCode::end_lap_off_support: return "past its support by " + measured;
        case PanelFindingCode::sliver_length: return measured + " long, limit " + limit;
        case PanelFindingCode::pack_runs_short: break;
    }
    return "a pack at its shortest lacks " + measured;
}

/// In the words of whoever sets the screws, `of_line` for a line to snap.
[[nodiscard]] inline std::string finding_figures(const ScrewFinding& finding, bool of_line, const Page& page) {
    const std::string measured = measured_against(finding.measured, finding.limit, page);
    if (finding.code == ScrewFindingCode::row_past_panel) {
        return (of_line ? "no line, margin at the rake " : "no screw, margin ") + measured;
    }
    return "margin of the line " + measured + ", needs " + page.figure(finding.limit);
}

inline void add_screw_notes(const SlopeResult& slope, const std::vector<ScrewFinding>& findings, bool of_line,
                            const Page& page, std::vector<FindingNote>& notes) {
    for (const ScrewFinding& finding : findings) {
        const NoteLook look = look_of(finding.code);
        notes.push_back({.rank = look.rank,
                         .shape = look.shape,
                         .kind = in_words(name_of(finding.code)),
                         .figures = finding_figures(finding, of_line, page),
                         .piece = finding.row,
                         .name = "row " + row_name(slope, finding.row),
                         .place = finding.place});
    }
}

/// Findings of panels, of screws, and of lines to snap.
[[nodiscard]] inline std::vector<FindingNote> notes_of(const SlopeResult& slope, const SteelResult& steel,
                                                       const Page& page) {
    std::vector<FindingNote> notes;
    for (const PanelFinding& finding : steel.panels.findings) {
        const NoteLook look = look_of(finding.code);
        notes.push_back({.rank = look.rank,
                         .shape = look.shape,
                         .kind = in_words(name_of(finding.code)),
                         .figures = finding_figures(finding, page),
                         .piece = finding.piece,
                         .name = "panel " + panel_name(steel.panels.pieces[finding.piece]),
                         .place = finding.place});
    }
    add_screw_notes(slope, steel.screws.findings, false, page, notes);
    add_screw_notes(slope, steel.lines.findings, true, page, notes);
    return notes;
}

/// Refuses what `count` indexes would reach past.
inline void require_below(std::size_t index, std::size_t size, const char* what) {
    if (index >= size) {
        refuse_drawing(FaultCode::contradiction, std::string{"slope.steel."} + what, "indexes into the same result");
    }
}

/// A result made by hand can hold anything; one made by the library passes.
inline void require_drawable_steel(const SteelResult& steel) {
    require_outline(steel.outline, "slope.steel.outline");
    const std::size_t pieces = steel.panels.pieces.size();
    const std::size_t rows = steel.supports.size();
    for (const PanelPiece& piece : steel.panels.pieces) {
        if (piece.outline.size() != 4 || !all_usable(piece.outline)) {
            refuse_drawing(FaultCode::not_finite, "slope.steel.panels.pieces", "four finite corners each");
        }
    }
    for (const SupportLine& support : steel.supports) {
        if (support.centreline.size() < 2 || !all_usable(support.centreline)) {
            refuse_drawing(FaultCode::not_finite, "slope.steel.supports", "two finite points or more each");
        }
    }
    for (const PanelEndLap& lap : steel.panels.end_laps) {
        require_below(lap.lower, pieces, "panels.end_laps");
        require_below(lap.upper, pieces, "panels.end_laps");
    }
    for (const PanelFinding& finding : steel.panels.findings) {
        require_below(finding.piece, pieces, "panels.findings");
    }
    for (const ScrewLine& line : steel.lines.lines) {
        require_below(line.row, rows, "lines.lines");
        require_below(1, steel.lines.panel_edges.size(), "lines.panel_edges");
    }
    for (const DrillMark& mark : steel.drill_marks) {
        require_below(mark.row, rows, "drill_marks");
    }
    if (steel.screws.by_row.size() != rows) {
        refuse_drawing(FaultCode::contradiction, "slope.steel.screws.by_row", "a count for each support");
    }
}

}  // namespace eavewright::detail
