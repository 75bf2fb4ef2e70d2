// SPDX-License-Identifier: BSL-1.0
#pragma once

// How much of a fastener stands in the wood that holds it.
//
//      head ─┬─  sheet, washer, steel: `above`
//            │───────────────
//            │   member: `member`      a flat purlin is thin: what comes out below holds nothing
//            ┊───────────────
//            ▼   `through`

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <optional>
#include <string_view>
#include <utility>

namespace eavewright {

/// A fastener through layers into one member.
struct BiteInput {
    Length length;                     ///< under the head, tip included
    Length above;                      ///< thickness of all layers that lie over the member
    Length member;                     ///< thickness of the member in the direction of the fastener
    std::optional<Length> threaded{};  ///< deformed or threaded part that counts; none for a smooth shank
    Length lost_tip = no_length;       ///< tip that does not count: the pointed end of a lag screw. A nail's tip counts
};

/// What a bite is the least of.
enum class BiteLimit { length, member, threaded };
template <>
struct NamesOf<BiteLimit> {
    static constexpr std::array<std::string_view, 3> list{"length", "member", "threaded"};
};

/// The bite, and what it follows from.
struct Bite {
    Length bite;          ///< that holds; 0 where the fastener does not reach the member
    Length below_layers;  ///< length less `above`, tip included
    Length in_member;     ///< of that, inside the member
    Length through;       ///< stands out on the other side
    BiteLimit limit;      ///< which of the three is least
};
template <>
struct FieldsOf<Bite> {
    static constexpr auto list = field_list(
        field("bite", FieldUnit::length, "length in the wood that holds", &Bite::bite),
        field("below_layers", FieldUnit::length, "length below the layers, tip included", &Bite::below_layers),
        field("in_member", FieldUnit::length, "of that, inside the member", &Bite::in_member),
        field("through", FieldUnit::length, "stands out on the other side", &Bite::through),
        field("limit", FieldUnit::none, "what the bite is the least of", &Bite::limit));
};

/// Longest fastener that is taken for one.
inline constexpr Length longest_fastener = Length::from_inches(24.0);

inline void find_faults(const BiteInput& input, const Path& path, Faults& faults) {
    const Length deepest = Length::from_inches(48.0);
    require_within(input.length, one_inch / 8.0, longest_fastener, Path{path, "length"}, faults);
    require_within(input.above, no_length, longest_fastener, Path{path, "above"}, faults);
    require_within(input.member, one_inch / 8.0, deepest, Path{path, "member"}, faults);
    if (input.threaded) {
        require_within(*input.threaded, no_length, input.length, Path{path, "threaded"}, faults);
    }
    require_within(input.lost_tip, no_length, input.length, Path{path, "lost_tip"}, faults);
}

/// The least of: length less the layers above and less a tip that does not count, thickness of the member, threaded part.
/// The tip of a nail counts (AWC NDS 2018 12.2.3), that of a lag screw does not (12.2.1). Where a fastener comes out of the
/// member, its tip is outside, and a threaded part that ends at the tip counts only by what is inside.
/// Throws `FaultError` with the first fault of `input`.
[[nodiscard]] inline Bite bite(const BiteInput& input) {
    require_sound(input, "fastener");
    const Length below = longer(no_length, input.length - input.above);
    const Length in_member = shorter(below, input.member);
    const Length through = below - in_member;
    // What reaches out takes the tip, and threads near it, with it.
    const Length counted = shorter(below - longer(input.lost_tip, through), input.member);
    Bite found{.bite = longer(no_length, counted),
               .below_layers = below,
               .in_member = in_member,
               .through = through,
               .limit = through > no_length ? BiteLimit::member : BiteLimit::length};
    if (input.threaded) {
        const Length inside = longer(no_length, *input.threaded - longer(input.lost_tip, through));
        if (inside < found.bite) {
            found.bite = inside;
            found.limit = BiteLimit::threaded;
        }
    }
    return found;
}

}  // namespace eavewright
