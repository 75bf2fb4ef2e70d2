// SPDX-License-Identifier: BSL-1.0
#pragma once

// Dead load of a roof from its layers. Against uplift the lightest layers that may be there count, so a least weight is
// never to be taken from a sum that was made safe for gravity.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/loads/layer_weights.hpp>
#include <eavewright/loads/on_slope.hpp>
#include <eavewright/units/areal_mass.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <cstddef>
#include <string>
#include <variant>
#include <vector>

namespace eavewright {

/// Plywood or OSB.
struct WoodPanelLayer {
    Length thickness;
};
/// Flat galvanized sheet by its gauge.
struct FlatSteelLayer {
    int gauge;
};
/// Purlins or rafters, spread over the surface.
struct MemberLayer {
    WoodDensity wood;
    Length width;
    Length depth;
    Length spacing;  ///< on the surface, centre to centre
};
/// A weight from the maker, by area of the surface.
struct GivenLayer {
    std::string name;
    ArealMass weight;
};
using DeadLayer = std::variant<WoodPanelLayer, FlatSteelLayer, ListedLayer, MemberLayer, GivenLayer>;

/// One layer's part.
struct LayerLoad {
    std::string name;
    Pressure load;  ///< by area of the surface
    double share;   ///< of the sum; 0 where the sum is
    bool unverified;
};
template <>
struct FieldsOf<LayerLoad> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "layer", &LayerLoad::name),
                   field(
                       "load_psf", FieldUnit::ratio, "pounds per square foot of surface",
                       +[](const LayerLoad& l) { return psf(l.load); }),
                   field("share", FieldUnit::ratio, "of the sum", &LayerLoad::share),
                   field("unverified", FieldUnit::none, "rests on memory", &LayerLoad::unverified));
};

/// The sum.
struct DeadLoad {
    std::vector<LayerLoad> layers;
    SlopeLoad load;   ///< made of the load on the surface
    bool unverified;  ///< a layer rests on memory
};
template <>
struct FieldsOf<DeadLoad> {
    static constexpr auto list =
        field_list(field("layers", FieldUnit::none, "parts, as given", &DeadLoad::layers),
                   field("load", FieldUnit::none, "the sum and its parts on the slope", &DeadLoad::load),
                   field("unverified", FieldUnit::none, "a layer rests on memory", &DeadLoad::unverified));
};

/// Most layers of one roof.
inline constexpr std::size_t most_layers = 100;

namespace detail {
[[nodiscard]] inline Pressure weight_as_pressure(ArealMass weight) {
    return pressure_from_psf(weight.pounds_per_square_foot());
}
struct LayerReader {
    [[nodiscard]] LayerLoad operator()(const WoodPanelLayer& layer) const {
        const LayerWeight found = wood_panel_weight(layer.thickness);
        return {"wood panel " + write_decimal(inches(layer.thickness), 4) + " in", weight_as_pressure(found.weight),
                0.0, found.unverified};
    }
    [[nodiscard]] LayerLoad operator()(const FlatSteelLayer& layer) const {
        return {"flat galvanized sheet " + std::to_string(layer.gauge) + " gauge",
                weight_as_pressure(galvanized_sheet(layer.gauge).weight), 0.0, false};
    }
    [[nodiscard]] LayerLoad operator()(ListedLayer layer) const {
        const LayerWeight found = listed_weight(layer);
        std::string name{name_of(layer)};
        for (char& c : name) {
            c = c == '_' ? ' ' : c;
        }
        return {name, weight_as_pressure(found.weight), 0.0, found.unverified};
    }
    [[nodiscard]] LayerLoad operator()(const MemberLayer& layer) const {
        Faults faults;
        require_within(layer.spacing, layer.width, Length::from_feet(100.0), Path{"layer.spacing"}, faults);
        if (!faults.empty()) {
            throw FaultError{faults[0]};
        }
        return {
            "members " + write_decimal(inches(layer.width), 4) + " x " + write_decimal(inches(layer.depth), 4) + " in",
            member_weight(layer.wood, layer.width, layer.depth) / layer.spacing, 0.0, false};
    }
    [[nodiscard]] LayerLoad operator()(const GivenLayer& layer) const {
        return {layer.name, weight_as_pressure(layer.weight), 0.0, false};
    }
};
}  // namespace detail

/// Dead load of the layers on a slope, with each layer's share. Throws `FaultError` with the fault of the first layer that
/// has one, too_much_work above 100 layers. Shown with `loads_caution`.
[[nodiscard]] inline DeadLoad dead_load(const std::vector<DeadLayer>& layers, Pitch pitch) {
    if (layers.size() > most_layers) {
        detail::refuse_load(FaultCode::too_much_work, "layers", std::to_string(layers.size()), "100 at the most");
    }
    Pressure sum = pressure_from_psf(0.0);
    DeadLoad made{{}, load_from_surface(sum, pitch), false};
    for (const DeadLayer& layer : layers) {
        made.layers.push_back(std::visit(detail::LayerReader{}, layer));
        sum += made.layers[made.layers.size() - 1].load;
        made.unverified = made.unverified || made.layers[made.layers.size() - 1].unverified;
    }
    for (LayerLoad& layer : made.layers) {
        layer.share = psf(sum) > 0.0 ? psf(layer.load) / psf(sum) : 0.0;
    }
    made.load = load_from_surface(sum, pitch);
    return made;
}

}  // namespace eavewright
