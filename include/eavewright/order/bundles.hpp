// SPDX-License-Identifier: BSL-1.0
#pragma once

// Pieces grouped by length as they are ordered, and the bundles of one length that they come in.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/order/handling.hpp>
#include <eavewright/units/areal_mass.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// Pieces of one length.
struct CountedLength {
    Length length;
    std::int64_t count;
};
template <>
struct FieldsOf<CountedLength> {
    static constexpr auto list =
        field_list(field("length", FieldUnit::length, "length of each", &CountedLength::length),
                   field("count", FieldUnit::count, "how many of this length", &CountedLength::count));
};

/// Lengths counted, longest first. Those that fall short of a group's longest by no more than `count_tolerance` count as
/// equal to it, and the group is as long as its longest, so that none is ordered short.
/// Throws `FaultError`: too_much_work above `most_steps` lengths, out_of_range or not_finite outside 1/64 in to 200 ft.
[[nodiscard]] inline std::vector<CountedLength> group_lengths(std::vector<Length> lengths) {
    if (lengths.size() > static_cast<std::size_t>(most_steps)) {
        throw FaultError{Fault{FaultCode::too_much_work, "lengths", std::to_string(lengths.size()) + " lengths",
                               "no more than " + std::to_string(most_steps)}};
    }
    Faults faults;
    const Path list{"lengths"};
    for (std::size_t i = 0; i < lengths.size(); ++i) {
        require_within(lengths[i], one_inch / 64.0, Length::from_feet(200.0), Path{list, i}, faults);
    }
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    std::sort(lengths.begin(), lengths.end(), [](Length a, Length b) { return b < a; });
    std::vector<CountedLength> groups;
    for (const Length length : lengths) {
        if (groups.empty() || groups.back().length - length > count_tolerance) {
            groups.push_back({length, 0});
        }
        ++groups.back().count;
    }
    return groups;
}

/// How pieces of one length are bundled.
struct BundlePlan {
    std::int64_t most_pieces;                       ///< of a full bundle, 1 to 10,000
    Length width;                                   ///< of a piece, for its mass
    std::optional<ArealMass> layer = std::nullopt;  ///< mass per area of a piece
};

/// Bundles of pieces of one length. Read with `handling_caution`.
struct LengthBundles {
    Length length;
    std::int64_t count;           ///< pieces in all
    std::int64_t bundles;         ///< in all, a part bundle counted
    std::int64_t pieces_in_full;  ///< of a full bundle, or of the only one
    std::int64_t pieces_in_last;
    std::optional<Mass> each;      ///< mass of a piece
    std::optional<Mass> heaviest;  ///< mass of the heaviest bundle
    std::optional<Mass> total;     ///< mass of all of them
};
template <>
struct FieldsOf<LengthBundles> {
    static constexpr auto list = field_list(
        field("length", FieldUnit::length, "length of each piece", &LengthBundles::length),
        field("count", FieldUnit::count, "pieces in all", &LengthBundles::count),
        field("bundles", FieldUnit::count, "bundles in all, a part bundle counted", &LengthBundles::bundles),
        field("pieces_in_full", FieldUnit::count, "pieces of a full bundle, or of the only one",
              &LengthBundles::pieces_in_full),
        field("pieces_in_last", FieldUnit::count, "pieces of the last bundle", &LengthBundles::pieces_in_last),
        field(
            "each_pounds", FieldUnit::ratio, "mass of a piece in pounds, null where not given",
            +[](const LengthBundles& b) { return b.each ? std::optional<double>{pounds(*b.each)} : std::nullopt; }),
        field(
            "heaviest_pounds", FieldUnit::ratio, "mass of the heaviest bundle in pounds, null where not given",
            +[](const LengthBundles& b) {
                return b.heaviest ? std::optional<double>{pounds(*b.heaviest)} : std::nullopt;
            }),
        field(
            "total_pounds", FieldUnit::ratio, "mass of all pieces in pounds, null where not given",
            +[](const LengthBundles& b) { return b.total ? std::optional<double>{pounds(*b.total)} : std::nullopt; }),
        field(
            "caution", FieldUnit::none, "to be read before anything is lifted",
            +[](const LengthBundles&) { return handling_caution; }));
};

inline void find_faults(const BundlePlan& plan, const Path& path, Faults& faults) {
    if (plan.most_pieces < 1 || plan.most_pieces > 10'000) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "most_pieces"}.text(),
                               std::to_string(plan.most_pieces), "1 to 10000"});
    }
    require_within(plan.width, one_inch, Length::from_feet(200.0), Path{path, "width"}, faults);
}

/// Bundles of each length, longest first: no bundle holds two lengths. Throws `FaultError` with the first fault of `plan`,
/// or as `group_lengths`.
[[nodiscard]] inline std::vector<LengthBundles> bundle_lengths(const std::vector<Length>& lengths,
                                                               const BundlePlan& plan) {
    require_sound(plan, "bundles");
    std::vector<LengthBundles> all;
    for (const CountedLength& group : group_lengths(lengths)) {
        const std::int64_t bundles = (group.count - 1) / plan.most_pieces + 1;
        const std::int64_t full = group.count < plan.most_pieces ? group.count : plan.most_pieces;
        LengthBundles each{.length = group.length,
                           .count = group.count,
                           .bundles = bundles,
                           .pieces_in_full = full,
                           .pieces_in_last = group.count - (bundles - 1) * plan.most_pieces,
                           .each = std::nullopt,
                           .heaviest = std::nullopt,
                           .total = std::nullopt};
        if (plan.layer) {
            each.each = *plan.layer * (group.length * plan.width);
            each.heaviest = *each.each * static_cast<double>(full);
            each.total = *each.each * static_cast<double>(group.count);
        }
        all.push_back(each);
    }
    return all;
}

}  // namespace eavewright
