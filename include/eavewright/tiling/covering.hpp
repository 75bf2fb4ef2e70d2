// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a roof is covered with, and the least slope that each covering may lie at.
//
// The figures are those of one model code. Another edition, local code and the maker's instructions come first; a least
// slope of theirs is given as an input and stands in the place of the table's.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// What keeps the rain out.
enum class Covering {
    asphalt_shingles,
    lapped_metal,         ///< metal panels with a lapped, nonsoldered seam, no sealant in the lap
    sealed_lapped_metal,  ///< the same with lap sealant
    standing_seam,
    metal_shingles,
    wood_shakes,
    wood_shingles,
    mineral_roll,  ///< mineral-surfaced roll roofing
    tile,          ///< clay and concrete
    slate,
    built_up,  ///< also single-ply and liquid-applied
    coal_tar,  ///< coal-tar built-up
};
template <>
struct NamesOf<Covering> {
    static constexpr std::array<std::string_view, 12> list{
        "asphalt_shingles", "lapped_metal",  "sealed_lapped_metal", "standing_seam", "metal_shingles",
        "wood_shakes",      "wood_shingles", "mineral_roll",        "tile",          "slate",
        "built_up",         "coal_tar"};
};
inline constexpr std::size_t covering_count = NamesOf<Covering>::list.size();

/// Coverings of one trade, among which a builder would look for another that may lie flatter.
enum class CoveringFamily { bituminous, metal, wood, masonry };
template <>
struct NamesOf<CoveringFamily> {
    static constexpr std::array<std::string_view, 4> list{"bituminous", "metal", "wood", "masonry"};
};
[[nodiscard]] constexpr CoveringFamily family_of(Covering covering) noexcept {
    switch (covering) {
        case Covering::lapped_metal:
        case Covering::sealed_lapped_metal:
        case Covering::standing_seam:
        case Covering::metal_shingles: return CoveringFamily::metal;
        case Covering::wood_shakes:
        case Covering::wood_shingles: return CoveringFamily::wood;
        case Covering::tile:
        case Covering::slate: return CoveringFamily::masonry;
        case Covering::asphalt_shingles:
        case Covering::mineral_roll:
        case Covering::built_up:
        case Covering::coal_tar: break;
    }
    return CoveringFamily::bituminous;
}

/// Where a least slope comes from.
enum class SlopeSource {
    model_code,  ///< International Residential Code chapter 9 and International Building Code 1507, read in stored copies
    memory,      ///< the same, from memory only: nothing is judged by it
    given_here,  ///< the caller's: another edition, local code, the maker
};
template <>
struct NamesOf<SlopeSource> {
    static constexpr std::array<std::string_view, 3> list{"model_code", "memory", "given_here"};
};

/// The least slope of a covering. The code's own percentages (4 for 1/2 in 12) are rounded; the ratio holds.
struct LeastSlope {
    Pitch least;
    std::string_view clause;
    SlopeSource source;
    bool unverified;  ///< rests on memory
};
template <>
struct FieldsOf<LeastSlope> {
    static constexpr auto list =
        field_list(field("least_in_12", FieldUnit::ratio, "least rise in 12 of run", &LeastSlope::least),
                   field("clause", FieldUnit::none, "where it is written", &LeastSlope::clause),
                   field("source", FieldUnit::none, "whose figure it is", &LeastSlope::source),
                   field("unverified", FieldUnit::none, "rests on memory", &LeastSlope::unverified));
};

/// The least slope of `covering`: IRC R905 and IBC 1507 (slate from memory), or `least_slope_here` where it is given.
[[nodiscard]] inline LeastSlope least_slope(Covering covering, std::optional<Pitch> least_slope_here = std::nullopt) {
    if (least_slope_here) {
        return {*least_slope_here, "as given for this roof", SlopeSource::given_here, false};
    }
    const auto code = [](double rise, std::string_view clause) {
        return LeastSlope{Pitch::in_12(rise), clause, SlopeSource::model_code, false};
    };
    switch (covering) {
        case Covering::asphalt_shingles: return code(2.0, "IRC R905.2.2");
        case Covering::lapped_metal: return code(3.0, "IRC R905.10.2 / IBC 1507.4.2");
        case Covering::sealed_lapped_metal: return code(0.5, "IRC R905.10.2 / IBC 1507.4.2");
        case Covering::standing_seam: return code(0.25, "IRC R905.10.2 / IBC 1507.4.2");
        case Covering::metal_shingles: return code(3.0, "IRC R905.4.2");
        case Covering::wood_shakes: return code(3.0, "IRC R905.8.2 (Minnesota 2015 printing)");
        case Covering::wood_shingles: return code(3.0, "IRC R905.7");
        case Covering::mineral_roll: return code(1.0, "IRC R905.5.2");
        case Covering::tile: return code(2.5, "IRC R905.3.2");
        case Covering::built_up: return code(0.25, "IRC R905.9, .11-.15");
        case Covering::coal_tar: return code(0.125, "IRC R905.9.1");
        case Covering::slate: break;
    }
    return {Pitch::in_12(4.0), "IRC R905.6.2", SlopeSource::memory, true};
}

/// Whether `pitch` is `least` or steeper, up to `count_tolerance` of rise in 12 in of run: 3 in 12 read as degrees is 3 in 12.
[[nodiscard]] inline bool is_at_least(Pitch pitch, Pitch least) noexcept {
    const Length foot = 12.0 * one_inch;
    return pitch.rise_over(foot) + count_tolerance >= least.rise_over(foot);
}

/// What the least slope says of a pitch.
enum class SlopeRuling { allowed, too_low, unverified };
template <>
struct NamesOf<SlopeRuling> {
    static constexpr std::array<std::string_view, 3> list{"allowed", "too_low", "unverified"};
};

/// A covering at a pitch, judged. Not a permit: the maker and local code say what may lie there.
struct SlopeVerdict {
    Covering covering;
    Pitch pitch;
    SlopeRuling ruling;
    LeastSlope least;
    std::vector<Covering>
        would_do;  ///< where it is too low: others of its family that the model code allows at `pitch`
};
template <>
struct FieldsOf<SlopeVerdict> {
    static constexpr auto list = field_list(
        field("covering", FieldUnit::none, "what the roof is covered with", &SlopeVerdict::covering),
        field("pitch_in_12", FieldUnit::ratio, "inches of rise in 12 of run", &SlopeVerdict::pitch),
        field("ruling", FieldUnit::none, "what the least slope says of it", &SlopeVerdict::ruling),
        field("least", FieldUnit::none, "the least slope", &SlopeVerdict::least),
        field("would_do", FieldUnit::none, "coverings of the family allowed at this pitch", &SlopeVerdict::would_do));
};

/// Judges a covering at a pitch; the least slope itself is allowed. A figure from memory judges nothing.
[[nodiscard]] inline SlopeVerdict slope_verdict(Covering covering, Pitch pitch,
                                                std::optional<Pitch> least_slope_here = std::nullopt) {
    SlopeVerdict verdict{covering, pitch, SlopeRuling::allowed, least_slope(covering, least_slope_here), {}};
    if (verdict.least.unverified) {
        verdict.ruling = SlopeRuling::unverified;
        return verdict;
    }
    if (is_at_least(pitch, verdict.least.least)) {
        return verdict;
    }
    verdict.ruling = SlopeRuling::too_low;
    for (std::size_t i = 0; i < covering_count; ++i) {
        const Covering other = static_cast<Covering>(i);
        const LeastSlope least = least_slope(other);
        if (other != covering && family_of(other) == family_of(covering) && !least.unverified &&
            is_at_least(pitch, least.least)) {
            verdict.would_do.push_back(other);
        }
    }
    return verdict;
}

/// A covering's name in plain words: "sealed lapped metal".
[[nodiscard]] inline std::string words_of(Covering covering) {
    std::string words{name_of(covering)};
    for (char& c : words) {
        c = c == '_' ? ' ' : c;
    }
    return words;
}

/// What would do instead: "at least 3 in 12 for lapped metal (IRC ...), or here sealed lapped metal or standing seam".
/// Empty for a verdict that is not too low.
[[nodiscard]] inline std::string remedy_of(const SlopeVerdict& verdict) {
    if (verdict.ruling != SlopeRuling::too_low) {
        return {};
    }
    std::string text = "at least " + write_decimal(verdict.least.least.rise_in_12(), 6) + " in 12 for " +
                       words_of(verdict.covering) + " (" + std::string{verdict.least.clause} + ")";
    for (std::size_t i = 0; i < verdict.would_do.size(); ++i) {
        text += (i == 0 ? ", or here " : " or ") + words_of(verdict.would_do[i]);
    }
    return text;
}

/// Throws `FaultError` out_of_range where `pitch` is below the covering's least slope, naming what would do.
/// Lets an unverified one pass: show its verdict.
inline void require_slope(const SlopeVerdict& verdict) {
    if (verdict.ruling == SlopeRuling::too_low) {
        throw FaultError{Fault{FaultCode::out_of_range, "pitch",
                               write_decimal(verdict.pitch.rise_in_12(), 6) + " in 12", remedy_of(verdict)}};
    }
}

}  // namespace eavewright
