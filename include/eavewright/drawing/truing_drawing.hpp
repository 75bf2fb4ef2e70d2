// SPDX-License-Identifier: BSL-1.0
#pragma once

// The roof seen from above as it was found: marks with their errors, arrows for what moves, straps with what to do to them.
// Arrows and errors are far too short to see on a roof: each kind is enlarged by a round number that stands beside a bar.

#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/squaring/error_ellipse.hpp>
#include <eavewright/squaring/pulls.hpp>
#include <eavewright/units/building_point.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/site_truing_steps.hpp>
#include <eavewright/whole_roof/truing_result.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

namespace detail {

inline constexpr std::string_view tight_pen = R"(stroke="#000" stroke-width="3" fill="none")";
inline constexpr std::string_view slack_pen = R"(stroke="#000" stroke-width="1.4" stroke-dasharray="7 4" fill="none")";
inline constexpr std::string_view ellipse_pen = R"(stroke="#000" stroke-width="1" fill="#ddd")";
inline constexpr std::string_view suspect_pen =
    R"(stroke="#000" stroke-width="2" stroke-dasharray="1.5 3" stroke-linecap="round" fill="none")";

/// The largest of 1, 2, 5, 10, 20 ... that is not above `most`; 1 at least.
[[nodiscard]] inline double round_enlargement(double most) {
    double round = 1.0;
    for (double ten = 1.0; ten <= 1e6; ten *= 10.0) {
        for (const double step : {1.0, 2.0, 5.0}) {
            round = step * ten <= most ? step * ten : round;
        }
    }
    return round;
}

/// Marks on the page: x to the right, the front eave below.
struct TruingView {
    Length left;
    Length front;
    double x;
    double y;         ///< of the front
    double scale;     ///< drawing units an inch of the roof
    double arrows;    ///< enlargement of moves
    double ellipses;  ///< enlargement of errors
    [[nodiscard]] SvgPoint at(const BuildingPoint& p) const {
        return {x + inches(p.x - left) * scale, y - inches(p.y - front) * scale};
    }
};

/// Longest move in plan, and longest half axis of a region that holds 95 %.
struct TruingSizes {
    Length move;
    Length error;
};
[[nodiscard]] inline TruingSizes truing_sizes(const TruingResult& truing) {
    TruingSizes sizes{no_length, no_length};
    if (truing.pulls) {
        for (const auto& each : truing.pulls->moves) {
            sizes.move = longer(sizes.move, hypotenuse(each.to.x - each.from.x, each.to.y - each.from.y));
        }
    }
    for (const auto& point : truing.network->points) {
        sizes.error = longer(sizes.error, point.plan.long_axis * ellipse_factor(0.95));
    }
    return sizes;
}

[[nodiscard]] inline TruingView truing_view(const Page& page, const TruingResult& truing) {
    const auto& points = truing.network->points;
    BuildingPoint low = points.front().place;
    BuildingPoint high = low;
    for (const auto& point : points) {
        low = {shorter(low.x, point.place.x), shorter(low.y, point.place.y), low.z};
        high = {longer(high.x, point.place.x), longer(high.y, point.place.y), high.z};
    }
    constexpr double beside = 56.0;  // room for arrows, and for half of a name
    const double wide = greater(inches(high.x - low.x), 1.0);
    const double deep = greater(inches(high.y - low.y), 1.0);
    const double scale = lesser((page.width - 2.0 * beside) / wide, 1.2 * page.width / deep);
    const TruingSizes sizes = truing_sizes(truing);
    const auto enlarged = [&](Length longest, double room) {
        return longest > one_inch / 1000.0 ? round_enlargement(room / (inches(longest) * scale)) : 1.0;
    };
    return {low.x,
            low.y,
            beside,
            page.y + 34.0 + deep * scale,
            scale,
            enlarged(sizes.move, 44.0),
            enlarged(sizes.error, 15.0)};
}

/// An ellipse as a closed line: turned as its long axis lies, up the page where that points to the back.
inline void draw_ellipse(SvgText& svg, SvgPoint centre, const ErrorEllipse& e, double units_an_inch) {
    constexpr int corners = 48;
    std::vector<SvgPoint> round;
    for (int i = 0; i < corners; ++i) {
        const double turn = 2.0 * pi * i / corners;
        const double along = std::cos(turn) * inches(e.long_axis) * units_an_inch;
        const double across = std::sin(turn) * inches(e.short_axis) * units_an_inch;
        round.push_back({centre.x + along * e.along - across * e.up, centre.y - along * e.up - across * e.along});
    }
    svg.polygon(round, ellipse_pen);
}

inline void draw_marks(Page& page, const TruingResult& truing, const TruingView& view) {
    double middle = 0.0;
    for (const auto& point : truing.network->points) {
        middle += view.at(point.place).y / static_cast<double>(truing.network->points.size());
    }
    for (const auto& point : truing.network->points) {
        const SvgPoint at = view.at(point.place);
        if (!point.loose) {
            draw_ellipse(page.svg, at, scaled(point.plan, ellipse_factor(0.95)), view.scale * view.ellipses);
        }
        page.svg.circle(at, 3.0, point.loose ? R"(fill="#fff" stroke="#000" stroke-width="1.4")" : R"(fill="#000")");
        const std::string name = spelled(point.name) + (point.loose ? ", loose" : "");
        const double half = text_width(name, bold_room(least_text)) / 2.0;
        const double x = greater(half + 2.0, lesser(at.x, page.width - half - 2.0));
        const bool below = at.y > middle + 1.0;
        page.label({x, at.y + (below ? 24.0 : -24.0)}, name, {.size = least_text, .bold = true});
    }
}

/// What is done to one strap, in words and by which pen.
struct StrapWork {
    std::string words;
    bool tightened;
};
[[nodiscard]] inline StrapWork work_on(const Page& page, const PullPlan<BuildingPoint>& plan, std::size_t strap) {
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        if (plan.steps[i].strap == strap) {
            return {std::to_string(i + 1) + ": tighten " + page.figure(plan.steps[i].tighten_by_ticks), true};
        }
    }
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        for (const Slackening& slack : plan.steps[i].slacken_first) {
            if (slack.strap == strap) {
                return {"before " + std::to_string(i + 1) + ": slacken " + page.figure(slack.by_ticks), false};
            }
        }
    }
    return {"", false};
}

inline void draw_straps(Page& page, const TruingResult& truing, const TruingView& view) {
    const auto& points = truing.network->points;
    for (std::size_t s = 0; s < truing.straps.size(); ++s) {
        const StrapWork work = work_on(page, *truing.pulls, s);
        page.svg.line(view.at(points[truing.straps[s].from].place), view.at(points[truing.straps[s].to].place),
                      work.tightened       ? tight_pen
                      : work.words.empty() ? diagonal_pen
                                           : slack_pen);
    }
    for (std::size_t s = 0; s < truing.straps.size(); ++s) {
        const StrapWork work = work_on(page, *truing.pulls, s);
        if (work.words.empty()) {
            continue;
        }
        const SvgPoint a = view.at(points[truing.straps[s].from].place);
        const SvgPoint b = view.at(points[truing.straps[s].to].place);
        const double share = work.tightened ? 0.36 : 0.2;
        const double half = text_width(work.words, bold_room(least_text)) / 2.0;
        const double x = greater(half + 2.0, lesser(a.x + share * (b.x - a.x), page.width - half - 2.0));
        page.label({x, a.y + share * (b.y - a.y)}, work.words, {.size = least_text, .bold = work.tightened});
    }
}

/// Moves of the marks: from where they were found, `arrows` times as long.
inline void draw_moves(Page& page, const TruingResult& truing, const TruingView& view) {
    for (const auto& each : truing.pulls->moves) {
        const Length move = hypotenuse(each.to.x - each.from.x, each.to.y - each.from.y);
        if (move <= one_inch / 64.0) {
            continue;
        }
        const SvgPoint from = view.at(each.from);
        const SvgPoint to{from.x + inches(each.to.x - each.from.x) * view.scale * view.arrows,
                          from.y - inches(each.to.y - each.from.y) * view.scale * view.arrows};
        draw_arrow(page.svg, from, to);
        const std::string words = page.figure(each.distance);
        const double half = text_width(words, bold_room(least_text)) / 2.0;
        page.label({greater(half + 2.0, lesser((from.x + to.x) / 2.0, page.width - half - 2.0)), from.y + 12.0}, words,
                   {.size = least_text, .bold = true});
    }
}

/// A bar of a round length on the roof, enlarged as the thing it explains.
inline void draw_scale_bar(Page& page, std::string_view what, double enlargement, double units_an_inch,
                           Length longest) {
    const bool metric = page.tick.is_metric();
    Length bar = metric ? Length::from_millimetres(20.0) : one_inch;
    while (bar > longest && bar > (metric ? Length::from_millimetres(0.05) : one_inch / 64.0)) {
        bar /= 2.0;
    }
    const double wide = inches(bar) * units_an_inch * enlargement;
    page.y += 13.0;
    page.svg.line({page_margin, page.y - 3.5}, {page_margin + wide, page.y - 3.5},
                  R"(stroke="#000" stroke-width="2.4")");
    page.svg.line({page_margin, page.y - 7.0}, {page_margin, page.y}, thin_pen);
    page.svg.line({page_margin + wide, page.y - 7.0}, {page_margin + wide, page.y}, thin_pen);
    const std::string figure =
        metric ? write_decimal(millimetres(bar), 3) + " mm" : write_length(bar, Tick::of_inch(64));
    page.svg.text({page_margin + wide + 6.0, page.y},
                  figure + ": " + std::string{what} + ", drawn " + write_decimal(enlargement, 0) + " times as large",
                  {.size = least_text});
}

/// Readings that do not agree, as lines between their marks where they are distances.
inline void draw_truing_plan(Page& page, const TruingResult& truing) {
    const TruingView view = truing_view(page, truing);
    const auto& points = truing.network->points;
    for (const JoinedMarks& member : truing.members) {
        page.svg.line(view.at(points[member.from].place), view.at(points[member.to].place), thin_pen);
    }
    for (const NextReading& next : truing.next) {
        if (!truing.pulls) {
            page.svg.line(view.at(points[next.from].place), view.at(points[next.to].place), suspect_pen);
        }
    }
    if (truing.pulls) {
        draw_straps(page, truing, view);
    }
    draw_marks(page, truing, view);
    if (truing.pulls) {
        draw_moves(page, truing, view);
    }
    page.y = view.y + 38.0;
    page.svg.text({page.width / 2.0, page.y}, "front, seen from above",
                  {.size = least_text, .anchor = TextAnchor::middle});
    const TruingSizes sizes = truing_sizes(truing);
    if (sizes.move > one_inch / 64.0) {
        draw_scale_bar(page, "moves", view.arrows, view.scale, sizes.move);
    }
    if (sizes.error > one_inch / 1000.0) {
        draw_scale_bar(page, "where marks lie 95 in 100", view.ellipses, view.scale, sizes.error);
    }
    page.y += 4.0;
}

/// What a slope reads, and the rule that judged.
inline void write_slope_truth(Page& page, const SlopeTruing& slope) {
    const SquareJudgement& q = slope.square;
    if (!q.readings_agree && !q.loose_corner) {
        page.paragraph(in_words(slope.name) + ": the readings do not agree, so no figure is to be trusted.", 10.0,
                       true);
        return;
    }
    if (q.loose_corner) {
        page.paragraph(in_words(slope.name) + ": undecided, a corner is loose.", 10.0, true);
        return;
    }
    page.paragraph(in_words(slope.name) + ": " + spelled(name_of(q.verdict)) + ". Diagonals differ by " +
                       page.figure(magnitude(q.diagonals.value)) + ", the ridge is racked by " +
                       page.figure(magnitude(q.rack.value)) +
                       (q.rack.value < no_length ? " to the left." : " to the right."),
                   10.0, true);
    page.paragraph("Judged by: " + std::string{q.rule.name} + ", " + page.figure(q.rule.limit) + " (" +
                       std::string{q.rule.source} + ").",
                   10.0, false, 12.0);
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
            page.paragraph(spelled(each.name) + " stays off: " + obstacle_words(each.obstacle) +
                               ". These pulls leave " + page.figure(magnitude(each.after.misfit)) +
                               "; alone it could come to " + page.figure(each.best) + ".",
                           10.0, true);
        }
    }
    if (plan.verdict == PullVerdict::pullable) {
        page.paragraph("Chance that all ends within its limit: " + write_decimal(100.0 * plan.chance_within, 0) +
                           " in 100 pulled by these amounts, " + write_decimal(100.0 * plan.chance_pulled_to_read, 0) +
                           " in 100 pulled until the strap reads its length.",
                       10.0);
    }
}

}  // namespace detail

/// The roof from above as its readings found it, and what to pull, as a standalone SVG document. Every figure is a field of
/// `result.truing`; the enlargements of arrows and errors are round numbers and written beside a bar. Only `options.title`,
/// `tick` and `page_width` are used. The same arguments give the same bytes. Throws `FaultError`: the first fault of `options`;
/// missing_field where no mark was read from another.
[[nodiscard]] inline std::string draw_truing(const RoofResult& result, const DrawingOptions& options) {
    require_sound(options, "options");
    if (!result.truing || !result.truing->network || result.truing->network->points.empty()) {
        throw FaultError{Fault{FaultCode::missing_field, "result.truing.network", "", "readings between marks"}};
    }
    const TruingResult& truing = *result.truing;
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const std::string title = options.title.empty() ? "Is it true" : options.title;
    page.paragraph(title, 14.0, true);
    page.paragraph(drawing_caution, 10.0);
    page.paragraph(pulling_caution, 10.0);
    page.y += 4.0;
    for (const SlopeTruing& slope : truing.slopes) {
        detail::write_slope_truth(page, slope);
    }
    page.paragraph("Readings: " + detail::spelled(name_of(truing.network->standing)) + ", " +
                       std::to_string(truing.network->spare) + " to spare.",
                   10.0);
    detail::draw_truing_plan(page, truing);
    if (truing.pulls) {
        detail::write_pulls(page, *truing.pulls);
    } else {
        page.heading("Read again before anything is pulled");
        for (const std::size_t suspect : truing.network->suspects) {
            page.paragraph("Suspect: reading " + std::to_string(suspect + 1) + ", " +
                               page.figure(truing.network->readings[suspect].read) + ".",
                           10.0);
        }
        for (const NextReading& next : truing.next) {
            page.paragraph("Dotted: read " + detail::spelled(truing.network->points[next.from].name) + " to " +
                               detail::spelled(truing.network->points[next.to].name) + ".",
                           10.0);
        }
    }
    return page.svg.document(
        page.width, page.y + detail::page_margin, title,
        "Plan of " + std::to_string(truing.network->points.size()) + " marks. " + std::string{pulling_caution});
}

}  // namespace eavewright
