// SPDX-License-Identifier: BSL-1.0
#pragma once

// How marks of a roof lie on the page, how much their moves and errors are enlarged, and where words about them find
// room. Moves and errors are far too short to see on a roof: each kind is enlarged by a round number beside a bar.

#include <eavewright/drawing/label_place.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/svg_text.hpp>
#include <eavewright/drawing/text_fit.hpp>
#include <eavewright/squaring/error_ellipse.hpp>
#include <eavewright/units/building_point.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>
#include <eavewright/whole_roof/truing_result.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright::detail {

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

/// So many times that `longest` takes no more than `room` on the page.
[[nodiscard]] inline double enlarged_into(Length longest, double room, double units_an_inch) {
    return longest > one_inch / 1000.0 ? round_enlargement(room / (inches(longest) * units_an_inch)) : 1.0;
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

[[nodiscard]] inline Length move_in_plan(const PulledPoint<BuildingPoint>& each) {
    return hypotenuse(each.to.x - each.from.x, each.to.y - each.from.y);
}

/// Longest move in plan, and longest half axis of a region that holds 95 %.
struct TruingSizes {
    Length move;
    Length error;
};
[[nodiscard]] inline TruingSizes truing_sizes(const TruingResult& truing) {
    TruingSizes sizes{no_length, no_length};
    if (truing.pulls) {
        for (const auto& each : truing.pulls->moves) {
            sizes.move = longer(sizes.move, move_in_plan(each));
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
    return {low.x,
            low.y,
            (page.width - wide * scale) / 2.0,
            page.y + 40.0 + deep * scale,
            scale,
            enlarged_into(sizes.move, 44.0, scale),
            enlarged_into(sizes.error, 15.0, scale)};
}

/// Words on a white ground that keep clear of marks, arrows and each other.
struct LabelRoom {
    Box bounds;
    std::vector<Box> taken{};
    std::vector<std::string> unplaced{};  ///< what found no room, to be written below

    /// An arrow, as boxes along it.
    void take_line(SvgPoint a, SvgPoint b) {
        constexpr int parts = 6;
        for (int i = 0; i <= parts; ++i) {
            const SvgPoint p{a.x + (b.x - a.x) * i / parts, a.y + (b.y - a.y) * i / parts};
            taken.push_back({p.x - 3.5, p.y - 3.5, p.x + 3.5, p.y + 3.5});
        }
    }

    /// At the first of `places` that is free; else beside `of`, tied to it by a leader; else among `unplaced`.
    void place(Page& page, const std::string& words, SvgPoint of, const std::vector<SvgPoint>& places,
               bool bold = false) {
        const double size = bold ? bold_room(least_text) : least_text;
        const std::vector<std::string> lines = wrap_text(words, size, 120.0);
        double half = 0.0;
        for (const std::string& line : lines) {
            half = greater(half, text_width(line, size) / 2.0);
        }
        const HalfBox box{half + 1.0, 0.55 * least_text * static_cast<double>(lines.size()) + 0.5};
        std::optional<SvgPoint> at;
        for (const SvgPoint& wish : places) {
            const SvgPoint on{greater(bounds.left + box.wide, lesser(wish.x, bounds.right - box.wide)), wish.y};
            const Box there = box.around(on);
            if (!at && there.top >= bounds.top && there.bottom <= bounds.bottom && is_free(there, taken)) {
                at = on;
            }
        }
        if (!at) {
            at = place_beside(of, box, bounds, taken, PageShape{{}, bounds.left, bounds.right}, 140.0);
            if (!at) {
                unplaced.push_back(words);
                return;
            }
            page.svg.line(of, *at, thin_pen);
        }
        taken.push_back(box.around(*at));
        double y = at->y - 0.55 * least_text * static_cast<double>(lines.size() - 1);
        for (const std::string& line : lines) {
            page.label({at->x, y}, line, {.size = least_text, .bold = bold});
            y += 1.1 * least_text;
        }
    }
};

/// An ellipse as a closed line: turned as its long axis lies, up the page where that points to the back.
inline void draw_ellipse(SvgText& svg, SvgPoint centre, const ErrorEllipse& e, double units_an_inch,
                         std::string_view pen) {
    constexpr int corners = 48;
    std::vector<SvgPoint> round;
    for (int i = 0; i < corners; ++i) {
        const double turn = 2.0 * pi * i / corners;
        const double along = std::cos(turn) * inches(e.long_axis) * units_an_inch;
        const double across = std::sin(turn) * inches(e.short_axis) * units_an_inch;
        round.push_back({centre.x + along * e.along - across * e.up, centre.y - along * e.up - across * e.along});
    }
    svg.polygon(round, pen);
}

/// From `a` to `b`, both to the point: the head never takes more than half, so that a short arrow stays one.
inline void draw_move(SvgText& svg, SvgPoint a, SvgPoint b) {
    const double length = std::sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
    if (length < 0.01) {
        return;  // as it would be written, no way at all
    }
    const double head = lesser(7.0, length / 2.0);
    const double ux = (b.x - a.x) / length;
    const double uy = (b.y - a.y) / length;
    const SvgPoint neck{b.x - head * ux, b.y - head * uy};
    const double wide = head / 2.0;
    svg.line(a, neck, R"(stroke="#000" stroke-width="1.6")");
    svg.polygon({b, {neck.x - wide * uy, neck.y + wide * ux}, {neck.x + wide * uy, neck.y - wide * ux}},
                R"(fill="#000")");
}

/// The longest round length that is not above `longest`: of the smallest, twice and so on of an inch, or 1, 2, 5 mm.
[[nodiscard]] inline Length round_bar(Length longest, Tick tick) {
    if (tick.is_metric()) {
        return Length::from_millimetres(round_enlargement(millimetres(longest) * 100.0) / 100.0);
    }
    Length bar = one_inch / 64.0;
    while (bar * 2.0 <= longest) {
        bar *= 2.0;
    }
    return bar;
}

/// A bar of a round length, enlarged as the thing it explains.
inline void draw_scale_bar(Page& page, std::string_view what, double enlargement, double units_an_inch,
                           Length longest) {
    const Length bar = round_bar(longest, page.tick);
    const double wide = inches(bar) * units_an_inch * enlargement;
    page.y += 13.0;
    page.svg.line({page_margin, page.y - 3.5}, {page_margin + wide, page.y - 3.5},
                  R"(stroke="#000" stroke-width="2.4")");
    page.svg.line({page_margin, page.y - 7.0}, {page_margin, page.y}, thin_pen);
    page.svg.line({page_margin + wide, page.y - 7.0}, {page_margin + wide, page.y}, thin_pen);
    const std::string figure =
        page.tick.is_metric() ? write_decimal(millimetres(bar), 2) + " mm" : write_length(bar, Tick::of_inch(64));
    const std::string words =
        figure + ": " + std::string{what} + ", drawn " + write_decimal(enlargement, 0) + " times as large";
    const double beside = page_margin + wide + 6.0;
    bool first = true;
    for (const std::string& line : wrap_text(words, least_text, page.width - page_margin - beside)) {
        page.y += first ? 0.0 : 1.2 * least_text;
        page.svg.text({beside, page.y}, line, {.size = least_text});
        first = false;
    }
}

}  // namespace eavewright::detail
