// SPDX-License-Identifier: BSL-1.0
#pragma once

// How far out of plumb a post or a wall may stand, by whose rule.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/units/length.hpp>

#include <string>
#include <string_view>
#include <utility>

namespace eavewright {

/// A limit of lean: `allowed` in a height of `over`, pro rata for other heights, as a straight post leans. The texts
/// are kept as they are, so they must outlive what is made with them.
struct PlumbRule {
    std::string_view name;
    std::string_view source;
    Length allowed;  ///< more than 0, at most a quarter of `over`
    Length over;     ///< `shortest_side` to `longest_reading`
};
template <>
struct FieldsOf<PlumbRule> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "the rule in words", &PlumbRule::name),
                   field("source", FieldUnit::none, "where it stands, and how it was read", &PlumbRule::source),
                   field("allowed", FieldUnit::length, "lean allowed", &PlumbRule::allowed),
                   field("over", FieldUnit::length, "in this height", &PlumbRule::over));
};

// All read in others' quotations of the source, not in the source itself.

inline constexpr PlumbRule post_frame_plumb{
    "1 percent of height", "post-frame construction tolerances, ASAE Paper 984002 (quoted in the trade)", one_inch,
    one_inch * 100.0};
inline constexpr PlumbRule wall_plumb_guidelines{"3/8 in in 32 in",
                                                 "NAHB Residential Construction Performance Guidelines (quoted)",
                                                 one_inch * 0.375, one_inch * 32.0};
inline constexpr PlumbRule wall_plumb_light_commercial{
    "1/4 in in 32 in", "Residential and Light Commercial Construction Standards (quoted)", one_inch * 0.25,
    one_inch * 32.0};
inline constexpr PlumbRule stud_plumb_facilities{"1/4 in in 8 ft", "Unified Facilities Guide Specification (quoted)",
                                                 one_inch * 0.25, one_inch * 96.0};
inline constexpr PlumbRule wall_plumb_handbook{"1/4 in in 10 ft", "Handbook of Construction Tolerances (quoted)",
                                               one_inch * 0.25, one_inch * 120.0};

/// Faults: missing_field for a rule without name or source, out_of_range or not_finite.
inline void find_faults(const PlumbRule& rule, const Path& path, Faults& faults) {
    if (rule.name.empty() || rule.source.empty()) {
        faults.push_back(Fault{FaultCode::missing_field, Path{path, rule.name.empty() ? "name" : "source"}.text(), "",
                               "the words by which a person knows the rule"});
    }
    require_within(rule.over, shortest_side, longest_reading, Path{path, "over"}, faults);
    require_within(rule.allowed, one_inch / 10000.0, rule.over / 4.0, Path{path, "allowed"}, faults);
}

/// How far the top may stand off plumb at `height`, by the rule. Height `shortest_side` to `longest_reading`.
[[nodiscard]] inline Length plumb_limit(const PlumbRule& rule, Length height) {
    require_sound(rule, "rule");
    Faults faults;
    require_within(height, shortest_side, longest_reading, Path{"height"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    return rule.allowed * (height / rule.over);
}

}  // namespace eavewright
