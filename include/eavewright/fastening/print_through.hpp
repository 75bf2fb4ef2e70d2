// SPDX-License-Identifier: BSL-1.0
#pragma once

// Heads that show or wear through what lies on them. A steel panel lies on the deck with nothing to spare: what stands up under
// it dents it from below, and shows in a low sun.

#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/tiling/covering.hpp>

#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

namespace eavewright {

/// How the heads under a covering stand.
enum class HeadUnder {
    flush_nail,       ///< set flush with the sheet
    proud_nail,       ///< left standing above it
    cap_nail,         ///< through a plastic or metal cap on the underlayment
    flush_staple,     ///< crown on the sheet
    proud_staple,     ///< crown standing above it
    cap_staple,       ///< through a cap
    flat_head_screw,  ///< set flush
};
template <>
struct NamesOf<HeadUnder> {
    static constexpr std::array<std::string_view, 7> list{
        "flush_nail", "proud_nail", "cap_nail", "flush_staple", "proud_staple", "cap_staple", "flat_head_screw"};
};

/// Closed, numbered list of what heads do to a covering. All common practice: no code rules on it.
enum class PrintThroughCode : int {
    proud_head_prints = 0,  ///< a head or crown above the sheet shows through a thin or stiff panel
    cap_prints = 1,         ///< a cap shows through a panel that lies flat on it
    proud_head_wears = 2,   ///< a head or crown above the sheet works through a soft covering
};
template <>
struct NamesOf<PrintThroughCode> {
    static constexpr std::array<std::string_view, 3> list{"proud_head_prints", "cap_prints", "proud_head_wears"};
};

/// One thing found: which heads under which covering.
struct PrintThrough {
    PrintThroughCode code;
    HeadUnder head;
    Covering covering;
    std::string_view remedy;
};
template <>
struct FieldsOf<PrintThrough> {
    static constexpr auto list =
        field_list(field("code", FieldUnit::none, "what was found", &PrintThrough::code),
                   field("head", FieldUnit::none, "how the heads stand", &PrintThrough::head),
                   field("covering", FieldUnit::none, "what lies on them", &PrintThrough::covering),
                   field("remedy", FieldUnit::none, "what would do", &PrintThrough::remedy));
};

/// What the heads chosen do to the covering that lies on them, in the order of `heads`; each at most once. Metal panels and
/// shingles show proud heads and caps; soft coverings wear through on proud heads; wood, tile and slate lie on battens or too
/// stiff to show either. Common practice. Throws `FaultError` unknown_name for a number that is none of the names.
[[nodiscard]] inline std::vector<PrintThrough> find_print_through(const std::vector<HeadUnder>& heads,
                                                                  Covering covering) {
    constexpr std::string_view set_flush = "set every head flush before the covering goes on";
    constexpr std::string_view no_caps = "a self-adhered underlayment, or heads that lie flat";
    detail::require_named(covering, "covering");
    const CoveringFamily family = family_of(covering);
    std::vector<PrintThrough> found;
    std::array<bool, NamesOf<HeadUnder>::list.size()> seen{};
    for (const HeadUnder head : heads) {
        detail::require_named(head, "heads");
        bool& before = seen[static_cast<std::size_t>(head)];
        if (before) {
            continue;
        }
        before = true;
        const bool proud = head == HeadUnder::proud_nail || head == HeadUnder::proud_staple;
        const bool cap = head == HeadUnder::cap_nail || head == HeadUnder::cap_staple;
        if (family == CoveringFamily::metal && proud) {
            found.push_back({PrintThroughCode::proud_head_prints, head, covering, set_flush});
        } else if (family == CoveringFamily::metal && cap) {
            found.push_back({PrintThroughCode::cap_prints, head, covering, no_caps});
        } else if (family == CoveringFamily::bituminous && proud) {
            found.push_back({PrintThroughCode::proud_head_wears, head, covering, set_flush});
        }
    }
    return found;
}

/// What is to be said of a nail's shank before its figures are relied on: `smooth_shank_caution` for a smooth one, else nothing.
[[nodiscard]] constexpr std::string_view shank_caution(Shank shank) {
    return shank == Shank::smooth ? smooth_shank_caution : std::string_view{};
}

}  // namespace eavewright
