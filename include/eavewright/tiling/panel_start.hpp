// SPDX-License-Identifier: BSL-1.0
#pragma once

// Which gable the panels begin at, so that their side laps open away from the wind, or away from whoever looks.
//
// Facing up the slope, left and right are mirrored from the front plane to the back one. A gable is therefore named by
// the building's own direction, so that both slopes begin at the same one and their ribs meet at the ridge.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <optional>
#include <string_view>
#include <variant>

namespace eavewright {

/// An end of the building along its ridge: x runs from the low gable to the high one.
enum class GableEnd { low_x, high_x };
template <>
struct NamesOf<GableEnd> {
    static constexpr std::array<std::string_view, 2> list{"low_x", "high_x"};
};
[[nodiscard]] constexpr GableEnd other_end(GableEnd end) noexcept {
    return end == GableEnd::low_x ? GableEnd::high_x : GableEnd::low_x;
}

/// How a panel laps the one laid before it.
enum class SideLap { over_previous, under_previous };
template <>
struct NamesOf<SideLap> {
    static constexpr std::array<std::string_view, 2> list{"over_previous", "under_previous"};
};

/// Laps open away from the prevailing wind: UFGS 07 41 (Unified Facilities Guide Specifications).
struct AwayFromWind {
    Angle wind_from;      ///< compass bearing that the wind comes from
    Angle ridge_bearing;  ///< compass bearing of x, from the low gable to the high one
    Angle across_within =
        angle_from_degrees(10.0);  ///< a wind this near to square across settles nothing; common practice
};
/// Laps open away from the line of sight; the wind does not matter: NZ Metal Roof and Wall Cladding Code of Practice v3.0,
/// 14.9. It contradicts the rule above, so the choice is the builder's.
struct AwayFromSight {
    GableEnd seen_from;  ///< the gable that people look along the roof from
};
/// The builder says where.
struct BeginAt {
    GableEnd end;
};
using LapRule = std::variant<AwayFromWind, AwayFromSight, BeginAt>;

inline void find_faults(const LapRule& rule, const Path& path, Faults& faults) {
    const AwayFromWind* wind = std::get_if<AwayFromWind>(&rule);
    if (wind == nullptr) {
        return;
    }
    const auto judge = [&](Angle angle, double most, std::string_view name) {
        const double given = degrees(angle);
        if (!(given >= 0.0 && given <= most)) {
            faults.push_back(Fault{std::isfinite(given) ? FaultCode::out_of_range : FaultCode::not_finite,
                                   Path{path, name}.text(), write_decimal(given, 6) + " deg",
                                   "0 to " + write_decimal(most, 0) + " deg"});
        }
    };
    judge(wind->wind_from, 360.0, "wind_from");
    judge(wind->ridge_bearing, 360.0, "ridge_bearing");
    judge(wind->across_within, 45.0, "across_within");
}

/// The gable to begin at; none where the wind blows across the ridge and so settles nothing. A panel that laps over the
/// one before it opens towards that one, hence panels go up against the wind, from the lee gable.
/// Throws `FaultError` with the first fault of `rule`.
[[nodiscard]] inline std::optional<GableEnd> first_gable(const LapRule& rule, SideLap lap) {
    require_sound(rule, "lap_rule");
    GableEnd exposed_to = GableEnd::low_x;
    if (const BeginAt* at = std::get_if<BeginAt>(&rule)) {
        return at->end;
    }
    if (const AwayFromSight* sight = std::get_if<AwayFromSight>(&rule)) {
        exposed_to = sight->seen_from;
    } else {
        const AwayFromWind& wind = std::get<AwayFromWind>(rule);
        const double along_ridge = std::cos(radians(wind.wind_from) - radians(wind.ridge_bearing));
        if (std::fabs(along_ridge) <= std::sin(radians(wind.across_within)) + 1e-12) {  // a degree's rounding
            return std::nullopt;
        }
        exposed_to = along_ridge > 0.0 ? GableEnd::high_x : GableEnd::low_x;
    }
    return lap == SideLap::over_previous ? other_end(exposed_to) : exposed_to;
}

/// The corner of `plane` at a gable. Throws not_supported for a plane whose eave does not run with the ridge.
template <Surface surface>
[[nodiscard]] StartCorner start_at(const Plane<surface>& plane, GableEnd end) {
    const double along_x = plane.placement.along_x;
    if (!(std::fabs(along_x) > std::fabs(plane.placement.along_y))) {
        throw FaultError{Fault{FaultCode::not_supported, "plane.placement.along_x", write_decimal(along_x, 6),
                               "an eave that runs with the ridge"}};
    }
    return (along_x > 0.0) == (end == GableEnd::low_x) ? StartCorner::eave_left : StartCorner::eave_right;
}

}  // namespace eavewright
