// SPDX-License-Identifier: BSL-1.0
#include <eavewright/fastening/code_pattern.hpp>

#include <eavewright/fastening/adjustment.hpp>
#include <eavewright/fastening/nails.hpp>
#include <eavewright/loads/combinations.hpp>
#include <eavewright/tiling/tile_sheets.hpp>

#include "support/refusal.hpp"

#include "tiling/tiling_planes.hpp"

#include <doctest/doctest.h>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
/// Nails of one full sheet on five supports 24 in apart.
std::int64_t nails_of_a_sheet(IrcEdition edition) {
    Supports<Surface::purlin_top> supports{SupportRun::along_eave, {}, 24_in};
    for (int i = 0; i <= 4; ++i) {
        const Length up = 24_in * static_cast<double>(i);
        supports.lines.push_back({{{0_ft, up}, {4_ft, up}}, 1.5_in});
    }
    const Sheets sheets = tile_sheets(plane_of(4_ft, 8_ft), supports, {.sheet = {4_ft, 8_ft}});
    return count_nails(sheets, supports, code_pattern(edition, SheathingNail::common_8d).pattern).total;
}
}  // namespace

TEST_CASE("the code's edition changes the count: 33 nails a sheet through 2018, 45 from 2021") {
    // 2 x 9 + 3 x 5 = 33 at 6 and 12 in; 5 x 9 = 45 at 6 in everywhere. IRC Table R602.3(1), 8d common nails.
    CHECK(nails_of_a_sheet(IrcEdition::irc_2018) == 33);
    CHECK(nails_of_a_sheet(IrcEdition::irc_2021) == 45);
    CHECK(code_pattern(IrcEdition::irc_2021, SheathingNail::common_10d).pattern.field == 12_in);
    CHECK(code_pattern(IrcEdition::irc_2021, SheathingNail::deformed_8d).pattern.field == 12_in);
    CHECK(code_pattern(IrcEdition::irc_2021, SheathingNail::rsrs_01).pattern.field == 6_in);
    const auto code_of = [](IrcEdition edition, SheathingNail nail) {
        try {
            (void)code_pattern(edition, nail);
        } catch (const FaultError& error) {
            return number_of(error.fault().code);
        }
        return 0;
    };
    CHECK(code_of(IrcEdition::irc_2018, SheathingNail::rsrs_01) == number_of(FaultCode::not_supported));
    CHECK(code_of(IrcEdition::irc_2021, static_cast<SheathingNail>(9)) == number_of(FaultCode::unknown_name));
    CHECK(code_of(static_cast<IrcEdition>(9), SheathingNail::common_8d) == number_of(FaultCode::unknown_name));
}

TEST_CASE("loads and fasteners last equally long: one duration factor in both rooms") {
    const auto factor = [](LoadCombination combination) {
        return combination_factors(combination, WindEdition::asce7_10).wood_duration;
    };
    CHECK(factor(LoadCombination::dead) == load_duration_factor(LoadDuration::permanent));
    CHECK(factor(LoadCombination::dead_snow) == load_duration_factor(LoadDuration::two_months));
    CHECK(factor(LoadCombination::dead_roof_live) == load_duration_factor(LoadDuration::seven_days));
    CHECK(factor(LoadCombination::uplift) == load_duration_factor(LoadDuration::ten_minutes));
}
