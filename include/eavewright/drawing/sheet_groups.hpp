// SPDX-License-Identifier: BSL-1.0
#pragma once

// Sheets that are cut alike, once each: what a picture of cut sheets draws.

#include <eavewright/drawing/cut_drawing.hpp>
#include <eavewright/order/sheet_cut_tree.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>

#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace eavewright::detail {

/// A piece of a sheet that is drawn, and those that lie in its place on the sheets cut alike.
struct DrawnPiece {
    std::size_t part;
    std::string label;               ///< its name, or a letter where several sheets are cut alike
    std::string size;                ///< width x length, as the piece is cut
    bool square;                     ///< no side slanted
    bool turned;                     ///< lies across the strength axis
    std::vector<std::string> names;  ///< on the first sheet, the second and so on
};

/// Sheets that are cut alike, by the first of them.
struct SheetGroup {
    std::size_t count = 0;
    std::vector<std::size_t> parts{};  ///< of the first sheet
    std::vector<std::size_t> cuts{};
    std::vector<DrawnPiece> pieces{};
    std::size_t largest_offcut = static_cast<std::size_t>(-1);  ///< index into the offcuts
};

[[nodiscard]] inline bool is_box(const std::vector<CutPoint>& outline) {
    const Spots spots = spots_of(outline);
    const SpotExtent extent = extent_of(spots);
    return area_of(spots) > (extent.high.l - extent.low.l) * (extent.high.w - extent.low.w) - 1e-6;
}

/// What two sheets have to share to be cut alike: every part with its corners and what becomes of it.
[[nodiscard]] inline std::string look_of_sheet(const SheetSawPlan& sawn, const std::vector<std::size_t>& parts) {
    std::string look;
    for (const std::size_t part : parts) {
        const SawnPart& each = sawn.parts[part];
        look += each.cut ? 'c' : (each.piece ? 'p' : 'o');
        if (each.piece) {
            look += std::to_string(sawn.pieces[*each.piece].quarter_turns);
        }
        for (const CutPoint& p : each.outline) {
            look += write_decimal(inches(p.length), 3) + "," + write_decimal(inches(p.width), 3) + " ";
        }
    }
    return look;
}

[[nodiscard]] inline std::vector<SheetGroup> group_sheets(const SheetSawPlan& sawn,
                                                          const std::vector<SheetShape>& shapes,
                                                          const std::vector<std::string>& names, Tick tick) {
    std::vector<std::vector<std::size_t>> parts(static_cast<std::size_t>(sawn.sheets));
    for (std::size_t i = 0; i < sawn.parts.size(); ++i) {
        parts[sawn.parts[i].sheet].push_back(i);
    }
    std::map<std::string, std::size_t> known;
    std::vector<SheetGroup> groups;
    for (const std::vector<std::size_t>& sheet : parts) {
        const auto [at, is_new] = known.try_emplace(look_of_sheet(sawn, sheet), groups.size());
        if (is_new) {
            groups.push_back({.parts = sheet});
        }
        SheetGroup& group = groups[at->second];
        ++group.count;
        std::size_t place = 0;
        for (const std::size_t part : sheet) {
            if (!sawn.parts[part].piece) {
                continue;
            }
            const std::size_t piece = *sawn.parts[part].piece;
            if (is_new) {
                const SheetSize& box = shapes[piece].box;
                group.pieces.push_back({part,
                                        {},
                                        write_length(box.width, tick) + " x " + write_length(box.length, tick),
                                        is_box(sawn.parts[part].outline),
                                        sawn.pieces[piece].quarter_turns % 2 == 1,
                                        {}});
            }
            group.pieces[place++].names.push_back(name_of_piece(names, piece));
        }
    }
    for (std::size_t g = 0; g < groups.size(); ++g) {
        for (std::size_t i = 0; i < groups[g].pieces.size(); ++i) {
            DrawnPiece& piece = groups[g].pieces[i];
            piece.label = groups[g].count > 1 ? letters_of(i) : piece.names[0];
        }
        for (std::size_t i = 0; i < sawn.cuts.size(); ++i) {
            if (sawn.parts[sawn.cuts[i].part].sheet == sawn.parts[groups[g].parts[0]].sheet) {
                groups[g].cuts.push_back(i);
            }
        }
        for (std::size_t i = sawn.offcuts.size(); i > 0; --i) {
            if (sawn.parts[sawn.offcuts[i - 1].part].sheet == sawn.parts[groups[g].parts[0]].sheet) {
                groups[g].largest_offcut = i - 1;
            }
        }
    }
    return groups;
}

}  // namespace eavewright::detail
