// SPDX-License-Identifier: BSL-1.0
#pragma once

// A screw pattern, and how many screws it asks for where.

#include <eavewright/fastening/nail_spacing.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {

/// A screw pattern by the rib. The figures are a generic pattern, from memory: no code fixes one, so put the maker's in
/// and say so in `unverified`. One a rib in the field, in the flat beside it; both sides of every rib at the eave, the
/// ridge and end laps; one more at a closing edge; stitch screws at 24 to 36 in.
struct ScrewPattern {
    int field = 1;         ///< for each rib on rows between
    int eave = 2;          ///< for each rib on the lowest row
    int ridge = 2;         ///< for each rib on the topmost row
    int end_lap = 2;       ///< for each rib on a row under an end lap
    int closing_edge = 1;  ///< more on every row where a panel ends without a neighbour's lap
    std::optional<Length> stitch = Length::from_inches(24.0);  ///< spacing along side laps; none for no stitch screws
    Length stitch_edge = Length::from_inches(1.0);             ///< first stitch screw from either end; common practice
    Length end_distance = Length::from_inches(1.0);            ///< screw to a panel's end; common practice
    Length least_margin = Length::from_inches(1.0 / 4.0);      ///< screw line to the purlin's side; common practice
    Tick tick = Tick::of_inch(16);                             ///< what lines are marked to
    bool unverified = true;                                    ///< the pattern was not read off the maker's sheet
    Length beside_rib = Length::from_inches(1.5);  ///< rib's middle to a screw in the flat beside it; common practice
};

inline void find_faults(const ScrewPattern& pattern, const Path& path, Faults& faults) {
    const auto count = [&](int given, std::string_view name) {
        if (given < 0 || given > 20) {
            faults.push_back(Fault{FaultCode::out_of_range, Path{path, name}.text(), std::to_string(given), "0 to 20"});
        }
    };
    count(pattern.field, "field");
    count(pattern.eave, "eave");
    count(pattern.ridge, "ridge");
    count(pattern.end_lap, "end_lap");
    count(pattern.closing_edge, "closing_edge");
    const Length foot = Length::from_inches(12.0);
    if (pattern.stitch) {
        require_within(*pattern.stitch, one_inch, 10.0 * foot, Path{path, "stitch"}, faults);
    }
    require_within(pattern.stitch_edge, no_length, foot, Path{path, "stitch_edge"}, faults);
    require_within(pattern.end_distance, no_length, foot, Path{path, "end_distance"}, faults);
    require_within(pattern.least_margin, no_length, foot, Path{path, "least_margin"}, faults);
    require_within(pattern.beside_rib, no_length, foot, Path{path, "beside_rib"}, faults);
}

/// What a screw is there for. The pattern gives every use its number.
enum class ScrewUse { field, eave, ridge, end_lap, closing_edge, stitch };
template <>
struct NamesOf<ScrewUse> {
    static constexpr std::array<std::string_view, 6> list{"field",   "eave",         "ridge",
                                                          "end_lap", "closing_edge", "stitch"};
};

namespace detail {
/// Screws for each rib in a row, and what for: the most that its place asks for.
struct PerRib {
    int screws;
    ScrewUse use;
};
[[nodiscard]] inline PerRib per_rib(const ScrewPattern& pattern, bool lapped, bool lowest, bool topmost) {
    PerRib most = lapped ? PerRib{pattern.end_lap, ScrewUse::end_lap} : PerRib{pattern.field, ScrewUse::field};
    if (lowest && pattern.eave > most.screws) {
        most = {pattern.eave, ScrewUse::eave};
    }
    if (topmost && pattern.ridge > most.screws) {
        most = {pattern.ridge, ScrewUse::ridge};
    }
    return most;
}

/// Stitch screws in one stretch of a side lap.
[[nodiscard]] inline std::int64_t stitches_in(Span lap, const ScrewPattern& pattern) {
    return pattern.stitch ? nails_across(lap.high - lap.low, *pattern.stitch, pattern.stitch_edge) : 0;
}

}  // namespace detail

}  // namespace eavewright
