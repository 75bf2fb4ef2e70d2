// SPDX-License-Identifier: BSL-1.0
#pragma once

// How much off square is still square: the rule that judges, with its source, as a limit for the difference of diagonals.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/units/length.hpp>

#include <string_view>

namespace eavewright {

/// A limit for the difference of two diagonals, and who says so. The texts must outlive the rule: they are constants.
struct SquareRule {
    std::string_view name;
    std::string_view source;
    Length limit;  ///< of |up_right - up_left|, 0 to 100 in
};
template <>
struct FieldsOf<SquareRule> {
    static constexpr auto list =
        field_list(field("name", FieldUnit::none, "the rule that judges", &SquareRule::name),
                   field("source", FieldUnit::none, "who says so", &SquareRule::source),
                   field("limit", FieldUnit::length, "largest difference of the diagonals", &SquareRule::limit));
};
inline void find_faults(const SquareRule& rule, const Path& path, Faults& faults) {
    require_within(rule.limit, no_length, one_inch * 100.0, Path{path, "limit"}, faults);
}

/// Diagonals of 60 to 75 ft within 1/8 in are good: common practice, and the default.
[[nodiscard]] constexpr SquareRule eighth_inch_rule() {
    return {"diagonals within 1/8 in", "common practice", one_inch / 8.0};
}

/// A limit of the user's own.
[[nodiscard]] inline SquareRule given_rule(Length limit) {
    const SquareRule rule{"diagonals within the limit given", "as given", limit};
    require_sound(rule, "rule");
    return rule;
}

/// A diagonal within 3/4 in per 100 ft of its square length, pro rata below. Racking makes one diagonal as much longer
/// as the other shorter, so their difference may be twice that. `diagonal` 1 in to 100,000 in.
/// Source: D. K. Ballast, Handbook of Construction Tolerances, as quoted in the Journal of Light Construction.
[[nodiscard]] inline SquareRule pro_rata_rule(Length diagonal) {
    Faults faults;
    squaring_detail::require_side(diagonal, Path{"diagonal"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    return {"each diagonal within 3/4 in per 100 ft of its square length",
            "Ballast, Handbook of Construction Tolerances, as quoted in the Journal of Light Construction",
            diagonal * (2.0 * 0.75 / 1200.0)};
}

/// A diagonal of 20 ft within 1/2 in, for the triangle of 12 and 16 ft; other sizes pro rata, which is our reading.
/// Source: performance guidelines of the home builders' association, for foundations, as reproduced by a trade page.
[[nodiscard]] inline SquareRule foundation_rule(Length diagonal) {
    Faults faults;
    squaring_detail::require_side(diagonal, Path{"diagonal"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults.front()};
    }
    return {"each diagonal within 1/2 in per 20 ft of its square length",
            "residential construction performance guidelines for foundations, as reproduced by a trade page; pro rata "
            "is ours",
            diagonal * (2.0 * 0.5 / 240.0)};
}

}  // namespace eavewright
