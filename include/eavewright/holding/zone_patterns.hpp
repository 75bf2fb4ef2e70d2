// SPDX-License-Identifier: BSL-1.0
#pragma once

// Nail spacing by zone of the roof: from a list of zones to a pattern on the plane.

#include <eavewright/fastening/nail_pattern.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/roof_zones.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

namespace eavewright {

/// Spacing of one zone, instead of that of the whole deck.
struct ZoneSpacing {
    RoofZone zone;
    Length edge;
    Length field;
};

inline void find_faults(const std::vector<ZoneSpacing>& spacings, const Path& path, Faults& faults) {
    for (std::size_t i = 0; i < spacings.size(); ++i) {
        const Path each{path, i};
        require_within(spacings[i].edge, one_inch, Length::from_inches(48.0), Path{each, "edge"}, faults);
        require_within(spacings[i].field, one_inch, Length::from_inches(48.0), Path{each, "field"}, faults);
        for (std::size_t before = 0; before < i; ++before) {
            if (spacings[before].zone == spacings[i].zone) {
                faults.push_back(Fault{FaultCode::contradiction, Path{each, "zone"}.text(),
                                       std::string{name_of(spacings[i].zone)}, "each zone once"});
            }
        }
    }
}

/// The pattern of a plane whose zones have spacings of their own, overhangs as the zone they are part of; `base` in zones that
/// have none. On the line between two zones the worse one's holds. Throws `FaultError` with the first fault of an input.
[[nodiscard]] inline ZonedNailPattern zoned_pattern(const RoofZones& zones, const NailPattern& base,
                                                    const std::vector<ZoneSpacing>& spacings) {
    require_sound(base, "nails");
    Faults faults;
    find_faults(spacings, Path{"zones"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    ZonedNailPattern zoned{base, {}};
    std::vector<const ZoneArea*> worst_first;
    for (const ZoneArea& area : zones.areas) {
        worst_first.push_back(&area);
    }
    std::stable_sort(worst_first.begin(), worst_first.end(),
                     [](const ZoneArea* a, const ZoneArea* b) { return b->zone < a->zone; });
    for (const ZoneArea* area : worst_first) {
        NailPattern pattern = base;
        for (const ZoneSpacing& spacing : spacings) {
            if (spacing.zone == area->zone) {
                pattern.edge = spacing.edge;
                pattern.field = spacing.field;
            }
        }
        zoned.areas.push_back({area->outline, pattern});
    }
    return zoned;
}

}  // namespace eavewright
