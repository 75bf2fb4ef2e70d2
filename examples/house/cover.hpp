// SPDX-License-Identifier: BSL-1.0
#pragma once

// What lies on the house's planes: sheets from the same stack, underlayment, steel; and how all of it is cut.

#include <eavewright/eavewright.hpp>

#include <iosfwd>
#include <string>
#include <vector>

/// One plane of the house with its layers.
struct CoveredPlane {
    std::string name;
    eavewright::PurlinPlane plane;
    eavewright::DeckPlane deck;
    eavewright::PurlinRows rows;
    eavewright::Supports<eavewright::Surface::purlin_top> supports;
    eavewright::Underlayment underlayment;
};

/// The whole house.
struct HouseCover {
    std::vector<CoveredPlane> planes;
    eavewright::FoundLayout layout;  ///< the sheets of all planes
    std::vector<eavewright::CutSteel> steel;
    eavewright::PanelPairs pairs;
    eavewright::EdgeStrips valleys;
    std::vector<eavewright::Length> purlin_pieces;
    eavewright::StockPlan lumber;
    eavewright::FoundCuts purlins;
};

/// A picture or a text, by its file name.
struct HouseFile {
    std::string name;
    std::string text;
};

[[nodiscard]] HouseCover cover_house(const eavewright::ComposedRoof& house);
void print_cover(std::ostream& out, const HouseCover& cover);
[[nodiscard]] std::vector<HouseFile> draw_cover(const HouseCover& cover);
