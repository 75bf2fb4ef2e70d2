// SPDX-License-Identifier: BSL-1.0
#pragma once

// Rectangles laid into sheets by straight-through cuts: each sheet is a tree of parts, each part free, cut or a block.

#include <eavewright/order/pair_shapes.hpp>
#include <eavewright/order/sheet_spots.hpp>
#include <eavewright/units/count.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright::detail {

enum class NodeUse : std::int8_t { free, block, crosscut, rip };

/// A rectangular part of a sheet. A cut keeps `first`, the low side, and leaves `second` beyond the blade where any is
/// left.
struct PackNode {
    double l0;
    double w0;
    double l;
    double w;
    NodeUse use = NodeUse::free;
    bool turned = false;
    std::int32_t block = -1;
    std::int32_t first = -1;
    std::int32_t second = -1;
};

/// Parts that placing a block leaves: beyond its crosscut and beyond its rip; -1 for none.
struct LeftParts {
    std::int32_t beyond_crosscut = -1;
    std::int32_t beyond_rip = -1;
};

/// What sheets are packed with.
struct PackRules {
    double l;
    double w;
    double kerf;
    double tick;
    double least_l;  ///< no piece is shorter or narrower than these, in either way it may lie
    double least_w;
};

inline constexpr double fit_tolerance = 1.0 / 65536.0;  ///< count_tolerance
static_assert(fit_tolerance == inches(count_tolerance));

struct PackSheet {
    std::vector<PackNode> nodes;
    std::vector<std::int32_t> free;  ///< nodes that something could be laid in
    std::int32_t blocks = 0;
    std::int32_t cuts = 0;
    double used = 0.0;    ///< area of the pieces
    double room_l = 0.0;  ///< longest and widest free node
    double room_w = 0.0;

    explicit PackSheet(const PackRules& rules) { clear(rules); }

    void clear(const PackRules& rules) {
        nodes.assign(1, {0.0, 0.0, rules.l, rules.w});
        free.assign(1, 0);
        blocks = 0;
        cuts = 0;
        used = 0.0;
        find_room();
    }
    void find_room() {
        room_l = room_w = 0.0;
        for (const std::int32_t at : free) {
            room_l = std::fmax(room_l, nodes[static_cast<std::size_t>(at)].l + fit_tolerance);
            room_w = std::fmax(room_w, nodes[static_cast<std::size_t>(at)].w + fit_tolerance);
        }
    }
    /// False where no free node is long or wide enough.
    [[nodiscard]] bool may_hold(const Block& block) const {
        return (block.l <= room_l && block.w <= room_w) || (block.turnable && block.w <= room_l && block.l <= room_w);
    }

    /// Divides a node, `size` to be kept. Gives back the part beyond.
    std::int32_t divide(std::int32_t at, bool across, double size, const PackRules& rules) {
        PackNode kept = nodes[static_cast<std::size_t>(at)];
        PackNode rest = kept;
        double& room = across ? rest.l : rest.w;
        const double left = room - size - rules.kerf;
        (across ? rest.l0 : rest.w0) += size + rules.kerf;
        (across ? kept.l : kept.w) = size;
        room = left;
        ++cuts;
        const auto first = static_cast<std::int32_t>(nodes.size());
        nodes.push_back(kept);
        std::int32_t second = -1;
        if (left > spot_tolerance) {
            second = first + 1;
            nodes.push_back(rest);
            if (rest.l + fit_tolerance >= rules.least_l && rest.w + fit_tolerance >= rules.least_w) {
                free.push_back(second);
            }
        }
        PackNode& whole = nodes[static_cast<std::size_t>(at)];
        whole.use = across ? NodeUse::crosscut : NodeUse::rip;
        whole.first = first;
        whole.second = second;
        return second;
    }

    /// Lays a block into the low corner of a free node, crosscut or ripped off first.
    LeftParts lay(std::int32_t at, std::int32_t block, const Block& what, bool turned, bool across_first,
                  int inner_cuts, const PackRules& rules) {
        free.erase(std::find(free.begin(), free.end(), at));
        LeftParts left;
        for (const bool across : {across_first, !across_first}) {
            const PackNode& node = nodes[static_cast<std::size_t>(at)];
            const double size = across != turned ? what.l : what.w;
            if ((across ? node.l : node.w) - size > spot_tolerance) {
                (across ? left.beyond_crosscut : left.beyond_rip) = divide(at, across, size, rules);
                at = nodes[static_cast<std::size_t>(at)].first;
            }
        }
        PackNode& node = nodes[static_cast<std::size_t>(at)];
        node.use = NodeUse::block;
        node.block = block;
        node.turned = turned;
        ++blocks;
        cuts += inner_cuts;
        used += what.area;
        find_room();
        return left;
    }
};

/// Numbers for the search, the same on every machine (splitmix64, Steele, Lea and Flood 2014; from memory).
struct SearchDice {
    std::uint64_t state;
    std::uint64_t next() {
        std::uint64_t z = (state += 0x9e3779b97f4a7c15U);
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31U);
    }
    std::size_t below(std::size_t count) { return static_cast<std::size_t>((next() >> 11U) % count); }
    bool one_in(std::size_t count) { return below(count) == 0; }
    double share() { return static_cast<double>(next() >> 11U) / 9007199254740992.0; }
};

/// How one laying chooses: the order of blocks, the place, the first cut.
struct LayRules {
    int order = 0;        ///< by area, length, width, longer side
    int place = 0;        ///< least area, least of the lesser gap, least of the greater gap left
    int split = 0;        ///< the larger rest whole, the lesser rest whole, crosscut first, rip first
    double shake = 0.0;   ///< by what share sizes are mistaken when ordered
    bool blinks = false;  ///< now and then a place is overlooked, a first cut turned
};

[[nodiscard]] inline double order_of(const Block& block, int order) {
    switch (order) {
        case 1: return block.l * 1000.0 + block.w;
        case 2: return block.w * 1000.0 + block.l;
        case 3: return std::fmax(block.l, block.w) * 1000.0 + std::fmin(block.l, block.w);
        default: return block.l * block.w;
    }
}
[[nodiscard]] inline bool crosscuts_first(const PackNode& node, double l, double w, int split) {
    const double beyond_crosscut = (node.l - l) * node.w;
    const double beyond_rip = node.l * (node.w - w);
    switch (split) {
        case 1: return beyond_crosscut < beyond_rip;
        case 2: return true;
        case 3: return false;
        default: return beyond_crosscut >= beyond_rip;
    }
}
/// How badly a block fits a node; less is better.
[[nodiscard]] inline double misfit_of(double gap_l, double gap_w, double room, int place) {
    switch (place) {
        case 1: return std::fmin(gap_l, gap_w);
        case 2: return std::fmax(gap_l, gap_w);
        default: return room;
    }
}

/// A free node that a block may be laid in.
struct FoundPlace {
    std::size_t sheet = 0;
    std::int32_t node = -1;
    bool turned = false;
    double misfit = 1e300;
};

/// Looks through the free nodes of a sheet for a better place. Counts what it looks at.
inline void find_place(const PackSheet& sheet, std::size_t number, const Block& block, int place, std::uint64_t blink,
                       FoundPlace& best, std::int64_t& tried) {
    tried += static_cast<std::int64_t>(sheet.free.size());
    for (const std::int32_t at : sheet.free) {
        const PackNode& node = sheet.nodes[static_cast<std::size_t>(at)];
        for (const bool turned : {false, true}) {
            const double gap_l = node.l - (turned ? block.w : block.l);
            const double gap_w = node.w - (turned ? block.l : block.w);
            if ((turned && !block.turnable) || gap_l < -fit_tolerance || gap_w < -fit_tolerance) {
                continue;
            }
            const double misfit = misfit_of(gap_l, gap_w, node.l * node.w, place);
            const bool overlooked =
                blink != 0 && ((blink >> ((number + static_cast<std::size_t>(at)) % 61U)) & 7U) == 7U;
            if (misfit < best.misfit && !overlooked) {
                best = {number, at, turned, misfit};
            }
        }
    }
}

}  // namespace eavewright::detail
