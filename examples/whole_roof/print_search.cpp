// SPDX-License-Identifier: BSL-1.0

#include "print_search.hpp"

#include "report_text.hpp"

#include <string>

using namespace eavewright;

namespace {
[[nodiscard]] std::string score_of(const ReportText& text, const LayoutScore& score) {
    return std::to_string(score.sheets) + " sheets, " + std::to_string(score.cuts) + " cuts, narrowest piece " +
           text.of(score.narrowest) + ", " + std::to_string(score.slivers) + " slivers, " +
           std::to_string(score.short_spans) + " over fewer than two spaces";
}

[[nodiscard]] std::string start_of(const ReportText& text, const SheetPlan& plan) {
    return ReportText::words(name_of(plan.start)) + ", first lane ripped by " + text.of(plan.rip_first) +
           ", first sheets shorter by " + std::to_string(plan.start_spaces) + " spaces, stagger " +
           std::to_string(plan.stagger_spaces) + ", " + ReportText::words(name_of(plan.joints)) +
           (plan.turn != 0.0 ? ", grid turned by " + write_decimal(plan.turn * 1000.0, 2) + " in 1000" : "");
}
}  // namespace

void print_search(std::ostream& out, const FoundLayout& found, bool applied, Tick tick) {
    const ReportText text{out, tick};
    out << "\nOther layouts of the sheets\n";
    text.line("tried", std::to_string(found.tried) + ", none worse supported or with more slivers");
    text.line("as described", score_of(text, found.plain));
    text.line(applied ? "laid as found" : "best found", score_of(text, found.score));
    for (const SheetPlan& plan : found.plans) {
        text.line("", start_of(text, plan));
    }
    text.line("saved", std::to_string(found.plain_sheets - found.score.sheets) + " of " +
                           std::to_string(found.plain_sheets) + " sheets that the layout described takes, plainly cut");
    text.line("no fewer than", std::to_string(found.fewest) + " sheets for any layout, " +
                                   std::to_string(found.saw.bound.sheets) + " for these pieces" +
                                   (found.proven ? ": fewest" : ""));
}
