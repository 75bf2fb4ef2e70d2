// SPDX-License-Identifier: BSL-1.0
#pragma once

// What stands in words beside the picture of a roof's truing: how square each slope is and by which rule, what the readings
// are worth, what to pull, and what no pull cures.

#include <eavewright/drawing/page.hpp>
#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/judge_corners.hpp>
#include <eavewright/squaring/pulls.hpp>
#include <eavewright/units/building_point.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/whole_roof/roof_readings.hpp>
#include <eavewright/whole_roof/site_truing_steps.hpp>
#include <eavewright/whole_roof/truing_result.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright::detail {

/// Whether a length would be written as nothing.
[[nodiscard]] inline bool is_nothing(const Page& page, Length length) {
    return magnitude(length) < page.tick.step() / 2.0;
}

[[nodiscard]] inline std::string_view standing_words(NetworkStanding standing) {
    switch (standing) {
        case NetworkStanding::agree: return "they agree";
        case NetworkStanding::not_checked: return "just enough, so that a wrong one would not show";
        case NetworkStanding::blunder_placed: return "they do not agree, and one alone explains why";
        case NetworkStanding::blunder_not_placed: return "they do not agree, and which one is wrong cannot be told";
        case NetworkStanding::disagree: return "they do not agree, and no single one explains why";
        case NetworkStanding::loose: return "they cannot decide where some marks are";
        case NetworkStanding::not_settled: break;
    }
    return "they lead to no places: look for wrong marks";
}

/// What a slope reads, and the rule that judged.
inline void write_slope_truth(Page& page, const SlopeTruing& slope) {
    const SquareJudgement& q = slope.square;
    if (q.loose_corner) {
        page.paragraph(in_words(slope.name) + ": undecided, a corner is loose.", 10.0, true);
        return;
    }
    if (!q.readings_agree) {
        page.paragraph(in_words(slope.name) + ": not to be judged, the readings do not agree.", 10.0, true);
    } else {
        std::string words = in_words(slope.name) + ": " + spelled(name_of(q.verdict)) + ". Diagonals differ by " +
                            page.figure(magnitude(q.diagonals.value));
        if (!is_nothing(page, q.rack.value)) {
            words += ", the ridge is racked by " + page.figure(magnitude(q.rack.value)) +
                     (q.rack.value < no_length ? " to the left" : " to the right") + ", seen from its eave";
        }
        if (!q.can_be_square) {
            words += ". Opposite sides are unequal: no pull makes it square";
        }
        page.paragraph(words + ".", 10.0, true);
    }
    page.paragraph("Judged by: " + std::string{q.rule.name} + ", " + page.figure(q.rule.limit) + " (" +
                       std::string{q.rule.source} + ").",
                   10.0, false, 12.0);
}

/// A condition that stays off: what is left of it, why, and what could be had of it alone.
inline void write_unmet(Page& page, const PulledCondition& each) {
    std::string words = "Stays off: " + spelled(each.name) + ", by " + page.figure(magnitude(each.after.misfit)) +
                        ". Why: " + std::string{obstacle_words(each.obstacle)} + ".";
    if (!is_nothing(page, magnitude(each.after.misfit) - each.best)) {
        words += " If it alone counted: " + page.figure(each.best) + ".";
    }
    page.paragraph(words + taken_out_words(each), 10.0, true);
}

inline void write_pulls(Page& page, const PullPlan<BuildingPoint>& plan) {
    page.heading(plan.verdict == PullVerdict::already_true ? "True: nothing is to be pulled"
                 : plan.verdict == PullVerdict::pullable   ? "Pull it true"
                                                           : "Not to be pulled true: the best that can be had");
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        const PullStep& step = plan.steps[i];
        std::string words = std::to_string(i + 1) + ". ";
        for (const Slackening& slack : step.slacken_first) {
            words += "Slacken " + spelled(slack.name) + " by " + page.figure(slack.by_ticks) + " at least. ";
        }
        words += "Read. Tighten " + spelled(step.name) + " by " + page.figure(step.tighten_by_ticks) + ", to " +
                 page.figure(step.target) + ". Read.";
        page.paragraph(words, 10.0, false);
    }
    for (const PulledCondition& each : plan.conditions) {
        if (!each.met) {
            write_unmet(page, each);
        } else if (magnitude(each.after.misfit) > magnitude(each.now.misfit) + page.tick.step() / 2.0) {
            page.paragraph("Comes off by the pulls, within its limit: " + spelled(each.name) + ", by " +
                               page.figure(magnitude(each.after.misfit)) + ".",
                           10.0);
        }
    }
    if (plan.verdict == PullVerdict::pullable) {
        page.paragraph("Chance that all ends within its limit: " + write_decimal(100.0 * plan.chance_within, 0) +
                           " in 100 pulled by these amounts, " + write_decimal(100.0 * plan.chance_pulled_to_read, 0) +
                           " in 100 pulled until the strap reads its length.",
                       10.0);
    }
}

/// The distance that is reading `index` of the network, which counts on through distances, offsets and levels.
[[nodiscard]] inline const RoofDistance* distance_read(const RoofReadings& read, std::size_t index) {
    return index < read.distances.size() ? &read.distances[index] : nullptr;
}

/// Which marks a reading was taken of; nothing where `read` does not hold it.
[[nodiscard]] inline std::string reading_words(const RoofReadings& read, std::size_t index) {
    if (const RoofDistance* distance = distance_read(read, index)) {
        return ", " + spelled(distance->from) + " to " + spelled(distance->to);
    }
    std::size_t i = index - read.distances.size();
    if (i < read.offsets.size()) {
        const RoofOffset& offset = read.offsets[i];
        return ", " + spelled(offset.mark) + " off " + spelled(offset.from) + " to " + spelled(offset.to);
    }
    i -= read.offsets.size();
    return i < read.levels.size() ? ", level at " + spelled(read.levels[i].mark) : "";
}

/// What is to be read before anything is pulled.
inline void write_read_again(Page& page, const TruingResult& truing, const RoofReadings& read) {
    page.heading("Read again before anything is pulled");
    for (const std::size_t suspect : truing.network->suspects) {
        const AdjustedReading& r = truing.network->readings[suspect];
        std::string words = "Suspect: reading " + std::to_string(suspect + 1) + reading_words(read, suspect) + ", " +
                            page.figure(r.read) + ".";
        if (!is_nothing(page, r.blunder)) {
            words += " If it alone is wrong, it reads " + page.figure(magnitude(r.blunder)) +
                     (r.blunder < no_length ? " too little." : " too much.");
        }
        page.paragraph(words, 10.0, true);
    }
    if (truing.heights_wanted) {
        page.paragraph("No distance tells where the loose marks are: read heights of the corners with a level.", 10.0,
                       true);
    }
    for (const NextReading& next : truing.next) {
        page.paragraph("Dotted: read " + spelled(truing.network->points[next.from].name) + " to " +
                           spelled(truing.network->points[next.to].name) + ", expected " + page.figure(next.expected) +
                           ".",
                       10.0);
    }
}

}  // namespace eavewright::detail
