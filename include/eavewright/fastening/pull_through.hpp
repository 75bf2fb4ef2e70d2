// SPDX-License-Identifier: BSL-1.0
#pragma once

// Heads that pull through a wood panel.

#include <eavewright/fastening/strength.hpp>
#include <eavewright/fastening/withdrawal.hpp>
#include <eavewright/fastening/wood_gravity.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <string_view>

namespace eavewright {

/// Reference head pull-through with what it follows from.
struct PullThrough {
    Allowable load;
    Length head;
    Length thickness;
    bool thick;                 ///< thicker than two and a half heads: it then no longer grows with thickness
    std::string_view equation;  ///< edition, clause, number and formula
    bool unverified;            ///< the equations rest on memory: no verdict is made of them
};
template <>
struct FieldsOf<PullThrough> {
    static constexpr auto list =
        field_list(field(
                       "load_lb", FieldUnit::ratio, "reference value in pounds",
                       +[](const PullThrough& p) { return pounds_force(p.load.force()); }),
                   field("head", FieldUnit::length, "diameter of the head", &PullThrough::head),
                   field("thickness", FieldUnit::length, "of the panel", &PullThrough::thickness),
                   field("thick", FieldUnit::none, "thicker than two and a half heads", &PullThrough::thick),
                   field("equation", FieldUnit::none, "edition, clause, number and formula", &PullThrough::equation),
                   field("unverified", FieldUnit::none, "rests on memory", &PullThrough::unverified));
};

/// Reference head pull-through of a round head from a wood panel: 690 pi D_H G^2 t up to t = 2.5 D_H, 1,725 pi D_H^2 G^2 beyond
/// (AWC NDS 2018 12.2.5, Eq. 12.2-6a and b, from memory: `unverified`). D_H 0.1 to 1 in, t 1/16 to 4 in, G 0.31 to 0.73 (else
/// `FaultError`); for heads on panels of which the standard says more, that comes first.
[[nodiscard]] inline PullThrough head_pull_through(OvendryGravity panel, Length head, Length thickness) {
    Faults faults;
    detail::require_gravity(panel.value(), 0.31, 0.73, faults);
    require_within(head, Length::from_inches(0.1), one_inch, Path{"head"}, faults);
    require_within(thickness, one_inch / 16.0, Length::from_inches(4.0), Path{"thickness"}, faults);
    detail::throw_first(faults);
    const bool thick = thickness > 2.5 * head;
    const double square = panel.value() * panel.value();
    const double pounds = thick ? 1725.0 * pi * inches(head) * inches(head) * square
                                : 690.0 * pi * inches(head) * square * inches(thickness);
    return {.load = Allowable::of(force_from_pounds(pounds)),
            .head = head,
            .thickness = thickness,
            .thick = thick,
            .equation = thick ? "AWC NDS 2018 12.2.5, Eq. 12.2-6b (from memory): W_H = 1725 pi D_H^2 G^2"
                              : "AWC NDS 2018 12.2.5, Eq. 12.2-6a (from memory): W_H = 690 pi D_H G^2 t",
            .unverified = true};
}

}  // namespace eavewright
