// SPDX-License-Identifier: BSL-1.0
#pragma once

// Pieces of a layout cut from whole sheets: crosscuts first, then rips, the strength axis kept.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace eavewright {

/// Where one piece is cut from its sheet. `at_length` and `at_width` are its corner on the sheet.
struct SheetCut {
    std::size_t piece;  ///< index into the sizes asked for
    std::size_t sheet;  ///< number of the sheet, from 0
    Length at_length;   ///< along the strength axis
    Length at_width;
};
template <>
struct FieldsOf<SheetCut> {
    static constexpr auto list =
        field_list(field("piece", FieldUnit::count, "index of the piece", &SheetCut::piece),
                   field("sheet", FieldUnit::count, "number of the sheet, from 0", &SheetCut::sheet),
                   field("at_length", FieldUnit::length, "its corner along the strength axis", &SheetCut::at_length),
                   field("at_width", FieldUnit::length, "its corner across the sheet", &SheetCut::at_width));
};

/// What pieces are cut from.
struct SheetStock {
    SheetSize sheet;
    std::int64_t on_hand = 0;                  ///< used before any is bought
    Length kerf = Length::from_inches(0.125);  ///< between two pieces; common practice
};

/// A way to cut every piece, which `find_faults_of_cuts` accepts or rejects on its own.
struct SheetCutList {
    std::vector<SheetCut> cuts;
    std::int64_t sheets;  ///< whole sheets in all
    std::int64_t to_buy;  ///< of them not on hand
    Area pieces;          ///< of all pieces
    Area waste;           ///< of the sheets less the pieces
    std::int64_t fewest;  ///< no way of cutting needs fewer: the pieces' area over the sheet's
};
template <>
struct FieldsOf<SheetCutList> {
    static constexpr auto list =
        field_list(field("sheets", FieldUnit::count, "whole sheets in all", &SheetCutList::sheets),
                   field("to_buy", FieldUnit::count, "of them not on hand", &SheetCutList::to_buy),
                   field("pieces", FieldUnit::area, "area of all pieces", &SheetCutList::pieces),
                   field("waste", FieldUnit::area, "area of the sheets less the pieces", &SheetCutList::waste),
                   field("fewest", FieldUnit::count, "no way of cutting needs fewer", &SheetCutList::fewest),
                   field("cuts", FieldUnit::none, "where each piece is cut from its sheet", &SheetCutList::cuts));
};

/// Most pieces that are cut from sheets in one call.
inline constexpr std::size_t most_sheet_cuts = 5'000;

inline void find_faults(const SheetStock& stock, const Path& path, Faults& faults) {
    require_within(stock.sheet.width, 6.0 * one_inch, 480.0 * one_inch, Path{path, "width"}, faults);
    require_within(stock.sheet.length, 6.0 * one_inch, 480.0 * one_inch, Path{path, "length"}, faults);
    require_within(stock.kerf, no_length, Length::from_inches(2.0), Path{path, "kerf"}, faults);
    if (stock.on_hand < 0 || stock.on_hand > most_steps) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "on_hand"}.text(), std::to_string(stock.on_hand),
                               "0 to " + std::to_string(most_steps)});
    }
}

/// The cut sizes of a layout's pieces, in their order. Slanted ones are cut from their box.
[[nodiscard]] inline std::vector<SheetSize> cut_sizes(const Sheets& sheets) {
    std::vector<SheetSize> sizes;
    sizes.reserve(sheets.pieces.size());
    for (const SheetPiece& piece : sheets.pieces) {
        sizes.push_back({piece.width, piece.length});
    }
    return sizes;
}

/// Everything wrong with a cut list, judged on its own: a piece off its sheet, two that overlap or leave no kerf between
/// them, one cut twice or not at all, counts that do not add up. Empty where it may be sawn from.
[[nodiscard]] inline Faults find_faults_of_cuts(const std::vector<SheetSize>& pieces, const SheetStock& stock,
                                                const SheetCutList& list) {
    Faults faults;
    const auto refuse = [&](const std::string& path, const std::string& given, const std::string& required) {
        faults.push_back(Fault{FaultCode::contradiction, path, given, required});
    };
    std::vector<std::vector<std::size_t>> on_sheet(static_cast<std::size_t>(list.sheets > 0 ? list.sheets : 0));
    std::vector<int> times(pieces.size(), 0);
    const auto fits = [](Length at, Length size, Length room) {
        return at >= -count_tolerance && at + size <= room + count_tolerance;
    };
    for (std::size_t c = 0; c < list.cuts.size(); ++c) {
        const SheetCut& cut = list.cuts[c];
        if (cut.piece >= pieces.size() || cut.sheet >= on_sheet.size()) {
            refuse("cuts[" + std::to_string(c) + "]", "piece " + std::to_string(cut.piece),
                   "a piece asked for, on a sheet counted");
            continue;
        }
        ++times[cut.piece];
        on_sheet[cut.sheet].push_back(c);
        if (!fits(cut.at_length, pieces[cut.piece].length, stock.sheet.length) ||
            !fits(cut.at_width, pieces[cut.piece].width, stock.sheet.width)) {
            refuse("cuts[" + std::to_string(c) + "]", "a piece off its sheet", "a piece within its sheet");
        }
    }
    const auto apart = [&](Length a, Length size_a, Length b, Length size_b) {
        const Length kerf = stock.kerf - count_tolerance;
        return a + size_a + kerf <= b || b + size_b + kerf <= a;
    };
    for (const std::vector<std::size_t>& sheet : on_sheet) {
        for (std::size_t i = 0; i < sheet.size(); ++i) {
            for (std::size_t k = i + 1; k < sheet.size(); ++k) {
                const SheetCut& a = list.cuts[sheet[i]];
                const SheetCut& b = list.cuts[sheet[k]];
                if (!apart(a.at_length, pieces[a.piece].length, b.at_length, pieces[b.piece].length) &&
                    !apart(a.at_width, pieces[a.piece].width, b.at_width, pieces[b.piece].width)) {
                    refuse("cuts[" + std::to_string(sheet[k]) + "]", "a piece on another", "a kerf between them");
                }
            }
        }
    }
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (times[i] != 1) {
            refuse("pieces[" + std::to_string(i) + "]", "cut " + std::to_string(times[i]) + " times", "cut once");
        }
    }
    const std::int64_t beyond_hand = list.sheets - stock.on_hand;
    if (list.to_buy != (beyond_hand > 0 ? beyond_hand : 0)) {
        refuse("to_buy", std::to_string(list.to_buy), "the sheets that are not on hand");
    }
    return faults;
}

namespace detail {
/// A crosscut part of a sheet, as long as its first piece, ripped from one side.
struct Segment {
    std::size_t sheet;
    Length from;
    Length length;
    Length ripped;  ///< width used, its last kerf included
};
struct OpenSheet {
    Length crosscut;  ///< length used, its last kerf included
};

inline void require_sheet_cuts(const std::vector<SheetSize>& pieces, const SheetStock& stock) {
    if (pieces.size() > most_sheet_cuts) {
        throw FaultError{Fault{FaultCode::too_much_work, "pieces", std::to_string(pieces.size()) + " pieces",
                               "no more than " + std::to_string(most_sheet_cuts)}};
    }
    Faults faults;
    const Path list{"pieces"};
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const Path at{list, i};
        require_within(pieces[i].length, no_length, stock.sheet.length, Path{at, "length"}, faults);
        require_within(pieces[i].width, no_length, stock.sheet.width, Path{at, "width"}, faults);
    }
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
}

/// The segment that a piece is ripped from: the first that is long and wide enough, else a new one on the first sheet that
/// is long enough, else on a new sheet.
[[nodiscard]] inline Segment& segment_for(const SheetSize& piece, const SheetStock& stock,
                                          std::vector<Segment>& segments, std::vector<OpenSheet>& sheets) {
    for (Segment& segment : segments) {
        if (piece.length <= segment.length + count_tolerance &&
            segment.ripped + piece.width <= stock.sheet.width + count_tolerance) {
            return segment;
        }
    }
    std::size_t sheet = 0;
    while (sheet < sheets.size() && sheets[sheet].crosscut + piece.length > stock.sheet.length + count_tolerance) {
        ++sheet;
    }
    if (sheet == sheets.size()) {
        sheets.push_back({no_length});
    }
    segments.push_back({sheet, sheets[sheet].crosscut, piece.length, no_length});
    sheets[sheet].crosscut += piece.length + stock.kerf;
    return segments.back();
}
}  // namespace detail

/// Cuts every piece from whole sheets, longest first, wider first among equals: crosscut to the longest piece of a segment,
/// then ripped. The strength axis of every piece lies along the sheet's length. Not always the fewest sheets; it is where
/// `sheets` equals `fewest`. Throws `FaultError`: the first fault of `stock`, out_of_range for a piece larger than a sheet,
/// too_much_work above `most_sheet_cuts`.
[[nodiscard]] inline SheetCutList cut_sheets(const std::vector<SheetSize>& pieces, const SheetStock& stock) {
    require_sound(stock, "order");
    detail::require_sheet_cuts(pieces, stock);
    std::vector<std::size_t> order(pieces.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return pieces[b].length < pieces[a].length ||
               (pieces[b].length == pieces[a].length && pieces[b].width < pieces[a].width);
    });
    SheetCutList list{{}, 0, 0, Area::from_value(0.0), Area::from_value(0.0), 0};
    std::vector<detail::Segment> segments;
    std::vector<detail::OpenSheet> sheets;
    for (const std::size_t i : order) {
        detail::Segment& segment = detail::segment_for(pieces[i], stock, segments, sheets);
        list.cuts.push_back({i, segment.sheet, segment.from, segment.ripped});
        segment.ripped += pieces[i].width + stock.kerf;
        list.pieces += pieces[i].length * pieces[i].width;
    }
    const Area sheet = stock.sheet.length * stock.sheet.width;
    const double share = square_inches(list.pieces) / square_inches(sheet);
    list.sheets = static_cast<std::int64_t>(sheets.size());
    list.to_buy = list.sheets > stock.on_hand ? list.sheets - stock.on_hand : 0;
    list.waste = sheet * static_cast<double>(list.sheets) - list.pieces;
    list.fewest = static_cast<std::int64_t>(std::ceil(share - 1e-9));  // rounding of the areas' sum, far below a piece
    return list;
}

}  // namespace eavewright
