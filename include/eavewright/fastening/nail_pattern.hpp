// SPDX-License-Identifier: BSL-1.0
#pragma once

// Nailing patterns: one for a whole plane, or one for each zone of it.

#include <eavewright/fault.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace eavewright {

/// A nailing pattern. Nails stand in equal spaces not above the one given, between the edge distances.
struct NailPattern {
    Length edge;                                        ///< spacing on supports under the ends of a piece
    Length field;                                       ///< spacing on the supports between
    Length edge_distance = Length::from_inches(0.375);  ///< nail to panel edge; 3/8 in, common practice
    Length end_reach =
        Length::from_inches(3.0);  ///< an end that hangs no further past the outermost support of its piece
                                   ///< gives that support the edge spacing; common practice
};

/// Where on the plane a pattern of its own holds. Only its two spacings are its own: a piece that two areas share has one
/// edge distance and one end reach, the base's.
struct PatternArea {
    std::vector<PlanePoint> outline;  ///< convex, counter-clockwise, on the plane of the sheets
    NailPattern pattern;
};

/// A pattern by zone: the first area that holds a place wins, its boundary included; the base elsewhere.
struct ZonedNailPattern {
    NailPattern base;
    std::vector<PatternArea> areas;
};

/// Most areas of one pattern.
inline constexpr std::size_t most_pattern_areas = 200;

inline void find_faults(const NailPattern& pattern, const Path& path, Faults& faults) {
    require_within(pattern.edge, one_inch, Length::from_inches(48.0), Path{path, "edge"}, faults);
    require_within(pattern.field, one_inch, Length::from_inches(48.0), Path{path, "field"}, faults);
    require_within(pattern.edge_distance, no_length, Length::from_inches(6.0), Path{path, "edge_distance"}, faults);
    require_within(pattern.end_reach, no_length, Length::from_inches(24.0), Path{path, "end_reach"}, faults);
}

namespace detail {
inline void find_area_faults(const PatternArea& area, const NailPattern& base, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    const Length most = Length::from_inches(length_limit_in);
    const Path outline{path, "outline"};
    for (std::size_t i = 0; i < area.outline.size(); ++i) {
        require_within(area.outline[i].along, -most, most, Path{Path{outline, i}, "along"}, faults);
        require_within(area.outline[i].up, -most, most, Path{Path{outline, i}, "up"}, faults);
    }
    if (faults.size() == before && !is_convex(area.outline)) {
        faults.push_back(Fault{FaultCode::not_supported, outline.text(),
                               std::to_string(area.outline.size()) + " corners",
                               "a convex outline of three corners or more, counter-clockwise"});
    }
    const Path pattern{path, "pattern"};
    find_faults(area.pattern, pattern, faults);
    if (area.pattern.edge_distance != base.edge_distance) {
        faults.push_back(Fault{FaultCode::contradiction, Path{pattern, "edge_distance"}.text(),
                               describe_length(area.pattern.edge_distance),
                               "the base's, " + describe_length(base.edge_distance)});
    }
    if (area.pattern.end_reach != base.end_reach) {
        faults.push_back(Fault{FaultCode::contradiction, Path{pattern, "end_reach"}.text(),
                               describe_length(area.pattern.end_reach),
                               "the base's, " + describe_length(base.end_reach)});
    }
}
}  // namespace detail

inline void find_faults(const ZonedNailPattern& pattern, const Path& path, Faults& faults) {
    find_faults(pattern.base, Path{path, "base"}, faults);
    const Path areas{path, "areas"};
    if (pattern.areas.size() > most_pattern_areas) {
        faults.push_back(Fault{FaultCode::too_much_work, areas.text(), std::to_string(pattern.areas.size()),
                               "at most " + std::to_string(most_pattern_areas) + " areas"});
        return;
    }
    for (std::size_t i = 0; i < pattern.areas.size(); ++i) {
        detail::find_area_faults(pattern.areas[i], pattern.base, Path{areas, i}, faults);
    }
}

}  // namespace eavewright
