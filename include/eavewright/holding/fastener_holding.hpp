// SPDX-License-Identifier: BSL-1.0
#pragma once

// What one nail of a deck, or one screw of a steel panel, is allowed against a pull out of the roof.

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/bite.hpp>
#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/pull_through.hpp>
#include <eavewright/fastening/screw_sizes.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/fastening/withdrawal.hpp>
#include <eavewright/fastening/wood_gravity.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

#include <optional>
#include <utility>

namespace eavewright {

/// What a fastener goes through and into, and how the wood lives.
struct FastenedInto {
    NdsEdition edition;
    Drive drive;  ///< layers under the head, and the member in the fastener's direction: a flat purlin is thin
    OvendryGravity gravity;  ///< of the member
    UseConditions use;       ///< against wind: ten minutes
};

/// Allowable pull of one nail: out of its purlin, or its head through the sheet.
struct NailHolding {
    NailShank nail;
    Withdrawal withdrawal;
    Adjusted pull_out;
    std::optional<PullThrough> head;  ///< where the sheet's gravity is known
    std::optional<Adjusted> pull_through;
    AllowableForce allowed;  ///< the least of those known
    Resistance governs;
    bool unverified;
};
template <>
struct FieldsOf<NailHolding> {
    static constexpr auto list = field_list(
        field("nail", FieldUnit::none, "the nail", &NailHolding::nail),
        field("withdrawal", FieldUnit::none, "its withdrawal before factors", &NailHolding::withdrawal),
        field("pull_out", FieldUnit::none, "withdrawal with its factors", &NailHolding::pull_out),
        field("head", FieldUnit::none, "its head through the sheet, null where the sheet's gravity is not given",
              &NailHolding::head),
        field("pull_through", FieldUnit::none, "that with its factors", &NailHolding::pull_through),
        field(
            "allowed_lb", FieldUnit::ratio, "allowable pull of one nail in pounds",
            +[](const NailHolding& h) { return pounds_force(h.allowed); }),
        field("governs", FieldUnit::none, "what gives way first", &NailHolding::governs),
        field("unverified", FieldUnit::none, "rests on memory or on an assumption", &NailHolding::unverified));
};

/// The allowable pull of one nail. With the specific gravity of the sheet, its head is checked too: the sheet's thickness is then
/// `into.drive.above`, and the nail's head must be known. Throws as `withdrawal`, `pull_through` and `adjust` do.
[[nodiscard]] inline NailHolding hold_nail(const NailShank& nail, const FastenedInto& into,
                                           std::optional<OvendryGravity> sheet = std::nullopt) {
    const Withdrawal pulled = withdrawal(nail, into.drive, into.gravity, Grain::side, into.edition);
    const Adjusted out = adjust(pulled, into.use);
    NailHolding holding{nail,          pulled, out, std::nullopt, std::nullopt, out.force, pulled.value.resistance,
                        out.unverified};
    if (sheet) {
        holding.head = pull_through(nail, into.drive.above, *sheet, into.edition);
        holding.pull_through = adjust(*holding.head, into.use);
        if (holding.pull_through->force < holding.allowed) {
            holding.allowed = holding.pull_through->force;
            holding.governs = Resistance::head_pull_through;
        }
        holding.unverified = holding.unverified || holding.pull_through->unverified;
    }
    return holding;
}

/// Allowable pull of one screw of a steel panel out of its purlin. Whether the steel tears over the head is not computed: its
/// resistance comes from the panel maker's tests.
struct ScrewHolding {
    ScrewShank screw;
    Withdrawal withdrawal;
    Adjusted pull_out;
};
template <>
struct FieldsOf<ScrewHolding> {
    static constexpr auto list =
        field_list(field("screw", FieldUnit::none, "the screw", &ScrewHolding::screw),
                   field("withdrawal", FieldUnit::none, "its withdrawal before factors", &ScrewHolding::withdrawal),
                   field("pull_out", FieldUnit::none, "withdrawal with its factors", &ScrewHolding::pull_out));
};
[[nodiscard]] inline ScrewHolding hold_screw(const ScrewShank& screw, const FastenedInto& into) {
    const Withdrawal pulled = withdrawal(screw, into.drive, into.gravity, Grain::side, into.edition);
    return {screw, pulled, adjust(pulled, into.use)};
}

}  // namespace eavewright
