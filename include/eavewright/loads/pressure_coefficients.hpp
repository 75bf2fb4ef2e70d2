// SPDX-License-Identifier: BSL-1.0
#pragma once

// External pressure coefficients GCp of roof zones, by edition, form, slope and effective wind area. GCp is straight in the
// logarithm of the area between two areas and constant outside them. A row from memory says so in every result.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/coefficient_rows.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {

/// Effective wind area of a member or sheet with the figures it is made of.
struct EffectiveWindArea {
    Length span;
    Length tributary_width;  ///< as given
    Length width;            ///< that counts: not less than a third of the span
    Area area;
};
template <>
struct FieldsOf<EffectiveWindArea> {
    static constexpr auto list =
        field_list(field("span", FieldUnit::length, "between supports", &EffectiveWindArea::span),
                   field("tributary_width", FieldUnit::length, "width as given", &EffectiveWindArea::tributary_width),
                   field("width", FieldUnit::length, "width that counts, a third of the span at the least",
                         &EffectiveWindArea::width),
                   field("area", FieldUnit::area, "effective wind area", &EffectiveWindArea::area));
};

/// Span times width, the width not less than a third of the span (ASCE/SEI 7 sec. 26.2). For a coefficient only: the load
/// still acts on the true tributary area. Lengths more than 0, up to 2000 ft (else `FaultError`).
[[nodiscard]] inline EffectiveWindArea effective_wind_area(Length span, Length tributary_width) {
    Faults faults;
    const Length least = one_inch / 256.0;
    require_within(span, least, Length::from_feet(2000.0), Path{"span"}, faults);
    require_within(tributary_width, least, Length::from_feet(2000.0), Path{"tributary_width"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    const Length width = longer(tributary_width, span / 3.0);
    return {span, tributary_width, width, span * width};
}

/// Internal pressure coefficient: 0.18 enclosed, 0.55 partially enclosed, 0 open; acts with either sign (ASCE/SEI 7 Table
/// 26.11-1, 26.13-1).
[[nodiscard]] inline double internal_coefficient(Enclosure enclosure) {
    Faults faults;
    detail::require_named(enclosure, Path{"enclosure"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    constexpr double by_enclosure[] = {0.18, 0.55, 0.0};
    return by_enclosure[static_cast<int>(enclosure)];
}

/// Straight in log10 of the area between (`low_area`, `low`) and (`high_area`, `high`), constant outside. The areas more
/// than 0 and ascending.
[[nodiscard]] inline double coefficient_at(Area area, Area low_area, double low, Area high_area, double high) {
    if (!(square_inches(area) > square_inches(low_area))) {
        return low;
    }
    if (!(square_inches(area) < square_inches(high_area))) {
        return high;
    }
    const double share = std::log10(square_inches(area) / square_inches(low_area)) / std::log10(high_area / low_area);
    return low + (high - low) * share;
}

/// A coefficient with the row it was read from.
struct ExternalCoefficient {
    double GCp;
    Area area;  ///< effective wind area
    Area low_area;
    double GCp_at_low;
    Area high_area;
    double GCp_at_high;
    std::string_view figure;
    bool unverified;  ///< rests on memory
};
template <>
struct FieldsOf<ExternalCoefficient> {
    static constexpr auto list =
        field_list(field("GCp", FieldUnit::ratio, "external pressure coefficient", &ExternalCoefficient::GCp),
                   field("area", FieldUnit::area, "effective wind area", &ExternalCoefficient::area),
                   field("low_area", FieldUnit::area, "up to which it is constant", &ExternalCoefficient::low_area),
                   field("GCp_at_low", FieldUnit::ratio, "there", &ExternalCoefficient::GCp_at_low),
                   field("high_area", FieldUnit::area, "from which it is constant", &ExternalCoefficient::high_area),
                   field("GCp_at_high", FieldUnit::ratio, "there", &ExternalCoefficient::GCp_at_high),
                   field("figure", FieldUnit::none, "figure of the standard", &ExternalCoefficient::figure),
                   field("unverified", FieldUnit::none, "rests on memory", &ExternalCoefficient::unverified));
};

/// Of a zone: away from the roof (negative), and toward it where the row is known.
struct ZoneCoefficients {
    ExternalCoefficient negative;
    std::optional<ExternalCoefficient> positive;
};
template <>
struct FieldsOf<ZoneCoefficients> {
    static constexpr auto list = field_list(
        field("negative", FieldUnit::none, "away from the roof", &ZoneCoefficients::negative),
        field("positive", FieldUnit::none, "toward the roof, where it is known", &ZoneCoefficients::positive));
};

/// Which coefficient is asked for.
struct CoefficientQuestion {
    WindEdition edition;
    RoofForm form;
    Pitch pitch;
    RoofZone zone;
    Area effective_wind_area;
};
inline void find_faults(const CoefficientQuestion& asked, const Path& path, Faults& faults) {
    detail::require_named(asked.edition, Path{path, "edition"}, faults);
    detail::require_named(asked.form, Path{path, "form"}, faults);
    detail::require_named(asked.zone, Path{path, "zone"}, faults);
    detail::require_number(square_feet(asked.effective_wind_area), 1e-6, 1e6, " sq ft",
                           Path{path, "effective_wind_area"}, faults);
}

namespace detail {
/// Rows that a question is answered by.
[[nodiscard]] inline bool answers(const CoefficientRow& row, const CoefficientQuestion& asked) {
    const double deg = degrees(asked.pitch.angle());
    const bool low = row.low_slope() && asked.form == RoofForm::monoslope;
    const double most = (low ? 3.0 : row.most_deg) + 1e-9;
    const bool above = row.least_deg == 0.0 || deg > row.least_deg + 1e-9;
    const bool form = row.form == asked.form || (row.low_slope() && row.edition == WindEdition::asce7_22) || low;
    const bool edition = row.edition == asked.edition || (asked.edition == WindEdition::asce7_16 && row.low_slope() &&
                                                          row.edition == WindEdition::asce7_22);
    return form && edition && above && deg <= most;
}
[[nodiscard]] inline ExternalCoefficient read_row(const CoefficientRow& row, const CoefficientQuestion& asked) {
    const Area low = area_from_square_feet(row.low_sqft);
    const Area high = area_from_square_feet(row.high_sqft);
    const double asked_sqft = square_feet(asked.effective_wind_area);
    const bool at_low = asked_sqft <= row.low_sqft;
    const bool at_high = asked_sqft >= row.high_sqft;
    const bool memory = (!at_high && row.low_from_memory) || (!at_low && row.high_from_memory);
    // Figures used past the edition or form that they were read for rest on memory too.
    const bool borrowed = row.edition != asked.edition || (row.low_slope() && asked.form == RoofForm::monoslope);
    return {coefficient_at(asked.effective_wind_area, low, row.GCp_low, high, row.GCp_high),
            asked.effective_wind_area,
            low,
            row.GCp_low,
            high,
            row.GCp_high,
            row.figure,
            memory || borrowed};
}
}  // namespace detail

/// The coefficients of a zone. Known: 7-10 gable to 45 deg; 7-16 gable, hip and monoslope of low slope (as 7-22, from memory);
/// 7-22 gable to 45 deg, hip to 20 deg, monoslope to 30 deg. Low slope is 7 deg, 3 deg for a monoslope roof. Throws
/// `FaultError`: not_supported where the coefficient was not obtained, and the first fault of `asked`.
[[nodiscard]] inline ZoneCoefficients zone_coefficients(const CoefficientQuestion& asked) {
    require_sound(asked, "coefficient");
    std::optional<ExternalCoefficient> negative;
    std::optional<ExternalCoefficient> positive;
    for (const detail::CoefficientRow& row : detail::coefficient_rows) {
        if (!detail::answers(row, asked)) {
            continue;
        }
        if (row.positive) {
            positive = detail::read_row(row, asked);
        } else if (row.zone == asked.zone) {
            negative = detail::read_row(row, asked);
        }
    }
    if (!negative) {
        const std::string given = std::string{name_of(asked.edition)} + ", " + std::string{name_of(asked.form)} +
                                  " at " + write_decimal(degrees(asked.pitch.angle()), 3) + " deg, zone " +
                                  std::string{name_of(asked.zone)};
        detail::refuse_load(
            FaultCode::not_supported, "coefficient.zone", given,
            "7-10 gable to 45 deg, 7-16 low slope, 7-22 gable to 45, hip to 20, monoslope to 30 deg, a zone "
            "of that figure: others were not obtained");
    }
    return {*negative, positive};
}

}  // namespace eavewright
