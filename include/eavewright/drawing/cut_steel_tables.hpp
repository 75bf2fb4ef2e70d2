// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is listed under a drawing of cut panels: lengths to order, cuts at both ends, openings, rips, marks, trim.

#include <eavewright/drawing/number_table.hpp>
#include <eavewright/drawing/steel_tables.hpp>
#include <eavewright/whole_roof/cut_steel.hpp>

#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// `1 to 5, 9`: lanes that follow one another together.
[[nodiscard]] inline std::string joined_cut_names(const std::vector<const CutPanel*>& pieces) {
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

/// Count by length, the longest first.
inline void list_cut_lengths(Page& page, const CutPanels& panels) {
    page.heading("Panels to order: " + std::to_string(panels.pieces.size()));
    page.paragraph("Count x length, all of full width, before any two come out of one; " +
                       page.figure(panels.bought_length) + " in all.",
                   10.0);
    std::map<Length, std::vector<const CutPanel*>> lengths;
    for (const CutPanel& piece : panels.pieces) {
        lengths[-piece.order_length].push_back(&piece);
    }
    for (const auto& [length, pieces] : lengths) {
        page.paragraph(std::to_string(pieces.size()) + " x " + page.figure(-length) + ":  " + joined_cut_names(pieces),
                       10.0);
    }
}

/// An end as a person measures it: the upper one up from the panel's lower end, the lower one down from its upper end, which
/// may come an increment long.
struct EndMeasure {
    const CutPanel& piece;
    bool upper;
    [[nodiscard]] const PanelEnd& end() const { return upper ? piece.upper : piece.lower; }
    [[nodiscard]] Length of(Length up) const { return upper ? up : piece.length - up; }
};

/// Where a cut does not reach the edges of the stock's cover: a tip.
[[nodiscard]] inline std::string tip_in_words(const Page& page, const CutPanels& panels, const CutPanel& piece) {
    const Length right = piece.out + piece.cover;
    std::string words;
    if (piece.out > count_tolerance) {
        words = panel_name(piece) + " begins " + page.figure(piece.out) + " out";
    }
    if (right < panels.panel.cover - count_tolerance && !piece.ripped) {
        words += (words.empty() ? panel_name(piece) : std::string{","}) + " ends " + page.figure(right) + " out";
    }
    return words;
}

/// Straight cuts in a table, bent ones corner by corner.
inline void list_ends(Page& page, const CutPanels& panels, bool upper) {
    NumberTable table{{"Panel", "Left", "Right", "Step", "Cut at"}, {}};
    std::vector<std::string> words;
    for (const CutPanel& piece : panels.pieces) {
        const EndMeasure measure{piece, upper};
        const PanelEnd& end = measure.end();
        if (end.cut && end.straight) {
            table.rows.push_back({panel_name(piece), page.figure(measure.of(end.left)),
                                  page.figure(measure.of(end.right)), page.figure(end.step),
                                  end.edge ? in_words(name_of(*end.edge)) : "Opening"});
            words.push_back(tip_in_words(page, panels, piece));
        } else if (end.cut) {
            words.push_back(panel_name(piece) + ", bent, " + (upper ? "up" : "down") + " and out:");
            for (std::size_t i = 0; i < end.line.size(); ++i) {
                words.back() += (i > 0 ? "; " : " ") + page.figure(measure.of(end.line[i].up)) + " at " +
                                page.figure(end.line[i].along);
            }
        }
    }
    if (words.empty()) {
        return;
    }
    page.heading(upper ? "Upper ends to cut" : "Lower ends to cut");
    page.paragraph(upper ? "Measured up from the panel's lower end." : "Measured down from the panel's upper end.",
                   10.0);
    if (!table.rows.empty()) {
        write_table(page, table);
    }
    for (const std::string& each : words) {
        if (!each.empty()) {
            page.paragraph(each, 10.0);
        }
    }
}

/// Openings as they are marked on the panels that they cut into.
inline void list_notches(Page& page, const CutSteel& steel) {
    bool headed = false;
    for (const CutPanel& piece : steel.panels.pieces) {
        const Extent hull = extent_of(piece.part.outline);
        for (const std::vector<PlanePoint>& opening : steel.openings) {
            const Extent box = extent_of(opening);
            const Extent here{{longer(box.low.along, hull.low.along), longer(box.low.up, hull.low.up)},
                              {shorter(box.high.along, hull.high.along), shorter(box.high.up, hull.high.up)}};
            if (!piece.notched || !(here.low.along < here.high.along) || !(here.low.up < here.high.up)) {
                continue;
            }
            if (!headed) {
                page.heading("Openings to cut out");
                headed = true;
            }
            const Length left = hull.low.along - piece.out;
            page.paragraph(panel_name(piece) + ": out " + page.figure(here.low.along - left) + " to " +
                               page.figure(here.high.along - left) + ", up " + page.figure(here.low.up - piece.low) +
                               " to " + page.figure(here.high.up - piece.low),
                           10.0);
        }
    }
}

inline void list_cut_rips(Page& page, const CutPanels& panels) {
    std::map<Length, std::vector<const CutPanel*>> rips;
    for (const CutPanel& piece : panels.pieces) {
        if (piece.ripped) {
            rips[piece.width].push_back(&piece);
        }
    }
    if (!rips.empty()) {
        page.heading("Rips");
    }
    for (const auto& [width, pieces] : rips) {
        page.paragraph(joined_cut_names(pieces) + ": rip to " + page.figure(width) + " wide", 10.0);
    }
}

inline void list_cut_laps(Page& page, const CutPanels& panels) {
    if (panels.end_laps.empty()) {
        return;
    }
    page.heading("End laps: " + std::to_string(panels.end_laps.size()));
    for (const PanelEndLap& lap : panels.end_laps) {
        page.paragraph(panel_name(panels.pieces[lap.upper]) + " over " + panel_name(panels.pieces[lap.lower]) +
                           ", from " + page.figure(lap.from) + " to " + page.figure(lap.to) + " up the slope",
                       10.0);
    }
}

/// Marks along the eave where it has begun, and along the ridge where there is one.
inline void list_cut_marks(Page& page, const CutSteel& steel) {
    const CutPanels& panels = steel.panels;
    bool ridge = false;
    for (const EdgeKind kind : steel.edges) {
        ridge = ridge || kind == EdgeKind::ridge;
    }
    page.heading("Where panels end");
    page.paragraph(std::string{"On one tape from the "} + (panels.start == StartCorner::eave_right ? "right" : "left") +
                       " corner" + (ridge ? " of each:" : " of the eave:"),
                   10.0);
    NumberTable table{{"Panel", "Eave"}, {}};
    if (ridge) {
        table.heads.push_back("Ridge");
    }
    const auto mark = [&](Length at) { return at < no_length ? std::string{"-"} : page.figure(at); };
    for (const PanelMark& each : panels.marks) {
        table.rows.push_back({std::to_string(each.lane + 1), mark(each.eave)});
        if (ridge) {
            table.rows.back().push_back(mark(each.ridge));
        }
    }
    write_table(page, table);
}

inline void list_cut_trim(Page& page, const CutSteel& steel) {
    if (steel.trim.empty()) {
        return;
    }
    page.heading("Trim");
    NumberTable table{{"Edge", "Run", "Pieces", "Last cut to"}, {}};
    for (const TrimRun& run : steel.trim) {
        table.rows.push_back({in_words(name_of(run.kind)), page.figure(run.run), std::to_string(run.pieces),
                              page.figure(run.last_piece)});
    }
    write_table(page, table);
}

inline void write_cut_steel_tables(Page& page, const CutSteel& steel) {
    list_cut_lengths(page, steel.panels);
    page.paragraph(
        "Cuts are measured at the left and the right edge of what a panel covers, facing up the slope; out counts from "
        "the "
        "left edge of a full panel; step: what the next panel differs by.",
        10.0);
    list_ends(page, steel.panels, true);
    list_ends(page, steel.panels, false);
    list_notches(page, steel);
    list_cut_rips(page, steel.panels);
    list_cut_laps(page, steel.panels);
    list_cut_marks(page, steel);
    list_screws(page, steel.screws);
    list_cut_trim(page, steel);
}

}  // namespace eavewright::detail
