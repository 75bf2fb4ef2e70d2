// SPDX-License-Identifier: BSL-1.0
#pragma once

// A stack of sheets on bare purlins: what each purlin under it gets, how hard it bends, how many sheets would use it up.
//
//        frame                    frame        The stack is hinged over every purlin between, so that the lever rule
//      ---|--------------------------|---      shares it out; what hangs past the outer ones tips about them.
//         |      +-----------+       |
//      ---|------|-----------|-------|---      Its part square to the slope bends every purlin under it, its part down
//         |      |           |       |         the slope the one whose cleat stops it.
//      ---|------+===========+-------|---
//         |<start|                   |

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/partly_loaded_span.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

/// Load duration factor of a load that stands seven days, as a stack does until it is laid. NDS 2018 Table 2.3.2.
inline constexpr double stack_duration_factor = 1.25;
/// Most sheets in one stack.
inline constexpr std::int64_t most_stacked = 10'000;

/// Sheets of one size in one stack.
struct StackedSheets {
    Mass each;  ///< more than 0, at most 10,000 lb
    std::int64_t count;
    Length along;  ///< side along the purlins; 1 in to 60 ft
    Length up;     ///< side up the slope; 1 in to 60 ft
};

/// The purlin with the cleat takes the whole pull down the slope across its weak axis; friction is not counted on.
struct CleatedPurlinBends {
    Volume section_modulus;  ///< about the weak axis, 0.01 to 1000 cu in
    Pressure allowable;      ///< in bending about it, as `PurlinsUnder::allowable`
};
/// Something else takes that pull, and a licensed professional has said so.
struct SlidingHeldElsewhere {};
using SlopePull = std::variant<CleatedPurlinBends, SlidingHeldElsewhere>;

/// The purlins of one bay with the stack on them.
struct PurlinsUnder {
    Pitch pitch;
    Length bay;  ///< simple span of every purlin, 1 ft to 100 ft
    std::vector<Length>
        rows;       ///< centre line of each, up the slope from the stack's lower edge; ascending, 2 to 64 of them.
                    ///< The first has the cleat
    Length start;   ///< from the bay's left frame to the stack's left end; negative where it reaches over the frame
    LineLoad dead;  ///< one purlin and what is fixed on it, vertical; 0 to 1000 lb per ft
    Volume section_modulus;  ///< of a purlin, for loads square to the slope; 0.01 to 1000 cu in
    Pressure allowable;  ///< in that bending: the reference value with every factor in it, the duration of the stack
                         ///< (`stack_duration_factor`) and lateral stability among them; 1 to 20,000 psi
    SlopePull pull;
    bool unverified = false;  ///< what is allowed rests on memory
};

/// One purlin under the stack.
struct RowUnderStack {
    Length up;             ///< from the stack's lower edge
    double share;          ///< of the stack
    LineLoad normal_line;  ///< from the stack, square to the slope, where it lies on the purlin
    LineLoad pull_line;    ///< from the stack, down the slope; 0 where no cleat takes it
    Force normal;          ///< from the stack in this bay, square to the slope
    Force end;             ///< on the frame that gets more, square to the slope, dead load with it
    Moment normal_moment;
    Moment pull_moment;
    Pressure normal_stress;
    Pressure pull_stress;
    double normal_use;
    double pull_use;
    double utilisation;  ///< the sum of both
};
template <>
struct FieldsOf<RowUnderStack> {
    static constexpr auto list =
        field_list(field("up", FieldUnit::length, "up the slope from the stack's lower edge", &RowUnderStack::up),
                   field("share", FieldUnit::ratio, "share of the stack", &RowUnderStack::share),
                   field(
                       "normal_plf", FieldUnit::ratio, "from the stack square to the slope in pounds per foot",
                       +[](const RowUnderStack& r) { return pounds_per_foot(r.normal_line); }),
                   field(
                       "pull_plf", FieldUnit::ratio, "from the stack down the slope in pounds per foot",
                       +[](const RowUnderStack& r) { return pounds_per_foot(r.pull_line); }),
                   field(
                       "normal_lb", FieldUnit::ratio, "from the stack in this bay square to the slope in pounds",
                       +[](const RowUnderStack& r) { return pounds_force(r.normal); }),
                   field(
                       "end_lb", FieldUnit::ratio, "on the frame that gets more, square to the slope, in pounds",
                       +[](const RowUnderStack& r) { return pounds_force(r.end); }),
                   field(
                       "normal_moment_lb_in", FieldUnit::ratio, "moment square to the slope in pound-inches",
                       +[](const RowUnderStack& r) { return pound_inches(r.normal_moment); }),
                   field(
                       "pull_moment_lb_in", FieldUnit::ratio, "moment down the slope in pound-inches",
                       +[](const RowUnderStack& r) { return pound_inches(r.pull_moment); }),
                   field(
                       "normal_stress_psi", FieldUnit::ratio, "bending stress from the one in pounds per square inch",
                       +[](const RowUnderStack& r) { return psi(r.normal_stress); }),
                   field(
                       "pull_stress_psi", FieldUnit::ratio, "bending stress from the other in pounds per square inch",
                       +[](const RowUnderStack& r) { return psi(r.pull_stress); }),
                   field("normal_use", FieldUnit::ratio, "stress over what is allowed, square to the slope",
                         &RowUnderStack::normal_use),
                   field("pull_use", FieldUnit::ratio, "the same down the slope", &RowUnderStack::pull_use),
                   field("utilisation", FieldUnit::ratio, "the sum of both", &RowUnderStack::utilisation));
};

/// A stack on the purlins of one bay.
struct StackOnPurlins {
    Mass stack;
    Force normal;   ///< the whole stack's, square to the slope
    Force pull;     ///< the whole stack's, down the slope
    Length loaded;  ///< of this bay, that lies under it
    double in_bay;  ///< share of the stack over this bay
    std::vector<RowUnderStack> rows;
    std::size_t governing;     ///< index of the purlin that is used up most
    double utilisation;        ///< of that one
    std::int64_t most_sheets;  ///< of this size, in the same place, that use none up; `most_stacked` at most
    std::string_view equation;
    bool unverified;
    Verdict verdict;
    std::string_view reason;  ///< why there is no verdict; empty where there is one
};
template <>
struct FieldsOf<StackOnPurlins> {
    static constexpr auto list = field_list(
        field(
            "stack_pounds", FieldUnit::ratio, "mass of the stack in pounds",
            +[](const StackOnPurlins& s) { return pounds(s.stack); }),
        field(
            "normal_lb", FieldUnit::ratio, "of the whole stack, square to the slope, in pounds",
            +[](const StackOnPurlins& s) { return pounds_force(s.normal); }),
        field(
            "pull_lb", FieldUnit::ratio, "of the whole stack, down the slope, in pounds",
            +[](const StackOnPurlins& s) { return pounds_force(s.pull); }),
        field("loaded", FieldUnit::length, "length of the bay under it", &StackOnPurlins::loaded),
        field("in_bay", FieldUnit::ratio, "share of the stack over this bay", &StackOnPurlins::in_bay),
        field("rows", FieldUnit::none, "purlins under it, the one with the cleat first", &StackOnPurlins::rows),
        field("governing", FieldUnit::count, "index of the purlin that is used up most", &StackOnPurlins::governing),
        field("utilisation", FieldUnit::ratio, "of that one", &StackOnPurlins::utilisation),
        field("most_sheets", FieldUnit::count, "sheets in that place that use none up", &StackOnPurlins::most_sheets),
        field("equation", FieldUnit::none, "bending and its interaction", &StackOnPurlins::equation),
        field("unverified", FieldUnit::none, "what is allowed rests on memory", &StackOnPurlins::unverified),
        field("verdict", FieldUnit::none, "holds, fails, or no verdict", &StackOnPurlins::verdict),
        field("reason", FieldUnit::none, "why there is no verdict", &StackOnPurlins::reason));
};

inline void find_faults(const StackedSheets& sheets, const Path& path, Faults& faults) {
    detail::require_number(pounds(sheets.each), 0.001, 10000.0, " lb", Path{path, "each"}, faults);
    if (sheets.count < 0 || sheets.count > most_stacked) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "count"}.text(), std::to_string(sheets.count),
                               "0 to " + std::to_string(most_stacked)});
    }
    require_within(sheets.along, one_inch, Length::from_feet(60.0), Path{path, "along"}, faults);
    require_within(sheets.up, one_inch, Length::from_feet(60.0), Path{path, "up"}, faults);
}

namespace detail {
inline void require_bending(Volume modulus, Pressure allowable, const Path& path, Faults& faults) {
    require_number(cubic_inches(modulus), 0.01, 1000.0, " cu in", Path{path, "section_modulus"}, faults);
    require_number(psi(allowable), 1.0, 20000.0, " psi", Path{path, "allowable"}, faults);
}
}  // namespace detail

inline void find_faults(const PurlinsUnder& under, const Path& path, Faults& faults) {
    require_within(under.bay, Length::from_feet(1.0), Length::from_feet(100.0), Path{path, "bay"}, faults);
    require_within(under.start, Length::from_feet(-60.0), Length::from_feet(100.0), Path{path, "start"}, faults);
    detail::require_number(pounds_per_foot(under.dead), 0.0, 1000.0, " lb per ft", Path{path, "dead"}, faults);
    detail::require_bending(under.section_modulus, under.allowable, path, faults);
    if (const auto* bends = std::get_if<CleatedPurlinBends>(&under.pull)) {
        detail::require_bending(bends->section_modulus, bends->allowable, Path{path, "pull"}, faults);
    }
    const Path rows{path, "rows"};
    if (under.rows.size() < 2 || under.rows.size() > 64) {
        faults.push_back(Fault{FaultCode::out_of_range, rows.text(), std::to_string(under.rows.size()) + " rows",
                               "2 to 64: on a single one a stack tips"});
    }
    for (std::size_t i = 0; i < under.rows.size(); ++i) {
        const Path row{rows, i};
        require_within(under.rows[i], Length::from_feet(-60.0), Length::from_feet(120.0), row, faults);
        if (i > 0 && !(under.rows[i] >= under.rows[i - 1] + one_inch)) {
            faults.push_back(Fault{FaultCode::out_of_order, row.text(), describe_length(under.rows[i]),
                                   "an inch or more above the row before"});
        }
    }
}

namespace detail {
/// Shares of a stack from 0 to `up` among rows, hinged over those between; they add up to 1.
[[nodiscard]] inline std::vector<double> stack_shares(const std::vector<Length>& rows, Length up) {
    std::vector<double> shares(rows.size(), 0.0);
    for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
        const Length low = i == 0 ? no_length : longer(no_length, shorter(rows[i], up));
        const Length high = i + 2 == rows.size() ? up : longer(no_length, shorter(rows[i + 1], up));
        if (high > low) {
            const double here = (high - low) / up;
            const double upper = ((low + high) / 2.0 - rows[i]) / (rows[i + 1] - rows[i]);
            shares[i] += here * (1.0 - upper);
            shares[i + 1] += here * upper;
        }
    }
    for (std::size_t i = 0; i < shares.size(); ++i) {
        if (shares[i] < 0.0) {
            throw FaultError{Fault{FaultCode::does_not_fit, Path{Path{Path{"under"}, "rows"}, i}.text(),
                                   describe_length(rows[i]),
                                   "rows so placed that the stack lifts off none: its ends hang too far past them"}};
        }
    }
    return shares;
}

/// The stack's stretch within the bay.
struct StackStretch {
    Length from;
    Length to;
};
[[nodiscard]] inline StackStretch stack_stretch(const StackedSheets& sheets, const PurlinsUnder& under) {
    const StackStretch stretch{longer(no_length, under.start), shorter(under.bay, under.start + sheets.along)};
    if (!(stretch.to - stretch.from > no_length)) {
        throw FaultError{Fault{FaultCode::does_not_fit, "under.start", describe_length(under.start),
                               "a stack that lies over some of the bay"}};
    }
    return stretch;
}

/// One row under `stack` pounds of sheets.
[[nodiscard]] inline RowUnderStack load_row(double stack, const StackedSheets& sheets, const PurlinsUnder& under,
                                            StackStretch stretch, std::size_t row, double share) {
    const double cosine = under.pitch.cosine();
    const double sine = under.pitch.sine();
    const LineLoad whole = force_from_pounds(stack) / sheets.along;
    const PartlyLoadedSpan normal{under.bay, stretch.from, stretch.to, whole * (share * cosine), under.dead * cosine};
    const auto* bends = std::get_if<CleatedPurlinBends>(&under.pull);
    const PartlyLoadedSpan pull{under.bay, stretch.from, stretch.to, whole * (bends && row == 0 ? sine : 0.0),
                                under.dead * (bends ? sine : 0.0)};
    const Moment m = normal.greatest_moment();
    const Moment p = pull.greatest_moment();
    const auto stress = [](Moment moment, Volume modulus) {
        return pressure_from_psi(pound_inches(moment) / cubic_inches(modulus));
    };
    const Pressure fm = stress(m, under.section_modulus);
    const Pressure fp = bends ? stress(p, bends->section_modulus) : pressure_from_psi(0.0);
    const double m_use = psi(fm) / psi(under.allowable);
    const double p_use = bends ? psi(fp) / psi(bends->allowable) : 0.0;
    const Force left = normal.left();
    const Force right = normal.right();
    return {.up = under.rows[row],
            .share = share,
            .normal_line = normal.stack,
            .pull_line = pull.stack,
            .normal = normal.stack * (stretch.to - stretch.from),
            .end = left < right ? right : left,
            .normal_moment = m,
            .pull_moment = p,
            .normal_stress = fm,
            .pull_stress = fp,
            .normal_use = m_use,
            .pull_use = p_use,
            .utilisation = m_use + p_use};
}

/// Every row under `count` sheets.
struct RowsUnderStack {
    const StackedSheets& sheets;
    const PurlinsUnder& under;
    StackStretch stretch;
    std::vector<double> shares;

    [[nodiscard]] std::vector<RowUnderStack> at(std::int64_t count) const {
        const double stack = pounds(sheets.each) * static_cast<double>(count);
        std::vector<RowUnderStack> rows;
        rows.reserve(shares.size());
        for (std::size_t i = 0; i < shares.size(); ++i) {
            rows.push_back(load_row(stack, sheets, under, stretch, i, shares[i]));
        }
        return rows;
    }
    [[nodiscard]] static std::size_t hardest(const std::vector<RowUnderStack>& rows) {
        std::size_t worst = 0;
        for (std::size_t i = 1; i < rows.size(); ++i) {
            worst = rows[i].utilisation > rows[worst].utilisation ? i : worst;
        }
        return worst;
    }
    /// Use never falls as sheets are added, so halving finds the last count that is held.
    [[nodiscard]] std::int64_t most() const {
        std::int64_t held = 0;
        std::int64_t beyond = most_stacked + 1;
        while (beyond - held > 1) {
            const std::int64_t middle = held + (beyond - held) / 2;
            const std::vector<RowUnderStack> rows = at(middle);
            (rows[hardest(rows)].utilisation <= 1.0 ? held : beyond) = middle;
        }
        return held;
    }
};
}  // namespace detail

/// A stack on bare purlins of one bay, by bending alone: M/S against what the caller says is allowed, simple spans, both
/// directions added for the purlin with the cleat. The greatest moments of both are added wherever they stand, which is exact
/// where the stack lies in the middle of the bay and safe elsewhere. The growth of the weak-axis stress by the other
/// (NDS 3.9-3) is left out: it adds less than 10 % to that part while the other stays below 0.3 FbE. Shear, deflection,
/// bearing, frames, bracing, the cleat, and people beside the stack are not in it; a load that a licensed professional has
/// named for the roof is not raised by it. No verdict where what is allowed rests on memory.
/// A stiff stack on uneven purlins may rest on fewer of them: give those alone.
/// Throws `FaultError` with the first fault of an input, does_not_fit where the stack lies outside the bay or would lift off a
/// row. Shown with `holding_caution`.
[[nodiscard]] inline StackOnPurlins check_stack_on_purlins(const StackedSheets& sheets, const PurlinsUnder& under) {
    require_sound(sheets, "sheets");
    require_sound(under, "under");
    const detail::StackStretch stretch = detail::stack_stretch(sheets, under);
    const detail::RowsUnderStack all{sheets, under, stretch, detail::stack_shares(under.rows, sheets.up)};
    const Mass stack = sheets.each * static_cast<double>(sheets.count);
    StackOnPurlins check{.stack = stack,
                         .normal = force_from_pounds(pounds(stack) * under.pitch.cosine()),
                         .pull = force_from_pounds(pounds(stack) * under.pitch.sine()),
                         .loaded = stretch.to - stretch.from,
                         .in_bay = (stretch.to - stretch.from) / sheets.along,
                         .rows = all.at(sheets.count),
                         .governing = 0,
                         .utilisation = 0.0,
                         .most_sheets = all.most(),
                         .equation = "fb = M / S; fb / Fb' in both directions added",
                         .unverified = under.unverified,
                         .verdict = Verdict::no_verdict,
                         .reason = {}};
    check.governing = detail::RowsUnderStack::hardest(check.rows);
    check.utilisation = check.rows[check.governing].utilisation;
    if (check.unverified) {
        check.reason = "what is allowed in bending rests on memory";
    } else {
        check.verdict = check.utilisation <= 1.0 ? Verdict::holds : Verdict::fails;
    }
    return check;
}

}  // namespace eavewright
