// SPDX-License-Identifier: BSL-1.0
#pragma once

// Zones of a roof plane: strips along its edges, corners where they cross, the field between.
//
//      ridge                          steep:     3 | 2 | 3      low, 2016 on:  | |  1 |
//   3 |   2   | 3   along the         ----------+---+---       3 |    2    | 3 |
//   2 |   1   | 2   ridge: above      strips a wide, level     strips 0.6h wide, corners of two
//   3 |   2   | 3   7 deg only        corners a by a           legs 0.6h by 0.2h, 1' past 1.2h
//       eave
//
// Distances are level: up the slope a strip is a / cosine wide. A point on the line between two zones is in the worse one.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edge_distance.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/zone_geometry.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/outline.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// Where edge distances start when a roof hangs past its walls.
enum class EdgeDatum {
    roof_edge,  ///< outer edge of the overhang: ASCE 7-16 on, from memory, so that zones with an overhang are `unverified`
    wall,       ///< the wall line: strips reach further in by the overhang, never less
};
template <>
struct NamesOf<EdgeDatum> {
    static constexpr std::array<std::string_view, 2> list{"roof_edge", "wall"};
};

/// What the zones of a plane hang on besides the plane.
struct ZonePlan {
    WindEdition edition;
    RoofForm form;
    Length mean_roof_height;  ///< up to 60 ft
    Length least_width;       ///< least horizontal dimension of the building, overhangs not included
    EdgeDatum measured_from;
    Length eave_overhang;              ///< level
    Length rake_overhang;              ///< level
    Length high_overhang = no_length;  ///< level, at the high eave of a monoslope roof
    std::optional<Length>
        beyond_ridge{};  ///< level, from the ridge to the outer edge of the eave behind it; none: as far
                         ///< as the plane's own. Read up to 7 deg, where a ridge is no edge
};
inline void find_faults(const ZonePlan& plan, const Path& path, Faults& faults) {
    detail::require_named(plan.edition, Path{path, "edition"}, faults);
    detail::require_named(plan.form, Path{path, "form"}, faults);
    detail::require_named(plan.measured_from, Path{path, "measured_from"}, faults);
    require_within(plan.mean_roof_height, one_inch, highest_low_building, Path{path, "mean_roof_height"}, faults);
    require_within(plan.least_width, Length::from_feet(1.0), longest_building, Path{path, "least_width"}, faults);
    require_within(plan.eave_overhang, no_length, longest_overhang, Path{path, "eave_overhang"}, faults);
    require_within(plan.rake_overhang, no_length, longest_overhang, Path{path, "rake_overhang"}, faults);
    require_within(plan.high_overhang, no_length, longest_overhang, Path{path, "high_overhang"}, faults);
    if (plan.beyond_ridge) {
        require_within(*plan.beyond_ridge, no_length, longest_building, Path{path, "beyond_ridge"}, faults);
    }
}

/// How wide the zones are, level.
struct ZoneWidths {
    Length strip;                  ///< zone 2 along edges
    Length corner_long;            ///< zone 3 along one edge
    Length corner_short;           ///< and in from that edge
    std::optional<Length> middle;  ///< zone 1 ends and zone 1' begins; none: the field is all zone 1
    bool ridge_is_edge;            ///< a strip runs along the ridge too
};
template <>
struct FieldsOf<ZoneWidths> {
    static constexpr auto list = field_list(
        field("strip", FieldUnit::length, "zone 2, in from an edge", &ZoneWidths::strip),
        field("corner_long", FieldUnit::length, "zone 3, along an edge", &ZoneWidths::corner_long),
        field("corner_short", FieldUnit::length, "zone 3, in from that edge", &ZoneWidths::corner_short),
        field("middle", FieldUnit::length, "where zone 1' begins, in from every edge", &ZoneWidths::middle),
        field("ridge_is_edge", FieldUnit::none, "a strip runs along the ridge too", &ZoneWidths::ridge_is_edge));
};

/// A point's zone.
struct ZonePlace {
    RoofZone zone;
    bool overhang;    ///< over no room: the pressure of the wall below acts on it too
    bool unverified;  ///< where the zone lies rests on memory
    friend constexpr bool operator==(ZonePlace, ZonePlace) = default;
};
template <>
struct FieldsOf<ZonePlace> {
    static constexpr auto list =
        field_list(field("zone", FieldUnit::none, "zone", &ZonePlace::zone),
                   field("overhang", FieldUnit::none, "on an overhang", &ZonePlace::overhang),
                   field("unverified", FieldUnit::none, "where it lies rests on memory", &ZonePlace::unverified));
};

/// A part of a plane within one zone.
struct ZoneArea {
    RoofZone zone;
    bool overhang;
    std::vector<PlanePoint> outline;  ///< counter-clockwise, convex
    Area area;                        ///< on the surface
};
template <>
struct FieldsOf<ZoneArea> {
    static constexpr auto list =
        field_list(field("zone", FieldUnit::none, "zone", &ZoneArea::zone),
                   field("overhang", FieldUnit::none, "on an overhang", &ZoneArea::overhang),
                   field("outline", FieldUnit::length, "corners counter-clockwise", &ZoneArea::outline),
                   field("area", FieldUnit::area, "on the surface", &ZoneArea::area));
};

/// Zones of one plane.
struct RoofZones {
    WindEdition edition;
    EdgeDistance edge;
    ZoneWidths widths;
    std::vector<ZoneEdge> edges;  ///< of the plane, in its order
    std::vector<ZoneArea> areas;  ///< tile the outline; openings are not taken out
    std::string_view placement;   ///< which edges count, and by which figure
    bool unverified;              ///< where the zones lie rests on memory
};
template <>
struct FieldsOf<RoofZones> {
    static constexpr auto list =
        field_list(field("edition", FieldUnit::none, "standard", &RoofZones::edition),
                   field("edge", FieldUnit::none, "the edge distance a and what it follows from", &RoofZones::edge),
                   field("widths", FieldUnit::none, "how wide the zones are", &RoofZones::widths),
                   field("edges", FieldUnit::none, "edges that distances are measured from", &RoofZones::edges),
                   field("areas", FieldUnit::none, "parts of the plane within one zone", &RoofZones::areas),
                   field("placement", FieldUnit::none, "which edges count, by which figure", &RoofZones::placement),
                   field("unverified", FieldUnit::none, "where the zones lie rests on memory", &RoofZones::unverified));
};

namespace detail {
/// Slope at which the low-slope figures end; an angle read back from a pitch may miss it by rounding.
inline constexpr double low_slope_deg = 7.0;
inline constexpr double monoslope_low_deg = 3.0;
inline constexpr double angle_rounding_deg = 1e-9;
[[nodiscard]] inline bool is_up_to(Pitch pitch, double deg) {
    return degrees(pitch.angle()) <= deg + angle_rounding_deg;
}

struct ZoneRule {
    ZoneWidths widths;
    std::string_view placement;
    bool unverified;
};
[[noreturn]] inline void refuse_zones(const std::string& given, const char* required) {
    refuse_load(FaultCode::not_supported, "zones.form", given, required);
}
/// The figure that places the zones, refused where none is known.
[[nodiscard]] inline ZoneRule zone_rule(const ZonePlan& plan, Pitch pitch, Length a) {
    const bool low = is_up_to(pitch, plan.form == RoofForm::monoslope ? monoslope_low_deg : low_slope_deg);
    const std::string given = std::string{name_of(plan.form)} + " at " + write_decimal(degrees(pitch.angle()), 3) +
                              " deg, " + std::string{name_of(plan.edition)};
    if (plan.form == RoofForm::hip) {
        refuse_zones(given, "a gable or monoslope roof: the strips along hips are not laid out");
    }
    if (plan.form == RoofForm::monoslope && !low) {
        refuse_zones(given, "a monoslope roof up to 3 deg: the sizes of its zones above that were not obtained");
    }
    if (low && plan.edition != WindEdition::asce7_10) {
        const Length h = plan.mean_roof_height;
        return {
            {0.6 * h, 0.6 * h, 0.2 * h, 1.2 * h, false},
            "low slope: strips 0.6 h and corners of two legs 0.6 h by 0.2 h along eaves and rakes, zone 1' past 1.2 h "
            "(Fig. 30.3-2A, from memory)",
            true};
    }
    if (low) {
        return {{a, a, a, std::nullopt, false},
                "low slope: strips and corners a wide along eaves and rakes (Fig. 30.4-2A)",
                plan.form == RoofForm::monoslope};
    }
    if (plan.edition == WindEdition::asce7_16 || !is_up_to(pitch, 45.0)) {
        refuse_zones(given, "7-10 or 7-22 up to 45 deg: the six zones of 7-16 were not obtained");
    }
    const ZoneWidths widths{a, a, a, std::nullopt, true};
    if (plan.edition == WindEdition::asce7_10) {
        return {widths, "strips a wide along eaves, rakes and ridge, corners at both ends (Fig. 30.4-2B, 2C)", false};
    }
    return {
        widths,
        "strips a wide along eaves, rakes and ridge, corners at both ends, as in 7-10: assumed for Fig. 30.3-2B to 2D, "
        "none left out",
        true};
}

/// The overhang at an edge of this kind; refused for kinds that no rule speaks of.
[[nodiscard]] inline Length overhang_at(EdgeKind kind, std::size_t i, const ZonePlan& plan) {
    const bool gable = plan.form == RoofForm::gable;
    if (i == 0 && kind == EdgeKind::eave) {
        return plan.eave_overhang;
    }
    if ((i == 1 || i == 3) && kind == EdgeKind::rake) {
        return plan.rake_overhang;
    }
    if (i == 2 && kind == EdgeKind::ridge && gable) {
        return no_length;
    }
    if (i == 2 && kind == EdgeKind::high_eave && !gable) {
        return plan.high_overhang;
    }
    refuse_load(FaultCode::not_supported, "plane.edges", std::string{name_of(kind)},
                "eave, rake, ridge (gable) or high eave (monoslope), rake");
}

/// The zone at level distances from the nearest level edge and the nearest rake.
[[nodiscard]] inline RoofZone zone_within(const ZoneWidths& w, Length level, Length rake) {
    const bool on_level = level <= w.corner_short && rake <= w.corner_long;
    const bool on_rake = rake <= w.corner_short && level <= w.corner_long;
    if (on_level || on_rake) {
        return RoofZone::zone_3;
    }
    const Length nearest = shorter(level, rake);
    if (nearest <= w.strip) {
        return RoofZone::zone_2;
    }
    return !w.middle || nearest <= *w.middle ? RoofZone::zone_1 : RoofZone::zone_1_prime;
}
[[nodiscard]] inline ZonePlace place_of(const std::vector<ZoneEdge>& edges, const ZoneWidths& widths,
                                        PlanePoint point) {
    Length level = Length::from_inches(length_limit_in);
    Length rake = level;
    bool overhang = false;
    for (const ZoneEdge& edge : edges) {
        const Length d = edge.distance(point);
        Length& nearest = edge.kind == EdgeKind::rake ? rake : level;
        nearest = shorter(nearest, d - edge.datum);
        overhang = overhang || d < edge.overhang;
    }
    return {zone_within(widths, level, rake), overhang, false};
}

/// Lines along which a plane is cut: those of its level edges first.
[[nodiscard]] inline std::vector<ZoneLine> zone_lines(const std::vector<ZoneEdge>& edges, const ZoneWidths& widths) {
    std::vector<ZoneLine> lines;
    for (const std::size_t i : {std::size_t{0}, std::size_t{2}, std::size_t{1}, std::size_t{3}}) {
        const Length datum = edges[i].datum;
        for (const Length width : {widths.corner_short, widths.strip, widths.middle.value_or(widths.strip)}) {
            lines.push_back({&edges[i], datum + width});
        }
        lines.push_back({&edges[i], edges[i].overhang});
    }
    return lines;
}
}  // namespace detail

/// Zones of a four-sided plane of a gable or monoslope roof: eave, rake, ridge or high eave, rake. Gable: 7-10 to 45 deg, 7-22
/// to 45 deg, 7-16 to 7 deg only. Monoslope: to 3 deg. Throws `FaultError`: not_supported for other forms, slopes and edges,
/// and the first fault of the inputs. Shown with `loads_caution`.
template <Surface surface>
[[nodiscard]] RoofZones roof_zones(const Plane<surface>& plane, const ZonePlan& plan) {
    require_sound(plan, "zones");
    require_sound(plane, "plane");
    if (!detail::is_four_sided(plane) || plane.edges.size() != 4) {
        detail::refuse_load(FaultCode::not_supported, "plane.outline",
                            std::to_string(plane.outline.size()) + " corners",
                            "a convex plane of four corners, the kinds of its edges known");
    }
    const EdgeDistance edge = edge_distance(plan.least_width, plan.mean_roof_height);
    const detail::ZoneRule rule = detail::zone_rule(plan, plane.pitch, edge.a);
    RoofZones zones{plan.edition, edge, rule.widths, {}, {}, rule.placement, rule.unverified};
    for (std::size_t i = 0; i < 4; ++i) {
        const Length overhang = detail::overhang_at(plane.edges[i], i, plan);
        zones.edges.push_back(detail::zone_edge(plane.outline, i, plane.edges[i], plane.pitch.cosine(), overhang));
        ZoneEdge& made = zones.edges[i];
        made.datum = plan.measured_from == EdgeDatum::wall ? overhang : no_length;
        zones.unverified = zones.unverified || (overhang > no_length && plan.measured_from == EdgeDatum::roof_edge);
        if (plane.edges[i] == EdgeKind::ridge && !rule.widths.ridge_is_edge) {
            // The nearest level edge past a low ridge is the eave behind it.
            const Extent extent = extent_of(plane.outline);
            const Length own = (extent.high.up - extent.low.up) * plane.pitch.cosine();
            made.datum = (plan.measured_from == EdgeDatum::wall ? plan.eave_overhang : no_length) -
                         plan.beyond_ridge.value_or(own);
        }
    }
    const auto place = [&](PlanePoint p) { return detail::place_of(zones.edges, zones.widths, p); };
    const std::vector<detail::ZoneLine> lines = detail::zone_lines(zones.edges, zones.widths);
    for (detail::PlacedCell<ZonePlace>& cell : detail::cut_into_cells(plane.outline, lines, 0, place)) {
        const Area area = signed_area(cell.outline);
        zones.areas.push_back({cell.place.zone, cell.place.overhang, std::move(cell.outline), area});
    }
    return zones;
}

/// The zone of a point of the plane that `zones` were made of; on a line between two, the worse. Throws `FaultError`
/// out_of_range for a point off the plane, not_finite.
[[nodiscard]] inline ZonePlace zone_at(const RoofZones& zones, PlanePoint point) {
    for (const ZoneEdge& edge : zones.edges) {
        if (!(edge.distance(point) >= -count_tolerance)) {
            const bool finite = is_usable(point.along) && is_usable(point.up);
            detail::refuse_load(finite ? FaultCode::out_of_range : FaultCode::not_finite, "point",
                                describe_length(point.along) + ", " + describe_length(point.up),
                                "a point of the plane");
        }
    }
    ZonePlace place = detail::place_of(zones.edges, zones.widths, point);
    place.unverified = zones.unverified;
    return place;
}

/// The zone of a point that may lie past an edge, as a sheet does that hangs past the fascia: that of the edge.
[[nodiscard]] inline ZonePlace zone_near(const RoofZones& zones, PlanePoint point) {
    ZonePlace place = detail::place_of(zones.edges, zones.widths, point);
    place.unverified = zones.unverified;
    return place;
}

}  // namespace eavewright
