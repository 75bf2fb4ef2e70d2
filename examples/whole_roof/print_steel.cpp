// SPDX-License-Identifier: BSL-1.0
#include "print_steel.hpp"

#include <map>
#include <utility>

using namespace eavewright;

namespace {

void print_panels(const ReportText& text, const Panels& panels) {
    std::map<std::pair<double, double>, std::pair<std::size_t, std::string>> counted;  // largest first
    for (const PanelPiece& piece : panels.pieces) {
        auto& [count, names] =
            counted[{-nearest_ticks(piece.order_length, text.tick), -nearest_ticks(piece.width, text.tick)}];
        names += count == 0 ? "" : " ";
        names += panel_name(piece) + (piece.cut ? "/" : "");
        ++count;
    }
    bool any_cut = false;
    for (const auto& [size, what] : counted) {
        text.out << "    " << std::right << std::setw(4) << what.first << " x "
                 << text.of(text.tick.length(-size.first)) << " by " << text.of(text.tick.length(-size.second)) << "   "
                 << what.second << "\n";
        any_cut = any_cut || what.second.find('/') != std::string::npos;
    }
    text.out << (any_cut ? "    / is cut at its upper end: see the drawing\n" : "");
}

void print_marks(const ReportText& text, const Panels& panels) {
    text.out << " Where panels end, from the corners at the rake begun at\n"
             << "    panel  eave           ridge\n";
    for (const PanelMark& mark : panels.marks) {
        text.out << "    " << std::left << std::setw(7) << mark.lane + 1 << std::setw(15) << text.of(mark.eave)
                 << text.of(mark.ridge) << "\n";
    }
    text.line("may creep",
              "to " + text.of(panels.marks.front().eave - panels.marks.front().least) + " off a mark, no more");
}

void print_screws(const ReportText& text, const SteelResult& steel) {
    text.line("screws", std::to_string(steel.screws.total) + ", of them " + std::to_string(steel.screws.stitch) +
                            " stitch screws" + (steel.screws.unverified ? "; a generic pattern, not the maker's" : ""));
    text.out << " Lines to snap over the purlins, up from the fascia's outer face, and from a panel's lower end\n"
             << "    row    left           right          on the panel   screws\n";
    for (const ScrewLine& line : steel.lines.lines) {
        text.out << "    " << std::left << std::setw(7) << line.row << std::setw(15) << text.of(line.left_mark)
                 << std::setw(15) << text.of(line.right_mark) << std::setw(15) << text.of(line.left_on_panel)
                 << steel.screws.by_row[line.row] << "\n";
    }
}

void print_edges(const ReportText& text, const SteelResult& steel) {
    for (const TrimRun& run : steel.trim) {
        text.line("trim, " + ReportText::words(name_of(run.kind)), std::to_string(run.pieces) + " pieces for " +
                                                                       text.of(run.run) + ", the last cut to " +
                                                                       text.of(run.last_piece));
    }
    if (steel.closures) {
        text.line("closures", std::to_string(steel.closures->eave_strips) + " at the eave, " +
                                  std::to_string(steel.closures->ridge_strips) + " at the ridge");
        text.line("sealant", text.of(steel.closures->sealant));
    }
    for (const auto& [side, taper] :
         {std::pair{"left", &steel.panels.left_rake}, {"right", &steel.panels.right_rake}}) {
        if (taper->hidden > text.tick.step() / 2.0) {
            text.line(std::string{"trim hides, "} + side, text.of(taper->hidden) + " of taper");
        }
    }
}

void print_findings(const ReportText& text, const SteelResult& steel) {
    const auto print = [&](const std::string& what, const auto& finding) {
        text.out << "    " << what << ": " << ReportText::words(name_of(finding.code)) << " at "
                 << text.of(finding.place.along) << " along, " << text.of(finding.place.up)
                 << " up: " << text.of_decimal(finding.measured) << ", limit " << text.of_decimal(finding.limit)
                 << "\n";
    };
    const std::size_t lines = steel.lines.findings.size();
    text.out << " Findings of the steel: "
             << (steel.panels.findings.empty() && steel.screws.findings.empty() && lines == 0 ? "none" : "") << "\n";
    for (const PanelFinding& finding : steel.panels.findings) {
        print("panel " + panel_name(steel.panels.pieces[finding.piece]), finding);
    }
    for (const ScrewFinding& finding : steel.screws.findings) {
        print("row " + std::to_string(finding.row), finding);
    }
    for (const ScrewFinding& finding : steel.lines.findings) {
        if (finding.code != ScrewFindingCode::row_past_panel) {  // found by count already
            print("line of row " + std::to_string(finding.row), finding);
        }
    }
}

void print_stacks(const ReportText& text, const std::string& what, const Stacks& stacks) {
    text.out << " " << what << " that may stand on this slope, " << text.mass(stacks.each) << " each, at most "
             << stacks.pieces_a_stack << " a stack\n";
    for (const StackPlace& place : stacks.places) {
        text.out << "    " << place.pieces << " over frame " << place.frame + 1 << ", lower edge held by row "
                 << place.row << ", " << text.mass(place.mass) << "\n";
    }
    if (stacks.on_ground > 0) {
        text.out << "    " << stacks.on_ground << " stay on the ground\n";
    }
}
}  // namespace

void print_underlayment(const ReportText& text, const Underlayment& underlayment) {
    text.out << " Underlayment, " << ReportText::words(name_of(underlayment.laps.kind)) << ", "
             << text.of(underlayment.laps.exposure) << " exposed\n"
             << "    course lower edge: left, right, up the rakes   pieces from the "
             << (underlayment.start == StartCorner::eave_left ? "left" : "right") << "\n";
    for (const CourseMark& mark : underlayment.marks) {
        std::string pieces;
        for (const RollPiece& piece : underlayment.pieces) {
            if (piece.course == mark.course) {
                pieces += " " + text.of(piece.length) + " (roll " + std::to_string(piece.roll + 1) + ")";
            }
        }
        text.out << "    " << std::left << std::setw(7) << mark.course + 1 << std::setw(15) << text.of(mark.left)
                 << std::setw(15) << text.of(mark.right) << pieces << "\n";
    }
    text.line("rolls",
              std::to_string(underlayment.rolls) + ", " + text.of(underlayment.left_over) + " left on the last");
    text.line("wasted", text.area(underlayment.areas.waste) + " of " + text.area(underlayment.areas.bought));
    text.out << " Findings of the underlayment: " << (underlayment.findings.empty() ? "none" : "") << "\n";
    for (const UnderlaymentFinding& finding : underlayment.findings) {
        text.out << "    course " << underlayment.pieces[finding.piece].course + 1 << ": "
                 << ReportText::words(name_of(finding.code)) << ": " << text.of_decimal(finding.measured) << ", limit "
                 << text.of_decimal(finding.limit) << "\n";
    }
}

void print_deck_extras(const ReportText& text, const SlopeResult& slope) {
    if (slope.overhangs) {
        text.out << " Deck at the overhangs alone: rows 0 to " << slope.overhangs->dropped_rows.back()
                 << (slope.overhangs->rake_ends_drop ? ", and the others past the end frames," : "") << " drop by "
                 << text.of(slope.overhangs->drop) << "\n";
        text.line("marks of these rows", text.of_decimal(slope.overhangs->marks_lower) + " lower on the chord");
    }
    if (slope.stop_board) {
        const StopBoard& board = *slope.stop_board;
        text.line("stop board", std::to_string(board.pieces.size()) + " boards, " + text.of(board.proud) +
                                    " proud, packed out " + text.of(board.off_fascia) + ", " +
                                    std::to_string(board.screws) + " screws");
        text.out << "    it comes off " << stop_board_comes_off << "\n    " << stop_board_caution << "\n";
    }
    if (slope.sheet_stacks) {
        print_stacks(text, "Full sheets", *slope.sheet_stacks);
    }
    if (slope.panel_stacks) {
        print_stacks(text, "Panels", *slope.panel_stacks);
    }
}

void print_steel(const ReportText& text, const SteelResult& steel) {
    const Panels& panels = steel.panels;
    text.out << " Steel, numbered from the " << (panels.start == StartCorner::eave_left ? "left" : "right")
             << " rake (facing up the slope)\n";
    print_panels(text, panels);
    text.line("across", write_decimal(panels.exact_panels, 4) + ", so " + std::to_string(panels.lanes) +
                            ", the last covers " + text.of(panels.last_cover));
    text.line("past the eave", text.of_decimal(panels.overhang));
    print_marks(text, panels);
    print_screws(text, steel);
    print_edges(text, steel);
    print_findings(text, steel);
}

void print_over_all(const ReportText& text, const RoofResult& roof) {
    if (roof.covering) {
        text.line("covering", words_of(roof.covering->covering) + ", " +
                                  ReportText::words(name_of(roof.covering->ruling)) + " at this slope; least " +
                                  write_decimal(roof.covering->least.least.rise_in_12(), 3) + " in 12, " +
                                  std::string{roof.covering->least.clause});
    }
    if (roof.underlayment_rule) {
        text.line("underlayment by", std::string{roof.underlayment_rule->clause} +
                                         (roof.underlayment_rule->unverified ? "; read the maker's rule first" : ""));
    }
    if (roof.air) {
        text.line("net free area", text.area(roof.air->net) + "; the edition in force decides");
        text.line("ridge slot", text.of_decimal(roof.air->ridge_slot) + " clear, " +
                                    text.of_decimal(roof.air->ridge_slot_a_side) + " a side of a ridge, level");
        text.line("eave openings", text.of_decimal(roof.air->eave_opening) + " clear along the eaves");
    }
    if (roof.foam) {
        text.line("foam", text.tick.is_metric() ? write_decimal(cubic_metres(roof.foam->volume), 2) + " m3"
                                                : write_decimal(board_feet(roof.foam->volume), 0) + " board feet");
    }
    if (roof.carried.empty()) {
        return;
    }
    text.out << "\nCarrying\n";
    for (const CarriedPieces& pieces : roof.carried) {
        const Handling& h = pieces.handling;
        text.out << "    " << std::right << std::setw(4) << pieces.count << " " << pieces.name << "s "
                 << text.of(pieces.length) << " by " << text.of(pieces.width) << ": " << text.mass(h.each) << " each, "
                 << (h.one_person ? "one person" : "two people") << ", " << h.lifts << " lifts, " << text.mass(h.stack)
                 << " in all; pulls too hard at "
                 << (text.tick.is_metric() ? write_decimal(h.wind_limit.metres_per_second(), 1) + " m/s"
                                           : write_decimal(h.wind_limit.mph(), 0) + " mph")
                 << "\n";
    }
    text.out << handling_caution << "\n";
}
