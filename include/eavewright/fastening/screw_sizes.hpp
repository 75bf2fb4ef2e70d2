// SPDX-License-Identifier: BSL-1.0
#pragma once

// Wood screws by number and lag screws by diameter: shank, thread and tip.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>

namespace eavewright {

/// What sort of threaded fastener.
enum class ScrewKind { wood_screw, lag_screw };
template <>
struct NamesOf<ScrewKind> {
    static constexpr std::array<std::string_view, 2> list{"wood_screw", "lag_screw"};
};

/// One screw. The thread runs up from the point and has the tip in it.
struct ScrewShank {
    ScrewKind kind;
    Length diameter;  ///< of the shank
    Length length;    ///< from under the head to the point
    Length thread;    ///< length, tip included
    Length tip;       ///< tapered end; only a lag screw's is left out of its bite
};
template <>
struct FieldsOf<ScrewShank> {
    static constexpr auto list =
        field_list(field("kind", FieldUnit::none, "what sort of screw", &ScrewShank::kind),
                   field("diameter", FieldUnit::length, "of the shank", &ScrewShank::diameter),
                   field("length", FieldUnit::length, "from under the head to the point", &ScrewShank::length),
                   field("thread", FieldUnit::length, "length of thread, tip included", &ScrewShank::thread),
                   field("tip", FieldUnit::length, "length of the tapered end", &ScrewShank::tip));
};

inline void find_faults(const ScrewShank& screw, const Path& path, Faults& faults) {
    require_within(screw.diameter, one_inch / 16.0, 2.0 * one_inch, Path{path, "diameter"}, faults);
    require_within(screw.length, one_inch / 4.0, 24.0 * one_inch, Path{path, "length"}, faults);
    require_within(screw.thread, one_inch / 16.0, screw.length, Path{path, "thread"}, faults);
    require_within(screw.tip, no_length, screw.thread, Path{path, "tip"}, faults);
}

/// A wood screw by number, 6 to 24: NDS 2018 Table L3, No. 10 read and the others from memory, thread at least 4 D and two thirds of the length, tip
/// 2 D. Throws `FaultError` not_supported for another number, else as `require_sound`.
[[nodiscard]] inline ScrewShank wood_screw(int number, Length length) {
    constexpr std::array<int, 11> numbers{6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 24};
    constexpr std::array<double, 11> diameters{0.138, 0.151, 0.164, 0.177, 0.190, 0.216,
                                               0.242, 0.268, 0.294, 0.320, 0.372};
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        if (numbers[i] == number) {
            const Length diameter = Length::from_inches(diameters[i]);
            const ScrewShank screw{ScrewKind::wood_screw, diameter, length, longer(4.0 * diameter, 2.0 * length / 3.0),
                                   2.0 * diameter};
            require_sound(screw, "screw");
            return screw;
        }
    }
    throw FaultError{Fault{FaultCode::not_supported, "number", "No. " + std::to_string(number),
                           "a number of NDS 2018 Table L3: 6 to 10, then even ones to 20, and 24"}};
}

/// A lag screw of 1/4 to 1-1/4 in: NDS 2018 Table L2, 1/2 in by 4 in read in a worked example and the others from memory, thread half the length and 1/2 in more, at most 6 in.
/// Throws `FaultError` not_supported for a diameter that the table does not have, else as `require_sound`.
[[nodiscard]] inline ScrewShank lag_screw(Length diameter, Length length) {
    constexpr std::array<double, 11> diameters{0.25, 0.3125, 0.375, 0.4375, 0.5, 0.625, 0.75, 0.875, 1.0, 1.125, 1.25};
    constexpr std::array<double, 11> tips_32nds{5, 6, 7, 9, 10, 13, 16, 19, 22, 25, 28};
    for (std::size_t i = 0; i < diameters.size(); ++i) {
        if (std::fabs(inches(diameter) - diameters[i]) < 1e-3) {
            const Length thread = shorter(6.0 * one_inch, length / 2.0 + one_inch / 2.0);
            const ScrewShank screw{ScrewKind::lag_screw, Length::from_inches(diameters[i]), length,
                                   shorter(thread, length), one_inch * (tips_32nds[i] / 32.0)};
            require_sound(screw, "screw");
            return screw;
        }
    }
    throw FaultError{Fault{FaultCode::not_supported, "diameter", describe_length(diameter),
                           "a diameter of NDS 2018 Table L2: 1/4 to 1-1/4 in"}};
}

}  // namespace eavewright
