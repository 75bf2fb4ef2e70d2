// SPDX-License-Identifier: BSL-1.0
#pragma once

// How nails stand along a line: equal spaces, or spaces that change where the line crosses from zone to zone.
//
// Nails stand one apart on a scale that counts spaces: a stretch of length L and spacing s is L / s long on it. The tighter
// spacing holds as far past its own zone as one space of it, so that a space that touches a zone is never above the zone's,
// wherever it begins. One count is rounded up for the whole line, hence
//   - it is never below that of the loosest spacing on the whole line, and the same where all spacings are;
//   - halving all spacings never lowers it: of what a tighter spacing takes, halved, at least half is left.

#include <eavewright/fastening/nail_lines.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace eavewright {

/// Nails in a line across `width`: one at each end (in by the edge distance) and equal spaces not above `spacing`
/// between. A stretch too narrow for two takes one; nothing takes none.
/// Throws `FaultError` for a width or edge distance that is not finite, a negative edge distance, or as `steps_to_cover`.
[[nodiscard]] inline std::int64_t nails_across(Length width, Length spacing, Length edge_distance) {
    const Length most = Length::from_inches(length_limit_in);
    if (!(width >= -most && width <= most && edge_distance >= no_length && edge_distance <= most)) {
        Faults faults;
        require_within(width, -most, most, Path{"width"}, faults);
        require_within(edge_distance, no_length, most, Path{"edge_distance"}, faults);
        throw FaultError{std::move(faults.front())};
    }
    if (width <= count_tolerance) {
        return 0;
    }
    const Length between = width - 2.0 * edge_distance;
    return between <= count_tolerance ? 1 : steps_to_cover(between, spacing) + 1;
}

/// Index of the base pattern among areas.
inline constexpr std::int32_t base_area = -1;

namespace detail {
/// A stretch of a nail line, in one area and with one spacing.
struct NailStretch {
    Span across;
    Length spacing;
    std::int32_t area;
};

/// The part of a straight line that lies in a convex area, its boundary included; inside out where there is none.
[[nodiscard]] inline Span span_in_area(const NailArea& area, PlanePoint a, PlanePoint b) {
    double from = 0.0;
    double to = 1.0;
    for (std::size_t i = 0; i < area.outline.size(); ++i) {
        const PlanePoint p = area.outline[i];
        const PlanePoint q = area.outline[i + 1 == area.outline.size() ? 0 : i + 1];
        const double slack = inches(count_tolerance) * inches(hypotenuse(q.along - p.along, q.up - p.up));
        const double at_a = turn(p, q, a) + slack;
        const double at_b = turn(p, q, b) + slack;
        if (at_a < 0.0 && at_b < 0.0) {
            return {b.along, a.along};
        }
        if (at_a < 0.0 || at_b < 0.0) {
            const double share = at_a / (at_a - at_b);
            from = at_a < 0.0 && share > from ? share : from;
            to = at_b < 0.0 && share < to ? share : to;
        }
    }
    return {a.along + (b.along - a.along) * from, a.along + (b.along - a.along) * to};
}

/// What a line of nails is spaced by. Kept between lines so that nothing is allocated twice.
struct NailSpacing {
    std::vector<NailStretch> areas;   ///< by area, from the first nail to the last
    std::vector<NailStretch> spaced;  ///< by spacing, each as far as it is kept
    std::vector<Span> inside;
    std::vector<Length> cuts;
    Length loosest = no_length;
    Length even = no_length;  ///< the line at the loosest spacing that takes as many spaces

    /// Area of a place on the line.
    [[nodiscard]] std::int32_t area_at(Length along) const {
        std::size_t i = 0;
        while (i + 1 < areas.size() && areas[i].across.high < along) {
            ++i;
        }
        return areas[i].area;
    }
};

/// Cuts [a, b] wherever one of `cuts` lies inside, and calls `visit(span)` for each part, ascending.
template <class Visit>
void for_parts_between(std::vector<Length>& cuts, Span whole, Visit visit) {
    std::sort(cuts.begin(), cuts.end());
    Length from = whole.low;
    for (const Length cut : cuts) {
        if (cut > from + count_tolerance && cut < whole.high - count_tolerance) {
            visit(Span{from, cut});
            from = cut;
        }
    }
    visit(Span{from, whole.high});
}

/// Which area each part of the line lies in.
inline void split_by_area(const NailGround& ground, const NailLine& line, Span whole, NailSpacing& spacing) {
    const NailSupport& support = ground.supports[line.support];
    const auto on_line = [&](Length along) {  // straight from end to end
        return PlanePoint{along, kept_inside(line.reach, support.centre_at(along), ground.base.edge_distance)};
    };
    const PlanePoint a = on_line(whole.low);
    const PlanePoint b = on_line(whole.high);
    spacing.inside.clear();
    spacing.cuts.clear();
    for (const NailArea& area : ground.areas) {
        const bool off = b.along < area.extent.low.along - count_tolerance ||
                         a.along > area.extent.high.along + count_tolerance ||
                         longer(a.up, b.up) < area.extent.low.up - count_tolerance ||
                         shorter(a.up, b.up) > area.extent.high.up + count_tolerance;
        spacing.inside.push_back(off ? Span{whole.high, whole.low} : span_in_area(area, a, b));
        if (spacing.inside.back().low <= spacing.inside.back().high) {
            spacing.cuts.push_back(spacing.inside.back().low);
            spacing.cuts.push_back(spacing.inside.back().high);
        }
    }
    for_parts_between(spacing.cuts, whole, [&](Span part) {
        const Length middle = (part.low + part.high) / 2.0;
        std::size_t i = 0;
        while (i < ground.areas.size() && !(spacing.inside[i].low <= middle && middle <= spacing.inside[i].high)) {
            ++i;
        }
        const bool in_base = i == ground.areas.size();
        const Length space = in_base ? (line.at_end ? ground.base.edge : ground.base.field)
                                     : (line.at_end ? ground.areas[i].edge : ground.areas[i].field);
        const std::int32_t area = in_base ? base_area : static_cast<std::int32_t>(i);
        if (!spacing.areas.empty() && spacing.areas.back().area == area) {
            spacing.areas.back().across.high = part.high;
        } else {
            spacing.areas.push_back({part, space, area});
        }
    });
}

/// The tightest spacing that holds on each part of the line: each reaches one space past its own area.
inline void carry_tighter(Span whole, NailSpacing& spacing) {
    spacing.cuts.clear();
    for (const NailStretch& stretch : spacing.areas) {
        spacing.cuts.push_back(stretch.across.low - stretch.spacing);
        spacing.cuts.push_back(stretch.across.low);
        spacing.cuts.push_back(stretch.across.high + stretch.spacing);
    }
    for_parts_between(spacing.cuts, whole, [&](Span part) {
        const Length middle = (part.low + part.high) / 2.0;
        Length tightest = spacing.loosest;
        for (const NailStretch& stretch : spacing.areas) {
            const bool holds =
                stretch.across.low - stretch.spacing <= middle && middle <= stretch.across.high + stretch.spacing;
            tightest = holds ? shorter(tightest, stretch.spacing) : tightest;
        }
        if (!spacing.spaced.empty() && spacing.spaced.back().spacing == tightest) {
            spacing.spaced.back().across.high = part.high;
        } else {
            spacing.spaced.push_back({part, tightest, base_area});
        }
    });
}

/// How a line of nails is spaced from its first nail to its last.
inline void space_line(const NailGround& ground, const NailLine& line, NailSpacing& spacing) {
    const Length edge = shorter(ground.base.edge_distance, line.length() / 2.0);
    const Span whole{line.across.low + edge, line.across.high - edge};
    spacing.areas.clear();
    spacing.spaced.clear();
    if (ground.areas.empty()) {
        spacing.areas.push_back({whole, line.at_end ? ground.base.edge : ground.base.field, base_area});
    } else {
        split_by_area(ground, line, whole, spacing);
    }
    spacing.loosest = no_length;
    for (const NailStretch& stretch : spacing.areas) {
        spacing.loosest = longer(spacing.loosest, stretch.spacing);
    }
    if (spacing.areas.size() == 1) {
        spacing.spaced = spacing.areas;
        spacing.even = whole.high - whole.low;
        return;
    }
    carry_tighter(whole, spacing);
    spacing.even = no_length;
    for (const NailStretch& stretch : spacing.spaced) {
        spacing.even += (stretch.across.high - stretch.across.low) * (spacing.loosest / stretch.spacing);
    }
}

/// Nails in a line that is spaced so.
[[nodiscard]] inline std::int64_t nails_in(const NailLine& line, const NailSpacing& spacing, Length edge_distance) {
    if (spacing.spaced.size() == 1) {
        return nails_across(line.length(), spacing.spaced[0].spacing, edge_distance);
    }
    return steps_to_cover(spacing.even, spacing.loosest) + 1;
}

/// Where on a line the nails stand: equal parts of the scale that counts spaces. Of a line on a support that two pieces
/// share, one piece's nails begin half a part later and the other's end half a part sooner.
enum class NailShift { none, begins_late, ends_soon };

/// Calls `visit(along)` for each of `nails` nails, ascending.
template <class Visit>
void for_nails_in(const NailSpacing& spacing, std::int64_t nails, NailShift shift, Visit visit) {
    const Span whole{spacing.spaced[0].across.low, spacing.spaced[spacing.spaced.size() - 1].across.high};
    if (nails == 1) {
        visit((whole.low + whole.high) / 2.0);
        return;
    }
    const double parts = static_cast<double>(nails - 1) + (shift == NailShift::none ? 0.0 : 0.5);
    const double first = shift == NailShift::begins_late ? 0.5 : 0.0;
    std::size_t s = 0;
    Length before = no_length;  // of the even line, in the stretches passed
    for (std::int64_t i = 0; i < nails; ++i) {
        const Length at = spacing.even * ((static_cast<double>(i) + first) / parts);
        double stretched = spacing.loosest / spacing.spaced[s].spacing;
        for (; s + 1 < spacing.spaced.size(); ++s) {
            const Length next = before + (spacing.spaced[s].across.high - spacing.spaced[s].across.low) * stretched;
            if (next >= at) {
                break;
            }
            before = next;
            stretched = spacing.loosest / spacing.spaced[s + 1].spacing;
        }
        const Length along = spacing.spaced[s].across.low + (at - before) / stretched;
        visit(shorter(along, whole.high));
    }
}
}  // namespace detail

}  // namespace eavewright
