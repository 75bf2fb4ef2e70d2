// SPDX-License-Identifier: BSL-1.0
#pragma once

// Reference design values of lumber and the factors that go with size, side and company. The figures are those in force
// since the values of Southern Pine were lowered in 2013: tables that still give its No.2 an E of 1,600,000 psi and a higher Fb
// are stale.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/section.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {

/// Species and grade as stamped. All are of dimension lumber 2 in thick, dry in service (19 % at the most).
enum class LumberGrade {
    spruce_pine_fir_no2,  ///< No.1/No.2
    douglas_fir_larch_no2,
    hem_fir_no2,
    southern_pine_no2,
    msr_1650f_1_5e,  ///< machine stress rated
    msr_2100f_1_8e,
};
template <>
struct NamesOf<LumberGrade> {
    static constexpr std::array<std::string_view, 6> list{
        "Spruce-Pine-Fir No.1/No.2", "Douglas Fir-Larch No.2", "Hem-Fir No.2",
        "Southern Pine No.2",        "MSR 1650f-1.5E",         "MSR 2100f-1.8E"};
};

/// One reference value and whether it rests on memory.
struct LumberValue {
    Pressure value;
    bool unverified;
};
template <>
struct FieldsOf<LumberValue> {
    static constexpr auto list =
        field_list(field(
                       "value_psi", FieldUnit::ratio, "pounds per square inch",
                       +[](const LumberValue& v) { return psi(v.value); }),
                   field("unverified", FieldUnit::none, "rests on memory", &LumberValue::unverified));
};

/// Reference values of one grade in one size, for ten years' duration.
struct LumberValues {
    LumberGrade grade;
    LumberValue bending;                           ///< Fb
    std::optional<LumberValue> shear;              ///< Fv; none for MSR, whose value was not obtained
    std::optional<LumberValue> bearing;            ///< Fc perpendicular to grain
    LumberValue elasticity;                        ///< E
    std::optional<LumberValue> stable_elasticity;  ///< Emin, for stability
    bool takes_size_factor;                        ///< false where it is inside (Southern Pine) or not applied (MSR)
    std::string_view source;
};
template <>
struct FieldsOf<LumberValues> {
    static constexpr auto list =
        field_list(field("grade", FieldUnit::none, "species and grade", &LumberValues::grade),
                   field("bending", FieldUnit::none, "Fb", &LumberValues::bending),
                   field("shear", FieldUnit::none, "Fv, null where it was not obtained", &LumberValues::shear),
                   field("bearing", FieldUnit::none, "Fc perpendicular to grain, null where it was not obtained",
                         &LumberValues::bearing),
                   field("elasticity", FieldUnit::none, "E", &LumberValues::elasticity),
                   field("stable_elasticity", FieldUnit::none, "Emin, null where it was not obtained",
                         &LumberValues::stable_elasticity),
                   field("takes_size_factor", FieldUnit::none, "CF multiplies Fb", &LumberValues::takes_size_factor),
                   field("source", FieldUnit::none, "where the values stand", &LumberValues::source));
};

namespace detail {
struct SizeFactorRow {
    double nominal_width;
    double bending;      ///< CF of Fb
    double compression;  ///< CF of Fc
    double flat;         ///< Cfu
};
/// NDS Supplement Table 4A, lumber 2 and 3 in thick.
inline constexpr std::array<SizeFactorRow, 9> size_factor_rows{{{2, 1.5, 1.15, 1.0},
                                                                {3, 1.5, 1.15, 1.0},
                                                                {4, 1.5, 1.15, 1.1},
                                                                {5, 1.4, 1.1, 1.1},
                                                                {6, 1.3, 1.1, 1.15},
                                                                {8, 1.2, 1.05, 1.15},
                                                                {10, 1.1, 1.0, 1.2},
                                                                {12, 1.0, 1.0, 1.2},
                                                                {14, 0.9, 0.9, 1.2}}};
inline constexpr std::array<std::array<double, 2>, 5> southern_pine_bending{
    {{4, 1100}, {6, 1000}, {8, 925}, {10, 800}, {12, 750}}};

[[nodiscard]] inline LumberValue known_psi(double value) { return {pressure_from_psi(value), false}; }
[[nodiscard]] inline LumberValue remembered_psi(double value) { return {pressure_from_psi(value), true}; }

[[nodiscard]] inline LumberValues southern_pine_values(const NominalSize& size) {
    for (const auto& row : southern_pine_bending) {
        if (row[0] == inches(size.width)) {
            return {LumberGrade::southern_pine_no2,
                    known_psi(row[1]),
                    known_psi(175),
                    known_psi(565),
                    known_psi(1.4e6),
                    known_psi(510000),
                    false,
                    "AWC NDS Supplement 2018 Table 4B"};
        }
    }
    refuse_load(FaultCode::not_supported, "size.width", describe_length(size.width),
                "a nominal width of 4, 6, 8, 10 or 12 in, whose Southern Pine values were obtained");
}
}  // namespace detail

inline void find_faults(const NominalSize& size, const Path& path, Faults& faults) {
    require_within(size.thickness, Length::from_inches(0.25), Length::from_inches(30.0), Path{path, "thickness"},
                   faults);
    require_within(size.width, Length::from_inches(0.25), Length::from_inches(30.0), Path{path, "width"}, faults);
    if (size.thickness > size.width) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "width"}.text(), describe_length(size.width),
                               "not less than the thickness"});
    }
}

/// Reference values of a grade (AWC NDS Supplement 2018 Tables 4A, 4B, 4C). Throws `FaultError`: not_supported for a nominal
/// thickness other than 2 in, whose values were not obtained, and for a Southern Pine width without a value; unknown_name for a
/// number that is no grade. Values from memory are marked.
[[nodiscard]] inline LumberValues lumber_values(LumberGrade grade, const NominalSize& size) {
    Faults faults;
    detail::require_named(grade, Path{"grade"}, faults);
    find_faults(size, Path{"size"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    if (inches(size.thickness) != 2.0) {
        detail::refuse_load(FaultCode::not_supported, "size.thickness", describe_length(size.thickness),
                            "a nominal thickness of 2 in");
    }
    using namespace detail;
    constexpr std::string_view visual = "AWC NDS Supplement 2018 Table 4A";
    constexpr std::string_view machine = "AWC NDS Supplement 2018 Table 4C";
    switch (grade) {
        case LumberGrade::spruce_pine_fir_no2:
            return {grade,
                    known_psi(875),
                    remembered_psi(135),
                    remembered_psi(425),
                    known_psi(1.4e6),
                    remembered_psi(510000),
                    true,
                    visual};
        case LumberGrade::douglas_fir_larch_no2:
            return {grade, known_psi(900), known_psi(180), known_psi(625), known_psi(1.6e6), known_psi(580000),
                    true,  visual};
        case LumberGrade::hem_fir_no2:
            return {grade,
                    remembered_psi(850),
                    remembered_psi(150),
                    remembered_psi(405),
                    known_psi(1.3e6),
                    remembered_psi(470000),
                    true,
                    visual};
        case LumberGrade::southern_pine_no2: return southern_pine_values(size);
        case LumberGrade::msr_1650f_1_5e:  // the grade's own name is its Fb and E
            return {grade, known_psi(1650), {}, {}, known_psi(1.5e6), {}, false, machine};
        case LumberGrade::msr_2100f_1_8e: break;
    }
    return {grade, remembered_psi(2100), {}, {}, remembered_psi(1.8e6), {}, false, machine};
}

/// Size and flat-use factors of one nominal width.
struct SizeFactors {
    double bending;      ///< CF of Fb
    double compression;  ///< CF of Fc
    double flat_use;     ///< Cfu
};
template <>
struct FieldsOf<SizeFactors> {
    static constexpr auto list =
        field_list(field("bending", FieldUnit::ratio, "size factor CF of Fb", &SizeFactors::bending),
                   field("compression", FieldUnit::ratio, "size factor CF of Fc", &SizeFactors::compression),
                   field("flat_use", FieldUnit::ratio, "flat use factor Cfu", &SizeFactors::flat_use));
};
/// The factors' row of a nominal width of lumber 2 and 3 in thick (AWC NDS Supplement Table 4A). Not for Southern Pine or MSR as
/// to CF: `LumberValues::takes_size_factor`. Throws `FaultError` not_supported for another width or thickness.
[[nodiscard]] inline SizeFactors size_factors(const NominalSize& size) {
    require_sound(size, "size");
    const double thick = inches(size.thickness);
    if (thick != 2.0 && thick != 3.0) {
        detail::refuse_load(FaultCode::not_supported, "size.thickness", describe_length(size.thickness),
                            "a nominal thickness of 2 or 3 in");
    }
    for (const detail::SizeFactorRow& row : detail::size_factor_rows) {
        if (row.nominal_width == inches(size.width)) {
            return {row.bending, row.compression, row.flat};
        }
    }
    detail::refuse_load(FaultCode::not_supported, "size.width", describe_length(size.width),
                        "a nominal width of 2, 3, 4, 5, 6, 8, 10, 12 or 14 in");
}

/// Members that share a load: three or more, not more than 24 in apart, joined by what spreads the load between them.
struct MemberCompany {
    int members;
    Length spacing;
    bool joined;  ///< by sheathing or its like, able to carry load from one to the next
};
/// Widest spacing at which members count as repetitive.
inline constexpr Length widest_repetitive_spacing = Length::from_inches(24.0);

/// Repetitive member factor Cr: 1.15 or 1 (AWC NDS 2018 4.3.9).
[[nodiscard]] inline double repetitive_factor(const MemberCompany& company) {
    return company.joined && company.members >= 3 && company.spacing <= widest_repetitive_spacing ? 1.15 : 1.0;
}

/// An allowable bending stress with each factor that made it: Fb CD CL CF Cfu Cr.
struct AdjustedBending {
    LumberValue reference;  ///< Fb
    double duration;        ///< CD
    double stability;       ///< CL; 1 until a stability check sets it
    double size;            ///< CF
    double flat_use;        ///< Cfu
    double repetitive;      ///< Cr
    Pressure stress;        ///< F'b
    bool unverified;
};
template <>
struct FieldsOf<AdjustedBending> {
    static constexpr auto list =
        field_list(field("reference", FieldUnit::none, "Fb", &AdjustedBending::reference),
                   field("duration", FieldUnit::ratio, "load duration factor CD", &AdjustedBending::duration),
                   field("stability", FieldUnit::ratio, "beam stability factor CL", &AdjustedBending::stability),
                   field("size", FieldUnit::ratio, "size factor CF", &AdjustedBending::size),
                   field("flat_use", FieldUnit::ratio, "flat use factor Cfu", &AdjustedBending::flat_use),
                   field("repetitive", FieldUnit::ratio, "repetitive member factor Cr", &AdjustedBending::repetitive),
                   field(
                       "stress_psi", FieldUnit::ratio, "allowable bending stress in pounds per square inch",
                       +[](const AdjustedBending& a) { return psi(a.stress); }),
                   field("unverified", FieldUnit::none, "rests on memory", &AdjustedBending::unverified));
};

/// Allowable bending stress before beam stability, CD 0.9 to 2 (else `FaultError`). Bent flatwise it takes Cfu; that of MSR was not
/// obtained, so it is taken as 1 and marked.
[[nodiscard]] inline AdjustedBending adjusted_bending(LumberGrade grade, const NominalSize& size, MemberSet bent,
                                                      double duration, double repetitive) {
    Faults faults;
    detail::require_number(duration, 0.9, 2.0, "", Path{"duration"}, faults);
    detail::require_number(repetitive, 1.0, 1.15, "", Path{"repetitive"}, faults);
    detail::require_named(bent, Path{"bent"}, faults);
    if (!faults.empty()) {
        throw FaultError{faults[0]};
    }
    const LumberValues values = lumber_values(grade, size);
    const SizeFactors factors = size_factors(size);
    const bool machine = grade == LumberGrade::msr_1650f_1_5e || grade == LumberGrade::msr_2100f_1_8e;
    const bool flat = bent == MemberSet::flat;
    const double CF = values.takes_size_factor ? factors.bending : 1.0;
    const double Cfu = flat && !machine ? factors.flat_use : 1.0;
    return {values.bending,
            duration,
            1.0,
            CF,
            Cfu,
            repetitive,
            values.bending.value * (duration * CF * Cfu * repetitive),
            values.bending.unverified || (flat && machine)};
}

}  // namespace eavewright
