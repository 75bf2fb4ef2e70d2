// SPDX-License-Identifier: BSL-1.0
#pragma once

// What goes over all slopes at once: air, foam, and what carrying the pieces takes.

#include <eavewright/order/handling.hpp>
#include <eavewright/roof/air.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/description_faults.hpp>
#include <eavewright/whole_roof/lay_slope.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace eavewright::detail {

/// Air over the whole footprint. The slot runs along the ridge or the high eave, the openings along every low eave.
[[nodiscard]] inline std::optional<VentOpenings> air_of(const RoofDescription& roof, const RoofShape& shape) {
    if (!roof.air) {
        return std::nullopt;
    }
    const double eaves = static_cast<double>(shape.slopes.size());
    return vent_openings({.width = shape.footprint_width,
                          .length = shape.footprint_length,
                          .ridge_length = shape.footprint_length,
                          .eave_length = shape.footprint_length * eaves,
                          .ratio = roof.air->ratio,
                          .high_share = roof.air->high_share,
                          .rule = roof.air->rule,
                          .net_share = roof.air->net_share});
}
/// What the slot takes of each slope, up the slope: half of it at a ridge, all of it at a high eave.
[[nodiscard]] inline Length slot_hold_back(const RoofDescription& roof, const VentOpenings& air) {
    return pitch_of(roof.shape).slope_over(slope_count(roof.shape) == 2 ? air.ridge_slot_a_side : air.ridge_slot);
}

/// Pieces of one kind by size, longest first, wider first among equals; a size is the same up to `count_tolerance`.
class CarriedSizes {
public:
    void add(Length length, Length width) {
        for (SheetSizeCount& size : sizes_) {
            if (magnitude(size.length - length) <= count_tolerance &&
                magnitude(size.width - width) <= count_tolerance) {
                ++size.count;
                return;
            }
        }
        sizes_.push_back({length, width, 1});
    }
    void list(const std::string& name, ArealMass layer, const HandlingLimits& limits, std::vector<CarriedPieces>& to) {
        std::stable_sort(sizes_.begin(), sizes_.end(), [](const SheetSizeCount& a, const SheetSizeCount& b) {
            return b.length < a.length || (b.length == a.length && b.width < a.width);
        });
        for (const SheetSizeCount& size : sizes_) {
            to.push_back({name, size.count, size.length, size.width,
                          handle_pieces({size.count, size.length, size.width, layer}, limits)});
        }
    }

private:
    struct SheetSizeCount {
        Length length;
        Length width;
        std::int64_t count;
    };
    std::vector<SheetSizeCount> sizes_;
};

[[nodiscard]] inline std::vector<CarriedPieces> carried_pieces(const RoofDescription& roof, const RoofResult& result) {
    std::vector<CarriedPieces> all;
    if (!roof.handling) {
        return all;
    }
    CarriedSizes sheets;
    CarriedSizes panels;
    for (const SlopeResult& slope : result.slopes) {
        for (const SheetPiece& piece : slope.sheets.pieces) {
            sheets.add(piece.length, piece.width);
        }
        if (slope.steel) {
            for (const PanelPiece& piece : slope.steel->panels.pieces) {
                panels.add(piece.order_length, piece.width);
            }
        }
    }
    if (roof.handling->sheet) {
        sheets.list("sheet", *roof.handling->sheet, roof.handling->limits, all);
    }
    if (roof.handling->panel) {
        panels.list("panel", *roof.handling->panel, roof.handling->limits, all);
    }
    return all;
}

/// Foam over the planes as they were laid, measured where they were: the underside is parallel and as large.
[[nodiscard]] inline std::optional<Foam> foam_of(const RoofDescription& roof, const RoofResult& result) {
    return roof.foam ? std::optional<Foam>{foam_over(result.roof_area, *roof.foam)} : std::nullopt;
}

}  // namespace eavewright::detail
