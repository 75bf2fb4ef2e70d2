// SPDX-License-Identifier: BSL-1.0
#pragma once

// Support lines: what sheets lie on and are nailed to, whether purlins or chords.

#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
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
};

/// The members that carry the sheets of a plane, ascending across their run. The surface in the type is the one the
/// sheets lie on, so sheets of one surface cannot be laid on the supports of another.
template <Surface surface>
struct Supports {
    SupportRun run;
    std::vector<SupportLine> lines;
    Length spacing;   ///< the nominal space between them, which starter pieces step by
};

namespace detail {
/// Ordinate of a polyline at `at`, straight between its points and carried on past its ends.
template <class Abscissa, class Ordinate>
[[nodiscard]] Length polyline_at(const std::vector<PlanePoint>& line, Length at, Abscissa abscissa, Ordinate ordinate) {
    std::size_t i = 1;
    while (i + 1 < line.size() && abscissa(line[i]) < at) {
        ++i;
    }
    const PlanePoint a = line[i - 1];
    const PlanePoint b = line[i];
    const double share = (at - abscissa(a)) / (abscissa(b) - abscissa(a));
    return ordinate(a) + (ordinate(b) - ordinate(a)) * share;
}
}  // namespace detail

/// How far up the slope a line that runs with the eave lies at `along`.
[[nodiscard]] inline Length up_at(const std::vector<PlanePoint>& line, Length along) {
    return detail::polyline_at(line, along, [](PlanePoint p) { return p.along; }, [](PlanePoint p) { return p.up; });
}

}  // namespace eavewright
