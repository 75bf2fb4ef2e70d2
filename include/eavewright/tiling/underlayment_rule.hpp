// SPDX-License-Identifier: BSL-1.0
#pragma once

// By which rule the courses of an underlayment lap, and how many of them a slope takes.
//
// Half lap, 17 in to the weather:              Single coverage, 34 in to the weather:
//
//   starter   0 .. 19                            sheet 0   0 .. 36
//   sheet 0   0 .. 36                            sheet 1  34 .. 70
//   sheet 1  17 .. 53                            sheet k  34k .. 34k + 36
//   sheet k  17k .. 17k + 36, two layers everywhere
//
// The maker's rule comes first, then local code; what stands here is the default where neither says anything.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/tiling/covering.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace eavewright {

/// One layer, shingle fashion. Head lap 2 in: read in a summary of IRC R905.1.1, in the code's own words from memory.
struct SingleCoverage {
    Length head_lap = Length::from_inches(2.0);     ///< of a course over the one below, up the slope
    Length end_lap = Length::from_inches(4.0);      ///< of a piece over the one before it (IBC 1507.1.1, read)
    Length end_offset = Length::from_inches(72.0);  ///< of end laps from those of the next course (IRC summary, read)
};

/// The same with the head lap that IRC R905.1.1 asks for in high wind: 4 in, from memory.
[[nodiscard]] constexpr SingleCoverage high_wind_coverage() {
    return SingleCoverage{.head_lap = Length::from_inches(4.0)};
}

/// Two layers under asphalt shingles from 2 in 12 to below 4 in 12: a 19 in starter, then 36 in strips lapped 19 in, end
/// laps 4 in and 6 ft apart (IBC 1507.1.1 exception 2, read). Other roll widths need their own starter and overlap.
struct HalfLap {
    Length starter = Length::from_inches(19.0);
    Length overlap = Length::from_inches(19.0);
    Length end_lap = Length::from_inches(4.0);
    Length end_offset = Length::from_inches(72.0);
};

/// How a maker prints it: what laps, or what is left to the weather.
struct HeadLap {
    Length lap;
};
struct Exposure {
    Length exposure;
};
/// The rule printed on the roll.
struct MakersRule {
    std::variant<HeadLap, Exposure> courses;
    Length end_lap;
    Length end_offset;
    std::optional<Length> starter{};  ///< where the rule asks for two layers everywhere
};

using UnderlaymentRule = std::variant<SingleCoverage, HalfLap, MakersRule>;

enum class UnderlaymentRuleKind { single_coverage, half_lap, makers };
template <>
struct NamesOf<UnderlaymentRuleKind> {
    static constexpr std::array<std::string_view, 3> list{"single_coverage", "half_lap", "makers"};
};

[[nodiscard]] inline UnderlaymentRuleKind kind_of(const UnderlaymentRule& rule) noexcept {
    return static_cast<UnderlaymentRuleKind>(rule.index());
}

/// A rule on a roll of one width.
struct CourseLaps {
    UnderlaymentRuleKind kind;
    int layers;  ///< over every point of the plane: 1 or 2
    Length roll_width;
    Length starter;  ///< height of the strip below the first sheet; 0 where there is none
    Length exposure;
    Length head_lap;
    Length end_lap;
    Length end_offset;
};
template <>
struct FieldsOf<CourseLaps> {
    static constexpr auto list = field_list(
        field("kind", FieldUnit::none, "which rule it is", &CourseLaps::kind),
        field("layers", FieldUnit::count, "over every point of the plane", &CourseLaps::layers),
        field("roll_width", FieldUnit::length, "width of the roll", &CourseLaps::roll_width),
        field("starter", FieldUnit::length, "height of the starter strip, 0 for none", &CourseLaps::starter),
        field("exposure", FieldUnit::length, "from course to course", &CourseLaps::exposure),
        field("head_lap", FieldUnit::length, "of a course over the one below", &CourseLaps::head_lap),
        field("end_lap", FieldUnit::length, "of a piece over the one before it", &CourseLaps::end_lap),
        field("end_offset", FieldUnit::length, "of end laps from those of the next course", &CourseLaps::end_offset));
};

/// `rule` on a roll of `roll_width`, unchecked: see `find_faults` of the result.
[[nodiscard]] inline CourseLaps laps_of(const UnderlaymentRule& rule, Length roll_width) {
    if (const SingleCoverage* single = std::get_if<SingleCoverage>(&rule)) {
        return {UnderlaymentRuleKind::single_coverage,
                1,
                roll_width,
                no_length,
                roll_width - single->head_lap,
                single->head_lap,
                single->end_lap,
                single->end_offset};
    }
    if (const HalfLap* half = std::get_if<HalfLap>(&rule)) {
        return {UnderlaymentRuleKind::half_lap,
                2,
                roll_width,
                half->starter,
                roll_width - half->overlap,
                half->overlap,
                half->end_lap,
                half->end_offset};
    }
    const MakersRule& makers = std::get<MakersRule>(rule);
    const Exposure* shown = std::get_if<Exposure>(&makers.courses);
    const Length exposure = shown != nullptr ? shown->exposure : roll_width - std::get<HeadLap>(makers.courses).lap;
    return {UnderlaymentRuleKind::makers,
            makers.starter ? 2 : 1,
            roll_width,
            makers.starter.value_or(no_length),
            exposure,
            roll_width - exposure,
            makers.end_lap,
            makers.end_offset};
}

/// Laps shorter than what they lie in; for two layers, an exposure of at most half the roll and a starter at least as high.
inline void find_faults(const CourseLaps& laps, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    const Length foot = 12.0 * one_inch;
    require_within(laps.roll_width, 6.0 * one_inch, 20.0 * foot, Path{path, "roll_width"}, faults);
    if (faults.size() != before) {
        return;
    }
    require_within(laps.head_lap, no_length, laps.roll_width - one_inch, Path{path, "head_lap"}, faults);
    require_within(laps.end_lap, no_length, 4.0 * foot, Path{path, "end_lap"}, faults);
    require_within(laps.end_offset, no_length, 100.0 * foot, Path{path, "end_offset"}, faults);
    if (laps.layers == 1 || faults.size() != before) {
        return;
    }
    if (2.0 * laps.exposure > laps.roll_width + count_tolerance) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "exposure"}.text(), describe_length(laps.exposure),
                               "at most half the roll for two layers: " + describe_length(laps.roll_width / 2.0)});
    }
    require_within(laps.starter, laps.exposure - count_tolerance, laps.roll_width, Path{path, "starter"}, faults);
}

/// Full sheets, the starter apart, that lay `laps.layers` over a slope of `slope` and one `past_ridge` further. `slope`
/// counts from the lowest course's lower edge. One layer: ceil((slope + past_ridge - head lap) / exposure). Two layers:
/// ceil((slope - (roll - 2 exposure)) / exposure), so ceil((S - 2) / 17) for 36 in strips lapped 19: the last sheet but
/// one must reach the ridge too. (Published: ceil((S - 19) / 17) after the starter, one sheet less, which leaves the top
/// single.) Throws `FaultError`: the first fault of `laps`, not_finite, out_of_range, too_much_work.
[[nodiscard]] inline std::int64_t full_courses(const CourseLaps& laps, Length slope, Length past_ridge) {
    require_sound(laps, "laps");
    const std::int64_t once = 1 + steps_to_cover(slope + past_ridge - laps.roll_width, laps.exposure);
    if (laps.layers == 1 || slope <= laps.starter + count_tolerance) {
        return once;
    }
    const std::int64_t twice = 2 + steps_to_cover(slope - laps.roll_width, laps.exposure);
    return once < twice ? twice : once;
}

/// What decides a rule.
struct UnderlaymentSite {
    Covering covering;
    Pitch pitch;
    bool high_wind = false;                   ///< as local code draws the line; editions differ in the speed
    std::optional<Pitch> least_slope_here{};  ///< of another edition, local code or the maker
    std::optional<MakersRule> makers{};       ///< comes before every default
};

/// The rule chosen, and on what it rests.
struct UnderlaymentChoice {
    UnderlaymentRule rule;
    SlopeVerdict slope;
    std::string_view clause;
    bool unverified;  ///< a figure of the rule rests on memory: read the maker's and local code first
};

template <>
struct FieldsOf<UnderlaymentChoice> {
    static constexpr auto list = field_list(
        field(
            "kind", FieldUnit::none, "which rule it is", +[](const UnderlaymentChoice& c) { return kind_of(c.rule); }),
        field("slope", FieldUnit::none, "the covering at this pitch", &UnderlaymentChoice::slope),
        field("clause", FieldUnit::none, "where the rule is written", &UnderlaymentChoice::clause),
        field("unverified", FieldUnit::none, "a figure of it rests on memory", &UnderlaymentChoice::unverified));
};

/// The rule for a covering at a pitch: the maker's; else half lap under asphalt shingles below 4 in 12 (IRC R905.1.1, read
/// in a summary); else single coverage, in high wind with a head lap of 4 in.
/// Throws `FaultError`: out_of_range below the covering's least slope, naming the slope or covering that would do;
/// not_supported for built-up and single-ply roofs, which lie on a base of their own.
[[nodiscard]] inline UnderlaymentChoice choose_underlayment(const UnderlaymentSite& site) {
    const SlopeVerdict verdict = slope_verdict(site.covering, site.pitch, site.least_slope_here);
    require_slope(verdict);
    if (site.makers) {
        return {*site.makers, verdict, "the maker's rule", false};
    }
    if (site.covering == Covering::built_up || site.covering == Covering::coal_tar) {
        throw FaultError{Fault{FaultCode::not_supported, "covering", words_of(site.covering),
                               "a covering over courses of underlayment, or the maker's rule"}};
    }
    if (site.covering == Covering::asphalt_shingles && !is_at_least(site.pitch, Pitch::in_12(4.0))) {
        return {HalfLap{}, verdict, "IRC R905.1.1 / IBC 1507.1.1 exception 2", false};
    }
    if (site.high_wind) {
        return {high_wind_coverage(), verdict, "IRC R905.1.1, high wind", true};
    }
    return {SingleCoverage{}, verdict, "IRC R905.1.1", true};
}

}  // namespace eavewright
