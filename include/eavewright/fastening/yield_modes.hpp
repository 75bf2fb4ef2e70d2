// SPDX-License-Identifier: BSL-1.0
#pragma once

// The six ways in which a dowel and the wood around it can yield in single shear, and the least of them.

#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fastening/strength.hpp>
#include <eavewright/fastening/wood_gravity.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// How a dowel in single shear yields.
enum class YieldMode {
    i_main,    ///< the main member crushes
    i_side,    ///< the side member crushes
    ii,        ///< the dowel turns in both
    iii_main,  ///< the dowel bends in the side member, the main one crushes
    iii_side,  ///< the other way round
    iv,        ///< the dowel bends in both
};
template <>
struct NamesOf<YieldMode> {
    static constexpr std::array<std::string_view, 6> list{"Im", "Is", "II", "IIIm", "IIIs", "IV"};
};

/// Bending yield strength of a carbon steel or hardened nail: NDS 2018 Appendix Table I1 and footnotes of Tables 12N to 12P.
/// Throws `FaultError`: out_of_range for a diameter outside the table (0.099 to 0.375 in, hardened 0.120 to 0.207),
/// not_supported for stainless steel.
[[nodiscard]] inline Pressure nail_bending_yield(NailSteel steel, Length diameter, NdsEdition edition) {
    struct Band {
        double up_to;
        double psi;
    };
    constexpr std::array<Band, 6> carbon{
        {{0.142, 100000}, {0.177, 90000}, {0.236, 80000}, {0.273, 70000}, {0.344, 60000}, {0.375, 45000}}};
    constexpr std::array<Band, 3> hardened{{{0.142, 130000}, {0.192, 115000}, {0.207, 100000}}};
    detail::require_2018(edition, "Table I1 is of NDS 2018");
    if (steel == NailSteel::stainless) {
        throw FaultError{
            Fault{FaultCode::not_supported, "steel", "stainless", "carbon or hardened, or a yield strength given"}};
    }
    const bool hard = steel == NailSteel::hardened;
    detail::require_range(inches(diameter), hard ? 0.120 : 0.099, hard ? 0.207 : 0.375, "diameter", "NDS Table I1");
    constexpr double slack = 1e-9;
    for (std::size_t i = 0; i + 1 < (hard ? hardened.size() : carbon.size()); ++i) {
        const Band band = hard ? hardened[i] : carbon[i];
        if (inches(diameter) <= band.up_to + slack) {
            return pressure_from_psi(band.psi);
        }
    }
    return pressure_from_psi(hard ? hardened[2].psi : carbon[5].psi);
}
/// The same of bolts, and of lag screws of 3/8 in and more.
inline constexpr Pressure bolt_bending_yield = pressure_from_psi(45000.0);

/// Dowel bearing strength of wood under a dowel below 1/4 in, in any direction of the grain: 16,600 G^1.84, to the nearest
/// 50 psi as NDS 2018 Table 12.3.3 prints it. G 0.31 to 0.73 (else `FaultError` out_of_range).
[[nodiscard]] inline Pressure dowel_bearing(OvendryGravity gravity, NdsEdition edition) {
    detail::require_2018(edition, "Table 12.3.3 is of NDS 2018");
    detail::require_range(gravity.ratio(), 0.31, 0.73, "specific_gravity", "NDS Table 12.3.3");
    return pressure_from_psi(50.0 * std::floor(16600.0 * std::pow(gravity.ratio(), 1.84) / 50.0 + 0.5));
}
/// The same of a side plate of ASTM A653 grade 33 sheet steel below 1/4 in: NDS 2018 Table 12P, footnote 2.
inline constexpr Pressure sheet_steel_bearing = pressure_from_psi(61850.0);

/// A member as a dowel bears on it.
struct DowelBearing {
    Length length;      ///< along the dowel
    Pressure strength;  ///< from `dowel_bearing` for wood
};
/// A dowel below 1/4 in through a side member into a main one, their faces in contact.
struct DowelJoint {
    Length diameter;
    Pressure bending_yield;
    DowelBearing main;
    DowelBearing side;
};
inline void find_faults(const DowelJoint& joint, const Path& path, Faults& faults) {
    const auto pressure = [&](Pressure p, const Path& at) {
        if (!(psi(p) >= 100.0 && psi(p) <= 1e6)) {
            faults.push_back(Fault{std::isfinite(psi(p)) ? FaultCode::out_of_range : FaultCode::not_finite, at.text(),
                                   write_decimal(psi(p), 3) + " psi", "100 to 1000000 psi"});
        }
    };
    require_within(joint.diameter, one_inch / 16.0, one_inch * 0.2499, Path{path, "diameter"}, faults);
    pressure(joint.bending_yield, Path{path, "bending_yield"});
    for (const auto& [member, name] : {std::pair{joint.main, "main"}, std::pair{joint.side, "side"}}) {
        const Path at{path, name};
        require_within(member.length, one_inch / 64.0, 24.0 * one_inch, Path{at, "length"}, faults);
        pressure(member.strength, Path{at, "strength"});
    }
}

/// The six yield modes, with the figures that they are made of.
struct YieldModes {
    double strength_ratio;  ///< Re: bearing strength of the main member to the side member's
    double length_ratio;    ///< Rt: bearing length likewise
    double k1;
    double k2;
    double k3;
    double reduction;                     ///< Rd
    std::array<ReferenceForce, 6> modes;  ///< in the order of `YieldMode`
    YieldMode governs;
    ReferenceForce least;
};
template <>
struct FieldsOf<YieldModes> {
    static constexpr auto list = field_list(
        field("strength_ratio", FieldUnit::ratio, "Re, bearing strength of main to side member",
              &YieldModes::strength_ratio),
        field("length_ratio", FieldUnit::ratio, "Rt, bearing length of main to side member", &YieldModes::length_ratio),
        field("k1", FieldUnit::ratio, "of mode II", &YieldModes::k1),
        field("k2", FieldUnit::ratio, "of mode IIIm", &YieldModes::k2),
        field("k3", FieldUnit::ratio, "of mode IIIs", &YieldModes::k3),
        field("reduction", FieldUnit::ratio, "reduction term Rd", &YieldModes::reduction),
        field(
            "modes_pounds", FieldUnit::ratio, "modes Im, Is, II, IIIm, IIIs and IV in pounds",
            +[](const YieldModes& y) {
                std::vector<double> pounds;
                for (const ReferenceForce& mode : y.modes) {
                    pounds.push_back(pounds_force(mode));
                }
                return pounds;
            }),
        field("governs", FieldUnit::none, "the mode with the least", &YieldModes::governs),
        field(
            "least_pounds", FieldUnit::ratio, "the least in pounds",
            +[](const YieldModes& y) { return pounds_force(y.least); }));
};

/// The yield modes of a dowel below 1/4 in in single shear: NDS 2018 Tables 12.3.1A and B, equations 12.3-1 to 12.3-6. Reproduces
/// printed cells of Table 12N to the pound. Throws `FaultError` with the first fault of the joint, not_supported for an edition
/// that was not read.
[[nodiscard]] inline YieldModes yield_modes(const DowelJoint& joint, NdsEdition edition) {
    require_sound(joint, "joint");
    detail::require_2018(edition, "Tables 12.3.1A and B are of NDS 2018");
    const double d = inches(joint.diameter);
    const double lm = inches(joint.main.length);
    const double ls = inches(joint.side.length);
    const double fm = psi(joint.main.strength);
    const double fy = psi(joint.bending_yield);
    const double re = fm / psi(joint.side.strength);
    const double rt = lm / ls;
    const double rd = d <= 0.17 ? 2.2 : 10.0 * d + 0.5;
    const double k1 =
        (std::sqrt(re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re * re * re) - re * (1.0 + rt)) / (1.0 + re);
    const double bent = 2.0 * fy * d * d / (3.0 * fm);
    const double k2 = -1.0 + std::sqrt(2.0 * (1.0 + re) + bent * (1.0 + 2.0 * re) / (lm * lm));
    const double k3 = -1.0 + std::sqrt(2.0 * (1.0 + re) / re + bent * (2.0 + re) / (ls * ls));
    const auto force = [&](double undivided) { return ReferenceForce::of(force_from_pounds(undivided / rd)); };
    YieldModes y{.strength_ratio = re,
                 .length_ratio = rt,
                 .k1 = k1,
                 .k2 = k2,
                 .k3 = k3,
                 .reduction = rd,
                 .modes = {force(d * lm * fm), force(d * ls * fm / re), force(k1 * d * ls * fm / re),
                           force(k2 * d * lm * fm / (1.0 + 2.0 * re)), force(k3 * d * ls * fm / (2.0 + re)),
                           force(d * d * std::sqrt(2.0 * fm * fy / (3.0 * (1.0 + re))))},
                 .governs = YieldMode::i_main,
                 .least = ReferenceForce::of(force_from_pounds(0.0))};
    std::size_t least = 0;
    for (std::size_t i = 1; i < y.modes.size(); ++i) {
        least = y.modes[i] < y.modes[least] ? i : least;
    }
    y.governs = static_cast<YieldMode>(least);
    y.least = y.modes[least];
    return y;
}

}  // namespace eavewright
