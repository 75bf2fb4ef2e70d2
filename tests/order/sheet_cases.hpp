// SPDX-License-Identifier: BSL-1.0
#pragma once

// Pieces to saw from sheets for tests: by name, by seed, and a search through everything for few small ones.

#include <eavewright/order/sheet_shapes.hpp>

#include "support/seeded_numbers.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>
#include <utility>
#include <vector>

namespace sheet_cases {
using namespace eavewright;
using namespace eavewright::literals;

inline SheetShape box(Length length, Length width, bool turnable = false) {
    return {.box = {.width = width, .length = length}, .turnable = turnable};
}
/// Right angle at the low corner: hip pieces of one hand.
inline SheetShape triangle(Length length, Length width) {
    return {.box = {.width = width, .length = length},
            .outline = {{no_length, no_length}, {length, no_length}, {no_length, width}}};
}
/// The same in a mirror: right angle at the far end.
inline SheetShape other_hand(Length length, Length width) {
    return {.box = {.width = width, .length = length},
            .outline = {{no_length, no_length}, {length, no_length}, {length, width}}};
}
/// As long as `length` on its low side, `other` on its high side.
inline SheetShape trapezoid(Length length, Length other, Length width) {
    return {.box = {.width = width, .length = longer(length, other)},
            .outline = {{no_length, no_length}, {length, no_length}, {other, width}, {no_length, width}}};
}
/// A corner cut off.
inline SheetShape pentagon(Length length, Length width, Length off_length, Length off_width) {
    return {.box = {.width = width, .length = length},
            .outline = {{no_length, no_length},
                        {length, no_length},
                        {length, width - off_width},
                        {length - off_length, width},
                        {no_length, width}}};
}

/// Any piece of a 4 x 8 ft sheet, in sixteenths.
inline SheetShape any_piece(SeededNumbers& random) {
    const auto sixteenths = [&](int low, int high) { return 1_in / 16 * random.whole(low, high); };
    const Length length = random.coin() ? 6_in * random.whole(1, 16) : sixteenths(32, 1536);
    const Length width = random.coin() ? 4_ft : sixteenths(32, 768);
    const Length part = length * (random.whole(1, 15) / 16.0);
    const Length tick_part = 1_in / 16 * static_cast<double>(static_cast<int>(inches(part) * 16.0));
    switch (random.whole(0, 8)) {
        case 0: return triangle(length, width);
        case 1: return other_hand(length, width);
        case 2: return trapezoid(length, tick_part, width);
        case 3: return trapezoid(tick_part, length, width);
        case 4: return pentagon(length, width, tick_part, 1_in);
        case 5: return box(length < width ? length : width, 6_in, true);
        default: return box(length, width);
    }
}

/// Fewest sheets by trying every cut: sizes are whole numbers, cuts run from edge to edge.
class TryEveryCut {
public:
    struct Piece {
        int length;
        int width;
        bool turnable;
    };
    TryEveryCut(std::vector<Piece> pieces, int length, int width, int kerf)
        : pieces_{std::move(pieces)}, length_{length}, width_{width}, kerf_{kerf} {}

    std::int64_t fewest_sheets() {
        const unsigned all = (1U << pieces_.size()) - 1U;
        std::vector<std::int64_t> sheets(all + 1U, 0);
        for (unsigned set = 1; set <= all; ++set) {
            sheets[set] = static_cast<std::int64_t>(pieces_.size());
            for (unsigned one = set; one > 0; one = (one - 1U) & set) {
                if (fits(one, length_, width_)) {
                    sheets[set] = std::min(sheets[set], 1 + sheets[set & ~one]);
                }
            }
        }
        return sheets[all];
    }

private:
    bool fits(unsigned set, int length, int width) {
        if (set == 0) {
            return true;
        }
        if (length <= 0 || width <= 0) {
            return false;
        }
        const auto key = std::make_pair(set, std::make_pair(length, width));
        const auto known = known_.find(key);
        if (known != known_.end()) {
            return known->second;
        }
        return known_[key] = fits_now(set, length, width);
    }
    bool fits_now(unsigned set, int length, int width) {
        int area = 0;
        for (std::size_t i = 0; i < pieces_.size(); ++i) {
            if ((set >> i & 1U) != 0) {
                const Piece& p = pieces_[i];
                const bool one = p.length <= length && p.width <= width;
                const bool other = p.turnable && p.width <= length && p.length <= width;
                if (!one && !other) {
                    return false;
                }
                area += p.length * p.width;
            }
        }
        if (area > length * width) {
            return false;
        }
        if ((set & (set - 1U)) == 0) {
            return true;
        }
        for (unsigned part = (set - 1U) & set; part > 0; part = (part - 1U) & set) {
            for (int at = 1; at < length; ++at) {
                if (fits(part, at, width) && fits(set & ~part, length - at - kerf_, width)) {
                    return true;
                }
            }
            for (int at = 1; at < width; ++at) {
                if (fits(part, length, at) && fits(set & ~part, length, width - at - kerf_)) {
                    return true;
                }
            }
        }
        return false;
    }

    std::vector<Piece> pieces_;
    int length_;
    int width_;
    int kerf_;
    std::map<std::pair<unsigned, std::pair<int, int>>, bool> known_;
};
}  // namespace sheet_cases
