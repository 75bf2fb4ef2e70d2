// SPDX-License-Identifier: BSL-1.0
#pragma once

// How long a panel is ordered, and what its length costs: the overhang it leaves, the end lap, growth with heat.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <cstdint>
#include <string>
#include <utility>

namespace eavewright {

/// How far the lower end of the steel may stand past the edge below it, along the slope. Past a rafter end: 2 in
/// (Univ. of Florida UF00008517, step 51); past sheathing without a drip strip: 2 in (Theatre Catalog 1952, p. 231);
/// the least and the aimed one are common practice.
struct EaveWindow {
    Length least = Length::from_inches(1.0);
    Length aimed = Length::from_inches(1.5);
    Length most = Length::from_inches(2.0);
};

inline void find_faults(const EaveWindow& window, const Path& path, Faults& faults) {
    const Length foot = Length::from_inches(12.0);
    require_within(window.least, no_length, 4.0 * foot, Path{path, "least"}, faults);
    require_within(window.aimed, no_length, 4.0 * foot, Path{path, "aimed"}, faults);
    require_within(window.most, no_length, 4.0 * foot, Path{path, "most"}, faults);
    if (!(window.least <= window.aimed && window.aimed <= window.most)) {
        faults.push_back(Fault{
            FaultCode::out_of_order, path.text(),
            describe_length(window.least) + ", " + describe_length(window.aimed) + ", " + describe_length(window.most),
            "least <= aimed <= most"});
    }
}

/// A length to order, and the overhang that it leaves.
struct FittedLength {
    Length order;     ///< a whole number of increments
    Length overhang;  ///< past the eave's edge, with the upper end where it belongs
    bool fits;        ///< whether some increment lands in the window; else `order` is long and its upper end is cut
};
template <>
struct FieldsOf<FittedLength> {
    static constexpr auto list = field_list(
        field("order", FieldUnit::length, "length to order", &FittedLength::order),
        field("overhang", FieldUnit::length, "past the eave's edge", &FittedLength::overhang),
        field("fits", FieldUnit::none, "whether an increment lands in the overhang window", &FittedLength::fits));
};

namespace detail {
inline void require_increment(Length increment) {
    Faults faults;
    require_within(increment, Length::from_inches(1.0 / 64.0), Length::from_feet(4.0), Path{"increment"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
}

/// The first whole number of increments not below `length`.
[[nodiscard]] inline Length round_up_to_increment(Length length, Length increment) {
    return increment * static_cast<double>(steps_to_cover(length, increment));
}
}  // namespace detail

/// The order length for a panel that reaches `above_edge` up the slope from the eave's edge to its upper end: the whole
/// number of increments whose overhang lies in `window`, nearest to the aimed one (the longer of two as near). Where
/// none does, the panel keeps the aimed overhang and comes an increment long.
/// Throws `FaultError` with the first fault of an input; an increment is 1/64 in to 4 ft.
[[nodiscard]] inline FittedLength fit_length(Length above_edge, const EaveWindow& window, Length increment) {
    require_sound(window, "eave");
    detail::require_increment(increment);
    const std::int64_t below = whole_steps(above_edge + window.aimed, increment);
    const auto overhang_of = [&](std::int64_t steps) { return increment * static_cast<double>(steps) - above_edge; };
    const auto fits = [&](std::int64_t steps) {
        return steps > 0 && overhang_of(steps) >= window.least - count_tolerance &&
               overhang_of(steps) <= window.most + count_tolerance;
    };
    const Length short_by = magnitude(window.aimed - overhang_of(below));
    const Length long_by = magnitude(overhang_of(below + 1) - window.aimed);
    const bool longer_first = long_by < short_by + count_tolerance && short_by > count_tolerance;
    for (const std::int64_t steps : {longer_first ? below + 1 : below, longer_first ? below : below + 1}) {
        if (fits(steps)) {
            return {increment * static_cast<double>(steps), overhang_of(steps), true};
        }
    }
    return {detail::round_up_to_increment(above_edge + window.aimed, increment), window.aimed, false};
}

/// Material for each unit of covered area where panels of one length lap by `lap` at their ends: L / (L - lap).
/// Throws does_not_fit unless 0 <= lap < length, and for lengths that are not finite.
[[nodiscard]] inline double end_lap_factor(Length length, Length lap) {
    if (!is_usable(length) || !is_usable(lap) || lap < no_length || !(length - lap > count_tolerance)) {
        throw FaultError{Fault{FaultCode::does_not_fit, "lap", describe_length(lap),
                               "0 to less than the panel's " + describe_length(length)}};
    }
    return length / (length - lap);
}

/// How many panels of one laid size cover an area, a part counted whole: a check on a layout, never a layout.
/// Throws `FaultError` for an area or sizes that cannot be counted.
[[nodiscard]] inline std::int64_t panels_for_area(Area area, Length cover, Length laid_length) {
    if (!(is_usable(cover) && cover > count_tolerance)) {
        throw FaultError{Fault{FaultCode::out_of_range, "cover", describe_length(cover), "a cover above 0"}};
    }
    return steps_to_cover(area / cover, laid_length);
}

/// A difference of temperature.
class TemperatureChange {
public:
    [[nodiscard]] static constexpr TemperatureChange from_celsius(double degrees) { return TemperatureChange{degrees}; }
    [[nodiscard]] static constexpr TemperatureChange from_fahrenheit(double degrees) {
        return TemperatureChange{degrees * 5.0 / 9.0};
    }
    [[nodiscard]] constexpr double celsius() const noexcept { return celsius_; }

private:
    constexpr explicit TemperatureChange(double celsius) : celsius_{celsius} {
        if (!(celsius >= -500.0 && celsius <= 500.0)) {
            throw FaultError{Fault{FaultCode::out_of_range, "temperature", write_decimal(celsius, 3) + " C",
                                   "a change within 500 C"}};
        }
    }
    double celsius_;
};

/// Growth of steel for each degree Celsius: 12 mm in 1000 m (NZ Metal Roof and Wall Cladding Code of Practice v3.0,
/// Temperature Range). 6.5e-6 for each degree Fahrenheit, as other books have it, is 2.6 % less.
inline constexpr double steel_growth_per_celsius = 12e-6;

/// How much a panel of `length` grows (or shrinks) from end to end; each end moves half where its middle is held.
[[nodiscard]] inline Length thermal_growth(Length length, TemperatureChange change,
                                           double growth_per_celsius = steel_growth_per_celsius) {
    if (!is_usable(length) || !(growth_per_celsius >= 0.0 && growth_per_celsius <= 1e-3)) {
        throw FaultError{Fault{FaultCode::out_of_range, "growth_per_celsius", write_decimal(growth_per_celsius, 9),
                               "0 to 0.001 and a finite length"}};
    }
    return length * (growth_per_celsius * change.celsius());
}

/// What a rake that is not square to the eave does to panels that are laid square to it.
struct RakeTaper {
    Length lean;       ///< of the rake from eave to ridge, to the right when facing up the slope
    Length hidden;     ///< the wedge that the trim must hide, at its wide end
    Length saw_tooth;  ///< step at the eave from panel to panel if they were laid along the rake instead
};
template <>
struct FieldsOf<RakeTaper> {
    static constexpr auto list = field_list(
        field("lean", FieldUnit::length, "of the rake from eave to ridge, to the right facing up", &RakeTaper::lean),
        field("hidden", FieldUnit::length, "wedge that the trim must hide", &RakeTaper::hidden),
        field("saw_tooth", FieldUnit::length, "step at the eave from panel to panel if laid along the rake",
              &RakeTaper::saw_tooth));
};

/// The taper of a rake that leans by `lean` in `rise` up the slope. Saw-tooth: cover x lean / rise (NZ Code of Practice
/// v3.0, 14.9: trim a step of more than 5 mm to a line, better lay square to the eave).
/// Throws `FaultError` unless all are finite, rise and cover above 0.
[[nodiscard]] inline RakeTaper rake_taper(Length lean, Length rise, Length cover) {
    Faults faults;
    const Length most = Length::from_inches(length_limit_in);
    require_within(lean, -most, most, Path{"lean"}, faults);
    require_within(rise, one_inch, most, Path{"rise"}, faults);
    require_within(cover, one_inch, most, Path{"cover"}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
    return {lean, magnitude(lean), cover * (magnitude(lean) / rise)};
}

}  // namespace eavewright
