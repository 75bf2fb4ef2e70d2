// SPDX-License-Identifier: BSL-1.0
#pragma once

// Steps of the site sheet that follow from readings of the roof: what to move, what to slacken and tighten, what to shim,
// and how to lay what stays out of square. Every figure is a field of the result.

#include <eavewright/roof/plane.hpp>
#include <eavewright/squaring/pulls.hpp>
#include <eavewright/squaring/purlin_line.hpp>
#include <eavewright/tiling/lay_true.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/whole_roof/site_frame_steps.hpp>
#include <eavewright/whole_roof/site_sheet.hpp>
#include <eavewright/whole_roof/truing_result.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// A name of the library as people read it.
[[nodiscard]] inline std::string spelled(std::string_view name) {
    std::string words{name};
    for (char& c : words) {
        c = c == '_' ? ' ' : c;
    }
    return words;
}

[[nodiscard]] inline SiteMark mark_at(std::string label, const std::vector<Length>& lengths, Tick tick) {
    SiteMark mark{std::move(label), {}};
    for (const Length each : lengths) {
        mark.at.emplace_back(round_to_tick(each, tick));
    }
    return mark;
}

inline void add_posts_step(const SiteInput& in, std::vector<SiteStep>& steps) {
    const std::optional<BayMarks>& posts = in.result.truing->posts;
    if (!posts) {
        return;
    }
    SiteStep step = with_limit(
        step_of(SiteStepKind::posts, "Posts against their bay marks",
                "As read: every post off its mark, the marks shifted along for all of them together, and how far the "
                "left post "
                "stands past the right one of its frame.",
                {{"marks shifted by", posts->both.shift}, {"left line longer than the right", posts->run_difference}},
                "Lean a post to its mark only within the limit; else lay purlins over the frames as they stand."),
        posts->lean_limit, posts->rule.source);
    step.mark_columns = {"mark", "left off", "right off", "left past right"};
    step.marks_from = "Stations from the first post; past the mark is positive.";
    for (std::size_t i = 0; i < posts->frames.size(); ++i) {
        const FrameOff& f = posts->frames[i];
        step.marks.push_back(
            mark_at(std::to_string(i + 1), {f.mark, f.left_off, f.right_off, f.difference}, in.roof.tick));
    }
    steps.push_back(std::move(step));
}

inline void add_wall_steps(const SiteInput& in, std::vector<SiteStep>& steps) {
    for (const NamedResult<WallPlumb>& wall : in.result.truing->walls) {
        SiteStep step = with_limit(
            step_of(SiteStepKind::walls, "Wall " + wall.name + ": " + spelled(name_of(wall.found.verdict)),
                    "Judged by " + std::string{wall.found.rule.name} +
                        ". One move of the wall's top serves all its posts; what each keeps "
                        "stands below.",
                    {{"largest off plumb", wall.found.largest}, {"largest after the move", wall.found.largest_after}},
                    "Ease braces with the caution on pulling in mind; brace again, read again."),
            wall.found.posts.empty() ? no_length : wall.found.posts.front().limit, wall.found.rule.source);
        step.correction = {{"top along the wall", wall.found.move_along}, {"top outwards", wall.found.move_across}};
        step.mark_columns = {"at", "along now", "outwards now", "along after", "outwards after"};
        step.marks_from = "Tops of the posts, by their station along the wall.";
        for (std::size_t i = 0; i < wall.found.posts.size(); ++i) {
            const PostPlumb& p = wall.found.posts[i];
            step.marks.push_back(mark_at(std::to_string(i + 1),
                                         {p.station, p.top.along, p.top.across, p.after.along, p.after.across},
                                         in.roof.tick));
        }
        steps.push_back(std::move(step));
    }
}

inline void add_string_steps(const SiteInput& in, std::vector<SiteStep>& steps) {
    for (const NamedResult<StringLine>& string : in.result.truing->strings) {
        SiteStep step = with_limit(
            step_of(
                SiteStepKind::strings, "String " + string.name + ": " + spelled(name_of(string.found.verdict)),
                "Line by " + spelled(name_of(string.found.rule)) + ". Move what stands off as given, furthest first.",
                {{"largest move", string.found.largest_move}},
                "Brace each as it comes to the line; read the string again."),
            string.found.tolerance, string.found.tolerance_given ? described : common_practice);
        step.mark_columns = {"at", "off", "move by"};
        step.marks_from = "Stations along the string; offsets count to the side they were read to.";
        for (std::size_t i = 0; i < string.found.stations.size(); ++i) {
            const StationOff& s = string.found.stations[i];
            step.marks.push_back(mark_at(std::to_string(i + 1), {s.station, s.off, s.move}, in.roof.tick));
        }
        steps.push_back(std::move(step));
    }
}

inline void add_tail_steps(const SiteInput& in, std::vector<SiteStep>& steps) {
    for (const NamedResult<TailTrim>& tails : in.result.truing->tails) {
        SiteStep step =
            step_of(SiteStepKind::tails, "Tails " + tails.name + ": trim to one line",
                    "Snap the line at both ends, then cut. Line " + spelled(name_of(tails.found.rule)) + ".",
                    {{"line at the first tail", tails.found.at_first},
                     {"line at the last tail", tails.found.at_last},
                     {"largest cut", tails.found.largest_cut}},
                    "A tail too short for the line is packed out; the fascia goes to the string.");
        step.mark_columns = {"at", "reaches", "cut off"};
        step.marks_from = "Reach past the string.";
        for (std::size_t i = 0; i < tails.found.cuts.size(); ++i) {
            const TrimmedTail& t = tails.found.cuts[i];
            step.marks.push_back(mark_at(std::to_string(i + 1), {t.station, t.reach, t.cut}, in.roof.tick));
        }
        steps.push_back(std::move(step));
    }
}

[[nodiscard]] inline std::string mark_name(const SiteInput& in, std::size_t point) {
    return spelled(in.result.truing->network->points[point].name);
}

/// What the readings leave open: loose marks, a reading that stands out, readings nobody checks.
inline void add_read_again_step(const SiteInput& in, std::vector<SiteStep>& steps) {
    const TruingResult& truing = *in.result.truing;
    if (!truing.network || truing.network->standing == NetworkStanding::agree) {
        return;
    }
    const NetworkStanding standing = truing.network->standing;
    std::string words =
        "The readings " +
        std::string{standing == NetworkStanding::not_checked ? "are just enough: a wrong one would not show."
                    : standing == NetworkStanding::loose     ? "cannot decide where some marks are:"
                    : standing == NetworkStanding::blunder_placed
                        ? "disagree, and one alone explains why: read it again."
                    : standing == NetworkStanding::blunder_not_placed
                        ? "disagree; which is wrong cannot be told: read all that stand below again."
                        : "disagree, and no single one explains it: read all again, look for slipped marks."};
    for (const std::size_t loose : truing.network->loose) {
        words += " " + mark_name(in, loose) + ".";
    }
    if (truing.heights_wanted) {
        words += " No distance tells: read the heights of the corners with a level.";
    }
    SiteStep step = step_of(SiteStepKind::read_again, "Read again before anything is pulled", std::move(words), {},
                            "Give the new readings and lay out again.");
    for (const std::size_t suspect : truing.network->suspects) {
        const AdjustedReading& r = truing.network->readings[suspect];
        step.correction.push_back({"reading " + std::to_string(suspect + 1) + ", as read", r.read});
    }
    for (const NextReading& next : truing.next) {
        step.expected.push_back({"next: " + mark_name(in, next.from) + " to " + mark_name(in, next.to), next.expected});
    }
    steps.push_back(std::move(step));
}

/// Why something cannot be pulled, in words.
[[nodiscard]] inline std::string obstacle_words(PullObstacle obstacle) {
    switch (obstacle) {
        case PullObstacle::points_held: return "its points are held";
        case PullObstacle::members_fix_it: return "members fix it: unequal sides stay unequal";
        case PullObstacle::no_strap_moves_it: return "no strap pulls that way";
        case PullObstacle::no_position_found: return "the members lock";
        case PullObstacle::conditions_contradict: return "it cannot be had together with the others: an eave has slid";
        case PullObstacle::would_have_to_push: return "a strap would have to push";
        case PullObstacle::strap_limit: return "a strap would have to come shorter than it may";
        case PullObstacle::moves_too_far: return "a mark would have to go further than it may";
        case PullObstacle::none: break;
    }
    return "nothing keeps it";
}

/// Steps show the conditions that pulls change: the others stand among what no pull cures, or are as they were.
[[nodiscard]] inline bool is_pulled(const PulledCondition& each) {
    return magnitude(each.after.misfit - each.now.misfit) > count_tolerance;
}

[[nodiscard]] inline SiteStep pull_step(const PullPlan<BuildingPoint>& plan, std::size_t index) {
    const PullStep& pull = plan.steps[index];
    const std::string count = std::to_string(index + 1) + " of " + std::to_string(plan.steps.size());
    SiteStep step =
        step_of(SiteStepKind::pull, "Pull " + count + ": " + spelled(pull.name),
                "Slacken what is named, read; tighten little by little, read. The caution on pulling first.", {},
                "Not as foretold: let go, read every mark again, lay out the next round from those.");
    for (std::size_t c = 0; c < pull.conditions.size(); ++c) {
        if (is_pulled(plan.conditions[c])) {
            step.expected.push_back({spelled(plan.conditions[c].name), pull.conditions[c].first});
            step.expected.push_back({"and", pull.conditions[c].second});
        }
    }
    for (const Slackening& slack : pull.slacken_first) {
        step.correction.push_back({"slacken " + spelled(slack.name) + " by at least", slack.by_ticks});
    }
    step.correction.push_back({"tighten " + spelled(pull.name) + " by", pull.tighten_by_ticks});
    step.correction.push_back({"between its ends then", pull.target});
    return step;
}

/// A warning where the pulls share out what cannot be cured: a condition that was within its limit comes out of it.
[[nodiscard]] inline std::string taken_out_words(const PulledCondition& each) {
    return !each.met && magnitude(each.now.misfit) <= each.tolerance
               ? " As found it is within its limit: these pulls take it out."
               : "";
}

/// What stays off after all pulls, each with its reason.
[[nodiscard]] inline std::optional<SiteStep> unpulled_step(const PullPlan<BuildingPoint>& plan) {
    SiteStep step = step_of(SiteStepKind::pull, "What no pull cures", "As read:", {}, "Lay it true: see there.");
    for (const PulledCondition& each : plan.conditions) {
        if (!each.met) {
            step.reading +=
                " " + spelled(each.name) + ": " + obstacle_words(each.obstacle) + "." + taken_out_words(each);
            step.expected.push_back({spelled(each.name) + " left off by", magnitude(each.after.misfit)});
            step.expected.push_back({"alone it could come to", each.best});
        }
    }
    return step.expected.empty() ? std::nullopt : std::optional<SiteStep>{std::move(step)};
}

inline void add_pull_steps(const SiteInput& in, std::vector<SiteStep>& steps) {
    const std::optional<PullPlan<BuildingPoint>>& plan = in.result.truing->pulls;
    if (!plan) {
        return;
    }
    for (std::size_t i = 0; i < plan->steps.size(); ++i) {
        steps.push_back(pull_step(*plan, i));
    }
    if (std::optional<SiteStep> rest = unpulled_step(*plan)) {
        steps.push_back(std::move(*rest));
    }
}

inline void add_twist_step(const SiteInput& in, std::vector<SiteStep>& steps) {
    for (const NamedResult<Twist>& crossing : in.result.truing->crossings) {
        if (crossing.name == in.slope.name) {
            const Twist& t = crossing.found;
            steps.push_back(with_limit(
                step_of(
                    SiteStepKind::twist, "Flat, by crossed strings: " + spelled(name_of(t.verdict)),
                    "The gap where strings over both diagonals cross is half of what a corner stands off the others.",
                    {{"gap", t.gap}, {"corner off the other three", t.largest}},
                    t.strings_touch ? "The strings touch: change them over and read again."
                                    : "Raise the low corner or ease the high one at its post; read again."),
                t.tolerance, t.tolerance_given ? described : common_practice));
        }
    }
}

inline void add_shim_steps(const SiteInput& in, std::vector<SiteStep>& steps) {
    for (const NamedResult<PurlinLine>& purlin : in.result.truing->purlins) {
        SiteStep step = with_limit(
            step_of(SiteStepKind::shims, "Purlin " + purlin.name + ": " + spelled(name_of(purlin.found.verdict)),
                    std::string{purlin_print_note}, {{"tallest shims", purlin.found.largest_shim}},
                    "String it again once the shims are in."),
            purlin.found.tolerance, purlin.found.tolerance_given ? described : common_practice);
        step.mark_columns = {"at", "over the line", "shim", "plane"};
        step.marks_from = "Supports along the string.";
        for (std::size_t i = 0; i < purlin.found.supports.size(); ++i) {
            const PurlinSupport& s = purlin.found.supports[i];
            step.marks.push_back(mark_at(std::to_string(i + 1), {s.station, s.off, s.shim, s.plane}, in.roof.tick));
        }
        steps.push_back(std::move(step));
    }
}

[[nodiscard]] inline std::string remedy_words(const SheetsShown& sheets) {
    return sheets.rows_off == 0 ? std::string{" Joints stay on their supports."}
                                : " Joints leave " + std::to_string(sheets.rows_off) +
                                      " of the supports: cleats or another rip, as the "
                                      "result lists.";
}

/// One layer laid as the slope stands: the lines to snap, first and last rip at both ends, the step at the eave.
[[nodiscard]] inline SiteStep lay_true_step(const LaidTrue& laid, std::string_view layer) {
    const LayWay& w = laid.best;
    SiteStep step = step_of(SiteStepKind::lay_true, "Laid so that it does not show: " + std::string{layer},
                            "Grid " + spelled(name_of(w.way)) + ", chosen for: " + std::string{describe(laid.reason)} +
                                "." + (w.sheets ? remedy_words(*w.sheets) : std::string{}),
                            {}, "Snap both lines before the first piece; they run from the eave's left corner.");
    step.expected = {{"line along passes the eave's right corner above by", w.above_eave_right},
                     {"line across at the ridge, to the right by", w.right_at_ridge},
                     {"widest wedge at an edge", w.worst_wedge}};
    const GridRips& rips = w.sheets ? w.sheets->rips : w.panels->rips;
    step.correction = {{"first rip at its ends", rips.low.at_first},
                       {"and", rips.low.at_second},
                       {"last rip at its ends", rips.high.at_first},
                       {"and", rips.high.at_second}};
    if (w.panels) {
        step.expected.push_back({"step at the eave from panel to panel", w.eave_step});
        step.expected.push_back({"shortest panel", w.panels->steps.shortest});
        step.expected.push_back({"longest panel", w.panels->steps.longest});
    }
    for (const EdgeTrim& edge : w.edges) {
        if (edge.must_hide > count_tolerance) {
            step.expected.push_back({spelled(name_of(edge.wedge.edge)) + " trim must hide", edge.must_hide});
        }
    }
    return step;
}

inline void add_lay_true_steps(const SiteInput& in, std::vector<SiteStep>& steps) {
    const Length mark = in.roof.tick.step();
    if (in.slope.lay_true && in.slope.lay_true->ways.front().worst_wedge > mark) {
        steps.push_back(lay_true_step(*in.slope.lay_true, in.slope.lay_true->best.sheets ? "sheets" : "steel"));
    }
    if (in.slope.lay_steel_true && in.slope.lay_steel_true->ways.front().worst_wedge > mark) {
        steps.push_back(lay_true_step(*in.slope.lay_steel_true, "steel"));
    }
}

/// Every step that readings bring.
inline void add_truing_steps(const SiteInput& in, std::vector<SiteStep>& steps) {
    if (in.result.truing) {
        add_posts_step(in, steps);
        add_wall_steps(in, steps);
        add_string_steps(in, steps);
        add_tail_steps(in, steps);
        add_read_again_step(in, steps);
        add_pull_steps(in, steps);
        add_twist_step(in, steps);
        add_shim_steps(in, steps);
    }
    add_lay_true_steps(in, steps);
}

}  // namespace eavewright::detail
