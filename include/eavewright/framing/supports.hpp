// SPDX-License-Identifier: BSL-1.0
#pragma once

// Support lines: what sheets lie on and are nailed to, whether purlins or chords.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// Which way the supports of a plane run.
enum class SupportRun {
    along_eave,  ///< purlins
    up_slope,    ///< chords
};
template <>
struct NamesOf<SupportRun> {
    static constexpr std::array<std::string_view, 2> list{"along_eave", "up_slope"};
};

/// One member under the sheets: its centre line as it lies, and the width that a sheet can bear on.
/// The points ascend in the direction of the run.
struct SupportLine {
    std::vector<PlanePoint> centreline;
    Length width;
    std::vector<Span> stretches{};  ///< where it runs, ascending; none for one that runs on past both ends of its line
};

/// Whether a support with these stretches runs at `at`; one without any runs everywhere.
[[nodiscard]] inline bool runs_at(const std::vector<Span>& stretches, Length at) {
    return stretches.empty() || std::any_of(stretches.begin(), stretches.end(), [&](const Span& stretch) {
               return stretch.low - count_tolerance <= at && at <= stretch.high + count_tolerance;
           });
}
/// Whether it runs all the way from `span.low` to `span.high`.
[[nodiscard]] inline bool runs_along(const std::vector<Span>& stretches, Span span) {
    return stretches.empty() || std::any_of(stretches.begin(), stretches.end(), [&](const Span& stretch) {
               return stretch.low - count_tolerance <= span.low && span.high <= stretch.high + count_tolerance;
           });
}

template <>
struct FieldsOf<SupportLine> {
    static constexpr auto list =
        field_list(field("centreline", FieldUnit::length, "centre line of the support", &SupportLine::centreline),
                   field("width", FieldUnit::length, "width a sheet can bear on", &SupportLine::width),
                   field("stretches", FieldUnit::length, "where it runs; none for all along", &SupportLine::stretches));
};

/// The members that carry the sheets of a plane, ascending across their run. The surface in the type is the one the
/// sheets lie on, so sheets of one surface cannot be laid on the supports of another.
template <Surface surface>
struct Supports {
    SupportRun run;
    std::vector<SupportLine> lines;
    Length spacing;  ///< the nominal space between them, which starter pieces step by
};

namespace detail {
/// Ordinate of a polyline at `at`, straight between its points and carried on past its ends.
template <class Abscissa, class Ordinate>
[[nodiscard]] Length polyline_at(const std::vector<PlanePoint>& line, Length at, Abscissa abscissa, Ordinate ordinate) {
    std::size_t i = 1;
    for (std::size_t high = line.size() - 1; i < high;) {
        const std::size_t middle = i + (high - i) / 2;
        if (abscissa(line[middle]) < at) {
            i = middle + 1;
        } else {
            high = middle;
        }
    }
    const PlanePoint a = line[i - 1];
    const PlanePoint b = line[i];
    const double share = (at - abscissa(a)) / (abscissa(b) - abscissa(a));
    return ordinate(a) + (ordinate(b) - ordinate(a)) * share;
}
}  // namespace detail

/// How far up the slope a line that runs with the eave lies at `along`.
[[nodiscard]] inline Length up_at(const std::vector<PlanePoint>& line, Length along) {
    return detail::polyline_at(
        line, along, [](PlanePoint p) { return p.along; }, [](PlanePoint p) { return p.up; });
}

/// How far along the eave a line that runs up the slope lies at `up`.
[[nodiscard]] inline Length along_at(const std::vector<PlanePoint>& line, Length up) {
    return detail::polyline_at(
        line, up, [](PlanePoint p) { return p.up; }, [](PlanePoint p) { return p.along; });
}

namespace detail {
/// Faults of one line by itself: at least two points, finite, ascending in the direction of the run; a width.
template <class Abscissa>
void find_line_faults(const SupportLine& line, Abscissa abscissa, const Path& path, Faults& faults) {
    const Length most = Length::from_inches(length_limit_in);
    require_within(line.width, Length::from_inches(0.25), Length::from_feet(4.0), Path{path, "width"}, faults);
    const Path points{path, "centreline"};
    if (line.centreline.size() < 2) {
        faults.push_back(Fault{FaultCode::out_of_range, points.text(),
                               std::to_string(line.centreline.size()) + " points", "at least 2 points"});
    }
    const Path stretches{path, "stretches"};
    for (std::size_t i = 0; i < line.stretches.size(); ++i) {
        require_within(line.stretches[i].low, -most, most, Path{stretches, i}, faults);
        require_within(line.stretches[i].high, -most, most, Path{stretches, i}, faults);
        if (!(line.stretches[i].high > line.stretches[i].low) ||
            (i > 0 && !(line.stretches[i].low > line.stretches[i - 1].high))) {
            faults.push_back(Fault{FaultCode::out_of_order, Path{stretches, i}.text(),
                                   describe_length(line.stretches[i].low), "past the stretch before it"});
        }
    }
    for (std::size_t i = 0; i < line.centreline.size(); ++i) {
        require_within(line.centreline[i].along, -most, most, Path{points, i}, faults);
        require_within(line.centreline[i].up, -most, most, Path{points, i}, faults);
        if (i > 0 && !(abscissa(line.centreline[i]) > abscissa(line.centreline[i - 1]) + count_tolerance)) {
            faults.push_back(Fault{FaultCode::out_of_order, Path{points, i}.text(),
                                   describe_length(abscissa(line.centreline[i])), "past the point before it"});
        }
    }
}

/// Whether `high` lies above `low` at every point of either.
template <class Abscissa, class Ordinate>
[[nodiscard]] bool ascend(const SupportLine& low, const SupportLine& high, Abscissa abscissa, Ordinate ordinate) {
    const auto above_at = [&](PlanePoint p) {
        return polyline_at(high.centreline, abscissa(p), abscissa, ordinate) >
               polyline_at(low.centreline, abscissa(p), abscissa, ordinate);
    };
    return std::all_of(low.centreline.begin(), low.centreline.end(), above_at) &&
           std::all_of(high.centreline.begin(), high.centreline.end(), above_at);
}

template <class Abscissa, class Ordinate>
void find_lines_faults(const std::vector<SupportLine>& lines, Abscissa abscissa, Ordinate ordinate, const Path& path,
                       Faults& faults) {
    const std::size_t before = faults.size();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        find_line_faults(lines[i], abscissa, Path{path, i}, faults);
    }
    for (std::size_t i = 1; faults.size() == before && i < lines.size(); ++i) {
        if (!ascend(lines[i - 1], lines[i], abscissa, ordinate)) {
            faults.push_back(Fault{FaultCode::out_of_order, Path{path, i}.text(),
                                   "a support that meets the one before it", "supports that ascend across their run"});
        }
    }
}
}  // namespace detail

/// Supports may be none; those there are ascend and do not cross, from end to end.
template <Surface surface>
void find_faults(const Supports<surface>& supports, const Path& path, Faults& faults) {
    const auto along = [](PlanePoint p) { return p.along; };
    const auto up = [](PlanePoint p) { return p.up; };
    require_within(supports.spacing, no_length, Length::from_inches(length_limit_in), Path{path, "spacing"}, faults);
    if (supports.run == SupportRun::along_eave) {
        detail::find_lines_faults(supports.lines, along, up, Path{path, "lines"}, faults);
    } else {
        detail::find_lines_faults(supports.lines, up, along, Path{path, "lines"}, faults);
    }
}

}  // namespace eavewright
