// SPDX-License-Identifier: BSL-1.0
#pragma once

// How much of a fastener is in the wood that holds it. Below what lies above, within the member, and of a ring shank or a
// screw only the thread: a nail through a flat purlin counts the wood that it is in, and nothing of the point beyond.

#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/screw_sizes.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <string>
#include <string_view>

namespace eavewright {

/// What a fastener is driven through and into, along the fastener.
struct Drive {
    Length above;   ///< everything between the underside of the head and the wood that holds: panel, sheet, washer, gap
    Length member;  ///< thickness of the wood that holds
};
inline void find_faults(const Drive& drive, const Path& path, Faults& faults) {
    require_within(drive.above, no_length, 24.0 * one_inch, Path{path, "above"}, faults);
    require_within(drive.member, one_inch / 8.0, 48.0 * one_inch, Path{path, "member"}, faults);
}

/// What limits a bite.
enum class BiteLimit {
    fastener_length,     ///< it ends within the member
    member_thickness,    ///< it reaches through
    threaded_part,       ///< all of the thread is in the member, and some smooth shank
    thread_past_member,  ///< some of the thread is past the member, and some smooth shank is in it
};
template <>
struct NamesOf<BiteLimit> {
    static constexpr std::array<std::string_view, 4> list{"fastener_length", "member_thickness", "threaded_part",
                                                          "thread_past_member"};
};

/// A bite, and what it was found from.
struct Bite {
    Length length;  ///< what holds against withdrawal
    BiteLimit governs;
    Length penetration;   ///< all of the fastener that is in the member, tip included
    Length below_cover;   ///< length of the fastener less what lies above the member
    Length member;        ///< thickness
    Length holding_part;  ///< of the fastener: all of a smooth nail, else the thread (less a lag screw's tip)
    Length protrudes;     ///< of the point, past the member: it can split the far face, and hands find it
    bool unverified;      ///< a ring shank whose thread is not known, counted as if it ran the whole length
};
template <>
struct FieldsOf<Bite> {
    static constexpr auto list = field_list(
        field("length", FieldUnit::length, "what holds against withdrawal", &Bite::length),
        field("governs", FieldUnit::none, "what limits it", &Bite::governs),
        field("penetration", FieldUnit::length, "of the fastener in the member, tip included", &Bite::penetration),
        field("below_cover", FieldUnit::length, "of the fastener below what lies above the member", &Bite::below_cover),
        field("member", FieldUnit::length, "thickness of the wood that holds", &Bite::member),
        field("holding_part", FieldUnit::length, "of the fastener: all of it, or its thread", &Bite::holding_part),
        field("protrudes", FieldUnit::length, "of the point past the member", &Bite::protrudes),
        field("unverified", FieldUnit::none, "the thread of a ring shank is not known", &Bite::unverified));
};

namespace detail {
/// The bite of the part from `from` to `to` below the head of a fastener of `length`.
[[nodiscard]] inline Bite bite_between(Length from, Length to, Length length, const Drive& drive, bool unverified) {
    require_sound(drive, "drive");
    const Length far_face = drive.above + drive.member;
    const Length top = longer(drive.above, from);
    const Length bottom = shorter(far_face, to);
    if (bottom - top <= count_tolerance) {
        throw FaultError{Fault{FaultCode::does_not_fit, "drive.above", describe_length(drive.above),
                               "a fastener of which the part that holds, from " + describe_length(from) + " to " +
                                   describe_length(to) + " below its head, reaches into the member"}};
    }
    const bool thread_only = from > drive.above;
    const bool through = to > far_face;
    const BiteLimit governs = thread_only ? (through ? BiteLimit::thread_past_member : BiteLimit::threaded_part)
                                          : (through ? BiteLimit::member_thickness : BiteLimit::fastener_length);
    return Bite{.length = bottom - top,
                .governs = governs,
                .penetration = shorter(length - drive.above, drive.member),
                .below_cover = length - drive.above,
                .member = drive.member,
                .holding_part = to - from,
                .protrudes = longer(no_length, length - far_face),
                .unverified = unverified};
}
}  // namespace detail

/// The bite of a nail: the tip counts (NDS 2018 12.2.3.1(c); of a ring shank the thread alone, Wood Handbook equation 8-2a).
/// A thread runs up from the point, common practice. Throws `FaultError`: the first fault of an input, does_not_fit where
/// nothing that holds reaches the member.
[[nodiscard]] inline Bite bite_of(const NailShank& nail, const Drive& drive) {
    require_sound(nail, "nail");
    const bool smooth = nail.shank == Shank::smooth;
    const Length from = nail.threaded_length ? nail.length - *nail.threaded_length : no_length;
    return detail::bite_between(from, nail.length, nail.length, drive, !smooth && !nail.threaded_length);
}

/// The bite of a screw's thread; a lag screw's without its tapered tip (NDS 2018 12.2.1.2, 12.2.2.2). Throws as for a nail.
[[nodiscard]] inline Bite bite_of(const ScrewShank& screw, const Drive& drive) {
    require_sound(screw, "screw");
    const Length to = screw.kind == ScrewKind::lag_screw ? screw.length - screw.tip : screw.length;
    return detail::bite_between(screw.length - screw.thread, to, screw.length, drive, false);
}

}  // namespace eavewright
