// SPDX-License-Identifier: BSL-1.0
#pragma once

// A frame that is to be pulled true: where its points were found, what keeps its length, what can pull, and what must
// become true. What to do about it is for squaring/plan_pulls.hpp to say.

#include <eavewright/fault.hpp>
#include <eavewright/squaring/coordinates.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/error_ellipse.hpp>
#include <eavewright/squaring/readings.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <variant>
#include <vector>

namespace eavewright {

/// Belongs beside every plan of pulls that a person is to follow.
inline constexpr std::string_view pulling_caution =
    "Slacken a brace only while something else holds the frame: shores, other braces, the straps themselves. A strap "
    "or "
    "come-along under tension can kill when it lets go: nobody stands in its line or under the frame. Pull little by "
    "little, look at every joint, stop when something does not move. Local rules and, where they ask for one, a "
    "licensed "
    "engineer go before this plan.";

/// A part that keeps its length end to end while the frame is pulled: rafter, eave, ridge, purlin. Its ends only: the
/// points along one straight part hold each other in line in a way that this plan does not follow.
struct PullMember {
    std::size_t from;
    std::size_t to;
};

/// A brace, strap or come-along: it comes shorter only by pulling, and must be slackened to become longer.
struct PullStrap {
    std::string name;
    std::size_t from;
    std::size_t to;
    std::optional<Length> most_shortening = std::nullopt;  ///< 0 to `longest_reading`; none: as much as it takes
};

/// a to b is to become as long as c to d: the diagonals of a slope. Between members this is only judged.
struct EqualDistances {
    std::string name;
    std::size_t a;
    std::size_t b;
    std::size_t c;
    std::size_t d;
    Length tolerance;
};
/// a to b is to become as long as `target`.
struct WantedDistance {
    std::string name;
    std::size_t a;
    std::size_t b;
    Length target;
    Length tolerance;
};
/// The point is to come onto the line; in a building into the plumb plane through it, as seen from above.
struct OnLine {
    std::string name;
    std::size_t point;
    std::size_t line_from;
    std::size_t line_to;
    Length tolerance;
};
/// Each tolerance is either way, 0.0001 to 100 in.
using PullCondition = std::variant<EqualDistances, WantedDistance, OnLine>;

/// A frame as found. At most 100 points, 300 members, 12 straps and 30 conditions.
template <MeasuredPlace Place>
struct PullFrame {
    /// `about` is where the point was found, `freedom` which way it may go.
    std::vector<MarkedPoint<Place>> points;
    std::vector<PullMember> members;
    std::vector<PullStrap> straps;
    std::vector<PullCondition> conditions;
    /// How well the points were found, in their order; none: exactly.
    std::optional<Covariance> covariance = std::nullopt;
    /// No point goes further than this; none: as far as it takes.
    std::optional<Length> most_movement = std::nullopt;
    /// Standard deviation of one pull done by its amount, 0 to 12 in. Default: common practice.
    Length pull_deviation = one_inch / 16.0;
    /// Standard deviation of a pull done until the strap reads its length, 0 to 12 in. Default: that of one reading.
    Length reading_deviation = one_inch / 32.0;
    /// Amounts are also said in these.
    Tick tick = Tick::of_inch(16);
};
using PlanePullFrame = PullFrame<PlaneCorner>;
using BuildingPullFrame = PullFrame<BuildingPoint>;

inline constexpr std::size_t most_pull_points = 100;
inline constexpr std::size_t most_pull_members = 300;
/// Every independent choice of straps is tried: 4096 choices of 12.
inline constexpr std::size_t most_pull_straps = 12;
inline constexpr std::size_t most_pull_conditions = 30;

namespace squaring_detail {

inline void require_pull_count(std::size_t count, std::size_t least, std::size_t most, const Path& path,
                               Faults& faults) {
    if (count < least || count > most) {
        faults.push_back(Fault{count < least ? FaultCode::missing_field : FaultCode::too_much_work, path.text(),
                               std::to_string(count), std::to_string(least) + " to " + std::to_string(most)});
    }
}
inline void require_pull_name(const std::string& name, const Path& path, Faults& faults) {
    if (name.empty()) {
        faults.push_back(Fault{FaultCode::missing_field, Path{path, "name"}.text(), "", "a name"});
    }
}

/// Two different points that were found at least `shortest_side` apart: a direction that a pull can follow.
template <MeasuredPlace Place>
void require_pair(const PullFrame<Place>& frame, std::size_t from, std::size_t to, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    require_index(from, frame.points.size(), path, faults);
    require_index(to, frame.points.size(), path, faults);
    require_other(to, from, path, faults);
    if (faults.size() == before) {
        require_within(distance_between(frame.points[from].about, frame.points[to].about), shortest_side,
                       longest_reading, path, faults);
    }
}

template <MeasuredPlace Place>
void find_condition_faults(const PullFrame<Place>& frame, const EqualDistances& c, const Path& path, Faults& faults) {
    require_pair(frame, c.a, c.b, Path{path, "a"}, faults);
    require_pair(frame, c.c, c.d, Path{path, "c"}, faults);
}
template <MeasuredPlace Place>
void find_condition_faults(const PullFrame<Place>& frame, const WantedDistance& c, const Path& path, Faults& faults) {
    require_pair(frame, c.a, c.b, Path{path, "a"}, faults);
    require_within(c.target, shortest_side, longest_reading, Path{path, "target"}, faults);
}
template <MeasuredPlace Place>
void find_condition_faults(const PullFrame<Place>& frame, const OnLine& c, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    require_pair(frame, c.line_from, c.line_to, Path{path, "line_from"}, faults);
    require_index(c.point, frame.points.size(), Path{path, "point"}, faults);
    require_other(c.point, c.line_from, Path{path, "point"}, faults);
    require_other(c.point, c.line_to, Path{path, "point"}, faults);
    if (faults.size() == before) {
        const auto from = numbers_of(frame.points[c.line_from].about);
        const auto to = numbers_of(frame.points[c.line_to].about);
        require_within(hypotenuse(one_inch * (to[0] - from[0]), one_inch * (to[1] - from[1])), shortest_side,
                       longest_reading, Path{path, "line_to"}, faults);
    }
}

/// Finite, symmetric, of the right size, no variance below zero.
template <MeasuredPlace Place>
void find_covariance_faults(const PullFrame<Place>& frame, const Path& path, Faults& faults) {
    const Covariance& given = *frame.covariance;
    const std::size_t count = frame.points.size() * coordinate_count<Place>;
    const auto refuse = [&](FaultCode code, const std::string& seen, std::string_view required) {
        faults.push_back(Fault{code, path.text(), seen, std::string{required}});
    };
    if (given.points != frame.points.size() || given.coordinates != coordinate_count<Place> ||
        given.entries.size() != count * count) {
        return refuse(FaultCode::does_not_fit, std::to_string(given.entries.size()) + " entries",
                      "the coordinates of the points, squared");
    }
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = 0; j <= i; ++j) {
            const double one = given.entries[i * count + j];
            const double other = given.entries[j * count + i];
            const double both = std::sqrt(std::fabs(given.entries[i * count + i] * given.entries[j * count + j]));
            if (!std::isfinite(one) || !std::isfinite(other)) {
                return refuse(FaultCode::not_finite, write_decimal(one, 6), "finite numbers");
            }
            if (std::fabs(one - other) > 1e-9 * (both + 1e-12) || std::fabs(one) > both * (1.0 + 1e-9) + 1e-18 ||
                (i == j && (one < 0.0 || one > 1e10))) {
                return refuse(FaultCode::contradiction, write_decimal(one, 6),
                              "a symmetric matrix with variances of 0 to 1e10 square inches");
            }
        }
    }
}

template <MeasuredPlace Place>
void find_pull_name_faults(const PullFrame<Place>& frame, const Path& path, Faults& faults) {
    const auto require_own = [&](const auto& list, std::string_view name) {
        std::unordered_map<std::string_view, std::size_t> seen;
        for (std::size_t i = 0; i < list.size(); ++i) {
            if (!seen.emplace(list[i].name, i).second) {
                faults.push_back(Fault{FaultCode::contradiction, Path{Path{path, name}, i}.text(), list[i].name,
                                       "a name of its own"});
            }
        }
    };
    require_own(frame.points, "points");
    require_own(frame.straps, "straps");
}

}  // namespace squaring_detail

/// Faults: too_much_work beyond the limits; missing_field for no points, no conditions or no name; out_of_range or
/// not_finite for a number; contradiction for a pair of one point, two of one name, or a covariance that is none;
/// does_not_fit for a covariance of other points. No straps, no members or nothing free are no faults: the plan says
/// what cannot be had.
template <MeasuredPlace Place>
void find_faults(const PullFrame<Place>& frame, const Path& path, Faults& faults) {
    using namespace squaring_detail;
    const std::size_t before = faults.size();
    require_pull_count(frame.points.size(), 1, most_pull_points, Path{path, "points"}, faults);
    require_pull_count(frame.members.size(), 0, most_pull_members, Path{path, "members"}, faults);
    require_pull_count(frame.straps.size(), 0, most_pull_straps, Path{path, "straps"}, faults);
    require_pull_count(frame.conditions.size(), 1, most_pull_conditions, Path{path, "conditions"}, faults);
    for (std::size_t i = 0; faults.size() == before && i < frame.points.size(); ++i) {
        find_point_faults(frame.points[i], Path{Path{path, "points"}, i}, faults);
    }
    if (faults.size() != before) {
        return;
    }
    for (std::size_t i = 0; i < frame.members.size(); ++i) {
        require_pair(frame, frame.members[i].from, frame.members[i].to, Path{Path{path, "members"}, i}, faults);
    }
    for (std::size_t i = 0; i < frame.straps.size(); ++i) {
        const Path list{path, "straps"};
        const Path here{list, i};
        require_pull_name(frame.straps[i].name, here, faults);
        require_pair(frame, frame.straps[i].from, frame.straps[i].to, here, faults);
        require_within(frame.straps[i].most_shortening.value_or(no_length), no_length, longest_reading,
                       Path{here, "most_shortening"}, faults);
    }
    for (std::size_t i = 0; i < frame.conditions.size(); ++i) {
        const Path list{path, "conditions"};
        const Path here{list, i};
        std::visit(
            [&](const auto& condition) {
                require_pull_name(condition.name, here, faults);
                find_condition_faults(frame, condition, here, faults);
                require_within(condition.tolerance, one_inch / 10000.0, one_inch * 100.0, Path{here, "tolerance"},
                               faults);
            },
            frame.conditions[i]);
    }
    find_pull_name_faults(frame, path, faults);
    require_within(frame.most_movement.value_or(no_length), no_length, longest_reading, Path{path, "most_movement"},
                   faults);
    require_within(frame.pull_deviation, no_length, one_inch * 12.0, Path{path, "pull_deviation"}, faults);
    require_within(frame.reading_deviation, no_length, one_inch * 12.0, Path{path, "reading_deviation"}, faults);
    if (frame.covariance) {
        find_covariance_faults(frame, Path{path, "covariance"}, faults);
    }
}

}  // namespace eavewright
