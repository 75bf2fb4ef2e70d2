// SPDX-License-Identifier: BSL-1.0
#pragma once

// The roof seen from above as it was found: marks with their errors, arrows for what moves, straps with what to do to
// them, and readings that cannot stand.

#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/truing_view.hpp>
#include <eavewright/drawing/truing_words.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/squaring/error_ellipse.hpp>
#include <eavewright/squaring/pulls.hpp>
#include <eavewright/units/building_point.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/roof_readings.hpp>
#include <eavewright/whole_roof/site_truing_steps.hpp>
#include <eavewright/whole_roof/truing_result.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

namespace detail {

inline constexpr std::string_view tight_pen = R"(stroke="#000" stroke-width="3" fill="none")";
inline constexpr std::string_view slack_pen = R"(stroke="#000" stroke-width="1.4" stroke-dasharray="7 4" fill="none")";
inline constexpr std::string_view ellipse_pen = R"(stroke="#000" stroke-width="1" fill="#ddd")";
inline constexpr std::string_view wanted_pen =
    R"(stroke="#000" stroke-width="2" stroke-dasharray="1.5 3" stroke-linecap="round" fill="none")";
inline constexpr std::string_view suspect_pen =
    R"(stroke="#000" stroke-width="2.6" stroke-dasharray="11 5" fill="none")";

/// The marks themselves, and the room they take from words.
inline void draw_marks(Page& page, const TruingResult& truing, const TruingView& view, LabelRoom& room) {
    for (const auto& point : truing.network->points) {
        const SvgPoint at = view.at(point.place);
        if (point.loose) {
            page.svg.circle(at, 7.0, R"(fill="#fff" stroke="#000" stroke-width="1.4")");
            page.svg.text({at.x, at.y + 3.5}, "?", {.size = least_text, .anchor = TextAnchor::middle, .bold = true});
            room.taken.push_back({at.x - 8.0, at.y - 8.0, at.x + 8.0, at.y + 8.0});
            continue;
        }
        const ErrorEllipse region = scaled(point.plan, ellipse_factor(0.95));
        const double units = view.scale * view.ellipses;
        draw_ellipse(page.svg, at, region, units, ellipse_pen);
        page.svg.circle(at, 3.0, R"(fill="#000")");
        const double a = inches(region.long_axis) * units;
        const double b = inches(region.short_axis) * units;
        const double wide = greater(std::sqrt(a * a * region.along * region.along + b * b * region.up * region.up), 3);
        const double high = greater(std::sqrt(a * a * region.up * region.up + b * b * region.along * region.along), 3);
        room.taken.push_back({at.x - wide, at.y - high, at.x + wide, at.y + high});
    }
}

/// Names beside their marks, outwards first. The first boxes that `room` has taken are those of the marks.
inline void name_marks(Page& page, const TruingResult& truing, const TruingView& view, LabelRoom& room) {
    const auto& points = truing.network->points;
    double middle = 0.0;
    for (const auto& point : points) {
        middle += view.at(point.place).y / static_cast<double>(points.size());
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
        const SvgPoint at = view.at(points[i].place);
        const Box mark = room.taken[i];
        const SvgPoint over{at.x, mark.top - 8.0};
        const SvgPoint under{at.x, mark.bottom + 8.0};
        const bool below = at.y > middle + 1.0;
        room.place(page, spelled(points[i].name) + (points[i].loose ? ", loose" : ""), at,
                   {below ? under : over, below ? over : under, {at.x, over.y - 11.0}, {at.x, under.y + 11.0}}, true);
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
    for (std::size_t s = 0; s < truing.straps.size(); ++s) {
        const StrapWork work = work_on(page, *truing.pulls, s);
        const auto& points = truing.network->points;
        page.svg.line(view.at(points[truing.straps[s].from].place), view.at(points[truing.straps[s].to].place),
                      work.tightened       ? tight_pen
                      : work.words.empty() ? diagonal_pen
                                           : slack_pen);
    }
}
/// Their words stand on them.
inline void name_straps(Page& page, const TruingResult& truing, const TruingView& view, LabelRoom& room) {
    const auto& points = truing.network->points;
    for (std::size_t s = 0; s < truing.straps.size(); ++s) {
        const StrapWork work = work_on(page, *truing.pulls, s);
        if (work.words.empty()) {
            continue;
        }
        const SvgPoint a = view.at(points[truing.straps[s].from].place);
        const SvgPoint b = view.at(points[truing.straps[s].to].place);
        std::vector<SvgPoint> places;
        for (const double share : {0.3, 0.7, 0.25, 0.75, 0.35, 0.65, 0.2, 0.8, 0.5}) {
            places.push_back({a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)});
        }
        room.place(page, work.words, {(a.x + b.x) / 2.0, (a.y + b.y) / 2.0}, places, work.tightened);
    }
}

[[nodiscard]] inline SvgPoint moved(const TruingView& view, const PulledPoint<BuildingPoint>& each) {
    const SvgPoint from = view.at(each.from);
    return {from.x + inches(each.to.x - each.from.x) * view.scale * view.arrows,
            from.y - inches(each.to.y - each.from.y) * view.scale * view.arrows};
}

/// Moves of the marks: from where they were found, `arrows` times as long.
inline void draw_moves(Page& page, const TruingResult& truing, const TruingView& view, LabelRoom& room) {
    for (const auto& each : truing.pulls->moves) {
        if (!is_nothing(page, each.distance)) {
            draw_move(page.svg, view.at(each.from), moved(view, each));
            room.take_line(view.at(each.from), moved(view, each));
        }
    }
}
inline void name_moves(Page& page, const TruingResult& truing, const TruingView& view, LabelRoom& room) {
    for (const auto& each : truing.pulls->moves) {
        if (is_nothing(page, each.distance)) {
            continue;
        }
        const SvgPoint from = view.at(each.from);
        const SvgPoint to = moved(view, each);
        const Length rise = each.to.z - each.from.z;
        std::string words = page.figure(each.distance);
        if (!is_nothing(page, rise)) {  // an arrow seen from above does not show it
            words += (rise > no_length ? ", up " : ", down ") + page.figure(magnitude(rise));
        }
        const double x = (from.x + to.x) / 2.0;
        std::vector<SvgPoint> places;
        for (const double away : {12.0, 17.0, 22.0, 27.0}) {
            places.push_back({to.x, to.y + away});
            places.push_back({x, from.y + away});
            places.push_back({to.x, to.y - away});
            places.push_back({x, from.y - away});
        }
        room.place(page, words, to, places, true);
    }
}

[[nodiscard]] inline std::optional<SvgPoint> mark_on_page(const TruingResult& truing, const TruingView& view,
                                                          const std::string& name) {
    for (const auto& point : truing.network->points) {
        if (point.name == name) {
            return view.at(point.place);
        }
    }
    return std::nullopt;
}

/// What was read, thin; what is suspect, heavy and dashed; what to read next, dotted.
inline void draw_readings(Page& page, const TruingResult& truing, const TruingView& view, const RoofReadings& read) {
    const auto& points = truing.network->points;
    const std::vector<std::size_t>& suspects = truing.network->suspects;
    for (const bool suspect : {false, true}) {
        for (std::size_t i = 0; i < read.distances.size(); ++i) {
            const auto a = mark_on_page(truing, view, read.distances[i].from);
            const auto b = mark_on_page(truing, view, read.distances[i].to);
            if (a && b && suspect == (std::find(suspects.begin(), suspects.end(), i) != suspects.end())) {
                page.svg.line(*a, *b, suspect ? suspect_pen : thin_pen);
            }
        }
    }
    for (const NextReading& next : truing.next) {
        page.svg.line(view.at(points[next.from].place), view.at(points[next.to].place), wanted_pen);
    }
}
inline void name_suspects(Page& page, const TruingResult& truing, const TruingView& view, const RoofReadings& read,
                          LabelRoom& room) {
    for (const std::size_t suspect : truing.network->suspects) {
        const RoofDistance* distance = distance_read(read, suspect);
        const auto a = distance ? mark_on_page(truing, view, distance->from) : std::nullopt;
        const auto b = distance ? mark_on_page(truing, view, distance->to) : std::nullopt;
        if (a && b) {
            std::vector<SvgPoint> places;
            for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7}) {
                places.push_back({a->x + share * (b->x - a->x), a->y + share * (b->y - a->y)});
            }
            room.place(page, "reading " + std::to_string(suspect + 1) + "?", places.front(), places, true);
        }
    }
}

inline void draw_legend(Page& page, const TruingResult& truing, const TruingView& view) {
    const TruingSizes sizes = truing_sizes(truing);
    if (!is_nothing(page, sizes.move)) {
        draw_scale_bar(page, "moves", view.arrows, view.scale, sizes.move);
    }
    if (sizes.error > one_inch / 1000.0) {
        draw_scale_bar(page, "where marks lie 95 in 100", view.ellipses, view.scale, sizes.error);
    }
    page.y += 4.0;
}

inline void draw_truing_plan(Page& page, const TruingResult& truing, const RoofReadings& read) {
    const TruingView view = truing_view(page, truing);
    const auto& points = truing.network->points;
    LabelRoom room{{2.0, page.y + 4.0, page.width - 2.0, view.y + 44.0}};
    if (truing.pulls) {
        for (const JoinedMarks& member : truing.members) {
            page.svg.line(view.at(points[member.from].place), view.at(points[member.to].place), thin_pen);
        }
        draw_straps(page, truing, view);
    } else {
        draw_readings(page, truing, view, read);
    }
    draw_marks(page, truing, view, room);
    if (truing.pulls) {
        draw_moves(page, truing, view, room);
    }
    name_marks(page, truing, view, room);
    if (truing.pulls) {
        name_moves(page, truing, view, room);
        name_straps(page, truing, view, room);
    } else {
        name_suspects(page, truing, view, read, room);
    }
    page.y = view.y + 54.0;
    page.svg.text({page.width / 2.0, page.y}, "front, seen from above",
                  {.size = least_text, .anchor = TextAnchor::middle});
    draw_legend(page, truing, view);
    for (const std::string& words : room.unplaced) {
        page.paragraph("No room in the drawing for: " + words + ".", least_text);
    }
}

}  // namespace detail

/// The roof from above as its readings found it, and what to pull, as a standalone SVG document. Every figure is a
/// field of `result.truing`; the enlargements of arrows and errors are round numbers and written beside a bar. `read`,
/// the readings that led to it, name the suspect ones and draw them; without them they go by number alone. Only
/// `options.title`, `tick` and `page_width` are used. The same arguments give the same bytes. Throws `FaultError`: the
/// first fault of `options`; missing_field where no mark was read from another.
[[nodiscard]] inline std::string draw_truing(const RoofResult& result, const DrawingOptions& options,
                                             const RoofReadings& read = {}) {
    require_sound(options, "options");
    if (!result.truing || !result.truing->network || result.truing->network->points.empty()) {
        throw FaultError{Fault{FaultCode::missing_field, "result.truing.network", "", "readings between marks"}};
    }
    const TruingResult& truing = *result.truing;
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    const std::string title = options.title.empty() ? "Is it true" : options.title;
    page.paragraph(title, 14.0, true);
    page.paragraph(drawing_caution, 10.0, true);
    page.y += 2.0;
    page.paragraph(pulling_caution, 10.0);
    page.y += 4.0;
    for (const SlopeTruing& slope : truing.slopes) {
        detail::write_slope_truth(page, slope);
    }
    page.paragraph("Readings, " + std::to_string(truing.network->spare) +
                       " to spare: " + std::string{detail::standing_words(truing.network->standing)} + ".",
                   10.0);
    detail::draw_truing_plan(page, truing, read);
    if (truing.pulls) {
        detail::write_pulls(page, *truing.pulls);
    } else {
        detail::write_read_again(page, truing, read);
    }
    return page.svg.document(page.width, page.y + detail::page_margin, title,
                             "Plan of " + std::to_string(truing.network->points.size()) + " marks. " +
                                 std::string{drawing_caution} + " " + std::string{pulling_caution});
}

}  // namespace eavewright
