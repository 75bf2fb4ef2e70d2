// SPDX-License-Identifier: BSL-1.0
#pragma once

// What carries the end of a sheet, and how much of it. Works in the lane frame (lane_frame.hpp).

#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright::detail {

/// Index of the last support whose centre at `along` is not above `up`; none where all are.
[[nodiscard]] inline std::optional<std::size_t> last_support_below(const std::vector<SupportLine>& lines, Length along,
                                                                   Length up) {
    std::size_t low = 0;
    std::size_t high = lines.size();
    while (low < high) {
        const std::size_t middle = low + (high - low) / 2;
        if (up_at(lines[middle].centreline, along) <= up) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low == 0 ? std::nullopt : std::optional<std::size_t>{low - 1};
}

/// Whether there is wood of a support at `along`. Its end is cut along a slanted edge, so it reaches past the stretch of its
/// centre line by as much as its width.
[[nodiscard]] inline bool has_wood_at(const SupportLine& line, Length along) {
    for (const Span& stretch : line.stretches) {
        if (stretch.low - line.width <= along && along <= stretch.high + line.width) {
            return true;
        }
    }
    return line.stretches.empty();
}

/// Calls `visit(i)` for the supports with wood at `along` that lie nearest to `up`: two not above it, lowest first, then two
/// above.
template <class Visit>
void for_supports_near(const std::vector<SupportLine>& lines, Length along, Length up, Visit visit) {
    const std::optional<std::size_t> below = last_support_below(lines, along, up);
    std::size_t found[2] = {0, 0};
    std::size_t count = 0;
    for (std::size_t i = below ? *below + 1 : 0; i > 0 && count < 2; --i) {
        if (has_wood_at(lines[i - 1], along)) {
            found[count++] = i - 1;
        }
    }
    while (count > 0) {
        visit(found[--count]);
    }
    for (std::size_t i = below ? *below + 1 : 0; i < lines.size() && count < 2; ++i) {
        if (has_wood_at(lines[i], along)) {
            visit(i);
            ++count;
        }
    }
}

/// How much of a support lies under a sheet that ends at `end`, measured from the support's far side inward;
/// 0 where the end is not over the support. Narrowest along the end: the support may lie askew under it, or stop.
/// `outward` is +1 for the upper end of a sheet, -1 for its lower end.
[[nodiscard]] inline Length end_bearing(const SupportLine& line, Length end, Span along, double outward) {
    Length least = line.width;
    const auto take = [&](Length at) {
        const Length bearing = (end - up_at(line.centreline, at)) * outward + line.width / 2.0;
        const bool over = bearing >= no_length && bearing <= line.width + count_tolerance && has_wood_at(line, at);
        least = shorter(least, over ? bearing : no_length);
    };
    take(along.low);
    take(along.high);
    for (const PlanePoint& bend : line.centreline) {
        if (bend.along > along.low && bend.along < along.high) {
            take(bend.along);
        }
    }
    for (std::size_t i = 1; i < line.stretches.size(); ++i) {  // it may stop and go on between the two ends
        const Length stop = (line.stretches[i - 1].high + line.stretches[i].low) / 2.0;
        if (stop > along.low && stop < along.high) {
            take(stop);
        }
    }
    return least;
}

/// The support under a joint and the bearing of both ends on it.
struct JointBearing {
    std::optional<std::size_t> support;
    Length first;
    Length second;
};

/// Of the supports near a joint whose ends lie at `first_end` and `second_end`, the one on which the poorer end bears most.
[[nodiscard]] inline JointBearing joint_bearing(const std::vector<SupportLine>& lines, Length first_end,
                                                Length second_end, Span along) {
    JointBearing best{std::nullopt, no_length, no_length};
    const Length middle = (along.low + along.high) / 2.0;
    for_supports_near(lines, middle, (first_end + second_end) / 2.0, [&](std::size_t i) {
        const Length off = up_at(lines[i].centreline, middle) - (first_end + second_end) / 2.0;
        if (lines[i].centreline.size() == 2 && magnitude(off) > lines[i].width + (second_end - first_end) &&
            lines[i].centreline[0].up == lines[i].centreline[1].up) {
            return;  // a level support that far off carries neither end
        }
        const Length first = end_bearing(lines[i], first_end, along, 1.0);
        const Length second = end_bearing(lines[i], second_end, along, -1.0);
        const Length poorer = shorter(first, second);
        const Length best_poorer = shorter(best.first, best.second);
        if (poorer > best_poorer || (poorer == best_poorer && first + second > best.first + best.second)) {
            best = {i, first, second};
        }
    });
    return best;
}

/// How far an outer edge at `end` stands past the nearest support that lies, at least in part, inside it; 0 where that
/// support lies under the edge, `length_limit_in` where there is none.
[[nodiscard]] inline Length past_support(const std::vector<SupportLine>& lines, Length end, Span along,
                                         double outward) {
    Length worst = no_length;
    for (const Length at : {along.low, along.high}) {
        Length nearest = Length::from_inches(length_limit_in);
        for_supports_near(lines, at, end, [&](std::size_t i) {
            const Length past = (end - up_at(lines[i].centreline, at)) * outward - lines[i].width / 2.0;
            if (past + lines[i].width >= -count_tolerance) {
                nearest = shorter(nearest, longer(past, no_length));
            }
        });
        worst = longer(worst, nearest);
    }
    return worst;
}

}  // namespace eavewright::detail
