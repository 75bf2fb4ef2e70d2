// SPDX-License-Identifier: BSL-1.0
#include "print_report.hpp"

#include "print_steel.hpp"
#include "report_text.hpp"

#include <iomanip>
#include <map>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;

namespace {

/// Writes one report; the tick and the stream are the same on every line.
class Report : ReportText {
public:
    Report(std::ostream& stream, Tick step) : ReportText{stream, step} {}

    void roof(const RoofResult& roof) {
        out << roof.name << "\n" << std::string(roof.name.size(), '=') << "\n\n";
        line("pitch", write_decimal(roof.pitch.rise_in_12(), 3) + " in 12, " +
                          write_decimal(degrees(roof.pitch.angle()), 2) + " deg");
        line("footprint", of(roof.footprint_width) + " x " + of(roof.footprint_length) + ", diagonal " +
                              of(roof.footprint_diagonal));
        line("roof area", area(roof.roof_area));
        out << "\nHeights above the benchmark\n";
        line("bearing", of(roof.heights.bearing));
        line("fascia top", of(roof.heights.fascia_top));
        line("chord top at peak", of(roof.heights.chord_peak));
        line("purlin top at peak", of(roof.heights.purlin_peak));
        line("deck top at peak", of(roof.heights.deck_peak));
        if (roof.footprint) {
            out << "\nWall lines as measured\n";
            trueness(*roof.footprint, "back wall");
        }
        for (const SlopeResult& slope : roof.slopes) {
            this->slope(slope);
        }
        if (roof.ridge) {
            ridge(*roof.ridge);
        }
        totals(roof);
    }

private:
    void slope(const SlopeResult& slope) {
        const std::string title = "Slope: " + slope.name;
        out << "\n" << title << "\n" << std::string(title.size(), '-') << "\n";
        line("plane", of(slope.plane_length) + " along the eave, " + of(slope.slope_length) + " up the slope");
        line("diagonal", of(slope.diagonal) + " both ways when square");
        line("area", area(slope.area));
        line("run", of(slope.run) + ", with overhang " + of(slope.total_run));
        line("chord with tail", of(slope.chord_length) + ", tail " + of(slope.tail_length));
        if (slope.trueness) {
            out << " As measured\n";
            trueness(*slope.trueness, "ridge");
        }
        if (slope.purlins) {
            marks(slope);
            pieces(" Purlins to cut", count_purlins(slope), "");
            pieces(" Blocks between purlins", count_blocks(slope), "");
        }
        if (!slope.sheets.pieces.empty()) {
            sheets(slope);
        }
        print_deck_extras(*this, slope);
        if (slope.deck) {
            out << " The deck as measured\n";
            trueness(*slope.deck, "ridge");
        }
        if (slope.underlayment) {
            print_underlayment(*this, *slope.underlayment);
        }
        if (slope.steel) {
            print_steel(*this, *slope.steel);
        }
    }

    void marks(const SlopeResult& slope) {
        const std::size_t rows = slope.purlins->rows.size();
        if (slope.marks.size() > rows) {
            found_marks(slope, rows);
        } else {
            ruled_marks(slope);
        }
        line("widest space", of(slope.purlins->widest_space));
    }
    [[nodiscard]] static std::string row_name(const RowMark& mark) {
        return mark.kind == RowKind::field ? std::to_string(mark.row) : std::string{name_of(mark.kind)};
    }
    void ruled_marks(const SlopeResult& slope) {
        out << " Purlin marks up from the fascia's outer face (on the chord: from its tail end)\n"
            << "    row    centre           lower side       lower side on chord\n";
        for (const RowMark& mark : slope.marks) {
            if (mark.on_chord) {  // the fascia has none: it is where the tape hooks
                out << "    " << std::left << std::setw(7) << row_name(mark) << std::setw(17) << of(mark.mark)
                    << std::setw(17) << of(mark.lower_edge) << of(*mark.on_chord) << "\n";
            }
        }
    }
    /// Rows as found: the left rake, then every frame, a column each.
    void found_marks(const SlopeResult& slope, std::size_t rows) {
        out << " Purlin centres as found, up from the fascia's outer face\n    at     ";
        for (std::size_t i = 0; i < slope.marks.size(); i += rows) {
            out << std::left << std::setw(15) << of(slope.marks[i].along);
        }
        out << "\n";
        for (std::size_t row = 0; row < rows; ++row) {
            if (slope.marks[row].kind == RowKind::eave) {
                continue;
            }
            out << "    " << std::left << std::setw(7) << row_name(slope.marks[row]);
            for (std::size_t i = row; i < slope.marks.size(); i += rows) {
                out << std::setw(15) << of(slope.marks[i].mark);
            }
            out << "\n";
        }
    }

    using Pieces = std::map<std::pair<double, double>, std::pair<std::size_t, std::string>>;

    /// Pieces are alike where their sizes are the same number of ticks.
    [[nodiscard]] std::pair<double, double> size_of(Length length, Length width) const {
        return {-nearest_ticks(length, tick), -nearest_ticks(width, tick)};
    }

    [[nodiscard]] Pieces count_purlins(const SlopeResult& slope) const {
        Pieces counted;
        for (const PurlinPiece& piece : slope.purlin_pieces) {
            ++counted[size_of(piece.length, no_length)].first;
        }
        return counted;
    }
    [[nodiscard]] Pieces count_blocks(const SlopeResult& slope) const {
        Pieces counted;
        for (const BlockingPiece& block : slope.blocks) {
            ++counted[size_of(block.length, no_length)].first;
        }
        return counted;
    }
    [[nodiscard]] Pieces count_sheets(const Sheets& sheets) const {
        Pieces counted;
        for (const SheetPiece& piece : sheets.pieces) {
            auto& [count, names] = counted[size_of(piece.length, piece.width)];
            names += count == 0 ? "" : " ";
            names += piece_name(piece) + (piece.slanted ? "/" : "");
            ++count;
        }
        return counted;
    }
    /// Counted pieces, largest first; a second size is written where there is one.
    void pieces(const std::string& title, const Pieces& counted, const std::string& note) {
        if (counted.empty()) {
            return;
        }
        out << title << "\n";
        for (const auto& [size, what] : counted) {
            const Length length = tick.length(-size.first);
            const Length width = tick.length(-size.second);
            out << "    " << std::right << std::setw(4) << what.first << " x " << of(length);
            if (width > no_length) {
                out << " by " << of(width);
            }
            out << (what.second.empty() ? "" : "   " + what.second) << "\n";
        }
        out << note;
    }

    void sheets(const SlopeResult& slope) {
        const Sheets& sheets = slope.sheets;
        const bool columns = sheets.run == SupportRun::along_eave;
        pieces(columns ? " Sheets, long side up the slope, lettered by column"
                       : " Sheets, long side along the eave, lettered by course",
               count_sheets(sheets), any_slanted(sheets) ? "    / is cut on a slant: see the drawing\n" : "");
        line(columns ? "columns" : "courses",
             std::to_string(sheets.lanes) + ", " + std::to_string(sheets.whole_sheets) + " full sheets");
        line("laid", area(sheets.laid));
        line("worst closure", of_decimal(longer(sheets.closure.worst_lane, sheets.closure.across)));
        line("nails", std::to_string(slope.nails.total));
        out << " Nails by row, from the eave or the left:";
        for (const std::int64_t row : slope.nails.by_row) {
            out << " " << row;
        }
        out << "\n";
        findings(slope);
    }

    [[nodiscard]] static bool any_slanted(const Sheets& sheets) {
        for (const SheetPiece& piece : sheets.pieces) {
            if (piece.slanted) {
                return true;
            }
        }
        return false;
    }
    void findings(const SlopeResult& slope) {
        const std::vector<Finding>& all = slope.sheets.findings;
        out << " Findings: " << (all.empty() ? "none" : std::to_string(all.size())) << "\n";
        for (const Finding& found : all) {
            out << "    " << piece_name(slope.sheets.pieces[found.piece]) << ": " << words(name_of(found.code))
                << " at " << of(found.place.along) << " along, " << of(found.place.up)
                << " up: " << of_decimal(found.measured) << ", limit " << of_decimal(found.limit);
            if (found.block) {
                out << "; a block of " << of(found.block->length) << " under the joint would carry it";
            }
            out << "\n";
        }
    }

    void trueness(const Trueness& t, const std::string& far_side) {
        line("verdict", words(name_of(t.verdict)));
        line("diagonals differ", of_decimal(t.diagonals.difference) + ", allowed " + of_decimal(t.diagonals.tolerance) +
                                     ": " + (t.diagonals.reads_within ? "reads within" : "reads out") + ", " +
                                     words(name_of(t.diagonals.certainty)));
        line("sides differ",
             "eave and ridge " + of_decimal(t.eave_and_ridge.difference) + ", rakes " + of_decimal(t.rakes.difference));
        line("readings close to", of_decimal(t.measured.misclosure) + ": " + words(name_of(t.measured.closure)));
        if (t.pull != PullDirection::none) {
            line(t.reads_within ? "exact would be" : "pull",
                 far_side + " " + words(name_of(t.pull)) + " by " + of_decimal(magnitude(t.ridge_move)) +
                     "; shorten the " + words(name_of(t.shorten)) + " diagonal by " + of_decimal(t.shorten_by) +
                     " to " + of(t.target_diagonal));
        }
        line("can come square", t.can_be_square ? "yes"
                                                : "no: opposite sides differ; " +
                                                      write_decimal(degrees(t.corner_error_after_pull), 3) +
                                                      " deg is left in the worst corner");
    }

    void ridge(const PairTrueness& pair) {
        out << "\nThe ridge that both slopes share (as seen from the front eave, facing up)\n";
        line("verdict", words(name_of(pair.verdict)));
        line("ridge goes", pair.pull == PullDirection::none
                               ? "nowhere"
                               : words(name_of(pair.pull)) + " by " + of_decimal(magnitude(pair.ridge_move)));
        line("eaves have slid", of_decimal(pair.eave_slide) + " against one another");
    }

    void totals(const RoofResult& roof) {
        out << "\nThe whole roof\n";
        line("sheets laid", std::to_string(roof.sheet_pieces) + " pieces, " + std::to_string(roof.whole_sheets) +
                                " of them full sheets");
        line("nails", std::to_string(roof.nails));
        if (roof.panels > 0) {
            line("panels", std::to_string(roof.panels));
            line("screws", std::to_string(roof.screws));
        }
        line("findings", std::to_string(roof.findings));
        line("worst closure", of_decimal(roof.worst_closure));
        print_over_all(*this, roof);
        out << "\n" << layout_caution << "\n";
    }
};
}  // namespace

void print_report(std::ostream& out, const RoofResult& roof, Tick tick) { Report{out, tick}.roof(roof); }
