// SPDX-License-Identifier: BSL-1.0
#pragma once

// Uplift on what holds a purlin down: net wind less the part of the roof's weight that may be counted on, over the roof that
// one connection carries. What a connection holds comes from its maker or from a licensed professional; none is shipped.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <optional>
#include <string_view>
#include <utility>
#include <variant>

namespace eavewright {

/// Share of the dead load that may be counted on against uplift. ASCE/SEI 7 2.4.1, 0.6 D + 0.6 W.
inline constexpr double counted_on_dead = 0.6;

/// The load of an area, in one product: pressure by the two widths that it is carried over. 0 to 10,000 psf, widths 0 to
/// 1000 ft (else `FaultError`).
[[nodiscard]] inline Force carried_force(Pressure pressure, Length along, Length across) {
    Faults faults;
    detail::require_number(psf(pressure), 0.0, 10000.0, " psf", Path{"pressure"}, faults);
    require_within(along, no_length, Length::from_feet(1000.0), Path{"along"}, faults);
    require_within(across, no_length, Length::from_feet(1000.0), Path{"across"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    return pressure * along * across;
}

/// The spacing at which an allowable force is used up, where each carries `across` the other way. Force 0 to 1,000,000 lb,
/// pressure 0.01 to 10,000 psf, width 1 in to 1000 ft (else `FaultError`).
[[nodiscard]] inline Length spacing_used_up(Force allowed, Pressure pressure, Length across) {
    Faults faults;
    detail::require_number(pounds_force(allowed), 0.0, 1e6, " lb", Path{"allowed"}, faults);
    detail::require_number(psf(pressure), 0.01, 10000.0, " psf", Path{"pressure"}, faults);
    require_within(across, one_inch, Length::from_feet(1000.0), Path{"across"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    const Length spacing = allowed / (pressure * across);
    return shorter(spacing, Length::from_inches(length_limit_in));
}

/// One end of a purlin that spans one bay: half of it.
struct PurlinEnd {
    Length bay;
};
/// Purlins that butt or lap over a frame and are held there together: half of each bay.
struct PurlinsMeet {
    Length before;
    Length after;
};
/// The middle of one purlin that runs in one piece over two bays, which takes more than half of each: 1.25 bays where they are
/// alike. By the three-moment equation, one stiffness throughout.
struct PurlinRunsOver {
    Length before;
    Length after;
};
/// The end frame of a purlin that goes on past it and is free at its tip.
struct PurlinPastFrame {
    Length bay;
    Length overhang;  ///< no more than the bay
};
using ConnectionPlace = std::variant<PurlinEnd, PurlinsMeet, PurlinRunsOver, PurlinPastFrame>;

namespace detail {
inline constexpr Length longest_bay = Length::from_feet(100.0);

struct PlaceFaults {
    const Path& path;
    Faults& faults;
    void bay(Length length, std::string_view name) const {
        require_within(length, one_inch, longest_bay, Path{path, name}, faults);
    }
    void operator()(const PurlinEnd& p) const { bay(p.bay, "bay"); }
    void operator()(const PurlinsMeet& p) const {
        bay(p.before, "before");
        bay(p.after, "after");
    }
    void operator()(const PurlinRunsOver& p) const {
        bay(p.before, "before");
        bay(p.after, "after");
    }
    void operator()(const PurlinPastFrame& p) const {
        bay(p.bay, "bay");
        if (is_usable(p.bay)) {
            require_within(p.overhang, no_length, p.bay, Path{path, "overhang"}, faults);
        }
    }
};

struct CarriedLength {
    Length operator()(const PurlinEnd& p) const { return p.bay / 2.0; }
    Length operator()(const PurlinsMeet& p) const { return (p.before + p.after) / 2.0; }
    Length operator()(const PurlinRunsOver& p) const {
        // Support moment w (a^3 + b^3) / 8 (a + b); it adds M/a + M/b to the halves of the two bays.
        const Length a = p.before;
        const Length b = p.after;
        return (a + b) / 2.0 + (a * (a / b) + b * (b / a)) / 8.0;
    }
    Length operator()(const PurlinPastFrame& p) const {
        const Length whole = p.bay + p.overhang;
        return whole * (whole / (2.0 * p.bay));
    }
};
}  // namespace detail

inline void find_faults(const ConnectionPlace& place, const Path& path, Faults& faults) {
    std::visit(detail::PlaceFaults{path, faults}, place);
}

/// Length of purlin whose load one connection carries under a load that is the same all along. Bays 1 in to 100 ft (else
/// `FaultError`).
[[nodiscard]] inline Length carried_length(const ConnectionPlace& place) {
    require_sound(place, "place");
    return std::visit(detail::CarriedLength{}, place);
}

/// What pulls on a purlin's connection, and what it holds.
struct ConnectionUplift {
    Pressure
        uplift;     ///< square to the slope, away from the roof, at allowable stress level (0.6 W); 0 to 1000 psf. The
                    ///< greatest of the zones that the connection carries
    Pressure dead;  ///< by area of the surface, the lightest that is sure to be there; 0 to 1000 psf
    Pitch pitch;
    Length spacing;  ///< of the rows along the slope; 1 in to 20 ft
    ConnectionPlace place;
    std::optional<Force> allowed =
        std::nullopt;         ///< of the connection in uplift, every factor of its standard in it, the
                              ///< wind's duration among them; 0 to 1,000,000 lb
    bool unverified = false;  ///< pressure, weight or what is allowed rests on memory
};
inline void find_faults(const ConnectionUplift& asked, const Path& path, Faults& faults) {
    detail::require_number(psf(asked.uplift), 0.0, 1000.0, " psf", Path{path, "uplift"}, faults);
    detail::require_number(psf(asked.dead), 0.0, 1000.0, " psf", Path{path, "dead"}, faults);
    require_within(asked.spacing, one_inch, Length::from_feet(20.0), Path{path, "spacing"}, faults);
    find_faults(asked.place, Path{path, "place"}, faults);
    if (asked.allowed) {
        detail::require_number(pounds_force(*asked.allowed), 0.0, 1e6, " lb", Path{path, "allowed"}, faults);
    }
}

/// Uplift on one connection of a purlin, with the figures on the way.
struct PurlinConnection {
    Length carried;   ///< along the purlin
    Area area;        ///< carried, by the spacing of the rows
    Pressure relief;  ///< 0.6 D, its part square to the slope
    Pressure net;     ///< uplift less relief; 0 where the weight holds
    LineLoad line;    ///< net on the purlin
    Force gross;      ///< uplift alone on the connection
    Force uplift;     ///< net on the connection
    std::optional<Force> allowed;
    std::optional<double> utilisation;     ///< none where nothing is known of the connection
    std::optional<Length> widest_spacing;  ///< of the rows, at which the connection is used up; none where it never is
    std::string_view equation;
    bool unverified;
    Verdict verdict;
    std::string_view reason;  ///< why there is no verdict; empty where there is one
};
template <>
struct FieldsOf<PurlinConnection> {
    static constexpr auto list =
        field_list(field("carried", FieldUnit::length, "length of purlin that it carries", &PurlinConnection::carried),
                   field("area", FieldUnit::area, "roof that it carries", &PurlinConnection::area),
                   field(
                       "relief_psf", FieldUnit::ratio, "0.6 D square to the slope in pounds per square foot",
                       +[](const PurlinConnection& c) { return psf(c.relief); }),
                   field(
                       "net_psf", FieldUnit::ratio, "uplift less relief in pounds per square foot",
                       +[](const PurlinConnection& c) { return psf(c.net); }),
                   field(
                       "line_plf", FieldUnit::ratio, "net uplift on the purlin in pounds per foot",
                       +[](const PurlinConnection& c) { return pounds_per_foot(c.line); }),
                   field(
                       "gross_lb", FieldUnit::ratio, "uplift on the connection before relief in pounds",
                       +[](const PurlinConnection& c) { return pounds_force(c.gross); }),
                   field(
                       "uplift_lb", FieldUnit::ratio, "net uplift on the connection in pounds",
                       +[](const PurlinConnection& c) { return pounds_force(c.uplift); }),
                   field(
                       "allowed_lb", FieldUnit::ratio, "what it is allowed in pounds, null where unknown",
                       +[](const PurlinConnection& c) {
                           return c.allowed ? std::optional<double>{pounds_force(*c.allowed)} : std::optional<double>{};
                       }),
                   field("utilisation", FieldUnit::ratio, "uplift over what is allowed, null where unknown",
                         &PurlinConnection::utilisation),
                   field("widest_spacing", FieldUnit::length, "of the rows, at which it is used up",
                         &PurlinConnection::widest_spacing),
                   field("equation", FieldUnit::none, "combination", &PurlinConnection::equation),
                   field("unverified", FieldUnit::none, "a figure rests on memory", &PurlinConnection::unverified),
                   field("verdict", FieldUnit::none, "holds, fails, or no verdict", &PurlinConnection::verdict),
                   field("reason", FieldUnit::none, "why there is no verdict", &PurlinConnection::reason));
};

namespace detail {
inline void judge_connection(PurlinConnection& c) {
    const double uplift = pounds_force(c.uplift);
    if (c.allowed && pounds_force(*c.allowed) > 0.0) {
        c.utilisation = uplift / pounds_force(*c.allowed);
    }
    if (c.allowed && psf(c.net) >= 0.01) {
        c.widest_spacing = spacing_used_up(*c.allowed, c.net, c.carried);
    }
    if (c.unverified) {
        c.reason = "pressure, weight or what is allowed rests on memory";
    } else if (uplift > 0.0 && !c.allowed) {
        c.reason = "what the connection is allowed was not given";
    } else {
        const bool held = uplift <= 0.0 || uplift <= pounds_force(*c.allowed);
        c.verdict = held ? Verdict::holds : Verdict::fails;
    }
}
}  // namespace detail

/// Net uplift on one connection, 0.6 W - 0.6 D cos, over spacing by carried length, against what it is allowed. Only the part
/// of the weight that is square to the slope works against uplift. No verdict where what is allowed is not given or a figure
/// rests on memory; where the weight holds, nothing is asked of the connection. Sliding down the slope is not in it.
/// Throws `FaultError` with the first fault of `asked`. Shown with `holding_caution`.
[[nodiscard]] inline PurlinConnection check_purlin_connection(const ConnectionUplift& asked) {
    require_sound(asked, "connection");
    const Length carried = carried_length(asked.place);
    const Pressure relief = asked.dead * (counted_on_dead * asked.pitch.cosine());
    const double left = psf(asked.uplift) - psf(relief);
    const Pressure net = pressure_from_psf(left > 0.0 ? left : 0.0);
    PurlinConnection c{.carried = carried,
                       .area = asked.spacing * carried,
                       .relief = relief,
                       .net = net,
                       .line = net * asked.spacing,
                       .gross = carried_force(asked.uplift, asked.spacing, carried),
                       .uplift = carried_force(net, asked.spacing, carried),
                       .allowed = asked.allowed,
                       .utilisation = std::nullopt,
                       .widest_spacing = std::nullopt,
                       .equation = "ASCE/SEI 7 2.4.1: 0.6 D + 0.6 W",
                       .unverified = asked.unverified,
                       .verdict = Verdict::no_verdict,
                       .reason = {}};
    detail::judge_connection(c);
    return c;
}

}  // namespace eavewright
