// SPDX-License-Identifier: BSL-1.0
#pragma once

// The nailing pattern that a residential code prints for roof sheathing. It changed with the edition, so there is no pattern
// without one: half as many nails stood between the edges before 2021.

#include <eavewright/fastening/nail_pattern.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <string>
#include <string_view>

namespace eavewright {

/// Edition of the International Residential Code. `irc_2018` stands for those before it that print the same.
enum class IrcEdition { irc_2018, irc_2021 };
template <>
struct NamesOf<IrcEdition> {
    static constexpr std::array<std::string_view, 2> list{"irc_2018", "irc_2021"};
};

/// Nails that the table names for wood panels on a roof.
enum class SheathingNail {
    common_8d,
    rsrs_01,  ///< ring shank, 2 3/8 x 0.113 in
    common_10d,
    deformed_8d,
};
template <>
struct NamesOf<SheathingNail> {
    static constexpr std::array<std::string_view, 4> list{"common_8d", "rsrs_01", "common_10d", "deformed_8d"};
};

/// A pattern with where it is printed.
struct CodePattern {
    NailPattern pattern;
    std::string_view source;
};

/// IRC Table R602.3(1), wood panels on a roof: 6 in at edges and 12 in between through 2018 for 8d common nails; from 2021 6 in
/// everywhere for 8d common and RSRS-01, 6 and 12 in for 10d common and 8d deformed nails (read in two independent notes on the
/// text; 6 and 12 in also FEMA P-55 Vol. II p. 9-6). High wind and local code may ask for more. Throws `FaultError` not_supported
/// for what was not read, unknown_name for a number that is none of the names.
[[nodiscard]] inline CodePattern code_pattern(IrcEdition edition, SheathingNail nail) {
    const Length six = Length::from_inches(6.0);
    const Length twelve = Length::from_inches(12.0);
    detail::require_named(edition, "edition");
    detail::require_named(nail, "nail");
    if (edition == IrcEdition::irc_2021) {
        const bool tight = nail == SheathingNail::common_8d || nail == SheathingNail::rsrs_01;
        return {{six, tight ? six : twelve}, "IRC 2021 Table R602.3(1), items 31 and 32"};
    }
    if (nail != SheathingNail::common_8d) {
        throw FaultError{Fault{FaultCode::not_supported, "nail", std::string{name_of(nail)},
                               "common_8d: the other rows before 2021 were not read"}};
    }
    return {{six, twelve}, "IRC 2018 Table R602.3(1)"};
}

}  // namespace eavewright
