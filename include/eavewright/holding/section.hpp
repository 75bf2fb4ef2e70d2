// SPDX-License-Identifier: BSL-1.0
#pragma once

// A stick's cross-section: dressed sizes behind the nominal ones, and what its shape gives to bending on edge and flat.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string_view>

namespace eavewright {

/// A rectangle. Each side 1/8 in to 60 in, the depth not less than the breadth.
struct Section {
    Length breadth;  ///< the narrow side, 1.5 in of a 2x4
    Length depth;    ///< the wide side, 3.5 in of a 2x4
};
inline void find_faults(const Section& section, const Path& path, Faults& faults) {
    constexpr Length least = Length::from_inches(0.125);
    constexpr Length most = Length::from_inches(60.0);
    require_within(section.breadth, least, most, Path{path, "breadth"}, faults);
    require_within(section.depth, least, most, Path{path, "depth"}, faults);
    if (section.breadth > section.depth) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "depth"}.text(), describe_length(section.depth),
                               "not less than the breadth"});
    }
}

/// Which side a member stands on.
enum class MemberSet { on_edge, flat };
template <>
struct NamesOf<MemberSet> {
    static constexpr std::array<std::string_view, 2> list{"on_edge", "flat"};
};

/// What the rectangle gives: b d, b d^2/6, b d^3/12 and the same turned over.
struct SectionProperties {
    Section section;
    Area area;
    Volume edge_modulus;       ///< Sxx: bent edgewise
    SecondMoment edge_second;  ///< Ixx
    Volume flat_modulus;       ///< Syy: bent flatwise
    SecondMoment flat_second;  ///< Iyy
};
template <>
struct FieldsOf<SectionProperties> {
    static constexpr auto list = field_list(
        field(
            "breadth", FieldUnit::length, "the narrow side",
            +[](const SectionProperties& p) { return p.section.breadth; }),
        field(
            "depth", FieldUnit::length, "the wide side", +[](const SectionProperties& p) { return p.section.depth; }),
        field(
            "area_in2", FieldUnit::ratio, "area in square inches",
            +[](const SectionProperties& p) { return square_inches(p.area); }),
        field(
            "edge_modulus_in3", FieldUnit::ratio, "section modulus edgewise in cubic inches",
            +[](const SectionProperties& p) { return cubic_inches(p.edge_modulus); }),
        field(
            "edge_second_in4", FieldUnit::ratio, "second moment edgewise in inches to the fourth",
            +[](const SectionProperties& p) { return inches_to_the_fourth(p.edge_second); }),
        field(
            "flat_modulus_in3", FieldUnit::ratio, "section modulus flatwise in cubic inches",
            +[](const SectionProperties& p) { return cubic_inches(p.flat_modulus); }),
        field(
            "flat_second_in4", FieldUnit::ratio, "second moment flatwise in inches to the fourth",
            +[](const SectionProperties& p) { return inches_to_the_fourth(p.flat_second); }));
};

/// Properties of a section. Throws `FaultError` with its first fault. Exact but for the last place.
[[nodiscard]] inline SectionProperties section_properties(const Section& section) {
    require_sound(section, "section");
    const Area area = section.breadth * section.depth;
    const Volume edge = area * section.depth / 6.0;
    const Volume flat = area * section.breadth / 6.0;
    return {section, area, edge, edge * (section.depth / 2.0), flat, flat * (section.breadth / 2.0)};
}

/// Lumber by its nominal thickness: boards below 2 in, dimension lumber 2 in to below 5, timbers from 5.
enum class LumberForm { board, dimension, timber };
template <>
struct NamesOf<LumberForm> {
    static constexpr std::array<std::string_view, 3> list{"board", "dimension", "timber"};
};
enum class LumberFace { thickness, width };
template <>
struct NamesOf<LumberFace> {
    static constexpr std::array<std::string_view, 2> list{"thickness", "width"};
};
/// Moisture at which it was dressed: a green stick is larger, and shrinks to the dry size.
enum class Seasoning { dry, green };
template <>
struct NamesOf<Seasoning> {
    static constexpr std::array<std::string_view, 2> list{"dry", "green"};
};

namespace detail {
struct DressedSize {
    double nominal;
    double dry;
    double green;
};
inline constexpr std::array<DressedSize, 13> board_widths{{{2, 1.5, 1.5625},
                                                           {3, 2.5, 2.5625},
                                                           {4, 3.5, 3.5625},
                                                           {5, 4.5, 4.625},
                                                           {6, 5.5, 5.625},
                                                           {7, 6.5, 6.625},
                                                           {8, 7.25, 7.5},
                                                           {9, 8.25, 8.5},
                                                           {10, 9.25, 9.5},
                                                           {11, 10.25, 10.5},
                                                           {12, 11.25, 11.5},
                                                           {14, 13.25, 13.5},
                                                           {16, 15.25, 15.5}}};
inline constexpr std::array<DressedSize, 7> board_thicknesses{{{0.375, 0.3125, 0.34375},
                                                               {0.5, 0.4375, 0.46875},
                                                               {0.625, 0.5625, 0.59375},
                                                               {0.75, 0.625, 0.6875},
                                                               {1, 0.75, 0.78125},
                                                               {1.25, 1, 1.03125},
                                                               {1.5, 1.25, 1.28125}}};
/// Widths of dimension lumber; its thicknesses are the first six.
inline constexpr std::array<DressedSize, 13> dimension_sizes{{{2, 1.5, 1.5625},
                                                              {2.5, 2, 2.0625},
                                                              {3, 2.5, 2.5625},
                                                              {3.5, 3, 3.0625},
                                                              {4, 3.5, 3.5625},
                                                              {4.5, 4, 4.0625},
                                                              {5, 4.5, 4.625},
                                                              {6, 5.5, 5.625},
                                                              {8, 7.25, 7.5},
                                                              {10, 9.25, 9.5},
                                                              {12, 11.25, 11.5},
                                                              {14, 13.25, 13.5},
                                                              {16, 15.25, 15.5}}};
inline constexpr std::size_t dimension_thicknesses = 6;

[[noreturn]] inline void refuse_nominal(Length nominal) {
    refuse_load(FaultCode::not_supported, "nominal", describe_length(nominal), "a size that the standard lists");
}
template <std::size_t count>
[[nodiscard]] Length dressed_from(const std::array<DressedSize, count>& sizes, std::size_t used, Length nominal,
                                  Seasoning seasoning) {
    for (std::size_t i = 0; i < used; ++i) {
        if (sizes[i].nominal == inches(nominal)) {
            return Length::from_inches(seasoning == Seasoning::dry ? sizes[i].dry : sizes[i].green);
        }
    }
    refuse_nominal(nominal);
}
/// Timbers lose a round amount by the inch of the nominal: 1/2 in green, dry 1/2, 3/4 or 1.
[[nodiscard]] inline Length dressed_timber(Length nominal, Seasoning seasoning) {
    const double in = inches(nominal);
    if (!(in >= 5.0 && in <= 30.0) || in != std::floor(in)) {
        refuse_nominal(nominal);
    }
    const double dry = in < 7.0 ? 0.5 : in < 16.0 ? 0.75 : 1.0;
    return nominal - Length::from_inches(seasoning == Seasoning::dry ? dry : 0.5);
}
}  // namespace detail

/// Least dressed size behind a nominal one (PS 20, American Softwood Lumber Standard). The nominal inches go in as a Length, as
/// in `2_in`. Throws `FaultError` not_supported for a size that is not listed; timbers are whole inches from 5 to 30.
[[nodiscard]] inline Length dressed_size(LumberForm form, LumberFace face, Length nominal, Seasoning seasoning) {
    Faults faults;
    detail::require_named(form, Path{"form"}, faults);
    detail::require_named(face, Path{"face"}, faults);
    detail::require_named(seasoning, Path{"seasoning"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    const bool wide = face == LumberFace::width;
    switch (form) {
        case LumberForm::board:
            return wide ? detail::dressed_from(detail::board_widths, detail::board_widths.size(), nominal, seasoning)
                        : detail::dressed_from(detail::board_thicknesses, detail::board_thicknesses.size(), nominal,
                                               seasoning);
        case LumberForm::dimension:
            return detail::dressed_from(detail::dimension_sizes,
                                        wide ? detail::dimension_sizes.size() : detail::dimension_thicknesses, nominal,
                                        seasoning);
        case LumberForm::timber: break;
    }
    return detail::dressed_timber(nominal, seasoning);
}

/// A stick by its nominal size: 2 x 4 is `{2_in, 4_in}`.
struct NominalSize {
    Length thickness;
    Length width;
};
/// The dressed section of a stick. Throws `FaultError` not_supported for a size that is not listed, contradiction where the
/// thickness is above the width.
[[nodiscard]] inline Section dressed_section(const NominalSize& nominal, Seasoning seasoning) {
    const double thick = inches(nominal.thickness);
    const LumberForm form = thick < 2.0 ? LumberForm::board : thick < 5.0 ? LumberForm::dimension : LumberForm::timber;
    const Section section{dressed_size(form, LumberFace::thickness, nominal.thickness, seasoning),
                          dressed_size(form, LumberFace::width, nominal.width, seasoning)};
    require_sound(section, "section");
    return section;
}

}  // namespace eavewright
