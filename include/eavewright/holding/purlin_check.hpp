// SPDX-License-Identifier: BSL-1.0
#pragma once

// A purlin against everything that acts on it: strength under every combination, sag, what lifts at its connections, and the one
// verdict. A figure from memory gives no verdict, unless what is verified fails already.

#include <eavewright/field.hpp>
#include <eavewright/holding/bending.hpp>
#include <eavewright/holding/lateral_support.hpp>
#include <eavewright/holding/lumber_values.hpp>
#include <eavewright/holding/purlin.hpp>
#include <eavewright/holding/section.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/loads/combinations.hpp>
#include <eavewright/loads/on_slope.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// Sag of a purlin at mid-bay, both ways together where the weak axis is free. Creep is not in it, nor wind.
struct PurlinSag {
    Length live;   ///< under snow or roof live load, whichever sags it more
    Length total;  ///< with the dead load
    Length live_allowed;
    Length total_allowed;
    double live_over;  ///< bay / live sag, 0 where there is none
    double live_share;
    double total_share;
    bool unverified;
    Verdict verdict;
};
template <>
struct FieldsOf<PurlinSag> {
    static constexpr auto list = field_list(
        field("live", FieldUnit::length, "sag under snow or roof live load", &PurlinSag::live),
        field("total", FieldUnit::length, "sag with the dead load", &PurlinSag::total),
        field("live_allowed", FieldUnit::length, "allowed of the first", &PurlinSag::live_allowed),
        field("total_allowed", FieldUnit::length, "allowed of the second", &PurlinSag::total_allowed),
        field("live_over", FieldUnit::ratio, "bay over live sag, 0 where there is none", &PurlinSag::live_over),
        field("live_share", FieldUnit::ratio, "share of what is allowed", &PurlinSag::live_share),
        field("total_share", FieldUnit::ratio, "share of what is allowed", &PurlinSag::total_share),
        field("unverified", FieldUnit::none, "rests on memory", &PurlinSag::unverified),
        field("verdict", FieldUnit::none, "verdict on sag", &PurlinSag::verdict));
};

/// What lifts at a purlin's connections, dead load taken off; all 0 where nothing lifts. Positive is up, square to the slope.
struct PurlinUplift {
    Pressure net;
    LineLoad line;
    Force one_end;       ///< at each end of the purlin
    Force both_purlins;  ///< where two purlins end on one truss: net x spacing x bay
    bool unverified;
};
template <>
struct FieldsOf<PurlinUplift> {
    static constexpr auto list =
        field_list(field(
                       "net_psf", FieldUnit::ratio, "net uplift in pounds per square foot",
                       +[](const PurlinUplift& u) { return psf(u.net); }),
                   field(
                       "line_plf", FieldUnit::ratio, "net uplift in pounds per foot of purlin",
                       +[](const PurlinUplift& u) { return pounds_per_foot(u.line); }),
                   field(
                       "one_end_pounds", FieldUnit::ratio, "uplift of one purlin's end in pounds",
                       +[](const PurlinUplift& u) { return pounds_force(u.one_end); }),
                   field(
                       "both_purlins_pounds", FieldUnit::ratio, "uplift of two purlins that end on one truss in pounds",
                       +[](const PurlinUplift& u) { return pounds_force(u.both_purlins); }),
                   field("unverified", FieldUnit::none, "rests on memory", &PurlinUplift::unverified));
};

/// What asks most of a purlin.
enum class PurlinLimit { bending, shear, live_sag, total_sag };
template <>
struct NamesOf<PurlinLimit> {
    static constexpr std::array<std::string_view, 4> list{"bending", "shear", "live_sag", "total_sag"};
};

/// A purlin against its loads.
struct PurlinCheck {
    SectionProperties shape;
    LumberValues values;
    WeakAxis weak_axis;
    bool roof_may_hold;        ///< the published limit lets usual steel roofing hold the weak axis here
    LateralNeed lateral_need;  ///< what the squeezed edge needs by depth to thickness; none where set flat and held
    bool lateral_need_met;
    std::vector<PurlinCase> cases;  ///< one a combination whose loads are there
    std::size_t worst_bending;      ///< of `cases`
    std::size_t worst_shear;        ///< of `cases`
    PurlinSag sag;
    PurlinUplift uplift;
    PurlinLimit governs;
    double utilisation;  ///< of what governs; up to 1 holds. Shear whose strength was not obtained is not in it
    bool unverified;     ///< a figure behind it rests on memory
    Verdict verdict;     ///< on the purlin, not on its connections
};
template <>
struct FieldsOf<PurlinCheck> {
    static constexpr auto list = field_list(
        field("shape", FieldUnit::none, "section", &PurlinCheck::shape),
        field("values", FieldUnit::none, "reference values of the lumber", &PurlinCheck::values),
        field("weak_axis", FieldUnit::none, "who carries what pulls down the slope", &PurlinCheck::weak_axis),
        field("roof_may_hold", FieldUnit::none, "within the published limit for usual steel roofing",
              &PurlinCheck::roof_may_hold),
        field("lateral_need", FieldUnit::none, "what the squeezed edge needs by depth to thickness",
              &PurlinCheck::lateral_need),
        field("lateral_need_met", FieldUnit::none, "and whether that is there", &PurlinCheck::lateral_need_met),
        field("cases", FieldUnit::none, "strength under each combination", &PurlinCheck::cases),
        field("worst_bending", FieldUnit::count, "case that bends it most, counted from 0",
              &PurlinCheck::worst_bending),
        field("worst_shear", FieldUnit::count, "case that shears it most, counted from 0", &PurlinCheck::worst_shear),
        field("sag", FieldUnit::none, "sag at mid-bay", &PurlinCheck::sag),
        field("uplift", FieldUnit::none, "what lifts at the connections", &PurlinCheck::uplift),
        field("governs", FieldUnit::none, "what asks most", &PurlinCheck::governs),
        field("utilisation", FieldUnit::ratio, "share that it asks, holds up to 1", &PurlinCheck::utilisation),
        field("unverified", FieldUnit::none, "a figure behind it rests on memory", &PurlinCheck::unverified),
        field("verdict", FieldUnit::none, "verdict on the purlin, not on its connections", &PurlinCheck::verdict),
        field(
            "caution", FieldUnit::none, "to be read with it", +[](const PurlinCheck&) { return holding_caution; }));
};

namespace detail {
/// Sag under a load on the slope, both ways together where nobody holds the weak axis.
[[nodiscard]] inline Length purlin_sag_under(const Purlin& p, const SectionProperties& shape, Pressure elasticity,
                                             Pressure normal, Pressure along) {
    const bool on_edge = p.set == MemberSet::on_edge;
    const SecondMoment square = on_edge ? shape.edge_second : shape.flat_second;
    const SecondMoment across = on_edge ? shape.flat_second : shape.edge_second;
    const Length down = simple_span_deflection(normal * p.spacing, p.bay, elasticity, square);
    if (p.weak_axis != WeakAxis::free) {
        return down;
    }
    const Length aside = simple_span_deflection(along * p.spacing, p.bay, elasticity, across);
    return Length::from_inches(std::hypot(inches(down), inches(aside)));
}
[[nodiscard]] inline PurlinSag purlin_sag(const Purlin& p, const SectionProperties& shape, const LumberValue& E) {
    const CombinationFactors of_snow = combination_factors(LoadCombination::dead_snow, p.edition);
    const Pressure snow = p.loads.snow * of_snow.snow;
    const bool by_snow = snow > p.loads.roof_live;
    const SlopeLoad live = load_from_plan(by_snow ? snow : p.loads.roof_live, p.pitch);
    const SlopeLoad dead = load_from_surface(p.loads.dead, p.pitch);
    const Length sag = purlin_sag_under(p, shape, E.value, live.normal, live.along);
    const Length total = purlin_sag_under(p, shape, E.value, live.normal + dead.normal, live.along + dead.along);
    const Length live_allowed = p.bay / p.live_limit;
    const Length total_allowed = p.bay / p.total_limit;
    const double share = sag / live_allowed;
    const double total_share = total / total_allowed;
    const bool unverified = E.unverified || p.loads_unverified || (by_snow && of_snow.unverified);
    return {sag,
            total,
            live_allowed,
            total_allowed,
            inches(sag) > 0.0 ? p.bay / sag : 0.0,
            share,
            total_share,
            unverified,
            verdict_of_share(share > total_share ? share : total_share, unverified)};
}
[[nodiscard]] inline PurlinUplift purlin_uplift(const Purlin& p) {
    const CombinedLoad load = combine(LoadCombination::uplift, p.loads, p.pitch, p.edition);
    const Pressure net = psf(load.normal) < 0.0 ? -load.normal : pressure_from_psf(0.0);
    const LineLoad line = net * p.spacing;
    return {net, line, line * p.bay / 2.0, line * p.bay, p.loads_unverified || load.factors.unverified};
}

/// Finds the worst cases, what governs, and the verdict.
inline void settle(PurlinCheck& check) {
    bool fails = check.sag.verdict == Verdict::fails;
    bool silent = check.sag.verdict == Verdict::no_verdict;
    const auto asked = [](const PurlinCase& c) { return c.bending_share + (c.buckles ? 1e6 : 0.0); };
    for (std::size_t i = 0; i < check.cases.size(); ++i) {
        const PurlinCase& c = check.cases[i];
        check.worst_bending = asked(c) > asked(check.cases[check.worst_bending]) ? i : check.worst_bending;
        check.worst_shear =
            psi(c.shear) / c.load.factors.wood_duration > psi(check.cases[check.worst_shear].shear) /
                                                              check.cases[check.worst_shear].load.factors.wood_duration
                ? i
                : check.worst_shear;
        fails = fails || c.bending_verdict == Verdict::fails || c.shear_verdict == Verdict::fails;
        silent = silent || c.bending_verdict == Verdict::no_verdict || c.shear_verdict == Verdict::no_verdict;
    }
    const std::array<double, 4> shares{check.cases[check.worst_bending].bending_share,
                                       check.cases[check.worst_shear].shear_share, check.sag.live_share,
                                       check.sag.total_share};
    std::size_t most = 0;
    for (std::size_t i = 1; i < shares.size(); ++i) {
        most = shares[i] > shares[most] ? i : most;
    }
    check.governs = static_cast<PurlinLimit>(most);
    check.utilisation = shares[most];
    check.unverified = silent;
    check.verdict = fails ? Verdict::fails : silent ? Verdict::no_verdict : Verdict::holds;
}
}  // namespace detail

/// Checks a purlin as a simple span: bending, shear and sag, and what lifts at its connections. Bearing, notches, laps, point
/// loads, drifted snow and the connections' strength are not in it. Throws as `purlin_case`. Shown with `holding_caution`.
[[nodiscard]] inline PurlinCheck check_purlin(const Purlin& purlin) {
    require_sound(purlin, "purlin");
    const SectionProperties shape = section_properties(dressed_section(purlin.size, Seasoning::dry));
    const LumberValues values = lumber_values(purlin.grade, purlin.size);
    const bool bent_on_edge = purlin.set == MemberSet::on_edge || purlin.weak_axis == WeakAxis::free;
    const LateralNeed need = bent_on_edge ? lateral_need(purlin.size) : LateralNeed::none;
    std::vector<PurlinCase> cases;
    for (const CombinedLoad& load : combine_all(purlin.loads, purlin.pitch, purlin.edition)) {
        cases.push_back(purlin_case(purlin, load));
    }
    PurlinCheck check{shape,
                      values,
                      purlin.weak_axis,
                      roof_may_hold_weak_axis(purlin.pitch, purlin.bay, true),
                      need,
                      meets_lateral_need(purlin.support, need),
                      std::move(cases),
                      0,
                      0,
                      detail::purlin_sag(purlin, shape, values.elasticity),
                      detail::purlin_uplift(purlin),
                      PurlinLimit::bending,
                      0.0,
                      false,
                      Verdict::no_verdict};
    detail::settle(check);
    return check;
}

}  // namespace eavewright
