// SPDX-License-Identifier: BSL-1.0
#pragma once

// How far a sheet may span between supports, by the rating stamped on it and by what holds its long edges.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <string_view>
#include <utility>

namespace eavewright {

/// The span rating stamped on a sheet: inches between supports under a roof, over those under a floor.
enum class SpanRating { r16_0, r20_0, r24_0, r24_16, r32_16, r40_20, r48_24, r60_32 };
template <>
struct NamesOf<SpanRating> {
    static constexpr std::array<std::string_view, 8> list{"16/0",  "20/0",  "24/0",  "24/16",
                                                          "32/16", "40/20", "48/24", "60/32"};
};

/// The widest spans of a rating under a roof, strength axis across the supports, two or more spans.
struct WidestSpans {
    Length edges_held;  ///< with clips, tongue and groove or blocking
    Length edges_free;
    bool unverified = true;  ///< not read off the code or the maker's sheet
};
template <>
struct FieldsOf<WidestSpans> {
    static constexpr auto list = field_list(
        field("edges_held", FieldUnit::length, "with clips, tongue and groove or blocking", &WidestSpans::edges_held),
        field("edges_free", FieldUnit::length, "with free long edges", &WidestSpans::edges_free),
        field("unverified", FieldUnit::none, "not read off the code or the maker's sheet", &WidestSpans::unverified));
};

/// IRC 2018 and 2021, Table R503.2.1.1(1), FROM MEMORY and marked `unverified`: what the sheet's stamp and the local code
/// say comes first. The first figure of the rating is the widest span with edges held.
[[nodiscard]] inline WidestSpans widest_spans(SpanRating rating) {
    struct Row {
        double held;
        double free;
    };
    constexpr std::array<Row, 8> rows{{{16, 16}, {20, 20}, {24, 20}, {24, 24}, {32, 28}, {40, 32}, {48, 36}, {60, 48}}};
    const Row row = rows[static_cast<std::size_t>(rating)];
    return {Length::from_inches(row.held), Length::from_inches(row.free)};
}

}  // namespace eavewright
