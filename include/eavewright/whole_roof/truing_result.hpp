// SPDX-License-Identifier: BSL-1.0
#pragma once

// Whether a roof stands true, and what to pull: what `true_roof` hands back, and `whole_roof` carries on.

#include <eavewright/field.hpp>
#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/bay_marks.hpp>
#include <eavewright/squaring/flatness.hpp>
#include <eavewright/squaring/four_corners.hpp>
#include <eavewright/squaring/hidden_twist.hpp>
#include <eavewright/squaring/judge_corners.hpp>
#include <eavewright/squaring/next_reading.hpp>
#include <eavewright/squaring/plumb.hpp>
#include <eavewright/squaring/pulls.hpp>
#include <eavewright/squaring/purlin_line.hpp>
#include <eavewright/squaring/string_line.hpp>
#include <eavewright/squaring/tails.hpp>
#include <eavewright/units/building_point.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// A result under the name that its readings have.
template <class Result>
struct Named {
    std::string name;
    Result found;
};
template <class Result>
struct FieldsOf<Named<Result>> {
    using N = Named<Result>;
    static constexpr auto list = field_list(field("name", FieldUnit::none, "as the readings call it", &N::name),
                                            field("found", FieldUnit::none, "what they say", &N::found));
};

/// One slope's corners among the marks.
struct SlopeTruing {
    std::string name;
    SquareJudgement square;
    std::optional<FourSides>
        sides;  ///< between the places found: what the slope is laid by; none where a corner is loose
    MeasuredFigure ridge_right_off;     ///< that corner off the plane of the other three, as found; outwards positive
    std::optional<HiddenTwist> hidden;  ///< what lengths alone cannot exclude, where no heights were read
};
template <>
struct FieldsOf<SlopeTruing> {
    static constexpr auto list = field_list(
        field("name", FieldUnit::none, "name of the slope", &SlopeTruing::name),
        field("square", FieldUnit::none, "how square it is", &SlopeTruing::square),
        field("sides", FieldUnit::none, "sides and diagonals found, null where a corner is loose", &SlopeTruing::sides),
        field("ridge_right_off", FieldUnit::none, "that corner off the plane of the other three, outwards positive",
              &SlopeTruing::ridge_right_off),
        field("hidden", FieldUnit::none, "twist that lengths alone cannot exclude, null where heights were read",
              &SlopeTruing::hidden));
};

/// Everything that the readings say of the roof.
struct TruingResult {
    std::optional<AdjustedNetwork<BuildingPoint>> network;  ///< none where no mark was read from another
    std::vector<SlopeTruing> slopes;
    std::optional<PullPlan<BuildingPoint>> pulls;  ///< none where a corner is loose or the readings do not agree
    std::vector<NextReading> next;
    bool heights_wanted;                  ///< points are loose, and no distance would settle them: read heights
    std::vector<Named<Twist>> crossings;  ///< by the slope's name
    std::vector<Named<StringLine>> strings;
    std::vector<Named<TailTrim>> tails;
    std::vector<Named<PurlinLine>> purlins;
    std::vector<Named<WallPlumb>> walls;
    std::optional<BayMarks> posts;
};
template <>
struct FieldsOf<TruingResult> {
    static constexpr auto list = field_list(
        field(
            "caution", FieldUnit::none, "to be read before anything is slackened or pulled",
            +[](const TruingResult&) { return pulling_caution; }),
        field("network", FieldUnit::none, "marks and readings adjusted, null without", &TruingResult::network),
        field("slopes", FieldUnit::none, "slopes, front first", &TruingResult::slopes),
        field("pulls", FieldUnit::none, "what to pull, null where that cannot be told", &TruingResult::pulls),
        field("next", FieldUnit::none, "what to measure next, by index of marks", &TruingResult::next),
        field("heights_wanted", FieldUnit::none, "no distance settles what is loose: read heights",
              &TruingResult::heights_wanted),
        field("crossings", FieldUnit::none, "twist from strings crossed over a slope", &TruingResult::crossings),
        field("strings", FieldUnit::none, "lines read from a string", &TruingResult::strings),
        field("tails", FieldUnit::none, "tails to trim", &TruingResult::tails),
        field("purlins", FieldUnit::none, "humps and hollows, and shims", &TruingResult::purlins),
        field("walls", FieldUnit::none, "posts under a level", &TruingResult::walls),
        field("posts", FieldUnit::none, "posts against their bay marks, null without", &TruingResult::posts));
};

}  // namespace eavewright
