// SPDX-License-Identifier: BSL-1.0
#pragma once

// The arithmetic behind purlin_line.hpp: the line that takes the least shims, in whole ticks.
//
// Over a given line every support's shim is settled: the fewest ticks that bring its top up to the line less the
// tolerance. Lowering the line never takes more, so the best line lies on a support that stands as high as it may
// (its top is the line plus the tolerance), and may be turned there until it meets another such support or until one more
// tick would be needed somewhere. Only corners of the upper hull can be such a support. That leaves few lines to try.

#include <eavewright/squaring/line_fit.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace eavewright::squaring_detail {

struct ShimPlan {
    PlainLine line;
    std::vector<std::int64_t> ticks;
    std::vector<bool> planed;
    std::int64_t total;
    std::int64_t shimmed;
    std::int64_t tallest;
};

/// Whether `a` is to be preferred to `b`: fewer ticks, then lower stacks, then fewer of them.
[[nodiscard]] inline bool takes_less(const ShimPlan& a, const ShimPlan& b) {
    return a.total != b.total       ? a.total < b.total
           : a.tallest != b.tallest ? a.tallest < b.tallest
                                    : a.shimmed < b.shimmed;
}

/// The fewest ticks that bring a top at `p` up to `line` less the band.
[[nodiscard]] inline double ticks_under(const PlainLine& line, const LinePoint& p, double band, double step) {
    const double short_of = line.at(p.x) - band - p.y - inches(count_tolerance);
    return short_of > 0.0 ? std::ceil(short_of / step) : 0.0;
}

/// The fewest ticks over `line`, point by point.
[[nodiscard]] inline ShimPlan shims_under(const PlainLine& line, const LinePoints& points, double band, double step) {
    ShimPlan plan{line, {}, std::vector<bool>(points.size(), false), 0, 0, 0};
    plan.ticks.reserve(points.size());
    for (const LinePoint& p : points) {
        const auto ticks = static_cast<std::int64_t>(ticks_under(line, p, band, step));
        plan.ticks.push_back(ticks);
        plan.total += ticks;
        plan.shimmed += ticks > 0 ? 1 : 0;
        plan.tallest = ticks > plan.tallest ? ticks : plan.tallest;
    }
    return plan;
}

/// Takes the plan over `line` where it is better; gives up as soon as its sum is more.
inline void try_line(ShimPlan& best, const PlainLine& line, const LinePoints& points, double band, double step) {
    const auto most = static_cast<double>(best.total);
    double total = 0.0;
    for (std::size_t i = 0; i < points.size() && total <= most; ++i) {
        total += ticks_under(line, points[i], band, step);
    }
    if (total > most) {
        return;
    }
    ShimPlan plan = shims_under(line, points, band, step);
    if (takes_less(plan, best)) {
        best = std::move(plan);
    }
}

/// Tries the lines through the top `pivot` may have, with slopes from `least` to `most`, that bring some support to the
/// verge of one more tick.
inline void try_turns(ShimPlan& best, const LinePoint& pivot, double least, double most, const LinePoints& points,
                      double band, double step) {
    const double level = pivot.y - band;
    for (const LinePoint& p : points) {
        const double reach = p.x - pivot.x;
        if (reach == 0.0) {
            continue;
        }
        const double one = level + least * reach;
        const double other = level + most * reach;
        const double low = one < other ? one : other;
        const double high = one < other ? other : one;
        // The line stands at p.y + band + k step where its shim is k ticks to the full; more than the best sum never pays.
        const double first = std::ceil((low - band - p.y) / step);
        for (double k = first > 0.0 ? first : 0.0; k <= static_cast<double>(best.total); k += 1.0) {
            const double there = p.y + band + k * step;
            if (there > high) {
                break;
            }
            try_line(best, PlainLine{pivot.x, level, (there - level) / reach}, points, band, step);
        }
    }
}

/// The least shims, nothing planed.
[[nodiscard]] inline ShimPlan least_shims(const LinePoints& points, double band, double step) {
    const std::vector<std::size_t> hull = hull_of(points, 1.0);
    const auto edge = [&](std::size_t k) {
        const PlainLine line = line_through(points[hull[k]], points[hull[k + 1]]);
        return PlainLine{line.x0, line.y0 - band, line.slope};
    };
    ShimPlan best = shims_under(edge(0), points, band, step);
    for (std::size_t k = 1; k + 1 < hull.size(); ++k) {
        try_line(best, edge(k), points, band, step);
    }
    for (std::size_t k = 1; k + 1 < hull.size(); ++k) {
        try_turns(best, points[hull[k]], edge(k).slope, edge(k - 1).slope, points, band, step);
    }
    return best;
}

/// How much stands over a line and must be planed.
struct Planing {
    PlainLine line;
    std::size_t count;
    double depth;  ///< of all of them
    double ticks;  ///< of shims under the line
};
[[nodiscard]] inline double planed_over(const PlainLine& line, const LinePoint& p, double band) {
    const double over = p.y - band - line.at(p.x);
    return over > inches(count_tolerance) ? over : 0.0;
}

/// The plan that keeps every stack within `most_ticks`: the fewest supports planed, of these the least depth. Under a
/// fixed choice of what is planed, the lines that do are bounded by the heights that single supports set, what stands as
/// high as it may or takes as many ticks as it may; so one through two of such heights is the best, and all are tried.
[[nodiscard]] inline ShimPlan plane_fewest(const LinePoints& points, double band, double step,
                                           std::int64_t most_ticks) {
    const double most = band + static_cast<double>(most_ticks) * step;
    std::optional<Planing> best;
    const auto try_planing = [&](const PlainLine& line) {
        Planing now{line, 0, 0.0, 0.0};
        for (const LinePoint& p : points) {
            const double over = planed_over(line, p, band);
            now.count += over > 0.0 ? 1 : 0;
            now.depth += over;
            now.ticks += ticks_under(line, p, band, step);
            if (line.at(p.x) > p.y + most + inches(count_tolerance) || (best && now.count > best->count)) {
                return;
            }
        }
        if (!best || now.count < best->count || now.depth < best->depth ||
            (!(now.depth > best->depth) && now.ticks < best->ticks)) {
            best = now;
        }
    };
    for (std::size_t a = 0; a < points.size(); ++a) {
        for (std::size_t b = a + 1; b < points.size(); ++b) {
            for (const double at_a : {points[a].y - band, points[a].y + most}) {
                for (const double at_b : {points[b].y - band, points[b].y + most}) {
                    try_planing(line_through(LinePoint{points[a].x, at_a}, LinePoint{points[b].x, at_b}));
                }
            }
        }
    }
    // The lowest edge of what shims may reach is among the lines tried, so one was found.
    const PlainLine line = best ? best->line : line_through(points[0], points[points.size() - 1]);
    ShimPlan plan = shims_under(line, points, band, step);
    for (std::size_t i = 0; i < points.size(); ++i) {
        plan.planed[i] = planed_over(line, points[i], band) > 0.0;
    }
    return plan;
}

/// The least shims, or where a stack would come taller than `most_ticks`, the fewest planed.
[[nodiscard]] inline ShimPlan plan_shims(const LinePoints& points, double band, double step, std::int64_t most_ticks) {
    ShimPlan plan = least_shims(points, band, step);
    return plan.tallest > most_ticks ? plane_fewest(points, band, step, most_ticks) : plan;
}

}  // namespace eavewright::squaring_detail
