// SPDX-License-Identifier: BSL-1.0
#pragma once

// Nails by name: common, box and sinker by the penny, post-frame and roof sheathing ring shank by size. A dimension that was
// not read is absent, and what needs it is refused.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace eavewright {

/// How a nail's shank holds.
enum class Shank {
    smooth,               ///< common, box, sinker
    roof_sheathing_ring,  ///< RSRS of ASTM F1667
    post_frame_ring,      ///< post-frame ring shank of ASTM F1667
    other_ring,           ///< annularly threaded, of no such standard
};
template <>
struct NamesOf<Shank> {
    static constexpr std::array<std::string_view, 4> list{"smooth", "roof_sheathing_ring", "post_frame_ring",
                                                          "other_ring"};
};

/// What a nail is made of.
enum class NailSteel {
    carbon,    ///< low to medium carbon, bright or galvanized
    hardened,  ///< as post-frame ring shank nails are
    stainless,
};
template <>
struct NamesOf<NailSteel> {
    static constexpr std::array<std::string_view, 3> list{"carbon", "hardened", "stainless"};
};

/// One nail. The length is from under the head to the point; the thread, where there is one, runs up from the point.
struct NailShank {
    Shank shank;
    Length diameter;  ///< of the smooth part
    Length length;
    std::optional<NailSteel> steel = std::nullopt;         ///< none: not known
    std::optional<Length> head = std::nullopt;             ///< diameter; none: not known
    std::optional<Length> root_diameter = std::nullopt;    ///< between the rings; none on a smooth shank, or not known
    std::optional<Length> threaded_length = std::nullopt;  ///< the least that the standard asks for; none likewise
};
template <>
struct FieldsOf<NailShank> {
    static constexpr auto list = field_list(
        field("shank", FieldUnit::none, "how the shank holds", &NailShank::shank),
        field("diameter", FieldUnit::length, "of the smooth part", &NailShank::diameter),
        field("length", FieldUnit::length, "from under the head to the point", &NailShank::length),
        field("steel", FieldUnit::none, "what it is made of, null where not known", &NailShank::steel),
        field("head", FieldUnit::length, "diameter of the head, null where not known", &NailShank::head),
        field("root_diameter", FieldUnit::length, "between the rings, null where not known", &NailShank::root_diameter),
        field("threaded_length", FieldUnit::length, "least length of thread, null where not known",
              &NailShank::threaded_length));
};

inline void find_faults(const NailShank& nail, const Path& path, Faults& faults) {
    const Length least = one_inch / 32.0;
    detail::require_named(nail.shank, Path{path, "shank"}, faults);
    if (nail.steel) {
        detail::require_named(*nail.steel, Path{path, "steel"}, faults);
    }
    require_within(nail.diameter, least, one_inch / 2.0, Path{path, "diameter"}, faults);
    require_within(nail.length, one_inch / 4.0, 12.0 * one_inch, Path{path, "length"}, faults);
    if (nail.head) {
        require_within(*nail.head, nail.diameter, 2.0 * one_inch, Path{path, "head"}, faults);
    }
    if (nail.root_diameter) {
        require_within(*nail.root_diameter, least, nail.diameter, Path{path, "root_diameter"}, faults);
    }
    if (nail.threaded_length) {
        require_within(*nail.threaded_length, least, nail.length, Path{path, "threaded_length"}, faults);
    }
    if (nail.shank == Shank::smooth && (nail.root_diameter || nail.threaded_length)) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "shank"}.text(), "smooth",
                               "a ring shank, or neither root_diameter nor threaded_length"});
    }
}

/// Nails named by the penny.
enum class NailStyle { common, box, sinker };
template <>
struct NamesOf<NailStyle> {
    static constexpr std::array<std::string_view, 3> list{"common", "box", "sinker"};
};
enum class Penny { d6, d7, d8, d10, d12, d16, d20, d30, d40, d50, d60 };
template <>
struct NamesOf<Penny> {
    static constexpr std::array<std::string_view, 11> list{"6d",  "7d",  "8d",  "10d", "12d", "16d",
                                                           "20d", "30d", "40d", "50d", "60d"};
};
inline constexpr std::size_t penny_count = NamesOf<Penny>::list.size();

namespace detail {
/// Inches; 0 where the table has none or it was not read.
struct NailSizeRow {
    double diameter;
    double length;
    double head;
};
/// NDS 2018 Table L4 (printed p. 182), per ASTM F1667. Heads of box nails and sinkers were
/// not read.
[[nodiscard]] constexpr NailSizeRow nail_size_row(NailStyle style, std::size_t penny) {
    constexpr std::array<NailSizeRow, penny_count> common{{{0.113, 2.0, 0.266},
                                                           {0.113, 2.25, 0.266},
                                                           {0.131, 2.5, 0.281},
                                                           {0.148, 3.0, 0.312},
                                                           {0.148, 3.25, 0.312},
                                                           {0.162, 3.5, 0.344},
                                                           {0.192, 4.0, 0.406},
                                                           {0.207, 4.5, 0.438},
                                                           {0.225, 5.0, 0.469},
                                                           {0.244, 5.5, 0.500},
                                                           {0.263, 6.0, 0.531}}};
    constexpr std::array<NailSizeRow, penny_count> box{{{0.099, 2.0, 0.0},
                                                        {0.099, 2.25, 0.0},
                                                        {0.113, 2.5, 0.0},
                                                        {0.128, 3.0, 0.0},
                                                        {0.128, 3.25, 0.0},
                                                        {0.135, 3.5, 0.0},
                                                        {0.148, 4.0, 0.0},
                                                        {0.148, 4.5, 0.0},
                                                        {0.162, 5.0, 0.0},
                                                        {0.0, 0.0, 0.0},
                                                        {0.0, 0.0, 0.0}}};
    constexpr std::array<NailSizeRow, penny_count> sinker{{{0.092, 1.875, 0.0},
                                                           {0.099, 2.125, 0.0},
                                                           {0.113, 2.375, 0.0},
                                                           {0.120, 2.875, 0.0},
                                                           {0.135, 3.125, 0.0},
                                                           {0.148, 3.25, 0.0},
                                                           {0.177, 3.75, 0.0},
                                                           {0.192, 4.25, 0.0},
                                                           {0.207, 4.75, 0.0},
                                                           {0.0, 0.0, 0.0},
                                                           {0.244, 5.75, 0.0}}};
    return style == NailStyle::common ? common[penny] : (style == NailStyle::box ? box[penny] : sinker[penny]);
}
[[nodiscard]] inline std::optional<Length> length_or_none(double inches) {
    return inches > 0.0 ? std::optional<Length>{Length::from_inches(inches)} : std::nullopt;
}
}  // namespace detail

/// A common, box or sinker nail of carbon steel by the penny: NDS 2018 Table L4. Throws `FaultError` not_supported for a size
/// that the table does not have, unknown_name for a number that is none of the names.
[[nodiscard]] inline NailShank standard_nail(NailStyle style, Penny penny) {
    detail::require_named(style, "style");
    detail::require_named(penny, "penny");
    const detail::NailSizeRow row = detail::nail_size_row(style, static_cast<std::size_t>(penny));
    if (!(row.length > 0.0)) {
        throw FaultError{Fault{FaultCode::not_supported, "penny",
                               std::string{name_of(penny)} + " " + std::string{name_of(style)},
                               "a size of NDS 2018 Table L4"}};
    }
    return NailShank{.shank = Shank::smooth,
                     .diameter = Length::from_inches(row.diameter),
                     .length = Length::from_inches(row.length),
                     .steel = NailSteel::carbon,
                     .head = detail::length_or_none(row.head)};
}

/// A post-frame ring shank nail, hardened: AWC Design Aid 4 (2007), whose least threaded length is 2.25 in up to 4 in of nail
/// and 3 in above. Throws `FaultError` not_supported for a diameter or length that it does not list.
[[nodiscard]] inline NailShank post_frame_ring_nail(Length diameter, Length length) {
    struct Row {
        double diameter;
        double head;
        double root;
        double shortest;
        double longest;
    };
    constexpr std::array<Row, 5> rows{{{0.135, 5.0 / 16.0, 0.128, 3.0, 3.5},
                                       {0.148, 5.0 / 16.0, 0.140, 3.0, 4.5},
                                       {0.177, 3.0 / 8.0, 0.169, 3.0, 8.0},
                                       {0.200, 15.0 / 32.0, 0.193, 3.5, 8.0},
                                       {0.207, 15.0 / 32.0, 0.199, 4.0, 8.0}}};
    constexpr std::array<double, 7> lengths{3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 8.0};
    const auto alike = [](Length given, double listed) { return std::fabs(inches(given) - listed) < 5e-4; };
    for (const Row& row : rows) {
        for (const double listed : lengths) {
            if (alike(diameter, row.diameter) && alike(length, listed) && listed >= row.shortest &&
                listed <= row.longest) {
                return NailShank{.shank = Shank::post_frame_ring,
                                 .diameter = Length::from_inches(row.diameter),
                                 .length = Length::from_inches(listed),
                                 .steel = NailSteel::hardened,
                                 .head = Length::from_inches(row.head),
                                 .root_diameter = Length::from_inches(row.root),
                                 .threaded_length = Length::from_inches(listed <= 4.0 ? 2.25 : 3.0)};
            }
        }
    }
    throw FaultError{Fault{FaultCode::not_supported, "nail",
                           describe_length(diameter) + " x " + describe_length(length),
                           "a size of AWC Design Aid 4: 0.135 to 0.207 in by 3 to 8 in"}};
}

/// Roof sheathing ring shank nails of ASTM F1667.
enum class RoofSheathingRing { rsrs_01, rsrs_02, rsrs_03, rsrs_04, rsrs_05 };
template <>
struct NamesOf<RoofSheathingRing> {
    static constexpr std::array<std::string_view, 5> list{"RSRS-01", "RSRS-02", "RSRS-03", "RSRS-04", "RSRS-05"};
};

/// A roof sheathing ring shank nail: length and diameter as named with the Florida Building Code, 7th edition (2020). Head,
/// root, thread and steel were not read, and are left for the maker's sheet. Throws `FaultError` not_supported for RSRS-02 and
/// RSRS-05, of which nothing was read, unknown_name for a number that is none of the names.
[[nodiscard]] inline NailShank roof_sheathing_ring_nail(RoofSheathingRing which) {
    detail::require_named(which, "nail");
    const auto nail = [](double diameter, double length) {
        return NailShank{.shank = Shank::roof_sheathing_ring,
                         .diameter = Length::from_inches(diameter),
                         .length = Length::from_inches(length)};
    };
    switch (which) {
        case RoofSheathingRing::rsrs_01: return nail(0.113, 2.375);
        case RoofSheathingRing::rsrs_03: return nail(0.131, 2.5);
        case RoofSheathingRing::rsrs_04: return nail(0.120, 3.0);
        case RoofSheathingRing::rsrs_02:
        case RoofSheathingRing::rsrs_05: break;
    }
    throw FaultError{Fault{FaultCode::not_supported, "nail", std::string{name_of(which)},
                           "RSRS-01, RSRS-03 or RSRS-04: the others were not read"}};
}

}  // namespace eavewright
