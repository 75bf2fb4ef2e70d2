// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is listed under a drawing of steel: lengths to order, rips, lines and drill marks, tapers, trim, screws.

#include <eavewright/drawing/number_table.hpp>
#include <eavewright/drawing/panel_strips.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright::detail {

/// Names that follow one another are drawn together: `1 to 20`.
[[nodiscard]] inline std::string joined_names(const std::vector<const PanelPiece*>& pieces) {
    std::string text;
    for (std::size_t i = 0; i < pieces.size();) {
        std::size_t end = i + 1;
        while (end < pieces.size() && pieces[end]->lane == pieces[end - 1]->lane + 1 &&
               pieces[end]->place == pieces[i]->place) {
            ++end;
        }
        text += (text.empty() ? "" : ", ") + panel_name(*pieces[i]);
        if (end - i > 1) {
            text += (end - i > 2 ? " to " : ", ") + panel_name(*pieces[end - 1]);
        }
        i = end;
    }
    return text;
}

/// Pieces under what is written of them, in the order that they are met.
struct PieceGroups {
    std::vector<std::string> words;
    std::map<std::string, std::vector<const PanelPiece*>> pieces;

    void add(const std::string& key, const PanelPiece& piece) {
        if (pieces.find(key) == pieces.end()) {
            words.push_back(key);
        }
        pieces[key].push_back(&piece);
    }
    /// Place by place from the eave, so that neighbours are named together.
    [[nodiscard]] std::vector<const PanelPiece*> sorted(const std::string& key) const {
        std::vector<const PanelPiece*> found = pieces.at(key);
        std::stable_sort(found.begin(), found.end(),
                         [](const PanelPiece* a, const PanelPiece* b) { return a->place < b->place; });
        return found;
    }
};

inline void list_lengths(Page& page, const Panels& panels) {
    page.heading("Panels to order: " + std::to_string(panels.pieces.size()) + " in " + std::to_string(panels.lanes) +
                 " lanes");
    page.paragraph("Count x length, all of full width.", 10.0);
    PieceGroups lengths{};
    for (const PanelPiece& piece : panels.pieces) {
        lengths.add(page.figure(piece.order_length), piece);
    }
    for (const std::string& length : lengths.words) {
        const std::vector<const PanelPiece*> pieces = lengths.sorted(length);
        page.y += 3.0;
        page.paragraph(std::to_string(pieces.size()) + " x " + length, 11.0, true);
        page.paragraph(joined_names(pieces), 10.0, false, 12.0);
    }
}

/// Panels that are ripped, and upper ends that are cut.
inline void list_cuts(Page& page, const Panels& panels) {
    PieceGroups rips{};
    PieceGroups cuts{};
    for (const PanelPiece& piece : panels.pieces) {
        if (piece.ripped) {
            rips.add("rip to " + page.figure(piece.width) + " wide, covers " + page.figure(piece.cover), piece);
        }
        if (piece.cut) {
            cuts.add("cut the upper end to " + page.figure(piece.left_length) + " at the left, " +
                         page.figure(piece.right_length) + " at the right",
                     piece);
        }
    }
    if (rips.words.empty() && cuts.words.empty()) {
        return;
    }
    page.heading("Cut on site");
    for (const PieceGroups* groups : {&rips, &cuts}) {
        for (const std::string& words : groups->words) {
            page.paragraph(joined_names(groups->sorted(words)) + ": " + words, 10.0);
        }
    }
}

inline void list_end_laps(Page& page, const SlopeResult& slope, const Panels& panels) {
    if (panels.end_laps.empty()) {
        return;
    }
    page.heading("End laps: " + std::to_string(panels.end_laps.size()));
    PieceGroups laps{};
    for (const PanelEndLap& lap : panels.end_laps) {
        laps.add("on row " + row_name(slope, lap.support) + ", from " + page.figure(lap.from) + " to " +
                     page.figure(lap.to) + " up the slope",
                 panels.pieces[lap.upper]);
    }
    for (const std::string& words : laps.words) {
        page.paragraph(joined_names(laps.sorted(words)) + ": " + words, 10.0);
    }
}

/// Marks along eave and ridge with the creep allowed.
inline void list_cover_marks(Page& page, const Panels& panels) {
    page.heading("Where panels end");
    page.paragraph(std::string{"On one tape from the "} + (starts_right(panels) ? "right" : "left") +
                       " corner, along the eave and along the ridge; at the eave no less and no more than:",
                   10.0);
    NumberTable table{{"Panel", "Eave", "Ridge", "Least", "Most"}, {}};
    for (const PanelMark& mark : panels.marks) {
        table.rows.push_back({std::to_string(mark.lane + 1), page.figure(mark.eave), page.figure(mark.ridge),
                              page.figure(mark.least), page.figure(mark.most)});
    }
    write_table(page, table);
    page.paragraph("All but the last may gain or lose " + page.figure(panels.pack.total) +
                       " in all: the last panel then covers " + page.figure(panels.pack.last_cover_gained) + " or " +
                       page.figure(panels.pack.last_cover_lost) + ".",
                   10.0);
}

/// Lines to snap, with the screws of every row.
inline void list_lines(Page& page, const SlopeResult& slope, const SteelResult& steel) {
    page.heading("Lines to snap for screws");
    page.paragraph(
        "Marks up the slope from the outer face of the fascia; margin: line to the purlin's nearer side, at its least.",
        10.0);
    NumberTable table{{"Row", "Left rake", "Right rake", "Margin", "Screws"}, {}};
    for (std::size_t row = 0; row < steel.supports.size(); ++row) {
        std::vector<std::string> cells{row_name(slope, row), "no line", "", ""};
        for (const ScrewLine& line : steel.lines.lines) {
            if (line.row == row) {
                cells = {row_name(slope, row), page.figure(line.left_mark), page.figure(line.right_mark),
                         page.figure(line.least_margin)};
            }
        }
        cells.push_back(std::to_string(steel.screws.by_row[row]));
        table.rows.push_back(cells);
    }
    write_table(page, table);
}

inline void list_drill_marks(Page& page, const SlopeResult& slope, const SteelResult& steel) {
    if (steel.drill_marks.empty()) {
        return;
    }
    page.heading("Drill marks for a stack");
    page.paragraph("From the lower end of the panels at the eave, square across.", 10.0);
    NumberTable table{{"Row", "Mark", "Margin", "Drill the stack"}, {}};
    for (const DrillMark& mark : steel.drill_marks) {
        table.rows.push_back({row_name(slope, mark.row), page.figure(mark.mark), page.figure(mark.least_margin),
                              mark.holds ? "yes" : "no: snap the line"});
    }
    write_table(page, table);
}

inline void list_screws(Page& page, const ScrewCount& screws) {
    page.heading("Screws: " + std::to_string(screws.total));
    std::string words =
        std::to_string(screws.in_rows) + " in rows, " + std::to_string(screws.stitch) + " in side laps.";
    const bool alike =
        std::adjacent_find(screws.by_side_lap.begin(), screws.by_side_lap.end(),
                           [](std::int64_t a, std::int64_t b) { return a != b; }) == screws.by_side_lap.end();
    if (alike && !screws.by_side_lap.empty()) {
        words += " " + std::to_string(screws.by_side_lap.front()) + " in each side lap.";
    }
    words += screws.unverified ? " The pattern was not read off the maker's sheet: check it there." : "";
    page.paragraph(words, 10.0);
}

inline void list_rake(Page& page, std::string_view name, const RakeTaper& rake) {
    const bool right = rake.lean >= no_length;
    page.paragraph(
        std::string{name} + " rake: its trim must hide " + page.figure(rake.hidden) +
            (rake.hidden > count_tolerance ? std::string{right ? ", leaning to the right" : ", leaning to the left"} +
                                                 " up the slope; laid along the rake, panels would step by " +
                                                 page.figure(rake.saw_tooth) + " at the eave."
                                           : std::string{"."}),
        10.0);
}

/// `Left rake`, `Right rake`, or the kind of the edge alone. Edges count from the eave, counter-clockwise.
[[nodiscard]] inline std::string edge_in_words(const TrimRun& run) {
    const std::string kind = in_words(name_of(run.kind));
    return run.kind != EdgeKind::rake ? kind : (run.edge == 1 ? "Right rake" : "Left rake");
}

inline void list_edges(Page& page, const SteelResult& steel) {
    page.heading("Rakes and trim");
    list_rake(page, "Left", steel.panels.left_rake);
    list_rake(page, "Right", steel.panels.right_rake);
    if (!steel.trim.empty()) {
        page.y += 4.0;
        NumberTable table{{"Trim", "Run", "Pieces", "Last cut to"}, {}};
        for (const TrimRun& run : steel.trim) {
            table.rows.push_back(
                {edge_in_words(run), page.figure(run.run), std::to_string(run.pieces), page.figure(run.last_piece)});
        }
        write_table(page, table);
    }
    if (steel.closures) {
        const Closures& closures = *steel.closures;
        page.paragraph("Closure strips: " + std::to_string(closures.eave_strips) + " under the lower ends over " +
                           page.figure(closures.eave_run) + ", " + std::to_string(closures.ridge_strips) +
                           " on the upper ends over " + page.figure(closures.ridge_run) + "; sealant " +
                           page.figure(closures.sealant) + " in all.",
                       10.0);
    }
}

}  // namespace eavewright::detail
