// SPDX-License-Identifier: BSL-1.0
#pragma once

// A sheet over supports: the spacing that it has to span against the span, and the loads against the loads, of its rating.
// And how one printed figure is carried to another spacing where bending decides.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/holding/verdict.hpp>
#include <eavewright/loads/edition.hpp>
#include <eavewright/tiling/span_rating.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

namespace eavewright {

/// What is under the long edges of sheets between supports.
enum class LongEdges {
    held,  ///< clips, tongue and groove or blocking
    free,
};
template <>
struct NamesOf<LongEdges> {
    static constexpr std::array<std::string_view, 2> list{"held", "free"};
};

/// Loads that a rated sheet takes on its widest span.
struct RatedLoads {
    Pressure total;
    Pressure live;           ///< the part of it that is not the roof's own weight
    bool unverified = true;  ///< not read off the code or the maker's sheet
};
template <>
struct FieldsOf<RatedLoads> {
    static constexpr auto list = field_list(
        field(
            "total_psf", FieldUnit::ratio, "total load in pounds per square foot",
            +[](const RatedLoads& l) { return psf(l.total); }),
        field(
            "live_psf", FieldUnit::ratio, "live or snow load in pounds per square foot",
            +[](const RatedLoads& l) { return psf(l.live); }),
        field("unverified", FieldUnit::none, "not read off the code or the maker's sheet", &RatedLoads::unverified));
};

/// IRC 2018 and 2021, Table R503.2.1.1(1), FROM MEMORY and marked `unverified`, as `widest_spans` is.
[[nodiscard]] inline RatedLoads rated_loads(SpanRating rating) {
    Faults faults;
    detail::require_named(rating, Path{"rating"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    struct Row {
        double total;
        double live;
    };
    constexpr std::array<Row, 8> rows{{{40, 30}, {40, 30}, {40, 30}, {50, 40}, {40, 30}, {40, 30}, {45, 35}, {45, 35}}};
    const Row row = rows[static_cast<std::size_t>(rating)];
    return {pressure_from_psf(row.total), pressure_from_psf(row.live)};
}

/// A sheet as it lies, its strength axis across the supports.
struct SheetOverSupports {
    Length spacing;      ///< of the supports, centre to centre along the slope; 1 in to 20 ft
    std::int64_t spans;  ///< that one sheet goes over; two or more, since the rating speaks of no fewer
    LongEdges long_edges;
    Pressure total;  ///< by area in plan, snow or roof live with the roof's own weight; 0 to 1000 psf
    Pressure live;   ///< the part of it that is not the roof's own weight
};

inline void find_faults(const SheetOverSupports& sheet, const Path& path, Faults& faults) {
    require_within(sheet.spacing, one_inch, Length::from_feet(20.0), Path{path, "spacing"}, faults);
    if (sheet.spans < 1 || sheet.spans > 1000) {
        faults.push_back(
            Fault{FaultCode::out_of_range, Path{path, "spans"}.text(), std::to_string(sheet.spans), "2 to 1000"});
    } else if (sheet.spans == 1) {
        faults.push_back(Fault{FaultCode::not_supported, Path{path, "spans"}.text(), "1",
                               "two spans or more; no figures for a sheet over a single span are held"});
    }
    detail::require_named(sheet.long_edges, Path{path, "long_edges"}, faults);
    detail::require_number(psf(sheet.total), 0.0, 1000.0, " psf", Path{path, "total"}, faults);
    detail::require_number(psf(sheet.live), 0.0, 1000.0, " psf", Path{path, "live"}, faults);
    if (psf(sheet.live) > psf(sheet.total)) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "live"}.text(),
                               write_decimal(psf(sheet.live), 3) + " psf", "no more than the total load"});
    }
}

/// What is used up most.
enum class SheetLimit { span, total_load, live_load };
template <>
struct NamesOf<SheetLimit> {
    static constexpr std::array<std::string_view, 3> list{"span", "total_load", "live_load"};
};

/// A sheet's span and loads against those of its rating.
struct SheetSpan {
    Length asked;   ///< spacing of the supports
    Length widest;  ///< of the rating, with its edges as they are
    double span_use;
    Pressure rated_total;
    double total_use;
    Pressure rated_live;
    double live_use;
    SheetLimit governing;
    double utilisation;  ///< the greatest of the three
    bool edges_decide;   ///< too wide as it lies, but not with its long edges held
    bool unverified;
    Verdict verdict;
    std::string_view reason;  ///< why there is no verdict; empty where there is one
};
template <>
struct FieldsOf<SheetSpan> {
    static constexpr auto list = field_list(
        field("asked", FieldUnit::length, "spacing of the supports", &SheetSpan::asked),
        field("widest", FieldUnit::length, "widest span of the rating, edges as they are", &SheetSpan::widest),
        field("span_use", FieldUnit::ratio, "spacing over widest span", &SheetSpan::span_use),
        field(
            "rated_total_psf", FieldUnit::ratio, "total load of the rating in pounds per square foot",
            +[](const SheetSpan& s) { return psf(s.rated_total); }),
        field("total_use", FieldUnit::ratio, "total load over that of the rating", &SheetSpan::total_use),
        field(
            "rated_live_psf", FieldUnit::ratio, "live load of the rating in pounds per square foot",
            +[](const SheetSpan& s) { return psf(s.rated_live); }),
        field("live_use", FieldUnit::ratio, "live load over that of the rating", &SheetSpan::live_use),
        field("governing", FieldUnit::none, "what is used up most", &SheetSpan::governing),
        field("utilisation", FieldUnit::ratio, "the greatest of the three", &SheetSpan::utilisation),
        field("edges_decide", FieldUnit::none, "too wide with free edges, not with held ones",
              &SheetSpan::edges_decide),
        field("unverified", FieldUnit::none, "a figure of the rating is from memory", &SheetSpan::unverified),
        field("verdict", FieldUnit::none, "holds, fails, or no verdict", &SheetSpan::verdict),
        field("reason", FieldUnit::none, "why there is no verdict", &SheetSpan::reason));
};

namespace detail {
inline void require_rating(const WidestSpans& spans, const RatedLoads& loads) {
    Faults faults;
    require_within(spans.edges_held, one_inch, Length::from_feet(20.0), Path{"spans.edges_held"}, faults);
    require_within(spans.edges_free, one_inch, spans.edges_held, Path{"spans.edges_free"}, faults);
    require_number(psf(loads.total), 1.0, 1000.0, " psf", Path{"loads.total"}, faults);
    require_number(psf(loads.live), 1.0, psf(loads.total), " psf", Path{"loads.live"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
}
}  // namespace detail

/// A sheet against spans and loads that somebody read off its stamp and the code in force (`unverified` false), or that are
/// from memory. A spacing that misses the widest span by `count_tolerance` is that span. The rated loads hold on the widest
/// span and are not raised on a shorter one. Wind is not in it. Throws `FaultError` with the first fault of an input,
/// not_supported for a sheet over one span. Shown with `holding_caution`.
[[nodiscard]] inline SheetSpan check_sheet_span(const SheetOverSupports& sheet, const WidestSpans& spans,
                                                const RatedLoads& loads) {
    require_sound(sheet, "sheet");
    detail::require_rating(spans, loads);
    const Length widest = sheet.long_edges == LongEdges::held ? spans.edges_held : spans.edges_free;
    const bool spans_it = sheet.spacing <= widest + count_tolerance;
    SheetSpan check{.asked = sheet.spacing,
                    .widest = widest,
                    .span_use = sheet.spacing / widest,
                    .rated_total = loads.total,
                    .total_use = psf(sheet.total) / psf(loads.total),
                    .rated_live = loads.live,
                    .live_use = psf(sheet.live) / psf(loads.live),
                    .governing = SheetLimit::span,
                    .utilisation = sheet.spacing / widest,
                    .edges_decide = !spans_it && sheet.spacing <= spans.edges_held + count_tolerance,
                    .unverified = spans.unverified || loads.unverified,
                    .verdict = Verdict::no_verdict,
                    .reason = {}};
    if (check.total_use > check.utilisation) {
        check.governing = SheetLimit::total_load;
        check.utilisation = check.total_use;
    }
    if (check.live_use > check.utilisation) {
        check.governing = SheetLimit::live_load;
        check.utilisation = check.live_use;
    }
    if (check.unverified) {
        check.reason = "spans or loads of the rating are from memory";
    } else {
        check.verdict = spans_it && check.total_use <= 1.0 && check.live_use <= 1.0 ? Verdict::holds : Verdict::fails;
    }
    return check;
}

/// The same by the stamp alone, from `widest_spans` and `rated_loads`, which are from memory: never a verdict.
[[nodiscard]] inline SheetSpan check_sheet_span(const SheetOverSupports& sheet, SpanRating rating) {
    const RatedLoads loads = rated_loads(rating);  // refuses a number that is no rating
    return check_sheet_span(sheet, widest_spans(rating), loads);
}

/// How far the two laws below are trusted, as the ratio of two spacings either way. Printed tables that follow them reach
/// over ratios of 2.3 (sheets) and 2 (purlins); past that deflection may decide instead.
inline constexpr double farthest_scaled_ratio = 2.5;

namespace detail {
inline void require_scalable(Length from, Length to) {
    Faults faults;
    require_within(from, one_inch, Length::from_feet(100.0), Path{"from"}, faults);
    require_within(to, one_inch, Length::from_feet(100.0), Path{"to"}, faults);
    if (faults.empty()) {
        require_within(to, from / farthest_scaled_ratio, from * farthest_scaled_ratio, Path{"to"}, faults);
    }
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
}
}  // namespace detail

/// The load that a sheet takes at supports `to` apart, from a printed `load` at supports `from` apart: load times spacing
/// squared is constant where bending decides. Lengths 1 in to 100 ft, their ratio within `farthest_scaled_ratio`, load 0 to
/// 10,000 psf (else `FaultError`). Printed tables follow it within 2.4 %.
[[nodiscard]] inline Pressure scale_load_to_spacing(Pressure load, Length from, Length to) {
    detail::require_scalable(from, to);
    Faults faults;
    detail::require_number(psf(load), 0.0, 10000.0, " psf", Path{"load"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    const double ratio = from / to;
    return load * (ratio * ratio);
}

/// The span of a purlin in rows `to` apart, from a printed `span` in rows `from` apart: span squared times spacing is constant
/// where bending decides. Range as `scale_load_to_spacing`. Printed tables follow it within the half of their last digit.
[[nodiscard]] inline Length scale_span_to_spacing(Length span, Length from, Length to) {
    detail::require_scalable(from, to);
    Faults faults;
    require_within(span, one_inch, Length::from_feet(100.0), Path{"span"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    return span * std::sqrt(from / to);
}

}  // namespace eavewright
