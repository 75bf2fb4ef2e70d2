// SPDX-License-Identifier: BSL-1.0
#pragma once

// What the materials of a roof weigh: galvanized sheet by its gauge number, wood panels by thickness, lumber by specific
// gravity and moisture.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/areal_mass.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

namespace eavewright {

/// Galvanized steel sheet of a gauge. A gauge number is no thickness: sheet may be thinner than nominal by 17 % at 29 gauge, so
/// strength goes by `least` and weight by `nominal`.
struct SheetGauge {
    int gauge;
    Length nominal;
    Length least;
    Length most;
    ArealMass weight;  ///< at nominal thickness
};
template <>
struct FieldsOf<SheetGauge> {
    static constexpr auto list =
        field_list(field("gauge", FieldUnit::count, "number of the gauge", &SheetGauge::gauge),
                   field("nominal", FieldUnit::length, "nominal thickness with coating", &SheetGauge::nominal),
                   field("least", FieldUnit::length, "least thickness, which strength goes by", &SheetGauge::least),
                   field("most", FieldUnit::length, "greatest thickness", &SheetGauge::most),
                   field(
                       "weight_psf", FieldUnit::ratio, "pounds per square foot of flat sheet at nominal thickness",
                       +[](const SheetGauge& g) { return g.weight.pounds_per_square_foot(); }));
};

/// Weight of steel sheet by thickness, in pounds per square foot and inch (Manufacturers' Standard Gauge).
inline constexpr double steel_sheet_psf_per_inch = 41.82;

/// The galvanized sheet of gauge 20, 22, 24 to 30 (Manufacturers' Standard, galvanized sheet gauge). Throws `FaultError`
/// not_supported for another number.
[[nodiscard]] inline SheetGauge galvanized_sheet(int gauge) {
    struct Row {
        int gauge;
        double nominal;
        double least;
        double most;
        double psf;
    };
    constexpr std::array<Row, 9> rows{{{20, 0.0396, 0.0356, 0.0436, 1.656},
                                       {22, 0.0336, 0.0296, 0.0376, 1.405},
                                       {24, 0.0276, 0.0236, 0.0316, 1.154},
                                       {25, 0.0247, 0.0207, 0.0287, 1.033},
                                       {26, 0.0217, 0.0187, 0.0247, 0.907},
                                       {27, 0.0202, 0.0172, 0.0232, 0.845},
                                       {28, 0.0187, 0.0157, 0.0217, 0.782},
                                       {29, 0.0172, 0.0142, 0.0202, 0.719},
                                       {30, 0.0157, 0.0127, 0.0187, 0.657}}};
    for (const Row& row : rows) {
        if (row.gauge == gauge) {
            return {gauge, Length::from_inches(row.nominal), Length::from_inches(row.least),
                    Length::from_inches(row.most), ArealMass::from_pounds_per_square_foot(row.psf)};
        }
    }
    detail::refuse_load(FaultCode::not_supported, "gauge", std::to_string(gauge), "20, 22 or 24 to 30");
}

/// Layers with one listed weight.
enum class ListedLayer {
    ribbed_panel_29_gauge,  ///< 0.63 psf, a panel maker's catalogue
    asphalt_shingles,       ///< 2.0 psf, from memory
    metal_deck_20_gauge,    ///< 2.5 psf, from memory
    metal_deck_18_gauge,    ///< 3.0 psf, from memory
    wood_sheathing_1_inch,  ///< 3.0 psf an inch, another list's figure for roofs, from memory
};
template <>
struct NamesOf<ListedLayer> {
    static constexpr std::array<std::string_view, 5> list{"ribbed_panel_29_gauge", "asphalt_shingles",
                                                          "metal_deck_20_gauge", "metal_deck_18_gauge",
                                                          "wood_sheathing_1_inch"};
};

/// A weight, and whether it rests on memory.
struct LayerWeight {
    ArealMass weight;
    bool unverified;
};
template <>
struct FieldsOf<LayerWeight> {
    static constexpr auto list =
        field_list(field(
                       "weight_psf", FieldUnit::ratio, "pounds per square foot",
                       +[](const LayerWeight& w) { return w.weight.pounds_per_square_foot(); }),
                   field("unverified", FieldUnit::none, "rests on memory", &LayerWeight::unverified));
};
[[nodiscard]] inline LayerWeight listed_weight(ListedLayer layer) {
    Faults faults;
    detail::require_named(layer, Path{"layer"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    constexpr std::array<double, 5> psf{0.63, 2.0, 2.5, 3.0, 3.0};
    return {ArealMass::from_pounds_per_square_foot(psf[static_cast<std::size_t>(layer)]),
            layer != ListedLayer::ribbed_panel_29_gauge};
}

/// Plywood or OSB: 0.4 psf for each 1/8 in (ASCE/SEI 7-10 Table C3-1, from memory). Thickness 1/8 to 3 in.
[[nodiscard]] inline LayerWeight wood_panel_weight(Length thickness) {
    Faults faults;
    require_within(thickness, one_inch / 8.0, 3.0 * one_inch, Path{"thickness"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    return {ArealMass::from_pounds_per_square_foot(0.4 * inches(thickness) * 8.0), true};
}

/// Wood by its specific gravity, ovendry weight and volume, and its moisture content in PERCENT: 19, not 0.19.
struct WoodDensity {
    double specific_gravity;          ///< G, 0.2 to 1.0
    double moisture_content_percent;  ///< 1 to 60; a share such as 0.19 is refused
};
inline void find_faults(const WoodDensity& wood, const Path& path, Faults& faults) {
    detail::require_number(wood.specific_gravity, 0.2, 1.0, "", Path{path, "specific_gravity"}, faults);
    detail::require_number(wood.moisture_content_percent, 1.0, 60.0, " percent", Path{path, "moisture_content_percent"},
                           faults);
}
/// Pounds in a cubic foot: 62.4 G / (1 + 0.009 G MC) x (1 + MC / 100) (AWC NDS Supplement 3.1.3). Throws `FaultError` with
/// the first fault of `wood`.
[[nodiscard]] inline double pounds_per_cubic_foot(const WoodDensity& wood) {
    require_sound(wood, "wood");
    const double G = wood.specific_gravity;
    const double MC = wood.moisture_content_percent;
    return 62.4 * G / (1.0 + 0.009 * G * MC) * (1.0 + MC / 100.0);
}
/// Weight of a member by length, its sides 1/4 to 48 in.
[[nodiscard]] inline LineLoad member_weight(const WoodDensity& wood, Length width, Length depth) {
    Faults faults;
    require_within(width, one_inch / 4.0, 48.0 * one_inch, Path{"width"}, faults);
    require_within(depth, one_inch / 4.0, 48.0 * one_inch, Path{"depth"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    return line_load_from_pounds_per_foot(pounds_per_cubic_foot(wood) * square_feet(width * depth));
}

}  // namespace eavewright
