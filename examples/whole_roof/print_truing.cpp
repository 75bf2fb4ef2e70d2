// SPDX-License-Identifier: BSL-1.0

#include "print_truing.hpp"

#include "report_text.hpp"

#include <eavewright/squaring/error_ellipse.hpp>
#include <eavewright/whole_roof/site_truing_steps.hpp>

#include <cstddef>
#include <string>

using namespace eavewright;

namespace {

void print_marks(const ReportText& text, const AdjustedNetwork<BuildingPoint>& found) {
    text.out << "  Marks as found        x              y              z              95 % within (plan)\n";
    for (const auto& p : found.points) {
        text.out << "    " << column(ReportText::words(p.name), 18) << column(text.of(p.place.x), 15)
                 << column(text.of(p.place.y), 15) << column(text.of(p.place.z), 15)
                 << (p.loose ? "loose" : text.of_decimal(p.plan.long_axis * ellipse_factor(0.95))) << "\n";
    }
}

void print_readings(const ReportText& text, const AdjustedNetwork<BuildingPoint>& found) {
    text.line("readings", std::to_string(found.readings.size()) + ", " + std::to_string(found.spare) +
                              " to spare: " + ReportText::words(name_of(found.standing)));
    std::size_t unchecked = 0;
    const AdjustedReading* weakest = nullptr;
    for (const AdjustedReading& r : found.readings) {
        unchecked += r.checked ? 0U : 1U;
        if (r.smallest_blunder && (weakest == nullptr || *r.smallest_blunder > *weakest->smallest_blunder)) {
            weakest = &r;
        }
    }
    if (unchecked > 0) {
        text.line("checked by no other", std::to_string(unchecked));
    }
    if (weakest != nullptr) {
        text.line("blunders seen from", text.of_decimal(*weakest->smallest_blunder) + ", in the reading of " +
                                            text.of(weakest->read) + " that the others check least");
    }
    for (const std::size_t suspect : found.suspects) {
        const AdjustedReading& r = found.readings[suspect];
        text.line("suspect", "reading " + std::to_string(suspect + 1) + " of " + text.of(r.read) + ", wrong by " +
                                 text.of_decimal(r.blunder) + " if it alone is");
    }
}

void print_slope(const ReportText& text, const SlopeTruing& slope) {
    const SquareJudgement& q = slope.square;
    if (q.loose_corner) {
        text.line(slope.name, "undecided: a corner is loose");
        return;
    }
    if (!q.readings_agree) {
        text.line(slope.name, "the readings do not agree, so no figure is to be trusted");
        return;
    }
    text.line(slope.name, ReportText::words(name_of(q.verdict)) + ", judged by " + std::string{q.rule.name} + " (" +
                              std::string{q.rule.source} + "): " + text.of_decimal(q.rule.limit));
    text.line("  diagonals differ", text.of_decimal(q.diagonals.value) + " +- " +
                                        text.of_decimal(q.diagonals.deviation) + ", " +
                                        ReportText::words(name_of(q.diagonals.verdict)));
    text.line("  rack over the slope", text.of_decimal(q.rack.value) + " +- " + text.of_decimal(q.rack.deviation) +
                                           ", corners off by " + write_decimal(degrees(q.corner_error), 3) + " deg");
    text.line("  eave less ridge",
              text.of_decimal(q.eave_and_ridge.value) + ", " + ReportText::words(name_of(q.eave_and_ridge.verdict)));
    text.line("  left less right", text.of_decimal(q.rakes.value) + ", " + ReportText::words(name_of(q.rakes.verdict)));
    text.line("  corner off plane",
              text.of_decimal(slope.ridge_right_off.value) + " +- " + text.of_decimal(slope.ridge_right_off.deviation));
}

void print_pulls(const ReportText& text, const PullPlan<BuildingPoint>& plan) {
    text.line("pulls", ReportText::words(name_of(plan.verdict)) + ", " + ReportText::words(name_of(plan.choice)) +
                           (plan.verdict == PullVerdict::not_pullable ? "; the best that can be had:" : ""));
    if (plan.verdict == PullVerdict::pullable) {
        text.line("  chance of within", percent(plan.chance_within) + " pulled by amount, " +
                                            percent(plan.chance_pulled_to_read) + " pulled until the strap reads");
    }
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        const PullStep& step = plan.steps[i];
        for (const Slackening& slack : step.slacken_first) {
            text.line("  " + std::to_string(i + 1) + ". slacken",
                      ReportText::words(slack.name) + " by at least " + text.of(slack.by_ticks));
        }
        text.line(
            "  " + std::to_string(i + 1) + ". tighten",
            ReportText::words(step.name) + " by " + text.of(step.tighten_by_ticks) + ", to " + text.of(step.target));
        for (std::size_t c = 0; c < step.conditions.size(); ++c) {
            text.line("     then", ReportText::words(plan.conditions[c].name) + " " +
                                       text.of_decimal(step.conditions[c].first) + " and " +
                                       text.of_decimal(step.conditions[c].second));
        }
    }
    for (const PulledCondition& each : plan.conditions) {
        if (!each.met) {
            text.line("  not to be pulled",
                      ReportText::words(each.name) + ": " + ReportText::words(name_of(each.obstacle)) +
                          ", left off by " + text.of_decimal(magnitude(each.after.misfit)) +
                          "; alone it could come to " + text.of_decimal(each.best) + detail::taken_out_words(each));
        }
    }
}

void print_lines(const ReportText& text, const TruingResult& truing) {
    for (const auto& [name, string] : truing.strings) {
        text.line("string " + name, ReportText::words(name_of(string.verdict)) + ", largest move " +
                                        text.of(string.largest_move) + " at reading " +
                                        std::to_string(string.largest_at + 1));
    }
    for (const auto& [name, tails] : truing.tails) {
        text.line("tails " + name, "largest cut " + text.of(tails.largest_cut));
    }
    for (const auto& [name, purlin] : truing.purlins) {
        text.line("purlin " + name, ReportText::words(name_of(purlin.verdict)) + ", shims under " +
                                        std::to_string(purlin.shimmed) + ", planed at " +
                                        std::to_string(purlin.planed));
    }
    for (const auto& [name, wall] : truing.walls) {
        text.line("wall " + name, ReportText::words(name_of(wall.verdict)) + " by " + std::string{wall.rule.name} +
                                      "; top along " + text.of_decimal(wall.move_along) + ", outwards " +
                                      text.of_decimal(wall.move_across) + ", then " +
                                      ReportText::words(name_of(wall.verdict_after)));
    }
    for (const auto& [name, twist] : truing.crossings) {
        text.line("flat " + name,
                  ReportText::words(name_of(twist.verdict)) + ", a corner off by " + text.of_decimal(twist.largest));
    }
    if (truing.posts) {
        text.line("posts", "largest difference of a frame " + text.of(truing.posts->largest_difference) +
                               ", a post may lean " + text.of_decimal(truing.posts->lean_limit));
    }
}

void print_way(const ReportText& text, const std::string& name, const LaidTrue& laid) {
    const LayWay& way = laid.best;
    text.line(name, ReportText::words(name_of(way.way)) + ": " + std::string{describe(laid.reason)});
    text.line("  worst wedge", text.of_decimal(way.worst_wedge) + ", square to the eave " +
                                   text.of_decimal(laid.ways.front().worst_wedge));
}

}  // namespace

void print_truing(std::ostream& out, const RoofResult& result, Tick tick) {
    const ReportText text{out, tick};
    if (result.truing) {
        out << "\nIs it true\n";
        if (result.truing->network) {
            print_readings(text, *result.truing->network);
            print_marks(text, *result.truing->network);
            for (const NextReading& next : result.truing->next) {
                const auto& points = result.truing->network->points;
                text.line("read next", ReportText::words(points[next.from].name) + " to " +
                                           ReportText::words(points[next.to].name) + ", about " +
                                           text.of(next.expected));
            }
        }
        for (const SlopeTruing& slope : result.truing->slopes) {
            print_slope(text, slope);
        }
        if (result.truing->pulls) {
            print_pulls(text, *result.truing->pulls);
        }
        print_lines(text, *result.truing);
        out << "  " << pulling_caution << "\n";
    }
    bool headed = false;
    const auto way = [&](const std::string& name, const std::optional<LaidTrue>& laid) {
        if (laid) {
            out << (headed ? "" : "\nLaid as it stands\n");
            headed = true;
            print_way(text, name, *laid);
        }
    };
    for (const SlopeResult& slope : result.slopes) {
        way(slope.name, slope.lay_true);
        way(slope.name + " steel", slope.lay_steel_true);
    }
}
