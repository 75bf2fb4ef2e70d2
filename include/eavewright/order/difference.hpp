// SPDX-License-Identifier: BSL-1.0
#pragma once

// Two layouts compared piece by piece, and what that means for what lies on site: how many more or fewer of each size.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

namespace eavewright {

/// Kinds of pieces that a layout places, from the frame up.
enum class PieceKind { purlin, block, sheet, underlayment, panel, trim };
template <>
struct NamesOf<PieceKind> {
    static constexpr std::array<std::string_view, 6> list{"purlin", "block", "sheet", "underlayment", "panel", "trim"};
};

/// One piece as it is placed. Plane, kind and name together are its own: no two pieces of a layout share all three.
struct PlacedPiece {
    PieceKind kind;
    std::string plane;  ///< that it lies on: "front"
    std::string name;   ///< as it is written on the piece: "A1", "12b"
    Length length;      ///< 0 or more
    Length width;       ///< 0 or more
};

/// Length and width of a piece.
struct PieceSize {
    Length length;
    Length width;
};
template <>
struct FieldsOf<PieceSize> {
    static constexpr auto list = field_list(field("length", FieldUnit::length, "length", &PieceSize::length),
                                            field("width", FieldUnit::length, "width", &PieceSize::width));
};

/// What became of a piece.
enum class ChangeKind { added, removed, resized };
template <>
struct NamesOf<ChangeKind> {
    static constexpr std::array<std::string_view, 3> list{"added", "removed", "resized"};
};

/// One piece that is not as it was.
struct PieceChange {
    ChangeKind change;
    PieceKind kind;
    std::string plane;
    std::string name;
    std::optional<PieceSize> before;  ///< none for one that was added
    std::optional<PieceSize> after;   ///< none for one that was removed
};
template <>
struct FieldsOf<PieceChange> {
    static constexpr auto list = field_list(
        field("change", FieldUnit::none, "what became of the piece", &PieceChange::change),
        field("kind", FieldUnit::none, "what the piece is", &PieceChange::kind),
        field("plane", FieldUnit::none, "the plane that it lies on", &PieceChange::plane),
        field("name", FieldUnit::none, "its name on that plane", &PieceChange::name),
        field("before", FieldUnit::none, "its size before, null for one that was added", &PieceChange::before),
        field("after", FieldUnit::none, "its size after, null for one that was removed", &PieceChange::after));
};

/// How many more pieces of one kind and size are placed.
struct SizeChange {
    PieceKind kind;
    Length length;
    Length width;
    std::int64_t more;  ///< to be bought on top; below zero, so many go back; never zero
};
template <>
struct FieldsOf<SizeChange> {
    static constexpr auto list = field_list(
        field("kind", FieldUnit::none, "what the pieces are", &SizeChange::kind),
        field("length", FieldUnit::length, "length of each", &SizeChange::length),
        field("width", FieldUnit::length, "width of each", &SizeChange::width),
        field("more", FieldUnit::count, "how many more are placed, below zero how many fewer", &SizeChange::more));
};

/// The difference between two layouts.
struct Difference {
    std::vector<PieceChange> changes;  ///< by plane, kind, then as given: what was there before, then what was added
    std::int64_t added;
    std::int64_t removed;
    std::int64_t resized;
    std::int64_t unchanged;
    std::vector<SizeChange> sizes;  ///< by kind, longest first, widest first
};
template <>
struct FieldsOf<Difference> {
    static constexpr auto list =
        field_list(field("changes", FieldUnit::none, "pieces that are not as they were", &Difference::changes),
                   field("added", FieldUnit::count, "pieces that were not there before", &Difference::added),
                   field("removed", FieldUnit::count, "pieces that are no longer there", &Difference::removed),
                   field("resized", FieldUnit::count, "pieces of another size", &Difference::resized),
                   field("unchanged", FieldUnit::count, "pieces as they were", &Difference::unchanged),
                   field("sizes", FieldUnit::none, "how many more or fewer of each size", &Difference::sizes));
};

/// Faults of one layout's pieces: more than `most_steps`, no name, a size that is none, two pieces of one plane, kind and
/// name.
inline void find_faults(const std::vector<PlacedPiece>& pieces, const Path& path, Faults& faults) {
    if (pieces.size() > static_cast<std::size_t>(most_steps)) {
        faults.push_back(Fault{FaultCode::too_much_work, path.text(), std::to_string(pieces.size()) + " pieces",
                               "no more than " + std::to_string(most_steps)});
        return;
    }
    std::map<std::tuple<std::string_view, PieceKind, std::string_view>, std::size_t> seen;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const PlacedPiece& piece = pieces[i];
        const Path at{path, i};
        require_within(piece.length, no_length, Length::from_inches(length_limit_in), Path{at, "length"}, faults);
        require_within(piece.width, no_length, Length::from_inches(length_limit_in), Path{at, "width"}, faults);
        if (piece.name.empty()) {
            faults.push_back(Fault{FaultCode::missing_field, Path{at, "name"}.text(), "", "a name"});
        }
        const auto [first, is_new] = seen.try_emplace({piece.plane, piece.kind, piece.name}, i);
        if (!is_new) {
            faults.push_back(Fault{FaultCode::contradiction, at.text(),
                                   piece.plane + ", " + std::string{name_of(piece.kind)} + " " + piece.name,
                                   "a name of its own: " + Path{path, first->second}.text() + " has it"});
        }
    }
}

namespace detail {
/// No more than half a tick apart: the same mark on the tape of the person who cuts.
[[nodiscard]] inline bool within_half_tick(Length a, Length b, Tick tick) {
    return magnitude(a - b) <= tick.step() / 2.0 + count_tolerance;
}

using PieceKey = std::tuple<std::size_t, PieceKind, std::string_view>;  ///< plane by its rank
using PlaneRanks = std::map<std::string_view, std::size_t>;

inline void rank_planes(const std::vector<PlacedPiece>& pieces, PlaneRanks& ranks) {
    for (const PlacedPiece& piece : pieces) {
        ranks.try_emplace(piece.plane, ranks.size());
    }
}
[[nodiscard]] inline PieceKey key_of(const PlacedPiece& piece, const PlaneRanks& ranks) {
    return {ranks.at(piece.plane), piece.kind, piece.name};
}

/// A piece that came or went.
struct Tally {
    PieceKind kind;
    PieceSize size;
    std::int64_t more;
};

/// Tallies that a sort by `measure` set side by side, cut apart where one falls more than half a tick below its group's
/// first; each group takes that one's measure.
template <class Measure>
void group_by(std::vector<Tally>& tallies, std::size_t from, std::size_t to, Tick tick, const Measure& measure) {
    std::stable_sort(tallies.begin() + static_cast<std::ptrdiff_t>(from),
                     tallies.begin() + static_cast<std::ptrdiff_t>(to),
                     [&](const Tally& a, const Tally& b) { return b.size.*measure < a.size.*measure; });
    for (std::size_t i = from + 1; i < to; ++i) {
        const Length first = tallies[i - 1].size.*measure;
        if (within_half_tick(tallies[i].size.*measure, first, tick)) {
            tallies[i].size.*measure = first;
        }
    }
}
/// Calls `visit(from, to)` for each run of tallies that are `alike`.
template <class Alike, class Visit>
void for_each_run(const std::vector<Tally>& tallies, std::size_t from, std::size_t to, const Alike& alike,
                  const Visit& visit) {
    while (from < to) {
        std::size_t end = from + 1;
        while (end < to && alike(tallies[from], tallies[end])) {
            ++end;
        }
        visit(from, end);
        from = end;
    }
}

/// What was there before, in its order, then what was added, in its order.
inline void compare_pieces(const std::vector<PlacedPiece>& before, const std::vector<PlacedPiece>& after,
                           const PlaneRanks& ranks, Tick tick, Difference& result) {
    std::map<PieceKey, const PlacedPiece*> left;
    for (const PlacedPiece& piece : after) {
        left.emplace(key_of(piece, ranks), &piece);
    }
    for (const PlacedPiece& was : before) {
        const PieceSize size{was.length, was.width};
        const auto found = left.find(key_of(was, ranks));
        if (found == left.end()) {
            result.changes.push_back({ChangeKind::removed, was.kind, was.plane, was.name, size, std::nullopt});
            ++result.removed;
            continue;
        }
        const PlacedPiece& is = *found->second;
        left.erase(found);
        if (within_half_tick(is.length, was.length, tick) && within_half_tick(is.width, was.width, tick)) {
            ++result.unchanged;
            continue;
        }
        result.changes.push_back(
            {ChangeKind::resized, was.kind, was.plane, was.name, size, PieceSize{is.length, is.width}});
        ++result.resized;
    }
    for (const PlacedPiece& is : after) {
        if (left.count(key_of(is, ranks)) != 0) {
            result.changes.push_back(
                {ChangeKind::added, is.kind, is.plane, is.name, std::nullopt, PieceSize{is.length, is.width}});
            ++result.added;
        }
    }
}
}  // namespace detail

/// How many more or fewer pieces of each kind and size the changes leave. Pieces of one kind are of one size where length
/// and width fall short of the group's longest and widest by no more than half a `tick`; the group is as long and as wide as
/// those, so that nothing is bought short. Sizes that come out even are left out.
[[nodiscard]] inline std::vector<SizeChange> size_changes(const std::vector<PieceChange>& changes, Tick tick) {
    std::vector<detail::Tally> tallies;
    for (const PieceChange& change : changes) {
        if (change.before) {
            tallies.push_back({change.kind, *change.before, -1});
        }
        if (change.after) {
            tallies.push_back({change.kind, *change.after, 1});
        }
    }
    std::stable_sort(tallies.begin(), tallies.end(),
                     [](const detail::Tally& a, const detail::Tally& b) { return a.kind < b.kind; });
    const auto same_kind = [](const detail::Tally& a, const detail::Tally& b) { return a.kind == b.kind; };
    const auto same_length = [](const detail::Tally& a, const detail::Tally& b) {
        return a.size.length == b.size.length;
    };
    const auto same_width = [](const detail::Tally& a, const detail::Tally& b) { return a.size.width == b.size.width; };
    std::vector<SizeChange> sizes;
    detail::for_each_run(tallies, 0, tallies.size(), same_kind, [&](std::size_t low, std::size_t high) {
        detail::group_by(tallies, low, high, tick, &PieceSize::length);
        detail::for_each_run(tallies, low, high, same_length, [&](std::size_t from, std::size_t to) {
            detail::group_by(tallies, from, to, tick, &PieceSize::width);
            detail::for_each_run(tallies, from, to, same_width, [&](std::size_t first, std::size_t end) {
                SizeChange size{tallies[first].kind, tallies[first].size.length, tallies[first].size.width, 0};
                for (std::size_t i = first; i < end; ++i) {
                    size.more += tallies[i].more;
                }
                if (size.more != 0) {
                    sizes.push_back(size);
                }
            });
        });
    });
    return sizes;
}

/// Compares two layouts piece by piece. Pieces of the same plane, kind and name are one piece; it is unchanged where neither
/// length nor width is off by more than half a `tick`, the finest mark that the crew works to. Changes stand by plane (as
/// first given), kind, then as given. `sizes` is made of the changes alone: a piece renamed but not resized is removed and
/// added, and comes out even there.
/// Throws `FaultError` with the first fault of `before` or `after`: contradiction for two pieces of one plane, kind, name.
[[nodiscard]] inline Difference difference(const std::vector<PlacedPiece>& before,
                                           const std::vector<PlacedPiece>& after, Tick tick) {
    require_sound(before, "before");
    require_sound(after, "after");
    detail::PlaneRanks ranks;
    detail::rank_planes(before, ranks);
    detail::rank_planes(after, ranks);
    Difference result{{}, 0, 0, 0, 0, {}};
    detail::compare_pieces(before, after, ranks, tick, result);
    std::stable_sort(result.changes.begin(), result.changes.end(), [&](const PieceChange& a, const PieceChange& b) {
        const std::size_t plane_a = ranks.at(a.plane);
        const std::size_t plane_b = ranks.at(b.plane);
        return plane_a < plane_b || (plane_a == plane_b && a.kind < b.kind);
    });
    result.sizes = size_changes(result.changes, tick);
    return result;
}

}  // namespace eavewright
