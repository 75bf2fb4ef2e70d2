// SPDX-License-Identifier: BSL-1.0
#pragma once

// Every piece of a layout under the name that is written on it, so that two layouts can be told apart piece by piece.

#include <eavewright/order/difference.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
inline void place_purlins(const SlopeResult& slope, std::vector<PlacedPiece>& pieces) {
    std::size_t row = 0;
    std::size_t place = 0;
    for (const PurlinPiece& piece : slope.purlin_pieces) {
        place = piece.row == row ? place + 1 : 1;
        row = piece.row;
        pieces.push_back({PieceKind::purlin, slope.name, "row " + std::to_string(row) + "." + std::to_string(place),
                          piece.length, no_length});
    }
    std::size_t number = 0;
    for (const BlockingPiece& block : slope.blocks) {
        pieces.push_back({PieceKind::block, slope.name, std::to_string(++number), block.length, no_length});
    }
}

inline void place_steel(const SlopeResult& slope, std::vector<PlacedPiece>& pieces) {
    for (const PanelPiece& piece : slope.steel->panels.pieces) {
        pieces.push_back({PieceKind::panel, slope.name, panel_name(piece), piece.order_length, piece.width});
    }
    for (const TrimRun& run : slope.steel->trim) {
        const std::string edge = std::string{name_of(run.kind)} + " " + std::to_string(run.edge) + ".";
        for (std::int64_t i = 1; i <= run.pieces; ++i) {
            pieces.push_back({PieceKind::trim, slope.name, edge + std::to_string(i),
                              i == run.pieces ? run.last_piece : run.piece, no_length});
        }
    }
}
}  // namespace detail

/// The pieces of a layout, slope by slope, each kind in the order of the result: what `difference` compares.
[[nodiscard]] inline std::vector<PlacedPiece> placed_pieces(const RoofResult& roof) {
    std::vector<PlacedPiece> pieces;
    for (const SlopeResult& slope : roof.slopes) {
        detail::place_purlins(slope, pieces);
        for (const SheetPiece& piece : slope.sheets.pieces) {
            pieces.push_back({PieceKind::sheet, slope.name, piece_name(piece), piece.length, piece.width});
        }
        std::size_t number = 0;
        for (const RollPiece& piece : slope.underlayment ? slope.underlayment->pieces : std::vector<RollPiece>{}) {
            pieces.push_back(
                {PieceKind::underlayment, slope.name, std::to_string(++number), piece.length, piece.high - piece.low});
        }
        if (slope.steel) {
            detail::place_steel(slope, pieces);
        }
    }
    return pieces;
}

}  // namespace eavewright
